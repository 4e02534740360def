"""Pieces in the round by their profile: tube, cone, sphere, egg, and any curve of revolution given as (height, girth) pairs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ...pattern import Aside, FastenOff, FinishedSize, Part, Row
from ...trade import units
from ..asks import Custom, Refused, pairs_cm
from ..compiling import facts_of, pattern_of
from ..fit import misfit
from ..flat import FITS, row_count
from ..optimise import Prices, best_counts
from ..outline import Outline, Point
from ..result import Asked, Draft, Family, Obtained, View
from ..rounds import Run, chain_ring, plan_rounds, ring_steps, round_steps
from ..telling import Told, tell

_RING_LEAST = 4


@dataclass(frozen=True, slots=True)
class Profile:
    """A curve of revolution by (height, girth) corners in cm, heights never falling; `along` is the way up its side."""

    corners: tuple[Point, ...]

    @property
    def ways(self) -> tuple[float, ...]:
        """How far up the side each corner lies."""
        total, out = 0.0, [0.0]
        for (z0, g0), (z1, g1) in zip(self.corners, self.corners[1:], strict=False):
            total += math.hypot(z1 - z0, (g1 - g0) / (2 * math.pi))
            out.append(total)
        return tuple(out)

    def silhouette(self) -> Outline:
        right = [(g / (2 * math.pi), z) for z, g in self.corners]
        return tuple(right + [(-x, z) for x, z in reversed(right)])


def checked_profile(corners: Sequence[Point]) -> Profile:
    """A profile that can be worked from its first corner to its last. Refuses falling heights, negative girths, and none at all."""
    if len(corners) < 2:
        raise Refused("A profile needs at least two (height, girth) pairs.")
    for k, (z, g) in enumerate(corners):
        if not (math.isfinite(z) and math.isfinite(g)) or g < 0:
            raise Refused(f"The girth of pair {k + 1} is not a length.", "Write height and girth in cm, nothing below 0.")
        if k and z < corners[k - 1][0] - 1e-9:
            raise Refused(
                f"The heights fall at pair {k + 1}; a piece is worked upward.", "Write the pairs from the first round to the last."
            )
    profile = Profile(tuple(corners))
    if profile.ways[-1] <= 0 or max(g for _, g in corners) <= 0:
        raise Refused("The profile has no size.")
    return profile


def plan_profile(profile: Profile, custom: Custom, *, multiple: int = 1, least: int = 0) -> tuple[tuple[int, ...], tuple[float, ...]]:
    """(stitches of every round, stitches each should have): the best whole numbers for the girths where each round is measured."""
    length = profile.ways[-1]
    rounds = row_count(length, custom)
    w = custom.width_cm
    at = round_places(profile, rounds, w)
    wanted = [max(0.3, g / w) for g in _girths(profile, at)]
    near = [_girths(profile, [min(length, max(0.0, p + d * length / rounds / 2)) for d in (-1, 0, 1)]) for p in at]
    bands = [(min(g) / w - 0.5, max(g) / w + 0.5) for g in near]
    if max(wanted) < multiple / 2:
        raise Refused(
            f"{max(wanted):.0f} stitches at the widest are less than half of a multiple of {multiple}.",
            f"The smallest girth that holds one is {units.decimal(multiple * w)} cm.",
        )
    closed = profile.corners[0][1] < 2 * w
    floor = least or (2 if custom.turning.counts and not closed else 3)
    top = [wanted[0]] if not closed else []
    first = [max(floor, round(n / multiple) * multiple or multiple) for n in top]
    prices = Prices(multiple=multiple)
    ring = range(max(floor, _RING_LEAST), max(9, int(bands[0][1]) + 1)) if closed else first
    if multiple > 1 and closed:
        ring = [n for n in range(multiple, 10 * multiple, multiple) if n <= max(multiple, bands[0][1])]
    best = best_counts(wanted, first=ring, least=floor, prices=prices, bands=bands if multiple == 1 else ())
    _follows(best.counts, wanted, bands, multiple)
    return best.counts, tuple(wanted)


def _follows(counts: Sequence[int], wanted: Sequence[float], bands: Sequence[tuple[float, float]], multiple: int) -> None:
    """Refuses a slope so flat, for its rounds, that they would have to more than double or halve."""
    for k, (n, w, (low, high)) in enumerate(zip(counts, wanted, bands, strict=True), start=1):
        if abs(n - w) > (high - low) / 2 + max(3.0, multiple, 0.1 * w):
            raise Refused(
                f"Round {k} should have about {w:.0f} stitches and comes out at {n}: no round more than doubles or halves.",
                "Make that slope longer, or work it in a shorter stitch.",
            )


def round_places(profile: Profile, rounds: int, width_cm: float) -> list[float]:
    """How far up the side each round has its girth.

    An open edge has the girth asked for itself: the first round stands on it, the last one ends at it. Between two points every round is
    taken at its middle, so that a ball comes out the same from either end.
    """
    length = profile.ways[-1]
    closed, shut = profile.corners[0][1] < 2 * width_cm, profile.corners[-1][1] < 2 * width_cm
    first = (0.5 if shut else 1.0) if closed else 0.0
    last = rounds - (0.5 if closed else 1.0) if shut else float(rounds)
    if rounds == 1:
        return [length * (first + last) / 2]
    return [length * (first + (last - first) * k / (rounds - 1)) / rounds for k in range(rounds)]


def _girths(profile: Profile, places: Sequence[float]) -> list[float]:
    import numpy as np

    return [float(g) for g in np.interp(places, profile.ways, [g for _, g in profile.corners])]


def revolve(
    family: str, title: str, profile: Profile, custom: Custom, *, multiple: int = 1, notes: Sequence[str] = (), toy: bool = True
) -> Draft:
    """Draft a profile: a ring or a joined chain, the rounds, and a closed or an open end."""
    counts, wanted = plan_profile(profile, custom, multiple=multiple)
    length = profile.ways[-1]
    w, h = custom.width_cm, custom.height_cm
    closed, shut = profile.corners[0][1] < 2 * w, profile.corners[-1][1] < 2 * w and counts[-1] <= 12
    plans = plan_rounds(counts, stacked=custom.stacked, plain_first=custom.turning.counts)
    told = [_first(counts[0], closed, custom)]
    told += [Told(round_steps(p.runs, custom), p.count, custom.stitch) for p in plans[1:]]
    rows = tell(told, made_in=custom.rounds, side=None)
    start = () if closed else (Row(id=0, label="Foundation", steps=chain_ring(counts[0])),)
    part = Part(name="Body", rows=(*start, *rows, _end(shut and toy, shut)))
    off = max(abs(n - x) for n, x in zip(counts, wanted, strict=True))
    widest = max(g for _, g in profile.corners)
    sizes = (
        Obtained("girth", widest, max(counts) * w, w, custom.stitch, f"{max(counts)} {custom.stitch}"),
        Obtained("up the side", length, len(counts) * h, h, "round", f"{len(counts)} rounds"),
    )
    finished = [FinishedSize(what="girth", cm=(round(sizes[0].cm, 1),))]
    near = (
        "Every round has the girth asked of it."
        if off < 0.05
        else f"No round is more than {units.decimal(off, 1)} stitches from the girth asked of it."
    )
    view = View(title, profile.silhouette(), _worked(counts, profile, custom))
    tolerance = (0.5 if multiple == 1 else multiple / 2, 1.0 if custom.parity else 0.5)
    far = misfit(view, custom, *tolerance)
    limit = (
        (f"Where it turns between two rounds it lies {units.decimal(far / 2, 1)} stitches or rounds from the outline asked.",)
        if far > FITS
        else ()
    )
    return Draft(
        family=family,
        pattern=pattern_of(facts_of(custom, title, finished, "toy" if toy else ""), [part]),
        custom=custom,
        sizes=sizes,
        views=(view,),
        notes=(*custom.assumed, *notes, near, *limit),
        limited=bool(limit),
        tolerance=tolerance,
        intended="toy" if toy else "",
        fit=far,
    )


def _first(count: int, closed: bool, custom: Custom) -> Told:
    if closed:
        return Told(ring_steps(count, custom), count, custom.stitch)
    return Told(round_steps((Run(times=count),), custom, in_chain=True), count, custom.stitch)


def _end(stuffed: bool, shut: bool) -> Row:
    steps = (Aside(kind="stuff"),) if stuffed else ()
    return Row(id=0, label="", steps=(*steps, Aside(kind="close") if shut else FastenOff()))


def _worked(counts: Sequence[int], profile: Profile, custom: Custom) -> Outline:
    """The silhouette that counts come out at: every round as wide as its stitches, as high as its place up the side asked for.

    How high a piece stands follows from its girths only through small differences (near the pole of a ball a stitch more or less in a
    round tilts it by a quarter turn), so no height is read from rounded counts: the girth, round by round, is what is compared.
    """
    import numpy as np

    length, rounds = profile.ways[-1], len(counts)
    way = round_places(profile, rounds, custom.width_cm)
    grown = rounds * custom.height_cm / length
    heights = np.interp(way, profile.ways, [z for z, _ in profile.corners]) * grown
    right = [(n * custom.width_cm / (2 * math.pi), float(z)) for n, z in zip(counts, heights, strict=True)]
    bottom, top = profile.corners[0][0] * grown, profile.corners[-1][0] * grown
    first = 0.0 if profile.corners[0][1] < 2 * custom.width_cm else right[0][0]
    last = 0.0 if profile.corners[-1][1] < 2 * custom.width_cm else right[-1][0]
    right = [(first, bottom), *right, (last, top)]
    return tuple(right + [(-x, z) for x, z in reversed(right)])


def tube(asked: Asked, custom: Custom) -> Draft:
    """A straight tube, open at both ends: a cowl, a cuff, a sleeve without shaping."""
    girth, length = asked.cm("girth"), asked.cm("length")
    if girth < 3 * custom.width_cm:
        raise Refused(f"A tube {girth:.1f} cm round holds fewer than 3 stitches.", f"The narrowest is {3 * custom.width_cm:.1f} cm.")
    multiple = _whole(asked, "multiple")
    return revolve("tube", "Tube", Profile(((0.0, girth), (length, girth))), custom, multiple=multiple, toy=False)


def _whole(asked: Asked, name: str) -> int:
    said = asked.words.get(name, "1")
    if not said.isdigit() or not 1 <= int(said) <= 200:
        raise Refused(f"“{said}” is no multiple.", f"Say --{name} 4.")
    return int(said)


def cone(asked: Asked, custom: Custom) -> Draft:
    """A cone from its tip, or cut off: open at the top too."""
    girth, height = asked.cm("girth"), asked.cm("height")
    top = asked.get("top", 0.0)
    return revolve("cone", "Cone", checked_profile(((0.0, top), (height, girth))), custom, multiple=_whole(asked, "multiple"), toy=False)


def sphere(asked: Asked, custom: Custom) -> Draft:
    """A ball: stitches in proportion to the sine of the latitude."""
    diameter = asked.cm("diameter")
    if diameter < 4 * custom.height_cm:
        raise Refused(f"A ball {diameter:.1f} cm across is less than four rounds.", f"The smallest is {4 * custom.height_cm:.1f} cm.")
    corners = [(diameter / 2 * (1 - math.cos(math.pi * k / 96)), math.pi * diameter * math.sin(math.pi * k / 96)) for k in range(97)]
    return revolve("sphere", "Ball", Profile(tuple(corners)), custom, multiple=_whole(asked, "multiple"))


def egg(asked: Asked, custom: Custom) -> Draft:
    """An egg: two half ellipsoids, the blunt end first, two fifths of the length."""
    length, girth = asked.cm("length"), asked.cm("girth")
    blunt = 0.4 * length
    corners: list[Point] = []
    for k in range(97):
        a = math.pi * k / 96
        z = blunt * (1 - math.cos(a)) if a <= math.pi / 2 else blunt - (length - blunt) * math.cos(a)
        corners.append((z, girth * math.sin(a)))
    return revolve("egg", "Egg", Profile(tuple(corners)), custom, multiple=_whole(asked, "multiple"))


def profile_of(text: str) -> Profile:
    """A profile as written: "0 6, 4 18, 9 12 cm" (height and girth, the unit once at the end)."""
    return checked_profile(pairs_cm(text, "pairs", "0 6, 4 18, 9 12 cm"))


def profile(asked: Asked, custom: Custom) -> Draft:
    """Any curve of revolution."""
    if "pairs" not in asked.words:
        raise Refused("A profile needs its pairs.", 'Add --pairs "0 6, 4 18, 9 12 cm" (height and girth).')
    return revolve("profile", "Piece by its profile", profile_of(asked.words["pairs"]), custom, multiple=_whole(asked, "multiple"))


_MULTIPLE = {"multiple": "keep every round a multiple of this number"}
FAMILIES = (
    Family(
        name="tube", what="a straight tube", make=tube, needs=("girth", "length"),
        lengths={"girth": "round it", "length": "along it"}, words=_MULTIPLE,
    ),
    Family(
        name="cone", what="a cone from its tip", make=cone, needs=("girth", "height"),
        lengths={"girth": "of its open end", "height": "straight up", "top": "girth where it is cut off (or a point)"}, words=_MULTIPLE,
    ),
    Family(name="sphere", what="a ball", make=sphere, needs=("diameter",), lengths={"diameter": "across"}, words=_MULTIPLE),
    Family(
        name="egg", what="an egg, the blunt end first", make=egg, needs=("length", "girth"),
        lengths={"length": "from end to end", "girth": "at the widest"}, words=_MULTIPLE,
    ),
    Family(
        name="profile", what="any piece in the round by heights and girths", make=profile,
        words={"pairs": 'height and girth of each corner: "0 6, 4 18, 9 12 cm"', **_MULTIPLE},
    ),
)  # fmt: skip
