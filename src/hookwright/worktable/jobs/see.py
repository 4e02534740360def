"""Pictures of the worked piece: chart, outline, colours, 3-D; and its words in other terms."""

from __future__ import annotations

from base64 import b64encode
from dataclasses import replace
from typing import Any

import numpy as np

from ...measuring import PartMeasures, measure
from ...pattern import Facts
from ...yarn import YarnError, rgb_for
from ..bench import Payload, Refusal, Tell
from .common import fabric_of, in_terms, number, part_of, session_of

LARGEST_CHART = 30_000
"""Symbols that a browser still moves about with ease; larger pieces are shown abridged."""


def chart(payload: Payload, tell: Tell) -> dict[str, Any]:
    """The symbol chart of one part."""
    return _answer(payload, *_chart(payload))


def _chart(payload: Payload) -> tuple[str | None, str, list[str], int]:
    from ...drawing.chart import chart as engrave
    from ...drawing.export import svg as chart_svg

    fabric = in_terms(fabric_of(payload), payload.get("terms"))
    names = [part.name for part in fabric.parts]
    part = part_of(payload, len(names))
    stitches = sum(len(row.stitches) for row in fabric.parts[part].rows)
    if not stitches:
        return None, "This part has no stitches to draw.", names, part
    short = not payload.get("whole") or stitches > LARGEST_CHART
    made = engrave(fabric, part, handed="left" if payload.get("hand") == "left" else "right", short=short)
    told = made.described
    if payload.get("whole") and short:
        told = f"{stitches:,} symbols are too many to show row by row, so equal rows are gathered. {told}"
    return chart_svg(made), told, names, part


def outline(payload: Payload, tell: Tell) -> dict[str, Any]:
    """The outline of one part to scale, with its measurements in every size."""
    return _answer(payload, *_outline(payload))


def _outline(payload: Payload) -> tuple[str | None, str, list[str], int]:
    from ...drawing.schematic import schematics

    session = session_of(payload)
    fabric_of(payload)
    drawings = schematics([measure(fabric) for fabric in session.fabrics], left_handed=payload.get("hand") == "left")
    names = list(drawings)
    if not names:
        return None, "There is nothing to measure yet: the rows need a gauge, or stitches.", [], 0
    part = part_of(payload, len(names))
    return drawings[names[part]], "", names, part


def colours(payload: Payload, tell: Tell) -> dict[str, Any]:
    """The piece in its colours, stitch by stitch."""
    return _answer(payload, *_colours(payload))


def _colours(payload: Payload) -> tuple[str | None, str, list[str], int]:
    from ...drawing.colours import colour_plans

    fabric = fabric_of(payload)
    pulled = number(payload, "pull_off_m")
    off = {name: pulled for name, yarn in fabric.pattern.facts.yarns.items() if yarn.sequence} if pulled else {}
    try:
        drawings = colour_plans(fabric, pulled_off=off, left_handed=payload.get("hand") == "left", starts=bool(payload.get("whole")))
    except YarnError as refused:
        raise Refusal(str(refused)) from refused
    names = list(drawings)
    if not names:
        return (
            None,
            "The piece is of one plain colour. Change yarns in the rows, or give a yarn its colours in the head of the pattern.",
            [],
            0,
        )
    part = part_of(payload, len(names))
    return drawings[names[part]], "", names, part


def in_the_round(payload: Payload, tell: Tell) -> dict[str, Any]:
    """One part in 3-D, as triangles (base64 of little-endian float32 and uint32) with a colour for each yarn."""
    from ...shaping import shape_part, yarn_mesh

    measures = measure(fabric_of(payload))
    names = [part.name for part in measures.parts]
    part = part_of(payload, len(names))
    shaped = shape_part(measures.parts[part], seconds=10.0)
    if not len(shaped.at):
        return {"parts": names, "part": part, "told": "", "meshes": None, "why": "This part has no stitches to shape."}
    facts = measures.fabric.pattern.facts
    if len(shaped.at) <= MOST_STRANDS:
        meshes = [(mesh.yarn, mesh.points, mesh.faces) for mesh in yarn_mesh(shaped, mapped=False)]
    else:
        meshes = [("", shaped.at, shaped.faces)]
    return {
        "parts": names,
        "part": part,
        "told": _told_in_the_round(measures.parts[part], shaped),
        "round": bool(measures.parts[part].in_rounds and not shaped.flat),
        "meshes": [
            {
                "yarn": name,
                "colour": "#{:02x}{:02x}{:02x}".format(*rgb_for(_yarn_colour(facts, name), at)),
                "points": b64encode(np.ascontiguousarray(_turned(points, payload), "<f4").tobytes()).decode(),
                "faces": b64encode(np.ascontiguousarray(faces, "<u4").tobytes()).decode(),
            }
            for at, (name, points, faces) in enumerate(meshes)
        ],
    }


MOST_STRANDS = 30_000
"""Stitches up to which every strand is shown; larger pieces are shown as a plain surface."""


def _yarn_colour(facts: Facts, name: str) -> str:
    """The colour word of a yarn: its own, else the first of its sequence, else its id."""
    yarn = facts.yarns.get(name) or next(iter(facts.yarns.values()), None)
    if yarn is None:
        return "oat"
    return yarn.sequence[0].colour if yarn.sequence else yarn.colour or yarn.name or name


def _turned(points: Any, payload: Payload) -> Any:
    """Mirrored for left-handers."""
    return points * np.array([-1.0, 1.0, 1.0]) if payload.get("hand") == "left" else points


def _told_in_the_round(part: PartMeasures, shaped: Any) -> str:
    lies = {"flat": "Lies flat.", "cups": "Cups.", "ruffles": "Ruffles.", "tube": "A tube.", "closed": "Closed all round."}.get(
        part.lies, ""
    )
    return f"{lies} {shaped.note}".strip()


def words(payload: Payload, tell: Tell) -> dict[str, Any]:
    """The pattern in words, from its structure."""
    from ...writing import PLAIN, write

    session = session_of(payload)
    terms = payload.get("terms")
    wanted = terms if terms in ("US", "UK") else session.read.terms
    return {"text": write(session.read, terms=wanted, style=replace(PLAIN, front=False)).text.strip(), "terms": wanted}


def _answer(payload: Payload, svg: str | None, told: str, parts: list[str], part: int) -> dict[str, Any]:
    return {"svg": svg, "told": told, "parts": parts, "part": part, **({} if svg else {"why": told})}


_DRAW = {"chart": _chart, "outline": _outline, "colours": _colours}


def picture(payload: Payload, tell: Tell) -> dict[str, Any]:
    """A drawing as a file: {"bytes", "type", "name"}."""
    view, form = str(payload.get("view")), str(payload.get("form"))
    if view not in _DRAW or form not in ("svg", "png", "pdf"):
        raise Refusal("That picture cannot be saved in that form.")
    svg, told, names, part = _DRAW[view](payload)
    if svg is None:
        raise Refusal(told)
    name = " ".join(filter(None, (str(payload.get("name", "")), names[part] if len(names) > 1 else "", view)))
    if form == "svg":
        return {"bytes": svg.encode("utf-8"), "type": "image/svg+xml", "name": f"{name}.svg"}
    from ...drawing.png import to_pdf, to_png

    if form == "png":
        return {"bytes": to_png(svg), "type": "image/png", "name": f"{name}.png"}
    return {"bytes": to_pdf(svg), "type": "application/pdf", "name": f"{name}.pdf"}
