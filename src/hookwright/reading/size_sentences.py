"""Sentences side by side, each for a size that is called before it: "Small: Ch 61. Medium: Ch 71.", "Adult: repeat Row 2 to 30 rows"."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from .lining import lines_told as L
from .sizes_named import NUMBERED, SIZE, size_names_of
from .sizes_only import known_sizes

_CALLED = rf"(?:sizes?\s+\d{{1,2}}(?:\s?[-/]\s?\d{{1,2}})?|{SIZE})(?:\ssizes?)?"
_LABEL = re.compile(
    rf"(?i)(?:(?m:^)[ \t>*_=#(•-]{{0,6}}|(?<=[.;)!])[ \t]{{1,3}})(?:for\s+)?(?:the\s+)?(?:sizes?\s+)?"
    rf"(?P<names>{_CALLED}(?:(?:\s?[,/&]\s?|\s(?:and|or)\s){_CALLED}){{0,6}})(?:\s+sizes?)?(?:\s+only)?[ \t)*_]{{0,3}}"
    rf"(?:[:=]|\s-{{1,2}}(?=\s))[*_]{{0,3}}[ \t]{{0,3}}(?!{NUMBERED}\d)(?=[^\s:-])"
)
_LONGEST = 400
"""Characters of one size's sentences, at most (ours)."""
_CHAIN = re.compile(
    r"(?i)(?:(?:with|using|in)\s[\w ]{1,24},?\s)?(?:loosely\s)?(?:(?:make|work)\s(?:a\s)?)?"
    r"(?:(?:ch|chain)\s?(?:of\s)?\d{1,3}|\d{1,3}\s?(?:ch|chains?)|f[shd]+c\s?\d{1,3}|\d{1,3}\s?f[shd]+c)\b[^.;\n\d]{0,24}[.;,)]{0,2}\s*"
)
_STOP = re.compile(r"[.;](?=\s|$)")


@dataclass(frozen=True, slots=True)
class ForSize:
    """What one size does stands in [begins, end); its label begins at `at`."""

    at: int
    begins: int
    end: int
    called: str


def told_by_size(text: str, start: int = 0) -> list[ForSize]:
    """The sentences of a text that stand side by side for single sizes: whatever they tell where the sizes are listed, else first chains.

    >>> text = "Small: Ch 61. Medium: Ch 71.\\nRow 1: sc across."
    >>> [(one.called, text[one.begins : one.end]) for one in told_by_size(text)]
    [('Small', 'Ch 61.'), ('Medium', 'Ch 71.')]
    >>> told_by_size("Large: Ch 6, 12 dc in ring, join.\\nSmall: Ch 4, 8 dc in ring, join.")
    []
    """
    labels = list(_LABEL.finditer(text, start))
    if len(labels) < 2:
        return []
    known = size_names_of(text[start:])
    found: list[ForSize] = []
    group: list[ForSize] = []
    for k, label in enumerate(labels):
        stop = labels[k + 1].start() if k + 1 < len(labels) else len(text)
        line = text.find("\n", label.end())
        line = len(text) if line < 0 else line
        one = ForSize(label.start("names"), label.end(), min(stop, line), label["names"].strip())
        if group and text[group[-1].end : one.at].strip(" \n\t>*_=#(•-") not in ("", "for", "For", "for the", "For the"):
            found += _kept(group, text, known)
            group = []
        group.append(one)
    return found + _kept(group, text, known)


def _kept(group: list[ForSize], text: str, known: tuple[str, ...]) -> list[ForSize]:
    """The sentences of one place, where they are for sizes and each tells some work; [] where they are the pieces of a set."""
    if len(group) < 2 or len({one.called.lower() for one in group}) < len(group):
        return []
    if len(group) > 1 and text.find("\n", group[-2].begins, group[-1].at) < 0:
        stop = _STOP.search(text, group[-1].begins, group[-1].end)  # all on one line: the rest of it is for all
        group = [*group[:-1], replace(group[-1], end=stop.end() if stop else group[-1].end)]
    for one in group:
        told = text[one.begins : one.end]
        named = bool(known) and bool(known_sizes(f"size {one.called}" if one.called[:1].isdigit() else one.called, known))
        works = L.CRAFT_START.match(told) and L.CRAFT_WORDS.search(told) and len(told) < _LONGEST
        if not (_CHAIN.fullmatch(told) or (named and works)):
            return []
    return group


def sizes_called(text: str) -> tuple[str, ...]:
    """The names of sizes that are told nowhere but where each of them begins."""
    names = dict.fromkeys(re.sub(r"(?i)^sizes?\s+|\s+sizes?$", "", one.called) for one in told_by_size(text))
    return tuple(names) if 2 <= len(names) <= 12 else ()
