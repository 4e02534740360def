"""The place passed over, told by how the hook gets back: "back in the skipped st", "go back to the st you skipped and dc in it"."""

from __future__ import annotations

from ...pattern import Make, Place, Step
from .cursor import Cursor
from .nouns import noun
from .spots import Spot

EXAMPLES = (
    ("*skip 1 st, dc in next st, dc back in the skipped st; rep from * across", "[skip, dc, dc@skipped st]×rest"),
    ("*skip a st, dc in the next, then dc in the one you skipped; rep from * across", "[skip, dc, dc@skipped st]×rest"),
    ("*skip next st, dc in next st, go back to the st you skipped and dc in it; rep from * across", "[skip, dc, dc@skipped st]×rest"),
)
_BACK = frozenset("back backward backwards over across to the right".split())  # noqa: SIM905
_BESIDE = frozenset("in front of behind it that the last one just made dc st stitch post".split())  # noqa: SIM905
_WHO = frozenset("you i we that just which have had".split())  # noqa: SIM905
_PASSED = frozenset(("skipped", "missed", "skip", "sk"))


def back_to_skipped(c: Cursor) -> Spot | None:
    """Where a stitch goes that is worked "back in the skipped st"; None with the cursor unmoved."""
    start = c.i
    if c.t[c.i].text.lower() in ("back", "backward", "backwards"):
        while c.t[c.i].text.lower() in _BACK:
            c.i += 1
    elif c.look().kind in ("front", "of") or c.kind == "behind":
        while c.t[c.i].text.lower() in _BESIDE and not (c.kind == "in" and c.i > start and c.look().kind != "front"):
            c.i += 1
    if not c.take("in"):
        c.i = start
        return None
    what = _skipped(c)
    if what is None:
        c.i = start
        return None
    return Spot(Place(where="skipped", what=what))


def pass_back(c: Cursor) -> None:
    """Past the word that leads back to a place that was passed over ("dc back in the skipped st")."""
    begin = c.i
    leads = c.t[c.i].text.lower() in ("back", "backward", "backwards") and back_to_skipped(c) is not None
    c.i = begin + leads


def _skipped(c: Cursor) -> str | None:
    """ "The skipped st", "the one you skipped", "the st that you missed": what was passed over."""
    c.drop("the")
    if c.kind == "skip" and c.t[c.i].text.lower() in _PASSED:
        c.i += 1
        return noun(c)
    what = "st" if c.t[c.i].text.lower() == "one" else None
    c.i += what is not None
    what = what or noun(c)
    begin = c.i
    while c.t[c.i].text.lower() in _WHO:
        c.i += 1
    if what is None or c.i == begin or c.kind != "skip" or c.t[c.i].text.lower() not in _PASSED:
        return None
    c.i += 1
    return what


def gone_back(c: Cursor) -> list[Step] | None:
    """ "Go back to the st you skipped and dc in it", "working back, dc in it" told as a way there and a stitch."""
    start = c.i
    while c.t[c.i].text.lower() in ("go", "going", "come", "reach", "working", "work", "now", "return"):
        c.i += 1
    while c.t[c.i].text.lower() in _BACK:
        c.i += 1
    what = _skipped(c) if c.i > start else None
    c.drop("and", ",", "then")
    if what is None or c.kind != "st":
        c.i = start
        return None
    stitch = c.us(str(c.t[c.i].val))
    c.i += 1
    if c.take("in"):
        c.drop("the")
        c.i += c.kind == "noun" or c.t[c.i].text.lower() == "one"
    return [Make(id=c.id(), span=c.span(start), stitch=stitch, at=Place(where="skipped", what=what))]
