"""The key: exactly the symbols the chart uses, each with its abbreviation and name in the pattern's own terms."""

from __future__ import annotations

from ..trade import terms
from .engraving import LOOP_SUFFIX
from .inks import GHOST
from .marks import Chart, Label, Mark
from .shapes import WEIGHT_MM, Shape
from .svg import move, num
from .symbols import CHAIN_HALF_MM, CHAIN_MM, Cross, Loop, has_symbol, height_mm, nominal, plain
from .yarn_inks import inks

CELL_MM = 52.0
TEXT_MM = 2.6
ORDER = (
    "ch", "sl st", "sc", "esc", "hdc", "ehdc", "dc", "edc", "tr", "dtr", "trtr", "qtr", "cl", "bobble", "puff", "popcorn", "star", "picot",
    "crab", "loop st", "bullion", "solomon",
)  # fmt: skip
_LOOP_WORDS: dict[Loop, str] = {"front": "front loop only", "back": "back loop only", "third": "third loop", "": ""}


def used(marks: list[Mark]) -> list[tuple[str, Loop]]:
    """The kinds (and loops) that occur, in the order of a key: by height, built stitches after their plain ones."""
    seen: dict[tuple[str, Loop], None] = {}
    for mark in marks:
        seen.setdefault((mark.kind, loop_in(mark.glyph)))
    rank = {kind: i for i, kind in enumerate(ORDER)}
    return sorted(seen, key=lambda pair: (rank.get(plain(pair[0]), len(ORDER)), pair[0] != plain(pair[0]), pair))


def loop_in(glyph: str) -> Loop:
    """The loop a glyph's name tells."""
    stem = glyph.partition("--")[0]
    for loop, suffix in LOOP_SUFFIX.items():
        if suffix and stem.endswith(suffix):
            return loop
    return ""


def said(kind: str, loop: Loop, system: str) -> str:
    """A stitch in the words of the pattern's terms, with its loop.

    >>> said("dc", "", "UK"), said("sc", "back", "US")
    ('tr  treble', 'sc  single crochet, back loop only')
    """
    uk: terms.System = "UK" if system == "UK" else "US"
    short, name = terms.abbr(kind, uk), terms.name(kind, uk)
    words = name if name.split()[0] == short else f"{short}  {name}"
    return f"{words}, {_LOOP_WORDS[loop]}" if loop else words


def add_key(chart: Chart, box: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
    """Set the key under the drawing; answers the new box."""
    x, y, width, height = box
    entries: list[tuple[Shape, float, str]] = []
    cross: Cross = "cross" if chart.cross == "cross" else "plus"
    for kind, loop in used(chart.marks):
        words = said(kind, loop, chart.terms) if has_symbol(kind) or kind == "ch" else f"{kind}  (boxed)"
        entries.append((nominal(kind, cross, loop), height_mm(kind) if kind != "ch" else 1.6, words))
    entries += _signs(chart)
    columns = max(1, min(3, int(width // CELL_MM), len(entries)))
    widest = max((len(words) for _, _, words in entries), default=0) * TEXT_MM * 0.52 + 10
    columns = max(1, min(columns, int(width // widest) or 1))
    top = y + height + 5.0
    chart.labels.append(Label("Key", x, top + 1.5, 3.0, "start", "key", bold=True))
    top += 5.0
    rows = [entries[i : i + columns] for i in range(0, len(entries), columns)]
    cell = max(widest, width / columns if columns > 1 else widest)
    for row in rows:
        tall = max(max(h for _, h, _ in row), 2.6) + 1.8
        for k, (shape, high, words) in enumerate(row):
            cx, middle = x + k * cell + 4.0, top + tall / 2
            _show(chart, shape, words, cx, middle, high)
            chart.labels.append(Label(words, cx + 5.0, middle + TEXT_MM * 0.33, TEXT_MM, "start", "key"))
        top += tall
    return x, y, max(width, columns * cell), top - y


def _show(chart: Chart, shape: Shape, words: str, cx: float, middle: float, high: float) -> None:
    """A key symbol is drawn outright, not referred to: only stitches of the chart are references, so that they can be counted."""
    x1, y1, x2, y2 = ink_of(shape)
    chart.key.append((shape.markup, round(cx - (x1 + x2) / 2, 2), round(middle - (y1 + y2) / 2, 2)))


def ink_of(shape: Shape) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a symbol's ink."""
    xs = [v for a, _, b, _, r in shape.body for v in (a - r, a + r, b - r, b + r)]
    ys = [v for _, a, _, b, r in shape.body for v in (a - r, a + r, b - r, b + r)]
    return min(xs), min(ys), max(xs), max(ys)


def _signs(chart: Chart) -> list[tuple[Shape, float, str]]:
    """Signs that are no stitches: fasten off, join in."""
    out = []
    for what, words in (("fasten-off", "fasten off"), ("join-in", "join new yarn")):
        stroke = next((stroke for stroke in chart.strokes if stroke.what == what), None)
        if stroke is not None:
            d = move("M", 0, -0.9, "L", 0.9, 0.9, "L", -0.9, 0.9, "Z")
            fill = ' fill="currentColor"' if stroke.filled else ""
            out.append((Shape(f'<path d="{d}"{fill}/>', ((-0.9, -0.9, 0.9, 0.9, WEIGHT_MM / 2),)), 1.8, words))
    if any(stroke.what == "return-pass" for stroke in chart.strokes):
        d = move("M", -2, 0, "q", 0.5, -0.55, 1, 0, "t", 1, 0, "t", 1, 0, "t", 1, 0)
        out.append((Shape(f'<path d="{d}"/>', ((-2.0, 0.0, 2.0, 0.0, 0.4),)), 1.8, "return pass"))
    return out + _others(chart) + _yarns(chart)


def _others(chart: Chart) -> list[tuple[Shape, float, str]]:
    """What is shown in grey: pieces that this one is joined to or worked on."""
    words = [f"in grey: {each}" for each in chart.others]
    half = CHAIN_MM / 2
    oval = f'<ellipse rx="{num(half)}" ry="{num(CHAIN_HALF_MM)}" stroke="{GHOST}"/>'
    return [(Shape(oval, ((-half, 0.0, half, 0.0, CHAIN_HALF_MM),)), 1.8, each) for each in words]


def _yarns(chart: Chart) -> list[tuple[Shape, float, str]]:
    """Every yarn's ink with its letter, when there are several."""
    if len([letter for letter in chart.letters if letter]) < 2:
        return []
    out = []
    for i, (letter, words) in enumerate(zip(chart.letters, chart.yarn_words, strict=True)):
        if letter:
            ink = inks(chart)[i]
            d = move("M", -2.4, 0, "H", 2.4)
            line = Shape(f'<path d="{d}" stroke="{ink}" stroke-width="0.9"/>', ((-2.4, 0.0, 2.4, 0.0, 0.45),))
            out.append((line, 1.8, f"{letter}  {words}" if words else f"{letter}  yarn {letter}"))
    return out
