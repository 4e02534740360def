"""Lengths, masses and yarn numbers, as patterns print them, read and written exactly (`Fraction` inside, no binary rounding).

Factors are exact by definition (international yard and pound agreement, 1959; from memory). Yarn numbers: ISO 1144 (tex), ASTM D2260
(conversion factors, read in excerpt).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Literal, TypeAlias

Dimension: TypeAlias = Literal["length", "mass", "temperature"]

INCH_CM = Fraction(254, 100)
YARD_M = Fraction(9144, 10000)
OUNCE_G = Fraction(28349523125, 10**9)
POUND_G = Fraction(45359237, 10**5)

_UNITS: dict[str, tuple[Dimension, Fraction]] = {
    "mm": ("length", Fraction(1, 10)),
    "cm": ("length", Fraction(1)),
    "m": ("length", Fraction(100)),
    "in": ("length", INCH_CM),
    "ft": ("length", 12 * INCH_CM),
    "yd": ("length", 36 * INCH_CM),
    "g": ("mass", Fraction(1)),
    "kg": ("mass", Fraction(1000)),
    "oz": ("mass", OUNCE_G),
    "lb": ("mass", POUND_G),
}
"""Unit → what it measures, and its size in cm or g."""

_SPELLED = {
    "millimetres": "mm", "millimeters": "mm", "millimetre": "mm", "millimeter": "mm", "mm": "mm",
    "centimetres": "cm", "centimeters": "cm", "centimetre": "cm", "centimeter": "cm", "cms": "cm", "cm": "cm",
    "metres": "m", "meters": "m", "metre": "m", "meter": "m", "mtr": "m", "mtrs": "m", "m": "m",
    "inches": "in", "inch": "in", "ins": "in", "in": "in", '"': "in", "”": "in", "“": "in", "″": "in", "''": "in", "’’": "in",
    "feet": "ft", "foot": "ft", "ft": "ft", "'": "ft", "’": "ft", "′": "ft",
    "yards": "yd", "yard": "yd", "yds": "yd", "yd": "yd",
    "grams": "g", "grammes": "g", "gram": "g", "gramme": "g", "gms": "g", "gm": "g", "gr": "g", "g": "g",
    "kilograms": "kg", "kilogram": "kg", "kg": "kg",
    "ounces": "oz", "ounce": "oz", "ozs": "oz", "oz": "oz",
    "pounds": "lb", "pound": "lb", "lbs": "lb", "lb": "lb",
}  # fmt: skip

_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅕": "1/5", "⅖": "2/5",
    "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6",
}  # fmt: skip
_GLYPHS = "".join(_VULGAR)

_MIXED = rf"\d+(?:[ \u00a0\u2009\u202f-]+(?:and[ ]+)?\d+\s?[/⁄]\s?\d+|\s?[{_GLYPHS}])"
_PART = rf"\d+\s?[/⁄]\s?\d+|[{_GLYPHS}]"
_PLAIN = r"\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:[.,]\d+)?"
NUMBER = rf"(?:{_MIXED}|{_PART}|{_PLAIN})"
"""A number as patterns print it: "2 1/2", "2-1/2", "2½", "½", "1,200", "1,5", "4.25"."""
_NAMES = "|".join(sorted((re.escape(name) for name in _SPELLED if name[0].isalpha()), key=len, reverse=True))
_MARKS = "|".join(sorted((re.escape(name) for name in _SPELLED if not name[0].isalpha()), key=len, reverse=True))
MEASURE = re.compile(rf"(?P<number>{NUMBER})(?:[\s\u00a0-]*(?P<unit>{_NAMES})\b\.?|\s?(?P<mark>{_MARKS}))", re.I)
"""A number with its unit: "10 cm", '41"', "2 1/2 in", "1,5 cm", "10-cm"."""


@dataclass(frozen=True, slots=True, order=True)
class Amount:
    """So much of a unit ("in", "cm", "yd", "m", "oz", "g" …)."""

    number: Fraction
    unit: str

    @property
    def dimension(self) -> Dimension:
        """What it measures."""
        return _UNITS[self.unit][0]

    def to(self, unit: str) -> Amount:
        """The same amount in another unit. Raises ValueError for a unit that measures something else.

        >>> Amount(Fraction(15), "in").to("cm"), float(Amount(Fraction(200), "yd").to("m").number)
        (Amount(number=Fraction(381, 10), unit='cm'), 182.88)
        """
        here, there = _UNITS[self.unit], _UNITS[unit]
        if here[0] != there[0]:
            raise ValueError(f"{self.unit} measures {here[0]}, {unit} measures {there[0]}")
        return Amount(self.number * here[1] / there[1], unit)


def parse_number(text: str) -> Fraction | None:
    """The number that a pattern prints; None when it is none.

    >>> [str(parse_number(t)) for t in ("2 1/2", "2½", "2-1/2", "½", "1,5", "1,200", "4.25", "1⁄2", "wool")]
    ['5/2', '5/2', '5/2', '1/2', '3/2', '1200', '17/4', '1/2', 'None']
    """
    words = text.strip()
    if not re.fullmatch(NUMBER, words):
        return None
    for glyph, plain in _VULGAR.items():
        words = words.replace(glyph, f" {plain}")
    words = words.replace("⁄", "/").strip()
    try:
        if "/" in words:
            whole, _, part = re.sub(r"[\s-]+(?:and\s+)?(?=\d+\s?/)", "|", words).rpartition("|")
            return Fraction(int(whole or 0)) + Fraction(part.replace(" ", ""))
        if re.fullmatch(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?", words):
            return Fraction(words.replace(",", ""))
        return Fraction(words.replace(",", "."))
    except (ValueError, ZeroDivisionError):
        return None


def parse(text: str) -> Amount | None:
    """The one measure that `text` is; None when it is none.

    >>> parse('41"'), parse("2½ in"), parse("1,5 cm").number, parse("115g").unit, parse("soft")
    (Amount(number=Fraction(41, 1), unit='in'), Amount(number=Fraction(5, 2), unit='in'), Fraction(3, 2), 'g', None)
    """
    match = MEASURE.fullmatch(text.strip())
    return None if match is None else _amount(match)


def find(text: str) -> list[tuple[int, int, Amount]]:
    """Every measure in a text, with where it stands: (start, end, amount).

    >>> [(a.unit, str(a.number)) for _, _, a in find("about 15 in / 38 cm; 50g = 1¾ oz")]
    [('in', '15'), ('cm', '38'), ('g', '50'), ('oz', '7/4')]
    """
    out = []
    for match in MEASURE.finditer(text):
        amount = _amount(match)
        if amount is not None and not _in_a_word(text, match.start()):
            out.append((match.start(), match.end(), amount))
    return out


def unit_of(word: str) -> str | None:
    """The unit that a word or mark names.

    >>> unit_of("inches"), unit_of('"'), unit_of("mtrs"), unit_of("skeins")
    ('in', 'in', 'm', None)
    """
    return _SPELLED.get(word.lower().rstrip("."))


def rounded(number: float | Fraction, step: float | Fraction = 1) -> Fraction:
    """`number` to the nearest multiple of `step`, halves away from zero.

    >>> rounded(38.1, Fraction(1, 2)), rounded(2.5), rounded(-2.5)
    (Fraction(38, 1), Fraction(3, 1), Fraction(-3, 1))
    """
    unit = Fraction(step).limit_denominator(10**6)
    steps = Decimal((Fraction(number) / unit).numerator) / Decimal((Fraction(number) / unit).denominator)
    return int(steps.quantize(Decimal(1), rounding=ROUND_HALF_UP)) * unit


def decimal(number: float | Fraction, places: int = 1) -> str:
    """A number with at most `places` decimals, no empty ones.

    >>> decimal(15.4), decimal(21.0), decimal(Fraction(381, 10)), decimal(0.049)
    ('15.4', '21', '38.1', '0')
    """
    text = f"{float(rounded(number, Fraction(1, 10**places))):.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def inches(length_cm: float | Fraction, step: Fraction = Fraction(1, 4)) -> str:
    """A length in inches to the quarter, with a fraction glyph.

    >>> inches(21), inches(38.1), inches(0.4), inches(2.54 * 0.5)
    ('8¼', '15', '¼', '½')
    """
    value = rounded(Fraction(length_cm) / INCH_CM, step)
    whole, part = divmod(value, 1)
    glyph = next((g for g, plain in _VULGAR.items() if Fraction(plain) == part), f" {part}" if part else "")
    return f"{int(whole) if whole or not part else ''}{glyph}".strip()


def centimetres(length_cm: float | Fraction) -> str:
    """A finished length as page and schematic print it: to the half cm; below 5 cm to the millimetre, from a metre to the whole.

    >>> centimetres(21.36), centimetres(7.3), centimetres(4.24), centimetres(140.7), centimetres(10)
    ('21.5', '7.5', '4.2', '141', '10')
    """
    step = Fraction(1, 10) if length_cm < 5 else Fraction(1, 2) if length_cm < 100 else Fraction(1)
    return decimal(rounded(length_cm, step))


def both_lengths(length_cm: float | Fraction) -> str:
    """A length in cm and in, as a booklet prints it; inches to the quarter.

    >>> both_lengths(21.3), both_lengths(7.3)
    ('21.5 cm (8½ in)', '7.5 cm (2¾ in)')
    """
    return f"{centimetres(length_cm)} cm ({inches(length_cm)} in)"


def both_yarn_lengths(length_m: float | Fraction) -> str:
    """A yarn length in m and yd, whole numbers.

    >>> both_yarn_lengths(215)
    '215 m (235 yd)'
    """
    return f"{decimal(length_m, 0)} m ({decimal(Fraction(length_m) / YARD_M, 0)} yd)"


def both_masses(mass_g: float | Fraction) -> str:
    """A mass in g and oz, oz to the tenth.

    >>> both_masses(141)
    '141 g (5 oz)'
    """
    return f"{decimal(mass_g, 0)} g ({decimal(Fraction(mass_g) / OUNCE_G, 1)} oz)"


Count = Literal["tex", "dtex", "den", "Nm", "NeC", "NeW", "lea", "run", "yd/lb", "m/100g"]

_DIRECT = {"tex": Fraction(1), "dtex": Fraction(10), "den": Fraction(9)}
_HANKS = {"NeC": 840, "NeW": 560, "lea": 300, "run": 1600, "yd/lb": 1}


def convert_count(value: float | Fraction, of: Count, to: Count) -> float:
    """A yarn number in another system. Direct systems weigh a length (tex: g per 1000 m), indirect ones measure a mass (Nm: m per g).

    Raises ValueError for a value that is not positive.

    >>> convert_count(10, "NeC", "NeW"), round(convert_count(30, "tex", "NeC"), 1), round(convert_count(40, "NeC", "dtex"))
    (15.0, 19.7, 148)
    """
    if value <= 0:
        raise ValueError("a yarn number is greater than nothing")
    number = Fraction(value)
    tex = number / _DIRECT[of] if of in _DIRECT else 1000 / _m_per_g(number, of)
    return float(tex * _DIRECT[to]) if to in _DIRECT else float((1000 / tex) / _m_per_g(Fraction(1), to))


def _m_per_g(value: Fraction, system: str) -> Fraction:
    if system == "Nm":
        return value
    if system == "m/100g":
        return value / 100
    return value * _HANKS[system] * YARD_M / POUND_G


def _amount(match: re.Match[str]) -> Amount | None:
    number = parse_number(match["number"])
    unit = unit_of(match["unit"] or match["mark"])
    return None if number is None or unit is None else Amount(number, unit)


def _in_a_word(text: str, at: int) -> bool:
    return at > 0 and (text[at - 1].isalpha() or text[at - 1] in "./,")
