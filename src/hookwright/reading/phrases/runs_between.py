"""How long the plain runs are in a row else as another: "having 6 dc between corners", "the same way with 4 sts before each inc"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ...pattern import ONE, Aside, Colour, Make, Place, Refer, Repeat, Step, Together, Turn
from ..wording.token import Token
from .cursor import Cursor
from .numbers import number

EXAMPLES = (
    ("Same as 2nd round having 1 dc in each of 6 dc between corners", "as rows 2 but dc×6@next corner between"),
    ("Work as for Row 3, having 6 dc in place of 4 between groups", "as rows 3 but dc×6@next corner between"),
    ("Same way with 4 sts before each increase", "as last 1 but sc×4@next inc between"),
    ("Work as last round but with 4 sc before each 2 sc", "as last 1 but sc×4@next inc between"),
)

ENDS_CLAUSE = frozenset((".", ";", "", "(", "[", ",", ")", "]", "join", "turn", "foff"))


def so_many_between(c: Cursor) -> tuple[Step, ...]:
    """ "(As 5th round,) but having 4 single h.tr. between increases", "with 5 sts between the decs", "having 6 dc between corners": how
    long the plain runs are there. Nothing, the cursor unmoved, where they are told otherwise."""
    return _runs_between(c) or _runs_at_shapings(c)


def _runs_between(c: Cursor) -> tuple[Step, ...]:
    """Told stitch by stitch: "having 6 dc between corners", "then 1 dc in each of 5 between the increases"."""
    at = c.i
    c.take(",")
    while c.kind in _LED or c.t[c.i].text.lower() in _LED_WORDS:
        c.i += 1
    _one_in_each(c)
    told = number(c)
    if told is None or c.kind not in ("st", "noun", "w", "idle", "between", "before", "in", "on", "along"):
        c.i = at
        return ()
    _small(c)
    kind = c.take("st")
    c.drop("noun")
    end = c.i
    while c.t[end].kind not in ENDS_CLAUSE:
        end += 1
    instead_of(c)
    what = _what_between(c, end)
    instead_of(c) if what else None
    c.i += what != "" and c.t[c.i].text.lower() == "instead"
    if not what or c.i != end:
        c.i = at
        return ()
    stitch = c.us(str(kind.val)) if kind is not None else "" if what == "corner" else c.main or "sc"
    return (Make(id=c.id(), span=c.span(at), stitch=stitch, places=told, at=Place(what=what, between=True)),)


def _runs_at_shapings(c: Cursor) -> tuple[Step, ...]:
    """ "(As 5th round,) but having 4 single h.tr. between increases", "only sc in 5 sc after each dec": how long the plain runs are there.
    Nothing, the cursor unmoved, where they are told otherwise."""
    at = c.i
    c.take(",")
    while c.kind in ("but", "having", "with", "work", "idle", "as") or c.t[c.i].text.lower() in _LED_TO_SHAPINGS:
        c.i += 1
    stitch = _in_so_many(c)
    told = number(c)
    made = c.take("st") if c.look().text.lower() in ("instead", "rather") else None
    was = instead_of(c) if told is not None and c.t[c.i].text.lower() in ("instead", "rather") else None
    end = c.i = c.i - (was is not None and c.t[c.i - 1].kind == "before")  # "2 sc instead of 1 before each increase"
    while c.t[end].kind not in ENDS_CLAUSE | {"="}:
        end += 1
    words = c.t[c.i : end]
    where = next((k for k, token in enumerate(words) if token.kind in ("between", "after", "before")), len(words))
    shaped = {"inc", "dec"} & {token.kind for token in words[where:]}
    twice = _told_by_its_two(words[where:])
    left = {t.kind for t in words[where : where + 1]} == {"between"} and {t.kind for t in words[where + 1 :]} <= {"each", "all", "w"}
    left = left and c.t[at].kind != "n"  # "(same,) with 3 sc in between", "2 sc between each"
    if (
        told is None
        or any(token.text.lower() in ("less", "fewer") for token in words)
        or (c.i == at and was is None)
        or not (shaped or left or twice)
        or not {t.kind for t in words[:where]} <= _OF_THE_RUN
        or not (twice or {t.kind for t in words[where + 1 :]} <= _OF_SHAPINGS)
    ):
        c.i = at
        return ()
    kind = next((c.us(str(token.val)) for token in (made, *words) if token and token.kind == "st"), stitch or c.main or "sc")
    c.i = end
    return (Make(id=c.id(), span=c.span(at), stitch=kind, places=told, at=Place(what="inc", between=True)),)


def _told_by_its_two(words: list[Token]) -> bool:
    """ "(With 3 sc) before each 2 sc", "after every 2 dc in one st": the increase is told by its two stitches."""
    kinds = [token.kind for token in words if token.kind not in ("each", "the", "all", "every")]
    two = kinds[:3] in (["before", "n", "st"], ["after", "n", "st"]) and words[-1].kind in ("st", "noun")
    return (
        two and 2 in [token.val for token in words if token.kind == "n"] and set(kinds[3:]) <= {"in", "same", "a", "n", "st", "noun", "w"}
    )


def _in_so_many(c: Cursor) -> str | None:
    """Past the stitch of "sc in (the next) 3 sts", "1 tr in each of 3": the run's length is told behind it. None, unmoved, elsewhere."""
    begin = c.i
    if c.kind == "n" and c.t[c.i].val == 1:
        c.i += 1
    made = c.take("st")
    if made is not None and c.take("in", "over"):
        c.drop("the", "each", "of", "next")
        if c.kind == "n":
            return c.us(str(made.val))
    c.i = begin
    return None


_LED_TO_SHAPINGS = frozenset("only just now this time put putting make making there are".split())  # noqa: SIM905
_OF_THE_RUN = frozenset(("st", "noun", "in", "idle", "w"))
_OF_SHAPINGS = frozenset(("inc", "dec", "each", "all", "the", "of", "a", "idle", "noun", "st", "in"))


_LED = frozenset(("but", "having", "with", "work", "idle", "then", "now"))
_LED_WORDS = frozenset(("there", "will", "be", "are", "so", "that", "there'll", "always", "now", "keeping"))


def _one_in_each(c: Cursor) -> None:
    """Past "(having) 1 dc in each of (the next)", "dc in each of" before the number of the places."""
    k = c.i
    k += c.t[k].kind == "a" or (c.t[k].kind == "n" and c.t[k].val == 1)
    if c.t[k].kind != "st" or [t.kind for t in c.t[k + 1 : k + 3]] != ["in", "each"]:
        return
    k += 3
    while c.t[k].kind in ("of", "the", "next"):
        k += 1
    c.i = k if c.t[k].kind == "n" else c.i


def _what_between(c: Cursor, end: int) -> str:
    """Past "between (the) increases", "before each dec", "between corner groups", "on each side between corners", "from corner to corner":
    what stands at the ends of the run, "inc" or "corner"; "" where that is not told (cursor anywhere)."""
    words = c.t[c.i : end]
    kinds = [token.kind for token in words]
    if kinds[:3] == ["from", "corner", "to"]:
        c.i += 4
        return "corner" if kinds[3:4] == ["corner"] else ""
    if kinds[:3] in (["on", "each", "side"], ["along", "each", "side"], ["in", "each", "side"], ["on", "the", "side"]):
        c.i += 3
    _small(c)
    before = c.kind == "before"
    if not c.take("between", "before"):
        return ""
    while c.kind in ("the", "each", "all", "both", "w", "idle") and c.t[c.i].text.lower() not in _POINTS:
        c.i += 1
    if c.take("inc", "dec"):
        return "inc"
    if [t.kind for t in c.t[c.i : c.i + 4]] == ["n", "-", "st", "group"]:
        c.i += 3  # "between the 3-sc groups"
    if before or (c.kind not in ("corner", "group", "grp") and c.t[c.i].text.lower() not in _POINTS):
        return ""
    c.i += 1
    c.drop("group", "grp", "sp", "inc")
    if c.kind == "of" and c.look().kind == "n" and c.look(2).kind == "st":
        c.i += 3
    return "corner"


def _small(c: Cursor) -> None:
    """Past "single", "plain": words that say neither how many more nor instead of what."""
    while c.kind in ("w", "idle") and c.t[c.i].text.lower() not in ("instead", "rather", "less", "fewer", "apart", "further"):
        c.i += 1


_POINTS = frozenset(("points", "corners", "angles"))


def instead_of(c: Cursor) -> int | None:
    """How many there were: "for the 7", "instead of 7 dc", "in place of the 7"; None where that is not told (cursor unmoved)."""
    start = c.i
    words = [t.text.lower() for t in c.t[c.i : c.i + 3]]
    led = 1 if words[:1] == ["for"] else 2 if words[:2] in (["instead", "of"], ["rather", "than"]) else 3 * (words == ["in", "place", "of"])
    c.i += led
    c.drop("the", "each", "ch", "-")
    was = number(c) if led else None
    if was is None or was.many:
        c.i = start
        return None
    c.drop("st", "noun", "ch", "prev", "before")
    return was.values[0]


def as_last_but(c: Cursor) -> list[Step] | None:
    """ "The same with 2 sts between increases", "in same manner, having 8 dc between groups": as the last row that had such runs."""
    start = c.i
    if any(not isinstance(step, (Aside, Colour, Turn)) for step in c.out) or not _as_the_last(c):
        return None
    changes = so_many_between(c)
    if not changes:
        c.i = start
        return None
    c.told["row_named"] = BETWEEN_SHAPINGS
    return [Refer(id=c.id(), span=c.span(start), last=1, changes=changes)]


def _as_the_last(c: Cursor) -> bool:
    """Past "in the same manner", "the same way", "(another round) as before", where a row's runs are told behind it; False, unmoved."""
    start = c.i
    if c.take("work", "cont", "rep") and c.t[c.i].text.lower() in ("another", "one", "1", "a"):
        c.i += 1
        c.drop("more")
        c.i += c.kind in ("rnd", "row", "around")
    c.take("in")
    c.drop("the")
    like = c.take("same") is not None or c.t[c.i].text.lower() in ("like", "this", "similar")
    c.i += like and c.t[c.i - 1].kind != "same"
    manner = c.t[c.i].text.lower() in ("manner", "way", "fashion") and (like or c.t[c.i - 1].text.lower() == "this")
    before = c.kind == "as" and c.look().kind == "before"
    if c.t[c.i].val == "same-way" or manner:
        c.i += 1
    elif before:
        c.i += 2
    elif c.t[c.i - 1].kind not in ("same", "rep"):
        c.i = start
        return False
    return True


BETWEEN_SHAPINGS = "shapings at intervals"
"""What a row is called that is told only by how long its plain runs are: as the last row that was shaped so."""


def shaped_at_intervals(steps: Sequence[Step]) -> bool:
    """Whether the row is plain runs with shapings or corners between, or one like it told with other runs."""
    for step in steps:
        if isinstance(step, Refer) and (step.grow or any(isinstance(one, Make) and one.at.between for one in step.changes)):
            return True
        body = step.body if isinstance(step, Repeat) else ()
        made = [one for one in body if isinstance(one, Make)]
        if any(one.each != ONE or one.closes > 1 for one in made):
            return True
        if any(isinstance(a, Together) != isinstance(b, Together) for a, b in pairwise(body)) and made:
            return True
    return False
