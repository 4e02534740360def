"""How far a run goes: "across", "around", "to end", "to last 3 sts", "to within 3 sts of end"."""

from __future__ import annotations

from itertools import pairwise

from ...pattern import Make, Sized
from ...trade.kinds import HEIGHT, base
from .cursor import Cursor
from .nouns import noun
from .numbers import number
from .spots import ONE, ZERO, Spot
from .things import LONE, OPENINGS, PANELS
from .upto import upto

_BLOCKS = frozenset(("block", "blocks", "bl", "blk"))


def limit_here(c: Cursor) -> bool:
    return c.kind in ("around", "across") or (c.kind == "to" and c.look().kind in ("end", "last", "the"))


def pass_limit(c: Cursor) -> None:
    """ "in each of next 12 sts around": the number was told, the limit adds nothing."""
    if c.kind in ("around", "across") and c.look().kind in (",", ";", ".", "", "(", ")", "[", "]", "*", "-", "="):
        c.i += 1


def limit_spot(c: Cursor, found: Spot) -> bool:
    """ "across", "around", "to end", "to last 3 sts", "to within 3 sts of end": how far; True when something was said."""
    start = c.i
    _which_kinds(c)
    begin = c.i
    got = limit(c)
    if got is None:
        c.i = start
        return False
    found.but, found.upto, found.limit_at = got, c.upto or _of_another_kind(found.at.what, c.last_of), begin
    return True


def _which_kinds(c: Cursor) -> None:
    """Past "(dc or popcorn)", "(including bobbles)", "(working 1 dc in each cluster)" between what a run goes into and how far it goes."""
    close = c.close.get(c.i) if c.kind in ("(", "[") else None
    if close is None or c.t[close + 1].kind not in ("to", "around", "across", "until"):
        return
    inner = c.t[c.i + 1 : close]
    kinds = {token.kind for token in inner}
    listed = kinds <= {"st", "grp", "noun", "ch", "sp", "or", "and", ",", "the", "a", "&", "/"} and bool(kinds & {"or", "and", "/"})
    if listed or (inner[0].text.lower() in _TAKING and kinds & {"st", "grp"} and not kinds & {"skip", "rep", "*", "turn"}):
        c.i = close + 1


_TAKING = frozenset("including counting working making taking treating".split())  # noqa: SIM905


def _of_another_kind(what: str, last: str) -> str:
    """ "last dc": what stands last is told in stitches, and the run goes into spaces or groups ("3 dc in each sp to last 2 dc"), or the
    other way round ("dc in each dc to last ch-2 sp"); "" where both are of one sort, so that so many of its own places are left."""
    if not last or last == "ch" or what in ("ch", "any"):
        return ""
    return f"last {last}" if is_stitch(what) != is_stitch(last) else ""


def is_stitch(what: str) -> bool:
    """Whether a place is a single stitch, and no space, corner or group."""
    return what == "st" or base(what) in HEIGHT


def limit_spot_rest(c: Cursor, found: Spot) -> None:
    """ "(sc next 2 sts tog) around": again and again, as far as is told."""
    if limit_spot(c, found):
        found.places, found.each = "rest", True


def limit(c: Cursor) -> Sized[int] | None:
    """How far a run goes: 0 = to the end, n = up to the last n; None when nothing is said (cursor unmoved).

    Where it ends at a place ("to corner"), that place's kind stands in `c.upto`, and the number is of the stitches before it.
    """
    said: Sized[int] | None = None
    c.upto = c.last_of = ""
    while True:
        got = _one_limit(c)
        if got is None:
            return said
        if said is None or got != ZERO:
            said = got


def _all_but(c: Cursor) -> Sized[int] | None:
    """ "(in every st) except the last", "(in each) but the last 2 sts", "(in every chain) but the turning one": so many are left."""
    start = c.i
    c.i += 1
    c.drop("the", "in", "for")
    if c.ctx.on_chain and c.kind == "turn" and c.look().text.lower() == "one":
        c.i += 2  # "plain in every chain but the turning one"
        if c.kind in _CLOSES:
            c.excepted = c.t[c.i - 1].end
            return ONE
    elif c.take("last"):
        told = number(c)
        named = noun(c) is not None
        if (named or told is not None or c.kind in _CLOSES) and c.kind in _CLOSES:
            c.excepted = c.t[c.i - 1].end
            return told or ONE
    c.i = start
    return None


_CLOSES = frozenset((",", ";", ".", "", "(", "[", ")", "]", "*", "=", "turn", "and"))


def _counted_later(c: Cursor) -> bool:
    """ "(Sc) across 15, turn. (15)": the number behind "across" is of places where the row's count is told in a bracket of its own."""
    k = c.i + 2
    if c.t[k].kind not in (",", ";", "turn", "and"):
        return False
    return any(t.kind in ("(", "[") and after.kind == "n" and after.val == c.t[c.i + 1].val for t, after in pairwise(c.t[k:]))


def _one_limit(c: Cursor) -> Sized[int] | None:
    start = c.i
    kind = c.kind
    if kind == "but":
        return _all_but(c)
    if (kind == "all" and c.look().kind in ("around", "across", "along")) or (c.t[c.i].text.lower() == "on" and c.look().kind == "to"):
        c.i += 1
        kind = c.kind
    if kind == "idle" and c.t[c.i].val == "completely" and c.look().kind == "around":
        c.i += 1
        kind = c.kind
    if kind in ("around", "across", "along"):
        ahead = 1 + (c.look().kind == "the" and (c.look(2).kind in ("next", "o", "last", "same", "post", "n", "skip") or _one_post(c)))
        after = c.look(ahead)
        if (
            after.kind in ("each", "next", "o", "same", "post", "any")
            or (after.kind == "last" and kind == "around" and c.look(ahead + 1).kind in ("n", "st", "noun"))
            or ((after.kind in ("st", "skip", "tch") or (ahead == 2 and _one_post(c))) and kind == "around")
            or (after.kind == "n" and _past_sizes(c, ahead + 1) in _COUNTED and not _count_last(c))
            or (kind == "across" and ahead == 1 and after.kind == "n" and _counted_later(c))
            or after.kind == "base"
            or after.text.lower() == "one"
            or (after.kind == "the" and c.look(2).kind == "top" and c.look(3).kind == "of")
        ):
            c.i = start
            return None
        c.i += 1
        of_a_piece = _over_what(c)
        if (kind == "across" or of_a_piece) and (space := worked_next(c)):
            c.upto = space  # "hdc across the front, hdc in ch-2 sp"
        return ZERO
    if kind in ("to", "until", "for", "over", "at", "in"):
        if to_beginning(c):
            return ZERO
        told = upto(c)
        if told is not None:
            c.upto = told[0]
            return told[1]
        return _to_where(c, start)
    c.i = start
    return None


_COUNTED = frozenset(("st", "noun", "skip", "grp", "unworked", "rem"))


def _one_post(c: Cursor) -> bool:
    """ "FPdc around the sc", "BPdc round the single dc": the post of one stitch, and not how far it goes."""
    led = c.look(2).kind == "idle" or c.look(2).text.lower() in LONE
    return c.look(2 + led).kind == "st" and c.look(3 + led).kind in _CLOSES | {"of", "below"}


def _past_sizes(c: Cursor, ahead: int) -> str:
    """The kind of the token `ahead`, or of the one after the other sizes' numbers: "across 24 (26, 28) sts"."""
    close = c.close.get(c.i + ahead) if c.ctx.sizes > 1 else None
    return c.t[close + 1].kind if close is not None else c.look(ahead).kind


def _count_last(c: Cursor) -> bool:
    """ "… rep from * around 24 sc.": what stands last is the row's count, not what is gone over."""
    every = any(token.kind in ("each", "all") for token in c.t[max(0, c.i - 3) : c.i])
    if not (c.t[c.i - 1].kind in ("*", "rep") or every):
        return False
    k = 3 + (c.look(3).kind == "total")
    return c.look(k).kind in ("", ".")


def worked_next(c: Cursor) -> str:
    """The kind of space that the next clause works into, by its place in the row (", hdc in next ch-2 sp", ", (2 dc, ch 2, 2 dc) in the
    corner"), so that what is told before goes no further; "" where none is. The cursor stays."""
    begin = c.i
    what = None
    if c.kind in (",", ";") and c.look().kind in ("st", "n", "(", "[", "a"):
        c.i += 1
        close = c.close.get(c.i)
        c.i = close + 1 if close is not None else c.i
        if close is None:
            c.drop("n", "a")
            c.take("st")
        if c.take("in") and c.kind in ("the", "next", "last", "ch", "corner", "n", "sp"):
            c.drop("the", "next", "last")
            what = noun(c, chains=True) or ("corner" if c.kind == "corner" else None)
    c.i = begin
    return what if what is not None and (what in ("sp", "corner") or what.endswith(" sp")) else ""


def _over_what(c: Cursor) -> bool:
    """Pass over "(across) the row", "(around) the piece", "the ch", "entire row", "edge", "each side"; whether a part of it is named
    ("the front", "sleeve sts")."""
    start = c.i
    c.drop("the", "all", "whole", "idle", "rem", "first", "second")
    word = c.t[c.i].text.lower()
    after = 1 + (c.look().kind == "noun")
    if word in OPENINGS and c.look().kind in (",", ";", ".", "", "and", "("):
        c.i += 1  # "d c in each d c around armhole"
        return False
    if word in PANELS and c.look(after).kind in (",", ";", ".", "", "to", "until"):
        c.i += after  # "in each dc across back to next sp", "across the sleeve sts, …"
        return True
    if c.kind in ("last", "prev") and c.look().kind in ("row", "rnd", "side"):
        c.i += 1
    if c.kind == "w" and c.t[c.i].val in ("entire", "whole", "full"):
        c.i += 1
    if c.kind in ("row", "rnd", "piece", "ch", "side", "ring", "top", "patt", "motif") or c.t[c.i].val == "round":
        c.i += 1
        if c.kind == "of" and c.look().kind in ("ch", "row", "the", "grp", "group"):
            c.i += 1
            c.drop("the")
            c.drop("row", "ch", "rnd", "piece", "grp", "group")
        return False
    c.i = start
    return False


def to_beginning(c: Cursor) -> bool:
    """Past "to within starting ch-3", "to the ch-3 at beginning", "until the starting chain is reached" in a round: all the way round it;
    False with the cursor unmoved."""
    start = c.i
    if c.kind not in ("to", "until") or not c.ctx.rounds:
        return False
    c.i += 1
    while c.kind in ("the", "a", "to", "back") or c.t[c.i].text.lower() in _REACHING:
        c.i += 1
    named = False
    if c.kind in ("ch", "st", "noun"):
        c.i += 1
        c.drop("-", "n", "st", "noun")
        named = c.take("at", "of", "from") is not None
        c.drop("the")
    if not (c.take("beg") or (not named and c.take("tch"))):
        c.i = start
        return False
    while c.kind in ("ch", "tch", "n", "-", "st", "noun", "of", "the", "rnd", "row", "sp"):
        c.i += 1
    c.i += 2 * (c.look().text.lower() in ("reached", "met"))
    if c.kind in _CLOSES | {"join", "-"}:
        return True
    c.i = start
    return False


_REACHING = frozenset("within you reach reaching come coming meet just very up".split())  # noqa: SIM905


def _to_where(c: Cursor, start: int) -> Sized[int] | None:
    word = c.kind
    c.i += 1
    if word == "until" and (left := _left_over(c)) is not None:
        return left
    within = False
    while c.kind in ("the", "in", "idle", "w") and (
        c.kind != "w" or c.t[c.i].val in ("within", "reach", "reaching", "very", "you", "have", "are")
    ):
        within = True
        c.i += 1
    if c.kind == "ends" and word != "over":
        c.i += 1
        return ZERO
    if c.kind == "end" and word not in ("over",):
        c.i += 1
        if c.kind == "of" and c.look().kind in ("row", "rnd", "the", "ch", "around"):
            c.i += 1
            c.drop("the")
            c.drop("row", "rnd", "ch", "around")
        return ZERO
    if word in ("to", "until") and c.kind == "n" and not within:
        from .untils import length

        cm = length(c)
        if cm is not None:
            from ...pattern import Until

            c.told["until"] = Until(length_cm=cm, span=c.span(start))
            return ZERO
    if word in ("to", "until") and c.kind == "last":
        c.i += 1
        told = number(c)
        what = noun(c, chains=told is None)  # "to last ch 2": its space
        if c.t[c.i].text.lower() in ("block", "tile") and told is None and c.ctx.tiles and c.look().kind in _CLOSES:
            c.i += 1
            last = c.out[-1] if c.out else None
            return ZERO if isinstance(last, Make) and last.stitch == "sl st" else ONE  # the unit's own sl st goes into it, or is told after
        if what is None and c.kind == "w" and c.t[c.i].val in _BLOCKS:
            c.i += 1  # a block and the stitch at its far end: so many stitches as are told after it
            after = c.look(4) if c.look(3).kind == "last" else None
            if c.kind == "," and after is not None and after.kind == "n" and isinstance(after.val, int):
                return Sized((after.val,))
            c.i = start
            return None
        if told is None and what is None and c.kind not in (",", ";", ".", ")", "]", "", "(", "*"):
            c.i = start
            return None
        _before_end(c)
        c.last_of = f"{what} sp" if what is not None and what.startswith("ch-") and not what.endswith("sp") else what or ""
        return told or ONE
    if word in ("to", "until") and c.kind == "n" and (within or word == "until"):
        told = number(c)
        noun(c)
        c.i += c.t[c.i].text.lower() in ("are", "is") and c.look().text.lower() == "left"
        if _before_end(c) or c.take("rem"):
            return told
        c.i = start
        return None
    edge = c.i + (c.kind in ("w", "front", "back"))
    if word == "to" and c.t[edge].text.lower() == "edge" and c.t[edge + 1].kind in _CLOSES:
        c.i = edge + 1  # "work to armhole edge": the row's other end
        return ZERO
    if word == "to" and c.kind == "o" and c.t[c.i].val == 1 and (c.ctx.rounds or c.elsewhere is not None):
        k = 1 + (c.look().kind == "n")
        if c.look(k).kind in ("st", "noun") and c.look(k + 1).kind in _CLOSES | {"join"}:
            c.i += k + 1  # "sc in each ch to first 3 sc": as far as the round began
            return ZERO
    if word == "to" and c.kind in ("row", "rnd") and c.look().kind == "end":
        c.i += 2
        return ZERO
    c.i = start
    return None


def _left_over(c: Cursor) -> Sized[int] | None:
    """ "(until) only 2 dc and the end sc remain", "3 chains are left (unworked)": so many in all; None with the cursor unmoved."""
    start = c.i
    c.drop("idle", "the", "last")
    c.i += c.t[c.i].text.lower() == "are"  # "until there are 3 sts left"
    c.drop("idle", "the", "last")
    total = 0
    while True:
        told = c.take("n", "a", "the", "end", "last")
        c.drop("end", "last")
        named = c.take("st", "noun", "ch", "tch") if told is not None else None
        many = told.val if told is not None and told.kind == "n" else 1
        if named is None or not isinstance(many, int):
            c.i = start
            return None
        total += many
        if not c.take("and", ","):
            break
    c.i += c.t[c.i].text.lower() in ("are", "is")
    c.drop("idle")
    if not c.take("rem"):
        c.i = start
        return None
    c.drop("unworked")
    return Sized((total,))


def _before_end(c: Cursor) -> bool:
    """ "of end", "from end of row", "before end", "remain", "left": True when passed over."""
    start = c.i
    if c.kind in ("of", "from", "before", "at"):
        c.i += 1
        c.drop("the")
        if c.kind == "marker" or (c.kind == "next" and c.look().kind == "marker") or c.kind == "corner":
            c.upto = "corner" if c.kind == "corner" else "marker"
            c.drop("next", "marker", "corner")
            return True
        if c.kind == "beg":
            c.i += 1 + (c.look().kind in ("top", "noun", "st"))  # "to within 8 sts of starting point"
            return True
        if c.take("end", "row", "rnd"):
            if c.kind == "of":
                c.i += 1
                c.drop("the")
                c.drop("row", "rnd")
            return True
        c.i = start
        return False
    if c.take("rem"):
        return True
    return c.kind == "idle" and c.t[c.i].val == "left" and bool(c.take("idle"))
