"""Charts of a folder of real patterns: `python benches/charts.py --folder FOLDER [--only 112,116] [--pictures DIR] [--all]`.

For every part that holds stitches: its symbols, the differences counting back finds, the pairs of symbols that overlap, the words that
stand on a symbol or on other words. `--pictures` writes the charts that have overlaps (with `--all` every chart) as PNG, the overlaps
ringed, to be looked at.
"""

from __future__ import annotations

import argparse
import time
from collections import Counter
from pathlib import Path

from corpus import strip_header

from hookwright.drawing.chart import chart
from hookwright.drawing.clear import covered
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.overlaps import Overlap, overlaps
from hookwright.drawing.png import to_png
from hookwright.reading import read
from hookwright.working import PartWork, work


def read_whole(part: PartWork) -> bool:
    """Whether every row of a part was read whole and worked to one fabric."""
    return all(row.read == "whole" and row.worked == "yes" for row in part.rows)


def ringed(drawing: str, found: list[Overlap]) -> str:
    """The drawing with a red ring round every overlap."""
    rings = "".join(f'<circle cx="{one.x:.2f}" cy="{one.y:.2f}" r="2" fill="none" stroke="#e00" stroke-width="0.35"/>' for one in found)
    return drawing.replace("</svg>", rings + "</svg>")


def main() -> None:
    """Print a line for every part and the sums."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--folder", type=Path, required=True)
    parser.add_argument("--only", default="", help="ids, separated by commas")
    parser.add_argument("--pictures", type=Path, help="where PNGs go")
    parser.add_argument("--all", action="store_true", help="a picture of every chart, not only of those with overlaps")
    options = parser.parse_args()
    only = set(filter(None, options.only.split(",")))
    parts = whole = clear = whole_clear = symbols = differences = words = whole_words = 0
    start = time.perf_counter()
    for path in sorted((options.folder / "patterns").glob("*.txt")):
        if only and path.stem not in only:
            continue
        fabric = work(read(strip_header(path.read_text(encoding="utf-8"))))
        for p, part in enumerate(fabric.parts):
            made = chart(fabric, p)
            if not made.marks:
                continue
            drawing = svg(made)
            differ = count_back(fabric, [drawing], made).differences
            found = overlaps(made)
            on = len(covered(made))
            words += on
            parts, symbols, differences = parts + 1, symbols + len(made.marks), differences + differ
            clear += not found
            if read_whole(part):
                whole, whole_clear, whole_words = whole + 1, whole_clear + (not found), whole_words + on
            told = " whole" if read_whole(part) else ""
            if found or differ or on or only:
                by_rows = Counter(f"{one.one.row}/{one.other.row}" for one in found)
                rows = ", ".join(f"{rows} ({n})" for rows, n in by_rows.most_common(4))
                measured = f"{len(made.marks):6} symbols {differ:3} differ {len(found):5} overlaps {on:3} words"
                print(f"{path.stem}-{p} {made.form:5} {measured}{told}: {rows}")
            if options.pictures and (found or options.all):
                options.pictures.mkdir(parents=True, exist_ok=True)
                name = f"{path.stem}-{p}-{len(found)}.png"
                (options.pictures / name).write_bytes(to_png(ringed(drawing, found), dpi=110))
    print(f"{parts} parts, {symbols} symbols, {differences} differences, {clear} parts without overlap; ", end="")
    print(f"{words} words on symbols ({whole_words} in parts read whole); ", end="")
    print(f"read whole: {whole}, of them without overlap {whole_clear} ({time.perf_counter() - start:.0f} s)")


if __name__ == "__main__":
    main()
