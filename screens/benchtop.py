"""What lies on the bench, in ready-to-show words: the properties that screens are bound to."""

from dataclasses import fields

from kivy.event import EventDispatcher
from kivy.properties import (
    BooleanProperty,
    ListProperty,
    ObjectProperty,
    OptionProperty,
    StringProperty,
)

from screens.shown import Shown

LEADS = ("pins", "tape", "both")
NO_CLIENT = "There is no client here yet"


class Benchtop(EventDispatcher):
    """The garment on the bench as its screens show it."""

    is_empty = BooleanProperty(True)
    empty_words = StringProperty(NO_CLIENT)
    client_id = StringProperty()
    title_line = StringProperty()
    garment_name = StringProperty()
    layers = ListProperty()
    layer = StringProperty()
    levels = ListProperty()
    moved_name = StringProperty("pinned")
    pins = ListProperty()
    pin = ObjectProperty(None, allownone=True)
    no_pins = StringProperty()
    has_fitting = BooleanProperty(False)
    no_steps = StringProperty()
    steps = ListProperty()
    follows = ListProperty()
    warnings = ListProperty()
    lead = OptionProperty("pins", options=LEADS)
    heading = StringProperty()
    can_undo = BooleanProperty(False)
    can_redo = BooleanProperty(False)
    trouble = StringProperty()
    reminder = StringProperty()

    def lay_out(self, client_id: str, shown: Shown) -> None:
        for each in fields(shown):
            setattr(self, each.name, getattr(shown, each.name))
        self.client_id = client_id
        self.is_empty = False

    def clear(self) -> None:
        """Show nothing of anybody."""
        self.lay_out("", Shown())
        self.is_empty, self.empty_words = True, NO_CLIENT
