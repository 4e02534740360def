"""The foundation told in the prose above the rows: "Chain 40 stitches for every hand of length", "The swatch was begun with 27 ch."."""

from __future__ import annotations

import re

from ..pattern import Span

MOST = 20_000
_TOLD = re.compile(
    r"(?i)\b(?:(?:(?:the|my|this|our)\s+)?(?:swatch|sample|one\sshown|piece\s(?:shown|pictured))"
    r"(?:\s+(?:shown|pictured|in\sthe\s(?:photo|picture)))?\s?"
    r"(?:\s(?:is|was|has|shows|measures)\s(?:just\s|only\s)?\d{1,2}\s[a-z -]{2,30}(?:,|:|\sand)\s?(?:so\s|or\s|worked\s)?"
    r"(?:on\s|over\s|from\s|with\s)?|:|(?:was\s|is\s|has\s|had\s|uses?\s|used\s)?(?:(?:begun|began|started|made|worked)\s"
    r"(?:with|on|over|from)\s)?(?:a\s)?)\s?(?:(?:chain|foundation)\sof\s)?(?P<n_swatch>\d{1,5})\s?(?:ch|chains?)\b"
    r"|(?:make|work|crochet|begin|began|start|started|commence|cast on)\s+"
    r"(?:(?:with|in|using)\s+(?:the\s+)?[a-z][a-z' -]{2,28}?(?:,\s+|\s+(?=with|by))(?:and\s+)?(?:make\s+|work\s+)?)?"
    r"(?:with\s+|by\s+(?:making|chaining)\s+)?(?:a\s+|your\s+)?"
    r"(?:(?:foundation|starting|base|beginning)\s+)?(?:(?:chain|foundation|foundation chain)\s+of\s+(?P<n>\d[\d,]{0,5})"
    r"|(?P<n_first>\d{1,5})\s+(?:foundation\s+|starting\s+)?(?:ch|chains?)\b|ch(?:ain)?\s+(?P<n_last>\d{1,5})\b)"
    r"|a\schain\sof\s(?P<n_joined>\d{1,3})(?=,?\s(?:and\s)?(?:joined|united|closed|join|unite))"
    r"|(?:(?:so|and)\s)?(?:i|we)(?:\shave|'ve)?\s(?:chained|began\swith)\s(?P<n_done>\d{1,5})\b"
    r"|(?:foundation|starting|base|beginning)\s+ch(?:ain)?\s?[:=-]\s?(?P<n_alone>\d{1,5})(?=\s?(?:ch|chains?|sts?|stitches)?\s?(?:[.\n]|$)))"
    r"(?:\s+(?:stitches|sts|loops|chains?|ch))?(?:[^.\n]|\n(?!\s*\n)){0,60}"
)


_OVER = re.compile(
    r"(?i)\bor\s\d+\s(?:stitches\s|sts\s)?(?:for|to|per)\s(?:each\s|every\s|a\s|the\s)?[a-z]+,?\s(?:and\s)?(?P<over>\d{1,2})\s"
    r"(?:stitch(?:es)?\s|sts?\s)?(?:over|more|extra)\b"
)
"""Chains beyond those of so many patterns: "480 per yard, or 20 for each pattern, and 1 over"."""


def foundation_told(text: str, start: int, end: int) -> tuple[int, Span] | None:
    """How many chains the last such sentence between `start` and `end` tells, and where; None where none does."""
    found = None
    for match in _TOLD.finditer(text, start, end):
        named = ("n_swatch", "n", "n_first", "n_last", "n_done", "n_joined", "n_alone")
        digits = next(match[name] for name in named if match[name])
        number = int(digits.replace(",", ""))
        if 1 < number <= MOST:
            beyond = _OVER.search(text, match.start(), min(end, match.start() + 160))
            number += int(beyond["over"]) if beyond else 0
            stop = text.find(".", match.start() + match[0].index(digits), end)
            found = number, Span(match.start(), stop if stop >= 0 else match.end())
    return found
