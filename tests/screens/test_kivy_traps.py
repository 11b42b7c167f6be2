"""Two traps of Kivy: a widget is known by its class's name alone; a rule may read a record once."""

import importlib
import pkgutil

import pytest

from tests.screens import tablet  # noqa: F401 - sets the environment before Kivy is imported


def kinds_of(kind):
    """Every class made of a kind, near and far."""
    for made in kind.__subclasses__():
        yield made
        yield from kinds_of(made)


@pytest.fixture(scope="module", autouse=True)
def everything(window):
    """Every screen and every part is loaded."""
    import screens

    for found in pkgutil.walk_packages(screens.__path__, "screens."):
        importlib.import_module(found.name)


def test_no_two_widgets_share_a_name():
    from kivy.uix.widget import Widget

    named = {}
    for made in set(kinds_of(Widget)):
        if made.__module__.startswith(("screens.", "kivy.uix.")):
            named.setdefault(made.__name__, []).append(made)
    ours = {
        name: kinds
        for name, kinds in named.items()
        if any(kind.__module__.startswith("screens.") for kind in kinds)
    }
    assert len(ours) > 50
    assert {name: kinds for name, kinds in ours.items() if len(kinds) > 1} == {}


def states():
    """Every property of the workroom and of the screens' states: does a rule follow it?"""
    from screens.view import View
    from screens.workroom import Workroom

    followed = {}
    for kind in [Workroom, *kinds_of(View)]:
        state = kind.__new__(kind)
        for name, known in state.properties().items():
            followed.setdefault(name, set()).add(bool(getattr(known, "rebind", False)))
    return followed


def read_once(rule, followed):
    """The chains of a rule that would keep the value of a record that has long been replaced."""
    chains = {tuple(keys) for keys in rule.watched_keys or ()}
    for chain in chains:
        for end in range(3, len(chain)):
            of_a_state = chain[end - 2] in ("view", "owner", "room")
            loose = followed.get(chain[end - 1]) == {False}
            if of_a_state and loose and chain[:end] not in chains:
                yield ".".join(chain)


def test_a_rule_that_reads_a_record_of_a_state_reads_the_next_one_too():
    from kivy.lang import Builder

    followed, seen = states(), 0
    for _, rule in Builder.rules:
        if "screens" not in str(rule.ctx.filename):
            continue
        for inside in [rule, *inner(rule)]:
            for read in inside.properties.values():
                seen += 1
                where = f"{rule.ctx.filename}:{read.line}"
                assert list(read_once(read, followed)) == [], where
    assert seen > 1000


def inner(rule):
    for child in rule.children:
        yield child
        yield from inner(child)
