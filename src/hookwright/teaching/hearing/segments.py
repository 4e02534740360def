"""The stretches of speech that belong to each row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from statistics import median

from ...trade.terms import System
from .align import Hint, Meant, align
from .anchors import FAINT, Anchor, anchors_of
from .named_behind import named_behind
from .named_besides import besides
from .parts_named import part_near, part_words
from .said import Heard_, heard_in, quoted
from .tallies import Told, tallies
from .things import marked, sentence
from .tokens import Token
from .units import Unit

LEAD_S = 3.0
"""So many seconds before a thing that is never said one begins to listen."""
FEW = 4
"""Numbers up to this one are too common to tell a row by (ours)."""
CLEAR, WORK_WORDS = 0.8, 40
"""How clearly an increase is told that tells rows apart, and the words within which a row's own numbers stand (ours)."""
OUTRIGHT, FAINTLY = 160, 50
"""Words looked over behind a naming, and behind a number that only may be one (ours)."""
HOLE_S = 4.0
"""A silence so long after a caption is a hole in the narration."""


@dataclass(slots=True)
class Stretch:
    """Words that belong to one row: tokens[start:end], begun by the naming `meant` of row number `number`."""

    meant: Meant
    unit: Unit
    number: int
    start: int
    end: int
    counts: list[Told] = field(default_factory=list)
    heard: list[Heard_] = field(default_factory=list)

    @property
    def several(self) -> bool:
        """Whether other written rows are told with it, named together: "rows five and six, as three and four"."""
        anchor = self.meant.anchor
        return anchor.how == "begins" and anchor.first < anchor.last and anchor.first < self.unit.first

    @property
    def begins(self) -> int:
        """The first token behind the naming; the very first where the row is named at its end."""
        return self.meant.anchor.end if self.meant.anchor.k == self.start else self.start


@dataclass(frozen=True, slots=True)
class Speech:
    """A narration laid out: tokens, the meaning of each naming of a row, the stretches in order of time."""

    tokens: list[Token]
    meant: list[Meant]
    stretches: list[Stretch]

    edited: bool
    """Whether a person has been over the words: full stops, commas and capitals, or commas alone, which bare machine captions lack."""

    letters_a_second: float = 12.0
    """How fast the speaker speaks: so many letters, spaces among them."""

    def by_unit(self) -> dict[int, list[Stretch]]:
        """The stretches of each written row together, by the index of its unit."""
        found: dict[int, list[Stretch]] = {}
        for stretch in self.stretches:
            found.setdefault(stretch.unit.index, []).append(stretch)
        return found

    def sentence_end(self, k: int, end: int) -> int:
        """The last token of the sentence (or of the caption, where nothing is marked) in which token k stands, before token `end`."""
        stop = min(end - 1, k + 25)
        while k < stop and not self.tokens[k].stop:
            if self.tokens[k + 1].at - self.tokens[k].at > 1.6:
                break
            k += 1
        return k

    def told_until(self, k: int, end: int) -> int:
        """The last token of the whole sentence around token k where sentences are marked, of its caption else, before token `end`."""
        stop = min(end - 1, k + 25)
        full = marked(self.tokens, k)
        while k < stop and not (self.tokens[k].stop and self.tokens[k].mark in ".!?"):
            if not full and self.tokens[k + 1].until != self.tokens[k].until:
                break
            k += 1
        return k

    def after(self, k: int) -> float:
        """The second at which what follows token k would have been said: the next word, or the end of its caption where a hole follows."""
        if k < 0:
            return 0.0
        token = self.tokens[k]
        following = self.tokens[k + 1].at if k + 1 < len(self.tokens) else token.until
        return following if following - token.until < HOLE_S else max(token.until, token.at)

    def shortly_before_the_end(self, k: int) -> float:
        """The second from which one hears the end of the words up to token k and then what does not follow: within their last caption."""
        if k < 0:
            return 0.0
        first = k
        while first and self.tokens[first - 1].until == self.tokens[k].until:
            first -= 1
        begins = self.tokens[first].at
        end = self.after(k)
        return (begins + end) / 2 if end - begins <= 3 * LEAD_S else end - LEAD_S


def lay_out(tokens: list[Token], units: Sequence[Unit], terms: System, *, quoting: bool = False) -> Speech:
    """The rows found in the words. `quoting`: the speaker translates, and what "the page says" is quoted in the page's terms."""
    anchors = besides(tokens, named_behind(tokens, anchors_of(tokens)))
    names = part_words(units)
    both = len({unit.called for unit in units}) > 1
    hints = [_hint(tokens, anchors, i, terms) for i in range(len(anchors))]
    hints = [replace(hint, part=part_near(tokens, one.k, one.end, names)) for hint, one in zip(hints, anchors, strict=True)]
    if both:
        hints = [replace(hint, noun=_noun_said(tokens, one)) for hint, one in zip(hints, anchors, strict=True)]
    meant = align(units, anchors, hints)
    stretches = _stretches(tokens, meant, units, terms, names)
    for stretch in stretches if quoting else ():
        stretch.heard = [h for h in stretch.heard if not quoted(tokens, h.k)]
    return Speech(tokens, meant, stretches, _edited(tokens), _letters_a_second(tokens))


def _letters_a_second(tokens: Sequence[Token]) -> float:
    """The median over the captions, of a few words each at least."""
    paces, first = [], 0
    for k in range(1, len(tokens)):
        if tokens[k].until != tokens[k - 1].until:
            seconds = tokens[k].at - tokens[first].at
            if k - first >= FEW and seconds > 0:
                paces.append(sum(len(token.raw) + 1 for token in tokens[first:k]) / seconds)
            first = k
    return max(median(paces), SLOWEST) if len(paces) >= FEW else SLOWEST


SLOWEST = 9.0
"""Fewer letters a second hardly anybody says: where captions make it fewer, there are pauses in them (ours)."""


def _edited(tokens: Sequence[Token]) -> bool:
    marks = sum(token.stop for token in tokens if not token.ends)
    capitals = sum(token.raw[:1].isupper() for token in tokens)
    commas_only = not any(token.mark in ".!?" for token in tokens if token.stop and not token.ends)
    return marks * 9 >= len(tokens) and (commas_only or capitals * 25 >= len(tokens))


def _noun_said(tokens: Sequence[Token], anchor: Anchor) -> str:
    """ "row" or "round", as it was said; "" where neither was, or only a sound like it."""
    for token in tokens[anchor.k : anchor.end]:
        if token.kind in ("row", "rows"):
            return "row" if token.text.startswith("row") else "round" if token.text.startswith(("round", "rnd")) else ""
    return ""


def _hint(tokens: list[Token], anchors: list[Anchor], i: int, terms: System) -> Hint:
    start = anchors[i].end
    end = next((a.k for a in anchors[i + 1 :] if a.how in ("begins", "closes")), len(tokens))
    end = min(end, start + (FAINTLY if anchors[i].sure <= FAINT else OUTRIGHT))
    counts = tuple(told.number for told in tallies(tokens, start, end) if told.strength >= 0.6 and told.number > FEW)
    heard = heard_in(tokens, start, end, terms)
    kinds = {h.item.plain for h in heard if h.item.what and h.item.kind in ("st", "inc", "dec")}
    others = frozenset(h.other.plain for h in heard if h.other is not None)
    if anchors[i].how == "closes":
        return Hint(counts[:1], frozenset(), False)
    squares = sum(token.text in ("open", "filled") for token in tokens[start:end]) >= 3
    squares = squares or any(token.kind == "row" for token in tokens[start : start + 3])  # "row ten is row four"
    told = any(t.kind == "num" or t.text == "plain" for t in tokens[start : min(end, start + 6)])  # "Round ten, plain on eighteen"
    works = bool(heard) or bool(counts) or squares or told or any(token.kind == "repeat" for token in tokens[start:end])
    shapes = frozenset(h.item.kind for h in heard if h.item.kind in ("inc", "dec") and h.clear >= CLEAR)
    numbers = frozenset(t.number for t in tokens[start : min(end, start + WORK_WORDS)] if t.kind == "num" and t.sure == 1 and t.number > 1)
    upto = next((j for j in range(i + 1, len(anchors)) if anchors[j].how in ("begins", "closes", "next")), len(anchors))
    as_told = frozenset(one.first for one in anchors[i + 1 : upto] if one.how == "refers" and one.first == one.last and one.k < end)
    return Hint(counts[-1:], frozenset(kinds), works, shapes=shapes, numbers=numbers, others=others, refers=as_told)


def _stretches(tokens: list[Token], meant: list[Meant], units: Sequence[Unit], terms: System, names: Mapping[str, int]) -> list[Stretch]:
    found: list[Stretch] = []
    marks = [m for m in meant if m.unit is not None]
    for i, mark in enumerate(marks):
        unit = mark.unit
        assert unit is not None
        end = marks[i + 1].anchor.k if i + 1 < len(marks) else len(tokens)
        late = not found and (mark.anchor.how == "closes" or _named_late(tokens, mark, end))
        start = _first_work(tokens, mark.anchor.k) if late else mark.anchor.k
        if (
            found
            and found[-1].unit.index == unit.index
            and (mark.anchor.how in ("closes", "until", "repeats", "perhaps") or not mark.right or _named_again(found[-1], mark))
        ):
            found[-1].end = end
            if mark.anchor.last in unit.numbers:
                found[-1].number = mark.anchor.last
            continue
        found.append(Stretch(mark, unit, _number(mark, unit), start, end))
    found = [*_unnamed(tokens, found, units, terms), *found]
    for stretch in found:
        stretch.end = _until_other_part(tokens, stretch, names)
    named = {k for mark in marks for k in range(*mark.anchor.named)}
    for stretch in found:
        stretch.counts = [told for told in tallies(tokens, stretch.start, stretch.end) if told.k not in named]
        own = stretch.unit.instructed | stretch.unit.lent
        known = stretch.unit.any_allowed
        small = frozenset(n for n in own if n <= FEW) - {
            row.counted.total for row in stretch.unit.rows
        }  # "the center gets two doubles": no count of its two spaces
        counts = [
            told
            for told in stretch.counts
            # "every stitch gets one double crochet" is work
            if not (told.number == 1 and tokens[told.k - 1].text in ("gets", "get", "takes"))
            and (
                (
                    told.strength >= 0.8
                    and (told.number in known - small or not (_nearer(told.number, own, known) or _ends_with(tokens, told.k)))
                )
                or (told.strength >= 0.6 and told.number not in own and not far_too_few(told, known) and not rather_of_work(told, stretch))
            )
        ]
        counted = {k for told in counts for k in _noun_of(tokens, told.k)}
        stretch.heard = [h for h in heard_in(tokens, stretch.start, stretch.end, terms) if h.k not in counted]
    return found


def far_too_few(told: Told, known: frozenset[int]) -> bool:
    """Whether a small number of stitches that nothing tells to be a count is none, as the row has many more: "Two singles, then …"."""
    few = told.number <= FEW or told.number * FEW <= min(known, default=0)
    return bool(told.noun) and few and told.strength < 0.8 and min(known, default=0) > 2 * FEW


def rather_of_work(told: Told, stretch: Stretch) -> bool:
    """Whether a number of stitches that is no count of the row, and nearly a number of its words, is rather that: the right count is told
    behind it ("thirteen doubles in the ring … that is twelve", where the page has "11 dc in ring. (12 dc)")."""
    unit = stretch.unit
    if told.number in unit.any_allowed or not told.noun or told.strength >= 0.8:
        return False
    near = any(n > 1 and abs(told.number - n) <= NEARLY for n in unit.instructed)
    return near and any(other.k > told.k and other.number in unit.any_allowed - unit.instructed for other in stretch.counts)


NEARLY = 2
"""So far a number told wrongly may be from the one in the row's words (ours)."""


def _nearer(number: int, own: frozenset[int], known: frozenset[int]) -> bool:
    """Whether a number is one of the instruction, or nearly, and no count, nor nearly: "in the next we make six double crochet"."""
    return number in own or (any(abs(number - n) <= 2 for n in own if n > 1) and not any(abs(number - n) <= 2 for n in known))


def _named_late(tokens: Sequence[Token], mark: Meant, end: int) -> bool:
    """Whether the first row is worked before it is named: "We put seven double crochets in the ring. So first round, seven points.", "Round
    one, twelve trebles in all"."""
    anchor, counts = mark.anchor, mark.unit.any_allowed if mark.unit is not None else frozenset[int]()
    before = any(t.kind == "ring" for t in tokens[: anchor.k]) and any(t.kind == "st" for t in tokens[: anchor.k])
    return (
        before
        and anchor.first == 1
        and not any(
            tokens[k].kind in ("st", "ring", "increase") and not (tokens[k - 1].kind == "num" and tokens[k - 1].number in counts)
            for k in range(anchor.end, end)
        )
    )


def _first_work(tokens: Sequence[Token], k: int) -> int:
    """Where the first work before token k begins: "Ring. Eight doubles in it. Slip stitch. That was round one."."""
    first = next((i for i in range(k) if tokens[i].kind in ("st", "ring", "chain", "stitch")), k)
    return sentence(tokens, first)[0]


def _unnamed(tokens: list[Token], found: Sequence[Stretch], units: Sequence[Unit], terms: System) -> list[Stretch]:
    """The very first row, where it is worked before the second is named and has no name of its own: "Single crochet in the second chain …
    Turn. Row two"."""
    if not found or found[0].unit.index != 1 or found[0].unit.part != units[0].part or any(s.unit.index == 0 for s in found):
        return []
    end = found[0].start
    worked = [h for h in heard_in(tokens, 0, end, terms) if h.item.kind in ("st", "inc") and h.clear >= CLEAR]
    if not worked:
        return []
    start = sentence(tokens, worked[0].k)[0]
    unit = units[0]
    anchor = Anchor(start, start, "begins", unit.first, unit.first, tokens[start].at, UNNAMED)
    return [Stretch(Meant(anchor, unit, True), unit, unit.first, start, end)]


UNNAMED = 0.5
"""How surely a row is told that is not named (ours)."""


def _until_other_part(tokens: Sequence[Token], stretch: Stretch, names: Mapping[str, int]) -> int:
    """Where a row ends because another part is begun that names none: "Now a leaf. Chain nine."."""
    for k in range(stretch.begins + 1, stretch.end):
        part = names.get(tokens[k].text.removesuffix("s"))
        if part is None or part == stretch.unit.part:
            continue
        first = sentence(tokens, k)[0]
        if k - first > 4 or first <= stretch.begins:
            continue
        if any(token.kind in ("chain", "ring") for token in tokens[k + 1 : min(k + 10, stretch.end)]):
            return first
    return stretch.end


ANNOUNCED = 14
"""Words within which a row named twice is told once: "Now we're on round three. Chain one. In round three we work …" (ours)."""


def _named_again(before: Stretch, mark: Meant) -> bool:
    """Whether a row is only named once more at its beginning."""
    one, other = before.meant.anchor, mark.anchor
    return (one.first, one.last) == (other.first, other.last) and other.k - one.k <= ANNOUNCED


def _ends_with(tokens: Sequence[Token], k: int) -> bool:
    """Whether the number is of the last stitches of a row: "over and over, ending with four singles"."""
    return k > 1 and tokens[k - 1].text == "with" and tokens[k - 2].text in ("ending", "end", "ends", "finish", "finishing")


def _noun_of(tokens: list[Token], k: int) -> tuple[int, ...]:
    """The places of the stitch name that a count counts: "24 double crochet", "8 front post treble"."""
    if k + 2 < len(tokens) and tokens[k + 1].kind in ("front post", "back post"):
        return (k + 1, k + 2)
    return (k + 1,)


def _number(mark: Meant, unit: Unit) -> int:
    """The row whose count is told at the stretch's end."""
    if mark.anchor.first and mark.anchor.first == mark.anchor.last and mark.anchor.first in unit.numbers and mark.right:
        return mark.anchor.first
    return mark.anchor.last if mark.anchor.last in unit.numbers else unit.last
