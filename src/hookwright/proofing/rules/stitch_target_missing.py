"""The words name a place that the row below does not have.

What it checks: every named target ("in the ch-5 sp", "in next FPdc", "in the center dc of the shell") against what lies below.

Why: usually one of the two rows was changed and the other was not.

Example:

    Rnd 4: *Shell in next ch-3 sp; rep from * around.

over a round that made ch-2 spaces.

Message: Rnd 4 works into a ch-3 sp, and Rnd 3 has none: it has 8 ch-2 sp.

Repair: none. An error where the row does not fit either; a warning where only the name is wrong.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from ...pattern import Aside, Chain, Colour, Finding, Make, Place, Repeat, Severity, Span, Step, Together, Turn, once
from ...trade.kinds import HEIGHT
from .arithmetic import derivation
from .fits import below_name, misfits, plainly, softened
from .rule import At, Case, Rule, at_row

_SPACE = re.compile(r"ch-(\d+) sp")


def check(case: Case) -> Iterator[Finding]:
    """A finding for each named place that is not there."""
    for at, trouble in case.troubled("no-target"):
        what = trouble.data.get("what")
        if isinstance(what, str) and what:
            named = f"{{{what}}}" if " " not in what else what
            yield plainly(case, RULE, at, trouble, f"{at.name} works into a {named}, and {below_name(at)} has none there.")
        else:
            yield plainly(case, RULE, at, trouble)
    for at in case.worked():
        yield from missing_spaces(case, at)


def missing_spaces(case: Case, at: At) -> Iterator[Finding]:
    """A finding for each chain space that is named by a length the row below does not have, while that row is known whole."""
    named = _named_spaces(at.row.written.steps)
    if not named:
        return
    below = at.below()
    if below is None or below.foundation or below.read != "whole" or below.worked != "yes" or any(_told(at, "no-target")):
        return
    there = below.counted.by_kind
    spaces = {kind: number for kind, number in there.items() if _SPACE.fullmatch(kind)}
    if not spaces and not misfits(at):
        return
    spaces |= dict.fromkeys(_under_the_first_chain(below.written.steps) - set(spaces), 1)
    for place, span in named:
        if place.what not in spaces:
            others = ", ".join(f"{number} {kind}" for kind, number in sorted(spaces.items())) or "no chain space at all"
            message = f"{at.name} works into a {place.what}, and {below.label} has none: it has {others}."
            severity: Severity = "error" if misfits(at) else "warning"
            yield softened(at_row(RULE, at, span, message, working=derivation(at, case.source), severity=severity), at)


@once
def _named_spaces(steps: tuple[Step, ...]) -> tuple[tuple[Place, Span], ...]:
    return tuple((place, span) for place, span in _named(steps) if _SPACE.fullmatch(place.what))


def _under_the_first_chain(steps: Iterable[Step]) -> set[str]:
    """The space under the chain that begins a row, by all its chains: "under the 5 chain" of a row that turned with 5, though 3 of them
    are its first stitch."""
    first = next((step for step in steps if not isinstance(step, Turn | Aside | Colour)), None)
    return {f"ch-{number} sp" for number in first.number.values if number and number > HEIGHT["dc"]} if isinstance(first, Chain) else set()


def _told(at: At, kind: str) -> Iterator[bool]:
    return (True for trouble in at.row.troubles if trouble.kind == kind)


def _named(steps: Iterable[Step], worked: bool = False) -> Iterator[tuple[Place, Span]]:
    """Every place that steps name in the row just below; what is turned back to inside the row is the row's own."""
    for step in steps:
        if isinstance(step, Turn) and not step.no and worked:
            return
        worked = worked or isinstance(step, Make | Together)
        if isinstance(step, Make | Together):
            if step.at.where in ("next", "first", "last") and not step.at.below and step.at.row is None:
                yield step.at, step.span
        elif isinstance(step, Repeat):
            yield from _named((*step.body, *step.last), worked)


RULE = Rule("stitch-target-missing", "error", check)
