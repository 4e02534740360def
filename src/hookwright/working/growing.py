"""A row worked again with its plain runs longer: "… having 1 more sc between increases", each time one more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import CHAIN_FIRST, ONE, Aside, Chain, Choice, Make, Repeat, Sized, Step, Times, Together
from .needs import GROUP_WORDS, is_space


def grown(steps: tuple[Step, ...], by: int) -> tuple[Step, ...]:
    """The steps with every plain run of their repeats `by` stitches longer (shorter when negative).

    A row of nothing but increases ("2 sc in each sc") gets its first plain stitches; a run that comes to nothing falls away.
    """
    if not by:
        return steps
    if any(isinstance(step, Choice) for step in steps):
        return tuple(_each_answer(step, by) for step in steps)
    if any(_of_tiles(step) for step in steps):
        return _more_tiles(steps, by)
    looped = fewer_loops(steps, by)
    if looped is not None:
        return looped
    if any(isinstance(step, Repeat) for step in steps):
        within = tuple(replace(step, body=_longer(step.body, by)) if isinstance(step, Repeat) else step for step in steps)
        first = next(i for i, step in enumerate(within) if isinstance(step, Repeat))
        return (*_longer(within[:first], by), *within[first:])  # "ch 2, hdc in next, 2 hdc in next, * …": a unit told apart grows too
    if _at_the_middle(steps):
        return _longer(steps, by)
    return tuple(_opened(step, by) if _all_over(step) else step for step in steps)


def _of_tiles(step: Step) -> bool:
    """ "(Sl st into next ch-3 sp, ch 3, 3 dc in same sp)": the blocks of a piece worked from corner to corner."""
    if not isinstance(step, Repeat) or not any(isinstance(one, Chain) for one in step.body):
        return False
    made = [one for one in step.body if isinstance(one, Make)]
    slips = [one for one in made if one.stitch == "sl st"]
    return len(made) == 2 and len(slips) == 1 and any(one.each.values[0] and one.each.values[0] > 1 for one in made if one not in slips)


def _more_tiles(steps: Sequence[Step], by: int) -> tuple[Step, ...]:
    """The steps with `by` blocks more where their number is told; a repeat to the row's end finds its own."""
    out: list[Step] = []
    for step in steps:
        if isinstance(step, Repeat) and _of_tiles(step) and step.times.kind in ("n", "more"):
            number = Sized(tuple(None if n is None else max(0, n + by) for n in step.times.number.values))
            if number == Sized((0,)):
                continue
            step = replace(step, times=replace(step.times, number=number))
        out.append(step)
    return tuple(out)


def with_runs_of(steps: tuple[Step, ...], number: int) -> tuple[Step, ...] | None:
    """The steps with `number` plain stitches between the shapings of their repeat ("as Rnd 5, with 4 sc between increases"); None where
    the runs are of several lengths, so that nothing tells which of them are meant."""
    bodies = [step.body for step in steps if isinstance(step, Repeat)]
    if not bodies and (everywhere := _plain_all_over(steps)) is not None:
        return _shaped_every(steps, everywhere, number)
    told = [step.places for body in bodies for step in body if _plain(step) and isinstance(step, Make)]
    runs = [places.values[0] or 0 for places in told if isinstance(places, Sized)]
    if any(_all_over(step) for step in steps):
        return grown(steps, number)
    shapings = [k for k, step in enumerate(steps) if _shapes(step)]
    if not bodies and len(shapings) > 1:  # told once through: "2 together, 9 plain, 2 together"
        within = range(shapings[0], shapings[-1])
        if len({step.places for k, step in enumerate(steps) if k in within and isinstance(step, Make) and _plain(step)}) > 1:
            return None
        run = Sized((number,))
        return tuple(
            replace(step, places=run) if k in within and isinstance(step, Make) and _plain(step) else step for k, step in enumerate(steps)
        )
    if not runs or len(set(runs)) > 1:
        return None
    more = grown(steps, number - runs[0])
    return None if more == steps and number != runs[0] else more


def _plain_all_over(steps: tuple[Step, ...]) -> int | None:
    """Which of the steps is the one plain run that is all of the row's work; None where there is more, or none."""
    works = [k for k, step in enumerate(steps) if _shapes(step) or isinstance(step, (Make, Together))]
    run = steps[works[0]] if len(works) == 1 else None
    plain = isinstance(run, Make) and run.places == "rest" and run.at.where == "next" and run.each == ONE and not run.upto
    return works[0] if plain else None


def _shaped_every(steps: tuple[Step, ...], k: int, number: int) -> tuple[Step, ...]:
    """ "(Same as Rnd 3,) but increase in every 7th st" of a plain round: `number` plain stitches before every increase."""
    run = steps[k]
    assert isinstance(run, Make)
    shaped = replace(run, each=Sized((2,)), places=ONE)
    unit = Repeat(id=run.id, span=run.span, body=(replace(run, places=Sized((number,))), shaped), times=Times(kind="rest", loose=True))
    told: Step = unit
    if number > 1 and any(isinstance(step, Chain) and not step.foundation for step in steps[:k]):
        fewer = replace(run, places=Sized((number - 1,)))
        told = Choice(id=run.id, span=run.span, question=CHAIN_FIRST, answers=((unit,), (fewer, shaped, unit)))
    return (*steps[:k], told, *steps[k + 1 :])


def _each_answer(step: Step, by: int) -> Step:
    if not isinstance(step, Choice):
        return step
    return replace(step, answers=tuple(grown(answer, by) for answer in step.answers))


def _at_the_middle(steps: Sequence[Step]) -> bool:
    """ "7 sc, 3 sc in the center st, 7 sc": one increase of three in one place between two plain runs that are alike."""
    worked = [step for step in steps if isinstance(step, Make)]
    if len(worked) != 3 or any(isinstance(step, Together) for step in steps):
        return False
    before, middle, after = worked
    return _plain(before) and _plain(after) and before.places == after.places and middle.each == Sized((3,)) and middle.places == ONE


def _plain(step: Step) -> bool:
    if not isinstance(step, Make) or step.each != ONE or step.closes > 1 or step.places == "rest":
        return False
    return step.stitch != "sl st" and step.at.where != "same"


def _shapes(step: Step) -> bool:
    return isinstance(step, Make) and (step.closes > 1 or step.each != ONE or step.stitch in ("inc", "dec") or step.at.where == "same")


def _longer(body: Sequence[Step], by: int) -> tuple[Step, ...]:
    runs = [i for i, step in enumerate(body) if _plain(step)]
    shapings = [i for i, step in enumerate(body) if _shapes(step)]
    if not shapings:
        return tuple(body)
    if not runs:
        first = body[shapings[0]]
        assert isinstance(first, Make)
        return (*body[: shapings[0]], _run(first, by), *body[shapings[0] :]) if by > 0 else tuple(body)
    out: list[Step] = list(body)
    for i in runs:
        step = out[i]
        assert isinstance(step, Make) and isinstance(step.places, Sized)
        out[i] = replace(step, places=Sized(tuple(None if n is None else max(0, n + by) for n in step.places.values)))
    return tuple(step for step in out if not (_plain(step) and isinstance(step, Make) and step.places == Sized((0,))))


def _run(beside: Make, number: int) -> Make:
    stitch = beside.main or (beside.stitch if beside.closes == 1 else beside.stitch.split("2tog")[0].split("3tog")[0])
    return Make(id=beside.id, span=beside.span, stitch=stitch, places=Sized((number,)))


def _all_over(step: Step) -> bool:
    return isinstance(step, Make) and step.places == "rest" and _shapes(step)


def _opened(step: Step, by: int) -> Step:
    """ "2 sc in each sc" a row later: so many plain, then two in one, to the end."""
    assert isinstance(step, Make)
    if by < 0:
        return step
    one = replace(step, places=ONE)
    return Repeat(id=step.id, span=step.span, body=(_run(step, by), one), times=Times(kind="rest"))


def fewer_loops(steps: Sequence[Step], by: int) -> tuple[Step, ...] | None:
    """The steps with `by` loops more in the repeat that runs over a figure's loops ("having 1 loop less on each pineapple"); None where the
    steps name no such loops."""
    out: list[Step] = []
    in_figure = changed = False
    for step in steps:
        if isinstance(step, Make) and _names_loop(step):
            in_figure = True
        elif isinstance(step, Repeat):
            if (in_figure or (by < 0 and _along_loops(step))) and step.times.kind in ("n", "more"):
                less = Sized(tuple(None if n is None else max(0, n + by) for n in step.times.number.values))
                changed, in_figure = True, False
                if step.times.kind == "n" and less == Sized((0,)):
                    continue
                step = replace(step, times=replace(step.times, number=less))
            else:
                inner = fewer_loops(step.body, by)
                if inner is not None:
                    changed = True
                    step = replace(step, body=inner)
        out.append(step)
    return tuple(out) if changed else None


def _names_loop(step: Make) -> bool:
    """ "In first loop of pineapple"; "in first loop", behind the shells of a unit."""
    of_figure = bool(step.at.of) and step.at.of not in GROUP_WORDS
    return of_figure or (step.at.where == "first" and is_space(step.at.what) and not step.at.of)


def longer_between(steps: Sequence[Step], by: int) -> tuple[Step, ...]:
    """The steps with `by` chains more between two groups that stand side by side in a unit ("1 ch more between the 2 shells"); where none
    stand between them yet, so many."""
    out: list[Step] = []
    for step in steps:
        if isinstance(step, Repeat):
            step = replace(step, body=longer_between(step.body, by))
        beside = _is_group(step)
        if beside and len(out) > 1 and isinstance(chain := out[-1], Chain) and _is_group(out[-2]):
            more = Sized(tuple(None if n is None else max(0, n + by) for n in chain.number.values))
            out[-1] = replace(chain, number=more)
        elif beside and out and _is_group(out[-1]) and by > 0:
            out.append(Chain(id=step.id, span=step.span, number=Sized((by,))))
        out.append(step)
    return tuple(step for step in out if not (isinstance(step, Chain) and step.number == Sized((0,))))


def _is_group(step: Step) -> bool:
    return isinstance(step, Together) and len(step.body) > 1


def _along_loops(step: Repeat) -> bool:
    """ "(sc in next ch-3 loop, ch 3) 3 times": a run over a figure's loops, the figure not named."""
    made = [inner for inner in step.body if not isinstance(inner, (Chain, Aside))]
    one = made[0] if len(made) == 1 else None
    return isinstance(one, Make) and one.places == ONE and is_space(one.at.what) and len(step.body) > 1
