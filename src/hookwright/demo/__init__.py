"""Pieces of an invented studio by the sea, shipped with the program: what the tour shows and what the tests stand on."""

from __future__ import annotations

from importlib.resources import files

PIECES: tuple[str, ...] = ("ebbline-wrap", "bollard-seat-pad", "fogbell-hat")
"""The finished pieces, by file name without ending."""

DRAFT = "bollard-seat-pad-draft"
"""The seat pad before proofing, with two slips planted."""

FIRST = "slipway-scarf"
"""The piece to begin with on the worktable: straight, so that it can be widened, striped and published in a few presses."""

MENDED = "bollard-seat-pad"
"""What the draft becomes."""


def piece(name: str) -> str:
    """The text of a piece. Raises FileNotFoundError for a name that is not one of ours."""
    return (files(__package__ or __name__) / f"{name}.md").read_text(encoding="utf-8")


__all__ = ["DRAFT", "FIRST", "MENDED", "PIECES", "piece"]
