"""A photo is kept without a trace of where it was taken; anything else is refused in plain words.

Every picture is made here; Pillow reads back what is kept, hashlib judges its name.
"""

import hashlib
import io
import os
import random
import struct
import subprocess
import sys
import warnings
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PIL import ExifTags, Image, ImageChops, ImageCms, PngImagePlugin

from core import photos
from core.errors import WorkroomError
from core.photo_marks import with_marks
from core.photos import (
    LARGEST_BYTES,
    LONG_SIDE_PX,
    THUMBNAIL_PX,
    BadPhoto,
    Photo,
    is_ours,
    photo_name,
    read_photo,
    thumbnail_of,
)

ROOT = Path(__file__).resolve().parents[2]
Colour = tuple[int, ...]
RED, BLUE, GREY = (230, 20, 20), (20, 20, 230), (128, 128, 128)


@pytest.fixture(autouse=True)
def _nothing_left_changed_for_others() -> Iterator[None]:
    before = Image.MAX_IMAGE_PIXELS, list(warnings.filters), set(Image.OPEN)
    yield
    assert before == (Image.MAX_IMAGE_PIXELS, list(warnings.filters), set(Image.OPEN))


def saved(image: Image.Image, kind: str = "JPEG", **how: Any) -> bytes:
    buffer = io.BytesIO()
    image.save(buffer, kind, **how)
    return buffer.getvalue()


def plain(width: int = 64, height: int = 48, colour: Colour = GREY) -> Image.Image:
    return Image.new("RGB", (width, height), colour)


def cloth(width: int = 160, height: int = 120) -> Image.Image:
    """Return a picture with something to see everywhere, the same each time."""
    chance = random.Random(7)
    small = Image.new("RGB", (16, 12))
    small.putdata([tuple(chance.randint(0, 255) for _ in range(3)) for _ in range(192)])
    return small.resize((width, height), Image.Resampling.BICUBIC)


def seen(content: bytes) -> Image.Image:
    with Image.open(io.BytesIO(content), formats=("JPEG",)) as image:
        image.load()
        return image


def colour_at(content: bytes, x: float = 0.5, y: float = 0.5) -> Any:
    image = seen(content).convert("RGB")
    return image.getpixel((int(x * image.width), int(y * image.height)))


def near(found: Colour, wanted: Colour, within: int = 12) -> bool:
    return all(abs(a - b) <= within for a, b in zip(found, wanted, strict=True))


def difference(one: Image.Image, other: Image.Image) -> int:
    """Return the largest difference of any channel of any point."""
    extremes: Any = ImageChops.difference(one, other).getextrema()
    return max(high for _, high in extremes)


def refusal(source: Path | bytes, called: str = "dress.jpg") -> str:
    """Return the sentence; every one names the photo and says that the original is safe."""
    with pytest.raises(BadPhoto) as caught:
        read_photo(source, called)
    said = str(caught.value)
    assert said.startswith(f"“{called}” ")
    assert "The original is untouched; " in said
    assert said.endswith(".")
    assert "\n" not in said
    assert isinstance(caught.value, WorkroomError)
    return said


# Turned upright


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize(
    ("orientation", "red", "blue"),
    [  # Exif 2.2, Orientation: where the 0th row and column are; row 0 is red first, blue last
        (1, "top left", "top right"),
        (2, "top right", "top left"),
        (3, "bottom right", "bottom left"),
        (4, "bottom left", "bottom right"),
        (5, "top left", "bottom left"),
        (6, "top right", "bottom right"),
        (7, "bottom right", "top right"),
        (8, "bottom left", "top left"),
    ],
)
def test_a_photo_stands_upright_however_the_camera_was_held(
    orientation: int, red: str, blue: str, kind: str
) -> None:
    image = plain(96, 64)
    image.paste(RED, (0, 0, 32, 32))
    image.paste(BLUE, (64, 0, 96, 32))
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = orientation
    photo = read_photo(saved(image, kind, exif=exif))
    size = (96, 64) if orientation < 5 else (64, 96)
    assert (photo.width_px, photo.height_px) == seen(photo.content).size == size
    for small in (photo.content, photo.thumbnail):
        for corner, wanted in ((red, RED), (blue, BLUE)):
            down, across = corner.split()
            x, y = 0.1 if across == "left" else 0.9, 0.1 if down == "top" else 0.9
            assert near(colour_at(small, x, y), wanted, 25), corner


def test_an_orientation_that_makes_no_sense_leaves_the_photo_as_it_is() -> None:
    for nonsense in (0, 9, 255, 65535):
        exif = Image.Exif()
        exif[ExifTags.Base.Orientation] = nonsense
        photo = read_photo(saved(plain(), exif=exif))
        assert (photo.width_px, photo.height_px) == (64, 48)


# Nothing kept but the picture


SECRET = b"Wilhelmina Oatcake, 51 28 38 N"


def segment(marker: int, payload: bytes) -> bytes:
    return bytes([0xFF, marker]) + struct.pack(">H", len(payload) + 2) + payload


def with_segments(jpeg: bytes, *parts: bytes) -> bytes:
    return jpeg[:2] + b"".join(parts) + jpeg[2:]


def exif_with_place() -> bytes:
    exif = Image.Exif()
    exif[ExifTags.Base.Make] = "Invented"
    exif[ExifTags.Base.ImageDescription] = SECRET.decode()
    place = exif.get_ifd(ExifTags.IFD.GPSInfo)
    place[ExifTags.GPS.GPSLatitudeRef] = "N"
    place[ExifTags.GPS.GPSLatitude] = (51.0, 28.0, 38.0)
    return exif.tobytes()


def telling_photo() -> bytes:
    """Return a JPEG that says everything a camera or a program may say in one."""
    inside = saved(plain(16, 16, RED))
    place = exif_with_place()
    jpeg = with_segments(
        saved(cloth(), icc_profile=srgb_profile()),
        segment(0xE1, place + inside),
        segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>" + SECRET + b"</x:xmpmeta>"),
        segment(0xE0, b"JFXX\0\x10" + inside),
        segment(0xED, b"Photoshop 3.0\x008BIM\x04\x04\0\0\0\0\0\x10\x1c\x02\x78\0\x08" + SECRET),
        segment(0xE5, b"Own\0" + SECRET),
        segment(0xFE, SECRET),
    )
    return jpeg + b"PK\x03\x04" + SECRET


def srgb_profile() -> bytes:
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def bare_of(content: bytes) -> bool:
    """Whether Pillow finds nothing in a JPEG but its picture and the plain JFIF header."""
    image: Any = seen(content)
    applications = [name for name, _ in image.applist]
    known = {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    return applications == ["APP0"] and set(image.info) <= known and not dict(image.getexif())


def test_place_names_profile_and_comment_are_gone() -> None:
    told = telling_photo()
    with Image.open(io.BytesIO(told)) as image:
        assert image.getexif().get_ifd(ExifTags.IFD.GPSInfo)  # it was there to be found
        assert {"exif", "icc_profile", "comment", "xmp"} <= set(image.info)
    photo = read_photo(told)
    markers = (SECRET, b"Exif", b"GPS", b"xmp", b"http", b"Photoshop", b"8BIM", b"ICC_PROFILE",
               b"JFXX", b"Invented", b"Own", b"PK\x03\x04", b"\xff\xe1", b"\xff\xe2", b"\xff\xed",
               b"\xff\xfe")  # fmt: skip
    for kept in (photo.content, photo.thumbnail, with_marks(photo.content, [])):
        assert [marker for marker in markers if marker in kept] == []
        assert kept.count(b"\xff\xd8\xff") == 1  # no picture inside the picture
        assert bare_of(kept)


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_nothing_is_kept_of_other_kinds_either(kind: str) -> None:
    how: dict[str, Any] = {"exif": exif_with_place(), "icc_profile": srgb_profile()}
    if kind == "PNG":
        texts = PngImagePlugin.PngInfo()
        texts.add_text("Comment", SECRET.decode())
        texts.add_itxt("XML:com.adobe.xmp", SECRET.decode())
        how["pnginfo"] = texts
    else:
        how["xmp"] = SECRET
    told = saved(cloth(), kind, **how)
    assert SECRET in told
    photo = read_photo(told + SECRET)
    assert SECRET not in photo.content
    assert bare_of(photo.content)
    assert is_ours(photo.content, photo.name)


def test_giving_away_a_photo_from_elsewhere_strips_it_too() -> None:
    assert bare_of(with_marks(telling_photo(), [{"x": 0.5, "y": 0.5, "text": "hem"}]))
    assert bare_of(thumbnail_of(telling_photo()))


# Colours


def wide_profile() -> bytes:
    """Return a Display P3 profile: sRGB's with other primaries.

    (0.680, 0.320), (0.265, 0.690) and (0.150, 0.060) with white D65, adapted to D50 by Bradford.
    """
    content = bytearray(srgb_profile())
    primaries = {b"rXYZ": (0.51512, 0.24120, -0.00105), b"gXYZ": (0.29198, 0.69225, 0.04189),
                 b"bXYZ": (0.15710, 0.06657, 0.78407)}  # fmt: skip
    for entry in range(132, 132 + 12 * struct.unpack_from(">I", content, 128)[0], 12):
        name, at, _ = struct.unpack_from(">4sII", content, entry)
        if name in primaries:
            struct.pack_into(">3i", content, at + 8, *(round(v * 65536) for v in primaries[name]))
    return bytes(content)


def in_srgb(p3: Colour) -> Colour:
    """Return a Display P3 colour in sRGB; the matrix is that of both spaces' primaries at D65."""
    line = [v / 255 / 12.92 if v < 11 else ((v / 255 + 0.055) / 1.055) ** 2.4 for v in p3]
    matrix = ((1.2249, -0.2247, 0), (-0.0420, 1.0419, 0), (-0.0197, -0.0786, 1.0979))
    linear = [sum(a * b for a, b in zip(row, line, strict=True)) for row in matrix]
    return tuple(round(255 * (1.055 * v ** (1 / 2.4) - 0.055)) for v in linear)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_wide_gamut_photo_keeps_its_colours_without_the_profile(kind: str) -> None:
    p3 = (200, 100, 50)
    assert near(in_srgb(p3), (215, 93, 31), 1)  # worked by hand
    photo = read_photo(saved(plain(colour=p3), kind, icc_profile=wide_profile()))
    assert near(colour_at(photo.content), (215, 93, 31), 6)


@pytest.mark.parametrize("profile", [b"junk", wide_profile()[:200], b"\0" * 500])
def test_a_broken_profile_is_left_aside(profile: bytes) -> None:
    photo = read_photo(saved(plain(colour=(200, 100, 50)), icc_profile=profile))
    assert near(colour_at(photo.content), (200, 100, 50), 4)


def test_a_profile_for_another_kind_of_picture_is_left_aside() -> None:
    grey = saved(Image.new("L", (64, 48), 90), icc_profile=wide_profile())
    assert near(colour_at(read_photo(grey).content), (90, 90, 90), 3)


def test_without_a_colour_engine_the_profile_is_left_aside(monkeypatch: pytest.MonkeyPatch) -> None:
    def missing(*_: object) -> None:
        raise ImportError("not built in")

    content = saved(plain(colour=(200, 100, 50)), icc_profile=wide_profile())
    monkeypatch.setattr(ImageCms, "ImageCmsProfile", missing)
    photo = read_photo(content)
    assert near(colour_at(photo.content), (200, 100, 50), 4)


def in_palette() -> bytes:
    image = plain(colour=BLUE).convert("P", palette=Image.Palette.ADAPTIVE)
    return saved(image, "PNG")


def clear_in_palette() -> bytes:
    image = Image.new("P", (64, 48), 1)
    image.putpalette([0, 0, 0, *BLUE])
    image.paste(0, (0, 0, 64, 24))
    return saved(image, "PNG", transparency=b"\0\xff")


@pytest.mark.parametrize(
    ("content", "colour"),
    [
        (saved(Image.new("RGBA", (64, 48), (0, 0, 0, 0)), "PNG"), (255, 255, 255)),
        (saved(Image.new("RGBA", (64, 48), (0, 0, 0, 128)), "PNG"), (127, 127, 127)),
        (saved(Image.new("RGBA", (64, 48), (0, 0, 0, 0)), "WEBP", lossless=True), (255,) * 3),
        (saved(Image.new("LA", (64, 48), (10, 0)), "PNG"), (255, 255, 255)),
        (saved(plain(colour=RED), "PNG", transparency=RED), (255, 255, 255)),
        (saved(Image.new("CMYK", (64, 48), (0, 255, 255, 0))), (255, 0, 0)),
        (saved(Image.new("L", (64, 48), 77)), (77, 77, 77)),
        (saved(Image.new("1", (64, 48), 1), "PNG"), (255, 255, 255)),
        (saved(Image.new("I;16", (64, 48), 0x8080), "PNG"), (128, 128, 128)),
        (saved(Image.new("I;16", (64, 48), 0x0180), "PNG"), (1, 1, 1)),
        (in_palette(), BLUE),
        (clear_in_palette(), BLUE),
    ],
    ids=["clear", "half clear", "clear WebP", "clear grey", "one clear colour", "CMYK", "grey",
         "black and white", "16 bit", "dark 16 bit", "palette", "clear palette"],
)  # fmt: skip
def test_every_way_of_storing_colours_looks_as_it_was(content: bytes, colour: Colour) -> None:
    photo = read_photo(content)
    assert seen(photo.content).mode == "RGB"
    assert near(colour_at(photo.content, 0.5, 0.75), colour, 4)


def test_what_is_clear_becomes_white_where_it_is_clear() -> None:
    photo = read_photo(clear_in_palette())
    assert near(colour_at(photo.content, 0.5, 0.2), (255, 255, 255), 4)


def test_a_moving_picture_gives_its_first() -> None:
    for kind in ("PNG", "WEBP"):
        moving = saved(plain(colour=RED), kind, save_all=True, append_images=[plain(colour=BLUE)])
        assert near(colour_at(read_photo(moving).content), RED, 25), kind


def test_a_photo_of_several_pictures_gives_its_first() -> None:
    both = saved(plain(colour=RED), "MPO", save_all=True, append_images=[plain(colour=BLUE)])
    photo = read_photo(both)
    assert near(colour_at(photo.content), RED, 6)
    assert is_ours(photo.content, photo.name)


# Size and name


@pytest.mark.parametrize(
    ("size", "kept"),
    [
        ((4000, 3000), (2048, 1536)),
        ((3000, 4000), (1536, 2048)),
        ((4100, 4100), (2048, 2048)),
        ((2049, 2049), (2048, 2048)),
        ((2048, 100), (2048, 100)),
        ((300, 200), (300, 200)),
        ((1, 1), (1, 1)),
        ((10000, 10), (2048, 2)),
        ((10000, 1), (2048, 1)),
        ((1, 10000), (1, 2048)),
    ],
)
def test_the_long_side_is_shrunk_and_never_enlarged(
    size: tuple[int, int], kept: tuple[int, int]
) -> None:
    for kind in ("JPEG", "PNG"):
        photo = read_photo(saved(plain(*size), kind))
        assert (photo.width_px, photo.height_px) == seen(photo.content).size == kept
        share = min(1.0, THUMBNAIL_PX / max(kept))
        small = tuple(max(1, round(side * share)) for side in kept)
        assert seen(photo.thumbnail).size == small
        assert is_ours(photo.content, photo.name)


def test_a_photo_is_named_by_its_content() -> None:
    photo = read_photo(telling_photo())
    assert photo.name == f"{hashlib.sha256(photo.content).hexdigest()}.jpg"
    assert photo.name == photo_name(photo.content)


def test_the_same_photo_twice_is_one_photo(tmp_path: Path) -> None:
    path = tmp_path / "IMG 1.JPG"
    path.write_bytes(telling_photo())
    assert read_photo(path) == read_photo(telling_photo()) == read_photo(path, "another name")


def test_a_lost_thumbnail_is_made_again_to_the_byte() -> None:
    photo = read_photo(saved(cloth(900, 700)))
    assert thumbnail_of(photo.content) == photo.thumbnail


def test_the_original_is_only_read(tmp_path: Path) -> None:
    for name, content in (("good.jpg", telling_photo()), ("bad.jpg", telling_photo()[:900])):
        path = tmp_path / name
        path.write_bytes(content)
        os.utime(path, (1_000_000_000, 1_000_000_000))
        try:
            read_photo(path)
        except BadPhoto:
            assert name == "bad.jpg"
        else:
            assert name == "good.jpg"
        assert path.read_bytes() == content
        assert path.stat().st_mtime == 1_000_000_000
    assert sorted(found.name for found in tmp_path.iterdir()) == ["bad.jpg", "good.jpg"]


# Refused in plain words


def film() -> bytes:
    return b"\0\0\0\x18ftypmp42\0\0\0\0mp42isom" + bytes(64)


def avif() -> bytes:
    return b"\0\0\0\x1cftypavif\0\0\0\0avifmif1miaf" + bytes(64)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "is empty"),
        (b"%PDF-1.7\n", "is a PDF, which is not read here"),
        (b'<svg xmlns="http://www.w3.org/2000/svg"/>', "is not a photo"),
        (b"Waist 28 1/2\n", "is not a photo"),
        (b"\0" * 4000, "is not a photo"),
        (b"RIFF\x24\0\0\0WAVEfmt ", "is not a photo"),
        (saved(plain(), "GIF"), "is a GIF, which is not read here"),
        (saved(plain(), "BMP"), "is a BMP picture, which is not read here"),
        (saved(plain(), "TIFF"), "is a TIFF or raw picture, which is not read here"),
        (b"PK\x03\x04" + bytes(40), "is a zip file, which is not read here"),
        (film(), "is a film, which is not read here"),
        (avif(), "is an AVIF picture, which is not read here"),
        (b"\xff\xd8\xff", "is cut off or damaged"),
        (b"\x89PNG\r\n\x1a\n", "is cut off or damaged"),
        (b"RIFF\x24\0\0\0WEBPVP8 ", "is cut off or damaged"),
    ],
)
def test_what_is_no_photo_is_refused_by_its_kind(
    content: bytes, said: str, tmp_path: Path
) -> None:
    assert f"“dress.jpg” {said}" in refusal(content)
    path = tmp_path / "dress.jpg"  # the name says nothing; the content does
    path.write_bytes(content)
    assert f"“dress.jpg” {said}" in refusal(path)


def test_a_folder_and_a_vanished_photo_are_refused(tmp_path: Path) -> None:
    assert "is a folder" in refusal(tmp_path)
    for gone in (tmp_path / "gone.jpg", tmp_path / "gone" / "x.jpg", Path("a\0b.jpg")):
        assert "is not there any more" in refusal(gone)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with a name")
def test_what_is_no_file_is_refused_without_waiting_for_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    os.mkfifo(tmp_path / "pipe.jpg")
    monkeypatch.delattr(Path, "open")
    assert "is not a file" in refusal(tmp_path / "pipe.jpg")


@pytest.mark.parametrize(
    ("trouble", "said"),
    [(PermissionError(13, "no"), "may not be opened"), (OSError(5, "no"), "cannot be read from")],
)
def test_a_photo_that_the_system_withholds_is_refused(
    trouble: OSError, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "dress.jpg"
    path.write_bytes(saved(plain()))

    def withheld(*_: object, **__: object) -> None:
        raise trouble

    monkeypatch.setattr(Path, "open", withheld)
    assert said in refusal(path)


def test_a_file_that_is_too_large_is_refused_before_it_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "large.jpg"
    with path.open("wb") as file:
        file.truncate(LARGEST_BYTES + 1)
    monkeypatch.delattr(Path, "open")
    assert "is larger than 60 MB" in refusal(path)


def test_bytes_that_are_too_many_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    content = saved(plain())
    monkeypatch.setattr(photos, "LARGEST_BYTES", len(content))
    read_photo(content)
    assert "is larger than" in refusal(content + b"\0")


def test_a_photo_is_named_in_one_line_however_long_its_name() -> None:
    with pytest.raises(BadPhoto, match=r"^“a bc") as caught:
        read_photo(b"", "a\nb" + "c" * 500)
    assert len(str(caught.value)) < 200
    with pytest.raises(BadPhoto, match=r"^This photo is empty\. The original is untouched; "):
        read_photo(b"")
    with pytest.raises(BadPhoto, match=r"^“gone\.jpg” "):
        read_photo(Path("none/gone.jpg"))


@pytest.mark.parametrize("kind", ["JPEG", "progressive", "PNG", "WEBP", "lossless"])
def test_a_photo_that_is_cut_off_is_refused_wherever_it_ends(kind: str) -> None:
    how: dict[str, Any] = {
        "JPEG": {"kind": "JPEG"},
        "progressive": {"kind": "JPEG", "progressive": True},
        "PNG": {"kind": "PNG"},
        "WEBP": {"kind": "WEBP"},
        "lossless": {"kind": "WEBP", "lossless": True},
    }
    whole = saved(cloth(), **how[kind])
    for part in range(1, 40):
        cut = len(whole) * part // 40
        said = refusal(whole[:cut])
        assert "is cut off or damaged" in said or (cut < 12 and "is not a photo" in said), cut


def test_every_trouble_of_the_decoder_becomes_a_plain_sentence(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    content = saved(plain())
    for trouble in (OSError, SyntaxError, ValueError, struct.error, IndexError, OverflowError,
                    zlib.error, TypeError, KeyError, EOFError, RecursionError, SystemError,
                    AttributeError, AssertionError, NotImplementedError):  # fmt: skip

        def failing(*_: object, raised: type[Exception] = trouble) -> None:
            raise raised("from inside")

        monkeypatch.setattr(Image.Image, "load", failing)
        monkeypatch.setattr("PIL.ImageFile.ImageFile.load", failing)
        said = refusal(content)
        assert "is cut off or damaged" in said
        assert "inside" not in said


def test_memory_that_runs_out_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    def failing(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr("PIL.ImageFile.ImageFile.load", failing)
    assert "needs more memory than is free" in refusal(saved(plain()))


def test_exif_that_cannot_be_read_costs_only_the_turning() -> None:
    texts = PngImagePlugin.PngInfo()
    texts.add_text("Raw profile type exif", "\nexif\n9\nno hexadecimal")
    assert read_photo(saved(plain(), "PNG", pnginfo=texts)).width_px == 64
    for junk in (b"Exif\0\0", b"Exif\0\0II*\0\xff\xff\xff\xff", b"Exif\0\0MM\0*\0\0\0\x08\xff\xff",
                 b"Exif\0\0garbage garbage"):  # fmt: skip
        photo = read_photo(with_segments(saved(plain()), segment(0xE1, junk)))
        assert (photo.width_px, photo.height_px) == (64, 48)


# Bombs


def png_of(width: int, height: int) -> bytes:
    """Return a tiny PNG that says it is this large."""

    def chunk(name: bytes, data: bytes) -> bytes:
        check = struct.pack(">I", zlib.crc32(name + data))
        return struct.pack(">I", len(data)) + name + data + check

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(bytes(99)))
            + chunk(b"IEND", b""))  # fmt: skip


def jpeg_of(width: int, height: int) -> bytes:
    content = bytearray(saved(plain()))
    at = content.index(b"\xff\xc0")
    struct.pack_into(">HH", content, at + 5, height, width)
    return bytes(content)


def webp_of(width: int, height: int) -> bytes:
    """Return a lossless WebP whose header says it is this large (RFC 9649: 14 bits each)."""
    content = bytearray(saved(plain(), "WEBP", lossless=True))
    at = content.index(b"VP8L") + 9
    kept = content[at + 3] & 0xF0
    struct.pack_into("<I", content, at, (width - 1) | (height - 1) << 14 | kept << 24)
    return bytes(content)


BOMBS = {
    "PNG": png_of(50_000, 50_000),
    "PNG as large as can be said": png_of(2**31 - 1, 2**31 - 1),
    "PNG that Pillow only warns of": png_of(12_000, 8_000),
    "PNG that Pillow lets pass": png_of(7_500, 7_000),
    "JPEG": jpeg_of(65_000, 65_000),
    "WebP": webp_of(16_383, 16_383),
}


@pytest.mark.parametrize("bomb", BOMBS.values(), ids=BOMBS.keys())
def test_a_tiny_file_that_unfolds_to_a_huge_picture_is_refused(bomb: bytes) -> None:
    assert len(bomb) < 1000
    assert "has more than 50 million points" in refusal(bomb)


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="memory is read from /proc")
def test_a_bomb_costs_no_memory(tmp_path: Path) -> None:
    for name, bomb in BOMBS.items():
        (tmp_path / f"{name}.bin").write_bytes(bomb)
    code = (
        "import sys, pathlib\n"
        "from core.photos import read_photo, BadPhoto\n"
        "def most():\n"
        "    lines = open('/proc/self/status').read().splitlines()\n"
        "    return int(next(l for l in lines if l.startswith('VmHWM')).split()[1])\n"
        "def refused(content):\n"
        "    try: read_photo(content)\n"
        "    except BadPhoto: return True\n"
        "folder = pathlib.Path(sys.argv[1])\n"
        "for kind in ('jpg', 'png', 'webp'): refused((folder / kind).read_bytes())\n"
        "before = most()\n"
        "assert all([refused(bomb.read_bytes()) for bomb in folder.glob('*.bin')])\n"
        "print(most() - before)\n"
    )
    for kind, word in (("jpg", "JPEG"), ("png", "PNG"), ("webp", "WEBP")):
        (tmp_path / kind).write_bytes(saved(plain(), word))  # loads the decoders
    command = [sys.executable, "-c", code, str(tmp_path)]
    done = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True)
    assert int(done.stdout) < 8_000  # kB; one picture of 50 million points takes 200,000


def test_the_limit_itself_is_read_and_one_row_more_is_not(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(photos, "MOST_PIXELS", 64 * 48)
    assert read_photo(saved(plain(64, 48))).width_px == 64
    assert "has more than" in refusal(saved(plain(64, 49)))


# HEIC


def heic(image: Image.Image, **how: Any) -> bytes:
    heif = pytest.importorskip("pillow_heif")
    buffer = io.BytesIO()
    heif.from_pillow(image).save(buffer, quality=90, **how)
    return buffer.getvalue()


def test_a_heic_photo_is_read_where_it_can_be() -> None:
    image = plain(96, 64)
    image.paste(RED, (0, 0, 32, 32))
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = 6
    exif[ExifTags.Base.ImageDescription] = SECRET.decode()
    photo = read_photo(heic(image, exif=exif.tobytes()))
    assert (photo.width_px, photo.height_px) == (64, 96)
    assert near(colour_at(photo.content, 0.9, 0.1), RED, 40)
    assert SECRET not in photo.content
    assert is_ours(photo.content, photo.name)


def test_a_heic_photo_that_is_cut_off_is_refused() -> None:
    whole = heic(cloth())
    for part in range(1, 20):
        said = refusal(whole[: len(whole) * part // 20])
        assert "is cut off or damaged" in said


def test_a_tablet_without_heic_says_what_to_set(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pillow_heif", None)
    said = refusal(b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + bytes(64), "IMG_0001.HEIC")
    assert said == (
        "“IMG_0001.HEIC” is a HEIC picture, which this tablet cannot read. The original is"
        " untouched; set the camera to JPEG (“most compatible”), or share it as JPEG."
    )


def test_the_app_starts_without_heic() -> None:
    code = "import sys; sys.modules['pillow_heif'] = None; import core.photos"
    subprocess.run([sys.executable, "-W", "error", "-c", code], cwd=ROOT, check=True)


# Whatever comes


def seeds() -> list[bytes]:
    small = cloth(48, 36)
    exif = exif_with_place()
    return [
        with_segments(saved(small, icc_profile=wide_profile()), segment(0xE1, exif)),
        saved(small, progressive=True, exif=exif),
        saved(small.convert("CMYK")),
        saved(small.convert("RGBA"), "PNG", exif=exif, icc_profile=wide_profile()),
        saved(small.convert("P"), "PNG", transparency=b"\0\x80"),
        saved(small, "PNG", save_all=True, append_images=[small.rotate(180)]),
        saved(small, "WEBP", exif=exif, icc_profile=wide_profile()),
        saved(small, "WEBP", save_all=True, append_images=[small.rotate(180)], lossless=True),
    ]


def mutated(content: bytes, chance: random.Random) -> bytes:
    changed = bytearray(content)
    for _ in range(chance.choice((1, 1, 2, 5, 20))):
        at = chance.randrange(len(changed))
        match chance.randrange(6):
            case 0:
                changed[at] ^= 1 << chance.randrange(8)
            case 1:
                changed[at] = chance.choice((0, 1, 0x7F, 0x80, 0xFF))
            case 2:
                changed[at : at + 4] = chance.randbytes(4)
            case 3:
                del changed[at : at + chance.randrange(1, 40)]
            case 4:
                changed[at:at] = changed[at : at + chance.randrange(1, 40)]
            case 5:
                head = chance.randrange(min(len(changed), 200))
                changed[head] = chance.randrange(256)
        changed = changed or bytearray(b"\xff")
    return bytes(changed)


def test_whatever_comes_is_a_clean_photo_or_a_plain_refusal(capfd: Any) -> None:
    chance = random.Random(2048)
    good, refused = 0, []
    with warnings.catch_warnings(record=True) as leaked:
        warnings.simplefilter("always")
        for content in seeds() * 80:
            try:
                photo = read_photo(mutated(content, chance), "dress.jpg")
            except BadPhoto as trouble:
                refused.append(str(trouble))
            else:
                good += 1
                assert is_ours(photo.content, photo.name)
                assert bare_of(photo.content)
    assert leaked == []
    assert capfd.readouterr() == ("", "")
    assert all(said.startswith("“dress.jpg” ") for said in refused)
    assert min(good, len(refused)) > 100  # both were met often


# A kept photo is known again


def cmyk_without_a_mark(ours: bytes) -> bytes:
    """Return a JPEG in four inks with the header of a kept photo and nothing to say so."""
    inks = saved(seen(ours).convert("CMYK"))
    return ours[:20] + inks[inks.index(b"\xff\xdb") :]


@pytest.fixture(scope="module")
def kept() -> Photo:
    return read_photo(saved(cloth(640, 480)))


def test_a_kept_photo_is_known_again(kept: Photo) -> None:
    assert is_ours(kept.content, kept.name)
    assert not is_ours(kept.content, kept.name.upper())
    assert not is_ours(kept.content, f"photos/{kept.name}")
    assert not is_ours(kept.content, photo_name(kept.thumbnail))


@pytest.mark.parametrize(
    "changed",
    [
        lambda ours: b"",
        lambda ours: b"\xff",
        lambda ours: ours[:-1],
        lambda ours: ours[:-2],
        lambda ours: ours[: len(ours) // 2],
        lambda ours: ours + b"\0",
        lambda ours: ours + b"PK\x03\x04",
        lambda ours: ours + ours,
        lambda ours: ours[:-2] + SECRET + ours[-2:] + b"\xff\xd9",
        lambda ours: with_segments(ours, segment(0xE1, exif_with_place())),
        lambda ours: with_segments(ours, segment(0xFE, SECRET)),
        lambda ours: ours[:20] + segment(0xE1, exif_with_place()) + ours[20:],
        lambda ours: ours[:20] + segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0x") + ours[20:],
        lambda ours: ours[:20] + segment(0xE2, b"ICC_PROFILE\0\1\1" + srgb_profile()) + ours[20:],
        lambda ours: ours[:20] + segment(0xED, b"Photoshop 3.0\0") + ours[20:],
        lambda ours: ours[:20] + segment(0xFE, SECRET) + ours[20:],
        lambda ours: ours[:20] + segment(0xE0, b"JFXX\0\x10") + ours[20:],
        lambda ours: ours[:-2] + segment(0xFE, SECRET) + ours[-2:],
        lambda ours: ours[:20] + b"\xff\xda\0\x02" + ours[20:],
        lambda ours: ours[:20] + segment(0xC4, b"\0") + ours[20:],
        lambda ours: saved(seen(ours), exif=exif_with_place()),
        lambda ours: saved(seen(ours), icc_profile=srgb_profile()),
        lambda ours: saved(seen(ours), comment=SECRET),
        lambda ours: saved(seen(ours).convert("CMYK")),
        lambda ours: cmyk_without_a_mark(ours),
        lambda ours: ours[:18] + b"\1\1" + ours[20:],  # says that it holds a thumbnail
        lambda ours: saved(seen(ours), "PNG"),
        lambda ours: saved(seen(ours), "WEBP"),
        lambda ours: saved(plain(LONG_SIDE_PX + 1, 10)),
        lambda ours: jpeg_of(65_000, 65_000),
        lambda ours: b"\xff\xd8\xff" + bytes(100),
    ],
)
def test_a_photo_that_was_changed_is_not_ours_even_when_named_anew(
    kept: Photo, changed: Any
) -> None:
    other = changed(kept.content)
    assert not is_ours(other, kept.name)
    assert not is_ours(other, photo_name(other))


def test_asking_whose_it_is_never_raises(kept: Photo) -> None:
    chance = random.Random(5)
    for _ in range(150):
        other = mutated(kept.content, chance)
        assert is_ours(other, photo_name(other)) in (True, False)
        assert is_ours(other, kept.name) == (other == kept.content)
