"""The first thing that is seen: the app's name, while everything else is loaded behind it."""

from pathlib import Path

TITLE = "Pins to Seams"


def show_title(folder: Path) -> None:
    """Draw the name once, in the colours she chose; the window is open already."""
    from kivy.core.text import Label
    from kivy.core.window import Window
    from kivy.graphics import Color, InstructionGroup, Rectangle
    from kivy.metrics import sp

    from core.settings import read_settings
    from screens.tokens import KEY, LARGE_FONT, colours
    from screens.worn import wear

    wear(read_settings(folder))
    Window.clearcolor = colours.paper
    name = Label(text=TITLE, font_name=LARGE_FONT, font_size=sp(KEY))
    name.refresh()
    wide, high = name.texture.size
    title = InstructionGroup()
    title.add(Color(*colours.ink))
    title.add(Rectangle(texture=name.texture, size=name.texture.size,
                        pos=((Window.width - wide) // 2, (Window.height - high) // 2)))  # fmt: skip
    Window.canvas.add(title)
    Window.dispatch("on_draw")
    Window.dispatch("on_flip")
    Window.canvas.remove(title)
