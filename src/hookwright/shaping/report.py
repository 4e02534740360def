"""What `hookwright shape` says: as JSON (hookwright/shape/1) and as lines for a maker."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ..measuring import (
    LIES,
    Along,
    Assembled,
    Ease,
    Edge,
    Measures,
    PartMeasures,
    RoundMeasure,
    edgings_along,
    first_cupped,
    first_ruffled,
    is_worn_on,
    said_of,
)
from .full_rows import full_rows
from .outlines import relaxed_outline
from .piece import PartShape, Shape
from .report_blocking import blocking_json, blocking_lines, blocking_of
from .report_size import flat_size_cm, gathered, part_size_told
from .report_stretch import if_pinned_out, rows_json, stretch_lines
from .report_together import border_json, border_of, together_json, together_lines
from .report_worn import worn_json, worn_lines, worn_of
from .stretch import stretched_rows
from .words import both, in_cm


def shape_json(shapes: Sequence[Shape]) -> dict[str, Any]:
    """The report of one fabric, or of one for every size. Keys beyond those of the schema may come; none goes."""
    parts: list[dict[str, Any]] = []
    whole: list[dict[str, Any]] = []
    for shape in shapes:
        things = tuple(thing for thing, _ in shape.together)
        beside = {each.part: each for each in edgings_along(shape.measures)}
        blocking = blocking_of(shape)
        parts += [
            _part(part, shape.measures, things) | _along(beside.get(k), shape.measures) | {"blocking": blocking_json(blocking, k)}
            for k, part in enumerate(shape.parts)
        ]
        whole += [together_json(thing, relaxed, size_name(shape.measures)) for thing, relaxed in shape.together]
    return {"schema": "hookwright/shape/1", "parts": parts, "together": whole}


def size_name(measures: Measures) -> str | None:
    """The name of the size a fabric was worked in; None for a pattern of one size."""
    names, size = measures.fabric.pattern.facts.size_names, measures.fabric.size
    if len(names) < 2:
        return None
    return names[size] if size < len(names) else str(size + 1)


def _part(part: PartShape, whole: Measures, things: tuple[Assembled, ...]) -> dict[str, Any]:
    it = part.measures
    rounds = it.rounds
    bent = relaxed_outline(part)
    wide, long = flat_size_cm(part)
    made: dict[str, Any] = {
        "name": it.name,
        "size": size_name(whole),
        "copies": it.copies,
        "width_cm": in_cm(wide),
        "length_cm": in_cm(long),
        "diameter_cm": in_cm(rounds.diameter_cm) if rounds else None,
        "girth_cm": in_cm(rounds.girth_cm) if rounds else None,
        "height_cm": in_cm(rounds.height_cm) if rounds and rounds.height_cm is not None else None,
        "area_cm2": round(it.surface_cm2, 1),
        "outline": [list(point) for point in (it.right_side_outline() if bent is None else bent.outline)],
        "lies": part.lies,
        "edges": {} if it.in_rounds else {name: _edge(edge, it) for name, edge in it.edges.items()},
        "error_percent": round(100 * part.error, 3),
        "assumed": list(whole.assumed),
    }
    if it.tiles is not None:
        made["blocks"] = {
            "across": it.tiles.columns,
            "up": it.tiles.lines,
            "in_all": len(it.tiles.tiles),
            "side_cm": in_cm(it.tiles.side_cm),
        }
    if rounds:
        made |= {"because": rounds.because, "corners": rounds.corners, "slack_stitches": rounds.slack_stitches}
        made["rounds"] = [_round(each) for each in rounds.rounds]
    made["bias"] = {"stitches": it.bias.stitches, "shift_cm": in_cm(it.bias.shift_cm), "lean_deg": round(it.bias.lean_deg, 1)}
    made["borders"] = [border_json(b) for b in it.borders]
    made["rows_bend"] = bent is not None
    made["too_full"] = [
        {"row": row.label, "stitches": row.stitches, "would_lie_flat": row.straight} for row in full_rows(part.cloth) if part.crowded
    ]
    made["worn"] = worn_json(worn_of(part, bent, things))
    made["ease"] = [
        {"of": what, "body_cm": in_cm(e.body_cm), "ease_cm": in_cm(e.ease_cm), "percent": round(e.percent, 1)}
        for what, e in eases(it, whole)
    ]
    made["solved"] = {
        "solved": part.solved, "settled": part.settled, "steps": part.iterations, "start_error_percent": round(100 * part.start_error, 3),
        "strain_percent": round(100 * part.strain, 3), "width_cm": in_cm(part.width_cm), "length_cm": in_cm(part.length_cm),
        "girth_cm": in_cm(part.girth_cm) if it.in_rounds else None,
        "height_cm": in_cm(part.height_cm) if it.in_rounds and not part.flat else None,
    }  # fmt: skip
    made["stretched_rows"] = rows_json(stretched_rows(part))
    made["stretched_if_flat"] = rows_json(if_pinned_out(part, whole.fabric.pattern.facts.intended == "flat"))
    border = border_of(it, things)
    if border is not None:
        thing, lies = border
        assert thing.border is not None
        made |= {
            "lies": lies, "width_cm": in_cm(thing.border.rounds[-1].along_cm), "length_cm": in_cm(thing.border.wide_cm),
            "diameter_cm": None, "outline": [], "border_of": list(thing.names[:-1]),
        }  # fmt: skip
        for key in ("because", "corners", "slack_stitches", "rounds"):
            made.pop(key, None)
    return made


def _along(along: Along | None, whole: Measures) -> dict[str, Any]:
    """Of an edging: the edges it runs along, and each of its rows beside them (`told`: false where the words do not tell which edge)."""
    if along is None:
        return {}
    edges = [{"part": whole.parts[edge.part].name, "edge": edge.edge, "length_cm": in_cm(edge.long_cm)} for edge in along.edges]
    return {"along": {"told": along.told, "edges": edges, "rows": [border_json(row) for row in along.rows] if along.told else []}}


def _edge(edge: Edge, part: PartMeasures) -> dict[str, Any]:
    return {
        "length_cm": in_cm(edge.length_cm),
        "slant_deg": edge.slant_deg,
        "straight": edge.straight,
        "stretches": [
            {
                "from": part.rows[s.first].label, "to": part.rows[s.last].label, "slant_deg": s.slant_deg, "length_cm": in_cm(s.length_cm),
            }
            for s in edge.stretches
        ],
    }  # fmt: skip


def _round(each: RoundMeasure) -> dict[str, Any]:
    return {
        "label": each.label, "stitches": each.stitches, "girth_cm": in_cm(each.girth_cm), "lies": each.lies,
        "fullness": round(each.fullness, 3), "excess": each.excess, "would_lie_flat": each.would_lie_flat,
    }  # fmt: skip


def eases(part: PartMeasures, whole: Measures) -> list[tuple[str, Ease]]:
    """The girth of a part worked round, beside every body measure that the pattern tells for this size and that it could be worn on."""
    facts, size = whole.fabric.pattern.facts, whole.fabric.size
    if part.rounds is None or part.lies not in ("cups", "tube"):
        return []
    told: Mapping[str, tuple[float, ...]] = facts.size_measures
    return [
        (what, Ease(girth_cm=part.rounds.girth_cm, body_cm=values[min(size, len(values) - 1)]))
        for what, values in told.items()
        if values and is_worn_on(part.rounds.girth_cm, values[min(size, len(values) - 1)])
    ]


# --- lines for a maker


def shape_lines(shape: Shape) -> Iterator[str]:
    """The report of one fabric as lines of plain text."""
    name = size_name(shape.measures)
    things = tuple(thing for thing, _ in shape.together)
    beside = {each.part: each for each in edgings_along(shape.measures)}
    blocking = blocking_of(shape)
    for k, part in enumerate(shape.parts):
        it = part.measures
        if k in beside:
            rows = len(it.part.rows)
            many = f"{rows} row{'s' if rows != 1 else ''}"
            yield f"{it.name or 'Edging'}: {many}, {both(beside[k].wide_cm)} wide, {it.surface_cm2:.0f} cm2"
            yield f"  {said_of(beside[k], shape.measures)}"
            continue
        border = border_of(it, things)
        if border is not None and border[0].border is not None:
            edge = border[0].border
            many = f"{len(edge.rounds)} round{'s' if len(edge.rounds) != 1 else ''}"
            yield f"{it.name or 'Border'}: {many}, {both(edge.wide_cm)} wide, {it.surface_cm2:.0f} cm2"
            continue
        copies = f" (make {it.copies})" if it.copies > 1 else ""
        yield f"{it.name or 'Piece'}{copies}{f', size {name}' if name else ''}: {_size_words(part)}"
        yield from (f"  {line}" for line in _details(part, shape.measures, things))
        yield from (f"  {line}" for line in blocking_lines(blocking, k))
    yield from together_lines(shape.together, shape.measures)
    for sentence in shape.measures.assumed:
        yield f"Assumed: {sentence}."


def _size_words(part: PartShape) -> str:
    it, lies = part.measures, LIES[part.lies].removeprefix("is ")
    if part.lies == "unknown":
        return "nothing to measure"
    if it.chain_alone_cm:
        return part_size_told(part)
    if gathered(part):
        lies += f", its longest row {both(it.width_cm)} along its stitches"
    elif relaxed_outline(part) is not None:
        lies += ", its rows bent"
    size = f"{part_size_told(part)}, {lies}, {it.surface_cm2:.0f} cm2"
    if it.tiles is not None:
        blocks = f"{it.tiles.columns} x {it.tiles.lines} blocks of {both(it.tiles.side_cm)}"
        return f"{size}: {blocks}, its rows at 45 degrees to its sides"
    return size


def _details(part: PartShape, whole: Measures, things: tuple[Assembled, ...]) -> Iterator[str]:
    it = part.measures
    if it.chain_alone_cm:
        return
    if it.rounds is not None:
        yield from _round_lines(it, whole.fabric.pattern.facts.intended == "flat")
    else:
        yield from (row.said for row in full_rows(part.cloth) if part.crowded)
        bent = relaxed_outline(part)
        for name, edge in it.edges.items() if not gathered(part) else ():
            yield f"Edge {name}: {_edge_words(edge, it) if bent is None else f'{both(bent.edges_cm[name])} as it lies'}."
    yield from (border.said for border in it.borders)
    if it.bias.matters:
        yield (
            f"Worked on one side throughout, columns lean {it.bias.lean_deg:.0f} degrees: {it.bias.stitches:g} stitches "
            f"({both(it.bias.shift_cm)}) from first row to last, to the right for a right-hander."
        )
    bent = relaxed_outline(part)
    yield from worn_lines(worn_of(part, bent, things))
    for what, ease in eases(it, whole):
        more = "smaller, it is worn stretched" if ease.negative else "larger"
        by = f"{both(abs(ease.ease_cm))} {more} ({ease.percent:+.0f} %)" if abs(ease.percent) >= 1 else "just as wide"
        yield f"On a {what} of {both(ease.body_cm)} it is {by}."
    yield from stretch_lines(part, whole.fabric.pattern.facts.intended == "flat")
    if it.lies == "closed":
        yield f"Stuffed, it is {both(part.height_cm)} high and {both(part.girth_cm)} round."
    if part.solved:
        yield part.note
        off = [abs(a / b - 1) for a, b in ((part.width_cm, it.width_cm), (part.length_cm, it.length_cm)) if b > 0]
        if it.rounds is None and bent is None and not gathered(part) and max(off, default=0.0) > 0.02:
            yield f"Relaxed, it is {both(part.width_cm)} wide and {both(part.length_cm)} long."


def _round_lines(it: PartMeasures, claims_flat: bool) -> Iterator[str]:
    rounds = it.rounds
    assert rounds is not None
    if rounds.lies != "cups" or claims_flat:
        yield f"{rounds.because[:1].upper()}{rounds.because[1:]}."
    if rounds.corners:
        circle = "; for a circle they would move from round to round" if rounds.corners > 4 else ""
        yield f"Increases stand one over the other: they make {rounds.corners} corners{circle}."
    if rounds.flat_base:
        yield f"Its first {rounds.flat_base} rounds lie flat, {both(rounds.base_across_cm)} across; its sides stand on them."
    if rounds.slack_stitches is not None:
        fewer, more = rounds.slack_stitches
        yield f"The last round could have {fewer} fewer or {more} more stitches and still lie flat."
    wide = first_ruffled(rounds.rounds) if rounds.lies in ("ruffles", "flat") else None
    if wide is not None:
        yield f"{wide.label} has {wide.excess} stitches too many to lie flat; {wide.would_lie_flat} would."
    tight = first_cupped(rounds.rounds) if rounds.lies == "cups" and claims_flat else None
    if tight is not None:
        yield f"{tight.label} has {-tight.excess} stitches too few to lie flat; {tight.would_lie_flat} would."


def _edge_words(edge: Edge, it: PartMeasures) -> str:
    if edge.straight:
        return f"straight, {both(edge.length_cm)}"
    words = []
    for s in edge.stretches[:8]:
        rows = it.rows[s.first].label if s.first == s.last else f"{it.rows[s.first].label} to {it.rows[s.last].label}"
        lean = "upright" if abs(s.slant_deg) < 0.5 else f"{abs(s.slant_deg):.0f} degrees {'outward' if s.slant_deg > 0 else 'inward'}"
        words.append(f"{rows} {lean}")
    more = f" and {len(edge.stretches) - 8} stretches more" if len(edge.stretches) > 8 else ""
    return f"{both(edge.length_cm)}: {', '.join(words)}{more}"
