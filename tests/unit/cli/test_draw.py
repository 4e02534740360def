"""`hookwright draw`: files written where they were asked for, charts counted back, every failure one sentence."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from hookwright.cli.run import run

PATTERN = """---
title: Test band
terms: US
gauge:
  - {in: dc, stitches: 16, rows: 8, over: 10 cm}
---

## Band

Ch 20.
Row 1 (RS): Sc in 2nd ch from hook, sc in each ch across, turn. (19 sc)
Row 2: Ch 1 (does not count as st), sc in first st, * skip 2 sts, 5 dc in next st, skip 2 sts, sc in next st; rep from * across, turn.
"""


@pytest.fixture
def pattern(tmp_path: Path) -> Path:
    path = tmp_path / "band äöü.md"
    path.write_text(PATTERN, encoding="utf-8")
    return path


@pytest.mark.parametrize("ending, magic", [("svg", b"<svg"), ("png", b"\x89PNG"), ("pdf", b"%PDF")])
def test_a_chart_is_written_in_three_forms(pattern: Path, tmp_path: Path, ending: str, magic: bytes) -> None:
    target = tmp_path / f"chart.{ending}"
    assert run(["draw", "chart", str(pattern), "-o", str(target)]) == 0
    assert target.read_bytes().startswith(magic)


def test_without_a_name_the_chart_stands_beside_its_pattern(pattern: Path) -> None:
    assert run(["draw", "chart", str(pattern)]) == 0
    ET.fromstring(pattern.with_name("band äöü.chart.svg").read_text(encoding="utf-8"))


def test_a_second_run_is_the_same_to_the_byte(pattern: Path, tmp_path: Path) -> None:
    one, two = tmp_path / "1.svg", tmp_path / "2.svg"
    for target in (one, two):
        run(["draw", "chart", str(pattern), "-o", str(target)])
    assert one.read_bytes() == two.read_bytes()


def test_a_chart_counts_back_with_and_without_a_file(pattern: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = tmp_path / "chart.svg"
    run(["draw", "chart", str(pattern), "-o", str(target), "--left", "--sc", "cross"])
    assert run(["draw", "chart", str(pattern), str(target), "--check"]) == 0
    assert run(["draw", "chart", str(pattern), "--check"]) == 0
    assert "0 rows differ, 0 symbols wrong" in capsys.readouterr().out


def test_a_chart_edited_by_hand_is_found_out(pattern: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = tmp_path / "chart.svg"
    run(["draw", "chart", str(pattern), "-o", str(target)])
    text = target.read_text(encoding="utf-8")
    uses = re.findall(r"<use [^\n]*\n", text)
    target.write_text(text.replace(uses[30], ""), encoding="utf-8")
    assert run(["draw", "chart", str(pattern), str(target), "--check"]) == 1
    told = capsys.readouterr().out
    assert "is missing" in told
    assert re.search(r"Row \d+, symbol \d+", told)


def test_a_large_chart_on_pages(pattern: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    long = "\n".join(f"Row {r}: Ch 1 (does not count as st), sc in each st across, turn." for r in range(3, 130))
    pattern.write_text(PATTERN + long, encoding="utf-8")
    assert run(["draw", "chart", str(pattern), "--whole", "--pages", "A4", "-o", str(tmp_path / "p.svg")]) == 0
    pages = sorted(tmp_path.glob("p-*.svg"))
    assert len(pages) > 1
    assert run(["draw", "chart", str(pattern), *map(str, pages), "--check"]) == 0
    assert run(["draw", "chart", str(pattern), "--whole", "--pages", "A4", "-o", str(tmp_path / "p.pdf")]) == 0


def test_schematic_is_drawn_when_there_is_a_gauge(pattern: Path, tmp_path: Path) -> None:
    assert run(["draw", "schematic", str(pattern), "-o", str(tmp_path / "s.svg")]) == 0
    ET.fromstring((tmp_path / "s.svg").read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    "words, told",
    [
        (["--part", "Sleeve"], "There is no part Sleeve"),
        (["--pages", "B9"], "There is no paper B9"),
        (["-o", "chart.bmp"], "drawings are written as .svg, .png or .pdf"),
        (["-o", "/nowhere/at/all/chart.svg"], "could not be written"),
        (["--squares"], "is neither filet"),
        (["other.svg"], "one file too many"),
    ],
)
def test_what_cannot_be_done_is_told_in_one_sentence(
    pattern: Path, capsys: pytest.CaptureFixture[str], words: list[str], told: str
) -> None:
    assert run(["draw", "chart", str(pattern), *words]) == 2
    failure = capsys.readouterr().err
    assert told in failure
    assert len(failure.strip().splitlines()) == 1


@pytest.mark.parametrize("text", ["", "no svg", "<svg", '<!DOCTYPE x [<!ENTITY e "e">]><svg/>'])
def test_a_file_that_is_no_chart_is_refused(pattern: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str) -> None:
    bad = tmp_path / "bad.svg"
    bad.write_text(text, encoding="utf-8")
    assert run(["draw", "chart", str(pattern), str(bad), "--check"]) == 2
    assert "cannot be counted back" in capsys.readouterr().err


def test_a_pattern_without_stitches_has_no_chart(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "empty.md"
    path.write_text("## Part\n\nRow 1: Frobnicate the yarn.\n", encoding="utf-8")
    assert run(["draw", "chart", str(path)]) == 2
    assert "no chart to draw" in capsys.readouterr().err
