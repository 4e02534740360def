"""Wrong counts, and counts nobody tells."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from ...trade.kinds import base
from ...trade.terms import System, kind_of
from ...working import RowWork
from ..counts import known_numbers
from .anchors import takes_back
from .due import due, last_told, told_before_closing
from .figures import lost_end, sound_alike
from .findings import Heard, plus
from .lexicon import words
from .said import told_as_same
from .segments import Speech, Stretch
from .tallies import FAINT, Told, counts_aloud, says_same
from .things import OWN_NOUNS, sentence
from .tokens import Token
from .units import Unit, counts_stated, tunisian

STRONG = 0.5
SYSTEMS: tuple[System, ...] = ("US", "UK")


def count_slips(units: Sequence[Unit], speech: Speech, terms: System) -> Iterator[Heard]:
    """Counts told that the row does not have."""
    edited = speech.edited
    for stretch in speech.stretches:
        before = _allowed_before(units, stretch)
        allowed = (
            stretch.unit.any_allowed
            if len(stretch.unit.numbers) > 1 and stretch.meant.anchor.first != stretch.meant.anchor.last
            else stretch.unit.allowed(stretch.number)
        )
        stated, misread = _stated(stretch), _misread(stretch)
        right = [told for told in stretch.counts if told.number in allowed and told.strength > FAINT]
        said = any(told.number in allowed - stretch.unit.instructed and told.number > 4 for told in stretch.counts)
        last = None if right or said else by_elimination(stretch, allowed, before)
        unknown = [last] if last is not None else [told for told in stretch.counts if _of_a_stated_kind(stretch, told, right, terms)]
        for told in stretch.counts:
            mine = allowed_for(stretch.unit, stretch.number, told.noun, allowed)
            mine = stated if stated and misread and told.noun in ("", "stitch") else mine
            if not mine or told.number in mine or (told.strength < STRONG and told not in unknown):
                continue
            sure = _sure(stretch, told if told.strength >= STRONG else replace(told, strength=UNKNOWN), right, allowed, before, edited)
            outright = told.strength >= 0.9 and told.number not in stretch.unit.instructed
            if not outright and not _near(told.number, _comparable(stretch, kind_of(told.noun, terms), mine), edited):
                sure = plus(sure, FAR_OFF)
            if misread and not (stated and _near(told.number, stated, edited)):
                sure = plus(sure, MISREAD)
            if right and right[0].k < told.k and told.number in _allowed_after(units, stretch):
                sure -= 0.5  # the next row, whose naming was lost
            sure = max(sure, 0.05)
            row = stretch.unit.row_at(stretch.number)
            message = f"{told.number} is told, and {row.label} has {_counted(row, stretch.unit.size)}"
            yield Heard(kind="count", at=told.at, words=told.words, row=row.label, message=message, sure=round(sure, 2))
        for k, wanted in _two_things(stretch, speech.tokens):
            row, token = stretch.unit.row_at(stretch.number), speech.tokens[k]
            message = f"{token.number} {speech.tokens[k + 1].raw.strip('.,')} are told, and {row.label} has {wanted}"
            yield Heard(kind="count", at=token.at, words=_words(speech, stretch, k), row=row.label, message=message, sure=UNKNOWN)


def _two_things(stretch: Stretch, tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """(token, number wanted) where two things are counted in one breath in words not known for them, one rightly and the other near its
    count: "twenty-two posts, twenty-one windows"."""
    stated = {n for _, n in counts_stated(stretch.unit.row_at(stretch.number), stretch.unit.size)}
    told = {n for n in stated if n > 4}
    numbers = [k for k in range(stretch.begins, stretch.end - 1) if tokens[k].kind == "num" and not tokens[k].stop and tokens[k].number > 4]
    for one, other in pairwise(numbers):
        between = tokens[one + 1 : other]
        if any(token.text in ("no", "or", "not", "sorry", "wait") for token in between) or takes_back(tokens, other, other + 9):
            continue
        if not 1 <= len(between) <= 3 or not _plural(between[0]) or not _plural(tokens[other + 1]):
            continue
        if any(
            token.kind in ("chain", "skip", "repeat", "row", "rows") or token.text in ("in", "into", "next", "times") for token in between
        ):
            continue
        for right, wrong in ((one, other), (other, one)):
            left = told - {tokens[right].number}
            near = [n for n in left if 0 < abs(tokens[wrong].number - n) <= TWO_NEAR]
            if tokens[right].number in told and len(near) == 1 and tokens[wrong].number not in told | stretch.unit.instructed:
                yield wrong, near[0]


def _plural(token: Token) -> bool:
    """Whether things may be counted by that word."""
    if token.kind in ("st", "stitch"):
        return True
    return (
        token.kind in ("word", "space", "shell", "cluster", "v-stitch", "puff", "bobble")
        and token.text.endswith("s")
        and token.text not in _NO_NOUN
    )


_NO_NOUN = frozenset(("is", "was", "this", "that's", "it's", "there's", "as", "us", "plus", "yes"))
TWO_NEAR = 2
"""So far at most from what is stated a number of things not known may be told for it (ours)."""


_SIZES = words("count_slips", "sizes")
SIZE_NAMED = 12
"""Words around a count within which another size is named (ours)."""


def other_size(speech: Speech, k: int, names: frozenset[str], own: frozenset[str] = frozenset()) -> bool:
    """Whether a size is named near token k, by the pattern's `names` or others; `own`: the names of the size told, which do not count."""
    said = {token.text.removesuffix("s") for token in speech.tokens[max(0, k - SIZE_NAMED) : k + SIZE_NAMED]}
    return bool(said & ((_SIZES | names) - own))


def right_in_other_sizes(speech: Speech, names: frozenset[str]) -> set[tuple[str, float | None]]:
    """(row, second) of every count told that the pattern states for the row in another size: "Small would be thirty"."""
    found: set[tuple[str, float | None]] = set()
    for stretch in speech.stretches:
        row = stretch.unit.row_at(stretch.number)
        stated = {n for count in row.stated for n in count.number.values if n is not None}
        found |= {
            (row.label, told.at)
            for told in stretch.counts
            if told.number in stated
            and (other_size(speech, told.k, names, stretch.unit.size_names) or _beside_others(speech, told.k, stated))
        }
    return found


SIZES_APART = 5
"""So many words at most stand between the counts of two sizes told in a list (ours)."""


def _beside_others(speech: Speech, k: int, stated: set[int]) -> bool:
    """Whether the number at token k stands in a list of those of several sizes: "sixty, sixty-six, seventy-two on every round"."""
    near = speech.tokens[max(0, k - SIZES_APART) : k + SIZES_APART + 1]
    return len(stated & {token.number for token in near if token.kind == "num"}) > 1


def allowed_for(unit: Unit, number: int, noun: str, allowed: frozenset[int]) -> frozenset[int]:
    """The numbers that may be told of a row with this noun: where the pattern states a count of the very thing, that one. Nothing for a
    thing of its own ("blocks") that the pattern does not count."""
    row = unit.row_at(number)
    stated: dict[str, set[int]] = {}
    for what, told in counts_stated(row, unit.size):
        stated.setdefault(what.lower().removesuffix("s"), set()).add(told)
    if noun in OWN_NOUNS.values():
        own = stated.get(noun, set()) | ({row.counted.by_kind["sp"]} if noun == "sp" and "sp" in row.counted.by_kind else set())
        return frozenset(own) if len(unit.numbers) == 1 or number == unit.last else frozenset()
    kinds = {base(kind) for terms in SYSTEMS if (kind := kind_of(noun, terms))}
    exact = frozenset(n for kind in kinds & set(stated) for n in stated[kind] | {row.counted.by_kind.get(kind, 0)})
    return exact or allowed


NEAR, NEAR_SHARE, FAR_OFF = 4, 0.12, -2.2
"""A slip of the tongue or of the eye lies this near the count (of a few stitches within half of them), or within this share of it: so
did 36 of 38 wrong counts at first sight, and 17 of 33 numbers wrongly taken for counts did not. A number farther off is of something else
unless it is told outright and is none of the instruction; log-odds (ours)."""
MISREAD = -2.2
"""What a row weighs that does not come out at the count stated for it: it was not understood, and bears no witness; log-odds (ours)."""
RUNNING = 0.4
"""What a count of at most half the stitches weighs less that is told before more of the row is worked (ours)."""
UNKNOWN = 0.6
"""How surely a number is the count where nothing else can be and it is near it (ours)."""


def _stated(stretch: Stretch) -> frozenset[int]:
    """The counts that the pattern states for the row, and their sum."""
    stated = [n for _, n in counts_stated(stretch.unit.row_at(stretch.number), stretch.unit.size)]
    return frozenset((*stated, sum(stated))) if stated else frozenset()


def _misread(stretch: Stretch) -> bool:
    """Whether the row comes out at none of the counts that the pattern states for it."""
    row, stated = stretch.unit.row_at(stretch.number), _stated(stretch)
    return not stated & known_numbers(row.counted.by_kind, row.counted.total) if stated else row.counted.total == 0


def _totals(stretch: Stretch) -> frozenset[int]:
    """How many stitches the row has; where it comes out at none of its stated counts, these are."""
    return (_misread(stretch) and _stated(stretch)) or frozenset((stretch.unit.row_at(stretch.number).counted.total,))


def by_elimination(stretch: Stretch, allowed: frozenset[int], before: frozenset[int] = frozenset()) -> Told | None:
    """The count told in words that are not known for one: a number near the row's count that is no number of its instruction, the last of
    such; None where one is told in known words."""
    own = stretch.unit.instructed
    if any(told.strength >= STRONG and told.number > 4 and (told.strength >= 0.8 or told.number not in own) for told in stretch.counts):
        return None
    totals = _totals(stretch)
    found = [
        told
        for told in stretch.counts
        if told.number > 4
        and told.strength >= FAINT
        and told.sure >= 1
        and any(abs(told.number - total) <= max(3, total // 5) for total in totals)
        and told.number not in own | before
    ]
    return found[-1] if found else None


def _of_a_stated_kind(stretch: Stretch, told: Told, right: Sequence[Told], terms: System) -> bool:
    """Whether a number can only be the count of its stitches, which the pattern states beside another: "six puffs in the row, and
    twenty-two singles around them"."""
    kind = base(kind_of(told.noun, terms) or "")
    row = stretch.unit.row_at(stretch.number)
    stated = [n for what, n in counts_stated(row, stretch.unit.size) if what == kind]
    if not kind or len(row.stated) < 2 or not stated or told.number <= 4 or told.sure < 1 or told.strength < FAINT:
        return False
    if told.number in stretch.unit.instructed or any(base(kind_of(other.noun, terms) or "") == kind for other in right):
        return False
    return any(0 < abs(told.number - n) <= max(min(NEAR, n // 3), NEAR_SHARE * n) for n in stated)


def _counted(row: RowWork, size: int) -> str:
    stated = counts_stated(row, size)
    if len(stated) == 1 and tunisian(row):
        return f"{stated[0][1]} stitches"
    kinds = {kind: n for kind, n in row.counted.by_kind.items() if kind not in ("ch", "sp")}
    spaces = ", ".join(f"{n} {kind}s" for kind, n in kinds.items() if kind.endswith(" sp"))
    return f"{row.counted.total} stitches{f' and {spaces}' if spaces else ''}"


def _allowed_before(units: Sequence[Unit], stretch: Stretch) -> frozenset[int]:
    row = stretch.number - 1
    if row in stretch.unit.numbers:
        return stretch.unit.allowed(row)
    if stretch.unit.index and units[stretch.unit.index - 1].part == stretch.unit.part:
        before = units[stretch.unit.index - 1]
        return before.allowed(before.last)
    return frozenset()


def _allowed_after(units: Sequence[Unit], stretch: Stretch) -> frozenset[int]:
    after = units[stretch.unit.index + 1 : stretch.unit.index + 2]
    return after[0].allowed(after[0].first) if after else frozenset()


def _sure(stretch: Stretch, told: Told, right: list[Told], allowed: frozenset[int], before: frozenset[int], edited: bool) -> float:
    sure = told.strength
    if told.sure < 1:
        sure -= 0.25
    if any(sound_alike(told.number, n) for n in allowed):
        sure -= 0.1 if edited else 0.1 if any(lost_end(told.number, n) for n in allowed) else 0.5
    if told.number in before and told.noun not in OWN_NOUNS.values() and not any(h.k < told.k for h in stretch.heard):
        return 0.1  # what one begins with
    if told.number in _instructed(stretch) and told.strength < 0.9:
        sure -= 0.35
    total = stretch.unit.row_at(stretch.number).counted.total
    listed = any(other.k < told.k and _beside_in_list(other, told) for other in right)
    if not listed and told.number * 2 <= total and any(h.k > told.k + 2 and h.item.kind != "ch" for h in stretch.heard):
        sure -= RUNNING  # "so that's two doubles. Chain one, skip one, double …": how many so far
    later = [other for other in right if other.k > told.k and not _beside_in_list(told, other)]
    if later:
        sure -= 0.3 if told.noun != "stitch" else 0.2
    elif right and told.noun and told.noun != right[-1].noun and told.strength < 0.9 and not _beside_in_list(told, right[-1]):
        sure -= 0.15
    if right and right[0].k < told.k and told.strength <= 0.6 and not told.noun:
        sure -= 0.15  # the count was told, and this is no correction
    if not listed and not edited and right and right[0].k < told.k and len(stretch.unit.numbers) == 1:
        sure -= 0.3  # where nobody set marks, what is said after it is of something else
    if told.number <= 4 and max(allowed) > 8 and not any(_beside_in_list(other, told) for other in stretch.counts if other.k < told.k):
        sure -= 0.5
    return max(0.05, min(sure, 0.97))


def _comparable(stretch: Stretch, kind: str | None, mine: frozenset[int]) -> frozenset[int]:
    """Of the counts a number of these stitches may be a slip for, where none is stated of them: all of them, or all stitches, and no
    shells."""
    row = stretch.unit.row_at(stretch.number)
    if not kind or any(count.kind.lower().removesuffix("s") == base(kind) for count in row.stated):
        return mine
    return frozenset({row.counted.total, row.counted.by_kind.get(base(kind), 0)} - {0}) or mine


def _near(number: int, allowed: frozenset[int], edited: bool) -> bool:
    """Whether the number may be a slip for one of these, or what a machine makes of it."""
    return any(
        abs(number - n) <= max(min(NEAR, n // 2), NEAR_SHARE * n) or (sound_alike(number, n) and (number > 9 or not edited))
        for n in allowed
    )


def _beside_in_list(told: Told, other: Told) -> bool:
    """Whether both count different things in one breath: "nine V stitches and two double crochet" takes nothing back."""
    return bool(told.noun and other.noun and told.noun != other.noun and other.k - told.k <= 6)


def _instructed(stretch: Stretch) -> frozenset[int]:
    """The numbers in the row's own words, which are no counts."""
    return stretch.unit.instructed


def counts_never_said(units: Sequence[Unit], speech: Speech) -> Iterator[Heard]:
    """Rows whose stated count nobody tells. A speaker who tells most counts is held to her habit; unchanged counts may go unsaid."""
    last: dict[int, Stretch] = {}
    told: set[int] = set()
    for stretch in speech.stretches:
        last[stretch.unit.index] = stretch
        if _tells(speech, stretch):
            told.add(stretch.unit.index)
    asked = [index for index in last if units[index].stated]
    if not asked:
        return
    if not told and len(asked) >= FEWEST_STATED:
        yield _none_told(units, speech, last)
    habit = len(told & set(asked)) / len(asked)
    steady, of_repeats = _tells_steadily(units, asked, told), _tells_of_repeats(units, asked, told)
    before_closing = told_before_closing(speech)
    alone = len([index for index in asked if index not in told]) == 1 and len(asked) >= FEWEST_STATED
    silent = [index for index in asked if index not in told and _changed(units, index) and not units[index].refers]
    for index in asked:
        if index in told:
            continue
        unit, stretch = units[index], last[index]
        changed = _changed(units, index)
        sure = 0.62 if habit >= 0.6 else 0.52 if changed and habit >= 0.35 else 0.3 if changed else 0.15
        if not changed:  # "rows three to fourteen, that's all row two"
            held = steady and len(unit.numbers) == 1 and (not unit.refers or (of_repeats and not _amid_sentence(speech, stretch)))
            sure = 0.56 if held else min(sure, 0.45)
        elif unit.refers and len(unit.numbers) == 1 and _retold(speech, stretch) and not (of_repeats and alone):
            sure = min(sure, 0.45)
        if len(silent) > 1:
            sure = min(sure, 0.4)  # who leaves out two has no habit of telling all
        if not unit.items:
            sure = min(sure, 0.45)  # slip stitches along an edge are counted by nobody
        if _lost(speech, stretch, unit.row_at(stretch.number).counted.total):
            sure -= 0.2
        row = unit.row_at(stretch.number)
        k = last_told(speech, stretch)
        at, words = due(speech, stretch, k, before_closing=before_closing), _words(speech, stretch, k)
        message = f"the count of {row.label} ({_counted(row, unit.size)}) is never told"
        yield Heard(kind="count never said", at=at, words=words, row=row.label, message=message, sure=round(sure, 2))


FEWEST_STATED = 4
"""From so many rows with stated counts on it is told once that none of them is said."""


def _none_told(units: Sequence[Unit], speech: Speech, last: Mapping[int, Stretch]) -> Heard:
    stretch = last[max(last)]
    k = last_told(speech, stretch)
    at, words = speech.shortly_before_the_end(k), _words(speech, stretch, k)
    message = f"no count of any row is told, and the pattern states those of {sum(units[index].stated for index in last)} rows said"
    return Heard(kind="count never said", at=at, words=words, row="all rows", message=message, sure=0.6)


def _changed(units: Sequence[Unit], index: int) -> bool:
    """Whether the row has another number of stitches than the one before it."""
    if index == 0 or units[index - 1].part != units[index].part or units[index - 1].total != units[index].total:
        return True
    before, here = (set(counts_stated(units[k].rows[-1], units[k].size)) for k in (index - 1, index))
    return len(before) > 1 and len(here) > 1 and before != here


def _tells_steadily(units: Sequence[Unit], asked: Sequence[int], told: set[int]) -> bool:
    """Whether the speaker tells the count of all rows but one, those whose count does not change too."""
    same = [index for index in asked if not _changed(units, index)]
    return len(same) >= 2 and len([index for index in asked if index not in told]) == 1 and len(asked) >= 3


def _tells_of_repeats(units: Sequence[Unit], asked: Sequence[int], told: set[int]) -> bool:
    """Whether the speaker tells the count of rows, too, that only repeat another: two at least."""
    single = [index for index in asked if units[index].refers and len(units[index].numbers) == 1]
    repeats = [index for index in single if index in told]
    return len(repeats) >= 2 or (len(repeats) == 1 == len(single) - 1 and len(asked) >= LONG and len(told & set(asked)) == len(asked) - 1)


LONG = 8
"""So many rows at least must be told with their counts for one repeat among them to tell of the other (ours)."""


def _amid_sentence(speech: Speech, stretch: Stretch) -> bool:
    """Whether the next row is named in the sentence that tells this one: "eleven is as the nine, and twelve as the ten"."""
    return stretch.end < len(speech.tokens) and sentence(speech.tokens, stretch.begins)[1] > stretch.end


def _retold(speech: Speech, stretch: Stretch) -> bool:
    """Whether the row is told as another: "row eight is six again", "row ten is row four"."""
    tokens = speech.tokens[stretch.begins : stretch.end]
    again = any(token.text in _RETOLD for token in tokens) or any(token.kind == "row" for token in tokens[:3])
    return again or told_as_same(speech.tokens, stretch.begins, stretch.end)


_RETOLD = frozenset(("again", "like", "same", "mirror", "backwards", "repeat"))


def _of_the_work(told: Told, own: frozenset[int], allowed: frozenset[int]) -> bool:
    """Whether the number is rather one of the instruction: "3 double crochet, chain 2", "one, decrease, one, decrease"."""
    if told.strength >= 0.8 or told.number not in own:
        return False
    return told.noun not in ("", "stitch", "space") or (not told.noun and told.number not in allowed)


def _of_its_kind(stretch: Stretch, told: Told, allowed: frozenset[int]) -> frozenset[int]:
    """The counts that a number of these stitches may be near: those of the same, and of all stitches."""
    kinds = {base(kind) for terms in SYSTEMS if (kind := kind_of(told.noun, terms))}
    row = stretch.unit.row_at(stretch.number)
    return frozenset({row.counted.total, *(row.counted.by_kind.get(kind, 0) for kind in kinds)} - {0}) if kinds else allowed


def _tells(speech: Speech, stretch: Stretch) -> bool:
    """Whether a count is told in the stretch, rightly or wrongly; "the same count" counts, and so does the very number anywhere."""
    own = stretch.unit.instructed
    allowed = stretch.unit.any_allowed
    few = max(allowed, default=0) > 8
    if any(
        told.strength >= STRONG
        and (told.strength >= 0.9 or _near(told.number, _of_its_kind(stretch, told, allowed), speech.edited))
        and not (few and told.number <= 4)
        and not _of_the_work(told, own, allowed)
        for told in stretch.counts
    ):
        return True
    if says_same(speech.tokens, stretch.start, stretch.end) or by_elimination(stretch, allowed) is not None:
        return True
    row = stretch.unit.row_at(stretch.number)
    told_so = counts_stated(row, stretch.unit.size)
    main = {row.counted.total, *(n for n in row.counted.by_kind.values() if n > 4), *(n for _, n in told_so)}
    tokens = speech.tokens
    first = tokens[stretch.begins] if stretch.begins < stretch.end else None
    if first is not None and first.kind == "num" and first.stop and first.number in main:
        return True  # "Round one six, round two twelve"
    ends = {row.counted.total, *(n for _, n in told_so if n > 2)}
    aloud = any(
        tokens[k].kind == "num"
        and tokens[k].number in ends
        and counts_aloud(tokens, k)
        and (tokens[k].number == row.counted.total or (tokens[k + 1 : k + 2] and tokens[k + 1].kind not in ("num", "st")))
        for k in range(stretch.begins, stretch.end)
    )
    stated = {(n, what.lower().removesuffix("s")) for what, n in told_so}
    named = any(
        tokens[k].kind == "num" and (tokens[k].number, tokens[k + 1].text.removesuffix("s")) in stated
        for k in range(stretch.begins, min(stretch.end, len(tokens) - 1))
    )
    if aloud or named or _listed(speech, stretch):
        return True
    return any(
        tokens[k].kind == "num"
        and tokens[k].number in main
        and not (k and tokens[k - 1].kind in ("chain", "skip") and not tokens[k - 1].stop)
        and not (few and tokens[k].number <= 4 and (tokens[k].thing or tokens[k].story or tokens[k].world))
        and (tokens[k].number not in own or (tokens[k].number > 9 and tokens[k + 1 : k + 2] and tokens[k + 1].text != "times"))
        for k in range(stretch.begins, stretch.end)
    ) or _is_instruction(speech, stretch, row.counted.total)


def _listed(speech: Speech, stretch: Stretch) -> bool:
    """Whether two of several counts stated for the row are told in one breath: "Four whole shells, a half one at each side, five double
    crochet"."""
    stated = {n for _, n in counts_stated(stretch.unit.row_at(stretch.number), stretch.unit.size) if n > 1}
    tokens = speech.tokens
    if len(stated) < 2:
        return False
    for told in stretch.counts:
        first, last = sentence(tokens, told.k)
        said = tokens[max(first, stretch.begins, told.k - LISTED) : min(last + 1, stretch.end, told.k + LISTED)]
        worked = any(token.kind in ("chain", "skip", "repeat") or token.text in ("in", "into", "next", "times") for token in said)
        if not worked and told.number in stated and len(stated & {token.number for token in said if token.kind == "num"}) > 1:
            return True
    numbers = [k for k in range(stretch.begins, stretch.end) if tokens[k].kind == "num"]
    return any(
        {tokens[one].number, tokens[other].number} <= stated
        and tokens[one].number != tokens[other].number
        and _in_one_breath(tokens, one, other)
        for one, other in pairwise(numbers)
    )


def _in_one_breath(tokens: Sequence[Token], one: int, other: int) -> bool:
    """Whether only the noun of the first stands between two numbers of different things: "seven V stitches and your two doubles"."""
    between = tokens[one + 1 : other]
    nouns = between[0].kind in _COUNTED if between else False
    named = other + 1 < len(tokens) and tokens[other + 1].kind in _COUNTED
    return nouns and named and len(between) <= 4 and any(token.text in ("and", "with", "plus") for token in between)


_COUNTED = ("st", "stitch", "space", "shell", "cluster", "v-stitch", "puff", "popcorn", "bobble", "picot")


LISTED = 14
"""Words in which several counts are told in one breath (ours)."""


def _is_instruction(speech: Speech, stretch: Stretch, total: int) -> bool:
    """Whether the work told is the count: "six single crochet into the ring"."""
    tokens = speech.tokens
    return any(
        tokens[k].kind == "num" and tokens[k].number == total and tokens[k + 1].kind in ("st", "stitch", "decrease")
        for k in range(stretch.begins, min(stretch.end, len(tokens) - 1))
    )  # fmt: skip


_BEFORE_STITCHES = words("count_slips", "before_stitches")


def _lost(speech: Speech, stretch: Stretch, total: int) -> bool:
    """Whether a count may have been told and lost its number to the machine, "you should have stitches", or in words not known for one."""
    tokens = speech.tokens
    return (not speech.edited and any(
        tokens[k].kind == "stitch" and tokens[k].text != "stitch" and tokens[k - 1].kind not in ("num", "ord", "chain", "skip")
        and tokens[k - 1].text not in _BEFORE_STITCHES
        for k in range(stretch.begins + 1, stretch.end)
    )) or any(
        told.strength >= 0.3 and told.number not in stretch.unit.instructed and abs(told.number - total) <= max(6, total // 3)
        for told in stretch.counts
    )  # fmt: skip


def _words(speech: Speech, stretch: Stretch, k: int) -> str:
    return " ".join(t.raw for t in speech.tokens[max(stretch.start, k - 5) : k + 1])
