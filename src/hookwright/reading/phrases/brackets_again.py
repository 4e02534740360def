"""A group named again by its brackets alone: "first ( ) twice again", "repeat instructions in brackets twice"."""

from __future__ import annotations

from ...pattern import Repeat, Sized, Step, Times
from .cursor import Cursor
from .numbers import number, times_word
from .specials import anew

EXAMPLES = (
    ("(sc in 3 sc, inc) twice, sc in 8, (sc in 3 sc, inc) 4 times, sc in 8, first ( ) twice again",
     "[sc×3@next sc, 2sc]×2, sc×8, [sc×3@next sc, 2sc]×4, sc×8, [sc×3@next sc, 2sc]×2"),
    ("[sc 4, dec] 3 times, sc 5, repeat instructions in brackets twice", "[sc×4, sc2tog]×3, sc×5, [sc×4, sc2tog]×2"),
)  # fmt: skip
_SAYS = frozenset(
    "between in inside within the instructions instruction directions steps section part from work first".split()  # noqa: SIM905
)
_BRACKETS = frozenset("bracket brackets parenthesis parentheses parens paren parenthesized bracketed".split())  # noqa: SIM905
_ENDS = frozenset((",", ";", ".", "", ")", "]", "(", "[", "{", "=", "-", "and", "join", "turn", ":"))


def brackets_again(c: Cursor) -> list[Step] | None:
    """The group of brackets so named, as often as is told behind it; None with the cursor unmoved."""
    start = c.i
    groups = [step for step in c.out if isinstance(step, Repeat) and step.times.kind == "n"]
    if not groups:
        return None
    c.take("rep", "work")
    nth: int | None = None
    while c.kind == "o" or c.kind == "last" or c.t[c.i].text.lower() in _SAYS:
        if c.kind == "o":
            nth = int(c.t[c.i].val)
        c.i += 1
    if not _empty(c) or (nth is not None and not 0 < nth <= len(groups)):
        c.i = start
        return None
    often = _often(c)
    if often is None or c.kind not in _ENDS:
        c.i = start
        return None
    meant = groups[-1] if nth is None else groups[nth - 1]
    return [Repeat(id=c.id(), span=c.span(start), body=anew(c, meant.body, c.span(start)), times=Times(kind="n", number=often))]


def _empty(c: Cursor) -> bool:
    """Past a pair of brackets with nothing in it, or with "to" or dots, or past the word; False with the cursor unmoved."""
    close = c.close.get(c.i)
    if close is not None and all(token.kind in ("and", "to", ".", "-") for token in c.t[c.i + 1 : close]):
        c.i = close + 1
        return True
    begin = c.i
    while c.t[c.i].text.lower() in _BRACKETS or c.kind in ("group", "noun"):
        c.i += 1
    if any(token.text.lower() in _BRACKETS for token in c.t[begin : c.i]):
        return True
    c.i = begin
    return False


def _often(c: Cursor) -> Sized[int] | None:
    """ "twice (again)", "2 (more) times", "x 2", "again 3 times"."""
    c.drop("more", "idle")
    c.i += c.t[c.i].val == "x"
    told = times_word(c)
    value = Sized((told,)) if told is not None else number(c)
    c.drop("more")
    c.i += c.kind == "times" or c.t[c.i].val == "x"
    c.drop("more", "idle")
    return value
