"""What is filmed after the last row: seams, ends, trims (each kind once), blocking. What the camera shows, and what is said meanwhile."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from ..pattern import FLAT, Pattern
from ..working import Fabric
from . import pacing
from .between import whole_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """One thing done after the rows: its title, what the camera shows, the sentences said, the length of the shot."""

    title: str
    shows: str
    says: tuple[str, ...]
    seconds: float


_SHOWS = {
    "fringe": "one bundle of fringe cut, knotted in and trimmed; then where the {number} go",
    "tassel": "one tassel wound, tied, bound and cut; then where it is sewn on ({number} in all)",
    "pompom": "one pompom wound, tied, cut and trimmed; then tied on ({number} in all)",
    "cord": "the cord made, its ends knotted; then where it is drawn in ({number} in all)",
    "drawstring": "the drawstring made and drawn in ({number} in all)",
    "button": "one button sewn on through both layers ({number} in all)",
}
_SAYS = {
    "fringe": (
        "Cut the strands for one bundle, fold them in half, pull the fold through the edge and the ends through the fold.",
        "Draw the knot up and go on: {number} in all. Trim them together at the end.",
    ),
    "tassel": ("Wind the yarn, tie it at the top, bind it a little below, and cut the loops.", "Sew it on firmly: {number} in all."),
    "pompom": ("Wind the yarn, tie it round the middle as tightly as it will go, cut the loops and trim.", "Tie it on: {number} in all."),
    "cord": ("Make the cord, knot both ends, and draw it in: {number} in all.",),
    "drawstring": ("Make the drawstring and draw it in: {number} in all.",),
    "button": ("Sew the button on through both layers, with a stem of thread below it: {number} in all.",),
}
"""The usual ways (common practice, no source); the page may tell its own."""
_NO_SEAM = re.compile(r"(?i)\b(?:next (?:round|row)|do not fasten|don't fasten)\b")
"""Told of a piece that grows on from another, which the rows themselves show."""
_SEWN_ON = re.compile(
    r"(?i)\b(?:buttons?|pom[- ]?poms?|tassels?|beads?|badges?|labels?|eyes|bows?|flowers?|loop|cords?|ties|ribbons?|elastic|zips?)\b"
)
"""Small things sewn onto the piece, which is no seam."""
LONGEST = 140


def finishing_of(pattern: Pattern, fabric: Fabric) -> Iterator[Finish]:
    """Each thing done after the rows, in the order of the film."""
    seam = _seam(pattern, fabric)
    if seam is not None:
        yield seam
    for kind in dict.fromkeys(trim.kind for trim in pattern.facts.trims):
        number = sum(trim.number for trim in pattern.facts.trims if trim.kind == kind)
        shows = _SHOWS.get(kind, f"one {kind} made and put on ({{number}} in all)").format(number=number)
        says = tuple(one.format(number=number) for one in _SAYS.get(kind, ("Make it and put it on: {number} in all.",)))
        yield Finish(title=kind.capitalize(), shows=shows, says=says, seconds=pacing.FINISHING_S.get(kind, pacing.FINISHING_OTHER_S))
    yield Finish(
        title="Weaving in the ends",
        shows="one end woven in there and back on the wrong side, close",
        says=("Thread the end, run it through the backs of some stitches, turn, and bring it back another way before you cut it.",),
        seconds=pacing.FINISHING_S["ends"],
    )
    if pattern.facts.notes.get("finishing") or any(gauge.blocked for gauge in pattern.facts.gauge):
        yield Finish(
            title="Laying out to dry",
            shows="the damp piece pinned to its measures beside a ruler",
            says=("Lay the damp piece out to its measures, pin it where it wants to shrink back, and let it dry before you take it up.",),
            seconds=pacing.FINISHING_S["blocking"],
        )


def _seam(pattern: Pattern, fabric: Fabric) -> Finish | None:
    """The joining of several pieces, or of the edges of one, in the pattern's own words where it has any."""
    pieces = sum(part.copies for part in fabric.parts)
    told = [" ".join(seam.words.split()).strip(" .:;") for seam in pattern.seams if not _NO_SEAM.search(seam.words)]
    noun = "row" if all(row.made_in in FLAT for part in fabric.parts for row in part.rows) else "round"
    told = [whole_words(one, noun) for one in dict.fromkeys(told) if one and len(one) <= LONGEST and "=" not in one]
    if pieces < 2 and not told:
        return None
    if told and all(_SEWN_ON.search(one) for one in told):
        says = tuple(f"{one[0].upper()}{one[1:]}." for one in told)
        shows = f"where each sits, pinned first; then the first stitches close: {'; '.join(told)}"
        return Finish(title="Sewing on", shows=shows, says=says, seconds=pacing.FINISHING_S["seam"])
    which = f": {'; '.join(told)}" if told else f" ({pieces} pieces)"
    shows = f"the first 5 cm of the seam close, then the rest at speed{which}"
    says = tuple(f"{one[0].upper()}{one[1:]}." for one in told) or (
        "Pin the pieces together before you sew, so that nothing slips; every stitch takes both edges.",
    )
    return Finish(title="Joining the pieces", shows=shows, says=says, seconds=pacing.FINISHING_S["seam"])
