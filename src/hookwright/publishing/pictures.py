"""The drawings of a published pattern, and their files."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Literal

from ..measuring import Measures, measure
from ..pattern import Pattern
from ..working.fabric import Fabric, PartWork
from .anchors import slug
from .sheet import Drawn, Terms

_SIZE = re.compile(r'<svg[^>]*? width="([0-9.]+)mm" height="([0-9.]+)mm"')
_TITLE = re.compile(r"<title[^>]*>(.*?)</title>", re.S)
_DESC = re.compile(r"<desc[^>]*>(.*?)</desc>", re.S)
HANDS: tuple[Literal["right", "left"], ...] = ("right", "left")
PNG_DPI = 200.0
PNG_MOST_MM = 400.0
"""A PNG is drawn at most so long a side, in print: longer ones at fewer dots per inch."""


def drawings_of(pattern: Pattern, fabrics: Sequence[Fabric], terms: Terms) -> tuple[Drawn, ...]:
    """Charts and schematics of every part, their words in `terms`, each with its mirror image where a left-hander needs one."""
    if not fabrics:
        return ()
    fabrics = [replace(fabric, pattern=replace(fabric.pattern, terms=terms)) for fabric in fabrics]
    measured = [measure(fabric) for fabric in fabrics]
    return (*_charts(pattern, fabrics[0]), *_schematics(pattern, measured))


def hero_of(fabrics: Sequence[Fabric], drawings: Sequence[Drawn]) -> Drawn | None:
    """The drawing of the title page: the chart of the first part, without key, while its stitches can be told apart; else its schematic."""
    from ..drawing.chart import chart
    from ..drawing.export import svg

    if fabrics and fabrics[0].parts and sum(row.counted.total for row in fabrics[0].parts[0].rows) <= MOST_ON_TITLE:
        made = chart(fabrics[0], 0, key=False)
        if made.form == "round" or len(made.marks) <= MOST_FLAT_ON_TITLE:
            return drawn("chart", "title", svg(made))
    return next((drawing for kind in ("schematic", "chart") for drawing in drawings if drawing.kind == kind), None)


MOST_ON_TITLE = 1500
"""Stitches that can still be told apart on a title page."""
MOST_FLAT_ON_TITLE = 700
"""Symbols of a flat chart, its repeats told in words: more make a wide picture that is small on the page."""


def _charts(pattern: Pattern, fabric: Fabric) -> Iterator[Drawn]:
    """A chart of every part, in the smallest size; of a big part its first rows, where it is too big to be read."""
    from ..drawing.chart import chart
    from ..drawing.export import svg

    names: list[str] = []
    size = f", size {pattern.facts.size_names[0]}" if len(pattern.facts.size_names) > 1 else ""
    for at, part in enumerate(fabric.parts):
        if not any(row.counted.total for row in part.rows if not row.foundation):
            continue
        name = part.name or "piece"
        names.append(name)
        again = f" {names.count(name)}" if names.count(name) > 1 else ""
        shown = part if _fits(fabric, at) else first_rows(part)
        cut = replace(fabric, parts=(*fabric.parts[:at], shown, *fabric.parts[at + 1 :]))
        made = [svg(chart(cut, at, handed=handed)) for handed in HANDS]
        some = f", {_span(shown)} of {len(_numbered(part))}" if len(shown.rows) < len(part.rows) else ""
        yield drawn("chart", f"{name}{again}", made[0], made[1], title=f"Chart: {name}{size}{some}")


def _fits(fabric: Fabric, at: int) -> bool:
    """Whether a page can show a part, its plain runs broken and its repeats, of rows and across them, told in words."""
    from ..drawing.abridging import abridge
    from ..drawing.chart import chart

    part = fabric.parts[at]
    kept = sum(part.rows[row].counted.total for row in abridge(part).kept)
    return kept <= MOST_ON_CHART or (kept <= WORTH_TRYING * MOST_ON_CHART and len(chart(fabric, at, key=False).marks) <= MOST_ON_CHART)


WORTH_TRYING = 8
"""A part of more times what a page can show is not engraved to find out how much cutting it leaves."""
MOST_ON_CHART = 1400
"""Symbols that can still be told apart on a page."""
FIRST_ON_CHART = 450
"""Stitches shown of a part that is too big for one page."""


def first_rows(part: PartWork) -> PartWork:
    """So many of its first rows as a page can show well."""
    stitches = 0
    for at, row in enumerate(part.rows):
        stitches += row.counted.total
        if stitches > FIRST_ON_CHART and at:
            return replace(part, rows=part.rows[:at])
    return part


def _numbered(part: PartWork) -> list[int]:
    return [row.number for row in part.rows if row.number is not None]


def _span(part: PartWork) -> str:
    numbers = _numbered(part)
    noun = "rounds" if part.rows and part.rows[-1].made_in not in ("rows", "passes") else "rows"
    return f"{noun} {numbers[0]} to {numbers[-1]}" if numbers else f"the first {len(part.rows)} {noun}"


def _schematics(pattern: Pattern, measured: Sequence[Measures]) -> Iterator[Drawn]:
    from ..drawing.schematic import schematics

    if not pattern.facts.gauge:
        return
    mirrored = schematics(measured, left_handed=True)
    for name, svg in schematics(measured).items():
        yield drawn("schematic", name, svg, mirrored.get(name, ""))


def drawn(kind: str, name: str, svg: str, mirror: str = "", title: str = "") -> Drawn:
    """A drawing with its title, words and size, as the SVG itself tells them."""
    size = _SIZE.search(svg)
    return Drawn(
        kind="chart" if kind == "chart" else "schematic",
        file=f"{kind}-{slug(name) or 'piece'}",
        title=title or _words(_TITLE, svg) or name,
        alt=_words(_DESC, svg) or _words(_TITLE, svg) or name,
        svg=svg,
        width_mm=float(size[1]) if size else 100.0,
        height_mm=float(size[2]) if size else 100.0,
        mirror=mirror if mirror != svg else "",
        caption=_first_sentence(_words(_DESC, svg)) if kind == "chart" else "",
    )


def _first_sentence(text: str) -> str:
    return text.split(". ", 1)[0].rstrip(".") + "." if text else ""


def _words(pattern: re.Pattern[str], svg: str) -> str:
    found = pattern.search(svg)
    return html.unescape(" ".join(found[1].split())) if found else ""


def picture_files(drawings: Sequence[Drawn]) -> dict[str, bytes]:
    """Every drawing as SVG and PNG; the left-hander's as "…-left"."""
    from ..drawing.png import to_png

    files: dict[str, bytes] = {}
    for drawing in drawings:
        for ending, svg in (("", drawing.svg), ("-left", drawing.mirror)):
            if svg:
                name = f"pictures/{drawing.file}{ending}"
                files[f"{name}.svg"] = svg.encode()
                files[f"{name}.png"] = to_png(svg, dpi=_dpi(drawing))
    return files


def _dpi(drawing: Drawn) -> float:
    longest = max(drawing.width_mm, drawing.height_mm)
    return min(PNG_DPI, PNG_DPI * PNG_MOST_MM / longest)
