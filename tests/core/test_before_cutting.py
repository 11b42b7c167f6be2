"""Checks before cutting: the worked drafts pass, and a spoiled number is noticed."""

import copy

import pytest

from core.draft.before_cutting import before_cutting
from core.draft.kinds import all_kinds, kind
from core.draft.spoken_sum import work_again
from core.file.fitting_file import read_document
from core.lengths import read_length
from core.records.fitting import Taken
from core.records.garment import Ease
from tests.real_drafts import invented_client, worked_drafts

INCH = 25.4
KINDS = [found.id for found in all_kinds()]


def _checks(document, values=None, **told):
    garment = read_document(document).garments[0]
    tape = invented_client() if values is None else values
    return before_cutting(garment, tape, kind=kind(garment.kind), **told)


def _wrong(document, values=None, **told):
    return [check for check in _checks(document, values, **told) if not check.ok]


def _worked(name):
    return copy.deepcopy(worked_drafts()[name])


def _pieces(document):
    return [(layer["id"], piece) for layer in document["garments"][0]["layers"]
            for ring in layer["rings"] for piece in ring["pieces"]]  # fmt: skip


def _every_width():
    return [(name, layer, piece["id"], level) for name in KINDS
            for layer, piece in _pieces(worked_drafts()[name])
            for level in piece["width"]]  # fmt: skip


def _spoiled(name, layer, piece_id, level, inches):
    document = _worked(name)
    for of, piece in _pieces(document):
        if (of, piece["id"]) == (layer, piece_id):
            piece["width"][level] = read_length(piece["width"][level], "in").mm / INCH + inches
    return document


def _tape(**inches):
    taken = {name: Taken(value * INCH, value * INCH) for name, value in inches.items()}
    return {**invented_client(), **taken}


def _told(checks, *words):
    return [check for check in checks if all(word in check.what for word in words)]


@pytest.mark.parametrize("name", KINDS)
def test_the_worked_drafts_pass_every_check(name):
    checks = _checks(_worked(name))
    assert len(checks) > 20
    assert [check for check in checks if not check.ok] == []


@pytest.mark.parametrize(("name", "layer", "piece", "level"), _every_width())
def test_a_width_spoiled_by_a_quarter_is_noticed(name, layer, piece, level):
    for inches in (0.25, -0.25):
        wrong = _wrong(_spoiled(name, layer, piece, level, inches))
        assert wrong, inches


@pytest.mark.parametrize("name", KINDS)
def test_without_its_sums_a_spoiled_half_is_noticed_where_the_body_was_taken(name):
    """One width of a half wrong by 1/4 makes the round 1/2 off: beyond the band of 1/4."""
    garment = read_document(_worked(name)).garments[0]
    half = next(ring for ring in garment.layers[0].rings if ring.kind == "half")
    judged = [level for level in half.levels if garment.levels[level].body in invented_client()]
    for piece in half.pieces:
        for level in judged:
            document = _spoiled(name, "outer", piece.id, level, 0.25)
            for _, entry in _pieces(document):
                del entry["sum"]
            assert _told(_wrong(document), garment.levels[level].label.lower())


def test_the_edge_of_the_band_belongs_to_it():
    """A sleeve is one width: 1/4 out is the band's edge, and 3/8 is beyond it.

    The left arm is 1/8 smaller than the right that the sleeve was drafted for, so 1/4 more
    is 3/8 over on the left: beyond.  1/4 less is 1/8 under there, and 1/4 under on the right.
    """
    def girths(inches):
        document = _spoiled("sleeved_bodice", "outer", "sleeve", "upper_arm", inches)
        for _, entry in _pieces(document):
            del entry["sum"]
        arms = _told(_checks(document), "sleeve, upper arm")
        return {side: check.ok for check in arms for side in ("left", "right")
                if check.what.endswith(side)}  # fmt: skip

    assert girths(-0.25) == {"left": True, "right": True}
    assert girths(0.25) == {"left": False, "right": True}
    assert girths(-0.375) == {"left": True, "right": False}


def test_the_girth_is_told_as_a_sum():
    """38 body + 2 ease; front net 10 3/8, back 9 5/8, twice: 40."""
    girth = _told(_checks(_worked("sheath_dress")), "Outer, body, bust")
    texts = [check.text for check in girth if check.what == "Outer, body, bust"]
    assert texts == ["38 body + 2 ease = 40 wanted; finished 40"]


def test_a_sum_that_does_not_come_out_is_noticed():
    document = _worked("sheath_dress")
    front = _pieces(document)[0][1]
    front["sum"]["bust"] = front["sum"]["bust"].replace("9 1/2 (", "9 3/4 (")
    assert [check.what for check in _wrong(document)] == ["Outer, body, bust, front"]


def test_a_sum_in_words_of_her_own_is_left_alone():
    document = _worked("sheath_dress")
    _pieces(document)[0][1]["sum"]["bust"] = "as the toile"
    assert not _wrong(document)


@pytest.mark.parametrize(
    ("said", "terms", "result"),
    [
        ("7 1/2 (waist 30 / 4) + 1/4 (ease 1 / 4) - 1/4 (back is less) = 7 1/2", 7.5, 7.5),
        ("11 (hip 44 / 4) + 1 (seam) = 13", 12, 13),
        ("-1 (in) + 2 (out) = 1", 1, 1),
    ],
)
def test_a_printed_sum_is_worked_again(said, terms, result):
    worked = work_again(said, "in")
    assert worked.terms / INCH == pytest.approx(terms)
    assert worked.result / INCH == pytest.approx(result)


@pytest.mark.parametrize("said", ["", "12", "half = whole", "1 + = 2", "= 3"])
def test_what_is_no_sum_is_not_worked(said):
    assert work_again(said, "in") is None


# Heights.


def test_forgetting_the_drop_is_noticed_at_every_measured_height():
    """Bust point 10 3/4 down the body; off the shoulder by 4 it lies 6 3/4 down the gown."""
    document = _worked("fishtail_gown")
    document["garments"][0]["drop"] = "0"
    assert {check.what for check in _wrong(document)} == {
        "Bust, height", "Under-bust, height", "Waist, height"
    }  # fmt: skip
    text = _told(_checks(_worked("fishtail_gown")), "Bust, height")[0].text
    assert text == "10 3/4 side neck to bust point - 4 = 6 3/4 wanted; drafted 6 3/4"


def test_front_side_and_back_may_each_have_a_height():
    document = _worked("sheath_dress")
    waist = document["garments"][0]["levels"][1]
    waist["down"] = {"front": "17 3/4", "back": "17 1/4"}
    waist["down_body"] = {"front": "side_neck_to_waist_front", "back": "side_neck_to_waist_back"}
    wrong = _wrong(document)  # back wanted: 16 1/2
    assert [check.what for check in wrong] == ["Waist, back, height"]


def test_a_height_between_her_left_and_right_agrees():
    values = {**invented_client(),
              "side_neck_to_bust_point": Taken(10.5 * INCH, 11 * INCH, sided=True)}  # fmt: skip
    assert not _told(_wrong(_worked("sheath_dress"), values), "height")
    off = {**values, "side_neck_to_bust_point": Taken(11.25 * INCH, 11.5 * INCH, sided=True)}
    assert _told(_wrong(_worked("sheath_dress"), off), "Bust, height")


def test_heights_from_the_waist_start_at_the_garments_waist():
    document = _worked("fishtail_gown")
    hip = document["garments"][0]["levels"][5]
    assert hip["id"] == "hip"
    hip["down_body"] = "waist_to_hip"  # 13 3/4 + 8 1/2 = 22 1/4, as it was drafted
    assert not _wrong(document)


# Front arc.


def test_a_full_bust_with_a_narrow_back_agrees_in_the_round_and_is_noticed_in_front():
    """Front arc 21 instead of 19 3/4, the same 38 round: front wanted 22, finished 20 3/4."""
    wrong = _wrong(_worked("sheath_dress"), _tape(bust_front_arc=21))
    assert [check.what for check in wrong] == [
        "Outer, body, bust, front", "Lining, body, bust, front"
    ]  # fmt: skip
    assert wrong[0].text == (
        "21 front arc + 1 half the ease = 22 wanted; finished 20 3/4"
    )


def test_trouser_side_seams_set_forward_are_allowed_for():
    """15 1/2 + 1/2 - 1 = 15: front net 10 - 3/4 dart - 1 - 3/4 = 7 1/2, twice."""
    front = _told(_checks(_worked("trousers")), "Outer, seat, waist, front")
    texts = [check.text for check in front if "arc" in check.text]
    assert texts == [
        "15 1/2 front arc + 1/2 half the ease - 1 (side seams set forward) = 15 wanted;"
        " finished 15"
    ]


# What she must be able to do in it.


def test_sitting_needs_the_seated_hip():
    """Hip 41 + 2 1/2 = 43 1/2 finished: enough for 43 1/2 seated, not for 43 5/8."""
    for seated, ok in ((43.5, True), (43.625, False)):
        checks = _checks(_worked("pencil_skirt"), _tape(seated_hip_girth=seated))
        assert [check.ok for check in _told(checks, "to sit")] == [ok, ok]


def test_walking_needs_one_easy_step_and_an_inch():
    """The fishtail's flare is 37 1/2 round: a step of 36 1/2 + 1 may walk, 36 3/4 + 1 not."""
    for step, ok in ((36.5, True), (36.75, False)):
        values = {**_tape(stride_girth=step)}
        walk = _told(_checks(_worked("fishtail_gown"), values), "to walk")
        assert [check.ok for check in walk] == [ok, ok]


def test_a_vent_lets_her_walk_and_is_told():
    """The pencil skirt's hem is 39 1/2 round; a step of 40 + 1 needs its vent."""
    walk = _told(_checks(_worked("pencil_skirt"), _tape(stride_girth=40)), "Outer", "to walk")[0]
    assert walk.ok
    assert walk.text == "40 one easy step + 1, with the vent; finished 39 1/2"


def test_the_wrist_must_pass_the_hand():
    """Wrist 6 1/2 + 2 = 8 1/2 finished: passes a hand of 8 1/2, not one of 8 5/8."""
    for hand, ok in ((8.5, True), (8.625, False)):
        wrist = _told(_checks(_worked("sleeved_bodice"), _tape(hand_girth=hand)), "hand")
        assert [check.ok for check in wrist] == [ok, ok]


def test_the_upper_arm_keeps_an_inch_and_a_half():
    """Sleeve 14 finished on an arm of 12; on 12 1/2 it is just enough, on 12 5/8 it is not."""
    for arm, ok in ((12.5, True), (12.625, False)):
        bend = _told(_checks(_worked("sleeved_bodice"), _tape(upper_arm_girth=arm)), "bend")
        assert {check.ok for check in bend} == {ok}


def test_what_was_not_taken_is_not_checked():
    checks = _checks(_worked("sheath_dress"), {})
    assert all("its sum gives" in check.text for check in checks)


def test_an_unknown_kind_is_still_checked_against_the_tape():
    document = _worked("sheath_dress")
    document["garments"][0]["kind"] = "of her own"
    checks = _checks(document)
    assert all(check.ok for check in checks)
    assert not _told(checks, "to sit")


# Whose ease.


def test_the_garments_ease_beats_the_clients_and_the_clients_the_kinds():
    """Without its own ease the sheath takes the client's 3 at the waist, else the kind's 1."""
    document = _worked("sheath_dress")
    assert not _wrong(document, client_ease={"waist": Ease(3 * INCH)})
    document["garments"][0]["ease"] = {}
    assert not _wrong(document)
    wrong = _wrong(document, client_ease={"waist": Ease(3 * INCH)})
    assert wrong[0].text == "30 body + 3 ease = 33 wanted; finished 31"
    document["garments"][0]["layers"][0]["ease"] = {"waist": "1"}
    assert _told(_wrong(document, client_ease={"waist": Ease(3 * INCH)}), "Outer") == []
