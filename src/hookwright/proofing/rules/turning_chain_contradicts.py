"""The same starting chain counts as a stitch in one row and not in another.

What it checks: for each pair of (stitch, number of chains), whether the words say that the chain counts. The custom belongs to the pair:
ch 1 that does not count before sc, beside ch 3 that counts before dc, is no contradiction. The front matter's `turning_chains` speaks too.

Why: it decides where the first and last stitch of every row go; it is what followers ask about most.

Example:

    Row 2: Ch 3 (counts as dc), …
    Row 5: Ch 3 (does not count as a st), …

A row that says so itself ("does not count this time", "not in this row") contradicts nothing.

Message: Ch 3 before dc does not count here, and counts in Row 2.

Repair: none; say once, in the notes, what holds throughout.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from ...pattern import NOWHERE, Chain, Finding, Part, Row, Span, Step, once
from ...trade.terms import spelled
from ...working.needs import first_stitch
from .fits import plainly
from .rule import Case, Rule, in_text


@dataclass(frozen=True, slots=True)
class Told:
    """Whether a chain was said to count, where, and by which row (or the front matter)."""

    counts: bool
    span: Span
    by: str


def check(case: Case) -> Iterator[Finding]:
    """A finding at each chain that says the opposite of what was said first."""
    for at, trouble in case.troubled("turning-chain-contradicts"):
        yield plainly(case, RULE, at, trouble)
    facts = case.pattern.facts
    said: dict[tuple[str, int], Told] = {
        (stitch, custom.chains): Told(custom.counts, facts.spans.get(f"turning_chains.{stitch}", NOWHERE), "the notes")
        for stitch, custom in facts.turning_chains.items()
    }
    for part in case.pattern.parts:
        here = dict(said)
        for row in part.rows:
            yield from _row(part, row, here, case.pattern.source)


def _row(part: Part, row: Row, said: dict[tuple[str, int], Told], source: str) -> Iterator[Finding]:
    told = _told(row.steps)
    if told is None:
        return
    chain, stitch, number = told
    first = said.get((stitch, number))
    if first is None:
        said[stitch, number] = Told(bool(chain.counts), chain.span, row.label)
        return
    if first.counts == chain.counts or _FOR_ONCE.search(chain.span.of(source)):
        return
    here, there = ("counts", "does not count") if chain.counts else ("does not count", "counts")
    message = spelled(f"Ch {number} before {{{stitch}}} {here} in {row.label}, and {there} by {first.by}.", part.terms)
    notes = ((first.span, f"{there} here"),) if first.span != NOWHERE else ()
    numbers = row.numbers_at(0)
    yield in_text(RULE, chain.span, message, part=part, notes=notes, row=row.label, number=numbers[0] if numbers else None)


_FOR_ONCE = re.compile(r"(?i)\b(?:this\stime|for\sonce|(?:in|on|for)\sthis\s(?:row|round|rnd)|here)\b")
""" "Ch 1 (is not a st this time)": told as otherwise than elsewhere, and so no slip. """


@once
def _told(steps: tuple[Step, ...]) -> tuple[Chain, str, int] | None:
    """The starting chain of a row whose words say whether it counts, the stitch after it, and of how many chains it is."""
    chain = next((step for step in steps[:2] if isinstance(step, Chain)), None)
    if chain is None or chain.counts is None or chain.foundation or chain.number.many:
        return None
    after = steps[steps.index(chain) + 1 :]
    stitch = first_stitch(after) or next((kind for kind in chain.stands_for if not kind.startswith("ch")), None)
    number = chain.number.at(0)
    return None if stitch is None or number is None else (chain, stitch, number)


RULE = Rule("turning-chain-contradicts", "warning", check)
