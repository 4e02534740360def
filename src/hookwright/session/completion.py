"""What may come next under the cursor: stitches, places, the row's count, the next row's likely words."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal, TypeAlias

from ..pattern import Part, Row, Span
from ..trade.stitches import stitches
from ..trade.terms import System, abbr, name, say
from .document import Session
from .glossary import MEANINGS
from .tally import said
from .utf16 import line_at

Kind: TypeAlias = Literal["stitch", "place", "row", "count", "word"]

PLACES: tuple[str, ...] = (
    "in next st",
    "in each st across",
    "in each st around",
    "in each of next ",
    "in same st",
    "in first st",
    "in last st",
    "in next ch-2 sp",
    "in top of turning chain",
    "in back loop only",
    "in front loop only",
    "around post of next st",
    "to last 2 sts",
    "in 2nd ch from hook",
)
HABITS: tuple[str, ...] = (
    "turn",
    "join with sl st to first st",
    "repeat from * across",
    "repeat from * around",
    "fasten off",
    "do not turn",
    "change to ",
)

_ROW_LABEL = re.compile(
    r"^\s*(?:\*\*)?(?P<noun>Row|Rows|Rnd|Rnds|Round|Rounds)\s+(?P<first>\d+)(?:\s*[-–]\s*(?P<last>\d+))?", re.IGNORECASE
)
_WORD = re.compile(r"[A-Za-z0-9-]*$")
_STARTS_A_ROW = re.compile(r"^\s*(?:R|Ro|Row|Rn|Rnd|Ro?u|Rou|Roun|Round)?\s*$", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Completion:
    """One thing to put in place of `span`."""

    label: str
    insert: str
    kind: Kind
    span: Span
    detail: str = ""


def complete(session: Session, point: int) -> tuple[Completion, ...]:
    """What may stand at the code point `point`, the likeliest first."""
    text = session.text
    line = text[line_at(text, point)[0] : point]
    row = session.row_at(point)
    terms: System = row[0].terms if row else session.read.terms
    if _STARTS_A_ROW.match(line):
        rows = _next_rows(session, point, line)
        if rows:
            return rows
    if row and line.endswith("("):
        return _count(session, row, Span(point, point))
    typed = _WORD.search(line)
    prefix = typed[0] if typed else ""
    span = Span(point - len(prefix), point)
    if row is None and not prefix:
        return ()
    return (*_stitches(session, prefix, span, terms), *_phrases(prefix, span, terms), *_words(prefix, span))


def _stitches(session: Session, prefix: str, span: Span, terms: System) -> tuple[Completion, ...]:
    own = tuple(
        Completion(label=special, insert=special, kind="stitch", span=span, detail="defined in this pattern")
        for special in session.read.defined
        if special.lower().startswith(prefix.lower())
    )
    seen = {item.label for item in own}
    listed = []
    for kind in stitches():
        short = abbr(kind, terms)
        if short not in seen and short.lower().startswith(prefix.lower()):
            seen.add(short)
            listed.append(Completion(label=short, insert=short, kind="stitch", span=span, detail=name(kind, terms)))
    return own + tuple(listed)


def _phrases(prefix: str, span: Span, terms: System) -> tuple[Completion, ...]:
    said_here = [phrase for phrase in (*PLACES, *HABITS) if phrase.startswith(prefix.lower())]
    return tuple(Completion(label=phrase.strip(), insert=phrase, kind="place", span=span) for phrase in said_here)


def _words(prefix: str, span: Span) -> tuple[Completion, ...]:
    if len(prefix) < 3:
        return ()
    found = [word for word in MEANINGS if word.startswith(prefix.lower())]
    return tuple(Completion(label=word, insert=word, kind="word", span=span, detail=MEANINGS[word]) for word in found)


def _count(session: Session, found: tuple[Part, Row], span: Span) -> tuple[Completion, ...]:
    """The row's own count, ready to be written in its brackets."""
    part, row = found
    works = [done for _, done in session.worked(row) if not done.foundation]
    if not works:
        return ()
    counted = said(works[-1].counted.by_kind, part.terms)
    closing = "" if session.text[span.start : span.start + 1] == ")" else ")"
    return (Completion(label=f"({counted})", insert=counted + closing, kind="count", span=span, detail="as worked"),)


def _next_rows(session: Session, point: int, line: str) -> tuple[Completion, ...]:
    """The next row's label, with the words the rows before it make likely."""
    above = _rows_above(session, point)
    if not above:
        return ()
    part, row = above[-1]
    matched = _ROW_LABEL.match(row.label)
    if not matched:
        return ()
    noun = matched["noun"].rstrip("s") if matched["noun"].lower() != "rnds" else "Rnd"
    number = int(matched["last"] or matched["first"]) + 1
    span = Span(point - len(line.lstrip()), point)
    label = f"{noun} {number}: "
    same = [label + words for words in _likely_words(session, above)]
    repeats = [f"{label}{say('repeat', part.terms).capitalize()} {noun} {number - back}." for back in (1, 2) if number - back >= 2]
    return tuple(
        Completion(label=_short(insert), insert=insert, kind="row", span=span, detail=detail)
        for insert, detail in [
            (label, "the next label"),
            *((words, "as the row above") for words in same),
            *((words, "the same again") for words in repeats),
        ]
    )


def _rows_above(session: Session, point: int) -> list[tuple[Part, Row]]:
    return [(part, row) for part in session.read.parts for row in part.rows if row.span.end <= point and row.numbers]


def _likely_words(session: Session, above: list[tuple[Part, Row]]) -> list[str]:
    """The words of the row above, without label and count, with the count it would give left to be worked."""
    _, row = above[-1]
    words = session.text[row.label_span.end : row.span.end].lstrip(" :.-")
    for count in sorted(row.stated, key=lambda count: count.span, reverse=True):
        if row.label_span.end <= count.span.start < row.span.end:
            words = session.text[row.label_span.end : count.span.start].lstrip(" :.-").rstrip(" ([—-=")
            break
    words = " ".join(words.split())
    return [words] if words and len(words) < 400 else []


def _short(words: str) -> str:
    return words.strip() if len(words) <= 70 else words[:68].rstrip() + " …"
