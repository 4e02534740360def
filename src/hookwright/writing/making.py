"""Stitches in words: what is made, where, and what a starting chain stands for."""

from __future__ import annotations

from dataclasses import replace

from ..pattern import Chain, Even, Make, Place, Sized, Together
from .numbers import joined, number, one, plural, times
from .places import place_words, upto_words
from .saying import Voice, say_steps, says, until_words


@says(Make)
def _make(voice: Voice, step: Make) -> None:
    step = _named(step)
    lexicon, say = voice.lexicon, voice.out.say
    word = lexicon.stitch(step.stitch)
    many = "" if one(step.each) else f"{number(step.each)}{lexicon.space}"
    if voice.grouped and step.at.where in ("next", "same") and step.places != "rest":
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
        say(f"{many}{word} {place_words(step.at, step.places, step.but, lexicon, over=voice.over, post=post, upto=step.upto)}")
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
    over = f" over {which} {voice.count(Sized.of(step.closes), noun)}{below}"
    itself = which == "next" and step.at.what == "st" and not below and word.endswith(f"{step.closes}tog") and not voice.spoken
    said = f"{word}{f' {loop}'.rstrip()}{'' if itself else over}"  # "sc2tog" says itself that it closes the next two
    if step.places == "rest":
        end = voice.over if set(step.but.values) == {0} else f"to {voice.last(step.but, voice.st)}"
        end = upto_words(step.upto, step.but, voice.lexicon, over=voice.over) if step.upto else end
        voice.out.say(until_words(voice, end) + said + "; end of repeat" if voice.spoken else f"* {said}; rep from * {end}")
    elif one(step.places):
        voice.out.say(said)
    else:
        voice.out.say(f"repeat {times(step.places)}: {said}; end of repeat" if voice.spoken else f"[{said}] {times(step.places)}")


_ONE_LOOP = {"front": "FLO", "back": "BLO"}


@says(Together)
def _together(voice: Voice, step: Together) -> None:
    lexicon, say = voice.lexicon, voice.out.say
    place = place_words(step.at, step.places, step.but, lexicon, over=voice.over, upto=step.upto) + _skipped(voice, step.at)
    if step.name is not None and step.name in lexicon.own:
        say(f"{step.name} {place}")
    elif _a_cluster(step):
        say_steps(replace(voice, grouped=True), step.body)
        say(f" {place}")
    elif voice.spoken:
        say("group of ")
        say_steps(replace(voice, grouped=True), step.body)
        say(f", all of it {place}")
    else:
        say("(")
        say_steps(replace(voice, grouped=True), step.body)
        say(f") {place}")


def _a_cluster(step: Together) -> bool:
    """One together-stitch with all its feet in one space: "dc3tog in next ch-2 sp" says so without brackets."""
    only = step.body[0] if len(step.body) == 1 else None
    space = step.at.what == "sp" or step.at.what.endswith(" sp")
    return isinstance(only, Make) and only.closes > 1 and one(only.each) and space and (step.places == "rest" or one(step.places))


@says(Chain)
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


@says(Even)
def _even(voice: Voice, step: Even) -> None:
    if step.stitch is None:
        voice.out.say("work even")
    else:
        voice.out.say(f"{voice.lexicon.stitch(step.stitch)} in each {voice.st} {voice.over}")
