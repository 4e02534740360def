"""How many sizes a pattern has: as it says, or as its lists of numbers show."""

from __future__ import annotations

import re
from collections import Counter

from ..pattern import LIMITS, Facts
from .pieces import first_of, holds, pieces, remembered
from .sizes_named import size_names_of

_LIST = re.compile(r"(?<![\w.])\d{1,4}\s?[½¼¾]?\s?((?:[(\[]\d{1,4}[½¼¾]?(?:\s?[,:/-]\s?\d{1,4}[½¼¾]?){0,10}[)\]]\s?){1,4})")
_DASHED = re.compile(r"(?<![\w./-])\d{1,3}(?:-\d{1,3}){2,7}(?=\s?(?:sts?|sc|dc|hdc|tr|times|rows|inches|in\b|\"|cm|\.|,))")
_SLASHED = re.compile(r"(?<![\w./-])\d{1,3}(?:/\d{1,3}){2,9}(?![\w/])")
_REPEATED = re.compile(r"(?<![\w.])\d{1,4}\s?(?:\(\d{1,4}\)\s?){2,10}")
_NAMED = re.compile(r"(?i)\b(?:x{0,3}s(?:mall)?|small)(?:/medium)?\s?((?:\((?:[^()\n]{1,14},\s?){0,9}[^()\n]{1,20}\)\s?){1,4})")
_ONE = re.compile(r"(?<![\w.])\d{1,3}\s\(\d{1,3}\)\s(?:sts?|sc|s c|dc|d c|hdc|tr|times|inches|rows|rnds|in\b|cm|more|\d+ yd)", re.I)


_CHANGES = re.compile(
    r"(?i)\b(?:changes|figures|numbers|directions)?\s?for\s((?:(?:extra\s)?(?:small|medium|large|petite|\d{1,2}|size|sizes|and|to|&|,|x|-)[\s,]{0,3}){1,16})"
    r"(?:are\s)?(?:given\s|shown\s)?(?:in\s)?(?:parenthes[ei]s|brackets)"
)


_AGES = re.compile(r"\s\(\d[\d\s½¼¾/-]{0,12}\)")
"""What a size fits, beside its name: "Medium (8-10)"."""


def _told_in_brackets(text: str) -> int:
    """ "Changes for medium and large sizes are in parentheses": so many sizes beside the first; 0 when not told so."""
    told = first_of(_changes, text[:20_000])
    if told is None:
        return 0
    words = re.sub(r"(?i)\bsizes?\b|\bextra\b", " ", told)
    words = re.sub(r"(?i)\s(?:to)\s", "-", words)
    return len([word for word in re.split(r"(?i),|\band\b|&", words) if word.strip(" -")])


@remembered
def _changes(text: str) -> str | None:
    match = _CHANGES.search(_AGES.sub(" ", text)) if holds(text, ("parenthes", "bracket")) else None
    return None if match is None else match[1]


def how_many_sizes(facts: Facts, text: str) -> int:
    """The number of sizes (at least 1)."""
    if facts.size_names:
        return min(len(facts.size_names), LIMITS.sizes)
    votes: Counter[int] = Counter()
    named, ones = 0, 0
    for lists, name, one in _lists.told(pieces(text)):
        votes.update(lists)
        named, ones = named or name, ones + one
    if named:
        votes[named] += 3
    told_names = len(size_names_of(text[:20_000]))
    if (told_names > 2 and votes[told_names]) or (told_names == 2 and votes[2] >= 2):
        return min(told_names, LIMITS.sizes)
    told = _told_in_brackets(text)
    if told and votes[1 + told]:
        return min(1 + told, LIMITS.sizes)
    single = votes.pop(2, 0)
    many = [(count, n) for n, count in votes.items() if n > 2]
    if many:
        count, n = max(many)
        if count >= 2 or named:
            return min(n, LIMITS.sizes)
    if told:
        return min(1 + told, LIMITS.sizes)
    if (named and single) or (ones >= 3 and re.search(r"(?i)\bsizes?\b|\blarge", text)):
        return 2
    return 1


@remembered
def _lists(text: str) -> tuple[tuple[int, ...], int, int]:
    """How many sizes each list of numbers is for; for how many names are told (0 = none told); how many pairs of numbers there are."""
    votes: list[int] = []
    before = _before_brackets(text)
    listed = any(sign.isdigit() or sign in "½¼¾" for sign in before)
    if listed:
        votes += [1 + len(re.findall(r"\d[\d½¼¾]*", match[1])) for match in _LIST.finditer(text)]
        votes += [1 + match[0].count("(") for match in _REPEATED.finditer(text)]
    if text.count("-") > 1:
        votes += [1 + match[0].count("-") for match in _DASHED.finditer(text)]
    if text.count("/") > 1:
        votes += [1 + match[0].count("/") for match in _SLASHED.finditer(text)]
    named = _NAMED.search(text) if before and (not before.isascii() or not set("slmSLM").isdisjoint(before)) else None
    pairs = len(_ONE.findall(text)) if listed else 0
    return tuple(votes), (1 + len(re.findall(r"[^(),\s][^(),]*", named[1])) if named else 0), pairs


NEAR = 4
"""Signs before a bracket among which what belongs to it is looked for; no list has more blanks there than two."""


def _before_brackets(text: str) -> str:
    """The signs that stand before the brackets of a text, blanks passed over."""
    found = ""
    for sign in "([":
        at = text.find(sign)
        while at >= 0:
            found += text[max(0, at - NEAR) : at].rstrip()[-1:]
            at = text.find(sign, at + 1)
    return found
