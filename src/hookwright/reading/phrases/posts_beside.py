"""Posts on both sides of a stitch: "FPtr2tog around the posts before and after next sc", "… around the post on either side of next sc"."""

from __future__ import annotations

from ...pattern import Place
from .cursor import Cursor
from .nouns import noun
from .spots import Spot

_WORDS = frozenset("the both two 2 post posts before after and on either each side of just a next".split())  # noqa: SIM905
MOST = 14


def posts_beside(c: Cursor) -> Place | None:
    """The place of a stitch that draws both posts together in front of the stitch between them: further down than the row below, which
    holds no post there. None with the cursor unmoved."""
    start = c.i
    said: list[str] = []
    while c.t[c.i].text.lower() in _WORDS and c.i - start < MOST:
        said.append(c.t[c.i].text.lower())
        c.i += 1
    posts = "posts" in said or "post" in said
    both = ("before" in said and "after" in said) or ("side" in said and ("either" in said or "each" in said or "both" in said))
    if posts and both and said[-1:] in (["next"], ["the"], ["each"]) and noun(c) is not None:
        return Place(below=1)
    c.i = start
    return None


def side_of_post(c: Cursor, kind: str, found: Spot) -> str:
    """ "Dc around next dc from back": the stitch as it is called when it goes round the post; the cursor behind the side told."""
    k = 1 + (c.look().kind == "the")
    around = c.t[c.i - 1].kind in ("st", "noun", "post") and any(token.kind == "around" for token in c.t[max(0, c.i - 5) : c.i])
    if c.kind != "from" or not around or c.look(k).kind not in ("front", "back") or c.look(k + 1).kind in ("to", "of"):
        return kind
    if found.at.what == "ring" or kind[:2] in ("FP", "BP") or kind == "sl st":
        return kind
    side = "FP" if c.look(k).kind == "front" else "BP"
    c.i += k + 1
    return side + kind
