"""Posts on both sides of a stitch: "FPtr2tog around the posts before and after next sc", "… around the post on either side of next sc"."""

from __future__ import annotations

from ...pattern import Place
from .cursor import Cursor
from .nouns import noun

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


__all__ = ["posts_beside"]
