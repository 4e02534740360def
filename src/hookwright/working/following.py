"""Pieces told as another piece: "work same as Back to underarm", "work first 3 rounds same as flower", "as Front, reversing shaping"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from ..pattern import Colour, Make, Part, Refer, Row, Step, founds
from .changes import changed, recoloured
from .needs import asks_for_work

if TYPE_CHECKING:
    from .plan import Due, Follow

MOST_NESTED = 3
"""Pieces told as pieces told as pieces: deeper than this they are called circular."""

_HEADS = {
    "armhole": re.compile(r"(?i)(?:shape\s+|for\s+)?(?:the\s+)?(?:arm\s?holes?|underarms?|raglan)"),
    "neck": re.compile(r"(?i)(?:shape\s+|for\s+|divide\s+for\s+)?(?:the\s+)?(?:front\s+|back\s+|v-?\s?)?neck"),
    "shoulder": re.compile(r"(?i)(?:shape\s+|for\s+)?(?:the\s+)?shoulders?"),
}
_MEASURES = re.compile(r"(?i)\b(?:until|measures?)\b")


def whole_part(row: Row) -> Refer | None:
    """The reference by which this row stands for another piece, or for several rows of it."""
    refer = next((s for s in row.steps if isinstance(s, Refer) and not s.rest), None)
    if refer is None or refer.part is None or len(refer.rows) == 1 or (row.numbers and not refer.rows):
        return None
    return refer


def part_named(name: str, parts: Sequence[Part], but: Part) -> Part | None:
    """The piece of that name (or whose name begins or ends with it), never the one that refers."""
    wanted = name.lower()
    others = [part for part in parts if part is not but and part.name]
    if (section := next((one for one in others if one.of and wanted in _as_section(one)), None)) is not None:
        return section
    for fits in (str.__eq__, str.startswith, str.endswith):
        for part in others:
            if fits(part.name.lower(), wanted):
                return part
    return None


def _as_section(part: Part) -> tuple[str, str]:
    """The two names of a section of a piece."""
    piece, name = part.of.lower(), part.name.lower()
    return f"{piece} {name}", f"{name} of {piece}"


def sections_of(name: str, parts: Sequence[Part], but: Part) -> list[Part]:
    """The sections that make up the piece of that name, in order; the piece itself where it has none; [] where there is no such piece."""
    sections = [part for part in parts if part.of and part.of.lower() == name.lower() and part.of != but.of]
    if sections:
        return sections
    alone = part_named(name, parts, but)
    return [alone] if alone is not None else []


def part_dues(row: Row, refer: Refer, follow: Follow, counter: int | None) -> list[Due]:
    """The rows of the piece meant, as rows of this one; [] when there is no such piece. `counter`: the last number this piece has used."""
    from .plan import lay_out

    sections = sections_of(refer.part or "", follow.parts, follow.part)
    if not sections or follow.depth >= MOST_NESTED:
        return []
    dues: list[Due] = []
    for target in sections:
        inner = follow.into(target)
        dues += [due if due.follow is not None else replace(due, follow=inner) for due in lay_out(target, inner, follow.size)]
    if refer.rows:
        first = min((due.number for due in dues if due.number is not None), default=None)
        dues = [due for due in dues if due.number in refer.rows or _stands_under(due, from_first=first in refer.rows)]
    elif (section := _section(row, follow.source)) is not None:
        dues = _under(dues, section, follow.source)
    elif refer.upto in _HEADS:
        dues = dues[: _heading(dues, refer.upto, follow.source)]
    if not refer.rows and follow.order and not _begins_anew(row, refer):
        dues = _going_on(dues, counter)
    dues = _as_long(dues, row, follow.size)
    return list(_told_here(dues, row, refer, inner))


def _stands_under(due: Due, *, from_first: bool) -> bool:
    """Whether a row without a number goes with the numbered rows meant: one that asks for no work, or
    foundation stitches under the first."""
    if due.number is not None or due.k:
        return False
    return not asks_for_work(due.steps) or (from_first and any(isinstance(s, Make) and s.at.where == "hook" for s in due.steps))


def _heading(dues: list[Due], what: str, source: str) -> int:
    """Where the rows of that heading begin."""
    for i, due in enumerate(dues):
        begins = due.row.span.of(source)[:48].lstrip(" .\n")
        if i and _HEADS[what].match(begins) and not _MEASURES.search(begins[:24]):
            return i
    return len(dues)


def _section(row: Row, source: str) -> str | None:
    """The heading this row stands under itself: "SHAPE ARMHOLES: Same as back" means what stands under that heading there."""
    begins = row.span.of(source)[:40].lstrip(" .\n*_=")
    return next((what for what, head in _HEADS.items() if begins[:1].isupper() and head.match(begins)), None)


def _under(dues: list[Due], what: str, source: str) -> list[Due]:
    """The rows under that heading, up to the next."""
    start = _heading(dues, what, source)
    heads = [_heading(dues, other, source) for other in _HEADS if other != what]
    end = min((at for at in heads if at > start), default=len(dues))
    return dues[start:end]


def _begins_anew(row: Row, refer: Refer) -> bool:
    return any(founds(step) for step in row.steps[: row.steps.index(refer)])


def _going_on(dues: list[Due], counter: int | None) -> list[Due]:
    """ "Then work same as right front": what follows there on the rows already told here."""
    at = next((i for i in range(len(dues) - 1, -1, -1) if counter is not None and dues[i].number == counter), -1)
    return [due for due in dues[at + 1 :] if asks_for_work(due.steps)]


def _as_long(dues: list[Due], row: Row, size: int) -> list[Due]:
    """So many rows of it ("for 12 rows"), or until it measures what is told here."""
    told = row.rows_count.at(size) if row.rows_count is not None else len(row.numbers_at(size)) or None
    if told:
        worked = [i for i, due in enumerate(dues) if asks_for_work(due.steps)]
        return dues[: worked[told - 1] + 1] if 0 < told <= len(worked) else dues
    if row.until is not None and row.until.length_cm is not None:
        at = next((i for i, due in enumerate(dues) if due.until is not None), None)
        if at is not None:
            return [*dues[:at], replace(dues[at], until=row.until)]
    return dues


def _told_here(dues: list[Due], row: Row, refer: Refer, inner: Follow) -> Iterator[Due]:
    at = row.steps.index(refer)
    before, after = row.steps[:at], row.steps[at + 1 :]
    own = any(founds(step) for step in before)
    later = bool(refer.rows) and min(refer.rows) > 1  # on rows of its own, which may have another width
    if own:
        dues = [due for due in dues if asks_for_work(due.steps)]
    for i, due in enumerate(dues):
        steps = changed(due.steps, replace(refer, changes=() if i else _colours(refer.changes)))
        if own:
            steps = tuple(step for step in steps if not founds(step))
        if not i:
            before, steps = recoloured(before, steps)
            steps = (*before, *steps)
        last = i == len(dues) - 1
        if last:
            steps = (*steps, *(step for step in refer.changes if not isinstance(step, Colour)), *after)
        kept = () if own or later or refer.changes else due.stated
        yield replace(
            due, written=row, steps=inner.shared(steps), stated=row.stated if last and row.stated else kept, from_row=due.label,
            follow=due.follow or inner,
        )  # fmt: skip


def _colours(changes: tuple[Step, ...]) -> tuple[Step, ...]:
    return tuple(step for step in changes if isinstance(step, Colour))


__all__ = ["part_dues", "part_named", "whole_part"]
