"""A question that is asked on the screen itself: what it is about, and the keys that answer it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Answer:
    """A key under a question; the one that ``leads`` on is filled."""

    label: str
    key: str
    leads: bool = False


@dataclass(frozen=True, slots=True)
class Asked:
    """A question; ``secrets`` are the hints of the passcodes it asks for, none to two or three.

    A ``caution`` stands on its own ground between the words and the keys.
    """

    title: str
    words: str
    answers: tuple[Answer, ...]
    caution: str = ""
    secrets: tuple[str, ...] = ()


LEAVE = "leave"
"""The answer that changes nothing."""
