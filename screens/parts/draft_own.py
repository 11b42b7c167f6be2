"""Her own kinds of garment and how she likes them made, where the workroom keeps them."""

from collections.abc import Mapping
from typing import Any

from core.own_kinds import Kept
from screens.workroom import Workroom


def own_kinds(room: Workroom) -> Kept:
    """Return her own kinds, as the workroom keeps them."""
    return ()


def her_defaults(room: Workroom) -> Mapping[str, Any]:
    """Return how she likes her garments made, kind by kind."""
    return {}


def keep_kind(room: Workroom, garment: str) -> None:
    """Keep a garment of the open client as a kind of hers."""
