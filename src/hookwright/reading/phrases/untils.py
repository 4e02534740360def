"""How long a run goes on: "until 6 sts remain", "until piece measures 9 (9½) in", "for 2½ inches"."""

from __future__ import annotations

from ...pattern import Aside, Even, Make, Refer, Sized, Step, Until
from .cursor import Cursor
from .numbers import number

EXAMPLES: tuple[tuple[str, str], ...] = ()

_UNITS = {"in": 2.54, "inch": 2.54, "inches": 2.54, "ins": 2.54, '"': 2.54, "''": 2.54, "cm": 1.0, "cms": 1.0, "centimetres": 1.0, "centimeters": 1.0,  # noqa: E501
          "mm": 0.1, "yd": 91.44, "yds": 91.44, "yard": 91.44, "yards": 91.44, "feet": 30.48, "foot": 30.48, "ft": 30.48, "m": 100.0}  # fmt: skip  # noqa: E501


_SIDES = frozenset("back front sleeve sleeves yoke body side armhole".split())  # noqa: SIM905


def length(c: Cursor) -> Sized[float] | None:
    """A length (of each size) in cm; None with the cursor unmoved."""
    start = c.i
    values: list[float | None] = []
    while c.kind == "n" or (values and c.kind in ("(", ",", ")", "-", "[", "]", ":", "/") and _more(c)) or (values and _each_in_inches(c)):
        if c.kind == "n":
            values.append(float(c.t[c.i].val))
        c.i += 1
        if c.kind == '"' and c.look().kind == "-" and c.look(2).kind == "n":
            c.i += 1
    factor = _unit(c)
    if not values or factor is None:
        c.i = start
        return None
    _in_other_units(c)
    return Sized(tuple(None if value is None else round(value * factor, 2) for value in values))


def _each_in_inches(c: Cursor) -> bool:
    """ "5\" [6\", 7\"]": the sign of inches behind every number, at one of them that more follow."""
    close = c.close.get(c.i + 1) if c.look().kind in ("(", "[") else None
    if c.kind != '"':
        return False
    return c.t[close - 1].kind == '"' if close is not None else c.look().kind == "," and c.look(2).kind == "n" and c.look(3).kind == '"'


def _in_other_units(c: Cursor) -> None:
    """Pass over the same length told again: "13 (13, 13½)\" [33 (33, 34.5) cm]", "13 (14)\" / 33 (36) cm"."""
    begin = c.i
    if c.take("/", "or"):
        c.i = begin if length(c) is None else c.i
        return
    close = c.close.get(c.i)
    if close is None:
        return
    c.i += 1
    if length(c) is None or c.i != close:
        c.i = begin
    else:
        c.i = close + 1


def _more(c: Cursor) -> bool:
    return any(c.look(k).kind == "n" or _UNITS.get(str(c.look(k).val)) for k in (1, 2))


def _unit(c: Cursor) -> float | None:
    token = c.t[c.i]
    word = str(token.val) if token.kind in ("w", "in") else token.kind
    if token.kind == "'" and c.look().kind == "'":
        c.i += 2
        return 2.54
    factor = _UNITS.get(word)
    if factor is not None:
        c.i += 1
        c.take(".") if c.kind == "." and c.look().text[:1].islower() else None
    return factor


def until(c: Cursor) -> Until | None:
    """An end told by stitches or length; the cursor then stands behind it."""
    start = c.i
    down = _down_to(c)
    if c.kind not in ("until", "for", "to") and not down:
        return None
    word = "until" if down else c.kind
    c.i += 1
    if word == "for" and c.kind == "as" and c.look().text.lower() in ("many", "long"):
        _to_clause(c)
        return Until(span=c.span(start))  # "for as many rounds as you like"
    while _down_to(c) or (
        c.kind
        in (
            "w",
            "the",
            "idle",
            "piece",
            "counts",
            "there",
            "from",
            "work",
            "it",
            "patt",
            "is",
            "a",
            "measures",
            "of",
            "about",
            "around",
            "color",
            "row",
            "beg",
            "side",
            "total",
            "rem",
            "your",
            "color",
            "group",
            "all",
            "both",
        )
        and c.kind
    ):
        if c.kind == "n":
            break
        c.i += 1
        if c.i - start > 12:
            c.i = start
            return None
    measured = next((k for k in range(c.i, min(c.i + 5, len(c.t))) if c.t[k].kind == "measures" or c.t[k].val in ("is", "are")), None)
    named = measured is not None and (c.t[measured].kind == "measures" or c.t[measured - 1].text.lower() in _SIDES)
    if measured is not None and named and not any(t.kind in ("n", ",", ";", ".", "(") for t in c.t[c.i : measured]):
        c.i = measured + 1  # "until back measures", "until the left front measures"
        while c.kind in ("about", "around", "w", "idle", "a") and c.kind:
            c.i += 1
    cm = length(c)
    if cm is not None:
        c.i += c.t[c.i].val == "long"  # "until skirt is 7 inches long": no stitch
        _rest(c)
        return Until(length_cm=cm, span=c.span(start))
    told = number(c)
    if told is not None and c.t[c.i].text.lower() in ("complete", "completed", "full", "whole") and c.look().kind in ("row", "rnd"):
        c.i += 1
    if told is not None and c.kind in ("row", "rnd") and word in ("until", "to"):
        c.told["until_rows"] = told if told.many else told.values[0]
        _to_clause(c)
        return Until(span=c.span(start))
    if told is not None and word == "until" and c.t[c.i].text.lower() in ("ridges", "ribs"):
        c.i += 1
        rows = _in_rows(c)
        c.told["until_rows"] = rows or 2 * (told.values[0] or 0)  # a ridge is two rows in the back loop (common practice, no source)
        return Until(span=c.span(start))
    if told is not None and word == "until" and c.t[c.i].text.lower().removesuffix("s") in ("block", "tile", "square", "pixel"):
        c.i += 1
        c.i += c.t[c.i].text.lower() in ("is", "are")
        _rest(c)
        return Until(stitches=told, what="tile", span=c.span(start))
    if told is not None and (c.kind in ("noun", "st", "grp", "lp", "sp", "group") or (c.kind == "post" and c.ctx.passes)):
        what = "sp" if c.kind in ("lp", "sp") and not any(t.kind == "hook" for t in c.t[c.i : c.i + 4]) else "st"
        what = str(c.t[c.i].val) if c.kind == "grp" else what  # "until 1 shell remains"
        c.i += 1
        begin = c.i
        if what == "st" and word == "until":
            told = _of_a_stretch(c) or told
        _rest(c)
        if any(t.kind == "each" and c.t[k + 1].kind == "side" for k, t in enumerate(c.t[begin : c.i], begin)) and _of_middle(c):
            told = Sized(tuple(None if n is None else 2 * n for n in told.values))
        return Until(stitches=told, what=what, span=c.span(start))
    as_wanted = word == "to" and any(t.text.lower() in ("size", "length", "width", "depth", "height") for t in c.t[start : c.i + 1])
    if word == "until" or as_wanted or any(c.t[k].kind == "measures" for k in range(start, c.i)):
        words = c.i - start
        if words and (told is None or any(isinstance(step, Refer) for step in c.out)):
            _to_clause(c)
            return Until(length_cm=_about(c), span=c.span(start))
    c.i = start
    return None


def _down_to(c: Cursor) -> bool:
    """At "(until you are) down to 2 sc", "(you're) left with 4": its first word."""
    before, first, second = (c.t[k].text.lower() for k in (c.i - 1, c.i, c.i + 1))
    return (first, second) in _DOWN_TO or ((before, first) in _DOWN_TO and c.look().kind == "n")


_DOWN_TO = (("down", "to"), ("up", "to"), ("left", "with"))


def and_so_on(c: Cursor) -> list[Step] | None:
    """ "(1 sc in each st around) and so on until 2 inches long", "so on for 5 rounds": the rows go on so."""
    start = c.i
    if c.t[c.i].text.lower() != "so" or c.look().text.lower() != "on" or c.look(2).kind not in ("until", "for") or "until" in c.told:
        return None
    c.i += 2
    got = until(c)
    if got is None or got.length_cm is None or c.kind not in (",", ";", ".", "", ")", "]"):
        c.i = start
        return None
    c.told["until"] = got
    return [Aside(id=c.id(), span=c.span(start))]


def still_until(c: Cursor) -> list[Step] | None:
    """ "Repeat Row 4, changing colour as you please, until there are 41 sts", "sc in each st until it measures 3 inches": how far, told
    apart from what is repeated."""
    start = c.i
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    plain = isinstance(before, Make) and before.places == "rest" and not before.upto and c.kind == "until"
    if "until" in c.told or not (plain or any(isinstance(step, (Refer, Even)) for step in c.out)):
        return None
    got = until(c)
    if got is None or (plain and got.length_cm is None) or c.kind not in (",", ";", ".", "", ")", "]"):
        c.i = start
        return None
    c.told["until"] = got
    return [Aside(id=c.id(), span=c.span(start))]


def _about(c: Cursor) -> Sized[float] | None:
    """ "(until square,) about 7 inches": the length told beside it."""
    begin = c.i
    if c.take(",", "("):
        bracket = c.t[begin].kind == "("
        if (c.kind == "around" and c.t[c.i].val == "about") or c.t[c.i].text.lower() in ("approx", "approximately", "roughly", "or"):
            c.i += 1
            c.take(".")
            c.take("around")
            found = length(c)
            if found is not None and (not bracket or c.take(")")):
                return found
    c.i = begin
    return None


def _rest(c: Cursor) -> None:
    """Pass over "remain", "from beg", "long", "in length", "all sizes" in brackets."""
    while (
        c.kind
        in (
            "rem",
            "from",
            "beg",
            "idle",
            "w",
            "in",
            "at",
            "the",
            "o",
            "dec",
            "inc",
            "all",
            "piece",
            "left",
            "of",
            "on",
            "each",
            "side",
            "hook",
        )
        and c.kind
    ):
        c.i += 1
    if c.t[c.i].text.lower() in ("worked", "completed") and c.t[c.i - 1].text.lower() in ("are", "is", "been"):
        c.i += 1  # "until 8 ins. are worked"
    if c.kind in ("rnd", "row", "around") and c.t[c.i - 1].kind in ("on", "in", "the", "each"):
        c.i += 1
    if c.kind == "or" and c.look().val in ("desired", "for", "length", "as", "to"):
        while c.kind not in (",", ";", ".", "", ")", "("):
            c.i += 1  # "or desired length"
    if c.kind == "(" and c.look().kind in ("all", "both"):
        c.i = c.close.get(c.i, c.i) + 1
    c.drop("rem")


def _of_a_stretch(c: Cursor) -> Sized[int] | None:
    """Past "(until there are 8 sts) between markers; 30 (36) sts": so many are meant of a stretch, and the end of the run is the total told
    behind it. None, with the cursor unmoved, where no total is told: how far a stretch has come is not counted."""
    begin = c.i
    c.i += c.t[c.i].text.lower() == "are"
    if c.kind != "between" and c.t[c.i].text.lower() not in _STRETCH:
        c.i = begin
        return None
    while c.kind not in (*_BEHIND_STRETCH, ".", "", ")", "]"):
        c.i += 1
    end = c.i
    while c.kind in _BEHIND_STRETCH or c.kind in ("total", "counts", "the", "there", "idle", "a"):
        c.i += 1
    total = number(c) if c.i > end else None
    plain = total is not None and c.kind in ("st", "noun") and c.look().kind not in ("between", "in", "at", "from", "each")
    c.i = end if plain else begin
    return total if plain else None


_STRETCH = frozenset(("between", "on", "for", "in", "at"))
_BEHIND_STRETCH = (",", ";", "-", "(", "=", ":")


def _of_middle(c: Cursor) -> bool:
    """Past "(36 dc on each side) of the spine": both sides together are meant by the end of the run."""
    begin = c.i
    c.drop("of", "the")
    if c.take("corner", "center"):
        c.drop("sp", "noun", "st")
        return True
    c.i = begin
    return False


def _in_rows(c: Cursor) -> int | None:
    """ "(48 rows)": the same told in rows."""
    if c.kind == "(" and c.look().kind == "n" and c.look(2).kind in ("row", "rnd") and c.look(3).kind == ")":
        c.i += 4
        value = c.t[c.i - 3].val
        return value if isinstance(value, int) else None
    return None


def _to_clause(c: Cursor) -> None:
    while c.kind not in (",", ";", ".", "", ")", "]", "("):
        c.i += 1
