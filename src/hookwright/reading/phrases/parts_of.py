"""Parts of a stitch or a group as places: "top of ch-3", "center dc of next shell", "base of ch-3", "side of last dc"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from ...pattern import Make, Place, Sized, Step, Together
from ...pattern.nodes import Where
from .cursor import Cursor
from .far_loops import base_of_chain
from .limits import limit_spot
from .nouns import count_noun_here, noun
from .numbers import number
from .spots import ONE, Spot
from .tails import of_what

EXAMPLES = (
    ("dc in top of ch-3", "dc@named ch-3"),
    ("dc in center dc of next shell", "dc@next shell#0"),
    ("*4 dc in next lp, ch 2, 4 dc in bal. of that loop; rep from * around", "[4dc@next sp, ch2, 4dc@same sp]×rest"),
    ("3 dc in next sp, picot, 3 dc in the remainder of the sp", "3dc@next sp, picot{}@same st, 3dc@same sp"),
)


def _eye_of_star(c: Cursor) -> Spot | None:
    """ "(In the eye) of each star across", "of next star": the chain that closes it; None with the cursor unmoved."""
    begin = c.i
    if c.take("of"):
        every = any(t.kind == "each" for t in c.t[c.i : c.i + 2])
        c.drop("the", "each", "next", "idle")
        if c.t[c.i].text.lower() in ("star", "stars"):
            c.i += 1
            c.drop("noun")
            found = Spot(Place(what="sp"), "rest" if every else ONE, each=every)
            if every:
                limit_spot(c, found)
            return found
    c.i = begin
    return None


def middle_ones(c: Cursor, told: Sized[int] | None) -> Spot | None:
    """ "(The 5 centre) ones of the 7 dc", "(centre 3) dc of next group": so many in the middle of the next run of more. None with the
    cursor where the word centre and the number end."""
    start = c.i
    if c.t[start - 1].kind != "center" and c.t[start - 2].kind != "center":
        return None
    if told is None or told.many or not 1 < (told.values[0] or 0) <= 12:
        c.i = start - 1 if c.t[start - 1].kind == "n" else start
        return None
    c.i += c.t[c.i].text.lower() == "ones"
    what = noun(c) if c.kind in ("st", "noun") else None
    if c.kind == "of":
        k = c.i + 1
        while c.t[k].kind in ("the", "next", "these"):
            k += 1
        if c.t[k].kind == "n" and isinstance(c.t[k].val, int) and c.t[k].val > (told.values[0] or 0):
            c.i = k + 1
            what = (noun(c) if c.kind in ("st", "noun") else None) or what
            c.drop("group")
        elif any(token.kind == "each" for token in c.t[c.i : k + 1]):
            c.i = start - 1 if c.t[start - 1].kind == "n" else start
            return None
        else:
            of_what(c, {})
    return Spot(Place(what=what or "st", nth=0), told, told=True)


def inside_group(c: Cursor) -> Spot | None:
    """ "(2 dc between) the 2 dc of next group", "the trebles of each group": in the middle of it. None with the cursor unmoved."""
    start = c.i
    c.drop("the", "n")
    every = False
    if c.kind in ("st", "noun") and c.look().kind == "of":
        c.i += 2
        every = c.kind in ("each", "all")
        c.drop("the", "next", "each", "all", "same", "following")
        if c.take("group"):
            found = Spot(Place(what="group", nth=0), "rest" if every else ONE, each=every)
            if every:
                limit_spot(c, found)
            return found
    c.i = start
    return None


def gap_of_group(c: Cursor) -> Spot | None:
    """ "(2 dc in) the gap in the middle of the next pair", "the space inside each group", "the sp between the 2 dc of next group": as
    `inside_group`. None with the cursor unmoved."""
    start = c.i
    c.drop("the", "idle")
    if c.take("sp"):
        if c.take("between") and (found := inside_group(c)) is not None:
            return found
        led = c.take("in", "at")
        within = led is not None and led.text.lower() in ("inside", "within")
        c.drop("the")
        middle = led is not None and bool(c.take("center")) and bool(c.take("of"))
        c.drop("the", "of")
        every = c.kind in ("each", "all")
        c.drop("next", "each", "all", "same")
        if (middle or within) and c.take("group"):
            found = Spot(Place(what="group", nth=0), "rest" if every else ONE, each=every)
            if every:
                limit_spot(c, found)
            return found
    c.i = start
    return None


_ALL = frozenset(("each", "both", "all", "every"))


def part_of(c: Cursor) -> Spot | None:
    """ "top of ch-3", "base of ch-3", "tip of cluster", "center dc of shell", "center of next loop", "side of last dc"."""
    from .places import after_prep

    token, before = c.t[c.i], c.t[c.i - 1]
    c.i += 1
    if token.kind == "top" and c.kind == "of" and (c.look(3).kind == "n" or c.look(2).kind == "n"):
        begin = c.i
        c.i += 1
        found = after_prep(c, "in")  # "across the top of the first 3 dc"
        if found is not None and found.told:
            return found
        c.i = begin
    if token.text.lower() in ("eye", "eyes") and (eye := _eye_of_star(c)) is not None:
        return eye
    if token.kind == "base" and (under := base_of_chain(c)) is not None:
        if under.each:
            limit_spot(c, under)
        return under
    if token.kind == "center":
        if c.kind == "n" and not count_noun_here(c) and (several := middle_ones(c, number(c))) is not None:
            return several
        if c.t[c.i - 1].kind == "center" and c.kind == "n" and not count_noun_here(c):
            c.i += 1  # "center 3 dc of next group"
        what = noun(c)
        if c.kind == "of" or what is not None:
            facts: dict[str, object] = {}
            every = c.kind in ("of", "in", "at") and not _ALL.isdisjoint((c.look().kind, c.look(2).kind))
            got = of_what(c, facts)
            every = every and "prev" not in facts  # "in the middle stitch of each row": one in this row
            name = str(facts.get("what") or what or "st") if got else (what or "st")
            if name == "ring":
                return Spot(Place(where="ring", what="ring"))  # "into the center of the ring"
            where = cast(Where, facts.get("where", "next"))
            if name in ("group", "inc") and (every or before.kind in _ALL):
                name = "st"  # "in the middle st of every 3-hdc group", "in each center sc of the increases"
            if name.startswith("ch-") and name[3:].isdigit():
                name = f"{name} sp"  # "center ch of ch-3": of that loop
            found = Spot(Place(where=where, what=name, nth=0), "rest" if every else ONE, each=every)
            if every:
                limit_spot(c, found)  # "in center of each V-st to last dc"
            return found
        return Spot(Place(what="st", nth=0))
    if token.kind == "side":
        if c.kind == "of":
            facts = {}
            of_what(c, facts)
            if facts.get("what") in ("row", "piece", None):
                return Spot(Place(where="row_end", what="row"), "rest")
            return Spot(Place(where="same", what=str(facts.get("what"))))
        return Spot(Place(where="row_end", what="row"), "rest")
    if token.kind == "top" and c.kind in ("st", "noun", "ch", "lp", "sp"):
        noun(c)
    every = token.kind == "top" and c.kind == "of" and "each" in (c.look().kind, c.look(2).kind)
    facts = {}
    if not of_what(c, facts) and c.kind not in (",", ";", ".", "", ")", "]", "(", "and"):
        what = noun(c, chains=True)
        if what is None:
            return None
        facts["what"] = what
    if token.kind == "base":
        return Spot(Place(where="same", what=str(facts.get("what", "st"))))
    if str(facts.get("what", "")).startswith("ch-"):
        facts["what"] = str(facts["what"]).removesuffix(" sp")  # "top of 3ch" is the chain's, not its space's
    if every and not str(facts.get("what", "")).startswith("ch"):
        return Spot(Place(what=str(facts.get("what", "st"))), "rest", each=True)  # "sc in top of each dc"
    where = cast(Where, facts.get("where", "named"))
    if where in ("next", "same", "first", "last") and facts.get("what") not in ("tch",):
        return Spot(Place(where=where, what=str(facts.get("what", "st"))))
    return Spot(Place(where="named", what=str(facts.get("what", "tch"))))


def rest_of_loop(c: Cursor) -> Spot | None:
    """ "(3 sc in next lp, picot, 3 sc in) bal. of same lp", "the rest of the loop", "the other half of the sp": the loop worked in just
    before, once more; None with the cursor unmoved."""
    begin = c.i
    c.drop("the", "idle")
    remains = c.t[c.i].text.lower() in _REMAINS
    half = c.kind in ("other", "rem") or c.t[c.i].text.lower() in ("second", "other", "remaining")
    if (remains or (half and c.look().text.lower() in ("half", "part", "side"))) and _in_loop(c.out):
        c.i += 1 + (not remains)
        c.take(".")
        if c.take("of"):
            c.drop("the", "same", "this", "that")
            name = noun(c)
            if name is not None and name.endswith("sp") and not c.t[c.i - 1].text.lower().endswith("s"):
                return Spot(Place(where="same", what="sp"))
    c.i = begin
    return None


def _in_loop(steps: Sequence[Step]) -> bool:
    """Whether the last stitches went into one loop."""
    made = (step for step in reversed(steps) if isinstance(step, (Make, Together)) and step.at.where not in ("same", "from_hook"))
    last = next(made, None)
    return last is not None and last.at.what.endswith("sp") and last.places != "rest"


_REMAINS = frozenset("bal balance rest remainder".split())  # noqa: SIM905
