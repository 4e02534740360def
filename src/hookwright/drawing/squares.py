"""Charts of squares: filet, colourwork (tapestry, stripes in squares), mosaic and corner-to-corner, where a part is read as such.

One square stands for one mesh, one stitch or one tile. The chart shows the right side; row numbers stand where the row begins.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from ..measuring import tiles_of
from ..pattern import FLAT
from ..trade.kinds import base
from ..working.fabric import Fabric, PartWork, Role, RowWork
from .marks import Chart

Kind: TypeAlias = Literal["filet", "tapestry", "mosaic", "corner-to-corner"]


@dataclass(frozen=True, slots=True)
class Square:
    """One square: `row` and `stitch` (index of its first element) say what it stands for; `column` from the left; `yarn` its colour."""

    row: int
    column: int
    line: int
    stitch: int
    filled: bool
    yarn: str

    def kind(self, *, many: bool) -> str:
        """What it is in a chart of one yarn ("filled", "open") or of `many` (the yarn's name)."""
        return (self.yarn or "first yarn") if many else ("filled" if self.filled else "open")


@dataclass(frozen=True, slots=True)
class Squares:
    """A chart of squares. `lines`: rows of squares from the bottom; `begins_right`: where each line's row begins (None: diagonal)."""

    kind: Kind
    squares: tuple[Square, ...]
    columns: int
    lines: int
    labels: tuple[str, ...]
    begins_right: tuple[bool | None, ...]
    yarns: tuple[str, ...]


def squares_of(part: PartWork) -> Squares | None:
    """The part as a chart of squares; None when it is none of these."""
    rows = [row for row in part.rows if not row.foundation and len(row.stitches)]
    if len(rows) < 2 or any(row.made_in not in FLAT for row in rows):
        return None
    for find in (corner_to_corner, mosaic, filet, tapestry):
        found = find(rows)
        if found is not None:
            return found
    return None


def squares_chart(fabric: Fabric, part: int, *, handed: str = "right") -> Chart | None:
    """The chart of squares of one part, placed and ready for any output; None when the part is none."""
    from .squares_drawn import chart_of

    found = squares_of(fabric.parts[part])
    if found is None:
        return None
    title = fabric.pattern.facts.title or fabric.parts[part].name
    made = chart_of(found, part, title=title, handed=handed, facts=fabric.pattern.facts, terms=fabric.pattern.terms)
    made.row_labels.update({row.index: row.label for row in fabric.parts[part].rows})
    return made


def squares_svg(fabric: Fabric, part: int, *, handed: str = "right") -> str | None:
    """The chart of squares of one part as SVG; None when the part is none."""
    from .export import svg

    made = squares_chart(fabric, part, handed=handed)
    return None if made is None else svg(made)


def _from_left(row: RowWork, elements: Sequence[int]) -> list[int]:
    """Elements from left to right as the right side shows them."""
    return list(elements) if row.side == "WS" else list(reversed(elements))


def _yarn(row: RowWork, e: int) -> str:
    return row.stitches.colours[row.stitches.colour[e]]


def filet(rows: Sequence[RowWork]) -> Squares | None:
    """Meshes of one post and one or two chains or stitches; every row the same number."""
    for mesh in (3, 2):
        lines = [_meshes(row, mesh) for row in rows]
        if any(line is None for line in lines) and not _meshes_from(lines):
            continue
        kept = [(row, line) for row, line in zip(rows, lines, strict=True) if line is not None]
        widths = {len(line) for _, line in kept}
        if len(widths) == 1 and any(not filled for _, line in kept for _, filled in line):
            made = [
                Square(row.index, c, i, e, filled, "")
                for i, (row, line) in enumerate(kept)
                for c, (e, filled) in enumerate(_ordered(row, line))
            ]
            return _squares("filet", made, [row for row, _ in kept], widths.pop())
    return None


def _meshes_from(lines: Sequence[object]) -> bool:
    """Whether only the first rows fail (a row of single crochet to begin on)."""
    first = next((i for i, line in enumerate(lines) if line is not None), len(lines))
    return first <= 1 and all(line is not None for line in lines[first:])


def _ordered(row: RowWork, line: list[tuple[int, bool]]) -> list[tuple[int, bool]]:
    return line if row.side == "WS" else line[::-1]


def _meshes(row: RowWork, mesh: int) -> list[tuple[int, bool]] | None:
    """(first element, filled) of each mesh in worked order; None when the row is no filet."""
    made = row.stitches
    units = [e for e, role in enumerate(made.role) if role in (Role.STITCH, Role.START_TOP, Role.CHAIN)]
    if len(units) < mesh + 1 or (len(units) - 1) % mesh:
        return None
    posts = [made.name(units[i]) for i in range(0, len(units), mesh)]
    if any(kind not in ("dc", "tr") for kind in posts) or len(set(posts)) > 1:
        return None
    out = []
    for i in range(0, len(units) - 1, mesh):
        inner = [made.role[units[i + k]] == Role.CHAIN for k in range(1, mesh)]
        if any(inner) != all(inner):
            return None
        out.append((units[i], not inner[0]))
    return out


def tapestry(rows: Sequence[RowWork]) -> Squares | None:
    """Plain stitches of one height, the colour changing within rows."""
    lines = []
    for row in rows:
        stitches = list(row.stitches.counted())
        kinds = {base(row.stitches.name(e)) for e in stitches}
        if len(kinds) != 1 or kinds & {"sl st", "ch"} or any(role == Role.CHAIN for role in row.stitches.role):
            return None
        lines.append((row, _from_left(row, stitches)))
    if not any(len({_yarn(row, e) for e in line}) > 1 for row, line in lines):
        return None
    width = max(len(line) for _, line in lines)
    if width - min(len(line) for _, line in lines) > 2:
        return None
    made = [Square(row.index, c, i, e, True, _yarn(row, e)) for i, (row, line) in enumerate(lines) for c, e in enumerate(line)]
    return _squares("tapestry", made, [row for row, _ in lines], width)


def mosaic(rows: Sequence[RowWork]) -> Squares | None:
    """Rows of one colour each, taller stitches dropping over the row of the other colour: each square shows the colour that lies on top."""
    if any(len({_yarn(row, e) for e in row.stitches.counted()}) > 1 for row in rows) or len({row.yarn for row in rows}) < 2:
        return None
    if not any(back >= 2 for row in rows for e in row.stitches.counted() for back, _, _ in row.stitches.feet_of(e)):
        return None
    units = {row.index: _units(row) for row in rows}
    width = len(units[rows[0].index])
    if any(len(line) != width for line in units.values()):
        return None
    at = {row.index: i for i, row in enumerate(rows)}
    top: dict[tuple[int, int], tuple[str, int, int]] = {}
    for i, row in enumerate(rows):
        for c, e in enumerate(_from_left(row, units[row.index])):
            yarn = _yarn(row, e)
            top[i, c] = (yarn, row.index, e)
            for back, _, _ in row.stitches.feet_of(e):
                for k in range(1, back):
                    covered = at.get(row.index - k)
                    if covered is not None:
                        top[covered, c] = (yarn, row.index, e)
    made = [Square(r, c, i, e, True, yarn) for (i, c), (yarn, r, e) in sorted(top.items())]
    return _squares("mosaic", made, rows, width)


def _units(row: RowWork) -> list[int]:
    """What takes a column of a mosaic row: its stitches, and each chain that bridges one ("ch 1, skip 1 st")."""
    return [e for e, role in enumerate(row.stitches.role) if role in (Role.STITCH, Role.START_TOP, Role.CHAIN)]


def corner_to_corner(rows: Sequence[RowWork]) -> Squares | None:
    """Blocks worked in diagonals, as the grid that measuring finds them in."""
    found = tiles_of(rows, 1.0)
    if found is None or len({tile.row for tile in found.tiles}) < len(rows):
        return None
    by_index = {row.index: row for row in rows}
    made = [Square(t.row, t.column, t.line, t.chain[0], True, _yarn(by_index[t.row], t.chain[0])) for t in found.tiles]
    yarns = tuple(dict.fromkeys(square.yarn for square in made))
    labels = tuple(str(row.number) for row in rows)
    return Squares("corner-to-corner", tuple(made), found.columns, found.lines, labels, (None,) * found.lines, yarns)


def _squares(kind: Kind, made: Sequence[Square], rows: Sequence[RowWork], columns: int) -> Squares:
    yarns = tuple(dict.fromkeys(square.yarn for square in made))
    labels = tuple(str(row.number) if row.number is not None else row.label for row in rows)
    return Squares(kind, tuple(made), columns, len(rows), labels, tuple(row.side == "RS" for row in rows), yarns)
