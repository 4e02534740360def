"""Stitches said against stitches written: the other dialect, another stitch, one left out. Two orders laid against one another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from .said import Heard_
from .units import Item, Unit

Op = Literal["same", "dialect", "other", "left out", "extra"]


@dataclass(frozen=True, slots=True)
class Pair:
    """One step of the comparison: what is written (None: said besides) and what was heard (None: not said)."""

    op: Op
    item: Item | None
    heard: Heard_ | None


def agrees(item: Item, heard: Item) -> bool:
    """Whether what was heard can be what is written, said differently."""
    if item.kind == "ch" or heard.kind == "ch":
        return item.kind == heard.kind
    if heard.kind == "group" and item.kind == "st" and heard.what == item.plain:
        return True  # a bobble that the pattern treats as a stitch of its own
    if item.kind == "group" or heard.kind == "group":
        return item.kind == heard.kind and (heard.what in item.what.lower() or item.what.lower() in heard.what or item.what == "V-st")
    if heard.what == "":
        return item.kind == heard.kind
    if item.plain != heard.plain or other_post(item.what, heard.what):
        return False
    return item.kind == heard.kind or (heard.kind == "st" and item.kind == "st") or ({item.kind, heard.kind} == {"st", "inc"} and False)


def other_post(one: str, other: str) -> bool:
    """Whether one stitch goes round the front of a post and the other round the back."""
    return len({what[:2] for what in (one, other) if what[:2] in ("FP", "BP")}) == 2


def _cost(item: Item, heard: Heard_) -> tuple[float, Op] | None:
    if agrees(item, heard.item):
        return 0.0, "same"
    if heard.other is not None and agrees(item, heard.other):
        return 0.45, "dialect"
    named = heard.item.what != "" and heard.item.kind in ("st", "inc", "dec") and item.kind in ("st", "inc", "dec")
    if named and heard.item.plain == item.plain and not other_post(item.what, heard.item.what):
        return 0.6, "same"  # an increase said as a plain stitch: weighed elsewhere
    if named and heard.other is not None and heard.other.plain == item.plain:
        return 0.8, "dialect"
    if named and item.kind == heard.item.kind:
        return 1.5, "other"
    return None


LEFT_OUT, EXTRA = 1.0, 0.35


def lay(items: Sequence[Item], heard: Sequence[Heard_]) -> list[Pair]:
    """The cheapest way to lay what was heard against what is written; time grows with items x heard."""
    n, m = len(items), len(heard)
    best = [[0.0] * (m + 1) for _ in range(n + 1)]
    for i in range(n - 1, -1, -1):
        best[i][m] = (n - i) * LEFT_OUT
    for j in range(m - 1, -1, -1):
        best[n][j] = (m - j) * EXTRA
    for i in range(n - 1, -1, -1):
        for j in range(m - 1, -1, -1):
            paired = _cost(items[i], heard[j])
            options = [best[i + 1][j] + LEFT_OUT, best[i][j + 1] + EXTRA]
            if paired is not None:
                options.append(best[i + 1][j + 1] + paired[0])
            best[i][j] = min(options)
    return list(_trace(items, heard, best))


def _trace(items: Sequence[Item], heard: Sequence[Heard_], best: list[list[float]]) -> Iterator[Pair]:
    i = j = 0
    n, m = len(items), len(heard)
    while i < n or j < m:
        if i < n and j < m:
            paired = _cost(items[i], heard[j])
            if paired is not None and abs(best[i][j] - best[i + 1][j + 1] - paired[0]) < 1e-9:
                yield Pair(paired[1], items[i], heard[j])
                i, j = i + 1, j + 1
                continue
        if i < n and abs(best[i][j] - best[i + 1][j] - LEFT_OUT) < 1e-9:
            yield Pair("left out", items[i], None)
            i += 1
        else:
            yield Pair("extra", None, heard[j])
            j += 1


MOST_ITEMS = 24


def compared(unit: Unit, heard: Sequence[Heard_]) -> list[Pair]:
    """The row's work against what was heard of it."""
    once = list(heard)
    return lay(unit.items[:MOST_ITEMS], once[: 3 * MOST_ITEMS])
