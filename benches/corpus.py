"""Measure reading, working and proofing on a folder of real patterns: `python benches/corpus.py --folder FOLDER [--list] [--only 112,116]`.

The folder holds `patterns/NNN.txt` (leading lines that begin with "# url:", "# text:", "# title:" are stripped) and `truth.jsonl`. The
denominators come from the text (this file's own list of stitch words) and from the truth, never from what was recognised.
"""

from __future__ import annotations

import argparse
import json
import re
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from hookwright.pattern import Finding, Pattern
from hookwright.reading import read
from hookwright.working import Fabric, RowWork, work

STITCH_WORD = re.compile(
    r"(?<![A-Za-z])(?:sl\s?sts?|slip\s?st(?:itch(?:es)?|s)?|sc|s\s?c|hdc|h\s?d\s?c|dc|d\s?c|htr|tr|tr\s?c|trc|dtr|d\s?tr\s?c|ch|chs|chains?|fsc|fhdc|fdc|single\s+crochets?|half\s+double(?:\s+crochets?)?|"
    r"double\s+crochets?|half\s+trebles?|double\s+trebles?|trebles?(?:\s+crochets?)?|inc|dec|increases?|decreases?|(?:sc|dc|hdc|tr)\d?tog|(?:fp|bp)(?:sc|hdc|dc|tr)|shells?|clusters?|picots?|puffs?|popcorns?|bobbles?|v-sts?|plain|long|sts?|stitch(?:es)?)(?![A-Za-z])",
    re.IGNORECASE,
)
_HEADER = re.compile(r"\A(?:# (?:url|text|title|source)[^\n]*\n)+")
_ROW_NUMBER = re.compile(r"\d+")
MODERN, PRINT = "modern English", "print before 1980"


@dataclass(slots=True)
class Piece:
    """One pattern of the corpus, with its truth and what was made of it."""

    id: str
    text: str
    truth: dict[str, Any]
    pattern: Pattern
    fabrics: list[Fabric]
    seconds: float
    findings: list[Finding] = field(default_factory=list)

    @property
    def group(self) -> str:
        if self.truth.get("lang", "en") != "en":
            return "other languages"
        return PRINT if self.id < "111" else MODERN


@dataclass(slots=True)
class Tally:
    words: int = 0
    words_read: int = 0
    words_worked: int = 0
    counts: int = 0
    counts_right: int = 0
    counts_blank: int = 0
    errors: int = 0
    errors_found: int = 0
    rows: int = 0
    false_errors: int = 0
    false_warnings: int = 0


def strip_header(text: str) -> str:
    """The text without the lines that name its source."""
    return _HEADER.sub("", text)


def load(folder: Path, only: set[str]) -> Iterator[Piece]:
    """Every pattern of the folder, read and worked in each size."""
    truths = {entry["id"]: entry for entry in map(json.loads, (folder / "truth.jsonl").read_text(encoding="utf-8").splitlines())}
    for path in sorted((folder / "patterns").glob("*.txt")):
        if only and path.stem not in only:
            continue
        text = strip_header(path.read_text(encoding="utf-8"))
        start = time.perf_counter()
        pattern = read(text)
        fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
        seconds = time.perf_counter() - start
        piece = Piece(path.stem, text, truths.get(path.stem, {}), pattern, fabrics, seconds)
        piece.findings = judge(pattern, fabrics)
        yield piece


def judge(pattern: Pattern, fabrics: list[Fabric]) -> list[Finding]:
    """The findings of proofing."""
    from hookwright.proofing import proof

    return list(proof(pattern, tuple(fabrics)))


# ---- stitch words ----------------------------------------------------------------------------------------------------------------
def word_places(text: str) -> list[int]:
    return [match.start() for match in STITCH_WORD.finditer(text)]


def covered(piece: Piece) -> tuple[int, int, int]:
    """Stitch words in the text, in rows read whole, in rows read whole and worked to one fabric."""
    places = word_places(piece.text)
    whole: list[tuple[int, int]] = []
    worked: list[tuple[int, int]] = []
    by_row: dict[int, list[RowWork]] = {}
    for part in (part for fabric in piece.fabrics for part in fabric.parts):
        for row in part.rows:
            by_row.setdefault(row.written.id, []).append(row)
    for part in piece.pattern.parts:
        for row in part.rows:
            works = by_row.get(row.id, [])
            if works and all(one.read == "whole" for one in works):
                whole.append((row.span.start, row.span.end))
                if all(one.worked == "yes" and one.state != "assumed" for one in works):
                    worked.append((row.span.start, row.span.end))
    return len(places), _inside(places, whole), _inside(places, worked)


def _inside(places: list[int], spans: list[tuple[int, int]]) -> int:
    return sum(any(start <= place < end for start, end in spans) for place in places)


# ---- stated counts ---------------------------------------------------------------------------------------------------------------
def scorable(piece: Piece) -> list[tuple[int, str, str]]:
    """(row number, label, what the text states) for entries that hold a row number and a number, on rows without a proved mistake."""
    wrong = {int(found[0]) for entry in piece.truth.get("errors", []) if (found := _ROW_NUMBER.findall(str(entry["row"])))}
    out = []
    for label, states in piece.truth.get("stated_counts", []):
        number = _ROW_NUMBER.findall(label)
        if number and re.search(r"\d", str(states)) and int(number[0]) not in wrong:
            out.append((int(number[0]), label, str(states)))
    return out


_KINDS = {"sps": "sp", "spaces": "sp", "loops": "sp", "shells": "shell", "meshes": "sp", "lps": "sp"}


def reproduced(piece: Piece, number: int, label: str, states: str) -> bool:
    """Some row of that number holds that total, or that number of the kind named."""
    first = int(_ROW_NUMBER.findall(states)[0])
    kinds = [_KINDS.get(word.lower(), word.lower()) for word in re.findall(r"[A-Za-z][\w-]*", states)]
    for row in (one for fabric in piece.fabrics for part in fabric.parts for one in part.rows):
        if row.number != number or (row.worked in ("assumed",) and row.read == "no"):
            continue
        if row.counted.total == first:
            return True
        by_kind = {key.lower(): value for key, value in row.counted.by_kind.items()}
        by_kind |= {key.lower().rstrip("s"): value for key, value in row.counted.by_kind.items()}
        if any(by_kind.get(kind) == first or by_kind.get(kind.rstrip("s")) == first for kind in kinds):
            return True
        if any(value == first and key.split()[-1] in kinds for key, value in by_kind.items()):
            return True
    return False


_COUNT_SPANS = "stated"


def blanked(piece: Piece) -> str:
    """The text with every stated count's characters replaced by blanks (the spans that reading found, so nothing else moves)."""
    chars = list(piece.text)
    for part in piece.pattern.parts:
        for row in part.rows:
            for count in row.stated:
                for k in range(count.span.start, count.span.end):
                    chars[k] = "\n" if chars[k] == "\n" else " "
    return "".join(chars)


# ---- mistakes --------------------------------------------------------------------------------------------------------------------
def row_numbers(words: str) -> set[int]:
    found = [int(one) for one in _ROW_NUMBER.findall(words)]
    if len(found) == 2 and re.search(r"\d\s*-\s*\d", words):
        return set(range(found[0], found[1] + 1))
    return set(found)


def mistakes(piece: Piece) -> list[tuple[str, bool]]:
    """Each proved mistake, and whether an error stands on its row."""
    out = []
    for entry in piece.truth.get("errors", []):
        wanted = row_numbers(str(entry["row"]))
        hit = any(
            one.severity == "error" and one.working and (not wanted or one.number in wanted or _label_in(one, wanted))
            for one in piece.findings
        )
        out.append((f"{entry['row']}: {entry['what']}"[:110], hit and bool(wanted)))
    return out


def _label_in(finding: Finding, wanted: set[int]) -> bool:
    return bool(finding.row and row_numbers(finding.row) & wanted)


def false_alarms(piece: Piece) -> tuple[list[Finding], list[Finding]]:
    """Errors and warnings on rows where the truth lists no mistake and no doubt."""
    wanted: set[int] = set()
    anywhere = False
    for entry in piece.truth.get("errors", []) + piece.truth.get("doubtful", []):
        numbers = row_numbers(str(entry["row"]))
        anywhere = anywhere or not numbers
        wanted |= numbers
    errors, warnings = [], []
    for one in piece.findings:
        if (one.number in wanted or _label_in(one, wanted)) or one.rule == "unread":
            continue
        if one.severity == "error":
            errors.append(one)
        elif one.severity == "warning":
            warnings.append(one)
    return errors, warnings


# ---- the table -------------------------------------------------------------------------------------------------------------------
def tally(piece: Piece, into: Tally, show: bool) -> None:
    words, whole, worked = covered(piece)
    into.words += words
    into.words_read += whole
    into.words_worked += worked
    into.rows += sum(len(part.rows) for part in piece.pattern.parts)
    entries = scorable(piece)
    again = read(blanked(piece))
    blank = Piece(piece.id, piece.text, piece.truth, again, [work(again, size=size) for size in range(again.sizes)], 0)
    missed = []
    for number, label, states in entries:
        right, without = reproduced(piece, number, label, states), reproduced(blank, number, label, states)
        into.counts += 1
        into.counts_right += right
        into.counts_blank += without
        if not (right and without):
            missed.append(f"{label}: {states}{'' if right else ' MISSED'}{'' if without else ' (blanked)'}")
    found = mistakes(piece)
    into.errors += len(found)
    into.errors_found += sum(hit for _, hit in found)
    errors, warnings = false_alarms(piece)
    into.false_errors += len(errors)
    into.false_warnings += len(warnings)
    if show:
        print(
            f"{piece.id}  {piece.group[:6]}  words {words:4}  read {whole / max(1, words):5.0%}  worked {worked / max(1, words):5.0%}  {piece.seconds * 1000:5.0f} ms"  # noqa: E501
        )
        for line in missed:
            print(f"      count    {line}")
        for what, hit in found:
            print(f"      mistake  {'found ' if hit else 'MISSED'} {what}")
        for one in errors + warnings:
            print(f"      false    {one.severity} {one.rule} [{one.part} {one.row}] {one.message[:120]}")


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--folder", type=Path, required=True)
    parser.add_argument("--list", action="store_true", help="a line for every pattern")
    parser.add_argument("--only", default="", help="ids, separated by commas")
    options = parser.parse_args()
    if not (options.folder / "truth.jsonl").is_file():
        print(f"{options.folder} holds no truth.jsonl: nothing measured")
        return
    groups: dict[str, Tally] = {MODERN: Tally(), PRINT: Tally(), "other languages": Tally()}
    seconds = 0.0
    for piece in load(options.folder, set(filter(None, options.only.split(",")))):
        tally(piece, groups[piece.group], options.list)
        seconds += piece.seconds
    print_table(groups, seconds)


def print_table(groups: dict[str, Tally], seconds: float) -> None:
    def share(part: int, whole: int) -> str:
        return f"{part}/{whole} ({part / whole:.1%})" if whole else "-"

    lines = [
        ("stitch words in rows read whole", lambda t: share(t.words_read, t.words)),
        ("… and worked to one fabric", lambda t: share(t.words_worked, t.words)),
        ("stated counts reproduced", lambda t: share(t.counts_right, t.counts)),
        ("… with every count blanked", lambda t: share(t.counts_blank, t.counts)),
        ("proved mistakes found", lambda t: share(t.errors_found, t.errors)),
        ("written rows", lambda t: str(t.rows)),
        ("false alarms, error", lambda t: f"{t.false_errors} (1 in {t.rows // max(1, t.false_errors)})"),
        ("false alarms, warning", lambda t: f"{t.false_warnings} (1 in {t.rows // max(1, t.false_warnings)})"),
    ]
    print(f"{'':34}" + "".join(f"{name:>24}" for name in groups))
    for title, value in lines:
        print(f"{title:34}" + "".join(f"{value(one):>24}" for one in groups.values()))
    print(f"read and worked in {seconds:.2f} s")


if __name__ == "__main__":
    main()
