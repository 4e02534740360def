"""Text → tokens, with one regular expression and one trie of spellings; both run once over the text, so the cost is linear."""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import pairwise

from .characters import plain
from .token import Token
from .vocabulary import Trie, base_trie

_FRACTIONS = {
    "½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875, "⅙": 1 / 6, "⅚": 5 / 6, "⅕": 0.2,  # noqa: E501
}  # fmt: skip

_TOKEN = re.compile(
    r"(?P<o>\d{1,5}(?:st|nd|rd|th)(?![^\W\d_])|[23]d(?![^\W_])(?!\s*[.]?\s*c\b)|\d{1,5}\s?[°º^](?!\w))"
    r"|(?P<n>\d{1,12}(?:\.\d{1,3}(?!\d)|,(?:\d{3}(?![\d,)\]])|\d{1,2}(?=\s?(?:cm|mm|m|in|ins|inch|inches|g|oz|yd|yds|yards?|met(?:er|re)s?|\")(?![A-Za-z]))))?(?:\s?-?\s?[½¼¾⅓⅔⅛⅜⅝⅞⅙⅚⅕]|(?:\s|-)\d{1,2}/\d{1,2}(?!\d)|(?<!/\d)(?<!/\d\d)(?<!/\d\d\d)/\d{1,2}(?![\d/]))?|[½¼¾⅓⅔⅛⅜⅝⅞])"
    r"|(?P<w>[^\W\d_]+(?:'[^\W\d_]+)*)"
    r"|(?P<s>\*+|\++|={1,2}|-+|\.{2,}|[^\w\s]|_)",
    re.IGNORECASE,
)

_STITCH_TOG = re.compile(r"(sc|hdc|dc|htr|tr|dtr|ttr)(tog|together)")
_ABBREVIATIONS = frozenset(
    [
        "ch",
        "chs",
        "st",
        "sts",
        "sc",
        "dc",
        "hdc",
        "tr",
        "trc",
        "sl",
        "rep",
        "rpt",
        "rnd",
        "rnds",
        "rd",
        "rds",
        "sp",
        "sps",
        "lp",
        "lps",
        "beg",
        "grs",
        "grps",
        "inc",
        "dec",
        "tog",
        "sk",
        "d",
        "s",
        "h",
        "c",
        "t",
        "bl",
        "bls",
        "sh",
        "pic",
        "tc",
        "dtr",
        "htr",
        "nxt",
        "foll",
        "alt",
        "cl",
        "pc",
        "rem",
        "approx",
        "yo",
        "bet",
        "tch",
        "fp",
        "bp",
        "cont",
        "patt",
        "pat",
        "patts",
        "ins",
        "in",
        "rs",
        "ws",
        "dbl",
        "rev",
        "p",
        "ps",
        "gr",
        "grp",
        "ss",
        "tbl",
        "m",
        "l",
        "lt",
        "dk",
        "no",
        "nos",
        "ea",
    ]
)


def _number(text: str) -> float | int:
    value = 0.0
    rest = text
    if rest and rest[-1] in _FRACTIONS:
        value += _FRACTIONS[rest[-1]]
        rest = rest[:-1]
    elif "/" in rest:
        whole, _, fraction = rest.replace("-", " ").rpartition(" ")
        top, _, bottom = fraction.partition("/")
        value += int(top) / max(1, int(bottom))
        rest = whole
    rest = rest.strip(" \n-").replace(",", ".")
    if rest:
        value += float(rest)
    return int(value) if value == int(value) else value


def _sign(text: str, tight: bool) -> tuple[str, str]:
    first = text[0]
    if first == "*":
        return "*", text
    if first == "+":
        return "*", "+" * 1
    if first == "-":
        return "-", "tight" if tight and len(text) == 1 else "loose"
    if first in ".!":
        return ".", text  # a cry ends a sentence like a full stop
    if first == "&":
        return "and", text
    return first, text


def tokens(text: str, start: int, end: int, trie: Trie) -> list[Token]:
    """The tokens of `text[start:end]` (already made `plain`), ended by a token of kind "" (the end)."""
    out: list[Token] = []
    add = out.append
    last_end = start
    words = trie
    for match in _TOKEN.finditer(text, start, end):
        group = match.lastgroup
        a, b = match.span()
        gap = a > last_end
        piece = text[a:b]
        last_end = b
        if group == "w":
            low = piece.lower()
            if low.endswith("'s") and low not in words:
                low = low[:-2] + ("s" if low[:-2] + "s" in words else "")
            if low.endswith(_GLUED_ENDS) and low not in words and (glued := _GLUED.fullmatch(low)):  # "hdcdec", "scblo", "BLOhdc"
                cut = a + glued.end(1)
                add(Token("w", glued[1], a, cut, text[a:cut], gap))
                a, low, piece, gap = cut, glued[2], text[cut:b], False
            add(Token("w", low, a, b, piece, gap))
        elif group == "n":
            add(Token("n", _number(piece), a, b, piece, gap))
        elif group == "o":
            if piece[-1] in "°º^":
                add(Token("o", int(piece[:-1]), a, b, piece, gap))
            else:
                number = int(re.match(r"\d+", piece)[0])  # type: ignore[index]
                if piece[-2:].lower() == "st" and (number % 10 != 1 or number % 100 == 11):
                    cut = b - 2
                    add(Token("n", number, a, cut, text[a:cut], gap))
                    add(Token("w", "st", cut, b, "st", False))
                else:
                    add(Token("o", number, a, b, piece, gap))
        else:
            if (
                piece == "."
                and not gap
                and out
                and (out[-1].kind == "o" or (out[-1].kind == "w" and (out[-1].val in _ABBREVIATIONS or _told_short(out[-1].val, words))))
                and (_goes_on(text, b, end) or _shade(out[-1].val) or (out[-1].val in ("rep", "rpt") and _ROW_NAMED.match(text, b, end)))
                and not ((out[-1].val not in _NUMBERED or _is_place(out)) and _LONE_NUMBER.match(text, b, end))
                and not (_is_place(out) and _WORK_NEXT.match(text, b, end))
            ):
                continue
            if piece in "<>" and (bracket := _angle(text, a, piece)) is not None:
                add(Token(bracket, bracket, a, b, piece, gap))
                continue
            tight = not gap and b < end and not text[b].isspace()
            kind, value = _sign(piece, tight)
            add(Token(kind, value, a, b, piece, gap))
    out = _joined_words(out, trie)
    out = [_length(token, after) for token, after in pairwise([*out, END])] if "long" in text[start:end].lower() else out
    if "hundred" in text[start:end].lower() and any(token.text.lower() == "hundred" for token in out):
        out = _hundreds(out)
    if "corner-" in text[start:end].lower() or _ORDINAL_HYPHEN.search(text, start, end):
        out = [one for before, one, after in zip([END, *out[:-1]], out, [*out[1:], END], strict=True) if not _joins(before, one, after)]
    if "-" in text[start:end]:
        out = [one for before, one, after in zip([END, *out[:-1]], out, [*out[1:], END], strict=True) if not _to_loop(before, one, after)]
    if "corner" in text[start:end].lower():
        out = _every_corner(out)
    add = out.append
    add(Token("", None, end, end, "", True))
    return out


END = Token("", None, 0, 0, "", True)


_ORDINAL_HYPHEN = re.compile(r"\d(?:st|nd|rd|th|d)-[a-z]", re.IGNORECASE)


def _joins(before: Token, sign: Token, after: Token) -> bool:
    """The hyphen of "corner-sp", "corner-space", "4th-ch", "2nd-tr": as in two words."""
    if sign.kind != "-" or sign.val != "tight":
        return False
    return (before.kind == "corner" and after.kind in ("sp", "lp", "noun", "ch", "group")) or (
        before.kind == "o" and after.kind in ("ch", "st", "noun", "sp", "lp")
    )


def _to_loop(before: Token, sign: Token, after: Token) -> bool:
    """The hyphen of "sc-blo", "hdc-BLO"."""
    tied = sign.kind == "-" and sign.val == "tight" and before.kind == "st" and not sign.gap
    return tied and after.kind == "loop" and after.text.lower() in ("blo", "flo", "bl", "fl", "tbl")


def _every_corner(found: list[Token]) -> list[Token]:
    """ "(In) all four corners", "each of the 4 corners", "the corner sts": each corner."""
    out: list[Token] = []
    k = 0
    while k < len(found):
        token = found[k]
        last = _all_corners_end(found, k)
        if not last:
            out.append(token)
            k += 1
            continue
        if token.kind == "total":  # "in all" told of the corners
            out.append(Token("in", "in", token.start, token.start + 2, token.text[:2], token.gap))
            token = Token("all", "all", token.end - 3, token.end, token.text[-3:], True)
        told = next((one.val for one in found[k:last] if one.kind == "n" and isinstance(one.val, int)), 4)
        out.append(Token("each", "each" if told == 4 else told, token.start, found[last - 1].end, "each", token.gap))
        k = last
    return out


def _all_corners_end(found: list[Token], k: int) -> int:
    """Where the corner stands that the words at `k` tell of as one of all; 0 where they tell no such thing."""
    kinds = [token.kind for token in found[k : k + 5]]
    at = 1
    each_of = kinds[0] == "each" and "of" in str(found[k].val).split()  # "each of the" is one token
    if kinds[0] == "the" and kinds[1:3] == ["corner", "noun"] and found[k + 2].text.lower() in ("sts", "stitches"):
        return k + 1
    if not each_of and found[k].val not in ("all", "in all"):
        return 0
    at += kinds[at : at + 1] == ["the"]
    if kinds[at : at + 2] == ["n", "corner"] and found[k + at].val in range(3, 9):
        return k + at + 1
    return 0


def _length(token: Token, after: Token) -> Token:
    """ "Long side", "the long edges", "long end": how long it is, and no stitch of that name."""
    long = token.kind == "st" and token.text.lower() == "long" and after.kind in ("side", "end", "ends")
    return Token("w", "long", token.start, token.end, token.text, token.gap) if long else token


def _hundreds(found: list[Token]) -> list[Token]:
    """ "One hundred and twenty", "a hundred": a number in words is one number."""
    out: list[Token] = []
    i, n = 0, len(found)
    while i < n:
        token = found[i]
        spelled = token.kind == "a" or (token.kind == "n" and token.text.isalpha())
        if not spelled or i + 1 >= n or found[i + 1].text.lower() != "hundred":
            out.append(token)
            i += 1
            continue
        value, last, k = 100 * (token.val if isinstance(token.val, int) else 1), found[i + 1], i + 2
        k += k + 1 < n and found[k].kind == "and" and found[k + 1].kind == "n"
        if k < n and found[k].kind == "n" and found[k].text[:1].isalpha() and isinstance(found[k].val, int) and found[k].val < 100:
            value, last = value + found[k].val, found[k]
            k += 1
        else:
            k = i + 2
        out.append(Token("n", value, token.start, last.end, token.text, token.gap))
        i = k
    return out


def _angle(text: str, at: int, sign: str) -> str | None:
    """ "<36 sts>": an angle bracket round a number is a bracket like the others."""
    if sign == "<":
        return "(" if _ANGLED.match(text, at) else None
    opened = text.rfind("<", max(0, at - 248), at)
    return ")" if opened >= 0 and _ANGLED.match(text, opened) else None


_NUMBERED = frozenset("row rows rnd rnds rd rds no nos ch chs rep rpt in ins m yo".split())  # noqa: SIM905
"""Short forms that a number belongs to, a full stop between them or none."""
_LONE_NUMBER = re.compile(r"\s+\d{1,4}\.?\s*(?:\n|$)")
"""What ends a row behind "inc.", "sc2tog." or "sts." is its count ("…, 28 sc, inc. 32"), not so many of them."""
_NAMES_PLACE = frozenset("each ea every next nxt last same in rem remaining the first second third fourth fifth".split())  # noqa: SIM905
_WORK_NEXT = re.compile(r"\s+\d{1,3}\s?(?:sc|hdc|dc|htr|tr|dtr|trtr|ss|sl st|inc|dec)\b(?!-)", re.IGNORECASE)
"""The next sentence's first stitches: "… at the base of the ch. 1 tr into next st" has no chain of one."""


def _is_place(out: list[Token]) -> bool:
    """The short word just read is where stitches go, not what is made: "in ea ch. 12" states twelve, "…, turn, ch. 3" chains three."""
    named = len(out) > 1 and (out[-2].val in _NAMES_PLACE or out[-2].kind == "o")
    return named and out[-1].val in ("ch", "sc", "hdc", "dc", "tr", "sp", "lp")


_GLUED = re.compile(r"((?:sc|hdc|dc|htr|tr)(?=inc|dec|blo|flo)|(?:blo|flo)(?=[hsdt]))(inc|dec|blo|flo|sc|hdc|dc|htr|tr)")
_GLUED_ENDS = ("inc", "dec", "blo", "flo", "c", "tr")


_ANGLED = re.compile(r"<(?:\s?\d[^<>\n]{0,28}|[^<>\n]{0,120}\b(?:sc|hdc|dc|tr|ch|sts?)\b[^<>\n]{0,120})>")


_COUNT_LAST = re.compile(
    r"\d{1,4} ?(?:\(\d{1,4}(?:[,/:-]\s?\d{1,4}){0,10}\) ?)?"
    r"(?i:sc|hdc|dc|tr|htr|sts?|stitches|"
    r"ch-\d{1,2} (?:sps?|lps?|loops?|spaces?)|(?:two|three|four|five|\d)-?ch(?:ain)? (?:sps?|lps?|loops?|spaces?)|"
    r"lps?|loops?|shells?|eyelets?|holes|spaces|petals|points|scallops|clusters|groups|fans|v-?sts|puffs|popcorns|"
    r"(?:v|puff|bean|star|bobble|popcorn|cross|crossed|post) (?:sts|stitches)|"
    r"squares|blocks?|tiles?|bobbles|picots|triangles|ridges)\b"
    r"(?: (?:total|in total|in all|made|altogether))?"
    r"(?:(?:,\s(?:and\s)?|\s(?:&|and|\+)\s)(?:\d{1,4}|one|two|three|four|five|six|eight|ten|twelve)\s?(?:\d{1,2}-?\s?ch|ch-\d{1,2})?\s?[a-z]{2,12}(?:[\s-][a-z]{2,9})?"
    r"(?=[,.]|\s*(?:\n|$))){0,4}"
    r"(?:\.?\s*(?:\n|$)|\.?\s(?=[A-Z])|\.(?=[A-Z])|\sand\s\d{2}|"
    r"(?i:,?\s(?:not\s)?(?:counting|incl(?:uding|\.)?)\b)|\s-\s[A-Za-z'])"
)


def _told_short(word: object, words: Trie) -> bool:
    """A letter by itself that the pattern has told to stand for a stitch ("T. signifies treble")."""
    return isinstance(word, str) and len(word) == 1 and any(not key and kind == "st" for key, kind, _ in words.get(word, ()))


def _shade(word: object) -> bool:
    return word in ("lt", "dk")


def _goes_on(text: str, at: int, end: int) -> bool:
    """After the full stop of an abbreviation the sentence goes on: a small letter, a digit or a comma comes next."""
    while at < end and text[at].isspace():
        at += 1
    if _COUNT_LAST.match(text, at, end):
        return False  # "… in each rem ch. 46 dc.": a count of its own
    if text[at : at + 1] == "-" and text[at + 1 : at + 2] == " ":
        return False  # "top of 3ch. - 24 sts"
    if text[at : at + 1] == "(" and text[at + 1 : at + 2].islower():
        return True  # "3 ch. (for 1st tr.)"
    return at < end and (text[at].islower() or text[at].isdigit() or text[at] in ",;:.)]-=")


_BEFORE_A_NAME = frozenset(("of", "from", "as", "rep", "for", "after", "until", "than", "same", "in"))


def _names_a_round(token: Token, out: list[Token]) -> bool:
    """Whether "round" before a number is one of the rows and no "all round": a word that takes a name stands before it, or a capital."""
    before = out[-1].kind if out else ""
    before = out[-2].kind if before in ("the", "idle") and len(out) > 1 else before
    return before in _BEFORE_A_NAME or (token.text[:1].isupper() and before not in ("", ".", "all"))


def _row_named(token: Token, out: list[Token]) -> bool:
    """ "Same as R 2", "rep R 3 and R 4": a row's short name apart from its number, behind a word that takes one."""
    before = out[-1].kind if out else ""
    again = before in ("and", "-") and any(one.kind == "row" for one in out[-4:])
    return token.text == "R" and (before in _BEFORE_A_NAME or again)


_ROW_NAMED = re.compile(r"(?i)\s{1,3}(?:from\b|rows?\b|rnds?\b|rounds?\b)")
"""What "Rep." goes on to, though the next word begins with a capital."""


def _every(out: list[Token]) -> bool:
    """ "Every third loop" counts loops; the third loop of a stitch is another thing."""
    return bool(out) and out[-1].kind == "each"


def _joined_words(found: list[Token], trie: Trie) -> list[Token]:
    """Words looked up in the trie, the longest spelling first; unknown ones stay "w"."""
    out: list[Token] = []
    i, n = 0, len(found)
    while i < n:
        token = found[i]
        if token.kind != "w":
            if token.kind == "'" and out and out[-1].kind == "n" and i + 1 < n and found[i + 1].val == "s" and not found[i + 1].gap:
                i += 2  # "19 ch-1's"
                continue
            if (
                token.kind == "o"
                and i + 1 < n
                and found[i + 1].kind == "w"
                and found[i + 1].val in ("loop", "lp", "lps", "loops")
                and not _every(out)
            ):
                after = [one.val for one in found[i + 2 : i + 4]]
                of = (
                    after[:1] == ["of"]
                    and after[1:]
                    and after[1] not in ("each", "every", "next", "the", "all", "sc", "dc", "hdc", "st", "same", "sts")
                )
                if token.val == 3 and not of and after[:1] not in (["from"], ["off"]):
                    token = Token("loop", "third", token.start, found[i + 1].end, token.text, token.gap)
                    i += 1
            out.append(token)
            i += 1
            continue
        if "tog" in token.val and (glued := _STITCH_TOG.fullmatch(token.val)) is not None and token.val not in trie:
            cut = token.end - len(glued[2])  # "2trtog" of UK patterns: "2 tr tog"
            out.append(Token("st", glued[1], token.start, cut, token.text[: len(glued[1])], token.gap))
            out.append(Token("tog", "tog", cut, token.end, token.text[len(glued[1]) :], False))
            i += 1
            continue
        if token.val in ("round", "rounds") and i + 1 < n and found[i + 1].kind == "n" and _names_a_round(token, out):
            out.append(Token("rnd", token.val, token.start, token.end, token.text, token.gap))  # "the sc of Round 1"
            i += 1
            continue
        if token.val == "r" and i + 1 < n and found[i + 1].kind == "n" and (not found[i + 1].gap or _row_named(token, out)):
            out.append(Token("row", "row", token.start, token.end, token.text, token.gap))  # "R2"
            i += 1
            continue
        if token.val == "narrow" and i + 1 < n and (found[i + 1].kind == "n" or found[i + 1].val in _NARROWS):
            out.append(Token("dec", "narrow", token.start, token.end, token.text, token.gap))  # "narrow 1 at each end"; not "narrow ribbon"
            i += 1
            continue
        small = token.text in _OF_THEIR_OWN and not _numbered_letter(found, i)  # "x6" where the pattern calls single crochet X
        for rest, kind, value in (base_trie() if small else trie).get(token.val, ()):
            if value == "stitch in" and out and out[-1].kind in ("n", "a"):
                continue  # "one stitch in each chain": so many of them
            if (value == "third" and _every(out)) or (kind == "tch" and token.val == "first" and _is_space(found, i + 1 + len(rest))):
                continue
            j = i + 1
            for word in rest:
                if j < n and (
                    (found[j].kind == "-" and found[j].val == "tight")
                    or (found[j].kind == "/" and not found[j].gap and len(word) == 1)
                    or _initials(found, j, word)
                ):
                    j += 1
                if j < n and ((found[j].kind == "w" and found[j].val == word) or _digits(found, j, word)):
                    j += 1
                else:
                    break
            else:
                last = found[j - 1]
                if kind == "st" and out and out[-1].text.lower() == "plain" and out[-1].kind == "st":
                    plain = out.pop()  # "in plain double crochet": a plain one of these
                    out.append(Token("idle", "plain", plain.start, plain.end, plain.text, plain.gap))
                out.append(Token(kind, value, token.start, last.end, token.text, token.gap))
                i = j
                break
        else:
            if token.text == "t" and out and out[-1].kind in _BEFORE_TREBLE:
                token = Token("st", "tr", token.start, token.end, token.text, token.gap)  # "3 t under each 3 ch": a treble of old columns
            out.append(token)
            i += 1
    return out


def _is_space(found: list[Token], k: int) -> bool:
    """ "In the first chain-1 space", "first chain space": the first of the spaces, and no chain that begins the row."""
    if k + 1 < len(found) and found[k].kind == "-" and not found[k].gap:
        return found[k + 1].kind == "n"
    return k < len(found) and found[k].val in ("space", "sp", "loop", "lp")


_BEFORE_TREBLE = frozenset(("n", "o", "each", "next", "last"))
_NARROWS = frozenset("one two three four once twice at in every each both by as like".split())  # noqa: SIM905


def _initials(found: list[Token], j: int, word: str) -> bool:
    """The full stop inside "F.O.": one letter on either side, with no blank between."""
    letters = j + 1 < len(found) and len(word) == 1 and len(found[j - 1].text) == 1
    return letters and found[j].kind == "." and not found[j].gap and not found[j + 1].gap


def _numbered_letter(found: list[Token], i: int) -> bool:
    """ "6x", "1v", "2a": a letter tied to the number before it, and to none behind it, may be a stitch of the pattern's own."""
    return i > 0 and found[i - 1].kind == "n" and not found[i].gap and found[i + 1 : i + 2] != [] and found[i + 1].kind != "n"


_OF_THEIR_OWN = frozenset("aiomvwx")
"""Small letters that mean something by themselves, whatever the pattern calls by the capital."""


def _digits(found: list[Token], j: int, word: str) -> bool:
    """The number inside a name of the pattern's own: the 4 of "C4F"."""
    return found[j].kind == "n" and word.isdigit() and found[j].text == word and not (len(found[j - 1].text) == 1 and found[j].gap)


@lru_cache(maxsize=64)
def words_of(text: str) -> frozenset[str]:
    """All words of a text in small letters (for evidence, not for grammar)."""
    return frozenset(re.findall(r"[^\W\d_]+", plain(text).lower()))
