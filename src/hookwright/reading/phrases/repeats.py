"""Stars and repeats: "*…; rep from * across", "*…* x 6", "rep from * to last 3 sts, ending …", "**"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from ...pattern import ONE, Aside, Chain, Colour, Join, Make, Place, Repeat, Ring, Shape, Sized, Step, Times, Together, Turn, Until
from .bare import side_by_side
from .begun_round import comes_again, pass_told_again
from .cursor import Cursor, Frame, Mark
from .cut_units import cut_at
from .numbers import number
from .onset import chain_of_unit
from .places import spot
from .repeat_endings import ending, last_time_told
from .shapes import times

EXAMPLES = (
    ("*sc in next 3 sts, 2 sc in next st; rep from * around", "[sc×3, 2sc]×rest"),
    ("*dc in next st, ch 1, skip 1 st; rep from * 4 times", "[dc, ch1, skip]×4 more"),
    ("*dc in next st, ch 1, skip 1 st; rep from * 4 more times", "[dc, ch1, skip]×5"),
    ("*2 sc, inc* x 6", "[sc×2, 2sc]×6"),
    ("*5 sc, inc*", "[sc×5, 2sc]×rest"),
    ("*sc in next 2 sts, ch 2; rep from * across to last 3 sts, sc in last 3 sts", "[sc×2, ch2]×to last 3, sc×3@last st"),
    ("2 sc in next st, sc in next st, repeat from beg all around", "[2sc, sc]×rest"),
    ("*† sc in next 3 sts, ch 2 †, dc in next st; rep from * 4 times more, rep from † to † once", "[sc×3, ch2, dc]×5, [sc×3, ch2]×1"),
    ("†* sc in next 3 sts, ch 2 †, dc in next st; rep from * 4 times more, rep from † to † once", "[sc×3, ch2, dc]×5, [sc×3, ch2]×1"),
    ("*sc in next st, hdc in next st*, ch 2, rep from * to * twice more, dc", "sc, hdc, ch2, [sc, hdc]×2, dc"),
    (
        "*dc in next st, † ch 2, skip 2 sts †, dc in next st; rep from * 3 times, dc in next st, rep from † to †",
        "[dc, ch2, skip2, dc]×3 more, dc, [ch2, skip2]×1",
    ),
)


MOST_MARKS = 60
"""A star names one of the units before it; no row of a pattern has so many, and a row of ten thousand stars is read in good time."""


def star(c: Cursor) -> list[Step] | None:
    """A star: opens a unit, closes one, or marks where a last repeat ends."""
    token = c.t[c.i]
    sign = str(token.val)
    frame = c.frames[-1]
    if _pair(c):
        return _again(c)
    if (
        c.look().kind == "n"
        and not c.look().gap
        and c.out
        and c.look(2).kind in ("", ".", "(", "[", ",")
        and c.t[c.i - 1].kind in (")", "]", "}")
    ):
        return None
    if _times_star(c) and _open(frame, sign) is None:
        start = c.i
        c.i += 1
        often = number(c)
        if often is not None and (row := row_so_far(c, frame)).index < len(frame.out):
            return folded(c, frame, row, Times(kind="n", number=often), ((), None))
        c.i = start
    c.i += 1
    mark = _open(frame, sign)
    if mark is not None:
        return _close(c, frame, mark)
    if c.kind in ("yo", "insert", "pull"):
        from .longhand import starred

        told = starred(c)
        if told is not None:
            return told
    frame.marks.append(Mark(sign, len(frame.out), c.i - 1))
    del frame.marks[:-MOST_MARKS]
    return []


def _times_star(c: Cursor) -> bool:
    """ "2sc, inc *6 (24)": the star is a sign of times, glued to its number, and nothing but a count follows."""
    return (
        c.look().kind == "n" and not c.look().gap and bool(c.t[c.i].gap) and bool(c.out) and c.look(2).kind in ("", ".", "(", "[", "=", "{")
    )


def _open(frame: Frame, sign: str) -> Mark | None:
    """The unit of this sign that is still open, unless another sign was opened inside it."""
    for mark in reversed(frame.marks):
        if mark.sign == sign and not mark.used and mark.closed is None:
            return mark
    return None


def _pair(c: Cursor) -> bool:
    """ "*-*", "* to *": both stars at once, naming a unit told before."""
    return c.kind == "*" and (c.look().kind in ("-", "to", "and") and c.look(2).kind == "*")


def _close(c: Cursor, frame: Frame, mark: Mark) -> list[Step] | None:
    """The second star of a pair."""
    if len(frame.out) == mark.index:
        return []
    mark.closed = len(frame.out)
    begin = c.i
    _keeps_going(c)
    told = _in_each(c, frame, mark)
    if told is not None:
        return told
    c.drop(",", ";") if c.look().kind in ("rep", "around", "across", "n", "to") and c.kind in (",", ";") else None
    if (
        c.kind in (",", ";")
        and c.look().text.lower() in ("do", "work")
        and c.look(2).kind == "the"
        and c.look(3).kind in ("n", "once", "around")
    ):
        c.i += 3  # "*inc, 8 sc, inc*, do it twice"
    if c.kind == "rep" and c.look().kind in ("around", "across", "to", "n", "until", "", ".", ",", "(", "once", "end", "*", "from"):
        at = c.i
        c.i += 1
        if c.kind in ("*", "from") or (c.kind == "to" and c.look().kind == "*"):
            c.i = at
            return []
        got = times(c)
        ends = ending(c, frame, mark)
        return folded(c, frame, mark, got or Times(kind="rest"), ends)
    got = times(c)
    if got is not None:
        ends = ending(c, frame, mark)
        return folded(c, frame, mark, got, ends)
    c.i = begin
    if _named_later(c):
        return []
    ends = ending(c, frame, mark) if last_time_told(c) else ((), None)
    return folded(c, frame, mark, Times(kind="rest"), ends)


def _keeps_going(c: Cursor) -> None:
    """Pass over "keep going", "keep doing this", "go on" before how far: "*sk 1, shell in next* keep going till 3 are left"."""
    begin = c.i
    if c.kind == "cont" or c.t[c.i].text.lower() in ("go", "do"):
        c.i += 1
        while c.kind in ("w", "the", "rep", "work", "idle", "on") and c.i - begin < 5:
            c.i += 1
        if c.kind in ("to", "until", "around", "across"):
            return
    c.i = begin


def _in_each(c: Cursor, frame: Frame, mark: Mark) -> list[Step] | None:
    """ "*dc, ch 1* in each st around", "*sc, dc* in the same st": the place of the whole unit is told behind it."""
    begin = c.i
    one = c.kind == "in" and c.look(1 + (c.look().kind == "the")).kind in ("same", "next")
    if not one and (c.kind not in ("in", "over") or c.look().kind not in ("each", "all")):
        return None
    found = spot(c)
    body = tuple(frame.out[mark.index :])
    if found is not None and one:
        fits = found.places == ONE and all(map(_in_one_place, body)) and len(body) > 1
        found.at = replace(found.at, where="next")
    else:
        fits = found is not None and found.places == "rest"
    if found is None or not fits or not all(isinstance(step, (Make, Chain, Together, Aside)) for step in body):
        c.i = begin
        return None
    _swallow(frame, mark)
    del frame.out[mark.index :]
    mark.used = True
    span = c.span(mark.token)
    return [Together(id=c.id(), span=span, body=body, at=found.at, places=found.places, but=found.but, upto=found.upto)]


def _in_one_place(step: Step) -> bool:
    """A chain, or one stitch that tells no place of its own."""
    return isinstance(step, (Chain, Aside)) or (isinstance(step, Make) and step.places == ONE and step.at == Place(span=step.at.span))


def _named_later(c: Cursor) -> bool:
    """The row names this unit again further on ("rep * to *", "work *-* across")."""
    for k in range(c.i, min(len(c.t) - 1, c.i + 300)):
        kind = c.t[k].kind
        if kind == "rep" or (kind == "*" and c.t[k + 1].kind in ("-", "to", "and")) or (kind == "between" and c.t[k + 1].kind == "*"):
            return True
    return False


def folded(c: Cursor, frame: Frame, mark: Mark, how: Times, ending: tuple[tuple[Step, ...], int | None], said: int = 0) -> list[Step]:
    """Put the unit since `mark` into a Repeat, in place. `said`: the token that the telling begins with."""
    last, cut = ending
    apart = mark.body is not None or (mark.closed is not None and any(not isinstance(step, Aside) for step in frame.out[mark.closed :]))
    if apart and said and how.kind == "n" and any(token.kind == "more" or token.val == "another" for token in c.t[said : c.i]):
        how = replace(how, number=_minus_one(how.number))  # other stitches have come between: "once more" is once
    if mark.body is not None:
        once = replace(how, kind="n") if how.kind == "more" else how
        return [Repeat(id=c.id(), span=c.span(c.i - 1), body=mark.body, times=once, last=last, cut=cut)]
    if not mark.sign and len(c.frames) == 1 and (unit := comes_again(frame.out)) is not None:
        pass_told_again(c, unit)
        if how.kind == "n" and any(token.kind == "more" or token.val == "another" for token in c.t[max(0, c.i - 6) : c.i]):
            how = replace(how, number=_minus_one(how.number))
        return [Repeat(id=c.id(), span=c.span(c.i - 1), body=unit, times=how, last=last)]
    stop = mark.closed if mark.closed is not None else len(frame.out)
    body = side_by_side(c, _one_each(in_turn(frame.out[mark.index : stop]), how))
    rest = frame.out[stop:]
    repeat = Repeat(id=c.id(), span=c.span(mark.token), body=body, times=how, last=last, cut=cut)
    if any(not isinstance(step, Aside) for step in rest):
        # told once, something else came, and now it is told again: it stands as it was and is repeated here
        mark.used, mark.body = True, body if mark.closed is not None else None
        once = Times(kind="n", number=how.number) if how.kind == "more" else how
        return [Repeat(id=c.id(), span=repeat.span, body=body, times=once, last=last, cut=cut)]
    _swallow(frame, mark)
    del frame.out[mark.index :]
    mark.used, mark.body = True, body if mark.closed is not None else None  # "*-* twice, …, *-* 3 times"
    return [repeat]


def _swallow(frame: Frame, mark: Mark) -> None:
    """Marks inside the unit of `mark` go with it; a closed one keeps what it enclosed, to be told again ("rep from † to † once")."""
    kept = []
    mark.stops = {one.sign: one.index - mark.index for one in frame.marks if one is not mark and one.index > mark.index}
    for one in frame.marks:
        inside = one is not mark and (one.index > mark.index or (one.index == mark.index and one.closed is not None))
        if inside and one.closed is not None and one.body is None:
            one.body = in_turn(frame.out[one.index : one.closed])
        if not inside or one.body is not None:
            kept.append(one)
    frame.marks = [one for one in kept if one is mark or one.body is not None or one.index < mark.index or one.token < mark.token]


def in_turn(body: Sequence[Step]) -> tuple[Step, ...]:
    """Inside a repeat "first st" can only mean the next one; behind a group "first loop" is the first of the loops that come after it."""
    out: list[Step] = []
    grouped = False
    for step in body:
        if isinstance(step, (Make, Together)) and step.at.where == "first" and not (grouped and step.at.what in ("sp", "loop")):
            step = replace(step, at=replace(step.at, where="next"))
        grouped = grouped or (isinstance(step, Together) and len(step.body) > 1)
        out.append(step)
    return tuple(out)


def _one_each(body: tuple[Step, ...], how: Times) -> tuple[Step, ...]:
    """ "1 treble in each chain, 1 chain; repeat": what is told of each place is done in one of them every time the unit comes round."""
    makes = [step for step in body if not isinstance(step, (Chain, Aside))]
    if how.kind != "rest" or len(makes) != 1 or len(body) < 2 or not any(isinstance(step, Chain) for step in body):
        return body
    step = makes[0]
    if not isinstance(step, (Make, Together)) or step.places != "rest" or step.upto or step.but != Sized((0,)):
        return body
    return tuple(replace(one, places=ONE) if one is step else one for one in body)


def _again(c: Cursor) -> list[Step] | None:
    """ "*-* across", "* to * 3 times" without the word repeat."""
    sign = str(c.t[c.i].val)
    frame = c.frames[-1]
    begun = c.i
    c.i += 3
    mark = next((one for one in reversed(frame.marks) if one.sign == sign), None)
    got = times(c)
    if c.t[c.i].val in ("on", "s") and c.look().kind in (",", ";", ".", "", "=", "(", "["):
        c.i += 1
    if mark is None or (mark.used and mark.body is None):
        return None
    ends = ending(c, frame, mark)
    return folded(c, frame, mark, got or Times(kind="rest"), ends, begun)


def repeat(c: Cursor) -> list[Step] | None:
    """ "rep from * …", "rep between *s", "repeat from beg", "rep around"; a repeat of rows is read elsewhere."""
    start = c.i
    if not c.take("rep"):
        return None
    named = _which(c)
    if named is None:
        c.i = start
        return None
    frame = c.frames[-1]
    mark = named or row_so_far(c, frame)
    got = times(c, star=True)
    if got is None and c.kind == "," and c.look().kind in ("around", "across", "to", "until"):
        c.i += 1
        got = times(c, star=True)
        if got is None:
            c.i -= 1
    ends = _goes_on_there(c) if got is not None and got.kind == "to_place" else ending(c, frame, mark)
    if got is None:
        got = times(c, star=True)
    if c.told.pop("comes_home", False):
        got = replace(got or Times(kind="rest"), loose=True)
    stop = mark.closed if mark.closed is not None else len(frame.out)
    if stop == mark.index:
        return [Aside(id=c.id(), span=c.span(start))]
    unit = [step for step in frame.out[mark.index : stop] if not isinstance(step, Aside)]
    if not named and got is not None and got.kind == "to_last" and all(isinstance(step, Shape) for step in unit):
        c.told["until"] = Until(stitches=got.number, span=c.span(start))  # "dec 1 st each end, repeat until 2 sts are left": the row
        return [Aside(id=c.id(), span=c.span(start))]
    if got is None and mark.closed is not None and (mark.body is not None or len(frame.out) > stop):
        got = Times(kind="n")  # a unit with both its signs, told again after something else: once
    return folded(c, frame, mark, got or Times(kind="rest"), ends, start)


def _goes_on_there(c: Cursor) -> tuple[tuple[Step, ...], int | None]:
    """Pass over "ending (with)" behind "rep from * to center": what follows is worked there, and the row goes on from it."""
    if c.kind in (",", ";") and c.look().kind == "ending":
        c.i += 2
        c.take("with")
    return (), None


def of_group(c: Cursor) -> list[Step] | None:
    """ "Rep (sc, 2 sc in next) 6 times": the group in brackets, as often as is told behind it."""
    from .groups import bracket

    start = c.i
    c.take("rep")
    close = c.close.get(c.i)
    if close is None or not (c.t[close + 1].kind in ("n", "once", "around", "across") or c.t[close + 1].val == "x"):
        c.i = start
        return None
    return bracket(c)


_STEPS_TOLD = ("steps", "instructions", "actions")


def _which(c: Cursor) -> Mark | Literal[False] | None:
    """The mark named after "repeat": a Mark, False for the row's beginning, None when it is no repeat inside the row."""
    frame = c.frames[-1]
    begin = c.i
    said_from = bool(c.take("from"))
    c.drop("the", "idle")
    between = bool(c.take("between", "in"))
    if c.kind == "n" and c.look().kind in ("w", "st", "noun") and c.look().val in _STEPS_TOLD:
        c.i += 1  # "these two steps"
    while c.kind in ("w", "the", "idle", "between", "from", "patt", "noun") and c.t[c.i].val in (
        "steps",
        "patt",
        "instructions",
        "directions",
        "sequence",
        "instruction",
        "pattern",
        "the",
        "between",
        "from",
        "this",
        "these",
        "section",
        "it",
        "process",
    ):
        c.i += 1
    nth = None
    if c.kind in ("o", "last") and c.look().kind in ("*",):
        nth = c.t[c.i].val if c.kind == "o" else "last"
        c.i += 1
    if c.kind == "*":
        sign = str(c.t[c.i].val)
        c.i += 1
        if c.kind in ("to", "-", "and") and c.look().kind == "*" and c.look().val == sign:
            c.i += 2
        elif between and c.kind == "*" and c.t[c.i].val == sign:
            c.i += 1  # "repeat between * *"
        elif c.kind in ("to",) and c.look().kind == "*":
            return cut_at(c, frame, sign) or _marked(c, frame, sign, None)
        c.drop("'")
        if c.kind == "w" and c.t[c.i].val in ("s", "on"):
            c.i += 1
        return _marked(c, frame, sign, nth)
    if between and frame.marks and c.t[c.i].val in ("asterisks", "stars", "signs"):
        c.i += 1
        return _marked(c, frame, frame.marks[-1].sign, nth)
    if c.kind == "w" and c.t[c.i].val == "s" and c.t[c.i - 1].kind == "*":
        c.i += 1
    if c.kind in ("beg", "base") or (c.kind == "the" and c.look().kind == "beg"):
        c.i += 1
        if c.kind == "of" and c.look().kind in ("row", "rnd", "around", "the"):
            c.i += 1
            c.drop("the", "row", "rnd", "around")
        return False
    if between or said_from:
        c.i = begin
        return None
    if (
        c.kind in ("around", "across", "", ".", ",", ";", ")", "until", "once", "=", "(")
        or (c.kind == "to" and c.look().kind in ("end", "last", "the"))
        or (c.kind == "n" and (c.look().kind in ("times", "more", "x") or c.look().val == "x") and len(c.frames[0].out) > 0)
        or (c.t[c.i].val == "x" and c.look().kind == "n" and len(c.frames[0].out) > 0)
        or (c.kind == "all" and c.look().kind in ("around", "across"))
        or c.kind == "and"
    ):
        if not c.out:
            c.i = begin
            return None
        mark = next((one for one in reversed(frame.marks) if not one.used), None)
        return mark if mark is not None else False
    c.i = begin
    return None


def _marked(c: Cursor, frame: Frame, sign: str, nth: object) -> Mark | Literal[False]:
    same = [one for one in frame.marks if one.sign == sign]
    if nth == 1 and same:
        return same[0]
    if same:
        live = [one for one in same if not one.used]
        return (live or same)[-1]
    if frame.marks:
        return frame.marks[-1]
    c.trouble("bracket-open", c.span(c.i - 1), f"'{sign}' is named here, but no {sign} stands before it in this row", sign=sign)
    return False


def row_so_far(c: Cursor, frame: Frame) -> Mark:
    """The row from its beginning, without the chain, joins and colours that open it; of a bracket that has nothing before it, all."""
    if c.depth and isinstance(frame.out[0] if frame.out else None, Chain):
        return Mark("", 0, 0)  # "(2 chain, 1 treble in the next treble 10 times)": no turning chain stands inside a bracket
    index = 0
    blocks = sum(isinstance(step, Colour) and not step.join_in for step in frame.out) > 1
    for step in frame.out:
        if blocks and isinstance(step, Colour) and not step.join_in:
            break  # "4 blue, 2 gold; repeat": the first block's colour comes again too
        if isinstance(step, (Chain, Turn, Join, Colour, Ring, Aside)) and not (isinstance(step, Chain) and _is_unit(c, frame)):
            index += 1
        else:
            break
    if index and chain_of_unit(c, frame.out[:index], frame.out[index:]):
        index = max(k for k in range(index) if isinstance(frame.out[k], Chain))
    return Mark("", index + _begins_row(c, frame.out[index:]), 0)


def _begins_row(c: Cursor, steps: list[Step]) -> int:
    """How many of the steps only begin the row: "1 sc in the first stitch; then 7 chain, miss 5, 1 sc in the sixth; repeat", "begin upon
    the centre of the first group: 1 sc there, 7 chain, 1 sc on the centre of the next; and so on"."""
    first = steps[0] if steps else None
    if len(steps) < 3 or not isinstance(first, Make) or first.places != ONE or first.each != ONE:
        return 0
    words = [token for token in c.t[: c.i] if token.start >= first.span.start]
    own = [token for token in words if token.end <= first.span.end]
    led = [token.kind for token in words[len(own) :][:3]]
    in_first = any(token.kind == "o" and token.val == 1 for token in own)
    if in_first and "then" in led and led[0] in (",", ";", "and", "then"):
        return 1
    before = [token.kind for token in c.t[: c.i] if token.end <= first.span.start]
    makes = [step for step in steps if isinstance(step, (Make, Together))]
    comes_again = len(makes) == 2 and makes[1] is steps[-1] and isinstance(makes[1], Make) and makes[1].stitch == first.stitch
    return int(comes_again and (in_first or before[:2] == ["beg", "in"]))


def _is_unit(c: Cursor, frame: Frame) -> bool:
    """The row's first step is a chain that belongs to the unit (old books: "4 chain, miss 3, 1 plain: repeat")."""
    first = frame.out[0]
    follows = len(frame.out) > 1 and (c.ctx.old or type(frame.out[1]).__name__ == "Skip")
    return isinstance(first, Chain) and not first.foundation and follows


def between(c: Cursor) -> list[Step] | None:
    """ "between *s once more", "from * to * once": a repeat without its verb."""
    start = c.i
    named_from = c.kind == "from"
    c.i += 1
    if c.kind != "*":
        c.i = start
        return None
    frame = c.frames[-1]
    sign = str(c.t[c.i].val)
    c.i += 1
    mark: Mark | Literal[False] | None = None
    if c.kind in ("to", "-", "and") and c.look().kind == "*":
        if c.look().val != sign:
            mark = cut_at(c, frame, sign)
            c.told.pop("cut", None)
        else:
            c.i += 2
    elif named_from:
        c.i = start
        return None
    if c.kind in ("w", "noun") and c.t[c.i].val in ("s", "'s"):
        c.i += 1
    mark = mark or _marked(c, frame, sign, None)
    got = times(c)
    if not isinstance(mark, Mark) or got is None:
        c.i = start
        return None
    return folded(c, frame, mark, got, ending(c, frame, mark), start or 1)


def between_stars(c: Cursor) -> list[Step] | None:
    """ "Keep doing what's between the stars to the end", "repeat between asterisks 6 times": the unit between two stars, once more told."""
    start = c.i
    near = [t.text.lower() for t in c.t[c.i : c.i + 9]]
    at = next((k for k, word in enumerate(near) if word in ("stars", "asterisks")), None)
    if at is None or "between" not in near[:at] or any(t.kind in ("st", "ch", "skip", ".") for t in c.t[c.i : c.i + at]):
        return None
    c.i += at + 1
    got = times(c)
    unit = c.out[-1] if c.out else None
    if got is None or not isinstance(unit, Repeat) or unit.last:
        c.i = start
        return None
    if got.kind == "n" and unit.times.kind == "rest":
        got = Times(kind="more", number=got.number)
    c.out[-1] = replace(unit, times=got)
    return [Aside(id=c.id(), span=c.span(start))]


def _minus_one(value: Sized[int]) -> Sized[int]:
    return Sized(tuple(None if n is None else max(1, n - 1) for n in value.values))
