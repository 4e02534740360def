"""The second side of a V-neck is worked on the row it was left on, whether the draft is worked as drawn up or read back from its words."""

from __future__ import annotations

from hookwright.drafting import custom_of, draft
from hookwright.pattern import Gauge
from hookwright.reading import read
from hookwright.working import work
from hookwright.writing import PLAIN, write


def test_both_sides_of_a_v_neck_hold_as_many() -> None:
    gauge = Gauge(stitch="hdc", stitches=6.2, rows=31.1, over_cm=10.0)
    told: dict[str, str | float] = {"width": 72.6, "length": 30.0, "armhole": 20.0}
    made = draft("v-neck-front", custom_of(gauge, turning_chain=None), told)
    direct, back = (
        [row.counted.total for row in work(pattern).parts[0].rows if not row.foundation]
        for pattern in (made.pattern, read(write(made.pattern, style=PLAIN).text))
    )
    assert direct == back
