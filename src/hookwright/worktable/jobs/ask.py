"""Yarn, colours along the strand, hours and cost."""

from __future__ import annotations

from typing import Any

from ...measuring import Measures, measure
from ...working import Role
from ...yarn import (
    Asked,
    Estimate,
    Landing,
    Plan,
    Repeat,
    Wish,
    YarnError,
    as_json,
    best_starts,
    estimate,
    land,
    left_after,
    main_yarn,
    piece_cost,
    rgb_for,
)
from ...yarn.answers import turning
from ..bench import Payload, Refusal, Tell
from .common import fabric_of, number

MOST_BANDS = 400


def estimated(payload: Payload) -> tuple[Estimate, Measures]:
    """The estimate of the wished size. Raises `Refusal` with the yarn's own sentence."""
    fabric = fabric_of(payload)
    measures = measure(fabric)
    try:
        asked = Asked(scale_g=number(payload, "scale_g", 0.001, 100) or 1.0, a_day=number(payload, "a_day", 0.1, 16) or 2.0)
        return estimate(fabric, measures, asked), measures
    except YarnError as refused:
        raise Refusal(str(refused)) from refused


def yarn(payload: Payload, tell: Tell) -> dict[str, Any]:
    """Metres, grams, balls, hours; where to turn; rows left; cost: `hookwright/yarn/1` with what the page needs beside it."""
    found, _ = estimated(payload)
    name = payload.get("yarn") if payload.get("yarn") in [use.supplied.id for use in found.yarns] else None
    scale = number(payload, "scale_g", 0.001, 100) or 1.0
    trouble: list[str] = []
    turn = left = cost = None
    try:
        turn = turning(found, have_g=number(payload, "have_g"), yarn=name, scale_g=scale)
    except YarnError as refused:
        trouble.append(str(refused))
    left_g = number(payload, "left_g")
    if left_g is not None:
        try:
            left = left_after(found, str(payload["after"]) if payload.get("after") else None, left_g, yarn=name, scale_g=scale)
        except YarnError as refused:
            trouble.append(str(refused))
    if any(number(payload, key) is not None for key in ("ball_price", "wage", "price")):
        cost = _cost(payload, found)
    answer = as_json([found], turn=turn, left=left, cost=cost)
    return {**answer, "main": main_yarn(found).supplied.id, "trouble": trouble, "labels": [row.label for row in found.rows]}


def _cost(payload: Payload, found: Estimate) -> Any:
    each = number(payload, "ball_price") or 0.0
    balls = {use.supplied.name: (use.balls.likely, use.balls.buy, each) for use in found.yarns if use.balls is not None}
    prices = {key: value for key in ("wage", "notions", "packing") if (value := number(payload, key)) is not None}
    currency = str(payload.get("currency", ""))[:8]
    try:
        return piece_cost(balls, found.hours.whole.likely, prices=prices, currency=currency, price=number(payload, "price"))
    except YarnError as refused:
        raise Refusal(str(refused)) from refused


def stripes(payload: Payload, tell: Tell) -> dict[str, Any]:
    """Where the colours of a self-striping yarn fall, where each ball begins, and how to begin so that both ends match."""
    found, _ = estimated(payload)
    striped = {use.supplied.id: Repeat(use.supplied.yarn.sequence) for use in found.yarns if use.supplied.yarn.sequence}
    if not striped:
        return {
            "yarns": [],
            "why": "None of the yarns changes colour by itself. Give a yarn its colours in the head of the pattern to see its stripes.",
        }
    name = payload.get("yarn") if payload.get("yarn") in striped else next(iter(striped))
    try:
        landing = land(found, str(name), striped[str(name)], plan_of(payload))
        starts = best_starts(found, str(name), striped[str(name)], Wish())
    except YarnError as refused:
        raise Refusal(str(refused)) from refused
    told = as_json([found], colours={str(name): (landing, starts)})["colours"][str(name)]
    return {
        "yarns": list(striped),
        "yarn": name,
        **{**told, "bands": told["bands"][:MOST_BANDS]},
        "more_bands": max(0, len(told["bands"]) - MOST_BANDS),
        "hues": {colour: "#{:02x}{:02x}{:02x}".format(*rgb_for(colour, at)) for at, colour in enumerate(landing.colours)},
        "rows": _striped_rows(landing),
    }


def plan_of(payload: Payload) -> Plan:
    """How the ball is begun and gone on with, as told on the page."""
    return Plan(
        start=number(payload, "start_m") or 0.0,
        pull_off=number(payload, "pull_off_m") or 0.0,
        backward=(bool(payload.get("backward", False)),),
        match=bool(payload.get("match", True)),
        alternate=int(number(payload, "alternate", 0, 100) or 0),
        offset=number(payload, "offset_m") or 0.0,
    )


def _wide(roles: bytes) -> int:
    """How many places wide a row is: its stitches and the chains between them."""
    return sum(roles.count(role) for role in (Role.STITCH, Role.START_TOP, Role.CHAIN))


def _striped_rows(landing: Landing) -> list[dict[str, Any]]:
    """Every row as stretches of colour: [share of the row where it ends, colour], for a picture that needs no chart."""
    rows = []
    for row in landing.rows[:3000]:
        length = max(1, len(row.thread.row.stitches))
        edges = [(change.element / length, change.colour) for change in row.changes]
        stretches, colour = [], row.first
        for share, following in edges:
            stretches.append([round(share, 4), colour])
            colour = following
        stretches.append([1.0, colour])
        rows.append(
            {
                "label": row.thread.row.label,
                "stretches": stretches,
                "stitches": _wide(row.thread.row.stitches.role),
                "direction": row.thread.row.direction,
            }
        )
    return rows
