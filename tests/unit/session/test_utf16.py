"""Code points and UTF-16 units, both ways, also with emoji, combining marks, CRLF and a byte-order mark."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from hookwright.pattern import Span
from hookwright.session import Position, Units

TEXT = st.text(alphabet=st.sampled_from("ab🧶é\u0301\ufeff\r\n \U0001f468\u200dß"), max_size=40)


@given(TEXT)
def test_offsets_agree_with_the_codec(text: str) -> None:
    units = Units(text)
    for point in range(len(text) + 1):
        expected = len(text[:point].encode("utf-16-le")) // 2
        assert units.from_point(point) == expected
        assert units.to_point(expected) == point


@given(TEXT)
def test_positions_come_back(text: str) -> None:
    units = Units(text)
    for point in range(len(text) + 1):
        if point and text[point - 1 : point + 1] == "\r\n":
            continue  # between CR and LF: no position of its own
        assert units.point(units.position(point)) == point


def test_lines_as_the_protocol_has_them() -> None:
    units = Units("a\r\nb\rc\nd")
    assert units.starts == [0, 3, 5, 7]
    assert units.position(4) == Position(1, 1)
    assert units.point(Position(0, 99)) == 1
    assert units.point(Position(99, 0)) == 8
    assert units.point(Position(-1, 0)) == 0


def test_a_pair_is_never_split() -> None:
    units = Units("a🧶b")
    assert units.to_point(2) == 1
    assert units.span(Span(1, 2)) == (1, 3)
