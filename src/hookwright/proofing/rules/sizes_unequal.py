"""A list of sizes has another length than the pattern has sizes.

What it checks: every number written for several sizes ("38 (42, 46)"), in rows and in facts. One number for all sizes is always right.

Why: one size was forgotten, and every follower of a size after it reads the wrong number.

Example:

    sizes: S (M, L)
    Row 4: Sc in next 10 (12) sts.

Message: Here are 2 numbers, and the pattern has 3 sizes (S, M, L).

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from ...pattern import Finding, Row, Sized, Span
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding for each list that is too long or too short."""
    told: set[Span] = set()
    for trouble in case.noticed("sizes-unequal"):
        told.add(trouble.span)
        yield in_text(RULE, trouble.span, trouble.message if trouble.message.endswith(".") else f"{trouble.message}.")
    sizes = case.pattern.sizes
    if sizes < 2:
        return
    for part in case.pattern.parts:
        for row in part.rows:
            for span, length in _unequal(row, sizes):
                if not any(span.start <= one.end and one.start <= span.end for one in told):
                    told.add(span)
                    numbers = row.numbers_at(0)
                    message = f"Here are {length} numbers, and the pattern has {sizes} sizes ({', '.join(case.pattern.facts.size_names)})."
                    yield in_text(RULE, span, message, part=part, row=row.label, number=numbers[0] if numbers else None)


def _unequal(row: Row, sizes: int) -> Iterator[tuple[Span, int]]:
    for node in (*row.steps, *row.stated):
        for span, sized in _sized(node, row.span):
            if sized.many and len(sized.values) != sizes:
                yield span, len(sized.values)


def numbers_by_size(row: Row) -> bool:
    """Whether a row's steps hold a number that depends on the size."""
    return any(sized.many for step in row.steps for _, sized in _sized(step, row.span))


def _sized(node: object, span: Span) -> Iterator[tuple[Span, Sized[object]]]:
    """Every number of a tree, with the span of the node that holds it."""
    if isinstance(node, Sized):
        yield span, node
    elif isinstance(node, tuple) and not isinstance(node, Span):
        for item in node:
            yield from _sized(item, span)
    elif is_dataclass(node):
        here = getattr(node, "span", span)
        here = here if isinstance(here, Span) and here.end > here.start else span
        for one in fields(node):
            if one.name != "span":
                yield from _sized(getattr(node, one.name), here)


RULE = Rule("sizes-unequal", "error", check)
