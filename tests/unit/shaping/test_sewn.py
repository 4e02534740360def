"""Pieces in rounds sewn on each other: each where the words put it, all relaxed together; what is not told is said."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.measuring import measure
from hookwright.reading import read
from hookwright.shaping import Shape, shape, shape_lines
from hookwright.shaping.skin import triangles
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


def windings(points: np.ndarray, at: np.ndarray, faces: np.ndarray) -> np.ndarray:
    """How often a closed surface goes round each point: the solid angle of its triangles (van Oosterom and Strackee 1983, from memory)."""
    found = []
    for point in points:
        a, b, c = (at[faces[:, k]] - point for k in range(3))
        x, y, z = (np.linalg.norm(each, axis=1) for each in (a, b, c))
        over = np.einsum("ij,ij->i", a, np.cross(b, c))
        under = x * y * z + np.einsum("ij,ij->i", a, b) * z + np.einsum("ij,ij->i", b, c) * x + np.einsum("ij,ij->i", a, c) * y
        found.append(abs(2 * np.arctan2(over, under).sum()) / (4 * np.pi))
    return np.array(found)


def test_no_limb_goes_into_the_body() -> None:
    """Wide limbs that hang against a body; left to themselves 9 to 18 of the stitches of each would lie in it."""
    limb = (
        "Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"
        "Rnd 3: [sc in next st, 2 sc in next st] 6 times. (18 sc)\n"
        "Rnds 4-12: Sc in each st around. (18 sc)\nRnd 13: [sc in next st, sc2tog] 6 times. (12 sc)\nFasten off.\n\n"
    )
    text = f"US terms\nGauge: 20 sc and 22 rows = 10 cm\n\n{ball('Body', 5, 10)}## Arm (make 2)\n{limb}## Leg (make 2)\n{limb}"
    text += "## Making up\nSew the arms to the sides of the body at Rnd 13. Sew the legs to the bottom of the body.\n"
    ((_, made),) = shape(measure(work(read(text)))).together
    assert made is not None and made.joined.settled and len(made.parts) == 5
    body = made.parts[0]
    end = np.arange(int(body.cloth.first[-2]), int(body.cloth.first[-1]))
    lid = np.stack([np.full(len(end), len(body.at)), end, np.roll(end, -1)], axis=1)  # its open end, closed
    at, faces = np.vstack([body.at, body.at[end].mean(axis=0)]), np.vstack([triangles(body.cloth), lid])
    assert windings(body.at.mean(axis=0)[None], at, faces)[0] > 0.9
    for part in made.parts[1:]:
        assert (windings(part.at, at, faces) > 0.5).mean() < 0.02
