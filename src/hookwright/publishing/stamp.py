"""The version stamp: one line that tells two states of a pattern apart, whoever prints them and whenever."""

from __future__ import annotations

from hashlib import sha256

from ..pattern import Pattern
from ..writing import write


def stamp_of(pattern: Pattern) -> str:
    """`Version 1.2 · 3f9a01c4`: the designer's version, and eight figures of the digest of everything the pattern says in US terms.

    No clock and no machine enters it: the same pattern has the same stamp for ever.
    """
    digest = sha256(write(pattern, terms="US").text.encode()).hexdigest()[:8]
    return f"Version {pattern.facts.version} · {digest}" if pattern.facts.version else f"Stamp {digest}"
