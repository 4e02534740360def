"""Materials: hook, yarn, notions; the gauge in words; what a maker must know."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..pattern import Aside, Colour, Gauge, Join, Make, Pattern, Repeat, Ring, Together, Yarn
from ..trade import hooks, weights
from ..trade.kinds import closes
from ..trade.units import both_lengths, both_masses, both_yarn_lengths
from .lexicon import Lexicon
from .numbers import plural
from .used import every_step


def texts(value: object) -> tuple[str, ...]:
    """A front-matter value that may be a sentence or a list of them."""
    if value is None or value is False:
        return ()
    if isinstance(value, Sequence) and not isinstance(value, str):
        return tuple(text for item in value for text in texts(item))
    text = " ".join(str(value).split())
    return (text,) if text else ()


def materials_of(pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """Pairs of what and which, in the order a maker gathers them."""
    facts = pattern.facts
    hook = [("Hook", hooks.label(facts.hook_mm))] if facts.hook_mm else []
    yarns = [(_yarn_label(yarn, len(facts.yarns)), _yarn(yarn)) for yarn in facts.yarns.values()]
    notions = texts(facts.notes.get("notions")) or tuple(_needed(pattern))
    return (*yarns, *hook, ("Notions", ", ".join(notions)))


def _needed(pattern: Pattern) -> Iterator[str]:
    """The notions that the rows call for."""
    asides = {step.kind for step in every_step(pattern) if isinstance(step, Aside)}
    spiral = any(row.made_in == "spiral" for part in pattern.parts for row in part.rows if row.steps)
    if "marker" in asides or spiral:
        yield "stitch marker"
    if "stuff" in asides:
        yield "toy filling"
    yield "blunt needle for the ends"


def _yarn_label(yarn: Yarn, how_many: int) -> str:
    return f"Yarn {yarn.id}" if how_many > 1 or len(yarn.id) == 1 else "Yarn"


def _yarn(yarn: Yarn) -> str:
    said = [yarn.name, f"in {yarn.colour}" if yarn.colour and yarn.name else yarn.colour]
    head = " ".join(part for part in said if part)
    ball = " / ".join(
        part for part in (both_masses(yarn.ball_g) if yarn.ball_g else "", both_yarn_lengths(yarn.ball_m) if yarn.ball_m else "") if part
    )
    strands = f"{yarn.strands} strands held together" if yarn.strands > 1 else ""
    stripes = f"stripes: {', '.join(run.colour for run in yarn.sequence)}" if yarn.sequence else ""
    return "; ".join(part for part in (head, _weight(yarn), yarn.fibre, f"{ball} a ball" if ball else "", strands, stripes) if part)


def _weight(yarn: Yarn) -> str:
    known = weights.named(yarn.weight) if yarn.weight else ()
    if len(known) == 1:
        return f"{yarn.weight} ({known[0].number})" if str(known[0].number) not in yarn.weight else yarn.weight
    return yarn.weight


def gauge_of(gauge: Gauge, lexicon: Lexicon) -> str:
    """`16 dc and 8 rows = 10 cm (4 in), blocked`."""
    stitch = lexicon.stitch(gauge.stitch) if gauge.stitch not in ("", "st") else lexicon.word("st")
    stitches = f"{gauge.stitches:g}\u00a0{plural(stitch)}"
    over = both_lengths(gauge.over_cm)
    blocked = {True: ", blocked", False: ", before blocking", None: ""}[gauge.blocked]
    if gauge.rows is None:
        return f"{stitches} = {over}{blocked}"
    if gauge.over_rows_cm and gauge.over_rows_cm != gauge.over_cm:
        return f"{stitches} = {over}; {gauge.rows:g}\u00a0rows = {both_lengths(gauge.over_rows_cm)}{blocked}"
    return f"{stitches} and {gauge.rows:g}\u00a0rows = {over}{blocked}"


def skills_of(pattern: Pattern) -> tuple[str, ...]:
    """What the piece asks of a maker, found in its steps."""
    return tuple(dict.fromkeys(_skills(pattern)))


def _skills(pattern: Pattern) -> Iterator[str]:
    rows = [row for part in pattern.parts for row in part.rows]
    made_in = {row.made_in for row in rows if row.steps}
    yield from (words for way, words in _WAYS if way in made_in)
    for step in every_step(pattern):
        if isinstance(step, Ring) and step.chains is None:
            yield "magic ring"
        elif isinstance(step, Make):
            yield from _make_skills(step)
        elif isinstance(step, Together):
            yield "several stitches into one place"
        elif isinstance(step, Repeat):
            yield "following a repeat"
        elif isinstance(step, Colour) and len(pattern.facts.yarns) > 1:
            yield "changing colour"
        elif isinstance(step, Join) and not step.no:
            yield "joining a round"


_WAYS = (
    ("rows", "rows to and fro"),
    ("joined", "joined rounds"),
    ("joined-turned", "joined rounds with turning"),
    ("spiral", "spiral rounds"),
)


def _make_skills(step: Make) -> Iterator[str]:
    if step.stitch[:2] in ("FP", "BP"):
        yield "post stitches"
    elif closes(step.stitch) > 1 or step.stitch == "dec":
        yield "decreasing"
    elif step.stitch == "inc" or (step.at.where not in ("ring", "from_hook") and any((n or 0) > 1 for n in step.each.values)):
        yield "increasing"
    if step.at.loop in ("front", "back"):
        yield "working in one loop"
