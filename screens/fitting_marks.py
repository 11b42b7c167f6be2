"""What is marked on her, and tucks, in ready-to-show words."""

from dataclasses import dataclass

from core.client.facts import entries
from core.fit.drag_lines import DIRECTIONS, usual_meanings
from core.fit.marks import WHAT, Mark, marks_of
from core.fit.tucks import INTO, PLACES
from core.lengths import write_length
from screens.fitting_page import Bench, KeysRow, WordRow, keys_for
from screens.rows import WHOSE

ASKS = (WordRow("ask_meaning", "What does it usually mean?"),)


@dataclass(frozen=True, slots=True)
class MarkRow:
    """One mark: what and where; the one in hand shows its note."""

    index: int
    what: str
    where: str
    note: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class MarksPage:
    """What may be marked, and what is."""

    what: tuple[WordRow, ...]
    words: str
    marks: tuple[MarkRow, ...]
    marked: MarkRow | None
    directions: tuple[WordRow, ...]
    meanings: tuple[str, ...]
    asks: tuple[WordRow, ...]
    tucks: tuple[WordRow, ...]
    tuck_levels: tuple[WordRow, ...]
    into: tuple[WordRow, ...]


def marks_page(bench: Bench) -> MarksPage:
    marks, chosen = marks_of(bench.written, bench.unit), bench.chosen
    rows = tuple(_mark_row(bench, mark) for mark in marks)
    picked = next((mark for mark in marks if mark.index == chosen.marked), None)
    drag = picked is not None and picked.what == "drag"
    tucking = chosen.mark == "tuck"
    return MarksPage(
        what=(
            *(WordRow(key, label, chosen=chosen.mark == key) for key, label in WHAT.items()),
            WordRow("tuck", "Tuck", chosen=tucking),
        ),
        words=_marking_words(chosen.mark),
        marks=() if tucking else rows,
        marked=next((row for row in rows if row.chosen), None) if not tucking else None,
        directions=tuple(
            WordRow(key, label, chosen=bool(picked and picked.direction == key))
            for key, label in DIRECTIONS.items()
        ) if drag and not tucking else (),
        meanings=tuple(_meanings(picked)) if drag and picked and chosen.meaning else (),
        asks=ASKS if drag and picked and picked.direction and not chosen.meaning else (),
        tucks=_tuck_places(bench) if tucking else (),
        tuck_levels=_tuck_levels(bench) if tucking else (),
        into=_into(bench) if tucking else (),
    )  # fmt: skip


def _marking_words(mark: str) -> str:
    if mark == "tuck":
        return "Touch a level, then each place, and give its depth."
    if mark == "fold":
        return "Touch the piece where the fold is: it is a pin of its own."
    return "Touch her where it is." if mark else "Touch what it is, then touch her where it is."


def _mark_row(bench: Bench, mark: Mark) -> MarkRow:
    level = bench.garment.levels.get(mark.level)
    named = place_label(bench, mark.on, mark.place)
    whose = WHOSE.get(mark.side, "")
    down = f"{write_length(mark.down_mm, bench.unit)} down" if mark.down_mm is not None else ""
    said_where = [named, whose, level.label.lower() if level else down]
    turned = DIRECTIONS.get(mark.direction, "").lower()
    return MarkRow(
        index=mark.index,
        what=", ".join(filter(None, [mark.label, turned])),
        where=", ".join(filter(None, said_where)),
        note=mark.note,
        chosen=mark.index == bench.chosen.marked,
    )


def place_label(bench: Bench, on: str, place: str) -> str:
    for layer in bench.garment.layers:
        for ring in layer.rings:
            for piece in ring.pieces:
                if on == "piece" and piece.id == place:
                    return piece.label
                for dart in piece.darts:
                    if on == "dart" and dart.id == place:
                        return dart.label
            if on == "seam" and (seam := ring.seam(place)) is not None:
                return seam.label
    return place


def _meanings(mark: Mark) -> list[str]:
    face = "back" if "back" in mark.place else "front" if "front" in mark.place else ""
    found = usual_meanings(mark.level, face, mark.direction)
    if not found:
        return ["The books do not say what this usually means."]
    return [
        f"Perhaps {one.usually}: {one.do}. Seen: {one.seen} ({one.source})." for one in found
    ]


def _tuck_levels(bench: Bench) -> tuple[WordRow, ...]:
    here = tuck_level(bench)
    there = {str(tuck.get("level")) for tuck in entries(bench.written, "tucks")}
    return tuple(
        WordRow(level.id, level.label, "tucked" if level.id in there else "",
                chosen=level.id == here)
        for level in bench.garment.levels.values()
    )  # fmt: skip


def tuck_level(bench: Bench) -> str:
    """Return the level of the tuck in hand: as chosen, else the waist, else the first one."""
    levels = bench.garment.levels
    if bench.chosen.tuck_level in levels:
        return bench.chosen.tuck_level
    return "waist" if "waist" in levels else next(iter(levels))


def tuck_depth(bench: Bench, place: str) -> str:
    """Return what was typed for a tuck at a place of the level in hand."""
    for tuck in entries(bench.written, "tucks"):
        depth = tuck.get("depth")
        if tuck.get("level") == tuck_level(bench):
            depths = depth if isinstance(depth, dict) else {"all round": depth}
            return str(depths.get(place) or "")
    return ""


def _tuck_places(bench: Bench) -> tuple[WordRow, ...]:
    return tuple(
        WordRow(key, label, tuck_depth(bench, key) or "–", chosen=bench.chosen.tuck_place == key)
        for key, label in PLACES.items()
    )


def _into(bench: Bench) -> tuple[WordRow, ...]:
    found = next((tuck for tuck in entries(bench.written, "tucks")
                  if tuck.get("level") == tuck_level(bench)), None)  # fmt: skip
    if found is None:
        return ()
    return tuple(
        WordRow(key, f"Into {label}", chosen=found.get("into") == key)
        for key, label in INTO.items()
    )


def tuck_keys(bench: Bench) -> KeysRow | None:
    place = bench.chosen.tuck_place
    if bench.chosen.mark != "tuck" or place not in PLACES:
        return None
    label = bench.garment.levels[tuck_level(bench)].label.lower()
    return keys_for(bench, f"Tuck at the {label}, {PLACES[place].lower()}: depth",
                 tuck_depth(bench, place), "Next")  # fmt: skip
