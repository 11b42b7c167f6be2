"""Which numbers to take for the garments she makes, in the order the client stands, or her own.

An order of her own is kept in the client's optional field ``order``: by kind of garment a list of
measurements, ``{"sheath_dress": ["waist_girth", "bust_girth", ...]}``.  It may name one that the
kind does not ask for; what it does not name keeps its usual place.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from core.body.measurements import catalogue, kinds, label_of, needed_for
from core.client.facts import entries
from core.client.over_time import Document, days_measured
from core.records.answer import Side


@dataclass(frozen=True, slots=True)
class Number:
    """One number to take: a measurement, and the side where both are taken."""

    measurement: str
    side: Side | None = None

    @property
    def key(self) -> str:
        """How the file names it: ``waist_girth``, ``upper_arm_girth:left``."""
        return f"{self.measurement}:{self.side}" if self.side else self.measurement

    @property
    def label(self) -> str:
        return f"{label_of(self.measurement)}, {self.side}" if self.side else self.title

    @property
    def title(self) -> str:
        return label_of(self.measurement)


def number_of(key: str) -> Number:
    """Return the number that the file names so.

    >>> number_of("upper_arm_girth:left")
    Number(measurement='upper_arm_girth', side='left')
    """
    measurement, _, side = key.partition(":")
    return Number(measurement, "left" if side == "left" else "right" if side == "right" else None)


def kinds_of(document: Document) -> tuple[str, ...]:
    """Return the kinds of the garments in the making whose measurements are known."""
    named = [garment.get("kind") for garment in entries(document, "garments")
             if not garment.get("collected")]  # fmt: skip
    return tuple(dict.fromkeys(kind for kind in named if kind in kinds()))


def measurements_for(document: Document, for_kinds: Iterable[str]) -> tuple[str, ...]:
    """Return the measurements of these kinds in order, hers where she changed it.

    Each stands once.  With no kind that is known it is what was ever taken of her,
    in the usual order; nothing for a new client.
    """
    known = [kind for kind in dict.fromkeys(for_kinds) if kind in kinds()]
    if not known:
        taken = {name for day in days_measured(document) for name in day.values}
        return tuple(sorted(taken, key=_usual_place))
    order: list[str] = []
    for kind in known:
        own = [name for name in _own_order(document, kind) if name not in order]
        order = [*order, *own]
    for kind in known:
        for name in _usual(kind):
            if name not in order:
                order.insert(_place_for(name, order), name)
    return tuple(order)


def sided_for(for_kinds: Iterable[str]) -> frozenset[str]:
    """Return the measurements that these kinds ask for on her left and on her right."""
    return frozenset(
        request.measurement.id
        for kind in for_kinds
        if kind in kinds()
        for request in needed_for(kind)
        if request.numbers == 2
    )


def put_order(document: dict[str, Any], for_kinds: Iterable[str], order: Sequence[str]) -> None:
    """Keep this order of measurements for each of the kinds; the usual one is not written down.

    ``document`` is the caller's own.  What a kind neither asks for nor had in its order is
    left out of it; what no catalogue knows is left out altogether.
    """
    client, changed = document["client"], dict(_orders(document))
    for kind in for_kinds:
        if kind not in kinds():
            continue
        mine = {*_usual(kind), *_own_order(document, kind)}
        own = [name for name in dict.fromkeys(order) if name in mine]
        changed.pop(kind, None)
        if own != _usual(kind):
            changed[kind] = own
    client.pop("order", None)
    if changed:
        client["order"] = changed


def add_to_order(document: dict[str, Any], kind: str, measurement: str) -> None:
    """Take one more measurement for this kind with this client, at its usual place."""
    order = list(measurements_for(document, [kind]))
    if kind in kinds() and measurement in catalogue() and measurement not in order:
        order.insert(_place_for(measurement, order), measurement)
        document["client"].setdefault("order", {})[kind] = order


def moved(order: Sequence[str], measurement: str, to: int) -> tuple[str, ...]:
    """Return an order with one measurement at another place, counted from 0; ends hold it."""
    rest = [name for name in order if name != measurement]
    to = min(max(to, 0), len(rest))
    return (*rest[:to], measurement, *rest[to:])


def usual_order(document: dict[str, Any], for_kinds: Iterable[str]) -> None:
    """Go back to the order the client stands."""
    for kind in for_kinds:
        _orders(document).pop(kind, None)
    if not _orders(document):
        document["client"].pop("order", None)


def _orders(document: Document) -> dict[str, Any]:
    orders = document["client"].get("order")
    return orders if isinstance(orders, dict) else {}


def _own_order(document: Document, kind: str) -> list[str]:
    own = _orders(document).get(kind)
    return [name for name in own if name in catalogue()] if isinstance(own, list) else []


def _usual(kind: str) -> list[str]:
    return [request.measurement.id for request in needed_for(kind)]


def _place_for(name: str, order: Sequence[str]) -> int:
    """Return where a measurement goes: after the nearest that usually comes before it."""
    before = [other for other in order if _usual_place(other) < _usual_place(name)]
    return order.index(max(before, key=_usual_place)) + 1 if before else 0


def _usual_place(name: str) -> tuple[int, str]:
    """Return where a measurement stands among all of them, as the client stands."""
    places = _places()
    return places.get(name, len(places)), name


@cache
def _places() -> dict[str, int]:
    return {name: at for at, name in enumerate(catalogue())}
