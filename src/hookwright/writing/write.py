"""`Pattern` → words. The text is made from the structure alone: with the source withheld the same text comes out, asides excepted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from ..pattern import Chain, Make, Part, Pattern, Place, Sized, Span, Special, Step, Together
from .front import front_matter
from .lexicon import Lexicon
from .numbers import number
from .out import Out
from .rows import RowWords, say_row
from .steps import Voice, say_steps, sizes_only
from .style import HOUSE, Style


@dataclass(frozen=True, slots=True, kw_only=True)
class PartWords:
    """A part as written: its heading and its rows, in order."""

    name: str
    heading: str
    rows: tuple[RowWords, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """`text` the whole file; `where` the place of every row and step in it, by id; `parts` the same rows taken apart for setting;
    `specials` the pattern's own stitches (name, words); `quoted` source spans that had to be quoted, since nobody understood them."""

    text: str
    terms: Literal["US", "UK"]
    language: str
    where: Mapping[int, Span] = field(default_factory=dict)
    parts: tuple[PartWords, ...] = ()
    specials: tuple[tuple[str, str], ...] = ()
    quoted: tuple[Span, ...] = ()


LANGUAGES: tuple[str, ...] = ("en",)
"""Languages that can be written."""


def write(pattern: Pattern, *, terms: Literal["US", "UK"] = "US", language: str = "en", style: Style = HOUSE) -> Written:
    """The pattern in words, in `terms`, every stitch said from its id, so that nothing is translated twice or not at all.

    Raises ValueError for a language that cannot be written.
    """
    if language not in LANGUAGES:
        raise ValueError(f"{language!r} cannot be written yet; these can: {', '.join(LANGUAGES)}")
    out = Out()
    lexicon = Lexicon(terms=terms, style=style, own=frozenset(pattern.defined))
    voice = Voice(out, lexicon, source=pattern.source, size_names=pattern.facts.size_names)
    if style.front:
        out.say(front_matter(pattern.facts, terms=terms, language=language))
    specials = _say_specials(voice, pattern)
    parts = tuple(_say_part(voice, part) for part in pattern.parts)
    return Written(
        text=out.text.rstrip("\n") + "\n",
        terms=terms,
        language=language,
        where=out.where,
        parts=parts,
        specials=specials,
        quoted=tuple(voice.quoted),
    )


def _say_specials(voice: Voice, pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """The pattern's own stitches under a heading, a line each."""
    if not pattern.defined:
        return ()
    voice.out.gap()
    voice.out.say("## Special stitches\n\n")
    return tuple(_say_special(voice, special) for special in pattern.defined.values())


def _say_special(voice: Voice, special: Special) -> tuple[str, str]:
    """`Shell: (2 dc, ch 2, 2 dc) in same st.` A stitch that is only described is quoted."""
    start = voice.out.mark()
    voice.out.say(f"{special.name}: ")
    voice.out.capital(start)
    mark = voice.out.mark()
    if special.steps:
        inside = replace(voice.lexicon, own=frozenset(voice.lexicon.own) - {special.name})
        say_steps(replace(voice, lexicon=inside), _in_one_place(special.steps))
    else:
        voice.quoted.append(special.span)
        voice.out.say(" ".join(special.span.of(voice.source).split()) or "…")
    words = voice.out.since(mark)
    voice.out.say(".\n")
    return special.name, words


def _in_one_place(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """What is made of stitches that all go into one place is said as a group."""
    one = all(isinstance(step, Chain) or (isinstance(step, Make) and step.at.where in ("next", "same")) for step in steps)
    if one and len(steps) > 1 and isinstance(steps[0], Make):
        return (Together(body=steps, at=Place(where="same")),)
    return steps


def _say_part(voice: Voice, part: Part) -> PartWords:
    heading = _heading(part, voice)
    if heading or (voice.lexicon.own and not voice.begun):
        voice.out.gap()
        voice.out.say(f"## {heading or 'Instructions'}\n")
    voice.begun = True
    rows = []
    voice.skipped = None
    voice.out.gap()
    for row in part.rows:
        rows.append(say_row(voice, row))
        voice.out.say("\n")
    return PartWords(name=part.name, heading=heading, rows=tuple(rows))


def _heading(part: Part, voice: Voice) -> str:
    remarks = []
    if part.copies != Sized((1,)):
        remarks.append(f"make {number(part.copies)}")
    if part.only is not None:
        remarks.append(sizes_only(part.only, voice.size_names))
    return f"{part.name} ({', '.join(remarks)})" if remarks and part.name else part.name
