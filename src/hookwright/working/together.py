"""Which worked parts each seam joins, and which feet stand in another part."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from ..pattern import FLAT, Pattern, Seam
from .fabric import PartWork, SeamWork

Place = tuple[int, int, int]
"""(part, row, element)."""

_BASE: Final = re.compile(r"\b(?:bottom|base|sole|lid)\b", re.I)
_BODY_SIDES: Final = re.compile(r"\b(?:front|back|body|panel)s?\b", re.I)


def seams_worked(pattern: Pattern, parts: Sequence[PartWork]) -> tuple[SeamWork, ...]:
    """Every seam of the pattern with the parts it joins (indices into `parts`); seams of which no part is known are kept in words."""
    return tuple(_worked(seam, parts) for seam in pattern.seams)


def _worked(seam: Seam, parts: Sequence[PartWork]) -> SeamWork:
    named = _indices(seam.parts, parts)
    if seam.kind == "motifs":
        which = _motifs(named, parts)
        rows, across = _layout(seam, which, parts)
        return SeamWork(seam=seam, parts=which, rows=rows, across=across)
    if seam.kind in ("fold", "tube"):
        return SeamWork(seam=seam, parts=named[:1] or _largest(parts, range(len(parts))))
    if seam.kind == "base":
        return SeamWork(seam=seam, parts=_based(named, parts))
    if seam.kind == "edges":
        return SeamWork(seam=seam, parts=_edged(named, seam, parts))
    return SeamWork(seam=seam, parts=named)


def _indices(names: Iterable[str], parts: Sequence[PartWork]) -> tuple[int, ...]:
    return tuple(i for name in names for i, part in enumerate(parts) if part.name == name)


def _stitches(part: PartWork) -> int:
    return sum(len(row.stitches) for row in part.rows)


def _largest(parts: Sequence[PartWork], among: Iterable[int]) -> tuple[int, ...]:
    """The part with most stitches, as a tuple of one; of a pattern without parts of none."""
    best = max(among, key=lambda i: (_stitches(parts[i]), -i), default=None)
    return () if best is None else (best,)


def _motifs(named: tuple[int, ...], parts: Sequence[PartWork]) -> tuple[int, ...]:
    """The parts that are motifs: those named, else those made more than once, else the first."""
    many = tuple(i for i, part in enumerate(parts) if part.copies > 1)
    if len(named) == 1 and len(many) > 1 and named[0] in many:
        return many  # "sew motifs together" of a blanket with a motif of each colour
    return named or many or ((0,) if parts else ())


def _layout(seam: Seam, which: tuple[int, ...], parts: Sequence[PartWork]) -> tuple[int | None, int | None]:
    """(rows, motifs in a row); what is not told follows from the number made, strips told without a layout stand side by side."""
    total = seam.number or sum(parts[i].copies for i in which)
    rows, across = seam.rows, seam.across
    if rows and not across and total % rows == 0:
        across = total // rows
    if across and not rows and total % across == 0:
        rows = total // across
    if rows is None and across is None and which and total > 1 and all(_in_rows(parts[i]) for i in which) and "strip" in seam.words.lower():
        return 1, total
    return rows, across


def _in_rows(part: PartWork) -> bool:
    return 2 * sum(row.made_in in FLAT for row in part.rows) > len(part.rows)


def _based(named: tuple[int, ...], parts: Sequence[PartWork]) -> tuple[int, ...]:
    """(base, body): by name, else the other one named, else the largest part that is no base."""
    bases = [i for i in (*named, *range(len(parts))) if _BASE.search(parts[i].name)]
    if not bases:
        return ()
    others = [i for i in named if i != bases[0]] or list(_largest(parts, (i for i in range(len(parts)) if i != bases[0])))
    return (bases[0], *others[:1])


def _edged(named: tuple[int, ...], seam: Seam, parts: Sequence[PartWork]) -> tuple[int, ...]:
    """The pieces joined edge to edge: those named, else fronts and backs, else the one part made twice."""
    bodies = tuple(i for i, part in enumerate(parts) if _BODY_SIDES.search(part.name))
    if len(named) >= 2:
        return named
    if set(seam.edges) & {"sides", "shoulders"} and len(bodies) >= 2:
        return bodies
    if named:
        return named
    twice = tuple(i for i, part in enumerate(parts) if part.copies == 2)
    return bodies or twice[:1] or _largest(parts, range(len(parts)))


def links_of(parts: Sequence[PartWork], stands_on: Mapping[int, tuple[int, int]]) -> dict[Place, Place]:
    """Feet that stand in another part: (part, row, element) → (part, row, element).

    `stands_on`: for a part worked on from another, that part and its row; its own rows know the row only as the one before their first.
    """
    found: dict[Place, Place] = {}
    for p, (other, on) in stands_on.items():
        base = len(parts[other].rows[on].stitches) if 0 <= on < len(parts[other].rows) else 0
        for row in parts[p].rows:
            if row.below != -1:
                continue
            st = row.stitches
            for i in range(len(st)):
                for back, at, _ in st.feet_of(i):
                    if row.index - back == -1 and 0 <= at < base:
                        found.setdefault((p, row.index, i), (other, on, at))
    return found
