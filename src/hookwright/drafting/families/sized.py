"""Hat and mitten in a run of sizes, from body measures plus ease. One pattern, numbers written `72 (76, 80)`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from ...pattern import (
    Aside,
    Chain,
    Colour,
    Count,
    FastenOff,
    FinishedSize,
    Join,
    Make,
    Part,
    Place,
    Repeat,
    Row,
    Sized,
    Skip,
    Step,
    Times,
)
from ...trade import bodies, units
from ..asks import Custom, Refused, length_cm
from ..compiling import facts_of, pattern_of
from ..outline import Outline
from ..result import Asked, Draft, Family, Obtained, View
from ..rounds import chain_ring, plan_rounds, ring_steps, round_steps
from ..stepping import start_chain, tog
from .motifs import ring_gain

HEAD_EASE_CM = -2.5
"""A hat is made an inch smaller than the head ("What size should a newborn crochet hat be", health9.org; calicojoy.com size chart)."""
CROWN_TO_EAR = 0.4
"""Crown to ear over circumference ("How to size a hat", hookthatyarn.wordpress.com)."""
HANDS_CM = {"child": 15.0, "small": 18.0, "medium": 20.0, "large": 23.0}
"""Girth of a hand round the knuckles: common practice, no source; edit to the hand at hand."""
SIZES_MOST = 12


def run_of(asked: Asked, name: str, table: str, presets: dict[str, float]) -> tuple[tuple[str, ...], tuple[float, ...]]:
    """The sizes asked: names out of a table ("baby, child, woman") or girths with a unit ("52 (54, 57) cm"), rising.

    Refuses sizes that are out of order or unknown, with the names there are.
    """
    said = asked.words.get(name, table)
    if re.search(r"\d", said):
        return _told_girths(said)
    names = [part.strip() for part in re.split(r"[,;]", said) if part.strip()]
    unknown = [n for n in names if n not in presets]
    if unknown or not names:
        raise Refused(
            f"No size is called “{', '.join(unknown) or said}”.", f"Choose from {', '.join(presets)}, or write girths: 52 (54, 57) cm."
        )
    girths = tuple(presets[n] for n in names)
    _rising(girths)
    return tuple(names), girths


_SIZE = re.compile(r"\d+(?:\.\d+|,\d(?!\d))?(?:\s+\d/\d|\s*[½¼¾])?")
"""A size: a comma with one figure after it is a decimal comma, with two it parts two sizes ("42,46")."""


def _told_girths(said: str) -> tuple[tuple[str, ...], tuple[float, ...]]:
    unit = re.search(r"(mm|cm|in|inches|\"|″)\s*\)?\s*$", said)
    if unit is None:
        raise Refused("The sizes have no unit.", "Write it once at the end: 52 (54, 57) cm.")
    numbers = [re.sub(r"\s+", " ", n) for n in _SIZE.findall(said[: unit.start()])]
    girths = tuple(length_cm(f"{n} {unit[1]}", "size") for n in numbers)
    _rising(girths)
    if len(girths) > SIZES_MOST:
        raise Refused(f"{len(girths)} sizes are more than {SIZES_MOST}.", "Write two patterns.")
    return tuple(numbers), girths


def _rising(girths: Sequence[float]) -> None:
    if list(girths) != sorted(set(girths)):
        raise Refused("Sizes go from the smallest to the largest, each larger than the last.", "Put them in order.")


def heads() -> dict[str, float]:
    """Head girths by name: the middle of each printed range, the first source of each name (see `trade.bodies`)."""
    found: dict[str, float] = {}
    for preset in bodies.presets():
        if preset.kind == "head":
            found.setdefault(preset.name, (preset.cm[0] + preset.cm[1]) / 2)
    return found


def sized(values: Sequence[int]) -> Sized[int]:
    return Sized.of(*values) if len(set(values)) > 1 else Sized.of(values[0])


def numbers(spans: Sequence[tuple[int, int]]) -> tuple[tuple[int, ...], ...]:
    """Row numbers of an instruction in every size, from (first, last)."""
    told = tuple(tuple(range(a, b + 1)) for a, b in spans)
    return told if len(set(told)) > 1 else told[:1]


def label(spans: Sequence[tuple[int, int]], noun: str = "Rnd") -> str:
    """The label of rounds (rows) whose numbers depend on the size.

    >>> label([(9, 9), (10, 10)]), label([(10, 21), (11, 24)]), label([(3, 3), (3, 3)])
    ('Rnd 9 (10)', 'Rnds 10-21 (11-24)', 'Rnd 3')
    """
    one = all(a == b for a, b in spans)
    words = [str(a) if a == b else f"{a}-{b}" for a, b in spans]
    shown = words[0] if len(set(words)) == 1 else f"{words[0]} ({', '.join(words[1:])})"
    return f"{noun}{'' if one else 's'} {shown}"


MOST_HIGHER = 1
"""Rounds that the smallest of several sizes may be higher than asked, told as a limit. Our own measure, no source."""


def hat(asked: Asked, custom: Custom) -> Draft:
    """A hat from the crown: a flat circle of girth ÷ π across, then straight to the brim."""
    names, girths = run_of(asked, "sizes", "toddler, child, woman, man", heads())
    ease = asked.lengths.get("ease")
    around = [g + (HEAD_EASE_CM if ease is None else -ease) for g in girths]
    if min(around) <= 0:
        raise Refused("The ease is larger than the smallest head.", "Make it smaller.")
    w, h = custom.width_cm, custom.height_cm
    gain = max(3, ring_gain(custom))
    _holds(gain, min(around), custom)
    multiple = int(asked.words.get("multiple", "1")) if asked.words.get("multiple", "1").isdigit() else 1
    counts = [max(gain + 1, max(multiple, round(c / w / multiple) * multiple)) for c in around]
    regular, ending = crown_rounds(counts, gain)
    crown = regular + ending
    wanted = [round(CROWN_TO_EAR * g / h) for g in around]
    total = [max(crown, rounds) for rounds in wanted]
    if len(names) > 1 and total[0] - wanted[0] > MOST_HIGHER:
        raise Refused(
            f"The crown takes {crown} rounds in all sizes, and {names[0]} is {wanted[0]} rounds high.",
            f'Draft the smallest apart: --sizes "{names[0]}", then the others.',
        )
    _apart(list(zip(counts, total, strict=True)), names)
    rows = [*_crown(gain, regular, custom), *_last_crown(gain, regular, ending, counts, custom), *_sides(crown, total, custom)]
    part = Part(name="Hat", rows=(*rows, Row(id=0, label="", steps=(FastenOff(),))))
    sizes = _reported(names, girths, around, counts, total, custom)
    facts = _facts(custom, "Hat", names, [n * w for n in counts], [t * h for t in total])
    notes: tuple[str, ...] = (
        "2.5 cm (1 in) smaller than the head: a hat holds by its stretch."
        if ease is None
        else f"{units.both_lengths(abs(ease))} {'smaller' if ease > 0 else 'larger'} than the head."
        if ease
        else "As wide as the head.",
        f"The crown gains {gain} stitches a round (2π × row height ÷ stitch width = {units.decimal(custom.flat_growth)}).",
    )
    if total != wanted:
        notes = (*notes, f"The crown takes {crown} rounds in all sizes, which makes the smallest higher than asked: draft them apart.")
    views = tuple(
        View(f"Hat, {n}", _dome(c, CROWN_TO_EAR * c, c), _dome(k * w, t * h, c))
        for n, c, k, t in zip(names, around, counts, total, strict=True)
    )
    return Draft(
        family="hat", pattern=pattern_of(facts, [part]), custom=custom, sizes=sizes, views=views, notes=(*custom.assumed, *notes),
        limited=total != wanted,
        tolerance=(0.5 if multiple == 1 else multiple / 2, 0.5), intended="garment",
    )  # fmt: skip


def _apart(worked: Sequence[tuple[int, ...]], names: Sequence[str]) -> None:
    """Refuses two sizes with the same stitches and the same rounds. `worked`: the numbers of each size, its stitches first."""
    for k in range(1, len(worked)):
        if worked[k] == worked[k - 1]:
            raise Refused(
                f"In this gauge the sizes {names[k - 1]} and {names[k]} come out alike ({worked[k][0]} stitches).", "Leave one of them out."
            )


def _holds(gain: int, smallest_cm: float, custom: Custom) -> None:
    if gain + 1 > smallest_cm / custom.width_cm:
        raise Refused(
            f"A hat of {smallest_cm:.0f} cm is {smallest_cm / custom.width_cm:.0f} stitches round, and its crown begins with {gain}.",
            "Work it in a shorter stitch, or check the row gauge.",
        )


def crown_rounds(counts: Sequence[int], gain: int) -> tuple[int, int]:
    """(rounds all sizes share, rounds in which each goes to its own girth): the fewest of the latter that gain no more than `gain` a round
    and nowhere more than every second stitch.

    >>> crown_rounds([82, 89, 91, 96], 6)
    (13, 3)
    """
    for ending in range(1, max(counts)):
        regular = (min(counts) - ending) // gain
        if regular >= 1 and max(counts) - gain * regular <= gain * ending and all(_shares(gain * regular, n, ending) for n in counts):
            return regular, ending
        if regular < 1:
            break
    ending = next(k for k in range(1, max(counts)) if all(_shares(gain, n, k) for n in counts))
    return 1, ending


def _shares(now: int, last: int, rounds: int) -> tuple[int, ...]:
    """What each of the last rounds of a crown gains, as even as can be; empty where none or too many would be gained."""
    shares: list[int] = []
    for k in range(rounds):
        more = max(1, min(-(-(last - now) // (rounds - k)), (now - 1) // 2))
        shares.append(more)
        now += more
    return tuple(shares) if now == last else ()


def _crown(gain: int, regular: int, custom: Custom) -> list[Row]:
    """The crown's regular rounds, alike in all sizes."""
    plans = plan_rounds([gain * k for k in range(1, regular + 1)], stacked=custom.stacked)
    rows = [_row([(1, 1)], ring_steps(gain, custom), [gain], custom)]
    rows += [_row([(k, k)], round_steps(plans[k - 1].runs, custom), [gain * k], custom) for k in range(2, regular + 1)]
    return rows


def _row(
    spans: Sequence[tuple[int, int]],
    steps: tuple[Step, ...],
    counts: Sequence[int] | None,
    custom: Custom,
) -> Row:
    return Row(
        id=0, label=label(spans), numbers=numbers(spans), made_in=custom.rounds, noun="round", steps=steps,
        stated=() if counts is None else (Count(number=sized(counts), kind=custom.stitch),),
    )  # fmt: skip


def _last_crown(gain: int, regular: int, ending: int, counts: Sequence[int], custom: Custom) -> list[Row]:
    """The rounds that bring every size to its girth: each size spreads what it still needs over all of them."""
    if custom.rounds == "joined" and custom.turning.counts:
        raise Refused("A hat in several sizes is drafted with a starting chain that does not count.", "Leave the turning chain out.")
    stitch = custom.stitch
    head: tuple[Step, ...] = (start_chain(custom),) if custom.rounds == "joined" else ()
    tail: tuple[Step, ...] = (Join(),) if custom.rounds == "joined" else ()
    now = [gain * regular] * len(counts)
    shares = [_shares(gain * regular, n, ending) for n in counts]
    rows = []
    for k in range(ending):
        more = [share[k] for share in shares]
        gaps = [max(1, (n - 1) // m - 1) for n, m in zip(now, more, strict=True)]
        left = [n - m * (g + 1) for n, m, g in zip(now, more, gaps, strict=True)]
        body = (Make(stitch=stitch, places=sized(gaps)), Make(stitch=stitch, each=Sized.of(2)))
        steps = (*head, Repeat(body=body, times=Times(kind="n", number=sized(more))), Make(stitch=stitch, places=sized(left)))
        now = [n + m for n, m in zip(now, more, strict=True)]
        rows.append(_row([(regular + k + 1,) * 2], (*steps, *tail), now, custom))
    return rows


def _sides(crown: int, total: Sequence[int], custom: Custom) -> list[Row]:
    """The straight rounds; where the smallest sizes have none, the rounds that each of the others goes on by, told for those only."""
    steps: tuple[Step, ...] = (Make(stitch=custom.stitch, places="rest"),)
    if custom.rounds == "joined":
        steps = (start_chain(custom), *steps, Join())
    if min(total) > crown:
        return [_row([(crown + 1, t) for t in total], steps, None, custom)]
    levels = sorted({crown, *total})
    return [
        replace(_row([(low + 1, high)], steps, None, custom), only=frozenset(k for k, t in enumerate(total) if t >= high))
        for low, high in pairwise(levels)
    ]


def _reported(
    names: Sequence[str], girths: Sequence[float], around: Sequence[float], counts: Sequence[int], total: Sequence[int], custom: Custom
) -> tuple[Obtained, ...]:
    w, h = custom.width_cm, custom.height_cm
    out: list[Obtained] = []
    for name, body, girth, n, rows in zip(names, girths, around, counts, total, strict=True):
        shown = f"size {name}" if name[0].isdigit() else f"size {name} (head {units.both_lengths(body)})"
        out.append(Obtained(f"{shown}, girth", girth, n * w, w, custom.stitch, f"{n} {custom.stitch}"))
        out.append(Obtained(f"{shown}, height", CROWN_TO_EAR * girth, rows * h, h, "round", f"{rows} rounds"))
    return tuple(out)


def _facts(custom: Custom, title: str, names: Sequence[str], girths: Sequence[float], heights: Sequence[float]):  # type: ignore[no-untyped-def]
    from dataclasses import replace

    finished = [
        FinishedSize(what="girth", cm=tuple(round(g, 1) for g in girths)),
        FinishedSize(what="length", cm=tuple(round(g, 1) for g in heights)),
    ]
    return replace(facts_of(custom, title, finished, "garment"), size_names=tuple(names) if len(names) > 1 else ())


def _dome(girth: float, height: float, crown_girth: float) -> Outline:
    """A hat from the side, laid flat: half its girth wide, the crown of so much girth rounded off."""
    half, radius = girth / 4, crown_girth / 6.2832
    rise = max(0.0, height - radius)
    return ((-half, 0.0), (half, 0.0), (half, rise), (half * 0.7, rise + radius * 0.5), (-half * 0.7, rise + radius * 0.5), (-half, rise))


def mitten(asked: Asked, custom: Custom) -> Draft:
    """A mitten from the cuff: straight to the thumb, an opening, straight to the finger tips, four lines of decreases; then the thumb."""
    names, girths = run_of(asked, "sizes", "child, small, medium, large", HANDS_CM)
    ease = asked.get("ease", 1.5)
    if girths[0] + ease <= 0:
        raise Refused("The ease leaves nothing of the smallest hand.", "Make it larger.")
    w, h = custom.width_cm, custom.height_cm
    counts = [max(12, 4 * round((g + ease) / w / 4)) for g in girths]
    if custom.rounds == "joined" and custom.turning.counts:
        raise Refused("A mitten in several sizes is drafted with a starting chain that does not count.", "Leave the turning chain out.")
    to_thumb = [max(4, round(0.65 * g / h)) for g in girths]
    gap = [max(2, round(n * 0.18)) for n in counts]
    plain = [1] * len(girths)
    tip = [max(t + 5, t + round(0.6 * g / h) - 3 - 2 * p) for t, g, p in zip(to_thumb, girths, plain, strict=True)]
    _apart(list(zip(counts, to_thumb, gap, tip, strict=True)), names)
    start = Row(id=0, label="Foundation", steps=_ring_in_sizes(counts))
    rows = [start, *_hand(counts, to_thumb, gap, tip, custom), *_tip(counts, tip, plain, custom)]
    cut = Row(id=0, label="", steps=(Aside(kind="close"),))
    thumb = Part(name="Thumb", rows=(*_thumb(gap, girths, custom), cut))
    sizes = tuple(
        Obtained(f"size {n}, girth", g + ease, k * w, 4 * w, "repeat", f"{k} {custom.stitch}")
        for n, g, k in zip(names, girths, counts, strict=True)
    )
    long = [(t + 3 + 2 * p) * h for t, p in zip(tip, plain, strict=True)]
    views = tuple(
        View(f"Mitten, {n}", _hand_outline((g + ease), length), _hand_outline(k * w, length))
        for n, g, k, length in zip(names, girths, counts, long, strict=True)
    )
    return Draft(
        family="mitten",
        pattern=pattern_of(_facts(custom, "Mitten", names, [n * w for n in counts], long), [Part(name="Hand", rows=(*rows, cut)), thumb]),
        custom=custom, sizes=sizes, views=views,
        notes=(
            *custom.assumed, "Hand girths: common practice, no source; edit them to the hand.",
            "Every size is a multiple of 4 stitches, so that its tip closes alike.",
        ),
        tolerance=(2.0, 2.0), intended="garment",
    )  # fmt: skip


def _ring_in_sizes(counts: Sequence[int]) -> tuple[Step, ...]:
    chain = chain_ring(counts[0])
    return (Chain(number=sized(counts), foundation=True), chain[1])


def _hand(counts: Sequence[int], to_thumb: Sequence[int], gap: Sequence[int], tip: Sequence[int], custom: Custom) -> list[Row]:
    stitch = custom.stitch
    joined = custom.rounds == "joined"
    head: tuple[Step, ...] = (start_chain(custom),) if joined else ()
    tail: tuple[Step, ...] = (Join(),) if joined else ()
    plain = (*head, Make(stitch=stitch, places="rest"), *tail)
    first = (*head, Make(stitch=stitch, places="rest", at=Place(what="ch")), *tail)
    edge = Make(stitch=stitch, places=Sized.of(2))
    over = (*head, edge, Chain(number=sized(gap)), Skip(number=sized(gap)), Make(stitch=stitch, places="rest"), *tail)
    filled = (
        *head, edge, Make(stitch=stitch, places=sized(gap), at=Place(what="ch")), Make(stitch=stitch, places="rest"), *tail,
    )  # fmt: skip
    left = [n - g for n, g in zip(counts, gap, strict=True)]
    return [
        _row([(1, 1)], first, counts, custom),
        _row([(2, t) for t in to_thumb], plain, None, custom),
        _row([(t + 1, t + 1) for t in to_thumb], over, left, custom),
        _row([(t + 2, t + 2) for t in to_thumb], filled, counts, custom),
        _row([(t + 3, k) for t, k in zip(to_thumb, tip, strict=True)], plain, None, custom),
    ]


def _tip(counts: Sequence[int], tip: Sequence[int], plain: Sequence[int], custom: Custom) -> list[Row]:
    """Three shaped rounds with plain ones between: every fourth stitch goes, then every third, then every second; a quarter is left."""
    stitch = custom.stitch
    joined = custom.rounds == "joined"
    head: tuple[Step, ...] = (start_chain(custom),) if joined else ()
    tail: tuple[Step, ...] = (Join(),) if joined else ()
    quarter = [n // 4 for n in counts]
    at = list(tip)
    rows = []
    for kept in (2, 1, 0):
        body: tuple[Step, ...] = (Make(stitch=stitch, places=Sized.of(kept)),) if kept else ()
        body = (*body, Make(stitch=tog(stitch, 2), closes=2))
        steps = (*head, Repeat(body=body, times=Times(kind="n", number=sized(quarter))), *tail)
        at = [n + 1 for n in at]
        rows.append(_row([(n, n) for n in at], steps, [q * (kept + 1) for q in quarter], custom))
        if kept:
            between = (*head, Make(stitch=stitch, places="rest"), *tail)
            rows.append(_row([(n + 1, n + p) for n, p in zip(at, plain, strict=True)], between, None, custom))
            at = [n + p for n, p in zip(at, plain, strict=True)]
    return rows


def _thumb(gap: Sequence[int], girths: Sequence[float], custom: Custom) -> list[Row]:
    """Round the opening: one stitch in every skipped stitch and every chain, straight, then closed in one round of decreases."""
    stitch, h = custom.stitch, custom.height_cm
    joined = custom.rounds == "joined"
    head: tuple[Step, ...] = (start_chain(custom),) if joined else ()
    tail: tuple[Step, ...] = (Join(),) if joined else ()
    around = [2 * g for g in gap]
    rounds = [max(5, round(0.3 * g / h)) for g in girths]
    begin = (
        Colour(yarn="yarn", join_in=True), *head, Make(stitch=stitch, each=sized(around), evenly=True), *tail,
    )  # fmt: skip
    closing = (*head, Repeat(body=(Make(stitch=tog(stitch, 2), closes=2),), times=Times(kind="n", number=sized(gap))), *tail)
    return [
        _row([(1, 1)], begin, around, custom),
        _row([(2, n - 1) for n in rounds], (*head, Make(stitch=stitch, places="rest"), *tail), None, custom),
        _row([(n, n) for n in rounds], closing, gap, custom),
    ]


def _hand_outline(girth: float, length: float) -> Outline:
    half = girth / 4
    return ((-half, 0.0), (half, 0.0), (half, length * 0.8), (half * 0.4, length), (-half * 0.4, length), (-half, length * 0.8))


_SIZES = "sizes by name from the table, or girths: 52 (54, 57) cm"
FAMILIES = (
    Family(
        name="hat", what="a hat from the crown, in a run of sizes", make=hat,
        lengths={"ease": "how much smaller than the head (left out: 2.5 cm; less than nothing: larger)"},
        words={"sizes": _SIZES, "multiple": "keep the girth a multiple of this number"},
    ),
    Family(
        name="mitten", what="a mitten from the cuff, in a run of sizes", make=mitten,
        lengths={"ease": "how much larger than the hand (left out: 1.5 cm)"}, words={"sizes": _SIZES},
    ),
)  # fmt: skip
