"""A line of a list: a title over small words, what stands at its ends, and a rule under it."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts.press import OpenRow

__all__ = ["Chip", "ListedLine", "looks"]


class Chip(BoxLayout):
    """A few words on the caution's ground; without words it takes no room."""

    text = StringProperty("")


class ListedLine(OpenRow):
    """A row to touch; every word of it may be empty.

    ``lead`` stands at its beginning, ``end`` at its end, each with small words under it;
    ``chip`` is what presses.
    """

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    lead = StringProperty("")
    lead_words = StringProperty("")
    title = StringProperty("")
    words = StringProperty("")
    end = StringProperty("")
    end_words = StringProperty("")
    chip = StringProperty("")
    mark = StringProperty("")
    bold = BooleanProperty(False)
    lead_width = NumericProperty(0)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
