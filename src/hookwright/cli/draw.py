"""`hookwright draw`: the symbol chart, the schematic, the colours; and counting a drawn chart back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from .common import CannotDo, load, read_bytes, sizes_of, write_file

if TYPE_CHECKING:
    from ..drawing.chart import Form
    from ..drawing.counting import CountedBack
    from ..drawing.marks import Chart
    from ..working.fabric import Fabric
    from .common import Source

Flag = Annotated[bool, Parameter(negative=())]
PAPER_MM = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4), "A3": (297.0, 420.0)}
MOST_DRAWING = 60_000_000
MOST_LINES = 40
THE_PIECE = "The piece"
"""What a part without a name is called."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    part: str | None
    size: str | None
    left: bool
    sc: Literal["plus", "cross"]
    whole: bool
    lay: Literal["auto", "rows", "round"]
    squares: bool
    pages: str | None
    dpi: float


def draw(
    what: Literal["chart", "schematic", "colours"],
    file: str,
    drawn: tuple[str, ...] = (),
    /,
    *,
    output: Annotated[Path | None, Parameter(name=("--output", "-o"))] = None,
    check: Flag = False,
    part: str | None = None,
    size: str | None = None,
    left: Flag = False,
    sc: Literal["plus", "cross"] = "plus",
    whole: Flag = False,
    lay: Literal["auto", "rows", "round"] = "auto",
    squares: Flag = False,
    pages: str | None = None,
    dpi: float = 300.0,
) -> int:
    """Draw a pattern: its symbol chart, its schematic with measurements, or its colours.

    Without --output the drawing is written beside the pattern, as SVG.

    Parameters
    ----------
    what
        chart, schematic or colours.
    file
        A pattern, or - for standard input.
    drawn
        With --check: the chart to count back (all its pages), as SVG. Without one, the chart is drawn and counted back at once.
    output
        The file to write: .svg, .png or .pdf.
    check
        Count the symbols of a chart back against the pattern, row by row and kind by kind; status 1 when anything differs.
    part
        The part to draw, by name or number (all of them).
    size
        The size to draw, by name or number (the first).
    left
        For left-handers: mirrored, with upright words.
    sc
        Single crochet as + (plus) or x (cross).
    whole
        Draw every row: do not break long runs of equal rows.
    lay
        Lay the chart out in rows or in the round, whatever it is.
    squares
        Draw filet, colourwork or corner-to-corner as a chart of squares.
    pages
        Set a large chart on pages of A4, Letter or A3, with overlap marks.
    dpi
        Pixels per inch of a PNG.
    """
    source, pattern = load(file)
    told = _Told(part=part, size=size, left=left, sc=sc, whole=whole, lay=lay, squares=squares, pages=pages, dpi=dpi)
    if drawn and not check:
        raise CannotDo(f"{drawn[0]} is one file too many: a chart to count back is given with --check.")
    from ..working import work

    fabric = work(pattern, size=sizes_of(pattern, size)[0])
    if what == "chart":
        return _check(fabric, drawn, told) if check else _chart(source, fabric, output, told)
    if check:
        raise CannotDo("Only charts can be counted back: hookwright draw chart FILE --check.")
    return _schematic(source, fabric, output, told) if what == "schematic" else _colours(source, fabric, output, told)


def _parts(fabric: Fabric, told: str | None) -> list[int]:
    """The parts asked for. Raises CannotDo for one the pattern does not have."""
    names = [part.name for part in fabric.parts]
    if told is None:
        return [i for i, part in enumerate(fabric.parts) if any(len(row.stitches) for row in part.rows)]
    for i, name in enumerate(names):
        if told.lower() == name.lower():
            return [i]
    if told.isdigit() and 1 <= int(told) <= len(names):
        return [int(told) - 1]
    raise CannotDo(f"There is no part {told}: the pattern has {', '.join(names) or 'none'}.")


def _made(fabric: Fabric, part: int, told: _Told) -> Chart:
    from ..drawing.chart import chart
    from ..drawing.squares import squares_chart

    if told.squares:
        squares = squares_chart(fabric, part, handed="left" if told.left else "right")
        if squares is None:
            name = fabric.parts[part].name or THE_PIECE
            raise CannotDo(f"{name} is neither filet, mosaic, colourwork nor corner-to-corner: draw it without --squares.")
        return squares
    form: Form = told.lay
    return chart(fabric, part, handed="left" if told.left else "right", sc=told.sc, form=form, short=not told.whole)


def _chart(source: Source, fabric: Fabric, output: Path | None, told: _Told) -> int:
    from ..drawing.export import svg
    from ..drawing.pages import paged

    parts = _parts(fabric, told.part)
    if not parts:
        raise CannotDo(f"{source.name}: no stitch of it could be worked, so there is no chart to draw.")
    drawings: list[tuple[str, list[str]]] = []
    for part in parts:
        name = fabric.parts[part].name if len(parts) > 1 else ""
        made = _made(fabric, part, told)
        drawings.append((name, paged(made, *_paper(told.pages)) if told.pages else [svg(made)]))
    return _write(source, "chart", drawings, output, told.dpi)


def _paper(name: str | None) -> tuple[float, float]:
    sizes = {paper.lower(): size for paper, size in PAPER_MM.items()}
    found = sizes.get((name or "").lower())
    if found is None:
        raise CannotDo(f"There is no paper {name}: A4, Letter or A3.")
    return found


def _schematic(source: Source, fabric: Fabric, output: Path | None, told: _Told) -> int:
    from ..drawing.schematic import schematics
    from ..measuring import measure
    from ..working import work

    pattern = fabric.pattern
    fabrics = [fabric] if told.size else [work(pattern, size=size) for size in range(pattern.sizes)]
    made = schematics([measure(one) for one in fabrics], left_handed=told.left)
    if told.part is not None:
        wanted = {fabric.parts[i].name for i in _parts(fabric, told.part)}
        made = {name: drawing for name, drawing in made.items() if name in wanted}
    if not made:
        raise CannotDo(f"{source.name}: nothing to draw to scale: the pattern tells no gauge, or has no stitches.")
    return _write(source, "schematic", [(name if len(made) > 1 else "", [drawing]) for name, drawing in made.items()], output, told.dpi)


def _colours(source: Source, fabric: Fabric, output: Path | None, told: _Told) -> int:
    from ..drawing.colours import colour_plans
    from ..yarn import YarnError

    try:
        plans = colour_plans(fabric, left_handed=told.left)
    except YarnError as failure:
        raise CannotDo(f"{source.name}: {failure}") from None
    if not plans:
        raise CannotDo(f"{source.name}: there is only one plain colour in it, so there is no colour plan to draw.")
    return _write(source, "colours", [(name if len(plans) > 1 else "", [drawing]) for name, drawing in plans.items()], output, told.dpi)


def _write(source: Source, what: str, drawings: Sequence[tuple[str, list[str]]], output: Path | None, dpi: float) -> int:
    """Write every drawing: several parts or pages get their name or number into the file's."""
    first = output or (source.path or Path("pattern.md")).with_suffix(f".{what}.svg")
    form = first.suffix.lower()
    if form not in (".svg", ".png", ".pdf"):
        raise CannotDo(f"{first}: drawings are written as .svg, .png or .pdf.")
    for name, sheets in drawings:
        path = first.with_name(f"{first.stem}-{_file_name(name)}{first.suffix}") if name else first
        for target, content in _contents(path, sheets, form, dpi):
            write_file(target, content())
            print(target)
    return 0


def _contents(path: Path, sheets: list[str], form: str, dpi: float) -> list[tuple[Path, Callable[[], bytes]]]:
    from ..drawing.png import to_pdf, to_pdf_pages, to_png

    if form == ".pdf":
        return [(path, lambda: to_pdf_pages(tuple(sheets)) if len(sheets) > 1 else to_pdf(sheets[0]))]
    out: list[tuple[Path, Callable[[], bytes]]] = []
    for n, sheet in enumerate(sheets, 1):
        target = path.with_name(f"{path.stem}-{n}{path.suffix}") if len(sheets) > 1 else path
        out.append((target, (lambda sheet=sheet: to_png(sheet, dpi=dpi)) if form == ".png" else (lambda sheet=sheet: sheet.encode())))  # type: ignore[misc]
    return out


def _file_name(name: str) -> str:
    kept = "".join(c if c.isalnum() else "-" for c in name.lower())
    return "-".join(word for word in kept.split("-") if word) or "part"


def _check(fabric: Fabric, drawn: tuple[str, ...], told: _Told) -> int:
    from ..drawing.counting import NotAChart, count_back
    from ..drawing.export import svg

    if not drawn:
        outcomes = []
        for part in _parts(fabric, told.part):
            made = _made(fabric, part, told)
            outcomes.append(_report(fabric.parts[part].name or THE_PIECE, count_back(fabric, [svg(made)], made), len(made.marks)))
        return max(outcomes, default=0)
    texts = [read_bytes(name, MOST_DRAWING).decode("utf-8", "replace") for name in drawn]
    try:
        outcome = count_back(fabric, texts)
    except NotAChart as failure:
        raise CannotDo(f"{drawn[0]} cannot be counted back: {failure}.") from None
    return _report(", ".join(drawn), outcome, None)


def _report(name: str, outcome: CountedBack, symbols: int | None) -> int:
    drawn = sum(sum(row.drawn.values()) for row in outcome.rows)
    lines: list[str] = []
    for row in outcome.rows:
        if not row.agrees:
            kinds = sorted(set(row.drawn) | set(row.worked))
            told = ", ".join(
                f"{k}: {row.drawn.get(k, 0)} drawn, {row.worked.get(k, 0)} worked" for k in kinds if row.drawn.get(k) != row.worked.get(k)
            )
            lines.append(f"{row.row}: {told}")
    lines += [str(problem) for problem in outcome.problems]
    for line in lines[:MOST_LINES]:
        print(line)
    if len(lines) > MOST_LINES:
        print(f"… and {len(lines) - MOST_LINES} more")
    wrong = sum(not row.agrees for row in outcome.rows)
    print(f"{name}: {drawn} symbols in {len(outcome.rows)} rows counted back, {wrong} rows differ, {len(outcome.problems)} symbols wrong.")
    return 1 if outcome.differences else 0
