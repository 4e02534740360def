"""Drafting on the page: the families, and a draft as measures are typed."""

from __future__ import annotations

import re
from typing import Any

from ..bench import Payload, Refusal, Tell
from .common import session_of


def families(payload: Payload, tell: Tell) -> list[dict[str, Any]]:
    """Every family with what it may be asked."""
    from ...drafting import families as known

    return [
        {
            "name": family.name,
            "what": family.what,
            "needs": list(family.needs),
            "lengths": dict(family.lengths),
            "words": dict(family.words),
        }
        for family in known().values()
    ]


def draft(payload: Payload, tell: Tell) -> dict[str, Any]:
    """A draft: its rows in words, its outline over the one asked, its sizes. Refused with the nearest that can be had."""
    from ...drafting import Refused
    from ...drafting import draft as make
    from ...drafting.picture import picture

    measures = {str(key): str(value) for key, value in dict(payload.get("measures", {})).items() if str(value).strip()}
    try:
        made = make(
            str(payload["family"]),
            str(payload.get("gauge", "")),
            measures,
            turning_chain=str(payload["turning_chain"]) if payload.get("turning_chain") else None,
            stacked=bool(payload.get("stacked", False)),
        )
    except Refused as refused:
        raise Refusal(plainly(str(refused))) from refused
    return {
        "rows": rows_in_words(made.pattern, payload),
        "whole": whole_in_words(made.pattern, payload),
        "picture": picture(made),
        "sizes": [str(size) for size in made.sizes],
        "notes": list(made.notes),
        "stitches": _stitches(made.pattern),
    }


def plainly(sentence: str) -> str:
    """A refusal without the command line's dashes.

    >>> plainly("This piece needs its depth. Add --depth with a unit, such as --depth 24cm.")
    'This piece needs its depth. Add “depth” with a unit, such as “depth” 24cm.'
    """
    return re.sub(r"--([a-z][a-z-]*)", r"“\1”", sentence)


def terms_wished(payload: Payload) -> Any:
    """The terms of the page's pattern, so that drafted rows speak as the rest does."""
    wished = payload.get("terms")
    return wished if wished in ("US", "UK") else session_of(payload).read.terms if str(payload.get("text", "")).strip() else "US"


def whole_in_words(pattern: Any, payload: Payload) -> str:
    """A drafted pattern as a whole file. Plain spaces: on a page that is typed on, unbreakable ones only surprise."""
    from ...writing import write

    return write(pattern, terms=terms_wished(payload)).text.replace("\u00a0", " ")


def rows_in_words(pattern: Any, payload: Payload) -> str:
    """A drafted pattern's parts and rows alone, to be put into a pattern that has its facts already."""
    text = whole_in_words(pattern, payload)
    if text.startswith("---\n"):
        text = text[text.index("\n---\n", 3) + 5 :]
    return text.strip() + "\n"


def _stitches(pattern: Any) -> int:
    from ...working import work

    return work(pattern).stitch_count


__all__ = ["draft", "families", "plainly", "rows_in_words", "terms_wished", "whole_in_words"]
