"""When a count that is never told was due: before the row is closed, where counts are told so, else before the next row is named."""

from __future__ import annotations

from collections.abc import Sequence

from .lexicon import phrases
from .segments import Speech, Stretch
from .things import sentence
from .tokens import Token

TALK_S = 10.0
"""So long at most between the last work of a row and the naming of the next one looks anywhere; longer talk mostly follows the count, and
one looks where it begins: so did 12 of 15 counts never said with talk behind their row (ours)."""
LEAD_S = 4.0
CLOSED = 12
"""Words between a count and the word that closes its row, either way (ours)."""
_WORK = ("turn", "join", "slip", "repeat", "around", "st", "chain")


def due(speech: Speech, stretch: Stretch, last: int, *, before_closing: float) -> float:
    """The second at which the count of a row was due, the last words of whose work end at token `last`; `before_closing`: as
    `told_before_closing` has it."""
    closing = _closing(speech.tokens, stretch, last)
    named = _before_next(speech, stretch, last)
    if closing < 0 or before_closing < 1 - MOSTLY:
        return named
    closed = speech.tokens[closing].at
    return closed if before_closing > MOSTLY else min(closed + SAID_S, named)


MOSTLY = 0.67
"""A larger share than this is a habit, and a smaller one than what is left of it the other habit (ours)."""
SAID_S = 2.4
"""So long, as a rule, are the words with which a row is closed said (ours)."""


def told_before_closing(speech: Speech) -> float:
    """The share of counts that the speaker tells before she closes the row: "thirty-two, and turn", not "turn. Thirty-two.".

    0 where too few stand beside the closing of their row.
    """
    before = behind = 0
    for stretch in speech.stretches:
        allowed = stretch.unit.any_allowed
        counts = [told.k for told in stretch.counts if told.number > 1 and (told.number in allowed or told.strength >= 0.8)]
        closings = [k for k in range(stretch.begins, stretch.end) if _closes(speech.tokens, k)]
        if not counts or not closings:
            continue
        gap = min((closing - count for count in counts for closing in closings), key=abs)
        if abs(gap) <= CLOSED:
            before, behind = before + (gap > 0), behind + (gap < 0)
    return before / (before + behind) if before + behind >= FEWEST else 0.0


FEWEST = 4
"""So many counts at least must be told beside the closing of their row for a habit to be seen (ours)."""


def _closes(tokens: Sequence[Token], k: int) -> bool:
    """Whether the row is closed at token k: turned, joined, or the loops of a Tunisian row worked off."""
    return tokens[k].kind in ("turn", "join") or tokens[k].text == "return"


def _closing(tokens: Sequence[Token], stretch: Stretch, last: int) -> int:
    """The word that closes the row in its last words of work, or behind them; -1 where none does."""
    found = [k for k in range(stretch.begins, stretch.end) if _closes(tokens, k)]
    return found[-1] if found and last - found[-1] <= CLOSED else -1


def _before_next(speech: Speech, stretch: Stretch, last: int) -> float:
    """Shortly before the next row is named, or amid what is said from token `last` till then."""
    following = next((other for other in speech.stretches if other.start >= stretch.end), None)
    if following is None:
        paused = pause_behind(speech, last)
        if paused >= 0:
            return speech.tokens[paused].at
        return speech.shortly_before_the_end(last)
    paused = pause_behind(speech, last)
    if 0 <= paused < _leads_in(speech.tokens, following.start) and not _waits(speech, last, following.start):
        return speech.tokens[paused].at
    k = sentence(speech.tokens, following.start)[0]
    while k and speech.tokens[k - 1].until == speech.tokens[following.start].until:
        k -= 1
    named, end = speech.tokens[k].at, speech.after(last)
    if named - end > TALK_S:
        return named - LEAD_S if _waits(speech, last, k) else end + LEAD_S
    return (end + named) / 2 if named > end else speech.shortly_before_the_end(last)


def _leads_in(tokens: Sequence[Token], k: int) -> int:
    """The first of the few words of its caption that lead up to the naming of a row at token k: "and now the eleventh round"."""
    first = k
    while first and k - first < LEADING and tokens[first - 1].kind == "word" and tokens[first - 1].until == tokens[k].until:
        first -= 1
    return first if first and tokens[first - 1].until != tokens[k].until else k


LEADING = 4
"""So many words at most lead up to the naming of a row in its caption (ours)."""
PAUSE_S = 4.0
"""So long a silence behind a row is the time in which it is worked: what is told behind it is its count (ours)."""


def pause_behind(speech: Speech, last: int) -> int:
    """The first token behind the silence in which the row is worked whose last words end at token `last`: behind its caption, or the next;
    -1 where there is none."""
    tokens, end = speech.tokens, _caption_end(speech.tokens, last)
    for _ in range(2):
        if end + 1 >= len(tokens):
            return -1
        if _silence(speech, end) >= PAUSE_S:
            return end + 1
        end = _caption_end(tokens, end + 1)
    return -1


def _caption_end(tokens: Sequence[Token], k: int) -> int:
    while k + 1 < len(tokens) and tokens[k + 1].until == tokens[k].until:
        k += 1
    return k


def _silence(speech: Speech, end: int) -> float:
    """The seconds between the last word of the caption that ends at token `end`, as fast as this speaker speaks, and the next caption."""
    tokens, first = speech.tokens, end
    while first and tokens[first - 1].until == tokens[end].until:
        first -= 1
    letters = sum(len(token.raw) + 1 for token in tokens[first : end + 1])
    return tokens[end + 1].at - tokens[first].at - letters / speech.letters_a_second


_WAITING = phrases("due", "waiting")


def _waits(speech: Speech, last: int, named: int) -> bool:
    """Whether time is given behind token `last` to work the row: its count was due when that is over."""
    said = f" {' '.join(token.text for token in speech.tokens[last + 1 : named])} "
    # "lay it down and look at it for a moment" gives none
    given = said if " wait " in said else said.replace(" for a moment ", " ").replace(" for a minute ", " ")
    return any(f" {one} " in given for one in _WAITING)


def _looked_at(tokens: Sequence[Token], k: int) -> bool:
    """Whether a thing is only spoken of as made before: "see how it draws in, that's from the decreases"."""
    made = tokens[k].kind in ("increase", "decrease") and k > 1 and tokens[k - 1].text == "the"
    return made and tokens[k - 2].text in ("from", "of", "by", "with")


def last_told(speech: Speech, stretch: Stretch) -> int:
    """The token that ends the last words of work in the row, behind which the count would have been told."""
    tokens = speech.tokens
    k = max((h.k for h in stretch.heard if not _looked_at(tokens, h.k)), default=stretch.begins - 1)
    while True:
        k = speech.told_until(k, stretch.end)
        paused = pause_behind(speech, k) if k >= 0 else -1
        more = next(
            (
                i
                for i in range(k + 1, min(k + 15, stretch.end))
                if (tokens[i].kind in _WORK or tokens[i].text in ("across", "times", "return"))
                and (not 0 <= paused <= i or tokens[i].kind in ("join", "slip"))  # behind a silence nothing else is of the row
            ),
            None,
        )
        if more is None:
            return k
        k = more
