"""A power cut at every step in turn, as the program sees it: an os call that never returns."""

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from unittest import mock

CALLS = ("fsync", "replace", "unlink", "rmdir")


class Cut(BaseException):
    """The battery died here."""


def after_each_step(folder: Path, act: Callable[[Path], None]) -> Iterator[Path]:
    """Yield a copy of ``folder`` for every os call of ``act``, as it is when that one is cut.

    The last one yielded is where nothing was cut.
    """
    step = 0
    while True:
        step += 1
        copy = folder.with_name(f"{folder.name} cut {step}")
        shutil.copytree(folder, copy)
        was_cut = False
        try:
            with _cut_at(step):
                act(copy)
        except Cut:
            was_cut = True
        yield copy  # only here: what the cut left open is closed once it is not held any more
        shutil.rmtree(copy)
        if not was_cut:
            return


def _cut_at(step: int) -> Any:
    made = []

    def cut_or(real: Callable[..., Any]) -> Callable[..., Any]:
        def call(*given: Any, **named: Any) -> Any:
            made.append(real)
            if len(made) >= step:
                raise Cut
            return real(*given, **named)

        return call

    return mock.patch.multiple(os, **{name: cut_or(getattr(os, name)) for name in CALLS})
