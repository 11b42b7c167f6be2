"""The field in which a client is looked for by the beginnings of her names."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ObjectProperty

from screens.parts import field
from screens.parts.field import Typed

__all__ = ["SearchField", "field"]


class SearchField(Typed):
    """What is typed is looked for at each letter."""

    row = BooleanProperty(True)
    owner = ObjectProperty(None, allownone=True, rebind=True)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
