"""Worked fabrics built by hand, for tests that need a `Fabric` without reading or working anything.

A row is a list of elements in worked order: `(kind, feet)`, or `Element(...)` when role or way of working differ. Feet are places of the
row below in *its* worked order (an int, several for a together-stitch, none for a chain); -1 is the ring.
"""

from __future__ import annotations

from array import array
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TypeAlias

from hookwright.pattern import Facts, Gauge, MadeIn, Pattern, Row
from hookwright.trade.kinds import counts_as
from hookwright.working.fabric import RING_FOOT, Begins, Counted, Fabric, How, PartWork, Role, RowWork, Side, Stitches


@dataclass(frozen=True, slots=True)
class Element:
    """One stitch or chain. `feet`: (rows back, element there, how)."""

    kind: str
    feet: tuple[tuple[int, int, How], ...] = ()
    role: Role = Role.STITCH
    stands: str = ""
    colour: str = ""


Plain: TypeAlias = tuple[str, "int | Sequence[int]"]
Spec: TypeAlias = "Sequence[Plain | Element]"


def element(kind: str, feet: int | Sequence[int] = (), *, how: How = How.TOP, back: int = 1, role: Role | None = None) -> Element:
    """An element by its kind and feet; chains get the role CHAIN, a foot of -1 is the ring."""
    places = (feet,) if isinstance(feet, int) else tuple(feet)
    made = tuple((back, at, How.RING if at == RING_FOOT else how) for at in places)
    return Element(kind, made, role if role is not None else (Role.CHAIN if kind == "ch" else Role.STITCH))


def stitches(row: Spec, *, colour: str = "") -> Stitches:
    """The arrays of one row."""
    elements = [item if isinstance(item, Element) else element(*item) for item in row]
    names = tuple(dict.fromkeys(item.kind for item in elements)) or ("sc",)
    colours = tuple(dict.fromkeys(item.colour or colour for item in elements)) or (colour,)
    feet, back, at, how = array("I", [0]), array("h"), array("i"), bytearray()
    for item in elements:
        for rows_back, place, way in item.feet:
            back.append(rows_back)
            at.append(place)
            how.append(way)
        feet.append(len(at))
    return Stitches(
        names=names,
        kind=array("H", (names.index(item.kind) for item in elements)),
        role=bytes(item.role for item in elements),
        step=array("i", bytes(4 * len(elements))),
        repeat=array("i", bytes(4 * len(elements))),
        feet=feet,
        foot_back=back,
        foot_at=at,
        foot_how=bytes(how),
        colour=array("H", (colours.index(item.colour or colour) for item in elements)),
        colours=colours,
        stands={i: item.stands for i, item in enumerate(elements) if item.stands},
    )


def counted(row: Stitches) -> Counted:
    """The counts of a row: stitches and counted starting chains."""
    made = Counter(row.name(i) for i in row.counted())
    plain: Counter[str] = Counter()
    for kind, number in made.items():
        plain[counts_as(kind)] += number
    return Counted(total=sum(made.values()), by_kind=dict(plain), made=dict(made))


@dataclass
class Piece:
    """Collects the rows of one part."""

    made_in: MadeIn = "rows"
    name: str = "Body"
    copies: int = 1
    turns: bool = True
    rows: list[RowWork] = field(default_factory=list)

    def foundation(self, chains: int) -> Piece:
        self._add([Element("ch", role=Role.FOUNDATION)] * chains, foundation=True)
        return self

    def row(self, spec: Spec, *, colour: str = "") -> Piece:
        self._add(spec, colour=colour)
        return self

    def _add(self, spec: Spec, *, foundation: bool = False, colour: str = "") -> None:
        index = len(self.rows)
        number = None if foundation else 1 + sum(not row.foundation for row in self.rows)
        flips = self.turns and self.made_in in ("rows", "joined-turned") and number is not None and number % 2 == 0
        noun = "Row" if self.made_in == "rows" else "Rnd"
        made = stitches(spec, colour=colour)
        side: Side = "WS" if flips else "RS"
        flat_begins: Begins = "B" if flips else "A"
        begins: Begins = flat_begins if self.made_in == "rows" else ("spiral" if self.made_in == "spiral" else "join")
        self.rows.append(
            RowWork(
                label="Foundation" if foundation else f"{noun} {number}",
                number=number,
                written=Row(id=index + 1, label=f"{noun} {number}", made_in=self.made_in),
                index=index,
                made_in=self.made_in,
                side=side,
                side_because="built by hand",
                begins=begins,
                turned=self.turns and index > 0 and self.made_in in ("rows", "joined-turned"),
                direction=-1 if flips else 1,
                stitches=made,
                offered=None,
                used=None,
                counted=Counted(total=0, by_kind={}, made={}) if foundation else counted(made),
                stated=(),
                state="unstated",
                read="whole",
                worked="yes",
                yarn=colour,
                below=index - 1 if index else None,
                foundation=foundation,
            )
        )

    def part(self) -> PartWork:
        return PartWork(name=self.name, copies=self.copies, rows=tuple(self.rows))


def fabric(*parts: PartWork, facts: Facts | None = None, gauge: Gauge | Mapping[str, tuple[float, float]] | None = None) -> Fabric:
    """A fabric of parts. `gauge`: a Gauge, or {stitch: (stitches, rows)} to 10 cm."""
    if facts is None:
        given = (gauge,) if isinstance(gauge, Gauge) else tuple(
            Gauge(stitch=kind, stitches=many, rows=rows) for kind, (many, rows) in (gauge or {}).items()
        )  # fmt: skip
        facts = Facts(gauge=given)
    return Fabric(pattern=Pattern(facts=facts), size=0, parts=parts)


def flat_part(rows: Iterable[Spec], *, chains: int = 0, name: str = "Body", copies: int = 1, turns: bool = True) -> PartWork:
    """Rows worked flat. `chains`: a foundation chain, when the first row stands on one."""
    piece = Piece("rows", name, copies, turns)
    if chains:
        piece.foundation(chains)
    for row in rows:
        piece.row(row)
    return piece.part()


def rounds_part(rows: Iterable[Spec], *, made_in: MadeIn = "joined", name: str = "Body", copies: int = 1) -> PartWork:
    """Rounds; the first usually stands on the ring (feet -1)."""
    piece = Piece(made_in, name, copies, turns=made_in == "joined-turned")
    for row in rows:
        piece.row(row)
    return piece.part()


def flat(rows: Iterable[Spec], *, chains: int = 0, gauge: Gauge | Mapping[str, tuple[float, float]] | None = None) -> Fabric:
    """A fabric of one part worked flat."""
    return fabric(flat_part(rows, chains=chains), gauge=gauge)


def rounds(rows: Iterable[Spec], *, made_in: MadeIn = "joined", gauge: Gauge | Mapping[str, tuple[float, float]] | None = None) -> Fabric:
    """A fabric of one part worked in rounds."""
    return fabric(rounds_part(rows, made_in=made_in), gauge=gauge)


# --- whole pieces


def across(n: int, kind: str, *, turned: bool = True) -> list[Plain]:
    """One stitch in each of n places; a turned row walks the row below from its end."""
    return [(kind, n - 1 - i if turned else i) for i in range(n)]


def rectangle_rows(n: int, m: int, kind: str = "dc") -> list[Spec]:
    """n stitches by m rows, on a foundation of n chains."""
    return [across(n, kind) for _ in range(m)]


def rectangle(n: int, m: int, kind: str = "dc", *, gauge: Gauge | Mapping[str, tuple[float, float]] | None = None) -> Fabric:
    return flat(rectangle_rows(n, m, kind), chains=n, gauge=gauge)


def edge_shaped_rows(counts: Sequence[int], kind: str = "dc", *, edge: str = "B") -> list[Spec]:
    """Rows of the counts told; all shaping at one edge: several stitches in the last place, or the last places together."""
    rows: list[Spec] = []
    before = counts[0]
    for r, n in enumerate(counts):
        begins_at_edge = (r % 2 == 1) == (edge == "B")
        places = list(range(before - 1, -1, -1))
        rows.append(_shaped(places, n, kind, at_start=begins_at_edge))
        before = n
    return rows


def _shaped(places: list[int], n: int, kind: str, *, at_start: bool) -> list[Plain]:
    change = n - len(places)
    if not at_start:
        return list(reversed(_shaped(places[::-1], n, kind, at_start=True)))
    if change >= 0:
        return [(kind, places[0])] * change + [(kind, place) for place in places]
    lost = 1 - change
    return [(f"{kind}{lost}tog", tuple(places[:lost])), *((kind, place) for place in places[lost:])]


BEVEL_COUNTS: tuple[int, ...] = (*range(2, 21), *[20] * 64, *range(19, 1, -1))
"""Two stitches, one more a row to 20 at Row 19, straight to Row 83, one fewer a row to 2 at Row 101: 1,678 stitches."""


def bevelled_strip(kind: str = "dc", *, gauge: Gauge | Mapping[str, tuple[float, float]] | None = None) -> Fabric:
    """A strip with bevelled ends, all its shaping at edge B."""
    return flat(edge_shaped_rows(BEVEL_COUNTS, kind), chains=BEVEL_COUNTS[0], gauge=gauge)


def triangle(rows: int, kind: str = "dc", *, gauge: Gauge | Mapping[str, tuple[float, float]] | None = None) -> Fabric:
    """A one-sided triangle: one stitch in Row 1, one more a row at edge B."""
    return flat(edge_shaped_rows(range(1, rows + 1), kind), chains=1, gauge=gauge)


def ring_round(n: int, kind: str) -> list[Plain]:
    return [(kind, RING_FOOT)] * n


def shaped_round(before: int, n: int, kind: str) -> list[Plain]:
    """n stitches spread evenly over a round of `before` (increases and togethers where they fall)."""
    if n >= before:
        return [(kind, i * before // n) for i in range(n)]
    row: list[Plain] = []
    for i in range(n):
        places = tuple(range(i * before // n, (i + 1) * before // n))
        row.append((kind if len(places) == 1 else f"{kind}{len(places)}tog", places))
    return row


def rounds_of(counts: Sequence[int], kind: str = "sc") -> list[Spec]:
    """Rounds of the counts told, from a ring, their shaping spread evenly."""
    rows: list[Spec] = [ring_round(counts[0], kind)]
    for before, n in pairwise(counts):
        rows.append(shaped_round(before, n, kind))
    return rows


def disc_rows(per_round: int, many: int, kind: str = "sc", *, stacked: bool = True) -> list[Spec]:
    """Round n has per_round x n stitches. Stacked: the increase is the last of every repeat; else it moves half a repeat every round."""
    rows: list[Spec] = [ring_round(per_round, kind)]
    for r in range(2, many + 1):
        row: list[Plain] = []
        double = r - 2 if stacked or r % 2 else (r - 2) // 2
        for sector in range(per_round):
            for place in range(r - 1):
                row += [(kind, sector * (r - 1) + place)] * (2 if place == double else 1)
        rows.append(row)
    return rows


def disc(
    per_round: int,
    many: int,
    kind: str = "sc",
    *,
    stacked: bool = True,
    made_in: MadeIn = "joined",
    gauge: Gauge | Mapping[str, tuple[float, float]] | None = None,
) -> Fabric:
    return rounds(disc_rows(per_round, many, kind, stacked=stacked), made_in=made_in, gauge=gauge)


def ball(equator: int = 36, kind: str = "sc", *, gauge: Gauge | Mapping[str, tuple[float, float]] | None = None) -> Fabric:
    """A ball worked from a ring: 6, 12 … to the equator, as many even rounds again, and back to 6."""
    steps = list(range(6, equator + 1, 6))
    return rounds(rounds_of([*steps, *[equator] * len(steps), *steps[-2::-1]], kind), made_in="spiral", gauge=gauge)


def tube(n: int, many: int, kind: str = "sc", *, gauge: Gauge | Mapping[str, tuple[float, float]] | None = None) -> Fabric:
    """Rounds of n on a ring of n chains."""
    piece = Piece("joined", "Tube", turns=False).foundation(n)
    for _ in range(many):
        piece.row(across(n, kind, turned=False))
    return fabric(piece.part(), gauge=gauge)
