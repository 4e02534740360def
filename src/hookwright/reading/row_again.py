"""A plain row read before, where it stood before: the very row again.

What a row becomes rests on its reading (which its words and their context decide, `rows.read_row`), on where it stands, on its label and on
the little that this part keeps for it: the rules told for starting chains, the groups that the pattern names. Of a plain one that is all:
its words tell nothing of other rows (`RowReading.plain`), and nothing was kept back for it. While a pattern is written, such rows are made
once, and all that comes after (working, proofing) knows them by being the very same.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Literal

from ..pattern import Row, Span
from .named_groups import named
from .rows import Lexicon, RowReading, at
from .starting_told import Rule, holding_on, with_rules

Rules = tuple[tuple[int, Rule], ...]


@lru_cache(maxsize=4096)
def plain_row(
    reading: RowReading, text: str, start: int, first: int, number: int, name: str, numbers: tuple[tuple[int, ...], ...],
    noun: Literal["row", "round"], side: Literal["RS", "WS"] | None, begin: int, end: int, label_end: int, rules: Rules, lexicon: Lexicon,
) -> tuple[Row, Mapping[int, Rule]]:  # fmt: skip
    """The row, and the rules it tells for those after it.

    Its label begins at `begin`, its `text` at `start`, its nodes are numbered after `first`.
    """
    steps, counts, _ = at(reading, start, first)
    steps = named(with_rules(steps, dict(rules)), dict(lexicon.specials))
    row = Row(
        id=number, label=name, numbers=numbers, noun=noun, side=side, steps=steps, stated=counts, span=Span(begin, end),
        label_span=Span(begin, label_end),
    )  # fmt: skip
    return row, holding_on(text, steps)
