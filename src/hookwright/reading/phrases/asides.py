"""What is told beside the work: how the yarn lies, over which other stitches the steps go, how far a skip reaches. Nothing is worked."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from ...pattern import Aside, Make, Place, Refer, Repeat, Sized, Step
from .cursor import Cursor
from .nouns import noun
from .things import GARMENT_PARTS
from .upto import is_space_ahead, upto

EXAMPLES = (
    ("working over the tail, 8 sc in next st", "8sc"),
    ("sc in next 3 sts, working into sc instead of dc", "sc×3"),
    ("*hdc, dc, hdc, sc* across, one st in each st", "[hdc, dc, hdc, sc]×rest"),
    ("Like 4th row, the 4 sc coming in the 4 sc", "as rows 4 but sc×rest@next sc"),
    ("*ch 5, sc in next sp; rep from * around, the corner spaces being treated like the others", "[ch5, sc@next sp]×rest"),
    ("dc in next 8 sc for front, 3 dc in next sc, dc in last 9 sc for other front", "dc×8@next sc, 3dc@next sc, dc×9@last sc"),
    ("*ch 5, skip 1, sc in next st; rep from * around, with ch 7 instead of ch 5 at each corner", "[ch5, skip, sc]×rest"),
    ("ch 3, skip all sts to next ch-1 sp, sc in ch-1 sp", "ch3, sc@next ch-1 sp"),
)


def after_groups(c: Cursor) -> list[Step] | None:
    """ "(Repeat from * around.) After the 6th group of 7 dc, ch 2, join", "when 6 groups are made, …": what ends the round follows the last
    of the groups repeated, where it stands anyway."""
    start = c.i
    if c.t[c.i].text.lower() not in ("after", "following", "when") or not any(isinstance(step, Repeat) for step in c.out):
        return None
    c.i += 1
    c.drop("the", "all")
    c.take("idle", "last", "o", "n")
    if c.kind not in ("group", "grp", "sp", "lp", "noun", "st", "corner", "mesh"):
        c.i = start
        return None
    c.i += 1
    c.drop("of", "n", "st", "ch") if c.kind == "of" else None
    while c.t[c.i].text.lower() in ("is", "are", "has", "have", "been", "made", "completed", "done", "worked", "finished"):
        c.i += 1
    if c.kind not in (",", "ch", "st", "join", ".", ";", ""):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def over_tail(c: Cursor) -> list[Step] | None:
    """ "Working over the tail,", "working over the unused colour": how the yarn lies, not what is worked."""
    start = c.i
    words = [c.look(k) for k in range(1, 6)]
    if words[0].kind not in ("over", "around") or not any(
        t.kind in ("tail", "color") or t.text.lower() in ("ends", "tails") for t in words[1:4]
    ):
        return None
    while c.kind and c.kind not in (",", ".", ";", ":", ")"):
        if c.kind in ("st", "ch", "n"):
            c.i = start
            return None
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]


def for_which_part(c: Cursor) -> list[Step] | None:
    """ "…, dc in each of last 9 sc for other front": which part of the garment the stitches before are going to be."""
    end = c.i + 1
    while c.t[end].kind in _WHICH or c.t[end].text.lower() in _WHICH_PART or c.t[end].text.lower() in GARMENT_PARTS:
        end += 1
    if c.t[end - 1].text.lower() not in GARMENT_PARTS:
        return None
    if c.t[end].kind not in _AFTER_PART:
        return None
    start, c.i = c.i, end
    return [Aside(id=c.id(), span=c.span(start))]


_WHICH = frozenset(("the", "o", "a", "last", "next", "same", "beg"))
_WHICH_PART = frozenset("left right other under upper lower inner outer second".split())  # noqa: SIM905
_AFTER_PART = frozenset((",", "=", ";", ".", ":", "-", "(", ")", "[", "]", "}", "*", "and", "then", "", "turn", "ch", "join"))


def one_in_each(c: Cursor) -> list[Step] | None:
    """ "…, one st in each st": how the stitches told before lie, after a run to the end."""
    start = c.i
    before = c.out[-1] if c.out else None
    whole = getattr(before, "places", None) == "rest" or getattr(getattr(before, "times", None), "kind", "") == "rest"
    if not whole or c.t[start].val != 1 or c.look().kind != "noun" or c.look(2).kind != "in" or c.look(3).kind != "each":
        return None
    c.i += 4
    noun(c)
    return [Aside(id=c.id(), span=c.span(start))]


def shaping_told(c: Cursor) -> list[Step] | None:
    """ "(draw up a loop in each of 2 sts, …)-1 dec", "2 sc in next st-inc made": what the step before has just done, told again."""
    start = c.i
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not isinstance(before, Make) or c.look().kind not in ("inc", "dec", "n", "a", "st", "noun"):
        return None
    c.i += 1
    c.drop("a")
    if c.kind == "n" and c.t[c.i].val == 1:
        c.i += 1
    c.take("st", "noun", "sp")
    shaping = c.take("inc", "dec")
    made = c.t[c.i].text.lower() in ("made", "completed", "complete", "done", "formed")
    c.i += made
    if (
        shaping is None
        or (c.t[start].kind not in ("-", "=", ":") and not made)
        or c.kind not in (",", ";", ".", ")", "]", "", "*", "and", "then")
    ):
        c.i = start
        return None
    shaped = before.closes > 1 if shaping.kind == "dec" else (before.each.values[0] or 1) > 1
    by_name = any(t.kind in ("inc", "dec") for t in c.t[:start] if before.span.start <= t.start < before.span.end)
    if not shaped or by_name:  # "3 sc-dec-3 sc": the dashes part the steps
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def named_shaping(c: Cursor) -> list[Step] | None:
    """ "1st dec: ch 1, skip first st, …": which shaping the row is."""
    start = c.i
    if c.out or c.look().kind not in ("inc", "dec") or c.look(2).kind not in (":", "-"):
        return None
    c.i += 3
    return [Aside(id=c.id(), span=c.span(start))]


def same_in_corners(c: Cursor) -> list[Step] | None:
    """ "Sc around, 3 in corners", "(3 in each corner)": as many of the stitch told before in every corner."""
    start = c.i
    if not isinstance(c.t[start].val, int) or c.look().kind not in ("in", "at"):
        return None
    before = next((step for step in reversed(c.out[-4:]) if isinstance(step, Make)), None)
    if before is None or before.places != "rest":
        return None
    ahead = 2
    while c.look(ahead).kind in ("each", "all", "the", "every"):
        ahead += 1
    if c.look(ahead).kind != "corner" or c.look(ahead + 1).kind not in (",", ".", ";", ")", "", "and"):
        return None
    c.i += ahead + 1
    corner = Place(what="corner")
    return [
        replace(
            before, id=c.id(), span=c.span(start), each=Sized((c.t[start].val,)), places="rest", at=corner, evenly=False, but=Sized((0,))
        )
    ]


def instead(c: Cursor) -> list[Step] | None:
    """ ", working into dc instead of sc": the same steps over other stitches."""
    start = c.i
    end = next((k for k in range(c.i, min(c.i + 10, len(c.t))) if c.t[k].val == "instead"), None)
    if end is None or any(c.t[k].kind in (".", ";", "*", "(", "") for k in range(start, end)):
        return None
    skipped = c.t[start].kind == "skip" and not any(c.t[k].kind == "n" for k in range(start, end))  # "missing dc instead of ch"
    if not skipped and not any(c.t[k].kind in ("in", "over") for k in range(start, end)):
        return None
    c.i = end + 1
    if c.take("of"):
        c.drop("the", "in", "prev")
        noun(c)
    return [Aside(id=c.id(), span=c.span(start))]


_NO_OTHER = frozenset(("skip", "turn", "rep", "inc", "dec"))
_WHERE_IT_ENDS = frozenset(("last", "first", "rem", "next", "o", "tch", "beg", "end"))


def not_there(c: Cursor) -> list[Step] | None:
    """ "(Sc in top of each puff,) not in the ch that fastens it": which place is not meant; nothing is worked."""
    start = c.i
    works = c.look().kind == "work"
    if c.look(1 + works).kind not in ("in", "over", "under") or not c.out:
        return None
    end = start + 2 + works
    while c.t[end].kind not in (",", ";", ".", "", ")", "(", "*"):
        end += 1
    kinds = [token.kind for token in c.t[start:end]]
    sizes = sum(kind == "n" and "ch" in (*kinds[max(k - 2, 0) : k], *kinds[k + 1 : k + 2]) for k, kind in enumerate(kinds))
    if kinds.count("n") > sizes or not _NO_OTHER.isdisjoint(kinds):
        return None
    if works and ("ch" not in kinds or not _WHERE_IT_ENDS.isdisjoint(kinds)):
        return None  # "do not work in last st" leaves a place
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def other_chain_at_corners(c: Cursor) -> list[Step] | None:
    """ "(Repeat from * around,) with ch 10 instead of ch 6 at each corner", "having ch 7 at corners in place of ch 5": which places are
    corners is not told, and a chain of another length changes no count."""
    start = c.i
    end = start + 1
    while c.t[end].kind not in (",", ";", ".", "", "(", ")"):
        end += 1
    words = [token.text.lower() for token in c.t[start:end]]
    kinds = [token.kind for token in c.t[start:end]]
    replaced = "instead" in words or ("place" in words[2:] and words[words.index("place") - 1] == "in")
    behind = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not replaced or "corner" not in kinds or not isinstance(behind, Repeat):
        return None
    if kinds.count("ch") < 1 or kinds.count("n") != 2 or not set(kinds) <= _OF_CHAINS or not set(words[1:]).isdisjoint(_WORKED):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


_OF_CHAINS = frozenset("with w having work but a the ch n - of in same place at each all corner idle noun".split())  # noqa: SIM905
_WORKED = frozenset(("sc", "dc", "stitches", "sts"))


def lies_on_its_like(c: Cursor) -> list[Step] | None:
    """ "(Like 4th row,) the 4 sc coming in the 4 sc", "placing sc over sc": what the row told again has its stitches in, this time."""
    start = c.i
    at = next((k for k in range(len(c.out) - 1, -1, -1) if not isinstance(c.out[k], Aside)), None)
    refer = c.out[at] if at is not None else None
    if at is None or not isinstance(refer, Refer):
        return None
    kinds: list[str] = []
    over = False
    while c.kind not in (",", ";", ".", "", "(", ")", "turn") and c.i - start < 14:
        word = c.t[c.i].text.lower()
        if c.kind in ("in", "over"):
            over = over or len(kinds) == 1
        elif c.kind == "st":
            kinds.append(c.us(str(c.t[c.i].val)))
        elif not (c.kind in _ABOUT_IT or word in _COMING or word == "block"):
            break
        c.i += 1
    if len(kinds) != 2 or not over or c.kind not in (",", ";", ".", "", "(", ")", "turn"):
        c.i = start
        return None
    onto = Make(id=c.id(), span=c.span(start), stitch=kinds[0], places="rest", at=Place(what=kinds[1]))
    c.out[at] = replace(refer, changes=(*refer.changes, onto))
    return [Aside(id=c.id(), span=c.span(start))]


_ABOUT_IT = frozenset(("the", "n", "with", "work", "place", "each", "group", "all", "of", "prev", "last", "row", "rnd", "idle", "noun"))
_COMING = frozenset("coming come falling fall going placed worked being made putting placing taking".split())  # noqa: SIM905


def treated_alike(c: Cursor) -> list[Step] | None:
    """ "…, the corner spaces being treated like the others", "treating corners as any other space": nothing but what the unit says."""
    start = c.i
    end = c.i
    while c.t[end].kind not in (",", ";", ".", "", "(", ")", "]", "*") and end - start < 16:
        end += 1
    words = [token.text.lower() for token in c.t[start:end]]
    verb = next((k for k, word in enumerate(words) if word in ("treated", "treating", "counted", "counting", "regarded")), None)
    alike = verb is not None and any(word in ("like", "as") for word in words[verb:])
    if not c.out or not alike or not {"others", "other", "rest"} & set(words[verb:]) or any(t.kind == "n" for t in c.t[start:end]):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def skips_to(c: Cursor) -> bool:
    """ "(skip) all sts to next ch-1 sp", "sleeve sts to next corner", "to last ch-1 sp": passed over."""
    begin = c.i
    c.drop("all", "the", "idle")
    if c.kind in ("w", "side") and c.look().kind in ("noun", "st"):
        c.i += 1
    c.take("noun", "st")
    if c.kind in ("to", "until"):
        if c.look().kind == "last":
            c.i += 2
            if is_space_ahead(c) and noun(c) is not None:
                return True
            c.i -= 2
        if upto(c) is not None:
            return True
    c.i = begin
    return False


def taken_up(c: Cursor) -> list[Step] | None:
    """ "(Sc the whole length,) taking up every dc and every ch": what the run before goes into, one in each."""
    start = c.i
    run = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not isinstance(run, Make) or run.places != "rest" or run.at != Place() or c.t[c.i].text.lower() not in ("taking", "catching"):
        return None
    c.i += 1
    c.i += c.kind == "along" or c.t[c.i].text.lower() == "up"
    kinds: list[str] = []
    while c.take("each", "all"):
        c.drop("the")
        what = noun(c, chains=True)
        if what is None:
            break
        kinds.append(what)
        c.take("and")
    if not kinds or c.kind not in (",", ";", ".", "", "(", "idle", ")"):
        c.i = start
        return None
    place = Place(what="any") if len(kinds) > 1 and "ch" in kinds else Place(what=kinds[0])
    c.out[max(k for k, step in enumerate(c.out) if step is run)] = replace(run, at=place)
    return [Aside(id=c.id(), span=c.span(start))]


def as_if(c: Cursor) -> list[Step] | None:
    """ "Working into the d c's as if they were s c,": how other stitches are met than those that the rows name; nothing is worked by it."""
    start = c.i
    end = next((k for k in range(c.i, len(c.t)) if c.t[k].kind in (",", ";", ".", "", "(", ")")), c.i)
    texts = [token.text.lower() for token in c.t[start:end]]
    if not (c.t[start].kind == "work" and any(a == "as" and b in ("if", "though") for a, b in pairwise(texts))):
        return None
    if any(token.kind == "n" for token in c.t[start:end]):
        return None
    c.i = end + (c.t[end].kind == ",")
    return [Aside(id=c.id(), span=c.span(start))]
