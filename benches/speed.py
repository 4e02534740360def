"""How long each stage takes: `python benches/speed.py`. Figures are medians of several runs in one process, after imports."""

from __future__ import annotations

import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from pieces import blanket, motif, strip

from hookwright.proofing import proof
from hookwright.reading import read
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
        median_ms(lambda: read(text)),
        median_ms(lambda: work(pattern)),
        median_ms(lambda: proof(pattern, [fabric])),
        median_ms(lambda: _whole(text)),
    )
    cells = " | ".join(f"{f:.1f}" for f in figures)
    print(f"| {name} | {rows} | {fabric.stitch_count:,} | {cells} | {len(bad)} |")


def _whole(text: str) -> object:
    pattern = read(text)
    return proof(pattern, [work(pattern)])


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
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"\npeak memory of this process: {peak:.0f} MB")
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "motif.md"
        file.write_text(motif(), encoding="utf-8")
        print(f"hookwright --help: {whole_process('--help'):.2f} s")
        print(f"hookwright proof of a small file: {whole_process('proof', str(file)):.2f} s")


if __name__ == "__main__":
    main()
