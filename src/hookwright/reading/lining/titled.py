"""A page's title in which a stitch is named ("hdc beanie, two sizes", "Popcorn Mat"): it names the piece, and nothing is worked for it."""

from __future__ import annotations

import re

from .lines_told import CRAFT_WORDS

_TITLE = re.compile(r"\s*[*_#=]{0,3}(?P<said>[A-Za-z][^\n.;:*\[({]{3,70}?)(?:[.!]|\s?\([^()\n\d]{2,40}\))?[*_=]{0,3}[ \t]*\n(?=\s*\S)")
_MEASURED = re.compile(
    r"(?i)\d+[\s-]?(?:inch(?:es)?|in(?=\s)|cm|mm|rows?|rounds?|colou?rs?|hours?|piece|ply|points?|petals?|sided|way)(?![a-z])"
)
_MESHED = re.compile(r"(?i)\bch(?:ain)?[\s-]?\d\s?-?(?=(?:loops?|sp|spaces?|lace|mesh|picots?|arch|net)\b)")
""" "Ch-3 loop scarf": what the lace is made of."""
_ASKS = re.compile(
    r"(?i)\d|\b(?:join|turn|skip|sk|evenly|loosely|rep(?:eat)?|next|each|every|same|around|round\s(?:the|each|this)|across|along|until|times|"
    r"again|then|into|work|make|begin|start|fasten|yarn|thread|hook|(?:in|over|under|to|from)\s(?:(?:the|any|a)\s)?"
    r"(?:first|last|second|third|ring|loops?|lps?|sp|space|ch|chain|st|stitch|end|beg(?:inning)?|corner|centre|center|edge|side))\b"
)
"""What an instruction has and the name of a piece has not: a number, a place, a manner, a further verb."""
_SMALL_WORDS = frozenset(
    """
    the and with for your our this that sts stitch stitches sps space spaces loop loops lps cluster clusters puff popcorn bobble fan vst
    group groups only all along beg end color colour main front back post posts fpdc bpdc extended blo flo both
    """.split()  # noqa: SIM905
)


_CAPITAL = r"(?:[A-Z][\w'’-]*|and|&|with|for|of|the|a|in|as|to|by|my|you)"
_CAPITALS = re.compile(rf"{_CAPITAL}(?:[ -]{_CAPITAL}){{1,8}}")
_ASKS_IN_CAPITALS = re.compile(
    r"(?i)\d|^\W*(?:make|form|begin|start|work|attach|join|rep(?:eat)?|turn|skip|cut|fasten|weave|using|with)\b"
    r"|\b(?:ring|circle|loop|knot|yarn|thread|chain|work|colou?r|ends?|(?-i:[A-Z])|ch|sc|dc|hdc|sts?|rows?|rounds?|(?:a?round|across))\W*$"
)
"""What no title in capitals is: it tells what to do first, or ends in what that is done with."""


def title_end(text: str, start: int, stop: int) -> int:
    """Where the title ends that stands at `start`, if its words could be taken for stitches; `start` where there is none.

    >>> title_end("hdc beanie for a doll\\nCh 4, join.", 0, 33), title_end("sc in each ch\\nRow 2: ch 1.", 0, 14)
    (22, 0)
    >>> title_end("Shell Stitch Washcloth\\n\\nCh 11.", 0, 22), title_end("Join Yarn In Corner\\nRow 2", 0, 19)
    (22, 0)
    """
    line = _TITLE.match(text, start)
    if line is None or line.end("said") > stop or not (_in_capitals(line["said"]) or _begins_with_stitch(line["said"])):
        return start
    return min(line.end(), stop)


def _in_capitals(said: str) -> bool:
    """ "Magic Ring Trivet": every word but the small ones has a capital."""
    return bool(_CAPITALS.fullmatch(said) and CRAFT_WORDS.search(said) and not _ASKS_IN_CAPITALS.search(said))


def _begins_with_stitch(said: str) -> bool:
    """ "hdc beanie": a stitch, a thing, and nothing that is asked."""
    if not CRAFT_WORDS.match(said):
        return False
    name = _MESHED.sub("", _MEASURED.sub("", said))
    things = [word for word in re.findall(r"[a-z]+", CRAFT_WORDS.sub(" ", name).lower()) if len(word) > 2 and word not in _SMALL_WORDS]
    return bool(things) and not _ASKS.search(name)
