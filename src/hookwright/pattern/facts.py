"""What a pattern says about itself outside its rows: hook, yarn, gauge, sizes, trims. Lengths in cm, yarn in metres and grams."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from .spans import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """Stitches and rows over `over_cm`. `stitch` the stitch it was measured in (id); `rows` None when only stitches are told."""

    stitch: str
    stitches: float
    rows: float | None = None
    over_cm: float = 10.0
    over_rows_cm: float | None = None
    """When rows were measured over another length than stitches."""
    blocked: bool | None = None

    @property
    def width_cm(self) -> float:
        """Width of one stitch."""
        return self.over_cm / self.stitches

    @property
    def height_cm(self) -> float | None:
        """Height of one row."""
        return None if not self.rows else (self.over_rows_cm or self.over_cm) / self.rows


@dataclass(frozen=True, slots=True, kw_only=True)
class ColourRun:
    """One stretch of a self-striping yarn."""

    colour: str
    metres: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Yarn:
    """One yarn of the pattern; `id` is the letter or word the rows use ("A"). Ball figures None when not told."""

    id: str
    name: str = ""
    weight: str = ""
    ball_m: float | None = None
    ball_g: float | None = None
    strands: int = 1
    colour: str = ""
    fibre: str = ""
    balls_stated: float | None = None
    sequence: tuple[ColourRun, ...] = ()

    @property
    def m_per_100g(self) -> float | None:
        if self.ball_m is None or not self.ball_g:
            return None
        return self.ball_m / self.ball_g * 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """A weighed swatch: so many stitches and rows of one stitch weighed so much."""

    yarn: str
    stitch: str
    stitches: float
    rows: float
    grams: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TurningChain:
    chains: int
    counts: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Trim:
    """A tassel, fringe, pompom, cord or button. `wraps` and `card_cm` for wound trims; `strands`, `length_cm` for fringe."""

    kind: str
    number: int = 1
    wraps: int | None = None
    card_cm: float | None = None
    strands: int | None = None
    length_cm: float | None = None
    tie_cm: float | None = None
    yarn: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    file: str
    row: str = ""
    alt: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishedSize:
    """A size the pattern states, per pattern size: `what` is "width", "length", "diameter", "girth"; values in cm."""

    what: str
    cm: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Everything outside the rows.

    `spans` maps a dotted key ("hook", "gauge.0", "yarns.A") to where it stands; `notes` keeps unknown keys.
    """

    title: str = ""
    version: str = ""
    designer: str = ""
    hook_mm: float | None = None
    size_names: tuple[str, ...] = ()
    size_measures: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    gauge: tuple[Gauge, ...] = ()
    yarns: Mapping[str, Yarn] = field(default_factory=dict)
    swatches: tuple[Swatch, ...] = ()
    turning_chains: Mapping[str, TurningChain] = field(default_factory=dict)
    trims: tuple[Trim, ...] = ()
    finished: tuple[FinishedSize, ...] = ()
    motif_cm: float | None = None
    """The size of one motif across, told where a gauge would stand ("Gauge: each motif measures 4 in")."""
    pace: Mapping[str, float] = field(default_factory=dict)
    """Seconds per stitch, by kind; "st" for all."""
    prices: Mapping[str, float | str] = field(default_factory=dict)
    pictures: tuple[Picture, ...] = ()
    intended: Literal["", "flat", "toy", "garment"] = ""
    """What the piece is meant to be, when told: decides whether cupping is a flaw."""
    notes: Mapping[str, object] = field(default_factory=dict)
    spans: Mapping[str, Span] = field(default_factory=dict)
