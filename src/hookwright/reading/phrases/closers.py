"""Rounds closed by chains and a stitch: "ch 2, dc in first sc", "ch 5, d tr c in 3rd st of 1st ch"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Colour, FastenOff, Join, Make, Place, Repeat, Ring, Skip, Step, Together, Turn
from ...pattern.walking import walk
from .cursor import Cursor
from .shapes import amount, unplaced

EXAMPLES = (
    ("*sc in next loop, ch 5; rep from * around, ending ch 2, dc in first sc", "[sc@next sp, ch5]×rest, join(ch2, dc@first sc)"),
    ("*sc in next loop, ch 5; rep from * 5 times, ch 2, hdc in 1st sc for final loop", "[sc@next sp, ch5]×5 more, join(ch2, hdc@first sc)"),
    ("*3 dc in next sp, ch 3; rep from * 3 times, ending ch 1, sc in top of ch-3", "[3dc@next sp, ch3]×3 more, join(ch1, sc@named ch-3)"),
    (
        "ch 8, sc in 2nd ch from hook, 5 sc, 3 sc in last ch, on other side of ch 5 sc, sl st in end st",
        "ch8, sc@from_hook ch#2, sc×5, 3sc@last ch, sc×5@under st, join",
    ),
    (
        "ch 10, *dc in next loop, ch 7; rep from * 5 times, closing row with ch 3 and tr as before",
        "ch10, [dc@next sp, ch7]×5 more, join(ch3, tr@first st)",
    ),
    ("sc in loop formed by dc, *ch 5, sc in next loop; rep from * around", "sc@first sp, [ch5, sc@next sp]×rest"),
)

CLOSING_STITCHES = frozenset(("hdc", "dc", "tr", "dtr", "trtr"))
_BEFORE = (Chain, Colour, Aside, Ring, Turn)


def closed(steps: Sequence[Step], rounds: bool) -> list[Step]:
    """The steps of a round, its closing chains and stitch put as the join they are; of rows where they go to the row's own first chain."""
    told = [k for k, step in enumerate(steps) if not isinstance(step, Aside)]
    if not told:
        return list(steps)
    if (joined := _round_the_chain(steps) or _to_its_own_top(steps)) is not None:
        return joined
    by_words = _joins_by_stitch([steps[k] for k in told])
    if by_words:
        told.pop()
        steps = [*steps[: told[-1] + 1]]
    end = told[-1]
    last = steps[end]
    if (not rounds and not _to_own_chain(steps, last)) or _to_turning_chain(steps, last, by_words):
        return list(steps)
    if isinstance(last, Repeat) and last.last:
        remarks = [step for step in last.last if isinstance(step, Aside)]  # "… dc in first sc (thus bringing thread in position)"
        if remarks:
            last = replace(last, last=tuple(step for step in last.last if not isinstance(step, Aside)))
            steps = [*steps[:end], last, *remarks, *steps[end + 1 :]]
            if not last.last:
                return list(steps)
        last = replace(last, last=_skips_first(last.last, ending=True))
        cut = _closing_at(last.last, ending=True)
        if cut is None and _goes_back(last.last, [*steps[:end], replace(last, last=())]):
            cut = 0
        if cut is not None and last.cut is None:
            join = _join(last.last[cut:])
            return [*steps[:end], replace(last, last=last.last[:cut]), join, *steps[end + 1 :]]
        slipped = last.last[-1]
        if rounds and isinstance(slipped, Make) and slipped.stitch == "sl st" and slipped.at.where in ("first", "named"):
            join = Join(id=slipped.id, span=slipped.span, to=slipped.at)
            return [*steps[:end], replace(last, last=last.last[:-1]), join, *steps[end + 1 :]]
        return list(steps)
    steps = [*_skips_first(tuple(steps[: end + 1])), *steps[end + 1 :]]
    end = max(k for k, step in enumerate(steps) if not isinstance(step, Aside))
    cut = _closing_at(steps[: end + 1])
    if cut is None and _goes_back(steps[end - 1 : end + 1], steps[: end - 1]):
        cut = end - 1
    if cut is None or all(isinstance(step, _BEFORE) for step in steps[:cut]):
        return list(steps)
    led = next((step for step in reversed(steps[:cut]) if not isinstance(step, Aside)), None)
    kept = [step for step in steps[:cut] if step is not led or not _is_bare(step)]  # "join with ch 3 and tr in first sc"
    return [*kept, _join(steps[cut : end + 1]), *steps[end + 1 :]]


def _is_bare(step: Step) -> bool:
    """Whether a step only says that the round is joined."""
    return isinstance(step, Join) and step.to is None and not step.no and not step.closing


def _round_the_chain(steps: Sequence[Step]) -> list[Step] | None:
    """ "…, working on other side of ch, hdc in next st, sc in next st, sl st in end st", "… sl st in 3rd st of ch": a row that has gone
    down both sides of its chain is closed where it began; the slip stitch asks for no place."""
    last = next((k for k in range(len(steps) - 1, -1, -1) if not isinstance(steps[k], (Aside, FastenOff))), None)
    step = None if last is None else steps[last]
    if last is None or not isinstance(step, Make) or step.stitch != "sl st" or step.places != ONE:
        return None
    if step.at.where not in ("first", "last") and not (step.at.where == "named" and step.at.what.split("-")[0] in ("ch", "tch")):
        return None
    if not any(isinstance(one, (Make, Together)) and one.at.where == "under" for one in walk(steps)):
        return None
    join = Join(id=step.id, span=step.span, to=step.at if step.at.where == "first" else None)
    return [*steps[:last], join, *steps[last + 1 :]]


def _to_its_own_top(steps: Sequence[Step]) -> list[Step] | None:
    """ "Ch 4, 11 dc in 4th ch from hook, sl st in top of ch-4": closed where it began; the slip stitch asks for no place."""
    last = next((k for k in range(len(steps) - 1, -1, -1) if not isinstance(steps[k], (Aside, FastenOff))), None)
    first = next((step for step in steps if not isinstance(step, (Aside, Colour))), None)
    step = None if last is None else steps[last]
    if last is None or not isinstance(step, Make) or step.stitch != "sl st" or step.places != ONE or not isinstance(first, Chain):
        return None
    own = step.at.where == "named" and step.at.nth is None and step.at.what == f"ch-{first.number.values[0]}" and not first.number.many
    if not own or any(isinstance(one, Turn) for one in steps):
        return None
    return [*steps[:last], Join(id=step.id, span=step.span, to=step.at), *steps[last + 1 :]]


def _joins_by_stitch(told: Sequence[Step]) -> bool:
    """ "ch 2, dc in first sc to join": the stitch is what joins."""
    join = told[-1]
    if len(told) < 3 or not isinstance(join, Join) or join.to or join.no or join.closing:
        return False
    return _closing_at([step for step in told[:-1] if not isinstance(step, Skip)]) is not None


def closed_as_before(c: Cursor, steps: list[Step]) -> list[Step] | None:
    """ "(… ch 3), tr as before", "(closing rnd with ch 3 and) tr as in last rnd": the stitch goes into the round's beginning, as it did in
    the round before. None with the cursor unmoved."""
    start = c.i
    made = steps[0] if len(steps) == 1 else None
    before = c.out[-1] if c.out else None
    if c.kind not in ("as", "same") or not isinstance(before, Chain) or not isinstance(made, Make) or not unplaced(c, made):
        return None
    c.drop("as", "same", "in", "the")
    c.i += c.kind in ("last", "prev", "before")
    said = c.i > start + 1
    if c.kind in ("rnd", "row", "around"):
        c.i += 1
    if not said or amount(made) != 1 or c.kind not in _ENDS_ROUND:
        c.i = start
        return None
    return [replace(made, at=Place(where="first"))]


_ENDS_ROUND = frozenset((".", "", ";", "(", "[", "foff"))


def _skips_first(steps: tuple[Step, ...], *, ending: bool = False) -> tuple[Step, ...]:
    """ "ch 2, skip 3, dc in first sc": the chain that closes is made after the skip as well as before it."""
    told = tuple(step for step in steps if not isinstance(step, Aside))
    if (
        len(told) >= 3
        and isinstance(told[-3], Chain)
        and isinstance(told[-2], Skip)
        and _closing_at((told[-3], told[-1]), ending=ending) is not None
    ):
        return (*told[:-3], told[-2], told[-3], told[-1])
    return steps


def _to_own_chain(steps: Sequence[Step], last: Step) -> bool:
    """ "In 3rd st of 1st ch 13" of a row that begins with 13 chains, or goes on to where they stand by slip stitches; "ch 3, tr as before"
    at the end of one."""
    own = next((s for s in steps if not (isinstance(s, (Aside, Colour)) or (isinstance(s, Make) and s.stitch == "sl st"))), None)
    if not isinstance(own, Chain) or not isinstance(last, Make):
        return False
    if last.at == Place(where="first") and last.stitch in CLOSING_STITCHES:
        return not own.foundation and not any(isinstance(step, Turn) for step in steps)
    return last.at.what == f"ch-{own.number.values[0]}" and last.at.nth is not None


def _to_turning_chain(steps: Sequence[Step], last: Step, by_words: bool) -> bool:
    """ "Ch 4, turn, …, ch 1, dc in 3rd ch of ch-4 (of turning ch)": a row that is turned ends in the turning chain of the row below; it
    closes no round (`by_words`: unless the words say that it joins)."""
    turned = any(isinstance(step, Turn) and not step.no for step in steps)
    if not turned or not isinstance(last, Make):
        return False
    return (last.at.what == "tch" and not by_words) or (last.at.what.startswith("ch-") and last.at.nth is not None)


def _closing_at(steps: Sequence[Step], *, ending: bool = False) -> int | None:
    """Where the closing begins: chains, then one stitch into the round's beginning."""
    last = steps[-1] if steps else None
    if not isinstance(last, Make) or last.stitch not in (*CLOSING_STITCHES, "sc") or last.each != ONE or last.places != ONE:
        return None
    if last.stitch == "sc" and last.at.where not in ("first", "named"):
        return None  # "ch 1, sc in first sc" is the last space of three chains; "ch 1, sc in next sc" is more of the round
    to_stitch = last.at.where == "next" and (
        last.at.what in (*CLOSING_STITCHES, "sc", "cl") if ending else last.at.what == last.stitch and _nets(steps[:-2])
    )
    to_base = ending and last.at.where == "same" and last.at.what.startswith("ch-")  # "hdc in base of first ch-3"
    if (last.at.where not in ("first", "named") and not to_stitch and not to_base) or len(steps) < 2 or not isinstance(steps[-2], Chain):
        return None
    return len(steps) - 2


def _goes_back(steps: Sequence[Step], before: Sequence[Step]) -> bool:
    """ "Ch 3, tr in same dc", "ch 3, dc in last dc", "ch 3, tr in sl st" behind a round that begins with a chain: into the stitch that the
    hand stood on as it began."""
    if len(steps) != 2 or not isinstance(steps[0], Chain) or not isinstance(made := steps[1], Make):
        return False
    if made.stitch not in CLOSING_STITCHES or made.each != ONE or made.places != ONE or made.at.what.endswith("sp"):
        return False
    if made.at.where == "same" or (made.at.where == "next" and made.at.what == "sl st"):
        return _nets(before, on_stitches=True)
    return made.at.where == "last" and _nets(before)


def _nets(steps: Sequence[Step], *, on_stitches: bool = False) -> bool:
    """ "Ch 7, sc in next loop, * ch 7, sc in next loop; repeat from * around (, ch 3, tr in tr)": a round of loops that begins with one,
    and so ends in the stitch that closed the round before."""
    told = [step for step in steps if not isinstance(step, (Aside, Colour))]
    if not told or not isinstance(unit := told[-1], Repeat) or unit.last:
        return False
    if not isinstance(unit.body[0] if told[0] is unit else told[0], Chain):
        return False
    makes = [step for step in (*told, *unit.body) if not isinstance(step, (Chain, Repeat, Aside))]
    passed = [step for step in makes if not (on_stitches and isinstance(step, Skip))]
    return bool(passed) and all(
        isinstance(step, Make) and step.at.where == "next" and (on_stitches or step.at.what.endswith("sp")) for step in passed
    )


def _join(steps: Sequence[Step]) -> Join:
    make = steps[-1]
    assert isinstance(make, Make)
    return Join(id=make.id, span=make.span, to=make.at, closing=tuple(steps))


def in_loop_made(c: Cursor, at: dict[str, object]) -> bool:
    """ "(in loop) formed by dc", "just made", "formed by joining": the loop that closed the round before, where the round begins in it."""
    start = c.i
    words = 0
    while words < 10 and c.kind and c.kind not in (",", ";", ".", ")", "]", "(", "*", ":"):
        if not (c.kind in _PASSED or c.t[c.i].val in _MADE):
            break
        c.i += 1
        words += 1
    made = any(c.t[k].val in _MADE for k in range(start, c.i))
    if made and any(c.t[k].kind == "tch" for k in range(start, c.i)):
        return True  # "in loop formed by turning ch": the next loop, at the row's end
    if not made or any(type(step).__name__ in ("Make", "Together", "Repeat") for step in c.frames[0].out):
        c.i = start
        return False
    at["where"] = "first"
    return True


def final_loop(c: Cursor) -> list[Step] | None:
    """ "(Ch 2, hdc in 1st sc) for final loop": the chain and the stitch close the round, and stand for its last loop."""
    start = c.i
    k = start + 1 + (c.look().kind == "the")
    if c.t[k].kind != "last" or c.t[k + 1].kind not in ("lp", "sp") or len(c.out) < 2:
        return None
    at = len(c.out) - (3 if isinstance(c.out[-2], Skip) and len(c.out) > 2 else 2)
    chain, last = c.out[at], c.out[-1]
    if not isinstance(chain, Chain) or not isinstance(last, Make) or last.at.where != "first":
        return None
    c.i = k + 2
    del c.out[-1], c.out[at]
    return [Join(id=last.id, span=last.span, to=last.at, closing=(chain, last))]


_MADE = frozenset("formed made just completed joined".split())  # noqa: SIM905
_PASSED = frozenset(
    ("by", "the", "a", "last", "prev", "of", "rnd", "st", "ch", "-", "n", "and", "join", "idle", "from", "in", "row", "noun", "end", "tch")
)
