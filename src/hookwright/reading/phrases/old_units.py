"""Units of old books told in one breath: "2 chain and 1 treble upon each treble", "9 chain, 1 plain, on every second treble", and what is
left when they have gone round."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Make, Place, Repeat, Sized, Skip, Span, Step, Times, Together
from .cursor import Cursor
from .places import spot


def told_behind(c: Cursor) -> list[Step] | None:
    """ "(9 chain, 1 plain,) on every second treble": where the stitch just told comes, behind its comma."""
    last = c.out[-1] if c.out else None
    start = c.i
    if not c.ctx.old or not start or c.t[start - 1].kind != "," or not isinstance(last, Make) or last.at != Place() or last.places != ONE:
        return None
    found = spot(c)
    if found is None or not found.each or c.kind not in (".", ";", "", ","):
        c.i = start
        return None
    c.out[-1] = replace(last, at=found.at)
    passed = [Skip(id=c.id(), span=c.span(start), number=Sized((found.every - 1,)), what=found.at.what)] if found.every > 1 else []
    return [*passed, Aside(id=c.id(), span=c.span(start))]


def left_over(c: Cursor) -> list[Step] | None:
    """ "3 plain in 2; repeat; 1 over", "repeat; 2 over at the end": so many are left when the unit has gone round."""
    start = c.i
    unit = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not isinstance(unit, Repeat) or c.look().text.lower() not in ("over", "remaining", "left"):
        return None
    c.i += 2
    if c.kind in ("at", "of") or c.t[c.i].text.lower() in ("at", "being"):
        c.drop("at", "the", "end", "of", "row", "rnd", "around")
    if c.kind not in (".", ";", "", ",", ")"):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def units_of_chain(steps: list[Step], c: Cursor) -> list[Step]:
    """ "2 chain and 1 treble upon each treble", "5 chain, and 1 plain in every loop": a chain before each of them."""
    out: list[Step] = []
    for step in steps:
        chain = out[-1] if out else None
        each = isinstance(step, (Make, Together)) and step.places == "rest" and step.at != Place()
        if each and isinstance(chain, Chain) and not chain.foundation and isinstance(step, (Make, Together)) and _by_and(c, chain, step):
            out[-1] = Repeat(
                id=c.id(), span=Span(chain.span.start, step.span.end), body=(chain, replace(step, places=ONE)), times=Times(kind="rest")
            )
        else:
            out.append(step)
    return out


def _by_and(c: Cursor, chain: Step, step: Step) -> bool:
    """Whether "and", perhaps with a comma, is all that stands between them."""
    between = [token.kind for token in c.t if chain.span.end <= token.start < step.span.start]
    return "and" in between and set(between) <= {"and", ","}
