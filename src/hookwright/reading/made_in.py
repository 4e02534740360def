"""Rows or rounds, joined, turned or spiral: decided for the whole part from evidence, and for a row where it differs."""

from __future__ import annotations

from dataclasses import replace

from ..pattern import ONE, Aside, Colour, FastenOff, Join, MadeIn, Make, Repeat, Ring, Row, Step, Together, Turn
from ..trade.kinds import TUNISIAN


def _all(steps: tuple[Step, ...]) -> list[Step]:
    found: list[Step] = []
    for step in steps:
        found.append(step)
    return found


def _joins(row: Row) -> bool:
    return any(isinstance(step, Join) and not step.no for step in row.steps)


def _no_join(row: Row) -> bool:
    return any(isinstance(step, Join) and step.no for step in row.steps)


def _turns(row: Row) -> bool:
    return any(isinstance(step, Turn) and not step.no for step in row.steps)


def _rings(row: Row) -> bool:
    return any(isinstance(step, Ring) for step in row.steps)


def decide_made_in(rows: list[Row], *, around: bool = False) -> list[Row]:
    """Each row with its `made_in`. `around`: they go on from the rounds of the part before."""
    if not rows:
        return rows
    if any(isinstance(step, Make) and step.stitch in TUNISIAN for row in rows for step in row.steps):
        return [replace(row, made_in="passes") for row in rows]
    base = _base(rows, around)
    out: list[Row] = []
    spiral = base == "spiral"
    for row in rows:
        kind = base
        if _no_join(row):
            spiral = True
            kind = "spiral"
        elif _joins(row):
            kind = "joined-turned" if _turns(row) else "joined"
            spiral = False
        elif spiral and not _turns(row):
            kind = "spiral"
        elif base in ("joined", "joined-turned", "spiral"):
            kind = "rows" if row.noun == "row" and _turns(row) and base != "joined-turned" else base
        row = row if row.made_in == kind else replace(row, made_in=kind)
        out.append(_closed(row) if kind == "joined" and not _joins(row) else row)
    return out


def _closed(row: Row) -> Row:
    """A joined round whose last words are "sl st in first st": that slip stitch joins it."""
    last = next((k for k in range(len(row.steps) - 1, 0, -1) if not isinstance(row.steps[k], (Aside, FastenOff, Colour))), None)
    step = row.steps[last] if last is not None else None
    if last is None or not isinstance(step, Make) or step.stitch != "sl st" or step.at.where != "first" or step.places != ONE:
        return row
    if not any(isinstance(one, (Make, Repeat, Together)) and getattr(one, "stitch", "") != "sl st" for one in row.steps[:last]):
        return row
    join = Join(id=step.id, span=step.span, to=step.at)
    return replace(row, steps=(*row.steps[:last], join, *row.steps[last + 1 :]))


def _base(rows: list[Row], around: bool) -> MadeIn:
    joins = sum(map(_joins, rows))
    turns = sum(_turns(row) and not _joins(row) for row in rows)
    both = sum(_turns(row) and _joins(row) for row in rows)
    ring = any(_rings(row) for row in rows[:3])
    rounds = sum(row.noun == "round" for row in rows)
    if any(_no_join(row) for row in rows[:3]):
        return "spiral"
    if joins and joins + both >= turns and (ring or rounds or around or joins > 1):
        return "joined-turned" if both * 2 > joins else "joined"
    if turns:
        return "rows"
    if rounds * 2 > len(rows) or ring or around:
        return "joined" if joins * 2 > len(rows) else "spiral"
    return "rows"
