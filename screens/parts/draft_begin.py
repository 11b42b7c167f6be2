"""What a new garment can be begun from: a kind, an earlier garment, another client's, nothing."""

from collections.abc import Iterator
from dataclasses import dataclass

from core.draft_needs import Needs, needs_of
from core.draft_start import tape_of
from core.fitting_file import FittingFile
from core.kinds import all_kinds, kind
from core.measurements import label_of
from core.wording import counted, listed
from screens.parts.draft_chosen import Drafting


@dataclass(frozen=True, slots=True)
class StartRow:
    """One thing to begin from; ``measure`` is a measurement that is missing, or nothing."""

    id: str
    what: str
    label: str
    second: str
    ready: bool = True
    measure: str = ""


@dataclass(frozen=True, slots=True)
class StartShown:
    """The kinds, her earlier garments, and what else there is."""

    kinds: tuple[StartRow, ...] = ()
    earlier: tuple[StartRow, ...] = ()
    others: tuple[StartRow, ...] = ()
    heading: str = ""
    taken: int = 0


def show_start(file: FittingFile, chosen: Drafting) -> StartShown:
    """Return what a garment of this client can be begun from."""
    taken = set(tape_of(file))
    return StartShown(
        kinds=tuple(_kinds(file, taken)),
        earlier=tuple(
            StartRow(garment.id, "earlier", garment.name, _kind_words(garment.kind))
            for garment in reversed(file.garments) if garment.id != chosen.garment
        ),
        others=(
            StartRow("", "clients", "Another client's garment",
                     "worked out anew on this client's tape"),
            StartRow("", "empty", "Empty", "put together by hand: levels, pieces, seams"),
        ),
        heading="" if taken else "Nothing is measured yet. A kind needs her tape first.",
        taken=len(taken),
    )  # fmt: skip


def _kinds(file: FittingFile, taken: set[str]) -> Iterator[StartRow]:
    for one in all_kinds():
        needs = needs_of(one, taken, file.client.ease)
        yield StartRow(one.id, "kind", one.label, _needs_words(needs), not needs.missing,
                       needs.missing[0] if needs.missing else "")  # fmt: skip


def _needs_words(needs: Needs) -> str:
    """Return whether a kind can be worked out, in a line; what is missing by name if little."""
    if needs.missing:
        count = len(needs.missing)
        if count > 3:
            return f"{counted(count, 'measurement').capitalize()} not taken yet"
        return f"Not taken yet: {_listed(needs.missing)}"
    if needs.for_levels:
        without = listed([label.lower() for label in needs.levels])
        return f"Ready, without the {without} level"
    return "Ready, the front by its usual share" if needs.arcs else "Ready"


def _listed(names: tuple[str, ...]) -> str:
    return listed([label_of(name).lower() for name in names])


def _kind_words(name: str) -> str:
    found = kind(name)
    return found.label if found else "of no kind"
