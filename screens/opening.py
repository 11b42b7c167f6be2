"""Opening the app: how Kivy is set, where the data lies, and the last resort.

Kivy is loaded only inside ``run``, after the environment says how.
"""

import logging
import os
from pathlib import Path

from core.memory import put_off
from core.store.usual import usual_folder
from screens.display import open_window
from screens.kivy_rules import read_few_rules
from screens.title import show_title


def run(folder: str | None) -> None:
    """Open the app and stay until it is closed; raises ``NoDisplay``.

    What stands in the way of the clients themselves is said on the screen.
    """
    put_off()
    _say_how()
    read_few_rules()
    _set_window()
    open_window()
    place = Path(folder) if folder else usual_folder()
    show_title(place)
    from kivy.base import ExceptionManager

    from screens.app import PinsToSeamsApp
    from screens.last_resort import LastResort

    app = PinsToSeamsApp(place)
    ExceptionManager.add_handler(LastResort(app.entry, app.room))
    app.run()


def _say_how() -> None:
    """Keep Kivy from the command line and from chatter; what goes wrong is ours to say.

    ``KIVY_LOG_MODE`` in the environment brings the chatter back.
    """
    os.environ["KIVY_NO_ARGS"] = "1"
    if "KIVY_LOG_MODE" not in os.environ:
        os.environ["KIVY_LOG_MODE"] = "PYTHON"  # or Kivy takes the error output over
        logging.getLogger("kivy").addHandler(logging.NullHandler())
        logging.getLogger("kivy").propagate = False
    os.environ.setdefault("KIVY_NO_FILELOG", "1")
    os.environ.setdefault("KIVY_NO_CONFIG", "1")
    os.environ.setdefault("KIVY_WINDOW", "sdl2")  # the others end the process without a word
    os.environ.setdefault("KIVY_IMAGE", "sdl2")  # or Pillow is loaded before the first screen


def _set_window() -> None:
    from kivy.config import Config

    Config.set("kivy", "exit_on_escape", "0")
    Config.set("graphics", "width", "1280")
    Config.set("graphics", "height", "800")
    Config.set("graphics", "multisamples", "0")  # each point drawn once: slanting lines are smooth
    Config.set("graphics", "minimum_width", "800")
    Config.set("graphics", "minimum_height", "800")
    Config.set("input", "mouse", "mouse,disable_multitouch")
