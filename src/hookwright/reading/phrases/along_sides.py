"""So many stitches along sides that are told by their length: "4 along each short side", "8 sc on the long sides", "8 sc per long side"."""

from __future__ import annotations

from ...pattern import ONE, Make, Place, Step
from .cursor import Cursor
from .numbers import number

EXAMPLES = (
    ("sc all round, 4 along each short side, 8 along each long side, 3 sc in each corner",
     "[4sc@row_end row, 3sc@row_end row, 8sc@row_end row, 3sc@row_end row]×2"),
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
