"""Where rows are named in the words, and how: begun, closed, referred to, reached; and what of it was taken back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from .bare_numbers import numbered, opening
from .denying import REACH, denied
from .lexicon import phrases, words
from .named_otherwise import counted_in, described, how_it_goes, named_twice
from .previews import spoken_of
from .things import marked, sentence
from .tokens import Token

How: TypeAlias = Literal["begins", "closes", "refers", "until", "next", "repeats", "perhaps"]


@dataclass(frozen=True, slots=True)
class Anchor:
    """One naming of rows. `k` the token it begins at, `end` the one after it; `first`, `last` the numbers said (0: none said)."""

    k: int
    end: int
    how: How
    first: int
    last: int
    at: float
    sure: float = 1.0
    count: int = 0
    """Rows told by their number ("the next six rows")."""
    said: tuple[int, int] | None = None
    """The tokens in which a row is named behind its work, where all are; `k` and `end` are then the place at which its work begins."""

    @property
    def named(self) -> tuple[int, int]:
        """The tokens that name the rows: the first, and the one behind the last."""
        return self.said or (self.k, self.end)


_RANGE = words("anchors", "range")
_LIKE = words("anchors", "like")
_DONE = frozenset(["done", "complete", "finished", "over"])
_SORRY = phrases("anchors", "sorry")


def anchors_of(tokens: Sequence[Token]) -> list[Anchor]:
    """Every naming of rows, in order; those a speaker took back at once are left out."""
    found = [_put_right(tokens, one) for one in _found(tokens)]
    taken = {k for one in found for k in range(one.k, one.end)}
    faint = [Anchor(one.k, one.end, "perhaps", one.first, one.last, tokens[one.k].at, FAINT) for one in opening(tokens)]
    found = sorted((*found, *(one for one in faint if one.k not in taken)), key=lambda anchor: anchor.k)
    if sum(anchor.how in ("begins", "closes") for anchor in found) < FEWEST_NAMED:
        found = [replace(one, how="begins", sure=OPENLY) if _openly(tokens, one) else one for one in found]
        bare = list(numbered_rows(tokens))
        taken = {k for anchor in bare for k in range(anchor.k, anchor.end)}
        found = sorted((*(one for one in found if one.k not in taken), *bare), key=lambda anchor: anchor.k)
    kept: list[Anchor] = []
    for anchor in found:
        before = kept[-1] if kept else None
        begun_last = next((one for one in reversed(kept) if one.how == "begins"), None)
        these = any(token.text in ("these", "those") for token in tokens[max(0, anchor.k - 3) : anchor.k])
        begun = before is not None and before.how in ("begins", "next", "perhaps") and anchor.k - before.end <= 14
        if anchor.how == "repeats" and begun and not these:
            continue  # "row 5: repeat row 2": what row 5 is, not another row
        if before is not None and _told_again(tokens, before, anchor):
            continue
        if begun_last is not None and _only_likened(tokens, begun_last, anchor):
            continue
        if before is not None and named_twice(tokens, before, anchor):
            kept[-1] = replace(before, end=anchor.end)
            continue
        if (
            before is not None
            and before.sure > FAINT
            and (anchor.how == "begins" or anchor.how == before.how == "perhaps")
            and not (before.how == "perhaps" and any(token.kind == "num" for token in tokens[before.end : anchor.k]))
            and not (before.how == "perhaps" and anchor.how == "begins" and abs(before.first - anchor.first) > NEAR)
            and (
                (anchor.k - before.end <= 8 and takes_back(tokens, before.end, anchor.k))
                or (anchor.k - before.end <= REACH and denied(tokens, before.end - 1, anchor.k))
            )
        ):
            kept[-1] = replace(anchor, k=before.k, at=before.at)
            continue
        kept.append(anchor)
    return kept


_NO = words("excuses", "no")
_BETWEEN_THEM = frozenset(
    ("i", "it's", "its", "that", "that's", "make", "or", "on", "um", "uh", "er", "erm", "oh", "well", "me", "to", "it", "is", "of")
)
TO_RIGHT = 5
"""Words at most between a row named wrongly and its number put right (ours)."""


def _put_right(tokens: Sequence[Token], one: Anchor) -> Anchor:
    """The same naming; with the numbers put right at once where only they are told again: "rounds three to seven, no, three to eight"."""
    at = next((k for k in range(one.end, min(one.end + TO_RIGHT + 1, len(tokens))) if tokens[k].kind == "num"), -1)
    said = [token.text for token in tokens[one.end : at]] if at > one.end else []
    if (
        one.how not in ("begins", "perhaps")
        or not any(word in _NO for word in said)
        or not all(w in _NO or w in _BETWEEN_THEM for w in said)
    ):
        return one
    upto = (
        at + 2 < len(tokens)
        and tokens[at + 1].text in _RANGE
        and tokens[at + 2].kind == "num"
        and tokens[at + 2].number > tokens[at].number
    )
    end = at + 3 if upto else at + 1
    counts = (
        end < len(tokens)
        and not tokens[end - 1].stop
        and (tokens[end].kind in _COUNTED or tokens[end].text in ("of", "in", "into", "more"))
    )
    near = abs(tokens[end - 1].number - one.last) <= NEAR
    if counts or not near or (upto and one.first == one.last):
        return one
    first = tokens[at].number if upto or one.first == one.last else one.first
    return replace(one, end=end, first=first, last=tokens[end - 1].number) if first <= tokens[end - 1].number else one


NEAR = 4
"""So many rows at most lie between a row named wrongly and the right one (ours)."""


def _openly(tokens: Sequence[Token], one: Anchor) -> bool:
    """Whether a number alone is plainly a row's: "Eleven's the decreases", "And six is half doubles", where rows are named so."""
    bare = one.how == "perhaps" and one.sure > FAINT and one.first == one.last and one.end == one.k + 1 < len(tokens)
    return bare and not tokens[one.k].stop and tokens[one.end].text == "is"


OPENLY = 0.85
"""How surely it is, where few rows are named otherwise (ours)."""
FAINT = 0.3
"""How surely a number that only opens a sentence names a row: where the row that comes next has this very number, and else not (ours)."""
FEWEST_NAMED = 3
"""A narration that names fewer rows than this outright may name them by their number alone."""


def numbered_rows(tokens: Sequence[Token]) -> Iterator[Anchor]:
    """Rows named by their bare number, as beginnings."""
    for one in numbered(tokens):
        yield Anchor(one.k, one.end, "begins", one.first, one.last, tokens[one.k].at, OPENLY if one.strays else 1.0)


def _told_again(tokens: Sequence[Token], before: Anchor, anchor: Anchor) -> bool:
    """Whether the rows named are only what the rows before them are: "rows 28 to 111: all of it again, row 14 to row 27"."""
    between = tokens[before.end : anchor.k]
    begun = anchor.how == "begins" and before.how == "begins"
    if (
        before.how == "begins"
        and anchor.how in ("begins", "closes")
        and between
        and len(between) <= 4
        and all(t.text in _IS_LIKE for t in between)
        and anchor.last < before.first
    ):
        return True  # "Row six is row four again."
    earlier = begun and before.first > anchor.last > 0
    return earlier and len(between) <= 8 and any(t.text in ("again", "same", "like") or t.kind == "repeat" for t in between)


_IS_LIKE = words("anchors", "is_like")
_LIKENED = frozenset(("in", "of", "for", "on", "from", "at", "to", "than", "with"))
_WORKED = ("st", "chain", "skip", "increase", "decrease", "slip", "together", "ring")
LIKENED = 30
"""Words behind the naming of a row within which it may be likened to an earlier one before its work is told (ours)."""


def _only_likened(tokens: Sequence[Token], before: Anchor, anchor: Anchor) -> bool:
    """Whether an earlier row is named amid a sentence before anything of the row is worked: "row six, now we open a window on each side,
    it's the mirror of what we had in row four"."""
    between = tokens[before.end : anchor.k]
    if anchor.how != "begins" or not before.first > anchor.last > 0:
        return False
    if not 2 <= len(between) <= LIKENED or any(token.kind in _WORKED for token in between) or takes_back(tokens, before.end, anchor.k):
        return False
    lead, further = between[-1], between[-2]
    return lead.text in _LIKENED and not lead.stop and not (further.stop and further.mark in ".!?")


def takes_back(tokens: Sequence[Token], start: int, end: int) -> bool:
    """Whether a speaker corrects herself between two tokens."""
    said = tokens[max(start, 0) : end]
    words = " ".join(token.text for token in said)
    if any(f" {sorry} " in f" {words} " for sorry in _SORRY):
        return True
    if any(token.text == "no" and token.stop and tokens[max(start, 0) + i - 1].stop for i, token in enumerate(said)):
        return True
    return any(
        said[i].mark == "?" and tokens[max(start, 0) + i - n].stop and _asks(said[i - n + 1 : i + 1])
        for i in range(len(said))
        for n in (1, 2, 3)
        if n <= i + 1
    )


_DOUBTS = frozenset(phrases("anchors", "doubts"))


def _asks(said: Sequence[Token]) -> bool:
    """Whether a short question doubts what was said, or lets it be said again: "What? Sixty-four, thank you."."""
    return " ".join(token.text for token in said) in _DOUBTS


def _found(tokens: Sequence[Token]) -> Iterator[Anchor]:
    k = 0
    while k < len(tokens):
        anchor = _at(tokens, k)
        if anchor is None:
            k += 1
            continue
        yield anchor
        k = max(anchor.end, k + 1)


def _at(tokens: Sequence[Token], k: int) -> Anchor | None:
    token = tokens[k]
    if token.kind == "ord" and not token.stop and k + 1 < len(tokens) and tokens[k + 1].kind == "row" and token.number < 1000:
        upto = _ordinal_range(tokens, k + 2, after_row=True)
        if upto is not None and upto[0] > token.number:
            return Anchor(k, upto[1], "begins", token.number, upto[0], token.at)
        return _placed(tokens, k, k + 2, token.number, token.number, 1.0)
    if token.kind == "ord" and not token.stop:
        upto = _ordinal_range(tokens, k + 1)  # "the fourth to thirty-fifth rows"
        if upto is not None and token.number < upto[0] and tokens[upto[1] - 1].kind == "rows":
            return Anchor(k, upto[1], "begins", token.number, upto[0], token.at)
    if token.kind == "ord" and (k == 0 or tokens[k - 1].stop or tokens[k - 1].text in ("the", "our", "so", "now", "and", "my")):
        closing = k + 2 < len(tokens) and tokens[k + 1].text == "and" and tokens[k + 2].text in ("last", "final")
        if closing and not token.stop:
            end = k + 4 if k + 3 < len(tokens) and tokens[k + 3].kind == "row" and not tokens[k + 2].stop else k + 3
            return Anchor(k, end, "begins", token.number, token.number, token.at)  # "Fourth and last."
        if token.stop and token.mark in ".:" and (k == 0 or tokens[k - 1].stop):
            return _soft(tokens, k, k + 1, token.number)
    if token.kind == "word" and token.text in ("next", "following", "new") and k + 1 < len(tokens):
        return _next(tokens, k)
    if token.text in ("last", "final") and token.mark == "," and k + 1 < len(tokens) and tokens[k + 1].kind == "num" and tokens[k + 1].stop:
        return Anchor(k, k + 2, "begins", tokens[k + 1].number, tokens[k + 1].number, token.at, 0.8)  # "The last, seventeen, only …"
    if token.kind == "around" and k + 1 < len(tokens) and tokens[k + 1].kind == "num":
        return _soft(tokens, k, k + 2, tokens[k + 1].number)
    if token.kind not in ("row", "rows"):
        return _bare(tokens, k)
    if token.stop and token.mark in ".!?":
        return None  # "all the way round. Three in every space"
    if token.stop and token.kind == "row" and k and not tokens[k - 1].stop and tokens[k - 1].text not in _BEFORE_ROW:
        return None  # "rounds twenty-eight to thirty, just round, thirty"
    if (
        token.kind == "rows"
        and token.stop
        and k
        and tokens[k - 1].kind == "num"
        and (k < 2 or tokens[k - 2].text not in ("these", "those"))
    ):
        return None  # "fourteen rounds, twelve for a child"
    at = k + 1
    if at < len(tokens) and tokens[at].text in ("number", "numbers", "no"):
        at += 1
    if at >= len(tokens) or tokens[at].kind != "num":
        return _numberless(tokens, k)
    if token.kind == "row" and at == k + 1 and _of_no_row(tokens, k):
        return None
    first = last = tokens[at].number
    sure = min(token.sure, tokens[at].sure)
    end = at + 1
    ranged = _range_end(tokens, end, plural=token.kind == "rows", first=first)
    if ranged is not None:
        last, end = ranged
    if first == 0 or last > 999:
        return None
    counted = k > 0 and tokens[k - 1].kind == "num" and not tokens[k - 1].stop and (k < 2 or tokens[k - 2].text not in ("these", "those"))
    if token.kind == "rows" and first == last and counted:
        return None  # "for five rounds seventy stitches each"
    if token.sure < 1:
        return _soft(tokens, k, end, first, last)
    if tokens[k].kind == "row" and (_counts_rows(tokens, end) or _around_posts(tokens, k)):
        return None
    return _placed(tokens, k, end, first, max(first, last), sure)


_EVERY = frozenset(("each", "every", "per", "whole", "entire", "any", "another"))
_ALONG = frozenset(("the", "this", "that", "your", "our", "a", "one", "half"))


def _of_no_row(tokens: Sequence[Token], k: int) -> bool:
    """Whether a number behind "row" at token k is no row's but a count: "every round sixty-six", "along the row | thirteen" where a
    caption ends between."""
    lead = tokens[k - 1] if k and not tokens[k - 1].stop else None
    if lead is None:
        return False
    apart = tokens[k].stop or tokens[k].until != tokens[k + 1].until
    return lead.text in _EVERY or (apart and lead.text in _ALONG)


_BEFORE_ROW = frozenset(("so", "now", "for", "okay", "last", "final"))
_NO_NEW_ROW = words("anchors", "no_new_row")


def _numberless(tokens: Sequence[Token], k: int) -> Anchor | None:
    """A row named without its number, which the machine may have lost: "so for row you're going to"."""
    if tokens[k].kind != "row" or tokens[k].sure < 1 or tokens[k].stop or (k and tokens[k - 1].text in _NO_NEW_ROW):
        return None
    if tokens[k].text == "round" and how_it_goes(tokens, k):
        return None
    if described(tokens, k):
        return None
    if marked(tokens, k):
        return None  # where somebody set full stops, no number was lost: "reach round from behind"
    return Anchor(k, k + 1, "next", 0, 0, tokens[k].at, 0.4)


def _counts_rows(tokens: Sequence[Token], end: int) -> bool:
    """ "row 3 times" is no row, nor is "away round fifteen more times"."""
    if end + 1 < len(tokens) and tokens[end].text == "more" and tokens[end + 1].text in ("times", "time"):
        return True
    return end < len(tokens) and tokens[end].text in ("times", "inches", "cm", "centimeters", "centimetres", "minutes")


def _around_posts(tokens: Sequence[Token], k: int) -> bool:
    """Whether "round" tells where a post stitch goes: "front post double crochet round one, back post round the next"."""
    lead = [token.kind for token in tokens[max(0, k - 2) : k]]
    return tokens[k].text == "round" and bool(lead) and (lead[-1] in _POSTS or (lead[-1] == "st" and lead[0] in _POSTS))


_POSTS = ("front post", "back post")


def _ordinal_range(tokens: Sequence[Token], at: int, *, after_row: bool = False) -> tuple[int, int] | None:
    """(last number, token after it) of "… to the ninth row"."""
    if at >= len(tokens) or tokens[at].text not in ("to", "through", "till", "until", "too", "and"):
        return None
    at += 2 if at + 1 < len(tokens) and tokens[at + 1].text == "the" else 1
    if at + 1 < len(tokens) and tokens[at].kind == "ord" and tokens[at + 1].kind in ("row", "rows"):
        return tokens[at].number, at + 2
    if at < len(tokens) and tokens[at].kind == "ord" and tokens[at].stop and tokens[at - 1].kind in ("word", "row") and after_row:
        return tokens[at].number, at + 1  # "from the fourth row to the thirty-fifth, …"
    return None


def _range_end(tokens: Sequence[Token], at: int, *, plural: bool, first: int) -> tuple[int, int] | None:
    """(last number, token after it) of a range: "to nine", "through 9", "and nine"; a single "row" takes no range with "and"."""
    if at >= len(tokens):
        return None
    listed = _listed(tokens, at) if plural else None
    if listed is not None:
        return listed
    word = tokens[at]
    joined = word.text in _RANGE or word.raw.lower() in _RANGE
    if word.kind == "num" and joined and plural and at + 1 < len(tokens) and tokens[at + 1].kind == "num":
        return tokens[at + 1].number, at + 2
    if word.kind == "num" and plural and word.number > first and not tokens[at - 1].stop:
        return word.number, at + 1
    if not joined:
        return None
    nxt = at + 1
    while nxt < len(tokens) and (tokens[nxt].text in ("the", "including", "and") or tokens[nxt].kind == "row"):
        nxt += 1
    if nxt < len(tokens) and tokens[nxt].kind == "num" and (plural or word.text not in ("and", "or")) and tokens[nxt].number > first:
        return tokens[nxt].number, nxt + 1
    return None


def _listed(tokens: Sequence[Token], at: int) -> tuple[int, int] | None:
    """(last number, token after it) of a list: "rounds seven, eight, nine and ten", the first of which stands before token `at`."""
    end = at
    while end < len(tokens):
        step = 1 if tokens[end].text == "and" and end + 1 < len(tokens) else 0
        if tokens[end + step].kind != "num" or tokens[end + step].number != tokens[end - 1].number + 1:
            break
        end += step + 1
    return (tokens[end - 1].number, end) if end >= at + 2 and tokens[end - 1].kind == "num" else None


def _placed(tokens: Sequence[Token], k: int, end: int, first: int, last: int, sure: float) -> Anchor:
    how = _how(tokens, k, end, plural=first < last)
    if how == "begins" and spoken_of(tokens, k, end):
        how = "refers"
    return Anchor(k, end, how, first, last, tokens[k].at, sure)


_SUMS_UP = frozenset(("that's", "that", "those", "these", "it's"))


def _sums_up(tokens: Sequence[Token], k: int) -> bool:
    """Whether the sentence that names rows at token k says what has been told, and begins no work."""
    first, _ = sentence(tokens, k)
    lead = tokens[first:k]
    while lead and lead[0].text in ("and", "so", "now", "well", "right"):
        lead = lead[1:]
    return bool(lead) and lead[0].text in _SUMS_UP and not any(t.kind == "num" and t.number > 1 for t in lead)


def _how(tokens: Sequence[Token], k: int, end: int, *, plural: bool = False) -> How:
    before = _words_before(tokens, k, 5)
    last = before[-1] if before else ""
    two = " ".join(before[-2:])
    three = " ".join(before[-3:])
    if any(word in ("repeat", "repeating", "rep", "repeated") for word in before[-3:]):
        return "repeats"
    if (
        last in ("until", "till", "through", "thru")
        or two in ("up to", "way to", "reach the", "got to", "get to", "end at")
        or last == "reach"
    ):
        return "until"
    if end - k > 3 and (last == "from" or two == "from the"):
        return "begins"  # "from round 10 to round 22"
    if last in _LIKE or two in (
        "same as",
        "like in",
        "did in",
        "did for",
        "did on",
        "back in",
        "did at",
        "made in",
        "worked in",
        "end of",
        "from the",
    ):
        return "closes" if two == "end of" else "refers"
    if three in ("like we did", "as we did", "back to the") or two in ("work the", "as the", "like the", "of the"):
        return "refers"
    if two in ("that's", "that is", "that was", "was my", "finishes off", "completes the") or last in (
        "that's",
        "finishes",
        "completes",
        "ends",
        "was",
        "concludes",
        "finished",
    ):
        return "closes"
    if plural and _sums_up(tokens, k):
        return "closes"  # "And that's one full pattern, rows six to eighteen."
    if any(word in ("these", "those") for word in before[-3:]) and any(token.kind == "repeat" for token in tokens[end : end + 3]):
        return "repeats"  # "these four rows, five until eight, I repeat"
    if counted_in(tokens, k, end):
        return "closes"
    after = [token.text for token in tokens[end : end + 4]]
    if len(after) > 1 and tokens[end].kind == "num" and after[1] == "times" and not tokens[end - 1].stop:
        return "refers"  # "the treble ripple once more, row two four times"
    if after[:2] == ["over", "again"]:
        return "refers"  # "you just do row six over again"
    if after and (_is_done(after) or (after[0] in ("is", "was", "all") and len(after) > 1 and after[1] in _DONE)):
        return "closes"
    return "begins"


def _is_done(after: Sequence[str]) -> bool:
    """Whether a row is told to be done, by the words behind its name; "row eight, over to the sand" is not."""
    return after[0] in _DONE and not (after[0] == "over" and after[1:2] and after[1] in ("to", "the", "in", "on", "with"))


def _words_before(tokens: Sequence[Token], k: int, n: int) -> list[str]:
    """Up to n words before token k, of the same sentence."""
    out: list[str] = []
    for token in reversed(tokens[max(0, k - n) : k]):
        if token.stop:
            break
        out.insert(0, token.text)
    return out


def _next(tokens: Sequence[Token], k: int) -> Anchor | None:
    """ "the next row", "the following round", "the next six rows"."""
    at = k + 1
    count = 1
    if tokens[at].kind == "num" and at + 1 < len(tokens) and tokens[at + 1].kind == "rows":
        count, at = tokens[at].number, at + 1
    if tokens[at].kind not in ("row", "rows") or tokens[at].sure < 1:
        return None
    if at + 1 < len(tokens) and tokens[at + 1].kind == "num":
        return None
    called = _called(tokens, at + 1) if count == 1 else -1
    if called >= 0:
        return Anchor(k, called + 1, "begins", tokens[called].number, tokens[called].number, tokens[k].at)
    return Anchor(k, at + 1, "next", 0, 0, tokens[k].at, 0.8, count)


_WHICH_IS = frozenset(("which", "is", "that", "that's", "it's", "will", "be", "that'll", "the", "our", "number"))
CALLED = 5
"""Words behind "the next row" within which it is told which one that is (ours)."""


def _called(tokens: Sequence[Token], at: int) -> int:
    """The token that numbers the next row: "the next row, which is the eighth", "the next row, that's number eight"; -1 where none does."""
    for k in range(at + 1, min(at + CALLED + 1, len(tokens))):
        if tokens[k - 1].text not in _WHICH_IS:
            return -1
        behind = tokens[k + 1] if k + 1 < len(tokens) and not tokens[k].stop else None
        if tokens[k].kind == "ord" and tokens[k - 1].text in ("the", "our"):
            return -1 if behind is not None and behind.kind in ("stitch", "st", "chain", "space", "row") else k
        if tokens[k].kind == "num":
            return k if tokens[k - 1].text == "number" else -1
    return -1


def _soft(tokens: Sequence[Token], k: int, end: int, first: int, last: int | None = None) -> Anchor:
    return Anchor(k, end, "perhaps", first, last or first, tokens[k].at, 0.5)


def _bare(tokens: Sequence[Token], k: int) -> Anchor | None:
    """A number that stands alone at the beginning of a sentence, before a colon or a chain: a row whose "row" was lost."""
    token = tokens[k]
    if token.kind != "num" or not 0 < token.number < 200 or k + 1 >= len(tokens):
        return None
    if _stands_alone(tokens, k):
        return Anchor(k, k + 1, "perhaps", token.number, token.number, token.at, 0.4)
    if _led_up_to(tokens, k):
        return Anchor(k, k + 1, "perhaps", token.number, token.number, token.at, 0.5)
    listed = _bare_list(tokens, k)
    if listed is not None:
        return listed
    ranged = _bare_range(tokens, k)
    if ranged is not None:
        return ranged
    begins = k == 0 or tokens[k - 1].stop or tokens[k - 1].text in ("okay", "ok", "so", "now", "number", "and", "alright", "right", "then")
    follows = tokens[k + 1].kind in ("chain", "turn", "word") and tokens[k + 1].text in (
        "chain",
        "ch",
        "chains",
        "turn",
        "we",
        "is",
        "we're",
        "you",
        "it's",
        "i'm",
        "again",
    )
    if tokens[k + 1].kind == "chain" and not token.stop and (tokens[k + 1].stop or k + 2 >= len(tokens) or tokens[k + 2].kind != "num"):
        return None  # "three chain" are chains
    if begins and (follows or (token.stop and tokens[k - 1].text in ("number", "okay", "ok", "now"))):
        return Anchor(k, k + 1, "perhaps", token.number, token.number, token.at, 0.4)
    return None


_LEADS_UP = phrases("anchors", "leads_up")


def _led_up_to(tokens: Sequence[Token], k: int) -> bool:
    """Whether a row is announced by its number alone: "next up is thirteen", "that brings us to nine"."""
    lead = f" {' '.join(token.text for token in tokens[max(0, k - 5) : k])}"
    after = tokens[k + 1]
    counts = not tokens[k].stop and (after.kind in _COUNTED or after.text in ("of", "in", "into", "more", "left", "minutes", "o'clock"))
    return not counts and tokens[k].number > 1 and lead.endswith(_LEADS_UP)


_COUNTED = frozenset(
    ("st", "stitch", "space", "chain", "times", "num", "increase", "decrease", "together", "shell", "cluster", "rows", "row")
)
_RANGE_IS = frozenset(("are", "is", "the", "same", "we", "you", "all", "just", "plain", "work", "worked", "again", "it's", "they're", "i"))


def _bare_range(tokens: Sequence[Token], k: int) -> Anchor | None:
    """ "Five to nine are the same", "and then four through eleven, plain": rows whose "rows" is left out."""
    up = 1 if k + 1 < len(tokens) and tokens[k + 1].text == "up" else 0
    if k + up + 2 >= len(tokens) or tokens[k].stop or tokens[k + up + 1].text not in ("to", "through", "thru"):
        return None
    if tokens[k + up + 2].kind != "num":
        return None
    begins = k == 0 or tokens[k - 1].stop or tokens[k - 1].text in ("okay", "ok", "so", "now", "and", "then", "for")
    last = tokens[k + up + 2]
    after = tokens[k + up + 3] if k + up + 3 < len(tokens) else None
    works = after is not None and not last.stop and after.kind in ("chain", "repeat", "st", "front post", "back post", "skip")
    follows = last.stop or works or (after is not None and after.text in _RANGE_IS)
    if not (begins or works) or not follows or last.number <= tokens[k].number:
        return None
    return Anchor(k, k + up + 3, "perhaps", tokens[k].number, last.number, tokens[k].at, 0.5)


def _stands_alone(tokens: Sequence[Token], k: int) -> bool:
    """Whether a number is a sentence of its own and work follows at once: "Twenty-four. Four single crochet, two together …"."""
    led = k > 0 and tokens[k - 1].text in ("and", "then", "now", "so") and (k < 2 or tokens[k - 2].mark in ".!?:")
    alone = tokens[k].stop and tokens[k].mark in ".:" and (k == 0 or tokens[k - 1].mark in ".!?:")
    if not alone and not (led and tokens[k].stop):  # "And five, three and an increase"
        return False
    if led and tokens[k + 1].text in ("all", "plain", "the", "same", "again", "like"):
        return True  # "And thirteen, all open"
    if tokens[k + 1].kind == "num" and tokens[k + 1].stop and tokens[k + 1].mark in ".:":
        return False
    return tokens[k + 1].kind in ("num", "chain", "st", "increase", "decrease") and any(
        token.kind in ("st", "increase", "decrease", "chain", "together") for token in tokens[k + 1 : k + 6]
    )


def _bare_list(tokens: Sequence[Token], k: int) -> Anchor | None:
    """ "Eleven, twelve and thirteen are plain", "Nineteen and twenty, plain.": rows in a list whose "rounds" is left out."""
    lead = tokens[k - 1] if k and not tokens[k - 1].stop else None
    if lead is not None and lead.text not in ("so", "now", "and", "then", "okay") and lead.kind not in ("turn", "join"):
        return None
    end = k + 1
    while end + 1 < len(tokens):
        step = 1 if tokens[end].text == "and" else 0
        if tokens[end + step].kind != "num" or tokens[end + step].number != tokens[end - 1].number + 1:
            break
        end += step + 1
        if step:
            break
    if end < k + 3 or tokens[end - 2].text != "and":
        return None
    after = tokens[end] if end < len(tokens) else None
    follows = after is not None and (after.text in _RANGE_IS or after.text in ("no", "nothing", "without", "easy"))
    return Anchor(k, end, "perhaps", tokens[k].number, tokens[end - 1].number, tokens[k].at, 0.5) if follows else None
