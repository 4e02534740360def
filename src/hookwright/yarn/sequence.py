"""A yarn's colour sequence: runs of colour that repeat along the ball, seen from where the ball is begun, from either end, across knots."""

from __future__ import annotations

import math
import re
from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import accumulate

from ..pattern import ColourRun
from .amounts import YarnError, metres

MOST_BANDS = 200_000


@dataclass(frozen=True, slots=True)
class Repeat:
    """One repeat of a sequence: its colours, in metres. Equal neighbours are allowed. `ends[i]` metres at the end of run i."""

    runs: tuple[ColourRun, ...]
    ends: tuple[float, ...] = field(init=False)
    sums: tuple[Mapping[str, float], ...] = field(init=False, compare=False, repr=False)
    """Metres of each colour before run i (one entry more than runs)."""

    def __post_init__(self) -> None:
        if not self.runs:
            raise YarnError("A colour sequence needs at least one run of colour.")
        for run in self.runs:
            if not (run.metres > 0 and math.isfinite(run.metres)):
                raise YarnError(f"The run of {run.colour or 'colour'} in the sequence is {run.metres:g} m: it must be more than nothing.")
        object.__setattr__(self, "ends", tuple(accumulate(run.metres for run in self.runs)))
        sums = [dict.fromkeys(self.colours, 0.0)]
        for run in self.runs:
            sums.append({**sums[-1], run.colour: sums[-1][run.colour] + run.metres})
        object.__setattr__(self, "sums", tuple(sums))

    @classmethod
    def of(cls, runs: Iterable[tuple[str, float] | ColourRun]) -> Repeat:
        """From pairs (colour, metres).

        >>> Repeat.of([("blue", 3), ("sand", 2)]).metres
        5.0
        """
        return cls(tuple(run if isinstance(run, ColourRun) else ColourRun(colour=run[0], metres=run[1]) for run in runs))

    @property
    def metres(self) -> float:
        """Length of one repeat."""
        return float(self.ends[-1])

    @property
    def colours(self) -> tuple[str, ...]:
        """The colours, each once, in the order they first come."""
        return tuple(dict.fromkeys(run.colour for run in self.runs))

    def at(self, phase: float) -> int:
        """The run that lies at `phase` metres into the repeat.

        >>> r = Repeat.of([("blue", 3), ("sand", 2)])
        >>> [r.runs[r.at(p)].colour for p in (0, 2.9, 3, 4.9, 5)]
        ['blue', 'blue', 'sand', 'sand', 'blue']
        """
        return min(bisect_right(self.ends, phase % self.metres), len(self.runs) - 1)

    def upto(self, phase: float) -> dict[str, float]:
        """Metres of each colour from the start of the repeat to `phase` (whole repeats included)."""
        whole, rest = divmod(phase, self.metres)
        n = min(bisect_right(self.ends, rest), len(self.runs) - 1)
        out = {colour: whole * self.sums[-1][colour] + metres for colour, metres in self.sums[n].items()}
        out[self.runs[n].colour] += rest - (self.ends[n - 1] if n else 0.0)
        return out

    def between(self, start: float, end: float) -> dict[str, float]:
        """Metres of each colour from `start` to `end` (start ≤ end; both may lie beyond one repeat).

        >>> {c: round(m, 6) for c, m in Repeat.of([("blue", 3), ("sand", 2)]).between(4, 11).items()}
        {'blue': 4.0, 'sand': 3.0}
        """
        low, high = self.upto(start), self.upto(end)
        return {colour: high[colour] - low[colour] for colour in low}

    def backward(self) -> Repeat:
        """The same sequence met from the other end."""
        return Repeat(tuple(reversed(self.runs)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Knot:
    """A factory knot `at` metres from the ball's begun end: after it the sequence goes on `jump` metres further (or back) than it
    should."""

    at: float
    jump: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BallOfColour:
    """One ball of a sequence, begun at its working end.

    `start` metres into the repeat where that end lies; `backward`: met from the other end, so the colours run the other way; `metres` in it
    (math.inf for a yarn without balls); `pull_off` metres taken off before the first stitch.
    """

    repeat: Repeat
    metres: float = math.inf
    start: float = 0.0
    backward: bool = False
    pull_off: float = 0.0
    knots: tuple[Knot, ...] = ()

    def __post_init__(self) -> None:
        if not self.metres > 0:
            raise YarnError(f"A ball of {self.metres:g} m has no length.")
        if self.repeat.metres > self.metres * 1.0005:
            raise YarnError(f"The colour sequence is {self.repeat.metres:g} m long, longer than the ball of {self.metres:g} m.")
        if not 0 <= self.pull_off < self.metres:
            raise YarnError(f"{self.pull_off:g} m cannot be pulled off a ball of {self.metres:g} m.")

    def phase(self, x: float) -> float:
        """Where in the repeat the point `x` metres from the begun end lies (as met: a backward ball's own, backward repeat)."""
        jump = sum(knot.jump for knot in self.knots if knot.at <= x)
        first = self.repeat.metres - self.start if self.backward else self.start
        return (first + x + jump) % self.repeat.metres

    def changes(self, upto: float) -> tuple[list[float], list[int]]:
        """Where the colour changes within the first `upto` metres, and the run after each change; the first entry is (0, run at the end).

        Runs are indices into `met.runs`. Raises YarnError above MOST_BANDS bands.
        """
        met = self.met
        if upto / met.metres * len(met.runs) > MOST_BANDS:
            raise YarnError(f"More than {MOST_BANDS:,} bands of colour: the sequence is too short for this piece.")
        places, runs = [0.0], [met.at(self.phase(0.0))]
        stops = [knot.at for knot in sorted(self.knots, key=lambda knot: knot.at) if 0 < knot.at < upto] + [upto]
        x = 0.0
        for stop in stops:
            phase = self.phase(x)
            run = met.at(phase)
            if x:
                places.append(x)
                runs.append(run)
            x += met.ends[run] - phase
            while x < stop:
                run = (run + 1) % len(met.runs)
                places.append(x)
                runs.append(run)
                x += met.runs[run].metres
            x = stop
        return places, runs

    @property
    def met(self) -> Repeat:
        """The repeat as it is met from the begun end."""
        return self.repeat.backward() if self.backward else self.repeat


def typed(text: str) -> Repeat:
    """A sequence as typed: "blue 3 m, sand 2 m, rust 1.5 m". Raises YarnError.

    >>> typed("blue 3 m, sand 2 m").metres
    5.0
    """
    runs: list[tuple[str, float]] = []
    for piece in re.split(r"[,;](?!\d)", text):
        match = re.fullmatch(r"\s*(?P<colour>.*?\D)[\s:=]*(?P<length>\d.*?)\s*", piece)
        if match is None or match["colour"].rstrip()[-1:] in "-−–":
            raise YarnError(f'The colour sequence "{text}" is not understood at "{piece.strip()}": write for example "blue 3 m, sand 2 m".')
        runs.append((match["colour"].strip(" :="), metres(match["length"], "The run")))
    return Repeat.of(runs)


def thirds(total_m: float, repeat: Repeat, start: float = 0.0, parts: int = 3) -> Sequence[tuple[float, str]]:
    """One ball shared out equally: for each part, metres from the begun end where it starts, and the colour it starts in.

    >>> thirds(300, Repeat.of([("blue", 3), ("sand", 2)]))
    ((0.0, 'blue'), (100.0, 'blue'), (200.0, 'blue'))
    """
    if parts < 1 or total_m <= 0:
        raise YarnError("A ball is shared by one part or more, and must hold some yarn.")
    each = total_m / parts
    return tuple((n * each, repeat.runs[repeat.at(start + n * each)].colour) for n in range(parts))
