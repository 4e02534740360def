"""Find the row labels of a text: candidates by expression, then the words around them decide."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal

from ..pieces import LONGEST, cuts
from . import comma_labels
from . import labels as L
from .labels import Label
from .lines_told import COUNTS
from .referring import names_only, refers
from .rows_on import BEHIND

_CANDIDATE = re.compile(
    r"(?<![A-Za-z0-9])(?:[*_=~#>]{0,3}\s{0,2})(?=(?:rows?|rounds?|rnds?|rds?|rw|r|v)\s{0,2}(?:[.#-]|no\.?|number)?\s{0,2}(?:\d|one\b|two\b|three\b|four\b|five\b|six\b|seven\b|eight\b|nine\b|ten\b|[a-z]{3,6}teen\b|eleven\b|twelve\b|twenty\b|thirty\b|forty\b|fifty\b|sixty\b)|\d|for\s(?:rows|rounds|rnds)|"
    r"(?:bind|cast)[ -]off|next\b|last\b|foll|final|foundation|set-?\s?up|base\b|starting|beginning|magic (?:ring|circle|loop)|"
    r"all even|all odd|even|odd|every (?:even|odd|other)|fwd|ret\b|return|forward|first|second|third|fourth|fifth|"
    r"sixth|seventh|eighth|ninth|ten|eleven|twel|thir|four|fif|six|seven|eigh|nine|twen|"
    r"[a-z][\w'-]{1,14}\s(?:[a-z][\w'-]{1,14}\s){0,2}(?:rows?|rounds?|rnds?)\b)",
    re.IGNORECASE,
)
_TERMINATED = re.compile(r"[.!?:;)\]}*\"'=_>]\s*$|^\s*$")
_BLANK = re.compile(r"\n[ \t]*\n[ \t]*$")


def _as_far(first: tuple[int, ...], told: tuple[int, ...]) -> tuple[int, ...]:
    """ "Rows 3-28 (30, 32)": the other sizes' rows begin with the same one."""
    if len(first) > 1 and len(told) == 1 and first[1] == first[0] + 1 and told[0] > first[0]:
        return tuple(range(first[0], told[0] + 1))
    return told


def _star_kept(match: re.Match[str]) -> int:
    """Where the label ends: a single star behind it ("4th rnd-* Ch 6") opens the row's repeat, unless one stands before the label too."""
    whole, pre = match[0], match["pre"] or ""
    single = whole.endswith("*") and not whole.endswith("**") and "*" not in pre and not whole[:-1].rstrip(" _=").endswith("*")
    return match.end() - 1 if single else match.end()


_NAMES_NO_ROW = frozenset("""
    repeat rep work as from in of to and until the follow after with for same through thru along over into on at by round around past than
    below above behind before beside up till under into like between across off""".split())  # noqa: SIM905  # fmt: skip
"""Words that lead to a row told elsewhere ("sew to the towel through row 1"), and are no part of its name."""


class Finder:
    """One pass over a text's body, from `start` on."""

    def __init__(self, text: str, start: int, bare: bool, wrapped: bool = False) -> None:
        self.text = text
        self.bare = bare
        self.wrapped = wrapped
        self.found: list[Label] = []
        self.start = self.at = start
        self.in_turn = False
        """Whether a number alone was judged by the label before it."""

    def run(self, end: int) -> list[Label]:
        for a, b in cuts(self.text, self.start, end):
            if a == self.start or self.at > a or b - a > LONGEST or not self._remembered(a, b, end):
                self.scan(a, b, end)
        return self.found

    def scan(self, start: int, stop: int, end: int) -> None:
        """Find the labels that begin in [start, stop) of a text that goes on to `end`."""
        for match in _CANDIDATE.finditer(self.text, start, end):
            place = match.start()
            if place >= stop:
                break
            if place < self.at:
                continue
            label = self._label(place, match.end(), end)
            if label is not None:
                self.found.append(label)
                self.at = label.end

    def _remembered(self, start: int, stop: int, end: int) -> bool:
        """Take a piece's labels from memory, where its words and those around it alone decide them."""
        before = max(0, start - _BEFORE)
        window = self.text[before : min(stop + _AFTER, end)]
        known = _labels_in(window, start - before, stop - before, self.bare, self.wrapped)
        if known is None:
            return False
        if known:
            self.found += [label.moved(before) for label in known]
            self.at = self.found[-1].end
        return True

    # ---- the words around ----------------------------------------------------------------------------------------------------
    def _line_start(self, place: int) -> bool:
        k = place
        while k > 0 and self.text[k - 1] in " \t*_=#>-•·":
            k -= 1
        return k == 0 or self.text[k - 1] == "\n"

    def _before(self, place: int) -> str:
        return self.text[max(0, place - 60) : place]

    def _may_open(self, place: int, strong: bool) -> bool:
        """A label may stand here: a line begins, or a sentence ended."""
        before = self._before(place).rstrip("*_=~ \t#>•·-")
        line = self._line_start(place)
        bare = before.rstrip()
        if line and strong and not self.wrapped:
            return bool(_BLANK.search(self._before(place).rstrip("*_=~# \t"))) or not names_only(bare)
        if line:
            if _BLANK.search(self._before(place).rstrip("*_=~# \t")) or not bare:
                return True
            if refers(bare) and not bare.endswith(("-", ",")):
                return False
            return strong or not self.wrapped or bool(_TERMINATED.search(bare))
        if strong and any(form.search(self._before(place)) for form in (_HEADED, _DASHED, _NAMED_PLACE)):
            return True
        if bare.endswith((".", ")", "]", "!", ";", "}")) or (bare.endswith(":") and strong):
            return strong
        return (
            strong
            and bool(
                re.search(
                    r"(?:turn|join|off|around|across|sts?|sc|dc|tr|sps?|chs?|loops?|lps?|spaces?|stitches|shells?|clusters?|total|made|\d|>|/)$",
                    bare,
                )
            )
            and self._capital(place)
        )

    def _begins_work(self, start: int, place: int) -> bool:
        """What follows begins a sentence, or behind a full stop is a number: "… of the chain. 2nd row. 1 long, 2 chain"."""
        before = self._before(start)
        number = before.rstrip()[-1:] in (".", ";") and re.match(r"\s*\d", self.text[place : place + 6])
        return bool(number) or self._capital(place) or _HEADED.search(before) is not None or _HEADS_LINE.search(before) is not None

    def _capital(self, place: int) -> bool:
        k = place
        while k < len(self.text) and not self.text[k].isalpha():
            k += 1
        return k < len(self.text) and self.text[k].isupper()

    # ---- forms ---------------------------------------------------------------------------------------------------------------
    def _label(self, start: int, word: int, end: int) -> Label | None:
        """The label that begins at `start`, its first word at `word`; no form that begins with a word is tried on a number."""
        text = self.text
        if not text[word].isdigit() and (label := self._word_first(start, end)) is not None:
            return label
        match = L.ORDINAL_FIRST.match(text, start, end)
        if match and (label := self._ordinal(match)):
            return label
        if comma_labels.FORM.match(text, start, end):
            self.in_turn = True  # its order decides, and what follows far on
            if match := comma_labels.by_comma(text, start, end, self.found):
                return self._make(match, match["noun"] or next(one.noun for one in reversed(self.found) if one.numbers))
        match = L.NUMBER_FIRST.match(text, start, end)
        glued = (
            match is not None and match["noun"].lower() == "rd" and match["nums"][-1] == "3" and match.start("noun") == match.end("nums")
        )
        if match and not glued and self._may_open(start, True) and self._line_start(start):
            return self._make(match, match["noun"])  # ("3rd:" is an ordinal)
        if self._line_start(start):
            match = L.PASS.match(text, start, end)
            if match:
                return self._named(match, "Forward" if match["which"].lower().startswith("f") else "Return", "pass")
            match = L.BIND_OFF.match(text, start, end)
            if match:
                return self._named(match, "Bind off", "named")
            match = L.NAMED.match(text, start, end)
            if match and self._may_open(start, True) and not _HEADS_ROWS.match(text, match.end(), end):
                return self._named(match, " ".join(match["label"].split()), "named")
            if (
                (match := L.BARE.match(text, start, end))
                and (self.bare or self._in_turn(match))
                and self._before(start).rstrip()[-1:] not in (",", "-")
            ):
                return self._make(match, None)
        return None

    def _word_first(self, start: int, end: int) -> Label | None:
        """A label that begins with its noun, or with a word that tells which row it is."""
        text = self.text
        match = L.NOUN_FIRST.match(text, start, end)
        if match and (label := self._noun_first(match)):
            return label
        match = L.FOUNDATION.match(text, start, end)
        counts = bool(COUNTS.match(text, match.start("label"), end)) if match else False
        alone = match is not None and not match["tail"].strip()  # "Set-up row" on a line by itself
        if match and alone and not (self._line_start(start) and match["which"].lower().startswith("set")):
            match = None
        if match and match["which"].lower().startswith("magic") and self._set_up_before(start):
            match = None  # the set-up row's own first words
        if match and self._may_open(start, True) and not counts and not self._heads(match):
            return self._named(match, "Foundation", "foundation")
        match = L.FOR_ROWS.match(text, start, end)
        if match and self._line_start(start):
            return self._make(match, match["noun"])
        match = L.NEXT_ROW.match(text, start, end)
        if match and self._may_open(start, True):
            return self._next(match)
        match = L.EVERY.match(text, start, end)
        heads = match is not None and _HEADS_ROWS.match(text, match.end(), end)  # "Even rows (one edge is held)" above "Row 7: …"
        return self._every(match) if match and not heads and self._may_open(start, True) else None

    def _set_up_before(self, place: int) -> bool:
        """Nothing but blanks stands between the label before and here, and that one was a row's."""
        return bool(self.found) and self.found[-1].kind == "foundation" and not self.text[self.found[-1].end : place].strip(" \t\n*_:")

    def _heads(self, match: re.Match[str]) -> bool:
        """ "Base:" on a line by itself, before numbered rows, is the name of a piece."""
        if match["which"].lower() != "base":
            return False
        if match["label"].isupper() and match["tail"].strip().startswith(":"):
            return True  # "BASE: Ch 21. 1st rnd: …": a piece among pieces so headed
        line_end = self.text.find("\n", match.end())
        return line_end >= 0 and not self.text[match.end() : line_end].strip(" *_")

    def _in_turn(self, match: re.Match[str]) -> bool:
        """A number alone opens a row when it follows the last one, or when it is 1 and the next line begins with 2."""
        self.in_turn = True
        first = int(re.match(r"\d+", match["nums"])[0])  # type: ignore[index]
        last = self.found[-1].numbers[0][-1] if self.found and self.found[-1].numbers and self.found[-1].numbers[0] else None
        rest = self.text[match.end() : match.end() + 90].split("\n")[0]
        if not re.search(
            r"(?i)\b(?:\d*(?:sc|dc|hdc|tr|ch|sl st|inc|dec|sts?)|chain|crochet|trebles?|stitch(?:es)?|mr|magic|same|like|as|rep(?:eat)?)\b",
            rest,
        ):
            return False
        if last is not None and first == last + 1:
            return True
        line_end = self.text.find("\n", match.end())
        mark = re.escape(match["end"].strip())
        return first == 1 and line_end > 0 and bool(re.match(rf"\s*[*_]{{0,3}}2(?:\s?-\s?\d+)?{mark}", self.text[line_end : line_end + 20]))

    def _noun_first(self, match: re.Match[str]) -> Label | None:
        noun = match["noun"]
        tail = match["tail"] or ""
        start = match.start()
        word = " ".join((match["word"] or "").split())
        if word and not self._word_fits(word, match, tail):
            return None
        letter = noun.lower() in ("r", "v")
        if letter and not self._line_start(start) and not tail:
            return None
        after = self.text[match.end() : match.end() + 1]
        loose = not tail or tail.strip(" *_=").startswith(".") or tail.strip() == ")"
        if not tail:
            if not self._line_start(start) or not self._goes_on(match.end()):
                return None
            if not self._may_open(start, False):
                return None
        elif not self._may_open(start, not loose or self._line_start(start) or tail.strip(" *_=").startswith(".")):
            return None
        if tail.strip() in ("**", "__") and not match["pre"].strip():
            return None  # a sign of the row's own, not the end of bold letters
        bold = "=" in match["pre"] and "=" in tail  # "=ROW 2=—" in mid-line
        if not bold and ("=" in match["pre"] or self._before(start).rstrip()[-1:] == "=") and not self._line_start(start):
            return None  # "Rows 3-6: = Row 2."
        loose_range = tail.strip(" *_=").startswith("-") and after.isdigit() and not bold and not self._line_start(start)
        if loose_range and not _STITCHES_FOLLOW.match(self.text, match.end()):
            return None
        if (
            refers(self._before(start).rstrip())
            and not self._before(start).rstrip().endswith(("-", ","))
            and not (self._line_start(start) and tail and (":" in tail or not self.wrapped))
        ):
            return None
        return self._make(match, noun, word)

    def _word_fits(self, word: str, match: re.Match[str], tail: str) -> bool:
        if not tail or not self._line_start(match.start()):
            return False
        low = word.lower().split()
        return not _NAMES_NO_ROW & set(low)

    def _goes_on(self, place: int) -> bool:
        """After a label without a mark comes an instruction, not the rest of a sentence."""
        if BEHIND.match(self.text, place):
            return False
        rest = self.text[place : place + 40].lstrip(" *_=")
        if _TOLD_SAME.match(self.text, place) or _IS_WHERE.match(self.text, place) or _AS_ROW.match(self.text, place):
            return True
        if re.match(r"(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|once|twice)\s(?:more|times)", rest, re.IGNORECASE):
            return False
        return not re.match(
            r"(?:of|and|to|until|till|is|are|has|for|only|until|once|again|,|\.|times|more|sts?|then|&|should|will|as|were|"
            r"was|forms?|makes?|establish(?:es)?|create|set(?=\sthe)|\n)(?![a-z])",
            rest,
            re.IGNORECASE,
        )

    def _next_in_order(self, match: re.Match[str]) -> bool:
        """ "4th: the same as 2nd." follows the third row or round: the noun was told once for all."""
        self.in_turn = True
        before = next((one for one in reversed(self.found) if one.numbers), None)
        return before is not None and L.numbers(match["nums"])[:1] == (before.numbers[0][-1] + 1,)

    def _behind_a_stop(self, match: re.Match[str]) -> bool:
        """ "… in every stitch. 2nd.--1 tc. on": in running text, a sentence ends before it and one begins behind it."""
        return self._before(match.start()).rstrip()[-1:] in (".", ")", ";") and self._begins_work(match.start(), match.end())

    def _ordinal(self, match: re.Match[str]) -> Label | None:
        tail = match["tail"] or ""
        start = match.start()
        noun = match["noun"]
        mark = re.sub(r"[*_=]", "", tail).strip()  # "_2nd._--": the marks of slanted letters are none of the label's own
        if noun is None:
            dashed = re.match(r"(?:\.\s?-|\.-|--)", mark)
            if not (dashed or re.match(r"[-:.]", mark)) or not self.text[match.end() : match.end() + 2].strip():
                return None
            if not self._line_start(start) and not self._behind_a_stop(match):
                return None
            if not (dashed and self._line_start(start)) and not self._next_in_order(match):
                return None
        elif not mark:
            return None
        if not self._may_open(start, True):
            return None
        weak = mark.startswith(".") and ":" not in mark and not mark.startswith(".-")
        if weak and not self._line_start(start) and not self._begins_work(start, match.end()):
            return None
        loose = self._line_start(start) and not self.wrapped
        if not loose and refers(self._before(start).rstrip()) and not self._before(start).rstrip().endswith(("-", ",")):
            return None
        if noun and noun.lower() in ("half", "tour"):
            return None
        if noun is None:
            self.in_turn = True  # "4th.—": a row or a round, as the one before it
            noun = next((one.noun for one in reversed(self.found) if one.numbers), None)
        return self._make(match, noun)

    # ---- records -------------------------------------------------------------------------------------------------------------
    def _make(self, match: re.Match[str], noun: str | None, word: str = "") -> Label:
        text = match["nums"]
        note, note_span = self._note(match)
        if L.RETURN_NOTE.match(note.strip()):
            back = self._named(match, "Return", "pass")
            told = L.numbers(text)
            self.in_turn = True
            if len(told) == 1 and not any(told[0] in one.numbers[0] for one in self.found if one.numbers):
                back.text, back.numbers = L.title(noun, text), (told,)  # "2nd row (return)" after "1st row (forward)": a number of its own
            return back
        label = Label(
            start=match.start("label"), end=_star_kept(match), text=(f"{word} " if word else "") + L.title(noun, text), numbers=(L.numbers(text),),  # noqa: E501
            noun=L.noun_of(noun), note=note, note_span=note_span, open_end=text.rstrip().endswith("+") or bool(re.search(r"and so on|onward|\bon$|and up|beyond", note)), word=word, label_end=match.end("label"),  # noqa: E501
        )  # fmt: skip
        sized = (
            re.search(r"[(\[](\d(?:[\d\s,/-]|to|thru|through)*)[)\]]\s*$", match["label"].removesuffix(note).rstrip())
            if "(" in match["label"] or "[" in match["label"]
            else None
        )
        if sized:
            label.numbers = (L.numbers(text), *(_as_far(L.numbers(text), L.numbers(one)) for one in re.split(r"[,/]", sized[1])))
        groups = match.groupdict()
        if groups.get("more") and len(label.numbers[0]) == 1:
            how_many = re.search(r"\d+", groups["more"]) or re.search(rf"\b(?:{'|'.join(L.WORDS)})\b", groups["more"].lower())
            more = (L.WORDS.get(how_many[0]) or int(how_many[0])) if how_many else 0
            first = label.numbers[0][0]
            label.numbers = (tuple(range(first, first + more + 1)),)  # "3rd Row and six following rows"
            label.text = f"{'Rnds' if label.noun == 'round' else 'Rows'} {first}-{first + more}"
        if groups.get("also"):
            label.also = "odd" if "odd" in match["also"].lower() else "even" if "even" in match["also"].lower() else "other"
        return label

    def _note(self, match: re.Match[str]) -> tuple[str, tuple[int, int]]:
        groups = match.groupdict()
        note = groups.get("note") or ""
        if not note.strip():
            return "", (0, 0)
        return note, match.span("note")

    def _named(self, match: re.Match[str], name: str, kind: str) -> Label:
        note, span = self._note(match)
        groups = match.groupdict()
        noun: Literal["row", "round"] = L.noun_of(groups.get("noun") or match["label"].split()[-1])
        nums = groups.get("nums")
        return Label(start=match.start("label"), end=_star_kept(match), text=name, noun=noun, note=note, note_span=span, kind=kind, label_end=match.end("label"),  # noqa: E501
                     numbers=((int(nums),),) if nums and kind not in ("foundation", "pass") else ())  # fmt: skip

    def _next(self, match: re.Match[str]) -> Label:
        count = match["count"] or "1"
        values = tuple(int(one) for one in re.findall(r"\d+", count)) or (L.WORDS.get(count.lower(), 1),)
        which = match["which"].capitalize()
        word = "rnd" if L.noun_of(match["noun"]) == "round" else "row"
        name = f"{which} {word}" if values == (1,) else f"{which} {count} {word}s"
        note, span = self._note(match)
        return Label(
            start=match.start("label"),
            end=_star_kept(match),
            text=name,
            noun=L.noun_of(match["noun"]),
            count=values,
            note=note,
            note_span=span,
            kind="next",
            label_end=match.end("label"),
        )

    def _every(self, match: re.Match[str]) -> Label:
        which = match["which"].lower()
        word = "rnds" if L.noun_of(match["noun"]) == "round" else "rows"
        upto = re.search(r"\d+", match["upto"] or "")
        label = Label(
            start=match.start("label"),
            end=_star_kept(match),
            text=f"All {which} {word}",
            noun=L.noun_of(match["noun"]),
            also=which,
            kind="every",
            label_end=match.end("label"),
        )
        if upto:
            label.count = (int(upto[0]),)
        return label


_HEADED = re.compile(r"(?:^|[\n.;)]\s{0,3})(?!NEXT|LAST|ROUND|ROW|RND)[A-Z][A-Z']{2,}(?:\s[A-Z']{2,}){0,3}\s?\.?-{1,2}\s*$")
"""A piece's name and its dash, right before the label of its first row: "SOLE-Row 1:"."""
_HEADING = r"(?:^|\n)[ \t*_]*(?!Row|Round|Rnd|Next|Last|Turn|Join)[A-Z][A-Za-z']{1,15}(?:\s[A-Za-z']{2,12}){0,4}\s?"
_DASHED = re.compile(_HEADING + r"\.?-{1,2}[ *_]*$")
"""The same in small letters, where a line begins, or what the row does: "Divide for body-Next row:", "To shape the armholes.-Next row."."""
_HEADS_LINE = re.compile(_HEADING + r"(?:\.?-{1,2}|[.:])[ *_]*$")
"""The same before a full stop or a colon: "Brim. 3rd round. * 1 s c …"."""
_NAMED_PLACE = re.compile(r"(?:^|\n)[ \t]*(?![^\n]*\s(?:as|for|of|like)\s)[A-Z][A-Za-z' ]{2,24},\s$")
"""What the rows are of, at the beginning of the line of the first: "Top edge, 1st row-"."""
_STITCHES_FOLLOW = re.compile(
    r"\d{1,3}\s?(?:\([\d,: ]{1,20}\)\s?)?(?:s\.?\s?c|d\.?\s?c|h\.?\s?d\.?\s?c|tr|ch|sl|s\.?\s?s\b|"
    r"sts?|stitch|single|double|half|treble|plain|long|shells?|cl|puff|popcorn|sp|bl|inc|dec)",
    re.IGNORECASE,
)
"""A number and its stitch behind a label's dash: "ROUND 2-2 s. c. in each"; no range of rows."""
_TOLD_SAME = re.compile(r"(?i)\s(?:are|is)\s(?:all\s|just\s|exactly\s|simply\s)?(?:more\sof\sthe\ssame|the\ssame|worked|done|made)\b")
""" "Rounds 7-11 are more of the same": a label whose instruction is the sentence it stands in. """
_AS_ROW = re.compile(
    r"(?i),?\s(?:(?:just\s|exactly\s|worked\s|work\s)?(?:the\s)?(?:same\s)?(?:as|like)|repeat)\s(?:for\s)?(?:the\s)?(?:last\s)?"
    r"(?:(?:rows?|rnds?|rounds?|r)\s?(?:\d|one\b|two\b|three\b)|(?:\d{1,2}(?:st|nd|rd|th)|first|second|third)\s(?:row|rnd|round))"
)
""" "Rows 3-48 as row 2": a label whose instruction names another row. """
_IS_WHERE = re.compile(
    r"(?i)\s(?:is\s(?:where|when)|begins|starts)\b[^.\n]{1,80}[.!:]\s{1,3}(?=(?:ch|chain|with|sc|hdc|dc|tr|join|work|inc|dec)\b|\d|\()"
)
""" "Round 12 is where the thumb begins to happen. Ch 1, …": a remark on the round, and then its instruction. """
_HEADS_ROWS = re.compile(r"(?i)[ \t*_]*\n\s*[*_]{0,3}(?:rows?|rounds?|rnds?|r)\s?\d{1,3}\b")
"""Behind "Increase rows:" on a line by itself: the numbered rows that it heads."""
_BEFORE, _AFTER = 61, 160
"""Characters before and after a piece that may decide its labels."""


@lru_cache(maxsize=4096)
def _labels_in(window: str, start: int, stop: int, bare: bool, wrapped: bool) -> tuple[Label, ...] | None:
    """The labels that begin in `window[start:stop]`; None where more than the window decides them, or one goes on beyond the piece."""
    finder = Finder(window, start, bare, wrapped)
    finder.scan(start, stop, len(window))
    return None if finder.in_turn or finder.at > stop else tuple(finder.found)
