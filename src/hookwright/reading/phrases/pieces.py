"""Another piece worked into: "sc around first leg", "sc in each of 12 sts of second leg", "along the other piece"."""

from __future__ import annotations

from ...pattern import Aside, Make, Place, Step
from .cursor import Cursor

EXAMPLES = (
    ("ch 3, join to the first leg with a sc in any st, sc in next 11 sts of first leg", "ch3, sc@marked piece, sc×11@marked piece"),
    ("ch 2, attach to second leg with a sl st, sc 12 around second leg", "ch2, sc×12@marked piece"),
    (
        "ch 3, join to leg 1 with a sc, sc in next 13 sts of leg 1, sc in next 3 ch",
        "ch3, sc@marked piece, sc×13@marked piece, sc×3@next ch",
    ),
    ("ch 3, sc in each of the 12 sts around leg A, sc in 3 ch", "ch3, sc×12@marked piece, sc×3@next ch"),
)
_LIMBS = frozenset(
    "leg legs arm arms ear ears piece pieces foot feet paw wing half section part side motif square strip flap strap panel cup finger body "  # noqa: SIM905
    "head petal lobe circle ball sock sleeve wheel base bottom top side pouch pocket horn fin flipper tail toe finger square".split()
)
_WHICH = frozenset(("o", "other", "next", "last", "same", "prev"))
_PREPS = frozenset(("around", "along", "across", "in", "of", "over", "to", "from"))

_LININGS = frozenset(("pocket", "lining", "linings", "pockets", "pocket's"))
"""Pieces made before, that are worked in with no word for which of them."""
_ENDS_OF_PIECE = frozenset((",", ";", ".", "", ")", "(", "and", "skip"))


def goes_on_from(c: Cursor) -> list[Step] | None:
    """ "Continuing from second leg:", "starting on the first leg,": where the yarn is; nothing is worked."""
    start = c.i
    if c.kind not in ("cont", "beg") or c.look().kind not in ("from", "in", "with", "at"):
        return None
    end = start + 1
    while c.t[end].kind and c.t[end].kind not in (",", ":", ".", ";", "("):
        end += 1
    words = c.t[start + 2 : end]
    if len(words) > 6 or not any(t.text.lower() in _LIMBS for t in words) or any(t.kind in ("st", "ch", "n", "noun") for t in words):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def other_piece(c: Cursor) -> bool:
    """Pass over "around (the) second leg"; False with the cursor unmoved when another piece is not named so."""
    start = c.i
    if c.kind not in _PREPS:
        return False
    c.i += 1
    c.drop("the", "in", "of", "all", "around")
    if c.t[c.i].text.lower() in _LININGS:
        while c.t[c.i].text.lower() in _LININGS:
            c.i += 1
        if c.kind in _ENDS_OF_PIECE:
            return True
        c.i = start
        return False
    if _numbered_limb(c):
        c.i += 2
        return True
    if c.kind not in _WHICH or (c.kind == "o" and c.t[c.i].val > 9):
        c.i = start
        return False
    c.i += 1
    if c.t[c.i].text.lower() not in _LIMBS or c.kind in ("st", "ch", "noun") or c.look().kind in ("sp", "lp", "ch", "st", "noun"):
        c.i = start
        return False
    c.i += 1
    return True


def _numbered_limb(c: Cursor) -> bool:
    """ "Leg 1", "leg B", "ear two": a piece told from its like by what stands behind its name."""
    limb, behind = c.t[c.i], c.look()
    if limb.text.lower() not in _LIMBS or limb.kind in ("st", "ch", "noun"):
        return False
    lettered = len(behind.text) == 1 and behind.text in "AB"
    numbered = behind.kind == "n" and isinstance(behind.val, int) and behind.val < 10 and behind.gap
    return (lettered or numbered) and c.look(2).kind in (*_ENDS_OF_PIECE, "with", "by", "in", "at", "around", "w", "]")


_TIES = frozenset("join joining attach attaching connect connecting".split())  # noqa: SIM905


def joined_to(c: Cursor) -> list[Step] | None:
    """ "Join to first leg with sc (in any st)", "attach to the other leg with a sl st": the stitch that goes into another piece, nothing
    where it only slips on; None with the cursor unmoved."""
    start = c.i
    if c.t[c.i].text.lower() not in _TIES or c.look().kind != "to":
        return None
    c.i += 1
    if other_piece(c) and c.take("with", "by"):
        c.drop("a", "n")
        made = c.t[c.i]
        c.i += 1
        while c.kind in ("in", "a", "any", "each", "noun", "of", "it", "the", "free"):
            c.i += 1
        if made.kind == "st" and c.kind in (",", ";", ".", "", "and", ":"):
            kind = c.us(str(made.val))
            span = c.span(start)
            at = Place(where="marked", what="piece")
            return [Aside(id=c.id(), span=span) if kind == "sl st" else Make(id=c.id(), span=span, stitch=kind, at=at)]
    c.i = start
    return None


_BASES = frozenset(
    ("body", "hat", "crown", "yoke", "sock", "foot", "leg", "blanket", "front", "back", "base", "bag", "cuff", "hand", "band", "piece")
)


def on_a_piece(c: Cursor) -> bool:
    """Pass over "of body", "on the hat" behind a place: another piece of the pattern is meant. False, unmoved, otherwise."""
    start = c.i
    if c.kind not in ("of", "on", "along", "in"):
        return False
    c.i += 1
    c.drop("the", "your")
    if c.t[c.i].text.lower() == "main":
        c.i += 1
    names = [name.lower().split() for name in c.ctx.parts]
    words = [token.text.lower() for token in c.t[c.i : c.i + 4]]
    many = max((len(name) for name in names if name == words[: len(name)]), default=0)
    if not many and words[:1] and words[0] in _BASES:
        many = 1
    c.i += many
    if many and (c.kind in (",", ";", ".", "", ")", "(", "turn", "and", "edge")):
        c.take("edge")
        return True
    c.i = start
    return False


def begun_on(c: Cursor) -> list[Step] | None:
    """ "From second leg ch 3, …", "on the last leg, ch 2": the piece the yarn hangs on, before the chain that bridges it to another."""
    start = c.i
    if not c.take("from", "in"):
        return None
    c.drop("the", "your", "idle")
    if c.take("o", "last", "other") and c.take("w"):
        c.take(",", ":")
        if c.kind == "ch" or (c.kind == "n" and c.look().kind == "ch"):
            return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None
