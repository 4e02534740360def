"""One row: its text → tokens → steps and counts. A row's reading depends on its words and the context only, and is remembered by them."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any, TypeGuard

from ..pattern import (
    ONE,
    Aside,
    Chain,
    Choice,
    Colour,
    Count,
    FastenOff,
    Join,
    Make,
    Place,
    Refer,
    Repeat,
    Ring,
    Sized,
    Skip,
    Span,
    Special,
    Step,
    Times,
    Together,
    Trouble,
    Turn,
    Unread,
    Until,
)
from ..pattern.walking import walk
from ..trade.kinds import HEIGHT, as_high, base
from .along_spur import along_spur
from .begun_anywhere import begun_anywhere
from .each_side import round_each_side
from .edge_rounds import round_the_edge
from .first_cluster import leg_of_cluster
from .joined_in_space import in_joining_space
from .one_place import in_one_place
from .phrases.closers import closed
from .phrases.corners_again import corner_told
from .phrases.counts import stops as sentence_ends
from .phrases.counts_of_one_kind import added_up
from .phrases.cursor import FAR, Context, Cursor, Frame
from .phrases.farside import too
from .phrases.lasts import ends_in_fewer, of_one_group
from .phrases.nouns import PLACING
from .phrases.old_books import chains_pass_over
from .phrases.old_units import units_of_chain
from .phrases.sentences import steps as read_steps
from .phrases.staying_free import excepted_left, left_told_first
from .phrases.toys import ring_in_letters
from .phrases.which_of import takes
from .picots import gathered
from .pieces import LONGEST
from .row_carried import row_carried
from .shift import placed
from .side_begun import side_begun
from .start_joined import stands_by_join
from .typos import mended, replaced
from .wording.sums import signs_told
from .wording.token import Token
from .wording.tokens import tokens
from .wording.vocabulary import Entry, Trie, trie_with

Words = tuple[tuple[tuple[str, ...], Entry], ...]


@dataclass(frozen=True, slots=True)
class Lexicon:
    """A pattern's own words and groups: hashable, so that a row's reading can be remembered under it."""

    words: Words = ()
    specials: tuple[tuple[str, Special], ...] = ()
    _hash: int = field(default=0, init=False, compare=False, repr=False)

    def __hash__(self) -> int:
        """Told once and kept: rows are looked up by it."""
        if not self._hash:
            object.__setattr__(self, "_hash", hash((self.words, self.specials)) or 1)
        return self._hash

    @property
    def trie(self) -> Trie:
        return trie_with(self.words)


@dataclass(slots=True, eq=False)
class RowReading:
    """What was read in a row's text. Spans count from the text's beginning, ids from 1. Known by identity: rows are placed by it."""

    steps: tuple[Step, ...] = ()
    counts: tuple[Count, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    told: dict[str, Any] = field(default_factory=dict)
    defined: Mapping[str, Special] = field(default_factory=dict)
    nodes: int = 0
    in_ring: bool = False
    unread: bool = False
    """Some of its words were not understood."""

    @property
    def plain(self) -> bool:
        """Whether its words tell nothing but its own steps and counts, all of them understood."""
        return not (self.told or self.defined or self.troubles or self.unread)


def brackets(found: list[Token]) -> dict[int, int]:
    """Every opening bracket's closing one, by token index; one of another shape closes too when none of its own follows."""
    close: dict[int, int] = {}
    stack: list[int] = []
    pairs = {")": "(", "]": "[", "}": "{"}
    for k, token in enumerate(found):
        if token.kind in ("(", "[", "{"):
            stack.append(k)
        elif token.kind in pairs and stack:
            if found[stack[-1]].kind == pairs[token.kind]:
                close[stack.pop()] = k
            elif any(found[one].kind == pairs[token.kind] for one in stack[-8:]):
                while found[stack[-1]].kind != pairs[token.kind]:
                    stack.pop()
                close[stack.pop()] = k
            else:
                close[stack.pop()] = k
    return close


@lru_cache(maxsize=256)
def interned(context: Context) -> Context:
    """One object for equal contexts."""
    return context


@lru_cache(maxsize=64)
def interned_lexicon(lexicon: Lexicon) -> Lexicon:
    """One object for equal lexicons, to look rows up by (where the groups in it are told is that of the first)."""
    return lexicon


def read_row(text: str, context: Context, lexicon: Lexicon) -> RowReading:
    """The steps, counts and troubles of one row's text (already plain). Never raises."""
    return (_row_known if len(text) <= LONGEST else _long_row_known)(text, context, lexicon)


def _read_row(text: str, context: Context, lexicon: Lexicon) -> RowReading:
    found = tokens(text, 0, len(text), lexicon.trie)
    reading = _phrased(found, context, lexicon)
    slips = _slips(found, reading) if len(found) < MOST_FOR_SLIPS else []
    if not slips:
        return reading
    again = _phrased(replaced(found, slips), context, lexicon)
    if _loose(again) >= _loose(reading):
        return reading
    notes = tuple(_slip(found[k], word) for k, word in slips if word)
    return replace(again, troubles=(*again.troubles, *notes))


_row_known = lru_cache(maxsize=8192)(_read_row)
_long_row_known = lru_cache(maxsize=4)(_read_row)
MOST_FOR_SLIPS = 600
CAUGHT: tuple[type[Exception], ...] = (Exception,)
"""What may go wrong in a phrase without taking the page along. Tests and the fuzz target catch less, so that a fault is seen there."""
LOOKED_TOO_FAR = (IndexError, RecursionError)
"""Beyond the last word, or into itself: met in texts that break off."""


def _phrased(found: list[Token], context: Context, lexicon: Lexicon) -> RowReading:
    found = ring_in_letters(signs_told(found)) if context.begins else signs_told(found)
    cursor = Cursor(found, context, dict(lexicon.specials))
    cursor.close = brackets(found)
    cursor.stops = sentence_ends(cursor)
    try:
        read_steps(cursor, len(found) - 1)
    except CAUGHT:  # a phrase met words it was not made for: its row stands as not understood
        span = cursor.span(0, len(found) - 1)
        cursor.frames[:] = [Frame()]
        cursor.out.append(Unread(id=cursor.id(), span=span))
    _open_stars(cursor)
    cursor.frames[0].out[:] = too(cursor)
    cursor.frames[0].out[:] = _both_ends(cursor)
    cursor.frames[0].out[:] = excepted_left(cursor)
    cursor.frames[0].out[:] = left_told_first(cursor)
    cursor.frames[0].out[:] = of_one_group(ends_in_fewer(cursor.frames[0].out, cursor.id))
    cursor.frames[0].out[:] = stands_by_join(closed(cursor.frames[0].out, context.rounds), context.rounds)
    if context.old:
        cursor.frames[0].out[:] = units_of_chain(cursor.frames[0].out, cursor)
        _goes_round(cursor)
        _rest_of_run(cursor)
        units = [chains_pass_over(_loose_end(step), cursor.id, context.rounds) for step in cursor.frames[0].out]
        each_apart = any(isinstance(step, Make) and step.places == "rest" and not _plain_run(step) for step in units)
        cursor.frames[0].out[:] = (
            units if each_apart else list(map(_on_everything, units))
        )  # "one in every stitch, three under every chain"
    if context.begins and cursor.elsewhere == FAR:
        cursor.told["far"] = True
    plain = gathered(_no_false_foundation(tuple(cursor.out), context), cursor.id)
    told = in_one_place(plain, cursor.id, _place_told(found), _joined(found))
    counts = added_up(cursor)
    plain = along_spur(in_joining_space(leg_of_cluster(side_begun(told, cursor.id), cursor.id), cursor.id))
    plain = round_each_side(round_the_edge(row_carried(plain), found, context), found, counts, cursor.id)
    steps = begun_anywhere(plain, found, cursor.id)
    return RowReading(
        steps=steps,
        unread=any(isinstance(step, Unread) for step in walk(steps)),
        counts=counts,
        troubles=tuple(cursor.troubles),
        told=dict(cursor.told),
        defined={**cursor.defined, **corner_told(steps)},
        nodes=cursor.nodes,
        in_ring=cursor.in_ring or any(isinstance(step, Make) and step.at.where == "ring" for step in walk(steps)),
    )


def _place_told(found: list[Token]) -> Callable[[Step], bool]:
    """Whether a step's own words name a place ("in next loop")."""
    words = [token.start for token in found if token.kind in PLACING]

    def told(step: Step) -> bool:
        at = bisect_left(words, step.span.start)
        return at < len(words) and words[at] < step.span.end

    return told


def _joined(found: list[Token]) -> Callable[[Step, Step], bool]:
    """Whether "and" is all that stands between two steps."""
    ands = [token.start for token in found if token.kind in ("and", "&", "+")]

    def joined(one: Step, two: Step) -> bool:
        at = bisect_left(ands, one.span.end)
        behind = bisect_left(found, one.span.end, key=_begin)
        between = [t for t in found[behind : behind + 2] if t.start < two.span.start]
        return at < len(ands) and ands[at] < two.span.start and len(between) == 1

    return joined


def _begin(token: Token) -> int:
    return token.start


def _slips(found: list[Token], reading: RowReading) -> list[tuple[int, str]]:
    """Unknown words near a known one, in what was not understood or in a remark of a word or two."""
    slips: list[tuple[int, str]] = []
    for step in walk(reading.steps):
        if isinstance(step, Unread) or (isinstance(step, Aside) and step.kind == "note" and step.span.end - step.span.start <= 24):
            slips += mended(found, step.span.start, step.span.end)
    return slips[:6]


def _loose(reading: RowReading) -> int:
    """How much of a row was not taken for an instruction: unread words weigh more than remarks."""
    return sum(3 if isinstance(step, Unread) else 1 if isinstance(step, Aside) else 0 for step in walk(reading.steps))


def _slip(token: Token, word: str) -> Trouble:
    message = f"'{token.text}' was read as '{word}', the nearest word of the craft"
    return Trouble(kind="typo", span=Span(token.start, token.end), message=message, data={"word": token.text, "meant": word})


def _no_false_foundation(steps: tuple[Step, ...], context: Context) -> tuple[Step, ...]:
    """A chain that opens a piece is its foundation only if the row goes on in it: "Ch 1, sc in first st" of a border is not."""
    if not context.begins:
        return steps
    k = next((k for k, step in enumerate(steps) if isinstance(step, Chain) and step.foundation), None)
    if k is None:
        return steps
    chain = steps[k]
    assert isinstance(chain, Chain)
    if (in_ring := _ring_told_last(steps, k)) is not None:
        return in_ring
    for step in _unfolded(steps[k + 1 :]):
        if isinstance(step, Join) and step.to is not None and step.to.where == "same":
            return (*steps[:k], replace(chain, foundation=False), *steps[k + 1 :])  # "LOOP: Ch 16, join in same st": a loop on the piece
        if isinstance(step, Ring):
            if step.chains is not None:
                return steps
            # "Ch 3, 11 dc in magic ring": the ring begins the piece, and the chain stands in it.
            others = tuple(other for other in steps if other is not step and other is not chain)
            return (step, replace(chain, foundation=False), *others)
        if isinstance(step, (Make, Together)):
            at = step.at
            if at.where == "ring" and isinstance(step, Make) and as_high(chain.number.values[0] or 0, step.stitch):
                # "Ch 3, 11 dc in ring", and no ring was told: the chain stands in it
                return (*steps[:k], replace(chain, foundation=False), *steps[k + 1 :])
            into_chain = at.where in ("from_hook", "ring", "hook") or (at.what.startswith("ch") and " sp" not in at.what)
            if chain.number.values == (1,) and step.places == "rest" and at.where == "next":
                into_chain = False  # "ch 1, sc in each ch around": one chain is no row of them
            small = (chain.number.values[0] or 0) <= 6
            named = at.what in ("st", "any") or us_kind(at.what) or (at.what == "ch" and chain.number.values == (1,))
            plain_row = step.places == "rest" and at.where == "next" and named  # so short a chain is no row of places
            asked = (step.places.values[0] or 0) * step.closes if isinstance(step, Make) and isinstance(step.places, Sized) else 0
            turned = small and any(isinstance(other, Turn) and not other.no for other in steps[k + 1 : k + 3])  # "Ch 3, turn, dc2tog"
            many = asked > (chain.number.values[0] or 0) or turned
            if many and small and not into_chain and at.where == "next":
                return (*steps[:k], replace(chain, foundation=False), *steps[k + 1 :])
            repeated = step not in steps and (chain.number.values[0] or 0) <= 4  # so few chains are no row of units
            elsewhere = (
                (repeated and at.where in ("next", "first"))
                or at.where == "same"
                or (small and (plain_row or at.where != "next" or chain.counts is not None or _along_an_edge(steps[:k], step)))
            )
            if into_chain or not elsewhere:
                return steps
            return (*steps[:k], replace(chain, foundation=False), *steps[k + 1 :])
    return steps


def _unfolded(steps: tuple[Step, ...]) -> Iterator[Step]:
    """The steps, those of a repeat told once in its place."""
    for step in steps:
        if isinstance(step, Repeat):
            yield from _unfolded(step.body)
        else:
            yield step


def _ring_told_last(steps: tuple[Step, ...], k: int) -> tuple[Step, ...] | None:
    """ "Ch 3, 2 dc, ch 2, 3 dc into the circle": all of it stands in the ring, which is named once, at the end."""
    chain = steps[k]
    last = next((j for j in range(len(steps) - 1, k, -1) if isinstance(steps[j], (Make, Together))), k)
    rings = [step for step in steps[k + 1 : last] if isinstance(step, Ring) and step.chains is None]
    told = [step for step in steps[k + 1 : last] if step not in rings]
    end = steps[last]
    if not isinstance(chain, Chain) or (chain.number.values[0] or 0) > 6 or not isinstance(end, Make) or end.at.where != "ring":
        return None
    bare = [step for step in told if isinstance(step, Make)]
    if not bare or not all(step.at == Place(span=step.at.span) and isinstance(step.places, Sized) for step in bare):
        return None
    if not all(isinstance(step, (Make, Aside)) or (isinstance(step, Chain) and not step.foundation) for step in told):
        return None
    moved = [
        replace(step, each=step.places if step.each == ONE else step.each, places=ONE, at=end.at)
        if isinstance(step, Make) and isinstance(step.places, Sized)
        else step
        for step in told
    ]
    return (*steps[:k], *rings, replace(chain, foundation=False), *moved, *steps[last:])


def us_kind(what: str) -> bool:
    """Whether a place is a stitch of a kind ("in each sc"), which no chain is."""
    return base(what) in HEIGHT


def _open_stars(c: Cursor) -> None:
    """A star that no repeat and no second star ever answers."""
    from ..pattern import Times
    from .phrases.repeats import folded

    frame = c.frames[0]
    if any(isinstance(step, Refer) and step.rest for step in frame.out):
        return  # "* …; complete round as for First Motif": that closes it
    answered = any(mark.used for mark in frame.marks)
    for mark in list(frame.marks):
        if _footnote(c, frame, mark):
            break
        if answered or mark.closed is not None or mark.sign != "*" or mark.index >= len(frame.out):
            continue
        span = Span(c.t[mark.token].start, c.t[mark.token].end)
        c.trouble("bracket-open", span, "this star opens a repeat that nothing closes; taken as worked to the end of the row", bracket="*")
        c.i = c.end
        frame.out.extend(folded(c, frame, mark, Times(kind="rest"), ((), None)))
        break


def _both_ends(c: Cursor) -> list[Step]:
    """ "2 sc in first and last st, 1 sc in all the others": the run between them stops before the last, wherever it is told."""
    out = c.frames[0].out
    last = c.at_the_end
    run = next((step for step in out if isinstance(step, Make) and step.places == "rest"), None)
    first = next((step for step in out if isinstance(step, Make) and step.at.where == "first"), None)
    if last is None or run is None or first is None:
        return out
    others = [step for step in out if step is not run and step is not first]
    before = [step for step in others if step.span.start < min(run.span.start, first.span.start)]
    return [*before, first, replace(run, but=ONE), last, *(step for step in others if step not in before)]


def _goes_round(c: Cursor) -> None:
    """Old books give one unit, and it goes round: "3 treble, 3 chain, miss 1." """
    whole = c.frames[0].out
    end = len(whole)
    while end and isinstance(whole[end - 1], (Join, FastenOff, Aside)):
        end -= 1  # "…; end the round with a single stitch"
    begin = next((k for k, step in enumerate(whole[:end]) if not isinstance(step, (Colour, Aside))), 0)  # "With the red, 5 chain, …"
    out = whole[begin:end]
    if not out or not all(map(_of_a_unit, out)) or (begin and len(out) == 1):
        return
    told = [step for step in out if not isinstance(step, Aside)]
    match told:
        case [Make(places="rest", upto="") as each, Chain(foundation=False)] if each.at.what.endswith("sp"):
            out[out.index(each)] = replace(each, places=ONE)  # "3 long in every hole, 3 chain": the chain between each two
        case [Make() as only] if only.places == ONE and only.each == ONE and only.at == Place():
            whole[begin:end] = [replace(only, places="rest") if step is only else step for step in out]  # "Plain, a bead on every stitch"
            return
        case _ if any(getattr(step, "places", None) == "rest" or getattr(step, "foundation", False) for step in out):
            return
    if any(isinstance(step, (Make, Together)) and step.at.where == "ring" for step in out):
        return  # all of it stands in the ring
    body = tuple(out)
    whole[begin:end] = [Repeat(id=c.id(), span=Span(body[0].span.start, body[-1].span.end), body=body, times=Times(kind="rest"))]


def _rest_of_run(c: Cursor) -> None:
    """ "1 plain on the 3rd of the six, 7 chain; repeat": what is left of the six is passed over as the unit comes round."""
    out = c.frames[0].out
    unit = out[0] if out else None
    run = c.run
    if run is None or run.frame is not c.frames[0] or not isinstance(unit, Repeat) or unit.times.kind != "rest" or unit.last:
        return
    left = run.number - sum(map(takes, unit.body[run.first :]))
    if 0 < left < run.number:
        over = Skip(id=c.id(), span=unit.span, number=Sized((left,)))
        out[0] = replace(unit, body=(*unit.body, over))


def _of_a_unit(step: Step) -> bool:
    if isinstance(step, Choice):
        return all(_of_a_unit(one) and getattr(one, "places", None) != "rest" for answer in step.answers for one in answer)
    return isinstance(step, (Make, Chain, Skip, Together, Aside))


def _loose_end(step: Step) -> Step:
    """Old books' rows end where they will, in mid-unit as often as not."""
    return replace(step, times=replace(step.times, loose=True)) if isinstance(step, Repeat) and step.times.kind == "rest" else step


def _on_everything(step: Step) -> Step:
    """ "3rd round: double crochet": a plain row of these books goes into every stitch and every chain (from memory)."""
    if _plain_run(step):
        return replace(step, at=Place(what="any"))
    return step


def _plain_run(step: Step) -> TypeGuard[Make]:
    return isinstance(step, Make) and step.places == "rest" and step.at == Place() and step.stitch in ("sc", "dc", "sl st")


def _footnote(c: Cursor, frame: Any, mark: Any) -> bool:
    """A star before plain words is a footnote, not a repeat."""
    after = frame.out[mark.index :]
    if mark.used or mark.closed is not None or not after or mark.index == 0 or not any(isinstance(step, Unread) for step in after):
        return False
    if any(isinstance(step, (Make, Together, Chain)) for step in after):
        return False
    del frame.out[mark.index :]
    frame.marks.remove(mark)
    c.i = c.end
    frame.out.append(Aside(id=c.id(), span=c.span(mark.token)))
    return True


Placed = tuple[tuple[Step, ...], tuple[Count, ...], tuple[Trouble, ...]]


def at(reading: RowReading, offset: int, first: int) -> Placed:
    """The reading's nodes moved to where the row stands in its source: the same objects again while it stands there."""
    return (_placed_known if reading.nodes <= MOST_FOR_SLIPS else _place)(reading, offset, first)


def _place(reading: RowReading, offset: int, first: int) -> Placed:
    move = placed(offset, first)
    return move(reading.steps), move(reading.counts), move(reading.troubles)


_placed_known = lru_cache(maxsize=2048)(_place)

__all__ = ["Context", "Lexicon", "Place", "RowReading", "Until", "at", "interned", "read_row"]


def _along_an_edge(before: tuple[Step, ...], step: Make | Together) -> bool:
    """A border's beginning: the yarn is joined somewhere in another piece, or the stitches are spread along its edge."""
    joined = any(isinstance(one, Colour) and one.join_in and one.at is not None for one in before)
    return joined or (isinstance(step, Make) and step.evenly and step.places == "rest")
