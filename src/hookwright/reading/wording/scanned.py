"""Damage of pages that were scanned or typed off: words broken over the line's end, page heads in mid-sentence, letters taken for others.

Every change keeps the length, so that spans stay those of the source. Only what can mean nothing else is changed here; a word that is
merely near another is a slip (`typos.py`), and is told. The confusions are those of scanned print (c/e, 1/l/I, 8/S, h/b; from memory).
"""

from __future__ import annotations

import re
from collections import Counter

from .vocabulary import base_trie

_BROKEN = re.compile(
    r"(?<![A-Za-z'])(?<![A-Za-z]-)(?P<a>[A-Za-z]{1,14})-(?P<gap>[ \t]*\n[ \t]*)(?P<b>[a-z]{2,14}(?![a-z])|\d{1,3})(?P<rest>\S*)"
)
_HEAD = re.compile(
    r"(?m)^[ \t]*(?:\d{1,4}[ \t]{2,}(?P<a>[A-Z][A-Z'.,& -]{3,60}?)|(?P<b>[A-Z][A-Z'.,& -]{3,60}?)[ \t]{2,}\d{1,4}|"
    r"-\s?\d{1,4}\s?-|\d{1,4})[ \t.]*$"
)
"""A line that is a page's number, beside the book's or chapter's name in capitals or alone."""
_STITCH_E = re.compile(r"(?<![A-Za-z.])((?:[hH]\.?\s?)?[sd]\.?\s?)e(?=\.|\s(?:in|into|on|over|under|of)\b|[,;)])")
"""C taken for e in a stitch's initials: "2 d. e. in next"."""
_COUNTED_E = re.compile(r"(?:\d|\b(?:the|each|next|last|first|of|every|one))\s\Z")
_ONE = re.compile(
    r"(?<![A-Za-z.'-])(?<!\d\s)(?<!each\s)(?<!the\s)(?<!next\s)[lI]"
    r"(?=\s(?:s\.?\s[ce]|d\.?\s[ce]|h\.?\s?d\.?\s[ce]|tr\.|ch\.|d\.\s?tr|sl\.\s?st|sps?\b|bls?\b|space\b|block\b))"
)
"""1 taken for a letter, before a stitch's initials or a square of filet: "l d. c. in next", "l sp"."""
_NTH = re.compile(r"(?<![A-Za-z0-9])(?P<n>[lI1]{1,2}|[lI1S]?[\dSOlI]|\d)(?P<th>st|nd|ud|rd|d|th|tb|tli)(?=\.?\s(?:rows?|rounds?|rnds?)\b)")
_LABEL = re.compile(r"(?:^|\n|[.;)])[ \t*_]*\Z")
_H = re.compile(
    r"\b(?P<tw>[tw])b(?=[a-z])|(?<=[a-z])(?P<tc>[tc])b\b|\btlie\b|\bt[bh]c\b|\btne\b|(?<=\d\s)[ceo][bh]\b(?=\.|,|\s(?:st|loop|in|and|to|turn))"
)
"""H taken for b, and the words that suffer most from it: no word of English begins or ends so."""
_DIGITS = str.maketrans("lIO", "110")


def mended(text: str) -> str:
    """The text (already plain) with the damage undone that a scan or a page's width did to it; as long as before.

    >>> mended("1 s. c. in the mid-\\ndle s. e., turn")
    '1 s. c. in the middle\\n  s. c., turn'
    """
    if "\n" not in text:
        return text
    text = _numbered(_without_heads(text))
    if "-" in text:
        text = _BROKEN.sub(_whole, text)
    return _ONE.sub("1", _H.sub(_letters, _STITCH_E.sub(_stitch, text)))


def _letters(match: re.Match[str]) -> str:
    first = match["tw"] or match["tc"]
    if first:
        return f"{first}h"
    return "the".ljust(len(match[0])) if match[0][0] == "t" else "ch"


def _stitch(match: re.Match[str]) -> str:
    dotted = "." in match[1]
    told = dotted or _COUNTED_E.search(match.string, max(0, match.start() - 7), match.start())
    return f"{match[1]}c" if told else match[0]


def _whole(match: re.Match[str]) -> str:
    """The word on its first line, and the line's end behind it."""
    a, b, rest, gap = match["a"], match["b"], match["rest"], match["gap"]
    known = base_trie()
    if b.isdigit():
        word = f"{a}-{b}" if a.lower() in ("ch", "chain") else ""
        blank = ""
    elif (a + b).lower() in known or not (a.lower() in known and b in known):
        word, blank = a + b, " "
    else:
        return f"{a} {gap}{b}{rest}"  # "half-" and "treble": two words of one name
    if not word:
        return match[0]
    after = match.string[match.end() : match.end() + 1]
    end = " " * len(gap) if after in ("\n", "") else "\n" + " " * (len(gap) - 1)
    return f"{word}{rest}{end}{blank}"


def _without_heads(text: str) -> str:
    """Page heads blanked: those that stand in the middle of a sentence, and those whose name comes again over another page."""
    found = list(_HEAD.finditer(text))
    if not found:
        return text
    names = Counter(map(_name, found))
    out = list(text)
    for match in found:
        start, end = match.start(), match.end()
        before, after = text[:start].rstrip(), text[end:].lstrip()
        inside = bool(before) and before[-1] not in ".!?:)" and after[:1].islower()
        if inside:
            start, end = len(before), len(text) - len(after)
            out[start:end] = "\n" + " " * (end - start - 1)
        elif _name(match) and names[_name(match)] > 1:
            out[start:end] = " " * (end - start)
    return "".join(out)


def _name(match: re.Match[str]) -> str:
    return (match["a"] or match["b"] or "").strip(" .")


def _numbered(text: str) -> str:
    """The ordinals of rows in figures: "lst row", "llth row", "Sth row" (8th, or 5th where the rows are come so far)."""
    last, meant = 0, set()
    out = list(text)
    fives: list[int] = []
    for match in _NTH.finditer(text):
        n, th = match["n"], match["th"]
        if n == "S":
            if not _LABEL.search(text, max(0, match.start() - 20), match.start()):
                fives.append(match.start())
                continue
            n = "5" if last == 4 else "8"
            meant.add(n)
        number = n.translate(_DIGITS).replace("S", "8")
        if number.isdigit() and _LABEL.search(text, max(0, match.start() - 20), match.start()):
            last = int(number)
        out[match.start() : match.end()] = number + {"ud": "nd", "tb": "th", "tli": "th "}.get(th, th)
    only = meant.pop() if len(meant) == 1 else "8"
    for at in fives:
        out[at] = only
    if "Sth" in text:
        return re.sub(r"(?<=\bthe )Sth\b", f"{only}th", "".join(out))
    return "".join(out)
