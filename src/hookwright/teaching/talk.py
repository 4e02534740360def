"""What is said in the shots that belong to no row: the opening, what one needs, the gauge, the end."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..pattern import Pattern
from ..trade.terms import System
from ..writing import SPOKEN, Lexicon
from ..writing.materials import gauge_of, materials_of
from .naming import title_told
from .shots import FilmPlan


def opening(pattern: Pattern, plan: FilmPlan) -> Iterator[str]:
    title = title_told(pattern)
    yield f"{title}: this is what we make." if title else "This is what we make."
    yield f"I use {plan.terms} terms; the other names are said once, when a stitch first comes."
    if plan.size:
        yield f"On camera you see size {plan.size}; the cards show the counts of every size."
    if pattern.facts.version:
        yield f"This film shows version {pattern.facts.version} of the pattern."


def what_you_need(pattern: Pattern) -> Iterator[str]:
    yield "What you need."
    for what, which in needed(pattern):
        yield f"{what}: {which}." if what else f"{which}."


def needed(pattern: Pattern) -> Iterator[tuple[str, str]]:
    """Pairs of what and which; of a pattern that lists its materials in prose, its own lines (with "" for what)."""
    own = tuple(_told(pattern))
    words = " ".join(own).lower()
    for what, which in materials_of(pattern):
        if not own or (what.partition(" ")[0].lower() not in words and what != "Notions"):
            yield what, which
    yield from (("", line) for line in own)


_HEAD = re.compile(
    r"(?i)^(?:(?:the )?materials?|supplies|you(?:'ll| will)? need|what you need|you will also need)\b"
    r"(?: list| needed)?\s*[:.]?\s*(?P<rest>.*)$"
)
_OTHER = re.compile(
    r"(?i)^(?:abbreviations?|gauge|tension|notes?|sizes?|finished|(?:US|UK) terms|terms|skill|special|pattern|instructions?|directions?)\b"
    r"|\s[-=–]\s"
)
_MARKS = re.compile(r"^\s*(?:[-*+>•]\s+|#+\s+)+|[*_]{2,}")
MOST_LINES, LONGEST = 10, 140
"""Lines taken of such a list at most, and letters of a line: more is a story."""


def _told(pattern: Pattern) -> Iterator[str]:
    """The maker's own lines below "Materials:" or "You will need", up to whatever comes next."""
    rows = [row.span.start for part in pattern.parts for row in part.rows]
    taken = -1
    for raw in pattern.source[: min(rows, default=0)].splitlines():
        line = " ".join(_MARKS.sub("", raw).split())
        head = _HEAD.match(line)
        if taken < 0:
            if head is None:
                continue
            taken = 0
            line = head["rest"]
        elif (taken and (not line or raw.lstrip().startswith("#"))) or _OTHER.search(line) or taken >= MOST_LINES:
            return
        if line and len(line) <= LONGEST:
            taken += 1
            yield f"{line[0].upper()}{line[1:]}".rstrip(" .;,")


def gauge_talk(pattern: Pattern, terms: System) -> Iterator[str]:
    lexicon = Lexicon(terms=terms, style=SPOKEN)
    word = "gauge" if terms == "US" else "tension"
    for gauge in pattern.facts.gauge[:2]:
        yield f"The {word}: {gauge_of(gauge, lexicon)}.".replace("\u00a0", " ")


def ending(pattern: Pattern, plan: FilmPlan) -> Iterator[str]:
    last = next((shot for shot in reversed(plan.shots) if shot.count and shot.row is not None), None)
    if last is not None and last.where:
        yield "That is the whole of it, every piece in its place."
    elif last is not None:
        yield f"That is the whole of it: the last {'round' if last.title.startswith('Round') else 'row'} has {last.count}."
    version = f" of version {pattern.facts.version}" if pattern.facts.version else ""
    yield f"If anything{version} is ever corrected, the correction stands with the pattern; the link is below."
