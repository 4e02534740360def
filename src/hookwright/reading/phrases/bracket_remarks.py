"""Brackets that work nothing: remarks, what a chain before them counts as, what was passed over."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Make, Skip, Step, Together, Turn
from ...trade.kinds import GROUPS_AS_ONE
from ..wording.token import Token
from .chain_counts import ARE, as_what, counting, stands
from .cursor import Cursor
from .group_names import defines, names
from .how_often import told_often

_CRAFT = frozenset(("st", "ch", "skip", "inc", "dec", "turn", "join", "grp", "rep", "foff", "mring", "tog"))


def prose_inside(c: Cursor, start: int, close: int) -> bool:
    """More words of no craft than of craft: a remark."""
    words = sum(1 for t in c.t[start + 1 : close] if t.kind in ("w", "idle", "the", "a", "for", "with", "to", "of", "or", "as", "color"))
    craft = sum(1 for t in c.t[start + 1 : close] if t.kind in _CRAFT)
    return words > craft or any(
        t.kind == "w" and t.val in ("optional", "see", "photo", "you", "picture", "note", "if") for t in c.t[start + 1 : close]
    )


def is_part_of(c: Cursor, start: int, close: int) -> list[Step] | None:
    """ "(the 5 ch forms part of the first)": a remark on the chain, and no count of it."""
    inner = c.t[start + 1 : close]
    if not any(t.text.lower() == "part" for t in inner) or not any(t.kind in ("ch", "tch") for t in inner):
        return None
    if any(t.kind in ("st", "skip", "turn", "rep", "in") for t in inner):
        return None
    c.i = close + 1
    return [Aside(id=c.id(), span=c.span(start))]


def remark(c: Cursor, start: int, close: int) -> list[Step] | None:
    """A bracket that is no instruction: the side, what a chain counts as, a name for what was just made, a definition."""
    inner = c.t[start + 1 : close]
    if not inner:
        c.i = close + 1
        return []
    first = inner[0]
    if _tells_the_row(c, start, inner):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    if first.kind == "sides" and len(inner) <= 3:
        c.told.setdefault("side", "WS" if str(first.val)[0] == "w" else "RS")
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    last = c.out[-1] if c.out else None
    where = first.kind == "o" and inner[1].kind in ("ch", "st", "noun") if len(inner) > 1 else False
    if where and any(t.kind in ("of", "from") for t in inner) and isinstance(last, Make) and last.at.where in ("last", "named"):
        c.i = close + 1  # "2 dc in last st (3rd ch of ch 4)"
        return [Aside(id=c.id(), span=c.span(start))]
    if isinstance(last, Make) and _tells_which(c, start, close):
        c.i = close + 1  # "sc in same dc (center dc of shell)"
        return [Aside(id=c.id(), span=c.span(start))]
    if first.kind == "grp" and inner[-1].text.lower() in ("made", "formed", "completed") and any(t.kind == "over" for t in inner):
        c.i = close + 1  # "(shell over shell made)"
        return [Aside(id=c.id(), span=c.span(start))]
    over = [token.kind for token in inner] in (["grp", "over", "grp"], ["grp", "in", "grp"]) and inner[0].val == inner[-1].val
    if over and isinstance(last, (Make, Together)) and c.t[close + 1].kind in (",", ";", ".", "", "*"):
        c.i = close + 1  # "3 dc, ch 2 and 3 dc in sp of shell (shell over shell);": what was just made
        return [Aside(id=c.id(), span=c.span(start))]
    if first.kind in ("each", "all") and any(t.text.lower() in _HOLDS for t in inner[1:6]):
        c.i = close + 1  # "(each of the 4 sides has 7 dc)"
        return [Aside(id=c.id(), span=c.span(start))]
    if first.kind == "same" and any(t.kind == "as" for t in inner[1:4]):
        c.i = close + 1  # "(same ch as first sc)"
        return [Aside(id=c.id(), span=c.span(start))]
    if first.kind == "with" and not any(t.kind in ("n", "color", "work") for t in inner):
        c.i = close + 1  # "2 sc in last ch (with first sc)": where a stitch lies, not another stitch
        return [Aside(id=c.id(), span=c.span(start))]
    if any(t.kind == "hook" for t in inner) and not any(t.kind in ("st", "ch", "inc") for t in inner):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    told_again = (_tells_change(inner) or _names_change(inner, last)) and not told_often(c, close)
    if told_again or _shared_out(inner) or (isinstance(last, Make) and counts_a_block(inner)):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    named = names(c, start, close)
    if named is not None:
        return named
    if defines(c, start, close) and not told_often(c, close):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start), kind="define")]
    if isinstance(last, Make) and one_each_of_a_kind(inner, last):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    if first.kind == "w" and str(first.val).endswith("ing") and not any(t.kind == "n" for t in inner):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    if first.kind == "with" and not any(t.kind == "n" for t in inner):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    if _calls_it_so(c, start, inner) and not told_often(c, close):
        c.i = close + 1  # "1 dc in next st 2 rows below, skip the sc behind it (long dc)": what was just made is called so
        return [Aside(id=c.id(), span=c.span(start))]
    if isinstance(last, (Make, Together)) and _says_what_it_began(inner) and not told_often(c, close):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    told = _skipped(c, start, close)
    if told is not None:
        return told
    chain_is = any(t.kind in ("ch", "tch") for t in inner[:4]) and any(t.text.lower() in ARE for t in inner[:5])
    if chain_is or first.kind in ("counts", "not", "=", "always") or any(t.kind == "counts" for t in inner[:4]):
        late = _late_counting(c, start, close)
        c.i = close + 1
        return late or [Aside(id=c.id(), span=c.span(start))]
    if not any(t.kind in _CRAFT or t.kind in ("n", "work", "even") for t in inner):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    return None


def _calls_it_so(c: Cursor, start: int, inner: list[Token]) -> bool:
    """Whether a bracket names the stitch made before it by an own name: a word or two, and that stitch ("(long dc)", whose first word is
    passed over)."""
    made = next((step for step in reversed(c.out) if not isinstance(step, (Aside, Skip))), None)
    words, stitch = inner[:-1], inner[-1]
    named = stitch.kind == "st" and isinstance(made, Make) and c.us(str(stitch.val)) == made.stitch and made.places == ONE
    worded = len(words) > 0 or stitch.start > c.t[start].end + 2 or stitch.text.lower() == "long"
    return named and worded and len(words) <= 2 and all(word.kind == "w" and word.text.isalpha() for word in words)


def _says_what_it_began(inner: list[Token]) -> bool:
    """ "(first bobble)", "(half of the first petal)", "(here starts the first shell)": what the stitches before are a part of."""
    groups = [t for t in inner if t.kind == "grp" or (t.kind == "st" and t.val in GROUPS_AS_ONE)]
    others = [t for t in inner if t not in groups]
    told = [t.text.lower() for t in others]
    return len(groups) == 1 and bool({"first", "1st", "half", "beginning", "beg"} & set(told)) and set(told) <= _BEGINS_GROUP


_BEGINS_GROUP = frozenset(
    "first 1st half beginning beg a the of one this is makes forms made done started starts begun here starting".split()  # noqa: SIM905
)


def one_each_of_a_kind(inner: list[Token], run: Make) -> bool:
    """ "dc in next 6 sts (working only 1 dc in each popcorn)": how the run just told meets one kind of stitch, which is as it meets all."""
    told = [t for t in inner if t.text.lower() not in ("only", "just", "but", "the", "a") and t.kind != "idle"]
    kinds = [t.kind for t in told]
    if (
        len(told) not in (6, 5)
        or not told[0].text.lower().endswith("ing")
        or kinds[1:3] != ["n", "st"]
        or kinds[3] not in ("in", "on", "over")
    ):
        return False
    named = kinds[4:] in (["each", "st"], ["each", "grp"], ["each", "noun"], ["st"], ["grp"])
    several = run.places == "rest" or (run.places.values[0] or 0) > 1
    return named and several and told[1].val == run.each.values[0]


_HOLDS = frozenset("has have holds hold contains contain consists consist".split())  # noqa: SIM905


def _tells_the_row(c: Cursor, start: int, inner: list[Token]) -> bool:
    """ "(8 shells in rnd, each of 2 dc, ch 2, 2 dc.)" before the row's first step, "(8 incs made in row: 1 each side of each front)" behind
    its last: what lies below, what the row does."""
    head = [token.kind for token in inner[:5]]
    if head[:1] == ["n"] and head[1:2] in (["grp"], ["group"], ["sp"], ["lp"]):
        opens = not any(not isinstance(step, Aside) for step in c.out) and start <= 1
        return opens and head[2:3] == ["in"] and ("rnd" in head or "row" in head or inner[3].text.lower() == "round")
    shaped = head[:1] == ["n"] and head[1:2] in (["inc"], ["dec"]) and inner[1].text.lower().endswith("s")
    return shaped and len(inner) > 2 and inner[2].text.lower() in ("made", "worked", "in", "on") and bool(c.out)


def which_place(c: Cursor) -> bool:
    """Past "(sp between groups)", "(the ch-1 sp of the corner)" behind a place named: which it is, said once more; False with the cursor
    unmoved where the bracket holds anything else."""
    close = c.close.get(c.i)
    if c.kind not in ("(", "[") or close is None:
        return False
    inner = [token.kind for token in c.t[c.i + 1 : close] if token.kind not in ("the", "idle", "w", "a")]
    place = bool(inner) and inner[0] in _BEGINS_PLACE and ("between" in inner or "of" in inner) and set(inner) <= _NAMES_OF_PLACES
    if place and (inner[0] != "ch" or "sp" in inner or "n" in inner[1:3]) and c.t[close + 1].kind in ("work", ",", ":", "n", "a", "st"):
        c.i = close + 1
        return True
    return False


_BEGINS_PLACE = frozenset(("sp", "lp", "mesh", "between", "center", "top", "base", "ch"))


def _tells_which(c: Cursor, start: int, close: int) -> bool:
    """Whether the bracket only says which place the words before it mean: "(the center dc of the shell)", "(top of the turning ch)"."""
    inner = [token.kind for token in c.t[start + 1 : close] if token.kind not in ("the", "idle", "w", "a")]
    if c.t[start - 1].kind not in ("st", "noun", "sp", "ch", "tch", "n", "lp") or c.t[close + 1].kind not in (
        ",",
        ";",
        ".",
        "",
        ")",
        "and",
    ):
        return False
    if len(inner) > 2 and inner[0] in ("sp", "lp", "mesh") and "between" in inner and set(inner) <= _NAMES_OF_PLACES:
        return True  # "in next sp (sp between groups)"
    words = [token for token in c.t[start + 1 : close] if token.kind not in ("the", "idle", "counts")]
    if (
        len(words) > 1
        and words[0].text.lower() in ("one", "ones")
        and words[1].kind in ("between", "in", "on", "at", "after", "before", "w")
    ):
        return True  # "dc in next sc (the one between two ch-3 loops)"
    return len(inner) > 2 and inner[0] in ("center", "top", "base", "tch") and "of" in inner and set(inner) <= _NAMES_OF_PLACES


_NAMES_OF_PLACES = frozenset(
    """between mesh center top base tch of st noun ch sp lp grp group n - beg next last prev row rnd corner o""".split()  # noqa: SIM905
)


def _shared_out(inner: list[Token]) -> bool:
    """ "(20 in yoke sts, 6 in ch)": where the stitches just told go, so many here and so many there."""
    firsts = [k for k in range(len(inner)) if k == 0 or inner[k - 1].kind in (",", ";")]
    parts = [inner[k : k + 2] for k in firsts]
    return len(parts) > 1 and all([t.kind for t in part] == ["n", "in"] for part in parts)


def counts_a_block(words: list[Token]) -> bool:
    """ "(making 8 dc in the block)", "(8 dc in the group)", "you will have 9 sc in each scallop": what the group now has."""
    k = 0
    while k < len(words) and (words[k].kind in ("w", "idle", "work", "total") or words[k].text.lower() in _MAKING):
        k += 1
    kinds = [token.kind for token in words[k:]]
    if kinds[:2] not in (["n", "st"], ["n", "noun"]) or len(kinds) < 4:
        return False
    rest = words[k + 2 :]
    if [t.text.lower() for t in rest[:2]] == ["in", "all"]:
        rest = rest[2:]
    if rest and rest[0].kind == "total":
        rest = rest[1:]
    named = len(rest) == 3 and rest[0].kind == "in" and rest[1].kind in ("the", "each") and rest[2].text.lower() in _BLOCKS
    return named and (k > 0 or rest[1].kind == "the")


def one_group(c: Cursor, start: int, close: int) -> list[Step] | None:
    """ "(13 dc in group)", "(13-dc group)", "(5 dc group made)": how many the group now has, in brackets behind it. None elsewhere."""
    told = [t for t in c.t[start + 1 : close] if t.kind not in ("the", "a", "-", "idle") and t.text.lower() not in _MAKING]
    kinds = [t.kind for t in told]
    if len(told) not in (3, 4) or kinds[0] != "n" or kinds[1] not in ("st", "noun") or told[-1].text.lower() not in _ONE_GROUP:
        return None
    placed = len(told) == 4
    if (placed and kinds[2] not in ("in", "to")) or not any(isinstance(step, (Make, Together)) for step in c.out[-1:]):
        return None
    if c.t[close + 1].kind in ("n", "in", "once", "over"):
        return None
    c.i = close + 1
    return [Aside(id=c.id(), span=c.span(start))]


_ONE_GROUP = frozenset(("group", "grp", "block", "motif", "section", "scallop", "fan", "petal"))


_MAKING = frozenset("making makes make made formed thus this so that giving gives forming you will should now have there are being".split())  # noqa: SIM905
_BLOCKS = frozenset("block group scallop point figure solid square petal leaf wheel motif section wedge".split())  # noqa: SIM905


def block_counted(c: Cursor) -> list[Step] | None:
    """The same told after a comma, to the clause's end; None with the cursor unmoved."""
    start = end = c.i
    while c.t[end].kind not in (",", ";", ".", "", "(", ")") and end - start < 12:
        end += 1
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not isinstance(last, Make) or c.kind == "n" or not counts_a_block(c.t[start:end]):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def _tells_change(inner: list[Token]) -> bool:
    """ "(a decrease of 1 shell)", "(1 increase)", "(decrease made)": what the steps before have done, told again."""
    kinds = [t.kind for t in inner]
    if kinds[:1] in (["a"], ["n"]) and kinds[1:2] in (["inc"], ["dec"]):
        return len(kinds) == 2 or kinds[2] == "of"
    return kinds[:1] in (["inc"], ["dec"]) and len(kinds) == 2 and inner[1].val in ("made", "completed", "complete", "done")


def _names_change(inner: list[Token], before: Step | None) -> bool:
    """ "2 sc in first st (inc for the thumb)", "skip 1 st (a dec at neck edge)", "(2nd increase)": what the step right before has done, and
    what for; told behind other steps the words ask for it."""
    k = 0
    while k < len(inner) - 1 and (
        inner[k].kind in ("a", "o", "last") or inner[k].val == 1 or inner[k].text.lower() in ("another", "final")
    ):
        k += 1
    shaping = inner[k].kind if k < len(inner) else ""
    asks = any(token.kind in _PLACED or (token.kind == "n" and token.val != 1) for token in inner[k + 1 :])
    if shaping not in ("inc", "dec") or asks:
        return False
    if isinstance(before, Make):
        return before.closes > 1 if shaping == "dec" else (before.each.values[0] or 1) > 1
    return isinstance(before, Skip) and shaping == "dec"


_PLACED = frozenset("each both every ends next rep skip tog until row rnd even times ch ( : = then around across alt turn join".split())  # noqa: SIM905
"""Words of a bracket that asks for a shaping of its own, or tells how it is worked."""


def _skipped(c: Cursor, start: int, close: int) -> list[Step] | None:
    """ "(ch-4 = dc + ch-1)", "(3 skipped chs count as dc)", "(counts as dc)" after a stitch worked into the foundation: it is told of the
    chains passed over."""
    k = _behind_skipped(c, start, close)
    named = k > 0
    if k < 0:
        return None
    if not named and not (c.out and isinstance(c.out[-1], (Make, Together)) and c.out[-1].at.where == "from_hook"):
        return None
    c.i = k or start + 1
    c.drop("the", "n", "o", "skip", "idle", "unworked", "beg", "rem", "a")
    got = stands(c, close)
    said = any(t.text.lower().startswith(("count", "stand", "equal", "=", "act", *ARE)) for t in c.t[start:close])
    if got is None or (not named and got == (True, ()) and not said):
        c.i = start  # "(this is the foundation row)"
        return None
    c.i = close + 1
    if not any(isinstance(s, (Make, Together)) and s.at.where == "from_hook" for s in c.out):
        first = next((j for j, s in enumerate(c.out) if isinstance(s, Chain) and not s.foundation), None)
        if first is None:
            c.i = start
            return None
        chain = c.out[first]
        assert isinstance(chain, Chain)
        c.out[first] = replace(chain, counts=got[0], stands_for=got[1])
        return [Aside(id=c.id(), span=c.span(start))]
    c.told["skipped"] = got
    return [Aside(id=c.id(), span=c.span(start))]


def _behind_skipped(c: Cursor, start: int, close: int) -> int:
    """The word behind the chains that a bracket tells of ("(3 skipped chs |count as dc)"), 0 where it tells of none."""
    k = start + 1
    while c.t[k].kind in ("the", "n", "o", "skip", "idle", "unworked", "beg", "rem", "a", "other", "alt") and k < close:
        k += 1
    if c.t[k].kind not in ("ch", "tch"):
        return 0
    k += 1
    while c.t[k].kind in ("-", "n", "at", "beg", "of", "row", "rnd", "the", "in", "skip") and k < close:
        k += 1
    return k if c.t[k].kind in ("counts", "=", "not", "is") or c.t[k].text.lower() in ARE else -1


def skipped_before(c: Cursor) -> bool:
    """ "In 5th ch from hook (ch-4 = dc + ch-1), 3 dc, …": what the chains passed over count as, told before what goes in; passed over."""
    start, close = c.i, c.close.get(c.i)
    k = _behind_skipped(c, start, close) if close is not None else 0
    if close is None or k <= 0:
        return False
    c.i = k
    got = stands(c, close)
    if got is None:
        c.i = start
        return False
    c.told["skipped"] = got
    c.i = close + 1
    return True


def skipped_sentence(c: Cursor) -> list[Step] | None:
    """ "The ch-5 passed over, at every beginning, is a dc + ch-2.": what the chains passed over count as."""
    start = c.i
    if c.t[start + (c.kind == "the")].kind not in ("ch", "tch", "skip", "n", "beg", "rem", "o", "first", "unworked"):
        return None
    if c.kind != "the" and c.t[start].text.lower() not in ("skipped", "missed"):
        return None
    end = c.i
    while c.t[end].kind not in (".", ";", "", ")", "]"):
        end += 1
    k = start + 1
    says = [j for j in range(k, end) if c.t[j].kind in ("counts", "=") or (c.t[j].kind == "not" and c.t[j + 1].kind == "counts")]
    behind = {j: c.t[j + 1] for j in range(k, end) if c.t[j].text.lower() in _MAKES}
    says += [j for j, after in behind.items() if after.kind in ("a", "st") or after.text.lower() in _OWN]
    if not says or not any(c.t[j].kind in ("ch", "tch") for j in range(start, says[0])):
        return None
    for first in reversed(sorted(says)):
        c.i = first - 1 if c.t[first - 1].kind == "not" else first + (c.t[first].text.lower() in _MAKES)
        got = stands(c, end) or (((True, stood) if (stood := as_what(c, end)) else None) if c.t[first].text.lower() in _MAKES else None)
        goes_on = c.kind == "," and c.look().kind in ("turn", "foff", "join", "then", "(", "n")
        if got is not None and (goes_on or c.i >= end - 1 or all(t.kind in _THROUGHOUT for t in c.t[c.i : end])):
            if any(isinstance(s, (Make, Together)) and s.at.where == "from_hook" for s in c.out):
                c.told["skipped"] = got
            c.i = c.i if goes_on else end
            return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None


_MAKES = frozenset(("make", "makes", "equal", "equals", "are", "is"))
_OWN = frozenset(("your", "the", "one"))
_THROUGHOUT = frozenset(", and w idle at in on each all the row rnd around beg from to as so it here a not -".split())  # noqa: SIM905
"""What may follow: where else it is so ("here and in each round")."""


def _late_counting(c: Cursor, start: int, close: int) -> list[Step] | None:
    """ "Ch 3, turn (counts as dc)": the remark belongs to the chain before the turn."""
    if len(c.out) >= 2 and isinstance(c.out[-1], Turn) and isinstance(c.out[-2], Chain):
        c.out[-2] = replace(counting(c, c.out[-2], start), span=c.out[-2].span)
        return [Aside(id=c.id(), span=c.span(start, close + 1))]
    return None
