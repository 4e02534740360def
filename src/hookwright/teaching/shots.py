"""The records of a film plan: shots, what each line of a skip says, samples to have ready."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from ..trade.terms import System
from .actions import Action

Kind: TypeAlias = Literal["opening", "materials", "gauge", "close", "speed", "skip", "finishing", "ending"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SkipLine:
    """One line of a skip card: "work Rows 4-13 as Rows 2 and 3; you have 15 double crochet"."""

    row: int
    rows: str
    how: str
    """ "as Rows 2 and 3", "as written" where no row on camera is worked alike."""
    count: str
    total: int = 0
    """The stitches of the last of its rows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """A piece to have ready before the shoot: worked `part` up to and with row `at`, for shot `shot`.

    `stitches` from its beginning; `minutes` of work at the maker's pace from the sample before, if that one is worked on, and `alone` from
    the beginning.
    """

    part: str
    at: str
    shot: int
    stitches: int
    minutes: float
    alone: float

    def __str__(self) -> str:
        return f"{self.part or 'the piece'} up to and with {self.at}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """One shot. `row` is the written instruction it belongs to (`Row.id`; None for shots of no row); `rows` the labels of the first and
    last worked row it stands for; `new` the actions shown close for the first time, `again` those shown once more at speed."""

    number: int
    kind: Kind
    part: str = ""
    """The part's name in the pattern; `where` how it is called in the film, "" where there is one part only."""
    where: str = ""
    row: int | None = None
    rows: tuple[str, str] = ("", "")
    title: str = ""
    """What the shot is called in chapters and lists: "Row 4", "Rows 5 to 13", "What you need"."""
    new: tuple[Action, ...] = ()
    again: tuple[Action, ...] = ()
    lines: tuple[SkipLine, ...] = ()
    shows: tuple[str, ...] = ()
    """What the camera shows, in words, in the plan's terms."""
    does: tuple[str, ...] = ()
    """What is done behind its rows and shown nowhere else: eyes set in, stuffing; also among `shows`."""
    says: tuple[str, ...] = ()
    """The words of a shot that belongs to no row, where they are more than its title."""
    frame: str = ""
    """How much of the row is on camera: "the whole row", "the first 12 stitches, cut, the last 4"."""
    side: str = ""
    colour: str = ""
    count: str = ""
    """What the last of its rows holds, in words."""
    counts: tuple[str, ...] = ()
    """The same for every size, where sizes differ."""
    seconds: float = 0.0
    sample_at: str | None = None
    """The row up to which a sample must be ready before the shoot."""

    @property
    def minutes(self) -> float:
        return self.seconds / 60

    @property
    def full_title(self) -> str:
        """The title with the part it belongs to, where there is more than one."""
        return f"{self.where}: {self.title}" if self.where else self.title


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmPlan:
    """The whole film. `size`: the name of the size on camera, "" where there is one only; `left`: filmed for left-handers."""

    title: str
    terms: System
    shots: tuple[Shot, ...]
    samples: tuple[Sample, ...] = ()
    size: str = ""
    left: bool = False

    @property
    def minutes(self) -> float:
        """Minutes of film."""
        return sum(shot.seconds for shot in self.shots) / 60

    @property
    def on_camera(self) -> tuple[str, ...]:
        """The rows that are worked on camera, close or at speed."""
        return tuple(shot.full_title for shot in self.shots if shot.kind in ("close", "speed"))

    def timed(self, seconds: dict[int, float]) -> FilmPlan:
        """The plan with the lengths of some shots replaced, by shot number."""
        return replace(self, shots=tuple(replace(s, seconds=seconds.get(s.number, s.seconds)) for s in self.shots))
