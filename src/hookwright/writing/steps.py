"""Steps in words. One function a step; nothing here looks at the source text except to quote what was never understood."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from ..pattern import (
    Aside,
    Chain,
    Choice,
    Colour,
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
    Span,
    Step,
    Together,
    Turn,
    Unread,
)
from .lexicon import Lexicon
from .numbers import joined, number, one, plural, spans_of, times
from .out import Out
from .places import place_words


@dataclass(slots=True)
class Voice:
    """What a step needs to know of its surroundings to be said. `over`: "across" or "around"; `quoted` gathers the source spans that had
    to be quoted because they were not understood."""

    out: Out
    lexicon: Lexicon
    source: str = ""
    noun: str = "Row"
    size_names: tuple[str, ...] = ()
    grouped: bool = False
    """Inside a group that all goes into one place: the place is told once, after the group."""
    skipped: Chain | None = None
    """The foundation chain, where it is told whether its skipped chains count: that is said beside the first stitch."""
    begun: bool = False
    """A part was said already."""
    quoted: list[Span] = field(default_factory=list)

    @property
    def over(self) -> str:
        return "around" if self.noun == "Rnd" else "across"

    def count(self, value: Sized[int], noun: str) -> str:
        """The number and its noun, bound together.

        >>> Voice(Out(), Lexicon()).count(Sized.of(1, 2), "st").replace("\u00a0", "~")
        '1 (2)~sts'
        """
        return f"{number(value)}{self.lexicon.space}{noun if one(value) else plural(noun)}"

    def last(self, value: Sized[int], noun: str) -> str:
        """ "last st", "last 3 sts"."""
        return f"last {noun if one(value) else self.count(value, noun)}"

    @property
    def row(self) -> str:
        """What the row is called: "Row", "Rnd", "Round"."""
        return self.lexicon.word("Rnd") if self.noun == "Rnd" else "Row"

    @property
    def st(self) -> str:
        return self.lexicon.word("st")

    @property
    def spoken(self) -> bool:
        return self.lexicon.style.spoken


def say_steps(voice: Voice, steps: Sequence[Step], *, begins: list[int] | None = None) -> None:
    """Say the steps one after another, with the commas and semicolons that keep them apart; `begins` gathers where each begins."""
    said = False
    for k, step in enumerate(steps):
        if _silent(step, voice):
            continue
        if said:
            voice.out.say(_between(steps[k - 1], step))
        if begins is not None:
            begins.append(len(voice.out))
        say_step(voice, step)
        said = True


def _silent(step: Step, voice: Voice) -> bool:
    """Whether there is nothing to say: a remark that only the source holds, a repeat or a group of nothing."""
    if isinstance(step, Aside):
        return not _aside(step, voice)
    if isinstance(step, Repeat):
        return not step.last and all(_silent(inner, voice) for inner in step.body)
    if isinstance(step, Together):
        return step.name not in voice.lexicon.own and all(_silent(inner, voice) for inner in step.body)
    return False


def _between(before: Step, step: Step) -> str:
    if isinstance(step, Aside) and step.kind == "note":
        return " "
    return "; " if isinstance(before, Repeat) and before.times.kind in _RUNNING else ", "


_RUNNING = ("rest", "to_last", "until", "more")


def say_step(voice: Voice, step: Step) -> None:
    """Say one step, its sizes named first when it belongs to some only."""
    with voice.out.node(step.id):
        if step.only is not None:
            voice.out.say(f"{sizes_only(step.only, voice.size_names)}: ")
        _SAY[type(step)](voice, step)


def sizes_only(only: frozenset[int], names: Sequence[str]) -> str:
    """The sizes that a step, row or part belongs to.

    >>> sizes_only(frozenset({1, 2}), ("S", "M", "L")), sizes_only(frozenset({0}), ("S", "M"))
    ('sizes M and L only', 'size S only')
    """
    named = [names[k] if k < len(names) else str(k + 1) for k in sorted(only)]
    return f"size{'s' if len(named) > 1 else ''} {joined(named)} only"


def _make(voice: Voice, step: Make) -> None:
    step = _named(step)
    lexicon, say = voice.lexicon, voice.out.say
    word = lexicon.stitch(step.stitch)
    many = "" if one(step.each) else f"{number(step.each)}{lexicon.space}"
    if voice.grouped and step.at.where in ("next", "same") and step.places != "rest" and step.closes == 1:
        count = step.places if one(step.each) else step.each
        say(word if one(count) else f"{number(count)}{lexicon.space}{word}")
    elif step.at.where == "hook":
        count = step.places if one(step.each) and step.places != "rest" else step.each
        say(f"{number(count)}{lexicon.space}{word}")
    elif step.evenly:
        say(_evenly(voice, step, word))
    elif step.closes > 1:
        _close(voice, step, f"{many}{word}")
    else:
        post = step.stitch[:2] in ("FP", "BP")
        say(f"{many}{word} {place_words(step.at, step.places, step.but, lexicon, over=voice.over, post=post)}")
        say(_skipped(voice, step.at))


def _skipped(voice: Voice, at: Place) -> str:
    """Whether the chains skipped at the start count, said beside the first stitch and then done with."""
    chain = voice.skipped
    if chain is None or at.where != "from_hook":
        return ""
    voice.skipped = None
    many = Sized.of((at.nth or 1) - 1)
    chains = voice.count(many, voice.lexicon.word("ch"))
    if chain.counts is False:
        said = f"skipped {chains} {'does' if one(many) else 'do'} not count as {voice.st}"
    else:
        stands = joined([_stand(voice, word) for word in chain.stands_for]) if chain.stands_for else voice.st
        said = f"skipped {chains} {'counts' if one(many) else 'count'} as {stands}"
    return f", {said}" if voice.spoken else f" ({said})"


def _named(step: Make) -> Make:
    """ "inc" and "dec" said as the stitches they are, where the pattern knows its stitch."""
    if step.main is None or step.stitch not in ("inc", "dec"):
        return step
    if step.stitch == "inc":
        doubled = Sized(tuple(None if n is None else 2 * n for n in step.each.values))
        return replace(step, stitch=step.main, each=doubled)
    return replace(step, stitch=f"{step.main}2tog", closes=max(2, step.closes))


def _evenly(voice: Voice, step: Make, word: str) -> str:
    count = step.each if step.places == "rest" or one(step.places) else step.places
    where = "" if step.at == Place() else f" {place_words(step.at, Sized((1,)), step.but, voice.lexicon, over=voice.over)}"
    along = where.replace(" in row end", " along edge").replace(" in next row end", " along edge")
    return f"{number(count)}{voice.lexicon.space}{word if one(count) else plural(word)} evenly{along or f' {voice.over}'}"


def _close(voice: Voice, step: Make, word: str) -> None:
    """A together-stitch says over what it closes; several of them are a repeat."""
    noun = voice.lexicon.noun(step.at.what)
    which = step.at.where if step.at.where in ("first", "last") else "next"
    below = f" {step.at.below + 1}{voice.lexicon.space}rows below" if step.at.below else ""
    loop = f"in {voice.lexicon.word(_ONE_LOOP[step.at.loop])} " if step.at.loop in _ONE_LOOP else ""
    said = f"{word} {loop}over {which} {voice.count(Sized.of(step.closes), noun)}{below}"
    if step.places == "rest":
        end = voice.over if set(step.but.values) == {0} else f"to {voice.last(step.but, voice.st)}"
        voice.out.say(_until_words(voice, end) + said + "; end of repeat" if voice.spoken else f"* {said}; rep from * {end}")
    elif one(step.places):
        voice.out.say(said)
    else:
        voice.out.say(f"repeat {times(step.places)}: {said}; end of repeat" if voice.spoken else f"[{said}] {times(step.places)}")


_ONE_LOOP = {"front": "FLO", "back": "BLO"}


def _together(voice: Voice, step: Together) -> None:
    lexicon, say = voice.lexicon, voice.out.say
    place = place_words(step.at, step.places, step.but, lexicon, over=voice.over) + _skipped(voice, step.at)
    if step.name is not None and step.name in lexicon.own:
        say(f"{step.name} {place}")
    elif voice.spoken:
        say("group of ")
        say_steps(replace(voice, grouped=True), step.body)
        say(f", all of it {place}")
    else:
        say("(")
        say_steps(replace(voice, grouped=True), step.body)
        say(f") {place}")


def _chain(voice: Voice, step: Chain) -> None:
    standing = _standing(voice, step)
    if step.foundation and step.counts is not None:
        voice.skipped, standing = step, ""
    voice.out.say(f"{voice.lexicon.word('ch')}{voice.lexicon.space}{number(step.number)}{standing}")


def _standing(voice: Voice, step: Chain) -> str:
    if step.counts is False:
        said = f"does not count as {voice.st}"
    elif step.stands_for:
        said = f"counts as {joined([_stand(voice, word) for word in step.stands_for])}"
    elif step.counts:
        said = f"counts as {voice.st}"
    else:
        return ""
    return f", which {said}" if voice.spoken else f" ({said})"


def _stand(voice: Voice, word: str) -> str:
    if word.startswith("ch "):
        return f"{voice.lexicon.word('ch')}{voice.lexicon.space}{word[3:]}"
    return voice.lexicon.stitch(word)


def _skip(voice: Voice, step: Skip) -> None:
    noun = voice.lexicon.noun(step.what)
    said = f"next {noun}" if one(step.number) else f"next {voice.count(step.number, noun)}"
    of = f" of {step.row}" if step.row else ""
    voice.out.say(f"{voice.lexicon.skip} {said}{of}")


def _leave(voice: Voice, step: Leave) -> None:
    if step.number is None:
        voice.out.say(f"leave remaining {plural(voice.st)} unworked")
    else:
        voice.out.say(f"leave {voice.last(step.number, voice.st)} unworked")


def _turn(voice: Voice, step: Turn) -> None:
    voice.out.say("do not turn" if step.no else "turn")


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


def _ring(voice: Voice, step: Ring) -> None:
    word = voice.lexicon.word
    closed = f"join with {word('sl st')} in first {word('ch')} to form a ring"
    voice.out.say("make a magic ring" if step.chains is None else closed)


def _colour(voice: Voice, step: Colour) -> None:
    if step.at is not None:
        place = place_words(step.at, Sized((1,)), Sized((0,)), voice.lexicon, over=voice.over)
        voice.out.say(f"join {step.yarn} with {voice.lexicon.word('sl st')} {place}")
    elif step.join_in:
        voice.out.say(f"join {step.yarn}")
    else:
        voice.out.say(f"with {step.yarn}")


def _fasten(voice: Voice, step: FastenOff) -> None:
    voice.out.say("fasten off")


_SHAPED = {"each_end": "each end", "beginning": "at beginning", "end": "at end"}


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


def _even(voice: Voice, step: Even) -> None:
    if step.stitch is None:
        voice.out.say("work even")
    else:
        voice.out.say(f"{voice.lexicon.stitch(step.stitch)} in each {voice.st} {voice.over}")


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
    voice.out.say(f"repeat {how_long}: " if step.times.kind in ("n", "more") else _until_words(voice, how_long))
    say_steps(voice, step.body)
    voice.out.say("; end of repeat")
    if step.cut is not None and step.cut < len(step.body):
        left = len(step.body) - step.cut
        voice.out.say(f", the last time without its last {'step' if left == 1 else f'{left} steps'}")
    if step.last:
        voice.out.say(", ending with ")
        say_steps(voice, step.last)


def _until_words(voice: Voice, end: str) -> str:
    """How far a repeat goes, said before it."""
    way = {"across": "to the end of the row", "around": "to the end of the round"}.get(end, end)
    return f"repeat {way}: "


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
    noun = voice.lexicon.noun(step.times.what)
    if kind == "to_last":
        return f"to {voice.last(step.times.number, noun)}"
    if kind == "until":
        return f"until there are {voice.count(step.times.number, noun)}"
    return times(step.times.number)


def _choice(voice: Voice, step: Choice) -> None:
    """Custom stands first; the question itself belongs to whoever reads again."""
    say_steps(voice, step.answers[0])


def _refer(voice: Voice, step: Refer) -> None:
    noun = voice.row
    nouns = f"{noun}s" if len(step.rows) > 1 else noun
    if step.last:
        rows = f"last {noun.lower()}" if step.last == 1 else f"last {step.last}{voice.lexicon.space}{noun.lower()}s"
    else:
        rows = f"{nouns}{voice.lexicon.space}{spans_of(step.rows)}" if step.rows else ""
    of = f" of {step.part}" if step.part and rows else step.part or ""
    verb = voice.lexicon.word("rep") if step.part is None else "work as"
    voice.out.say(f"{verb} {rows}{of}")
    if step.reverse:
        voice.out.say(", reversing shaping")
    if step.changes:
        voice.out.say(", but ")
        say_steps(voice, step.changes)


_ASIDES = {"marker": "place marker", "stuff": "stuff", "close": "cut yarn and draw through remaining {sts} to close"}


def _aside(step: Aside, voice: Voice) -> str:
    """The words of an aside; "" for a remark that only the source holds."""
    return _ASIDES.get(step.kind, "").format(sts=plural(voice.st))


def _say_aside(voice: Voice, step: Aside) -> None:
    voice.out.say(_aside(step, voice))


def _unread(voice: Voice, step: Unread) -> None:
    """Words never understood are quoted as they stand, in whatever terms they were, and told as such in `Written.quoted`."""
    voice.quoted.append(step.span)
    voice.out.say(" ".join(step.span.of(voice.source).split()) or "…")


_SAY: dict[type[Any], Callable[[Voice, Any], None]] = {
    Make: _make,
    Together: _together,
    Chain: _chain,
    Skip: _skip,
    Leave: _leave,
    Turn: _turn,
    Join: _join,
    Ring: _ring,
    Colour: _colour,
    FastenOff: _fasten,
    Shape: _shape,
    Even: _even,
    Repeat: _repeat,
    Choice: _choice,
    Refer: _refer,
    Aside: _say_aside,
    Unread: _unread,
}
