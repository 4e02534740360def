"""Groups with a name: shells, clusters, V-stitches, puffs; by custom, or as the pattern defines them."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import NOWHERE, ONE, Aside, Chain, Choice, Make, Place, Repeat, Sized, Span, Step, Times, Together, slips
from ...trade.kinds import GROUPS_AS_ONE
from .cursor import Cursor
from .elsewhere import and_elsewhere
from .follows import as_follows
from .limits import limit
from .made_of import leads_to_bracket, of_what_made
from .numbers import number
from .places import PREPS, spot
from .shapes import make
from .spots import Spot
from .told_in_brackets import beside_name, define, equals

EXAMPLES = (
    ("V-st in next st", "V-st{dc@same st, ch1, dc@same st}"),
    ("puff in next ch-1 sp", "puff@next ch-1 sp"),
    ("3-dc cl in next st", "cl"),
    ("shell of (2 dc, ch 1, 2 dc) in next st, skip 1 st", "shell{2dc@same st, ch1, 2dc@same st}, skip"),
)


def named(c: Cursor, start: int, told: Sized[int] | None, strands: int | None = None) -> list[Step] | None:
    """A named group at token "grp": cl, bobble, puff, popcorn → Make; shell, V-st, fan → Together with what it is made of."""
    name = str(c.t[c.i].val)
    c.i += 1
    c.drop("noun", "idle")
    if name == "picot" and c.kind != "=" and c.t[c.i].val not in ("edging", "border", "trim"):
        return _picot(c, start, told)
    told_here = as_follows(c, start, name)
    if told_here is not None:
        return told_here
    made = of_what_made(c, start, name) or equals(c, name, start)
    if made is not None:
        return made
    if c.kind == ":" or c.t[c.i].val in ("edging", "border", "pattern", "trim"):
        c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]
    of = leads_to_bracket(c)
    c.i += of
    beside = beside_name(c)
    c.i -= of if beside is None else 0
    if beside is not None and name not in GROUPS_AS_ONE:
        define(c, name, beside, start)
    over = c.kind == "over"
    if told is None and c.kind == "n" and c.look().kind in (",", ";", "*", ")", "]") and c.t[c.i - 1].kind == "grp":
        told = number(c)  # "sc 5, bobble 1"
    found = _place(c, told)
    if over and name in GROUPS_AS_ONE and found is not None and isinstance(found.places, Sized):
        gathered = _gathered(c, start, name, found)
        as_follows(c, start, name, found)
        return [gathered]
    told_behind = as_follows(c, start, name, found) if found is not None and told in (None, ONE) else None
    if told_behind is not None:
        return told_behind
    if name in ("V-st", "shell", "fan", "petal") or (name in c.specials and name not in GROUPS_AS_ONE):
        return _group(c, start, name, told, found)
    if name in GROUPS_AS_ONE:
        places = found or Spot(Place(), told or ONE)
        each = ONE
        if found is not None and told is not None and (found.each or not found.told):
            each = told
        return [make(c, start, name, each=each, found=places)]
    return _group(c, start, name, told, found)


def _gathered(c: Cursor, start: int, name: str, found: Spot) -> Make:
    """ "cl over next 3 sts", "cl over same st and next 2 sts": one top over several places."""
    closes = found.places.values[0] or 1 if isinstance(found.places, Sized) else 1
    if c.kind == "and" and c.look().kind in ("next", "last"):
        c.i += 1
        more = spot(c, bare=True)
        if more is not None and isinstance(more.places, Sized):
            closes += more.places.values[0] or 1
    return make(c, start, name, found=Spot(found.at), closes=closes)


def _place(c: Cursor, told: Sized[int] | None) -> Spot | None:
    if c.kind in PREPS or c.kind in ("next", "each", "same", "last"):
        if c.kind in ("around", "across", "to", "along"):
            but = limit(c)
            if but is not None:
                return Spot(Place(), "rest", but, each=True, upto=c.upto)
        return spot(c, bare=c.kind not in PREPS)
    return None


def body_of(c: Cursor, name: str, start: int) -> tuple[Step, ...]:
    """What the group named from token `start` on is made of: the pattern's own definition, or custom where custom is one."""
    own = c.specials.get(name) or c.defined.get(name)
    if own is not None and own.steps:
        return anew(c, own.steps, c.span(start))
    if name == "V-st":
        dc = c.us("tr") if c.ctx.terms == "UK" else "dc"
        return (
            Make(id=c.id(), stitch=dc, at=Place(where="same")),
            Chain(id=c.id(), number=ONE),
            Make(id=c.id(), stitch=dc, at=Place(where="same")),
        )
    return ()


def anew(c: Cursor, steps: tuple[Step, ...], span: Span) -> tuple[Step, ...]:
    """The steps of a definition as steps of this row: ids of their own, and the words that stand for them here."""
    return tuple(_again(c, step, span) for step in steps)


def _again(c: Cursor, step: Step, span: Span) -> Step:
    fresh = replace(step, id=c.id(), span=span)
    if isinstance(fresh, (Make, Together)):
        fresh = replace(fresh, at=replace(fresh.at, span=NOWHERE))
    if isinstance(fresh, Together):
        return replace(fresh, body=anew(c, fresh.body, span))
    if isinstance(fresh, Repeat):
        return replace(fresh, body=anew(c, fresh.body, span), last=anew(c, fresh.last, span))
    if isinstance(fresh, Choice):
        return replace(fresh, answers=tuple(anew(c, answer, span) for answer in fresh.answers))
    return fresh


def _group(c: Cursor, start: int, name: str, told: Sized[int] | None, found: Spot | None) -> list[Step]:
    places = found.places if found else (told or ONE)
    body = body_of(c, name, start)
    if name == "beg shell" and found is None and body:
        own_steps = tuple(replace(step, id=c.id(), span=c.span(start)) for step in body)
        return [Together(id=c.id(), span=c.span(start), body=own_steps, at=Place(where="hook"), name=name)]
    own = body[0].at if len(body) == 1 and isinstance(body[0], Together) else Place()
    if found is None and (own == Place() or own.what.endswith("sp")) and _slipped_to_space(c):
        own = Place(where="same", what="sp")  # "sl st to sp of shell, work a shell as before"
    if len(body) == 1 and isinstance(body[0], Together):
        body = body[0].body
    several = found is not None and told is not None and told != ONE
    if found and told is not None and several and body and (found.each or (found.places == ONE and _in_one(c, found))):
        once = Together(id=c.id(), span=c.span(start), body=body, at=Place(where="same"), name=name)
        body, name = (Repeat(id=c.id(), span=c.span(start), body=(once,), times=Times(kind="n", number=told)),), ""
    elif found and told is not None and several and not found.told and not found.each and found.places == ONE:
        places = told if found.at.where == "next" else ONE
    made: list[Step] = [
        Together(
            id=c.id(),
            span=c.span(start),
            body=body,
            at=found.at if found else own,
            places=places,
            but=found.but if found else Sized((0,)),
            name=name or None,
            upto=found.upto if found else "",
        )
    ]
    return and_elsewhere(c, made) if found is not None else made  # fmt: skip


def _in_one(c: Cursor, found: Spot) -> bool:
    """ "(2 shells) in next sp", "in the corner sp": all in one place, which its noun tells; not "2 shells in next sps"."""
    named = c.t[c.i - 1]
    return (
        not found.told
        and named.kind in ("sp", "lp", "st", "noun", "corner", "ch", "ring", "mring")
        and not named.text.lower().endswith("s")
    )


def _slipped_to_space(c: Cursor) -> bool:
    """Whether the row has only slipped to a space so far, with or without a chain to rise from there."""
    before = [step for step in c.out if not isinstance(step, Aside)]
    slipped = [step for step in before if isinstance(step, Make) and slips(step)]
    only = all(slips(step) or (isinstance(step, Chain) and not step.foundation) for step in before)
    return len(c.frames) == 1 and only and bool(slipped) and slipped[-1].at.what.endswith("sp") and slipped[-1].places == ONE


def _picot(c: Cursor, start: int, told: Sized[int] | None) -> list[Step]:
    """A picot hangs on the stitch before it: chains closed on themselves."""
    beside = beside_name(c)
    if beside is not None:
        define(c, "picot", beside, start)
    found = _place(c, told)
    own = c.specials.get("picot") or c.defined.get("picot")
    body = anew(c, own.steps, c.span(start)) if own else ()
    if len(body) == 1 and isinstance(body[0], Together):
        body = body[0].body
    at = found.at if found else Place(where="same")
    return [Together(id=c.id(), span=c.span(start), body=body, at=at, places=told or ONE, name="picot")]
