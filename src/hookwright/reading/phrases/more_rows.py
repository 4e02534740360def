"""More rows of the same: "Work 5 more rows in same manner", "continue for 6 more rows", "work 4 rows like Row 2"."""

from __future__ import annotations

from ...pattern import Colour, Even, Refer, Step
from . import colours
from .cursor import Cursor
from .growing import clause
from .numbers import number
from .row_lists import ROW
from .shaping_rows import keep_rows
from .untils import until

EXAMPLES = (
    ("Work 5 more rows in same manner", "as last 1"),
    ("Continue for 6 more rows", "as last 1"),
    ("Make 4 rows like Row 2", "as rows 2"),
    ("Work 3 more rows the same way", "as last 1"),
    ("Proceed with similar rows until 40 rows are worked", "as last 1"),
    ("Work 3 more rounds having 1 more sc between increases on each round", "as last 1 growing +1"),
    ("Work mesh over mesh", "even"),
)

_MANNERS = frozenset("same this manner way fashion the alike like in that thus similarly last preceding previous".split())  # noqa: SIM905
_ENDS = frozenset((".", ";", ",", "", "(", ")", "["))


_ALIKE = frozenset(("similar", "like", "such"))


def proceed(c: Cursor) -> list[Step] | None:
    """ "Proceed with similar rows until 40 rows are worked", "proceed as 2d row until …", "go on with such rows": an older "continue"."""
    start = c.i
    said = c.t[c.i].text.lower()
    on = c.look().text.lower() == "on"
    alike = c.look(1 + on).kind == "with" and c.look(2 + on).text.lower() in _ALIKE
    if said not in ("proceed", "proceeding") and not ((c.kind == "cont" or said == "go") and alike):
        return None
    c.i += 1 + on
    if c.kind == "with" and c.look().text.lower() in _ALIKE and c.look(2).kind in ROW:
        c.i += 3
        got: list[Step] | None = [Refer(id=c.id(), span=c.span(start), last=1)]
    else:
        from .references import refer

        got = refer(c)
    if got is None:
        c.i = start
        return None
    end = until(c) if c.kind == "until" and "until" not in c.told else None
    if end is not None:
        c.told["until"] = end
    return got


def mesh_over_mesh(c: Cursor) -> list[Step] | None:
    """ "Work mesh over mesh", "make 3 more rnds of meshes", "mesh over mesh": on in the open work below."""
    start = c.i
    c.i += c.kind != "mesh"
    told = number(c)
    c.take("more")
    rows = told is not None and bool(c.take(*ROW))
    c.drop("more")
    if rows:
        c.take("of", "in")
    meshes = c.kind == "mesh" or (c.kind == "sp" and not rows)
    c.i += meshes
    over = meshes and c.kind == "over" and c.look().kind in ("mesh", "sp")
    c.i += 2 * over
    if not meshes or not (over or rows) or c.kind not in _ENDS or c.out:
        c.i = start
        return None
    if told is not None and rows:
        c.told["rows_count"] = told
    return [Even(id=c.id(), span=c.span(start))]


def more_rows(c: Cursor) -> list[Step] | None:
    """So many rows as the one before, or as the one named; None with the cursor unmoved."""
    start = c.i
    going_on = c.kind == "cont"
    c.i += 1
    if going_on:
        _manner(c)
        if not c.take("for"):
            c.take("work")
    another = c.t[c.i].text.lower() == "another"
    c.drop("the", "idle")
    told = number(c)
    more = bool(c.take("more")) or another
    if told is None or not c.take(*ROW):
        c.i = start
        return None
    more = bool(c.take("more")) or more
    rows = _named(c)
    same = _manner(c)
    grow = _growing(c)
    colour = _in_colour(c) if more and not grow else []
    if c.kind not in _ENDS | {"join", "foff"} or not (rows or same or grow or colour or another or (going_on and more)):
        c.i = start
        return None
    step: Step = Refer(id=c.id(), span=c.span(start), rows=rows, last=0 if rows else 1, grow=grow)
    if not (rows or same or grow or going_on):
        step = Even(id=step.id, span=step.span)  # "work another 3 rounds", "6 rows more in White"
    keep_rows(c, step, told)
    return [*colour, step]


def _growing(c: Cursor) -> int:
    """By how much the plain runs grow in each of them: "having 1 more sc between increases on each round"; 0, unmoved, where none do."""
    begin = c.i
    c.drop(",", "idle")
    c.i += c.kind == "each" and c.look().kind in ("having", "with")
    grow = clause(c) or 0
    if not grow:
        c.i = begin
    return grow


def _in_colour(c: Cursor) -> list[Step]:
    """ "(6 rows more) in White", "with Rust": the yarn for all of them."""
    begin = c.i
    if c.kind in ("in", "with") and (got := colours.colour(c)) is not None and all(isinstance(step, Colour) for step in got):
        return got
    c.i = begin
    return []


def _manner(c: Cursor) -> bool:
    """Past "in same manner", "the same way", "alike"."""
    begin = c.i
    while (c.t[c.i].text.lower() in _MANNERS or c.kind == "the") and c.kind not in _ENDS and c.look().kind not in ROW:
        c.i += 1
    if c.kind in ROW and c.t[c.i - 1].kind in ("last", "prev"):
        c.i += 1
    said = {t.text.lower() for t in c.t[begin : c.i]}
    if c.i > begin and said & {"same", "manner", "way", "fashion", "alike", "thus", "similarly", "last", "preceding", "previous"}:
        return True
    c.i = begin
    return False


def _named(c: Cursor) -> tuple[int, ...]:
    """Past "like Row 2", "as Row 2", "same as Row 2"."""
    begin = c.i
    c.drop("same")
    if c.kind == "as" and c.look().kind in ROW and c.look(2).kind == "n" and isinstance(c.look(2).val, int):
        c.i += 3
        return (int(c.t[c.i - 1].val),)
    c.i = begin
    return ()
