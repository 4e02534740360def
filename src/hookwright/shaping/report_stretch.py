"""What `hookwright shape` says of stretched and crowded places: of a part as it lies, laid flat where it is meant to be, and sewn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Final

from .outlines import relaxed_outline
from .piece import PartShape, shape_part
from .stretch import RowStretch, stretched_rows, tight_edge

MOST_TOLD: Final = 4
"""Places told in words; the rest are in the JSON."""


def rows_json(rows: Sequence[RowStretch]) -> list[dict[str, Any]]:
    """Rows with their places, as JSON."""
    return [
        {
            "row": row.label, "stretched": row.stretched, "crowded": row.crowded, "worst_along_percent": round(100 * row.worst_along, 1),
            "worst_up_percent": round(100 * row.worst_up, 1),
            "places": [{"from": p.first, "to": p.last, "percent": round(100 * p.worst, 1)} for p in row.places],
        }
        for row in rows
    ]  # fmt: skip


def if_pinned_out(part: PartShape, claims_flat: bool) -> tuple[RowStretch, ...]:
    """Where a piece that is meant to lie flat, and does not by itself, would be stretched and crowded if it were pinned out flat."""
    if not claims_flat or not part.measures.in_rounds or part.flat or part.lies not in ("cups", "ruffles"):
        return ()
    return stretched_rows(shape_part(part.measures, flat=True, solve="always", seconds=5.0))


def stretch_lines(part: PartShape, claims_flat: bool) -> Iterator[str]:
    """All of it as sentences."""
    yield from rows_said(stretched_rows(part), "More")
    yield from rows_said(if_pinned_out(part, claims_flat), "Pinned out flat, it would be more")
    if not part.measures.in_rounds and part.flat and relaxed_outline(part) is None:
        for name, edge in part.measures.edges.items():
            tight = tight_edge(edge, part.measures)
            if tight is not None:
                first, last, share = tight
                short = f"its end stitches lean out, {100 * share:.0f} % too short"
                yield f"Edge {name} is tight from {first} to {last}: {short}; work turning chains loosely there."


def rows_said(rows: Sequence[RowStretch], begins: str) -> Iterator[str]:
    """How many rows, the worst of them, and where in it."""
    if not rows:
        return
    worst = max(rows, key=lambda row: abs(row.worst))
    word = "stretched" if worst.worst > 0 else "crowded"
    many = f"{len(rows)} row{'s' if len(rows) > 1 else ''}"
    places = sorted(worst.places, key=lambda place: -abs(place.worst))
    told = ", ".join(place.said for place in sorted(places[:MOST_TOLD], key=lambda place: place.first))
    more = f" and {len(places) - MOST_TOLD} places more" if len(places) > MOST_TOLD else ""
    by = f"{word} by {100 * abs(worst.worst):.0f} %"
    yield f"{begins} than 15 % stretched or crowded in {many}; most in {worst.label} ({told}{more}), {by}."
