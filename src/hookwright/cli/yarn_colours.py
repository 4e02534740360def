"""What `hookwright yarn` is asked about colours: a photo measured in a process of its own, sequences laid over the piece."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from .common import CannotDo, read_bytes

if TYPE_CHECKING:
    from ..yarn import Estimate, Knot, Landing, Plan, Repeat, Seen, Start

MOST_PHOTO = 60_000_000
PHOTO_SECONDS = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class ColourWish:
    """The options about colours, as words."""

    sequence: str | None = None
    from_: str | None = None
    alternate: int = 0
    begin: str | None = None
    end: str | None = None
    backward: bool = False
    knot: tuple[str, ...] = ()


def photo_of(photo: str | None, shows: str | None) -> Seen | None:
    """What a photo shows; None when none was given. Raises CannotDo."""
    if photo is None:
        if shows is not None:
            raise CannotDo("--shows tells the metres across a photo: give --photo too.")
        return None
    from ..yarn import metres

    return measured_apart(read_bytes(photo, MOST_PHOTO), None if shows is None else metres(shows, "What the photo shows"))


def measured_apart(data: bytes, shows_m: float | None) -> Seen:
    """A photo measured in a child process with limits of its own, so that a hostile picture can harm nothing. Raises CannotDo."""
    from ..yarn import photo_from_data

    words = [sys.executable, "-m", "hookwright.yarn.photo", "" if shows_m is None else repr(shows_m)]
    try:
        done = subprocess.run(words, input=data, capture_output=True, timeout=PHOTO_SECONDS, check=False)
        told = json.loads(done.stdout)
    except (subprocess.TimeoutExpired, ValueError):
        raise CannotDo("The photo could not be measured within its limits of time and memory.") from None
    if "error" in told:
        raise CannotDo(told["error"])
    return photo_from_data(told["seen"])


def colours_of(found: Estimate, wish: ColourWish, name: str | None, seen: Repeat | None) -> dict[str, tuple[Landing, Sequence[Start]]]:
    """Where the colour sequences land: the one typed or photographed, else those the pattern tells."""
    from .. import yarn as y

    given = y.typed(wish.sequence) if wish.sequence else seen
    asked = name or y.main_yarn(found).supplied.id
    out: dict[str, tuple[Landing, Sequence[Start]]] = {}
    for use in found.yarns:
        mine = use.supplied.id == asked
        sequence = given if given is not None and mine else y.Repeat(use.supplied.yarn.sequence) if use.supplied.yarn.sequence else None
        if sequence is None or not use.fabric_m:
            continue
        ends = y.Wish(first=wish.begin, last=wish.end) if mine else y.Wish()
        plan = _plan(wish, sequence) if mine else y.Plan()
        out[use.supplied.id] = (y.land(found, use.supplied.id, sequence, plan), y.best_starts(found, use.supplied.id, sequence, ends))
    if not out and (wish.from_ or wish.begin or wish.end or wish.alternate or wish.backward or wish.knot):
        raise CannotDo('No yarn of this pattern has a colour sequence: give one with --sequence "blue 3 m, sand 2 m".')
    return out


def _plan(wish: ColourWish, sequence: Repeat) -> Plan:
    from .. import yarn as y

    if wish.alternate < 0:
        raise CannotDo("--alternate is a number of rows, from 1.")
    return y.Plan(
        pull_off=0.0 if wish.from_ is None else y.metres(wish.from_, "The beginning"), alternate=wish.alternate,
        offset=sequence.metres / 2 if wish.alternate else 0.0, backward=(wish.backward,), knots=tuple(_knot(text) for text in wish.knot),
    )  # fmt: skip


def _knot(text: str) -> Knot:
    from .. import yarn as y

    at, comma, jump = text.replace(";", ",").partition(",")
    if not comma:
        raise CannotDo(f'The knot "{text}" is not understood: write where it is and how far the colours jump, for example "50 m, 2 m".')
    back = jump.strip().startswith(("-", "−"))
    length = y.metres(jump.strip().lstrip("-−"), "The jump at the knot")
    return y.Knot(at=y.metres(at, "The place of the knot"), jump=-length if back else length)
