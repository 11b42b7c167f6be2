"""The pieces and parts of a draft as they are drawn beside its table."""

from collections.abc import Iterator, Sequence

from core.draft.sums import said
from core.outline.part_outline import PartOutline, part_outlines
from core.outline.piece_outline import PieceOutline, piece_outlines
from screens.parts.draft_at import OnTheTable
from screens.parts.draft_chosen import Opened
from screens.parts.piece_layout import DrawnPiece, LevelMark

PARTS = ("joined", "inserts")


def drawn_with_note(on: OnTheTable) -> tuple[tuple[DrawnPiece, ...], str]:
    """Return what is drawn, and what is to be said of it.

    A part that lies open is drawn in the place of the pieces: it may be far larger than they.
    """
    opened = on.chosen.opened
    if opened.what in PARTS:
        part = next((one for layer in on.garment.layers
                     for one in part_outlines(on.garment, on.written, layer.id, on.unit)
                     if one.part == opened.of), None)  # fmt: skip
        if part is not None:
            return (_part(part),), _part_note(part, on)
    drawn = tuple(drawn_pieces(on))
    return drawn, _note(drawn, on)


def _part(part: PartOutline) -> DrawnPiece:
    left, top, right, bottom = part.bounds
    count = "cut one" if part.count == 1 else f"cut {part.count}"
    return DrawnPiece(part.part, part.label, count, part.cut, (left, right), (top, bottom),
                      sewn=part.stitch)  # fmt: skip


def _part_note(part: PartOutline, on: OnTheTable) -> str:
    """Return its lengths, one after the other, and what is to be said of it."""
    lengths = ", ".join(f"{name} {said(mm, on.unit)}" for name, mm in part.lengths)
    return ". ".join(words for words in (lengths[:1].upper() + lengths[1:], part.note) if words)


def drawn_pieces(on: OnTheTable) -> Iterator[DrawnPiece]:
    """Yield the pieces of the round in hand, drawn to scale."""
    if on.ring is None:
        return
    outlines = [outline for outline in
                piece_outlines(on.garment, on.written, on.layer.id, on.unit)
                if outline.ring == on.ring.id]  # fmt: skip
    for number, outline in enumerate(outlines):
        yield _drawn(outline, numbers_left=number >= len(outlines) / 2 and number > 0, on=on)


def _drawn(outline: PieceOutline, *, numbers_left: bool, on: OnTheTable) -> DrawnPiece:
    side = f", her {outline.side}" if outline.side else ""
    left, top, right, bottom = outline.bounds
    return DrawnPiece(
        id=f"{outline.piece}:{outline.side}" if outline.side else outline.piece,
        label=f"{outline.label}{side}",
        note=outline.cut_as,
        cut=outline.cut,
        across=(left, right),
        downwards=(top, bottom),
        sewn=outline.stitch,
        fold=outline.fold,
        darts=tuple((dart.dart, dart.outline) for dart in outline.darts),
        levels=tuple(
            LevelMark(line.level, line.start, line.end, said(line.width_mm, on.unit))
            for line in outline.levels
        ),
        numbers_left=numbers_left,
    )


def lit_of(opened: Opened, drawn: Sequence[DrawnPiece]) -> tuple[str, str]:
    """Return the piece, or its one side, and the level whose width lies open."""
    if opened.what != "width":
        return "", ""
    side = f"{opened.of}:{opened.which}"
    return (side if any(piece.id == side for piece in drawn) else opened.of), opened.level


def _note(drawn: Sequence[DrawnPiece], on: OnTheTable) -> str:
    return "" if drawn or not on.garment.levels else "No piece has a width yet."
