"""What a designer asks for: lengths with units, a gauge, the customs of her rows; and the one way to say no."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from ..pattern import Gauge, TurningChain
from ..trade import units
from ..trade.terms import System, kind_of

MadeRound: TypeAlias = Literal["joined", "spiral"]

TURNING: dict[str, TurningChain] = {
    "sc": TurningChain(chains=1, counts=False),
    "esc": TurningChain(chains=1, counts=False),
    "hdc": TurningChain(chains=2, counts=False),
    "ehdc": TurningChain(chains=2, counts=False),
    "dc": TurningChain(chains=2, counts=False),
    "edc": TurningChain(chains=3, counts=False),
    "tr": TurningChain(chains=3, counts=False),
    "dtr": TurningChain(chains=4, counts=False),
    "trtr": TurningChain(chains=5, counts=False),
}
"""Turning chains a draft starts from: common practice, no source. None counts, so that a shaped edge keeps whole stitches."""

RATIO = {"sc": 0.89, "esc": 1.2, "hdc": 1.37, "ehdc": 1.6, "dc": 1.73, "edc": 2.1, "tr": 2.6, "dtr": 3.4, "trtr": 4.2}
"""Row height over stitch width, where a gauge tells no rows (`trade.stitches.WIDTHS_TALL` names the sources)."""

LEAN_MOST = 1.75
"""A row may run out by so much of its height at an end worked into one stitch: a lean of 60°, the stitches of it a fan. Common practice,
no source (three dc in one at the gauges of printed patterns lean 49°)."""
IN_ONE_MOST = 7
"""The most stitches in one, or closed together, at an edge: a shell of seven is the largest that is usual. Common practice, no source."""


class Refused(Exception):
    """What was asked cannot be drafted. `sentence` says why, `nearest` what can be had instead ("" when there is nothing near)."""

    def __init__(self, sentence: str, nearest: str = "") -> None:
        super().__init__(f"{sentence} {nearest}".strip())
        self.sentence = sentence
        self.nearest = nearest


LONGEST_CM = 100_000
"""A kilometre: longer than anything that can be worked."""
_FEET = re.compile(r"(\d+)\s*(?:'|′|’|ft\.?|foot|feet)\s*(\d[\d ./½¼¾]*?)\s*(?:\"|″|''|in\.?|inch(?:es)?)", re.IGNORECASE)
"""Feet and inches told together."""


def length_cm(text: str | float, name: str = "length", *, signed: bool = False) -> float:
    """A length in cm, above nothing. Refuses a number without a unit, a mass, nothing, and less than nothing (unless `signed`: an ease).

    >>> length_cm("24cm"), length_cm("9 1/2 in"), length_cm("1.7 m"), round(length_cm("5 ft 6 in"), 2), length_cm("-1 cm", signed=True)
    (24.0, 24.13, 170.0, 167.64, -1.0)
    """
    if isinstance(text, (int, float)):
        value = float(text)
    elif both := _FEET.fullmatch(text.strip()):
        value = length_cm(f"{both[1]} ft", name) + length_cm(f"{both[2]} in", name)
    else:
        amount = units.parse(text.strip().lstrip("-"))
        if amount is None and units.parse_number(text.strip().lstrip("-")) is not None:
            number = text.strip().lstrip("-")
            raise Refused(f"The {name} {number} has no unit.", f"Say {number} cm or {number} in.")
        if amount is None:
            raise Refused(f"The {name} “{text}” is not a length.", "Write a number and a unit, such as 24 cm or 9 1/2 in.")
        if amount.dimension != "length":
            raise Refused(f"The {name} “{text}” measures {amount.dimension}, not length.", "Write it in cm or in.")
        value = float(amount.to("cm").number) * (-1 if text.strip().startswith("-") else 1)
    if not math.isfinite(value) or (value <= 0 and not signed):
        raise Refused(
            f"The {name} must be greater than nothing, and {units.decimal(value) if math.isfinite(value) else value} cm was asked."
        )
    if abs(value) > LONGEST_CM:
        raise Refused(f"The {name} of {value / 100:.0f} m is longer than anything that can be worked.")
    return value


_TWO = re.compile(r"\s*(-?\d+(?:[.,]\d+)?)(?:\s*:\s*|\s+)(-?\d+(?:[.,]\d+)?)\s*")
_PAIR = re.compile(r"(-?\d+(?:\.\d+)?)[\s,:]+(-?\d+(?:\.\d+)?)")


def number_pairs(text: str) -> list[tuple[float, float]] | None:
    """Pairs of numbers as written, a decimal point or comma; None where they are not pairs.

    >>> number_pairs("0 0, 40,5 0; 20 30.5"), number_pairs("0,0 40,0"), number_pairs("0 0, 4")
    ([(0.0, 0.0), (40.5, 0.0), (20.0, 30.5)], [(0.0, 0.0), (40.0, 0.0)], None)
    """
    apart = [_TWO.fullmatch(part) for part in re.split(r";|,\s", text.strip(" ,;"))]
    if len(apart) > 1 and all(apart):
        return [(_decimal(two[1]), _decimal(two[2])) for two in apart if two]
    if _PAIR.sub("", text).strip(" ,;\n\t"):
        return None
    return [(float(a), float(b)) for a, b in _PAIR.findall(text)]


def pairs_cm(text: str, what: str, example: str) -> tuple[tuple[float, float], ...]:
    """Pairs of lengths with one unit at the end ("0 0, 40 0, 20 30 cm"), in cm. `what`: "corners", `example`: how to write them.

    Refuses pairs without a unit, and what are no pairs.
    """
    words = text.strip()
    unit = re.search(r"[A-Za-z\"″]+$", words)
    name = units.unit_of(unit[0]) if unit else None
    if unit is None or name not in ("mm", "cm", "m", "in", "ft", "yd"):
        raise Refused(f"The {what} have no unit.", f'Write it once at the end: "{example}".')
    pairs = number_pairs(words[: unit.start()])
    if not pairs:
        raise Refused(f"The {what} “{text[:60]}” were not understood.", f'Write them as "{example}".')
    cm = length_cm(f"1 {name}")
    if any(abs(number) * cm > LONGEST_CM for pair in pairs for number in pair):
        raise Refused(f"The {what} “{text[:60]}” lie farther apart than anything that can be worked.")
    return tuple((a * cm, b * cm) for a, b in pairs)


def _decimal(text: str) -> float:
    return float(text.replace(",", "."))


_GAUGE = re.compile(
    r"^\s*(?P<st>[\d.,/ ½¼¾]+?)\s*(?P<stitch>[A-Za-z][\w ]*?)?"
    r"\s*(?:(?:,|and|x|×|\bby\b)\s*(?P<rows>[\d.,/ ½¼¾]+?)\s*(?:rows?|rounds?|rnds?|r)\.?)?"
    r"\s*(?:=|over|to|in|per)\s*(?P<over>.+?)\s*$",
    re.I,
)


def gauge_of(text: str, stitch: str | None = None, *, terms: System = "US") -> Gauge:
    """The gauge a maker writes: "14 dc and 7 rows = 10 cm". Without rows, the stitch's customary height is taken and said.

    `terms`: whose words the stitch is named in; the gauge itself always holds the US one.

    >>> gauge_of("14 dc and 7 rows = 10 cm")
    Gauge(stitch='dc', stitches=14.0, rows=7.0, over_cm=10.0, over_rows_cm=None, blocked=None)
    """
    if re.match(r"\s*[-−]\s*\d", text):
        raise Refused("A gauge counts more than nothing, both stitches and rows.", 'Write it as "14 dc and 7 rows = 10 cm".')
    match = _GAUGE.match(text)
    if match is None:
        raise Refused(f"The gauge “{text}” was not understood.", 'Write it as "14 dc and 7 rows = 10 cm".')
    stitches, rows = (units.parse_number(match[name]) if match[name] else None for name in ("st", "rows"))
    over = length_cm(match["over"].replace("square", "").replace(" sq", ""), "length the gauge is counted over")
    named = _stitch_id(match["stitch"], terms) if match["stitch"] else stitch or "dc"
    if named not in TURNING and terms == "US" and (uk := _stitch_id(match["stitch"], "UK")) in TURNING:
        raise Refused(f"“{match['stitch']}” is a UK word.", f"Add --terms UK, or say {uk}.")
    if named == "st":
        named = stitch or "dc"
    if stitches is None or stitches <= 0 or (rows is not None and rows <= 0):
        raise Refused("A gauge counts more than nothing, both stitches and rows.", 'Write it as "14 dc and 7 rows = 10 cm".')
    return Gauge(stitch=named, stitches=float(stitches), rows=None if rows is None else float(rows), over_cm=over)


def _stitch_id(words: str, terms: System) -> str:
    name = re.sub(r"\s+", " ", words.strip().lower())
    if name in ("st", "sts", "stitch", "stitches"):
        return "st"
    return kind_of(name, terms) or kind_of(name.removesuffix("s"), terms) or name.removesuffix("s")


@dataclass(frozen=True, slots=True, kw_only=True)
class Custom:
    """How the rows are worked: the stitch, its size, the turning chain, how rounds end, which side the last row shows.

    `width_cm` of one stitch, `height_cm` of one row or round. `parity`: the row count must be odd, even or either. `most` is the
    largest change at one end of a row that is worked into a stitch (2 = three in one, three together); a larger one is chained on or
    left. `hook_mm` and `yarn` go into the materials only.
    """

    stitch: str = "dc"
    width_cm: float
    height_cm: float
    turning: TurningChain
    rounds: MadeRound = "joined"
    parity: Literal["", "odd", "even"] = ""
    most: int = 2
    stacked: bool = False
    hook_mm: float | None = None
    gauge: Gauge | None = None
    assumed: tuple[str, ...] = ()

    @property
    def ratio(self) -> float:
        """Row height in stitch widths."""
        return self.height_cm / self.width_cm

    @property
    def flat_growth(self) -> float:
        """Stitches that every round must gain to lie flat: 2π × row height ÷ stitch width."""
        return 2 * math.pi * self.ratio


def custom_of(
    gauge: Gauge | str,
    *,
    turning_chain: str | None = None,
    rounds: MadeRound | None = None,
    parity: Literal["", "odd", "even"] = "",
    stacked: bool = False,
    hook_mm: float | None = None,
) -> Custom:
    """The customs a draft is worked by, from its gauge. `turning_chain`: "3 counts", "ch 2", "2 not counted"."""
    if isinstance(gauge, str):
        gauge = gauge_of(gauge)
    if gauge.stitch not in TURNING:
        known = ", ".join(TURNING)
        raise Refused(f"No draft can be made in “{gauge.stitch}”.", f"Choose one of {known}.")
    assumed: tuple[str, ...] = ()
    height = gauge.height_cm
    if height is None:
        height = gauge.width_cm * RATIO[gauge.stitch]
        assumed = (f"No row gauge told: a {gauge.stitch} row is taken as {units.decimal(RATIO[gauge.stitch], 2)} stitch widths high.",)
        gauge = replace(gauge, rows=round(gauge.over_cm / height, 2))
    return Custom(
        stitch=gauge.stitch,
        width_cm=gauge.width_cm,
        height_cm=height,
        turning=turning_of(turning_chain, gauge.stitch),
        rounds=rounds or ("spiral" if gauge.stitch in ("sc", "esc") else "joined"),
        parity=parity,
        stacked=stacked,
        hook_mm=hook_mm,
        most=max(2, min(IN_ONE_MOST - 1, int(height / gauge.width_cm * LEAN_MOST))),
        gauge=gauge,
        assumed=assumed,
    )


def turning_of(text: str | None, stitch: str) -> TurningChain:
    """The turning chain as told, or the one a draft starts from.

    >>> turning_of("3 counts", "dc"), turning_of("ch 1, not counted", "hdc")
    (TurningChain(chains=3, counts=True), TurningChain(chains=1, counts=False))
    """
    if text is None:
        return TURNING[stitch]
    number = re.search(r"\d+", text)
    if number is None or not 1 <= int(number[0]) <= 12:
        raise Refused(f"The turning chain “{text}” was not understood.", 'Write it as "3 counts" or "2 not counted".')
    counts = "count" in text.lower() and not re.search(r"\b(not|no|doesn|don|never|uncounted)", text.lower())
    return TurningChain(chains=int(number[0]), counts=counts)
