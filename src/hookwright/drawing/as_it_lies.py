"""Pieces whose rows bend (worked out from the middle of an edge, with increases in the middle of a row) in a schematic: as they lie."""

from __future__ import annotations

from collections.abc import Sequence

from ..measuring import PartMeasures
from ..shaping.outlines import RelaxedOutline
from . import svg
from .dimensions import INK, across, leader, upright
from .labels import Box, Label, Sheet, measure_words
from .landmarks import colour_starts
from .outline_frame import BESIDE, COLOURS_SHOWN, MOST_MM, MOST_MM_PER_CM, PAPER


def draw_as_it_lies(sheet: Sheet, parts: Sequence[PartMeasures], lies: Sequence[RelaxedOutline]) -> None:
    """Outline, first and last row, where colours begin, and both measurements in every size; the first is drawn."""
    one = lies[0]
    scale = min(MOST_MM[0] / max(one.width_cm, 0.1), MOST_MM[1] / max(one.length_cm, 0.1), MOST_MM_PER_CM)
    wide, high = one.width_cm * scale, one.length_cm * scale
    outline = [(x * scale, high - y * scale) for x, y in one.outline]
    sheet.marks.append(svg.polygon(outline, fill=PAPER, stroke=INK, stroke_width=0.5, stroke_linejoin="round"))
    sheet.boxes.append(Box(0, 0, wide, high))
    rows = [row for row in parts[0].part.rows if not row.foundation and row.index in one.rows and len(one.rows[row.index]) > 1]
    told = {start.index: [f"{start.yarn} from Row {start.number}"] for start in colour_starts(parts[0])[:COLOURS_SHOWN]}
    for row in (rows[0], rows[-1]) if rows else ():
        told.setdefault(row.index, []).insert(0, f"Row {row.number}")
    wanted = []
    for row in rows:
        if row.index not in told:
            continue
        line = [(x * scale, high - y * scale) for x, y in one.rows[row.index]]
        if row is not rows[-1]:
            data = svg.move("M", *line[0]) + "".join(svg.move("L", *point) for point in line[1:])
            sheet.marks.append(svg.path(data, fill="none", stroke=INK, stroke_width=0.2, stroke_dasharray="1.2 0.8"))
        end = max(line[0], line[-1])
        wanted.append((end, Label((" · ".join(told[row.index]),), wide + 6.0, 0.0, 2.6)))
    wanted.sort(key=lambda pair: pair[0][1])
    for (end, _), label in zip(wanted, sheet.column([(end[1], label) for end, label in wanted]), strict=True):
        sheet.marks.append(leader(*end, label.x - 0.6, label.y + label.height / 2))
    if wide > 24 and high > 12:
        sheet.write(Label(("RS",), wide / 2, high / 2 - 2.0, 3.2, "middle", "bold"))
    across(sheet, 0.0, wide, high + 4.5, measure_words([each.width_cm for each in lies]), reach=high + 0.8)
    upright(sheet, BESIDE, 0.0, high, measure_words([each.length_cm for each in lies]), reach=-0.8)
