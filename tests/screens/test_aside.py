"""Slow work aside: it tells how far it is, is cancelled, and is handed back where touches are."""

import threading
from contextlib import contextmanager

import pytest

from core.errors import WorkroomError
from tests.screens.tablet import FRAME


@pytest.fixture
def hand(start):
    return start()


class Work:
    """Work that stays where it is until the test lets it go on."""

    def __init__(self, aside, name="work", trouble=None):
        self.begun, self.go_on = threading.Event(), threading.Event()
        self.name, self.trouble = name, trouble
        self.thread = self.result = self.told = None
        self.told_on = None
        self.finished = False
        aside.run(f"Doing {name}", self, self.then, self.otherwise)

    def __call__(self, progress):
        self.thread = threading.current_thread()
        progress(0, 3)
        self.begun.set()
        assert self.go_on.wait(20)
        progress(3, 3)
        self.finished = True
        if self.trouble is not None:
            raise self.trouble
        return self.name

    def then(self, result):
        self.result, self.told_on = result, threading.current_thread()

    def otherwise(self, error):
        self.told, self.told_on = error, threading.current_thread()


@contextmanager
def under_way(hand, **given):
    work = Work(hand.app.aside, **given)
    try:
        assert work.begun.wait(20)
        yield work
    finally:
        work.go_on.set()


def test_it_is_done_on_another_thread_and_handed_back_on_this_one(hand):
    with under_way(hand) as work:
        assert hand.app.aside.busy
    hand.wait()
    assert work.result == "work"
    assert work.thread is not threading.current_thread()
    assert work.told_on is threading.current_thread()


def test_what_she_can_put_right_is_handed_back_in_words(hand):
    with under_way(hand, trouble=WorkroomError("This is no photo")) as work:
        pass
    hand.wait()
    assert str(work.told) == "This is no photo"
    assert work.result is None
    assert work.told_on is threading.current_thread()


def test_a_fault_nobody_foresaw_rises_where_it_is_caught_and_work_goes_on(hand):
    with under_way(hand, trouble=RuntimeError("a fault")):
        pass
    with pytest.raises(RuntimeError, match="a fault"):
        hand.wait()
    assert not hand.app.aside.busy
    with under_way(hand) as work:
        pass
    hand.wait()
    assert work.result == "work"


def test_what_takes_a_while_says_how_far_it_is_under_the_head(hand):
    with under_way(hand):
        hand.frames(3)
        assert not any("Doing work" in text for text in hand.texts())
        hand.frames(round(0.5 / FRAME))
        assert "Doing work: 0 of 3" in hand.texts()
    hand.wait()
    assert not any("Doing work" in text for text in hand.texts())


def test_a_touch_cancels_and_nothing_comes_of_it(hand):
    with under_way(hand) as work:
        hand.frames(round(0.5 / FRAME))
        (line,) = hand.ids.work.children
        hand.tap(line.ids.key)
        assert not hand.app.aside.busy
        assert not any("Doing work" in text for text in hand.texts())
    with under_way(hand, name="the next"):
        pass
    hand.wait()
    assert (work.finished, work.result, work.told) == (False, None, None)


def test_one_thing_is_done_after_the_other_in_turn(hand):
    with under_way(hand, name="first") as first:
        second = Work(hand.app.aside, "second")
        hand.frames(5)
        assert not second.begun.is_set()
    assert second.begun.wait(20)
    assert first.finished
    second.go_on.set()
    hand.wait()
    assert (first.result, second.result) == ("first", "second")


def test_cancelling_gives_up_what_waits_too(hand):
    with under_way(hand, name="first"):
        second = Work(hand.app.aside, "second")
        hand.app.aside.cancel()
    hand.wait()
    with under_way(hand, name="third"):
        pass
    hand.wait()
    assert not second.begun.is_set()


def test_when_the_app_is_closed_its_thread_ends_and_nothing_is_handed_over(hand, launch):
    with under_way(hand) as work:
        threading.Timer(0.1, work.go_on.set).start()
        launch.stop()
        assert not work.thread.is_alive()
    assert (work.result, work.told) == (None, None)
