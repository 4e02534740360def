"""A graded set from one pattern: the same piece at several widths, one pattern with numbers for every size where the rows allow it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...measuring import measure
from ...pattern import Pattern
from ...trade import units
from ...working import work
from ..asks import Refused
from ..families.sized import run_of
from ..outline import box
from ..result import Asked, Draft, View
from ..telling import numbered
from .extract import Plain, custom_told, gauge_told, plain_parts
from .lengthen import row_word
from .regauge import reworked
from .repeats import by_repeats, goes_around, widths_of
from .sizes import Made, in_sizes, merged
from .stretch import by_length


def graded(pattern: Pattern, widths: str) -> Draft:
    """The pattern in a run of sizes, told by the width of its widest row: "38 (42, 46) cm"; its length stays.

    Every size keeps the side its last row shows. Refuses sizes that come out alike in this gauge.
    """
    names, wanted = run_of(Asked(words={"widths": widths}), "widths", "", {})
    if pattern.sizes > 1:
        raise Refused("The pattern has several sizes already.", "Keep one of them, and grade that.")
    try:
        fabric, parts = plain_parts(pattern)
    except Refused:
        return _by_repeats(pattern, names, wanted)
    if any(part.inside for part in parts):
        try:
            return _by_repeats(pattern, names, wanted)  # her shaping stays where she put it, in one text
        except Refused:
            pass
    custom = custom_told(pattern, fabric, gauge_told(pattern))
    widest = max(max(part.counts or tuple(row.count for row in part.rows)) for part in parts) * custom.width_cm
    made = [[reworked(part, custom, custom, across=w / widest, along=w / widest if part.ring else 1.0) for part in parts] for w in wanted]
    _apart(made, names)
    return in_sizes(pattern, "in sizes", made, names, custom, _told(parts, made, wanted))


def _by_repeats(pattern: Pattern, names: Sequence[str], wanted: Sequence[float]) -> Draft:
    """A piece in a stitch pattern: every size as many whole repeats wide as come nearest to it, all of one length."""
    _, repeat, rows, group = widths_of(pattern)
    measured = measure(work(pattern)).parts[0]
    around = goes_around(measured)
    now = measured.width_cm * (2 if around else 1)
    step = gauge_told(pattern).width_cm * repeat
    try:
        made = [by_repeats(pattern, wider=round((w - now) / step)) for w in wanted]
        whole = f"repeats of {repeat} stitches" if repeat > 1 else "stitches"
        notes: tuple[str, ...] = (f"Every size is a whole number of {whole} wide; all have the same {row_word(pattern.parts[0])}s.",)
    except Refused as refusal:
        made = _grown(pattern, [w / now for w in wanted], rows, group, refusal)
        notes = ("The piece grows with its rows, so every size is as many rows longer or shorter as its width asks.",)
    for k in range(1, len(made)):
        if made[k].pattern.parts == made[k - 1].pattern.parts:
            raise Refused(
                f"In repeats of {repeat} stitches the sizes {names[k - 1]} and {names[k]} come out alike.", "Leave one of them out."
            )
    listed = merged([one.pattern.parts[0] for one in made], names)
    facts = replace(made[0].pattern.facts, size_names=tuple(names), title=f"{pattern.facts.title or 'Piece'}, in sizes")
    sizes = tuple(
        replace(one.sizes[0], what=f"size {name}, {one.sizes[0].what}", asked_cm=w)
        for name, w, one in zip(names, wanted, made, strict=True)
    )
    flat = 0.5 if around else 1.0
    views = tuple(
        View(f"size {name}", box(w * flat, one.sizes[1].asked_cm), box(one.sizes[0].cm * flat, one.sizes[1].cm))
        for name, w, one in zip(names, wanted, made, strict=True)
    )
    if len(listed) > 1:
        notes = (*notes, "The rows differ too much to be written together, so each size has its own.")
    return replace(made[0], pattern=numbered(replace(pattern, facts=facts, parts=listed)), sizes=sizes, views=views, notes=notes)


def _grown(pattern: Pattern, times: Sequence[float], rows: int, group: int, refusal: Refused) -> list[Draft]:
    """The sizes of a piece that is as wide as it has grown: by its rows. Refuses, with `refusal`, one whose rows do not widen it."""
    try:
        made = [by_length(pattern, (t - 1) * rows, group) for t in times]
    except Refused:
        raise refusal from None
    before = made[0].sizes[0].asked_cm
    if any(abs(one.sizes[0].cm / before - t) > 0.5 * group / rows for one, t in zip(made, times, strict=True)):
        raise refusal
    return made


def _apart(made: Sequence[Sequence[Made]], names: Sequence[str]) -> None:
    for k in range(1, len(made)):
        if made[k][0][0] == made[k - 1][0][0]:
            raise Refused(f"In this gauge the sizes {names[k - 1]} and {names[k]} come out alike.", "Leave one of them out.")


def _told(parts: Sequence[Plain], made: Sequence[Sequence[Made]], wanted: Sequence[float]) -> tuple[str, ...]:
    ring = "What begins in a ring grows in height as in girth." if any(part.ring for part in parts) else ""
    rows = [[size.counted for size in one[0][2]][-1] for one in made]
    even = "Every size has the same rows, so that the same side shows at the end." if len(set(rows)) == 1 else ""
    return tuple(note for note in (ring, even, f"Sizes by width: {', '.join(units.both_lengths(cm) for cm in wanted)}.") if note)
