"""The schematic: the outline of a part to scale, with the measurements a maker needs, in every size.

Outline, right side up with the first row at the bottom (cups hang with their first round at the top); at the right the rows where shaping
changes and the lengths between them; below and above the widths; at the left the whole length and where each colour begins.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import Final

from ..measuring import Measures, PartMeasures, Point, goes_round_an_edge, put_together
from ..measuring.silhouette import silhouette
from ..shaping.outlines import outline_as_it_lies
from ..shaping.stuffed import side_view
from . import svg
from .as_it_lies import draw_as_it_lies, edge_words
from .dimensions import INK, across, arrow, bare_upright, inner_across, leader, upright
from .from_above import draw_from_above
from .from_corner import draw_from_corner
from .labels import Box, Label, Sheet, measure_words, number_words
from .landmarks import ColourStart, KeyRow, colour_starts, divided_at, key_rows, named_heights, neck_cm
from .layout import layout
from .notes import write_notes
from .outline_frame import BESIDE, COLOURS_SHOWN, PAPER, Frame, frame_of

_SLEEVE: Final = re.compile(r"\bsleeves?\b", re.I)
_HALF: Final = re.compile(r"\b(?:left|right)\s+fronts?\b|\bfronts\b", re.I)
_WHOLE: Final = re.compile(r"\b(?:back|front)\b", re.I)


def schematics(sizes: Sequence[Measures], *, each_size: bool = False, left_handed: bool = False) -> dict[str, str]:
    """One SVG for every part (name → SVG), every size on it; with `each_size` one for every part and size ("Body, size M").

    `sizes`: the measures of the pattern in each size, smallest first; the first is drawn. Parts that a size leaves out are skipped.
    """
    made: dict[str, str] = {}
    if each_size and len(sizes) > 1:
        for measures in sizes:
            for name, drawing in schematics([measures], left_handed=left_handed).items():
                made[f"{name}, size {_size_name(measures)}"] = drawing
        return made
    for part in sizes[0].parts if sizes else ():
        same = [other for measures in sizes for other in measures.parts if other.name == part.name]
        if part.right_side_outline() and not goes_round_an_edge(part.part.rows):
            made[_free_name(part.name or "Piece", made)] = schematic(
                same, names=[_size_name(each) for each in sizes], left_handed=left_handed
            )
    made.update(_layouts(sizes, made))
    return made


def _layouts(sizes: Sequence[Measures], made: dict[str, str]) -> dict[str, str]:
    """The layout of motifs joined to a blanket, and of a piece with its border."""
    found: dict[str, str] = {}
    things = [put_together(each) for each in sizes]
    for k, thing in enumerate(things[0] if things else ()):
        if thing.kind == "blanket" or (thing.kind == "bordered" and thing.border is not None):
            same = [each[k] for each in things if k < len(each) and each[k].kind == thing.kind]
            found[_free_name("Put together", {**made, **found})] = layout(same, names=[_size_name(each) for each in sizes])
    return found


def _free_name(name: str, taken: dict[str, str]) -> str:
    tries = (name if n == 1 else f"{name} {n}" for n in range(1, len(taken) + 2))
    return next(each for each in tries if each not in taken)


def _size_name(measures: Measures) -> str:
    names = measures.fabric.pattern.facts.size_names
    return names[measures.fabric.size] if measures.fabric.size < len(names) else str(measures.fabric.size + 1)


def schematic(parts: Sequence[PartMeasures], *, names: Sequence[str] = (), left_handed: bool = False) -> str:
    """The schematic of one part as SVG. `parts`: the same part in every size, the first is drawn; `names`: the sizes' names."""
    return compose(parts, names=names, left_handed=left_handed)[0]


def compose(parts: Sequence[PartMeasures], *, names: Sequence[str] = (), left_handed: bool = False) -> tuple[str, Sheet]:
    """The schematic and the sheet it was laid out on (labels with their boxes)."""
    part, sheet = parts[0], Sheet()
    bent = [outline_as_it_lies(each, left_handed=left_handed) for each in parts]
    lies = [each for each in bent if each is not None]
    if len(lies) == len(parts):
        draw_as_it_lies(sheet, parts, lies)
        write_notes(sheet, parts, names, left_handed, bent=edge_words(parts, lies))
        return _render(sheet, part), sheet
    closed = part.rounds is not None and part.lies == "closed"
    outline = silhouette(part.rounds, side_view(part)) if closed and part.rounds else part.right_side_outline(left_handed=left_handed)
    frame = frame_of(part, outline, left_handed)
    sheet.marks.append(_draw_outline(outline, frame))
    sheet.boxes.append(Box(0, 0, frame.width, frame.height))
    if part.rounds is not None and part.lies in ("flat", "ruffles"):
        draw_from_above(sheet, parts, frame)
    elif part.tiles is not None and all(each.tiles is not None for each in parts):
        draw_from_corner(sheet, parts, frame)
    else:
        _from_the_side(sheet, parts, frame, left_handed)
    write_notes(sheet, parts, names, left_handed)
    return _render(sheet, part), sheet


def _draw_outline(outline: Sequence[Point], frame: Frame) -> str:
    corners = [(x * frame.scale, frame.height - y * frame.scale) for x, y in outline]
    return svg.polygon(corners, fill=PAPER, stroke=INK, stroke_width=0.5, stroke_linejoin="round")


# --- worked flat, and round pieces seen from the side


def _from_the_side(sheet: Sheet, parts: Sequence[PartMeasures], frame: Frame, left_handed: bool) -> None:
    part = parts[0]
    keys = [key_rows(each) for each in parts]
    alike = all(len(each) == len(keys[0]) for each in keys)
    shown = keys if alike else keys[:1]
    inner = _inner_widths(sheet, part, shown, frame) if part.rounds is None else []
    _direction(sheet, part, frame, inner)
    right = _key_column(sheet, part, shown, frame)
    if len(keys[0]) > 2 and alike:
        _sections(sheet, part, shown, frame, right)
    _named(sheet, parts, frame, right)
    left = _colour_column(sheet, part, frame)
    _whole_length(sheet, parts, frame, left)
    _widths(sheet, parts, shown, frame)


def _turns(part: PartMeasures) -> bool:
    """Whether heights count from the top: a cup hangs from its first round."""
    return part.rounds is not None and part.rounds.from_top


def _y(part: PartMeasures, frame: Frame, v: float) -> float:
    return frame.height - frame.y(v) if _turns(part) else frame.y(v)


def _key_column(sheet: Sheet, part: PartMeasures, keys: Sequence[Sequence[KeyRow]], frame: Frame) -> float:
    """Row labels at the right, each with a line to its row's end. Gives where the next column may begin."""
    noun = "Rnd" if part.rounds is not None else "Row"
    x = frame.width + 6.0
    wanted = []
    for i, key in enumerate(keys[0]):
        words = number_words(noun, [each[i].number for each in keys])
        wanted.append((_y(part, frame, key.v_cm), Label((words,), x, 0.0, 2.6)))
    placed = sheet.column(wanted)
    for (y, _), label, key in zip(sorted(wanted, key=lambda pair: pair[0]), placed, _downward(part, keys[0]), strict=True):
        end = max(frame.x(key.low), frame.x(key.high))
        sheet.marks += [leader(end, y, frame.width + 2.5, y), leader(frame.width + 2.5, y, x - 0.6, label.y + label.height / 2)]
    return x + max((label.width for label in placed), default=0.0) + 3.0


def _downward(part: PartMeasures, keys: Sequence[KeyRow]) -> list[KeyRow]:
    return sorted(keys, key=lambda key: key.v_cm if _turns(part) else -key.v_cm)


def _sections(sheet: Sheet, part: PartMeasures, keys: Sequence[Sequence[KeyRow]], frame: Frame, x: float) -> None:
    """Lengths between key rows, in a column of their own; round pieces are measured along the fabric."""
    wanted = []
    first = keys[0]
    for i in range(len(first) - 1):
        lengths = [_between(each[i], each[i + 1]) for each in keys]
        if lengths[0] * frame.scale < 1.2:
            continue
        ends = sorted((_y(part, frame, first[i].v_cm), _y(part, frame, first[i + 1].v_cm)))
        bare_upright(sheet, x, *ends)
        cm, inch = measure_words(lengths)
        wanted.append((sum(ends) / 2, Label((f"{cm} · {inch}",) if len(keys) == 1 else (cm, inch), x + 3.0, 0.0)))
    middles = sorted(y for y, _ in wanted)
    for y, label in zip(middles, sheet.column(wanted), strict=True):
        if abs(label.y + label.height / 2 - y) > 0.6:
            sheet.marks.append(leader(x, y, label.x - 0.5, label.y + label.height / 2))


def _named(sheet: Sheet, parts: Sequence[PartMeasures], frame: Frame, x: float) -> None:
    """The heights that have names (armhole, neck, cap), each in a column of its own to the right of all that stands there."""
    named = [named_heights(each) for each in parts]
    alike = all([one.name for one in each] == [one.name for one in named[0]] for each in named)
    for k, height in enumerate(named[0]):
        top, bottom = sorted((frame.y(height.low), frame.y(height.high)))
        at = max([x, *(box.x + box.width for box in sheet.boxes if box.y < bottom + 1 and box.y + box.height > top - 1)]) + 6.0
        words = measure_words([each[k].high - each[k].low for each in (named if alike else named[:1])])
        bare_upright(sheet, at, top, bottom, reach=at - 4.0)
        label = Label((height.name, *words), at + 2.0, 0.0)
        sheet.column([((top + bottom) / 2, label)])


def _between(lower: KeyRow, upper: KeyRow) -> float:
    return abs(upper.v_cm - lower.v_cm)


def _colour_column(sheet: Sheet, part: PartMeasures, frame: Frame) -> float:
    """Where each colour begins, at the left. Gives where the whole length may stand."""
    starts = colour_starts(part)
    heights = [_colour_y(part, frame, start) for start in starts]
    for y, start in zip(heights, starts, strict=True):
        if start.index != starts[0].index:
            sheet.marks += _across_cloth(part, start, frame, y)
    if not starts or len(starts) > COLOURS_SHOWN:
        return BESIDE
    noun = "Rnd" if part.rounds is not None else "Row"
    wanted = [(y, Label((f"{s.yarn} from {noun} {s.number}",), -5.0, 0.0, 2.6, "end")) for y, s in zip(heights, starts, strict=True)]
    placed = sheet.column(wanted)
    for y, label in zip(sorted(heights), placed, strict=True):
        sheet.marks.append(leader(-4.4, label.y + label.height / 2, -0.8, y))
    return min(label.box.x for label in placed) - 5.0


def _colour_y(part: PartMeasures, frame: Frame, start: ColourStart) -> float:
    if part.rounds is None:
        return frame.y(start.v_cm)
    heights = dict(zip((0.0, *(each.reach_cm for each in part.rounds.rounds)), (z for _, z in side_view(part)), strict=True))
    return _y(part, frame, heights[start.v_cm])


def _across_cloth(part: PartMeasures, start: ColourStart, frame: Frame, y: float) -> list[str]:
    if part.rounds is not None:
        return []
    row = part.placed[start.index]
    ends = sorted((frame.x(row.low), frame.x(row.high)))
    return [svg.line(ends[0], y, ends[1], y, stroke=INK, stroke_width=0.2, stroke_dasharray="1.2 0.8")]


def _whole_length(sheet: Sheet, parts: Sequence[PartMeasures], frame: Frame, x: float) -> None:
    if parts[0].rounds is None:
        lengths = [part.length_cm for part in parts]
    else:
        lengths = [_high(part) for part in parts if part.rounds is not None]
    upright(sheet, x, 0.0, frame.height, measure_words(lengths), reach=-0.8 if x == BESIDE else x + 2.5)


def _high(part: PartMeasures) -> float:
    """How high a piece in rounds stands; a closed one stuffed."""
    z = [height for _, height in side_view(part)]
    return (max(z) - min(z) if part.lies == "closed" else 0.0) or (part.rounds.height_cm if part.rounds else None) or part.length_cm


def _widths(sheet: Sheet, parts: Sequence[PartMeasures], keys: Sequence[Sequence[KeyRow]], frame: Frame) -> None:
    """The widths of the first and the last row where they differ from the widest, then the widest."""
    part = parts[0]
    if part.rounds is not None:
        _girths(sheet, parts, frame)
        return
    widest = max(part.placed, key=lambda row: row.high - row.low if row.top > row.bottom and row.index not in part.edging else 0.0)
    whole = part.width_cm
    foot, top = keys[0][0], keys[0][-1]
    for key, over in ((foot, False), (top, True)):
        if whole - (key.high - key.low) > max(0.03 * whole, 0.5):
            ends = sorted((frame.x(key.low), frame.x(key.high)))
            widths = [each[-1 if over else 0].high - each[-1 if over else 0].low for each in keys]
            y = frame.y(key.v_cm)
            across(
                sheet,
                ends[0],
                ends[1],
                y - 3.5 if over else y + 4.5,
                _width_words(part, widths, over=over),
                reach=y - 0.8 if over else y + 0.8,
                over=over,
            )
    necks = [neck_cm(each) for each in parts]
    if necks[0] is not None and all(neck is not None for neck in necks):
        left, right = sorted(map(frame.x, necks[0]))
        cm, inch = measure_words([neck[1] - neck[0] for neck in necks if neck is not None])
        across(sheet, left, right, frame.y(top.v_cm) - 3.5, (f"neck {cm}", inch), reach=frame.y(top.v_cm) - 0.8, over=True)
    ends = sorted((frame.x(widest.low), frame.x(widest.high)))
    at = frame.y(widest.top if widest.up > 0 else widest.bottom)
    reach = frame.height + 0.8 if abs(widest.bottom) < 1e-6 else at
    across(sheet, ends[0], ends[1], frame.height + 4.5, measure_words([each.width_cm for each in parts]), reach=reach)


def _width_words(part: PartMeasures, widths: Sequence[float], *, over: bool) -> tuple[str, ...]:
    """A width in every size, with its name where it has one: a cuff, shoulders."""
    words = measure_words(widths)
    if _SLEEVE.search(part.name) and not over and widths[0] < 0.95 * part.width_cm:
        return (f"cuff {words[0]}", words[1])
    if over and (_HALF.search(part.name) or (_WHOLE.search(part.name) and divided_at(part) is not None)):
        return (f"shoulder {words[0]}", words[1])
    return (f"shoulders and neck {words[0]}", words[1]) if over and _WHOLE.search(part.name) else words


def _girths(sheet: Sheet, parts: Sequence[PartMeasures], frame: Frame) -> None:
    """Round pieces: the girth (the width shown is the diameter), at the widest and, where it is another, at the last round."""
    rounds = [part.rounds for part in parts if part.rounds is not None]
    last = [each.rounds[-1].girth_cm for each in rounds]
    widest = [each.girth_cm for each in rounds]
    middle, y = frame.width / 2, frame.height + 4.5
    half = widest[0] / math.tau * frame.scale
    words = measure_words(widest)
    across(sheet, middle - half, middle + half, y, (f"girth {words[0]}", words[1]), reach=frame.height / 2)
    if parts[0].lies != "closed" and abs(last[0] - widest[0]) > 0.03 * widest[0]:
        half = last[0] / math.tau * frame.scale
        end = frame.height if _turns(parts[0]) else 0.0
        words = measure_words(last)
        told = (f"last round {words[0]}", words[1])
        across(sheet, middle - half, middle + half, end + 4.5 if end else -3.5, told, reach=end, over=not end)


def _inner_widths(sheet: Sheet, part: PartMeasures, keys: Sequence[Sequence[KeyRow]], frame: Frame) -> list[Box]:
    """Widths at the rows between where the piece is at its narrowest or widest, drawn on the cloth. Gives the room they take."""
    taken: list[Box] = []
    first = keys[0]
    for i in range(1, len(first) - 1):
        below, here, above = (first[j].high - first[j].low for j in (i - 1, i, i + 1))
        if abs(here - part.width_cm) < 0.03 * part.width_cm or (here - below) * (above - here) > 0:
            continue
        if taken and abs(here - above) < 0.03 * part.width_cm:
            continue
        y, ends = frame.y(first[i].v_cm), sorted((frame.x(first[i].low), frame.x(first[i].high)))
        words = measure_words([each[i].high - each[i].low for each in keys])
        label = Label((" · ".join(words),), sum(ends) / 2, y - 5.2, anchor="middle")
        box = Box(label.box.x, y - 5.2, label.width, 6.2)
        fits = label.width + 3 < ends[1] - ends[0] and _on_cloth(part, frame, box)
        if fits and not any(box.meets(other) for other in taken):
            inner_across(sheet, ends[0], ends[1], y)
            sheet.write(label)
            taken.append(box)
    return taken


def _on_cloth(part: PartMeasures, frame: Frame, room: Box) -> bool:
    """Whether every row that a label reaches is as wide as the label: beside a step it would stand across the outline."""
    for row in part.placed:
        top, bottom = sorted((frame.y(row.top), frame.y(row.bottom)))
        if bottom <= room.y or top >= room.y + room.height:
            continue
        left, right = sorted((frame.x(row.low), frame.x(row.high)))
        if room.x < left or room.x + room.width > right:
            return False
    return True


def _direction(sheet: Sheet, part: PartMeasures, frame: Frame, taken: Sequence[Box]) -> None:
    """Direction of work and right side, inside the outline where there is room."""
    if part.rounds is not None:
        x, top, bottom, wide = frame.width / 2, 0.0, frame.height, frame.width
    else:
        rows = [row for row in part.placed if row.top > row.bottom and row.index not in part.edging]
        widest = max(row.high - row.low for row in rows)
        wide_rows = [row for row in rows if row.high - row.low > 0.8 * widest]
        x = sum(frame.x((row.low + row.high) / 2) for row in wide_rows) / len(wide_rows)
        bottom, top = (frame.y(v) for v in (min(row.bottom for row in wide_rows), max(row.top for row in wide_rows)))
        wide = widest * frame.scale * 0.8
    if wide < 9 or bottom - top < 24:
        return
    middle = (top + bottom) / 2
    for y in sorted((top + (bottom - top) * k / 10 for k in range(1, 10)), key=lambda y: abs(y - middle)):
        box = Box(x - 4, y - 10, 8, 20)
        if not any(box.meets(other) for other in taken):
            break
    else:
        return
    sign = -1 if _turns(part) else 1
    sheet.marks.append(arrow(x, y + sign * 5, x, y - sign * 9))
    sheet.write(Label(("RS",), x, y + 6.0 if sign > 0 else y - 10.0, 3.2, "middle", "bold"))


def _render(sheet: Sheet, part: PartMeasures) -> str:
    margin = 4.0
    left, top = min(box.x for box in sheet.boxes) - margin, min(box.y for box in sheet.boxes) - margin
    right = max(box.x + box.width for box in sheet.boxes) + margin
    bottom = max(box.y + box.height for box in sheet.boxes) + margin
    told = "; ".join(" ".join(label.lines) for label in sheet.labels)
    drawing = svg.Svg(
        width_mm=right - left, height_mm=bottom - top, title=f"Schematic: {part.name or 'piece'}", desc=told, origin=(left, top)
    )  # fmt: skip
    drawing.add(*sheet.marks, *(label.markup() for label in sheet.labels))
    return drawing.render()
