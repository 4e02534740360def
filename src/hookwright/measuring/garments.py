"""Sleeves set into a garment: the edge round an armhole beside the top edge of its sleeve."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from .along import side_cm
from .measures import Measures, PartMeasures
from .outline import outer_run
from .placing import Placed

SLEEVE: Final = re.compile(r"\bsleeves?\b", re.I)
_AT_NECK: Final = re.compile(r"\b(?:collar|hood|neck\s?band|neck\s?piece|cowl)\b", re.I)
_NECK: Final = re.compile(r"\bneck", re.I)


def sleeves_of(measures: Measures) -> tuple[int, ...]:
    """The sleeves that some sentence sews in ("Set in sleeves", "sew sleeves to armholes", "sew side and sleeve seams")."""
    if not any(SLEEVE.search(seam.seam.words) for seam in measures.fabric.seams):
        return ()
    found = [k for k, part in enumerate(measures.parts) if SLEEVE.search(part.name) and part.width_cm > 0 and _open(part)]
    return tuple(found) if sum(measures.parts[k].copies for k in found) == 2 else ()


def neck_pieces_of(measures: Measures) -> tuple[int, ...]:
    """Collars and hoods, worked flat, that some sentence sews to the neck."""
    found = []
    for k, part in enumerate(measures.parts):
        if part.in_rounds or part.tiles is not None or part.copies != 1 or not part.width_cm or not _AT_NECK.search(part.name):
            continue
        if any(k in seam.parts and _NECK.search(seam.seam.words) for seam in measures.fabric.seams):
            found.append(k)
    return tuple(found)


def closed_on_top(measures: Measures, k: int) -> bool:
    """Whether a hood is folded and its upper edge sewn up."""
    return any(seam.seam.kind == "fold" and k in seam.parts for seam in measures.fabric.seams)


def neck_edge_cm(part: PartMeasures) -> float:
    """The edge of a collar or a hood that is sewn on: its longer one, which goes round the neck."""
    return max(part.width_cm, part.length_cm)


def _open(part: PartMeasures) -> bool:
    """Whether a sleeve is worked flat, or in rounds that are open at both ends."""
    rounds = part.rounds
    return rounds is None or (rounds.start_girth_cm > 0 and part.lies in ("tube", "cups"))


def upper_from(part: PartMeasures, *, high: bool) -> Placed | None:
    """The row at which an edge first steps or leans inward for good (an armhole, the cap of a sleeve); None where it never does."""
    run = _standing(part, high=high)
    ends = [row.high if high else -row.low for row in run]
    widest = max(ends, default=0.0)
    last = max((k for k, end in enumerate(ends) if end > widest - 0.02), default=-1)
    if last < 0 or last + 1 >= len(run) or widest - ends[-1] < 1.2 * part.scale.unit_cm:
        return None
    return run[last + 1]


def _standing(part: PartMeasures, *, high: bool) -> list[Placed]:
    return outer_run([row for row in part.placed if row.top != row.bottom and row.index not in part.edging], high=high)


def upper_cm(part: PartMeasures, *, high: bool) -> float:
    """The length of an edge from where it goes inward to its top; 0 where it does not."""
    begins = upper_from(part, high=high)
    return 0.0 if begins is None else side_cm(part, high=high, above=begins.bottom)


def sleeve_top_cm(part: PartMeasures) -> float:
    """The edge of a sleeve that is sewn in: its last row, and both sides of its cap; of one in rounds its wider end."""
    if part.rounds is not None:
        return max(part.rounds.start_girth_cm, part.rounds.rounds[-1].girth_cm)
    run = _standing(part, high=True)
    last = part.laid[run[-1].index].total_cm if run else 0.0
    return last + upper_cm(part, high=False) + upper_cm(part, high=True)


def armhole_cm(parts: Sequence[PartMeasures]) -> float | None:
    """One armhole all round: of a back and a whole front, or of a back and half a front; None where no edge is shaped for one.

    The edge of half a front that has the armhole is the one that steps in lowest or, at the same height, is longer above.
    """
    total = 0.0
    for part in parts:
        sides = [upper_cm(part, high=high) for high in (False, True)]
        if min(sides) <= 0 and max(sides) <= 0:
            return None
        total += arm_side(part)[1]
    return total


def arm_side(part: PartMeasures) -> tuple[bool, float]:
    """Which edge (whether B) has the armhole, and how long it is there; of a piece with two the first."""
    best = (False, 0.0, False)
    for high in (False, True):
        begins = upper_from(part, high=high)
        if begins is None:
            continue
        long = upper_cm(part, high=high)
        steps = begins.ledge_high if high else begins.ledge_low
        if (steps, long) > (best[2], best[1]):
            best = (high, long, steps)
    return best[0], best[1]
