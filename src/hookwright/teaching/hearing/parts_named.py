"""Which part of the piece is spoken of where a row is named: "So hand, round one", "Back to the hand … we're at round twelve"."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence

from .lexicon import words
from .things import OWN_NOUNS
from .tokens import Token
from .units import Unit

BEFORE, BEHIND = 25, 4
"""Words before and behind the naming within which the part is looked for (ours)."""
_NO_PART = words("parts_named", "no_part") | frozenset(OWN_NOUNS)


def part_words(units: Sequence[Unit]) -> dict[str, int]:
    """The words that name one part and no other → the part."""
    named = {unit.part: set(re.findall(r"[a-z]{3,}", unit.part_name.lower())) - _NO_PART for unit in units}
    often = Counter(word.removesuffix("s") for every in named.values() for word in every)
    return {word.removesuffix("s"): part for part, every in named.items() for word in every if often[word.removesuffix("s")] == 1}


def part_near(tokens: Sequence[Token], k: int, end: int, names: Mapping[str, int]) -> int | None:
    """The part named last before the naming of a row at tokens[k:end], or right behind it; None where none is."""
    places = [*range(k - 1, max(-1, k - BEFORE - 1), -1), *range(end, min(end + BEHIND, len(tokens)))]
    for i in places:
        part = names.get(tokens[i].text.removesuffix("'s").removesuffix("s"))
        if part is not None:
            return part
    return None
