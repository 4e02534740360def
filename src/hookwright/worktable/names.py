"""Names of patterns: what a maker may call one, so that it is a plain file on every system and never a path."""

from __future__ import annotations

import re
import unicodedata

LONGEST = 120
_FORBIDDEN = re.compile(r'[/\\:*?"<>|\x00-\x1f\x7f]')
_LEADS_AWAY = re.compile(r"[/\\\x00-\x1f\x7f]")
_RESERVED = re.compile(r"(?i)^(con|prn|aux|nul|com\d|lpt\d)(\.|$)")


class BadName(ValueError):
    """A name that cannot be a file's; the message is a sentence for the maker."""


def clean_name(name: str) -> str:
    """The name as it will be kept. Raises `BadName` with what to change.

    >>> clean_name("  Tide   wrap ")
    'Tide wrap'
    """
    kept = " ".join(unicodedata.normalize("NFC", name).split())
    if not kept:
        raise BadName("A pattern needs a name.")
    if len(kept) > LONGEST:
        raise BadName(f"That name is {len(kept)} characters long; {LONGEST} is the most a file name should have.")
    found = _FORBIDDEN.search(kept)
    if found:
        raise BadName(f"A name cannot hold the character {found[0]!r}: it is the name of a file.")
    if kept.startswith(".") or kept.endswith("."):
        raise BadName("A name cannot begin or end with a full stop.")
    if _RESERVED.match(kept):
        raise BadName(f"“{kept}” is a name that some computers keep for themselves. Add a word to it.")
    return kept


def known_name(name: str) -> str:
    """The name of a file that may be there already, exactly as it is: only what could lead out of the folder is refused.

    Other programs (and other systems' spellings of an umlaut) make names that we would not; they can be opened all the same.
    """
    if not name or name.startswith(".") or len(name) > 240 or _LEADS_AWAY.search(name):
        raise BadName("That is not the name of a pattern in this folder.")
    return name


def tidy_name(wish: str, fallback: str = "Pattern") -> str:
    """A permitted name as near to the wish as can be (for names that come from files brought in)."""
    kept = " ".join(_FORBIDDEN.sub(" ", unicodedata.normalize("NFC", wish)).split()).strip(".")[:LONGEST].strip()
    if not kept or _RESERVED.match(kept):
        return fallback
    return kept


def unused_name(wish: str, taken: set[str]) -> str:
    """The wish, or the wish with the first number that is free ("Tide wrap 2")."""
    lower = {name.casefold() for name in taken}
    if wish.casefold() not in lower:
        return wish
    number = 2
    while f"{wish} {number}".casefold() in lower:
        number += 1
    return f"{wish} {number}"
