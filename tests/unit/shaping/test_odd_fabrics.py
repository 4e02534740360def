"""Fabrics nobody would make: never a NaN, never a hang, and an honest word."""

import numpy as np
import pytest
from tests import fabrics
from tests.fabrics import Element, element, ring_round

from hookwright.measuring import measure
from hookwright.shaping import shape, shape_json, shape_lines, to_glb, to_obj
from hookwright.working.fabric import Fabric, How, Role

ODD = {
    "nothing": fabrics.fabric(),
    "an empty part": fabrics.fabric(fabrics.flat_part([])),
    "one stitch": fabrics.flat([[("sc", 0)]], chains=1),
    "one stitch in a ring": fabrics.rounds([ring_round(1, "sc")]),
    "chains only": fabrics.flat([[("ch", ())] * 5, [("ch", ())] * 3]),
    "no feet": fabrics.flat([[("sc", ())] * 5, [("sc", ())] * 7]),
    "a thousandfold increase": fabrics.flat([fabrics.across(1, "sc"), [("sc", 0)] * 1000], chains=1),
    "a thousandfold round": fabrics.rounds([ring_round(1, "sc"), [("sc", 0)] * 1000]),
    "all into one": fabrics.flat([fabrics.across(30, "dc"), [("dc30tog", tuple(range(30)))]], chains=30),
    "stitches of no size": fabrics.rectangle(4, 4, gauge={"dc": (1e9, 1e9)}),
    "stitches a kilometre wide": fabrics.rectangle(4, 4, gauge={"dc": (1e-4, 1e-4)}),
    "slip stitches, joins and starts": fabrics.rounds(
        [[Element("ch", role=Role.START), element("sc", -1), Element("sl st", role=Role.JOIN)], [Element("sl st", role=Role.TRAVEL)]]
    ),
    "row ends only": fabrics.flat([fabrics.across(4, "sc"), [element("sc", -1, how=How.SIDE) for _ in range(9)]], chains=4),
    "feet that are not there": fabrics.flat([fabrics.across(4, "sc"), [("sc", 99), ("sc", 3)]], chains=4),
    "two parts, one empty": fabrics.fabric(fabrics.flat_part([]), fabrics.flat_part(fabrics.rectangle_rows(3, 3), chains=3, name="Cuff")),
}


@pytest.mark.parametrize("name", list(ODD))
@pytest.mark.parametrize("solve", ["needed", "always", "never"])
def test_every_number_is_finite(name: str, solve: str) -> None:
    made: Fabric = ODD[name]
    out = shape(measure(made), solve=solve, seconds=5.0)  # type: ignore[arg-type]
    for part in out.parts:
        assert np.isfinite(part.at).all()
        assert np.isfinite(part.error)
        assert np.isfinite([part.width_cm, part.length_cm, part.girth_cm, part.strain]).all()
    assert "nan" not in str(shape_json([out])).lower()
    assert list(shape_lines(out)) or not out.parts
    assert to_glb(out)[:4] == b"glTF"
    assert to_obj(out).startswith(b"#")
