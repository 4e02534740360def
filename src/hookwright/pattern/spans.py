"""Where something stands in the source text."""

from typing import NamedTuple


class Span(NamedTuple):
    """A half-open range of code points ``[start, end)`` into the source text exactly as given (BOM and CR kept)."""

    start: int
    end: int

    def of(self, source: str) -> str:
        """The very text this span covers.

        >>> Span(2, 5).of("a dc b")
        'dc '
        """
        return source[self.start : self.end]


NOWHERE = Span(0, 0)
"""The span of a node that no text stands behind (a drafted pattern, an implied step)."""
