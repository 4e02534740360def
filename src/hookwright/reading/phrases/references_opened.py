"""How a reference to rows is opened: "repeat", "same as", "work as given for", "continue from", "these 2 rows", "as"."""

from __future__ import annotations

from ...pattern import Refer
from .cursor import Cursor
from .row_lists import ROW, by_turns
from .sides import named_part

EXAMPLES: tuple[tuple[str, str], ...] = ()


def opens(c: Cursor) -> bool | None:
    """Pass over "repeat", "same as", "work as for", "as", "like": True when rows may stand without the word row."""
    word = c.t[c.i]
    if _from_again(c):
        return True
    if c.kinds("cont", "to", "rep") or c.kinds("cont", "rep"):
        c.i += 2 if c.look().kind == "to" else 1  # "Continue to repeat Row 2"
    if c.kind == "rep":
        c.i += 1
        c.drop("of", "the", "from", "idle") if c.kind != "from" else None
        if c.kind == "from":
            if c.look().kind == "*" and c.look(2).kind in ("of", "in") and c.look(3).kind in ("row", "rnd", "o"):
                c.i += 3  # "repeat from ** of Row 5"
                c.told["star"] = True
                return True
            if c.look().kind in ("o", "row", "rnd", "the", "last", "beg"):
                c.i += 1
                c.drop("the")
            else:
                return None
        return True
    between = c.kind == "alt" and c.look().kind == "between"
    if c.kind == "alt" and c.look(1 + between).kind in ROW and c.look(2 + between).kind == "n":
        c.i += 1 + between  # "Alternate Rows 2 and 3", "alternate between rows 2 and 3"
        return True
    if c.kind in ("row", "rnd") and c.look().kind == "n":
        return _plain_names(c)
    if word.kind == "the" and c.look().kind == "same":
        c.i += 1  # "The same as 2nd."
    elif word.kind == "the":
        return _these(c)
    if word.kind == "o" and _rows_told_often(c):
        return True
    if word.kind == "o":
        return (
            True
            if c.look().kind in ROW and (c.look(2).kind in ("once", "more") or (c.look(2).kind == "n" and c.look(3).kind == "times"))
            else None
        )
    if c.kind in ("work", "cont", "complete") or (c.kind == "w" and word.val in ("exactly", "complete", "rows")):
        c.i += 1
        c.drop("idle", "the")
        if c.kind == "from" and c.look().kind == "*" and c.look(2).kind in ("as", "like"):
            c.i += 2  # "work from * as in 1st row"
            c.told["star"] = True
        c.i += c.t[c.i].text.lower() in ("exactly", "just", "precisely") and c.look().kind in ("as", "same", "like")
        if (c.kind in ROW and c.look().kind == "n") or (c.kind == "o" and c.look().kind == "n" and c.look(2).kind in ROW):
            return True
        if c.kind == "o" and (_rows_of_another(c) or _rows_told_on(c)):
            return True
    if c.kind == "same":
        c.i += 1
        c.take("again")
        if c.kind == "more":
            c.i += 1
            c.told["last"] = 1
            return True
    if c.kind == "in":
        _in_the_same_way(c)
    if (c.kind == "=" and c.look().kind in ROW) or c.t[c.i].val == "follow":
        c.i += 1
        c.drop("the", "idle")
        if c.t[c.i].text.lower() in ("instructions", "directions", "pattern") and c.look().kind in ("for", "of", "as"):
            c.i += 2
            _to_name(c)
        return False
    if c.kind == "beg" and c.look(1 + (c.look().text.lower() in ("off", "exactly"))).kind in ("as", "like"):
        c.i += 1 + (c.look().kind not in ("as", "like"))
    if c.kind in ("as", "like"):
        c.i += 1
        if c.t[c.i].val in GIVEN:
            c.i += 1
        _to_name(c) if c.kind != "w" or c.t[c.i].val in ("per", "done", "did") else None
        return False
    if c.kind == "w" and c.t[c.i].val in ("per",):
        c.i += 1
        return False
    if c.told.get("last"):
        return True
    return None


def _from_again(c: Cursor) -> bool:
    """Past "continue from (the)", "begin again at the", "go on from", where a row is named behind it; False with the cursor unmoved."""
    if c.kind not in ("cont", "beg") and c.t[c.i].text.lower() not in ("go", "proceed", "continue", "start"):
        return False
    k = 1 + (c.look().text.lower() in ("on", "again", "over"))
    k += c.look(k).kind == "more"
    if c.look(k).kind not in ("from", "at"):
        return False
    k += 1 + (c.look(k + 1).kind == "the")
    if not ((c.look(k).kind == "o" and c.look(k + 1).kind in ROW) or (c.look(k).kind in ROW and c.look(k + 1).kind == "n")):
        return False
    c.told["from_on"] = True
    c.i += k
    return True


GIVEN = frozenset(("given", "described", "set", "instructed", "directed", "told"))


def _rows_told_often(c: Cursor) -> bool:
    """ "3rd and 4th rows once": rows named, with how often, and no verb."""
    k = c.i
    while c.t[k].kind in ("o", "and", ",", "to", "&", "-", "the"):
        k += 1
    return k > c.i + 1 and c.t[k].kind in ROW and (c.t[k + 1].kind in ("once", "more") or c.t[k + 2].kind == "times")


def _rows_told_on(c: Cursor) -> bool:
    """ "(Work) 2nd and 3rd rows alternately until …", "2nd row 5 times": by their ordinals, and how long."""
    k = c.i
    while c.t[k].kind in ("o", "and", ",", "&", "the"):
        k += 1
    return c.t[k].kind in ROW and (c.t[k + 1].kind in ("alt", "until", "once") or c.t[k + 2].kind == "times")


def _rows_of_another(c: Cursor) -> bool:
    """ "(Work) 1st to 6th rnds as given for Head", "2nd and 3rd rows of Back": rows by their ordinals, and whose."""
    k = c.i
    while c.t[k].kind in ("o", "and", ",", "to", "&", "-", "the"):
        k += 1
    return c.t[k].kind in ROW and c.t[k + 1].kind in ("as", "of", "for", "same", "like")


def _in_the_same_way(c: Cursor) -> None:
    """ "(Work) in the same way as Row 2"."""
    k = c.i + 1 + (c.look().kind == "the")
    if c.t[k].kind == "same" and c.t[k + 1].val in ("way", "manner", "fashion"):
        k += 1
    elif c.t[k].val != "same-way":
        return
    if c.t[k + 1].kind in ("as", "like"):
        c.i = k + 1


def _these(c: Cursor) -> bool | None:
    """ "These 2 rows by turns until …", "these 2 rows 5 times": a repeat without its verb."""
    if c.t[c.i].val not in ("these", "this") or c.look().kind != "n" or c.look(2).kind not in ROW:
        return None
    after = c.look(3)
    if after.kind not in ("by", "alt", "until", "n", "more", "again", "for", "once") and after.val not in ("again",):
        return None
    c.i += 1
    return True


_BEFORE_NAMES = frozenset(("for", "in", "the", "idle", "as", "same", "with", "w"))


def _to_name(c: Cursor) -> None:
    """Pass over small words up to what is named; a piece's name may itself begin with one ("right front")."""
    while c.kind in _BEFORE_NAMES:
        begin = c.i
        found = named_part(c)
        c.i = begin
        if found is not None:
            return
        c.i += 1


def _plain_names(c: Cursor) -> bool | None:
    """ "Rows 2 - 5 nine more times", "Rows 5-8 again", "Row 3&4 till 18 rows": rows named with how often."""
    k = _list_end(c)
    k += c.t[k].kind == "," and c.t[k + 1].kind == "alt"  # "Rows 2 and 3, alternating"
    after = c.t[k]
    if (c.out and isinstance(c.out[-1], Refer)) and after.kind in (".", "", "(", "[", ","):
        return True  # "…, then rows 2 and 3"
    if c.i == 0 and after.kind in (".", "", "(", "[") and (not c.t[k + 1].kind or "n" in (c.t[k + 1].kind, c.t[k].kind, c.t[k + 2].kind)):
        return True  # "Rows 3-6: = Row 2."
    if not c.out and after.kind == "and" and c.t[k + 1].kind in ("foff", "join", "turn"):
        return True  # "(…, then) rnd 1 and fasten off"
    k += after.kind == "," and c.t[k + 1].kind in ("n", "until", "once", "for", "alt")  # "Row 2, 14 times more"
    after = c.t[k]
    if (after.kind == "n" and c.t[k + 1].kind in ("more", "times")) or (after.val == "x" and c.t[k + 1].kind == "n"):
        return True
    if c.i == 0 and after.kind == "for" and c.t[k + 1].kind == "n":
        return True  # "Rows 4-6 for 4 inches"
    if (
        after.kind in ("more", "until", "times", "once", "again", "by", "alt")
        or (after.kind == "w" and after.val in ("again",))
        or (after.kind == "to" and c.t[k + 1].kind == "the")
    ):
        return True
    if c.t[k - 1].kind == "n" and after.kind in ("more", "times", "until"):
        return True
    begin, c.i = c.i, k + (after.kind == ",")
    on = c.kind == "alt" or by_turns(c)
    c.i = begin
    return True if on or _goes_on(c, k) else None


def _list_end(c: Cursor) -> int:
    """Where the numbers of "Rows 2 - 5", "Rows 2, 3", "Row 2 and row 3" end."""
    k = c.i + 2
    while c.t[k].kind in ("-", "and", "&", "*", "+", "to", ","):
        at = k + 1 + (c.t[k + 1].kind in ROW)
        if c.t[at].kind != "n" or c.t[at + 1].kind == "times" or (c.t[at + 1].kind == "more" and c.t[at + 1].val != "again"):
            break
        k = at + 1
    return k


def _goes_on(c: Cursor, k: int) -> bool:
    """ "(Row 2) for 10 rows", "(Row 2) of back till …": how long, or whose and how long."""
    if c.t[k].kind == "of":
        k += 1 + (c.t[k + 1].kind == "the")
        return "until" in (c.t[k + 1].kind, c.t[k + 2].kind)
    return c.t[k].kind == "for" and (c.t[k + 1].kind in ("n", "patt", "the") or c.t[k + 1].text.lower() in ("as", "rest"))
