"""How a run of rows ends, told as a row and not as stitches: "ending with a wrong side row", "ending at front edge"."""

from __future__ import annotations

from ...pattern import Aside, Step
from .cursor import Cursor

EXAMPLES = (
    ("Repeat Row 2 until piece measures 12 inches, ending with a wrong side row", "as rows 2"),
    ("Repeat last 2 rows 4 times, ending with a 2nd row", "as last 2"),
    ("Repeat last 2 rows until piece measures 9 inches, ending with 2nd row but omitting the ch 3", "as last 2"),
    ("Repeat last 2 rows 4 times, ending last row without the ch 3", "as last 2"),
    ("Repeat Row 2 until there are 8 rows, ending last row with ch 1 instead of ch 3, turn", "as rows 2"),
    ("Work even until armhole measures 5 inches, ending at front edge", "even"),
)

_OMITTING = ("omit", "omitting", "leaving", "leave")
_ROWS = frozenset(("row", "rnd", "side", "sides", "opp"))
_SMALL = frozenset(
    """w idle the a o n sides patt front back side color of on at for last next center grp group in same as shaping base
    top inc dec even all opp""".split()  # noqa: SIM905
)


def _other_chain(c: Cursor) -> int | None:
    """Behind "(ending) last row with ch 1 instead of ch 4, turn": the token after it. Which chain the last of the rows ends with is asked
    for by the row that follows it."""
    k = c.i + (c.kind == "the")
    if c.t[k].kind != "last" or c.t[k + 1].kind not in ("row", "rnd"):
        return None
    if c.t[k + 2].kind == "without" or c.t[k + 2].text.lower() in _OMITTING:
        k += 3 + (c.t[k + 3].kind == "the")
        if c.t[k].kind not in ("ch", "tch"):
            return None
        k += 1 + (c.t[k + 1].kind == "-")
        k += c.t[k].kind == "n"
        return k if c.t[k].kind in (",", ".", ";", "", "(", ")") else None  # "ending last row without the ch 3"
    kinds = [t.kind for t in c.t[k + 2 : k + 5]]
    if kinds != ["with", "ch", "n"] or c.t[k + 5].text.lower() not in ("instead", "in", "rather"):
        return None
    k += 5
    while c.t[k].kind in ("in", "of", "the", "ch", "n", "idle", "usual") or c.t[k].text.lower() in ("instead", "rather", "place", "than"):
        k += 1
    k += 2 * (c.t[k].kind == "," and c.t[k + 1].kind == "turn") or (c.t[k].kind == "turn") or 0
    return k if c.t[k].kind in (",", ".", ";", "", "(", ")") else None


def ending_row(c: Cursor) -> list[Step] | None:
    """ "ending with a 2nd row", "finishing on wrong side", "ending at inside edge": where the run stops; asks for nothing."""
    start = c.i
    c.i += 1
    if (other := _other_chain(c)) is not None:
        c.i = other
        return [Aside(id=c.id(), span=c.span(start))]
    c.take("along")  # "ending up on a row 3"
    if not c.take("with", "at", "on", "in", "after", "by"):
        c.i = start
        return None
    found = False
    while c.kind in _SMALL or c.kind in _ROWS or (c.kind in ("st", "grp") and c.look().kind in _ROWS):
        found = found or c.kind in _ROWS or c.t[c.i].val in ("edge", "armhole", "colour", "color")
        c.i += 1
    chain_too = c.kind in ("and", "but") and c.look().text.lower() in _OMITTING  # "ending with 3rd row but omitting the ch 3"
    if not found or not (chain_too or c.kind in (",", ";", ".", "", ")", "]", "(")):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]
