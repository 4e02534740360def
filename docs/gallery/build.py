"""Draw the gallery of charts.md from examples/: `python docs/gallery/build.py [NAME …]`. SVGs, and PNGs at print size."""

from __future__ import annotations

import sys
from pathlib import Path

from hookwright.drawing.chart import chart
from hookwright.drawing.clear import covered
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.overlaps import overlaps
from hookwright.drawing.png import to_png
from hookwright.drawing.specimen import specimen_svg
from hookwright.drawing.squares import squares_svg
from hookwright.reading import read
from hookwright.working import work

HERE = Path(__file__).parent
EXAMPLES = HERE.parents[1] / "examples"
CHARTS = (
    "charts/limpet-shells",
    "charts/net-and-fan", "charts/groundswell-ripple", "charts/rope-panel", "charts/filet-gull", "charts/cockle-trim",
    "charts/sea-urchin-motif", "charts/pinecone-doily", "charts/cobble-round",
    "charts/keel-oval", "charts/capstan-square", "charts/harbour-square", "bollard-seat-pad", "charts/picot-tile", "charts/spindrift-fan",
    "charts/quay-wall-cloth", "charts/shingle-throw", "charts/edged-swatch", "charts/pebble-panel",
    "charts/net-float", "charts/ebb-cloth", "charts/spindle-head", "charts/lattice-drop",
    "charts/causeway-cloth", "charts/sluice-throw", "charts/fir-doily", "charts/ladder-mosaic",
    "charts/skiff-yoke", "charts/mule-strap", "hawser-panel", "swell-blanket", "pilchard-toy",
    "charts/fulmar-flower", "charts/pennant-triangle", "charts/hatch-mat", "charts/stormfront-shawl", "charts/jetty-round",
)  # fmt: skip
SQUARES = ("charts/filet-gull", "charts/tideline-band", "charts/ladder-mosaic")
PART = {"causeway-cloth": 1, "mule-strap": 1}
"""The part drawn, where it is not the first: the motif that is joined, what is worked on another part."""
DPI = 150


def main(names: list[str]) -> None:
    for path in CHARTS:
        name = path.rpartition("/")[2]
        if not names or name in names:
            fabric = work(read((EXAMPLES / f"{path}.md").read_text(encoding="utf-8")))
            for handed in ("right", "left") if name == "limpet-shells" else ("right",):
                made = chart(fabric, PART.get(name, 0), handed="left" if handed == "left" else "right")
                drawing = svg(made)
                counted = count_back(fabric, [drawing])
                keep(name if handed == "right" else f"{name}-left", drawing)
                told = f"{name}: {len(made.marks)} symbols, {counted.differences} differences, {len(overlaps(made))} overlaps, "
                told += f"{len(covered(made))} words on symbols\n"
                sys.stdout.write(told)
    for path in SQUARES:
        name = path.rpartition("/")[2] + "-squares"
        if not names or name in names:
            fabric = work(read((EXAMPLES / f"{path}.md").read_text(encoding="utf-8")))
            drawing = squares_svg(fabric, 0) or ""
            if drawing:
                keep(name, drawing)
    if not names or "symbols" in names:
        keep("symbols", specimen_svg())


def keep(name: str, drawing: str) -> None:
    (HERE / f"{name}.svg").write_text(drawing, encoding="utf-8")
    (HERE / f"{name}.png").write_bytes(to_png(drawing, dpi=DPI))


if __name__ == "__main__":
    main(sys.argv[1:])
