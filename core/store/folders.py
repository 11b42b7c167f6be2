"""What a client's folder is called."""

import re
from uuid import UUID, uuid5

from core.seal import Seal

_IDS = UUID("2b0d6a6e-4a0f-4c0e-9d7a-5a3b1f6c8e21")
"""Where folder names are made from ids that are no uuids."""


def folder_for(client_id: str, seal: Seal | None = None) -> str:
    """Return a folder's name: a uuid, or under a seal one that tells nothing of the client."""
    if seal is not None:
        return seal.name(f"client/{client_id}")
    return client_id if is_uuid(client_id) else str(uuid5(_IDS, client_id))


def is_sealed_name(folder: str) -> bool:
    """Tell whether a folder is called as those of a sealed store are."""
    return len(folder) == 32 and re.fullmatch("[0-9a-f]{32}", folder) is not None


def is_uuid(text: str) -> bool:
    """Tell whether a text is a uuid as it is usually written."""
    try:
        return str(UUID(text)) == text
    except ValueError:
        return False
