"""What machines make of speech: sounds taken for other words, lost words, no marks, lines that roll."""

# ruff: noqa: E501

from __future__ import annotations

import random
import re

SOUNDS = {
    "double crochet": ("double crow shay", "double croquet", "double crush a", "double crochets"),
    "single crochet": ("single croquet", "single crow shay", "sink a crochet", "singles crochet"),
    "half double crochet": ("half double croquet", "have double crochet", "half a double crochet"),
    "treble": ("trouble crochet", "trebel", "treble croquet"),
    "slip stitch": ("slip stick", "slips ditch"),
    "turn": ("churn", "turned"),
    "chain one": ("chain won",), "chain two": ("chain to", "chain too"), "chain three": ("chain 3", "chain free"), "chain four": ("chain for",),
    "row two": ("row to", "row too"), "row four": ("row for", "roe four"), "row eight": ("row ate",), "row one": ("row won",),
    "round two": ("round to",), "round four": ("round for",), "rows four": ("rows for",),
    "stitches": ("stitches", "stitch is", "stiches"),
    "skip": ("skipped",),
    "four stitches": ("for stitches",), "two stitches": ("to stitches",),
}  # fmt: skip
_FIGURES = {
    "one": "1",
    "two": "2",
    "three": "3",
    "five": "5",
    "six": "6",
    "seven": "7",
    "nine": "9",
    "ten": "10",
    "twelve": "12",
    "twenty": "20",
}
_LOSABLE = frozenset(
    [
        "the",
        "a",
        "an",
        "and",
        "then",
        "so",
        "to",
        "of",
        "in",
        "that",
        "it",
        "just",
        "now",
        "okay",
        "we",
        "you",
        "your",
        "gonna",
        "going",
        "right",
        "well",
    ]
)


def misheard(r: random.Random, text: str, *, often: float = 0.35, lost: float = 0.04) -> str:
    """The text as a machine writes it: small letters, no marks, sounds, digits, small words lost."""
    said = re.sub(r"[.,;:!?]", "", text.lower()).replace("-", " ")
    for words, heard in SOUNDS.items():
        said = re.sub(rf"\b{words}\b", lambda m, h=heard: r.choice(h) if r.random() < often else m[0], said)  # type: ignore[misc]
    out = []
    for word in said.split():
        if word in _LOSABLE and r.random() < lost * 3:
            continue
        if r.random() < lost / 4:
            continue
        out.append(_FIGURES.get(word, word) if r.random() < 0.3 else word)
    return " ".join(out)
