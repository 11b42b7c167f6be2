"""Drafts worked out: the seven worked ones again, published ones, and what cannot be drafted."""

import json
import math
import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.draft.before_cutting import finished_girth
from core.draft.drafting import work_out
from core.draft.kinds import all_kinds, kind
from core.draft.marks import MARK_MM, mm_of
from core.draft.rule_terms import Place, Sheet, sum_in_words, terms_of, total
from core.errors import CannotDraft
from core.file.fitting_file import read_document
from core.records.fitting import Taken
from core.records.garment import SIDES, Ease
from core.sewn.shape import take_up_at
from tests.bodies import WOMEN_IN_THE_FILE, women
from tests.real_drafts import draft_for, invented_client, worked_drafts

INCH = 25.4
KINDS = [found.id for found in all_kinds()]


def _fraction(text):
    """An independent little reader: ``7 1/2``, ``25.45`` or ``-1/4`` as a fraction."""
    text = text.strip()
    sign = -1 if text.startswith("-") else 1
    return sign * sum(Fraction(part) for part in text.lstrip("-").split())


def _terms(said):
    """Return each printed term with its words, and the result."""
    left, result = said.rsplit(" = ", 1)
    found = re.findall(r"(?:^|([-+]) )(-?[\d /.]+?) \(([^()]*)\)", left)
    terms = [(-_fraction(n) if sign == "-" else _fraction(n), words) for sign, n, words in found]
    assert len(found) == left.count("(")
    return terms, _fraction(result)


def _pieces(garment):
    return [(layer["id"], ring, piece) for layer in garment["layers"] for ring in layer["rings"]
            for piece in ring["pieces"]]  # fmt: skip


def _file(garment, unit="in"):
    client = {"id": "one", "name": "Invented"}
    return read_document(
        {"format": "pins-to-seams/1", "unit": unit, "client": client, "garments": [garment]}
    )


def _draft(name, **told):
    return work_out(kind(name), invented_client(), **told)


def _without(*names):
    return {name: value for name, value in invented_client().items() if name not in names}


# The seven worked drafts, made by hand from the same client's tape: every number of theirs.


@pytest.mark.parametrize("name", KINDS)
def test_widths_and_sums_are_those_of_the_worked_draft(name):
    worked = worked_drafts()[name]["garments"][0]
    ours, theirs = _pieces(_draft(name)), _pieces(worked)
    assert [piece["id"] for _, _, piece in ours] == [piece["id"] for _, _, piece in theirs]
    for (_, _, piece), (_, _, expected) in zip(ours, theirs, strict=True):
        assert piece["width"] == expected["width"]
        assert piece["sum"] == expected["sum"]


@pytest.mark.parametrize("name", KINDS)
def test_heights_and_ease_are_those_of_the_worked_draft(name):
    worked = worked_drafts()[name]["garments"][0]
    draft = _draft(name)
    assert {level["id"]: level["down"] for level in draft["levels"]} == {
        level["id"]: level["down"] for level in worked["levels"]
    }
    assert draft["ease"] == worked["ease"]
    assert draft["drop"] == worked["drop"]


@pytest.mark.parametrize("name", KINDS)
def test_darts_are_those_of_the_worked_draft(name):
    worked = worked_drafts()[name]["garments"][0]
    for (_, _, piece), (_, _, theirs) in zip(_pieces(_draft(name)), _pieces(worked), strict=True):
        for dart, expected in zip(piece.get("darts", []), theirs.get("darts", []), strict=True):
            assert dart["take_up"] == expected["take_up"]
            assert dart["ends"] == expected["ends"]
            assert expected["centre_from"].startswith(dart["centre_from"])


@pytest.mark.parametrize("unit", ["in", "cm", "mm"])
@pytest.mark.parametrize("name", KINDS)
def test_every_printed_sum_works_again(name, unit):
    smallest = {"in": Fraction(1, 64), "cm": Fraction(1, 40), "mm": Fraction(1, 4)}[unit]
    for _, _, piece in _pieces(_draft(name, unit=unit)):
        assert set(piece["sum"]) == set(piece["width"])
        for level, said in piece["sum"].items():
            terms, result = _terms(said)
            assert sum(worth for worth, _ in terms) == result == _fraction(piece["width"][level])
            for worth, words in terms:
                shared = re.fullmatch(r".*?([\d][\d /.]*?) / (\d)", words)
                if shared:
                    share = _fraction(shared[1]) / int(shared[2])
                    assert abs(abs(worth) - share) <= smallest, words


@pytest.mark.parametrize("name", KINDS)
def test_finished_girth_is_body_and_ease_at_every_level(name):
    """Exactly in the round; the smaller of two unlike sides is 1/8 over (its own tape)."""
    garment = _file(_draft(name)).garments[0]
    judged = 0
    for ring in (ring for layer in garment.layers for ring in layer.rings):
        for level in ring.levels:
            body = invented_client().get(garment.levels[level].body)
            if body is None:
                continue
            judged += 1
            ease = garment.ease[level].of(body.on(None))
            if ring.kind == "half":
                wanted = body.on(None) + ease
                assert math.isclose(finished_girth(garment, ring, level, None), wanted)
                continue
            larger = max(body.left, body.right)
            for side in SIDES:
                found = finished_girth(garment, ring, level, side)
                assert math.isclose(found, larger + ease)
                assert -1e-6 <= found - body.on(side) - ease <= INCH / 8 + 1e-6
    assert judged >= 3


@pytest.mark.parametrize("unit", ["in", "cm", "mm"])
@pytest.mark.parametrize("name", KINDS)
def test_a_draft_is_a_garment_that_the_fitting_file_takes(name, unit):
    draft = work_out(kind(name), invented_client(), unit=unit, name="Her own", id="one")
    garment = _file(json.loads(json.dumps(draft)), unit).garments[0]
    assert (garment.id, garment.name, garment.kind) == ("one", "Her own", name)
    assert garment.heel_of_the_day == pytest.approx(3 * INCH, abs=MARK_MM[unit] / 2)


@pytest.mark.parametrize("name", KINDS)
def test_a_draft_in_centimetres_is_the_same_garment_to_the_mark(name):
    """Six terms at most, each half a millimetre mark (0.25 mm) and its inch twin exact."""
    inches = _file(_draft(name)).garments[0]
    metric = _file(_draft(name, unit="cm"), "cm").garments[0]
    for mine, theirs in zip(inches.layers, metric.layers, strict=True):
        for ring, other in zip(mine.rings, theirs.rings, strict=True):
            for level in ring.levels:
                a, b = (finished_girth(g, r, level, "left" if r.kind == "closed" else None)
                        for g, r in ((inches, ring), (metric, other)))  # fmt: skip
                assert abs(a - b) < 4.0


# Published rules, in our own terms.


def _sheet(unit="cm", ease=None, levels=None, **body):
    values = {name: Taken(mm, mm) for name, mm in body.items()}
    return Sheet(unit, values, 0, ease or {}, {}, levels or {})


def _width_mm(rule, sheet, **place):
    return mm_of(total(terms_of(rule, sheet, Place(**place))), sheet.unit)


def test_a_published_skirt_block_in_centimetres():
    """WIKED, cm: hip 96, waist 70: sewn waist 72.4 (ease 2.4), hip 101 (ease 5).

    Half = 48 + 2.5; back hip quarter 25.25 + 0.75, front 24.5 (what is left, less the 0.75);
    back waist 20.7 with a 2 dart, front 19.5 with a 2 dart: both widths with their dart.
    """
    levels = {"hip": {"id": "hip", "label": "Hip", "body": "hip_girth"}}
    sheet = _sheet(ease={"hip": Ease(50.0)}, levels=levels, hip_girth=960.0)
    forward = {"take": "fixed 0.75 cm", "words": "side seam forward"}
    less = {"take": "fixed -0.75 cm", "words": "side seam forward"}
    back = _width_mm(["body/4", "ease/4", forward], sheet, level="hip")
    front = _width_mm(["body/4", "ease/4", less], sheet, level="hip")
    assert (back, front) == pytest.approx((260.0, 245.0))
    assert 2 * (back + front) == pytest.approx(1010.0)
    waists = [_width_mm([{"take": f"fixed {cm} cm", "words": "waist"}, "-darts"], sheet,
                        level="hip", darts=40) for cm in (20.7, 19.5)]  # fmt: skip
    assert 2 * sum(waists) == pytest.approx(724.0)


def test_published_gores_add_up_to_half_the_waist():
    """INGALLS, half waist 12: 1 1/2, 2 2/3 three times, 2 1/2."""
    rule = [{"take": f"fixed {width}", "words": "gore"}
            for width in ("1 1/2", "2 2/3", "2 2/3", "2 2/3", "2 1/2")]  # fmt: skip
    # Two thirds of an inch is not a mark: each is at most half a mark (1/64) away.
    assert _width_mm(rule, _sheet("in")) / INCH == pytest.approx(12, abs=3 / 64)


@pytest.mark.parametrize(("breast", "depth", "next_one"), [(36, 9.0, 7.0), (40, 10.0, 7.67)])
def test_a_published_rule_from_the_breast(breast, depth, next_one):
    """HECK: depth = breast / 4; next = half breast / 3 + 1, to the nearest mark."""
    sheet = _sheet("in", bust_girth=breast * INCH)
    one = {"take": "fixed 1", "words": "more"}
    assert _width_mm(["bust_girth/4"], sheet) / INCH == depth
    found = _width_mm(["bust_girth/6", one], sheet) / INCH
    assert found == pytest.approx(next_one, abs=1 / 64 + 0.005)  # 7.67 is printed to hundredths


def test_a_published_rule_from_the_chest():
    """Chest scale, chest 36: scye depth = chest / 8 + 2 1/2 = 7; quarter + 1 1/2 = 10 1/2."""
    sheet = _sheet("in", chest_girth=36 * INCH)
    depth = ["chest_girth/8", {"take": "fixed 2 1/2", "words": "more"}]
    quarter = ["chest_girth/4", {"take": "fixed 1 1/2", "words": "more"}]
    assert _width_mm(depth, sheet) / INCH == 7
    assert _width_mm(quarter, sheet) / INCH == 10.5


def test_a_published_stout_rule():
    """ROS 1918: waist 32 against the size's 29: 3 more, three quarters of it at the front."""
    sheet = _sheet("in", waist_girth=32 * INCH)
    quarters = ["waist_girth", {"take": "fixed -29", "words": "the size's waist"}]
    assert _width_mm(quarters, sheet) / INCH * 3 / 4 == pytest.approx(2.25)


def test_the_quarter_rule():
    """Common practice, no published source: hip 44: 11 + 1 = 12; + 1 more for a waist dart."""
    levels = {"hip": {"id": "hip", "label": "Hip", "body": "hip_girth"}}
    sheet = _sheet("in", levels=levels, hip_girth=44 * INCH)
    place = {"level": "hip", "allowances": {"side": 32}, "seam_labels": {"side": "Side seam"}}
    terms = terms_of(["body/4", "seam:side"], sheet, Place(**place))
    assert sum_in_words(terms, "in") == "11 (hip 44 / 4) + 1 (side seam allowance) = 12"
    with_dart = ["body/4", "darts", "seam:side"]
    assert _width_mm(with_dart, sheet, **place, darts=32, dart_count=1) / INCH == 13


def test_height_off_the_shoulder():
    """Common practice, no published source: bust 42, drop 4: 42 / 6 + 1 1/2 - 4 = 4 1/2."""
    sheet = _sheet("in", bust_girth=42 * INCH)
    sheet.drop = 4 * 32
    rule = ["bust_girth/6", {"take": "fixed 1 1/2", "words": "more"}, "-drop"]
    assert _width_mm(rule, sheet) / INCH == 4.5


@pytest.mark.parametrize(("hip", "inches"), [(35, 0.5), (36, 0.75), (38, 0.75), (39, 1.0)])
def test_crotch_ease_by_the_hip(hip, inches):
    """NM209: 1/2 under 36, 1 over 38, 3/4 between."""
    found = _width_mm(["crotch_ease"], _sheet("in", hip_girth=hip * INCH))
    assert found / INCH == pytest.approx(inches)


# What the client brings.


def test_everything_that_was_not_taken_is_named_at_once():
    values = _without("waist_girth", "hip_girth", "waist_to_hip")
    with pytest.raises(CannotDraft) as told:
        work_out(kind("pencil_skirt"), values)
    assert str(told.value) == "Not taken yet: Waist to hip, Waist, Hip"


def test_without_any_measurement_nothing_is_drafted():
    for found in all_kinds():
        with pytest.raises(CannotDraft, match="Not taken yet"):
            work_out(found, {})


def test_an_optional_level_that_was_not_taken_is_left_out():
    garment = _file(work_out(kind("sleeved_bodice"), _without("under_bust_girth", "elbow_girth")))
    rings = {ring.id: ring for ring in garment.garments[0].layers[0].rings}
    assert rings["body"].levels == ("bust", "waist")
    assert rings["sleeve"].levels == ("upper_arm", "wrist")
    assert rings["sleeve"].seams[0].run_down == ""


def test_a_dart_across_a_level_left_out_is_still_counted():
    """Without the under-bust the dart of the fishtail still takes up its inch at the waist."""
    garment = _file(work_out(kind("fishtail_gown"), _without("under_bust_girth"))).garments[0]
    dart = garment.layers[0].rings[0].piece("front").darts[0]
    assert take_up_at(dart, garment.levels, "waist") == (INCH, INCH)


def test_where_no_front_arc_was_taken_the_kind_says_what_the_front_has_more():
    """The kind's 3/8 over the bust happens to be this client's own (19 3/4 - 19) / 2."""
    arcs = [name for name in invented_client() if name.endswith("front_arc")]
    without = work_out(kind("sheath_dress"), _without(*arcs))
    assert _pieces(without) == _pieces(_draft("sheath_dress"))


def test_a_full_front_goes_to_the_front_and_off_the_back():
    """Front arc 21 on a bust of 38: (21 - 19) / 2 = 1 more in front: 12, and 11 in the back."""
    values = {**invented_client(), "bust_front_arc": Taken(21 * INCH, 21 * INCH)}
    front, back = (piece for _, _, piece in _pieces(work_out(kind("sheath_dress"), values))[:2])
    assert (front["width"]["bust"], back["width"]["bust"]) == ("12", "11")


def test_ease_of_her_own_beats_the_kind_and_may_be_a_share():
    """Waist 30: ease 2 is 1/2 a quarter; hip 41 at 4% is 1.64, a quarter of it 0.41 or 13/32."""
    draft = _draft("sheath_dress", ease={"waist": Ease(2 * INCH), "hip": Ease(share=0.04)})
    front = _pieces(draft)[0][2]
    assert "1/2 (ease 2 / 4)" in front["sum"]["waist"]
    assert "13/32 (ease 1 5/8 / 4)" in front["sum"]["hip"]
    assert draft["ease"] == {"bust": "2", "waist": "2", "top_hip": "1 1/2", "hip": "4%"}


def test_the_drop_comes_off_every_height_below_the_neck():
    levels = {level["id"]: level for level in _draft("sheath_dress", drop_mm=5 * INCH)["levels"]}
    assert levels["bust"]["down"] == "5 3/4"
    assert levels["waist"]["down"] == "12 3/4"
    assert levels["bust"]["sum"] == "10 3/4 (side neck to bust point) - 5 (drop) = 5 3/4"
    assert levels["hip"]["down"] == "21 1/4"


def test_the_gown_hangs_clear_of_the_floor_in_the_heel_of_the_day():
    """17 3/4 + 41 + 3 - 1 clear = 60 3/4; in a heel of 4 an inch longer."""
    values = {**invented_client(), "heel_of_the_day": Taken(4 * INCH, 4 * INCH)}
    hems = [work_out(kind("princess_gown"), tape)["levels"][-1]["down"]
            for tape in (invented_client(), values)]  # fmt: skip
    assert hems == ["60 3/4", "61 3/4"]


def test_flounce_godets_and_stay_of_the_fishtail():
    """Half a circle on 37 1/2: 37 1/2 / pi = 11.94; 55 3/4 - 34 1/4 = 21 1/2; godet 22 1/2."""
    draft = _draft("fishtail_gown")
    flounce = draft["joined"][0]
    assert (flounce["inner_radius"], flounce["depth"]) == (11.94, "21 1/2")
    assert [part["length"] for part in draft["inserts"]] == ["22 1/2", "22 1/2"]
    lines = {line.id: line for line in _file(draft).garments[0].lines}
    assert lines["waist_stay"].sewn == (30 * INCH, 30 * INCH)
    assert (lines["waist_stay"].body, lines["waist_stay"].ease) == ("waist_girth", 0)
    assert lines["top_edge"].sewn == (40.5 * INCH, 40.5 * INCH)


def test_waistbands_are_cut_to_the_finished_waist_and_their_ends():
    assert _draft("pencil_skirt")["joined"][0]["cut"] == "33"
    assert _draft("trousers")["joined"][0]["cut"] == "34"


def test_a_line_is_left_unsaid_where_its_measurement_was_not_taken():
    armhole = work_out(kind("sheath_dress"), _without("armscye_girth"))["lines"][0]
    assert "sewn" not in armhole


def test_the_side_bust_dart_is_the_difference_of_front_and_back():
    dart = _draft("sheath_dress")["across_darts"][0]
    assert dart["take_up"] == "1 1/4"
    front = invented_client()["side_neck_to_waist_front"]
    flat = {**invented_client(), "side_neck_to_waist_back": front}
    assert work_out(kind("sheath_dress"), flat)["across_darts"] == []


def test_a_piece_that_would_have_less_than_no_width_is_refused_in_words():
    """Waist 8: 8 / 4 + 1/8 + 1/4 - 2 3/4 for the front gore is less than nothing."""
    values = {**_without("waist_front_arc"), "waist_girth": Taken(8 * INCH, 8 * INCH)}
    with pytest.raises(CannotDraft, match="Side front gore would have less than no width"):
        work_out(kind("gored_skirt"), values)


def test_a_level_that_would_not_lie_below_the_one_above_is_refused():
    values = {**invented_client(), "waist_to_hip": Taken(3 * INCH, 3 * INCH)}
    with pytest.raises(CannotDraft, match="Hip would not lie below High hip"):
        work_out(kind("gored_skirt"), values)


def test_the_kind_is_left_as_it_was():
    before = json.dumps(dict(kind("fishtail_gown").template))
    _draft("fishtail_gown", unit="cm", ease={"waist": Ease(10)})
    assert json.dumps(dict(kind("fishtail_gown").template)) == before


# Real and invented bodies.


@pytest.mark.parametrize("name", KINDS)
def test_real_women_get_their_body_and_ease_inside_the_band(name):
    drafts = [draft_for(woman, name) for woman in women()[::4]]
    assert len(drafts) == WOMEN_IN_THE_FILE // 4
    for draft in drafts:
        file = read_document(draft)
        garment = file.garments[0]
        for ring in (ring for layer in garment.layers for ring in layer.rings):
            side = "left" if ring.kind == "closed" else None
            for level in ring.levels:
                body = file.sittings[0].values.get(garment.levels[level].body)
                if body is not None:
                    wanted = body.on(None) + garment.ease[level].of(body.on(None))
                    assert abs(finished_girth(garment, ring, level, side) - wanted) <= INCH / 4


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(KINDS),
    st.sampled_from(["in", "cm", "mm"]),
    st.dictionaries(
        st.sampled_from(["bust_girth", "waist_girth", "hip_girth", "waist_front_arc", "height",
                         "waist_to_hip", "thigh_girth", "bust_point_to_bust_point"]),
        st.floats(1.0, 3000.0),
    ),
)  # fmt: skip
def test_any_body_gets_a_draft_that_can_be_read_or_a_sentence(name, unit, changed):
    values = {**invented_client(), **{key: Taken(mm, mm) for key, mm in changed.items()}}
    try:
        draft = work_out(kind(name), values, unit=unit)
    except CannotDraft:
        return
    _file(draft, unit)
    for _, _, piece in _pieces(draft):
        for level, said in piece["sum"].items():
            terms, result = _terms(said)
            assert sum(worth for worth, _ in terms) == result == _fraction(piece["width"][level])
