"""The names of a pattern's sizes, where its prose tells them: "Sizes: Baby (Child, Adult)", "Size: S/M/L", "Sizes: 3-6 mo, 6-12 mo"."""

from __future__ import annotations

import re

from .pieces import first_of, holds, pieces, remembered

SIZE = (
    r"(?:preemie|newborn|infant|baby|toddler|child(?:ren)?|kids?|youth|tween|teen|adult|wom[ae]n'?s?|m[ae]n'?s?|ladies|doll|cat|dog|"
    r"x{0,4}-?small|x{0,4}-?large|medium|tiny|mini|giant|standard|regular|[2-6]x-?(?:large|l)?|x{0,4}s|x{0,4}l|m|one size|"
    r"\d{1,2}\s?-\s?\d{1,2}\s?(?:mo(?:nth)?s?|m|y(?:ea)?rs?|y)\b|\d{1,2}\s?(?:mo(?:nth)?s?|y(?:ea)?rs?|m|y)\b)"
)
_NAME = rf"{SIZE}(?:\s?/\s?{SIZE})?(?:[ \t](?:{SIZE}|size|head))?(?:[ \t]?\d{{1,2}}(?:-\d{{1,2}})?\s?(?:mo(?:nth)?s?|y(?:ea)?rs?))?"
_BRACKETED = rf"(?P<first>{_NAME})\s?(?P<rest>(?:[(\[]\s?{_NAME}(?:\s?[,/;]\s?{_NAME}){{0,9}}\s?[)\]]\s?,?\s?){{1,9}})"
_LISTED = rf"(?P<list>{_NAME}(?:\s?(?:,|/|\||;|\band\b|&)\s?(?:and\s)?{_NAME}){{1,9}})"
_LINE = re.compile(
    rf"(?im)(?:^|\.\s)[ \t>*_=#•-]{{0,6}}(?:(?:finished\s+|available\s+)?sizes?(?:\s(?:available|included|range))?|to fit|fits)\b"
    rf"[*_]{{0,2}}\s?[:=-]?[*_]{{0,2}}\s?"
    rf"(?:\n[ \t>*•-]{{0,6}})?(?:{_BRACKETED}|{_LISTED})(?![\w-])"
)
_TOLD = re.compile(
    rf"(?i)\b(?:directions|instructions|pattern|numbers|stitch counts)\s(?:\w+\s){{0,4}}(?:for|as)\s(?:the\s)?(?:size\s)?{_BRACKETED}"
)
_HEAD = re.compile(
    rf"(?im)\A\s*(?:[^\n]*\n){{0,4}}?[ \t>*_=#•-]{{0,6}}(?:[^\n:(]{{0,60}}?(?:-{{1,3}}|[:,|~])\s?|in\s(?:sizes\s)?)?"
    rf"{_BRACKETED}[ \t*_.)]*$"
)
NUMBERED = r"[ \t]*[*_]{0,3}(?:rows?|rounds?|rnds?|rds?|r)[ \t]?"
_LABEL = re.compile(
    r"(?im)^[ \t>*_=#(•-]{0,6}(?:for\s+)?sizes?\s+(\d[\d½¼¾ /-]{0,12}?(?:\s(?:mo(?:nth)?s?|y(?:ea)?rs?))?)[ \t]*(?:only[ \t]*)?:"
    rf"|^[ \t>*_=#(•-]{{0,6}}(?:for\s+)?(?:the\s)?(?:sizes?\s)?(?P<called>{SIZE})(?:\ssizes?)?[ \t]*(?:only[ \t]*)?:(?={NUMBERED}\d)"
)
SIZED_ROW = re.compile(rf"(?i)[ \t>*_=#(•-]{{0,6}}(?:for\s+)?(?:the\s)?{SIZE}(?:\ssizes?)?[ \t]*(?:only[ \t]*)?:{NUMBERED}(?:[2-9]|\d\d)")
"""A row past the first, told for the size that is called before it: "ADULT: Row 6: …" heads no part."""
_SMALLEST = re.compile(
    r"(?i)\bsmall(?:er|est)\ssizes?,?\s\((\d[^()\n]{0,40})\)"
    r"|\b(?:size|[a-z]+'?s)(?:\ssizes?)?,?\s\(?(?P<stops>\d[\d½¼¾ /-]{0,12}?)\)?,?\s"
    r"(?:stops?|ends?|finish(?:es)?|is\s(?:done|finished|complete))\b[^.\n]{0,40}\bhere\b"
    rf"|\bthe\s(?P<called>{SIZE})(?:'s)?\ssizes?\s(?:stops?|ends?|finish(?:es)?|is\s(?:done|finished|complete))\b[^.\n]{{0,40}}\bhere\b"
)
_FITS = re.compile(
    r"(?i)\b(?:to\sfit|fits)\s(?:an?\s)?(?:(?:chest|bust|waist|head|foot|hand|age|ages|sizes?)\s)?"
    r"(?P<first>\d{1,2}[½¼¾]?(?:\s?-\s?\d{1,2})?)\s?(?P<rest>[(\[]\d{1,2}[½¼¾]?(?:\s?-\s?\d{1,2})?(?:\s?[,:/;]\s?\d{1,2}[½¼¾]?(?:\s?-\s?\d{1,2})?){0,9}[)\]])\s?"
    r"(?:years?|yrs?|months?|mths?|ins?\b|inch|inches|cms?\b|\")"
)
"""Sizes called by whom they fit: "To fit 3-4 [5-6] years", "To fit 32 (34, 36) inch bust"."""
_SPLIT = re.compile(r"\s?(?:[(\[\])]|,|;|\||\band\b|&)\s?(?:and\s)?", re.I)


def size_names_of(text: str) -> tuple[str, ...]:
    """The names, in the order that lists of numbers follow; () where none are told.

    >>> size_names_of("Sizes: Baby (Child, Adult S, Adult L)"), size_names_of("Size: XS, S, M and L"), size_names_of("Size: 12 inches")
    (('Baby', 'Child', 'Adult S', 'Adult L'), ('XS', 'S', 'M', 'L'), ())
    >>> size_names_of("Plain Slouch Hat - Baby (Child, Adult)\\nHook: H"), size_names_of("Plain Slouch Hat for a child (or adult)")
    (('Baby', 'Child', 'Adult'), ())
    >>> size_names_of("The smaller size (5-6) ends here.\\nSize 7-8: Row 4: sc around.\\nSize 9-10: Row 4: 2 sc in each sc.")
    ('5-6', '7-8', '9-10')
    >>> size_names_of("The toddler's size (1-2) stops growing here.\\nSize 3-5: Row 6: sc around.\\nSize 5½-7: Row 6: 2 sc in each sc.")
    ('1-2', '3-5', '5½-7')
    >>> size_names_of("The baby size stops growing here.\\nSize 3-8 years: Row 6: sc around.\\nAdult: Row 6: 2 sc in each sc.")
    ('baby', '3-8 years', 'Adult')
    >>> size_names_of("To fit 7-8 [9-10, 11-12] years.")
    ('7-8', '9-10', '11-12')
    """
    for told in (first_of(_line, text), first_of(_sentence, text), _head(text), first_of(_fitting, text)):
        if told is None:
            continue
        names = [" ".join(one.split()) for one in _SPLIT.split(told) if one and one.strip()]
        if len(names) == 1 and "/" in told:
            names = [one.strip() for one in told.split("/")]
        if 2 <= len(names) <= 12 and len({name.lower() for name in names}) == len(names):
            return tuple(names)
    return _in_labels(text)


@remembered
def _line(text: str) -> str | None:
    """The list of names in a line of their own."""
    found = _LINE.search(text) if holds(text, ("size", "fit")) else None
    return None if found is None else found["list"] or f"{found['first']}({found['rest']}"


@remembered
def _sentence(text: str) -> str | None:
    """The names that a sentence tells the numbers to be for."""
    found = _TOLD.search(text) if holds(text, ("directions", "instructions", "pattern", "numbers", "stitch counts")) else None
    return None if found is None else f"{found['first']}({found['rest']}"


def _head(text: str) -> str | None:
    """The names behind the pattern's own ("Plain Slouch Hat - Baby (Child, Adult)") or on a line by themselves below it."""
    found = _HEAD.match(text[:500])
    return None if found is None else f"{found['first']}({found['rest']}"


@remembered
def _fitting(text: str) -> str | None:
    """The list of whom the sizes fit."""
    found = _FITS.search(text)
    return None if found is None else f"{found['first']}{found['rest']}"


def _in_labels(text: str) -> tuple[str, ...]:
    """Names told only where the sizes part: "the smaller size (6-7) stops here", "Size 8-9: Row 4 …", "Size 10-11: Row 4 …"."""
    first = first_of(_smallest, text)
    labels = dict.fromkeys(label for found in _labels.told(pieces(text)) for label in found)
    smaller = [] if first is None else re.split(r"\s?(?:,\s?and|,|&|\band\b)\s?", first)  # "the two smaller sizes (5-6 and 6½-8) stop here"
    names = (*(name for name in smaller if name and name not in labels), *labels)
    return names if 2 <= len(names) <= 12 else ()


@remembered
def _smallest(text: str) -> str | None:
    found = _SMALLEST.search(text) if holds(text, ("size",)) else None
    return None if found is None else (found[1] or found["stops"] or found["called"]).strip()


@remembered
def _labels(text: str) -> tuple[str, ...]:
    return tuple((match[1] or match["called"]).strip() for match in _LABEL.finditer(text)) if ":" in text else ()
