"""Of real patterns that state both a gauge and a finished size: how many come out within 5 % of it.

Run: `python benches/sizes.py --folder FOLDER` with a folder of patterns (`patterns/*.md` or `*.txt` inside it, or directly). A piece whose
plain counts over its own gauge already contradict its stated size is counted apart: no measuring could bring the two together.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from hookwright.measuring import Measures, measure
from hookwright.reading import read
from hookwright.working import work

NEAR = 0.05


@dataclass(frozen=True)
class Compared:
    name: str
    what: str
    stated_cm: float
    measured_cm: float
    plain_cm: float | None
    """Stitches of the widest row, or rows, over the stated gauge alone."""

    @property
    def off(self) -> float:
        return self.measured_cm / self.stated_cm - 1

    @property
    def contradicts(self) -> bool:
        return self.plain_cm is not None and abs(self.plain_cm / self.stated_cm - 1) > NEAR


def compared(name: str, text: str) -> Iterator[Compared]:
    """Every stated size of a pattern beside what comes out."""
    pattern = read(text)
    if not pattern.facts.gauge or not pattern.facts.finished:
        return
    for size in range(pattern.sizes):
        measures = measure(work(pattern, size=size))
        for stated in pattern.facts.finished:
            cm = stated.cm[min(size, len(stated.cm) - 1)]
            found = _nearest(measures, stated.what, cm)
            if found is not None and cm > 0:
                yield Compared(f"{name} size {size + 1}", stated.what, cm, found[0], found[1])


def _nearest(measures: Measures, what: str, cm: float) -> tuple[float, float | None] | None:
    """The measured size nearest to what is stated, over the parts; and the plain arithmetic for it."""
    gauge = measures.fabric.pattern.facts.gauge[0]
    found: list[tuple[float, float | None]] = []
    for part in measures.parts:
        rows = [row for row in part.rows if row.height_cm]
        if not rows:
            continue
        widest = max(row.stitches for row in rows) * gauge.width_cm
        tall = len(rows) * gauge.height_cm if gauge.height_cm else None
        if part.rounds is not None:
            by_what = {"diameter": (part.rounds.diameter_cm, None), "girth": (part.rounds.girth_cm, widest)}
            by_what |= {"width": (part.width_cm, widest / 2 if part.lies != "flat" else None), "length": (part.length_cm, tall)}
        else:
            by_what = {"width": (part.width_cm, widest), "length": (part.length_cm, tall)}
        if what in by_what and by_what[what][0] > 0:
            found.append(by_what[what])
    return min(found, key=lambda pair: abs(pair[0] - cm), default=None)


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--folder", type=Path, required=True)
    folder = asked.parse_args().folder
    root = folder / "patterns" if (folder / "patterns").is_dir() else folder
    files = sorted(path for path in root.iterdir() if path.suffix in (".md", ".txt"))
    all_of: list[Compared] = []
    for path in files:
        text = "\n".join(line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith("# "))
        all_of += compared(path.stem, text)
    print("| piece | what | stated cm | measured cm | off % | plain counts over gauge, cm |")
    print("| --- | --- | --- | --- | --- | --- |")
    for each in all_of:
        plain = "-" if each.plain_cm is None else f"{each.plain_cm:.1f}"
        print(f"| {each.name} | {each.what} | {each.stated_cm:.1f} | {each.measured_cm:.1f} | {100 * each.off:+.0f} | {plain} |")
    print(f"{len(files)} patterns; sizes that can be compared: {len(all_of)}")
    for what in ("width", "length", "diameter", "girth"):
        these = [each for each in all_of if each.what == what]
        apart = [each for each in these if each.contradicts]
        fair = [each for each in these if not each.contradicts]
        near = sum(abs(each.off) <= NEAR for each in fair)
        if these:
            print(f"{what}: {near} of {len(fair)} within 5 %; {len(apart)} more contradict themselves")


if __name__ == "__main__":
    main()
