"""Bottoms that walls stand on: begun in one chain as in a ring, and square ones with the corners they have."""

from __future__ import annotations

import math

import numpy as np
import pytest

from hookwright.measuring import measure
from hookwright.reading import read
from hookwright.shaping import shape
from hookwright.working import work

SC = "Gauge: 16 sc and 16 rows = 10 cm\n\n"
SQUARE = (
    "Ch 2.\nRnd 1: 4 sc in 2nd ch from hook. (4 sc)\nRnd 2: 3 sc in each st around. (12 sc)\n"
    + "".join(
        f"Rnd {r}: [sc in next {r - 2} sts, 3 sc in next st, sc in next {r - 2} sts] 4 times. ({8 * r - 4} sc)\n" for r in range(3, 9)
    )
    + "Rnds 9-16: Sc in each st around. (60 sc)\n"
)
BALL = (
    "{start}Rnd 2: 2 sc in each st around. (12 sc)\nRnd 3: [sc in next st, 2 sc in next st] 6 times. (18 sc)\n"
    "Rnds 4-6: Sc in each st around. (18 sc)\nRnd 7: [sc in next st, sc2tog] 6 times. (12 sc)\nRnd 8: [sc2tog] 6 times. (6 sc)\n"
)


def test_a_round_all_in_one_chain_begins_as_a_ring_does() -> None:
    ring, chain = (
        shape(measure(work(read(SC + BALL.format(start=start))))).parts[0]
        for start in ("Rnd 1: Make a magic ring, 6 sc in ring. (6 sc)\n", "Ch 2.\nRnd 1: 6 sc in 2nd ch from hook. (6 sc)\n")
    )
    assert ring.lies == chain.lies == "closed"
    assert chain.height_cm == pytest.approx(ring.height_cm) and chain.error == pytest.approx(ring.error)


def test_a_square_bottom_makes_a_box() -> None:
    """8 rounds of sc as tall as wide: 2 x 8 x 0.625 = 10 cm across, walls of 8 rounds 5 cm high; its corners lie 1.41 times as far out as
    the middles of its sides (the stitches that turn them cut a little of that off)."""
    (part,) = shape(measure(work(read(SC + SQUARE)))).parts
    rounds = part.measures.rounds
    assert rounds is not None and rounds.flat_base == 8 and rounds.base_across_cm == pytest.approx(10.0, rel=0.05)
    assert part.settled and part.error < 0.01 and part.height_cm == pytest.approx(5.0, rel=0.05)
    for r in (8, 12):
        at = part.at[int(part.cloth.first[r]) : int(part.cloth.first[r + 1]), :2]
        out = np.linalg.norm(at - at.mean(axis=0), axis=1)
        assert 1.25 < out.max() / out.min() < math.sqrt(2) + 0.05
