"""Keeping Python's tidying of memory out of the way of a touch."""

import gc

_RECORDS_A_PLAN = 50_000
"""More small records than one plan makes, so that it is rarely interrupted."""

_WHILE_OPENING = 1_000_000
"""More than the app makes before its first screen is seen."""


def put_off() -> None:
    """Do not tidy while the app is opened: nearly all it makes lives as long as the program."""
    gc.set_threshold(_WHILE_OPENING, 20, 20)


def leave_out() -> None:
    """Leave what has been loaded so far out of any tidying: opening a window asks for one."""
    gc.freeze()


def settle() -> None:
    """Leave what lives as long as the program out of every later tidying; call it once, when open.

    A plan makes and drops thousands of small records, nearly all freed at once by
    counting references; looking for the few in circles, through all of the program each
    time, cost up to half as much as the planning.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(_RECORDS_A_PLAN, 20, 20)
