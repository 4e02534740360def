"""Rows or rounds, joined, turned or spiral: decided for the whole part from evidence, and for a row where it differs."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple, get_args

from ..pattern import ONE, Aside, Colour, FastenOff, Join, MadeIn, Make, Refer, Repeat, Ring, Row, Step, Together, Turn, once
from ..pattern.once import Once
from ..trade.kinds import TUNISIAN


class _Signs(NamedTuple):
    """What a row's steps show of how it is made."""

    joins: bool
    no_join: bool
    turns: bool
    rings: bool
    tunisian: bool


@once
def _signs(steps: tuple[Step, ...]) -> _Signs:
    joins = no_join = turns = rings = tunisian = False
    inside = sum(type(step) is Turn for step in steps) > 1 and _turned_inside(steps)
    for step in steps:
        if isinstance(step, Join):
            joins, no_join = joins or not step.no, no_join or step.no
        elif isinstance(step, Turn):
            turns = turns or not (step.no or inside)
        elif isinstance(step, Ring):
            rings = True
        elif isinstance(step, Make):
            tunisian = tunisian or step.stitch in TUNISIAN
    return _Signs(joins, no_join, turns, rings, tunisian)


def _turned_inside(steps: tuple[Step, ...]) -> bool:
    """Whether the row's turns are pairs in the middle of its stitches: a scallop worked to and fro, no end of the row."""
    turns = [k for k, step in enumerate(steps) if isinstance(step, Turn)]
    works = [k for k, step in enumerate(steps) if isinstance(step, (Make, Repeat, Together))]
    return bool(turns) and len(turns) % 2 == 0 and bool(works) and works[0] < turns[0] and turns[-1] < works[-1]


def decide_made_in(rows: list[Row], *, around: bool = False, turned: bool = False) -> list[Row]:
    """Each row with its `made_in`. `around`: they go on from the rounds of the part before; `turned`: prose says that rows are turned."""
    if not rows:
        return rows
    signs = [_signs(row.steps) for row in rows]
    if any(sign.tunisian for sign in signs):
        return [_MADE["passes"](row) for row in rows]
    base = _base(rows, signs, around, turned)
    out: list[Row] = []
    spiral = base == "spiral"
    before_rounds = _rows_before_rounds(rows, signs)
    for k, (row, sign) in enumerate(zip(rows, signs, strict=True)):
        kind = base
        if sign.no_join:
            spiral = True
            kind = "spiral"
        elif sign.joins:
            kind = "joined-turned" if sign.turns else "joined"
            spiral = False
        elif spiral and not sign.turns and not (row.noun == "row" and out and out[-1].made_in == "rows"):
            kind = "spiral"
        elif base in ("joined", "joined-turned", "spiral"):
            to_and_fro = sign.turns or (bool(out) and out[-1].made_in == "rows")  # once it is worked to and fro, it is so on
            kind = "rows" if k < before_rounds or (row.noun == "row" and to_and_fro and base != "joined-turned") else base
        row = row if row.made_in == kind else _MADE[kind](row)
        out.append(_closed(row) if kind == "joined" and not sign.joins else row)
    return out


def _making(kind: MadeIn) -> Once[Row, Row]:
    return once(lambda row: replace(row, made_in=kind))


_MADE = {kind: _making(kind) for kind in get_args(MadeIn)}
"""A row made so: the same one, each time it is."""


def _rows_before_rounds(rows: list[Row], signs: list[_Signs]) -> int:
    """How many rows come before the first that is called a round, where they are turned and none joins (a mat before its border)."""
    n = next((k for k, row in enumerate(rows) if row.noun != "row"), 0)
    return n if any(sign.turns for sign in signs[:n]) and not any(sign.joins for sign in signs[:n]) else 0


@once
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


def _told_as_rounds(rows: list[Row]) -> bool:
    """ "SECOND WHEEL: Work same as First Wheel through Rnd 1. Rnd 2: …": a piece begun as another, and gone on with in rounds."""
    first = next((step for step in rows[0].steps if not isinstance(step, (Aside, Colour))), None)
    return isinstance(first, Refer) and bool(first.part) and rows[0].noun == "row" and len(rows) > 1 and rows[1].noun == "round"


def _rows_after_rounds(rows: list[Row], signs: list[_Signs]) -> bool:
    """Whether rounds come first, none of them turned, and then what is called rows: a bonnet's crown and its sides."""
    first = next((k for k, row in enumerate(rows) if row.noun == "round"), 0)
    founded = all(any(isinstance(step, Ring) for step in row.steps) for row in rows[:first])
    n = next((k for k in range(first, len(rows)) if rows[k].noun == "row"), 0)
    rounds = sum(row.noun == "round" for row in rows)
    return founded and 1 < n - first == rounds and not any(sign.turns for sign in signs[:n])


def _base(rows: list[Row], signs: list[_Signs], around: bool, turned: bool) -> MadeIn:
    joins = sum(sign.joins for sign in signs)
    turns = sum(sign.turns and not sign.joins for sign in signs)
    both = sum(sign.turns and sign.joins for sign in signs)
    ring = any(sign.rings for sign in signs[:3])
    rounds = sum(row.noun == "round" for row in rows) + _told_as_rounds(rows)
    if any(sign.no_join for sign in signs[:3]):
        return "spiral"
    if joins and joins + both >= turns and (ring or rounds or around or joins > 1):
        return "joined-turned" if both * 2 > joins else "joined"
    if turns and not joins and _rows_after_rounds(rows, signs):
        return "spiral"
    if turns or (turned and not (joins or rounds)):
        return "rows"
    if rounds * 2 > len(rows) or ring or around:
        return "joined" if joins * 2 > len(rows) or _told_as_rounds(rows) else "spiral"
    return "rows"
