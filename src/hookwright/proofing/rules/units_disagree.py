"""A measure printed in two units is not the same in both.

What it checks: inches beside centimetres, yards beside metres, ounces beside grams, printed side by side ("15 in / 38 cm",
"200 yd (183 m)", "20 (22, 24) in [51 (56, 61) cm]"), converted exactly.

Why: tables are converted by hand and misprinted; a follower trusts the column she reads.

Tolerance: customary rounding is allowed: half the last printed step of both numbers, or 2 % (4 in = 10 cm, 100 g = 3½ oz), whichever is
more. Common practice, no source.

Example:

    Finished size: 15 in / 36 cm

Message: 15 in is 38.1 cm, and 36 cm is printed.

Repair: none is safe, since either number may be the wrong one; the converted number is offered.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from ...pattern import Finding, Span
from ...reading.pieces import pieces, remembered
from ...trade.units import NUMBER, Amount, decimal, inches, parse_number, unit_of
from .rule import Case, Rule, in_text, replace

_UNIT = (
    r"(?P<unit>inches|inch|ins|in|cms?|centimet(?:re|er)s?|mm|millimet(?:re|er)s?|yards?|yds?|met(?:re|er)s?|m|ounces?|ozs?"
    r"|grams?|grammes?|gms?|g|lbs?|pounds?|feet|foot|ft|kg)\b\.?|(?P<mark>[\"”″])"
)
_LIST = rf"(?>{NUMBER}(?:\s*(?:[-–—x×/,(\[]|to|by){{1,4}}\s*{NUMBER}[)\]]{{0,4}})*+)"
"""Numbers printed together, taken as they stand: never tried again in part."""
_MEASURES = re.compile(rf"(?<![\w.,])(?P<numbers>{_LIST})(?:[ \t\u00a0-]*(?:{_UNIT})(?![\w]))?", re.I)
"""Numbers with their unit; those without one are met too, so that a long list is passed over at once."""
_ABOUT = r"about|approx\.?|approximately|ca\.?|~|≈"
_BETWEEN = re.compile(rf"\s?(?:[/=(\[|]|or|{_ABOUT}|,)*[ \t\u00a0]*(?:(?:{_ABOUT})[ \t]*)?", re.I)
_IMPERIAL = frozenset(("in", "ft", "yd", "oz", "lb"))
_SLACK = Fraction(2, 100)


@dataclass(frozen=True, slots=True)
class Printed:
    """Numbers of one unit as printed together; `spans` where each number stands."""

    start: int
    end: int
    unit: str
    numbers: tuple[Fraction, ...]
    spans: tuple[Span, ...]
    steps: tuple[Fraction, ...]

    @property
    def imperial(self) -> bool:
        """Whether the unit is an inch-pound one."""
        return self.unit in _IMPERIAL


def check(case: Case) -> Iterator[Finding]:
    """A finding at the second number of each pair that disagrees."""
    source = case.source
    found = list(printed(source))
    for first, second in pairwise(found):
        if _side_by_side(source, first, second):
            yield from _compare(source, first, second)


def printed(source: str) -> Iterator[Printed]:
    """Every measure of a text, lists and ranges taken together.

    >>> [(p.unit, [str(n) for n in p.numbers]) for p in printed("15 in / 38 cm; 20 (22, 24)\\" [51 (56, 61) cm], 9 x 12 in")]
    [('in', ['15']), ('cm', ['38']), ('in', ['20', '22', '24']), ('cm', ['51', '56', '61']), ('in', ['9', '12'])]
    """
    for start, measures in _printed.where_told(pieces(source)):
        for one in measures:
            spans = tuple(Span(a + start, b + start) for a, b in one.spans)
            yield Printed(one.start + start, one.end + start, one.unit, one.numbers, spans, one.steps)


@remembered
def _printed(source: str) -> tuple[Printed, ...]:
    """The measures of a piece of text."""
    found = []
    for match in _MEASURES.finditer(source):
        named = match["unit"] or match["mark"]
        unit = unit_of(named) if named else None
        if unit is None:
            continue
        spots = [
            Span(match.start("numbers") + one.start(), match.start("numbers") + one.end()) for one in re.finditer(NUMBER, match["numbers"])
        ]
        numbers = [parse_number(spot.of(source)) for spot in spots]
        if all(number is not None for number in numbers):
            told = tuple(number for number in numbers if number is not None)
            steps = tuple(_step(spot.of(source), number) for spot, number in zip(spots, told, strict=True))
            found.append(Printed(match.start(), match.end(), unit, told, tuple(spots), steps))
    return tuple(found)


def _side_by_side(source: str, first: Printed, second: Printed) -> bool:
    same = Amount(Fraction(1), first.unit).dimension == Amount(Fraction(1), second.unit).dimension
    if not same or first.imperial == second.imperial or len(first.numbers) != len(second.numbers):
        return False
    between = source[first.end : second.start]
    if not between.strip() and source[: first.end].endswith("in"):
        return False
    return len(between) <= 24 and _BETWEEN.fullmatch(between.rstrip()) is not None


def _compare(source: str, first: Printed, second: Printed) -> Iterator[Finding]:
    for a, b, step_a, step_b, spot in zip(first.numbers, second.numbers, first.steps, second.steps, second.spans, strict=True):
        exact = Amount(a, first.unit).to(second.unit).number
        room = max(step_b / 2 + Amount(step_a / 2, first.unit).to(second.unit).number, exact * _SLACK)
        if abs(exact - b) > room:
            yield _finding(source, Amount(a, first.unit), Amount(b, second.unit), exact, spot)


def _finding(source: str, a: Amount, b: Amount, exact: Fraction, spot: Span) -> Finding:
    there, here = _shown(a), _shown(b)
    message = f"{there} is {_shown(Amount(exact, b.unit))}, and {here} is printed."
    back = b.to(a.unit)
    factor = float(Amount(Fraction(1), a.unit).to(b.unit).number)
    working = (f"{there} × {factor:.4g} = {decimal(exact, 1)} {b.unit}", f"{here} would be {_shown(back)}.")
    text = inches(exact * Fraction(254, 100)) if b.unit == "in" else decimal(exact, 0 if exact >= 10 else 1)
    return in_text(RULE, spot, message, working=working, repair=replace(spot, text, f"Print {text} {b.unit}.", "asked"))


def _shown(amount: Amount) -> str:
    return f"{decimal(amount.number, 2 if amount.number.denominator == 4 else 1)} {amount.unit}"  # "1.75 oz" as it is printed


def _step(text: str, number: Fraction) -> Fraction:
    """The last printed step of a number: 1 for "15", 1/2 for "15½" and "15.5", 1/4 for "15.25", 1/10 for "15.2"."""
    if number.denominator in (2, 4) or (number.denominator > 1 and not re.search(r"\d[.,]\d", text)):
        return Fraction(1, number.denominator)
    point = re.search(r"[.,](\d{1,2})$", text)
    if point:
        return Fraction(1, 10 ** len(point[1]))
    return Fraction(1)


RULE = Rule("units-disagree", "error", check)
