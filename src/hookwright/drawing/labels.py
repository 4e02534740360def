"""Labels of a drawing: how wide they are, how measurements are put, and finding each a place where it covers no other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from typing import Final, Literal, TypeAlias

from ..trade.units import centimetres, inches
from . import svg
from .spacing import spread

Anchor: TypeAlias = Literal["start", "middle", "end"]

LINE: Final = 1.22
"""Line height over letter height."""
_WIDE: Final = {
    **dict.fromkeys("'", 0.17), **dict.fromkeys(".,:;", 0.21), **dict.fromkeys("ijl|`", 0.28), **dict.fromkeys(' !"()[]{}frt', 0.34),
    **dict.fromkeys("-*/\\I°", 0.44), **dict.fromkeys("ckvxysz?–", 0.54), **dict.fromkeys("17", 0.58), **dict.fromkeys("mMW", 0.94),
    **dict.fromkeys("½¼¾⅛⅜⅝⅞⅓⅔%", 0.95),
    **dict.fromkeys("GOQ@CDUHNXw&", 0.79),
}  # fmt: skip
"""Advance widths in ems, rounded up from Atkinson Hyperlegible Regular (figures and m from Noto Sans, where wider); any other character
up to U+024F 0.67, beyond it 1.05."""


def text_width(words: str, size_mm: float) -> float:
    """How wide a line of text comes out at most, in mm."""
    return size_mm * sum(_WIDE.get(letter, 0.67 if letter <= "\u024f" else 1.05) for letter in words)


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle, mm, y downward."""

    x: float
    y: float
    width: float
    height: float

    def meets(self, other: Box, gap: float = 0.0) -> bool:
        """Whether two boxes overlap or come nearer than `gap`."""
        apart_x = self.x >= other.x + other.width + gap or other.x >= self.x + self.width + gap
        return not (apart_x or self.y >= other.y + other.height + gap or other.y >= self.y + self.height + gap)


@dataclass(frozen=True, slots=True)
class Label:
    """Lines of text with their top at `y`; `x` is their left, middle or right by `anchor`. Turned labels read upward."""

    lines: tuple[str, ...]
    x: float
    y: float
    size_mm: float = 3.0
    anchor: Anchor = "start"
    weight: str | None = None
    fill: str = "#1d1d1b"
    turned: bool = False

    @property
    def width(self) -> float:
        return max(text_width(line, self.size_mm) for line in self.lines) * (1.06 if self.weight else 1.0)

    @property
    def height(self) -> float:
        return len(self.lines) * self.size_mm * LINE

    @property
    def box(self) -> Box:
        """The rectangle it covers. A turned label's `x` is the left of its lines seen upright, `y` the middle of its length."""
        if self.turned:
            return Box(self.x, self.y - self.width / 2, self.height, self.width)
        shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        return Box(self.x - shift * self.width, self.y, self.width, self.height)

    def markup(self) -> str:
        """SVG text, a line each."""
        made = []
        for i, words in enumerate(self.lines):
            down = (i + 0.8) * self.size_mm * LINE
            if self.turned:
                made.append(
                    svg.text(
                        0, 0, words, size_mm=self.size_mm, anchor="middle", weight=self.weight, fill=self.fill,
                        transform=svg.at(self.x + down, self.y, angle_deg=-90),
                    )
                )  # fmt: skip
            else:
                made.append(
                    svg.text(self.x, self.y + down, words, size_mm=self.size_mm, anchor=self.anchor, weight=self.weight, fill=self.fill)
                )
        return "\n".join(made)


@dataclass(slots=True)
class Sheet:
    """Collects markup and labels of one drawing, and knows the room they take."""

    labels: list[Label] = field(default_factory=list)
    marks: list[str] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)
    """Boxes of marks that no label may cover."""

    def write(self, label: Label) -> Label:
        """Put a label where it stands."""
        self.labels.append(label)
        self.boxes.append(label.box)
        return label

    def below(self, left: float, right: float, y: float) -> float:
        """The least height from y downward at which the strip from left to right is free."""
        return max([y, *(box.y + box.height + 0.8 for box in self.boxes if box.x < right + 0.8 and box.x + box.width > left - 0.8)])

    def above(self, left: float, right: float, y: float) -> float:
        """The greatest height from y upward at which the strip from left to right is free."""
        return min([y, *(box.y - 0.8 for box in self.boxes if box.x < right + 0.8 and box.x + box.width > left - 0.8)])

    def column(self, wanted: Sequence[tuple[float, Label]]) -> list[Label]:
        """Put labels one under another, each with its middle as near to its wanted height as the others allow."""
        ordered = sorted(wanted, key=lambda pair: pair[0])
        gaps = [(a.height + b.height) / 2 + 0.5 for (_, a), (_, b) in pairwise(ordered)]
        middles = spread([y for y, _ in ordered], gaps, [1.0] * len(ordered)) if ordered else []
        return [
            self.write(Label(label.lines, label.x, y - label.height / 2, label.size_mm, label.anchor, label.weight, label.fill))
            for y, (_, label) in zip(middles, ordered, strict=True)
        ]


def measure_words(cm: Sequence[float]) -> tuple[str, str]:
    """A measurement in every size: one line in cm, one in inches, smallest size first.

    >>> measure_words([15.38]), measure_words([48.1, 52.9])
    (('15.5 cm', '6 in'), ('48 (53) cm', '19 (20¾) in'))
    """
    return (
        f"{_sizes([centimetres(round(value, 4)) for value in cm])} cm",
        f"{_sizes([inches(Fraction(str(round(value, 4)))) for value in cm])} in",
    )


def _sizes(values: Sequence[str]) -> str:
    first, *rest = values
    return f"{first} ({', '.join(rest)})" if rest and any(value != first for value in rest) else first


def number_words(noun: str, numbers: Sequence[int | None]) -> str:
    """A row by its number in every size: "Row 19", "Rnd 8 (9, 10)"."""
    return f"{noun} {_sizes(['–' if number is None else str(number) for number in numbers])}"


def wrapped(lines: Sequence[str], width: float, size_mm: float) -> list[str]:
    """Sentences broken into lines no wider than `width` mm (a longer word stands alone)."""
    made: list[str] = []
    for line in lines:
        current, *words = line.split(" ")
        for word in words:
            if text_width(f"{current} {word}", size_mm) > width:
                made.append(current)
                current = word
            else:
                current += f" {word}"
        made.append(current)
    return made
