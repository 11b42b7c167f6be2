"""Drive the real app with fingers, in a real window that nobody sees.

SDL's *offscreen* driver needs no display: the machine needs the Mesa GL and EGL
libraries only.  Time moves one frame at a time, so nothing waits.

    KIVY_TEST_SHOW=1 pytest tests/screens         shows the window on a desktop
    KEEP_PICTURES=FOLDER pytest tests/screens     keeps every picture that a test looks at
"""

import gc
import sys
from datetime import datetime, time
from functools import partial
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.screens import tablet
from tests.screens.tablet import Hand, Tablet


@pytest.fixture(scope="session", autouse=True)
def window():
    """The one window of the process; Kivy cannot make a second one."""
    return tablet.open_window()


@pytest.fixture
def launch(window, tmp_path):
    """``launch(app, screen)`` starts an app and returns the hand that works it."""
    from screens.tokens import sizes

    running = Tablet(window, tmp_path)
    yield running
    running.stop()
    sizes.scale = 1.0  # letters as large as a test chose are not for the next one


@pytest.fixture
def start(launch, tmp_path):
    """``start(screen)`` opens the app on the test's own folder of data, on the demo's own day."""
    from core.client.demo import TOLD_ON
    from screens.app import PinsToSeamsApp

    noon = datetime.combine(TOLD_ON, time(12)).timestamp()

    def begin(screen: str = "landscape", folder: Path | None = None) -> Hand:
        launch.stop()
        return launch(PinsToSeamsApp(folder or tmp_path / "data", lambda: noon), screen)

    return begin


@pytest.fixture
def changes(start):
    """``changes(screen)`` opens the app on the changes of the first client, if there is one."""
    from tests.screens.folders import open_changes

    def begin(screen: str = "landscape") -> Hand:
        hand = start(screen)
        open_changes(hand)
        return hand

    return begin


@pytest.fixture
def fitting(launch, folder):
    """``fitting(document, chosen)`` opens the app at the fitting of the demo client."""
    from screens.tokens import sizes
    from tests.screens.fitting_hand import open_fitting

    yield partial(open_fitting, launch, folder)
    sizes.scale = 1.0
    gc.unfreeze()


@pytest.fixture
def again(launch, folder):
    """``again()`` opens another app on the same folder, as after the battery died."""
    from tests.screens.fitting_hand import open_again

    return partial(open_again, launch, folder)
