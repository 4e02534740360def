"""Shared by the rules about what a row is offered and what it uses."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...pattern import Finding, Repair, Repeat, Span
from ...working import Derived, RowTrouble
from .arithmetic import derivation, words
from .rule import At, Case, Rule, at_row

MISFITS = frozenset(("too-many", "too-few", "repeat-does-not-fit", "repeat-takes-nothing", "no-target"))
"""Troubles of a row that does not fit what it is offered: its count goes wrong with it, and is told with the same finding."""


def misfits(at: At) -> bool:
    """Whether the row does not fit what it is offered."""
    return any(trouble.kind in MISFITS for trouble in at.row.troubles)


def on_the_chain(at: At) -> bool:
    """Whether the row is worked into the foundation chain."""
    below = at.below()
    return below is not None and below.foundation


def offered(at: At, trouble: RowTrouble) -> int | None:
    """Places that the row was offered."""
    told = trouble.data.get("offered", at.row.offered)
    return told if isinstance(told, int) else None


def number_in(trouble: RowTrouble, *keys: str) -> int | None:
    """The first of these numbers that the trouble holds."""
    return next((value for key in keys if isinstance(value := trouble.data.get(key), int)), None)


def below_name(at: At) -> str:
    """The row below in a sentence."""
    below = at.below()
    return "the row below" if below is None else "the foundation chain" if below.foundation else below.label


def troubles(case: Case, rule: Rule, *kinds: str, chain: bool | None = None) -> Iterator[Finding]:
    """A finding for each trouble of these kinds, in working's own message. `chain`: only (not) in rows on the foundation chain."""
    for at, trouble in case.troubled(*kinds):
        if chain is None or on_the_chain(at) == chain:
            yield plainly(case, rule, at, trouble)


def plainly(
    case: Case,
    rule: Rule,
    at: At,
    trouble: RowTrouble,
    message: str = "",
    span: Span | None = None,
    *,
    sums: tuple[str, ...] = (),
    repair: Repair | None = None,
) -> Finding:
    """A finding with the trouble's own words, the row's derivation, and the sums that follow from it."""
    said = message or _sentence(trouble.message, at, words(case.source, trouble.span))
    working = (*derivation(at, case.source), *sums, *_count(at))
    where = next((one for one in (span, trouble.span, at.row.written.span) if one is not None and one.end > one.start), trouble.span)
    return softened(at_row(rule, at, where, said, working=working, repair=repair), at)


def softened(finding: Finding, at: At) -> Finding:
    """The finding as it is where it can be proved; a note, saying why, where the row or the one below is not known well enough."""
    if at.firm or finding.severity == "note":
        return finding
    if at.row.read != "whole" or at.row.worked == "assumed":
        why = f"{at.name} was not fully understood, so this may not be a flaw."
    else:
        why = f"{below_name(at)[:1].upper()}{below_name(at)[1:]} was not fully understood or does not fit, so this may only follow from it."
    return replace(finding, severity="note", working=(*finding.working, why), repair=None)


def _count(at: At) -> tuple[str, ...]:
    """What the row would make, where that is not what it states."""
    told = next((count.number.at(at.fabric.size) for count in at.row.stated if not count.running and not count.per), None)
    if at.row.state != "differs" or told is None:
        return ()
    return (f"It would make {at.row.counted.total}, and {told} {'is' if told == 1 else 'are'} stated.",)


def runs_out(at: At, places: int) -> Derived | None:
    """The first step that asks for more than is left of `places`; None when it cannot be told."""
    taken = 0
    for step in at.row.derivation:
        taken += step.took
        if taken > places and step.span.end > step.span.start:
            return step
    return None


def overrunning_repeat(case: Case, at: At, places: int) -> tuple[Derived, int] | None:
    """The repeat told a number of times that runs out of places, and how often it is told; None when another step does."""
    step = runs_out(at, places)
    node = None if step is None else case.step(step.step)
    if step is None or not isinstance(node, Repeat) or node.times.kind not in ("n", "more"):
        return None
    times = (node.times.number.at(at.fabric.size) or 0) + (node.times.kind == "more")
    return (step, times) if times > 1 and step.took and step.took % times == 0 else None


def last_taken(at: At) -> Span | None:
    """The last step that took a place; None when none did."""
    return next((step.span for step in reversed(at.row.derivation) if step.took and step.span.end > step.span.start), None)


def _sentence(message: str, at: At, said: str) -> str:
    text = message or f"“{said}” does not fit"
    text = text if text.endswith((".", "!", "?")) else f"{text}."
    return text if at.row.label and at.row.label in text else f"{at.name}: {text}"
