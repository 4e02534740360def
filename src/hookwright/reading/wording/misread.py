"""Letters that a scan took for others, and for figures: e for c, b for h, vv for w, rn for m; l and I for 1, O for 0, S for 8 or 5.

The confusions are those of scanned print (from memory). Only what can mean nothing else is changed, never a word that patterns use;
spellings that are merely likely are offered to whoever tells slips (`alike`).
"""

from __future__ import annotations

import re

from .broken_words import long_words
from .everyday import EVERYDAY
from .vocabulary import base_entries

# Each pattern begins with the wrong letters themselves and looks back behind them: the search over a clean text is then quick.
_E_FOR_C = re.compile(r"e(?![A-Za-z'-])(?<=[sdSD.\s].)")
_INITIALS = re.compile(r"(?<![A-Za-z.])(?:[hH]\.?\s?)?[sdSD](?P<stop>\.?)(?P<gap>\s?)\Z")
_COUNTED = re.compile(r"(?:\d|\b(?:the|each|next|last|first|of|every|one))\s\Z")
_IN_PLACE = re.compile(r"\s(?:in|into|on|over|under)\b")
_B_FOR_H = re.compile(r"[tw]b(?=[a-z])(?<![\w'].b)|[tc]b\b(?<=[a-z].b)|tlie\b(?<!\w....)|t(?:[bh]c|ne)\b(?<!\w...)")
"""No word of English begins or ends so."""
_CH = re.compile(r"[ceo][bh](?=\.|,|\s(?:st|loop|in|and|to|turn))(?<=\d\s..)")
_VV = re.compile(r"(?<![A-Za-z])([A-Za-z]*)vv([a-z]*)(?![A-Za-z])")

_RN = re.compile(r"rn(?<![A-Za-z]..)[a-z]{2,}|[A-Za-z]{1,8}rn[a-z]{0,8}")
_RND = re.compile(r"m(?=ds?\b)(?<![A-Za-z].)(?:(?<=[0-9]\s.)|(?<=(?:st|nd|rd|th|xt)\s.)|(?<=ch\s.)|(?=ds?\.?\s?\d))")
"""The m of "3rd md", "last md", "each md", "mds 4-6", where the noun of the rounds was damaged."""

_NOUN = r"\.?\s[Rr](?:ows?|ounds?|nds?)\b"
_NTH = re.compile(
    rf"(?<![A-Za-z0-9])(?:(?P<n>[lI1]{{1,2}}|[lI1S]?[\dSOlI]|\d)(?P<th>st|nd|ud|rd|d|th|tb|tli)(?={_NOUN})|"
    rf"(?P<sure>l(?=st)|I(?=st(?:{_NOUN}|\.?-))|[lI][0-9O](?=th)|[1-9]O(?=th))(?P<rest>st|th)(?![A-Za-z]))"
)
_NTH_DAMAGED = re.compile(r"[lIOS](?<![A-Za-z].)\d?(?:st|nd|ud|rd|d|th|tb|tli)(?![A-Za-z])|\d(?:ud|tb|tli)(?![A-Za-z])")
_LABEL = re.compile(r"(?:^|\n|[.;)])[ \t*_]*\Z")
_ONE = re.compile(
    r"[lI](?=\s(?:s\.?\s[ce]|d\.?\s[ce]|h\.?\s?d\.?\s[ce]|tr\.|ch\.|d\.\s?tr|sl\.\s?st|sps?\b|bls?\b|space\b|block\b))"
    r"(?<![A-Za-z.'-].)(?<!\d\s.)(?<!each\s.)(?<!the\s.)(?<!next\s.)|"
    r"l(?=[,;.)]|\s(?:to|turn)\b)(?<=[Cc]h\s.)(?<!\w..\s.)|l(?=[,;.)]|\s(?:to|turn)\b)(?<=[Cc]h\.\s.)(?<!\w..\.\s.)|"
    r"l(?=\s(?:sc|dc|hdc|tr|st|ch)\b)(?:(?<=\b(?:sk|of)\s.)|(?<=\b(?:and)\s.)|(?<=\b(?:skip|miss|work|with)\s.)|(?<=[,;:*(]\s.)|(?<=\(.))|"
    r"l(?=\s(?:sps?|lps?|loops?|spaces?)\b)(?<=\b[Cc]h-.)"
)
"""1 taken for a letter, before a stitch's initials or a square of filet ("l d. c. in next", "l sp"), and behind ch ("ch l,")."""
_FIGURES = re.compile(
    r"(?<![A-Za-z0-9.,'/-])(?:[lI][\dO]\d?|\d{1,2}l|ll)(?=\s(?:\([\d, ]{1,20}\)\s)?(?:s\.?\s?c|d\.?\s?c|h\.?\s?d\.?\s?c|tr|sl\.?\s|chs?|"
    r"sts?|times|rows|rnds|rounds|sps|more)\b)"
)
"""A number in figures that l, I and O stand in, told of stitches, of times or of rows: "in next lO sc", "2l (25) sts", "ll times"."""
_LABELLED = re.compile(
    r"(?:\b|(?<=[A-Z]))(?:R(?:OW|OUND|ND)S?|R(?:ow|ound|nd)s?)\s[lIO\d]{1,3}(?=\s?[:.-]|\s(?:to|and|thru|through|&)\s\d)"
)
"""A label's number that l, I and O stand in: "RND ll:", "Row l2."."""
_ZERO = re.compile(
    r"(?<![A-Za-z0-9.,])(?P<a>\d{1,3})(?P<o>[oO]{1,2})(?![A-Za-z0-9])(?!\s(?:vuelta|giro|fila|hilera|carreira|volta|riga|pto))"
)
_ZERO_DAMAGED = re.compile(r"\d[oO]{1,2}(?![A-Za-z0-9])")
_LETTERS_IN_FIGURES = re.compile(r"[lIO][\dlO]|\dl|[dswDSW]\s[lI]\b")
_DIGITS = str.maketrans("lIO", "110")


def with_letters(text: str) -> str:
    """The text with letters set right that were taken for other letters; as long as before.

    >>> with_letters("tbe next s. e., Rovv 2; 3 cb, sc tbl")
    'the next s. c., Row  2; 3 ch, sc tbl'
    """
    if "vv" in text:
        text = _VV.sub(_double, text)
    text = _E_FOR_C.sub(_stitch, text)
    if "rn" in text:
        text = _RN.sub(_with_m, text)
    if "md" in text:
        text = _RND.sub("r", text)
    if any(piece in text for piece in ("tb", "wb", "cb", "tlie", "thc", "tne")):
        text = _B_FOR_H.sub(_word_with_h, text)
    return _CH.sub("ch", text)


def with_figures(text: str) -> str:
    """The text with figures set right that were taken for letters; as long as before.

    >>> with_figures("Ch l, l d. c. in lst of 4O sps\\nllth row")
    'Ch 1, 1 d. c. in 1st of 40 sps\\n11th row'
    """
    if _ZERO_DAMAGED.search(text):
        text = _ZERO.sub(lambda match: match["a"] + "0" * len(match["o"]), text)
    if _NTH_DAMAGED.search(text):
        text = _numbered(text)
    if _LETTERS_IN_FIGURES.search(text):
        text = _LABELLED.sub(lambda match: _in_label(match[0]), _FIGURES.sub(lambda match: match[0].translate(_DIGITS), text))
    return _ONE.sub("1", text)


def alike(word: str) -> set[str]:
    """Spellings that a scan may have made this of, by letters that run together: "rn" for m, m for "rn"."""
    return {word.replace("rn", "m", 1), word.replace("m", "rn", 1)} - {word}


def _double(match: re.Match[str]) -> str:
    word = f"{match[1]}w{match[2]}"
    return f"{word} " if word.lower() in long_words() or word.lower() in ("row", "rows", "two") else match[0]


def _with_m(match: re.Match[str]) -> str:
    """The word with m for rn, where only that is a word of patterns: "frorn", "tirnes", "Sarne"; the blank stands behind it."""
    word = match[0]
    other = word.replace("rn", "m", 1)
    if word.lower() in EVERYDAY or word.lower() in long_words() or other.lower() not in long_words():
        return word
    return f"{other} "


def _in_label(label: str) -> str:
    number = label.split()[-1]
    return f"{label[: -len(number)]}{number.translate(_DIGITS)}"


def _stitch(match: re.Match[str]) -> str:
    """C, behind a stitch's other initials: with full stops, counted, or with a place told: "s. e.", "2 d e", "s e in next"."""
    at = match.start()
    initials = _INITIALS.search(match.string, max(0, at - 7), at)
    if initials is None:
        return match[0]
    counted = _COUNTED.search(match.string, max(0, initials.start() - 7), initials.start())
    placed = initials["gap"] and _IN_PLACE.match(match.string, match.end())
    return "c" if initials["stop"] or counted or placed else match[0]


def _word_with_h(match: re.Match[str]) -> str:
    """The word with its h, unless it is a short form of the craft ("tbl": through the back loop)."""
    text, a, b = match.string, match.start(), match.end()
    while b < len(text) and text[b].isalpha():
        b += 1
    while a and text[a - 1].isalpha():
        a -= 1
    if (text[a:b].lower(),) in base_entries():
        return match[0]
    if match[0] in ("tlie", "tbc", "thc", "tne"):
        return "the".ljust(len(match[0]))
    return f"{match[0][0]}h"


def _numbered(text: str) -> str:
    """The ordinals in figures: "lst row", "llth row", "l0th", "Sth row" (8th, or 5th where the rows are come so far)."""
    last, meant = 0, set()
    out = list(text)
    fives: list[int] = []
    for match in _NTH.finditer(text):
        n, th = match["n"] or match["sure"], match["th"] or match["rest"]
        label = _LABEL.search(text, max(0, match.start() - 20), match.start()) is not None
        if n == "S":
            if not label:
                fives.append(match.start())
                continue
            n = "5" if last == 4 else "8"
            meant.add(n)
        number = n.translate(_DIGITS).replace("S", "8")
        if number.isdigit() and label:
            last = int(number)
        out[match.start() : match.end()] = number + {"ud": "nd", "tb": "th", "tli": "th "}.get(th, th)
    only = meant.pop() if len(meant) == 1 else "8"
    for at in fives:
        out[at] = only
    return re.sub(r"(?<=\bthe )Sth\b", f"{only}th", "".join(out))
