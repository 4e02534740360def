"""The loop a whole row is worked in, told before its stitches or behind them: "Working in back loops only for this round, …",
"(FLO) sc around", "sc in each st around, working in back loops only", "sc around (back loops only)"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Choice, Make, Place, Repeat, Step, Together
from .cursor import Cursor
from .spots import as_loop

EXAMPLES = (
    ("working in back loops only for this round, sc in each st around", "sc×rest@next st/back"),
    ("sc in each st around, working in back loops only", "sc×rest@next st/back"),
    ("(FLO) sc around", "sc×rest@next st/front"),
    ("picking up only the back loop of each st, sc across", "sc×rest@next st/back"),
    ("sc around in BLO", "sc×rest@next st/back"),
    ("1 dc in next dc (catching the hook in back loop only throughout), 2 dc in next dc", "dc@next dc/back, 2dc@next dc/back"),
)

_BEFORE = frozenset(("work", "the", "row", "rnd", "around", "in", "over", "idle", "all", "w", "noun", "counts"))
_BEFORE_WORDS = frozenset("is are worked entire whole this throughout through into only taking catching up".split())  # noqa: SIM905
_AFTER = frozenset(("idle", "w", "for", "the", "row", "rnd", "around", "on", "throughout", "in", "of", "all", "each", "noun"))
_AFTER_WORDS = frozenset("only this entire whole throughout of for the all each st sts stitch stitches".split())  # noqa: SIM905
_ENDS = frozenset((",", ":", ";", ".", "!", "", ")", "]", "(", "[", "join", "turn", "=", "-", "<"))
_CLOSES = frozenset((".", "", ";", "(", "[", "join", "turn", "=", "-", "<", ")", "]", "*"))
_PLACED = ("next", "first", "last", "same")


def row_loop(c: Cursor) -> list[Step] | None:
    """A clause that names a loop and no stitch."""
    start = c.i
    at, end = _clause(c)
    if at is None or end is None:
        return None
    if (plain := _whole_row(c, at, end)) is not None:
        return plain
    loop = str(c.t[at].val)
    comma = c.t[end].kind == ","
    after = c.t[end + 1].kind if comma else c.t[end].kind
    beside = start > 0 and c.t[start].kind != "work" and c.t[start - 1].kind not in (",", ";", ".", ":", "then", "and")
    if (after in _CLOSES or (beside and comma)) and any(_has_makes(step) for step in c.out):
        c.i = end
        _say_of(c, loop, all_of_it=c.t[start].kind == "work")
        return [Aside(id=c.id(), span=c.span(start))]
    from .together import loop_rule

    c.i = at
    got = loop_rule(c, start)
    c.i = max(c.i, end)
    c.drop(":", ",", "!")
    return got


def taking(c: Cursor) -> list[Step] | None:
    """ "Taking up the back threads only,": the loop a row is worked in, as old books tell it."""
    return row_loop(c) if c.kind == "pick" or c.t[c.i].text.lower() in ("taking", "catching") else None


def _whole_row(c: Cursor, at: int, end: int) -> list[Step] | None:
    """ "Work in back loops only, no increases.": all that is told of a row; a stitch in each. None with the cursor unmoved."""
    k = end + (c.t[end].kind in (",", ";"))
    none = c.t[k].text.lower() in ("no", "without", "not")
    while c.t[k].kind not in ("", ".") and (
        none and (c.t[k].kind in ("inc", "dec", "not", "without") or c.t[k].text.lower() in _NOT_SHAPED)
    ):
        k += 1
    if c.out or c.i or not none or c.t[k].kind not in ("", ".") or c.t[k + (c.t[k].kind == ".")].kind:
        return None
    start, c.i = c.i, k
    place = Place(loop=as_loop(str(c.t[at].val)))
    return [Make(id=c.id(), span=c.span(start), stitch=c.ctx.main or "sc", places="rest", at=place)]


_NOT_SHAPED = frozenset("no without not or and increasing decreasing increases decreases incs decs shaping".split())  # noqa: SIM905


def names_a_loop(c: Cursor) -> bool:
    """Whether the clause at the cursor says in which loop a row is worked, and nothing else."""
    return _clause(c)[0] is not None


def bracketed(c: Cursor) -> list[Step] | None:
    """ "(FLO) sc around", "sc around (back loops only)": a loop alone in brackets."""
    start, close = c.i, c.close.get(c.i)
    if close is None:
        return None
    inner = c.t[start + 1 : close]
    if (held := _from_here_on(c, close)) is not None:
        return held
    if c.look().kind not in ("loop", "in"):
        return None
    at = next((k for k, token in enumerate(inner) if token.kind == "loop"), None)
    if at is None or any(token.kind not in ("loop", "in", "the", "idle", "w") for token in inner) or len(inner) > at + 2:
        return None
    if any(token.kind == "w" and token.val not in _AFTER_WORDS for token in inner):
        return None
    loop = str(inner[at].val)
    before = any(_has_makes(step) for step in c.out)
    c.i = close + 1
    if before and c.kind in (*_CLOSES, ","):
        _say_of(c, loop, all_of_it=False)
    elif not before:
        c.loop = "" if loop == "both" else loop
    else:
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def _from_here_on(c: Cursor, close: int) -> list[Step] | None:
    """ "1 dc in next dc (catching the hook in back loop only throughout)": the loop of the step just told and of all that follows; with no
    such word, "(inserting hook in back loop)", of that step. None with the cursor unmoved."""
    start = c.i
    inner = c.t[start + 1 : close]
    loops = [k for k, token in enumerate(inner) if token.kind == "loop"]
    makes = next((step for step in reversed(c.out) if _has_makes(step)), None)
    if len(loops) != 1 or makes is None or not all(t.kind in _SAYS_HOW or t.text.lower() in _SAYS_HOW for t in inner):
        return None
    at, words = loops[0], {str(t.val) for t in inner} | {t.text.lower() for t in inner}
    holds = bool(words & HENCEFORTH)
    if any(t.kind in ("st", "noun") for t in inner[:at]) or (inner[0].kind in ("in", "loop") and not holds):
        return None
    c.i = close + 1
    _say_of(c, str(inner[at].val), all_of_it=False)
    if holds:
        c.told["hereafter_loop"] = str(inner[at].val)
        c.loop = "" if inner[at].val == "both" else str(inner[at].val)
    return [Aside(id=c.id(), span=c.span(start))]


_SAYS_HOW = frozenset(
    "w idle work insert hook pick loop in the of all each st noun throughout over from now then on row rnd for up through always".split()  # noqa: SIM905
)
HENCEFORTH = frozenset(("hereafter", "throughout", "henceforth", "always", "now"))
"""Words that hold a rule on over the rows that follow."""


def _clause(c: Cursor) -> tuple[int | None, int | None]:
    """Where the loop's name stands in a clause that says nothing else, and where the clause ends."""
    k = c.i + (c.kind == "pick")
    while (c.t[k].kind in _BEFORE and k - c.i < 9 and (c.t[k].kind not in ("w", "counts") or str(c.t[k].val) in _BEFORE_WORDS)) or (
        k == c.i + 1 and c.t[k].text.lower() == "up"
    ):
        k += 1
    if c.t[k].kind != "loop":
        return None, None
    at = k
    k += 1
    while (c.t[k].kind in _AFTER and (c.t[k].kind != "w" or str(c.t[k].val) in _AFTER_WORDS)) or (
        c.t[k].kind == "st" and c.t[k - 1].kind in ("each", "of", "all", "the") and c.t[k - 1].kind in _AFTER
    ):
        if c.t[k].kind == "around" and c.t[k].text.lower() not in ("round",):
            return None, None  # "in back loop of each st around": a place
        k += 1
    led = c.t[k].kind == "work" and c.t[k + 1].kind in ("n", "a", "*")  # "in BLO work 2 sc in first st"
    return (at, k) if c.t[k].kind in _ENDS or led else (None, None)


def _has_makes(step: Step) -> bool:
    return isinstance(step, (Make, Repeat, Together))


def _say_of(c: Cursor, loop: str, *, all_of_it: bool) -> None:
    """The row's stitches so far, or the last of its steps, are worked in this loop, unless they say one themselves."""
    steps = [k for k, step in enumerate(c.out) if _has_makes(step)]
    for k in steps if all_of_it else steps[-1:]:
        c.out[k] = _in_loop(c.out[k], loop)


def _in_loop(step: Step, loop: str) -> Step:
    if isinstance(step, Make) and step.at.loop == "both" and step.at.where in _PLACED and step.stitch[:2] not in ("FP", "BP"):
        return replace(step, at=replace(step.at, loop=as_loop(loop)))
    if isinstance(step, Repeat):
        return replace(step, body=tuple(_in_loop(one, loop) for one in step.body), last=tuple(_in_loop(one, loop) for one in step.last))
    if isinstance(step, Choice):
        return replace(step, answers=tuple(tuple(_in_loop(one, loop) for one in answer) for answer in step.answers))
    if isinstance(step, Together) and step.at.loop == "both" and step.at.where in _PLACED:
        return replace(step, at=replace(step.at, loop=as_loop(loop)))
    return step
