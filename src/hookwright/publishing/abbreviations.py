"""The abbreviations a pattern uses: exactly those, each with its meaning and its name in the other terms."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ..pattern import Pattern
from ..trade.terms import abbr, name
from ..writing import Written, stitches_used
from .sheet import Short, Terms

_PLAIN: dict[str, tuple[str, str]] = {
    "st": ("st(s)", "stitch(es)"),
    "sts": ("st(s)", "stitch(es)"),
    "sp": ("sp(s)", "space(s)"),
    "sps": ("sp(s)", "space(s)"),
    "rep": ("rep", "repeat"),
    "RS": ("RS", "right side"),
    "WS": ("WS", "wrong side"),
    "Rnd": ("Rnd(s)", "round(s)"),
    "Rnds": ("Rnd(s)", "round(s)"),
    "rnd": ("Rnd(s)", "round(s)"),
    "rnds": ("Rnd(s)", "round(s)"),
    "BLO": ("BLO", "back loop only"),
    "FLO": ("FLO", "front loop only"),
    "inc": ("inc", "increase"),
    "dec": ("dec", "decrease"),
}
"""Abbreviations of the writing itself, which are no stitches. "inc" and "dec" only occur where a pattern names no stitch for them."""

_WORD = re.compile(r"[A-Za-z][A-Za-z0-9]*")


def abbreviations_of(pattern: Pattern, written: Written) -> tuple[Short, ...]:
    """What the words of `written` abbreviate: stitches in order of first use, then the plain words, alphabetically."""
    said = list(_said(written))
    used = set(said) | {word[:1].lower() + word[1:] for word in said}
    own = set(pattern.defined)
    stitches = [_stitch(kind, written.terms) for kind in stitches_used(pattern) if _is_stitch(kind, own)]
    plain = {entry for word in used if (entry := _PLAIN.get(word))}
    return (
        *dict.fromkeys(short for short in stitches if short.short.split(" ")[0] in used),
        *(Short(short=short, meaning=meaning) for short, meaning in sorted(plain, key=lambda entry: entry[0].lower())),
    )


def _said(written: Written) -> Iterable[str]:
    for _, words in written.specials:
        yield from _WORD.findall(words)
    for part in written.parts:
        for row in part.rows:
            yield from _WORD.findall(f"{row.label} {row.words} {row.count}")


def _is_stitch(kind: str, own: set[str]) -> bool:
    return kind not in own and name(kind, "US") != kind


def _stitch(kind: str, terms: Terms) -> Short:
    other: Terms = "UK" if terms == "US" else "US"
    here, there = abbr(kind, terms), abbr(kind, other)
    return Short(short=here, meaning=name(kind, terms), other=there if there != here else "")
