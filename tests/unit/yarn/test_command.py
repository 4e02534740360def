"""`hookwright yarn`: its JSON against the schema, every option, and bad input as one sentence with nothing written."""

from __future__ import annotations

import csv
import io
import json
import math
from pathlib import Path
from typing import Any

import jsonschema
import numpy as np
import pytest
from PIL import Image
from tests.unit.yarn.test_photo import drawn

from hookwright import yarn as package
from hookwright.cli.run import run

SCHEMA = json.loads((Path(package.__file__).parent / "data" / "yarn-1.schema.json").read_text(encoding="utf-8"))
PLAN = ["yarn", "--area", "86 x 86 cm", "--hook", "5 mm", "--ball", "100 g = 200 m"]
WRAP = """---
title: Slipway wrap
hook: 5 mm
gauge:
  - {in: dc, stitches: 14, rows: 7, over: 10 cm}
yarns:
  A: {name: Tangle, weight: medium, fibre: wool, metres: 180, grams: 100, colour: blue}
trims:
  - {kind: tassel, number: 3, wraps: 24, card: 10 cm, yarn: A}
---

## Wrap

Row 1: Ch 4, 3 dc in 4th ch from hook, turn. (3 dc)
Row 2: Ch 2 (does not count), dc in each st to last st, 2 dc in last st, turn. (4 dc)
Rows 3-40: Rep Row 2. (42 dc)
"""


@pytest.fixture
def wrap(tmp_path: Path) -> str:
    path = tmp_path / "slipway wrap ü.md"
    path.write_text(WRAP, encoding="utf-8")
    return str(path)


def told(words: list[str], capfd: pytest.CaptureFixture[str]) -> dict[str, Any]:
    assert run([*words, "--json"]) == 0, capfd.readouterr().err
    data: dict[str, Any] = json.loads(capfd.readouterr().out)
    jsonschema.validate(data, SCHEMA)
    return data


def test_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["properties"]["schema"]["const"] == "hookwright/yarn/1"


def test_a_plan_without_a_pattern(capfd: pytest.CaptureFixture[str]) -> None:
    plain, lace, relief = (told([*PLAN, *more], capfd)["yarns"][0] for more in ([], ["--openwork"], ["--relief"]))
    assert lace["of_which"]["rows"] / plain["of_which"]["rows"] == pytest.approx(package.constants().lace)
    assert relief["of_which"]["rows"] / plain["of_which"]["rows"] == pytest.approx(package.constants().relief)
    assert plain["metres"]["low"] < plain["metres"]["likely"] < plain["metres"]["high"]
    assert plain["yards"]["likely"] == pytest.approx(plain["metres"]["likely"] / 0.9144)
    assert plain["ounces"]["likely"] == pytest.approx(plain["grams"]["likely"] / 28.349523125)


def test_units_make_no_difference(capfd: pytest.CaptureFixture[str]) -> None:
    metric = told(["yarn", "--area", "50.8 x 25.4 cm", "--hook", "5", "--ball", "100 g = 182.88 m"], capfd)
    imperial = told(["yarn", "--area", "20 x 10 in", "--hook", "5 mm", "--ball", "200 yd = 100 g"], capfd)
    assert metric["yarns"][0]["metres"] == pytest.approx(imperial["yarns"][0]["metres"])


def test_a_pattern(wrap: str, capfd: pytest.CaptureFixture[str]) -> None:
    data = told(["yarn", wrap], capfd)
    use = data["yarns"][0]
    assert math.fsum(use["of_which"].values()) == pytest.approx(use["metres"]["likely"], abs=1e-9)
    assert math.fsum(row["metres"] for row in data["rows"]) == pytest.approx(use["of_which"]["rows"] + use["of_which"]["chains"], abs=1e-9)
    assert use["of_which"]["trims"] == pytest.approx(3 * 5.4)
    assert data["rows"][-1]["label"] == "Row 40"
    assert data["turn_around"]["row"].startswith("Row ")
    assert data["balls" if "balls" in data else "yarns"]
    assert run(["yarn", wrap]) == 0
    said = capfd.readouterr().out
    assert "suffice" in said and "Because" in said and "blue" in said


def test_left_over_yarn_turns_the_piece(wrap: str, capfd: pytest.CaptureFixture[str]) -> None:
    data = told(["yarn", wrap, "--left", "52 g"], capfd)
    turn = data["turn_around"]
    assert turn["stop_at_grams"] == math.ceil((52 + turn["reserved_grams"]) / 2)
    assert data["rows_left"]["rows"] < 41
    after = told(["yarn", wrap, "--left", "52 g", "--after", "Row 20"], capfd)
    assert after["rows_left"]["rows"] + 21 > data["rows_left"]["rows"]
    fine = told(["yarn", wrap, "--left", "52 g", "--scale", "0.1 g"], capfd)
    assert fine["turn_around"]["stop_at_grams"] <= turn["stop_at_grams"]


def test_log_sample_and_report_narrow(wrap: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    plain = told(["yarn", wrap], capfd)
    grams = plain["yarns"][0]["grams"]["likely"]
    so_far = {row["label"]: row["so_far"] / 1.8 for row in plain["rows"]}
    log = tmp_path / "rows.csv"
    log.write_text(
        "row,grams left\n" + "".join(f"Row {n},{180 - 1.1 * so_far[f'Row {n}']:.1f}\n" for n in range(8, 33, 4)), encoding="utf-8"
    )
    width = {}
    for name, words in {
        "none": [],
        "log": ["--log", str(log)],
        "sample": ["--sample", f"{grams:.1f} g"],
        "report": ["--report", f"{grams:.1f} g"],
    }.items():
        data = told(["yarn", wrap, *words, "--scale", "0.1 g"], capfd)
        metres = data["yarns"][0]["metres"]
        width[name] = metres["high"] / metres["likely"]
    assert width["sample"] < width["log"] < width["report"] < width["none"]
    assert told(["yarn", wrap, "--log", str(log), "--scale", "0.1 g"], capfd)["log"]["ratio"] == pytest.approx(1.1, abs=0.01)


def test_swap_warns_of_thickness_and_fibre(wrap: str, capfd: pytest.CaptureFixture[str]) -> None:
    swap = next(iter(told(["yarn", wrap, "--swap", "100 g = 110 m", "--fibre", "cotton"], capfd)["swap"].values()))
    assert len(swap["warnings"]) == 2
    assert swap["thickness_ratio"] == pytest.approx(math.sqrt(180 / 110))
    assert swap["balls_same_length"]["likely"] > swap["balls_same_size"]["likely"]
    same = next(iter(told(["yarn", wrap, "--swap", "50 g = 90 m"], capfd)["swap"].values()))
    assert same["warnings"] == []


def test_time_and_money(wrap: str, capfd: pytest.CaptureFixture[str]) -> None:
    data = told(["yarn", wrap, "--pace", "2.8 s", "--wage", "15", "--price", "90", "--ball-price", "8"], capfd)
    cost = data["cost"]
    assert cost["labour"] == pytest.approx(15 * data["hours"]["likely"])
    assert cost["implied_wage"] == pytest.approx((90 - cost["materials"]) / data["hours"]["likely"])
    slow = told(["yarn", wrap, "--pace", "10 a minute"], capfd)["hours"]
    assert slow["stitching"] == pytest.approx(6 / 2.8 * data["hours"]["stitching"])


def test_colours_of_a_typed_sequence(wrap: str, capfd: pytest.CaptureFixture[str]) -> None:
    data = told(["yarn", wrap, "--sequence", "blue 3 m, sand 2 m", "--from", "2.4 m"], capfd)
    colours = data["colours"]["A"]
    whole = sum(metres for kinds in colours["account"].values() for metres in kinds.values())
    assert whole == pytest.approx(180 * len(colours["balls"]), abs=1e-9)
    assert colours["balls"][0]["pulled_off"] == pytest.approx(2.4)
    assert colours["bands"][0]["colour"] == "blue" and len(colours["starts"]) == 3
    assert told(["yarn", wrap, "--sequence", "blue 3 m, sand 2 m", "--alternate", "2"], capfd)["colours"]["A"]["balls"][-1]["strand"] == 2


def test_short_repeats_are_looked_at_for_pools(wrap: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    short = told(["yarn", wrap, "--sequence", "blue 40 cm, sand 50 cm"], capfd)["colours"]["A"]
    assert short["pooling"] == [], "a piece that grows does not pool"
    scarf = tmp_path / "scarf.md"
    scarf.write_text(WRAP.split("Row 1:")[0] + "Row 1: Ch 22, dc in 4th ch from hook and in each ch across. (20 dc)\n"
                     "Rows 2-30: Ch 3, turn, dc in next st and in each st across. (20 dc)\n", encoding="utf-8")  # fmt: skip
    wrap = str(scarf)
    short = told(["yarn", wrap, "--sequence", "blue 40 cm, sand 50 cm"], capfd)["colours"]["A"]
    assert [one["stitches"] for one in short["pooling"]] == sorted(one["stitches"] for one in short["pooling"])
    assert len(short["pooling"]) == 7
    assert {one["effect"] for one in short["pooling"]} <= {"piles up", "drifts", "scatters"}
    assert told(["yarn", wrap, "--sequence", "blue 30 m, sand 50 m"], capfd)["colours"]["A"]["pooling"] == []
    assert run(["yarn", wrap, "--sequence", "blue 40 cm, sand 50 cm"]) == 0
    assert "it pools" in capfd.readouterr().out


def test_a_ball_begun_backward_and_a_knot(wrap: str, capfd: pytest.CaptureFixture[str]) -> None:
    words = ["yarn", wrap, "--sequence", "blue 3 m, sand 2 m, rust 1 m"]
    bands = {
        name: [band["colour"] for band in told([*words, *more], capfd)["colours"]["A"]["bands"]]
        for name, more in {
            "plain": [],
            "back": ["--backward"],
            "knot": ["--knot", "20 m, 3 m"],
            "knot back": ["--knot", "20 m, -3 m"],
        }.items()
    }
    assert bands["plain"][:3] == ["blue", "sand", "rust"] and bands["back"][:3] == ["rust", "sand", "blue"]
    assert bands["plain"][:9] == bands["knot"][:9] and bands["knot"] != bands["plain"] != bands["knot back"]


def test_a_photo_is_measured_and_used(wrap: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    photo = tmp_path / "yarn.jpg"
    photo.write_bytes(drawn(3.2, 60.0))
    data = told(["yarn", wrap, "--photo", str(photo), "--shows", "19.2 m"], capfd)
    assert data["colours"]["A"]["repeat_metres"] == pytest.approx(6.0, rel=0.02)
    assert "m" in data["photo"]["typed"]
    assert "colours" not in told(["yarn", wrap, "--photo", str(photo)], capfd)


def test_csv_cells_are_no_formulas(wrap: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    text = WRAP.replace("## Wrap", "## =HYPERLINK(1)")
    path, out = tmp_path / "bad.md", tmp_path / "rows.csv"
    path.write_text(text, encoding="utf-8")
    assert run(["yarn", str(path), "--csv", str(out)]) == 0
    capfd.readouterr()
    rows = list(csv.reader(io.StringIO(out.read_text(encoding="utf-8"))))
    assert len(rows) > 40
    for cell in (cell for row in rows for cell in row):
        assert cell[:1] not in ("=", "+", "@", "\t") and not (cell[:1] == "-" and not cell[1:].replace(".", "").isdigit())


BIG = Image.new("1", (20_000, 10_000))


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--area", "86 x 86 cm", "--ball", "100 g"], "has no length"),
        (["--area", "86 x 86 cm", "--ball", "200 m"], "has no mass"),
        (["--area", "86 x 86 cm", "--ball", "0 g = 200 m"], "has no mass"),
        (["--area", "86 x 86 cm", "--ball", "-100 g = 200 m"], "less than nothing"),
        (["--area", "big", "--ball", "100 g = 200 m"], "is not a size"),
        (["--area", "0 x 5 cm", "--ball", "100 g = 200 m"], "between nothing"),
        (["--area", "-5 x 5 cm", "--ball", "100 g = 200 m"], "less than nothing"),
        (["--area", "86 x 86 cm"], "needs the ball"),
        (["--area", "86 x 86 cm", "--ball", "100 g = 200 m", "--hook", "H-8"], "is not a size"),
        (["--area", "86 x 86 cm", "--ball", "100 g = 200 m", "--openwork", "--relief"], "not both"),
        (["--area", "86 x 86 cm", "--ball", "100 g = 200 m", "--strands", "0"], "At least one strand"),
        ([], "Give a pattern file"),
    ],
)
def test_bad_plans(words: list[str], says: str, capfd: pytest.CaptureFixture[str]) -> None:
    refused(["yarn", *words], says, capfd)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--left", "-5 g"], "less than nothing"),
        (["--left", "heavy"], "is not a mass"),
        (["--left", "3 g"], "nothing is left for the rows"),
        (["--left", "50 g", "--after", "Row 99"], "no such row"),
        (["--log", "BACK"], "runs backward"),
        (["--log", "NONE"], "no file"),
        (["--photo", "TEXT"], "not a picture"),
        (["--photo", "HUGE"], "200 megapixels"),
        (["--shows", "2 m"], "give --photo too"),
        (["--sequence", "blue 500 m"], "longer than the ball"),
        (["--sequence", "blue"], "not understood"),
        (["--sequence", "blue 3 m, sand 2 m", "--from", "400 m"], "cannot be pulled off"),
        (["--sequence", "blue 3 m, sand 2 m", "--begin", "pink"], "has no pink"),
        (["--sequence", "blue 3 m, sand 2 m", "--knot", "50 m"], "how far the colours jump"),
        (["--sequence", "blue 3 m, sand 2 m", "--alternate", "-1"], "number of rows"),
        (["--from", "2 m"], "No yarn of this pattern has a colour sequence"),
        (["--swap", "100 g"], "has no length"),
        (["--pace", "fast"], "is not understood"),
        (["--wage", "lots"], "is not a number"),
        (["--scale", "0 g"], "greater than nothing"),
        (["--yarn", "Z"], "There is no yarn Z"),
        (["--sample", "1 g"], "less than the trims"),
        (["--size", "7"], "no size 7"),
        (["--area", "5 x 5 cm"], "not both"),
        (["--csv", "/no/such/folder/rows.csv"], "could not be written"),
    ],
)
def test_bad_questions(words: list[str], says: str, wrap: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "back.csv").write_text("row,left\nRow 8,90\nRow 4,96\n", encoding="utf-8")
    (tmp_path / "text.jpg").write_text("Row 1: ch 12", encoding="utf-8")
    BIG.save(tmp_path / "huge.png")
    files = {"BACK": "back.csv", "NONE": "none.csv", "TEXT": "text.jpg", "HUGE": "huge.png"}
    words = [str(tmp_path / files[word]) if word in files else word for word in words]
    before = sorted(path.name for path in tmp_path.iterdir())
    refused(["yarn", wrap, *words], says, capfd)
    assert sorted(path.name for path in tmp_path.iterdir()) == before


@pytest.mark.parametrize(
    ("yarn", "says"),
    [
        ("{metres: 180}", "no mass"),
        ("{grams: 100}", "no length"),
        ("{metres: 180, grams: 100, sequence: [{colour: blue, metres: 500}]}", "longer than its ball"),
    ],
)
def test_bad_yarns_in_the_file(yarn: str, says: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "wrap.md"
    path.write_text(
        WRAP.replace("{name: Tangle, weight: medium, fibre: wool, metres: 180, grams: 100, colour: blue}", yarn), encoding="utf-8"
    )
    refused(["yarn", str(path)], says, capfd)


def refused(words: list[str], says: str, capfd: pytest.CaptureFixture[str]) -> None:
    """Status 2, nothing on standard output, one sentence on standard error."""
    status = run(words)
    caught = capfd.readouterr()
    assert status == 2, caught.out
    assert caught.out == ""
    assert says in caught.err
    assert caught.err.count("\n") == 1 and "Traceback" not in caught.err


def test_the_photo_process_refuses_what_hangs() -> None:
    """Noise of every colour has no repeat and must still come back."""
    rng = np.random.default_rng(1)
    out = io.BytesIO()
    Image.fromarray(rng.integers(0, 255, (200, 900, 3), dtype="uint8")).save(out, "PNG")
    from hookwright.cli.common import CannotDo
    from hookwright.cli.yarn_colours import measured_apart

    with pytest.raises(CannotDo, match=r"one colour only|whose colours change"):
        measured_apart(out.getvalue(), 2.0)
