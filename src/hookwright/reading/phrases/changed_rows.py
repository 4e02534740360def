"""How a row differs from the one it names: "same as Row 2 but in back loops only", "as 4th row, one shell more each row"."""

from __future__ import annotations

from itertools import pairwise

from ...pattern import Aside, Chain, Join, Make, Place, Shape, Sized, Step, Unread
from .cursor import Cursor, Frame
from .nouns import TILES
from .numbers import number
from .runs_between import ENDS_CLAUSE, instead_of
from .spots import as_loop


def changes_told(c: Cursor, rows: tuple[int, ...] = ()) -> tuple[Step, ...]:
    """ "but with 5 chs in each loop", "but ending …", "having …": the steps told as different from those of `rows`."""
    begin = c.i
    if _to_shaping(c):
        return ()
    c.take(",")
    if (every := _at_every(c)) is not None:
        return (every,)
    if (longer := _longer_sides(c, begin)) is not None:
        return longer
    if (others := _other_numbers(c) or _other_chains(c)) is not None:
        return others
    loop = _other_loop(c) or _in_every_space(c)
    if loop is not None:
        return loop
    if c.t[c.i].text.lower() == "only" and c.look().text.lower() in ("now", "there", "this", "you", "it"):
        return _told_apart(c, begin)
    if c.kind not in ("but", "ending", "having") and not (c.kind == "w" and c.t[c.i].val in ("only", "inserting")):
        c.i = begin
        return ()
    from .sentences import steps

    onto = _each_taken(c, rows)
    ends = c.kind == "ending" or c.look().kind == "ending"
    c.i += not onto
    c.drop("with", "ending", "work", "the", "row", "rnd")
    c.i += c.t[c.i].text.lower() in ("allow", "allowing", "give", "giving", "put", "putting")
    c.frames.append(Frame())
    stop = c.i
    while c.t[stop].kind not in (".", ";", "", ")", "]", "turn", "foff"):
        stop += 1
    end = _before_instead(c, stop)
    around = next((k for k in range(c.i, end) if c.t[k].text.lower() == "working" and c.t[k + 1].kind == "around"), end)
    try:
        steps(c, around)
        found = tuple(c.frames[-1].out)
        if around < end:  # "but with ch 7 and working around the sc of the 3rd rnd"
            onto = (*onto, *_each_taken(c, rows))
        c.i = stop if end < stop else c.i
    finally:
        c.frames.pop()
    found = (*onto, *(_remark(c, step) for step in found))
    if ends and found and not any(type(step).__name__ == "Unread" for step in found):
        return (Join(id=c.id(), span=c.span(begin), closing=tuple(map(_as_join, found))),)
    return found


def _to_shaping(c: Cursor) -> bool:
    """Past "but", "except" where nothing but a shaping follows, which is read by itself: "(Same as Rnd 3,) but inc 4 sts evenly spaced"."""
    from .shaping import change

    begin, kept = c.i, dict(c.told)
    while c.kind in (",", "but", "and", "work", "idle") or c.t[c.i].text.lower() in ("except", "only"):
        c.i += 1
    at = c.i
    found = change(c) if at > begin and c.kind in ("inc", "dec") else None
    shaped = found is not None and len(found) == 1 and isinstance(found[0], Shape) and c.kind in ENDS_CLAUSE
    c.i = at if shaped else begin
    c.told.clear()
    c.told.update(kept)
    return shaped


def _at_every(c: Cursor) -> Step | None:
    """ "(Same as Round 3,) but increase in every 8th st", "increasing in every 4th stitch", "with 2 dc in each 7th": how long the plain
    runs between its increases are here. None with the cursor unmoved."""
    start = c.i
    while c.kind in ("but", "with", "having", "work", "idle", "the", "a"):
        c.i += 1
    shaping = c.take("inc")
    doubled = shaping is None and c.kind == "n" and c.t[c.i].val == 2
    if doubled or (shaping is not None and c.kind == "n" and c.t[c.i].val == 1):
        c.i += 1
        c.drop("st", "noun")
    c.drop("in", "at", "over")
    every = c.kind == "each"
    c.i += every
    nth = c.take("o") if every else None
    c.drop("st", "noun")
    c.i += c.t[c.i].text.lower() == "one"
    if (shaping is None and not doubled) or nth is None or not isinstance(nth.val, int) or nth.val < 2 or c.kind not in ENDS_CLAUSE:
        c.i = start
        return None
    run = Sized((nth.val - 1,))
    return Make(id=c.id(), span=c.span(start), stitch=c.main or "sc", places=run, at=Place(what="inc", between=True))


def _each_taken(c: Cursor, rows: tuple[int, ...]) -> tuple[Step, ...]:
    """ "But taking each dc round a dc of that round": which stitches of it go elsewhere, and where; nothing, the cursor unmoved, where no
    such thing is told."""
    start = c.i
    c.take("but", "and")
    if c.t[c.i].text.lower() not in ("taking", "working", "putting", "placing", "making"):
        c.i = start
        return ()
    c.i += 1
    c.drop("the", "each", "all")
    all_of_them = c.kind == "around" and c.t[c.i - 1].text.lower() == "working"  # "working around the sc of the 3rd rnd"
    made = c.take("st")
    c.take("noun")
    if (made is None and not all_of_them) or not c.take("around", "in", "over"):
        c.i = start
        return ()
    c.drop("the", "a", "each", "next")
    target = c.take("st")
    if target is None and (c.t[c.i - 1].text.lower() == "those" or c.t[c.i].text.lower() in ("those", "ones")):
        target = made
        c.i += c.t[c.i].text.lower() in ("those", "ones")
    row: str | None = None
    if target is not None and c.take("of"):
        c.drop("the")
        that = c.t[c.i - 1].text.lower() in ("that", "same") or c.kind == "same"
        c.take("same")
        nth = c.take("o")
        if nth is None and c.kind in ("row", "rnd") and c.look().kind == "n":
            c.i += 1
            nth = c.take("n")
        elif not (c.take("row", "rnd") or (c.t[c.i].text.lower() == "round" and c.take("around"))) or not (nth or (that and rows)):
            target = None
        row = f"Row {nth.val if nth else rows[0]}" if nth or rows else None
    if target is None or c.kind not in (",", ";", ".", "", "and", "(", ")"):
        c.i = start
        return ()
    span = c.span(start)
    c.drop(",", "and")
    onto = Place(what=c.us(str(target.val)), row=row)
    return (Make(id=c.id(), span=span, stitch=c.us(str((made or target).val)), places="rest", at=onto),)


def _before_instead(c: Cursor, stop: int) -> int:
    """Where "(with 8 tr in each petal) instead of 6" begins to tell what the other row has; `stop` where it does not."""
    for k in range(c.i, stop - 1):
        if c.t[k].text.lower() in ("instead", "rather", "place") and c.t[k + 1].text.lower() in ("of", "than"):
            rest = {token.kind for token in c.t[k + 2 : stop]}
            return k - (c.t[k].text.lower() == "place") if rest <= _SAYS_WHAT_WAS else stop
    return stop


_SAYS_WHAT_WAS = frozenset(
    ("n", "st", "noun", "the", "ch", "sp", "lp", "in", "each", "grp", "group", "before", "as", "only", "idle", "prev")
)


def _other_numbers(c: Cursor) -> tuple[Step, ...] | None:
    """ "(As Row 3) but 11 dc for the 7", "with 9 sc instead of 7 sc and 4 in place of 2": runs of so many are as long as is told here.
    Each as a stitch whose place tells (`nth`) how many it was; None with the cursor unmoved."""
    begin = c.i
    found: list[Step] = []
    while True:
        start = c.i
        while c.kind in ("but", "with", "having", "work", "idle", "the", "and", ",") or c.t[c.i].text.lower() in ("making", "make"):
            c.i += 1
        chain = c.take("ch")
        c.take("-")
        told = number(c)
        kind = chain or (c.take("st", "noun", "ch") if told is not None else None)
        was = instead_of(c) if told is not None else None
        if told is None or was is None:
            c.i = start
            break
        if c.kind == "in" and c.look().kind == "each" and c.look(2).kind in ("grp", "group", "w") and c.look(3).kind in ENDS_CLAUSE:
            c.i += 3  # "5 dc instead of 3 in each petal"
        named = kind.kind if kind is not None else ""
        stitch = c.us(str(kind.val)) if kind is not None and named == "st" else "ch" if named == "ch" else ""
        found.append(Make(id=c.id(), span=c.span(start), stitch=stitch, places=told, at=Place(what="run", nth=was)))
    if not found or c.kind not in ENDS_CLAUSE:
        c.i = begin
        return None
    return tuple(found)


def _other_chains(c: Cursor) -> tuple[Step, ...] | None:
    """ "(As Row 3) with ch 5 between", "but making 4 ch between groups": how long the chains between its groups are here; None with the
    cursor unmoved."""
    begin = c.i
    while c.kind in ("but", "with", "having", "work", "idle", "the", "a") or c.t[c.i].text.lower() in ("allowing", "leaving"):
        c.i += 1
    chain = c.take("ch")
    c.take("-")
    told = number(c)
    chain = chain or (c.take("ch") if told is not None else None)
    if c.i == begin or chain is None or told is None or not c.take("between"):
        c.i = begin
        return None
    c.drop("the", "each", "grp", "group", "noun")
    if c.kind not in ENDS_CLAUSE | {"foff"}:
        c.i = begin
        return None
    return (Chain(id=c.id(), span=c.span(begin), number=told),)


def _longer_sides(c: Cursor, begin: int) -> tuple[Step, ...] | None:
    """ "(As Round 2,) but with 7 tr between corners", "having 4 more dc on each side", "there will be 9 sts along each edge": how long
    the plain runs between the corners have grown, which the row below tells as well. Passed over."""
    end = c.i
    while c.t[end].kind not in ENDS_CLAUSE:
        end += 1
    told = c.t[c.i : end]
    number = next((k for k, t in enumerate(told) if t.kind == "n"), None)
    if number is not None and told[0].kind == "with" and not {"group", "grp", "sp"} & {t.kind for t in told}:
        return None  # "as Round 3 with 3 sc on each side" tells of no edge's length
    if number is None or number > 5 or not all(t.kind in _OF_SIDES or t.text.lower() in ("tr", "htr", "instead") for t in told):
        return None
    names = [t.kind for t in told]
    sides = "side" in names[number:] or ("between" in names[number:] and "corner" in names[number:])
    in_corner = any(a == "in" and b in ("corner", "each", "a") for a, b in pairwise(names[number:])) and "side" not in names
    if not sides or in_corner:
        return None
    c.i = end
    while c.kind == "," and c.look().kind == "then" and c.look(2).kind == "n":  # ", 16 sts to a side, then 20": the round after it
        c.i += 3
        c.drop("noun", "st", "on", "in", "to", "a", "each", "side")
    grown = Aside(id=c.id(), span=c.span(begin), kind="sides")
    kind = told[number + 1]
    if names[number + 2 :] not in (["in", "each", "side"], ["along", "each", "side"]) or kind.kind != "st":
        return (grown,)
    run = Make(id=c.id(), span=c.span(begin), stitch=c.us(str(kind.val)), places=Sized((int(told[number].val),)), at=Place(what="run"))
    return (grown, run)


_OF_SIDES = frozenset(
    """
    n st noun more each all the side corner between in along on around of w a idle and with work now having over but at to up sp grp
    group counts straight total then - ch
    """.split()  # noqa: SIM905
)


def growth_told(c: Cursor) -> tuple[Step, ...]:
    """ "one shell more each row", "having 4 more sc on each row", "with 1 st less on every row than on the one before": the sum of what
    the row named does, worked as it gives it. Nothing, the cursor unmoved, where it tells what else is to be done."""
    begin = c.i
    c.take(",")
    if c.kind == "n" and any(c.look(k).kind == "more" or c.look(k).val in ("less", "fewer") for k in (1, 2)):
        while c.kind not in (".", ";", "", ")", "]"):
            c.i += 1
        return (Aside(id=c.id(), span=c.span(begin)),)
    led = c.kind in ("having", "with", "and", "but") or c.t[c.i].text.lower() in ("making", "always", "there")
    end = c.i
    while led and c.t[end].kind not in ENDS_CLAUSE | {"until", "for"}:
        end += 1
    told = c.t[c.i : end]
    tiles = any(t.text.lower().removesuffix("s") in TILES for t in told)  # "with one block less each row" tells what the row does
    change = not tiles and any(t.kind == "more" or t.text.lower() in ("less", "fewer") for t in told)
    each_row = any(a.kind in ("each", "in") and b.kind in ("row", "rnd", "times") for a, b in pairwise(told))
    if change and each_row and sum(t.kind == "n" for t in told) <= 1 and all(t.kind in _SUMS_UP or t.text.lower() in _LED for t in told):
        c.i = end
        return (Aside(id=c.id(), span=c.span(begin)),)
    c.i = begin
    return ()


_LED = frozenset("having with making always there will are be than less fewer were was one ones on it".split())  # noqa: SIM905
_SUMS_UP = frozenset("n st noun post lp more each row rnd times in the idle prev last before than as and but counts w".split())  # noqa: SIM905
"""Words of the sum of what a repeated row adds: no place and no group among them."""


def _remark(c: Cursor, step: Step) -> Step:
    """Words among the changes that tell nothing of stitches or rows are a remark; others stay as not understood."""
    if not isinstance(step, Unread):
        return step
    told = [token for token in c.t if step.span.start <= token.start < step.span.end]
    words = [token.kind for token in told]
    if any(token.text.lower() == "on" for token in told) and set(words) <= {"w", "idle", "in", "the", "n", "noun"}:
        return Aside(id=step.id, span=step.span)  # "like Rnd 2, but on 34 sts": how many the row below holds
    return step if {"st", "ch", "n", "skip", "inc", "dec", "row", "rnd", "grp"} & set(words) else Aside(id=step.id, span=step.span)


def _told_apart(c: Cursor, begin: int) -> tuple[Step, ...]:
    """ "(As Rnd 3), only now there are two spaces to fill on each side": what the row below holds here; nothing is told to work."""
    there = any(a.text.lower() == "there" and b.text.lower() in ("are", "is") for a, b in pairwise(c.t[c.i : c.i + 5]))
    while c.kind not in (".", ";", "") and c.kind not in ("turn", "join", "foff"):
        c.i = c.close.get(c.i, c.i) + 1 if c.kind in ("(", "[") else c.i + 1
    span = c.span(begin)
    return (Aside(id=c.id(), span=span) if there else _remark(c, Unread(id=c.id(), span=span)),)


def _in_every_space(c: Cursor) -> tuple[Step, ...] | None:
    """ "(As round 3), working 2 tr in each of the 2 gaps along every side": the edges have grown, and each of their spaces is filled."""
    begin = c.i
    if c.kind in ("work", "with", "having"):
        end = c.i
        while c.t[end].kind not in (".", ";", "", "(") and (c.t[end].kind != "," or c.t[end + 1].kind in ("then", "and")):
            end += 1  # "with 2 tr in each of 2, then in each of 3 gaps along every side"
        told = [token.text.lower() for token in c.t[c.i : end]]
        spaces = any(token.kind in ("sp", "mesh", "lp") for token in c.t[c.i : end])
        if spaces and told[-1:] in (["side"], ["edge"]) and any(word in ("each", "every") for word in told[-3:]):
            c.i = end
            return (Aside(id=c.id(), span=c.span(begin)),)
    return None


def _other_loop(c: Cursor) -> tuple[Step, ...] | None:
    """ "(rep Row 2) but in back loops only", "in both loops", "through BLO": the loop that every stitch of it goes into."""
    begin = c.i
    c.drop("but", "work", "this", "idle")
    if c.kind in ("in", "over"):
        c.i += 1
        c.drop("the")
        if c.kind == "loop":
            loop = as_loop(str(c.t[c.i].val))
            c.i += 1
            c.drop("idle")
            if c.kind in _CLOSES:
                return (Make(id=c.id(), span=c.span(begin), stitch="sc", places="rest", at=Place(loop=loop)),) if loop != "both" else ()
    c.i = begin
    return None


_CLOSES = frozenset((".", ",", ";", "", "(", "[", ")", "turn"))


def _as_join(step: Step) -> Step:
    """A slip stitch into the row's beginning joins it."""
    if isinstance(step, Make) and step.stitch == "sl st" and step.at.where in ("first", "named"):
        return Join(id=step.id, span=step.span, to=step.at)
    return step
