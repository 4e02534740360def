"""A text's body cut into parts, and each part into the lines of its rows; prose is set aside here."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from ..seams import joins_pieces
from . import lines_told as L
from .colour_lines import only_joins_yarn, tells_yarn_only
from .finding import Finder
from .gauged import for_gauge, only_measured, tells_gauge
from .headings import Headings, Mark, by_size
from .instructing import ALL_ROUND, begun_after_lead, edging_begun, goes_along, in_brackets, refers_to_a_piece
from .labels import BARE, Label
from .rows_on import REPEATED, ROWS_IN_ALL, goes_on_with_rows
from .sections import Sections
from .splitting import row_breaks
from .steps_told import step_told, told_in_steps
from .titled import title_end
from .typed import is_wrapped, writes_small

HIGHEST = 4
"""So few chains begin a row, and no piece."""


@dataclass(slots=True)
class RowDraft:
    """One row's text: its label (None when unlabelled) and the piece of source that holds its instruction."""

    label: Label | None
    start: int
    end: int
    repeat: bool = False
    """A sentence that repeats rows, or goes on in pattern, split off from the row before."""
    finishing: bool = False


MOST_ABOVE = 100
"""Characters of a line that heads the rows under it, at most (ours)."""


@dataclass(slots=True)
class PartDraft:
    name: str
    start: int
    heading: str = ""
    """The heading's whole text, with "(make 2)"."""
    rows: list[RowDraft] = field(default_factory=list)
    end: int = 0
    inline: bool = False
    of: str = ""
    """The heading above, under which this one is a section."""
    goes_on: bool = False
    """One side of it has just been headed: the next row numbered 1 begins no new piece."""


@dataclass(slots=True)
class Layout:
    parts: list[PartDraft] = field(default_factory=list)
    notes: list[tuple[int, int]] = field(default_factory=list)
    specials: list[tuple[int, int]] = field(default_factory=list)
    """Pieces of text that define stitches."""
    title: str = ""
    labels: int = 0
    wrapped: bool = False
    """Lines are broken at a width, wherever that falls in a sentence."""


class Layer:
    """Lines out one text."""

    def __init__(self, text: str, start: int) -> None:
        self.text = text
        self.start = start
        self.layout = Layout()
        self.wrapped = is_wrapped(text[start:])
        """Print: lines broken at a width, whatever the sentence."""
        self.small = writes_small(text[start:])
        """The writer uses no capitals: a line that begins with a small letter is none that was broken off."""
        self.corners = L.corner_to_corner(text)
        """The piece is worked from corner to corner, in blocks."""
        self.stepped = told_in_steps(text[start:])

    def run(self) -> Layout:
        finder = Finder(self.text, self.start, self._bare(), self.wrapped)
        labels = finder.run(len(self.text))
        self.layout.labels, self.layout.wrapped = len(labels), self.wrapped
        marks = [Mark(label.start, label.end, label=label) for label in labels]
        marks += Headings(self.text, self.start, self.wrapped).run([label.start for label in labels])
        self._fill(sorted(by_size(marks, self.text, self.start), key=lambda mark: mark.at))
        return self.layout

    def _bare(self) -> bool:
        """Rows are opened by a number alone ("4. …"): three or more such lines, and few other labels."""
        body = self.text[self.start :]
        found = re.finditer(r"(?m)^[ \t]{0,6}(?=\d)", body)
        bare = sum(BARE.match(body, m.end()) is not None and _tells_work(body[m.end() : m.end() + 100].split("\n")[0]) for m in found)
        return bare >= 3 and bare > len(re.findall(r"(?im)^[ \t*_=#]{0,6}(?:row|round|rnd|r)\s?\d", body))

    # ---- filling -------------------------------------------------------------------------------------------------------------
    def _fill(self, marks: list[Mark]) -> None:
        marks = [mark for mark in marks if mark.kind != "none"]
        layout = self.layout
        part = PartDraft("", self.start)
        layout.parts.append(part)
        kind = "part"
        sections = Sections(self.text)
        first_end = marks[0].at if marks else len(self.text)
        self._loose(part, self.start, first_end, kind, bool(marks))
        for k, mark in enumerate(marks):
            stop = marks[k + 1].at if k + 1 < len(marks) else len(self.text)
            if mark.label is not None:
                part = self._maybe_new(part, mark.label)
                self._row(part, mark.label, stop)
                continue
            kind = mark.kind
            if kind == "side":
                part.goes_on, kind = True, "part"
                self._loose(part, mark.end, stop, kind, True)
                continue
            if kind == "sized":
                kind, end = "part", min(mark.until, stop)
                self._split(part, None, mark.end, end)
                self._loose(part, end, stop, kind, True)
                continue
            if kind == "part" and mark.inline and (label := self._row_named(marks, k)) is not None:
                self._row(part, label, stop)
                continue
            if kind in ("part", "finishing") or (kind == "aside" and not mark.name):
                if (not part.rows and part.name == "") or (not part.rows and not part.inline):
                    if part.name and len(layout.parts) == 1 and not layout.title:
                        layout.title = part.name
                    sections.headed(part.name)
                    layout.parts.remove(part)
                part.end = mark.at
                of = sections.above(mark)
                part = PartDraft(mark.name, mark.at, mark.heading, inline=mark.inline, of=of)
                layout.parts.append(part)
            if kind == "special":
                layout.specials.append((mark.end, stop))
            self._loose(part, mark.end, stop, kind, True)
        part.end = len(self.text)
        layout.parts = [one for one in layout.parts if one.rows]

    def _row_named(self, marks: list[Mark], k: int) -> Label | None:
        """ "Thumb hole: ch 1, sc in first 10, …" between Rnd 15 and Rnd 17: a row called by what it does, for the numbers go on past it."""
        before = next((mark.label for mark in reversed(marks[:k]) if mark.label is not None and mark.label.numbers), None)
        after = marks[k + 1].label if k + 1 < len(marks) else None
        if before is None or after is None or not (before.numbers[0] and after.numbers and after.numbers[0]):
            return None
        last, following = before.numbers[0][-1], after.numbers[0][0]
        mark = marks[k]
        if not self.text[mark.end : after.start].strip(" \n.*_=-"):
            return None  # "BRIM--7th round.": the name of a piece, and no words of its own
        begun = L.BEGINS.match(self.text, mark.end) or L.FOUNDS.match(self.text, mark.end)
        chains = re.search(r"\d+", begun[0]) if begun else None
        if (begun and (chains is None or int(chains[0]) > HIGHEST)) or following != last + 2 or last < 2:
            return None
        return Label(
            start=mark.at, end=mark.end, text=mark.name, numbers=((last + 1,),), noun=before.noun, kind="named", label_end=mark.end
        )

    def _maybe_new(self, part: PartDraft, label: Label) -> PartDraft:
        """Row numbers that begin again at 1 begin a new piece, though nobody says so."""
        if part.goes_on:
            part.goes_on = False
            return part
        if label.kind != "number" or label.word or not label.numbers or label.numbers[0][:1] != (1,):
            return part
        last = next(
            (row.label.numbers[0][-1] for row in reversed(part.rows) if row.label and row.label.numbers and row.label.numbers[0]), None
        )
        if last is not None and last >= 1:
            before = next((row.label for row in reversed(part.rows) if row.label and row.label.numbers and row.label.numbers[0]), None)
            if before is not None and before.numbers[0] == (1,) and last == 1:
                return part
            carried: list[RowDraft] = []
            while (
                part.rows
                and part.rows[-1].label is None
                and not part.rows[-1].repeat
                and _begins(self.text[part.rows[-1].start : part.rows[-1].end])
            ):
                carried.insert(0, part.rows.pop())
            part.end = carried[0].start if carried else label.start
            fresh = PartDraft("", part.end, heading=self._told_above(part.end), rows=carried)
            self.layout.parts.append(fresh)
            return fresh
        return part

    def _told_above(self, at: int) -> str:
        """The line just above, where it was set aside: "Centre, in the free loops of the chain:" names no piece, and heads one."""
        start, end = self.layout.notes[-1] if self.layout.notes else (0, 0)
        told = self.text[start:end].strip().rpartition("\n")[2]
        return told if not self.text[end:at].strip() and end <= at and len(told) <= MOST_ABOVE else ""

    def _row(self, part: PartDraft, label: Label, stop: int) -> None:
        """The row's own text, and what else stands before the next label."""
        start = label.end
        end = own_end = self._own_end(start, stop)
        if self.stepped:
            label.numbers, label.text = (), f"Step {label.text.split()[-1]}"  # no number of a row
            line = self.text.find("\n", start, end)
            told = step_told(self.text, start, end if line < 0 else line)  # what is listed below a step are remarks on it
            self.layout.notes += [(a, b) for a, b in ((start, told.start), (told.end, end)) if self.text[a:b].strip()]
            start, end = told.start, told.end
            if told.kind == "none":
                self.layout.notes.append((label.start, end))
                return
        self._split(part, label, start, end)
        if own_end < stop and self.text[own_end:stop].strip():
            self._loose(part, own_end, stop, "part", True, after_row=True)

    def _own_end(self, start: int, stop: int) -> int:
        """Where the row's instruction ends: at a blank line, or at a line that is not instruction (when lines are not merely wrapped)."""
        text = self.text
        place = start
        while place < stop:
            line_end = text.find("\n", place, stop)
            if line_end == -1:
                return stop
            following = line_end + 1
            next_end = text.find("\n", following, stop)
            line = text[following : stop if next_end == -1 else next_end]
            if not line.strip():
                if not text[start:line_end].strip(" *_="):
                    place = following
                    continue
                return line_end
            if not self.wrapped and text[start:line_end].strip() and not self._belongs(text[start:line_end], line):
                return line_end
            place = following
        return stop

    def _belongs(self, before: str, line: str) -> bool:
        """The next line goes on with the row's instruction."""
        if line.strip()[:1].islower() and _CUT_OFF.search(before):
            return True  # "Sc in 2nd ch from" / "hook, sc in each ch": the line was broken in the middle of a sentence
        if ROWS_IN_ALL.fullmatch(line) and REPEATED.search(before):
            return True
        if L.STRIPE.fullmatch(line) and ":" in before and L.STRIPE.fullmatch(before.rstrip().rpartition("\n")[2]):
            return True
        if any(told.match(line) for told in (L.FACT, L.PASSES_ON, L.REMARKED, L.HEADED_HERE)) or line.lstrip().startswith(
            ("#", "![", "<", "|", "---", "- ", ">")
        ):
            return False
        if (starred := _STARRED.fullmatch(line)) and not L.CRAFT_START.match(starred["said"]):
            return False
        open_end = (
            before.rstrip()[-1:] in (",", ";", "-", "*", "(", "[", ":")
            or _CUT_OFF.search(before)
            or before.count("(") > before.count(")")
            or before.count("[") > before.count("]")
        )
        if open_end:
            return True
        if (
            L.FACT.match(before)
            or L.DEFINITION.match(before)
            or L.DESCRIBED.match(before)
            or (L.GROUP_TOLD.match(before) and before.rstrip()[-1:] in (".", ")"))
            or L.GROUP_TOLD.match(line)
            or L.DEFINITION.match(line)
            or L.REPEAT_LINE.match(line)
            or (L.GOES_ON.match(line) and L.HOW_FAR.search(line))
            or goes_on_with_rows(line)
            or L.SIZE_LINE.match(line)
            or (before.rstrip()[-1:] in (".", ")", "]", "!") and ALL_ROUND.match(line))
            or L.HEADED_SIDE.match(line)
            or (L.FOUNDS.match(line) and not L.CRAFT_WORDS.search(before))
        ):
            return False
        if _ONLY_REFERS.fullmatch(before) and line.strip()[:1].isupper() and not tells_yarn_only(line):
            return False
        if (L.CRAFT_START.match(line) and L.CRAFT_WORDS.search(line)) or tells_yarn_only(line):
            return True
        first = line.strip()[:1]
        return bool(
            first
            and ((first.islower() and not self.small) or first.isdigit() or first in "([{=*")
            and L.CRAFT_WORDS.search(line)
            and before.rstrip()[-1:] not in (".", "!", "?")
        )

    def _before_bold(self, start: int, end: int) -> int:
        """Where the row's words end before the bold mark of the next label ("… in 1st st. =ROW 1=—")."""
        while end > start + 1 and self.text[end - 1] in "=_" and self.text[end - 2].isspace():
            end = start + len(self.text[start : end - 1].rstrip())
        return end

    def _split(self, part: PartDraft, label: Label | None, start: int, end: int) -> None:
        """The row, and the sentences in it that repeat rows, as drafts of their own."""
        end = self._before_bold(start, end)
        place = start
        first = True
        body = self.text
        ranged = label is not None and len(label.numbers[:1] and label.numbers[0]) > 1
        found = row_breaks(body, start, end, shaping=label is None or label.kind == "next", ranged=ranged)
        for at, after in found:
            if not body[place:at].strip(" .,;*_=") or (first and label is not None and only_joins_yarn(body[place:at])):
                continue
            if body[at] in ")]" and not _closed(body, start, at):
                continue
            if first:
                part.rows.append(RowDraft(label, place, at + 1))
            else:
                part.rows.append(RowDraft(None, place, at + 1, repeat=True))
            first = False
            place = after
        if body[place:end].strip() or first:
            part.rows.append(RowDraft(label if first else None, place, end, repeat=not first))

    def _loose(self, part: PartDraft, start: int, stop: int, kind: str, labelled: bool, after_row: bool = False) -> None:
        """Text under no label: instruction or prose, paragraph by paragraph."""
        worked = any(other.rows for other in self.layout.parts)
        for a, b in self._pieces(start, stop):
            named = a if worked or part.rows else title_end(self.text, a, b)
            if named > a:
                self.layout.notes.append((a, named))
                a = named
            side = L.HEADED_SIDE.match(self.text, a, b) if labelled and kind == "part" and part.rows else None
            if side is not None and L.CRAFT_START.match(self.text, side.end(), b) and not L.BEGINS.match(self.text, side.end(), b):
                self.layout.notes.append((a, side.end()))
                a = side.end()
            here = L.HEADED_HERE.match(self.text, a, b) if labelled and kind == "part" and part.rows else None
            if here is not None and L.CRAFT_START.match(self.text, here.end(), b) and not L.DEFINITION.match(self.text, a, b):
                end = b if L.BY_THE_HOOK.match(self.text, here.end(), b) else here.end()
                self.layout.notes.append((a, end))
                a = end
            text = self.text[a:b]
            if not text.strip(" \n*_=-#.:"):
                continue
            if joins_pieces(text) and not L.BEGINS.match(text) and not (kind == "finishing" and edging_begun(text)):
                self.layout.notes.append((a, b))
            elif kind == "part" and tells_yarn_only(text):
                part.rows.append(RowDraft(None, a, b))
            elif kind == "part" and labelled and not part.rows and (begun := begun_after_lead(text)) is not None:
                self.layout.notes.append((a, a + begun))
                self._split(part, None, a + begun, b)
            elif kind not in ("aside", "special", "finishing") and self._instructs(text, part, labelled):
                self._split(part, None, a, b)
            elif (
                kind in ("aside", "special")
                and not part.rows
                and not L.EACH_TIME.match(text)
                and not L.CHAIN_RULE.match(text)
                and (L.BEGINS.match(text) or L.RING_BEGUN.match(text) or (L.FOUNDS.match(text) and not L.COUNTS.match(text)))
                and not re.search(r"(?i)\bcount", text[:60])
                and not only_measured(text)
            ):
                self._split(part, None, a, b)
                kind = "part"
            elif kind == "finishing" and (edging := edging_begun(text)) is not None:
                if text[:edging].strip():
                    self.layout.notes.append((a, a + edging))
                self._split(part, None, a + edging, b)
            elif kind == "part" and labelled and not part.rows and not L.EACH_TIME.match(text) and (begun := self._begun(a, b)) is not None:
                if begun > a:
                    self.layout.notes.append((a, begun))
                self._split(part, None, begun, b)
            else:
                self.layout.notes.append((a, b))

    def _begun(self, a: int, b: int) -> int | None:
        """Where, in a line that begins with other matter ("D hook, chain 26."), the piece's first chain is told."""
        if (self.corners and L.TILE_TOLD.match(self.text[a:b])) or L.DEFINITION.match(self.text[a:b]) or L.GROUP_TOLD.match(self.text[a:b]):
            return None
        if L.short_form_told(self.text[a:b]):
            return None
        told = (match.start("ch") for match in L.CHAIN_TOLD.finditer(self.text, a, b))
        told = (at for at in told if not in_brackets(self.text, self.text.rfind("\n", 0, at) + 1, at))
        rules = (L.COUNTS, L.CHAIN_RULE, L.TURN_RULE)
        told = (at for at in told if not any(rule.match(self.text, at, b) for rule in rules))
        return next((at for at in told if not for_gauge(self.text, at, a)), None)

    def _instructs(self, text: str, part: PartDraft, labelled: bool) -> bool:
        if self.corners and not part.rows and L.TILE_TOLD.match(text):
            return False
        if any(
            told.match(text) for told in (L.SHAPED_HEAD, L.PASSES_ON, L.DEFINITION, L.CHAIN_RULE, L.TURN_RULE, L.DESCRIBED, L.EACH_TIME)
        ) or L.short_form_told(text):
            return False
        if (L.FACT.match(text) and not re.match(r"\s*(?:with|w|using)\b", text, re.I)) or (not part.rows and tells_gauge(text)):
            return False
        if not part.rows and (L.GROUP_TOLD.match(text) or (len(_ADDRESS.findall(text)) >= 2 and not L.FOUNDS.match(text))):
            return False
        if labelled and part.rows and (L.GOES_ON.match(text) or goes_on_with_rows(text)):
            return True
        if labelled and (part.rows or _EDGING.match(part.name)) and ALL_ROUND.match(text):
            return True
        if labelled and (refers_to_a_piece(text) or goes_along(text)):
            return True
        if labelled and not part.rows and (_RING_MADE.match(text) or L.RING_BEGUN.match(text)):
            return True
        if labelled and not part.rows and L.FOUNDS.match(text) and not L.COUNTS.match(text):
            return True
        headed = L.HEADED_SHAPING.match(text)
        if not L.CRAFT_START.match(text[headed.end() :] if headed else text):
            return False
        if labelled and not part.rows and _YARN_JOINED.match(text) and edging_begun(text.lstrip()) == 0:
            return True
        if not part.rows and _EDGING.match(part.name) and L.CRAFT_WORDS.search(text):
            return True  # "Border: sc around, putting 4 along each short side …": more words for the edge than for the stitch
        words = L.WORD.findall(text)
        craft = len(L.CRAFT_WORDS.findall(text))
        if not labelled and craft < 2:
            return False
        return craft >= 1 and craft * 7 >= len(words)

    def _heads(self, begun: int, place: int, line: str) -> bool:
        """Whether one short line calls by a name what the next one tells ("second bump"; "Little heart" above "Make a magic ring. …")."""
        if _CALLED.fullmatch(self.text, begun, place):
            return True
        name = self.text[begun:place]
        if not _NAME_ALONE.fullmatch(name) or L.CRAFT_WORDS.search(name):
            return False
        return bool(L.BEGINS.match(line) or L.RING_BEGUN.match(line) or _RING_MADE.match(line))

    def _pieces(self, start: int, stop: int) -> list[tuple[int, int]]:
        """Paragraphs (print) or lines (web); a line that an instruction wraps onto stays with it."""
        pieces: list[tuple[int, int]] = []
        place = start
        begun: int | None = None
        while place <= stop:
            end = self.text.find("\n", place, stop)
            end = stop if end == -1 else end
            line = self.text[place:end]
            if not line.strip():
                if begun is not None:
                    pieces.append((begun, place))
                    begun = None
            elif begun is None:
                begun = place
            elif not self.wrapped and (self._heads(begun, place, line) or not self._belongs(self.text[begun:place], line)):
                pieces.append((begun, place))
                begun = place
            place = end + 1
        if begun is not None:
            pieces.append((begun, stop))
        return pieces


def _tells_work(line: str) -> bool:
    """Whether words of the craft stand in a line, or the letters of toy charts ("6X", "(3X,1V)*6")."""
    return L.CRAFT_WORDS.search(line) is not None or _LETTERED.search(line) is not None


_EDGING = re.compile(r"(?i)(?:[a-z]+\s)?(?:border|edging|edge|trim|trimming)\b")


_LETTERED = re.compile(r"(?<![\w.])\d{1,3}[XVAFTWM](?![A-Za-z])")


_ADDRESS = re.compile(r"(?i)\b(?:i|i'm|i'll|i've|you|you're|your|my|me)\b")
"""Words by which a writer speaks for himself or to the reader: a line above the first row that does so twice is talk."""
_YARN_JOINED = re.compile(
    r"(?i)\s*(?:re)?(?:join|attach)\s(?:the\s)?(?:\w+\s)?(?:yarn|thread|wool|cotton|colou?r|(?-i:[A-Z])\w*)\s(?:in|to|at|on|with)\b"
)
""" "Attach thread to one of the free loops at the lower edge of the cap, dc in each": more words tell where than what. """
_RING_MADE = re.compile(
    r"(?i)\s*(?:(?:start|begin)\s)?with\s[\w ]{2,24}?[.,]\s(?:make|form)\san?\s(?:magic|adjustable|sliding)\s(?:ring|loop|circle)\b"
)
""" "Start with yellow. Make an adjustable loop." above the first round. """
_ONLY_REFERS = re.compile(
    r"(?i)\s*(?:rep(?:eat)?|work|same as|as|like)\s(?:rows?|rnds?|rounds?|r)\s?\d+(?:\s?(?:-|&|and|to)\s?\d+)?\s*[.;]?"
    r"\s*(?:[(\[{][^()\n]{1,30}[)\]}])?\s*"
)
"""A row that is told by others alone, and is complete with that."""
_CALLED = re.compile(
    r"(?i)[ \t*_]{0,8}(?:(?:the|first|second|third|left|right|other|next|front|back|top|bottom|\dst|\dnd|\drd)\s)"
    r"(?:[a-z]{3,12}\s){0,2}[a-z]{3,12}[ \t*_:]{0,4}\n"
)
"""A line that calls what comes by a name ("second bump", "left side of neck") and says nothing more."""
_NAME_ALONE = re.compile(r"[ \t*_]{0,8}[A-Z][\w'-]{1,16}(?:\s[A-Za-z][\w'-]{0,14}){0,3}[ \t*_]{0,4}\n")
_STARRED = re.compile(r"\s*(?P<sign>\*{1,3}|~{1,3}|-{2,3}|={2,3})\s?(?P<said>[A-Za-z][^*~=\n]*?)\s?(?P=sign)\s*")
"""A line between signs ("** put the eyes in between R20 and R21, 6 sts apart **"): a remark, where no instruction begins it."""
_CUT_OFF = re.compile(
    r"(?i)\b(?:from|in|into|of|the|to|next|each|every|with|and|or|for|at|over|around the|rep|repeat|work|ch|last|first|same|"
    r"miss|skip|sk)\s*$"
)
"""A line that ends in the middle of what it says."""


def _closed(text: str, start: int, at: int) -> bool:
    piece = text[start : at + 1]
    return piece.count("(") <= piece.count(")") and piece.count("[") <= piece.count("]")


def _begins(text: str) -> bool:
    return bool(re.search(r"(?i)\b(?:ch(?:ain)?\s?(?:of\s)?\d|\d+\s?ch(?:ain)?\b|magic|mr\b(?!\.?\s(?-i:[A-Z][a-z]))|ring)", text))


def lay_out(text: str, start: int) -> Layout:
    """Cut `text[start:]` (already made plain) into parts and rows."""
    return Layer(text, start).run()
