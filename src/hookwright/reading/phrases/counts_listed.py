"""The counts that stand in a bracket or a sentence: "24 sc, 6 ch-2 sps", "12 on each side", "about 40 sts, counting the turning ch"."""

from __future__ import annotations

import re
from dataclasses import replace

from ...pattern import Count, Sized
from .counts_crossed import crosses_counted
from .counts_framed import at_ends, halves, spans_gap, the_chain
from .counts_of_one_kind import one_space, so_often
from .cursor import Cursor
from .nouns import noun
from .numbers import number, whole

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
        "so",
        "u",
        "giving",
        "which",
        "that",
        "up",
        "leaving",
    ]
)


_APPROX = frozenset(("about", "approx", "approximately", "around", "nearly", "roughly", "ca", "circa"))


_THINGS = frozenset(
    [
        "petals",
        "squares",
        "blocks",
        "block",
        "tile",
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


def listed(c: Cursor, end: int) -> list[Count] | None:
    """Counts from the cursor to token `end`; None (cursor anywhere) when something else stands there too."""
    approximate = False
    while c.i < end and (
        c.kind in _LEAD
        or (
            c.kind in ("w", "around", "along", "noun", "row", "rnd", "work", "patt", "with", "at", "hook", "end")
            and c.t[c.i].val in (*_LEAD_WORDS, "st count", "end")
        )
    ):
        if c.kind == "noun" and c.i + 1 >= end:
            return None
        approximate = approximate or c.t[c.i].val in _APPROX
        c.i += 1
    if c.i + 1 == end and c.kind == "n" and c.t[c.i - 1].kind in ("row", "rnd") and c.t[c.i - 2].kind in ("a", "the", "on", "with", "in"):
        return None  # "You end on a row 4": which row it is, and no count
    found: list[Count] = []
    while c.i < end:
        if found and (_between(c, end) or _opening(c, end)):
            c.i = end
            return found
        if (found and halves(c, end)) or spans_gap(c, end):
            continue
        c.i += bool(found) and c.kind in ("center", "corner") and c.look().kind == "ch"  # "2 dc and center ch-2 sp"
        one = _one(c, end, approximate)
        if one is None:
            return None
        if at_ends(c, end):
            continue
        found.append(one)
        begin = c.i
        flags = _modifiers(c, end)
        if flags.get("change") and any(t.val in _FEWER for t in c.t[begin : c.i]):
            found[-1] = replace(found[-1], number=Sized(tuple(None if n is None else -n for n in found[-1].number.values)))
        if flags:
            found[-1] = replace(found[-1], **flags)  # type: ignore[arg-type]
            if (
                "per" in flags
                and c.t[begin - 1].kind != "n"
                and len({each.kind for each in found}) == len(found)
                and _joined_by_and(c, begin)
            ):
                found = [replace(each, per=found[-1].per) for each in found]  # "(20 dc and 19 chs per side)"
            if "turning_chain" in flags or "chains" in flags:
                found = [replace(each, **{k: v for k, v in flags.items() if k in ("turning_chain", "chains")}) for each in found]  # type: ignore[arg-type]
        if c.i < end and c.kind in (",", "and", "|", "&", "/", ";", "*", "with", "+", "or", "."):
            comma, parted = c.kind == ",", c.kind
            c.i += 1
            if comma and c.kind == "ch" and (spaces := so_often(c, end)) is not None:
                found.append(spaces)
                continue
            if comma and c.kind == "ch" and spans_gap(c, end):
                continue
            if comma and c.kind in ("turn", "ch", "foff", "join") and not one_space(c, c.i, end):
                c.i -= 1
                return found
            c.drop("and", "the") if c.i < end else None
            if the_chain(c, end, plain=parted in ("and", "+", "&")):
                return [replace(each, turning_chain=parted == "with") for each in found]
            if c.i < end and c.look().kind not in ("grp", "ch", "sp", "st"):
                c.take("a")
        elif c.i < end and c.kind in ("-", ":", "=") and c.look().kind == "n":
            c.i += 1  # "6 dc - 3 on each side", "36: 30 sc, 6 bobbles"
        elif c.i < end and c.kind != "n":
            return found if found and c.kind in (",", ";") else None
    return found or None


def _joined_by_and(c: Cursor, end: int) -> bool:
    """Whether the last two counts before token `end` are joined by "and"."""
    return any(t.kind in ("and", "&") for t in c.t[max(0, end - 5) : end])


def _between(c: Cursor, end: int) -> bool:
    """ "(16 tr, ch 1 between them all)", "26 sc and ch-2": the chains between, or the one that spans a gap, are told, not counted."""
    if c.kind != "ch":
        return False
    alone = (c.t[c.i - 1].kind == "and" or c.t[c.i - 1].text == "+") and [t.kind for t in c.t[c.i + 1 : end] if t.kind != "-"] == ["n"]
    return alone or any(t.kind == "between" for t in c.t[c.i : end])


def _opening(c: Cursor, end: int) -> bool:
    """ "(23 hdc + thumb hole)": what the row left open, named beside its stitches."""
    words = c.t[c.i : end]
    named = bool(words) and words[-1].text.lower() in _OPEN and all(token.kind in ("a", "the", "w", "mesh", "beg") for token in words)
    return named and len(words) <= _OPENING_NAMED and (c.t[c.i - 1].kind in ("and", "*", ",", "&") or c.t[c.i - 1].text == "+")


_OPEN = frozenset("hole holes opening openings gap gaps armhole armholes thumbhole buttonhole buttonholes eyehole".split())  # noqa: SIM905
_OPENING_NAMED = 4
"""Words of "a small thumb hole", at most (ours)."""


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
    if c.kind in ("ch", "n") and (spaces := so_often(c, end)) is not None:
        return spaces
    if c.kind == "a" and c.look().kind in ("grp", "ch", "sp", "st"):
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
    if kind == "group" and c.kind == "of" and c.look().kind in ("st", "noun"):
        c.i += 2  # "6 pairs of dc"
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
    if c.kind in (":", "=") and c.look().kind == "n":
        return "st"
    if (crossed := crosses_counted(c, end)) is not None:
        return crossed
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
        elif c.i + 1 < end and _CHAINS.fullmatch(name) and c.kind in ("w", "piece", "tail") and c.look().kind in ("sp", "lp"):
            c.i += 2  # "1 ch-6 thumb space": what the space is for
            return f"{name.removesuffix(' sp')} sp"
        elif (
            c.i < end
            and _CHAINS.fullmatch(name)
            and (c.kind == "corner" or (c.kind in ("w", "tail") and _thing(f"{c.t[c.i].val}".rstrip("s") + "s")))
        ):
            c.i += 1  # "two ch-40 handles", "six 1ch corners": the chain spans what it is called
            return f"{name.removesuffix(' sp')} sp"
        return name
    if token.kind in ("half", "other") and c.i + 1 < end:
        c.i += 1
        return f"half {_kind(c, end) or 'st'}"
    if (
        token.kind in ("w", "piece", "tail")
        and (c.i + 1 == end or c.look().kind in (",", "and", "+", "&"))
        and _thing(_several(c, str(token.val)))
    ):
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


_CHAINS = re.compile(r"ch-\d+(?: sp)?")
_NO_THINGS = frozenset(
    "x times time more again so far each made remaining remain left on inch inches ins cm mm yd yds yards m g oz min mins minutes hours long wide high "  # noqa: SIM905, E501
    "total repeat repeats total pm am".split()
)


def _thing(word: str) -> bool:
    """A plain noun that a count may be of, though nothing here can count it ("2 handles")."""
    return len(word) > 3 and word.isalpha() and word not in _NO_THINGS and word not in _COUNTING and word.endswith("s")


def _several(c: Cursor, word: str) -> str:
    """The word as it is for many where just one is counted: "1 buttonhole"."""
    return f"{word}s" if c.t[c.i - 1].kind == "n" and c.t[c.i - 1].val == 1 and not word.endswith("s") else word


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


_MORE = ("increased", "inc'd", "increase", "increases", "inc")
_FEWER = ("decreased", "dec'd", "decrease", "decreases", "dec", "less", "fewer")
"""Said behind a number of stitches that a row gains, or loses."""


def _modifiers(c: Cursor, end: int) -> dict[str, object]:
    """What is told beside the number: per side, increased, so far, counting the turning chain …"""
    flags: dict[str, object] = {}
    while c.i < end:
        kind, word = c.kind, c.t[c.i].val
        if _told_when(c, end):
            continue
        if kind == "more":
            flags["change"] = True  # "4 dc more in each row"
            c.i += 1
        elif kind in _IDLE and not (c.t[c.i].text.lower() in ("when", "if") and _counting_ahead(c, end)):
            c.i += 1
        elif kind == "w" and word in ("made", "long", "high", "wide", "altogether", "left", "far", "each"):
            flags["running"] = flags.get("running", False) or word == "far"
            c.i += 1
        elif kind in ("work", "inc", "dec", "w") and word in (
            *_MORE,
            *_FEWER,
            "worked",
        ):
            if word != "worked":
                flags["change"] = True
            c.i += 1
        elif kind == "with" and _with_chains(c, end):
            flags["chains"] = True
            c.i = end
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
            kind in ("counts", "not", "without")
            or (kind == "w" and word in _COUNTING)
            or (kind in (",", "with", "idle") and _counting_ahead(c, end))
            or (kind == "ch" and any(t.val in _COUNTING for t in c.t[c.i : end]))
        ):
            _counting(c, end, flags)
        else:
            break
    return flags


def _with_chains(c: Cursor, end: int) -> bool:
    """ "(36 sts) with the chains", "with chs", "with the ch 18": the chains are counted in; "with ch 2 between" tells what lies between."""
    words = c.t[c.i + 1 : end]
    chains = [token for token in words if token.kind in ("ch", "tch")]
    if len(chains) != 1 or any(token.kind not in ("the", "all", "ch", "-", "n", "idle") for token in words):
        return False
    return words[0].kind in ("the", "all") or chains[0].text.lower() in ("chs", "chains")


_WHEN = frozenset(
    (
        "at",
        "after",
        "in",
        "the",
        "end",
        "of",
        "row",
        "rnd",
        "around",
        "n",
        "o",
        "last",
        "for",
        "by",
        "this",
        "when",
        "work",
        "complete",
        "each",
        "ends",
    )
)


def _told_when(c: Cursor, end: int) -> bool:
    """ "at end of Row 9", "after Rnd 12", "at the end of this row": after which row the count holds; passed over."""
    if c.kind == "behind" and not any(t.kind in ("n", "a") for t in c.t[c.i : end]):
        c.i = end
        return True  # "5 ch-4 lps behind petals"
    rows = any(t.kind in ("row", "rnd", "end", "ends") or t.text.lower() == "round" for t in c.t[c.i : end])
    if c.kind not in ("at", "after", "in", "for", "by") or not rows:
        return False
    if any(c.t[k].kind not in _WHEN or (c.t[k].kind == "ends" and c.kind != "at") for k in range(c.i, end)):
        return False
    c.i = end
    return True


def _per(c: Cursor, end: int, flags: dict[str, object]) -> bool:
    """ "on each side", "in each section", "on hook", "per repeat", "between corners": True when passed over."""
    k = c.i + 1
    if c.kind in ("in",) and c.t[c.i].val == "on" and c.look().kind == "hook":
        c.i += 2
        if [t.kind for t in c.t[c.i : c.i + 2]] == [")", ","] and not {"back", "off"} & {t.text.lower() for t in c.t[c.i + 2 : c.i + 6]}:
            flags["running"] = c.t[c.i + 2].kind in ("*", "n", "st", "work", "pick", "inc", "dec", "skip", "(")  # so far
        return True
    if c.kind == "in" and c.look().kind == "the" and c.look(2).kind in ("group", "grp") and c.i + 3 == end:
        flags["running"] = True  # "(12 t. c. in the scallop)": of what was just worked
        c.i = end
        return True
    said = c.kind in ("each", "between") or c.t[c.i].val == "per" or (c.kind == "to" and c.look(2).kind == "side")
    while k < end and c.t[k].kind in ("each", "the", "both", "all", "a", "idle", "next", "in", "other", "total", "o"):
        said = said or c.t[k].kind in ("each", "both", "all", "total")
        k += 1
    if said and k + 1 < end and c.t[k].kind in ("of", "n") and c.t[end - 1].kind != "corner":
        k += 1
        while k < end and c.t[k].kind in ("the", "n", "both", "all"):
            k += 1  # "on each of the 4 sides"
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
        while c.i < end and c.kind in ("of", "the", "corner", "side", "between", "piece", "with", "all", "around", "sp"):
            c.i += 1
        if c.i < end and c.kind in ("w", "group") and c.t[c.i - 1].kind == "the":
            c.i += 1  # "19 treble on each side of the square"
        return True
    return False


def _counting_ahead(c: Cursor, end: int) -> bool:
    near = c.t[c.i + 1 : min(end, c.i + 7)]
    return any(t.val in _COUNTING or t.kind in ("between", "counts") for t in near)


def _counting(c: Cursor, end: int, flags: dict[str, object]) -> None:
    """ "counting turning ch", "ch-1s included", "not counting the skipped ch": to the end of the remark."""
    words = c.t[c.i : end]
    no = any(t.kind in ("not", "without") or t.val in ("excluding", "minus") for t in words)
    says = any(t.kind in ("counts", "without") or t.val in _COUNTING for t in words)
    if says and any(t.kind == "tch" for t in words):
        flags["turning_chain"] = not no
    elif says and any(t.kind == "ch" for t in words):
        flags["chains"] = not no
    c.i = end
