"""How `hookwright yarn` says its answers on the terminal and in a table."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from ..trade.units import OUNCE_G, YARD_M, decimal
from .common import table

if TYPE_CHECKING:
    from ..yarn import Cost, Estimate, Forecast, Landing, Planned, RowsLeft, Seen, Start, Swap, TurnAround, YarnUse

MOST_BANDS_SHOWN = 40


def show_json(data: Mapping[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=False, indent=1)


def _m(value: float) -> str:
    return f"{decimal(value, 0 if value >= 20 else 1)} m"


def _both(low: float, high: float, unit: float, names: tuple[str, str], places: int = 0) -> str:
    return f"{decimal(low, 0)}-{decimal(high, 0)} {names[0]} ({decimal(low / unit, places)}-{decimal(high / unit, places)} {names[1]})"


def yarn_lines(uses: Sequence[YarnUse]) -> list[str]:
    """A table of the yarns, and what the balls' chances are."""
    rows = []
    for use in uses:
        balls = f"{use.balls.likely:.1f}, buy {use.balls.buy}" if use.balls else "?"
        rows.append((
            use.supplied.name, decimal(use.metres.likely, 0), _both(use.metres.low, use.metres.high, float(YARD_M), ("m", "yd")),
            decimal(use.grams.likely, 0), _both(use.grams.low, use.grams.high, float(OUNCE_G), ("g", "oz"), 1), balls,
        ))  # fmt: skip
    out = table(("yarn", "metres", "nine hands of ten", "grams", "nine hands of ten", "balls"), rows, right=(1, 3)).splitlines()
    for use in uses:
        parts = ", ".join(f"{name} {_m(metres)}" for name, metres in use.of_which.items() if metres >= 0.005)
        out.append(f"  {use.supplied.name}: {parts}. Apart from these: a swatch of 15 x 15 cm, {_m(use.apart['swatch'])}.")
        if use.balls:
            out.append(f"  {use.supplied.name}: {use.balls.said}")
    return out


def plan_lines(plan: Planned) -> list[str]:
    """A plan made without a pattern."""
    whole = plan.hours.whole
    return [
        *yarn_lines([plan.use]),
        f"Hours: {whole.likely:.0f} ({whole.low:.0f}-{whole.high:.0f}).",
        "",
        *(f"  {line}" for line in plan.because),
    ]


def lines(
    found: Sequence[Estimate], *, turn: TurnAround | None, left: RowsLeft | None, log: Forecast | None, cost: Cost | None,
    swaps: Mapping[str, Swap], colours: Mapping[str, tuple[Landing, Sequence[Start]]], seen: Seen | None,
) -> list[str]:  # fmt: skip
    """Everything that was asked, in the order a maker needs it."""
    out: list[str] = []
    for each in found:
        if len(found) > 1:
            out += ["", f"Size {each.size_name or each.size + 1}"]
        out += yarn_lines(each.yarns)
    first = found[0]
    out += ["", *_row_lines(first)]
    out += _stripe_lines(first)
    out += _trim_lines(first)
    for said in (turn.working if turn else ()), _left_lines(first, left), _log_lines(log):
        out += ["", *said] if said else []
    out += _colour_lines(first, colours, seen)
    whole = first.hours.whole
    out += ["", f"Hours: {whole.likely:.1f} ({whole.low:.1f}-{whole.high:.1f}).", *(f"  {line}" for line in first.hours.because)]
    out += ["", *cost.working] if cost else []
    for name, swap in swaps.items():
        out += ["", f"{name} swapped: {swap.balls_same_length.buy} balls for the same length, {swap.balls_same_size.buy} for the same size "
                    f"({swap.balls_same_length.likely:.1f} and {swap.balls_same_size.likely:.1f} used).", *swap.warnings]  # fmt: skip
    return [*out, "", "Because", *(f"  {line}" for line in dict.fromkeys(line for each in found for line in each.because))]


def _row_lines(found: Estimate) -> list[str]:
    several = len(found.parts) > 1
    rows = []
    for row in found.rows:
        part = f"{row.part}{f' (x {row.copies})' if row.copies > 1 else ''}, " if several else ""
        yarns = ", ".join(name for name, metres in row.by_yarn.items() if metres)
        rows.append((f"{part}{row.label}", yarns, f"{row.metres:.2f}", f"{row.so_far:.1f}"))
    return table(("row", "yarn", "metres", "so far"), rows, right=(2, 3)).splitlines()


def _stripe_lines(found: Estimate) -> list[str]:
    """Planned stripes, when the piece has more than one yarn."""
    from ..yarn import planned

    stripes = planned(found)
    if len({stripe.yarns for stripe in stripes}) < 2:
        return []
    rows = [
        (
            f"{s.first} to {s.last}" if s.rows > 1 else s.first,
            " and ".join(found.yarn(name).supplied.name for name in s.yarns),
            f"{s.metres:.1f}",
        )
        for s in stripes
    ]
    return ["", "Stripes", *table(("rows", "yarn", "metres"), rows, right=(2,)).splitlines()]


def _trim_lines(found: Estimate) -> list[str]:
    from ..yarn import cutting_list

    cuts = cutting_list(found.trims)
    if not cuts:
        return []
    rows = [(str(cut.pieces), f"{cut.length_cm:g} cm", cut.yarn, cut.use) for cut in cuts]
    return [
        "",
        "To cut for trims (reserved before the rows are counted)",
        *table(("pieces", "each", "yarn", "for"), rows, right=(0, 1)).splitlines(),
    ]


def _left_lines(found: Estimate, left: RowsLeft | None) -> list[str]:
    if left is None:
        return []
    from ..yarn import how_many

    more = [
        f"What stays over gives {how_many(max(0.0, left.spare_g) * found.yarn(use.yarn).m_per_g, use.metres_each)} more {use.kind}s."
        for use in found.trims if use.kind != "fringe"
    ]  # fmt: skip
    last = f", to {left.last}" if left.last else ""
    return [f"{left.rows} more rows can be made{last}, and {left.spare_g:.1f} g stay over; {left.one_more}.", *left.working, *more]


def _log_lines(log: Forecast | None) -> list[str]:
    return [] if log is None else [*log.said, *log.odd]


def _colour_lines(found: Estimate, colours: Mapping[str, tuple[Landing, Sequence[Start]]], seen: Seen | None) -> list[str]:
    out: list[str] = []
    if seen is not None:
        repeat = (
            "no repeat seen" if seen.repeat_pixels is None else f"repeat {seen.repeat_pixels:.0f} of {seen.across_pixels} places across"
        )
        out += ["", f"The photo shows: {seen.typed} ({repeat}).", *seen.notes]
        out.append(
            "Check it, correct it and give it as --sequence." if seen.shows_m else 'Tell how much yarn lies across it: --shows "2.4 m".'
        )
    for name, (landing, starts) in colours.items():
        out += ["", f"Colours of yarn {name} (repeat {landing.repeat.metres:g} m)", *_bands(found, landing)]
        for ball in landing.balls:
            joined = f", joined to the next in {ball.joined_at[0]}" if ball.joined_at else ""
            pulled = f" after {ball.pulled_off:.1f} m are pulled off" if ball.pulled_off > 0.005 else ""
            used = f"{ball.used:.1f} m used{joined}; {ball.left:.1f} m left"
            out.append(f"  ball {ball.number}: begins {ball.begins}, {ball.into_run:.1f} m into it{pulled}; {used}.")
        out += _pooling_lines(found, landing)
        if len(landing.balls) > 1:
            out.append("  (Every ball taken to come as the first: look where yours begins, and pull off until the colour fits.)")
        out += [
            f"  begin {s.pull_off_m:.2f} m on: {s.first} at the beginning, {s.last} at the end ({s.match:.0%}; {s.sure:.0%} "
            "over this maker's range)"
            for s in starts
        ]
    return out


def _pooling_lines(found: Estimate, landing: Landing) -> list[str]:
    """For a short repeat: what row lengths about the piece's own do to it."""
    from ..yarn import pooling_near

    around = pooling_near(found, landing.yarn, landing.repeat)
    if not around:
        return []
    rows = [
        (str(p.stitches), f"{p.shift:+.1f}", p.effect, f"±{p.holds_percent:g} %", f"{p.at_drift[0]} / {p.at_drift[2]}") for p in around
    ]  # fmt: skip
    heads = ("stitches", "shift", "the colours", "holds for tension", "4 % looser / tighter")
    return [
        f"  The repeat is {around[0].repeat:.1f} stitches long: it pools.",
        *(f"  {line}" for line in table(heads, rows, right=(0, 1)).splitlines()),
    ]


def _bands(found: Estimate, landing: Landing) -> list[str]:
    from ..yarn import band_edges

    edges = list(band_edges(found, landing))
    several = len(found.parts) > 1
    rows = [
        (f"{e.part}, {e.row}" if several else e.row, f"{e.stitch} of {e.of}" if e.of else "", e.colour) for e in edges[:MOST_BANDS_SHOWN]
    ]
    out = [f"  {line}" for line in table(("from row", "stitch", "colour"), rows).splitlines()]
    return [*out, f"  … and {len(edges) - MOST_BANDS_SHOWN} more bands (--json lists all)"] if len(edges) > MOST_BANDS_SHOWN else out


def rows_csv(found: Sequence[Estimate]) -> str:
    """Every row of every size as CSV, cells safe to open."""
    from ..yarn import as_csv

    yarns = list(dict.fromkeys(use.supplied.id for each in found for use in each.yarns))
    rows = [
        (each.size_name or each.size + 1, row.part, row.copies, row.label, f"{row.metres:.3f}", f"{row.so_far:.3f}",
         *(f"{row.by_yarn.get(name, 0.0):.3f}" for name in yarns))
        for each in found for row in each.rows
    ]  # fmt: skip
    return as_csv(("size", "part", "copies", "row", "metres", "so far", *(f"metres of {name}" for name in yarns)), rows)
