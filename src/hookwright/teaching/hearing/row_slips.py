"""Wrong row numbers, and rows nobody says."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from .align import Meant
from .figures import sound_alike
from .findings import Heard
from .lexicon import phrases, words
from .segments import Speech, Stretch
from .things import marked
from .tokens import Token, raw_of
from .units import Unit


def row_slips(units: Sequence[Unit], speech: Speech) -> Iterator[Heard]:
    """Namings whose number is not that of the row they mean, or of no row at all."""
    known = {n for unit in units for n in unit.numbers}
    # numbers between two rows that none of them has: the pattern tells such a row in words that were not understood
    holes = {n for one, other in pairwise(units) for n in range(one.last + 1, other.first)}
    for k, meant in enumerate(speech.meant):
        anchor = meant.anchor
        if meant.unit is not None and _stops_short(speech, k):
            yield _wrong(meant, meant.unit, raw_of(speech.tokens[slice(*anchor.named)]), speech.edited)
            continue
        if meant.right or not anchor.first or anchor.how not in ("begins", "closes"):
            continue
        told = raw_of(speech.tokens[slice(*anchor.named)])
        if meant.unit is not None:
            yield _wrong(meant, meant.unit, told, speech.edited)
        elif anchor.how == "begins" and anchor.last not in known and anchor.sure >= 0.9:
            noun = units[0].noun if units else "Row"
            sure = 0.7 if _works(speech, k) and anchor.first not in holes else 0.45
            yield Heard(
                kind="row", at=anchor.at, words=told, row=f"{noun} {anchor.last}",
                message=f"“{told}” is said, and the pattern has no {noun.lower()} {anchor.last}", sure=sure,
            )  # fmt: skip


def rows_of_other_sizes(speech: Speech) -> set[tuple[str, float | None]]:
    """(row, second) of every naming whose numbers the page gives for the row in another size: "Rows 5-24 (28)"."""
    return {
        (meant.unit.label, meant.anchor.at)
        for meant in speech.meant
        if meant.unit is not None and {meant.anchor.first, meant.anchor.last} <= meant.unit.heading
    }


def _stops_short(speech: Speech, k: int) -> bool:
    """Whether a range begins as the written one and ends before it, and nobody tells the rest: "rounds 6 to 10" for 6 to 11."""
    unit, anchor = speech.meant[k].unit, speech.meant[k].anchor
    if unit is None or anchor.how != "begins" or not anchor.first < anchor.last < unit.last or anchor.first != unit.first:
        return False
    rest = [
        other.anchor for other in speech.meant if other.unit is not None and other.unit.index == unit.index and other.anchor is not anchor
    ]
    others = [m.anchor for j, m in enumerate(speech.meant) if j > k and m.unit is None and anchor.last < m.anchor.last <= unit.last]
    return not any(other.last > anchor.last or other.how in ("next", "until") for other in [*rest, *others])


def _works(speech: Speech, k: int) -> bool:
    """Whether something is worked in the words after naming k."""
    start = speech.meant[k].anchor.end
    end = speech.meant[k + 1].anchor.k if k + 1 < len(speech.meant) else len(speech.tokens)
    return any(token.kind in ("st", "chain", "increase", "decrease", "repeat") for token in speech.tokens[start:end])


def _wrong(meant: Meant, unit: Unit, words: str, edited: bool) -> Heard:
    anchor = meant.anchor
    sure = 0.85 if anchor.sure >= 0.9 else 0.55 if anchor.sure >= 0.7 else 0.4
    said = anchor.last if anchor.first < anchor.last else anchor.first
    if any(sound_alike(said, n) for n in (unit.numbers if anchor.first == anchor.last else (unit.last,))):
        sure = min(sure, 0.6 if edited else 0.45)
    message = f"“{words}” is said where {_name(unit)} is worked"
    return Heard(kind="row", at=anchor.at, words=words, row=unit.label, message=message, sure=sure)


def _name(unit: Unit) -> str:
    where = f" of {unit.part_name}" if unit.part_name else ""
    return f"{unit.label}{where}"


def rows_never_said(units: Sequence[Unit], speech: Speech) -> Iterator[Heard]:
    """Written rows that no naming means; less sure where their count is told all the same, so that only the number was lost."""
    said = _said(units, speech)
    if not said:
        return
    parts = {unit.part for unit in units if unit.index in said}
    rest = _ending(units, said)
    if len(rest) >= ENDING:
        yield _ends_early(rest, speech)
    for unit in units:
        if unit.index in said or (len(rest) >= ENDING and unit in rest):
            continue
        if unit.part not in parts:
            if unit.index == next(u.index for u in units if u.part == unit.part):
                yield _part_never_said(unit, speech)
            continue
        start, following = _around(speech, unit)
        at = _where(speech, start, following)
        if following is not None:  # what is told right before it, of whatever row
            start = next((s for s in reversed(speech.stretches) if s.start < following.start), start)
        sure = 0.75
        if start is not None and _count_told(unit, start.counts, start.unit):
            sure = 0.4
        numbers = {t.number for t in speech.tokens[start.begins : start.end] if t.kind == "num"} if start is not None else set()
        if start is not None and unit.total > 4 and unit.total in numbers - start.unit.any_allowed - start.unit.instructed:
            sure = 0.4  # "Six. Then twelve, increase in each one."
        if _told_unnamed(units, unit, speech) or (len(unit.numbers) > 1 and _may_be_told(unit, speech, start, at)):
            sure = 0.4
        if _told_ahead(unit, speech) or not unit.rows[0].written.numbers_at(unit.size):
            sure = 0.4  # told out of its turn, or with no number in the pattern either ("repeat Rows 2-5 for the length wanted")
        yield Heard(kind="row never said", at=at, words="", row=unit.label, message=never_said(unit), sure=sure)


def never_said(unit: Unit) -> str:
    """What is told of a row that nobody says."""
    return f"{_name(unit)} is never said"


_ONWARDS = words("row_slips", "onwards")


def _may_be_told(unit: Unit, speech: Speech, before: Stretch | None, until: float) -> bool:
    """Whether a range of rows may be told in the words before its place: by one of its numbers, or by a word of going on."""
    tokens = speech.tokens
    if before is None:
        first, own = 0, frozenset[int]()
    else:
        worked = max((h.k for h in before.heard if h.item.kind != "ch"), default=before.begins - 1)
        full = worked >= before.begins and marked(tokens, worked)
        first = speech.sentence_end(worked, before.end) + 1 if full else max(worked + 1, before.begins)
        own = before.unit.told_numbers
    said = [token for token in tokens[first:] if token.at < until]
    numbers = set(unit.numbers) - own
    return any(_goes_on(said, k) or (token.kind == "num" and token.number in numbers) for k, token in enumerate(said))


def _goes_on(said: Sequence[Token], k: int) -> bool:
    """Whether a word tells that rows go on; not "On to row ten", and not "thirty again", which is of a count."""
    token = said[k]
    if token.text == "on":
        return k + 1 >= len(said) or said[k + 1].text != "to"
    if token.text == "again":
        return not k or said[k - 1].kind not in ("num", "stitch")
    return token.text in _ONWARDS or token.kind == "repeat"


def _told_unnamed(units: Sequence[Unit], unit: Unit, speech: Speech) -> bool:
    """Whether a part's first row is worked before the second is named, without a name of its own: "Ring. Six singles. Round two …"."""
    first = not unit.index or units[unit.index - 1].part != unit.part
    following = next((s for s in speech.stretches if s.unit.index > unit.index), None)
    if not first or following is None or following.unit.index != unit.index + 1 or following.unit.part != unit.part:
        return False
    end = following.meant.anchor.k
    before = [s for s in speech.stretches if s.start < following.start]
    start = before[-1].begins if before else 0
    worked = [t for t in speech.tokens[start:end] if t.kind in ("st", "increase", "ring")]
    return bool(worked) and (not before or sum(t.kind == "ring" for t in worked) > 0)


def _told_ahead(unit: Unit, speech: Speech) -> bool:
    """Whether the row is told out of its turn: "the last round before the others: round twenty-six is all decreases"."""
    for k, meant in enumerate(speech.meant):
        one = meant.anchor
        named = meant.unit is None and one.how == "begins" and one.first == one.last
        if named and one.first in unit.numbers and _works(speech, k):
            return True
    return False


ENDING = 3
"""From so many written rows on at the end of a part, the narration ends early, which is told once."""


def _ending(units: Sequence[Unit], said: set[int]) -> list[Unit]:
    """The written rows behind the last one that is said, in its part."""
    last = units[max(said)]
    return [unit for unit in units if unit.part == last.part and unit.index > last.index]


def _ends_early(rest: Sequence[Unit], speech: Speech) -> Heard:
    first, last = rest[0].rows[0], rest[-1].rows[-1]
    label = f"{first.label.partition(' ')[0]}s {rest[0].first}-{rest[-1].last}"
    at = _where(speech, _around(speech, rest[0])[0], None)
    message = f"{first.label} to {last.label} are never said: the narration ends before them"
    return Heard(kind="row never said", at=at, words="", row=label, message=message, sure=0.75)


PART_SURE = 0.4
"""A part that is not told at all is told in another film, as a rule: doubtful, and said once."""


def _part_never_said(unit: Unit, speech: Speech) -> Heard:
    where = unit.part_name or "one part"
    at = speech.tokens[-1].until if speech.tokens else 0.0
    return Heard(kind="row never said", at=at, words="", row=unit.label, message=f"no row of {where} is said", sure=PART_SURE)


def _said(units: Sequence[Unit], speech: Speech) -> set[int]:
    """The units that are said, those that a range or an "until row 9" goes over included."""
    said = {stretch.unit.index for stretch in speech.stretches}
    place = -1
    for meant in speech.meant:
        if meant.unit is None:
            continue
        anchor, unit = meant.anchor, meant.unit
        said.add(unit.index)
        if anchor.first < anchor.last and anchor.how not in ("repeats", "closes"):
            said |= {u.index for u in units if u.part == unit.part and anchor.first <= u.first and u.last <= anchor.last}
        if anchor.how == "until":
            said |= {u.index for u in units if place < u.index <= unit.index and u.part == unit.part}
        if anchor.how == "next" and anchor.count > 1:
            said |= _next_rows(units, unit.index - 1, anchor.count)
        place = unit.index
    return said


def _next_rows(units: Sequence[Unit], place: int, count: int) -> set[int]:
    out: set[int] = set()
    for unit in units[place + 1 :]:
        if count <= 0:
            break
        out.add(unit.index)
        count -= len(unit.numbers)
    return out


def _count_told(unit: Unit, counts: Sequence[object], before: Unit) -> bool:
    from .tallies import Told

    own = unit.allowed(unit.last) - before.allowed(before.last)
    return any(isinstance(told, Told) and told.number in own and told.strength >= 0.6 for told in counts)


def _around(speech: Speech, unit: Unit) -> tuple[Stretch | None, Stretch | None]:
    """The stretches between which the row would have been said: in its part, which may be told out of its turn, if any of that is told."""
    every = speech.stretches
    own = [s for s in every if s.unit.part == unit.part] or every
    start = next((s for s in reversed(own) if s.unit.index < unit.index), None)
    after = next((s for s in own if s.unit.index > unit.index), None)
    if after is None:
        after = next((s for s in every if s.unit.index > unit.index and (start is None or s.start > start.start)), None)
    return start, after


def _where(speech: Speech, before: Stretch | None, after: Stretch | None) -> float:
    """Where the row would have been said: before the next row that is, else after the last work of the row before."""
    if after is not None:
        return _led_in(speech.tokens, after.meant.anchor.k) if after.meant.anchor.said is None else speech.tokens[after.start].at
    if before is not None:
        last = _last_work(speech, before)
        closing = next((k for k in range(last + 1, before.end) if _closes(speech, k)), None)
        return speech.tokens[closing].at if closing is not None else speech.after(last)
    return 0.0


LEADING = 4
"""So many words at most lead up to the naming of a row in its caption (ours)."""


def _led_in(tokens: Sequence[Token], k: int) -> float:
    """The second at which the caption begins that names a row at token k, where only a few words lead up to it: "so", "and now then"."""
    first = k
    while first and k - first <= LEADING and tokens[first - 1].until == tokens[k].until and tokens[first - 1].kind == "word":
        first -= 1
    return tokens[first].at if not first or tokens[first - 1].until != tokens[k].until else tokens[k].at


def _last_work(speech: Speech, stretch: Stretch) -> int:
    """The token that ends the last sentence in which the row is worked or counted."""
    last = max((told.k for told in stretch.counts), default=-1)
    last = max(last, max((h.k for h in stretch.heard), default=stretch.start))
    stop = min(stretch.end - 1, last + 20)
    while last < stop and not (speech.tokens[last].stop and speech.tokens[last].mark != ","):
        last += 1
        if speech.tokens[last].until != speech.tokens[last - 1].until:
            return last - 1
    return last


_CLOSING = phrases("row_slips", "closing")


def _closes(speech: Speech, k: int) -> bool:
    """Whether the film is being closed at token k."""
    closing = " ".join(token.text for token in speech.tokens[k : k + 3])
    return closing.startswith(_CLOSING)
