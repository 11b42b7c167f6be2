"""Any change at all to any draft: it can be read and drawn after, or it is refused whole."""

import copy
import json
from contextlib import suppress

from hypothesis import given, settings
from hypothesis import strategies as st

from core.draft.again import work_out_afresh, work_out_again
from core.draft.allowances import set_allowance
from core.draft.before_cutting import finished_girth
from core.draft.building import remove_dart, remove_level
from core.draft.check import check_draft
from core.draft.darts import set_end, set_take_up
from core.draft.ease import set_ease
from core.draft.edits import set_drop, set_height, set_width, step_height, step_width
from core.draft.kinds import all_kinds
from core.draft.layers import put_layer_on, take_layer_off
from core.draft.made_from import template_of
from core.draft.names import rename
from core.draft.parts import set_part
from core.draft.start import begin_from_kind
from core.draft.table import draft_table
from core.errors import WorkroomError
from core.file.fitting_file import read_document
from core.outline.part_outline import part_outlines
from core.outline.piece_outline import piece_outlines
from tests.drafts import drafted

KINDS = [found.id for found in all_kinds()]


def _fitted(document):
    """Return a document whose garment has a fitting with a pin on its first seam."""
    ring = document["garments"][0]["layers"][0]["rings"][0]
    level = next(iter(ring["pieces"][0]["width"]))
    pin = {"seam": ring["seams"][0]["id"], "level": level, "pinch": "1"}
    fitting = {"id": "f", "on": "2026-06-01", "pins": [pin]}
    garment = {**document["garments"][0], "fittings": [fitting]}
    return {**document, "garments": [garment]}


DRAFTS = {(name, unit): drafted(name, unit) for name in KINDS for unit in ("in", "cm")}
DRAFTS |= {(*which, "fitted"): _fitted(document) for which, document in DRAFTS.items()}
TYPED = st.sampled_from(
    ["0", "1/2", "1", "2 1/2", "10", "12,5", "0.3", "3 cm", "-1", "-1/4", "x", "", "1/0", "9%",
     "400", "1e3", "½"]
)  # fmt: skip
SIDES = st.sampled_from([None, "left", "right"])


def _places(document):
    """Return layer, ring, piece, level for every width; every seam; every dart."""
    widths, seams, darts = [], [], []
    for layer in document["garments"][0]["layers"]:
        for ring in layer["rings"]:
            seams += [(layer["id"], seam["id"]) for seam in ring["seams"]]
            for piece in ring["pieces"]:
                widths += [(layer["id"], piece["id"], level) for level in piece["width"]]
                darts += [(layer["id"], dart["id"]) for dart in piece.get("darts", [])]
    levels = [level["id"] for level in document["garments"][0]["levels"]]
    return widths, seams, darts, levels


@st.composite
def _changes(draw, document):
    """Return one change, as a function of the document."""
    widths, seams, darts, levels = _places(document)
    layer, piece, level = draw(st.sampled_from(widths))
    typed, side, of = draw(TYPED), draw(SIDES), draw(st.sampled_from(levels))
    on, seam = draw(st.sampled_from(seams))
    steps = draw(st.integers(-3, 3))
    width = {"garment": "one", "layer": layer, "piece": piece, "level": level, "side": side}
    found = [
        lambda one: set_width(one, typed, **width),
        lambda one: step_width(one, steps, **width),
        lambda one: set_height(one, typed, garment="one", level=of),
        lambda one: step_height(one, steps, garment="one", level=of),
        lambda one: set_drop(one, typed, garment="one"),
        lambda one: set_ease(one, typed, garment="one", level=of),
        lambda one: set_ease(one, typed, garment="one", level=of, layer=layer),
        lambda one: set_allowance(one, typed, garment="one", layer=on, seam=seam, level=level),
        lambda one: set_allowance(one, typed, garment="one", layer=on, seam=seam),
        lambda one: rename(one, typed, garment="one", what="seams", id=seam),
        lambda one: rename(one, typed, garment="one", what="levels", id=of),
        lambda one: remove_level(one, garment="one", level=of),
        lambda one: take_layer_off(one, garment="one", layer="lining"),
        lambda one: put_layer_on(one, garment="one", layer="lining"),
        lambda one: work_out_again(one, garment="one"),
        lambda one: work_out_afresh(one, garment="one"),
    ]
    if darts:
        within, dart = draw(st.sampled_from(darts))
        where = {"garment": "one", "layer": within, "dart": dart}
        found += [
            lambda one: set_take_up(one, typed, level=level, **where),
            lambda one: set_end(one, typed, end=draw_end, **where),
            lambda one: remove_dart(one, **where),
        ]
        draw_end = draw(st.sampled_from(["top", "point"]))
    for part in document["garments"][0]["joined"]:
        what = draw(st.sampled_from(["turns", "depth", "fullness", "inner_radius", "level"]))
        found.append(lambda one, part=part["id"], what=what: set_part(
            one, what, typed, garment="one", part=part))  # fmt: skip
    return draw(st.sampled_from(found))


@settings(max_examples=60, deadline=None)
@given(st.data(), st.sampled_from(sorted(DRAFTS)))
def test_after_any_changes_the_draft_is_whole_or_the_change_was_refused_whole(data, which):
    document = copy.deepcopy(DRAFTS[which])
    for _ in range(data.draw(st.integers(1, 4))):
        before = copy.deepcopy(document)
        change = data.draw(_changes(document))
        try:
            change(document)
        except WorkroomError:
            assert document == before
    file = read_document(json.loads(json.dumps(document)))
    garment, written = file.garments[0], document["garments"][0]
    draft_table(file, garment)
    check_draft(file, garment)
    for layer in garment.layers:
        for outline in piece_outlines(garment, written, layer.id, file.unit):
            assert len(outline.cut) >= 4
        part_outlines(garment, written, layer.id, file.unit)
    own = json.loads(json.dumps(template_of(written, id="own", label="Own", unit=file.unit)))
    with suppress(WorkroomError):  # a kind may ask for more than this tape has
        begin_from_kind(document, "own", id="next", own_kinds=[own])
        read_document(document)


@settings(max_examples=60, deadline=None)
@given(st.data(), st.sampled_from(sorted(DRAFTS)), st.sampled_from(["1/2", "7/8", "2", "3 cm"]))
def test_an_allowance_never_changes_what_is_finished(data, which, typed):
    document = copy.deepcopy(DRAFTS[which])
    _, seams, _, _ = _places(document)
    layer, seam = data.draw(st.sampled_from(seams))
    before = _rounds(document)
    set_allowance(document, typed, garment="one", layer=layer, seam=seam)
    for place, girth in _rounds(document).items():
        assert abs(girth - before[place]) < 4.1 * 25.4 / 64  # half a mark on each edge


def _rounds(document):
    garment = read_document(document).garments[0]
    return {
        (layer.id, ring.id, level): finished_girth(garment, ring, level, "left")
        for layer in garment.layers for ring in layer.rings for level in ring.levels
        if ring.whole_at(level)
    }  # fmt: skip
