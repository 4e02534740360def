"""What was said against what is written: every difference, with time, words and row, the surest first.

What is merely said differently raises no alarm: other orders of words, a stitch named by its parts, counts of any kind the row has, a
slip taken back at once, the other terms named to explain, numbers of a story. Machines mishear, so each difference is weighed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ...trade.terms import System
from ...working import Fabric
from ..cues import Cue
from .asides import with_asides
from .caption_files import CannotHear, Captions, of_cues
from .chains_led import with_leads
from .count_slips import count_slips, counts_never_said, right_in_other_sizes
from .dialect import Speaking, speakings_of
from .findings import Heard
from .judging import judged
from .lexicon import words
from .loops_untold import loops_untold
from .marks import marked_up
from .number_slips import number_slips
from .ordinals_split import ordinals_split
from .places_untold import places_untold
from .row_slips import row_slips, rows_never_said, rows_of_other_sizes
from .segments import Speech, lay_out
from .size_lists import size_list_slips
from .stitch_slips import stitch_slips
from .tokens import Token, tokens_of
from .units import Unit, units_of
from .untold import rows_untold
from .words import spoken_words

_CRAFT = ("row", "rows", "st", "increase", "decrease")
_ENGLISH = words("compare", "english")


def compare(
    fabric: Fabric, captions: Captions | tuple[Cue, ...], *, sizes: Sequence[Fabric] = (), doubtful: bool = False
) -> tuple[Heard, ...]:
    """Every difference between the spoken instructions and the rows, the surest first.

    `sizes`: the pattern in all its sizes; the one that agrees best with the counts told is taken. `doubtful`: also what is less sure than
    one half. Raises CannotHear in one sentence where nothing of the craft is said, or the words are of another language.
    """
    best = understood(captions, sizes or (fabric,))
    names = frozenset(" ".join(fabric.pattern.facts.size_names).lower().split())
    others = {"count": right_in_other_sizes(best.speech, names), "row": rows_of_other_sizes(best.speech)}
    listed = list(size_list_slips(best.speech, sizes, names))
    kept = [h for h in best.heard if (h.row, h.at) not in others.get(h.kind, ())]
    kept = [*(h for h in kept if not any(h.row == one.row and _at_once(h, one) for one in listed)), *listed]
    told = sorted(judged(kept, best.units), key=lambda h: (-h.sure, h.at if h.at is not None else 1e9, h.row, h.kind))
    return tuple(h for h in told if doubtful or not h.doubtful)


@dataclass(frozen=True, slots=True)
class Understood:
    """The words laid along one size of the pattern; `heard` the differences, each judged for itself."""

    units: Sequence[Unit]
    speech: Speech
    heard: tuple[Heard, ...]


def understood(captions: Captions | tuple[Cue, ...], sizes: Sequence[Fabric]) -> Understood:
    """The words laid along the size, and taken in the terms, that agree best with them. Raises CannotHear as `compare` does."""
    heard = captions if isinstance(captions, Captions) else of_cues(captions)
    tokens = with_asides(marked_up(with_leads(tokens_of(spoken_words(heard)))))
    _refuse(tokens)
    every = [_differences(one, tokens) for one in sizes]
    return min(every, key=lambda found: _weight(found.heard) - (TOLD_RIGHT * _told_right(found.speech) if len(every) > 1 else 0.0))


TOLD_RIGHT = 0.3
"""What it weighs for a size that a row's count is told as it is in that size (ours)."""


def _told_right(speech: Speech) -> int:
    """How many rows are told with a count they have and that is no number of their instruction."""
    return sum(
        any(told.strength >= 0.5 and told.number in stretch.unit.any_allowed - stretch.unit.instructed for told in stretch.counts)
        for stretch in speech.stretches
    )


def _weight(found: tuple[Heard, ...]) -> float:
    return sum(h.sure for h in found if not h.doubtful)


def _refuse(tokens: list[Token]) -> None:
    craft = sum(token.kind in (*_CRAFT, "chain", "stitch") and token.sure == 1 for token in tokens)
    english = sum(token.text in _ENGLISH for token in tokens)
    if len(tokens) >= 6 and english * 25 < len(tokens) and craft * 8 < len(tokens):
        raise CannotHear("These captions are not in English as far as can be told: only English narrations are compared.")
    if not any(token.kind in _CRAFT and token.sure == 1 for token in tokens):
        raise CannotHear("No row number and no stitch is said in these captions: are they of this pattern, and in English?")


def _differences(fabric: Fabric, tokens: list[Token]) -> Understood:
    units = units_of(fabric)
    tokens = ordinals_split(tokens, max((unit.last for unit in units), default=0))
    own: System = fabric.pattern.terms
    every = (_told_in(units, tokens, speaking) for speaking in speakings_of(tokens, units, own))
    return min(every, key=lambda found: _weight(found.heard))


def _told_in(units: Sequence[Unit], tokens: list[Token], speaking: Speaking) -> Understood:
    """The differences where the speaker uses these terms."""
    speech = lay_out(tokens, units, speaking.terms, quoting=speaking.terms != speaking.own)
    return Understood(units, speech, tuple(_single(list(_all(units, speech, speaking)))))


def _all(units: Sequence[Unit], speech: Speech, speaking: Speaking) -> Iterator[Heard]:
    if speaking.alarm is not None:
        yield speaking.alarm
    yield from row_slips(units, speech)
    counts = list(count_slips(units, speech, speaking.terms))
    told = [*stitch_slips(units, speech, speaking), *rows_untold(units, speech, speaking.terms)]
    yield from told
    yield from loops_untold(units, speech, speaking.terms)
    yield from places_untold(units, speech, speaking.terms)
    lost = {h.row for h in told if h.kind == "left out" and not h.doubtful}
    numbers = [h for h in number_slips(units, speech, speaking.terms) if h.kind != "left out" or h.row not in lost]
    yield from numbers
    # what is a wrong number inside the instruction is no wrong count
    inside = [h for h in numbers if h.kind == "number" and not h.doubtful]
    yield from (c for c in counts if not any(h.row == c.row and _at_once(h, c) for h in inside))
    short = lost | {h.row for h in numbers if h.kind == "left out" and not h.doubtful}  # a row told incompletely is listed once
    yield from rows_never_said(units, speech)
    yield from (h for h in counts_never_said(units, speech) if h.row not in short)


def _at_once(one: Heard, other: Heard) -> bool:
    return one.at is not None and other.at is not None and abs(one.at - other.at) < 1


def _single(found: list[Heard]) -> list[Heard]:
    """The same difference at the same row once: the surest, and of equals the first."""
    kept: dict[tuple[str, str, str], Heard] = {}
    for h in found:
        key = (h.kind, h.row, h.message.rpartition("is said, and ")[2] if h.kind == "dialect" else h.message)
        if key not in kept or h.sure > kept[key].sure:
            kept[key] = h
    return list(kept.values())
