"""Pieces in rounds sewn on each other: each where the words put it, all relaxed together; what is not told is said."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.measuring import measure
from hookwright.reading import read
from hookwright.shaping import Shape, shape, shape_lines
from hookwright.working import work


def ball(name: str, widest: int, even: int, copies: str = "") -> str:
    """A ball of six increases a round, left open at twelve stitches."""
    rows = ["6 sc in magic ring. (6 sc)", "2 sc in each st around. (12 sc)"]
    rows += [f"[sc in next {n - 2} sts, 2 sc in next st] 6 times. ({6 * n} sc)" for n in range(3, widest + 1)]
    rows += [f"Sc in each st around. ({6 * widest} sc)"] * even
    rows += [f"[sc in next {n - 1} sts, sc2tog] 6 times. ({6 * n} sc)" for n in range(widest - 1, 1, -1)]
    return f"## {name}{copies}\n" + "\n".join(f"Rnd {k}: {row}" for k, row in enumerate(rows, start=1)) + "\nFasten off.\n\n"


LIMB = (
    "Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: [sc in next st, 2 sc in next st] 3 times. (9 sc)\n"
    "Rnds 3-8: Sc in each st around. (9 sc)\nFasten off.\n\n"
)


@pytest.fixture(scope="module")
def toy() -> Shape:
    limbs = "".join(f"## {name}\n{LIMB}" for name in ("Arm (make 2)", "Leg (make 2)", "Tail", "Horn", "Wing (make 2)"))
    sewn = (
        "Sew the head to the body. Sew the arms to either side of the body at Rnd 10. Sew the legs to the bottom of the body. Sew the "
        "tail to the back of the body at Rnd 6. Sew the horn to the top of the head. Sew wings to body.\n"
    )
    text = "US terms\nGauge: 20 sc and 22 rows = 10 cm\n\n" + ball("Body", 5, 6) + ball("Head", 4, 3) + limbs + "## Making up\n" + sewn
    return shape(measure(work(read(text))))


def test_every_piece_is_where_the_words_put_it(toy: Shape) -> None:
    ((thing, made),) = toy.together
    assert made is not None and made.joined.settled and made.joined.error < 0.03
    assert made.joined.gap_cm < 0.5 * toy.measures.scale.unit_cm
    at: dict[str, list[np.ndarray]] = {}
    for part in made.parts:
        at.setdefault(part.measures.name, []).append(part.at)
    body, head = at["Body"][0], at["Head"][0]
    middle = body.mean(axis=0)
    assert head[:, 2].min() > body[:, 2].max() - 1.0 and np.linalg.norm((head.mean(axis=0) - middle)[:2]) < 0.5
    left, right = sorted((arm.mean(axis=0) - middle for arm in at["Arm"]), key=lambda each: float(each[0]))
    assert left[0] < -2 and right[0] > 2 and abs(left[1]) < 1 and abs(right[1]) < 1
    rnd_10 = body[int(made.parts[0].cloth.first[9]) : int(made.parts[0].cloth.first[10])]
    for arm, sign in zip(sorted(at["Arm"], key=lambda each: float(each[:, 0].mean())), (-1, 1), strict=True):
        rim = arm[-9:].mean(axis=0)
        assert rim[2] == pytest.approx(rnd_10[:, 2].mean(), abs=0.6) and sign * (rim - middle)[0] == pytest.approx(
            np.ptp(rnd_10[:, 0]) / 2, abs=0.8
        )
    assert all(leg[:, 2].mean() < body[:, 2].min() for leg in at["Leg"])
    assert at["Tail"][0].mean(axis=0)[1] > middle[1] + 2
    assert at["Horn"][0][:, 2].mean() > head[:, 2].max() - 0.5
    assert "Wing" not in at and any("Wing" in line and "not told" in line for line in thing.assumed)


def test_it_is_told(toy: Shape) -> None:
    lines = list(shape_lines(toy))
    assert any("2 x Arm on Body at the sides at Rnd 10." in line for line in lines)
    assert any("Head end to end on Body." in line for line in lines)
    assert any("Sewn together it is" in line for line in lines)
