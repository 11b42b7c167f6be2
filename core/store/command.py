"""``import``, ``export``, ``backup``, ``restore``, ``check``, ``passcode``: without the screen."""

import argparse
import getpass
import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TextIO

from core.bundle.refusals import NeedsPasscode
from core.errors import NotFound, WorkroomError
from core.seal import PASSCODE_WARNING, WrongPasscode
from core.store.backups import back_up, restore
from core.store.bundles import BroughtIn, HowToSend, Sent, WhenHere, bring_in, send
from core.store.checks import check
from core.store.clients import Locked, Store
from core.store.disk import NotSaved
from core.store.index import folded
from core.store.passcode import change_passcode, remove_passcode, set_passcode
from core.store.pictures import export_pictures
from core.store.usual import usual_folder

TROUBLES, UNUSABLE = 1, 2


class NoPasscode(WorkroomError):
    """A passcode is needed, and there is nobody to ask."""


def main(words: Sequence[str]) -> int:
    """Do what the words say; return 0, 1 where ``check`` found troubles, 2 with one line."""
    asked = _parser().parse_args(words)
    try:
        with _opened(asked) as store:
            return VERBS[asked.verb](store, asked)
    except WorkroomError as wrong:
        _say(" ".join(str(wrong).split()), file=sys.stderr)
        return UNUSABLE


def _export(store: Store, asked: argparse.Namespace) -> int:
    if asked.pictures:
        if store.seal is not None and not asked.readable:
            raise HowToSend(
                "These clients are sealed, and pictures can be seen by anyone who has them. Nothing"
                " was written: say --readable if that is meant"
            )
        for client_id in _client_ids(store, asked.client) or [row.id for row in store.clients()]:
            for path in export_pictures(store, client_id, Path(asked.pictures)):
                print(path)
        return 0
    _refuse_there(store, Path(asked.file))
    passcode = _new_passcode(asked, "for the bundle") if asked.sealed else None
    wanted = _client_ids(store, asked.client)
    sent = send(
        store, Path(asked.file), wanted, passcode=passcode, readable=asked.readable,
        progress=_progress("written"),
    )  # fmt: skip
    return _say_sent(sent)


def _import(store: Store, asked: argparse.Namespace) -> int:
    when_here: WhenHere = asked.when_here or "ask"

    def bring(passcode: str | None) -> BroughtIn:
        return bring_in(
            store, Path(asked.file), passcode, when_here=when_here, progress=_progress("looked at")
        )

    _say_brought(_with_passcode(asked, bring))
    return 0


def _backup(store: Store, asked: argparse.Namespace) -> int:
    sent = back_up(
        store, Path(asked.to), readable=asked.readable, progress=_progress("written")
    )  # fmt: skip
    return _say_sent(sent)


def _restore(store: Store, asked: argparse.Namespace) -> int:
    def put_back(passcode: str | None) -> BroughtIn:
        return restore(
            store, Path(asked.file), passcode, replace=asked.replace,
            progress=_progress("looked at"),
        )  # fmt: skip

    restored = _with_passcode(asked, put_back)
    _say(f"Restored {_counted(len(restored.new), 'client')}: {', '.join(restored.new)}")
    for note in restored.notes:
        _say(note)
    return 0


def _check(store: Store, asked: argparse.Namespace) -> int:
    found = check(store, _progress("read"))
    for trouble in found.troubles:
        _say(trouble)
    read = f"{_counted(found.clients, 'client')} and {_counted(found.photos, 'photo')} read"
    print(f"{read}: {_counted(len(found.troubles), 'trouble')}")
    return TROUBLES if found.troubles else 0


def _passcode(store: Store, asked: argparse.Namespace) -> int:
    if asked.what == "set":
        print(f"{PASSCODE_WARNING}.", file=sys.stderr)
        set_passcode(store, _new_passcode(asked, "for the clients"), _progress("sealed"))
    elif asked.what == "change":
        print(f"{PASSCODE_WARNING}.", file=sys.stderr)
        new = _new_passcode(asked, "for the clients")
        change_passcode(store, asked.open_with or "", new, _progress("sealed anew"))
    else:
        remove_passcode(store, asked.open_with or "", _progress("opened"))
    print({"set": "Sealed", "change": "Passcode changed", "remove": "Open again"}[asked.what])
    return 0


VERBS: dict[str, Callable[[Store, argparse.Namespace], int]] = {
    "import": _import,
    "export": _export,
    "backup": _backup,
    "restore": _restore,
    "check": _check,
    "passcode": _passcode,
}


def _opened(asked: argparse.Namespace) -> Store:
    """Open the store; ask for the passcode only where it is sealed."""
    folder = Path(asked.folder) if asked.folder else usual_folder()
    if asked.verb not in ("import", "restore") and not folder.is_dir():
        raise NotFound(f"There are no clients in {folder}: it is not there. Nothing was changed")
    asked.open_with = None
    try:
        return Store(folder)
    except Locked:
        asked.open_with = _said(asked.passcode_file, "Passcode: ")
    return Store(folder, asked.open_with)


def _with_passcode(
    asked: argparse.Namespace, bring: Callable[[str | None], BroughtIn]
) -> BroughtIn:  # fmt: skip
    """Open a bundle with its own passcode, or with the clients'; else ask for it."""
    if asked.bundle_passcode_file:
        return bring(_said(asked.bundle_passcode_file, ""))
    try:
        return bring(asked.open_with)
    except NeedsPasscode:
        if not sys.stdin.isatty():
            raise NoPasscode(
                f"{asked.file} is sealed. Nothing was changed: name a file that has its passcode,"
                " with --bundle-passcode-file"
            ) from None
    except WrongPasscode:
        if not sys.stdin.isatty():
            raise
    return bring(getpass.getpass("Passcode of the bundle: "))


def _refuse_there(store: Store, path: Path) -> None:
    """Refuse to write over anything, or among the clients."""
    if path.exists():
        raise NotSaved(f"{path} is there already. Nothing was written: choose another name")
    if store.root.resolve() in path.resolve().parents:
        raise NotSaved("A bundle does not belong among the clients. Nothing was written")


def _new_passcode(asked: argparse.Namespace, which: str) -> str:
    given = asked.new_passcode_file
    passcode = _said(given, f"New passcode {which}: ")
    if not given and passcode != _said(None, "The same again: "):
        raise NoPasscode("The two were not the same. Nothing was changed")
    return passcode


def _said(file: str | None, prompt: str) -> str:
    """Return a passcode from the first line of a file, or as she types it."""
    if file is not None:
        try:
            return Path(file).read_text(encoding="utf-8-sig").partition("\n")[0]
        except (OSError, ValueError) as wrong:
            raise NoPasscode(f"{file} cannot be read. Nothing was changed") from wrong
    if not sys.stdin.isatty():
        raise NoPasscode("A passcode is needed: type it at a terminal, or name a file that has it")
    return getpass.getpass(prompt)


def _client_ids(store: Store, wanted: Iterable[str]) -> list[str] | None:
    """Return the ids of clients named by id or name; ``None`` where none are named: all."""
    found = []
    for text in wanted:
        rows = [row for row in store.clients() if text == row.id or folded(text) == row.searched]
        if len(rows) != 1:
            what = "There is no client" if not rows else "There are several clients"
            raise NotFound(f"{what} called “{text}”. Nothing was written: name the id")
        found.append(rows[0].id)
    return found or None


def _say_sent(sent: Sent) -> int:
    _say(f"{sent.path}: {_counted(len(sent.names), 'client')}")
    for words in sent.left_out:
        _say(f"Not in it: {words}", file=sys.stderr)
    return TROUBLES if sent.left_out else 0


def _say_brought(brought: BroughtIn) -> None:
    groups = (
        ("New", brought.new),
        ("Replaced", brought.replaced),
        ("Both kept", brought.both_kept),
        ("Here already, and the same", brought.the_same),
    )
    for what, names in groups:
        if names:
            _say(f"{what}: {', '.join(names)}")
    for note in brought.notes:
        _say(note)
    if not any(names for _, names in groups):
        print("There was no client in it")


def _say(words: str, file: TextIO | None = None) -> None:
    """Print a line: signs that a terminal would obey, or has no letter for, become “?”."""
    where = file or sys.stdout
    plain = "".join(sign if sign.isprintable() else "?" for sign in words)
    encoding = where.encoding or "utf-8"
    print(plain.encode(encoding, "replace").decode(encoding), file=where)


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _progress(what: str) -> Callable[[int, int], None]:
    """Return what tells how far it is, on a terminal only."""
    if not sys.stderr.isatty():
        return lambda done, of: None

    def tell(done: int, of: int) -> None:
        end = "\n" if done >= of else ""
        print(f"\r{done} of {of} {what}", end=end, file=sys.stderr, flush=True)

    return tell


def _parser() -> argparse.ArgumentParser:
    common = argparse.ArgumentParser(add_help=False)
    common.add_argument("--folder", metavar="FOLDER", help="the folder of the clients")
    common.add_argument(
        "--passcode-file", metavar="FILE", help="its first line opens sealed clients"
    )
    parser = argparse.ArgumentParser(
        prog="main.py", description="Carry clients away, bring them in, back up, look them over."
    )
    verbs = parser.add_subparsers(dest="verb", required=True)

    verb = verbs.add_parser("export", parents=[common], help="write a bundle (.zip)")
    where = verb.add_mutually_exclusive_group(required=True)
    where.add_argument("file", nargs="?", metavar="FILE", help="the bundle to write")
    where.add_argument("--pictures", metavar="FOLDER", help="write the photos, marks drawn in")
    verb.add_argument(
        "--client", action="append", default=[], metavar="ID", help="one client (default: all)"
    )
    how = verb.add_mutually_exclusive_group()
    how.add_argument("--sealed", action="store_true", help="under a passcode of its own")
    how.add_argument("--readable", action="store_true", help="readable by anyone")
    verb.add_argument("--new-passcode-file", metavar="FILE", help="its first line seals the bundle")

    verb = verbs.add_parser("import", parents=[common], help="bring in a bundle or fitting file")
    verb.add_argument("file", metavar="FILE")
    here = verb.add_mutually_exclusive_group()
    here.add_argument(
        "--replace", dest="when_here", action="store_const", const="replace",
        help="replace a client who is here already",
    )  # fmt: skip
    here.add_argument(
        "--keep-both", dest="when_here", action="store_const", const="keep both",
        help="keep a client who is here already, and the one brought in",
    )  # fmt: skip
    verb.add_argument("--bundle-passcode-file", metavar="FILE", help="opens a sealed bundle")

    verb = verbs.add_parser("backup", parents=[common], help="write everything to a folder")
    verb.add_argument("to", metavar="TO")
    verb.add_argument("--readable", action="store_true", help="not sealed, even if the clients are")

    verb = verbs.add_parser("restore", parents=[common], help="put everything back from a backup")
    verb.add_argument("file", metavar="FILE")
    verb.add_argument("--replace", action="store_true", help="what is here may go")
    verb.add_argument("--bundle-passcode-file", metavar="FILE", help="opens a sealed backup")

    verbs.add_parser("check", parents=[common], help="read everything, and say what is wrong")

    verb = verbs.add_parser("passcode", parents=[common], help="seal the clients, or open them")
    verb.add_argument("what", choices=("set", "change", "remove"))
    verb.add_argument("--new-passcode-file", metavar="FILE", help="its first line is the new one")
    return parser
