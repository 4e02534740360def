"""What by itself explains a number told otherwise than it is written, or a thing that is not said."""

from __future__ import annotations

from collections.abc import Sequence

from .anchors import takes_back
from .detail import Told_
from .evidence import Gap
from .laying import fits
from .lexicon import words
from .segments import Speech
from .tokens import Token
from .told_rows import ToldRow

FAR = 6
"""Farther from what is written a number is of something else, if it is not at most twice as large (ours)."""
PUT_RIGHT = 16
"""Words within which a wrong number is put right (ours)."""
_NO = words("excuses", "no")
_VAGUE = words("untold", "vague")
"""Words in which a thing may be told that is not named."""


def number_excused(row: ToldRow, at: int, speech: Speech) -> bool:
    """Whether the number of the step `at` is no slip: put right at once, told right elsewhere, of another thing, or counted aloud."""
    step = row.steps[at]
    assert step.place is not None and step.told is not None and step.told.number is not None
    numbers, said = row.asked[step.place].numbers, step.told.number
    return (
        step.place in row.right
        or min(abs(said - wanted) for wanted in numbers) > max(FAR, *numbers)
        or put_right(speech.tokens, step.told.at_number, numbers, row.main.end)
        or _of_another_round(row, at)
        or _counted_up(row, speech.tokens, step.told.at_number)
    )


def loss_excused(gap: Gap, *, told_elsewhere: bool, skips_told: bool = False) -> bool:
    """Whether a thing may go unsaid: nobody tells it, vague words stand for it, or its place or another like it tells it; `told_elsewhere`:
    this speaker tells the very thing in other rows; `skips_told`: and all other skips."""
    over_to_last = gap.after is not None and _last(gap.after) and not skips_told
    return (
        _never_told(gap.row, gap.place)
        or any(token.text in _VAGUE for token in gap.between)
        or _to_each_side(gap)
        or (gap.opens and gap.like_said(number=False) and not told_elsewhere)
        or (gap.named == "skip" and gap.after is not None and (_placed(gap.speech.tokens, gap.after.k) or over_to_last))
        or (gap.named == "skip" and gap.onwards and gap.like_said(number=False))
        or (gap.named == "skip" and gap.after is not None and gap.after.where == "last" and _no_skip_told(gap.row))
    )


_SIDE = frozenset(("side", "sides", "between", "inbetween", "apart"))
SIDE = 5
"""Words behind a chain within which it is told to stand on each side, or between (ours)."""


def _to_each_side(gap: Gap) -> bool:
    """Whether a chain is told beside another thing: "three doubles in the space, with a chain one on each side of it"."""
    said, first = gap.speech.tokens, gap.row.main.begins
    return gap.row.asked[gap.place].kind == "ch" and any(
        said[k].kind == "chain" and any(token.text in _SIDE for token in said[k + 1 : min(k + SIDE + 1, gap.row.main.end)])
        for k in range(max(gap.begins, first), min(gap.ends + NEAR_SIDE, gap.row.main.end))
    )


NEAR_SIDE = 16
"""Words behind the thing next told within which that may be told (ours)."""


def put_right(tokens: Sequence[Token], k: int, right: frozenset[int], end: int) -> bool:
    """Whether the number at token k is taken back and the right one told: "in the next four, no, forgive me, in the next three"."""
    for i in range(k + 1, min(k + PUT_RIGHT, end)):
        if tokens[i].kind == "num" and tokens[i].number in right:
            return any(token.text in _NO for token in tokens[k + 1 : i]) or takes_back(tokens, k + 1, i)
    return False


def _of_another_round(row: ToldRow, k: int) -> bool:
    """Whether the thing of step k, with what is said before and behind it, is word for word a group of the row that is else not said: a
    corner told once more by itself."""
    said = [step.told for step in row.steps[max(k - 1, 0) : k + 2]]
    groups = [row.asked[first : first + 3] for first in range(len(row.asked) - 2) if first + 1 not in row.met]
    return len(said) == 3 and any(
        group[0].group >= 0
        and len({one.group for one in group}) == 1
        and all(told is not None and fits(one, told) for one, told in zip(group, said, strict=True))
        for group in groups
    )


def _counted_up(row: ToldRow, tokens: Sequence[Token], k: int) -> bool:
    """Whether the number at token k ends a count aloud: "so five six six single crochet"; not "round five: five single crochet", nor "in
    the next three, three in the one after"."""
    before = tokens[k - 1] if k else None
    if before is None or before.kind != "num" or before.number not in (tokens[k].number, tokens[k].number - 1):
        return False
    names = k - 1 in range(*row.main.meant.anchor.named)
    return not names and not any(step.told is not None and step.told.kind != "?" and step.told.at_number == k - 1 for step in row.steps)


def _never_told(row: ToldRow, place: int) -> bool:
    """Whether a thing is left out by everybody: a chain to start with, a slip stitch, "in each across" behind one of the same stitch."""
    one = row.asked[place]
    beside = [k for k in (place - 1, place + 1) if k in row.met and (row.asked[k].kind, row.asked[k].what) == (one.kind, one.what)]
    return row.classes[place] in ("start", "slip") or (not one.numbers and bool(beside))


def _placed(tokens: Sequence[Token], k: int) -> bool:
    """Whether the place of the thing at token k is told by what it is, so that nobody need say what is skipped: "on the double crochet"."""
    if tokens[k].stop:
        return False
    behind = tokens[k + 1 : k + 5]
    at = next((i for i, token in enumerate(behind) if token.text in ("in", "into", "on", "over")), None)
    if at is None:
        return False
    named = [token for token in behind[at:] if token.kind in ("st", "space", "shell", "cluster", "ord", "ring")]
    return bool(named) and not any(token.text in ("next", "following") for token in behind)


def _no_skip_told(row: ToldRow) -> bool:
    """Whether a row has several skips of which none is told: this speaker tells where things go, and not what lies between."""
    skips = [k for k, named in enumerate(row.classes) if named == "skip"]
    return len(skips) > 1 and not row.met & set(skips)


def _last(told: Told_) -> bool:
    """Whether a thing goes into the one last stitch: what lies before it is skipped of itself."""
    return told.where == "last" and told.number in (None, 1)
