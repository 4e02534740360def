"""Places passed over or left: "skip 3 sts", "miss 2", "leave remaining sts unworked"."""

from __future__ import annotations

import re

from ...pattern import Aside, Chain, Choice, Colour, FastenOff, Join, Leave, Make, Shape, Sized, Skip, Step, Together, Turn
from .asides import skips_to
from .cursor import Cursor
from .limits import worked_next
from .lying_over import passes_over
from .nouns import count_noun_here, noun
from .numbers import number
from .old_books import skip_in_chain
from .skips_every import every_kth
from .skips_listed import also_of_group, beyond_start, more_skipped, under_start
from .tails import of_what
from .things import OPENINGS, PANELS
from .uncounted import long_row

EXAMPLES = (
    ("skip 3 sts", "skip3"),
    ("sk next ch", "skip ch"),
    ("miss 2", "skip2"),
    ("* sc in next 3 sc, ch 2, skip no sts, repeat from * around", "[sc×3@next sc, ch2, skip0]×rest"),
    ("leave remaining sts unworked", "leave"),
    ("sc in first 6 sts, don't work the rest", "sc×6@first st, leave"),
    ("sc in next 6, leave the others alone", "sc×6, leave"),
)


def skip(c: Cursor) -> list[Step] | None:
    start = c.i
    if not c.take("skip"):
        return None
    c.drop("over", "the", "idle", "in", "center") if c.look().kind != "st" else c.drop("over", "the", "idle", "in")
    if c.kind == "all" and c.look().kind in ("the", "st", "noun", "ch", "sp"):
        c.i += 1 + (c.look().kind == "the")  # "2 sc in each sp, skipping all the dcs"
    if skips_to(c) or _up_to_a_space(c) or _a_length(c):
        return [Aside(id=c.id(), span=c.span(start))]  # what is gone to next is named: what lies before it is passed over
    if (none := _none_passed(c, start)) is not None:
        return none
    places = None
    if c.kind in ("both", "all") and c.t[c.i].val in ("both", "all both"):
        c.i += 1
        c.take("the")
        what = noun(c) or "st"
        return [Skip(id=c.id(), span=c.span(start), number=Sized((2,)), what=what)]
    if (every := every_kth(c, start)) is not None:
        return every
    if c.kind in ("next", "o", "last", "each", "same") and not (c.kind == "o" and c.t[c.i].val > 1):
        ordinal = c.kind == "o"
        c.i += 1
        places = number(c)
        if places is None and ordinal and c.kind in (",", ";", ".", ""):
            return [Skip(id=c.id(), span=c.span(start), number=Sized((1,)), what="st", first=True)]
    elif c.kind == "a":
        c.i += 1
        c.take("next")
    elif c.kind in ("n", "rem"):
        places = None if count_noun_here(c) else number(c)
        c.drop("rem", "unworked", "next", "free")
        if places is None and c.kind == "n":
            places = None
    c.drop("idle", "unworked", "next") if c.kind in ("idle", "unworked", "next") else None
    what = noun(c, chains=places is None) or "st"
    if what.startswith("ch-") and not what.endswith("sp"):
        what += " sp"
    if c.t[start + 1].kind == "o" and c.kinds("of", "each", "row"):
        c.i += 3
        less = Sized(tuple(None if n is None else -n for n in (places or Sized((1,))).values))
        return [Shape(id=c.id(), span=c.span(start), change=less, where="beginning")]
    of_chain = what == "st" and c.kind == "of" and "ch" in {c.look(k).kind.removeprefix("t") for k in (1, 2)}
    of_row = _more_named(c)
    if of_chain and c.t[c.i - 1].kind in ("ch", "tch"):
        what = "ch"  # "skip 3 sts of ch"
    if c.below:
        return [Aside(id=c.id(), span=c.span(start))]  # passed over in a row below: this row's own places are not touched
    if c.elsewhere is not None and c.elsewhere.loop != "both":
        what = "st"
    told = [token.kind for token in c.t[start + 1 : start + 3]]
    first = told[:1] == ["o"] or told == ["the", "o"]
    beyond_start(c)
    first = under_start(c) or first
    last = c.t[c.i - 1]
    if places is None and what == "sl st" and last.end - last.start in _PLURALS:
        places = Sized((2,))  # "skip the sl sts": those that joined the row on, two by custom (common practice, no source)
    by_the_way = c.t[start].text.lower() in ("skipping", "missing", "ignoring")
    spaces = what.endswith("sp")
    if places is None and (by_the_way or spaces) and _along(c, start, spaces=not by_the_way):
        return [Aside(id=c.id(), span=c.span(start))]  # "3 sc in each sp, skipping the dcs", "sc in each dc, sk ch-2 sps"
    if by_the_way and places is None and spaces and _each_next(c):
        return [Aside(id=c.id(), span=c.span(start))]  # "skipping the ch-2 sps, sc in each dc across"
    if places is None and _own_chain(c, what):
        return [Aside(id=c.id(), span=c.span(start))]  # "dc in each ch around, skip ch-2 and join to first dc"
    if places is None and passes_over(c, start):
        return [Aside(id=c.id(), span=c.span(start))]
    places = places or _those(c, start)
    step = Skip(id=c.id(), span=c.span(start), number=places or Sized((1,)), what=what, row=of_row, first=first)
    alone = not first and step.what not in ("ch", "sp") and c.t[start + 1].kind != "next" and not (c.kind == "and" and _skip_goes_on(c))
    if alone and _stands_alone(c, step.number):
        its_own = Skip(id=c.id(), span=c.span(start), number=step.number, what=step.what, first=True)
        beyond = step.number == Sized((1,)) and not _plain_run(c)
        starred = any(not mark.used and mark.index == len(c.out) for mark in c.frames[-1].marks)  # every unit passes as many
        answers = ((step,), (its_own,)) if beyond or starred else ((its_own,), (step,))
        return [Choice(id=c.id(), span=c.span(start), question=SKIPS_ITS_OWN, answers=answers)]
    bound = skip_in_chain(c, step)
    if bound is not None:
        return bound
    steps: list[Step] = [step]
    steps += more_skipped(c) or also_of_group(c)
    while c.kind in ("and", "&") and c.look().kind in ("next", "n", "a", "st", "noun", "the", "ch", "sp") and _skip_goes_on(c):
        begin = c.i
        c.i += 1
        c.drop("next", "a", "the")
        more = number(c) if not count_noun_here(c) else None
        other = noun(c)
        if other is None:
            c.i = begin
            break
        _beyond(c)
        steps.append(Skip(id=c.id(), span=c.span(begin + 1), number=more or Sized((1,)), what=other))
    _what_for(c)
    return steps


def _own_chain(c: Cursor, what: str) -> bool:
    """Whether the chain that the row began with is passed over where the row is joined."""
    begun = next((step for step in c.out if not isinstance(step, (Aside, Colour, Turn))), None)
    own = isinstance(begun, Chain) and not begun.foundation and what in (f"ch-{begun.number.at(0)} sp", f"ch-{begun.number.at(0)}", "tch")
    ahead = c.t[c.i + (c.kind in (",", ";", "and", "&"))].kind == "join"
    return own and ahead and any(isinstance(step, (Make, Together)) for step in c.out)


def _a_length(c: Cursor) -> bool:
    """Past "(miss) ¼ inch", "(skip) about 1 cm of edge" of a piece of cloth, which has no stitches; False with the cursor unmoved."""
    k = c.i + (c.kind == "around")
    unit = c.t[k + 1]
    if c.t[k].kind != "n" or not (unit.text.lower() in _LENGTHS or (unit.kind == "in" and c.t[k + 2].kind in (",", ".", ";"))):
        return False
    c.i = k + 2
    while c.kind not in (",", ";", "", ")", "]", ".", "and"):
        c.i += 1
    return True


_LENGTHS = frozenset(("inch", "inches", "cm", "mm", "ins", "centimetre", "centimetres", "centimeters"))


def _none_passed(c: Cursor, start: int) -> list[Step] | None:
    """ "(1 long, 1 chain,) miss none", "skipping no stitches", "(without) missing any", "(no stitches are) missed": nothing is passed over,
    and a chain told just before spans nothing. None with the cursor unmoved."""
    if c.t[c.i].text.lower() in ("none", "nothing", "no"):
        c.i += 1
    else:
        k = start - 1
        while k > max(0, start - REACH) and (c.t[k].kind in _ARE_PASSED or c.t[k].text.lower() in _AUXILIARY):
            k -= 1
        if k < 0 or not (c.t[k].kind in ("not", "without") or c.t[k].text.lower() in ("none", "nothing")):
            return None
    c.drop("any", "a", "of", "the", "idle")
    noun(c)
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if isinstance(before, Chain):
        return [Skip(id=c.id(), span=c.span(start), number=Sized((0,)))]
    return [Aside(id=c.id(), span=c.span(start))]


_ARE_PASSED = frozenset(("noun", "st", "ch", "sp", "of", "the", "idle", "any"))
_AUXILIARY = frozenset(("is", "are", "was", "were", "be", "being", "been", "to", "should", "will"))
"""What may stand between a negation and the skip that it denies."""


def _along(c: Cursor, start: int, *, spaces: bool) -> bool:
    """Whether the words before tell a run along the whole row, amid which the places lie; `spaces`: one that goes by stitches."""
    bracket = not c.out and len(c.frames) > 1 and c.t[start - 1].kind in ("(", "[")
    out = c.frames[-2].out if bracket else c.out
    run = out[-1] if out else None
    if not isinstance(run, (Make, Together)) or run.places != "rest":
        return False
    return not spaces or (isinstance(run, Make) and not run.upto and not any(run.but.values) and not run.at.what.endswith("sp"))


def _each_next(c: Cursor) -> bool:
    """Whether the next clause works a stitch in each place: ", sc in each dc across"."""
    kinds = [token.kind for token in c.t[c.i : c.i + 5]]
    return kinds[:1] == [","] and "st" in kinds and "each" in kinds


def _those(c: Cursor, start: int) -> Sized[int] | None:
    """ "… till 2 dc and the end sc remain, skip those dc": as many as were told just before; None where none were."""
    said = c.t[start + 1]
    if said.text.lower() not in ("those", "these", "them"):
        return None
    named = c.t[c.i - 1]
    for k in range(start - 2, max(start - REACH, -1), -1):
        number, what = c.t[k], c.t[k + 1]
        alike = what.kind == named.kind and (named.kind != "st" or what.val == named.val)
        if number.kind == "n" and isinstance(number.val, int) and (alike or said is named):
            return Sized((number.val,))
    return None


REACH = 14
"""How many words back "those" may look."""


def _up_to_a_space(c: Cursor) -> bool:
    """Past "(skip) the sleeve sts" where no number is told and the next clause works into a space: what lies before that is passed over."""
    begin = c.i
    c.drop("the", "idle", "all", "first", "second")
    if c.t[c.i].text.lower() in PANELS:
        c.i += 1
        c.take("noun")
        if worked_next(c):
            return True
    c.i = begin
    return False


def _what_for(c: Cursor) -> None:
    """Pass over "for (the back of the) neck", "for underarm": what the places passed over are left for."""
    begin = c.i
    if not c.take("for", "of"):
        return  # "miss the 16 tr of second sleeve"
    while c.i - begin < 8 and (
        c.kind in ("the", "a", "each", "o", "of", "back", "front", "center", "idle", "other", "next", "same")
        or c.t[c.i].text.lower() in ("left", "right", "second", "first")
        or c.t[c.i].val in _LEFT_FOR
    ):
        c.i += 1
    if c.t[c.i - 1].val not in _LEFT_FOR:
        c.i = begin


_LEFT_FOR = OPENINGS | {"neck", "neckline", "buttonhole"}


_PLURALS = frozenset(len(word) for word in ("sl sts", "slip sts", "slip stitches"))
"""How long they are in the text: a token of several words keeps only the first of them to be looked at."""
SKIPS_ITS_OWN = "Does the skip after a starting chain mean the stitch that the chain stands in?"


def _stands_alone(c: Cursor, passed: Sized[int]) -> bool:
    """Only a starting chain that stands for one stitch comes before, and the row's stitches after: "2 ch (counts as htr), miss 1 st, 1 htr
    in each htr to end"; or one that stands for a stitch and the chain beside it: "ch 4, turn, sk 2 sc, dc in next sc"."""
    if c.ctx.old or passed.many:
        return False
    before = [step for step in c.out if not isinstance(step, (Aside, Turn, Colour))]
    chain = before[0] if len(before) == 1 and len(c.frames) == 1 else None
    after = c.t[c.i + 1] if c.kind in (",", "and") else c.t[c.i]
    if not before and len(c.frames) == 1 and not (c.ctx.rounds or c.ctx.begins or c.ctx.on_chain):
        return passed.values[0] == 1 and _plain_run(c)  # the chain may stand at the end of the row before
    if not isinstance(chain, Chain) or chain.foundation or after.kind not in ("st", "n", "*"):
        return False
    long, number = chain.number.values[0] or 0, passed.values[0]
    if number == 1:
        return 1 <= long <= 4 and len(chain.stands_for) <= 1 and after.kind != "*"
    return number == 2 and 4 <= long <= 6 and chain.counts is None and after.kind != "n" and not c.ctx.rounds


def _plain_run(c: Cursor) -> bool:
    """Whether a run of one stitch follows ("…, d c in each d c", "…, 1 d c in each of next 18 d c"): nothing tells of a hole, and
    the row is meant to keep its stitches (common practice, no source)."""
    k = c.i + (c.kind in (",", "and", "."))
    k += c.t[k].kind in ("w", "work")
    k += c.t[k].kind == "n"
    if c.t[k].kind != "st" or c.t[k + 1].kind != "in":
        return False
    k += 2 + (c.t[k + 2].kind == "next")
    return c.t[k].kind == "each" or (c.t[k].kind == "n" and c.t[k].val > 1)


def _beyond(c: Cursor) -> None:
    """Past "beyond it", "after it", "after that"."""
    if (c.t[c.i].text.lower() == "beyond" or c.kind in ("after", "next")) and c.look().kind == "the":
        c.i += 2


def _skip_goes_on(c: Cursor) -> bool:
    """ "sk 3 ch and next st", "sk 1 sc & 1 dc", "skip next 24 sts and next ch-1 sp", "sk dc and ch-1 sp": more is skipped, not worked."""
    begin = c.i
    c.i += 1
    c.take("the")
    by_next = c.take("next", "a") is not None
    a_space = c.kind in ("ch", "sp") or (c.kind == "n" and count_noun_here(c))
    many = not a_space and number(c) is not None
    what = noun(c) if by_next or many or a_space else None
    what = what if what is None or not a_space or what.endswith("sp") else None
    _beyond(c)
    ends = c.kind in (",", ";", ".", "", "*", ")", "]")
    c.i = begin
    return what is not None and ends


def _more_named(c: Cursor) -> str | None:
    """Pass over "behind post sts", "of previous row" after what is skipped; a row named outright ("of Row 18") comes back."""
    if long_row(c):
        return None
    if c.kind == "below":
        c.i += 1
    if c.t[c.i].text.lower() == "on" and _on_the_piece(c):
        return None
    if c.kind in ("of", "in", "on", "from", "behind", "at", "between"):
        start = c.i
        in_back = c.kind in ("in", "at") and c.look().text.lower() == "back" and c.look(2).kind == "of"
        if c.kind == "between" or c.kind == "behind" or in_back:
            c.i += 3 if in_back else 1
            c.drop("the")
            if noun(c) is None:
                c.i = start
            return None
        facts: dict[str, object] = {}
        if c.kind in ("of", "from") and not of_what(c, facts):
            c.i = start
        row = facts.get("row")
        close = c.close.get(c.i)
        if row is not None and close is not None and all(t.kind in ("n", ",", "-") for t in c.t[c.i + 1 : close]):
            c.i = close + 1  # "of row 58 (60, 62, 64)"
        return row if isinstance(row, str) else None
    return None


def _on_the_piece(c: Cursor) -> bool:
    """Past "on the ring", "on Rnd 2", "on base", said of what is skipped beside a spur of chains; False with the cursor unmoved."""
    begin = c.i
    c.i += 1
    c.drop("the", "beg", "center")
    if c.kind in ("ring", "mring", "row", "rnd", "around", "piece", "base") or c.t[c.i].text.lower() in ("circle", "round", "band", "base"):
        c.i += 1
        c.take("n")
        if c.kind in (",", ";", ".", "", ")", "*", "and"):
            return True
    c.i = begin
    return False


def leave(c: Cursor) -> list[Step] | None:
    """ "leave last 5 sts unworked", "leaving remaining sts unworked", "leave remaining 3 sts"."""
    start = c.i
    if not c.take("leave"):
        return None
    if (last := _last_one(c, start)) is not None:
        return last
    if (
        not _rest_free(c)
        and any(
            c.t[k].kind in ("free", "drop", "tail", "color") or c.t[k].val in ("end", "hanging", "ends", "attached")
            for k in range(c.i, min(c.i + 6, len(c.t)))
        )
        and not any(c.t[k].kind in ("n", "unworked") for k in range(c.i, min(c.i + 5, len(c.t))))
    ):
        while c.kind not in (",", ";", ".", "", ")", "]"):
            c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]
    if (kept := _kept_for_later(c, start)) is not None:
        return kept
    if c.t[c.i].text.lower() in ("it", "this", "that") and c.look().kind in (",", ";", ".", "", ")", "]", "turn", "and"):
        c.i += 1
        return [Leave(id=c.id(), span=c.span(start), number=Sized((1,)))]  # "sc to the last st, leave it"
    c.drop("the", "idle", "rem", "last", "next", "all", "other")
    if c.t[c.i - 1].kind == "rem" and c.kind == "of":
        c.drop("of", "the", "your")
    if c.kind == "o" and c.t[c.i].val == 1:
        c.i += 1  # "leaving first 2 sts unworked": passed over where the row begins
    told = number(c)
    c.drop("rem", "idle")
    what = noun(c)
    if c.t[c.i - 1].kind == "rem" and c.kind == "for":  # "leave rest for second side"
        while c.kind not in (",", ";", ".", "", ")", "]"):
            c.i += 1
        return [Leave(id=c.id(), span=c.span(start), number=told)]
    kind = "ch" if what in ("ch", "chs") else "st"
    if told is not None and what is None and c.kind in (",", ";", ".", "", "turn"):
        return [Leave(id=c.id(), span=c.span(start), number=told)]  # "turn, leaving 11"
    if told is not None and c.take("unworked", "free", "for"):  # "leaving 11 (stitches) for the neck"
        while c.kind not in (",", ";", ".", "", ")", "]", "turn"):
            c.i += 1
        return [Leave(id=c.id(), span=c.span(start), number=told, what=kind)]
    if c.t[c.i - 1].kind == "rem" and told is None and what is None and c.kind in (",", ";", ".", "", ")", "]", "turn"):
        return [Leave(id=c.id(), span=c.span(start))]  # "leave the rest, turn"
    if c.i > start + 1 and c.t[c.i].text.lower() in _ALONE:
        c.i += 1  # "leave the rest alone (8)", "leave the rest as they are"
        while c.kind in ("w", "as", "for", "now", "idle", "the"):
            c.i += 1
        return [Leave(id=c.id(), span=c.span(start), number=told, what=kind)]
    if c.take("unworked") or (what is not None and c.t[c.i - 1].kind != "leave" and _left_over(c, start)):
        return [Leave(id=c.id(), span=c.span(start), number=told, what=kind)]
    if told is None and what is None and c.t[c.i - 1].kind == "rem" and c.kind in (",", ";", ".", ""):
        return [Leave(id=c.id(), span=c.span(start))]  # "turn, leaving the rest"
    figure = what == "group" or (what is None and c.kind == "w" and c.look().kind in (",", ";", ".", ""))
    if told is None and figure and c.out:
        c.i += what is None
        return [Leave(id=c.id(), span=c.span(start))]  # "turn, leaving the scallop"
    if c.kind == "free":
        c.i += 1
        return [Leave(id=c.id(), span=c.span(start), number=told, what=kind)]
    c.i = start
    return None


def _rest_free(c: Cursor) -> bool:
    """Whether "(leave) remaining sts free", "the rest of the sts free", "other sts free" stands here: free is unworked."""
    k = c.i + (c.kind == "the")
    if c.t[k].kind not in ("rem", "other"):
        return False
    k += 1
    while c.t[k].kind in ("of", "the", "st", "noun", "grp", "sp"):
        k += 1
    return c.t[k].kind == "free"


def _last_one(c: Cursor, start: int) -> list[Step] | None:
    """ "(Leaving) last sc free", "the last st", "the last dc unworked": that one is left; None with the cursor unmoved."""
    begin = c.i
    c.take("the")
    if c.take("last") and c.kind in ("st", "noun", "ch") and not c.t[c.i].text.lower().endswith("s"):
        what = "ch" if c.kind == "ch" else "st"
        c.i += 1
        c.drop("free", "unworked")
        if c.kind in (",", ";", ".", "", ")", "]", "(", "turn", "and"):
            return [Leave(id=c.id(), span=c.span(start), number=Sized((1,)), what=what)]
    c.i = begin
    return None


_ALONE = frozenset("alone be unused empty untouched behind waiting unstitched as".split())  # noqa: SIM905
_REST_LEFT = re.compile(r"(?:do not|don't|dont|never) (?:work|touch|use|bother with)|ignore|forget(?: about)?|stop (?:there|here)")
"""Words before "the rest", or in its place, that say it is left unworked."""


def rest_unworked(c: Cursor) -> list[Step] | None:
    """ "Do not work the rest", "ignore the remaining sts", "stop there": what is left of the row below waits."""
    start, said = c.i, ""
    told: Sized[int] | None = None
    for token in c.t[start : start + 3]:
        said = f"{said} {token.val if token.kind == 'not' else token.text.lower()}".strip()
        c.i += 1
        if _REST_LEFT.fullmatch(said):
            break
    else:
        c.i = start
        return None
    if not said.startswith("stop"):
        c.drop("the", "other")
        if not c.take("rem", "last") and c.t[c.i - 1].kind != "other":
            c.i = start
            return None
        c.drop("of", "the")
        told = number(c) if c.kind == "n" else None
        noun(c)
        c.drop("idle")
    if c.kind not in (",", ";", ".", "", "(", ")", "turn", "-", "=", "and"):
        c.i = start
        return None
    return [Leave(id=c.id(), span=c.span(start), number=told)]


def _kept_for_later(c: Cursor, start: int) -> list[Step] | None:
    """ "… join. The front is worked to and fro, leaving 12 stitches of the crown free for the neck": said of the rows to come, once the
    row at hand is closed or turned. None with the cursor unmoved."""
    begin = c.i
    told = [step for step in c.out if not isinstance(step, Aside)]
    if not told or not isinstance(told[-1], (Join, FastenOff)):
        return None
    c.drop("the", "idle")
    left = number(c)
    if left is None or noun(c) is None:
        c.i = begin
        return None
    end = c.i
    while c.t[end].kind not in (",", ";", ".", "", "(", ")", "st", "ch", "turn", "join", "n"):
        end += 1
    if c.t[end].kind not in (",", ";", ".", "") or not any(token.kind in ("free", "unworked") for token in c.t[begin:end]):
        c.i = begin
        return None
    c.i = end
    c.told["left_free"] = left
    return [Aside(id=c.id(), span=c.span(start))]


def only_these(c: Cursor, got: list[Step]) -> list[Step]:
    """ "Sc in first 10 sts only, turn": the others are left."""
    last = got[-1] if got else None
    only = c.t[c.i - 1].val == "only" and (c.kind == "turn" or (c.kind in (",", ".", ";", "and") and c.look().kind == "turn"))
    if not only or not isinstance(last, Make) or last.places == "rest" or last.at.where not in ("next", "first"):
        return got
    return [*got, Leave(id=c.id(), span=c.span(c.i - 1))]


def _left_over(c: Cursor, start: int) -> bool:
    if c.kind == "for" and c.look().val in ("now", "later"):
        c.i += 2
    return any(c.t[k].kind in ("rem", "last") for k in range(start, c.i)) and c.kind in (",", ";", ".", "")
