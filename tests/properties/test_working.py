"""Working never raises and always ends, whatever steps it is given; what it makes is consistent."""

import time

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hookwright.pattern import (
    Chain,
    Colour,
    Even,
    FastenOff,
    Join,
    Leave,
    Limits,
    Make,
    Part,
    Pattern,
    Place,
    Refer,
    Repeat,
    Ring,
    Row,
    Shape,
    Sized,
    Skip,
    Step,
    Times,
    Together,
    Turn,
    Unread,
)  # fmt: skip
from hookwright.working import RING_FOOT, Role, work

numbers = st.integers(0, 30).map(lambda n: Sized.of(n))
kinds = st.sampled_from(("sc", "hdc", "dc", "tr", "dc2tog", "FPdc", "sl st", "puff", "picot", "inc", "dec", "fsc"))
whats = st.sampled_from(("st", "ch", "sp", "ch-2 sp", "dc", "shell", "ch-3", "loop", "nonsense"))
places = st.builds(
    Place,
    where=st.sampled_from(
        ("next", "same", "first", "last", "ring", "from_hook", "row_end", "under", "marked", "skipped", "named", "hook")
    ),
    what=whats, nth=st.integers(1, 6), loop=st.sampled_from(("both", "front", "back", "third", "free_front")), below=st.integers(0, 3),
    row=st.sampled_from((None, None, None, "Row 1", "Row 99")),
)  # fmt: skip
leaves: st.SearchStrategy[Step] = st.one_of(
    st.builds(Make, stitch=kinds, each=numbers, places=st.one_of(numbers, st.just("rest")), but=numbers, at=places, evenly=st.booleans()),
    st.builds(Chain, number=numbers, counts=st.sampled_from((None, True, False)), foundation=st.booleans()),
    st.builds(Skip, number=numbers, what=whats), st.builds(Turn, no=st.booleans()), st.builds(Join), st.builds(Ring), st.builds(Unread),
    st.builds(Leave, number=st.one_of(st.none(), numbers)), st.builds(FastenOff), st.builds(Colour, yarn=st.sampled_from("ABC")),
    st.builds(Even), st.builds(Refer, rows=st.lists(st.integers(1, 6), max_size=2).map(tuple), last=st.integers(0, 3)),
    st.builds(
        Shape, change=st.integers(-3, 4).map(lambda n: Sized.of(n)), where=st.sampled_from(("each_end", "beginning", "end", "evenly"))
    ),
)  # fmt: skip
times = st.builds(Times, kind=st.sampled_from(("n", "more", "rest", "to_last")), number=numbers, what=whats)
steps: st.SearchStrategy[Step] = st.recursive(
    leaves,
    lambda inner: st.one_of(
        st.builds(Repeat, body=st.lists(inner, max_size=4).map(tuple), times=times, last=st.lists(inner, max_size=2).map(tuple)),
        st.builds(Together, body=st.lists(inner, max_size=3).map(tuple), at=places, places=st.one_of(numbers, st.just("rest"))),
    ),
    max_leaves=8,
)
written = st.lists(
    st.tuples(st.lists(steps, max_size=6).map(tuple), st.sampled_from(("rows", "joined", "spiral", "joined-turned"))), max_size=6
)
NO_STITCH = (3, 5)
"""Rows of the list below that ask for no stitch at all."""
SMALL = Limits(row_stitches=20_000, stitches=100_000)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(written)
def test_any_steps_are_worked_without_raising(rows: list[tuple[tuple[Step, ...], str]]) -> None:
    pattern = Pattern(
        parts=(
            Part(
                name="any",
                rows=tuple(Row(id=i, label=f"Row {i}", numbers=((i,),), steps=s, made_in=m) for i, (s, m) in enumerate(rows, 1)),  # type: ignore[arg-type]
            ),
        )
    )
    fabric = work(pattern, limits=SMALL)
    for part in fabric.parts:
        for row in part.rows:
            s = row.stitches
            assert len(s.kind) == len(s.role) == len(s.step) == len(s.colour) == len(s.feet) - 1
            assert s.feet[-1] == len(s.foot_at) == len(s.foot_back) == len(s.foot_how)
            assert all(at == RING_FOOT or at >= 0 for at in s.foot_at)
            for i in range(len(s)):
                for back, at, _ in s.feet_of(i):
                    target = row.index - back
                    if at >= 0 and back and 0 <= target < len(part.rows):
                        assert at < max(len(part.rows[target].stitches), 1)
            assert (
                row.counted.total <= sum(1 for r in s.role if r in (Role.STITCH, Role.START_TOP)) or row.troubles or row.state != "agrees"
            )


def test_enormous_numbers_end_soon() -> None:
    huge = Sized.of(10**9)
    ring = (Ring(), Make(stitch="sc", each=Sized.of(6), at=Place(where="ring")))
    bodies: list[tuple[Step, ...]] = [
        (Repeat(body=(Make(stitch="sc"),), times=Times(kind="n", number=huge)),),
        (
            Repeat(
                body=(Repeat(body=(Make(stitch="sc", at=Place(where="same")),), times=Times(kind="n", number=huge)),),
                times=Times(kind="n", number=huge),
            ),
        ),
        (Make(stitch="dc", each=huge),),
        (Chain(number=huge),),
        (Make(stitch="sc", places=huge),),
        (Repeat(body=(Turn(),), times=Times(kind="n", number=huge)),),
        (Repeat(body=(Make(stitch="sc", at=Place(where="same")),), times=Times(kind="rest")),),
    ]
    for i, body in enumerate(bodies):
        started = time.perf_counter()
        fabric = work(
            Pattern(
                parts=(
                    Part(name="", rows=(Row(id=1, label="Rnd 1", numbers=((1,),), steps=ring, made_in="spiral"),
                                        Row(id=2, label="Rnd 2", numbers=((2,),), steps=body, made_in="spiral"))),
                )
            )
        )  # fmt: skip
        assert time.perf_counter() - started < 10
        assert fabric.parts[0].rows[-1].troubles or i in NO_STITCH
