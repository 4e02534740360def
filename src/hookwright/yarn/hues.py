"""Colours by number and by word: OKLab, a plain name for a colour seen, and a colour for a name told.

OKLab: B. Ottosson, "A perceptual color space for image processing", 2020 (bottosson.github.io/posts/oklab); published matrices and values.
"""

from __future__ import annotations

import math
import re
from functools import lru_cache

Rgb = tuple[int, int, int]
Lab = tuple[float, float, float]


def to_linear(channel: float) -> float:
    """One sRGB channel (0-1) as light (IEC 61966-2-1)."""
    return float(channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4)


def from_linear(light: float) -> float:
    """The sRGB channel (0-1) of so much light."""
    return float(12.92 * light if light <= 0.0031308 else 1.055 * max(light, 0.0) ** (1 / 2.4) - 0.055)


def oklab(rgb: Rgb) -> Lab:
    """sRGB (0-255) to OKLab.

    >>> tuple(round(v, 3) for v in oklab((255, 255, 255)))
    (1.0, 0.0, 0.0)
    """
    r, g, b = (to_linear(c / 255) for c in rgb)
    l_ = math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b)
    m = math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b)
    s = math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b)
    return (
        0.2104542553 * l_ + 0.7936177850 * m - 0.0040720468 * s,
        1.9779984951 * l_ - 2.4285922050 * m + 0.4505937099 * s,
        0.0259040371 * l_ + 0.7827717662 * m - 0.8086757660 * s,
    )


def rgb_of(lab: Lab) -> Rgb:
    """OKLab to the nearest sRGB colour (clipped).

    >>> rgb_of(oklab((12, 200, 99)))
    (12, 200, 99)
    """
    lightness, a, b = lab
    l_ = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3
    m = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3
    s = (lightness - 0.0894841775 * a - 1.2914855480 * b) ** 3
    light = (
        4.0767416621 * l_ - 3.3077115913 * m + 0.2309699292 * s,
        -1.2684380046 * l_ + 2.6097574011 * m - 0.3413193965 * s,
        -0.0041960863 * l_ - 0.7034186147 * m + 1.7076147010 * s,
    )
    r, g, b8 = (round(255 * min(1.0, max(0.0, from_linear(v)))) for v in light)
    return r, g, b8


def apart(one: Rgb, other: Rgb) -> float:
    """How far two colours lie apart to the eye (OKLab distance; below about 0.02 they look alike)."""
    return math.dist(oklab(one), oklab(other))


def hexed(rgb: Rgb) -> str:
    """ "#rrggbb" """
    return "#{:02x}{:02x}{:02x}".format(*rgb)


_HUES = ((8, "pink"), (20, "rose"), (45, "red"), (72, "orange"), (98, "mustard"), (115, "yellow"), (135, "lime"), (163, "green"),
         (205, "teal"), (240, "sky blue"), (275, "blue"), (300, "indigo"), (325, "violet"), (350, "magenta"), (361, "pink"))  # fmt: skip


def name_of(rgb: Rgb) -> str:
    """A plain name for a colour seen: hue, with "dark", "light" or "dull" where it is so.

    >>> [name_of(c) for c in ((20, 30, 90), (200, 200, 205), (250, 240, 215), (120, 70, 40), (30, 150, 140))]
    ['dark blue', 'light grey', 'cream', 'brown', 'teal']
    """
    lightness, a, b = oklab(rgb)
    chroma, hue = math.hypot(a, b), math.degrees(math.atan2(b, a)) % 360
    if chroma < 0.025:
        return next(
            name
            for limit, name in ((0.25, "black"), (0.45, "dark grey"), (0.72, "grey"), (0.93, "light grey"), (2, "white"))
            if lightness < limit
        )
    if lightness > 0.9 and chroma < 0.06 and 50 < hue < 115:
        return "cream"
    word = next(name for limit, name in _HUES if hue < limit)
    if 65 < hue < 115 and chroma < 0.09 and lightness > 0.65:
        return "sand"
    if 30 < hue < 68 and 0.42 < lightness < 0.64 and chroma >= 0.11:
        return "rust"
    if 30 < hue < 90 and lightness < 0.62 and chroma < 0.14:
        return "dark brown" if lightness < 0.35 else "brown"
    if 90 <= hue < 130 and lightness < 0.6:
        return "olive"
    if word in ("red", "orange") and lightness > 0.8:
        return "peach"
    shade = "dark " if lightness < 0.42 else "light " if lightness > 0.82 and word not in ("yellow", "lime", "mustard", "sky blue") else ""
    return f"{shade}{'dull ' if chroma < 0.045 and not shade else ''}{word}"


_WORDS: dict[str, Rgb] = {
    "black": (30, 30, 30), "white": (248, 248, 245), "grey": (140, 143, 146), "gray": (140, 143, 146), "slate": (88, 103, 117),
    "charcoal": (62, 66, 70), "silver": (190, 193, 196), "cream": (245, 235, 210), "sand": (214, 193, 155), "beige": (222, 204, 172),
    "oat": (219, 201, 168), "stone": (176, 168, 154), "brown": (115, 78, 48), "chestnut": (120, 66, 42), "rust": (176, 82, 42),
    "copper": (184, 108, 66), "red": (190, 44, 44), "crimson": (160, 30, 52), "wine": (112, 32, 54), "plum": (110, 52, 92),
    "rose": (214, 122, 138),
    "pink": (232, 150, 170), "coral": (236, 122, 98), "peach": (246, 190, 152), "orange": (226, 126, 38), "amber": (232, 160, 40),
    "mustard": (206, 156, 40), "ochre": (196, 142, 54), "gold": (216, 172, 62), "yellow": (242, 208, 64), "lemon": (248, 228, 104),
    "lime": (172, 200, 62),
    "olive": (118, 120, 54), "moss": (106, 122, 62), "samphire": (106, 142, 82), "green": (62, 134, 74), "sage": (158, 176, 144),
    "mint": (170, 216, 192), "bottle": (24, 76, 58), "teal": (26, 122, 126), "turquoise": (50, 172, 172), "aqua": (120, 200, 206),
    "sky": (130, 184, 224), "blue": (48, 94, 168), "navy": (28, 42, 88), "denim": (72, 102, 146), "indigo": (62, 56, 128),
    "violet": (112, 78, 160),
    "purple": (108, 60, 140), "lilac": (188, 164, 212), "lavender": (178, 168, 216), "magenta": (186, 48, 124),
}  # fmt: skip
_SHADES = {"deep": -0.12, "dark": -0.14, "midnight": -0.2, "pale": 0.16, "light": 0.13, "soft": 0.08, "bright": 0.04, "wet": -0.06}
SPARE: tuple[Rgb, ...] = (
    (0, 114, 178), (230, 159, 0), (0, 158, 115), (204, 121, 167), (86, 180, 233), (213, 94, 0), (240, 228, 66), (110, 110, 110),
)  # fmt: skip
"""Colours for names that no colour is known of: M. Okabe, K. Ito, "Color universal design", 2008: told apart by colour-blind readers."""


def has_colour(name: str) -> bool:
    """Whether a name holds a colour word (or is "#rrggbb").

    >>> has_colour("deep blue"), has_colour("Whimbrel")
    (True, False)
    """
    return bool(re.fullmatch(r"#?[0-9a-f]{6}", name.strip().lower())) or any(word in _WORDS for word in re.findall(r"[a-z]+", name.lower()))


@lru_cache(maxsize=512)
def rgb_for(name: str, place: int = 0) -> Rgb:
    """A colour for a name told: the colour word in it, darker or lighter as it says, "#rrggbb" as it stands; else the spare one of `place`.

    >>> rgb_for("rust"), rgb_for("#0a141e"), rgb_for("Whimbrel", 1)
    ((176, 82, 42), (10, 20, 30), (230, 159, 0))
    """
    exact = re.fullmatch(r"#?([0-9a-f]{6})", name.strip().lower())
    if exact:
        return int(exact[1][:2], 16), int(exact[1][2:4], 16), int(exact[1][4:], 16)
    words = re.findall(r"[a-z]+", name.lower())
    found = [word for word in words if word in _WORDS]
    if not found:
        return SPARE[place % len(SPARE)]
    lightness, a, b = oklab(_WORDS[found[-1]])
    for word in words:
        lightness += _SHADES.get(word, 0.0)
    return rgb_of((min(0.98, max(0.12, lightness)), a, b))
