"""What `hookwright shape` says of parts put together: blankets, bags, tubes, garments, and the borders round them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final, TypeAlias

from ..measuring import Assembled, Border, Ease, Lies, Measures, PartMeasures, is_worn_on
from .assembling import TogetherShape
from .report_stretch import rows_json, rows_said
from .stretch import RowStretch, stretched_rows
from .words import both, in_cm

BORDER_LIES: Final[dict[str, Lies]] = {"flat": "flat", "pulls": "cups", "waves": "ruffles"}
_KINDS: Final = {
    "blanket": "joined", "bag": "a bag", "tube": "a tube", "cushion": "a cover of two layers", "garment": "sewn up", "vessel": "one piece",
    "bordered": "with its border", "sewn on": "sewn together",
}  # fmt: skip


Relaxed: TypeAlias = tuple[tuple[Assembled, TogetherShape | None], ...]


def together_json(thing: Assembled, relaxed: TogetherShape | None, size: str | None) -> dict[str, Any]:
    """One thing made of parts, as JSON."""
    return {
        "name": thing_name(thing), "size": size, "kind": thing.kind, "made_of": list(thing.names), "width_cm": in_cm(thing.width_cm),
        "length_cm": in_cm(thing.length_cm), "girth_cm": None if thing.girth_cm is None else in_cm(thing.girth_cm),
        "height_cm": None if thing.height_cm is None else in_cm(thing.height_cm), "area_cm2": round(thing.area_cm2, 1),
        "rows": thing.rows, "across": thing.across,
        "pitch_cm": None if thing.pitch_cm is None else [in_cm(each) for each in thing.pitch_cm],
        "lies": thing.merged.lies if thing.merged is not None else None,
        "border": [border_json(each) for each in thing.border.rounds] if thing.border is not None else [],
        "misfits": list(thing.misfits), "because": list(thing.because), "assumed": list(thing.assumed), "joining_cm": in_cm(thing.gap_cm),
        "relaxed": None if relaxed is None else _relaxed_json(relaxed),
    }  # fmt: skip


def _relaxed_json(it: TogetherShape) -> dict[str, Any]:
    wide, long = it.size_cm
    return {
        "width_cm": in_cm(wide), "length_cm": in_cm(long), "solved": it.joined.solved, "settled": it.joined.settled,
        "steps": it.joined.steps,
        "start_error_percent": round(100 * it.joined.start_error, 3), "error_percent": round(100 * it.joined.error, 3),
        "seams_gape_mm": round(10 * it.joined.gap_cm, 2),
        "stretched": [{"part": name, "rows": rows_json(rows)} for name, rows in _stretched(it)],
    }  # fmt: skip


def _stretched(it: TogetherShape) -> list[tuple[str, tuple[RowStretch, ...]]]:
    """Where the parts pull at each other so much that it shows: of copies the one that suffers most."""
    found: dict[str, tuple[RowStretch, ...]] = {}
    for part in it.parts:
        name, rows = part.measures.name or "Piece", stretched_rows(part)
        worst = max((abs(row.worst) for row in rows), default=0.0)
        if rows and worst > max((abs(row.worst) for row in found.get(name, ())), default=0.0):
            found[name] = rows
    return [*found.items()]


def border_json(border: Border) -> dict[str, Any]:
    """One run or round of a border beside its edge, as JSON."""
    return {
        "row": border.label, "stitches": border.stitches, "along_cm": in_cm(border.along_cm), "would_lie_flat": border.right,
        "lies": border.lies, "lies_flat_with": list(border.flat_range),
    }  # fmt: skip


def thing_name(thing: Assembled) -> str:
    """What it is made of, as a name."""
    return " + ".join(name or "Piece" for name in thing.names)


def border_of(part: PartMeasures, things: tuple[Assembled, ...]) -> tuple[Assembled, Lies] | None:
    """The thing that a part is the border of, and how that border lies; None for any other part."""
    for thing in things:
        if thing.border is not None and thing.border_part is not None and thing.parts[-1] == thing.border_part:
            rounds = [each for each in thing.border.rounds if each.label.startswith(part.name)]
            if rounds and len(rounds) == len(thing.border.rounds) and part.part.rows[0].below is None and part.in_rounds:
                worst = thing.border.worst
                return thing, BORDER_LIES[worst.lies] if worst is not None else "flat"
    return None


def together_lines(things: Relaxed, measures: Measures) -> Iterator[str]:
    """Things made of parts as lines for a maker."""
    for thing, relaxed in things:
        yield f"Put together, {thing_name(thing)}: {_sizes(thing)}, {_KINDS[thing.kind]}, {thing.area_cm2:.0f} cm2"
        yield from (f"  {line[:1].upper()}{line[1:]}." for line in thing.because)
        if relaxed is not None:
            yield f"  {relaxed.note}{_off(thing, relaxed)}"
            for name, rows in _stretched(relaxed):
                yield from (f"  {line}" for line in rows_said(rows, f"In {name}, more"))
        if thing.border is not None and thing.border.rounds:
            worst = thing.border.worst
            said = worst if worst is not None else thing.border.rounds[0]
            yield f"  {said.said}"
        yield from (f"  Does not match: {line}." for line in thing.misfits)
        yield from (f"  Assumed: {line}." for line in thing.assumed)
        yield from (f"  {line}" for line in _ease(thing, measures))


def _off(thing: Assembled, relaxed: TogetherShape) -> str:
    """Where the relaxed size of a flat thing is another than that of its parts added up."""
    if thing.kind == "sewn on":
        wide, deep, high = relaxed.extent()
        return f" Sewn together it is {both(wide)} wide, {both(deep)} deep and {both(high)} high."
    got, want = relaxed.size_cm, (thing.width_cm, thing.length_cm)
    if relaxed.stands or all(abs(a / b - 1) <= 0.02 for a, b in zip(got, want, strict=True) if b > 0):
        return ""
    return f" It comes out {both(got[0])} x {both(got[1])}, since its parts give way to each other."


def _sizes(thing: Assembled) -> str:
    if thing.kind == "sewn on":
        return f"{thing.names[0]} {both(thing.width_cm)} x {both(thing.length_cm)}"
    if thing.girth_cm is not None and thing.height_cm is not None:
        return f"{both(thing.girth_cm)} round, {both(thing.height_cm)} high"
    flat = f"{both(thing.width_cm)} x {both(thing.length_cm)}"
    return f"{both(thing.girth_cm)} round, {flat} laid flat" if thing.girth_cm is not None else flat


def _ease(thing: Assembled, measures: Measures) -> Iterator[str]:
    """A garment's or a cowl's girth on the body measures that the pattern tells."""
    if thing.girth_cm is None or thing.kind not in ("garment", "tube"):
        return
    size = measures.fabric.size
    for what, values in measures.fabric.pattern.facts.size_measures.items():
        body = values[min(size, len(values) - 1)] if values else 0.0
        if is_worn_on(thing.girth_cm, body):
            ease = Ease(girth_cm=thing.girth_cm, body_cm=body)
            more = "smaller, it is worn stretched" if ease.negative else "larger"
            yield f"On a {what} of {both(body)} it is {both(abs(ease.ease_cm))} {more} ({ease.percent:+.0f} %)."
