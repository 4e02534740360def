"""The words of the craft that are no stitches, each in one sentence of ours: what hovering over them tells."""

from __future__ import annotations

import re

from .utf16 import line_at

MEANINGS: dict[str, str] = {
    "row": "One line of stitches, worked from one edge to the other; the work is usually turned after it.",
    "round": "One line of stitches that goes all the way around and meets its own beginning.",
    "gauge": "How many stitches and rows go into a measured width and height (10 cm or 4 in), counted in the middle of a swatch.",
    "swatch": "A small sample made to measure the gauge, or weighed to learn how much yarn a stitch takes.",
    "turning chain": "The chains that bring the hook up to the height of a row's stitches; they count as a stitch or they do not.",
    "foundation chain": "The chains that the first row is worked into.",
    "magic ring": "A loop of yarn that the first round is worked into, and that is then drawn shut.",
    "chain space": "The gap under chains; stitches worked into it go around the chains, not into them.",
    "post": "The upright part of a stitch; a post stitch is worked around it.",
    "front loop": "Of the two strands on top of a stitch, the one nearer to you.",
    "back loop": "Of the two strands on top of a stitch, the one farther from you.",
    "right side": "The side of the fabric that will be seen.",
    "wrong side": "The side of the fabric that will not be seen.",
    "join": "To close a round, usually with a slip stitch into its first stitch.",
    "fasten off": "Cut the yarn and draw the end through the last loop.",
    "turn": "Turn the work so that its other side faces you, and go back.",
    "skip": "Pass over a stitch or a space without working into it.",
    "repeat": "Work the same steps again; brackets or stars show which.",
    "increase": "Make more stitches than there were: two or more in one place.",
    "decrease": "Make fewer stitches than there were: work some together, or leave some.",
    "together": "Each stitch is begun in its own place, and all are closed at once: several become one.",
    "marker": "A ring or a bit of yarn hung in a stitch so that it can be found again.",
    "shell": "Several stitches fanned out from one place.",
    "cluster": "Several stitches begun apart and closed together at the top.",
    "picot": "A small loop of chains closed on itself, for an edge.",
    "motif": "A piece made from its middle outward, often joined to others.",
    "edging": "Rows or rounds worked onto the edge of a finished piece.",
    "blocking": "Wetting or steaming a finished piece and letting it dry in shape.",
    "ease": "How much larger (or smaller) a garment is than the body in it.",
    "schematic": "An outline of the piece with its measurements.",
    "chart": "The stitches drawn as symbols, where they lie in the fabric.",
    "ball": "Yarn as it is bought; its band tells metres and grams.",
    "stripe": "A band of one colour.",
    "self-striping": "Yarn dyed in long stretches, so that stripes come by themselves.",
    "pooling": "Colours of a short-repeat yarn that pile up in patches.",
    "fringe": "Strands knotted into an edge.",
    "tassel": "A bundle of strands bound at the top.",
    "hook": "The tool; its size is the width of its shaft in millimetres.",
    "strand": "One thread of yarn; several may be held together.",
    "weave in": "To hide an end of yarn in the stitches with a needle.",
    "stitch": "One loop made with the hook, standing on the row below.",
    "space": "A gap in the fabric that stitches can be worked into.",
}

ALSO: dict[str, str] = {
    "rows": "row",
    "rnd": "round",
    "rnds": "round",
    "rounds": "round",
    "tension": "gauge",
    "rs": "right side",
    "ws": "wrong side",
    "sp": "space",
    "sps": "space",
    "ch-sp": "chain space",
    "ch sp": "chain space",
    "st": "stitch",
    "sts": "stitch",
    "stitches": "stitch",
    "mr": "magic ring",
    "magic circle": "magic ring",
    "magic loop": "magic ring",
    "blo": "back loop",
    "bl": "back loop",
    "back loop only": "back loop",
    "flo": "front loop",
    "fl": "front loop",
    "front loop only": "front loop",
    "sk": "skip",
    "miss": "skip",
    "rep": "repeat",
    "inc": "increase",
    "dec": "decrease",
    "tog": "together",
    "fo": "fasten off",
    "pm": "marker",
    "beg ch": "turning chain",
    "foundation": "foundation chain",
    "ring": "magic ring",
    "tch": "turning chain",
    "t-ch": "turning chain",
    "cl": "cluster",
    "balls": "ball",
    "stripes": "stripe",
    "joined": "join",
    "turned": "turn",
}

_WORDS = re.compile(r"[A-Za-z][A-Za-z0-9'’-]*")


def meaning(word: str) -> tuple[str, str] | None:
    """(the craft's word, what it means) for a word or abbreviation; None when it is no word of the craft.

    >>> meaning("Sk")
    ('skip', 'Pass over a stitch or a space without working into it.')
    """
    key = " ".join(word.lower().split())
    key = ALSO.get(key, key)
    return (key, MEANINGS[key]) if key in MEANINGS else None


def words_at(text: str, point: int) -> list[tuple[str, int, int]]:
    """The word at a code point with up to two words before and after it, longest phrase first: (phrase, start, end)."""
    start, end = line_at(text, point)
    words = [(start + found.start(), start + found.end()) for found in _WORDS.finditer(text[start:end])]
    here = next((i for i, (low, high) in enumerate(words) if low <= point <= high), None)
    if here is None:
        return []
    phrases = []
    for size in (3, 2, 1):
        for first in range(max(0, here - size + 1), here + 1):
            if first + size <= len(words):
                low, high = words[first][0], words[first + size - 1][1]
                phrases.append((text[low:high], low, high))
    return phrases
