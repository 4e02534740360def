"""What a draft gives back: the pattern, the sizes it comes out at beside those asked, and both outlines."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from ..pattern import Pattern
from ..trade import units
from ..trade.terms import System, abbr
from .asks import TURNING, Custom, Refused, length_cm
from .outline import Outline


@dataclass(frozen=True, slots=True)
class Obtained:
    """One measure: what was asked and what comes out, in cm, and the step that it can be had in ("dc", "row")."""

    what: str
    asked_cm: float
    cm: float
    step_cm: float
    step: str = "st"
    counted: str = ""

    @property
    def off_steps(self) -> float:
        """How far off, in steps (stitches or rows)."""
        return (self.cm - self.asked_cm) / self.step_cm if self.step_cm else 0.0

    def told(self, terms: System = "US", *, inches: bool = False) -> str:
        """The measure in a line, in US or UK words, in cm or in inches."""
        counted = re.sub(r"^1 (row|round|repeat)s\b", r"1 \1", _in_terms(self.counted, terms))
        of = f" ({counted})" if counted else ""
        got, asked = _shown(self.cm, inches), _shown(self.asked_cm, inches)
        if got == asked:
            return f"{self.what}: {_length(got, inches)} as asked{of}"
        sign = "+" if got > asked else "−"
        return (
            f"{self.what}: {_length(got, inches)}{of}, asked {_length(asked, inches)}; {sign}{_length(abs(got - asked), inches)} = "
            f"{sign}{_counted(abs(self.off_steps), _in_terms(self.step, terms))}"
        )

    def __str__(self) -> str:
        return self.told()


def _shown(cm: float, inches: bool) -> float:
    """The figure that is told: cm to the millimetre, inches to the hundredth."""
    return round(cm / 2.54, 2) if inches else round(cm, 1)


def _length(figure: float, inches: bool) -> str:
    return f"{units.decimal(figure, 2)} in" if inches else f"{units.decimal(figure)} cm"


def _counted(steps: float, word: str) -> str:
    number = units.decimal(steps, 2)
    return f"{number} {word}{'s' if word.endswith(('row', 'round', 'repeat', 'st')) and number != '1' else ''}"


def _in_terms(words: str, terms: System) -> str:
    """Words with their stitches said in UK terms where these are wished."""
    return words if terms == "US" else re.sub(r"[A-Za-z]+", lambda word: abbr(word[0], terms) if word[0] in TURNING else word[0], words)


@dataclass(frozen=True, slots=True)
class View:
    """One outline to look at: asked (dashed) over obtained."""

    name: str
    asked: Outline
    obtained: Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A drafted pattern with its account. `notes` say what was assumed and what limited it; `limited`: a custom, not the
    rounding, kept it from what was asked. `measures` are the asked lengths the family was drafted from, in cm."""

    family: str
    pattern: Pattern
    custom: Custom
    sizes: tuple[Obtained, ...]
    views: tuple[View, ...] = ()
    notes: tuple[str, ...] = ()
    limited: bool = False
    tolerance: tuple[float, float] = (0.5, 0.5)
    """How far the outline may lie from the one asked, in stitches across and rows along."""
    intended: str = ""
    fit: float = 0.0
    """The largest distance of the outline from the one asked, in units of `tolerance`; 0 where it was not measured. Where a row holds the
    fewest stitches that can be worked, its width is not held against it."""

    def report(self, terms: System = "US", *, inches: bool = False) -> str:
        """The account in plain lines."""
        return "\n".join([*(size.told(terms, inches=inches) for size in self.sizes), *self.notes])


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked of a family: lengths in cm and words, by name."""

    lengths: Mapping[str, float] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)

    def cm(self, name: str) -> float:
        """A length that must be told."""
        if name not in self.lengths:
            raise Refused(f"This piece needs its {name.replace('-', ' ')}.", f"Add --{name} with a unit, such as --{name} 24cm.")
        return self.lengths[name]

    def get(self, name: str, default: float) -> float:
        return self.lengths.get(name, default)

    def word(self, name: str, default: str, known: Sequence[str] = ()) -> str:
        """A word out of those known."""
        said = self.words.get(name, default)
        if known and said not in known:
            raise Refused(f"“{said}” is no choice for --{name}.", f"Choose one of {', '.join(known)}.")
        return said


Maker: TypeAlias = Callable[[Asked, Custom], Draft]


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """One family of pieces. `lengths`, `words`: what may be asked, each with what it means; `needs` the lengths that must be told."""

    name: str
    what: str
    make: Maker
    needs: tuple[str, ...] = ()
    lengths: Mapping[str, str] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)


def asked_of(family: Family, given: Mapping[str, str | float]) -> Asked:
    """The measures and words given for a family. Refuses a name it does not know, with the nearest it does."""
    lengths: dict[str, float] = {}
    words: dict[str, str] = {}
    for raw, value in given.items():
        name = raw.replace("_", "-")
        if name in family.lengths:
            lengths[name] = length_cm(value, name.replace("-", " "), signed=name == "ease")
        elif name in family.words:
            words[name] = str(value)
        else:
            known = [*family.lengths, *family.words]
            raise Refused(f"A {family.name} has no {name}.", f"It knows {', '.join(f'--{k}' for k in known)}." + _near(name, known))
    asked = Asked(lengths, words)
    for name in family.needs:
        asked.cm(name)
    return asked


def _near(name: str, known: Sequence[str]) -> str:
    import difflib

    close = difflib.get_close_matches(name, known, 1)
    return f" Did you mean --{close[0]}?" if close else ""
