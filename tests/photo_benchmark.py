"""How long a 12-megapixel photo takes and how much memory, beside Pillow used plainly.

    python -m tests.photo_benchmark

Both ways make the same from the same file: an upright JPEG of 2,048 points and a thumbnail.
Each has a fresh process: memory is the highest it came to in the first run, less what it had
with everything imported; time is the median of the runs after it.
"""

import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

from PIL import ExifTags, Image, ImageChops, ImageFilter, ImageOps

from core.photos import LONG_SIDE_PX, THUMBNAIL_PX, read_photo

ROOT = Path(__file__).resolve().parents[1]
SIZE_PX = (4000, 3000)
RUNS = 9


def make_photo(path: Path) -> None:
    """Write a photo of invented folds with the grain of a small camera, lying on its side."""
    chance = random.Random(12)
    small = Image.new("RGB", (40, 30))
    small.putdata([tuple(chance.randint(30, 225) for _ in range(3)) for _ in range(1200)])
    folds = small.resize(SIZE_PX, Image.Resampling.BICUBIC)
    grain = Image.effect_noise(SIZE_PX, 30).filter(ImageFilter.GaussianBlur(0.7)).convert("RGB")
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = 6
    ImageChops.overlay(folds, grain).save(path, "JPEG", quality=92, exif=exif)


def ours(path: Path) -> tuple[bytes, bytes]:
    """Read it as the app does."""
    photo = read_photo(path)
    return photo.content, photo.thumbnail


def plain(path: Path) -> tuple[bytes, bytes]:
    """Read it with Pillow's own functions in the order of their documentation."""
    made = []
    with Image.open(path) as image:
        picture = ImageOps.exif_transpose(image)
    for side_px in (LONG_SIDE_PX, THUMBNAIL_PX):
        picture.thumbnail((side_px, side_px))
        buffer = BytesIO()
        picture.save(buffer, "JPEG", quality=88, exif=b"")
        made.append(buffer.getvalue())
    return made[0], made[1]


WAYS: dict[str, Callable[[Path], tuple[bytes, bytes]]] = {"ours": ours, "plain": plain}


def peak_mb() -> float:
    """Return the most memory this process has had.

    Linux counts the parent's into ``ru_maxrss`` of a new process, so its own count comes first.
    """
    status = Path("/proc/self/status")
    if status.exists():
        line = next(line for line in status.read_text().splitlines() if line.startswith("VmHWM"))
        return int(line.split()[1]) / 1024
    import resource  # not on Windows

    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / (1024 * 1024 if sys.platform == "darwin" else 1024)


def run_one(way: str, path: Path) -> None:
    """Print memory (MB), median time (ms), length and bytes of what one way makes."""
    read = WAYS[way]
    Image.init()  # loads what reads and writes pictures
    before = peak_mb()
    content, _ = read(path)
    memory = peak_mb() - before
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        read(path)
        times.append(time.perf_counter() - start)
    with Image.open(BytesIO(content)) as image:
        print(memory, statistics.median(times) * 1000, *image.size, len(content))


def measure() -> str:
    """Return the two ways as lines of text, measured now."""
    lines = []
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "photo.jpg"
        _fresh("make", path)
        size_mb = path.stat().st_size / 1e6
        lines.append(f"a photo of {SIZE_PX[0]} × {SIZE_PX[1]} points, {size_mb:.1f} MB")
        for way, name in (("ours", "as the app reads it"), ("plain", "Pillow used plainly")):
            memory, ms, width, height, kept = map(float, _fresh(way, path).split())
            lines.append(f"{name:<22} {ms:6.0f} ms  {memory:6.0f} MB more at most;"
                         f" {width:.0f} × {height:.0f}, {kept / 1e6:.2f} MB")  # fmt: skip
    return "\n".join(lines)


def _fresh(way: str, path: Path) -> str:
    command = [sys.executable, "-m", "tests.photo_benchmark", way, str(path)]
    return subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout


def main(words: list[str]) -> None:
    if not words:
        print(measure())
    elif words[0] == "make":
        make_photo(Path(words[1]))
    else:
        run_one(words[0], Path(words[1]))


if __name__ == "__main__":
    main(sys.argv[1:])
