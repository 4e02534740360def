"""Rounds told once and worked again on longer edges: a granny square's "*3 dc in next ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in next corner".

Written for one space on each edge, it means every space on the edge when the square has grown (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import ONE, ZERO, Aside, Chain, Make, Place, Refer, Repeat, Sized, Step, Times, Together, slips
from .fabric import RowWork
from .needs import is_space


def edges_grown(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps with the stitches of an edge's one space repeated up to the next corner; None where no unit is told so."""
    for k, step in enumerate(steps):
        if isinstance(step, Repeat) and (body := _unit_grown(step.body)) is not None:
            return (*_first_edge(steps[:k]), replace(step, body=body), *_last_edge(steps[k + 1 :]))
    return None


def runs_grown(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps with every plain run between two corners ("dc in each of next 3 dc") as long as the edge is; None where no unit of the
    round is a corner and such a run."""
    at = next((k for k, step in enumerate(steps) if isinstance(step, Repeat) and _cornered(step.body)), None)
    if at is None:
        return None
    repeat = steps[at]
    assert isinstance(repeat, Repeat)
    what = next(step.at.what for step in repeat.body if _in_corner(step) and isinstance(step, Together))
    alone = not any(map(_in_corner, repeat.last))  # "…, ending with dc in each of last 4 dc"
    ended = tuple(_to_the_end(step) if alone else step for step in repeat.last)
    inside = replace(repeat, body=tuple(_up_to(step, what) for step in repeat.body), last=ended)
    before, after = steps[:at], steps[at + 1 :]
    last = next((k for k in range(len(after) - 1, -1, -1) if _in_corner(after[k])), -1)
    told = any(_plain_run(step) for step in after[last + 1 :])
    run = next(step for step in repeat.body if _plain_run(step))
    assert isinstance(run, Make)
    end = () if told else (replace(run, places="rest"),)
    return (
        *(_up_to(step, what) for step in before),
        inside,
        *(_up_to(step, what) for step in after[: last + 1]),
        *end,
        *(replace(step, places="rest") if _plain_run(step) and isinstance(step, Make) else step for step in after[last + 1 :]),
    )


def edges_of(steps: tuple[Step, ...], number: int, stitch: str) -> tuple[Step, ...] | None:
    """The steps with `number` plain stitches between the corners of the unit that is repeated; None where it has no one corner, or its
    edge is told otherwise than by how many stitches of that kind it holds."""
    at = [k for k, step in enumerate(steps) if isinstance(step, Repeat)]
    repeat = steps[at[0]] if len(at) == 1 else None
    if not isinstance(repeat, Repeat):
        return None
    runs = [step for step in repeat.body if _edge_run(step) and isinstance(step, Make)]
    rest = [step for step in repeat.body if step not in runs and not isinstance(step, Aside)]
    edge = sum(_length(run) for run in runs)
    body = _each_longer(repeat.body, number - edge, len(runs))
    if len(rest) != 1 or not _shaped_corner(rest[0]) or body is None or any(stitch not in ("", run.stitch) for run in runs):
        return None
    beside = [k for k, step in enumerate(steps) if _edge_run(step) and _length(step) != edge]
    outside = _each_longer(tuple(steps[k] for k in beside), number - edge, len(beside)) if beside else ()
    if outside is None or any(_length(steps[k]) > edge for k in beside):
        return None
    out = [_of_length(step, number) for step in steps]
    for k, step in zip(beside, outside, strict=True):
        out[k] = step
    last = tuple(_of_length(step, number) if _length(step) == edge else step for step in repeat.last)  # "…, ending with dc in last 4 dc"
    out[at[0]] = replace(repeat, body=body, last=last)
    return tuple(out)


def _each_longer(steps: tuple[Step, ...], by: int, runs: int) -> tuple[Step, ...] | None:
    """The steps with the runs of one edge, whole or on either side of a corner, `by` longer together; None where they cannot be alike."""
    if runs not in (1, 2) or by % runs:
        return None
    out: list[Step] = []
    for step in steps:
        if _edge_run(step) and isinstance(step, Make):
            step = replace(step, places=Sized((_length(step) + by // runs,)))
            if _length(step) < 1:
                return None
        out.append(step)
    return tuple(out)


def _edge_run(step: Step) -> bool:
    """A plain run, or "dc in each of last 6 dc" """
    last = isinstance(step, Make) and step.at.where == "last" and step.places != ONE
    return _plain_run(replace(step, at=replace(step.at, where="next")) if last and isinstance(step, Make) else step)


def _to_the_end(step: Step) -> Step:
    return replace(step, places="rest", at=replace(step.at, where="next")) if isinstance(step, Make) and _edge_run(step) else step


def _of_length(step: Step, number: int) -> Step:
    return replace(step, places=Sized((number,))) if isinstance(step, Make) and _edge_run(step) else step


def _length(step: Step) -> int:
    return (step.places.values[0] or 0) if isinstance(step, Make) and isinstance(step.places, Sized) else 0


def _shaped_corner(step: Step) -> bool:
    """Several stitches in one place."""
    return isinstance(step, Together) or (isinstance(step, Make) and (step.each != ONE or step.stitch == "inc" or step.at.what == "corner"))


def sides_told(steps: tuple[Step, ...]) -> bool:
    """Whether the row says itself how long its sides are ("as Round 2, but with 7 tr between corners")."""
    changes = [change for step in steps if isinstance(step, Refer) for change in step.changes]
    between = Place(what="corner", between=True)
    return any((isinstance(change, Aside) and change.kind == "sides") or getattr(change, "at", None) == between for change in changes)


def passes_over(label: str, rows: Sequence[RowWork]) -> bool:
    """Whether the row so called left stitches below unworked where it was written: shells between posts, and no edges that grow."""
    row = next((one for one in rows if one.label == label), None)
    below = None if row is None else next((one for one in rows if one.index == row.below), None)
    if row is None or below is None:
        return False
    back = row.index - below.index
    feet = zip(row.stitches.foot_back, row.stitches.foot_at, strict=True)
    used = {at for far, at in feet if far == back}
    counted = set(below.stitches.counted())
    return len(used & counted) * 4 < len(counted) * 3


def _cornered(body: tuple[Step, ...]) -> bool:
    """One corner and one plain run, and nothing else."""
    worked = [step for step in body if not isinstance(step, Aside)]
    return len(worked) == 2 and any(map(_in_corner, worked)) and any(map(_plain_run, worked))


def _plain_run(step: Step) -> bool:
    plain = isinstance(step, Make) and step.each == ONE and step.closes == 1 and step.at.where == "next" and not step.at.between
    return plain and isinstance(step, Make) and not is_space(step.at.what) and isinstance(step.places, Sized)


def _up_to(step: Step, what: str) -> Step:
    return replace(step, places="rest", upto=what) if _plain_run(step) and isinstance(step, Make) else step


def _first_edge(head: tuple[Step, ...]) -> tuple[Step, ...]:
    """What is told of the first edge before the repeat ("(3 dc, ch 2, 3 dc) in corner, ch 1, 3 dc in next space, ch 1, *…"), as often as
    its spaces go."""
    told = [k for k, step in enumerate(head) if _in_edge(step) and step.at.what != "corner" and not slips(step)]  # type: ignore[union-attr]
    at = told[0] if len(told) == 1 else 0
    if not at or not isinstance(head[at - 1], Chain) or not any(_pointed(one) or _in_corner(one) for one in head[:at]):
        return head
    step = head[at]
    again = Repeat(id=step.id, span=step.span, body=head[at - 1 : at + 1], times=Times(kind="to_place", number=ZERO, what="corner"))
    return (*head[: at - 1], again, *head[at + 1 :])


def _last_edge(tail: tuple[Step, ...]) -> tuple[Step, ...]:
    """What is told of the last edge behind the repeat ("ch 1, 3 dc in last ch-1 sp, ch 1, join"), as often as its spaces go."""
    told = [k for k, step in enumerate(tail) if _in_edge(step) or _in_last(step)]
    at = told[0] if len(told) == 1 else 0
    step = tail[at] if told[:1] == [at] else None
    if isinstance(step, Make) and _in_gap(step):
        alone = (replace(step, at=replace(step.at, where="next")),)
        return (*tail[:at], Repeat(id=step.id, span=step.span, body=alone, times=Times(kind="rest")), *tail[at + 1 :])
    if not at or not isinstance(step, (Make, Together)) or not isinstance(tail[at - 1], Chain):
        return tail
    unit = (tail[at - 1], replace(step, at=replace(step.at, where="next")))
    again = Repeat(id=step.id, span=step.span, body=unit, times=Times(kind="rest"))
    return (*tail[: at - 1], again, *tail[at + 1 :])


def _in_gap(step: Step) -> bool:
    return isinstance(step, Make) and step.at.between


def _pointed(step: Step) -> bool:
    """A group with chains in its middle, in a space."""
    return isinstance(step, Together) and is_space(step.at.what) and any(isinstance(one, Chain) for one in step.body)


def _in_last(step: Step) -> bool:
    return isinstance(step, (Make, Together)) and _spaced(step) and step.at.where == "last" and step.places == ONE


def _unit_grown(body: tuple[Step, ...]) -> tuple[Step, ...] | None:
    gap = any(map(_in_gap, body))
    edges = [k for k, step in enumerate(body) if _in_edge(step) and not (gap and _pointed(step))]
    corners = [k for k, step in enumerate(body) if _in_corner(step) or (gap and _pointed(step))]
    if len(edges) != 1 or len(corners) != 1:
        return None
    at, step = edges[0], body[edges[0]]
    upto = "corner"
    if gap:
        first, end = at, at + 1  # "2 dc in gap between groups": no chain stands beside it
        corner = body[corners[0]]
        upto = corner.at.what if isinstance(corner, Together) else upto
    elif at and isinstance(body[at - 1], Chain):
        first, end = at - 1, at + 1
    elif at + 1 < len(body) and isinstance(body[at + 1], Chain):
        first, end = at, at + 2
    else:
        return None
    again = Repeat(id=step.id, span=step.span, body=body[first:end], times=Times(kind="to_place", number=ZERO, what=upto))
    return (*body[:first], again, *body[end:])


def _in_edge(step: Step) -> bool:
    """One group in the next space of an edge."""
    return isinstance(step, (Make, Together)) and _spaced(step) and step.at.where == "next" and step.places == ONE and not _in_corner(step)


def _spaced(step: Make | Together) -> bool:
    """In a space, or between two groups."""
    return is_space(step.at.what) or (step.at.between and step.at.what == "group")


def _in_corner(step: Step) -> bool:
    """A group in the next corner: told so, or stitches with a chain of two or more between."""
    if not isinstance(step, Together) or step.places != ONE:
        return False
    return step.at.what == "corner" or (
        is_space(step.at.what) and any(isinstance(one, Chain) and (one.number.values[0] or 0) > 1 for one in step.body)
    )
