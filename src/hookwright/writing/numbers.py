"""Numbers as they are said: sizes, ordinals, times, plurals."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..pattern import Sized

_TIMES = {1: "once", 2: "twice"}


def figure(value: float | None) -> str:
    """A number without needless noughts; "-" where a size leaves it out.

    >>> figure(7.0), figure(2.5), figure(None)
    ('7', '2.5', '-')
    """
    return "-" if value is None else f"{value:g}" if abs(value) < 1e6 else str(round(value))


def sizes(values: Sequence[float | str | None]) -> str:
    """Values smallest size first, the rest in brackets; one value where all agree.

    >>> sizes((38, 42, 46)), sizes((5, 5)), sizes(("S", "M"))
    ('38 (42, 46)', '5', 'S (M)')
    """
    said = [value if isinstance(value, str) else figure(value) for value in values]
    if len(set(said)) == 1:
        return said[0]
    return f"{said[0]} ({', '.join(said[1:])})"


def number(value: Sized[int]) -> str:
    """The number of every size, as it is said.

    >>> number(Sized.of(12, 14))
    '12 (14)'
    """
    return sizes(value.values)


def one(value: Sized[int]) -> bool:
    """Whether the number is 1 in every size."""
    return set(value.values) == {1}


def ordinal(n: int) -> str:
    """The place in order.

    >>> [ordinal(n) for n in (1, 2, 3, 4, 11, 22, 113)]
    ['1st', '2nd', '3rd', '4th', '11th', '22nd', '113th']
    """
    ending = "th" if n % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(n % 10, "th")
    return f"{n}{ending}"


def times(value: Sized[int]) -> str:
    """How often, in words.

    >>> times(Sized.of(2)), times(Sized.of(6, 7))
    ('twice', '6 (7) times')
    """
    said = number(value)
    return next((word for n, word in _TIMES.items() if said == str(n)), f"{said} times")


_ABBREVIATION = re.compile(r"(ch|(FP|BP)?(e?h?[sd]c|[a-z]*tr)(\d+tog)?|BLO|FLO|crochet|treble|together)$")


def plural(noun: str) -> str:
    """The noun for several. Stitch abbreviations stay as they are ("24 dc", "5 ch"); words take their ending.

    >>> [plural(noun) for noun in ("dc", "FPtr2tog", "st", "sl st", "ch-2 sp", "shell", "row end", "ch", "popcorn stitch", "cross")]
    ['dc', 'FPtr2tog', 'sts', 'sl sts', 'ch-2 sps', 'shells', 'row ends', 'ch', 'popcorn stitches', 'crosses']
    """
    if _ABBREVIATION.fullmatch(noun.rsplit(" ", 1)[-1]):
        return noun
    return f"{noun}es" if noun.endswith(("s", "ch", "x", "sh")) else f"{noun}s"


def joined(words: Sequence[str]) -> str:
    """Words in a row, the last after "and".

    >>> joined(["2"]), joined(["2", "3"]), joined(["2", "3", "4"])
    ('2', '2 and 3', '2, 3 and 4')
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def spans_of(numbers: Sequence[int], *, least: int = 3) -> str:
    """Row numbers gathered into ranges of `least` and more; between sizes, where "and" would be lost among the commas, 2 make a range.

    >>> spans_of((4, 5, 6)), spans_of((2, 4, 6)), spans_of((2, 3)), spans_of((1,))
    ('4-6', '2, 4 and 6', '2 and 3', '1')
    """
    said: list[str] = []
    start = 0
    for k in range(1, len(numbers) + 1):
        if k == len(numbers) or numbers[k] != numbers[k - 1] + 1:
            run = numbers[start:k]
            said += [f"{run[0]}-{run[-1]}"] if len(run) >= least else [str(n) for n in run]
            start = k
    return joined(said)
