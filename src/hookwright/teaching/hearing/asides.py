"""What is said beside the work: numbers and stitches in stories and suppositions, numbers of the world. Found once, kept on the tokens."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .story import in_story
from .sums import steps_of_sums
from .things import no_count, of_a_seam, of_others, of_the_world, partly, shared, supposed
from .tokens import Token


def with_asides(tokens: Sequence[Token]) -> list[Token]:
    """The tokens, their numbers and stitches marked: `story` told in a story; `aside` of a piece made otherwise, of what others get, a part
    of the row or a seam; `thing` counting something of its own; `world` in a sentence about prices, people, the weather; `added` a step of
    a sum."""
    sums = steps_of_sums(tokens)
    return [_marked(tokens, k, added=k in sums) if token.kind in ("num", "st") else token for k, token in enumerate(tokens)]


def _marked(tokens: Sequence[Token], k: int, *, added: bool) -> Token:
    token, story = tokens[k], in_story(tokens, k)
    if token.kind == "st":
        return replace(token, story=True) if story else token
    aside = supposed(tokens, k) or partly(tokens, k) or shared(tokens, k) or of_a_seam(tokens, k) or of_others(tokens, k)
    return replace(token, story=story, aside=aside, thing=no_count(tokens, k), world=of_the_world(tokens, k), added=added)
