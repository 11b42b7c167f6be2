"""The list of clients: every one of them, found as she types, without reading them all."""

from collections.abc import Callable
from pathlib import Path

import pytest

from core.store import index
from core.store.clients import Store
from core.store.disk import NotSaved
from core.store.index import NameList, Row, folded
from tests.core.store.invented import (
    BEATRIX,
    NAME,
    OTHER_NAME,
    WILHELMINA,
    Clock,
    client,
    home,
    other,
)
from tests.core.store.opened import files_opened


def names(store: Store) -> list[str]:
    return [row.name for row in store.clients()]


def named(*names: str) -> NameList:
    return NameList(Row(name, name, name, folded(name)) for name in names)


def test_clients_are_listed_by_name_whatever_its_capitals_and_accents(tmp_path: Path) -> None:
    given = ["beech", "Alder", "Élder", "elm", "Ash"]
    with Store(tmp_path) as store:
        for name in given:
            store.save(client(client_id=name, name=name))
        listed = ["Alder", "Ash", "beech", "Élder", "elm"]
        assert names(store) == listed
    with Store(tmp_path) as store:
        assert names(store) == listed


def test_a_row_tells_fittings_due_days_and_the_last_change(tmp_path: Path) -> None:
    document = client()
    gown = document["garments"][0]
    document["garments"] = [
        {**gown, "due": "2026-05-01", "fittings": [*gown["fittings"], {"id": "second"}]},
        {**gown, "id": "skirt", "name": "Tweed skirt", "due": "2026-04-01"},
        {**gown, "id": "coat", "name": "Coat", "fittings": "nonsense", "due": 7},
    ]
    clock = Clock()
    with Store(tmp_path, now=clock) as store:
        store.save(document)
        first = clock.at
        document = store.read(WILHELMINA)
        document["notes"] = "more"
        store.save(document)
        (row,) = store.clients()
        assert [each[:2] for each in row.due] == [
            ("2026-04-01", "Tweed skirt"),
            ("2026-05-01", "Silk gown"),
        ]
        assert row.fittings == 3
        assert row.changed > first.isoformat(timespec="milliseconds")
    with Store(tmp_path) as store:
        assert store.clients() == (row,)


def test_a_saved_name_is_in_the_list_at_once(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
        assert names(store) == [NAME]
        store.save(client(name="Zenobia Oatcake"))
        store.save(other())
        assert names(store) == [OTHER_NAME, "Zenobia Oatcake"]
        assert [row.id for row in store.search("zen")] == [WILHELMINA]


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("", ["Ana María Łodyga", "Beatrix O'Plover-Finch", "Søren Straße"]),
        ("  ", ["Ana María Łodyga", "Beatrix O'Plover-Finch", "Søren Straße"]),
        ("ana", ["Ana María Łodyga"]),
        ("MARIA a", ["Ana María Łodyga"]),
        ("lod mar", ["Ana María Łodyga"]),
        ("mari\u0301a", ["Ana María Łodyga"]),
        ("na", []),
        ("plover", ["Beatrix O'Plover-Finch"]),
        ("o'p", ["Beatrix O'Plover-Finch"]),
        ("finch be", ["Beatrix O'Plover-Finch"]),
        ("plover-f", ["Beatrix O'Plover-Finch"]),
        ("soren strasse", ["Søren Straße"]),
        ("STRASS", ["Søren Straße"]),
        ("soren plover", []),
    ],
)
def test_each_word_typed_begins_a_word_of_the_name(typed: str, found: list[str]) -> None:
    listed = named("Søren Straße", "Ana María Łodyga", "Beatrix O'Plover-Finch")
    assert [row.name for row in listed.search(typed)] == found


def test_starting_with_a_good_index_reads_no_client(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        for number in range(20):
            store.save(client(client_id=f"client {number}", name=f"Client {number:02}"))
        store.clients()
    with files_opened(tmp_path) as opened, Store(tmp_path) as store:
        assert len(store.clients()) == len(store.search("client")) == 20
    assert "index.json" in {path.name for path in opened}  # what is opened is seen
    assert [path for path in opened if tmp_path / "clients" in path.parents] == []


def test_saving_reads_no_other_client(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
        store.save(other())
        store.clients()
    with Store(tmp_path) as store:
        store.clients()
        with files_opened(tmp_path) as opened:
            store.save(client("more"))
    assert home(tmp_path) / "client.json" in opened
    assert [path for path in opened if home(tmp_path, BEATRIX) in path.parents] == []


def _flip(path: Path) -> None:
    content = path.read_bytes()
    at = content.index(b"Oatcake")
    path.write_bytes(content[:at] + b"X" + content[at + 1 :])


def _of_another_make(content: bytes) -> bytes:
    """Return an index that is whole, and in which everybody is called otherwise."""
    rows = [row._replace(name="Ada Finch") for row in index.read_index(content).values()]
    assert len(rows) == 2
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(index, "MAKE", index.MAKE + 1)
        return index.write_index(rows)


SPOILT: dict[str, Callable[[Path], object]] = {
    "missing": Path.unlink,
    "empty": lambda path: path.write_bytes(b""),
    "half": lambda path: path.write_bytes(path.read_bytes()[:-40]),
    "one sign changed": _flip,
    "no text": lambda path: path.write_bytes(b"\xff\xfe\x00"),
    "a list": lambda path: path.write_bytes(b"[1, 2]"),
    "a folder": lambda path: (path.unlink(), path.mkdir()),
    "of another make": lambda path: path.write_bytes(_of_another_make(path.read_bytes())),
}


@pytest.mark.parametrize("how", SPOILT)
def test_an_index_that_cannot_be_used_is_made_anew(tmp_path: Path, how: str) -> None:
    with Store(tmp_path) as store:
        store.save(client())
        store.save(other())
        rows = store.clients()
    SPOILT[how](tmp_path / "index.json")
    for _ in range(2):
        with Store(tmp_path) as store:
            assert store.clients() == rows


def test_a_client_file_changed_behind_the_index_is_read_again(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
        store.save(other())
        store.clients()
    with Store(tmp_path / "elsewhere") as elsewhere:
        elsewhere.save(client(name="Wilhelmina Barnacle"))
    changed = home(tmp_path / "elsewhere") / "client.json"
    (home(tmp_path) / "client.json").write_bytes(changed.read_bytes())
    with Store(tmp_path) as store:
        assert names(store) == [OTHER_NAME, "Wilhelmina Barnacle"]


def test_a_client_saved_before_the_program_was_killed_is_listed_as_saved(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
        store.clients()
        store.rest()
        store.save(client(name="Wilhelmina Barnacle"))
        store.save(other())
        index = (tmp_path / "index.json").read_bytes()
    (tmp_path / "index.json").write_bytes(index)  # as it was when it was killed
    with Store(tmp_path) as store:
        assert names(store) == [OTHER_NAME, "Wilhelmina Barnacle"]


def test_a_folder_put_in_or_taken_out_by_hand_is_noticed(tmp_path: Path) -> None:
    for folder, document in (("one", client()), ("two", other())):
        with Store(tmp_path / folder) as store:
            store.save(document)
            store.clients()
    home(tmp_path / "two", BEATRIX).rename(home(tmp_path / "one", BEATRIX))
    with Store(tmp_path / "one") as store:
        assert names(store) == [OTHER_NAME, NAME]
        assert store.read(BEATRIX)["client"]["name"] == OTHER_NAME
    with Store(tmp_path / "two") as store:
        assert names(store) == []


def test_a_list_taken_at_its_word_is_mended_by_a_look(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
        store.save(other())
        assert len(store.clients()) == 2  # and so they are written down
    away = home(tmp_path, BEATRIX)
    away.rename(tmp_path / "away")
    with Store(tmp_path, looks_later=True) as store:
        assert names(store) == sorted([NAME, OTHER_NAME])
        assert store.look()
        assert names(store) == [NAME]
        assert not store.look()
    (tmp_path / "away").rename(away)
    with Store(tmp_path, looks_later=True) as store:
        assert names(store) == [NAME]
        document = store.read(WILHELMINA)
        document["client"]["name"] = "Wilhelmina Anew"
        store.save(document)  # what is saved before the look stays
        assert store.look()
        assert names(store) == sorted(["Wilhelmina Anew", OTHER_NAME])


def test_a_look_that_fails_is_told_and_done_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(_folder: object) -> None:
        raise PermissionError(13, "Permission denied")

    with Store(tmp_path) as store:
        store.save(client())
        store.save(other())
        assert len(store.clients()) == 2
    away = home(tmp_path, BEATRIX)
    away.rename(tmp_path / "away")
    with Store(tmp_path, looks_later=True) as store:
        with monkeypatch.context() as patched:
            patched.setattr("os.scandir", refused)
            with pytest.raises(NotSaved, match="Permission denied"):
                store.look()
        assert len(names(store)) == 2
        assert store.look()
        assert names(store) == [NAME]


def test_a_client_deleted_before_the_look_is_gone_from_the_list_on_disk(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
        store.save(other())
        assert len(store.clients()) == 2
    with Store(tmp_path, looks_later=True) as store:
        store.delete(BEATRIX)
        assert names(store) == [NAME]
        assert not store.look()
    assert OTHER_NAME.encode() not in (tmp_path / "index.json").read_bytes()


def test_without_an_index_the_files_are_looked_at_at_once(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
        assert names(store) == [NAME]
    (tmp_path / "index.json").unlink()
    with Store(tmp_path, looks_later=True) as store:
        assert names(store) == [NAME]
        assert not store.look()


def test_what_is_no_client_is_not_listed(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
    (tmp_path / "clients" / "empty").mkdir()
    (tmp_path / "clients" / "a note").write_text("not hers")
    with Store(tmp_path) as store:
        assert names(store) == [NAME]
    assert (tmp_path / "clients" / "a note").read_text() == "not hers"


def test_resting_writes_the_list_down_for_a_program_that_is_killed_next(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.clients()
        store.save(client())
        store.rest()
        rested = (tmp_path / "index.json").read_bytes()
        assert NAME.encode() in rested
        store.rest()
        assert (tmp_path / "index.json").read_bytes() == rested
