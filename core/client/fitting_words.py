"""What a fitting and its pins are called where they are listed."""

_WHICH = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth",
          "tenth")  # fmt: skip


def which(number: int) -> str:
    """Return which fitting it is, from 1: ``first``, ``second``, past the tenth ``11th``.

    >>> which(2), which(23)
    ('second', '23rd')
    """
    if number <= len(_WHICH):
        return _WHICH[number - 1]
    teen = 10 < number % 100 < 14
    return f"{number}{'th' if teen else {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th')}"


def counted_pins(pins: int) -> str:
    """Return ``4 pins``, ``1 pin``, or nothing for none."""
    return f"{pins} {'pin' if pins == 1 else 'pins'}" if pins else ""
