"""Sizes of stitches, rows and flat parts."""

import pytest
from shapely.geometry import Polygon
from tests import fabrics
from tests.fabrics import Piece, element, fabric

from hookwright.measuring import measure
from hookwright.pattern import Facts, Gauge
from hookwright.working.fabric import How

DC = {"dc": (14.0, 7.0)}


def test_own_gauge_gives_width_and_height() -> None:
    part = measure(fabrics.rectangle(28, 14, gauge=DC)).parts[0]
    assert part.width_cm == pytest.approx(20.0)
    assert part.length_cm == pytest.approx(20.0)
    assert part.area_cm2 == pytest.approx(400.0)
    assert part.outline_area_cm2 == pytest.approx(400.0)


def test_a_stitch_without_gauge_goes_by_ratio_and_says_so() -> None:
    measures = measure(fabrics.rectangle(10, 10, "sc", gauge=DC))
    assert measures.scale.width_cm("sc") == pytest.approx(10 / 14)
    assert measures.scale.height_cm("sc") == pytest.approx(10 / 7 * 0.9 / 1.8)
    assert any(sentence.startswith("sc:") for sentence in measures.assumed)


def test_a_gauge_without_rows_takes_the_ratio_and_says_so() -> None:
    measures = measure(fabrics.rectangle(10, 10, gauge=Gauge(stitch="dc", stitches=10)))
    assert measures.scale.height_cm("dc") == pytest.approx(1.8)
    assert any("no row gauge" in sentence for sentence in measures.assumed)


def test_a_gauge_in_sts_fits_the_whole_fabric() -> None:
    rows = [fabrics.across(10, "sc" if r % 2 else "dc") for r in range(10)]
    part = measure(fabrics.flat(rows, chains=10, gauge=Gauge(stitch="st", stitches=10, rows=10))).parts[0]
    assert part.width_cm == pytest.approx(10.0)
    assert part.length_cm == pytest.approx(10.0)
    assert part.rows[1].height_cm == pytest.approx(2 * part.rows[2].height_cm)


def test_a_gauge_in_shells_is_not_taken_for_stitches() -> None:
    measures = measure(fabrics.rectangle(10, 10, gauge=Gauge(stitch="shell", stitches=3, rows=5)))
    assert "shell" in measures.assumed[0]
    assert measures.scale.width_cm("dc") == pytest.approx(0.7)


def test_no_gauge_at_all_goes_by_the_hook() -> None:
    made = fabric(fabrics.flat_part(fabrics.rectangle_rows(10, 4), chains=10), facts=Facts(hook_mm=4.0))
    measures = measure(made)
    assert measures.parts[0].width_cm == pytest.approx(10 * 0.4 * 1.4)
    assert "4 mm hook" in measures.assumed[0]


def test_blocked_and_unblocked_gauge() -> None:
    gauges = (Gauge(stitch="dc", stitches=14, rows=7, blocked=False), Gauge(stitch="dc", stitches=12.5, rows=6.25, blocked=True))
    made = fabric(fabrics.flat_part(fabrics.rectangle_rows(25, 10), chains=25), facts=Facts(gauge=gauges))
    assert measure(made, blocked=True).parts[0].width_cm == pytest.approx(20.0)
    assert measure(made, blocked=False).parts[0].width_cm == pytest.approx(25 / 1.4)
    assert measure(made).parts[0].width_cm == pytest.approx(25 / 1.4)


def test_post_stitches_make_a_lower_row() -> None:
    rows = [fabrics.across(10, "dc"), [element("FPdc", 9 - i, how=How.FRONT_POST) for i in range(10)]]
    part = measure(fabrics.flat(rows, chains=10, gauge=DC)).parts[0]
    assert part.rows[2].height_cm < part.rows[1].height_cm


def test_a_filet_mesh_keeps_its_width() -> None:
    """dc, ch 1, skip 1: as wide as the dc below."""
    solid = fabrics.across(21, "dc")
    mesh = [item for i in range(11) for item in ([("dc", 20 - 2 * i)] + ([("ch", ())] if i < 10 else []))]
    part = measure(fabrics.flat([solid, mesh], chains=21, gauge=DC)).parts[0]
    assert part.rows[2].width_cm == pytest.approx(15.0)
    assert part.rows[2].chain_cm == pytest.approx(10 / 1.4)


def test_an_arch_too_long_for_its_room_bows_upward() -> None:
    solid = fabrics.across(21, "sc")
    arches = [item for i in range(6) for item in ([("sc", 20 - 4 * i)] + ([("ch", ())] * 5 if i < 5 else []))]
    part = measure(fabrics.flat([solid, arches], chains=21, gauge={"sc": (10, 10)})).parts[0]
    assert part.rows[2].width_cm == pytest.approx(21.0)
    assert part.rows[2].height_cm > part.rows[1].height_cm


def test_a_chain_that_passes_over_nothing_adds_its_width() -> None:
    solid = fabrics.across(10, "dc")
    corner = [("dc", 9 - i) for i in range(5)] + [("ch", ()), ("ch", ())] + [("dc", 5 - i) for i in range(6)]
    part = measure(fabrics.flat([solid, corner], chains=10, gauge={"dc": (10, 5)})).parts[0]
    assert part.rows[2].width_cm == pytest.approx(13.0)


def test_edges_of_the_bevelled_strip() -> None:
    part = measure(fabrics.bevelled_strip(gauge={"dc": (13, 6.5)})).parts[0]
    assert part.edges["A"].straight
    assert not part.edges["B"].straight
    out, back = [stretch for stretch in part.edges["B"].stretches if abs(stretch.slant_deg) > 1]
    assert (out.first, out.last, back.first, back.last) == (1, 19, 83, 101)
    assert out.slant_deg == pytest.approx(26.57, abs=0.01)  # one stitch a row: atan(6.5/13)
    assert back.slant_deg == pytest.approx(-26.57, abs=0.01)


def test_right_side_view_puts_edge_a_at_the_right_for_a_right_hander() -> None:
    part = measure(fabrics.triangle(20, gauge=DC)).parts[0]
    right, left = part.right_side_outline(), part.right_side_outline(left_handed=True)
    widest = max(x for x, _ in right)
    assert max(x for x, y in right if y == 0) == pytest.approx(widest)
    assert min(x for x, y in left if y == 0) == 0.0
    assert Polygon(right).area == pytest.approx(part.outline_area_cm2, rel=1e-3)  # points are rounded to 0.01 mm
    assert Polygon(left).area == pytest.approx(part.outline_area_cm2, rel=1e-3)


def test_places_left_unworked_make_a_step() -> None:
    narrow = [[("dc", 9 - i) for i in range(6)], *[fabrics.across(6, "dc") for _ in range(3)]]
    part = measure(fabrics.flat([*[fabrics.across(10, "dc")] * 4, *narrow], chains=10, gauge={"dc": (10, 5)})).parts[0]
    outline = Polygon(part.outline)
    assert outline.is_valid
    assert outline.area == pytest.approx(10 * 8 + 6 * 8)
    assert len(part.outline) == 6


def test_division_gives_one_outline_with_two_shoulders() -> None:
    piece = Piece().foundation(20)
    for _ in range(4):
        piece.row(fabrics.across(20, "dc"))
    piece.row([("dc", 19 - i) for i in range(6)]).row(fabrics.across(6, "dc"))
    piece.row([element("dc", 5 - i, back=3) for i in range(6)]).row(fabrics.across(6, "dc"))
    rows = piece.part().rows
    import dataclasses

    rows = (*rows[:7], dataclasses.replace(rows[7], below=4), *rows[8:])
    part = measure(fabric(dataclasses.replace(piece.part(), rows=rows), gauge={"dc": (10, 5)})).parts[0]
    outline = Polygon(part.outline)
    assert outline.is_valid
    assert outline.area == pytest.approx(20 * 8 + 2 * 6 * 4) == pytest.approx(part.area_cm2)
    assert part.length_cm == pytest.approx(12.0)


def test_one_stitch_and_nothing_at_all() -> None:
    one = measure(fabrics.flat([[("sc", 0)]], chains=1, gauge={"sc": (10, 10)})).parts[0]
    assert (one.width_cm, one.length_cm) == (pytest.approx(1.0), pytest.approx(1.0))
    nothing = measure(fabrics.fabric(fabrics.flat_part([]))).parts[0]
    assert (nothing.width_cm, nothing.length_cm, nothing.outline, nothing.lies) == (0.0, 0.0, (), "unknown")


def test_area_by_kind_adds_up() -> None:
    part = measure(fabrics.bevelled_strip(gauge={"dc": (13, 6.5)})).parts[0]
    for row in part.rows:
        assert sum(row.areas_cm2.values()) == pytest.approx(row.stitch_area_cm2)
    assert sum(row.stitch_area_cm2 for row in part.rows) == pytest.approx(1678 * 10 / 13 * 10 / 6.5)
