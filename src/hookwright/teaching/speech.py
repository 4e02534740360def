"""Written instructions as people say them: numbers in words, the small words put back, signs spoken."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from itertools import groupby

_ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen",
    "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ["zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_ORDINAL = {"one": "first", "two": "second", "three": "third", "five": "fifth", "eight": "eighth", "nine": "ninth", "twelve": "twelfth"}


def number_words(n: int) -> str:
    """A number as it is said; from ten thousand on the figures stay.

    >>> number_words(7), number_words(24), number_words(113), number_words(2000)
    ('seven', 'twenty-four', 'one hundred and thirteen', 'two thousand')
    """
    if n < 0 or n >= 10_000:
        return str(n)
    if n < 20:
        return _ONES[n]
    if n < 100:
        return _TENS[n // 10] + (f"-{_ONES[n % 10]}" if n % 10 else "")
    head, tail = (n // 100, n % 100) if n < 1000 else (n // 1000, n % 1000)
    said = f"{number_words(head)} {'hundred' if n < 1000 else 'thousand'}"
    if not tail:
        return said
    return f"{said} and {number_words(tail)}" if tail < 100 else f"{said} {number_words(tail)}"


def ordinal_words(n: int) -> str:
    """The ordinal as it is said.

    >>> ordinal_words(2), ordinal_words(20), ordinal_words(21), ordinal_words(4)
    ('second', 'twentieth', 'twenty-first', 'fourth')
    """
    head, dash, last = number_words(n).rpartition("-")
    if last in _ORDINAL:
        return f"{head}{dash}{_ORDINAL[last]}"
    return f"{head}{dash}{last[:-1]}ieth" if last.endswith("y") else f"{head}{dash}{last}th"


_THING = (
    r"(?= (?!of|in|on|wide|long|deep|high|thick|across|apart|square|by|at|to|and|or|from|for|over|per|each|a|the|more|less|tall)[a-z-]+\b)"
)
"""A measure before the thing that has it stands in the singular: "a 3 millimetre hook"."""
_SIZED = {"g": "grams", "m": "metres", "mm": "millimetres", "cm": "centimetres", "oz": "ounces", "yd": "yards"}
_UNITS: tuple[tuple[re.Pattern[str], str | Callable[[re.Match[str]], str]], ...] = (
    (re.compile(rf"(?<=\d) ?mm\b{_THING}"), " millimetre"),
    (re.compile(rf"(?<=\d) ?cm\b{_THING}"), " centimetre"),
    (re.compile(r"(?<=\d) ?mm\b"), " millimetres"),
    (re.compile(r"(?<=\d) ?cm\b"), " centimetres"),
    (re.compile(r"(?<=\d) ?m\b"), " metres"),
    (re.compile(r"(?<=\d) ?g\b"), " grams"),
    (re.compile(r"(?<=\d\)) ?(g|m|mm|cm|oz|yd)\b"), lambda m: f" {_SIZED[m[1]]}"),  # behind the figures of all sizes: "60 (80, 95) g"
    (re.compile(r"(?<=\d) ?oz\b"), " ounces"),
    (re.compile(r"(?<=\d) ?yd\b"), " yards"),
    (re.compile(r"(?<=\d) in(?=[).,])"), " inches"),
    (re.compile(r"(?<=\d) ?%"), " percent"),
    (re.compile(r"(?<=\d) ?[\"″](?=[\s).,;]|$)(?= [a-z])"), " inch"),
    (re.compile(r"(?<=\d) ?[\"″](?=[\s).,;]|$)"), " inches"),
    (re.compile(r" = "), " to "),
    (re.compile(r" / "), ", "),
)
_STANDARD = re.compile(r"\b(?:[A-Z]{2,}(?:/[A-Z]{2,})?|\d+ CFR|\(EU\)|ASTM F)(?: [A-Z]{2,})? ?\d[\d./-]*|\b[A-Z]\d+\b|\bUS [A-Z]-\d+")
"""Names of standards and codes of hooks: their figures are not numbers of anything and stay as they are."""


def aloud(text: str) -> str:
    """The text with every number in words; the figures of standards stay.

    >>> aloud("Chain 3. 2 dc in the 4th chain; 4.5 mm."), aloud("Look at EN 71-1 for under 3.")
    ('Chain three. Two dc in the fourth chain; four point five millimetres.', 'Look at EN 71-1 for under three.')
    """
    said = text
    for pattern, put in _UNITS:
        said = pattern.sub(put, said)
    out, at = [], 0
    for code in _STANDARD.finditer(said):
        out += [_numbers_in_words(said[at : code.start()]), code[0]]
        at = code.end()
    return capitals("".join([*out, _numbers_in_words(said[at:])]))


def _numbers_in_words(said: str) -> str:
    said = re.sub(r"\b(\d+)(?:st|nd|rd|th)\b", lambda m: ordinal_words(int(m[1])), said)
    said = re.sub(r"\b(\d+)\.(\d+)\b", lambda m: f"{number_words(int(m[1]))} point {' '.join(_ONES[int(d)] for d in m[2])}", said)
    said = re.sub(r"\bchain-(\d+)", lambda m: f"chain-{number_words(int(m[1]))}", said)
    return re.sub(r"\b\d+\b", lambda m: number_words(int(m[0])), said)


def capitals(text: str) -> str:
    """Every sentence begun with a capital."""
    return re.sub(r"(^|[.!?:] )([a-z])(?=[a-z])", lambda m: m[1] + (m[2] if m[1].startswith(":") else m[2].upper()), text)


_PLACE_WORDS = r"next|last|first|same|previous|marked|ring|hook|top|magic|skipped|\d+(?:st|nd|rd|th)\b"
_SMALL = (
    (re.compile(rf"\b(in|of|over|to|around|skip|miss|from|into|under|before|after|each) (?={_PLACE_WORDS})"), r"\1 the "),
    (re.compile(r"\bto the end of (?=row|round)"), "to the end of the "),
    (re.compile(r"\bin each (?=\d+ )"), "in each of the "),
    (re.compile(r"\b(\d+) (single|double|half|treble|triple) crochets\b"), r"\1 \2 crochet"),
    (re.compile(r"\bto the last\b(?! )"), "to the last"),
    (re.compile(r"\bwith slip stitch\b"), "with a slip stitch"),
    (re.compile(r"\b(in|into) (?=(?:front|back|third) loops? only\b)"), r"\1 the "),
    (re.compile(r"\b(top|chain) of (?=chain-\d)"), r"\1 of the "),
    (re.compile(r"(from the hook), (?=(?:the )?skipped)"), r"\1; "),
    (re.compile(r"\bthe the\b"), "the"),
    (re.compile(r"\beach the\b"), "each"),
    (re.compile(r"\u00a0"), " "),
)


def spoken(words: str) -> str:
    """An instruction in whole words with its small words put back; figures stay figures.

    >>> spoken("2 double crochet in 4th chain from hook, skip next stitch, single crochet in each of next 3 stitches")
    '2 double crochet in the 4th chain from the hook, skip the next stitch, single crochet in each of the next 3 stitches'
    """
    for pattern, put in _SMALL:
        words = pattern.sub(put, words)
    return words


_REPEAT = re.compile(
    r"^repeat (?P<how>[^:]{1,60}): (?P<body>.*?);? ?end of repeat(?P<cut>, the last time without [^,]+)?(?:, ending with (?P<last>.+))?$"
)
_KEPT = "\u0001"
"""Stands for a comma inside a group, where a repeat is not parted."""
_COUNTS = re.compile(r"\b(counts?) as (?=[a-z])(?!an? )(stitch|(?:half |foundation |extended )?(?:single|double|treble|triple))")
_SKIPPED = re.compile(r"\bskipped (\d+) chains (do not count|count)")
_GROUP = re.compile(r"\bgroup of (.+?), all of it in (?=the|same|next|each|every|first|last)")


def sentences(steps: Iterable[str]) -> tuple[str, ...]:
    """The steps of a row as short sentences, one thing at a time, figures kept; a repeat says how often first, and then what.

    >>> sentences(("chain 3, which counts as double crochet, ", "repeat 3 times: chain 1, skip next stitch; end of repeat, ", "turn"))
    ('Chain 3, which counts as a double crochet.', 'Do this 3 times: chain 1, then skip the next stitch.', 'Turn.')
    """
    return tuple(said for step in _together(list(steps)) if (said := _sentence(step)))


_ALONG = re.compile(r"^(?P<what>[^:;]+ in each (?!of )[^:;,]+?) (?P<over>around|across)$")


def _together(steps: list[str]) -> Iterator[str]:
    """The steps; those worked along the whole row each in places of its own as one, for they come in turn and not one after the other.

    >>> list(_together(["double crochet in each treble around, ", "3 double crochet in each chain-2 space around, ", "turn"]))
    ['all the way around, as they come: double crochet in each treble, 3 double crochet in each chain-2 space', 'turn']
    """
    for along, run in groupby(steps, key=lambda step: _ALONG.match(step.strip(" .;,")) is not None):
        found = list(run)
        if not along or len(found) == 1:
            yield from found
            continue
        told = [match for step in found if (match := _ALONG.match(step.strip(" .;,"))) is not None]
        whats = [f"{match['what'][:1].lower()}{match['what'][1:]}" for match in told]
        yield f"all the way {told[-1]['over']}, as they come: {', '.join(whats)}"


def _sentence(step: str) -> str:
    words = spoken(step.strip(" .;,"))
    words = words[:1].lower() + words[1:]
    words = _GROUP.sub(lambda m: f"{m[1].replace(', ', _KEPT)}{_KEPT}all in ", words)
    words = re.sub(r"^with (\S+)$", r"take yarn \1", words)
    repeat = _REPEAT.match(words)
    if repeat:
        how, body = repeat["how"], ", then ".join(part for part in re.split(r"[,;] ", repeat["body"]) if part)
        lead = f"do this {how}" if "times" in how else f"do this {'all the way ' if how.startswith('to the last') else ''}{how}"
        cut, last = repeat["cut"] or "", repeat["last"]
        words = f"{lead}: {body}{cut}{f'; and at the end {last}' if last else ''}"
    words = words.replace(_KEPT, ", ")
    words = _COUNTS.sub(r"\1 as a \2", words)
    words = _SKIPPED.sub(r"the \1 skipped chains \2", words)
    return f"{words[0].upper()}{words[1:]}." if words else ""
