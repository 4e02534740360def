"""A row comes out in one size only if its chain counts, and in the others only if it does not.

What it checks: what words leave open (whether a chain counts as a stitch, how often a repeat is worked) and the sums settle, in each
size by itself. One maker writes the same words for all sizes, so where the sums of one row settle it otherwise for one size, a number of
that size is out of step. Rows told for some sizes only settle nothing for the others.

Why: the numbers of one size are the last to be tried, and one of them wrong leaves its follower with a piece that cannot come out.

Example:

    Rnd 9: Ch 1, hdc in next 12 (15, 17) sts, ch 2, skip 8 sts, hdc in last 13 (15, 17) sts, join. (26 (30, 34) hdc)

Message: Rnd 9 comes out in size S with another answer than in the other sizes: does ch 1 at the start of a row of hdc count? Look at the
numbers of size S.

Repair: none.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from ...pattern import Finding
from .rule import At, Case, Rule, at_row
from .sizes_unequal import numbers_by_size


def check(case: Case) -> Iterator[Finding]:
    """A finding at the first row with numbers for sizes that asks such a question, in each size that stands alone with its answer."""
    if len(case.fabrics) < 2:
        return
    for key in dict.fromkeys(key for fabric in case.fabrics for key in fabric.taken):
        answers = {fabric.size: fabric.taken[key].answer for fabric in case.fabrics if key in fabric.taken}
        (usual, often), *others = Counter(answers.values()).most_common()
        if others and often > others[0][1] and len(answers) == len(case.fabrics):
            yield from _alone(case, key, {size for size, answer in answers.items() if answer != usual}, usual)


def _alone(case: Case, key: str, sizes: set[int], usual: str) -> Iterator[Finding]:
    names = case.pattern.facts.size_names
    for size in sorted(sizes):
        at = next((one for one in case.worked() if one.fabric.size == size and _asks(one, key)), None)
        if at is None:
            continue
        taken = at.fabric.taken[key]
        name = f"size {names[size]}" if size < len(names) and names[size] else f"size {size + 1}"
        question = taken.question[:1].lower() + taken.question[1:]
        message = f"{at.name} comes out in {name} with another answer than in the other sizes: {question} Look at the numbers of {name}."
        working = (f"In {name}: {taken.answer}.", f"In the other sizes: {usual}.")
        yield at_row(RULE, at, at.row.written.span, message, working=working)


def _asks(at: At, key: str) -> bool:
    part, _, question = key.partition(": ")
    asked = any(reading.startswith(question) for reading in at.row.readings)
    everywhere = at.row.written.only is None and at.row.state == "agrees"
    return asked and everywhere and at.part.name == part and numbers_by_size(at.row.written)


RULE = Rule("sizes-answer-otherwise", "warning", check)
