"""Rows that go on as the one before, a little wider or narrower each time: "continue to increase in this manner, having 1 more s c between
increases, until there are 64 s c", "repeat last round having 1 st less between decreases"."""

from __future__ import annotations

from itertools import pairwise

from ...pattern import Aside, Chain, Make, Refer, Sized, Step, Together, Until
from .cursor import Cursor
from .limits import limit
from .numbers import number
from .runs_between import BETWEEN_SHAPINGS, so_many_between
from .tails import FIGURES
from .untils import until

EXAMPLES = (
    ("Continue to increase in this manner, having 1 more sc between increases, until there are 64 sc", "as last 1 growing +1"),
    ("Continue to increase in this manner, with 5 sc between increases", "as last 1 but sc×5@next inc between"),
    ("Continue increasing as before until there are 48 sts", "as last 1 growing +1"),
    ("Repeat in this manner, increasing 1 st ahead each time", "as last 1 growing +1"),
    ("Continue decreasing in same way, having 1 st less between decs, until 8 sts remain", "as last 1 growing −1"),
    ("Repeat last round having 1 more st between increases until there are 36 sc", "as last 1 growing +1"),
    ("In like manner, every row having one group of dc more on each side of the point", "as last 1 growing +1"),
)

_MANNER = frozenset(("manner", "way", "same-way", "fashion", "established", "before", "previously", "thus"))
_LATER = frozenset(("ahead", "later", "further", "farther"))
_WORDS = frozenset(
    """to in the same as idle w before prev inc dec n noun st a work each row rnd o and patt even around center at of end both""".split()  # noqa: SIM905
)
_CLAUSE_ENDS = frozenset((",", ";", ".", "", ")", "]", "until", "for", "("))
_OPENS = frozenset(("cont", "rep", "work", "inc", "dec"))


def in_manner(c: Cursor) -> list[Step] | None:
    """The reference such a sentence is; how long goes to what is told of the row. None with the cursor unmoved."""
    start = c.i
    go_on = c.t[c.i].val == "go" and c.look().text.lower() == "on"
    alike = not go_on and _in_like_manner(c)
    if c.kind not in _OPENS and not go_on and not alike:
        return None
    c.i += 1 if go_on else 0
    kept = dict(c.told)
    once_more = c.kind in ("inc", "dec") and c.look().text.lower() == "again" and c.look(2).kind in _CLAUSE_ENDS and not c.out
    manner = alike or once_more  # "Rnd 8: Decrease again."
    change = (1 if c.kind == "inc" else -1) if once_more else _so_many_each_row(c)
    c.i += 2 * once_more
    manner = manner or change != 0
    while not manner and (c.kind in _WORDS or (c.i == start + go_on and c.kind in _OPENS)):
        c.i += c.kind == "in" and c.t[c.i].text.lower() == "on" and c.look().kind == "as"  # "keep on like this"
        like_this = c.kind == "as" and c.t[c.i + 1].text.lower() in ("this", "that", "set") and c.t[c.i + 2].kind in _CLAUSE_ENDS
        c.i += like_this
        manner = manner or like_this or c.t[c.i].val in _MANNER or c.kind in ("before", "prev")
        change = change or (1 if c.kind == "inc" else -1 if c.kind == "dec" else 0)
        c.i += 1
        if manner:
            break
    if (
        change
        and not manner
        and not any(isinstance(step, Make) for step in c.out)
        and c.kind == "last"
        and c.look().kind in ("row", "rnd")
        and c.t[c.i - 1].kind in ("in", "the")
    ):
        c.i += 2  # "increase in the middle as in the last row"
        manner = True
    if c.t[start].kind == "cont" and change and c.kind == "until" and not any(token.kind == "n" for token in c.t[start : c.i]):
        manner = True  # "continue decreasing every row until 22 sts remain": as in the last one, for no number is told
    goes_on = go_on or alike or c.t[start].kind in ("cont", "rep") or c.t[start].kind in ("inc", "dec")
    if not manner or not goes_on:
        c.i = start
        return None
    if not change and c.t[start - 1].kind in (",", ";", "and", "then") and any(isinstance(step, (Make, Together)) for step in c.out):
        rest = c.t[c.i : _clause_end(c)]
        if rest and any(t.kind in ("around", "across") or t.kind == "end" for t in rest) and not any(t.kind == "n" for t in rest):
            c.i = start
            return None  # "2 sc in next st, sc in next st, continue in same way around": this very row goes on
    if manner and change and c.kind in ("at", "on") and c.look().kind in ("each", "both") and c.look(2).kind == "end":
        c.i += 3  # "narrow in the same manner at each end"
    at_ends = any(token.kind == "end" for token in c.t[start : c.i])
    grow = 0 if at_ends else change  # at the ends the row told takes as many as there are between
    exact: tuple[Step, ...] = ()
    for _ in range(6):
        exact = exact or so_many_between(c)
        told = clause(c)
        if told is not None:
            grow = told or grow
            continue
        if not _how_long(c):
            break
    if c.kind not in (",", ";", ".", "", ")", "]", "(", "join", "turn", "foff", "and", "-", ":", "inc", "dec"):
        c.i = start
        c.told.clear()
        c.told.update(kept)
        return None
    if c.ctx.begins and any(isinstance(step, Chain) and step.foundation for step in c.out):
        return [Aside(id=c.id(), span=c.span(start))]  # "Cast on 12 chain, and proceed thus.": no row is done yet
    if exact:
        c.told["row_named"] = BETWEEN_SHAPINGS
    return [Refer(id=c.id(), span=c.span(start), last=1, grow=0 if exact else grow, changes=exact)]


def _less_or_more(c: Cursor) -> bool:
    end = next(k for k in range(c.i, len(c.t)) if c.t[k].kind in (",", ";", ".", ""))
    return any(token.kind == "more" or token.val in ("less", "fewer") for token in c.t[c.i : end])


def _names_loops(c: Cursor) -> bool:
    """ "1 ch-3 loop less over each pineapple": the chain tells which loops."""
    k = 1 + (c.look().kind == "-")
    return c.kind == "ch" and c.look(k).kind == "n" and c.look(k + 1).kind in ("lp", "sp")


def _so_many_each_row(c: Cursor) -> int:
    """ "Continue increasing 10 stitches per round, working one more hdc between increases": passed over up to the comma, for what follows
    tells how; which way it goes, 0 with the cursor unmoved."""
    verb = c.look(1 + (c.look().kind == "to"))
    if c.kind != "cont" or verb.kind not in ("inc", "dec"):
        return 0
    k = c.i + 1
    while c.t[k].kind in ("to", "inc", "dec", "by", "n", "noun", "st", "each", "row", "rnd", "around", "a"):
        k += 1
    after = c.t[k + 1 : k + 12]
    stop = next((j for j, token in enumerate(after) if token.kind in (".", ";", "")), len(after))
    if c.t[k].kind != "," or not any(token.kind == "between" for token in after[:stop]):
        return 0
    c.i = k
    return 1 if verb.kind == "inc" else -1


def _in_like_manner(c: Cursor) -> bool:
    """ "In like manner," where a row begins: told as the one before it; passed over. False with the cursor unmoved."""
    begin = c.i
    if c.out or c.kind != "in":
        return False
    c.i += 1
    c.drop("the")
    like = c.t[c.i].text.lower() in ("like", "same", "this", "similar") or c.t[c.i - 1].text.lower() == "this"
    c.i += c.t[c.i].text.lower() in ("like", "same", "similar")
    if like and c.t[c.i].text.lower() in ("manner", "way", "fashion"):
        c.i += 1
        return True
    c.i = begin
    return False


def clause(c: Cursor) -> int | None:
    """ "having 1 more st between increases", "and increase 1 st ahead each time", "allowing one st less before the dec": by how many the
    plain run grows each time; 0 for words that only tell where; None with the cursor unmoved."""
    start = c.i
    c.drop(",", "and", ";") if c.kind != "." else None
    c.i += c.kind == "but" and c.look().kind in ("with", "having") and _less_or_more(c)  # "as last rnd, but with 1 loop less"
    if any(token.text.lower() == "instead" for token in c.t[c.i : _clause_end(c)]):
        c.i = start
        return None  # "having 4 dc instead of 3 between corners": so many, and not so many more
    each_time = c.t[c.i].val == "each-time" or (c.kind == "each" and c.look().kind == "times")
    if each_time:
        c.i += 1 + (c.kind == "each")  # "each time 2 sts less between the decreases"
        c.drop("with", "having", "work")
    bare = c.kind == "n" and c.look().kind in ("noun", "st") and c.look(2).val in ("less", "fewer", "more")
    if c.kind == "each" and (c.look().kind in ("row", "rnd") or c.look().val == "round") and c.look(2).kind in ("having", "with"):
        c.i += 2  # "every row having one group more"
    sides = (
        c.kind in ("each", "the") and c.look().kind == "side" and (c.look(2).kind in ("inc", "having", "with") or c.look(2).val in _SAYS)
    )
    c.i += 2 if sides else 0  # "each side gaining 1 group in every round"
    says = c.kind in ("inc", "dec", "having", "with", "leave", "work", "even") or c.t[c.i].val in _SAYS
    if each_time or bare or says:
        begin = c.i
        shrinks = False
        told: int | None = None
        between = ahead = loops = groups = more = False
        while c.kind not in (",", ";", ".", "", ")", "]", "until", "for", "(") and not (
            c.kind == "and" and (c.look().kind in ("inc", "dec") or _tells_chains(c, c.i + 1))
        ):
            if c.kind == "n" and told is None and isinstance(c.t[c.i].val, int):
                told = c.t[c.i].val
            if c.kind == "a" and told is None and c.look().kind in ("grp", "group"):
                told = 1  # "adding a group to each side"
            shrinks = shrinks or c.t[c.i].val in ("less", "fewer")
            between = between or c.kind in ("between", "before") or c.t[c.i].val in ("apart",)
            ahead = ahead or c.t[c.i].val in _LATER
            groups = groups or c.kind in ("grp", "group")
            more = more or c.kind in ("more", "inc") or c.t[c.i].val in ("gaining", "gains", "adding")
            loops = loops or c.kind in ("lp", "sp", "mesh") or c.t[c.i].val in FIGURES
            if c.kind in ("ch", "skip", "turn", "*") and not _names_loops(c):
                c.i = start
                return None
            c.i += 1
        words = c.t[begin : c.i]
        side = next((k for k, t in enumerate(words) if t.kind == "side"), None)
        if groups and more and side is not None and [t.kind for t in words[side + 1 : side + 2]] != ["of"]:
            return 0  # "adding one more group on each side every round": the edges of a square, which the row below tells
        each_row = any(a.kind == "each" and b.kind in ("row", "rnd", "around") for a, b in pairwise(words))
        if told is not None and each_row and any(t.kind == "cont" for t in c.t[max(0, begin - 12) : begin]):
            return -1 if shrinks or words[0].kind == "dec" else 1  # "adding 6 sts in each round": one more between the increases
        watching = c.t[begin].val in ("watching", "spacing", "being") or c.t[begin].kind == "even"
        if told == 3 and any(t.kind == "center" for t in words):
            return 1  # "always making 3 sc in the center stitch": one more on either side of it
        if told is None and words[0].kind in ("inc", "dec") and any(t.kind == "center" for t in words):
            return 1 if words[0].kind == "inc" else -1  # "in like manner, increasing in the middle of every row"
        if told is not None and told <= 6 and (between or ahead or (loops and shrinks) or (groups and (more or shrinks))):
            return -told if shrinks else told
        if watching or (words[0].kind in ("having", "with", "work") and any(t.kind == "sides" for t in words)):
            return 0  # "having pattern on right side rows and sc on wrong side rows": as the rows told before have it
    c.i = start
    return None


def _clause_end(c: Cursor) -> int:
    return next(k for k in range(c.i, len(c.t)) if c.t[k].kind in (",", ";", ".", "", ")", "]", "("))


def _tells_chains(c: Cursor, k: int) -> bool:
    """Whether "(having) 1 ch more", "one more chain" stands here."""
    while c.t[k].kind in ("having", "with", "work", "a", "the", "idle"):
        k += 1
    kinds = [token.kind for token in c.t[k : k + 3]]
    least = c.t[min(k + 2, len(c.t) - 1)].val in ("less", "fewer")
    return kinds[:1] == ["n"] and (kinds[1:] in (["ch", "more"], ["more", "ch"]) or (kinds[1:2] == ["ch"] and least))


def chains_between(c: Cursor) -> int:
    """ "And 1 ch more between the 2 shells", "having one more chain between shells each time": by how many chains; 0, with the cursor
    unmoved, where it tells none of those between groups."""
    start = c.i
    c.drop(",", "and", "always", "also")
    if not _tells_chains(c, c.i):
        c.i = start
        return 0
    number, sign, groups = 0, 1, False
    between = False
    while c.kind not in (",", ";", ".", "", ")", "]", "until", "for", "("):
        if c.kind == "n" and not number and isinstance(c.t[c.i].val, int):
            number = c.t[c.i].val
        sign = -1 if c.t[c.i].val in ("less", "fewer") else sign
        between = between or c.kind == "between"
        groups = groups or (between and c.kind in ("grp", "group"))
        c.i += 1
    if not groups or not 0 < number <= 6:
        c.i = start
        return 0
    return sign * number


def _until_counted(c: Cursor) -> Until | None:
    """ "Until the round in which you work 2 dc into every 11th st has been completed (72 sts)": the count tells which round that is."""
    if c.kind != "until":
        return None
    end = c.i
    while c.t[end].kind not in ("(", ".", ";", ""):
        end += 1
    close = c.close.get(end)
    told = c.t[end + 1].val if close is not None and c.t[end + 2].kind in ("noun", "st") and close <= end + 4 else None
    row = any(token.kind in ("row", "rnd") or token.text.lower() == "round" for token in c.t[c.i : end])
    if not isinstance(told, int) or not row:
        return None
    start, c.i = c.i, end
    return Until(stitches=Sized((told,)), span=c.span(start))


_SAYS = frozenset(("watching", "allowing", "adding", "skipping", "spacing", "being", "gaining", "gains"))


def _how_long(c: Cursor) -> bool:
    """ "until there are 64 sts", "for 5 rounds", "through Rnd 14", "4 times more", "around"."""
    start = c.i
    c.drop(",", "and", ".") if c.kind in (",", "and") or c.look().kind == "work" else None
    c.take("work") if c.look().kind == "over" else None
    if c.kind == "over" and c.t[c.i].val in ("through", "thru") and c.look().kind in ("rnd", "row", "around") and c.look(2).kind == "n":
        c.told["until_rows"] = c.look(2).val
        c.i += 3
        return True
    if c.kind == "until" and c.look().kind in ("rnd", "row", "around") and c.look(2).kind == "n" and c.look(3).kind in _CLAUSE_ENDS:
        c.told["until_rows"] = c.look(2).val
        c.i += 3
        return True
    if c.kind in ("until", "for"):
        counted = _until_counted(c)
        got = counted or (until(c) if c.kind == "until" else None)
        if got is not None:
            c.told["until"] = got
            return True
        c.take("for")
        c.drop("the", "next", "another")
        told = number(c)
        c.take("more")
        if told is not None and c.take("row", "rnd"):
            c.told["rows_count"] = told
            return True
    elif c.kind in ("in", "over") and (c.look().kind in ("next", "each") or (c.look().kind == "the" and c.look(2).kind == "next")):
        c.i += 1
        c.drop("each", "the", "of", "next")
        told = number(c)
        c.take("more")
        if told is not None and c.take("row", "rnd"):
            c.told["rows_count"] = told
            return True
    elif c.kind == "n":
        told = number(c)
        c.take("more")
        if told is not None and c.take("times", "row", "rnd"):
            c.drop("more")
            c.told["rows_count"] = told
            return True
    elif c.kind in ("around", "across") and limit(c) is not None:
        return True
    c.i = start
    return False
