"""A yarn's sequence from a photo: pictures drawn here (no real yarn photo was measured), and pictures that are none."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image, ImageFilter

from hookwright.yarn import YarnError, measure_photo, name_of, rgb_for
from hookwright.yarn.hues import SPARE, apart, hexed
from hookwright.yarn.photo import MOST_PIXELS, as_data, from_data

RUNS = [((40, 80, 160), 1.5), ((210, 190, 150), 0.8), ((176, 82, 42), 0.6), ((100, 140, 80), 2.2), ((150, 150, 155), 0.9)]


def drawn(
    repeats: float, px_per_m: float, *, ground: tuple[int, int, int] | None = None, noise: float = 10, turned: bool = False, seed: int = 3
) -> bytes:
    """A strand of yarn along a picture, with noise and blur, on a plain ground or filling the picture."""
    rng = np.random.default_rng(seed)
    ends = np.cumsum([metres for _, metres in RUNS])
    wide = int(ends[-1] * repeats * px_per_m)
    at = ((np.arange(wide) + 0.5) / px_per_m + 0.4) % ends[-1]
    colours = np.array([rgb for rgb, _ in RUNS], dtype=float)[np.searchsorted(ends, at, side="right")]
    pixels = np.repeat(colours[None], 40, axis=0) + rng.normal(0, noise, (40, wide, 3))
    picture = Image.fromarray(np.clip(pixels, 0, 255).astype("uint8")).filter(ImageFilter.GaussianBlur(2))
    if ground is not None:
        sheet = Image.new("RGB", (wide, 200), ground)
        sheet.paste(picture, (0, 80))
        picture = sheet
    if turned:
        picture = picture.transpose(Image.Transpose.ROTATE_270)
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=85)
    return out.getvalue()


@pytest.mark.parametrize("ground", [None, (250, 250, 250), (60, 40, 30)])
@pytest.mark.parametrize(("repeats", "px"), [(6.6, 40.0), (2.3, 180.0), (4.4, 333.0)])
def test_repeat_and_runs_are_found(ground: tuple[int, int, int] | None, repeats: float, px: float) -> None:
    seen = measure_photo(drawn(repeats, px, ground=ground), shows_m=6.0 * repeats)
    assert seen.repeat_pixels is not None
    assert seen.sequence().metres == pytest.approx(6.0, rel=0.01)
    assert len(seen.colours) == 5
    lengths = sorted(run.metres or 0 for run in seen.runs)
    assert lengths == pytest.approx(sorted(metres for _, metres in RUNS), abs=0.1)
    for run in seen.runs:
        near = min(RUNS, key=lambda told: apart(told[0], seen.colours[run.colour].rgb))
        assert apart(near[0], seen.colours[run.colour].rgb) < 0.05
        assert run.metres == pytest.approx(near[1], abs=0.1)


def test_the_first_repeat_not_the_strongest_is_taken() -> None:
    """Nearly seven repeats lie in the picture; each multiple is a peak as well."""
    seen = measure_photo(drawn(6.9, 40.0))
    assert seen.repeat_pixels is not None
    assert seen.across_pixels / seen.repeat_pixels == pytest.approx(6.9, rel=0.02)


def test_a_picture_that_stands_upright() -> None:
    assert measure_photo(drawn(3.2, 60.0, turned=True), shows_m=19.2).sequence().metres == pytest.approx(6.0, rel=0.02)


def test_without_a_scale_nothing_is_used() -> None:
    seen = measure_photo(drawn(3.2, 60.0))
    assert "px" in seen.typed
    with pytest.raises(YarnError, match="How many metres"):
        seen.sequence()
    assert from_data(as_data(seen)) == seen


def _saved(picture: Image.Image, kind: str = "PNG") -> bytes:
    out = io.BytesIO()
    picture.save(out, kind)
    return out.getvalue()


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "not a picture"),
        (b"Row 1: ch 12", "not a picture"),
        (b"\x89PNG\r\n\x1a\n" + b"\0" * 30, "broken|not a picture"),
        (drawn(2.3, 60.0)[:900], "broken"),
        (_saved(Image.new("RGB", (400, 40), (90, 90, 90))), "no yarn whose colours change"),
        (_saved(Image.new("RGB", (1, 400))), "less than two pixels"),
        (_saved(Image.new("1", (20_000, 10_000))), "200 megapixels"),
    ],
    ids=["empty", "text", "torn-png", "torn-jpeg", "one-colour", "thin", "200-megapixels"],
)
def test_what_is_no_photo_of_yarn_is_one_sentence(data: bytes, words: str) -> None:
    with pytest.raises(YarnError, match=words) as told:
        measure_photo(data)
    assert str(told.value).rstrip(".").count(". ") == 0


def test_size_is_looked_at_before_a_pixel_is_decoded() -> None:
    import time

    data = _saved(Image.new("1", (30_000, 30_000)))
    start = time.process_time()
    with pytest.raises(YarnError):
        measure_photo(data)
    assert time.process_time() - start < 0.5
    assert MOST_PIXELS < 30_000 * 30_000


def test_names_of_colours() -> None:
    assert name_of((40, 80, 160)) == "blue"
    assert name_of((176, 82, 42)) == "rust"
    assert rgb_for("deep blue") != rgb_for("blue") != rgb_for("pale blue")
    assert rgb_for("#112233") == (0x11, 0x22, 0x33)
    assert hexed(rgb_for("Kittiwake", 2)) == hexed(SPARE[2])
