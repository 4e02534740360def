"""A lace shaped group by group: "2 dc in ch 1 of next shell, ch 1, 2 dc in ch 1 of following shell (a decrease of 1 shell)", and the same
told again by one word, "decrease in next 2 shells"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Make, Place, Sized, Special, Step, Together
from ..wording.token import Token
from .cursor import Cursor
from .naming import like
from .nouns import noun
from .numbers import number
from .places import spot
from .shapes import amount, unplaced
from .specials import anew

LESS, MORE = "group decrease", "group increase"
"""Names under which the two shapings are kept among the pattern's own groups; no words are read as these."""


def told_shaped(c: Cursor, inner: list[Token], start: int) -> None:
    """Keep the shaping that a remark behind it names ("(a decrease of 1 shell)"), so that one word can ask for it again; a group that is
    spread over two is one of its name."""
    less = any(token.kind == "dec" for token in inner)
    told = next((str(token.val) for token in inner if token.kind == "grp"), "")
    made = [step for step in c.out if not isinstance(step, Aside)]
    if less:
        name, body = _spread(c, made[-3:], told)
        if not name:
            return
        group = Together(id=c.id(), span=body[0].span, body=body, at=Place(where="hook"), name=name)
        first = c.out.index(body[0])
        c.out[first:] = [group, *(step for step in c.out[first:] if isinstance(step, Aside))]
        _keep(c, LESS, (group,), start)
        return
    last = made[-1] if made else None
    if isinstance(last, Together) and last.name and last.places == Sized((2,)):
        _keep(c, MORE, (last,), start)


def _keep(c: Cursor, name: str, steps: tuple[Step, ...], start: int) -> None:
    if name not in c.specials:
        c.defined[name] = Special(name=name, steps=steps, counts=0, span=c.span(start))


def _spread(c: Cursor, body: Sequence[Step], told: str) -> tuple[str, tuple[Step, ...]]:
    """The name of the group that these steps, each in a place of its own, make together; "" where they look like none."""
    if len(body) != 3 or not all(isinstance(step, (Make, Chain)) for step in body):
        return "", ()
    name = _name_of(c, body, told)
    return (name, tuple(body)) if name else ("", ())


def _name_of(c: Cursor, body: Sequence[Step], told: str = "") -> str:
    """The name of a group known to look so (`told`: only that one); "" where none does."""
    look = [_look(step) for step in body]
    known = {**c.specials, **c.defined}.items()
    return next((name for name, one in known if told in ("", name) and [_look(step) for step in one.steps] == look), "")


def _look(step: Step) -> tuple[object, ...]:
    return (step.stitch, amount(step)) if isinstance(step, Make) else like(step)


def shaped_once_more(c: Cursor) -> list[Step] | None:
    """ "Decrease in next 2 shells", "dec over next 2 shells", "increase in next shell": the shaping told before over groups."""
    start = c.i
    kept = LESS if c.kind == "dec" else MORE
    special = c.specials.get(kept) or c.defined.get(kept)
    if special is None:
        return None
    c.i += 1
    if c.kind in ("in", "over", "at"):
        c.i += 1
        _which(c)
        number(c)
        if noun(c) is None:
            c.i = start
            return None
    elif c.kind == "n" and c.look().kind == "grp":
        c.i += 2  # "decrease 1 shell"
    if c.kind not in (",", ";", ".", "", ")", "*", "and"):
        c.i = start
        return None
    return list(anew(c, special.steps, c.span(start)))


def _which(c: Cursor) -> None:
    """Past "(in) the next", "1st", "the last" of so many."""
    c.drop("the", "next", "of", "last")
    c.i += c.kind == "o" and c.t[c.i].val == 1
    c.drop("next", "of")


def over_groups(c: Cursor) -> bool:
    """ "Decrease in next 2 shells" where the pattern works shells by that name: several groups, which no stitch closes; what comes of them
    only the pattern can tell."""
    start = c.i
    c.i += 1
    many = None
    if c.kind in ("in", "over"):
        c.i += 1
        _which(c)
        many = number(c)
    found = many is not None and (many.values[0] or 0) > 1 and c.kind == "grp" and str(c.t[c.i].val) in {*c.specials, *c.defined}
    c.i = start
    return found


def twice_in_one(c: Cursor, made: Make) -> list[Step] | None:
    """ "2 dc, ch 1, 2 dc twice in ch 1 of next shell": the whole of the list goes there so often; `made` is the last of it, read with
    the place. None where the words stand apart ("dc once in the next st, then twice in the one after")."""
    before = c.out[-1]
    assert isinstance(before, Make)
    if not unplaced(c, before) or before.places == "rest":
        return None
    pair = c.out[-3:-1]
    listed = len(pair) == 2 and isinstance(pair[0], Make) and isinstance(pair[1], Chain) and not pair[1].foundation
    if listed and isinstance(pair[0], Make) and unplaced(c, pair[0]) and _look(pair[0]) == _look(before):
        body = (*pair, before)
        del c.out[-3:]
        here = tuple(replace(s, each=Sized((amount(s),)), places=ONE, at=Place(where="same")) if isinstance(s, Make) else s for s in body)
        name = _name_of(c, body) or None
        groups = [Together(id=c.id(), span=made.span, body=here, at=made.at, name=name)]
        for _ in range((made.each.values[0] or 1) - 1):
            groups.append(Together(id=c.id(), span=made.span, body=anew(c, here, made.span), at=Place(where="same"), name=name))
        return list(groups)
    c.out.pop()
    return [replace(made, each=Sized((amount(before) * (made.each.values[0] or 1),)))]


def as_group_before(c: Cursor) -> list[Step] | None:
    """ "(2 dc, ch 1, 2 dc in next st, …) inc in next st as before": the group that the row has widened by so far, again. None with the
    cursor unmoved."""
    start = c.i
    group = next((step for step in reversed(c.out) if isinstance(step, Together) and len(step.body) > 1), None)
    found = spot(c) if group is not None and c.take("inc") and c.kind == "in" else None
    if group is None or found is None or found.each or c.kind != "as" or c.look().kind not in ("before", "prev"):
        c.i = start
        return None
    c.i += 2
    body = anew(c, group.body, c.span(start))
    return [replace(group, id=c.id(), span=c.span(start), body=body, at=found.at)]
