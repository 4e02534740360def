"""The yarn and the place a round opens with, no verb said: "Green in any ch-2 space.", "Next color, any corner.", "New colour:"."""

from __future__ import annotations

from ...pattern import Aside, Colour, Place, Step
from .colours import NAMES
from .cursor import Cursor
from .places import spot

EXAMPLES = (
    ("Green in any ch-2 space. Ch 3, 2 dc in same space", "+Green:, ch3, 2dc@same sp"),
    ("Next color, any corner. Ch 3, 2 dc in same corner", "+next color:, ch3, 2dc@same corner"),
)

_NAMING = frozenset(("w", "next", "other", "o", "color", "idle"))
_STOPS = frozenset((".", ",", ":", ";", "-"))
_LONGEST = 4


def opened_in(c: Cursor) -> list[Step] | None:
    """A row's first words, where they are a yarn and the place it is joined in; None with the cursor unmoved.

    A word that nothing knows as a colour is one where "any" place is told behind it: nothing but yarn is joined so.
    """
    start = c.i
    if len(c.frames) > 1 or any(not isinstance(step, Aside) for step in c.out):
        return None
    c.take("with", "in")
    c.drop("a", "the")
    begin = c.i
    while c.kind in _NAMING and c.i - begin < _LONGEST:
        c.i += 1
    words = c.t[begin : c.i]
    shade = any(word.kind == "color" for word in words)
    named = bool(words) and (shade or (words[0].kind == "w" and words[0].text[:1].isupper()))
    if not named:
        c.i = start
        return None
    known = shade or words[-1].text.lower() in NAMES or words[-1].text.lower() in c.ctx.colours
    at = _place(c)
    closed = c.kind in _STOPS
    if not closed or (at is None and not (shade and c.kind in (".", ":"))) or not (known or at is not None):
        c.i = start
        return None
    if c.kind in (",", ":", "-"):
        c.i += 1
    letter = len(words[-1].text) == 1
    told = words[-1].text if letter else " ".join(word.text.lower() if shade else word.text for word in words)
    return [Colour(id=c.id(), span=c.span(start), yarn=told, join_in=at is not None, at=at)]


def _place(c: Cursor) -> Place | None:
    """ "in any ch-2 space", ", any corner"; None, unmoved, where "any" is not said."""
    begin = c.i
    c.take(",")
    c.take("in", "at")
    if c.kind == "any" and (found := spot(c, bare=True)) is not None:
        return found.at
    c.i = begin
    return None
