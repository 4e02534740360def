"""Rows named by a bare number: "Two. Chain three …", "Four: two, increase, six times", "Four to eleven. Repeat row three."."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from .lexicon import words
from .tokens import Token


@dataclass(frozen=True, slots=True)
class Bare:
    """One number, list or range of numbers that opens a sentence. `k` its first token, `end` the one behind it."""

    k: int
    end: int
    first: int
    last: int
    colon: bool
    strays: bool = False
    """Whether it stands outside the chain that counts the rows up."""


FEWEST, JUMP = 3, 4
"""So many numbers must follow one another to be taken for rows; a jump of so many rows between two of them is allowed (ours)."""
_UPTO = ("to", "through", "thru", "till", "until", "too")
_WORK = ("st", "chain", "increase", "decrease", "repeat", "ring", "slip", "stitch", "skip", "together")


def numbered(tokens: Sequence[Token]) -> list[Bare]:
    """The numbers that name rows: those before a colon, and the longest chain of others that count the rows up, with what stands between
    and can only be a slip for one of them."""
    every = list(_bare(tokens))
    ends = [*(one.k for one in every[1:]), len(tokens)]
    found = [one for one, end in zip(every, ends, strict=False) if one.colon or _told(tokens, one, end)]
    chain = _longest(tokens, found)
    if len(chain) < FEWEST:
        return [one for one in found if one.colon]
    return [replace(one, strays=one not in chain) for one in found if one.colon or one in chain or _strays(tokens, one, chain)]


def _strays(tokens: Sequence[Token], one: Bare, chain: Sequence[Bare]) -> bool:
    """Whether a number between two of the chain, near them both, opens a row: "Two. Increase … Four. One … Four. Two, increase"."""
    before = next((other for other in reversed(chain) if other.k < one.k), None)
    after = next((other for other in chain if other.k > one.k), None)
    beside = (*tokens[max(0, one.k - 1) : one.k], *tokens[one.end : one.end + 1])
    if before is None or one.first != one.last or any(token.kind == "num" and token.number == one.first for token in beside):
        return False  # "Six. Six. Six."
    if after is None:  # the last row, the one before which was called by its number
        return before.last <= one.first <= before.last + 1 and _works_between(tokens, before.end, one.k)
    room = after.first - before.last > 1 or one.first == after.first
    return room and before.last - 1 <= one.first <= after.first + 2 and _works_between(tokens, before.end, one.k)


LEADS = words("bare_numbers", "leads")
_COUNTED = ("st", "stitch", "chain", "space", "increase", "decrease", "together", "num", "shell", "cluster", "picot", "rows", "row")


def opening(tokens: Sequence[Token]) -> Iterator[Bare]:
    """Every number, list or range that opens a sentence and counts nothing: "Fifteen, sixteen and seventeen are plain", "And nine is …"."""
    k = 0
    while k < len(tokens):
        one = _opening(tokens, k) if tokens[k].kind == "num" and _opens(tokens, k) else None
        if one is not None:
            yield one
        k = one.end if one is not None else k + 1


def _opens(tokens: Sequence[Token], k: int) -> bool:
    while k and not tokens[k - 1].stop and tokens[k - 1].text in LEADS:
        k -= 1
    return k == 0 or (tokens[k - 1].stop and tokens[k - 1].mark in ".!?:")


def _opening(tokens: Sequence[Token], k: int) -> Bare | None:
    end = k + 1
    while end + 1 < len(tokens):
        step = 1 if tokens[end].text in ("and", *_UPTO) and tokens[end - 1].mark not in ".!?" else 0
        more = tokens[end + step]
        listed = more.kind == "num" and more.number > tokens[end - 1].number and _goes_on(tokens[end - 1])
        if not listed or (more.number != tokens[end - 1].number + 1 and (not step or tokens[end].text == "and")):
            break
        end += step + 1
    if end < len(tokens) and not tokens[end - 1].stop and tokens[end].kind in _COUNTED:
        return None
    if end < len(tokens) and not tokens[end - 1].stop and tokens[end].text in ("times", "of", "more", "in", "into", "or"):
        return None
    alone = end == k + 1 and tokens[k].mark in ".:" and end < len(tokens) and tokens[end].kind != "num"
    if tokens[k].number < 2 and not alone:
        return None  # "One, two, three", "One. Two in the next": counted aloud
    return Bare(k, end, tokens[k].number, tokens[end - 1].number, False)


def _bare(tokens: Sequence[Token]) -> Iterator[Bare]:
    k = 0
    while k < len(tokens):
        if tokens[k].kind == "num" and (k == 0 or tokens[k - 1].stop or _announced(tokens, k)):
            one = _at(tokens, k)
        elif tokens[k].kind == "ord" and (k == 0 or tokens[k - 1].stop or _announced(tokens, k)):
            one = _ordinal(tokens, k)
        else:
            one = None
        if one is not None:
            yield one
            k = one.end
        else:
            k += 1


_ANNOUNCES = words("bare_numbers", "announces")
_GOES_ON = frozenset(("a", "an", "the", "we", "you", "just"))
"""What follows a row's number that opens a caption where nobody set marks."""
_AFTER = frozenset(("now", "one", "time", "around", "then", "is", "goes", "comes", "it's", "lap"))


def _announced(tokens: Sequence[Token], k: int) -> bool:
    """Whether a sentence, or a caption where nobody set marks, leads up to the number that names a row: "moving on to", "now the"."""
    first = k
    while first and k - first < 5 and not tokens[first - 1].stop and tokens[first - 1].until == tokens[k].until:
        if tokens[first - 1].text not in _ANNOUNCES:
            return False
        first -= 1
    return k - first < 5 and (first == 0 or tokens[first - 1].stop or tokens[first - 1].until != tokens[k].until)


def _ordinal(tokens: Sequence[Token], k: int) -> Bare | None:
    """ "Third, one single crochet …", "Now the third.", "The third time around it's …"."""
    number = tokens[k].number
    names = tokens[k].stop or (k + 1 < len(tokens) and tokens[k + 1].text in _AFTER)
    return Bare(k, k + 1, number, number, False) if names and 0 < number < 200 else None


def _at(tokens: Sequence[Token], k: int) -> Bare | None:
    """The numbers at token k, up to the mark behind them."""
    end = k + 1
    upto = end + 1 < len(tokens) and tokens[end].text in _UPTO and tokens[end + 1].kind == "num" and not tokens[k].stop
    if upto and tokens[end + 1].number > tokens[k].number:
        end += 2
    else:
        while (
            end < len(tokens)
            and tokens[end].kind == "num"
            and tokens[end].number == tokens[end - 1].number + 1
            and _goes_on(tokens[end - 1])
        ):
            end += 1
        joined = end + 1 < len(tokens) and tokens[end].text == "and" and tokens[end + 1].kind == "num" and not tokens[end - 1].stop
        if joined and tokens[end + 1].number == tokens[end - 1].number + 1:
            end += 2
    mark = tokens[end - 1].mark if tokens[end - 1].stop else ""
    announced = k > 0 and not tokens[k - 1].stop and (mark == "," or (end < len(tokens) and tokens[end].text in _AFTER))
    begins = k > 0 and not tokens[k - 1].stop and tokens[k - 1].until != tokens[k].until and end < len(tokens)
    announced = announced or (begins and (tokens[end].kind in ("num", "chain", "skip") or tokens[end].text in _GOES_ON))
    if tokens[k].number < 1 or ((not mark or (mark == "," and end == k + 1)) and not announced):
        return None
    return Bare(k, end, tokens[k].number, tokens[end - 1].number, mark == ":")


def _goes_on(token: Token) -> bool:
    return not token.stop or token.mark == ","


def _longest(tokens: Sequence[Token], found: Sequence[Bare]) -> list[Bare]:
    """The longest chain of numbers that go up by one or little more, with work told between them."""
    best: list[list[Bare]] = []
    for i, one in enumerate(found):
        before: list[Bare] = []
        for j in range(i):
            step = one.first - found[j].last
            again = one.first == 1 and len(best[j]) >= FEWEST  # the next part begins
            if best[j] and (1 <= step <= JUMP or again) and _told(tokens, found[j], one.k) and _weight(best[j]) >= _weight(before):
                before = best[j]
        best.append([*before, one] if before or one.first <= 2 else [])
    chain = max(best, key=_weight, default=[])
    return chain[:-1] if len(chain) > 1 and chain[-1].first == 1 else chain  # a part of one row is none


def _told(tokens: Sequence[Token], one: Bare, end: int) -> bool:
    """Whether rows are told behind their number; several may be only "four rounds, thirty each"."""
    rows = one.first < one.last and any(token.kind == "rows" or token.text in _PLAINLY for token in tokens[one.end : end])
    return rows or _works_between(tokens, one.end, end)


_PLAINLY = frozenset(("plain", "same", "straight", "just", "again", "nothing"))


def _weight(chain: Sequence[Bare]) -> int:
    """Rows that follow at once count twice."""
    return sum(2 if k and one.first == chain[k - 1].last + 1 else 1 for k, one in enumerate(chain))


def _works_between(tokens: Sequence[Token], start: int, end: int) -> bool:
    return any(token.kind in _WORK for token in tokens[start:end])
