"""Rows told in a table: "| Round | Instructions | Stitches |". Its bars are made into the marks of written rows, the length kept."""

from __future__ import annotations

import re
from itertools import pairwise

_LINE = re.compile(r"(?m)^[ ]{0,3}\|?[^\n|]*\|[^\n]*$")
_ROW_HEAD = re.compile(r"(?i)\s*[*_]{0,2}(?P<noun>rounds?|rnds?|rds?|rows?|r|#|no\.?)(?:\s?(?:#|no\.?))?[*_]{0,2}\s*")
_COUNT_HEAD = re.compile(
    r"(?i)\s*[*_]{0,2}(?:(?:total|no\.? of|number of|end)?\s?"
    r"(?:sts?|stitch(?:es)?|count|total|stitch count|st count|#)(?:\s?count|\stotal)?)[*_]{0,2}\s*"
)
_SHADE_HEAD = re.compile(r"(?i)\s*[*_]{0,2}(?:colou?rs?|yarn)[*_]{0,2}\s*")
_RULE = re.compile(r"[\s|:-]+")
_NUMBER = re.compile(
    r"\s*[*_]{0,2}(?P<noun>(?:rounds?|rnds?|rds?|rows?|r)\s?)?"
    r"(?P<nums>\d{1,3}(?:\s?(?:-|to|&|,)\s?\d{1,3})*)[*_.:)]{0,3}\s*",
    re.I,
)
_TOTAL = re.compile(r"(?i)\s*[\[(=]?\s*(?P<n>\d{1,4})(?:\s?(?:sc|hdc|dc|tr|sts?|stitches))?\s*[\])]?\s*")


def told_as_rows(text: str) -> str:
    """The text with the rows of its tables written out as rows ("| 3 | sc around | 18 |" → "V 3:  sc around ( 18 )"), equally long.

    >>> told_as_rows("| Round | What | Stitches |\\n|---|---|---|\\n| 1 | 6 sc in ring | 6 |").splitlines()[2]
    'V 1:  6 sc in ring ( 6 )'
    """
    if "|" not in text:
        return text
    out = list(text)
    columns: tuple[int, int, str, int] | None = None
    for match in _LINE.finditer(text):
        line, at = match[0], match.start()
        cells = _cells(line)
        head = _header(line, cells)
        if head is not None:
            columns = head
            out[at : match.end()] = " " * len(line)
        elif columns is not None and _RULE.fullmatch(line):
            out[at : match.end()] = " " * len(line)
        elif columns is not None:
            _write(out, line, at, cells, columns)
        if columns is not None and text[match.end() + 1 : match.end() + 2] in ("\n", ""):
            columns = None
    return "".join(out)


def _cells(line: str) -> list[tuple[int, int]]:
    """Where each cell's words begin and end in its line."""
    bars = [k for k, sign in enumerate(line) if sign == "|"]
    edges = bars if line.lstrip().startswith("|") else [-1, *bars]
    if not line.rstrip().endswith("|"):
        edges = [*edges, len(line)]
    return [(a + 1, b) for a, b in pairwise(edges)]


def _header(line: str, cells: list[tuple[int, int]]) -> tuple[int, int, str, int] | None:
    """The columns of row numbers and of counts (-1: none), and the letter that rows of this kind are opened with."""
    if len(cells) < 2:
        return None
    words = [line[a:b] for a, b in cells]
    first = _ROW_HEAD.fullmatch(words[0])
    if first is None:
        return None
    count = next((k for k, word in enumerate(words) if k and _COUNT_HEAD.fullmatch(word)), -1)
    shade = next((k for k, word in enumerate(words) if k and _SHADE_HEAD.fullmatch(word)), -1)
    return 0, count, "R" if first["noun"].lower().startswith("row") else "V", shade


def _write(out: list[str], line: str, at: int, cells: list[tuple[int, int]], columns: tuple[int, int, str, int]) -> None:
    number, count, letter, shade = columns
    a, b = cells[number]
    told = _NUMBER.fullmatch(line[a:b])
    if told is None or a == 0 or len(cells) < 2:
        return
    for k, sign in enumerate(line):
        if sign == "|":
            out[at + k] = " "
    if not told["noun"]:
        out[at + a - 1] = letter
    for k in range(a, b):
        if out[at + k] in "*_.:)":
            out[at + k] = " "
    out[at + a + told.end("nums")] = ":"
    if 0 < shade < len(cells) and re.search(r"\w", line[slice(*cells[shade])]) and cells[shade][1] < len(line):
        out[at + cells[shade][0] - 1], out[at + cells[shade][1]] = "(", ")"
    if 0 < count < len(cells):
        first, last = cells[count]
        if _TOTAL.fullmatch(line[first:last]) and last - first >= 1 and not re.search(r"[\[(]", line[first:last]):
            out[at + first - 1] = "("
            if last < len(line):
                out[at + last] = ")"
