"""The garment on the figure, with the pins and marks of a fitting on it."""

from dataclasses import dataclass
from typing import Any

from screens.fitting_page import Bench


@dataclass(frozen=True, slots=True)
class FigureShown:
    """What the figure and the pieces are given."""

    worn: Any
    pins: tuple[Any, ...]
    marks: tuple[Any, ...]


def figure_of(bench: Bench) -> FigureShown | None:
    return None
