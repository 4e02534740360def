"""Markers: "place marker in last st", "mark the 1st, 7th and 13th st", "move marker up"."""

from __future__ import annotations

from ...pattern import Aside, Make, Step
from .cursor import Cursor
from .shaping_spots import SPOTS_OF_PIECES
from .spots import RUN_ENDS

EXAMPLES = (("sc in next st, place marker in last st, sc in next st", "sc, sc"),)

_PLACES = frozenset(("mark", "pm", "add", "pin", "put", "insert", "marking"))
_MOVES = frozenset(("move", "use", "sm", "remove", "moving"))
ONLY_MOVED = (0,)


def marker(c: Cursor) -> list[Step] | None:
    """Where a marker goes; one that is only moved up, taken out, or tells where rounds begin, asks for nothing."""
    start = c.i
    words = 0
    moved = False
    while words < 3 and c.kind in ("place", "w", "work", "a", "the", "st", "idle", "n") and c.kind != "marker":
        if c.kind == "w" and c.t[c.i].val not in _PLACES | _MOVES:
            break
        moved = moved or c.t[c.i].val in _MOVES
        c.i += 1
        words += 1
    if not (c.kind == "marker" or (c.i > start and c.t[c.i - 1].val in ("mark", "pm", "marking"))):
        c.i = start
        return None
    nths: list[int] = []
    bounds = False
    while c.kind not in RUN_ENDS or (c.kind == "," and (c.look().kind == "o" or (c.look().kind == "and" and c.look(2).kind == "o"))):
        if c.kind == "o" and isinstance(c.t[c.i].val, int):
            of_these = c.look().kind == "of" and c.look(2).kind == "the"
            these = c.look(3).val if of_these and c.look(3).kind == "n" else None
            nths.append(c.t[c.i].val - 1 - these if isinstance(these, int) else c.t[c.i].val)
        if c.kind == "center" and _of_the_piece(c):
            bounds = True  # "at center of toe": which stitch that is, the maker sees
        elif c.kind == "center":
            nths.append(-(_how_many(c) + 1) // 2)
        bounds = bounds or c.kind in ("beg", "row", "rnd", "around", "end", "each")
        c.i += 1
    told = tuple(nths) if nths and not moved and len(c.frames) == 1 else ONLY_MOVED if moved or bounds else ()
    return [Aside(id=c.id(), span=c.span(start), kind="marker", nths=told)]


def _of_the_piece(c: Cursor) -> bool:
    """Whether "center of toe", "center front" stands here: a spot of the piece, not the middle of stitches just made."""
    after = [t for t in c.t[c.i + 1 : c.i + 4] if t.kind not in ("of", "the")]
    return bool(after) and (after[0].text.lower() in SPOTS_OF_PIECES or after[0].kind in ("front", "back"))


def _how_many(c: Cursor) -> int:
    """Of how many stitches the middle one is meant: "center sc of the 3 sc just made", or those last told."""
    told = next((token.val for token in c.t[c.i + 1 : c.i + 6] if token.kind == "n"), None)
    last = c.out[-1] if c.out else None
    made = last.each.values[0] if isinstance(last, Make) else None
    return told if isinstance(told, int) else made or 1
