"""`hookwright yarn`: metres, grams and balls, row by row; where to turn; where the colours land; or an estimate for planning."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from cyclopts import Parameter

from .common import CannotDo, read_bytes

if TYPE_CHECKING:
    from ..pattern import Pattern
    from ..yarn import Estimate, Swap
    from .common import Source
    from .yarn_colours import ColourWish

Flag = Annotated[bool, Parameter(negative=())]
Many = Annotated[tuple[str, ...], Parameter(negative=())]
Words = Annotated[str | None, Parameter(allow_leading_hyphen=True)]
"""An option told in words; one that begins with a minus is still its value, so that it can be refused in plain words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """The options of one call, as words."""

    area: str | None
    hook: str | None
    ball: str | None
    openwork: bool
    relief: bool
    strands: int | None
    left: str | None
    after: str | None
    log: str | None
    sample: str | None
    report: tuple[str, ...]
    swap: str | None
    fibre: str | None
    pace: str | None
    day: str | None
    wage: str | None
    price: str | None
    ball_price: str | None
    photo: str | None
    shows: str | None
    sequence: str | None
    from_: str | None
    alternate: int
    begin: str | None
    end: str | None
    backward: bool
    knot: tuple[str, ...]
    yarn: str | None
    size: str | None
    scale: str | None
    csv: Path | None
    json: bool

    def colour_wish(self) -> ColourWish:
        """What was asked about colours."""
        from .yarn_colours import ColourWish

        return ColourWish(
            sequence=self.sequence, from_=self.from_, alternate=self.alternate, begin=self.begin, end=self.end, backward=self.backward,
            knot=self.knot,
        )  # fmt: skip


def yarn(
    file: str | None = None,
    /,
    *,
    area: Words = None,
    hook: Words = None,
    ball: Words = None,
    openwork: Flag = False,
    relief: Flag = False,
    strands: int | None = None,
    left: Words = None,
    after: Words = None,
    log: Words = None,
    sample: Words = None,
    report: Many = (),
    swap: Words = None,
    fibre: Words = None,
    pace: Words = None,
    day: Words = None,
    wage: Words = None,
    price: Words = None,
    ball_price: Words = None,
    photo: Words = None,
    shows: Words = None,
    sequence: Words = None,
    from_: Annotated[str | None, Parameter(name="--from", allow_leading_hyphen=True)] = None,
    alternate: int = 0,
    begin: Words = None,
    end: Words = None,
    backward: Flag = False,
    knot: Many = (),
    yarn: Words = None,
    size: Words = None,
    scale: Words = None,
    csv: Path | None = None,
    json: Flag = False,
) -> int:
    """Metres, grams and balls, row by row; or an estimate for planning.

    Parameters
    ----------
    file
        A pattern, or - for standard input. Leave it out to plan by --area.
    area
        Plan without a pattern, for this size: "86 x 86 cm", "7396 cm2", "round 45 cm".
    hook
        The hook for planning: "5 mm".
    ball
        The ball for planning: "100 g = 200 m".
    openwork
        Plan for chain-space lace.
    relief
        Plan for post stitches, bobbles or yarn carried throughout.
    strands
        Plan for so many strands held together.
    left
        Yarn in hand, weighed: "52 g". Tells where to turn, and the rows that are left.
    after
        The row that was just finished when --left was weighed.
    log
        A file of weighings, "row,grams" lines: the forecast follows it.
    sample
        What the finished sample weighs, trims with it.
    report
        What another maker's piece weighed (may be given again).
    swap
        Another yarn instead: "100 g = 160 m".
    fibre
        The fibre of the other yarn.
    pace
        Your pace: "2.8 s", "25 a minute", "120 dc in 6 min".
    day
        Hours a day: "2".
    wage
        What an hour is worth.
    price
        What the piece is sold for: tells the wage it implies.
    ball_price
        What a ball costs.
    photo
        A photo of the yarn laid out: its colour sequence is measured.
    shows
        Metres of yarn across the photo: "2.4 m".
    sequence
        The colour sequence: "blue 3 m, sand 2 m".
    from_
        Begin so far into the ball: "2.4 m" are pulled off.
    alternate
        Change between two balls every so many rows.
    begin
        The colour wished at the beginning.
    end
        The colour wished at the end.
    backward
        The ball is begun from its other end: the colours run the other way.
    knot
        A factory knot: "50 m, 2 m" when 50 m into the ball the colours jump 2 m on (may be given again).
    yarn
        Which yarn --left, --log and the colours are about; the main one when not told.
    size
        One size only, by its name or its number from 1.
    scale
        The step of your scale: "1 g", "0.1 g".
    csv
        Write the rows to this CSV file.
    json
        Print the answer as JSON (hookwright/yarn/1).
    """
    from ..yarn import YarnError

    told = _Told(**{name: value for name, value in locals().items() if name in _Told.__dataclass_fields__})
    try:
        if file is None:
            return _plan(told)
        if told.area is not None:
            raise CannotDo("Give a pattern or --area, not both.")
        return _answer(file, told)
    except YarnError as failure:
        raise CannotDo(str(failure)) from failure


def _plan(told: _Told) -> int:
    """Without a pattern: a size, a hook, a ball."""
    from .. import yarn as y
    from .yarn_words import plan_lines, show_json

    if told.area is None:
        raise CannotDo('Give a pattern file, or a size to plan for: --area "86 x 86 cm" --hook "5 mm" --ball "100 g = 200 m".')
    if told.ball is None:
        raise CannotDo('Planning needs the ball: --ball "100 g = 200 m".')
    if told.openwork and told.relief:
        raise CannotDo("A fabric is planned as openwork or as relief, not both.")
    plan = y.plan_area(
        y.extent(told.area), y.ball(told.ball), None if told.hook is None else y.hook_mm(told.hook), openwork=told.openwork,
        relief=told.relief, strands=1 if told.strands is None else told.strands, pace=y.pace_told(told.pace) if told.pace else None,
    )  # fmt: skip
    print(show_json(y.planned_json(plan)) if told.json else "\n".join(plan_lines(plan)))
    return 0


def _answer(file: str, told: _Told) -> int:
    """For a pattern: the estimate, and whatever else was asked."""
    from .. import yarn as y
    from .common import load, sizes_of, write_file
    from .yarn_words import lines, rows_csv, show_json

    source, pattern = load(file)
    scale_g = 1.0 if told.scale is None else y.grams(told.scale, "The scale's step")
    if not scale_g > 0:
        raise CannotDo("The scale's step must be greater than nothing.")
    asked = _asked(told, source, pattern, scale_g)
    found, log = _estimates(pattern, sizes_of(pattern, told.size), told, asked, scale_g)
    if not any(use.fabric_m for use in found[0].yarns):
        raise CannotDo(f"{source.name}: no stitch of it could be worked, so there is no yarn to reckon; `hookwright proof` shows why.")
    name = _yarn_named(found[0], told.yarn)
    left_g = None if told.left is None else y.grams(told.left, "The yarn left")
    have = left_g if told.after is None else None
    extras: dict[str, Any] = {
        "turn": y.turning(found[0], have_g=have, yarn=name, scale_g=scale_g),
        "left": None if left_g is None else y.left_after(found[0], told.after, left_g, yarn=name, scale_g=scale_g),
        "log": log,
        "cost": _cost(found[0], told, pattern),
        "swaps": _swaps(found[0], told, pattern),
    }
    from .yarn_colours import colours_of, photo_of

    seen = photo_of(told.photo, told.shows)
    colours = colours_of(found[0], told.colour_wish(), name, None if seen is None or told.shows is None else seen.sequence())
    if told.csv is not None:
        write_file(told.csv, rows_csv(found))
    if told.json:
        out = y.as_json(found, colours=colours, **extras)
        if seen is not None:
            out["photo"] = y.photo_data(seen) | {"typed": seen.typed}
        print(show_json(out))
    else:
        print("\n".join(lines(found, colours=colours, seen=seen, **extras)))
    return 0


def _asked(told: _Told, source: Source, pattern: Pattern, scale_g: float) -> Any:
    from .. import yarn as y
    from .settings import settings_for

    settings = settings_for(source)
    pace = y.pace_told(told.pace) if told.pace else dict(pattern.facts.pace)
    if not pace and settings["pace"].value:
        pace = {"st": float(settings["pace"].value)}
    day = 2.0 if told.day is None else _number(told.day.removesuffix("h").strip(), "--day")
    return y.Asked(scale_g=scale_g, tail_m=float(settings["tail_m"].value), pace=pace, a_day=day)


def _estimates(pattern: Pattern, sizes: Sequence[int], told: _Told, asked: Any, scale_g: float) -> tuple[list[Estimate], Any]:
    """An estimate for every size asked for, with what was weighed; and what the log told, if one was given."""
    from dataclasses import replace

    from .. import yarn as y
    from ..measuring import measure
    from ..working import work

    fabrics = [work(pattern, size=size) for size in sizes]
    measures = [measure(fabric) for fabric in fabrics]
    first = y.estimate(fabrics[0], measures[0], asked)
    weighed: dict[str, list[Any]] = {}
    for text, kind in (*(((told.sample, "sample"),) if told.sample else ()), *((text, "report") for text in told.report)):
        for name, weighings in y.whole_weighed(first, y.grams(text, "What was weighed"), kind, scale_g=scale_g).items():
            weighed.setdefault(name, []).extend(weighings)
    log = None
    if told.log is not None:
        from .common import decode

        name = _yarn_named(first, told.yarn) or y.main_yarn(first).supplied.id
        log = y.from_log(first, y.read_log(decode(read_bytes(told.log, 5_000_000), told.log)), yarn=name, scale_g=scale_g)
        weighed.setdefault(name, []).append(y.weighing_of_log(first, log, yarn=name, scale_g=scale_g))
    if not weighed:
        return [first, *(y.estimate(f, m, asked) for f, m in zip(fabrics[1:], measures[1:], strict=True))], log
    asked = replace(asked, weighings=weighed)
    return [y.estimate(f, m, asked) for f, m in zip(fabrics, measures, strict=True)], log


def _yarn_named(found: Estimate, word: str | None) -> str | None:
    if word is None:
        return None
    for use in found.yarns:
        if word.lower() in (use.supplied.id.lower(), use.supplied.yarn.colour.lower(), use.supplied.yarn.name.lower()):
            return use.supplied.id
    raise CannotDo(f"There is no yarn {word}: the pattern has {', '.join(use.supplied.name for use in found.yarns)}.")


def _cost(found: Estimate, told: _Told, pattern: Pattern) -> Any:
    """Money, when a price or a wage is known from the pattern or the command line."""
    from .. import yarn as y

    prices: dict[str, Any] = dict(pattern.facts.prices)
    for key, text in (("wage", told.wage), ("price", told.price), ("ball", told.ball_price)):
        if text is not None:
            prices[key] = _number(text, f"--{key}")
    if not prices:
        return None
    balls = {
        use.supplied.name: (use.balls.likely, use.balls.buy, _money(prices, use.supplied.id, "ball"))
        for use in found.yarns
        if use.balls is not None
    }
    rest = {key: _money(prices, key) for key in ("notions", "packing", "overhead", "wage")}
    price = _money(prices, "price") if "price" in prices else None
    return y.piece_cost(balls, found.hours.whole.likely, prices=rest, currency=str(prices.get("currency", "")), price=price)


def _money(prices: Mapping[str, Any], *keys: str) -> float:
    for key in keys:
        value = prices.get(key)
        if value is not None:
            return float(value) if isinstance(value, int | float) else _number(str(value), f"the price of {key}")
    return 0.0


def _number(text: str, what: str) -> float:
    from ..trade.units import parse_number

    number = parse_number(text.strip())
    if number is None:
        raise CannotDo(f'{what[:1].upper()}{what[1:]} "{text}" is not a number of at least nothing.')
    return float(number)


def _swaps(found: Estimate, told: _Told, pattern: Pattern) -> dict[str, Swap]:
    from .. import yarn as y

    if told.swap is None:
        return {}
    new = y.ball(told.swap)
    out = {}
    for use in found.yarns:
        if use.supplied.ball is not None:
            fibres = (use.supplied.yarn.fibre, told.fibre or "")
            hook = found.parts[0].hook_mm
            out[use.supplied.name] = y.swap(use.supplied.ball, new, hook, y.Range(0.0, use.fabric_m, 0.0), use.hand.metres_sd,
                                            fixed_m=use.fixed_m, fibres=fibres)  # fmt: skip
    if not out:
        raise CannotDo("To swap a yarn the pattern's own ball must be told: metres and grams.")
    return out
