"""The house style: one record, so that nothing about wording is decided twice."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """How words are set. `no_break` binds a number to its noun ("24 dc") with U+00A0, so that no line ends between them.

    The notation is fixed, each sign with one job: ``* …; rep from *`` runs to an end, ``[ … ] 4 times`` is counted, ``( … )`` goes into
    one place; the count stands after a dash at the row's end.
    """

    no_break: bool = True
    front: bool = True
    """Write the front matter and the special stitches before the rows."""
    spoken: bool = False
    """Whole words for abbreviations and signs, for ears instead of eyes: "repeat 4 times: … end of repeat"."""
    sides: bool = True
    """Name the side in the label where the pattern told it."""

    @property
    def space(self) -> str:
        """The space between a number and its noun."""
        return "\u00a0" if self.no_break else " "


HOUSE = Style()
PLAIN = Style(no_break=False)
"""House style with ordinary spaces: for a file that will be edited and searched by hand."""

SPOKEN = Style(no_break=False, front=False, spoken=True)
"""For a reader of screens: no sign, no abbreviation."""
