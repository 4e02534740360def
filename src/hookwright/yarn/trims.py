"""Trims: the yarn in a tassel, fringe, pompom, cord, edging or button, reserved before the rows are counted; the cutting list.

tassel = wraps x 2 x card + tie + neck          pompom = wraps x 2 x card + tie
fringe = knots x strands x (2 x length + knot)  cord   = length x take-up x strands
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..pattern import Trim
from .amounts import YarnError

TIE_CM = 30.0
"""One tie (common practice: ties of 30 cm)."""
CUSTOM = {"wraps": 24, "card_cm": 10.0, "strands": 4, "length_cm": 15.0}
"""A tassel of 24 wraps on a 10 cm card; a fringe of 4 strands, 15 cm long (common practice, no source)."""
KNOT_CM = 5.0
"""Length that the knot of one fringe strand takes (common practice: 2.5-5 cm)."""
TAKE_UP = {"twisted": 2.5, "chain": 5.0, "i-cord": 14.0}
"""Yarn per length of cord: each strand of a twisted cord shortens to 2/5 (common practice); a chain takes 5 (windchilde.com/bluedepth);
a knitted-looking cord of 3 loops about 14 (from memory)."""
BUTTON_M = 1.5
"""A crocheted button and its sewing (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One line of the cutting list: so many pieces of so many cm, of one yarn, for one use."""

    yarn: str
    pieces: int
    length_cm: float
    use: str

    @property
    def metres(self) -> float:
        return self.pieces * self.length_cm / 100


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimUse:
    """One kind of trim: its number, the metres in each and in all, its cutting list, and the sum in words. `assumed`: what was not told."""

    kind: str
    number: int
    yarn: str
    metres_each: float
    cuts: tuple[Cut, ...]
    working: str
    assumed: tuple[str, ...] = ()

    @property
    def metres(self) -> float:
        return self.metres_each * self.number


def trim_use(trim: Trim, *, yarn: str = "") -> TrimUse:
    """The yarn in one kind of trim. Raises YarnError for a number, wrap or length less than nothing, or a kind that is not known.

    >>> use = trim_use(Trim(kind="tassel", number=2, wraps=24, card_cm=10, tie_cm=30))
    >>> use.metres_each, use.working
    (5.4, 'tassel: 24 wraps x 2 x 10 cm + tie 30 cm + neck 30 cm = 540 cm')
    """
    _refuse_negative(trim)
    kind = trim.kind.lower().rstrip("s").replace("-", "").replace(" ", "")
    make = {"tassel": _wound, "pompom": _wound, "pompon": _wound, "fringe": _fringe, "cord": _cord, "tie": _cord, "button": _button}.get(
        kind
    )
    if make is None:
        raise YarnError(f'A trim of kind "{trim.kind}" is not known: tassel, fringe, pompom, cord and button are.')
    return make(trim, yarn or trim.yarn)


def _refuse_negative(trim: Trim) -> None:
    for name in ("number", "wraps", "card_cm", "strands", "length_cm", "tie_cm"):
        value = getattr(trim, name)
        if value is not None and value < 0:
            raise YarnError(f"The {trim.kind}'s {name.removesuffix('_cm')} is {value:g}: it cannot be less than nothing.")


def _told(trim: Trim, name: str) -> tuple[float, str]:
    value = getattr(trim, name)
    if value is not None:
        return float(value), ""
    return float(CUSTOM[name]), f"{name.removesuffix('_cm')} not told: {CUSTOM[name]:g}{' cm' if name.endswith('_cm') else ''} taken"


def _wound(trim: Trim, yarn: str) -> TrimUse:
    (wraps, no_wraps), (card, no_card) = _told(trim, "wraps"), _told(trim, "card_cm")
    tie = TIE_CM if trim.tie_cm is None else trim.tie_cm
    tassel = trim.kind.lower().startswith("tassel")
    ties = 2 if tassel else 1
    each = wraps * 2 * card + ties * tie
    neck = f" + neck {tie:g} cm" if tassel else ""
    name = "tassel" if tassel else "pompom"
    cuts = (
        Cut(yarn=yarn, pieces=trim.number, length_cm=wraps * 2 * card, use=f"{name}: {wraps:g} wraps on a {card:g} cm card"),
        Cut(yarn=yarn, pieces=trim.number * ties, length_cm=tie, use=f"{name}: tie and neck" if tassel else f"{name}: tie"),
    )
    working = f"{name}: {wraps:g} wraps x 2 x {card:g} cm + tie {tie:g} cm{neck} = {each:g} cm"
    return TrimUse(kind=name, number=trim.number, yarn=yarn, metres_each=each / 100, cuts=cuts, working=working,
                   assumed=tuple(a for a in (no_wraps, no_card) if a))  # fmt: skip


def _fringe(trim: Trim, yarn: str) -> TrimUse:
    (strands, no_strands), (length, no_length) = _told(trim, "strands"), _told(trim, "length_cm")
    knot = KNOT_CM if trim.tie_cm is None else trim.tie_cm
    strand = 2 * length + knot
    each = strands * strand
    working = f"fringe: {trim.number} knots x {strands:g} strands x (2 x {length:g} cm + knot {knot:g} cm) = {trim.number * each:g} cm"
    cut = Cut(yarn=yarn, pieces=round(trim.number * strands), length_cm=strand, use=f"fringe: {strands:g} strands a knot, folded")
    return TrimUse(kind="fringe", number=trim.number, yarn=yarn, metres_each=each / 100, cuts=(cut,), working=working,
                   assumed=tuple(a for a in (no_strands, no_length) if a))  # fmt: skip


def _cord(trim: Trim, yarn: str) -> TrimUse:
    length, assumed = _told(trim, "length_cm")
    strands = trim.strands or 2
    strand = length * TAKE_UP["twisted"] + 2 * (10.0 if trim.tie_cm is None else trim.tie_cm)
    each = strands * strand
    working = f"cord: {strands} strands x ({length:g} cm x {TAKE_UP['twisted']:g} + two knots) = {each:g} cm"
    cut = Cut(yarn=yarn, pieces=trim.number * strands, length_cm=strand, use="twisted cord")
    return TrimUse(kind="cord", number=trim.number, yarn=yarn, metres_each=each / 100, cuts=(cut,), working=working,
                   assumed=(assumed,) if assumed else ())  # fmt: skip


def _button(trim: Trim, yarn: str) -> TrimUse:
    cut = Cut(yarn=yarn, pieces=trim.number, length_cm=BUTTON_M * 100, use="crocheted button")
    return TrimUse(kind="button", number=trim.number, yarn=yarn, metres_each=BUTTON_M, cuts=(cut,),
                   working=f"button: {BUTTON_M:g} m each", assumed=(f"{BUTTON_M:g} m a button taken, from memory",))  # fmt: skip


def edging_m(length_cm: float, stitches_per_cm: float, metres_per_stitch: float, rounds: int = 1, corners: int = 0) -> float:
    """An edging along an edge: stitches by gauge, two more in each corner of every round.

    >>> round(edging_m(200, 1.4, 0.06, corners=4), 2)
    17.28
    """
    return rounds * (length_cm * stitches_per_cm + 2 * corners) * metres_per_stitch


def how_many(left_m: float, each_m: float) -> int:
    """How many trims of `each_m` metres the yarn that is left gives.

    >>> how_many(12, 5.4)
    2
    """
    if left_m < 0 or each_m <= 0:
        raise YarnError("How many trims can be made needs yarn that is left and a trim that takes some.")
    return int(left_m / each_m + 1e-9)


def cutting_list(uses: Iterable[TrimUse]) -> tuple[Cut, ...]:
    """All pieces to cut, longest first, equal ones put together."""
    pieces: dict[tuple[str, float, str], int] = {}
    for use in uses:
        for cut in use.cuts:
            key = (cut.yarn, cut.length_cm, cut.use)
            pieces[key] = pieces.get(key, 0) + cut.pieces
    order = sorted(pieces, key=lambda key: (key[0], -key[1], key[2]))
    return tuple(Cut(yarn=yarn, pieces=pieces[yarn, length, use], length_cm=length, use=use) for yarn, length, use in order)


CAUTION = (
    "Tassels, cords and pompoms can be pulled off, swallowed or catch round a neck: for a young child leave them off, or ask "
    "what your local "
    "rules say (cords on children's clothing, toys) and have an accredited laboratory test what you sell."
)
"""The usual caution, said whenever a trim is planned."""
