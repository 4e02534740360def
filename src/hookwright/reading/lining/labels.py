"""How a row or round is opened: "Row 4:", "4th rnd—", "R7-9:", "NEXT 3 ROWS:", "Rows 19-26 (19-28, 21-32):" and the like."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Literal

from ..phrases.colours import NAMES
from ..wording.vocabulary import NUMBERS

ORDINALS = (  # noqa: SIM905
    "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth sixteenth seventeenth "  # noqa: E501
    "eighteenth nineteenth twentieth"
).split()
_TENS = {word: NUMBERS[word] for word in ("twenty", "thirty", "forty", "fifty", "sixty")}
WORDS = {word: number for word, number in NUMBERS.items() if number < 20 and word != "dozen"}
_UNITS = tuple(WORDS)
_WORD = rf"(?:(?:{'|'.join(_TENS)})(?:[- ](?:{'|'.join(_UNITS[:9])}))?|{'|'.join(reversed(_UNITS))})(?![A-Za-z])"
"""A row's number in words: "Round Twenty-One"."""

_NOUN = r"(?:rows?|rounds?|rnds?|rds?|rnd|rw)"
_ORD = (
    r"(?:\d{1,3}\s?(?:(?:st|nd|rd|th|d)(?![A-Za-z])|°|º|ª|\^)|(?:twenty|thirty|forty|fifty|sixty)[- ](?:"
    + "|".join(ORDINALS[:9])
    + r")|"
    + "|".join(ORDINALS)
    + r"|thirtieth|fortieth|fiftieth)"
)
_RANGE_SIGN = r"(?:\s{0,2}-{1,2}(?!\s)|\s{1,2}-{1,2}\s{1,2}|\s{0,2}(?:to|thru|through|until|and|&|,|\+|/|a)\s{0,2})"
_STOP = r"(?![^\W_]|[/½¼¾]|\.\d|\s{0,2}(?:sc|dc|hdc|tr|htr|ch|sl|sts?|times|x|[sd]\.?\s?c|h\.?\s?d\.?\s?c|more|inc|dec|single|double|treble|stitch\w*|puffs?|shells?|fp|bp)\b)"  # noqa: E501
_NUMBERS = rf"\d{{1,4}}(?:(?:{_RANGE_SIGN}|,\s?and\s|,\s?&\s|\s?(?:to|thru|through|and|&)\s?(?:{_NOUN}|R(?=\d))\s?|\s-{{1,2}}\s(?:row|rnd|round|R(?=\d))\s?|-(?:{_NOUN}|R)\s?)\d{{1,4}}{_STOP}|\s?-\s?R\d{{1,4}}(?![\w/])){{0,30}}\+?"  # noqa: E501
_SEVERAL = (
    r"(?:(?<=\brows\s)|(?<=\brounds\s)|(?<=\brnds\s))\d{1,4}\s?-\s?\d{1,4}"
    r"(?=\s(?:[shdt]{1,2}\.?\s?c\.?|h?tr|(?:single|double|half\sdouble|treble)(?:\scrochet)?)\s"
    r"(?:in\s(?:each|every|all|the|both|back|front)|a?round|across|even(?:ly)?|all\s(?:around|round|across))\b)"
)
"""Rounds told as several, whose last number is no number of stitches: "Rounds 10-12 sc in every sc"."""
_SPAN = r"\d{1,4}(?:\s?(?:-|\b(?:to|thru|through)\b)\s?\d{1,4})"
_SIZED = rf"(?:\s{{0,2}}[(\[](?:{_SPAN}|{_SPAN}?(?:[,/]\s?{_SPAN}?){{1,10}})[)\]])?"
_SIDE = r"(?:(?:RS|WS)|(?:right|wrong)\sside)(?:\sfacing)?"
_WAY = r"\s{1,2}(?:fwd|fwp|forward|ret|retp|return|fp|rp)(?:\spass)?(?=\s?[:.-])"
_REMARK = (
    r"(?:,\s(?:the|an?)\s[a-z][a-z' -]{1,30}|\sand so on"
    r"|,?\s(?:and\s)?(?:onwards?|up|beyond|forward|after|upwards?|all (?:after|following)(?:\srows|\srounds|\srnds)?)"
    r"|\s(?:and\s)?on)(?=\s?[:.)-])"
    r"|\s(?:of|for)\s(?:the\s)?(?![a-z -]{0,24}\bsizes?\b)[a-z][a-z -]{1,24}(?=\s?:)"
)
_YARN = (
    r"(?:,\s(?:(?:in|with)\s)?(?:the\s)?(?:(?:light|dark|pale|deep|bright|shaded|first|second|third|1st|2d|2nd|3d|3rd)\s)?"
    rf"(?:colou?r|{'|'.join(sorted(NAMES))})(?:\s(?:wool|silk|cotton|yarn|thread))?(?=\s?(?:[:.-])))"
)
"""The yarn that a row is worked in: "3d round, scarlet--", "5th row, with the second colour:"."""
_ONE_SIZE = r"(?:1st|2nd|3rd|[4-9]th|first|second|third|fourth|fifth|sixth|x?-?small(?:er|est)?|medium|middle|x?-?large(?:r|st)?)"
_SIZES = (
    rf",?\s(?:for\s)?(?:the\s)?(?:all|both|{_ONE_SIZE})(?:(?:,|\s?&|,?\sand)\s(?:the\s)?{_ONE_SIZE}){{0,8}}\ssizes?(?:\sonly)?(?=\s?[:.-])"
)
_NO_SIZE = rf"(?!(?:the\s)?{_ONE_SIZE}(?:(?:,|\s?&|,?\sand)\s(?:the\s)?{_ONE_SIZE}){{0,8}}\ssizes?\b)"
"""Whose row it is: "6th round, 1st size only:", "Row 9 for 2nd and 3rd sizes:"."""
_NOTE = rf"(?:{_SIZES}|,\s{{0,2}}{_SIDE}(?=\s?[:.-])|{_WAY}|{_REMARK}|{_YARN}|\s{{0,2}}\[{_SIDE}\](?=\s?[:.-])|(?:\s{{0,2}}\((?!\d+\s*(?:sc|dc|hdc|tr|sts?)\b)[^()\n]{{1,60}}\)){{0,2}})"  # noqa: E501
_MARK = r"[*_=~#>]{0,3}"
_END = r"(?P<end>\s{0,2}[*_=~]{0,3}\s{0,2}(?:[:.)]{1,3}|-{1,3}|=(?=\s)|(?:\*\*|__)(?=\s))[*_=~]{0,3}[-:]{0,2})"

_FOR = r"(?:(?:for|on)\s(?:the\s)?(?=(?:rows?|rnds?|rounds?|rds?)\s?\d{1,3}(?:\s?(?:-|to|thru|through|and|&)\s?\d{1,3})?\s?:))?"
""" "For Rnds 8-12: sc around." """
_INCL = r"[*_=~]{0,2},?\s\(?(?:incl\.?|inclusive)(?![A-Za-z])\)?"
"""That the last row named is one of them, with or without the marks that end slanting or bold letters before it."""

_END_PLAIN = _END.replace("?P<end>", "?:")

NOUN_FIRST = re.compile(
    rf"(?P<pre>{_MARK}\s{{0,2}}{_FOR})(?P<label>(?P<word>(?:(?!(?:r|rows?|rnds?|rounds?)\s?\d)[A-Z][\w'-]{{0,14}}[ ]){{0,3}})(?P<noun>(?<![A-Za-z0-9])(?:{_NOUN}|R|V))\s{{0,2}}(?:[.#]|-(?=\d)|no\.?(?=\s?\d)|number(?=\s\d))?\s{{0,2}}(?P<nums>{_SEVERAL}|{_NUMBERS}|{_WORD}(?:{_RANGE_SIGN}{_WORD})?(?=\s?[:.-]))(?:{_INCL})?{_SIZED}(?P<also>\s(?:and|&)\s(?:all|every)\s(?:other\s)?(?:even|odd|other|alternate|following)[\w\s-]{{0,30}}?(?={_END_PLAIN}|$))?(?P<note>{_NOTE}))(?P<tail>{_END})?",  # noqa: E501
    re.IGNORECASE,
)
ORDINAL_FIRST = re.compile(
    rf"(?P<pre>{_MARK}\s{{0,2}})(?P<label>(?P<nums>(?:(?<![A-Za-z0-9-])|(?<=\.-)|(?<=--)|(?<=[A-Z]-)){_ORD}(?:(?:\s{_NOUN}(?=\s(?:to|thru|through|and|&)\s|,\s))?{_RANGE_SIGN}{_NO_SIZE}(?:(?:and|the)\s)?{_ORD}){{0,12}})\s{{0,3}}\n?\s{{0,3}}(?:(?:patt(?:ern|\.)?|(?:dec|inc)(?:\.|reas(?:e|ing))?)\s)?(?P<noun>{_NOUN}|tour|half)?(?![A-Za-z0-9])(?P<more>\s(?:and|&)\s(?:the\s)?(?:\d{{1,2}}|{'|'.join(WORDS)})\s(?:following|next|succeeding)\s{_NOUN}\b)?(?P<incl>{_INCL})?(?P<note>{_NOTE}))(?P<tail>{_END})?",
    re.IGNORECASE,
)
NUMBER_FIRST = re.compile(
    rf"(?P<pre>{_MARK}\s{{0,2}})(?P<label>(?P<nums>\d{{1,3}}\.?(?:\s?-\s?\d{{1,3}}\.?)?)\s{{0,2}}(?P<noun>{_NOUN})(?P<note>{_NOTE}))(?P<tail>{_END})",
    re.IGNORECASE,
)
FOR_ROWS = re.compile(
    rf"(?P<pre>{_MARK}\s{{0,2}})(?P<label>for\s(?P<noun>{_NOUN})\s(?P<nums>{_NUMBERS})(?P<note>))(?P<tail>(?P<end>\s?[,:]))(?=\s{{0,2}}(?:rep|work|same))",
    re.IGNORECASE,
)
BARE = re.compile(
    r"(?P<pre>[*_=]{0,3})(?P<label>(?P<nums>\d{1,3}(?:(?:[.)]?\s?[-+&]\s?|[.)]?\sto\s)\d{1,3})?)(?P<note>(?:\s\([A-Za-z][^()\d\n]{2,40}\)(?=\s?:))?))(?P<tail>(?P<end>[.)]|\s?:|\s-)[*_=]{0,3})(?=\s|[A-Za-z(*\[])"
)
NEXT_ROW = re.compile(
    rf"(?P<pre>{_MARK}\s{{0,2}})(?P<label>(?P<which>next|last|following|final|foll)\s(?:(?P<count>\d{{1,12}}(?:\s?\(\d{{1,3}}(?:,\s?\d{{1,3}}){{0,9}}\))?|{'|'.join(WORDS)})\s)?(?P<noun>{_NOUN})\b(?P<note>{_NOTE}))(?P<tail>{_END}|(?=\s(?:\*\s?)?(?:work\s)?\d{{1,3}}\s(?:sc|dc|hdc|tr|htr|dtr|fpdc|bpdc|s\sc|d\sc)\sin\b))",
    re.IGNORECASE,
)
FOUNDATION = re.compile(
    rf"(?P<pre>{_MARK}\s{{0,2}})(?P<label>(?P<which>foundation(?!-(?:sc|h?dc|tr|single|half|double|treble|st)\b)(?:\s(?:ch(?:ain)?|{_NOUN}))?|set-?\s?up\s{_NOUN}|base(?:[ ](?:ch(?:ain)?|{_NOUN})|(?!\s?[:.-]{{1,2}}\s*(?:R|{_NOUN})\s?1\b))|starting\s{_NOUN}|beginning\s(?:ch(?:ain)?|{_NOUN})|starting\sch(?:ain)?|magic\sring(?=[ *_]{{0,4}}[:)=-]{{1,3}}[ \t*_]*\S))(?:[ ](?P<nums>\d{{1,2}}))?(?P<note>{_NOTE}))(?P<tail>{_END}|(?<=row)[ \t]*(?=\n)|(?<=rnd)[ \t]*(?=\n)|(?<=round)[ \t]*(?=\n))",  # noqa: E501
    re.IGNORECASE,
)
EVERY = re.compile(
    rf"(?P<pre>{_MARK}\s{{0,2}})(?P<label>(?:all\s|every\s)?(?P<which>even|odd|other)(?:[- ]numbered)?\s(?P<noun>{_NOUN})(?P<upto>[^:.\n]{{0,40}}?))(?P<tail>{_END})",  # noqa: E501
    re.IGNORECASE,
)
NAMED = re.compile(
    rf"(?P<pre>{_MARK}\s{{0,2}})(?P<label>(?P<which>(?:(?![\w']{{2,14}}-(?:\d|next\b|last\b))[A-Z][\w'-]{{1,14}}[ ]){{1,3}})(?P<noun>{_NOUN})\b(?P<note>{_NOTE}))(?P<tail>\s{{0,2}}[*_=]{{0,3}}(?P<end>:|\s-\s|--)[*_=]{{0,3}})",  # noqa: E501
    re.IGNORECASE,
)
PASS = re.compile(
    r"(?P<pre>[*_=]{0,3})(?P<label>(?P<which>fwd|forward|ret|return)(?:\spass)?)(?P<tail>(?P<end>:|\s-\s)[*_=]{0,3})", re.IGNORECASE
)


BIND_OFF = re.compile(
    r"(?P<pre>[*_=]{0,3})(?P<label>(?P<which>(?:bind|cast)[ -]?off)(?:\s(?P<noun>row|round|rnd))?)(?P<note>)"
    r"(?P<tail>\s?(?P<end>:|\s-\s|--)[*_=]{0,3})(?=[^\n]{0,60}?\b(?:sl\s?sts?|ss|slip|sc)\b)",
    re.IGNORECASE,
)
"""The last row of a Tunisian piece, which has no number: "Bind off: sl st under each vertical bar across"."""
RETURN_NOTE = re.compile(r"(?i)\(?\s?(?:ret(?:urn)?|retp|rtn|rp|rev(?:erse)?\spass|return\spass|back(?:ward)?\spass)\s?\)?$")
"""A note by which a numbered row is the way back of a Tunisian one: "Row 3 (RetP):"."""


@dataclass(slots=True)
class Label:
    """A row's label as found: where it stands, the numbers it covers, its noun."""

    start: int
    end: int
    text: str
    """Normalised, noun first: "Row 4", "Rnds 7-9", "Next 3 rows", "Foundation"."""
    numbers: tuple[tuple[int, ...], ...] = ()
    noun: Literal["row", "round"] = "row"
    count: tuple[int, ...] = ()
    """For "Next 3 rows": how many (of each size)."""
    note: str = ""
    note_span: tuple[int, int] = (0, 0)
    open_end: bool = False
    """ "Rounds 15+": no last row told. """
    also: str = ""
    """ "and all even rows": even, odd or other. """
    word: str = ""
    """A word before the noun: "Rib", "Body"."""
    sure: bool = True
    kind: str = "number"
    label_end: int = 0

    def moved(self, by: int) -> Label:
        """The same label, `by` characters further on."""
        a, b = self.note_span
        return Label(
            self.start + by, self.end + by, self.text, self.numbers, self.noun, self.count, self.note, (a + by, b + by) if b else (a, b),
            self.open_end, self.also, self.word, self.sure, self.kind, self.label_end + by if self.label_end else 0,
        )  # fmt: skip


def ordinal(text: str) -> int:
    low = text.lower().strip()
    digits = re.match(r"\d+", low)
    if digits:
        return int(digits[0])
    if low in ORDINALS:
        return ORDINALS.index(low) + 1
    for tens, value in _TENS.items():
        if low.startswith(tens):
            rest = low[len(tens) :].strip(" -")
            return value + (ORDINALS.index(rest) + 1 if rest in ORDINALS else 0)
    return {"thirtieth": 30, "fortieth": 40, "fiftieth": 50}.get(low, 0)


def in_words(text: str) -> int:
    """The number told in words, 0 when none.

    >>> in_words("Twenty-One"), in_words("nine")
    (21, 9)
    """
    low = text.lower()
    tens, _, ones = low.replace("-", " ").partition(" ")
    if low in WORDS or tens not in _TENS:
        return WORDS.get(low, 0)
    return _TENS[tens] + WORDS[ones] if ones in WORDS else 0 if ones else _TENS[tens]


def numbers(text: str) -> tuple[int, ...]:
    """The row numbers of "3-6", "2, 4 and 6", "8 to Rnd 11", "3rd to 8th", reversed ones too; at most 2,000.

    >>> numbers("3-6"), numbers("2, 4 & 6"), numbers("12-10")
    ((3, 4, 5, 6), (2, 4, 6), (12, 11, 10))
    """
    if _alone(text):
        return (int(text),)
    found: list[int] = []
    through = False
    for match in re.finditer(
        rf"(?P<n>{_ORD}|\d{{1,4}}|\b{_WORD})|(?P<to>-{{1,2}}|\bto\b|\bthru\b|\bthrough\b|\buntil\b|\ba\b)|(?P<and>,|&|\band\b|\+|/)",
        text,
        re.IGNORECASE,
    ):
        if match["to"]:
            through = True
        elif match["and"]:
            through = False
        elif match["n"]:
            value = in_words(match["n"]) or ordinal(match["n"])
            if through and found and abs(value - found[-1]) <= 2000:
                step = 1 if value > found[-1] else -1
                found.extend(range(found[-1] + step, value + step, step))
            else:
                found.append(value)
            through = False
    return tuple(found[:2000])


def _alone(text: str) -> bool:
    """One number in digits, and nothing beside it."""
    return len(text) <= 4 and text.isascii() and text.isdigit()


def noun_of(word: str | None) -> Literal["row", "round"]:
    low = (word or "row").lower()
    return "round" if low.startswith(("rn", "rou", "rd")) or low == "v" else "row"


def title(noun: str | None, text: str) -> str:
    """Noun first, as the public label: "Row 4", "Rnds 7-9"."""
    word = "Rnd" if noun_of(noun) == "round" else "Row"
    if _alone(text):
        return f"{word} {text}"
    many = len(numbers(text)) > 1
    shown = re.sub(
        r"[.)]?\s*(?:-{1,2}|\bto\b|\bthru\b|\bthrough\b)\s*",
        "-",
        re.sub(rf"(?:{_NOUN}|(?<![a-z])R)\s*(?=\d)", "", text, flags=re.IGNORECASE),
        flags=re.IGNORECASE,
    )
    shown = re.sub(rf"{_ORD}", lambda m: str(ordinal(m[0])), shown, flags=re.IGNORECASE).strip()
    shown = re.sub(rf"\s+{_NOUN}(?=\s|-|$)", "", shown, flags=re.IGNORECASE)
    return f"{word}{'s' if many else ''} {' '.join(shown.split())}"


@dataclass(slots=True)
class Found:
    """Labels of a text, by place."""

    labels: list[Label] = field(default_factory=list)
