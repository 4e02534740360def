"""Questions that words leave open, the answers custom gives, in order of custom. An answer holds for a whole part."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

HEIGHT = {"sl st": 0, "sc": 1, "esc": 2, "hdc": 2, "ehdc": 3, "dc": 3, "edc": 4, "tr": 4, "dtr": 5, "trtr": 6, "qtr": 7}
"""Customary height of each stitch in chains (Dummies, "How to crochet a turning chain"; craft council tables agree)."""

StartAnswer: TypeAlias = Literal["counts", "not", "loop"]


def start_chain_customs(stitch: str, chains: int) -> tuple[StartAnswer, ...]:
    """What a starting chain of `chains` before a row of `stitch` may be, custom first (common practice, no source).

    >>> start_chain_customs("dc", 3)[0], start_chain_customs("sc", 1)[0], start_chain_customs("dc", 5)[0], start_chain_customs("sc", 5)[0]
    ('counts', 'not', 'counts', 'loop')
    """
    height = HEIGHT.get(stitch, 3)
    if chains == 1:
        return ("not", "counts") if height > 1 else ("not",)
    if height <= 1:
        return ("loop", "counts", "not") if chains >= 3 else ("not", "counts")
    if chains > height:
        return ("counts", "loop", "not")
    if chains == height and height >= 3:
        return ("counts", "not")
    return ("not", "counts")


def skipped_customs(stitch: str, skipped: int) -> tuple[StartAnswer, ...]:
    """What the chains skipped at the start of Row 1 may be, custom first."""
    height = HEIGHT.get(stitch, 3)
    if skipped <= 1:
        return ("not", "counts") if skipped and height > 1 else ("not",)
    if height <= 1:
        return ("not", "loop", "counts") if skipped == 2 else ("loop", "counts", "not")
    if skipped > height:
        return ("counts", "loop", "not")
    if skipped == height and height >= 3:
        return ("counts", "not")
    return ("not", "counts")


@dataclass(slots=True)
class Answers:
    """The answers of one part: `given` maps a question to the index of the answer taken, `asked` to how many answers it has.

    `asked` grows while rows are worked; `consulted` is what the row at hand has looked at (for the row cache).
    """

    given: dict[str, int] = field(default_factory=dict)
    asked: dict[str, int] = field(default_factory=dict)
    consulted: dict[str, int] = field(default_factory=dict)

    def pick(self, question: str, options: int, default: int = 0) -> int:
        """The index of the answer to `question`, custom's (`default`) unless another was tried."""
        self.asked.setdefault(question, options)
        answer = self.given.get(question, default)
        if answer >= options:
            answer = default
        self.consulted[question] = answer
        return answer
