"""Where to work: "in next 3 sts", "in each ch-2 sp around", "in top of ch-3", "in 2nd ch from hook"."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, cast

from ...pattern import Place, Sized
from ...pattern.nodes import Loop, Where
from .cursor import Cursor
from .numbers import number

EXAMPLES = (
    ("sc in next 3 sts", "sc×3"),
    ("sc in each st across", "sc×rest"),
    ("sc in each st to last 2 sts", "sc×rest−2"),
    ("dc in 4th ch from hook", "dc@from_hook ch#4"),
    ("dc in top of ch-3", "dc@named ch-3"),
    ("sc in back loop of each sc", "sc×rest@next sc/back"),
    ("dc in next ch-2 sp", "dc@next ch-2 sp"),
    ("sc in same st as joining", "sc@same st"),
    ("FPdc around next dc 2 rows below", "FPdc@next dc↓1"),
    ("dc in center dc of next shell", "dc@next shell#0"),
    ("dc in each of next 3 ch-1 sps", "dc×3@next ch-1 sp"),
    ("sc in last 2 sts", "sc×2@last st"),
)

ZERO: Sized[int] = Sized((0,))
ONE: Sized[int] = Sized((1,))

PREPS = frozenset(("in", "over", "around", "at", "under", "between", "along", "from", "to", "behind", "of", "across", "for"))
SPACES = frozenset(("sp", "lp", "mesh"))
NOUNS = frozenset(
    ("st", "noun", "sp", "lp", "mesh", "group", "ring", "tch", "corner", "marker", "place", "row", "rnd", "bar", "piece", "side", "ends", "grp",  # noqa: E501
     "ch", "post", "inc", "dec", "base", "top", "opp", "mring", "patt", "join")
)  # fmt: skip
_ADJECTIVES = frozenset(
    (
        "corner",
        "free",
        "raised",
        "unworked",
        "skip",
        "idle",
        "rem",
        "beg",
        "marker",
        "turn",
        "join",
        "end",
        "single",
        "same",
        "color",
        "side",
        "opp",
    )
)


CLOSE = frozenset((",", ";", ".", "", "(", ")", "[", "]", "*", "=", "-"))


@dataclass(slots=True)
class Spot:
    """A place as told: `places` how many of them, `each` whether "each/every/all" was said, `every` 2 for "every other"."""

    at: Place
    places: Sized[int] | Literal["rest"] = ONE
    but: Sized[int] = ZERO
    each: bool = False
    every: int = 1
    skip: int = 0
    told: bool = False
    """A number of places was told."""
    tog: bool = False
    evenly: bool = False


def spot(c: Cursor, *, bare: bool = False) -> Spot | None:
    """The place that stands here (with its preposition, or `bare` without), or None with the cursor unmoved."""
    start = c.i
    token = c.t[c.i]
    prep = ""
    if token.kind in PREPS:
        prep = token.kind
        c.i += 1
        if prep == "between" or c.kind in ("in", "over", "around", "at", "along"):
            c.drop("in", "over", "around", "at", "along")
    elif not bare:
        return None
    found = _after_prep(c, prep)
    if found is None:
        c.i = start
    elif prep == "between" and found.at.where != "ring":
        found.at = _with(found.at, between=True)
        if found.told and not found.each:
            found.places, found.told = ONE, False
    return found


def _after_prep(c: Cursor, prep: str) -> Spot | None:
    start = c.i
    that = c.kind == "the" and c.t[c.i].val == "that" and c.look().kind in ("st", "grp")
    c.drop("the", "idle")
    if that and (made := noun(c)) is not None:
        return Spot(Place(where="same", what=made))
    loop = _loop(c)
    c.drop("of") if loop else None
    c.drop("the", "idle")
    kind = c.kind
    if loop and kind in ("row", "rnd") and c.look().kind == "n":
        return Spot(Place(loop=as_loop(loop), row=_row_name(c)), "rest")
    if loop and kind in ("in", "over"):
        c.i += 1
        c.drop("the")
        kind = c.kind
    found: Spot | None
    if kind == "each":
        found = _each(c)
    elif kind == "all":
        found = _all(c)
    elif kind == "next":
        found = _next(c)
    elif kind == "o" or (kind == "beg" and c.look().kind in ("st", "noun", "ch", "n")):
        found = _ordinal(c)
    elif kind == "last":
        found = _last(c)
    elif kind == "same":
        found = _same(c)
    elif kind == "rem":
        found = _rest(c)
    elif kind in ("top", "base", "center", "side"):
        found = _part_of(c)
    elif kind == "between":
        c.i += 1
        found = _after_prep(c, "between")
        if found:
            found.at = _with(found.at, between=True)
            found.places = ONE
    elif kind == "any":
        c.i += 1
        found = _plain(c)
    elif kind == "n":
        found = _numbered(c)
    elif kind == "a" or kind == "both":
        c.i += 1
        found = _plain(c)
        if found and kind == "both":
            found.places, found.each, found.told = Sized((2,)), True, True
    elif kind == "prev":
        found = _plain(c)
    elif kind == "mring":
        c.i += 1
        found = Spot(Place(where="ring", what="ring"))
    elif kind == "opp":
        c.i += 1
        _of_what(c, {})
        found = Spot(Place(where="under", what="ch"), "rest")
    elif kind == "end" and c.look().kind in ("noun", "st", "ch") and not (c.look().kind == "noun" and c.look(2).kind == "of"):
        c.i += 1
        what = noun(c) or "st"
        found = Spot(_with(_tail(c, what), where="last"))
    elif kind == "end" and c.look().kind == "noun" and c.look(2).kind == "of":
        c.i += 2
        _of_what(c, {})
        found = Spot(Place(where="row_end", what="row"))
    elif kind == "ends":
        c.i += 1
        found = Spot(Place(where="row_end", what="row"), "rest")
    elif kind in NOUNS or kind in (
        "st",
        "noun",
        "grp",
        "free",
        "raised",
        "corner",
        "skip",
        "unworked",
        "marker",
        "join",
        "beg",
        "other",
        "alt",
    ):
        found = _plain(c)
    elif loop:
        found = Spot(Place(), "rest" if _limit_here(c) else ONE)
        if c.kind in ("around", "across"):
            _limit(c, found)
    else:
        found = None
    if found is None:
        c.i = start
        return None
    late = _loop(c)
    loop = loop or late
    if late and c.kind in ("each", "all"):
        return _after_prep(c, prep)
    if loop:
        found.at = _with(found.at, loop=loop)
    if c.kind == "tog":
        found.tog = True
        c.i += 1
    elif c.kinds("at", "tog") or (c.kind == "w" and c.t[c.i].val == "at" and c.look().kind == "tog"):
        found.tog = True
        c.i += 2
    return found


def _loop(c: Cursor) -> str:
    """A loop choice: "back loop only", "BLO"; "both loops"."""
    token = c.t[c.i]
    if token.kind != "loop":
        return ""
    c.i += 1
    if c.kind == "idle" and c.t[c.i].val == "only":
        c.i += 1
    return str(token.val)


def _with(at: Place, **changes: object) -> Place:
    values = {name: getattr(at, name) for name in ("where", "what", "nth", "loop", "post", "below", "between", "row", "span")}
    values.update(changes)
    return Place(**values)


# ---- nouns -----------------------------------------------------------------------------------------------------------------------
def noun(c: Cursor, *, chains: bool = False) -> str | None:
    """The name of what is worked into ("st", "dc", "ch-2 sp", "shell" …), or None. `chains`: a bare "ch 3" may be a noun here."""
    start = c.i
    while (c.kind in _ADJECTIVES or _coloured(c)) and _noun_ahead(c):
        c.i += 1
    corner = any(c.t[k].kind == "corner" for k in range(start, c.i))
    what = _noun_head(c, chains)
    if what is None:
        if corner:
            return "corner"
        c.i = start
        return None
    return what


def _coloured(c: Cursor) -> bool:
    """ "last Green sc", "White loop": the colour tells which."""
    return c.kind == "w" and (c.t[c.i].val in c.ctx.colours or c.t[c.i].text[:1].isupper())


def _noun_ahead(c: Cursor) -> bool:
    t = c.look()
    if t.kind == "-" and t.val == "tight" and c.kind == "corner":
        return False
    if c.kind in ("side", "opp"):
        return t.kind in ("ch", "sp", "lp")
    return t.kind in NOUNS or t.kind in ("st", "noun", "grp", "n", "corner", "free", "raised", "tch", "single")


def _noun_head(c: Cursor, chains: bool) -> str | None:
    token = c.t[c.i]
    kind = token.kind
    if kind == "ch":
        return _chain_noun(c, chains)
    if kind == "n":
        return _count_noun(c)
    if kind == "noun":
        c.i += 1
        return "st"
    if kind == "st":
        c.i += 1
        name = c.us(str(token.val))
        if c.kind in SPACES and not (c.kind == "lp" and c.t[c.i].val in ("arc", "arcs")):
            c.i += 1
            return "sp"
        if c.kind == "group":
            c.i += 1
            return "group"
        c.drop("noun", "post")
        return name
    if kind == "grp":
        c.i += 1
        if c.kind in SPACES:
            c.i += 1
            return "sp" if token.val != "picot" else "picot"
        c.drop("noun")
        return str(token.val)
    if kind in SPACES:
        c.i += 1
        if c.kind == "sp":
            c.i += 1
        return "sp"
    if kind == "mring":
        c.i += 1
        return "ring"
    simple = {"group": "group", "ring": "ring", "tch": "tch", "corner": "corner", "marker": "marker", "place": "st", "row": "row", "rnd": "row",  # noqa: E501
              "bar": "bar", "free": "st", "inc": "inc", "dec": "dec", "patt": "group", "piece": "piece", "post": "st", "ends": "row", "side": "side"}  # fmt: skip  # noqa: E501
    if kind in simple:
        c.i += 1
        if kind == "tch" and c.kind in ("-", "n") and (c.kind == "n" or c.look().kind == "n"):
            c.drop("-")
            c.i += 1
        if kind == "corner":
            c.drop("-")
            return noun(c) or "corner"
        if kind in ("inc", "dec") and c.kind == "noun":
            c.i += 1
        return simple[kind]
    if kind == "join" and token.val in ("join", "joining", "joined"):
        c.i += 1
        if c.kind in ("st", "noun", "ch"):
            c.i += 1
        return "join"
    return None


def _chain_noun(c: Cursor, chains: bool) -> str:
    """From a token "ch": "ch-2 sp", "ch sp", "ch-3", "ch"."""
    c.i += 1
    start = c.i
    tight = c.take("-")
    size = c.t[c.i]
    if size.kind == "n" and isinstance(size.val, int):
        after = c.look()
        space = (
            after.kind in SPACES
            or (after.kind == "-" and c.look(2).kind in SPACES)
            or (after.kind == "corner" and c.look(2).kind in SPACES)
        )
        if space or (tight and tight.val == "tight") or (not size.gap) or chains:
            c.i += 1
            if space:
                c.drop("-", "corner")
                c.i += 1
                return f"ch-{size.val} sp"
            c.take("group")
            return f"ch-{size.val}"
    if c.kind in SPACES:
        c.i += 1
        return "sp"
    c.i = start
    if c.kind == "group":
        c.i += 1
    return "ch"


def _count_noun(c: Cursor) -> str | None:
    """From a number: "3-ch loop", "5-dc group", "3 chain" (of an old book)."""
    size = c.t[c.i]
    if not isinstance(size.val, int):
        return None
    start = c.i
    c.i += 1
    c.take("-")
    if c.kind == "ch":
        c.i += 1
        c.take("-")
        if c.kind in SPACES or c.kind == "group":
            c.i += 1
            return f"ch-{size.val} sp"
        return f"ch-{size.val} sp"
    if c.kind in ("st", "noun", "grp", "lp"):
        c.i += 1
        c.take("-")
        if c.kind in ("group", "grp", "lp", "sp", "mesh"):
            c.i += 1
            return "group"
    c.i = start
    return None


# ---- kinds of place --------------------------------------------------------------------------------------------------------------
def _each(c: Cursor) -> Spot | None:
    c.i += 1
    c.drop("of", "the", "idle", "in")
    if c.kind in ("row", "rnd") or (c.kind == "around" and c.t[c.i].val == "round" and c.look().kind in CLOSE):
        return None
    every = 1
    if c.kind in ("other", "alt"):
        c.i += 1
        every = 2
    elif c.kind == "o" and c.t[c.i].val > 1 and c.look().kind in ("st", "noun", "ch", "sp", "lp", "grp", "row"):
        every = c.t[c.i].val
        c.i += 1
    inner = _inner(c)
    if inner is None:
        if c.kind in ("around", "across", "to", "until", "") or c.kind in (",", ";", ".", "(", ")", "*", "]", "[", "=", "-"):
            inner = Spot(Place(), "rest")
        else:
            return None
    inner.each = True
    inner.every = every
    if not inner.told and inner.at.where not in ("same", "first") and inner.places != "rest":
        inner.places = "rest"
    if inner.places == "rest":
        _limit(c, inner)
        if c.kind == "and" and c.look().kind in ("ch", "sp", "st", "noun", "mesh", "each", "grp") and not _starts_item(c, 1):
            _second_kind(c, inner)
    else:
        _pass_limit(c)
    return inner


def _second_kind(c: Cursor, inner: Spot) -> None:
    """ "each dc and ch-1 sp across", "each sc and each space": any place will do."""
    start = c.i
    c.i += 1
    c.drop("each", "in", "the")
    what = noun(c, chains=True)
    if what is None or c.kind in ("in", "n"):
        c.i = start
        return
    inner.at = _with(inner.at, what="any")
    _limit(c, inner)


def _starts_item(c: Cursor, ahead: int) -> bool:
    """A new instruction begins `ahead` tokens on ("and ch 3", "and dc in …")."""
    first, second = c.look(ahead), c.look(ahead + 1)
    if first.kind == "ch":
        return second.kind in ("n", "-") and not (c.look(ahead + 2).kind in SPACES or c.look(ahead + 3).kind in SPACES)
    if first.kind == "st":
        return second.kind in ("in", "n", "over", "around", "to")
    return first.kind == "n"


def _inner(c: Cursor) -> Spot | None:
    """What follows "each (of)": next/first/last/remaining n, or a noun."""
    c.drop("the")
    kind = c.kind
    if kind == "next":
        return _next(c)
    if kind == "o" and c.t[c.i].val == 1:
        return _ordinal(c)
    if kind == "last":
        return _last(c)
    if kind == "rem":
        return _rest(c)
    if kind == "same":
        return _same(c)
    if kind == "other":
        c.i += 1
        return _inner(c)
    if kind == "n":
        return _numbered(c)
    if kind in ("center", "top"):
        return _part_of(c)
    if kind == "loop":
        loop = _loop(c)
        found = _inner(c) if c.kind in NOUNS or c.kind in ("st", "noun", "grp", "of", "next") else Spot(Place(), "rest")
        if found:
            found.at = _with(found.at, loop=loop)
        return found
    named = noun(c, chains=True)
    return None if named is None else Spot(_tail(c, named), "rest")


def _all(c: Cursor) -> Spot | None:
    c.i += 1
    c.drop("of", "the", "other", "rem")
    told = number(c)
    c.drop("other", "rem", "the")
    what = noun(c) or "st"
    found = Spot(_tail(c, what), told or "rest", each=True, told=told is not None)
    if found.places == "rest":
        _limit(c, found)
    return found


def _next(c: Cursor) -> Spot | None:
    c.i += 1
    c.drop("idle")
    if c.kind == "o":
        nth = c.t[c.i].val
        c.i += 1
        what = noun(c) or "st"
        return Spot(_tail(c, what), skip=nth - 1)
    if c.kind in ("center", "top", "base"):
        return _part_of(c)
    told: Sized[int] | None = None
    if c.kind == "n" and not _count_noun_here(c):
        told = number(c)
    c.drop("-") if c.kind == "-" and c.look().kind in ("ch",) else None
    c.drop("idle")
    named = noun(c)
    places = told or ONE
    found = Spot(_tail(c, named or "st"), places, told=told is not None)
    if told is None and c.kind == "and" and c.look().kind in ("o", "last") and c.look(2).kind in ("st", "noun", "ch", "sp", "lp"):
        found = _listed(c, found)
    return found


def _listed(c: Cursor, found: Spot) -> Spot:
    return found


def _count_noun_here(c: Cursor) -> bool:
    """ "3-ch loop": the number belongs to the name."""
    after = c.look()
    if after.kind == "-" and after.val == "tight":
        return c.look(2).kind in ("ch", "st", "noun", "grp", "lp")
    return after.kind == "ch" and c.look(2).kind in SPACES


def _numbered(c: Cursor) -> Spot | None:
    """ "in 3 dc", "over 2 sts", "in 3-ch loop", "in the 3 chain"."""
    if _count_noun_here(c):
        what = noun(c)
        return Spot(_tail(c, what)) if what else None
    start = c.i
    told = number(c)
    if told is None:
        return None
    c.drop("-") if c.kind == "-" and c.t[c.i].val == "tight" else None
    skipped = c.kind == "skip"
    single = c.t[c.i - 2].kind == "the" and c.kind == "noun" and c.t[c.i].val in ("st", "stitch") and told.values[0] != 1
    if single and not told.many:
        c.i += 1
        return Spot(Place())
    if c.kind in ("rem", "more", "other", "idle", "next", "unworked", "free", "skip"):
        c.i += 1
    if c.kind in ("row", "rnd") and c.look().kind in ("below",):
        c.i = start
        return None
    what = noun(c)
    if what is None:
        if c.kind in (",", ";", ".", ")", "]", "", "*", "tog"):
            return Spot(Place(), told, told=True)
        if c.kind in ("of", "in") and c.look().kind in ("the", "prev", "last", "row", "rnd"):
            return Spot(_tail(c, "st"), told, told=True)
        c.i = start
        return None
    at = _tail(c, what)
    return Spot(_with(at, where="skipped") if skipped else at, told, told=True)


def _ordinal(c: Cursor) -> Spot | None:
    token = c.t[c.i]
    nth = token.val if token.kind == "o" else 1
    c.i += 1
    if nth == 1:
        told: Sized[int] | None = None
        if c.kind == "n" and not _count_noun_here(c):
            told = number(c)
        c.drop("idle", "free")
        what = noun(c)
        if c.kind == "from" and c.look().kind in ("hook", "the"):
            return _from_hook(c, 1)
        if what is None and c.kind not in (",", ";", ".", ")", "]", "", "(", "and", "*", "tog", "ch", "n"):
            return None
        if c.kind == "of" and what in ("ch", "st", "sp"):
            of: dict[str, object] = {}
            if _of_what(c, of) and of.get("what"):
                return Spot(Place(where="named", what=str(of["what"]), nth=1))
        at = _tail(c, what or "st")
        return Spot(_with(at, where="first"), told or ONE, told=told is not None)
    if c.kind in ("last",):
        c.i += 1
        noun(c)
        return Spot(Place(where="last", nth=nth))
    what = noun(c) or None
    c.drop("idle")
    if c.kind == "from" or (c.kind == "w" and c.t[c.i].val == "off"):
        after = [c.look(k).kind for k in (1, 2)]
        if "hook" in after or "mring" in after:
            return _from_hook(c, nth)
        if c.look().kind in ("the", "end", "beg") or c.look().kind == "end":
            c.i += 1
            c.drop("the")
            if c.take("end"):
                _of_what(c, {})
                return Spot(Place(where="last", what=what or "st", nth=nth))
    if what is None:
        return None
    facts: dict[str, object] = {}
    if c.kind in ("of", "in", "from") and _of_what(c, facts) and facts.get("what"):
        return Spot(Place(where="named", what=str(facts["what"]), nth=nth, below=cast(int, facts.get("below", 0))))
    at = _tail(c, what)
    if what in ("ch", "ch-3") or what.startswith("ch-"):
        return Spot(_with(at, where="named", nth=nth))
    return Spot(at, skip=nth - 1)


def _from_hook(c: Cursor, nth: int) -> Spot:
    c.i += 1
    c.drop("the", "of")
    c.take("hook")
    return Spot(Place(where="from_hook", what="ch", nth=nth))


def _last(c: Cursor) -> Spot | None:
    c.i += 1
    told: Sized[int] | None = None
    if c.kind == "n" and not _count_noun_here(c):
        told = number(c)
    if c.kind == "o":
        c.i += 1
    what = noun(c)
    if what is None and told is None and c.kind not in (",", ";", ".", ")", "]", "", "(", "and", "*", "="):
        return None
    at = _tail(c, what or "st")
    if what and c.kind == "w" and c.t[c.i].val in ("made", "worked"):
        c.i += 1
        return Spot(_with(at, where="same"))
    return Spot(_with(at, where="last"), told or ONE, told=told is not None)


def _same(c: Cursor) -> Spot | None:
    c.i += 1
    told: Sized[int] | None = None
    if c.kind == "n" and not _count_noun_here(c):
        told = number(c)
    c.drop("idle")
    what = noun(c) or ("st" if c.kind != "next" else None)
    if what is None:
        what = "st"
    _as_what(c)
    found = Spot(_with(_tail(c, what), where="same"), told or ONE, told=told is not None)
    return found


_AS_END = frozenset((",", ";", ".", "", ")", "]", "(", "*", "[", "and", "n", "then"))


def _as_what(c: Cursor) -> None:
    """Pass over "as joining", "as sl st", "as last dc", "as ch-3", "where ch-3 was started", "with ch": which same place is meant."""
    start = c.i
    if c.kind in ("as", "with", "of", "at", "in") or (c.kind == "idle" and c.t[c.i].val in ("where", "which")) or c.kind == "from":
        c.i += 1
        steps = 0
        while c.kind not in _AS_END or (c.kind == "n" and steps and c.t[c.i - 1].kind in ("ch", "-")):
            if c.kind in ("skip", "rep", "around") or steps > 8:
                c.i = start
                return
            c.i += 1
            steps += 1


def _rest(c: Cursor) -> Spot | None:
    c.i += 1
    c.drop("of", "the")
    if c.kind in ("row", "rnd"):
        c.i += 1
        return Spot(Place(), "rest", each=True)
    told: Sized[int] | None = None
    if c.kind == "n" and not _count_noun_here(c):
        told = number(c)
    what = noun(c) or "st"
    found = Spot(_tail(c, what), told or "rest", each=True, told=told is not None)
    if found.places == "rest":
        _limit(c, found)
    return found


def _part_of(c: Cursor) -> Spot | None:
    """ "top of ch-3", "base of ch-3", "tip of cluster", "center dc of shell", "center of next loop", "side of last dc"."""
    token = c.t[c.i]
    c.i += 1
    if token.kind == "center":
        what = noun(c)
        if c.kind == "of" or what is not None:
            facts: dict[str, object] = {}
            got = _of_what(c, facts)
            name = str(facts.get("what") or what or "st") if got else (what or "st")
            where = cast(Where, facts.get("where", "next"))
            return Spot(Place(where=where, what=name, nth=0))
        return Spot(Place(what="st", nth=0))
    if token.kind == "side":
        if c.kind == "of":
            facts = {}
            _of_what(c, facts)
            if facts.get("what") in ("row", "piece", None):
                return Spot(Place(where="row_end", what="row"), "rest")
            return Spot(Place(where="same", what=str(facts.get("what"))))
        return Spot(Place(where="row_end", what="row"), "rest")
    if token.kind == "top" and c.kind in ("st", "noun", "ch", "lp", "sp"):
        noun(c)
    facts = {}
    if not _of_what(c, facts) and c.kind not in (",", ";", ".", "", ")", "]", "(", "and"):
        what = noun(c, chains=True)
        if what is None:
            return None
        facts["what"] = what
    if token.kind == "base":
        return Spot(Place(where="same", what=str(facts.get("what", "st"))))
    where = cast(Where, facts.get("where", "named"))
    if where in ("next", "same", "first", "last") and facts.get("what") not in ("tch",):
        return Spot(Place(where=where, what=str(facts.get("what", "st"))))
    return Spot(Place(where="named", what=str(facts.get("what", "tch"))))


def _of_what(c: Cursor, facts: dict[str, object]) -> bool:
    """ "of (the) (next) shell", "of ch-3", "of Rnd 6", "of previous row": fills `facts`; False with the cursor unmoved when not there."""
    if c.kind not in ("of", "in", "on", "from", "at"):
        return False
    start = c.i
    c.i += 1
    c.drop("the", "idle", "a", "each", "any", "each")
    where = {"next": "next", "same": "same", "last": "last", "prev": "next", "beg": "named"}.get(c.kind)
    if c.kind == "o" and c.t[c.i].val == 1:
        where = "first"
        c.i += 1
    elif where:
        c.i += 1
    if c.kind in ("row", "rnd") and c.look().kind == "n":
        facts["row"] = _row_name(c)
        return True
    if c.kind == "o" and c.look().kind in ("row", "rnd"):
        facts["row"] = f"Row {c.t[c.i].val}"
        c.i += 2
        return True
    if c.kind == "n" and c.look().kind in ("st", "grp", "group"):
        c.i += 1
    if c.kind in ("n",) and not _count_noun_here(c) and c.look().kind not in ("ch", "st", "noun"):
        c.i = start
        return False
    what = noun(c, chains=True)
    if what is None and c.kind in ("top", "base"):
        c.i += 1
        what = noun(c, chains=True) or "st"
    if what is None:
        if where in ("next", "same", "last", "first"):
            facts["where"], facts["what"] = where, "st"
            return True
        c.i = start
        return False
    if what == "row":
        facts["prev"] = True
        return True
    facts["what"] = what
    if where and where != "named":
        facts["where"] = where
    at = _tail(c, what)
    if at.below:
        facts["below"] = at.below
    return True


def _row_name(c: Cursor) -> str:
    word = "Rnd" if c.kind == "rnd" else "Row"
    c.i += 1
    value = c.t[c.i].val
    c.i += 1
    return f"{word} {value}"


def _plain(c: Cursor) -> Spot | None:
    """A noun without next/each: "in ring", "in ch-2 sp", "in corner", "in dc"."""
    c.drop("prev", "other", "alt") if c.kind in ("prev", "other", "alt") else None
    joined = c.kind == "join"
    skipped = c.kind == "skip"
    marked = c.kind == "marker"
    free = c.kind == "free"
    what = noun(c, chains=True)
    if what is None:
        return None
    if what == "ring":
        return Spot(Place(where="ring", what="ring"))
    if what in ("row", "piece", "side"):
        found = Spot(Place(where="row_end", what="row"), "rest")
        _limit(c, found)
        return found
    if what == "join":
        facts: dict[str, object] = {}
        _of_what(c, facts)
        c.take("below")
        return Spot(Place(where="same", what="join"))
    if what.startswith("ch") and c.kind == "from" and c.look().kind in ("hook", "the"):
        return _from_hook(c, int(what[3:]) if what[3:].isdigit() else 1)
    at = _tail(c, what)
    if joined and what in ("st", "ch", "sl st"):
        return Spot(Place(where="same", what="join"))
    if what == "tch" or (what.startswith("ch-") and not what.endswith(" sp")):
        return Spot(_with(at, where="named"))
    if skipped:
        return Spot(_with(at, where="skipped"))
    if marked or what == "marker":
        return Spot(_with(at, where="marked", what="st"))
    found = Spot(at)
    if what == "st" and c.kind == "n" and c.look().kind == "noun" and c.look(2).kind != "tog":
        told = number(c)  # "in st 5 sts": the scanner's "1st 5 sts"
        c.take("noun")
        return Spot(at, told or ONE, told=True)
    if free:
        pass
    if _limit(c, found):
        found.places, found.each = "rest", True
    return found


def _tail(c: Cursor, what: str) -> Place:
    """A place of `what`, with what is told after the noun: "2 rows below", "of Rnd 6", "of next shell", "below", "only"."""
    at: dict[str, object] = {"what": what}
    for _ in range(4):
        if not _one_tail(c, at):
            break
    return Place(**at)  # type: ignore[arg-type]


def _one_tail(c: Cursor, at: dict[str, object]) -> bool:
    kind = c.kind
    start = c.i
    if kind == "below":
        c.i += 1
        return True
    if kind == "n" and c.look().kind in ("row", "rnd") and c.look(2).kind == "below":
        at["below"] = max(0, int(c.t[c.i].val) - 1)
        c.i += 3
        return True
    if kind == "idle" and c.t[c.i].val in ("only", "also"):
        c.i += 1
        return True
    if kind == "unworked" or (kind == "skip" and c.look().kind in (",", ";", ".", "")):
        c.i += 1
        return True
    if kind == "between":
        c.i += 1
        if _after_prep(c, "between") is not None:
            return True
        c.i = start
        return False
    if kind in ("in", "of", "at", "along") and _side_tail(c):
        return True
    if kind in ("of", "in", "from", "at"):
        return _row_tail(c, at) or _noun_tail(c, at, start)
    return False


def _side_tail(c: Cursor) -> bool:
    """ "on long side", "along each short edge", "of first motif": which of several; passed over."""
    start = c.i
    c.i += 1
    c.drop("the", "each", "a", "any", "same")
    if c.kind in ("w", "st", "both", "o", "opp") and (c.kind != "st" or c.t[c.i].val == "long") and c.look().kind == "side":
        c.i += 2
        return True
    if c.kind == "side" and c.look().kind in (",", ";", ".", ""):
        c.i += 1
        return True
    c.i = start
    return False


def _row_tail(c: Cursor, at: dict[str, object]) -> bool:
    """ "of Rnd 6", "in Row 18", "of last row", "on 2nd row below", "of previous rnd", "from row below"."""
    start = c.i
    c.i += 1
    c.drop("the", "idle")
    words = ""
    if c.kind in ("grp", "w", "st", "noun", "base", "piece") and c.look().kind in ("row", "rnd") and c.look(2).kind == "n":
        words = c.t[c.i].text.capitalize() + " "
        c.i += 1
    if c.kind in ("row", "rnd") and c.look().kind == "n":
        at["row"] = words + _row_name(c)
        return True
    if c.kind == "o" and c.look().kind in ("row", "rnd"):
        nth = c.t[c.i].val
        word = "Rnd" if c.look().kind == "rnd" else "Row"
        c.i += 2
        if c.take("below"):
            at["below"] = max(0, nth - 1)
        else:
            at["row"] = f"{word} {nth}"
        return True
    if c.kind in ("prev", "last", "beg", "same", "next"):
        c.i += 1
    if c.kind == "n" and c.look().kind in ("row", "rnd") and c.look(2).kind == "below":
        at["below"] = max(0, int(c.t[c.i].val) - 1)
        c.i += 3
        return True
    if c.kind in ("row", "rnd") or (c.kind == "around" and c.t[c.i].val in ("round",)):
        c.i += 1
        c.take("below", "before")
        return True
    if c.kind == "ch" and c.look().kind in (",", ";", ".", "", "around", "across", "to", ")", "and") and at["what"] in ("st", "sp", "ch"):
        c.i += 1
        return True
    c.i = start
    return False


def _noun_tail(c: Cursor, at: dict[str, object], start: int) -> bool:
    """ "of next shell", "of ch-3", "of 5-dc group" after a noun."""
    if c.kind != "of":
        return False
    facts: dict[str, object] = {}
    if not _of_what(c, facts):
        c.i = start
        return False
    if "what" in facts:
        name = str(facts["what"])
        if name not in ("ring", "row"):
            if at["what"] not in ("st", "ch", "sp"):
                at["nth"] = at.get("nth")
            at["what"] = name
            if name == "tch" or (name.startswith("ch-") and not name.endswith("sp")):
                at["where"] = "named"
    if "row" in facts:
        at["row"] = facts["row"]
    return True


# ---- limits ----------------------------------------------------------------------------------------------------------------------
def _limit_here(c: Cursor) -> bool:
    return c.kind in ("around", "across") or (c.kind == "to" and c.look().kind in ("end", "last", "the"))


def _pass_limit(c: Cursor) -> None:
    """ "in each of next 12 sts around": the number was told, the limit adds nothing."""
    if c.kind in ("around", "across") and c.look().kind in (",", ";", ".", "", "(", ")", "[", "]", "*", "-", "="):
        c.i += 1


def _limit(c: Cursor, found: Spot) -> bool:
    """ "across", "around", "to end", "to last 3 sts", "to within 3 sts of end": how far; True when something was said."""
    got = limit(c)
    if got is None:
        return False
    found.but = got
    return True


def limit(c: Cursor) -> Sized[int] | None:
    """How far a run goes: 0 = to the end, n = up to the last n; None when nothing is said (cursor unmoved)."""
    said: Sized[int] | None = None
    while True:
        got = _one_limit(c)
        if got is None:
            return said
        if said is None or got != ZERO:
            said = got


def _one_limit(c: Cursor) -> Sized[int] | None:
    start = c.i
    kind = c.kind
    if kind == "all" and c.look().kind in ("around", "across", "along"):
        c.i += 1
        kind = c.kind
    if kind == "idle" and c.t[c.i].val == "completely" and c.look().kind == "around":
        c.i += 1
        kind = c.kind
    if kind in ("around", "across", "along"):
        after = c.look()
        if (
            after.kind in ("each", "next", "o", "same", "post")
            or (after.kind in ("st", "skip", "tch") and kind == "around")
            or (after.kind == "n" and c.look(2).kind in ("st", "noun", "skip", "grp", "unworked", "rem"))
            or after.kind == "base"
        ):
            c.i = start
            return None
        c.i += 1
        _over_what(c)
        return ZERO
    if kind in ("to", "until", "for", "over", "at", "in"):
        return _to_where(c, start)
    c.i = start
    return None


def _over_what(c: Cursor) -> None:
    """Pass over "(across) the row", "(around) the piece", "the ch", "entire row", "edge", "each side"."""
    start = c.i
    c.drop("the", "all", "whole", "idle", "rem")
    if c.kind == "w" and c.t[c.i].val in ("entire", "whole", "full"):
        c.i += 1
    if c.kind in ("row", "rnd", "piece", "ch", "side", "ring", "top", "patt", "motif"):
        c.i += 1
        if c.kind == "of" and c.look().kind in ("ch", "row", "the"):
            c.i += 1
            c.drop("the")
            c.drop("row", "ch", "rnd", "piece")
        return
    c.i = start


def _to_where(c: Cursor, start: int) -> Sized[int] | None:
    word = c.kind
    c.i += 1
    within = False
    while c.kind in ("the", "in", "idle", "w") and (
        c.kind != "w" or c.t[c.i].val in ("within", "reach", "reaching", "very", "you", "have")
    ):
        within = True
        c.i += 1
    if c.kind == "ends" and word != "over":
        c.i += 1
        return ZERO
    if c.kind == "end" and word not in ("over",):
        c.i += 1
        if c.kind == "of" and c.look().kind in ("row", "rnd", "the", "ch", "around"):
            c.i += 1
            c.drop("the")
            c.drop("row", "rnd", "ch", "around")
        return ZERO
    if word in ("to", "until") and c.kind == "n" and not within:
        from .untils import length

        cm = length(c)
        if cm is not None:
            from ...pattern import Until

            c.told["until"] = Until(length_cm=cm, span=c.span(start))
            return ZERO
    if word in ("to", "until") and c.kind == "last":
        c.i += 1
        told = number(c)
        what = noun(c)
        if told is None and what is None and c.kind not in (",", ";", ".", ")", "]", "", "(", "*"):
            c.i = start
            return None
        _before_end(c)
        return told or ONE
    if word in ("to", "until") and c.kind == "n" and (within or word == "until"):
        told = number(c)
        noun(c)
        if _before_end(c) or c.take("rem"):
            return told
        c.i = start
        return None
    if word == "to" and c.kind in ("row", "rnd") and c.look().kind == "end":
        c.i += 2
        return ZERO
    if (word == "to" and c.kind in ("marker", "corner")) or (
        word in ("to", "until") and c.kind == "next" and c.look().kind in ("marker", "corner")
    ):
        c.drop("next", "marker", "corner", "st", "sp")
        return ZERO
    c.i = start
    return None


def _before_end(c: Cursor) -> bool:
    """ "of end", "from end of row", "before end", "remain", "left": True when passed over."""
    start = c.i
    if c.kind in ("of", "from", "before", "at"):
        c.i += 1
        c.drop("the")
        if c.kind == "marker" or (c.kind == "next" and c.look().kind == "marker") or c.kind == "corner":
            c.drop("next", "marker", "corner")
            c.told["marked"] = True
            return True
        if c.take("end", "row", "rnd"):
            if c.kind == "of":
                c.i += 1
                c.drop("the")
                c.drop("row", "rnd")
            return True
        c.i = start
        return False
    if c.take("rem"):
        return True
    return c.kind == "idle" and c.t[c.i].val == "left" and bool(c.take("idle"))


def as_loop(name: str) -> Loop:
    return cast(Loop, name)
