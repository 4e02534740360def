"""What makers write on the command line and in a weighing log, as numbers: "100 g = 200 m", "52 g", "86 x 86 cm", "5 mm"."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from ..trade import units


class YarnError(ValueError):
    """What was given cannot be used; the message is one sentence that says what and why."""


@dataclass(frozen=True, slots=True)
class Ball:
    """One ball, skein or hank: its label's grams and metres, both greater than nothing."""

    grams: float
    metres: float

    def __post_init__(self) -> None:
        if not (self.grams > 0 and math.isfinite(self.grams)):
            raise YarnError('The ball has no mass: give it as grams = metres, for example "100 g = 200 m".')
        if not (self.metres > 0 and math.isfinite(self.metres)):
            raise YarnError('The ball has no length: give it as grams = metres, for example "100 g = 200 m".')

    @property
    def m_per_100g(self) -> float:
        return self.metres / self.grams * 100

    def metres_of(self, grams: float) -> float:
        return grams * self.metres / self.grams


def _measures(text: str, what: str) -> list[units.Amount]:
    if re.search(r"(?<![\w.])[-−–]\s*\d", text):
        raise YarnError(f'{what} "{text}" is less than nothing.')
    return [amount for _, _, amount in units.find(text)]


def ball(text: str) -> Ball:
    """A ball from its label, mass and length in either order. Raises YarnError.

    >>> ball("100 g = 200 m"), ball("1.75 oz / 120 yd").m_per_100g > 220
    (Ball(grams=100.0, metres=200.0), True)
    """
    found = _measures(text, "The ball")
    mass = [float(a.to("g").number) for a in found if a.dimension == "mass"]
    length = [float(a.to("m").number) for a in found if a.dimension == "length"]
    if not mass:
        raise YarnError(f'The ball "{text}" has no mass: give grams and metres, for example "100 g = 200 m".')
    if not length:
        raise YarnError(f'The ball "{text}" has no length: give grams and metres, for example "100 g = 200 m".')
    return Ball(mass[0], length[0])


def grams(text: str, what: str = "The amount") -> float:
    """A mass in grams; a bare number is grams. Raises YarnError for anything else or less than nothing.

    >>> grams("52 g"), round(grams("1 3/4 oz"), 1), grams("52,5")
    (52.0, 49.6, 52.5)
    """
    found = _measures(text, what)
    if len(found) == 1 and found[0].dimension == "mass":
        return float(found[0].to("g").number)
    bare = units.parse_number(text)
    if bare is None or found:
        raise YarnError(f'{what} "{text}" is not a mass: write for example "52 g" or "2 oz".')
    return float(bare)


def metres(text: str, what: str = "The length") -> float:
    """A yarn length in metres; a bare number is metres. Raises YarnError.

    >>> metres("2.4 m"), metres("240 cm"), round(metres("3 yd"), 2)
    (2.4, 2.4, 2.74)
    """
    found = _measures(text, what)
    if len(found) == 1 and found[0].dimension == "length":
        return float(found[0].to("m").number)
    bare = units.parse_number(text)
    if bare is None or found:
        raise YarnError(f'{what} "{text}" is not a length: write for example "2.4 m" or "3 yd".')
    return float(bare)


def hook_mm(text: str) -> float:
    """A hook in mm; "5", "5 mm", "5.0mm". Letters differ between makers and are not taken. Raises YarnError.

    >>> hook_mm("5 mm"), hook_mm("5,5")
    (5.0, 5.5)
    """
    found = _measures(text, "The hook")
    bare = units.parse_number(re.sub(r"\s*mm\.?\s*$", "", text.strip(), flags=re.I))
    if bare is None and len(found) == 1 and found[0].dimension == "length":
        bare = found[0].to("mm").number
    if bare is None or not 0.4 <= bare <= 50:
        raise YarnError(f'The hook "{text}" is not a size between 0.4 and 50 mm: write for example "5 mm" (letters differ between makers).')
    return float(bare)


@dataclass(frozen=True, slots=True)
class Extent:
    """A piece's size before any pattern exists: its area, and its width along the foundation when known."""

    area_cm2: float
    width_cm: float | None = None


_AREA = re.compile(rf"({units.NUMBER})\s*(cm2|cm²|sq\.?\s*cm|m2|m²|sq\.?\s*in(?:ches)?|in2|in²|sq\.?\s*(?:ft|feet))\.?", re.I)
_SQUARES = {"c": 1.0, "m": 10_000.0, "i": 6.4516, "f": 929.0304}


def extent(text: str) -> Extent:
    """A size: "86 x 86 cm", "34 in by 34 in", "7396 cm2", "round 45 cm" (a disc of that diameter). Raises YarnError.

    >>> extent("86 cm x 86 cm") == extent("86x86 cm") == extent("86 by 86 cm")
    True
    >>> extent("86 x 86 cm"), round(extent("34 x 34 in").area_cm2)
    (Extent(area_cm2=7396.0, width_cm=86.0), 7458)
    >>> round(extent("round 45 cm").area_cm2), extent("413 cm2")
    (1590, Extent(area_cm2=413.0, width_cm=None))
    """
    if re.search(r"(?<![\w.])[-−–]\s*\d", text):
        raise YarnError(f'The area "{text}" is less than nothing.')
    whole = _AREA.fullmatch(text.strip())
    if whole:
        number = units.parse_number(whole[1])
        return _extent(text, float(number or 0) * _SQUARES[_square_unit(whole[2])], None)
    sides = _sides(text)
    if len(sides) == 1 and re.search(r"\b(round|circle|disc|diameter|across)\b|[⌀ø]", text, re.I):
        return _extent(text, math.pi * sides[0] ** 2 / 4, None)
    if len(sides) != 2:
        raise YarnError(f'The area "{text}" is not a size: write for example "86 x 86 cm", "7396 cm2" or "round 45 cm".')
    return _extent(text, sides[0] * sides[1], sides[0])


def _square_unit(words: str) -> str:
    plain = re.sub(r"sq\.?\s*", "", words.lower())
    return "i" if plain.startswith("in") else plain[0]


def _extent(text: str, area: float, width: float | None) -> Extent:
    if not 0 < area <= 1e8:
        raise YarnError(f'The area "{text}" is not between nothing and a hectare.')
    return Extent(area, width)


def _sides(text: str) -> list[float]:
    """Each side in cm; a side without a unit has that of the next."""
    words = re.sub(r"\s*(?:(?<=[\d\s½¼¾⅓⅔\"'″])x(?=[\s\d])|×|\bby\b|\*)\s*", "×", text, flags=re.I)
    pieces = [piece.strip() for piece in words.split("×")]
    last = next((units.parse(re.sub(r"^[^\d½¼¾⅓⅔]*", "", piece)) for piece in reversed(pieces)), None)
    out = []
    for piece in pieces:
        piece = re.sub(r"^[^\d½¼¾⅓⅔]*", "", piece)
        amount = units.parse(piece)
        bare = units.parse_number(piece)
        if amount is None and bare is not None and last is not None:
            amount = units.Amount(bare, last.unit)
        if amount is None or amount.dimension != "length":
            return []
        out.append(float(amount.to("cm").number))
    return out
