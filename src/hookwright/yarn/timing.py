"""How long it takes: hands' hours from stitches by kind and a pace, finishing included, spread over days with pauses.

A maker's own pace (timed rows) counts for the stitches it was timed in; others follow by movements of the hook (sc 3, hdc 4, dc 5, tr 7).
Shipped pace: one maker reports 2.8 s a stitch, chains left out (runningwithscissorsmn.com, how I set my prices); taken for the mean of sc,
hdc and dc. Hands differ: the range is x/÷1.6 (20-30 sc a minute is the usual guess; no measured range was found).
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass

from ..trade import units
from ..trade.kinds import counts_as
from .amounts import YarnError
from .loops import moves
from .model import Range

SHIPPED_S = 2.8
MEAN_MOVES = 4.0
UNTIMED_FACTOR = 1.6
TIMED_FACTOR = 1.15
"""A timed pace against a whole evening: tiredness, counting, ripping back (from memory)."""
END_MIN, TRIM_MIN, BLOCK_MIN = 2.0, {"tassel": 6.0, "pompom": 10.0, "fringe": 1.0, "cord": 8.0, "button": 10.0}, 20.0
"""Finishing minutes: an end woven in, one trim (a fringe: one knot), laying out to block (from memory)."""
REST_EVERY_MIN, REST_MIN = 30.0, 5.0
"""Pauses for the hands: common advice 20-30 min of work (popular pages, no clinical source read)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """Hours of hands on the work: all of it, and of which stitches and finishing; `days` at `a_day` hours with pauses between."""

    whole: Range
    stitching: float
    finishing: float
    a_day: float
    days: int
    because: tuple[str, ...]


def seconds(kind: str, pace: Mapping[str, float]) -> float:
    """Seconds for one stitch. `pace`: seconds by kind, "st" for any stitch; chains are worked with the stitches when "st" is given.

    >>> seconds("dc", {"st": 2.8}), seconds("dc", {}), round(seconds("dc", {"sc": 2.4}), 1), seconds("ch", {"st": 2.8})
    (2.8, 3.5, 4.0, 0.0)
    """
    if kind in pace:
        return pace[kind]
    plain = counts_as(kind)
    if plain in pace:
        return pace[plain]
    if "st" in pace:
        return 0.0 if kind == "ch" else pace["st"]
    if pace:
        timed = sorted(pace.items())
        return moves(kind) * sum(value / moves(name) for name, value in timed) / len(timed)
    return moves(kind) * SHIPPED_S / MEAN_MOVES


def hours(
    made: Mapping[str, float], *, pace: Mapping[str, float] | None = None, ends: int = 0, trims: Mapping[str, int] | None = None,
    a_day: float = 2.0,
) -> Hours:  # fmt: skip
    """Hours for so many stitches of each kind. Raises YarnError for a pace or a day that is not greater than nothing.

    >>> h = hours({"dc": 1290}, pace={"st": 2.8})
    >>> round(h.stitching, 2)
    1.0
    """
    pace = dict(pace or {})
    if any(not (value > 0 and math.isfinite(value)) for value in pace.values()):
        raise YarnError("A pace must be greater than nothing seconds a stitch.")
    if not 0 < a_day <= 24:
        raise YarnError("Hours a day must lie between 0 and 24.")
    stitching = sum(number * seconds(kind, pace) for kind, number in made.items()) / 3600
    trimming = sum(number * TRIM_MIN.get(kind, 5.0) for kind, number in (trims or {}).items())
    finishing = (ends * END_MIN + trimming + BLOCK_MIN) / 60
    factor = TIMED_FACTOR if pace else UNTIMED_FACTOR
    whole = Range(stitching / factor + finishing / 1.5, stitching + finishing, stitching * factor + finishing * 1.5)
    work_min = a_day * 60 * REST_EVERY_MIN / (REST_EVERY_MIN + REST_MIN)
    days = math.ceil(whole.likely * 60 / work_min - 1e-9)
    said = (
        f"{sum(made.values()):,.0f} stitches and chains ({', '.join(f'{many:,.0f} {kind}' for kind, many in made.items())}): "
        f"{stitching:.1f} h "
        + (
            f"at the pace given (x/÷{factor:g})."
            if pace
            else f"at {SHIPPED_S} s a stitch, more for taller ones (x/÷{factor:g}: time two rows of yours)."
        ),
        f"Finishing: {ends} ends x {END_MIN:g} min, trims {trimming:g} min, blocking {BLOCK_MIN:g} min: {finishing:.1f} h.",
        f"At {a_day:g} h a day with {REST_MIN:g} min of rest after every {REST_EVERY_MIN:g}: {days} {'day' if days == 1 else 'days'}. "
        "Stop when a hand or wrist hurts.",
    )
    return Hours(whole=whole, stitching=stitching, finishing=finishing, a_day=a_day, days=days, because=said)


_PACE = re.compile(rf"^\s*(?:(?P<kind>[A-Za-z ]+?)\s*[:=]\s*)?(?P<number>{units.NUMBER})\s*(?P<unit>[a-z./ ]*)$", re.I)
_TIME = r"(?P<unit>s|sec|seconds?|min|minutes?|h|hours?)"
_ROWS = re.compile(rf"^\s*(?P<count>\d[\d,]*)\s+(?P<kind>[A-Za-z]+(?: st)?)\s+in\s+(?P<number>{units.NUMBER})\s*{_TIME}\s*$", re.I)
_SECONDS = {"s": 1.0, "m": 60.0, "h": 3600.0}


def pace_told(text: str) -> dict[str, float]:
    """A pace as told: "2.8 s", "25 a minute", "1290 an hour", "dc: 3.4 s, sc: 2.2 s", "120 dc in 6 min". Raises YarnError.

    >>> pace_told("2.8 s"), pace_told("1200 an hour"), pace_told("dc: 3.5 s, sc: 2 s"), pace_told("120 dc in 6 min")
    ({'st': 2.8}, {'st': 3.0}, {'dc': 3.5, 'sc': 2.0}, {'dc': 3.0})
    """
    out: dict[str, float] = {}
    for piece in re.split(r"[,;](?!\d)", text):
        timed, plain = _ROWS.match(piece), _PACE.match(piece)
        match = timed or plain
        number = units.parse_number(match["number"]) if match else None
        if match is None or not number:
            raise YarnError(f'The pace "{text}" is not understood: write for example "2.8 s", "25 a minute" or "120 dc in 6 min".')
        if timed:
            kind = "st" if timed["kind"].lower() in ("st", "sts", "stitches") else timed["kind"]
            out[kind] = float(number) * _SECONDS[timed["unit"][0].lower()] / int(timed["count"].replace(",", ""))
        else:
            out[(match["kind"] or "st").strip()] = _one_pace(float(number), match["unit"].lower().strip(), text)
    return out


def _one_pace(number: float, unit: str, text: str) -> float:
    if unit in ("", "s", "sec", "s.", "seconds", "s a stitch", "s/st", "seconds a stitch"):
        return number
    if re.search(r"min", unit):
        return 60 / number
    if re.search(r"hour|/h|\bh$", unit):
        return 3600 / number
    raise YarnError(f'The pace "{text}" has a unit that is not understood: seconds a stitch, stitches a minute or an hour.')
