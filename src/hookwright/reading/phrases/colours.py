"""Colours: "with A", "change to B", "join Red in any sp", "drop A", "pick up B"."""

from __future__ import annotations

from ...pattern import Aside, Chain, Colour, Even, Make, Place, Repeat, Sized, Skip, Step, Together
from ..wording.token import Token
from .cursor import FAR, Cursor
from .far_loops import on_begun_chain
from .motifs import of_motif
from .places import spot
from .shapes import make
from .spots import Spot, moved
from .things import OPENINGS, THREADS, YARNS
from .uncounted import edge

EXAMPLES = (
    ("with A, sc in next 3 sts", "A:, sc×3"),
    ("change to B, sc in next 3 sts", "B:, sc×3"),
    ("join B in next st, sc in same st", "+B:, sc@same st"),
    ("drop A", ""),
)

NAMES = frozenset(
    """
    white black red blue green yellow orange purple pink brown grey gray cream ecru beige navy teal turquoise lavender lilac
    violet rose coral peach gold silver ivory natural aqua mint sage olive rust mustard maroon burgundy magenta tan scarlet
    canary maize buttercup cardinal plum charcoal mauve jade emerald lime fuchsia indigo khaki lemon apricot raspberry skin
    crimson cerise claret drab salmon amber
    dark light pale bright mc cc
    """.split()  # noqa: SIM905
)
_WHICH = frozenset("main contrast contrasting new other second background next old".split())  # noqa: SIM905
_PARTS = frozenset(("grp", "side", "corner", "center", "top", "base", "piece", "end", "beg"))
"""What a yarn may be named by ("the border colour", "your petal colour")."""
_SHADES = frozenset(["light", "dark", "lt", "dk", "lt.", "dk.", "pale", "bright", "deep", "hot", "baby", "nile", "royal", "medium", "med"])


def name(c: Cursor, *, loose: bool = False) -> str | None:
    """A yarn's letter, word or words at the cursor ("A", "MC", "Lt. Raspberry", "color B", "the new colour"); None, unmoved."""
    start = c.i
    c.drop("the")
    if c.kind == "a" and c.t[c.i].text != "A":
        c.i += 1
    if c.kind in ("w", "beg", "idle", "next", "other") and c.t[c.i].val in _WHICH:
        words = str(c.t[c.i].val)
        c.i += 1
        if c.take("color"):
            return {"main": "MC", "contrast": "CC", "contrasting": "CC"}.get(words, words)
        c.i = start
        return None
    if c.kind == "o" and c.look().kind == "color":
        c.i += 2
        return f"{c.t[c.i - 2].text.lower()} color"  # "attach a second color in any ch-2 sp"
    if (c.kind in _PARTS or (loose and c.kind in ("w", "tail", "base"))) and c.look().kind == "color":
        c.i += 2
        return f"{c.t[c.i - 2].text.lower()} color"  # "swap to your petal colour"
    shade = c.take("color")
    token = c.t[c.i]
    if token.kind == "n" and shade is not None and isinstance(token.val, int):
        c.i += 1
        return str(token.val)
    if _one(c, token, shade is not None or (loose and not _letter(token))):
        found = [token.text.strip("'")]
        c.i += 1
        while (
            c.kind in ("w",)
            and len(found) < 3
            and (c.t[c.i].val in c.ctx.colours or c.t[c.i].val in NAMES or (loose and c.t[c.i].text[:1].isupper()))
            and not _letter(c.t[c.i])
        ):
            found.append(c.t[c.i].text)
            c.i += 1
        if c.kind == "n" and token.val in ("mc", "cc") and not c.t[c.i].gap:
            found[-1] += str(c.t[c.i].val)
            c.i += 1
        c.take("color")
        return _with_another(c, " ".join(found), loose)
    c.i = start
    return None


def _with_another(c: Cursor, found: str, loose: bool) -> str:
    """ "Red (and White held together)", "A (and B tog)": two yarns worked as one are one yarn, of that name."""
    begin = c.i
    other = name(c, loose=loose) if c.take("and", "&") else None
    c.take("color")
    c.i += c.t[c.i].text.lower() in ("held", "used", "worked", "yarns", "both") and c.look().kind == "tog"
    if other is None or not c.take("tog"):
        c.i = begin
        return found
    return f"{found} and {other}"


def _letter(token: object) -> bool:
    text = getattr(token, "text", "")
    return len(text) == 1 and text.isupper()


def _one(c: Cursor, token: object, after_word: bool) -> bool:
    kind, val, text = getattr(token, "kind", ""), getattr(token, "val", ""), getattr(token, "text", "")
    if (
        kind == "a"
        and text == "A"
        and (after_word or c.t[c.i - 1].kind in ("with", "change", "drop", "attach", "join", "to", "in", "color", "pick", ","))
    ):
        return True
    if kind not in ("w", "idle", "grp", "color", "x") or not isinstance(val, str):
        return False
    if len(text) == 1:
        return text.isupper() and (text not in "XI" or val in c.ctx.colours)
    return val in c.ctx.colours or val in NAMES or val in _SHADES or (after_word and text[:1].isupper())


_BEGUN = frozenset(("foundation", "starting", "beginning", "original"))


def colour(c: Cursor) -> list[Step] | None:
    """A change of yarn."""
    start = c.i
    kind = c.kind
    if kind in ("with", "in", "over") and kind != "over":
        c.i += 1
        told = [t.kind for t in _to_break(c, 8)]
        if "hook" in told and "from" not in told[: told.index("hook")]:  # "in the 5th ch from the hook work a shell" tells of no tool
            while c.kind != "hook":
                c.i += 1
            c.i += 1
            if c.kind == "and" and c.look().kind in ("w", "color"):
                c.i += 1
                if name(c, loose=True) is None or c.kind == "color" or c.t[c.i].text.lower() in YARNS:
                    c.i += 1  # "with No. 8 hook and wool"
            return [Aside(id=c.id(), span=c.span(start))]
        if c.kind == "n" and (c.look().kind in ("bar", "color") or c.look().val in ("strands", "threads", "yarns", "ends", "colours")):
            return _strands(c, start)
        if _doubled(c):
            return [Aside(id=c.id(), span=c.span(start))]
        found = name(c, loose=kind == "with")
        if found is None or (c.kind in ("sp", "st", "ch", "lp", "noun") and kind == "in"):
            c.i = start
            return None
        step = Colour(id=c.id(), span=c.span(start), yarn=found)
        return [] if behind(c, step, start) else [step]
    if kind == "change" and _at_will(c):
        return [Aside(id=c.id(), span=c.span(start))]
    if kind in ("change", "attach", "join", "cont") or (
        kind == "w" and c.t[c.i].val in ("add", "introduce", "use", "insert", "using", "begin")
    ):
        return _joined(c, start)
    if kind in ("drop", "pick", "carry"):
        return _dropped(c, start)
    found = name(c) if kind in ("w", "color", "a") else None
    if (
        found is not None
        and (c.kind in (":", ",") or (c.kind in ("st", "n", "ch") and c.i == start + 1))
        and (c.kind == ":" or found.lower() in c.ctx.colours)
    ):
        c.take(":")
        return [Colour(id=c.id(), span=c.span(start), yarn=found)]
    c.i = start
    return None


def back_to(c: Cursor) -> list[Step] | None:
    """ "Back to A.", "back to white": the yarn of an earlier row again."""
    start = c.i
    if c.look().kind != "to":
        return None
    c.i += 2
    found = name(c)
    if found is None or c.kind not in (".", ",", ";", ":", "", "and"):
        c.i = start
        return None
    return [Colour(id=c.id(), span=c.span(start), yarn=found)]


def _at_will(c: Cursor) -> bool:
    """ "Changing colour when you please", "changing colour every second row": told of no row; passed over. False, unmoved, elsewhere."""
    end = c.i
    while c.t[end].kind not in (",", ";", ".", "", ")", "("):
        end += 1
    words = c.t[c.i : end]
    regular = any(t.kind == "each" for t in words) and words[-1].kind in ("row", "rnd", "o", "n")
    named = any(t.text.lower() in c.ctx.colours for t in words)
    if not ({t.text.lower() for t in words} & _PLEASED or (regular and not named)):
        return False
    c.i = end
    return True


_PLEASED = frozenset(("please", "fancy", "whenever", "want", "like", "wish", "desired", "wished", "liked", "will", "random"))


_BREAKS = frozenset((",", ".", ";", ":", "", "and", "then", "(", "[", "*", "-"))
_WORK = (Make, Repeat, Together, Even, Chain)


def behind(c: Cursor, step: Colour, start: int) -> bool:
    """Put the yarn told behind a stitch before it. False where no stitch stands directly before the words."""
    if not start or c.t[start - 1].kind in _BREAKS or not c.out or not isinstance(c.out[-1], _WORK):
        return False
    if len(c.out) > 1 and isinstance(c.out[-2], Colour):
        return False
    c.out.insert(len(c.out) - 1, step)
    return True


def now_with(c: Cursor) -> Colour | None:
    """ "Now use white.", "Colour B": a sentence that names the yarn and says no more."""
    start = c.i
    if c.t[start].val in ("now", "then") and c.look().kind in ("w", "with", "in"):
        c.i += 1
    if c.t[c.i].val in ("use", "using") or c.kind in ("with", "in"):
        c.i += 1
    elif c.kind != "color":
        c.i = start
        return None
    found = name(c)
    if found is not None and c.kind in (".", ":", ""):
        return Colour(id=c.id(), span=c.span(start), yarn=found)
    c.i = start
    return None


_INTO = (" in", " to", " into", " on", " at")


def _doubled(c: Cursor) -> bool:
    """ "wool double", "double thread", "a double strand (of A)", "yarn held double": how the yarn is held, no stitch; passed over."""
    begin = c.i
    c.drop("the", "a")
    held = c.look().val in ("held", "used", "together")
    pair = (c.t[c.i], c.look(2) if held else c.look())
    if any(one.text.lower() in ("double", "doubled") for one in pair) and any(
        one.kind in ("color", "bar") or one.text.lower() in YARNS for one in pair
    ):
        c.i += 3 if held else 2
        if c.take("of") is not None:
            c.take("the")
            _ = name(c, loose=True) or c.take("color")
        return True
    c.i = begin
    return False


def _to_break(c: Cursor, most: int) -> list[Token]:
    """The next tokens up to a comma or full stop."""
    found = c.t[c.i : c.i + most]
    end = next((k for k, token in enumerate(found) if token.kind in (",", ".", ";", "(", "*", "")), len(found))
    return found[:end]


def _strands(c: Cursor, start: int) -> list[Step] | None:
    while c.kind not in (",", ";", ".", "", ")", ":"):
        if c.kind in ("st", "ch"):
            break
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]


def _joined(c: Cursor, start: int) -> list[Step] | None:
    new = c.kind in ("attach", "join") or c.t[c.i].val in ("add", "introduce")
    change = c.kind == "change"
    c.i += 1
    if change and c.kind == "color" and c.look().kind == "each" and c.look(3).kind in ("row", "rnd"):
        c.i += 4
        return [Aside(id=c.id(), span=c.span(start))]  # "changing color every 2 rows"
    if change and c.kind == "color" and c.look().kind in ("in", "on", "at", "with", "after"):
        c.i += 1  # "changing colour in last st"
        _in_last(c)
        return [Colour(id=c.id(), span=c.span(start), yarn="new")]
    c.drop("in", "to", "color", "with") if c.kind in ("to", "with") or (change and c.kind in ("color", "in", "to")) else None
    if change:
        c.take("to")
    if c.t[start].val in ("use", "using") and _doubled(c):
        return [Aside(id=c.id(), span=c.span(start))]
    found = name(c, loose=True)
    thread = c.look().text.lower() if c.kind == "the" else c.t[c.i].text.lower()
    if found is None and (new or change) and c.kind == "the" and (c.look().kind == "color" or thread in THREADS):
        c.i += 1
    if found is None and (new or change) and (c.kind == "color" or thread in THREADS):
        found = "same" if new and not c.t[c.i].text.lower().startswith(("col", "shade")) else "new"  # "join yarn": the one there is
        c.i += 1
    joined_in = str(c.t[start].val).endswith(_INTO)  # "fasten in centre of 1st shell": the preposition is in the verb
    if found is None and new and c.t[start].kind == "attach" and (joined_in or c.kind in ("in", "at", "to", "with", "between")):
        found = "same"
    if found is None and change and c.t[c.i - 1].kind == "color":
        found = "new"
    if found is None:
        c.i = start
        return None
    c.i += new and c.t[c.i].text.lower() == "again"
    one = c.look().val == 1 and c.look(2).kind == "st" and c.look(2).val != "sl st"
    if c.kind == "with" and (c.look().kind in ("st", "a") or one):
        return _standing(c, start, found)
    at: Place | None = None
    c.i += c.t[c.i].text.lower() == "anywhere"
    if not change and _at_opening(c):
        at = Place(where="row_end", what="row")
    elif joined_in and c.kind not in ("in", "to", "with") and (inside := spot(c, bare=True)) is not None:
        at = inside.at
    elif not change and c.ctx.begins and on_begun_chain(c):
        at = c.elsewhere = FAR
    elif not change and _pass_center(c):
        pass
    elif c.kind in ("in", "to", "at", "between", "over"):
        where = spot(c)
        at = where.at if where else None
        counted = where is not None and not change and c.kind != "from" and not (c.ctx.rounds or c.ctx.begins)
        if where is not None and where.skip and counted and at == Place(what=where.at.what):
            c.out.append(Skip(id=c.id(), span=c.span(start), number=Sized((where.skip,)), what=where.at.what, ordinal=True))  # "in 2nd sc"
        if c.ctx.far and new and at is not None and (at.where, at.what) in (("next", "ch"), ("next", "st"), ("first", "ch")):
            at = FAR  # "join grey in any ch" under a heading that told the far side
        begun = {str(t.val).split(" ")[0] for t in c.t[start : c.i]} & _BEGUN
        if at is not None and at.what == "ch" and begun and any(t.kind == "opp" for t in c.t[start : c.i]):
            at = c.elsewhere = FAR  # "in first ch on the other side of the foundation chain"
        if where is not None and c.kind in ("in", "of", "on"):
            of_motif(c, {})  # "join Cream to 2d of 8 ps on one corner Block"
        if at is not None and new and at.loop.startswith("free"):
            c.elsewhere = moved(at, where="next", what="st")  # "join Red in any free front loop": "next loop" is one of them
        if where is None and not change and edge(c):
            at = Place(where="row_end", what="row")  # "attach wool at lower edge": on an edge that nobody counted
        elif where is None and not change:
            c.drop("in", "to")
            _pass_thing(c)
        elif at is not None and not change and any(t.text.lower() in _OPENINGS for t in c.t[start : c.i]):
            at = moved(at, where="skipped")  # "join yarn in first underarm ch": where a row was divided, and not on the last one
    if c.kind == "with" and (c.look().kind in ("st", "a") or c.look().val == 1):
        _pass_slip(c)
        if at is not None and (first := _with_stitch(c)) is not None:  # "join yarn in any sp with a sc": that sc is made there
            return [Colour(id=c.id(), span=c.span(start), yarn=found, join_in=True), make(c, start, first, found=Spot(at))]
    if at is not None and c.kind == "with" and c.look().kind == "ch":
        c.i += 1  # "fasten in 1st shell with ch 3"
    sided = {t.text.lower() for t in c.t[start : c.i]} & {"right", "left", "beginning", "start"}
    if at is not None and at.where == "row_end" and sided:
        at = None  # "join A at the right edge": where the row begins, not an edge it goes along
    if change and _for_some_rows(c):
        return [Aside(id=c.id(), span=c.span(start))]
    if change:
        _in_last(c)
        at = None
    return [Colour(id=c.id(), span=c.span(start), yarn=found, join_in=new, at=at)]


def _at_opening(c: Cursor) -> bool:
    """Pass over "in the thumb hole", "at the armhole opening": places around it that nobody counted. False with the cursor unmoved."""
    begin = c.i
    while c.kind in ("in", "at", "to", "the", "w", "idle", "corner", "side", "base") and c.i - begin < 6:
        c.i += 1
    if c.t[c.i].text.lower() in _OPENINGS or c.t[c.i - 1].text.lower() in _OPENINGS:
        c.i += c.t[c.i].text.lower() in _OPENINGS
        if c.kind in (",", ".", ";", "and", "with"):
            return True
    c.i = begin
    return False


_OPENINGS = OPENINGS | {"hole", "gap"}


def _pass_center(c: Cursor) -> bool:
    """Pass over "at center of one end (heel)", "at the middle of either long side": where the round begins. False, unmoved, elsewhere."""
    begin = c.i
    c.drop("at", "the")
    if c.take("center"):
        while c.kind in ("of", "the", "n", "a", "each", "w", "o", "next", "back", "front") and c.i - begin < 8:
            c.i += 1
        if c.take("end", "ends", "side", "sides"):
            close = c.close.get(c.i)
            c.i = close + 1 if close is not None and close - c.i == 2 else c.i
            return True
    c.i = begin
    return False


def _pass_thing(c: Cursor) -> None:
    """Pass over "(attach yarn to) hair tie", "the wire hoop": a thing that no stitch made."""
    begin = c.i
    c.drop("the", "a", "your")
    while c.kind in ("w", "idle", "ring", "top", "the", "of") and c.i - begin < 5:
        c.i += 1
    if c.i == begin or c.kind not in (",", ".", ";", "with"):
        c.i = begin


def _standing(c: Cursor, start: int, found: str) -> list[Step] | None:
    """ "join B with sl st in any ch-2 sp", "join A with sc in first st": a slip stitch is only the joining, a stitch is made."""
    begin = c.i
    c.i += 1
    c.take("a")
    if c.kind == "st" and c.t[c.i].val == "sl st":
        c.i += 1
        where = spot(c) if c.kind in ("in", "to", "at", "between", "over") else None
        return [Colour(id=c.id(), span=c.span(start), yarn=found, join_in=True, at=where.at if where else None)]
    c.i = begin + 1
    c.drop("a", "n")
    if c.kind == "w" and c.t[c.i].val == "standing":
        c.i += 1
    return [Colour(id=c.id(), span=c.span(start), yarn=found, join_in=True)]


def _with_stitch(c: Cursor) -> str | None:
    """The stitch told with the joining, the cursor behind it."""
    begin = c.i
    if c.take("with"):
        c.i += c.kind == "a" or c.t[c.i].val == 1
        if c.t[c.i].val == "standing":
            c.i += 1
        stitch = c.take("st")
        if stitch is not None:
            return c.us(str(stitch.val))
    c.i = begin
    return None


def _pass_slip(c: Cursor) -> None:
    begin = c.i
    c.i += 1
    c.take("a")
    if c.kind == "st" and c.t[c.i].val == "sl st":
        c.i += 1
        return
    c.i = begin


def _for_some_rows(c: Cursor) -> bool:
    """ "(changing to B) for the last 2 rounds": some of the rows told, in another colour; nothing is worked otherwise."""
    begin = c.i
    if c.kind in ("for", "in", "at"):
        c.i += 1
        c.drop("the")
        if c.take("last", "next", "o"):
            c.drop("n")
            if c.take("row", "rnd"):
                return True
    c.i = begin
    return False


def _in_last(c: Cursor) -> None:
    """ "in last yo of last dc", "on last st of each row": when the change is made."""
    if c.kind in ("in", "on", "at", "with", "over", "after", "before"):
        while c.kind not in (",", ";", ".", "", ")", "(", "*", ":"):
            c.i += 1


def _dropped(c: Cursor, start: int) -> list[Step] | None:
    kind = c.kind
    c.i += 1
    c.drop("the")
    if c.kind == "drop" or c.t[c.i].val == "dropped":
        c.i += 1
    found = name(c)
    if found is None and c.kind in ("lp", "color"):
        c.i += 1
        found = ""
    if found is None:
        c.i = start
        return None
    c.drop("lp")
    if c.kind in ("in", "to", "from", "at"):
        c.drop("in", "to", "from")
        while c.kind not in (",", ";", ".", "", "and", ")"):
            c.i += 1
    if kind == "pick" and found:
        return [Colour(id=c.id(), span=c.span(start), yarn=found)]
    return [Aside(id=c.id(), span=c.span(start))]
