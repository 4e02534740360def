"""A word is misspelt, and only one known word is meant.

What it checks: words that are no term of the trade and of which exactly one term is the near neighbour: one letter more, less, changed, or
two changed about ("sx" for "sc", "hcd" for "hdc").

Why: a follower has to guess, and the row cannot be fully worked until the word is put right.

Example:

    Row 2: Ch 1, turn, sx in each st across.

Message: "sx" is no word of the trade; "sc" is the nearest.

Repair: the word meant is put in its place: safe where it was read as that word, asked for otherwise.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from ...pattern import Finding, Part, Row, Span
from ...trade.abbreviations import abbreviations
from ...trade.kinds import FOUNDATION_STITCHES, PLAIN, base
from ...trade.stitches import stitches
from ...trade.terms import abbr
from .arithmetic import words
from .rule import Case, Rule, Terms, in_text, replace
from .unread import unread_in


def check(case: Case) -> Iterator[Finding]:
    """A note for each word that was read as another, or that would be understood if it were."""
    for trouble in case.noticed("typo"):
        meant = trouble.data.get("meant")
        if not isinstance(meant, str) or not meant:
            yield in_text(RULE, trouble.span, trouble.message)
            continue
        said = words(case.source, trouble.span)
        repair = replace(trouble.span, _as(said, meant), f"Write “{_as(said, meant)}”.", "safe")
        yield in_text(RULE, trouble.span, f"“{said}” was read as “{meant}”.", repair=repair)
    for part, row, unread in unread_in.rows(case.pattern):
        for step in unread:
            yield from _in_unread(case, step.span, part, row)


def _in_unread(case: Case, span: Span, part: Part, row: Row) -> Iterator[Finding]:
    for match in _WHERE_A_STITCH_STANDS.finditer(span.of(case.source)):
        meant = nearest(match["word"].lower(), part.terms)
        if meant is None:
            continue
        where = Span(span.start + match.start("word"), span.start + match.end("word"))
        numbers = row.numbers_at(0)
        repair = replace(where, _as(match["word"], meant), f"Write “{_as(match['word'], meant)}”.", "asked")
        message = f"“{match['word']}” is no word of the trade; “{meant}” is the nearest."
        yield in_text(RULE, where, message, part=part, row=row.label, number=numbers[0] if numbers else None, repair=repair)


_WHERE_A_STITCH_STANDS = re.compile(
    r"(?<![\w-])(?:\d+[ ]?)?(?P<word>[A-Za-z]{2,5}(?:\d?tog)?)"
    r"(?=[ ]+(?:in|into|across|around|round|to|next|each|st|sts)\b|[ ]*(?:[,;)\]]|$))"
)


@lru_cache(maxsize=512)
def nearest(word: str, terms: Terms) -> str | None:
    """The one stitch abbreviation that is a slip of the pen away from `word`; None when it is a word itself, or two are as near.

    >>> nearest("sx", "US"), nearest("hcd", "US"), nearest("sc", "US"), nearest("htrr", "UK"), nearest("sts", "US")
    ('sc', 'hdc', None, 'htr', None)
    """
    if len(word) < 2 or word in _known(terms) or word.removesuffix("s") in _known(terms) or word in _NEVER:
        return None
    near = {short for short in _stitch_words(terms) if _slip(word, short)}
    return near.pop() if len(near) == 1 else None


def _slip(word: str, other: str) -> bool:
    """Whether one slip of the pen leads from one to the other; the first letter stays, unless the lengths are equal and it is short."""
    if abs(len(word) - len(other)) > 1 or word[0] != other[0]:
        return False
    if len(word) == len(other):
        wrong = [i for i, (a, b) in enumerate(zip(word, other, strict=True)) if a != b]
        turned = len(wrong) == 2 and wrong[1] == wrong[0] + 1 and word[wrong[0]] == other[wrong[1]] and word[wrong[1]] == other[wrong[0]]
        return len(wrong) == 1 or turned
    long, short = sorted((word, other), key=len, reverse=True)
    return any(long[:i] + long[i + 1 :] == short for i in range(len(long)))


@lru_cache(maxsize=2)
def _stitch_words(terms: Terms) -> tuple[str, ...]:
    """Stitch abbreviations of one word; the rarer short forms of group stitches would claim half the alphabet and are left out."""
    found = {abbr(kind, terms).lower() for kind in stitches() if base(kind) in PLAIN or kind in FOUNDATION_STITCHES}
    return tuple(sorted(short for short in found if short.isalnum() and len(short) > 1))


@lru_cache(maxsize=2)
def _known(terms: Terms) -> frozenset[str]:
    listed = {short.lower() for entry in abbreviations() for short in (entry.us if terms == "US" else entry.uk)}
    return frozenset(listed | set(_stitch_words(terms)))


_NEVER = frozenset(
    ("st", "sts", "sp", "sps", "ch", "chs", "lp", "lps", "rnd", "rnds", "rep", "th", "nd", "rd", "lt", "so", "to", "do", "he", "see")
)
"""Short words of patterns and of English that lie a letter away from a stitch and are no slip."""


def _as(said: str, meant: str) -> str:
    return meant.capitalize() if said[:1].isupper() and said[1:].islower() else meant


RULE = Rule("typo", "note", check)
