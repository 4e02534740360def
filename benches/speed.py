"""How long each stage takes: `python benches/speed.py`. Figures are medians of several runs in one process, after imports."""

from __future__ import annotations

import re
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from pieces import blanket, motif, strip

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.reading.pieces import forget
from hookwright.working import work


def median_ms(call: Callable[[], object], runs: int = 5) -> float:
    """The median time of `call` in milliseconds."""
    times = []
    for _ in range(runs):
        started = time.perf_counter()
        call()
        times.append((time.perf_counter() - started) * 1000)
    return statistics.median(times)


def stages(name: str, text: str) -> None:
    pattern = read(text)
    fabric = work(pattern)
    rows = sum(1 for p in fabric.parts for r in p.rows if not r.foundation)
    bad = [f for f in proof(pattern, [fabric]) if f.severity == "error"]
    figures = (
        median_ms(lambda: _afresh(text)),
        median_ms(lambda: work(pattern)),
        median_ms(lambda: proof(pattern, [fabric])),
        median_ms(lambda: _whole(text)),
    )
    cells = " | ".join(f"{f:.1f}" for f in figures)
    print(f"| {name} | {rows} | {fabric.stitch_count:,} | {cells} | {len(bad)} |")


def _afresh(text: str) -> object:
    """Read with nothing remembered of its words."""
    forget()
    return read(text)


def _whole(text: str) -> object:
    forget()
    pattern = read(text)
    return proof(pattern, [work(pattern)])


def edits(text: str, rows: int) -> Iterator[tuple[str, str]]:
    """(what was done, the text after it): one row after another edited as a maker would, a few keys at a time."""
    lines = text.split("\n")
    first = next(k for k, line in enumerate(lines) if line.startswith("Row 2:"))
    for n in range(rows):
        k = first + (n * 37) % (len(lines) - first - 2)
        for what, row in (
            ("a remark", lines[k].replace("turn,", "turn the work" + "," * (n % 3 + 1))),
            ("a count that differs", re.sub(r"\((\d+) dc\)", lambda m, n=n: f"({int(m[1]) + 1 + n} dc)", lines[k])),
            ("a stitch more", lines[k].replace(". (", ", dc in last st" + " " * n + ". (")),
            ("half a word", lines[k].replace("across. (", "acr" + "o" * n + ". (")),
        ):
            yield what, "\n".join([*lines[:k], row, *lines[k + 1 :]])


def again(text: str, rows: int = 24) -> None:
    """What a re-check after one edited row costs, stage by stage: each edit follows the untouched text, as an undo does."""
    pattern = read(text)
    fabric = work(pattern)
    proof(pattern, [fabric])
    spent: dict[str, list[tuple[float, float, float]]] = {}
    for what, edited in edits(text, rows):
        a = time.perf_counter()
        after = read(edited, before=pattern)
        b = time.perf_counter()
        worked = work(after, before=fabric)
        c = time.perf_counter()
        proof(after, [worked])
        d = time.perf_counter()
        spent.setdefault(what, []).append(((b - a) * 1000, (c - b) * 1000, (d - c) * 1000))
        pattern = read(text, before=after)
        fabric = work(pattern, before=worked)
    print(
        "\n| one row of 126 edited | read ms | work ms | proof ms | all ms | all, 95th percentile |\n| --- | --- | --- | --- | --- | --- |"
    )
    for what, figures in spent.items():
        whole = sorted(sum(one) for one in figures)
        cells = " | ".join(f"{statistics.median(one):.1f}" for one in zip(*figures, strict=True))
        print(f"| {what} | {cells} | {statistics.median(whole):.1f} | {whole[int(len(whole) * 0.95)]:.1f} |")


def whole_process(*args: str) -> float:
    """The median time of a whole `hookwright` process, in seconds."""
    command = [str(Path(sys.executable).with_name("hookwright")), *args]
    return median_ms(lambda: subprocess.run(command, capture_output=True, check=False), 7) / 1000


def main() -> None:
    print("| piece | rows | stitches | read ms | work ms | proof ms | all ms | errors |\n| --- | --- | --- | --- | --- | --- | --- | --- |")
    stages("strip, every row written", strip())
    stages("motif of 12 rounds", motif())
    stages("blanket, one range", blanket())
    stages("blanket, every row written", blanket(distinct=True))
    again(strip())
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"\npeak memory of this process: {peak:.0f} MB")
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "motif.md"
        file.write_text(motif(), encoding="utf-8")
        print(f"hookwright --help: {whole_process('--help'):.2f} s")
        print(f"hookwright proof of a small file: {whole_process('proof', str(file)):.2f} s")


if __name__ == "__main__":
    main()
