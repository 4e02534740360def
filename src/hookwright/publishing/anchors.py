"""Names that hold in a file name, a web address and a PDF label alike."""

from __future__ import annotations

import re
import unicodedata


def slug(text: str) -> str:
    """Lower-case letters, figures and hyphens; accents taken off.

    >>> slug("Ebbline wrap"), slug("Ärmel (2×)"), slug("裾")
    ('ebbline-wrap', 'armel-2', '')
    """
    plain = unicodedata.normalize("NFKD", text.replace("×", " ")).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower())[:LONGEST].strip("-")


LONGEST = 60
"""Letters of a file name at most; a folder's own path comes before it."""


def row_anchor(part: str, at: int) -> str:
    """The anchor of the instruction at place `at` (from 1) of a part: the same in page, booklet and manifest.

    >>> row_anchor("pad", 3)
    'pad-3'
    """
    return f"{part}-{at}"
