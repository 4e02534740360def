"""Rows that are named, begun and ended in words, while no stitch of theirs is told: "Row four. Chain one, turn. Seventy-one."."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...trade.terms import System
from .findings import Heard, sure_unsaid
from .lexicon import words
from .said import told_as_same
from .segments import Speech, Stretch
from .stitch_slips import item_words
from .things import OWN_NOUNS
from .units import Unit

FEWEST, HABIT = 4, 0.75
"""So many other rows, and such a share of them, must be told with their stitches before one without any means something (ours)."""
_STEPS = frozenset(("chain", "turn", "join", "skip", "slip"))
"""What of a row is told: then its stitches are not merely left to the eye."""
_NAMES = frozenset(
    ("st", "increase", "decrease", "together", "repeat", "shell", "cluster", "bobble", "puff", "popcorn", "picot", "v-stitch", "front post",
     "back post")
)  # fmt: skip
_WORK = _NAMES | {"around", "row", "rows", "ring", "space", "stitch"}
_OTHERWISE = words("untold", "vague") | words("untold", "otherwise")
"""Words in which work is told without a stitch's name."""


def rows_untold(units: Sequence[Unit], speech: Speech, terms: System) -> Iterator[Heard]:
    """Each such row once; where a speaker tells few rows stitch by stitch, none."""
    by_unit = speech.by_unit()
    told = sum(any(h.item.kind != "ch" for s in some for h in s.heard) for some in by_unit.values())
    if told < FEWEST or told < HABIT * len(by_unit):
        return
    for some in by_unit.values():
        unit, stretch = some[0].unit, some[0]
        item = next((one for one in unit.items if one.kind != "ch"), None)
        if len(some) > 1 or item is None or unit.refers or not stretch.meant.right or not _untold(stretch, speech):
            continue
        at = next(t.at for t in speech.tokens[stretch.begins : stretch.end] if t.kind in _STEPS)
        said = " ".join(t.raw for t in speech.tokens[stretch.start : min(stretch.begins + 6, stretch.end)])
        message = f"{unit.label} also has {item_words(item, terms)}, which is not said"
        yield Heard(kind="left out", at=at, words=said, row=unit.label, message=message, sure=sure_unsaid(edited=speech.edited))


def _untold(stretch: Stretch, speech: Speech) -> bool:
    """Whether something of the row is told and nothing that can stand for its stitches: no name, no number but counts, no "plain"."""
    end = _over(stretch, speech)
    tokens = speech.tokens[stretch.begins : end]
    if any(token.kind in _NAMES for token in speech.tokens[end : stretch.end]):
        return False
    if not any(token.kind in _STEPS for token in tokens) or told_as_same(speech.tokens, stretch.start, end):
        return False
    for k, token in enumerate(tokens):
        of_chain = any(other.kind == "chain" for other in tokens[max(k - 1, 0) : k + 2])
        if token.kind in _WORK or token.text in _OTHERWISE or token.text in OWN_NOUNS:
            return False
        if token.kind == "num" and not of_chain and token.number not in stretch.unit.any_allowed:
            return False
    return True


def _over(stretch: Stretch, speech: Speech) -> int:
    """The token behind the sentence in which the row is closed or counted; the stretch's end where it is not."""
    allowed = stretch.unit.any_allowed
    for k in range(stretch.begins, stretch.end):
        token = speech.tokens[k]
        if token.kind in ("turn", "join", "slip") or (token.kind == "num" and token.number > 4 and token.number in allowed):
            return speech.told_until(k, stretch.end) + 1
    return stretch.end
