"""How long a plan takes, beside scipy solving only the sharing of the same levels.

    python -m tests.benchmark

Prints medians of repeated runs in this one process: the fishtail gown with twelve pins and
two layers, and an invented corset of twelve panels a half and ten levels.  The aim is under
16 ms each on a two-core machine, so that a screen can recompute at every touch.
"""

import json
import statistics
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy
from scipy.optimize import lsq_linear

from core.changes.plan import make_plan, plan_layers
from core.file.fitting_file import FittingFile, fitting_of, read_document
from core.memory import settle
from core.records.answer import Lead

AIM_MS = 16.0
RUNS = 60
DRAFTS = Path(__file__).parent / "data" / "drafts"


def fishtail_with_twelve_pins() -> FittingFile:
    """Return the worked fishtail gown, basted, with twelve pins and a changed waist."""
    document = json.loads((DRAFTS / "3_fishtail_gown.json").read_text(encoding="utf-8"))
    pins = [{"seam": "side", "side": side, "level": level, "pinch": amount}
            for level, amount in (("bust", "1/8"), ("under_bust", "1/4"), ("waist", "3/8"),
                                  ("hip", "1/4"), ("thighs", "1/8"))
            for side in ("left", "right")]  # fmt: skip
    pins += [{"seam": "centre_back", "level": "waist", "pinch": "1/4"},
             {"dart": "back_waist", "level": "waist", "pinch": "1/8"}]  # fmt: skip
    document["garments"][0]["fittings"] = [
        {"id": "first", "on": "2026-05-02", "stage": "basted", "pins": pins}
    ]
    return read_document(document)


def corset(panels: int = 12, levels: int = 10) -> FittingFile:
    """Return an invented corset to be shared out by the tape at every level."""
    heights = [f"level_{number}" for number in range(levels)]
    pieces = [
        {"id": f"panel_{number}", "fold": number == 0,
         "width": {level: 2.5 + 0.05 * ((number + place) % 5)
                   for place, level in enumerate(heights)}}
        for number in range(panels)
    ]  # fmt: skip
    seams = [
        {"id": f"seam_{number}", "joins": [f"panel_{number}", f"panel_{number + 1}"],
         "allowance": "1/2", "turn": 1 + number % 3, "comfort": "1/8", "minutes": 10}
        for number in range(panels - 1)
    ]
    last = f"panel_{panels - 1}"
    seams.append({"id": "centre_back", "joins": [last, last], "allowance": "1", "turn": 4})
    return read_document({
        "format": "pins-to-seams/1", "unit": "in",
        "client": {"id": "benchmark", "name": "Invented corset"},
        "measurements": [{"on": "2026-01-01", "values": {
            f"girth_{number}": 32 + number * 0.7 for number in range(levels)}}],
        "garments": [{
            "id": "corset", "name": "Corset", "ease": dict.fromkeys(heights, "-2"),
            "levels": [{"id": level, "down": 2 * number, "body": f"girth_{number}"}
                       for number, level in enumerate(heights)],
            "layers": [{"id": "outer", "rings": [
                {"id": "body", "kind": "half", "pieces": pieces, "seams": seams}]}],
        }],
    })  # fmt: skip


def median_ms(work: Callable[[], Any]) -> float:
    """Return the median time of a call in ms, of this process alone."""
    work()
    times = []
    for _ in range(RUNS):
        start = time.process_time()
        work()
        times.append((time.process_time() - start) * 1000)
    return statistics.median(times)


def scipy_sharing(file: FittingFile) -> Callable[[], None]:
    """Return the bare sharing of each judged level as bounded least squares for scipy.

    One heavy row holds the total; the others keep the moves small.  No turns, no rounding, no
    lines, no words: the least that a solver would have to do.
    """
    garment = file.garment()
    problems = []
    for plan in plan_layers(file, garment, fitting_of(garment), "tape"):
        for number, around in enumerate(plan.work.rounds):
            for level, wanted in plan.work.wanted[number].items():
                edges = [edge for edge in around.edges if level in edge.levels]
                if wanted.needed is None or not edges:
                    continue
                limits = numpy.array([max(edge.allowance[level], 1.0) for edge in edges])
                matrix = numpy.vstack([numpy.eye(len(edges)), 1e3 * numpy.ones(len(edges))])
                target = numpy.append(numpy.zeros(len(edges)), 1e3 * wanted.needed)
                problems.append((matrix, target, (-limits, limits)))

    def solve() -> None:
        for matrix, target, bounds in problems:
            lsq_linear(matrix, target, bounds=bounds)

    return solve


def report(name: str, file: FittingFile, lead: Lead) -> bool:
    """Print one garment's line; return whether the aim was met."""
    plan_ms = median_ms(lambda: make_plan(file, lead=lead))
    scipy_ms = median_ms(scipy_sharing(file))
    verdict = "within" if plan_ms < AIM_MS else "OVER"
    print(f"{name:<46} {plan_ms:7.2f} ms  {verdict} the aim of {AIM_MS:.0f} ms;"
          f" scipy's sharing alone {scipy_ms:7.2f} ms, ratio {plan_ms / scipy_ms:.2f}")  # fmt: skip
    return plan_ms < AIM_MS


def main() -> None:
    settle()  # as the app does when it has opened
    report("fishtail gown, 12 pins, 2 layers, pins lead", fishtail_with_twelve_pins(), "pins")
    report("the same, what is left over shared too", fishtail_with_twelve_pins(), "both")
    report("corset, 12 panels a half, 10 levels, by tape", corset(), "tape")


if __name__ == "__main__":
    main()
