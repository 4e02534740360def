"""The place told behind a stitch, and those told behind "and": "dc in each st and in top of tch"."""

from __future__ import annotations

from ...pattern import ONE, Aside, Chain, Colour, Place, Ring, Sized, Turn
from .back_on_chain import and_down
from .cursor import FAR, Cursor
from .hung import several_rows
from .limits import limit, pass_limit
from .nouns import noun
from .passes import loops_so_far
from .pieces import other_piece
from .places import PREPS, spot
from .row_end_places import along_ends, along_row_ends
from .spots import Spot
from .upto import is_space_ahead
from .which_places import every_one

CLAUSE_ENDS = frozenset((",", ";", ".", "", ")", "*"))


def _back_of_chain(c: Cursor) -> bool:
    """Past "(4 sc) across the back of the chain", "down the back side of ch": its other side; False with the cursor unmoved."""
    begin = c.i
    c.i += 1
    c.drop("the")
    if c.t[c.i].text.lower() in ("back", "backside", "reverse"):
        c.i += 1
        c.drop("side")
        if c.take("of") and (c.take("the") or True) and c.take("ch") and c.kind in (*CLAUSE_ENDS, "(", "["):
            return True
    c.i = begin
    return False


def spot_after(c: Cursor) -> Spot | None:
    """The place behind a stitch's name, or how far along it goes: "in next st", "around", "to last 2 sts"; None where none is told."""
    if c.kind == "all" and c.look().kind == "in" and c.look(2).kind in ("the", "next", "same", "first", "last", "o", "ch", "sp", "corner"):
        c.i += 1  # "5 dc all in next st"
    if c.t[c.i + (c.kind == "all")].text.lower() in _DONE and (worked := _worked_there(c)) is not None:
        return worked
    if c.kind in ("over", "in") and c.look().kind == "both" and c.look(2).text.lower() in ("pieces", "layers", "thicknesses", "sides"):
        c.i += 3  # "sc through both pieces across"
    single = c.kind in ("to", "in")
    if other_piece(c):
        return Spot(Place(where="marked", what="piece"), ONE if single else "rest")
    if c.kind in ("along", "around", "across") and (c.look().kind == "opp" or (c.look().kind == "the" and c.look(2).kind == "opp")):
        return spot(c)
    if c.kind in ("along", "across") and _back_of_chain(c):
        return Spot(FAR, "rest")
    if c.kind == "total" and c.t[c.i].val == "in all" and c.look().kind in ("n", "noun", "st", "the", "other", "rem"):
        return every_one(c)
    if c.kind == "total" and c.t[c.i].val == "in all" and c.look().kind in CLAUSE_ENDS and _stitch_alone(c):
        c.i += 1
        return Spot(Place(), "rest", each=True)  # "Rnd 22: sc in all."
    ahead = c.look(1 + (c.look().kind == "the")).kind
    told_alone = c.t[c.i - 1].kind == "st" and c.t[max(0, c.i - 2)].kind not in ("n", "a")
    if (
        c.kind == "to"
        and c.t[c.i - 1].val != "sl st"
        and (c.look().kind in ("next", "o") or (told_alone and ahead in ("center", "corner")))
    ):
        begin = c.i
        but = limit(c)
        if but is not None and c.upto:
            return Spot(Place(), "rest", but, each=True, upto=c.upto)  # "dc to next ch-1 sp"
        c.i = begin
    if c.kind == "along" and and_down(c):
        return Spot(Place(what="ch"), "rest", each=True)  # "…, sl st in 2nd ch from hook, sl st down the rest of the ch"
    if c.kind == "along" and (beside := _along_a_chain(c)) is not None:
        return beside
    if (counted := along_ends(c)) is not None:
        return counted
    if (ends := along_row_ends(c, each=c.t[c.i - 2].kind == "n")) is not None:
        ends.evenly = not ends.each
        return ends
    if c.kind in PREPS:
        if (c.kind == "to" and (c.look().kind in ("last", "end", "marker") or c.look().val == "within")) or (
            c.kind == "to" and c.look().kind == "the" and c.look(2).kind in ("end", "last")
        ):
            but = limit(c)
            if but is not None:
                return Spot(Place(), "rest", but, each=True, upto=c.upto)
        if c.kind == "around" and (c.look().kind in ("bar", "base", "back") or c.look(2).kind in ("bar", "base")):
            upright = spot(c)
            if upright is not None:
                return upright  # "s c around bar of next d c"
        if c.kind == "around" and c.look(1 + (c.look().kind == "the")).kind in ("ch", "n") and (caught := several_rows(c)) is not None:
            return caught  # "s c around the chains of the last two rows"
        if c.kind in ("around", "across", "along") or (c.kind == "until"):
            round_about = c.kind == "around"
            but = limit(c)
            if (
                but is not None
                and not but.values[0]
                and c.kind == "in"
                and c.look().kind in ("each", "all")
                and (every := spot(c)) is not None
            ):
                return every  # "sc around in each st"
            if but is not None and round_about and c.ctx.begins and c.kind in CLAUSE_ENDS and _on_flat_work(c):
                return Spot(Place(where="row_end", what="row"), "rest", evenly=True)  # "Edging: sc around."
            if but is not None:
                return Spot(Place(), "rest", but, each=True, upto=c.upto)
        if c.kind in ("for",):
            return None
        return spot(c)
    if c.kind == "even":
        return _evenly(c)
    if c.kind == "the" and c.look().kind in ("last", "next", "first") and c.look(2).kind in CLAUSE_ENDS:
        c.i += 1  # "slip-stitch the last, and fasten off"
    if c.kind in ("next", "each", "last", "same", "rem", "all", "o", "beg"):
        return spot(c, bare=True)
    if c.kind == "until" and c.ctx.passes and (kept := loops_so_far(c)) is not None:
        return kept
    if c.kind in ("until",):
        but = limit(c)
        if but is not None:
            return Spot(Place(), "rest", but, each=True, upto=c.upto)
    return None


def _stitch_alone(c: Cursor) -> bool:
    """Whether the stitch just named is the row's first, and no number stands with it ("24 sc in all" is a count)."""
    before = c.t[c.i - 2].kind if c.i > 1 else ""
    return (
        c.t[c.i - 1].kind == "st"
        and before in ("", ",", ".", ";", ":")
        and all(isinstance(step, (Aside, Chain, Colour, Turn)) for step in c.out)
    )


_DONE = frozenset(("worked", "made", "placed", "put", "done"))


def _worked_there(c: Cursor) -> Spot | None:
    """ "(3 tr) worked into the same place", "all made in next sc": the place, led in by a verb; None with the cursor unmoved."""
    start = c.i
    c.take("all")
    c.i += 1
    found = spot(c) if c.kind in _INTO else None
    if found is None:
        c.i = start
    return found


_INTO = frozenset(("in", "over", "under", "around", "between"))


def _along_a_chain(c: Cursor) -> Spot | None:
    """ "3 sc along the ch-3", "4 sc along the ch edge" of an opening: so many, wherever they find room."""
    begin = c.i
    c.i += 1
    c.drop("the")
    if c.kind == "ch" and c.look().kind in ("-", "n", "side"):
        if c.look().kind == "side":
            c.i += 2
            return Spot(Place(where="row_end", what="ch"))
        if noun(c, chains=True) is not None:
            return Spot(Place(where="row_end", what="ch"))
    c.i = begin
    return None


def _on_flat_work(c: Cursor) -> bool:
    """Whether the row can go round nothing but the edge of a piece that was worked in rows."""
    return not (c.ctx.rounds or c.in_ring or c.ctx.on_chain or any(isinstance(step, (Chain, Ring)) and _founds(step) for step in c.out))


def _founds(step: Chain | Ring) -> bool:
    return isinstance(step, Ring) or step.foundation


def _evenly(c: Cursor) -> Spot:
    c.i += 1
    c.drop("idle")
    if c.t[c.i - 1].val == "evenly across" and (side := _a_side(c)):
        c.i += side
        return Spot(Place(where="row_end", what="row"))  # "28 sc evenly across each side"
    if c.kind == "to" and c.look(1 + (c.look().kind in ("next", "the"))).kind == "corner":
        c.i += 2 + (c.look().kind in ("next", "the"))
        return Spot(Place(where="row_end", what="row"))  # "*3 sc in corner, 28 sc evenly to next corner"
    found = along_ends(c, led=True) or along_row_ends(c, each=False)
    if found is None and c.kind in PREPS:
        round_about = c.kind == "around"
        found = spot(c) if c.kind not in ("around", "across") else None
        if found is None:
            limit(c)
            while c.kind in ("along", "side", "all", "the", "around", "across", "over", "of") or (
                c.kind == "n" and c.look().kind == "side"
            ):
                c.i += 1
            if round_about and c.kind in CLAUSE_ENDS and _on_flat_work(c):
                found = Spot(Place(where="row_end", what="row"), "rest")  # there is no going round on flat work but along its edge
    found, each = found or Spot(Place(), "rest"), bool(found and found.each)
    found.each, found.evenly = True, not each  # "2 sc evenly in each st": two in every one of them
    return found


def _a_side(c: Cursor) -> int:
    """How many words name a side from here on ("each side", "the long edge"); 0 where none does."""
    for k in range(_SIDE_NAMED):
        if c.look(k).text.lower() in ("side", "sides", "edge", "edges"):
            return k + 1
        if c.look(k).kind not in ("each", "the", "next", "o", "of", "w", "n", "first", "last", "other", "rem"):
            return 0
    return 0


_SIDE_NAMED = 4
"""Words of "each long side", at most (ours)."""
_ONWARD = frozenset(("on", "onward", "onwards", "forward", "forwards"))


def and_place(c: Cursor) -> Spot | None:
    """ "and in each ch across", ", in next sp", "and on": the same stitch goes on in another place."""
    start = c.i
    if (
        c.kind == "and"
        and (c.look().text.lower() in _ONWARD or c.look().kind == "rem" or (c.look().kind == "all" and c.look(2).kind == "the"))
        and c.look(2).kind in (",", ";", ".", "", "(", "=", "the", "turn")
    ):
        c.i += 2
        c.drop("the", "rem")
        return Spot(Place(), "rest", each=True)
    if c.kind == "and" and c.look().kind in ("across", "around", "to") and (but := _limit_after_and(c)) is not None:
        return Spot(Place(), "rest", but, each=True, upto=c.upto)
    if c.kind == "and" and c.look().kind == "each" and (c.look(2).kind in ("after",) or c.look(2).val in ("after", "one", "thereafter")):
        c.i += 3
        limit(c)
        return Spot(Place(), "rest", each=True)
    if c.kind not in ("and", ",", "then"):
        return None
    if c.kind == "and" and c.look().kind in ("back", "along", "the", "in") and c.t[c.i - 1].kind == "hook":
        c.i += 1
        if and_down(c, led_in=True):
            return Spot(Place(what="ch"), "rest", each=True)  # "sl st in 2nd ch from hook and back down the chain"
        c.i = start
    comma = c.kind == ","
    c.i += 1
    if comma and c.kind == "and":
        c.i += 1
        comma = False
    c.drop("then", "also", "idle")
    if not comma and c.kind == "total" and c.t[c.i].val == "in all" and c.look().kind in ("st", "noun", "the", "grp"):
        return every_one(c)
    if not comma and c.kind == "the" and (c.look().kind in ("next", "rem", "last") or c.look().text.lower() == "one"):
        if (others := _the_others(c)) is not None:
            return others
        c.i = start + 1
    if not comma and c.kind == "even" and c.look().kind in ("in", "over") and c.look(2).kind in ("each", "all"):
        c.i += 1
    if not comma and c.kind in ("ch", "n", "corner", "sp") and c.t[start - 1].kind in ("st", "noun") and is_space_ahead(c):
        before = c.i
        found = spot(c, bare=True)
        if found is not None and c.kind in (",", ";", "."):
            return found  # "sl st in next dc and ch-2 sp"
        c.i = before
    if not comma and c.kinds("of", "each") and c.look(2).kind in ("row", "rnd") and c.t[start - 1].kind in ("row", "rnd"):
        c.i += 3  # "in the end of next row and of each row across"
        pass_limit(c)
        return Spot(Place(where="row_end", what="row"), "rest", each=True)
    if not comma and c.kind == "of" and c.look().kind in ("each", "all"):
        c.i += 1  # "in back loop of first sc and of each sc around"
    if c.kind not in ("in", "over", "around", "each", "next", "last", "same", "rem", "all", "on", "o", "between") or (
        comma and c.kind not in ("in", "each")
    ):
        c.i = start
        return None
    if c.kind == "all" and c.look().kind in ("around", "across"):
        c.i = start
        return None
    bare = c.kind not in PREPS
    found = spot(c, bare=True)
    if found is None or (c.kind in ("(", "[", "work", "st", "ch", "n", "grp", "a", ":") and not _said_of_it(c)) or (bare and comma):
        c.i = start
        return None
    if c.kind == "," and c.look().kind in ("work", "st", "ch", "(", "[") and comma and not found.each:
        c.i = start
        return None
    return found


def _the_others(c: Cursor) -> Spot | None:
    """ "(sl st in 2nd ch from hook and) the next 3", "the rest", "the one after": more places of the same."""
    c.i += 1
    if c.t[c.i].text.lower() == "one" and c.look().kind in ("after", "next"):
        c.i += 2
        return Spot(Place()) if c.kind in CLAUSE_ENDS | _COUNTED else None
    found = spot(c, bare=True)
    return found if found is not None and c.kind in CLAUSE_ENDS | _COUNTED else None


_COUNTED = frozenset(("(", "[", "-", "=", "and", "turn"))


def _limit_after_and(c: Cursor) -> Sized[int] | None:
    start = c.i
    c.i += 1
    but = limit(c)
    if but is None:
        c.i = start
    return but


def _said_of_it(c: Cursor) -> bool:
    return _count_ahead(c) or _name_ahead(c) or _remark_ahead(c)


def _remark_ahead(c: Cursor) -> bool:
    """ "(first block made)", "(corner)": a bracket that says what was made, and works nothing."""
    close = c.close.get(c.i) if c.kind in ("(", "[") else None
    if close is None or c.t[close + 1].kind in ("n", "times", "in", "once", "around", "across", "each", "rest"):
        return False
    inner = c.t[c.i + 1 : close]
    made = bool(inner) and inner[-1].text.lower() in ("made", "completed", "formed")
    return made or not any(t.kind in ("st", "ch", "skip", "n", "inc", "dec", "*", "tog", "rep", "join", "each") for t in inner)


def _name_ahead(c: Cursor) -> bool:
    """ ": beginning shell made": what was just worked is named, nothing more is worked there."""
    return (
        c.kind == ":" and c.look().kind == "grp" and (c.look(2).val in ("made", "completed") or c.look(2).kind in (";", ".", "", ",", "("))
    )


def _count_ahead(c: Cursor) -> bool:
    """A bracket with a number that states a count follows."""
    return c.kind in ("(", "[", "{", ":") and c.look().kind in ("n", "=", "-", "counts", "total", "now", "the")
