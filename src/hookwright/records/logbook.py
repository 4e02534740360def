"""What a log at the hook amounts to: where she is, her pace, what the yarn weighed, and the rows written down."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from .kept import LogEntry

LONGEST_ROW_MINUTES = 90.0
"""Between two taps; a longer gap is a pause, not work (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogSum:
    """`row` the row last done (0 = none); `done` the rows standing now, in order; `stitches` in them; grams used since the first
    weighing."""

    row: int
    done: tuple[LogEntry, ...]
    stitches: int
    minutes: float
    minutes_from: str
    seconds_per_stitch: float | None
    grams_used: float | None
    grams_stitches: int
    hook_mm: float | None
    ripped: int


def sum_up(entries: Sequence[LogEntry], counts: Mapping[int, int] | None = None) -> LogSum:
    """Sum a log (in the order of time). `counts`: the pattern's stitches by row number, used where none were told at the hook."""
    counts = counts or {}
    done: list[LogEntry] = []
    ripped = 0
    hook: float | None = None
    for entry in entries:
        if entry.kind == "row":
            done.append(entry)
        elif entry.kind == "ripped":
            standing = [row for row in done if (row.row or 0) <= (entry.row or 0)]
            ripped += len(done) - len(standing)
            done = standing
        elif entry.kind == "hook":
            hook = entry.value
    minutes, told_by = _minutes(entries)
    worked = [entry for entry in entries if entry.kind == "row"]
    all_stitches = sum(_stitches(entry, counts) for entry in worked)
    grams, between = _grams(entries, counts)
    return LogSum(
        row=(done[-1].row or len(done)) if done else 0,
        done=tuple(done),
        stitches=sum(_stitches(entry, counts) for entry in done),
        minutes=round(minutes, 1),
        minutes_from=told_by,
        seconds_per_stitch=round(minutes * 60 / all_stitches, 2) if minutes and all_stitches else None,
        grams_used=grams,
        grams_stitches=between,
        hook_mm=hook,
        ripped=ripped,
    )


def _stitches(entry: LogEntry, counts: Mapping[int, int]) -> int:
    return int(entry.value) if entry.value is not None else counts.get(entry.row or 0, 0)


def _minutes(entries: Sequence[LogEntry]) -> tuple[float, str]:
    """Minutes told; where none were, the time between taps without the pauses."""
    told = sum(entry.value or 0.0 for entry in entries if entry.kind == "minutes")
    if told:
        return told, "told"
    taps = [entry.at for entry in entries if entry.kind in ("row", "ripped")]
    gaps = [(later - earlier) / 60 for earlier, later in pairwise(taps)]
    return sum(gap for gap in gaps if gap <= LONGEST_ROW_MINUTES), "between taps"


def _grams(entries: Sequence[LogEntry], counts: Mapping[int, int]) -> tuple[float | None, int]:
    """Grams between the first and the last weighing (the ball is weighed, so the figure falls), and the stitches kept from between."""
    weighed = [i for i, entry in enumerate(entries) if entry.kind == "grams" and entry.value is not None]
    if len(weighed) < 2:
        return None, 0
    first, last = weighed[0], weighed[-1]
    standing: list[LogEntry] = []
    for entry in entries[first:last]:
        if entry.kind == "row":
            standing.append(entry)
        elif entry.kind == "ripped":
            standing = [row for row in standing if (row.row or 0) <= (entry.row or 0)]
    used = (entries[first].value or 0.0) - (entries[last].value or 0.0)
    return round(used, 2), sum(_stitches(entry, counts) for entry in standing)


def rows_written(total: LogSum, noun: str = "Row") -> tuple[str, ...]:
    """The rows standing, as lines of a pattern; rows whose words were not told are left to be written.

    >>> entry = LogEntry(kind="row", at=0.0, row=1, value=12, words="Ch 1, sc in each st across")
    >>> rows_written(sum_up([entry]))
    ('Row 1: Ch 1, sc in each st across. (12 sts)',)
    """
    lines = []
    for number, entry in enumerate(total.done, start=1):
        words = entry.words.strip().rstrip(".")
        count = f" ({int(entry.value)} sts)" if entry.value is not None else ""
        lines.append(f"{noun} {entry.row or number}: {words}.{count}" if words else f"{noun} {entry.row or number}:{count}")
    return tuple(lines)
