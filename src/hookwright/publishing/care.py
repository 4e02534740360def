"""Cautions where the work can hurt someone, found in the features of the piece; and the note on what may be done with the pattern."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from ..pattern import Aside, Pattern
from ..trade.cautions import DEFER, cautions_about
from ..writing import every_step
from .materials import texts
from .remarks import remarks_of

_WORDS: dict[str, tuple[str, ...]] = {
    "toy": ("toy", "doll", "amigurumi", "stuff"),
    "blanket": ("blanket", "afghan"),
    "baby": ("baby", "newborn", "infant"),
    "pot holder": ("potholder", "pot holder", "hot pad", "coaster"),
    "trivet": ("trivet",),
    "oven glove": ("oven glove", "oven mitt"),
    "eyes": ("safety eye", "button eye"),
    "buttons": ("button",),
    "beads": ("bead",),
    "bells": ("small bell", "jingle"),
    "stuffing": ("stuffing", "toy filling"),
    "nightwear": ("nightwear", "sleepwear", "pyjama"),
    "lamp shade": ("lamp shade", "lampshade"),
    "candle": ("candle",),
    "dummy": ("soother", "dummy clip", "pacifier"),
    "teether": ("teether",),
    "sling": ("baby sling", "carrier"),
    "pillow": ("pillow",),
}
"""Subject of a caution → words in title, sizes, notions and notes that show it."""

_WORN = {"hat": ("hat", "beanie"), "bonnet": ("bonnet",), "scarf": ("scarf", "wrap", "shawl", "cowl"), "mittens": ("mitten", "glove")}
_CHILD = ("child", "baby", "toddler", "kid", "newborn", "infant")
_CORDS = frozenset({"cord", "drawstring", "tie"})
LONG_HOURS = 10.0
"""From so many hours of work on the caution about hands is printed (our choice, no source)."""

RIGHTS = (
    "Words, charts and drawings of this pattern belong to its designer: please do not copy, resell or repost them.",
    "What you make from it is yours, to keep, to give or to sell. A mention of the designer is welcome.",
)
"""What is printed when the front matter has no `rights`; `rights: none` prints nothing."""


def subjects_of(pattern: Pattern, *, hours: float = 0.0) -> tuple[str, ...]:
    """The features of a piece that a caution may be about ("cord", "pompom", "toy" …). `hours` of work, where known."""
    return tuple(dict.fromkeys(_subjects(pattern, hours)))


def _subjects(pattern: Pattern, hours: float) -> Iterator[str]:
    facts = pattern.facts
    told = (facts.title, *facts.size_names, *texts(facts.notes.get("notions")), *texts(facts.notes.get("for")), *remarks_of(pattern))
    where = " ".join(told).lower()
    trims = {trim.kind.lower() for trim in facts.trims}
    worn = [thing for thing, words in _WORN.items() if _says(where, words)]
    yield from sorted(trims - _CORDS)
    if worn or facts.intended == "garment":
        yield from sorted(trims & _CORDS)
        if trims & _CORDS and len(facts.size_names) > 1:
            yield "sizes"
    if _says(where, _CHILD) or trims & _CORDS:
        yield from worn
    stuffed = any(isinstance(step, Aside) and step.kind == "stuff" for step in every_step(pattern))
    if facts.intended == "toy" or stuffed:
        yield "toy"
    for subject, words in _WORDS.items():
        if _says(where, words):
            yield subject
    if hours >= LONG_HOURS:
        yield "hands"


def _says(text: str, words: Iterable[str]) -> bool:
    """Whether one of the words, or its plural, stands in the text ("hat" is not in "that")."""
    return any(re.search(rf"\b{re.escape(word)}(?:s|es|ed|ing)?\b", text) for word in words)


def cautions_of(pattern: Pattern, *, hours: float = 0.0) -> tuple[str, ...]:
    """The usual cautions for this piece, each with the standards customarily cited, and the sentence that leaves the judging to others."""
    found = cautions_about(subjects_of(pattern, hours=hours))
    said = [f"{caution.text} ({', '.join(caution.standards)})" if caution.standards else caution.text for caution in found]
    return (*said, DEFER) if any(caution.standards for caution in found) else tuple(said)


def rights_of(pattern: Pattern) -> tuple[str, ...]:
    told = texts(pattern.facts.notes.get("rights"))
    if told and told[0].lower() in ("none", "no"):
        return ()
    return told or RIGHTS
