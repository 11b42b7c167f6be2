"""What is asked in the settings, and what is said of what was done."""

from core.seal import PASSCODE_WARNING
from core.store.bundles import BroughtIn, Sent
from screens.asked import LEAVE, Answer, Asked
from screens.sentence import sentence
from screens.settings_shown import Around


def asked_of(about: str, around: Around, file: str, names: tuple[str, ...]) -> Asked | None:
    """Return the question that is open, or none."""
    if about == "restore":
        return _restore(around, file)
    if about == "open":
        return _open(file)
    if about == "already here":
        return _already_here(names)
    return _PASSCODE.get(about)


_PASSCODE = {
    "set passcode": Asked(
        title="Set a passcode",
        words="Six signs at least; a few words are easier to keep in mind and harder to guess. The"
        " older files beside each client’s go with it, as they were not sealed. Backups made"
        " before stay readable: make a new one after, and delete those.",
        caution=sentence(PASSCODE_WARNING),
        secrets=("The passcode", "The same again"),
        answers=(Answer("Seal everything", "set passcode", leads=True),
                 Answer("Change nothing", LEAVE)),
    ),
    "change passcode": Asked(
        title="Change the passcode",
        words="A backup keeps the passcode it was made with.",
        caution=sentence(PASSCODE_WARNING),
        secrets=("The passcode now", "The new one", "The new one again"),
        answers=(Answer("Change it", "change passcode", leads=True),
                 Answer("Change nothing", LEAVE)),
    ),
    "remove passcode": Asked(
        title="Take the seal off",
        words="Whoever has this device, or a copy of the folder, can read your clients after it.",
        secrets=("The passcode now",),
        answers=(Answer("Change nothing", LEAVE, leads=True),
                 Answer("Take the seal off", "remove passcode")),
    ),
}  # fmt: skip


def _restore(around: Around, file: str) -> Asked:
    here = f"{around.clients} client{'' if around.clients == 1 else 's'}"
    return Asked(
        title=f"Put everything back from {file}?",
        words="All or nothing: it is read and checked whole before anything changes.",
        caution=f"What is here now ({here}) goes, and this is not taken back. Back up first."
        if around.clients else "",
        secrets=("Its passcode, if it is sealed",),
        answers=(Answer("Change nothing", LEAVE, leads=True),
                 Answer("Put everything back", "restore")),
    )  # fmt: skip


def _open(file: str) -> Asked:
    return Asked(
        title=f"{file} is sealed",
        words="Type the passcode that whoever sent it has told you.",
        secrets=("Its passcode",),
        answers=(Answer("Open it", "open", leads=True), Answer("Change nothing", LEAVE)),
    )


def _already_here(names: tuple[str, ...]) -> Asked:
    return Asked(
        title="Here already, and not the same",
        words=f"{', '.join(names)}. Replaced, what is here is kept as the older file beside the new"
        " one; with both, the one brought in has “(brought in)” after her name.",
        answers=(Answer("Change nothing", LEAVE, leads=True), Answer("Keep both", "keep both"),
                 Answer("Replace what is here", "replace")),
    )  # fmt: skip


def sent_words(sent: Sent) -> str:
    """Say what was backed up, where, and what could not be."""
    clients = len(sent.names)
    said = f"{clients} client{'' if clients == 1 else 's'} in {sent.path.name}, {sent.path.parent}."
    return " ".join([said, *(sentence(each) for each in sent.left_out)])


def restored_words(brought: BroughtIn) -> str:
    """Say how many are back, and what is to be known besides."""
    count = len(brought.new)
    said = f"Everything is back: {count} client{'' if count == 1 else 's'}."
    return " ".join([said, *(sentence(note) for note in brought.notes)])


def brought_in_words(brought: BroughtIn) -> str:
    """Say who came in, and how."""
    groups = {"New": brought.new, "Replaced": brought.replaced, "Both kept": brought.both_kept,
              "The same already": brought.the_same}  # fmt: skip
    said = [f"{words}: {', '.join(names)}." for words, names in groups.items() if names]
    return " ".join([*said, *(sentence(note) for note in brought.notes)])
