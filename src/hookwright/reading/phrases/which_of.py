"""Which of several places: the first, the 3rd, the last, the same, the remaining ones."""

from __future__ import annotations

from itertools import pairwise
from typing import cast

from ...pattern import Aside, Chain, Choice, Colour, Make, Place, Sized, Skip, Step, Turn
from ...pattern.nodes import Where
from ...trade.kinds import HEIGHT
from .cursor import Cursor, Run
from .limits import limit_spot
from .motifs import of_motif
from .nouns import count_noun_here, noun
from .numbers import number
from .onset import on_foundation
from .spots import ONE, RUN_ENDS, Spot, moved
from .tails import GROUPS, of_what, tail

EXAMPLES = (
    ("dc in 4th ch from hook", "dc@from_hook ch#4"),
    ("sc in last 2 sts", "sc×2@last st"),
    ("sc in same st as joining", "sc@same st"),
)


def _of_so_many(c: Cursor, nth: int) -> Spot | None:
    """ "(3rd dc) of next 5 dc", "(3rd) of 5dc": the middle one of a group told by its stitches; None with the cursor unmoved."""
    begin = c.i
    if c.take("of"):
        c.drop("the", "next", "each")
        if c.kind == "n" and c.t[c.i].val == 2 * nth - 1 and c.look().kind in ("st", "-") and nth > 1:
            c.i += 1
            c.take("-")
            what = noun(c)
            c.take("group")
            if what is not None and what in HEIGHT:
                return Spot(Place(what=what, nth=0))
    c.i = begin
    return None


def _middle_alone(c: Cursor) -> Spot | None:
    """ "3rd of 5 dc", where no other of the five is named in the row."""
    begin = c.i
    nth = c.t[c.i].val
    others = [k for k in range(len(c.t) - 3) if c.t[k].kind == "o" and c.t[k].val != nth and "of" in (c.t[k + 1].kind, c.t[k + 2].kind)]
    if c.kind == "o" and isinstance(nth, int) and not others:
        c.i += 1
        noun(c)
        found = _of_so_many(c, nth)
        if found is not None:
            return found
    c.i = begin
    return None


def ordinal(c: Cursor) -> Spot | None:
    middle = _middle_alone(c)
    if middle is not None:
        return middle
    told_run = of_a_run(c)
    if told_run is not None:
        return told_run
    token = c.t[c.i]
    facts: dict[str, object]
    nth = token.val if token.kind == "o" else 1
    c.i += 1
    if nth == 1 and c.kind == "of" and c.look().text.lower() in ("these", "them", "those", "which") and (chains := _own_chains(c)):
        c.i += 2
        return Spot(Place(where="from_hook", what="ch", nth=chains))  # "make 4 chain, in the first of these work"
    if nth > 1 and c.kind in RUN_ENDS and _just_missed(c, nth - 1):
        return Spot(Place())  # "miss 3, dc on the fourth"
    if nth == 1:
        told: Sized[int] | None = None
        if c.kind == "n" and not count_noun_here(c):
            told = number(c)
        c.drop("idle", "free")
        what = noun(c)
        if c.kind == "from" and c.look().kind in ("hook", "the"):
            return from_hook(c, 1)
        if what is None and c.kind == "of" and c.look(1 + (c.look().kind == "the")).kind == "skip":
            c.i += 2 + (c.look().kind == "the")
            return Spot(Place(where="skipped", what=noun(c) or "st"))  # "attach thread to 1st of the skipped d c"
        if what is None and c.kind == "of" and c.look(1 + (c.look().kind in ("the", "next"))).kind in ("group", "grp"):
            c.i += 2 + (c.look().kind in ("the", "next"))  # "1 t. c. in first of the scallop": where the hand comes to it
            return Spot(Place())
        if what is None and c.kind not in (",", ";", ".", ")", "]", "", "(", "and", "*", "tog", "ch", "n"):
            return None
        if c.kind == "of" and what in ("ch", "st", "sp"):
            begin = c.i
            of: dict[str, object] = {}
            if not of_what(c, of) or of.get("row"):
                c.i = begin  # "first st of Row 4": the row is told by its tail
            elif of.get("what"):
                if of["what"] == "ch":
                    return Spot(Place(where="first", what="ch"))  # "1st st of ch": the chain it all stands on
                if what == "sp" and of["what"] in GROUPS:
                    return Spot(Place(where="first", what="sp", of=str(of["what"])))  # "1st loop of fan": one of its own loops
                return Spot(Place(where="named", what=str(of["what"]), nth=1))
        begin, facts = c.i, {}
        if what in HEIGHT and told is None and of_what(c, facts) and (counted := _of_group(what, 1, facts)) is not None:
            return counted
        c.i = begin
        at = tail(c, what or "st")
        return Spot(moved(at, where="first"), told or ONE, told=told is not None)
    if c.kind in ("last",):
        c.i += 1
        noun(c)
        return Spot(Place(where="last", nth=nth))
    what = noun(c) or None
    c.drop("idle")
    if c.kind == "from" or (c.kind == "w" and c.t[c.i].val == "off"):
        after = [c.look(k).kind for k in (1, 2)]
        if "hook" in after or "mring" in after:
            found = from_hook(c, nth)
            if what == "st" and nth == 2 and _each_after_turning(c):
                return Spot(Place(), skip=1)  # "ch 3, turn, dc in 2nd st from hook and each st to end"
            turned = what not in (None, "st", "ch") and c.out and type(c.out[-1]).__name__ == "Turn"
            return Spot(moved(found.at, what=what)) if turned else found  # "turn, tr in 4th dc from hook": of the stitches just made
        if c.look().kind in ("the", "end", "beg") or c.look().kind == "end":
            c.i += 1
            c.drop("the")
            if c.take("end"):
                of_what(c, {})
                return Spot(Place(where="last", what=what or "st", nth=nth))
    if what is None and c.kind in (",", ";", ".", ")", "]", "", "(", "and", "*"):
        return Spot(Place(), skip=nth - 1)  # "(sc, ch 3, sc) in the 12th"
    if what is None and not (c.kind == "of" and nth <= 12):
        return None
    what, facts = what or "ch", {}
    if c.kind in ("of", "in", "from") and of_what(c, facts) and facts.get("what"):
        if facts["what"] == "ch" and nth >= 2 and on_foundation(c, nth):
            return Spot(Place(where="from_hook", what="ch", nth=nth))  # "in 8th st of ch"
        if str(facts["what"]).startswith("ch-"):
            facts["what"] = str(facts["what"]).removesuffix(" sp")  # "3rd of 5 ch" is one of the chain's own
        if (counted := _of_group(what, nth, facts)) is not None:
            return counted
        return Spot(Place(where="named", what=str(facts["what"]), nth=nth, below=cast(int, facts.get("below", 0))))
    if what == "ch" and nth >= 2 and _on_own_chain(c, nth):
        return Spot(Place(where="from_hook", what="ch", nth=nth))  # "Ch 6, dc in 4th ch and in next 2 ch" in mid-piece
    if what in ("ch", "st") and nth >= 2 and on_foundation(c, nth):
        return Spot(Place(where="from_hook", what="ch", nth=nth))  # "Ch 6, sc in 2nd ch and in each ch"
    at = tail(c, what)
    if what in ("ch", "ch-3") or what.startswith("ch-"):
        return Spot(moved(at, where="named", nth=nth))
    return Spot(at, skip=0 if _come_to(c, nth) else nth - 1)


def _on_own_chain(c: Cursor, nth: int) -> bool:
    """Whether a longer chain was made just before, by itself: its chains are counted from the hook."""
    made = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    alone = isinstance(made, Chain) and not made.foundation and made.counts is None and not made.number.many
    return alone and isinstance(made, Chain) and nth < (made.number.values[0] or 0) <= nth + 6 and c.kind not in ("of", "on")


def _come_to(c: Cursor, nth: int) -> bool:
    """ "Sc in 2nd st, sc in 3rd st": counted from the same place, and the hand has come there."""
    singly = 0
    for step in reversed(c.out):
        if isinstance(step, Make) and step.places == ONE and step.at.where == "next":
            singly += 1
        elif not isinstance(step, Aside):
            passed = [one for answer in step.answers for one in answer] if isinstance(step, Choice) else [step]
            told = [one for one in passed if isinstance(one, Skip) and one.ordinal]
            return singly > 0 and len(told) == 1 and told[0].number == Sized((nth - 1 - singly,))
    return False


def _of_group(what: str, nth: int, facts: dict[str, object]) -> Spot | None:
    """ "(Seventh d c) of same petal": one stitch of the group, counted from where the hand comes to it."""
    if facts.get("what") not in GROUPS or what not in HEIGHT or facts.get("where") == "last":
        return None
    where = cast(Where, facts.get("where", "named"))
    return Spot(Place(where=where, what=what, nth=nth, of=str(facts["what"])))


def _own_chains(c: Cursor) -> int:
    """How many chains were just made, where nothing was made after them; 0 elsewhere."""
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    return (last.number.values[0] or 0) if isinstance(last, Chain) and not last.number.many else 0


def _just_missed(c: Cursor, number: int) -> bool:
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    return isinstance(last, Skip) and last.number == Sized((number,))


def of_a_run(c: Cursor) -> Spot | None:
    """ "(dc in) 1st of 7 dc", "last dc of next 7 dc", "last of the 7", "the fourth of the seven trebles": counted from where the hand
    comes to those stitches, what was worked of them meanwhile taken off. None with the cursor unmoved."""
    begin = c.i
    which = c.t[c.i]
    nth = which.val if which.kind == "o" else -1 if which.kind == "last" else 1
    c.i += 1
    own = noun(c) if c.kind in ("st", "noun") else None
    while c.kind == "of" or (c.t[c.i - 1].kind in ("of", "the", "next") and c.kind in ("the", "next")):
        c.i += 1
    whole = c.t[c.i].val
    if c.t[c.i - 1].kind not in ("of", "the", "next") or c.kind != "n" or not isinstance(whole, int) or not 2 < whole < 40 or nth > whole:
        c.i = begin
        return None
    c.i += 1
    named = noun(c) if c.kind in ("st", "noun") else None
    what = named or own
    upon = c.ctx.old and any(token.text.lower() in ("on", "upon") for token in c.t[max(begin - 2, 0) : begin])  # "on the 3rd of the six"
    unnamed = what is None and c.run is None and not upon
    if c.kind not in RUN_ENDS | {"and", "work", "n"} or unnamed or (what or "").startswith("ch"):
        c.i = begin
        return None
    run = c.run if c.run is not None and nth != 1 and c.run.goes_on(c, whole) else None
    if run is None:
        run = c.run = Run(c.frames[-1], len(c.out), whole, what or "st")
    done = sum(map(takes, c.out[run.first :]))
    at = (whole if nth == -1 else int(nth)) - 1 - done
    return Spot(Place(what=what or run.kind), skip=max(at, 0))


def takes(step: Step) -> int:
    """Stitches of the row below that a step takes or passes over."""
    if isinstance(step, Skip):
        return step.number.values[0] or 0
    if isinstance(step, Make) and step.places != "rest" and step.at.where == "next" and not step.at.what.endswith("sp"):
        return (step.places.values[0] or 0) * step.closes
    return 0


def middle_of_group(c: Cursor) -> Spot | None:
    """ "(between 2nd and) 3rd dc of next shell": in the middle of the shell; of any other stitches, between two of them."""
    found = ordinal(c)
    if found is not None and found.at.where == "named" and found.at.nth and not found.at.what.startswith("ch"):
        found.at = Place(what=found.at.what)
    return found


def from_hook(c: Cursor, nth: int) -> Spot:
    c.i += 1
    c.drop("the", "of")
    c.take("hook")
    return Spot(Place(where="from_hook", what="ch", nth=nth))


def _each_after_turning(c: Cursor) -> bool:
    """Whether the row goes on into every stitch, and only a turning chain was made: the stitch counted is one of the row below."""
    k = c.i + (c.kind == "and")
    k += c.t[k].kind == "in"
    made = [step for step in c.out if not isinstance(step, (Aside, Turn, Colour))]
    turning = len(made) == 1 and isinstance(made[0], Chain) and not made[0].foundation and (made[0].number.at(0) or 0) <= _TALLEST
    return turning and c.t[k].kind == "each"


_TALLEST = 4
"""Chains of a turning chain, at most, that is taken for one without a doubt (ours)."""
_ENDS_BARE = frozenset((",", ";", ".", ")", "]", "", "(", "and", "*", "="))
"""What may follow "in last" alone; a dash too, as before a count."""


def last(c: Cursor) -> Spot | None:
    told_run = of_a_run(c)
    if told_run is not None:
        return told_run
    c.i += 1
    told: Sized[int] | None = None
    if c.kind == "n" and not count_noun_here(c):
        told = number(c)
    if c.kind == "o":
        c.i += 1
    sized = c.kind == "ch" and c.look().kind == "n" and c.look(2).kind in (",", ";", ".", "", ")", "]", "and")
    what = noun(c, chains=sized)
    if sized and what is not None:
        what = what if what.endswith("sp") else f"{what} sp"  # "3 dc in last ch 1,": under it
    if what is None and told is None and c.kind not in _ENDS_BARE and not (c.kind == "-" and c.t[c.i].val == "loose"):
        return None
    gaps = c.t[c.i - 1].text.lower() == "gap" and any(a.text.lower() == "gap" and b.kind == "between" for a, b in pairwise(c.t[: c.i]))
    at = tail(c, what or "st")
    if gaps:
        at = moved(at, between=True)  # "…, 2 dc in last gap": between groups, as the row's other gaps are
    if what and c.kind == "w" and c.t[c.i].val in ("made", "worked"):
        c.i += 1
        _on_own_motif(c)
        return Spot(moved(at, where="same", what="made"))
    if at.where == "same" and not at.of:
        return Spot(at)
    if at.where == "same":  # "in last dc of same shell", "in the last sp of that fan"
        return Spot(moved(at, where="last" if at.what.endswith("sp") else "named", nth=-1))
    return Spot(moved(at, where="last"), told or ONE, told=told is not None)


def _on_own_motif(c: Cursor) -> None:
    """Pass over "(sl st in last dc made) on Second Motif", "of this motif": the stitch is the one just made, whatever it is on."""
    if c.kind in ("on", "in", "of"):
        of_motif(c, {})


def same(c: Cursor) -> Spot | None:
    c.i += 1
    told: Sized[int] | None = None
    if c.kind == "n" and not count_noun_here(c):
        told = number(c)
    c.drop("idle")
    c.take("last") if c.look().kind in ("st", "noun", "sp", "ch", "tch") else None  # "in the same last st"
    what = noun(c) or ("st" if c.kind != "next" else None)
    if what is None:
        what = "st"
    begin = c.i
    _as_what(c)
    as_first = any((token.kind == "o" and token.val == 1) or token.text.lower() == "first" for token in c.t[begin : c.i])
    if as_first and any(isinstance(step, Make) and step.at.where == "under" for step in c.out):
        # "2 sc in same place as first 2 sc", at the end of the chain's far side: the chain that both sides share
        return Spot(moved(tail(c, "st"), where="first"), told or ONE, told=told is not None)
    return Spot(moved(tail(c, what), where="same"), told or ONE, told=told is not None)


_AS_END = frozenset((",", ";", ".", "", ")", "]", "(", "*", "[", "and", "n", "then"))


_WHERE_IT_IS = frozenset(("coming", "comes", "came", "stands", "sits", "began", "started", "starts", "begins", "growing"))


def _as_what(c: Cursor) -> None:
    """Pass over "as joining", "as sl st", "as last dc", "as ch-3", "where ch-3 was started", "with ch": which same place is meant."""
    start = c.i
    clause = c.kind == "the" and any(t.text.lower() in _WHERE_IT_IS for t in c.t[c.i + 1 : c.i + 6])  # "the chain is coming out of"
    said = c.kind in ("as", "with", "of", "at", "in", "from") or (c.kind == "idle" and c.t[c.i].val in ("where", "which"))
    if clause or said:
        c.i += 1
        steps = 0
        while c.kind not in _AS_END or (c.kind == "n" and steps and c.t[c.i - 1].kind in ("ch", "-", "o", "last", "beg")):
            if steps and c.t[c.i].text.lower() in ("work", "make"):
                return  # "in same st as joining work dc, ch 2 and 2 dc"
            if c.kind in ("skip", "rep", "around") or steps > 8:
                c.i = start
                return
            c.i += 1
            steps += 1


def remaining(c: Cursor) -> Spot | None:
    c.i += 1
    c.drop("of", "the")
    if c.kind in ("row", "rnd"):
        c.i += 1
        return Spot(Place(), "rest", each=True)
    told: Sized[int] | None = None
    if c.kind == "n" and not count_noun_here(c):
        told = number(c)
    what = noun(c) or "st"
    found = Spot(tail(c, what), told or "rest", each=True, told=told is not None)
    if found.places == "rest":
        limit_spot(c, found)
    return found


def one_left(c: Cursor, start: int) -> bool:
    """ "In remaining loop of pineapple": a loop, one of them."""
    named = next((t for t in c.t[start : c.i] if t.kind in ("sp", "lp", "mesh", "grp", "group")), None)
    return named is not None and not named.text.lower().endswith("s") and not any(t.kind == "each" for t in c.t[start : c.i])
