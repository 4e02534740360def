"""Which terms a text is in, decided from evidence; and what a stitch name means in them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, TypeAlias

from ..pieces import Remembered, holds, pieces, remembered

Terms: TypeAlias = Literal["US", "UK"]

_UK = {
    "sc": "sc", "hdc": "hdc", "dc": "sc", "htr": "hdc", "tr": "dc", "dtr": "tr", "trtr": "dtr", "qtr": "trtr", "esc": "esc", "edc": "esc",
    "ehdc": "ehdc", "ehtr": "ehdc", "etr": "edc", "fsc": "fsc", "fdc": "fsc", "fhtr": "fhdc", "fhdc": "fhdc", "ftr": "fdc",
    "fpdc": "FPsc", "fphtr": "FPhdc", "fptr": "FPdc", "fpdtr": "FPtr", "bpdc": "BPsc", "bphtr": "BPhdc", "bptr": "BPdc", "bpdtr": "BPtr",
    "fpsc": "FPsc", "bpsc": "BPsc", "fphdc": "FPhdc", "bphdc": "BPhdc",
}  # fmt: skip
_US = {
    "htr": "hdc", "ehtr": "ehdc", "etr": "etr", "fhtr": "fhdc", "fpsc": "FPsc", "fphdc": "FPhdc", "fpdc": "FPdc", "fptr": "FPtr",
    "fpdtr": "FPdtr", "bpsc": "BPsc", "bphdc": "BPhdc", "bpdc": "BPdc", "bptr": "BPtr", "bpdtr": "BPdtr", "fphtr": "FPhdc", "bphtr": "BPhdc",  # noqa: E501
}  # fmt: skip
_BOTH = {"plain": "sc", "long": "dc", "xlong": "tr"}
"""Old books: plain = today's US single, long = US double, extra long = US treble. Print of the 1840s to 1880s, from memory."""


def us_id(raw: str, terms: Terms) -> str:
    """The trade id of a stitch name as written.

    >>> us_id("dc", "UK"), us_id("dc", "US"), us_id("fptr", "UK")
    ('sc', 'dc', 'FPdc')
    """
    if raw in _BOTH:
        return _BOTH[raw]
    table = _UK if terms == "UK" else _US
    return table.get(raw, raw)


@dataclass(frozen=True, slots=True)
class Decided:
    """Terms and the reason, as a sentence; `mixed` when the text holds evidence for both; `told` when it says so itself."""

    terms: Terms
    because: str
    mixed: bool = False
    told: bool = False


_TOLD_US = re.compile(
    r"\b(?:US|U\.S\.A?\.?|American|USA)\s+(?:crochet\s+)?(?:term|abbrev|stitch term|notation|stitches|names)|"
    r"\bterms\s*[:=]?\s*(?:US|American)\b|\bterms\b[^.\n]{0,25}\b(?:American|U\.?S\.?A?)\b(?!.{0,20}\bUK\b)",
    re.I,
)
_TOLD_UK = re.compile(
    r"\b(?:UK|U\.K\.|British|English)\s+(?:crochet\s+)?(?:term|abbrev|stitch term|notation|stitches|names)|"
    r"\bterms\s*[:=]?\s*(?:UK|British|English)\b",
    re.I,
)
_TITLED = re.compile(r"\s*[^\n()]{3,60}\((?:(?P<uk>UK|British)|USA?|American)(?:\s(?:version|pattern))?\)")
"""A title that ends in the terms: "Little heart (UK)"."""
_STRONG_UK = re.compile(r"(?<![a-z])(?:htr(?:2tog)?|half[- ]trebles?|h\.?\s?tr\b|ttr\b)(?![a-z])", re.I)
_STRONG_US = re.compile(r"(?<![a-z])(?:hdc|h\s?d\s?c|half[- ]double|sc|s\s?c|single\s+crochet|fsc|fhdc)(?:2tog|s)?(?![a-z])", re.I)
_TREBLE = re.compile(r"(?<![a-z])(?:trs?|trebles?|tr\s?c)(?![a-z])", re.I)
_DOUBLE = re.compile(
    r"(?<![a-z])(?:dcs?|d\.?\s?c|double\s+crochet|(?<=\d )double(?!\s(?:crochet|treble|thread|strand|wool|yarn)))(?![a-z])", re.I
)
_MISS = re.compile(r"(?<![a-z])miss(?:ed|ing)?(?![a-z])", re.I)
_SKIP = re.compile(r"(?<![a-z])(?:skip(?:ped|ping)?|sk)(?![a-z])", re.I)
_SLIP = re.compile(r"(?<![a-z.])s\.\s?s\.(?![a-z])", re.I)
_SPELLING = re.compile(r"colour|tension|wool", re.I)
_CONVERTED = re.compile(
    r"(?im)^(?=[^\n]*\b(?:UK|British|English)\b)(?=[^\n]*\b(?:US|USA|American)\b)[^\n]*(?:=|->|→|\u2192)[^\n]*$"
    r"|\((?:in\s)?(?:US|UK|American|British)\s?(?:terms?)?\s?[:=]?\s?(?:sc|hdc|dc|tr|htr|dtr|single|half|double|treble)\b[^()\n]{0,24}\)"
)
"""What only sets the terms side by side ("UK to US: dc = sc", "dc (US sc)"): evidence for neither."""
_INTO = r" in(?:to)? (?:the )?"
_TREBLES = r"(?:tr|trebles?(?: crochet)?)"
_THREE_COUNT = (
    r"(?:ch(?:ain)? ?-?3|3 ?ch)\b[^.;\n]{0,24}(?:counts? as|=|\bfor (?=an?\b|one\b|1|the |first)|stands? (?:for|as))[^.;,)\n]{0,12}\b"
)
_HEIGHT_US = re.compile(
    rf"(?<![a-z])(?:(?:d\.?\s?c\.?|double crochet){_INTO}(?:3rd|4th|5th|6th|third|fourth|fifth|sixth) (?:ch|st(?:itch)? (?:from|of))"
    rf"|{_TREBLES}{_INTO}(?:5th|fifth) ch"
    rf"|{_THREE_COUNT}(?:dc|double))",
    re.I,
)
_LONGER = r"(?!\w*\.? of (?:the )?(?:first |1st |beg\w*\.? |starting )?(?:ch(?:ain)?[ -]?)?(?:[6-9]|[12]\d)(?!\d))"
"""Not of a chain that is a stitch and the most of a loop: what closes the loop there tells no height."""
_HEIGHT_UK = re.compile(
    rf"(?<![a-z])(?:(?:d\.?\s?c\.?|double crochet){_INTO}(?:2nd|second) ch|{_TREBLES}{_INTO}(?:4th|fourth|third|3rd) ch{_LONGER}"
    rf"|{_THREE_COUNT}(?:tr|treble))",
    re.I,
)
"""Chains before a stitch as high as it is: 3 for the double crochet of US terms and the treble of UK terms (common practice, no source)."""
_ROUND_UK = re.compile(r"(?im)(?:[:.)]\s{1,3}|^)(?:ch(?:ain)? ?3|3 ?ch(?:ain)?),? (?:then |and )?(?:\d+ )?(?:trs?|trebles?)\b")
"""A round of trebles that begins in 3 chains, where the treble of US terms wants 4 (common practice, no source)."""
_FILET_US = re.compile(
    r"(?<![a-z])(?:sps?|spaces?|mesh(?:es)?)\b[^.;]{0,24}?(?:2 ?ch(?:ain)?|ch(?:ain)? ?2)\b,? "
    r"(?:and )?(?:miss|skip|sk) (?:2|two)\b[^.;]{0,16}?(?:d\.?\s?c\b|double)",
    re.I,
)
"""A filet space ends in a tall stitch: where its stitch is the double crochet the terms are American (common practice, no source)."""
_NUMBER_FIRST = re.compile(r"(?<![\w-])\d{1,3} ?ch(?:ain)?(?![\w-])", re.I)
_NUMBER_LAST = re.compile(r"(?<![\w-])ch(?:ain)?[ -]?\d+(?!\d*(?:st|nd|rd|d|th)\b)", re.I)
_SINGLE = re.compile(r"(?<![a-z])(?:s\.\s?c\.|single\s+crochets?)(?!\s?[(=:])", re.I)
_JOINING_SINGLE = re.compile(
    r"(?:\b(?:join(?:ed|ing)?|unite|closed?|closing|form|ring|finish(?:ing)?|end(?:ing)?)\b[^.;:]{0,40}\b(?:by|with)\s(?:(?:an?|one|1)\s)?"
    r"|[,;.)]\s(?:and\s|then\s)?(?:1\s|a\s)?(?=(?:s\.\s?c\.|single\s+crochet)\s(?:in)?to\s(?:the\s)?(?:first|1st|2nd|3rd|4th|top|next|cent|middle|point)))"
    r"(?:s\.\s?c\.|single\s+crochet)",
    re.I,
)
"""A slip stitch, by the name that old British books have for it: what joins a round, or leads to where the next begins."""
_TOLD_SINGLE = re.compile(r"(?:s\.\s?c\.,?\s(?:for\s)?single\s+crochet|single\s+crochet,?\s?\(?s\.\s?c\.\)?)", re.I)
"""The short form told with its word."""
_DOTTED = re.compile(r"(?<![a-z.])(?:h\.\s?d|s)\.\s?c\.", re.I)
"""Words of US terms with full stops, which old British books have for a slip stitch."""
_FULL_STOPS = re.compile(r"(?<![a-z])([sdhtc]|tr|ch|sps?|bls?|sts?|sl|sk|[sd]c|hdc)\.(?=[\s,;:)—-]|[a-z])", re.I)
"""Full stops of abbreviations."""
_HOOKED_UK = re.compile(
    r"(?<![a-z])(?:(?:treble(?: crochet)?|t\.?\s?c\.?|tr\.?)\s?[(:=,—-]+\s?(?:thread|cotton|wool|yarn|put the \w+) over (?:the hook )?once"
    r"|double(?: crochet)?\s?[(:=,—-]+\s?insert)",
    re.I,
)
_HOOKED_US = re.compile(
    r"(?<![a-z])(?:(?:treble(?: crochet)?|t\.?\s?c\.?|tr\.?)\s?[(:=,—-]+\s?(?:thread|cotton|wool|yarn|put the \w+) over (?:the hook )?twice"
    r"|double(?: crochet)?\s?[(:=,—-]+\s?(?:thread|yarn|wool|cotton) over)",
    re.I,
)
"""A stitch told by what the hook does: thread over once for the treble of UK terms, twice for that of US terms."""
_PLAIN = re.compile(r"\d\s*(?:plain|long)\b|\bplain(?: stitch| in)", re.I)

_LONG = re.compile(
    r"(?<![a-z])(?:\d+|an?|one|two|three|four|five|six|seven|eight|nine|ten|each|every)\s(?:long\s(?:stitch|on|in|under)|long(?=[,;.]))",
    re.I,
)
"""The long stitch of English books of the 1840s and 50s, beside which double crochet is the short one (from memory)."""


def decide(text: str, told: Terms | None = None) -> Decided:
    """US or UK, from what the text says or the words it uses.

    >>> decide("Row 1: miss 1 ch, 5 htr").terms, decide("Row 1: 5 sc, hdc").terms
    ('UK', 'US')
    """
    words = pieces(text)
    strong_us, strong_uk, says_us, says_uk, dotted, hooked, joins, singles, spelled = _sums(words, _evidence, 9)
    if joins and strong_us == spelled and joins >= JOINS_MOSTLY * singles and _old_english(words):
        strong_us = dotted = 0
    if told:
        return Decided(told, f"the front matter says {told} terms", _contradicts(told, strong_us, strong_uk), told=True)
    if says_us and not says_uk:
        return Decided("US", "the text says US terms", _contradicts("US", strong_us, strong_uk), told=True)
    if says_uk and not says_us:
        return Decided("UK", "the text says UK terms", _contradicts("UK", strong_us, strong_uk), told=True)
    if titled := _TITLED.match(text):
        terms: Terms = "UK" if titled["uk"] else "US"
        return Decided(terms, f"the title says {terms}", _contradicts(terms, strong_us, strong_uk), told=True)
    if hooked:
        how = "as it is told what the hook does"
        return Decided("UK" if hooked > 0 else "US", f"its stitches are those of {'UK' if hooked > 0 else 'US'} terms, {how}")
    if dotted and not strong_uk and not _old_english(words):
        strong_us += dotted
    if strong_us or strong_uk:
        if strong_uk > strong_us:
            return Decided("UK", f"half trebles stand in it and {strong_us} single crochets", strong_us > 0)
        return Decided("US", f"single or half double crochet stands in it ({strong_us} times)", strong_uk > 0)
    return _weak(words)


def _old_english(words: Iterable[str]) -> bool:
    """Trebles, and every number before its chain: "s.c." is a slip stitch in such a book."""
    _, _, treble, *_, first, last, _, _, _ = _sums(words, _weak_evidence, 14)
    return treble > 0 and first > last


def single_slips(text: str, terms: Terms) -> bool:
    """Whether "s.c." is the slip stitch: in a British book with trebles, where double crochet is the stitch and singles are fewer.

    >>> single_slips("8 ch., join with s.c. 6 ch., * 1 tr., 3 ch.; 5 d.c., 5 ch., 1 d.c.; s.c. into first d.c.", "UK")
    True
    """
    single = len(_SINGLE.findall(text)) if terms == "UK" else 0
    return single > 0 and _old_english(pieces(text)) and single <= len(_DOUBLE.findall(_FULL_STOPS.sub(r"\1", text)))


def bare_single_slips(text: str, terms: Terms) -> bool:
    """Whether a "single" with no word of crochet behind it is the slip stitch, as in British books that have trebles and double crochet.

    >>> bare_single_slips("2 ch., single to the 3rd of 5 ch.", "UK"), bare_single_slips("work with single thread", "UK")
    (True, False)
    """
    return terms == "UK" and _BARE_SINGLE.search(text) is not None


def long_treble_stands_higher(text: str, terms: Terms) -> bool:
    """Whether a "long treble" ("l.tr.") stands beside plain trebles: it is the next taller stitch, as in British books of 1900 to
    1950 (from memory).

    >>> long_treble_stands_higher("1 tr. into next d.c., 3 ch., 1 l.tr. into next d.c.", "UK")
    True
    """
    return terms == "UK" and _LONG_TREBLE.search(text) is not None and _TREBLE_ALONE.search(text) is not None


_LONG_TREBLE = re.compile(r"(?<![a-z])(?:long\s(?:treble|tr)|l\.?\s?tr)(?![a-z])", re.I)
_TREBLE_ALONE = re.compile(
    r"(?<![a-z])(?<!long )(?<!double )(?<!half )(?<!triple )(?<!d )(?<!l )(?<![a-z]\.)(?<![a-z]\.\s)(?:trebles?|tr)(?![a-z])", re.I
)
_BARE_SINGLE = re.compile(r"(?<![a-z])single\s(?:in|into|to|on|under|between)\s(?:the|a|next|same|each|top|first|last|centre|\d)", re.I)


def _sums(words: Iterable[str], count: Remembered[tuple[int, ...]], kinds: int) -> tuple[int, ...]:
    """What is counted in each piece, of so many kinds, added up."""
    return tuple(map(sum, zip(*count.told(words), strict=True))) or (0,) * kinds


@remembered
def _evidence(text: str) -> tuple[int, ...]:
    """Words of US terms alone, of UK terms alone; whether US, UK terms are told; US words with full stops; stitches told by what the hook
    does, those of UK terms less those of US terms; single crochets that only join, all of them, those spelled out."""
    text = _unconverted(text)
    named = holds(text, ("term", "abbrev", "notation", "stitches", "names"))
    told = (named and bool(_TOLD_US.search(text)), named and bool(_TOLD_UK.search(text)))
    hooked = len(_HOOKED_UK.findall(text)) - len(_HOOKED_US.findall(text)) if holds(text, ("over", "insert")) else 0
    uk = len(_STRONG_UK.findall(text)) if holds(text, ("tr", "half")) else 0
    dotted = len(_DOTTED.findall(text)) if holds(text, ("c.",)) else 0
    joins = singles = spelled = 0
    if dotted or holds(text, ("single",)):
        joins = len(_JOINING_SINGLE.findall(text))
        singles = len(_SINGLE.findall(_TOLD_SINGLE.sub("", text)))
        spelled = len(_SPELLED_SINGLE.findall(text))
    return (len(_STRONG_US.findall(text)), uk, *told, dotted, hooked, joins, singles, spelled)


_SPELLED_SINGLE = re.compile(r"(?<![a-z])single\s+crochets?(?![a-z])", re.I)
JOINS_MOSTLY = 0.75
"""Share of the single crochets that only join, from which on they are slip stitches (common practice, no source)."""


def _unconverted(text: str) -> str:
    """The text without what only sets the terms side by side."""
    return _CONVERTED.sub("", text) if holds(text, ("uk", "british", "english", "(us", "(american", "(in")) else text


@remembered
def _weak_evidence(text: str) -> tuple[int, ...]:
    """How often miss, skip, treble, double, plain, words in British spelling and "s.s." are said; chains of a height; "3 ch" and "ch 3";
    long stitches; rounds of trebles that begin in 3 chains."""
    text = _unconverted(text)
    plain = _FULL_STOPS.sub(r"\1", text)
    counted = (
        _MISS,
        _SKIP,
        _TREBLE,
        _DOUBLE,
        _PLAIN,
        _SPELLING,
        _SLIP,
        _HEIGHT_US,
        _HEIGHT_UK,
        _NUMBER_FIRST,
        _NUMBER_LAST,
        _FILET_US,
        _LONG,
        _ROUND_UK,
    )
    return tuple(len(one.findall(text if one is _SLIP else plain)) for one in counted)


def _contradicts(told: Terms, us: int, uk: int) -> bool:
    return (told == "UK" and us > 0) or (told == "US" and uk > 0)


def _weak(words: Iterable[str]) -> Decided:
    """Neither single crochet nor half treble: the words around the stitches must tell."""
    miss, skip, treble, double, plain, british, slip, high_us, high_uk, first, last, filet, long, three = _sums(words, _weak_evidence, 14)
    if plain and treble:
        return Decided("UK", "plain and treble stand together, as in old English books")
    if long and double and miss and not skip and not filet:
        return Decided("UK", "long stitches and double crochet stand together, as in old English books")
    if filet and not treble:
        return Decided("US", "its filet spaces end in a double crochet")
    if high_us > high_uk and miss < 2:
        return Decided("US", "its starting chains are as high as stitches of US terms")
    if high_uk > high_us:
        return Decided("UK", "its starting chains are as high as stitches of UK terms")
    if miss > skip and (miss > 1 or treble or british or first > last):
        return Decided("UK", f"'miss' is said {miss} times and 'skip' {skip} times")
    if treble and slip and not skip:
        return Decided("UK", "slip stitches are written s.s., as British patterns have them")
    if slip and british and not skip:
        return Decided("UK", "slip stitches are written s.s., beside British words")
    if three and not double and not skip:
        return Decided("UK", "its rounds of trebles begin in 3 chains")
    if treble and double and not skip and british:
        return Decided("UK", "trebles beside doubles, and British spelling")
    if treble and double and not skip and first >= 4 and not last:
        return Decided("UK", "trebles beside doubles, and every number stands before its chain, as in old English books")
    return Decided("US", "nothing in it speaks against US terms")
