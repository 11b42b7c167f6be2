"""How she likes to work: kept in one small file beside the clients, with nothing of theirs in it.

It is read as far as it can be: a file or a value that is damaged is as good as none, and what a
newer program wrote beside it is written back.
"""

import json
from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import dataclass, field, fields, replace
from pathlib import Path
from typing import Any, Literal, get_args

from core.errors import WorkroomError
from core.store.disk import told
from core.unit import Unit
from core.whole_file import make_folder, write_whole

FILE = "settings.json"
FORMAT = "pins-to-seams-settings/1"

TextSize = Literal["normal", "large", "largest"]
Light = Literal["device", "light", "dark"]

MOST_REMINDED = 1000


@dataclass(frozen=True, slots=True)
class Settings:
    """What she chose; ``unit`` is that of a new client's file.

    ``sixteenths``: a second touch on an eighth is a sixteenth more.  ``remind_after`` is how many
    fittings may be taken down before a backup is asked for, 0 for never.  ``read_each_step``: the
    sewing table reads the next step aloud by itself.  ``defaults`` is how she
    likes her garments made (see ``her_defaults``), ``others`` what this program does not know.
    """

    unit: Unit = "in"
    sixteenths: bool = False
    text: TextSize = "normal"
    light: Light = "device"
    left_handed: bool = False
    read_each_step: bool = False
    remind_after: int = 10
    defaults: Mapping[str, Any] = field(default_factory=dict)
    others: Mapping[str, Any] = field(default_factory=dict)

    def liked(self, what: str) -> str:
        """Return a length she set for every garment, as it is kept; empty for the usual one."""
        settings = self.defaults.get("settings")
        said = settings.get(what) if isinstance(settings, Mapping) else None
        return said if isinstance(said, str) else ""


def with_length(settings: Settings, what: str, typed: str) -> Settings:
    """Set a length for every garment that is begun from now on; an empty one is the usual one.

    ``what`` is ``step``, ``band``, ``keep``, ``comfort``, ``most``, ``leg_comfort`` or
    ``deepest``.  Raises ``CannotChange`` or ``BadLength``.
    """
    defaults = deepcopy(dict(settings.defaults))
    if typed.strip():
        _set(defaults, what, typed, unit=settings.unit)
    elif isinstance(defaults.get("settings"), dict):
        defaults["settings"].pop(what, None)
    return replace(settings, defaults=defaults)


def read_settings(folder: Path) -> Settings:
    """Return what was chosen; where nothing was, or it cannot be read, what is usual."""
    try:
        said = json.loads((folder / FILE).read_bytes())
    except (OSError, ValueError, RecursionError):
        return Settings()
    if not isinstance(said, dict):
        return Settings()
    known = {name: said[name] for name, fits in _FITS.items() if name in said and fits(said[name])}
    others = {name: value for name, value in said.items() if name not in (*_FITS, "format")}
    return Settings(**known, others=others)


def write_settings(folder: Path, settings: Settings) -> None:
    """Keep what was chosen; raises ``NotSaved`` with the file as it was."""
    said = {each.name: getattr(settings, each.name) for each in fields(settings)}
    said |= {"format": FORMAT, **said.pop("others")}
    with told():
        make_folder(folder)
        write_whole(folder / FILE, json.dumps(said, indent=1, ensure_ascii=False).encode())


def _one_of(choices: Any) -> Callable[[object], bool]:
    return lambda said: isinstance(said, str) and said in get_args(choices)


def _is_truth(said: object) -> bool:
    return isinstance(said, bool)


def _is_count(said: object) -> bool:
    return isinstance(said, int) and not isinstance(said, bool) and 0 <= said <= MOST_REMINDED


def _is_defaults(said: object) -> bool:
    """Tell whether every garment can be begun with these defaults."""
    if not isinstance(said, dict) or not isinstance(said.get("kinds", {}), dict):
        return False
    settings = said.get("settings", {})
    if not isinstance(settings, dict):
        return False
    try:
        for what, typed in settings.items():
            _set({}, what, str(typed), unit="in")
    except WorkroomError:
        return False
    return all(isinstance(each, dict) for each in said.get("kinds", {}).values())


_FITS: dict[str, Callable[[object], bool]] = {
    "unit": _one_of(Unit),
    "sixteenths": _is_truth,
    "text": _one_of(TextSize),
    "light": _one_of(Light),
    "left_handed": _is_truth,
    "read_each_step": _is_truth,
    "remind_after": _is_count,
    "defaults": _is_defaults,
}


def _set(defaults: dict[str, Any], what: str, typed: str, *, unit: Unit) -> None:
    """Set a default as a garment's setting is set; reading garments is loaded only for that."""
    from core.client.her_defaults import set_setting

    set_setting(defaults, what, typed, unit=unit)
