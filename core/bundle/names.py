"""What a member of a bundle may be called, and which members a bundle has."""

import re
import unicodedata
from collections.abc import Iterable

from core.bundle.refusals import BadBundle, shown

CLIENT, LISTED, SEALED = "client.json", "bundle.json", "sealed.json"
PHOTOS = "photos/"
LONGEST_NAME = 200

_FOLDER = r"[A-Za-z0-9_-]{1,64}"
_PHOTO = r"photos/[^/]+"
_KNOWN = {
    CLIENT: re.compile(rf"client\.json|photos/|{_PHOTO}"),
    LISTED: re.compile(
        rf"bundle\.json|clients/|clients/{_FOLDER}/(?:client\.json|photos/|{_PHOTO})?"
    ),
    SEALED: re.compile(r"sealed\.json|[0-9]{4,6}"),
}
"""The members of each kind of bundle, by the member that tells the kind."""

_HARMLESS = re.compile(
    r"__MACOSX/.*|(?:.*/)?(?:\.DS_Store|\._[^/]*|Thumbs\.db|desktop\.ini)|README[^/]*",
    re.IGNORECASE | re.DOTALL,
)
_NO_TEXT = {"Cc", "Cs", "Zl", "Zp"}
"""Unicode's signs that steer, halves of signs, breaks of line and paragraph."""


def is_folder_name(name: str) -> bool:
    return re.fullmatch(_FOLDER, name) is not None


def wrong_with(name: str) -> str | None:
    """Return what is wrong with a member's name, in words; ``None`` where it is safe."""
    if not name or len(name) > LONGEST_NAME:
        return "has no name, or one longer than any of ours"
    if any(unicodedata.category(sign) in _NO_TEXT for sign in name):
        return "has a name with signs that are no text"
    if "\\" in name or ":" in name:
        return "has a name with a backslash or a drive’s colon"
    parts = name.removesuffix("/").split("/")
    if any(part in ("", ".", "..") for part in parts):
        return "has a name that leads out of the bundle"
    return None


def folded(name: str) -> str:
    """Return a name as the least careful disk sees it: any case, any way of writing accents."""
    one = unicodedata.normalize("NFKC", name.removesuffix("/"))
    return unicodedata.normalize("NFKC", one.casefold())


def refuse_unsafe(bundle: str, names: Iterable[str]) -> None:
    """Refuse names that lead elsewhere, and two that one disk or another takes for one."""
    seen: set[str] = set()
    for name in names:
        if wrong := wrong_with(name):
            raise BadBundle(bundle, f"“{shown(name)}” {wrong}")
        if folded(name) in seen:
            raise BadBundle(bundle, f"“{shown(name)}” is in it twice")
        seen.add(folded(name))


def kind_of(names: Iterable[str]) -> str:
    """Return the member that tells what kind of bundle this is."""
    there = set(names)
    return next((kind for kind in (SEALED, LISTED) if kind in there), CLIENT)


def sorted_out(bundle: str, names: Iterable[str], kind: str) -> tuple[list[str], tuple[str, ...]]:
    """Return the members of a bundle without its folders, and what is left aside.

    Left aside is what other programs put in unasked.  Raises ``BadBundle`` where anything
    else is no part of a bundle of this kind.
    """
    members, aside = [], []
    for name in names:
        if _HARMLESS.fullmatch(name):
            aside.append(shown(name))
        elif not _KNOWN[kind].fullmatch(name):
            raise BadBundle(bundle, f"holds “{shown(name)}”, which is no part of a bundle")
        elif not name.endswith("/"):
            members.append(name)
    return members, tuple(aside)
