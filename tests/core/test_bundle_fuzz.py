"""However a bundle was spoilt, it opens wholly or is refused in words; nothing is ever written.

``BUNDLE_SPOILT=20000 python -m pytest tests/core/test_bundle_fuzz.py`` tries more of them,
``BUNDLE_SEED`` others.
"""

import io
import json
import os
import random
import sys
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from core.bundle.packing import write_bundle
from core.bundle.photos import named_photos
from core.bundle.reading import open_bundle
from core.bundle.refusals import shown
from core.errors import WorkroomError
from core.file.fitting_file import load, read_document
from core.photos import is_ours
from core.seal import Seal, wrap
from tests.hostile_zips import Entry, bundle, client, packed, taken, zipped

COUNT = int(os.environ.get("BUNDLE_SPOILT", "2000"))
SEED = os.environ.get("BUNDLE_SEED", "pins")
ROUNDS = 20
PASSCODE = "blue thimble"
KINDS = ["one"] * 4 + ["several"] * 4 + ["by hand"] * 4 + ["sealed"] * 2
"""A sealed one costs as much work as a passcode does, so there are fewer of them."""

WRONG: tuple[Any, ...] = (None, True, 0, -1, 2**14, 2**70, "", "x", "../x", [], ["x"], {}, 1e308)
NUMBERS = (0, 1, 2, 8, 30, 46, 0x7FFF, 0xFFFF, 0x7FFFFFFF, 0xFFFFFFFE, 0xFFFFFFFF)
SIGNS = (b"PK\1\2", b"PK\3\4", b"PK\5\6")
Bundles = dict[str, bytes]
Chance = random.Random


@pytest.fixture(scope="module")
def bundles(tmp_path_factory: pytest.TempPathFactory) -> Bundles:
    """Return a good bundle of each kind."""
    path, seal = tmp_path_factory.mktemp("good") / "good.zip", Seal.new()

    def made(*clients: Any, **options: Any) -> bytes:
        write_bundle(path, clients, made="2026-03-20", **options)
        return path.read_bytes()

    return {
        "one": made(packed(1)),
        "several": made(packed(1), packed(2, ["red"]), packed(3, [])),
        "by hand": bundle(
            Entry("photos/a.jpg", taken(), 8), Entry("photos/b.png", taken("plum", "PNG")),
            Entry("photos/"), Entry(".DS_Store", b"x"), file=client(1, ["a.jpg", "b.png"]),
            comment=b"by hand"),
        "sealed": made(packed(1), packed(2, []), seal=(seal, wrap(seal, PASSCODE, n=2**14))),
    }  # fmt: skip


# -- spoiling the bytes of a zip -------------------------------------------------------------


def flipped(whole: bytes, _: bytes, chance: Chance) -> bytes:
    spoilt = bytearray(whole)
    for _time in range(chance.choice((1, 1, 1, 2, 8, 40))):
        spoilt[chance.randrange(len(spoilt))] ^= 1 << chance.randrange(8)
    return bytes(spoilt)


def cut_short(whole: bytes, _: bytes, chance: Chance) -> bytes:
    return whole[: chance.randrange(len(whole))]


def cut_out(whole: bytes, _: bytes, chance: Chance) -> bytes:
    start, end = span(whole, chance)
    return whole[:start] + whole[end:]


def doubled(whole: bytes, _: bytes, chance: Chance) -> bytes:
    start, end = span(whole, chance)
    return whole[:end] + whole[start:]


def overwritten(whole: bytes, other: bytes, chance: Chance) -> bytes:
    start, end = span(other, chance)
    at = chance.randrange(len(whole))
    return whole[:at] + other[start:end] + whole[at + end - start :]


def spliced(whole: bytes, other: bytes, chance: Chance) -> bytes:
    return whole[: chance.randrange(len(whole))] + other[chance.randrange(len(other)) :]


def joined(whole: bytes, other: bytes, chance: Chance) -> bytes:
    return chance.choice((whole + other, other + whole, b"\0" * 9 + whole, whole + b"\0"))


def lying(whole: bytes, _: bytes, chance: Chance) -> bytes:
    """Change a number in a header, in the list, or in the record at the end."""
    sign = chance.choice(SIGNS)
    heads = [at for at in range(len(whole)) if whole.startswith(sign, at)]
    spoilt = bytearray(whole)
    for _time in range(chance.choice((1, 1, 2, 3))):
        at = chance.choice(heads) + chance.randrange(4, 46, 2)
        wide = chance.choice((2, 4))
        number = chance.choice((*NUMBERS, len(whole), chance.randrange(len(whole))))
        spoilt[at : at + wide] = (number & (256**wide - 1)).to_bytes(wide, "little")
    return bytes(spoilt)


def span(whole: bytes, chance: Chance) -> tuple[int, int]:
    start = chance.randrange(len(whole))
    return start, min(len(whole), start + chance.choice((1, 4, 30, 300, 3000)))


# -- spoiling what is in it, in a zip that is whole -------------------------------------------


def member_flipped(found: Bundles, chance: Chance) -> None:
    name = chance.choice([name for name in found if found[name]])
    found[name] = flipped(found[name], b"", chance)


def member_cut_short(found: Bundles, chance: Chance) -> None:
    name = chance.choice([name for name in found if found[name]])
    found[name] = cut_short(found[name], b"", chance)


def member_taken_out(found: Bundles, chance: Chance) -> None:
    del found[chance.choice(list(found))]


def members_swapped(found: Bundles, chance: Chance) -> None:
    one, other = chance.choices(list(found), k=2)
    found[one], found[other] = found[other], found[one]


def member_renamed(found: Bundles, chance: Chance) -> None:
    name = chance.choice(list(found))
    signs = list(name)
    signs[chance.randrange(len(signs))] = chance.choice("/\\.:\0a0É\u202e\ud800")
    found["".join(signs)] = found.pop(name)


def field_spoilt(found: Bundles, chance: Chance) -> None:
    """Put something wrong into any field of a JSON file in it."""
    name = chance.choice([name for name in found if name.endswith(".json")])
    document = json.loads(found[name])
    place = chance.choice([place for place in places(document) if place])
    key = chance.choice(list(place) if isinstance(place, dict) else range(len(place)))
    place[key] = chance.choice(WRONG)
    found[name] = json.dumps(document).encode()


def places(value: Any) -> Iterator[Any]:
    """Yield every object and list in a document, itself first."""
    if isinstance(value, (dict, list)):
        yield value
        for entry in value.values() if isinstance(value, dict) else value:
            yield from places(entry)


def inside(spoil: Callable[[Bundles, Chance], None]) -> Callable[[bytes, bytes, Chance], bytes]:
    """Return a spoiling of the bytes that spoils a member, and packs all of them again."""

    def spoilt(whole: bytes, _: bytes, chance: Chance) -> bytes:
        with zipfile.ZipFile(io.BytesIO(whole)) as packing:
            found = {name: packing.read(name) for name in packing.namelist()}
        spoil(found, chance)
        entries = [Entry(name, content, chance.choice((0, 8))) for name, content in found.items()]
        return zipped(*entries)

    return spoilt


SPOILING = [
    flipped, flipped, cut_short, cut_out, doubled, overwritten, spliced, joined, lying, lying,
    lying, *map(inside, (member_flipped, member_flipped, member_cut_short, member_taken_out,
                         members_swapped, member_renamed, field_spoilt, field_spoilt)),
]  # fmt: skip


# -- looking at what came of it ---------------------------------------------------------------


class Watched:
    """Every change of a file by this program while ``on``; Python tells of each (PEP 578)."""

    def __init__(self) -> None:
        self.on, self.changes = False, list[str]()
        sys.addaudithook(self._hear)

    def _hear(self, event: str, told: tuple[Any, ...]) -> None:
        if not self.on:
            return
        if event == "open":
            path, mode, flags = told
            writing = any(sign in mode for sign in "wax+") if mode else flags & 0b11
            if writing and "__pycache__" not in str(path):
                self.changes.append(str(path))
        elif event in ("os.mkdir", "os.rename", "os.remove", "os.link", "os.symlink",
                       "os.truncate", "os.chmod", "tempfile.mkstemp"):  # fmt: skip
            self.changes.append(event)


@pytest.fixture(scope="module")
def watched() -> Watched:
    return Watched()


@contextmanager
def nothing_written(watched: Watched) -> Iterator[None]:
    watched.changes.clear()
    watched.on = True
    try:
        yield
    finally:
        watched.on = False
    assert watched.changes == []


def outcome(path: Path) -> str:
    """Open a bundle and look at everything in it; return what was said, or nothing."""
    try:
        with open_bundle(path, PASSCODE) as opened:
            assert opened.clients
            for one in opened.clients:
                assert read_document(one.read()).data == one.read()
                assert all(is_ours(photo(), name) for name, photo in one.photos.items())
                there = {f"photos/{name}" for name in one.photos}
                told = " ".join(opened.missing)
                for name in set(named_photos(one.read())) - there:
                    assert shown(name) in told
    except WorkroomError as refused:
        return str(refused)
    return ""


def loaded(path: Path) -> str:
    """Read a bundle as the plan command does; return what was said, or nothing."""
    try:
        load(path)
    except WorkroomError as refused:
        return str(refused)
    return ""


def fits_one_line(said: str) -> bool:
    return said.isprintable() and 10 < len(said) < 500


@pytest.mark.parametrize("number", range(ROUNDS))
def test_a_spoilt_bundle_opens_wholly_or_is_refused(
    number: int, bundles: Bundles, watched: Watched, tmp_path: Path
) -> None:
    chance, path = random.Random(f"{SEED} {number}"), tmp_path / "spoilt.zip"
    refused = 0
    for _ in range(COUNT // ROUNDS):
        whole, other = bundles[chance.choice(KINDS)], bundles[chance.choice(KINDS)]
        spoilt = chance.choice(SPOILING)(whole, other, chance)
        path.write_bytes(spoilt)
        with nothing_written(watched):
            said, planned = outcome(path), loaded(path)
        for words in (said, planned):
            assert not words or fits_one_line(words), words
        assert path.read_bytes() == spoilt
        assert list(tmp_path.iterdir()) == [path]
        refused += bool(said)
    assert refused > COUNT // ROUNDS / 2  # spoiling spoils


@pytest.mark.parametrize("kind", sorted(set(KINDS)))
def test_an_unspoilt_bundle_opens(
    kind: str, bundles: Bundles, watched: Watched, tmp_path: Path
) -> None:
    path = tmp_path / "good.zip"
    path.write_bytes(bundles[kind])
    with nothing_written(watched):
        assert outcome(path) == ""


def test_the_watch_sees_what_is_written(watched: Watched, tmp_path: Path) -> None:
    with pytest.raises(AssertionError), nothing_written(watched):
        (tmp_path / "a").write_bytes(b"")
    with pytest.raises(AssertionError), nothing_written(watched):
        (tmp_path / "b").mkdir()
