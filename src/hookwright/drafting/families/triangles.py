"""Triangles, a kite, and pieces whose rows bend round a corner: triangle from the middle out, mitred square."""

from __future__ import annotations

from ...pattern import Make, Part, Place, Sized, Step, Turn
from ...trade import units
from ..asks import Custom, Refused
from ..compiling import ended, facts_of, foundation, pattern_of
from ..flat import row_count
from ..flatdraft import flat_draft
from ..outline import Outline, box
from ..result import Asked, Draft, Family, Obtained, View
from ..spread import rhythm
from ..stepping import FIRST, LAST, SAME, first_row, foundation_chains, start_chain, tog
from ..telling import Told, tell

IN_ONE_MOST = 9
CENTRE = Place(nth=0)
"""The stitch in the middle of a row, that its corner is worked in."""


def triangle(asked: Asked, custom: Custom) -> Draft:
    """A triangle, begun at its point, at its long side, with one straight edge, or from the middle of the long side outward."""
    start = asked.word("start", "point", ("point", "long-side", "one-sided", "middle"))
    if start == "middle":
        return _middle_out(asked, custom)
    width, depth = asked.cm("width"), asked.cm("depth")
    title = {"point": "Triangle from the point", "long-side": "Triangle from the long side", "one-sided": "One-sided triangle"}[start]
    outline: Outline = {
        "point": ((0.0, 0.0), (width / 2, depth), (-width / 2, depth)),
        "long-side": ((0.0, 0.0), (width, 0.0), (width / 2, depth)),
        "one-sided": ((0.0, 0.0), (depth, width), (0.0, width)),
    }[start]
    across, along = ("depth", "width") if start == "one-sided" else ("width", "depth")
    return flat_draft("triangle", title, outline, custom, across=across, along=along)


def kite(asked: Asked, custom: Custom) -> Draft:
    """A kite from one point to the other."""
    width, length = asked.cm("width"), asked.cm("length")
    widest = asked.get("widest-at", length / 3)
    if widest >= length:
        raise Refused(f"A kite {length:.1f} cm long cannot be widest at {widest:.1f} cm.", "Choose a height below its length.")
    return flat_draft("kite", "Kite", ((0, 0), (width / 2, widest), (0, length), (-width / 2, widest)), custom)


def _middle_out(asked: Asked, custom: Custom) -> Draft:
    """From the middle of the long side: each row runs along both short sides, and grows at its ends and at its middle.

    The short sides of a right-angled triangle of depth d are at distance r × row height from the middle after r rows, so that the row is
    4 r × row height long: 4 × row height ÷ stitch width stitches more in every row, a quarter of them at each end and half at the middle.
    """
    if "depth" not in asked.lengths and "width" not in asked.lengths:
        asked.cm("depth")
    depth = asked.lengths.get("depth", asked.lengths.get("width", 0.0) / 2)
    width = asked.lengths.get("width", 2 * depth)
    if abs(width - 2 * depth) > 0.02 * width:
        raise Refused(
            f"From the middle out a triangle is twice as wide as deep; {width:.0f} × {depth:.0f} cm is not.",
            f"Ask {2 * depth:.0f} × {depth:.0f} cm, or begin at the long side (--start long-side).",
        )
    apothem = depth / 2**0.5
    rows = row_count(apothem, custom)
    gains = rhythm(custom.ratio, rows)
    _bounded(2 * max(gains) + 1, custom, "--start long-side")
    legs, told = _legs_out(gains, custom)
    got = rows * custom.height_cm * 2**0.5
    row_cm = custom.height_cm * 2**0.5
    note = f"Each row gains {units.decimal(4 * custom.ratio)} stitches on average: 4 × row height ÷ stitch width."
    part = Part(name="Body", rows=(foundation(1 + custom.turning.chains), *ended(tell(told))))
    return Draft(
        family="triangle",
        pattern=pattern_of(facts_of(custom, "Triangle from the middle out", (), "flat"), [part]),
        custom=custom,
        sizes=(
            Obtained("width", width, 2 * got, 2 * row_cm, "row", f"{legs} {custom.stitch} each short side"),
            Obtained("depth", depth, got, row_cm, "row", f"{rows} rows"),
        ),
        views=(View("Triangle from the middle out", _half_square(depth), _half_square(got)),),
        notes=(*custom.assumed, note),
        tolerance=(max(1.0, 0.75 * custom.ratio), 1.0 if custom.parity else 0.75),  # half a row lies at 45° to both
        intended="flat",
    )


def _half_square(depth: float) -> Outline:
    return ((-depth, 0.0), (depth, 0.0), (0.0, depth))


def _legs_out(gains: tuple[int, ...], custom: Custom) -> tuple[int, list[Told]]:
    """Rows that grow at both ends and at the middle: stitches a leg, the middle stitch between them."""
    leg = max(1, 2 * gains[0]) if gains else 1
    count = 2 * leg + 1
    told = [Told(first_row(1, count, custom), count, custom.stitch)]
    for gain in gains[1:]:
        told.append(Told(_bent_row(leg, gain, custom), count + 4 * gain, custom.stitch))
        leg, count = leg + 2 * gain, count + 4 * gain
    return leg, told


def _bent_row(leg: int, gain: int, custom: Custom) -> tuple[Step, ...]:
    """A row of two legs: `gain` more at each end, and on either side of the middle stitch."""
    stitch, own = custom.stitch, custom.turning.counts
    if not gain:
        return (start_chain(custom), Make(stitch=stitch, places="rest"), Turn())
    steps: list[Step] = [
        start_chain(custom),
        Make(stitch=stitch, each=Sized.of(gain if own else gain + 1), at=SAME if own else FIRST),
        Make(stitch=stitch, places="rest", upto="center"),
        Make(stitch=stitch, each=Sized.of(2 * gain + 1), at=CENTRE),
        Make(stitch=stitch, places="rest", but=Sized.of(1)),
        Make(stitch=stitch, each=Sized.of(gain + 1), at=LAST),
        Turn(),
    ]
    if leg == 1:
        steps = [step for step in steps if not (isinstance(step, Make) and step.places == "rest")]
    return tuple(steps)


def mitred_corner(asked: Asked, custom: Custom) -> Draft:
    """A square worked from two of its sides to the corner between the other two: stitches are closed together at the middle.

    After r rows the legs are shorter by r × row height: row height ÷ stitch width stitches are lost on either side of the middle a row.
    """
    side = asked.cm("side")
    w, h = custom.width_cm, custom.height_cm
    rows = row_count(side, custom)
    own = 1 if custom.turning.counts else 0
    # Row 1 is plain: half a row's loss is taken from its width, but no more than a stitch can be off.
    leg = max(1, own, round(side / w - 0.5 - min(0.5, max(0.0, custom.ratio / 2 - 0.5))))
    losses = _losses(min(custom.ratio, (leg - own) / max(1, rows - 1)), leg, rows, 1 + own)
    _closable(max(losses, default=0), custom)
    foundation_count = 2 * leg + 1
    told = [Told(first_row(foundation_count, foundation_count, custom), foundation_count, custom.stitch)]
    now = leg
    for loss in losses:
        now -= loss
        told.append(Told(_closing_row(now, loss, custom), 2 * now + 1, custom.stitch))
    got_w, got_h = (leg + 0.5) * w, rows * h
    part = Part(name="Body", rows=(foundation(foundation_chains(foundation_count, custom)), *ended(tell(told))))
    return Draft(
        family="mitred-corner",
        pattern=pattern_of(facts_of(custom, "Mitred corner", (), "flat"), [part]),
        custom=custom,
        sizes=(
            Obtained("side along the first row", side, got_w, w, custom.stitch, f"{leg} {custom.stitch} and half the corner stitch"),
            Obtained("side across the rows", side, got_h, h, "row", f"{rows} rows"),
        ),
        views=(View("Mitred corner", box(side, side), box(got_w, got_h)),),
        notes=custom.assumed,
        tolerance=(1.0, 1.0 if custom.parity else 0.5),
        intended="flat",
    )


def _losses(amount: float, leg: int, rows: int, least: int) -> list[int]:
    """What each leg loses in every row after the first. Closed beside the corner stitch it leaves `least` stitches of the leg."""
    losses, left = [], leg
    for loss in rhythm(amount, rows - 1):
        losses.append(min(loss, max(0, left - least)) if _beside(loss) else loss)
        left -= losses[-1]
    return losses


def _beside(loss: int) -> bool:
    """Whether a corner that loses so much on either side is too much for one stitch and is closed on either side of its middle stitch."""
    return 2 * loss + 1 > IN_ONE_MOST


def _closable(loss: int, custom: Custom) -> None:
    if loss + 1 > IN_ONE_MOST:
        raise Refused(
            f"A row of this gauge is {custom.ratio:.1f} stitch widths high: {loss + 1} stitches would be closed in one on either side of "
            f"the corner, more than {IN_ONE_MOST}.",
            f"The highest row that can be mitred is {(IN_ONE_MOST - 1) * custom.width_cm:.1f} cm: take a shorter stitch, or draft a bias "
            "square.",
        )


def _closing_row(leg: int, loss: int, custom: Custom) -> tuple[Step, ...]:
    stitch, own = custom.stitch, 1 if custom.turning.counts else 0
    if not loss:
        return (start_chain(custom), Make(stitch=stitch, places="rest"), Turn())
    if _beside(loss):
        return _closed_beside(leg, loss, custom)
    closed = Make(stitch=tog(stitch, 2 * loss + 1), closes=2 * loss + 1, at=FIRST if leg == 0 and not own else Place())
    before = (Make(stitch=stitch, places="rest", but=Sized.of(loss), upto="center"),) if leg - own > 0 else ()
    after = (Make(stitch=stitch, places="rest"),) if leg else ()
    return (start_chain(custom), *before, closed, *after, Turn())


def _closed_beside(leg: int, loss: int, custom: Custom) -> tuple[Step, ...]:
    """The corner stitch stays; `loss` stitches are lost in one on either side of it. A counted chain stands for the first of a leg."""
    stitch, own = custom.stitch, 1 if custom.turning.counts else 0
    plain = leg - 1 - own
    closed = Make(stitch=tog(stitch, loss + 1), closes=loss + 1, at=Place() if plain or own else FIRST)
    before = (Make(stitch=stitch, places="rest", but=Sized.of(loss + 1), upto="center"),) if plain > 0 else ()
    after = (Make(stitch=stitch, places="rest"),) if leg > 1 else ()
    second = Make(stitch=tog(stitch, loss + 1), closes=loss + 1)
    return (start_chain(custom), *before, closed, Make(stitch=stitch), second, *after, Turn())


def _bounded(in_one: int, custom: Custom, instead: str) -> None:
    if in_one > IN_ONE_MOST:
        raise Refused(
            f"A row of this gauge is {custom.ratio:.1f} stitch widths high: its corner would need {in_one} stitches in one, more than "
            f"{IN_ONE_MOST}.",
            f"Work it in straight rows ({instead}), or in a shorter stitch.",
        )


FAMILIES = (
    Family(
        name="triangle",
        what="a triangle: from the point, the long side, one-sided, or from the middle out",
        make=triangle,
        lengths={"width": "of the long side (one-sided: of the straight edge)", "depth": "from the long side to the point"},
        words={"start": "point, long-side, one-sided, middle"},
    ),
    Family(
        name="kite",
        what="a kite from point to point",
        make=kite,
        needs=("width", "length"),
        lengths={
            "width": "at the widest row",
            "length": "from point to point",
            "widest-at": "height of the widest row (left out: a third)",
        },
    ),
    Family(
        name="mitred-corner",
        what="a square worked from two sides to a corner, closed at its middle",
        make=mitred_corner,
        needs=("side",),
        lengths={"side": "of the square"},
    ),
)
