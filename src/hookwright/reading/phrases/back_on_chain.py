"""A cord told as its chain and the way back: "Ch 110 and slip stitch back", "ch 80, then sc back along it", "ch 45, work back in sl st"."""

from __future__ import annotations

from ...pattern import Aside, Chain, Colour, Make, Place, Step, Turn
from .cursor import Cursor

EXAMPLES: tuple[tuple[str, str], ...] = ()
_FIRST = {"sl st": 2, "sc": 2, "hdc": 3, "dc": 4, "tr": 5, "dtr": 6}
"""The chain from the hook that each stitch customarily begins in (common practice, no source)."""
_LOW = frozenset(("sl st", "sc"))
"""Stitches before which one chain turns and nothing else is customary (common practice, no source)."""
_GOES = frozenset(("go", "going", "come", "coming", "return", "returning", "crochet", "crocheting"))
_ALONG = frozenset(("along", "across", "over", "to", "the", "ch", "beg", "end", "around", "idle", "all", "of", "back", "row", "on", "o"))
_ENDS = frozenset((",", ";", ".", "", ")", "]", "(", "[", "foff", "=", "-", "turn", "and", "leave", "then"))
NEAR = 8
"""Words within which "back" is told."""
SHORTEST = 8
"""A chain no longer than this that is slip-stitched "back to the start" is a ring (from memory)."""


def back_on_chain(c: Cursor) -> list[Step] | None:
    """A low stitch "back" on a foundation chain told alone: one in each chain from the second; None with the cursor unmoved."""
    start = c.i
    if not any(token.kind == "back" for token in c.t[start : start + NEAR]):
        return None
    told = [step for step in c.out if not isinstance(step, (Aside, Colour, Turn))]
    chain = told[-1] if told else None
    spur = len(told) > 1 and isinstance(chain, Chain) and (chain.number.values[0] or 0) > 2
    founded = len(told) == 1 and isinstance(chain, Chain) and chain.foundation and (chain.number.values[0] or 0) > SHORTEST
    if not spur and (len(c.frames) > 1 or not founded):
        return None
    c.i += c.kind == "work" or c.t[c.i].text.lower() in _GOES
    c.drop("the", "idle", "around") if c.kind != "back" else None
    stitch = c.take("st") if c.kind == "st" else None
    c.drop("idle", "around", "across")
    if not c.take("back"):
        c.i = start
        return None
    if stitch is None and c.take("in", "with"):
        stitch = c.take("st")
    while c.kind in _ALONG or c.t[c.i].text.lower() in ("length", "whole", "entire", "chain", "it"):
        c.i += 1
    if stitch is None and c.take("in", "with"):
        c.drop("a", "idle")
        stitch = c.take("st")
        c.drop("noun")
    named = any(token.kind == "ch" for token in c.t[start : c.i])
    kind = c.us(str(stitch.val)) if stitch is not None else ""
    along = named or any(token.text.lower() == "it" for token in c.t[start : c.i])  # "work back in dc": may be told of another row
    if kind not in (_FIRST if along and not spur else _LOW) or c.kind not in _ENDS or (spur and not named):
        c.i = start
        return None
    span = c.span(start)
    first = Make(id=c.id(), span=span, stitch=kind, at=Place(where="from_hook", what="ch", nth=_FIRST[kind]))
    return [first, Make(id=c.id(), span=span, stitch=kind, places="rest", at=Place(what="ch"))]


def and_down(c: Cursor, *, led_in: bool = False) -> bool:
    """Past "(sl st in 2nd ch from hook and) back down the chain", "down the ch", "the rest of the ch", "along the cord", where the row has
    just made that chain (and, unless `led_in` from it, a stitch in it); False with the cursor unmoved."""
    chain = next((step for step in reversed(c.out) if not isinstance(step, (Aside, Turn, Make))), None)
    from_hook = led_in or c.t[c.i].kind != "along" or any(isinstance(step, Make) and step.at.where == "from_hook" for step in c.out[-1:])
    if not isinstance(chain, Chain) or not from_hook:
        return False
    start = c.i
    c.take("back")
    led = c.take("along", "across", "to", "over", "in") is not None or c.t[c.i - 1].kind == "back"
    c.drop("the", "idle", "all", "of")
    rest = c.t[c.i].text.lower() in ("rest", "remainder", "length") or c.kind == "rem"
    c.i += rest
    c.drop("of", "the", "idle")
    named = c.take("ch") is not None or c.t[c.i].text.lower() in ("cord", "tie", "stem", "tail", "spike")
    c.i += c.t[c.i - 1].kind != "ch" and named
    if not named or not (led or rest) or c.kind not in _ENDS or (c.t[c.i - 1].kind == "ch" and c.kind == "-"):
        c.i = start
        return False
    return True


def stands_on(c: Cursor) -> bool:
    """Past "the hdc2tog", "top of sc3tog", where that is the stitch of this row that the chain just worked back on stands on; False with
    the cursor unmoved."""
    start = c.i
    c.drop("the", "top", "of", "same")
    made = c.take("st")
    closes = c.take("n") if made is not None else None
    if made is None or closes is None or not c.take("tog"):
        c.i = start
        return False
    chains = [k for k, step in enumerate(c.out) if isinstance(step, Chain)]
    before = c.out[chains[-1] - 1] if chains and chains[-1] else None
    name = f"{c.us(str(made.val))}{closes.val}tog"
    beyond = chains and any(
        isinstance(step, Make) and step.at.where != "from_hook" and step.at.what != "ch" for step in c.out[chains[-1] :]
    )
    if not isinstance(before, Make) or before.stitch != name or beyond:
        c.i = start
        return False
    c.drop("idle")
    c.i += c.t[c.i].text.lower() in ("made", "worked")
    return True
