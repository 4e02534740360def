"""Stitches: what they are called, how the hook moves, how tall they stand, and the turning chain that goes with them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from . import terms
from ._load import records
from .kinds import base, closes

Custom = Literal["yes", "no", "varies"]

WIDTHS_TALL: dict[str, tuple[float, str]] = {
    "sl st": (0.3, "common practice, no source"),
    "sc": (0.89, "mean of two measured swatches, rules_of_thumb.toml iw_sc and k123_sc"),
    "hdc": (1.37, "measured swatch, rules_of_thumb.toml iw_hdc"),
    "dc": (1.73, "measured swatch, rules_of_thumb.toml sdrta_dc"),
    "tr": (2.6, "common practice, no source: tr stands half as tall again as dc"),
    "dtr": (3.4, "continued from dc and tr by equal steps"),
    "trtr": (4.2, "continued from dc and tr by equal steps"),
    "qtr": (5.0, "continued from dc and tr by equal steps"),
    "esc": (1.2, "common practice, no source: between sc and hdc"),
    "ehdc": (1.6, "common practice, no source: between hdc and dc"),
    "edc": (2.1, "common practice, no source: between dc and tr"),
}
"""Height of a row over the width of a stitch, and where the figure comes from. A swatch of one's own always wins."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stitch:
    """One stitch of the trade.

    `id` as in `trade.kinds`; names and abbreviations in US and UK terms, the customary abbreviation first; `actions` the movements of the
    hook ("yo", "insert", "pull_up", "pull_2" …); `legs` how many lengths of about one stitch height the yarn in it makes; heights in
    chains and in stitch widths; `turning_chain` chains at the start of a row, `counts` whether custom counts them as a stitch;
    `first_chain` the chain from the hook that the first stitch of a flat piece goes into; `takes` and `makes` places and stitches.
    """

    id: str
    family: str
    us_name: str
    us_abbr: tuple[str, ...]
    uk_name: str
    uk_abbr: tuple[str, ...]
    actions: tuple[str, ...] = ()
    legs: int | None = None
    height_in_chains: int | None = None
    height_in_widths: float | None = None
    height_source: str = ""
    turning_chain: int | None = None
    counts: Custom | None = None
    first_chain: int | None = None
    takes: int = 1
    makes: int = 1
    source: str = ""

    @property
    def wraps(self) -> int:
        """Times the yarn is wrapped before the hook goes in."""
        return self.actions.index("insert") if "insert" in self.actions else self.actions.count("yo")

    def abbr(self, system: Literal["US", "UK"]) -> str:
        """The customary abbreviation in `system`."""
        return (self.us_abbr if system == "US" else self.uk_abbr)[0]

    def name(self, system: Literal["US", "UK"]) -> str:
        """The full name in `system`."""
        return self.us_name if system == "US" else self.uk_name


@lru_cache(maxsize=1)
def stitches() -> dict[str, Stitch]:
    """Every stitch of the data file, by id, in the file's order."""
    return {record["id"]: _stitch(record) for record in records("stitches", "stitch")}


@lru_cache(maxsize=512)
def stitch(kind: str) -> Stitch | None:
    """The stitch `kind`, also for built names the file does not list ("dc5tog", "FPdtr"); None when the trade has no such stitch.

    >>> stitch("dc").turning_chain, stitch("tr4tog").takes, stitch("FPdtr").uk_abbr, stitch("wool")
    (3, 4, ('FPtrtr',), None)
    """
    known = stitches().get(kind)
    if known is not None:
        return known
    plain = stitches().get(base(kind))
    if plain is None or plain.id == kind:
        return None
    return Stitch(
        id=kind,
        family="decrease" if closes(kind) > 1 else "post",
        us_name=terms.name(kind, "US"),
        us_abbr=(terms.abbr(kind, "US"),),
        uk_name=terms.name(kind, "UK"),
        uk_abbr=(terms.abbr(kind, "UK"),),
        legs=None if plain.legs is None else plain.legs * closes(kind),
        height_in_chains=plain.height_in_chains,
        height_in_widths=plain.height_in_widths,
        height_source=plain.height_source,
        turning_chain=plain.turning_chain,
        counts=plain.counts,
        takes=closes(kind),
        source=plain.source,
    )


_SAID = {
    "yo": "wrap the yarn over the hook",
    "insert": "put the hook into the place told",
    "insert_next": "put the hook into the next place",
    "insert_same": "put the hook into the same place",
    "insert_post": "put the hook round the post",
    "insert_fl": "pick up the front loop",
    "insert_fl_next": "pick up the next front loop",
    "pull_up": "draw up a loop",
    "slip_through": "draw the yarn through the work and the loop on the hook",
    "chain": "wrap the yarn and draw it through the loop on the hook",
}


def how_to(kind: str) -> tuple[str, ...]:
    """How the stitch is worked, a movement a line; empty where the movements are not known.

    >>> how_to("sc")
    ('put the hook into the place told', 'draw up a loop', 'wrap the yarn and draw it through 2 loops')
    """
    known = stitch(kind)
    if known is None:
        return ()
    return tuple(_SAID.get(action) or f"wrap the yarn and draw it through {action.removeprefix('pull_')} loops" for action in known.actions)


def _stitch(record: dict[str, object]) -> Stitch:
    fields = dict(record)
    kind = str(fields["id"])
    fields["counts"] = fields.pop("turning_chain_counts", None)
    for key in ("us_abbr", "uk_abbr", "actions"):
        fields[key] = tuple(fields.get(key, ()))  # type: ignore[arg-type]
    widths = WIDTHS_TALL.get(base(kind))
    if widths is not None:
        fields["height_in_widths"], fields["height_source"] = widths
    return Stitch(**fields)  # type: ignore[arg-type]
