"""How far a run goes when its end is a place: "to corner", "to next ch-2 sp", "to center st of 3-sc corner", "to 1 st before corner"."""

from __future__ import annotations

from ...pattern import Sized
from .cursor import Cursor
from .nouns import noun
from .numbers import number
from .spots import CLAUSE, ZERO

EXAMPLES = (
    ("sc in each st to next corner", "sc×rest to corner"),
    ("dc in each dc across to next ch-2 sp", "dc×rest to ch-2 sp@next dc"),
    ("sc in each sc to center sc of next corner", "sc×rest to center@next sc"),
    ("*dc in next st, ch 1, skip 1 st; rep from * to corner", "[dc, ch1, skip]×to corner"),
    ("sc to center st, 3 sc in same, sc to end", "sc×rest to center, 3sc@next st#0, sc×rest"),
    ("*ch 2, skip 2 dc, dc in next dc; rep from * to center dc at point", "[ch2, skip2 dc, dc@next dc]×to center"),
    ("dc in each st until 1 st before next corner", "dc×rest−1 to corner"),
    ("sc in each sc to within center sc of next 3-sc group", "sc×rest to center@next sc"),
    ("dc in each dc to 3rd dc of the group of 5 dc", "dc×rest to center@next dc"),
)

_POINTED = frozenset((",", ";", ".", "", "(", "["))
_REACHING = frozenset(("reach", "reaching", "you", "come", "get", "up", "within", "just", "very"))
_GROUPS = frozenset(("group", "grp", "corner", "inc", "shell"))


def upto(c: Cursor) -> tuple[str, Sized[int]] | None:
    """From "to"/"until": the kind of place the run goes up to, and how many stitches before it; None with the cursor unmoved."""
    start = c.i
    if c.kind not in ("to", "until"):
        return None
    c.i += 1
    while c.kind in ("the", "idle", "to") or (c.kind in ("w", "in") and c.t[c.i].val in _REACHING):
        c.i += 1
    before = _before(c)
    c.drop("the", "idle", "to")
    next_said = c.kind in ("next", "each", "any", "same") or (c.kind == "o" and c.t[c.i].val == 1)
    if next_said:
        c.i += 1
    what = _what(c, next_said)
    if what is None:
        c.i = start
        return None
    return what, before


def _before(c: Cursor) -> Sized[int]:
    """ "2 sts before", "1 stitch from"."""
    start = c.i
    told = number(c) if c.kind == "n" else None
    named = told is not None and noun(c) is not None
    if named and (c.kind in ("counts", "rem") or c.t[c.i].text.lower() in ("are", "is")):
        c.drop("counts", "rem", "idle")  # "until 1 st is left before the corner"
        c.i += c.t[c.i].text.lower() == "are"
        c.drop("rem")
    if told is not None and named and c.kind in ("before", "from", "of"):
        c.i += 1
        return told
    c.i = start
    return ZERO


def _what(c: Cursor, next_said: bool) -> str | None:
    if c.kind == "center":
        return _center(c)
    if c.kind == "o" and (middle := _middle_of_group(c)) is not None:
        return middle
    if c.kind == "top" and c.t[c.i].text.lower() == "point" and c.look().kind in _POINTED:
        c.i += 1
        return "corner"  # "d c in each d c to next point": where a cape turns
    left = c.look(3).kind == "rem" and c.look(2).text.lower() in ("are", "is", "still")
    if c.kinds("n", "ch") and (left or c.look(2).kind in ("rem", "before", "from", "of")):
        return None  # "until 2 ch remain": so many chains, and no space
    if c.kind == "marker":
        c.drop("marker", "st", "sp", "noun")
        return "marker"
    if c.kinds("corner", "ch", "n"):
        c.i += 1
        return f"{noun(c, chains=True)} sp"  # "to 1st corner ch 1"
    if c.kind == "corner" or (c.kind in ("n", "ch", "sp", "lp", "mesh") and is_space_ahead(c)) or (next_said and c.kind == "grp"):
        found = noun(c)
        if found is not None and (found == "corner" or found.endswith("sp") or next_said):
            c.drop("sp")
            _at_which(c)
            return found
    if c.kind == "n" and _rounded(c):
        return "center"
    return None


def _at_which(c: Cursor) -> None:
    """Past "at point", "at front", "of next corner": which of them it is."""
    begin = c.i
    if c.kind in ("at", "of", "in"):
        c.i += 1
        c.drop("the", "next", "same", "other", "each")
        if (c.kind in ("corner", "front", "back", "center") or c.t[c.i].text.lower() == "point") and c.look().kind in _POINTED:
            c.i += 1
            return
    c.i = begin


def is_space_ahead(c: Cursor) -> bool:
    """ "ch-2 sp", "ch sp", "2-ch loop", "space": a chain alone is no end of a run."""
    begin = c.i
    found = noun(c)
    c.i = begin
    return found is not None and (found == "corner" or found.endswith("sp"))


def _center(c: Cursor) -> str | None:
    """ "center st", "middle sc of 3-sc corner", "center 2 dc"."""
    start = c.i
    c.i += 1
    what = noun(c)
    if what is None and c.t[start + 1].kind != "corner":
        begin = c.i
        _at_which(c)
        if c.kind in CLAUSE or c.i > begin:
            return "center"  # "rep from * to center, …"
        c.i = start
        return None
    if what is not None and what.endswith("sp"):
        return f"center {what}"
    begin = c.i
    if c.take("of"):
        c.drop("the", "next", "each", "a")
        if not (_rounded(c) or _of_so_many(c) or noun(c) is not None):
            c.i = begin
    _at_which(c)
    return "center"


def _middle_of_group(c: Cursor) -> str | None:
    """ "(to) 2nd sc of next 3-sc group", "the third dc of the group of 5": the middle one of them; None with the cursor unmoved."""
    start = c.i
    nth = c.t[start].val
    c.i += 1
    named = noun(c) is not None
    if named and c.kind in ("of", "in"):
        c.i += 1
        c.drop("the", "next", "each", "a")
        at = next((k for k in range(c.i, c.i + 4) if c.t[min(k, len(c.t) - 1)].kind == "n"), c.i)
        if c.t[at].kind == "n" and 2 * nth - 1 == c.t[at].val and (_rounded(c) or _of_so_many(c)):
            return "center"
    c.i = start
    return None


def _of_so_many(c: Cursor) -> bool:
    """ "(the) group of 3 sc", "corner of 5 dc"; False with the cursor unmoved."""
    start = c.i
    if c.kind in _GROUPS and c.look().kind == "of" and c.look(2).kind == "n":
        c.i += 3
        c.take("st", "noun")
        if c.kind in _POINTED or c.kind == "of":
            return True
    c.i = start
    return False


def _rounded(c: Cursor) -> bool:
    """ "3-sc corner", "3 sc group", "5-dc corner": the stitches made in one place of the row below."""
    start = c.i
    if c.kind == "n":
        c.i += 1
        c.take("-")
        if c.kind in ("st", "noun"):
            c.i += 1
            c.take("-")
            if c.kind in _GROUPS:
                c.i += 1
                return True
    c.i = start
    return False
