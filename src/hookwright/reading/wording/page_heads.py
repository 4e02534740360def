"""Heads and feet of pages, left in a text that was scanned: a page's number, beside the book's or chapter's name or alone."""

from __future__ import annotations

import re
from collections import Counter

_HEAD = re.compile(
    r"\n[ \t]*(?:\d{1,4}[ \t]{2,}(?P<a>[A-Z][A-Z'.,& -]{3,60}?)|(?P<b>[A-Z][A-Z'.,& -]{3,60}?)[ \t]{2,}\d{1,4}|"
    r"-\s?\d{1,4}\s?-|\d{1,4})[ \t.]*(?=\n|\Z)"
)
"""A line that is a page's number; the name in capitals. (The line's end before it stands first, so that the search is quick.)"""


def without_heads(text: str) -> str:
    """The text with page heads blanked, as long as before: those in mid-sentence, and those whose name comes again on another page.

    >>> without_heads("1 s. c. in\\n  12  LACES\\neach chain.")
    '1 s. c. in\\n            each chain.'
    """
    found = list(_HEAD.finditer("\n" + text))  # places in `text` are one less
    if not found:
        return text
    names = Counter(map(_name, found))
    out = list(text)
    for match in found:
        start, end = match.start(), match.end() - 1
        before, after = text[:start].rstrip(), text[end:].lstrip()
        if before and before[-1] not in ".!?:)" and after[:1].islower():
            start, end = len(before), len(text) - len(after)
            out[start:end] = "\n" + " " * (end - start - 1)
        elif _name(match) and names[_name(match)] > 1:
            out[start:end] = " " * (end - start)
    return "".join(out)


def _name(match: re.Match[str]) -> str:
    return (match["a"] or match["b"] or "").strip(" .")
