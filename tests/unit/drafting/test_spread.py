"""Even spreading and rhythms."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.drafting import Refused, spread
from hookwright.drafting.spread import evenly, rhythm


@given(st.integers(1, 400), st.integers(1, 400))
@settings(deadline=None)
def test_both_sums_close(rows: int, events: int) -> None:
    if events > rows:
        with pytest.raises(Refused):
            spread(rows, events)
        return
    s = spread(rows, events)
    assert s.few * s.every + s.many * (s.every + 1) == rows
    assert s.few + s.many == events


@given(st.integers(0, 500), st.integers(1, 60))
@settings(deadline=None)
def test_evenly_is_even(total: int, parts: int) -> None:
    cut = evenly(total, parts)
    assert sum(cut) == total and len(cut) == parts
    assert max(cut) - min(cut) <= 1


@given(st.floats(0.01, 6), st.integers(1, 200))
@settings(deadline=None)
def test_rhythm_stays_within_half(amount: float, steps: int) -> None:
    at = 0
    for k, change in enumerate(rhythm(amount, steps), start=1):
        at += change
        assert abs(at - amount * k) <= 0.5 + 1e-9
