"""Where a count is told: "you should have 24 stitches", "that's 12", "24 double crochet" at the end of a row; and how surely it is one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .anchors import takes_back
from .denying import REACH, denied
from .lexicon import phrases, words
from .things import OWN_NOUNS, describes, sentence
from .tokens import Token, raw_of

_HAVE = words("tallies", "have")
_FILL = words("tallies", "fill")
_SUBJECT = words("tallies", "subject")
_ALL = phrases("tallies", "all")
_NO_TALLY = words("tallies", "no_tally")
_PLACES = words("tallies", "places")
_SAME = phrases("tallies", "same")


@dataclass(frozen=True, slots=True)
class Told:
    """One count as told. `strength` 0 to 1: how surely it is a count and not a number of the instruction; `noun` what was counted."""

    number: int
    k: int
    at: float
    words: str
    strength: float
    noun: str
    sure: float


def tallies(tokens: Sequence[Token], start: int, end: int) -> list[Told]:
    """The counts told in tokens[start:end], without those taken back at once."""
    found: list[Told] = []
    for k in range(start, end):
        if tokens[k].kind == "num":
            told = _told(tokens, k, start, end)
            if told is not None:
                found.append(told)
    return _listed(tokens, [told for i, told in enumerate(found) if not _taken_back(tokens, found, i, end)])


def _listed(tokens: Sequence[Token], found: list[Told]) -> list[Told]:
    """What stands in one list with a count is one as surely: "you have nine double crochet and seven chain-one spaces"."""
    out: list[Told] = []
    for told in found:
        before = out[-1] if out else None
        if before is not None and before.noun and told.noun and follows_in_list(tokens, before.k, told.k):
            both = max(told.strength, before.strength)
            out[-1], told = replace(before, strength=both), replace(told, strength=both)
        out.append(told)
    return out


def follows_in_list(tokens: Sequence[Token], one: int, other: int) -> bool:
    """Whether two numbers stand in one list of counts: a noun between them, and "and" or a comma."""
    between = tokens[one + 1 : other]
    return (
        1 <= len(between) <= 5
        and all(t.kind in _LISTED or t.text == "and" for t in between)
        and (between[-1].text == "and" or (between[-1].stop and between[-1].mark == ","))
        and not any(t.stop and t.mark != "," for t in between)
    )


_LISTED = ("st", "stitch", "space", "chain", "num", "shell", "v-stitch", "cluster", "bobble", "puff", "popcorn", "picot")


def _taken_back(tokens: Sequence[Token], found: list[Told], i: int, end: int) -> bool:
    """Whether the speaker put another number in its place in the next few words, or denies it ("not fourteen")."""
    told = found[i]
    if told.k and tokens[told.k - 1].text in ("not", "isn't", "wasn't"):
        return True
    # also where what holds instead begins with the row's name: "that makes sixteen, uh, no, round sixteen makes twelve"
    reach = REACH if takes_back(tokens, told.k + 1, told.k + 4) else 10  # "sixteen, wait, no, I missed the last two there, eighteen"
    following = next((k for k in range(told.k + 1, min(told.k + reach, len(tokens))) if tokens[k].kind == "num"), None)
    if following is not None and (takes_back(tokens, told.k + 1, following) or _goes_on(tokens, told, following)):
        return True
    other = found[i + 1] if i + 1 < len(found) else None
    return other is not None and other.k - told.k <= REACH and denied(tokens, _clause_end(tokens, told.k), other.k)


def _goes_on(tokens: Sequence[Token], told: Told, following: int) -> bool:
    """Whether the last few are counted aloud behind it: "Forty-six. Did I miss some? Forty-seven, forty-eight."; up to nine, one counts
    along with what is worked (ours)."""
    return told.number > 9 and [token.number for token in tokens[following : following + 2]] == [told.number + 1, told.number + 2]


def _clause_end(tokens: Sequence[Token], k: int) -> int:
    """The token that ends the clause in which a count is told: "that's nine stitches."."""
    return next((i for i in range(k, min(k + 4, len(tokens))) if tokens[i].stop), -1)


def says_same(tokens: Sequence[Token], start: int, end: int) -> bool:
    """Whether the count is told as unchanged."""
    words = " ".join(token.text for token in tokens[start:end])
    return any(phrase in words for phrase in _SAME)


def _told(tokens: Sequence[Token], k: int, start: int, end: int) -> Told | None:
    token = tokens[k]
    after = [t for t in tokens[k + 1 : min(k + 5, len(tokens))]]
    before = _before(tokens, k, start)
    if (
        token.added
        or _part_of_instruction(tokens, k, start, after)
        or _difference(after, token)
        or (token.thing and not _left_over(tokens, k) and not _loops(tokens, k))
    ):
        return None
    noun = _noun([*tokens[k + 1 : min(k + 8, len(tokens))]] if after and after[0].text == "of" else after)
    aside = token.story or token.aside or (not noun and token.world)
    strength = _strength(tokens, k, end, before, after, noun) * (STORY if aside else 1.0)
    if tokens[k].mark == "?" and not noun and not _having(before):
        strength *= ASKED
    if strength <= 0:
        return None
    words = raw_of(tokens[max(start, k - 4) : min(k + 3, len(tokens))])
    return Told(token.number, k, token.at, words, strength, noun, token.sure)


def _difference(after: Sequence[Token], token: Token) -> bool:
    """Whether so many more or fewer are told: "that's eight stitches more, so ninety-six"."""
    if token.stop or len(after) < 2 or after[0].stop or after[0].kind not in ("st", "stitch", "space"):
        return False
    return after[1].text in ("more", "less", "fewer", "extra")


def _before(tokens: Sequence[Token], k: int, start: int) -> list[str]:
    out: list[str] = []
    i = k - 1
    while i >= start and len(out) < 7:
        i = _before_insertion(tokens, i, start)
        if tokens[i].stop and tokens[i].mark in ".!?":
            break
        out.insert(0, tokens[i].text)
        i -= 1
    return out


_INSERTED = frozenset(("if", "unless", "assuming", "provided", "hopefully"))
"""What begins a clause of doubt put in between: "which brings us, if I am right, to sixteen"."""
INSERTED = 8
"""Words such a clause may have (ours)."""


def _before_insertion(tokens: Sequence[Token], k: int, start: int) -> int:
    """The token before the clause of doubt between two commas that token k ends; k itself where it ends none."""
    if not (tokens[k].stop and tokens[k].mark == ","):
        return k
    for i in range(k - 1, max(start, k - INSERTED) - 1, -1):
        if tokens[i].stop:
            return i if tokens[i].mark == "," and tokens[i + 1].text in _INSERTED else k
    return k


def _part_of_instruction(tokens: Sequence[Token], k: int, start: int, after: list[Token]) -> bool:
    """Whether the number belongs to chains, places, rows, repeats, inches …"""
    before = tokens[k - 1] if k else None
    if before is not None and not before.stop and (before.kind in ("chain", "row", "rows", "skip") or before.text in _PLACES):
        return True
    if before is not None and before.text in _NUMBERED:
        return True
    if _rows_told_as(tokens, k):
        return True
    if before is not None and before.kind == "num" and not before.stop and not (k > 1 and tokens[k - 2].kind == "row"):
        return True
    nxt = after[0] if after else None
    if counts_aloud(tokens, k):
        return True
    if len(after) > 1 and after[1].text == "apart" and not tokens[k].stop:
        return True  # "seven stitches apart": where the eyes go
    if _left_over(tokens, k) or _loops(tokens, k):
        return False
    if nxt is not None and not tokens[k].stop:
        if nxt.text in _NO_TALLY and not (nxt.text in ("and", "to") or nxt.text == "round"):
            return True
        if nxt.kind == "row" and len(after) > 1 and after[1].kind == "num":
            return False  # "i get thirty two / round seven is …"
        if nxt.kind in ("chain", "ord", "row", "rows", "times"):
            return not (nxt.kind == "chain" and _spaces(after))
        if nxt.kind == "num":
            return not tokens[k].stop and nxt.number == tokens[k].number + 1  # counting aloud: "one two three"
    return False


def _rows_told_as(tokens: Sequence[Token], k: int) -> bool:
    """Whether rows are told as other rows: "Rounds eleven to fourteen are nine and ten, nine and ten"."""
    for i in range(k - 1, max(-1, k - 14), -1):
        if tokens[i].text in ("are", "like", "repeat", "alternate", "as"):
            return any(token.kind == "rows" for token in tokens[max(0, i - 8) : i])
        if tokens[i].kind not in ("num", "row", "rows") and tokens[i].text not in ("and", "to", "through", "again"):
            return False
    return False


def _left_over(tokens: Sequence[Token], k: int) -> bool:
    """ "Until there's eight left": how many one then has; "the left eight" is a side."""
    if k + 1 >= len(tokens) or tokens[k].stop or tokens[k + 1].text not in ("left", "remaining"):
        return False
    after = tokens[k + 2] if k + 2 < len(tokens) else None
    return (
        tokens[k + 1].stop
        or after is None
        or _caption_ends(tokens, k + 1)
        or after.text in ("on", "over", "in", "and", "so", "now", "then")
    )


def counts_aloud(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number is one of three or more that rise or fall by one, or rise by twos, fives …: "one, two, three", "five, ten …"."""
    if any(_run(tokens, k, step) >= 3 and (step < 2 or tokens[k].number % step == 0) for step in STEPS):
        return True
    first, _ = sentence(tokens, k)
    last = k
    while last + 1 < len(tokens) and tokens[last + 1].kind == "num":
        last += 1
    opens = all(token.kind == "num" for token in tokens[first:k])
    leads = k < last and not tokens[last].stop  # "Eight, twelve, sixteen blossoms": only the last is how many there are
    return opens and leads and any(_run(tokens, k, step) >= 3 and tokens[k].number % step == 0 for step in LONG_STEPS)


STEPS = (1, -1, 2, 5, 10)
"""By how many people count aloud; from two on in multiples of the step. Lists of rounds often rise by four or six (ours)."""


LONG_STEPS = (3, 4, 6, 8)
"""Longer steps, by which only what leads up to the thing counted is counted aloud (ours)."""


def _run(tokens: Sequence[Token], k: int, step: int) -> int:
    """How many numbers in a row around token k each differ from the one before by `step`."""
    first = last = k
    while first and tokens[first - 1].kind == "num" and tokens[first - 1].number == tokens[first].number - step:
        first -= 1
    while last + 1 < len(tokens) and tokens[last + 1].kind == "num" and tokens[last + 1].number == tokens[last].number + step:
        last += 1
    return last - first + 1


def _spaces(after: list[Token]) -> bool:
    """ "7 chain 1 spaces", "seven chain spaces"."""
    return any(token.kind == "space" or token.text in _LOOPS for token in after[:3])


_THE = frozenset(("the", "those", "these", "our", "your"))
_LOOPS = frozenset(("loops", "arches", "lps"))


def _loops(tokens: Sequence[Token], k: int) -> bool:
    """Whether loops of the fabric are counted, and not those on the hook: "Sixteen loops"."""
    after = [token.text for token in tokens[k + 1 : k + 4]]
    if any(token.text == "hook" for token in tokens[max(0, k - 30) : k + 12]):
        return False
    return tokens[k].number >= LOOPS_OF_FABRIC and not tokens[k].stop and after[:1] != [] and after[0] in _LOOPS and "on" not in after[1:2]


LOOPS_OF_FABRIC = 6
"""A hook holds fewer loops than this while one stitch is made (ours)."""


def _noun(after: list[Token]) -> str:
    """What is counted; words that describe it are passed over ("twenty-four lovely little stitches")."""
    while after and describes(after[0]) and len(after) > 1 and not after[0].stop:
        after = after[1:]
    if len(after) > 2 and after[0].text == "of" and after[1].text in _THE and not (after[0].stop or after[1].stop):
        after = after[2:]  # "and ten of the chain one spaces"
        after = after[1:] if after[0].kind == "num" and len(after) > 1 else after
    if not after:
        return ""
    first = after[0]
    if first.kind == "stitch":
        return "stitch"
    if first.kind == "st":
        return first.text
    if first.kind == "space" or first.text in _LOOPS or (first.kind == "chain" and _spaces(after)):
        return "space"
    if first.kind in ("shell", "cluster", "picot", "bobble", "puff", "popcorn", "v-stitch"):
        return first.kind
    if first.text in OWN_NOUNS:
        return OWN_NOUNS[first.text]
    if first.kind in ("front post", "back post"):
        return "stitch"
    return ""


def _strength(tokens: Sequence[Token], k: int, end: int, before: list[str], after: list[Token], noun: str) -> float:
    """How surely a count: a verb of having before it, a noun behind it, the end of a sentence or of the row."""
    described = False
    tail = " ".join(token.text for token in after)
    placed = any(word in tail.split()[:4] for word in ("in", "into")) and noun and "total" not in tail and "all" not in tail.split()[:3]
    lead = after[2:] if after[1:2] and after[1].text in ("all", "together", "both", "right") else after[1:]  # "all in the same place"
    in_place = (
        placed
        and len(lead) > 1
        and lead[0].text in ("in", "into")
        and lead[1].text in ("the", "each", "next", "same", "every", "that", "ring", "a", "one")
        and not (len(lead) > 2 and lead[1].text == "the" and lead[2].kind in ("row", "rows"))  # "six puffs in the row"
    )
    have = _having(before)
    left = _left_over(tokens, k)
    closes = left and tokens[k + 1].stop and before[-1:] and before[-1] in _ONLY
    if left and (have or not before or closes or any(word in _REMAINS for word in before[-4:])):
        return 0.65
    whole = any(phrase in tail for phrase in _ALL)
    while noun and len(after) > 1 and describes(after[0]) and not after[0].stop:
        after, k, described = after[1:], k + 1, True
    ends = (tokens[k].stop and not described) or k + 1 >= end or (bool(noun) and (after[0].stop or k + 2 >= end))
    ends = ends or (
        bool(noun) and len(after) > 1 and after[1].stop and after[1].text in _BY_NOW
    )  # "Fifty-six trebles now, and six corners"
    if have and noun and not in_place:
        return 0.65 if noun != "stitch" and before[-1:] == ["with"] else 0.95  # "we finish with eight double crochets": the last eight
    if have and (
        ends
        or _caption_ends(tokens, k)
        or whole
        or not after
        or after[0].kind == "row"
        or after[0].text in ("and", "so", "now", "okay", "ok", "all", "at", "on", "then", "here", "again", "good", "you", "we", "if")
    ):
        return 0.8
    if have and not noun and tokens[k].number > 4 and after and after[0].kind == "word":
        return 0.6  # a machine marks no end: "it's thirty three anyone still with me"
    if noun and whole and not in_place:
        return 0.85
    if noun and (ends or _opens_list(tokens, k, end)) and not in_place:
        return 0.65
    if not noun and not before and _each_time(after):
        return 0.6
    near = before[-3:]
    if not noun and ends and any(word in _NEAR for word in near) and not _of_another(before):
        return 0.7
    if not noun and any(word in ("total", "count", "answer", "tally") for word in near) and not _of_another(before):
        return 0.6
    if noun in ("stitch", "space") and not in_place and not any(word in _PLACES for word in near):
        return 0.6
    if (
        tokens[k].stop
        and k > 0
        and (
            tokens[k - 1].stop
            or tokens[k - 1].kind in ("turn", "join", "slip")
            or tokens[k - 1].text
            in ("across", "around", "total", "end", "off", "count", "so", "still", "now", "close", "closed", "closing")
        )
    ):
        return 0.6
    if k + 1 >= end and k > 0 and tokens[k - 1].text in ("across", "around", "turn", "total", "end", "repeat", "off", "join"):
        return 0.55
    if in_place or (not noun and _of_another(before)):
        return 0.0
    return WEAK if tokens[k].stop and tokens[k].mark in ".!?" else FAINT


ASKED = 0.5
"""What is left of a number that is only asked: "Five? Four."."""
STORY = 0.1
"""What is left of a count told in a story."""
WEAK, FAINT = 0.3, 0.1
"""A number that ends a sentence for no reason one knows, and one that stands for itself: a count, perhaps, in words not known for one."""
_ONLY = frozenset(("only", "just", "and", "so", "then"))
"""Before a number that is left at the end of a sentence: "decrease six times, and only six left."."""
_REMAINS = frozenset(("until", "till", "there's", "theres", "there", "have", "you've", "i've", "has"))


_BY_NOW = frozenset(("now", "here", "there", "again", "altogether", "so", "then", "left"))


def _each_time(after: list[Token]) -> bool:
    """Whether a number that opens its sentence is told of whole rows: "Twenty-four at the end of round three", "Forty-eight on each"."""
    said = " ".join(token.text for token in after)
    return said.startswith(
        (
            "at the end",
            "both times",
            "this time",
            "both rounds",
            "every time",
            "each time",
            "on each",
            "on every",
            "in each",
            "in all",
            "in total",
            "all the way",
            "every round",
            "every row",
            "on both",
        )
    )


def _opens_list(tokens: Sequence[Token], k: int, end: int) -> bool:
    """Whether a list of counts that ends its sentence begins at k: "nine V stitches and two double crochet."."""
    if not (k == 0 or tokens[k - 1].stop or tokens[k - 1].text == "so" or _caption_ends(tokens, k - 1)):
        return False
    other = next((i for i in range(k + 2, min(k + 7, end)) if tokens[i].kind == "num" and tokens[i - 1].text == "and"), None)
    return (
        other is not None
        and follows_in_list(tokens, k, other)
        and any(tokens[i].stop or _caption_ends(tokens, i) for i in range(other + 1, min(other + 4, len(tokens))))
    )


def _caption_ends(tokens: Sequence[Token], k: int) -> bool:
    """Whether a caption ends behind token k: where a machine marks no sentence, that is the pause."""
    return k + 1 < len(tokens) and tokens[k + 1].until != tokens[k].until


_NEAR = words("tallies", "near")
_NEAR_NOT = words("tallies", "near_not")
"""A number that ends a sentence behind one of the first, and none of the second, is a count: "the total is twelve"."""
_NUMBERED = words("tallies", "numbered")
_LINES = frozenset(("row", "round"))
_TELLS_OF = frozenset(("on", "to", "at", "with", "has", "says", "reads", "gives", "wants"))


def _of_another(before: Sequence[str]) -> bool:
    """Whether the words before a number tell that it is no count: "about", "page", "row", but not "this round ends on"."""
    near = [word for word in before[-4:] if word in _NEAR_NOT]
    if not near or "old" in near:
        return bool(near)
    return not (
        before[-1] in _TELLS_OF and (near[-1] in _LINES or (near[-1] in ("pattern", "page") and before[-1] in ("says", "reads", "wants")))
    )


_AT = phrases("tallies", "at")
_WHO_MAKES = words("tallies", "who_makes")
_MOVES = frozenset(("takes", "take", "took", "brings", "bring", "brought", "gets", "puts", "comes", "gone", "come", "landed", "lands"))
_REACHED = ("down to", "up to", "back to", "you get", "make that", "makes that", "call that", "make it", "makes it")


_MANY = frozenset(("they", "these", "those", "which", "that", "together", "should", "will", "must", "and", "would"))
"""Before "make" where what is made is counted: "together they make forty"."""
_HAVE_GOT = frozenset(("you've", "we've", "i've", "they've"))
_ORDERS = frozenset(("next", "then", "first", "here", "still"))
"""Beside one of these it is told what is still to be worked: "next we've eleven stitches along the side"."""


def _having(before: list[str]) -> bool:
    """Whether the words before say that one has so many: "you should have a total of", "that's", "makes", "stitch count is"."""
    if any(phrase in f" {' '.join(before[-6:])} " for phrase in _AT) or " ".join(before[-2:]) in _REACHED:
        return True
    if before[-2:-1] == ["have"] and before[-1] in ("we", "you", "i") and any(word in ("what", "many") for word in before[-4:-2]):
        return True  # "and what have we? Thirty-six"
    words = list(before)
    while words and words[-1] in _FILL and words[-1] not in ("have", "count", "total", "be"):
        words.pop()
    if not words:
        return bool(before) and " ".join(before[-3:]) in ("a total of", "in total", "total of")
    last = words[-1]
    if last in _HAVE_GOT and not _ORDERS & set(words):
        return True
    if last == "make" and (len(words) < 2 or words[-2] in _WHO_MAKES or not (words[-2] in _MANY or words[-2].endswith("s"))):
        return False  # "in the next stitch we make six double crochet" is work; "kidding, make seven"
    if last in _HAVE:
        return last in (
            "give",
            "make",
            "leave",
            "bring",
            "holds",
            "gets",
            "get",
            "takes",
            "puts",
            "lands",
            "reaches",
            "yields",
            "contains",
            "count",
            "counts",
            "total",
            "totals",
            "equals",
            "makes",
            "leaves",
            "gives",
            "leaving",
            "giving",
            "brings",
            "totaling",
            "totalling",
        ) or any(word in _SUBJECT for word in words[-5:])
    if last in ("that's", "thats", "there's", "it's", "be", "there'll", "are", "is", "remain", "to", "with", "at", "was", "ending"):
        joined = " ".join(words[-4:])
        if last in ("to", "at") and any(word in _MOVES for word in words[-4:-1]):
            return True  # "takes it to eighteen"
        if last == "it's" and any(word in ("many", "that", "have", "get") for word in words[-4:-1]):
            return True  # the answer to "how many is that"
        return last in ("that's", "thats", "there's", "be") or any(
            phrase in joined
            for phrase in (
                "there are",
                "that is",
                "count is",
                "total is",
                "this is",
                "there is",
                "up with",
                "down to",
                "up to",
                "now at",
                "left with",
                "you're at",
                "we're at",
                "stays at",
                "still at",
                "answer is",
                "number is",
                "it is",
                "back to",
                "end with",
                "finish with",
                "back at",
                "count was",
                "count to",
                "are at",
                "ending",
            )
        )
    return False
