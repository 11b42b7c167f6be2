"""Undo goes back through all work since the app was opened, whichever client it was on."""

from copy import deepcopy
from typing import Any

import pytest

from core.store.history import History
from tests.core.store.invented import BEATRIX, WILHELMINA, client, other, with_note


def steps(*notes: str) -> list[dict[str, Any]]:
    return [client(note) for note in notes]


def test_changes_are_taken_back_last_first_over_all_clients() -> None:
    history, (first, second, third) = History(), steps("1", "2", "3")
    history.note(WILHELMINA, first, second, seen="waist")
    history.note(BEATRIX, other("a"), other("b"), seen="hip")
    history.note(WILHELMINA, second, third)
    taken = []
    while history.last is not None:
        taken.append((history.last.client_id, history.last.before, history.last.seen))
        history.took_back()
    assert taken == [
        (WILHELMINA, second, None),
        (BEATRIX, other("a"), "hip"),
        (WILHELMINA, first, "waist"),
    ]


def test_what_was_taken_back_is_done_again_in_the_order_it_was_done() -> None:
    history, (first, second, third) = History(), steps("1", "2", "3")
    history.note(WILHELMINA, first, second)
    history.note(WILHELMINA, second, third)
    history.took_back()
    history.took_back()
    assert history.last is None
    done = []
    while history.next is not None:
        done.append(history.next.after)
        history.did_again()
    assert done == [second, third]
    assert history.last is not None
    assert history.last.after == third


def test_a_new_change_ends_what_could_be_done_again() -> None:
    history, (first, second, third) = History(), steps("1", "2", "3")
    history.note(WILHELMINA, first, second)
    history.took_back()
    history.note(WILHELMINA, first, third)
    assert history.next is None
    assert history.last is not None
    assert history.last.before == first


def test_a_new_history_has_nothing_to_take_back() -> None:
    assert History().last is None
    assert History().next is None


def test_a_deleted_client_is_forgotten_and_the_others_are_not() -> None:
    history = History()
    for number in range(3):
        history.note(WILHELMINA, *steps(str(number), str(number + 1)))
        history.note(BEATRIX, other(str(number)), other(str(number + 1)))
    history.took_back()
    history.took_back()
    history.forget(WILHELMINA)
    assert history.next is not None
    assert history.next.client_id == BEATRIX
    history.did_again()
    assert history.next is None
    left = []
    while history.last is not None:
        left.append(history.last.after)
        history.took_back()
    assert left == [other("3"), other("2"), other("1")]


def test_a_long_history_keeps_what_did_not_change_only_once() -> None:
    history, before = History(), client("0", long=["x" * 1000])
    first = before
    for number in range(1, 20):
        after = with_note(deepcopy(before), str(number))
        history.note(WILHELMINA, before, after)
        assert history.last is not None
        before = history.last.after
        assert before == after
        assert before["long"] is first["long"]
        assert before["measurements"] is first["measurements"]


@pytest.mark.parametrize(("old", "new"), [(1, True), (True, 1), (0, False), (1, 1.0), ("1", 1)])
def test_what_is_equal_to_python_only_is_kept_as_it_was(old: Any, new: Any) -> None:
    history = History()
    history.note(WILHELMINA, {"a": {"b": [old]}}, {"a": {"b": [new]}})
    assert history.last is not None
    assert repr(history.last.before) == repr({"a": {"b": [old]}})
    assert repr(history.last.after) == repr({"a": {"b": [new]}})


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ({"a": 1}, {"b": 1}),
        ({"a": [1, 2, 3]}, {"a": [1]}),
        ({"a": [1]}, {"a": [1, 2, 3]}),
        ({"a": [1]}, {"a": {"0": 1}}),
        ({}, {"a": None}),
        ({"a": None}, {}),
        ({"a": 1, "b": 2}, {"b": 2, "a": 1}),
    ],
)
def test_every_change_is_kept_as_it_was_made(before: Any, after: Any) -> None:
    history = History()
    history.note(WILHELMINA, before, after)
    assert history.last is not None
    assert repr(history.last.after) == repr(after)
    assert repr(history.last.before) == repr(before)
