"""What is said of a row thing by thing, each with its number and its place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import cast

from .asked import Where
from .lexicon import meanings, words
from .pointed_back import pointed_back
from .said import Heard_, chains_told
from .tallies import counts_aloud
from .tokens import Token
from .withdrawn import in_talk, instead

_RUN = frozenset(
    (
        "next",
        "each",
        "of",
        "the",
        "first",
        "last",
        "following",
        "in",
        "into",
        "on",
        "along",
        "around",
        "over",
        "other",
        "those",
        "remaining",
    )
)
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
    where: Where = ""
    """Into what it goes, where that is said."""
    at_places: int = -1
    """The place of the number of places it goes into, where several go into each: "two doubles in each of the next three"."""


def told_of(
    tokens: Sequence[Token], heard: Sequence[Heard_], start: int, end: int, counted: frozenset[int], own: frozenset[int]
) -> list[Told_]:
    """The things said in tokens[start:end] in their order: stitches, skips, and numbers alone ("and the last eight"); `counted` the places
    of numbers that are counts or name rows, `own` the numbers in the row's words."""
    places = [h.k for h in heard]
    found = [
        _with_number(tokens, h, max(start, _before(places, i)), _after(places, i, end))
        for i, h in enumerate(heard)
        if _worked(tokens, h) and not _heads(tokens, h, heard[i + 1 :], start) and not _stands_for(tokens, h.k, start)
    ]
    found = [told for i, told in enumerate(found) if not (i and _same_dec(tokens, found[i - 1], told))]
    for k in range(start, end):
        if _skips(tokens, k) and not _skipped_place(tokens, k) and not pointed_back(tokens, k):
            found.append(_skip(tokens, k, start, end))
    used = {told.at_number for told in found} | {told.at_places for told in found} | counted | _one_each(tokens, heard)
    for k in range(start, end):
        of = _one_in_each_of(tokens, k, end) if k not in used else -1
        if of >= 0 and of not in used:
            found.append(Told_("st", "", tokens[of].number, k, tokens[k].at, tokens[k].raw, tokens[of].sure, of))
            used |= {k, of}
    for k in range(start, end):
        token = tokens[k]
        if (
            token.kind == "num"
            and k not in used
            and not _stands_for(tokens, k, start)
            and not (k and tokens[k - 1].text == "number" and not tokens[k - 1].stop)
            and not _counts_on(tokens, k)
            and instead(tokens, k, end) == k
            and not in_talk(tokens, k, own)
            and not _times(tokens, k)
            and not _there_are(tokens, k)
            and not _corners(tokens, k)
            and not (token.number == 1 and k and tokens[k - 1].text in _THAT_ONE and not tokens[k - 1].stop)
            and not (not token.stop and k + 1 < end and _of_the_next(tokens, k, start))
        ):
            found.append(Told_("?", "", token.number, k, token.at, token.raw, token.sure, k))
    found.sort(key=lambda told: told.k)
    ends = (*(told.k for told in found[1:]), end)
    return [replace(told, where=_where(tokens, told, start, upto)) for told, upto in zip(found, ends, strict=False)]


_PLACES = meanings("detail", "places")
"""The words that name a place, each with the place it names."""
LEAD = 7
"""Words within which a sentence first names the place of all it tells: "In each corner space, two doubles, chain two …" (ours)."""


POINTED = 10
"""Words before a stitch within which the place it goes into is pointed at (ours)."""


def next_pointed_at(tokens: Sequence[Token], k: int, start: int) -> bool:
    """Whether the next stitch is pointed at before the one at token k: "go to the next stitch and work two doubles in it"."""
    for i in range(k - 1, max(start, k - POINTED), -1):
        if tokens[i].kind in ("st", "chain", "skip") or (tokens[i].stop and tokens[i].mark in ".!?"):
            return False
        if tokens[i].kind == "stitch":
            return tokens[i - 1].text in ("next", "following")
    return False


_UP_TO = frozenset(("to", "until", "till", "before", "towards", "toward", "after"))
"""Behind one of these a place is only where the work ends: "singles up to the corner"."""


def _where(tokens: Sequence[Token], told: Told_, start: int, upto: int) -> Where:
    """The place told behind the thing, else the one its sentence begins with; "" where none is."""
    for i in range(told.k, upto):
        if i > told.k and tokens[i].text in _UP_TO:
            break
        if i > told.k and not tokens[i].stop and tokens[i - 1].text in ("in", "into") and tokens[i].text in ("it", "there"):
            return "" if next_pointed_at(tokens, told.k, start) else "same"
        if i > told.k and tokens[i].text in _PLACES and tokens[i - 1].text not in ("back", "front"):
            return cast(Where, _PLACES[tokens[i].text])
        if tokens[i].stop:
            break
    first = told.k
    while first > start and told.k - first < 20 and not (tokens[first - 1].stop and tokens[first - 1].mark in ".!?"):
        first -= 1
    lead = tokens[first : min(told.k, first + LEAD)]
    if lead and any(token.text in ("in", "into", "at") for token in lead[:3]):
        return next((cast(Where, _PLACES[token.text]) for token in lead if _PLACES.get(token.text) == "hole"), "")
    return ""


def _there_are(tokens: Sequence[Token], k: int) -> bool:
    """Whether a number only tells how many of them there are: "so there's two of those now on each side"."""
    behind = [token.text for token in tokens[k + 1 : k + 3]]
    lead = [token.text for token in tokens[max(0, k - 2) : k]]
    return behind[:1] == ["of"] and behind[-1] in _THEM and any(word in _BEING for word in lead)


def _corners(tokens: Sequence[Token], k: int) -> bool:
    """Whether corners or sides are counted: "the same in the other two corners", "so three more corners"."""
    behind = [token.text for token in tokens[k + 1 : k + 3]] if not tokens[k].stop else []
    return bool(behind) and (behind[0] in _SIDES or (behind[0] in ("more", "other") and behind[-1] in _SIDES))


_SIDES = frozenset(("corners", "sides", "edges", "ends"))
_THEM, _BEING = frozenset(("those", "them", "these")), frozenset(("there's", "theres", "there", "you've", "have", "are"))


_WRAPS = frozenset(("wraps", "wrap", "loops", "strands", "yarnovers", "overs"))
"""What is counted of one stitch while it is made."""
_NO_STITCH = ("row", "rows", "space", "together", "ring", "ord")


def _of_the_next(tokens: Sequence[Token], k: int, start: int) -> bool:
    """Whether the number belongs to what follows and is no stitch's; a chain that has its own takes none: "three chain two three"."""
    after = tokens[k + 1]
    if after.kind == "chain":
        return chains_told(tokens, k + 1, start, len(tokens)) in (k, -1)
    return after.kind in _NO_STITCH or after.text in _WRAPS


_THAT_ONE = frozenset(("middle", "centre", "center", "same", "other", "that", "this", "which"))
"""Behind one of these "one" is a place, and no number: "in the middle one of the corner"."""


def _counts_on(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number is counted aloud on the way to a larger one: in "one, two, three, and two in one" the three is told."""
    after = tokens[k + 1] if k + 1 < len(tokens) else None
    return counts_aloud(tokens, k) and after is not None and after.kind == "num" and after.number == tokens[k].number + 1


def _same_dec(tokens: Sequence[Token], before: Told_, told: Told_) -> bool:
    """Whether "together" only ends the decrease named right before: "treble three together"."""
    return told.kind == before.kind == "dec" and tokens[told.k].kind == "together" and told.k - before.k <= 4


def _skipped_place(tokens: Sequence[Token], k: int) -> bool:
    """Whether stitches skipped before are worked into now: "around each of the four skipped stitches"."""
    lead = tokens[k - 1] if k else None
    return tokens[k].text in ("skipped", "missed") and lead is not None and (lead.kind == "num" or lead.text in ("the", "those", "of"))


def _worked(tokens: Sequence[Token], h: Heard_) -> bool:
    """Whether the name asks for work; in "A treble, so two wraps" it is only spoken of."""
    if h.k + 1 < len(tokens) and tokens[h.k].stop and tokens[h.k + 1].text == "remember":
        return False
    spoken_of = h.k > 1 and tokens[h.k].stop and tokens[h.k - 1].text in ("a", "an") and tokens[h.k - 2].mark in ".!?"
    if (
        h.item.kind == "ch"
        and any(token.kind == "space" or token.text in _LOOPS for token in tokens[max(0, h.k - 4) : h.k - 1])
        and tokens[h.k - 2].text in ("with", "of")
        and not any(token.text in _BETWEEN for token in tokens[h.k + 1 : h.k + 5])
    ):
        return False  # "twelve spaces with three chain"
    return h.clear >= 0.5 and not spoken_of and not h.chain and not announced(tokens, h)


_LOOPS = frozenset(("loop", "loops", "arch", "arches"))
_BETWEEN = frozenset(("between", "inbetween", "apart", "separating"))
"""Behind a chain that is worked and does not tell what a space is made of: "in each space, with a chain one in between"."""
_ANNOUNCES = frozenset(("work", "working", "in", "all", "is", "it's", "with", "are", "use", "using", "just", "only", "to", "doing"))


def announced(tokens: Sequence[Token], h: Heard_) -> bool:
    """Whether the stitch is only announced for the row, without number or place: "In round three we work single crochet."."""
    token, lead = tokens[h.k], tokens[h.k - 1] if h.k else None
    return h.item.kind == "st" and token.stop and token.mark in ".!?:" and lead is not None and not lead.stop and lead.text in _ANNOUNCES


STANDS = 9
"""Words within which it is told what a chain stands for (ours)."""
_STANDS = words("detail", "stands")
_STANDS_NOT = frozenset(("not", "doesn't", "don't", "won't", "isn't", "didn't", "never"))


def _stands_for(tokens: Sequence[Token], k: int, start: int) -> bool:
    """Whether a thing only tells what the chain before it stands for: "Chain four, that's a double crochet and a chain one"."""
    if not tokens[k].stop and any(token.text in ("in", "into", "around", "over", "across") for token in tokens[k + 1 : k + 3]):
        return False
    for i in range(k - 1, max(start, k - STANDS), -1):
        if tokens[i].stop:
            return False
        if tokens[i].text in _STANDS and tokens[i - 1].text in _STANDS_NOT:
            return False  # "chain one, doesn't count, single crochet in …"
        if tokens[i].text in _STANDS or (tokens[i].text == "is" and tokens[i - 1].text in ("this", "that", "which")):
            said = tokens[max(start, i - STANDS) : i]
            return any(token.kind == "chain" for token in said) and not any(token.kind == "st" for token in said)
    return False


def _heads(tokens: Sequence[Token], h: Heard_, behind: Sequence[Heard_], start: int) -> bool:
    """Whether the stitch heads the row like a title, and is told again in it: "Row eight, single crochet. Chain one, two singles in …"."""
    opens = h.item.kind == "st" and h.k - start <= 1 and tokens[h.k].stop and tokens[h.k].mark in ".!?:"
    return opens and any(other.item.plain == h.item.plain for other in behind)


def _before(places: Sequence[int], i: int) -> int:
    return places[i - 1] + 1 if i else 0


def _after(places: Sequence[int], i: int, end: int) -> int:
    return min(places[i + 1], end) if i + 1 < len(places) else end


def _with_number(tokens: Sequence[Token], h: Heard_, start: int, end: int) -> Told_:
    item = h.item
    if item.kind == "ch":
        where = chains_told(tokens, h.k, start, len(tokens))
        return Told_("ch", "", int(item.what), h.k, h.at, h.words, tokens[where].sure if where >= 0 else 0.5, where)
    if item.kind == "inc" and not item.what and tokens[h.k].kind == "num":
        return Told_("inc", "", tokens[h.k].number, h.k, h.at, h.words, tokens[h.k].sure, h.k)
    if tokens[h.k].kind in ("increase", "decrease", "together"):
        return Told_(item.kind, item.what, None, h.k, h.at, h.words)
    number, sure, where = _number(tokens, h.k, start, end)
    other = h.other.what if h.other is not None else ""
    places = _each_of(tokens, h.k, end) if number is not None and number > 1 and where < h.k else -1
    return Told_(item.kind, item.what, number, h.k, h.at, h.words, sure, where, other, at_places=places)


def _number(tokens: Sequence[Token], k: int, start: int, end: int) -> tuple[int | None, float, int]:
    """(how many, how sure, place of the number) of the stitch at token k: "twelve half doubles", "single crochet in the next six"."""
    lead = k - 1
    while lead >= start and not tokens[lead].stop and (tokens[lead].kind in ("front post", "back post") or tokens[lead].text in _SUCH):
        lead -= 1
    led = lead >= start and tokens[lead].kind == "num" and not tokens[lead].stop and not _belongs_before(tokens, lead)
    if led and _of_a_skip(tokens, lead) and _run_follows(tokens, k, end):
        led = False
    if led and (tokens[lead].number > 1 or not (_run_follows(tokens, k, end) or _each(tokens, k))):
        return tokens[lead].number, tokens[lead].sure, lead
    if tokens[k].stop and (tokens[k].mark in ".!?" or not (k + 1 < end and tokens[k + 1].text in ("in", "into", "around", "over"))):
        return None, 0.0, -1
    for i in range(k + 1, min(k + 9, end)):
        token = tokens[i]
        if token.kind == "num" and not _times(tokens, i) and not _names_next(tokens, i, end):
            i = instead(tokens, i, end)
            return tokens[i].number, tokens[i].sure, i
        if token.kind in ("stitch", "chain") and token.text in ("stitch", "st", "chain", "ch"):
            return (None if any(t.text in _ONE for t in tokens[k + 1 : i]) else 1), 0.6, -1
        if token.kind == "ord" and token.number == 1 and not token.stop:
            continue
        if token.text in ("next", "following") and _one_next(tokens, k, i, end):
            return 1, 0.6, -1
        if token.kind not in ("word", "around") or (token.text not in _RUN and token.kind == "word") or token.stop:
            return None, 0.0, -1
        if tokens[i - 1].stop and i > k + 1:
            return None, 0.0, -1
    return None, 0.0, -1


def _one_next(tokens: Sequence[Token], k: int, i: int, end: int) -> bool:
    """Whether "in the next" ends here, its "stitch" left out: "chain two, skip two, double crochet in the next. And four more"."""
    if any(token.text in _ONE or token.kind == "ord" for token in tokens[k + 1 : i]):
        return False
    return tokens[i].stop or i + 1 >= end or tokens[i + 1].text in ("and", "then", "so")


_SUCH = frozenset(("more", "further", "extra", "little", "other"))
"""Between a number and its stitch: "two more doubles"."""


def _belongs_before(tokens: Sequence[Token], lead: int) -> bool:
    """ "Chain two half double": the number is the chain's; "step two double crochet": the step's."""
    before = tokens[lead - 1] if lead else None
    return before is not None and not before.stop and (before.kind in ("chain", "row", "rows", "skip") or before.text in _NUMBERED)


def _of_a_skip(tokens: Sequence[Token], lead: int) -> bool:
    """Whether the number is that of the stitches skipped or worked into before: "skip the next two double crochet in the next five",
    "single crochet in the next four single crochet in the next four"."""
    at, which = lead - 1, False
    while at > 0 and not tokens[at].stop and tokens[at].text in ("the", "next", "following", "last", "first", "of", "each"):
        which, at = which or tokens[at].text in ("next", "following", "last"), at - 1
    if at < 0 or tokens[at].stop:
        return False
    return tokens[at].kind == "skip" or (
        which and tokens[at].text in ("in", "into", "on", "around") and at > 0 and tokens[at - 1].kind == "st"
    )


def _one_each(tokens: Sequence[Token], heard: Sequence[Heard_]) -> set[int]:
    """The places of a "one" that stands before its stitch: "one single in each of …"."""
    return {h.k - 1 for h in heard if h.k and tokens[h.k - 1].number == 1 and not tokens[h.k - 1].stop}


def _one_in_each_of(tokens: Sequence[Token], k: int, end: int) -> int:
    """The place of the number in "one in each of the next six", where "one" stands for the stitch; -1 where it does not."""
    token = tokens[k]
    if token.kind != "num" or token.number != 1 or token.stop or [t.text for t in tokens[k + 1 : k + 3]] not in _INTO_EACH:
        return -1
    return _each_of(tokens, k, end)


_INTO_EACH = (["in", "each"], ["into", "each"], ["in", "every"], ["on", "each"])


def _each(tokens: Sequence[Token], k: int) -> bool:
    """ "One single in each of the doubles": one in each, and it is not told how many."""
    return not tokens[k].stop and any(token.text in ("each", "every") for token in tokens[k + 1 : k + 4])


def _each_of(tokens: Sequence[Token], k: int, end: int) -> int:
    """The place of the number in "in each of the next three" behind the stitch at token k; -1 where none is."""
    if tokens[k].stop:
        return -1
    each = False
    for i in range(k + 1, min(k + 8, end)):
        if tokens[i].kind == "num":
            i = instead(tokens, i, end)
            return i if each and not _times(tokens, i) and not _names_next(tokens, i, end) else -1
        each = each or tokens[i].text in ("each", "every")
        if tokens[i].stop or tokens[i].text not in _RUN:
            return -1
    return -1


def _run_follows(tokens: Sequence[Token], k: int, end: int) -> bool:
    """ "One treble in each of the next four": one in each, and four of them."""
    if tokens[k].stop:
        return False
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
    if tokens[i - 1].text in ("next", "following") and tokens[i + 1].kind == "st" and _run_follows(tokens, i + 1, len(tokens)):
        return False  # "single crochet in the next four single crochet in the next four"
    return i + 1 == end or (i + 2 == end and tokens[i + 1].kind in ("front post", "back post"))


def _times(tokens: Sequence[Token], i: int) -> bool:
    if i + 2 < len(tokens) and tokens[i + 1].text == "more" and tokens[i + 2].text in ("times", "time"):
        return True
    return i + 1 < len(tokens) and (tokens[i + 1].kind == "together" or tokens[i + 1].text in ("times", "time", "rows", "rounds"))


_PASSES = words("detail", "passes")
"""Other words for skipping stitches, where stitches or a number stand beside them: "three stitches we jump", "leave one"."""


def _skips(tokens: Sequence[Token], k: int) -> bool:
    if tokens[k].kind == "skip" or tokens[k].text not in _PASSES:
        return tokens[k].kind == "skip"
    behind = tokens[k + 1 : k + 3] if not tokens[k].stop else ()
    return _skipped_before(tokens, k) >= 0 or any(token.kind == "num" for token in behind) or _stitch_follows(tokens, k)


def _stitch_follows(tokens: Sequence[Token], k: int) -> bool:
    behind = tokens[k + 1 : k + 4] if not tokens[k].stop else ()
    return any(token.kind == "stitch" and token.text in ("stitch", "st") for token in behind)


def _skipped_before(tokens: Sequence[Token], k: int) -> int:
    """The place of the number told before the word: "two stitches we jump", "two we leave"; -1 where none is."""
    for i in range(k - 1, max(-1, k - 4), -1):
        if tokens[i].stop:
            return -1
        if tokens[i].kind == "num":
            return -1 if _belongs_before(tokens, i) else i  # "chain two, skip the space"
        if tokens[i].kind != "stitch" and tokens[i].text not in ("we", "you", "i", "are", "is"):
            return -1
    return -1


def _skip(tokens: Sequence[Token], k: int, start: int, end: int) -> Told_:
    number: int | None = 1
    sure, where = 0.6, -1
    for i in range(k + 1, min(k + 5, end) if not tokens[k].stop else k):
        if tokens[i].kind == "num":
            number, sure, where = tokens[i].number, tokens[i].sure, i
            break
        if tokens[i].text not in _RUN or tokens[i].stop:
            break
    led = _skipped_before(tokens, k)
    if where < 0 and led >= start:
        number, sure, where = tokens[led].number, tokens[led].sure, led
    return Told_("skip", "", number, k, tokens[k].at, tokens[k].raw, sure, where)
