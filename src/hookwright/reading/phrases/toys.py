"""Sentences about the making up of a toy or a thing: eyes placed, limbs sewn on, wire put in. They ask for no stitch."""

from __future__ import annotations

from ..wording.token import Token
from .cursor import Cursor

_VERBS = frozenset(
    "place insert attach put position add sew fix glue embroider stitch pin secure use join thread push slide tie wrap draw give".split()  # noqa: SIM905
)
_THINGS = frozenset(
    "eye eyes nose nostril nostrils mouth smile cheek cheeks eyebrows eyelids eyelashes eyelash ear ears snout muzzle beak leg legs arm arms foot feet paw paws "  # noqa: SIM905, E501
    "wing wings fin fins flipper flippers head body belly horn horns antenna antennae hair mane whisker whiskers face safety washer washers wire bead beads "  # noqa: E501
    "button buttons felt magnet keyring keychain ribbon zipper zip lining elastic bell rattle squeaker pellets cardboard interfacing clasp snap charm "  # noqa: E501
    "pom pompom pompoms tassel tassels bow leaf leaves stem stalk hat scarf collar spots patch".split()
)
_WORK = frozenset(("st", "ch", "inc", "dec", "skip", "grp", "mring", "turn"))


_CARE = frozenset(("taking", "take", "being", "be", "making", "make", "careful", "ensuring", "remembering", "keeping"))
_CARES = frozenset(("care", "careful", "sure", "not", "twist", "twisted", "twisting", "tension", "loose"))
_SEAMED = ("sl st", "sc", "hdc", "dc")
_EDGE_WORDS = frozenset(("short", "long", "side", "row", "ends", "edges", "seam"))
_EDGES = frozenset(("ends", "end", "side", "row", "piece"))


def ring_in_letters(found: list[Token]) -> list[Token]:
    """ "6 sc in MC" as the very first stitches of a piece: magic circle, for no colour could be meant where there is no place yet."""
    if found[0].val == "mc" and found[1].kind in (",", "n", "-", ":") and any(t.kind == "st" for t in found[1:4]) and found[0].text == "MC":
        return [_as_ring(found[0]), *found[1:]]
    again = [k for k in range(2, len(found)) if found[k].val == "mc" and found[k - 1].kind == "in" and found[k].text == found[0].text]
    if found[0].val == "mc" and found[1].kind == "," and again:  # "MC, ch 3, 11 dc into MC"
        return [_as_ring(token) if k in (0, *again) else token for k, token in enumerate(found)]
    first = next((k for k, token in enumerate(found) if token.kind in ("st", "inc", "grp", "ch", ".", "*", "(")), None)
    if first is None or found[first].kind != "st" or found[first].val == "sl st" or first > 3:
        return found
    k = first + 1
    while found[k].kind in ("in", "the", "a", "work"):
        k += 1
    after = found[k + 1].kind if k + 1 < len(found) else ""
    if k == first + 1 or found[k].val != "mc" or after not in ("", ".", ",", ";", "(", "[", "{", "=", "-"):
        return found
    return [*found[:k], _as_ring(found[k]), *found[k + 1 :]]


def _as_ring(token: Token) -> Token:
    return Token("mring", "mc", token.start, token.end, token.text, token.gap)


def seamed(c: Cursor, end: int) -> bool:
    """Whether the sentence tells of a seam: "Sl st the last row to the foundation chain to form a ring"."""
    first = c.t[c.i]
    begins = (first.kind == "st" and first.val in _SEAMED) or first.kind in ("join", "attach")
    named = c.look().text.lower() in _EDGE_WORDS and c.look(2).kind in (*_EDGES, "w", "tog")
    if not begins or not (named or c.look().kind in ("the", "both", "o", "last")):
        return False
    words = []
    k = c.i + 1
    while k < end and c.t[k].kind not in (".", "!", ";"):
        words.append(c.t[k])
        k += 1
    edges = [
        t for t in words[:6] if t.kind in _EDGES or t.text.lower() in ("ends", "edges", "sides", "short", "long", "brim", "strip", "band")
    ]
    return bool(edges) and not any(t.kind in ("next", "each", "inc", "dec", "skip", "n") for t in words[:3])


def _put_together(c: Cursor, end: int) -> bool:
    """ "Fold the cuff and sl st the short ends together", "Make 2 and sew together"."""
    if c.t[c.i].text.lower() not in ("fold", "make"):
        return False
    told = []
    for token in c.t[c.i : end]:
        if token.kind in (".", "!", ";"):
            break
        told.append(token.text.lower())
    if told[:1] == ["fold"]:
        return any(word in ("together", "tog", "half", "seam", "down", "up", "over", "back", "inside") for word in told)
    return told[:1] == ["make"] and len(told) < 14 and "sew" in told


_GOES = frozenset("go goes sit sits are is come comes belong belongs will should can must get gets lie lies".split())  # noqa: SIM905


def _goes_where(c: Cursor) -> bool:
    """ "Eyes go between 9 and 10, 8 stitches apart", "the ears are sewn to rounds 5 to 8": where a thing belongs."""
    k = c.i + (c.kind == "the")
    k += c.t[k].text.lower() in ("safety", "black", "button", "bead") and c.t[k + 1].text.lower() in _THINGS
    return c.t[k].text.lower() in _THINGS and c.t[k].kind not in _WORK and c.t[k + 1].text.lower() in _GOES


def folded_over(c: Cursor) -> bool:
    """Whether "turn cuff up", "fold brim back on Rnd 19", "turn up the lower edge", "roll the brim" begins here: no turning of the work."""
    if c.t[c.i].text.lower() not in ("fold", "turn", "roll", "turning", "folding"):
        return False
    k = c.i + 1
    while c.t[k].kind in ("the", "a", "back", "lower", "idle") or c.t[k].text.lower() in _WHITHER:
        k += 1
    return c.t[k].text.lower() in _FOLDED and not (c.t[k].text.lower() == "edge" and k == c.i + 1)


_WHITHER = frozenset("up down over under in your lower".split())  # noqa: SIM905
_FOLDED = frozenset("cuff cuffs brim hem rim collar lapel lapels band edge edging flap top".split())  # noqa: SIM905


def careful(c: Cursor) -> bool:
    """ ", taking care that the chain isn't twisted", "being careful not to twist": advice in the middle of an instruction."""
    return c.t[c.i].text.lower() in _CARE and any(c.t[k].text.lower() in _CARES for k in range(c.i + 1, min(c.i + 4, len(c.t))))


def advice_ends(c: Cursor, end: int) -> int:
    """Where advice ends and the work goes on: "being careful not to twist, ss to first ch"; `end` where it does not."""
    for k in range(c.i + 1, end - 1):
        after = c.t[k + 1]
        if c.t[k].kind == "," and (
            after.kind in ("join", "turn", "foff") or (after.kind == "st" and after.val == "sl st") or after.val == "close"
        ):
            return k
    return end


def made_up(c: Cursor, end: int) -> bool:
    """Whether the sentence that begins here tells of the making up: a verb of it, a thing it is done to, and no stitch to work."""
    first = c.t[c.i]
    words = {str(first.val), first.text.lower()}
    if _put_together(c, end) or folded_over(c) or _goes_where(c):
        return True
    if not words & _VERBS and not (first.kind == "idle" and c.look().text.lower() in _VERBS):
        return False
    found = False
    k = c.i
    while k < end and c.t[k].kind not in (".", "!", ";"):
        token = c.t[k]
        if token.kind in _WORK and token.text.lower() not in ("stitch", "leaf", "leaves", "bow"):
            return False
        found = found or (k > c.i and token.text.lower() in _THINGS)
        k += 1
    return found
