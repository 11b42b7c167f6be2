"""Tucks across: what each takes out of the length, and its step in the seam that takes it."""

from collections.abc import Iterator, Mapping

from core.lengths import SMALLEST_MM
from core.records.answer import Consequence, Step
from core.records.fitting import Fitting, Tuck
from core.records.garment import Garment
from core.wording import Words, listed, sentence

_FOR_THE_PATTERN = ("", "pattern")
_CALLED = {"left": "her left", "right": "her right"}


def tucks_follow(garment: Garment, fitting: Fitting, words: Words) -> list[Consequence]:
    """Return what each tuck does: of depth f it takes 2f out of the length where it is pinned."""
    return [entry for _, entries in _tucks(garment, fitting, words) for entry in entries]


def tuck_steps(garment: Garment, fitting: Fitting, words: Words) -> list[Step]:
    """Return the tucks, in the seam that takes them; one for the pattern waits for the next."""
    return [
        Step(0, "shoulders" if _shoulder(tuck) else "waist seam", "", entry.what.capitalize(),
             None, entry.text)
        for tuck, entries in _tucks(garment, fitting, words)
        if tuck.into not in _FOR_THE_PATTERN
        for entry in entries
    ]  # fmt: skip


def _tucks(
    garment: Garment, fitting: Fitting, words: Words
) -> Iterator[tuple[Tuck, list[Consequence]]]:
    swap = {"left": "right", "right": "left"} if fitting.inside_out else {}
    for tuck in fitting.tucks:
        places = {swap.get(place, place): depth for place, depth in tuck.depth.items()
                  if depth > SMALLEST_MM}  # fmt: skip
        if places:
            yield tuck, _tuck(tuck, places, garment.levels[tuck.level].label, words)


def _shoulder(tuck: Tuck) -> bool:
    return "shoulder" in tuck.into


def _tuck(tuck: Tuck, places: Mapping[str, float], label: str, words: Words) -> list[Consequence]:
    said = [
        f"{_CALLED.get(place, place.replace('_', ' '))} {words.length(depth)} deep ="
        f" {words.length(2 * depth)} shorter"
        for place, depth in places.items()
    ]
    taken = 2 * max(places.values())
    text = f"Tuck at the {label.lower()}: {listed(said)}, into {_into(tuck)}"
    found = [Consequence("tuck", -taken, sentence(text))]
    if _shoulder(tuck):
        drops = (
            f"Underarm: where the shoulder tip is taken up {words.length(taken)} the underarm"
            " drops as much; cut the armhole down by it"
        )
        found.append(Consequence("underarm", -taken, sentence(drops)))
    return found


def _into(tuck: Tuck) -> str:
    """Return where a tuck goes, and what that does to this garment."""
    if tuck.into in _FOR_THE_PATTERN:
        return "the next garment's pattern; nothing is sewn for it in this one"
    return (
        f"the {tuck.into.replace('_', ' ')}; what is below is lifted by as much, so the hem is"
        " measured again"
    )
