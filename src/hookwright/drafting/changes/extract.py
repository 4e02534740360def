"""From a worked fabric back to a plan: the stitches of every row and what changes at which edge, where that is all there is to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from ...pattern import FLAT, Gauge, Part, Pattern, TurningChain
from ...trade.kinds import base
from ...working import Fabric, How, PartWork, Role, RowWork, Stitches, work
from ..asks import TURNING, Custom, Refused, custom_of
from ..obtained import FlatRow


@dataclass(frozen=True, slots=True)
class Plain:
    """A part worked in one plain stitch: in flat rows (`rows`, from `foundation` chains) or in rounds (`counts`)."""

    name: str
    stitch: str
    foundation: int = 0
    rows: tuple[FlatRow, ...] = ()
    counts: tuple[int, ...] = ()
    ring: bool = False
    closed: bool = False
    inside: bool = False
    """Whether plain stitches stand outside some of its shaping."""


def gauge_told(pattern: Pattern) -> Gauge:
    """The gauge a pattern states. Refuses one that states none."""
    for gauge in pattern.facts.gauge:
        if gauge.rows:
            return gauge
    if pattern.facts.gauge:
        return pattern.facts.gauge[0]
    raise Refused("This pattern states no gauge.", 'Write one in it: "Gauge: 14 dc and 7 rows = 10 cm".')


def custom_told(pattern: Pattern, fabric: Fabric, gauge: Gauge, turning_chain: str | None = None) -> Custom:
    """The customs a pattern is worked by: its turning chain as told, else as worked; how its rounds end."""
    stitch = next((s for s in (plain_stitch(part) for part in fabric.parts) if s), gauge.stitch)
    if stitch not in TURNING:
        raise Refused(f"Nothing can be drafted in “{stitch}”.", f"Choose one of {', '.join(TURNING)}.")
    first = custom_of(
        gauge if gauge.stitch in TURNING else Gauge(stitch=stitch, stitches=gauge.stitches, rows=gauge.rows, over_cm=gauge.over_cm)
    )
    spiral = any(row.made_in == "spiral" for part in fabric.parts for row in part.rows)
    chain = pattern.facts.turning_chains.get(stitch) or _worked_chain(fabric) or first.turning
    custom = custom_of(first.gauge or gauge, turning_chain=turning_chain, rounds="spiral" if spiral else "joined")
    return replace(custom, stitch=stitch, turning=custom.turning if turning_chain else chain, hook_mm=pattern.facts.hook_mm)


def _worked_chain(fabric: Fabric) -> TurningChain | None:
    for part in fabric.parts:
        for row in part.rows[2:]:
            roles = row.stitches.role
            lead = next((k for k, role in enumerate(roles) if role not in (Role.START, Role.START_TOP)), len(roles))
            if lead:
                return TurningChain(chains=lead, counts=Role.START_TOP in roles[:lead])
    return None


def plain_stitch(part: PartWork) -> str | None:
    """The one stitch a part is worked in, under both loops; None where it is worked in several, in none, round posts or in one loop."""
    kinds = {base(name) if name[:2] not in ("FP", "BP") else name for name in _names(part)}
    kinds |= {"ch" for row in part.rows if not row.foundation for role in row.stitches.role if role == Role.CHAIN}
    if any(how in _TEXTURE for row in part.rows if not row.foundation for how in set(row.stitches.foot_how)):
        return None
    return next(iter(kinds)) if len(kinds) == 1 else None


def _names(part: PartWork) -> set[str]:
    return {row.stitches.name(i) for row in part.rows for i in row.stitches.counted()}


_TEXTURE = frozenset((How.FRONT_LOOP, How.BACK_LOOP, How.THIRD_LOOP, How.FRONT_POST, How.BACK_POST, How.BETWEEN))
"""Ways of working that a plain piece drafted anew would lose."""


def called(part: PartWork | Part) -> str:
    """What a part is called in a sentence."""
    return part.name or "The piece"


def plain_parts(pattern: Pattern, size: int = 0) -> tuple[Fabric, tuple[Plain, ...]]:
    """The fabric and every part as a plan. Refuses a pattern that does not work out, or that is more than plain shaping, and says where."""
    fabric = work(pattern, size=size)
    for part in fabric.parts:
        for row in part.rows:
            if row.worked not in ("yes", "two-readings") or row.state == "differs":
                raise Refused(f"{called(part)}, {row.label} does not work out as it stands.", "Proof the pattern first.")
    return fabric, tuple(_plain(part) for part in fabric.parts)


def _plain(part: PartWork) -> Plain:
    stitch = plain_stitch(part)
    if stitch is None:
        raise Refused(
            f"{called(part)} is worked in more than one stitch.", "It can be made wider or longer by its repeats: --wider 1, --longer 1."
        )
    rows = [row for row in part.rows if not row.foundation and row.counted.total]
    if not rows:
        raise Refused(f"{called(part)} has no rows.")
    if any(row.made_in not in FLAT for row in rows):
        counts = tuple(row.counted.total for row in rows)
        return Plain(part.name, stitch, counts=counts, ring=_in_ring(rows[0]), closed=counts[-1] <= 12 and len(counts) > 3)
    first = rows[0]
    begins = first.stitches
    feet = {at for i in begins.counted() for _, at, _ in begins.feet_of(i)}
    plan, inside = [FlatRow(count=first.counted.total)], False
    for below, row in pairwise(rows):
        shaped, within = (FlatRow(row.counted.total), False) if _all_in_one(below, row) else _edges(part, below, row)
        plan.append(shaped)
        inside = inside or within
    foundation = 1 if len(feet) == 1 and first.counted.total > 1 else first.counted.total
    return Plain(part.name, stitch, foundation=foundation, rows=_shared_out(plan), inside=inside)


def _all_in_one(below: RowWork, row: RowWork) -> bool:
    """Whether a row stands in the one stitch below it, or closes the whole row below in one: its two ends are then the same."""
    return below.counted.total != row.counted.total and 1 in (below.counted.total, row.counted.total)


def _shared_out(plan: Sequence[FlatRow]) -> tuple[FlatRow, ...]:
    """The rows, what a row in one stitch gains or loses given to the edge that moves more in the others; to both where they move alike."""
    moved_a, moved_b = (sum(abs(change) for change in edge) for edge in ([r.a for r in plan], [r.b for r in plan]))
    rows = [plan[0]]
    for below, row in pairwise(plan):
        change = row.count - below.count - row.a - row.b
        a = change if moved_a > moved_b else 0 if moved_b > moved_a else change - change // 2
        rows.append(replace(row, a=row.a + a, b=row.b + change - a))
    return tuple(rows)


def _in_ring(row: RowWork) -> bool:
    feet = [at for i in row.stitches.counted() for _, at, _ in row.stitches.feet_of(i)]
    return row.offered is None or len(set(feet)) <= 1


def _edges(part: PartWork, below: RowWork, row: RowWork) -> tuple[FlatRow, bool]:
    """What a row gained or lost at its two ends, from what its first and last stitches stand on; whether plain stitches stand outside it.

    A counted chain at the beginning is no such stitch: a decrease cannot but stand beside it.
    """
    order = [i for i in below.stitches.counted()]
    if row.turned:
        order.reverse()
    place = {element: k for k, element in enumerate(order)}
    stands = [_places(row.stitches, i, place) for i in row.stitches.counted()]
    begin, square_begin, before = _end(stands)
    last = len(order) - 1
    end, square_end, after = _end([tuple(last - p for p in reversed(s)) for s in reversed(stands)])
    if begin and end and len(order) + begin + end != len(stands):  # in a few stitches one change is met from both ends
        begin, square_begin, before, end, square_end, after = (
            (begin, square_begin, before, 0, False, 0) if before < after else (0, False, 0, end, square_end, after)
        )
    if len(order) + begin + end != len(stands):
        raise Refused(
            f"{called(part)}, {row.label} is shaped in its middle, and only shaping at the edges can be carried over.",
            "It can be made wider or longer by its repeats: --wider 1, --longer 1.",
        )
    a, b = (begin, end) if row.begins == "A" else (end, begin)
    square_a, square_b = (square_begin, square_end) if row.begins == "A" else (square_end, square_begin)
    return FlatRow(row.counted.total, a, b, square_a, square_b), before > (Role.START_TOP in row.stitches.role) or after > 0


def _places(stitches: Stitches, element: int, place: dict[int, int]) -> tuple[int, ...]:
    return tuple(sorted(place[at] for back, at, _ in stitches.feet_of(element) if back == 1 and at in place))


_EDGE = 2
"""Plain stitches that may stand outside a shaping, for it still to be one at the edge ("dc in first st, dc2tog"). Common practice, no
source."""


def _end(stands: Sequence[tuple[int, ...]]) -> tuple[int, bool, int]:
    """(stitches gained or lost, cut square, plain stitches outside the shaping) at the end where place 0 lies."""
    airy = next((k for k, places in enumerate(stands) if places), len(stands))
    if airy:
        return airy, True, 0
    if stands[0][0] > 0:
        return -stands[0][0], True, 0
    for k, places in enumerate(stands[: _EDGE + 1]):
        if places[0] != k:
            break
        change = 1 - len(places) if len(places) > 1 else sum(1 for p in stands if p == places) - 1
        if change:
            return change, False, k
    return 0, False, 0
