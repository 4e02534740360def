"""What moves the work on without making a stitch that counts: skips, turns, joins, yarns, shapings told by their effect, remarks."""

from __future__ import annotations

from ..pattern import Aside, Colour, FastenOff, Join, Leave, Ring, Shape, Sized, Skip, Turn, Unread
from .numbers import one, plural
from .places import place_words
from .saying import Voice, aside_words, say_steps, says


@says(Skip)
def _skip(voice: Voice, step: Skip) -> None:
    noun = voice.lexicon.noun(step.what)
    which = "first" if step.first else "next"
    said = f"{which} {noun}" if one(step.number) else f"{which} {voice.count(step.number, noun)}"
    of = f" of {step.row}" if step.row else ""
    voice.out.say(f"{voice.lexicon.skip} {said}{of}")


@says(Leave)
def _leave(voice: Voice, step: Leave) -> None:
    kind = voice.lexicon.noun(step.what) if step.what != "st" else voice.st
    if step.number is None:
        voice.out.say(f"leave remaining {plural(kind)} unworked")
    else:
        voice.out.say(f"leave {voice.last(step.number, kind)} unworked")


@says(Turn)
def _turn(voice: Voice, step: Turn) -> None:
    voice.out.say("do not turn" if step.no else "turn")


@says(Join)
def _join(voice: Voice, step: Join) -> None:
    if step.no:
        voice.out.say("do not join")
    elif step.closing:
        say_steps(voice, step.closing)
        voice.out.say(" to join")
    elif step.to is None:
        voice.out.say(f"join with {voice.lexicon.word('sl st')} in first {voice.st}")
    else:
        voice.out.say(
            f"join with {voice.lexicon.word('sl st')} {place_words(step.to, Sized((1,)), Sized((0,)), voice.lexicon, over=voice.over)}"
        )


@says(Ring)
def _ring(voice: Voice, step: Ring) -> None:
    word = voice.lexicon.word
    closed = f"join with {word('sl st')} in first {word('ch')} to form a ring"
    voice.out.say("make a magic ring" if step.chains is None else closed)


@says(Colour)
def _colour(voice: Voice, step: Colour) -> None:
    yarn = "yarn" if step.yarn == "same" else step.yarn
    if step.at is not None:
        place = place_words(step.at, Sized((1,)), Sized((0,)), voice.lexicon, over=voice.over)
        voice.out.say(f"join {yarn} with {voice.lexicon.word('sl st')} {place}")
    elif step.join_in:
        voice.out.say(f"join {yarn}")
    else:
        voice.out.say(f"with {yarn}")


@says(FastenOff)
def _fasten(voice: Voice, step: FastenOff) -> None:
    voice.out.say("fasten off")


_SHAPED = {"each_end": "each end", "beginning": "at beginning", "end": "at end"}


@says(Shape)
def _shape(voice: Voice, step: Shape) -> None:
    grows = all((n or 0) >= 0 for n in step.change.values)
    size = Sized(tuple(None if n is None else abs(n) for n in step.change.values))
    place = f"evenly {voice.over}" if step.where == "evenly" else _SHAPED[step.where]
    said = f"{voice.lexicon.word('inc' if grows else 'dec')} {voice.count(size, voice.st)} {place}"
    voice.out.say(
        said
        if step.every == 1
        else f"{said} every {step.every} {plural((voice.lexicon.word(voice.noun) if voice.noun == 'Rnd' else voice.noun).lower())}"
    )


@says(Aside)
def _say_aside(voice: Voice, step: Aside) -> None:
    voice.out.say(aside_words(step, voice))


@says(Unread)
def _unread(voice: Voice, step: Unread) -> None:
    """Words never understood are quoted as they stand, in whatever terms they were, and told as such in `Written.quoted`."""
    voice.quoted.append(step.span)
    voice.out.say(" ".join(step.span.of(voice.source).split()) or "…")
