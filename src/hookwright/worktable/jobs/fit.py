"""The open pattern in another width, length, gauge, in several sizes, for the yarn in hand, or mirrored; and back onto the page."""

from __future__ import annotations

from typing import Any

from ...measuring import measure
from ...pattern import Pattern
from ...session import write_fact
from ...working import work
from ...yarn import YarnError, estimate
from ..bench import Payload, Refusal, Tell
from .common import fabric_of, number, session_of
from .draft import plainly, rows_in_words, whole_in_words

MOST_REPEATS = 2000


def resize(payload: Payload, tell: Tell) -> dict[str, Any]:
    """One change: `change` is "repeats" (wider_cm, longer_cm), "gauge", "widths", "ball" or "mirror". Refused with the nearest there is."""
    from ...drafting import Refused

    session = session_of(payload)
    fabric_of(payload)
    try:
        made = _changed(session.read, payload)
    except Refused as refused:
        raise Refusal(plainly(str(refused))) from refused
    from ...drafting.picture import picture

    return {
        "page": on_the_page(session.text, made.pattern, payload),
        "rows": rows_in_words(made.pattern, payload),
        "whole": whole_in_words(made.pattern, payload),
        "picture": picture(made) if made.views else None,
        "sizes": [str(size) for size in made.sizes],
        "notes": list(made.notes),
        "before": measures_of(session.read),
        "after": measures_of(made.pattern),
    }


def _changed(pattern: Pattern, payload: Payload) -> Any:
    from ... import drafting

    change = payload.get("change")
    if change == "mirror":
        return drafting.mirrored_pattern(pattern)
    if change == "widths":
        return drafting.graded(pattern, str(payload.get("widths", "")))
    if change == "ball":
        return drafting.largest_for(pattern, str(payload.get("ball", "")))
    if change == "gauge":
        return drafting.regauged(pattern, str(payload.get("gauge", "")), keep="counts" if payload.get("keep") == "counts" else "size")
    return _by_cm(pattern, number(payload, "wider_cm", -1000, 1000) or 0.0, number(payload, "longer_cm", -1000, 1000) or 0.0)


def _by_cm(pattern: Pattern, wider: float, longer: float) -> Any:
    """So many cm wider and longer, in whole repeats: what a repeat adds is measured, then the nearest number of them is made."""
    from ... import drafting

    if not wider and not longer:
        raise Refusal("Say by how much: 5 cm wider, for example.")
    if wider and not _step(pattern, "wider", "width_cm"):
        # A piece that grows row by row has no width of its own: it is made wider by working on, in whole row repeats.
        step = _step(pattern, "longer", "width_cm")
        if step is None or longer:
            return drafting.by_repeats(pattern, wider=1)  # refused with drafting's own sentence
        return drafting.by_repeats(pattern, longer=_nearest(wider, *step))
    repeats = {"wider": 0, "longer": 0}
    for way, cm, measured in (("wider", wider, "width_cm"), ("longer", longer, "length_cm")):
        step = _step(pattern, way, measured) if cm else None
        if cm and step is None:
            return drafting.by_repeats(pattern, **{**repeats, way: 1})
        if step:
            repeats[way] = _nearest(cm, *step)
    return drafting.by_repeats(pattern, **repeats)


MOST_TRIED = 6


def _step(pattern: Pattern, way: str, measured: str) -> tuple[int, float] | None:
    """The fewest repeats that the piece can be changed by, and the cm they add; None when it cannot be changed so."""
    from ... import drafting

    before = measures_of(pattern)[0][measured]
    for many in range(1, MOST_TRIED + 1):
        try:
            after = measures_of(drafting.by_repeats(pattern, **{"wider": 0, "longer": 0, way: many}).pattern)[0][measured]
        except drafting.Refused:
            continue
        return (many, after - before) if abs(after - before) > 1e-6 else None
    return None


def _nearest(cm: float, many: int, gain: float) -> int:
    times = round(cm / gain)
    if abs(times * many) > MOST_REPEATS:
        raise Refusal("That is more than a piece can change by here.")
    return (times or (1 if cm > 0 else -1)) * many


def measures_of(pattern: Pattern) -> list[dict[str, Any]]:
    """Width, length, stitches and metres of yarn of the largest part, for every size."""
    found = []
    for size in range(pattern.sizes):
        fabric = work(pattern, size=size)
        measures = measure(fabric)
        part = max(measures.parts, key=lambda part: part.area_cm2, default=None)
        try:
            metres: float | None = estimate(fabric, measures).metres
        except YarnError:
            metres = None
        names = pattern.facts.size_names
        found.append({
            "size": names[size] if size < len(names) else "",
            "width_cm": round(part.width_cm, 2) if part else 0.0,
            "length_cm": round(part.length_cm, 2) if part else 0.0,
            "stitches": fabric.stitch_count,
            "metres": metres,
        })  # fmt: skip
    return found


KEYS = ("gauge", "sizes", "finished", "turning_chains")
"""Facts that a change of size or gauge changes; every other fact of the page's head stays as she wrote it."""


def on_the_page(text: str, pattern: Pattern, payload: Payload) -> str:
    """The page with the new rows in place of the old, her own head and introduction kept, the changed facts written into it."""
    session = session_of(payload)
    starts = [part.span.start for part in session.read.parts if part.rows] + [
        row.span.start for part in session.read.parts for row in part.rows
    ]
    head = text[: min(starts)] if starts else text
    rows = rows_in_words(pattern, payload)
    if not head.strip():
        return whole_in_words(pattern, payload)
    page = head.rstrip() + "\n\n" + rows
    for key, value in _front(whole_in_words(pattern, payload)).items():
        if key in KEYS:
            for edit in write_fact(page, key, value):
                page = page[: edit.span.start] + edit.text + page[edit.span.end :]
    return page


def _front(text: str) -> dict[str, Any]:
    from ruamel.yaml import YAML
    from ruamel.yaml.error import YAMLError

    if not text.startswith("---\n"):
        return {}
    try:
        return dict(YAML(typ="safe").load(text[4 : text.index("\n---\n", 3)]) or {})
    except (YAMLError, ValueError):
        return {}
