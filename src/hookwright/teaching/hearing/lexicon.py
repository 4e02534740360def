"""The words of speech, kept as data: what a machine writes for the words of the craft, and how people lead up to a count or a row."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any


@cache
def _table() -> dict[str, Any]:
    return tomllib.loads((Path(__file__).parent / "lexicon.toml").read_text(encoding="utf-8"))


def words(module: str, name: str) -> frozenset[str]:
    """A set of single words.

    >>> "they're" in words("tallies", "subject"), "you" in words("tallies", "subject")
    (False, True)
    """
    return frozenset(_table()[module][name]["words"].split())


def phrases(module: str, name: str) -> tuple[str, ...]:
    """Phrases of one or more words, in their order."""
    return tuple(_table()[module][name]["phrases"])


def meanings(module: str, name: str) -> dict[str, str]:
    """What is heard → what is meant.

    >>> meanings("tokens", "phrases")["churn"]
    'turn'
    """
    return {heard: meant for meant, many in _table()[module][name].items() for heard in many}
