"""Fastening off, and saying not to: what ends the yarn and makes no stitch."""

from __future__ import annotations

from itertools import pairwise

from ...pattern import Aside, FastenOff, Join, Refer, Step
from .cursor import Cursor

EXAMPLES = (
    ("fasten off", "fasten off"),
    ("sc around, fasten off the first leg", "sc×rest, fasten off"),
    ("sc around. Do not fasten off, but go on to the next part", "sc×rest"),
    ("sc around. At end of Rnd 9, join with sl st", "sc×rest, join"),
    ("sc across. At end of last row ch 5, turn", "sc×rest, ch5, turn"),
    ("sc around, joining with sl st at end of last round", "sc×rest, join"),
)

_WORK = frozenset(("st", "ch", "inc", "dec", "skip", "grp", "rep", "turn", "mring", "attach", "n"))
_STOPS = frozenset((".", ";", "", ")", "]", "("))


_TAIL_VERBS = frozenset(("weave", "sew", "hide", "thread", "pull", "draw", "run", "use"))


def fasten(c: Cursor) -> list[Step] | None:
    """ "Fasten off", "cut yarn, leaving a long tail for sewing", "fasten off first leg"."""
    start = c.i
    if not c.take("foff"):
        return None
    c.take("color")
    c.take("n")  # "Fasten off Color 1."
    if len(c.t[c.i].text) == 1 and c.t[c.i].text.isupper() and c.kind in ("a", "w"):
        c.i += 1  # "Break off A and join B"
    if c.kind in ("on", "in", "at", "for", "of", "after") and c.look().kind in ("the", "o", "both", "each"):
        _to_stop(c, (",",))
    if c.kind == "," and c.look().kind == "but":
        c.i += 1
        _past_remark(c)
    if c.kind == "by":
        _to_stop(c, ())  # "fasten off by drawing a loop through each stitch"
    if c.kind in ("the", "o", "color", "both", "each") or c.t[c.i].val in ("securely", "invisibly"):
        _to_stop(c, (",", "and"))
    _tail_words(c)
    return [FastenOff(id=c.id(), span=c.span(start))]


def not_fastened(c: Cursor) -> list[Step] | None:
    """ "Do not fasten off", "don't cut the yarn after the last one, but join both pieces in the next round"."""
    start = c.i
    if not (c.kind == "not" and c.look().kind == "foff"):
        return None
    c.i += 2
    _to_stop(c, ())
    c.told["not_fastened"] = True
    return [Aside(id=c.id(), span=c.span(start))]


def at_last_row(c: Cursor) -> list[Step] | None:
    """ "At end of row 10 do not turn", "at end of last row, omit ch 3": how the last of these rows ends; asks for no stitch. What is told
    behind it to be worked ("at end of Round 6 join with sl st") is worked."""
    start = c.i
    c.i += 1
    c.drop("the")
    if not c.take("end") or not c.take("of"):
        c.i = start
        return None
    c.drop("the", "last", "o", "this", "n")
    if not c.take("row", "rnd", "around"):
        c.i = start
        return None
    c.take("n")
    if c.out and isinstance(c.out[-1], (Join, FastenOff)) and c.kind in (*_STOPS, ","):
        return [Aside(id=c.id(), span=c.span(start), kind="last")]  # "joining with sl st at end of Round 6"
    c.take(",")
    if c.kind == "not" and c.look().kind in ("turn", "ch", "join", "foff"):
        _to_stop(c, (",",))
        return [Aside(id=c.id(), span=c.span(start))]
    if c.kind == "ch" and _turns_otherwise(c):
        return [Aside(id=c.id(), span=c.span(start))]  # "(Like row 2.) At end of row 9 ch 1, turn": the last of them turns so
    if c.kind in ("foff", "attach", "change", "drop"):
        return [Aside(id=c.id(), span=c.span(start))]  # "At end of last rnd break A, attach B": what follows tells what is done
    if c.t[c.i].val in ("omit", "omitting"):
        _to_stop(c, (",",))
        return [Aside(id=c.id(), span=c.span(start))]
    if c.kind in ("join", "ch", "turn") or (c.kind == "st" and c.t[c.i].val == "sl st"):
        return [Aside(id=c.id(), span=c.span(start), kind="last")]
    c.i = start
    return None


def last_ended_with(c: Cursor) -> list[Step] | None:
    """ "End Round 6 with a sl st in next st", "finish last row with ch 5, turn": as `at_last_row`; None with the cursor unmoved."""
    start = c.i
    c.i += 1
    c.drop("the")
    named = c.take("last")
    if not c.take("row", "rnd") or not (c.take("n") or named) or not c.take("with", "by"):
        c.i = start
        return None
    c.drop("a")
    if c.kind in ("join", "ch", "turn") or (c.kind == "st" and c.t[c.i].val == "sl st"):
        return [Aside(id=c.id(), span=c.span(start), kind="last")]
    c.i = start
    return None


def _turns_otherwise(c: Cursor) -> bool:
    """Past "ch 1, turn" behind rows told by other rows; False with the cursor unmoved."""
    begin = c.i
    c.i += 1
    c.take("n")
    c.drop(",", "and", "to")
    if any(isinstance(step, Refer) for step in c.out) and c.take("turn"):
        return True
    c.i = begin
    return False


def _past_remark(c: Cursor) -> None:
    """ ", but keep the yarn of the second leg attached": nothing is worked in it."""
    end = c.i
    while c.t[end].kind not in _STOPS:
        if c.t[end].kind in ("st", "ch", "skip", "rep"):
            return
        end += 1
    c.i = end


def _to_stop(c: Cursor, stops: tuple[str, ...]) -> None:
    """On to the clause's end, when nothing of it asks for work."""
    end = c.i
    while c.t[end].kind not in _STOPS and c.t[end].kind not in stops:
        if c.t[end].kind in _WORK:
            return
        end += 1
    c.i = end


def _tail_words(c: Cursor) -> None:
    """ "leaving a long tail for sewing", "and weave in ends", "securely": asks for nothing that is counted."""
    begin = c.i
    c.drop(",", "and")
    if c.kind == "leave" or c.t[c.i].text.lower() in _TAIL_VERBS:
        while c.kind not in _STOPS:
            c.i += 1
        return
    c.i = begin


def turning_chain_omitted(c: Cursor) -> list[Step] | None:
    """ "(Repeat 2nd row 10 times,) omitting the ch 3 on last row", "(for length desired,) omit the ch 4": the row to come begins otherwise,
    and its own words say how."""
    start = c.i
    if c.t[c.i].text.lower() not in ("omitting", "omit"):
        return None
    c.i += 1
    c.drop("the", "last")
    chain = c.kind in ("ch", "tch", "n")
    repeats = any(isinstance(step, Refer) and not step.from_star and step.part is None for step in c.out)
    while c.kind not in (",", ";", ".", "", "(", ")", "*"):
        c.i += 1
    told = c.t[start : c.i]
    at_last = any(a.kind == "last" and b.kind in ("row", "rnd") for a, b in pairwise(told))
    if chain and (at_last or repeats) and not any(token.kind == "st" or (token.kind == "rep" and not repeats) for token in told):
        return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None
