"""Counting a drawn chart back: from glyph references and positions alone, row by row and kind by kind, against the fabric.

What is drawn is read from the SVG: each reference to a glyph, and where its transforms put it. What should be there is known twice: the
fabric's rows give the numbers, and drawing the fabric afresh gives the places. The data attributes of the symbols are not looked at.
"""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from ..working.fabric import Fabric, Role, RowWork
from .chart import chart
from .engraving import LOOP_SUFFIX, as_seen
from .marks import Chart, Gap, Mark
from .narrowing import Cut
from .squares import squares_chart
from .symbols import Loop, slug

EXACT_MM, NEAR_MM = 0.011, 0.06
"""A symbol this near to its place stands in it: drawings are rounded to 0.01 mm, other editors may round again. The nearer match first."""
MOST_CHARACTERS = 60_000_000
_XLINK = "{http://www.w3.org/1999/xlink}href"
_CALL = re.compile(r"(translate|matrix|rotate|scale)\s*\(([^)]*)\)")

Matrix = tuple[float, float, float, float, float, float]
_SAME: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


class NotAChart(ValueError):
    """The file given is not a chart that can be counted back. The message says why."""


class Drawn(NamedTuple):
    """One glyph reference as it stands in a drawing: its stem ("dc", "sl-st") and where it is."""

    glyph: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Problem:
    """A symbol that is missing, doubled or another than it should be. `stitch` counts the row's symbols from 1 in the order worked."""

    what: str
    row: str
    stitch: int
    expected: str
    found: str
    x: float
    y: float

    def __str__(self) -> str:
        where = f"{self.row}, symbol {self.stitch} ({self.x:.1f}, {self.y:.1f} mm)"
        if self.what == "missing":
            return f"{where}: {self.expected} is missing"
        if self.what == "swapped":
            return f"{where}: {self.found} is drawn, {self.expected} is worked"
        if self.what == "doubled":
            return f"{where}: {self.found} is drawn once too often"
        return f"{where}: {self.found} is drawn where nothing is worked; this is the nearest stitch"


@dataclass(frozen=True, slots=True)
class RowCount:
    """One row: symbols drawn and symbols worked, by kind as seen from the right side."""

    row: str
    drawn: Mapping[str, int]
    worked: Mapping[str, int]

    @property
    def agrees(self) -> bool:
        return dict(self.drawn) == dict(self.worked)


@dataclass(frozen=True, slots=True)
class CountedBack:
    """The outcome: every row's counts, every problem found."""

    rows: tuple[RowCount, ...]
    problems: tuple[Problem, ...]

    @property
    def differences(self) -> int:
        return sum(not row.agrees for row in self.rows) + len(self.problems)


def count_back(fabric: Fabric, drawings: Sequence[str], expected: Chart | None = None) -> CountedBack:
    """Count drawn charts (one, or the pages of one) back against the fabric they were drawn from.

    `expected`: the chart as it should be, when it is at hand; otherwise it is engraved afresh with the options the drawing names.
    Raises NotAChart for a file that is none, or when the drawing shows a part the fabric has not.
    """
    made = expected or _afresh(fabric, drawings[0])
    drawn = list(_pages(drawings))
    rows = fabric.parts[made.part].rows
    seen, problems = _match(made, drawn, rows)
    hidden = {r for gap in made.gaps for r in gap.rows}
    words = set().union(*(_words(text) for text in drawings))
    counts = []
    truth = _truth(made, rows)
    for row in rows:
        if row.index in hidden or (row.index not in truth and row.index not in seen):
            continue
        due = truth.get(row.index, Counter())
        counts.append(RowCount(row.label, dict(sorted(seen.get(row.index, Counter()).items())), dict(sorted(due.items()))))
    counts += [count for cut in made.cuts for count in _cut(cut, rows, hidden, words)]
    counts += [_gap(rows, gap, words) for gap in made.gaps]
    return CountedBack(tuple(counts), tuple(problems))


def _truth(made: Chart, rows: Sequence[RowWork]) -> dict[int, Counter[str]]:
    """What every row must show, by its index: symbols, or squares."""
    kind = made.options.get("squares")
    if kind is None:
        return {row.index: worked(row, {e for cut in made.cuts for e in cut.hidden.get(row.index, ())}) for row in rows}
    from .squares_counted import squares_worked

    return squares_worked(kind, rows, many=len(made.yarns) > 1)  # type: ignore[arg-type]


def worked(row: RowWork, told: Collection[int] = ()) -> Counter[str]:
    """The symbols a row must show, by glyph stem: straight from the fabric's arrays, as seen from the right side.

    `told`: elements that are told in words instead.
    """
    made = row.stitches
    out: Counter[str] = Counter()
    for e, role in enumerate(made.role):
        if e in told:
            continue
        kind = made.name(e)
        if role == Role.START_TOP and row.made_in == "passes":
            out[slug(kind)] += 1
            continue
        if role in (Role.START, Role.START_TOP, Role.FOUNDATION, Role.CHAIN) or kind == "ch":
            out["ch"] += 1
            continue
        loop: Loop = ""
        if role == Role.STITCH and not kind.startswith(("FP", "BP")):
            how = next((how for _, _, how in made.feet_of(e)), None)
            loop = {"FRONT_LOOP": "front", "BACK_LOOP": "back", "THIRD_LOOP": "third"}.get(how.name if how is not None else "", "")  # type: ignore[assignment]
        if role in (Role.JOIN, Role.TRAVEL, Role.HANGING) and kind == "sl st":
            loop = ""
        shown, loop = as_seen(kind, loop, row.side)
        out[slug(shown) + LOOP_SUFFIX[loop]] += 1
    return out


def _cut(cut: Cut, rows: Sequence[RowWork], hidden: Collection[int], drawn: set[str]) -> Iterator[RowCount]:
    """What the words at a cut say of each row, against what was left out there: so many times what one drawn repeat holds."""
    times = int(cut.words.split()[0]) if cut.words in drawn else 0
    for row in rows:
        if row.index in hidden or row.index not in cut.hidden:
            continue
        everything = set(range(len(row.stitches)))
        one = worked(row, everything - set(cut.sample[row.index]))
        said = {kind: n * times for kind, n in sorted(one.items()) if times}
        yield RowCount(f"{row.label}, told in words", said, dict(sorted(worked(row, everything - set(cut.hidden[row.index])).items())))


def _gap(rows: Sequence[RowWork], gap: Gap, drawn: set[str]) -> RowCount:
    """Rows told in words: what the printed words say of each, against each of them; of repeats, so many times the one that is drawn."""
    said: dict[str, int] = {}
    hidden, words = gap.rows, gap.words
    if gap.like:
        times = int(words.partition(": ")[2].split()[0]) if words in drawn else 0
        one, whole = (sum((worked(rows[r]) for r in which), Counter()) for which in (gap.like, hidden))
        said = {kind: n * times for kind, n in sorted(one.items()) if times}
        return RowCount(words.partition(":")[0], said, dict(sorted(whole.items())))
    if words in drawn:
        said = {kind: int(n) for n, kind in re.findall(r"(\d+) ([A-Za-z][\w -]*?)(?=,| each|$)", words.partition(":")[2])}
    each = {tuple(sorted(rows[r].counted.made.items())) for r in hidden}
    truth = dict(each.pop()) if len(each) == 1 else {"rows that differ": len(each)}
    return RowCount(words.partition(":")[0], said, truth)


def _afresh(fabric: Fabric, drawing: str) -> Chart:
    made = re.search(r'data-made="([^"]*)"', drawing[:4000])
    told = dict(pair.split("=", 1) for pair in made[1].split() if "=" in pair) if made else {}
    part = int(told.get("part", "1")) - 1
    if not 0 <= part < len(fabric.parts):
        raise NotAChart(f"the drawing shows part {part + 1}, the pattern has {len(fabric.parts)}")
    if "squares" in told:
        squares = squares_chart(fabric, part, handed="left" if told.get("handed") == "left" else "right")
        if squares is None:
            raise NotAChart("the drawing is one of squares, and the pattern's part is not read as such")
        return squares
    return chart(
        fabric,
        part,
        handed="left" if told.get("handed") == "left" else "right",
        sc="cross" if told.get("sc") == "cross" else "plus",
        form="rows" if told.get("form") == "rows" else "round" if told.get("form") == "round" else "auto",
        short=told.get("short") != "no",
    )


def _pages(drawings: Sequence[str]) -> Iterator[Drawn]:
    """The symbols of all pages; one that stands on two pages (where they overlap) is one."""
    if len(drawings) == 1:
        yield from references(drawings[0])
        return
    pages: Counter[Drawn] = Counter()
    for text in drawings:
        here = Counter(Drawn(d.glyph, round(d.x, 2), round(d.y, 2)) for d in references(text))
        for drawn, n in here.items():
            pages[drawn] = max(pages[drawn], n)
    yield from pages.elements()


def references(drawing: str) -> Iterator[Drawn]:
    """Every reference to a glyph of a drawing, with the place its transforms give it. Raises NotAChart when it is no SVG."""
    if len(drawing) > MOST_CHARACTERS:
        raise NotAChart("it is too long to be a chart")
    if "<!DOCTYPE" in drawing or "<!ENTITY" in drawing:
        raise NotAChart("it holds a document type, which charts do not have")
    try:
        root = ET.fromstring(drawing)
    except ET.ParseError as failure:
        raise NotAChart(f"it is not well-formed SVG (line {failure.position[0]})") from None
    if not root.tag.endswith("svg"):
        raise NotAChart("it is XML, but no SVG")
    yield from _walk(root, _SAME)


def _walk(node: ET.Element, outer: Matrix) -> Iterator[Drawn]:
    name = node.tag.rpartition("}")[2]
    if name in ("defs", "symbol", "clipPath", "mask"):
        return
    here = _times(outer, _matrix(node.get("transform", "")))
    if name == "use":
        href = node.get("href") or node.get(_XLINK) or ""
        x, y = _float(node.get("x")), _float(node.get("y"))
        if href.startswith("#"):
            yield Drawn(href[1:].partition("--")[0], here[0] * x + here[2] * y + here[4], here[1] * x + here[3] * y + here[5])
    for child in node:
        yield from _walk(child, here)


def _words(drawing: str) -> set[str]:
    return {"".join(node.itertext()) for node in ET.fromstring(drawing).iter() if node.tag.endswith("}text")}


def _float(text: str | None) -> float:
    try:
        return float((text or "0").removesuffix("mm").removesuffix("px"))
    except ValueError:
        return 0.0


def _matrix(transform: str) -> Matrix:
    out = _SAME
    for name, inside in _CALL.findall(transform):
        v = [_float(part) for part in re.split(r"[\s,]+", inside.strip()) if part]
        out = _times(out, _one(name, v))
    return out


def _one(name: str, v: list[float]) -> Matrix:
    if name == "translate" and v:
        return 1.0, 0.0, 0.0, 1.0, v[0], v[1] if len(v) > 1 else 0.0
    if name == "matrix" and len(v) == 6:
        return v[0], v[1], v[2], v[3], v[4], v[5]
    if name == "scale" and v:
        return v[0], 0.0, 0.0, v[1] if len(v) > 1 else v[0], 0.0, 0.0
    if name == "rotate" and v:
        c, s = math.cos(math.radians(v[0])), math.sin(math.radians(v[0]))
        turn: Matrix = (c, s, -s, c, 0.0, 0.0)
        if len(v) == 3:
            return _times(_times((1.0, 0.0, 0.0, 1.0, v[1], v[2]), turn), (1.0, 0.0, 0.0, 1.0, -v[1], -v[2]))
        return turn
    return _SAME


def _times(m: Matrix, n: Matrix) -> Matrix:
    return (
        m[0] * n[0] + m[2] * n[1],
        m[1] * n[0] + m[3] * n[1],
        m[0] * n[2] + m[2] * n[3],
        m[1] * n[2] + m[3] * n[3],
        m[0] * n[4] + m[2] * n[5] + m[4],
        m[1] * n[4] + m[3] * n[5] + m[5],
    )


def _stem(mark: Mark) -> str:
    return mark.glyph.partition("--")[0]


def _match(made: Chart, drawn: list[Drawn], rows: Sequence[RowWork]) -> tuple[dict[int, Counter[str]], list[Problem]]:
    """Give every drawn symbol its place: the right kind in place, another kind in place, or none."""
    grid: dict[tuple[int, int], list[int]] = {}
    for i, mark in enumerate(made.marks):
        grid.setdefault((round(mark.x), round(mark.y)), []).append(i)
    taken: set[int] = set()
    loose: list[Drawn] = []
    seen: dict[int, Counter[str]] = {}
    wrong: list[tuple[int, Drawn]] = []
    loose = drawn
    for right_kind, near in ((True, EXACT_MM), (True, NEAR_MM), (False, NEAR_MM)):
        todo, loose = loose, []
        for d in todo:
            found = _at(made, grid, d, taken, right_kind, near)
            if found is None:
                loose.append(d)
                continue
            taken.add(found)
            seen.setdefault(made.marks[found].row, Counter())[d.glyph] += 1
            if not right_kind:
                wrong.append((found, d))
    problems = [_problem("swapped", made.marks[k], rows, d.glyph, d) for k, d in wrong]
    problems += [_problem("missing", mark, rows, "", None) for k, mark in enumerate(made.marks) if k not in taken]
    for d in loose:
        nearest = min(made.marks, key=lambda mark: (mark.x - d.x) ** 2 + (mark.y - d.y) ** 2, default=None)
        if nearest is None:
            raise NotAChart("there is nothing to compare it with: the pattern has no stitches in that part")
        seen.setdefault(nearest.row, Counter())[d.glyph] += 1
        close = math.hypot(nearest.x - d.x, nearest.y - d.y) < 1.5 and _stem(nearest) == d.glyph
        problems.append(_problem("doubled" if close else "stray", nearest, rows, d.glyph, d))
    return seen, sorted(problems, key=lambda p: (p.row, p.stitch))


def _at(made: Chart, grid: dict[tuple[int, int], list[int]], d: Drawn, taken: set[int], right_kind: bool, near: float) -> int | None:
    cx, cy = round(d.x), round(d.y)
    for gx in (cx - 1, cx, cx + 1):
        for gy in (cy - 1, cy, cy + 1):
            for i in grid.get((gx, gy), ()):
                mark = made.marks[i]
                if i not in taken and math.hypot(mark.x - d.x, mark.y - d.y) <= near and (not right_kind or _stem(mark) == d.glyph):
                    return i
    return None


def _problem(what: str, mark: Mark, rows: Sequence[RowWork], found: str, d: Drawn | None) -> Problem:
    x, y = (d.x, d.y) if d else (mark.x, mark.y)
    return Problem(what, rows[mark.row].label, mark.stitch + 1, _stem(mark), found, x, y)
