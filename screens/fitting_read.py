"""Pins while they are read off, one at a time, in ready-to-show words."""

from dataclasses import dataclass, replace

from core.changes.plan import room_of_pin
from core.fit.amounts import kind_of
from core.fit.reading_off import count, edges_of
from core.lengths import write_length
from core.records.fitting import Pin
from screens.fitting_page import Bench, KeysRow, WordRow, keypad_for
from screens.fitting_said import counted_words, named_keys, pin_to_read, said, side_keys, split_key
from screens.fitting_strip import strip_beside
from screens.pin_places import place_of
from screens.pin_rows import PinRow, Room, pin_rows
from screens.rows import LevelRow, amount, direction

ON_THE_GARMENT = {"left": "Inside out: on the garment's right.",
                  "right": "Inside out: on the garment's left."}  # fmt: skip


@dataclass(frozen=True, slots=True)
class ReadPage:
    """One pin being read off; ``levels`` is the strip, live with it.

    ``noting`` holds the note while it is written, ``note`` is what is shown of it otherwise.
    """

    pin: PinRow | None
    nothing: str
    counted: str
    ways: tuple[WordRow, ...] = ()
    levels: tuple[LevelRow, ...] = ()
    moved_name: str = "pinned"
    changes: WordRow | None = None
    aside: tuple[WordRow, ...] = ()
    note: str = ""
    noting: tuple[str, ...] = ()


def read_page(bench: Bench, *, live: bool = True) -> ReadPage:
    """Return one pin to read; ``live``: with the strip of levels, once nobody looks on."""
    index, counted = pin_to_read(bench), count(bench.fitting)
    if index is None:
        return ReadPage(None, "No pins were set at this fitting.", "")
    pin = bench.fitting.pins[index]
    left = "" if counted.all_read else f"{counted.left} not read yet"
    return ReadPage(
        pin=_row(bench, index),
        nothing="",
        counted=". ".join(filter(None, [counted_words(bench), _turned(bench, pin)])),
        ways=(
            *named_keys("side", side_keys(bench, pin)),
            *named_keys("kind", _kinds(bench, pin)),
            *_read_keys(bench, pin),
            *named_keys("edge", _edges(bench, pin)),
        ),
        levels=strip_beside(bench, pin) if live else (),
        aside=(
            WordRow("note", "Note", chosen=bench.chosen.noting), WordRow("remove", "Remove"),
        ),
        note="" if bench.chosen.noting else pin.note,
        noting=(pin.note,) if bench.chosen.noting else (),
        changes=WordRow("changes", "Changes", left, counted.all_read, not counted.all_read),
    )  # fmt: skip


def _turned(bench: Bench, pin: Pin) -> str:
    """Return which side of the garment a pin is on, where that is not the side of hers."""
    if not bench.fitting.inside_out or not place_of(pin, bench.garment).whose:
        return ""
    return ON_THE_GARMENT.get(pin.side, "")


def _row(bench: Bench, index: int) -> PinRow:
    rooms = [Room(0.0, 0.0)] * len(bench.fitting.pins)
    rooms[index] = Room(*room_of_pin(bench.file, bench.garment.id, bench.fitting.id, index))
    row = pin_rows(bench.garment, bench.fitting, rooms, bench.unit, index)[index]
    named = replace(row, heading=_heading(bench, index))
    pin = bench.fitting.pins[index]
    edge = edge_in_hand(bench, pin)
    return _row_of_edge(bench, pin, named, edge) if edge else named


def _row_of_edge(bench: Bench, pin: Pin, row: PinRow, edge: str) -> PinRow:
    """Return the row of one edge given apart: its own amount, and both in the sum."""
    moves = pin.edges or {}
    move = moves.get(edge, 0.0)
    both = " + ".join(_way(bench, moves.get(piece, 0.0)) for piece in moves)
    sides = [line for line in row.times.split("\n") if "sides" in line]
    return replace(
        row,
        depth=amount(move, bench.unit),
        kind=f"{_piece_label(bench, pin, edge).lower()} edge",
        times="\n".join([both, *sides]),
        at=move / bench.garment.settings.step,
    )


def _heading(bench: Bench, index: int) -> str:
    return f"Pin {said(bench, index).rpartition(', ')[0]}"


def read_kind(bench: Bench, pin: Pin) -> str:
    """Return what the keys make of a pin: what it is, or what was chosen for it."""
    return kind_of(pin) or bench.chosen.kind or "pinch"


def edge_kind(bench: Bench, pin: Pin, piece: str) -> str:
    """Return which way the keys move an edge: as it goes already, or as chosen."""
    move = (pin.edges or {}).get(piece, 0.0)
    return {"take in": "pinch", "let out": "gap"}.get(direction(move), bench.chosen.kind or "pinch")


def _kinds(bench: Bench, pin: Pin) -> tuple[WordRow, ...]:
    names = {"dart": ("Pinched", "Released"), "seam": ("Pinch", "Gap")}.get(pin.what)
    if names is None:
        return ()
    kind = read_kind(bench, pin)
    if kind == "edges":
        kind = edge_kind(bench, pin, edge_in_hand(bench, pin))
    return tuple(
        WordRow(key, label, chosen=kind == key)
        for key, label in zip(("pinch", "gap"), names, strict=True)
    )


def edge_in_hand(bench: Bench, pin: Pin) -> str:
    """Return the piece whose edge the keys move; nothing unless the edges are given apart."""
    joins = edges_of(bench.garment, pin)
    if pin.edges is None or joins is None:
        return ""
    return bench.chosen.edge if bench.chosen.edge in joins else joins[0]


def _edges(bench: Bench, pin: Pin) -> tuple[WordRow, ...]:
    joins, here = edges_of(bench.garment, pin), edge_in_hand(bench, pin)
    if not here or joins is None:
        return ()
    moves = pin.edges or {}
    return tuple(
        WordRow(piece, _piece_label(bench, pin, piece), _way(bench, moves.get(piece, 0.0)),
                chosen=piece == here)
        for piece in joins
    )  # fmt: skip


def _way(bench: Bench, move: float) -> str:
    words = {"take in": "in ", "let out": "out "}.get(direction(move), "")
    return f"{words}{amount(move, bench.unit)}"


def _piece_label(bench: Bench, pin: Pin, piece: str) -> str:
    layer = bench.garment.layer(pin.layer)
    named = {one.id: one.label for ring in layer.rings for one in ring.pieces} if layer else {}
    return named.get(piece, piece)


def _read_keys(bench: Bench, pin: Pin) -> tuple[WordRow, ...]:
    joins = edges_of(bench.garment, pin)
    apart = joins is not None and joins[0] != joins[1]
    keys = [WordRow("apart", "Edges apart", chosen=pin.edges is not None)] if apart else []
    return (*split_key(bench, pin), *keys)


def amount_typed(bench: Bench, index: int) -> str:
    """Return what is written for a pin, for the keys: its amount, or that of the edge in hand."""
    pin = bench.fitting.pins[index]
    edge = edge_in_hand(bench, pin)
    if edge:
        move = (pin.edges or {}).get(edge, 0.0)
        return write_length(abs(move), bench.unit, fine=True) if move else ""
    written = bench.written["pins"][index]
    return str(next((written[one] for one in ("pinch", "gap") if written.get(one) is not None), ""))


def read_keys(bench: Bench, index: int) -> KeysRow:
    """Return the number keys that write a pin's amount."""
    keypad = keypad_for(bench, amount_typed(bench, index))
    pinning = bench.chosen.moment == "pin"
    return KeysRow(
        "", keypad.shown, bench.unit, keypad.lit, keypad,
        go_on="Done" if pinning else "Next", compact=True,
    )  # fmt: skip
