"""A round told on flat work goes along its edge: "finish with one round of sc", "sc around, 3 sc in each corner"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import ZERO, Aside, Chain, Colour, Join, Make, Place, Ring, Step, Turn
from .phrases.cursor import Context
from .phrases.uncounted import ON_THE_EDGE
from .wording.token import Token

_BEFORE = (Aside, Chain, Colour, Turn, Join)


def round_the_edge(steps: tuple[Step, ...], found: Sequence[Token], context: Context) -> tuple[Step, ...]:
    """The steps with the run that goes round on the edge, where the piece is flat and the words tell of a round or of its corners."""
    if context.rounds or context.on_chain:
        return steps
    at = next((k for k, step in enumerate(steps) if not isinstance(step, _BEFORE)), None)
    run = steps[at] if at is not None else None
    if at is None or not isinstance(run, Make) or not _goes_over_all(run) or any(_founds(step) for step in steps[:at]):
        return steps
    last = max((k for k, token in enumerate(found) if token.start < run.span.end), default=0)
    words = [token for token in found[: last + 2] if token.start >= run.span.start - _REACH]
    around = any(token.kind == "around" or token.text.lower() in ("round", "around") for token in words)
    cornered = any(isinstance(step, Make) and step.at.what == "corner" for step in steps[at + 1 :])
    if (around and cornered) or _of_a_round(words):
        return (*steps[:at], replace(run, at=ON_THE_EDGE, evenly=True), *steps[at + 1 :])
    return steps


_REACH = 24
"""Characters before the run in which a round of it may be told ("a round of sc")."""


def _goes_over_all(run: Make) -> bool:
    return run.places == "rest" and run.but == ZERO and not run.upto and run.at == Place(span=run.at.span) and run.stitch != "sl st"


def _of_a_round(words: Sequence[Token]) -> bool:
    """ "One round of sc", "a rnd of dc", "all around", "all the way around"."""
    told = [(token.kind, token.text.lower()) for token in words]
    for k, (kind, text) in enumerate(told):
        if kind in ("n", "a") and any(t in ("round", "rnd", "rounds", "rnds") for _, t in told[k + 1 : k + 2]):
            return True
        if text.startswith("all") and any(t in ("around", "round", "way") for _, t in told[k + 1 : k + 3]):
            return True
    return False


def _founds(step: Step) -> bool:
    return isinstance(step, Ring) or (isinstance(step, Chain) and step.foundation)
