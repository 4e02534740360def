"""Things that several phrases name: threads, parts of a garment and the openings in it, nouns in the plural, what is wished."""

from __future__ import annotations

THREADS = frozenset(("cotton", "wool", "silk", "thread"))
"""What yarn was called before it was called so; a pattern may say "the thread" for the one that is used."""
YARNS = THREADS | {"yarn", "twine", "string"}
OPENINGS = frozenset("armhole armholes underarm underarms armpit sleeve sleeves thumb thumbhole opening".split())  # noqa: SIM905
"""Where a row is divided, and later joined to again."""
PANELS = frozenset("back front sleeve sleeves body panel yoke".split())  # noqa: SIM905
"""Parts of a yoke worked in one, between its corners."""
GARMENT_PARTS = (
    OPENINGS
    | PANELS
    | frozenset(
        """fronts backs shoulder shoulders neck neckline neckband collar bodice gusset heel toe instep foot leg legs cuff brim crown strap
        straps handle handles flap ear ears wing wings arm arms tail snout muzzle placket buttonhole buttonholes buttonband pocket waist
        waistband hem side sides skirt lapel peplum bib""".split()  # noqa: SIM905
    )
)
"""Which part of the garment: "each sleeve dc", "first underarm ch", and what stitches are told to be going to be."""
STITCHES = frozenset(("sts", "stitches", "chs", "chains"))
"""Nouns that tell that there are several."""
LIKE_IT = frozenset("corresponding facing adjoining matching".split())  # noqa: SIM905
"""Before a place of another piece: the one that lies where this one does."""
LONE = frozenset("single lone solitary odd only".split())  # noqa: SIM905
"""Before a stitch that is a place: there is one of it, between groups."""
WANTED = frozenset("required require desired desire wanted want needed need wished wish necessary like".split())  # noqa: SIM905
"""How a length is told that the maker chooses."""

LAST = "corner of the round before"
"""Under which the last corner told is kept among the pattern's own groups; no words are read as this."""
