"""One row opened, for a terminal: what it was offered, each step in its words, which readings were taken and why, the total, how sure."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from ..pattern import Aside, FastenOff, Join, Pattern, Refer, Step, Turn, Unread
from ..trade.terms import System, spelled
from ..working import Derived, Fabric, PartWork, RowWork, Taken
from ..working.round_the_edge import counted_by_nobody
from .report import Lines
from .terminal import PLAIN, WIDE, Ink, braced, fit, kinds_told, labelled, width, wrap


def show_row(pattern: Pattern, fabric: Fabric, part: PartWork, row: RowWork, ink: Ink = PLAIN) -> str:
    """The whole derivation of one row: offered, each step in its words, used, made, running, the readings taken and why, the total."""
    return "\n".join(_row(pattern, fabric, part, row, ink))


def _row(pattern: Pattern, fabric: Fabric, part: PartWork, row: RowWork, ink: Ink) -> Iterator[str]:
    terms: System = next((told.terms for told in pattern.parts if told.name == part.name), pattern.terms)
    lines = Lines(pattern.source)
    size = f" · {pattern.facts.size_names[fabric.size]}" if len(pattern.facts.size_names) > 1 else ""
    head = f"{row.label} · {part.name}{size}"
    where = f"line {lines.of(row.written.span.start)[0]}" if pattern.source else ""
    yield f"{ink.bold}{head}{ink.off}{ink.dim}{where.rjust(WIDE - width(head))}{ink.off}"
    if pattern.source and row.written.span.end > row.written.span.start:
        yield from (f"{ink.dim}     │{ink.off} {text}" for text in wrap(" ".join(row.written.span.of(pattern.source).split()), 8))
    yield ""
    yield from labelled("Offered", _offer(part, row), ink.dim, ink)
    yield from labelled("Faces", _faces(row), ink.dim, ink)
    yield ""
    yield from _steps(pattern, row, terms, ink)
    yield ""
    yield from labelled("Used", _used(row), ink.dim, ink)
    yield from labelled("Makes", _makes(row, terms), ink.dim, ink)
    yield from labelled("Stated", _stated(row, terms, fabric.size), _state_ink(row, ink), ink)
    for at, reading in enumerate(_readings(row, part, fabric)):
        yield from labelled("Taken" if at == 0 else "", spelled(reading, terms), ink.dim, ink)
    for at, trouble in enumerate(row.troubles):
        yield from labelled("Trouble" if at == 0 else "", trouble.message, ink.red, ink)
    yield from labelled("Sure", _sure(part, row), ink.dim, ink)
    because = f"{terms} terms" + (f": {pattern.terms_because}" if pattern.terms_because else "")
    yield from labelled("Terms", because, ink.dim, ink)


def _offer(part: PartWork, row: RowWork) -> str:
    if row.below is None or row.offered is None:
        return "nothing that is counted out (a ring, a chain, row ends)"
    below = part.rows[row.below]
    name = "the foundation chain" if below.foundation else below.label
    return f"{row.offered} places by {name}"


def _faces(row: RowWork) -> str:
    side = "right side" if row.side == "RS" else "wrong side"
    begins = {"A": "begins at edge A", "B": "begins at edge B", "join": "begins at the join", "spiral": "goes on in a spiral"}[row.begins]
    because = f" ({row.side_because})" if row.side_because else ""
    return f"{side}{because}; {begins}; the work {'was' if row.turned else 'was not'} turned before it"


def _steps(pattern: Pattern, row: RowWork, terms: System, ink: Ink) -> Iterator[str]:
    """A line for each step: its words, what it took and made; and the words that took and made nothing, so that none are missing."""
    room = WIDE - 27
    yield f"  {ink.dim}{'the words':<{room}} {'takes':>6} {'makes':>6} {'so far':>7}{ink.off}"
    silent = _silent(row)
    for step in row.derivation:
        while silent and silent[0][0].span.start < step.span.start:
            yield from _line(pattern, *silent.pop(0), None, room, ink)
        yield from _line(pattern, step, spelled(_note(step), terms), f"{step.took:>6} {step.made:>6} {step.so_far:>7}", room, ink)
    for one, said in silent:
        yield from _line(pattern, one, said, None, room, ink)
    if not row.derivation:
        yield f"  {ink.dim}(no step takes a place or makes a stitch){ink.off}"


def _line(pattern: Pattern, step: Step | Derived, note: str, figures: str | None, room: int, ink: Ink) -> Iterator[str]:
    said = " ".join(step.span.of(pattern.source).split()) if pattern.source else ""
    first, *rest = textwrap.wrap(said, room, break_on_hyphens=False) or ["(step)"]
    yield f"  {fit(first, room)} {figures}" if figures else f"  {first}"
    yield from (f"  {line}" for line in rest)
    if note and note not in said:
        yield from (f"  {ink.dim}  {line}{ink.off}" for line in wrap(note, 6))


def _note(step: Derived) -> str:
    """What is said beside a step; of a repeat, what each time takes and makes."""
    times = step.note.removesuffix(" times")
    if times == step.note or not times.isdigit() or int(times) < 2 or step.took % int(times) or step.made % int(times):
        return step.note
    return f"{step.note}: each takes {step.took // int(times)} and makes {step.made // int(times)}"


def _silent(row: RowWork) -> list[tuple[Step, str]]:
    """The row's own words that take no place and make no stitch, in order, and what was made of them."""
    told = {one.step for one in row.derivation}
    quiet = (step for step in row.written.steps if step.id not in told and step.span.end > step.span.start)
    return sorted(((step, said) for step in quiet if (said := _said_of(step, row)) is not None), key=lambda one: one[0].span)


def _said_of(step: Step, row: RowWork) -> str | None:
    """What was made of words that work nothing: "" where they say it themselves, None where they need no line."""
    match step:
        case Unread():
            return "not understood: nothing was worked for these words"
        case Aside():
            return "set aside as a remark: nothing was worked for these words"
        case Turn():
            return "the work is not turned" if step.no else ""
        case Join():
            return "the round is not closed" if step.no else ""
        case FastenOff():
            return ""
        case Refer():
            return "the steps above are those that this means" if row.derivation else "the rows that this means were not found"
    return None


def _used(row: RowWork) -> str:
    if row.offered is None or row.used is None:
        return "not counted out"
    if row.used > row.offered:
        return f"{row.used} asked for, {row.offered} offered: {row.used - row.offered} too many"
    left = row.offered - row.used
    return f"{row.used} of {row.offered}" + (f", {left} left" if left else "")


def _makes(row: RowWork, terms: System) -> str:
    if counted_by_nobody(row):
        return "as many as the edge takes: no row counted it, and no number is stated"
    kinds = spelled(kinds_told(row), terms)
    exact = {kind: number for kind, number in row.counted.made.items() if row.counted.by_kind.get(kind) != number}
    told = ", ".join(f"{number} {{{kind}}}" for kind, number in sorted(exact.items()))
    tail = f"; as worked: {spelled(told, terms)}" if told else ""
    return f"{row.counted.total} in all ({kinds}){tail}" if kinds else f"{row.counted.total} in all"


def _stated(row: RowWork, terms: System, size: int) -> str:
    told = [f"{count.number.at(size)} {'stitches' if count.kind == 'st' else braced(count.kind)}" for count in row.stated]
    shown = spelled(", ".join(told), terms) if told else "no count"
    verdict = {
        "agrees": "agrees",
        "differs": "differs",
        "unstated": "",
        "uncompared": "not compared with what was worked",
        "unread": "the row was not read",
        "assumed": "the count was taken on trust",
    }[row.state]
    return "; ".join(part for part in (shown, verdict) if part)


def _state_ink(row: RowWork, ink: Ink) -> str:
    return ink.red if row.state == "differs" else ink.green if row.state == "agrees" else ink.dim


def _readings(row: RowWork, part: PartWork, fabric: Fabric) -> Iterator[str]:
    """Each question that this row's words leave open: the answer taken, why, and what else was possible."""
    taken = {one.question: one for key, one in fabric.taken.items() if key.startswith(f"{part.name}: ")}
    for reading in row.readings:
        known = next((one for question, one in taken.items() if reading.startswith(question)), None)
        yield reading if known is None else _reading(known, row)


def _reading(taken: Taken, row: RowWork) -> str:
    if taken.because == "custom":
        why = "by custom"
    elif row.state == "agrees":
        why = "it makes the count that is stated, and custom's answer does not fit the part so well"
    else:
        why = "it fits the part's other rows better than custom's answer"
    return f"{taken.question} {taken.answer[:1].upper()}{taken.answer[1:]}: {why}."


def _sure(part: PartWork, row: RowWork) -> str:
    """How sure a flaw found in this row is, and what it hangs on."""
    if row.worked == "assumed" or row.state == "assumed":
        return "no: what could not be worked was taken on trust, as stated or as wide as the row below"
    if row.read != "whole":
        return "no: some of its words were not understood"
    if row.doubt:
        below = part.rows[row.below].label if row.below is not None and 0 <= row.below < len(part.rows) else "the row below"
        return f"not quite: what {below} offers, or which places are meant, could not be told for certain"
    return "yes: every word was understood and every place accounted for" if not row.troubles else "yes: every word was understood"


__all__ = ["show_row"]
