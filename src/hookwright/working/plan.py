"""From rows as written to rows as worked: ranges laid out, references followed, starting chains and turns put where they belong."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import takewhile

from ..pattern import (
    LIMITS,
    Aside,
    Chain,
    Colour,
    Count,
    Even,
    Join,
    Part,
    Refer,
    Repeat,
    Row,
    Span,
    Step,
    Turn,
    Until,
    founds,
)  # fmt: skip
from .changes import changed, chart_turned, ends_in_chain, lifted, recoloured
from .edges_grown import edges_grown
from .established import as_established, put_in_again
from .finished_as import left_of
from .following import part_dues, sections_of, whole_part
from .growing import grown, longer_between
from .in_pattern import pattern_rows, told_as_pattern, widened
from .needs import asks_for_work
from .spirals import without_last_slips

MAX_FOLLOWED = 12
"""How many references are followed one after another before they are called circular."""


@dataclass(frozen=True, slots=True)
class Astray:
    """A reference that leads nowhere: its words, what is wrong, and what there is instead."""

    span: Span
    message: str
    working: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Due:
    """One row that is due: the instruction it comes from, its number, which of the instruction's rows it is."""

    row: Row
    label: str
    number: int | None
    k: int
    of: int
    steps: tuple[Step, ...]
    stated: tuple[Count, ...]
    until: Until | None = None
    wrong_reference: Astray | None = None
    stretched: bool = False
    from_row: str = ""
    written: Row | None = None
    """The instruction as written, where it stands for a row of another piece."""
    follow: Follow | None = None
    """Follows references in the piece it comes from."""


_MANNER = re.compile(
    r"(?i)\b(?:cont(?:inue|inuing|\.)?|go(?:ing)?\son|carry(?:ing)?\son|keep(?:ing)?|increas\w+|decreas\w+)\b[^.;]{0,40}\b"
    r"(?:manner|way|fashion|established|like\s(?:this|that)|thus)\b"
)
"""Words by which rows go on as they went until now."""


def noun_of(row: Row) -> str:
    return "Rnd" if row.noun == "round" else "Row"


class Follow:
    """Follows references from row to row inside a part (and to other parts by name)."""

    def __init__(
        self, part: Part, parts: Sequence[Part], size: int, written: dict[tuple[Step, ...], tuple[Step, ...]],
        whole: dict[tuple[int, ...], tuple[Step, ...]], alike: dict[int, tuple[tuple[Step, ...], tuple[Step, ...]]],
        alone: dict[int, Due], source: str = "", depth: int = 0,
    ) -> None:  # fmt: skip
        self.part, self.parts, self.size, self.source, self.depth = part, parts, size, source, depth
        self.own = frozenset(row.id for row in part.rows)
        self.by_number: dict[int, Row] = {}
        self.order: list[tuple[Row, int | None]] = []
        self.first_worked: Row | None = None
        self._cache: dict[tuple[int, int], tuple[tuple[Step, ...], Astray | None, str]] = {}
        self._written, self._whole, self._alike, self._alone = written, whole, alike, alone

    def into(self, part: Part) -> Follow:
        """A follower for another piece, that this one refers to."""
        return Follow(part, self.parts, self.size, self._written, self._whole, self._alike, self._alone, self.source, self.depth + 1)

    def saw(self, row: Row, number: int | None) -> None:
        """Remember a row that has been laid out, for later references."""
        known = self.by_number.get(number) if number is not None else None
        if number is not None and (known is None or (known.id not in self.own and row.id in self.own)):
            self.by_number[number] = row  # a row of its own, before one of a piece that it was told by
        self.order.append((row, number))
        if self.first_worked is None and asks_for_work(row.steps):
            self.first_worked = row

    def steps(self, row: Row, k: int) -> tuple[tuple[Step, ...], Astray | None, str]:
        """The steps of the k-th row of an instruction, references replaced by what they mean; a wrong reference; the row meant."""
        if told_as_pattern(row):
            return self._in_pattern(row, k)
        key = self._key(row, k)
        if key not in self._cache:
            self._cache[key] = self._follow(row, k, 0)
        return self._cache[key]

    def _key(self, row: Row, k: int) -> tuple[int, int]:
        refer = next((s for s in row.steps if isinstance(s, Refer) and not s.rest), None)
        period = (len(refer.rows) or refer.last or (len(row.numbers_at(self.size)) if refer.part else 0)) if refer is not None else 1
        grows = refer is not None and (refer.grow or refer.longer or goes_on(row, refer) or self._in_manner(row, refer))
        return row.id, k if grows else k % max(period, 1)

    def _known(self, row: Row, k: int, depth: int) -> tuple[tuple[Step, ...], Astray | None, str]:
        """The steps of a row that another one repeats: those it was laid out with, however many rows each repeat the one before."""
        known = self._cache.get(self._key(row, k))
        return known if known is not None and known[1] is None else self._follow(row, k, depth)

    def alone(self, row: Row) -> Due | None:
        """What is due of a row of one number that refers to no other: the same whatever stands before it. None of any other row."""
        due = self._alone.get(id(row))
        if due is None:
            numbers = row.numbers_at(self.size)
            if len(numbers) != 1 or any(isinstance(step, (Refer, Even)) for step in row.steps):
                return None
            due = Due(row, f"{noun_of(row)} {numbers[0]}", numbers[0], 0, 1, self._one(row.steps), row.stated, row.until)
            self._alone[id(row)] = due
        return due

    def _in_pattern(self, row: Row, k: int) -> tuple[tuple[Step, ...], Astray | None, str]:
        """ "Work even in pattern": the lace rows before, in turn; a plain fabric's row as it is told."""
        first = next((i for i, (r, _) in enumerate(self.order) if r.id == row.id), len(self.order))
        lace = pattern_rows([r for r, _ in self.order[:first]])
        if not lace:
            return self._written.setdefault(row.steps, row.steps), None, ""
        meant = lace[k % len(lace)]
        inner, wrong, _ = self._follow(meant, 0, 0)
        key = (row.id, -1 - k % len(lace))
        if key not in self._cache:
            self._cache[key] = (self.shared(widened(inner, row)), wrong, meant.label)
        return self._cache[key]

    def _follow(self, row: Row, k: int, depth: int) -> tuple[tuple[Step, ...], Astray | None, str]:
        refer = next((s for s in row.steps if isinstance(s, Refer) and not s.rest), None)
        if refer is None or refer.upto == "side":
            return self._one(row.steps), None, ""
        if depth > MAX_FOLLOWED:
            working = (f"{MAX_FOLLOWED} references were followed one after another, and none of them came to words that can be worked.",)
            return (), Astray(refer.span, "This reference goes round in a circle", working), ""
        own = [n for n in sorted(set(refer.rows) & set(row.numbers_at(self.size))) if self.by_number.get(n, row).id == row.id]
        if refer.part is None and own:  # (numbers begun anew for a second size mean the rows of the first telling)
            itself = ", ".join(str(n) for n in own)
            working = (f"The rows to repeat are {_numbers(refer.rows)}, and {itself} is this row: it has no words of its own.",)
            return (), Astray(refer.span, f"{noun_of(row)} {itself} is told as a repeat of itself", working), ""
        target, number = self._target(refer, row, k)
        if target is None:
            what = f"{noun_of(row)} {number}" if number else "that row"
            return (), Astray(refer.span, f"There is no {what} before this row to repeat", (self._before(row),)), ""
        inner, wrong, _ = self._known(target, _index_in(target, number, self.size), depth + 1)
        before = tuple(s for s in row.steps[: row.steps.index(refer)])
        after = tuple(s for s in row.steps[row.steps.index(refer) + 1 :])
        begins = refer.part is not None and not self.order and not any(isinstance(s, Chain) for s in before)
        kept = tuple(s for s in inner if begins or not (isinstance(s, Chain) and s.foundation))
        if refer.upto == "beginning":
            kept = tuple(takewhile(lambda step: not isinstance(step, Repeat), kept))  # "begin as in last round, * …"
        if refer.upto == "end":
            kept = left_of(kept, before, self.size)  # "…, finish same as 2nd row"
        before, kept = recoloured(before, kept)
        back = len(refer.rows) > 1 and refer.rows[0] > refer.rows[-1]
        kept = chart_turned(kept) if back else kept
        if refer.part is None and target is self.first_worked:
            kept = lifted(kept, "any" if back else "st")
        if refer.from_star and any(not isinstance(s, Aside) for s in before):
            kept = kept[next((at for at, s in enumerate(kept) if isinstance(s, Repeat)), 0) :]
        again = k // max(len(refer.rows) or refer.last, 1) + 1
        before_it = self._as_far_before(row, refer, k) if refer.grow or goes_on(row, refer) or self._in_manner(row, refer) else None
        onward = as_established(before_it, kept, again) if before_it is not None else None
        if refer.grow > 0 and edges_grown(kept) is not None:
            onward = kept  # "each side gaining 1 group": its units go on to the corners however long the sides are
        if onward is None and before_it is not None and refer.grow > 0:
            onward = put_in_again(before_it, kept, again)
        kept = grown(kept, refer.grow * again) if onward is None else onward
        kept = longer_between(kept, refer.longer * again) if refer.longer else kept
        told = row.rows_count.at(self.size) if row.rows_count is not None and not row.numbers else None
        if told and k < told - 1 and ends_in_chain(refer, after):
            return self.shared((*before, *kept)), wrong, f"{noun_of(target)} {number}" if number else target.label
        steps = (*before, *changed(kept, refer), *after)
        return self.shared(steps), wrong, f"{noun_of(target)} {number}" if number else target.label

    def _in_manner(self, row: Row, refer: Refer) -> bool:
        """ "Rnds 5-7: Continue in this manner.": as the last ones went on, and not the last one over again."""
        return refer.last == 1 and not refer.rows and refer.part is None and bool(_MANNER.search(row.span.of(self.source)))

    def _as_far_before(self, row: Row, refer: Refer, k: int) -> tuple[Step, ...] | None:
        """The steps of the row as many rows before the one repeated as are repeated."""
        back = refer.last or 1
        first = next((i for i, (r, _) in enumerate(self.order) if r.id == row.id), len(self.order))
        at = first - 2 * back + k % back
        if refer.rows or refer.part is not None or at < 0:
            return None
        earlier, number = self.order[at]
        return self._known(earlier, _index_in(earlier, number, self.size), 1)[0]

    def _before(self, row: Row) -> str:
        known = sorted(number for number, other in self.by_number.items() if other.id != row.id)
        return f"Before it the numbers {_numbers(known)} are used." if known else "No numbered row stands before it."

    def _one(self, steps: tuple[Step, ...]) -> tuple[Step, ...]:
        """One tuple for equal rows; the very row met before is known by its id."""
        known = self._alike.get(id(steps))
        if known is None:
            known = self._alike[id(steps)] = (steps, self._written.setdefault(steps, steps))
        return known[1]

    def shared(self, steps: tuple[Step, ...]) -> tuple[Step, ...]:
        """One tuple for equal lists of the same steps, so that the row cache knows them again."""
        return self._whole.setdefault(tuple(id(s) for s in steps), steps)

    def _target(self, refer: Refer, row: Row, k: int) -> tuple[Row | None, int | None]:
        if refer.part is not None:
            numbers = row.numbers_at(self.size)
            return self._in_part(refer, k, numbers[k] if k < len(numbers) else None)
        if refer.rows:
            number = refer.rows[k % len(refer.rows)]
            return self.by_number.get(number) or self._in_earlier_part(number), number
        back = refer.last or 1
        first = next((i for i, (r, _) in enumerate(self.order) if r.id == row.id), len(self.order))
        earlier = self.order[:first]
        if len(earlier) < back:
            return None, None
        return earlier[len(earlier) - back + k % back]

    def _in_earlier_part(self, number: int) -> Row | None:
        """The row of that number in the nearest part before this one, where this one has not begun a numbering of its own."""
        if self.by_number and min(self.by_number) <= number:
            return self._in_followed_part(number)
        before: list[Row] = []
        for part in self.parts:
            if part is self.part:
                break
            before += [row for row in part.rows if number in row.numbers_at(self.size)]
        return before[-1] if before else None

    def _in_followed_part(self, number: int) -> Row | None:
        """The row of that number in the piece that this one was told to be worked as so far ("Work Rnds 1-3 as for the first")."""
        own = {row.id for row in self.part.rows}
        borrowed = {row.id for row, _ in self.order} - own
        part = next((one for one in self.parts if one is not self.part and any(row.id in borrowed for row in one.rows)), None)
        return next((row for row in part.rows if number in row.numbers_at(self.size)), None) if part is not None else None

    def _in_part(self, refer: Refer, k: int, own: int | None) -> tuple[Row | None, int | None]:
        found: tuple[Row | None, int | None] = (None, refer.rows[0] if refer.rows else None)
        for part in sections_of(refer.part or "", self.parts, self.part):
            numbered = {n: r for r in part.rows for n in r.numbers_at(self.size)}
            wanted = refer.rows[k % len(refer.rows)] if refer.rows else own or min(numbered, default=None)
            if wanted in numbered:
                found = numbered[wanted], wanted
                if part.name.lower() == self.part.name.lower():
                    break  # of several sections the one of the same name, else the last that has such a row
            elif found[0] is None:
                found = None, wanted
        return found


def goes_on(row: Row, refer: Refer) -> bool:
    """Whether the rows are told to go on until so many stitches are there, as the last ones did."""
    return not refer.rows and refer.part is None and row.until is not None and row.until.stitches is not None


def _numbers(numbers: Sequence[int]) -> str:
    """Row numbers in a sentence: "3", "1 and 2", "2 to 9".

    >>> _numbers((7, 8, 9)), _numbers((1, 4)), _numbers((1, 2, 5))
    ('7 to 9', '1 and 4', '1, 2 and 5')
    """
    if len(numbers) > 2 and list(numbers) == list(range(numbers[0], numbers[-1] + 1)):
        return f"{numbers[0]} to {numbers[-1]}"
    told = [str(number) for number in numbers]
    return told[0] if len(told) == 1 else f"{', '.join(told[:-1])} and {told[-1]}"


def _index_in(row: Row, number: int | None, size: int) -> int:
    numbers = row.numbers_at(size)
    return numbers.index(number) if number in numbers else 0


def lay_out(part: Part, follow: Follow, size: int) -> Iterator[Due]:
    """Every row of a part that is due in `size`, in order."""
    counter: int | None = None
    for row in part.rows:
        if row.only is not None and size not in row.only:
            continue
        alone = follow.alone(row)
        if alone is not None:
            yield alone
            follow.saw(row, alone.number)
            counter = alone.number
            continue
        meant_part = whole_part(row)
        dues = part_dues(row, meant_part, follow, counter) if meant_part is not None else []
        for due in dues:
            yield due
            follow.saw(due.row, due.number)
            counter = due.number if due.number is not None else counter
        if dues:
            continue
        numbers: tuple[int | None, ...] = row.numbers_at(size)
        told = row.rows_count.at(size) if row.rows_count is not None else None
        if not numbers:
            if told is not None and told <= 0:
                continue
            told = None if told is None else min(told, LIMITS.rows + 1)
            if told is not None and counter is not None:
                numbers = tuple(range(counter + 1, counter + 1 + told))
            else:
                numbers = (None,) * (told or 1)
        until, stated = (row.until, row.stated) if len(row.numbers_at(size)) < 2 else (None, _end_stated(row))
        for k, number in enumerate(numbers):
            steps, wrong, meant = follow.steps(row, k)
            if row.made_in == "spiral" and k + 1 < len(numbers):
                steps = follow.shared(without_last_slips(steps))
            if k and any(map(founds, steps)):
                steps = follow.shared(tuple(step for step in steps if not founds(step)))  # the chain is made once
            if k + 1 < len(numbers):
                steps = follow.shared(_without_last_change(steps))
            label = f"{noun_of(row)} {number}" if number is not None else row.label or noun_of(row)
            yield Due(row, label, number, k, len(numbers), steps, stated, until, wrong, from_row=meant)
            follow.saw(row, number)
            if number is not None:
                counter = number


def _end_stated(row: Row) -> tuple[Count, ...]:
    """What rows told by their numbers come to: the numbers say how many they are, and "until 6 sts remain" is the count of the last."""
    told = row.until
    if row.stated or told is None or told.stitches is None or told.what != "st":
        return row.stated
    return (Count(number=told.stitches, span=told.span),)


def _without_last_change(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps of a row that is worked again at once, without the one yarn taken up at its end: "Rows 2-5: sc across, change to B" changes
    behind the last of these rows, since after the first B would be in hand already."""
    if not isinstance(steps[-1] if steps else None, (Colour, Aside, Turn, Join)) or sum(isinstance(s, Colour) for s in steps) != 1:
        return steps
    at, change = next((i, s) for i, s in enumerate(steps) if isinstance(s, Colour))
    if not asks_for_work(steps[:at]) or change.join_in or any(not isinstance(s, (Aside, Turn, Join)) for s in steps[at + 1 :]):
        return steps
    return (*steps[:at], *steps[at + 1 :])
