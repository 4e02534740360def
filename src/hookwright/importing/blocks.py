"""Blocks of a document (headings, paragraphs, list items) → the lines of a Markdown pattern."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

ROW = re.compile(
    r"^(?:next |foundation |set-?up )?(?:rows?|rnds?|rounds?|r)\b\.?\s*\d|^\d+(?:st|nd|rd|th)\s+(?:row|rnd|round)\b|^\d+\s*[.):]\s", re.I
)
"""A line that begins an instruction."""


@dataclass(frozen=True, slots=True)
class Block:
    """One block: its text (may hold line breaks) and, for a heading, its level from 1; `item` for list items."""

    text: str
    level: int = 0
    item: bool = False


def to_markdown(blocks: Iterable[Block]) -> str:
    """The Markdown of a document: headings with `#`, instructions on lines of their own, everything else as paragraphs.

    >>> print(to_markdown([Block("Hat", 1), Block("Rnd 1: 6 sc in ring. (6)"), Block("Rnd 2: Inc around. (12)")]))
    # Hat
    <BLANKLINE>
    Rnd 1: 6 sc in ring. (6)
    Rnd 2: Inc around. (12)
    <BLANKLINE>
    """
    out: list[str] = []
    row_before = False
    for block in blocks:
        lines = [line for line in (_squeezed(line) for line in block.text.split("\n")) if line]
        if not lines:
            continue
        is_row = not block.level and all(ROW.match(line) for line in lines[:1])
        if out and not (row_before and is_row) and not (block.item and out[-1].startswith("- ")):
            out.append("")
        if block.level:
            out.append(f"{'#' * min(block.level, 6)} {' '.join(lines)}")
        elif block.item and not is_row:
            out.append(f"- {' '.join(lines)}")
        else:
            out.extend(lines)
        row_before = is_row
    return "\n".join(out) + "\n" if out else ""


def _squeezed(line: str) -> str:
    return re.sub(r"[ \t\u00a0\u2009\u202f]+", " ", line).strip()
