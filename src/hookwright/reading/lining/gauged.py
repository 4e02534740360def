"""Chains told for the gauge ("Gauge: ch 16 and 10 rows = 4 inches", "To check gauge, ch 20."): they found no piece."""

from __future__ import annotations

import re

_ENDS = re.compile(r"(?:[.!?]|\n[ \t]*)(?=\n|\s{1,3}[A-Z*\d])|\n[ \t]*\n")
"""Where one sentence ends and another, or a line of its own, begins."""
_NAMED = re.compile(
    r"(?i)[\s*_=#>•·-]{0,12}(?:(?:stitch|sts?)\s)?(?:gauge|tension)\b(?!\s(?:is\s)?not\b)"
    r"|\s*(?:to\s|please\s|always\s)?(?:check|test|measure|try)\s(?:(?:for|your|the)\s)?(?:gauge|tension)\b"
    r"|\s*(?:for|to\s(?:make|work|measure))\s(?:a\s|the\s|your\s)?(?:gauge\s|tension\s)(?:swatch|square|sample|piece)\b"
)
"""How a sentence begins that tells the gauge, or how to try it."""
_MEASURED = re.compile(
    r"(?i)[\s*_]*(?:[a-z][a-z ]{2,20}:[\s*_]*)?(?:ch(?:ain)?\.?\s?\d{1,3}|\d{1,3}\s?ch(?:ains?)?)\b"
    r"(?P<rows>[,;]?\s(?:and|by|x|&|or)?\s?\d{1,3}\s(?:[a-z]{1,3}\s)?(?:rows?|rnds?|rounds?)(?:\s(?:of\s)?[\w ]{1,20}?)?)?"
    r"\s?(?:(?:=|equals?|measures?|makes?)\s?|to\s(?:the\s)?)(?:about\s|approx\w*\.?\s)?(?:\d[\d./½¼¾ -]{0,7}|one|two|three|four|five)?\s?"
    r"(?:in\b|ins\b|inch|cm\b|[\"”″])"
)


def measures(text: str) -> bool:
    """Whether words begin with chains and rows that come to a length, as only a gauge does.

    >>> measures("Ch 16 and 10 rows = 4 inches."), measures("Ch 16, sc in 2nd ch"), measures("Ch 60 = 24 inches. Row 1: sc")
    (True, False, False)
    """
    told = _MEASURED.match(text)
    return told is not None and told["rows"] is not None


def tells_gauge(text: str) -> bool:
    """Whether words begin with a gauge, or with how to try it.

    >>> tells_gauge("For gauge swatch, ch 16."), tells_gauge("Using hook to obtain gauge, ch 16.")
    (True, False)
    """
    return _NAMED.match(text) is not None or measures(text)


def for_gauge(text: str, at: int, start: int = 0) -> bool:
    """Whether a chain told at `at`, in words that begin at `start`, belongs to a sentence that tells the gauge.

    >>> line = "Gauge: ch 16 = 4 inches. Ch 40."
    >>> for_gauge(line, 7), for_gauge(line, 25), for_gauge("With a hook to give gauge, ch 40.", 26)
    (True, False, False)
    """
    begun = start
    for end in _ENDS.finditer(text, start):
        if end.end() > at:
            break
        begun = end.end()
    return _NAMED.match(text, begun, at) is not None or measures(text[at : at + 120])


def only_measured(text: str) -> bool:
    """Whether, under a heading of its own, a line tells what so many chains come to ("GAUGE" / "Ch 16 = 4 inches")."""
    return _MEASURED.match(text) is not None
