"""Brackets: repeats "(…) 6 times", several in one place "(…) in next st", counts, remarks, definitions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...pattern import LIMITS, Aside, Chain, Make, Place, Repeat, Sized, Skip, Step, Times, Together, Unread
from . import counts
from .bracket_remarks import is_part_of, one_group, prose_inside, remark
from .cluster_begun import cluster_begun
from .counts_of_change import change_told
from .cursor import Cursor, Frame
from .elsewhere import and_elsewhere
from .filet import only_squares, tells_squares
from .group_names import defines, one_named
from .how_often import how_often, told_often
from .limits import limit
from .numbers import number
from .places import PREPS, spot
from .shaped_groups import told_shaped
from .shapes import amount, times
from .specials import named
from .spots import ZERO
from .staying_free import in_bracket
from .things import LAST
from .told_in_brackets import behind_place

EXAMPLES = (
    ("(sc in next st, 2 sc in next st) 6 times", "[sc, 2sc]×6"),
    ("(2 sc, inc) x 6", "[sc×2, 2sc]×6"),
    ("6 x (sc, inc)", "[sc, 2sc]×6"),
    ("(dc, ch 1, dc) in next ch-1 sp", "{dc, ch1, dc}@next ch-1 sp"),
    ("[hdc in next 2 sts, 2 hdc in next st] around", "[hdc×2, 2hdc]×rest"),
)


def bracket(c: Cursor) -> list[Step] | None:
    """A bracket as what it is: a repeat, several in one place, a remark, a name; a trouble where it never closes."""
    start = c.i
    close = c.close.get(start)
    if close is None:
        c.trouble("bracket-open", c.span(start, start + 1), "this bracket is never closed", bracket=c.kind)
        c.i += 1
        return []
    if (begun := cluster_begun(c)) is not None:
        return begun
    if close - start <= 7 and any(token.kind in ("inc", "dec") for token in c.t[start + 1 : close]):
        told_shaped(c, c.t[start + 1 : close], start)
    if (said := change_told(c, close)) is not None or (said := in_bracket(c, close)) is not None:
        return said
    made = behind_place(c, close)
    if made is not None:
        return made
    after = c.t[close + 1]
    repeated = after.kind == "n" and not after.gap and not c.out  # "(1 sc, 1 inc)6" opens a row: no count
    if (part := is_part_of(c, start, close)) is not None:
        return part
    if c.ctx.filet and tells_squares(c, start, close):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    if c.ctx.filet and told_often(c, close) and only_squares(c.t[start + 1 : close]):
        body = inside(c, close)
        c.i = close + 1
        return _after(c, start, close, body, None)
    got = one_named(c, start, close) or one_group(c, start, close) or (None if repeated else counts.bracketed(c))
    if got is not None:
        return got
    told = remark(c, start, close)
    if told is not None:
        return told
    if c.depth >= LIMITS.depth:
        c.i = close + 1
        message = f"brackets inside brackets, more than {LIMITS.depth} deep; what these hold was not read"
        c.trouble("too-long", c.span(start), message, limit=LIMITS.depth)
        return [Unread(id=c.id(), span=c.span(start))]
    body = inside(c, close)
    c.i = close + 1
    if c.t[c.i].text.lower() == "repeated" and c.look().kind in ("in", "over"):
        c.i += 1  # "(5 sc, p, 4 sc) repeated in each 7-ch lp around"
    return _after(c, start, close, body, None)


def prefixed(c: Cursor) -> list[Step] | None:
    """ "6 x (sc, inc)", "6 (sc, inc)", "6 times (sc, inc)": the number stands in front."""
    start = c.i
    told = number(c)
    if told is None:
        return None
    if c.kind == "times" or (c.kind == "w" and c.t[c.i].val == "x"):
        c.i += 1
    c.take(":")
    if c.kind not in ("(", "[", "{", "*"):
        c.i = start
        return None
    if c.kind == "*":
        return _starred(c, start, told)
    close = c.close.get(c.i)
    if close is None or close - c.i < 3 or (told_of_before(c) and defines(c, c.i, close)):
        c.i = start
        return None
    body = inside(c, close)
    c.i = close + 1
    return [Repeat(id=c.id(), span=c.span(start), body=tuple(body), times=Times(kind="n", number=told))]


def told_of_before(c: Cursor) -> bool:
    """Whether a stitch stands right before "16 times (to dec: …)": the number is of that, and the bracket says how it is made."""
    return any(t.kind == ":" for t in c.t[c.i : c.i + 6]) and bool(c.out)


def _starred(c: Cursor, start: int, told: Sized[int]) -> list[Step] | None:
    """ "6 x *sc, inc*"."""
    k = c.i + 1
    while c.t[k].kind not in ("*", ""):
        k += 1
    if c.t[k].kind != "*" or c.t[start + 1].kind == "*":
        c.i = start
        return None
    body = inside(c, k)
    c.i = k + 1
    return [Repeat(id=c.id(), span=c.span(start), body=tuple(body), times=Times(kind="n", number=told))]


def inside(c: Cursor, close: int) -> list[Step]:
    """The steps between the bracket at the cursor and `close`, on a frame of their own."""
    from .sentences import steps

    c.i += 1
    c.frames.append(Frame())
    c.depth += 1
    ring, c.in_ring = c.in_ring, False
    try:
        steps(c, close)
        return c.frames[-1].out
    finally:
        c.frames.pop()
        c.depth -= 1
        c.in_ring = ring


def _after(c: Cursor, start: int, close: int, body: list[Step], prefix: Sized[int] | None) -> list[Step]:
    """What follows the bracket says what it was."""
    empty = not any(not isinstance(step, Aside) for step in body)
    if empty:
        return [Aside(id=c.id(), span=c.span(start))]
    begin = c.i
    while c.kind in ("all", "work", "tog") and c.look().kind in ("in", "over", "work"):
        c.i += 1  # "(dc, ch 1, dc) all worked in next st"
    posts = c.kind == "around" and c.look().kind in ("each", "next")  # "(dc, FPdc) around each st"
    if posts or (c.kind in PREPS and c.kind not in ("around", "across", "to", "for", "from")) or c.kind in ("all",):
        found = spot(c)
        if found is not None:
            made = and_elsewhere(c, _in_place(c, start, body, found))
            pair = c.told.pop("pair", 0)
            if isinstance(pair, int) and pair > 1:
                made.append(Skip(id=c.id(), span=c.span(begin), number=Sized((pair - 1,))))
            more = times(c)
            return [Repeat(id=c.id(), span=c.span(start), body=tuple(made), times=more)] if more is not None else made
        c.i = begin
    got = None if _counted_inside(c, body) else how_often(c)
    if got is not None:
        from .bare import side_by_side
        from .repeats import in_turn

        found = spot(c) if c.kind in ("in", "over") and got.kind == "n" else None
        if found is not None:
            again = Repeat(id=c.id(), span=c.span(start), body=tuple(body), times=got)
            return [
                Together(id=c.id(), span=c.span(start), body=(again,), at=found.at, places=found.places, but=found.but, upto=found.upto)
            ]
        unit = side_by_side(c, in_turn(body)) if c.ctx.rounds else in_turn(body)
        last, cut = _ends_with(c, unit) if got.kind == "rest" else ((), None)
        return [Repeat(id=c.id(), span=c.span(start), body=unit, times=got, last=last, cut=cut)]
    if not any(not isinstance(step, (Aside, Unread)) for step in body) or (
        any(isinstance(step, Unread) for step in body) and prose_inside(c, start, close)
    ):
        return [Aside(id=c.id(), span=c.span(start, close + 1))]
    at = _ran_up_to(c, body)
    if prefix is None and at is not None:
        return [Together(id=c.id(), span=c.span(start), body=tuple(body), at=at)]
    if prefix is None and _explains(c, start, body):
        return [Aside(id=c.id(), span=c.span(start, close + 1))]
    return body


def _counted_inside(c: Cursor, body: list[Step]) -> bool:
    """Whether "; repeat" behind "(4 chain, miss 3, 1 plain 6 times)" is said of all of the row: the bracket has told its own times."""
    told = [step for step in body if not isinstance(step, Aside)]
    inner = told[0] if len(told) == 1 else None
    return (
        isinstance(inner, Repeat)
        and inner.times.kind == "n"
        and c.kind in (",", ";")
        and c.look().kind == "rep"
        and c.look(2).kind in _ENDS
    )


def _ends_with(c: Cursor, unit: Sequence[Step]) -> tuple[tuple[Step, ...], int | None]:
    """ "(2 sc, ch 1, skip 1) across, ending with 1 sc": what the last repeat ends with; more than the unit makes are the row's count."""
    from .cursor import Mark
    from .repeat_endings import ending

    k = c.i
    while c.t[k].kind in (",", ";", "and"):
        k += 1
    if c.t[k].kind not in ("end", "ending") and c.t[k].text.lower() not in ("finish", "finishing"):
        return (), None
    k += 1
    k += c.t[k].kind in ("with", "by", "in")
    many = c.t[k].val if c.t[k].kind == "n" else 1 if c.t[k].kind == "a" else None
    made = sum(amount(step) for step in unit if isinstance(step, Make))
    if not isinstance(many, int) or many > made or c.t[k + 1].kind != "st" or c.t[k + 2].kind not in _ENDS:
        return (), None
    return ending(c, Frame(out=list(unit)), Mark("", 0, 0))


_ENDS = frozenset((",", ";", ".", "", ")", "(", "turn", "join", "foff"))


def _ran_up_to(c: Cursor, body: list[Step]) -> Place | None:
    """ "Dc in each st up to corner, (2 dc, ch 2, 2 dc), dc in each st": a bracket behind a run to a place goes into that place."""
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    upto = last.upto if isinstance(last, Make) else last.times.what if isinstance(last, Repeat) and last.times.kind == "to_place" else ""
    bare = [step for step in body if isinstance(step, Make)]
    if upto != "corner" or len(bare) < 2 or not any(isinstance(step, Chain) for step in body):
        return None
    if not all(isinstance(step, (Make, Chain, Aside)) for step in body) or not all(step.at == Place(span=step.at.span) for step in bare):
        return None
    return Place(what=upto)


def _explains(c: Cursor, start: int, body: list[Step]) -> bool:
    """A bracket that only tells again what stands before it ("inc (2 sc in next st)")."""
    before = c.t[start - 1].kind if start else ""
    first = c.t[start + 1]
    return (before in ("inc", "dec") and len(body) == 1) or (
        first.kind == "or" or (first.kind == "w" and first.val in ("optional", "e", "i", "see", "eg", "ie"))
    )


def _in_place(c: Cursor, start: int, body: list[Step], found: object) -> list[Step]:
    from .spots import Spot

    assert isinstance(found, Spot)
    return [Together(id=c.id(), span=c.span(start), body=tuple(body), at=found.at, places=found.places, but=found.but, upto=found.upto)]


# ---- remarks ---------------------------------------------------------------------------------------------------------------------


def corner_again(c: Cursor) -> list[Step] | None:
    """ "Corner in next sp", once "(corner made)" or a group worked into a corner has told what a corner is."""
    if c.kind == "a" and c.look().kind != "corner":
        return None
    if "corner" not in c.defined and "corner" not in c.specials:
        told = c.specials.get(LAST)
        if told is None or c.look(1 + (c.kind == "a")).kind not in (",", ";", "*", "in", "]", ")"):
            return None
        c.defined["corner"] = replace(told, name="corner")
    c.take("a")
    return named(c, c.i, None)


__all__ = ["EXAMPLES", "ZERO", "bracket", "limit", "prefixed"]
