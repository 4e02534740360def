"""Garment pieces worked flat: sleeve, back with armholes and shoulders, V-neck front."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Colour, FastenOff, FinishedSize, Leave, Make, Part, Place, Row, Sized, Skip, Step, Turn
from ..asks import Custom, Refused
from ..compiling import facts_of, flat_told, foundation, pattern_of
from ..flat import FlatPlan, plan_flat
from ..flatdraft import flat_draft
from ..outline import Outline
from ..result import Asked, Draft, Family, Obtained, View
from ..stepping import ends_of, flat_steps, foundation_chains, start_chain
from ..telling import Told, tell


def sleeve_outline(cuff: float, arm: float, length: float, cap: float) -> Outline:
    """From the cuff: straight for a tenth, widened evenly to the arm, then the cap: a step, a slope, a flat top a third as wide."""
    wide, narrow = arm / 2, cuff / 2
    rise = length * 0.9
    corners = [(narrow, 0.0), (narrow, length * 0.05), (wide, rise), (wide, length)]
    if cap > 0:
        corners += [(wide * 0.88, length), (wide * 0.34, length + cap)]
    return tuple(corners + [(-x, y) for x, y in reversed(corners)])


def sleeve(asked: Asked, custom: Custom) -> Draft:
    """A sleeve from cuff to cap."""
    cuff, arm, length = asked.cm("cuff"), asked.cm("upper-arm"), asked.cm("length")
    cap = asked.get("cap", 0.0)
    if cuff > arm:
        raise Refused(f"A cuff of {cuff:.1f} cm is wider than the upper arm of {arm:.1f} cm.", "Exchange them, or draft a trapezium.")
    return flat_draft("sleeve", "Sleeve", sleeve_outline(cuff, arm, length, cap), custom)


def body_outline(width: float, length: float, armhole: float, shoulders: float, inset: float, slope: float) -> Outline:
    """Half a body: straight to the armhole, a step in by `inset`, straight up, shoulders that fall by `slope`."""
    half, across = width / 2, width / 2 - inset
    neck = max(0.15 * width, across - shoulders)
    corners = [(half, 0.0), (half, length), (across, length), (across, length + armhole - slope), (neck, length + armhole)]
    return tuple(corners + [(-x, y) for x, y in reversed(corners)])


def back(asked: Asked, custom: Custom) -> Draft:
    """A back with armholes and sloping shoulders."""
    width, length, armhole = asked.cm("width"), asked.cm("length"), asked.cm("armhole")
    inset = asked.get("inset", width * 0.07)
    slope = asked.get("slope", min(armhole / 5, 4.0))
    shoulders = asked.get("shoulder", (width / 2 - inset) * 0.6)
    _fits(width, inset, shoulders, armhole, slope)
    return flat_draft("back", "Back", body_outline(width, length, armhole, shoulders, inset, slope), custom)


def _fits(width: float, inset: float, shoulder: float, armhole: float, slope: float) -> None:
    if inset + shoulder >= width / 2:
        most = max(0.0, width / 2 - inset) * 0.9
        raise Refused(
            f"An inset of {inset:.1f} cm and a shoulder of {shoulder:.1f} cm leave no neck on a piece {width:.1f} cm wide.",
            f"The widest shoulder is {most:.1f} cm.",
        )
    if slope >= armhole:
        raise Refused(f"Shoulders that fall {slope:.1f} cm need an armhole deeper than {armhole:.1f} cm.", "Make the slope smaller.")


def v_neck_front(asked: Asked, custom: Custom) -> Draft:
    """A front with a V-neck: one piece to the point of the V, then each side by itself, the second a true mirror of the first."""
    width, length, armhole = asked.cm("width"), asked.cm("length"), asked.cm("armhole")
    inset = asked.get("inset", width * 0.07)
    neck = asked.get("neck", width * 0.3)
    depth = asked.get("neck-depth", armhole * 0.8)
    shoulder = width / 2 - inset - neck / 2
    if shoulder < 2 * custom.width_cm:
        raise Refused(f"A neck of {neck:.1f} cm leaves no shoulder on a piece {width:.1f} cm wide.", f"The widest is {width * 0.6:.1f} cm.")
    if depth > length + armhole - 2 * custom.height_cm:
        raise Refused(
            f"A V {depth:.1f} cm deep is longer than the piece.", f"The deepest is {length + armhole - 2 * custom.height_cm:.1f} cm."
        )
    lower, upper = _fronts(width, length, armhole, inset, neck, depth)
    body = plan_flat(lower, replace(custom, parity="odd"))
    half = body.rows[-1].count // 2
    side = plan_flat(upper, replace(custom, parity=""))
    side = _begun_at(side, half, custom)
    return _two_sides(body, side, width, length + armhole, custom)


def _fronts(width: float, length: float, armhole: float, inset: float, neck: float, depth: float) -> tuple[Outline, Outline]:
    """The piece below the point of the V, and its left half above it (edge A at the armhole, edge B at the neck)."""
    point = length + armhole - depth
    half, total = width / 2, length + armhole
    if point <= length:
        lower: Outline = ((0, 0), (width, 0), (width, point), (0, point))
        left = [(0.0, 0.0), (half, 0.0), (half - neck / 2, depth), (inset, depth), (inset, length - point), (0.0, length - point)]
        if length - point < 1e-6:
            left = [(inset, 0.0), (half, 0.0), (half - neck / 2, depth), (inset, depth)]
        return lower, tuple(left)
    lower = (
        (0, 0), (width, 0), (width, length), (width - inset, length), (width - inset, point), (inset, point), (inset, length), (0, length),
    )  # fmt: skip
    return lower, ((inset, 0.0), (half, 0.0), (half - neck / 2, total - point), (inset, total - point))


def _begun_at(side: FlatPlan, half: int, custom: Custom) -> FlatPlan:
    """The side's rows begun on the `half` stitches that the body leaves it: what that differs from the outline is made up at the neck."""
    first = side.rows[0]
    gap = half - first.count
    rows = tuple(replace(row, count=row.count + gap) for row in side.rows)
    if min(row.count for row in rows) < 2:
        raise Refused("The sides of this V come out narrower than two stitches.", "Make the neck narrower.")
    return replace(side, foundation=half, rows=rows)


def _two_sides(body: FlatPlan, side: FlatPlan, width: float, height: float, custom: Custom) -> Draft:
    last, count = len(body.rows), body.rows[-1].count
    half = count // 2
    chain = foundation(foundation_chains(body.foundation, custom))
    first = tell(_side_rows(side, half, 0, last, custom), first=last + 1, side=None)
    begun = last + len(side.rows) + 1
    second = tell(_side_rows(side, half, count - 2 * half, last, custom, again=True), first=begun, side=None)
    cut = Row(id=0, label="", steps=(FastenOff(),))
    part = Part(name="Front", rows=(chain, *tell(flat_told(body, custom)), *first, cut, *second, cut))
    rows, wide = last + len(side.rows), body.widest * custom.width_cm
    free = "The V begins between two stitches." if count % 2 == 0 else "One stitch stays free at the point of the V."
    return Draft(
        family="v-neck-front",
        pattern=pattern_of(facts_of(custom, "V-neck front", [FinishedSize(what="width", cm=(round(wide, 1),))], "garment"), [part]),
        custom=custom,
        sizes=(
            Obtained("width", width, wide, custom.width_cm, custom.stitch, f"{body.widest} {custom.stitch}"),
            Obtained("length", height, rows * custom.height_cm, custom.height_cm, "row", f"{rows} rows"),
        ),
        views=(View("Front", body.asked, body.obtained), View("One side of the neck", side.asked, side.obtained)),
        notes=(*custom.assumed, free, f"Row {begun} is worked on Row {last} again, and mirrors Row {last + 1}."),
        tolerance=(1.0, 1.0),
        intended="garment",
    )


def _side_rows(side: FlatPlan, half: int, free: int, last: int, custom: Custom, *, again: bool = False) -> list[Told]:
    """The rows of one side of the neck. The first begins at the armhole; the second (`again`) is joined in beside the neck."""
    stitch, own = custom.stitch, 1 if custom.turning.counts else 0
    if again:
        skip: tuple[Step, ...] = (Skip(number=Sized.of(free)),) if free else ()
        join = Colour(yarn="yarn", join_in=True, at=Place(row=f"Row {last}"))
        begun: tuple[Step, ...] = (*skip, join, start_chain(custom), Make(stitch=stitch, places="rest"), Turn())
    else:
        begun = (start_chain(custom), Make(stitch=stitch, places=Sized.of(half - own)), Leave(), Turn())
    told = [Told(begun, half, stitch)]
    below = half
    for k, row in enumerate(side.rows[1:], start=2):
        outer, neck = (row.a, row.square_a), (row.b, row.square_b)
        begin, end = (neck, outer) if (k % 2 == 0) != again else (outer, neck)
        ends = ends_of(below, begin[0], end[0], begin[1], end[1], custom)
        told.append(Told(flat_steps(ends, custom), row.count, stitch))
        below = row.count
    return told


_BODY = {
    "width": "of the piece (half the body)",
    "length": "from the hem to the armhole",
    "armhole": "its depth",
    "inset": "how far the armhole cuts in",
}
FAMILIES = (
    Family(
        name="sleeve",
        what="a sleeve from cuff to cap",
        make=sleeve,
        needs=("cuff", "upper-arm", "length"),
        lengths={
            "cuff": "round the cuff",
            "upper-arm": "round the arm",
            "length": "to the armhole",
            "cap": "height of the cap (left out: none)",
        },
    ),
    Family(
        name="back",
        what="a back with armholes and sloping shoulders",
        make=back,
        needs=("width", "length", "armhole"),
        lengths={**_BODY, "shoulder": "width of one shoulder", "slope": "how far the shoulders fall"},
    ),
    Family(
        name="v-neck-front",
        what="a front with a V-neck, its second side the mirror of its first",
        make=v_neck_front,
        needs=("width", "length", "armhole"),
        lengths={**_BODY, "neck": "width of the neck", "neck-depth": "from the shoulder to the point of the V"},
    ),
)
