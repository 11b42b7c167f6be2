"""Kivy knows a widget by the name of its class alone: the name must be of one widget only."""

import importlib
import pkgutil

from tests.screens import tablet  # noqa: F401 - sets the environment before Kivy is imported


def widgets(kind):
    """Every class made of a kind, near and far."""
    for made in kind.__subclasses__():
        yield made
        yield from widgets(made)


def test_no_two_widgets_share_a_name(window):
    from kivy.uix.widget import Widget

    import screens

    for found in pkgutil.walk_packages(screens.__path__, "screens."):
        importlib.import_module(found.name)
    named = {}
    for made in set(widgets(Widget)):
        if made.__module__.startswith(("screens.", "kivy.uix.")):
            named.setdefault(made.__name__, []).append(made)
    ours = {
        name: kinds
        for name, kinds in named.items()
        if any(kind.__module__.startswith("screens.") for kind in kinds)
    }
    assert len(ours) > 50
    assert {name: kinds for name, kinds in ours.items() if len(kinds) > 1} == {}
