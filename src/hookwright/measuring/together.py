"""Parts put together: motifs in a blanket, sewn bags and tubes, garments, bodies on their bases, borders round it all."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from ..working.fabric import Fabric, PartWork, SeamWork
from .along import Along, edgings_along
from .border import RoundBorder, border_round, goes_round_an_edge
from .edging import Border
from .elements import Layer
from .garments import armhole_cm, closed_on_top, neck_edge_cm, neck_pieces_of, sleeve_top_cm, sleeves_of
from .measures import Measures, PartMeasures
from .scale import Scale
from .sewn_on import SewnOn, sewn_on

Kind: TypeAlias = Literal["blanket", "bag", "tube", "cushion", "garment", "vessel", "bordered", "sewn on"]

ADDS: Final = frozenset({"sc", "hdc", "dc", "tr"})
"""Joinings that add the height of their stitch where they lie flat (common practice, no source)."""
MATCH: Final = 0.05
"""Edges sewn together that differ by more than this must be eased in, and that is said (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembled:
    """One thing made of parts (indices into the fabric's parts), laid flat: `width_cm` x `length_cm`, its border included.

    `girth_cm` and `height_cm` of what goes round a body, a head or a void. `pitch_cm`: from motif to motif across and down. `border` goes
    round it; `misfits` are edges and numbers that do not match; `because` is how each figure comes about; `merged` the parts worked on from
    each other as the one piece they are.
    """

    kind: Kind
    parts: tuple[int, ...]
    names: tuple[str, ...]
    width_cm: float
    length_cm: float
    area_cm2: float
    because: tuple[str, ...]
    girth_cm: float | None = None
    height_cm: float | None = None
    rows: int | None = None
    across: int | None = None
    pitch_cm: tuple[float, float] | None = None
    corners: int = 0
    border: RoundBorder | None = None
    border_part: int | None = None
    borders: tuple[int, ...] = ()
    """The parts that go round it, innermost first; `border_part` is the last of them (None of rounds in the part that they go round)."""
    edgings: tuple[Border, ...] = ()
    """Rows worked along its row ends."""
    along: tuple[Along, ...] = ()
    """Edgings that are parts of their own, along its edges."""
    sewn: tuple[SewnOn, ...] = ()
    """Pieces in rounds set on each other, each with its place as far as it is told."""
    sleeves: tuple[int, ...] = ()
    """The sleeves among the parts of a garment."""
    neck: tuple[int, ...] = ()
    """The collars and hoods among them."""
    hoods: tuple[int, ...] = ()
    """Those of them whose upper edge is sewn up."""
    seams: tuple[SeamWork, ...] = ()
    """The sentences that tell how it is joined."""
    gap_cm: float = 0.0
    """What the joining adds between two edges."""
    misfits: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    merged: PartMeasures | None = None


def put_together(measures: Measures) -> tuple[Assembled, ...]:
    """Everything the seams, the borders and the parts worked on from each other make; empty for a pattern of single pieces."""
    made: list[Assembled] = []
    attached = {id(each.seam) for each in sewn_on(measures)}
    for seam in measures.fabric.seams:
        for each in _by_seam(seam, measures) if id(seam) not in attached else ():
            found = replace(each, seams=(seam,))
            same = [i for i, other in enumerate(made) if set(other.parts) == set(found.parts) and other.kind == found.kind]
            if not same:
                made.append(found)
            else:  # told in two sentences ("sew shoulder seams", "sew side seams"): one thing
                misfits = dict.fromkeys((*made[same[0]].misfits, *found.misfits))
                made[same[0]] = replace(made[same[0]], misfits=tuple(misfits), seams=(*made[same[0]].seams, *found.seams))
    made = [_with_neck(_with_sleeves(thing, measures), measures) if thing.kind == "garment" else thing for thing in made]
    at_necks = {k for thing in made for k in thing.neck}
    made = [thing for thing in made if not at_necks or not set(thing.parts) <= at_necks]
    made += _sewn(measures)
    made += _worked_on(measures)
    things = tuple(_bordered(made, measures))
    taken = {k for thing in things for k in thing.parts}
    edged = [k for k, part in enumerate(measures.parts) if k not in taken and (part.around or any(border.whole for border in part.borders))]
    beside = _by_host(measures, taken)
    alone = [_edged(k, measures.parts[k], beside.pop(k, ())) for k in edged]
    return (*things, *alone, *(_edged(k, measures.parts[k], along) for k, along in beside.items()))


def _by_host(measures: Measures, taken: set[int]) -> dict[int, tuple[Along, ...]]:
    """Edgings along one edge of one piece (or both edges of one worked out from the middle of its upper edge), by that piece."""
    found: dict[int, tuple[Along, ...]] = {}
    for along in edgings_along(measures):
        hosts = {edge.part for edge in along.edges}
        names = [edge.edge for edge in along.edges]
        host = next(iter(hosts))
        one = len(hosts) == 1 and "neck" not in names and (len(names) == 1 or names == ["A", "B"])
        if along.told and one and host not in taken and measures.parts[host].copies == 1:
            found[host] = (*found.get(host, ()), along)
    return found


def one_piece(fabric: Fabric, first: int, then: int) -> PartWork:
    """Two parts as one: `then` is worked on from the last row of `first`, the yarn not cut."""
    base, more = fabric.parts[first], fabric.parts[then]
    shift = len(base.rows)
    rows = tuple(replace(row, index=row.index + shift, below=None if row.below is None else row.below + shift) for row in more.rows)
    return PartWork(name=f"{base.name} + {more.name}", copies=base.copies, rows=(*base.rows, *rows))


# --- seams


def _by_seam(seam: SeamWork, measures: Measures) -> Iterator[Assembled]:
    parts = [measures.parts[i] for i in seam.parts]
    if not parts or not any(part.width_cm > 0 for part in parts):
        return
    kind = seam.seam.kind
    if kind == "motifs" and seam.rows and seam.across:
        yield _blanket(seam, parts, seam.rows, seam.across, measures.fabric.pattern.facts.motif_cm, _seam_cm(seam, measures.scale))
    elif kind == "fold":
        yield _folded(seam, parts[0])
    elif kind == "tube":
        yield _tube(seam, parts[0])
    elif kind == "base" and len(parts) == 2:
        yield _on_base(seam, parts[0], parts[1])
    elif kind == "edges":
        yield from _edge_to_edge(seam, parts)


def _with_sleeves(thing: Assembled, measures: Measures) -> Assembled:
    """A garment with its sleeves set in, the edge of their tops beside that of its armholes."""
    sleeves = tuple(k for k in sleeves_of(measures) if k not in thing.parts)
    if not sleeves:
        return thing
    top = sleeve_top_cm(measures.parts[sleeves[0]])
    bodies = [measures.parts[k] for k in thing.parts]
    round_it = armhole_cm(bodies[:2]) if len(bodies) > 1 else None
    name = measures.parts[sleeves[0]].name
    misfits = list(thing.misfits)
    if round_it is None:
        told = f"no armhole is shaped: {name}, {top:.1f} cm along its top, takes {top / 2:.1f} cm of each side below the shoulder"
    else:
        told = f"{name} has {top:.1f} cm to be set into an armhole of {round_it:.1f} cm"
        if abs(top / round_it - 1) > MATCH:
            misfits.append(
                f"the top of {name} is {top:.1f} cm and the armhole {round_it:.1f} cm: {abs(top - round_it):.1f} cm must be eased in"
            )
    area = thing.area_cm2 + sum(measures.parts[k].surface_cm2 * measures.parts[k].copies for k in sleeves)
    return replace(
        thing, parts=(*thing.parts, *sleeves), names=(*thing.names, *(measures.parts[k].name for k in sleeves)), sleeves=sleeves,
        because=(*thing.because, told), misfits=tuple(misfits), area_cm2=area,
    )  # fmt: skip


def _with_neck(thing: Assembled, measures: Measures) -> Assembled:
    """A garment with its collar or hood on its neck."""
    neck = tuple(k for k in neck_pieces_of(measures) if k not in thing.parts)
    if not neck:
        return thing
    parts = [measures.parts[k] for k in neck]
    told = tuple(f"{part.name} stands on the neck by its edge of {neck_edge_cm(part):.1f} cm" for part in parts)
    return replace(
        thing, parts=(*thing.parts, *neck), names=(*thing.names, *(part.name for part in parts)), neck=neck,
        hoods=tuple(k for k in neck if closed_on_top(measures, k)), because=(*thing.because, *told),
        area_cm2=thing.area_cm2 + sum(part.surface_cm2 for part in parts),
    )  # fmt: skip


def _sewn(measures: Measures) -> Iterator[Assembled]:
    """Pieces in rounds that are sewn on each other, one thing for each piece that all others of it stand on."""
    every = sewn_on(measures)
    host_of = {each.part: each.host for each in every if each.placed}
    groups: dict[int, list[SewnOn]] = {}
    for each in every:
        root = each.host
        while root in host_of:
            root = host_of[root]
        groups.setdefault(root, []).append(each)
    for root, sewn in groups.items():
        placed = [each for each in sewn if each.placed]
        parts = (root, *dict.fromkeys(each.part for each in placed))
        body = measures.parts[root]
        if not placed or body.rounds is None:
            continue
        name = {k: part.name or "Piece" for k, part in enumerate(measures.parts)}
        beside = [f"where {name[each.part]} is sewn on {name[each.host]} is not told: it stands beside" for each in sewn if not each.placed]
        yield Assembled(
            kind="sewn on", parts=parts, names=tuple(name[k] for k in parts), width_cm=body.width_cm,
            length_cm=body.rounds.height_cm or 0.0,
            area_cm2=sum(measures.parts[k].surface_cm2 * measures.parts[k].copies for k in parts), sewn=tuple(sewn),
            because=tuple(_sewn_words(each, measures) for each in placed), misfits=(),
            assumed=tuple(dict.fromkeys([each.assumed for each in placed if each.assumed] + beside)),
        )  # fmt: skip


def _sewn_words(each: SewnOn, measures: Measures) -> str:
    part, host = measures.parts[each.part], measures.parts[each.host]
    many = f"{part.copies} x " if part.copies > 1 else ""
    if each.place == "end":
        return f"{part.name} end to end on {host.name}"
    at = f" at {host.rows[each.row].label}" if each.row is not None else ""
    sides = {"side": "at the sides", "top": "on top", "bottom": "underneath", "front": "in front", "back": "behind", "end": "", None: ""}
    return f"{many}{part.name} on {host.name} {sides[each.place]}{at}"


def _seam_cm(seam: SeamWork, scale: Scale) -> float:
    """What a joining adds between two edges: the height of the stitch it is crocheted with; sewn and slip-stitched edges meet."""
    return scale.height_cm(seam.seam.how) if seam.seam.how in ADDS else 0.0


def _blanket(seam: SeamWork, parts: Sequence[PartMeasures], rows: int, across: int, told_cm: float | None, gap: float) -> Assembled:
    """Motifs in rows: squares side by side, hexagons in a honeycomb, circles where they touch. `told_cm`: a motif's size as told; `gap`:
    what the joining adds between two."""
    cell = parts[0]
    corners = cell.rounds.corners if cell.rounds is not None else 4
    wide = cell.rounds.diameter_cm if cell.rounds is not None else cell.width_cm
    tall = wide if cell.rounds is not None else cell.length_cm
    if told_cm:
        wide = tall = told_cm
    what = f"{cell.name or 'motif'} of {wide:.1f} x {tall:.1f} cm"
    if corners == 6:
        pitch = (wide + gap, (wide + gap) * math.sqrt(3) / 2)
        width = across * pitch[0] - gap + (pitch[0] / 2 if rows > 1 else 0.0)
        length = (rows - 1) * pitch[1] + wide * 2 / math.sqrt(3)
        how = f"honeycomb of {rows} rows of {across}, each row half a motif aside"
    else:
        pitch = (wide + gap, tall + gap)
        width, length = across * pitch[0] - gap, rows * pitch[1] - gap
        how = f"{rows} rows of {across}"
    made = sum(part.copies for part in parts)
    misfits = []
    if made not in (1, rows * across):
        misfits.append(f"{how.split(',')[0]} take {rows * across} pieces, and {made} are made")
    for other in parts[1:]:
        own = other.rounds.diameter_cm if other.rounds is not None else other.width_cm
        if wide > 0 and abs(own / wide - 1) > MATCH:
            misfits.append(f"{other.name} is {own:.1f} cm across and {cell.name} {wide:.1f} cm: they do not match edge to edge")
    if cell.lies in ("cups", "ruffles"):
        misfits.append(f"{cell.name or 'the motif'} {cell.lies} by itself: it would have to be blocked to {wide:.1f} cm")
    return Assembled(
        kind="blanket", parts=seam.parts, names=tuple(part.name for part in parts), width_cm=width, length_cm=length,
        area_cm2=cell.surface_cm2 * rows * across, rows=rows, across=across, pitch_cm=pitch, corners=corners, misfits=tuple(misfits),
        because=(f"{how}, {what}{f', {gap:.1f} cm of joining between two' if gap else ''}: {width:.1f} x {length:.1f} cm",), gap_cm=gap,
        assumed=(_seam_words(seam.seam.how, gap),),
    )  # fmt: skip


def _seam_words(how: str, gap: float) -> str:
    if gap:
        return f"the seam of {how} lies flat and adds the height of its stitch, {gap:.1f} cm; standing up as a ridge it adds less"
    return f"joining ({how}) adds no width: its stitches lie inside the edges"


def _folded(seam: SeamWork, part: PartMeasures) -> Assembled:
    """One piece folded in half: across its length unless told lengthwise."""
    wide, long, edges = part.width_cm, part.length_cm, set(seam.seam.edges)
    lengthwise = "lengthwise" in edges or ("long edges" in edges and long >= wide)
    if lengthwise and "long edges" in edges:
        return _assembled(
            seam,
            [part],
            "tube",
            wide / 2,
            long,
            girth=wide,
            height=long,
            because=f"{wide:.1f} cm folded lengthwise: a tube {wide:.1f} cm round",
        )
    width, length = (wide / 2, long) if lengthwise else (wide, long / 2)
    how = "lengthwise" if lengthwise else "so that the first row meets the last"
    closed = "all round" in edges or "three sides" in edges
    return _assembled(
        seam, [part], "cushion" if closed else "bag", width, length, girth=None if closed else 2 * (length if lengthwise else width),
        because=f"{wide:.1f} x {long:.1f} cm folded {how}: {width:.1f} x {length:.1f} cm, double",
    )  # fmt: skip


def _tube(seam: SeamWork, part: PartMeasures) -> Assembled:
    """A piece closed into a ring: its short ends joined, or its long edges."""
    wide, long = part.width_cm, part.length_cm
    by_ends = "long edges" not in seam.seam.edges
    said_rows = "first" in seam.seam.words.lower()
    girth = long if said_rows else max(wide, long) if by_ends else min(wide, long)
    height = wide + long - girth
    return _assembled(
        seam,
        [part],
        "tube",
        girth / 2,
        height,
        girth=girth,
        height=height,
        because=f"{wide:.1f} x {long:.1f} cm joined: {girth:.1f} cm round",
    )


def _on_base(seam: SeamWork, base: PartMeasures, body: PartMeasures) -> Assembled:
    """A bottom sewn to the rim of a body."""
    rim = _rim_cm(base)
    girths = _rims_of(body)
    girth = min(girths, key=lambda each: abs(each - rim)) if girths else 0.0
    height = body.rounds.height_cm if body.rounds is not None and body.rounds.height_cm else body.length_cm
    if body.rounds is None:  # a strip closed into a ring: what does not go round the base stands up
        height = body.width_cm + body.length_cm - girth
    misfits = []
    if girth > 0 and abs(rim / girth - 1) > MATCH:
        more = "more" if rim > girth else "less"
        misfits.append(
            f"{base.name} is {rim:.1f} cm round and the edge of {body.name} {girth:.1f} cm: {abs(rim - girth):.1f} cm {more}, "
            f"{abs(rim / girth - 1):.0%}, must be eased in"
        )
    made = _assembled(
        seam, [base, body], "vessel", girth / 2, height, girth=girth, height=height,
        because=f"{body.name} {girth:.1f} cm round and {height:.1f} cm high on {base.name}",
    )  # fmt: skip
    return replace(made, misfits=tuple(misfits))


def _rim_cm(part: PartMeasures) -> float:
    return part.rounds.rounds[-1].girth_cm if part.rounds is not None else 2 * (part.width_cm + part.length_cm)


def _rims_of(part: PartMeasures) -> list[float]:
    """The girths of a body's two edges; a flat piece is closed by its seam along its width or its length."""
    if part.rounds is None:
        return [part.width_cm, part.length_cm]
    rounds = part.rounds.rounds
    return [rounds[0].girth_cm, rounds[-1].girth_cm]


def _edge_to_edge(seam: SeamWork, parts: Sequence[PartMeasures]) -> Iterator[Assembled]:
    """Pieces joined along edges: cushions and bags (sides and bottom), garments (sides, shoulders)."""
    edges, pieces = set(seam.seam.edges), sum(part.copies for part in parts)
    if pieces < 2:
        return
    misfits = _unequal(parts, lengthwise=bool(edges & {"sides", "three sides", "all round"}))
    wide, long = max(part.width_cm for part in parts), max(part.length_cm for part in parts)
    closed = edges & {"three sides", "all round", "bottom", "top"} or not edges
    if closed and pieces == 2:
        kind: Kind = "cushion" if "all round" in edges or not edges else "bag"
        girth = None if kind == "cushion" else 2 * wide
        made = _assembled(seam, parts, kind, wide, long, girth=girth, because=f"two pieces of {wide:.1f} x {long:.1f} cm")
        yield replace(made, misfits=misfits)
    elif edges & {"sides", "shoulders"} and len({part.in_rounds for part in parts}) == 1:  # else a handle on the side of a bag
        girth = sum(part.width_cm * part.copies for part in parts)
        told = " + ".join(f"{part.width_cm:.1f}" for part in parts for _ in range(part.copies))
        made = _assembled(seam, parts, "garment", girth / 2, long, girth=girth, because=f"widths {told} = {girth:.1f} cm round")
        yield replace(made, misfits=misfits if "sides" in edges else ())


def _unequal(parts: Sequence[PartMeasures], *, lengthwise: bool) -> tuple[str, ...]:
    """Pairs of edges that are sewn together and differ."""
    if len(parts) < 2 or not lengthwise:
        return ()
    a, b = parts[0], parts[1]
    longer, shorter = (a, b) if a.length_cm >= b.length_cm else (b, a)
    if shorter.length_cm <= 0 or longer.length_cm / shorter.length_cm - 1 <= MATCH:
        return ()
    return (
        f"{longer.name} is {longer.length_cm:.1f} cm long and {shorter.name} {shorter.length_cm:.1f} cm: "
        f"{longer.length_cm - shorter.length_cm:.1f} cm must be eased in or left open",
    )  # fmt: skip


def _assembled(
    seam: SeamWork, parts: Sequence[PartMeasures], kind: Kind, width: float, length: float, *, girth: float | None = None,
    height: float | None = None, because: str,
) -> Assembled:  # fmt: skip
    return Assembled(
        kind=kind, parts=seam.parts, names=tuple(part.name for part in parts), width_cm=width, length_cm=length,
        area_cm2=sum(part.surface_cm2 * part.copies for part in parts), girth_cm=girth, height_cm=height, because=(because,),
    )  # fmt: skip


# --- parts worked on from each other, and borders


def _worked_on(measures: Measures) -> Iterator[Assembled]:
    """A body worked on from the rim of its base: one piece, though written as two parts."""
    seen: set[tuple[int, int]] = set()
    fabric = measures.fabric
    for (then, _, _), (first, row, _) in fabric.links.items():
        if (first, then) in seen:
            continue
        seen.add((first, then))
        base, more = measures.parts[first], measures.parts[then]
        if row != len(fabric.parts[first].rows) - 1 or base.rounds is None or more.rounds is None:
            continue
        whole = PartMeasures(one_piece(fabric, first, then), measures.scale, Layer(measures.scale))
        rounds = whole.rounds
        if rounds is None:
            continue
        if whole.lies == "flat":
            across = rounds.diameter_cm
            yield Assembled(
                kind="bordered", parts=(first, then), names=(base.name, more.name), width_cm=across, length_cm=across,
                area_cm2=whole.surface_cm2, because=(f"{more.name} is worked on round {base.name}",), merged=whole,
            )  # fmt: skip
            continue
        height = rounds.height_cm or 0.0
        if base.lies == "flat" and more.rounds.height_cm is not None:
            height = more.rounds.height_cm  # a flat bottom adds no height
        yield Assembled(
            kind="vessel", parts=(first, then), names=(base.name, more.name), width_cm=rounds.girth_cm / 2, length_cm=height,
            area_cm2=whole.surface_cm2, girth_cm=rounds.girth_cm, height_cm=height, merged=whole,
            because=(f"{more.name} is worked on from the last round of {base.name}, {base.rounds.rounds[-1].girth_cm:.1f} cm round",),
        )  # fmt: skip


def _bordered(made: Sequence[Assembled], measures: Measures) -> Iterator[Assembled]:
    """Each thing with the border that goes round it; a single flat piece with a border is a thing of its own."""
    borders = [i for i, part in enumerate(measures.parts) if goes_round_an_edge(part.part.rows)]
    laid_out = next((thing for thing in made if thing.kind == "blanket"), None)
    for thing in made:
        yield _with_borders(thing, [i for i in borders if i > max(thing.parts)], measures) if thing is laid_out else thing
    if laid_out is not None:
        return
    for i in borders[:1]:
        inner = max((j for j in range(i) if not measures.parts[j].in_rounds and measures.parts[j].width_cm > 0), default=None)
        if inner is None:
            continue
        part = measures.parts[inner]
        if measures.parts[i].laid and _first_cm(measures.parts[i]) < ROUND_ALL * (_perimeter(part) or 0.0):
            continue  # a body worked up from one edge of its band, and no border round the whole of it
        whole = Assembled(
            kind="bordered", parts=(inner,), names=(part.name,), width_cm=part.width_cm, length_cm=part.length_cm,
            area_cm2=part.surface_cm2,
            because=(f"{part.name or 'the piece'} is {part.width_cm:.1f} x {part.length_cm:.1f} cm",),
        )  # fmt: skip
        yield _with_borders(whole, borders, measures, edge_cm=_perimeter(part))


ROUND_ALL = 0.5
"""Of a piece's edge, what the first round of a border round all of it is long at least: less goes along one side (our choice)."""


def _first_cm(part: PartMeasures) -> float:
    """How long the first worked row is."""
    return next((laid.total_cm for laid in part.laid if laid.total_cm > 0), 0.0)


def _edged(k: int, part: PartMeasures, along: tuple[Along, ...] = ()) -> Assembled:
    """A piece with rows along the row ends of one edge, rounds all round it, or edgings along its edges, and so wider or longer."""
    edgings = [border for border in part.borders if border.whole and border.index not in part.around]
    wide = sum(part.laid[border.index].height_cm for border in edgings)
    wide += sum(each.wide_cm for each in along for edge in each.edges if edge.edge in ("A", "B"))
    long = sum(each.wide_cm for each in along for edge in each.edges if edge.edge in ("first row", "last row"))
    told = [f"{border.label} along edge {border.edge}" for border in edgings]
    because = [f"{' and '.join(told)} adds {sum(part.laid[border.index].height_cm for border in edgings):.1f} cm"] if told else []
    names = {
        each.part: " and ".join(edge.edge if edge.edge not in ("A", "B") else f"edge {edge.edge}" for edge in each.edges) for each in along
    }
    because += [f"{each.name or 'The edging'} along {names[each.part]} adds {each.wide_cm:.1f} cm" for each in along]
    border = None
    if part.around:
        border = border_round(part.name, [part.part.rows[k] for k in sorted(part.around)], part.laid, _perimeter(part) or 0.0)
        wide, long = wide + 2 * border.wide_cm, long + 2 * border.wide_cm
        labels = [row.label for row in part.rows if row.index in part.around and row.height_cm]
        because.append(f"{' and '.join(dict.fromkeys(labels))} all round it: {border.wide_cm:.1f} cm at every side")
    return Assembled(
        kind="bordered", parts=(k, *(each.part for each in along)), names=(part.name, *(each.name for each in along)),
        width_cm=part.width_cm + wide, length_cm=part.length_cm + long, area_cm2=part.surface_cm2, because=tuple(because),
        edgings=tuple(edgings), along=along, border=border,
    )  # fmt: skip


def _perimeter(part: PartMeasures) -> float | None:
    points = part.outline
    return sum(math.dist(a, b) for a, b in zip(points, [*points[1:], *points[:1]], strict=True)) if points else None


def _with_borders(thing: Assembled, borders: Sequence[int], measures: Measures, edge_cm: float | None = None) -> Assembled:
    for i in borders:
        part = measures.parts[i]
        edge = edge_cm or 2 * (thing.width_cm + thing.length_cm)
        border = border_round(part.name, part.part.rows, part.laid, edge)
        if not border.wide_cm:
            continue
        wide = border.wide_cm
        thing = replace(
            thing, width_cm=thing.width_cm + 2 * wide, length_cm=thing.length_cm + 2 * wide, area_cm2=thing.area_cm2 + part.surface_cm2,
            border=border, border_part=i, borders=(*thing.borders, i), parts=(*thing.parts, i), names=(*thing.names, part.name),
            because=(*thing.because, f"{part.name or 'border'} adds {wide:.1f} cm at every side"),
        )  # fmt: skip
        edge_cm = None
    return thing
