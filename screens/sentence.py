"""What an error or the core says, as it is read on a screen."""


def sentence(said: object) -> str:
    """Return it as a sentence; nothing stays nothing.

    >>> sentence("This could not be saved")
    'This could not be saved.'
    """
    words = str(said).rstrip(".")
    return f"{words}." if words else ""
