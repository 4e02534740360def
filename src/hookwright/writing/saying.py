"""Saying steps: what a step needs to know of its surroundings, and how steps stand beside one another.

How each kind of step is said stands in `making`, `moving` and `repeating`; each registers its words with `says`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeVar

from ..pattern import Aside, Chain, Repeat, Sized, Span, Step, Together
from .lexicon import Lexicon
from .numbers import joined, number, one, ordinal, plural
from .out import Out

S = TypeVar("S")


@dataclass(slots=True)
class Voice:
    """What a step needs to know of its surroundings to be said. `over`: "across" or "around"; `quoted` gathers the source spans that had
    to be quoted because they were not understood."""

    out: Out
    lexicon: Lexicon
    source: str = ""
    noun: str = "Row"
    size_names: tuple[str, ...] = ()
    grouped: bool = False
    """Inside a group that all goes into one place: the place is told once, after the group."""
    skipped: Chain | None = None
    """The foundation chain, where it is told whether its skipped chains count: that is said beside the first stitch."""
    begun: bool = False
    """A part was said already."""
    quoted: list[Span] = field(default_factory=list)

    @property
    def over(self) -> str:
        return "around" if self.noun == "Rnd" else "across"

    def count(self, value: Sized[int], noun: str) -> str:
        """The number and its noun, bound together.

        >>> Voice(Out(), Lexicon()).count(Sized.of(1, 2), "st").replace("\u00a0", "~")
        '1 (2)~sts'
        """
        return f"{number(value)}{self.lexicon.space}{noun if one(value) else plural(noun)}"

    def last(self, value: Sized[int], noun: str) -> str:
        """ "last st", "last 3 sts"."""
        return f"last {noun if one(value) else self.count(value, noun)}"

    @property
    def row(self) -> str:
        """What the row is called: "Row", "Rnd", "Round"."""
        return self.lexicon.word("Rnd") if self.noun == "Rnd" else "Row"

    @property
    def st(self) -> str:
        return self.lexicon.word("st")

    @property
    def spoken(self) -> bool:
        return self.lexicon.style.spoken


_SAY: dict[type[Any], Callable[[Voice, Any], None]] = {}


def says(kind: type[S]) -> Callable[[Callable[[Voice, S], None]], Callable[[Voice, S], None]]:
    """Register how one kind of step is said."""

    def register(say: Callable[[Voice, S], None]) -> Callable[[Voice, S], None]:
        _SAY[kind] = say
        return say

    return register


def say_steps(voice: Voice, steps: Sequence[Step], *, begins: list[int] | None = None) -> None:
    """Say the steps one after another, with the commas and semicolons that keep them apart; `begins` gathers where each begins."""
    said = False
    for k, step in enumerate(steps):
        if _silent(step, voice):
            continue
        if said:
            voice.out.say(_between(steps[k - 1], step))
        if begins is not None:
            begins.append(len(voice.out))
        say_step(voice, step)
        said = True


def _silent(step: Step, voice: Voice) -> bool:
    """Whether there is nothing to say: a remark that only the source holds, a repeat or a group of nothing."""
    if isinstance(step, Aside):
        return not aside_words(step, voice)
    if isinstance(step, Repeat):
        return not step.last and all(_silent(inner, voice) for inner in step.body)
    if isinstance(step, Together):
        return step.name not in voice.lexicon.own and all(_silent(inner, voice) for inner in step.body)
    return False


def _between(before: Step, step: Step) -> str:
    if isinstance(step, Aside) and step.kind == "note":
        return " "
    return "; " if isinstance(before, Repeat) and before.times.kind in _RUNNING else ", "


_RUNNING = ("rest", "to_last", "until", "more", "to_place")


def say_step(voice: Voice, step: Step) -> None:
    """Say one step, its sizes named first when it belongs to some only."""
    with voice.out.node(step.id):
        if step.only is not None:
            voice.out.say(f"{sizes_only(step.only, voice.size_names)}: ")
        _SAY[type(step)](voice, step)


def sizes_only(only: frozenset[int], names: Sequence[str]) -> str:
    """The sizes that a step, row or part belongs to.

    >>> sizes_only(frozenset({1, 2}), ("S", "M", "L")), sizes_only(frozenset({0}), ("S", "M"))
    ('sizes M and L only', 'size S only')
    """
    named = [names[k] if k < len(names) else str(k + 1) for k in sorted(only)]
    return f"size{'s' if len(named) > 1 else ''} {joined(named)} only"


_ASIDES = {"marker": "place marker", "stuff": "stuff", "close": "cut yarn and draw through remaining {sts} to close"}


def aside_words(step: Aside, voice: Voice) -> str:
    """The words of an aside; "" for a remark that only the source holds."""
    words = _ASIDES.get(step.kind, "").format(sts=plural(voice.st))
    if step.nths == (0,):
        return "move marker up"
    if step.nths and step.nths[0] < 0:
        back = -step.nths[0]
        return f"{words} in last {voice.st}" if back == 1 else f"{words} in center of these {2 * back - 1} {plural(voice.st)}"
    if step.nths:
        st = plural(voice.st) if len(step.nths) > 1 else voice.st
        return f"{words} in {joined([ordinal(n) for n in step.nths])} {st}"
    return words


def until_words(voice: Voice, end: str) -> str:
    """How far a repeat goes, said before it."""
    way = {"across": "to the end of the row", "around": "to the end of the round"}.get(end, end)
    return f"repeat {way}: "
