"""Which slip is named in a shot: that of the most slippery of its new actions."""

from __future__ import annotations

from ..trade.slips import CommonSlip, common_slips
from .actions import Action
from .edges import Edges

_OF_EDGES = {"after counted": "first after a counted chain", "after uncounted": "first after an uncounted chain"}
_OF_PLACE = {"space": "space", "ring": "ring", "front loop": "loop", "back loop": "loop", "third loop": "loop"}
_ORDER = (
    "last in the top of the chain", "first after a counted chain", "first after an uncounted chain", "join", "spiral", "post", "decrease",
    "increase", "group", "space", "chains", "loop", "colour", "ring", "chain", "turn", "last in the last stitch",
)  # fmt: skip
"""From the slip that costs most to the one that costs least (our order)."""


def slip_of(actions: tuple[Action, ...], edges: Edges | None, told: set[str]) -> CommonSlip | None:
    """The slip to name: the first in our order that belongs to these actions or edges and was not named before in the film."""
    at = {_of(action) for action in actions}
    if edges is not None:
        at.add(_OF_EDGES.get(edges.first, ""))
        at.add({"top of the chain": "last in the top of the chain", "last": "last in the last stitch"}.get(edges.last, ""))
    found = next((name for name in _ORDER if name in at and name not in told), None)
    return None if found is None else common_slips()[found]


def _of(action: Action) -> str:
    if action.family == "stitch":
        return "post" if action.what[:2] in ("FP", "BP") else ""
    if action.family == "place":
        return "chain" if action.what.startswith("chain ") else _OF_PLACE.get(action.what, "")
    if action.family == "start":
        return {"spiral": "spiral", "ring": "ring"}.get(action.what, "")
    if action.family == "chain":
        return "chains"
    if action.family == "join":
        return "" if action.what == "travel" else "join"
    return {"increase": "increase", "decrease": "decrease", "group": "group", "turn": "turn", "colour": "colour"}.get(action.family, "")
