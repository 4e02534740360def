"""What a plain run goes into, told of both kinds at once: "sc in every stitch, the chain as well as the dc", "… chain and dc alike"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Make, Place, Step
from .cursor import Cursor
from .nouns import noun

EXAMPLES = (
    ("sc in every st, the chain as well as the dc", "sc×rest@next any"),
    ("sc in every st, chain and dc alike", "sc×rest@next any"),
    ("sc across, working both in the chains and the dc", "sc×rest@next any"),
)

_LEADS = frozenset(("work", "in", "over", "under", "the", "n", "each", "all", "both", "idle", "a"))
_LEADING_WORDS = frozenset("taking making putting into upon both of one equally alike".split())  # noqa: SIM905
_ENDS = frozenset((",", ";", ".", "", "(", ")", "join", "turn", "="))


def both_alike(c: Cursor) -> list[Step] | None:
    """A clause of two kinds and a word that says both are meant; the run before it then goes into stitch and chain alike."""
    start = c.i
    at = next((k for k in range(len(c.out) - 1, -1, -1) if not isinstance(c.out[k], Aside)), None)
    run = c.out[at] if at is not None else None
    if at is None or not isinstance(run, Make) or run.places != "rest" or run.each != ONE or run.at not in (Place(), Place(what="any")):
        return None
    kinds: list[str] = []
    both = False
    while c.kind not in _ENDS:
        word = c.t[c.i].text.lower()
        if word in ("alike", "both", "also", "equally") or (c.kind == "as" and c.look().text.lower() == "well"):
            both = True
            c.i += 1
            if c.t[c.i].text.lower() == "well":
                c.i += 1
                c.take("as")
        elif c.kind in ("ch", "st", "noun", "sp", "group") and (what := noun(c, chains=True)) is not None:
            kinds.append(what)
        elif c.kind in _LEADS or c.kind in ("and", "&") or word in _LEADING_WORDS:
            both = both or word == "as"  # "as well as", told as one word
            c.i += 1
        else:
            break
    if not both or len(kinds) != 2 or c.kind not in _ENDS or not any(kind.startswith(("ch", "sp")) for kind in kinds):
        c.i = start
        return None
    c.out[at] = replace(run, at=Place(what="any"))
    return [Aside(id=c.id(), span=c.span(start))]
