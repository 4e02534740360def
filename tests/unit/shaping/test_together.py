"""Parts relaxed together: joins are part of the solve, sizes agree with the parts added up, what does not fit gives way."""

from __future__ import annotations

import math

import numpy as np
import pytest

from hookwright.measuring import measure
from hookwright.reading import read
from hookwright.shaping import Shape, shape, shape_json, shape_lines, to_glb, to_obj
from hookwright.shaping.assembling import TogetherShape
from hookwright.shaping.stuffed import pressure, stuffed_profile
from hookwright.working import work

GAUGE = "US terms\nGauge: 16 sc and 18 rows = 10 cm\n\n"
W, H = 10 / 16, 10 / 18


def panel(name: str, stitches: int, rows: int) -> str:
    return (
        f"## {name}\nCh {stitches + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across. ({stitches} sc)\n"
        f"Rows 2-{rows}: Ch 1, turn, sc in each st across. ({stitches} sc)\nFasten off.\n\n"
    )


def disc(name: str, rounds: int) -> str:
    lines = ["Rnd 1: 6 sc in magic ring. (6 sc)", "Rnd 2: 2 sc in each st around. (12 sc)"]
    lines += [f"Rnd {n}: [sc in next {n - 2} sts, 2 sc in next st] 6 times. ({6 * n} sc)" for n in range(3, rounds + 1)]
    return f"## {name}\n" + "\n".join(lines) + "\nFasten off.\n\n"


def shaped(text: str) -> Shape:
    return shape(measure(work(read(GAUGE + text))))


def together(text: str) -> TogetherShape:
    (thing,) = shaped(text).together
    assert thing[1] is not None
    return thing[1]


def test_squares_that_match_fit_where_they_are_put() -> None:
    it = together(panel("Square (make 6)", 16, 18) + "## Joining\nSew 6 squares in 2 rows of 3.\n")
    assert not it.joined.solved and it.joined.error < 0.01
    assert it.size_cm == pytest.approx((30.0, 20.0), rel=0.005)
    assert len(it.parts) == 6


def test_a_seam_of_sc_adds_its_height() -> None:
    text = panel("Square (make 6)", 16, 18) + "## Joining\nJoin 6 squares in 2 rows of 3 with a sc seam.\n"
    it = together(text)
    assert (it.thing.width_cm, it.thing.length_cm) == pytest.approx((30 + 2 * H, 20 + H))
    assert it.size_cm == pytest.approx((it.thing.width_cm, it.thing.length_cm), rel=0.005)
    assert any("seam of sc" in line for line in it.thing.assumed)


def test_a_larger_motif_among_smaller_ones_is_crowded_and_they_are_stretched() -> None:
    text = (
        panel("Square (make 4)", 16, 18) + panel("Tile (make 4)", 18, 20) + "## Joining\nSew 8 squares and tiles in 2 rows of 4 squares.\n"
    )
    it = together(text)
    assert it.joined.solved and it.joined.settled and it.joined.error > 0.01
    small, large = (next(part for k, part in zip(it.indices, it.parts, strict=True) if k == want) for want in (0, 1))
    assert small.stretch[small.ties.edges].mean() > 0.002
    assert large.stretch[large.ties.edges].mean() < -0.002
    assert 4 * 10 < it.size_cm[0] < 4 * 18 * W


@pytest.mark.parametrize(("stitches", "way"), [(70, "in"), (143, "flat"), (260, "waves")])
def test_a_border_pulls_the_edge_in_or_waves(stitches: int, way: str) -> None:
    text = (
        panel("Panel", 32, 36)
        + f"## Border\nRnd 1: Join yarn in any corner, work {stitches} sc evenly around edge; join. ({stitches} sc)\n"
    )
    it = together(text)
    inner, border = it.parts
    first = inner.at[int(inner.cloth.first[1]) : int(inner.cloth.first[2])]
    edge = float(np.linalg.norm(first[-1] - first[0])) + W
    if way == "in":
        assert edge < 18 and float(np.ptp(inner.at[:, 2])) > 2  # the edge is drawn together, and the panel arches
    elif way == "waves":
        assert float(np.ptp(border.at[:, 2])) > H and float(np.ptp(inner.at[:, 2])) < float(np.ptp(border.at[:, 2]))
    else:
        assert float(np.ptp(border.at[:, 2])) == 0 and edge == pytest.approx(20, rel=0.02)
        assert it.size_cm == pytest.approx((it.thing.width_cm, it.thing.length_cm), rel=0.02)


@pytest.mark.parametrize(("stitches", "way"), [(30, "in"), (53, "flat"), (100, "waves")])
def test_a_row_along_row_ends_is_part_of_the_solve(stitches: int, way: str) -> None:
    text = panel("Panel", 32, 60).replace(
        "Fasten off.", f"Row 61: Do not turn, ch 1, work {stitches} sc evenly along side edge. ({stitches} sc)"
    )
    it = together(text)
    inner, strip = it.parts
    rise = float(np.ptp(strip.at[:, 2]))
    if way == "flat":
        assert rise == 0 and it.size_cm == pytest.approx((20 + H, 60 * H), rel=0.02)
    elif way == "waves":
        assert rise > 0.5 and float(np.ptp(inner.at[:, 2])) < 1.5 * rise
    else:
        first, last = strip.at[0], strip.at[-1]
        assert float(np.linalg.norm(last - first)) < 0.95 * 60 * H
    assert strip.at[:, 0].mean() > inner.at[:, 0].max() - 1 or strip.at[:, 0].mean() < inner.at[:, 0].min() + 1


def test_ends_joined_are_a_round_tube() -> None:
    it = together(panel("Cowl", 32, 108) + "Sew the short ends together.\n")
    (part,) = it.parts
    radius = np.hypot(part.at[:, 0], part.at[:, 1])
    assert radius == pytest.approx(60 / math.tau, rel=0.02)
    assert it.joined.gap_cm < 0.05 and it.stands


def test_a_folded_panel_is_a_bag_with_its_sides_closed() -> None:
    it = together(panel("Panel", 40, 90) + "Fold in half and seam sides.\n")
    assert it.joined.error < 0.01 and it.joined.gap_cm < 0.1
    assert it.size_cm == pytest.approx((25.0, 25.0), rel=0.03)


def test_a_front_and_a_back_sewn_up() -> None:
    it = together(panel("Back", 48, 60) + panel("Front", 48, 60) + "Sew shoulders and side seams.\n")
    assert it.thing.kind == "garment" and it.joined.gap_cm < 0.1 and it.joined.error < 0.01
    back, front = it.parts
    assert np.abs(back.at[:, 1].mean() - front.at[:, 1].mean()) < 6  # one before the other, not side by side
    assert abs(back.at[:, 0].mean() - front.at[:, 0].mean()) < 0.5
    assert it.size_cm == pytest.approx((30.0, 60 * H), rel=0.03)


@pytest.mark.parametrize("rounds", [6, 5])
def test_a_bottom_sewn_to_a_body(rounds: int) -> None:
    body = "## Body\nCh 36, join with sl st to form a ring.\nRnd 1: Ch 1, sc in each ch around, join with sl st in first sc. (36 sc)\n"
    body += "Rnds 2-20: Ch 1, sc in each st around, join with sl st in first sc. (36 sc)\nFasten off.\n\n"
    it = together(disc("Bottom", rounds) + body + "## Assembly\nSew bottom to body.\n")
    assert it.joined.gap_cm < 0.2
    assert float(it.parts[0].at[:, 2].max()) < float(it.parts[1].at[:, 2].mean())
    assert it.size_cm[1] == pytest.approx(20 * H, rel=0.1)


def test_the_report_and_the_files_have_it() -> None:
    it = shaped(panel("Square (make 6)", 16, 18) + "## Joining\nJoin 6 squares in 2 rows of 3 with a sc seam.\n")
    (whole,) = shape_json([it])["together"]
    assert whole["relaxed"]["width_cm"] == pytest.approx(30 + 2 * H, rel=0.005) and whole["joining_cm"] == pytest.approx(H, abs=1e-3)
    assert any("Relaxed together" in line for line in shape_lines(it))
    assert to_glb(it)[:4] == b"glTF" and to_obj(it).startswith(b"#")


@pytest.mark.parametrize(
    "tail", ["Join 0 squares in 0 rows of 0.", "Sew side seams.", "Fold in half and seam sides.", "Sew bottom to body."]
)
def test_odd_seams_are_finite(tail: str) -> None:
    for text in (panel("Square (make 3)", 1, 2) + tail, disc("Body", 3) + tail, panel("Body", 2, 1) + disc("Bottom", 2) + tail):
        for _, it in shaped(text).together:
            assert it is None or np.isfinite(it.joined.at).all()


def test_stuffing_makes_a_drum_bulge_and_leaves_a_ball() -> None:
    drum = disc("Head", 5).replace("Fasten off.\n\n", "") + "Rnds 6-11: Sc in each st around. (30 sc)\n"
    drum += "".join(f"Rnd {17 - n}: [sc in next {n - 2} sts, sc2tog] 6 times. ({6 * (n - 1)} sc)\n" for n in range(5, 1, -1))
    (part,) = shaped(drum).parts
    assert part.measures.lies == "closed" and part.measures.rounds is not None
    at = stuffed_profile(part.measures.rounds, pressure(part.cloth))
    assert max(z for _, z in at) > 1.1 * (part.measures.rounds.height_cm or 0.0)
    assert max(r for r, _ in at) < 1.05 * part.measures.rounds.girth_cm / math.tau
    assert all(math.isfinite(value) for pair in at for value in pair)


def test_a_seam_with_a_width_keeps_its_motifs_apart_also_when_the_border_pulls() -> None:
    border = "## Border\nRnd 1: Join yarn in any corner, work 110 sc evenly around edge; join. (110 sc)\n"
    it = together(disc("Circle (make 4)", 4).replace("Circle", "Square") + "Join 4 squares in 2 rows of 2 with a sc seam.\n\n" + border)
    lower, upper = it.parts[0], it.parts[2]
    assert lower.at[:, 1].mean() < upper.at[:, 1].mean()
    square = together(panel("Square (make 4)", 16, 18) + "Join 4 squares in 2 rows of 2 with a sc seam.\n\n" + border)
    lower, upper = square.parts[0], square.parts[2]
    last, first = lower.at[int(lower.cloth.first[-2]) :], upper.at[: int(upper.cloth.first[1])]
    assert np.linalg.norm(last.mean(axis=0) - first.mean(axis=0)) == pytest.approx(H, rel=0.3)


def basket(grown: int, even: int) -> str:
    made = disc("Basket", grown).removesuffix("Fasten off.\n\n")
    return made + f"Rnds {grown + 1}-{grown + even}: Sc in each st around. ({6 * grown} sc)\nFasten off.\n\n"


def test_a_basket_of_one_cloth_stands_on_a_flat_bottom() -> None:
    made = shaped(basket(12, 12))
    (part,) = made.parts
    rounds = part.measures.rounds
    assert rounds is not None and rounds.flat_base == 12 and part.settled and part.error < 0.015
    first = part.cloth.first
    bottom, sides = part.at[: int(first[12])], part.at[int(first[13]) : int(first[-1])]
    assert np.ptp(bottom[:, 2]) < 0.25 * W
    out = np.linalg.norm(sides[:, :2] - sides[:, :2].mean(axis=0), axis=1)
    assert out == pytest.approx(np.full(len(out), 72 * W / math.tau), rel=0.05)
    assert np.ptp(part.at[:, 2]) == pytest.approx(12 * H, rel=0.06)
    assert any("first 12 rounds lie flat" in line for line in shape_lines(made))


def test_a_dome_has_no_flat_bottom() -> None:
    text = "## Dome\nRnd 1: 4 sc in magic ring. (4 sc)\nRnd 2: 2 sc in each st around. (8 sc)\n"
    text += "".join(f"Rnd {n}: [sc in next {n - 2} sts, 2 sc in next st] 4 times. ({4 * n} sc)\n" for n in range(3, 12))
    rounds = shaped(text).parts[0].measures.rounds
    assert rounds is not None and rounds.lies == "cups" and rounds.flat_base == 0


def body_piece(name: str, stitches: int, rows: int, up: int, out: int) -> str:
    """A back or a front with an armhole of `up` rows, `out` stitches left at each side."""
    kept = stitches - 2 * out
    return (
        f"## {name}\nCh {stitches + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. ({stitches} sc)\n"
        f"Rows 2-{rows}: Ch 1, sc in each st across, turn. ({stitches} sc)\n"
        f"Row {rows + 1}: Sl st in first {out} sts, ch 1, sc in each st to last {out} sts, turn. ({kept} sc)\n"
        f"Rows {rows + 2}-{rows + up}: Ch 1, sc in each st across, turn. ({kept} sc)\nFasten off.\n\n"
    )


SEWN_UP = "## Finishing\nSew shoulder seams. Set in sleeves. Sew side and sleeve seams.\n"


@pytest.mark.parametrize(("top", "fits"), [(32, True), (22, False)])
def test_sleeves_are_set_into_the_armholes(top: int, fits: bool) -> None:
    # an armhole of 18 rows on each of back and front is 20 cm, 32 stitches
    text = body_piece("Back", 32, 18, 18, 2) + body_piece("Front", 32, 18, 18, 2) + panel("Sleeve (make 2)", top, 14) + SEWN_UP
    ((thing, made),) = shaped(text).together
    assert thing.kind == "garment" and len(thing.sleeves) == 1 and made is not None
    assert [part.measures.name for part in made.parts] == ["Back", "Front", "Sleeve", "Sleeve"]
    assert any("armhole of 20.0 cm" in line for line in thing.because)
    assert bool(thing.misfits) != fits and made.joined.gap_cm < 0.1
    back, _, left, right = (part.at for part in made.parts)
    assert left[:, 0].mean() < back[:, 0].min() and right[:, 0].mean() > back[:, 0].max()
    for sleeve in made.parts[2:]:
        cuff, end = (sleeve.at[int(sleeve.cloth.first[r]) : int(sleeve.cloth.first[r + 1])] for r in (1, 14))
        assert abs(end[:, 0].mean()) < abs(cuff[:, 0].mean()) and end[:, 2].mean() > 9  # its top is at the body, above the sides
    if fits:
        assert made.joined.error < 0.03


def test_half_fronts_lie_side_by_side_before_the_back() -> None:
    half = (
        "Ch 17.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (16 sc)\nRows 2-18: Ch 1, sc in each st across, turn. (16 sc)\n"
        "Row 19: {arm}\nRows 20-36: Ch 1, sc in each st across, turn. (14 sc)\nFasten off.\n\n"
    )
    text = body_piece("Back", 32, 18, 18, 2)
    text += "## Left front\n" + half.format(arm="Sl st in first 2 sts, ch 1, sc in each st across, turn. (14 sc)")
    text += "## Right front\n" + half.format(arm="Ch 1, sc in each st to last 2 sts, turn. (14 sc)")
    ((_, made),) = shaped(text + "## Finishing\nSew shoulder seams. Sew side seams.\n").together
    assert made is not None and made.joined.gap_cm < 0.1
    back, left, right = (part.at for part in made.parts)
    assert left[:, 0].mean() > 3 and right[:, 0].mean() < -3 and left[:, 1].mean() < back[:, 1].mean() > right[:, 1].mean()


TUBE = "Ch 20, join with sl st to form a ring.\nRnd 1: Ch 1, sc in each ch around, join. (20 sc)\n"
NECK = (
    "Row 27: Ch 1, sc in next 11 sts, turn, leaving remaining sts unworked. (11 sc)\n{0}"
    "Second side\nRow 27: With right side facing, skip next 10 unworked sts of Row 26, join yarn in next st, ch 1, sc in same st and in "
    "each st across, turn. (11 sc)\n{0}"
).format("Rows 28-36: Ch 1, sc in each st across, turn. (11 sc)\nFasten off.\n")


def test_sleeves_in_rounds_and_a_divided_front_are_sewn_up() -> None:
    """A tube is set in by its wider end, its axis along the arm; a front with two sides is sewn at each shoulder by its own side."""
    head, back = GAUGE + panel("Back", 32, 36), panel("Front", 32, 26).replace("Fasten off.\n\n", NECK + "\n")
    sleeve = f"## Sleeve (make 2)\n{TUBE}Rnds 2-12: Ch 1, sc in each st around, join. (20 sc)\nFasten off.\n\n"
    text = head + back + sleeve + "## Finishing\nSew shoulder seams. Sew sleeves into armholes. Sew side seams.\n"
    ((thing, made),) = shape(measure(work(read(text)))).together
    assert made is not None and len(thing.sleeves) == 1 and len(made.parts) == 4
    assert made.joined.settled and made.joined.error < 0.01 and made.joined.gap_cm < 0.1
    _, front, left, right = made.parts
    body = front.at
    assert left.at[:, 0].min() < body[:, 0].min() - 5 and right.at[:, 0].max() > body[:, 0].max() + 5
    ends = [front.at[int(front.cloth.first[r]) : int(front.cloth.first[r + 1])].mean(axis=0) for r in (36, 46)]
    assert (ends[0][0] < 0) != (ends[1][0] < 0) and abs(ends[0][2] - ends[1][2]) < 1.0  # each side under its own shoulder


COLLAR, HOOD = panel("Collar", 50, 8), panel("Hood", 24, 60)


@pytest.mark.parametrize(
    ("piece", "front", "sewn"),
    [
        (COLLAR, "whole", "Sew collar to neck edge."),
        (HOOD, "divided", "Fold hood in half and seam the top. Sew hood to neck edge."),
    ],
)
def test_collars_and_hoods_stand_on_the_neck(piece: str, front: str, sewn: str) -> None:
    whole = panel("Front", 32, 36)
    text = GAUGE + panel("Back", 32, 36) + (panel("Front", 32, 26).replace("Fasten off.\n\n", NECK + "\n") if front == "divided" else whole)
    text += piece + "## Finishing\nSew shoulder seams. Sew side seams. " + sewn + "\n"
    ((thing, made),) = shape(measure(work(read(text)))).together  # the hood is no bag of its own
    assert made is not None and thing.neck == (2,) and made.joined.gap_cm < 0.1 and made.joined.error < 0.03
    back, _, top = (part.at for part in made.parts)
    assert top[:, 2].max() > back[:, 2].max() + 2.0 and abs(top[:, 0].mean() - back[:, 0].mean()) < 1.5
    if piece is HOOD:
        part = made.parts[2]
        ends = [int(part.cloth.first[r + 1]) - 1 for r in range(1, 61)]  # row ends, some at the neck and some at the seam
        starts = [int(part.cloth.first[r]) for r in range(1, 61)]
        upper = [max(pair, key=lambda node: float(top[node, 2])) for pair in zip(starts, ends, strict=True)]
        assert thing.hoods == (2,) and np.linalg.norm(top[upper[10]] - top[upper[-11]]) < 2.0  # its two halves meet on top
