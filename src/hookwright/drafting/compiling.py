"""Plans to patterns: the facts at the head, the foundation, the rows."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import Chain, Facts, FastenOff, FinishedSize, Part, Pattern, Row, Sized, TurningChain
from .asks import Custom
from .flat import FlatPlan
from .stepping import Ends, ends_of, first_row, flat_steps, foundation_chains
from .telling import Told, numbered, tell


def facts_of(custom: Custom, title: str, finished: Sequence[FinishedSize] = (), intended: str = "") -> Facts:
    """The head of a draft: hook, gauge, turning chain, finished size."""
    turning = {custom.stitch: TurningChain(chains=custom.turning.chains, counts=custom.turning.counts)}
    return Facts(
        title=title,
        hook_mm=custom.hook_mm,
        gauge=(custom.gauge,) if custom.gauge else (),
        turning_chains=turning,
        finished=tuple(finished),
        intended=intended,  # type: ignore[arg-type]
    )


def pattern_of(facts: Facts, parts: Sequence[Part]) -> Pattern:
    """A drafted pattern: no source, ids in reading order."""
    return numbered(Pattern(terms="US", terms_because="drafted in US terms", facts=facts, parts=tuple(parts)))


def flat_part(plan: FlatPlan, custom: Custom, name: str = "Body", *, fasten: bool = True) -> Part:
    """The part of a flat plan, from its chain to its last row."""
    rows = tell(flat_told(plan, custom))
    chain = foundation(foundation_chains(plan.foundation, custom))
    return Part(name=name, rows=(chain, *(ended(rows) if fasten else rows)))


def flat_told(plan: FlatPlan, custom: Custom) -> list[Told]:
    """Every row of a flat plan, with the shaping at the end where its edge lies in that row."""
    told = [Told(first_row(plan.foundation, plan.rows[0].count, custom), plan.rows[0].count, custom.stitch)]
    below = plan.rows[0].count
    for k, row in enumerate(plan.rows[1:], start=2):
        told.append(
            Told(flat_steps(row_ends(below, row.a, row.b, row.square_a, row.square_b, k, custom), custom), row.count, custom.stitch)
        )
        below = row.count
    return told


def row_ends(below: int, a: int, b: int, square_a: bool, square_b: bool, number: int, custom: Custom) -> Ends:
    """Edges A and B as beginning and end of row `number`: odd rows begin at A."""
    if number % 2:
        return ends_of(below, a, b, square_a, square_b, custom)
    return ends_of(below, b, a, square_b, square_a, custom)


def foundation(chains: int) -> Row:
    return Row(id=0, label="Foundation", steps=(Chain(number=Sized.of(chains), foundation=True),))


def ended(rows: Sequence[Row]) -> tuple[Row, ...]:
    """The rows with the yarn cut after the last: a row of its own where the last instruction covers several."""
    return (*rows, Row(id=0, label="", steps=(FastenOff(),)))
