"""Characters that mean the same: look-alikes, quotes, dashes. Every change keeps the length, so that spans stay those of the source."""

from __future__ import annotations

import re

_SAME = {
    "\u00a0\u2002\u2003\u2007\u2009\u200a\u202f\u3000\t\v\f\ufeff\u200b\u200c\u200d\u2060\u00ad": " ",
    "\u2018\u2019\u201b\u2032\u00b4`": "'",
    "\u201c\u201d\u201f\u2033": '"',
    "\u2012\u2013\u2014\u2015\u2212\u2010\u2011": "-",
    "\u2044\u2215": "/",
    "\u00d7\u2715\u2716": "x",
    "\u2217\u2731\u22c6\u2605\u2606\uff0a": "*",
    "\u2020\u2021": "+",
    "\uff08\u2768\u276a\u27ee\u2985": "(",
    "\uff09\u2769\u276b\u27ef\u2986": ")",
    "\u3014\u3010\uff3b\u300c\u300e\u300a\u3008\u27e8\u27e6\u2772\u276c": "[",
    "\u3015\u3011\uff3d\u300d\u300f\u300b\u3009\u27e9\u27e7\u2773\u276d": "]",
    "\uff0c": ",",
    "\uff1a": ":",
    "\u2026": ".",
    "\u2192\u21d2\u279c\u2794\u279d\u279e\u27a1\u27a4\u25b6\u25b8\u25ba\u2b95": "=",
    "\u2190\u2196\u2197\u2198\u2199\u2b05\u2b08\u2b09\u2b0a\u2b0b": " ",
    "\u2028\u2029\x85\r": "\n",
    # letters of other alphabets that a scanner or a keyboard puts into Latin words
    "АΑ": "A", "ВΒ": "B", "С": "C", "ЕΕ": "E", "НΗ": "H", "КΚ": "K", "МΜ": "M", "ОΟ": "O", "РΡ": "P", "ТΤ": "T", "ХΧ": "X",
    "а": "a", "с": "c", "е": "e", "оο": "o", "р": "p", "х": "x", "у": "y", "іι": "i", "ѕ": "s",
}  # fmt: skip

_WITH = re.compile(r"(?<![A-Za-z])([Ww])/(?=\s|[A-Z])")
"""The short form of "with": "join w/ sl st"."""
_COUNTED = (
    r"(?=\d{1,4}(?:\s?\(\d{1,4}(?:,\s?\d{1,4}){0,9}\))?\s"
    r"(?:(?:s\.?\s?c|d\.?\s?c|h\.?\s?d\.?\s?c|sts|stitches|sps|lps|loops|shells|tr)\b|"
    r"(?:[A-Za-z]{1,10}[ -]|ch-\d\s)?[A-Za-z]{2,10}s\b(?=\s*(?:[.;,)\n]|\Z|and\b))))"
)
_COUNT = re.compile(rf"(?<=[a-z])(?<!\sround)(?<!\srow)(?<!\srnd)(?<!Round)(?<!Row)(?<!Rnd)(?<!Tour)(?:\u2014|--){_COUNTED}")
"""A long dash, or the two short ones typed for it, between the words and their count, with no blank: "in each of 2 ch\u20148 sc" has no
ch-8 in it, nor has "in each ch--8 sc"."""
_COUNT_AFTER_NUMBER = re.compile(rf"(?i)(\b(?:repeat|rep|as|like|ch)\b[^.;:\n\u2014]{{0,28}}\d)(?:\u2014|--){_COUNTED}")
"""The same behind a number that ends the words: "Repeat Rnd 2\u201446 dc", "join to 3rd ch of ch 4\u201426 sps"."""
_BARE_AFTER_ROW = re.compile(
    r"(?i)(\b(?:repeat|rep|as|like|work)\s(?:for\s|in\s|the\s)?(?:rnd|row|round)\.?\s\d{1,3})(?:\u2014|--)(?=\d{1,4}\s*(?:[.;\n]|\Z))"
)
"""A bare number behind one row ("Same as Rnd 2\u201432."): several rows are told in the plural, or with a short dash."""
_ONE_HYPHEN = re.compile(r"(?i)(?<![\w-])1-(?:d\.?\s?c|h\.?\s?tr|d\.?\s?tr|tr)\b")
_ALL_HYPHENS = re.compile(
    r"(?i)((?:\b(?:into|in|under|over|of|to)\s(?:(?:the|next|last|first|same)\s){0,2}|\b(?:each|every)\s(?:of\s)?(?:the\s)?(?:next|last|first)\s)?)"
    r"((?<![\w-])\d{1,3})-(?=(?P<what>ch(?:ain)?|d\.?\s?c|h\.?\s?tr|d\.?\s?tr|tr|s\.?s)\b(?P<loop>\.?[ -]?(?:sp|lp|loop|arch))?)"
)
"""Print that joins every number to its stitch ("1-tr. into each of next 2-ch., 5-ch., miss 5-ch."): a chain so named is a loop only where
something is worked into it."""
ENOUGH_HYPHENS = 3
_OF_SO_MANY = re.compile(
    r"(?i)(\b(?:groups?|shells?|clusters?)\sof\s\d{1,2})-(?=(?:h?dc|sc|tr|[sd]\s?c|sts?)\b(?!\s?(?:groups?|shells?|clusters?)))"
)
"""What a group is made of: "(4 groups of 3-dc)"."""
_FROM_NUMBER = re.compile(r"(?i)\(([1-3])\)(?=\s?\*?\s?[a-z\d])((?:(?!\(\1\)).){3,400}?\b(?:repeat|rep)\.?\sfrom\s)\(\1\)", re.DOTALL)
"""A number in a bracket as the mark of a repeat: "(1) d c in next d c, ch 1, rep from (1) around"."""
_TIMED = re.compile(r"(?m)^[ \t]*[\[(]\d{1,2}:\d{2}(?::\d{2})?[\])]")
"""The time of a film at the beginning of a line."""
_PICTURE = re.compile("[\u2600-\u26ff\u2708-\u275a\u2763-\u2767\u20e3\ufe0e\ufe0f\U0001f300-\U0001faff]")
"""Little pictures that a writer sets between the words (a flower, a ball of yarn, a heart): none of them says anything of the work."""
_ESCAPED = re.compile(r"\\(?=[*_\[\]()#+.~-])")
"""The stroke by which Markdown shows a mark as it is: "\\*sc in next st; rep from \\* around"."""
_TABLE = {ord(char): to for chars, to in _SAME.items() for char in chars}


def plain(text: str) -> str:
    """The text with look-alike characters made one, the same length as before.

    >>> plain("5\u00a0sc – “turn”")
    '5 sc - "turn"'
    """
    if "\r\n" in text:
        text = text.replace("\r\n", "\n ")  # one line's end, not a blank line
    if "\\" in text:
        text = _ESCAPED.sub(" ", text)
    if "w/" in text:
        text = _WITH.sub(r"\1 ", text)
    if "]" in text or ")" in text:
        text = _TIMED.sub(lambda match: " " * len(match[0]), text)
    if "\u2014" in text or "--" in text:
        text = _BARE_AFTER_ROW.sub(_equals, _COUNT_AFTER_NUMBER.sub(_equals, _COUNT.sub(_equals, text)))
    if "1-" in text and len(_ONE_HYPHEN.findall(text)) >= ENOUGH_HYPHENS:
        text = _ALL_HYPHENS.sub(_apart, text)
    if "-" in text and "of " in text:
        text = _OF_SO_MANY.sub(r"\1 ", text)
    if "from (" in text:
        text = _FROM_NUMBER.sub(_stars, text)
    if text.isascii():
        text = text.replace("\r", "\n").replace("\t", " ") if "\r" in text or "\t" in text else text
    else:
        text = _PICTURE.sub(" ", text.translate(_TABLE))
    return text


def _equals(match: re.Match[str]) -> str:
    """What stands before the dash, and the sign of a count for the dash."""
    before = "" if match.re is _COUNT else match[1]
    return before + "=".ljust(len(match[0]) - len(before))


def _apart(match: re.Match[str]) -> str:
    """The number and its stitch with a blank between them, but for a loop of chains."""
    led, chain = match[1].lower(), match["what"].lower().startswith("ch")
    loop = match["loop"] is not None or (led != "" and not led.startswith(("each", "every")))
    return match[0] if chain and loop else f"{match[1]}{match[2]} "


def _stars(match: re.Match[str]) -> str:
    """The bracketed number as so many stars, where it stands and where it is named."""
    star = ("*" * int(match[1])).center(3)
    return f"{star}{match[2]}{star}"
