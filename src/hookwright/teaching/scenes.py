"""The spoken words of each shot and its card. Figures stay figures in `sentences`; `spoken` has them in words, as they are said."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby, takewhile

from ..pattern import FLAT, Pattern, Refer, Row
from ..trade.kinds import base
from ..trade.terms import UK_OF, System
from ..trade.terms import name as full_name
from ..working import Fabric, PartWork, RowWork
from ..writing import SPOKEN, RowWords, one_size, settled, write
from .between import told_after
from .cautions import cautions_of
from .edges import Edges, edges_of
from .leftside import left_words
from .shots import FilmPlan, Shot, SkipLine
from .speech import aloud, sentences
from .talk import ending, gauge_talk, opening, what_you_need
from .usual_slips import slip_of

WORDS_A_SECOND, PAUSE_S = 2.5, 0.4
"""150 words a minute, a usual pace of narration; a breath after each sentence (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """What stands on the screen: row, count, hook, colour; "" where there is nothing to say."""

    row: str
    count: str = ""
    hook: str = ""
    colour: str = ""
    note: str = ""

    def __str__(self) -> str:
        return " · ".join(part for part in (self.row, self.count, self.hook, self.colour, self.note) if part)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """One shot with its words. `start`, `end` in seconds of the film; `sentences` with figures, for captions."""

    shot: Shot
    start: float
    end: float
    sentences: tuple[str, ...]
    card: Card

    @property
    def spoken(self) -> tuple[str, ...]:
        """The sentences with numbers in words, as they are said."""
        return tuple(aloud(sentence) for sentence in self.sentences)

    @property
    def talk_seconds(self) -> float:
        return talk_seconds(self.sentences)


def talk_seconds(said: Sequence[str]) -> float:
    return sum(len(aloud(s).replace("-", " ").split()) for s in said) / WORDS_A_SECOND + PAUSE_S * len(said)


def script(
    pattern: Pattern, fabric: Fabric, plan: FilmPlan, *, starts: Mapping[int, float] | None = None, hours: float = 0.0
) -> tuple[Scene, ...]:
    """What is said in each shot, timed one after the other; a shot lasts at least as long as its words.

    `starts`: shot number → second at which the shot begins in the film as it was cut; shots it does not name follow on the one before.
    """
    speaker = _Speaker.of(pattern, fabric, plan, hours)
    scenes: list[Scene] = []
    at = 0.0
    known = dict(starts or {})
    for k, shot in enumerate(plan.shots):
        said = tuple(speaker.say(shot))
        begin = known.get(shot.number, at)
        length = max(shot.seconds, talk_seconds(said))
        following = plan.shots[k + 1].number if k + 1 < len(plan.shots) else None
        end = known[following] if following in known and known[following] > begin else begin + length
        scenes.append(Scene(shot=shot, start=round(begin, 3), end=round(end, 3), sentences=said, card=speaker.card(shot)))
        at = end
    return tuple(scenes)


@dataclass(slots=True)
class _Speaker:
    """What has been said so far, so that nothing is explained twice."""

    pattern: Pattern
    fabric: Fabric
    plan: FilmPlan
    hours: float
    rows: Mapping[int, RowWords]
    both: set[str] = field(default_factory=set)
    edges: dict[str, Edges] = field(default_factory=dict)
    slips: set[str] = field(default_factory=set)
    left: set[str] = field(default_factory=set)

    @classmethod
    def of(cls, pattern: Pattern, fabric: Fabric, plan: FilmPlan, hours: float) -> _Speaker:
        alone = one_size(settled(pattern, [fabric] * pattern.sizes), fabric.size)
        written = write(alone, terms=plan.terms, style=SPOKEN)
        return cls(pattern, fabric, plan, hours, {row.id: row for part in written.parts for row in part.rows})

    def say(self, shot: Shot) -> Iterator[str]:
        if shot.kind in ("close", "speed"):
            yield from self._row(shot)
        elif shot.kind == "skip":
            yield from self._skip(shot)
        elif shot.kind == "opening":
            yield from opening(self.pattern, self.plan)
        elif shot.kind == "materials":
            yield from what_you_need(self.pattern)
            yield from cautions_of(self.pattern, hours=self.hours)
        elif shot.kind == "gauge":
            yield from gauge_talk(self.pattern, self.plan.terms)
        elif shot.kind == "finishing":
            yield f"{shot.title}."
            yield from shot.says
        else:
            yield from ending(self.pattern, self.plan)

    def _row(self, shot: Shot) -> Iterator[str]:
        part, row = self._worked(shot)
        yield from self._part(shot, part)
        yield f"{shot.title}."
        yield from self._both_names(row)
        yield from self._foundation(part, row)
        yield from self._instruction(part, row)
        if shot.number == self._first_row():
            yield _facing(row)
        edges = edges_of(part, row)
        new_top = any(action.key == ("place", "top of the chain") for action in shot.new)
        if edges != self.edges.get(part.name) or new_top:
            yield from edges.words(row, self.plan.terms)
        self.edges[part.name] = edges
        if shot.kind == "close":
            yield from self._usual_slip(shot, edges)
        yield from left_words(shot, row, self.left, asked=self.plan.left)
        yield from self._count(shot)
        yield from self._after(part, row, row.written.id)

    def _instruction(self, part: PartWork, row: RowWork) -> Iterator[str]:
        """The row in words. Told as another one ("as Row 2") it keeps its own yarn; what ends the work is said of the last row only."""
        told = self._told(part, row)
        words = self.rows.get(told.id)
        said = list(sentences(words.steps)) if words is not None else []
        if told.id != row.written.id:
            own = list(sentences(self.rows[row.written.id].steps)) if row.written.id in self.rows else []
            lead = list(takewhile(_ENDS.match, own))
            said = [*lead, *(one for one in said if not _ENDS.match(one)), *(one for one in own[len(lead) :] if _ENDS.match(one))]
        if row.index < _last_index(part, row.written.id):
            while said and _ENDS.match(said[-1]):
                said.pop()
        for k, one in enumerate(said):
            yarn = _YARN.match(one)
            yield one if yarn is None else self._yarn(yarn[1], first=row.index <= 1, last=any(_tells_work(s) for s in said[:k]))

    def _yarn(self, name: str, *, first: bool, last: bool) -> str:
        """A yarn taken up, with its colour; at the end of a row in the last pull-through, where the change does not show."""
        known = self.pattern.facts.yarns.get(name)
        which = f"yarn {name}" if len(name) <= 2 else name
        which += f", {known.colour}" if known is not None and known.colour and known.colour != name else ""
        if last:
            return f"Change to {which}{',' if ',' in which else ''} in the last pull-through of the last stitch."
        return f"{'Take' if first else 'Change to'} {which}."

    def _skip(self, shot: Shot) -> Iterator[str]:
        part, row = self._worked(shot)
        yield from self._part(shot, part)
        for line in shot.lines:
            yield from self._both_names(next(r for r in part.rows if r.written.id == line.row and not r.foundation))
            yield f"{line.rows}: {self._doing(line)}."
            if line.count:
                yield f"At the end of {_this(_last_of(line.rows))} you have {line.count}."
            yield from self._after(part, row, line.row)

    def _doing(self, line: SkipLine) -> str:
        """What is said of skipped rows: what they are like, or their own words where these hold what no row on camera holds."""
        them = "them" if line.rows.partition(" ")[0].endswith("s") else "it"
        own = self.rows.get(line.row)
        if "between" in line.how and own is not None:
            words = " ".join(sentences(own.steps)).rstrip(".")
            return words[:1].lower() + words[1:]
        return f"work {them} {line.how.removesuffix(', with nothing new in them')}"

    def _count(self, shot: Shot) -> Iterator[str]:
        if shot.counts:
            yield f"At the end of {_this(shot.title)} you have {shot.count} in this size; the other sizes stand on the card."
        elif shot.count:
            yield f"At the end of {_this(shot.title)} you have {shot.count}."

    def _part(self, shot: Shot, part: PartWork) -> Iterator[str]:
        """The part's name when its first row comes, and how many of it are made."""
        first = next((s for s in self.plan.shots if s.row is not None and s.where == shot.where), None)
        if first is not shot:
            return
        if shot.where:
            yield f"{shot.where}."
        if part.copies > 1:
            yield f"Make {part.copies} of these, all alike." if part.copies > 2 else "Make 2 of these, both alike."

    def _after(self, part: PartWork, row: RowWork, written: int) -> Iterator[str]:
        """What the pattern tells before the next row, once the last row of this instruction has been worked."""
        last = _last_index(part, written)
        told = next((p for p in self.pattern.parts if any(r.id == written for r in p.rows)), None)
        if told is not None and 0 <= last <= row.index:
            yield from told_after(self.pattern, told, written)

    def _first_row(self) -> int:
        return next((s.number for s in self.plan.shots if s.row is not None), 0)

    def _worked(self, shot: Shot) -> tuple[PartWork, RowWork]:
        for part in self.fabric.parts:
            for row in part.rows:
                if row.written.id == shot.row and row.label == shot.rows[1] and not row.foundation:
                    return part, row
        raise LookupError(f"shot {shot.number} belongs to no row of this fabric")

    def _told(self, part: PartWork, row: RowWork) -> Row:
        """The written instruction whose words tell this row: what "repeat Rows 2 and 3" refers to."""
        written = row.written
        for _ in range(4):
            refer = next((step for step in written.steps if isinstance(step, Refer)), None)
            if refer is None or not refer.rows or refer.changes or refer.part:
                return written
            same = [other for other in part.rows if other.written.id == row.written.id]
            number = refer.rows[same.index(row) % len(refer.rows)] if row in same else refer.rows[0]
            target = next((other for other in part.rows if other.number == number and not other.foundation), None)
            if target is None or target is row:
                return written
            row, written = target, target.written
        return written

    def _foundation(self, part: PartWork, row: RowWork) -> Iterator[str]:
        """The words that come before the first row of a part, where they stand in an instruction of their own."""
        if row.index == 0 or not part.rows[row.index - 1].foundation:
            return
        before = part.rows[row.index - 1]
        words = self.rows.get(before.written.id)
        if before.written.id != row.written.id and words is not None:
            yield from sentences(words.steps)

    def _both_names(self, row: RowWork) -> Iterator[str]:
        other: System = "UK" if self.plan.terms == "US" else "US"
        for kind in dict.fromkeys(base(row.stitches.name(i)) for i in row.stitches.counted()):
            if kind in self.both or kind not in UK_OF or kind in ("ch", "sl st"):
                continue
            self.both.add(kind)
            yield f"{full_name(kind, self.plan.terms).capitalize()}: in {other} terms that is {full_name(kind, other)}."

    def _usual_slip(self, shot: Shot, edges: Edges) -> Iterator[str]:
        slip = slip_of(shot.new, edges, self.slips)
        if slip is not None:
            self.slips.add(slip.at)
            yield f"The slip made most often here: {slip.slip}."
            yield f"How it looks: {slip.looks}."

    def card(self, shot: Shot) -> Card:
        facts = self.pattern.facts
        hook = f"hook {facts.hook_mm:g} mm" if facts.hook_mm and shot.kind in ("close", "speed", "skip", "materials", "gauge") else ""
        yarn = facts.yarns.get(shot.colour)
        several = len(facts.yarns) > 1 or len({one.colour for one in self.plan.shots if one.colour}) > 1
        colour = (f"{shot.colour}: {yarn.colour}" if yarn is not None and yarn.colour else shot.colour) if several else ""
        count = shot.count if not shot.counts else " / ".join(shot.counts)
        return Card(row=shot.full_title, count=count, hook=hook, colour=colour, note="; ".join(_skipped(shot.lines)))


_ENDS = re.compile(r"^(?:Fasten off|Take yarn )")
_YARN = re.compile(r"^Take yarn (.+)\.$")


def _tells_work(said: str) -> bool:
    """Whether a sentence of the row tells stitches: what comes before is at the row's beginning."""
    return not said.startswith(("Take yarn", "Turn", "Chain", "Make a magic ring"))


def _facing(row: RowWork) -> str:
    side = "right" if row.side == "RS" else "wrong"
    if row.made_in not in FLAT and not row.turned:
        return f"The {side} side faces you all the way round."
    return f"As you work this row the {side} side faces you."


def _last_index(part: PartWork, written: int) -> int:
    return max((row.index for row in part.rows if row.written.id == written), default=-1)


def _skipped(lines: Sequence[SkipLine]) -> Iterator[str]:
    """What a skip card says: rows that are worked alike told together, each with its count where there is more than one."""
    for how, run in groupby(lines, key=lambda line: line.how):
        same = list(run)
        rows = same[0].rows if len(lines) == 1 else ", ".join(f"{line.rows} ({line.total})" for line in same)
        yield f"{rows} {how}" if len(lines) > 1 else how


def _this(title: str) -> str:
    """A row as it is spoken of when it is done: "Round 4", and "this round" for one without a number."""
    if any(letter.isdigit() for letter in title):
        return title
    return "this round" if "round" in title.lower() else "this row"


def _last_of(rows: str) -> str:
    """The last row of a title: "Rounds 4 to 8" → "Round 8"."""
    noun, _, rest = rows.partition(" ")
    return f"{noun.rstrip('s')} {rest.split()[-1]}" if " " in rest else rows
