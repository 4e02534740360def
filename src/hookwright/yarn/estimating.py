"""How much yarn a worked fabric takes: by row, part, colour and in all, with what is known and what is not."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from ..trade.units import both_lengths
from ..working.fabric import Fabric
from .amounts import YarnError
from .balls import JOIN_M, Balls, count_balls
from .calibrate import Hand, Kind, Weighing, unmeasured, update
from .loops import is_relief
from .model import Range, constants, metres_per_cm2, outside_the_tried
from .supply import Supplied, hook_of, supply
from .thread import PartThread, Threader, Worked, strands
from .timing import Hours, hours
from .trims import CAUTION, TrimUse, trim_use

if TYPE_CHECKING:
    from ..measuring import Measures


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a maker may add to the pattern: weighings, the scale's step, her tails, pace and hours a day, hooks of single parts."""

    weighings: Mapping[str, Sequence[Weighing]] = field(default_factory=dict)
    scale_g: float = 1.0
    tail_m: float | None = None
    pace: Mapping[str, float] = field(default_factory=dict)
    a_day: float = 2.0
    hooks: Mapping[str, float] = field(default_factory=dict)
    left_handed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class RowUse:
    """One row: `metres` in one copy, by yarn in `by_yarn`; `so_far` metres used at its end, earlier parts with all their copies."""

    part: str
    label: str
    number: int | None
    copies: int
    metres: float
    by_yarn: Mapping[str, float]
    so_far: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PartUse:
    """One part: metres of one copy (ends included), by yarn, and its copies; its area."""

    name: str
    copies: int
    metres_each: float
    by_yarn: Mapping[str, float]
    area_cm2: float
    openness: float
    relief: float
    hook_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnUse:
    """One yarn. `of_which` adds up to `metres.likely`: rows (stitches), chains, ends, trims, joins (of balls). `apart`: a swatch, not
    counted."""

    supplied: Supplied
    metres: Range
    grams: Range
    balls: Balls | None
    of_which: Mapping[str, float]
    apart: Mapping[str, float]
    hand: Hand

    @property
    def fabric_m(self) -> float:
        return self.of_which["rows"] + self.of_which["chains"]

    @property
    def fixed_m(self) -> float:
        return sum(self.of_which.values()) - self.fabric_m

    @property
    def m_per_g(self) -> float:
        return self.supplied.m_per_100g / 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """The yarn of one fabric (one size)."""

    fabric: Fabric
    size: int
    size_name: str
    yarns: tuple[YarnUse, ...]
    rows: tuple[RowUse, ...]
    parts: tuple[PartUse, ...]
    trims: tuple[TrimUse, ...]
    hours: Hours
    threads: tuple[PartThread, ...]
    yarn_of: Mapping[str, str]
    """Colour word of the fabric → yarn id."""
    ends: tuple[Mapping[str, int], ...]
    """Strands by yarn, for every part with all its copies; each leaves two ends."""
    because: tuple[str, ...]

    @property
    def metres(self) -> float:
        """Likely metres of all yarns."""
        return sum(yarn.metres.likely for yarn in self.yarns)

    def yarn(self, name: str) -> YarnUse:
        return next(use for use in self.yarns if use.supplied.id == name)


def estimate(fabric: Fabric, measures: Measures, asked: Asked = Asked()) -> Estimate:
    """Estimate the yarn of a fabric. `measures`: of the same fabric, by `hookwright.measuring.measure`.

    Raises YarnError for facts that cannot be: a ball without mass or length, a sequence longer than its ball, less than nothing of
    anything.
    """
    facts = fabric.pattern.facts
    supplied, yarn_of = supply(fabric)
    hook, no_hook = hook_of(facts, supplied.values())
    hands = {name: _hand(name, fabric, measures, supplied, hook, asked) for name in supplied}
    _share_hands(hands, supplied)
    worked = {name: Worked(name, s.worked_m_per_100g, s.strands) for name, s in supplied.items()}
    threader = Threader(worked, yarn_of, {**_part_hooks(fabric), **asked.hooks}, hook, {name: hand.factor for name, hand in hands.items()})
    threads = tuple(_thread(threader, fabric, measures, p) for p in range(len(fabric.parts)))
    trims = tuple(trim_use(trim, yarn=yarn_of.get(trim.yarn) or next(iter(supplied))) for trim in facts.trims if trim.number)
    ends = _ends(fabric, yarn_of)
    tail = constants().end_m if asked.tail_m is None else asked.tail_m
    uses = tuple(_use(s, threads, ends, trims, hands[name], hook, tail) for name, s in supplied.items())
    rows, parts = _rows(threads), _parts(fabric, threads, yarn_of, supplied, tail)
    return Estimate(
        fabric=fabric, size=fabric.size, size_name=facts.size_names[fabric.size] if fabric.size < len(facts.size_names) else "",
        yarns=uses, rows=rows, parts=parts, trims=trims, threads=threads, ends=ends, yarn_of=yarn_of,
        hours=hours(_made(fabric, threads), pace=asked.pace or facts.pace, ends=2 * sum(_count(ends).values()), trims=_trim_numbers(trims),
                    a_day=asked.a_day),
        because=tuple(_because(fabric, measures, uses, threads, trims, no_hook, hook)),
    )  # fmt: skip


def _thread(threader: Threader, fabric: Fabric, measures: Measures, p: int) -> PartThread:
    rows = measures.parts[p].rows
    return threader.part(fabric, p, [row.area_cm2 for row in rows], [row.chain_cm for row in rows])


def _part_hooks(fabric: Fabric) -> dict[str, float]:
    """Hooks of single parts from the front matter: `hooks: {Edging: 4 mm}` (kept among the notes)."""
    told = fabric.pattern.facts.notes.get("hooks")
    if not isinstance(told, Mapping):
        return {}
    from .amounts import hook_mm

    return {str(part): hook_mm(str(size)) for part, size in told.items()}


def _hand(name: str, fabric: Fabric, measures: Measures, supplied: Mapping[str, Supplied], hook: float, asked: Asked) -> Hand:
    own = supplied[name]
    told: list[Weighing] = []
    for number, swatch in enumerate((s for s in fabric.pattern.facts.swatches if s.yarn in ("", name)), 1):
        if not (swatch.stitches > 0 and swatch.rows > 0):
            raise YarnError(f"Swatch {number} of yarn {name} has no stitches or no rows.")
        scale = measures.scale
        width = swatch.stitches * scale.width_cm(swatch.stitch)
        area = width * swatch.rows * scale.height_cm(swatch.stitch)
        density = metres_per_cm2(own.worked_m_per_100g, hook, relief=float(is_relief(swatch.stitch)))
        expected = own.strands * (area * density + constants().chain_per_length * width / 100)
        kind: Kind = "swatch" if _main_stitch(fabric, swatch.stitch) else "other-stitch"
        told.append(
            Weighing(
                kind=kind, grams=swatch.grams, expected_m=expected, m_per_g=own.m_per_100g / 100, scale_g=asked.scale_g,
                name=f"swatch of {swatch.stitches:g} {swatch.stitch} x {swatch.rows:g} rows",
            )
        )  # fmt: skip
    return update([*told, *asked.weighings.get(name, ())], unmeasured())


def _main_stitch(fabric: Fabric, stitch: str) -> bool:
    made: Counter[str] = Counter()
    for part in fabric.parts:
        for row in part.rows:
            made.update(row.counted.by_kind)
    return made[stitch] * 2 >= sum(made.values())


def _share_hands(hands: dict[str, Hand], supplied: Mapping[str, Supplied]) -> None:
    """A yarn nobody weighed takes the hand of a weighed one of the same thickness (another colour of it)."""
    weighed = [name for name, hand in hands.items() if hand.weighed]
    for name, hand in hands.items():
        if not hand.weighed:
            like = [w for w in weighed if abs(supplied[w].worked_m_per_100g / supplied[name].worked_m_per_100g - 1) < 0.03]
            if like:
                hands[name] = hands[like[0]]


def _ends(fabric: Fabric, yarn_of: Mapping[str, str]) -> tuple[dict[str, int], ...]:
    """Strands by yarn for one copy of each part; a part that continues goes on with the yarn at hand."""
    out: list[dict[str, int]] = []
    goes_on = {written.name for written in fabric.pattern.parts if written.continues}
    for p, part in enumerate(fabric.parts):
        each = strands(fabric, p, yarn_of)
        if p and part.name in goes_on and part.rows:
            first = next((yarn_of[row.stitches.colours[0]] for row in part.rows if len(row.stitches)), None)
            if first is not None and out[-1].get(first):
                each[first] = max(0, each.get(first, 0) - 1)
        out.append(each)
    return tuple({name: many * part.copies for name, many in each.items()} for each, part in zip(out, fabric.parts, strict=True))


def _count(ends: Iterable[Mapping[str, int]]) -> dict[str, int]:
    total: Counter[str] = Counter()
    for each in ends:
        total.update(each)
    return dict(total)


def _use(
    s: Supplied,
    threads: Sequence[PartThread],
    ends: Sequence[Mapping[str, int]],
    trims: Sequence[TrimUse],
    hand: Hand,
    hook: float,
    tail: float,
) -> YarnUse:
    whole = sum(part.copies * row.metres.get(s.id, 0.0) for part in threads for row in part.rows)
    chains = sum(part.copies * row.chains.get(s.id, 0.0) for part in threads for row in part.rows)
    ended = 2 * tail * s.strands * sum(each.get(s.id, 0) for each in ends)
    trimmed = sum(use.metres for use in trims if use.yarn == s.id)
    balls = count_balls(s.ball, whole, hand.sd, ended + trimmed) if s.ball else None
    joined = JOIN_M * max(0, -(-(whole + ended + trimmed) // s.ball.metres) - 1) if s.ball else 0.0
    fixed = ended + trimmed + joined
    metres = Range.around(whole, hand.metres_sd, fixed=fixed)
    return YarnUse(
        supplied=s, metres=metres, grams=Range.around(whole, hand.sd, fixed=fixed).times(100 / s.m_per_100g), balls=balls, hand=hand,
        of_which={"rows": whole - chains, "chains": chains, "ends": ended, "trims": trimmed, "joins": joined},
        apart={"swatch": s.strands * 225 * metres_per_cm2(s.worked_m_per_100g, hook) * hand.factor},
    )  # fmt: skip


def _rows(threads: Sequence[PartThread]) -> tuple[RowUse, ...]:
    out: list[RowUse] = []
    before = 0.0
    for part in threads:
        here = 0.0
        for row in part.rows:
            here += row.total
            out.append(
                RowUse(part=part.name, label=row.row.label, number=row.row.number, copies=part.copies, metres=row.total, by_yarn=row.metres,
                       so_far=before + here)
            )  # fmt: skip
        before += here * part.copies
    return tuple(out)


def _parts(
    fabric: Fabric, threads: Sequence[PartThread], yarn_of: Mapping[str, str], supplied: Mapping[str, Supplied], tail: float
) -> tuple[PartUse, ...]:
    out = []
    for part, each in zip(threads, _ends(fabric, yarn_of), strict=True):
        by: dict[str, float] = {}
        for row in part.rows:
            for name, metres in row.metres.items():
                by[name] = by.get(name, 0.0) + metres
        for name, many in each.items():
            by[name] = by.get(name, 0.0) + 2 * tail * supplied[name].strands * many / max(1, part.copies)
        out.append(
            PartUse(name=part.name, copies=part.copies, metres_each=sum(by.values()), by_yarn=by, area_cm2=part.area_cm2,
                    openness=part.openness, relief=part.relief, hook_mm=part.hook_mm)
        )  # fmt: skip
    return tuple(out)


def _made(fabric: Fabric, threads: Sequence[PartThread]) -> dict[str, float]:
    made: Counter[str] = Counter()
    for part, thread in zip(fabric.parts, threads, strict=True):
        for row, drawn in zip(part.rows, thread.rows, strict=True):
            made.update({kind: n * part.copies for kind, n in row.counted.made.items()})
            made["ch"] += drawn.drawn.chains * part.copies
    return {kind: float(n) for kind, n in made.items() if n}


def _trim_numbers(trims: Sequence[TrimUse]) -> dict[str, int]:
    total: Counter[str] = Counter()
    for use in trims:
        total[use.kind] += use.number
    return dict(total)


def _because(
    fabric: Fabric,
    measures: Measures,
    uses: Sequence[YarnUse],
    threads: Sequence[PartThread],
    trims: Sequence[TrimUse],
    no_hook: str,
    hook: float,
) -> Iterable[str]:
    c = constants()
    yield from measures.assumed
    if no_hook:
        yield no_hook
    for use in uses:
        yield from use.supplied.assumed
        outside = outside_the_tried(use.supplied.worked_m_per_100g, hook)
        if outside:
            yield outside
    for part in threads:
        if part.area_cm2:
            extra = f", open x {c.lace**part.openness:.2f}" if part.openness else ""
            extra += f", relief x {c.relief**part.relief:.2f}" if part.relief else ""
            yield f"{part.name}: {part.area_cm2:.0f} cm² by gauge, {part.hook_mm:.3g} mm hook{extra}" + (
                f", {part.copies} times." if part.copies > 1 else "."
            )
    yield from _both_states(fabric, measures)
    yield (
        f"Metres = area x {c.k_m_per_cm2:.3f} x (m per 100 g / 200)^¼ x √(5 / hook), fitted on {c.pieces} published pieces; "
        f"a source left out is missed by {c.left_out_mdape_percent:.0f} % in the middle. The foundation chain "
        f"({c.chain_per_length:g} x its length) "
        "and two ends for each strand are added."
    )
    for name, hand in {use.supplied.id: use.hand for use in uses}.items():
        yield from (f"Yarn {name}: {line}" for line in hand.because)
    yield from (f"{use.working}{''.join(f' ({a})' for a in use.assumed)}." for use in trims)
    if trims:
        yield CAUTION
    if any(use.balls and use.balls.buy > 1 for use in uses):
        yield "Buy all balls of a colour from one dye lot."


def _both_states(fabric: Fabric, measures: Measures) -> Iterable[str]:
    """Sizes before and after blocking, when the gauge is given for both."""
    states = {gauge.blocked for gauge in fabric.pattern.facts.gauge}
    if not {True, False} <= states:
        return
    from ..measuring import measure

    for blocked, words in ((False, "before"), (True, "after")):
        told = measure(fabric, blocked=blocked)
        for part in told.parts:
            yield f"{part.name} {words} blocking: {both_lengths(part.width_cm)} x {both_lengths(part.length_cm)}."
