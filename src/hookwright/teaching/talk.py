"""What is said in the shots that belong to no row: the opening, what one needs, the gauge, the end."""

from __future__ import annotations

from collections.abc import Iterator

from ..pattern import Pattern
from ..trade.terms import System
from ..writing import SPOKEN, Lexicon
from ..writing.materials import gauge_of
from .naming import title_told
from .needs import needed
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
