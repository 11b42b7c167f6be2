"""What is chosen on the draft's screen: the garment, and the number in it that lies open."""

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Opened:
    """A number of the draft: ``what`` it is and ``of`` which piece, seam, dart or part.

    ``what`` is ``width``, ``height``, ``ease``, ``drop``, ``take up``, ``end``, ``allowance``,
    ``behaviour``, ``joined``, ``inserts`` or ``name``; nothing is open without it.  ``which``
    tells more: the side of a width, the place of a height, a dart's end, a part's value.
    """

    what: str = ""
    of: str = ""
    level: str = ""
    which: str = ""


@dataclass(frozen=True, slots=True)
class Drafting:
    """What is chosen; without a ``garment`` she is about to begin one.

    ``page`` is ``widths``, ``more``, ``checks``, ``sheet``, ``start`` or ``clients``.
    """

    garment: str = ""
    page: str = "widths"
    layer: str = ""
    ring: str = ""
    opened: Opened = Opened()

    def open(self, opened: Opened) -> "Drafting":
        return replace(self, opened=opened)

    def turn(self, page: str) -> "Drafting":
        return replace(self, page=page, opened=Opened())


def chosen_of(chosen: "Drafting | str | None") -> Drafting:
    """Return what is chosen, where another screen names only a garment or nothing."""
    if isinstance(chosen, Drafting):
        return chosen
    return Drafting(chosen) if chosen else Drafting(page="start")
