"""What a number counts that is no stitch: rounds, shades of black, an hour of the day, an age, a price."""

from __future__ import annotations

from collections.abc import Sequence

from .lexicon import meanings, words
from .tokens import Token

_NO_THING = words("things", "no_thing")
_NO_TALLY = words("tallies", "no_tally")
_CLOCK = words("things", "clock")
_AGES = words("things", "ages")
_WORLD = words("things", "world")
_AMISS = words("things", "amiss")
_PARTLY = frozenset(("halfway", "quarter", "already", "far"))
_ALMOST, _DONE = frozenset(("nearly", "almost")), frozenset(("there", "half", "halfway", "all", "round", "around"))
_OTHERWISE = words("things", "otherwise")
_EQUALS = frozenset(("is", "are", "makes", "equals", "gives", "that's"))
_SHARES = frozenset(("each", "every", "per", "a"))
_SIDES = words("things", "sides")
_TIMES = frozenset(("minute", "second", "hour", "day", "night", "week", "evening", "inch"))
_STITCHES = frozenset(
    ("st", "stitch", "space", "chain", "shell", "cluster", "picot", "bobble", "puff", "popcorn", "v-stitch", "front post", "back post")
)
_OF_THEM = frozenset(("you", "us", "my", "those", "these"))
OWN_NOUNS = meanings("things", "own_nouns")
"""Things that some patterns count instead of stitches: a count where the pattern states one of them, else nothing."""
MARKED = 16
"""Words looked over to either side for a full stop or a comma: a text with none was marked by nobody."""
ECHO = 18
"""Words within which a number told again still counts the same thing (ours)."""


def marked(tokens: Sequence[Token], k: int) -> bool:
    """Whether sentences are marked in the words around token k."""
    return any(token.stop and not token.ends for token in tokens[max(0, k - MARKED) : k + MARKED])


def thing_counted(tokens: Sequence[Token], k: int) -> str:
    """The plain thing that the number at token k counts ("forty shades", "twelve rounds"); "" where it counts none."""
    if tokens[k].stop or k + 1 >= len(tokens):
        return ""
    after = tokens[k + 1]
    if after.kind == "rows" or (after.kind == "row" and after.text.endswith("s")):
        return after.text
    if after.kind != "word" or after.text in OWN_NOUNS or _stitches_follow(tokens, k):
        return ""
    if after.text in ("to", "more") and k + 2 < len(tokens) and (after.text == "more" or tokens[k + 2].text == "go"):
        return "rest"
    if after.text == "of" and k + 2 < len(tokens) and tokens[k + 2].text in _OF_THEM:
        return "people"
    if after.text in _NO_TALLY and after.text not in ("and", "to", "over", "am"):
        return after.text
    if after.text in _NO_THING or after.text.endswith("ly") or len(after.text) < 3:
        return ""
    if marked(tokens, k):
        return after.text
    return after.text if after.text.endswith("s") and "'" not in after.text and not after.text.endswith("ss") else ""


def describes(token: Token) -> bool:
    """Whether a word only describes what is counted: "little", "neat"."""
    return (
        token.kind == "word"
        and token.text not in OWN_NOUNS
        and token.text not in _NO_THING
        and token.text not in _NO_TALLY
        and len(token.text) > 2
    )


def _stitches_follow(tokens: Sequence[Token], k: int) -> bool:
    """ "Twenty-four lovely little stitches": what is counted stands behind words that describe it."""
    for token in tokens[k + 1 : k + 4]:
        if token.kind in _STITCHES:
            return True
        if token.kind != "word" or token.stop or token.text in _NO_THING:
            return False
    return False


def no_count(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number at token k tells of the world: things, the clock, an age, or again what was counted a moment before."""
    if thing_counted(tokens, k):
        return True
    if multiplied(tokens, k):
        return True
    rate = tokens[k + 2 : k + 4]
    if not tokens[k].stop and len(rate) > 1 and rate[0].text in ("a", "an", "per", "every") and rate[1].text in _TIMES:
        return True  # "a hundred stitches a minute"
    before = tokens[k - 1] if k and not tokens[k - 1].stop else None
    if before is not None and before.text in _AGES:
        return True
    if k > 1 and tokens[k - 1].stop and tokens[k - 1].mark == "," and tokens[k - 2].kind == "num" and _or_so(tokens, k):
        return True  # "four rounds, five if you count the hug"
    if before is not None and before.text in ("at", "by", "from", "past", "till", "until", "to") and _sentence_has(tokens, k, _CLOCK):
        return True
    return _echoes(tokens, k) or _of_those(tokens, k)


def multiplied(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number at token k is only multiplied: "Ten times six is sixty"."""
    after = tokens[k + 1 : k + 4]
    if len(after) < 3 or tokens[k].stop or any(token.stop for token in after[:2]):
        return False
    return after[0].text in ("times", "multiplied") and after[1].kind == "num" and after[2].text in _EQUALS


def shared(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number at token k is that of one side or corner, and not of the row: "ten on each side now", "four in every space", "in
    every side eighteen"."""
    for i in range(k - 1, max(0, k - 4), -1):
        if tokens[i].stop and tokens[i].mark in ".!?":
            break
        if tokens[i].text.removesuffix("s") in _SIDES and tokens[i - 1].text in _SHARES and tokens[i - 1].text != "a":
            return True
    after = tokens[k + 1 : k + 6]
    for i, token in enumerate(after[:-1]):
        if token.kind == "num" or (i and after[i - 1].stop and after[i - 1].mark in ".!?"):
            return False  # "forty-four double crochet, eleven a side"
        if token.text in _SHARES and (after[i + 1].text.removesuffix("s") in _SIDES or after[i + 1].kind == "space"):
            return not tokens[k].stop or tokens[k].mark not in ".!?"
    return False


def supposed(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number at token k is of a piece made otherwise: "If your head's big, do one more, and you'll have fifty-six"."""
    first, last = sentence(tokens, k, 30)
    before = [token.text for token in tokens[first:k]]
    if "if" not in before:
        return False
    if _has_if(tokens[first:k]):
        return True
    amiss = any(token.text in _AMISS for token in tokens[k : last + 1])  # "If you have sixty, you've missed the turning chain"
    return amiss or any(word in _OTHERWISE for word in before[before.index("if") :])


def _has_if(before: Sequence[Token]) -> bool:
    """Whether these words end by asking whether one has so many: "if you have", "if you only count"; "if you count, you have" tells it."""
    at = max((i for i, token in enumerate(before) if token.text == "if"), default=-1)
    said = before[at + 1 :] if at >= 0 else ()
    told = any(token.text in ("should", "you'll", "will", "must", "then", "that's", "it's", "there's") for token in said)
    told = told or any(token.text in ("you've", "we've", "i've", "there", "there'll") for token in said[2:])  # "if all is well there are"
    second = any(token.text in _SUBJECTS for token in said[2:]) and said[1].text not in _THINKS
    told = told or second  # "if I count now it gives"
    return 1 < len(said) <= 5 and not told and not any(token.stop for token in said)


_SUBJECTS = frozenset(("i", "you", "we", "it", "that", "this", "they"))
_THINKS = frozenset(("find", "see", "think", "notice", "say", "feel", "guess", "know", "believe"))
"""Behind one of these a second clause is only what is thought: "if you find you have fifty"."""


def of_others(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number at token k is what others get by a slip: "That's where people get forty-three", "some of you will have nine"."""
    first, _ = sentence(tokens, k)
    before = tokens[max(first, k - OTHERS) : k]
    for i, token in enumerate(before):
        where = token.text in _ANYBODY and any(other.text in _WHERE for other in before[:i])
        if where or token.text in _OTHERS:
            behind = before[i + 1 :]
            return any(other.text in _GET for other in behind[:4]) and not any(
                other.text in _EQUALS or "'" in other.text for other in behind
            )
    return False


OTHERS = 9
"""Words before a number within which it is told whose it is (ours)."""
_OTHERS = words("things", "others")
_ANYBODY = words("things", "anybody")
_WHERE = words("things", "where")
_GET = words("things", "get")
_SEAMS = words("things", "seams")


def of_a_seam(tokens: Sequence[Token], k: int) -> bool:
    """Whether stitches of a seam are counted: "Fold it and slip stitch along the top, thirty stitches"."""
    first, _ = sentence(tokens, k)
    return any(token.text in _SEAMS for token in tokens[first:k])


def partly(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number tells how far one is in the row: "That's half of it, that's twelve stitches"."""
    first, last = sentence(tokens, k)
    halves = any(tokens[i].text == "half" and tokens[i + 1].text in ("of", "way") for i in range(first, last))
    if not marked(tokens, k):
        return False
    almost = any(
        token.text in _ALMOST
        and (first + i < k or any(other.text in _DONE for other in tokens[first + i + 1 : min(first + i + 3, last + 1)]))
        for i, token in enumerate(tokens[first : last + 1])
    )  # "and nearly home" is of the whole piece
    return halves or almost or _sentence_has(tokens, k, _PARTLY)


def _or_so(tokens: Sequence[Token], k: int) -> bool:
    """ "four rounds, five if you count the hug", "two, maybe three"."""
    after = tokens[k + 1].text if k + 1 < len(tokens) and not tokens[k].stop else ""
    return after in ("if", "or", "maybe", "perhaps", "counting") and bool(thing_counted(tokens, k - 2))


def of_the_world(tokens: Sequence[Token], k: int) -> bool:
    """Whether the sentence around token k speaks of prices, people, the weather."""
    return marked(tokens, k) and _sentence_has(tokens, k, _WORLD)


def _sentence_has(tokens: Sequence[Token], k: int, some: frozenset[str]) -> bool:
    first, last = sentence(tokens, k)
    return any(token.text in some or token.text.removesuffix("'s") in some for token in tokens[first : last + 1])


def sentence(tokens: Sequence[Token], k: int, reach: int = 20) -> tuple[int, int]:
    """The first and the last token of the sentence around token k."""
    first = last = k
    while first and k - first < reach and not (tokens[first - 1].stop and tokens[first - 1].mark in ".!?"):
        first -= 1
    while last + 1 < len(tokens) and last - k < reach and not (tokens[last].stop and tokens[last].mark in ".!?"):
        last += 1
    return first, last


def _of_those(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number tells how many of some things counted a moment before: "Forty minutes, and thirty-nine of them in the rain"."""
    if tokens[k].stop or [token.text for token in tokens[k + 1 : k + 3]] not in (["of", "them"], ["of", "those"], ["of", "it"]):
        return False
    lead = next((i for i in range(k - 1, max(0, k - ECHO), -1) if tokens[i].kind == "num" and not tokens[i].stop), None)
    return lead is not None and tokens[lead].number >= tokens[k].number and bool(thing_counted(tokens, lead))


def _echoes(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number only tells again how many of a thing there are: "Twelve rounds of that, yes, Petra, twelve."."""
    for i in range(max(0, k - ECHO), k):
        if tokens[i].kind == "num" and tokens[i].number == tokens[k].number and tokens[i + 1].text != "times" and thing_counted(tokens, i):
            return True
    return False
