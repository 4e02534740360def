"""The last repeat's chain made of another length: "at the end ch 1 in place of the ch 4", "replacing the last ch 2 with ch 1"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Chain, Repeat, Sized, Step
from .cursor import Cursor

EXAMPLES = (
    ("*skip 1, dc in next st, ch 2; rep from *, at the end ch 1 in place of the ch 2, dc in last sc",
     "[skip, dc, ch2]×rest last (ch1) cut 2, dc@last sc"),
    ("*skip 1, dc in next st, ch 2; rep from * across, replacing the last ch 2 with ch 1, dc in last sc",
     "[skip, dc, ch2]×rest last (ch1) cut 2, dc@last sc"),
)  # fmt: skip
BEGINS = frozenset(("ch", "n", "of", "at", "end", "ending", "with", "but", "in", "w", "change", "work"))
"""Kinds of words that such a phrase begins with."""
_LEADS = frozenset(
    "at the end of row round rnd last repeat rep but on in make making work only with ending end each do doing just once".split()  # noqa: SIM905
)
_FOR = (("in", "place", "of"), ("instead", "of"), ("rather", "than"), ("for",), ("and", "not"), ("not",))
_REPLACING = frozenset(("replacing", "replace", "substituting", "exchanging", "changing"))


def chain_in_place(c: Cursor) -> list[Step] | None:
    """The repeat just read, its last time with that chain; None with the cursor unmoved."""
    at = next((k for k in range(len(c.out) - 1, -1, -1) if not isinstance(c.out[k], Aside)), None)
    run = c.out[at] if at is not None else None
    if at is None or not isinstance(run, Repeat) or run.cut is not None or not isinstance(run.body[-1], Chain):
        return None
    start, usual = c.i, run.body[-1].number.values[0]
    if len(run.last) == 1 and isinstance(run.last[0], Chain) and _instead(c, usual):
        c.out[at] = replace(run, cut=len(run.body) - 1)  # "…, ending with ch 1 instead of ch 4"
        return []
    if run.last:
        return None
    now = _told_before(c, usual) or _told_behind(c, usual)
    if now is None:
        c.i = start
        return None
    chain = Chain(id=c.id(), span=c.span(start), number=Sized((now,)))
    c.out[at] = replace(run, last=(chain,), cut=len(run.body) - 1)
    return []


def _told_before(c: Cursor, usual: int | None) -> int | None:
    """ "(At the end) ch 1 in place of the ch 4", "ch 1 instead of 2": the new length; None elsewhere."""
    begin = c.i
    while c.t[c.i].text.lower() in _LEADS:
        c.i += 1
    now = _length(c)
    if now is not None and _instead(c, usual):
        return now
    c.i = begin
    return None


def _instead(c: Cursor, usual: int | None) -> bool:
    """Past "in place of the ch 4", "instead of 4", where that is the chain of the unit; False with the cursor unmoved."""
    begin = c.i
    c.i -= c.kind == "of" and c.t[c.i - 1].text.lower() == "instead"
    words = next((form for form in _FOR if tuple(t.text.lower() for t in c.t[c.i : c.i + len(form)]) == form), None)
    if words is not None:
        c.i += len(words)
        _which(c)
        if _length(c, bare=True) == usual:
            return True
    c.i = begin
    return False


def _told_behind(c: Cursor, usual: int | None) -> int | None:
    """ "Replacing the last ch 2 with ch 1": the new length; None elsewhere."""
    begin = c.i
    if c.t[c.i].text.lower() in _REPLACING:
        c.i += 1
        _which(c)
        if _length(c) == usual and c.t[c.i].text.lower() in ("with", "by", "for", "to", "into"):
            c.i += 1
            c.drop("a", "only")
            return _length(c)
    c.i = begin
    return None


def _which(c: Cursor) -> None:
    while c.t[c.i].text.lower() in ("the", "last", "final", "usual", "a"):
        c.i += 1


def _length(c: Cursor, *, bare: bool = False) -> int | None:
    """ "Ch 4", "ch-4", "4 ch", `bare`: "4" alone; the cursor then behind it."""
    begin = c.i
    chained = bool(c.take("ch"))
    c.take("-")
    told = c.take("n")
    chained = bool(c.take("ch")) or chained
    c.drop("sp", "lp")
    if told is None or not isinstance(told.val, int) or not (chained or bare):
        c.i = begin
        return None
    return told.val
