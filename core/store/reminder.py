"""When everything should be backed up again."""

from core.store.clients import Store

REMIND_AFTER = 10
"""How many fittings may be taken down before a backup is asked for, unless she says otherwise."""


def reminder(store: Store, after: int = REMIND_AFTER) -> str:
    """Return a sentence where a backup is due: so many fittings since the last; or nothing."""
    new = fittings_in(store) - store.stands.fittings_then
    if new < after:
        return ""
    since = store.stands.backed_up[:10]
    last = f"since the last backup ({since})" if since else "and there is no backup yet"
    return f"{new} fittings {last}: back up everything to a card, stick or drive"


def fittings_in(store: Store) -> int:
    return sum(row.fittings for row in store.clients())
