"""Clients carried from one tablet to another: all of it or nothing, and nothing mixed."""

import json
import zipfile
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from core.bundle.refusals import NeedsPasscode
from core.errors import BadFile, NotFound, WorkroomError
from core.photos import Photo, read_photo
from core.resources import RESOURCES
from core.seal import WrongPasscode
from core.store.bundles import AlreadyHere, HowToSend, bring_in, send
from core.store.clients import Store
from core.store.disk import NotSaved
from core.store.passcode import set_passcode
from core.store.photo_names import named_in
from core.store.photos import add_photo
from core.store.photos import read_photo as photo_kept
from core.store.records import unstamped
from tests.core.cutting import after_each_step

DEMO: dict[str, Any] = json.loads(
    (RESOURCES / "demo" / "moss_green_sheath.json").read_text(encoding="utf-8")
)
OTTOLINE = str(DEMO["client"]["id"])
PASSCODE = "seven silver pins"


def picture(colour: str = "olive") -> Photo:
    made = BytesIO()
    Image.new("RGB", (640, 480), colour).save(made, "JPEG")
    return read_photo(made.getvalue(), "made here")


def other(name: str, client_id: str) -> dict[str, Any]:
    return {**DEMO, "client": {"id": client_id, "name": name}}


def with_photo(store: Store, photo: Photo | None = None) -> str:
    """Put the demo client in, with one photo in her fitting; return the photo's name."""
    document = {**DEMO, "client": {**DEMO["client"], "photo_consent": "2026-03-02"}}
    store.save(document)
    name = add_photo(store, OTTOLINE, photo or picture())
    document = store.read(OTTOLINE)
    document["garments"][0]["fittings"][0]["photos"] = [{"file": name, "view": "back"}]
    store.save(document)
    return name


def everything_in(folder: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name != "open.lock"
    }


@pytest.mark.parametrize("passcode", [None, PASSCODE])
def test_a_client_sent_and_brought_in_elsewhere_is_the_same_to_the_photo(
    tmp_path: Path, passcode: str | None
) -> None:
    with Store(tmp_path / "one") as one:
        name = with_photo(one)
        sent = send(one, tmp_path / "out.zip", [OTTOLINE], passcode=passcode)
        assert sent.names == (DEMO["client"]["name"],)
        before, photo = one.read(OTTOLINE), photo_kept(one, OTTOLINE, name)
    with Store(tmp_path / "two") as two:
        brought = bring_in(two, tmp_path / "out.zip", passcode)
        assert brought.new == (DEMO["client"]["name"],)
        assert two.read(OTTOLINE) == before  # revisions and times of change too
        assert photo_kept(two, OTTOLINE, name) == photo


def test_everything_goes_into_one_bundle_and_comes_out_again(tmp_path: Path) -> None:
    with Store(tmp_path / "one") as one:
        with_photo(one)
        one.save(other("Wilhelmina Oatcake", "w"))
        send(one, tmp_path / "all.zip")
    with Store(tmp_path / "two") as two:
        assert len(bring_in(two, tmp_path / "all.zip").new) == 2
        assert [row.name for row in two.clients()] == [
            DEMO["client"]["name"], "Wilhelmina Oatcake",
        ]  # fmt: skip


def test_a_plain_fitting_file_can_be_brought_in_too(tmp_path: Path) -> None:
    with Store(tmp_path / "store") as store:
        bring_in(store, RESOURCES / "demo" / "moss_green_sheath.json")
        assert unstamped(store.read(OTTOLINE)) == DEMO


def test_the_same_client_again_changes_nothing(tmp_path: Path) -> None:
    with Store(tmp_path / "store") as store:
        with_photo(store)
        send(store, tmp_path / "out.zip", [OTTOLINE])
        before = everything_in(tmp_path / "store" / "clients")
        brought = bring_in(store, tmp_path / "out.zip")
        assert brought.the_same == (DEMO["client"]["name"],)
        assert everything_in(tmp_path / "store" / "clients") == before


class TestSomebodyWhoIsHereAlready:
    @pytest.fixture
    def store(self, tmp_path: Path) -> Store:
        with Store(tmp_path / "other") as elsewhere:
            with_photo(elsewhere, picture("navy"))
            elsewhere.save(other("Wilhelmina Oatcake", "w"))
            send(elsewhere, tmp_path / "out.zip")
        store = Store(tmp_path / "store")
        document = {**DEMO, "note": "changed here"}
        store.save(document)
        return store

    def test_is_asked_about_before_anything_changes(self, store: Store, tmp_path: Path) -> None:
        before = everything_in(store.root)
        with pytest.raises(AlreadyHere, match=r"Ottoline.*replaced, or both"):
            bring_in(store, tmp_path / "out.zip")
        assert everything_in(store.root) == before

    def test_is_replaced_when_told_with_her_photos(self, store: Store, tmp_path: Path) -> None:
        brought = bring_in(store, tmp_path / "out.zip", when_here="replace")
        assert brought.replaced == (DEMO["client"]["name"],)
        assert brought.new == ("Wilhelmina Oatcake",)
        document = store.read(OTTOLINE)
        assert "note" not in document
        name = document["garments"][0]["fittings"][0]["photos"][0]["file"]
        assert photo_kept(store, OTTOLINE, name) == picture("navy").content

    def test_who_was_replaced_is_still_kept_as_the_older_file(
        self, store: Store, tmp_path: Path
    ) -> None:
        bring_in(store, tmp_path / "out.zip", when_here="replace")
        folder = store.root / "clients" / store.folder_of(OTTOLINE)
        (folder / "client.json").write_bytes(b"spoilt")
        store.close()
        with Store(store.root) as again:
            assert again.read(OTTOLINE)["note"] == "changed here"
            assert again.recovered(OTTOLINE)

    def test_both_are_kept_when_told_under_ids_of_their_own(
        self, store: Store, tmp_path: Path
    ) -> None:
        brought = bring_in(store, tmp_path / "out.zip", when_here="keep both")
        assert len(brought.both_kept) == 1
        rows = [row for row in store.clients() if "Ottoline" in row.name]
        assert len({row.id for row in rows}) == 2
        assert store.read(OTTOLINE)["note"] == "changed here"
        (doubled,) = (row for row in rows if row.id != OTTOLINE)
        ids = [set(store.file(row.id).records) for row in rows]
        assert not ids[0] & ids[1]
        name = store.read(doubled.id)["garments"][0]["fittings"][0]["photos"][0]["file"]
        assert photo_kept(store, doubled.id, name) == picture("navy").content

    @pytest.mark.parametrize("when_here", ["replace", "keep both"])
    def test_a_cut_at_any_step_leaves_all_or_nothing(
        self, store: Store, tmp_path: Path, when_here: Any
    ) -> None:
        store.close()
        names = {"all": 0, "nothing": 0}

        def bring(folder: Path) -> None:
            with Store(folder) as opened:
                bring_in(opened, tmp_path / "out.zip", when_here=when_here)

        for folder in after_each_step(store.root, bring):
            with Store(folder) as again:
                here = {row.name for row in again.clients()}
                replaced = "note" not in again.read(OTTOLINE)
                arrived = "Wilhelmina Oatcake" in here
                if when_here == "replace":
                    assert replaced == arrived
                else:
                    assert (len(here) == 3) == arrived
                assert not [row for row in again.clients() if row.damaged]
                names["all" if arrived else "nothing"] += 1
        assert names["all"] > 1
        assert names["nothing"] > 5


def test_one_bad_client_in_a_bundle_keeps_all_the_others_out(tmp_path: Path) -> None:
    with Store(tmp_path / "one") as one:
        with_photo(one)
        one.save(other("Wilhelmina Oatcake", "w"))
        send(one, tmp_path / "all.zip")
    with (
        zipfile.ZipFile(tmp_path / "all.zip") as good,
        zipfile.ZipFile(tmp_path / "bad.zip", "w") as bad,
    ):
        for member in good.infolist():
            content = good.read(member)
            if b"Oatcake" in content and member.filename.endswith("client.json"):
                content = content.replace(b'"unit": "in"', b'"unit": "ell"')
            bad.writestr(member, content)
    with Store(tmp_path / "two") as two:
        before = everything_in(two.root)
        with pytest.raises(BadFile, match="unit"):
            bring_in(two, tmp_path / "bad.zip")
        assert two.clients() == ()
        assert everything_in(two.root) == before


def test_a_sealed_bundle_asks_for_its_passcode_and_refuses_a_wrong_one(tmp_path: Path) -> None:
    with Store(tmp_path / "one") as one:
        one.save(DEMO)
        send(one, tmp_path / "out.zip", passcode=PASSCODE)
    with Store(tmp_path / "two") as two:
        with pytest.raises(NeedsPasscode):
            bring_in(two, tmp_path / "out.zip")
        with pytest.raises(WrongPasscode):
            bring_in(two, tmp_path / "out.zip", "seven golden pins")
        assert two.clients() == ()
        brought = bring_in(two, tmp_path / "out.zip", PASSCODE)
        assert any("it is not" in note for note in brought.notes)


def test_a_sealed_store_asks_whether_what_leaves_it_is_sealed(tmp_path: Path) -> None:
    with Store(tmp_path / "one") as one:
        one.save(DEMO)
        set_passcode(one, PASSCODE)
        with pytest.raises(HowToSend, match="sealed too"):
            send(one, tmp_path / "out.zip")
        assert not (tmp_path / "out.zip").exists()
        send(one, tmp_path / "open.zip", readable=True)
        send(one, tmp_path / "sealed.zip", passcode="another passcode")
    assert b"Ottoline" not in (tmp_path / "sealed.zip").read_bytes()
    with Store(tmp_path / "two") as two:
        assert bring_in(two, tmp_path / "open.zip").new


def test_what_is_brought_into_a_sealed_store_is_sealed(tmp_path: Path) -> None:
    with Store(tmp_path / "one") as one:
        with_photo(one)
        send(one, tmp_path / "out.zip")
    with Store(tmp_path / "two") as two:
        set_passcode(two, PASSCODE)
        bring_in(two, tmp_path / "out.zip")
    for content in everything_in(tmp_path / "two").values():
        assert b"Ottoline" not in content
        assert b"\xff\xd8\xff" not in content[:3]
    with Store(tmp_path / "two", PASSCODE) as again:
        assert again.read(OTTOLINE)["client"]["name"] == DEMO["client"]["name"]


def test_a_damaged_client_is_left_out_of_everything_and_told(tmp_path: Path) -> None:
    with Store(tmp_path / "one") as one:
        one.save(DEMO)
        one.save(other("Wilhelmina Oatcake", "w"))
        one.clients()
        folder = one.root / "clients" / one.folder_of("w")
    (folder / "client.json").write_bytes(b"spoilt")
    with Store(tmp_path / "one") as one:
        sent = send(one, tmp_path / "all.zip")
        assert sent.names == (DEMO["client"]["name"],)
        assert len(sent.left_out) == 1
        assert "Wilhelmina Oatcake" in sent.left_out[0]


def test_a_full_disk_while_bringing_in_changes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with Store(tmp_path / "one") as one:
        with_photo(one)
        send(one, tmp_path / "out.zip")
    with Store(tmp_path / "two") as two:
        two.save(other("Wilhelmina Oatcake", "w"))
        before = everything_in(two.root)

        def full(*_: object) -> None:
            raise OSError(28, "No space left on device")

        with monkeypatch.context() as patch:
            patch.setattr("os.fsync", full)
            with pytest.raises(NotSaved, match="No space left"):
                bring_in(two, tmp_path / "out.zip")
        assert everything_in(two.root) == before
        assert bring_in(two, tmp_path / "out.zip").new


def test_nothing_that_is_no_bundle_is_taken(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("Dear Madam")
    with Store(tmp_path / "store") as store:
        for path in (tmp_path / "letter.txt", tmp_path / "not there.zip", tmp_path):
            with pytest.raises(WorkroomError):
                bring_in(store, path)


def test_a_photo_name_that_leads_out_of_the_folder_reaches_nothing(tmp_path: Path) -> None:
    (tmp_path / "private.jpg").write_bytes(picture().content)
    document = json.loads(json.dumps(DEMO))
    names = ["../../private.jpg", "photos/../../private.jpg", str(tmp_path / "private.jpg")]
    document["garments"][0]["fittings"][0]["photos"] = [{"file": name} for name in names]
    with Store(tmp_path / "store") as store:
        store.save(document)
        assert not list(named_in(store.read(OTTOLINE)))
        for name in names:
            with pytest.raises(NotFound):
                photo_kept(store, OTTOLINE, name)
    assert (tmp_path / "private.jpg").exists()
