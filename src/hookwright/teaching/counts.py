"""What a row holds, as people say it."""

from __future__ import annotations

from collections.abc import Mapping

from ..trade.terms import System
from ..trade.terms import name as full_name
from ..working import RowWork
from ..working.round_the_edge import counted_by_nobody

_SAME_PLURAL = ("crochet", "treble")


def count_words(row: RowWork, terms: System) -> str:
    """What a row holds: "15 double crochet, 7 chain-1 spaces"; the total alone for more than three kinds, "" where nothing counts or
    nobody can say.

    >>> from types import SimpleNamespace as N
    >>> count_words(N(offered=9, counted=N(total=9, by_kind={"dc": 9, "ch-1 sp": 7, "sp": 7, "ch": 7})), "UK")
    '9 treble, 7 chain-1 spaces'
    """
    if row.offered is None and counted_by_nobody(row):
        return ""
    told = [words for kind, number in row.counted.by_kind.items() if (words := kind_words(kind, number, terms))]
    kinds = sum(1 for kind in row.counted.by_kind if kind not in ("ch", "sp") and not kind.endswith(" sp"))
    if kinds > 3:
        spaces = [
            words for kind, number in row.counted.by_kind.items() if kind.endswith(" sp") and (words := kind_words(kind, number, terms))
        ]
        told = [f"{row.counted.total} stitches", *spaces]
    if set(row.counted.by_kind) <= {"sl st"}:
        return ""
    return ", ".join(told) or _plural(row.counted.total, "stitch")


def kind_words(kind: str, number: int, terms: System) -> str:
    """One kind of a count; "" for kinds that are counted elsewhere (single chains, all spaces together)."""
    if kind in ("ch", "sp"):
        return ""
    if kind.startswith("ch-") and kind.endswith(" sp"):
        return _plural(number, f"chain-{kind[3:-3]} space")
    return _plural(number, full_name(kind, terms))


def _plural(number: int, noun: str) -> str:
    if number == 1 or noun.endswith(_SAME_PLURAL) or "together" in noun:
        return f"{number} {noun}"
    return f"{number} {noun[:-2]}ches" if noun.endswith("tch") else f"{number} {noun}s"


def known_numbers(by_kind: Mapping[str, int], total: int) -> frozenset[int]:
    """Every number that may rightly be told of a row: the stitches, each kind, the spaces, stitches and chains together."""
    chains = by_kind.get("ch", 0)
    spaces = by_kind.get("sp", 0)
    kinds = set(by_kind.values())
    return frozenset({total, *kinds, total + chains, total + spaces})
