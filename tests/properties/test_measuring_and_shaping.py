"""Whatever was worked: measuring and shaping give finite numbers, a simple outline where rows stand one on another, and never raise."""

from __future__ import annotations

import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon
from tests import fabrics
from tests.fabrics import Element, Piece, element

from hookwright.measuring import measure
from hookwright.shaping import shape
from hookwright.working.fabric import Fabric, How, Role

KINDS = st.sampled_from(["sc", "dc", "tr", "dc2tog", "FPdc", "puff", "sl st", "something"])
ROLES = st.sampled_from([Role.STITCH, Role.STITCH, Role.STITCH, Role.START, Role.JOIN, Role.TRAVEL, Role.HANGING])
ELEMENTS = st.one_of(
    st.just(element("ch")),
    st.builds(
        lambda kind, at, how, role, back: element(kind, at, how=how, role=role, back=back),
        KINDS, st.lists(st.integers(-1, 12), max_size=3), st.sampled_from(list(How)), ROLES, st.integers(0, 3),
    ),
)  # fmt: skip


@st.composite
def anything(draw: st.DrawFn) -> Fabric:
    """Rows of arbitrary elements on arbitrary feet, flat or round."""
    rows: list[list[Element]] = draw(st.lists(st.lists(ELEMENTS, min_size=1, max_size=10), max_size=6))
    piece = Piece(draw(st.sampled_from(["rows", "joined", "joined-turned", "spiral"])))
    if draw(st.booleans()):
        piece.foundation(draw(st.integers(1, 12)))
    for row in rows:
        piece.row(row)
    return fabrics.fabric(piece.part(), gauge=draw(st.sampled_from([None, {"dc": (14.0, 7.0)}, {"sc": (1.0, 90.0)}])))


@given(anything())
@settings(max_examples=60, deadline=None)
def test_never_raises_and_every_number_is_finite(made: Fabric) -> None:
    measures = measure(made)
    for part in measures.parts:
        numbers = [part.width_cm, part.length_cm, part.area_cm2, *(c for point in part.right_side_outline() for c in point)]
        assert all(math.isfinite(number) for number in numbers)
        assert part.area_cm2 >= 0
    for out in shape(measures, seconds=2.0).parts:
        assert np.isfinite(out.at).all()
        assert math.isfinite(out.error)


COUNTS = st.lists(st.integers(-3, 3), min_size=1, max_size=25)


@given(st.integers(1, 30), COUNTS, st.sampled_from(["A", "B"]), st.sampled_from(["sc", "hdc", "dc"]))
@settings(max_examples=40, deadline=None)
def test_shaping_at_one_edge_keeps_the_other_straight_and_the_area(first: int, changes: list[int], edge: str, kind: str) -> None:
    """Area inside the outline = stitches x width x height, whatever the shaping; the outline never crosses itself."""
    counts = [first]
    for change in changes:
        counts.append(max(2, counts[-1] + change))
    part = measure(fabrics.flat(fabrics.edge_shaped_rows(counts, kind, edge=edge), chains=first)).parts[0]
    outline = Polygon(part.outline)
    assert outline.is_valid
    assert abs(outline.area - part.area_cm2) <= 0.02 * part.area_cm2 + 0.5 * part.scale.area_cm2(kind)
    if first >= 4 and min(counts) >= 6:
        assert part.edges["A" if edge == "B" else "B"].straight
