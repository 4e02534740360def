"""Ends, headings, pieces made more of: what moves the work along without making a stitch."""

from __future__ import annotations

from ...pattern import ONE, Aside, Make, Place, Shape, Sized, Step
from ..wording.token import Token
from .cursor import Cursor
from .limits import limit
from .numbers import number
from .places import spot


def for_this_row(c: Cursor) -> list[Step] | None:
    """ "For the second round, ch 3, …", "For the next row, …": which row is told, before its own words."""
    start = c.i
    c.i += 1
    c.drop("the", "idle")
    if c.kind in ("o", "next", "last", "beg") and (c.look().kind in ("row", "rnd") or c.look().text.lower() == "round"):
        c.i += 2
        if c.kind in (",", ":"):
            return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None


def rows_of(c: Cursor) -> list[Step] | None:
    """ "work a row of sc all around", "1 row of sc", "work 2 rounds of sc": the stitch all along."""
    start = c.i
    c.take("work")
    told = number(c) if c.kind == "n" else None
    if told is None and not (c.take("a") or (c.t[c.i].text.lower() == "another" and c.take("the"))):
        c.i = start
        return None
    while c.kind in ("more", "idle", "o", "last") or (c.kind == "w" and c.t[c.i].text.lower() in _WHOLE) or c.t[c.i].val == "plain":
        c.i += 1
    if not c.take("row", "rnd", "around") or not (c.take("of") or c.kind == "st"):
        c.i = start
        return None
    if c.kind == "n" and c.look().kind == "st" and c.look(2).kind in ("", ".", ",", ";", "(", "foff"):
        c.i += 1  # "8 more rows of 10 dc": as many as there are
    if c.kind != "st":
        c.i = start
        return None
    stitch = c.us(str(c.t[c.i].val))
    c.i += 1
    c.drop("noun")
    from .spots import Spot

    found = Spot(Place(), "rest")
    if limit(c) is None and c.kind in ("in", "along", "over", "around", "across", "at", "even"):
        c.take("even")
        got = spot(c)
        if got is not None:
            found.at = got.at
    limit(c)
    if told is not None and told != ONE:
        c.told.setdefault("rows_count", told)
    return [Make(id=c.id(), span=c.span(start), stitch=stitch, places="rest", at=found.at)]


_WHOLE = frozenset(("complete", "full", "whole", "entire", "plain", "additional", "further"))


def ending(c: Cursor) -> list[Step] | None:
    """ "ending with 2 dc in last st", "end with sc in last st" outside a repeat: what follows ends the row."""
    start = c.i
    c.i += 1
    c.drop("the", "last", "row", "rnd", "around") if c.kind in ("the", "row", "rnd") else None
    c.i += _edge_of_garment(c)
    if c.kind == "with":
        c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]
    if (c.kind in ("w",) and c.t[c.i].val in ("correspond",)) or (c.kind == "to" and c.look().val == "correspond"):
        c.drop("to", "w")
        return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None


def _edge_of_garment(c: Cursor) -> int:
    """How many words "(finish) sleeve edge (with 1 rnd of sc)" takes to name what gets a row of its own."""
    k = 0
    while c.look(k).kind in ("w", "side", "the", "all", "each", "opp") and k < 5:
        k += 1
    row = c.look(k + 2).kind in ("row", "rnd") or c.look(k + 2).text.lower() == "round" or c.look(k + 2).kind == "n"
    return k if c.look(k).kind == "with" and c.look(k + 1).kind in ("a", "n") and row else 0


def completing(c: Cursor) -> list[Step] | None:
    """ "and complete 8 groups", "completing the 8 groups", "continue for the 8 groups": how far the repeat goes, told again."""
    start = c.i
    c.i += 1
    c.drop("for", "the", "all", "w")
    if c.kind == "n" and c.look().kind in ("group", "grp", "w", "sp"):
        c.i += 2
        c.drop("of", "st")
        return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None


def more_pieces(c: Cursor) -> list[Step] | None:
    """ "Make 17 more motifs", "Work 2 more strips in same manner": further copies of the piece."""
    start = c.i
    c.i += 1
    if c.kind == "n" and c.look().kind in (".", ",", ";", "") and (start == 0 or c.t[start - 1].kind in (".", ";")) and c.out:
        c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]  # "Make two."
    if not (c.kind in ("n", "a", "o") and (c.look().kind == "more" or c.kind == "o" or c.look().kind == "o")):
        c.i = start
        return None
    k = c.i + 1
    while c.t[k].kind in ("more", "o", "w"):
        k += 1
        if k - c.i > 5:
            break
    if c.t[k].kind not in ("group", "piece", "side", "grp") and c.t[k - 1].val not in _PIECES and c.t[k].val not in _PIECES:
        c.i = start
        return None
    while c.kind not in (".", ";", "", ")"):
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]


_PIECES = frozenset(
    [
        "motif",
        "motifs",
        "strip",
        "strips",
        "square",
        "squares",
        "block",
        "blocks",
        "piece",
        "pieces",
        "petal",
        "petals",
        "leaf",
        "leaves",
        "sleeve",
        "sleeves",
        "ear",
        "ears",
        "leg",
        "legs",
        "arm",
        "arms",
        "wing",
        "wings",
        "flower",
        "flowers",
    ]
)


def half(c: Cursor) -> list[Step] | None:
    """ "1st half:", "2nd side:": a heading inside the row's text."""
    start = c.i
    if c.look().kind not in ("half", "side") or c.look(2).kind not in (":", "-", "."):
        return None
    c.i += 3
    return [Aside(id=c.id(), span=c.span(start))]


_STOPS = frozenset((",", ";", ".", "", ")", "]"))


def having(c: Cursor) -> list[Step] | None:
    """ "having 2 sts between increases", "with 10 sc between incs", "keeping continuity": how it is spread, not what is made."""
    start = c.i
    end = c.i
    while c.t[end].kind not in _STOPS:
        close = c.close.get(end)
        if close is not None and c.t[close + 1].kind in _STOPS:
            break  # the row's count behind it
        end = end + 1 if close is None else close + 1
    words = c.t[c.i : end]
    if c.look().kind == "n" and c.look(2).kind in ("inc", "dec") and not any(t.kind == "between" for t in words):
        return _with_so_many_changes(c)
    if c.kind == "with" and not ({"between"} & {t.kind for t in words} and {"inc", "dec"} & {t.kind for t in words}):
        return None
    if c.t[start].val == "keeping" and not any(t.kind in ("st", "ch", "n", "skip", "turn", "patt", "inc", "dec") for t in words):
        c.i = end
        return [Aside(id=c.id(), span=c.span(start))]
    if any(t.kind in ("ch", "skip", "turn") for t in words) or not any(t.kind in ("between", "w", "inc", "dec", "idle") for t in words):
        return None
    c.i = end
    _spread(c, start, words)
    return [Aside(id=c.id(), span=c.span(start))]


def _with_so_many_changes(c: Cursor) -> list[Step]:
    """ "(Sc around,) with 4 increases (evenly spaced)": as told where nothing more is said of them, else the word alone passes."""
    start = c.i
    told, sign = c.look().val, 1 if c.look(2).kind == "inc" else -1
    c.i += 3
    while c.kind in ("even", "idle", "around", "across") or c.t[c.i].text.lower() in ("spaced", "placed", "spread", "distributed", "made"):
        c.i += 1
    if c.kind in (",", ";", ".", "", "(", "join") and isinstance(told, int):
        return [Shape(id=c.id(), span=c.span(start), change=Sized((sign * told,)), where="evenly")]
    c.i = start + 1
    return [Aside(id=c.id(), span=c.span(start))]


def _spread(c: Cursor, start: int, words: list[Token]) -> None:
    """ "Inc 4 sc, having 2 sc between incs": they are spread over the row, as "evenly" would say; the steps read before are put right."""
    k = start - 1 - (c.t[start - 1].kind == ",")
    k -= c.t[k].kind in ("st", "noun")
    told = c.t[k].val
    if not {"between"} & {t.kind for t in words} or k < 1 or c.t[k].kind != "n" or c.t[k - 1].kind not in ("inc", "dec"):
        return
    begin = c.t[k - 1].start
    last = [step for step in c.out if step.span.start >= begin]
    if isinstance(told, int) and last and all(isinstance(step, Make) for step in last):
        change = told if c.t[k - 1].kind == "inc" else -told
        c.out[-len(last) :] = [Shape(id=c.id(), span=c.span(k - 1, start), change=Sized((change,)), where="evenly")]


def starting_at(c: Cursor) -> list[Step] | None:
    """ "starting at point, …", "beginning at the lower edge": where the yarn is, told without a stitch."""
    start = c.i
    c.i += 1
    if c.kind not in ("at", "in", "from"):
        c.i = start
        return None
    c.i += 1
    steps = 0
    while (
        c.kind
        in (
            "w",
            "the",
            "idle",
            "side",
            "top",
            "base",
            "corner",
            "of",
            "center",
            "end",
            "group",
            "grp",
            "point",
            "o",
            "piece",
            "opp",
            "front",
            "back",
        )
        and steps < 9
    ):
        c.i += 1
        steps += 1
    if not steps or c.kind not in (",", "work", ";", ".", ":", "with"):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def at_next_rows(c: Cursor) -> list[Step] | None:
    """ "Sl st over 5 sts at beg of next 4 rows": so many rows begin like this, and go on plainly."""
    from ...pattern import Even

    start = c.i
    if not (c.kind in ("at", "in") and c.look().kind == "beg" and c.look(2).kind == "of"):
        return None
    c.i += 3
    c.drop("the", "each")
    c.drop("of", "the")
    if not c.take("next"):
        c.i = start
        return None
    told = number(c)
    if told is None or not c.take("row", "rnd"):
        c.i = start
        return None
    c.told.setdefault("rows_count", told)
    return [Even(id=c.id(), span=c.span(start))]


def for_rows(c: Cursor) -> list[Step] | None:
    """ "for 5 rounds", "for 3 rows": how many rows it is worked."""
    start = c.i
    c.i += 1
    c.drop("the", "next", "a", "total", "of")
    told = number(c)
    c.drop("more", "total")
    c.i += told is not None and c.t[c.i].val in ("complete", "full", "whole")
    if told is None or not c.take("row", "rnd"):
        c.i = start
        return None
    c.drop("more", "total")
    c.told.setdefault("rows_count", told)
    return [Aside(id=c.id(), span=c.span(start))]


def tool(c: Cursor) -> list[Step] | None:
    """ "hook 6 mm", "hook size H" beside an instruction: a fact, not a step."""
    start = c.i
    while c.kind not in (",", ";", ".", "", ")", "]", "("):
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]


def headed_for(c: Cursor) -> list[Step] | None:
    """ "For the border of the two upper sides.-": a heading before the row's own words."""
    start = c.i
    if start or c.out or not (str(c.t[start].val).endswith("the") or c.look().kind in ("the", "n", "each")):
        return None
    end = c.i
    while c.t[end].kind not in (":", "-", ".", ",", ";", "") and end - start < 12:
        end += 1
        made = c.t[end].kind == "work" and [t.kind for t in c.t[end + 1 : end + 3]] == ["a", "ch"]
        if made and not any(t.kind in ("st", "n", "row", "rnd") for t in c.t[start:end]):
            c.i = end
            return [Aside(id=c.id(), span=c.span(start))]  # "For each stripe make a chain of 19"
    marked = c.t[end].kind in (":", "-") or (c.t[end].kind == "." and c.t[end + 1].kind == "-")
    if not marked or any(t.kind in ("st", "ch", "skip", "rep", "row", "rnd") for t in c.t[start:end]):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def begin_to_shape(c: Cursor) -> list[Step] | None:
    """ "Begin to decrease for the underneath:": a heading; what follows tells how."""
    start = c.i
    if c.look().kind != "to" or c.look(2).kind not in ("dec", "inc", "shaping"):
        return None
    end = start
    while c.t[end].kind not in (":", ".", ";", ",", ""):
        end += 1
    if c.t[end].kind not in (":", ".", "") or any(t.kind in ("st", "n", "ch") for t in c.t[start:end]):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def alternative(c: Cursor) -> list[Step] | None:
    """ ", or add 11s for a larger one", "or until it is long enough": another way, set aside."""
    start = c.i
    while c.kind not in (".", ";", "", ")", "]", "turn", "join"):
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]


def not_made(c: Cursor) -> list[Step] | None:
    """ "no ch 1 here", "no ch between": what is not made."""
    start = c.i
    c.i += 1
    c.take("n")
    if c.kind not in ("ch", "st", "inc", "dec", "skip"):
        c.i = start
        return None
    while c.kind not in (",", ";", ".", "", ")", "]", "("):
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]


def stuff(c: Cursor) -> list[Step] | None:
    start = c.i
    if not c.take("stuff"):
        return None
    while c.kind not in (".", ";", "", ")", "]", "("):
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start), kind="stuff")]
