"""A row in one loop whose edge stitches go through both: "sc in back loops across, working the last stitch through both loops"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, ZERO, Aside, Make, Place, Step
from .cursor import Cursor

EXAMPLES = (
    ("sc in back loop only across, working the last stitch through both loops", "sc×rest−1@next st/back, sc"),
    (
        "sc BLO in each st, except first and last stitch which are worked in both loops",
        "sc, sc×rest−1@next st/back, sc",
    ),
    ("hdc in BLO across, placing last hdc under both loops", "hdc×rest−1@next st/back, hdc"),
    ("sc in back loops across, going under both loops of the last st", "sc×rest−1@next st/back, sc"),
)
_KINDS = frozenset(
    ("st", "noun", "the", "a", "and", "in", "over", "around", "under", "work", "idle", "with", "loop", "but", "last", "of", "o", ",", ";")
)
_SAID = frozenset(
    (
        "placing", "taking", "making", "going", "made", "through", "thru", "under", "for", "neat", "neater", "straight", "edge", "edges",
        "is", "are", "which", "that", "worked", "always", "insert", "inserting", "hook", "usual", "crocheted", "crocheting", "except", "so",
        "it", "they", "both", "first", "1st", "one",
    )
)  # fmt: skip
_LONGEST = 18


def edges_in_both(c: Cursor) -> list[Step] | None:
    """What the clause at the cursor tells of the run just read: its first or last stitch goes through both loops. None, unmoved, for
    other clauses."""
    at = next((k for k in range(len(c.out) - 1, -1, -1) if not isinstance(c.out[k], Aside)), None)
    run = c.out[at] if at is not None else None
    if at is None or not isinstance(run, Make) or run.places != "rest" or run.at.loop not in ("back", "front"):
        return None
    if run.but != ZERO or run.upto:
        return None
    start, k, bracket = c.i, c.i, c.kind == "("
    k += c.kind == ";"
    k += bracket
    ends = (")",) if bracket else (".", ";", "", ")", "turn")
    while c.t[k].kind not in ends and k - start < _LONGEST:
        token = c.t[k]
        told = token.kind in _KINDS or token.text.lower() in _SAID
        if not told or (token.kind == "st" and c.us(str(token.val)) != run.stitch):
            return None
        k += 1
    words = [token.text.lower() for token in c.t[start:k]]
    both = any(token.kind == "loop" and token.val == "both" for token in c.t[start:k])
    first, last = bool({"first", "1st"} & set(words)), "last" in words
    if c.t[k].kind not in ends or not both or not (first or last):
        return None
    c.i = k + bracket
    edge = replace(run, places=ONE, at=replace(run.at, loop="both") if run.at.what != "st" else Place())
    c.out[at : at + 1] = [
        *([replace(edge, id=c.id())] if first else ()),
        replace(run, but=ONE) if last else run,
        *([replace(edge, id=c.id(), span=c.span(start))] if last else ()),
    ]
    return [Aside(id=c.id(), span=c.span(start))]
