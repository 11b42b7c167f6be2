"""A fitting begun: its day and stage, what she wears for it, and what goes on from last time."""

from collections.abc import Mapping
from copy import deepcopy
from datetime import date
from typing import Any

from core.client.facts import entries, id_of
from core.client.over_time import unit_of
from core.errors import WorkroomError
from core.fit.written import Document, Part, garment_in, length_typed, listed, put
from core.records.fitting import STAGES as STAGES
from core.records.fitting import known_stage


class CannotBegin(WorkroomError):
    """A fitting that cannot be begun here."""


def begin(document: Document, garment_id: str, fitting_id: str, on: str) -> Part:
    """Begin a fitting of a garment on a day (ISO date) and return it.

    She wears what she wore at the garment's last fitting, before the first what she was measured
    in; right side out.  The girths that were taped after the last sewing (``checked_girths``) are
    the garment's as she steps in.  Where she was pinned before, pins lead from then on: what was
    sewn as pinned is not undone by the tape before anything is pinned anew.  Raises
    ``CannotBegin`` where there is nothing to pin yet, or the last fitting is of a later day; with
    nothing changed.
    """
    garment = garment_in(document, garment_id)
    before = entries(garment, "fittings")
    if not entries(garment, "layers"):
        raise CannotBegin("This garment has no draft yet: work out its draft first, then pin it")
    if date.fromisoformat(on).isoformat() < max((_day(each) for each in before), default=""):
        raise CannotBegin(f"There is a fitting of a later day than {on}, so none was begun")
    last = before[-1] if before else {}
    worn = last.get("worn") or _worn_when_measured(document)
    fitting: Part = {
        "id": fitting_id,
        "on": on,
        "stage": next_stage(last),
        "worn": {**deepcopy(dict(worn)), "inside_out": False},
        "pins": [],
    }
    if not fitting["stage"]:
        del fitting["stage"]
    if any(entries(each, "pins") for each in before):
        fitting["lead"] = "pins"
    if isinstance(checked := last.get("checked_girths"), Mapping):
        fitting["sewn_girths"] = deepcopy(dict(checked))
    listed(garment, "fittings").append(fitting)
    return fitting


def next_stage(last: Mapping[str, Any]) -> str:
    """Return the stage that usually follows the last fitting's; none where it had her own word.

    Common practice, no published source.
    """
    usual = {"": "basted", "toile": "basted", "basted": "second", "second": "final"}
    stage = last.get("stage")
    return usual.get(known_stage(stage) if isinstance(stage, str) else "", "")


def fitting_of_day(document: Document, garment_id: str, on: str) -> str:
    """Return the id of the garment's last fitting of a day; empty where there is none."""
    fittings = entries(garment_in(document, garment_id), "fittings")
    found = [id_of(each, "fitting", at) for at, each in enumerate(fittings, 1) if _day(each) == on]
    return found[-1] if found else ""


def set_stage(fitting: Part, stage: str) -> None:
    """Say which stage it is: one of ``STAGES`` or a word of her own; empty for none."""
    put(fitting, "stage", known_stage(" ".join(stage.split())))


def set_inside_out(fitting: Part, inside_out: bool) -> None:
    """Say once that it is worn inside out: every side that is logged follows."""
    _worn(fitting)["inside_out"] = inside_out


def set_foundation(fitting: Part, words: str) -> None:
    put(_worn(fitting), "foundation", words.strip())


def set_heel(document: Document, fitting: Part, typed: str) -> None:
    """Write down the heel she stands in, as typed; empty for none said.  Raises ``BadLength``."""
    text = length_typed(typed, unit_of(document)) if typed.strip() else ""
    put(_worn(fitting), "heel", text)


def set_notes(fitting: Part, notes: str) -> None:
    put(fitting, "notes", notes)


def _worn(fitting: Part) -> Part:
    worn = fitting["worn"] = dict(fitting.get("worn") or {})
    return worn


def _day(fitting: Mapping[str, Any]) -> str:
    return str(fitting.get("on") or "")


def _worn_when_measured(document: Document) -> Mapping[str, Any]:
    sittings = sorted(entries(document, "measurements"), key=_day)
    worn = sittings[-1].get("worn") if sittings else None
    return worn if isinstance(worn, Mapping) else {}
