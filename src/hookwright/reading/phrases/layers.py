"""A piece laid flat and closed through both of its layers: "Flatten and sc through both layers", "fold in half and work 6 sc through both
sides"."""

from __future__ import annotations

from ...pattern import ONE, Aside, Make, Place, Sized, Step
from .cursor import Cursor
from .numbers import number

EXAMPLES = (
    ("Flatten and sc through both layers", "sc×rest@next st"),
    ("Fold flat, 6 sc through both layers to close", "sc×6@next st"),
    ("Fold in half and sc the edges together", "sc×rest@next st"),
)

_LAYERS = frozenset(("layers", "layer", "thicknesses", "sides", "edges"))
_FOLDS = frozenset("flatten flattened fold folded press pinch pinched squash squish squeeze flat flattening folding pinching close".split())  # noqa: SIM905
_OTHER_PIECES = frozenset("pieces circles squares hold holding match matching matched motifs halves other lay place second".split())  # noqa: SIM905
_EDGES = frozenset("edges edge sides layers opening top ends end hole it".split())  # noqa: SIM905
_SHUT = frozenset("together closed shut close tog".split())  # noqa: SIM905
_ENDS = frozenset((".", ";", "", "(", "[", "foff", "=", "turn"))
FURTHEST = 24


def closed_flat(c: Cursor) -> list[Step] | None:
    """The stitches that go through both layers of the piece, with the words that lead to them set aside; None with the cursor unmoved."""
    if not _says(c):
        return None
    start, end = c.i, c.i
    while c.t[end].kind not in _ENDS and end - start < FURTHEST:
        end += 1
    stitches = [k for k in range(start, end) if c.t[k].kind == "st" and c.t[k].val in ("sc", "hdc", "dc", "sl st")]
    at = stitches[0] if stitches and _one_kind(c, stitches) else None
    if at is None or not _through(c, at, end):
        return None
    lead = c.t[start:at]
    if any(token.kind in ("ch", "skip", "inc", "dec", "*", "grp", "n") for token in lead[:-1]):
        return None
    c.i = at - 1 if at > start and c.t[at - 1].kind == "n" else at
    told = number(c)
    if told is None:
        c.i = at + 1
        told = _told_behind(c, end)
    if told is None and not _folded(c):
        c.i = start
        return None
    begin = at if c.t[at - 1].kind != "n" or at == start else at - 1
    c.i = end
    step = Make(
        id=c.id(), span=c.span(begin), stitch=c.us(str(c.t[at].val)), each=ONE, places=told or "rest", at=Place(where="next", of="layers")
    )
    return [Aside(id=c.id(), span=c.span(start, begin)), step] if begin > start else [step]


def _says(c: Cursor) -> bool:
    """Whether the row speaks of layers, or of edges worked together; found once for the row."""
    if c.layered is None:
        words = {token.text.lower() for token in c.t}
        c.layered = bool(words & _LAYERS) or (bool(words & _FOLDS) and bool(words & _SHUT))
    return c.layered


def _one_kind(c: Cursor, at: list[int]) -> bool:
    """The clause works stitches of one kind, once."""
    return len(at) == 1 or all(c.t[k - 1].kind in ("of", "next", "the", "each", "in", "both") for k in at[1:])


def _through(c: Cursor, at: int, end: int) -> bool:
    """ "(Sc) through both layers", "(sc) the edges together", "(sl st) the opening shut" somewhere behind the stitch."""
    words = [token.text.lower() for token in c.t[at + 1 : end]]
    kinds = [token.kind for token in c.t[at + 1 : end]]
    for k, word in enumerate(words):
        both = word in _LAYERS and any(one in ("both", "two", "2", "all") for one in words[max(0, k - 3) : k])
        if both and any(kind in ("over", "in") for kind in kinds[:k]):
            return True
    shut = any(word in _SHUT for word in words[1:6])
    return kinds[:1] in (["the"], ["both"], ["w"]) and shut and any(word in _EDGES for word in words[:3])


def _told_behind(c: Cursor, end: int) -> Sized[int] | None:
    """ "(sc) in (each of) next 6 sts": how many, told with the places."""
    k = c.i
    while k < end and c.t[k].kind in ("in", "each", "of", "the", "next", "idle"):
        k += 1
    if k == c.i or c.t[k].kind != "n":
        return None
    c.i = k
    return number(c)


def _folded(c: Cursor) -> bool:
    """Whether it is one piece, folded, and not two laid together."""
    words = {token.text.lower() for token in c.t}
    return bool(words & _FOLDS) or (c.ctx.rounds and not words & _OTHER_PIECES)
