"""Lines between rows that only change the yarn ("Change to cream.", "Now with B"): they belong to the work, and head no piece."""

from __future__ import annotations

import re

from ..phrases.colours import NAMES

_LETTER = r"(?-i:[A-H]|MC|CC\d?|[A-H]\d)"
_KNOWN = (
    r"(?:(?:[a-z]+\s){0,2}(?:"
    + "|".join(sorted(NAMES))
    + r")(?:\s[a-z]+)?|"
    + _LETTER
    + r"|(?:main|contrast(?:ing)?|new|next|second|other)\scolou?r)"
)
_NO_YARN = r"(?!(?:[a-z]+\s){0,2}(?:hook|needle|rounds?|rows?|st|sts|stitch(?:es)?|sc|dc|hdc|tr|ch|back|front|pattern|loops?|side)\b)"
_ANY = rf"(?:{_KNOWN}|{_NO_YARN}[a-z][a-z'-]*(?:\s[a-z'-]+){{0,2}})"
_ARTICLE = r"(?:the\s)?(?:colou?r\s|yarn\s)?"
_LINE = re.compile(
    r"\s*[*_=(>•-]{0,3}\s?(?:(?:now|then)\s)?(?:"
    rf"(?:change|switch|swap|changing|switching)(?:\s(?:back|over))?(?:\s(?:the\s)?(?:colou?rs?|yarn))?\s(?:in)?to\s{_ARTICLE}{_ANY}"
    rf"|(?:with|w|using|use|continue\s(?:in|with)|in)\s{_ARTICLE}{_KNOWN}"
    rf"|change\scolou?rs?"
    rf"|colou?r\s(?:{_LETTER}|{_KNOWN})"
    r")(?:\s(?:yarn|colou?r))?\s*[.:;,!)]{0,2}[*_=]{0,3}\s*",
    re.IGNORECASE,
)

NOTED = re.compile(
    rf"\s\(\s?(?:(?:make|x)\s?\w+,?\s)?(?:(?:start|begin|make|worked?|all)?(?:ing)?\s?(?:with|w|using|in)\s{_ARTICLE}(?P<yarn>{_ANY})|{_ARTICLE}(?P<known>{_KNOWN}))(?:\s(?:yarn|colou?r))?\s?\)[:.]?$",
    re.IGNORECASE,
)
"""The yarn told behind a piece's name: "Body (start with blue)", "Ear (in grey)"."""


_JOINED = re.compile(
    rf"\s*(?:(?:now|then|still)\s)?(?:(?:re)?join|attach|with|using|change\sto|pick\sup)\s{_ARTICLE}(?:{_KNOWN}|yarn|colou?r)\s*[.,;]?\s*",
    re.IGNORECASE,
)


def only_joins_yarn(words: str) -> bool:
    """Whether a row's first sentence only takes up a yarn, so that the next one tells its work.

    >>> only_joins_yarn(" Join B"), only_joins_yarn(" Join B in any sp, ch 3")
    (True, False)
    """
    return len(words) <= 60 and _JOINED.fullmatch(words) is not None


def tells_yarn_only(line: str) -> bool:
    """Whether a line says which yarn the work goes on with, and nothing else.

    >>> [tells_yarn_only(one) for one in ("Change to cream.", "With B", "Switch to a larger hook", "In the loop", "Colour A")]
    [True, True, False, False, True]
    """
    return len(line) <= 60 and _LINE.fullmatch(line) is not None
