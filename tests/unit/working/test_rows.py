"""Rows worked from steps put together by hand."""

from itertools import count

from hookwright.pattern import Chain, Join, Make, Part, Pattern, Place, Repeat, Ring, Row, Sized, Skip, Step, Times, Together, Turn
from hookwright.working import Fabric, Role, work

ids = count(1)


def n(value: int) -> Sized[int]:
    return Sized.of(value)


def rows(*steps: tuple[Step, ...], made_in: str = "rows") -> Fabric:
    written = tuple(
        Row(id=next(ids), label=f"Row {i}", numbers=((i,),), steps=s, made_in=made_in, noun="row" if made_in == "rows" else "round")  # type: ignore[arg-type]
        for i, s in enumerate(steps, 1)
    )
    return work(Pattern(parts=(Part(name="", rows=written),)))


def totals(fabric: Fabric) -> list[int]:
    return [r.counted.total for r in fabric.parts[0].rows if not r.foundation]


def test_single_crochet_from_second_chain() -> None:
    fabric = rows(
        (Chain(number=n(11), foundation=True), Make(stitch="sc", at=Place(where="from_hook", nth=2)), Make(stitch="sc", places="rest")),
        (Chain(number=n(1)), Turn(), Make(stitch="sc", places="rest")),
    )
    assert totals(fabric) == [10, 10]
    first = fabric.parts[0].rows[1]
    assert (first.offered, first.used) == (11, 11)
    assert len(fabric.parts[0].rows[0].stitches) == 10
    assert first.stitches.role[0] == Role.START


def test_counted_chain_stands_for_a_stitch() -> None:
    fabric = rows(
        (Chain(number=n(12), foundation=True), Make(stitch="dc", at=Place(where="from_hook", nth=4)), Make(stitch="dc", places="rest")),
        (Chain(number=n(3), counts=True), Turn(), Make(stitch="dc", places="rest")),
        (Chain(number=n(3), counts=True), Turn(), Make(stitch="dc", at=Place(where="first")), Make(stitch="dc", places="rest")),
    )
    assert totals(fabric) == [10, 10, 11]
    assert [r.begins for r in fabric.parts[0].rows[1:]] == ["A", "B", "A"]


def test_rounds_in_a_ring_with_increases() -> None:
    fabric = rows(
        (Ring(), Make(stitch="sc", each=n(6), at=Place(where="ring"))),
        (Repeat(body=(Make(stitch="sc", each=n(2)),), times=Times(kind="rest")),),
        (Repeat(body=(Make(stitch="sc"), Make(stitch="sc", each=n(2))), times=Times(kind="n", number=n(6))),),
        made_in="spiral",
    )
    assert totals(fabric) == [6, 12, 18]


def test_the_centre_of_a_row_is_no_fan_at_its_end() -> None:
    """Three in the first stitch widen the row; "center st" is the middle of the fan along it, or of a plain row of an odd number."""
    fan = (
        Make(stitch="sc", each=n(3), at=Place(where="first")),
        Make(stitch="sc", places="rest", upto="center"),
        Make(stitch="sc", each=n(5), at=Place(nth=0)),
        Make(stitch="sc", places="rest", but=n(1)),
        Make(stitch="sc", each=n(3), at=Place(where="last")),
    )
    fabric = rows(
        (Chain(number=n(8), foundation=True), Make(stitch="sc", at=Place(where="from_hook", nth=2)), Make(stitch="sc", places="rest")),
        (Turn(), Chain(number=n(1)), *fan),
        (Chain(number=n(1)), *fan),
    )
    assert totals(fabric) == [7, 15, 23]
    last = fabric.parts[0].rows[-1].stitches
    feet = [at for k in last.counted() for _, at, _ in last.feet_of(k)]
    assert [feet.count(at) for at in feet] == [3] * 3 + [1] * 6 + [5] * 5 + [1] * 6 + [3] * 3


def test_mesh_goes_from_stitch_to_stitch() -> None:
    mesh = (Chain(number=n(4)), Make(stitch="dc", at=Place(what="dc")))
    fabric = rows(
        (Chain(number=n(12), foundation=True), Make(stitch="dc", at=Place(where="from_hook", nth=4)), Make(stitch="dc", places="rest")),
        (
            Chain(number=n(4), stands_for=("dc", "ch 1")), Turn(), Skip(), Make(stitch="dc"),
            Repeat(body=(Chain(number=n(1)), Skip(), Make(stitch="dc")), times=Times(kind="rest")),
        ),
        (
            Chain(number=n(3)), Turn(),
            Repeat(body=(Make(stitch="dc", at=Place(what="ch-1 sp")), Make(stitch="dc")), times=Times(kind="rest")),
        ),
    )  # fmt: skip
    del mesh
    second = fabric.parts[0].rows[2]
    assert second.counted.by_kind == {"dc": 5 if second.offered == 9 else 6, "ch": 4, "ch-1 sp": 4, "sp": 4} or second.troubles


def test_granny_round_in_spaces() -> None:
    corner = Together(body=(Make(stitch="dc", places=n(3)), Chain(number=n(2)), Make(stitch="dc", places=n(3))), at=Place(what="ch-2 sp"))
    first = Together(
        body=(Chain(number=n(3)), Make(stitch="dc", places=n(2)), Chain(number=n(2)), Make(stitch="dc", places=n(3))),
        at=Place(what="ch-2 sp"),
    )
    fabric = rows(
        (
            Ring(), Chain(number=n(3)), Make(stitch="dc", places=n(2), at=Place(where="ring")), Chain(number=n(2)),
            Repeat(body=(Make(stitch="dc", places=n(3), at=Place(where="ring")), Chain(number=n(2))), times=Times(kind="n", number=n(3))),
            Join(),
        ),
        (
            Make(stitch="sl st", at=Place(what="ch-2 sp")), first, Chain(number=n(1)),
            Repeat(body=(corner, Chain(number=n(1))), times=Times(kind="n", number=n(3))), Join(),
        ),
        made_in="joined",
    )  # fmt: skip
    assert totals(fabric) == [12, 24]
    assert not [t for r in fabric.parts[0].rows for t in r.troubles]
    assert fabric.parts[0].rows[2].counted.by_kind["ch-2 sp"] == 4


def test_a_repeat_that_does_not_fit_is_found() -> None:
    fabric = rows(
        (Chain(number=n(12), foundation=True), Make(stitch="sc", at=Place(where="from_hook", nth=2)), Make(stitch="sc", places="rest")),
        (
            Chain(number=n(1)), Turn(), Repeat(body=(Make(stitch="sc", places=n(3)), Skip(number=n(1))), times=Times(kind="rest")),
            Make(stitch="sc", places=n(2), at=Place(where="last")),
        ),
    )  # fmt: skip
    assert [t.kind for t in fabric.parts[0].rows[2].troubles] == ["repeat-does-not-fit"]
