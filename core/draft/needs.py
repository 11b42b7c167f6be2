"""What a kind needs from the tape before it can be worked out, and what it can do without."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from core.body.measurements import catalogue, label_of
from core.draft.document import darts_in, pieces_in
from core.draft.kind_template import left_out, without_levels
from core.draft.kinds import Kind
from core.draft.rule_terms import measurements_in
from core.records.garment import Ease
from core.wording import listed


@dataclass(frozen=True, slots=True)
class Needs:
    """The measurements that are missing, in the order she stands, by their ids.

    ``missing`` stop the draft.  ``levels`` are the optional levels that are left out (their
    labels) and ``for_levels`` what they would need; without ``arcs`` the kind's usual share of
    the front serves.
    """

    missing: tuple[str, ...]
    for_levels: tuple[str, ...]
    levels: tuple[str, ...]
    arcs: tuple[str, ...]

    @property
    def words(self) -> str:
        """Return what is missing and what can be left out, in sentences."""
        said = []
        if self.missing:
            said.append(f"Not taken yet: {_labels(self.missing)}.")
        if self.for_levels:
            without = listed([label.lower() for label in self.levels])
            said.append(f"Can be left out, and the draft has no {without} level:"
                        f" {_labels(self.for_levels)}.")  # fmt: skip
        if self.arcs:
            said.append(f"Not taped across the front: {_labels(self.arcs)}. There the front has"
                        " its usual part of the round.")  # fmt: skip
        return " ".join(said)


def needs_of(kind: Kind, taken: Collection[str], ease: Mapping[str, Ease] | None = None) -> Needs:
    """Return what a draft of this kind would still ask the tape for.

    ``taken`` are the measurements there are, ``ease`` what beats the kind's (a share needs the
    girth it is a share of).
    """
    gone = left_out(kind.template, taken)
    whole = {level["id"]: level for level in kind.template["levels"]}
    template = without_levels(dict(kind.template), gone)
    asked = set(_asked(template, {**kind.ease, **(ease or {})}))
    left = [whole[level] for level in whole if level in gone]
    optional = {name for level in left
                for name in (level["body"], *measurements_in(level["rule"]))}  # fmt: skip
    arcs = {level.get("front_arc", "") for level in template["levels"]} - {""}
    return Needs(
        missing=_in_order(asked - set(taken)),
        for_levels=_in_order(optional - set(taken) - asked),
        levels=tuple(level["label"] for level in left),
        arcs=_in_order(arcs - set(taken)),
    )


def _asked(template: Mapping[str, Any], ease: Mapping[str, Ease]) -> Iterator[str]:
    """Yield the measurements that the heights, widths and dart ends ask for."""
    bodies = {level["id"]: level.get("body", "") for level in template["levels"]}
    for level in template["levels"]:
        yield from _of_rule(level["rule"], "", False)
    for layer in template["layers"]:
        for _, piece_id, piece in pieces_in(layer):
            for level, rule in piece["rule"].items():
                share = level in ease and ease[level].share is not None
                yield from _of_rule(rule, bodies[level], share)
            for _, dart in darts_in(piece_id, piece):
                for rule in dart["ends"].values():
                    yield from _of_rule(rule, "", False)


def _of_rule(rule: Sequence[Any], body: str, ease_is_share: bool) -> Iterator[str]:
    takes = [term if isinstance(term, str) else term["take"] for term in rule]
    names = [take.lstrip("-").partition("/")[0] for take in takes]
    if "body" in names or (ease_is_share and "ease" in names):
        yield body
    if "crotch_ease" in names:
        yield "hip_girth"
    yield from measurements_in(rule)


def _in_order(names: Collection[str]) -> tuple[str, ...]:
    order = {name: at for at, name in enumerate(catalogue())}
    return tuple(sorted(names, key=lambda name: order.get(name, len(order))))


def _labels(names: Sequence[str]) -> str:
    return "; ".join(label_of(name) for name in names)
