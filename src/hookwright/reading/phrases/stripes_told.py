"""In which colours rows that are repeated are worked: "in the following color scheme: 5 rows Green, 1 row Canary, 3 rows Scarlet". Nothing
but the number of rows is asked for by it."""

from __future__ import annotations

from ...pattern import Aside, Refer, Sized, Step
from .colours import name
from .cursor import Cursor
from .numbers import times_word
from .shapes import so_many_more

EXAMPLES = (
    ("Repeat Row 2 in the following color scheme, 4 rows Green, 2 rows Canary, until there are 31 rows", "as rows 2"),
    ("sc across, turn, working in stripes of 3 rows A, 2 rows B", "sc×rest, turn"),
    ("Repeat Row 2 until there are 30 rows, working colors as follows: * 5 rows Green, 1 row Red, repeat from *", "as rows 2"),
    ("Repeat Row 3 having 2 meshes more in each row in following color sequence: * 5 rows Green, 1 row Red, repeat from *", "as rows 3"),
)

_ROW = ("row", "rnd")
_SCHEMES = frozenset("scheme sequence order arrangement stripe stripes striped combination combinations colors colours way".split())  # noqa: SIM905
_NAMED = frozenset(("w", "color", "a", "st"))
MOST_WORDS = 4
"""Words, at most, that a colour's name has."""


def in_scheme(c: Cursor) -> bool:
    """Pass over "(having 2 meshes more in each row,) working in the following color scheme, * 5 rows Green, 1 row Canary, repeat from *";
    how many rows that is goes to what is told of the row, unless an until follows. False with the cursor unmoved."""
    start = c.i
    _grown_each_row(c)
    c.take(",")
    c.take("work")
    alternating = c.kind == "alt" and c.t[c.i].text.lower() == "alternating" and c.take("alt") is not None
    c.drop("with") if alternating else None
    listed = c.i > start and c.kind == "n" and (c.look().kind in _ROW or c.look(2).kind in _ROW)
    if not listed and not _announced(c):
        c.i = start
        return False
    rows = _listed(c)
    if rows is None:
        c.i = start
        return False
    if rows and not alternating and c.kind != "until" and not (c.kind == "," and c.look().kind == "until"):
        c.told.setdefault("rows_count", Sized((rows,)))
    c.i += c.kind == "," and c.look().kind == "until"
    return True


def stripes(c: Cursor) -> list[Step] | None:
    """ "2 rows B, 2 rows A", "alternating 3 rows Sand and 1 row Sea": which rows in which colour; nothing is worked."""
    start = c.i
    from_here = _from_here_on(c)
    if from_here and c.kind != "alt":
        c.i = start
        return None
    alternating = bool(c.take("alt"))
    c.drop("with") if alternating and c.look().kind == "n" else None
    if c.kind == "n" and c.look().kind in ("row", "rnd"):
        rows = [c.t[c.i].val]
        c.i += 2
        c.drop("of", "in", "each", "with")
        if _yarn_told(c) or c.kind == "each":
            while c.kind in (",", "and", "alt", "with") and (at := 1 + (c.look().kind == "with")) and c.look(at).kind == "n":
                if c.look(at + 1).kind not in ("row", "rnd"):
                    break
                rows.append(c.look(at).val)
                c.i += at + 2
                c.drop("of", "in", "each", "with")
                if not _yarn_told(c):
                    break
            if len(rows) > 1 and start and c.t[start - 1].kind == "work" and not c.out and "rows_count" not in c.told:
                c.told["rows_count"] = Sized((sum(n for n in rows if isinstance(n, int)),))
                return [Refer(id=c.id(), span=c.span(start), last=1)]  # "Work 6 rows Gold, 6 rows Brown": on in the row before
            return [Aside(id=c.id(), span=c.span(start))]
    elif alternating and (c.kind in ("color", "w")):
        while c.kind not in (",", ";", ".", "", ")", "until"):
            c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None


def _from_here_on(c: Cursor) -> bool:
    """Past "hereafter", "from now on", "continue to", "keep" before rows that are told to alternate; False with the cursor unmoved."""
    start = c.i
    while c.t[c.i].text.lower() in _HEREAFTER and c.i - start < 4:
        c.i += 1
    return c.i > start


_HEREAFTER = frozenset("hereafter henceforth thereafter from now here on continue keep to and".split())  # noqa: SIM905


def _yarn_told(c: Cursor) -> bool:
    """Pass over a yarn's name, also the letter A."""
    if c.kind == "a" and c.t[c.i].text == "A":
        c.i += 1
        return True
    return name(c) is not None


def striped(c: Cursor) -> list[Step] | None:
    """The same told as a clause of its own, behind a row or rows whose number is told otherwise: "…, turn, working in stripes of 4 rows A,
    2 rows B", "for 28 more rows, in the following stripe sequence: 6 rows A, 2 rows B"."""
    start = c.i
    told = dict(c.told)
    bare = c.kind == "work" and c.look().kind not in ("in", "color", "change")  # "work 4 rows Green, 2 rows Canary" asks for these rows
    if bare or c.t[start - 1].kind == "*" or not in_scheme(c):
        c.i = start
        return None
    if "rows_count" not in told and not (c.out and isinstance(c.out[-1], Refer)):
        c.told.pop("rows_count", None)
    return [Aside(id=c.id(), span=c.span(start))]


def _grown_each_row(c: Cursor) -> None:
    """Past "having 2 meshes more in each row": the sum of what the rows named do."""
    begin = c.i
    c.take(",")
    if c.take("having", "with") and c.take("n"):
        c.drop("more")
        if c.take("mesh", "sp", "st", "noun", "lp", "grp", "group"):
            c.drop("more")
            if c.take("in", "on") and c.take("each") and c.take(*_ROW):
                return
    c.i = begin


def _announced(c: Cursor) -> bool:
    """Past "in the following color scheme:", "in stripes as follows:", "(working) colors as follows:"."""
    if c.kind not in ("in", "color") and not (c.kind == "change" and c.look().kind == "color"):
        return False
    c.take("in", "change")
    begin = c.i
    while c.kind in ("the", "next", "foll", "color", "patt", "as", "w", "idle", "of") and c.i - begin < 7:
        c.i += 1
    words = {t.text.lower() for t in c.t[begin : c.i]} | {str(t.val) for t in c.t[begin : c.i]}
    told = (
        bool(words & _SCHEMES)
        or any(t.kind == "color" for t in c.t[begin : c.i])
        or any(word.startswith(("color ", "colour ", "stripe ")) for word in words)
    )
    c.drop(",", ";", ":", "-")
    c.drop("work")
    return told and (c.kind == "*" or (c.kind == "n" and (c.look().kind in _ROW or c.look(2).kind in _ROW)))


def _listed(c: Cursor) -> int | None:
    """Past the list of rows: how many they are in all, 0 where that is left open; None where it is no such list."""
    total, unit, starred, open_ended, found = 0, 0, False, False, False
    while True:
        begin = c.i
        c.drop(",", ";", "and", "then")
        c.i += total > 0 and c.kind == "with" and c.look().kind == "n"
        if c.kind == "*":
            starred, unit = True, 0
            c.i += 1
        if c.kind == "rep" and starred:
            c.i += 1
            c.drop("from", "*", "the", "this", "these")
            often = times_word(c)
            if often is None and c.kind == "n" and c.look().kind in ("times", "more"):
                often = int(c.t[c.i].val)
                c.i += 1
                c.drop("more")
                c.take("times")
            so_many_more(c)
            open_ended = open_ended or often is None
            total, starred = total + unit * (often or 0), False
            continue
        rows = _item(c)
        if rows is None:
            c.i = begin
            break
        found = True
        total, unit = total + rows, unit + rows
    c.take("*") if starred else None
    return (0 if open_ended else total) if found else None


def _item(c: Cursor) -> int | None:
    """Past "5 more rows of Jockey Green", "1 row Canary": how many rows; None, the cursor anywhere, where that does not stand here."""
    if c.kind != "n" or not isinstance(rows := c.t[c.i].val, int):
        return None
    c.i += 1
    c.drop("more", "idle")
    if not c.take(*_ROW):
        return None
    c.drop("of", "in", "with", "the", "more")
    begin = c.i
    while c.kind in _NAMED and c.t[c.i].text[:1].isupper() and c.i - begin < MOST_WORDS:
        c.i += 1
        c.i += c.kind == "n" and not c.t[c.i].gap  # "CC1"
    return rows if c.i > begin else None


def in_colours(c: Cursor) -> None:
    """Pass over "in stripes of 2 rows B, 2 rows C and 2 rows A", "colours, 12 sc each round", ", 6 rows per colour": which yarn it is, and
    not what is worked."""
    if c.kind == "," and c.look().kind == "n" and c.look(2).kind in _ROW and "color" in (c.look(4).kind, c.look(5).kind):
        c.i += 5 if c.look(4).kind == "color" else 6
        return
    if c.kind == "for" and c.look().kind == "patt" and c.look(2).kind == ",":
        c.i += 2  # "repeat 2nd row for pattern, working 4 rows Green, …"
    if in_scheme(c):
        return
    if c.kind == "color":
        c.i += 1
        if (
            c.kind == ","
            and c.look().kind == "n"
            and c.look(2).kind == "st"
            and c.look(3).kind == "each"
            and c.look(4).kind in (*_ROW, "around")
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
