"""The loop that reads a row: one phrase after another, by the kind of word that stands next; what fits none is set aside or unread."""

from __future__ import annotations

import re

from ...pattern import LIMITS, Aside, Chain, Colour, Step, Unread
from ..wording.token import Token
from . import (
    announced,
    asides,
    begun_round,
    bound_back,
    chain_in_place,
    chains,
    colours,
    counts,
    counts_told,
    edges_in_both,
    filet,
    lace_moves,
    layers,
    loose_repeats,
    pattern_as,
    pieces,
    plainly_on,
    repeat_endings,
    runs_between,
    skipping,
    so_many_rows,
    toys,
    yarn_opening,
)
from .cursor import Cursor
from .one_phrase import one
from .prose import prose, set_aside, stop_of
from .shapes import GLUE

MOST_STEPS = LIMITS.steps // 10
CRAFT = frozenset(("st", "ch", "skip", "inc", "dec", "turn", "join", "grp", "rep", "foff", "mring", "tog", "leave", "rem"))
_BREAKS = frozenset((",", ";", ".", "", "(", "[", "{", ")", "]", "}", "*", ":", "then"))


_BEGINS_CLOSING = frozenset(("w", "n", "st", "work", "join", "place", "then", "now", "insert"))
"""How a piece may begin to be closed through both of its layers."""
_BEGINS_MAKING_UP = frozenset(("work", "w", "insert", "place", "attach", "idle", "then", "join"))
_ADDS = frozenset((",", "-", "and", "&", "(", "[", ")", "]"))
"""Between a row's count and what is done to the piece then."""
_BY_NEEDLE = frozenset("sew sewing sewn tack tacking basting weave weaving embroider tassel glue pinch".split())  # noqa: SIM905
_SHUT = frozenset((")", "]", "}"))


def steps(c: Cursor, end: int) -> None:
    """Read steps up to token `end` into the cursor's innermost frame."""
    out = c.out
    t = c.t
    while c.i < end:
        start = c.i
        kind = t[start].kind
        if out and (told := edges_in_both.edges_in_both(c)) is not None:
            out.extend(told)
            continue
        if kind in GLUE:
            if kind in (":", "-", ",", ";") and (said := asides.shaping_told(c)) is not None:
                out.extend(said)
                continue
            if kind in (",", ";") and (said := _rows_behind(c)) is not None:
                out.extend(said)
                continue
            if kind in (":", "-", ",", "/", ";"):
                got = counts.after_mark(c) if kind in ("/", "-") else None
                got = counts.trailing(c) if got is None and kind != "/" else got
                if got is not None and c.i > start:
                    out.extend(got)
                    continue
            if t[start].val in ("when", "there") and (told := counts.sentence(c)) is not None:
                out.extend(told)  # "…, when you should have 6 loops"
                continue
            if t[start].val == "same-way" and (again := runs_between.as_last_but(c)) is not None:
                out.extend(again)
                continue
            if kind == "idle" and _begins_sentence(t, start) and _said_apart(c, end):
                continue
            c.i = start + 1
            continue
        if c.nodes > MOST_STEPS:
            c.trouble(
                "too-long", c.span(start, end), f"a row of more than {MOST_STEPS:,} steps; the rest of it was not read", limit=MOST_STEPS
            )
            c.i = end
            out.append(Unread(id=c.id(), span=c.span(start)))
            return
        if kind in _BEGINS_CLOSING and (closed := layers.closed_flat(c)) is not None:
            out.extend(closed)
            continue
        if (begun := yarn_opening.begun_in_any(c)) is not None:
            out.extend(begun)
            continue
        square = {"w": filet.filet, "group": filet.filet, "work": filet.as_they_lie}.get(kind) if c.ctx.filet else None
        if square is not None and (squares := square(c)) is not None:
            out.extend(squares)  # "Bl over each sp"
            continue
        if kind == "n" and (told_count := counts_told.so_many_in_row(c)) is not None:
            out.extend(told_count)
            continue
        if kind == "cont" and t[start + 1].kind == "alt" and t[start + 2].kind in ("st", "n", "between"):
            c.i = start + 1  # "continue alternating sc and dc across"
            continue
        if kind == "cont" and (led := _led_to_unit(t, start)):
            out.append(set_aside(c, start + led))
            continue
        if kind in ("end", "ending") and start and t[start - 1].kind in (",", ";", ".") and repeat_endings.ended_apart(c):
            continue
        if _begins_sentence(t, start) or _after_count(c):
            alone = plainly_on.colour_alone(c) if not out else None
            if alone is not None:
                out.extend(alone)
                continue
            if not out and (opened := yarn_opening.opened_in(c) or pieces.begun_on(c)) is not None:
                out.extend(opened)
                continue
            if not out and (again := pattern_as.pattern_as(c) or pattern_as.after_rule(c)) is not None:
                out.extend(again)
                continue
            if kind == "tch" and _chain_rule(c):
                out.append(set_aside(c, next(k for k in range(c.i, len(t)) if t[k].kind in (",", ";", ".", ""))))
                continue
            if _rule_told(c, stop_of(c, end)):
                out.append(set_aside(c, stop_of(c, end)))
                continue
            if out and (again := begun_round.round_again(c)) is not None:
                out.extend(again)
                continue
            yarn = colours.now_with(c)
            if yarn is not None:
                out.append(yarn)
                continue
            if _said_apart(c, end):
                continue
        if c.counts and kind in _BEGINS_MAKING_UP and t[start - 1].kind in _ADDS and toys.made_up(c, stop_of(c, end)):
            out.append(set_aside(c, stop_of(c, end)))  # "… (24), put in eyes between rnds 10 and 11"
            continue
        if toys.careful(c):
            advice = set_aside(c, toys.advice_ends(c, stop_of(c, end)))
            out.extend(_after_chain(c) if out and type(out[-1]).__name__ == "Chain" else ())
            out.append(advice)
            continue
        if out and kind in chain_in_place.BEGINS and chain_in_place.chain_in_place(c) is not None:
            continue
        got = one(c)
        if got is not None:
            got = lace_moves.listed_before_place(c, got)
            got = bound_back.group_with_last(c, start, got)
            announced.taken_in_turn(c, got)
            announced.along_told(c, got)
            got = skipping.only_these(c, got)
            ring = chains.ring(c) if got and type(got[-1]).__name__ == "Chain" else None
            out.extend(got)
            if ring is None and got and type(got[-1]).__name__ == "Chain":
                out.extend(_after_chain(c))
            elif ring is not None:
                out.extend(ring)
            continue
        c.i = start
        said = counts_told.told(c)
        if said is None:
            out.extend(unread(c, end))
    c.i = max(c.i, end)


def _rows_behind(c: Cursor) -> list[Step] | None:
    """ "(Sc around), 9 rounds": how often, and no count of anything."""
    c.i += 1
    got = so_many_rows.so_many_rows(c)
    c.i -= got is None
    return got


def _rule_told(c: Cursor, stop: int) -> bool:
    """ "(Chain 28.) Always skip the sc behind a FPdc." before any stitch: what holds for the rows to come, and no work."""
    words = c.t[c.i : stop]
    worked = any(not isinstance(step, (Aside, Chain, Colour)) for step in c.out)
    told = len(words) > 1 and words[0].text.lower() in _RULES and words[1].kind not in ("n", "st", "inc", "dec")
    return told and not worked and not any(t.kind in ("loop", "lp") for t in words)


_RULES = frozenset(("always", "never", "remember"))


def _led_to_unit(t: list[Token], at: int) -> int:
    """ "Continue around with *1 dc in next dc, 2 dc in next dc*", "continue with edging": how many words only lead on; 0 elsewhere."""
    k = at + 1 + (t[at + 1].kind in ("around", "across"))
    if t[k].kind != "with":
        return 0
    named = t[k + 1].text.lower() in ("edging", "border", "brim", "cuff", "band", "trim", "thumb", "body", "sleeve")
    if named and t[k + 2].kind in (".", ";", ""):
        return k + 2 - at
    return k + 1 - at if t[k + 1].kind == "*" and k > at + 1 else 0


def _chain_rule(c: Cursor) -> bool:
    """ "Beg ch 3 counts as dc; ch 3, …": what the chain that is told then stands for."""
    k = c.i + 1 + (c.look().kind in ("n", "-")) + (c.look().kind == "-" and c.look(2).kind == "n")
    return c.t[k].kind in ("counts", "not") and c.t[k + 1].kind in ("as", "counts", "for")


def _begins_sentence(t: list[Token], at: int) -> bool:
    led_in = at > 0 and t[at - 1].kind == "then" and (at == 1 or t[at - 2].kind == ".")
    return at == 0 or led_in or t[at - 1].kind in (".", ";") or (t[at - 1].kind in _SHUT and t[at].text[:1].isupper())


def _after_count(c: Cursor) -> bool:
    """Whether the row's count has just been told in its bracket: what follows on the next line is said apart, capital or none."""
    if not c.counts or not c.i or len(c.frames) > 1 or c.counts[-1].span.end != c.t[c.i - 1].end:
        return False
    return c.t[c.i - 1].kind in _SHUT or counts.new_sentence(c, c.i)


def _said_apart(c: Cursor, end: int) -> bool:
    """Take a whole sentence that works nothing of its own: a count, rows told again, a remark. False with the cursor unmoved."""
    start = c.i
    if c.kind in ("idle", "the") and counts.sentence(c) is not None and c.i > start:
        return True
    c.i = start
    again = loose_repeats.loosely(c, end)
    if again is not None:
        c.out.extend(again)
        return True
    aside = prose(c, end)
    if aside is not None:
        c.out.append(aside)
    return aside is not None


def _after_chain(c: Cursor) -> list[Step]:
    """The chain now stands in the steps: it may be joined into a ring."""
    begin = c.i
    c.drop(",", "and", "then", ".", ";")
    ring = chains.ring(c)
    if ring is None:
        c.i = begin
        return []
    return ring


def unread(c: Cursor, end: int) -> list[Step]:
    """Words that fit no phrase, up to the next break: set aside when nothing of the craft is in them, else unread."""
    start = c.i
    c.i += 1
    while c.i < end and c.t[c.i].kind not in _BREAKS:
        if c.t[c.i].kind in (*counts.MARKS, "-", "=") and c.t[c.i].gap and any(one.kind == "n" for one in c.t[c.i + 1 : c.i + 3]):
            break
        if c.t[c.i].kind in ("ch", "skip", "turn", "join", "foff") or (
            c.t[c.i].kind == "st" and c.t[c.i - 1].kind not in ("in", "of", "next", "each", "the", "n", "a")
        ):
            break
        c.i += 1
    words = c.t[start : c.i]
    if words[0].kind == "cont" and len(words) == 1:
        return [Aside(id=c.id(), span=c.span(start))]  # "…, ch 1 and continue."
    if words[0].kind == "cont" or (words[0].val in ("go", "proceed") and len(words) > 1 and words[1].val in ("on", "in")):
        return [Unread(id=c.id(), span=c.span(start))]  # "continue thus around": an instruction, not a remark
    if len(words) == 1 and words[0].kind in (")", "]", "}"):
        c.trouble("bracket-open", c.span(start), "this bracket closes nothing", bracket=words[0].kind)
        return []
    if c.kind == ":" and not any(t.kind in ("st", "ch", "inc", "dec", "skip", "rep", "n") for t in words):
        return [Aside(id=c.id(), span=c.span(start))]  # "Make a loop at each end:"
    if any(t.text.lower() in _BY_NEEDLE for t in words) and not any(t.kind in CRAFT for t in words):
        return [Aside(id=c.id(), span=c.span(start))]  # "…, sewing the picots together", "pinch & sew on": by needle
    looks = next((k for k, t in enumerate(words) if t.text.lower() in _LOOKS), len(words))
    told_elsewhere = (
        words[0].kind == "work" or words[0].val in ("complete", "finish") or any(t.kind in ("same", "as") for t in words[1:looks])
    )
    if told_elsewhere and len(words) > 2 and any(t.kind in ("same", "as", "across", "over", "prev", "patt") for t in words):
        return [
            Unread(id=c.id(), span=c.span(start))
        ]  # "work same as first half": what to do is told elsewhere, in words not followed here
    if len(words) == 3 and [t.kind for t in words] == ["work", "a", "w"] and c.kind in (",", ";", ")"):
        return [Unread(id=c.id(), span=c.span(start))]  # "…, work a bobbin, sc in next 3": steps of a name told nowhere
    if _unknown_stitch(c, start, words) or _corner_unknown(c, words):
        return [Unread(id=c.id(), span=c.span(start))]
    if sum(t.kind == "w" for t in words) >= 2 and not any(t.kind in CRAFT or t.kind == "n" for t in words):
        return [Aside(id=c.id(), span=c.span(start))]
    if not any(t.kind in CRAFT or t.kind in ("n", "o", "next", "each", "last", "same") for t in words):
        return [Aside(id=c.id(), span=c.span(start))]
    return [Unread(id=c.id(), span=c.span(start))]


def _corner_unknown(c: Cursor, words: list[Token]) -> bool:
    """ "Dc in next 3, corner, dc in next 3", "work corner in ch-2 sp": stitches are asked for, and nothing has told which."""
    kinds = [token.kind for token in words if token.kind not in ("work", "a", "the") and token.text.lower() not in ("make", "making")]
    return kinds[:1] == ["corner"] and kinds[1:2] in ([], ["in"]) and c.kind != ":" and any(not isinstance(s, Aside) for s in c.out)


_LOOKS = frozenset(("look", "looks", "feel", "feels", "lie", "lies", "seem", "seems"))
"""What is said behind one of these likens the piece to something; it asks for nothing."""


_ABBREVIATED = re.compile(r"[bcdfghjklmnpqrstvwxz]{3,6}")
"""Consonants alone: a short form, no word."""


def _unknown_stitch(c: Cursor, start: int, words: list[Token]) -> bool:
    """ "Wibble across", "fumble in each st around": a word nobody knows stands where a stitch does, and is no remark."""
    first = words[0]
    if len(words) == 1 and first.kind == "w" and _ABBREVIATED.fullmatch(first.val) and c.kind in (",", "*", ")", "]"):
        return True  # "*mdc, sc in next; rep from *": an abbreviation that nobody told, where a stitch stands
    if first.kind != "w" or len(first.text) < 3 or (start and c.t[start - 1].kind not in _BREAKS):
        return False
    rest = [token.kind for token in words[1:] if token.kind not in ("all", "the")]
    return rest in (["across"], ["around"], ["even", "across"], ["even", "around"])
