"""From gauge to centimetres: the width and the height of every kind of stitch in one piece."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from ..pattern import Facts, Gauge
from ..working.fabric import Fabric
from .ratios import HOOK_MM, WIDTH_OVER_HOOK, height_over_width, known, plain, width_ratio

IN_STITCHES = frozenset({"", "st", "sts", "stitch", "stitches", "pattern", "patt"})
"""What a gauge is measured in when no stitch is named."""


@dataclass(frozen=True, slots=True)
class Scale:
    """Widths and heights in cm. `own`: kinds with a gauge of their own; the rest go by ratio from `unit_cm`, the width of a plain stitch.

    `stretch` multiplies heights that go by ratio, so that the stitch that does have a gauge keeps its own.
    """

    unit_cm: float
    stretch: float = 1.0
    own: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    assumed: tuple[str, ...] = ()
    by_ratio: frozenset[str] = frozenset()
    """Kinds in `own` whose height goes by ratio, since their gauge told no rows."""
    tile_cm: float | None = None
    """The side of a block of a piece worked from corner to corner, where the gauge tells it."""

    def width_cm(self, kind: str) -> float:
        """Width of one stitch (or of one chain between stitches) of `kind`."""
        found = self._own(kind)
        return found[0] if found else self.unit_cm * width_ratio(kind)

    def height_cm(self, kind: str) -> float:
        """Height that a row of `kind` adds."""
        found = self._own(kind)
        if found is None:
            return self.unit_cm * self.stretch * height_over_width(kind)
        if plain(kind) == kind or kind in self.own:
            return found[1]
        return found[1] * height_over_width(kind) / height_over_width(plain(kind))

    def area_cm2(self, kind: str) -> float:
        """Area of one stitch of `kind`: width times height."""
        return self.width_cm(kind) * self.height_cm(kind)

    def measured(self, kind: str) -> bool:
        """Whether the pattern's own gauge tells both width and height of `kind`."""
        return self._own(kind) is not None and kind not in self.by_ratio and plain(kind) not in self.by_ratio

    def _own(self, kind: str) -> tuple[float, float] | None:
        return self.own.get(kind) or (self.own.get(plain(kind)) if width_ratio(kind) == 1.0 else None)


def kinds_of(fabric: Fabric) -> Counter[str]:
    """How many stitches of every exact kind a fabric holds, most frequent first where asked."""
    found: Counter[str] = Counter()
    for part in fabric.parts:
        for row in part.rows:
            if not row.foundation:
                found.update(row.counted.made)
    return found


def scale_of(fabric: Fabric, *, blocked: bool | None = None) -> Scale:
    """The scale of a fabric, from the gauges its pattern gives. `blocked`: prefer gauges measured so; None takes the first."""
    facts = fabric.pattern.facts
    kinds = kinds_of(fabric)
    if not kinds:
        kinds = Counter({next((plain(gauge.stitch) for gauge in facts.gauge if known(gauge.stitch)), "dc"): 1})
    gauges = [gauge for gauge in _wanted(facts.gauge, blocked) if gauge.stitches > 0 and gauge.over_cm > 0]
    named = {gauge.stitch: gauge for gauge in reversed(gauges) if known(gauge.stitch)}
    if named:
        first = next(gauge for gauge in gauges if gauge.stitch in named)
        return _from_named(first, named, kinds)
    general = [gauge for gauge in gauges if gauge.stitch.lower() in IN_STITCHES]
    if general:
        return _from_fabric(general[0], fabric, kinds)
    return _from_hook(facts, kinds, tuple(gauge.stitch for gauge in gauges))


def _wanted(gauges: Iterable[Gauge], blocked: bool | None) -> list[Gauge]:
    gauges = list(gauges)
    if blocked is None:
        return gauges
    return [gauge for gauge in gauges if gauge.blocked is blocked] or [gauge for gauge in gauges if gauge.blocked is None] or gauges


def _from_named(first: Gauge, named: Mapping[str, Gauge], kinds: Counter[str]) -> Scale:
    unit = first.width_cm / width_ratio(first.stitch)
    own: dict[str, tuple[float, float]] = {}
    assumed: list[str] = []
    by_ratio: set[str] = set()
    stretch = 1.0 if first.height_cm is None else first.height_cm / (unit * height_over_width(first.stitch))
    for stitch, gauge in named.items():
        height = gauge.height_cm
        if height is None:
            height = gauge.width_cm * stretch * height_over_width(stitch)
            by_ratio.add(stitch)
            assumed.append(f"height of {stitch}: {height_over_width(stitch):.2f} x its width, no row gauge given")
        own[stitch] = (gauge.width_cm, height)
    least = sum(kinds.values()) / 200  # a closing slip stitch or two are not worth a word
    others = sorted({plain(kind) for kind, n in kinds.items() if n >= least} - {plain(stitch) for stitch in own})
    assumed += [_by_ratio(kind, first.stitch) for kind in others]
    return Scale(unit, stretch, own, tuple(assumed), frozenset(by_ratio))


def _by_ratio(kind: str, measured: str) -> str:
    if not known(kind):
        return f"{kind}: taken as tall as a dc, its own height is not known"
    times = height_over_width(kind) / height_over_width(measured)
    return f"{kind}: as wide as {measured} and {times:.2f} times as tall, no gauge of its own given"


def _from_fabric(gauge: Gauge, fabric: Fabric, kinds: Counter[str]) -> Scale:
    """A gauge told in "sts" or "in pattern": the mean stitch and the mean row of this very fabric have it."""
    many = sum(kinds.values())
    unit = gauge.width_cm * many / sum(width_ratio(kind) * n for kind, n in kinds.items())
    mean = _mean_row_height(fabric)
    if gauge.height_cm is None:
        return Scale(unit, assumed=(f"row height: {mean:.2f} x the stitch's width, no row gauge given",))
    told = f'the gauge is told in "{gauge.stitch or "sts"}"'
    only = next(iter(kinds)) if len(kinds) == 1 else "the stitches of this piece, on the mean"
    stretch = gauge.height_cm / (unit * mean)
    own = {kind: (unit * width_ratio(kind), unit * stretch * height_over_width(kind)) for kind in kinds}
    return Scale(unit, stretch, own, (f"{told}: taken for {only}",))


def _mean_row_height(fabric: Fabric) -> float:
    heights = [
        sum(height_over_width(kind) * n for kind, n in row.counted.made.items()) / sum(row.counted.made.values())
        for part in fabric.parts
        for row in part.rows
        if not row.foundation and any(row.counted.made.values())
    ]
    return sum(heights) / len(heights) if heights else height_over_width("dc")


def _from_hook(facts: Facts, kinds: Counter[str], unusable: tuple[str, ...]) -> Scale:
    hook = facts.hook_mm or HOOK_MM
    told = f"the {hook:g} mm hook" if facts.hook_mm else f"a {HOOK_MM:g} mm hook, none is told"
    why = f"the gauge is told in {', '.join(unusable)}, which cannot be turned into stitches" if unusable else "no gauge given"
    assumed = [f"{why}: one stitch taken as {WIDTH_OVER_HOOK:g} x {told}; sizes may be 20 % off"]
    assumed += [f"{kind}: {height_over_width(kind):.2f} times as tall as wide" for kind in sorted({plain(kind) for kind in kinds})]
    return Scale(hook / 10 * WIDTH_OVER_HOOK, assumed=tuple(assumed))
