"""Which characters the booklet's fonts have: a tagged PDF may hold no other, and an emoji in a title must not stop a publication."""

from __future__ import annotations

import struct
import unicodedata
from functools import cache
from pathlib import Path
from typing import Any

STAND_IN = "�"
"""What stands for a character that no bundled font has (U+FFFD; Noto Sans has it)."""
_KEPT = "\n\t"


@cache
def covered() -> frozenset[int]:
    """The code points of all bundled fonts."""
    from ..drawing.png import font_folders

    files = sorted(file for folder in font_folders() for file in Path(folder).glob("*.[to]tf"))
    return frozenset().union(*(code_points(file.read_bytes()) for file in files))


def code_points(font: bytes) -> frozenset[int]:
    """The code points of one TrueType or OpenType font, from its `cmap` table.

    Source of the layout: OpenType specification, cmap, formats 4 and 12.
    """
    tables = struct.unpack_from(">H", font, 4)[0]
    for k in range(tables):
        tag, _, offset, _ = struct.unpack_from(">4sIII", font, 12 + 16 * k)
        if tag == b"cmap":
            return _cmap(font, offset)
    return frozenset()


def _cmap(font: bytes, at: int) -> frozenset[int]:
    found: set[int] = set()
    for k in range(struct.unpack_from(">H", font, at + 2)[0]):
        _, _, offset = struct.unpack_from(">HHI", font, at + 4 + 8 * k)
        start = at + offset
        form = struct.unpack_from(">H", font, start)[0]
        if form == 12:
            for group in range(struct.unpack_from(">I", font, start + 12)[0]):
                first, last, _ = struct.unpack_from(">III", font, start + 16 + 12 * group)
                found.update(range(first, last + 1))
        elif form == 4:
            found |= _format_4(font, start)
    return frozenset(found)


def _format_4(font: bytes, start: int) -> set[int]:
    segments = struct.unpack_from(">H", font, start + 6)[0] // 2
    ends = struct.unpack_from(f">{segments}H", font, start + 14)
    starts = struct.unpack_from(f">{segments}H", font, start + 16 + 2 * segments)
    return {code for first, last in zip(starts, ends, strict=True) for code in range(first, last + 1) if code != 0xFFFF}


def printable(value: Any) -> Any:
    """The value with every text in it made fit to set: control characters gone, characters without a glyph as a mark; SVG left alone.

    >>> printable("Größe 38"), printable("a\\x00b"), printable(["🧶 hat"])
    ('Größe 38', 'ab', ['� hat'])
    """
    if isinstance(value, str):
        return "".join(_fit(letter) for letter in value)
    if isinstance(value, dict):
        return {key: part if key == "svg" else printable(part) for key, part in value.items()}
    if isinstance(value, (list, tuple)):
        return [printable(part) for part in value]
    return value


def _fit(letter: str) -> str:
    if letter in _KEPT:
        return letter
    if unicodedata.category(letter) in ("Cc", "Cf", "Cs"):
        return ""
    if ord(letter) in covered():
        return letter
    return " " if letter.isspace() else STAND_IN


def lacks(value: Any) -> bool:
    """Whether a text in the value has a character that had to be stood in for."""
    if isinstance(value, str):
        return any(_fit(letter) == STAND_IN != letter for letter in value)
    if isinstance(value, dict):
        return any(lacks(part) for key, part in value.items() if key != "svg")
    return isinstance(value, (list, tuple)) and any(lacks(part) for part in value)
