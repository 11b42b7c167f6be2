"""The core knows no screen, and only the store knows the database."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
CORE = sorted((ROOT / "core").glob("**/*.py"))
SCREENS = sorted((ROOT / "screens").glob("**/*.py"))


def imported(path: Path) -> set[str]:
    """Return the first part of every name that a module imports."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module.split(".")[0])
    return names


@pytest.mark.parametrize("path", CORE, ids=lambda path: path.stem)
def test_the_core_knows_no_screen(path: Path) -> None:
    assert not imported(path) & {"kivy", "screens", "main"}


@pytest.mark.parametrize("path", CORE + SCREENS, ids=lambda path: path.stem)
def test_only_the_store_knows_the_database(path: Path) -> None:
    assert "tinydb" not in imported(path) or ROOT / "core" / "store" in path.parents


@pytest.mark.parametrize("path", SCREENS, ids=lambda path: path.stem)
def test_screens_are_handed_the_state_and_never_fetch_it(path: Path) -> None:
    assert "get_running_app" not in path.read_text(encoding="utf-8")


def test_loading_all_of_the_core_loads_no_kivy() -> None:
    code = (
        "import importlib, pkgutil, sys, core\n"
        "for found in pkgutil.walk_packages(core.__path__, 'core.'):\n"
        "    importlib.import_module(found.name)\n"
        "sys.exit('kivy' in sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True)


def test_there_is_something_to_look_at() -> None:
    assert len(CORE) > 10
    assert len(SCREENS) > 10


def test_the_contributors_map_names_every_module_of_the_core() -> None:
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    named = {word.split("/")[-1].removesuffix(".py") for word in re.findall(r"`([\w/.]+)`", guide)}
    assert {path.stem for path in CORE} - {"__init__"} <= named


def test_what_the_documents_tell_to_run_is_there() -> None:
    """Each ``python -m tests…`` and each path of the tests in the two documents exists."""
    for name in ("README.md", "DEVELOPERS.md"):
        text = (ROOT / name).read_text(encoding="utf-8")
        for module in re.findall(r"-m (tests[\w.]*)", text):
            assert (ROOT / module.replace(".", "/")).with_suffix(".py").exists(), module
        for path in re.findall(r"(?:tests|resources|core|screens)/[\w/.-]+\w", text):
            there = (ROOT / path).exists() or (ROOT / f"{path}.py").exists()
            assert there or "NAME" in path, (name, path)
