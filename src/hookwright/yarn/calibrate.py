"""What a weighed swatch, row, sample or another maker's report tells about this maker's yarn: a Bayesian update in closed form.

The unknown is theta = log(her metres / the model's). Before anything is weighed theta has mean 0 and the published spread (nine hands of
ten
within x/÷1.4). Every weighing is theta plus an error of known size, so the posterior is the precision-weighted mean: no fitting, no chance.
Weighings of one kind share a floor (a label's tolerance, the way a swatch differs from a piece), which no number of swatches removes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, TypeAlias

from .amounts import YarnError
from .model import constants

Kind: TypeAlias = Literal["swatch", "other-stitch", "row", "sample", "report"]

DRIFT_SD = 0.04
"""One swatch against the piece, same stitch, yarn and hook: tension drift 4 %. Simulated, not measured on real pieces."""
FLOOR_SD = 0.02
"""What no number of swatches removes: edge effects 1.5 % and the rounding of sizes (simulated)."""
LABEL_SD = 0.03
"""A label's metres per gram: tolerance 3 % (assumed in the same simulation)."""
SAMPLE_SD = 0.02
"""The finished sample against a second piece by the same hands (two sizes of one published design differ by 0.3 %; kept wider)."""
ROW_SD = 0.05
"""One row against the whole piece: tension from row to row (from memory)."""
REPORT_SD = 0.15
"""Another maker's whole piece: her hands are not yours (spread between makers less a common design; from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """One thing weighed. `expected_m` what the model says is in it, `grams` what the scale said, `m_per_g` of the label.

    `scale_g`: the scale's step. `kind`: a swatch in the stitch of the piece, in another stitch, a row, the finished sample, another maker's
    report. `name` says which, for the working.
    """

    kind: Kind
    grams: float
    expected_m: float
    m_per_g: float
    scale_g: float = 1.0
    name: str = ""

    def __post_init__(self) -> None:
        if not self.grams > 0:
            raise YarnError(f"{self.name or 'The ' + self.kind} weighs {self.grams:g} g: a weighing must be greater than nothing.")
        if not (self.expected_m > 0 and self.m_per_g > 0):
            raise YarnError(f"{self.name or 'The ' + self.kind} cannot be compared: its size or its yarn's metres per gram are not known.")

    @property
    def log_ratio(self) -> float:
        """log(metres weighed / metres the model expected)."""
        return math.log(self.grams * self.m_per_g / self.expected_m)

    @property
    def sd(self) -> float:
        """The error of this weighing alone: the hand's, and the scale's rounding (a step over root 12, twice for a row: before and
        after)."""
        hand = {"swatch": DRIFT_SD, "other-stitch": constants().sibling_sd, "row": ROW_SD, "sample": SAMPLE_SD, "report": REPORT_SD}[
            self.kind
        ]
        readings = 2 if self.kind == "row" else 1
        scale = self.scale_g * math.sqrt(readings / 12) / self.grams
        return math.hypot(hand, scale)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """What is known of this maker in this yarn. `mean` and `sd` of theta for grams; `label_sd` comes on top when metres are asked for."""

    mean: float
    sd: float
    label_sd: float = 0.0
    weighed: int = 0
    because: tuple[str, ...] = ()

    @property
    def factor(self) -> float:
        """Her yarn over the model's."""
        return math.exp(self.mean)

    @property
    def metres_sd(self) -> float:
        return math.hypot(self.sd, self.label_sd)


def unmeasured() -> Hand:
    """A maker nobody has weighed anything for: the published spread."""
    sd = constants().sd
    return Hand(mean=0.0, sd=sd, because=(f"Nothing weighed yet: nine hands of ten lie within x/÷{math.exp(1.645 * sd):.2f}.",))


def update(weighings: Iterable[Weighing], before: Hand | None = None) -> Hand:
    """The hand after these weighings, with every step of the arithmetic in `because`.

    >>> after = update([Weighing(kind="swatch", grams=11, expected_m=20, m_per_g=2.0, scale_g=0.1)])
    >>> round(after.factor, 3), round(after.metres_sd, 3)
    (1.096, 0.053)
    """
    before = before or unmeasured()
    told = list(weighings)
    if not told:
        return before
    said = [f"Before: log factor {before.mean:+.3f}, sd {before.sd:.3f}."]
    precision, total = 1 / before.sd**2, before.mean / before.sd**2
    for weighing in told:
        weight = 1 / weighing.sd**2
        precision += weight
        total += weight * weighing.log_ratio
        said.append(
            f"{weighing.name or weighing.kind}: {weighing.grams:g} g x {weighing.m_per_g:.3f} m/g = "
            f"{weighing.grams * weighing.m_per_g:.1f} m "
            f"against {weighing.expected_m:.1f} m expected: log ratio {weighing.log_ratio:+.3f}, sd {weighing.sd:.3f}, weight {weight:.0f}."
        )
    mean, alone = total / precision, math.sqrt(1 / precision)
    sd = math.hypot(alone, _floor(told))
    said.append(
        f"After: log factor {mean:+.3f} (x {math.exp(mean):.3f}); sd {alone:.3f}, with the floor that no more swatches remove {sd:.3f}: "
        f"nine of ten within x/÷{math.exp(1.645 * math.hypot(sd, LABEL_SD)):.2f} in metres."
    )
    return Hand(mean=mean, sd=sd, label_sd=LABEL_SD, weighed=before.weighed + len(told), because=tuple(said))


def _floor(told: list[Weighing]) -> float:
    """What the kind of thing weighed can never tell about the piece: the piece's own drift from any swatch; none for the sample itself."""
    return 0.0 if any(weighing.kind == "sample" for weighing in told) else FLOOR_SD
