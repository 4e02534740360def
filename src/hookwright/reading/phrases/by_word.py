"""Which phrases may begin with which kind of word, in the order in which they are tried."""

from __future__ import annotations

from collections.abc import Callable

from ...pattern import Step
from . import (
    alike,
    announced,
    asides,
    bare,
    begins_as,
    bracket_remarks,
    chains,
    coloured,
    colours,
    copies,
    counts,
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
    group_names,
    groups,
    growing,
    halves,
    joined_on,
    joins,
    lace_moves,
    last_replaced,
    lasts,
    left_together,
    longhand,
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
    rows_kept_on,
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
    tricot,
    tricot_told,
    turns,
    uncounted,
    unit_repeats,
    untils,
)
from .cursor import Cursor

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
    lace_moves.slipped_along,
    joins.closing,
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
    return (unit_repeats.go_on(c) or more_rows.proceed(c)) if c.t[c.i].val in ("go", "proceed") else None


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
        tricot_told.how_many,
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
        joins.closing,
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
        joins.closing,
        shaping.change,
        stitches.stitch,
    ),
    "st": _STITCH,
    "grp": (group_names.name_made, crossings.crossing, stitches.stitch),
    "ch": (alike.both_alike, chains.a_multiple, chains.chain),
    "loop": (row_loops.row_loop, together.at_place, shaping.change, stitches.stitch),
    "front": (stitches.stitch,),
    "back": (farside.back_along, colours.back_to, stitches.stitch),
    "raised": (stitches.stitch,),
    "corner": (asides.treated_alike, groups.corner_again),
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
    "skip": (asides.instead, shaping_spots.missed_at, tricot.nearest_missed, tricot.from_second, skipping.skip),
    "leave": (passes.loops_kept, longhand.longhand, skipping.leave),
    "turn": (turns.turn,),
    "not": (ends.not_fastened, skipping.rest_unworked, turns.turn, joins.join, moves.not_made),
    "join": (
        last_replaced.last_replaced,
        manners.manner,
        ends_joined.ends_joined,
        joined_on.joins_to_piece,
        shutting.shut_hole,
        chains.ring,
        colours.colour,
        joins.join,
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
    "counts": (tricot_told.loops_until, counts.sentence),
    "counter": (counts.sentence,),
    "multiple": (chains.a_multiple,),
    "the": (
        alike.both_alike,
        tricot_told.loop_there,
        tricot.the_others,
        tricot_told.loops_until,
        row_loops.row_loop,
        old_books.formed_of_chain,
        edges.this_does,
        lasts.last_of_run,
        lasts.last_is,
        asides.treated_alike,
        filet.filet,
        references.refer,
        counts.sentence,
        bracket_remarks.skipped_sentence,
        together.worked_in,
    ),
    "same": (motifs.as_motif, sides.side_before, references.refer, together.at_place),
    "as": (references.refer,),
    "row": (plain_rows.plain_row, references.refer),
    "rnd": (plain_rows.plain_row, references.refer),
    "cont": (
        rows_kept_on.kept_on,
        passes.loops_kept,
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
    "both": (alike.both_alike,),
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
        uncounted.extra_at_corners,
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
    "place": (stitches.laid, lasts.last_of_run, markers.marker),
    "marker": (markers.marker,),
    "stuff": (shaping_spots.spaces_filled, moves.stuff),
    "pass": (passes.a_pass,),
    "by": (tricot_told.by_taking,),
    "pull": (
        tricot_told.drawn_off,
        passes.way_back,
        left_together.left_together,
        left_together.drawn_together,
        passes.loop_up,
        shutting.draw_through,
        longhand.longhand,
    ),
    "w": (
        alike.both_alike,
        exceptions.including,
        asides.treated_alike,
        stitches.laid,
        ends.turning_chain_omitted,
        row_loops.taking,
        asides.taken_up,
        copies.another,
        shaping_spots.taken_together,
        manners.so_placed,
        left_together.left_together,
        left_together.drawn_together,
        exceptions.at_every,
        passes.put_through,
        passes.loops_kept,
        tricot.raised,
        passes.way_back,
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
        rows_kept_on.kept_on,
        skipping.rest_unworked,
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
    "insert": (tricot.inserted_together, passes.put_through, passes.loop_up, longhand.longhand),
    "ending": (last_replaced.last_replaced, lasts.stops_after, row_ends.ending_row, moves.ending),
    "end": (
        last_replaced.last_replaced,
        lasts.stops_after,
        manners.last_in_colour,
        motifs.finish,
        row_ends.ending_row,
        sides.side_before,
        moves.ending,
    ),
    "idle": (row_loops.row_loop, edges.this_does, unit_repeats.whole_times, counts.sentence),
    "once": (stitches.once_more, unit_repeats.whole_times),
    "from": (direction.direction, repeats.between, together.at_place),
    "beg": (
        begins_as.begins_as,
        moves.begin_to_shape,
        tricot.from_second,
        chains.commenced,
        stitches.begun_group,
        pieces.goes_on_from,
        edges.along_edge,
        references.refer,
        stitches.stitch,
        together.at_place,
        moves.starting_at,
    ),
    "last": (tricot.the_others, lasts.last_of_run, lasts.last_is, references.refer, together.at_place),
    "but": (exceptions.at_every, _but),
    "to": (passes.way_back, follows.to_make),
    "until": (
        tricot_told.loops_until,
        untils.still_until,
    ),
    "hook": (moves.tool,),
    "for": (asides.for_which_part, moves.for_this_row, moves.headed_for, counts.for_total, moves.for_rows),
    "or": (moves.alternative,),
    "o": (asides.named_shaping, old_books.formed_of_chain, references.refer, moves.half),
    "having": (pairs.so_many_pairs, longhand.longhand, exceptions.exception, moves.having),
    "mesh": (more_rows.mesh_over_mesh,),
    "sp": (filet.filet,),
    "group": (filet.filet,),
    "alt": (unit_repeats.alternated, colours.stripes, references.refer),
    "without": (shaped_by.without,),
    "shaping": (sides.shaped_as,),
    "work": (
        stitches.laid,
        alike.both_alike,
        markers.marker,
        passes.put_through,
        begins_as.begins_as,
        farside.back_along,
        shaping_spots.taken_together,
        pairs.worked_together,
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
        runs.run,
        moves.rows_of,
        moves.more_pieces,
        plainly_on.even,
        together.at_place,
    ),
}

_BEGINS_HALF = frozenset(("work", "cont", "complete", "w", "rep", "reversing", "same", "end", "o", "other", "the"))
"""How a row's second half may begin to be told by its first."""
_BEGINS_GROWTH = frozenset(("w", "each", "the", "inc", "dec", "with", "(", "[", "a", "more", "n", "skip", "counter", "having", "idle"))
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
