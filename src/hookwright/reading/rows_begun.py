"""A round begun in the words of the one before: "… fasten off, and rejoin the thread between any two petals with 1 dc"."""

from __future__ import annotations

from dataclasses import replace

from ..pattern import Aside, Chain, Colour, FastenOff, Make, Place, Row, Step


def begun_before(rows: list[Row]) -> list[Row]:
    """The rows, what stands behind a fastening off and a joining in moved to the numbered row that it begins."""
    out = list(rows)
    for k in range(len(out) - 1):
        at = _joined_in_again(out[k].steps)
        if at is None or not (out[k + 1].numbers and out[k + 1].numbers[0]) or not out[k + 1].steps:
            continue
        if any(isinstance(step, Colour) and step.join_in for step in out[k + 1].steps[:2]):
            continue
        begun = _in_its_place(out[k].steps[at:])
        out[k] = replace(out[k], steps=out[k].steps[:at])
        out[k + 1] = replace(out[k + 1], steps=(*begun, *out[k + 1].steps))
    return out


def _in_its_place(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps, the yarn joined in where the stitch told with it stands: "rejoin between any two petals with 1 dc"."""
    match steps:
        case (Colour(at=None) as yarn, Make(at=Place(where="next")) as first, *others):
            return (replace(yarn, at=first.at), replace(first, at=Place(where="same", what=first.at.what)), *others)
    return steps


def _joined_in_again(steps: tuple[Step, ...]) -> int | None:
    """Where the yarn is joined in again behind the row's fastening off, and something is worked with it; None where nothing is."""
    off = next((k for k in range(len(steps) - 1, -1, -1) if isinstance(steps[k], FastenOff)), None)
    if off is None or off == len(steps) - 1:
        return None
    tail = [step for step in steps[off + 1 :] if not isinstance(step, Aside)]
    joins = bool(tail) and isinstance(tail[0], Colour) and tail[0].join_in
    worked = tail[1:]
    return off + 1 if joins and 0 < len(worked) <= MOST and all(isinstance(step, (Make, Chain)) for step in worked) else None


MOST = 3
"""Steps, at most, that a row is begun with where the one before tells of it."""
