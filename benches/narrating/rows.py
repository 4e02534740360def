"""What there is to say of a pattern: each written row with its clauses in spoken words, and its count."""

# ruff: noqa: E501

from __future__ import annotations

import re
from dataclasses import dataclass, field

from hookwright.pattern import Pattern, Refer
from hookwright.teaching.counts import count_words
from hookwright.teaching.speech import spoken
from hookwright.working import Fabric, work
from hookwright.writing import SPOKEN, one_size, settled, write


@dataclass
class ToSay:
    """One written row. `clauses` its steps in spoken words, figures kept; `count` its stitches, `count_text` all it holds, in words."""

    label: str
    noun: str
    first: int
    last: int
    part: str
    clauses: list[str]
    count: int
    count_text: str
    kinds: frozenset[str]
    again: bool
    lead: list[str] = field(default_factory=list)
    """The foundation, said before the row."""


def rows_to_say(pattern: Pattern, fabric: Fabric, terms: str) -> list[ToSay]:
    alone = one_size(settled(pattern, [fabric] * pattern.sizes), fabric.size)
    words = {row.id: row for part in write(alone, terms=terms, style=SPOKEN).parts for row in part.rows}  # type: ignore[arg-type]
    out: list[ToSay] = []
    for part in fabric.parts:
        lead: list[str] = []
        done: set[int] = set()
        for row in part.rows:
            said = words.get(row.written.id)
            if row.foundation:
                lead = clauses_of(said.steps) if said is not None and not row.written.numbers else []
                continue
            if row.number is None or row.written.id in done or said is None:
                continue
            done.add(row.written.id)
            same = [r for r in part.rows if r.written.id == row.written.id and r.number is not None]
            last = same[-1]
            out.append(
                ToSay(
                    label=row.label, noun="round" if row.made_in not in ("rows", "passes") else "row", first=row.number, last=last.number or 0,
                    part=part.name, clauses=clauses_of(said.steps), count=last.counted.total, count_text=count_words(last, terms),  # type: ignore[arg-type]
                    kinds=frozenset(row.counted.by_kind), again=any(isinstance(s, Refer) for s in row.written.steps), lead=lead,
                )
            )  # fmt: skip
            lead = []
    return out


def clauses_of(steps: tuple[str, ...]) -> list[str]:
    """The steps as short clauses, the body of a repeat clause by clause."""
    out: list[str] = []
    for step in steps:
        text = spoken(step.strip(" .;,"))
        text = text[:1].lower() + text[1:]
        repeat = re.match(r"^repeat ([^:]{1,40}): (.*?);? ?end of repeat$", text)
        if repeat:
            out += [piece.strip() for piece in re.split(r"[,;] ", repeat[2]) if piece.strip()]
            out.append(f"repeat that {repeat[1]}")
        else:
            out += [piece.strip() for piece in re.split(r"[,;] ", text) if piece.strip()]
    return out


def worked(pattern: Pattern, size: int = 0) -> Fabric:
    return work(pattern, size=size)
