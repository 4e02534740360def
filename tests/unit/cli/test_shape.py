"""`hookwright shape`: words, JSON, files, and what cannot be done."""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET
from pathlib import Path

import jsonschema
import pytest

from hookwright.cli.common import CannotDo
from hookwright.cli.shape import shape
from hookwright.proofing.report import schema

STRIP = """---
title: Strip
gauge: [{in: dc, stitches: 14, rows: 7, over: 10 cm, blocked: false}, {in: dc, stitches: 12.5, rows: 6.25, over: 10 cm, blocked: true}]
---
Ch 30.
Row 1: Dc in 3rd ch from hook (skipped ch do not count), dc in each ch across. (28 dc)
Rows 2-35: Ch 2 (does not count), turn, dc in each st across. (28 dc)
"""
SIZED = """---
sizes: {names: [S, M], measures: {head: [40 cm, 48 cm]}}
gauge: [{in: hdc, stitches: 14, rows: 10, over: 10 cm}]
---
Rnd 1: Make a magic ring, 8 hdc in ring, do not join. (8 hdc)
Rnd 2: 2 hdc in each st around. (16 hdc)
Rnd 3: [Hdc in next st, 2 hdc in next st] 8 times. (24 hdc)
Rnd 4: [Hdc in each of next 2 sts, 2 hdc in next st] 8 times. (32 hdc)
Rnds 5-12 (5-14): Hdc in each st around. (32 hdc)
"""


@pytest.fixture
def strip(tmp_path: Path) -> str:
    file = tmp_path / "a strip.md"
    file.write_text(STRIP, encoding="utf-8")
    return str(file)


@pytest.fixture
def sized(tmp_path: Path) -> str:
    file = tmp_path / "hat.md"
    file.write_text(SIZED, encoding="utf-8")
    return str(file)


def test_sizes_in_words(strip: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert shape(strip) == 0
    assert "20 cm (7¾ in) wide, 50 cm (19¾ in) long, lies flat, 1000 cm2" in capsys.readouterr().out


def test_blocked_takes_the_blocked_gauge(strip: str, capsys: pytest.CaptureFixture[str]) -> None:
    shape(strip, blocked=True)
    assert "22.4 cm" in capsys.readouterr().out


def test_json_fits_its_schema(strip: str, sized: str, capsys: pytest.CaptureFixture[str]) -> None:
    for file in (strip, sized):
        shape(file, json=True)
        told = json.loads(capsys.readouterr().out)
        jsonschema.validate(told, schema("shape/1"))
    assert [part["size"] for part in told["parts"]] == ["S", "M"]
    assert {part["lies"] for part in told["parts"]} == {"cups"}


def test_one_size_only(sized: str, capsys: pytest.CaptureFixture[str]) -> None:
    shape(sized, size="m", json=True)
    (part,) = json.loads(capsys.readouterr().out)["parts"]
    assert part["size"] == "M"
    assert part["ease"][0]["ease_cm"] < 0


@pytest.mark.parametrize(("name", "start"), [("a.svg", b"<svg"), ("a.glb", b"glTF"), ("a.obj", b"# Hookwright")])
def test_files(strip: str, tmp_path: Path, name: str, start: bytes) -> None:
    out = tmp_path / name
    assert shape(strip, out=out) == 0
    assert out.read_bytes().startswith(start)
    again = tmp_path / f"again-{name}"
    shape(strip, out=again)
    assert out.read_bytes() == again.read_bytes()


def test_the_outline_is_in_true_size(strip: str, tmp_path: Path) -> None:
    out = tmp_path / "outline.svg"
    shape(strip, out=out)
    polygon = ET.parse(out).getroot().find("{http://www.w3.org/2000/svg}polygon")
    assert polygon is not None
    ys = [float(pair.split(",")[1]) for pair in polygon.attrib["points"].split()]
    assert max(ys) - min(ys) == pytest.approx(500.0)


def test_what_cannot_be_done_is_said(strip: str, tmp_path: Path) -> None:
    with pytest.raises(CannotDo, match="blocked"):
        shape(strip, blocked=True, unblocked=True)
    with pytest.raises(CannotDo, match=r"\.svg.*\.glb"):
        shape(strip, out=tmp_path / "a.stl")
    with pytest.raises(CannotDo, match="no size"):
        shape(strip, size="XXL")
    assert not list(tmp_path.glob("*.stl"))
