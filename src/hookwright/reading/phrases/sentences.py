"""The loop that reads a row: one phrase after another, by the kind of word that stands next; what fits none is set aside or unread."""

from __future__ import annotations

import re
from collections.abc import Callable

from ...pattern import LIMITS, Aside, Step, Unread
from ..wording.token import Token
from . import (
    announced,
    asides,
    bare,
    chains,
    coloured,
    colours,
    copies,
    counts,
    counts_told,
    crossings,
    direction,
    each_row,
    edges,
    ends,
    ends_joined,
    exceptions,
    farside,
    filet,
    follows,
    groups,
    growing,
    halves,
    joined_on,
    lace_moves,
    last_replaced,
    lasts,
    layers,
    left_together,
    longhand,
    loose_repeats,
    manners,
    markers,
    middles,
    more_rows,
    motifs,
    moves,
    old_books,
    pairs,
    passes,
    pieces,
    plain_rows,
    plainly_on,
    popcorns,
    references,
    repeats,
    row_ends,
    row_loops,
    runs,
    shaped_by,
    shaping,
    shaping_again,
    shaping_spots,
    shutting,
    sides,
    skipping,
    stitches,
    together,
    toys,
    tricot,
    turns,
    uncounted,
    unit_repeats,
    untils,
)
from .cursor import Cursor
from .prose import prose, set_aside, stop_of
from .shapes import GLUE

Phrase = Callable[[Cursor], "list[Step] | None"]

_STITCH: tuple[Phrase, ...] = (
    tricot.plain,
    plain_rows.headed,
    plain_rows.plain_row,
    pairs.every_pair,
    manners.marker_slipped,
    shaping.doubled,
    uncounted.edge_run,
    lace_moves.travel,
    moves.closing,
    shaping.change,
    stitches.stitch,
)
_PLACE: tuple[Phrase, ...] = (
    uncounted.facing,
    lasts.last_of_run,
    plainly_on.in_pattern,
    together.rows_below,
    colours.colour,
    together.at_place,
)


def _going_on(c: Cursor) -> list[Step] | None:
    return unit_repeats.go_on(c) if c.t[c.i].val in ("go", "proceed") else None


def _again(c: Cursor) -> list[Step] | None:
    """ "Keep repeating row 2", "continue alternating rows 2 and 3": the verb before it says no more."""
    start = c.i
    if c.look().kind in ("rep", "alt"):
        c.i += 1
        got = references.refer(c)
        if got is not None:
            return got
    c.i = start
    return None


def _by_working(c: Cursor) -> list[Step] | None:
    """ "(Dc across,) widening by working 2 dc in every 6th st": how it is shaped, told as it is told elsewhere."""
    start = c.i
    if c.look().kind != "by" or c.look(2).kind != "work" or c.look(3).kind != "n":
        return None
    c.i += 3
    got = one(c)
    if got is None:
        c.i = start
    return got


def _but(c: Cursor) -> list[Step] | None:
    """ "(Do not join rnds) but mark beg of each with a thread": what follows is told as it is elsewhere."""
    start = c.i
    c.i += 1
    if c.kind in ("across", "along", "around") and c.look().kind in ("the", "end", "ends", "side"):
        edge = next((k for k in range(1, 5) if c.look(k).kind == "work"), 0)
        c.i += edge  # "but across the end work 1 sc on the first"
    got = one(c)
    if got is None:
        c.i = start
    return got


PHRASES: dict[str, tuple[Phrase, ...]] = {
    "n": (
        tricot.loops_told,
        plain_rows.plain_row,
        pairs.so_many_pairs,
        moves.rows_of,
        old_books.on_centre,
        asides.one_in_each,
        asides.same_in_corners,
        bare.colour_block,
        filet.filet,
        references.one_more,
        colours.stripes,
        counts.trailing,
        unit_repeats.whole_times,
        groups.prefixed,
        crossings.crossing,
        chains.chain,
        uncounted.edge_run,
        shaping.change,
        moves.closing,
        stitches.stitch,
        stitches.qualified,
        bare.bare_number,
    ),
    "a": (
        exceptions.at_every,
        bare.colour_times,
        filet.filet,
        colours.colour,
        moves.rows_of,
        chains.chain,
        moves.closing,
        shaping.change,
        stitches.stitch,
    ),
    "st": _STITCH,
    "grp": (groups.name_made, crossings.crossing, stitches.stitch),
    "ch": (chains.a_multiple, chains.chain),
    "loop": (row_loops.row_loop, together.at_place, shaping.change, stitches.stitch),
    "front": (stitches.stitch,),
    "back": (colours.back_to, stitches.stitch),
    "raised": (stitches.stitch,),
    "corner": (groups.corner_again,),
    "inc": (
        _by_working,
        shaping_spots.as_needed,
        tricot.shaped_as_row,
        announced.as_follows,
        each_row.growing_told,
        growing.in_manner,
        shaping.change,
    ),
    "dec": (tricot.shaped_as_row, announced.as_follows, pairs.every_pair, each_row.growing_told, growing.in_manner, shaping.change),
    "skip": (shaping_spots.missed_at, tricot.nearest_missed, tricot.from_second, skipping.skip),
    "leave": (passes.loops_kept, longhand.longhand, skipping.leave),
    "turn": (turns.turn,),
    "not": (ends.not_fastened, turns.turn, moves.join, moves.not_made),
    "join": (
        last_replaced.last_replaced,
        manners.manner,
        ends_joined.ends_joined,
        joined_on.joins_to_piece,
        shutting.shut_hole,
        chains.ring,
        colours.colour,
        moves.join,
    ),
    "mring": (chains.ring,),
    "foff": (ends.fasten,),
    "rep": (
        repeats.between_stars,
        unit_repeats.unit_again,
        shaping_again.shaped_again,
        growing.in_manner,
        references.by_name,
        references.refer,
        repeats.repeat,
        repeats.of_group,
    ),
    "(": (coloured.in_bracket, longhand.longhand, row_loops.bracketed, bare.bracketed_repeat, unit_repeats.bracketed_times, groups.bracket),
    "[": (coloured.in_bracket, longhand.longhand, row_loops.bracketed, bare.bracketed_repeat, unit_repeats.bracketed_times, groups.bracket),
    "{": (bare.bracketed_repeat, groups.bracket),
    "=": (counts.trailing, references.refer, counts.after_mark),
    ":": (counts.trailing,),
    **dict.fromkeys(counts.MARKS, (counts.after_mark,)),
    "*": (repeats.star, counts.after_mark),
    "total": (counts.sentence,),
    "counts": (tricot.loops_until, counts.sentence),
    "counter": (counts.sentence,),
    "multiple": (chains.a_multiple,),
    "the": (
        tricot.loop_there,
        tricot.loops_until,
        row_loops.row_loop,
        old_books.formed_of_chain,
        edges.this_does,
        lasts.last_of_run,
        lasts.last_is,
        filet.filet,
        references.refer,
        counts.sentence,
        groups.skipped_sentence,
        together.worked_in,
    ),
    "same": (motifs.as_motif, sides.side_before, references.refer, together.at_place),
    "as": (references.refer,),
    "row": (plain_rows.plain_row, references.refer),
    "rnd": (plain_rows.plain_row, references.refer),
    "cont": (
        more_rows.proceed,
        references.keeps_to_pattern,
        repeats.between_stars,
        unit_repeats.unit_again,
        _again,
        longhand.longhand,
        manners.manner,
        more_rows.more_rows,
        unit_repeats.gone_on,
        pieces.goes_on_from,
        together.at_place,
        moves.completing,
        edges.along_edge,
        growing.in_manner,
        shaping.going_on,
        sides.side_before,
        references.refer,
        runs.run,
        unit_repeats.carried_on,
        plainly_on.even,
        unit_repeats.go_on,
    ),
    "even": (plain_rows.headed, plainly_on.even),
    "change": (colours.colour,),
    "attach": (colours.colour,),
    "drop": (popcorns.dropped, colours.colour),
    "pick": (tricot.raised, passes.loop_up, colours.colour),
    "carry": (colours.colour,),
    "patt": (plainly_on.pattern_on,),
    "color": (colours.colour,),
    "in": (
        chains.in_magic_ring,
        row_loops.row_loop,
        counts.in_row_told,
        growing.in_manner,
        chains.foundation_of,
        old_books.with_thread,
        stitches.goes_on,
        *_PLACE,
    ),
    "with": (
        exceptions.at_every,
        bare.colour_times,
        chains.with_chain,
        joined_on.like_first,
        manners.last_in_colour,
        exceptions.exception,
        old_books.with_thread,
        *_PLACE,
    ),
    "over": (pairs.worked_as_one, manners.last_in_colour, passes.way_back, together.rows_below, together.at_place),
    "under": (together.at_place,),
    "all": (together.all_at_place,),
    "behind": (together.rows_below,),
    "before": (together.rows_below,),
    "between": (repeats.between, together.at_place),
    "around": (unit_repeats.goes_round, together.at_place),
    "across": (unit_repeats.goes_round,),
    "along": (together.at_place,),
    "at": (ends.at_last_row, moves.at_next_rows, together.at_place),
    "next": (together.at_place,),
    "each": (each_row.having_more, stitches.goes_on, together.at_place),
    "place": (lasts.last_of_run, markers.marker),
    "marker": (markers.marker,),
    "stuff": (shaping_spots.spaces_filled, moves.stuff),
    "pass": (passes.a_pass,),
    "pull": (left_together.left_together, passes.loop_up, shutting.draw_through, longhand.longhand),
    "w": (
        exceptions.including,
        copies.another,
        shaping_spots.taken_together,
        manners.so_placed,
        left_together.left_together,
        exceptions.at_every,
        passes.loops_kept,
        tricot.raised,
        old_books.wound_ring,
        stitches.own_stitch,
        popcorns.dropped,
        motifs.finish,
        lace_moves.complete_group,
        old_books.open_crochet,
        farside.rotated,
        edges.this_does,
        filet.filet,
        unit_repeats.whole_times,
        growing.in_manner,
        edges.along_edge,
        _going_on,
        lasts.stops_after,
        bare.colour_times,
        colours.colour,
        markers.marker,
        sides.side_before,
        references.refer,
        counts.sentence,
        stitches.stitch,
        longhand.longhand,
        moves.completing,
    ),
    "yo": (passes.way_back, longhand.longhand),
    "insert": (tricot.bars_together, passes.loop_up, longhand.longhand),
    "ending": (lasts.stops_after, row_ends.ending_row, moves.ending),
    "end": (lasts.stops_after, manners.last_in_colour, motifs.finish, row_ends.ending_row, sides.side_before, moves.ending),
    "idle": (row_loops.row_loop, edges.this_does, unit_repeats.whole_times, counts.sentence),
    "once": (
        stitches.once_more,
        unit_repeats.whole_times,
    ),
    "from": (direction.direction, repeats.between, together.at_place),
    "beg": (
        moves.begin_to_shape,
        tricot.from_second,
        chains.commenced,
        stitches.begun_group,
        pieces.goes_on_from,
        edges.along_edge,
        stitches.stitch,
        together.at_place,
        moves.starting_at,
    ),
    "last": (lasts.last_of_run, lasts.last_is, references.refer, together.at_place),
    "but": (exceptions.at_every, _but),
    "to": (tricot.to_work_back, follows.to_make),
    "until": (
        tricot.loops_until,
        untils.still_until,
    ),
    "hook": (moves.tool,),
    "for": (moves.for_this_row, moves.headed_for, counts.for_total, moves.for_rows),
    "or": (moves.alternative,),
    "o": (asides.named_shaping, old_books.formed_of_chain, references.refer, moves.half),
    "having": (pairs.so_many_pairs, longhand.longhand, exceptions.exception, moves.having),
    "sp": (filet.filet,),
    "group": (filet.filet,),
    "alt": (unit_repeats.alternated, colours.stripes, references.refer),
    "without": (shaped_by.without,),
    "shaping": (sides.shaped_as,),
    "work": (
        shaping_spots.taken_together,
        shaping_spots.worked_twice,
        middles.more_at_middle,
        left_together.left_together,
        more_rows.mesh_over_mesh,
        references.keeps_to_pattern,
        exceptions.at_every,
        exceptions.exception,
        repeats.between_stars,
        row_loops.row_loop,
        unit_repeats.unit_again,
        last_replaced.last_replaced,
        uncounted.other_sides,
        uncounted.extra_at_corners,
        manners.last_in_colour,
        more_rows.more_rows,
        passes.way_back,
        pairs.every_pair,
        pairs.worked_as_one,
        asides.over_tail,
        asides.instead,
        motifs.as_motif,
        edges.along_edge,
        copies.another,
        uncounted.edge_run,
        lasts.last_of_run,
        sides.side_before,
        references.refer,
        pairs.worked_together,
        runs.run,
        moves.rows_of,
        moves.more_pieces,
        plainly_on.even,
        together.at_place,
    ),
}

MOST_STEPS = LIMITS.steps // 10
CRAFT = frozenset(("st", "ch", "skip", "inc", "dec", "turn", "join", "grp", "rep", "foff", "mring", "tog", "leave", "rem"))
_BREAKS = frozenset((",", ";", ".", "", "(", "[", "{", ")", "]", "}", "*", ":", "then"))


_BEGINS_HALF = frozenset(("work", "cont", "complete", "w", "rep", "reversing", "same", "end", "o", "other", "the"))
"""How a row's second half may begin to be told by its first."""
_BEGINS_CLOSING = frozenset(("w", "n", "st", "work", "join", "place", "then", "now", "insert"))
"""How a piece may begin to be closed through both of its layers."""
_BEGINS_GROWTH = frozenset(("w", "each", "the", "inc", "dec", "with", "(", "[", "a", "more", "n", "skip", "counter"))
"""How the sum of what repeated rows do may begin."""


def one(c: Cursor) -> list[Step] | None:
    """The steps of the one phrase that begins here, or None with the cursor unmoved."""
    start = c.i
    if c.kind in _BEGINS_GROWTH and (told := each_row.growth_beside(c)) is not None:
        return told
    if c.kind in _BEGINS_HALF and (half := halves.second_half(c)) is not None:
        return half
    counted = len(c.counts)
    for phrase in PHRASES.get(c.t[start].kind, ()):
        got = phrase(c)
        if got is not None and c.i > start:
            return got
        c.i = start
        del c.counts[counted:]
    if (
        (c.t[start].kind == "work" and c.look().kind != "work")
        or (c.t[start].kind == "place" and c.look().kind == "n")
        or (c.t[start].kind == "beg" and c.look().kind in ("n", "with", "by", "off", "st", "in"))
    ):
        c.i += 1
        c.drop("idle", "the", "of", "with", "by", "off") if c.t[start].kind == "beg" else c.drop("idle", "the", "of")
        if c.kind == "a" and c.look().kind == "mring":
            c.i += 1
        got = one(c)
        if got is not None:
            return got
        c.i = start
    return manners.manner(c)


_BY_NEEDLE = frozenset("sew sewing sewn tacking basting weave weaving embroider tassel glue pinch".split())  # noqa: SIM905
_SHUT = frozenset((")", "]", "}"))


def steps(c: Cursor, end: int) -> None:
    """Read steps up to token `end` into the cursor's innermost frame."""
    out = c.out
    t = c.t
    while c.i < end:
        start = c.i
        kind = t[start].kind
        if kind in GLUE:
            if kind in (":", "-", ",", "/", ";"):
                got = counts.after_mark(c) if kind in ("/", "-") else None
                got = counts.trailing(c) if got is None and kind != "/" else got
                if got is not None and c.i > start:
                    out.extend(got)
                    continue
            if t[start].val in ("when", "there") and (told := counts.sentence(c)) is not None:
                out.extend(told)  # "…, when you should have 6 loops"
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
        if _begins_sentence(t, start):
            alone = plainly_on.colour_alone(c) if not out else None
            if alone is not None:
                out.extend(alone)
                continue
            yarn = colours.now_with(c)
            if yarn is not None:
                out.append(yarn)
                continue
            if _said_apart(c, end):
                continue
        if toys.careful(c):
            advice = set_aside(c, toys.advice_ends(c, stop_of(c, end)))
            out.extend(_after_chain(c) if out and type(out[-1]).__name__ == "Chain" else ())
            out.append(advice)
            continue
        got = one(c)
        if got is not None:
            got = lace_moves.listed_before_place(c, got)
            announced.taken_in_turn(c, got)
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


def _begins_sentence(t: list[Token], at: int) -> bool:
    led_in = at > 0 and t[at - 1].kind == "then" and (at == 1 or t[at - 2].kind == ".")
    return at == 0 or led_in or t[at - 1].kind in (".", ";") or (t[at - 1].kind in _SHUT and t[at].text[:1].isupper())


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
    if _unknown_stitch(c, start, words):
        return [Unread(id=c.id(), span=c.span(start))]
    if sum(t.kind == "w" for t in words) >= 2 and not any(t.kind in CRAFT or t.kind == "n" for t in words):
        return [Aside(id=c.id(), span=c.span(start))]
    if not any(t.kind in CRAFT or t.kind in ("n", "o", "next", "each", "last", "same") for t in words):
        return [Aside(id=c.id(), span=c.span(start))]
    return [Unread(id=c.id(), span=c.span(start))]


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
