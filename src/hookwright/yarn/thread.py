"""The thread of a fabric: every stitch and chain with the metres of yarn in it, so that rows, parts and colours add up to one total.

Three sums make a part's total: its rows' area times the metres per area of the yarn each stitch is worked in (rows of lace or relief by
their factors); its foundation chain at five times its own length; two ends for each strand. The first is shared by all stitches of the
part by the loops they draw. Rows that share their arrays
(every plain row of a blanket) are looked at once.
"""

from __future__ import annotations

from array import array
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import accumulate

from ..working.fabric import Fabric, Role, RowWork, Stitches
from .loops import is_relief, loops
from .model import constants, metres_per_cm2

_CHAINS = frozenset({int(Role.CHAIN), int(Role.START), int(Role.START_TOP), int(Role.FOUNDATION)})
_STANDING = frozenset({int(Role.STITCH), int(Role.START_TOP)})
RELIEF_FULL = 0.2
"""From this share of relief stitches on, rows count as relief (a reading of the fitted pieces' words, not fitted)."""
OPEN_FROM, OPEN_FULL = 0.3, 0.5
"""Share of chains among stitches and chains between which a fabric turns from solid to lace (ours: granny groups stay solid, mesh is
lace)."""


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """The loops of one row. `upto[i]` loops of its first i elements, `chains_upto` those of chains alone (arrays of length n + 1).

    `by_colour`: colour → (loops, loops of chains). Counts are of elements.
    """

    upto: array[float]
    chains_upto: array[float]
    by_colour: Mapping[str, tuple[float, float]]
    stitches: int
    chains: int
    relief: int

    @property
    def loops(self) -> float:
        return self.upto[-1]


def drawn(st: Stitches) -> Drawn:
    """Count the loops of a row's arrays."""
    per_name = [loops(name) for name in st.names]
    each = array("d", [per_name[k] for k in st.kind])
    chain = bytes(role in _CHAINS for role in range(8))
    of_chain = st.role.translate(chain.ljust(256, b"\0"))
    if any(of_chain):
        for i, is_chain in enumerate(of_chain):
            if is_chain:
                each[i] = 1.0
    upto = array("d", accumulate(each, initial=0.0))
    chains = array("d", accumulate((value if is_chain else 0.0 for value, is_chain in zip(each, of_chain, strict=True)), initial=0.0))
    relief_names = [is_relief(name) for name in st.names]
    relief = sum(1 for k in st.kind if relief_names[k]) if any(relief_names) else 0
    standing = sum(st.role.count(role) for role in _STANDING)
    return Drawn(upto, chains, _by_colour(st, each, of_chain, upto, chains), standing, st.role.count(int(Role.CHAIN)), relief)


def _by_colour(
    st: Stitches, each: array[float], of_chain: bytes, upto: array[float], chains: array[float]
) -> dict[str, tuple[float, float]]:
    if not len(st):
        return {}
    if len(st.colours) == 1:
        return {st.colours[0]: (upto[-1], chains[-1])}
    whole = [0.0] * len(st.colours)
    chained = [0.0] * len(st.colours)
    for colour, value, is_chain in zip(st.colour, each, of_chain, strict=True):
        whole[colour] += value
        if is_chain:
            chained[colour] += value
    return {name: (whole[i], chained[i]) for i, name in enumerate(st.colours) if whole[i]}


@dataclass(frozen=True, slots=True)
class Worked:
    """A yarn as it is worked: metres per 100 g of all strands held together, and how many they are (each takes its own metres)."""

    id: str
    m_per_100g: float
    strands: int = 1


@dataclass(frozen=True, slots=True, eq=False)
class RowThread:
    """One row's yarn, for one copy of its part. `per_loop`: metres in one loop of each yarn (all of the row's yarns)."""

    part: int
    index: int
    row: RowWork
    drawn: Drawn
    per_loop: Mapping[str, float]
    metres: Mapping[str, float]
    chains: Mapping[str, float]

    @property
    def total(self) -> float:
        return sum(self.metres.values())


@dataclass(frozen=True, slots=True, eq=False)
class PartThread:
    """One part: its rows, and what was seen of it (area of one copy, openness and relief as taken)."""

    name: str
    copies: int
    rows: tuple[RowThread, ...]
    area_cm2: float
    openness: float
    relief: float
    hook_mm: float


@dataclass(slots=True)
class Threader:
    """Turns a fabric and its rows' areas into threads. `yarn_of` names the yarn behind a colour word of the fabric."""

    yarns: Mapping[str, Worked]
    yarn_of: Mapping[str, str]
    hooks: Mapping[str, float]
    hook_mm: float
    factor: Mapping[str, float] = field(default_factory=dict)
    """Her hand over the model's, by yarn."""
    _seen: dict[int, Drawn] = field(default_factory=dict)

    def part(self, fabric: Fabric, p: int, areas: Sequence[float], foundation_cm: Sequence[float]) -> PartThread:
        """Thread of part p. `areas`: cm2 of each row (0 for a foundation chain); `foundation_cm`: its length where the row is one."""
        part = fabric.parts[p]
        rows = [self._drawn(row.stitches) for row in part.rows]
        hook = self.hooks.get(part.name, self.hook_mm)
        base = {
            name: yarn.strands * metres_per_cm2(yarn.m_per_100g, hook) * self.factor.get(name, 1.0) for name, yarn in self.yarns.items()
        }
        nature = _natures([None if row.foundation else d for d, row in zip(rows, part.rows, strict=True)])
        weight = total = 0.0
        for d, row, area, (openness, relief) in zip(rows, part.rows, areas, nature, strict=True):
            if row.foundation:
                continue
            whole = area * constants().lace ** openness * constants().relief ** relief / d.loops if d.loops else 0.0
            for colour, (many, _) in d.by_colour.items():
                k = base[self.yarn_of[colour]]
                weight += k * many
                total += k * many * whole
        scale = total / weight if weight else 0.0
        per_loop = {name: k * scale for name, k in base.items()}
        threads = tuple(
            self._row(p, r, row, d, per_loop, foundation_cm[r]) for r, (d, row) in enumerate(zip(rows, part.rows, strict=True))
        )  # fmt: skip
        mean = [_mean([n[i] for n in nature], areas) for i in (0, 1)]
        return PartThread(part.name, part.copies, threads, sum(areas), mean[0], mean[1], hook)

    def _row(self, p: int, r: int, row: RowWork, d: Drawn, per_loop: dict[str, float], chain_cm: float) -> RowThread:
        if row.foundation and d.loops:
            each = constants().chain_per_length * chain_cm / 100 / d.loops
            per_loop = {name: each * self.yarns[name].strands * self.factor.get(name, 1.0) for name in per_loop}
        metres: dict[str, float] = {}
        chains: dict[str, float] = {}
        for colour, (many, chained) in d.by_colour.items():
            name = self.yarn_of[colour]
            metres[name] = metres.get(name, 0.0) + many * per_loop[name]
            chains[name] = chains.get(name, 0.0) + chained * per_loop[name]
        return RowThread(p, r, row, d, per_loop, metres, chains)

    def _drawn(self, st: Stitches) -> Drawn:
        found = self._seen.get(id(st))
        if found is None:
            found = self._seen[id(st)] = drawn(st)
        return found


NEAR_ROWS = 2
"""A row is open or in relief as the rows about it are, two to each side: a ribbed brim does not make a hat a relief."""


def _natures(rows: Sequence[Drawn | None]) -> list[tuple[float, float]]:
    """(openness, relief) of every row, from the rows about it; (0, 0) for a foundation chain."""
    upto = [list(accumulate((count(d) if d else 0 for d in rows), initial=0)) for count in _COUNTS]
    out = []
    for r, d in enumerate(rows):
        low, high = max(0, r - NEAR_ROWS), min(len(rows), r + NEAR_ROWS + 1)
        stitches, chains, relief = (sums[high] - sums[low] for sums in upto)
        every = stitches + chains
        share = chains / every if every else 0.0
        openness = min(1.0, max(0.0, (share - OPEN_FROM) / (OPEN_FULL - OPEN_FROM)))
        raised = min(1.0, relief / stitches / RELIEF_FULL) if stitches else 0.0
        out.append((openness, raised) if d else (0.0, 0.0))
    return out


_COUNTS: tuple[Callable[[Drawn], int], ...] = (lambda d: d.stitches, lambda d: d.chains, lambda d: d.relief)


def _mean(values: Sequence[float], areas: Sequence[float]) -> float:
    whole = sum(areas)
    return sum(value * area for value, area in zip(values, areas, strict=True)) / whole if whole else 0.0


def strands(fabric: Fabric, p: int, yarn_of: Mapping[str, str]) -> dict[str, int]:
    """How many separate strands of each yarn one copy of part p takes: each leaves two ends.

    A yarn that comes back within two rows is carried up the edge or across; one that rests longer is cut and joined again (common
    practice). A fasten-off cuts the yarn.
    """
    resting: dict[str, int] = {}
    out: dict[str, int] = {}
    for r, row in enumerate(fabric.parts[p].rows):
        for colour in _in_order(row.stitches):
            name = yarn_of[colour]
            last = resting.get(name)
            if last is None or r - last > CARRIED_ROWS:
                out[name] = out.get(name, 0) + 1
            resting[name] = r
        if any(type(step).__name__ == "FastenOff" for step in row.written.steps) and _last_of_its_range(fabric, p, r):
            resting.clear()
    return out


CARRIED_ROWS = 3
"""A yarn unused for up to two rows between is carried."""


def _last_of_its_range(fabric: Fabric, p: int, r: int) -> bool:
    rows = fabric.parts[p].rows
    return r + 1 == len(rows) or rows[r + 1].written is not rows[r].written


def _in_order(st: Stitches) -> list[str]:
    if len(st.colours) == 1:
        return [st.colours[0]] if len(st) else []
    return [st.colours[i] for i in dict.fromkeys(st.colour)]
