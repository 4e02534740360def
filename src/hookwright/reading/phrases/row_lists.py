"""Rows in a list: "2, 3 and 4", "2-5 and 8", "2nd and 3rd rows", "1st 4 rows"."""

from __future__ import annotations

from ...pattern import Sized
from .cursor import Cursor

ROW = frozenset(("row", "rnd"))


def is_row(c: Cursor, ahead: int) -> bool:
    """Whether a row or a round is named so many words ahead."""
    return c.look(ahead).kind in ROW or c.look(ahead).val == "round"


def one_row(c: Cursor) -> int | None:
    """The number of one row: "(as in) the 4th row", "round 4"; None with the cursor unmoved where none is told."""
    start = c.i
    c.take("the")
    if c.kind == "o" and is_row(c, 1):
        told = c.t[c.i].val
    elif is_row(c, 0) and c.look().kind == "n":
        told = c.look().val
    else:
        told = None
    c.i = c.i + 2 if isinstance(told, int) else start
    return told if isinstance(told, int) else None


def by_turns(c: Cursor) -> bool:
    """Past "in turn", "(by) turns", "over and over (again)", "again and again" behind rows named: each of them, over and over."""
    begin = c.i
    words = tuple(c.t[min(k, len(c.t) - 1)].text.lower() for k in range(c.i, c.i + 4))
    if words[0] == "turns":
        c.i += 1
    elif words[:2] in (("in", "turn"), ("in", "turns"), ("by", "turns"), ("in", "alternation"), ("in", "rotation")):
        c.i += 2
    elif words[:3] in (("over", "and", "over"), ("again", "and", "again"), ("turn", "by", "turn"), ("turn", "and", "turn")):
        c.i += 3 + (words[3] in ("again", "about"))
    return c.i > begin


def rows_back(c: Cursor) -> tuple[int, ...]:
    """ "(Work) from 7th row back to 1st row", "back from Row 7 to Row 1", "rows 1 to 7 in reverse order": those rows, the last one first;
    () with the cursor unmoved."""
    start = c.i
    back = False
    while c.kind in ("work", "rep", "then", "reversing", "back", "idle", "the") or c.t[c.i].text.lower() in _FOLLOWING:
        back = back or c.kind in ("back", "reversing") or c.t[c.i].text.lower() in _BACKWARDS
        c.i += 1
    c.drop("from", "the")
    first, named = _numbered(c)
    back = _backwards(c) or back
    led = bool(c.take("to", "over", "-"))
    c.take("the")
    last, named_too = _numbered(c) if led else (0, False)
    c.i += c.t[c.i].text.lower() in ("inclusive", "incl")
    back = _backwards(c) or back
    if not (first and last and (named or named_too) and (back or first > last)) or first == last or c.kind not in _CLOSE:
        c.i = start
        return ()
    high, low = max(first, last), min(first, last)
    return tuple(range(high, low - 1, -1)) if high - low <= _MOST_BACK else ()


_FOLLOWING = frozenset("follow continue proceed reverse backward backwards".split())  # noqa: SIM905
_BACKWARDS = frozenset(("backward", "backwards"))
_CLOSE = frozenset((".", ",", ";", "", "(", ")"))
_MOST_BACK = 2000


def _numbered(c: Cursor) -> tuple[int, bool]:
    """One end of a range of rows, "7th", "7th row", "Row 7", and whether it says that it is a row; 0 where none stands here."""
    row = bool(c.take(*ROW))
    told = c.take("o", "n")
    row = bool(told is not None and told.kind == "o" and c.take(*ROW)) or row
    return (told.val, row) if told is not None and isinstance(told.val, int) else (0, False)


def _backwards(c: Cursor) -> bool:
    """Past "back", "backwards", "in reverse (order)"."""
    start = c.i
    c.take("in")
    if c.take("reversing", "back") or c.t[c.i].text.lower() in _BACKWARDS:
        c.i += c.t[c.i].text.lower() in _BACKWARDS
        c.i += c.t[c.i].text.lower() == "order"
        return True
    c.i = start
    return False


def row_numbers(c: Cursor) -> tuple[int, ...]:
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
            or c.look().kind in ("times", "st", "noun", "ch", "grp", "inc", "dec", "lp", "sp", "mesh")
            or (c.look().kind == "more" and c.look().val != "again")
            or (joined and c.look().kind in ROW)  # "row 2, 6 rows per color"
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
        if through and found[-1] == value:
            _for_every_size(c, found)
    return tuple(found)


def _for_every_size(c: Cursor, found: list[int]) -> None:
    """ "Rows 2-20 (22, 24)": the rows up to the last of any size; how many each size has is told of the row at hand."""
    close, sizes = c.close.get(c.i), c.ctx.sizes
    if c.kind not in ("(", "[") or sizes < 2 or close is None:
        return
    values = [token.val for token in c.t[c.i + 1 : close] if token.kind == "n"]
    plain = all(token.kind in ("n", ",", "/", ";") for token in c.t[c.i + 1 : close])
    if not plain or len(values) != sizes - 1 or not all(isinstance(value, int) and value >= found[0] for value in values):
        return
    first, last = found[0], found[-1]
    c.told["rows_of_sizes"] = Sized(tuple(value - first + 1 for value in (last, *values)))
    found[:] = [*found, *range(last + 1, max(last, *values) + 1)]
    c.i = close + 1


def row_ordinals(c: Cursor) -> tuple[tuple[int, ...], int] | None:
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
