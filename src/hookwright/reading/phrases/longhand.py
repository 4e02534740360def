"""A stitch told loop by loop, worked as the hook works it: what is drawn up stays on the hook until it is drawn through.

"Yo, insert hook in next st, pull up a loop, (yo, draw through 2 loops) twice" is one leg of a dc; legs held on the hook and drawn off
together are one stitch: together over different places, a cluster or a puff in one place.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from ...pattern import Aside, Make, Place, Sized, Skip, Step
from .cursor import Cursor
from .held import HOLDING, MOST, OFF, STARTS, held, past_finger, with_start
from .numbers import TIMES_WORDS, times_word
from .places import spot
from .shapes import make
from .spots import Spot

EXAMPLES = (
    ("pull up a loop in each of next 3 sts, yo and draw through all loops on hook", "sc3tog"),
    ("yo, insert hook in next st, yo, pull up a loop, yo, draw through all loops on hook", "hdc"),
    ("yo twice, insert hook in next st, draw up a loop, (yo, draw through 2 loops) 3 times", "tr"),
    (
        "(thread over twice, insert hook in next sp and draw loop through, thread over and draw through 2 loops twice) 3 times, "
        "thread over and draw through all loops on hook",
        "cl@next sp",
    ),
    ("dec in next 2 sc (pull up a loop in each st, work off all loops at one time), sc in next sc", "sc2tog@next sc, sc@next sc"),
    (
        "yo, insert hook in next st, pull up a loop, (yo, insert hook in same st, pull up a loop) 3 times, yo, draw through all loops",
        "puff",
    ),
)


@dataclass(slots=True)
class _Leg:
    """One loop drawn up: the wraps before it, the pulls through two loops after it, and its place."""

    wraps: int
    at: Spot | None
    pulls: int = 0


@dataclass(slots=True)
class _Hook:
    """What lies on the hook while a description is followed."""

    loops: int = 1
    wraps: int = 0
    entered: Spot | None = None
    waits: bool = False
    """The hook is in a place, its loop not yet drawn up."""
    legs: list[_Leg] = field(default_factory=list)
    skipped: int = 0
    whole: bool = False
    """Everything was drawn through at once."""
    named: str = ""
    """The stitch that the rest is said to be worked as: "complete as a dc"."""

    @property
    def closed(self) -> bool:
        return bool(self.legs) and not self.waits and (self.whole or self.loops <= 1)

    def draw_up(self, n: int = 1) -> None:
        for k in range(n):
            self.legs.append(_Leg(self.wraps if k == 0 or not self.legs else self.legs[-1].wraps, self.entered))
            self.loops += 1 + self.legs[-1].wraps
        self.wraps, self.waits = 0, False

    def through(self, n: int | None) -> None:
        """`n` loops drawn through, None: all."""
        if not self.legs:
            return
        self.wraps = 0
        if n is None or n >= self.loops:
            self.whole, self.loops = True, 1
            return
        self.legs[-1].pulls += n > 1
        self.loops -= n - 1


def longhand(c: Cursor) -> list[Step] | None:
    """The stitch that a loop-by-loop description makes, or None with the cursor unmoved."""
    start = c.i
    if c.t[c.i].val in HOLDING and c.kind in ("w", "leave", "cont", "having"):
        return held(c, start)
    opened = c.i + 1 if c.kind in ("(", "[") else c.i
    if opened > c.i and (told := _how_decreased(c)) is not None:
        return told
    if c.t[opened].kind not in STARTS:
        return None
    hook = _Hook()
    end = _follow(c, hook, min(len(c.t) - 1, c.i + MOST))
    if end is None:
        c.i = start
        return None
    c.i = end
    return _stitch_of(c, start, hook)


def _how_decreased(c: Cursor) -> list[Step] | None:
    """ "Dec in next 2 sts (pull up a loop in each st, work off all loops at one time)": how the decrease just told is worked; nothing more
    is made. None with the cursor unmoved."""
    start = c.i
    close = c.close.get(start)
    last = c.out[-1] if c.out else None
    if close is None or not isinstance(last, Make) or last.closes < 2 or c.t[start - 1].kind in (",", ";"):
        return None
    if c.t[start - 1].kind in (".", ":", "-") and not any(t.kind == "dec" and t.start >= last.span.start for t in c.t[:start]):
        return None
    inner = c.t[start + 1 : close]
    if sum(t.kind in STARTS or (t.kind == "lp" and k > 0) for k, t in enumerate(inner)) < 2 or any(t.kind in _NOT_HOW for t in inner):
        return None
    if c.t[close + 1].kind in ("n", "in", "once", "across", "around"):
        return None  # "(…) twice": so many more of them
    c.i = close + 1
    return [Aside(id=c.id(), span=c.span(start))]


_NOT_HOW = frozenset(("*", "rep", "ch", "turn", "foff", "inc", "("))


def starred(c: Cursor) -> list[Step] | None:
    """ "*yo, insert hook in next st, …; repeat from * twice more in same st, yo, draw through all": one stitch, from behind its star."""
    start = c.i
    if c.kind not in STARTS or c.ctx.passes:
        return None
    hook = _Hook()
    end = _follow(c, hook, min(len(c.t) - 1, c.i + MOST), star=c.i)
    if end is None:
        c.i = start
        return None
    c.i = end
    return _stitch_of(c, start, hook)


_STOPS = frozenset(("turn", "foff", "join", "*", "{", "st", "grp", "mring", ""))


def _follow(c: Cursor, hook: _Hook, limit: int, star: int | None = None) -> int | None:
    """Follow the words to the end of the stitch; the token after it, or None where they make none."""
    end: int | None = None
    since: list[tuple[str, object]] = []
    repeated = star is None
    while c.i < limit:
        before = c.i
        if c.kind in ("(", "["):
            close = c.close.get(c.i)
            if close is None or close > limit:
                break
            if c.look().kind in STARTS:
                c.i += 1
                body = _actions(c, close)
                if body is None:
                    break
                c.i = close + 1
                if not hook.legs and _whole_stitch(body) and c.kind in ("n", "once"):
                    return None  # "(draw up a loop in each of next 2 sc, yo and through all) 8 times": a stitch again and again
                for action in body * _so_often(c):
                    _do(hook, action)
                    since.append(action)
                if hook.legs and all(leg.at is None for leg in hook.legs) and c.kind in ("in", "over"):
                    _all_in(hook, spot(c))  # "(yo, pull up a loop) 3 times in next st"
            else:
                c.i = close + 1  # "(4 loops on hook)"
                continue
        elif c.kind == "rep" and not repeated:
            if hook.closed:
                return None  # a whole stitch before the repeat: the star opens a unit of the row
            more = _told_more(c)
            for action in since * more:
                _do(hook, action)
            repeated = True
            continue
        else:
            if hook.legs and not hook.waits and (named := _rest_as(c)):
                hook.named, hook.whole, hook.loops, end = named, True, 1, c.i
                continue
            got = _action(c)
            if got is None:
                if c.kind == "." and c.look().kind in (*STARTS, "(", "["):
                    c.i += 1
                    continue
                if c.kind in (".", ";") and not repeated and c.look().kind == "rep":
                    c.i += 1
                    continue
                if c.kind in _STOPS or (c.kind == "." and repeated) or c.kind == "rep" or _makes_chain(c, c.i):
                    break
                c.i += 1
                continue
            for action in got:
                _do(hook, action)
            since += got
        if any(kind == "through" for kind, _ in since) and c.i > before:
            end = c.i
        if hook.closed and repeated:
            return c.i
    return end if hook.legs and repeated and not hook.waits else None


def _all_in(hook: _Hook, where: Spot | None) -> None:
    for k, leg in enumerate(hook.legs):
        leg.at = where if k == 0 else None


def _rest_as(c: Cursor) -> str:
    """ "Complete as an sc", "finish as for dc", "work off like a tr", "complete the sc": how the loops drawn up are worked off, by name;
    empty with the cursor unmoved."""
    start = c.i
    if c.t[c.i].text.lower() not in _COMPLETES:
        return ""
    c.i += 1
    while c.kind in ("the", "a", "noun", "this", "off", "idle") or c.t[c.i].text.lower() in ("it", "loop"):
        c.i += 1
    while c.kind in ("as", "for", "a", "the", "in", "like", "idle", "usual") or c.t[c.i].text.lower() in ("like", "usual", "ordinary"):
        c.i += 1
    if (
        c.kind == "st"
        and isinstance(c.t[c.i].val, str)
        and c.t[c.i].val in _NAMED_BY_WRAPS
        and c.look().kind not in ("in", "over", "around")
    ):
        c.i += 1
        return str(c.t[c.i - 1].val)
    c.i = start
    return ""


_COMPLETES = frozenset(("complete", "completing", "finish", "finishing", "work", "finish off", "complete off"))
_NAMED_BY_WRAPS = frozenset(("sc", "hdc", "dc", "tr", "dtr", "trtr"))


Action = tuple[str, object]


def _whole_stitch(body: list[Action]) -> bool:
    """Whether these actions by themselves bring the hook back to one loop."""
    alone = _Hook()
    for action in body:
        _do(alone, action)
    return alone.closed


def _do(hook: _Hook, action: Action) -> None:
    kind, value = action
    if kind == "yo":
        hook.wraps += value if isinstance(value, int) else 1
    elif kind == "in":
        if isinstance(value, Spot) or value is None:
            hook.entered, hook.waits = value, True
    elif kind == "up":
        hook.draw_up(value if isinstance(value, int) else 1)
    elif kind == "skip":
        hook.skipped += value if isinstance(value, int) else 1
    else:
        hook.through(value if isinstance(value, int) else None)


def _actions(c: Cursor, end: int) -> list[Action] | None:
    """What a bracket says the hook does; None where it makes chains or stitches by name."""
    found: list[Action] = []
    while c.i < end:
        got = _action(c)
        if got is None and c.kind == "pull" and _loop_ahead(c):
            found += [("in", None), ("up", 1)]  # "(yo, pull up a loop) 3 times in next st": the place is told behind
            while c.kind not in (",", ")", "]", ""):
                c.i += 1
            continue
        if got is None:
            if c.kind in _STOPS or c.kind in ("(", "[", "rep") or _makes_chain(c, c.i):
                return None
            c.i += 1
            continue
        found += got
    return found


def _action(c: Cursor) -> list[Action] | None:
    """One thing the hook does, the cursor behind it; None where these words tell none."""
    kind = c.kind
    if kind == "yo":
        k = c.i + 1
        while c.t[k].kind in (",", "and", "idle", "then"):
            k += 1
        if c.t[k].kind in ("pull", "over") and _goes_through(c, k):
            begin, c.i = c.i, k
            got = _through(c)
            if got is not None:
                return got
            c.i = begin
        n = _times(c)
        c.i += 1
        if n > 1:
            c.i += 1 if c.kind == "once" else 2
        return [("yo", n)]
    if kind == "insert":
        where = _place_ahead(c)
        if where is None:
            c.i += 1
        found: list[Action] = [("in", where)]
        k = past_finger(c)
        while c.t[k].kind in (",", "and", "yo", "idle", "then"):
            k += 1
        if c.t[k].kind == "pull":  # "and draw loop through", "yo, pull up a loop": the loop of this very place
            c.i = k
            _pass_loop(c)
            found.append(("up", _places(where)))
        return found
    if kind in ("pull", "over"):
        return _through(c)
    if kind == "skip" and c.look().kind == "n":
        n = c.look().val
        c.i += 2
        c.drop("st", "noun")
        return [("skip", n)]
    return None


def _through(c: Cursor) -> list[Action] | None:
    """ "Draw through 2 loops", "work off all loops"; "pull up a loop in next st"."""
    if c.kind == "pull" and not _goes_through(c, c.i):
        if not (any(t.kind in ("in", "over", "around") for t in c.t[c.i + 1 : c.i + 5]) and _loop_ahead(c)):
            return None
        where = _place_ahead(c)
        return [("in", where), ("up", _places(where))] if where is not None else None
    begin = c.i
    while c.kind in ("pull", "the", "idle", "a", "lp", "color", "yo", "along", "hook", "w") and c.i < begin + 5:
        c.i += 1
    if c.kind != "over":
        c.i = begin
        return None
    c.i += 1
    number: int | None = None
    told = False
    while c.kind in OFF:
        if c.kind == "n" and c.look().kind == "times":
            break
        if c.kind == "n" and isinstance(c.t[c.i].val, int) and not told:
            number, told = c.t[c.i].val, True
        elif c.kind in ("all", "both", "rem"):
            number, told = (2 if c.kind == "both" else None), True
        elif c.kind == "a" and not told and c.look().kind == "lp":
            number, told = 1, True
        elif c.kind == "once":
            break
        c.i += 1
    return [("yo", 0), *[("through", number)] * _so_often(c)]


def _goes_through(c: Cursor, k: int) -> bool:
    """Whether the pull here goes through loops on the hook."""
    for at in range(k, min(k + 7, len(c.t) - 1)):
        if c.t[at].kind == "over":
            after = [t.kind for t in c.t[at + 1 : at + 6]]
            return "lp" in after or "all" in after or "both" in after or after[:1] in (["n"], ["rem"])
        if c.t[at].kind in (",", ".", ";", "insert", "in", "around") and at > k:
            return False
    return False


def _pass_loop(c: Cursor) -> None:
    """Past "draw up a loop", "pull through a loop", "draw yarn through st"."""
    c.i += 1
    while c.kind in ("the", "a", "lp", "along", "over", "color", "idle", "noun", "st", "w", "both", "bar") and c.t[c.i].val not in (
        "twice",
    ):
        if c.kind == "st" and c.look().kind in ("in", "over", "around"):
            return
        c.i += 1


def _places(where: Spot | None) -> int:
    if where is None or not isinstance(where.places, Sized):
        return 1
    return where.places.values[0] or 1


def _so_often(c: Cursor) -> int:
    """ "twice", "3 times": how often what was just told is done."""
    if (often := times_word(c)) is not None:
        return often
    if c.kind == "n" and c.look().kind == "times" and isinstance(c.t[c.i].val, int):
        n = int(c.t[c.i].val)
        c.i += 2
        return max(1, min(n, MOST))
    return 1


def _told_more(c: Cursor) -> int:
    """ "Repeat from * twice more in same st": how often more."""
    more = 1
    c.i += 1
    while c.kind in (
        "from",
        "*",
        "n",
        "once",
        "more",
        "times",
        "in",
        "same",
        "noun",
        "st",
        "idle",
        "the",
        "sp",
        "lp",
        "ch",
        "place",
        "ring",
    ):
        if c.kind == "n" and isinstance(c.t[c.i].val, int) and c.look().kind in ("times", "more"):
            more = c.t[c.i].val
        often = times_word(c)
        if often is None:
            c.i += 1
        else:
            more = often
    return max(1, min(more, MOST))


def _makes_chain(c: Cursor, k: int) -> bool:
    """Whether chains are made here; "insert hook in ch 2 loop" names a place."""
    after = c.t[min(k + 2, len(c.t) - 1)].kind
    return c.t[k].kind == "ch" and c.t[k - 1].kind not in ("in", "the", "next", "each") and after not in ("lp", "sp")


def _times(c: Cursor) -> int:
    """ "yo twice", "yo 3 times": how many wraps."""
    after = c.look()
    if after.kind == "once":
        return TIMES_WORDS[str(after.val)]
    if after.kind == "n" and c.look(2).kind == "times":
        return int(after.val)
    return 1


def _loop_ahead(c: Cursor) -> bool:
    return any(t.kind == "lp" for t in c.t[c.i + 1 : c.i + 4])


def _place_ahead(c: Cursor) -> Spot | None:
    """The place told with "insert hook in …", "pull up a loop in …"; the cursor then stands behind it."""
    begin = c.i
    c.i += 1
    while c.kind in ("hook", "a", "the", "lp", "up", "along", "color", "idle", "of"):
        c.i += 1
    found = spot(c)
    if found is None and c.kind in ("from", "front", "back"):  # "insert hook from front to back in skipped sc"
        k = c.i
        while c.t[k].kind in ("from", "front", "back", "to", "the", "and", "of", "again", "side", "st"):
            k += 1
        c.i = k
        found = spot(c)
    if found is None:
        c.i = begin
    return found


def _stitch_of(c: Cursor, start: int, hook: _Hook) -> list[Step]:
    """The stitch made of what was drawn up."""
    legs = hook.legs
    first = legs[0].at
    found = Spot(first.at) if first is not None else Spot(Place())
    passed: list[Step] = []
    if hook.skipped:
        passed = [Skip(id=c.id(), span=c.span(start), number=Sized((hook.skipped,)))]
    places = 1 + sum(not _same(leg, legs[0]) for leg in legs[1:])
    if len(legs) == 1:
        return [make(c, start, hook.named or _kind(legs[0]), found=found), *passed]
    if places == 1:
        if found.at.where == "same":
            with_start(c)
        airy = legs[0].wraps >= 1 and not any(leg.pulls for leg in legs)
        return [make(c, start, "puff" if airy else "cl", found=found), *passed]
    kind = _kind(legs[0], alone=False)
    return [make(c, start, f"{kind}{places}tog", found=found, closes=places), *passed]


def _same(leg: _Leg, first: _Leg) -> bool:
    """Whether this leg stands in the place of the one before it."""
    if leg.at is None or leg.at.at.where in ("same", "ring"):
        return True
    return leg.at is first.at and not leg.at.each and leg.at.at.what.endswith("sp")


def _kind(leg: _Leg, alone: bool = True) -> str:
    """From the wraps before the hook goes in, and whether the end goes through all loops at once."""
    if leg.wraps == 0:
        return "sc"
    if leg.wraps == 1:
        return "dc" if leg.pulls > (1 if alone and leg.pulls > 1 else 0) else "hdc"
    return {2: "tr", 3: "dtr"}.get(leg.wraps, "trtr")
