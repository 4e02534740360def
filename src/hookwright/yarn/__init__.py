"""Length, mass, balls, colour per stitch, trims, time, cost. Names are imported when first asked for."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .amounts import Ball, Extent, YarnError, ball, extent, grams, hook_mm, metres
    from .answers import from_log, left_after, leftovers, main_yarn, turning, weighing_of_log, whole_weighed
    from .balls import Balls, Swap, count_balls, part_ball, swap
    from .calibrate import Hand, Weighing, unmeasured, update
    from .estimating import Asked, Estimate, PartUse, RowUse, YarnUse, estimate
    from .hues import name_of, rgb_for
    from .landing import BandEdge, Landing, Plan, RowColours, band_edges, land
    from .model import Range, constants, metres_per_cm2, usual_hook_mm
    from .money import Cost, PatternCost, pattern_cost, piece_cost
    from .photo import Seen, measure_photo
    from .photo import as_data as photo_data
    from .photo import from_data as photo_from_data
    from .planning import Planned, plan_area
    from .pools import Pooling, pooling
    from .pools import near as pooling_near
    from .scale_log import Forecast, read_log
    from .sequence import BallOfColour, Knot, Repeat, typed
    from .starts import Start, Wish, best_starts
    from .stripes import Stripe, as_csv, planned
    from .timing import Hours, hours, pace_told
    from .told import as_json, planned_json
    from .trims import Cut, TrimUse, cutting_list, how_many, trim_use
    from .turns import RowsLeft, TurnAround

_HOME = {
    "amounts": "Ball Extent YarnError ball extent grams hook_mm metres",
    "answers": "from_log left_after leftovers main_yarn turning weighing_of_log whole_weighed",
    "balls": "Balls Swap count_balls part_ball swap",
    "calibrate": "Hand Weighing unmeasured update",
    "estimating": "Asked Estimate PartUse RowUse YarnUse estimate",
    "timing": "Hours hours pace_told",
    "hues": "name_of rgb_for",
    "landing": "BandEdge Landing Plan RowColours band_edges land",
    "model": "Range constants metres_per_cm2 usual_hook_mm",
    "money": "Cost PatternCost pattern_cost piece_cost",
    "photo": "Seen measure_photo photo_data=as_data photo_from_data=from_data",
    "planning": "Planned plan_area",
    "pools": "Pooling pooling pooling_near=near",
    "scale_log": "Forecast read_log",
    "sequence": "BallOfColour Knot Repeat typed",
    "starts": "Start Wish best_starts",
    "stripes": "Stripe as_csv planned",
    "told": "as_json planned_json",
    "trims": "Cut TrimUse cutting_list how_many trim_use",
    "turns": "RowsLeft TurnAround",
}
_WHERE = {
    name.partition("=")[0]: (module, name.partition("=")[2] or name) for module, names in _HOME.items() for name in names.split()
}  # fmt: skip

__all__ = [
    "Asked", "Ball", "BallOfColour", "Balls", "BandEdge", "Cost", "Cut", "Estimate", "Extent", "Forecast", "Hand", "Hours", "Knot",
    "Landing", "PartUse", "PatternCost", "Plan", "Planned", "Pooling", "Range", "Repeat", "RowColours", "RowUse", "RowsLeft", "Seen",
    "Start", "Stripe", "Swap", "TrimUse", "TurnAround", "Weighing", "Wish", "YarnError", "YarnUse", "as_csv", "as_json", "ball",
    "band_edges", "best_starts", "constants", "count_balls", "cutting_list", "estimate", "extent", "from_log", "grams", "hook_mm",
    "hours", "how_many", "land", "left_after", "leftovers", "main_yarn", "measure_photo", "metres", "metres_per_cm2", "name_of",
    "pace_told", "part_ball", "pattern_cost", "photo_data", "photo_from_data", "piece_cost", "plan_area", "planned", "planned_json",
    "pooling", "pooling_near", "read_log", "rgb_for", "swap", "trim_use", "turning", "typed", "unmeasured", "update", "usual_hook_mm",
    "weighing_of_log", "whole_weighed",
]  # fmt: skip


def __getattr__(name: str) -> Any:
    where = _WHERE.get(name)
    if where is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(import_module(f".{where[0]}", __name__), where[1])
    globals()[name] = value
    return value
