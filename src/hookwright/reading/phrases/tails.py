"""What is told after a place's name: "of next shell", "2 rows below", "of Rnd 6", "on long side"."""

from __future__ import annotations

from ...pattern import Colour, Place
from ...trade.kinds import HEIGHT, base
from .cursor import Cursor
from .far_loops import begun_chain
from .lying_over import stands_over
from .nouns import CORNER_STITCH, TILES, count_noun_here, noun
from .pieces import other_piece
from .things import LIKE_IT
from .uncounted import of_an_edge

_ENDS = frozenset((",", ";", ".", "", "(", ")", "]", "*", "foff"))


def of_what(c: Cursor, facts: dict[str, object]) -> bool:
    """ "of (the) (next) shell", "of ch-3", "of Rnd 6", "of previous row": fills `facts`; False with the cursor unmoved when not there."""
    if c.kind not in ("of", "in", "on", "from", "at"):
        return False
    start = c.i
    c.i += 1
    c.drop("the", "idle", "a", "each", "any", "both", "all")
    c.i += c.t[c.i].val in LIKE_IT
    if c.t[c.i - 1].kind in ("each", "both", "all") and c.take("of"):
        c.drop("the")
    if c.kind == "n" and (c.look().kind == "n" or c.look(2).kind == "n"):
        c.i += 1 + (c.look().kind != "n")  # "of each of the four 3-dc groups"
    where = {"next": "next", "same": "same", "last": "last", "prev": "next", "beg": "named"}.get(c.kind)
    if c.kind == "o" and c.t[c.i].val == 1:
        where = "first"
        c.i += 1
    elif where:
        c.i += 1
    if c.kind in ("row", "rnd") and c.look().kind == "n":
        facts["row"] = row_name(c)
        return True
    if c.kind == "o" and (c.look().kind in ("row", "rnd") or c.look().val == "round"):
        facts["row"] = f"Row {c.t[c.i].val}"
        c.i += 2
        return True
    if c.kind == "n" and c.look().kind in ("st", "grp", "group"):
        c.i += 1
    if c.kind == "n" and (c.look().kind in _ENDS or c.look().kind == ":") and _middle_one(c, start):
        c.i += 1
        facts["what"] = "group"  # "on the middle one of the 3", "on the centre (treble) of the next nine"
        return True
    if c.kind == "n" and c.look().kind in _ENDS and c.t[start - 1].kind in ("ch", "noun", "o") and isinstance(c.t[c.i].val, int):
        c.i += 1
        facts["what"] = f"ch-{c.t[c.i - 1].val}"  # "join to 3rd ch of 6"
        return True
    if c.kind in ("n",) and not count_noun_here(c) and c.look().kind not in ("ch", "st", "noun"):
        c.i = start
        return False
    what = noun(c, chains=True)
    if what is None and c.kind in ("top", "base"):
        c.i += 1
        what = noun(c, chains=True) or "st"
    if what is None:
        if c.t[c.i].text.lower() in TILES and c.t[c.i - 1].kind in ("the", "of"):
            c.i += 1
            _of_which_row(c)
            return True  # "ch-3 sp of the block from Row 1", "of the tile below": which says no more
        if c.kind == "w" and where and c.look().kind in (",", ";", ".", "", ")", "(", "and"):
            c.i += 1  # "ch-3 sp of first block": a thing of the pattern's own, which says no more
            return True
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
    at = tail(c, what)
    if at.below:
        facts["below"] = at.below
    if at.where == "marked":
        facts["where"], facts["what"] = "marked", "piece"  # "center ch of ch-5 loop on previous motif"
    if at.where == "same" and at.what == "made":
        facts["where"], facts["what"] = "same", "made"  # "top of dc just made"
    return True


def _middle_one(c: Cursor, start: int) -> bool:
    """ "The middle one", "the centre", "the centre treble" stands before token `start`."""
    last, before = c.t[start - 1], c.t[start - 2]
    return last.text.lower() in ("one", "ones") or last.kind == "center" or (last.kind == "st" and before.kind == "center")


def _of_which_row(c: Cursor) -> None:
    """Past "from Row 1", "of the previous row", "below", "you just made" behind a block's name."""
    begin = c.i
    if c.take("below") or (c.t[c.i].text.lower() in ("you", "just") and c.look(1 + (c.look().val == "just")).val == "made"):
        while c.t[c.i].text.lower() in ("you", "just", "made"):
            c.i += 1
        return
    if c.kind in ("from", "of", "in"):
        c.i += 1
        c.drop("the", "prev", "last")
        if c.take("row", "rnd"):
            c.take("n", "below", "before")
            return
    c.i = begin


def row_name(c: Cursor) -> str:
    """The row named at the cursor ("row 3", "3rd row"), passed over."""
    ordinal = c.kind == "o"
    word = "Rnd" if c.look(int(ordinal)).kind == "rnd" else "Row"
    value = c.look(int(not ordinal)).val
    c.i += 2
    return f"{word} {value}"


def tail(c: Cursor, what: str) -> Place:
    """A place of `what`, with what is told after the noun: "2 rows below", "of Rnd 6", "of next shell", "below", "only"."""
    at: dict[str, object] = {"what": "corner", "nth": 0} if what == CORNER_STITCH else {"what": what}
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
    if (base(str(at["what"])) in HEIGHT or at["what"] == "st") and stands_over(c):
        return True
    if kind == "n" and c.look().kind in ("row", "rnd") and (c.look(2).kind == "below" or c.look(2).val == "down"):
        at["below"] = max(0, int(c.t[c.i].val) - 1)
        c.i += 3
        if c.kind == "next" and c.look().kind in ("noun", "st") and c.look(2).kind in (",", ";", ".", "", ")", "]", "*"):
            c.i += 2  # "in st 2 rows below next st"
        return True
    if kind == "idle" and c.t[c.i].val == "just" and c.look().val in ("made", "worked", "completed"):
        at["where"], at["what"] = "same", "made"
        c.i += 2
        return True
    if kind == "from" and c.look().text.lower() == "which" and _springs(c):
        at["where"] = "same"  # "2 treble on the treble from which they spring"
        return True
    if ((kind == "o" and c.t[c.i].val == 1) or kind == "idle") and c.look().val in ("made", "worked"):
        c.i += 2  # "3rd ch of ch-3 first made"
        return True
    if kind == "idle" and c.t[c.i].val in ("only", "also"):
        c.i += 1
        return True
    if at["what"] == "sp" or str(at["what"]).endswith(" sp"):
        from .closers import in_loop_made

        if (kind == "w" or kind == "idle") and in_loop_made(c, at):
            return True
    if (
        kind in ("w", "the", "idle")
        and c.t[c.i].text.lower() in ("you", "that", "just")
        and any(c.look(k).text.lower() in ("skipped", "missed") for k in (1, 2))
    ):
        c.i += 2 + (c.look().text.lower() not in ("skipped", "missed"))
        c.take("before")
        at["where"] = "skipped"  # "FPtr around each of the 3 dc you skipped"
        return True
    if kind == "at" and (c.look().kind in ("back", "front") or (c.look().kind == "the" and c.look(2).kind in ("back", "front"))):
        c.i += 2 + (c.look().kind == "the")
        if c.take("of"):
            c.drop("the", "n", "last", "prev", "same", "next")
            c.take("w", "piece", "work", "group", "grp")
        if c.kind in _ENDS:
            return True  # "s c round a d c of 2d row, at back of the leaf"
        c.i = start
    if (
        kind in ("before", "after")
        and str(at["what"]).endswith("sp")
        and c.look(1 + (c.look().kind == "the")).kind in ("o", "next", "last", "group", "grp")
    ):
        c.i += 1
        c.drop("the", "o", "next", "last")
        if noun(c) is not None:
            return True  # "1 tr in sp before first group"
        c.i = start
    if tuple(t.text.lower() for t in c.t[c.i : c.i + 3]) in _ON_HOLD:
        c.i += 3
        at["where"], at["what"] = "marked", "piece"
        return True  # "in each of the 16 sts left on hold": of a row that went on elsewhere
    if c.t[c.i].text.lower() == "left" and c.look().kind in _ENDS:
        c.i += 1  # "dc in each st left"
        return True
    if kind == "unworked" or (kind == "skip" and c.look().kind in (",", ";", ".", "")):
        c.i += 1
        return True
    if kind in ("along", "in", "at") and (c.look().kind == "opp" or (c.look().kind == "the" and c.look(2).kind == "opp")):
        c.i += 1
        c.drop("the")
        of_whole = str(c.t[c.i].val).endswith(" of")
        c.i += 1
        if not of_the_chain(c):
            c.drop("the", "foundation", "beg") if of_whole else None
            if not (of_whole and noun(c, chains=True) is not None):
                of_what(c, {})
        if at["what"] != "row":  # "in next 18 row ends up the other side"
            at["where"], at["what"] = "under", "ch"
        return True
    of_chain = kind == "of" and at["what"] == "ch" and at.get("where", "next") == "next"
    joined = of_chain and any(isinstance(step, Colour) and step.join_in for step in c.out)
    if of_chain and (c.ctx.begins or joined):
        begin = c.i
        c.i += 1
        if begun_chain(c):
            at["where"] = "under" if joined else "next"  # yarn is joined to what was worked on long ago
            return True  # "in each ch of the beginning chain"
        c.i = begin
    if kind in ("of", "in", "on", "from"):
        from .motifs import of_motif

        if of_motif(c, at):
            return True
    if kind in ("in", "of", "at", "along") and _side_tail(c):
        return True
    if kind in ("in", "of", "around", "along", "from") and other_piece(c):
        at["where"], at["what"] = "marked", "piece"
        return True
    if kind in ("in", "at", "of") and _middle_of_pair(c, at):
        return True
    if kind == "between":
        c.i += 1
        from .places import after_prep

        ordinals = c.kind == "o" and c.look().kind == "and" and c.look(2).kind == "o"
        if ordinals:
            c.i += 2  # "the sp between 1st and 2nd dc"
        beside = after_prep(c, "between")
        if beside is not None and beside.limit_at is not None:
            c.i = beside.limit_at  # "in each space between groups to the corner": how far the run of spaces goes
        if beside is not None:
            _and_another(c)
        if beside is not None and ordinals and beside.at.what in GROUPS:
            at["what"] = beside.at.what  # "the space between 2nd and 3rd dc of next shell": its middle
            return True
        if beside is not None and at["what"] in _UPRIGHTS and beside.at.what == "petal" and "row" not in at:
            at["what"], at["between"] = "petal", True  # "s c in d c between petals": the stitch that stands between them
            return True
        if beside is not None:
            at["between"] = at["what"] == "sp" and beside.at.what in ("group", "cl", "shell", "fan", "V-st", "dc", "tr", "hdc", "sc", "st")
            if at["between"] and beside.at.what in ("dc", "tr", "hdc", "sc", "st") and (ordinals or beside.places == "rest"):
                at["what"] = "st"  # "in each sp between dc": every two neighbours have one
            return True
        c.i = start
        return False
    if kind == "at" and c.kinds("at", "end", "of") and c.look(3).kind in ("last", "prev") and _row_tail(c, at, 1):
        return True  # "in dc at end of last row"
    if kind == "w" and c.t[c.i].val in ("beyond", "past") and _beyond(c):
        return True
    if kind in ("of", "in", "on", "at") and _figure_tail(c, at):
        return True
    if kind in ("of", "on", "at", "along") and of_an_edge(c):
        return True
    if kind in ("of", "in", "from", "at"):
        return _row_tail(c, at) or _noun_tail(c, at, start)
    return False


def _and_another(c: Cursor) -> None:
    """Past "(between scallop) and shell"."""
    begin = c.i
    if c.take("and"):
        c.drop("the", "next", "last", "prev", "o")
        if noun(c) is not None and c.kind in _ENDS:
            return
    c.i = begin


def _springs(c: Cursor) -> bool:
    """Pass over "from which they spring", "from which the chain rises"; False with the cursor unmoved."""
    end = c.i
    while c.t[end].kind not in _ENDS:
        end += 1
    if c.t[end - 1].text.lower() not in ("spring", "springs", "rise", "rises", "start", "starts", "started", "sprang", "begins"):
        return False
    c.i = end
    return True


_ON_HOLD = frozenset((first, "on", last) for first in ("left", "held", "waiting", "placed") for last in ("hold", "holders", "markers"))
_UPRIGHTS = ("sc", "hdc", "dc", "tr", "st")
GROUPS = frozenset(("shell", "V-st", "fan", "cl", "petal", "group"))

FIGURES = frozenset("pineapple pineapples fan fans leaf leaves pine acorn acorns diamond diamonds point points motif spider".split())  # noqa: SIM905
"""Figures of lace that have loops of their own (pineapple and its like)."""


def figure(c: Cursor) -> str | None:
    """ "(the next) pineapple", "same point", "each leaf": the figure's name, the cursor behind it; None with the cursor unmoved."""
    start = c.i
    while c.kind in ("the", "next", "same", "each", "o", "last", "prev", "center", "idle", "a", "beg"):
        c.i += 1
    word = c.t[c.i]
    if word.text.lower() in ("leaf", "leaves"):
        c.i += 1
        return "leaf"
    if str(word.val) in FIGURES or (word.kind == "top" and word.val in ("point", "points")):
        c.i += 1
        return str(word.val).removesuffix("s")
    c.i = start
    return None


def _figure_tail(c: Cursor, at: dict[str, object]) -> bool:
    """ "(in 1st loop) of pineapple", "(each ch-1 space) on next point"."""
    start = c.i
    c.i += 1
    name = figure(c)
    if name is None:
        c.i = start
        return False
    at["of"] = name
    return True


def _middle_of_pair(c: Cursor, at: dict[str, object]) -> bool:
    """ "(the gap) in the middle of the next (sc, dc) pair": between its two stitches; the second is then passed."""
    start = c.i
    c.i += 1
    c.drop("the", "idle")
    if c.take("center") and (c.take("of") or True):
        c.drop("the", "next", "each")
        close = c.close.get(c.i)
        if close is not None:
            many = sum(t.kind == "st" for t in c.t[c.i : close])
            c.i = close + 1
            c.drop("group", "grp", "w") if c.kind in ("group", "grp") or c.t[c.i].val in ("pair", "set") else None
            at["what"], at["between"] = "st", True
            c.told["pair"] = many
            return True
    c.i = start
    return False


def of_the_chain(c: Cursor) -> bool:
    """ "(of) the foundation chain" after "the other side"; a count that follows ("— 24 sc") is none of its length."""
    begin = c.i
    c.take("of")
    while c.kind in ("the", "beg", "base", "idle") or c.t[c.i].val in ("foundation", "starting", "original", "beginning"):
        c.i += 1
    if c.kind == "ch" and c.look().kind == "n" and c.look(2).kind in (",", ".", ";") and c.look(3).kind in ("(", "[", "{", "join", "st"):
        c.i += 2  # "the underside of ch 2. (12)": its length, and the count behind it
        return True
    if c.kind == "ch" and (c.look().kind != "n" or c.look().gap):
        c.i += 1
        return True
    if c.t[c.i - 1].val == "foundation" and c.i > begin and c.kind in (",", ":", ";", ".", "", "("):
        return True  # "the other side of the foundation"
    c.i = begin
    return False


def _side_tail(c: Cursor) -> bool:
    """ "on long side", "along each short edge", "of last side", "of first motif": which of several; passed over."""
    start = c.i
    c.i += 1
    c.drop("the", "each", "a", "any", "same")
    if (
        c.kind in ("w", "st", "both", "o", "opp", "last", "next", "rem")
        and (c.kind != "st" or c.t[c.i].val == "long")
        and c.look().kind == "side"
    ):
        c.i += 2
        return True
    if c.kind == "side" and c.look().kind in (",", ";", ".", ""):
        c.i += 1
        return True
    c.i = start
    return False


def _beyond(c: Cursor) -> bool:
    """ "(in next loop) beyond the picot": on which side of it, which changes nothing that is counted."""
    start = c.i
    c.i += 1
    c.drop("the", "next", "idle")
    if c.kind == "grp" and c.t[c.i].val == "picot":
        c.i += 1
        return True
    c.i = start
    return False


def _row_tail(c: Cursor, at: dict[str, object], ahead: int = 0) -> bool:
    """ "of Rnd 6", "in Row 18", "of last row", "on 2nd row below", "of previous rnd", "from row below"; `ahead` words are passed first."""
    start = c.i
    c.i += 1 + ahead
    c.i += bool(ahead) and c.kind == "of"
    c.drop("the", "idle")
    words = ""
    if c.kind in ("grp", "w", "st", "noun", "base", "piece") and c.look().kind in ("row", "rnd") and c.look(2).kind == "n":
        words = c.t[c.i].text.capitalize() + " "
        c.i += 1
    if c.kind in ("row", "rnd") and c.look().kind == "n":
        at["row"] = words + row_name(c)
        return True
    if c.kind == "o" and (c.look().kind in ("row", "rnd") or c.look().val == "round"):
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
    if c.kind == "st" and c.t[c.i].val == "long" and c.look().kind in ("row", "rnd"):
        c.i += 1  # "on last long row"
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
        told = [token.kind for token in c.t[max(0, c.i - 10) : c.i]]
        if told[-4:] == ["each", "noun", "of", "ch"] and "and" in told[-6:-4] and "each" in told[:-6]:
            at["what"] = "ch"  # "1 sc in each sc and in each st of ch": of the chain over a gap
        return True
    c.i = start
    return False


def _noun_tail(c: Cursor, at: dict[str, object], start: int) -> bool:
    """ "of next shell", "of ch-3", "of 5-dc group" after a noun."""
    if c.kind != "of":
        return False
    facts: dict[str, object] = {}
    if not of_what(c, facts):
        c.i = start
        return False
    if "what" in facts:
        name = str(facts["what"])
        if name == "tch" and at["what"] == "ch" and c.t[start - 2].kind == "each":
            return True  # "in each ch of starting chain": the chain that the piece was begun on
        each = at["what"] == "st" and c.t[start - 2].kind == "each" and facts.get("where") in ("next", "same", "last")
        if name in GROUPS and (each or at["what"] not in ("st", "ch")):  # "in each st of next shell"
            at["of"] = name  # "in ch-2 loop of next shell", "in each of 3 dc of last shell"
            if facts.get("where") in ("last", "same"):
                at["where"] = facts["where"]
        elif name not in ("ring", "row"):
            at["what"] = name
            if name == "tch" or (name.startswith("ch-") and not name.endswith("sp")):
                at["where"] = "named"
    if "row" in facts:
        at["row"] = facts["row"]
    return True
