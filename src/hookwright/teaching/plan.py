"""The film plan: what is filmed once in full, what at speed, what is skipped, and how long it takes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from ..pattern import Chain, Colour, FastenOff, Join, Make, Pattern, Refer, Repeat, Ring, Skip, Step, Together, Turn
from ..trade.kinds import base, closes
from ..trade.terms import name as full_name
from ..working import Fabric, PartWork, RowWork

SECONDS_A_STITCH = 2.8
"""One maker's own figure, chains apart (runningwithscissorsmn.com, "How I set my prices"); a pattern's `pace` goes before it."""
CLOSE_STITCHES = 12
"""Stitches shown close before a row is worked on at speed (common practice, no source)."""
CLOSE_FACTOR, TALK_S, SKIP_S = 4.0, 12.0, 10.0
"""Slowed hands in a close shot, talk for each new action, a skipped run of rows: from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """One shot. `row` is the written row it belongs to; `rows` the worked rows it stands for, first and last label."""

    number: int
    kind: Literal["close", "speed", "skip"]
    part: str
    row: int
    """Index of the written instruction (its `Row.id`)."""
    rows: tuple[str, str]
    shows: tuple[str, ...]
    """The actions that are new here, in words; empty where nothing is new."""
    side: str
    count: str
    """What the last of its rows holds, in words."""
    seconds: float
    sample_at: str | None = None
    """The row up to which a sample must be ready before the shoot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmPlan:
    title: str
    terms: Literal["US", "UK"]
    shots: tuple[Shot, ...]

    @property
    def minutes(self) -> float:
        return sum(shot.seconds for shot in self.shots) / 60

    @property
    def shorter(self) -> tuple[Shot, ...]:
        """What a shorter cut would drop: everything shown at speed."""
        return tuple(shot for shot in self.shots if shot.kind == "speed")

    @property
    def samples(self) -> tuple[str, ...]:
        """The samples to be worked before the shoot, as "Wrap up to Row 13"."""
        return tuple(dict.fromkeys(f"{s.part or 'the piece'} up to {s.sample_at}" for s in self.shots if s.sample_at))


def film_plan(pattern: Pattern, fabric: Fabric) -> FilmPlan:
    """What to film of a worked pattern, in the order of its rows.

    An action seen for the first time (a stitch, an increase, a join, a turn, a colour change, the top of a chain …) is filmed close; the
    next row made only of known actions in a new order once at speed; a row of the same build as one shown is skipped.
    """
    shots: list[Shot] = []
    for part in fabric.parts:
        shots += _part(pattern, part, len(shots), {a for s in shots for a in s.shows})
    return FilmPlan(title=pattern.facts.title, terms=pattern.terms, shots=tuple(shots))


def _part(pattern: Pattern, part: PartWork, before: int, seen: set[str]) -> Iterator[Shot]:
    shown: set[tuple[str, ...]] = set()
    number = before
    gap = False
    last: RowWork | None = None
    for rows in _instructions(part):
        first = rows[0]
        actions = tuple(dict.fromkeys(a for s in first.written.steps for a in actions_of(s, pattern.terms)))
        new = tuple(a for a in actions if a not in seen)
        build = tuple(sorted(actions))
        refers = any(isinstance(s, Refer) for s in first.written.steps)
        kind: Literal["close", "speed", "skip"] = "close" if new else "skip" if build in shown or refers else "speed"
        number += 1
        yield Shot(
            number=number, kind=kind, part=part.name, row=first.written.id, rows=(first.label, rows[-1].label), shows=new, side=first.side,
            count=count_words(rows[-1], pattern.terms), seconds=_seconds(pattern, kind, first, rows, len(new)),
            sample_at=last.label if gap and kind != "skip" and last is not None else None,
        )  # fmt: skip
        seen.update(actions)
        shown.add(build)
        gap = kind == "skip" or len(rows) > 1
        last = rows[-1]


def _instructions(part: PartWork) -> Iterator[list[RowWork]]:
    """The worked rows of each written instruction; the foundation goes with the row it is told in."""
    group: list[RowWork] = []
    for row in part.rows:
        if row.foundation:
            continue
        if group and row.written.id != group[0].written.id:
            yield group
            group = []
        group.append(row)
    if group:
        yield group


def _seconds(pattern: Pattern, kind: str, first: RowWork, rows: list[RowWork], new: int) -> float:
    pace = pattern.facts.pace
    stitch = next((base(k) for k in first.counted.by_kind), "st")
    each = pace.get(stitch, pace.get("st", SECONDS_A_STITCH))
    if kind == "close":
        return round(TALK_S * new + min(first.counted.total, CLOSE_STITCHES) * each * CLOSE_FACTOR, 1)
    if kind == "speed":
        return round(min(first.counted.total * each, 60.0), 1)
    return SKIP_S


def actions_of(step: Step, terms: Literal["US", "UK"]) -> Iterator[str]:
    """What hands do in a step, in words, one for each thing a viewer has to see."""
    if isinstance(step, Make):
        kind = step.stitch
        plain = full_name(base(kind), terms)
        if closes(kind) > 1:
            yield f"{plain}, {closes(kind)} together"
        elif (step.each.at(0) or 0) > 1 and step.at.where not in ("ring",):
            yield f"{step.each.at(0)} {plain} in one stitch"
        else:
            yield plain if kind == base(kind) else full_name(kind, terms)
        if step.at.where == "ring":
            yield "working into the ring"
        if step.at.where == "from_hook":
            yield "the first stitch in the chain"
        if step.at.where == "named" and step.at.what.startswith("ch"):
            yield "working in the top of the chain"
        if step.at.loop != "both":
            yield f"the {step.at.loop.replace('_', ' ')} loop"
        if step.at.what.endswith("sp"):
            yield "working into a chain space"
    elif isinstance(step, Chain):
        yield "the foundation chain" if step.foundation else "chains"
    elif isinstance(step, Ring):
        yield "the ring"
    elif isinstance(step, Turn) and not step.no:
        yield "turning"
    elif isinstance(step, Join) and not step.no:
        yield "joining the round"
    elif isinstance(step, Colour):
        yield "changing colour"
    elif isinstance(step, FastenOff):
        yield "fastening off"
    elif isinstance(step, Skip):
        yield "skipping stitches"
    elif isinstance(step, Together):
        yield f"a {step.name}" if step.name else "several stitches in one place"
        for inner in step.body:
            yield from actions_of(inner, terms)
    elif isinstance(step, Repeat):
        yield "following a repeat"
        for inner in (*step.body, *step.last):
            yield from actions_of(inner, terms)


def count_words(row: RowWork, terms: Literal["US", "UK"]) -> str:
    """What a row holds as people say it: "15 double crochet, 7 chain-1 spaces"."""
    told = []
    for kind, number in row.counted.by_kind.items():
        if kind in ("ch", "sp"):
            continue
        if kind.startswith("ch-") and kind.endswith(" sp"):
            told.append(f"{number} chain-{kind[3:-3]} space{'s' if number != 1 else ''}")
        else:
            told.append(f"{number} {full_name(kind, terms)}")
    return ", ".join(told) or f"{row.counted.total} stitches"
