"""A step's words on paper: without what its title and its table of amounts say already."""

from core.records.answer import Step
from core.said.step_places import Place, Row
from core.wording import Words, direction, sentence


def words_of(step: Step, place: Place | None, words: Words) -> tuple[str, str]:
    """Return what is left of a step's words, and why it is so."""
    text, _, why = step.text.partition(" Why: ")
    if place is not None and place.what in ("seam", "dart"):
        text = text.partition(". ")[2]  # the place and whose side, which the title says
    if place is not None and place.what == "seam":
        for told in amount_sentences(place, words):
            text = text.replace(told, "", 1)
    return " ".join(text.split()), f"Why: {why}" if why else ""


def amount_sentences(place: Place, words: Words) -> list[str]:
    """Return the sentences of a seam's step that tell its amounts: ``Waist 5/8.``"""
    ways = {direction(move) for row in place.rows for move in row.moves if move is not None}
    return [_sentence(row, place, len(ways) > 1, words) for row in place.rows]


def _sentence(row: Row, place: Place, mixed: bool, words: Words) -> str:
    def amount(move: float) -> str:
        return f"{direction(move)} {words.length(move)}" if mixed else words.length(move)

    moves = [(edge.lower(), move) for edge, move in zip(place.edges, row.moves, strict=True)
             if move is not None]  # fmt: skip
    if place.alike:
        return sentence(f"{row.label} {amount(moves[0][1])}")
    return sentence(f"{row.label}, {', '.join(f'{edge} {amount(move)}' for edge, move in moves)}")
