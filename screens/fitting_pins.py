"""Pins while they are placed and while they are read off, in ready-to-show words."""

from dataclasses import dataclass, replace

from core.changes.plan import make_plan, room_of_pin
from core.fit.amounts import kind_of
from core.fit.pinning import first_layer
from core.fit.reading_off import count, edges_of, nearest_level, next_unread
from core.lengths import write_length
from core.records.fitting import Pin
from core.share.pinned import on_the_garment
from screens.fitting_layer import layer_key, layer_words
from screens.fitting_page import Bench, KeysRow, WordRow, keypad_for
from screens.pin_places import place_of
from screens.pin_rows import PinRow, Room, pin_rows
from screens.rows import LevelRow, amount, direction
from screens.shown import strip

SIDES = {"right": "Her right", "both": "Both", "left": "Her left"}
NO_PIN = "Touch a seam or a dart where you set a pin."
NO_PIECES = "This garment has no pieces yet, so there is nothing to pin: its draft comes first."
INSIDE_OUT = "Worn inside out: her left is the garment's right."
ON_THE_GARMENT = {"left": "Inside out: on the garment's right.",
                  "right": "Inside out: on the garment's left."}  # fmt: skip
HOW = "Swipe across for both sides. Hold to give the amount at once."


@dataclass(frozen=True, slots=True)
class PinPage:
    """Pinning: the last pin in big words, what its seam still lets out, and what to pick from."""

    last: str
    let_out: str
    how: str
    counted: str
    asked: str
    names: tuple[WordRow, ...]
    keys: tuple[WordRow, ...]
    opened: "ReadPage | None"


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


def pin_page(bench: Bench) -> PinPage:
    """Return what she sees while she pins: nothing of the client's body."""
    index, fitting = last_pin(bench), bench.fitting
    pin = fitting.pins[index] if index is not None else None
    between = bench.chosen.between
    return PinPage(
        last=said(bench, index) if index is not None else _no_pin(bench),
        let_out=_let_out(bench, index) if index is not None else "",
        how=_how(bench),
        counted=counted_words(bench),
        asked="Which one?" if between else "",
        names=tuple(WordRow(str(at), one.words) for at, one in enumerate(between)),
        keys=(*_named("side", _sides(bench, pin)), *_pin_keys(bench, pin), *layer_key(bench)),
        opened=read_page(bench, live=False) if bench.chosen.opened and pin is not None else None,
    )


def _no_pin(bench: Bench) -> str:
    return NO_PIN if any(layer.rings for layer in bench.garment.layers) else NO_PIECES


def _how(bench: Bench) -> str:
    """Return how pins are set, until she knows; and what inside out means for her sides."""
    turned = INSIDE_OUT if bench.fitting.inside_out else ""
    return " ".join(filter(None, [turned, "" if len(bench.fitting.pins) > 1 else HOW]))


def last_pin(bench: Bench) -> int | None:
    """Return the pin in hand, else the one that was placed last."""
    if bench.chosen.pin is not None:
        return bench.chosen.pin
    return len(bench.fitting.pins) - 1 if bench.fitting.pins else None


def said(bench: Bench, index: int) -> str:
    """Return a pin as one would say it: ``5: her left side seam, waist, not read``."""
    pin = bench.fitting.pins[index]
    place = place_of(pin, bench.garment)
    name = f"{place.name[:1].lower()}{place.name[1:]}"
    whose = [f"{place.whose} {name}"] if place.whose.startswith("her") else [name, place.whose]
    at = [height_words(bench, pin), layer_words(bench.garment, pin), _amount_words(bench, pin)]
    return f"{index + 1}: " + ", ".join(filter(None, [*whose, *at]))


def height_words(bench: Bench, pin: Pin) -> str:
    """Return the level a pin is at, or how far below or above the nearest one."""
    level, below = nearest_level(bench.garment, pin)
    label = bench.garment.levels[level].label.lower()
    if not direction(below):
        return label
    return f"{amount(below, bench.unit)} {'below' if below > 0 else 'above'} the {label}"


def counted_words(bench: Bench) -> str:
    counted = count(bench.fitting)
    return f"{counted.read} of {counted.pins} pins read" if counted.pins else "No pins yet"


def _amount_words(bench: Bench, pin: Pin) -> str:
    if not pin.read:
        return "not read"
    if pin.edges is not None:
        return "edges apart"
    kind = "gap" if pin.gap is not None else "deep"
    return f"{kind} {amount(pin.gap if pin.gap is not None else pin.pinch or 0.0, bench.unit)}"


def _let_out(bench: Bench, index: int) -> str:
    """Return what the seam can still let out where the pin is."""
    pin = bench.fitting.pins[index]
    out, _ = room_of_pin(bench.file, bench.garment.id, bench.fitting.id, index)
    if pin.what == "piece":
        return "A fold off a seam: a new dart"
    edge = "a leg" if pin.what == "dart" else "an edge"
    if not direction(out):
        return "Nothing left here to let out"
    return f"Lets out {amount(out, bench.unit)} {edge} at most"


def _sides(bench: Bench, pin: Pin | None) -> tuple[WordRow, ...]:
    if pin is None or not place_of(pin, bench.garment).whose:
        return ()
    return tuple(WordRow(key, label, chosen=pin.side == key) for key, label in SIDES.items())


def _pin_keys(bench: Bench, pin: Pin | None) -> tuple[WordRow, ...]:
    """Return the keys under the last pin; without one only the pieces."""
    pieces = WordRow("pieces", "Pieces", chosen=bench.chosen.pieces)
    if pin is None:
        return (pieces,)
    several = len(bench.garment.layers) > 1
    through = (WordRow("through", "Through all", chosen=pin.through),)
    return (
        *_split_key(bench, pin),
        WordRow("amount", "Amount", chosen=bench.chosen.opened),
        *(through if several else ()),
        WordRow("remove", "Remove"),
        pieces,
    )


def _split_key(bench: Bench, pin: Pin) -> tuple[WordRow, ...]:
    """Return the key that makes two of a pin for both sides, so that they may differ."""
    both = pin.side == "both" and bool(place_of(pin, bench.garment).whose)
    return (WordRow("split", "Each side"),) if both else ()


# -- reading off ----------------------------------------------------------------------


def pin_to_read(bench: Bench) -> int | None:
    """Return the pin in hand, else the next that is not read, else the last one."""
    if bench.chosen.pin is not None:
        return bench.chosen.pin
    unread = next_unread(bench.garment, bench.fitting)
    return unread if unread is not None else last_pin(bench)


def read_page(bench: Bench, *, live: bool = True) -> ReadPage:
    """Return one pin to read; ``live``: with the strip of levels, once nobody looks on."""
    index, counted = pin_to_read(bench), count(bench.fitting)
    if index is None:
        return ReadPage(None, "No pins were set at this fitting.", "")
    pin = bench.fitting.pins[index]
    levels, moved = _strip(bench, pin) if live else ((), "pinned")
    left = "" if counted.all_read else f"{counted.left} not read yet"
    return ReadPage(
        pin=_row(bench, index),
        nothing="",
        counted=". ".join(filter(None, [counted_words(bench), _turned(bench, pin)])),
        ways=(
            *_named("side", _sides(bench, pin)),
            *_named("kind", _kinds(bench, pin)),
            *_read_keys(bench, pin),
            *_named("edge", _edges(bench, pin)),
        ),
        levels=levels,
        moved_name=moved,
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


def _named(what: str, rows: tuple[WordRow, ...]) -> tuple[WordRow, ...]:
    return tuple(replace(row, key=f"{what} {row.key}") for row in rows)


def _heading(bench: Bench, index: int) -> str:
    return f"Pin {said(bench, index).rpartition(', ')[0]}"


def _strip(bench: Bench, pin: Pin) -> tuple[tuple[LevelRow, ...], str]:
    plan = make_plan(bench.file, bench.garment.id, bench.fitting.id, "pins")
    layer = pin.layer or first_layer(bench.garment)
    level, _ = nearest_level(bench.garment, pin)
    answers = [answer for answer in plan.levels if answer.layer == layer]
    side = on_the_garment(pin, bench.fitting).side
    rows = zip(strip(plan, bench.garment, layer, bench.unit, level), answers, strict=True)
    return tuple(
        replace(row, live=row.live and (side == "both" or answer.side in (None, side)))
        for row, answer in rows
    ), "pinned"


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
    return (*_split_key(bench, pin), *keys)


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
