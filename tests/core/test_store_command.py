"""The clients carried, backed up and looked over from a terminal: one line where it fails."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import main as program
from core.store.clients import Store
from tests.core.test_carrying import OTTOLINE, PASSCODE, other, with_photo

ROOT = Path(__file__).resolve().parents[2]
NAME = "Ottoline Brackenwick (demo, invented)"
Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Run:
    """Return what runs a command on the store in ``tmp_path / "store"``."""

    def go(*words: str, folder: str = "store") -> tuple[int, str, str]:
        code = program.main([*words, "--folder", str(tmp_path / folder)])
        said = capsys.readouterr()
        return code, said.out, said.err

    return go


@pytest.fixture
def passcodes(tmp_path: Path) -> tuple[str, str]:
    (tmp_path / "first").write_text(f"{PASSCODE}\n")
    (tmp_path / "second").write_text("another passcode")
    return str(tmp_path / "first"), str(tmp_path / "second")


@pytest.fixture(autouse=True)
def filled(tmp_path: Path) -> None:
    with Store(tmp_path / "store") as store:
        with_photo(store)
        store.save(other("Wilhelmina Oatcake", "w"))


def test_all_that_is_exported_comes_in_elsewhere(run: Run, tmp_path: Path) -> None:
    out = str(tmp_path / "out.zip")
    assert run("export", out) == (0, f"{out}: 2 clients\n", "")
    code, said, _ = run("import", out, folder="other")
    assert (code, said) == (0, f"New: {NAME}, Wilhelmina Oatcake\n")
    assert run("check", folder="other") == (0, "2 clients and 1 photo read: 0 troubles\n", "")


@pytest.mark.parametrize("called", [NAME.upper(), OTTOLINE])
def test_one_client_is_named_by_her_name_or_id(run: Run, tmp_path: Path, called: str) -> None:
    out = str(tmp_path / "out.zip")
    assert run("export", out, "--client", called)[1] == f"{out}: 1 client\n"
    assert program.main(["plan", out]) == 0


def test_a_client_nobody_knows_is_said_and_nothing_written(run: Run, tmp_path: Path) -> None:
    code, _, said = run("export", str(tmp_path / "out.zip"), "--client", "Nobody")
    assert code == 2
    assert said == "There is no client called “Nobody”. Nothing was written: name the id\n"
    assert not (tmp_path / "out.zip").exists()


def test_somebody_who_is_here_is_asked_about(run: Run, tmp_path: Path) -> None:
    out = str(tmp_path / "out.zip")
    run("export", out)
    with Store(tmp_path / "store") as store:
        store.save({**store.read("w"), "note": "changed here"})
    code, _, said = run("import", out)
    assert code == 2
    assert said.startswith("Here already, and not the same: Wilhelmina Oatcake.")
    assert run("import", out, "--keep-both")[1].splitlines() == [
        "Both kept: Wilhelmina Oatcake (brought in)",
        f"Here already, and the same: {NAME}",
    ]
    assert run("import", out, "--replace")[1].splitlines() == [
        "Replaced: Wilhelmina Oatcake",
        f"Here already, and the same: {NAME}",
    ]


def test_a_backup_is_restored_only_where_nothing_is_or_when_told(run: Run, tmp_path: Path) -> None:
    (tmp_path / "card").mkdir()
    assert run("backup", str(tmp_path / "card"))[0] == 0
    (path,) = (tmp_path / "card").iterdir()
    code, _, said = run("restore", str(path))
    assert code == 2
    assert "takes their place" in said
    assert run("restore", str(path), "--replace")[0] == 0
    assert run("restore", str(path), folder="empty") == (
        0, f"Restored 2 clients: {NAME}, Wilhelmina Oatcake\n", "",
    )  # fmt: skip


def test_troubles_are_listed_and_told_by_the_exit_code(run: Run, tmp_path: Path) -> None:
    (path,) = (tmp_path / "store").glob("clients/*/photos/*.jpg")
    path.unlink()
    code, said, _ = run("check")
    assert code == 1
    assert "is missing" in said
    assert said.endswith("2 clients and 1 photo read: 1 trouble\n")


def test_a_passcode_is_set_changed_and_taken_away(
    run: Run, tmp_path: Path, passcodes: tuple[str, str]
) -> None:
    first, second = passcodes
    code, said, warned = run("passcode", "set", "--new-passcode-file", first)
    assert (code, said) == (0, "Sealed\n")
    assert "Nobody can bring back a lost passcode" in warned
    assert run("check")[0] == 2  # nobody to ask
    assert run("check", "--passcode-file", second)[0] == 2
    assert run("check", "--passcode-file", first)[0] == 0
    opened = ("--passcode-file", first)
    assert run("passcode", "change", "--new-passcode-file", second, *opened)[0] == 0
    assert run("passcode", "remove", *opened)[0] == 2
    assert run("passcode", "remove", "--passcode-file", second)[1] == "Open again\n"
    assert run("check")[0] == 0


def test_what_leaves_sealed_clients_asks_to_be_sealed(
    run: Run, tmp_path: Path, passcodes: tuple[str, str]
) -> None:
    first, second = passcodes
    out, opened = str(tmp_path / "out.zip"), ("--passcode-file", first)
    run("passcode", "set", "--new-passcode-file", first)
    code, _, said = run("export", out, *opened)
    assert code == 2
    assert "sealed too" in said
    assert run("export", out, "--sealed", "--new-passcode-file", second, *opened)[0] == 0
    assert program.main(["plan", out]) == 2
    code, _, said = run("import", out, folder="other")
    assert code == 2
    assert "is sealed" in said
    assert run("import", out, "--bundle-passcode-file", second, folder="other")[0] == 0


def test_photos_are_given_away_with_their_marks(run: Run, tmp_path: Path) -> None:
    code, said, _ = run("export", "--pictures", str(tmp_path / "pictures"))
    assert code == 0
    (path,) = (tmp_path / "pictures").iterdir()
    assert said == f"{path}\n"
    assert path.name == "2026-03-02 Moss green wool sheath back 1.jpg"
    assert path.read_bytes()[:3] == b"\xff\xd8\xff"


def test_pictures_of_sealed_clients_are_given_away_only_when_that_is_said(
    run: Run, tmp_path: Path, passcodes: tuple[str, str]
) -> None:
    opened = ("--passcode-file", passcodes[0])
    run("passcode", "set", "--new-passcode-file", passcodes[0])
    code, _, said = run("export", "--pictures", str(tmp_path / "pictures"), *opened)
    assert code == 2
    assert "seen by anyone" in said
    assert not (tmp_path / "pictures").exists()
    assert run("export", "--pictures", str(tmp_path / "p"), "--readable", *opened)[0] == 0


def test_a_passcode_written_by_a_plain_editor_is_the_one_she_types(
    run: Run, tmp_path: Path
) -> None:
    (tmp_path / "bom").write_bytes(b"\xef\xbb\xbf" + PASSCODE.encode() + b"\r\n")
    run("passcode", "set", "--new-passcode-file", str(tmp_path / "bom"))
    with Store(tmp_path / "store", PASSCODE) as store:
        assert len(store.clients()) == 2


def test_nothing_is_written_over(run: Run, tmp_path: Path) -> None:
    (tmp_path / "out.zip").write_text("hers")
    for path in (tmp_path / "out.zip", tmp_path / "store" / "store.json"):
        code, _, said = run("export", str(path))
        assert code == 2
        assert "is there already" in said
    assert (tmp_path / "out.zip").read_text() == "hers"


def test_a_folder_that_is_not_there_is_said_and_not_made(run: Run, tmp_path: Path) -> None:
    code, _, said = run("check", folder="typing error")
    assert code == 2
    assert "is not there" in said
    assert not (tmp_path / "typing error").exists()


def test_a_name_is_never_obeyed_by_the_terminal(run: Run, tmp_path: Path) -> None:
    with Store(tmp_path / "store") as store:
        store.save(other("Eve\x1b[2J", "eve"))
    out = str(tmp_path / "out.zip")
    run("export", out, "--client", "eve")
    assert run("import", out, folder="elsewhere")[1] == "New: Eve?[2J\n"


def test_clients_that_are_open_elsewhere_are_left_alone(run: Run, tmp_path: Path) -> None:
    with Store(tmp_path / "store"):
        code, _, said = run("check")
    assert code == 2
    assert said.startswith("Pins to Seams is open already")


def test_no_screen_is_loaded_for_it(tmp_path: Path) -> None:
    code = (
        "import sys, main\n"
        f"main.main(['check', '--folder', {str(tmp_path / 'store')!r}])\n"
        "sys.exit('kivy' in sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True, env={**os.environ})
