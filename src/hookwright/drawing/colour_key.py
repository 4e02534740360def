"""Colours for every reader: each has a hue, a letter and a texture of its own, so that none is told by its hue alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..yarn.hues import Rgb, apart, hexed, oklab, rgb_for, rgb_of
from . import svg

TILE_MM = 2.0
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_TEXTURES = (
    "",
    '<path d="M-0.5 0.5L0.5 -0.5M0 2L2 0M1.5 2.5L2.5 1.5" {line}/>',
    '<circle cx="0.5" cy="0.5" r="0.26" {dot}/><circle cx="1.5" cy="1.5" r="0.26" {dot}/>',
    '<path d="M0 0.5H2M0 1.5H2" {line}/>',
    '<path d="M-0.5 1.5L0.5 2.5M0 0L2 2M1.5 -0.5L2.5 0.5" {line}/>',
    '<path d="M0.5 0V2M1.5 0V2" {line}/>',
    '<path d="M0 1H2M1 0V2" {line}/>',
    '<circle cx="1" cy="1" r="0.55" {ring}/>',
    '<path d="M0 0L2 2M2 0L0 2" {line}/>',
    '<path d="M0.4 1L1 0.4L1.6 1L1 1.6Z" {dot}/>',
)
"""Textures on a tile of 2 mm: plain, slanted, dots, level, slanted the other way, upright, grid, rings, crosses, diamonds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One colour as drawn. `key` as the plan names it, `name` in words, `letter` on the piece."""

    key: str
    name: str
    letter: str
    rgb: Rgb
    texture: int

    @property
    def fill(self) -> str:
        """The paint: its tile, or its bare hue when it has no texture."""
        return f"url(#{self.tile})" if _TEXTURES[self.texture] else hexed(self.rgb)

    @property
    def tile(self) -> str:
        return f"c{self.letter}"

    def pattern(self) -> str:
        """The tile as an SVG pattern; empty for plain."""
        drawn = _TEXTURES[self.texture]
        if not drawn:
            return ""
        ink = hexed(_inked(self.rgb))
        marks = drawn.format(
            line=f'stroke="{ink}" stroke-width="0.22" fill="none"', dot=f'fill="{ink}"',
            ring=f'stroke="{ink}" stroke-width="0.2" fill="none"'
        )  # fmt: skip
        ground = svg.rect(0, 0, TILE_MM, TILE_MM, fill=hexed(self.rgb))
        size = f'width="{svg.num(TILE_MM)}" height="{svg.num(TILE_MM)}" patternUnits="userSpaceOnUse"'
        return f'<pattern id="{self.tile}" {size}>{ground}{marks}</pattern>'

    def ink(self) -> str:
        """Black or white, whichever stands out more on it."""
        return "#000" if oklab(self.rgb)[0] > 0.62 else "#fff"


def _inked(rgb: Rgb) -> Rgb:
    """The same hue, clearly darker or lighter, for the texture."""
    lightness, a, b = oklab(rgb)
    return rgb_of((lightness - 0.22 if lightness > 0.5 else lightness + 0.24, a * 0.8, b * 0.8))


def shown(keys: Sequence[tuple[str, str]]) -> dict[str, Shown]:
    """Colours for (key, name) pairs, in their order: a letter each, hues by their names, textures so that neighbours in hue differ.

    Two names that give the same hue are moved apart in lightness.

    >>> [c.letter for c in shown([("A", "deep blue"), ("B", "sand")]).values()]
    ['A', 'B']
    """
    out: dict[str, Shown] = {}
    taken: list[Rgb] = []
    for n, (key, name) in enumerate(keys):
        rgb = _apart_from(rgb_for(name, n), taken)
        taken.append(rgb)
        out[key] = Shown(key=key, name=name or key, letter=_letter(n), rgb=rgb, texture=n % len(_TEXTURES))
    return out


def _letter(n: int) -> str:
    return LETTERS[n] if n < len(LETTERS) else f"{LETTERS[n // len(LETTERS) - 1]}{LETTERS[n % len(LETTERS)]}"


def _apart_from(rgb: Rgb, taken: Sequence[Rgb], least: float = 0.09) -> Rgb:
    lightness, a, b = oklab(rgb)
    for step in (0.0, 0.12, -0.12, 0.24, -0.24, 0.36, -0.36):
        tried = rgb_of((min(0.97, max(0.15, lightness + step)), a, b))
        if all(apart(tried, other) >= least for other in taken):
            return tried
    return rgb


def simulated(rgb: Rgb, kind: str) -> Rgb:
    """A colour as a reader without red cones ("protan") or green cones ("deutan") sees it.

    Matrices for linear sRGB, full severity: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A physiologically-based model for
    simulation of color vision deficiency", IEEE TVCG 15(6), 2009, table of matrices (from memory).
    """
    from ..yarn.hues import from_linear, to_linear

    rows = {
        "protan": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
        "deutan": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    }[kind]
    light = [to_linear(c / 255) for c in rgb]
    r, g, b = (round(255 * min(1.0, max(0.0, from_linear(sum(m * v for m, v in zip(row, light, strict=True)))))) for row in rows)
    return r, g, b
