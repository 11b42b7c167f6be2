"""A place on a screen where one of several parts stands; each is made when it is first shown."""

from typing import Any

from kivy.factory import Factory
from kivy.properties import BooleanProperty, DictProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout


class Place(BoxLayout):
    """Shows the class that ``kinds`` names for what is ``shown``; it is given ``view``, ``wide``.

    What is shown no more is let go of: what was typed in it does not come back.
    """

    kinds = DictProperty()
    shown = StringProperty("")
    view = ObjectProperty(None, allownone=True)
    wide = BooleanProperty(True)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._kept: Any = None
        self.fbind("shown", self._show)
        self.fbind("wide", self._hand_on)

    def on_kv_post(self, _base: Any) -> None:
        self._show()

    def _show(self, *_: object) -> None:
        if self.view is None or self.shown not in self.kinds:
            return
        self.clear_widgets()
        if not self.shown and self._kept is not None:
            part = self._kept  # the page itself is shown again and again
        else:
            part = Factory.get(self.kinds[self.shown])(view=self.view, wide=self.wide)
        if not self.shown:
            self._kept = part
        self.add_widget(part)
        self._hand_on()

    def _hand_on(self, *_: object) -> None:
        for part in self.children:
            part.wide = self.wide
