"""Sentences between the instructions that ask for no stitch: tips, captions, advice, sewing up. They are set aside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from ...pattern import Aside
from ..wording.token import Token
from . import counts, counts_told, row_loops, toys
from .assembling import assembled
from .cursor import Cursor
from .gathered import gathered
from .old_books import is_wound
from .one_side import begun_alike

_YOU = frozenset(
    """
    you your i we they he she it's you'll i'm i've if because since when once so this that there here just tip hint note nb photo
    picture see shown illustrated optional size sizes fits measure hope enjoy happy thank thanks please click follow video
    tutorial below pattern rights copyright feel free want like love great looks look make sure remember don't using use
    """.split()  # noqa: SIM905
)


_AT_WORK = frozenset(
    ("st", "n", "ch", "inc", "dec", "turn", "join", "skip", "*", "(", "[", "rep", "foff", "grp", "in", "with", "mring",
     "attach", "change", "leave")
)  # fmt: skip
"""How an instruction begins."""
_HENCEFORTH = frozenset(("hereafter", "throughout", "henceforth", "always"))


def prose(c: Cursor, end: int) -> Aside | None:
    """A sentence of plain prose (tip, caption, advice) from here to its full stop, or None."""
    k = c.i
    words = strong = craft = 0
    first = c.t[k]
    if is_wound(c) or (c.ctx.passes and (first.text.lower() in ("take", "raise") or c.look(2).kind == "hook")):
        return None  # "Take up each of the others.", "Pass the needle under the next loop, …"
    if first.kind in ("inc", "dec") and c.look().kind == "=" and c.look(2).kind in ("inc", "dec"):
        return set_aside(c, sentence_of(c, end))  # "inc = increase, dec = decrease": what the short forms mean
    if _everyday(c):
        return set_aside(c, sentence_of(c, end))
    if first.kind in ("beg", "each", "work", "having", "all", "the") and (alike := begun_alike(c)) is not None:
        assert isinstance(alike[0], Aside)
        return alike[0]
    if _how_big(c, stop_of(c, end)):
        return set_aside(c, stop_of(c, end))
    if (drawn := gathered(c, end)) is not None:
        return replace(set_aside(c, drawn), kind="close")
    if assembled(c, end):
        return set_aside(c, sentence_of(c, end))
    if toys.made_up(c, end) or toys.seamed(c, end):
        return set_aside(c, stop_of(c, end))
    if (
        (c.ctx.filet and first.kind in ("sp", "group"))
        or (first.val == "single" and c.look().val == "open")
        or first.val in ("complete", "finish")
    ):
        return None
    if first.kind in ("the", "o", "other") and _made_alike(c, sentence_of(c, end)):
        return set_aside(c, sentence_of(c, end))
    if row_loops.names_a_loop(c) and not _holds_on(c.t[k : min(end, k + 14)]):
        return None
    loop = next((t for t in c.t[k : min(end, k + 12)] if t.kind == "loop"), None)
    placed = loop is not None and any(t.kind in ("(", "next", ".") for t in c.t[k : min(end, k + 12)] if t.start < loop.start)
    if loop is not None and not placed and _holds_on(c.t[k : min(end, k + 14)]):
        c.told["hereafter_loop"] = str(loop.val)  # "Hereafter work in back loop only."
        c.loop = "" if loop.val == "both" else str(loop.val)
        return set_aside(c, _before_the_work(c, sentence_of(c, end)))
    if (
        first.kind in ("w", "place", "insert", "color", "idle")
        and (first.val in _OTHER_WORK or first.text.lower() in _OTHER_WORK)
        and not (first.val in ("tie", "draw") and c.look().kind in ("off", "from"))
    ):
        return set_aside(c, sentence_of(c, end))
    if first.kind == "the" and any(c.t[j].text.lower() in ("fit", "fits", "match", "matches") for j in range(k, sentence_of(c, end))):
        return set_aside(c, sentence_of(c, end))  # "The 18 stitches of the neck fit those of the head, so sew them …"
    if first.val == "you" and c.look().kind != "total" and c.look().text.lower() in ("gain", "gained", "lose", "add"):
        return set_aside(c, sentence_of(c, end))  # "You gain two V-sts every two rows."
    if first.val in ("you", "you'll") and _told_growth(c, sentence_of(c, end)):
        return set_aside(c, sentence_of(c, end))  # "You will increase by 2 stitches on every row."
    if (
        first.kind in ("o", "row", "rnd", "the", "n")
        and any(c.t[j].kind in ("patt",) or c.t[j].val in ("form", "forms", "establish") for j in range(k, stop_of(c, end)))
        and not any(c.t[j].kind in ("st", "ch", "rep") for j in range(k, stop_of(c, end)))
    ):
        rows = [t.val for t in c.t[k : stop_of(c, end)] if t.kind == "n" and isinstance(t.val, int)]
        if first.kind in ("row", "rnd") and rows:
            c.told["pattern_rows"] = tuple(range(rows[0], rows[-1] + 1))
        return set_aside(c, stop_of(c, end))
    if first.kind in _AT_WORK:
        return None
    if first.text.lower() in _SPEAKER and _names_rows_only(c, end):
        return set_aside(c, sentence_of(c, end))  # "You'll be on Row 12 then."
    if first.kind in ("last", "w", "next") and c.look().kind in ("row", "rnd") and c.look(2).kind in ("!", ".") and c.look(3).kind:
        return set_aside(c, k + 3)  # "Last row! Ch 1, …"
    if first.text.lower() in ("rotate", "rotating") and not any(
        c.t[j].kind in ("st", "ch", "skip", "inc", "dec") for j in range(k, sentence_of(c, end))
    ):
        return set_aside(c, sentence_of(c, end))  # "Rotate piece 90° to work along row ends."
    if first.text.lower() == "i" and c.look().kind not in (":", ",", "st", "n", ""):
        if counts_told.told(c) is not None:
            return Aside(id=c.id(), span=c.span(c.i - 1))  # "I count 36 stitches."
        colon = next((j for j in range(k, sentence_of(c, end)) if c.t[j].kind == ":"), None)
        return set_aside(c, sentence_of(c, end) if colon is None else colon)  # "I finish with dc because …: 1ch, 1dc in …"
    if _said_of_all(c, end):
        return set_aside(c, stop_of(c, end))
    while k < end and c.t[k].kind not in (".", "!"):
        token = c.t[k]
        if token.kind in ("w", "idle"):
            words += 1
            if token.val in _YOU:
                strong += 1
        elif token.kind in ("st", "ch", "inc", "dec", "skip", "grp", "rep", "*", "n"):
            craft += 1
        k += 1
    if (
        craft == 0
        and words >= 2
        and not any(
            c.t[j].kind
            in (
                "work",
                "even",
                "turn",
                "join",
                "foff",
                "attach",
                "change",
                "not",
                "patt",
                "total",
                "noun",
                "stuff",
                "marker",
                "loop",
                "cont",
                "rest",
            )
            for j in range(c.i, k)
        )
    ):
        return set_aside(c, k)
    if (
        first.kind in ("w", "idle", "the")
        and (first.val in ("note", "nb", "tip", "hint", "optional", "if", "for", "photo") or strong >= 2)
        and words > craft
    ):
        if any(c.t[j].kind == "n" for j in range(c.i, k)) and counts.sentence(c) is not None:
            return Aside(id=c.id(), span=c.span(c.i - 1))
        return set_aside(c, k)
    return None


def _holds_on(words: Sequence[Token]) -> bool:
    """ "Hereafter", "throughout", "from here on", "from this round onward": whether a rule is told for all that follows too."""
    if any(token.val in _HENCEFORTH for token in words):
        return True
    at = next((k for k, token in enumerate(words) if token.kind == "from"), len(words))
    on = next((k for k in range(at + 1, len(words)) if words[k].text.lower() not in _THIS), len(words))
    return at + 1 < on < len(words) and words[on].text.lower() in ("on", "onward", "onwards", "forward")


_THIS = frozenset("here now this point round rnd row place stage".split())  # noqa: SIM905


def _how_big(c: Cursor, end: int) -> bool:
    """ "The edging will be two inches deep.", "This makes a lace 3 inches wide.": what comes out, and nothing to do."""
    words = c.t[c.i : end]
    if _measured(words):
        return True
    big = any(t.text.lower() in _SIZES for t in words) and any(t.text.lower() in _INCHES for t in words)
    is_so = words[0].text.lower() in ("the", "this", "it", "each") and any(t.text.lower() in _COMES_OUT for t in words[:16])
    return is_so and big and not any(t.kind in ("ch", "skip", "inc", "dec", "rep", "row", "rnd", "until") for t in words)


def _measured(words: Sequence[Token]) -> bool:
    """ "Circle should measure about 7 in.", "Cuff is now 3" long": how large it is by now, said of the piece by a word of ours or hers."""
    said = [t.text.lower() for t in words]
    doing = words[0].kind in ("until", "cont", "rep", "if", "when", "n", "(", "*") or (
        words[0].kind == "work" and words[1].kind != "measures"
    )
    if len(words) < _LEAST_MEASURED or doing:
        return False
    verb = next((k for k, t in enumerate(words[:_SOON]) if t.kind == "measures" or said[k] in ("measure", "measuring")), None)
    length = any(t.kind == "n" for t in words) and (
        any(one in _INCHES for one in said) or any(t.kind == '"' or t.text == '"' for t in words)
    )
    working = ("ch", "skip", "inc", "dec", "rep", "until", "turn", "join", "each", "next", "last", "st", "grp", "foff", "leave", "cont")
    return verb is not None and verb > 0 and length and not any(t.kind in working for t in words)


_LEAST_MEASURED = 4
"""Words of the shortest sentence that tells how large a piece is (ours)."""
_SOON = 10
"""How far on its verb stands, at most (ours)."""
_SIZES = frozenset("deep wide broad long high width depth across diameter length".split())  # noqa: SIM905
_INCHES = frozenset(("inch", "inches", "in", "ins", "cm", "centimetres", "yard", "yards"))
_COMES_OUT = frozenset("be measure measures makes is".split())  # noqa: SIM905


def _told_growth(c: Cursor, end: int) -> bool:
    """What the maker gains or loses in every row, as a sum."""
    words = c.t[c.i : min(end, c.i + 14)]
    shaped = any(t.kind in ("inc", "dec") for t in words[:5])
    each = any(a.kind == "each" and b.kind in ("row", "rnd", "around", "times") for a, b in pairwise(words))
    return shaped and each and not any(t.kind in ("ch", "skip", "turn", "join") or t.text.lower() == "end" for t in words)


_SPEAKER = frozenset(("you", "you'll", "you're", "i", "i'm", "we", "it's", "mine", "yours", "that's", "this"))


_BOTH = frozenset("pop fan leaf shell long bob v single double picture".split())  # noqa: SIM905


def _everyday(c: Cursor) -> bool:
    """ "Pop the kettle on.", "Fan the fringe out", "Leaf through your stash": a group's name that is an everyday word here."""
    first, after = c.t[c.i], c.look()
    one_word = first.end - first.start == len(first.text)  # "single crochet" is none
    if first.text.lower() not in _BOTH or first.kind not in ("grp", "st") or not one_word:
        return False
    led_on = after.kind in ("in", "on") and c.look(2).kind == "a" and c.look(3).kind not in ("noun", "st", "sp", "ch", "lp", "corner")
    return after.kind in ("the", "w", "row", "rnd", "color", "along") or after.text.lower() == "through" or led_on


def _names_rows_only(c: Cursor, end: int) -> bool:
    """Whether a sentence about the maker names no more of the craft than rows."""
    words = c.t[c.i : sentence_of(c, end)]
    numbered = [k for k, t in enumerate(words) if t.kind == "n" and not (k and words[k - 1].kind in ("row", "rnd"))]
    return not numbered and any(t.kind in ("row", "rnd") for t in words) and all(t.kind in _TALK for t in words)


_TALK = frozenset(
    (
        "w",
        "idle",
        "the",
        "a",
        "in",
        "on",
        "at",
        "row",
        "rnd",
        "n",
        "then",
        "counts",
        "to",
        "for",
        "of",
        "after",
        "beg",
        "end",
        "now",
        "as",
        "with",
        "not",
        "but",
        "half",
        "and",
    )
)
_OTHER_WORK = frozenset(
    """
    sew cut wind thread weave glue block press steam pin fold trim knot tack lace fit embroider arrange stretch starch iron seam
    gather whip whipstitch overcast dampen lay stitch tuck wash position pull-on sew-on tie attach-eyes add decorate shape-with
    wet dip stiffen mount hem line pad slip-on paint spray baste match measure fringe tassel finishing pinch
    flatten squeeze squish smooth straighten poke hide
    """.split()  # noqa: SIM905
)


def _made_alike(c: Cursor, end: int) -> bool:
    """ "The second cuff is worked in the same manner": another copy of the piece."""
    words = [t.text.lower() for t in c.t[c.i : end]]
    verb = next((k for k, (a, b) in enumerate(pairwise(words)) if a in ("is", "are") and b in _MADE), None)
    if verb is None or any(t.kind in ("st", "ch", "row", "rnd", "n") for t in c.t[c.i : c.i + verb]):
        return False
    return bool({"same", "alike", "like", "similarly", "way", "match", "precisely"} & set(words[verb:]))


_MADE = frozenset("worked made done crocheted knitted formed begun".split())  # noqa: SIM905


def _said_of_all(c: Cursor, end: int) -> bool:
    """ "These can be made as the outer block is crocheted", "the edge should be kept flat": what may or should be, with no stitch told."""
    words = c.t[c.i : stop_of(c, end)]
    passive = any(a.text.lower() in _MAY and b.text.lower() == "be" for a, b in pairwise(words))
    return passive and words[0].kind in ("the", "w", "idle") and not any(t.kind in ("st", "ch", "n", "skip", "inc", "dec") for t in words)


_MAY = frozenset(("can", "may", "must", "should", "could", "will", "to"))


def _before_the_work(c: Cursor, end: int) -> int:
    """ "Working in back loops only throughout, 2 sc in each st": the rule ends where the row's own work follows."""
    loop = next((k for k in range(c.i, end) if c.t[k].kind == "loop"), end)
    stop = next((k for k in range(loop, end) if c.t[k].kind == "," or c.t[k].val in _HENCEFORTH or _works(c, k)), end)
    stop += stop < end and c.t[stop].val in _HENCEFORTH
    return stop if any(t.kind in ("st", "ch", "inc", "dec", "grp") for t in c.t[stop:end]) else end


def _works(c: Cursor, k: int) -> bool:
    """Whether work begins at a word behind a rule whose full stop is that of a short form: "in back loop of each st. 2 sc in …"."""
    before = c.t[k - 1]
    return before.kind == "noun" and c.t[k].start - before.end > 1 and c.t[k].kind in _BEGINS_WORK


_BEGINS_WORK = frozenset(("n", "st", "ch", "inc", "dec", "*", "(", "["))


def sentence_of(c: Cursor, end: int) -> int:
    k = c.i
    while k < end and c.t[k].kind not in (".", "!"):
        k = max(k + 1, c.close.get(k, k) + 1) if c.t[k].kind in ("(", "[") else k + 1
    return min(k, end)


def stop_of(c: Cursor, end: int) -> int:
    k = c.i
    while k < end and c.t[k].kind not in (".", "!", ";"):
        k += 1
    return k


def set_aside(c: Cursor, upto: int) -> Aside:
    start = c.i
    c.i = max(upto, start + 1)
    return Aside(id=c.id(), span=c.span(start))
