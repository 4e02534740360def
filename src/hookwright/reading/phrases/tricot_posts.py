"""Tunisian rows that name the uprights by number or by place: "pick up post 2, 3 and 4", "pull a loop through space before last post"."""

from __future__ import annotations

from ...pattern import ONE, Aside, Make, Place, Repeat, Sized, Step
from .cursor import Cursor
from .limits import limit
from .numbers import number
from .spots import CLAUSE, ZERO

EXAMPLES: tuple[tuple[str, str], ...] = ()
_POSTS = frozenset(("post", "bar", "noun"))
_ENDS = CLAUSE | {"and", "(", "only", "to", "until"}


def picked_up(c: Cursor) -> list[Step] | None:
    """ "Pick up post 2 and 3", "pick up and pull a loop through post 7, 8, 9 and 10", "pick up the remaining 3 posts", "pick up last post",
    "pick up all posts to within last 3 posts"; None with the cursor unmoved."""
    start = c.i
    if not c.ctx.passes:
        return None
    c.i += 1
    _drawn_through(c)
    made = _numbered(c, start) or _remaining(c, start)
    if made is None:
        c.i = start
        return None
    c.i += c.t[c.i].text.lower() == "only"
    return [made]


def in_gap(c: Cursor) -> list[Step] | None:
    """ "Pull a loop through space between 1st and 2nd posts", "increase 1 loop in space before last post": a loop more than there are
    posts; None with the cursor unmoved."""
    start = c.i
    if not c.ctx.passes:
        return None
    end = c.i
    while c.t[end].kind not in (*CLAUSE, "(", "*") and not (
        c.t[end].kind == "and" and c.t[end + 1].kind in ("in", "over", "under", "pull")
    ):
        end += 1
    words = c.t[start:end]
    at = next((k for k, token in enumerate(words) if token.kind in ("sp", "ch") and words[k - 1].kind != "n"), None)
    gap = at is not None and any(token.kind in ("between", "before", "after") for token in words[at:])
    posts = any(token.kind in ("post", "bar") or token.text.lower() in ("uprights", "upright") for token in words)
    if not gap or not posts or any(token.kind in ("each", "skip", "rep") for token in words):
        return None
    c.i = end
    return [Make(id=c.id(), span=c.span(start), stitch="tss", at=Place(where="hook"))]


def through_last(c: Cursor) -> list[Step] | None:
    """ "(Pull a loop through space before last post) and through last post": the verb goes on; None with the cursor unmoved."""
    start = c.i
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not c.ctx.passes or not isinstance(before, Make) or not before.stitch.startswith("tss"):
        return None
    c.i += 1
    c.take("the")
    if c.take("last") and c.take("post", "bar") and c.kind in (*CLAUSE, "(", "and"):
        return [Make(id=c.id(), span=c.span(start), stitch="tss", at=Place(where="last"))]
    c.i = start
    return None


def ends_on_last(c: Cursor) -> list[Step] | None:
    """ "… and in each bar across, ending with lp in last bar", "ending by drawing up a lp in end st and the one behind it": told of a run
    that goes to the end, it only says how; behind one that stops before, it is a stitch. None with the cursor unmoved."""
    start = c.i
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not c.ctx.passes or not isinstance(before, Make) or not before.stitch.startswith("tss"):
        return None
    c.i += 1
    if not c.take("with", "by"):
        c.i = start
        return None
    c.drop("pull", "pick", "insert", "along", "up", "a", "n", "the")
    loop = c.take("lp") is not None
    there = loop and c.take("in", "under", "over") is not None
    c.drop("the")
    if not there or not c.take("last", "end") or not (c.take(*_POSTS) or c.take("noun")):
        c.i = start
        return None
    while c.kind not in (*CLAUSE, "("):
        c.i += 1
    if before.places == "rest" and before.but == ZERO and not before.upto:
        return [Aside(id=c.id(), span=c.span(start))]
    return [Make(id=c.id(), span=c.span(start), stitch="tss", at=Place(where="last"))]


def _drawn_through(c: Cursor) -> None:
    """Past "and pull (a) loop through" between the verb and what it is drawn through."""
    begin = c.i
    c.take("and")
    if c.take("pull"):
        c.drop("a", "up", "lp")
        if c.take("over", "in", "under"):
            return
    c.i = begin


def _numbered(c: Cursor, start: int) -> Make | None:
    """ "Post 2, 3, 4 and 5": so many, one after another."""
    begin, many = c.i, 0
    if c.take("post", "bar"):
        while c.kind == "n" and isinstance(c.t[c.i].val, int):
            many += 1
            c.i += 1
            after = c.look(1 + (c.look().kind == "and"))
            if c.kind in (",", "and") and "n" in (c.look().kind, after.kind) and c.look().kind in ("n", "and"):
                c.drop(",", "and")
    if many and (c.kind in _ENDS or c.t[c.i].text.lower() == "only"):
        return Make(id=c.id(), span=c.span(start), stitch="tss", places=Sized((many,)))
    c.i = begin
    return None


def _remaining(c: Cursor, start: int) -> Make | None:
    """ "Remaining 3 posts", "all posts to within last 3 posts", "each post", "last post", "5 posts"."""
    c.take("the")
    last = c.take("last") is not None
    every = c.take("rem", "all", "each") is not None
    c.drop("the", "rem", "next")
    told = number(c)
    if not c.take(*_POSTS) or c.kind == "tog":
        return None
    if last:
        return Make(id=c.id(), span=c.span(start), stitch="tss", places=told or Sized((1,)), at=Place(where="last"))
    but = limit(c) if every and told is None else None
    if c.kind not in _ENDS or not (every or told):
        return None
    return Make(id=c.id(), span=c.span(start), stitch="tss", places=told or "rest", but=but or ZERO)


def closes_piece(c: Cursor) -> list[Step] | None:
    """ "Insert hook under both remaining posts, yarn over and pull through all loops on hook": the piece is closed; nothing is left on the
    hook. None with the cursor unmoved."""
    start = c.i
    ahead = [token.text.lower() for token in c.t[start : start + 6]]
    if not c.ctx.passes or not {"both", "all"} & set(ahead) or not {"remaining", "posts", "bars"} & set(ahead):
        return None
    end = c.i
    while c.t[end].kind not in (".", ";", "", "foff") and not (c.t[end].kind == "pull" and c.t[end + 1].kind == "over"):
        if c.t[end].kind in ("each", "rep", "*", "skip"):
            return None
        end += 1
    if c.t[end].kind != "pull" or c.t[end + 2].kind != "all" or c.t[end + 3].kind != "lp":
        return None
    c.i = end + 4
    c.drop("in", "hook")
    return [Aside(id=c.id(), span=c.span(start), kind="close")]


def to_shape(c: Cursor) -> list[Step] | None:
    """ "To decrease:", "to increase at both ends:": what the words behind it do; None with the cursor unmoved."""
    start = c.i
    c.i += 1
    if not c.ctx.passes or not c.take("dec", "inc"):
        c.i = start
        return None
    while c.kind in ("in", "at", "each", "both", "end", "ends", "side"):
        c.i += 1
    if not c.take(":"):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def closed_together(c: Cursor) -> list[Step] | None:
    """ "(Yo, insert hook under 6th post …, yo and pull through 2 loops, * …, repeat from * twice,) yarn over and pull through 4 loops": the
    stitches in one post drawn together as one; None with the cursor unmoved where not as many were made in it."""
    start = c.i
    if not c.ctx.passes or c.kind != "yo":
        return None
    c.i += 1
    c.drop(",", "and")
    told = number(c) if c.take("pull") and c.take("over") else None
    many = told.values[0] or 0 if told is not None and not told.many and c.take("lp") else 0
    out = c.out
    k, made, wanted = len(out), 0, {many, many - 1}
    while k and (step := out[k - 1]) is not None and (isinstance(step, Aside) or _tall(step) or _again(step)):
        k -= 1
        made += 0 if isinstance(step, Aside) else (step.times.number.values[0] or 0) if isinstance(step, Repeat) else 1
        if isinstance(step, Make) and step.at.where != "same":
            break
    first = out[k] if k < len(out) else None
    if many < 3 or made not in wanted or not isinstance(first, Make):
        c.i = start
        return None
    out[k:] = [Make(id=c.id(), span=first.span, stitch="cl", at=first.at)]
    return [Aside(id=c.id(), span=c.span(start))]


def _tall(step: Step) -> bool:
    return isinstance(step, Make) and step.stitch in ("hdc", "dc", "tr") and step.places == ONE and step.each == ONE


def _again(step: Step) -> bool:
    """The unit told again in the same post."""
    one = isinstance(step, Repeat) and step.times.kind in ("n", "more") and len(step.body) == 1
    return one and isinstance(step, Repeat) and _tall(step.body[0]) and isinstance(step.body[0], Make) and step.body[0].at.where == "same"
