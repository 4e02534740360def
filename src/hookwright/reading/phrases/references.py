"""Rows that name other rows: "Repeat Row 2", "rep Rows 2 and 3", "same as 4th row but …", "repeat last 2 rows 5 times"."""

from __future__ import annotations

from dataclasses import replace
from itertools import cycle, islice

from ...pattern import Aside, Colour, Make, Refer, Repeat, Sized, Step, Together
from .as_liked import as_liked
from .changed_rows import changes_told, growth_told
from .counts_told import having
from .cursor import Cursor
from .growing import chains_between, clause
from .numbers import number, times_sign, times_word
from .references_opened import GIVEN, opens
from .row_ends import ending_row
from .row_lists import ROW, by_turns, row_numbers, row_ordinals, rows_back
from .runs_between import BETWEEN_SHAPINGS, so_many_between
from .shapes import so_many_more
from .sides import how_far, named_part, reversing, section_as
from .stripes_told import in_colours
from .untils import until

EXAMPLES = (
    ("Repeat Row 2", "as rows 2"),
    ("Rep Rows 2 and 3", "as rows 2, 3"),
    ("Rep Rows 2-5", "as rows 2, 3, 4, 5"),
    ("Repeat last 2 rows", "as last 2"),
    ("Same as 4th row", "as rows 4"),
    ("Work as for Row 3", "as rows 3"),
    ("Same as Row 2, only sc in 3 sts after each increase", "as rows 2 but sc×3@next inc between"),
    ("Work as last round, having 1 loop less on each pineapple and 1 ch more between the shells", "as last 1 growing −1 chains +1"),
)


def refer(c: Cursor) -> list[Step] | None:
    """A reference to rows; how often and until when go to what is told of the row."""
    start = c.i
    if (alone := _same_alone(c)) is not None:
        return alone
    if not any(not isinstance(step, (Aside, Colour)) for step in c.out) and (rows := rows_back(c)):
        return [Refer(id=c.id(), span=c.span(start), rows=rows)]
    earlier = c.told.get("rows_count")
    own = section_as(c) if all(isinstance(step, (Aside, Colour)) for step in c.out) else None
    sure = True if own is not None else opens(c)
    if sure is None:
        c.i = start
        return None
    begin = c.i
    if own is not None:
        c.told["part"] = own
        c.i += c.kind == "," and c.look().kind in ROW
    got = _rows(c, sure) or (((), 0) if own is not None else None)
    if got is None:
        c.i = begin
        got = _part(c)
    if got is None:
        c.i = start
        return None
    rows, last = got
    if rows and c.t[start].kind in ("as", "like") and start and c.t[start - 1].text.lower() in ("it", "them", "this", "these", "those"):
        return [Aside(id=c.id(), span=c.span(start))]  # "…, joining it as the first": how, and no row worked again
    if rows and c.t[start].kind == "as" and c.t[start + 1].kind == "in" and c.out and isinstance(c.out[-1], (Make, Together)):
        return [Aside(id=c.id(), span=c.span(start))]  # "1 double between the leaves, as in the 4th round": how it is done
    led = [token.kind for token in c.t[start : start + 3]]
    if (
        rows
        and led == ["same", "as", "in"]
        and c.out
        and isinstance(c.out[-1], (Make, Together))
        and c.t[start - 1].kind not in (",", ";", ".")
    ):
        _as_part(c)
        c.told.pop("part_unknown", None)
        return [Aside(id=c.id(), span=c.span(start))]  # "(2 dc, ch 2, 2 dc) in each corner same as on Rnd 4 of Hexagon"
    if len(rows) == 1 and any(token.kind == "from" for token in c.t[start:begin]):
        c.told["from_on"] = True  # "Repeat from 2d row": that row and those after it
    part = _as_part(c)
    if c.told.pop("part_unknown", None) and rows:
        c.i = start
        return None  # rows of a piece that is not told here: none of this piece's own
    upto = ""
    if part is not None and not rows:
        rows, upto = how_far(c)
    star = c.told.pop("star", None) is not None
    starred = (c.kind == "from" and c.look().kind in ("*", "o", "beg")) or (c.kind == "from" and c.look(2).kind == "*")
    if starred:
        star = star or any(token.kind == "*" for token in c.t[c.i : c.i + 3])
        while c.kind in ("from", "the", "*", "o", "beg"):
            c.i += 1
    in_colours(c)
    how_long(c, max(1, len(rows) or last))
    in_colours(c)
    _on_every(c)
    sized = c.told.pop("rows_of_sizes", None)
    if sized is not None and part is not None and "until" not in c.told:
        c.told.setdefault("rows_count", sized)
    exact = so_many_between(c)
    grow = None if exact else clause(c)
    longer = chains_between(c)
    if grow is not None or longer:
        how_long(c, max(1, len(rows) or last))
    if part is None and c.ctx.begins and not c.out and len(rows) > 1 and not {"rows_count", "until"} & set(c.told):
        c.told["rows_count"] = Sized((len(rows),))  # "SECOND MOTIF: Work Rows 1-4.": those rows of the piece before
    if rows and c.out and isinstance(before := c.out[-1], Refer) and before.last == 1 and not before.changes:
        c.out.pop()  # "Continue thus, alternating Rows 3 and 4": these rows, and no other before them
    having(c)
    if part is None and rows and not (exact or grow or longer or star) and _listed_on(c, rows, earlier):
        return []
    changes = exact or (() if _row_end(c) else growth_told(c) or changes_told(c, rows))
    reverse = reversing(c)
    return [
        Refer(
            id=c.id(), span=c.span(start), rows=rows, last=last, part=part, changes=changes, reverse=reverse, grow=grow or 0,
            longer=longer, from_star=star, upto=upto,
        )
    ]  # fmt: skip


def _listed_on(c: Cursor, rows: tuple[int, ...], earlier: object) -> bool:
    """Rows named behind others in the same breath ("Rows 7-14: repeat rows 2-4 twice, then rows 2 and 3"): one list of them, in order."""
    before = c.out[-1] if c.out else None
    if not isinstance(before, Refer) or not before.rows or before != Refer(id=before.id, span=before.span, rows=before.rows):
        return False
    first, now = earlier if isinstance(earlier, Sized) else Sized((len(before.rows),)), c.told.get("rows_count")
    second = now if isinstance(now, Sized) and now is not earlier else Sized((len(rows),))
    many = (first.values[0] or 0) + (second.values[0] or 0)
    if first.many or second.many or "until" in c.told or not 0 < many <= MOST_LISTED:
        return False
    listed = [*islice(cycle(before.rows), first.values[0]), *islice(cycle(rows), second.values[0])]
    c.out[-1] = replace(before, rows=tuple(listed))
    c.told["rows_count"] = Sized((many,))
    return True


MOST_LISTED = 2_000
"""Rows of one instruction that are named one by one."""


def _same_alone(c: Cursor) -> list[Step] | None:
    """ "Rows 10-12: Same.", "The same again.": as the row before."""
    start = c.i
    c.take("the")
    if not c.take("same") or any(not isinstance(step, (Aside, Colour)) for step in c.out):
        c.i = start
        return None
    c.drop("more", "idle")
    if c.kind not in (".", ";", "", "(", "[") and not (c.kind == "," and c.look().kind in ("inc", "dec")):
        c.i = start
        return None
    return [Refer(id=c.id(), span=c.span(start), last=1)]


def with_runs(c: Cursor) -> list[Step] | None:
    """ "Rnd 5: 3 sts between increases.", "again with 4 sc between incs": all that is told of the row; the rest is as in the last one that
    was shaped so."""
    start = c.i
    if any(not isinstance(step, (Aside, Colour)) for step in c.out):
        return None
    c.drop("more")
    changes = so_many_between(c)
    if not changes or (c.kind == "," and c.look().kind not in ("join", "foff", "turn") and _in_corners(changes[0])):
        c.i = start
        return None
    c.told["row_named"] = BETWEEN_SHAPINGS
    return [Refer(id=c.id(), span=c.span(start), last=1, changes=changes)]


def _in_corners(change: Step) -> bool:
    """ "6 dc between corners, 3 dc in each corner" tells a row of its own."""
    return isinstance(change, Make) and change.at.what == "corner"


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
    how_long(c, len(rows))
    if "until" not in c.told and "rows_count" not in c.told:
        c.i = start
        return None
    c.i = max(c.i, end)
    del c.told["pattern_rows"]
    return [Refer(id=c.id(), span=c.span(start), rows=rows)]


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
    bare = c.kind in _NAMES_A_ROW and not any(not isinstance(step, (Aside, Colour)) for step in c.out)  # "4th row: Loop row."
    if not bare and not c.take("rep", "work"):
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
    if again and c.kind == "until" and not any(not isinstance(step, (Aside, Colour)) for step in c.out):
        how_long(c, 1)
        if "until" in c.told:
            return [Refer(id=c.id(), span=c.span(start), last=1)]  # "Repeat until work measures 54 in."
        c.i = start
        return None
    c.drop("the", "idle", "a")
    words: list[str] = []
    while c.kind in ("inc", "dec", "w", "grp", "lp", "patt", "shaping", "even", "mesh", "puff", "color") and len(words) < 3:
        words.append(stem_of(c.t[c.i].text))
        c.i += 1
    often = c.look(2).kind in ("more", "times")
    if not words or c.kind not in ROW or (c.look().kind == "n" and not often):
        c.i = start
        return None
    c.i += 1
    if bare and c.kind not in (".", ",", ";", "", "("):
        c.i = start
        return None
    how_long(c, 1)
    if not (again or bare or c.t[c.i - 1].val in ("again", "times", "more", "once")):
        c.i = start
        return None
    c.told["row_named"] = " ".join(words)
    return [Refer(id=c.id(), span=c.span(start), last=1)]


_NAMES_A_ROW = frozenset(("lp", "grp", "puff", "mesh"))
"""What a row may be named by where nothing else is told of it."""


def stem_of(word: str) -> str:
    """A word of a row's name in the form that it is known again by."""
    low = word.lower()
    return low[:3] if low[:3] in ("inc", "dec") else "patt" if low.startswith("patt") else low


def _part(c: Cursor) -> tuple[tuple[int, ...], int] | None:
    """A piece's name where rows were looked for ("same as Front"): all its rows."""
    name = named_part(c) or _the_first(c, c.i - 1) or _the_one_above(c)
    if name is None:
        return None
    c.i += c.t[c.i].text.lower() in ("one", "version", "size")  # "as the small one"
    c.told["part"] = name
    return (), 0


def _the_one_above(c: Cursor) -> str | None:
    """ "As above (up to round 3)", where the pattern has but one other piece."""
    begun = all(isinstance(step, (Aside, Colour)) for step in c.out)
    if c.kind != "above" or not begun or not 1 <= len(c.ctx.parts) <= 2 or c.look().kind not in ("along", "to", "until", "over", "for"):
        return None
    c.i += 1
    return c.ctx.parts[0]


def _as_part(c: Cursor) -> str | None:
    """ "(1st 3 rounds) same as flower", "of Back", "for First Motif" after the rows: the piece whose rows are meant."""
    told = c.told.pop("part", None)
    if told is not None:
        return str(told)
    begin = c.i
    while c.kind in ("same", "as", "of", "for", "in", "the", "work", "on") or (c.t[c.i - 1].kind == "as" and c.t[c.i].val in GIVEN):
        c.i += 1
    found = named_part(c) or _the_first(c, begin)
    if found is None and c.i > begin and c.t[c.i].text.lower() in _SIZES_OF_PIECES:
        c.i += 1  # "of large Hexagon", where one piece of that name is told
        found = named_part(c)
    if found is None and c.i > begin and c.t[c.i - 1].kind in ("of", "on", "for", "the", "as", "in", "w") and _names_unknown(c):
        c.told["part_unknown"] = True
    if found is None:
        c.i = begin
    return found


_SIZES_OF_PIECES = frozenset("large small big little full whole main plain half medium larger smaller".split())  # noqa: SIM905


def _names_unknown(c: Cursor) -> bool:
    """A name in capitals where a piece's was looked for, and no such piece is told: "(same as Rnd 4) of Hexagon"."""
    token = c.t[c.i]
    return token.kind in ("w", "motif", "group", "piece") and token.text[:1].isupper() and len(token.text) > 2


def _the_first(c: Cursor, begin: int) -> str | None:
    """ "(Work Rnds 1-3 as for) the first": the piece that is called the first of its kind."""
    after = 1 + (c.look().text.lower() == "one")
    if c.i == begin or c.kind != "o" or c.t[c.i].val != 1 or c.look(after).kind not in (".", ",", ";", "", ")", "but"):
        return None
    found = next((name for name in c.ctx.parts if name.lower().startswith(("first ", "1st "))), None)
    if found is not None:
        c.i += after
    return found


def _rows(c: Cursor, sure: bool) -> tuple[tuple[int, ...], int] | None:
    if c.told.pop("last", None):
        return (), 1
    kind = c.kind
    if kind in ("last", "prev") and c.t[c.i - 1].kind == "as" and c.look().kind in (",", ".", ";", "", ")"):
        c.i += 1  # "3rd round: same as last."
        return (), 1
    before = kind == "before" and c.t[c.i - 1].kind == "as" and not any(isinstance(step, (Make, Together, Repeat)) for step in c.out)
    if before and _as_before(c):
        return (), 1
    if kind in ("last", "prev", "these") or (
        c.t[c.i - 1].val in ("these", "this", "last", "the")
        and (kind in ROW or (kind == "n" and (c.look().kind in ROW or _of_pattern(c, 1))) or kind == "around" or _of_pattern(c, 0))
    ):
        if kind in ("last", "prev"):
            c.i += 1
        told = number(c)
        if (words := _of_pattern(c, 0)) != 0:
            c.i += words
            c.told["of_pattern"] = True
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
            return row_numbers(c), 0
        return ((), 1) if c.t[c.i - 2].val in ("this", "last", "previous") else None
    if kind == "o":
        return row_ordinals(c)
    if kind == "over" and c.t[c.i].text.lower() in ("thru", "through") and c.look().kind in ROW and isinstance(c.look(2).val, int):
        c.i += 3  # "Repeat thru Row 2": all of them so far
        return tuple(range(1, c.t[c.i - 1].val + 1)), 0
    if kind == "n" and not sure and isinstance(c.t[c.i].val, int) and c.look().kind in (",", ".", "", ";", "("):
        return row_numbers(c), 0
    if kind == "n" and sure and isinstance(c.t[c.i].val, int) and (_to_another(c) or c.look().kind in ("-", ",", ".", "", "and")):
        return row_numbers(c), 0
    return None


def _to_another(c: Cursor) -> bool:
    """ "3 to 6": a number, and a later one behind it."""
    return c.look().kind in ("to", "over") and c.look(2).kind == "n" and isinstance(c.look(2).val, int) and c.look(2).val > c.t[c.i].val


def _of_pattern(c: Cursor, ahead: int) -> int:
    """How many words "(these 2) pattern (rows)", "patt. (rows)" takes up, so many words ahead; 0 where no row is told behind it."""
    if c.look(ahead).kind != "patt":
        return 0
    stopped = c.look(ahead + 1).kind == "."
    return 1 + stopped if c.look(ahead + 1 + stopped).kind in ROW else 0


def _as_before(c: Cursor) -> bool:
    """Past "(as) before" where that is all that is told of the row, or all but how long its plain runs are; False, unmoved, elsewhere."""
    begin = c.i
    c.i += 1
    after = c.i
    if c.kind in (".", "") or so_many_between(c):
        c.i = after
        return True
    c.i = begin
    return False


def how_long(c: Cursor, rows: int) -> None:
    """ "nine times", "3 more times", "once more", "until …", "alternately", "for …", "9 more times, then one more row 2"."""
    if c.kind == "for" and c.look().kind == "patt":
        c.i += 2  # "repeat these 2 rows for pattern"
    if c.kind == "for" and c.look().kind in ROW and c.look(2).kind == "n":
        c.i += 2
        c.told["rows_count"] = Sized((len(row_numbers(c)),))  # "repeat Row 2 for Rows 3-6"
        return
    for _ in range(5):
        if not {"rows_count", "until", "until_rows"} & c.told.keys() and rows_in_all(c):
            continue
        begin = c.i
        c.drop("alt", "idle", "again", "by")
        by_turns(c)
        c.i += _where_worked(c)
        c.drop(",", "and", "then") if c.kind in (",",) and (c.look().kind in ("until", "for", "once") or _times_ahead(c)) else None
        if (c.kind in ("n", "once", "more", "a", "for") or c.t[c.i].val in ("another", "x")) and _times(c, rows):
            continue
        got = until(c) if c.kind in ("until", "for", "to", "along") else None
        if got is not None:
            c.told["until"] = got
            continue
        if c.kind == "as" and c.look().text.lower() == "many" and (liked := as_liked(c)) is not None:
            c.out.extend(liked)  # "as many times as desired"
            continue
        if c.kind == "(" and (c.look().kind in ("more", "row", "w", "rnd", "patt") or _these_rows(c)):
            c.i = c.close.get(c.i, c.i) + 1
            continue
        if c.i == begin or c.kind not in ("alt", "until", "for", "n"):
            if c.t[c.i - 1].kind in (",", "and", "then"):
                c.i = begin
            break


def rows_in_all(c: Cursor) -> bool:
    """ "(Repeat Row 2.) 16 rows in total", "(16 rows altogether)", ", working 16 rows in all": where the rows end."""
    start = c.i
    c.take(",", ".", ";", ":", "-", "=")
    close = c.close.get(c.i) if c.kind in ("(", "[") else None
    c.take("(", "[")
    c.drop("work", "for", "a", "idle", "you", "there")
    c.i += c.t[c.i].text.lower() in ("you", "there") and c.look().text.lower() in ("have", "are", "should")
    led = bool(c.take("total"))
    told = number(c)
    if told is None or not c.take("row", "rnd") or not (c.take("total") or led):
        c.i = start
        return False
    c.drop("idle", "now")
    if (close is not None and c.i != close) or (close is None and c.kind not in (".", ",", ";", "", ")", "foff", "and")):
        c.i = start
        return False
    c.i += close is not None
    c.told["until_rows"] = told if told.many else told.values[0]
    return True


def _these_rows(c: Cursor) -> bool:
    """ "(Repeat last 2 rows) (these 2 rows form the pattern)": a bracket that says what the rows are."""
    inner = c.t[c.i + 1 : c.close.get(c.i, c.i + 1)]
    return bool(inner) and inner[0].val in ("these", "this") and any(t.kind in ROW for t in inner[:4]) and inner[-1].kind == "patt"


def _times_ahead(c: Cursor) -> bool:
    """ "(Repeat Rows 3 and 4), 5 times", "13 (15, 17) times more"."""
    k = c.i + 2
    k = c.close[k] + 1 if k in c.close else k
    more = c.t[min(k + 1, len(c.t) - 1)]
    return c.look().kind == "n" and (c.t[k].kind == "times" or (c.t[k].kind == "more" and more.kind == "times"))


def _where_worked(c: Cursor) -> int:
    """How many words ", working in each dc" takes up between a row named and how often it is worked: what that row is worked into."""
    if c.kind != "," or c.look().kind != "work" or c.look(2).kind not in ("in", "over"):
        return 0
    end = c.i + 2
    while c.t[end].kind in ("in", "over", "each", "the", "st", "noun", "of", "all"):
        end += 1
    begin, c.i = c.i, end
    goes_on = c.kind == "," and (_times_ahead(c) or c.look().kind in ("until", "for", "once"))
    c.i = begin
    return end - begin if goes_on else 0


def _times(c: Cursor, rows: int) -> bool:
    begin = c.i
    c.drop("total", "of")
    c.i += c.t[c.i].text.lower() == "another"
    so_many_more(c)
    c.drop("a", "total", "of")
    if (often := times_word(c)) is not None:
        value = Sized((often,))
    elif times_sign(c) and (told := number(c)) is not None:
        value = told  # "Rows 2 & 3 x 4"
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


def one_more(c: Cursor) -> list[Step] | None:
    """ "one more row 2": once more the row named."""
    start = c.i
    if not (c.kind == "n" and c.look().kind == "more" and c.look(2).kind in ROW and c.look(3).kind == "n"):
        return None
    times = c.t[c.i].val
    c.i += 3
    rows = row_numbers(c)
    if isinstance(times, int):
        c.told["rows_count"] = Sized((times * len(rows),))
    return [Refer(id=c.id(), span=c.span(start), rows=rows)]
