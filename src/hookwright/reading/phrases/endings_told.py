"""How the last repeat ends, told in words of the writer's own: known by their few key words, and by what the unit itself ends with."""

from __future__ import annotations

import re
from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Make, Repeat, Step, Times
from ..wording.token import Token
from .cursor import Cursor, Frame, Mark
from .limits import to_beginning
from .numbers import number, times_word
from .omitting import omitted

EXAMPLES = (
    ("*ch 2, skip 2 sts, dc in next 4 sts; rep from * around, again leaving off the last 4 dc", "[ch2, skip2, dc×4]×rest cut 2"),
    ("*ch 2, skip 2 sts, dc in next 4 sts; rep from * around, but do not work the last 4 dc", "[ch2, skip2, dc×4]×rest cut 2"),
    ("*dc, (ch 2, skip 2 sts, dc) 3 times, ch 4, skip 2 sts; rep from * around, working the last parentheses only twice, then ch 4, join",
     "[dc, [ch2, skip2, dc]×3, ch4, skip2]×rest last ([ch2, skip2, dc]×2) cut 1, ch4, join"),
)  # fmt: skip

Ending = tuple[tuple[Step, ...], int | None]

_CLAUSE = frozenset((",", ";", ".", "", "(", ")", "[", "]", "join", "foff"))
_LEFT_OFF = re.compile(
    r"\b(?:omit\w*|drop(?:s|ped|ping)?|without|minus|lacking|(?:leav\w+|left)\b.*\b(?:off|out|away)|not\s(?:be\s|being\s|to\sbe\s)?(?:work|mak|mad)\w*)\b"
)
_ENDS = frozenset("end ends ending finish finishes finishing stop stops stopping".split())  # noqa: SIM905
_GOING = frozenset("working work going continuing carrying on worked round around back".split())  # noqa: SIM905
_BRACKET = frozenset("parentheses parenthesis brackets bracket parens".split())  # noqa: SIM905
_SAYS_NO_MORE = frozenset(
    """
    again as before always ever the last final time times repeat rep rpt of at end on in for each every but and round rnd row motif being
    is are be to you then however only just here too also this unit these those do does when so that which it will having have has with
    by making make made working work worked off out away leave leaving left not omit omitting omitted drop dropping dropped without minus
    lacking instead part inside within
    """.split()  # noqa: SIM905
)
"""Words that belong to every such telling."""


def told(c: Cursor, frame: Frame, mark: Mark) -> Ending | None:
    """From the clause behind a repeat: the steps that end the last unit, and where it is cut; None with the cursor unmoved where the
    clause tells of anything else, or of what the unit does not hold."""
    start = c.i
    apart = c.take(",", ";", ".")
    begin = c.i
    end = next(k for k in range(begin, len(c.t)) if c.t[k].kind in _CLAUSE)
    words = [_said(token) for token in c.t[begin:end]]
    if not words or len(words) > _LONGEST or (apart is not None and apart.kind == "." and not _LEFT_OFF.match(words[0] + " ")):
        c.i = start
        return None
    unit = frame.out[mark.index : mark.closed if mark.closed is not None else len(frame.out)]
    for way in (_to_where_it_began, _left_off, _bracket_fewer_times, _after_a_step):
        c.i = begin
        got = way(c, end, unit, frame, mark)
        if got is not None:
            return got
    c.i = start
    return None


_LONGEST = 16


def _to_where_it_began(c: Cursor, end: int, unit: list[Step], frame: Frame, mark: Mark) -> Ending | None:
    """ "…, working to the ch-3 at beginning": round and round, as much of the unit as there is room for."""
    if c.t[c.i].text.lower() in _ENDS and c.look().kind in ("at", "on"):
        c.i += 2
        c.drop("the")
        if c.kind == "o" and c.t[c.i].val == 1 and c.look().kind in ("st", "noun") and c.i + 2 == end:
            c.i = end  # "ending at first sc"
            c.told["comes_home"] = True
            return (), None
        return None
    while c.t[c.i].text.lower() in _GOING and c.i < end:
        c.i += 1
    if not to_beginning(c):
        return None
    c.told["comes_home"] = True
    return (), None


def _left_off(c: Cursor, end: int, unit: list[Step], frame: Frame, mark: Mark) -> Ending | None:
    """ "again omitting the last 4 dc", "the last time without the 4 dc", "the last 4 dc being left off"."""
    words = c.t[c.i : end]
    if not _LEFT_OFF.search(" ".join(map(_said, words))):
        return None
    at = next((k for k in range(c.i, end) if c.t[k].kind in ("n", "st", "ch", "grp")), None)
    if at is None or any(not _says_no_more(token) for token in c.t[c.i : at]):
        return None
    last = next((step for step in reversed(unit) if not isinstance(step, Aside)), None)
    kinds = {c.t[k].kind for k in range(at, min(at + 2, end))}
    named = next((str(c.t[k].val) for k in range(at, end) if c.t[k].kind == "st"), "")
    ends_so = isinstance(last, Chain) if "ch" in kinds else isinstance(last, Make) and c.us(named) == last.stitch if named else True
    c.i = at
    frame_out = len(frame.out)
    got = omitted(c, frame, mark)
    if not ends_so or c.i == at or c.i > end or len(frame.out) != frame_out or any(not _says_no_more(t) for t in c.t[c.i : end]):
        return None
    if got[1] is None or not 0 < got[1] < len(unit):
        return None
    c.i = end
    all_of_them = c.t[at].kind == "st" and c.t[at - 1].kind != "last"
    return ((), got[1]) if all_of_them else got  # "leaving out the dc": every one that the unit ends with


def _said(token: Token) -> str:
    """The word, or the words that are one token."""
    return token.val if isinstance(token.val, str) and token.val.lower().startswith(token.text.lower()) else token.text.lower()


def _says_no_more(token: Token) -> bool:
    return all(word in _SAYS_NO_MORE for word in _said(token).split())


def _bracket_fewer_times(c: Cursor, end: int, unit: list[Step], frame: Frame, mark: Mark) -> Ending | None:
    """ "working the last parentheses of last repeat only twice", "making the last bracket once instead of 3 times": the unit's last group
    in brackets; what is told behind it comes in the place of the unit's other steps."""
    named = next((k for k in range(c.i, end) if c.t[k].text.lower() in _BRACKET), None)
    at = max((k for k, step in enumerate(unit) if isinstance(step, Repeat) and step.times.kind == "n"), default=None)
    if named is None or at is None or any(not _says_no_more(token) for token in c.t[c.i : named]):
        return None
    c.i = named + 1
    many = None
    while c.i < end:
        often = times_word(c)
        if often is not None:
            many = many or often
        elif c.kind == "n":
            value = number(c)
            told_n = value.values[0] if value is not None else None
            many = many or told_n
        elif _says_no_more(c.t[c.i]):
            c.i += 1
        else:
            return None
    group = unit[at]
    if not many or not isinstance(group, Repeat) or many >= (group.times.number.values[0] or 0):
        return None
    fewer = replace(group, times=Times(kind="n", number=replace(group.times.number, values=(many,))))
    k = c.i
    while c.t[k].kind in (",", ";", "then", "and") or c.t[k].text.lower() == "then":
        k += 1
    behind = () if c.t[k].kind in ("ch", "st", "n", "work") else tuple(unit[at + 1 :])
    return (fewer, *behind), at


def _after_a_step(c: Cursor, end: int, unit: list[Step], frame: Frame, mark: Mark) -> Ending | None:
    """ "the last repeat ending after ch 2", "having last repeat end with the ch 2": up to that step of the unit, which it holds."""
    from .one_phrase import one

    at = next((k for k in range(c.i, end) if c.t[k].text.lower() in _ENDS), None)
    if at is None or at + 2 > end or c.t[at + 1].kind not in ("after", "with"):
        return None
    if any(not _says_no_more(token) for token in c.t[c.i : at]):
        return None
    c.i = at + 2
    c.drop("the", "last")
    got = one(c)
    if got is None or len(got) != 1 or c.i != end:
        return None
    like = [k for k, step in enumerate(unit) if _same(step, got[0])]
    return ((), like[-1] + 1) if like else None


def _same(a: Step, b: Step) -> bool:
    """Whether the step named at the end is this one of the unit."""
    if isinstance(a, Chain) and isinstance(b, Chain):
        return a.number == b.number
    return isinstance(a, Make) and isinstance(b, Make) and a.stitch == b.stitch and b.places in (a.places, ONE)
