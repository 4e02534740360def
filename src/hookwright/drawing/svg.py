"""A small SVG writer: strings in, one well-formed, byte-stable document out.

Every picture of Hookwright goes through here, so that three things hold everywhere: numbers are rounded by one function (0.01 mm),
text is escaped by one function, and every picture carries a title and a description. User units are millimetres.

>>> picture = Svg(width_mm=20, height_mm=10, title="A line", desc="One line, 16 mm long.")
>>> picture.add(line(2, 5, 18, 5, stroke="#000", stroke_width=0.25))
>>> print(picture.render())  # doctest: +ELLIPSIS
<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="10mm" viewBox="0 0 20 10" role="img" ...>
<title id="t">A line</title>
<desc id="d">One line, 16 mm long.</desc>
<line x1="2" y1="5" x2="18" y2="5" stroke="#000" stroke-width="0.25"/>
</svg>
<BLANKLINE>
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

Value: TypeAlias = str | float | int | None
Points: TypeAlias = Iterable[tuple[float, float]]

FONT = "'Atkinson Hyperlegible', 'Noto Sans', sans-serif"
"""The family of every label: the two faces shipped with Hookwright, then whatever the reader has."""

_FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;"})


def num(value: float) -> str:
    """The number as written in a drawing: two decimals, no trailing zeros, no minus zero.

    >>> num(1.0), num(0.126), num(-0.001), num(12.5)
    ('1', '0.13', '0', '12.5')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def esc(text: str) -> str:
    """Text made safe for XML content and attributes; characters XML forbids become U+FFFD.

    >>> esc('5 < 6 & "so"')
    '5 &lt; 6 &amp; &quot;so&quot;'
    """
    return _FORBIDDEN.sub("\ufffd", text).translate(_ESCAPES)


def attributes(given: dict[str, Value]) -> str:
    """Attributes in the order given, each with a leading space. `None` is left out; `stroke_width` → `stroke-width`, `class_` → `class`."""
    return "".join(f' {_name(key)}="{_value(value)}"' for key, value in given.items() if value is not None)


def _name(key: str) -> str:
    return key.rstrip("_").replace("_", "-")


def _value(value: Value) -> str:
    return esc(value) if isinstance(value, str) else num(float(value or 0))


def element(tag: str, content: str = "", /, **given: Value) -> str:
    """One element; `content` is markup already."""
    return f"<{tag}{attributes(given)}>{content}</{tag}>" if content else f"<{tag}{attributes(given)}/>"


def group(children: Iterable[str], **given: Value) -> str:
    """The children in one `<g>`, a line each."""
    return element("g", "\n" + "\n".join(children) + "\n", **given)


def line(x1: float, y1: float, x2: float, y2: float, **given: Value) -> str:
    return element("line", x1=x1, y1=y1, x2=x2, y2=y2, **given)


def rect(x: float, y: float, width: float, height: float, **given: Value) -> str:
    return element("rect", x=x, y=y, width=width, height=height, **given)


def circle(cx: float, cy: float, r: float, **given: Value) -> str:
    return element("circle", cx=cx, cy=cy, r=r, **given)


def ellipse(cx: float, cy: float, rx: float, ry: float, **given: Value) -> str:
    return element("ellipse", cx=cx, cy=cy, rx=rx, ry=ry, **given)


def path(d: str, **given: Value) -> str:
    """A path; build `d` with `move` or `points`, so that its numbers are rounded."""
    return element("path", d=d, **given)


def points(corners: Points) -> str:
    """Coordinates for polygon and polyline.

    >>> points([(0, 1), (2.005, 3)])
    '0,1 2,3'
    """
    return " ".join(f"{num(x)},{num(y)}" for x, y in corners)


def polygon(corners: Points, **given: Value) -> str:
    return element("polygon", points=points(corners), **given)


def polyline(corners: Points, **given: Value) -> str:
    return element("polyline", points=points(corners), **given)


def move(*parts: str | float) -> str:
    """Path data from letters and numbers.

    >>> move("M", 0, 1.234, "L", 3, 4, "Z")
    'M0 1.23L3 4Z'
    """
    text = ""
    for part in parts:
        if isinstance(part, str):
            text += part
        else:
            text += ("" if not text or text[-1].isalpha() else " ") + num(part)
    return text


def text(
    x: float,
    y: float,
    words: str,
    *,
    size_mm: float = 3.0,
    anchor: str = "start",
    weight: str | None = None,
    fill: str = "#000",
    **given: Value,
) -> str:
    """A line of text, its baseline at (x, y). `anchor`: start, middle, end."""
    return element(
        "text",
        esc(words),
        x=x,
        y=y,
        font_size=size_mm,
        text_anchor=None if anchor == "start" else anchor,
        font_weight=weight,
        fill=None if fill == "#000" else fill,
        **given,
    )


def use(name: str, transform: str | None = None, **given: Value) -> str:
    """A copy of a defined symbol: see `Svg.define`."""
    return element("use", href=f"#{name}", transform=transform, **given)


def at(x: float, y: float, *, angle_deg: float = 0.0, scale: float = 1.0) -> str:
    """A transform that puts an origin at (x, y), turned clockwise by `angle_deg` and scaled.

    >>> at(1, 2), at(1, 2, angle_deg=90, scale=0.5)
    ('translate(1 2)', 'translate(1 2) rotate(90) scale(0.5)')
    """
    turned = num(angle_deg)
    scaled = num(scale)
    return (
        f"translate({num(x)} {num(y)})" + (f" rotate({turned})" if turned != "0" else "") + (f" scale({scaled})" if scaled != "1" else "")
    )


@dataclass(slots=True, kw_only=True)
class Svg:
    """A document being built. Sizes in mm; `origin` is the user coordinate of the upper left corner.

    `title` and `desc` are the text equivalent (SVG 2, section 5.8; WAI-ARIA Graphics): give a desc that says what the picture says.
    """

    width_mm: float
    height_mm: float
    title: str
    desc: str
    origin: tuple[float, float] = (0.0, 0.0)
    lang: str | None = None
    style: str = ""
    """CSS for the whole document, already safe; goes into one `<style>`."""
    ids: str = ""
    """Put before the ids of title and desc, where several pictures stand in one page."""
    notes: str = ""
    """Kept in `data-made`: how the picture was asked for."""
    defined: dict[str, str] = field(default_factory=dict)
    body: list[str] = field(default_factory=list)

    def define(self, name: str, markup: str) -> None:
        """Define a group to be copied by `use(name)`; a second definition of the same name must be the same."""
        if self.defined.setdefault(name, markup) != markup:
            raise ValueError(f"two different symbols are named {name!r}")

    def add(self, *markup: str) -> None:
        self.body.extend(markup)

    def render(self) -> str:
        """The document, ending in a newline."""
        x, y = self.origin
        head = attributes(
            {
                "width": f"{num(self.width_mm)}mm",
                "height": f"{num(self.height_mm)}mm",
                "viewBox": f"{num(x)} {num(y)} {num(self.width_mm)} {num(self.height_mm)}",
                "role": "img",
                "aria_labelledby": f"{self.ids}t {self.ids}d",
                "lang": self.lang,
                "font_family": FONT,
                "data_made": self.notes or None,
            }
        )
        lines = [f'<svg xmlns="http://www.w3.org/2000/svg"{head}>', f'<title id="{esc(self.ids)}t">{esc(self.title)}</title>']
        lines.append(f'<desc id="{esc(self.ids)}d">{esc(self.desc)}</desc>')
        if self.style:
            lines.append(f"<style>{self.style}</style>")
        if self.defined:
            lines.append("<defs>")
            lines.extend(f'<g id="{esc(name)}">{markup}</g>' for name, markup in self.defined.items())
            lines.append("</defs>")
        return "\n".join([*lines, *self.body, "</svg>", ""])


def bounds(corners: Sequence[tuple[float, float]], margin: float = 0.0) -> tuple[float, float, float, float]:
    """(x, y, width, height) of the box round the points, widened by `margin`; a box of no size for no points."""
    if not corners:
        return (0.0, 0.0, 0.0, 0.0)
    xs = [x for x, _ in corners]
    ys = [y for _, y in corners]
    return (min(xs) - margin, min(ys) - margin, max(xs) - min(xs) + 2 * margin, max(ys) - min(ys) + 2 * margin)
