"""How long publishing takes: `python benches/publish.py`. A fresh process a piece, so that its booklet is once set cold, after imports."""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

EXAMPLES = Path(__file__).parents[1] / "examples"
PIECES = ("bollard-seat-pad", "fogbell-hat", "ebbline-wrap", "swell-blanket")
STAGES = ("read and work", "drawings", "booklet, cold", "booklet again", "large print", "page", "whole publication")


def timed(call: Callable[[], object]) -> float:
    """Milliseconds of one call."""
    started = time.perf_counter()
    call()
    return (time.perf_counter() - started) * 1000


def stages(path: Path) -> list[float]:
    """Milliseconds of each stage for one piece, in the order of STAGES."""
    from hookwright.publishing import publish
    from hookwright.publishing.booklet import booklet
    from hookwright.publishing.gather import BOTH, sheet_of
    from hookwright.publishing.page import page
    from hookwright.publishing.pictures import drawings_of, hero_of
    from hookwright.publishing.yarns import answer_of
    from hookwright.reading import read
    from hookwright.working import work

    text = path.read_text(encoding="utf-8")
    pattern = read(text)
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    drawings = {terms: drawings_of(pattern, fabrics, terms) for terms in BOTH}
    hero = hero_of(fabrics, drawings["US"])
    sheet = sheet_of(pattern, fabrics, drawings=drawings, hero=hero, yarn=answer_of(pattern, fabrics))
    return [
        timed(lambda: [work(read(text), size=size) for size in range(pattern.sizes)]),
        timed(lambda: drawings_of(pattern, fabrics, "US")),
        timed(lambda: booklet(sheet)),
        timed(lambda: booklet(sheet)),
        timed(lambda: booklet(sheet, large=True)),
        timed(lambda: page(sheet)),
        timed(lambda: publish(pattern, fabrics)),
    ]


def main() -> None:
    if len(sys.argv) > 1:
        print(json.dumps(stages(EXAMPLES / f"{sys.argv[1]}.md")))
        return
    print("| piece | " + " | ".join(f"{stage} ms" for stage in STAGES) + " | `hookwright publish` s |")
    print("| --- |" + " --- |" * (len(STAGES) + 1))
    for name in PIECES:
        figures = json.loads(subprocess.run([sys.executable, __file__, name], capture_output=True, check=True, text=True).stdout)
        with tempfile.TemporaryDirectory() as folder:
            command = [str(Path(sys.executable).with_name("hookwright")), "publish", str(EXAMPLES / f"{name}.md"), "-o", f"{folder}/out"]
            started = time.perf_counter()
            subprocess.run(command, capture_output=True, check=True)
            whole = time.perf_counter() - started
        print(f"| {name} | " + " | ".join(f"{figure:.0f}" for figure in figures) + f" | {whole:.1f} |")


if __name__ == "__main__":
    main()
