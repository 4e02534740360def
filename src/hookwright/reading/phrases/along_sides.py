"""So many stitches along sides that are told by their length: "4 along each short side", "8 sc on the long sides", "8 sc per long side";
and how those of a whole edge are shared out among its sides."""

from __future__ import annotations

from ...pattern import ONE, Aside, Make, Place, Sized, Step
from .cursor import Cursor
from .numbers import number

EXAMPLES = (
    ("sc all round, 4 along each short side, 8 along each long side, 3 sc in each corner",
     "[4sc@row_end row, 3sc@row_end row, 8sc@row_end row, 3sc@row_end row]×2"),
    ("work 240 s c around, making 60 s c on each side", "sc×240"),
    ("8 sc on the long sides and 4 on the short sides, with 3 sc in every corner",
     "[8sc@row_end row, 3sc@row_end row, 4sc@row_end row, 3sc@row_end row]×2"),
)  # fmt: skip
_LEADS = frozenset("along across on down up per for over in at".split())  # noqa: SIM905
_EACH = frozenset("each both all every the of two 2 per either".split())  # noqa: SIM905
_LENGTHS = frozenset("long longer short shorter".split())  # noqa: SIM905
_SIDES = frozenset("side sides edge edges end ends".split())  # noqa: SIM905
_ENDS = frozenset((",", ";", ".", "", "(", ")", "[", "and", "&", "with", "join", "=", "-", "*", "work"))


def along_sides(c: Cursor) -> list[Step] | None:
    """So many along each of two sides; None with the cursor unmoved."""
    start = c.i
    told = number(c)
    if told is None or told.many:
        c.i = start
        return None
    stitch: str | None = None
    if c.kind == "st" and c.t[c.i].val != "sl st" and c.t[c.i].text.lower() not in _LENGTHS:
        stitch = c.us(str(c.t[c.i].val))
        c.i += 1
    c.drop("noun", "even", "idle")
    if c.t[c.i].text.lower() in _LEADS and stitch is None:
        stitch = next((step.stitch for step in reversed(c.out) if isinstance(step, Make)), None)
    if c.t[c.i].text.lower() not in _LEADS or stitch is None:
        c.i = start
        return None
    c.i += 1
    first = c.i
    while c.t[c.i].text.lower() in _EACH | _LENGTHS:
        c.i += 1
    said = {token.text.lower() for token in c.t[first - 1 : c.i]}
    named = c.t[c.i].text.lower()
    if named == "top" and c.look().kind == "and":
        c.i += 1 + (c.look(2).kind == "the")  # "across top and bottom"
        named = c.look().text.lower()
        sure = named == "bottom"
    else:
        sure = named in _SIDES and bool(said & _LENGTHS) and bool(said & (_EACH - {"the", "of"}) or named.endswith("s"))
    if not sure:
        c.i = start
        return None
    c.i += 1 + (named == "bottom")
    if c.kind not in _ENDS:
        c.i = start
        return None
    return [Make(id=c.id(), span=c.span(start), stitch=stitch, each=told, places=ONE, at=Place(where="row_end", what="row"))]


def shared_by_sides(c: Cursor) -> list[Step] | None:
    """ "(Work 240 s c around,) making 60 s c on each side": a part of those just told that goes into their number without rest; None with
    the cursor unmoved."""
    start = c.i
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not isinstance(before, Make) or c.t[start - 1].kind not in (",", ";", "("):
        return None
    c.i += c.kind in ("work", "having", "with", "place") or c.t[c.i].text.lower() in ("allowing", "leaving")
    told = number(c)
    alike = c.kind == "noun" or (c.kind == "st" and c.us(str(c.t[c.i].val)) == before.stitch)
    c.i += alike
    if told is None or not alike or c.t[c.i].text.lower() not in _LEADS | {"to"}:
        c.i = start
        return None
    c.i += 1
    each = False
    while c.t[c.i].text.lower() in _EACH or c.kind in ("each", "n"):
        each = each or c.kind == "each" or c.t[c.i].text.lower() in ("both", "all")
        c.i += 1
    sides = c.t[c.i].text.lower() in _SIDES
    places = before.places.values if isinstance(before.places, Sized) else (0,)
    all_of, one = max(places[0] or 0, before.each.values[0] or 0), told.values[0] or 0
    shared = 0 < one < all_of and all_of % one == 0
    untold = before.places == "rest" and before.evenly and c.look().kind not in ("and", "with")  # ("28 sc on each side and 3 in …")
    if not (each and sides and (shared or untold)) or c.look().kind not in _ENDS:
        c.i = start
        return None
    c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]
