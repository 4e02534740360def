"""What of a row was said: stitches, increases, decreases, chains, groups, in order; and whether it was told as "the same again"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ...trade.terms import System, kind_of
from .anchors import takes_back
from .lexicon import phrases, words
from .pointed_back import pointed_back
from .tokens import Token
from .units import Item, ItemKind

GROUPS = frozenset(("shell", "cluster", "bobble", "puff", "popcorn", "picot", "v-stitch"))
_WORKED = words("said", "worked")
_MAKES = words("said", "makes")
_NOT = phrases("said", "not")
_SAME = tuple(f"{phrase} " for phrase in phrases("said", "same"))
_SPOTS = frozenset(("corner", "place", "spot", "loop", "marked", "one", "count", "number", "yarn", "colour", "color", "turning"))
_WHICH = words("said", "which")
_LANDS = words("said", "lands")
_PLACED = words("said", "placed")


@dataclass(frozen=True, slots=True)
class Heard_:
    """One thing heard in a row. `item` by the pattern's terms, `other` as the other terms have it (None where they agree or have none)."""

    item: Item
    other: Item | None
    k: int
    at: float
    words: str
    clear: float
    """How clearly it is an instruction: 1 for "double crochet in the next", less for a name dropped in passing."""
    chain: bool = False
    """Only what a chain counts as: named, and not worked."""


def told_as_same(tokens: Sequence[Token], start: int, end: int) -> bool:
    """Whether the row is told as another one again ("the same", "like row 2"); "in the same stitch" is no such thing."""
    return same_at(tokens, start, end) >= 0


def same_at(tokens: Sequence[Token], start: int, end: int) -> int:
    """The token at which work is told as done before; -1 where none is."""
    for first, last in _sentences(tokens, start, end):
        if _of_a_count(tokens[first:last]):
            continue
        found = [
            k
            for k in range(first, last)
            if (tokens[k].text == "same" and not _place_follows(tokens, k, end) and not _more_of_it(tokens, k, first))
            or f"{' '.join(token.text for token in tokens[k : min(k + 5, last)])} ".startswith(_SAME)
        ]
        if found:
            return found[0]
    return -1


def _more_of_it(tokens: Sequence[Token], k: int, first: int) -> bool:
    """Whether only what was told just before is repeated: "and four more of the same"."""
    return any(token.kind == "num" or token.text == "more" for token in tokens[max(first, k - 4) : k])


def _sentences(tokens: Sequence[Token], start: int, end: int) -> Iterator[tuple[int, int]]:
    """The sentences of tokens[start:end], as far as they are marked."""
    first = start
    for k in range(start, end):
        if k + 1 == end or (tokens[k].stop and tokens[k].mark in ".!?"):
            yield first, k + 1
            first = k + 1


def _of_a_count(tokens: Sequence[Token]) -> bool:
    """Whether a sentence only says that the count is as it was: "Eleven, it should be the same as before"."""
    return len(tokens) <= 12 and tokens[0].kind == "num" and not any(t.kind in ("row", "rows", "repeat") for t in tokens)


def _place_follows(tokens: Sequence[Token], k: int, end: int) -> bool:
    after = tokens[k + 1] if k + 1 < end else None
    return after is not None and (after.kind in ("stitch", "space", "st", "chain", "num", "ring", "shell") or after.text in _SPOTS)


def heard_in(tokens: Sequence[Token], start: int, end: int, terms: System) -> list[Heard_]:
    """Everything worked in tokens[start:end], in the order of the words."""
    found = list(_heard(tokens, start, end, terms))
    return [h for i, h in enumerate(found) if not (i + 1 < len(found) and _put_right(tokens, h, found[i + 1]))]


_COUNTS = ("counts", "count", "counting", "counted", "stands", "serves", "acts")
_ARTICLES = ("a", "an", "one", "the", "your", "first", "our", "my")
_PAGE = frozenset(("page", "says", "written", "reads", "printed", "calls"))


def quoted(tokens: Sequence[Token], k: int) -> bool:
    """Whether the page is quoted at token k: "it says one double crochet, one treble"."""
    for token in reversed(tokens[max(0, k - 14) : k]):
        if token.stop and token.mark in ".!?":
            break
        if token.text in _PAGE:
            return True
    return any(t.text == "page" for t in tokens[k + 1 : k + 4])


def _put_right(tokens: Sequence[Token], one: Heard_, other: Heard_) -> bool:
    """Whether the speaker puts the second in the place of the first at once: "a treble, oh no I don't, a double crochet"."""
    return one.item.kind == other.item.kind and other.k - one.k <= 9 and takes_back(tokens, one.k + 1, other.k)


def _heard(tokens: Sequence[Token], start: int, end: int, terms: System) -> Iterator[Heard_]:
    post, last = "", _posted_before(tokens, start, terms)
    k = start
    while k < end:
        token = tokens[k]
        if token.kind in ("front post", "back post"):
            post = "FP" if token.kind[0] == "f" else "BP"
            if last and k + 1 < end and tokens[k + 1].kind != "st":  # "and then back post around the next two"
                yield Heard_(Item("st", f"{post}{last}"), None, k, token.at, token.raw, 0.8)
                post = ""
        elif token.kind == "st":
            last = _kind(token.text, terms) if post else last
            if not _explains(tokens, k, start, end) and not _worked_into(tokens, k, start, end) and not pointed_back(tokens, k):
                yield _stitch(tokens, k, start, end, terms, post)
            post = ""
        elif token.kind in ("increase", "decrease") and _none_of(tokens, k, start):
            pass  # "no increases", "without any more decreasing"
        elif token.text in ("become", "becomes") and _becomes_one(tokens, k, start, end):
            yield Heard_(Item("dec", ""), None, k, token.at, token.raw, 0.8)
        elif token.kind == "increase":
            yield Heard_(Item("inc", ""), None, k, token.at, token.raw, 0.9)
        elif token.kind == "decrease":
            yield Heard_(Item("dec", ""), None, k, token.at, token.raw, 0.9)
        elif token.kind == "together" and _sewn(tokens, k, start):
            pass
        elif token.kind == "together" and not (k and tokens[k - 1].kind == "st" and tokens[k - 1].raw == token.raw):
            yield Heard_(Item("dec", ""), None, k, token.at, token.raw, 0.8)
        elif token.kind == "together":
            yield Heard_(Item("dec", ""), None, k, token.at, token.raw, 0.9)
        elif token.kind == "chain" and not _place(tokens, k):
            where = chains_told(tokens, k, start, end)
            yield Heard_(Item("ch", str(tokens[where].number if where >= 0 else 1)), None, k, token.at, token.raw, 0.9)
        elif token.kind in GROUPS and not pointed_back(tokens, k):
            yield Heard_(Item("group", token.kind), None, k, token.at, token.raw, 0.9)
        elif (token.kind == "num" and token.number >= 2 and not token.added and (_two_in_one(tokens, k) or _placed_before(tokens, k))) or (
            token.text in ("twice", "both")
            and k + 2 < end
            and tokens[k + 1].text in ("in", "into")
            and tokens[k + 2].text in ("the", "each", "every", "that", "same")
        ):
            yield Heard_(Item("inc", ""), None, k, token.at, token.raw, 0.8)
        k += 1


def _none_of(tokens: Sequence[Token], k: int, start: int) -> bool:
    """Whether an increase or decrease is only denied."""
    for token in reversed(tokens[max(start, k - 3) : k]):
        if token.stop:
            return False
        if token.text in ("no", "without", "never"):
            return True
        if token.text not in ("any", "more", "further", "extra", "other"):
            return False
    return False


def _becomes_one(tokens: Sequence[Token], k: int, start: int, end: int) -> bool:
    """ "The first two stitches become one"."""
    two = any(token.kind == "num" and token.number == 2 for token in tokens[max(start, k - 3) : k])
    return two and k + 1 < end and tokens[k + 1].kind == "num" and tokens[k + 1].number == 1


def _posted_before(tokens: Sequence[Token], start: int, terms: System) -> str:
    """The stitch last worked round a post before a row, which need not be named again: "Back post first. One, two, three, four."."""
    for k in range(start - 1, 0, -1):
        if tokens[k].kind == "st" and tokens[k - 1].kind in ("front post", "back post"):
            return _kind(tokens[k].text, terms)
    return ""


_SEWS = frozenset(
    ("slip", "sew", "sewn", "fold", "folded", "seam", "whip", "hold", "held", "strands", "edges", "pieces", "sides", "lay", "pin")
)


_NEEDLE = frozenset(("sew", "sewing", "sewn", "seam", "whip", "pin"))
"""What is never said of stitches, whatever the number: "we sew four of them together"."""


def _sewn(tokens: Sequence[Token], k: int, start: int) -> bool:
    """Whether pieces are brought together, and not stitches: "slip stitch the back edges together"."""
    near: list[Token] = []
    for token in reversed(tokens[max(start, k - 7) : k]):
        if token.stop and token.mark in ".!?":
            break
        near.append(token)
    sews = any(t.text.split()[0] in _SEWS for t in near) and not any(t.kind == "num" for t in near)
    return (sews or any(t.text in _NEEDLE for t in near)) and not any(t.kind == "st" for t in near)


_OF_THE_CHAIN = ("num", "row", "rows", "chain", "skip", "around")
"""Behind one of these a number belongs to it, and not to a chain that follows."""


def chains_told(tokens: Sequence[Token], k: int, start: int, end: int) -> int:
    """The place of the number of the chain at token k: "chain five", "five chain", "thirty chains in the air"; -1 where none is told."""
    before = tokens[k - 1] if k > start else None
    led = (
        before is not None
        and before.kind == "num"
        and not before.stop
        and (k < 2 or _free(tokens[k - 2]) or _names_row(tokens, k - 2) or (tokens[k].led and tokens[k - 2].kind == "num"))
    )
    behind = tokens[k + 1] if k + 1 < end and tokens[k + 1].kind == "num" and not tokens[k].stop else None
    if led and tokens[k].led:
        return k - 1
    if behind is not None and k + 2 < end and tokens[k + 2].kind == "st" and before is not None and before.number == 1 and not before.stop:
        return k - 1  # "one chain three trebles"
    if behind is not None and led and k > 2 and tokens[k - 2].kind == "st" and not tokens[k - 2].stop and tokens[k - 3].kind == "num":
        return k - 1  # "two single three chain two single"
    if led and (tokens[k].text.endswith("s") or behind is None or behind.sure < 1):
        return k - 1  # "one chain to begin": that "to" is no number
    if behind is not None:
        heard_as = before is not None and not before.stop and before.text in ("to", "too")
        return -1 if heard_as and k + 2 < end and tokens[k + 2].kind == "st" else k + 1  # "too chain three trebles" is two chain
    return k - 1 if led else -1


def _names_row(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number at token k is a row's, so that the one behind it is not: "round three three chain"."""
    return k > 0 and tokens[k].kind == "num" and tokens[k - 1].kind == "row" and not tokens[k - 1].stop


def _free(lead: Token) -> bool:
    return lead.stop or lead.kind not in _OF_THE_CHAIN


_HOLES = frozenset(("loop", "loops", "arch", "arches", "gap", "gaps", "hole", "holes"))


def _place(tokens: Sequence[Token], k: int) -> bool:
    """Whether the chain named is a place ("chain space", "the chain 3 from row 2", "fourth chain from the hook", "top of the chain")."""
    after = [t for t in tokens[k + 1 : k + 3]]
    if any(t.kind == "space" for t in after) or (after[1:] and after[0].kind == "num" and not after[0].stop and after[1].text in _HOLES):
        return True  # "in the same chain five loop"
    before = tokens[k - 1] if k and not tokens[k - 1].stop else None
    if before is not None and before.text in ("that", "next") and after and after[0].kind == "num" and not tokens[k].stop:
        return False  # "in the next chain one skip one", where nobody set a mark
    if before is not None and before.text in ("first", "last", "same") and not tokens[k].stop and after and after[0].kind == "num":
        if len(after) > 1 and (after[0].stop or after[1].text in ("and", "then") or after[1].kind in ("skip", "turn")):
            return False  # "two doubles in the first, chain one, and in each gap"
        if before.text != "first":
            return True
        if k < 2 or tokens[k - 2].stop or tokens[k - 2].text not in _TO_A_PLACE:
            return False  # "three open squares, first chain two, skip the space"
    if before is not None and (
        before.kind == "ord"
        or before.text in ("turning", "starting", "beginning", "that", "top", "your", "each", "foundation", "this", "next", "last")
    ):
        return True
    if before is not None and before.text == "the":
        return not _in_list_of_work(tokens, k)
    if not tokens[k].stop and len(after) > 1 and after[0].text in _PEOPLE and after[1].text in ("skipped", "missed"):
        return True  # "those three chains you missed"
    return bool(after) and after[0].text in ("counts", "count", "from", "doesn't", "does", "stands", "of")


_TO_A_PLACE = frozenset(("the", "your", "that", "this", "very", "our", "same", "in", "into", "from", "of", "each"))
_PEOPLE = ("you", "we", "i", "you've", "we've", "i've")


def _in_list_of_work(tokens: Sequence[Token], k: int) -> bool:
    """Whether the chain stands in a list of what is worked: "Three doubles, the chain, and three doubles", "first the chain, then three
    doubles", "and the chain again"."""
    lead, behind = tokens[k - 2] if k > 1 else None, tokens[k + 1 : k + 5]
    if lead is not None and not lead.stop and (lead.text in _TIMES or lead.kind == "repeat"):
        return True  # "three times more the chain two, skip the space"
    leads = lead is not None and not lead.stop and lead.text in _IN_TURN
    if leads and behind and not tokens[k].stop and behind[0].text in ("again", "too"):
        return True
    listed = lead is not None and (leads or (lead.stop and lead.kind in _LISTED)) and tokens[k].stop and tokens[k].mark == ","
    while behind and (behind[0].kind == "num" or behind[0].text in ("and", "then", "another", "a")):
        behind = behind[1:]
    return listed and bool(behind) and behind[0].kind in _LISTED


_TIMES = frozenset(("times", "time", "more", "twice"))
_IN_TURN = frozenset(("first", "then", "and", "next"))
_LISTED = ("st", "increase", "decrease")


def _worked_into(tokens: Sequence[Token], k: int, start: int, end: int) -> bool:
    """Whether the stitch named is the place of another: "in the next double crochet", "skip the next 2 treble"."""
    at = k - 1
    while at >= start and tokens[at].kind in ("front post", "back post"):
        at -= 1  # "around next front post double crochet"
    if at >= start and tokens[at].kind == "num":
        at -= 1
    if (
        at >= start
        and tokens[at].kind == "skip"
        and not tokens[at].stop
        and k - at == 2
        and tokens[k - 1].number > 1
        and not tokens[k - 1].stop
    ):
        after = (
            tokens[k + 1] if k + 1 < end else None
        )  # "skip three double crochet, …"; where nobody set a mark, "in the next" makes it work
        return tokens[k].stop or after is None or after.text in _GOES_ON or after.kind == "st"  # "skip two trebles treble in the next"
    if at > start and tokens[at].text == "of" and not tokens[at].stop:
        at -= 1  # "in each of three doubles"
    if at < start or tokens[at].stop or (tokens[at].text not in _WHICH and tokens[at].kind != "ord"):
        return False
    lead = [t for t in tokens[max(start, at - 4) : at]]
    while any(t.stop for t in lead):
        lead = lead[1:]
    if tokens[at].kind == "ord" and tokens[k].stop and any(t.text in _POINTS for t in lead):
        return True  # "there's the third double crochet. Single crochet in there"
    if not any(t.text in _PLACED or t.kind in ("skip", "around", "join") for t in lead):
        return False
    after = tokens[k + 1] if k + 1 < end else None
    if (
        at + 2 == k
        and tokens[k - 1].kind == "num"
        and [t.text for t in lead[-3:]] in (["each", "of", "the"], ["in", "each", "of"], ["each", "the"])
    ):
        return True  # "one treble in each of the next eight trebles, into the space go two": what those go into
    if tokens[at].text in ("each", "every") and after is not None and after.text in ("across", "around"):
        return True  # "single crochet in each double crochet around"
    return tokens[k].stop or after is None or after.text not in ("in", "into", "across", "around")


_POINTS = frozenset(("there's", "here's", "find", "see", "look"))
"""Words with which a place is pointed out."""
_GOES_ON = frozenset(("and", "then", "of", "to", "work", "working", "make", "below"))


def _two_in_one(tokens: Sequence[Token], k: int) -> bool:
    """ "two in the next stitch", "2 of them in each"."""
    last = next((i for i in range(k, min(k + 5, len(tokens))) if tokens[i].stop and tokens[i].mark in ".!?"), k + 5)
    after = [t.text for t in tokens[k + 1 : last + 1]]
    if after and after[0] in ("crochet", "crochets"):
        after = after[1:]  # "two crochet in the next stitch", its first half lost
    if not after:
        return False
    if after[0] in ("in", "into") and len(after) > 1 and after[1] in ("the", "each", "every", "that", "same", "one", "this"):
        return True
    if after[0] in ("in", "into") and after[1:3] in (["next", "stitch"], ["next", "st"]):
        return True
    if after[0] == "more" and after[1:2] in (["in"], ["into"], ["across"], ["over"]):
        return True  # "and two more across the gap"
    return after[:2] in (["of", "them"], ["of", "those"]) and "in" in after


_LEADS = frozenset(("and", "then", "so", "now", "but"))


def _placed_before(tokens: Sequence[Token], k: int) -> bool:
    """Whether the clause opens with the place and the number ends it: "and in the last stitch we put two", "in the same stitch, three"."""
    after = tokens[k + 1] if k + 1 < len(tokens) else None
    if not (tokens[k].stop or after is None or after.text in _LEADS or after.until != tokens[k].until):
        return False
    for i in range(k - 1, max(0, k - 9), -1):
        if tokens[i].kind in ("st", "chain", "skip", "num") or (tokens[i].stop and tokens[i].mark in ".!?"):
            return False
        if tokens[i].text in ("in", "into"):
            opens = tokens[i - 1].stop or tokens[i - 1].text in _LEADS
            return opens and tokens[i + 1].text in _WHICH and any(token.kind == "stitch" for token in tokens[i + 2 : min(i + 4, k)])
    return False


def _stitch(tokens: Sequence[Token], k: int, start: int, end: int, terms: System, post: str) -> Heard_:
    token = tokens[k]
    other_terms: System = "UK" if terms == "US" else "US"
    mine, theirs = _kind(token.text, terms), _kind(token.text, other_terms)
    family = _family(tokens, k, start, end)
    item = Item(family, f"{post}{mine}") if mine else Item(family, token.text)
    other = Item(family, f"{post}{theirs}") if theirs and theirs != mine else None
    clear = _clear(tokens, k, start, end) * (0.4 if token.story else 1.0)
    return Heard_(item, other, k, token.at, token.raw, clear, _chain_counts(tokens, k, start))


def _chain_counts(tokens: Sequence[Token], k: int, start: int) -> bool:
    """Whether a chain is said to count as the stitch: "chain three, which counts as a double crochet"."""
    at = k - 1
    while at > start and tokens[at].text in _ARTICLES and not tokens[at].stop:
        at -= 1
    return at > start and tokens[at].text == "as" and any(t.text in _COUNTS for t in tokens[max(start, at - 2) : at])


def _kind(words: str, terms: System) -> str:
    plain = words.removeprefix("front post ").removeprefix("back post ")
    kind = kind_of(plain, terms) or kind_of(plain.removesuffix(" crochet"), terms) or kind_of(f"{plain} crochet", terms)
    post = "FP" if words.startswith("front post") else "BP" if words.startswith("back post") else ""
    return f"{post}{kind}" if kind else ""


def _family(tokens: Sequence[Token], k: int, start: int, end: int) -> ItemKind:
    """ "st", "inc" (two of them in one place) or "dec" (worked together)."""
    after = [t for t in tokens[k + 1 : min(end, k + 6)]]
    if after and after[0].kind == "together":
        return "dec"
    if tokens[k].stop and k > start and tokens[k - 1].kind == "num":
        after = []  # "five single crochet, two together" are two things
    if len(after) > 1 and after[0].kind == "num" and after[1].kind == "together":
        return "dec"
    for n, t in enumerate(after):
        if t.stop or t.kind in ("st", "chain") or t.text == "then":
            break
        if t.kind == "together" and n < 5:
            return "dec"
    before = tokens[k - 1] if k > start else None
    number = before.number if before is not None and before.kind == "num" and not before.stop else 0
    if k > 1 and tokens[k - 2].kind in ("row", "rows"):
        number = 0  # "round three half double crochet in the next stitch"
    texts = [t.text for t in after]
    if after and after[0].kind == "increase":
        return "inc"
    if 2 <= number <= 9 and texts[:1] in (["in"], ["into"]) and _one_place(after[1:]):
        return "inc"
    if 2 <= number <= 5 and after and after[0].kind != "stitch" and _one_stitch(after):
        return "inc"  # "two double crochet next stitch", the small word lost
    if before is not None and before.text in ("another", "second") and texts[:1] in (["in"], ["into"]) and "same" in texts[:4]:
        return "inc"
    if texts[:3] in (["in", "the", "same"], ["into", "the", "same"]) and k > start:
        return "inc"
    return "st"


def _one_stitch(after: list[Token]) -> bool:
    """Whether one stitch, not several, is named in the next few words."""
    for token in after[:4]:
        if token.stop and token.kind != "stitch":
            return False
        if token.kind in ("num", "st", "space", "ring", "chain"):
            return False
        if token.kind == "stitch":
            return token.text in ("stitch", "st", "stich")
    return False


def _one_place(after: list[Token]) -> bool:
    """Whether what follows "in" is one place (or each of many), not a run of them."""
    if not after:
        return False
    for token in after[:3]:
        if token.text in _LEADS:
            break
        if token.kind == "num":
            return token.number == 1
        if token.kind in ("space", "ring"):
            return False
        if token.kind == "stitch" and token.text in ("stitches", "sts"):
            return False
    return after[0].text in ("the", "each", "every", "that", "same", "next", "one", "last", "first", "this", "it")


def _explains(tokens: Sequence[Token], k: int, start: int, end: int) -> bool:
    """Whether the name is given only to explain the other terms ("in UK terms that's a treble")."""
    near = tokens[max(start, k - 7) : min(end, k + 6)]
    lands = [t for t in near if t.text in _LANDS and (t.text != "us" or t.raw.strip(".,").isupper())]
    if any(t.text in ("uk", "british", "britain", "american", "americans", "england", "america") or (t.text == "us") for t in lands):
        return True
    if _defines(tokens, k, start):
        return True
    asked = k + 1 < len(tokens) and tokens[k].stop and tokens[k + 1].text in ("no", "nope") and tokens[k + 1].stop
    if asked or _of_ours(tokens, k, start, end):
        return True  # "Double crochet? No. Single."
    before: list[str] = []
    for t in reversed(tokens[max(start, k - 2) : k]):
        if t.stop or t.text in _COUNTS:
            break  # "chain one, not counting, half double in each": that is of the chain
        before.append(t.text)
    return any(word in _NOT for word in before)


_OURS = phrases("said", "ours")


def _of_ours(tokens: Sequence[Token], k: int, start: int, end: int) -> bool:
    """Whether the name is told as the speaker's own, or as what is not worked: "that's a treble to us", "don't do a treble"."""
    first, last = k, k
    while first > start and k - first < 8 and not (tokens[first - 1].stop and tokens[first - 1].mark in ".!?;"):
        first -= 1
    while last + 1 < end and last - k < 4 and not (tokens[last].stop and tokens[last].mark in ".!?;"):
        last += 1
    said = f" {' '.join(t.text for t in tokens[first : last + 1])} "
    return any(f" {one} " in said for one in _OURS)


DEFINING = frozenset(("is", "means", "that's", "it's", "are", "consists", "contains", "has", "equals"))


def _defines(tokens: Sequence[Token], k: int, start: int) -> bool:
    """Whether the name tells what a group is made of: "A bobble is three double crochet in one stitch"."""
    if _is_named(tokens, k, start):
        return True
    for i in range(k - 1, max(start, k - 8), -1):
        if tokens[i].stop and tokens[i].mark in ".!?;":
            return False
        lead = tokens[max(i - 3, 0) : i]  # "a bobble here is", "a shell always means"
        while any(token.stop for token in lead):
            lead = lead[1:]
        if tokens[i].text in DEFINING and any(token.kind in GROUPS for token in lead):
            return True
    return False


def _is_named(tokens: Sequence[Token], k: int, start: int) -> bool:
    """Whether what was worked is called by a name and its stitches told once more: "so that's a cluster, three doubles"."""
    goes_on = k + 1 < len(tokens) and not tokens[k].stop and tokens[k + 1].until == tokens[k].until
    at = k - 1
    while at > start and (tokens[at].kind == "num" or tokens[at].text in ("of", "with")) and not tokens[at].stop:
        at -= 1
    if goes_on or at <= start or tokens[at].kind not in GROUPS or k - at > 3:
        return False
    return any(token.text in ("that's", "is", "makes", "called") for token in tokens[max(start, at - 3) : at])


def _clear(tokens: Sequence[Token], k: int, start: int, end: int) -> float:
    after = [t for t in tokens[k + 1 : min(end, k + 4)]]
    if len(after) > 1 and after[0].kind == after[1].kind == "num" and after[0].number == 1 and after[1].number == 2:
        return 0.85  # "double crochet, one, two, three": counted while it is worked
    if len(after) > 1 and not tokens[k].stop and after[0].kind == "num" and after[1].text in ("in", "into"):
        return 0.85  # "half double, four in each space"
    if len(after) > 1 and after[0].kind == "num" and after[1].text in ("times", "more"):
        return 0.85  # "skip the space, double crochet, four times"
    before = tokens[k - 1] if k > start else None
    answers = k > start + 1 and tokens[k].stop and before is not None and before.text in ("a", "an")
    if answers and tokens[k - 2].mark in ".!?":
        return 0.4  # "A half double, love, but I said I'd not say it again."
    if after and (
        after[0].text in _WORKED
        or after[0].kind in ("turn", "around", "chain", "together", "increase")
        or (after[0].kind == "num" and len(after) > 1 and after[1].kind == "together")
    ):
        return 0.95
    if before is not None and (before.kind in ("num", "front post", "back post", "chain") or before.text in _MAKES):
        return 0.85
    headed = k > start + 2 and before is not None and before.text in ("is", "it's", "all") and tokens[k - 2].kind == "num"
    if headed and tokens[k - 3].kind == "row" and after and after[0].kind == "num":
        return 0.75  # "round five is single crochet, one chain …"
    if tokens[k].stop or (after and after[0].kind in ("row", "st")):
        return 0.75
    return 0.45
