"""What is asked on a client's page, in words."""

from core.client.card import Card
from screens.asked import LEAVE, Answer, Asked

VIEWS = ("front", "her left", "back", "her right")


def asked_of(about: str, card: Card) -> Asked:
    """Return the question that is open."""
    return {
        "consent": _consent,
        "consent to this photo": _consent,
        "agreed": _agreed,
        "view": _view,
        "delete": _delete,
        "really": _really,
        "how to send": _how_to_send,
    }[about](card)


def _consent(card: Card) -> Asked:
    return Asked(
        title=f"Has {card.name} agreed to photos?",
        words="Photos are personal. Ask her first; the day she agrees is written down. Keep only"
        " what the work needs, and remove it when she asks. Local privacy law decides.",
        answers=(Answer("She agreed today", "today", leads=True),
                 Answer("She agreed on another day", "another day"), Answer("Not now", LEAVE)),
    )  # fmt: skip


def _agreed(card: Card) -> Asked:
    return Asked(
        title=f"Agreed to photos on {card.consent}",
        words="Withdrawn, no new photos come in. Those that are here stay until you remove them.",
        answers=(Answer("Leave it", LEAVE, leads=True), Answer("She withdraws it", "withdraw")),
    )


def _view(card: Card) -> Asked:
    answers = tuple(Answer(view[:1].upper() + view[1:], view) for view in VIEWS)
    return Asked(
        title="Which side does it show?",
        words="It is kept at her last fitting. Left and right are always her own.",
        answers=(*answers, Answer("Do not keep it", LEAVE)),
    )


def _delete(card: Card) -> Asked:
    return Asked(
        title=f"Delete everything about {card.name}?",
        words=f"{_all_of(card)} This is not taken back.",
        caution="Backups and bundles that were sent stay as they are: delete those yourself.",
        answers=(Answer("Keep her", LEAVE, leads=True), Answer("Delete everything", "really")),
    )


def _really(card: Card) -> Asked:
    return Asked(
        title=f"{card.name}: delete her for good?",
        words="This is the last question.",
        answers=(Answer("Delete for good", "delete"), Answer("Keep her", LEAVE, leads=True)),
    )


def _how_to_send(card: Card) -> Asked:
    return Asked(
        title=f"How is {card.name} to be sent?",
        words="Your clients are sealed. A bundle may be sealed too, with a passcode of its own"
        " that you tell whoever opens it; or it may be read by anyone who has it.",
        answers=(Answer("Seal it with this passcode", "seal", leads=True),
                 Answer("Anyone may read it", "readable"), Answer("Do not send it", LEAVE)),
        secrets=("A passcode for the bundle", "The same again"),
    )  # fmt: skip


def _all_of(card: Card) -> str:
    """Say what goes with her."""
    parts = ["Her measurements" if card.measurements else "", "her wishes and notes",
             _count(len(card.garments), "garment"), _count(len(card.fittings), "fitting"),
             _count(card.photos, "photo")]  # fmt: skip
    said = [part for part in parts if part]
    words = f"{', '.join(said[:-1])} and {said[-1]}" if len(said) > 1 else said[0]
    return f"{words[:1].upper()}{words[1:]} go from this device for good."


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}" if number else ""
