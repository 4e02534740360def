"""Sentences that instruct though few words of the craft stand in them: references to a piece, edgings told among the finishing."""

from __future__ import annotations

import re

_LEAD = (
    r"\s*[*_=]{0,3}(?:(?:then|now)\s+)?(?:(?:with|using)\s[\w .'’]{1,40}?,?\s+(?:and\s[\w ]{1,24}?,\s+)?)?"
    r"(?:(?:with|from|on|having)\s+(?:the\s+)?(?:right|wrong)\sside(?:\s(?:of\swork\s)?(?:facing|toward)(?:\syou)?)?,?\s+)?"
    r"(?:(?:starting|beginning|commencing|working)\s[^.;:]{1,70}?,\s+)?"
)
_REFERS = re.compile(
    _LEAD + r"(?:ch(?:ain)?\s\d+[^.;]{0,40}?,?\s+(?:and\s+)?)?(?:work|make|complete|finish|crochet|knit)?\b[^.;:]{0,60}?"
    r"\b(?:same\sas|(?:exactly\s)?(?:as|like)\s(?:for\s|the\s)*(?=[A-Za-z]{3,})|to\s(?:correspond|match)|same\smanner)"
    r"|\s*(?:then\s|now\s)?(?:follow|work|make|repeat)\s(?:the\s)?(?:instructions|directions|pattern|(?:rows?|rnds?|rounds?)\s\d+[^.;:]{0,12})"
    r"\s(?:for|of|from)\s(?:the\s)?[A-Za-z]{3,}",
    re.IGNORECASE,
)
_VERB = re.compile(
    r"(?:" + _LEAD + r"(?:work|make|complete|finish|crochet|attach|join|ch(?:ain)?|follow|repeat(?=\sr)|"
    r"(?:begin|start)(?=\s(?:off\s|exactly\s)?(?:as|like)\b))\b)",
    re.IGNORECASE,
)
_SPREAD = re.compile(
    _LEAD + r"(?:s ?c|d ?c|h ?d ?c|tr ?c?|htr|single crochet|double crochet|half double crochet|treble(?: crochet)?|half treble)\s"
    r"(?:even(?:ly)?\s|all\s|the\sway\s|the\s){0,3}(?:a?round|along|across|down|up)\b",
    re.IGNORECASE,
)
""" "Sc evenly around.", "Double crochet along the edge": an edging told by its stitch alone."""
_STITCH = r"(?:s ?c|d ?c|h ?d ?c|tr ?c?|htr|(?:single|double|half double|treble)(?: crochet)?|crab stitch|reverse s ?c)"
_OF_PIECE = (
    r"(?:(?:the|all|of|your|this|both|outer|outside|entire|whole|complete)\s){0,4}(?:piece|blanket|afghan|square|scarf|shawl|cloth|dishcloth|"
    r"rug|mat|potholder|cushion|bag|edges?|outside|perimeter|border|four\ssides|4\ssides|work)\b"
)
ALL_ROUND = re.compile(
    rf"{_LEAD}(?:(?:to\s(?:finish|edge|end)(?:\soff)?|finally|lastly),?\s|(?:do\snot|don'?t)\s(?:turn|fasten\soff)[.,;]\s|"
    r"(?:re)?(?:join|attach)\s[^.;]{3,50}?,\s|ch(?:ain)?\s\d,?\s){0,3}"
    r"(?:(?:finish|edge|end)\s(?:it\s)?(?:off\s)?(?:with|by\s(?:working|making))\s(?:an?|one|1|two|2|three|3)\s(?:more\s)?"
    rf"(?:rounds?|rnds?|rows?)\sof\s{_STITCH}\b|"
    rf"(?:(?:work|make|crochet)\s)?(?:(?:an?|one|1|two|2)\s(?:rounds?|rnds?|rows?)\s(?:of\s)?)?{_STITCH}\s"
    r"(?:even(?:ly)?\s(?:spaced\s)?|all\s|(?:the\s)?way\s|(?:in\seach\s(?:st|stitch)\s)?){0,3}"
    rf"(?:(?:a?round|along|about)\s{_OF_PIECE}|(?:all\s)?(?:the\s)?(?:way\s)a?round\b|(?:down|up)\s(?:the\s)?(?:first\s|left\s|right\s)?"
    r"(?:side|row ends)\b|across\s(?:the\s)?(?:side|row ends)\b))",
    re.IGNORECASE,
)
"""An edging on a line of its own: "Finish with one round of sc", "Sc around the whole piece", "Don't turn. Sc down the side, …"."""
_SAME = re.compile(r"(?i)\s*[*_=]{0,3}(?:(?:exactly|just|the)\s)?(?:same\sas|like|as\s(?:for|above|before|the)\b)\s")
_SECTION = re.compile(
    r"\s*[*_=]{0,3}[A-Z][a-z]{2,14}(?:\s[a-z]{2,14})?,?\s(?:worked\s)?(?:(?:the\s)?same\sas|(?:exactly\s)?as|like)\s(?:for\s)?(?:the\s)?"
    r"[A-Z][\w ]{2,24}(?:[.,;]|\s(?:for|until|but)\b|$)"
)
"""A section of a piece told by another's: "Ribbing as for Back, Rows 1-28."."""
_CRAFT = re.compile(
    r"(?<![A-Za-z])(?:s ?c|d ?c|h ?d ?c|tr ?c?|htr|dtr|sl ?sts?|slip st\w*|single crochet|double crochet|treble\w*|half double|"
    r"picots?|shells?|(?:ch|chain)\s?-?\d+)(?![A-Za-z])",
    re.IGNORECASE,
)
_YARN_FIRST = re.compile(r"(?:with|using)\s[\w .'’]{1,30}?,\s(?:\d|ch\b|s ?c\b|d ?c\b|work\b)", re.IGNORECASE)
_WORKED = re.compile(
    r"\s*(?:(?:this|the|each|these|both)\s)?(?:(?:edg(?:e|ing)s?|borders?|frills?|trims?|trimmings?|straps?|insertions?)\s)?"
    r"(?:(?:is|are|to\sbe)\s)?(?:worked|made|crocheted|done)\b[^.;:]{0,120}?\.\s",
    re.IGNORECASE,
)
_HANDLED = re.compile(
    r"\s*(?:hold|fold|press|place|put|lay|pin|baste|stuff|mark|cut|crease|starch|stretch|slip|flatten|use|have|"
    r"turn(?=\s[^.;:]{1,50}\b(?:upside|inside|wrong|right|over)\b))\b[^.;:]{2,120}?\.\s+",
    re.IGNORECASE,
)
"""How the piece is held, or what is done with it, before its yarn is joined ("Hold cap with opening up.")."""
_HEAD = re.compile(r"(?:(?<=[.;:])|\A)\s+(?=(?:[A-Z][A-Z ]{3,24}:\s*)?\S)")
_PIECES = re.compile(r"(?i)\b(?:necessary|required)\s(?:number|amount)|\bsew\b|\bembroider|\billustrat|\bpictured\b|\bshown\b")


def refers_to_a_piece(text: str) -> bool:
    """Whether the first sentence tells a piece by another: "Work like the back to the armhole", "In green, 2 rounds same as leaf".

    >>> refers_to_a_piece("With Red, work first 4 rounds same as Head. Fasten off."), refers_to_a_piece("Block as for any fine work.")
    (True, False)
    """
    first = text.strip().split(". ")[0]
    if _SECTION.match(first) and len(first) < 90 and not _PIECES.search(first):
        return True
    match = _REFERS.match(first)
    if match is None or _PIECES.search(first) or not (_VERB.match(first) or (_SAME.match(first) and len(first) < 60)):
        return False
    return len(first) < 260


def goes_along(text: str) -> bool:
    """Whether the text first tells where the work goes on, and then works stitches.

    >>> goes_along("Working along opposite side of chain, join yarn at back, sc in each ch around."), goes_along("Work in ends.")
    (True, False)
    """
    first = text.strip(" -").split(". ")[0]
    along = re.match(
        r"(?i)\s*(?:starting|beginning|working)\s(?:at|along|on|in|across|down|up|around|over|through|into|from|toward)\b"
        r"|\s*(?:a?round|along|across|over)\s(?:an?\s|the\s|each\s)?[^.:;,]{3,40}?(?:[:,]\s|\s(?=(?:work|make)\b))",
        first,
    )
    return along is not None and _CRAFT.search(first) is not None and _PIECES.search(first) is None


def begun_after_lead(text: str) -> int | None:
    """Where a headed piece begins whose first sentences only say where it is worked, or how the piece is held.

    >>> begun_after_lead("To be worked along both sides. Attach thread to first dc, sc in same place."), begun_after_lead("Made flat.")
    (31, None)
    >>> begun_after_lead("Fold in half. Press lightly. Join yarn at corner, sc along 3 sides."), begun_after_lead("Hold up. Cut fringe.")
    (29, None)
    """
    at = 0
    while (lead := _WORKED.match(text, at) or _HANDLED.match(text, at)) is not None and not _CRAFT.search(lead.group()):
        at = lead.end()
    rest = text[at:]
    return at if at and (edging_begun(rest) == 0 or goes_along(rest) or _YARN_FIRST.match(rest)) else None


def edging_begun(text: str) -> int | None:
    """Where, among finishing instructions, the first sentence begins that works stitches ("Attach yarn …, work 1 row of s c around")."""
    starts = [0, *(match.end() for match in _HEAD.finditer(text))]
    for k, at in enumerate(starts):
        sentence = text[at : starts[k + 1] if k + 1 < len(starts) else len(text)]
        head = re.match(r"[A-Z][A-Z ]{3,24}:\s*", sentence)
        body = sentence[head.end() :] if head else sentence
        if (_VERB.match(body) or _SPREAD.match(body)) and _CRAFT.search(body) and not _PIECES.search(body):
            return at
    return None


def in_brackets(text: str, start: int, at: int) -> bool:
    """Whether other words of the line stand in the bracket that is open here: "Filet heart (each square = dc, ch 2)"."""
    opened = text.rfind("(", start, at)
    return opened > text.rfind(")", start, at) and bool(text[opened + 1 : at].strip())
