"""What a chart of squares must show of each row, counted straight from the fabric: not from where the squares were set."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from ..working.fabric import Role, RowWork
from .squares import Kind
from .symbols import slug


def squares_worked(kind: Kind, rows: Sequence[RowWork], *, many: bool) -> dict[int, Counter[str]]:
    """Squares by row index and glyph: "sq-filled", "sq-open", or "sq-" and the yarn."""
    if kind == "filet":
        return {row.index: _meshes(row) for row in rows if not row.foundation}
    if kind == "mosaic":
        return _on_top(rows)
    per = 3 if kind == "corner-to-corner" else 1
    out: dict[int, Counter[str]] = {}
    for row in rows:
        if row.foundation:
            continue
        tall = [e for e in range(len(row.stitches)) if _stands(row, e, tiles=per == 3)]
        seen = Counter(_glyph(row, e) if many else ("sq-filled") for e in tall)
        out[row.index] = Counter({glyph: n // per for glyph, n in seen.items()})
    return out


def _stands(row: RowWork, e: int, *, tiles: bool) -> bool:
    role = row.stitches.role[e]
    return role == Role.STITCH and row.stitches.name(e) != "sl st" if tiles else role in (Role.STITCH, Role.START_TOP)


def _glyph(row: RowWork, e: int) -> str:
    return f"sq-{slug(row.stitches.colours[row.stitches.colour[e]] or 'first yarn')}"


def _meshes(row: RowWork) -> Counter[str]:
    """Open meshes are its chain spaces; the filled ones follow from its stitches: posts and what fills them."""
    made = row.stitches
    chains = [role == Role.CHAIN for role in made.role]
    spaces = sum(here and not before for before, here in zip([False, *chains], chains, strict=False))
    inside = sum(chains) // spaces if spaces else None
    stitches = sum(role in (Role.STITCH, Role.START_TOP) for role in made.role)
    if inside is None:
        inside = 2 if (stitches - 1) % 3 == 0 else 1
    if any(name not in ("dc", "tr", "ch") for name in (made.name(e) for e in made.counted())):
        return Counter()
    filled = (stitches - 1 - spaces) // (inside + 1)
    return Counter({glyph: n for glyph, n in (("sq-filled", filled), ("sq-open", spaces)) if n})


def _on_top(rows: Sequence[RowWork]) -> dict[int, Counter[str]]:
    """Each row shows its own stitches but those that later, taller ones cover, and what its own tall ones cover below."""
    out: dict[int, Counter[str]] = {row.index: Counter() for row in rows if not row.foundation}
    for row in rows:
        if row.foundation:
            continue
        for e in (e for e, role in enumerate(row.stitches.role) if role in (Role.STITCH, Role.START_TOP, Role.CHAIN)):
            out[row.index][_glyph(row, e)] += 1  # a chain bridges one stitch
            reach = max((back for back, _, _ in row.stitches.feet_of(e)), default=1)
            for k in range(1, reach):
                covered = row.index - k
                if covered in out:
                    out[row.index][_glyph(row, e)] += 1
                    below = next((r for r in rows if r.index == covered), None)
                    if below is not None:
                        out[covered][_glyph(below, next(below.stitches.counted()))] -= 1
    return {index: Counter({glyph: n for glyph, n in seen.items() if n}) for index, seen in out.items()}
