"""Rows worked into one loop of the stitches below, of which only the stitches are told: "single crochet in each stitch around"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...pattern import Make
from ...pattern.walking import inside
from ...trade.terms import System
from ...trade.terms import name as full_name
from .anchors import takes_back
from .findings import Heard, sure_unsaid
from .lexicon import words
from .said import Heard_, told_as_same
from .segments import Speech, Stretch
from .tokens import Token
from .units import Unit

_LOOPS = words("loops_untold", "loops")
"""Words in which it may be told, or pointed at, into which loop one works; any word with "loop" in it besides."""
_LINES = words("loops_untold", "lines")
_SIDES, _AT = words("loops_untold", "sides"), frozenset(("the", "only", "through", "just"))
"""Lines one sees on the fabric and sides of a stitch, and what stands before a side where it is meant: "through the back"."""
_INTO = frozenset(("in", "into", "through", "under", "behind", "only", "just", "around", "work", "working", "using", "use", "catch"))
REACH = 5
"""What stands within so many words before a line or a side that one works into: "into that ridge"; "makes the ridge" and "a line on the
front" tell what comes of it."""
LEAD = 20
"""Words before a row is named in which it may be told what is special about it (ours)."""


def loops_untold(units: Sequence[Unit], speech: Speech, terms: System) -> Iterator[Heard]:
    """Each such row once, where its loop is that of no row beside it and no other such row goes without."""
    by_unit = speech.by_unit()
    asked = [unit for unit in units if _loop(unit) and unit.index in by_unit]
    for unit in asked:
        yield from _other_loop(unit, by_unit[unit.index], speech)
    silent = [unit for unit in asked if not any(_told(speech, stretch) for stretch in by_unit[unit.index])]
    if len(silent) != 1:
        return
    (unit,) = silent
    stretches = by_unit[unit.index]
    beside = [units[k] for k in (unit.index - 1, unit.index + 1) if 0 <= k < len(units) and units[k].part == unit.part]
    named = next((h.k for stretch in stretches for h in stretch.heard if _stitch(unit, h)), -1)
    first = named if named >= 0 else next((k for s in stretches for k in range(s.begins, s.end) if _one_in_each(speech.tokens, k)), -1)
    retold = any(told_as_same(speech.tokens, s.start, s.end) or not s.meant.right or s.several for s in stretches)
    if first < 0 or retold or unit.refers or len(unit.rows) > 1 or any(_loop(other) for other in beside):
        return
    said = " ".join(token.raw for token in speech.tokens[max(0, first - 3) : first + 6])
    stitch = full_name(next(step.stitch for step in _made(unit)), terms)
    message = f"{unit.label} is worked in the {_loop(unit)} loop only ({stitch}), which is not said"
    yield Heard(
        kind="left out",
        at=speech.tokens[first].at,
        words=said,
        row=unit.label,
        message=message,
        sure=sure_unsaid(edited=speech.edited),
    )


_OTHER = {"back": "front", "front": "back"}


def _other_loop(unit: Unit, stretches: Sequence[Stretch], speech: Speech) -> Iterator[Heard]:
    """The other loop told for the row's own: "in the front loops only" where the page has the back ones."""
    tokens = speech.tokens
    for stretch in stretches:
        own, said = _loop(unit), [k for k in range(stretch.begins, stretch.end - 1) if tokens[k + 1].text.startswith("loop")]
        named = [k for k in said if tokens[k].text in _OTHER]
        if stretch.several or {tokens[k].text for k in named} != {_OTHER[own]} or takes_back(tokens, named[0] - 3, named[0] + 10):
            continue
        if any(token.text in ("not", "never", "leave", "leaving", "ignore") for token in tokens[max(0, named[0] - 4) : named[0]]):
            continue
        message = f"the {tokens[named[0]].text} loop is said, and {unit.label} is worked in the {own} loop only"
        words = " ".join(token.raw for token in tokens[max(0, named[0] - 3) : named[0] + 4])
        yield Heard(kind="left out", at=tokens[named[0]].at, words=words, row=unit.label, message=message, sure=0.66)


def _loop(unit: Unit) -> str:
    """ "back" or "front" where all stitches of the row go into that loop; "" else."""
    made = [step.at.loop for step in _made(unit)]
    return made[0] if made and made[0] in ("back", "front") and len(set(made)) == 1 else ""


def _made(unit: Unit) -> list[Make]:
    return [step for step in inside(unit.rows[0].written.steps) if isinstance(step, Make) and step.stitch != "sl st"]


def _one_in_each(tokens: Sequence[Token], k: int) -> bool:
    """Whether the stitches of the row are told without their name: "One in each, all around"."""
    behind = [token.text for token in tokens[k + 1 : k + 3]]
    return tokens[k].number == 1 and tokens[k].kind == "num" and not tokens[k].stop and behind in (["in", "each"], ["in", "every"])


def _stitch(unit: Unit, h: Heard_) -> bool:
    return h.item.kind != "ch" and h.item.plain in unit.kinds


def _told(speech: Speech, stretch: Stretch) -> bool:
    said = speech.tokens[max(0, stretch.start - LEAD) : stretch.end]
    spoken = [word.strip(".,!?") for token in said for word in token.raw.lower().split()]
    if any("loop" in word or word in _LOOPS for word in spoken):
        return True
    places = [k for k, word in enumerate(spoken) if word in _LINES or (word in _SIDES and k and spoken[k - 1] in _AT)]
    return any(word in _INTO for k in places for word in spoken[max(0, k - REACH) : k])
