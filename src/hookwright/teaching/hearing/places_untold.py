"""Rows worked into stitches and into the spaces between them, of which only the one is told: "single crochet in each double" where the page
has "in each dc and in each ch-1 sp"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from ...pattern import Make
from ...pattern.walking import inside
from ...trade.terms import System
from ...trade.terms import name as full_name
from .findings import Heard, sure_unsaid
from .lexicon import words
from .said import told_as_same
from .segments import Speech
from .tokens import Token
from .units import Unit

_EVERY = words("places_untold", "every")
_STITCHES = words("places_untold", "stitches")
"""What a stitch is called as a place, without "crochet"."""
_SPACES = words("places_untold", "spaces")
"""What a space, or all places at once, may be called; any gap, hole or space besides."""
REACH = 3
"""Words behind "each" within which the place is named, and before a chain within which "each" tells that it is worked into (ours)."""


def places_untold(units: Sequence[Unit], speech: Speech, terms: System) -> Iterator[Heard]:
    """Each such row once; none where two rows go without, for then it is the speaker's way of telling."""
    found = []
    for some in speech.by_unit().values():
        unit, pair = some[0].unit, _two_places(some[0].unit)
        if pair is None or unit.refers or any(not s.meant.right or s.several for s in some):
            continue
        said = [token for s in some for token in speech.tokens[s.begins : s.end]]
        at = _stitch_place(said)
        if at >= 0 and not _space_told(said) and not told_as_same(said, 0, at):
            stitch, place = pair
            message = f"{unit.label} has {full_name(stitch, terms)} also in each {place}, which is not said"
            words_ = " ".join(token.raw for token in said[max(0, at - 3) : at + 6])
            sure = sure_unsaid(edited=speech.edited)
            found.append(Heard(kind="left out", at=said[at].at, words=words_, row=unit.label, message=message, sure=sure))
    if len(found) == 1:
        yield from found


def _two_places(unit: Unit) -> tuple[str, str] | None:
    """(stitch, space) of a row that has one stitch in each stitch of a kind and one in each space between them; None for any other."""
    made = [step for step in inside(unit.rows[0].written.steps) if isinstance(step, Make)]
    for one, other in pairwise(made):
        alike = one.stitch == other.stitch and one.each == other.each
        everywhere = all(step.places == "rest" and step.at.where == "next" for step in (one, other))
        if alike and everywhere and one.at.what not in ("st", "") and (other.at.what == "ch" or other.at.what.endswith("sp")):
            return one.stitch, other.at.what
    return None


def _stitch_place(said: Sequence[Token]) -> int:
    """The token of "each" before a stitch's name: "in each double"; -1 where none stands there."""
    for k, token in enumerate(said):
        if token.text in _EVERY and not token.stop and k:
            behind = said[k + 1 : k + 1 + REACH]
            if any(one.kind == "st" or one.text in _STITCHES for one in behind):
                return k
    return -1


def _space_told(said: Sequence[Token]) -> bool:
    """Whether a space is named in any way, or all stitches together."""
    for k, token in enumerate(said):
        if token.kind in ("space", "v-stitch", "shell") or token.text in _SPACES:
            return True
        led = any(one.text in _EVERY or one.text == "and" for one in said[max(0, k - REACH) : k])
        if (token.kind == "chain" and led and k > REACH) or (token.kind == "stitch" and led):
            return True
    return False
