"""A list of numbers behind a terse row ("13 htr, 2 ch, miss 10, 13 htr. 26 htr & 2 ch."): what the row made, where it adds up to that."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from ...pattern import Aside, Chain, Choice, Colour, Count, FastenOff, Join, Make, Repeat, Sized, Skip, Step, Together, Turn

EXAMPLES = (
    ("ch 2, 13 hdc, ch 2, skip 10 sts, 13 hdc. 26 hdc & 2 ch.", "ch2, hdc×13, ch2, skip10, hdc×13 | 26 hdc, 2 ch"),
    ("5 sc, 6 dc. 5 sc.", "sc×5, dc×6, sc×5"),
)


def adds_up(steps: Sequence[Step], found: Sequence[Count]) -> bool:
    """Whether the numbers are those of all that the steps make, kind by kind, and there were several steps to add up, or one step makes
    them of fewer stitches or of more ("inc x 6. 12 sc").

    A chain at the row's very beginning may stand for a stitch, or for nothing, and so may be left out of its kind's number.
    """
    made = made_of(steps)
    working = [step for step in steps if isinstance(step, (Make, Together, Repeat, Chain, Choice))]
    if made is None or (len(working) < 2 and not any(_shapes(step) for step in working)):
        return False
    if any(number and kind != "sl st" and not kind.startswith(("ch", "sp")) for kind, number in (made - _of(found)).items()):
        return False  # "5 sc, 6 dc. 5 sc.": more is made than is told
    first = next((step for step in steps if not isinstance(step, (Aside, Colour, Turn))), None)
    before = first.number.at(0) or 0 if isinstance(first, Chain) else 0
    for one in found:
        told = one.number.at(0)
        if told not in ((made["ch"], made["ch"] - before) if one.kind == "ch" else (made[one.kind],)):
            return False
    return any(one.kind not in ("ch", "sl st") for one in found)


def _shapes(step: Step) -> bool:
    if isinstance(step, Choice):
        return all(_shapes(one) for one in step.answers[0])
    several = isinstance(step, (Make, Together)) and isinstance(step.places, Sized) and (step.places.at(0) or 0) > 1
    return several and (isinstance(step, Together) or (isinstance(step, Make) and ((step.each.at(0) or 0) > 1 or step.closes > 1)))


def _of(found: Sequence[Count]) -> Counter[str]:
    return Counter({one.kind: one.number.at(0) or 0 for one in found})


def made_of(steps: Sequence[Step]) -> Counter[str] | None:
    """How many of each kind the steps make, in the first size; None where the row below decides it."""
    made: Counter[str] = Counter()
    for step in steps:
        inner: Counter[str] | None = None
        times: int | None = 1
        match step:
            case Make():
                inner = Counter({step.stitch.split("2tog")[0].split("3tog")[0]: step.each.at(0) or 0})
                times = None if step.places == "rest" else step.places.at(0)
            case Together():
                inner = made_of(step.body)
                times = None if step.places == "rest" else step.places.at(0)
            case Repeat() if not step.last:
                inner = made_of(step.body)
                times = step.times.number.at(0) if step.times.kind == "n" else None
            case Chain():
                number = step.number.at(0) or 0
                inner = Counter({"ch": number, f"ch-{number} sp": 1, "sp": 1})
            case Choice():
                inner = made_of(step.answers[0])
            case Skip() | Turn() | Join() | Aside() | Colour() | FastenOff():
                continue
            case _:
                return None
        if inner is None or times is None:
            return None
        made.update({kind: number * times for kind, number in inner.items()})
    return made
