"""Stitches said in the other dialect, and stitches left out of a row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...pattern import Chain
from ...trade.kinds import base
from ...trade.terms import System
from ...trade.terms import name as full_name
from ...working import Role
from .anchors import takes_back
from .dialect import Speaking
from .findings import Heard
from .retelling import retold_at
from .said import DEFINING, GROUPS, Heard_
from .segments import Speech, Stretch
from .stitchwork import Pair, compared
from .things import OWN_NOUNS
from .units import Item, Unit

_HALVED = {("hdc", "dc"), ("hdc", "tr"), ("dtr", "tr"), ("hdc", "sc")}
"""A taller or shorter name that is left when a machine loses "half" or "double": no alarm by itself."""


SHORTLY_S = 3.0
"""So long at most before the next thing told one listens for what is missing (ours)."""
_CORNER = ("corner", "corners", "point", "v")
_VS = frozenset(("v", "vs", "v's", "vee", "vees"))


def stitch_slips(units: Sequence[Unit], speech: Speech, speaking: Speaking) -> Iterator[Heard]:
    """The slips of every stretch in which work is told."""
    for stretches in speech.by_unit().values():
        heard = [h for stretch in stretches for h in _worked(stretch)]
        named = [h for stretch in stretches for h in stretch.heard]
        if not named or any(s.several for s in stretches):
            continue
        main = max(stretches, key=lambda s: len(s.heard))
        unit = main.unit
        pairs = compared(unit, _worked(main))
        told = [h for h in named if not _of_a_group(speech, h, unit)]
        yield from _dialect(unit, told, pairs, speaking)
        if heard and not _retold(unit, units, stretches, speech):
            yield from _another_stitch(unit, main, speech, speaking)
            yield from _left_out(unit, heard, pairs, main, speech, speaking.terms)


SHOWN = 16
"""Words behind the name of a group within which it is told what it is made of (ours)."""


_SHOWS = frozenset(("show", "showing", "explain", "how", "demonstrate", "called"))
"""Words with which it is told how a group is made: "now I show the bobble, you make five doubles …"."""


def _of_a_group(speech: Speech, h: Heard_, unit: Unit) -> bool:
    """Whether the stitch is named for a group that the row has not: "so the bobble, let me show you that on its own, it's five doubles"."""
    start = max(h.k - SHOWN, 0)
    at = next((k for k in range(h.k - 1, start, -1) if speech.tokens[k].kind in GROUPS), h.k)
    said = speech.tokens[at + 1 : h.k]
    shown = any(t.text in _SHOWS for t in speech.tokens[max(at - 4, start) : at])
    told = (shown or any(t.text in DEFINING for t in said)) and not any(t.kind in ("chain", "skip", "row") for t in said)
    return told and not any(item.kind == "group" or item.plain == speech.tokens[at].kind for item in unit.items)


SQUARES = 3
"""From so many squares named on a row is told in squares, not in stitches (ours)."""


def _in_squares(speech: Speech, main: Stretch) -> bool:
    """Whether a row is told in squares: "Open, filled, open, open, filled"."""
    return sum(OWN_NOUNS.get(token.text) in ("block", "sp") for token in speech.tokens[main.begins : main.end]) >= SQUARES


def _corner_named(speech: Speech, main: Stretch, heard: Sequence[Heard_]) -> bool:
    """Whether a corner is only named, and not told stitch by stitch: "in the corner, two double crochet, and two double crochet"."""
    at = [k for k in range(main.start, main.end) if speech.tokens[k].text in _CORNER]
    placed = [k for k in at if speech.tokens[k].mark == ":" or any(t.text in ("in", "into") for t in speech.tokens[max(k - 2, 0) : k])]
    told = [k for k in placed if sum(h.clear >= 0.75 and k < h.k <= k + 10 for h in heard) >= 2]
    return bool(at) and not told


_PAIRS = ("pair", "pairs")
_CABLES = ("cable", "cables", "cross", "crossing", "crossed", "twist")


def _several_there(speech: Speech, k: int) -> bool:
    """Whether the place is told before the stitches: "in the fourth chain we do eleven double crochets"."""
    tokens = speech.tokens
    if k < 4 or tokens[k - 1].kind != "num" or tokens[k - 1].number < 2:
        return False
    near = tokens[k - 7 if k > 7 else 0 : k - 1]
    places = [i for i, t in enumerate(near) if t.kind in ("chain", "stitch", "ord")]
    return any(t.text in ("in", "into") for t in near) and bool(places) and not any(t.stop and t.mark != "," for t in near[places[-1] :])


def _worked(stretch: Stretch) -> list[Heard_]:
    """What is heard of a row without the chain it starts with (and without a foundation chain told in it)."""
    row = stretch.unit.rows[0]
    starts = any(isinstance(step, Chain) for step in row.written.steps[:2])
    own = sum(role in (Role.START, Role.START_TOP) for role in row.stitches.role) if starts else 0
    heard = [h for h in stretch.heard if not h.chain]
    while heard and heard[0].item.kind == "ch" and int(heard[0].item.what) > 12:
        heard = heard[1:]
    if heard and heard[0].item.kind == "ch" and own and heard[0].item.what == str(own):
        heard = heard[1:]
    return heard


def _retold(unit: Unit, units: Sequence[Unit], stretches: Sequence[Stretch], speech: Speech) -> bool:
    """Whether the row is told as another row again, so that nothing need be named in it."""
    return any(retold_at(unit, units, speech, s, s.end) >= 0 for s in stretches) or bool(unit.refers and len(unit.refers) > 1)


def _dialect(unit: Unit, heard: Sequence[Heard_], pairs: Sequence[Pair], speaking: Speaking) -> Iterator[Heard]:
    terms = speaking.terms
    other: System = "UK" if terms == "US" else "US"
    substituted = {id(p.heard): p for p in pairs if p.op == "dialect"}
    for h in heard:
        if h.other is None or not h.item.what:
            continue
        absent = h.item.plain not in unit.kinds
        if absent and h.other.plain in unit.kinds:
            sure = 0.9 * h.clear
        elif id(h) in substituted and not absent:
            wanted = substituted[id(h)].item
            if wanted is None or _said_rightly(wanted, heard):
                continue
            sure = 0.62 * h.clear
        else:
            continue
        if (h.other.plain, h.item.plain) in _HALVED:
            sure -= 0.5
        message = f"“{h.words}” is said, and {unit.label} is worked in {full_name(h.other.plain, terms)}: that is the {other} name"
        yield Heard(kind="dialect", at=h.at, words=h.words, row=unit.label, message=message, sure=round(max(sure, 0.05), 2))


OUTRIGHT = 0.9
"""So clearly another stitch must be told as work for it to be told in the place of the row's own (ours)."""


def _another_stitch(unit: Unit, main: Stretch, speech: Speech, speaking: Speaking) -> Iterator[Heard]:
    """Another stitch than the only one the row has, told of each of its places: "a half treble in each stitch across" where the page has
    double crochet; by neither terms is it the row's own."""
    own = {item.plain for item in unit.items if item.kind != "ch"}
    told = [h for h in main.heard if h.item.kind != "ch" and not h.chain]
    if len(own) != 1 or len(told) != 1 or unit.refers or any(item.kind != "st" for item in unit.items if item.kind != "ch"):
        return
    (h,), (plain,) = told, own
    names = {h.item.plain, h.other.plain if h.other is not None else ""}
    each = any(token.text in ("each", "every") for token in speech.tokens[h.k + 1 : h.k + 4])
    if plain in names or h.item.kind != "st" or h.clear < OUTRIGHT or not each or names & set(unit.kinds):
        return
    if speech.tokens[h.k].story or takes_back(speech.tokens, h.k - 3, h.k + 8):
        return
    terms = speaking.terms
    message = f"“{h.words}” is said, and {unit.label} is worked in {full_name(plain, terms)}, which is not said"
    yield Heard(kind="left out", at=h.at, words=h.words, row=unit.label, message=message, sure=0.62)


def _said_rightly(item: Item, heard: Sequence[Heard_]) -> bool:
    return any(h.item.plain == item.plain and h.item.what for h in heard)


def _left_out(unit: Unit, heard: Sequence[Heard_], pairs: Sequence[Pair], main: Stretch, speech: Speech, terms: System) -> Iterator[Heard]:
    for k, pair in enumerate(pairs):
        if pair.op != "left out" or pair.item is None:
            continue
        sure = _sure(unit, pair.item, heard, pairs, k)
        if pair.item.kind in ("ch", "group", "inc") and _corner_named(speech, main, heard):
            sure = min(sure, 0.35)  # "work your corner": what a corner is was told before
        if pair.item.kind == "st" and not _named(pair.item, heard) and any(t.text in _VS for t in speech.tokens[main.begins : main.end]):
            sure = min(sure, 0.35)  # "miss one and a V, miss one and a V": what a V is was told before
        if sure <= 0 or _in_squares(speech, main):
            continue
        if pair.item.what[:2] in ("FP", "BP") and any(t.text in _CABLES for t in speech.tokens[main.start : main.end]):
            sure = min(sure, 0.35)  # "cable four front": named as a whole
        if pair.item.kind == "inc" and any(_several_there(speech, h.k) for h in heard if h.item.plain == pair.item.plain):
            sure = min(sure, 0.35)
        if pair.item.kind == "inc" and any(t.text in _PAIRS for t in speech.tokens[main.begins : main.end]):
            sure = min(sure, 0.35)  # "with a pair of doubles to end"
        if pair.item.kind == "ch" and any(h.item.kind == "group" for h in heard):
            sure = min(sure, 0.35)  # the chain may be part of the group that was named
        before = pairs[k - 1] if k else None
        named = before is not None and before.op == "same" and before.item is not None and before.item.kind == "group"
        if named and pair.item.kind == "st":
            sure = min(sure, 0.35)  # so may the stitch: "a V stitch, which is double crochet, chain one, double crochet"
        at, words = _where(pairs, k, main, speech)
        message = f"{unit.label} also has {item_words(pair.item, terms)}, which is not said"
        yield Heard(kind="left out", at=at, words=words, row=unit.label, message=message, sure=round(sure, 2))


def _sure(unit: Unit, item: Item, heard: Sequence[Heard_], pairs: Sequence[Pair], k: int) -> float:
    """How surely the item was left out: by kind, by whether it is named anywhere, and by whether its neighbours are."""
    matched = sum(p.op in ("same", "dialect") for p in pairs)
    written = sum(p.item is not None for p in pairs)
    if not matched or any(p.op == "dialect" and p.item is not None and p.item.plain == item.plain for p in pairs):
        return 0.0
    named = _named(item, heard)
    inside = _beside(pairs, k, -1) and _beside(pairs, k, 1)
    if not named and item.kind in ("inc", "dec") and _as_often(unit, item, heard):
        return 0.35  # its number or its "together" may have been lost
    if not named:
        if item.kind == "ch":
            return 0.6 if matched >= 2 and matched >= 0.5 * (written - 1) else 0.35
        return {"st": 0.68, "inc": 0.62, "dec": 0.66, "group": 0.68}[item.kind] if matched >= 0.3 * written else 0.4
    if inside and matched >= 0.7 * written and item.kind == "st" and _once(pairs, item) <= 2:
        return 0.45 if written - matched > 1 else 0.55
    return 0.25


def _as_often(unit: Unit, item: Item, heard: Sequence[Heard_]) -> bool:
    """Whether the stitch is named as often as it is written, increases and decreases included."""
    written = sum(base(other.what) == base(item.what) for other in unit.items if other.kind in ("st", "inc", "dec"))
    return sum(bool(h.item.what) and h.item.plain == item.plain and h.clear >= 0.8 for h in heard) >= written


def _named(item: Item, heard: Sequence[Heard_]) -> bool:
    """Whether the item is named anywhere in the row, said in any way."""
    for h in heard:
        if (
            item.kind == "ch"
            and h.item.kind == "ch"
            and (h.item.what == item.what or (h.k and len([x for x in heard if x.item.kind == "ch"]) > 1))
        ):
            return True
        if item.kind == "group" and (h.item.kind == "group" or h.item.kind == "inc"):
            return True
        if item.kind == "st" and h.item.kind == "group" and h.item.what == item.plain:
            return True
        if item.kind in ("inc", "dec") and (h.item.kind == item.kind or (h.item.kind == "group" and item.kind == "inc")):
            return True
        if (
            item.kind == "st"
            and h.item.what
            and h.item.kind in ("st", "inc")
            and (_alike(h.item.what, item.what) or (h.other is not None and _alike(h.other.what, item.what)))
        ):
            return True
        if item.kind == "st" and h.item.kind in ("inc", "dec") and not h.item.what:
            return True
    return False


def _alike(heard: str, written: str) -> bool:
    """Whether one stitch is named for another: the same, posts told apart only where both say which."""
    if base(heard) != base(written):
        return False
    posts = {what[:2] for what in (heard, written) if what[:2] in ("FP", "BP")}
    return len(posts) < 2


def _beside(pairs: Sequence[Pair], k: int, step: int) -> bool:
    """Whether the neighbour on that side is matched, or there is none."""
    at = k + step
    while 0 <= at < len(pairs) and pairs[at].op == "extra":
        return False
    return not 0 <= at < len(pairs) or pairs[at].op in ("same", "dialect")


def _once(pairs: Sequence[Pair], item: Item) -> int:
    return sum(p.item == item for p in pairs)


def _where(pairs: Sequence[Pair], k: int, main: Stretch, speech: Speech) -> tuple[float, str]:
    """Where it would have been said: before the next thing heard, else after the one before."""
    after = next((p.heard for p in pairs[k + 1 :] if p.heard is not None and p.op != "extra"), None)
    before = next((p.heard for p in reversed(pairs[:k]) if p.heard is not None), None)
    token = after or before
    if token is None:
        return main.meant.anchor.at, ""
    words = " ".join(t.raw for t in speech.tokens[max(main.start, token.k - 3) : token.k + 3])
    if after is None and before is not None:
        closed = closed_behind(speech, main, before.k)
        if closed >= 0:
            return amid(before.at, speech.tokens[closed].at), words
        return min(speech.after(speech.sentence_end(before.k, main.end)), before.at + 3.0), words
    return between(before.at, token.at) if before is not None and token is after else token.at, words


CLOSED_S = 10.0
"""So many seconds at most behind the last thing told a row is closed that what is missing is looked for between (ours)."""


MOST_S = 4.0
"""So many seconds at most behind the last thing told what is missing would have begun (ours)."""


def amid(told: float, closed: float) -> float:
    """The second at which something would have been said between the last thing told and the word that closes the row."""
    return min((told + closed) / 2, told + MOST_S)


def closed_behind(speech: Speech, main: Stretch, k: int) -> int:
    """The token that closes the row behind the last thing told, at token k, or its count; -1 where none does soon."""
    tokens, own = speech.tokens, main.unit.any_allowed - main.unit.instructed
    counts = {told.k for told in main.counts if told.number in own}
    for i in range(k + 1, main.end):
        if tokens[i].at - tokens[k].at > CLOSED_S:
            break
        if tokens[i].kind in ("turn", "join") or i in counts:
            return i
    return -1


def between(one: float, other: float) -> float:
    """The second from which one hears what is missing between two things told at these seconds: amid them, or shortly before the other
    where much lies between."""
    return max((one + other) / 2, other - SHORTLY_S)


def item_words(item: Item, terms: System) -> str:
    """One thing of a row in words: "chain 2", "an increase (single crochet)"."""
    if item.kind == "ch":
        return f"chain {item.what}"
    if item.kind == "group":
        return f"a {full_name(item.what, terms)}"
    name = full_name(item.what, terms)
    return {"st": name, "inc": f"an increase ({name})", "dec": f"a decrease ({name})"}[item.kind]
