"""Rows repeated in the loose words of blogs and forums: "Repeat them for as long as you like", "just rows 2, 3 and 4 over and over"."""

from __future__ import annotations

from ...pattern import Refer, Step, Until
from ..wording.token import Token
from .cursor import Cursor
from .prose import set_aside, stop_of
from .untils import until

EXAMPLES = (
    ("Then it's just rows 2 3 4 over and over till it's long enough", "as rows 2, 3, 4"),
    ("Repeat rows 2 and 3 for as long as you like", "as rows 2, 3"),
    ("Rows 2 and 3 turn about. You finish on a row 3.", "as rows 2, 3"),
)

_WORKS = frozenset(("ch", "inc", "dec", "skip", "grp", "*", "(", "[", "join", "mring", "tog"))
_BETWEEN = frozenset((",", "and", "to", "-", "over", "then", "row", "rnd"))
_OPEN_ENDED = (("as", "long", "as"), ("as", "many", "times", "as"), ("as", "often", "as"), ("however", "long"), ("however", "many"))
_AGAIN = (("over", "and", "over"), ("again", "and", "again"), ("in", "turn"), ("turn", "about"), ("taking", "turns"), ("take", "turns"))
_YOU = frozenset("you you'll you'd we so should will must it this always".split())  # noqa: SIM905
"""Words before the one that says how the rows end: "you should end on a row 4"."""
_LIKE_THIS = (("this", "way"), ("this", "manner"), ("this", "fashion"), ("same", "way"), ("like", "this"), ("like", "that"), ("thus",))
_GOING_ON = frozenset(("go", "keep", "carry", "proceed", "continue", "cont", "carrying", "keeping"))


def loosely(c: Cursor, end: int) -> list[Step] | None:
    """A whole sentence that repeats rows in words of its own, or says with which row they end; None with the cursor unmoved."""
    if c.kind in _WORKS or (c.kind == "st" and c.t[c.i].text.lower() != "long"):
        return None
    start, stop = c.i, stop_of(c, end)
    words = c.t[start:stop]
    if len(words) < 3 or any(t.kind in _WORKS or (t.kind == "st" and t.text.lower() != "long") for t in words):
        return None
    texts = [t.text.lower() for t in words]
    if start == 0 and texts[0] in ("are", "is") and "same" in texts[:8] and not any(t.kind == "n" for t in words):
        c.i = stop
        return [Refer(id=c.id(), span=c.span(start), last=1)]  # "Rounds 7-11 are more of the same."
    if start == 0 and texts[0] in ("is", "begins", "starts") and stop < end:
        return [set_aside(c, stop)]  # "Round 12 is where the thumb begins."
    if _ends_on_row(words):
        return [set_aside(c, stop)] if c.out else None
    bare = start == 0 and words[0].kind == "n" and words[1].kind in _BETWEEN
    rows = _numbers_in(words) if bare else _rows_in(words)  # "2 and 3 over and over"
    repeats = any(t.kind in ("rep", "alt") for t in words)
    last = 0
    if repeats and _them(words) and (told := _rows_in(c.t[:start])):
        rows = told
    elif rows and (_holds(texts, _AGAIN) is not None or (repeats and _holds(texts, _OPEN_ENDED) is not None)):
        pass
    elif texts[0] in _GOING_ON and (at := _holds(texts, _LIKE_THIS)) is not None and at < len(words) and words[at].kind == ",":
        rows, last = (rows, 0) if rows and repeats else ((), _of_each(words[at:]))
    else:
        return None
    c.told["until"] = _end_told(c, start, stop)
    c.i = stop
    return [Refer(id=c.id(), span=c.span(start), rows=rows, last=last)]


def _ends_on_row(words: list[Token]) -> bool:
    """ "End with a row 4", "you should finish on a Row 3": which of the rows comes last."""
    k = next((k for k, t in enumerate(words) if t.text.lower() not in _YOU), 0)
    ahead = words[k:]
    return (
        len(ahead) > 2
        and ahead[0].kind in ("end", "ending")
        and ahead[1].kind in ("with", "on", "in")
        and any(t.kind in ("row", "rnd") for t in ahead[2:5])
    )


def _rows_in(words: list[Token]) -> tuple[int, ...]:
    """The numbers told after the first "row" or "rows": "2 3 4", "2, 3 and 4", "2-4"."""
    at = next((k for k, t in enumerate(words[:-1]) if t.kind in ("row", "rnd") and words[k + 1].kind == "n"), None)
    return _numbers_in(words[at + 1 :]) if at is not None else ()


def _numbers_in(words: list[Token]) -> tuple[int, ...]:
    found: list[int] = []
    through = False
    for token in words:
        if token.kind == "n" and isinstance(token.val, int):
            found += range(found[-1] + 1, token.val + 1) if through and found and token.val < found[-1] + 200 else [token.val]
            through = False
        elif token.kind in _BETWEEN:
            through = token.kind in ("to", "-")
        else:
            break
    return tuple(found)


def _them(words: list[Token]) -> bool:
    """ "Repeat them", "repeat both": rows that the sentence before has named."""
    at = next(k for k, t in enumerate(words) if t.kind in ("rep", "alt"))
    after = [t.text.lower() for t in words[at + 1 : at + 3]]
    return bool(after) and (after[0] in ("them", "both") or (after[0] in ("these", "those") and (len(after) < 2 or after[1] != "two")))


def _holds(texts: list[str], forms: tuple[tuple[str, ...], ...]) -> int | None:
    """Behind which word the first of these turns of phrase ends."""
    ends = (k + len(form) for form in forms for k in range(len(texts)) if tuple(texts[k : k + len(form)]) == form)
    return min(ends, default=None)


def _of_each(words: list[Token]) -> int:
    """ "…, 2 rows of each colour": so many rows before are meant; else the last one."""
    for k, token in enumerate(words[:-2]):
        if token.kind == "n" and isinstance(token.val, int) and 0 < token.val < 20 and words[k + 1].kind in ("row", "rnd"):
            return token.val
    return 1


def _end_told(c: Cursor, start: int, stop: int) -> Until:
    at = next((k for k in range(start, stop) if c.t[k].kind == "until"), None)
    if at is not None:
        c.i = at
        told = until(c)
        if told is not None:
            return told
    return Until(span=c.span(start, stop))
