"""The specification of the Android package is true: what it lists is what the app needs."""

import configparser
import json
import re
import tomllib
from importlib.metadata import Distribution, distribution
from pathlib import Path

import pytest
from packaging.requirements import Requirement

ROOT = Path(__file__).resolve().parents[1]
RESOURCES = ROOT / "resources"
RECIPES = json.loads((RESOURCES / "android-recipes.json").read_text("utf-8"))
EXTRAS = ("passcode",)
"""What a tablet has besides; HEIC photos are left out, their library has no recipe."""


def specification() -> configparser.SectionProxy:
    parser = configparser.ConfigParser(interpolation=None)
    parser.read_string((RESOURCES / "buildozer.spec").read_text("utf-8"))
    return parser["app"]


def listed(option: str) -> list[str]:
    return [word.strip() for word in specification()[option].split(",")]


def plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def needed() -> set[str]:
    """Return every library the app needs at work, and those that they need."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    waiting = list(project["dependencies"])
    for extra in EXTRAS:
        waiting += project["optional-dependencies"][extra]
    found: set[str] = set()
    while waiting:
        requirement = Requirement(waiting.pop())
        name = plain(requirement.name)
        here = requirement.marker is None or requirement.marker.evaluate({"extra": ""})
        if not here or name in found or name in RECIPES["left_out"]:
            continue
        found.add(name)
        waiting += distribution(name).requires or []
    return found


def only_compiled(library: Distribution) -> list[str]:
    """Return the compiled modules of a library that have no Python beside them to take over."""
    files = [Path(str(library.locate_file(file))) for file in library.files or ()]
    compiled = [file for file in files if file.suffix in (".so", ".pyd", ".dll", ".dylib")]
    beside = {file: file.with_name(file.name.split(".")[0] + ".py") for file in compiled}
    return [file.name for file, python in beside.items() if not python.exists()]


@pytest.mark.parametrize("name", sorted(needed()))
def test_every_library_is_pure_python_or_has_a_recipe(name: str) -> None:
    assert name in RECIPES["recipes"] or only_compiled(distribution(name)) == []


@pytest.mark.parametrize("name", ["kivy", "pillow", "cryptography", "numpy", "scipy"])
def test_a_compiled_library_is_noticed(name: str) -> None:
    assert only_compiled(distribution(name)) != []


def test_the_package_lists_all_that_is_needed() -> None:
    assert needed() <= {plain(name) for name in listed("requirements")}


def test_what_is_left_out_is_used_nowhere() -> None:
    for path in (*ROOT.glob("core/**/*.py"), *ROOT.glob("screens/**/*.py"), ROOT / "main.py"):
        for name in ("docutils", "pygments", "kivy_garden", "kivy.garden", "uix.rst", "codeinput"):
            assert name not in path.read_text("utf-8"), path


def test_every_permission_is_one_the_code_asks_for_and_the_network_is_none_of_them() -> None:
    asked = {
        name for path in ROOT.glob("screens/**/*.py")
        for name in re.findall(r"Permission\.([A-Z_]+)", path.read_text("utf-8"))
    }  # fmt: skip
    told = set(re.findall(r"android\.permission\.([A-Z_]+)",
                          specification()["android.permissions"]))  # fmt: skip
    assert told == asked
    assert "INTERNET" not in told


def test_every_kind_of_file_the_app_reads_goes_with_it() -> None:
    taken = {f".{ending}" for ending in listed("source.include_exts")}
    excluded = [folder.strip() for folder in listed("source.exclude_dirs")]
    for folder in ("core", "screens", "resources"):
        for path in (ROOT / folder).rglob("*"):
            where = path.relative_to(ROOT).as_posix()
            if path.is_dir() or "__pycache__" in where or path.suffix in (".spec", ".pyc"):
                continue
            if not any(where.startswith(f"{left}/") for left in excluded):
                assert path.suffix in taken, where


def test_the_versions_agree_and_no_backup_of_the_device_takes_her_clients_along() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert specification()["version"] == project["version"]
    assert specification()["android.allow_backup"] == "False"
