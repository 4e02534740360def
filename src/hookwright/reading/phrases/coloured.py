"""The yarn told in a bracket ("(w/ B) sc in next 3 sts", "(A) 1 sc, (B) 2 sc") or behind what is worked with it ("sc across in C")."""

from __future__ import annotations

from ...pattern import Colour, Step
from ..wording.token import Token
from .bare import AFTER_BLOCK, in_yarn
from .colours import NAMES, behind
from .cursor import Cursor

EXAMPLES = (
    ("(w/ B) sc in next 3 sts", "B:, sc×3"),
    ("sc in next 3 sts with B", "B:, sc×3"),
    ("sc across (with B)", "B:, sc×rest"),
)
_LED = frozenset(("with", "in", "color"))


def in_bracket(c: Cursor) -> list[Step] | None:
    """ "(w/ B)", "(A)", "[in red]": the yarn of what follows, or of what was just told where the sentence ends behind it."""
    start = c.i
    close = c.close.get(start)
    if close is None or close - start > 6:
        return None
    inner = c.t[start + 1 : close]
    yarn_after = c.t[close + 1]
    lettered = (
        yarn_after.text.isupper() and yarn_after.text.lower() in c.ctx.colours and c.t[min(close + 2, len(c.t) - 1)].kind in AFTER_BLOCK
    )
    if lettered and len(inner) == 1 and isinstance(inner[0].val, int):  # "(10) MC, (1) A"
        c.i = close + 2
        return in_yarn(c, start, Colour(id=c.id(), span=c.span(close + 1), yarn=yarn_after.text), inner[0].val)
    led = 0
    while led < len(inner) - 1 and (inner[led].kind in _LED or inner[led].text.lower() in ("using", "yarn", "the")):
        led += 1
    yarn = _yarn(c, inner[led:], led > 0)
    if yarn is None and c.ctx.tiles and c.t[close + 1].val == "x" and 0 < len(inner) <= 3 and inner[0].text[:1].isupper():
        yarn = " ".join(word.text for word in inner)  # "(Sand) x 2" in a chart of blocks
    if yarn is None:
        return None
    c.i = close + 1
    step = Colour(id=c.id(), span=c.span(start), yarn=yarn)
    times = c.t[c.i].val in ("x", "*") or c.kind in ("x", "n")
    many = c.look().val if times and c.kind != "n" else c.t[c.i].val
    if times and isinstance(many, int) and c.t[c.i + 1 + (c.kind != "n")].kind in AFTER_BLOCK:
        c.i += 1 + (c.kind != "n")
        return in_yarn(c, start, step, many)  # "(R) x 2"
    ended = c.kind in (".", ";", "", "(", "[", "turn", "join") or (c.kind == "," and c.look().kind in ("turn", "join"))
    if ended and not times and behind(c, step, start):
        return []
    return [step]


def _yarn(c: Cursor, words: list[Token], led: bool) -> str | None:
    if not words or len(words) > 3 or not all(word.text.replace("'", "").isalnum() for word in words):
        return None
    low = [word.text.lower() for word in words]
    if low[-1] in ("yarn", "color", "colour"):
        words, low = words[:-1], low[:-1]
    if len(low) == 1 and len(low[0]) <= 3 and words[0].text.isupper():
        return words[0].text if low[0] in c.ctx.colours or (led and low[0] not in _NO_YARN) else None
    known = [one in NAMES or one in c.ctx.colours for one in low]
    return " ".join(word.text for word in words) if low and all(known) else None


_NO_YARN = frozenset(("rs", "ws", "sc", "dc", "hdc", "tr", "ch", "st", "sts", "sp", "blo", "flo", "bl", "fl", "us", "uk"))
