"""How lace rounds begin: slip stitches to a space, a shell completed on its chains; and a list told before its place."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from ...pattern import ONE, Aside, Chain, Colour, Join, Make, Place, Ring, Sized, Skip, Span, Step, Together, slips
from ..wording.token import Token
from .cursor import Cursor
from .nouns import noun
from .places import spot
from .shapes import unplaced
from .specials import body_of
from .tails import of_what
from .told_in_brackets import here

EXAMPLES = (
    ("sl st across to next ch-2 sp, ch 3", "sl st@next ch-2 sp, ch3"),
    ("sl st in next hdc, dc and ch-3 sp, ch 1", "sl st@next hdc, sl st@next dc, sl st@next ch-3 sp, ch1"),
    ("dc, ch 1 and dc in next st", "{dc@same st, ch1, dc@same st}"),
    ("*sc in next st, hdc, 2 dc, hdc all in next st; rep from *", "[sc, {hdc@same st, 2dc@same st, hdc@same st}]×rest"),
    ("3 dc, ch 2 and 3 dc in next ch-5 loop", "{3dc@same st, ch2, 3dc@same st}@next ch-5 sp"),
)

_OPENING = (Chain, Ring, Join, Colour, Aside)
"""Steps that may stand before a round's first stitch."""
_OVER = frozenset(("across", "along", "over", "in", "up", "to"))
_PLACES = frozenset(("sp", "lp", "mesh", "grp", "group", "center", "ch", "next", "o", "corner", "top"))


def travel(c: Cursor) -> list[Step] | None:
    """ "Sl st across to sp of shell", "slip stitch along to centre of first loop": one move to that place."""
    start = c.i
    c.take("a", "n") if c.look().kind == "st" else None
    if not (c.kind == "st" and c.t[c.i].val == "sl st"):
        c.i = start
        return None
    c.i += 1
    if c.kind not in _OVER:
        c.i = start
        return None
    if (chains := _along_chains(c, start)) is not None:
        return chains
    long_way = c.kind != "to"
    c.i += 1
    if long_way and (not c.take("to") and c.t[c.i - 1].kind != "to"):
        c.i = start
        return None
    c.drop("the")
    if not long_way or c.kind not in _PLACES or (c.kind == "ch" and c.look().kind != "-" and c.look(2).kind not in ("sp", "lp")):
        c.i = start
        return None
    place = _target(c)
    if place is None:
        c.i = start
        return None
    return [Make(id=c.id(), span=c.span(start), stitch="sl st", at=place)]


def _along_chains(c: Cursor, start: int) -> list[Step] | None:
    """ "Slip along 3 of the 7 ch": so many of a loop's chains, to its middle: one move into that loop. None with the cursor unmoved."""
    k = 1
    few, whole = c.look(k), c.look(k + 2 + (c.look(k + 2).kind == "the"))
    end = k + 3 + (c.look(k + 2).kind == "the")
    if few.kind != "n" or c.look(k + 1).kind != "of" or whole.kind != "n" or c.look(end).kind != "ch":
        return None
    if not isinstance(few.val, int) or not isinstance(whole.val, int) or not few.val <= whole.val // 2 + 1:
        return None
    c.i += end + 1
    return [Make(id=c.id(), span=c.span(start), stitch="sl st", at=Place(what=f"ch-{whole.val} sp"))]


def slipped_along(c: Cursor) -> list[Step] | None:
    """ "Sl st in next hdc, dc and ch-3 sp": one in each of the places listed, each named without a preposition of its own."""
    start = c.i
    if not (c.kind == "st" and c.t[c.i].val == "sl st") or c.look().kind != "in":
        return None
    c.i += 1
    found = spot(c)
    places = [found.at] if found is not None and found.at.where == "next" and found.places == ONE else []
    while places and c.kind in (",", "and"):
        last = c.kind == "and" or c.look().kind == "and"
        c.drop(",", "and")
        c.drop("the", "next")
        what = noun(c) if c.kind in ("st", "ch", "noun", "sp", "lp") and c.t[c.i].val != "sl st" else None
        if what is None or c.kind not in (",", "and", ";", ".", ""):
            break
        places.append(Place(what=what))
        if last:
            if len(places) < 3 or c.kind == "and":
                break
            return [Make(id=c.id(), span=c.span(start), stitch="sl st", at=place) for place in places]
    c.i = start
    return None


def _target(c: Cursor) -> Place | None:
    """The space, loop or group gone to; "center of" and "sp of" a group mean its middle."""
    if c.kind in ("center", "sp", "lp") and c.look().kind == "of":
        c.i += 1
        facts: dict[str, object] = {}
        if not of_what(c, facts):
            return None
        what = str(facts.get("what", "sp"))
        return Place(what=what)
    found = spot(c, bare=True)
    if found is None or found.at.where not in ("next", "first"):
        return None
    return replace(found.at, where="next")


def complete_group(c: Cursor) -> list[Step] | None:
    """ "Ch 4 and complete a shell in same place", "complete shell": the group without its first stitch, which the chain is."""
    start = c.i
    if c.t[c.i].val not in ("complete", "completing"):
        return None
    c.i += 1
    c.drop("a", "the")
    if c.kind != "grp" or not c.out or not isinstance(c.out[-1], Chain):
        c.i = start
        return None
    body = list(body_of(c, str(c.t[c.i].val), start))
    if len(body) == 1 and isinstance(body[0], Together):
        body = list(body[0].body)
    first = body[0] if body else None
    if not isinstance(first, Make):
        c.i = start
        return None
    c.i += 1
    found = spot(c) if c.kind in ("in", "over") else None
    many = first.each if first.each != ONE or first.places == "rest" else first.places
    assert isinstance(many, Sized)
    left = Sized(tuple(None if n is None else n - 1 for n in many.values))
    rest = body[1:] if (left.values[0] or 0) < 1 else [replace(first, each=left, places=ONE, at=Place(where="same")), *body[1:]]
    at = found.at if found is not None else Place(where="same", what="sp")
    return [Together(id=c.id(), span=c.span(start), body=tuple(rest), at=replace(at, where="same"))]


def listed_before_place(c: Cursor, made: list[Step]) -> list[Step]:
    """ "3 dc, ch 2 and 3 dc in next loop": what is told before the last of a list goes into its place too; `made` holds that last one."""
    last = made[-1] if len(made) == 1 else None
    if not isinstance(last, Make) or (last.places != ONE and not (last.places == "rest" and last.but == Sized((0,)) and not last.upto)):
        return made
    out = c.out
    if len(out) < 2 or not (isinstance(out[-1], Chain) or any(token.kind == "all" for token in c.t[max(0, c.i - NEAR) : c.i])):
        return made
    together = _told_together(c, last) or _beyond_chain(out[-1], last.at) or _led_to_spaces(c, out[-2], last)
    if (
        len(out) > 2
        and isinstance(out[-3], Skip)
        and last.at.where == "last"
        and isinstance(out[-1], Chain)
        and (out[-1].number.values[0] or 0) > 3
    ):
        return made  # "miss 2, 1 treble, 5 chain, and 1 treble in the last stitch": the first has its place behind what is missed
    begun = len(out) > 2 and isinstance(out[-3], Chain) and all(isinstance(s, _OPENING) or slips(s) for s in out[:-2])
    at_start = begun and last.at.where == "same"  # "3 ch., 2 tr., 3 ch., 3 tr. into same place as ss"
    if not together and (last.each == ONE or not (_space_like(last.at) or at_start or last.at.where in ("next", "first", "last"))):
        return made
    floor = max((mark.index for mark in c.frames[-1].marks if not mark.used), default=0)
    if len(out) - floor >= 2 and (listed := _all_into_one(c, out, floor, last)) is not None:
        return listed
    if len(out) - floor < 2:
        return made
    first, chain = out[-2], out[-1]
    if (
        not isinstance(chain, Chain)
        or chain.foundation
        or not isinstance(first, Make)
        or not unplaced(c, first)
        or first.stitch != last.stitch
        or any(token.kind in ("in", "next") for token in _tokens_of(c, first))
    ):
        return made
    number = first.places if first.each == ONE else first.each
    if not isinstance(number, Sized):
        return made
    if number != last.each and not (begun and not floor and number.values == tuple(None if n is None else n - 1 for n in last.each.values)):
        return made
    del out[-2:]
    once = replace(last, places=ONE, at=Place(where="same"))
    body = (replace(first, each=number, places=ONE, at=Place(where="same")), chain, once)
    return [Together(id=last.id, span=last.span, body=body, at=last.at, places=last.places)]


def _led_to_spaces(c: Cursor, first: Step, last: Make) -> bool:
    """ "(1 dc in each dc) working 1 dc, ch 1, 1 dc in each ch 1 at corners": a list that is led in, and every space gets all of it."""
    if last.places != "rest" or not last.at.what.endswith(("sp", "corner")):
        return False
    at = next((k for k, token in enumerate(c.t) if token.start == first.span.start), 0)
    before = c.t[at - 1] if at else None
    return before is not None and (before.kind in ("work", "having", "with") or before.text.lower() in ("making", "putting", "placing"))


def _all_into_one(c: Cursor, out: list[Step], floor: int, last: Make) -> list[Step] | None:
    """ "Hdc, 2 dc, hdc all in next st": all of the list behind the last stitch that told its own place; None where that is no list."""
    told = _tokens_of(c, last)
    if not any(a.kind == "all" and b.kind == "in" for a, b in pairwise(told)) or last.at.where not in ("next", "first", "same", "last"):
        return None
    first = len(out)
    while first > floor and _listed(c, out[first - 1]):
        first -= 1
    body = out[first:]
    if sum(isinstance(step, Make) for step in body) + 1 < 2 or not isinstance(body[0], Make):
        return None
    del out[first:]
    inside = tuple(here(step) for step in (*body, replace(last, at=Place())))
    return [Together(id=c.id(), span=Span(body[0].span.start, last.span.end), body=inside, at=last.at, places=last.places)]


def _listed(c: Cursor, step: Step) -> bool:
    """A chain, or stitches that told no place of their own."""
    if isinstance(step, Chain):
        return not step.foundation
    bare = isinstance(step, Make) and unplaced(c, step) and step.places != "rest"
    return bare and not any(token.kind in ("in", "next", "each") for token in _tokens_of(c, step))


def _told_together(c: Cursor, last: Make) -> bool:
    """ "dc, ch 1 and dc in next st", "dc, ch 1, dc all in next st", "dc-ch1-dc in next st": the list goes into one place."""
    if last.at.where not in ("next", "first", "same", "last"):
        return False
    told = _tokens_of(c, last)
    if not any(token.kind == "in" for token in told):
        return False
    if any(token.kind == "all" for token in told):
        return True
    before = next((k for k in range(c.i - 1, 0, -1) if c.t[k].start == last.span.start), 0)
    return before > 0 and (c.t[before - 1].kind == "and" or (c.t[before - 1].kind == "-" and not c.t[before - 1].gap))


def _beyond_chain(chain: Step, at: Place) -> bool:
    """ "2 dc, ch 1, 2 dc in 6th ch from hook": the chain told between does not reach so far, so nothing was worked before that place."""
    if not isinstance(chain, Chain) or chain.foundation or at.where != "from_hook":
        return False
    return all(n is not None and n < (at.nth or 2) for n in chain.number.values)


NEAR = 24
"""Words before the cursor among which a step's own are looked for."""


def _tokens_of(c: Cursor, step: Step) -> list[Token]:
    return [token for token in c.t[max(0, c.i - NEAR) : c.i] if step.span.start <= token.start < step.span.end]


def _space_like(at: Place) -> bool:
    return at.where in ("next", "first", "same", "last") and (at.what in ("sp", "corner") or at.what.endswith(" sp"))
