"""The weighing log: (row, grams) pairs as they are taken. The forecast follows the scale; drift of tension shows; an odd reading is
asked about."""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from .amounts import YarnError

MOST_ROWS = 20_000
ODD = 4.0
"""A reading is odd when it lies more than this many robust deviations (and more than three scale steps) off the others."""


@dataclass(frozen=True, slots=True)
class Reading:
    """After this row the scale showed so many grams."""

    row: str
    grams: float
    line: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """Readings in order; `left` True when the scale showed the yarn left, False when it showed the work."""

    readings: tuple[Reading, ...]
    left: bool


def read_log(text: str) -> Log:
    """A log from CSV: a heading naming a row column and a grams column ("left" or "work"), or two bare columns.

    Raises YarnError: no reading, a row or number that is not one, less than nothing, a row that comes twice or runs backward, yarn that
    grows.

    >>> read_log("row,left\\nRow 4,96\\nRow 8,90.5").readings[1].grams
    90.5
    """
    if text.count("\n") > MOST_ROWS:
        raise YarnError(f"The log has more than {MOST_ROWS:,} lines.")
    dialect = ";" if text.count(";") > text.count(",") else "\t" if text.count("\t") > text.count(",") else ","
    rows = [[cell.strip() for cell in row] for row in csv.reader(io.StringIO(text.lstrip("\ufeff")), delimiter=dialect)]
    numbered = [(line, row) for line, row in enumerate(rows, 1) if any(row)]
    head = [cell.lower() for cell in numbered[0][1]] if numbered else []
    named = bool(head) and not re.search(r"\d", "".join(head))
    row_at, gram_at, words = _columns(head) if named else (0, 1, "")
    readings = tuple(_reading(line, row, row_at, gram_at) for line, row in numbered[int(named) :])
    if not readings:
        raise YarnError("The log holds no reading: give lines like `Row 12, 84`.")
    left = _is_left(words, readings)
    _forwards(readings, left)
    return Log(readings=readings, left=left)


def _columns(head: Sequence[str]) -> tuple[int, int, str]:
    row = next((i for i, cell in enumerate(head) if re.search(r"row|rnd|round|reihe|rang", cell)), None)
    gram = next((i for i, cell in enumerate(head) if i != row and re.search(r"\bg\b|gram|left|work|weigh|oz", cell)), None)
    if row is None or gram is None:
        raise YarnError('The log\'s heading must name a row column and a grams column, for example "row,grams left".')
    return row, gram, head[gram]


def _reading(line: int, row: Sequence[str], row_at: int, gram_at: int) -> Reading:
    if len(row) <= max(row_at, gram_at):
        raise YarnError(f"Line {line} of the log has no two columns: give a row and its grams.")
    match = re.fullmatch(r"[-+]?\d+(?:[.,]\d+)?", re.sub(r"\s*g(rams?)?$", "", row[gram_at]))
    if match is None or _number_in(row[row_at]) is None:
        raise YarnError(f'Line {line} of the log, "{row[row_at]}, {row[gram_at]}", is not a row and its grams.')
    grams = float(match[0].replace(",", "."))
    if grams < 0:
        raise YarnError(f"Line {line} of the log says {grams:g} g: less than nothing.")
    return Reading(row[row_at], grams, line)


def _number_in(label: str) -> int | None:
    found = re.search(r"(\d+)\D*$", label)
    return int(found[1]) if found else None


def _is_left(words: str, readings: Sequence[Reading]) -> bool:
    if re.search(r"left|rest|remain|ball", words):
        return True
    if re.search(r"work|piece|done|used", words):
        return False
    return readings[-1].grams <= readings[0].grams


def _forwards(readings: Sequence[Reading], left: bool) -> None:
    for before, after in pairwise(readings):
        if (_number_in(after.row) or 0) <= (_number_in(before.row) or 0) and _word(before.row) == _word(after.row):
            raise YarnError(f"The log runs backward: {after.row} (line {after.line}) comes after {before.row}.")
        if left and after.grams > before.grams + 1e-9:
            raise YarnError(
                f"The log runs backward: {after.grams:g} g left after {after.row}, more than the {before.grams:g} g after {before.row}."
            )
        if not left and after.grams < before.grams - 1e-9:
            raise YarnError(
                f"The log runs backward: the work weighs {after.grams:g} g after {after.row}, less than {before.grams:g} g "
                f"after {before.row}."
            )


def _word(label: str) -> str:
    return re.sub(r"[\d.:# ]+", "", label).lower()


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """What the log tells. `ratio`: grams really used over estimated, between the first and last reading (odd readings set aside); `sd`
    of its
    log; `drift_percent_per_100_rows`: change of tension, with its own standard error; `odd`: readings to look at again, a sentence each."""

    ratio: float
    sd: float
    expected_g: float
    used_g: float
    drift_percent_per_100_rows: float
    drift_error: float
    odd: tuple[str, ...]
    last_index: int
    last_grams: float
    left: bool
    said: tuple[str, ...]

    @property
    def drifts(self) -> bool:
        """Whether a drift is seen beyond twice its error."""
        return abs(self.drift_percent_per_100_rows) > 2 * self.drift_error > 0


def row_index(label: str, labels: Sequence[str]) -> int:
    """Where a row of the log stands among the piece's rows. Raises YarnError when there is none such."""
    plain = {_plain(name): i for i, name in enumerate(labels)}
    found = plain.get(_plain(label))
    if found is None:
        number = _number_in(label)
        by_number = [i for i, name in enumerate(labels) if _number_in(name) == number]
        if not by_number:
            raise YarnError(f"The log names {label}, but the pattern has no such row.")
        found = by_number[0]
    return found


def _plain(label: str) -> str:
    return re.sub(r"\W+", " ", label.lower().replace("round", "rnd")).strip()


def forecast(log: Log, grams_upto: Sequence[float], labels: Sequence[str], *, scale_g: float = 1.0) -> Forecast:
    """Compare a log with the estimate. `grams_upto[i]`: estimated grams used at the end of row i; `labels` of the same rows.

    Between neighbouring readings the ratio of used to estimated grams is a reading of her tension; the middle of them is robust, the sum
    between first and last is exact up to the scale's step. Raises YarnError when the log names rows that are not there, or only one.
    """
    at = [row_index(reading.row, labels) for reading in log.readings]
    if any(b <= a for a, b in pairwise(at)):
        raise YarnError("The log runs backward: its rows are not in the order of the pattern.")
    if len(at) < 2:
        raise YarnError("One reading tells nothing by itself: weigh again after a few rows.")
    sign = -1.0 if log.left else 1.0
    steps = [
        (a, b, sign * (y.grams - x.grams), grams_upto[b] - grams_upto[a]) for (a, x), (b, y) in pairwise(zip(at, log.readings, strict=True))
    ]
    odd = _odd(steps, log, scale_g)
    kept = [step for n, step in enumerate(steps) if n not in odd]
    used, expected = sum(step[2] for step in kept), sum(step[3] for step in kept)
    if expected <= 0 or used <= 0:
        raise YarnError("Between the readings of the log no yarn was used: the scale's step is too coarse, or the rows are too few.")
    drift, error = _drift(kept, used / expected, scale_g)
    ratio = used / expected
    sd = math.hypot(scale_g * math.sqrt(2 / 12) / used, 0.03 / math.sqrt(max(1, len(kept))))
    said = [f"From {log.readings[0].row} to {log.readings[-1].row}: {used:.1f} g used where {expected:.1f} g were expected: x {ratio:.3f}."]
    if error and abs(drift) > 2 * error:
        said.append(f"Your tension drifts: {drift:+.1f} % yarn per 100 rows (± {error:.1f}); the forecast follows the last rows.")
    return Forecast(
        ratio=ratio, sd=sd, expected_g=expected, used_g=used, drift_percent_per_100_rows=drift, drift_error=error,
        odd=tuple(_ask(steps[n], log, n) for n in sorted(odd)), last_index=at[-1], last_grams=log.readings[-1].grams, left=log.left,
        said=tuple(said),
    )  # fmt: skip


def _odd(steps: Sequence[tuple[int, int, float, float]], log: Log, scale_g: float) -> set[int]:
    """Steps that differ from the middle one by more than chance and the scale's step allow (at least four steps are needed to tell)."""
    ratios = [used / expected for _, _, used, expected in steps if expected > 0]
    if len(ratios) < 4:
        return set()
    middle = median(ratios)
    spread = 1.4826 * median(abs(ratio - middle) for ratio in ratios)
    out = set()
    for n, (_, _, used, expected) in enumerate(steps):
        off = used - middle * expected
        if abs(off) > max(ODD * spread * expected, 3 * scale_g * math.sqrt(2 / 12), 0.1 * middle * expected):
            out.add(n)
    return out if len(out) * 2 < len(steps) else set()


def _ask(step: tuple[int, int, float, float], log: Log, n: int) -> str:
    before, after = log.readings[n], log.readings[n + 1]
    return (
        f"Between {before.row} and {after.row} {step[2]:.1f} g went, where about {step[3]:.1f} g were expected: "
        f"is {before.grams:g} g or {after.grams:g} g misread, was something ripped back, or was the work wet?"
    )


def _drift(kept: Sequence[tuple[int, int, float, float]], ratio: float, scale_g: float) -> tuple[float, float]:
    """Percent change of yarn per 100 rows by weighted least squares on the steps' ratios, and its standard error from the scale's step."""
    if len(kept) < 4:
        return 0.0, 0.0
    weights = [(expected / scale_g) ** 2 for _, _, _, expected in kept]
    middles = [(a + b) / 2 for a, b, _, _ in kept]
    centre = sum(w * x for w, x in zip(weights, middles, strict=True)) / sum(weights)
    sxx = sum(w * (x - centre) ** 2 for w, x in zip(weights, middles, strict=True))
    ratios = [used / expected for _, _, used, expected in kept]
    mean = sum(w * y for w, y in zip(weights, ratios, strict=True)) / sum(weights)
    slope = sum(w * (x - centre) * (y - mean) for w, x, y in zip(weights, middles, ratios, strict=True)) / sxx if sxx else 0.0
    residual = sum(w * (y - mean - slope * (x - centre)) ** 2 for w, x, y in zip(weights, middles, ratios, strict=True)) / (len(kept) - 2)
    error = math.sqrt(max(residual, 2 / 12) / sxx) if sxx else 0.0
    return slope / ratio * 100 * 100, error / ratio * 100 * 100


def summary(found: Forecast) -> Mapping[str, float | list[str]]:
    """The forecast for programs."""
    return {"ratio": found.ratio, "used_g": found.used_g, "expected_g": found.expected_g,
            "drift_percent_per_100_rows": found.drift_percent_per_100_rows, "asked": list(found.odd)}  # fmt: skip
