"""Every place of the app by name: where its state and its screen are written.

Both are loaded and made when she first goes there, so that the app opens at once.
"""

from collections.abc import Callable, Mapping
from functools import partial
from importlib import import_module
from typing import Any

from kivy.uix.screenmanager import Screen

from screens.view import View
from screens.workroom import Workroom

PLACES = {
    "day book": ("day_book_view:DayBookView", "day_book:DayBookScreen"),
    "client": ("client_view:ClientView", "client:ClientScreen"),
    "tape": ("tape_view:TapeView", "tape:TapeScreen"),
    "draft": ("draft_view:DraftView", "draft:DraftScreen"),
    "fitting": ("fitting_view:FittingView", "fitting:FittingScreen"),
    "sewing": ("sewing_view:SewingView", "sewing:SewingScreen"),
    "changes": ("changes_view:ChangesView", "changes:ChangesScreen"),
    "settings": ("settings_view:SettingsView", "settings:SettingsScreen"),
}


def ways() -> Mapping[str, Callable[[Workroom], View]]:
    """Return what makes the state of each place."""
    return {name: partial(_made, view) for name, (view, _) in PLACES.items()}


def screen_of(name: str, room: Workroom) -> Screen:
    """Make the screen of a place; its state is there already."""
    return _made(PLACES[name][1], name=name, room=room, view=room.view_of(name))  # type: ignore[no-any-return]


def _made(where: str, *given: Any, **named: Any) -> Any:
    module, _, kind = where.partition(":")
    return getattr(import_module(f"screens.{module}"), kind)(*given, **named)
