"""Rows named without a verb, and how long they go on: "Rows 3 and 4 by turns until 45 rows are done", "R2 to the size wanted"."""

from __future__ import annotations

import re

_ROW = r"(?:rows?|rnds?|rounds?|rds?)"
_ORDINAL = r"(?:\d{1,3}(?:st|nd|rd|th|d)|second|third|fourth|fifth|sixth)"
_LIST = (
    rf"(?:{_ORDINAL}(?:(?:,|\sand|,\sand)\s{_ORDINAL})*\s{_ROW}|(?:{_ROW}\s?|r(?=\d))\d{{1,3}}(?:\s?(?:-{{1,2}}|&|\+|,(?:\s?(?:and|&)\b)?|\band\b|\bto\b|\bthrough\b|\bthru\b)\s?"
    rf"(?:{_ROW}\s?|r(?=\d))?\d{{1,3}}(?!\d|\s(?:more\s)?times\b|\smore\b))*+)"
)
_NUMBER = r"(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|(?:four|six|seven|eigh|nine)teen|eleven|twelve|thirteen|fifteen|twenty)"
_SO_OFTEN = (
    rf"(?:{_NUMBER}\s(?:more\stimes|times(?:\smore)?)|(?:once|twice|thrice)(?:\smore)?|x\s?\d{{1,3}}|\d{{1,3}}\s?x)"
    r"(?=\s*(?:[.,;()\n]|$|then\b|and\sthen\b|in\sall\b|altogether\b))"
)
_OVER = (
    r",?\s(?:by\sturns|in\sturns?|turn\s(?:and|by)\sturn|alternately|alternating|over\sand\sover(?:\sagain)?|again(?:\sand\sagain)?|over\sagain|"
    r"in\s(?:alternation|rotation)|"
    rf"{_SO_OFTEN})"
)
_OF = r"\s(?:of|from)\s(?:the\s)?[a-z]{3,12}"
_END = (
    r",?\s(?:until|till|'?til|to\s(?:the\s(?:end|length|size|width|height|depth)|(?:any|your|whatever)\s)"
    r"|for\s(?:the\s(?:rest|length)|as\s(?:long|many)|pattern|\d+)|\d{1,3}\s(?:more\s)?times|once|twice|as\smany)\b"
)
_GOING_ON = (
    r"(?:(?:then|now|just|and|so|keep|keeping|continue|continuing|cont|carry|go|going|on|do|doing|work|working|crochet|alternate|alternating|"
    r"repeating|again|with|in|the)[,.]?\s+){0,6}"
)
AGAIN = rf"{_OVER}(?=[\s,.;(]|$)"
"""Words that can only stand behind rows told before, never behind the label of a new one."""
ROWS_ON = rf"{_GOING_ON}{_LIST}(?:{AGAIN}|(?:{_OF}|,?\sonly)?{_END})"
"""The beginning of such a sentence or line."""
_ST = r"(?:even|s\s?c|d\s?c|h\s?d\s?c|h?tr|(?:single|double|half\sdouble|treble)(?:\scrochet)?)"
PLAIN_ROWS = rf"(?:(?:then|now)\s)?{_ST}\s(?:for\s)?\d{{1,3}}\s(?:(?:more|plain|even)\s)?{_ROW}(?:\seven)?\s?(?=[.,;(\[=]|\n|$|until\b|-)"
"""So many rows of one stitch: "Sc 3 rows.", "Hdc for 4 rows"."""
ROWS_IN_ALL = re.compile(
    r"(?i)\s*[(\[]?(?:(?:you\s(?:should\s|will\s)?have|there\sare|for\sa\stotal\sof)\s)?(?:a\stotal\sof\s)?\d{1,3}\s"
    r"(?:rows|rnds|rounds)(?:\s(?:in\s(?:total|all)|altogether|total|all\stold))?[)\].]{0,2}\s*"
)
"""How many rows there are in all, on a line below the sentence that repeats them."""
REPEATED = re.compile(r"(?i)\b(?:rep(?:eat)?|rpt)\b[^.;]{0,40}\b(?:rows?|rnds?|rounds?)\b[\s\d,&-]{0,24}(?:and\s\d{1,3})?[.;)]?\s*\Z")
LINE = re.compile(rf"\s*[*_]{{0,2}}(?:{ROWS_ON}|{PLAIN_ROWS})", re.IGNORECASE)
BEHIND = re.compile(AGAIN, re.IGNORECASE)


def goes_on_with_rows(line: str) -> bool:
    """Whether a line names rows told before and how long they are worked.

    >>> goes_on_with_rows("Rows 3 and 4 by turns until 45 rows are done."), goes_on_with_rows("R2 to the size wanted")
    (True, True)
    >>> goes_on_with_rows("Row 3 to 8: sc around"), goes_on_with_rows("Rows 2 and 3: sc in each st until the end")
    (False, False)
    """
    return LINE.match(line) is not None
