"""Rows or rounds, joined, turned or spiral: decided for the whole part from evidence, and for a row where it differs."""

from __future__ import annotations

from dataclasses import replace

from ..pattern import Join, MadeIn, Make, Ring, Row, Step, Turn
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


def decide_made_in(rows: list[Row], name: str) -> list[Row]:
    """Each row with its `made_in`."""
    if not rows:
        return rows
    if any(isinstance(step, Make) and step.stitch in TUNISIAN for row in rows for step in row.steps):
        return [replace(row, made_in="passes") for row in rows]
    base = _base(rows)
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
        out.append(row if row.made_in == kind else replace(row, made_in=kind))
    return out


def _base(rows: list[Row]) -> MadeIn:
    joins = sum(map(_joins, rows))
    turns = sum(_turns(row) and not _joins(row) for row in rows)
    both = sum(_turns(row) and _joins(row) for row in rows)
    ring = any(_rings(row) for row in rows[:3])
    rounds = sum(row.noun == "round" for row in rows)
    if any(_no_join(row) for row in rows[:3]):
        return "spiral"
    if joins and joins + both >= turns and (ring or rounds or joins > 1):
        return "joined-turned" if both * 2 > joins else "joined"
    if turns:
        return "rows"
    if rounds * 2 > len(rows) or ring:
        return "joined" if joins * 2 > len(rows) else "spiral"
    return "rows"
