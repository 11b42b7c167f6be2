"""The device's voice: it says the newest words, and whatever it lacks never reaches a screen."""

import threading

import pytest

from screens import speech


class Loud:
    """A voice that fails in its own way, or writes down what it was told."""

    def __init__(self, fault=None):
        self.words, self.fault = [], fault

    def speak(self, message):
        if self.fault is not None:
            raise self.fault
        self.words.append(message)


@pytest.mark.parametrize(
    ("fault", "said"),
    [(None, "done"), (NotImplementedError(), "not here"), (OSError("no sound card"), "refused"),
     (FileNotFoundError("espeak"), "refused"), (ValueError(), "refused")],
)  # fmt: skip
def test_saying_something_never_raises(monkeypatch, fault, said):
    monkeypatch.setattr(speech, "tts", Loud(fault))
    assert speech.say("Waist.") == said


def test_a_device_without_a_voice_says_so(monkeypatch):
    from plyer.facades import TTS

    monkeypatch.setattr(speech, "tts", TTS())
    assert not speech.can_speak()
    assert speech.say("Waist.") == "not here"
    monkeypatch.setattr(speech, "tts", Loud())
    assert speech.can_speak()


def test_a_platform_that_cannot_even_be_asked_has_no_voice(monkeypatch):
    class Broken:
        @property
        def speak(self):
            raise ImportError("no such thing here")

    monkeypatch.setattr(speech, "tts", Broken())
    assert not speech.can_speak()
    assert speech.say("Waist.") == "refused"


def test_words_are_said_beside_the_touch_thread_and_only_the_newest_wait():
    said, began, go_on = [], threading.Event(), threading.Event()

    def slowly(text):
        said.append((text, threading.current_thread() is threading.main_thread()))
        began.set()
        go_on.wait(5)
        return "done"

    voice = speech.Voice(slowly, lambda: True)
    voice.say("Waist.")
    assert began.wait(5)
    voice.say("High hip.")
    voice.say("Hip.")
    thread = voice._thread
    go_on.set()
    thread.join(5)
    assert said == [("Waist.", False), ("Hip.", False)]


def test_hushed_it_says_nothing_of_what_waits():
    said, began, go_on = [], threading.Event(), threading.Event()

    def slowly(text):
        said.append(text)
        began.set()
        go_on.wait(5)
        return "done"

    voice = speech.Voice(slowly, lambda: True)
    voice.say("Waist.")
    assert began.wait(5)
    voice.say("Hip.")
    voice.hush()
    thread = voice._thread
    go_on.set()
    thread.join(5)
    assert said == ["Waist."]


def test_a_voice_that_turns_out_not_to_be_there_is_not_offered_again(window):
    from kivy.clock import Clock

    voice = speech.Voice(lambda _text: "not here", lambda: True)
    assert voice.is_here
    voice.say("Waist.")
    if voice._thread is not None:
        voice._thread.join(5)
    Clock.tick()
    assert not voice.is_here


def test_without_a_voice_no_thread_is_begun():
    voice = speech.Voice(lambda _text: "done", lambda: False)
    voice.say("Waist.")
    assert voice._thread is None
