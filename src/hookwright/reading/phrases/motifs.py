"""Motifs joined as they are made: loops of another motif, and a round finished as the first motif's was."""

from __future__ import annotations

from ...pattern import Even, Make, Refer, Sized, Step, Together
from .cursor import Cursor
from .joined_on import PIECES
from .row_lists import one_row

EXAMPLES = (
    ("ch 3, sl st in corresponding loop of previous motif, ch 3", "ch3, sl st@marked piece, ch3"),
    (
        "ch 1, sl st in corner ch-3 sp of Motif 1, ch 1, sc in matching sp of previous square",
        "ch1, sl st@marked piece, ch1, sc@marked piece",
    ),
    ("ch 3, dc in next 2 dc, finish same as 2nd row", "ch3, dc×2@next dc, as rows 2 to end"),
    ("ch 1, sl st in next lp of 1st Motif, ch 1, 3 dc in next lp of 2d Motif", "ch1, sl st@marked piece, ch1, 3dc@next sp"),
)

_PIECES = PIECES
_FIRST = frozenset(
    "first previous adjacent adjoining neighbouring neighboring neighbour neighbor preceding former other another one completed finished "  # noqa: SIM905
    "joined existing".split()
)
_DONE = frozenset("made completed finished joined worked done".split())  # noqa: SIM905
_ONES = frozenset((1, "one", "a", "A", "I"))
_OWN = frozenset(("second", "same", "this", "new", "present"))


def of_motif(c: Cursor, at: dict[str, object]) -> bool:
    """ "(in next loop) on First Motif" is a place of another piece, "of 2d Motif" and "of this motif" of the one at hand."""
    start = c.i
    if c.kind not in ("of", "in", "on", "from"):
        return False
    c.i += 1
    c.i += c.t[c.i].val == "the"
    c.i += c.kind in ("a", "any") or c.t[c.i].text.lower() == "one"
    if c.kind == "corner" and c.look().kind == "of":
        c.i += 2  # "on one corner of 1st Block"
        c.drop("the")
    c.take("corner") if c.look().text.lower() in _PIECES else None
    word, named = c.t[c.i], c.look()
    if word.text.lower() in _PIECES and c.t[c.i - 1].kind in ("corner", "a", "any", "n"):
        c.i += 1  # "on one corner Block", "of any motif"
        at["where"], at["what"] = "marked", "piece"
        return True
    if word.text.lower() in _PIECES and (which := _which(c)) is not None:
        if which:
            at["where"], at["what"] = "marked", "piece"
        return True
    if str(named.val) not in _PIECES and named.text.lower() not in _PIECES:
        c.i = start
        return False
    low = word.text.lower()
    other = low in _FIRST or (word.kind == "o" and word.val == 1) or word.kind in ("prev", "last", "other", "next", "each")
    own = low in _OWN or (word.kind == "o" and word.val != 1) or word.kind == "same" or str(word.val) in ("this", "that")
    if not (other or own):
        c.i = start
        return False
    c.i += 2
    of_the_piece = named.text.lower() in ("block", "blocks") and (word.kind == "next" or _on_own_chain(c))  # worked corner to corner
    if other and not of_the_piece:
        at["where"], at["what"] = "marked", "piece"
    return True


def _which(c: Cursor) -> bool | None:
    """From the piece's name on, "Motif 1", "Square A", "motif No. 2", "square already made": whether it is another than the one at hand;
    None, with the cursor unmoved, where none of them is told so."""
    start = c.i
    c.i += 1
    if c.t[c.i].text.lower() in ("already", "just", "previously") and c.look().text.lower() in _DONE:
        c.i += 2
        return True
    marked = c.kind in ("#", "not") or c.t[c.i].text.lower() in ("number", "no", "no.")
    c.i += marked
    c.i += marked and c.kind == "."
    token = c.t[c.i]
    lettered = len(token.text) == 1 and token.text.isalpha() and token.text.isupper()
    if (token.kind == "n" or lettered) and c.look().kind in _CLOSED:
        c.i += 1
        return token.val in _ONES or token.text in _ONES
    c.i = start
    return None


_CLOSED = frozenset((",", ";", ".", "", "(", ")", "]", "*", "and", "with"))


def _on_own_chain(c: Cursor) -> bool:
    """Whether the row begins with a chain worked back along: its blocks are those of a piece that grows from corner to corner."""
    return any(isinstance(step, Make) and step.at.where == "from_hook" for step in c.frames[0].out)


def first_piece(c: Cursor) -> str | None:
    """ "1st Motif", "first block", where no piece is called so: the pattern's first piece, the cursor behind it."""
    first = c.kind == "o" and c.t[c.i].val == 1
    if not first or c.look().text.lower() not in _PIECES or not c.ctx.parts:
        return None
    c.i += 2
    return c.ctx.parts[0]


def finish(c: Cursor) -> list[Step] | None:
    """ "Finish round same as 1st block", "complete the round as in the first motif": the rest of that piece's round."""
    start = c.i
    if c.t[c.i].val not in ("complete", "finish") and c.kind != "cont":
        return None
    c.i += 1
    c.drop("the", "idle", "of", "group", "w") if c.kind not in ("rnd", "row") else None
    if not c.take("rnd", "row", "around") and c.t[c.i - 1].text.lower() not in _PIECES and not _names_piece(c):
        c.drop("same", "as", "like", "for", "in", "on")
        return _as_row(c, start)
    if c.kind in (".", "", ";", ",") and c.t[c.i - 1].kind in ("row", "rnd") and c.t[start].kind == "end":
        return [Even(id=c.id(), span=c.span(start))]  # "with White finish row": plainly on to its end
    if not c.take("same", "as", "like"):
        c.i = start
        return None
    c.drop("same", "as", "for", "in", "on", "the", "with", "idle")
    from .sides import named_part

    part = named_part(c) or first_piece(c)
    if part is None:
        return _as_row(c, start)
    if c.kind == "(" and c.close.get(c.i) and any(t.kind in ("join", "not") for t in c.t[c.i : c.close[c.i]]):
        c.i = c.close[c.i] + 1
    return [Refer(id=c.id(), span=c.span(start), part=part, rest=True)]


def _as_row(c: Cursor, start: int) -> list[Step] | None:
    """ "(Finish) same as 2nd row", "(complete row) as last row", behind stitches of its own: the rest of that row. The cursor stands before
    the row's name; None, and back at `start`, where none is told or nothing was worked yet."""
    c.drop("the")
    last = c.kind in ("last", "prev") and c.look().kind in ("row", "rnd")
    number = None if last else one_row(c)
    c.i += 2 * last
    worked = any(isinstance(step, (Make, Together)) for step in c.frames[0].out)
    led = any(token.kind in ("same", "as", "like") or token.text.lower() == "like" for token in c.t[start : c.i])
    if not (last or number) or not worked or not led or len(c.frames) > 1 or c.kind not in (",", ";", ".", "", "(", ")", "turn", "join"):
        c.i = start
        return None
    return [Refer(id=c.id(), span=c.span(start), rows=(number,) if number else (), last=int(last), upto="end")]


def _names_piece(c: Cursor) -> bool:
    """ "Finish as for 1st Wheel": what is finished is understood."""
    k = c.i
    while c.t[k].kind in ("same", "as", "for", "the", "in", "idle", "like"):
        k += 1
    return k > c.i and (c.t[k].kind == "o" or c.t[k].text.lower() in ("first", "second")) and c.t[k + 1].text.lower() in _PIECES


def as_motif(c: Cursor) -> list[Step] | None:
    """ "Work same as 1st Motif thru 4th rnd", "make as the first motif until 3 rounds are done": its first rows again."""
    start = c.i
    if c.kind not in ("work", "same", "as"):
        return None
    c.take("work")
    if not c.take("same", "as", "like"):
        c.i = start
        return None
    c.drop("same", "as", "for", "in", "the")
    from .sides import named_part

    part = named_part(c) or first_piece(c)
    count = _so_far(c) if part is not None else None
    if part is None or count is None:
        c.i = start
        return None
    c.told["rows_count"] = Sized((count,))
    return [Refer(id=c.id(), span=c.span(start), part=part, rows=tuple(range(1, count + 1)))]


def _so_far(c: Cursor) -> int | None:
    """ "until 2 rnds are completed", "thru 4th rnd", "to end of 3rd row", "through rnd 5"."""
    through = c.kind in ("over", "to", "until")
    if not through:
        return None
    c.i += 1
    c.drop("the", "end", "of", "and", "w") if c.kind in ("the", "end", "of", "and") or c.t[c.i].val in ("including", "inclusive") else None
    value = None
    if c.kind in ("n", "o") and c.look().kind in ("rnd", "row"):
        value = c.t[c.i].val
        c.i += 2
    elif c.kind in ("rnd", "row") and c.look().kind in ("n", "o"):
        value = c.look().val
        c.i += 2
    if not isinstance(value, int) or not 0 < value < 200:
        return None
    while c.kind in ("counts", "w", "idle", "has", "work") and c.t[c.i].val in (
        "are",
        "is",
        "have",
        "been",
        "completed",
        "complete",
        "made",
        "worked",
        "done",
    ):
        c.i += 1
    return value
