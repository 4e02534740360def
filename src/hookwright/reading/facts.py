"""What a pattern says about itself: from its front matter and from its prose lines; the front matter wins."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from typing import Any

from ..pattern import Facts, Trouble
from .colours_told import letters_told
from .facts_front import FrontFacts
from .facts_motif import with_heading
from .facts_prose import prose_facts
from .lining.front import Front
from .lining.layout import Layout
from .wording.terms import Decided, Terms, decide


@dataclass(slots=True)
class Told:
    """Facts, and what else was told with them."""

    facts: Facts = field(default_factory=Facts)
    terms: Terms | None = None
    decided: Decided | None = None
    """The terms decided from the words, where the front matter tells none."""
    language: str = "en"
    colours: frozenset[str] = frozenset()
    troubles: list[Trouble] = field(default_factory=list)


def facts_of(source: str, text: str, front: Front, layout: Layout) -> Told:
    """The facts of a text (`source` as given, `text` with its characters made plain, both of one length)."""
    told = Told()
    if front.problem:
        told.troubles.append(Trouble(kind="yaml", span=front.problem_span, message=front.problem))
    values: Mapping[str, Any] = front.values
    word = str(values.get("terms", "")).upper().strip(".")
    told.terms = "US" if word.startswith("US") else "UK" if word.startswith("UK") else None
    language = str(values.get("language", "") or "").strip().lower()
    told.language = language if re.fullmatch(r"[a-z]{2,3}(?:-[a-z]{2,4})?", language) else "en"
    if told.terms is None:
        told.decided = decide(text[front.end :])
    terms = told.decided.terms if told.decided is not None else told.terms or "US"
    spoken = prose_facts(source, _prose(source, layout, front.end), terms)
    if values or front.spans:
        taken = FrontFacts(values, front.spans, terms)
        written = taken.facts()
        told.troubles += taken.troubles
        told.troubles += _contradictions(written, spoken)
        told.facts = _both(written, spoken)
    else:
        told.facts = spoken
    if layout.title and not told.facts.title:
        told.facts = replace(told.facts, title=layout.title)
    told.colours = frozenset(
        name.lower() for yarn in told.facts.yarns.values() for name in (yarn.id, yarn.colour, yarn.name) if name and len(name) < 30
    ) | letters_told(text[front.end :])
    return told


_UNTOLD = tuple((f.name, getattr(Facts(), f.name)) for f in fields(Facts) if f.name not in ("spans", "notes"))
"""Each fact as it is where nothing tells it."""


def _prose(source: str, layout: Layout, start: int) -> list[tuple[int, int]]:
    return [(with_heading(source, max(a, start), start), b) for a, b in layout.notes if b > start]


def _both(written: Facts, spoken: Facts) -> Facts:
    """The front matter's facts, and where it is silent those of the prose."""
    missing = {name: getattr(spoken, name) for name, empty in _UNTOLD if getattr(written, name) == empty}
    return replace(written, **missing, spans={**spoken.spans, **written.spans})


def _contradictions(written: Facts, spoken: Facts) -> list[Trouble]:
    """Where prose tells another figure than the front matter."""
    troubles = []
    if written.hook_mm and spoken.hook_mm and abs(written.hook_mm - spoken.hook_mm) > 0.05:
        troubles.append(_contradiction(spoken, "hook", f"the front matter says {written.hook_mm:g} mm, this says {spoken.hook_mm:g} mm"))
    for gauge in spoken.gauge[:1]:
        same = next((g for g in written.gauge if g.stitch == gauge.stitch), None)
        if same is not None and abs(same.width_cm - gauge.width_cm) / same.width_cm > 0.03:
            message = f"the front matter says {same.stitches:g} {same.stitch} over {same.over_cm:g} cm, this says otherwise"
            troubles.append(_contradiction(spoken, "gauge.0", message))
    return troubles


def _contradiction(spoken: Facts, key: str, message: str) -> Trouble:
    return Trouble(kind="facts-contradict", span=spoken.spans[key], message=message, data={"key": key})
