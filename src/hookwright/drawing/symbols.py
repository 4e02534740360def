"""The symbols: one table by stitch id, drawn afresh from the descriptions in `facts/symbols.toml` (council and Japanese forms).

Where the two forms differ there is a switch (single crochet as + or ×). Sizes are those of a printed magazine chart. A stitch without
a symbol of its own gets a box with its abbreviation, so that no chart is ever short of a stitch.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Literal, TypeAlias

from ..trade.kinds import base, closes
from .shapes import Ink, Shape

Cross: TypeAlias = Literal["plus", "cross"]
"""Single crochet as an upright + (council) or a diagonal × (Japanese standard): both accepted, never both in one key."""
Loop: TypeAlias = Literal["", "front", "back", "third"]

PITCH_MM = 3.4
"""From stitch to stitch along a row of tall stitches."""
GAP_MM = 0.45
"""Left free between a symbol and the one it stands on."""
CHAIN_MM = 3.0
"""Length of a lying chain."""
CHAIN_HALF_MM = 0.72
BAR_MM = 1.0
"""Half the top bar of the T."""
SLASH_MM = 0.8
BREAK_MM = 0.7
SHARED_BOW, SHARED_UP_MM = 0.2, 1.0
"""The loop arc of a stitch that shares its foot, against that of one by itself; and how far up its leg it lies, where legs have parted."""
"""Half the break of a stem that passes under another."""

HEIGHT_MM: dict[str, float] = {
    "sl st": 1.3, "sc": 3.0, "esc": 4.0, "hdc": 4.8, "ehdc": 5.8, "dc": 6.8, "edc": 7.8, "tr": 9.0, "dtr": 11.2, "trtr": 13.4, "qtr": 15.6,
    "ldc": 6.8, "ltr": 9.0,
    "cl": 6.8, "bobble": 6.8, "puff": 5.8, "popcorn": 6.8, "star": 4.8, "picot": 3.2, "crab": 3.4, "loop st": 3.4,
    "bullion": 6.8, "solomon": 6.8,
    "ch": 2.2, "tss": 3.0, "tks": 3.0, "tps": 3.0, "trs": 3.0, "tfs": 3.0, "tes": 4.0,
}  # fmt: skip
"""From foot to top, in steps of one upright chain: the proportions every published key keeps (sc 1, hdc 2, dc 3, tr 4 chains)."""

SLASHES: dict[str, int] = {"hdc": 0, "ehdc": 0, "dc": 1, "edc": 1, "tr": 2, "dtr": 3, "trtr": 4, "qtr": 5, "ldc": 1, "ltr": 2}
"""Slashes across the stem: one for each wrap before the hook goes in, hdc none (symbols.toml: n_slash)."""

_ALIASES = {
    "rsc": "crab", "rev sc": "crab", "crab st": "crab", "loop": "loop st", "pc": "popcorn", "bo": "bobble", "knot st": "solomon",
    "inv dec": "sc", "surface sl st": "sl st", "Tss": "tss", "Tks": "tks", "Tps": "tps", "Trs": "trs", "Tfs": "tfs", "Tes": "tes",
}  # fmt: skip
_STRANDS = re.compile(r"^(\d+)?-?(dc|tr|hdc|dtr)?-?(cl|bobble|puff|popcorn)$")


@lru_cache(maxsize=1024)
def plain(kind: str) -> str:
    """The key of the symbol table for a stitch id: post, loop, together and foundation forms fall back on the stitch inside.

    >>> plain("FPtr2tog"), plain("fdc"), plain("rsc")
    ('tr', 'dc', 'crab')
    """
    inner = base(kind)
    match = _STRANDS.match(inner)
    return match[3] if match else _ALIASES.get(inner, inner)


@lru_cache(maxsize=1024)
def height_mm(kind: str) -> float:
    """How tall the symbol of this stitch is drawn; unknown stitches stand as tall as an hdc."""
    return HEIGHT_MM.get(plain(kind), 4.0)


@lru_cache(maxsize=1024)
def slug(kind: str) -> str:
    """A stitch id as it stands in an XML id: "sl st" → "sl-st"."""
    return re.sub(r"[^A-Za-z0-9.]+", "-", kind)


def post_of(kind: str) -> str:
    """ "FP", "BP" or "" for a stitch id."""
    return kind[:2] if kind[:2] in ("FP", "BP") else ""


@lru_cache(maxsize=4096)
def upright(
    kind: str,
    length: int,
    loop: Loop = "",
    cross: Cross = "plus",
    under: tuple[int, ...] = (),
    high: bool = False,
    tight: bool = False,
    free: int = 0,
    tilt: int = 0,
) -> Shape:
    """The symbol of one stitch standing on one foot. `length`: foot to top in tenths of a millimetre.

    `high` in a single crochet: it shares its foot, so its cross stands higher on a short leg (the V of an increase).
    `under`: where (tenths of a millimetre above the foot) other stems cross in front: the stem is broken there. `free`: it crosses others,
    and so many tenths of a millimetre are clear of them below its top: its slashes stand there, and its bar lies level though the stem
    leans by `tilt` degrees clockwise. `tight`: it stands close to another in one space, so its slashes stand somewhat higher.
    """
    tall = length / 10
    name = plain(kind)
    ink = Ink()
    foot = _foot(ink, kind, loop, 0.42 if high else 0.65, SHARED_BOW if high else 1.0)
    if name in SLASHES:
        if free:
            _crossing_stem(ink, tall, SLASHES[name], foot, [u / 10 for u in under], free / 10, tilt)
        else:
            _stem(ink, tall, SLASHES[name], foot, [u / 10 for u in under], 0.67 if tight else 0.58)
        if name.startswith("l"):
            ink.line(0, -tall * 0.3, 1.5, -tall * 0.3)
        if name.startswith("e"):
            ink.line(-0.7, -0.9 - foot, 0.7, -0.9 - foot)
    elif name in ("sc", "esc"):
        _cross(ink, tall, cross, foot, extended=name == "esc", fan=high, under=[u / 10 for u in under])
    else:
        _OTHERS.get(name, _box)(ink, tall, kind, cross)
    if kind in ("fsc", "fhdc", "fdc", "ftr"):
        ink.oval(0, CHAIN_HALF_MM, 1.25, CHAIN_HALF_MM)
    return ink.shape()


def _foot(ink: Ink, kind: str, loop: Loop, hook: float, bow: float) -> float:
    """Post hook or loop arc at the foot (`bow`: a share of its width); answers where the stem begins above it."""
    wide, near, up = 1.1 * bow, 0.5 * bow, SHARED_UP_MM if bow < 1 else 0.0
    post = post_of(kind)
    if post:
        side = 1 if post == "FP" else -1
        ink.arc(side * hook, -hook - 0.1, hook, 180 if side > 0 else 0, -20 if side > 0 else 200)
        return hook + 0.1
    if loop and up:
        ink.line(0, 0, 0, -up)
    if loop in ("back", "third"):
        ink.curve((-wide, -0.55 * bow - up), (-near, 0.1 - up), (near, 0.1 - up), (wide, -0.55 * bow - up))
        if loop == "third":
            ink.curve((-wide, -0.1 - up), (-near, 0.55 - up), (near, 0.55 - up), (wide, -0.1 - up))
        return 0.35 * bow + up
    if loop == "front":
        ink.curve((-wide, 0.05 - up), (-near, -0.65 * bow - up), (near, -0.65 * bow - up), (wide, 0.05 - up))
        return 0.75 * bow + up
    return 0.0


def _stem(ink: Ink, tall: float, slashes: int, foot: float, under: Sequence[float], share: float) -> None:
    ink.line(-BAR_MM, -tall, BAR_MM, -tall)
    _broken(ink, foot, tall, under)
    tight = share > 0.58
    step = 0.8 if tight else 1.15
    middle = -min(foot + (tall - foot) * share, tall - (slashes + 0.2) * step / 2)
    for i in range(slashes):
        _slash(ink, 0, middle + (i - (slashes - 1) / 2) * step, 0.6 if tight else 1.0)


def _crossing_stem(ink: Ink, tall: float, slashes: int, foot: float, under: Sequence[float], free: float, tilt: int) -> None:
    """A stem that crosses others: a level bar, and its slashes between that and the uppermost crossing, turned half upright."""
    turn = math.radians(-tilt)
    ink.line(-BAR_MM * math.cos(turn), -tall - BAR_MM * math.sin(turn), BAR_MM * math.cos(turn), -tall + BAR_MM * math.sin(turn))
    _broken(ink, foot, tall, under)
    last = min(0.95 + (slashes - 1) * 0.85, max(free - 0.9, 0.55 + (slashes - 1) * 0.4))
    first = min(0.95, max(last - (slashes - 1) * 0.85, 0.6))
    for i in range(slashes):
        at = first + i * (last - first) / max(slashes - 1, 1)
        # No further to the side than halfway to a stem that comes from the other side to cross here.
        half = min(SLASH_MM * 0.75, max((free - at) * max(math.sin(abs(turn)), 0.35) - 0.2, 0.3))
        x, y = half * math.cos(turn / 2 + 0.2), half * math.sin(turn / 2 + 0.2)
        ink.line(-x, -tall + at - y, x, -tall + at + y)


def top_of(ink: Ink, kind: str, tall: float, start: float, cross: Cross) -> None:
    """The upper end of a symbol whose stem comes up to `start` from elsewhere: its cross, or the rest of its stem with bar and slashes."""
    name = plain(kind)
    if name in ("sc", "esc"):
        _cross(ink, tall, cross, start)
        ink.line(0, -start, 0, -max(start, tall - 1.25))
        return
    ink.line(0, -start, 0, -tall).line(-BAR_MM, -tall, BAR_MM, -tall)
    slashes = SLASHES.get(name, 0)
    for i in range(slashes):
        _slash(ink, 0, -tall + 0.85 + i * 0.7, 0.8)


def _slash(ink: Ink, x: float, y: float, share: float = 1.0) -> None:
    ink.line(x - SLASH_MM * share, y - 0.42 * share, x + SLASH_MM * share, y + 0.42 * share)


def _broken(ink: Ink, start: float, end: float, under: Sequence[float]) -> None:
    """A stem from `start` to `end` above the foot, broken at `under`."""
    at = start
    for cut in sorted(under):
        if cut - BREAK_MM > at:
            ink.line(0, -at, 0, -min(cut - BREAK_MM, end))
        at = max(at, cut + BREAK_MM)
    if at < end:
        ink.line(0, -at, 0, -end)


def _cross(
    ink: Ink, tall: float, cross: Cross, foot: float, *, extended: bool = False, fan: bool = False, under: Sequence[float] = ()
) -> None:
    arm = (1.0 if cross == "plus" else 0.85) * (0.85 if fan else 1)
    centre = -max(tall - (0.8 if fan else 1.25), foot + arm + 0.1)
    if tall > 4.4 or extended or fan:
        _broken(ink, foot, -centre - (arm if cross == "plus" else 0), under)
    if cross == "plus":
        ink.line(-arm, centre, arm, centre).line(0, centre - arm, 0, centre + arm)
    else:
        ink.line(-arm, centre - arm, arm, centre + arm).line(-arm, centre + arm, arm, centre - arm)
    if extended:
        ink.line(-0.6, -0.5 - foot, 0.6, -0.5 - foot)


def _slip(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    ink.dot(0, -0.55, 0.95, length=0.45)


def _leaf(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    """Bobble, cluster in one place (slashed strands) and puff (plain strands), joined at foot and top."""
    name = plain(kind)
    width = 1.75 if name == "bobble" else 1.5
    sides = (1.0,) if name != "bobble" else (1.0, 0.45)
    for part in sides:
        for side in (-1, 1):
            w = side * width * part * 4 / 3
            ink.curve((0, 0), (w, -tall * 0.25), (w, -tall * 0.75), (0, -tall))
    ink.line(0, 0, 0, -tall).line(-BAR_MM * 0.8, -tall, BAR_MM * 0.8, -tall)
    if name != "puff":
        for x in (-width, 0, width):
            ink.line(x - 0.45, -tall / 2 - 0.25, x + 0.45, -tall / 2 + 0.25)


def _popcorn(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    cap = 0.62
    ink.oval(0, -tall + cap, 1.45, cap)
    for x in (-1.1, 0, 1.1):
        ink.line(0, 0, x, -tall + 2 * cap + (0.1 if x == 0 else -0.2))
        ink.line(x * 0.6 - 0.45, -tall * 0.5 - 0.25, x * 0.6 + 0.45, -tall * 0.5 + 0.25)


def _star(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    ink.oval(0, -tall + 0.5, 0.5, 0.5)
    for x in (-1.5, -0.75, 0, 0.75, 1.5):
        ink.line(x, -0.1, x * 0.25, -tall + 1.1)


def _picot(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    ink.dot(0, -0.45, 0.8)
    ink.oval(-0.95, -1.45, 0.8, 0.42, angle_deg=-60).oval(0, -2.6, 0.8, 0.42).oval(0.95, -1.45, 0.8, 0.42, angle_deg=60)


def _crab(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    _cross(ink, tall, cross, 0.0)
    ink.curve((-1.0, -tall - 0.05), (-0.4, -tall - 0.75), (0.4, -tall + 0.55), (1.0, -tall - 0.15))


def _loop(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    _cross(ink, tall, cross, 0.4)
    ink.oval(0, -0.5, 0.45, 0.6)


def _bullion(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    ink.oval(0, -tall / 2, 0.6, tall / 2 - 0.1).line(-BAR_MM, -tall, BAR_MM, -tall)
    for i in range(1, 5):
        ink.line(-0.5, -tall * i / 5 - 0.2, 0.5, -tall * i / 5 + 0.2)


def _solomon(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    ink.oval(0, -tall / 2 + 0.9, 0.6, tall / 2 - 0.9)
    _cross(ink, tall, cross, 0.0)


def _tunisian(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    """Tunisian stitches: the upright strand, told apart by the stroke it carries."""
    top, name = -tall + 0.5, plain(kind)
    if name == "tps":
        ink.line(-0.9, -tall / 2, 0.9, -tall / 2)
    elif name == "tks":
        ink.line(-0.8, top, 0, -0.4).line(0.8, top, 0, -0.4)
    elif name == "trs":
        ink.line(0, -0.4, 0, top).line(-0.8, -0.4, 0.8, -0.4)
    elif name == "tfs":
        ink.oval(0, -tall / 2, 0.6, 0.9)
    else:
        ink.line(0, -0.4, 0, top)
        if name == "tes":
            ink.line(-0.8, top, 0.8, top)


def _chain(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    ink.oval(0, -CHAIN_HALF_MM, 1.1, CHAIN_HALF_MM)


def _box(ink: Ink, tall: float, kind: str, cross: Cross) -> None:
    y = -tall / 2
    ink.line(-1.3, y - 1.1, 1.3, y - 1.1).line(1.3, y - 1.1, 1.3, y + 1.1).line(1.3, y + 1.1, -1.3, y + 1.1).line(
        -1.3, y + 1.1, -1.3, y - 1.1
    )
    ink.word(kind[:3], y + 0.45, 1.4)


_OTHERS = {
    "sl st": _slip, "cl": _leaf, "bobble": _leaf, "puff": _leaf, "popcorn": _popcorn, "star": _star, "picot": _picot, "crab": _crab,
    "loop st": _loop, "bullion": _bullion, "solomon": _solomon, "ch": _chain,
    "tss": _tunisian, "tks": _tunisian, "tps": _tunisian, "trs": _tunisian, "tfs": _tunisian, "tes": _tunisian,
}  # fmt: skip
"""Symbols that are not a T or a cross. `upright` falls back on a lettered box."""


def has_symbol(kind: str) -> bool:
    """Whether the stitch has a symbol of its own (else it is drawn as a lettered box)."""
    return plain(kind) in SLASHES or plain(kind) in ("sc", "esc") or plain(kind) in _OTHERS


@lru_cache(maxsize=4096)
def gathered(kind: str, legs: tuple[tuple[int, int], ...], cross: Cross = "plus", loop: Loop = "") -> Shape:
    """A together-stitch: its top at the origin, one leg to each foot. `legs`: (right, down) of the feet in tenths of a millimetre."""
    ink = Ink()
    name = plain(kind)
    slashes = 1 if name == "cl" else SLASHES.get(name, 0)
    post = post_of(kind)
    for right, down in legs:
        x, y = right / 10, down / 10
        ink.line(0, 0, x, y)
        length = max((x * x + y * y) ** 0.5, 0.1)
        if name in ("sc", "esc"):
            _across(ink, x * 0.6, y * 0.6, x / length, y / length, 0.75)
        for i in range(slashes):
            share = 0.48 + (i - (slashes - 1) / 2) * 1.15 / length
            _slash(ink, x * share, y * share)
        if post:
            side = 1 if post == "FP" else -1
            ink.arc(x + side * 0.6, y, 0.6, 180 if side > 0 else 0, -20 if side > 0 else 200)
        elif loop:
            bow = -0.35 if loop == "front" else 0.35
            ink.curve((x - 0.8, y - bow), (x - 0.4, y + bow), (x + 0.4, y + bow), (x + 0.8, y - bow))
    if name not in ("sc", "esc"):
        ink.line(-BAR_MM, 0, BAR_MM, 0)
    return ink.shape()


def _across(ink: Ink, x: float, y: float, along_x: float, along_y: float, half: float) -> None:
    ink.line(x - along_y * half, y + along_x * half, x + along_y * half, y - along_x * half)


@lru_cache(maxsize=512)
def chain(length: int) -> Shape:
    """A chain lying along x, its centre at the origin. `length` in tenths of a millimetre."""
    return Ink().oval(0, 0, length / 20, min(CHAIN_HALF_MM, length / 20 * 0.62)).shape()


@lru_cache(maxsize=64)
def dot() -> Shape:
    """A slip stitch, its centre at the origin."""
    return Ink().dot(0, 0, 0.95, length=0.45).shape()


def nominal(kind: str, cross: Cross = "plus", loop: Loop = "") -> Shape:
    """The symbol as the key shows it: upright, at its natural height."""
    n = closes(kind)
    tall = round(height_mm(kind) * 10) - 4
    if kind == "ch":
        return chain(round(CHAIN_MM * 10))
    if n < 2:
        return upright(kind, tall, loop, cross)
    spread = tuple((round((i - (n - 1) / 2) * min(32, 70 // n)), tall) for i in range(n))
    return gathered(kind, spread, cross, loop)
