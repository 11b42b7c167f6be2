"""Marks burnt into a photo that is given away: seen on any cloth, and never in the way."""

import hashlib
import json
import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageChops

from core import photo_marks
from core.photo_marks import with_marks
from core.photos import BadPhoto, Photo, read_photo, thumbnail_of
from tests.core.test_photos import GREY, Colour, colour_at, difference, near, plain, saved, seen

SIZE = (800, 600)
MARK = {"x": 0.5, "y": 0.5, "text": "take in ⅜ at the waist", "pin": "p1"}


@pytest.fixture(scope="module")
def kept() -> Photo:
    return read_photo(saved(plain(*SIZE, colour=GREY)))


def on_cloth(colour: Colour) -> bytes:
    return read_photo(saved(plain(*SIZE, colour=colour))).content


def about(content: bytes, x: float, y: float, reach: int = 45) -> Image.Image:
    """Return what is round a place, in grey; the picture is at the top of what is given away."""
    middle = round(x * SIZE[0]), round(y * SIZE[1])
    box = (middle[0] - reach, middle[1] - reach, middle[0] + reach, middle[1] + reach)
    return seen(content).convert("L").crop(box)


@pytest.mark.parametrize("colour", [(0, 0, 0), (255, 255, 255), GREY, (250, 245, 235)])
def test_a_ring_is_seen_on_any_cloth_and_leaves_the_place_open(colour: Colour) -> None:
    marked = with_marks(on_cloth(colour), [MARK])
    ring = about(marked, 0.5, 0.5).crop((0, 45, 45, 90))  # below left; the number is above right
    darkest, lightest = ring.getextrema()
    assert isinstance(darkest, int)
    assert isinstance(lightest, int)
    assert darkest < 80
    assert lightest > 200
    assert near(colour_at(marked, 0.5, 0.5 * SIZE[1] / seen(marked).height), colour, 6)


def test_only_the_place_is_touched_and_the_kept_photo_not_at_all() -> None:
    content = on_cloth(GREY)
    before = hashlib.sha256(content).digest()
    given_away = seen(with_marks(content, [MARK]))
    assert hashlib.sha256(content).digest() == before
    picture = given_away.crop((0, 0, *SIZE))
    changed = ImageChops.difference(picture, plain(*SIZE)).convert("L")
    much = changed.point(lambda grey: 255 if grey > 30 else 0)
    left, top, right, bottom = much.getbbox() or (0, 0, 0, 0)
    assert 340 < left < 390 < 410 < right < 460
    assert 240 < top < 290 < 310 < bottom < 360


def test_without_marks_it_looks_the_same(kept: Photo) -> None:
    given_away = seen(with_marks(kept.content, []))
    assert given_away.size == (kept.width_px, kept.height_px)
    assert difference(given_away, seen(kept.content)) < 24


def test_the_texts_stand_under_the_picture_and_never_on_it() -> None:
    content = on_cloth(GREY)
    said, unsaid = (seen(with_marks(content, [MARK | {"text": text}])) for text in ("snug", ""))
    assert unsaid.size == SIZE
    assert said.width == SIZE[0]
    assert said.height > SIZE[1] + 20
    assert difference(said.crop((0, 0, SIZE[0], 580)), unsaid.crop((0, 0, SIZE[0], 580))) < 24
    strip = said.convert("L").crop((0, SIZE[1] + 8, *said.size))
    assert strip.getextrema()[0] < 80  # dark letters on a light sheet
    assert strip.getpixel((strip.width - 4, 4)) > 235


def test_a_number_is_the_place_in_the_list_whatever_is_left_out() -> None:
    content = on_cloth(GREY)
    first, second = with_marks(content, [MARK]), with_marks(content, [{}, MARK])  # type: ignore[list-item]
    assert first != second
    assert second == with_marks(content, [None, MARK])  # type: ignore[list-item]
    assert second == with_marks(content, [{"x": 0.1, "y": "0.1", "text": 7}, MARK])


def test_a_place_beyond_the_picture_is_moved_to_its_edge() -> None:
    content = on_cloth(GREY)
    for x, y in ((7, 0.5), (float("inf"), 0.5), (10**400, 0.5)):
        assert with_marks(content, [MARK | {"x": x, "y": y}]) == with_marks(
            content, [MARK | {"x": 1, "y": y}]
        )
    assert with_marks(content, [MARK | {"y": -3}]) == with_marks(content, [MARK | {"y": 0}])


def test_a_place_that_is_no_number_has_no_ring() -> None:
    content = on_cloth(GREY)
    unmarked = with_marks(content, [])
    for nowhere in (float("nan"), True, "0.5", None, [0.5]):
        for mark in ({"x": nowhere, "y": 0.5}, {"x": 0.5, "y": nowhere}, {"x": 0.5}, {"y": 0.5}):
            assert with_marks(content, [mark]) == unmarked


def test_a_number_in_a_corner_is_still_inside() -> None:
    for x, y in ((0, 0), (1, 0), (0, 1), (1, 1)):
        marked = seen(with_marks(on_cloth(GREY), [{"x": x, "y": y}])).convert("L")
        box = (40 if x == 0 else 760, 40 if y == 0 else 560)
        inner = marked.crop((min(box[0], x * 800), min(box[1], y * 600),
                             max(box[0], x * 800), max(box[1], y * 600)))  # fmt: skip
        light = inner.point(lambda grey: 255 if grey > 215 else 0).getbbox()
        assert light
        assert light[2] - light[0] >= 18  # the disc is whole
        assert light[3] - light[1] >= 18


def test_a_text_without_a_place_is_still_listed() -> None:
    listed = seen(with_marks(on_cloth(GREY), [{"text": "hem drops at the back"}]))
    assert listed.height > SIZE[1]
    assert difference(listed.crop((0, 0, SIZE[0], 580)), plain(SIZE[0], 580)) < 12


def test_thirty_long_texts_wrap_and_stay_on_the_sheet() -> None:
    chance = random.Random(3)
    words = ["waist", "let out", "W" * 300, "⅜", "side seam, her left"]
    marks = [{"x": chance.random(), "y": chance.random(),
              "text": " ".join(chance.choices(words, k=30))} for _ in range(30)]  # fmt: skip
    marked = seen(with_marks(on_cloth(GREY), marks)).convert("L")
    assert marked.width == SIZE[0]
    assert 2 * SIZE[1] < marked.height < 65_500
    edge = marked.crop((SIZE[0] - 8, SIZE[1] + 8, *marked.size))
    assert edge.getextrema()[0] > 235  # no letter runs out of the sheet
    bottom = marked.crop((0, marked.height - 8, *marked.size))
    assert bottom.getextrema()[0] > 235


def test_far_too_many_marks_are_cut_and_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    told = []
    listed = photo_marks._listed

    def listening(*given: Any) -> Any:
        told.append(listed(*given))
        return told[-1]

    monkeypatch.setattr(photo_marks, "_listed", listening)
    marked = with_marks(on_cloth(GREY), [{"x": 0.5, "y": 0.5, "text": "snug"}] * 5000)
    assert seen(marked).height < 10_000
    assert told[0][-2:] == [(99, ["snug"]), (None, ["… and 4901 more, kept with the photo"])]
    with_marks(on_cloth(GREY), [{"text": "snug at the waist " * 90}] * 90)
    assert 190 < sum(len(lines) for _, lines in told[1]) <= 201
    assert told[1][0][1][-1].endswith(" …")
    assert told[1][-1] == (None, [f"… and {91 - len(told[1])} more, kept with the photo"])


@pytest.mark.parametrize("size", [(1, 1), (2, 2048), (2048, 2), (120, 90)])
def test_odd_pictures_can_be_given_away_and_read(size: tuple[int, int]) -> None:
    content = read_photo(saved(plain(*size))).content
    marked = seen(with_marks(content, [MARK, MARK | {"x": 0, "y": 1}]))
    assert marked.width >= max(size[0], 300)
    assert marked.height > size[1]


def test_text_is_read_as_words_whatever_signs_are_in_it() -> None:
    content = on_cloth(GREY)
    spaced = with_marks(content, [MARK | {"text": "two\n\n\tlines\x00 \ud800end"}])
    assert spaced == with_marks(content, [MARK | {"text": "two lines end"}])
    for text in ("", " ", "\n", "\u202e"):
        assert seen(with_marks(content, [MARK | {"text": text}])).size == SIZE


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=40),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner),
    max_leaves=6,
)
SOME_MARKS = st.lists(
    ANYTHING
    | st.fixed_dictionaries(
        {}, optional={"x": ANYTHING, "y": ANYTHING, "text": ANYTHING, "pin": ANYTHING}
    ),
    max_size=4,
)


@settings(max_examples=60, deadline=None)
@given(marks=SOME_MARKS)
def test_marks_that_make_no_sense_never_spoil_the_picture(marks: Any) -> None:
    content = saved(plain(120, 90))
    image = seen(with_marks(content, marks))
    assert image.width >= 120
    assert image.height >= 90


def test_marks_that_are_no_list_count_as_none(kept: Photo) -> None:
    none = with_marks(kept.content, [])
    odd: list[Any] = [None, {}, "text", 7, json.loads('{"x": 1}')]
    assert [with_marks(kept.content, marks) == none for marks in odd] == [True] * len(odd)


def test_a_damaged_photo_cannot_be_given_away(kept: Photo) -> None:
    for use in (thumbnail_of, lambda content: with_marks(content, [MARK])):
        with pytest.raises(BadPhoto, match=r"^This photo is cut off"):
            use(kept.content[:2000])
