"""Which way to share out what the tape asks for was chosen at a fitting.

The choice is kept in the fitting's ``way``, an optional field of ours; without it the plan goes
by turns.
"""

from collections.abc import Mapping
from typing import Any, cast

from core.changes.options import WAYS
from core.records.answer import Sharing


def way_in(fitting: Mapping[str, Any]) -> Sharing:
    """Return the way that was chosen at a fitting of the document."""
    way = fitting.get("way")
    return cast(Sharing, way) if way in WAYS else "by_turns"


def choose_way(fitting: dict[str, Any], way: str) -> None:
    """Write down which way was chosen; the usual one needs no words."""
    if way in WAYS and way != "by_turns":
        fitting["way"] = way
    else:
        fitting.pop("way", None)
