"""Cautions where the work can hurt someone, found in the features of the piece. None says that a thing complies: others decide that."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from ..pattern import Aside, Pattern
from ..trade.cautions import DEFER, Caution, cautions_about
from ..writing import every_step
from ..writing.materials import texts
from ..writing.remarks import remarks_of
from .naming import title_told

_WORDS: dict[str, tuple[str, ...]] = {
    "toy": ("toy", "doll", "amigurumi", "stuff", "rattle"),
    "blanket": ("blanket", "afghan"),
    "baby": ("baby", "newborn", "infant"),
    "pot holder": ("potholder", "pot holder", "pot-holder", "hot pad", "coaster"),
    "trivet": ("trivet",),
    "oven glove": ("oven glove", "oven mitt"),
    "eyes": ("safety eye", "button eye"),
    "buttons": ("button", "toggle", "press stud", "snap"),
    "beads": ("bead", "sequin"),
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

_ANYWHERE = frozenset({"eyes", "beads", "bells", "dummy", "teether"})
"""Subjects whose words mean nothing else wherever they stand: also in a line of materials nobody labelled, or between two rows."""

_WORN = {"hat": ("hat", "beanie"), "bonnet": ("bonnet",), "scarf": ("scarf", "wrap", "shawl", "cowl"), "mittens": ("mitten", "glove")}
_CHILD = ("child", "children", "baby", "toddler", "kid", "newborn", "infant")
_CORDS = frozenset({"cord", "drawstring", "tie"})
_TRIMS = {"button": "buttons", "bead": "beads", "bell": "bells", "eye": "eyes"}
LONG_HOURS = 10.0
"""From so many hours of work on the caution about hands is printed (our choice, no source)."""


def subjects_of(pattern: Pattern, *, hours: float = 0.0) -> tuple[str, ...]:
    """The features of a piece that a caution may be about ("cord", "pompom", "toy" …). `hours` of work, where known."""
    return tuple(dict.fromkeys(_subjects(pattern, hours)))


def _subjects(pattern: Pattern, hours: float) -> Iterator[str]:
    facts = pattern.facts
    told = (
        title_told(pattern),
        *facts.size_names,
        *texts(facts.notes.get("notions")),
        *texts(facts.notes.get("for")),
        *remarks_of(pattern),
    )
    where = " ".join(told).lower()
    trims = {_TRIMS.get(trim.kind.lower(), trim.kind.lower()) for trim in facts.trims} | set(_told(pattern.source.lower()))
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
    whole = pattern.source.lower()
    for subject, words in _WORDS.items():
        if _says(whole if subject in _ANYWHERE else where, words):
            yield subject
    if (facts.intended == "toy" or stuffed or _says(where, _WORDS["toy"])) and _says(whole, ("cord", "drawstring", "string", "ribbon")):
        yield "toy cord"
    if hours >= LONG_HOURS:
        yield "hands"


_TOLD = {
    "fringe": re.compile(r"\bfring(?:e|es|ing)\b"),
    "tassel": re.compile(r"\btassels?\b"),
    "pompom": re.compile(r"\bpom[- ]?poms?\b"),
    "drawstring": re.compile(r"\bdrawstrings?\b"),
    "cord": re.compile(
        r"\b(?:i-|twisted |plaited |braided |crochet(?:ed)? |chain(?:ed)? |neck |chin )cords?\b"
        r"|\b(?:make|thread|weave|run|draw) (?:the |a |an |two |both |\d+ )?(?:\w+ )?cords?\b"
    ),
    "tie": re.compile(r"\b(?:neck|chin|ear ?flap|bonnet|apron|back) (?:ties|strings)\b|\b(?:two|both|make|the|\d+) ties\b"),
}
"""Trim → how the words of a pattern tell it; a yarn called "cotton cord" is no cord."""


def _told(source: str) -> Iterator[str]:
    """The trims that the words tell, where no front matter lists them."""
    yield from (trim for trim, words in _TOLD.items() if words.search(source))


def _says(text: str, words: Iterable[str]) -> bool:
    """Whether one of the words, or its plural, stands in the text ("hat" is not in "that")."""
    return any(re.search(rf"\b{re.escape(word)}(?:s|es|ed|ing)?\b", text) for word in words)


def cautions_found(pattern: Pattern, *, hours: float = 0.0) -> tuple[Caution, ...]:
    """The usual cautions for this piece, with their standards and sources."""
    return cautions_about(subjects_of(pattern, hours=hours))


def cautions_of(pattern: Pattern, *, hours: float = 0.0) -> tuple[str, ...]:
    """The cautions as sentences, each with the standards usually looked at, and the sentence that leaves the judging to others."""
    found = cautions_found(pattern, hours=hours)
    said = [_sentence(caution) for caution in found]
    return (*said, DEFER) if any(caution.standards for caution in found) else tuple(said)


def _sentence(caution: Caution) -> str:
    if not caution.standards:
        return caution.text
    return f"{caution.text} Usually looked at: {', '.join(caution.standards)}."
