"""Stated counts: "(36 dc)", "[24]", "= 24 sc", "—24 sc.", "24 sts.", "You should have 24 sts", "(12 hdc, 6 ch-2 sps)"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import LIMITS, Aside, Count, Make, Sized, Step
from ...trade.kinds import FOUNDATION_STITCHES
from .counts_of_one_kind import one_space
from .cursor import Cursor
from .nouns import noun
from .numbers import number, whole

EXAMPLES = (
    ("sc around. (36 sc)", "sc×rest | 36 sc"),
    ("inc in each st around [12]", "2sc×rest | 12 st"),
    ("sc around = 24 sc", "sc×rest | 24 sc"),
    ("sc in each st across—24 sc.", "sc×rest | 24 sc"),
    ("hdc across. You should have 24 stitches.", "hdc×rest | 24 st"),
    ("hdc around (12 hdc, 6 ch-2 sps)", "hdc×rest | 12 hdc, 6 ch-2 sp"),
    ("dc across. (30 dc, counting turning ch)", "dc×rest | 30 dc"),
)

_LEAD = frozenset(
    ("=", "-", "total", "the", "counts", "counter", "now", ":", "idle", "a", "then", "in", "of", "rem", "to", "and", "having", "more")
)
_LEAD_WORDS = frozenset(
    [
        "you",
        "should",
        "have",
        "will",
        "be",
        "there",
        "are",
        "now",
        "makes",
        "for",
        "row",
        "st",
        "this",
        "gives",
        "with",
        "on",
        "hook",
        "by",
        "about",
        "approx",
        "approximately",
        "around",
        "nearly",
        "roughly",
        "ca",
        "circa",
        "thus",
        "making",
        "still",
        "left",
        "get",
        "at",
        "end",
        "again",
        "must",
    ]
)
_APPROX = frozenset(("about", "approx", "approximately", "around", "nearly", "roughly", "ca", "circa"))
_END = frozenset(("", ".", ")", "]", "}"))
_THINGS = frozenset(
    [
        "petals",
        "squares",
        "blocks",
        "points",
        "bls",
        "bl",
        "motifs",
        "rows",
        "ridges",
        "loops",
        "groups",
        "legs",
        "leaves",
        "spokes",
        "bumps",
        "ribs",
        "medallions",
        "triangles",
        "v's",
        "peaks",
        "scallops",
        "diamonds",
        "knots",
        "fans",
        "pineapples",
        "clusters",
        "wedges",
        "links",
        "rings",
        "bars",
        "spikes",
        "corners",
        "chevrons",
        "bobbles",
        "rnds",
    ]
)


LONGEST = 30 * LIMITS.sizes
"""Words of the longest bracket that may state counts: every size with a dozen kinds of its own."""


def bracketed(c: Cursor) -> list[Step] | None:
    """A bracket that states a count (nothing else in it); the steps are none, the count goes to the row."""
    close = c.close.get(c.i)
    if close is None or close - c.i > LONGEST:
        return None
    start = c.i
    if any(c.t[k].kind == "counts" and c.t[k + 1].kind == "as" for k in range(start, close)):
        return None  # "(3 skipped chs count as first dc)": what chains stand for
    c.i += 1
    found = _list(c, close)
    if found is None or c.i != close:
        c.i = start
        return None
    c.i = close + 1
    if _goes_on(c):
        c.i = start
        return None
    if c.t[close - 1].val == "made" and c.kind in (",", ";") and c.look().kind in ("st", "n", "ch", "*", "skip", "grp"):
        c.told["running"] = True  # "… in 8th ch from hook (1 sp made), d c in …": of what was just worked
    _add(c, found, start)
    return []


def _goes_on(c: Cursor) -> bool:
    """After the bracket comes a place or a number of times: then it was a group."""
    kind = c.kind
    if kind == "*" and c.look().kind == "n" and not c.look().gap:
        return True
    if kind == "rep" and (c.look().kind == "n" or c.look().val == "x" or c.look().kind in ("around", "across")):
        return True  # "[5 sc, 1 inc] repeat 6 times"
    if kind in ("once", "in", "over"):
        return not (kind == "in" and c.look().kind in ("total",)) and not (c.kind == "in" and c.t[c.i].val == "in all")
    if kind == "n":
        return c.look().kind in ("times", "more") or c.look().val == "x"
    if kind == "w":
        return c.t[c.i].val == "x" and c.look().kind == "n"
    return kind in ("around", "across") and not c.out


def _add(c: Cursor, found: list[Count], start: int) -> None:
    span = c.span(start)
    running = bool(c.told.pop("running", False))
    for one in found:
        c.counts.append(replace(one, span=span, running=one.running or running))


def trailing(c: Cursor) -> list[Step] | None:
    """ "= 24 sc", "- 24 sc.", ": 8 loops", ", 24 sc." at a row's end; or a sentence that states it."""
    start = c.i
    if c.kind in ("=", "-", ":", ","):
        c.i += 1
        if c.kind in ("(", "[", "{"):
            got = bracketed(c)
            if got is not None:
                return got
            c.i = start
            return None
    end = _sentence_end(c)
    end = next((k for k in range(c.i, min(end, c.i + 24)) if c.t[k].kind == "foff"), end)
    if len(c.frames) > 1 or (not c.out and not c.counts):
        c.i = start
        return None
    strong = c.t[start].kind in ("=", ":")
    if (
        not strong
        and c.t[start].kind != "-"
        and any(c.t[k].kind in ("in", "next", "last", "first") for k in range(start, min(end, start + 9)))
    ):
        c.i = start  # "…, 2 dc in last st.": a place is named, so it is work, not a count
        return None
    found = _list(c, end)
    if found is None or (
        c.kind not in _END | {"foff"} and not (c.kind in (",", ";") and c.look().kind in ("turn", "ch", "foff", "join", "cont", "and"))
    ):
        c.i = start
        return None
    if not strong and c.t[start].kind != "-" and any(one.kind in FOUNDATION_STITCHES for one in found):
        c.i = start  # "…, 3 fdc, turn": stitches worked in the air beyond the edge; a count names plain kinds
        return None
    if not strong and (all(one.kind == "ch" for one in found) or (c.t[start].kind == "," and (found[0].number.values[0] or 0) <= 3)):
        c.i = start  # "…, 3 ch, turn", "…, 1 sc.": work
        return None
    plain_noun = all(one.kind not in ("st",) for one in found)
    dash = c.t[start].kind == "-"
    if not strong and not dash and c.t[start].kind != ",":
        first = c.t[start]
        loops = start > 0 and c.t[start - 1].kind == "." and all(one.kind.endswith("sp") or one.kind == "shell" for one in found)
        if first.kind == "n" and plain_noun and not loops and not _used_up(c, start):
            c.i = start
            return None
    if c.t[start].kind == "," and not (_used_up(c, start) or not plain_noun):
        c.i = start
        return None
    if dash and c.t[start].val == "tight" and not _used_up(c, start):
        c.i = start
        return None
    _add(c, found, start)
    return []


def _used_up(c: Cursor, start: int) -> bool:
    """The last step already goes to the end of the row."""
    if c.out and type(c.out[-1]).__name__ == "Join" and not c.out[-1].no:  # type: ignore[union-attr]
        return True
    own = start > 0 and c.t[start - 1].kind == "."
    """Whether the count is a sentence of its own."""
    if own and len(c.frames) == 1 and _ends_row(c) and any(token.kind in ("in", "each", "next") for token in c.t[:start]):
        return True  # "…, sc in next 12 sts. 25 sc.": the row tells where each stitch goes, and these are told nowhere to go
    for k in range(len(c.out) - 1, -1, -1):
        step, name = c.out[k], type(c.out[k]).__name__
        if name == "Turn" and any(type(one).__name__ in ("Make", "Together", "Repeat") for one in c.out[:k]):
            return True  # what is worked after a turn is the next row's
        if name == "Join" and not step.no:  # type: ignore[union-attr]
            return True
        if name in ("Aside", "Turn", "Join", "Chain", "Colour", "FastenOff") or _closes_round(step):
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


def _ends_row(c: Cursor) -> bool:
    """Nothing but a full stop is left."""
    return all(token.kind in (".", "", "total") for token in c.t[c.i :])


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


def _list(c: Cursor, end: int) -> list[Count] | None:
    """Counts from the cursor to token `end`; None (cursor anywhere) when something else stands there too."""
    approximate = False
    while c.i < end and (
        c.kind in _LEAD
        or (
            c.kind in ("w", "around", "noun", "row", "rnd", "work", "patt", "with", "at", "hook", "end")
            and c.t[c.i].val in (*_LEAD_WORDS, "st count", "end")
        )
    ):
        if c.kind == "noun" and c.i + 1 >= end:
            return None
        approximate = approximate or c.t[c.i].val in _APPROX
        c.i += 1
    found: list[Count] = []
    while c.i < end:
        if found and _between(c, end):
            c.i = end
            return found
        one = _one(c, end, approximate)
        if one is None:
            return None
        found.append(one)
        flags = _modifiers(c, end)
        if flags:
            found[-1] = replace(found[-1], **flags)  # type: ignore[arg-type]
            if "turning_chain" in flags or "chains" in flags:
                found = [replace(each, **{k: v for k, v in flags.items() if k in ("turning_chain", "chains")}) for each in found]  # type: ignore[arg-type]
        if c.i < end and c.kind in (",", "and", "|", "&", "/", ";", "*", "with", "+", "or", "."):
            if c.kind == "," and c.look().kind in ("turn", "ch", "foff", "join") and not one_space(c, c.i + 1, end):
                return found
            c.i += 1
            c.drop("and", "a", "the") if c.i < end else None
        elif c.i < end and c.kind != "n":
            return found if found and c.kind in (",", ";") else None
    return found or None


def _between(c: Cursor, end: int) -> bool:
    """ "(16 tr, ch 1 between them all)": the chains between are told, not counted."""
    return c.kind == "ch" and any(t.kind == "between" for t in c.t[c.i : end])


def _one(c: Cursor, end: int, approximate: bool) -> Count | None:
    sign = 0
    if c.kind in ("*", "+") and c.look().kind == "n":
        sign = 1
        c.i += 1
    elif c.kind == "-" and c.look().kind == "n":
        c.i += 1
    elif c.kind == "w" and c.t[c.i].val in _APPROX:
        approximate = True
        c.i += 1
    if c.kind == "around" and c.look().kind == "n":
        approximate = True
        c.i += 1
    if c.kind == "a" and c.look().kind in ("grp", "ch", "sp"):
        c.i += 1
        value: Sized[int] | None = Sized((1,))
    elif one_space(c, c.i, end):
        value = Sized((1,))
    else:
        value = _sized(c, end)
    if value is None:
        return None
    if sign:
        value = Sized(value.values)
    c.take("-") if c.kind == "-" and c.i + 1 < end and c.look().kind in ("st", "noun", "ch", "grp") else None
    c.drop("total", "more") if c.kind in ("total",) else None
    change = bool(sign)
    if c.kind == "more" and c.i < end:
        c.i += 1
        change = True
    kind = _kind(c, end)
    if kind is None:
        return None
    if kind in ("group", "shell", "fan", "cl") and c.kind == "of" and c.look().kind == "n" and c.look(2).kind in ("st", "noun"):
        c.i += 3  # "4 groups of 3 dc"
    return Count(number=value, kind=kind, change=change, approximate=approximate)


def _sized(c: Cursor, end: int) -> Sized[int] | None:
    if c.kind != "n" or not isinstance(c.t[c.i].val, int):
        return None
    n = c.ctx.sizes
    if n > 1:
        values: list[int | None] = []
        k = c.i
        while k < end and c.t[k].kind in ("n", ",", "-", "/", "(", ")", ";"):
            if c.t[k].kind == "n":
                values.append(whole(c.t[k].val))
            k += 1
        if len(values) == n or (len(values) > n and len(values) == n + 0):
            while c.t[k - 1].kind in (",", "(", "-", ";") and k > c.i:
                k -= 1
            c.i = k
            return Sized(tuple(values))
    return number(c)


def _kind(c: Cursor, end: int) -> str | None:
    if c.i >= end or c.kind in (",", "and", ")", "|", "&", ";", "/", ".", "total", "*"):
        return "st"
    token = c.t[c.i]
    if token.kind == "w" and c.look().kind in ("st", "noun", "sp", "lp", "grp") and c.i + 1 < end and token.val not in ("on", "x"):
        c.i += 1
        token = c.t[c.i]
    if token.kind in ("inc", "dec"):
        c.i += 1
        if c.i < end and c.kind == "noun":
            c.i += 1
        return token.kind
    name = noun(c)
    if name is not None:
        if c.i < end and c.kind == "noun":
            c.i += 1
        return name
    if token.kind in ("half", "other") and c.i + 1 < end:
        c.i += 1
        return f"half {_kind(c, end) or 'st'}"
    if token.kind in ("w", "piece", "tail") and (c.i + 1 == end or c.look().kind in (",", "and", "+", "&")) and _thing(str(token.val)):
        c.i += 1
        return str(token.val).removesuffix("s")
    if token.kind == "w" and token.val in _THINGS:
        c.i += 1
        return str(token.val).removesuffix("s") if token.val not in ("bls", "bl") else "block"
    if token.kind in (
        "idle",
        "per",
        "on",
        "in",
        "each",
        "for",
        "around",
        "across",
        "at",
        "from",
        "counts",
        "not",
        "left",
        "rem",
        "with",
        "w",
        "hook",
        "-",
    ):
        return "st"
    return None


_NO_THINGS = frozenset(
    "x times time more again so far each made remaining remain left on inch inches ins cm mm yd yds yards m g oz min mins minutes hours long wide high "  # noqa: SIM905, E501
    "total repeat repeats total pm am".split()
)


def _thing(word: str) -> bool:
    """A plain noun that a count may be of, though nothing here can count it ("2 handles")."""
    return len(word) > 3 and word.isalpha() and word not in _NO_THINGS and word not in _COUNTING and word.endswith("s")


_PER = frozenset(
    (
        "section",
        "repeat",
        "needle",
        "half",
        "edge",
        "motif",
        "group",
        "piece",
        "rep",
        "patt",
        "side",
        "corner",
        "rnd",
        "row",
        "point",
        "petal",
    )
)
_COUNTING = frozenset(
    ("including", "included", "incl", "counting", "include", "inc'l", "excluding", "minus", "not", "counted", "count", "counts")
)
_IDLE = frozenset(("total", "rem", "around", "across", "idle", "now", "all", "free", "more"))


def _modifiers(c: Cursor, end: int) -> dict[str, object]:
    """What is told beside the number: per side, increased, so far, counting the turning chain …"""
    flags: dict[str, object] = {}
    while c.i < end:
        kind, word = c.kind, c.t[c.i].val
        if _told_when(c, end):
            continue
        if kind in _IDLE and kind != "more":
            c.i += 1
        elif kind == "w" and word in ("made", "long", "high", "wide", "altogether", "left", "far", "each"):
            flags["running"] = flags.get("running", False) or word == "far"
            c.i += 1
        elif kind in ("work", "inc", "dec", "w") and word in (
            "increased",
            "inc'd",
            "increase",
            "increases",
            "inc",
            "decreased",
            "less",
            "fewer",
            "decrease",
            "dec",
            "dec'd",
            "decreases",
            "worked",
        ):
            if word != "worked":
                flags["change"] = True
            c.i += 1
        elif (
            kind == "with"
            and c.look().kind in ("a", "n", "ch")
            and not any(t.kind == "n" for t in c.t[c.i + 2 : end] if t.text.isdigit() and c.t[c.i + 2].kind not in ("ch", "-"))
        ):
            c.i = end
        elif kind in ("in", "along", "at", "for", "each", "per", "between", "to") or (kind == "w" and word in ("per", "for")):
            if not _per(c, end, flags):
                break
        elif (
            kind in ("counts", "not")
            or (kind == "w" and word in _COUNTING)
            or (kind in (",", "with") and _counting_ahead(c, end))
            or (kind == "ch" and any(t.val in _COUNTING for t in c.t[c.i : end]))
        ):
            _counting(c, end, flags)
        else:
            break
    return flags


_WHEN = frozenset(
    ("at", "after", "in", "the", "end", "of", "row", "rnd", "around", "n", "o", "last", "for", "by", "this", "when", "work", "complete")
)


def _told_when(c: Cursor, end: int) -> bool:
    """ "at end of Row 9", "after Rnd 12", "at the end of this row": after which row the count holds; passed over."""
    if c.kind not in ("at", "after", "in", "for", "by") or not any(c.t[k].kind in ("row", "rnd", "end") for k in range(c.i, end)):
        return False
    if any(c.t[k].kind not in _WHEN for k in range(c.i, end)):
        return False
    c.i = end
    return True


def _per(c: Cursor, end: int, flags: dict[str, object]) -> bool:
    """ "on each side", "in each section", "on hook", "per repeat", "between corners": True when passed over."""
    k = c.i + 1
    if c.kind in ("in",) and c.t[c.i].val == "on" and c.look().kind == "hook":
        c.i += 2
        return True
    said = c.kind in ("each", "between") or c.t[c.i].val == "per"
    while k < end and c.t[k].kind in ("each", "the", "both", "all", "a", "idle", "next", "in", "other", "total", "o"):
        said = said or c.t[k].kind in ("each", "both", "all", "total")
        k += 1
    if c.t[c.i].val == "in all" or (k > c.i + 1 and c.t[k - 1].kind == "total"):
        c.i = k
        return True
    if not said:
        return False
    word = c.t[k].kind if k < end else ""
    if k < end and (word in _PER or c.t[k].val in _PER or str(c.t[k].val).rstrip("s") in _PER):
        if word not in ("row", "rnd"):
            flags["per"] = "side" if word == "side" else "section"
        k += 1
        c.i = k
        while c.i < end and c.kind in ("of", "the", "corner", "side", "between", "piece", "with", "all", "around"):
            c.i += 1
        return True
    return False


def _counting_ahead(c: Cursor, end: int) -> bool:
    return any(t.val in _COUNTING or t.kind == "between" for t in c.t[c.i + 1 : min(end, c.i + 5)])


def _counting(c: Cursor, end: int, flags: dict[str, object]) -> None:
    """ "counting turning ch", "ch-1s included", "not counting the skipped ch": to the end of the remark."""
    words = c.t[c.i : end]
    no = any(t.kind == "not" or t.val in ("excluding", "minus") for t in words)
    says = any(t.kind == "counts" or t.val in _COUNTING for t in words)
    if says and any(t.kind == "tch" for t in words):
        flags["turning_chain"] = not no
    elif says and any(t.kind == "ch" for t in words):
        flags["chains"] = not no
    c.i = end


_SAY = frozenset(("you", "there", "this", "total", "st", "now", "have", "should"))


def for_total(c: Cursor) -> list[Step] | None:
    """ "for a total of 40 sc", "for 40 sts in all": what the row comes to."""
    start = c.i
    c.i += 1
    c.take("a")
    if c.kind == "grp" and c.look().kind in (",", ".", ";", "", ")"):
        c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]  # "7 dc in same sp for shell"
    if not c.take("total") or c.kind not in ("n", "of"):
        c.i = start
        return None
    c.take("of")
    found = _list(c, _sentence_end(c))
    if found is None:
        c.i = start
        return None
    _add(c, found, start)
    return []


def sentence(c: Cursor) -> list[Step] | None:
    """ "You should have 24 stitches.", "This makes 24 sc.", "There are 33 loops on hook", "Total: 24"."""
    start = c.i
    word = c.t[c.i].val
    has = c.kind == "the" and any(c.t[k].val in ("has", "have") and c.t[k + 1].kind == "n" for k in range(c.i, min(c.i + 9, len(c.t) - 1)))
    if not (
        has
        or c.kind in ("total", "counter")
        or (c.kind == "counts" and word == "makes")
        or (c.kind in ("w", "the", "idle") and word in ("you", "there", "this", "now", "these", "should", "have", "you'll", "has", "total"))
    ):
        return None
    end = _sentence_end(c)
    says = next(
        (k for k in range(c.i, min(end, c.i + 10)) if c.t[k].val in ("has", "have", "are", "contains", "gives") and c.t[k + 1].kind == "n"),
        None,
    )
    if says is not None and not any(c.t[k].kind in ("st", "ch", "inc", "dec") for k in range(c.i, says)):
        c.i = says + 1
    near = min(end, c.i + 9)
    if not any(c.t[k].kind == "n" for k in range(c.i, near)):
        return None
    found = _list(c, end)
    if found is None or (c.i < end and c.kind not in _END | {","}):
        c.i = start
        return None
    if c.kind == "," and c.i < end:
        c.told["running"] = False
    _add(c, found, start)
    return []


def note(c: Cursor, start: int) -> Step:
    return Aside(id=c.id(), span=c.span(start))
