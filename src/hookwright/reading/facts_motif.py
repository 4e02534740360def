"""Sizes that prose tells without the word "size": a motif's, where a gauge would stand; and "32 x 46 inches" alone on a title line."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from ..pattern import FinishedSize
from ..trade import units

_MANY: Final = re.compile(r"(?<![\d/.,])([2-9]|[1-4]\d)\s(?:[a-z]+\s)?$", re.I)
"""So many motifs in a row are as long as told: "5 blocks = 4 in"."""
_MOTIF: Final = re.compile(
    rf"\b(?:motifs?|squares?|blocks?|tiles?|hexagons?|octagons?|medallions?|gran(?:ny|nies)|circles?|flowers?|diameter)\b[^.\n\d¼½¾]{{0,40}}?"
    rf"({units.NUMBER})\s*[- ]?(in|ins|inch|inches|cm|\"|″|”)(?![a-z])",
    re.I,
)
_TITLE_SIZE: Final = re.compile(
    rf"({units.NUMBER})\s*(in|ins|inch|inches|cm|\"|″|”)?\.?\s*(?:x|×|by)\s*({units.NUMBER})\s*(in|ins|inch|inches|cm|\"|″|”)", re.I
)
_HEAD: Final = re.compile(
    r"(?:^|\n)[ \t#*_=]*(?:gauge|tension|(?:finished|approximate)?[ \t]*(?:sizes?|measurements?|dimensions))[ \t*_=:.…\-–—]*\n?[ \t\n]*$",
    re.I,
)
TOP: Final = 900
"""Characters from the top in which a bare "32 x 46 inches" is the piece's size."""


def motif_cm(window: str) -> float | None:
    """The size of one motif across, in cm, told after the word "gauge".

    >>> motif_cm(" Each motif measures 4 inches"), motif_cm(": 5 blocks = 10 cm")
    (10.16, 2.0)
    """
    match = _MOTIF.search(window)
    if match is None:
        return None
    across, many = _cm(match[1], match[2]), _MANY.search(window[: match.start()])
    return across / int(many[1]) if across and many is not None else across


def bare_size(text: str, spans: Sequence[tuple[int, int]]) -> tuple[FinishedSize, ...]:
    """Width and length from "32 x 46 inches" among the first lines, where no row stands yet."""
    for start, end in spans:
        if start > TOP:
            break
        match = _TITLE_SIZE.search(text[start : min(end, TOP)])
        if match is None:
            continue
        line_start = text.rfind("\n", 0, start + match.start()) + 1
        if re.search(r"(?i)gauge|tension|swatch|hook|yarn", text[line_start : start + match.start()]):
            continue
        a, b = _cm(match[1], match[2] or match[4]), _cm(match[3], match[4])
        if a and b and min(a, b) > 4:
            return (FinishedSize(what="width", cm=(a,)), FinishedSize(what="length", cm=(b,)))
    return ()


def with_heading(text: str, start: int, top: int) -> int:
    """Where a piece of prose begins, counted from the heading that names it ("GAUGE:", "## Finished size"), if one stands right before."""
    before = _HEAD.search(text, max(top, start - 60), start)
    return start if before is None else before.start()


def _cm(number: str, unit: str) -> float | None:
    value, named = units.parse_number(number), units.unit_of("in" if unit.lower() == "ins" else unit)
    return None if not value or named is None else round(float(units.Amount(value, named).to("cm").number), 4)
