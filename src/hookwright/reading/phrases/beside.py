"""What is told beside a stitch's name: its loop, its post, its colour, its terms, the chains between, the ring it goes into."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from ...pattern import ONE, Chain, Colour, Make, Place, Repeat, Ring, Sized, Skip, Step, Times, Together
from ..wording.terms import Terms
from .cursor import Cursor
from .places import spot
from .shapes import unplaced

_COLOUR_TOLD = frozenset(("in", "over", "around", "between", ",", ")", "]", "}", "*", ";", ".", "", "and", "then", "("))


_COLOUR_ENDS = frozenset((",", ";", ".", ")", "]", "*", "and", "then", "(", "[", ""))


def terms_said(c: Cursor) -> Terms | None:
    """ "1 UK dc (US sc)": the terms told with the very stitch."""
    if c.kind == "w" and c.t[c.i].val in ("uk", "us") and c.look().kind == "st":
        c.i += 1
        return "UK" if c.t[c.i - 1].val == "uk" else "US"
    return None


def other_terms(c: Cursor) -> None:
    """Pass over "(US sc)" behind it: the same stitch in the other terms."""
    close = c.close.get(c.i)
    if close is not None and c.kind == "(" and c.look().val in ("uk", "us") and c.look(2).kind == "st" and close == c.i + 3:
        c.i = close + 1


def in_colour(c: Cursor) -> list[Step]:
    """ "sc in Cream in a ch-1 sp", "3 sc red, 1 sc white": the colour is told with the stitch."""
    from .colours import NAMES, name

    start = c.i
    if c.kind == "w" and (c.t[c.i].val in c.ctx.colours or c.t[c.i].val in NAMES) and c.look().kind in _COLOUR_ENDS:
        c.i += 1
        return [Colour(id=c.id(), span=c.span(start), yarn=c.t[start].text)]
    if c.kind != "in":
        return []
    c.i += 1
    two = c.kind == "w" and all(t.kind == "w" and t.text[:1].isupper() for t in c.t[c.i : c.i + 2])  # "sc in Salmon Rose thru …"
    if c.kind in ("w", "a") and (found := name(c, loose=two)) is not None and (c.kind in _COLOUR_TOLD or c.t[c.i].val == "x"):
        return [Colour(id=c.id(), span=c.span(start), yarn=found)]
    c.i = start
    return []


def with_between(c: Cursor, start: int, steps: list[Step]) -> list[Step]:
    """ "9 tr in ring with ch 2 between each tr", "2 dc with ch 1 between in next st": chains stand between the stitches."""
    begin = c.i
    c.take(",")
    bare = c.kind in ("n", "ch") and not {"between", "after"}.isdisjoint((c.look().kind, c.look(2).kind)) and c.t[c.i - 1].kind == ","
    if bare:
        c.i -= 1
    apart = _apart(c)
    if bare or apart or (c.kind in ("with", "having") or c.t[c.i].text.lower() in ("working", "making", "leaving")):
        c.i += not apart
        c.take("a")
        from .chains import chain

        got = chain(c) if c.kind in ("ch", "n") else None
        last = steps[-1] if steps else None
        if got and isinstance(last, Make) and (apart == "behind" or _after_each(c)):
            return _each_with_chain(c, start, [*steps[:-1]], last, got)
        if got and isinstance(last, Make) and (c.take("between") or apart):
            named = c.i
            _one_and_the_next(c)
            while (c.kind in _BETWEEN or c.t[c.i].text.lower() in ("them", "these")) and not (c.kind == "n" and c.look().kind in ("st",)):
                c.i += 1
            if _closes_ring(c, last):
                return _each_with_chain(c, start, [*steps[:-1]], last, got)
            if (
                last.places == "rest"
                and c.kind in (",", ";", ".", "", "(", "[", ")", "=", "join")
                and last.but == Sized((0,))
                and not last.upto
            ):
                if last.each == ONE and last.at.what in _PLAIN and _of_groups(c, named, last):
                    kept = replace(last, at=replace(last.at, of=""), upto="sp")
                    body = (kept, *got, Skip(id=c.id(), span=c.span(begin), number=ONE, what="sp"))
                    return [*steps[:-1], Repeat(id=c.id(), span=c.span(start), body=body, times=Times(kind="rest"))]
                unit = (_listed_with(c, replace(last, places=ONE)), *got)  # "dc in each dc with ch 3 between"
                return [*steps[:-1], Repeat(id=c.id(), span=c.span(start), body=unit, times=Times(kind="rest"))]
            found = spot(c) if c.kind in ("in", "over") else None
            at = found.at if found else last.at
            number = last.each if last.each != ONE else last.places
            if isinstance(number, Sized) and (number.values[0] or 0) > 1:
                one = replace(last, each=ONE, places=ONE, at=Place(where="same") if at.where != "ring" else at)
                again = Repeat(
                    id=c.id(),
                    span=c.span(start),
                    body=(*got, one),
                    times=Times(kind="n", number=Sized(tuple(None if n is None else max(1, n - 1) for n in number.values))),
                )
                if at.where == "next" and found is None and last.each == ONE:
                    return [*steps[:-1], replace(one, at=at), replace(again, body=(*got, replace(one, at=at)))]
                places = found.places if found else ONE  # "2 dc with ch 1 between in each sp"
                return [*steps[:-1], Together(id=c.id(), span=c.span(start), body=(one, again), at=at, places=places)]
    c.i = begin
    return steps


def _apart(c: Cursor) -> str:
    """Past "separated by", "spaced by" ("between"), "each followed by", "followed each time by" ("behind"); "", unmoved, elsewhere."""
    start = c.i
    c.drop("each", "all", "st", "noun", "grp")
    word = c.t[c.i].text.lower()
    if word in ("separated", "spaced", "parted", "divided"):
        c.i += 1
        if c.take("by", "with"):
            return "between"
    elif word == "followed" and c.i > start:
        c.i += 1
        if c.take("by", "with"):
            return "behind"
    c.i = start
    return ""


def _after_each(c: Cursor) -> bool:
    """Past "after each (dc)", "after every one" behind a chain; False with the cursor unmoved."""
    begin = c.i
    if c.take("after") and c.take("each"):
        c.drop("st", "noun", "grp", "group")
        c.i += c.t[c.i].text.lower() in ("one", "pair")
        if c.kind in (",", ";", ".", "", "(", "[", ")", "*", "=", "join", "and", "in", "around", "across"):
            return c.t[c.i - 1].text.lower() != "pair"
    c.i = begin
    return False


def _closes_ring(c: Cursor, last: Make) -> bool:
    """ "8 dc in ring with ch 1 between each, join": the round closes behind as many chains; not where its last chain is told by itself,
    nor where a chain counts as its first stitch."""
    if (
        last.at.where != "ring"
        or c.kind not in (",", ";", ".", "", "(", "[", "=", "join")
        or any(s.counts for s in c.out if isinstance(s, Chain))
    ):
        return False
    k = c.i + (c.kind in (",", ";", "."))
    return c.t[k].kind != "ch" and not (c.t[k].kind == "n" and c.t[k + 1].kind == "ch") and any(t.kind == "join" for t in c.t[k:])


def _each_with_chain(c: Cursor, start: int, steps: list[Step], last: Make, chains: list[Step]) -> list[Step]:
    """The stitches just told, each with the chain behind it."""
    number = last.each if last.each != ONE else last.places
    if c.kind == "in" and (found := spot(c)) is not None:
        last = replace(last, at=found.at, places=found.places)
    if last.places == "rest" and last.each != ONE:
        body: Step = replace(last, each=ONE, places=ONE, at=Place(where="same"))
        unit = Repeat(id=c.id(), span=c.span(start), body=(body, *chains), times=Times(kind="n", number=last.each))
        return [*steps, Together(id=c.id(), span=c.span(start), body=(unit,), at=last.at, places="rest")]
    if last.places == "rest":
        return [*steps, Repeat(id=c.id(), span=c.span(start), body=(replace(last, places=ONE), *chains), times=Times(kind="rest"))]
    one = replace(last, each=ONE, places=ONE, at=Place(where="same") if last.each != ONE and last.at.where != "ring" else last.at)
    again = Repeat(id=c.id(), span=c.span(start), body=(one, *chains), times=Times(kind="n", number=cast("Sized[int]", number)))
    if one.at != last.at:
        return [*steps, Together(id=c.id(), span=c.span(start), body=(again,), at=last.at)]
    return [*steps, again]


_PLAIN = frozenset(("st", "sc", "hdc", "dc", "tr"))


def _of_groups(c: Cursor, named: int, last: Make) -> bool:
    """ "Dc in each dc, ch 5 between groups", "dc in each dc of the groups with ch 5 between": groups stand apart by spaces, and each keeps
    its stitches. `named`: where what stands apart is told."""
    return last.at.of == "group" or any(token.kind in ("group", "grp") for token in c.t[named : c.i])


def _one_and_the_next(c: Cursor) -> None:
    """Past "(with 5 ch between) one loop and the next", "one and the other", "the shells"."""
    one = c.t[c.i].text.lower() == "one"
    named = c.t[c.i + one].kind in _NAMED
    k = c.i + one + named
    if k > c.i and c.t[k].kind == "and":
        k += 1 + (c.t[k + 1].kind == "the")
        k += c.t[k].kind in ("next", "other")
        k += c.t[k].kind in _NAMED or c.t[k].text.lower() == "one"
        c.i = k if c.t[k].kind in (",", ";", ".", "", ")") else c.i
    elif c.kind in ("lp", "sp") and c.look().kind in (",", ";", ".", "", ")"):
        c.i += 1


_BETWEEN = frozenset(("each", "st", "noun", "w", "the", "all", "of", "every", "grp", "group", "two", "n", "both"))
_NAMED = frozenset(("lp", "sp", "st", "noun", "grp", "group"))


def _listed_with(c: Cursor, last: Make) -> Step:
    """ "1 sc, 5 ch, 1 sc in every loop, with 5 ch between": all that is listed before the place goes into each; taken out of the steps."""
    before = c.out[-2:]
    if len(before) < 2 or not isinstance(before[0], Make) or not isinstance(before[1], Chain) or not unplaced(c, before[0]):
        return last
    if before[0].stitch != last.stitch or before[0].places == "rest" or len(c.out) > 2 or not last.at.what.endswith("sp"):
        return last
    del c.out[-2:]
    here = Place(where="same")
    body = (replace(before[0], at=here), before[1], replace(last, at=here))
    return Together(id=c.id(), span=last.span, body=body, at=last.at)


def ring_first(c: Cursor, start: int, steps: list[Step]) -> list[Step]:
    """ "6 sc in magic ring": the ring is made first."""
    if c.in_ring or not any(c.t[k].kind == "mring" for k in range(start, c.i)):
        return []
    c.in_ring = True
    return [Ring(id=c.id(), span=c.span(start))]


def loop_before(c: Cursor) -> str:
    """ "BLO sc in …", "in BLO, sc …": the loop is named first."""
    token = c.t[c.i]
    if token.kind == "loop" and c.look().kind in ("st", "n", "a"):
        c.i += 1
        return str(token.val)
    return ""


def loop_after(c: Cursor) -> str:
    token = c.t[c.i]
    if token.kind == "loop":
        c.i += 1
        if c.kind == "idle" and c.t[c.i].val == "only":
            c.i += 1
        return str(token.val)
    if token.kind == "(" and c.look().kind == "loop" and c.close.get(c.i) == c.i + 2:
        c.i += 3
        return str(c.t[c.i - 2].val)
    return ""


def post_before(c: Cursor) -> str:
    token = c.t[c.i]
    if token.kind in ("front", "back") and c.look().kind in ("st", "post", "raised"):
        c.i += 1
        c.drop("post", "raised")
        return "FP" if token.kind == "front" else "BP"
    if token.kind == "raised" and c.look().kind == "st" and c.look(2).kind in ("front", "back"):
        c.i += 1
        return "FP" if c.look().kind == "front" else "BP"
    if token.kind == "raised" and c.look().kind == "st" and c.look(2).kind == "around":
        c.i += 1  # "raised dc around post of next dc from front": the side is told after the post
        return ""
    if token.kind == "w" and token.val in ("fp", "bp") and c.look().kind == "st":
        c.i += 1
        return token.val.upper()  # type: ignore[no-any-return]
    return ""
