"""The note on what may be done with the pattern; the cautions come from teaching, so that page, booklet and film say the same."""

from __future__ import annotations

from ..pattern import Pattern
from ..writing.materials import texts

RIGHTS = (
    "Words, charts and drawings of this pattern belong to its designer: please do not copy, resell or repost them.",
    "What you make from it is yours, to keep, to give or to sell. A mention of the designer is welcome.",
)
"""What is printed when the front matter has no `rights`; `rights: none` prints nothing."""


def rights_of(pattern: Pattern) -> tuple[str, ...]:
    told = texts(pattern.facts.notes.get("rights"))
    if told and told[0].lower() in ("none", "no"):
        return ()
    return told or RIGHTS
