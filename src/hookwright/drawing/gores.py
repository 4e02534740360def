"""Gores: rounds that close again (a ball, a toy's head) are drawn as a peeled skin, each sector narrowing to its point.

A flat circle has more and more room for fewer and fewer stitches. Spread evenly, the legs of the stitches worked together would grow as
long as the gaps; so from the last increase on, stitches keep together in as many sectors as there are decreases in a round, and the
circle opens between them. No stitch stands on two sectors: they are traced from the closing round down.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from .cloth import Line

CLOSES = 0.75
"""Of the widest round: a piece whose last rounds hold no more than this closes."""
FEWEST, MOST = 3, 12


def find_gores(lines: Sequence[Line]) -> list[frozenset[int]]:
    """For every line the posts after which (in worked order) the circle opens; all empty for a piece that does not close."""
    none: list[frozenset[int]] = [frozenset() for _ in lines]
    rounds = [line for line in lines if line.posts and not line.foundation]
    if len(rounds) < 3:
        return none
    first_widest = max(range(len(rounds)), key=lambda k: (len(rounds[k].posts), -k))
    closing = min(range(first_widest, len(rounds)), key=lambda k: (len(rounds[k].posts), k))
    # What opens again beyond the narrowest round (a fish's tail, a neck) may be as wide as the widest before it.
    widest = max(range(first_widest, closing + 1), key=lambda k: (len(rounds[k].posts), k))
    if len(rounds[closing].posts) > CLOSES * len(rounds[widest].posts) or any(line.runs for line in rounds[widest : closing + 1]):
        return none
    owner = _sectors(rounds, widest, closing)
    first = next((k + 1 for k in range(closing, 0, -1) if len(rounds[k].posts) > len(rounds[k - 1].posts)), 1)
    for k in range(min(first, widest + 1), len(rounds)):
        mine, posts = owner[k], rounds[k].posts
        none[rounds[k].index] = frozenset(a for a, b in pairwise([*posts, posts[0]]) if mine[a] != mine[b])
    return none


def _sectors(rounds: Sequence[Line], widest: int, closing: int) -> list[dict[int, int]]:
    """The sector of every post: counted off in the closing round, and from there what stands on one another belongs together."""
    n = len(rounds[closing].posts)
    decreases = Counter(sum(1 for post in line.posts if len(line.feet[post]) > 1) for line in rounds[widest + 1 : closing + 1])
    usual = max((each for each in decreases if FEWEST <= each <= MOST), key=lambda each: (decreases[each], -each), default=min(n, 6))
    sectors = max(1, min(usual, n))
    owner: list[dict[int, int]] = [{} for _ in rounds]
    owner[closing] = {post: j * sectors // n for j, post in enumerate(rounds[closing].posts)}
    for k in range(closing, 0, -1):
        below = {foot.at: owner[k][post] for post in rounds[k].posts for foot in rounds[k].feet[post] if foot.line == rounds[k - 1].index}
        owner[k - 1] = _carried(rounds[k - 1].posts, below)
    for k in range(closing + 1, len(rounds)):
        line = rounds[k]
        above = {post: owner[k - 1][foot.at] for post in line.posts for foot in line.feet[post][:1] if foot.at in owner[k - 1]}
        owner[k] = _carried(line.posts, above)
    return owner


def _carried(posts: Sequence[int], known: dict[int, int]) -> dict[int, int]:
    """Posts that nothing stands on belong where their neighbour before them does."""
    last = next((known[post] for post in reversed(posts) if post in known), 0)
    out = {}
    for post in posts:
        last = known.get(post, last)
        out[post] = last
    return out
