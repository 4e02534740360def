"""The door of the package: a family and its measures in, a draft out."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from typing import Literal

from ..pattern import Gauge
from .asks import Custom, MadeRound, Refused, custom_of
from .families import families
from .result import Draft, asked_of


def unknown_family(name: str) -> Refused:
    """The refusal of a name that no family has, with the nearest it may have meant."""
    known = list(families())
    near = difflib.get_close_matches(name.lower(), known, 1)
    meant = f"Did you mean {near[0]}? " if near else ""
    return Refused(f"No family is called “{name}”.", f"{meant}Choose one of {', '.join(known)}.")


def draft(
    family: str,
    gauge: str | Gauge | Custom,
    measures: Mapping[str, str | float],
    *,
    turning_chain: str | None = None,
    rounds: MadeRound | None = None,
    last: Literal["either", "right-side", "wrong-side"] = "either",
    stacked: bool = False,
    hook_mm: float | None = None,
) -> Draft:
    """Draft a piece. `measures`: lengths by name, with units ("24 cm") or in cm, and the family's own words.

    `last` keeps the side that the last row shows (Row 1 is a right-side row). Raises Refused, with one sentence and the nearest that can
    be had, where the family, a measure or the gauge cannot be.

    >>> draft("rectangle", "14 dc and 7 rows = 10 cm", {"width": "24 cm", "length": "1.7 m"}).sizes[0].counted
    '34 dc'
    """
    known = families()
    if family not in known:
        raise unknown_family(family)
    if not isinstance(gauge, Custom):
        parity: Literal["", "odd", "even"] = "" if last == "either" else "odd" if last == "right-side" else "even"
        gauge = custom_of(gauge, turning_chain=turning_chain, rounds=rounds, parity=parity, stacked=stacked, hook_mm=hook_mm)
    chosen = known[family]
    return chosen.make(asked_of(chosen, measures), gauge)
