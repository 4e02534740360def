"""A stitch is used and not listed among the abbreviations.

What it checks: where a pattern has a list of abbreviations, that every stitch its rows work is in it, or is defined as a special stitch.

Why: a follower looks there first.

Example:

    Abbreviations: ch = chain, sc = single crochet
    Row 5: FPdc around next st, …

Message: FPdc is used and is not in the list of abbreviations (front post double crochet).

Repair: none; the meaning to add stands in the message.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding, Span
from ...trade.terms import abbr, kind_of, name
from .abbreviations import listed, used
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A note at the first use of each stitch that is not listed."""
    entries = listed(case.source)
    if len(entries) < 3:
        return
    terms = case.pattern.terms
    known = {kind_of(entry.short, terms) or entry.short.lower() for entry in entries} | set(case.pattern.defined)
    for kind, span in used(case.pattern):
        if not _told(kind, known):
            yield _finding(kind, span, terms)


def _told(kind: str, known: set[str]) -> bool:
    if kind in known or kind.lower() in known or kind in ("inc", "dec", "ch"):
        return True
    stem, _, tail = kind.rpartition("tog")
    return bool(stem) and not tail and ("tog" in known or stem.rstrip("0123456789") + "2tog" in known)


def _finding(kind: str, span: Span, terms: str) -> Finding:
    system = "UK" if terms == "UK" else "US"
    short, full = abbr(kind, system), name(kind, system)
    tail = f" ({full})" if full != short else ""
    return in_text(RULE, span, f"{short} is used and is not in the list of abbreviations{tail}.")


RULE = Rule("abbreviation-undefined", "note", check)
