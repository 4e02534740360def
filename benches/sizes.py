"""Of real patterns that state both a gauge and a finished size: how many come out within 5 % of it.

Run: `python benches/sizes.py --folder FOLDER` with a folder of patterns (`patterns/*.md` or `*.txt` inside it, or directly), and/or
`--pieces FILE.csv` with made pieces (columns stitch, gauge_sts_10cm, gauge_rows_10cm, width_cm, length_cm, note; the note tells the count:
"25 sc wide", "196 sts x 47 rows"). `--truth FILE.jsonl` adds sizes and gauges that were taken from the texts by hand. A piece whose plain
counts over its own gauge already contradict its stated size is counted apart: no measuring could bring the two together. Where a text
does not say which side is the width, the nearer way round is taken.
"""

from __future__ import annotations

import argparse
import csv
import json
import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from tests import fabrics

from hookwright.measuring import Measures, measure, put_together
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


def compared(name: str, text: str, told: Mapping[str, str]) -> Iterator[Compared]:
    """Every stated size of a pattern beside what comes out. `told`: gauge and finished size by hand, used where none was read."""
    pattern = read(text)
    extra = ""
    if not pattern.facts.gauge and not pattern.facts.motif_cm and told.get("gauge"):
        extra += f"Gauge: {told['gauge']}\n\n"
    if not pattern.facts.finished and told.get("finished_size"):
        extra += f"Finished size: {told['finished_size']}\n\n"
    if extra:
        facts = read(extra + text).facts
        pattern = read(text) if not (facts.gauge or facts.motif_cm) else read(extra + text)
    facts = pattern.facts
    if not (facts.gauge or facts.motif_cm) or not facts.finished:
        return
    for size in range(pattern.sizes):
        measures = measure(work(pattern, size=size))
        if (
            facts.motif_cm
            and max(one.cm[0] for one in facts.finished) > 1.5 * facts.motif_cm
            and not any(thing.kind == "blanket" for thing in put_together(measures))
        ):
            print(f"{name}: the size of one motif is told, but not how many lie in a row: left out", file=sys.stderr)
            return
        stated = {one.what: one.cm[min(size, len(one.cm) - 1)] for one in facts.finished}
        sizes = list(_sizes(measures))
        if set(stated) == {"width", "length"}:
            best = min((_both(stated, each) for each in sizes), key=lambda pair: sum(abs(c.off) for c in pair), default=())
            yield from (replace(each, name=f"{name} size {size + 1}") for each in best)
            continue
        for what, cm in stated.items():
            if facts.motif_cm and abs(cm / facts.motif_cm - 1) < 0.02:
                continue  # the very size that the stitches were scaled to
            found = [Compared("", what, cm, each[what][0], each[what][1]) for each in sizes if what in each and each[what][0] > 0]
            if found:
                yield replace(min(found, key=lambda c: abs(c.off)), name=f"{name} size {size + 1}")


Sizes = dict[str, tuple[float, float | None]]


def _both(stated: Mapping[str, float], each: Sizes) -> tuple[Compared, Compared]:
    """Width and length, whichever way round is nearer."""
    ways = []
    for one, other in (("width", "length"), ("length", "width")):
        ways.append((Compared("", "width", stated["width"], *each[one]), Compared("", "length", stated["length"], *each[other])))
    return min(ways, key=lambda pair: sum(abs(c.off) for c in pair))


def _sizes(measures: Measures) -> Iterator[Sizes]:
    """The sizes of every part and of everything put together, each beside the plain arithmetic for it (None where there is none)."""
    gauges = measures.fabric.pattern.facts.gauge
    gauge = gauges[0] if gauges else None
    things = put_together(measures)
    for thing in things:
        plain = None, None
        motif = measures.fabric.pattern.facts.motif_cm
        if motif and thing.rows and thing.across:
            plain = thing.across * motif, thing.rows * motif
        yield {"width": (thing.width_cm, plain[0]), "length": (thing.length_cm, plain[1]), "girth": (thing.girth_cm or 0.0, None)}
    for part in measures.parts:
        rows = [row for row in part.rows if row.height_cm]
        if not rows or part.width_cm <= 0 or part.length_cm <= 0:
            continue
        widest = max(row.stitches for row in rows) * gauge.width_cm if gauge else None
        tall = len(rows) * gauge.height_cm if gauge and gauge.height_cm else None
        if part.rounds is not None:
            round_plain = widest / 2 if widest and part.lies != "flat" else None
            yield {
                "diameter": (part.rounds.diameter_cm, None), "girth": (part.rounds.girth_cm, widest), "width": (part.width_cm, round_plain),
                "length": (part.length_cm, tall if part.lies != "flat" else None),
            }  # fmt: skip
        else:
            yield {"width": (part.width_cm, widest), "length": (part.length_cm, tall)}


_COUNTED = re.compile(r"\b(\d{2,3})\s?(?:sts?|sc|hdc|dc|tr)\b(?:\s?(?:x|×)\s?(\d{1,3})\s?rows)?")


def made_pieces(path: Path) -> Iterator[Compared]:
    """Pieces of a table with gauge, count and size."""
    with path.open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(lines):
            count = _COUNTED.search(row["note"] or "")
            if count is None or not row["gauge_sts_10cm"] or not row["width_cm"]:
                continue
            stitches, per = int(count[1]), float(row["gauge_sts_10cm"])
            high = float(row["gauge_rows_10cm"]) if row["gauge_rows_10cm"] else None
            rows = int(count[2]) if count[2] else 10
            kind = row["stitch"] if row["stitch"] in ("sc", "hdc", "dc", "tr") else "dc"
            part = measure(fabrics.rectangle(stitches, rows, kind, gauge={kind: (per, high or per)})).parts[0]
            yield Compared(row["id"], "width", float(row["width_cm"]), part.width_cm, stitches * 10 / per)
            if count[2] and high:
                yield Compared(row["id"], "length", float(row["length_cm"]), part.length_cm, rows * 10 / high)


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--folder", type=Path)
    asked.add_argument("--truth", type=Path)
    asked.add_argument("--pieces", type=Path)
    told = asked.parse_args()
    files: list[Path] = []
    all_of: list[Compared] = []
    by_hand: dict[str, dict[str, str]] = {}
    if told.truth:
        entries = [json.loads(line) for line in told.truth.read_text(encoding="utf-8").splitlines() if line.strip()]
        by_hand = {entry["id"]: entry for entry in entries}
    if told.folder:
        root = told.folder / "patterns" if (told.folder / "patterns").is_dir() else told.folder
        files = sorted(path for path in root.iterdir() if path.suffix in (".md", ".txt"))
    for path in files:
        text = "\n".join(line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith("# "))
        all_of += compared(path.stem, text, by_hand.get(path.stem, {}))
    if told.pieces:
        all_of += made_pieces(told.pieces)
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
