"""What is sealed opens only whole, under its own name, with its own passcode."""

import hmac
import subprocess
import sys
import unicodedata
from pathlib import Path
from typing import Any

import pytest
from cryptography.hazmat.primitives.ciphers.aead import AESGCM

from core.errors import BadFile, Damaged, WorkroomError
from core.seal import (
    MAGIC,
    PASSCODE_WARNING,
    NoSealing,
    Seal,
    WeakPasscode,
    WrongPasscode,
    is_sealed,
    lock,
    stretch,
    unlock,
    unwrap,
    wrap,
)

ROOT = Path(__file__).resolve().parents[2]
QUICK = 2**14
KEY = bytes(range(32))
CONTENT = b"Ottoline Brackenwick, waist 33" * 3
PASSCODE = "blue thimble 7"


@pytest.fixture(scope="module")
def wrapped() -> dict[str, Any]:
    return wrap(Seal(KEY), PASSCODE, n=QUICK)


# RFC 7914 section 12, the second and third vectors.
@pytest.mark.parametrize(
    ("passcode", "salt", "n", "p", "key"),
    [
        (b"password", b"NaCl", 1024, 16,
         "fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162"
         "2eaf30d92e22a3886ff109279d9830dac727afb94a83ee6d8360cbdfa2cc0640"),
        (b"pleaseletmein", b"SodiumChloride", 16384, 1,
         "7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2"
         "d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887"),
    ],
)  # fmt: skip
def test_a_passcode_is_stretched_as_published(
    passcode: bytes, salt: bytes, n: int, p: int, key: str
) -> None:
    assert stretch(passcode, salt, n, 8, p, 64).hex() == key


def test_content_is_locked_as_published() -> None:
    # McGrew and Viega, The Galois/Counter Mode of Operation, appendix B, test case 16.
    key = bytes.fromhex("feffe9928665731c6d6a8f9467308308" * 2)
    nonce = bytes.fromhex("cafebabefacedbaddecaf888")
    content = bytes.fromhex(
        "d9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a72"
        "1c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b39"
    )
    bound = bytes.fromhex("feedfacedeadbeeffeedfacedeadbeefabaddad2")
    locked = bytes.fromhex(
        "522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa"
        "8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662"
        "76fc6ece0f4e1768cddf8853bb2d551b"
    )
    assert lock(key, nonce, content, bound) == locked
    assert unlock(key, nonce, locked, bound) == content


def test_what_was_sealed_opens_under_its_name() -> None:
    seal = Seal.new()
    for content in (b"", CONTENT, bytes(100_000)):
        assert seal.open(seal.seal(content, "client.json"), "client.json") == content


def test_a_sealed_file_is_laid_out_as_it_is_described() -> None:
    """The layout is written out here by hand, so that no later change shuts old files."""
    sealed = Seal(KEY).seal(CONTENT, "photos/ä.jpg")
    head, nonce, locked = sealed[:8], sealed[8:20], sealed[20:]
    own_key = hmac.digest(KEY, b"pins-to-seams seal 1: content", "sha256")
    assert head == b"\x93SEALED\x01"
    assert AESGCM(own_key).decrypt(nonce, locked, head + "photos/ä.jpg".encode()) == CONTENT


def test_any_changed_byte_is_refused() -> None:
    seal = Seal.new()
    sealed = seal.seal(CONTENT, "client.json")
    for place in range(len(sealed)):
        for change in (1, 0x80, 0xFF):
            spoilt = bytearray(sealed)
            spoilt[place] ^= change
            with pytest.raises(Damaged, match="Nothing was changed"):
                seal.open(bytes(spoilt), "client.json")


def test_a_part_of_a_sealed_file_is_refused() -> None:
    seal = Seal.new()
    sealed = seal.seal(CONTENT, "client.json")
    for spoilt in (*(sealed[:end] for end in range(len(sealed))), sealed + b"\0"):
        with pytest.raises(Damaged):
            seal.open(spoilt, "client.json")


def test_a_file_put_in_anothers_place_is_refused() -> None:
    seal = Seal.new()
    first, second = seal.seal(CONTENT, "first"), seal.seal(CONTENT, "second")
    assert seal.open(first, "first") == CONTENT
    for sealed, name in ((first, "second"), (second, "first"), (first, "")):
        with pytest.raises(Damaged):
            seal.open(sealed, name)


def test_another_seal_does_not_open_it() -> None:
    with pytest.raises(Damaged):
        Seal.new().open(Seal.new().seal(CONTENT, "a"), "a")


def test_the_same_content_is_never_sealed_alike() -> None:
    seal = Seal.new()
    assert len({seal.seal(CONTENT, "a") for _ in range(50)}) == 50
    assert len({Seal.new().key_id for _ in range(50)}) == 50


def test_nothing_of_the_content_or_its_name_shows() -> None:
    sealed = Seal.new().seal(CONTENT, "Brackenwick.json")
    for start in range(len(CONTENT) - 4):
        assert CONTENT[start : start + 4] not in sealed
    assert b"Brackenwick" not in sealed


def test_a_name_tells_nothing_and_is_always_the_same() -> None:
    seal = Seal(KEY)
    name = seal.name("Ottoline Brackenwick")
    own_key = hmac.digest(KEY, b"pins-to-seams seal 1: names", "sha256")
    judged = hmac.new(own_key, b"Ottoline Brackenwick", "sha256").hexdigest()
    assert name == judged[:32]
    assert name == Seal(KEY).name("Ottoline Brackenwick")
    assert name != seal.name("Ottoline Brackenwicк")  # a Cyrillic к
    assert name != Seal.new().name("Ottoline Brackenwick")


def test_the_key_is_shown_nowhere() -> None:
    seal = Seal(KEY)
    for shown in (repr(seal), str(seal), f"{seal}", repr([seal]), seal.key_id):
        assert KEY.hex()[:8] not in shown.lower()
        assert repr(KEY)[2:20] not in shown
    assert not hasattr(seal, "__dict__")


def test_each_purpose_has_a_key_of_its_own() -> None:
    seal = Seal(KEY)
    with pytest.raises(Damaged):
        Seal(hmac.digest(KEY, b"pins-to-seams seal 1: names", "sha256")).open(
            seal.seal(CONTENT, "a"), "a"
        )
    assert seal.name("") != seal.key_id * 2
    assert not seal.name("").startswith(seal.key_id)


def test_the_passcode_brings_the_seal_back(wrapped: dict[str, Any]) -> None:
    seal = unwrap(wrapped, PASSCODE)
    assert seal.key_id == Seal(KEY).key_id
    assert seal.open(Seal(KEY).seal(CONTENT, "a"), "a") == CONTENT


def test_the_usual_cost_is_what_it_is_said_to_be() -> None:
    usual = wrap(Seal(KEY), PASSCODE)
    cost = {field: usual[field] for field in ("format", "kdf", "n", "r", "p")}
    assert cost == {"format": 1, "kdf": "scrypt", "n": 65536, "r": 8, "p": 1}
    assert unwrap(usual, PASSCODE).key_id == Seal(KEY).key_id


def test_the_wrapped_key_does_not_show_the_key(wrapped: dict[str, Any]) -> None:
    again = wrap(Seal(KEY), PASSCODE, n=QUICK)
    assert KEY.hex() not in str(wrapped)
    for field in ("salt", "nonce", "key"):
        assert again[field] != wrapped[field]


@pytest.mark.parametrize("passcode", ["blue thimble 8", "Blue thimble 7", "", "x", "\ud800" * 6])
def test_a_wrong_passcode_is_refused(wrapped: dict[str, Any], passcode: str) -> None:
    with pytest.raises(WrongPasscode, match="Nothing was changed"):
        unwrap(wrapped, passcode)


def test_a_passcode_may_be_typed_on_any_keyboard() -> None:
    one = "Fingerhut für Ångström ﬁ"
    wrapped = wrap(Seal(KEY), unicodedata.normalize("NFC", one), n=QUICK)
    other = unicodedata.normalize("NFD", one)
    assert other != unicodedata.normalize("NFC", one)
    for typed in (other, f"  {other}\n", one.replace("ﬁ", "fi"), "\u3000" + one):
        assert unwrap(wrapped, typed).key_id == Seal(KEY).key_id
    with pytest.raises(WrongPasscode):
        unwrap(wrapped, one.replace("ü", "u"))


@pytest.mark.parametrize("passcode", ["", "12345", "     1    ", "  abcde  ", "\u3000" * 9])
def test_a_passcode_too_short_is_refused(passcode: str) -> None:
    with pytest.raises(WeakPasscode, match="at least 6"):
        wrap(Seal(KEY), passcode, n=QUICK)


def test_six_characters_are_enough() -> None:
    assert unwrap(wrap(Seal(KEY), "123456", n=QUICK), " 123456 ").key_id == Seal(KEY).key_id


@pytest.mark.parametrize("field", ["salt", "nonce", "key", "key_id"])
def test_a_changed_wrapped_key_is_refused(wrapped: dict[str, Any], field: str) -> None:
    last = "0" if wrapped[field][-1] != "0" else "1"
    with pytest.raises(WrongPasscode):
        unwrap({**wrapped, field: wrapped[field][:-1] + last}, PASSCODE)


@pytest.mark.parametrize(("field", "value"), [("n", 2**15), ("r", 4), ("p", 2)])
def test_a_changed_cost_is_refused(wrapped: dict[str, Any], field: str, value: int) -> None:
    with pytest.raises(WrongPasscode):
        unwrap({**wrapped, field: value}, PASSCODE)


NONSENSE = [
    ("n", 2**13), ("n", 2**21), ("n", 2**40), ("n", 2**14 + 1), ("n", 0), ("n", -16384),
    ("n", "16384"), ("n", 16384.0), ("n", True), ("n", None), ("n", [16384]),
    ("r", 0), ("r", 17), ("r", 2**30), ("r", True), ("p", 0), ("p", 5), ("p", 2**30), ("p", None),
    ("format", 2), ("format", "1"), ("format", True), ("kdf", "md5"), ("kdf", None),
    ("salt", ""), ("salt", "zz" * 16), ("salt", "00" * 15), ("salt", 5), ("salt", None),
    ("nonce", "00" * 13), ("nonce", ["00"] * 12), ("key", "00" * 47), ("key", ""),
    ("key_id", "00"), ("key_id", {}),
]  # fmt: skip


@pytest.mark.parametrize(("field", "value"), NONSENSE)
def test_a_wrapped_key_that_is_none_is_refused(
    wrapped: dict[str, Any], field: str, value: Any
) -> None:
    with pytest.raises(BadFile, match="the wrapped key"):
        unwrap({**wrapped, field: value}, PASSCODE)
    with pytest.raises(BadFile, match="the wrapped key"):
        unwrap({key: kept for key, kept in wrapped.items() if key != field}, PASSCODE)


def test_a_costly_pair_is_refused_before_any_memory_is_taken(wrapped: dict[str, Any]) -> None:
    with pytest.raises(BadFile, match="memory"):
        unwrap({**wrapped, "n": 2**20, "r": 8}, PASSCODE)
    with pytest.raises(BadFile, match="wrapped key"):
        unwrap([], PASSCODE)  # type: ignore[arg-type]


def test_a_sealed_file_is_told_from_others() -> None:
    assert is_sealed(Seal.new().seal(b"", "a"))
    assert is_sealed(MAGIC + b"anything")
    for other in (b"", b"{}", b"PK\3\4", b"\xff\xd8\xff", MAGIC[:-1]):
        assert not is_sealed(other)


def test_the_warning_says_that_a_lost_passcode_is_lost() -> None:
    for word in ("lost passcode", "Nobody", "Write it down", "apart"):
        assert word in PASSCODE_WARNING


def test_without_the_part_that_seals_a_plain_sentence_is_said(
    monkeypatch: pytest.MonkeyPatch, wrapped: dict[str, Any]
) -> None:
    seal = Seal(KEY)
    sealed, name = seal.seal(CONTENT, "a"), seal.name("a")
    for part in [name for name in sys.modules if name.split(".")[0] == "cryptography"]:
        monkeypatch.setitem(sys.modules, part, None)
    for refused in (
        lambda: seal.seal(CONTENT, "a"),
        lambda: seal.open(sealed, "a"),
        lambda: wrap(seal, PASSCODE, n=QUICK),
        lambda: unwrap(wrapped, PASSCODE),
    ):
        with pytest.raises(NoSealing, match=r"cryptography.*works as before"):
            refused()
    assert seal.name("a") == name


def test_loading_the_seal_loads_no_cryptography() -> None:
    code = "import sys, core.seal; sys.exit('cryptography' in sys.modules)"
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True)


def test_every_refusal_is_for_a_person() -> None:
    for kind in (WrongPasscode, WeakPasscode, NoSealing, Damaged, BadFile):
        assert issubclass(kind, WorkroomError)
