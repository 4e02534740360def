"""The headings of a text's parts: lines in capitals, in bold, in title case, and names that open the line of a first row."""

from __future__ import annotations

import re
from bisect import bisect_left
from dataclasses import dataclass

from ..size_sentences import told_by_size
from ..sizes_named import SIZED_ROW
from . import lines_told as L
from .colour_lines import NOTED, tells_yarn_only
from .gauged import measures
from .instructing import refers_to_a_piece
from .labels import Label
from .small_heads import small_head
from .splitting import DANGLING, FOUNDED, NOT_A_PIECE, SIDE_OF_A_PIECE
from .typed import writes_large

_NUMBERED_ROW = re.compile(r"(?i)[*_]{0,3}(?:row|rnd|round)\s\d{1,4}\s?[:.]")
"""The commonest line of all, which heads no part."""
_ANY_HEAD = re.compile(r"[ \t]{0,8}[*_=]{0,3}[A-Z\d]")
"""How every line begins that opens with its part's name."""
_DOES = re.compile(r"(?i)(?:put|stuff|sew|cut|close|weave|insert|fill|glue|hide|embroider)\s(?:the|it|a|in|up|on|some|both|all)\b")
_NO_NAME = re.compile(
    r"(?i)(?:block|tile|increas|decreas|row|rnd|round|note|tip|step|next|start|first|begin|foundation|set|(?:every|each|all)\s(?:rows?|rnds?|rounds?))\b"
)
_ONLY_ROW = re.compile(
    r"(?i)(?:(?:THE|NEXT|LAST|FINAL|FOLLOWING|FOLL|CLOSING|PRECEDING|SAME|FIRST|SECOND|THIRD|FOURTH|FIFTH|SIXTH|SEVENTH|EIGHTH|NINTH|TENTH)\s){0,2}"
    r"(?:(?:\d+|TWO|THREE|FOUR|FIVE|SIX)\s)?(?:ROWS?|ROUNDS?|RNDS?)"
)
"""The label of a row in capitals ("FOLLOWING ROW.--"), which names no piece."""
_SENTENCE = re.compile(
    r"(?i)[^\n]*\b(?:is|are|was|were|uses?|used|counts?|has|have|does|written|worked)\b[^\n]*\s[^\n]*[.!]$|"
    r"\(?(?:written\sin\s|all\s)?(?:US|UK|American|British|English)\s(?:\w+\s)?(?:terms|terminology)\b[^\n]*$"
)
"""A sentence in bold or slanting letters, and the terms told in them, head no part: "*UK terms are used throughout.*"."""
_NO_STITCH = re.compile(r"(?i)\b(?:(?:rows?|rounds?|stitch(?:es)?|pattern|inc|join)\b|(?:plain|long|shell|treble)\s(?=[a-z]))")
"""Words of the craft that stand in the name of a piece ("Plain Square", "Shell Edging"): a heading may have them."""
_MANNER = re.compile(
    r"(?i)(?:\s\((?:worked|made|crocheted|along|from|on|in|into)\s[^()\n]{2,80}\)|"
    r"(?:[:,]|\s-)\s(?:worked|crocheted|from|along)\s[^()\n.,;:]{2,80})(?=[:.]?$)"
)
"""How or where a piece is worked, behind its name: "Brim (worked in the free loops of the beginning chain)", "Band, from the edge"."""
_DIRECTIONS_FOR = re.compile(r"(?i)(?:directions|instructions)\sfor\s(?:making\s)?(?:(?:the|a|an|one|each)\s)?(?=[a-z]{3})")
"""What stands before a piece's name in some headings ("DIRECTIONS FOR HEXAGON")."""


_SIZE_OF_A_PIECE = re.compile(r"(?i)(?:the\s)?(?:size\s)?(?:(?:extra\s)?(?:small|large)|medium)(?:\s(?:size|one|version))?")
""" "Large: As above up to round 3": a second size of the piece, told by the first."""
_FOUNDED_WITHIN = 110
"""Characters behind a name in small letters within which its piece must be founded."""


_NOT_THE_FIRST = re.compile(r"(?i)(?:second|third|fourth|other|2n?d|3r?d|4th)\s")
_AS_THE_FIRST = re.compile(
    r"(?i)\s*(?:(?:work|make|complete)\b[^.;:]{0,60}?\s)?(?:same\sas|as\sfor|as|like|of)\s(?:for\s|the\s|in\s){0,2}(?:1st|first)\s"
)
"""A piece told by the first of its kind: "SECOND WHEEL: Work same as First Wheel through Rnd 1."."""
_SECOND_HEAD = re.compile(r"\s*(?:Front|Back|Right|Left|First|Yoke|Top|Bottom)(?:\s[a-z]{2,10})?:\s(?=[A-Z])")
"""A part of the piece named behind its name: "BODICE. Front: Attach thread …"."""


@dataclass(slots=True)
class Mark:
    """A heading or the label of a row, where it stands."""

    at: int
    end: int
    label: Label | None = None
    name: str = ""
    kind: str = ""
    """ "part", "aside", "special", "finishing", "sized"."""
    until: int = 0
    """Where the words of one size end."""
    inline: bool = False
    heading: str = ""


DEFINED = re.compile(
    r"(?i)(?<=[.;)])\s{1,3}(?P<lead>(?:to\s(?:make|work)\s(?:(?:an?|the)\s)?|for\s(?:(?:an?|the|each)\s)?|(?:an?|the|each)\s)?)"
    r"(?P<name>(?:[a-z\d-]{1,12}\s){0,2}(?:shell|fan|cluster|cl|puff|popcorn|pc|bobble|v[- ]?st|picot|cable|cross)"
    r"(?:\sst(?:itch)?)?(?:\s?\([a-z -]{1,16}\))?)(?:\s?[:=]|\.?\s?-{1,2})\s{0,2}(?=[(\[*]?\s?(?:[a-z]|\d))"
)
"""What a stitch is, told in the middle of a paragraph: "Ch 26. Popcorn: 4 dc in same st, drop loop, …"."""
_ASKS_ON = re.compile(r"(?i)[.;]\s+(?:rep(?:eat)?|cont(?:inue)?|turn|join|next|work\seven)\b")
"""Words behind a stitch's explanation by which the row itself goes on."""


class Headings:
    """Finds the headings in one text."""

    def __init__(self, text: str, start: int, wrapped: bool) -> None:
        self.text = text
        self.start = start
        self.wrapped = wrapped
        self.large = writes_large(text[start:])
        """The writer uses nothing but capitals: they head no part."""
        self.corners = L.corner_to_corner(text)
        """The piece is worked from corner to corner, in blocks."""
        heads = [match for match in L.NUMBERED_HEAD.finditer(text, start) if match[0].lstrip()[:1] == "("]
        self.numbered = len(heads) >= 2 and heads[0]["nth"].lower() in ("1", "a")
        """Its pieces are headed by numbers in brackets."""

    def run(self, labels: list[int]) -> list[Mark]:
        """All headings, in no order; rows' labels begin at `labels`."""
        starts = sorted(labels)
        found: list[Mark] = []
        place = self.start
        lines = self.text[self.start :].split("\n")
        blank_before = True
        for k, raw in enumerate(lines):
            line = raw.strip()
            at = place + (len(raw) - len(raw.lstrip()))
            first = bisect_left(starts, at)
            label = starts[first] if first < len(starts) and starts[first] < place + len(raw) else None
            if line and label is None:
                mark = self._heading(raw, line, at, place, lines, k, blank_before)
                if mark is not None:
                    found.append(mark)
            elif label is not None and label > at:
                mark = self._inline(raw, at, place)
                if mark is not None and mark.end <= label:
                    found.append(mark)
            blank_before = not line
            place += len(raw) + 1
        found += self._headed_in_text({mark.at for mark in found} | set(labels))
        return found + self._defined_in_text(sorted({*labels, *(mark.at for mark in found)}))

    def _defined_in_text(self, known: list[int]) -> list[Mark]:
        """ "Ch 26. Popcorn: 4 dc in same st, … Row 1: …": what a stitch is, told in mid-paragraph, up to the label that ends it."""
        found: list[Mark] = []
        for match in DEFINED.finditer(self.text, self.start):
            at, begun = match.span("name")[0], match.end()
            k = bisect_left(known, at)
            stop = known[k] if k < len(known) else len(self.text)
            told = self.text[begun:stop].rstrip()
            over = "\n\n" if self.wrapped else "\n"
            if k == len(known) or at in known or over in told or not L.CRAFT_WORDS.search(told) or _ASKS_ON.search(told):
                continue
            found.append(Mark(match.start("lead"), at, name=match["name"], kind="special"))
        return found

    def _headed_in_text(self, known: set[int]) -> list[Mark]:
        """ "... Fasten off. CORD-With double thread make a chain": a piece with a chain of its own, headed in mid-paragraph."""
        found: list[Mark] = []
        for match in L.HEAD_IN_TEXT.finditer(self.text, self.start):
            at = match.start("name")
            begun = L.BEGINS.match(self.text, match.end()) or L.FOUNDS.match(self.text, match.end())
            name = match["name"]
            begun = begun or (_NOT_THE_FIRST.match(name) and _AS_THE_FIRST.match(self.text, match.end()))
            if at in known or not begun or NOT_A_PIECE.match(name) or _NO_NAME.match(name) or _ONLY_ROW.fullmatch(name):
                continue
            found.append(self._named(name, at, match.end(), inline=True, heading=match[0].strip()))
        for match in L.SMALL_IN_TEXT.finditer(self.text, self.start):
            name, rest = match["name"], self.text[match.end() : match.end() + _FOUNDED_WITHIN]
            founds = (L.BEGINS.match(rest) or L.FOUNDS.match(rest)) and FOUNDED.search(rest) and not L.COUNTS.match(rest)
            if founds and match.start("name") not in known and not self._names_no_piece(name):
                found.append(self._named(name, match.start("name"), match.end(), inline=True, heading=match[0].strip()))
        return found

    def _names_no_piece(self, name: str) -> bool:
        """Whether words before a full stop or colon are an instruction, a fact or a remark, and no name."""
        bare = _NO_STITCH.sub("", name).strip()
        told = not bare or L.CRAFT_START.match(bare) or L.CRAFT_WORDS.search(bare) or L.FACT.match(name + ":")
        return bool(told or NOT_A_PIECE.match(name) or _NO_NAME.match(name) or _DOES.match(name))

    def _heading(self, raw: str, line: str, at: int, place: int, lines: list[str], k: int, blank: bool) -> Mark | None:
        if tells_yarn_only(line):
            return None
        end = place + len(raw)
        if line.startswith("#"):
            return self._named(line.lstrip("# ").strip("*_ #"), at, end, md=True)
        bold = re.fullmatch(r"(\*\*|__|==?|\*|_)(.{2,60}?)\1:?(?:\s?\((?!make)[a-z][^()\d]{2,60}\))?", line)
        if (
            bold
            and not _SENTENCE.match(bold[2])
            and not re.search(r"[.,;]\s", bold[2])
            and not (L.CRAFT_START.match(bold[2]) and L.CRAFT_WORDS.search(bold[2]) and re.search(r"\d", bold[2]))
        ):
            return self._named(bold[2].strip(" :"), at, end)
        if self.numbered and (match := L.NUMBERED_HEAD.match(self.text, place)) and not L.CRAFT_START.match(match["name"]):
            inside = bool(self.text[match.end() : end].strip())
            return self._named(match["name"] + (match["make"] or ""), at, match.end(), inline=inside, heading=match[0].strip())
        inline = self._inline(raw, at, place)
        if inline is not None:
            return None if inline.kind == "none" else inline
        bare = line.strip("*_= ").rstrip(":")
        named = re.sub(r"(?<=\w)\s\([^()\n]{1,40}\)$", "", bare)  # "HEAD (grey, made in one)"
        named = re.sub(r"\s(?:x\s?\d{1,2}|\d{1,2}\s?x)(?=\W*$)", "", named)  # "EARS x2"
        letters = [ch for ch in named if ch.isalpha()]
        if (
            len(letters) >= 3
            and named.upper() == named
            and not re.search(r"[.!?]\s+\w", named)
            and len(bare) <= 60
            and not re.search(r"\d{2,}|[,;].*[,;]", bare)
            and not line.endswith(",")
            and not (re.search(r"\d", bare) and L.CRAFT_START.match(bare))  # "CH 4, JOIN TO FORM RING" of a page in capitals
            and not (self.large and (not blank or (L.CRAFT_START.match(bare) and L.CRAFT_WORDS.search(bare))))
        ):
            return self._named(bare.rstrip("."), at, end)
        if self._titled(line, bare, lines, k, blank):
            return self._named(bare, at, end)
        return None

    def _titled(self, line: str, bare: str, lines: list[str], k: int, blank: bool) -> bool:
        """A short line in title case, with no stitch in it, before a row or a chain."""
        line, bare = _MANNER.sub("", line), _MANNER.sub("", bare)
        if (
            len(bare) > 48
            or not bare[:1].isupper()
            or re.search(r"[.!?]\s|[!?]$", bare)
            or (
                line.endswith((".", ",", ";", ")")) and not re.search(r"\((?:make|both|x)?\s?\w*\)$", bare, re.I) and not NOTED.search(bare)
            )
        ):
            return False
        if L.DEFINITION.match(line) or _DOES.match(bare) or _SENTENCE.match(bare):
            return False  # "V - increase" among the abbreviations; "Put the stuffing in"
        bare = NOTED.sub("", bare)
        words = bare.split()
        if len(words) > 6 or re.search(r"\d{2,}|\"", bare) or (self.wrapped and not blank):
            return False
        if L.CRAFT_WORDS.search(_NO_STITCH.sub("", bare)) or (
            L.FACT.match(line) and not L.ASIDE_SECTION.fullmatch(bare) and not L.SPECIAL_SECTION.fullmatch(bare)
        ):
            return False
        following = next((other.strip() for other in lines[k + 1 : k + 4] if other.strip()), "")
        opens = re.match(
            r"[*_=]{0,3}(?:row|round|rnd|r\d|r \d|\d+(?:st|nd|rd|th|[.):])|1 row|foundation|"
            r"for\s+sizes?\b|ch(?:ain)?\b|with [\w ]+,? ch|magic|mr\b|base|"
            r"(?:(?:begin|start)(?:ing)?\s)?(?:with|w|using|in)\s[^\n,.]{1,40}[,.]?\s(?:(?:ch(?:ain)?|make|f[shd]+c)\s\d|magic\b|mr\b|\d{1,2}\s?(?:sc|hdc|dc|tr)\sin\b|make\san?\s(?:magic|adjustable|ring|sl))|"
            r"(?:re)?join\s|attach\s|\d+\s(?:f[shd]+c|ch)\b|f[shd]+c\s\d|with\s(?:the\s)?(?:rs|ws|right\sside|wrong\sside)\b|"
            r"turn(?:\s[^\n.,;]{1,40})?\s(?:to|and)\swork\s|(?:[a-z][\w'-]{1,14}\s){1,3}(?:row|round|rnd)\s?\d{1,3}\s?[:.-]|"
            r"make\s\d+\s(?:\([\d,: ]+\)\s)?ch|"
            r"(?:work|make|same|as|follow)\b[^\n]{0,30}\b(?:as|for|like|of|above)\b|(?:begin|start)\s(?:off\s|exactly\s)?(?:as|like)\s|"
            r"repeat\s(?:rows?|rnds?|rounds?)\s\d[^\n.,;]{0,12}\s(?:of|from|as)\s|"
            r"working\s(?:in|into|along|around|on|across)\b)",
            following,
            re.IGNORECASE,
        )
        return bool(opens or SIDE_OF_A_PIECE.match(bare)) or bool(
            L.ASIDE_SECTION.fullmatch(bare) or L.SPECIAL_SECTION.fullmatch(bare) or L.FINISHING.fullmatch(bare)
        )

    def _inline(self, raw: str, at: int, place: int) -> Mark | None:
        """ "BACK: Ch 51 …", "WHITE MOTIF (Make 58) ... Work as", "Handles: Chain 13"."""
        if (small := small_head(self.text, place, place + len(raw))) is not None:
            name = (small["name"] + small["made"]).strip()
            return self._named(name, at, small.end(), inline=small.end() < place + len(raw.rstrip()), heading=small[0].strip())
        if (
            _NUMBERED_ROW.match(raw)
            or not (_ANY_HEAD.match(raw) or L.EDGE_HEAD.match(raw))
            or L.DEFINITION.match(raw)
            or L.short_form_told(raw)
        ):
            return None
        if (self.corners and L.TILE_TOLD.match(raw)) or SIZED_ROW.match(raw):
            return None
        match = L.INLINE_HEAD.match(self.text, place)
        if match and match.end() <= place + len(raw) + 1:
            name = match["name"].strip(" .")
            rest = self.text[match.end() : place + len(raw)].strip(" .")
            if match["end"] == "-" and rest and rest.upper() == rest and not any(ch.isdigit() for ch in rest):
                return None  # "THREE-CORNERED SHAWL"
            if DANGLING.search(self.text[max(0, place - 40) : place]):
                return None  # "NEXT ROW: SHAPE", broken over the line's end before "NECKLINE:"
            if _ONLY_ROW.fullmatch(name) or re.match(
                r"(?:NOTE|NB|TIP|SC|DC|HDC|TR|CH|RS|WS|US|UK|MC|CC|RND|ROW|R|ROUND|ALL SIZES)\b|"
                r"(?:JOIN|TURN|SK|SKIP|MISS|REP|REPEAT|(?:FASTEN|FINISH|END) OFF|AROUND|ACROSS|TOTAL|STS?|SPS?|LOOPS?|TOG|IN|SL ST|"
                r"TWICE|ONCE|MORE|TIMES)$",
                name,
            ):
                return None
            return self._named(name, at, match.end(), inline=True, heading=match[0])
        if (stopped := self._stopped(place, raw)) is not None:
            return stopped
        match = L.SMALL_HEAD.match(self.text, place)
        if match and (L.CRAFT_START.match(rest := self.text[match.end() : place + len(raw)].strip()) or L.WORK_START.match(rest)):
            return self._named(match["name"], at, match.end(), inline=True, heading=match[0])
        match = L.BOLD_HEAD.match(self.text, place)
        if match and match.end() <= place + len(raw) and L.CRAFT_START.match(self.text[match.end() : place + len(raw)]):
            fact = L.FACT.match(match["name"]) or re.match(
                r"(?i)(?:row|round|rnd|r|note|tip|step|next|special|block|tile)s?\b", match["name"]
            )
            return None if fact else self._named(match["name"], at, match.end(), inline=True, heading=match[0])
        match = L.DASH_HEAD.match(self.text, place) or L.EDGE_HEAD.match(self.text, place)
        if match and match.end() <= place + len(raw) and not L.FACT.match(match["name"] + ":") and not _NO_NAME.match(match["name"]):
            return self._named(match["name"], at, match.end(), inline=True, heading=match[0])
        match = L.NAME_HEAD.match(self.text, place)
        if match and match.end() <= place + len(raw):
            name = match["name"]
            rest = self.text[match.end() : place + len(raw)].strip()
            if _SIZE_OF_A_PIECE.fullmatch(name) and refers_to_a_piece(rest):
                return self._named(name, at, match.end(), inline=True, heading=match[0])
            if (
                measures(rest)
                or L.FACT.match(name + ":")
                or re.match(
                    r"(?i)(?:row|round|rnd|r\d|note|tip|step|blocks?\b|tiles?\b|size|small|medium|large|x?s\b|shell|fan\b|picot|bobble|cross|beg\b|beginning\s(?:shell|cl|block)|cable|star|group|next|then\b|now\b|last(?:ly)?$|finally|after\sthat|all|for |to\s(?:make|work)\s|special|v-?st|cl|"  # noqa: E501
                    r"cluster|puff|dc\d|sc\d|inc|dec|popcorn|bobble|picot|(?:open|solid|filled|closed)\s(?:mesh|block)|"
                    r"turn|rep|repeat|inv|ch\b|total|stitch count|us\b|uk\b|(?:every|each)\s(?:row|round|rnd)|"
                    r"\w+ ?=)",
                    name,
                )
            ):
                return None
            if (rest and (L.CRAFT_START.match(rest) or L.WORK_START.match(rest)) and (L.CRAFT_WORDS.search(rest) or not self.wrapped)) or (
                not rest and len(name.split()) <= 4
            ):
                if re.search(r"(?i)\b(?:st|stitch|cluster|shell|picot)\b", name):
                    return None
                return self._named(name, at, match.end(), inline=bool(rest), heading=match[0])
        return None

    def _stopped(self, place: int, raw: str) -> Mark | None:
        """ "BAND. Ch 9. 1st row: …", "Strap. With Blue, ch 40": a name and a full stop open the paragraph, and a chain follows."""
        match = L.STOP_HEAD.match(self.text, place)
        if match is None or self.large or match.end() > place + len(raw):
            return None
        name = match["name"]
        rest = self.text[match.end() : place + len(raw)]
        rest = _SECOND_HEAD.sub("", rest, count=1)
        begun = L.BEGINS.match(rest) or L.FOUNDS.match(rest) or L.RING_BEGUN.match(rest) or L.RING_FIRST.match(rest)
        worked = name.isupper() and (L.CRAFT_START.match(rest) or L.WORK_START.match(rest)) and L.CRAFT_WORDS.search(rest)
        if not (begun or worked) or L.COUNTS.match(rest) or self._names_no_piece(name):
            return None
        return self._named(name, place + len(raw) - len(raw.lstrip()), match.end(), inline=True, heading=match[0].strip())

    def _named(self, name: str, at: int, end: int, md: bool = False, inline: bool = False, heading: str = "") -> Mark:
        name = " ".join(name.split())
        plain = re.sub(r"\s*\([^()]*\)$", "", _MANNER.sub("", name)).strip(" :.*_=")
        if L.SPECIAL_SECTION.fullmatch(plain):
            kind = "special"
        elif L.ASIDE_SECTION.fullmatch(plain):
            kind = "aside"
        elif SIDE_OF_A_PIECE.match(plain) and not FOUNDED.search(self.text[end : end + 160].split("\n\n")[0]):
            kind = "side"
        elif L.NO_PART.match(plain) or NOT_A_PIECE.match(plain):
            kind = "none"
        elif L.FINISHING.fullmatch(plain):
            kind = "finishing"
        else:
            kind = "part"
            of_piece = _DIRECTIONS_FOR.sub("", plain, count=1)
            plain = plain if L.NO_PART.match(of_piece) or NOT_A_PIECE.match(of_piece) else of_piece
        return Mark(at, end, name=plain, kind=kind, inline=inline, heading=heading or name)


def by_size(marks: list[Mark], text: str, start: int) -> list[Mark]:
    """The marks, with those of sentences for single sizes; what calls such a sentence heads no part."""
    told = told_by_size(text, start)
    if not told:
        return marks
    marks = [mark for mark in marks if not any(one.at - 3 <= mark.at < one.begins for one in told)]
    return marks + [Mark(one.at, one.begins, kind="sized", until=one.end) for one in told]
