"""The head of a screen: the way back, what it is about, undo and redo; and trouble, in words."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from screens import looks
from screens.parts import notice, press, row_list

__all__ = ["Head", "TroubleLine", "looks", "notice", "press", "row_list"]

OWN_PARTS = 5
"""The row of the title, the row below it, a line, the trouble, and what is done aside."""


class TroubleLine(BoxLayout):
    """What could not be done, why, and what is safe; without words it takes no room."""

    text = StringProperty("")


class Head(BoxLayout):
    """A small line over a title, between the way back and undo and redo.

    What is put into it stands beside the title where it is ``wide``, in a row of its own below
    where it is not.  Under it stands what could not be done, and what is being done aside.
    """

    room = ObjectProperty(None, rebind=True, allownone=True)
    line = StringProperty("")
    title = StringProperty("")
    wide = BooleanProperty(True)

    def add_widget(self, widget: Widget, *given: object, **named: object) -> None:
        """Put the keys of a screen among the extra ones; its own parts in their places."""
        if len(self.children) < OWN_PARTS:  # they come first, by its own rule
            super().add_widget(widget, *given, **named)
        else:
            self.ids.extra.add_widget(widget, *given, **named)

    def on_wide(self, *_: object) -> None:
        self._place_extra()

    def on_kv_post(self, _base: Widget) -> None:
        self._place_extra()

    def _place_extra(self) -> None:
        """Let the extra keys stand where there is room for them."""
        if "extra" not in self.ids:
            return
        extra, row = self.ids.extra, self.ids.beside if self.wide else self.ids.below
        if extra.parent is not row:
            if extra.parent is not None:
                extra.parent.remove_widget(extra)
            row.add_widget(extra)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
