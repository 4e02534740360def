"""Repeats, references to other rows, and open questions, in words."""

from __future__ import annotations

from ..pattern import Choice, Make, Place, Refer, Repeat, Step, Together
from .numbers import spans_of, times
from .places import upto_words
from .saying import Voice, say_steps, says, until_words


@says(Repeat)
def _repeat(voice: Voice, step: Repeat) -> None:
    if voice.spoken:
        _repeat_aloud(voice, step)
    elif step.times.kind == "n":
        voice.out.say("[")
        say_steps(voice, step.body)
        voice.out.say(f"] {times(step.times.number)}")
        if step.last:
            voice.out.say(", ending last rep with ")
            say_steps(voice, step.last)
    else:
        _starred(voice, step)


def _repeat_aloud(voice: Voice, step: Repeat) -> None:
    """`repeat 4 times: …; end of repeat`, so that one knows at the beginning what is coming."""
    how_long = times(step.times.number) if step.times.kind == "n" else _how_long(voice, step)
    voice.out.say(f"repeat {how_long}: " if step.times.kind in ("n", "more") else until_words(voice, how_long))
    say_steps(voice, step.body)
    voice.out.say("; end of repeat")
    if step.cut is not None and step.cut < len(step.body):
        left = len(step.body) - step.cut
        voice.out.say(f", the last time without its last {'step' if left == 1 else f'{left} steps'}")
    if step.last:
        voice.out.say(", ending with ")
        say_steps(voice, step.last)


def _starred(voice: Voice, step: Repeat) -> None:
    """`* a, ** b; rep from * across, ending last rep at **, c`."""
    say = voice.out.say
    say("* ")
    cut = step.cut
    say_steps(voice, step.body[:cut])
    if cut is not None and cut < len(step.body):
        say(" **, ")
        say_steps(voice, step.body[cut:])
    say(f"; rep from * {_how_long(voice, step)}")
    if cut is not None and cut < len(step.body):
        say(", ending last rep at **")
    if step.last:
        say(", " if cut is not None and cut < len(step.body) else ", ending with ")
        say_steps(voice, step.last)


def _how_long(voice: Voice, step: Repeat) -> str:
    kind = step.times.kind
    if kind == "rest":
        return voice.over
    noun = voice.lexicon.noun("sp" if _in_spaces(step) else step.times.what)
    if kind == "to_place":
        return upto_words(step.times.what, step.times.number, voice.lexicon, over=voice.over)
    if kind == "to_last":
        return f"to {voice.last(step.times.number, noun)}"
    if kind == "until":
        return f"until there are {voice.count(step.times.number, noun)}"
    return times(step.times.number)


def _in_spaces(step: Repeat) -> bool:
    """Whether what is left over by "to the last" must be a space: nothing of the repeat stands in a stitch."""
    made = [one for one in step.body if isinstance(one, (Make, Together))]
    return step.times.kind == "to_last" and step.times.what == "st" and bool(made) and all(one.at.what.endswith("sp") for one in made)


@says(Choice)
def _choice(voice: Voice, step: Choice) -> None:
    """Custom stands first; the question itself belongs to whoever reads again."""
    say_steps(voice, step.answers[0])


@says(Refer)
def _refer(voice: Voice, step: Refer) -> None:
    noun = voice.row
    nouns = f"{noun}s" if len(step.rows) > 1 else noun
    if step.last:
        rows = f"last {noun.lower()}" if step.last == 1 else f"last {step.last}{voice.lexicon.space}{noun.lower()}s"
    else:
        rows = f"{nouns}{voice.lexicon.space}{spans_of(step.rows)}" if step.rows else ""
    of = f" of {step.part}" if step.part and rows else step.part or ""
    verb = voice.lexicon.word("rep") if step.part is None else "work as"
    voice.out.say(f"{verb} {rows}{of}" + (" from *" if step.from_star else ""))
    if step.reverse:
        voice.out.say(", reversing shaping")
    changes = tuple(change for change in step.changes if not _tells_runs(change))
    for change in step.changes:
        if isinstance(change, Make) and _tells_runs(change):
            voice.out.say(f", having {change.places} {voice.lexicon.stitch(change.stitch)} between increases")
    if changes:
        voice.out.say(", but ")
        say_steps(voice, changes)


def _tells_runs(change: Step) -> bool:
    """How long the plain runs of a row named are told to be."""
    return isinstance(change, Make) and change.at == Place(what="inc", between=True)
