"""The map of stretched and crowded places: which rows, which stitches, and in the files."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests import fabrics

from hookwright.measuring import measure
from hookwright.reading import read
from hookwright.shaping import shape, shape_json, shape_lines, shape_part, stretched_rows, to_glb, to_obj, yarn_mesh
from hookwright.working import work

TALL = {"dc": (20.0, 10.0)}


def test_what_lies_as_its_gauge_wants_has_an_empty_map() -> None:
    flat = shape_part(measure(fabrics.disc(12, 6, "dc", stacked=False, gauge=TALL)).parts[0], solve="always")
    assert not stretched_rows(flat)
    assert len(yarn_mesh(flat)) == 1


def test_a_cup_pressed_flat_is_stretched_round_its_rim_and_a_ruffle_crowded() -> None:
    """Six and twenty dc a round, twice as tall as wide, have 0.48 and 1.59 times the girth of a plane at their reach."""
    cup = stretched_rows(shape_part(measure(fabrics.disc(6, 6, "dc", stacked=False, gauge=TALL)).parts[0], flat=True, solve="always"))
    full = stretched_rows(shape_part(measure(fabrics.disc(20, 6, "dc", stacked=False, gauge=TALL)).parts[0], flat=True, solve="always"))
    assert cup[-1].worst_along > 0.15 and cup[-1].label == "Rnd 6"
    assert full[-1].worst_along < -0.15 and full[-1].crowded == 120
    (place,) = full[-1].places
    assert (place.first, place.last) == (1, 120)


def test_places_are_counted_in_stitches_of_the_row_as_they_are_worked() -> None:
    """Of a cloth 20 wide the last quarter at edge B is pulled out by 30 %: 16 to 20 of a row worked towards B, 1 to 5 of one back."""
    part = shape_part(measure(fabrics.rectangle(20, 4)).parts[0])
    unit = part.measures.scale.unit_cm
    at = part.at.copy()
    beyond = at[:, 0] - 14.6 * unit
    at[:, 0] += np.where(beyond > 0, 0.3 * beyond, 0.0)
    rows = {row.label: row for row in stretched_rows(replace(part, at=at))}
    (there,), (back,) = rows["Row 1"].places, rows["Row 2"].places
    assert (there.first, there.last) == (16, 20) and (back.first, back.last) == (1, 5)
    assert there.worst == pytest.approx(0.3) and rows["Row 1"].stretched == 5 and not rows["Row 1"].crowded


def test_a_mat_that_cups_tells_where_it_would_be_stretched_if_pinned_out() -> None:
    rounds = fabrics.disc(6, 6, "dc", stacked=False, gauge=TALL)
    for claims in ("flat", "toy"):
        pattern = replace(rounds.pattern, facts=replace(rounds.pattern.facts, intended=claims))  # type: ignore[arg-type]
        made = shape(measure(replace(rounds, pattern=pattern)))
        said = "\n".join(shape_lines(made))
        assert ("Pinned out flat, it would be more than 15 % stretched" in said) == (claims == "flat")
        assert bool(shape_json([made])["parts"][0]["stretched_if_flat"]) == (claims == "flat")


def test_stretched_and_crowded_stitches_are_meshes_of_their_own_in_the_files() -> None:
    made = shape(measure(fabrics.disc(20, 6, "dc", stacked=False, gauge=TALL)))
    pressed = shape_part(made.parts[0].measures, flat=True, solve="always")
    names = [mesh.name for mesh in yarn_mesh(pressed)]
    assert names[0] == "" and any(name.endswith("(crowded)") for name in names)
    (whole_yarn,) = yarn_mesh(pressed, mapped=False)
    assert whole_yarn.marked == "" and len(whole_yarn.faces) == sum(len(mesh.faces) for mesh in yarn_mesh(pressed))
    whole = type(made)(measures=made.measures, parts=(pressed,))
    assert b"(crowded)" in to_glb(whole) and b"(crowded)" in to_obj(whole)
    assert b"(crowded)" not in to_glb(made)


@pytest.mark.parametrize(("kind", "gauge", "tight"), [("sc", (10.0, 10.0), 41), ("dc", (20.0, 10.0), 0)])
def test_an_edge_that_gains_a_stitch_a_row_is_tight_in_short_stitches(kind: str, gauge: tuple[float, float], tight: int) -> None:
    """Its outer posts would have to be sqrt(h2 + w2) / h as long: 1.41 for stitches as tall as wide, 1.12 for twice as tall."""
    made = shape(measure(fabrics.bevelled_strip(kind, gauge={kind: gauge})))
    said = "\n".join(shape_lines(made))
    assert (f"its end stitches lean out, {tight} % too short" in said) == bool(tight)


def test_an_edge_of_rows_that_bend_is_not_told_by_the_slant_of_straight_rows() -> None:
    """A shawl from the middle of its upper edge: rows laid straight would lean far out, as it lies its edges are the neck."""
    rows = "".join(
        f"Row {r}: Ch 1, 2 sc in first st, sc in next {n} sts, 3 sc in next st, sc in next {n} sts, 2 sc in last st, turn.\n"
        for r, n in enumerate(range(2, 18, 2), 3)
    )
    text = (
        "Gauge: 16 sc and 18 rows = 10 cm\n\nCh 2.\nRow 1: 3 sc in 2nd ch from hook, turn. (3 sc)\n"
        f"Row 2: Ch 1, 2 sc in first st, 3 sc in next st, 2 sc in last st, turn. (7 sc)\n{rows}"
    )
    said = "\n".join(shape_lines(shape(measure(work(read(text))))))
    assert "its rows bent" in said and "is tight" not in said and "its point hangs" in said and "in the middle" in said
