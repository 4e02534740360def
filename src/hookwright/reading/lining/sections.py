"""A piece told in headed sections ("BACK", and under it "Ribbing:", "Body:"): which heading stands above which."""

from __future__ import annotations

from .headings import Mark

Style = tuple[bool, bool, int]


class Sections:
    """Told of every heading in order; says under which piece's name each stands.

    A heading with nothing under it but the next heading names a piece, and the next one its first section, where the two are written in
    different manners (capitals, a colon, marks). The piece goes on until a heading comes in its own manner, or in a third.
    """

    def __init__(self, text: str) -> None:
        self.text = text
        self.piece = ""
        self.pending = ""
        self.last: Style | None = None
        self.styles: tuple[Style, Style] | None = None
        """How the piece's name is written, and how its sections'."""

    def headed(self, name: str) -> None:
        """The heading before had nothing under it."""
        self.pending = name

    def above(self, mark: Mark) -> str:
        """The name of the piece that the heading at `mark` is a section of; "" where it is none."""
        style = self._style(mark)
        if self.pending and self.last is not None and self.last != style and mark.kind == "part":
            self.piece, self.styles = self.pending, (self.last, style)
        elif self.styles is None or style != self.styles[1] or mark.kind != "part":
            self.piece, self.styles = "", None
        self.pending, self.last = "", style
        return self.piece

    def _style(self, mark: Mark) -> Style:
        line = self.text[mark.at : mark.end].strip()
        letters = "".join(ch for ch in mark.name if ch.isalpha())
        return letters.isupper(), ":" in line, len(line) - len(line.lstrip("#*_="))
