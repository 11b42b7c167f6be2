"""What a sealed folder must not tell to whoever looks at its bytes and names."""

from pathlib import Path

from tests.core.store.invented import (
    BEATRIX,
    BUST,
    NAME,
    OTHER_NAME,
    WILHELMINA,
    everything_in,
    photo,
    where_found,
)

SEALED_NAME, SEALED_NOTE = "Ada Finch", "sealed now"
"""Who is in a sealed folder besides, and what was last noted there."""

TELLING = [NAME, "Oatcake", OTHER_NAME, WILHELMINA, BEATRIX, BUST, "bust_girth", "Silk gown",
           SEALED_NAME, "Mrs Finch", SEALED_NOTE, "2026-03-02", "pins-to-seams/1",
           photo().name.removesuffix(".jpg")]  # fmt: skip
"""What nobody may find."""


def tells(folder: Path) -> list[str]:
    """Return what can be found in a folder by whoever looks at its bytes and names."""
    found = [where for text in TELLING for where in where_found(folder, text)]
    pictures = [b"JFIF", b"Exif", b"\x89PNG", photo().content[40:80], photo().thumbnail[40:80]]
    return found + [
        f"{path}: a picture" for path, content in everything_in(folder).items()
        if content.startswith(b"\xff\xd8") or any(part in content for part in pictures)
    ]  # fmt: skip
