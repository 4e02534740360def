"""Where to work: "in next 3 sts", "in each ch-2 sp around", "in top of ch-3", "in 2nd ch from hook"."""

from __future__ import annotations

from itertools import pairwise, takewhile

from ...pattern import RUN, THESE, Aside, Make, Place, Repeat, Sized, Step, Together
from ...trade.kinds import HEIGHT
from .back_on_chain import stands_on
from .back_to_skipped import back_to_skipped
from .closers import CLOSING_STITCHES
from .cursor import FAR, Cursor
from .edge_gaps import edge_gap
from .far_loops import far_loops, loops_of_so_many
from .filet import at_block
from .hung import LISTED, each_chain, so_many_chains, under_a_chain
from .joined_on import ON_A_PIECE, between_pieces, loops_of_a_thing
from .led_to import place_led_to
from .limits import limit_here, limit_spot, pass_limit
from .nouns import NOUNS, count_noun_here, noun
from .parts_of import gap_of_group, inside_group, part_of, rest_of_loop
from .place_words import (
    and_the_next,
    at_each_corner,
    begun_in,
    how_many_under,
    loop_choice,
    names_gap,
    passed_over,
    past_those_chains,
    side_of_work,
    the_next,
    used_before,
    where_the_row_began,
)
from .posts_beside import posts_beside
from .row_end_places import along_side, each_band_row, ends_told
from .spots import CLOSE, ONE, ZERO, Spot, as_loop, moved
from .tails import GROUPS, of_the_chain, of_what, row_name, tail
from .things import LIKE_IT, LONE, OPENINGS
from .which_of import last, middle_of_group, one_left, ordinal, remaining, same
from .which_places import each_place, every_one, next_place, numbered_places, plain_place

EXAMPLES = (
    ("sc in next 3 sts", "sc×3"),
    ("sc in each st across", "sc×rest"),
    ("sc in each st to last 2 sts", "sc×rest−2"),
    ("sc in back loop of each sc", "sc×rest@next sc/back"),
    ("dc in next ch-2 sp", "dc@next ch-2 sp"),
    ("FPdc around next dc 2 rows below", "FPdc@next dc↓1"),
    ("dc in each of next 3 ch-1 sps", "dc×3@next ch-1 sp"),
    ("dc in the sp where you began", "dc@first sp"),
    ("2 dc in each sp between shells to the corner", "2dc×rest to corner@next sp between"),
)


PREPS = frozenset(("in", "over", "around", "at", "under", "between", "along", "from", "to", "behind", "of", "across", "for"))


def spot(c: Cursor, *, bare: bool = False) -> Spot | None:
    """The place that stands here (with its preposition, or `bare` without), or None with the cursor unmoved."""
    start = c.i
    if (led := back_to_skipped(c) or each_band_row(c) or (edge_gap(c) if c.kind in ("in", "between") else None)) is not None:
        return led
    token = c.t[c.i]
    prep = ""
    if token.kind == "in" and _in_that_manner(c):
        token = c.t[c.i]
    if token.text.lower() == "on" and c.look().kind == "to":
        c.i += 1
        on = Spot(Place(), "rest", each=True)
        if limit_spot(c, on):
            return on  # "hdc on to the end"
        c.i = start
    if token.kind in PREPS:
        prep = token.kind
        c.i += 1
        side_of_work(c)
        if prep == "between" or c.kind in ("in", "over", "around", "at", "along"):
            c.drop("in", "over", "around", "at", "along")
    elif not bare:
        return None
    ordinals = prep == "between" and c.kind == "o" and c.look().kind == "and" and c.look(2).kind == "o"
    found = after_prep(c, prep)
    if found is not None and found.at.what == "row" and found.at.where in ("next", "first"):
        found.at = Place(where="row_end", what="row")  # "in first row end"
    if found is not None and found.at.what == "piece" and found.at.where == "named":
        found.at = Place(where="marked", what="piece")  # "3rd ch of the ch-5 loop of first motif"
    if found is not None:
        found.at = _as_space(found, str(token.val), in_unit=prep == "in" and found.at.where == "named" and _in_starred_unit(c))
    if found is not None and found.at.what == "sp" and not found.at.of and names_gap(c):
        found.at = moved(found.at, between=True)
    if found is None:
        c.i = start
    elif used_before(c):
        found.at = moved(found.at, where="same")
    elif found.at.where == "next" and (found.at.what == "corner" or found.at.what.endswith("sp")) and begun_in(c):
        found.at = moved(found.at, where="first")
    if found is not None and found.at.what.endswith("sp") and found.places == "rest" and c.kinds("at", "corner"):
        c.i += 2  # "in each ch 1 at corners"
    if found is not None and found.at.what.endswith("sp") and at_each_corner(c):
        found.at, found.places, found.each = Place(what="corner"), "rest", True
    if found is not None and (prep == "between" or found.at.between):
        and_the_next(c)
    if found is not None and found.told and found.at.where == "next" and any(t.text.lower() == "these" for t in c.t[start : c.i]):
        found.at = moved(found.at, of=THESE)
    if found is not None and _on_a_run(c, start, found):
        found.at = moved(found.at, of=RUN)
    inside = found is not None and (found.at.what, found.at.nth) == ("group", 0)
    if found is not None and prep == "between" and found.at.where != "ring" and not (ordinals and found.at.what in GROUPS) and not inside:
        found.at = moved(found.at, between=True)
        if found.told and not found.each:
            found.places, found.told = ONE, False
        elif found.each and found.places == Sized((2,)):
            found.places, found.told = "rest", False  # "1 tr. between each 2 tr."
    return found


def _on_a_run(c: Cursor, start: int, found: Spot) -> bool:
    """ "3 dc on the sc", "5 plain upon the treble": several over stitches whose number is not told; one on each where as many stand there
    side by side, which the row below tells."""
    several = start > 1 and c.t[start - 1].kind == "st" and c.t[start - 2].kind == "n" and c.t[start - 2].val != 1
    if not several or c.t[start].text.lower() not in ("on", "upon", "over", "above") or found.told or found.each:
        return False
    bare = c.t[start + 1 + (c.look(start + 1 - c.i).kind == "the")].kind == "st"
    return bare and found.places == ONE and found.at.what in HEIGHT and moved(found.at, what="st") == Place()


def _in_that_manner(c: Cursor) -> bool:
    """Past "(sc) in same manner (in each remaining st)", where a place follows; False with the cursor unmoved."""
    k = 1 + (c.look().kind == "the")
    if c.look(k).val == "same-way" and c.look(k + 1).kind in PREPS:
        c.i += k + 1
        return True
    told = c.look(k).kind in ("same", "as") or c.look(k).text.lower() in ("this", "like", "similar", "that")
    if not told or c.look(k + 1).text.lower() not in ("manner", "way", "fashion") or c.look(k + 2).kind not in PREPS:
        return False
    c.i += k + 2
    return True


def _into_space(step: Step) -> bool:
    return isinstance(step, (Make, Together)) and (step.at.what.endswith(("sp", "corner")) or step.upto.endswith(("sp", "corner")))


def _in_starred_unit(c: Cursor) -> bool:
    """Whether the words stand in a unit that comes again: "* … in the ch 2, …; repeat from *" names a chain of each, no turning chain."""
    ahead = next((t.kind for t in c.t[c.i :] if t.kind in ("rep", "*")), "")
    return bool(ahead) and any(not mark.used and mark.closed is None for mark in c.frames[-1].marks)


def _as_space(found: Spot, prep: str, *, in_unit: bool = False) -> Place:
    """ "Over ch-9", "under the ch 3", "in each ch-3", "in next ch-5": the chain is worked round, so its space is meant."""
    at = found.at
    if at.what == "ch" and prep in ("under", "over") and at.nth is None and at.where == "next" and (prep == "under" or found.each):
        return moved(at, what="sp")  # "3 sc under ch"
    if not (at.what.startswith("ch-") and at.what[3:].isdigit()) or at.nth is not None:
        return at
    if at.of and at.where == "named":
        return moved(at, what=f"{at.what} sp", where="next")  # "shell in ch-2 of shell"
    if at.where == "named" and (at.what == "ch-1" or in_unit):
        return moved(at, what=f"{at.what} sp", where="next")  # "sl st to the ch 1": no chain of one has a top of its own
    if prep in ("over", "under", "around") or found.each or at.where == "next":
        return moved(at, what=f"{at.what} sp", where="next" if at.where == "named" else at.where)
    return at


def _first_stands(c: Cursor) -> int:
    """Where "(the end) where the first sc was worked", "where you began" is over; 0 where it says something else."""
    end = c.i + 2
    while c.t[end].kind not in (",", ";", ".", "", "(", ")", "and"):
        end += 1
    begun = any(token.kind in ("beg", "o") or token.text.lower() in ("began", "started") for token in c.t[c.i + 2 : end])
    return end if begun else 0


def _end_of_next(c: Cursor) -> int:
    """Where "(1 sc in the end of one row, 4 dc in the) end of the next" is over; 0 where no row's end was told before."""
    k = 2 + (c.look(2).kind == "the")
    end = k + 1 + (c.look(k + 1).text.lower() == "one")
    said = c.look().kind == "of" and c.look(k).kind in ("next", "other") and c.look(end).kind in CLOSE
    return c.i + end if said and any(isinstance(step, Make) and step.at.where == "row_end" for step in c.out) else 0


def _this_and_next(c: Cursor) -> Spot | None:
    """ "(between) this and next petal", "last dc worked and next dc", "the dc just made and the next": one place, before the next."""
    start = c.i
    if not (c.take("the", "last", "same", "prev")):
        return None
    c.drop("last", "idle", "prev", "the")
    this = noun(c)
    while c.kind in ("idle", "work") or c.t[c.i].text.lower() in ("made", "worked", "completed"):
        c.i += 1
    if c.take("and"):
        c.drop("the")
        after = c.t[c.i].text.lower() == "one" and c.look().text.lower() in ("after", "following")
        c.i += 2 * after  # "this petal and the one after"
        if after or c.take("next"):
            found = Spot(Place(what=noun(c) or this or "st", between=True))
            c.i += c.t[c.i].text.lower() == "one"
            return found
    c.i = start
    return None


def _reached(before: Step | None) -> Spot | None:
    """ "Sc to center sc, 3 sc in same": the place that the run before ends at, not its last stitch; None where it ends at none."""
    if not isinstance(before, Make) or before.places != "rest" or before.but != ZERO or before.upto not in ("center", "corner"):
        return None
    return Spot(Place(what="corner") if before.upto == "corner" else Place(nth=0))


def _ring_of_a_thing(c: Cursor) -> int:
    """Where "(over) a bone ring", "a small brass curtain ring" ends, before the piece has any stitch; 0 where no such ring is told."""
    k = c.i + (c.kind == "a")
    begin = k
    while c.t[k].kind == "w" and k - begin < 3:
        k += 1
    loop = k == begin > c.i and c.t[k].kind == "lp" and c.look(k + 1 - c.i).kind in CLOSE
    loop = loop and all(isinstance(step, Aside) for step in c.out)  # "6 sc in a loop"
    told = c.ctx.begins and ((not c.in_ring and k > begin and c.t[k].kind == "ring") or loop)
    return k + 1 if told else 0


def after_prep(c: Cursor, prep: str) -> Spot | None:
    """The place behind a preposition; None where no place is told."""
    start = c.i
    if c.t[c.i].text.lower() in ("it", "this", "that") and prep in ("in", "under", "over") and c.look().kind in CLOSE:
        c.i += 1
        if (led := place_led_to(c)) is not None:
            return Spot(led)
        unit = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
        to_last = isinstance(unit, Repeat) and unit.times.kind == "to_last" and unit.times.number == ONE
        if isinstance(unit, Repeat) and to_last and unit.times.what.endswith("sp"):
            return Spot(Place(where="last", what=unit.times.what))  # "rep to last ch-2 sp, (dc, ch 2, dc) in it"
        if to_last or (isinstance(unit, Make) and unit.places == "rest" and unit.but == ONE):
            return Spot(Place(where="last"))  # "rep until 1 st remains, 2 tr in it"
        if (reached := _reached(unit)) is not None:
            return reached
        sp = prep == "under" or any(map(_into_space, c.out))
        return Spot(Place(where="same", what="sp" if sp else "st"))  # "sl st to the ch 2; ch 3, dc in it"
    if prep in ("under", "over", "around") and (hung := under_a_chain(c, prep)) is not None:
        return hung
    if prep in ("in", "over") and (ends := ends_told(c)) is not None:
        return ends
    if prep == "in" and (loop_of := so_many_chains(c)) is not None:
        return loop_of  # "1 plain in the first 5 chain"
    if prep == "over" and (closed := _closing_stitch(c)) is not None:
        return closed
    if prep in ("in", "to") and stands_on(c):
        return Spot(Place(where="same", what="st"))  # "hdc2tog, ch 40, sl st in 2nd ch from hook and back down it, sl st in the hdc2tog"
    if prep == "around" and (posts := posts_beside(c)) is not None:
        return Spot(posts)
    if prep == "in" and (gap := gap_of_group(c) or rest_of_loop(c)) is not None:
        return gap
    if prep == "between" and (beside := _this_and_next(c)) is not None:
        return beside
    if prep == "between" and (inside := inside_group(c)) is not None:
        return inside
    c.drop("the") if c.look().kind in ("o", "last") else None
    if c.ctx.filet and (square := at_block(c)) is not None:
        return square
    every = c.kind == "each"
    if far_loops(c):
        return Spot(FAR, "rest", each=every)
    if (beyond := loops_of_so_many(c)) is not None:
        return beyond
    that = c.kind == "the" and c.t[c.i].val == "that" and c.look().kind in ("st", "grp", "sp", "lp")
    c.drop("the", "idle")
    if c.t[c.i].val in LIKE_IT or (c.t[c.i].text.lower() in LONE and c.look().kind == "st"):
        c.i += 1
    if (c.kind == "join" or prep == "between") and between_pieces(c):
        return Spot(ON_A_PIECE)
    if that and (made := noun(c)) is not None:
        return Spot(Place(where="same", what="sp" if made.endswith("sp") else made))
    of_those = (1 + (c.look(2).kind == "the")) * (c.look().kind == "of")  # "in one of the free front loops"
    if (c.kind == "a" or c.t[c.i].val == 1) and c.look(1 + of_those).kind == "loop" and str(c.look(1 + of_those).val).startswith("free"):
        c.i += 1 + of_those  # "join Red in an unused front loop", "in first free back loop": of those left, the one to begin in
    loop = loop_choice(c)
    c.drop("of") if loop else None
    c.drop("the", "idle")
    kind = c.kind
    ordinal_row = kind == "o" and c.look().kind in ("row", "rnd") and c.look(2).kind in CLOSE
    if loop and (ordinal_row or (kind in ("row", "rnd") and c.look().kind == "n")):
        return Spot(Place(loop=as_loop(loop), row=row_name(c)), ONE if c.t[start].kind == "any" or c.t[start - 1].kind == "any" else "rest")
    if loop and kind in ("in", "over"):
        c.i += 1
        c.drop("the")
        kind = c.kind
    if loop and kind == "n" and c.look().kind in ("row", "rnd") and c.look(2).kind == "below":
        return Spot(moved(tail(c, "st"), loop=loop))  # "in front loop 2 rows below"
    if kind in ("row", "rnd") and c.look().kind == "below":
        c.i += 2  # "in the row below (next st)": under the next place of all
        the_next(c)
        return Spot(Place(below=1))
    if kind in ("row", "rnd") and c.look().kind == "n" and c.look(2).kind in CLOSE and c.t[start - 1].text.lower() == "into":
        return Spot(Place(row=row_name(c)))  # "spike stitch into Row 1"
    found: Spot | None
    if kind == "each":
        found = each_place(c)
    elif kind == "all" and loops_of_a_thing(c):
        found = Spot(ON_A_PIECE)
    elif kind == "all":
        found = every_one(c)
    elif kind == "next":
        found = next_place(c)
    elif kind == "o" and c.look().kind == "and" and c.look(2).kind == "o" and c.look(3).kind in ("ch", "st") and c.look(4).kind == "from":
        nth = int(c.t[c.i].val)
        c.i += 2
        found = ordinal(c)  # "(sc2tog) over 2nd and 3rd ch from hook"
        if found is not None and found.at.where == "from_hook":
            found.at = moved(found.at, nth=nth)
    elif kind == "o" and prep == "between" and c.look().kind == "and" and c.look(2).kind == "o":
        c.i += 2
        found = middle_of_group(c)
    elif kind == "o" and c.t[c.i].val == 1 and c.look().kind == "and" and c.look(2).kind == "last":
        c.i += 3
        c.told["both_ends"] = True  # "2 sc in first and last st"
        found = Spot(Place(where="first", what=noun(c) or "st"))
    elif kind == "o" or (kind == "beg" and c.look().kind in ("st", "noun", "ch", "n")):
        found = ordinal(c)
    elif kind == "last":
        found = last(c)
    elif kind == "same":
        before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
        found = same(c)
        found = found and (_reached(before) or found)
    elif kind == "rem" or (kind == "other" and c.look().kind == "n"):
        found = remaining(c)
        if found is not None and not found.told and c.t[start + 1 : c.i] and one_left(c, start):
            its = (
                "first" if found.at.what == "sp" else "next"
            )  # "sc in remaining loop" of a pineapple: the first, and only one, of its loops
            found = Spot(moved(found.at, where=its))
    elif kind == "top" and c.t[c.i].text.lower() == "point" and c.look().kind in CLOSE:
        c.i += 1
        found = Spot(Place(what="corner"))  # "(3 dc, ch 2, 3 dc) in the point" of a shawl
    elif kind in ("top", "base", "center", "side"):
        found = part_of(c)
    elif kind == "between":
        c.i += 1
        found = after_prep(c, "between")
        if found:
            found.at = moved(found.at, between=True)
            found.places = ONE
    elif kind == "any":
        c.i += 1
        c.drop("of", "the")
        if c.kind == "loop":
            return after_prep(c, prep)  # "in any front loop of Rnd 1"
        found = numbered_places(c) if c.kind == "n" and not count_noun_here(c) else plain_place(c)
    elif kind == "n" and prep == "under" and c.look().kind == "ch" and c.look(2).kind in LISTED:
        found = each_chain(c)
        if found is not None:
            found.places, found.each = ONE, False  # "under 5 chain work …"
    elif kind == "n" and c.look().kind == "ch" and c.look(2).kind == "of" and c.look(3 + (c.look(3).kind in ("next", "the"))).kind == "grp":
        c.i += 3
        c.drop("next", "the")
        found = Spot(Place(what=noun(c) or "group"))  # "shell in 2 ch of shell"
    elif kind == "n" and c.t[c.i].text.lower() == "one" and c.look().kind == "after":
        c.i += 2  # "in the next st, back post around the one after (that)"
        c.drop("the")
        found = Spot(Place())
    elif kind in ("a", "w") and prep in ("over", "around", "in") and (end := _ring_of_a_thing(c)):
        c.i = end
        c.in_ring = True
        found = Spot(Place(where="ring", what="ring"))
    elif kind == "n":
        found = numbered_places(c)
    elif kind == "a" or kind == "both":
        c.i += 1
        found = plain_place(c)
        if found and kind == "both":
            found.places, found.each, found.told = Sized((2,)), True, True
    elif kind == "prev":
        found = plain_place(c)
    elif kind == "mring" or (c.in_ring and c.t[c.i].text.lower() == "round" and c.t[c.i - 1].kind == "the" and c.look().kind in CLOSE):
        c.i += 1  # "16 double crochet in the round", which the chain was closed in
        found = Spot(Place(where="ring", what="ring"))
    elif kind == "opp":
        c.i += 1
        if c.kind in ("a", "any") and c.look().kind == "ch" and c.look(2).kind != "n":
            c.i += 2
            return Spot(FAR)  # "join in bottom of any ch"
        told = how_many_under(c)
        if told is not None and past_those_chains(c):
            pass  # "in the underside of each of the 5 chs"
        elif not of_the_chain(c):
            if str(c.t[c.i - 1].val).endswith(" of"):
                c.drop("the", "foundation", "beg", "each")  # "in the bottom of each ch"
                noun(c, chains=True)
            of_what(c, {})
        found = Spot(FAR, told or "rest", told=told is not None)
    elif kind == "end" and prep == "in" and c.elsewhere == FAR and c.t[start - 2].val == "sl st" and c.look().kind in CLOSE:
        c.i += 1
        found = Spot(Place(where="last"))  # "…, sl st in end" of a leaf worked on both sides of its chain: where it all began
    elif kind == "end" and c.look().text.lower() == "one" and c.look(2).kind in CLOSE:
        c.i += 2
        found = Spot(Place(where="last"))  # "3 sc in the end one"
    elif kind == "end" and c.look().text.lower() == "where" and (begun := _first_stands(c)):
        c.i = begun
        found = Spot(Place(where="same", what="ch"))  # "2 sc in the end where the first sc was worked"
    elif kind == "end" and c.look().kind in ("noun", "st", "ch") and not (c.look().kind == "noun" and c.look(2).kind == "of"):
        c.i += 1
        what = noun(c) or "st"
        found = Spot(moved(tail(c, what), where="last"))
    elif kind == "end" and c.look().kind == "of" and c.look(2).text.lower() in ("foundation", "chain", "base") and c.look(3).kind in CLOSE:
        c.i += 3
        found = Spot(Place(where="marked", what="piece"))  # "sl st in end of foundation": down the edge to where it all began
    elif kind == "end" and c.look().kind == "noun" and c.look(2).kind == "of":
        c.i += 2
        of_what(c, {})
        found = Spot(Place(where="row_end", what="row"))
    elif kind == "end" and prep in ("in", "over") and c.look().kind == "of" and any(c.look(k).kind in ("row", "rnd") for k in (2, 3, 4)):
        each = any(c.look(k).kind == "each" for k in (2, 3))
        while c.kind not in ("row", "rnd"):
            c.i += 1
        c.i += 1
        found = Spot(Place(where="row_end", what="row"), "rest" if each else ONE)
        along_side(c)
        pass_limit(c)  # "sc in end of each row around"
    elif kind == "end" and prep in ("in", "over") and (after := _end_of_next(c)):
        c.i = after
        found = Spot(Place(where="row_end", what="row"))
    elif kind == "ends":
        c.i += 1
        found = Spot(Place(where="row_end", what="row"), "rest")
        along_side(c)
        pass_limit(c)
    elif (
        kind in NOUNS
        or (kind == "leave" and c.t[c.i].text.lower() == "leaves")
        or kind
        in (
            "st",
            "noun",
            "grp",
            "free",
            "raised",
            "corner",
            "skip",
            "unworked",
            "marker",
            "join",
            "beg",
            "other",
            "alt",
        )
        or (kind == "w" and c.t[c.i].text.lower() in OPENINGS and c.look().kind in ("ch", "sp", "lp", "st", "noun", "mesh"))
    ):
        found = plain_place(c)  # ("in thumb ch sp" too)
    elif loop:
        found = Spot(tail(c, "st") if c.kind == "of" else Place(), "rest" if limit_here(c) or _whole_row_in_loop(c, start) else ONE)
        if c.kind in ("around", "across"):
            limit_spot(c, found)
    else:
        found = None
    if found is None:
        c.i = start
        return None
    if kind in ("next", "o") and passed_over(c, start, found):
        found.at, found.skip = moved(found.at, where="skipped"), 0
    late = loop_choice(c)
    loop = loop or late
    if late and c.kind in ("each", "all"):
        return after_prep(c, prep)
    if loop:
        found.at = moved(found.at, loop=loop)
    if late and (row := tail(c, "st").row) is not None:
        found.at = moved(found.at, row=row)  # "in next front loop of Rnd 1"
    if found.at.where in ("first", "named"):
        if c.kind == "o" and c.t[c.i].val == 1 and c.look().val in ("made", "worked"):
            c.i += 1  # "3rd st of ch-4 first made"
        c.i += c.t[c.i].val in ("made", "worked", "completed")
        where_the_row_began(c)
    if c.kind == "tog":
        found.tog = True
        c.i += 1
    elif c.kinds("at", "tog") or (c.kind == "w" and c.t[c.i].val == "at" and c.look().kind == "tog"):
        found.tog = True
        c.i += 2
    return found


def _whole_row_in_loop(c: Cursor, start: int) -> bool:
    """ "Sc in front loops only, 60 sc.": the row's only stitch, and no number with it: one in each."""
    alone = start > 1 and c.t[start - 2].kind == "st" and (start < 3 or c.t[start - 3].kind not in ("n", "a", "more"))
    if not alone or len(c.frames) > 1 or c.kind not in CLOSE or any(isinstance(step, (Make, Repeat, Together)) for step in c.out):
        return False
    ahead = takewhile(lambda pair: pair[1].kind not in ("join", "foff"), pairwise(c.t[c.i :]))
    return not any(token.kind in _WORKS_ON or (token.kind == "st" and before.kind != "n") for before, token in ahead)


_WORKS_ON = frozenset(("skip", "next", "last", "each", "*", "rep", "inc", "dec", "grp", "same", "rem", "first", "o"))


def _closing_stitch(c: Cursor) -> Spot | None:
    """ "(Ch 1, sc) over the hdc post", "over dc", "over the tr just made" where a round begins: the loop that this stitch closed the round
    before with. None with the cursor unmoved."""
    begin = c.i
    c.drop("the", "idle", "last")
    stitch = c.take("st")
    begun = c.ctx.rounds and not any(isinstance(step, (Make, Together, Repeat)) for step in c.out)
    if stitch is None or not begun or c.us(str(stitch.val)) not in CLOSING_STITCHES or len(c.frames) > 1:
        c.i = begin
        return None
    c.drop("post", "bar", "idle")
    c.i += c.t[c.i].text.lower() in ("made", "worked")
    if c.kind not in CLOSE:
        c.i = begin
        return None
    return Spot(Place(where="first", what="sp"))
