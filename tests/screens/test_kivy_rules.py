"""Only some of Kivy's own rules are read: they must be Kivy's, of every widget that is used."""

import importlib
import pkgutil
import re
from pathlib import Path

import kivy

import screens
from screens.kivy_rules import RULES


def rules_in(path):
    """The rules of a file by the classes that each is for."""
    told = re.sub(r"(?m)^#.*\n", "", path.read_text(encoding="utf-8"))  # headings between them
    blocks = re.split(r"(?m)^(?=<)", told)[1:]
    rules = {}
    for block in blocks:
        for name in block.splitlines()[0].strip("<>:").split(","):
            rules[name.strip(" -").split("@")[0]] = block.rstrip()
    return rules


def kivy_s_widgets():
    """The names of Kivy's widgets that are loaded once every module of the screens is."""
    from kivy.uix.widget import Widget

    for module in pkgutil.walk_packages(screens.__path__, "screens."):
        importlib.import_module(module.name)
    found, left = set(), [Widget]
    while left:
        left += (below := left.pop().__subclasses__())
        found |= {each.__name__ for each in below if each.__module__.startswith("kivy.")}
    return found


def test_every_widget_of_kivy_that_is_loaded_has_kivy_s_own_rule():
    theirs = rules_in(Path(kivy.kivy_data_dir) / "style.kv")
    ours = rules_in(RULES / "style.kv")
    needed = {name: rule for name, rule in theirs.items() if name in kivy_s_widgets()}
    assert {"TextInput", "ScrollView", "RelativeLayout"} <= set(needed)
    assert {name: ours.get(name) for name in needed} == needed


def test_what_is_read_is_what_lies_there_and_no_more():
    from kivy.lang import Builder

    files = {Path(rule.ctx.filename) for _, rule in Builder.rules if rule.ctx.filename}
    assert RULES / "style.kv" in files
    assert Path(kivy.kivy_data_dir) / "style.kv" not in files
