"""Steps in a short form: for the examples beside each phrase, for their tests and for the page "what can be read"."""

from __future__ import annotations

from collections.abc import Iterable

from ..pattern import (
    NEXT,
    ONE,
    Aside,
    Chain,
    Choice,
    Colour,
    Count,
    Even,
    FastenOff,
    Join,
    Leave,
    Make,
    Place,
    Refer,
    Repeat,
    Ring,
    Shape,
    Sized,
    Skip,
    Step,
    Times,
    Together,
    Turn,
    Unread,
)


def shown(steps: Iterable[Step], counts: Iterable[Count] = ()) -> str:
    """A row in the short form: "sc×3, [sc, 2sc]×6 | 18 sc". Remarks are left out, unread words stand between question marks."""
    words = ", ".join(word for word in map(_step, steps) if word)
    told = ", ".join(f"{count.number} {count.kind}" for count in counts)
    return f"{words} | {told}" if told else words


def _step(step: Step) -> str:
    match step:
        case Make():
            return _make(step)
        case Together():
            return f"{step.name or ''}{{{shown(step.body)}}}{_places(step.places, step.but)}{_upto(step.upto)}{_at(step.at)}"
        case Chain():
            told = "" if step.counts is None else " not counted" if not step.counts else "=" + "+".join(step.stands_for)
            return f"ch{step.number}{told}"
        case Repeat():
            last = f" last ({shown(step.last)})" if step.last else ""
            return f"[{shown(step.body)}]{_times(step.times)}{last}" + (f" cut {step.cut}" if step.cut is not None else "")
        case Skip():
            return f"skip{'' if step.number == ONE else step.number}{'' if step.what == 'st' else ' ' + step.what}"
        case Choice():
            return "<" + " or ".join(shown(answer) for answer in step.answers) + ">"
        case Refer():
            return _refer(step)
        case _:
            return _plain(step)


def _make(step: Make) -> str:
    each = "" if step.each == ONE else str(step.each)
    return f"{each}{step.stitch}{_places(step.places, step.but)}{_upto(step.upto)}{_at(step.at)}{' evenly' if step.evenly else ''}"


def _places(places: Sized[int] | str, but: Sized[int]) -> str:
    number = "" if places == ONE else f"×{places}"
    return number + ("" if but.values == (0,) else f"−{but}")


def _upto(what: str) -> str:
    return f" to {what}" if what else ""


def _at(place: Place) -> str:
    if place == NEXT:
        return ""
    nth = "" if place.nth is None else f"#{place.nth}"
    loop = "" if place.loop == "both" else f"/{place.loop}"
    below = f"↓{place.below}" if place.below else ""
    row = f" of {place.row}" if place.row else ""
    return f"@{place.where} {place.what}{nth}{loop}{below}{row}{' between' if place.between else ''}"


def _times(times: Times) -> str:
    return {
        "n": f"×{times.number}",
        "more": f"×{times.number} more",
        "rest": "×rest",
        "to_last": f"×to last {times.number}",
        "until": f"×until {times.number}",
        "to_place": f"×to {times.what}" + (f"−{times.number}" if any(times.number.values) else ""),
    }[times.kind]


def _refer(step: Refer) -> str:
    if step.upto == "side":
        return "as side before" + (" reversed" if step.reverse else "")
    rows = f"rows {', '.join(map(str, step.rows))}" if step.rows else f"last {step.last}" if step.last else "all rows"
    far = f" to {step.upto}" if step.upto else ""
    but = f" but {shown(step.changes)}" if step.changes else ""
    grow = f" growing {step.grow:+d}".replace("-", "−") if step.grow else ""
    longer = f" chains {step.longer:+d}".replace("-", "−") if step.longer else ""
    return f"as {rows}" + (f" of {step.part}" if step.part else "") + (" from *" if step.from_star else "") + far + but + grow + longer


def _plain(step: Step) -> str:
    match step:
        case Leave():
            return "leave" + ("" if step.number is None else f" {step.number}")
        case Turn():
            return "no turn" if step.no else "turn"
        case Join():
            return "no join" if step.no else f"join({shown(step.closing)})" if step.closing else "join"
        case Ring():
            return "ring"
        case Colour():
            return f"{'+' if step.join_in else ''}{step.yarn}:"
        case FastenOff():
            return "fasten off"
        case Shape():
            value = step.change.values[0] or 0
            every = f" every {step.every}" if step.every > 1 else ""
            return f"shape{'+' if value > 0 else '−'}{abs(value)} {step.where}{every}"
        case Even():
            return f"even {step.stitch}" if step.stitch else "even"
        case Unread():
            return "???"
        case Aside():
            return ""
        case _:
            return type(step).__name__
