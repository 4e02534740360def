"""How many places steps ask for, as far as the words alone tell: what a repeat must leave for the steps after it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from ..pattern import Chain, Choice, Even, Join, Leave, Make, Part, Place, Repeat, Shape, Skip, Step, Together, once
from ..trade.kinds import FOUNDATION_STITCHES, base, closes
from .counting import SPACE_WORDS
from .stretch import LONG


class Need(NamedTuple):
    """Stitches, spaces and whole groups (shells, tiles) asked for."""

    st: int
    sp: int
    groups: int = 0

    def plus(self, other: Need, times: int = 1) -> Need:
        return Need(self.st + other.st * times, self.sp + other.sp * times, self.groups + other.groups * times)


GROUP_WORDS = frozenset(("shell", "V-st", "fan", "group", "cl", "picot", "petal", "cluster", "scallop"))
"""Words for several stitches in one place; a stitch "into" one goes into its middle."""

NONE = Need(0, 0)
_FREE = frozenset(("same", "ring", "hook", "skipped", "row_end", "marked", "from_hook", "under"))
_ANYWHERE = frozenset(("corner",))
"""Places that may be a stitch or a space, as the row below has it."""


def is_space(what: str) -> bool:
    """Whether the words name a chain space.

    >>> is_space("ch-2 sp"), is_space("loop"), is_space("dc"), is_space("ch")
    (True, True, False, False)
    """
    return what in SPACE_WORDS or (what.startswith("ch-") and what.endswith((" sp", " loop", " lp")))


EVEN_ON = {3: "dc", 4: "tr"}
"""Chains that none begins a row of single crochet with."""


def need_of(steps: Iterable[Step], size: int, plain: bool = True) -> Need:
    """Places that `steps` ask for; a part that takes whatever is left asks for none. `plain`: chains are places like any other."""
    total = NONE
    for step in steps:
        total = total.plus(_need(step, size, plain))
    return total


def fits_any(steps: Iterable[Step]) -> bool:
    """Whether all that is worked goes into whatever is there ("sc in each st across"), so that it fits a row of any width."""
    worked = [step for step in steps if isinstance(step, (Make, Together, Repeat, Skip, Shape, Even))]
    return bool(worked) and all(isinstance(step, Make) and step.places == "rest" and step.at.where == "next" for step in worked)


class Needs:
    """What the ends of one row's steps ask for; those of long rows are added up once, from behind."""

    __slots__ = ("_known", "_plain", "_size")

    def __init__(self, size: int, plain: bool) -> None:
        self._size = size
        self._plain = plain
        self._known: dict[tuple[int, int, int], Need] = {}

    def of(self, tail: Sequence[Step]) -> Need:
        """Places that the steps ask for, as `need_of` tells it."""
        n = len(tail)
        if n < LONG:
            return need_of(tail, self._size, self._plain)
        key = (id(tail[0]), id(tail[-1]), n)
        if key not in self._known:
            total, last = NONE, id(tail[-1])
            for k in range(n - 1, -1, -1):
                total = total.plus(_need(tail[k], self._size, self._plain))
                self._known[(id(tail[k]), last, n - k)] = total
        return self._known[key]


def _in(place: Place, number: int) -> Need:
    if place.where in _FREE or place.below or place.what in _ANYWHERE:
        return NONE
    if place.row and place.where == "next":
        return NONE  # "sc in each st across, sc in 5 unworked sts of Row 2": these lie in a row further down
    if place.where == "first" and is_space(place.what) and not place.of:
        return NONE  # told after others it is the one the round began in
    if place.where == "last" and place.what in GROUP_WORDS:
        return Need(0, 0, number)
    return Need(0, number) if is_space(place.what) else Need(number, 0)


def _need(step: Step, size: int, plain: bool) -> Need:
    if isinstance(step, Make):
        if step.places == "rest" or step.stitch in FOUNDATION_STITCHES:
            return NONE
        number = (step.places.at(size) or 0) * max(step.closes, closes(step.stitch))
        if not (step.each.at(size) or 0):
            return NONE
        return _in(step.at, number)
    if isinstance(step, Together):
        return NONE if step.places == "rest" else _in(step.at, step.places.at(size) or 0)
    if isinstance(step, Skip):
        if step.what == "ch" and not plain:
            return NONE  # "skip 3 chs of the turning ch": under it lies no stitch
        number = step.number.at(size) or 0
        return Need(0, number) if is_space(step.what) else Need(number, 0)
    if isinstance(step, Leave):
        return Need((step.number.at(size) or 0) if step.number else 0, 0)
    if isinstance(step, Repeat):
        if step.times.kind == "n":
            return NONE.plus(need_of(step.body, size, plain), min(step.times.number.at(size) or 0, 1_000_000))
        if step.times.kind == "more":
            return NONE.plus(need_of(step.body, size, plain), min((step.times.number.at(size) or 0) + 1, 1_000_000))
        return NONE
    if isinstance(step, Choice):
        return need_of(step.answers[0], size, plain) if step.answers else NONE
    return NONE


def first_stitch(steps: Sequence[Step]) -> str | None:
    """The plain kind of the first stitch that `steps` work (slip stitches passed over)."""
    for step in steps:
        found: str | None = None
        if isinstance(step, Make):
            found = base(step.main or step.stitch)
        elif isinstance(step, (Together, Repeat)):
            found = first_stitch(step.body)
        elif isinstance(step, Choice) and step.answers:
            found = first_stitch(step.answers[0])
        elif isinstance(step, Even):
            found = step.stitch
        elif isinstance(step, Join) and step.closing:
            found = first_stitch(step.closing)
        if found and found not in ("sl st", "inc", "dec", "picot"):
            return found
    return None


def main_stitch(part: Part) -> str:
    """The stitch a part is chiefly worked in, "" when its words name none."""
    seen: dict[str, int] = {}
    for row in part.rows:
        stitch = _begins_with(row.steps)
        if stitch:
            seen[stitch] = seen.get(stitch, 0) + 1
    return max(seen, key=lambda k: (seen[k], k)) if seen else ""


_begins_with = once(first_stitch)


def asks_for_work(steps: Iterable[Step]) -> bool:
    """Whether any step works a stitch."""
    return any(
        isinstance(step, (Make, Even, Shape)) or (isinstance(step, (Together, Repeat)) and asks_for_work(step.body))
        or (isinstance(step, Choice) and any(asks_for_work(answer) for answer in step.answers)) for step in steps
    )  # fmt: skip


def chains_in(steps: Iterable[Step]) -> int:
    """The commonest length of chain inside the steps' repeats, 0 when there is none."""
    for step in steps:
        if isinstance(step, Chain):
            return step.number.at(0) or 0
        if isinstance(step, (Repeat, Together)):
            inner = chains_in(step.body)
            if inner:
                return inner
    return 0


def chains_of(what: str) -> int | None:
    """The number in "ch-2 sp"; None when no number is told.

    >>> chains_of("ch-12 sp"), chains_of("sp")
    (12, None)
    """
    digits = what[3:].split(" ")[0] if what.startswith("ch-") else ""
    return int(digits) if digits.isdigit() else None
