"""Rows in words: label, steps, count."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from ..pattern import Chain, Count, Even, Make, Refer, Row, Sized, Span, Step
from ..trade.kinds import TUNISIAN
from .lexicon import Lexicon
from .numbers import figure, number, one, plural, sizes, spans_of
from .steps import Voice, say_steps, sizes_only


@dataclass(frozen=True, slots=True, kw_only=True)
class RowWords:
    """One row as written. `label` with its side and sizes, without the colon; `words` the instruction; `count` what stands at its end;
    `span` the whole row in the text; `steps` the words step by step (joined they are the words)."""

    id: int
    label: str
    words: str
    count: str
    span: Span
    steps: tuple[str, ...] = ()


def label_words(row: Row, lexicon: Lexicon, names: tuple[str, ...] = (), *, side: bool = True) -> str:
    """The label: "Row 4 (RS)", "Rnds 5-8", "Row 8 (10, 12)", "Next 3 rows"; "" for an instruction without one."""
    said = _numbered(row, lexicon)
    remarks: list[str] = [lexicon.word(row.side)] if row.side and side and said else []
    if row.only is not None:
        remarks.append(sizes_only(row.only, names))
    return f"{said} ({', '.join(remarks)})" if remarks else said


def noun_of(row: Row) -> Literal["Row", "Rnd"]:
    """What the row is called: whatever goes round is a round, also where the pattern calls it a row."""
    return "Rnd" if row.noun == "round" or row.made_in not in ("rows", "passes") else "Row"


def _numbered(row: Row, lexicon: Lexicon) -> str:
    noun = lexicon.word("Rnd") if noun_of(row) == "Rnd" else "Row"
    told = [numbers for numbers in row.numbers if numbers]
    if told:
        many = any(len(numbers) > 1 for numbers in told)
        return (
            f"{noun}{'s' if many else ''}{lexicon.space}{sizes([spans_of(numbers, least=2 if len(told) > 1 else 3) for numbers in told])}"
        )
    if row.rows_count is not None:
        if one(row.rows_count):
            return f"Next {noun.lower()}"
        return f"Next {number(row.rows_count)}{lexicon.space}{noun.lower()}s"
    if row.label == "Next row" and row.label_span.end > row.label_span.start:
        return f"Next {noun.lower()}"  # said so in the text: without it the row would read as more of the one before
    return "" if row.label in UNLABELLED else row.label.replace("rnd", lexicon.word("Rnd").lower())


UNLABELLED = ("Foundation", "Start", "Repeat", "Fasten off", "Next row")
"""What an instruction that has no label in the text is called inside: it is written without one ("Ch 33.")."""


def count_words(stated: tuple[Count, ...], lexicon: Lexicon, noun: str = "row") -> str:
    """The counts of a row's end: "24 dc", "12 hdc, 6 ch-2 sps", "8 sts increased"; of a range "8 sts increased in each row, 56 dc"."""
    told = [count for count in stated if not count.running]
    each = f" in each {noun}" if len({count.change for count in told}) > 1 else ""  # a change beside a total: the rows of a range
    return ", ".join(_count(count, lexicon) + (each if count.change else "") for count in told)


def _count(count: Count, lexicon: Lexicon) -> str:
    noun = lexicon.noun(count.kind)
    if count.change:
        grows = all((n or 0) >= 0 for n in count.number.values)
        size = Sized(tuple(None if n is None else abs(n) for n in count.number.values))
        return f"{number(size)}{lexicon.space}{noun if one(size) else plural(noun)} {'increased' if grows else 'decreased'}"
    said = f"{number(count.number)}{lexicon.space}{noun if one(count.number) else plural(noun)}"
    if count.approximate:
        said = f"about {said}"
    if count.per:
        said += f" {'on' if count.per == 'side' else 'in'} each {count.per}"
    if count.chains:
        said += ", chains included"
    return said


def say_row(voice: Voice, row: Row) -> RowWords:
    """Say one row; returns it as written, with its place in the text."""
    out, lexicon = voice.out, voice.lexicon
    start = len(out)
    voice.noun = noun_of(row)
    label = label_words(row, lexicon, voice.size_names, side=lexicon.style.sides)
    with out.node(row.id):
        if label:
            out.say(f"{label}: ")
        mark, at = out.mark(), len(out)
        begins: list[int] = []
        _say_instruction(voice, row, begins)
        out.capital(mark)
        words = out.since(mark)
        cuts = [0, *(begin - at for begin in begins[1:]), len(words)]
        steps = tuple(words[begin:end] for begin, end in pairwise(cuts))
        count = count_words(row.stated, lexicon, voice.noun.lower())
        out.say(f"{'. In all, ' if lexicon.style.spoken else ' — '}{count}." if count else "." if words else "")
    return RowWords(id=row.id, label=label, words=words, count=count, span=Span(start, len(out)), steps=steps)


def _say_instruction(voice: Voice, row: Row, begins: list[int]) -> None:
    """The steps; how long they are repeated is said right behind the row they repeat."""
    steps = [step for step in row.steps if not _loop_on_hook(step)]
    lead = 1 if row.until is not None and steps and isinstance(steps[0], (Refer, Even)) else len(steps)
    say_steps(voice, steps[:lead], begins=begins)
    if row.until is not None:
        voice.out.say(_until(row, voice))
    if steps[lead:]:
        voice.out.say(", ")
        say_steps(voice, steps[lead:], begins=begins)
    if _tunisian(row.steps):
        voice.out.say(f", {voice.lexicon.word('return pass')}")


def _tunisian(steps: Sequence[Step]) -> bool:
    return any((isinstance(step, Make) and step.stitch in TUNISIAN) or _tunisian(getattr(step, "body", ())) for step in steps)


def _loop_on_hook(step: Step) -> bool:
    """Whether a chain is the loop that a Tunisian row begins with: nobody writes it."""
    return isinstance(step, Chain) and not step.foundation and bool(step.stands_for) and step.stands_for[0] in TUNISIAN


def _until(row: Row, voice: Voice) -> str:
    assert row.until is not None
    if row.until.stitches is not None:
        return f" until {voice.count(row.until.stitches, voice.lexicon.noun(row.until.what))} remain"
    if row.until.length_cm is not None:
        return f" until piece measures {sizes([figure(cm) for cm in row.until.length_cm.values])}{voice.lexicon.space}cm"
    return ""
