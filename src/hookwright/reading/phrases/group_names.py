"""Brackets that name what stands before them, or are named: "(shell made)", "(= 1 cluster)", "(3 dc in one st; called a shell)"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Make, Place, Span, Special, Step, Together
from ...trade.kinds import GROUPS_AS_ONE
from ..wording.token import Token
from .cursor import Cursor
from .how_often import told_often
from .naming import just_made, like, with_its_chain
from .nouns import PLACING
from .own_names import name_given
from .told_in_brackets import listed_before


def name_made(c: Cursor) -> list[Step] | None:
    """ ": beginning shell;", "shell made": a name for the steps just told, not a new instruction."""
    start = c.i
    name = str(c.t[start].val)
    after = c.look()
    made = after.kind == "w" and after.val in ("made", "completed", "formed", "done") and c.look(2).kind != "of"
    told = start > 0 and c.t[start - 1].kind in _BEFORE_NAME and after.kind in (";", ".", "", "(", ",")
    if name == "corner" and made and not any(isinstance(step, (Make, Together)) for step in c.out):
        return None
    alone = start > 0 and c.t[start - 1].kind == "." and name == "beg shell" and after.kind in (".", "", "(") and name not in c.specials
    if not (made or told or alone) or not c.out:
        return None
    c.i += 2 if made else 1
    if name not in c.specials:
        whole = tuple(
            replace(step, foundation=False) if isinstance(step, Chain) else step
            for step in c.out
            if isinstance(step, (Make, Chain, Together))
        )
        body = whole if name == "beg shell" else just_made(c.out, c.id)
        if name == "corner" and not _several(body):
            body = ()
        if body:
            c.defined[name] = Special(name=name, steps=body, counts=0, span=c.span(start))
    _as_group(c, name)
    return [Aside(id=c.id(), span=c.span(start), kind="define")]


def named_behind(c: Cursor) -> list[Step] | None:
    """ "3 dc, ch 2, 3 dc in next st for a shell", "… to form a shell", "… = shell": what was just made is named behind its place."""
    start = c.i
    purpose = c.take("for", "=") or (c.take("to") and c.t[c.i].text.lower() in _FORMS) or c.t[c.i].text.lower() in ("forming", "making")
    if not purpose or not c.out or c.t[start - 1].kind in ((";", ".") if c.kind in ("work", "w") else (",", ";", ".", "-", "(")):
        c.i = start
        return None
    c.i += c.t[c.i].text.lower() in _FORMS
    c.drop("the", "a", "idle", "beg") if c.look().kind in ("grp", "corner") else c.drop("n")
    name = str(c.t[c.i].val)
    corner = c.kind == "corner" and _several(just_made(c.out, c.id))
    if not (c.kind == "grp" or corner) or c.look().kind not in (",", ";", ".", "", "*") or name in c.specials or name in GROUPS_AS_ONE:
        c.i = start
        return None
    c.i += 1
    _name(c, name, start)
    return [Aside(id=c.id(), span=c.span(start), kind="define")]


_BEFORE_NAME = (":", "=")


def _several(body: tuple[Step, ...]) -> bool:
    """Whether more than one stitch is made, as a corner has."""
    return len(body) > 1 or any(isinstance(step, Together) or (isinstance(step, Make) and step.each != ONE) for step in body)


_FORMS = ("form", "make", "complete", "forming", "making")


def one_named(c: Cursor, start: int, close: int) -> list[Step] | None:
    """ "… in 6th ch from hook (1 shell), * …": one group, no other having been told of before and the row going on, is a name, no count."""
    inner = c.t[start + 1 : close]
    if _one_crossed(inner) and c.out:
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    made = len(inner) == 3 and inner[2].text.lower() in ("made", "formed", "completed")
    name = str(inner[1].val) if (made or len(inner) == 2) and inner[0].val == 1 and inner[1].kind == "grp" else ""
    if not name or name in c.specials or name in c.defined or c.t[close + 1].kind not in (",", ";", "*") or not c.out:
        return None
    after = c.look(close + 2 - c.i).kind
    return None if after in ("turn", "", "join") or (after == "ch" and c.t[close + 1].kind != "*") else names(c, start, close)


def _one_crossed(inner: list[Token]) -> bool:
    """ "(1 cross st)", "(one crossed dc made)": what two stitches, the second before the first, are called; no count."""
    words = [token.text.lower() for token in inner]
    if words[:1] not in (["1"], ["one"]):
        return False
    words = words[1:]
    words = words[:-1] if words[-1:] in (["made"], ["formed"], ["completed"]) else words
    return len(words) == 2 and words[0] in ("cross", "crossed", "x") and inner[-1].kind in ("st", "noun", "w")


def _as_group(c: Cursor, name: str) -> None:
    """Give the steps just told, which are one, their name: the last group, or the whole beginning on chains of its own."""
    last = c.out[-1]
    if isinstance(last, Together) and not last.name:
        c.out[-1] = replace(last, name=name)
    elif name == "beg shell":
        at = next((i for i, step in enumerate(c.out) if isinstance(step, (Make, Together))), len(c.out))
        before = c.out[at - 1] if at else None
        first = at - 1 if isinstance(before, Chain) and not before.foundation else at
        body = tuple(c.out[first:])
        c.out[first:] = [Together(id=c.id(), span=c.span(0), body=body, at=Place(where="hook"), name=name)]


def defines(c: Cursor, start: int, close: int) -> bool:
    """ "(to dec: draw a loop through each of 2 sts …)", "(puff: yo …)", "(sdc: …)"."""
    inner = c.t[start + 1 : close]
    for k, t in enumerate(inner[:5]):
        if (
            t.kind in (":", "=")
            and k >= 1
            and inner[0].kind != "in"
            and inner[k - 1].kind in ("dec", "inc", "grp", "st", "w", "noun", "tog")
        ):
            return True
    return any(t.kind == "yo" for t in inner[:6]) or sum(t.kind in ("pull", "insert", "yo") for t in inner) >= 2


def names(c: Cursor, start: int, close: int) -> list[Step] | None:
    """ "(shell)", "(cluster made)", "(corner)", "(first V-st made)": a name for the steps just told, which joins the vocabulary."""
    inner = c.t[start + 1 : close]
    if len(inner) > 5 or not c.out:
        return None
    if (given := name_given(c, start, close)) is not None:
        return given
    name = ""
    for t in inner:
        corner = t.kind == "corner" and ("made" in [one.val for one in inner] or (len(inner) == 1 and isinstance(c.out[-1], Together)))
        if (t.kind == "grp" or corner) and not name:
            name = str(t.val)
        elif t.kind in (
            "w",
            "o",
            "idle",
            "n",
            "-",
            "st",
            "beg",
            "work",
            "noun",
            "a",
            "corner",
            "for",
            "the",
            "inc",
            "dec",
            "turn",
            "ch",
            "sp",
            "lp",
            "group",
            "mesh",
            "patt",
            "last",
        ):
            if t.kind in ("st", "ch", "n") and t is inner[-1] and not name:
                return None
        elif t.kind != "counts" or t.val not in ("makes", "make", "forms"):  # "(which makes a shell)"
            return None
    plain = inner[-1].val in ("made", "completed", "formed", "done", "complete") or (
        len(inner) <= 2 and inner[-1].kind in ("w", "corner", "inc", "dec", "sp", "lp", "patt", "mesh") and inner[0].kind != "n"
    )
    if not name and not plain:
        return None
    if c.t[close + 1].kind == "in" and name and listed_before(c, c.out[:-1]):
        return _named_before_place(c, close, name)
    if told_often(c, close) or c.t[close + 1].kind == "in":
        return None
    c.i = close + 1
    if name and name not in c.specials:
        _name(c, name, start)
    return [Aside(id=c.id(), span=c.span(start), kind="define" if name else "note")]


def _name(c: Cursor, name: str, start: int) -> None:
    """Give the steps just told their name, which joins the vocabulary."""
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    known = isinstance(last, Make) and last.stitch == name  # a popcorn or cluster told by its movements is called so already
    with_chains = (
        isinstance(last, Make) and last.at.where == "from_hook" and last.each == last.places == ONE
    )  # "dc in 6th ch from hook (V st made)"
    body = () if known or with_chains else just_made(c.out, c.id)
    if body:
        c.defined[name] = Special(name=name, steps=with_its_chain(c.out, name, body), counts=0, span=c.span(start))
        _gather(c, name, body)


def _named_before_place(c: Cursor, close: int, name: str) -> list[Step] | None:
    """ "2 dc, ch 1, 2 dc (which makes a shell) in next": the list is the group, its place comes last."""
    from .bound_back import bind_back
    from .places import spot

    begin, c.i = c.i, close + 1
    found = spot(c)
    bound = bind_back(c, close + 1, found, name) if found is not None else None
    if bound is None:
        c.i = begin
    return bound


def _gather(c: Cursor, name: str, body: tuple[Step, ...]) -> None:
    """The steps just named become the group they are, and so do like steps told before them in the row."""
    if name in GROUPS_AS_ONE or not isinstance(body[0], Make):
        return
    drawn = body[0].stitch in GROUPS_AS_ONE or body[0].stitch.endswith("tog")  # "…, yo and pull through all loops (petal)"
    if len(body) < 2 and body[0].each == ONE and not drawn:
        return
    out = c.out
    wanted = [like(step) for step in body]
    k = len(out) - len(body)
    floor = max((mark.index for mark in c.frames[-1].marks if not mark.used), default=0)
    while k >= 0:
        window = out[k : k + len(body)]
        first = window[0]
        if (
            [like(step) for step in window] == wanted
            and isinstance(first, Make)
            and first.places == ONE
            and _one_place(c, first, window[1:])
            and (k >= floor or k + len(body) <= floor)
        ):
            here = tuple(replace(step, at=Place(where="same")) if isinstance(step, Make) else step for step in window)
            last = window[-1]
            placed = first if _names_place(c, first) or not isinstance(last, Make) or not _names_place(c, last) else last
            group = Together(id=c.id(), span=Span(first.span.start, last.span.end), body=here, at=placed.at, name=name)
            out[k : k + len(body)] = [group]
            for mark in c.frames[-1].marks:
                if mark.index > k:
                    mark.index -= len(body) - 1
        k -= 1


def _one_place(c: Cursor, first: Make, others: list[Step]) -> bool:
    """Whether the others go where the first does, or all of them where the last alone says."""
    made = [step for step in others if isinstance(step, Make)]
    apart = [step for step in made if step.at.where != "same"]
    return not apart or (apart == made[-1:] and _names_place(c, made[-1]) and not _names_place(c, first))


def _names_place(c: Cursor, step: Step) -> bool:
    """Whether a step's own words name a place ("dc, ch 2, 2 dc in same place": only those of the last do)."""
    return any(token.kind in PLACING for token in c.t if step.span.start <= token.start < step.span.end)
