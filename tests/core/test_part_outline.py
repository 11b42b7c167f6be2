"""Joined parts to scale: sectors, godets, bands, with shapely as the judge."""

from math import pi

import pytest
from shapely.geometry import LineString, Point, Polygon

from core.draft.parts import set_part
from core.file.fitting_file import read_document
from core.outline.laid_out import lay_out_parts
from core.outline.part_outline import part_outlines, sector
from tests.drafts import drafted, worked

INCH = 25.4


def _parts(document, layer):
    file = read_document(document)
    return part_outlines(file.garments[0], document["garments"][0], layer, file.unit)


def test_a_flounce_is_a_sector_with_the_area_and_the_edges_of_its_circles():
    """Half a turn, 11.94 inside, 21 1/2 deep: half of pi (33.44^2 - 11.94^2)."""
    [flounce] = _parts(worked("fishtail_gown")[0], "lining")
    inner, outer = 11.94 * INCH, (11.94 + 21.5) * INCH
    shape = Polygon(flounce.cut)
    assert shape.is_valid
    assert shape.area == pytest.approx(pi * (outer**2 - inner**2) / 2, rel=1e-3)
    near = [point for point in flounce.cut if Point(point).distance(Point(0, 0)) < inner + 1]
    far = [point for point in flounce.cut if Point(point).distance(Point(0, 0)) > outer - 1]
    assert LineString(near).length == pytest.approx(pi * inner, rel=1e-3)
    assert LineString(far).length == pytest.approx(pi * outer, rel=1e-3)
    lengths = dict(flounce.lengths)
    assert lengths["upper edge"] / INCH == pytest.approx(37.5, abs=0.02)
    assert lengths["hem"] / INCH == pytest.approx(2 * pi * 0.5 * 33.44, abs=0.02)
    assert flounce.count == 1


def test_a_turn_and_a_half_is_cut_in_two_equal_sectors():
    document = drafted("fishtail_gown")
    set_part(document, "turns", "1 1/2", garment="one", part="flounce")
    [flounce] = _parts(document, "lining")
    assert flounce.count == 2
    radius = 37.5 / (2 * pi * 1.5)
    whole = pi * ((radius + 21.5) ** 2 - radius**2) * 0.75
    assert Polygon(flounce.cut).area / INCH**2 == pytest.approx(whole, rel=1e-2)


def test_a_full_circle_is_a_ring_with_one_slit():
    shape = Polygon(sector(100, 300, 360)).buffer(0)
    assert shape.area == pytest.approx(pi * (300**2 - 100**2), rel=1e-2)


@pytest.mark.parametrize("angle", [0, -10, 361])
def test_a_sector_is_more_than_nothing_and_at_most_a_circle(angle):
    with pytest.raises(ValueError, match="full circle"):
        sector(1, 2, angle)


def test_a_godet_has_its_foot_along_the_hem_and_its_allowance_outside():
    """22 1/2 long with a foot of 24: area length x foot / 2 = 270; 1/2 outside both sides."""
    side, back = _parts(worked("fishtail_gown")[0], "outer")
    assert (side.count, back.count) == (2, 1)
    stitch, cut = Polygon(side.stitch), Polygon(side.cut)
    assert stitch.area / INCH**2 == pytest.approx(22.5 * 24 / 2, rel=1e-3)
    hem = [point for point in side.stitch if point != (0.0, 0.0)]
    assert LineString(hem).length / INCH == pytest.approx(24, rel=1e-3)
    assert cut.is_valid
    assert cut.buffer(0.01).contains(stitch)
    edge = LineString([side.cut[-1], side.cut[0]])
    for point in (side.stitch[0], (0.0, 0.0)):
        assert edge.distance(Point(point)) / INCH == pytest.approx(0.5)


def test_a_waistband_is_as_long_as_it_is_cut():
    """30 + 1 + 1 1/2 + 1 1/2 = 34; how deep it is nobody drafted."""
    [band] = _parts(worked("trousers")[0], "outer")
    left, top, right, bottom = band.bounds
    assert (right - left) / INCH == pytest.approx(34)
    assert band.note == "Its depth is not drafted"
    document, one = worked("trousers")
    set_part(document, "depth", "3", garment=one, part="waistband")
    [band] = _parts(document, "outer")
    assert Polygon(band.cut).area / INCH**2 == pytest.approx(34 * 3)
    assert band.note == ""
    assert top < bottom


def test_parts_lie_side_by_side_with_their_tops_on_one_line():
    table = lay_out_parts(_parts(worked("fishtail_gown")[0], "outer"), gap_mm=30)
    first, second = (laid.bounds for laid in table.laid)
    assert second[0] - first[2] == pytest.approx(30)
    assert first[1] == second[1] == 0
    assert lay_out_parts(()).laid == ()
