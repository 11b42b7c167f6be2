"""The settings in ready words, part by part: what may be chosen, set, and done."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from core.lengths import Unit, read_length, write_length
from core.records.garment import INCH_SETTINGS, METRIC_SETTINGS
from core.seal import PASSCODE_WARNING
from core.settings import Settings
from core.store.checks import Checked
from screens.rows import day
from screens.sentence import sentence

PARTS = {"measuring": "Measuring", "look": "Look and hand", "garments": "Garments",
         "passcode": "Passcode", "backup": "Backup", "bring in": "Bring in",
         "check": "Check", "cautions": "Cautions", "about": "About"}  # fmt: skip

UNITS: dict[str, str] = {"in": "Inches", "cm": "Centimetres", "mm": "Millimetres"}
STEPS: dict[Unit, tuple[str, ...]] = {
    "in": ("1/16", "1/8", "1/4"), "cm": ("0.1", "0.5", "1"), "mm": ("1", "5", "10"),
}  # fmt: skip
REMIND = {"0": "Never", "5": "5 fittings", "10": "10 fittings", "20": "20 fittings"}
TEXTS = {"normal": "Normal", "large": "Large", "largest": "Largest"}
LIGHTS = {"device": "As the device", "light": "Light", "dark": "Dark"}
HANDS = {"no": "Right", "yes": "Left"}
EIGHTHS = {"no": "Eighths", "yes": "Sixteenths too"}

LENGTHS = {
    "keep": ("Kept inside", "What stays of an allowance when an edge is let out."),
    "band": ("Right as it is", "Inside this a level is not altered, over the whole round."),
    "comfort": ("Gives gladly", "How far an edge moves before another one is asked."),
    "most": ("Taken in at most", "How far an edge is taken in before it is told."),
    "leg_comfort": ("A dart’s leg gives gladly", "How far a leg moves before others are asked."),
    "deepest": ("Deepest dart", "A dart deeper than this is told: it poufs at its point."),
}
_STEP_MM: dict[Unit, float] = {"in": 3.175, "cm": 1.0, "mm": 1.0}


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few; ``name`` is the setting, ``key`` its value."""

    name: str
    key: str
    label: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Doing:
    """A key that does something."""

    label: str
    verb: str
    leads: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """A setting: its name, what it means, and how it is changed; each may be missing."""

    title: str
    words: str = ""
    caution: str = ""
    choices: tuple[Choice, ...] = ()
    length: str = ""
    what: str = ""
    is_usual: bool = True
    doings: tuple[Doing, ...] = ()


@dataclass(frozen=True, slots=True)
class Around:
    """What the settings say of the clients: where and how many, sealed or not, backed up when."""

    folder: Path
    clients: int
    sealed: bool
    backed_up: str
    checked: Checked | None = None
    said: str = ""


def lines_of(part: str, settings: Settings, around: Around) -> tuple[Line, ...]:
    """Return the lines of a part."""
    return _LINES[part](settings, around)


def length_after(settings: Settings, what: str, steps: int) -> str:
    """Return a length so many steps on, never less than nothing, in the unit that is chosen."""
    unit = settings.unit
    mm = max(0.0, _length_mm(settings, what) + steps * _STEP_MM[unit])
    return write_length(mm, unit)


def _length_mm(settings: Settings, what: str) -> float:
    liked = settings.liked(what)
    if liked:
        return read_length(liked, settings.unit).mm
    usual = INCH_SETTINGS if settings.unit == "in" else METRIC_SETTINGS
    return float(getattr(usual, what))


def _choices(name: str, labels: dict[str, str], now: str) -> tuple[Choice, ...]:
    return tuple(Choice(name, key, label, key == now) for key, label in labels.items())


def _yes(truth: bool) -> str:
    return "yes" if truth else "no"


def _measuring(settings: Settings, around: Around) -> tuple[Line, ...]:
    unit = settings.unit
    steps = {each: f"{each} {unit}" for each in STEPS[unit]}
    now = write_length(_length_mm(settings, "step"), unit)
    lines = [
        Line("Unit", "For the clients you take up from now on. One who is here keeps hers; at the"
             " tape either unit can be typed at any time.", choices=_choices("unit", UNITS, unit)),
        Line("Step", "What a touch on plus or minus changes, and what the plan is rounded to, in"
             " the garments you begin from now on.", choices=_choices("step", steps, now)),
    ]  # fmt: skip
    if unit == "in":
        lines.append(Line("Keys of the tape", "A second touch on an eighth is a sixteenth more.",
                          choices=_choices("sixteenths", EIGHTHS, _yes(settings.sixteenths))))
    return tuple(lines)


def _look(settings: Settings, around: Around) -> tuple[Line, ...]:
    return (
        Line("Letters", "", choices=_choices("text", TEXTS, settings.text)),
        Line("Light", "", choices=_choices("light", LIGHTS, settings.light)),
        Line("Your hand for the keys", "Left, the keys of the tape lie at the left.",
             choices=_choices("left_handed", HANDS, _yes(settings.left_handed))),
    )  # fmt: skip


def _garments(settings: Settings, around: Around) -> tuple[Line, ...]:
    head = Line("How you like garments made", "It counts for the garments you begin from now on."
                " Those that are here stay as they are; each can be changed at its draft.")
    return head, *(
        Line(title, words, length=write_length(_length_mm(settings, what), settings.unit)
             + f" {settings.unit}", what=what, is_usual=not settings.liked(what))
        for what, (title, words) in LENGTHS.items()
    )  # fmt: skip


def _passcode(settings: Settings, around: Around) -> tuple[Line, ...]:
    if around.sealed:
        return (
            Line("Your clients are sealed", "Names, measurements and photos can be read with the"
                 " passcode only. It is asked for when the app opens, and after a rest of five"
                 " minutes.", caution=sentence(PASSCODE_WARNING),
                 doings=(Doing("Change the passcode", "change passcode"),
                         Doing("Take the seal off", "remove passcode"))),
        )  # fmt: skip
    return (
        Line("No passcode", "Whoever has this device, or a copy of the folder, can read your"
             " clients. With a passcode everything of theirs is sealed.",
             caution=sentence(PASSCODE_WARNING),
             doings=(Doing("Set a passcode", "set passcode", leads=True),)),
    )  # fmt: skip


def _backup(settings: Settings, around: Around) -> tuple[Line, ...]:
    when = around.backed_up[:10]
    last = f"The last one: {day(when)}." if when else "There is none yet."
    sealed = " It is sealed under your passcode." if around.sealed else ""
    return (
        Line("Back up everything", f"{last} All clients and photos go into one file, in a folder"
             f" you choose: a card, a stick, a drive.{sealed}",
             doings=(Doing("Back up now", "back up", leads=True),)),
        Line("Remind me after", "", choices=_choices("remind_after", REMIND,
                                                     str(settings.remind_after))),
        Line("Put everything back", "From a backup. It takes the place of whatever is here.",
             doings=(Doing("Choose a backup", "restore"),)),
    )  # fmt: skip


def _bring_in(settings: Settings, around: Around) -> tuple[Line, ...]:
    return (
        Line("Bring in a bundle", "Clients that were exported from another tablet, or a fitting"
             " file. Whoever is here already is asked about before anything changes.",
             doings=(Doing("Choose a file", "bring in", leads=True),)),
    )  # fmt: skip


def _check(settings: Settings, around: Around) -> tuple[Line, ...]:
    line = Line("Check everything", "Every client, every older file of hers and every photo is"
                " read. Nothing is changed by looking.",
                doings=(Doing("Check now", "check", leads=True),))  # fmt: skip
    checked = around.checked
    if checked is None:
        return (line,)
    found = Line(
        f"{_count(checked.clients, 'client')} and {_count(checked.photos, 'photo')} were read",
        "Everything is as it should be." if not checked.troubles else "",
        caution="\n".join(sentence(each) for each in checked.troubles),
    )
    return line, found


def _cautions(settings: Settings, around: Around) -> tuple[Line, ...]:
    return (
        Line("Close to the body", "Negative ease and boned bodices: watch her breathing and her"
             " circulation, and let her wear it no longer than she is comfortable."),
        Line("Hems and trains", "A hem under 1 inch (25 mm) from the floor, or a train, is a trip"
             " hazard: try it on stairs, in the shoes."),
        Line("Children’s clothes", "No cords or drawstrings at hood and neck; nightwear must not"
             " catch fire easily. Local rules decide."),
        Line("Pins", "Count them back before she moves."),
        Line("Photos and measurements", "They are personal. Ask, keep only what the work needs, and"
             " delete when she asks. Local privacy law decides."),
    )  # fmt: skip


def _about(settings: Settings, around: Around) -> tuple[Line, ...]:
    return (
        Line("Pins to Seams", "From the pins of a fitting to the seams that move, and by how much."
             " Nothing leaves this device unless you send it."),
        Line("Where your clients are", f"{_count(around.clients, 'client')}, in {around.folder}"),
        Line("Its letters", "Inter, by the Inter Project Authors: SIL Open Font License 1.1, in"
             " resources/fonts. Made with figures of one width, it is called Pins Text and Pins"
             " Large here."),
        Line("What it is made with", "Python (PSF), Kivy (MIT), TinyDB (MIT), Pillow (MIT-CMU),"
             " Plyer (MIT), platformdirs (MIT), filelock (Unlicense), and for the passcode"
             " cryptography (Apache 2.0 or BSD)."),
    )  # fmt: skip


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


_LINES: dict[str, Callable[[Settings, Around], tuple[Line, ...]]] = {
    "measuring": _measuring, "look": _look, "garments": _garments, "passcode": _passcode,
    "backup": _backup, "bring in": _bring_in, "check": _check, "cautions": _cautions,
    "about": _about,
}  # fmt: skip
