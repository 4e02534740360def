"""Stated counts: "(36 dc)", "[24]", "= 24 sc", "—24 sc.", "24 sts.", "You should have 24 sts", "(12 hdc, 6 ch-2 sps)"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import LIMITS, Aside, Count, Make, Step
from ...trade.kinds import FOUNDATION_STITCHES
from ..wording.token import Token
from . import count_or_work
from .bracket_remarks import prose_inside
from .chain_counts import ARE
from .counts_adding_up import adds_up, made_of
from .counts_by_panel import by_panel
from .counts_listed import listed
from .cursor import FAR, Cursor
from .staying_free import stays_free

EXAMPLES = (
    ("sc around. (36 sc)", "sc×rest | 36 sc"),
    ("inc in each st around [12]", "2sc×rest | 12 st"),
    ("sc around = 24 sc", "sc×rest | 24 sc"),
    ("sc in each st across—24 sc.", "sc×rest | 24 sc"),
    ("hdc across. You should have 24 stitches.", "hdc×rest | 24 st"),
    ("hdc around (12 hdc, 6 ch-2 sps)", "hdc×rest | 12 hdc, 6 ch-2 sp"),
    ("dc across. (30 dc, counting turning ch)", "dc×rest | 30 dc"),
    ("dc across -- 29 dc and beg ch at end", "dc×rest | 29 dc"),
    ("dc across. (30: 26 dc, 4 bobbles)", "dc×rest | 30 st, 26 dc, 4 bobble"),
    ("sc around. (34 sc, 1 ch-6 thumb space)", "sc×rest | 34 sc, 1 ch-6 sp"),
    ("sc around. (34 sc, 1 buttonhole)", "sc×rest | 34 sc, 1 buttonhole"),
    ("hdc in next 3 sts, ch 5, sk 5, hdc to end, join. (25 hdc, ch 5)", "hdc×3, ch5, skip5, hdc×rest, join | 25 hdc"),
)

_END = frozenset(("", ".", ")", "]", "}"))
_THEN = frozenset(("turn", "ch", "foff", "join", "cont", "and", *count_or_work.CHANGES_YARN))
"""What may follow a row's count behind a comma."""
LONGEST_TOLD = 40
"""Words of a sentence in which the end of a count is looked for."""
LONGEST = 30 * LIMITS.sizes
"""Words of the longest bracket that may state counts: every size with a dozen kinds of its own."""


def bracketed(c: Cursor) -> list[Step] | None:
    """A bracket that states a count (nothing else in it); the steps are none, the count goes to the row."""
    close = c.close.get(c.i)
    if close is None or close - c.i > LONGEST:
        return None
    yarn = c.t[close + 1]
    if yarn.text.isupper() and yarn.text.lower() in c.ctx.colours and c.t[close + 2].kind in (",", ".", ";", "", "and"):
        return None  # "(10) MC, (1) A": so many in that yarn
    start = c.i
    if (by_sections := by_panel(c, close)) is not None:
        add(c, by_sections, start)
        return [] if by_sections else [Aside(id=c.id(), span=c.span(start))]
    end = _before_chain_remark(c, close)
    own = c.look().kind == "n" and c.look(2).kind == "noun" and c.look(3).kind in (",", ";", "-")  # "(36 sts, chs count as sts)"
    if not own and any(c.t[k].kind == "counts" and c.t[k + 1].kind == "as" for k in range(start, end)):
        return None  # "(3 skipped chs count as first dc)": what chains stand for
    if c.look().kind == "n" and c.look(2).kind == "skip" and c.look(3).kind in ("ch", "tch"):
        return None  # "(2 skipped chs don't count)"
    c.i += 1
    end = _before_sides(c, end)
    found = listed(c, end)
    if found is None or c.i != end:
        c.i = start
        return None
    c.i = close + 1
    if _goes_on(c):
        c.i = start
        return None
    if (
        (c.t[close - 1].val == "made" and c.kind in (",", ";") and c.look().kind in ("st", "n", "ch", "*", "skip", "grp"))
        or _mid_row(c)
        or _of_one_side(c, found, close)
    ):
        c.told["running"] = True  # "… in 8th ch from hook (1 sp made), d c in …": of what was just worked
    add(c, found, start)
    return []


def _before_chain_remark(c: Cursor, close: int) -> int:
    """Where "(16 dc, the ch 3 always counting as one.)", "(12 dc - the skipped chs count as one)" stops counting and says what the chain
    is; the bracket's end elsewhere."""
    for k in range(c.i, close):
        chain = c.t[k].kind in (",", ";", "-", ":") and any(t.kind in ("ch", "tch") for t in c.t[k + 1 : k + 4])
        chain = chain and c.t[k + 1].kind in ("the", "skip", "beg", "tch")
        if chain and any(t.kind in ("counts", "counter") or t.val == "counting" or t.text.lower() in ARE for t in c.t[k + 1 : close]):
            return k
    return close


def _before_sides(c: Cursor, end: int) -> int:
    """Where "(60 sc - that's 15 on each side)", "(60 sc, so 15 a side)" tells the same count by its sides; `end` elsewhere."""
    for k in range(c.i + 2, end):
        words = c.t[k + 1 : end]
        if c.t[k].kind in (",", "-", ";", ":") and words and words[0].kind != "n":
            sides = any(word.kind == "side" for word in words) and sum(word.kind == "n" for word in words) == 1
            return k if sides and not any(word.kind in ("ch", "sp", "st") for word in words) else end
    return end


def _of_one_side(c: Cursor, found: list[Count], close: int) -> bool:
    """ "Sc in 2nd ch and in each ch (24); sc in the bottom of each ch (24)": so many on either side of the chain, each told behind it."""
    if len(found) != 1 or not any(isinstance(step, Make) and step.at.where == "from_hook" for step in c.out):
        return False
    ahead = [token.kind for token in c.t[close + 1 :]]
    if "opp" in ahead and "st" in ahead and not any(isinstance(step, Make) and step.at == FAR for step in c.out):
        return True
    return any(one.running and (one.number == found[0].number or "total" in ahead) for one in c.counts)


def _mid_row(c: Cursor) -> bool:
    """ "Dc in 8th ch (1 sp), 3 more sps": what follows the bracket is work of the same row, and neither its closing nor its turning."""
    if c.kind not in (",", ";", "and") or len(c.frames) > 1:
        return False
    if c.ctx.passes and c.look().kind in ("pick", "insert", "pull", "yo") and not (c.look().kind == "pull" and c.look(2).kind == "over"):
        return True  # "(3 loops on hook), pick up post 4 and 5": so many by then
    first, second = c.look(), c.look(2)
    if first.kind in ("st", "grp"):
        return bool(first.val != "sl st")
    return first.kind in ("*", "skip", "inc", "dec") or (first.kind == "n" and second.kind in ("st", "grp", "more", "sp", "group"))


def _goes_on(c: Cursor) -> bool:
    """After the bracket comes a place or a number of times: then it was a group."""
    kind = c.kind
    if kind == "*" and c.look().kind == "n" and (not c.look().gap or (not c.out and c.look(2).kind in ("(", "[", "=", "", "."))):
        return True  # "[1 sc, 1 dec] * 6 (12)"
    if kind == "rep" and (c.look().kind == "n" or c.look().val == "x" or c.look().kind in ("around", "across")):
        return True  # "[5 sc, 1 inc] repeat 6 times"
    if kind == "work" and c.t[c.i].text[:1].isupper() and _before_bracket(c) == ".":
        return False  # "…, 2 sc in last. (42 sc) Work in a spiral.": a sentence of its own
    if kind in ("all", "work", "tog"):  # "(1 hdc, 2 dc, 1 hdc) all worked in next st"
        return c.look(1 + (c.look().kind == "work")).kind in ("in", "over")
    if kind in ("once", "in", "over", "under"):
        return not (kind == "in" and c.look().kind in ("total",)) and not (c.kind == "in" and c.t[c.i].val == "in all")
    if kind == "n":
        return c.look().kind in ("times", "more") or c.look().val == "x"
    if kind == "w":
        return c.t[c.i].val == "x" and c.look().kind == "n"
    return kind in ("around", "across") and not c.out


def _before_bracket(c: Cursor) -> str:
    """What kind of word stands before the bracket that has just been passed."""
    opened = next((k for k, close in c.close.items() if close == c.i - 1), 0)
    return c.t[opened - 1].kind if opened else ""


def add(c: Cursor, found: list[Count], start: int) -> None:
    """Keep counts found from token `start` on as stated by the row."""
    span = c.span(start)
    running = bool(c.told.pop("running", False))
    if len(found) == 1 and found[0].change and _of_last_shaping(c, found[0]):
        return
    for one in found:
        c.counts.append(replace(one, span=span, running=one.running or running))


def _of_last_shaping(c: Cursor, told: Count) -> bool:
    """ "2 sc in first st, …, 2 sc in last st (1 st increased)": said of the shaping just made, which is not the only one of its row."""
    changes = [step.each.values[0] - step.closes for step in c.out if isinstance(step, Make) and step.each.values[0] is not None]
    return bool(changes) and told.number.values == (changes[-1],) and sum(change != 0 for change in changes) > 1


_WORKED = frozenset(("st", "grp", "skip", "turn", "join", "rep", "inc", "dec", "next"))
"""Words that begin an instruction and no count (see `counts_listed.listed`)."""


def _in_the_round(c: Cursor, end: int) -> int:
    """Where "in this round", "on the row", "now in the round" begins that ends a count told before it; 0 where none does."""
    k = end - 1
    if k - 1 <= c.i or not (c.t[k].kind in ("row", "rnd") or c.t[k].val == "round"):
        return 0
    k -= c.t[k - 1].kind == "the" or c.t[k - 1].text.lower() in ("this", "that")
    return k - 1 if c.t[k - 1].kind == "in" and c.t[k - 1].text.lower() in ("in", "on") else 0


def trailing(c: Cursor) -> list[Step] | None:
    """ "= 24 sc", "- 24 sc.", ": 8 loops", ", 24 sc." at a row's end; or a sentence that states it."""
    start = c.i
    if c.kind in ("=", "-", ":", ",", ";"):
        c.i += 1
        if c.kind in ("(", "[", "{"):
            got = bracketed(c)
            if got is not None:
                return got
            c.i = start
            return None
    if c.kind in _WORKED or len(c.frames) > 1 or (not c.out and not c.counts):
        c.i = start
        return None
    if c.kind == "n" and stays_free(c) is not None:
        c.i = start
        return None
    end = _sentence_end(c)
    end = next((k for k in range(c.i, min(end, c.i + 24)) if c.t[k].kind == "foff"), end)
    near = min(end, c.i + LONGEST_TOLD)
    yarn = next((k for k in range(c.i + 1, near) if c.t[k].kind == "," and c.t[k + 1].kind in count_or_work.CHANGES_YARN), None)
    if yarn is not None:
        end = near = yarn  # "; 44 sts, pick up White"
    end = next((k for k in range(c.i + 1, near) if c.t[k].kind in ("(", "[") and c.t[k - 1].kind in ("noun", "st", "sp", "lp", "grp")), end)
    if c.kind == "n" and c.t[start].kind in ("-", "=") and c.look().kind in ("(", "[") and (close := c.close.get(c.i + 1)):
        end = c.i + 1 if prose_inside(c, c.i + 1, close) else end  # "- 24 (that first bit is one sc in each st)"
    if c.t[start].kind in ("=", "-"):
        end = next((k for k in range(c.i, end) if c.t[k].kind == ";" and c.t[k + 1].kind in ("ch", "turn", "join", "foff")), end)
        if c.t[start].kind == "=":  # "sc across = 14 sc, to last row": the row goes on
            end = next((k for k in range(c.i + 2, end) if c.t[k].kind in (",", ";") and c.t[k + 1].kind in _ROW_GOES_ON), end)
    if c.t[start].kind in ("=", "-"):  # "- 24 sts Insert the eyes …": a sentence begins where nobody set a stop
        end = next((k for k in range(c.i + 1, near) if new_sentence(c, k)), end)
    whole, end = end, _before_its_use(c, end)
    in_the_round = _in_the_round(c, end)
    end = in_the_round or end
    strong = c.t[start].kind in ("=", ":")
    if (
        not strong
        and c.t[start].kind != "-"
        and any(c.t[k].kind in ("in", "next", "last", "first") for k in range(start, min(end, start + 9)))
    ):
        c.i = start  # "…, 2 dc in last st.": a place is named, so it is work, not a count
        return None
    found = listed(c, end)
    if in_the_round and found is not None and c.i == in_the_round:
        c.i = _sentence_end(c)
    if found is None or (
        c.kind not in _END | {"foff", "(", "[", "for"}
        and c.i != end
        and not (c.kind in (",", ";") and (c.t[start].kind == "=" or c.look().kind in _THEN))
    ):
        c.i = start
        return None
    if not strong and c.t[start].kind != "-" and any(one.kind in FOUNDATION_STITCHES for one in found):
        c.i = start  # "…, 3 fdc, turn": stitches worked in the air beyond the edge; a count names plain kinds
        return None
    if not strong and (
        all(one.kind == "ch" for one in found)
        or (c.t[start].kind == "n" and [one.kind for one in found] == ["sl st"] and found[0].number.values == (1,))  # it closes the round
        or ({",", ";"} & {c.t[start].kind, c.t[start - 1].kind} and (found[0].number.values[0] or 0) <= 3)
    ):
        c.i = start  # "…, 3 ch, turn", "…, 1 sc.": work
        return None
    strong = strong or any(token.kind == "total" for token in c.t[start : c.i])  # ", 24 dc total"
    plain_noun = found[0].kind != "st"
    dash = c.t[start].kind == "-"
    if not strong and not dash and c.t[start].kind not in (",", ";"):
        first = c.t[start]
        loops = start > 0 and c.t[start - 1].kind == "." and all(one.kind.endswith("sp") or one.kind in _WHOLES for one in found)
        summed = start > 0 and c.t[start - 1].kind == "." and _ends_row(c) and adds_up(c.out, found)
        summed = summed or (start > 0 and c.t[start - 1].kind == "." and any(t.text.lower() in _COUNTS_IN for t in c.t[start : c.i]))
        if first.kind == "n" and plain_noun and not loops and not summed and not used_up(c, start):
            c.i = start
            return None
    unsure = c.t[start].kind in (",", ";") and (plain_noun or c.t[start].kind == ";") and not used_up(c, start)
    if unsure and not (c.t[start].kind == ";" and count_or_work.ends_all(c, c.i, found)):
        asked = count_or_work.either(c, start, c.i, found)
        c.i = start if asked is None else c.i
        return asked
    if not strong and not dash and {",", ";"} & {c.t[start].kind, c.t[start - 1].kind} and _less_than_made(c.out, found):
        c.i = start  # "5 sc, sc in each ch, 5 sc": a row that has made as many already comes to more
        return None
    if dash and c.t[start].val == "tight" and not used_up(c, start):
        c.i = start
        return None
    if c.i == end:
        c.i = whole
    add(c, found, start)
    return []


_WHOLES = frozenset(("shell", "block", "group", "corner", "petal", "point", "scallop", "V-st", "fan"))
"""What a row is told to have, and what no sentence of its own tells to work without a word of how."""


_OF_COUNTS = frozenset("st ch grp inc dec noun n row rnd color sp lp mesh tch corner side each in total loop".split())  # noqa: SIM905


def new_sentence(c: Cursor, k: int) -> bool:
    """Whether token `k`, right behind a number or a stitch, begins a sentence that nobody set a full stop before."""
    word = c.t[k]
    begins = word.text[:1].isupper() and word.text[1:2].islower() and word.kind not in _OF_COUNTS
    return begins and str(word.val) not in c.ctx.colours and c.t[k - 1].kind in ("n", "st", "noun", "sp", "lp", "grp")


def _less_than_made(steps: list[Step], found: list[Count]) -> bool:
    """Whether the steps told in numbers make as many as are told, before a run to the end adds to them."""
    sure = made_of([step for step in steps if not (isinstance(step, Make) and step.places == "rest")])
    more = any(isinstance(step, Make) and step.places == "rest" for step in steps)
    told = found[0].number.at(0)
    return more and sure is not None and len(found) == 1 and told is not None and found[0].kind in sure and told <= sure[found[0].kind]


def _per_side(c: Cursor, k: int) -> bool:
    """ "(60 sc,) 15 on a side counting …": the same count told by its sides."""
    kinds = [token.kind for token in c.t[k : k + 4]]
    return kinds[:2] == ["n", "in"] and kinds[2:3] in (["a"], ["each"]) and kinds[3:] in (["side"], ["end"])


def _before_its_use(c: Cursor, end: int) -> int:
    """Where "16 sps for ribbon" says what they are for; `end` where nothing of the kind is said."""
    near = min(end, c.i + LONGEST_TOLD)
    side = next((k for k in range(c.i + 1, near - 3) if c.t[k].kind == "," and _per_side(c, k + 1)), None)
    if side is not None:
        return side
    k = next((k for k in range(c.i + 1, near) if c.t[k].kind == "for"), end)
    if k < end and all(t.kind in ("w", "the", "a", "color", "idle") for t in c.t[k + 1 : end]):
        return k
    talk = next((k for k in range(near - 1, c.i, -1) if c.t[k].kind not in _TALK and not _spelled(c.t[k])), end)
    return talk if c.t[talk].kind in (",", ";", "-", ":") and c.t[talk].val != "tight" and talk + 1 < near == end else end


def _spelled(token: Token) -> bool:
    """ "One more than before": a number in letters that counts no stitches by itself."""
    return token.kind in ("n", "o", "more", "than", "before") and token.text.isalpha()


_TALK = frozenset(("w", "the", "a", "color", "idle", "now", "in", "not", "counts", "counter", "last", "prev", "yes", "row", "rnd", "noun"))
"""Kinds of words of a remark behind a count ("12 sc - nearly there!", "72 sc, if you're counting"): none is work or a number."""


MARKS = ("•", "·", "~", "|", "/", "\\", ">", "→", "_", "#", "◦", "●", "*")


def after_mark(c: Cursor) -> list[Step] | None:
    """ "… 8 sc • 32 sts", "… | 32", "… ~32~", "… -> 32": a mark of the printer's between a row and its count."""
    start = c.i
    if len(c.frames) > 1 or not c.out:
        return None
    while c.kind in MARKS or c.kind in ("-", "="):
        c.i += 1
    if c.i == start or c.kind != "n":
        c.i = start
        return None
    end = next((k for k in range(c.i, _sentence_end(c)) if c.t[k].kind in MARKS), _sentence_end(c))
    found = listed(c, end)
    if found is not None:
        while c.kind in MARKS:
            c.i += 1
    if found is None or c.kind not in _END:
        c.i = start
        return None
    add(c, found, start)
    return []


def _works_nothing(c: Cursor, start: int, end: int) -> bool:
    return not any(t.kind in ("st", "ch", "skip", "inc", "dec", "turn", "join", "rep", "*") for t in c.t[start:end])


def used_up(c: Cursor, start: int) -> bool:
    """The last step already goes to the end of the row."""
    if c.out and type(c.out[-1]).__name__ == "Join" and not c.out[-1].no:  # type: ignore[union-attr]
        return True
    own = start > 0 and c.t[start - 1].kind == "."
    """Whether the count is a sentence of its own."""
    if own and len(c.frames) == 1 and _ends_row(c) and any(token.kind in ("in", "each", "next") for token in c.t[:start]):
        return True  # "…, sc in next 12 sts. 25 sc.": the row tells where each stitch goes, and these are told nowhere to go
    own_clause = own or (start > 0 and c.t[start].kind == ";")
    if own_clause and len(c.frames) == 1 and any(getattr(step, "places", None) == "rest" and any(step.but.values) for step in c.out):  # type: ignore[union-attr]
        return True  # "sc to last 2 sts, sc2tog. 19 sc.": the run and what is left for its end are told
    for k in range(len(c.out) - 1, -1, -1):
        step, name = c.out[k], type(c.out[k]).__name__
        if name == "Turn" and any(type(one).__name__ in ("Make", "Together", "Repeat") for one in c.out[:k]):
            return True  # what is worked after a turn is the next row's
        if name == "Join" and not step.no:  # type: ignore[union-attr]
            return True
        if name in ("Aside", "Turn", "Join", "Chain", "Colour", "FastenOff") or _closes_round(step) or _closes_picot(step, c.out[:k]):
            continue
        if name == "Leave":
            return True
        if name == "Make" or name == "Together":
            whole = getattr(step, "places", None) == "rest" or getattr(step, "evenly", False)
            return whole or step.at.where in (("last", "row_end", "named") if own else ("last", "row_end"))  # type: ignore[union-attr]
        if name == "Repeat":
            return step.times.kind in ("rest", "to_last") or own  # type: ignore[union-attr]
        return name in ("Even", "Refer", "Shape")
    return False


def _closes_round(step: Step) -> bool:
    """A slip stitch into the round's beginning."""
    return isinstance(step, Make) and step.stitch == "sl st" and step.at.where == "first"


def _closes_picot(step: Step, before: list[Step]) -> bool:
    """ "Ch 3, sl st in top of last dc": what closes a loop on the stitch before ends nothing."""
    closing = isinstance(step, Make) and step.stitch == "sl st" and step.at.where == "last"
    return closing and bool(before) and type(before[-1]).__name__ == "Chain"


_ROW_GOES_ON = frozenset(("to", "until", "st", "turn", "ch", "join", "foff", "leave", "then", "work"))
_COUNTS_IN = frozenset(("counting", "including", "incl"))
""" ". 28 sc counting the ch": what is counted in is told of a count only. """


def _ends_row(c: Cursor) -> bool:
    """No work is left but what ends it: a full stop, the turn, "Finish off.", what is done with the piece."""
    return _works_nothing_more(c, c.i, c.end)


def _works_nothing_more(c: Cursor, start: int, end: int) -> bool:
    return not any(t.kind in ("st", "ch", "skip", "inc", "dec", "rep", "*", "(", "[", "each", "place") for t in c.t[start:end])


def _sentence_end(c: Cursor) -> int:
    return c.stops[c.i]


def stops(c: Cursor) -> list[int]:
    """For every token, the next one that ends its sentence (a full stop, a closing bracket, the end); brackets inside are passed over."""
    t, close = c.t, c.close
    n = len(t)
    found = [n - 1] * n
    for k in range(n - 2, -1, -1):
        kind = t[k].kind
        if kind in _END:
            found[k] = k
        elif kind in ("(", "[", "{") and k in close:
            found[k] = found[close[k] + 1]
        else:
            found[k] = found[k + 1]
    return found


def for_total(c: Cursor) -> list[Step] | None:
    """ "for a total of 40 sc", "for 40 sts in all", "for 26 sc." behind a run to the end: what the row comes to."""
    start = c.i
    c.i += 1
    c.take("a")
    if c.kind == "grp" and c.look().kind in (",", ".", ";", "", ")"):
        c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]  # "7 dc in same sp for shell"
    told = c.take("total") is not None
    if c.kind not in ("n", "of") if told else not (c.kind == "n" and used_up(c, start)):
        c.i = start
        return None
    c.take("of")
    found = listed(c, _sentence_end(c))
    if found is None or (not told and (found[0].kind == "ch" or c.kind not in _END)):
        c.i = start
        return None
    add(c, found, start)
    return []


def in_row_told(c: Cursor) -> list[Step] | None:
    """ "In the 20th row there are 40 groups.": the count of the last of the rows at hand."""
    start = c.i
    c.i += 1
    c.drop("the")
    if not (c.take("o") and c.take("row", "rnd")) or c.t[c.i].text.lower() not in ("there", "you"):
        c.i = start
        return None
    got = sentence(c)
    if got is None:
        c.i = start
    return got


def sentence(c: Cursor) -> list[Step] | None:
    """ "You should have 24 stitches.", "This makes 24 sc.", "There are 33 loops on hook", "Total: 24"."""
    start = c.i
    word = c.t[c.i].val
    has = c.kind == "the" and any(c.t[k].val in ("has", "have") and c.t[k + 1].kind == "n" for k in range(c.i, min(c.i + 9, len(c.t) - 1)))
    if not (
        has
        or c.kind in ("total", "counter")
        or (c.kind == "counts" and word == "makes")
        or (
            c.kind in ("w", "the", "idle")
            and word in ("you", "there", "this", "now", "when", "these", "should", "have", "you'll", "has", "total")
        )
        or c.t[c.i].text.lower() in ("that's", "thats", "so", "u", "giving", "which", "leaving")
    ):
        return None
    end = _sentence_end(c)
    says = next(
        (k for k in range(c.i, min(end, c.i + 10)) if c.t[k].val in ("has", "have", "are", "contains", "gives") and c.t[k + 1].kind == "n"),
        None,
    )
    if says is not None and not any(c.t[k].kind in ("st", "ch", "inc", "dec") for k in range(c.i, says)):
        c.i = says + 1
    counting = next((k for k in range(c.i, end) if c.t[k].kind == "," and c.t[k + 1].kind == "counts"), None)
    stop, end = end, counting or end  # "There are 15 sts on each side, counting popcorn as 1 st"
    near = min(end, c.i + 9)
    if not any(c.t[k].kind == "n" for k in range(c.i, near)):
        return None
    begin = c.i
    end = next((k for k in range(begin, end) if c.t[k].kind in ("(", "[")), end)
    found = listed(c, end)
    if found is None and (comma := next((k for k in range(begin, end) if c.t[k].kind == ","), None)) is not None:
        c.i = begin
        found = listed(c, comma)
        if found is not None and c.i == comma and _works_nothing(c, comma, end):
            c.i = end  # "You have 12 tr, in 4 clumps."
        elif c.i != comma:
            found = None
    if found is None or (c.i < end and c.kind not in _END | {",", "(", "["}):
        c.i = start
        return None
    if c.kind == "," and c.i < end:
        c.told["running"] = False
    add(c, found, start)
    if counting is not None:
        c.i = stop
    return []
