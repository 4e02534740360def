"""Several things skipped, told in one list: "sk next dc, 1-ch and next dc", "skip 3 dc, ch-2 and 3 dc"."""

from __future__ import annotations

from ...pattern import Sized, Skip, Step
from .cursor import Cursor
from .nouns import noun
from .numbers import number

EXAMPLES = (
    ("sk next dc, 1-ch and next dc, sc in next dc", "skip dc, skip ch-1 sp, skip dc, sc@next dc"),
    ("skip 3 dc, ch-2 and 3 dc, sc in next ch-1 sp", "skip3 dc, skip ch-2 sp, skip3 dc, sc@next ch-1 sp"),
)


def more_skipped(c: Cursor) -> list[Step]:
    """After a first skip: the further ones of a list that ends with "and"; none, with the cursor unmoved, where no such list stands."""
    start = c.i
    found: list[Step] = []
    while c.kind in (",", "and"):
        last = c.kind == "and"
        begin = c.i
        c.i += 1
        item = _item(c, begin)
        if item is None:
            break
        found.append(item)
        if last and len(found) > 1 and c.kind in (",", ";", "."):
            return found
    c.i = start
    return []


def _item(c: Cursor, begin: int) -> Step | None:
    c.drop("next", "the", "a")
    named = c.kind == "n" and (c.look().kind == "-" or (c.look().kind == "ch" and c.look(2).kind != "n"))
    told = number(c) if c.kind == "n" and not named else None
    what = noun(c, chains=told is None)
    if what is None or c.kind in ("in", "over", "around"):
        return None
    if what.startswith("ch-") and not what.endswith("sp"):
        what += " sp"
    return Skip(id=c.id(), span=c.span(begin + 1), number=told or Sized((1,)), what=what)


def also_of_group(c: Cursor) -> list[Step]:
    """ "(Skip 1 dc of same group) and 1 dc of next group", "… and first dc of following shell": passed over too; none, with the cursor
    unmoved, where no more is."""
    begin = c.i
    if not c.take("and"):
        return []
    c.drop("the", "a", "next")
    told = number(c) if c.kind == "n" else None
    c.take("o")
    what = noun(c)
    if what is None or c.kind != "of":
        c.i = begin
        return []
    c.i += 1
    c.drop("the", "next", "other", "same")
    if c.kind not in ("group", "grp") or c.look().kind not in (",", ";", ".", "", "*", ")"):
        c.i = begin
        return []
    c.i += 1
    return [Skip(id=c.id(), span=c.span(begin + 1), number=told or Sized((1,)), what=what)]


def under_start(c: Cursor) -> bool:
    """Pass over "(right) under the ch 3", "at base of turning ch", "(the one below the ch-2)" behind a stitch that is passed over: the
    stitch that the starting chain stands in. False with the cursor unmoved."""
    begin = c.i
    close = c.close.get(c.i) if c.kind in ("(", "[") else None
    if close is not None:
        c.i += 1
    while c.kind in ("idle", "the", "at", "of") or (c.kind == "n" and c.t[c.i].text.lower() == "one"):
        c.i += 1
    if c.kind in ("under", "below", "base", "behind"):
        c.i += 1
        c.drop("of", "the", "beg")
        one = c.t[c.i - 1].kind == "below" and any(t.kind == "n" and t.val == 1 for t in c.t[begin : c.i])
        if c.kind in ("ch", "tch"):
            c.i += 1
            c.drop("-")
            c.take("n")
            if close is None or c.i == close:
                c.i = c.i if close is None else close + 1
                return True
        elif one and close is None and c.kind in (",", ";", "and", "*"):
            return True
    c.i = begin
    return False


def beyond_start(c: Cursor) -> None:
    """Pass over "after the one below", "next to the one under the chain" behind stitches passed over: they come after that stitch, as
    they would without these words."""
    begin = c.i
    if c.t[c.i].text.lower() in ("after", "beyond", "following", "past") or c.kinds("next", "to", "the"):
        c.i += 1 + (c.kind == "next")
        if not under_start(c):
            c.i = begin
