"""Further copies of a piece: "make another slipper the same", "work second mitten in same manner", "make 2 pieces alike"."""

from __future__ import annotations

from ...pattern import Aside, Step
from .cursor import Cursor
from .stitches import stitch

EXAMPLES = (
    ("sc in next st, another sc in same st", "sc, sc@same st"),
    ("Make another slipper the same", ""),
    ("Make second mitten in same manner", ""),
    ("Make a second one in the same way", ""),
    ("Make 2 pieces alike", ""),
    ("Work another sock to match", ""),
    ("Make back the same", ""),
)

_ALIKE = frozenset("alike same match manner way identical".split())  # noqa: SIM905
_NOT = frozenset(("st", "ch", "row", "rnd", "skip", "inc", "dec", "sp", "lp", "patt", "side", "half", "in", "*", "("))
_OF_A_PIECE = frozenset(("shoulder", "neckline", "armhole"))
"""What is no piece by itself: "work second shoulder to match" tells rows to be worked."""
_PASSED = frozenset(("the", "as", "to", "in", "this", "exactly", "way", "like", "same", "idle", "w", "a", "o", "one", "piece", "prev"))


def _the_other_one(c: Cursor) -> bool:
    """Pass over "the other one", "a second one", "another" where nothing more is said."""
    begin = c.i
    c.drop("the", "a")
    named = c.t[c.i - 1].text.lower() == "another" or bool(c.take("other")) or (c.kind == "o" and c.t[c.i].val == 2 and bool(c.take("o")))
    c.i += c.t[c.i].text.lower() in ("one", "mitt", "sock", "piece", "mitten", "slipper", "half")
    if named and c.kind in (".", "!", ";", "", ")"):
        return True
    c.i = begin
    return False


def _back_like_front(c: Cursor) -> bool:
    """Past "(make) back the same", "the back to correspond", "back like front", where nothing more is said; False, unmoved, elsewhere."""
    begin = c.i
    c.drop("the")
    faced = c.t[c.i].text.lower() in ("back", "front")
    k = c.i + faced
    while c.t[k].kind not in (".", ";", "", ",", ")") and k - begin < 8:
        k += 1
    told = c.t[c.i + faced : k]
    said = {token.text.lower() for token in told} | {str(token.val) for token in told}
    worked = any(token.kind in ("n", "st", "ch", "row", "rnd", "skip", "sp", "lp", "inc", "dec", "until", "in") for token in told)
    if faced and told and not worked and said & {*_ALIKE, "like", "correspond", "same-way"} and c.t[k].kind in (".", ";", ""):
        c.i = k
        return True
    c.i = begin
    return False


def _all_alike(c: Cursor) -> list[Step] | None:
    """ "Work over each remaining pineapple in same manner", "join third motif to second in the same way, leaving 4 loops between": further
    copies, to the sentence's end; None with the cursor unmoved."""
    start = c.i
    end = next(k for k in range(c.i, len(c.t)) if c.t[k].kind in (".", ";", ""))
    told = c.t[start:end]
    words = [token.text.lower() for token in told]
    same = next((k for k, word in enumerate(words) if word in ("manner", "way", "fashion") or told[k].val == "same-way"), None)
    pieces = any(token.kind in ("rem", "other", "motif") or token.text.lower() in _PIECES for token in told[: same or 0])
    joins = told[0].kind == "join" or (told[0].kind == "work" and told[1].kind in ("over", "in"))
    if same is None or not joins or not pieces or any(token.kind in ("ch", "n", "skip", "turn") for token in told[:same] if token.val != 1):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


_PIECES = frozenset("motif motifs strip strips block blocks square squares medallion medallions pineapple pineapples".split())  # noqa: SIM905


def another(c: Cursor) -> list[Step] | None:
    """ "Make another … the same": asks for no new stitches; None with the cursor unmoved."""
    start = c.i
    if c.t[c.i].text.lower() == "go" and c.look().kind in ("work", "and"):
        c.i += 1 + (c.look().kind == "and")  # "Go make the other one!"
    if (joined := _all_alike(c)) is not None:
        return joined
    if not c.take("work") and c.t[c.i].text.lower() != "do":
        c.i = start
        return None
    c.i += c.i == start
    if _the_other_one(c) or _back_like_front(c):
        return [Aside(id=c.id(), span=c.span(start))]
    if c.kind == "a" and c.look().kind == "o":
        c.i += 1  # "a second bootee"
    opens = c.kind == "o" or (c.kind == "the" and c.t[c.i].val == "another") or (c.kind == "n" and c.look().kind in ("w", "piece", "group"))
    c.take("n", "o", "the")
    words = 0
    while (
        opens and words < 4 and c.kind not in _NOT and c.kind not in (",", ";", ".", "") and c.t[c.i].val not in _ALIKE and c.kind != "same"
    ):
        words += 1
        c.i += 1
        opens = opens and c.t[c.i - 1].val not in _OF_A_PIECE
    alike = False
    while c.kind in _PASSED and c.kind:
        alike = alike or c.kind == "same" or c.t[c.i].val in (*_ALIKE, "same-way")
        c.i += 1
    if opens and words and (alike or c.t[start + 1].val == "another") and c.kind in (".", ";", "", ",", ")"):
        return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None


def one_more(c: Cursor) -> list[Step] | None:
    """ "(1 popcorn in next dc, dc in next dc,) another popcorn in next dc": one more of them."""
    start = c.i
    if c.t[start].text.lower() != "another" or c.look().kind not in ("st", "grp"):
        return None
    c.i += 1
    got = stitch(c)
    c.i = start if got is None else c.i
    return got
