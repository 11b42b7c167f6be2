"""Values that may be given once, by level, by piece, or by piece and level."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field

from core.file.field import Field

_ANY = ""


@dataclass(frozen=True, slots=True)
class Shaped:
    """A value by piece and level; ``""`` stands for any.  Nothing given: empty.

    ``once`` is the value where it is one for all.
    """

    given: Mapping[tuple[str, str], float] = field(default_factory=dict)
    once: float | None = None

    def at(self, piece: str, level: str) -> float | None:
        """Return what was given for this piece at this level, or ``None``."""
        given = self.given
        if self.once is not None or not given:
            return self.once
        for key in ((piece, level), (piece, _ANY), (_ANY, level), (_ANY, _ANY)):
            if key in given:
                return given[key]
        return None

    def between(self, piece: str, level: str, downs: Sequence[tuple[str, float]]) -> float | None:
        """Return the value at a level, read off straight between two named ones.

        ``downs`` are the levels of the ring with their distance down in mm; a
        level above the first named or below the last one is not known.
        """
        own = self.at(piece, level)
        if own is not None:
            return own
        named = [
            (down, value) for name, down in downs if (value := self.at(piece, name)) is not None
        ]
        here = dict(downs)[level]
        above = [point for point in named if point[0] <= here]
        below = [point for point in named if point[0] >= here]
        if not above or not below:
            return None
        (top, first), (bottom, last) = above[-1], below[0]
        return first if bottom == top else first + (last - first) * (here - top) / (bottom - top)


NOT_GIVEN = Shaped()


def read_shaped(
    source: Field,
    read: Callable[[Field], float],
    pieces: Collection[str],
    levels: Collection[str],
) -> Shaped:
    """Return the shaped value in ``source``; refuse a name that is neither piece nor level."""
    if source.missing:
        return NOT_GIVEN
    if not source.is_object():
        value = read(source)
        return Shaped({(_ANY, _ANY): value}, once=value)
    given: dict[tuple[str, str], float] = {}
    for name, entry in source.items():
        if name in levels:
            given[_ANY, name] = read(entry)
        elif name in pieces:
            given |= _of_piece(name, entry, read, levels)
        else:
            entry.refuse(f"no level and no piece of this seam is called “{name}”")
    return Shaped(given)


def _of_piece(
    piece: str, source: Field, read: Callable[[Field], float], levels: Collection[str]
) -> dict[tuple[str, str], float]:
    if not source.is_object():
        return {(piece, _ANY): read(source)}
    for level, entry in source.items():
        if level not in levels:
            entry.refuse(f"no level is called “{level}”")
    return {(piece, level): read(entry) for level, entry in source.items()}
