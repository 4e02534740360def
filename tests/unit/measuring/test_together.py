"""Parts put together: sizes of blankets, bags, tubes and garments from their pieces, and what does not match."""

from __future__ import annotations

import math

import pytest

from hookwright.measuring import Assembled, PartMeasures, measure, put_together, unequal_edges
from hookwright.reading import read
from hookwright.working import work

GAUGE = "US terms\nGauge: 16 sc and 18 rows = 10 cm\n\n"
W, H = 10 / 16, 10 / 18


def things(text: str) -> tuple[Assembled, ...]:
    return put_together(measure(work(read(GAUGE + text))))


def panel(name: str, stitches: int, rows: int) -> str:
    return (
        f"## {name}\nCh {stitches + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across. ({stitches} sc)\n"
        f"Rows 2-{rows}: Ch 1, turn, sc in each st across. ({stitches} sc)\nFasten off.\n\n"
    )


def base(rounds: int) -> str:
    lines = ["Rnd 1: 6 sc in magic ring. (6 sc)", "Rnd 2: 2 sc in each st around. (12 sc)"]
    lines += [f"Rnd {n}: [sc in next {n - 2} sts, 2 sc in next st] 6 times. ({6 * n} sc)" for n in range(3, rounds + 1)]
    return "## Bottom\n" + "\n".join(lines) + "\n\n"


BORDER = (
    "## Border\nRnd 1: Join yarn in any corner, ch 1, sc evenly around, working 3 sc in each corner, "
    "join with sl st in first sc. ({0} sc)\n"
)


def test_blanket_of_motifs_is_rows_times_motif_and_two_borders() -> None:
    (blanket,) = things(panel("Square (make 12)", 16, 18) + "## Joining\nJoin 12 squares in 4 rows of 3.\n\n" + BORDER.format(224))
    assert (blanket.kind, blanket.rows, blanket.across) == ("blanket", 4, 3)
    assert (blanket.width_cm, blanket.length_cm) == pytest.approx((30 + 2 * H, 40 + 2 * H))
    assert blanket.border is not None and blanket.border.worst is None and not blanket.misfits


@pytest.mark.parametrize(("stitches", "lies"), [(150, "pulls"), (224, "flat"), (300, "waves")])
def test_border_pulls_or_waves_with_the_number_that_lies_flat(stitches: int, lies: str) -> None:
    text = panel("Square (make 12)", 16, 18) + "Join 12 squares in 4 rows of 3.\n\n" + BORDER.format(stitches)
    border = things(text)[0].border
    assert border is not None
    (first,) = border.rounds
    assert first.lies == lies
    edge = 140.0  # 2 x (30 + 40), and at least a rounded corner's 2 pi heights more, at most a square one's 8
    assert edge / W <= first.right <= (edge + 8 * H) / W + 0.5 or lies == "flat"
    if lies == "waves":
        assert first.right == pytest.approx((edge + 8 * H) / W, abs=0.6)


def test_a_number_of_motifs_that_does_not_fill_the_layout_is_said() -> None:
    (blanket,) = things(panel("Square (make 10)", 16, 18) + "Join squares in 4 rows of 3.\n")
    assert blanket.misfits == ("4 rows of 3 take 12 pieces, and 10 are made",)


def test_hexagons_lie_in_a_honeycomb() -> None:
    rounds = "\n".join(f"Rnd {n}: [sc in next {n - 2} sts, 2 sc in next st] 6 times. ({6 * n} sc)" for n in range(3, 9))
    head = "## Hexagon (make 12)\nRnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"
    text = f"{head}{rounds}\n\nJoin 12 hexagons in 3 rows of 4.\n"
    (blanket,) = things(text)
    assert blanket.corners == 6 and blanket.pitch_cm is not None
    flat = blanket.pitch_cm[0]
    assert blanket.width_cm == pytest.approx(4.5 * flat)
    assert blanket.length_cm == pytest.approx(flat * (2 * math.sqrt(3) / 2 + 2 / math.sqrt(3)))


def test_folded_panel_is_a_bag_and_folded_lengthwise_a_tube() -> None:
    (bag,) = things(panel("Panel", 64, 90) + "Fold in half and seam sides.\n")
    assert (bag.kind, bag.width_cm, bag.length_cm, bag.girth_cm) == ("bag", pytest.approx(40), pytest.approx(25), pytest.approx(80))
    (tube,) = things(panel("Panel", 32, 90) + "Fold lengthwise and whipstitch the long edges together.\n")
    assert (tube.kind, tube.girth_cm, tube.height_cm) == ("tube", pytest.approx(20), pytest.approx(50))


def test_short_ends_joined_make_a_ring_of_the_length() -> None:
    (cowl,) = things(panel("Cowl", 32, 108) + "Sew the short ends together.\n")
    assert (cowl.kind, cowl.girth_cm, cowl.height_cm) == ("tube", pytest.approx(60), pytest.approx(20))


def test_body_worked_on_from_its_base_is_one_piece() -> None:
    (bag,) = things(base(6) + "## Body\nRnds 7-30: Sc in each st around. (36 sc)\nFasten off.\n")
    assert (bag.kind, bag.names) == ("vessel", ("Bottom", "Body"))
    assert (bag.girth_cm, bag.height_cm) == (pytest.approx(36 * W), pytest.approx(24 * H))
    assert bag.merged is not None and len(bag.merged.part.rows) == 31 and bag.merged.lies == "cups"


def test_base_sewn_to_a_body_that_it_does_not_match() -> None:
    body = "## Body\nCh 36, join with sl st to form a ring.\nRnd 1: Ch 1, sc in each ch around, join with sl st in first sc. (36 sc)\n"
    body += "Rnds 2-20: Ch 1, sc in each st around, join with sl st in first sc. (36 sc)\nFasten off.\n\n"
    (bag,) = things(base(4) + body + "## Assembly\nSew bottom to body, easing the edge in.\n")
    assert bag.misfits and "7.5 cm less" in bag.misfits[0]
    (bag,) = things(base(6) + body + "## Assembly\nSew bottom to body.\n")
    assert not bag.misfits


def test_garment_is_as_wide_as_its_pieces_and_sides_must_match() -> None:
    finish = "## Finishing\nWhipstitch Back to Front along shoulders. Sew side seams.\n"
    (vest,) = things(panel("Back", 80, 100) + panel("Front", 80, 100) + finish)
    assert (vest.kind, vest.girth_cm) == ("garment", pytest.approx(100)) and not vest.misfits
    (vest,) = things(panel("Back", 80, 100) + panel("Front", 80, 90) + finish)
    assert vest.misfits == ("Back is 55.6 cm long and Front 50.0 cm: 5.6 cm must be eased in or left open",)


def test_an_edging_that_is_a_part_of_its_own_is_not_measured_on_itself() -> None:
    text = panel("Panel", 32, 36) + "## Edging\nRow 1: Join yarn at lower corner, work 30 sc evenly along row ends of left side. (30 sc)\n"
    assert not [border for part in measure(work(read(GAUGE + text))).parts for border in part.borders]


def test_single_pieces_make_nothing_together() -> None:
    assert things(panel("Scarf", 20, 20)) == ()


@pytest.mark.parametrize(
    "tail", ["Join 0 squares in 0 rows of 0.", "Sew side seams.", "Fold in half and seam sides.", "Sew bottom to body."]
)
def test_odd_seams_never_raise(tail: str) -> None:
    for text in (tail, panel("Square (make 3)", 1, 2) + tail, "## Body\nRnd 1: 6 sc in magic ring. (6 sc)\n\n" + tail):
        assert all(math.isfinite(thing.width_cm) and math.isfinite(thing.length_cm) for thing in things(text))


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("Sew the last row of Back to the last row of Front.", [("last row", 44, "last row", 40)]),
        ("Whipstitch Back to Front along the top edge.", [("last row", 44, "last row", 40)]),
        ("Sew bottom edge of Back to bottom edge of Front.", [("first row", 44, "first row", 40)]),
        ("Sew the top of Back to the side of Front.", [("last row", 44, "side", 20)]),
        ("Sew Front and Back together around three sides.", [("last row", 44, "last row", 40)]),
        ("Sew side seams.", []),
        ("Sew Back to Front.", []),
    ],
)
def test_edges_that_meet_in_a_seam(words: str, found: list[tuple[str, int, str, int]]) -> None:
    made = measure(work(read(GAUGE + panel("Back", 44, 20) + panel("Front", 40, 20) + "## Finishing\n" + words + "\n")))
    edges = [(each.longer, each.shorter) for each in unequal_edges(made)]
    assert [(long.which, long.steps, short.which, short.steps) for long, short in edges] == found
    for each in unequal_edges(made):
        assert each.more == pytest.approx(each.longer.long_cm / each.shorter.long_cm - 1) and each.right < each.longer.steps


def test_motifs_whose_last_rounds_differ_are_told_with_the_number_that_would_match() -> None:
    def motif(name: str, rounds: int) -> str:
        return base(rounds).replace("## Bottom", f"## {name} (make 6)")

    made = measure(
        work(read(GAUGE + motif("Disc", 6) + motif("Wheel", 7) + "## Joining\nJoin 12 discs and wheels in 4 rows of 3 circles.\n"))
    )
    (each,) = unequal_edges(made)
    assert (each.longer.name, each.longer.steps, each.shorter.steps, each.right) == ("Wheel", 42, 36, 36)


def test_a_strip_sewn_round_a_base_stands_as_high_as_it_is_wide() -> None:
    base = (
        "## Base\n\nRnd 1: Make a magic ring, 6 sc in ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"
        "Rnd 3: [sc in next st, 2 sc in next st] 6 times. (18 sc)\nRnd 4: [sc in next 2 sts, 2 sc in next st] 6 times. (24 sc)\n\n"
    )
    side = (
        "## Side\n\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (8 sc)\n"
        "Rows 2-27: Ch 1, sc in each st across, turn. (8 sc)\n\n"
    )
    told = "## Finishing\n\nSew the short ends of the Side together. Sew the Base to the Side.\n"
    vessel = next(thing for thing in things(base + side + told) if thing.kind == "vessel")
    assert vessel.girth_cm == pytest.approx(27 * H) and vessel.height_cm == pytest.approx(8 * W) and not vessel.misfits


@pytest.mark.parametrize(("many", "lies", "right"), [(240, "waves", 125), (84, "pulls", 124), (124, "flat", 124)])
def test_a_round_told_evenly_around_a_panel_goes_round_all_its_edges(many: int, lies: str, right: int) -> None:
    """30 sc by 34 rows: 4 x 18.8 cm of edge, 120 stitches and 4 more for the corners; no round of 240 stands on 30 of a last row alone."""
    text = (
        "## Panel\n\nCh 31.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (30 sc)\n"
        "Rows 2-34: Ch 1, sc in each st across, turn. (30 sc)\n\n"
        f"## Border\n\nRnd 1: Work {many} sc evenly around, join. ({many} sc)\n"
    )
    (whole,) = things(text)
    assert whole.kind == "bordered" and whole.border is not None
    (edge,) = whole.border.rounds
    assert edge.lies == lies and edge.right == pytest.approx(right, abs=4)


def _with_rounds(rounds: str) -> tuple[PartMeasures, tuple[Assembled, ...]]:
    """20 sc by 40 rows, 12.5 x 22.2 cm, and rounds numbered on after them."""
    measured = measure(work(read(GAUGE + panel("Mat", 20, 40).replace("Fasten off.\n", "") + rounds)))
    return measured.parts[0], put_together(measured)


SIDES = (
    "Rnd 41: Ch 1, turn, 3 sc in first st, sc in next 18 sts, 3 sc in last st, 36 sc evenly along side edge, 3 sc in corner, "
    "18 sc evenly along lower edge, 3 sc in corner, 36 sc evenly along side edge, join with sl st in first sc. (120 sc)\n"
)


def test_rounds_numbered_on_after_rows_go_round_them_and_are_no_rows_on_top() -> None:
    part, (whole,) = _with_rounds(f"{SIDES}Rnd 42: Ch 1, sc in each st around, join with sl st in first sc. (120 sc)\nFasten off.\n")
    assert (part.width_cm, part.length_cm) == (pytest.approx(20 * W), pytest.approx(40 * H)) and part.around == {41, 42}
    assert (whole.width_cm, whole.length_cm) == (pytest.approx(20 * W + 4 * H), pytest.approx(40 * H + 4 * H))
    assert whole.border is not None and [each.stitches for each in whole.border.rounds] == [120, 120]
    sides = [(border.edge, border.stitches) for border in part.borders]
    assert sorted(sides) == [("A", 36), ("B", 36)], "18 along the lower edge are not along row ends"


def test_a_round_worked_on_a_row_stitch_for_stitch_does_not_go_round_it() -> None:
    part, _ = _with_rounds("Rnd 41: Ch 1, turn, sc in each st around, join with sl st in first sc. (20 sc)\nFasten off.\n")
    assert not part.around


def test_of_a_border_told_without_a_count_no_number_is_called_wrong() -> None:
    told = SIDES.replace("36 sc evenly", "sc evenly").replace(" (120 sc)", "")
    _, (whole,) = _with_rounds(told)
    assert whole.border is not None and not whole.border.rounds and whole.border.wide_cm == pytest.approx(H)
