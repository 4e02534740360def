"""Schematics of garments and stuffed pieces: heights and widths with their names, in every size; no label on another, by Shapely."""

from __future__ import annotations

import pytest
from shapely import STRtree
from shapely.geometry import box

from hookwright.drawing.labels import Sheet
from hookwright.drawing.schematic import compose
from hookwright.measuring import PartMeasures, measure
from hookwright.reading import read
from hookwright.working import work

EVEN = "Ch 1, sc in each st across, turn."


def sized(per_size: tuple[int, ...]) -> str:
    first, *rest = per_size
    return f"{first} ({', '.join(map(str, rest))})" if rest else str(first)


def body(name: str, wide: tuple[int, ...], *, out: int, low: int, high: int, halves: bool = False) -> str:
    """A back, or half a front with a neck that slopes over eight rows; `out` stitches left at each armhole."""
    kept = tuple(n - (out if halves else 2 * out) for n in wide)
    arm = f"Sl st in first {out} sts, ch 1, sc in each st " + ("across" if halves else f"to last {out} sts") + ", turn."
    rows = [
        f"Row 1: Sc in 2nd ch from hook and in each ch across, turn. ({sized(wide)} sc)", f"Rows 2-{low}: {EVEN} ({sized(wide)} sc)",
        f"Row {low + 1}: {arm} ({sized(kept)} sc)",
    ]  # fmt: skip
    at = low + 1
    if halves:
        for n in range(1, 9):
            at += 1
            left = tuple(k - n for k in kept)
            told = "sc2tog, sc in each st across" if n % 2 else "sc in each st to last 2 sts, sc2tog"
            rows.append(f"Row {at}: Ch 1, {told}, turn. ({sized(left)} sc)")
    rows.append(f"Rows {at + 1}-{low + high}: {EVEN}")
    return f"## {name}\nCh {sized(tuple(n + 1 for n in wide))}.\n" + "\n".join(rows) + "\nFasten off.\n\n"


def sleeve(cuff: tuple[int, ...], grown: int) -> str:
    top = tuple(n + 2 * grown for n in cuff)
    return (
        f"## Sleeve (make 2)\nCh {sized(tuple(n + 1 for n in cuff))}.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. "
        f"({sized(cuff)} sc)\n"
        + f"Rows 2-{grown + 1}: Ch 1, 2 sc in first st, sc in each st to last st, 2 sc in last st, turn. ({sized(top)} sc)\n"
        f"Rows {grown + 2}-40: {EVEN}\nRows 41-{40 + grown}: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog, turn. ({sized(cuff)} sc)\n"
        "Fasten off.\n\n"
    )


def ball(name: str, widest: int, even: int) -> str:
    rows = ["6 sc in magic ring. (6 sc)", "2 sc in each st around. (12 sc)"]
    rows += [f"[sc in next {n - 2} sts, 2 sc in next st] 6 times. ({6 * n} sc)" for n in range(3, widest + 1)]
    rows += [f"Sc in each st around. ({6 * widest} sc)"] * even
    rows += [f"[sc in next {n - 1} sts, sc2tog] 6 times. ({6 * n} sc)" for n in range(widest - 1, 0, -1)]
    return f"## {name}\n" + "\n".join(f"Rnd {k}: {row}" for k, row in enumerate(rows, start=1)) + "\nFasten off.\n\n"


def sheets(text: str, sizes: int) -> dict[str, tuple[Sheet, list[PartMeasures]]]:
    names = ["S", "M", "L", "XL", "2XL"][:sizes]
    head = "---\ntitle: Slipway\nterms: US\ngauge:\n  - {in: sc, stitches: 16, rows: 18, over: 10 cm}\n"
    head += f"sizes:\n  names: [{', '.join(names)}]\n---\n\n" if sizes > 1 else "---\n\n"
    pattern = read(head + text)
    made = [measure(work(pattern, size=size)) for size in range(pattern.sizes)]
    found = {}
    for i, part in enumerate(made[0].parts):
        parts = [each.parts[i] for each in made]
        found[part.name] = (compose(parts, names=names if sizes > 1 else [])[1], parts)
    return found


def told(sheet: Sheet) -> list[str]:
    return [" ".join(label.lines) for label in sheet.labels]


def test_a_garment_tells_armhole_neck_shoulder_and_cuff_in_every_size() -> None:
    wide, half, cuff = (60, 68, 76), (28, 32, 36), (24, 26, 28)
    text = body("Back", wide, out=5, low=50, high=36) + body("Left front", half, out=5, low=50, high=36, halves=True) + sleeve(cuff, 8)
    made = sheets(text, 3)
    back, front, arm = (told(made[name][0]) for name in ("Back", "Left front", "Sleeve"))
    assert any(line.startswith("armhole 20 cm") for line in back) and any(line.startswith("side 28 cm") for line in back)
    assert any(line.startswith("shoulders and neck 31.5 (36.5, 41.5) cm") for line in back)
    assert any(line.startswith("neck 19.5 cm") for line in front) and any(line.startswith("shoulder 9.5 (12, 14.5) cm") for line in front)
    assert any(line.startswith("cuff 15 (16.5, 17.5) cm") for line in arm) and any(line.startswith("cap ") for line in arm)


def test_a_divided_front_tells_shoulder_and_neck_and_no_armhole() -> None:
    side = "Rows {0}-{1}: " + EVEN + " (22 sc)\n"
    text = (
        "US terms\nGauge: 20 sc and 22 rows = 10 cm\n\n## Front\nCh 61.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (60 sc)\n"
        f"Rows 2-60: {EVEN} (60 sc)\nRow 61: Ch 1, sc in next 22 sts, turn, leaving remaining sts unworked. (22 sc)\n{side.format(62, 70)}"
        "Second side\nRow 61: With right side facing, skip next 16 unworked sts of Row 60, join yarn in next st, ch 1, sc in same st and "
        f"in each st across, turn. (22 sc)\n{side.format(62, 70)}"
    )
    _, sheet = compose(measure(work(read(text))).parts)
    lines = {label.lines[0] for label in sheet.labels}
    assert {"shoulder 11 cm", "neck 8 cm", "neck"} <= lines and not {"armhole", "side"} & lines


def test_a_stuffed_piece_is_as_high_as_stuffing_makes_it() -> None:
    sheet, (part,) = sheets(ball("Head", 6, 5), 1)["Head"]
    assert part.lies == "closed" and part.rounds is not None and part.rounds.height_cm is not None
    high = next(label for label in sheet.labels if label.turned or label.anchor == "end")
    assert float(high.lines[0].split()[0]) > 1.05 * part.rounds.height_cm


@pytest.mark.parametrize("sizes", [1, 3, 5])
def test_no_label_covers_another(sizes: int) -> None:
    pieces = "".join(
        body(f"Back {out}", tuple(40 + 9 * k for k in range(sizes)), out=out, low=low, high=high)
        + body(f"Left front {out}", tuple(22 + 4 * k for k in range(sizes)), out=out, low=low, high=high, halves=True)
        for out, low, high in ((2, 12, 14), (4, 60, 30))
    )
    pieces += sleeve(tuple(20 + 2 * k for k in range(sizes)), 9) + ball("Head", 5, 1) + ball("Body", 9, 14)
    for name, (sheet, _) in sheets(pieces, sizes).items():
        rooms = [box(b.x, b.y, b.x + b.width, b.y + b.height) for b in (label.box for label in sheet.labels)]
        tree = STRtree(rooms)
        for i, room in enumerate(rooms):
            over = [j for j in tree.query(room) if j != i and rooms[j].intersection(room).area > 1e-6]
            assert not over, (name, sheet.labels[i].lines, [sheet.labels[j].lines for j in over])
