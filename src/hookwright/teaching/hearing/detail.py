"""What is said of a row thing by thing, each with its number; laid against what the row's words ask for, repeats told once or often."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .asked import Asked
from .lexicon import words
from .said import Heard_
from .tallies import counts_aloud
from .tokens import Token

_RUN = frozenset(("next", "each", "of", "the", "first", "last", "following", "in", "into", "around", "over", "other", "those", "remaining"))
_NUMBERED = words("tallies", "numbered")
_ONE = frozenset(("each", "every", "same", "one"))


@dataclass(frozen=True, slots=True)
class Told_:
    """One thing said. `number` how many (None: not said); `sure` of the number; `what` in the pattern's names, "" for "two in the next"."""

    kind: str
    what: str
    number: int | None
    k: int
    at: float
    words: str
    sure: float = 1.0
    at_number: int = -1
    """The place of the number."""
    other: str = ""
    """The stitch as the other terms have it."""


def told_of(tokens: Sequence[Token], heard: Sequence[Heard_], start: int, end: int, counted: frozenset[int] = frozenset()) -> list[Told_]:
    """The things said in tokens[start:end] in their order: stitches, skips, and numbers alone ("and the last eight"); `counted` the places
    of numbers that are counts or name rows."""
    places = [h.k for h in heard]
    found = [
        _with_number(tokens, h, max(start, _before(places, i)), _after(places, i, end)) for i, h in enumerate(heard) if _worked(tokens, h)
    ]
    found = [told for i, told in enumerate(found) if not (i and _same_dec(found[i - 1], told))]
    for k in range(start, end):
        if tokens[k].kind == "skip" and not _skipped_place(tokens, k):
            found.append(_skip(tokens, k, end))
    used = {told.at_number for told in found} | counted
    for k in range(start, end):
        token = tokens[k]
        if (
            token.kind == "num"
            and k not in used
            and not _counts_on(tokens, k)
            and not _times(tokens, k)
            and not (k + 1 < end and tokens[k + 1].kind in _NO_STITCH)
        ):
            found.append(Told_("?", "", token.number, k, token.at, token.raw, token.sure, k))
    found.sort(key=lambda told: told.k)
    return found


_NO_STITCH = ("chain", "row", "rows", "space", "together", "ring", "ord")


def _counts_on(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number is counted aloud on the way to a larger one: in "one, two, three, and two in one" the three is told."""
    after = tokens[k + 1] if k + 1 < len(tokens) else None
    return counts_aloud(tokens, k) and after is not None and after.kind == "num" and after.number == tokens[k].number + 1


def _same_dec(before: Told_, told: Told_) -> bool:
    """Whether "together" only ends the decrease named right before: "treble three together"."""
    return told.kind == before.kind == "dec" and not told.what and told.k - before.k <= 4


def _skipped_place(tokens: Sequence[Token], k: int) -> bool:
    """Whether stitches skipped before are worked into now: "around each of the four skipped stitches"."""
    lead = tokens[k - 1] if k else None
    return tokens[k].text in ("skipped", "missed") and lead is not None and (lead.kind == "num" or lead.text in ("the", "those", "of"))


def _worked(tokens: Sequence[Token], h: Heard_) -> bool:
    """Whether the name asks for work; in "A treble, so two wraps" it is only spoken of."""
    spoken_of = h.k > 1 and tokens[h.k].stop and tokens[h.k - 1].text in ("a", "an") and tokens[h.k - 2].mark in ".!?"
    return h.clear >= 0.5 and not spoken_of and not h.chain and not announced(tokens, h)


_ANNOUNCES = frozenset(("work", "working", "in", "all", "is", "it's", "with", "are", "use", "using", "just", "only", "to", "doing"))


def announced(tokens: Sequence[Token], h: Heard_) -> bool:
    """Whether the stitch is only announced for the row, without number or place: "In round three we work single crochet."."""
    token, lead = tokens[h.k], tokens[h.k - 1] if h.k else None
    return h.item.kind == "st" and token.stop and token.mark in ".!?:" and lead is not None and not lead.stop and lead.text in _ANNOUNCES


def _before(places: Sequence[int], i: int) -> int:
    return places[i - 1] + 1 if i else 0


def _after(places: Sequence[int], i: int, end: int) -> int:
    return min(places[i + 1], end) if i + 1 < len(places) else end


def _with_number(tokens: Sequence[Token], h: Heard_, start: int, end: int) -> Told_:
    item = h.item
    if item.kind == "ch":
        after = tokens[h.k + 1] if h.k + 1 < len(tokens) else None
        said = after is not None and after.kind == "num" and not tokens[h.k].stop
        return Told_("ch", "", int(item.what), h.k, h.at, h.words, after.sure if said and after is not None else 0.5, h.k + 1)
    if item.kind == "inc" and not item.what and tokens[h.k].kind == "num":
        return Told_("inc", "", tokens[h.k].number, h.k, h.at, h.words, tokens[h.k].sure, h.k)
    if tokens[h.k].kind in ("increase", "decrease", "together"):
        return Told_(item.kind, item.what, None, h.k, h.at, h.words)
    number, sure, where = _number(tokens, h.k, start, end)
    return Told_(item.kind, item.what, number, h.k, h.at, h.words, sure, where, h.other.what if h.other is not None else "")


def _number(tokens: Sequence[Token], k: int, start: int, end: int) -> tuple[int | None, float, int]:
    """(how many, how sure, place of the number) of the stitch at token k: "twelve half doubles", "single crochet in the next six"."""
    lead = k - 1
    while lead >= start and tokens[lead].kind in ("front post", "back post"):
        lead -= 1
    led = lead >= start and tokens[lead].kind == "num" and not tokens[lead].stop and not _belongs_before(tokens, lead)
    if led and (tokens[lead].number > 1 or not _run_follows(tokens, k, end)):
        return tokens[lead].number, tokens[lead].sure, lead
    if tokens[k].stop and tokens[k].mark in ".!?":
        return None, 0.0, -1
    for i in range(k + 1, min(k + 9, end)):
        token = tokens[i]
        if token.kind == "num" and not _times(tokens, i) and not _names_next(tokens, i, end):
            return token.number, token.sure, i
        if token.kind in ("stitch", "chain") and token.text in ("stitch", "st", "chain", "ch"):
            return (None if any(t.text in _ONE for t in tokens[k + 1 : i]) else 1), 0.6, -1
        if token.kind == "ord" and token.number == 1 and not token.stop:
            continue
        if token.kind not in ("word", "around") or (token.text not in _RUN and token.kind == "word") or token.stop:
            return None, 0.0, -1
        if tokens[i - 1].stop and i > k + 1:
            return None, 0.0, -1
    return None, 0.0, -1


def _belongs_before(tokens: Sequence[Token], lead: int) -> bool:
    """ "Chain two half double": the number is the chain's; "step two double crochet": the step's."""
    before = tokens[lead - 1] if lead else None
    return before is not None and not before.stop and (before.kind in ("chain", "row", "rows", "skip") or before.text in _NUMBERED)


def _run_follows(tokens: Sequence[Token], k: int, end: int) -> bool:
    """ "One treble in each of the next four": one in each, and four of them."""
    for i in range(k + 1, min(k + 8, end)):
        if tokens[i].kind == "num":
            return True
        if tokens[i].stop or (tokens[i].text not in _RUN and tokens[i].number != 1):
            return False
    return False


def _names_next(tokens: Sequence[Token], i: int, end: int) -> bool:
    """Whether the number is that of the next thing, which is told at `end`: "increase, four singles"."""
    if tokens[i].stop or i + 1 >= len(tokens):
        return False
    return i + 1 == end or (i + 2 == end and tokens[i + 1].kind in ("front post", "back post"))


def _times(tokens: Sequence[Token], i: int) -> bool:
    return i + 1 < len(tokens) and (tokens[i + 1].kind == "together" or tokens[i + 1].text in ("times", "time", "rows", "rounds"))


def _skip(tokens: Sequence[Token], k: int, end: int) -> Told_:
    number: int | None = 1
    sure, where = 0.6, -1
    for i in range(k + 1, min(k + 5, end)):
        if tokens[i].kind == "num":
            number, sure, where = tokens[i].number, tokens[i].sure, i
            break
        if tokens[i].text not in _RUN or tokens[i].stop:
            break
    return Told_("skip", "", number, k, tokens[k].at, tokens[k].raw, sure, where)


@dataclass(frozen=True, slots=True)
class Step_:
    """One step of the laying: a thing asked for (its place, None: said besides) and what was said (None: not said)."""

    place: int | None
    told: Told_ | None
    agrees: bool = True


LEFT, EXTRA, OTHER_NUMBER, BACK, POST, UNNUMBERED = 1.0, 0.4, 0.3, 0.05, 0.15, 0.05


def laid(asked: Sequence[Asked], told: Sequence[Told_]) -> list[Step_]:
    """The cheapest way to lay what is said along what is asked; from the end of a repeat one may go back to its beginning.

    Time grows with asked x told."""
    n, m = len(asked), len(told)
    best = [[1e9] * (n + 1) for _ in range(m + 1)]
    came: list[list[tuple[str, int]]] = [[("", 0)] * (n + 1) for _ in range(m + 1)]
    best[0][0] = 0.0
    for j in range(m + 1):
        if j:
            for i in range(n + 1):
                _better(best, came, j, i, best[j - 1][i] + _besides(told[j - 1]), "extra", i)
                if i:
                    cost = _cost(asked[i - 1], told[j - 1])
                    if cost is not None:
                        _better(best, came, j, i, best[j - 1][i - 1] + cost, "pair", i - 1)
        for _ in range(2):
            for i in range(1, n + 1):
                _better(best, came, j, i, best[j][i - 1] + _unsaid(asked, i - 1), "left", i - 1)
            for i in range(1, n + 1):
                start = asked[i - 1].start
                if start >= 0:
                    _better(best, came, j, start, best[j][i] + BACK, "back", i)
    return _trace(asked, told, came)


def _besides(told: Told_) -> float:
    """What it costs that this is said besides: a number alone or a bare "chain" may be anything."""
    return 0.02 if told.kind == "?" else 0.1 if told.kind == "ch" and told.sure <= 0.5 else EXTRA


def _unsaid(asked: Sequence[Asked], place: int) -> float:
    """What it costs that this is not said; of two alike it is the second."""
    if asked[place].free:
        return 0.05
    return LEFT - 0.02 if place and replace(asked[place], start=-1) == replace(asked[place - 1], start=-1) else LEFT


def _better(best: list[list[float]], came: list[list[tuple[str, int]]], j: int, i: int, cost: float, how: str, origin: int) -> None:
    if cost < best[j][i] - 1e-9:
        best[j][i] = cost
        came[j][i] = (how, origin)


def _trace(asked: Sequence[Asked], told: Sequence[Told_], came: list[list[tuple[str, int]]]) -> list[Step_]:
    out: list[Step_] = []
    i, j = len(asked), len(told)
    for _ in range(4 * (len(asked) + 1) * (len(told) + 1)):
        how, origin = came[j][i]
        if how == "extra":
            out.append(Step_(None, told[j - 1]))
            j -= 1
        elif how == "pair":
            out.append(Step_(i - 1, told[j - 1], _number_agrees(asked[i - 1], told[j - 1])))
            i, j = origin, j - 1
        elif how == "left":
            out.append(Step_(i - 1, None))
            i = origin
        elif how == "back":
            i = origin
        else:
            break
    return out[::-1]


def _number_agrees(asked: Asked, told: Told_) -> bool:
    return told.number is None or not asked.numbers or told.number in asked.numbers


def _cost(asked: Asked, told: Told_) -> float | None:
    """What it costs that this was said for that; None where it cannot be."""
    if told.kind == "?":
        return 0.1 if asked.kind in ("st", "inc", "dec") and told.number in asked.numbers else None
    if told.kind == "group":
        return 0.0 if asked.kind == "st" and told.what in asked.what.lower() else None
    if asked.kind != told.kind and not {asked.kind, told.kind} <= {"st", "inc"}:
        return None
    if told.what and asked.what and not _same(asked.what, told.what) and not (told.other and _same(asked.what, told.other)):
        return None
    if asked.kind == "st" and told.kind == "inc" and not _number_agrees(asked, told):
        return None  # "two in the next" is no plain stitch: rather that one was left out
    cost = 0.0 if asked.kind == told.kind else 0.3 if told.kind == "st" and not _number_agrees(asked, told) else 0.2
    if told.what and asked.what and told.what[:2] != asked.what[:2] and "P" in (told.what[1:2], asked.what[1:2]):
        cost += POST
    if told.number is not None and not asked.numbers:
        cost += UNNUMBERED
    return cost if _number_agrees(asked, told) else cost + OTHER_NUMBER


def fits(asked: Asked, told: Told_) -> bool:
    """Whether this is said for that in so many words: kind, stitch and number."""
    return told.number is not None and asked.kind == told.kind and _number_agrees(asked, told) and _cost(asked, told) == 0


def _same(asked: str, told: str) -> bool:
    posts = {what[:2] for what in (asked, told) if what[:2] in ("FP", "BP")}
    return asked.removeprefix("FP").removeprefix("BP") == told.removeprefix("FP").removeprefix("BP") and len(posts) < 2
