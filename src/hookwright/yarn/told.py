"""The public JSON of yarn, `hookwright/yarn/1` (schema: data/yarn-1.schema.json). New keys keep the number."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ..trade.units import OUNCE_G, YARD_M
from .answers import leftovers
from .balls import Swap
from .estimating import Estimate, YarnUse
from .landing import Landing, band_edges
from .model import Range
from .money import Cost
from .planning import Planned
from .pools import near
from .scale_log import Forecast, summary
from .starts import Start
from .stripes import planned as planned_stripes
from .timing import Hours
from .trims import cutting_list
from .turns import RowsLeft, TurnAround

SCHEMA = "hookwright/yarn/1"


def as_json(
    found: Sequence[Estimate], *, turn: TurnAround | None = None, left: RowsLeft | None = None, log: Forecast | None = None,
    cost: Cost | None = None, swaps: Mapping[str, Swap] | None = None, colours: Mapping[str, tuple[Landing, Sequence[Start]]] | None = None,
) -> dict[str, Any]:  # fmt: skip
    """An estimate for every size; the first one stands at the top level, all of them under `sizes` when there are several."""
    first = found[0]
    out: dict[str, Any] = {"schema": SCHEMA, **_one(first)}
    out["turn_around"] = None if turn is None else _turn(turn)
    if left is not None:
        out["rows_left"] = {
            "rows": left.rows,
            "last": left.last,
            "spare_grams": left.spare_g,
            "one_more": left.one_more,
            "working": list(left.working),
        }
    if log is not None:
        out["log"] = dict(summary(log)) | {"said": list(log.said)}
    if cost is not None:
        out["cost"] = _cost(cost)
    if swaps:
        out["swap"] = {name: _swap(swap) for name, swap in swaps.items()}
    if colours:
        out["colours"] = {name: _landing(first, landing, starts) for name, (landing, starts) in colours.items()}
    if len(found) > 1:
        out["sizes"] = [{"size": each.size + 1, "name": each.size_name, **_one(each)} for each in found]
    return out


def planned_json(plan: Planned) -> dict[str, Any]:
    """A plan made without a pattern, in the same form."""
    return {"schema": SCHEMA, "yarns": [_yarn(plan.use)], "rows": [], "parts": [], "turn_around": None, "hours": _hours(plan.hours),
            "because": list(plan.because)}  # fmt: skip


def _one(found: Estimate) -> dict[str, Any]:
    return {
        "yarns": [_yarn(use) for use in found.yarns],
        "rows": [
            {"part": row.part, "label": row.label, "number": row.number, "copies": row.copies, "metres": row.metres, "so_far": row.so_far,
             "by_yarn": dict(row.by_yarn)}
            for row in found.rows
        ],
        "parts": [
            {"name": part.name, "copies": part.copies, "metres_each": part.metres_each, "by_yarn": dict(part.by_yarn),
            "area_cm2": part.area_cm2,
             "openness": part.openness, "relief": part.relief, "hook_mm": part.hook_mm}
            for part in found.parts
        ],
        "stripes": [
            {"part": s.part, "yarns": list(s.yarns), "first": s.first, "last": s.last, "rows": s.rows, "metres": s.metres}
            for s in planned_stripes(found)
        ],
        "trims": [
            {"kind": use.kind, "number": use.number, "yarn": use.yarn, "metres_each": use.metres_each, "metres": use.metres,
            "working": use.working,
             "assumed": list(use.assumed)}
            for use in found.trims
        ],
        "cutting_list": [
            {"yarn": cut.yarn, "pieces": cut.pieces, "length_cm": cut.length_cm, "use": cut.use} for cut in cutting_list(found.trims)
        ],
        "leftovers": {name: {"metres": metres, "grams": grams} for name, (metres, grams) in leftovers(found).items()},
        "hours": _hours(found.hours),
        "because": list(found.because),
    }  # fmt: skip


def _range(value: Range) -> dict[str, float]:
    return {"low": value.low, "likely": value.likely, "high": value.high}


def _yarn(use: YarnUse) -> dict[str, Any]:
    s = use.supplied
    balls = None
    if use.balls is not None:
        balls = {"likely": use.balls.likely, "buy": use.balls.buy, "said": use.balls.said,
                 "chances": [{"balls": n, "enough": p} for n, p in use.balls.chances]}  # fmt: skip
    return {
        "id": s.id, "name": s.yarn.name, "colour": s.yarn.colour, "strands": s.strands, "m_per_100g": s.m_per_100g,
        "metres": _range(use.metres), "yards": _range(use.metres.times(1 / float(YARD_M))),
        "grams": _range(use.grams), "ounces": _range(use.grams.times(1 / float(OUNCE_G))),
        "balls": balls, "of_which": dict(use.of_which), "apart": dict(use.apart),
        "hand": {"factor": use.hand.factor, "sd_metres": use.hand.metres_sd, "sd_grams": use.hand.sd, "weighed": use.hand.weighed,
                 "working": list(use.hand.because)},
    }  # fmt: skip


def _hours(found: Hours) -> dict[str, Any]:
    return {**_range(found.whole), "stitching": found.stitching, "finishing": found.finishing, "a_day": found.a_day, "days": found.days,
            "because": list(found.because)}  # fmt: skip


def _turn(turn: TurnAround) -> dict[str, Any]:
    return {"row": turn.row, "stop_at_grams": turn.stop_at_grams, "have_grams": turn.have_g, "reserved_grams": turn.reserved_g,
            "rows_between": [turn.low_row, turn.high_row], "as_written": turn.written, "working": list(turn.working)}  # fmt: skip


def _cost(cost: Cost) -> dict[str, Any]:
    return {"currency": cost.currency, "yarn_used": cost.yarn_used, "yarn_bought": cost.yarn_bought, "materials": cost.materials,
            "labour": cost.labour, "whole": cost.whole, "wholesale": cost.wholesale, "retail": cost.retail,
            "implied_wage": cost.implied_wage,
            "working": list(cost.working)}  # fmt: skip


def _swap(swap: Swap) -> dict[str, Any]:
    return {"balls_same_length": {"likely": swap.balls_same_length.likely, "buy": swap.balls_same_length.buy},
            "balls_same_size": {"likely": swap.balls_same_size.likely, "buy": swap.balls_same_size.buy},
            "metres_same_size": swap.metres_same_size,
            "thickness_ratio": swap.thickness_ratio, "hook_mm": swap.hook_mm, "warnings": list(swap.warnings)}  # fmt: skip


def _landing(found: Estimate, landing: Landing, starts: Sequence[Start]) -> dict[str, Any]:
    return {
        "pooling": [
            {"stitches": p.stitches, "repeat_stitches": p.repeat, "shift": p.shift, "effect": p.effect, "holds_percent": p.holds_percent,
             "looser_as_told_tighter": list(p.at_drift)}
            for p in near(found, landing.yarn, landing.repeat)
        ],
        "repeat_metres": landing.repeat.metres, "colours": list(landing.colours),
        "account": {colour: dict(kinds) for colour, kinds in landing.account.items()},
        "bands": [
            {"part": e.part, "copy": e.copy, "row": e.row, "stitch": e.stitch, "of": e.of,
            "colour": e.colour} for e in band_edges(found, landing)
        ],
        "balls": [
            {"number": b.number, "strand": b.strand + 1, "begins": b.begins, "metres_into_run": b.into_run,
            "metres_into_repeat": b.phase, "pulled_off": b.pulled_off,
             "joined_at": None if b.joined_at is None else b.joined_at[0], "used": b.used, "left": b.left}
            for b in landing.balls
        ],
        "starts": [
            {"metres_into_repeat": s.start_m, "pull_off": s.pull_off_m, "first": s.first, "last": s.last, "trims": s.trims,
            "match": s.match,
             "sure": s.sure}
            for s in starts
        ],
    }  # fmt: skip
