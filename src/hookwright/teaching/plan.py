"""The film plan: what is filmed once in full, what once more at speed, what is skipped, and how long it takes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby

from ..pattern import Colour, Pattern, Refer
from ..trade.terms import System
from ..working import Fabric, PartWork, Role, RowWork
from . import pacing
from .actions import Action, actions_of, colour_of
from .between import only_told, told_after
from .counts import count_words
from .finishing import finishing_of
from .naming import label_of, name_of, part_names, title_of, title_told
from .shots import FilmPlan, Kind, Sample, Shot, SkipLine
from .yarns_told import yarns_told


def film_plan(
    pattern: Pattern, fabric: Fabric, *, terms: System | None = None, sizes: Sequence[Fabric] = (), left: bool = False
) -> FilmPlan:
    """What to film of a worked pattern, in the order of the film.

    An action seen for the first time (a stitch, an increase, a join, a turn, a colour change, the top of a chain …) is filmed close; the
    next row that holds it once more at speed; rows without anything of either are skipped with what one then has. `terms`: the terms
    spoken (the pattern's own if None); `sizes` the fabrics of every size, so that cards show all their counts; `left` for left-handers.
    """
    taker = _Taker(pattern=pattern, terms=terms or pattern.terms, others=_last_rows(sizes, fabric), yarns=yarns_told(pattern))
    shots = [
        _shot(taker, "opening", "The finished piece", pacing.OPENING_S),
        _shot(taker, "materials", "What you need", pacing.MATERIALS_S),
    ]
    if pattern.facts.gauge:
        word = "Gauge" if taker.terms == "US" else "Tension"
        shots.append(_shot(taker, "gauge", word, pacing.GAUGE_S))
    names = part_names(fabric)
    for part, taker.where in zip(fabric.parts, names, strict=True):
        shots += _part(taker, part)
    shots += [_shot(taker, "finishing", one.title, one.seconds, (one.shows,), one.says) for one in finishing_of(pattern, fabric)]
    shots.append(_shot(taker, "ending", "The whole once more", pacing.ENDING_S))
    sizes_named = pattern.facts.size_names
    return FilmPlan(
        title=title_told(pattern),
        terms=taker.terms,
        shots=tuple(shots),
        samples=tuple(taker.samples),
        size=sizes_named[fabric.size].removeprefix("size ") if len(sizes_named) > 1 else "",
        left=left,
    )


@dataclass(slots=True)
class _Taker:
    """What is known while the plan is made: the actions shown close and at speed, the builds shown, the samples needed."""

    pattern: Pattern
    terms: System
    others: Mapping[tuple[int, int], list[RowWork]]
    yarns: Mapping[int, str]
    """The yarn told in words for a written row."""
    close: set[tuple[str, str]] = field(default_factory=set)
    speed: set[tuple[str, str]] = field(default_factory=set)
    builds: dict[object, tuple[str, RowWork]] = field(default_factory=dict)
    samples: list[Sample] = field(default_factory=list)
    number: int = 0
    where: str = ""
    """How the part in hand is called, "" where there is only one."""

    def next(self) -> int:
        self.number += 1
        return self.number

    def colour(self, row: RowWork) -> str:
        """The yarn of a row: what its own words take up, else what is told before it."""
        own = any(isinstance(step, Colour) for step in row.written.steps)
        return colour_of(row) if own else self.yarns.get(row.written.id) or colour_of(row)


def _shot(taker: _Taker, kind: Kind, title: str, seconds: float, shows: tuple[str, ...] = (), says: tuple[str, ...] = ()) -> Shot:
    return Shot(number=taker.next(), kind=kind, title=title, seconds=seconds, shows=shows, says=says)


def _last_rows(sizes: Sequence[Fabric], fabric: Fabric) -> dict[tuple[int, int], list[RowWork]]:
    """(part, written id) → the last worked row of that instruction in every size that has it, where there is more than one size."""
    found: dict[tuple[int, int], list[RowWork]] = {}
    if len(sizes) < 2:
        return found
    for one in sizes:
        for k, part in enumerate(one.parts):
            last = {row.written.id: row for row in part.rows if not row.foundation}
            for written, row in last.items():
                found.setdefault((k, written), []).append(row)
    return found


@dataclass(frozen=True, slots=True)
class _Take:
    """How one worked row is treated."""

    row: RowWork
    kind: Kind
    new: tuple[Action, ...]
    again: tuple[Action, ...]
    build: tuple[object, ...]
    like: tuple[str, RowWork] | None
    """The part and row on camera that is built alike."""
    same: RowWork | None = None
    """The row on camera that the very words of this one tell too ("Rows 3 to 5: …"), of as many stitches."""


def _part(taker: _Taker, part: PartWork) -> Iterator[Shot]:
    takes = list(_takes(taker, part))
    before: RowWork | None = None
    gap = False
    for _, run in groupby(enumerate(takes), key=lambda pair: (pair[1].kind == "skip") or pair[0] + len(takes)):
        group = [take for _, take in run]
        if group[0].kind == "skip":
            yield _skip(taker, part, group)
            gap, before = True, group[-1].row
            continue
        take = group[0]
        number = taker.next()
        if gap and before is not None:
            _sample(taker, part, before, number)
        yield _row_shot(taker, part, take, number, label_of(before) if gap and before is not None else None)
        gap, before = False, take.row


def _takes(taker: _Taker, part: PartWork) -> Iterator[_Take]:
    """Each row as close, speed or skip. What is new is taken from the foundation too (a ring, a chain), with the row that follows it."""
    carried: tuple[Action, ...] = ()
    seen: dict[int, RowWork] = {}
    for row in part.rows:
        below = part.rows[row.below] if row.below is not None else (part.rows[row.index - 1] if row.index else None)
        taken_up = (Action("colour", "at the row's start"),) if _changed_between(taker, row, below) else ()
        actions = tuple({a.key: a for a in (*carried, *taken_up, *actions_of(row, below))}.values())
        if row.foundation:
            carried = actions
            continue
        if only_told(row.written):
            continue
        carried = ()
        new = tuple(a for a in actions if a.key not in taker.close)
        again = tuple(a for a in actions if a.key in taker.close and a.key not in taker.speed and a.family != "finish")
        build = _build(row)
        like = taker.builds.get(build)
        kind: Kind = "close" if new else "speed" if again or like is None else "skip"
        shown = seen.get(row.written.id)
        same = shown if kind == "skip" and shown is not None and shown.counted.total == row.counted.total else None
        yield _Take(row, kind, new, again, build, like, same)
        if kind != "skip":
            seen.setdefault(row.written.id, row)
        taker.close.update(a.key for a in new)
        taker.speed.update(a.key for a in again)
        if kind != "skip":
            taker.builds.setdefault(build, (taker.where, row))


def _changed_between(taker: _Taker, row: RowWork, below: RowWork | None) -> bool:
    """Whether words between two rows tell another yarn for the second: "Change to oat."."""
    if below is None or below.foundation or row.written.id == below.written.id:
        return False
    before, now = taker.yarns.get(below.written.id), taker.yarns.get(row.written.id)
    return before is not None and now is not None and before != now


def _build(row: RowWork) -> tuple[object, ...]:
    """What a row is made of, whatever its width: a run of equal stitches is "one" or "more", and a repeat that comes round is one."""
    st = row.stitches
    runs: list[tuple[object, int]] = []
    before: tuple[int, int] | None = None
    for i, role in enumerate(st.role):
        foot = next(((back, at) for back, at, _ in st.feet_of(i)), None)
        how = next((how for _, _, how in st.feet_of(i)), None)
        one = (role, st.name(i), how, foot is not None and foot == before and role == Role.STITCH)
        before = foot
        if runs and runs[-1][0] == one:
            runs[-1] = (one, 2)
        else:
            runs.append((one, 1))
    return _unrepeated(tuple(runs))


def _unrepeated(seen: tuple[object, ...], most: int = 24) -> tuple[object, ...]:
    """The sequence with each stretch that comes again at once written once; periods up to `most`."""
    out: list[object] = []
    at = 0
    while at < len(seen):
        period = next((p for p in range(1, most + 1) if seen[at : at + p] == seen[at + p : at + 2 * p]), 0)
        if not period:
            out.append(seen[at])
            at += 1
            continue
        body = seen[at : at + period]
        while seen[at : at + period] == body:
            at += period
        out.append(body)
    return tuple(out)


def _row_shot(taker: _Taker, part: PartWork, take: _Take, number: int, sample_at: str | None) -> Shot:
    row, pace = take.row, taker.pattern.facts.pace
    if take.kind == "close":
        frame, stitches = pacing.frame_of(row, take.new)
        seconds = pacing.close_seconds(row, stitches, len(take.new), pace)
    else:
        frame, seconds = _speed_frame(row, pace), pacing.speed_seconds(row, pace)
    shown = [a.words(taker.terms) for a in (take.new if take.kind == "close" else take.again)]
    if take.kind == "close" and take.again:
        shown.append(f"once more at speed: {', '.join(a.words(taker.terms) for a in take.again)}")
        seconds += pacing.AGAIN_S * len(take.again)
    done = _done_after(taker, part, (row,))
    return Shot(
        number=number,
        kind=take.kind,
        part=part.name,
        row=row.written.id,
        rows=(row.label, row.label),
        title=label_of(row),
        where=taker.where,
        new=take.new,
        again=take.again,
        shows=(*(shown or ("its stitches in this order",)), *done),
        does=done,
        frame=frame,
        side=row.side,
        colour=taker.colour(row),
        count=count_words(row, taker.terms),
        counts=_every_size(taker, part, row),
        seconds=seconds + pacing.DOING_S * len(done),
        sample_at=sample_at,
    )


def _speed_frame(row: RowWork, pace: Mapping[str, float]) -> str:
    whole = pacing.row_seconds(row, pace)
    return "at speed, whole" if whole <= pacing.SPEED_MOST_S else f"at speed, {pacing.SPEED_MOST_S:.0f} s of {whole:.0f}"


def _every_size(taker: _Taker, part: PartWork, row: RowWork) -> tuple[str, ...]:
    """The count in each size, where it differs from size to size."""
    k = next((k for k, other in enumerate(taker.pattern.parts) if any(r.id == row.written.id for r in other.rows)), 0)
    rows = taker.others.get((k, row.written.id), [])
    told = tuple(count_words(other, taker.terms) for other in rows)
    return told if len(set(told)) > 1 else ()


def _skip(taker: _Taker, part: PartWork, group: Sequence[_Take]) -> Shot:
    lines = []
    for _, run in groupby(group, key=lambda take: take.row.written.id):
        rows = list(run)
        first, last = rows[0].row, rows[-1].row
        title = title_of(label_of(first), label_of(last))
        count = count_words(last, taker.terms)
        lines.append(SkipLine(row=first.written.id, rows=title, how=_like(taker.where, rows), count=count, total=last.counted.total))
    first, last = group[0].row, group[-1].row
    done = _done_after(taker, part, [take.row for take in group])
    return Shot(
        number=taker.next(),
        kind="skip",
        part=part.name,
        row=last.written.id,
        rows=(first.label, last.label),
        title=title_of(label_of(first), label_of(last)),
        where=taker.where,
        lines=tuple(lines),
        shows=("the card, over the sample", *done),
        does=done,
        side=last.side,
        colour=taker.colour(last),
        count=count_words(last, taker.terms),
        counts=_every_size(taker, part, last),
        seconds=pacing.SKIP_S + pacing.LINE_S * len(lines) + pacing.DOING_S * len(done),
    )


def _done_after(taker: _Taker, part: PartWork, rows: Sequence[RowWork]) -> tuple[str, ...]:
    """What is done behind these rows and must be on camera too: eyes, stuffing, where the tail goes."""
    last = {row.written.id: row.index for row in part.rows}
    ended = [row.written.id for row in rows if last[row.written.id] == row.index]
    told = next((p for p in taker.pattern.parts if any(r.id in ended for r in p.rows)), None)
    found = [words for written in ended for words in told_after(taker.pattern, told, written)] if told is not None else []
    return tuple(f"{words[0].lower()}{words[1:].rstrip('.')}" for words in found)


def _like(here: str, rows: Sequence[_Take]) -> str:
    """ "as Rows 2 and 3": what the words refer to, or else the row on camera that is built alike."""
    written = rows[0].row.written
    refer = next((step for step in written.steps if isinstance(step, Refer)), None)
    if refer is not None and refer.rows and not refer.changes and not refer.part:
        noun = "Round" if rows[0].row.made_in not in ("rows", "passes") else "Row"
        return f"as {_numbers(noun, refer.rows)}"
    own = next((take.same for take in rows if take.same is not None), None)
    if own is not None:
        return f"like {label_of(own)}"
    shown = {take.like[1].written.id: take.like for take in rows if take.like is not None}
    if len(shown) != 1:
        return "as written, with nothing new in them"
    ((where, like),) = shown.values()
    wider = any(take.row.counted.total != like.counted.total for take in rows) and _shaped(like)
    of = f" of {where}" if where != here else ""
    return f"like {label_of(like)}{of}{', with more or fewer stitches between' if wider else ''}"


def _shaped(row: RowWork) -> bool:
    """Whether stitches lie between increases or decreases in it, whose number then changes with the width."""
    return row.offered is not None and row.counted.total != row.offered


def _numbers(noun: str, rows: Sequence[int]) -> str:
    if len(rows) == 1:
        return f"{noun} {rows[0]}"
    if len(rows) == 2:
        return f"{noun}s {rows[0]} and {rows[1]}"
    if list(rows) == list(range(rows[0], rows[-1] + 1)):
        return f"{noun}s {rows[0]} to {rows[-1]}"
    return f"{noun}s {', '.join(map(str, rows[:-1]))} and {rows[-1]}"


def _sample(taker: _Taker, part: PartWork, upto: RowWork, shot: int) -> None:
    pace = taker.pattern.facts.pace
    rows = part.rows[: upto.index + 1]
    alone = sum(pacing.row_seconds(row, pace) for row in rows) / 60
    name = taker.where or name_of(part.name)
    earlier = next((s for s in reversed(taker.samples) if s.part == name), None)
    taker.samples.append(
        Sample(
            part=name,
            at=label_of(upto),
            shot=shot,
            stitches=sum(row.counted.total for row in rows if not row.foundation),
            minutes=round(alone - (earlier.alone if earlier else 0.0), 1),
            alone=round(alone, 1),
        )
    )
