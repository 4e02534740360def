"""What prose tells once for all rows: that all begin at the same end, the thread cut at every row's finish; or that each is turned."""

from __future__ import annotations

import re

_SAME_END = r"(?:same\s(?:end|side)|right[- ]hand\b|right\s(?:end|side)|one\send)"
_TOLD = re.compile(
    r"(?i)\b(?:begin|commence|start)(?:ning|ing)?\s(?:every|each|all\s(?:the)?)\s?rows?\b[^.;]{0,40}\b(?:afresh|anew|" + _SAME_END + ")"
    r"|\b(?:every|each|all\s(?:the)?)\s?rows?\b[^.;]{0,24}\b(?:begun|begins?|commenced?s?|started|worked)\b[^.;]{0,24}\b"
    r"(?:afresh|" + _SAME_END + ")"
    r"|\bwork(?:ed|ing)?\s(?:entirely\s|always\s|only\s|wholly\s|all\s)?from\s(?:the\s)?" + _SAME_END +
    r"|\b(?:cotton|thread|wool|silk|yarn)\b[^.;]{0,24}\b(?:cut|broken|fastened)\b(?:\soff)?[^.;]{0,24}\b(?:end|finish)\sof\s(?:every|each)\srow\b"
    r"|\balways\swork(?:ed|ing)?\son\s(?:the\s)?(?:one|right|same)\sside\b"
    r"|\bwork(?:ed|ing)?\s(?:always|only|(?:all|every)(?:\sthe)?\srows?)\son\s(?:the\s)?(?:one|right|same)\sside\b"
    r"|\b(?:begin|commenc|start)n?ing\s(?:each|every|all)\s(?:rows?\s)?(?:at|from|on)\s(?:the\s)?" + _SAME_END +
    r"|\b(?:cut|cutting|break|breaking|fasten|fastening)\b(?:\soff)?[^.;]{0,24}\b(?:end|finish)\sof\s(?:every|each)\srow\b"
)  # fmt: skip


def begun_at_one_end(text: str) -> bool:
    """Whether a piece's prose says that none of its rows is turned.

    >>> begun_at_one_end("It is worked entirely from one end, the cotton being cut at the finish of every row.")
    True
    >>> begun_at_one_end("Begin every row afresh at the right-hand end."), begun_at_one_end("Turn at the end of every row.")
    (True, False)
    """
    return _TOLD.search(" ".join(text.split())) is not None


def only_tells_the_end(text: str) -> bool:
    """Whether a clause or sentence says that of all rows, and little else.

    >>> only_tells_the_end("always working on one side"), only_tells_the_end("Begin every row at the right end with 3 chain, 1 treble.")
    (True, False)
    """
    flat = " ".join(text.split())
    told = sum(len(found[0]) for found in _TOLD.finditer(flat))
    return told > 0 and len(flat) - told < 40 and not any(sign.isdigit() for sign in flat)


_TURNED = re.compile(
    r"(?i)\b(?<!not\s)turn(?:ing|ed)?\b[^.;]{0,24}\b(?:after|at\s(?:the\s)?(?:end|finish)\sof)\s(?:every|each|all)\s(?:the\s)?rows?\b"
    r"|\b(?:every|each|all)\s(?:the\s)?rows?\s(?:is|are)\sturned\b|\bwork(?:ed)?\s(?:back\sand\sforth|to\sand\sfro)\b"
)


def turned_told(text: str) -> bool:
    """Whether a piece's prose says that its rows are turned.

    >>> turned_told("Turn after every row."), turned_told("It is worked back and forth.")
    (True, True)
    >>> turned_told("Do not turn at the end of each row.")
    False
    """
    return _TURNED.search(" ".join(text.split())) is not None
