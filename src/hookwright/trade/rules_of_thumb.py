"""What handbooks say about circles, squares and starting chains: to check computed shapes against, never to compute them from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import pi

from ._load import ranged, records


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A flat circle in one stitch: the customary start and increase of each round, and the range that is printed."""

    stitch: str
    each_round: int
    between: tuple[float, float]
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeSample:
    """A measured swatch: width of a stitch and height of a row, in cm."""

    id: str
    stitch: str
    width_cm: float
    height_cm: float
    source: str

    @property
    def each_round(self) -> float:
        """Increases a round that keep a disc of such stitches flat: the girth grows by 2π row heights a round."""
        return 2 * pi * self.height_cm / self.width_cm


@dataclass(frozen=True, slots=True, kw_only=True)
class TurningCustom:
    """The chain that starts a row of `stitch`; the chain from the hook a flat piece begins in; does it count (yes, no, varies)."""

    stitch: str
    chains: int
    first_chain: int
    counts: str
    source: str


@lru_cache(maxsize=1)
def circles() -> dict[str, Circle]:
    """The handbook's circles, by stitch.

    >>> circles()["dc"].each_round, circles()["sc"].between
    (12, (6.0, 7.0))
    """
    return {
        r["stitch"]: Circle(stitch=r["stitch"], each_round=r["each_round"], between=ranged(r, "between") or (0, 0), source=r["source"])
        for r in records("rules_of_thumb", "circle")
    }


@lru_cache(maxsize=1)
def shape_samples() -> tuple[ShapeSample, ...]:
    """Measured swatches.

    >>> [round(s.each_round, 1) for s in shape_samples()]
    [5.8, 8.6, 10.9, 5.4]
    """
    return tuple(
        ShapeSample(id=r["id"], stitch=r["stitch"], width_cm=r["width_in"] * 2.54, height_cm=r["height_in"] * 2.54, source=r["source"])
        for r in records("rules_of_thumb", "shape_sample")
    )


@lru_cache(maxsize=1)
def turning_customs() -> dict[str, TurningCustom]:
    """The customary turning chain of each stitch.

    >>> [(t.chains, t.counts) for t in turning_customs().values()][:4]
    [(0, 'no'), (1, 'no'), (2, 'varies'), (3, 'yes')]
    """
    return {
        r["stitch"]: TurningCustom(
            stitch=r["stitch"], chains=r["chains"], first_chain=r["first_chain"], counts=r["counts"], source=r["source"]
        )
        for r in records("rules_of_thumb", "turning_chain")
    }


def counts_by_custom(stitch: str, chains: int) -> bool | None:
    """Does a starting chain of so many chains stand for a `stitch`? True, False, or None where the trade is of two minds.

    Shorter than customary never counts, except ch 2 for a dc (some do, some do not); longer counts when custom counts. Common practice.

    >>> counts_by_custom("sc", 1), counts_by_custom("dc", 3), counts_by_custom("hdc", 2), counts_by_custom("dc", 1)
    (False, True, None, False)
    """
    custom = turning_customs().get(stitch)
    if custom is None or custom.counts == "no":
        return False if custom is not None else None
    if chains == custom.chains - 1 and chains > 1:
        return None
    if chains < custom.chains:
        return False
    return True if custom.counts == "yes" else None


def foundation_chains(stitches: int, first_chain: int, counts: bool) -> int:
    """Chains to make for a row of `stitches`: N = S + t − c, where t chains are skipped and c is 1 if they count as a stitch.

    >>> foundation_chains(30, 2, False), foundation_chains(20, 4, True), foundation_chains(11, 3, True), foundation_chains(11, 3, False)
    (31, 22, 12, 13)
    """
    return stitches + (first_chain - 1) - (1 if counts else 0)


def sphere_rows(equator: int, height_over_width: float = 1.0) -> int:
    """Rounds from pole to pole of a sphere: half the equator where stitches are square (tacomagic.wordpress.com, 2011).

    >>> sphere_rows(40)
    20
    """
    return max(1, round(equator / (2 * height_over_width)))
