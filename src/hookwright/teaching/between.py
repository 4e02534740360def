"""What a maker tells besides the stitches and a film must not forget: stuffing, eyes, a change of yarn, where the tail goes."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..pattern import FLAT, Aside, FastenOff, Part, Pattern, Row, Span, Unread

_VERBS = (
    "stuff(?:ing)?|fill(?:ing)?|insert|place|put|position|attach|add|glue|sew|stitch|embroider|change|switch|turn|weave|thread|run|pull|draw|"
    "close|gather|flatten|fold|pin|leave|cut|trim|brush|tie|knot|wrap|press|steam|block|mark|make (?!(?:two|three|four|\\d+)[ .]*$)"
)
_DOING = re.compile(
    r"(?i)^(?:now |then |next,? |before (?:closing|going on|continuing),? )?"
    rf"(?:(?:begin|start|keep|continue|finish) (?:to |by )?)?(?:{_VERBS})\b"
)
_TAIL = re.compile(r"(?i)^.{0,40}?(?:,| and| (?=leaving)) ?(?:and )?(?P<rest>\w.+)$", re.S)
_PLACED = ("marker", "define", "stuff", "close")
"""Remarks of a row that its own words tell, or that are no work."""
_STOP = re.compile(r"(?<=[.!?]) +(?=[A-Z])")
_ENDS = re.compile(r"(?i)^weave in (?:(?:all|the|your|any|loose|remaining) )*ends?\b")
"""Told with the finishing, where it has a shot of its own."""
_SHORT = (
    (re.compile(r"\b[Rr](?:nd|d)?s\.? ?(?=\d)"), "{noun}s "),
    (re.compile(r"\b[Rr](?:nd|d)?\.? ?(?=\d)"), "{noun} "),
    (re.compile(r"\b[Rr]nd\b"), "{noun}"),
    (re.compile(r"\bch(?= \d)"), "chain"),
    (re.compile(r"\bsl st\b"), "slip stitch"),
    (re.compile(r"\bsts\b"), "stitches"),
    (re.compile(r"\bst\b"), "stitch"),
    (re.compile(r"\bsps\b"), "spaces"),
    (re.compile(r"\bsp\b"), "space"),
    (re.compile(r"\bWS\b"), "wrong side"),
    (re.compile(r"\bRS\b"), "right side"),
)
LONGEST = 160
"""Letters of a sentence that is still said: what is longer than a breath is left to the page (from memory)."""


def told_after(pattern: Pattern, part: Part, written: int) -> Iterator[str]:
    """The sentences that stand behind the stitches of the written row with that id and before the next row, and tell something to do.

    They are the maker's own words; a heading ends them, and what the pattern's seams tell is shown with the seams.
    """
    at = next((k for k, row in enumerate(part.rows) if row.id == written), None)
    if at is None:
        return
    row = part.rows[at]
    noun = "row" if row.made_in in FLAT else "round"
    following = next((other for other in part.rows[at + 1 :] if not only_told(other)), None)
    end = following.span.start if following is not None else len(pattern.source)
    seams = [seam.span for seam in pattern.seams]
    for words, span in (*_in_row(pattern, row), *_lines(pattern, row.span.end, end)):
        if any(seam.start < span.end and span.start < seam.end for seam in seams):
            continue
        for sentence in _STOP.split(words):
            said = _sentence(sentence)
            if said:
                yield whole_words(said, noun)


def only_told(row: Row) -> bool:
    """Whether an instruction without a number holds nothing but words: "Make four tassels and knot one into each corner"."""
    return not row.numbers and bool(row.steps) and all(isinstance(step, Unread | Aside) for step in row.steps)


def _in_row(pattern: Pattern, row: Row) -> Iterator[tuple[str, Span]]:
    """What the row itself tells behind its stitches: remarks, and what becomes of the tail."""
    for step in row.steps:
        words = " ".join(step.span.of(pattern.source).split())
        if isinstance(step, Aside) and step.kind not in _PLACED:
            yield words, step.span
        elif isinstance(step, FastenOff):
            tail = _TAIL.match(words)
            if tail is not None:
                yield re.sub(r"(?i)^leaving\b", "leave", tail["rest"]), step.span


def _lines(pattern: Pattern, start: int, end: int) -> Iterator[tuple[str, Span]]:
    at = start
    for line in pattern.source[start:end].splitlines(keepends=True) if start < end else ():
        span = Span(at, at + len(line))
        at += len(line)
        words = line.strip().strip("*_").lstrip(" .,;").strip()
        if words.startswith("#"):
            return
        yield words, span


def _sentence(words: str) -> str:
    """The words as a sentence, if they tell something to do; "" otherwise."""
    words = words.strip(" :;,")
    if not _DOING.match(words) or _ENDS.match(words) or len(words) > LONGEST or words.isupper():
        return ""
    return f"{words[0].upper()}{words[1:]}{'' if words[-1] in '.!?' else '.'}"


def whole_words(said: str, noun: str) -> str:
    """The usual abbreviations of such sentences in full, as they are said."""
    for short, whole in _SHORT:
        said = short.sub(whole.format(noun=noun), said)
    return said
