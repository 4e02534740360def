"""A yarn's colour sequence measured from a photo of it: colours found, runs measured, repeat length by autocorrelation. For correction.

The yarn (or a worked strip of it) lies along the picture, its colours changing from one side to the other. Bytes in, numbers out; the
picture's size is looked at before a pixel is decoded. Run as a program (`python -m hookwright.yarn.photo`) it measures standard input in a
process of its own, under limits of memory and time: pictures come from strangers.
"""

from __future__ import annotations

import io
import json
import math
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from .amounts import YarnError
from .hues import Rgb, hexed, name_of, rgb_of
from .sequence import Repeat

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

MOST_PIXELS = 50_000_000
MOST_BYTES = 60_000_000
ALONG = 1200
"""Places along the yarn that are looked at."""
FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "BMP", "GIF")
MOST_COLOURS = 8
ALIKE = 0.05
"""OKLab distance below which two shades count as one colour of the yarn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenColour:
    name: str
    rgb: Rgb

    @property
    def hex(self) -> str:
        return hexed(self.rgb)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenRun:
    """One run of colour: index into `colours`, its length in pixels of the reduced picture, and in metres when the scale is known."""

    colour: int
    pixels: float
    metres: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What a photo shows. `runs` of one repeat (of the whole picture when no repeat is seen); `repeat_pixels` None when none is.

    `strength` of the repeat's peak, 0-1; `shows_m` metres of yarn across the picture, when told.
    """

    colours: tuple[SeenColour, ...]
    runs: tuple[SeenRun, ...]
    repeat_pixels: float | None
    strength: float
    across_pixels: int
    shows_m: float | None
    notes: tuple[str, ...]

    def sequence(self) -> Repeat:
        """The runs as a sequence. Raises YarnError when the scale is not known."""
        if self.shows_m is None:
            raise YarnError("How many metres of yarn the photo shows must be told before its sequence can be used.")
        return Repeat.of((self.colours[run.colour].name, run.metres or 0.0) for run in self.runs)

    @property
    def typed(self) -> str:
        """The sequence as one would type it, for correction."""
        return ", ".join(
            f"{self.colours[r.colour].name} {r.metres:.2f} m" if r.metres else f"{self.colours[r.colour].name} {r.pixels:.0f} px"
            for r in self.runs
        )


def measure_photo(data: bytes, *, shows_m: float | None = None) -> Seen:
    """Measure a photo. `shows_m`: metres of yarn from one side of the picture to the other (a ruler laid along it tells).

    Raises YarnError for bytes that are no picture, a picture above MOST_PIXELS, or one without two colours.
    """
    if shows_m is not None and not shows_m > 0:
        raise YarnError("The photo must show more than nothing of the yarn.")
    profile = _profile(_decode(data))
    return _measure(profile, shows_m)


def _decode(data: bytes) -> Any:
    from PIL import Image, ImageOps, UnidentifiedImageError

    if len(data) > MOST_BYTES:
        raise YarnError(f"The photo is {len(data) / 1e6:.0f} MB: up to {MOST_BYTES / 1e6:.0f} MB are read.")
    Image.MAX_IMAGE_PIXELS = None
    try:
        picture = Image.open(io.BytesIO(data), formats=FORMATS)
        wide, high = picture.size
        if wide * high > MOST_PIXELS:
            raise YarnError(f"The photo has {wide * high / 1e6:.0f} megapixels: up to {MOST_PIXELS / 1e6:.0f} are read, save it smaller.")
        if min(wide, high) < 2:
            raise YarnError("The photo is less than two pixels high or wide.")
        picture.draft("RGB", (2 * ALONG, 2 * ALONG))
        picture.load()
        return ImageOps.exif_transpose(picture).convert("RGB")
    except YarnError:
        raise
    except UnidentifiedImageError:
        raise YarnError("The photo is not a picture that can be read (JPEG, PNG, WebP or TIFF).") from None
    except (OSError, ValueError, SyntaxError, MemoryError, EOFError) as failure:
        raise YarnError(f"The photo is broken and cannot be read ({type(failure).__name__}).") from None


def _profile(picture: Any) -> NDArray[np.float64]:
    """Colour along the yarn: (places, 3) in OKLab. Along = the direction in which colour differs more, yarn everywhere."""
    import numpy as np
    from PIL import Image

    wide, high = picture.size
    scale = min(1.0, ALONG / max(wide, high))
    small = picture.resize((max(2, round(wide * scale)), max(2, round(high * scale))), Image.Resampling.BOX)
    lab = _to_oklab(np.asarray(small, dtype=np.float64) / 255)
    ground = _ground(lab)
    far = None if ground is None else np.linalg.norm(lab - ground, axis=2)
    across = _means(lab, far, 0)
    down = _means(lab, far, 1)
    spread = [_variance(profile) * len(profile) / places for profile, places in ((across, lab.shape[1]), (down, lab.shape[0]))]
    return across if spread[0] >= spread[1] else down


def _ground(lab: NDArray[np.float64]) -> NDArray[np.float64] | None:
    """The colour behind the yarn, when the picture's two long rims are of one colour; else None (the yarn fills the picture)."""
    import numpy as np

    rims = (np.concatenate([lab[0], lab[-1]]), np.concatenate([lab[:, 0], lab[:, -1]]))
    for rim in rims:
        middle = np.median(rim, axis=0)
        if np.mean(np.linalg.norm(rim - middle, axis=1) < 0.06) > 0.95:
            return np.asarray(middle)
    return None


def _means(lab: NDArray[np.float64], far: NDArray[np.float64] | None, axis: int) -> NDArray[np.float64]:
    """The colour at each place along: the middle of all pixels across; before a ground the mean of those that are clearly yarn.

    `far`: each pixel's distance from the ground. Blurred rims are half ground: only pixels nearly as far from it as the farthest count.
    """
    import numpy as np

    if far is None:
        return np.asarray(np.median(lab, axis=axis))
    wanted = (far > 0.08) & (far > 0.75 * far.max(axis=axis, keepdims=True))
    weight = wanted.sum(axis=axis)
    kept = weight >= max(2, 0.02 * wanted.shape[axis])
    sums = (lab * wanted[..., None]).sum(axis=axis)
    return np.asarray(sums[kept] / weight[kept, None]) if kept.any() else np.zeros((0, 3))


def _variance(profile: NDArray[np.float64]) -> float:
    return float(profile.var(axis=0).sum()) if len(profile) else 0.0


def _to_oklab(rgb: NDArray[np.float64]) -> NDArray[np.float64]:
    import numpy as np

    light = np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)
    cones = np.cbrt(light @ np.array([[0.4122214708, 0.2119034982, 0.0883024619], [0.5363325363, 0.6806995451, 0.2817188376],
                                      [0.0514459929, 0.1073969566, 0.6299787005]]))  # fmt: skip
    return np.asarray(cones @ np.array([[0.2104542553, 1.9779984951, 0.0259040371], [0.7936177850, -2.4285922050, 0.7827717662],
                                        [-0.0040720468, 0.4505937099, -0.8086757660]]))  # fmt: skip


def _measure(profile: NDArray[np.float64], shows_m: float | None) -> Seen:
    n = len(profile)
    if n < 16 or _variance(profile) < 1e-5:
        raise YarnError("The photo shows no yarn whose colours change from side to side: lay it out along the picture, on a plain ground.")
    centres, labels = _clusters(profile)
    if len(centres) < 2:
        raise YarnError("The photo shows one colour only.")
    period, strength = _period(profile)
    folded = labels if period is None else _fold(labels, period)
    runs = _runs(folded, centres, len(folded) if period is None else period, wraps=period is not None)
    scale = None if shows_m is None else shows_m / n
    colours = _named(centres)
    notes = [] if period is not None else ["No repeat is seen: the runs are those of the whole picture."]
    if period is not None and n / period < 1.8:
        notes.append("Less than two repeats are seen: check the repeat's length by hand.")
    return Seen(
        colours=colours, runs=tuple(SeenRun(colour=c, pixels=p, metres=None if scale is None else p * scale) for c, p in runs),
        repeat_pixels=period, strength=strength, across_pixels=n, shows_m=shows_m, notes=tuple(notes),
    )  # fmt: skip


def _clusters(profile: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.int32]]:
    """Colours of the profile: the fewest clusters that leave little unexplained, shades that look alike put together."""
    from scipy.cluster.vq import kmeans2

    whole = _variance(profile) * len(profile)
    best: tuple[NDArray[np.float64], NDArray[np.int32]] | None = None
    for k in range(2, MOST_COLOURS + 1):
        tried = [kmeans2(profile, k, minit="++", seed=seed, iter=30) for seed in range(4)]
        centres, labels = min(tried, key=lambda pair: float(((profile - pair[0][pair[1]]) ** 2).sum()))
        best = centres, labels
        rest = float(((profile - centres[labels]) ** 2).sum())
        if rest < 0.02 * whole or rest / len(profile) < 0.0006:
            break
    assert best is not None
    return _merge_alike(*best)


def _merge_alike(centres: NDArray[np.float64], labels: NDArray[np.int32]) -> tuple[NDArray[np.float64], NDArray[np.int32]]:
    import numpy as np

    used = [i for i in range(len(centres)) if np.any(labels == i)]
    groups: list[list[int]] = []
    for i in sorted(used, key=lambda i: -int(np.sum(labels == i))):
        home = next((group for group in groups if np.linalg.norm(centres[group[0]] - centres[i]) < ALIKE), None)
        if home is None:
            groups.append([i])
        else:
            home.append(i)
    groups = [group for group in groups if sum(int(np.sum(labels == i)) for i in group) >= 0.02 * len(labels)] or groups
    kept = np.array([centres[group[0]] for group in groups])
    nearest = np.argmin(np.linalg.norm(centres[:, None] - kept[None], axis=2), axis=1)
    return kept, np.asarray(nearest[labels], dtype=np.int32)


def _period(profile: NDArray[np.float64]) -> tuple[float | None, float]:
    """The repeat in pixels: the *first* strong peak of the autocorrelation (its greatest may be several repeats), to a part of a pixel."""
    import numpy as np

    n = len(profile)
    centred = profile - profile.mean(axis=0)
    size = 1 << (2 * n - 1).bit_length()
    spectrum = np.fft.rfft(centred, size, axis=0)
    raw = np.fft.irfft((spectrum * spectrum.conj()).sum(axis=1), size)[:n]
    lags = np.arange(n)
    auto = raw / raw[0] * n / np.maximum(n - lags, 1)
    top = n * 3 // 4
    start = next((i for i in range(1, top) if auto[i] < 0), None)
    if start is None:
        return None, 0.0
    peaks = [i for i in range(start, top - 1) if auto[i] >= auto[i - 1] and auto[i] > auto[i + 1] and auto[i] > 0.3]
    if not peaks:
        return None, 0.0
    strongest = max(auto[i] for i in peaks)
    first = next(i for i in peaks if auto[i] >= 0.8 * strongest)
    last = max(i for i in peaks if abs(i / first - round(i / first)) < 0.12 and auto[i] >= 0.6 * strongest)
    return (_summit(auto, last) / round(last / first), float(min(1.0, auto[first])))


def _summit(auto: NDArray[np.float64], i: int) -> float:
    """The top of the parabola through a peak and its neighbours."""
    left, middle, right = (float(auto[j]) for j in (i - 1, i, i + 1))
    bend = left - 2 * middle + right
    return i + (0.5 * (left - right) / bend if bend else 0.0)


def _fold(labels: NDArray[np.int32], period: float) -> NDArray[np.int32]:
    """One repeat: at each of its places the colour met most often there."""
    import numpy as np

    places = max(8, round(period))
    at = (np.arange(len(labels)) % period / period * places).astype(int) % places
    votes = np.zeros((places, int(labels.max()) + 1))
    np.add.at(votes, (at, labels), 1)
    return np.asarray(votes.argmax(axis=1), dtype=np.int32)


def _runs(labels: NDArray[np.int32], centres: NDArray[np.float64], length: float, *, wraps: bool) -> list[tuple[int, float]]:
    """Runs of equal labels as (label, pixels); specks and blends are shared by their neighbours. A repeat begins at a change."""
    import numpy as np

    if wraps:
        turns = np.flatnonzero(labels != np.roll(labels, 1))
        if len(turns):
            labels = np.roll(labels, -int(turns[0]))
    unit = length / len(labels)
    runs: list[list[float]] = []
    for label in labels:
        if runs and runs[-1][0] == label:
            runs[-1][1] += unit
        else:
            runs.append([int(label), unit])
    while len(runs) > 1:
        speck = _speck(runs, centres, length, wraps)
        if speck is None:
            break
        gone = runs.pop(speck)[1]
        for neighbour in {(speck - 1) % len(runs), speck % len(runs)}:
            runs[neighbour][1] += gone / len({(speck - 1) % len(runs), speck % len(runs)})
        runs = _joined(runs)
    if wraps and len(runs) > 1 and runs[0][0] == runs[-1][0]:
        runs[0][1] += runs.pop()[1]
    return [(int(label), pixels) for label, pixels in runs]


def _speck(runs: Sequence[list[float]], centres: NDArray[np.float64], length: float, wraps: bool) -> int | None:
    """The shortest run that is no run of its own: under 1 % of the repeat, or under 5 % and a blend of its two neighbours."""
    for i in sorted(range(len(runs)), key=lambda i: runs[i][1]):
        if runs[i][1] < max(2.0, 0.01 * length):
            return i
        if runs[i][1] >= 0.05 * length:
            return None
        inside = wraps or 0 < i < len(runs) - 1
        if inside and _blend(centres, int(runs[i - 1][0]), int(runs[i][0]), int(runs[(i + 1) % len(runs)][0])):
            return i
    return None


def _blend(centres: NDArray[np.float64], before: int, at: int, after: int) -> bool:
    """Whether a colour lies between its neighbours: on the line from one to the other, within a fifth of its length."""
    import numpy as np

    line, here = centres[after] - centres[before], centres[at] - centres[before]
    long = float(line @ line)
    if long == 0:
        return False
    share = float(here @ line) / long
    return 0.1 < share < 0.9 and float(np.linalg.norm(here - share * line)) < 0.2 * math.sqrt(long)


def _joined(runs: Sequence[list[float]]) -> list[list[float]]:
    out: list[list[float]] = []
    for run in runs:
        if out and out[-1][0] == run[0]:
            out[-1][1] += run[1]
        else:
            out.append(list(run))
    return out


def _named(centres: NDArray[np.float64]) -> tuple[SeenColour, ...]:
    """Names that differ: a second "blue" becomes "blue 2"."""
    seen: dict[str, int] = {}
    out = []
    for centre in centres:
        rgb = rgb_of((float(centre[0]), float(centre[1]), float(centre[2])))
        name = name_of(rgb)
        seen[name] = seen.get(name, 0) + 1
        out.append(SeenColour(name=name if seen[name] == 1 else f"{name} {seen[name]}", rgb=rgb))
    return tuple(out)


def as_data(seen: Seen) -> dict[str, Any]:
    """A Seen as plain data, and back by `from_data`."""
    return {
        "colours": [{"name": c.name, "rgb": list(c.rgb)} for c in seen.colours],
        "runs": [{"colour": r.colour, "pixels": r.pixels, "metres": r.metres} for r in seen.runs],
        "repeat_pixels": seen.repeat_pixels, "strength": seen.strength, "across_pixels": seen.across_pixels, "shows_m": seen.shows_m,
        "notes": list(seen.notes),
    }  # fmt: skip


def from_data(data: dict[str, Any]) -> Seen:
    return Seen(
        colours=tuple(SeenColour(name=c["name"], rgb=tuple(c["rgb"])) for c in data["colours"]),
        runs=tuple(SeenRun(**run) for run in data["runs"]), repeat_pixels=data["repeat_pixels"], strength=data["strength"],
        across_pixels=data["across_pixels"], shows_m=data["shows_m"], notes=tuple(data["notes"]),
    )  # fmt: skip


def main() -> None:
    """Measure standard input under limits; one JSON object on standard output: {"seen": …} or {"error": sentence}."""
    try:
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (3 << 30, 3 << 30))
        resource.setrlimit(resource.RLIMIT_CPU, (20, 20))
    except (ImportError, OSError, ValueError):
        pass
    shows = float(sys.argv[1]) if len(sys.argv) > 1 and sys.argv[1] else None
    try:
        out: dict[str, Any] = {"seen": as_data(measure_photo(sys.stdin.buffer.read(MOST_BYTES + 1), shows_m=shows))}
    except YarnError as failure:
        out = {"error": str(failure)}
    except MemoryError:
        out = {"error": "The photo takes more memory than a picture may."}
    sys.stdout.write(json.dumps(out))


if __name__ == "__main__":
    main()
