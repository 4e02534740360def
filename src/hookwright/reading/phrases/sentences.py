"""The loop that reads a row: one phrase after another, by the kind of word that stands next; what fits none is set aside or unread."""

from __future__ import annotations

from collections.abc import Callable

from ...pattern import LIMITS, Aside, Step, Unread
from . import (
    asides,
    bare,
    chains,
    colours,
    copies,
    counts,
    direction,
    each_row,
    edges,
    ends,
    farside,
    filet,
    groups,
    growing,
    lace_moves,
    lasts,
    longhand,
    motifs,
    moves,
    old_books,
    passes,
    pieces,
    references,
    repeats,
    row_ends,
    runs,
    shaping,
    shutting,
    sides,
    stitches,
    together,
    toys,
    uncounted,
)
from .cursor import Cursor
from .shapes import GLUE

Phrase = Callable[[Cursor], "list[Step] | None"]

_STITCH: tuple[Phrase, ...] = (shaping.doubled, uncounted.edge_run, lace_moves.travel, moves.closing, shaping.change, stitches.stitch)
_PLACE: tuple[Phrase, ...] = (uncounted.facing, lasts.last_of_run, moves.in_pattern, together.rows_below, colours.colour, together.at_place)


def _going_on(c: Cursor) -> list[Step] | None:
    return repeats.go_on(c) if c.t[c.i].val in ("go", "proceed") else None


PHRASES: dict[str, tuple[Phrase, ...]] = {
    "n": (
        bare.colour_block,
        filet.filet,
        references.one_more,
        colours.stripes,
        counts.trailing,
        repeats.whole_times,
        groups.prefixed,
        chains.chain,
        uncounted.edge_run,
        shaping.change,
        moves.closing,
        stitches.stitch,
        bare.bare_number,
    ),
    "a": (filet.filet, colours.colour, moves.rows_of, chains.chain, moves.closing, shaping.change, stitches.stitch),
    "st": _STITCH,
    "grp": (groups.name_made, stitches.stitch),
    "ch": (chains.a_multiple, chains.chain),
    "loop": (together.at_place, shaping.change, stitches.stitch),
    "front": (stitches.stitch,),
    "back": (stitches.stitch,),
    "inc": (each_row.growing_told, growing.in_manner, shaping.change),
    "dec": (shaping.every_pair, each_row.growing_told, growing.in_manner, shaping.change),
    "skip": (moves.skip,),
    "leave": (longhand.longhand, moves.leave),
    "turn": (moves.turn,),
    "not": (ends.not_fastened, moves.turn, moves.join, moves.not_made),
    "join": (chains.ring, colours.colour, moves.join),
    "mring": (chains.ring,),
    "foff": (ends.fasten,),
    "rep": (growing.in_manner, references.by_name, references.refer, repeats.repeat, repeats.of_group),
    "*": (repeats.star,),
    "(": (bare.bracketed_repeat, groups.bracket),
    "[": (bare.bracketed_repeat, groups.bracket),
    "{": (bare.bracketed_repeat, groups.bracket),
    "=": (counts.trailing, references.refer),
    ":": (counts.trailing,),
    "total": (counts.sentence,),
    "counts": (counts.sentence,),
    "counter": (counts.sentence,),
    "multiple": (chains.a_multiple,),
    "the": (
        old_books.formed_of_chain,
        edges.this_does,
        lasts.last_of_run,
        filet.filet,
        references.refer,
        counts.sentence,
        groups.skipped_sentence,
        together.worked_in,
    ),
    "same": (motifs.as_motif, sides.side_before, references.refer, together.at_place),
    "as": (references.refer,),
    "row": (references.refer,),
    "rnd": (references.refer,),
    "cont": (
        pieces.goes_on_from,
        together.at_place,
        moves.completing,
        edges.along_edge,
        growing.in_manner,
        shaping.going_on,
        sides.side_before,
        references.refer,
        runs.run,
        repeats.carried_on,
        moves.even,
        repeats.go_on,
    ),
    "even": (moves.even,),
    "change": (colours.colour,),
    "attach": (colours.colour,),
    "drop": (colours.colour,),
    "pick": (colours.colour,),
    "carry": (colours.colour,),
    "color": (colours.colour,),
    "in": (old_books.with_thread, stitches.goes_on, *_PLACE),
    "with": (old_books.with_thread, *_PLACE),
    "over": (together.rows_below, together.at_place),
    "behind": (together.rows_below,),
    "before": (together.rows_below,),
    "between": (repeats.between, together.at_place),
    "around": (together.at_place,),
    "along": (together.at_place,),
    "at": (moves.at_next_rows, together.at_place),
    "next": (together.at_place,),
    "each": (each_row.having_more, stitches.goes_on, together.at_place),
    "place": (lasts.last_of_run, moves.marker),
    "marker": (moves.marker,),
    "stuff": (moves.stuff,),
    "pass": (passes.a_pass,),
    "pull": (passes.loop_up, shutting.draw_through, longhand.longhand),
    "w": (
        stitches.own_stitch,
        motifs.finish,
        lace_moves.complete_group,
        old_books.open_crochet,
        farside.rotated,
        edges.this_does,
        filet.filet,
        repeats.whole_times,
        _going_on,
        colours.colour,
        moves.marker,
        sides.side_before,
        references.refer,
        counts.sentence,
        stitches.stitch,
        longhand.longhand,
        moves.completing,
    ),
    "yo": (longhand.longhand,),
    "insert": (passes.loop_up, longhand.longhand),
    "ending": (row_ends.ending_row, moves.ending),
    "end": (motifs.finish, row_ends.ending_row, sides.side_before, moves.ending),
    "idle": (edges.this_does, repeats.whole_times, counts.sentence),
    "once": (repeats.whole_times,),
    "from": (direction.direction, repeats.between, together.at_place),
    "beg": (pieces.goes_on_from, edges.along_edge, stitches.stitch, together.at_place, moves.starting_at),
    "last": (lasts.last_of_run, references.refer, together.at_place),
    "hook": (moves.tool,),
    "for": (counts.for_total, moves.for_rows),
    "or": (moves.alternative,),
    "o": (old_books.formed_of_chain, references.refer, moves.half),
    "having": (moves.having,),
    "sp": (filet.filet,),
    "group": (filet.filet,),
    "alt": (colours.stripes, references.refer),
    "work": (
        shaping.every_pair,
        asides.over_tail,
        asides.instead,
        motifs.as_motif,
        edges.along_edge,
        copies.another,
        uncounted.edge_run,
        lasts.last_of_run,
        sides.side_before,
        references.refer,
        shaping.worked_together,
        runs.run,
        moves.rows_of,
        moves.more_pieces,
        moves.even,
        together.at_place,
    ),
}

MOST_STEPS = LIMITS.steps // 10
CRAFT = frozenset(("st", "ch", "skip", "inc", "dec", "turn", "join", "grp", "rep", "foff", "mring", "tog", "leave", "rem"))
_BREAKS = frozenset((",", ";", ".", "", "(", "[", "{", ")", "]", "}", "*", ":", "then"))


def one(c: Cursor) -> list[Step] | None:
    """The steps of the one phrase that begins here, or None with the cursor unmoved."""
    start = c.i
    counted = len(c.counts)
    for phrase in PHRASES.get(c.t[start].kind, ()):
        got = phrase(c)
        if got is not None and c.i > start:
            return got
        c.i = start
        del c.counts[counted:]
    if c.t[start].kind == "work" or (c.t[start].kind == "beg" and c.look().kind in ("n", "with", "by", "off", "st", "in")):
        c.i += 1
        c.drop("idle", "the", "of", "with", "by", "off") if c.t[start].kind == "beg" else c.drop("idle", "the", "of")
        if c.kind == "a" and c.look().kind == "mring":
            c.i += 1
        got = one(c)
        if got is not None:
            return got
        c.i = start
    return None


_SHUT = frozenset((")", "]", "}"))


def steps(c: Cursor, end: int) -> None:
    """Read steps up to token `end` into the cursor's innermost frame."""
    out = c.out
    t = c.t
    while c.i < end:
        start = c.i
        kind = t[start].kind
        if kind in GLUE:
            if kind in (":", "-", ","):
                got = counts.trailing(c)
                if got is not None and c.i > start:
                    out.extend(got)
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
        if start == 0 or t[start - 1].kind in (".", ";") or (t[start - 1].kind in _SHUT and t[start].text[:1].isupper()):
            aside = _prose(c, end)
            if aside is not None:
                out.append(aside)
                continue
        if toys.careful(c):
            out.append(_set_aside(c, _stop(c, end)))
            continue
        got = one(c)
        if got is not None:
            got = lace_moves.listed_before_place(c, got)
            ring = chains.ring(c) if got and type(got[-1]).__name__ == "Chain" else None
            out.extend(got)
            if ring is None and got and type(got[-1]).__name__ == "Chain":
                out.extend(_after_chain(c))
            elif ring is not None:
                out.extend(ring)
            continue
        c.i = start
        out.extend(unread(c, end))
    c.i = max(c.i, end)


def _after_chain(c: Cursor) -> list[Step]:
    """The chain now stands in the steps: it may be joined into a ring."""
    begin = c.i
    c.drop(",", "and", "then", ".", ";")
    ring = chains.ring(c)
    if ring is None:
        c.i = begin
        return []
    return ring


_YOU = frozenset(
    [
        "you",
        "your",
        "i",
        "we",
        "they",
        "he",
        "she",
        "it's",
        "you'll",
        "i'm",
        "i've",
        "if",
        "because",
        "since",
        "when",
        "once",
        "so",
        "this",
        "that",
        "there",
        "here",
        "just",
        "tip",
        "hint",
        "note",
        "nb",
        "photo",
        "picture",
        "see",
        "shown",
        "illustrated",
        "optional",
        "size",
        "sizes",
        "fits",
        "measure",
        "hope",
        "enjoy",
        "happy",
        "thank",
        "thanks",
        "please",
        "click",
        "follow",
        "video",
        "tutorial",
        "below",
        "pattern",
        "rights",
        "copyright",
        "feel",
        "free",
        "want",
        "like",
        "love",
        "great",
        "looks",
        "look",
        "make",
        "sure",
        "remember",
        "don't",
        "using",
        "use",
    ]
)


def _prose(c: Cursor, end: int) -> Aside | None:
    """A sentence of plain prose (tip, caption, advice) from here to its full stop, or None."""
    k = c.i
    words = strong = craft = 0
    first = c.t[k]
    if toys.made_up(c, end) or toys.seamed(c, end):
        return _set_aside(c, _stop(c, end))
    if (
        (c.ctx.filet and first.kind in ("sp", "group"))
        or (first.val == "single" and c.look().val == "open")
        or first.val in ("complete", "finish")
    ):
        return None
    loop = next((t for t in c.t[k : min(end, k + 12)] if t.kind == "loop"), None)
    if loop is not None and any(t.val in ("hereafter", "throughout", "henceforth", "always") for t in c.t[k : min(end, k + 14)]):
        c.told["hereafter_loop"] = str(loop.val)  # "Hereafter work in back loop only."
        c.loop = "" if loop.val == "both" else str(loop.val)
        return _set_aside(c, _sentence(c, end))
    if (
        first.kind in ("w", "place", "insert")
        and first.val in _OTHER_WORK
        and not (first.val in ("tie", "draw") and c.look().kind in ("off", "from"))
    ):
        return _set_aside(c, _sentence(c, end))
    if (
        first.kind in ("o", "row", "rnd", "the", "n")
        and any(c.t[j].kind in ("patt",) or c.t[j].val in ("form", "forms", "establish") for j in range(k, _stop(c, end)))
        and not any(c.t[j].kind in ("st", "ch", "rep") for j in range(k, _stop(c, end)))
    ):
        return _set_aside(c, _stop(c, end))
    if first.kind in (
        "st",
        "n",
        "ch",
        "inc",
        "dec",
        "turn",
        "join",
        "skip",
        "*",
        "(",
        "[",
        "rep",
        "foff",
        "grp",
        "in",
        "with",
        "mring",
        "attach",
        "change",
        "leave",
    ):
        return None
    while k < end and c.t[k].kind not in (".", "!"):
        token = c.t[k]
        if token.kind in ("w", "idle"):
            words += 1
            if token.val in _YOU:
                strong += 1
        elif token.kind in ("st", "ch", "inc", "dec", "skip", "grp", "rep", "*", "n"):
            craft += 1
        k += 1
    if (
        craft == 0
        and words >= 2
        and not any(
            c.t[j].kind
            in (
                "work",
                "even",
                "turn",
                "join",
                "foff",
                "attach",
                "change",
                "not",
                "patt",
                "total",
                "noun",
                "stuff",
                "marker",
                "loop",
                "cont",
                "rest",
            )
            for j in range(c.i, k)
        )
    ):
        return _set_aside(c, k)
    if (
        first.kind in ("w", "idle", "the")
        and (first.val in ("note", "nb", "tip", "hint", "optional", "if", "for", "photo") or strong >= 2)
        and words > craft
    ):
        if any(c.t[j].kind == "n" for j in range(c.i, k)) and counts.sentence(c) is not None:
            return Aside(id=c.id(), span=c.span(c.i - 1))
        return _set_aside(c, k)
    return None


_OTHER_WORK = frozenset(
    [
        "sew",
        "cut",
        "wind",
        "thread",
        "weave",
        "glue",
        "block",
        "press",
        "steam",
        "pin",
        "fold",
        "trim",
        "knot",
        "tack",
        "lace",
        "fit",
        "embroider",
        "arrange",
        "stretch",
        "starch",
        "iron",
        "seam",
        "gather",
        "whip",
        "whipstitch",
        "overcast",
        "dampen",
        "lay",
        "stitch",
        "tuck",
        "wash",
        "position",
        "pull-on",
        "sew-on",
        "tie",
        "attach-eyes",
        "add",
        "decorate",
        "shape-with",
        "wet",
        "dip",
        "stiffen",
        "mount",
        "hem",
        "line",
        "pad",
        "slip-on",
        "paint",
        "spray",
        "baste",
        "match",
        "measure",
        "fringe",
        "tassel",
        "finishing",
    ]
)


def _sentence(c: Cursor, end: int) -> int:
    k = c.i
    while k < end and c.t[k].kind not in (".", "!"):
        k = max(k + 1, c.close.get(k, k) + 1) if c.t[k].kind in ("(", "[") else k + 1
    return min(k, end)


def _stop(c: Cursor, end: int) -> int:
    k = c.i
    while k < end and c.t[k].kind not in (".", "!", ";"):
        k += 1
    return k


def _set_aside(c: Cursor, upto: int) -> Aside:
    start = c.i
    c.i = max(upto, start + 1)
    return Aside(id=c.id(), span=c.span(start))


_HARMLESS = frozenset(
    (
        "w",
        "idle",
        "the",
        "a",
        "for",
        "with",
        "of",
        "as",
        "to",
        "color",
        "work",
        "piece",
        "side",
        "around",
        "yo",
        "hook",
        "and",
        "but",
        "or",
        "noun",
        "in",
        "all",
        "both",
        "over",
        "sides",
        "counts",
        "now",
        "patt",
        "row",
        "rnd",
        "place",
        "marker",
        "color",
        "even",
        "total",
        "shaping",
        "on",
        "at",
        "by",
        "without",
        "from",
        "until",
        "before",
        "after",
        "multiple",
        "front",
        "back",
        "tail",
        "end",
        "beg",
        "having",
        "cont",
        "corner",
        "base",
        "top",
        "free",
        "ring",
        "!",
        "?",
        '"',
        "'",
        "/",
        "_",
        "=",
        "-",
        "%",
        "#",
        "&",
        "<",
        ">",
        "~",
        "...",
        "|",
    )
)


def unread(c: Cursor, end: int) -> list[Step]:
    """Words that fit no phrase, up to the next break: set aside when nothing of the craft is in them, else unread."""
    start = c.i
    c.i += 1
    while c.i < end and c.t[c.i].kind not in _BREAKS:
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
    told_elsewhere = words[0].kind == "work" or words[0].val in ("complete", "finish") or any(t.kind in ("same", "as") for t in words[1:])
    if told_elsewhere and len(words) > 2 and any(t.kind in ("same", "as", "across", "over", "prev", "patt") for t in words):
        return [
            Unread(id=c.id(), span=c.span(start))
        ]  # "work same as first half": what to do is told elsewhere, in words not followed here
    if sum(t.kind == "w" for t in words) >= 2 and not any(t.kind in CRAFT or t.kind == "n" for t in words):
        return [Aside(id=c.id(), span=c.span(start))]
    if not any(t.kind in CRAFT or t.kind in ("n", "o", "next", "each", "last", "same") for t in words):
        return [Aside(id=c.id(), span=c.span(start))]
    return [Unread(id=c.id(), span=c.span(start))]
