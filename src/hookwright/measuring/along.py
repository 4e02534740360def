"""Edgings that are a part of their own along one side of other pieces (a border of a shawl, a neck edging, a button band): which edge the
words tell, how long it is, and the stitches that would lie flat along it."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from ..pattern import FLAT
from ..working.fabric import Fabric, How
from .edging import Border
from .measures import Measures, PartMeasures
from .outline import outer_run
from .placing import anchored_leads

EdgeName: TypeAlias = Literal["A", "B", "first row", "last row", "neck"]

SHOULDER: Final = 1 / 3
"""The share of a straight top edge that each shoulder takes where no fronts tell (common practice, no source)."""
_HALF_FRONT: Final = re.compile(r"\b(?:left|right)\s+front\b|\bfront\s*\(?\s*make\s+2|\bfronts?\b", re.I)
_NECK: Final = re.compile(r"\bneck(?:line|band)?\b", re.I)
_FRONT: Final = re.compile(
    r"\bfront (?:edge|opening)s?\b|\b(?:up|down|along) (?:the )?(?:left |right )?front\b|\bbutton(?:hole)? ?band\b", re.I
)
_SHAPED: Final = re.compile(r"\b(?:shaped|slop\w+|slant\w+|diagonal|increas\w+|curved|angled)\s(?:edge|side)s?\b", re.I)
_STRAIGHT: Final = re.compile(r"\bstraight\s(?:edge|side)s?\b", re.I)
_LONG: Final = re.compile(r"\blong(?:er|est)?\s(?:edge|side|end)s?\b", re.I)
_SHORT: Final = re.compile(r"\b(?:short(?:er|est)?|narrow)\s(?:edge|side|end)s?\b", re.I)
_FIRST: Final = re.compile(r"\b(?:bottom|lower|foundation|starting|beginning)\b(?!\s(?:corner|right|left))", re.I)
_LAST: Final = re.compile(r"\b(?:top|upper)\s(?:edge|side)\b|\blast row\b", re.I)
_SIDE: Final = re.compile(r"\bsides?(?:\s?edges?)?\b|\brow[- ]ends?\b|\bends? of (?:the )?rows\b|\bselv[ae]dge\b", re.I)
_FROM: Final = re.compile(
    r"\b(?:join|attach|begin\w*|start\w*|rejoin)\b[^,.;]*?\b(?:at|to|in|with)\b[^,.;]*[,.;]|\bright side\b|\bwrong side\b", re.I
)
"""Where the yarn is joined tells no edge: "join yarn at lower edge of Right front, work 70 sc up the front edge"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretched:
    """One edge of a piece, or a piece of it, that an edging runs along: `long_cm` of it."""

    part: int
    edge: EdgeName
    long_cm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Along:
    """An edging (index of its part) beside the edges it runs along. `told`: whether the words tell which; else `edges` are all there are.
    `rows`: each row of it beside them (beside the first of them where they are not told)."""

    part: int
    name: str
    edges: tuple[Stretched, ...]
    told: bool
    rows: tuple[Border, ...]
    wide_cm: float

    @property
    def long_cm(self) -> float:
        return sum(edge.long_cm for edge in self.edges) if self.told else 0.0

    @property
    def worst(self) -> Border | None:
        """The row furthest from lying flat; None where all do, or the edge is not told."""
        off = [row for row in self.rows if row.lies != "flat"] if self.told else []
        return max(off, key=lambda row: abs(math.log(max(row.fullness, 1e-3))), default=None)


def edgings_along(measures: Measures) -> Iterator[Along]:
    """Every part that is an edging in rows along the sides of other parts."""
    for k, part in enumerate(measures.parts):
        if _is_edging(part):
            found = _beside(k, measures)
            if found is not None:
                yield found


def _is_edging(part: PartMeasures) -> bool:
    rows = part.part.rows
    first = rows[0] if rows else None
    if first is None or first.foundation or first.made_in not in FLAT or (first.below is not None and first.below >= 0):
        return False
    feet = first.stitches.foot_how
    return bool(feet) and 2 * feet.count(int(How.SIDE)) > len(feet)


def _beside(k: int, measures: Measures) -> Along | None:
    fabric, part = measures.fabric, measures.parts[k]
    row = part.part.rows[0]
    words = fabric.pattern.source[row.written.span.start : row.written.span.end]
    hosts = [i for i, each in enumerate(measures.parts) if i != k and not each.in_rounds and not _is_edging(each) and each.width_cm > 0]
    if not hosts:
        return None
    named = _named(words, part.name, hosts, fabric)
    before = [i for i in hosts if i < k] or hosts
    where = _FROM.sub(" ", words) + " . " + part.name
    edges = tuple(_told(where, named or before[-1:], hosts, measures))
    if edges:
        rows = tuple(_rows(part, sum(edge.long_cm for edge in edges), "edge"))
        return Along(part=k, name=part.name, edges=edges, told=True, rows=rows, wide_cm=_wide(part))
    host = (named or before)[-1]
    choices = tuple(_all_edges(host, measures.parts[host]))
    rows = tuple(_rows(part, choices[0].long_cm, "edge")) if choices else ()
    return Along(part=k, name=part.name, edges=choices, told=False, rows=rows, wide_cm=_wide(part)) if choices else None


def _wide(part: PartMeasures) -> float:
    return sum(part.laid[row.index].height_cm for row in part.part.rows)


def _named(words: str, heading: str, hosts: Sequence[int], fabric: Fabric) -> list[int]:
    """The parts that the first row or the heading names, in the order told."""
    found = []
    for i in hosts:
        match = (
            re.search(rf"(?<!\w){re.escape(fabric.parts[i].name)}(?!\w)", f"{words} . {heading}", re.I) if fabric.parts[i].name else None
        )
        if match is not None:
            found.append((match.start(), i))
    return [i for _, i in sorted(found)]


def _told(where: str, named: Sequence[int], hosts: Sequence[int], measures: Measures) -> Iterator[Stretched]:
    """The edges that the words tell, or none."""
    parts = measures.parts
    fronts = [i for i in hosts if _HALF_FRONT.search(parts[i].name)]
    halves = [i for i in fronts if parts[i].copies == 2 or re.search(r"\b(?:left|right)\b", parts[i].name, re.I)]
    if _FRONT.search(where) and halves:
        mine = [i for i in named if i in halves] or halves[:1]
        for i in mine:
            neck_side, low, high = _front_and_neck(parts[i])
            yield Stretched(part=i, edge=neck_side, long_cm=low + (high if _NECK.search(where) else 0.0))
        if _NECK.search(where):
            yield from _back_neck(hosts, halves, measures)
    elif _NECK.search(where) and (halves or len([i for i in hosts if _shoulders(parts[i])]) > 1):
        for i in halves:
            neck_side, _, high = _front_and_neck(parts[i])
            yield from (Stretched(part=i, edge="neck", long_cm=high) for _ in range(parts[i].copies))
        yield from _back_neck(hosts, halves, measures)
    elif named:
        yield from _of_one(where, named[-1], parts[named[-1]])


def _of_one(where: str, i: int, part: PartMeasures) -> Iterator[Stretched]:
    """The edges of one piece that the words tell."""
    sides = [edge for edge in _all_edges(i, part) if edge.edge in ("A", "B")]
    ends = [edge for edge in _all_edges(i, part) if edge.edge in ("first row", "last row")]
    slanted = [edge for edge in sides if not part.edges[edge.edge].straight]
    from_middle = len(ends) == 1 and len(slanted) == 2  # worked from the middle of its upper edge: both sides are that edge
    shaped = _SHAPED.search(where)
    if shaped:
        yield from slanted if len(slanted) == 1 or shaped[0].lower().endswith("s") else []
    elif from_middle and (_NECK.search(where) or _LAST.search(where) or _STRAIGHT.search(where) or _LONG.search(where)):
        yield from sides
    elif _STRAIGHT.search(where):
        yield from [edge for edge in sides if edge not in slanted][:1]
    elif _LONG.search(where) or _SHORT.search(where):
        pick = max if _LONG.search(where) else min
        yield pick([*sides, *ends], key=lambda edge: edge.long_cm)
    elif _FIRST.search(where):
        yield from [edge for edge in ends if edge.edge == "first row"]
    elif _LAST.search(where):
        yield from [edge for edge in ends if edge.edge == "last row"]
    elif _SIDE.search(where):
        # one side of two that are alike; where they are not, no words tell which
        alike = len(sides) == 2 and abs(sides[0].long_cm / max(sides[1].long_cm, 1e-9) - 1) < 0.02
        yield from sides[:1] if alike or len(sides) == 1 else []


def _all_edges(i: int, part: PartMeasures) -> Iterator[Stretched]:
    """The edges of a piece worked flat: its sides, its first row unless that stands in a ring, its last."""
    for name, high in (("A", False), ("B", True)):
        long = side_cm(part, high=high)
        if long > 0:
            yield Stretched(part=i, edge="A" if name == "A" else "B", long_cm=long)
    rows = [row for row in part.part.rows if not row.foundation and row.index not in part.edging and part.laid[row.index].total_cm > 0]
    if rows and int(How.RING) not in rows[0].stitches.foot_how:
        yield Stretched(part=i, edge="first row", long_cm=part.laid[rows[0].index].total_cm)
    if rows:
        yield Stretched(part=i, edge="last row", long_cm=part.laid[rows[-1].index].total_cm)


def side_cm(part: PartMeasures, *, high: bool, above: float = -math.inf) -> float:
    """Length of edge A or B (`high`) from the height `above` on, each row reaching as far beyond the one below as its end does, whatever
    the rest of the row does: so it holds for rows that bend as well."""
    if part.in_rounds or part.tiles is not None:
        return 0.0
    run = outer_run([row for row in part.placed if row.top != row.bottom and row.index not in part.edging], high=high)
    out = anchored_leads(part.part, part.laid, high=high)
    steps = {row.index: 0.0 if (row.ledge_high if high else row.ledge_low) else out.get(row.index, 0.0) for row in run}
    ledges = sum(abs(out.get(row.index, 0.0)) for row in run if (row.ledge_high if high else row.ledge_low) and row.bottom > above + 1e-9)
    return ledges + sum(math.hypot(row.top - row.bottom, steps[row.index]) for row in run if row.bottom >= above - 1e-9)


def _front_and_neck(part: PartMeasures) -> tuple[Literal["A", "B"], float, float]:
    """Of half a front: the edge that the opening lies at, its length below the neck, and that of the neck.

    Of two shaped edges the neck is the one that goes further in by slopes; the armhole's is the one with a step first (a judgement).
    """
    name: Literal["A", "B"] = max(("A", "B"), key=lambda each: _inward(part, each))
    low = high = 0.0
    shaping = False
    for stretch in part.edges[name].stretches:
        shaping = shaping or stretch.slant_deg < -2.0
        if shaping:
            high += stretch.length_cm
        else:
            low += stretch.length_cm
    return name, low, high


def _inward(part: PartMeasures, name: str) -> float:
    """How far an edge goes in by slopes, steps left out (cm)."""
    return sum(
        stretch.length_cm * math.sin(math.radians(-stretch.slant_deg))
        for stretch in part.edges[name].stretches
        if -85.0 < stretch.slant_deg < -2.0
    )


def _shoulders(part: PartMeasures) -> bool:
    return bool(re.search(r"\bback\b|\bfront\b", part.name, re.I))


def _back_neck(hosts: Sequence[int], halves: Sequence[int], measures: Measures) -> Iterator[Stretched]:
    """The neck of whole backs and fronts: what their last row has between the shoulders."""
    parts = measures.parts
    tops = [parts[i].laid[parts[i].part.rows[-1].index].total_cm for i in halves for _ in range(parts[i].copies)]
    for i in hosts:
        if i in halves or not _shoulders(parts[i]):
            continue
        top = parts[i].laid[parts[i].part.rows[-1].index].total_cm
        yield Stretched(part=i, edge="neck", long_cm=max(0.0, top - sum(tops)) if len(tops) == 2 else top * (1 - 2 * SHOULDER))


def _rows(part: PartMeasures, along_cm: float, of: str) -> Iterator[Border]:
    """Every row of an edging beside an edge of `along_cm`."""
    if along_cm <= 0:
        return
    for row in part.part.rows:
        n, wide = row.counted.total, part.laid[row.index].total_cm
        if n and wide > 0:
            fits = n * along_cm / wide
            label = f"{part.name} {row.label}".strip()
            yield Border(index=row.index, label=label, stitches=n, along_cm=along_cm, flat_low=fits, flat_high=fits, of=of)


def said_of(along: Along, measures: Measures) -> str:
    """A sentence: where it runs, and the number that would lie flat there; of an edge that is not told, one for every edge there is."""
    part = measures.parts[along.part]
    if along.told:
        where = " and ".join(_where(edge, measures) for edge in along.edges)
        return f"It runs along {where}. {(along.worst or along.rows[0]).said}" if along.rows else f"It runs along {where}."
    row = along.rows[0]
    each = row.along_cm * row.fullness / max(row.stitches, 1)
    told = ", ".join(f"{round(edge.long_cm / each)} along {_where(edge, measures)}" for edge in along.edges)
    return f"Which edge {part.name or 'it'} runs along is not told. {row.label} has {row.stitches} stitches; flat would lie {told}."


def _where(edge: Stretched, measures: Measures) -> str:
    name = measures.parts[edge.part].name or "the piece"
    what = {"A": "edge A", "B": "edge B", "neck": "the neck"}.get(edge.edge, f"the {edge.edge}")
    return f"{what} of {name} ({edge.long_cm:.1f} cm)"
