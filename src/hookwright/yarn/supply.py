"""Which yarn stands behind each colour word of a fabric, and what is known of it: ball, strands, metres per 100 g; the rest is assumed."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from ..pattern import Facts, Yarn
from ..trade import weights
from ..working.fabric import Fabric
from .amounts import Ball, YarnError
from .model import constants, usual_hook_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplied:
    """One yarn of the piece. `m_per_100g` of a single strand; `ball` None when its label is not told; `assumed` sentences."""

    id: str
    yarn: Yarn
    ball: Ball | None
    m_per_100g: float
    strands: int = 1
    assumed: tuple[str, ...] = ()

    @property
    def worked_m_per_100g(self) -> float:
        """Of all strands held together: metres per 100 g over k."""
        return self.m_per_100g / self.strands

    @property
    def name(self) -> str:
        """ "A (deep blue)": the id with its colour or name where told."""
        more = self.yarn.colour or self.yarn.name
        return f"{self.id} ({more})" if more and more != self.id else self.id


def colours_used(fabric: Fabric) -> tuple[str, ...]:
    """The colour words of a fabric that some stitch is worked in, in the order they first occur ("" = no colour told)."""
    return tuple(word for word, used in _words(fabric).items() if used) or ("",)


def _words(fabric: Fabric) -> dict[str, bool]:
    """Every colour word that a row's arrays name, and whether any stitch has it."""
    seen: dict[str, bool] = {}
    looked: set[int] = set()
    for part in fabric.parts:
        for row in part.rows:
            st = row.stitches
            if id(st) in looked:
                continue
            looked.add(id(st))
            used = set(st.colour) if len(st.colours) > 1 else ({0} if len(st) else set())
            for i, name in enumerate(st.colours):
                seen[name] = seen.get(name, False) or i in used
    return seen


def supply(fabric: Fabric) -> tuple[dict[str, Supplied], dict[str, str]]:
    """({yarn id: what is known}, {colour word: yarn id}): yarns the fabric uses or its trims name; every colour word of its arrays."""
    facts = fabric.pattern.facts
    words = _words(fabric)
    used = set(colours_used(fabric)) | {trim.yarn for trim in facts.trims if trim.yarn}
    first = next(iter(facts.yarns), None)
    out: dict[str, Supplied] = {}
    yarn_of: dict[str, str] = {}
    for word in dict.fromkeys((*words, *sorted(used - set(words)))):
        found = _match(word, facts)
        name = found or (first if not word and first else word) or "A"
        yarn_of[word] = name
        if word in used and name not in out:
            out[name] = _supplied(name, facts, known=found is not None or not word)
    return out, yarn_of


def _match(word: str, facts: Facts) -> str | None:
    if word in facts.yarns:
        return word
    low = word.lower().strip()
    fits = (id_ for id_, yarn in facts.yarns.items() if low and low in (id_.lower(), yarn.name.lower(), yarn.colour.lower()))
    return next(fits, None)


def _supplied(name: str, facts: Facts, *, known: bool) -> Supplied:
    yarn = facts.yarns.get(name)
    assumed: list[str] = []
    if yarn is None:
        model = next(iter(facts.yarns.values()), None)
        yarn = model or Yarn(id=name)
        if model is not None:
            assumed.append(f"Yarn {name} is not described: taken to be like {next(iter(facts.yarns))}.")
    ball = label(yarn, name)
    if ball is not None:
        m100 = ball.m_per_100g
    else:
        m100, why = _guess(yarn, facts.hook_mm)
        assumed.append(f"Yarn {name or 'A'}: {why}")
    return Supplied(id=name, yarn=yarn, ball=ball, m_per_100g=m100, strands=max(1, yarn.strands), assumed=tuple(assumed))


def label(yarn: Yarn, name: str = "") -> Ball | None:
    """The ball of a yarn, None when neither mass nor length is told. Raises YarnError for a ball with only one of them, or less than
    nothing."""
    if yarn.ball_m is None and yarn.ball_g is None:
        return None
    for value, what, other in ((yarn.ball_g, "mass", "grams"), (yarn.ball_m, "length", "metres")):
        if value is None:
            raise YarnError(f"The ball of yarn {name or yarn.id} has no {what}: tell its {other} too.")
        if not (value > 0 and math.isfinite(value)):
            raise YarnError(f"The ball of yarn {name or yarn.id} has {value:g} {other}: it must be more than nothing.")
    assert yarn.ball_g is not None and yarn.ball_m is not None
    if yarn.sequence:
        long = sum(run.metres for run in yarn.sequence)
        if any(run.metres <= 0 for run in yarn.sequence):
            raise YarnError(f"The colour sequence of yarn {name or yarn.id} holds a run that is not longer than nothing.")
        if long > yarn.ball_m * 1.0005:
            raise YarnError(f"The colour sequence of yarn {name or yarn.id} is {long:g} m long, longer than its ball of {yarn.ball_m:g} m.")
    return Ball(yarn.ball_g, yarn.ball_m)


def _guess(yarn: Yarn, hook_mm: float | None) -> tuple[float, str]:
    for words in (yarn.weight, yarn.name):
        found = weights.named(words) if words else ()
        if found:
            m100 = found[0].m_per_100g_middle
            return m100, f"no label told, {found[0].name.lower()} weight taken as {m100:.0f} m per 100 g."
    if hook_mm:
        c = constants()
        m100 = 200 * (hook_mm / c.usual_hook_mm_at_200) ** (1 / c.usual_hook_exponent)
        return m100, f"no label told, a yarn usual for the {hook_mm:g} mm hook taken ({m100:.0f} m per 100 g)."
    return 180.0, "neither label nor hook told, a medium yarn of 180 m per 100 g taken."


def hook_of(facts: Facts, supplied: Iterable[Supplied]) -> tuple[float, str]:
    """The hook in mm, and a sentence when it had to be assumed."""
    if facts.hook_mm:
        return facts.hook_mm, ""
    first = next(iter(supplied))
    hook = usual_hook_mm(first.worked_m_per_100g)
    return hook, f"No hook told: {hook:.1f} mm taken, usual for {first.worked_m_per_100g:.0f} m per 100 g."
