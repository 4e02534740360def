"""Where a row's text goes on with the border, the yarn not broken: "…, without breaking thread start border, ch 13 …"."""

from __future__ import annotations

import re

_KEPT = r"(?:without\s+(?:breaking|cutting|fastening)|do\s+not\s+(?:break|cut|fasten)|don'?t\s+(?:break|cut|fasten)|not\s+breaking)"
_UNTURNED = r"(?:(?:at|on)\s(?:the\s)?end\sof\s(?:the\s)?last\srow,?\s)?(?:do\s+not\s+turn|don't\s+turn|without\s+turning)(?:\s+work)?"
_FAR_SIDE = r"[,;]?[^.;]{0,60}\b(?:side|edge|bottom)\sof\s(?:(?:the|your)\s)?(?:\w+\s){0,2}(?:ch\b|chains?\b|foundation)"
"""Round the end of a chain, the same round goes on: "Don't turn, work back along other side of ch"."""
_GOES_ON = r"(?:start|begin|commence|work|make|continue|proceed|do|go)"
_EDGE = r"(?:border|edging|edge|trimming|along|around|across|side)"

_THREAD = r"(?:off\s+)?(?:the\s+)?(?:thread|yarn|cotton|wool|off)?"

ONWARD = re.compile(
    rf"[.;,]\s{{1,3}}(?=(?:{_KEPT}\s+{_THREAD},?\s+(?:but\s+|and\s+)?{_GOES_ON}\b[\w ]{{0,24}}{_EDGE}\b)"
    rf"|{_UNTURNED}(?!{_FAR_SIDE})[,;]?\s+(?:but\s+|and\s+)?{_GOES_ON}\b[\w ]{{0,24}}\b{_EDGE}\b"
    rf"|(?:then\s+|and\s+)?(?:work|make|begin|start|commence)\s+for\s+the\s+(?:border|edge|edging|heading|trimming)\b"
    rf"|{_GOES_ON}\s+(?:the\s+)?(?:border|edging)\b"
    rf"|{_KEPT}\s+{_THREAD}[.!]\s{{1,3}}(?:now\s)?(?:[shdt]+[cr]|single\scrochet|work)\b[^.]{{0,40}}\b(?:around|round|edge|side)\b)",
    re.IGNORECASE,
)
