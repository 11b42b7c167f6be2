"""What she did in the garment and where it pulled, in ready-to-show words."""

from dataclasses import dataclass

from core.fit.moving import MOVEMENTS, done
from screens.fitting_marks import place_label
from screens.fitting_page import Bench, WordRow
from screens.rows import WHOSE


@dataclass(frozen=True, slots=True)
class MovePage:
    """Five ticks, with where it pulled."""

    words: str
    moves: tuple[WordRow, ...]
    pulled: tuple[str, ...]


def move_page(bench: Bench) -> MovePage:
    ticked, here = done(bench.written), bench.chosen.movement
    return MovePage(
        words="Touch her where it pulls." if here in ticked else "Touch each as she does it.",
        moves=tuple(
            WordRow(key, label, _moved_words(ticked, key), chosen=key == here)
            for key, label in MOVEMENTS.items()
        ),
        pulled=tuple(
            f"{MOVEMENTS[what]}: {_pull_words(bench, pull)}"
            for what, pulls in ticked.items()
            for pull in pulls
        ),
    )


def _moved_words(ticked: object, key: str) -> str:
    if not isinstance(ticked, dict) or key not in ticked:
        return ""
    return "it pulls" if ticked[key] else "easy"


def _pull_words(bench: Bench, pull: object) -> str:
    if not isinstance(pull, dict):
        return ""
    on = next((name for name in ("seam", "dart", "piece") if pull.get(name)), "")
    level = bench.garment.levels.get(str(pull.get("level")))
    down = f"{pull['down']} down" if pull.get("down") else ""
    words = [place_label(bench, on, str(pull.get(on))), WHOSE.get(str(pull.get("side")), ""),
             level.label.lower() if level else down]  # fmt: skip
    return ", ".join(filter(None, words))
