"""A sealed bundle tells nothing, opens with its passcode alone, and only as it was made."""

import json
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from core.bundle.packing import Packed, write_bundle
from core.bundle.reading import open_bundle
from core.bundle.refusals import BadBundle, NeedsPasscode
from core.bundle.sealed import Envelope
from core.command import UNUSABLE, main
from core.seal import NoSealing, Seal, WrongPasscode, is_sealed, wrap
from tests.hostile_zips import Entry, as_json, client, kept, packed, taken, zipped

PASSCODE = "blue thimble"
Parts = dict[str, bytes]


@pytest.fixture(scope="module")
def wrapped() -> tuple[Seal, dict[str, Any]]:
    seal = Seal.new()
    return seal, wrap(seal, PASSCODE, n=2**14)


@pytest.fixture
def path(tmp_path: Path, wrapped: tuple[Seal, dict[str, Any]]) -> Path:
    path = tmp_path / "sealed.zip"
    write_bundle(path, [packed(1), packed(2, ["red"])], made="2026-03-20", seal=wrapped)
    return path


def parts(path: Path) -> Parts:
    with zipfile.ZipFile(path) as found:
        return {name: found.read(name) for name in found.namelist()}


def put(path: Path, found: Parts) -> None:
    path.write_bytes(zipped(*(Entry(name, content) for name, content in found.items())))


def came_out(path: Path, passcode: str = PASSCODE) -> list[Any]:
    with open_bundle(path, passcode) as opened:
        assert opened.sealed
        return [(one.read(), {name: photo() for name, photo in one.photos.items()})
                for one in opened.clients]  # fmt: skip


def test_several_clients_come_out_as_they_went_in(path: Path) -> None:
    assert came_out(path) == [
        (packed(1).read(), dict([kept("teal"), kept("plum")])),
        (packed(2, ["red"]).read(), dict([kept("red")])),
    ]


def test_one_client_comes_out_as_she_went_in(
    path: Path, wrapped: tuple[Seal, dict[str, Any]]
) -> None:
    write_bundle(path, [packed(1)], made="", seal=wrapped)
    assert came_out(path) == [(packed(1).read(), dict([kept("teal"), kept("plum")]))]
    with open_bundle(path, PASSCODE) as opened:
        assert opened.missing == opened.unnamed == opened.left_aside == ()


def test_nothing_in_it_can_be_read(path: Path) -> None:
    whole = path.read_bytes()
    names = [kept(colour)[0] for colour in ("teal", "plum", "red")]
    words = ["Invented", client(1)["client"]["id"], "waist", "36 1/2", "photos", "clients/",
             "pins-to-seams/1", "pins-to-seams-bundle", "2026", "JFIF", *names,
             *(name[:8] for name in names), PASSCODE]  # fmt: skip
    assert [word for word in words if word.encode() in whole] == []
    assert kept()[1][:40] not in whole
    found = parts(path)
    assert set(json.loads(found["sealed.json"])) == {"format", "mark", "members", "key"}
    assert set(found) == {"sealed.json", *(f"{number:04}" for number in range(1, 8))}
    assert all(is_sealed(content) for name, content in found.items() if name != "sealed.json")


def test_it_is_never_sealed_alike(path: Path, wrapped: tuple[Seal, dict[str, Any]]) -> None:
    before = set(parts(path).values())
    write_bundle(path, [packed(1), packed(2, ["red"])], made="2026-03-20", seal=wrapped)
    assert not before & set(parts(path).values())


def test_without_its_passcode_it_stays_shut(path: Path) -> None:
    with pytest.raises(NeedsPasscode, match=r"sealed\.zip is sealed"), open_bundle(path):
        pass
    for wrong in ("blue thimbl", "", "another one"):
        with pytest.raises(WrongPasscode), open_bundle(path, wrong):
            pass


def test_a_passcode_is_not_minded_where_nothing_is_sealed(path: Path) -> None:
    write_bundle(path, [packed(1)], made="")
    with open_bundle(path, "whatever") as opened:
        assert not opened.sealed


def swap(found: Parts, one: str, other: str) -> None:
    found[one], found[other] = found[other], found[one]


def said(found: Parts, **changes: Any) -> None:
    found["sealed.json"] = as_json(json.loads(found["sealed.json"]) | changes)


def fewer(found: Parts) -> None:
    del found["0007"]
    said(found, members=6)


def more(found: Parts) -> None:
    found["0008"] = found["0007"]
    said(found, members=8)


def renumber(found: Parts) -> None:
    del found["0003"]
    for number in range(4, 8):
        found[f"{number - 1:04}"] = found.pop(f"{number:04}")
    said(found, members=6)


def spoil(found: Parts) -> None:
    found["0004"] = found["0004"][:-1] + bytes([found["0004"][-1] ^ 1])


CHANGED: dict[str, tuple[Callable[[Parts], Any], str]] = {
    "a part taken away": (lambda found: found.pop("0005"), "“0005” is missing"),
    "the last part taken away": (lambda found: found.pop("0007"), "“0007” is missing"),
    "the list taken away": (lambda found: found.pop("0001"), "“0001” is missing"),
    "a part taken away and not counted": (fewer, "“0001” was damaged or changed"),
    "a part taken away and the others moved up": (renumber, "“0001” was damaged or changed"),
    "a part added": (lambda found: found.update({"0008": found["0007"]}), "8 sealed parts"),
    "a part added and counted": (more, "“0001” was damaged or changed"),
    "two parts swapped": (lambda found: swap(found, "0003", "0004"), "was damaged or changed"),
    "the list swapped": (lambda found: swap(found, "0001", "0002"), "“0001” was damaged"),
    "a part put in again": (lambda found: found.update({"0003": found["0006"]}), "“0003” was"),
    "a part spoilt": (spoil, "“0004” was damaged or changed"),
    "a part emptied": (lambda found: found.update({"0006": b""}), "“0006” was damaged"),
    "a readable file beside it": (lambda found: found.update({"client.json": b"{}"}), "no part"),
    "another number of nothing": (lambda found: found.update({"000001": b""}), "sealed parts"),
    "another mark": (lambda found: said(found, mark="0" * 32), "“0001” was damaged"),
    "no mark": (lambda found: said(found, mark=None), "sealed.json: mark"),
    "a mark of nonsense": (lambda found: said(found, mark="../x"), "sealed.json: mark"),
    "no members": (lambda found: said(found, members=0), "cannot be"),
    "members without end": (lambda found: said(found, members=900_000), "cannot be"),
    "members that are no number": (lambda found: said(found, members="7"), "members: must be"),
    "a newer kind": (lambda found: said(found, format="pins-to-seams-sealed/2"), "newer program"),
    "no key": (lambda found: said(found, key=None), "sealed.json: key: is not there"),
    "a key of nonsense": (lambda found: said(found, key={"n": 1}), "the wrapped key"),
    "a key that is a list": (lambda found: said(found, key=[1]), "sealed.json: key"),
    "no JSON": (lambda found: found.update({"sealed.json": b"{"}), "sealed.json: is not whole"),
    "a list in its place": (lambda found: found.update({"sealed.json": b"[]"}), "sealed.json: "),
}


@pytest.mark.parametrize("name", CHANGED)
def test_whatever_was_changed_is_noticed(name: str, path: Path) -> None:
    change, word = CHANGED[name]
    found = parts(path)
    change(found)
    put(path, found)
    before = path.read_bytes()
    with pytest.raises(BadBundle) as refused, open_bundle(path, PASSCODE):
        pass
    assert word in str(refused.value)
    assert str(refused.value).startswith("sealed.zip: ")
    assert str(refused.value).endswith(". Nothing was changed")
    assert str(refused.value).count("Nothing was changed") == 1
    assert path.read_bytes() == before
    assert list(path.parent.iterdir()) == [path]


@pytest.mark.parametrize("cost", [{"n": 2**15}, {"p": 2}, {"salt": "00" * 16}])
def test_a_changed_cost_of_the_passcode_is_noticed(cost: dict[str, Any], path: Path) -> None:
    found = parts(path)
    said(found, key=json.loads(found["sealed.json"])["key"] | cost)
    put(path, found)
    with pytest.raises(WrongPasscode), open_bundle(path, PASSCODE):
        pass


def test_a_cost_of_gigabytes_is_refused(path: Path) -> None:
    found = parts(path)
    said(found, key=json.loads(found["sealed.json"])["key"] | {"n": 2**20, "r": 16})
    put(path, found)
    with pytest.raises(BadBundle, match="more memory"), open_bundle(path, PASSCODE):
        pass


def test_a_part_of_another_bundle_of_the_same_seal_is_noticed(
    path: Path, tmp_path: Path, wrapped: tuple[Seal, dict[str, Any]]
) -> None:
    """An older backup has the same numbers and the same seal, but not the same mark."""
    older = tmp_path / "older.zip"
    write_bundle(older, [packed(1), packed(2, ["red"])], made="2025-01-01", seal=wrapped)
    for number in ("0001", "0003", "0007"):
        found = parts(path)
        found[number] = parts(older)[number]
        put(tmp_path / "mixed.zip", found)
        with pytest.raises(BadBundle, match=number), open_bundle(tmp_path / "mixed.zip", PASSCODE):
            pass


def test_the_order_in_the_zip_does_not_matter(path: Path) -> None:
    before = came_out(path)
    put(path, dict(reversed(parts(path).items())))
    assert came_out(path) == before


# -- made by someone who knows the passcode, to do harm --------------------------------------


def sealed_by_hand(
    path: Path, wrapped: tuple[Seal, dict[str, Any]], *inner: tuple[str, bytes], listed: Any = None
) -> None:
    envelope = Envelope.new(wrapped[0], len(inner))
    names = [name for name, _ in inner] if listed is None else listed
    first = envelope.closed(1, "names.json", as_json(names))
    put(path, {"sealed.json": envelope.head(wrapped[1]), "0001": first} | {
        f"{number:04}": envelope.closed(number, name, content)
        for number, (name, content) in enumerate(inner, 2)})  # fmt: skip


FILE = ("client.json", as_json(client()))
INSIDE: dict[str, tuple[list[tuple[str, bytes]], Any, str]] = {
    "a climbing name": ([FILE, ("../a.jpg", taken())], None, "leads out"),
    "a backslash": ([FILE, ("photos\\a.jpg", taken())], None, "backslash"),
    "a twin": ([FILE, ("CLIENT.json", b"{}")], None, "twice"),
    "a program": ([FILE, ("setup.exe", b"MZ")], None, "no part of a bundle"),
    "another sealed bundle": ([("sealed.json", b"{}")], None, "another sealed bundle"),
    "no photo": ([FILE, ("photos/a.jpg", b"text")], None, "not a photo"),
    "a spoilt file": ([("client.json", b"{}")], None, "client.json: format"),
    "no client": ([("photos/a.jpg", taken())], None, "without client.json"),
    "names for others": ([FILE, ("photos/a.jpg", taken())], ["client.json", "photos/b.jpg"],
                         "“0003” was"),
    "too few names": ([FILE, ("photos/a.jpg", taken())], ["client.json"], "not of these"),
    "names that are none": ([FILE], [5], "not a list of names"),
    "a list that is none": ([FILE], {"a": 1}, "not a list of names"),
}  # fmt: skip


@pytest.mark.parametrize("name", INSIDE)
def test_what_could_do_harm_is_refused_inside_too(
    name: str, path: Path, wrapped: tuple[Seal, dict[str, Any]]
) -> None:
    inner, listed, word = INSIDE[name]
    sealed_by_hand(path, wrapped, *inner, listed=listed)
    with pytest.raises(BadBundle, match="Nothing was changed") as refused:
        came_out(path)
    assert word in str(refused.value)


def test_a_good_one_made_by_hand_is_read(
    path: Path, wrapped: tuple[Seal, dict[str, Any]]
) -> None:  # fmt: skip
    sealed_by_hand(path, wrapped, FILE, ("photos/a.jpg", taken()), (".DS_Store", b"x"))
    with open_bundle(path, PASSCODE) as opened:
        assert opened.left_aside == (".DS_Store",)
        assert list(opened.clients[0].photos) == [kept()[0]]


def test_the_plan_command_says_that_it_is_sealed(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([str(path)]) == UNUSABLE
    said = capsys.readouterr().err
    assert said == "sealed.zip: is a sealed bundle, which only the app opens\n"


def test_without_the_part_that_seals_all_else_works(
    path: Path, wrapped: tuple[Seal, dict[str, Any]], monkeypatch: pytest.MonkeyPatch
) -> None:
    before = path.read_bytes()
    for part in [name for name in sys.modules if name.split(".")[0] == "cryptography"]:
        monkeypatch.setitem(sys.modules, part, None)
    with pytest.raises(NoSealing, match="not installed"):
        came_out(path)
    with pytest.raises(NoSealing, match="not installed"):
        write_bundle(path, [packed(1)], made="", seal=wrapped)
    assert path.read_bytes() == before
    assert list(path.parent.iterdir()) == [path]
    plain = path.with_name("plain.zip")
    write_bundle(plain, [packed(1)], made="")
    with open_bundle(plain) as opened:
        assert isinstance(opened.clients[0], Packed)
        assert opened.clients[0].read() == packed(1).read()
