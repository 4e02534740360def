"""Rows that name other rows: "Repeat Row 2", "rep Rows 2 and 3", "same as 4th row but …", "repeat last 2 rows 5 times"."""

from __future__ import annotations

from itertools import pairwise

from ...pattern import Aside, Colour, Join, Make, Place, Refer, Sized, Step, Unread
from .cursor import Cursor, Frame
from .growing import clause
from .numbers import number
from .row_ends import ending_row
from .shapes import so_many_more
from .sides import how_far, named_part, reversing
from .spots import as_loop
from .untils import until

EXAMPLES = (
    ("Repeat Row 2", "as rows 2"),
    ("Rep Rows 2 and 3", "as rows 2, 3"),
    ("Rep Rows 2-5", "as rows 2, 3, 4, 5"),
    ("Repeat last 2 rows", "as last 2"),
    ("Same as 4th row", "as rows 4"),
    ("Work as for Row 3", "as rows 3"),
)

ROW = frozenset(("row", "rnd"))


def refer(c: Cursor) -> list[Step] | None:
    """A reference to rows; how often and until when go to what is told of the row."""
    start = c.i
    if (alone := _same_alone(c)) is not None:
        return alone
    sure = _opens(c)
    if sure is None:
        c.i = start
        return None
    begin = c.i
    got = _rows(c, sure)
    if got is None:
        c.i = begin
        got = _part(c)
    if got is None:
        c.i = start
        return None
    rows, last = got
    part = _as_part(c)
    upto = ""
    if part is not None and not rows:
        rows, upto = how_far(c)
    star = (c.kind == "from" and c.look().kind in ("*", "o", "beg")) or (c.kind == "from" and c.look(2).kind == "*")
    if star:
        while c.kind in ("from", "the", "*", "o", "beg"):
            c.i += 1
    _in_colours(c)
    _how_long(c, max(1, len(rows) or last))
    _on_every(c)
    grow = clause(c)
    if grow is not None:
        _how_long(c, max(1, len(rows) or last))
    if part is None and c.ctx.begins and not c.out and len(rows) > 1 and not {"rows_count", "until"} & set(c.told):
        c.told["rows_count"] = Sized((len(rows),))  # "SECOND MOTIF: Work Rows 1-4.": those rows of the piece before
    if rows and c.out and isinstance(before := c.out[-1], Refer) and before.last == 1 and not before.changes:
        c.out.pop()  # "Continue thus, alternating Rows 3 and 4": these rows, and no other before them
    changes = () if _row_end(c) else _changes(c) or _growing(c)
    reverse = reversing(c)
    return [
        Refer(id=c.id(), span=c.span(start), rows=rows, last=last, part=part, changes=changes, reverse=reverse, grow=grow or 0, upto=upto)
    ]


def _same_alone(c: Cursor) -> list[Step] | None:
    """ "Rows 10-12: Same.", "The same again.": as the row before."""
    start = c.i
    c.take("the")
    if not c.take("same") or any(not isinstance(step, (Aside, Colour)) for step in c.out):
        c.i = start
        return None
    c.drop("more", "idle")
    if c.kind not in (".", ";", "", "(", "["):
        c.i = start
        return None
    return [Refer(id=c.id(), span=c.span(start), last=1)]


def keeps_to_pattern(c: Cursor) -> list[Step] | None:
    """ "(Rows 3 and 4 form the pattern.) Keep going in stripes until work measures 90 cm": those rows, again and again."""
    rows = c.told.get("pattern_rows")
    start = c.i
    if not isinstance(rows, tuple) or (c.out and not all(isinstance(step, Aside) for step in c.out)):
        return None
    end = c.stops[c.i]
    at = next((k for k in range(c.i, end) if c.t[k].kind in ("until", "for")), None)
    if at is None or any(t.kind in ("st", "ch", "n", "skip", "inc", "dec") for t in c.t[c.i : at]):
        return None
    c.i = at
    _how_long(c, len(rows))
    if "until" not in c.told and "rows_count" not in c.told:
        c.i = start
        return None
    c.i = max(c.i, end)
    del c.told["pattern_rows"]
    return [Refer(id=c.id(), span=c.span(start), rows=rows)]


def _in_colours(c: Cursor) -> None:
    """Pass over "in stripes of 2 rows B, 2 rows C and 2 rows A", "colours, 12 sc each round": which yarn, not what is worked."""
    if c.kind == "color":
        c.i += 1
        if (
            c.kind == ","
            and c.look().kind == "n"
            and c.look(2).kind == "st"
            and c.look(3).kind == "each"
            and c.look(4).kind in (*ROW, "around")
        ):
            c.i += 5
        return
    if c.kind == "in" and c.look().kind == "the" and c.look(2).kind == "same" and c.look(3).kind == "color":
        c.i += 4  # "in the same colours"
        return
    if not (c.kind == "in" and c.look().text.lower() in ("stripes", "stripe", "striped")):
        return
    while c.kind and c.kind not in ("until", "for", ".", ";", "(", "["):
        c.i += 1


def _on_every(c: Cursor) -> None:
    """Pass over "on every row", "in each round": the row is worked so each time, as it would be without these words."""
    begin = c.i
    if c.kind in ("on", "in") and c.look().kind == "each":
        c.i += 2
        if c.kind in (*ROW, "around") and c.look().kind in (",", ".", ";", "", "(", "[", "until", "n", "to", "for"):
            c.i += 1
            return
    c.i = begin


def by_name(c: Cursor) -> list[Step] | None:
    """ "Repeat dec row", "work the buttonhole row again", "rep Increase Rnd 3 times": a row named by what it does."""
    start = c.i
    if not c.take("rep", "work"):
        return None
    again = c.t[start].kind == "rep"
    if (
        again
        and c.kind == "for"
        and c.look().kind == "n"
        and (c.look(2).kind in ROW or (c.look(2).kind == "more" and c.look(3).kind in ROW))
    ):
        c.i += 1
        told = number(c)
        c.take("more")
        c.i += 1
        c.told["rows_count"] = told
        return [Refer(id=c.id(), span=c.span(start), last=1)]  # "Repeat for 4 more rows"
    c.drop("the", "idle", "a")
    words: list[str] = []
    while c.kind in ("inc", "dec", "w", "grp", "patt", "shaping", "even", "mesh", "puff", "color") and len(words) < 3:
        words.append(_stem(c.t[c.i].text))
        c.i += 1
    if not words or c.kind not in ROW or c.look().kind == "n":
        c.i = start
        return None
    c.i += 1
    _how_long(c, 1)
    if not (again or c.t[c.i - 1].val in ("again", "times", "more", "once")):
        c.i = start
        return None
    c.told["row_named"] = " ".join(words)
    return [Refer(id=c.id(), span=c.span(start), last=1)]


def _stem(word: str) -> str:
    low = word.lower()
    return low[:3] if low[:3] in ("inc", "dec") else low


def _part(c: Cursor) -> tuple[tuple[int, ...], int] | None:
    """A piece's name where rows were looked for ("same as Front"): all its rows."""
    name = named_part(c) or _the_first(c, c.i - 1)
    if name is None:
        return None
    c.told["part"] = name
    return (), 0


def _as_part(c: Cursor) -> str | None:
    """ "(1st 3 rounds) same as flower", "of Back", "for First Motif" after the rows: the piece whose rows are meant."""
    told = c.told.pop("part", None)
    if told is not None:
        return str(told)
    begin = c.i
    while c.kind in ("same", "as", "of", "for", "in", "the", "work", "on"):
        c.i += 1
    found = named_part(c) or _the_first(c, begin)
    if found is None:
        c.i = begin
    return found


def _the_first(c: Cursor, begin: int) -> str | None:
    """ "(Work Rnds 1-3 as for) the first": the piece that is called the first of its kind."""
    after = 1 + (c.look().text.lower() == "one")
    if c.i == begin or c.kind != "o" or c.t[c.i].val != 1 or c.look(after).kind not in (".", ",", ";", "", ")", "but"):
        return None
    found = next((name for name in c.ctx.parts if name.lower().startswith(("first ", "1st "))), None)
    if found is not None:
        c.i += after
    return found


def _opens(c: Cursor) -> bool | None:
    """Pass over "repeat", "same as", "work as for", "as", "like": True when rows may stand without the word row."""
    word = c.t[c.i]
    if c.kind == "rep":
        c.i += 1
        c.drop("of", "the", "from", "idle") if c.kind != "from" else None
        if c.kind == "from":
            if c.look().kind == "*" and c.look(2).kind in ("of", "in") and c.look(3).kind in ("row", "rnd", "o"):
                c.i += 3  # "repeat from ** of Row 5"
                return True
            if c.look().kind in ("o", "row", "rnd", "the", "last", "beg"):
                c.i += 1
                c.drop("the")
            else:
                return None
        return True
    if c.kind == "alt" and c.look().kind in ROW and c.look(2).kind == "n":
        c.i += 1  # "Alternate Rows 2 and 3"
        return True
    if c.kind in ("row", "rnd") and c.look().kind == "n":
        return _plain_names(c)
    if word.kind == "the" and c.look().kind == "same":
        c.i += 1  # "The same as 2nd."
    elif word.kind == "the":
        return _these(c)
    if word.kind == "o" and _rows_told_often(c):
        return True
    if word.kind == "o":
        return (
            True
            if c.look().kind in ROW and (c.look(2).kind in ("once", "more") or (c.look(2).kind == "n" and c.look(3).kind == "times"))
            else None
        )
    if c.kind in ("work", "cont", "complete") or (c.kind == "w" and word.val in ("exactly", "complete", "rows")):
        c.i += 1
        c.drop("idle", "the")
        c.i += c.t[c.i].text.lower() in ("exactly", "just", "precisely") and c.look().kind in ("as", "same", "like")
        if (c.kind in ROW and c.look().kind == "n") or (c.kind == "o" and c.look().kind == "n" and c.look(2).kind in ROW):
            return True
    if c.kind == "same":
        c.i += 1
        c.take("again")
        if c.kind == "more":
            c.i += 1
            c.told["last"] = 1
            return True
    if c.kind == "in":
        _in_the_same_way(c)
    if (c.kind == "=" and c.look().kind in ROW) or c.t[c.i].val == "follow":
        c.i += 1
        c.drop("the", "idle")
        return False
    if c.kind in ("as", "like"):
        c.i += 1
        if c.t[c.i].val in ("given", "described", "set", "instructed", "directed", "told"):
            c.i += 1
        _to_name(c) if c.kind != "w" or c.t[c.i].val in ("per", "done", "did") else None
        return False
    if c.kind == "w" and c.t[c.i].val in ("per",):
        c.i += 1
        return False
    if c.told.get("last"):
        return True
    return None


def _rows_told_often(c: Cursor) -> bool:
    """ "3rd and 4th rows once": rows named, with how often, and no verb."""
    k = c.i
    while c.t[k].kind in ("o", "and", ",", "to", "&", "-", "the"):
        k += 1
    return k > c.i + 1 and c.t[k].kind in ROW and (c.t[k + 1].kind in ("once", "more") or c.t[k + 2].kind == "times")


def _in_the_same_way(c: Cursor) -> None:
    """ "(Work) in the same way as Row 2"."""
    k = c.i + 1 + (c.look().kind == "the")
    if c.t[k].kind == "same" and c.t[k + 1].val in ("way", "manner", "fashion"):
        k += 1
    elif c.t[k].val != "same-way":
        return
    if c.t[k + 1].kind in ("as", "like"):
        c.i = k + 1


def _these(c: Cursor) -> bool | None:
    """ "These 2 rows by turns until …", "these 2 rows 5 times": a repeat without its verb."""
    if c.t[c.i].val not in ("these", "this") or c.look().kind != "n" or c.look(2).kind not in ROW:
        return None
    after = c.look(3)
    if after.kind not in ("by", "alt", "until", "n", "more", "again", "for", "once") and after.val not in ("again",):
        return None
    c.i += 1
    return True


_BEFORE_NAMES = frozenset(("for", "in", "the", "idle", "as", "same", "with", "w"))


def _to_name(c: Cursor) -> None:
    """Pass over small words up to what is named; a piece's name may itself begin with one ("right front")."""
    while c.kind in _BEFORE_NAMES:
        begin = c.i
        found = named_part(c)
        c.i = begin
        if found is not None:
            return
        c.i += 1


def _plain_names(c: Cursor) -> bool | None:
    """ "Rows 2 - 5 nine more times", "Rows 5-8 again", "Row 3&4 till 18 rows": rows named with how often."""
    k = c.i + 2
    while (
        c.t[k].kind in ("-", "and", "&", "to", ",")
        and c.t[k + 1].kind == "n"
        and c.t[k + 2].kind != "times"
        and not (c.t[k + 2].kind == "more" and c.t[k + 2].val != "again")
    ):
        k += 2
    after = c.t[k]
    if c.i == 0 and after.kind in (".", "", "(", "[") and (not c.t[k + 1].kind or "n" in (c.t[k + 1].kind, c.t[k].kind, c.t[k + 2].kind)):
        return True  # "Rows 3-6: = Row 2."
    if after.kind == "n" and c.t[k + 1].kind in ("more", "times"):
        return True
    if (
        after.kind in ("more", "until", "times", "once", "again", "by")
        or (after.kind == "w" and after.val in ("again",))
        or (after.kind == "to" and c.t[k + 1].kind == "the")
    ):
        return True
    if c.t[k - 1].kind == "n" and after.kind in ("more", "times", "until"):
        return True
    return None


def _rows(c: Cursor, sure: bool) -> tuple[tuple[int, ...], int] | None:
    if c.told.pop("last", None):
        return (), 1
    kind = c.kind
    if kind in ("last", "prev") and c.t[c.i - 1].kind == "as" and c.look().kind in (",", ".", ";", "", ")"):
        c.i += 1  # "3rd round: same as last."
        return (), 1
    if kind in ("last", "prev", "these") or (
        c.t[c.i - 1].val in ("these", "this", "last") and (kind in ROW or (kind == "n" and c.look().kind in ROW) or kind == "around")
    ):
        if kind in ("last", "prev"):
            c.i += 1
        told = number(c)
        if c.kind in ("rnd", "row", "around"):
            c.i += 1
            return (), (told.values[0] or 1) if told else 1
        return None
    if (kind == "n" and c.look().kind == "last") or (kind == "n" and c.look().kind in ROW and sure):
        told = number(c)
        c.take("last")
        if c.take("row", "rnd", "around"):
            return (), (told.values[0] or 1) if told else 1
        return None
    if kind in ROW or (kind == "around" and c.look().kind == "n"):
        c.i += 1
        if c.kind == "n":
            return _numbers(c), 0
        return ((), 1) if c.t[c.i - 2].val in ("this", "last", "previous") else None
    if kind == "o":
        return _ordinals(c)
    if kind == "n" and not sure and isinstance(c.t[c.i].val, int) and c.look().kind in (",", ".", "", ";", "("):
        return _numbers(c), 0
    through = c.look().kind in ("to", "over") and c.look(2).kind == "n" and isinstance(c.look(2).val, int) and c.look(2).val > c.t[c.i].val
    if kind == "n" and sure and (through or c.look().kind in ("-", ",", ".", "", "and")) and isinstance(c.t[c.i].val, int):
        return _numbers(c), 0
    return None


def _numbers(c: Cursor) -> tuple[int, ...]:
    """ "2", "2-5", "2 to 5", "2, 3 and 4", "2 & 3", "2-5 and 8"."""
    found = [int(c.t[c.i].val)]
    c.i += 1
    while True:
        begin = c.i
        through = c.kind in ("-", "to") or (c.kind == "over" and c.t[c.i].val in ("through", "thru"))
        joined = c.kind in (",", "and", "&", "/", "+", "*")
        if not (through or joined) or (c.kind == "-" and c.t[c.i].val == "loose" and c.t[c.i].gap and c.look(2).kind == "("):
            break  # "rep Rnd 2 - 28 (30, 32) hdc": a count for each size
        c.i += 1
        c.drop("and", "row", "rnd", "the", "then")
        if (
            c.kind != "n"
            or not isinstance(c.t[c.i].val, int)
            or c.look().kind in ("times", "st", "noun", "ch", "grp", "inc", "dec")
            or (c.look().kind == "more" and c.look().val != "again")
            or c.t[c.i].text.isalpha()
        ):
            c.i = begin
            break
        value = int(c.t[c.i].val)
        c.i += 1
        if through and found[-1] < value <= found[-1] + 2000:
            found.extend(range(found[-1] + 1, value + 1))
        elif through and value < found[-1]:
            found.extend(range(found[-1] - 1, max(0, value - 1), -1))
        else:
            found.append(value)
    return tuple(found)


def _ordinals(c: Cursor) -> tuple[tuple[int, ...], int] | None:
    """ "2nd row", "2nd and 3rd rows", "3rd to 8th rows", "1st 4 rows" → rows 1 to 4."""
    found = [int(c.t[c.i].val)]
    before = c.t[c.i - 2] if c.t[c.i - 1].kind == "the" else c.t[c.i - 1]
    c.i += 1
    if found[0] == 1 and c.kind == "n" and c.look().kind in ROW:
        upto = int(c.t[c.i].val)
        c.i += 2
        return tuple(range(1, upto + 1)), 0
    while c.kind in (",", "and", "&", "to", "-", "over"):
        through = c.kind in ("to", "-", "over")
        begin = c.i
        c.i += 1
        c.drop("and", "the")
        if c.kind != "o":
            c.i = begin
            break
        value = int(c.t[c.i].val)
        c.i += 1
        if through and value > found[-1]:
            found.extend(range(found[-1] + 1, value + 1))
        else:
            found.append(value)
    if c.take("row", "rnd", "around"):
        c.drop("w") if c.kind == "w" and c.t[c.i].val in ("incl", "inclusive") else None
        return tuple(found), 0
    if c.kind == "patt" and c.look().kind in ROW:
        c.i += 2  # "the 2nd patt. row"
        return tuple(found), 0
    if c.kind == "," and c.look().kind in ("but", "having", "with", "only") and before.kind in ("as", "like"):
        return tuple(found), 0  # "as 4th, but allow 7 ch to each loop"
    alternately = c.kind == "alt" or (c.kind == "," and c.look().kind == "alt")
    if (c.kind in (".", "", ";", ")", "(") or alternately) and before.kind in ("as", "like", "rep"):
        return tuple(found), 0  # "same as 2nd."
    return None


def _how_long(c: Cursor, rows: int) -> None:
    """ "nine times", "3 more times", "once more", "until …", "alternately", "for …", "9 more times, then one more row 2"."""
    if c.kind == "for" and c.look().kind == "patt":
        c.i += 2  # "repeat these 2 rows for pattern"
    if c.kind == "for" and c.look().kind in ROW and c.look(2).kind == "n":
        c.i += 2
        c.told["rows_count"] = Sized((len(_numbers(c)),))  # "repeat Row 2 for Rows 3-6"
        return
    for _ in range(5):
        begin = c.i
        c.drop("alt", "idle", "again", "by")
        if c.kind == "w" and c.t[c.i].val == "turns":
            c.i += 1
        c.drop(",", "and", "then") if c.kind in (",",) and (c.look().kind in ("until", "for", "once") or _times_ahead(c)) else None
        if (c.kind in ("n", "once", "more", "a", "for") or c.t[c.i].val == "another") and _times(c, rows):
            continue
        got = until(c) if c.kind in ("until", "for", "to") else None
        if got is not None:
            c.told["until"] = got
            continue
        if c.kind == "(" and c.look().kind in ("more", "row", "w", "rnd"):
            c.i = c.close.get(c.i, c.i) + 1
            continue
        if c.i == begin or c.kind not in ("alt", "until", "for", "n"):
            if c.t[c.i - 1].kind in (",", "and", "then"):
                c.i = begin
            break


def _times_ahead(c: Cursor) -> bool:
    """ "(Repeat Rows 3 and 4), 5 times"."""
    return c.look().kind == "n" and (c.look(2).kind == "times" or (c.look(2).kind == "more" and c.look(3).kind == "times"))


def _times(c: Cursor, rows: int) -> bool:
    begin = c.i
    c.drop("total", "of")
    c.i += c.t[c.i].text.lower() == "another"
    so_many_more(c)
    c.drop("a", "total", "of")
    if c.kind == "once":
        value = Sized(({"once": 1, "twice": 2, "thrice": 3}[str(c.t[c.i].val)],))
        c.i += 1
    else:
        got = number(c)
        if got is None:
            c.i = begin
            return False
        value = got
        c.take("more")
        if not (c.take("times") or c.take("x")):
            if c.kind == "w" and c.t[c.i].val == "x":
                c.i += 1
            elif c.take("row", "rnd"):
                c.drop("more")
                c.told["rows_count"] = value
                return True
            else:
                c.i = begin
                return False
    c.drop("more", "total")
    if c.kind == "in" and c.t[c.i].val == "in all":
        c.i += 1
    c.told["rows_count"] = Sized(tuple(None if n is None else n * rows for n in value.values))
    return True


def _row_end(c: Cursor) -> bool:
    """ ", ending with a wrong side row": where the rows stop; passed over."""
    begin = c.i
    c.take(",")
    if c.kind in ("ending", "end") and ending_row(c) is not None:
        return True
    c.i = begin
    return False


def _growing(c: Cursor) -> tuple[Step, ...]:
    """ "one shell more each row", "1 st less each row": told, worked as the row it names gives it."""
    begin = c.i
    c.take(",")
    if c.kind == "n" and any(c.look(k).kind == "more" or c.look(k).val in ("less", "fewer") for k in (1, 2)):
        while c.kind not in (".", ";", "", ")", "]"):
            c.i += 1
        return (Aside(id=c.id(), span=c.span(begin)),)
    c.i = begin
    return ()


def _changes(c: Cursor) -> tuple[Step, ...]:
    """ "but with 5 chs in each loop", "but ending …", "having …": the steps told as different."""
    begin = c.i
    c.take(",")
    loop = _other_loop(c) or _in_every_space(c)
    if loop is not None:
        return loop
    if c.t[c.i].text.lower() == "only" and c.look().text.lower() in ("now", "there", "this", "you", "it"):
        return _told_apart(c, begin)
    if c.kind not in ("but", "ending", "having") and not (c.kind == "w" and c.t[c.i].val in ("only", "inserting")):
        c.i = begin
        return ()
    from .sentences import steps

    ends = c.kind == "ending" or c.look().kind == "ending"
    c.i += 1
    c.drop("with", "ending", "work", "the", "row", "rnd")
    c.i += c.t[c.i].text.lower() in ("allow", "allowing", "give", "giving", "put", "putting")
    c.frames.append(Frame())
    stop = c.i
    while c.t[stop].kind not in (".", ";", "", ")", "]", "turn", "foff"):
        stop += 1
    try:
        steps(c, stop)
        found = tuple(c.frames[-1].out)
    finally:
        c.frames.pop()
    found = tuple(_remark(c, step) for step in found)
    if ends and found and not any(type(step).__name__ == "Unread" for step in found):
        return (Join(id=c.id(), span=c.span(begin), closing=tuple(map(_as_join, found))),)
    return found


def _remark(c: Cursor, step: Step) -> Step:
    """Words among the changes that tell nothing of stitches or rows are a remark; others stay as not understood."""
    if not isinstance(step, Unread):
        return step
    told = [token for token in c.t if step.span.start <= token.start < step.span.end]
    words = [token.kind for token in told]
    if any(token.text.lower() == "on" for token in told) and set(words) <= {"w", "idle", "in", "the", "n", "noun"}:
        return Aside(id=step.id, span=step.span)  # "like Rnd 2, but on 34 sts": how many the row below holds
    return step if {"st", "ch", "n", "skip", "inc", "dec", "row", "rnd", "grp"} & set(words) else Aside(id=step.id, span=step.span)


def _told_apart(c: Cursor, begin: int) -> tuple[Step, ...]:
    """ "(As Rnd 3), only now there are two spaces to fill on each side": what the row below holds here; nothing is told to work."""
    there = any(a.text.lower() == "there" and b.text.lower() in ("are", "is") for a, b in pairwise(c.t[c.i : c.i + 5]))
    while c.kind not in (".", ";", "") and c.kind not in ("turn", "join", "foff"):
        c.i = c.close.get(c.i, c.i) + 1 if c.kind in ("(", "[") else c.i + 1
    span = c.span(begin)
    return (Aside(id=c.id(), span=span) if there else _remark(c, Unread(id=c.id(), span=span)),)


def _in_every_space(c: Cursor) -> tuple[Step, ...] | None:
    """ "(As round 3), working 2 tr in each of the 2 gaps along every side": the edges have grown, and each of their spaces is filled."""
    begin = c.i
    if c.kind == "work":
        end = c.i
        while c.t[end].kind not in (".", ";", "", "(", ","):
            end += 1
        told = [token.text.lower() for token in c.t[c.i : end]]
        spaces = any(token.kind in ("sp", "mesh", "lp") for token in c.t[c.i : end])
        if spaces and told[-1:] in (["side"], ["edge"]) and any(word in ("each", "every") for word in told[-3:]):
            c.i = end
            return (Aside(id=c.id(), span=c.span(begin)),)
    return None


def _other_loop(c: Cursor) -> tuple[Step, ...] | None:
    """ "(rep Row 2) but in back loops only", "in both loops", "through BLO": the loop that every stitch of it goes into."""
    begin = c.i
    c.drop("but", "work", "this", "idle")
    if c.kind in ("in", "over"):
        c.i += 1
        c.drop("the")
        if c.kind == "loop":
            loop = as_loop(str(c.t[c.i].val))
            c.i += 1
            c.drop("idle")
            if c.kind in _CLOSES:
                return (Make(id=c.id(), span=c.span(begin), stitch="sc", places="rest", at=Place(loop=loop)),) if loop != "both" else ()
    c.i = begin
    return None


_CLOSES = frozenset((".", ",", ";", "", "(", "[", ")", "turn"))


def _as_join(step: Step) -> Step:
    """A slip stitch into the row's beginning joins it."""
    if isinstance(step, Make) and step.stitch == "sl st" and step.at.where in ("first", "named"):
        return Join(id=step.id, span=step.span, to=step.at)
    return step


def one_more(c: Cursor) -> list[Step] | None:
    """ "one more row 2": once more the row named."""
    start = c.i
    if not (c.kind == "n" and c.look().kind == "more" and c.look(2).kind in ROW and c.look(3).kind == "n"):
        return None
    times = c.t[c.i].val
    c.i += 3
    rows = _numbers(c)
    if isinstance(times, int):
        c.told["rows_count"] = Sized((times * len(rows),))
    return [Refer(id=c.id(), span=c.span(start), rows=rows)]
