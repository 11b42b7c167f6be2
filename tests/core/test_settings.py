"""What she chose is there the next time, whatever happened to the file meanwhile."""

import json
import os

import pytest

from core.draft.document import CannotChange
from core.errors import BadLength
from core.settings import FILE, Settings, read_settings, with_length, write_settings
from core.store.disk import NotSaved


def test_without_a_file_everything_is_as_usual(tmp_path):
    assert read_settings(tmp_path / "not there") == Settings()
    assert Settings().unit == "in"
    assert Settings().remind_after == 10


def test_what_was_chosen_is_there_the_next_time(tmp_path):
    chosen = Settings(unit="cm", sixteenths=True, text="largest", light="dark", left_handed=True,
                      remind_after=0, defaults={"settings": {"keep": "1.5 cm"}})  # fmt: skip
    write_settings(tmp_path / "new folder", chosen)
    assert read_settings(tmp_path / "new folder") == chosen


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b"\xff\xfe", b"null", b"[" * 100_000])
def test_a_damaged_file_is_as_good_as_none(tmp_path, content):
    (tmp_path / FILE).write_bytes(content)
    assert read_settings(tmp_path) == Settings()


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("unit", "ell"),
        ("unit", ["in"]),
        ("text", 3),
        ("light", None),
        ("left_handed", "yes"),
        ("sixteenths", 1),
        ("remind_after", -1),
        ("remind_after", True),
        ("remind_after", 10**9),
        ("defaults", []),
        ("defaults", {"settings": {"keep": "a little"}}),
        ("defaults", {"settings": {"nothing of ours": "1 in"}}),
        ("defaults", {"kinds": {"sheath_dress": []}}),
    ],
)
def test_one_value_that_is_none_leaves_the_others_as_chosen(tmp_path, name, value):
    said = {"unit": "cm", "text": "large", "left_handed": True} | {name: value}
    (tmp_path / FILE).write_text(json.dumps(said), encoding="utf-8")
    read = read_settings(tmp_path)
    usual = Settings()
    assert getattr(read, name) == getattr(usual, name)
    for other in {"unit", "text", "left_handed"} - {name}:
        assert getattr(read, other) == said[other]


def test_what_a_newer_program_wrote_beside_it_is_written_back(tmp_path):
    (tmp_path / FILE).write_text(json.dumps({"unit": "mm", "voice": {"pitch": 2}}), "utf-8")
    write_settings(tmp_path, read_settings(tmp_path))
    assert json.loads((tmp_path / FILE).read_text("utf-8"))["voice"] == {"pitch": 2}


def test_a_full_disk_is_told_and_the_file_stays(tmp_path, monkeypatch):
    write_settings(tmp_path, Settings(unit="cm"))

    def full(_handle):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(NotSaved, match="No space left"):
            write_settings(tmp_path, Settings(unit="mm"))
    assert read_settings(tmp_path).unit == "cm"
    assert [path.name for path in tmp_path.iterdir()] == [FILE]


def test_a_length_is_kept_as_typed_with_its_unit_and_taken_back(tmp_path):
    set_to = with_length(Settings(unit="cm"), "keep", "1,5")
    assert set_to.liked("keep") == "1,5 cm"
    assert with_length(set_to, "keep", "").liked("keep") == ""
    assert set_to.liked("band") == ""


@pytest.mark.parametrize(("typed", "wrong"), [("a little", BadLength), ("0", CannotChange)])
def test_a_step_that_is_none_is_refused(typed, wrong):
    with pytest.raises(wrong):
        with_length(Settings(), "step", typed)
