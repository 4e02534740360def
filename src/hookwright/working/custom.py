"""Questions that words leave open, the answers custom gives, in order of custom. An answer holds for a whole part."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from ..trade.kinds import HEIGHT, TUNISIAN

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


MOST_TILE = 8
"""A chain of no more than this, worked along by itself, may be one tile of a piece that grows from corner to corner (common practice)."""


def skipped_customs(stitch: str, skipped: int, chains: int) -> tuple[StartAnswer, ...]:
    """What the chains skipped at the start of a chain of `chains` may be, custom first; beside a single tile they are a loop as well."""
    if stitch in TUNISIAN and skipped == 1:
        return ("counts",)  # the loop on the hook is the first stitch
    customs = _skipped_customs(stitch, skipped)
    return (*customs, "loop") if chains <= MOST_TILE and skipped >= 3 and "loop" not in customs else customs


def _skipped_customs(stitch: str, skipped: int) -> tuple[StartAnswer, ...]:
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


UNSAID = {"sl st": (1,), "sc": (1,), "hdc": (1, 2), "dc": (2, 3), "tr": (3, 4)}
"""Chains by custom passed over before a first stitch that names no chain (common practice, no source)."""
BEGINS_UNSAID = "Where does a row on the foundation chain begin that does not say where?"


START_WORDS: dict[StartAnswer, str] = {
    "counts": "yes, it stands for a stitch", "not": "no, it is only height", "loop": "no, it is a loop to work into",
}  # fmt: skip
NO_YES = ("no", "yes")


@dataclass(slots=True)
class Answers:
    """The answers of one part: `given` maps a question to the index of the answer taken, `asked` to the answers there are, custom first.

    `asked` grows while rows are worked; `consulted` is what the row at hand has looked at (for the row cache).
    """

    given: dict[str, int] = field(default_factory=dict)
    asked: dict[str, tuple[str, ...]] = field(default_factory=dict)
    consulted: dict[str, int] = field(default_factory=dict)

    def pick(self, question: str, answers: tuple[str, ...]) -> int:
        """The index of the answer to `question`: custom's (0) unless another is being tried."""
        self.asked.setdefault(question, answers)
        answer = self.given.get(question, 0)
        if answer >= len(answers):
            answer = 0
        self.consulted[question] = answer
        return answer

    def start(self, question: str, customs: tuple[StartAnswer, ...]) -> StartAnswer:
        """The answer to a question about chains at a row's start."""
        return customs[self.pick(question, tuple(START_WORDS[c] for c in customs))]

    def sentence(self, question: str, answer: int) -> str:
        """Question and answer as a maker reads them.

        >>> a = Answers(); _ = a.pick("Do chains count?", NO_YES); a.sentence("Do chains count?", 0)
        'Do chains count? No (custom).'
        """
        words = self.asked.get(question, ("",) * (answer + 1))[answer]
        return f"{question} {words[:1].upper()}{words[1:]} ({'custom' if answer == 0 else 'because it fits the rows'})."
