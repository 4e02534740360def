"""The specimen page: every symbol at print size with its name, for checking by eye and for the docs."""

from __future__ import annotations

from ..trade import terms
from .inks import INK, QUIET
from .key import ink_of, said
from .labels import text_width
from .shapes import WEIGHT_MM, Shape
from .svg import Svg, at, line, num, text
from .symbols import Cross, Loop, nominal, upright

CELL_W_MM, CELL_H_MM, COLUMNS = 44.0, 20.0, 4
PLAIN = ("ch", "sl st", "sc", "hdc", "dc", "tr", "dtr", "trtr", "qtr", "esc", "ehdc", "edc", "ldc", "ltr", "fsc", "fhdc", "fdc")
BUILT = (
    "sc2tog",
    "sc3tog",
    "hdc2tog",
    "dc2tog",
    "dc3tog",
    "dc4tog",
    "tr2tog",
    "FPsc",
    "BPsc",
    "FPhdc",
    "BPhdc",
    "FPdc",
    "BPdc",
    "FPtr",
    "BPtr",
    "FPdc2tog",
)
GROUPS = ("cl", "bobble", "puff", "popcorn", "star", "picot", "crab", "loop st", "bullion", "solomon")
TUNISIAN = ("tss", "tks", "tps", "trs", "tfs", "tes")
NAMES = {
    "ldc": "linked double crochet", "ltr": "linked treble crochet", "loop st": "loop stitch", "solomon": "knot stitch",
    "crab": "reverse single crochet", "star": "star stitch", "tss": "Tunisian simple", "tks": "Tunisian knit",
    "tps": "Tunisian purl", "trs": "Tunisian reverse", "tfs": "Tunisian full", "tes": "Tunisian extended",
}  # fmt: skip


def specimen_svg(terms_told: terms.System = "US") -> str:
    """Every symbol on one page, in the words of US or UK terms."""
    entries: list[tuple[str, Shape]] = []
    for cross, name in (("plus", "sc as +"), ("cross", "sc as ×")):
        form: Cross = "plus" if cross == "plus" else "cross"
        entries.append((name, nominal("sc", form)))
    entries += [(NAMES.get(kind, said(kind, "", terms_told)), nominal(kind)) for kind in (*PLAIN, *BUILT) if kind != "sc"]
    entries += [(NAMES.get(kind, said(kind, "", terms_told)), nominal(kind)) for kind in (*GROUPS, *TUNISIAN)]
    loops: tuple[Loop, ...] = ("back", "front", "third")
    entries += [(said(kind, loop, terms_told), nominal(kind, "plus", loop)) for kind in ("sc", "dc") for loop in loops]
    entries.append(("dc passing under another", upright("dc", 64, "", "plus", (32,), free=32)))
    entries.append(("a stitch without a symbol: boxed", nominal("moss")))
    rows = -(-len(entries) // COLUMNS)
    page = Svg(
        width_mm=COLUMNS * CELL_W_MM + 8, height_mm=rows * CELL_H_MM + 16, title="Chart symbols",
        desc="Every chart symbol at print size: " + ", ".join(name for name, _ in entries) + ".", lang="en",
    )  # fmt: skip
    page.add(text(6, 9, f"Chart symbols ({terms_told} terms)", size_mm=4.2, weight="bold", fill=INK))
    for i, (name, shape) in enumerate(entries):
        page.add(*_cell(6 + i % COLUMNS * CELL_W_MM, 13 + i // COLUMNS * CELL_H_MM, name, shape))
    return page.render()


def _cell(x: float, y: float, name: str, shape: Shape) -> list[str]:
    x1, y1, x2, y2 = ink_of(shape)
    place = at(x + 6 - (x1 + x2) / 2, y + (CELL_H_MM - 3) / 2 - (y1 + y2) / 2)
    drawn = (
        f'<g transform="{place}" fill="none" stroke="{INK}" color="{INK}" stroke-width="{num(WEIGHT_MM)}" stroke-linecap="round">'
        f"{shape.markup}</g>"
    )
    words, lines = name.split(), [""]
    for word in words:
        if lines[-1] and text_width(f"{lines[-1]} {word}", 2.5) > CELL_W_MM - 15:
            lines.append(word)
        else:
            lines[-1] = f"{lines[-1]} {word}".strip()
    middle = y + (CELL_H_MM - 3) / 2 + 0.9 - (len(lines) - 1) * 1.6
    return [
        drawn,
        *(text(x + 13, middle + k * 3.2, words, size_mm=2.5, fill=INK) for k, words in enumerate(lines)),
        line(x, y + CELL_H_MM - 2, x + CELL_W_MM - 4, y + CELL_H_MM - 2, stroke=QUIET, stroke_width=0.1),
    ]
