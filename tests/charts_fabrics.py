"""Fabrics built by hand for the chart tests and pictures: lace, shells, ripples, cables, squares, doilies.

A small builder on top of `fabrics`: rows are told with places counted along the row below in *its own* worked order, or from its end.
"""

from __future__ import annotations

from fabrics import Element, Piece, Spec, across, element, fabric

from hookwright.working.fabric import Fabric, How, Role

CH = Element("ch", role=Role.CHAIN)


def start(chains: int, stands: str = "", foot: int | None = None) -> list[Element]:
    """A starting chain; `stands`: the stitch it counts as."""
    made = [Element("ch", role=Role.START)] * chains
    if stands:
        feet = () if foot is None else ((1, foot, How.TOP),)
        made[-1] = Element("ch", feet, Role.START_TOP, stands)
    return made


def into(kind: str, *places: int, how: How = How.TOP, back: int = 1) -> Element:
    return element(kind, places, how=how, back=back)


def sp(kind: str, place: int) -> Element:
    return element(kind, place, how=How.SPACE)


def join(to: int = 0) -> Element:
    return Element("sl st", ((0, to, How.TOP),), Role.JOIN)


def picot(anchor: int, chains: int = 3) -> list[Element]:
    """A picot on element `anchor` of the same row."""
    return [*[Element("ch", role=Role.HANGING)] * chains, Element("sl st", ((0, anchor, How.TOP),), Role.HANGING)]


def shell_blanket(repeats: int = 4, rows: int = 6) -> Fabric:
    """Shells of five over 6-stitch repeats: sc, skip 2, 5 dc in next, skip 2."""
    piece = Piece()
    width = 6 * repeats + 1
    piece.foundation(width)
    piece.row([*start(1), *across(width, "sc")])
    below = [1 + i for i in range(width)]
    anchors = below[::-1]
    for r in range(rows):
        row: list[Element] = []
        marks: list[int] = []
        if r % 2 == 0:
            row += start(1)
            for k in range(repeats):
                marks.append(len(row))
                row.append(into("sc", anchors[6 * k]))
                for _ in range(5):
                    marks.append(len(row))
                    row.append(into("dc", anchors[6 * k + 3]))
            marks.append(len(row))
            row.append(into("sc", anchors[6 * repeats]))
        else:
            row += start(3, "dc", anchors[0])
            marks.append(len(row) - 1)
            for _ in range(2):
                marks.append(len(row))
                row.append(into("dc", anchors[0]))
            for k in range(repeats):
                marks.append(len(row))
                row.append(into("sc", anchors[6 * k + 3]))
                if k < repeats - 1:
                    for _ in range(5):
                        marks.append(len(row))
                        row.append(into("dc", anchors[6 * k + 6]))
            for _ in range(3):
                marks.append(len(row))
                row.append(into("dc", anchors[6 * repeats]))
        piece.row(row)
        anchors = marks[::-1]
    return fabric(piece.part())


def ripple(repeats: int = 3, rows: int = 5, arm: int = 5) -> Fabric:
    """Peaks of three in one, valleys of three together: dc2tog, arm, 3 in 1, arm, dc3tog, …, dc2tog at both edges."""
    piece = Piece()
    unit = 2 * arm + 4
    width = unit * repeats + 1
    piece.foundation(width)
    for _ in range(rows):
        places = list(range(width - 1, -1, -1))
        row: list[Element] = [into("dc2tog", places[0], places[1])]
        for k in range(repeats):
            at = unit * k + 2
            row += [into("dc", places[at + i]) for i in range(arm)]
            row += [into("dc", places[at + arm])] * 3
            row += [into("dc", places[at + arm + 1 + i]) for i in range(arm)]
            end = at + 2 * arm + 1
            row.append(
                into("dc3tog", places[end], places[end + 1], places[end + 2]) if k < repeats - 1 else into("dc2tog", *places[end : end + 2])
            )
        width = len(row)
        piece.row(row)
    return fabric(piece.part())


def filet(cells: int = 6, rows: int = 5) -> Fabric:
    """Open mesh with a filled diagonal: dc, ch 2, skip 2."""
    piece = Piece()
    width = 3 * cells + 1
    piece.foundation(width)
    places: list[tuple[int, bool]] = [(i, False) for i in range(width - 1, -1, -1)]
    for r in range(rows):
        row: list[Element] = [*start(3, "dc", places[0][0])]
        now: list[tuple[int, bool]] = [(len(row) - 1, False)]
        for c in range(cells):
            filled = c in (r, cells - 1 - r)
            for k in (1, 2):
                at, space = places[3 * c + k]
                now.append((len(row), not filled))
                row.append((sp("dc", at) if space else into("dc", at)) if filled else CH)
            now.append((len(row), False))
            row.append(into("dc", places[3 * c + 3][0]))
        piece.row(row)
        places = now[::-1]
    return fabric(piece.part())


def lace_rows() -> Fabric:
    """Chain loops, picots and fans over loops: sc, ch 5 loops; then shells in every second loop."""
    piece = Piece()
    piece.foundation(33)
    row: list[Element] = [*start(1)]
    for k in range(9):
        row.append(into("sc", 32 - 4 * k))
        if k < 8:
            row += [CH] * 5
    piece.row(row)
    loops = [2 + 6 * k + 2 for k in range(8)][::-1]
    scs = [1 + 6 * k for k in range(9)][::-1]
    two: list[Element] = [*start(5, "dc")]
    two[2] = Element("ch", ((1, scs[0], How.TOP),), Role.START_TOP, "dc")
    two[3], two[4] = CH, CH
    for k in range(8):
        if k % 2 == 0:
            two += [sp("sc", loops[k])]
            two += [CH] * 2
        else:
            for j in range(5):
                two.append(sp("dc", loops[k]))
                if j == 2:
                    two += picot(len(two) - 1)
            two += [CH] * 2
    two.append(into("dc", scs[8]))
    piece.row(two)
    return fabric(piece.part())


def cables(rows: int = 6) -> Fabric:
    """A ribbed panel with a crossing of front post trebles over two and two on every fourth row."""
    piece = Piece()
    width = 16
    piece.foundation(width)
    piece.row([*start(3, "dc", width - 1), *[into("dc", i) for i in range(width - 2, -1, -1)]])
    base = 2
    for r in range(2, rows + 2):
        below = [base + i for i in range(width)][::-1]
        rs = r % 2 == 1
        row: list[Element] = [*start(3, "dc", below[0])]
        i = 1
        while i < width:
            front = 3 <= i < 7 or 9 <= i < 13
            if i in (3, 9) and r % 4 == 3:
                for j in (2, 3, 0, 1):
                    row.append(Element("FPtr", ((1, below[i + j], How.FRONT_POST),)))
                i += 4
                continue
            post = front == rs
            if front:
                row.append(Element("FPdc" if post else "BPdc", ((1, below[i], How.FRONT_POST if post else How.BACK_POST),)))
            else:
                row.append(into("dc", below[i]))
            i += 1
        piece.row(row)
    return fabric(piece.part())


def all_rows() -> dict[str, Fabric]:
    return {"shells": shell_blanket(), "ripple": ripple(), "filet": filet(), "lace": lace_rows(), "cables": cables()}


__all__ = ["Spec", "all_rows"]


def granny(rounds: int = 4) -> Fabric:
    """A granny square: groups of three in the spaces, ch 1 along the sides, ch 2 in the corners."""
    piece = Piece("joined")
    row: list[Element] = [*start(3, "dc")]
    spaces: list[tuple[int, bool]] = []
    for k in range(4):
        row += [into("dc", -1)] * (2 if k == 0 else 3)
        row += [CH, CH]
        spaces.append((len(row) - 1, True))
    row[2] = Element("ch", ((1, -1, How.RING),), Role.START_TOP, "dc")
    row.append(join(2))
    piece.row(row)
    for _ in range(rounds - 1):
        row, now = [*start(3)], []
        row[2] = Element("ch", ((1, spaces[-1][0], How.SPACE),), Role.START_TOP, "dc")
        order = [spaces[-1], *spaces[:-1]]
        for k, (at, corner) in enumerate(order):
            first = 2 if k == 0 else 3
            if k == 0:
                row += [sp("dc", at)] * first
            elif corner:
                row += [sp("dc", at)] * 3 + [CH, CH]
                now.append((len(row) - 1, True))
                row += [sp("dc", at)] * 3
            else:
                row += [sp("dc", at)] * 3
            row.append(CH)
            now.append((len(row) - 1, False))
        row += [sp("dc", order[0][0])] * 3 + [CH, CH]
        now.append((len(row) - 1, True))
        row.append(join(2))
        spaces = now
        piece.row(row)
    return fabric(piece.part())


def doily() -> Fabric:
    """Pineapples after a fashion: a ring of dc, fans on chains, then bells of trebles over them with loops growing smaller."""
    piece = Piece("joined")
    row: list[Element] = [*start(3, "dc")]
    row[2] = Element("ch", ((1, -1, How.RING),), Role.START_TOP, "dc")
    row += [into("dc", -1)] * 23 + [join(2)]
    piece.row(row)
    places = [2 + i for i in range(24)]
    row = [*start(1)]
    loops = []
    for k in range(8):
        row.append(into("sc", places[3 * k]))
        row += [CH] * 4
        loops.append(len(row) - 2)
    row.append(join(1))
    piece.row(row)
    row, bells, vs = [*start(3)], [], []
    row[2] = Element("ch", ((1, loops[0], How.SPACE),), Role.START_TOP, "dc")
    for k in range(8):
        if k % 2 == 0:
            row += [sp("dc", loops[k])] * (1 if k == 0 else 2) + [CH, CH]
            vs.append(len(row) - 1)
            row += [sp("dc", loops[k])] * 2 + [CH, CH]
        else:
            bells.append([len(row) + j for j in range(7)])
            row += [sp("tr", loops[k])] * 7 + [CH, CH]
    row.append(join(2))
    piece.row(row)
    inner: list[list[int]] = []
    row, nvs = [*start(3)], []
    row[2] = Element("ch", ((1, vs[0], How.SPACE),), Role.START_TOP, "dc")
    for k in range(4):
        row += [sp("dc", vs[k])] * (1 if k == 0 else 2) + [CH, CH]
        nvs.append(len(row) - 1)
        row += [sp("dc", vs[k])] * 2 + [CH, CH]
        these = []
        for j, at in enumerate(bells[k]):
            row.append(into("sc", at))
            if j < 6:
                row += [CH] * 3
                these.append(len(row) - 2)
        inner.append(these)
        row += [CH, CH]
    row.append(join(2))
    piece.row(row)
    while len(inner[0]) > 1:
        vs, nvs = nvs, []
        row, now = [*start(3)], []
        row[2] = Element("ch", ((1, vs[0], How.SPACE),), Role.START_TOP, "dc")
        for k in range(4):
            row += [sp("dc", vs[k])] * (1 if k == 0 else 2) + [CH, CH]
            mid = len(row) - 1
            row += [sp("dc", vs[k])] * 2
            if len(inner[0]) < 5:
                row += [CH, CH]
                row += [sp("dc", vs[k])] * 2
            nvs.append(mid)
            row += [CH] * 3
            these = []
            for j, at in enumerate(inner[k]):
                row.append(sp("sc", at))
                if j < len(inner[k]) - 1:
                    row += [CH] * 3
                    these.append(len(row) - 2)
            now.append(these)
            row += [CH] * 3
        row.append(join(2))
        piece.row(row)
        inner = now
    return fabric(piece.part())


def motif(rounds: int = 6) -> Fabric:
    """A round motif: dc rounds growing by twelve, each begun with a counted ch 3."""
    piece = Piece("joined")
    row: list[Element] = [*start(3, "dc")]
    row[2] = Element("ch", ((1, -1, How.RING),), Role.START_TOP, "dc")
    row += [into("dc", -1)] * 11 + [join(2)]
    piece.row(row)
    n = 12
    for r in range(2, rounds + 1):
        row = [*start(3, "dc", 2)]
        if r - 2 == 0:
            row.append(into("dc", 2))
        for i in range(1, n):
            row += [into("dc", 2 + i)] * (2 if i % (r - 1) == r - 2 else 1)
        row.append(join(2))
        n += 12
        piece.row(row)
    return fabric(piece.part())


def all_rounds() -> dict[str, Fabric]:
    from fabrics import ball, disc

    return {
        "granny": granny(),
        "doily": doily(),
        "motif": motif(),
        "oval": oval(),
        "amigurumi": disc(6, 6, made_in="spiral"),
        "ball": ball(24),
        "disc12": disc(12, 12, "dc"),
    }


def oval(chains: int = 9, rounds: int = 3) -> Fabric:
    """Rounds of sc along both sides of a chain, three in each end at first, then increasing at the ends."""
    piece = Piece("spiral")
    piece.foundation(chains)
    row = [into("sc", chains - 1)] + [into("sc", i) for i in range(chains - 2, 0, -1)] + [into("sc", 0)] * 3
    row += [into("sc", i, how=How.UNDER) for i in range(1, chains - 1)] + [into("sc", chains - 1)] * 2
    piece.row(row)
    n, straight = len(row), chains - 2
    ends = {0: 1, **{1 + straight + k: 1 for k in range(3)}, n - 2: 1, n - 1: 1}
    for _ in range(rounds - 1):
        row, now = [], {}
        for i in range(n):
            for _k in range(2 if ends.get(i) else 1):
                if ends.get(i) and _k:
                    now[len(row)] = 1
                row.append(into("sc", i))
        n, ends = len(row), now
        piece.row(row)
    return fabric(piece.part())
