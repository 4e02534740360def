"""Which of the steps just told a name given to them means: "3 dc, ch 2, 3 dc in next sp (shell)"."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Make, Place, Sized, Step, Together, slips
from ...trade.kinds import GROUPS_AS_ONE, HEIGHT
from ..picots import gathered
from .shapes import amount


def like(step: Step) -> tuple[object, ...]:
    if isinstance(step, Make):
        return ("make", step.stitch, step.each)
    return ("chain", step.number) if isinstance(step, Chain) else (type(step).__name__,)


def just_made(out: list[Step], new_id: Callable[[], int]) -> tuple[Step, ...]:
    """The steps that went last into one place: back to the one that chose it."""
    picot = gathered(tuple(step for step in out[-6:] if not isinstance(step, Aside)), new_id)
    if picot and isinstance(picot[-1], Together) and picot[-1].name == "picot":
        return picot[-1].body
    taken: list[Step] = []
    for step in reversed(out):
        if isinstance(step, Aside):
            continue
        if isinstance(step, Together) and not taken:
            body = _first_made_up(step.body, out[: out.index(step)])
            return (replace(step, body=body),) if step.at.what.endswith("sp") and step.at.where == "next" else body
        if not isinstance(step, (Make, Chain)) or slips(step):
            break
        taken.append(step)
        if isinstance(step, Make) and step.at.where != "same":
            break
        if len(taken) >= 12:
            break
    taken += _other_half(out, taken)
    if not any(isinstance(step, Make) for step in taken):
        return ()
    taken.reverse()
    while taken and isinstance(taken[0], Chain):
        taken.pop(0)
    return tuple(replace(step, at=Place(where="same")) if isinstance(step, Make) else step for step in taken)


def _other_half(out: list[Step], taken: list[Step]) -> list[Step]:
    """ "3 dc in next st, ch 2, 3 dc in next st (shell)": both halves are the shell, though each has a place of its own."""
    told = [step for step in out if not isinstance(step, Aside)]
    rest = told[: len(told) - len(taken)]
    last = taken[-1] if taken else None
    if len(taken) != 1 or not isinstance(last, Make) or last.at.where not in ("next", "ring") or len(rest) < 2:
        return []
    chain, first = rest[-1], rest[-2]
    if not isinstance(chain, Chain) or not isinstance(first, Make):
        return []
    half: Step = first if like(first) == like(last) else _first_made_up((first, chain, last), rest[:-2])[0]
    return [chain, half] if like(half) == like(last) else []


def _first_made_up(body: tuple[Step, ...], before: Sequence[Step]) -> tuple[Step, ...]:
    """ "Ch 3, 2 dc, ch 2 and 3 dc in ring (shell)": the chain is the shell's first stitch; the others have as many in both halves."""
    start = next((step for step in reversed(before) if not isinstance(step, Aside)), None)
    first, last = (body[0], body[-1]) if body else (None, None)
    if not isinstance(start, Chain) or start.foundation or not isinstance(first, Make) or not isinstance(last, Make) or first is last:
        return body
    more = Sized(tuple(None if n is None else n + 1 for n in first.each.values))
    return (replace(first, each=more), *body[1:]) if first.stitch == last.stitch and more == last.each else body


def with_its_chain(out: list[Step], name: str, body: tuple[Step, ...]) -> tuple[Step, ...]:
    """ "Ch 3, 1 dc, ch 2 and 2 dc in same sp (shell made)": the chain that begins the row is the shell's first stitch."""
    first, last = body[0], body[-1]
    told = [step for step in out if not isinstance(step, Aside)]
    made = sum(len(step.body) if isinstance(step, Together) else 1 for step in told[1:2])
    opening = next((k for k, step in enumerate(told) if isinstance(step, Chain) and not step.foundation), None)
    if opening is None or name in GROUPS_AS_ONE or any(isinstance(step, (Make, Together)) and not slips(step) for step in told[:opening]):
        return body
    chain = told[opening]
    after = told[opening + 1 :]
    begins = len(after) == 1 or len(after) == len(body) or made == len(body)
    if not isinstance(chain, Chain) or chain.counts is False or (chain.number.values[0] or 0) < 2 or not begins:
        return body
    group = after[0] if after else None
    if not isinstance(first, Make) or not isinstance(last, Make):
        return body
    placed = after[-1] if len(after) == len(body) else group  # "ch 3, dc, ch 2, 2 dc in same place": told once, at the end
    if (
        not isinstance(group, (Make, Together))
        or not isinstance(placed, (Make, Together))
        or "same" not in (group.at.where, placed.at.where)
    ):
        return body
    over = (chain.number.values[0] or 0) - HEIGHT.get(first.stitch, 3)
    if len(body) == 1 and over > 0 and amount(first) == 1:  # "ch 4, dc in same sp (V-st made)"
        return (first, replace(chain, number=Sized((over,)), counts=None, stands_for=()), replace(first, at=Place(where="same")))
    if len(body) > 2 and amount(last) != amount(first) + 1:
        return body
    return (replace(first, each=Sized((amount(first) + 1,)), places=ONE), *body[1:])
