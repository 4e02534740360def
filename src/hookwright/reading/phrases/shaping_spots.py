"""Shapings told by where on the piece they come: "decreasing 2 sts at toe and 2 at heel", "narrowing once in the middle", "taking 2 s c
together twice at center of heel". How many is certain; which stitches they are is the maker's choice."""

from __future__ import annotations

from ...pattern import ONE, Aside, Chain, Colour, Make, Place, Shape, Sized, Step, Turn, Unread
from .cursor import Cursor
from .limits import limit
from .nouns import noun
from .numbers import number, times_word
from .places import spot
from .shapes import make
from .spots import CLOSE, Spot

EXAMPLES = (
    ("sc in each st, decreasing 2 sts at toe and 2 sts at heel", "sc×rest, shape−4 evenly"),
    ("sc in each st, narrowing once in the middle", "sc×rest, shape−1 evenly"),
    ("sc in each st, missing 1 at each end", "sc×rest, shape−1 each_end"),
    ("sc in each st, skipping the first and last st", "sc×rest, shape−1 each_end"),
    ("skip first and last sc of each row", "shape−1 each_end"),
    ("sc in each st, inc 1 sc in the first and last sc", "sc×rest, shape+1 each_end"),
    ("fill each space with 4 sc", "4sc×rest@next sp"),
)
SPOTS_OF_PIECES = frozenset(
    [
        "toe",
        "toes",
        "heel",
        "heels",
        "instep",
        "ankle",
        "thumb",
        "crown",
        "neck",
        "front",
        "back",
        "shoulder",
        "underarm",
        "point",
        "tip",
        "middle",
        "center",
        "waist",
        "armhole",
        "hip",
        "knee",
        "wrist",
        "palm",
        "sole",
        "gusset",
        "fold",
    ]
)
_ENDS = CLOSE | {"and", "turn", "each", "until", "for", "on"}


def so_many_at(c: Cursor, told: Sized[int] | None) -> Sized[int] | None:
    """From behind "dec (2 sts)": "at toe and 2 sts at heel", "twice at heel", "in the middle": how many in all. None with the cursor
    unmoved."""
    begin = c.i
    often = times_word(c)
    if often is None and told is None and c.kind != "at":
        return None
    many = _spot(c, told or Sized((often or 1,)))
    while many is not None and c.kind in ("and", ","):
        back = c.i
        c.i += 1
        c.drop("and")
        more = number(c)
        more = more or (Sized((word,)) if (word := times_word(c)) is not None else None)
        if c.kind in ("noun", "st"):
            noun(c)
        added = _spot(c, more) if more is not None else None
        if added is None:
            c.i = back
            break
        many = Sized(tuple((a or 0) + (added.at(k) or 0) for k, a in enumerate(many.values)))
    if many is None or c.kind not in _ENDS:
        c.i = begin
        return None
    return many


def _spot(c: Cursor, each: Sized[int]) -> Sized[int] | None:
    """ "At (the) (center of) toe", "at each side of heel", "in the middle": `each` times how many such spots there are."""
    if c.kind not in ("at", "in"):
        return None
    c.i += 1
    c.drop("the")
    sides = 1
    if c.kind in ("each", "both") and c.look().kind == "side" and c.look(2).kind == "of":
        c.i += 3
        sides = 2
    elif c.kind in ("center", "top", "side", "end") and c.look().kind == "of":
        c.i += 2
    c.drop("the")
    if c.kind != "center" and c.t[c.i].text.lower() not in SPOTS_OF_PIECES:
        return None
    c.i += 1
    c.take("of") and c.drop("row", "rnd", "the", "piece")  # type: ignore[func-returns-value]
    return Sized(tuple(None if n is None else n * sides for n in each.values))


def first_and_last(c: Cursor, k: int) -> int:
    """The token behind "(inc in) the first and last st", "first sc and in the last sc" at token `k`; 0 where nothing such stands."""
    told = [j for j in range(k, min(k + 9, len(c.t))) if c.t[j].kind not in ("the", "in")]
    if len(told) > 4 and c.t[told[1]].kind in ("st", "noun"):
        del told[1]
    kinds = [c.t[j].kind for j in told[:4]]
    if len(told) < 4 or kinds[1:3] != ["and", "last"] or kinds[3] not in ("st", "noun") or (kinds[0], c.t[told[0]].val) != ("o", 1):
        return 0
    return told[3] + 1


def worked_twice(c: Cursor) -> list[Step] | None:
    """ "Work twice in every second stitch", "work 2 in 1 all round": the piece's own stitch, so many in a place."""
    from .shaping import every_so_many

    start = c.i
    if any(not isinstance(step, (Aside, Colour)) for step in c.out):
        return None
    c.i += 1
    often = times_word(c)
    told = Sized((often,)) if often is not None else number(c)
    main = c.main or "sc"
    if told is None or told == ONE or c.kind != "in":
        c.i = start
        return None
    if c.look().val == 1 and c.look(2).kind in ("around", "across", "all"):
        c.i += 2
        limit(c)
        return [make(c, start, main, each=told, found=Spot(Place(), "rest"), main=main)]
    found = spot(c)
    if found is None or not found.each or c.kind not in CLOSE:
        c.i = start
        return None
    if found.every > 1:
        return every_so_many(c, start, make(c, start, main, each=told, found=Spot(Place()), main=main), found.every, main)
    return [make(c, start, main, each=told, found=found, main=main)]


_AS_NEEDED = frozenset("enough flat necessary needed required frequently sufficiently".split())  # noqa: SIM905


def as_needed(c: Cursor) -> list[Step] | None:
    """ "Increasing often enough to keep the work flat": how many is left to the maker, so that the row's count is not known."""
    start = end = c.i
    while c.t[end].kind not in CLOSE and c.t[end].kind:
        end += 1
    if not _AS_NEEDED & {t.text.lower() for t in c.t[start:end]} or any(t.kind == "n" for t in c.t[start:end]):
        return None
    c.i = end
    return [Unread(id=c.id(), span=c.span(start))]


def spaces_filled(c: Cursor) -> list[Step] | None:
    """ "Fill each space with 4 s c": so many in every one."""
    start = c.i
    c.i += 1
    if c.t[start].text.lower() in ("fill", "filling") and c.take("each", "all"):
        c.drop("the")
        what = noun(c)
        told = number(c) if what is not None and what.endswith("sp") and c.take("with") else None
        if told is not None and c.kind == "st":
            kind = c.us(str(c.t[c.i].val))
            c.i += 1
            c.drop("around", "across")
            return [Make(id=c.id(), span=c.span(start), stitch=kind, each=told, places="rest", at=Place(what=what or "sp"))]
    c.i = start
    return None


def taken_together(c: Cursor) -> list[Step] | None:
    """ "(1 s c in each,) taking 2 together two times at the heel, two times at the toe", "working 2 together at each side of
    toe": from the verb on, behind a run that goes all along."""
    start = c.i
    alone = all(isinstance(step, (Aside, Colour)) for step in c.out)
    if not _behind_run(c) and not alone:
        return None
    c.i += 1
    told = number(c)
    if told != Sized((2,)):
        c.i = start
        return None
    if c.kind in ("noun", "st"):
        noun(c)
    if not (c.take("tog") or (c.kind == "as" and c.look().text.lower() in ("one", "1") and c.take("as") and c.take("n"))):
        c.i = start
        return None
    if c.kind in ("at", "in") and c.look().kind == "each" and c.look(2).kind == "o" and c.look(3).kind in ("noun", "st"):
        from .shaping import every_so_many

        every, kind = int(c.look(2).val), c.main or "sc"
        c.i += 4
        return every_so_many(c, start, make(c, start, f"{kind}2tog", found=Spot(Place()), closes=2, main=kind), every, kind)
    begin = c.i
    if c.take("at") and c.take("each", "both") and c.take("end", "ends", "side"):
        if c.take("of"):
            c.drop("the", "each", "every", "row", "rnd")
        if c.kind in CLOSE or c.kind == "until":
            return [Shape(id=c.id(), span=c.span(start), change=Sized((-1,)), where="each_end")]
    c.i = begin
    many = None if alone else so_many_at(c, None if c.kind == "once" else ONE)
    if many is None:
        c.i = start
        return None
    return [_fewer(c, start, many)]


def missed_at(c: Cursor) -> list[Step] | None:
    """ "(1 s c in each,) missing 1 at each end", "skipping 1 st at center of toe and 1 at center of heel"."""
    start = c.i
    if (ends := _first_and_last(c)) is not None:
        return ends
    if not _behind_run(c):
        return None
    c.i += 1
    told = number(c)
    if told is None:
        c.i = start
        return None
    if c.kind in ("noun", "st"):
        noun(c)
    begin = c.i
    if c.take("at", "in") and c.take("each", "both") and c.take("end", "ends", "side") and c.kind in CLOSE:
        less = Sized(tuple(None if n is None else -n for n in told.values))
        return [Shape(id=c.id(), span=c.span(start), change=less, where="each_end")]
    c.i = begin
    many = so_many_at(c, told)
    if many is None:
        c.i = start
        return None
    return [_fewer(c, start, many)]


def _first_and_last(c: Cursor) -> list[Step] | None:
    """ "Sk first and last sc of each row", "(sc across,) skipping the first and last st": one less at each end, where nothing else is told
    of the row but its run. None with the cursor unmoved."""
    start = c.i
    begun = next((step for step in c.out if not isinstance(step, (Aside, Colour, Chain, Turn))), None)
    if begun is not None and not _behind_run(c):
        return None
    c.i += 1
    c.take("the")
    first = c.take("o")
    c.take("st", "noun")
    named = first is not None and first.val == 1 and c.take("and") is not None
    c.take("the")
    if not named or not c.take("last") or noun(c) is None:
        c.i = start
        return None
    if c.kind in ("of", "in", "on", "each"):
        c.drop("of", "in", "on", "each")
        named = c.take("row", "rnd", "time", "times") is not None
    if not named or c.kind not in CLOSE or c.kind in ("around", "across") or (c.kind in (",", ";") and begun is None):
        c.i = start
        return None
    return [Shape(id=c.id(), span=c.span(start), change=Sized((-1,)), where="each_end")]


def _fewer(c: Cursor, start: int, many: Sized[int]) -> Shape:
    less = Sized(tuple(None if n is None else -n for n in many.values))
    return Shape(id=c.id(), span=c.span(start), change=less, where="evenly")


def _behind_run(c: Cursor) -> bool:
    last = c.out[-1] if c.out else None
    return isinstance(last, Make) and last.places == "rest" and not any(last.but.values) and not last.upto
