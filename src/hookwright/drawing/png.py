"""SVG → PNG and PDF by the typesetter, with the bundled fonts only, so that the same picture comes out on every machine.

The SVG reaches the typesetter as data (an input string), its root an empty folder: markup in a label can read no file.
"""

from __future__ import annotations

import importlib.resources
import math
import re
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import typst

FONT_PACKAGES = ("fontpkg_atkinson_hyperlegible", "fontpkg_noto_sans")

_PAGE = b"""#set page(width: auto, height: auto, margin: 0pt, fill: rgb(sys.inputs.paper))
#set document(title: sys.inputs.title, date: none)
#set text(lang: sys.inputs.lang, font: ("Atkinson Hyperlegible", "Noto Sans"))
#image(bytes(sys.inputs.svg), format: "svg", width: float(sys.inputs.width) * 1mm, alt: sys.inputs.alt)
"""
_SHEETS = b"""#set document(title: sys.inputs.title, date: none)
#set text(lang: sys.inputs.lang, font: ("Atkinson Hyperlegible", "Noto Sans"))
#let n = int(sys.inputs.pages)
#set page(width: auto, height: auto, margin: 0pt, fill: rgb(sys.inputs.paper))
#for i in range(n) {
  let s = str(i)
  image(bytes(sys.inputs.at("svg" + s)), format: "svg", width: float(sys.inputs.at("width" + s)) * 1mm, alt: sys.inputs.at("alt" + s))
  if i + 1 < n { pagebreak() }
}
"""
_SIZE = re.compile(r' width="([0-9.]+)mm" height="([0-9.]+)mm" viewBox="([-0-9.]+) ([-0-9.]+) ([0-9.]+) ([0-9.]+)"')
_WIDTH = re.compile(r'<svg[^>]*? width="([0-9.]+)mm"')
_TITLE = re.compile(r"<title[^>]*>(.*?)</title>", re.S)
_DESC = re.compile(r"<desc[^>]*>(.*?)</desc>", re.S)


def font_folders() -> list[str]:
    """The folders of the bundled font files (also for other users of the typesetter)."""
    return [str(importlib.resources.files(package) / "files") for package in FONT_PACKAGES]


@lru_cache(maxsize=1)
def bundled_fonts() -> typst.Fonts:
    """The bundled fonts and no others: neither the system's nor the typesetter's own."""
    import typst

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=list(font_folders()))


def to_png(svg: str, *, dpi: float = 300.0, paper: str = "#ffffff") -> bytes:
    """One SVG of `svg.Svg` as PNG. `dpi` pixels per inch of print size; `paper` the ground, as #rrggbb."""
    return _compile(_PAGE, _inputs(_in_whole_pixels(svg, dpi), paper), "png", dpi)


def to_pdf(svg: str, *, paper: str = "#ffffff") -> bytes:
    """One SVG as a one-page PDF of exactly its size; tagged, with the description as its alternative text."""
    return _compile(_PAGE, _inputs(svg, paper), "pdf", None)


def to_pdf_pages(svgs: tuple[str, ...], *, paper: str = "#ffffff") -> bytes:
    """Several SVGs as the pages of one PDF, each of its own size. Raises ValueError when there are none."""
    if not svgs:
        raise ValueError("there is no page to print")
    inputs = {**_inputs(svgs[0], paper), "pages": str(len(svgs))}
    for i, svg in enumerate(svgs):
        one = _inputs(svg, paper)
        inputs |= {f"svg{i}": svg, f"width{i}": one["width"], f"alt{i}": one["alt"]}
    return _compile(_SHEETS, inputs, "pdf", None)


def _in_whole_pixels(svg: str, dpi: float) -> str:
    """The picture with paper added at the right and below until it is a whole number of pixels wide and high.

    The typesetter draws a picture in whole pixels and then lays it on the page by nearest neighbours; where the page is a fraction of a
    pixel smaller, that leaves out a line of pixels in each direction, and with it the bar of a stitch or the top of a word.
    """
    size = _SIZE.search(svg)
    if size is None:
        return svg
    width, height, x, y, across, down = (float(value) for value in size.groups())
    # A hair less, in height twice that: the typesetter rounds up, the height after the width.
    wide, high = (math.ceil(round(mm * dpi / 25.4, 3)) * 25.4 / dpi * (1 - hair) for mm, hair in ((width, 1e-5), (height, 2e-5)))
    box = f"{x} {y} {across * wide / width:.7f} {down * high / height:.7f}"
    return f'{svg[: size.start()]} width="{wide:.7f}mm" height="{high:.7f}mm" viewBox="{box}"{svg[size.end() :]}'


def _inputs(svg: str, paper: str) -> dict[str, str]:
    width = _WIDTH.search(svg)
    return {
        "svg": svg,
        "paper": paper,
        "width": width[1] if width else "100",
        "title": _words(_TITLE, svg),
        "alt": _words(_DESC, svg) or _words(_TITLE, svg),
        "lang": "en",
    }


def _words(pattern: re.Pattern[str], svg: str) -> str:
    import html

    found = pattern.search(svg)
    return html.unescape(found[1]) if found else "drawing"


def _compile(document: bytes, inputs: dict[str, str], form: str, dpi: float | None) -> bytes:
    import tempfile

    import typst

    with tempfile.TemporaryDirectory() as empty:
        setter = typst.Compiler(document, root=Path(empty), font_paths=bundled_fonts(), sys_inputs=inputs)
        made = setter.compile(format="png" if form == "png" else "pdf", ppi=dpi, timestamp=0)
    if isinstance(made, list):
        made = made[0]
    if not isinstance(made, bytes):
        raise TypeError("the typesetter returned no picture")
    return made
