"""What is said when a bundle cannot be read or written, always with what is safe."""

from collections.abc import Iterator
from contextlib import contextmanager

from core.errors import BadFile, WorkroomError

_SAFE = ". Nothing was changed"


class BadBundle(BadFile):
    """A bundle cannot be used; ``where`` is its name, and the member's where one is meant."""

    def __init__(self, where: str, wrong: str) -> None:
        wrong = wrong.rstrip(". ").removesuffix(_SAFE)
        super().__init__(where, wrong + _SAFE)


class NeedsPasscode(WorkroomError):
    """A sealed bundle was opened without a passcode."""


class NotPacked(WorkroomError):
    """A bundle could not be written; whatever had its name before is as it was."""


class Cancelled(WorkroomError):
    """The person stopped it; for the function that is told of the progress to raise."""

    def __init__(self, said: str = "Stopped. Nothing was changed") -> None:
        super().__init__(said)


def shown(name: str) -> str:
    """Return a member's name fit for one short line, whatever signs it holds."""
    plain = "".join(sign if sign.isprintable() else "·" for sign in name)
    return plain if len(plain) <= 80 else f"{plain[:79]}…"


@contextmanager
def inside(bundle: str, member: str) -> Iterator[None]:
    """Say of a file inside a bundle where it stands, in front of what is wrong with it."""
    try:
        yield
    except BadBundle:
        raise
    except BadFile as wrong:
        place = "" if wrong.where == member else f": {wrong.where}"
        raise BadBundle(f"{bundle}: {member}{place}", wrong.wrong) from None
