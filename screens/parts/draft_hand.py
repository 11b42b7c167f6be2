"""The open number changed: each kind of number has its own rule in the core."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from typing import Any

from core.draft.allowances import set_allowance, set_behaviour
from core.draft.darts import set_end, set_take_up
from core.draft.document import find, find_dart, find_piece, garment_in, unit_of
from core.draft.ease import set_ease
from core.draft.edits import set_drop, set_height, set_width, step_height, step_width, stepped
from core.draft.names import rename, rename_garment
from core.draft.parts import set_part
from core.draft.width_shift import sides_of
from core.errors import NotFound
from core.lengths import read_length
from screens.parts.draft_chosen import Drafting, Opened

Document = dict[str, Any]

_BELOW_NOTHING = frozenset({"height", "ease", "end"})
"""What may be less than nothing: above the top edge, smaller than the body."""


def put_number(document: Document, chosen: Drafting, typed: str) -> None:
    """Set the number that is open to what was typed; raises ``WorkroomError``."""
    _setter(document, chosen)(typed)


def step_number(document: Document, chosen: Drafting, typed: str, steps: int) -> None:
    """Make the open number, now ``typed``, more or less by whole steps of the garment."""
    opened, garment = chosen.opened, chosen.garment
    side = opened.which or None
    if opened.what == "width":
        step_width(document, steps, garment=garment, layer=chosen.layer, piece=opened.of,
                   level=opened.level, side=side)  # fmt: skip
    elif opened.what == "height" and not opened.which:
        step_height(document, steps, garment=garment, level=opened.level)
    else:
        least = None if opened.what in _BELOW_NOTHING else 0.0
        written = garment_in(document, garment)
        put_number(document, chosen,
                   stepped(typed, steps, written, unit_of(document), least_mm=least))  # fmt: skip


def turned(typed: str) -> str:
    """Return a length or a share with its sign turned."""
    text = typed.strip()
    return text[1:].lstrip() if text.startswith("-") else f"-{text}"


def give_name(document: Document, chosen: Drafting, name: str) -> None:
    """Call the part that lies open by her own word; raises ``CannotChange``."""
    opened = chosen.opened
    if opened.which == "garment":
        rename_garment(document, name, garment=chosen.garment)
    else:
        rename(document, name, garment=chosen.garment, what=opened.which, id=opened.of)


def deepest(document: Document, chosen: Drafting, dart: str) -> str:
    """Return the level where a dart takes up most, or nothing; raises ``NotFound``."""
    layer = find(garment_in(document, chosen.garment), "layers", chosen.layer)
    *_, entry = find_dart(layer, dart)
    unit = unit_of(document)
    taken = {level: max(read_length(one, unit).mm for one in sides_of(typed))
             for level, typed in (entry.get("take_up") or {}).items()}  # fmt: skip
    return max(taken, key=lambda level: taken[level], default="")


def one_side(document: Document, chosen: Drafting, opened: Opened) -> Opened:
    """Return the number to open: her left of a width whose left and right are unlike."""
    if opened.what != "width" or opened.which:
        return opened
    layer = find(garment_in(document, chosen.garment), "layers", chosen.layer)
    _, piece = find_piece(layer, opened.of)
    typed = (piece.get("width") or {}).get(opened.level)
    return replace(opened, which="left") if isinstance(typed, Mapping) else opened


def _setter(document: Document, chosen: Drafting) -> Callable[[str], None]:
    opened, garment, layer = chosen.opened, chosen.garment, chosen.layer
    say = partial(_call, document, garment)
    ways: Mapping[str, Callable[[str], None]] = {
        "width": say(set_width, layer=layer, piece=opened.of, level=opened.level,
                     side=opened.which or None),
        "height": say(set_height, level=opened.level, place=opened.which),
        "ease": say(set_ease, level=opened.level, layer=opened.of),
        "drop": say(set_drop),
        "take up": say(set_take_up, layer=layer, dart=opened.of, level=opened.level),
        "end": say(set_end, layer=layer, dart=opened.of, end=opened.which),
        "allowance": say(set_allowance, layer=layer, seam=opened.of, level=opened.level,
                         piece=opened.which),
        "behaviour": lambda typed: _behave(document, chosen, typed),
        "joined": say(set_part, part=opened.of, of="joined", what=opened.which),
        "inserts": say(set_part, part=opened.of, of="inserts", what=opened.which),
    }  # fmt: skip
    if opened.what not in ways:
        raise NotFound("Touch a number of the draft first")
    return ways[opened.what]


def _call(
    document: Document, garment: str, edit: Callable[..., None], **named: Any
) -> Callable[[str], None]:
    if "what" in named:
        what = named.pop("what")
        return lambda typed: edit(document, what, typed, garment=garment, **named)
    return lambda typed: edit(document, typed, garment=garment, **named)


def _behave(document: Document, chosen: Drafting, typed: str) -> None:
    opened: Opened = chosen.opened
    what, _, owner = opened.which.partition(":")
    set_behaviour(document, what, typed, garment=chosen.garment, layer=chosen.layer,
                  **{owner: opened.of})  # fmt: skip



