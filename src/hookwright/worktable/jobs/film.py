"""The film side: the plan as a checklist, captions and chapters as texts, and what was said against what is written."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from ...teaching import CannotHear, checklist_of, clock, compare, film_of, film_texts, read_captions
from ..bench import Payload, Refusal, Tell
from .common import fabric_of, number, session_of

LONGEST_CAPTIONS = 2_000_000
MOST_HEARD = 200


def film(payload: Payload, tell: Tell) -> dict[str, Any]:
    """The checklist, and the texts to save beside the film. `minutes`: how long a shorter cut should be. Raises `Refusal`."""
    fabric_of(payload)
    session = session_of(payload)
    terms = payload.get("terms")
    made = film_of(
        session.read, session.fabrics, size=session.size, terms=terms if terms in ("US", "UK") else None, left=payload.get("hand") == "left"
    )  # fmt: skip
    listed = checklist_of(made, minutes=number(payload, "minutes", 1, 600))
    chapters = [{"at": one.at, "title": one.title} for one in made.chapters]
    texts = {name: content.decode("utf-8") for name, content in film_texts(made).items()}
    return {**asdict(listed), "chapters": chapters, "cautions": [str(one) for one in made.cautions], "texts": texts}


def heard(payload: Payload, tell: Tell) -> dict[str, Any]:
    """What the captions say against what is written, in the order of the film. Raises `Refusal` for captions that cannot be read."""
    fabric = fabric_of(payload)
    words = str(payload.get("captions", ""))
    if len(words) > LONGEST_CAPTIONS:
        raise Refusal("These captions are too long to be those of one film.")
    try:
        captions = read_captions(words)
        found = compare(fabric, captions, sizes=session_of(payload).fabrics, doubtful=True)
    except CannotHear as why:
        raise Refusal(str(why)) from why
    ordered = sorted(found, key=lambda one: (one.doubtful, one.at is None, one.at or 0.0))
    return {
        "heard": [
            {
                **asdict(one),
                "at": "" if one.at is None else clock(one.at)[:8],
                "sure": round(one.sure, 2),
                "doubtful": one.doubtful,
            }
            for one in ordered[:MOST_HEARD]
        ],
        "more": max(0, len(ordered) - MOST_HEARD),
        "remarks": list(captions.remarks),
    }
