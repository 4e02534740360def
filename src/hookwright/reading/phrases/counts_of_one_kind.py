"""Counts made one: told piece by piece along the row ("(5 dc, ch-2 sp, 10 dc)" states 15 dc), or of blocks where nobody says so."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Count, Make, Refer, Repeat, Sized, Span, Together
from .cursor import Cursor
from .nouns import TILES
from .numbers import number


def added_up(c: Cursor) -> tuple[Count, ...]:
    """The row's counts, those of one kind in one bracket added up; a number alone behind a row of blocks counts these."""
    if c.counts and _all_blocks(c):
        c.counts[:] = [
            replace(one, kind="block") if one.kind in TILES or (one.kind == "st" and not _says_stitch(c, one.span)) else one
            for one in c.counts
        ]
    if len(c.counts) < 2 or _only_refers(c):
        return tuple(c.counts)
    out: list[Count] = []
    for count in c.counts:
        at = next((k for k, other in enumerate(out) if _alike(count, other) and _in_one_bracket(c, other.span, count.span)), None)
        if at is None:
            out.append(count)
        else:
            first = out[at]
            out[at] = replace(first, number=_sum(first.number, count.number), span=Span(first.span.start, count.span.end))
    return tuple(out)


def _only_refers(c: Cursor) -> bool:
    """ "Rows 4-6: Repeat Row 3. (24 dc, 30 dc, 36 dc)": what is listed is a count for each of the rows."""
    out = c.frames[0].out
    return any(isinstance(step, Refer) for step in out) and not any(isinstance(step, (Make, Together, Repeat)) for step in out)


def _all_blocks(c: Cursor) -> bool:
    made = [step for step in c.frames[0].out if isinstance(step, (Make, Together))]
    return bool(made) and all(isinstance(step, Together) and step.name == "block" and step.at.what == "piece" for step in made)


def _says_stitch(c: Cursor, span: Span) -> bool:
    return any(token.kind in ("st", "noun") for token in c.t if span.start <= token.start < span.end)


def one_space(c: Cursor, at: int, end: int) -> bool:
    """Whether token `at` begins "ch-2 sp" without a number between counted stitches ("(8 dc, ch-2 sp, 2 dc)"): one of them."""
    kinds = [token.kind for token in c.t[at : at + 4]]
    if (
        at + 4 > end
        or c.t[at - 1].kind not in (",", "and", "+", "center", "corner")
        or kinds[:3] != ["ch", "-", "n"]
        or kinds[3] not in ("sp", "lp")
    ):
        return False
    return at + 4 == end or c.t[at + 4].kind in (",", "and", "+")


def so_often(c: Cursor, end: int) -> Count | None:
    """ "(28 dc, ch 2 12 times)", "(28 dc, ch-2 sp x 12)", "(2 x 6 ch)": a space with how often it comes; None with the cursor unmoved."""
    start = c.i
    often = _times(c, end, ahead=True) if c.kind == "n" else None
    if often is not None and c.kind == "n" and c.look(1 + (c.look().kind == "-")).kind == "ch":
        return _chains_behind(c, end, often, start)
    kinds = [token.kind for token in c.t[start : start + 4]]
    if kinds[:3] == ["n", "ch", "n"] and (start + 3 == end or kinds[3:] in ([","], ["and"], ["+"], [";"])):
        c.i = start + 3  # "(20 sc, two ch 5)"
        return Count(number=Sized((int(c.t[start].val),)), kind=f"ch-{c.t[c.i - 1].val} sp")
    wide = c.look(1 + (c.look().kind == "-")) if c.kind == "ch" else None
    if wide is None or not isinstance(wide.val, int) or (c.t[start].kind == "n" and often is None):
        c.i = start
        return None
    while c.t[c.i] is not wide:
        c.i += 1
    c.i += 1
    c.drop("sp", "lp")
    often = often or _times(c, end, ahead=False)
    if often is None or c.i > end:
        c.i = start
        return None
    return Count(number=often, kind=f"ch-{wide.val} sp")


def _chains_behind(c: Cursor, end: int, often: Sized[int], start: int) -> Count | None:
    """ "(18 sc, 2 x 6 ch)", "2 x 6 ch loops", "2 x 6-ch sps": the length told before the word, as many makers in the UK write it."""
    wide = c.t[c.i].val
    c.i += 2 + (c.look().kind == "-")
    c.drop("sp", "lp")
    if c.i > end or not isinstance(wide, int) or (c.i < end and c.kind not in (",", "and", "+", "&", ";", ")", "|")):
        c.i = start
        return None
    return Count(number=often, kind=f"ch-{wide} sp")


def _times(c: Cursor, end: int, *, ahead: bool) -> Sized[int] | None:
    """ "12 times", "x 12"; `ahead`, before what it is told of: "12 times", "12 x"."""
    signed = not ahead and c.t[c.i].text.lower() in ("x", "×")
    c.i += signed
    often = number(c) if c.i < end else None
    if often is None or signed:
        return often
    after = c.kind == "times" or (ahead and c.t[c.i].text.lower() in ("x", "×"))
    c.i += after
    return often if after else None


def _alike(a: Count, b: Count) -> bool:
    plain = not (a.change or a.per or a.running or a.approximate or b.change or b.per or b.running or b.approximate)
    return plain and a.kind == b.kind and a.kind != "st" and len(a.number.values) == len(b.number.values)


def _in_one_bracket(c: Cursor, a: Span, b: Span) -> bool:
    return any(c.t[k].start <= a.start and b.end <= c.t[close].end for k, close in c.close.items())


def _sum(a: Sized[int], b: Sized[int]) -> Sized[int]:
    pairs = zip(a.values, b.values, strict=True)
    return Sized(tuple(None if x is None or y is None else x + y for x, y in pairs))
