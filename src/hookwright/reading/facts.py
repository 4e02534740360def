"""What a pattern says about itself: from its front matter and from its prose lines; the front matter wins."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from ..pattern import Facts, Gauge, Span, Trouble, Yarn
from .lining.front import Front
from .lining.layout import Layout
from .wording.terms import Terms


@dataclass(slots=True)
class Told:
    """Facts, and what else was told with them."""

    facts: Facts = field(default_factory=Facts)
    terms: Terms | None = None
    language: str = "en"
    colours: frozenset[str] = frozenset()
    troubles: list[Trouble] = field(default_factory=list)


def facts_of(source: str, text: str, front: Front, layout: Layout) -> Told:
    """The facts of a text."""
    told = Told()
    if front.problem:
        told.troubles.append(Trouble(kind="yaml", span=front.problem_span, message=front.problem))
    values: Mapping[str, Any] = front.values
    terms = str(values.get("terms", "")).upper().strip(".")
    told.terms = "US" if terms.startswith("US") else "UK" if terms.startswith("UK") else None
    sizes = values.get("sizes")
    names: tuple[str, ...] = ()
    if isinstance(sizes, dict) and isinstance(sizes.get("names"), list):
        names = tuple(str(one) for one in sizes["names"])
    told.facts = Facts(title=str(values.get("title", "") or ""), size_names=names, spans=dict(front.spans))
    del source, text, layout
    return told


__all__ = ["Gauge", "Span", "Told", "Yarn", "facts_of"]
