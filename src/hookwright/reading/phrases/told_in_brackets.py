"""A named group told in brackets beside its name: "shell (5 dc) in next st", "V-st (dc, ch 1, dc)", "fan in next sp (7 tr), …"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Make, Place, Sized, Special, Step, Together
from ...trade.kinds import GROUPS_AS_ONE
from ..wording.token import Token
from .cursor import Cursor, Frame
from .shapes import unplaced

EXAMPLES = (
    ("skip 2, shell (5 dc) in next st, skip 2, sc in next st", "skip2, shell{5dc@same st}, skip2, sc"),
    ("V-st (dc, ch 1, dc) in next st, skip 1 st", "V-st{dc@same st, ch1, dc@same st}, skip"),
    ("popcorn (5 dc) in next st, ch 1", "popcorn, ch1"),
    ("5 dc (shell) in next st, sc in next st", "shell{5dc@same st}, sc"),
)

_PLACE_FOLLOWS = ("in", "over", "between", "under")
_MOVES = ("yo", "pull", "insert", "hook", "tog")
_MADE = ("st", "ch")


def beside_name(c: Cursor) -> tuple[Step, ...] | None:
    """The bracket at the cursor, behind a group's name, as what the group is made of (without places of its own), and passed; None, and
    not passed, where it is a count, a number of times or a remark."""
    close = c.close.get(c.i) if c.kind in ("(", "[") else None
    if close is None:
        return None
    inner, after = c.t[c.i + 1 : close], c.t[close + 1]
    while inner and (inner[0].kind == "=" or inner[0].kind == "counts"):
        inner = inner[1:]
    placed = any(token.kind in ("in", *_MOVES) for token in inner)
    if not any(token.kind in (*_MADE, *_MOVES) for token in inner) or any(token.kind in ("rep", "total") for token in inner):
        return None
    if not placed and any(token.kind == "noun" for token in inner):
        return None
    told = after.kind in _PLACE_FOLLOWS or placed
    listed = after.kind in (",", ";") and any(token.kind == "ch" for token in inner) and any(token.kind == "," for token in inner)
    return _passed(c, close, len(inner)) if told or listed else None


def listed_before(c: Cursor, out: list[Step]) -> bool:
    """Whether a list is being told that has a chain in it: "2 dc, ch 1, 2 dc (a shell) in next"."""
    told = [step for step in out if not isinstance(step, Aside)][-2:]
    return len(told) == 2 and isinstance(told[0], Make) and isinstance(told[1], Chain) and unplaced(c, told[0])


def name_before_place(c: Cursor) -> str | None:
    """ "5 dc (shell) in next st": the bracket holds nothing but the name of what is made there; passed ("" where it is no
    group's). None where it holds more."""
    close = c.close.get(c.i) if c.kind in ("(", "[") else None
    if close is None or c.t[close + 1].kind not in _PLACE_FOLLOWS or listed_before(c, c.out):
        return None
    inner = [token for token in c.t[c.i + 1 : close] if token.kind not in ("a", "n", "o", "idle", "made", "noun")]
    if len(inner) != 1 or inner[0].kind not in ("grp", "group", "w"):
        return None
    c.i = close + 1
    return str(inner[0].val) if inner[0].kind == "grp" else ""


def as_named(c: Cursor, step: Step, name: str) -> Step:
    """Several stitches in one place as the group that their bracket calls them: "5 dc (shell) in next st"."""
    if name in GROUPS_AS_ONE or not isinstance(step, Make) or step.each == ONE or step.places == "rest" or step.closes > 1:
        return step
    body = (replace(step, id=c.id(), places=ONE, at=Place(where="same")),)
    return Together(id=step.id, span=step.span, body=body, at=step.at, places=step.places, name=name)


def behind_place(c: Cursor, close: int) -> list[Step] | None:
    """ "shell in next st (5 dc), …": what a group is made of, that was named and placed before anything said so."""
    last = c.out[-1] if c.out else None
    inner = c.t[c.i + 1 : close]
    one = isinstance(last, Make) and last.stitch in GROUPS_AS_ONE
    if c.t[close + 1].kind not in (",", ";", ".", "*", "rep") or not (_only_made(inner) or (one and _closed_up(inner))):
        return None
    start = c.i
    if isinstance(last, Make) and last.stitch in GROUPS_AS_ONE:
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start), kind="define")]
    if not (isinstance(last, Together) and last.name and not last.body):
        return None
    body = _passed(c, close, len(inner))
    c.out[-1] = replace(last, body=body)
    define(c, last.name, body, start)
    return [Aside(id=c.id(), span=c.span(start), kind="define")]


def equals(c: Cursor, name: str, start: int) -> list[Step] | None:
    """ "…, picot = ch 3 + sl st into the sc just made": what a group of this row is made of, told behind it."""
    if c.kind != "=" or not start or c.t[start - 1].kind not in (",", ";", ".", "("):
        return None
    end = c.i + 1
    while c.t[end].kind not in (".", ";", "", ")", "]", "(", "[", "{", "}") and end - c.i < 30:
        end += 1
    if not any(token.kind in _MADE for token in c.t[c.i + 1 : end]):
        return None
    define(c, name, _passed(c, end, end - c.i - 1), start)
    c.i = end
    return [Aside(id=c.id(), span=c.span(start), kind="define")]


def define(c: Cursor, name: str, body: tuple[Step, ...], start: int) -> None:
    """What the group is made of from here on, unless the pattern has said it elsewhere."""
    if body and name not in c.specials:
        c.defined.setdefault(name, Special(name=name, steps=body, counts=0, span=c.span(start)))


def _only_made(inner: list[Token]) -> bool:
    return any(token.kind == "st" for token in inner) and all(token.kind in ("n", ",", "-", "and", *_MADE) for token in inner)


def _closed_up(inner: list[Token]) -> bool:
    """Stitches and how they are closed into one ("5 dc in it, drop lp, hook in first dc, draw lp through", "5 dc worked off together"):
    what a popcorn or a bobble is."""
    kinds = {token.kind for token in inner}
    return "st" in kinds and bool(kinds & {"drop", "pull", "tog", "yo"}) and not kinds & {"rep", "total", "skip", "turn"}


def _passed(c: Cursor, close: int, words: int) -> tuple[Step, ...]:
    """The steps in the bracket, told into one place; the cursor stands behind it."""
    from .sentences import steps

    c.i = close - words
    c.frames.append(Frame())
    c.depth += 1
    ring, c.in_ring = c.in_ring, False
    try:
        steps(c, close)
        found = c.frames[-1].out
    finally:
        c.frames.pop()
        c.depth -= 1
        c.in_ring = ring
    c.i = close + 1
    made = [step for step in found if isinstance(step, (Make, Chain, Together))]
    if len(made) == 1 and isinstance(made[0], Together):
        return made[0].body
    return tuple(map(here, made))


def here(step: Step) -> Step:
    """The step as one of a group's own: all its stitches in the one place."""
    if not isinstance(step, Make):
        return step
    many = step.places if step.each == ONE and isinstance(step.places, Sized) else step.each
    return replace(step, each=many, places=ONE, at=Place(where="same"))
