"""Work along an edge that nobody counted: "work 74 s c around armhole", "2 rows of s c around each armhole"."""

from __future__ import annotations

from itertools import pairwise

from ...pattern import ONE, Aside, Make, Place, Repeat, Sized, Step
from ..wording.token import Token
from .cursor import Cursor
from .numbers import number
from .row_end_places import along_row_ends

EXAMPLES = (
    ("Work 74 sc around armhole", "74sc@row_end row"),
    ("Work 36 sc evenly along top edge", "36sc@row_end row"),
    ("Work 1 row of sc around each armhole", "sc×rest@row_end row evenly"),
    ("Work one row of sc around entire outer edge, join", "sc×rest@row_end row evenly, join"),
    ("Sc around neck opening", "sc×rest@row_end row evenly"),
    ("Work 1 row of sc on 3 remaining sides", "sc×rest@row_end row evenly"),
    ("Work a round of dc around the outer edge", "dc×rest@row_end row evenly"),
    ("Sc evenly along other three sides", "sc×rest@row_end row evenly"),
    ("Work 90 sc evenly along one long side", "90sc@row_end row"),
)

_EDGES = frozenset("""
    armhole armholes neck neckline edge edges opening openings brim cuff cuffs sleeve sleeves hem collar side sides afghan blanket pocket
    pockets tie hoop elastic headband hairband wire frame thumb waist waistline foot ankle seam seams shawl scarf jacket sweater border rug
    cloth dishcloth washcloth towel square rectangle panel pouch bag coaster placemat potholder
    mat outside underarm underarms shoulder ribbing rib band headband""".split())  # noqa: SIM905  # fmt: skip
_WORDS = frozenset("""
    the a idle w all each both any o of and front back side top base rem piece opp end ends corner center beg other free work last same
    next group""".split())  # noqa: SIM905  # fmt: skip
_PREPS = frozenset(("around", "along", "across", "over", "at", "in", "up", "down", "to", "from", "on"))
_ENDS = frozenset((",", ";", ".", "", ")", "]", "(", "[", "join", "with", "having", "work", "turn", "for", "until", "foff", "=", "-", ":"))
REACH = 9
"""How many words a description of an edge may have."""


def edge(c: Cursor) -> bool:
    """Pass over "around (the) entire outer edge", "along neck edge of right front"; False with the cursor unmoved."""
    start = c.i
    if c.kind not in _PREPS:
        return False
    found = False
    while c.kind in _PREPS and c.i - start < 3:
        c.i += 1
    first = c.i
    while (c.kind in _WORDS or c.kind in _PREPS or _tells_a_side(c) or _so_many_sides(c)) and c.i - first < REACH:
        if c.kind == "and" and c.look().kind in ("work", "n", "st", "ch", "join", "turn", "foff"):
            break
        if c.kind == "work" and c.look().kind == "n":
            break  # "around the cloth putting 3 sc in each corner"
        if c.kind == "side" and c.look().kind == "of" and c.look(2).kind in ("ch", "beg", "st"):
            break  # the other side of a chain has places of its own
        if c.t[first - 1].kind == "in" and c.t[c.i].text.lower() == "opening" and c.t[c.i - 1].kind in ("each", "next"):
            break  # "1 dc in every opening" of open work
        found = found or c.kind == "side" or c.t[c.i].text.lower() in _EDGES or _half_front(c) or _tells_a_side(c)
        found = (
            found
            or ((c.kind == "opp" or _far_edge(c)) and _goes_round_piece(c))
            or (c.kind == "piece" and not c.ctx.rounds and c.t[first - 1].kind == "around")
        )
        c.i += 1
    one_of_them = c.t[c.i - 1].kind in ("last", "next", "o", "each", "corner", "end")  # "3 sc in last ch": a corner
    if not found and c.kind == "ch" and not one_of_them and _goes_round_piece(c) and c.look().kind in _ENDS | {"and"}:
        c.i += 1
        found = True
    if found and c.kind in ("row", "rnd") and c.t[c.i - 1].kind in ("of", "the"):
        c.i += 1  # "along edge of rows"
    if found and (c.kind in _ENDS or c.kind == "and"):
        return True
    c.i = start
    return False


def _half_front(c: Cursor) -> bool:
    """ "(down the) left front", "(across the) back neck": part of a garment's edge."""
    return c.kind in ("front", "back") and (c.t[c.i - 1].text.lower() in _SIDES or c.look().text.lower() in _EDGES)


_SIDES = frozenset(("left", "right", "center", "centre"))


def of_an_edge(c: Cursor) -> bool:
    """Pass over "of thumb opening", "on the bottom edge" behind a place; False with the cursor unmoved."""
    start = c.i
    if c.kind not in ("of", "on", "at", "along"):
        return False
    c.i += 1
    found = False
    while c.kind in _WORDS and c.kind not in ("and", "work", "join") and c.i - start < 6:
        found = found or c.t[c.i].text.lower() in _EDGES
        c.i += 1
    if found and (c.kind in _ENDS or c.kind == "and"):
        return True
    c.i = start
    return False


def _tells_a_side(c: Cursor) -> bool:
    """Whether the word at the cursor tells one of several edges: "one long side", "the short end", "straight edge"."""
    here, after = c.t[c.i].text.lower(), c.look().text.lower()
    named = after.startswith(("side", "end", "edge"))
    return (named and here in ("one", "long", "short", "straight")) or (here == "one" and after in ("long", "short"))


def _so_many_sides(c: Cursor) -> bool:
    """Whether the number at the cursor counts sides: "the other three sides", "on 3 remaining sides"."""
    after = c.look(2) if c.look().kind in ("rem", "o", "other") else c.look()
    return c.kind == "n" and after.kind == "side"


def _far_edge(c: Cursor) -> bool:
    """ "(Sc across) bottom", "(along the) top": the edge there, with nothing more told of it."""
    before = c.t[c.i - 1 - (c.t[c.i - 1].kind == "the")].kind
    return c.t[c.i].text.lower() in ("top", "bottom") and before in ("across", "along") and c.look().kind in _ENDS


def _goes_round_piece(c: Cursor) -> bool:
    """Whether row ends were worked before: "the foundation chain" and "the other side" are then the piece's next sides."""
    return any(isinstance(step, Make) and step.at.where == "row_end" for step in c.out)


def long_row(c: Cursor) -> bool:
    """Pass over "of last long row", "on the long row", "left free on last row": the row that was divided."""
    start = c.i
    c.drop("free", "unworked", "rem")
    if c.take("of", "on", "in", "from"):
        c.drop("the", "last", "prev")
        long = c.kind == "st" and c.t[c.i].val == "long"
        c.i += long
        if c.kind in ("row", "rnd") and c.look().kind != "n" and (long or c.t[c.i - 1].kind in ("last", "prev")):
            c.i += 1
            return True
    c.i = start
    return False


def edge_run(c: Cursor) -> list[Step] | None:
    """ "74 sc around armhole", "2 rows of sc around each armhole", "sc evenly along edge": stitches whose places nobody counted."""
    start = c.i
    c.take("work")
    told = number(c) if c.kind == "n" else None
    if told is None and c.kind == "a":
        c.i += 1
    c.drop("more", "idle")
    rows = bool(c.take("row", "rnd") or (c.look().kind == "of" and c.t[c.i].text.lower() == "round" and c.take("around")))
    if rows:
        c.take("of")
    if c.kind != "st" or c.t[c.i].val == "sl st":
        c.i = start
        return None
    stitch = c.us(str(c.t[c.i].val))
    c.i += 1
    told = number(c) if told is None and c.kind == "n" and c.t[start].kind == "st" else told  # "sc 30 around the edge"
    c.drop("noun", "idle")
    evenly = bool(c.take("even"))
    c.drop("idle")
    if not (edge(c) or (rows and along_row_ends(c))) or (
        told is None and not rows and not evenly and c.t[start].kind not in ("work", "st")
    ):
        c.i = start
        return None
    along = Place(where="row_end", what="row")
    ends = next((k for k in range(start + 1, c.i) if c.t[k].kind == "ends"), 0)
    if told is not None and not rows and _in_each_along(c.t[start : c.i]):
        c.i = start
        return None
    if told is not None and not rows and ends and (any(w in str(c.t[ends].val) for w in ("each", "every")) or c.t[ends - 1].kind == "each"):
        c.i = start
        return None  # "2 sc in end of each row along side": so many in each of them
    if told is not None and not rows:
        _explained(c)
        return [Make(id=c.id(), span=c.span(start), stitch=stitch, each=told, places=ONE, at=along)]
    if rows and told is not None and told != ONE:
        c.told.setdefault("rows_count", told)
    return [Make(id=c.id(), span=c.span(start), stitch=stitch, each=Sized((1,)), places="rest", at=along, evenly=True)]


def _in_each_along(words: list[Token]) -> bool:
    """ "3 sc in each square along all four sides": so many in each of what lies along the edge."""
    each = next((k for k, t in enumerate(words) if t.kind == "each" and k and words[k - 1].kind == "in"), None)
    return each is not None and any(t.kind in ("along", "across", "around", "on", "up", "down") for t in words[each + 2 :])


def other_sides(c: Cursor) -> list[Step] | None:
    """ "Work the other 3 sides to correspond", "work remaining sides in same way": the round goes on where nobody counted."""
    start = c.i
    again = c.kind == "rep"
    if not c.take("work", "rep") and c.t[c.i].text.lower() not in ("complete", "finish"):
        return None
    c.i += c.i == start
    if again and c.kind not in ("in", "for", "along", "across", "around", "over"):
        c.i = start
        return None
    while c.kind in _TO_SIDES or c.t[c.i].text.lower() in ("short", "long"):
        c.i += 1
    if c.i == start + 1 or not (c.kind in ("side", "corner", "opp") or c.t[c.i].text.lower() in _EDGES):
        c.i = start
        return None
    before = [t.kind for t in c.t[start + 1 : c.i]]
    c.i += 1
    if not ({"other", "rem", "n", "o"} & set(before) or c.t[c.i - 1].kind == "opp") or not any(
        isinstance(step, (Make, Repeat)) for step in c.out
    ):
        c.i = start
        return None
    alike = again
    while c.kind in ("to", "in", "the", "same", "as", "idle", "w", "like") or (
        alike and c.kind in ("along", "o", "beg", "side", "for", "on", "corner")
    ):
        said = c.t[c.i].val in ("correspond", "match", "correspondingly", "same-way") or c.t[c.i].text.lower() in _ALIKE
        alike = alike or c.kind == "same" or said
        c.i += 1
    if not alike or c.kind not in _ENDS:
        c.i = start
        return None
    stitch = c.ctx.main or "sc"
    return [Make(id=c.id(), span=c.span(start), stitch=stitch, places="rest", at=ON_THE_EDGE, evenly=True)]


def gone_round(c: Cursor) -> list[Step] | None:
    """ "(Sc in each st along top, 2 sc in each row end,) continue in this way all around": an edging goes on as it began, and no row before
    it is meant. None with the cursor unmoved."""
    start = c.i
    verb = c.kind == "cont" or c.t[c.i].text.lower() in ("go", "proceed", "carry", "keep")
    if not verb or not start or c.t[start - 1].kind not in (",", ";", "and", "then") or not any(map(_along_edge, c.out)):
        return None
    c.i += 1
    alike = limit = False
    while c.kind in _GOES_ROUND or c.t[c.i].text.lower() in _LIKE_THIS | _EDGES | _WHOLE:
        alike = alike or c.kind == "same" or c.t[c.i].val == "same-way" or c.t[c.i].text.lower() in _LIKE_THIS
        limit = limit or c.kind in ("around", "across", "end", "side", "beg") or c.t[c.i].text.lower() in _EDGES
        c.i += 1
    if not alike or not limit or c.kind not in _ENDS:
        c.i = start
        return None
    return [Make(id=c.id(), span=c.span(start), stitch=c.ctx.main or "sc", places="rest", at=ON_THE_EDGE, evenly=True)]


def _along_edge(step: Step) -> bool:
    """Stitches along an edge, or in every stitch of one."""
    return isinstance(step, Make) and step.upto in ("", "corner") and (step.places == "rest" or step.at.where == "row_end")


_GOES_ROUND = frozenset(
    "in the same as idle all around across to end beg side other rem n along each on work from back of row rnd piece".split()  # noqa: SIM905
)
_WHOLE = frozenset(("entire", "whole", "outer"))
_ALIKE = frozenset(("alike", "likewise", "similarly", "like"))
_LIKE_THIS = _ALIKE | frozenset("this that manner way fashion thus so".split())  # noqa: SIM905
_TO_SIDES = frozenset("the all other rem next n o along across around over in for idle".split())  # noqa: SIM905


def extra_at_corners(c: Cursor) -> list[Step] | None:
    """ "Working 2 extra dc at every corner" after runs along the sides: so many more at each of the corners between them; "along
    all four sides" tells by itself how many there are."""
    start = c.i
    sides = sum(isinstance(step, Make) and step.stitch != "sl st" for step in c.out)
    if not c.take("work", "having", "with") or not any(isinstance(s, Make) and s.at.where == "row_end" for s in c.out):
        c.i = start
        return None
    first = c.i
    told = number(c)
    if told is not None and c.kind == "st" and [c.look(k).kind for k in (1, 2, 3)] == ["in", "each", "corner"]:
        kind = c.us(str(c.t[c.i].val))  # "28 sc on each side, with 3 sc in each corner"
        c.i += 4
        return [Make(id=c.id(), span=c.span(first), stitch=kind, each=told, places="rest", at=Place(what="corner"))]
    if told is None or told.many or not c.take("more") or c.kind != "st":
        c.i = start
        return None
    stitch = c.us(str(c.t[c.i].val))
    c.i += 1
    if sides == 1:
        sides = next(
            (int(t.val) for t, side in pairwise(c.t[:start]) if t.kind == "n" and side.kind == "side" and isinstance(t.val, int)), 1
        )
    if not (c.take("in", "at") and c.take("each", "all") and c.take("corner")) or c.kind not in _ENDS or not 2 <= sides <= MOST_SIDES:
        c.i = start
        return None
    each = Sized(((told.values[0] or 0) * sides,))
    return [Make(id=c.id(), span=c.span(start), stitch=stitch, each=each, places=ONE, at=ON_THE_EDGE)]


ON_THE_EDGE = Place(where="row_end", what="row")
MOST_SIDES = 8
"""Sides, at most, that a piece worked round side after side may have."""


def _explained(c: Cursor) -> None:
    """Pass over "(1 sc in each row end)", "(about 2 dc per row)": how so many come to lie along the edge."""
    close = c.close.get(c.i)
    if close is None or c.kind != "(":
        return
    inner = c.t[c.i + 1 : close]
    if any(t.kind == "st" for t in inner) and any(t.kind in ("row", "ends", "side", "each") or t.val in ("per", "every") for t in inner):
        c.i = close + 1


def facing(c: Cursor) -> list[Step] | None:
    """ "With right side facing", "with wrong side toward you": how the work is held."""
    start = c.i
    if not c.take("with", "from", "on", "having", "in"):
        return None
    c.drop("the", "a")
    c.drop("idle") if c.look().kind in ("side", "sides") else None
    same = c.kind == "same" and c.look().kind == "side"  # "with same side of last long row toward you"
    if not same and c.kind != "sides" and not (c.kind == "side" and c.t[c.i - 1].val in ("right", "wrong")):
        c.i = start
        return None
    while c.kind not in (",", ";", ".", "", "(", ")"):
        if c.kind in ("ch", "foff", "join", "attach", "skip") or (c.kind == "n" and c.look().kind in ("st", "ch")):
            break
        if c.kind == "and" and c.look().kind == "work" and c.look(2).kind == "in":
            break  # "with right side facing and working in free loops of beginning ch"
        if c.kind == "work" and c.look().kind in ("n", "st", "a") and c.t[c.i - 1].kind not in ("of", "the"):
            break  # "with right side toward you work 64 (66, 68) sc around neck edge"
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]
