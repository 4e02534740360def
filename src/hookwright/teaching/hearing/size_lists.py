"""Numbers told of all sizes at once, "sixty for the small, sixty-eight, seventy-eight for the large": each held against its size."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ...pattern import Chain, Make, Repeat, Sized, Skip
from ...pattern.walking import inside
from ...working import Fabric
from .count_slips import other_size
from .excuses import put_right
from .figures import sound_alike
from .findings import Heard, Slip
from .segments import Speech, Stretch
from .tokens import Token

APART = 14
"""So many words at most stand between the numbers of two sizes (ours)."""
NEAR, NEAR_SHARE = 4, 0.12
"""Farther than this, or than this share of it, a number is of something else (ours)."""
SURE, OF_TWO, LOST = 0.75, 0.6, 0.3
"""How surely one number of the list is wrong: where two sizes or more are told rightly, where one is, and where a machine may have written
it for the right one (ours)."""


@dataclass(frozen=True, slots=True)
class Listed:
    """What the pattern states for each size of one row: a count, or a number of its instruction."""

    values: tuple[int, ...]
    count: bool
    again: bool = False
    """Whether it is how often a repeat is worked besides its first time."""


def size_list_slips(speech: Speech, sizes: Sequence[Fabric], names: frozenset[str]) -> Iterator[Heard]:
    """Where all sizes but one are told rightly, in their order; of two sizes, where one is named beside (by the pattern's `names`)."""
    for stretch in speech.stretches if len(sizes) > 1 else ():
        if stretch.several:
            continue
        for heard, k in _of_row(stretch, speech.tokens, len(sizes)):
            if not heard.doubtful and (len(sizes) > 2 or other_size(speech, k, names)):
                yield heard


def _of_row(stretch: Stretch, tokens: Sequence[Token], sizes: int) -> Iterator[tuple[Heard, int]]:
    said = [k for k in range(stretch.begins, stretch.end) if tokens[k].kind == "num"]
    every = _listed(stretch, sizes)
    known = {n for one in every if not one.again for n in one.values}
    found: dict[int, Heard] = {}
    for one in every:
        right = _told(one.values, said, tokens)
        for wrong in range(sizes):
            at = _all_but(one.values, wrong, said, tokens, known)
            k = at[wrong] if at else -1
            if at and not set(at) & set(right) and not put_right(tokens, k, frozenset((one.values[wrong],)), stretch.end):
                heard = _heard(stretch, one, wrong, k, tokens)
                if k not in found or (heard.kind == "number") == _of_times(stretch, k, tokens):
                    found[k] = heard
    yield from ((heard, k) for k, heard in found.items())


def _heard(stretch: Stretch, one: Listed, wrong: int, k: int, tokens: Sequence[Token]) -> Heard:
    row, number = stretch.unit.row_at(stretch.number), tokens[k].number
    sure = SURE if len(one.values) > 2 else OF_TWO
    if tokens[k].sure < 1 or sound_alike(number, one.values[wrong]):
        sure = LOST
    message = f"{number} is told of size {wrong + 1}, and {row.label} has {one.values[wrong]} there"
    words = " ".join(token.raw for token in tokens[max(0, k - 4) : k + 3])
    kind: Slip = "count" if one.count else "number"
    return Heard(kind=kind, at=tokens[k].at, words=words, row=row.label, message=message, sure=sure)


def _of_times(stretch: Stretch, k: int, tokens: Sequence[Token]) -> bool:
    """Whether it is told near token k how often something is worked."""
    return any(token.text == "times" for token in tokens[max(stretch.begins, k - 2 * APART) : k + APART])


def _listed(stretch: Stretch, sizes: int) -> list[Listed]:
    """The numbers of the row that differ from size to size; those of repeats without the first time, too."""
    row = stretch.unit.row_at(stretch.number)
    found = [Listed(_values(count.number), True) for count in row.stated]
    for step in inside(row.written.steps):
        if isinstance(step, Repeat) and step.times.kind == "n":
            values = _values(step.times.number)
            found += [Listed(values, False), Listed(tuple(n - 1 for n in values), False, True)]
        elif isinstance(step, (Chain, Skip)):
            found.append(Listed(_values(step.number), False))
        elif isinstance(step, Make) and step.places != "rest":
            found.append(Listed(_values(step.places), False))
    return [one for one in dict.fromkeys(found) if len(one.values) == sizes and len(set(one.values)) == sizes]


def _values(number: Sized[int]) -> tuple[int, ...]:
    return tuple(n for n in number.values if n is not None)


def _told(values: Sequence[int], said: Sequence[int], tokens: Sequence[Token]) -> list[int]:
    """The tokens that tell these numbers in their order, each soon behind the other; none where not all are told."""
    for first in (k for k in said if tokens[k].number == values[0]):
        at = [first]
        for value in values[1:]:
            k = next((k for k in said if at[-1] < k <= at[-1] + APART and tokens[k].number == value), -1)
            if k < 0:
                break
            at.append(k)
        else:
            return at
    return []


def _all_but(values: Sequence[int], wrong: int, said: Sequence[int], tokens: Sequence[Token], known: set[int]) -> list[int]:
    """The tokens that tell these numbers, but for that of size `wrong` another near it; none where none do."""
    spread = min(abs(b - a) for a, b in pairwise(sorted(values)))
    most = min(max(NEAR, NEAR_SHARE * values[wrong]), max(spread - 1, 1))
    for number in sorted({tokens[k].number for k in said} - known - {0, 1, values[wrong]}):
        if abs(number - values[wrong]) <= most and (at := _told((*values[:wrong], number, *values[wrong + 1 :]), said, tokens)):
            return at
    return []
