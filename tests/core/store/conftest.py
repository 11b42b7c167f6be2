"""What several tests of the store begin with."""

import hashlib
import os
from pathlib import Path

import pytest

from core.store.clients import Store
from core.store.passcode import set_passcode
from tests.core.store.invented import (
    BEATRIX,
    PASSCODE,
    WILHELMINA,
    client,
    other,
    save_with_photo,
    with_note,
)
from tests.core.store.telling import SEALED_NAME, SEALED_NOTE


@pytest.fixture(autouse=True)
def no_waiting_for_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """Bring nothing down in earnest: that it is asked for is seen in the steps that are taken."""
    monkeypatch.setattr(os, "fsync", lambda _handle: None)


@pytest.fixture
def quick_passcode(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let trying a passcode cost nothing; that it costs something is the seal's own test."""

    def quick(passcode: bytes, salt: bytes, *_cost: int) -> bytes:
        return hashlib.blake2b(passcode, salt=salt, digest_size=32).digest()

    monkeypatch.setattr("core.seal.stretch", quick)


@pytest.fixture
def workroom(tmp_path: Path) -> Path:
    """Return a folder with two clients, one with a photo and an older file, and a list."""
    folder = tmp_path / "workroom"
    with Store(folder) as store:
        store.save(client("before"))
        save_with_photo(store, client("now"))
        store.save(other("the other's"))
        store.clients()
    return folder


@pytest.fixture
def sealed(workroom: Path, quick_passcode: None) -> Path:
    """Return a folder that was sealed, then used: saved to, photographed for, listed, closed."""
    with Store(workroom) as store:
        set_passcode(store, PASSCODE)
    with Store(workroom, PASSCODE) as store:
        store.clients()
        store.save(with_note(store.read(WILHELMINA), SEALED_NOTE))
        save_with_photo(store, store.read(BEATRIX), "crimson")
        store.say(store.stands.with_backup(store.now(), 2))
        store.save(client("new", client_id="Mrs Finch", name=SEALED_NAME))
        store.clients()
    return workroom
