"""What is seen and what it usually means: a suggestion with its source, when it is asked for.

The table is that of the published sources named in each row; the codes are those of the fitters'
manuals: USDA46 (Fitting Dresses, US Department of Agriculture, 1946), WSU62 (Garment Fitting,
Washington State University Extension, 1962), a handbook of about 1911, an extension course.
"""

from dataclasses import dataclass

DIRECTIONS = {
    "across": "Across", "slanting": "Slanting", "upright": "Upright folds", "sagging": "Sagging",
    "standing": "Stands off",
}  # fmt: skip
"""Which way the cloth draws or falls."""


@dataclass(frozen=True, slots=True)
class Meaning:
    """One thing that is seen: where on her, which way, what it usually means, what to do."""

    seen: str
    usually: str
    do: str
    source: str
    levels: tuple[str, ...]
    faces: tuple[str, ...]
    directions: tuple[str, ...]


_BOTH = ("front", "back")
_UPPER = ("shoulder", "armhole", "bust")

MEANINGS = (
    Meaning("tight crosswise over the bust, the front gapes", "too little girth at the bust",
            "let out the sides, front edge first", "an extension course",
            ("bust",), ("front",), ("across",)),
    Meaning("sags below the bust", "the front is too long above",
            "take up the front shoulder at the neck end, to nothing at the armhole, 1/4 to 3/4 in",
            "USDA, Fitting Dresses, 1946", ("bust", "under_bust"), ("front",), ("sagging",)),
    Meaning("sags below the shoulder blades", "the back is too long",
            "take up the back shoulder at the neck end; or trim the skirt top at centre back",
            "USDA, Fitting Dresses, 1946", ("bust", "under_bust", "shoulder"), ("back",),
            ("sagging",)),
    Meaning("folds below the armhole", "armhole or bodice too large, or a sloping shoulder",
            "a deeper underarm seam, take up the shoulder end, or pad, 1/4 to 1/2 in",
            "USDA, Fitting Dresses, 1946", ("armhole", "bust"), _BOTH, ("slanting", "sagging")),
    Meaning("diagonals from shoulder tip to centre, a strained armhole", "a square shoulder",
            "lift the seam at the neck or release the arm end",
            "Washington State University Extension, 1962", ("shoulder", "armhole"), _BOTH,
            ("slanting",)),
    Meaning("shoulder seam past the arm bone", "the shoulder is too long", "re-cut the armhole",
            "Washington State University Extension, 1962; USDA, 1946", ("shoulder",), _BOTH,
            ("standing",)),
    Meaning("loose upright folds at the back", "too wide", "centre back or back princess in",
            "an extension course", (*_UPPER, "under_bust", "waist"), ("back",), ("upright",)),
    Meaning("folds across the back waist that stop before the side", "a sway back",
            "a wedge at centre back, 1/4 to 1 in", "a published fitting guide", ("waist",),
            ("back",), ("across",)),
    Meaning("folds across the back waist running right round", "waist too long or hip tight",
            "shorten the bodice, or let out the hip", "a published fitting guide", ("waist",),
            _BOTH, ("across",)),
    Meaning("the skirt draws across the hip and rides up", "the hip is too small",
            "let out the sides", "USDA, Fitting Dresses, 1946", ("top_hip", "hip"), _BOTH,
            ("across",)),
    Meaning("the skirt slides, loose at waist and hip", "too big",
            "pin the sides again from hip to waist, then hip to hem",
            "USDA, Fitting Dresses, 1946", ("waist", "top_hip", "hip"), _BOTH,
            ("sagging", "upright")),
    Meaning("the skirt stands out in front, the side seam swings forward", "a full abdomen",
            "raise the front waist; keep its size above the hip", "a handbook of about 1911",
            ("waist", "top_hip", "hip", "knee", "hem"), ("front",), ("standing", "slanting")),
    Meaning("the hem is uneven", "waist or hip not right, or the belt is missing",
            "fit waist and hip again, then mark again", "USDA, Fitting Dresses, 1946",
            ("knee", "hem", "flare"), _BOTH, ("sagging", "slanting", "standing")),
    Meaning("a crease at elbow or upper arm", "the sleeve is too tight",
            "let out the sleeve seam; test it with the arm bent", "a published fitting guide",
            ("upper_arm", "elbow"), _BOTH, ("across", "slanting")),
)  # fmt: skip


def usual_meanings(level: str, face: str, direction: str) -> tuple[Meaning, ...]:
    """Return what a drag line at a level, in ``front`` or ``back``, usually means; maybe nothing.

    An empty face is either.  It is a suggestion and never a change.
    """
    return tuple(
        meaning
        for meaning in MEANINGS
        if level in meaning.levels
        and (not face or face in meaning.faces)
        and direction in meaning.directions
    )
