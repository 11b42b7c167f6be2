"""Every failure a person can cause or meet, in words they can act on."""


class WorkroomError(Exception):
    """Something the person at the tablet can put right; ``str()`` is what they read."""


class BadLength(WorkroomError):
    """What was typed is not a length."""


class BadFile(WorkroomError):
    """A fitting file cannot be used; names the field by its path.

    ``where`` is the path (``garments[0].layers[1].rings[0]``), ``wrong`` what is
    wrong with it; ``str()`` is both in one line.
    """

    def __init__(self, where: str, wrong: str) -> None:
        super().__init__(" ".join(f"{where}: {wrong}".split()))
        self.where = where
        self.wrong = wrong


class NotFound(WorkroomError):
    """A garment, fitting or kind was asked for that is not there."""


class CannotDraft(WorkroomError):
    """A draft cannot be worked out; says which measurement or rule is missing."""


class Damaged(WorkroomError):
    """Neither a stored file nor its copy can be read; nothing was changed."""
