"""Photos: read whatever a camera hands over, and keep only the picture.

What is kept is a new JPEG made from the points of the picture alone: upright, at most 2,048
points long, in sRGB, without place, time, camera, comment or colour profile, and named by its
content.  The original is only ever read.  JPEG, PNG and WebP are read, HEIC where pillow_heif
is installed; of several pictures in one file the first.  GIF, BMP, TIFF, AVIF, films, drawings
and papers are refused by name.  One photo is worked on at a time, to spare the memory.
"""

import hashlib
import importlib
import stat
import threading
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from PIL import ExifTags, Image, ImageCms, ImageOps

from core.errors import WorkroomError
from core.jpeg_parts import only_a_picture

LONG_SIDE_PX = 2048
THUMBNAIL_PX = 320
MOST_PIXELS = 50_000_000
LARGEST_BYTES = 60_000_000

_QUALITY = 88
_ONE_AT_A_TIME = threading.RLock()


class BadPhoto(WorkroomError):
    """A picture cannot be used; ``str()`` names it, says what is safe and what to do."""

    def __init__(self, called: str, wrong: str, remedy: str) -> None:
        name = one_line(called)[:80].strip()
        subject = f"“{name}”" if name else "This photo"
        super().__init__(f"{subject} {wrong}. The original is untouched; {remedy}.")


@dataclass(frozen=True, slots=True)
class Photo:
    """A photo as it is kept: ``<sha256 of content>.jpg``, both JPEGs, the size in points."""

    name: str
    content: bytes
    thumbnail: bytes
    width_px: int
    height_px: int


def read_photo(source: Path | bytes, called: str = "") -> Photo:
    """Return the photo to keep of a file or of its bytes; the same source gives the same bytes.

    ``called`` is the name the person knows it by (a path's own name where empty).  Never
    enlarged.  Transparency becomes white.  Raises ``BadPhoto`` for everything that is no whole
    picture, larger than ``LARGEST_BYTES`` or of more than ``MOST_PIXELS``.
    """
    called = called or (source.name if isinstance(source, Path) else "")
    with _in_plain_words(called):
        found = source if isinstance(source, bytes) else _read_file(source, called)
        picture = _picture(found, called, LONG_SIDE_PX)
        content = as_jpeg(picture, _QUALITY)
    return Photo(photo_name(content), content, thumbnail_of(content), *picture.size)


def opened_photo(content: bytes) -> Image.Image:
    """Return the picture of a kept photo to draw on; raises ``BadPhoto``."""
    with _in_plain_words(""):
        return _picture(content, "", LONG_SIDE_PX)


def photo_name(content: bytes) -> str:
    """Return the name a photo is kept under: the SHA-256 of its bytes in hexadecimal, ``.jpg``."""
    return f"{hashlib.sha256(content).hexdigest()}.jpg"


def thumbnail_of(content: bytes) -> bytes:
    """Return a JPEG of at most ``THUMBNAIL_PX``; raises ``BadPhoto``.

    That of a kept photo can be made again at any time: it is the same to the byte.
    """
    with _in_plain_words(""):
        return as_jpeg(_picture(content, "", THUMBNAIL_PX), _QUALITY)


def is_ours(content: bytes, name: str) -> bool:
    """Whether this is a photo as ``read_photo`` keeps it, unchanged; never raises.

    True for a JPEG that can be read to its end, is named by its content, has nothing in it
    but its picture (no EXIF, XMP, IPTC, ICC or other application data, comment, embedded
    thumbnail or bytes after the end) and is at most ``LONG_SIDE_PX`` long.
    """
    if name != photo_name(content) or not only_a_picture(content):
        return False
    try:
        with _in_plain_words(""), Image.open(BytesIO(content), formats=("JPEG",)) as image:
            if image.mode not in ("RGB", "L") or max(image.size) > LONG_SIDE_PX:
                return False
            image.draft(None, (1, 1))  # reads every byte, works out an eighth of the points
            image.load()
    except BadPhoto:
        return False
    return True


# Reading


@contextmanager
def _in_plain_words(called: str) -> Iterator[None]:
    """Turn whatever a picture makes Pillow raise into ``BadPhoto``, and let no warning out."""
    try:
        with _ONE_AT_A_TIME, warnings.catch_warnings():
            warnings.simplefilter("ignore")
            yield
    except BadPhoto:
        raise
    except Image.DecompressionBombError as trouble:
        raise _too_many_points(called) from trouble
    except MemoryError as trouble:
        raise BadPhoto(
            called, "needs more memory than is free", "close other apps, or share a smaller copy"
        ) from trouble
    except Exception as trouble:  # a hostile file can make the decoders raise nearly anything
        raise BadPhoto(
            called, "is cut off or damaged and cannot be read", "share it again, or take it again"
        ) from trouble


def _read_file(source: Path, called: str) -> bytes:
    try:
        about = source.stat()
        if stat.S_ISDIR(about.st_mode):
            raise BadPhoto(called, "is a folder, not a photo", "choose one photo in it")
        if not stat.S_ISREG(about.st_mode):
            raise BadPhoto(called, "is not a file", "choose a photo")
        if about.st_size > LARGEST_BYTES:
            raise _too_large(called)
        with source.open("rb") as file:
            return file.read(LARGEST_BYTES + 1)  # it may have grown since it was asked
    except (FileNotFoundError, NotADirectoryError, ValueError) as trouble:
        raise BadPhoto(called, "is not there any more", "choose it again") from trouble
    except PermissionError as trouble:
        raise BadPhoto(
            called, "may not be opened by this app", "allow it in the settings, or share it here"
        ) from trouble
    except OSError as trouble:
        raise BadPhoto(
            called, "cannot be read from where it is kept", "copy it to the tablet and try again"
        ) from trouble


def _picture(content: bytes, called: str, long_side_px: int) -> Image.Image:
    """Return the bare RGB picture, upright, at most ``long_side_px``; raises nearly anything."""
    if len(content) > LARGEST_BYTES:
        raise _too_large(called)
    with _opened(content, called) as image:
        if image.width * image.height > MOST_PIXELS:
            raise _too_many_points(called)
        shrunk = min(1.0, long_side_px / max(image.size))
        size = max(1, round(image.width * shrunk)), max(1, round(image.height * shrunk))
        if image.format in ("JPEG", "MPO"):
            image.draft("RGB", size)  # a half or a quarter at once, never less than the size
        image.load()
        picture = _in_srgb(_shrunk(image, size), image.info.get("icc_profile"))
        return _upright(picture, _orientation(image))


def _opened(content: bytes, called: str) -> Image.Image:
    kind = _kind(content)
    if kind in ("JPEG", "PNG", "WEBP"):
        return Image.open(BytesIO(content), formats=(kind,))
    if kind == "HEIC":
        return _opened_heic(content, called)
    if not content:
        wrong = "is empty"
    else:
        wrong = f"is {kind}, which is not read here" if kind else "is not a photo"
    raise BadPhoto(called, wrong, "choose a photo, or share it as JPEG")


def _opened_heic(content: bytes, called: str) -> Image.Image:
    try:
        heic = importlib.import_module("pillow_heif")  # an extra that a tablet does not have
        opened: Image.Image = heic.HeifImageFile(BytesIO(content))
    except ImportError as trouble:
        raise BadPhoto(
            called,
            "is a HEIC picture, which this tablet cannot read",
            "set the camera to JPEG (“most compatible”), or share it as JPEG",
        ) from trouble
    return opened


_STARTS = {
    b"\xff\xd8\xff": "JPEG",
    b"\x89PNG\r\n\x1a\n": "PNG",
    b"GIF8": "a GIF",
    b"BM": "a BMP picture",
    b"II*\0": "a TIFF or raw picture",
    b"MM\0*": "a TIFF or raw picture",
    b"%PDF": "a PDF",
    b"PK\x03\x04": "a zip file",
}
_HEIC = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"hevm", b"hevs", b"mif1", b"msf1"}


def _kind(content: bytes) -> str:
    """Return what the first bytes say it is, whatever its name; empty where they say nothing."""
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return "WEBP"
    if content[4:8] == b"ftyp":  # ISO/IEC 14496-12: the brands it can be read as
        end = min(int.from_bytes(content[:4], "big"), 256)
        brands = {content[8:12]} | {content[at : at + 4] for at in range(16, end, 4)}
        if brands & {b"avif", b"avis"}:
            return "an AVIF picture"
        return "HEIC" if brands & _HEIC else "a film"
    return next((kind for start, kind in _STARTS.items() if content.startswith(start)), "")


def _shrunk(image: Image.Image, size: tuple[int, int]) -> Image.Image:
    """Return it in ``size`` as L, RGB or CMYK: no palette, no deep greys, white where clear."""
    if image.mode.startswith("I"):  # 16-bit grey; a plain conversion would cut it off at 255
        image = image.convert("I").point(lambda grey: grey * (1 / 256)).convert("L")
    clear = image.has_transparency_data
    mode = "RGBA" if clear else image.mode if image.mode in ("L", "CMYK") else "RGB"
    if image.mode != mode:
        image = image.convert(mode)
    if image.size != size:
        image = image.resize(size, Image.Resampling.BICUBIC)
    if not clear:
        return image
    white = Image.new("RGB", size, "white")
    white.paste(image, mask=image.getchannel("A"))
    return white


def _in_srgb(picture: Image.Image, profile: object) -> Image.Image:
    """Return a new RGB picture in sRGB; a colour profile that makes no sense is left aside."""
    turned: Image.Image | None = None
    if isinstance(profile, bytes) and profile:
        try:
            own, srgb = ImageCms.ImageCmsProfile(BytesIO(profile)), ImageCms.createProfile("sRGB")
            turned = ImageCms.profileToProfile(picture, own, srgb, outputMode="RGB")
        except Exception:  # broken, for another kind of picture, or no colour engine built in
            turned = None
    bare = Image.new("RGB", picture.size)  # carries over nothing but the points
    bare.paste(turned or picture)
    return bare


def _orientation(image: Image.Image) -> int:
    """Return the EXIF orientation, 1 to 8; 1 (upright) where the EXIF cannot be read."""
    try:
        said = image.getexif().get(ExifTags.Base.Orientation)
    except Exception:  # anybody writes EXIF; the picture is still good
        return 1
    return said if isinstance(said, int) and said in range(1, 9) else 1


def _upright(bare: Image.Image, orientation: int) -> Image.Image:
    if orientation > 1:
        bare.getexif()[ExifTags.Base.Orientation] = orientation
        ImageOps.exif_transpose(bare, in_place=True)
    return bare


def as_jpeg(picture: Image.Image, quality: int) -> bytes:
    buffer = BytesIO()
    picture.save(buffer, "JPEG", quality=quality)
    return buffer.getvalue()


def _too_large(called: str) -> BadPhoto:
    wrong = f"is larger than {LARGEST_BYTES // 1_000_000} MB"
    return BadPhoto(called, wrong, "share a smaller copy")


def _too_many_points(called: str) -> BadPhoto:
    wrong = f"has more than {MOST_PIXELS // 1_000_000} million points (megapixels)"
    return BadPhoto(called, wrong, "set the camera to smaller pictures, or share a smaller copy")


def one_line(text: str) -> str:
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
