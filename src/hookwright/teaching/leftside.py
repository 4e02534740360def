"""For left-handers, where it matters: the words stay, the picture is mirrored; the places where that changes what is seen are said."""

from __future__ import annotations

from collections.abc import Iterator

from ..working import RowWork
from .shots import Shot

_SAID = {
    "rows": "Left-handed? The words are the same; you work each row from the other end, so see the picture mirrored.",
    "rounds": "Left-handed? The words are the same; your rounds go clockwise.",
    "post": "Left-handed? Front and back stay front and back; only which way the ridge leans is mirrored.",
    "colour": "Left-handed? A picture in two colours comes out mirrored: read the chart from the other side.",
    "edge": "Left-handed? The slope lies on the other side of the piece.",
}


def left_words(shot: Shot, row: RowWork, told: set[str], *, asked: bool) -> Iterator[str]:
    """What a left-hander must know at this shot; each thing is said once in a film. `asked`: the film is made for left-handers, which
    needs no such words."""
    if asked:
        return
    begun = False
    for key in _matters(shot, row):
        if key not in told:
            told.add(key)
            words = _SAID[key].removeprefix("Left-handed? ")
            yield f"Left-handed? {words}" if not begun else f"And {words[0].lower()}{words[1:]}"
            begun = True


def _matters(shot: Shot, row: RowWork) -> Iterator[str]:
    round_ = row.made_in not in ("rows", "passes")
    if round_:
        yield "rounds"
    elif any(action.family == "turn" for action in shot.new):
        yield "rows"
    if any(action.family == "colour" and action.what == "within the row" for action in shot.new):
        yield "colour"
    if any(action.family == "stitch" and action.what[:2] in ("FP", "BP") for action in shot.new):
        yield "post"
    if not round_ and any(action.family in ("increase", "decrease") and action.at > 0.8 for action in (*shot.new, *shot.again)):
        yield "edge"
