"""The seven kinds: complete, and readable by what the rest leans on."""

import pytest

from core.body.measurements import catalogue, kinds
from core.draft.kinds import all_kinds, kind

INCH = 25.4
EVERY_KIND = all_kinds()


def _rings(found):
    return [(layer["id"], ring) for layer in found.template["layers"] for ring in layer["rings"]]


def _edges(seam, ring):
    """A centre seam lies on one edge of its half, a closed round's own seam on two."""
    return dict.fromkeys(seam["joins"]) if ring["kind"] == "half" else seam["joins"]


def test_every_kind_that_has_a_list_of_measurements_is_there():
    assert tuple(found.id for found in EVERY_KIND) == kinds()
    assert len(EVERY_KIND) == 7


@pytest.mark.parametrize("name", ["", "cloak", "../measurements", "sheath dress"])
def test_an_unknown_kind_is_nothing(name):
    assert kind(name) is None


def test_a_kind_is_read_once():
    assert kind("trousers") is kind("trousers")


# Expected: the table “what the garment is let out to” of the calculation: bust 3/8, waist
# 1/2, hip of a skirt 3/4; a zip's seam keeps 5/8.  Bench practice, no published source.
def test_comfort_by_level_and_what_a_zip_keeps():
    sheath = kind("sheath_dress")
    assert sheath.comfort == {"bust": 3 / 8 * INCH, "waist": INCH / 2, "top_hip": INCH / 2,
                              "hip": 3 / 4 * INCH}  # fmt: skip
    assert all(found.zip_keep == 5 / 8 * INCH for found in EVERY_KIND)


def test_sheath_side_seam_first_and_the_zip_last():
    sheath = kind("sheath_dress")
    turns = {name: sheath.seams["outer", name].turn.at("back", "waist")
             for name in ("side", "centre_back")}  # fmt: skip
    assert turns == {"side": 1, "centre_back": 3}
    assert sheath.darts["outer", "back_waist"].turn == 2
    assert sheath.seams["outer", "centre_back"].zip


def test_princess_seam_never_moves_over_the_bust():
    seam = kind("princess_gown").seams["outer", "front_princess"]
    assert seam.turn.at("side_front", "bust") == 0
    assert seam.weight.at("centre_front", "bust") == 0
    assert seam.weight.at("side_front", "bust") is None
    assert seam.run_down == "knee"


def test_trouser_side_seam_is_one_through_seat_and_leg():
    side = kind("trousers").seams["outer", "side"]
    assert [side.turn.at("", level) for level in ("waist", "hip", "thigh", "hem")] == [2, 2, 1, 1]
    assert kind("trousers").side_set_forward["outer", "seat"] == INCH / 2


@pytest.mark.parametrize("found", EVERY_KIND, ids=lambda found: found.id)
def test_what_must_be_opened_is_known_with_its_minutes(found):
    parts = [*found.seams.values(), *found.darts.values()]
    for part in parts:
        for need in part.needs:
            assert found.openings[need].minutes > 0


@pytest.mark.parametrize("found", EVERY_KIND, ids=lambda found: found.id)
def test_every_seam_and_dart_has_minutes(found):
    assert all(seam.minutes > 0 for seam in found.seams.values())
    assert all(dart.minutes > 0 and dart.turn for dart in found.darts.values())


@pytest.mark.parametrize("found", EVERY_KIND, ids=lambda found: found.id)
def test_levels_checks_and_ease_name_things_that_are_there(found):
    levels = {level["id"]: level for level in found.template["levels"]}
    rings = {ring["id"] for _, ring in _rings(found)}
    assert set(found.ease) <= set(levels)
    assert set(found.comfort) <= set(levels)
    assert set(found.more) <= set(levels)
    assert set(found.ease_as_drafted) <= set(levels)
    for check in found.checks:
        assert check.ring in rings
        assert check.level in levels
        assert check.against in catalogue()
    for level in levels.values():
        for key in ("body", "front_arc", "down_body"):
            assert level.get(key, "height") in catalogue()


@pytest.mark.parametrize("found", EVERY_KIND, ids=lambda found: found.id)
def test_every_rule_counts_the_seams_that_the_piece_has_there(found):
    for layer, ring in _rings(found):
        rules = {piece["id"]: piece["rule"] for piece in ring["pieces"]}
        for piece, by_level in rules.items():
            for level, rule in by_level.items():
                expected = sorted(
                    seam["id"]
                    for seam in ring["seams"]
                    for edge in _edges(seam, ring)
                    if edge == piece and all(level in rules[one] for one in seam["joins"])
                )
                said = [term for term in rule if isinstance(term, str)]
                assert sorted(t[5:] for t in said if t.startswith("seam:")) == expected, layer


def test_the_lining_moves_on_seams_of_its_own_or_the_same_name():
    assert ("lining", "lining_side") in kind("gored_skirt").seams
    assert ("lining", "side") in kind("pencil_skirt").seams
