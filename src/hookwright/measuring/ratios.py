"""How tall stitches are beside their width, where a pattern gives no gauge of its own for them.

Every plain stitch is taken as equally wide (its top is one chain link of the same yarn); what differs is the height. Sources:

[swatches] Yarn usage for knitting vs crochet: a science experiment (Interweave), 20 x 20 swatches: sc .92, hdc 1.37, hdc 1.61 times as tall
    as sc. https://interweave.com/article/knitting/yarn-usage-knitting-vs-crochet-experiment
[gauges] Printed gauges of 23 published pieces: sc .67-1.0 (median .90), hdc 1.37-1.52 (median 1.5), dc 1.5-2.33 (median 1.8).
[circles] A flat round grows by 2 pi (height/width) stitches: 16 tr, 20 dtr a round (common practice, no source) mean 2.55, 3.18.
[chains] Customary turning chains: sc 1, hdc 2, dc 3, tr 4, dtr 5, each wrap one chain more (Weitere Haekelmaschen, Crazypatterns blog,
    https://crazypatterns.net/en/blog/243/mehr-haekelmaschen).
"""

from __future__ import annotations

from typing import Final

from ..trade.kinds import base

HEIGHT_OVER_WIDTH: Final[dict[str, float]] = {
    "sl st": 0.40,  # from memory: slip stitch fabric runs to about 2.5 rows a stitch's width
    "sc": 0.90,  # [gauges] median; [swatches] .92
    "esc": 1.20,  # from memory: between sc and hdc
    "hdc": 1.45,  # sc x 1.61 [swatches]; [gauges] median 1.5
    "ehdc": 1.65,  # from memory: between hdc and dc
    "dc": 1.80,  # [gauges] median
    "edc": 2.15,  # from memory: between dc and tr
    "tr": 2.55,  # [circles]
    "dtr": 3.18,  # [circles]
    "trtr": 3.85,  # one wrap more again, as dtr over tr [chains]
    "qtr": 4.50,  # one wrap more again [chains]
    "ch": 0.90,  # a free chain: a dc is as high as two chains are wide (Filet crochet dishcloth, Bits and Bobs blog, 2008)
}
"""Height of one row over the width of one stitch, by plain stitch."""

GROUP_HEIGHT: Final[dict[str, str]] = {"cl": "dc", "bobble": "dc", "popcorn": "dc", "puff": "hdc", "star": "hdc"}
"""Gathered groups are as tall as the stitch they are usually made of (common practice, no source)."""

WIDTH: Final[dict[str, float]] = {"star": 2.0, "popcorn": 1.2, "bobble": 1.1}
"""Width in plain stitches where it is not 1 (from memory)."""

POST_HEIGHT: Final[float] = 0.8
"""A row of post stitches is lower, since each hangs on a stem and not on a top (the fact: common practice; the figure: from memory)."""

FLAT_GROWTH: Final[dict[str, tuple[float, float]]] = {"sc": (6, 7), "hdc": (7, 9), "dc": (10, 12), "tr": (15, 18), "dtr": (18, 22)}
"""Stitches a round within which handbooks call a circle flat, over all gauges. Source: Getting your circles flat (Crafty Maria,
http://craftymaria.blogspot.com/2009/06/getting-your-circles-flat.html) for sc, hdc, dc; tr and dtr common practice, no source."""

WIDTH_OVER_HOOK: Final[float] = 1.4
"""Stitch width over hook size where no gauge is given: medians of 24 printed gauges sc 1.36, hdc 1.43, dc 1.41; spread 1.15-1.81."""

HOOK_MM: Final[float] = 5.0
"""The hook assumed when neither gauge nor hook is told."""


def plain(kind: str) -> str:
    """The plain stitch whose height a kind has.

    >>> plain("dc2tog"), plain("puff"), plain("FPtr"), plain("something new")
    ('dc', 'hdc', 'tr', 'something new')
    """
    inside = base(kind)
    return GROUP_HEIGHT.get(inside, inside)


def known(kind: str) -> bool:
    """Whether the table knows how tall a kind is."""
    return plain(kind) in HEIGHT_OVER_WIDTH


def height_over_width(kind: str) -> float:
    """Row height over stitch width of a kind; an unknown kind is taken as a dc."""
    ratio = HEIGHT_OVER_WIDTH.get(plain(kind), HEIGHT_OVER_WIDTH["dc"])
    return ratio * POST_HEIGHT if kind[:2] in ("FP", "BP") else ratio


def width_ratio(kind: str) -> float:
    """Width of a kind in plain stitches."""
    return WIDTH.get(base(kind), 1.0)
