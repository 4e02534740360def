"""Any pattern made of steps, written in US or UK terms and read again, gives the very same fabric."""

from __future__ import annotations

from itertools import count

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hookwright.pattern import Chain, Make, Part, Pattern, Place, Repeat, Row, Sized, Skip, Step, Times, Together, Turn
from hookwright.reading import read
from hookwright.working import Fabric, work
from hookwright.writing import HOUSE, PLAIN, write

S = Sized.of
KINDS = st.sampled_from(["sc", "hdc", "dc", "tr", "dtr", "esc", "edc"])
FEW = st.integers(1, 5)


def makes() -> st.SearchStrategy[Step]:
    plain = st.builds(lambda kind, n: Make(stitch=kind, places=S(n)), KINDS, FEW)
    increase = st.builds(lambda kind, each, n: Make(stitch=kind, each=S(each), places=S(n)), KINDS, st.integers(2, 4), st.integers(1, 3))
    loop = st.builds(
        lambda kind, n, loop: Make(stitch=kind, places=S(n), at=Place(loop=loop)), KINDS, FEW, st.sampled_from(["front", "back"])
    )
    post = st.builds(lambda side, n: Make(stitch=f"{side}Pdc", places=S(n)), st.sampled_from("FB"), FEW)
    together = st.builds(lambda kind, n, times: Make(stitch=f"{kind}{n}tog", closes=n, places=S(times)), KINDS, st.integers(2, 3), FEW)
    return st.one_of(plain, increase, loop, post, together)


def spaces() -> st.SearchStrategy[Step]:
    return st.builds(lambda n: Skip(number=S(n)), st.integers(1, 3))


def groups() -> st.SearchStrategy[Step]:
    inner = st.one_of(st.builds(lambda kind, n: Make(stitch=kind, each=S(n)), KINDS, FEW), st.builds(lambda n: Chain(number=S(n)), FEW))
    body = st.lists(inner, min_size=2, max_size=4).filter(lambda steps: isinstance(steps[0], Make) and isinstance(steps[-1], Make))
    return st.builds(lambda steps: Together(body=tuple(steps)), body)


def chains() -> st.SearchStrategy[Step]:
    return st.builds(lambda n: Chain(number=S(n)), FEW)


def repeats() -> st.SearchStrategy[Step]:
    body = st.lists(st.one_of(makes(), spaces(), groups(), chains()), min_size=2, max_size=4).filter(
        lambda b: isinstance(b[-1], (Make, Together))
    )
    counted = st.builds(lambda steps, n: Repeat(body=tuple(steps), times=Times(kind="n", number=S(n))), body, st.integers(2, 4))
    running = st.builds(lambda steps: Repeat(body=tuple(steps), times=Times(kind="rest")), body)
    leaving = st.builds(lambda steps, n: Repeat(body=tuple(steps), times=Times(kind="to_last", number=S(n))), body, st.integers(1, 3))
    return st.one_of(counted, running, leaving)


STEPS = st.lists(st.one_of(makes(), makes(), spaces(), groups(), repeats()), min_size=1, max_size=5)


def pattern_of(steps: list[Step]) -> Pattern:
    """A base of 40 sc, and one row of these steps, numbered through."""
    ids = count(1)
    base = (Make(stitch="sc", at=Place(where="from_hook", what="ch", nth=2)), Make(stitch="sc", places="rest", at=Place(what="ch")), Turn())
    rows = (
        Row(id=next(ids), label="Foundation", steps=(Chain(id=next(ids), number=S(41), foundation=True),)),
        Row(id=next(ids), label="Row 1", numbers=((1,),), steps=base),
        Row(id=next(ids), label="Row 2", numbers=((2,),), steps=(Chain(number=S(1), counts=False), *steps)),
    )
    return Pattern(parts=(Part(name="Panel", rows=rows),))


def told(fabric: Fabric) -> list[object]:
    row = fabric.parts[0].rows[-1]
    st_ = row.stitches
    return [row.offered, row.used, dict(row.counted.by_kind), [(st_.name(i), list(st_.feet_of(i))) for i in range(len(st_))]]


@pytest.mark.parametrize("terms", ["US", "UK"])
@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(steps=STEPS)
def test_words_carry_the_fabric(terms: str, steps: list[Step]) -> None:
    pattern = pattern_of(steps)
    text = write(pattern, terms=terms, style=HOUSE if terms == "US" else PLAIN).text  # type: ignore[arg-type]
    again = read(text)
    assert [trouble.message for trouble in again.troubles] == [], text
    assert told(work(again)) == told(work(pattern)), text
