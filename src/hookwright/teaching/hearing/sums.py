"""Numbers added up aloud: "Thirty and thirty is sixty. Twenty twice is forty. And twelve in the corners. A hundred and twelve."."""

from __future__ import annotations

from collections.abc import Sequence

from .lexicon import words
from .tokens import Token

_IS = words("sums", "is")
_PLUS = frozenset(("and", "plus"))
_EACH_OF = {"twos": 2, "threes": 3, "fours": 4, "fives": 5, "sixes": 6, "sevens": 7, "eights": 8, "nines": 9, "tens": 10}
_TWICE = frozenset(("twice", "doubled"))
REACH = 30
"""Words within which a sum comes to its end (ours)."""
ANSWER = 5
"""Words at most between what is added and what it makes (ours)."""


def steps_of_sums(tokens: Sequence[Token]) -> frozenset[int]:
    """The places of all numbers that are added, and of what some of them make; what all of them make together is none of these.

    Only sums that come out are known for such: what a speaker reckons wrongly may be a slip."""
    found: set[int] = set()
    k = 0
    while k < len(tokens):
        first = _sum_at(tokens, k)
        if first is None:
            k += 1
            continue
        added, answer = first
        more = _goes_on(tokens, answer)
        found |= {*added, *more}
        k = max(answer, *more, k) + 1
    return frozenset(found)


def _sum_at(tokens: Sequence[Token], k: int) -> tuple[tuple[int, ...], int] | None:
    """(places added, place of what they make) of a sum that begins at token k: "forty and forty is eighty", "two times six is twelve"."""
    if tokens[k].kind != "num" or k + 2 >= len(tokens) or (tokens[k].stop and tokens[k].mark in ".!?"):
        return None
    one, word, other = tokens[k], tokens[k + 1], tokens[k + 2]
    if word.text in _EACH_OF:
        return _made(tokens, (k,), k + 2, one.number * _EACH_OF[word.text])
    if word.text in _TWICE:
        return _made(tokens, (k,), k + 2, 2 * one.number)
    if word.text in _PLUS and other.kind == "num" and not word.stop:
        return _made(tokens, (k, k + 2), k + 3, one.number + other.number)
    if word.text == "times" and other.kind == "num":
        return _made(tokens, (k, k + 2), k + 3, one.number * other.number)
    return None


def _made(tokens: Sequence[Token], added: tuple[int, ...], start: int, number: int) -> tuple[tuple[int, ...], int] | None:
    """The sum, where the next number is what comes out, and is said to."""
    for k in range(start, min(start + ANSWER, len(tokens))):
        if tokens[k].kind == "num":
            said = any(token.text in _IS for token in tokens[start:k])
            return (added, k) if said and tokens[k].number == number else None
        if tokens[k].kind in ("row", "rows"):
            return None
    return None


def _goes_on(tokens: Sequence[Token], answer: int) -> set[int]:
    """The places of all that is added after a first sum, that sum's answer too, where in the end it comes out; else nothing."""
    parts, places = tokens[answer].number, {answer}
    k, end = answer + 1, min(answer + REACH, len(tokens))
    while k < end and tokens[k].kind not in ("row", "rows"):
        if tokens[k].kind == "num" and tokens[k].number == parts and len(places) > 1:
            return places
        if tokens[k].kind == "num" and tokens[k].number == parts + 1 and any(token.kind == "chain" for token in tokens[answer:k]):
            return places  # "sixteen twos are thirty-two, and the chain is thirty-three"
        another = _sum_at(tokens, k)
        if another is not None:
            parts += tokens[another[1]].number
            places |= {*another[0], another[1]}
            k = another[1]
        elif tokens[k].kind == "num":
            parts += tokens[k].number
            places.add(k)
        k += 1
    return set()
