"""The colour plan: a piece to scale with the colours where they land, several starting places beside each other, each colour named.

Planned colours come from the fabric; a yarn with a colour sequence is laid over its rows (`hookwright.yarn.land`). Every colour has a
hue, a letter and a texture. Flat pieces and tubes are drawn row upon row, round pieces as rings seen from the right side.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from ..measuring import Measures, PartMeasures, measure
from ..trade.units import decimal, inches
from ..working.fabric import Fabric, RowWork
from ..yarn import Asked, Estimate, Landing, Plan, Repeat, Start, Wish, best_starts, estimate, land, pooling_near
from ..yarn.pools import TENSION
from . import svg
from .colour_key import Shown, shown
from .colour_sketch import Sketch, scaled, sketch_part
from .labels import text_width, wrapped

INK = "#1d1d1b"
WIDE_MM = 180.0
HIGH_MM = 150.0
GAP_MM = 8.0
MOST_MM_PER_CM = 10.0
LETTER_MM = 2.7
LETTER_ROOM_MM = 2.4
TEXT_MM = 3.0
"""Sizes on paper: the room for all panels, the gap between them, the letters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One way of beginning: what it is called, and the colour sequences laid over the piece so begun (by yarn)."""

    heads: tuple[str, ...]
    landings: Mapping[str, Landing]


def colour_plans(
    fabric: Fabric, *, measures: Measures | None = None, sequences: Mapping[str, Repeat] | None = None, pulled_off: Mapping[str, float] |
    None = None,
    left_handed: bool = False, starts: bool = True,
) -> dict[str, str]:  # fmt: skip
    """One SVG for every part in which more than one colour shows: {part name: SVG}; empty for a piece of one plain colour.

    `sequences`: colour sequences by yarn id, in place of those the pattern tells; `pulled_off`: metres taken off before the first stitch;
    `starts`: False draws only the beginning as told. Raises `hookwright.yarn.YarnError` for facts that cannot be.
    """
    measures = measures or measure(fabric)
    found = estimate(fabric, measures, Asked())
    runs = dict(sequences) if sequences is not None else {
        use.supplied.id: Repeat(use.supplied.yarn.sequence) for use in found.yarns if use.supplied.yarn.sequence and use.fabric_m
    }  # fmt: skip
    panels = _panels(found, runs, dict(pulled_off or {}), several=starts)
    colours = _colours(found, runs)
    out: dict[str, str] = {}
    for p, part in enumerate(measures.parts):
        if len(_keys_in(found, p, panels[0])) > 1:
            out[_free(part.name or "Piece", out)] = colour_plan(found, measures, p, panels, colours, left_handed=left_handed)
    return out


def _free(name: str, taken: Mapping[str, str]) -> str:
    return next(each for n in range(1, len(taken) + 2) if (each := name if n == 1 else f"{name} {n}") not in taken)


def colour_plan(
    found: Estimate, measures: Measures, p: int, panels: Sequence[Panel], colours: Mapping[str, Shown], *, left_handed: bool = False
) -> str:  # fmt: skip
    """One part as SVG, its panels beside each other at one scale."""
    part = measures.parts[p]
    sketches = [sketch_part(part, list(_row_keys(found, p, panel)), left_handed=left_handed) for panel in panels]
    heads = [_heads(panel, p, found) for panel in panels]
    return _compose(found, part, p, sketches, heads, colours, panels, left_handed)


def _panels(found: Estimate, runs: Mapping[str, Repeat], off: Mapping[str, float], *, several: bool) -> list[Panel]:
    """The beginning as told, and the two best others; for a repeat so short that it pools, looser and tighter hands as well."""

    def landed(pulled: Mapping[str, float], tension: float = 1.0) -> dict[str, Landing]:
        return {name: land(found, name, repeat, Plan(pull_off=pulled.get(name, 0.0), tension=tension)) for name, repeat in runs.items()}

    first = Panel(heads=(), landings=landed(off))
    if not runs:
        return [first]
    name = max(runs, key=lambda each: found.yarn(each).fabric_m)
    told = off.get(name, 0.0)
    first = replace(first, heads=("As the ball comes" if told == 0 else f"{told:.1f} m pulled off",))
    if not several:
        return [first]
    starts = best_starts(found, name, runs[name], Wish(), begins_m=0.0)
    others = [start for start in starts if abs(start.pull_off_m - told) > runs[name].metres / 50][:2]
    out = [first, *(Panel(heads=_said(start), landings=landed({**off, name: start.pull_off_m})) for start in others)]
    pools = pooling_near(found, name, runs[name])
    if pools and pools[len(pools) // 2].repeat < 1.5 * pools[len(pools) // 2].stitches:
        hands = ((1 + TENSION, "looser"), (1 - TENSION, "tighter"))
        out += [Panel(heads=(f"{TENSION:.0%} {word}".replace("%", " %"),), landings=landed(off, tension)) for tension, word in hands]
    return out


def _said(start: Start) -> tuple[str, ...]:
    return (f"{start.pull_off_m:.1f} m pulled off",)


def _heads(panel: Panel, p: int, found: Estimate) -> tuple[str, ...]:
    """The panel's heading, and which colours its first and last rows have."""
    for landing in panel.landings.values():
        rows = [row for row in landing.rows if row.part == p and row.copy == 0 and not row.thread.row.foundation]
        if rows:
            last = rows[-1].changes[-1].colour if rows[-1].changes else rows[-1].first
            return (*panel.heads, f"begins {rows[0].first}", f"ends {last}")
    return panel.heads


# --- which colour each stitch has


def _colours(found: Estimate, runs: Mapping[str, Repeat]) -> dict[str, Shown]:
    """Every colour of the whole piece: plain yarns by their id, colours of sequences by "yarn/colour"."""
    keys: list[tuple[str, str]] = []
    for use in found.yarns:
        name = use.supplied.id
        if name in runs:
            keys += [(f"{name}/{colour}", colour) for colour in runs[name].colours]
        elif use.fabric_m:
            keys.append((name, use.supplied.yarn.colour or use.supplied.yarn.name or name))
    return shown(keys)


def _row_keys(found: Estimate, p: int, panel: Panel) -> Iterator[tuple[RowWork, list[tuple[int, str]]]]:
    """For every row of the first copy: (first element of a run, colour key), in worked order."""
    landed = {
        (name, row.thread.index): row for name, landing in panel.landings.items() for row in landing.rows if row.part == p and row.copy == 0
    }
    for thread in found.threads[p].rows:
        st = thread.row.stitches
        if not len(st):
            yield thread.row, []
            continue
        each = {name: landing.rows and landed.get((name, thread.index)) for name, landing in panel.landings.items()}
        run_of = {name: row.each(panel.landings[name].colours) for name, row in each.items() if row}
        yarns = [found.yarn_of[word] for word in st.colours]
        if len(yarns) == 1 and yarns[0] not in run_of:
            yield thread.row, [(0, yarns[0])]
            continue
        out: list[tuple[int, str]] = []
        for i in range(len(st)):
            yarn = yarns[st.colour[i] if len(yarns) > 1 else 0]
            runs = run_of.get(yarn)
            key = yarn if runs is None else f"{yarn}/{panel.landings[yarn].colours[runs[i]]}"
            if not out or out[-1][1] != key:
                out.append((i, key))
        yield thread.row, out


def _keys_in(found: Estimate, p: int, panel: Panel) -> list[str]:
    return list(dict.fromkeys(key for row, runs in _row_keys(found, p, panel) if not row.foundation for _, key in runs))


# --- the sheet


def _compose(
    found: Estimate, part: PartMeasures, p: int, sketches: Sequence[Sketch], heads: Sequence[tuple[str, ...]], colours: Mapping[str,
    Shown],
    panels: Sequence[Panel], left_handed: bool,
) -> str:  # fmt: skip
    room = (WIDE_MM - GAP_MM * (len(sketches) - 1)) / len(sketches)
    scale = min(room / max(s.wide for s in sketches), HIGH_MM / max(s.high for s in sketches), MOST_MM_PER_CM)
    used = [key for key in colours if any(key in s.paths for s in sketches)]
    body: list[str] = []
    x, lines = 0.0, max(len(head) for head in heads)
    top = lines * TEXT_MM * 1.3 + 2.0 if lines else 0.0
    wide_each = [
        max(s.wide * scale, *(text_width(words, TEXT_MM) for words in head), 20.0) for s, head in zip(sketches, heads, strict=True)
    ]
    for n, (sketch, head, wide) in enumerate(zip(sketches, heads, wide_each, strict=True)):
        body += [
            svg.text(x, (i + 0.8) * TEXT_MM * 1.3, words, size_mm=TEXT_MM, weight="bold" if i == 0 else None, fill=INK)
            for i, words in enumerate(head)
        ]
        body += _draw(sketch, colours, used, scale, x, top, f"p{n}")
        x += wide + GAP_MM
    y = top + max(s.high for s in sketches) * scale + 6.0
    wide = max(x - GAP_MM, 90.0)
    y = _scale_bar(body, scale, y)
    y = _key(body, found, p, [colours[key] for key in used], panels[0], wide, y)
    y = _notes(body, found, part, p, panels, left_handed, wide, y)
    title = f"{found.fabric.pattern.facts.title}: colours".strip(": ") if found.fabric.pattern.facts.title else "Colours"
    page = svg.Svg(
        width_mm=wide + 8, height_mm=y + 4, origin=(-4.0, -4.0), title=f"{title}, {part.name}" if len(found.parts) > 1 else title,
        desc=_described(found, part, p, [colours[key] for key in used], panels, heads), ids="colours-",
    )  # fmt: skip
    tiles = "".join(colours[key].pattern() for key in used)
    clips = "".join(_clip(sketch, scale, n, wide_each, top) for n, sketch in enumerate(sketches))
    page.add(svg.rect(-4, -4, wide + 8, y + 4, fill="#fff"), f"<defs>{tiles}{clips}</defs>", *body)
    return page.render()


def _clip(sketch: Sketch, scale: float, n: int, wide_each: Sequence[float], top: float) -> str:
    if not sketch.clip:
        return ""
    left = sum(wide_each[:n]) + n * GAP_MM
    corners = [(left + u * scale, top + v * scale) for u, v in sketch.clip]
    return f'<clipPath id="p{n}">{svg.polygon(corners)}</clipPath>'


def _draw(sketch: Sketch, colours: Mapping[str, Shown], used: Sequence[str], scale: float, x: float, y: float, clip: str) -> list[str]:
    """The piece of one panel at its place, letters on top."""
    marks = [
        svg.path(scaled("".join(sketch.paths[key]), scale, x, y), fill=colours[key].fill, stroke=None)
        for key in used
        if key in sketch.paths
    ]
    out = [svg.group(marks, clip_path=f"url(#{clip})" if sketch.clip else None)]
    if sketch.outline:
        corners = [(x + u * scale, y + v * scale) for u, v in sketch.outline]
        out.append(svg.polygon(corners, fill="none", stroke=INK, stroke_width=0.3, stroke_linejoin="round"))
    if sketch.round:
        r = sketch.wide / 2 * scale
        out.append(svg.circle(x + r, y + r, r, fill="none", stroke=INK, stroke_width=0.3))
    taken: list[tuple[float, float]] = []
    for u, v, key, room in sketch.letters:
        at = (x + u * scale, y + v * scale)
        crowded = any(math.dist(at, other) < 1.25 * LETTER_MM for other in taken)
        if room * scale >= LETTER_ROOM_MM and not crowded:
            taken.append(at)
            out.append(_letter(at, colours[key], min(LETTER_MM, 0.95 * room * scale)))
    return out


def _letter(at: tuple[float, float], colour: Shown, high: float) -> str:
    """A letter in a dot of its colour, so that no texture runs through it."""
    from ..yarn.hues import hexed

    size = high if len(colour.letter) == 1 else high * 0.8
    return svg.group([
        svg.circle(at[0], at[1], high * 0.56, fill=hexed(colour.rgb)),
        svg.text(at[0], at[1] + size * 0.35, colour.letter, size_mm=size, anchor="middle", weight="bold", fill=colour.ink()),
    ])  # fmt: skip


def _scale_bar(body: list[str], scale: float, y: float) -> float:
    """A bar of 10 cm (or 5, or 1, for small pieces)."""
    cm = next((each for each in (10, 5, 2, 1) if 8 <= each * scale <= 60), 10)
    length = cm * scale
    body += [svg.line(0, y, length, y, stroke=INK, stroke_width=0.4), svg.line(0, y - 1, 0, y + 1, stroke=INK, stroke_width=0.4),
             svg.line(length, y - 1, length, y + 1, stroke=INK, stroke_width=0.4),
             svg.text(length + 2, y + 1, f"{cm} cm ({inches(cm)} in)", size_mm=TEXT_MM, fill=INK)]  # fmt: skip
    return y + 7.0


def _key(body: list[str], found: Estimate, p: int, colours: Sequence[Shown], panel: Panel, wide: float, y: float) -> float:
    """Swatch, letter, name and metres of every colour, in columns."""
    told = [(colour, _metres(found, p, colour.key, panel)) for colour in colours]
    words = [f"{colour.letter}  {colour.name}, {decimal(metres, 0 if metres >= 10 else 1)} m" for colour, metres in told]
    each = max(text_width(word, TEXT_MM) for word in words) + 14.0
    columns = max(1, min(len(words), int(wide // each)))
    for n, ((colour, _), word) in enumerate(zip(told, words, strict=True)):
        left, top = (n % columns) * each, y + (n // columns) * 6.0
        body.append(svg.rect(left, top, 8, 4.4, fill=colour.fill, stroke=INK, stroke_width=0.25))
        body.append(svg.text(left + 10, top + 3.3, word, size_mm=TEXT_MM, fill=INK))
    return y + math.ceil(len(words) / columns) * 6.0 + 2.0


def _metres(found: Estimate, p: int, key: str, panel: Panel) -> float:
    """Metres of one colour on all copies of the part, stitches and chains."""
    yarn, _, colour = key.partition("/")
    part = found.threads[p]
    if not colour:
        return sum(row.metres.get(yarn, 0.0) for row in part.rows) * part.copies
    landing = panel.landings[yarn]
    total = 0.0
    for row in landing.rows:
        if row.part != p:
            continue
        upto = row.thread.drawn.upto
        edges = [0.0, *(upto[c.element] + c.into * (upto[c.element + 1] - upto[c.element]) for c in row.changes), upto[-1]]
        names = [row.first, *(c.colour for c in row.changes)]
        total += sum(
            (b - a) / upto[-1] * row.metres for a, b, name in zip(edges, edges[1:], names, strict=False) if name == colour and upto[-1]
        )
    return total


def _notes(
    body: list[str], found: Estimate, part: PartMeasures, p: int, panels: Sequence[Panel], left_handed: bool, wide: float, y: float
) -> float:  # fmt: skip
    said = []
    if part.in_rounds and part.lies == "tube":
        said.append("Worked in rounds: drawn cut open where the rounds begin.")
    elif part.in_rounds:
        said.append("Worked in rounds: drawn as rings, right side up; rounds begin below.")
    else:
        said.append("Right side up, Row 1 at the bottom" + (", as a left-hander works it." if left_handed else "."))
    if part.copies > 1:
        said.append(
            f"The first of {part.copies}; with a colour sequence the others go on where it ends."
            if panels[0].landings
            else f"One of {part.copies}."
        )
    for name in panels[0].landings:
        sd = found.yarn(name).hand.metres_sd
        reach = math.exp(1.645 * sd) - 1
        said.append(
            f"Places of the changes hold for the likely yarn; hands differ by {reach:.0%}: mark your first two changes and compare."
        )
    for line in wrapped(said, wide, TEXT_MM * 0.9):
        body.append(svg.text(0, y + 2.4, line, size_mm=TEXT_MM * 0.9, fill=INK))
        y += 4.0
    return y


def _described(
    found: Estimate, part: PartMeasures, p: int, colours: Sequence[Shown], panels: Sequence[Panel], heads: Sequence[tuple[str, ...]]
) -> str:  # fmt: skip
    listed = ", ".join(f"{colour.letter} {colour.name}" for colour in colours)
    begun = "; ".join(" ".join(head) for head in heads if head)
    return f"{part.name or 'The piece'} to scale in {len(colours)} colours: {listed}." + (f" Starting places: {begun}." if begun else "")
