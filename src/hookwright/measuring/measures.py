"""Everything arithmetic can say about a worked fabric: sizes of stitches, rows and parts; outline and edges; how rounds lie."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from ..pattern import FLAT
from ..working.fabric import Fabric, How, PartWork, RowWork, Stitches
from .bias import Bias, bias_of
from .edging import Border, borders_of
from .elements import Laid, Layer
from .outline import Edge, Point, edge_of, polygon_area, trace
from .placing import Placed, place_rows
from .rounds import Lies, RoundsMeasure, measure_rounds
from .scale import Scale, scale_of
from .silhouette import silhouette
from .tiles import IN_BLOCKS, Tiles, block_cm, tiles_of


@dataclass(frozen=True, slots=True, kw_only=True)
class RowMeasure:
    """One row. `width_cm` along the row (a round's girth); `area_cm2` of the row as fabric; `stitch_area_cm2` of its stitches alone.

    `areas_cm2`: area of the stitches by exact kind, adding up to `stitch_area_cm2` (chains are not in it: `chain_cm` is their length).
    """

    index: int
    label: str
    number: int | None
    stitches: int
    width_cm: float
    height_cm: float
    area_cm2: float
    stitch_area_cm2: float
    areas_cm2: Mapping[str, float]
    chain_cm: float


class PartMeasures:
    """One part, one copy of it. Outline, edges and rounds are worked out when first asked for.

    `width_cm` runs along the rows, `length_cm` across them; of a piece worked from corner to corner both are sides, its rows lean between.
    """

    def __init__(self, part: PartWork, scale: Scale, layer: Layer) -> None:
        self.part = part
        self.scale = scale
        self.laid: tuple[Laid, ...] = layer.part(part)
        self.tiles: Tiles | None = _tiles(part, scale)
        """Its blocks, where it is worked from corner to corner."""
        rows = _measure_rows(part, self.laid, scale)
        self.rows: tuple[RowMeasure, ...] = rows if self.tiles is None else tuple(_diagonal(row, self.tiles) for row in rows)

    @property
    def name(self) -> str:
        return self.part.name

    @property
    def copies(self) -> int:
        return self.part.copies

    @cached_property
    def in_rounds(self) -> bool:
        """Whether most of its rows are rounds."""
        worked = [row for row in self.part.rows if not row.foundation]
        return 2 * sum(row.made_in not in FLAT for row in worked) > len(worked)

    @cached_property
    def edging(self) -> frozenset[int]:
        """Rows worked along row ends, and rounds that go all round rows: they stand round the piece, not on top of it (a part that begins
        so goes round another)."""
        return self.around | {row.index for row in self._own_rows if _along_row_ends(row)}

    @cached_property
    def around(self) -> frozenset[int]:
        """The closed rounds that go all round a piece worked in rows: along its row ends or told without a place, and those on them."""
        found: set[int] = set()
        for row in self._own_rows if not self.in_rounds else ():
            if row.made_in not in FLAT and (row.below in found or _leaves_the_row(row)):
                found.add(row.index)
        return frozenset(found)

    @property
    def chain_alone_cm(self) -> float:
        """The length of a part that is nothing but a chain (a tie, a cord); 0 of any other."""
        rows = self.part.rows
        return sum(row.width_cm for row in self.rows) if rows and all(row.foundation for row in rows) else 0.0

    @cached_property
    def _own_rows(self) -> tuple[RowWork, ...]:
        """Its rows from the first that stands on something of its own."""
        worked = [row for row in self.part.rows if not row.foundation]
        begins = next((k for k, row in enumerate(worked) if not _along_row_ends(row)), len(worked))
        return tuple(worked[begins:])

    @cached_property
    def placed(self) -> tuple[Placed, ...]:
        """Rows in place, for a part worked flat."""
        return place_rows(self.part, self.laid)

    @cached_property
    def rounds(self) -> RoundsMeasure | None:
        """How its rounds grow and lie; None for a part worked flat."""
        return measure_rounds(self.part, self.laid, self.scale) if self.in_rounds else None

    @cached_property
    def lies(self) -> Lies:
        """How it lies; a part worked flat lies flat by this arithmetic."""
        if self.rounds is not None:
            return self.rounds.lies
        return "flat" if any(row.width_cm for row in self.rows) else "unknown"

    @cached_property
    def width_cm(self) -> float:
        """The widest row; of a flat round piece its diameter (of an oval the longer), of a tube or a cup half its girth (laid double)."""
        if self.tiles is not None:
            return self.tiles.columns * self.tiles.side_cm
        if self.rounds is None:
            rows = (row.width_cm for row in self.rows if row.index not in self.edging and row.height_cm)
            return self.chain_alone_cm or max(rows, default=0.0)
        flat = self.lies in ("flat", "ruffles")
        if flat and self.rounds.spine_cm:
            return self.rounds.spine_cm + self.rounds.ends_cm
        return self.rounds.diameter_cm if flat else self.rounds.girth_cm / 2

    @cached_property
    def length_cm(self) -> float:
        """From the first row's foot to the highest row's top; of rounds the reach from the middle, or the diameter of a flat piece."""
        if self.tiles is not None:
            return self.tiles.lines * self.tiles.side_cm
        if self.rounds is None:
            rows = [row for row in self.placed if row.index not in self.edging]
            return max((row.top for row in rows), default=0.0) - min((row.top for row in rows), default=0.0)
        return self.rounds.diameter_cm if self.lies == "flat" else self.rounds.rounds[-1].reach_cm

    @cached_property
    def outline(self) -> tuple[Point, ...]:
        """The outline of a part worked flat, from edge A (u = 0 at Row 1) to edge B; empty for rounds."""
        if self.tiles is not None:
            return self.tiles.outline()
        return () if self.in_rounds else trace(self.placed, self.edging)

    @cached_property
    def edges(self) -> Mapping[str, Edge]:
        """The edges A (where Row 1 begins) and B (where it ends) of a part worked flat; none of one worked from corner to corner."""
        if self.tiles is not None:
            return {}
        rows = [row for row in self.placed if row.index not in self.edging] if not self.in_rounds else []
        return {"A": edge_of(rows, high=False), "B": edge_of(rows, high=True)}

    @cached_property
    def bias(self) -> Bias:
        """How far its columns wander sideways."""
        return bias_of(self.part.rows, self.laid, self.scale)

    @cached_property
    def borders(self) -> tuple[Border, ...]:
        """Runs of stitches worked along its row ends, each with the number that would lie flat."""
        return () if self.in_rounds or self.tiles is not None else tuple(borders_of(self._own_rows, self.edges, self.scale))

    @property
    def area_cm2(self) -> float:
        """Area of the fabric: rows one by one."""
        return sum(row.area_cm2 for row in self.rows)

    @cached_property
    def surface_cm2(self) -> float:
        """Area of the fabric as it lies or stands: of rounds between the girths they begin and end with (their stitches, as wide at the
        foot as at the top by gauge, would take up to a stitch's height all round more)."""
        if self.rounds is None:
            return self.area_cm2
        girths = [self.rounds.start_girth_cm, *(each.girth_cm for each in self.rounds.rounds)]
        return sum((a + b) / 2 * each.height_cm for (a, b), each in zip(pairwise(girths), self.rounds.rounds, strict=True))

    @property
    def outline_area_cm2(self) -> float:
        """Area inside the outline."""
        return polygon_area(self.outline)

    def a_stands_right(self, *, left_handed: bool = False) -> bool:
        """Whether edge A stands at the right, seen with the right side up and Row 1 at the bottom."""
        first = next((row for row in self.part.rows if not row.foundation), None)
        return (first is None or first.side == "RS") != left_handed

    def right_side_outline(self, *, left_handed: bool = False) -> tuple[Point, ...]:
        """The outline as seen with the right side up, Row 1 at the bottom, shifted to begin at (0, 0); of rounds their silhouette.

        A right-hander works a right-side row towards the left, so edge A then stands at the right.
        """
        if self.rounds is not None:
            return tuple((round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in silhouette(self.rounds))
        mirrored = left_handed if self.tiles is not None else self.a_stands_right(left_handed=left_handed)
        points = [(-u if mirrored else u, v) for u, v in self.outline]
        if not points:
            return ()
        left, bottom = min(x for x, _ in points), min(y for _, y in points)
        return tuple((round(x - left, 3) + 0.0, round(y - bottom, 3) + 0.0) for x, y in (reversed(points) if mirrored else points))


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """All parts of a fabric, measured by one scale. `assumed`: what had to be taken for granted, a sentence each."""

    fabric: Fabric
    scale: Scale
    parts: tuple[PartMeasures, ...]
    assumed: tuple[str, ...]

    @property
    def area_cm2(self) -> float:
        """Area of the whole piece, copies counted."""
        return sum(part.area_cm2 * part.copies for part in self.parts)


def measure(fabric: Fabric, *, blocked: bool | None = None) -> Measures:
    """Measure a fabric by its own gauge, or by the trade's ratios where it gives none (then said in `assumed`).

    `blocked`: True or False takes the gauge measured so, when both are given; None the first. Never raises.
    """
    scale = scale_of(fabric, blocked=blocked)
    layer = Layer(scale)
    parts = tuple(PartMeasures(part, scale, layer) for part in fabric.parts)
    told = fabric.pattern.facts.motif_cm
    of_blocks = _of_blocks(scale, parts, fabric)
    if of_blocks is not None:
        scale, layer = of_blocks, Layer(of_blocks)
        parts = tuple(PartMeasures(part, scale, layer) for part in fabric.parts)
    elif told and not scale.own:
        fitted = _to_motif(scale, parts, told)
        if fitted is not None:
            scale, layer = fitted, Layer(fitted)
            parts = tuple(PartMeasures(part, scale, layer) for part in fabric.parts)
    return Measures(fabric=fabric, scale=scale, parts=parts, assumed=scale.assumed)


def _of_blocks(scale: Scale, parts: Sequence[PartMeasures], fabric: Fabric) -> Scale | None:
    """The scale of pieces worked from corner to corner: a block of the size told, else said to be taken from the stitches."""
    tiled = next((part.tiles for part in parts if part.tiles is not None), None)
    if tiled is None:
        return None
    facts = fabric.pattern.facts
    told = next((gauge.width_cm for gauge in facts.gauge if gauge.stitch.lower() in IN_BLOCKS and gauge.stitches > 0), facts.motif_cm)
    if not told:
        why = f"a block is taken as {tiled.side_cm:.2f} cm: its stitches' width and height evened out, no gauge of blocks given"
        return replace(scale, assumed=(*scale.assumed, why))
    if scale.own:
        return replace(scale, tile_cm=told)
    because = f"the gauge is told in blocks of {told:.2f} cm: all stitches are scaled to it"
    return replace(scale, unit_cm=scale.unit_cm * told / tiled.side_cm, tile_cm=told, assumed=(because, *scale.assumed[1:]))


def _tiles(part: PartWork, scale: Scale) -> Tiles | None:
    found = tiles_of(part.rows, 1.0)
    if found is None:
        return None
    tile = found.tiles[0]
    kind = next(row for row in part.rows if row.index == tile.row).stitches.name(tile.stitches[0])
    return replace(found, side_cm=scale.tile_cm or block_cm(scale.width_cm(kind), scale.height_cm(kind)))


def _diagonal(row: RowMeasure, tiles: Tiles) -> RowMeasure:
    """A row of blocks: as long as their diagonals, half a diagonal apart from the next."""
    many, side = len(tiles.of_row(row.index)), tiles.side_cm
    if not many:
        return row
    return replace(row, width_cm=many * side * math.sqrt(2), height_cm=side / math.sqrt(2), area_cm2=many * side**2)


def _to_motif(scale: Scale, parts: Sequence[PartMeasures], told_cm: float) -> Scale | None:
    """The scale by which the motif comes out at the size told for it: a gauge told as "each motif measures 4 in"."""
    motif = next((part for part in parts if part.copies > 1 and part.in_rounds), None) or next((p for p in parts if p.in_rounds), None)
    if motif is None or motif.rounds is None or not motif.rounds.diameter_cm > 0:
        return None
    times = told_cm / motif.rounds.diameter_cm
    if not 0.2 < times < 5:
        return None
    because = f"the gauge is told as the size of {motif.name or 'the motif'}, {told_cm:.1f} cm across: all stitches are scaled to it"
    return replace(scale, unit_cm=scale.unit_cm * times, assumed=(because, *scale.assumed[1:]))


def _measure_rows(part: PartWork, laid: Sequence[Laid], scale: Scale) -> tuple[RowMeasure, ...]:
    areas: dict[int, dict[str, float]] = {}
    return tuple(_measure_row(row, laid[row.index], scale, areas) for row in part.rows)


def _measure_row(row: RowWork, laid: Laid, scale: Scale, areas: dict[int, dict[str, float]]) -> RowMeasure:
    key = id(row.stitches)
    if key not in areas:
        areas[key] = {} if row.foundation else _areas(row.stitches, scale)
    stitch_area = sum(areas[key].values())
    return RowMeasure(
        index=row.index, label=row.label, number=row.number, stitches=row.counted.total, width_cm=laid.total_cm, height_cm=laid.height_cm,
        area_cm2=laid.total_cm * laid.height_cm, stitch_area_cm2=stitch_area, areas_cm2=areas[key],
        chain_cm=laid.total_cm if row.foundation else laid.chain_cm,
    )  # fmt: skip


def _areas(st: Stitches, scale: Scale) -> dict[str, float]:
    by_kind: defaultdict[str, int] = defaultdict(int)
    for i in st.counted():
        by_kind[st.name(i)] += 1
    return {kind: n * scale.area_cm2(kind) for kind, n in by_kind.items()}


def yarn_of(row: RowWork) -> str:
    """The yarn of a row's first stitch (the row may say it begins with the one before, and change at once)."""
    st = row.stitches
    first = next(st.counted(), None)
    return (st.colours[st.colour[first]] if first is not None else "") or row.yarn


def _along_row_ends(row: RowWork) -> bool:
    how = row.stitches.foot_how
    return bool(how) and 2 * how.count(int(How.SIDE)) > len(how)


def _leaves_the_row(row: RowWork) -> bool:
    """Whether most stitches of a round stand on no stitch of the row before it."""
    st = row.stitches
    made = [*st.counted()]
    return 2 * sum(all(how == How.SIDE for _, _, how in st.feet_of(i)) for i in made) > len(made)
