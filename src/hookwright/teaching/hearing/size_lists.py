"""Numbers told of all sizes at once, "sixty for the small, sixty-eight, seventy-eight for the large": each held against its size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
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
        listed = list(_of_row(stretch, speech.tokens, len(sizes)))
        for heard, k in listed:
            if not heard.doubtful and (len(sizes) > 2 or other_size(speech, k, names)):
                yield heard
        called = _called(sizes[0].pattern.facts.size_names)
        yield from (heard for heard, k in _by_name(stretch, speech.tokens, called) if all(k != other for _, other in listed))


_WORDS = {
    "xs": ("xs", "smallest"),
    "s": ("s", "small", "smaller"),
    "m": ("m", "medium"),
    "l": ("l", "large", "larger"),
    "xl": ("xl", "largest"),
}
"""What people say for the letters of sizes."""


def _called(names: Sequence[str]) -> dict[str, int]:
    """The words by which sizes are called, each with the place of its size; what would name two of them names none."""
    found: dict[str, set[int]] = {}
    for size, name in enumerate(names):
        for word in (w for one in name.lower().split() for w in _WORDS.get(one, (one,))):
            found.setdefault(word, set()).add(size)
    return {word: min(of) for word, of in found.items() if len(of) == 1 and not word.isdigit()}


def _by_name(stretch: Stretch, tokens: Sequence[Token], called: Mapping[str, int]) -> Iterator[tuple[Heard, int]]:
    """Where a number is told of a size by its name, and is not that size's, while others told so in the row are."""
    every = _listed(stretch, len(set(called.values())))
    ways = []
    for named in (_named_behind, _named_before):  # "fifty for the small, sixty for the large", "the small has fifty, the large sixty"
        numbers = (k for k in range(stretch.begins, stretch.end) if tokens[k].kind == "num")
        said = [(k, size) for k in numbers if (size := named(tokens, k, called)) >= 0]
        ways.append((said, [k for k, size in said if any(tokens[k].number == one.values[size] for one in every)]))
    said, right = max(ways, key=lambda way: len(way[1]))
    wrong = [(k, size) for k, size in said if k not in right]
    if not right or len(wrong) != 1:
        return
    k, size = wrong[0]
    number = tokens[k].number
    near = [one for one in every if 0 < abs(number - one.values[size]) <= max(NEAR, NEAR_SHARE * one.values[size])]
    # what else is told rightly there is what the number is of
    beside = [one for one in near if any(tokens[other].number in one.values for other in right if abs(other - k) <= 2 * APART)]
    if beside and number not in stretch.unit.instructed and not put_right(tokens, k, frozenset((beside[0].values[size],)), stretch.end):
        yield _heard(stretch, min(beside, key=lambda one: abs(number - one.values[size])), size, k, tokens), k


def _named_behind(tokens: Sequence[Token], k: int, called: Mapping[str, int]) -> int:
    """The size that is named right behind the number at token k: "fifty-four for the small"; -1 where none is."""
    behind = tokens[k + 1 : k + 6] if not tokens[k].stop or tokens[k].mark == "," else ()
    for i, token in enumerate(behind):
        if token.text in called and any(lead.text in _OF_SIZE for lead in behind[:i]):
            return called[token.text]
        if token.kind == "num" or (token.stop and token.mark in ".!?"):
            break
    return -1


def _named_before(tokens: Sequence[Token], k: int, called: Mapping[str, int]) -> int:
    """The size that is named right before it: "and the small fifty-four", "for the small you'd have fifty"; -1 where none is."""
    for i in range(k - 1, max(k - 5, 0), -1):
        if tokens[i].kind == "num" or (tokens[i].stop and tokens[i].mark in ".!?"):
            break
        if tokens[i].text in called:
            return called[tokens[i].text]
    return -1


_OF_SIZE = frozenset(("for", "in", "if", "on", "you're", "with"))


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
