"""Tunisian rows: a forward pass that keeps its loops on the hook, a return pass that works them off."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Choice, Colour, Count, Even, Make, Place, Refer, Repeat, Sized, Skip, Step, Turn
from ...trade.kinds import TUNISIAN
from .cursor import Cursor
from .numbers import number
from .spots import CLAUSE, Spot

EXAMPLES = (
    ("Forward pass: Tss in next 3 sts, Tps in next 2 sts. Return pass", "tss×3, tps×2"),
    ("Tss in each st across, return pass", "tss×rest"),
    ("Tks in next 5 sts. Return pass: yo, pull through 1 loop, *yo, pull through 2 loops; repeat from * until 1 loop remains", "tks×5"),
)
LAST_LOOP = "Is the first loop of a row that binds off counted as a stitch?"
_OFF = frozenset(("yo", "pull", "rep", "*", "until", "over"))
"""How sentences begin that tell how loops are worked off."""


def a_pass(c: Cursor) -> list[Step] | None:
    """ "Forward pass:" and "Return pass …": what is told of the way back asks for no stitch of its own."""
    start = c.i
    back = c.t[c.i].val == "back"
    c.i += 1
    c.take(":", "-")
    while back and c.kind in _OFF:
        while c.kind and c.kind not in (".", ";", ",", "pass", "("):
            c.i += 1
        if c.kind in (".", ";", ",") and c.look().kind in _OFF:
            c.i += 1
    return [Aside(id=c.id(), span=c.span(start), kind="note")]


def loop_up(c: Cursor) -> list[Step] | None:
    """ "Pull up a loop in 2nd ch from hook and in each ch across", "insert hook under next bar and draw loop through" of a Tunisian row:
    simple stitches."""
    from .stitches import in_places

    if not c.ctx.passes:
        return None
    start = c.i
    if (first := _in_chains(c)) is not None:
        return first
    while (
        c.kind
        and c.kind not in ("in", "under", ".", ",", ";", "(")
        and not (c.kind == "over" and c.look().kind in ("each", "next", "post", "last", "o", "same"))
    ):
        c.i += 1
    if c.kind not in ("in", "under", "over"):
        c.i = start
        return None
    c.take("under")
    found = in_places(c, start, "tss", None, "")
    if not found:
        c.i = start
        return None
    if isinstance(found[0], Skip) and found[0].ordinal and _after_gaps(c.out):
        left = (found[0].number.values[0] or 0) - 1  # "a loop through 2nd post": the first is the loop on the hook
        found = [replace(found[0], number=Sized((left,))), *found[1:]] if left > 0 else found[1:]
    drawn_up(c)
    if _closed_at_once(c):
        found = [replace(step, stitch="sc") if isinstance(step, Make) else step for step in found]
    return [_as_stitch(step) for step in found]


def _after_gaps(out: Sequence[Step]) -> bool:
    """Whether loops from the gaps between uprights are all that was made so far: no upright has been counted off."""
    made = [step for step in out if isinstance(step, (Make, Repeat))]
    return bool(made) and all(isinstance(step, Make) and step.at.where == "hook" for step in made)


def _in_chains(c: Cursor) -> list[Step] | None:
    """ "Pull a loop through 2nd and 3rd ch": the first loops of a piece, chain by chain; None with the cursor unmoved."""
    start = c.i
    while c.kind in ("pull", "pick", "insert", "a", "up", "lp", "idle", "and"):
        c.i += 1
    nths: list[int] = []
    if c.take("in", "over", "under"):
        c.drop("the")
        while c.kind == "o" and isinstance(c.t[c.i].val, int):
            nths.append(c.t[c.i].val)
            c.i += 1
            c.drop(",", "and")
    one_on = len(nths) > 1 and nths == list(range(nths[0], nths[0] + len(nths)))
    if not one_on or not c.take("ch") or any(isinstance(step, Make) for step in c.out):
        c.i = start
        return None
    span = c.span(start)
    first = Make(id=c.id(), span=span, stitch="tss", at=Place(where="from_hook", what="ch", nth=nths[0]))
    return [first, Make(id=c.id(), span=span, stitch="tss", places=Sized((len(nths) - 1,)), at=Place(what="ch"))]


def _closed_at_once(c: Cursor) -> bool:
    """Past ", yarn over and pull through both loops (1 sc)": the loop drawn up is worked off as a single crochet; else unmoved."""
    begin = c.i
    c.drop(",", "and", "then")
    if c.take("yo"):
        c.drop(",", "and")
        if c.take("pull") and c.take("over"):
            c.drop("the", "all", "both")
            two = c.kind == "n" and c.t[c.i].val == 2
            c.i += two
            both = c.kind == "loop" and c.t[c.i].val == "both"
            if both or ((two or c.t[c.i - 1].kind in ("both", "all")) and c.take("lp")):
                c.i += both
                c.drop("in", "hook") if c.kind == "in" and c.look().kind == "hook" else None
                close = c.close.get(c.i)
                if close is not None and c.t[close - 1].val == "sc" and close - c.i <= 3:
                    c.i = close + 1
                return True
    c.i = begin
    return False


def put_through(c: Cursor) -> list[Step] | None:
    """ "Put the needle in the next chain, bring the wool through and leave it there; so in every chain": a loop raised in each, told
    as it is done. To the end of the sentence."""
    start = c.i
    if not c.ctx.passes or not any(c.look(k).kind == "hook" for k in (1, 2)) or _one_of_unit(c):
        return None
    end = next((k for k in range(c.i, len(c.t)) if c.t[k].kind in (".", "")), c.i)
    words = c.t[start:end]
    at = next((k for k, token in enumerate(words) if token.kind in ("in", "over", "under")), None)
    drawn = next((k for k, token in enumerate(words) if token.kind == "pull" or token.val in ("draw", "bring")), None)
    if at is None or drawn is None or at > drawn or any(token.kind in ("st", "grp", "skip", "tog") for token in words):
        return None
    place = words[at:drawn]
    chain = any(token.kind == "ch" for token in place)
    again = any(token.kind in ("each", "all", "same") or token.text.lower() == "so" or token.kind == "rep" for token in words[drawn:])
    every = again or any(token.kind == "each" for token in place)
    if any(token.kind == "n" for token in words[at:drawn]):
        return None
    c.i = end
    second = chain and any(token.kind == "o" and token.val == 2 for token in place)
    first = [Make(id=c.id(), span=c.span(start), stitch="tss", at=Place(where="from_hook", what="ch", nth=2))] if second else []
    if not every:
        return [*first] or [Make(id=c.id(), span=c.span(start), stitch="tss")]
    return [*first, Make(id=c.id(), span=c.span(start), stitch="tss", places="rest", at=Place(what="ch") if chain else Place())]


def _one_of_unit(c: Cursor) -> bool:
    """ "* insert hook under next post and draw loop through, * to last post": told in one clause, it is the unit's own."""
    k = c.i
    while c.t[k].kind not in (",", ";", ".", "") and c.t[k].kind != "pull":
        k += 1
    return c.t[c.i - 1].kind == "*" and c.t[k].kind == "pull"


def drawn_up(c: Cursor) -> None:
    """ "… and draw up a loop", ", yarn over and pull loop through": how it is done, passed over."""
    begin = c.i
    c.drop(",", "and", "then")
    if c.take("yo"):
        c.drop(",", "and")
    if c.take("pull"):
        while c.kind in ("a", "the", "lp", "up", "along", "over", "idle", "color") or (c.kind == "w" and c.t[c.i].val in ("up", "out")):
            c.i += 1
        told = any(token.kind in ("lp", "color") for token in c.t[begin : c.i]) or c.kinds(",", "yo")  # "…, pull through, yarn over"
        if told and c.kind in (",", ".", ";", "", "and", "rep", ")", "("):
            return
    c.i = begin


def _as_stitch(step: Step) -> Step:
    """Bars and posts are what stitches offer here."""
    if isinstance(step, Make) and step.at.what in ("bar", "row"):
        return replace(step, at=replace(step.at, what="st", where="next" if step.at.where == "row_end" else step.at.where))
    return step


def loops_kept(c: Cursor) -> list[Step] | None:
    """ "Retaining all loops on hook", "leaving all the loops on the needle", "keep the loop on the needle": what a forward pass does, and
    how it begins; nothing is made by it."""
    start = c.i
    if not c.ctx.passes or c.look().kind not in ("all", "the", "lp") or (c.kind == "cont" and c.t[start].text.lower() not in _KEEP):
        return None
    while c.kind not in (",", ".", ";", "", "(", ")"):
        c.i += 1
    words = c.t[start : c.i]
    loops = any(t.kind == "lp" for t in words) or words[1].kind == "all"
    if loops and any(t.kind == "hook" for t in words) and not any(t.kind in ("st", "ch", "n") for t in words):
        return [Aside(id=c.id(), span=c.span(start), kind="note")]
    c.i = start
    return None


def loops_so_far(c: Cursor) -> Spot | None:
    """ "(Tss) until there are 18 loops on the hook": so many stitches, with those made before and the loop that is there already."""
    begin = c.i
    c.i += 1
    while c.kind in ("w", "idle", "the", "you", "having") and c.i - begin < 5:
        c.i += 1
    told = number(c)
    if told is not None and not told.many and c.kind in ("lp", "noun", "sp"):
        c.i += 1
        c.drop("in", "on", "the", "your")
        done = sum(
            (step.each.values[0] or 0) * (step.places.values[0] or 0) for step in c.out if isinstance(step, Make) and step.places != "rest"
        )
        more = (told.values[0] or 0) - 1 - done
        if c.take("hook") and more > 0:
            return Spot(Place(), Sized((more,)), told=True)
    c.i = begin
    return None


_BACK = frozenset(("back", "off"))
_KEEP = frozenset(("keep", "keeping", "leave", "leaving", "retain"))
_RETURN = frozenset(("return", "returning", "returned"))


def way_back(c: Cursor) -> list[Step] | None:
    """ "Work off as before", "return as usual", "to work back, draw the wool through the first loop, then through two together", "yarn over
    and through 1 loop, * yarn over and through 2 loops, repeat from *": how the loops are worked off asks for no stitch of its own. To
    the end of the sentence."""
    start = c.i
    to = c.kind in ("to", "in")
    if not c.ctx.passes or not (to or any(isinstance(step, (Make, Repeat, Refer)) for step in c.out)):
        return None
    c.i += to
    says = (c.kind == "work" and bool({str(c.look().val), c.look().kind, str(c.look(2).val)} & _BACK)) or (
        c.t[c.i].text.lower() in _RETURN and c.look().kind in (*CLAUSE, "as", "in", "by")
    )
    says = says or (
        c.t[c.i].text.lower() in ("take", "taking", "slip") and "off" in {str(c.look(k).val) for k in (1, 2, 3)}
    )  # "take off as before"
    if not says and (to or not (c.t[c.i].val == "off" or _through_loops(c))):
        c.i = start
        return None
    while c.kind not in (".", "") and not (c.kind == "(" and c.look().kind == "n"):
        c.i += 1
    again = c.kind == "." and c.look().kind == "rep" and any(token.kind == "*" for token in c.t[start : c.i])
    if again:  # "…, * yo and through next 2 loops. Repeat from * until 1 loop remains."
        c.i += 1
        while c.kind not in (".", "", "("):
            c.i += 1
    return [Aside(id=c.id(), span=c.span(start), kind="note")]


def _through_loops(c: Cursor) -> bool:
    """Whether yarn is drawn through loops on the needle: "yo and through 1 loop", "draw the wool through the first", "draw through one,
    then through two", "draw through as before"."""
    if c.kind == "yo":
        return any(c.look(k).kind == "over" and c.look(k + 1).kind in ("n", "o", "a", "lp") for k in range(1, 5))
    if c.kind != "pull":
        return False
    k = c.i + 1
    while c.t[k].kind in ("the", "color", "bar", "w", "idle", "a") and k - c.i < 5:
        k += 1
    if c.t[k].kind != "over":
        return False
    k += 1 + (c.t[k + 1].kind in ("the", "a"))
    after = c.t[k + 1].kind
    return (c.t[k].kind in ("o", "n", "lp") and after in (*CLAUSE, "lp", "tog", "and", "then")) or c.t[k].kind == "as"


_BOUND_OFF = re.compile(
    r"(?i)\b(?:bind|bound|binding|cast)\soff\b|\bthrough\s(?:both|2|two)\s(?:loops|lps)\b(?![^.]*\b(?:remains?|left|1\sloop)\b)"
)


def bound_off(text: str) -> bool:
    """Whether a Tunisian row's words work its stitches off as they are made: its first loop is then counted by some and not by others.

    >>> bound_off("*insert hook in next bar, yo, pull through both loops; rep from *"), bound_off("Tss across.")
    (True, False)
    """
    return _BOUND_OFF.search(text) is not None


_TOG = re.compile(r"\dtog$")


def in_passes(steps: Sequence[Step], nodes: int, off: bool = False) -> tuple[tuple[Step, ...], int]:
    """A Tunisian row's steps with what nobody writes: the loop on the hook is its first stitch.

    `nodes`: the ids given so far; answers how many there are now. Rows that hold no Tunisian stitch stay as they are. `off`: the row
    binds off.
    """
    steps = tuple(_in_each_bar(step) for step in steps)
    if not any(isinstance(step, Make) and _TOG.sub("", step.stitch) in TUNISIAN for step in _flat(steps)):
        return _worked_off(steps, nodes)
    kept = list(steps)
    out: list[Step] = []
    while kept and isinstance(kept[0], (Aside, Chain, Colour)):
        step = kept.pop(0)
        if not (isinstance(step, Chain) and not step.foundation):
            out.append(step)
    kept = _all_of_chain(out, kept)
    if kept and isinstance(kept[0], Skip) and kept[0].number.values == (1,):
        kept.pop(0)
    from_chain = any(isinstance(step, Make) and step.at.where == "from_hook" for step in kept[:1])
    if not from_chain:
        nodes += 1
        loop = Chain(id=nodes, span=steps[0].span, number=Sized((1,)), counts=True, stands_for=("tss",))
        if off:
            passed = Skip(id=nodes + 1, span=loop.span)
            nodes += 2
            out.append(Choice(id=nodes, span=loop.span, question=LAST_LOOP, answers=((loop,), (passed,))))
        else:
            out.append(loop)
    out += [step for step in kept if not isinstance(step, Turn)]
    return tuple(out), nodes


def _in_each_bar(step: Step) -> Step:
    """ "Work in afghan st for 60 rows": one in every stitch, as in "tss across"."""
    if not isinstance(step, Even) or step.stitch not in TUNISIAN:
        return step
    return Make(id=step.id, span=step.span, only=step.only, stitch=step.stitch, places="rest")


def _all_of_chain(before: Sequence[Step], steps: list[Step]) -> list[Step]:
    """ "Ch 30 and work 30 afghan sts on ch": as many as the chain has, the loop on the hook among them or not."""
    chain = next((step for step in reversed(before) if isinstance(step, Chain) and step.foundation), None)
    first = steps[0] if steps else None
    if chain is None or not isinstance(first, Make) or first.places == "rest" or chain.number.many:
        return steps
    told = max(first.each.values[0] or 0, first.places.values[0] or 0)
    if told + 1 not in (chain.number.values[0], (chain.number.values[0] or 0) + 1):
        return steps
    return [replace(first, each=ONE, places="rest", at=Place()), *steps[1:]]


def _worked_off(steps: Sequence[Step], nodes: int) -> tuple[tuple[Step, ...], int]:
    """A last row of slip stitches under the bars: the first bar belongs to the loop on the hook."""
    makes = [step for step in _flat(steps) if isinstance(step, Make)]
    if len(makes) != 1 or makes[0].stitch != "sl st" or makes[0].places != "rest" or any(isinstance(step, Skip) for step in steps):
        return tuple(steps), nodes
    first = Skip(id=nodes + 1, span=makes[0].span)
    passed = Choice(id=nodes + 2, span=makes[0].span, question=LAST_LOOP, answers=((first,), ()))
    at = next(k for k, step in enumerate(steps) if step is makes[0] or makes[0] in _flat((step,)))
    return (*steps[:at], passed, *steps[at:]), nodes + 2


def loops_as_stitches(counts: tuple[Count, ...]) -> tuple[Count, ...]:
    """Counts of loops on the hook are counts of stitches."""
    return tuple(replace(count, kind="st") if count.kind == "sp" else count for count in counts)


def _flat(steps: Sequence[Step]) -> list[Step]:
    found: list[Step] = []
    for step in steps:
        found.append(step)
        found += _flat(getattr(step, "body", ()))
    return found
