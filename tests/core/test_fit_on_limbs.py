"""Sleeves and legs on the figure: known from what the file says, placed by their share."""

import copy
from math import pi, sin

import pytest

from core.figure import standard_body as her
from core.file.fitting_file import read_document
from core.fit.laid_flat import laid_flat
from core.fit.on_her import on_her
from core.fit.on_limbs import lies_on

TRUNK = {
    "id": "body", "kind": "half",
    "pieces": [{"id": "front", "fold": True, "width": {"one": 110, "two": 110}},
               {"id": "back", "width": {"one": 120, "two": 120}}],
    "seams": [{"id": "side", "joins": ["front", "back"], "allowance": 10},
              {"id": "centre", "joins": ["back", "back"], "allowance": 10}],
}  # fmt: skip
"""Net 100 and 100 at both levels: the side seam lies in the middle."""


def garment(ring, levels, *, trunk=True, **more):
    """A garment of a trunk and a limb whose levels have names that say nothing."""
    rings = [copy.deepcopy(TRUNK)] if trunk else []
    shown = ([{"id": "one", "label": "One", "down": 100},
              {"id": "two", "label": "Two", "down": 300}] if trunk else []) + levels  # fmt: skip
    document = {
        "format": "pins-to-seams/1", "unit": "mm", "client": {"id": "c", "name": "Nobody"},
        "garments": [{"id": "g", "levels": sorted(shown, key=lambda level: level["down"]),
                      "layers": [{"id": "outer", "rings": [*rings, ring]}], **more}],
    }  # fmt: skip
    return read_document(document).garments[0]


def levels(*downs, **more):
    return [{"id": f"level_{at}", "label": f"Level {at}", "down": down, **more}
            for at, down in enumerate(downs)]  # fmt: skip


def limb(*pieces, copies=2, **seams):
    """Pieces of one width each at two levels; ``seams`` by id: the two pieces they join."""
    return {
        "id": "limb", "kind": "closed", "copies": copies,
        "pieces": [{"id": name, "width": {"level_0": wide, "level_1": wide}}
                   for name, wide in pieces],
        "seams": [{"id": name, "joins": joins, "allowance": 0} for name, joins in seams.items()],
    }  # fmt: skip


def where(made, trunk=True):
    (layer,) = made.layers
    return lies_on(made, layer, layer.rings[-1])


def line(worn, place, side, face):
    return next((one for one in worn.lines
                 if (one.place, one.side, one.face) == (place, side, face)), None)  # fmt: skip


SLEEVE = limb(("sleeve", 300), seam=["sleeve", "sleeve"])
LEG = limb(("fore", 200), ("hind", 200), out=["fore", "hind"], within=["fore", "hind"])


def test_a_pair_that_begins_beside_the_trunk_is_sleeves_one_that_begins_below_it_is_legs():
    assert where(garment(SLEEVE, levels(150, 450))) == "arm"
    assert where(garment(LEG, levels(300, 700))) == "leg"


def test_a_seam_that_goes_on_from_the_trunk_makes_a_leg_of_it():
    shared = limb(("fore", 200), ("hind", 200), side=["fore", "hind"], within=["fore", "hind"])
    assert where(garment(shared, levels(250, 700))) == "leg"


def test_alone_it_is_known_by_what_its_levels_measure_on_her():
    sleeves = levels(100, 450, body="elbow_girth")
    assert where(garment(SLEEVE, sleeves, trunk=False)) == "arm"
    assert where(garment(SLEEVE, levels(100, 450, body="knee_girth"), trunk=False)) == "leg"
    assert where(garment(SLEEVE, levels(100, 450, **{"from": "shoulder_point"}),
                         trunk=False)) == "arm"  # fmt: skip


def test_one_closed_round_alone_goes_round_the_trunk():
    skirt = limb(("all", 800), copies=1, seam=["all", "all"])
    made = garment(skirt, levels(0, 500), trunk=False)
    assert where(made) == "trunk"
    worn = on_her(made)
    assert line(worn, "seam", "both", "back").at["level_1"][0] == pytest.approx(0, abs=1e-6)
    assert line(worn, "seam", "both", "front") is None


def test_a_sleeve_of_one_piece_has_its_seam_inside_and_is_there_to_be_folded_on_both_faces():
    worn = on_her(garment(SLEEVE, levels(150, 450)))
    y = worn.levels["level_1"]
    for face in ("front", "back"):
        assert line(worn, "seam", "left", face).at["level_1"][0] == pytest.approx(
            her.arm_inner().at(y))  # fmt: skip
        middle = (her.arm_inner().at(y) + her.arm_outer().at(y)) / 2
        assert (worn.cut_at(face, middle, y).place, worn.cut_at(face, middle, y).side) == (
            "sleeve", "left")  # fmt: skip
        assert worn.cut_at(face, -middle, y).side == "right"
    assert worn.middle("sleeve", "right", y) == ("front", (pytest.approx(-middle), y))


def test_of_a_sleeve_in_two_the_upper_one_lies_outside_and_its_seams_by_their_share():
    """Upper 200 of 300: its middle outside, a third of the round to each side of it."""
    sleeve = limb(("upper", 200), ("under", 100), hind=["upper", "under"], fore=["upper", "under"])
    worn = on_her(garment(sleeve, levels(150, 450)))
    y = worn.levels["level_1"]
    outer, inner = her.arm_outer().at(y), her.arm_inner().at(y)
    behind = (outer + inner) / 2 + (outer - inner) / 2 * sin(2 * pi * (1 / 4 + 1 / 3))
    assert line(worn, "hind", "left", "back").at["level_1"][0] == pytest.approx(behind)
    assert line(worn, "fore", "left", "front").at["level_1"][0] == pytest.approx(behind)
    assert line(worn, "hind", "left", "front") is None
    assert worn.cut_at("front", outer - 2, y).place == "upper"
    assert worn.cut_at("front", inner + 1, y).place == "under"


@pytest.mark.parametrize("order", [1, -1])
def test_a_legs_known_outside_seam_lies_outside_whatever_the_order_it_is_listed_in(order):
    seams = dict([("side", ["fore", "hind"]), ("within", ["fore", "hind"])][::order])
    worn = on_her(garment(limb(("fore", 180), ("hind", 220), **seams), levels(300, 700)))
    y = worn.levels["level_1"]
    outer = her.leg_middle().at(y) + her.leg_half_width().at(y)
    legs = [one for one in worn.lines if one.place == "side" and "level_1" in one.at]
    assert {(one.side, one.face) for one in legs} == {
        (side, face) for side in ("left", "right") for face in ("front", "back")}  # fmt: skip
    assert [abs(one.at["level_1"][0]) for one in legs] == pytest.approx([outer] * 4)
    within = line(worn, "within", "left", "front").at["level_1"][0]
    inner = max(2 * her.leg_middle().at(y) - outer, 6)
    # the hinder piece has 55 hundredths, from a quarter of the turn to 80 hundredths of it
    middle = (outer + inner) / 2
    assert within == pytest.approx(middle + (outer - middle) * sin(2 * pi * 0.8))
    middle = her.leg_middle().at(y)
    assert worn.cut_at("front", middle, y).place == "fore"
    assert worn.cut_at("back", middle, y).place == "hind"


def test_a_piece_whose_edge_is_near_the_side_is_never_touched_from_the_other_face():
    """The front has 48 hundredths of the half round: drawn at the side, so it ends at the side."""
    trunk = copy.deepcopy(TRUNK)
    trunk["pieces"][0]["width"] = {"one": 106, "two": 106}  # net 96
    trunk["pieces"][1]["width"] = {"one": 124, "two": 124}  # net 104
    worn = on_her(garment(trunk | {"id": "other"}, [
        {"id": "one", "label": "One", "down": 0}, {"id": "two", "label": "Two", "down": 300}],
        trunk=False))  # fmt: skip
    y = worn.levels["two"]
    edge = line(worn, "side", "left", "front").x(y)
    for share in (0.2, 0.6, 0.99, 1.0):
        assert worn.cut_at("front", edge * share, y).place == "front"
        assert worn.cut_at("back", edge * share, y).place == "back"


def test_a_garment_without_layers_is_an_empty_figure():
    document = {"format": "pins-to-seams/1", "unit": "mm", "client": {"id": "c", "name": "N"},
                "garments": [{"id": "g", "levels": [], "layers": []}]}  # fmt: skip
    made = read_document(document).garments[0]
    worn = on_her(made)
    assert (worn.lines, worn.pieces, worn.outlines["front"]) == ((), (), ())
    assert worn.cut_at("front", 0, 500) is None
    flat = laid_flat(made, document["garments"][0], "mm")
    assert (flat.lines, flat.pieces) == ((), ())


# -- inside out ---------------------------------------------------------------------------


def test_inside_out_an_allowance_is_as_wide_as_it_was_cut_and_stands_off_her_at_the_side():
    worn = on_her(garment(SLEEVE, levels(150, 450)), inside_out=True)
    centre = [band for band in worn.bands["back"] if all(x == 0 for x, _ in band[0])]
    assert sorted(band[1][0][0] for band in centre) == [-10, 10]
    side = line(worn, "side", "left", "front")
    (out,) = [band for band in worn.bands["front"] if band[0] == side.points]
    assert [x for x, _ in out[1]] == [pytest.approx(x + 10) for x, _ in side.points]
    assert not any(on_her(garment(SLEEVE, levels(150, 450))).bands.values())


def test_inside_out_a_darts_fold_lies_towards_the_middle_half_of_its_take_up_wide():
    trunk = copy.deepcopy(TRUNK)
    trunk["pieces"][0]["darts"] = [{"id": "dart", "take_up": {"one": 20},
                                    "ends": {"top": 50, "point": 200}}]  # fmt: skip
    made = garment(trunk | {"id": "other"}, [
        {"id": "one", "label": "One", "down": 100}, {"id": "two", "label": "Two", "down": 300}],
        trunk=False)  # fmt: skip
    worn = on_her(made, inside_out=True)
    for side, way in (("left", -1), ("right", 1)):
        fold = line(worn, "dart", side, "front")
        (band,) = [band for band in worn.bands["front"] if band[0] == fold.points]
        wide = [(x - x0) * way for (x0, _), (x, _) in zip(*band, strict=True)]
        assert wide[0] == wide[-1] == pytest.approx(0)
        assert max(wide) == pytest.approx(10, abs=1.5)  # it is traced every 16 mm


def test_laid_flat_inside_out_the_garments_left_half_lies_on_her_right():
    """The garment's left front is 30 wider: worn inside out that half is her right."""
    trunk = copy.deepcopy(TRUNK)
    trunk["pieces"][0]["width"] = {"one": {"left": 140, "right": 110}, "two": 110}
    both = [{"id": "one", "label": "One", "down": 0}, {"id": "two", "label": "Two", "down": 300}]
    document = {"format": "pins-to-seams/1", "unit": "mm", "client": {"id": "c", "name": "N"},
                "garments": [{"id": "g", "levels": both,
                              "layers": [{"id": "outer", "rings": [trunk]}]}]}  # fmt: skip
    made = read_document(document).garments[0]
    for inside_out, wider in ((False, "left"), (True, "right")):
        flat = laid_flat(made, document["garments"][0], "mm", inside_out=inside_out)
        fronts = {one.cut.side: one for one in flat.pieces if one.cut.place == "front"}
        wide = {side: one.right.at(0) - one.left.at(0) for side, one in fronts.items()}
        other = {"left": "right", "right": "left"}[wider]
        assert wide == {wider: pytest.approx(130), other: pytest.approx(100)}
        assert bool(flat.cut_outlines["front"]) == inside_out
