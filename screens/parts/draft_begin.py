"""What a new garment can be begun from: a kind, an earlier garment, another client's, nothing."""

from collections.abc import Iterator
from dataclasses import dataclass

from core.body.measurements import label_of
from core.client.facts import entries
from core.draft.document import garment_in
from core.draft.kinds import Kind, all_kinds, kind
from core.draft.needs import Needs, needs_of
from core.draft.own_kinds import Kept, read_own_kind
from core.draft.start import (
    Begun,
    begin_empty,
    begin_from_earlier,
    begin_from_kind,
    begin_from_other,
    tape_of,
)
from core.file.fitting_file import FittingFile
from core.wording import counted, listed
from screens.door import Document
from screens.parts.draft_chosen import Drafting
from screens.parts.draft_own import her_defaults, own_kinds
from screens.workroom import Workroom


@dataclass(frozen=True, slots=True)
class StartRow:
    """One thing to begin from: ``what`` it is, and its id; of another client, ``client`` is hers.

    ``measure`` is a measurement that is missing, or nothing.
    """

    id: str
    what: str
    label: str
    second: str
    ready: bool = True
    measure: str = ""
    client: str = ""


@dataclass(frozen=True, slots=True)
class StartShown:
    """The kinds, her earlier garments, and what else there is."""

    kinds: tuple[StartRow, ...] = ()
    earlier: tuple[StartRow, ...] = ()
    others: tuple[StartRow, ...] = ()
    clients: tuple[StartRow, ...] = ()
    heading: str = ""


def begin_from(room: Workroom, row: StartRow, document: Document, id: str) -> Begun:
    """Put a new garment into the document, from what was touched; raises ``WorkroomError``."""
    if row.what == "kind":
        return begin_from_kind(document, row.id, id=id, own_kinds=own_kinds(room),
                               defaults=her_defaults(room))  # fmt: skip
    if row.what == "earlier":
        return begin_from_earlier(document, row.id, id=id)
    if row.what == "other":
        return begin_from_other(document, room.store.read(row.client), row.id, id=id,
                                own_kinds=own_kinds(room))  # fmt: skip
    return begin_empty(document, id=id, name="New garment")


def show_clients(room: Workroom, file: FittingFile, chosen: Drafting) -> StartShown:
    """Return the other clients, or the garments of the one that was touched."""
    if chosen.opened.what == "client":
        document = room.store.read(chosen.opened.of)
        rows = tuple(
            StartRow(str(garment.get("id")), "other", str(garment.get("name", "")),
                     _kind_words(str(garment.get("kind", ""))), client=chosen.opened.of)
            for garment in entries(document, "garments")
        )  # fmt: skip
        heading = "Which garment?" if rows else "This client has no garment to begin from."
        return StartShown(clients=rows, heading=heading)
    what = "to client" if chosen.garment else "client"
    clients = tuple(StartRow(row.id, what, row.name, "") for row in room.store.clients()
                    if row.id != file.client.id and not row.damaged)  # fmt: skip
    return StartShown(clients=clients, heading=_clients_words(file, chosen, len(clients)))


def _clients_words(file: FittingFile, chosen: Drafting, count: int) -> str:
    if not count:
        return "There is no other client yet."
    if not chosen.garment:
        return "Whose garment?"
    name = garment_in(file.data, chosen.garment).get("name", "")
    return f"To whom should {name} be copied? It is worked out anew on that client's tape."


def show_start(file: FittingFile, own: Kept = ()) -> StartShown:
    """Return what a garment of this client can be begun from."""
    taken = set(tape_of(file))
    return StartShown(
        kinds=tuple(_kinds(file, taken, own)),
        earlier=tuple(
            StartRow(garment.id, "earlier", garment.name, _kind_words(garment.kind))
            for garment in reversed(file.garments)
        ),
        others=(
            StartRow("", "clients", "Another client's garment",
                     "worked out anew on this client's tape"),
            StartRow("", "empty", "Empty", "put together by hand: levels, pieces, seams"),
        ),
        heading="" if taken else "Nothing is measured yet. A kind needs her tape first.",
    )  # fmt: skip


def _kinds(file: FittingFile, taken: set[str], own: Kept) -> Iterator[StartRow]:
    """Yield the kinds, her own first."""
    for entry in own:
        yield _kind_row(str(entry["id"]), read_own_kind(entry), file, taken)
    for one in all_kinds():
        yield _kind_row(one.id, one, file, taken)


def _kind_row(id: str, one: Kind, file: FittingFile, taken: set[str]) -> StartRow:
    needs = needs_of(one, taken, file.client.ease)
    missing = needs.missing[0] if needs.missing else ""
    return StartRow(id, "kind", one.label, _needs_words(needs), not missing, missing)


def _needs_words(needs: Needs) -> str:
    """Return whether a kind can be worked out, in a line; what is missing by name if little."""
    if needs.missing:
        count = len(needs.missing)
        if count > 3:
            return f"Needs {counted(count, 'measurement')} first"
        return f"Not taken yet: {_listed(needs.missing)}"
    if needs.for_levels:
        without = listed([label.lower() for label in needs.levels])
        return f"Ready, without the {without} level"
    return "Ready"


def _listed(names: tuple[str, ...]) -> str:
    return listed([label_of(name).lower() for name in names])


def _kind_words(name: str) -> str:
    found = kind(name)
    return found.label if found else "of no kind"
