"""Rounds: girth, growth and how the piece lies, by arithmetic alone.

A flat round piece must grow in girth by 2 pi times the height of each round; with corners (increases stacked one over the other, k of
them) a polygon grows by 2 k tan(pi/k) times the height, so anything between the two lies flat. Sources: Getting your circles flat (Crafty
Maria, http://craftymaria.blogspot.com/2009/06/getting-your-circles-flat.html) for "too few cup, too many ruffle"; the rest is geometry.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from ..pattern import FLAT
from ..working.fabric import How, PartWork, RowWork, Stitches
from .corners import corner_chains, corners_of
from .edging import SLACK
from .elements import Laid, chain_runs
from .ratios import FLAT_GROWTH, plain
from .scale import Scale

Lies: TypeAlias = Literal["flat", "cups", "ruffles", "tube", "closed", "unknown"]

BOTH: Final = 0.6
"""A chain is worked along both its sides where this share of its places is worked into on the way there and on the way back."""
LEAST_BASE: Final = 3
"""Rounds below which a bottom is only the beginning of a dome."""
BASE_GROWS: Final = 0.6
WALL_GROWS: Final = 0.35
"""Growth of girth, over a flat piece's, above which a round still widens a bottom, and below which it belongs to the walls (judgements)."""
FEWEST: Final = 3
"""Chains worked into below which it is a round on a chain or two, not an oval."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundMeasure:
    """One round. `flat_low` … `flat_high`: the stitches with which it would lie flat on flat rounds (the fabric's slack not included)."""

    index: int
    label: str
    stitches: int
    girth_cm: float
    height_cm: float
    reach_cm: float
    """How far the round's top lies from where the rounds began, along the fabric."""
    growth: float
    """Growth of girth over that of a flat piece, for this round alone (0 a tube, 1 flat)."""
    fullness: float
    """Girth over that of a flat piece at this reach: below 1 it cups, above 1 it ruffles."""
    flat_low: float
    flat_high: float
    lies: Lies

    @property
    def excess(self) -> int:
        """Stitches too many (+) or too few (-) to lie flat; 0 where flat."""
        if self.stitches > self.flat_high + 0.5:
            return self.stitches - round(self.flat_high)
        if self.stitches < self.flat_low - 0.5:
            return self.stitches - round(self.flat_low)
        return 0

    @property
    def would_lie_flat(self) -> int:
        """The number of stitches nearest to this round's that lies flat."""
        return self.stitches - self.excess


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundsMeasure:
    """All rounds of a part. `growth_last_half` is the growth of girth over that of a flat piece, over the last half of the reach."""

    rounds: tuple[RoundMeasure, ...]
    lies: Lies
    because: str
    corners: int
    """Corners that stacked increases make (0: none, or so many that they do not show)."""
    growth_last_half: float
    diameter_cm: float
    girth_cm: float
    height_cm: float | None
    """How high it stands when it is no flat piece (as a surface of revolution)."""
    start_girth_cm: float
    """The girth that Round 1 stands on: 0 on a ring."""
    spine_cm: float = 0.0
    """The chain in the middle of an oval, worked into along both its sides; `diameter_cm` is then its width across the chain."""
    ends_cm: float = 0.0
    """What both ends of an oval add to its chain: its length is the two together."""
    slack_stitches: tuple[int, int] | None
    """For a flat piece: how many stitches fewer, and more, the last round could have and still be taken up."""

    @property
    def flat_base(self) -> int:
        """How many first rounds of a cup are a flat bottom (or crown) that its walls stand on: they grow as flat rounds do, then growth
        stops. 0 of any other piece."""
        if self.lies != "cups" or self.start_girth_cm > 0 or self.spine_cm > 0:
            return 0
        grown = 0
        while grown < len(self.rounds) and (grown == 0 or (self.rounds[grown].lies == "flat" and self.rounds[grown].growth > BASE_GROWS)):
            grown += 1  # what Round 1 alone has too few or too many is taken up
        walls = [each.growth for each in self.rounds[grown:]]
        return grown if grown >= LEAST_BASE and len(walls) > 1 and max(walls[:2]) < WALL_GROWS else 0

    @property
    def base_across_cm(self) -> float:
        """How far the flat bottom is across (of a polygon, across its flats); 0 where there is none."""
        return _flat_diameter(self.rounds[self.flat_base - 1], self.start_girth_cm, 0.0) if self.flat_base else 0.0

    @property
    def from_top(self) -> bool:
        """Whether it is drawn from the top down, as a hat is worked: a cup that is narrower where it begins than where it ends."""
        return self.lies == "cups" and self.start_girth_cm < self.rounds[-1].girth_cm


@dataclass(frozen=True, slots=True)
class Band:
    """What is called flat: girth from `low` to `high` times that of a flat piece. `because`: where the band comes from."""

    low: float = 1 - SLACK
    high: float = 1 + SLACK
    because: str = ""

    def lies(self, fullness: float) -> Lies:
        if fullness < self.low - 1e-9:
            return "cups"
        return "ruffles" if fullness > self.high + 1e-9 else "flat"


def band_of(part: PartWork, scale: Scale) -> Band:
    """The fabric's slack; where the stitch has no gauge of its own, also what handbooks call flat for it over all gauges."""
    made: Counter[str] = Counter()
    for row in part.rows:
        made.update(row.counted.made)
    main = plain(made.most_common(1)[0][0]) if made else ""
    if main not in FLAT_GROWTH or scale.measured(main):
        return Band()
    low, high = (n * scale.width_cm(main) / (math.tau * scale.height_cm(main)) for n in FLAT_GROWTH[main])
    few, many = FLAT_GROWTH[main]
    told = f"handbooks call {few:g} to {many:g} {main} a round flat, and no gauge of its own is given for {main}"
    return Band(min(1 - SLACK, low), max(1 + SLACK, high), told)


def first_ruffled(rounds: Sequence[RoundMeasure]) -> RoundMeasure | None:
    """The first round with too many stitches to lie flat whose next round (if any) has too many as well: one alone is taken up."""
    return _first_lasting(rounds, "ruffles")


def first_cupped(rounds: Sequence[RoundMeasure]) -> RoundMeasure | None:
    """The first round with too few stitches to lie flat whose next round (if any) has too few as well."""
    return _first_lasting(rounds, "cups")


def _first_lasting(rounds: Sequence[RoundMeasure], lies: Lies) -> RoundMeasure | None:
    for here, following in zip(rounds, [*rounds[1:], rounds[-1]], strict=True):
        if here.lies == following.lies == lies and abs(here.excess) > 1:
            return here
    return None


def measure_rounds(part: PartWork, laid: Sequence[Laid], scale: Scale) -> RoundsMeasure | None:
    """How the rounds of a part lie, or None when it has none."""
    rows = [row for row in part.rows if row.made_in not in FLAT and not row.foundation and laid[row.index].total_cm > 0]
    if not rows:
        return None
    band = band_of(part, scale)
    corners = corners_of([row.stitches for row in rows])
    spine = _spine(part, rows[0].index, laid)
    if spine and corners != 4:
        corners = 0  # the increases of an oval stand at its two ends, and round them off
    start = 2 * spine or _start_girth(part, rows[0].index, laid)
    factor = _flat_factor(corners)
    reach, before, made = 0.0, start, list[RoundMeasure]()
    below: Stitches | None = None
    for row in rows:
        here = laid[row.index]
        height = here.height_cm
        reach += height
        low, high = start + math.tau * reach, start + factor * reach + _turning(row.stitches, below, here, corners)
        below = row.stitches
        step = here.total_cm - before
        unit = here.total_cm / max(1, row.counted.total)
        fullness = _beside(here.total_cm, low, high)
        made.append(
            RoundMeasure(
                index=row.index, label=row.label, stitches=row.counted.total, girth_cm=here.total_cm, height_cm=height, reach_cm=reach,
                growth=_beside(step, math.tau * height, factor * height), fullness=fullness, flat_low=low / unit, flat_high=high / unit,
                lies=band.lies(fullness),
            )
        )  # fmt: skip
        before = here.total_cm
    return _whole(tuple(made), start, factor, corners, band, spine)


def _turning(st: Stitches, below: Stitches | None, laid: Laid, corners: int) -> float:
    """Half the length of the chains that turn corners: they cut across them and do not lie along the round (a judgement, no source)."""
    if not corners:
        return 0.0
    if below is None:
        runs = list(chain_runs(st, len(st)))
        return sum(laid.width_cm[i] for first, last in runs for i in range(first, last)) / 2 if len(runs) == corners else 0.0
    return sum(laid.width_cm[i] for i in corner_chains(st, below)) / 2


def _flat_factor(corners: int) -> float:
    return 2 * corners * math.tan(math.pi / corners) if corners >= 3 else math.tau


def _beside(value: float, low: float, high: float) -> float:
    """Value over the nearer end of a range; 1 inside it."""
    if high <= 0:
        return 1.0
    return value / low if value < low else value / high if value > high else 1.0


def _start_girth(part: PartWork, first: int, laid: Sequence[Laid]) -> float:
    """The girth the rounds begin with: 0 on a ring or in one chain, the chain's own length on a chain."""
    row = part.rows[first]
    if begins_in_ring(part, row):
        return 0.0
    if row.below is None or not laid[row.below].total_cm:
        return laid[first].total_cm  # it stands on another piece, or on nothing that is known: as wide as itself
    return laid[row.below].total_cm


def begins_in_ring(part: PartWork, row: RowWork) -> bool:
    """Whether a row stands in a ring, or as a round all in one chain ("6 sc in 2nd ch from hook"), which draws up to the same."""
    st = row.stitches
    if row.foundation:
        return False
    if int(How.RING) in st.foot_how:
        return True
    if row.made_in in FLAT or row.below is None or not 0 <= row.below < len(part.rows) or not part.rows[row.below].foundation:
        return False
    feet = {(back, at) for i in st.counted() for back, at, _ in st.feet_of(i)}
    return len(feet) == 1 and row.counted.total > 1


def _spine(part: PartWork, first: int, laid: Sequence[Laid]) -> float:
    """The length of a foundation chain that the first round is worked into along both its sides; 0 of any other."""
    row = part.rows[first]
    if row.below is None or not part.rows[row.below].foundation or not laid[row.below].total_cm:
        return 0.0
    feet = zip(row.stitches.foot_at, row.stitches.foot_back, strict=True)
    places = [at for at, back in feet if row.index - back == row.below]
    if not places:
        return 0.0
    turn = places.index(min(places))
    there, back = set(places[: turn + 1]), set(places[turn:])
    worked = there | back
    if len(worked) < FEWEST or len(there & back) < BOTH * len(worked):
        return 0.0
    return float(laid[row.below].width_cm[0]) * (len(worked) - 1)


def _whole(rounds: tuple[RoundMeasure, ...], start: float, factor: float, corners: int, band: Band, spine: float) -> RoundsMeasure:
    last, widest = rounds[-1], max(rounds, key=lambda each: each.girth_cm)
    growth = _growth_last_half(rounds, start, factor)
    lies, because = _judge(rounds, start, growth, band)
    height = None if lies in ("flat", "ruffles") else _standing_height(rounds, start)
    slack = None
    if lies == "flat":
        slack = (
            max(0, math.floor(last.stitches - band.low * last.flat_low + 1e-9)),
            max(0, math.floor(band.high * last.flat_high - last.stitches + 1e-9)),
        )
    return RoundsMeasure(
        rounds=rounds, lies=lies, because=because, corners=corners, growth_last_half=growth,
        diameter_cm=_diameter(lies, last, widest, start, spine), spine_cm=spine, ends_cm=_ends_cm(lies, last, spine),
        girth_cm=widest.girth_cm, height_cm=height, start_girth_cm=start, slack_stitches=slack,
    )  # fmt: skip


def _growth_last_half(rounds: tuple[RoundMeasure, ...], start: float, factor: float) -> float:
    """Over the rounds of the outer half of the reach (a ball's are those after its equator)."""
    reach = rounds[-1].reach_cm
    inner, inner_reach = start, 0.0
    for each in rounds:
        if each.reach_cm > reach / 2 + 1e-9:
            break
        inner, inner_reach = each.girth_cm, each.reach_cm
    rise = reach - inner_reach
    return _beside(rounds[-1].girth_cm - inner, math.tau * rise, factor * rise)


def _judge(rounds: tuple[RoundMeasure, ...], start: float, growth: float, band: Band) -> tuple[Lies, str]:
    last, widest = rounds[-1], max(each.girth_cm for each in rounds)
    told = f"over the outer half the girth grows {growth:.2f} times as fast as a flat piece's"
    if start == 0 and last.girth_cm < 0.5 * widest and last.girth_cm < 2.2 * math.tau * last.height_cm:
        return "closed", f"it begins in a ring and ends in {last.stitches} stitches"
    narrowest = min([start or widest, *(each.girth_cm for each in rounds)])
    if start > 0 and narrowest > 0.75 * widest and abs(growth) < 0.35:
        return "tube", "every round has about the girth it began with"
    by_growth, by_girth = band.lies(growth), band.lies(last.fullness)
    if by_growth == "flat" and by_girth == "flat":
        return "flat", f"{told}; {band.because}" if band.because else told
    lean = (1 + (band.low if by_growth == "cups" else band.high)) / 2
    if by_growth != "flat" and (last.fullness < lean if by_growth == "cups" else last.fullness > lean):
        return by_growth, told
    return by_girth, f"the last round has {last.fullness:.2f} times the girth of a flat piece"


def _standing_height(rounds: tuple[RoundMeasure, ...], start: float) -> float:
    """The piece as a surface of revolution: each round rises by what its height has left after going outward."""
    radius, high, low, z = start / math.tau, 0.0, 0.0, 0.0
    for each in rounds:
        out = each.girth_cm / math.tau - radius
        z += math.sqrt(max(0.0, each.height_cm**2 - out**2))
        radius = each.girth_cm / math.tau
        high, low = max(high, z), min(low, z)
    return high - low


def _diameter(lies: Lies, last: RoundMeasure, widest: RoundMeasure, start: float, spine: float) -> float:
    """Across a flat piece; of a ruffled one twice its reach (its rim is longer than any circle there); else of its widest round."""
    if lies == "flat":
        return _flat_diameter(last, start, spine)
    if lies == "ruffles":
        return 2 * last.reach_cm + (0.0 if spine else start / math.pi)
    return widest.girth_cm / math.pi


def _flat_diameter(last: RoundMeasure, start: float, spine: float) -> float:
    """The diameter of a flat piece (of a polygon across its flats, of an oval across): between what its heights and its girth would have.

    Equal stiffness along and across: with q = girth over 2 pi reach, the radius is (q2 + q)/(q2 + 1) times the reach. Along the straight
    sides of an oval stitches stand upright on its chain, however full its ends are: across, it is as wide as its rounds are high.
    """
    q, across = last.fullness, 2 * last.reach_cm + start / math.pi
    return 2 * last.reach_cm if spine else across * (q * q + q) / (q * q + 1)


def _ends_cm(lies: Lies, last: RoundMeasure, spine: float) -> float:
    """How much both ends of an oval add to its chain: short of a flat piece's girth they are drawn in to what their girth goes round.

    Their girth is that of the last round without the straight sides; q its share of a flat piece's. Checked against the solved ovals
    (`tests/unit/measuring/test_ovals.py`).
    """
    if not spine or last.reach_cm <= 0:
        return 0.0
    flat = last.girth_cm / last.fullness - 2 * spine if last.fullness > 0 else 0.0
    q = max((last.girth_cm - 2 * spine) / flat, 0.0) if flat > 0 else 1.0
    if lies != "flat":
        return 2 * last.reach_cm
    return 2 * last.reach_cm * (q if q < 1 else (q * q + q) / (q * q + 1))
