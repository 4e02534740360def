"""The three stages put together: the laid-out text, the words of the pattern, and its parts read with them."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from ..pattern import LIMITS, Aside, Part, Pattern, Row, Seam, Sized, Span, Step, Trouble, Unread, once
from ..pattern.walking import walk
from .facts import Told, facts_of
from .groups_meant import with_groups_meant
from .lining.front import read_front
from .lining.layout import Layout, PartDraft, lay_out
from .lining.lettered import unlettered
from .lining.lines_told import corner_to_corner
from .lining.listed import unlisted
from .lining.tables import told_as_rows
from .one_end import begun_at_one_end, turned_told
from .part import PartReader
from .pieces import anywhere, holds, pieces, remembered
from .rows import Context, Lexicon
from .seams import seams_of
from .size_lines import kept_for_sizes
from .size_sentences import sizes_called
from .sizes_named import size_names_of
from .sizes_only import only_of
from .sizes_told import how_many_sizes
from .specials_told import lexicon_of
from .starting_told import starting_rules
from .wording.characters import plain
from .wording.scanned import mended
from .wording.terms import Decided, decide, us_id
from .wording.tokens import tokens
from .wording.vocabulary import NUMBERS

_TUNISIAN = re.compile(
    r"\b(?:forward pass|return pass|return pull|[Tt]unisian|FwP|RetP|T[skp]s)\b|"
    r"(?i:\bupright\s(?:threads?|bars?|loops?)\b|\bafghan[\s-](?:sts?|stitch(?:es)?|hook|needle)\b|"
    r"\btricot\s(?:st|crochet|needle|hook)|"
    r"\b(?:keep|leav|retain)(?:ing|e)?\sall\s(?:the\s)?(?:(?:loops|lps)\s)?(?:all\s)?on\s(?:the\s)?(?:hook|needle)\b"
    r"(?=.{0,260}?(?:\bwork(?:ing)?\s(?:back|off)\b|through\s(?:1|one|(?:the\s)?first)\s(?:loop|lp|st)))(?s:.?)|"
    r"\b(?:[89]|\d{2,3})\s(?:loops|lps)\son\s(?:the\s)?hook\b"
    r"(?=.{0,80}?through\s(?:1|one)\s(?:loop|lp)\b.{0,60}?through\s(?:2|two)\s(?:loops|lps)))",
    re.DOTALL,
)
"""Words of Tunisian work, also as old books have it: afghan stitch, loops kept on the hook and worked off coming back."""
_OF_TUNISIAN = (
    "ward pass", "return pass", "return pull", "tunisian", "fwp", "retp", "tss", "tks", "tps", "upright", "afghan", "tricot", "keep",
    "leav", "retain", "s on hook", "s on the hook",
)  # fmt: skip
"""One of these stands in all of them."""
_MAKE = re.compile(r"\(?\s*(?:make|x|work)\s*(\d+|one|two|three|four|five|six)\b|\b(\d+)\s*x\)|\(\s*both\s*\)|\(\s*x\s?(\d+)\s*\)", re.I)
_tiles_named = anywhere(re.compile(r"(?i)\b(?:blocks?|tiles?|squares?|pixels?)\b"), "block", "tile", "square", "pixel")
_numbered = anywhere(
    re.compile(r"(?i)(?:\d|\b(?:one|two|three|four|five|six|seven|eight|nine|ten))\s(?:chain|plain|treble|long)\b"),
    "chain", "plain", "treble", "long",
)  # fmt: skip
_told_by_place = anywhere(
    re.compile(r"\b(?:rep\b|from (?:the )?hook|(?<!the )next\s(?!\d+\schains?\b)[^\s;,.]|each st(?!itch))"),
    "rep",
    "hook",
    "next",
    "each st",
)
_BARE_REPEAT = re.compile(r"[:;,-]\s{0,2}repeat(?=[.,;]|\s*$)", re.IGNORECASE | re.MULTILINE)
"""A unit that goes round, said by no more than the word: "3 chain, 1 plain in the 3 chain: repeat."."""
_in_so_many_words = anywhere(re.compile(r"\bthe next\s[^\s;,.]|\beach stitch"), "the next", "each stitch")
"""Said by old books too ("5 long in the next stitch", "one in each stitch"), which then mark no repeat with a star."""
_SEVERAL = re.compile(r"(?i)\b[a-z]+s\s(\d{1,2})\s?(?:to|through|thru|-|and|&)\s?(\d{1,2})$")
"""Pieces alike, numbered in one name: "Arms 2 to 5"."""


class Assembly:
    """One reading of one text."""

    def __init__(self, text: str) -> None:
        self.source = text
        self.text = unlettered(unlisted(told_as_rows(mended(plain(text)))))
        self.front = read_front(text)
        self.layout: Layout = lay_out(self.text, self.front.end)
        self.troubles: list[Trouble] = []
        self.notes: list[Span] = []
        self.ids = 1
        self.row_ids = 0
        self.rows_left = LIMITS.rows
        self.in_rounds = False
        """The part before ended in rounds."""
        self.lexicon = Lexicon()
        self.sizes = 1

    def pattern(self) -> Pattern:
        """The pattern, its facts and troubles."""
        self.told: Told = facts_of(self.source, self.text, self.front, self.layout)
        self.troubles += self.told.troubles
        self.notes = [Span(a, b) for a, b in self.layout.notes]
        body = self.text[self.front.end :]
        self.terms = self.told.decided or decide(body, self.told.terms)
        self.sizes = how_many_sizes(self.told.facts, body)
        self._name_sizes(body)
        self.starting = starting_rules((self.text[a:b] for a, b in self.layout.notes), self.terms.terms)
        begun = [(row.start, row.end) for part in self.layout.parts for row in part.rows[:1] if row.label is None]
        self.one_end = any(begun_at_one_end(self.text[a:b]) for a, b in (*self.layout.notes, *begun))
        self.turned = any(turned_told(self.text[a:b]) for a, b in self.layout.notes)
        self.lexicon = lexicon_of(self.text, self.layout, self.terms.terms, self.sizes, self.troubles)
        parts = [part for part in map(self._part, self.layout.parts) if part.rows]
        parts = with_groups_meant(parts, dict(self.lexicon.specials), self.text)
        if self.terms.mixed:
            at = Span(self.front.end, self.front.end)
            self.troubles.append(
                Trouble(
                    kind="mixed-terms",
                    span=at,
                    message="words of US and of UK terms stand in one text",
                    data={"because": self.terms.because},
                )
            )
        self._unequal(parts)
        facts = self.told.facts
        if self.sizes > 1 and not facts.size_names:
            facts = replace(facts, size_names=_unnamed(self.sizes))
        return Pattern(
            source=self.source, language=self.told.language, terms=self.terms.terms, terms_because=self.terms.because, facts=facts,
            defined=dict(self.lexicon.specials), parts=tuple(parts), seams=self._seams(parts), notes=tuple(sorted(set(self.notes))),
            troubles=tuple(sorted(self.troubles, key=lambda trouble: trouble.span)),
        )  # fmt: skip

    def _seams(self, parts: list[Part]) -> tuple[Seam, ...]:
        """What the prose set aside, the remarks inside rows and the front matter's finishing tell of putting pieces together."""
        pieces = [(at.of(self.source), at) for at in sorted(set(self.notes)) if at.start >= self.front.end]
        for part in parts:
            for row in part.rows:
                pieces += [(span.of(self.source), span) for span in _remarks(row.steps)]
        told = self.told.facts.notes.get("finishing")
        if isinstance(told, str):
            pieces.append((told, self.told.facts.spans.get("finishing", self.front.spans.get("finishing", Span(0, 0)))))
        return seams_of(pieces, [part.name for part in parts])

    def _name_sizes(self, body: str) -> None:
        """The names of the sizes, from the prose where it tells as many as the numbers show; and the rows kept for some of them."""
        told = self.told.facts
        names = told.size_names or size_names_of(body) or sizes_called(body)
        if not names and self.sizes > 1:
            names = _unnamed(self.sizes)
        self.kept = kept_for_sizes(self.text, self.front.end, names)
        if not told.size_names and names and (len(names) == self.sizes or (self.sizes == 1 and self.kept)):
            self.told.facts, self.sizes = replace(told, size_names=names), len(names)
        elif not told.size_names:
            self.kept = []

    # ---- parts ---------------------------------------------------------------------------------------------------------------
    def _part(self, draft: PartDraft) -> Part:
        end = draft.end or len(self.text)
        terms = self._terms_of(draft, end)
        context = Context(
            tiles=self._tiles(),
            terms=terms.terms, main=self._main(draft, terms), sizes=self.sizes, size_names=self.told.facts.size_names,
            colours=self.told.colours, old=self._old(draft), filet=self._filet(draft), passes=self._passes(draft),
            parts=self._other_names(draft),
        )  # fmt: skip
        reader = PartReader(self, draft, context)
        rows = reader.rows()
        only = only_of(draft.heading, self.told.facts.size_names)
        return Part(
            name=draft.name, of=draft.of, copies=self._copies(draft), only=only, rows=rows, terms=terms.terms, span=Span(draft.start, end)
        )

    def _tiles(self) -> bool:
        """Whether a chart of colours counts blocks, as pieces worked from corner to corner have it."""
        return corner_to_corner(self.text) and _tiles_named(self.text)

    def _passes(self, draft: PartDraft) -> bool:
        """Whether a part is Tunisian, by its own words."""
        return _tunisian.any_of(pieces(self.text[draft.start : draft.end or len(self.text)]))

    def _other_names(self, draft: PartDraft) -> tuple[str, ...]:
        """The names by which the row's words may mean another piece: sections of a piece by both names, and the piece they make up."""
        parts = self.layout.parts[:200]
        names = dict.fromkeys(one.name for one in parts if one.name and one is not draft)
        for one in parts:
            if one.of and one.of != draft.of:
                names.update(dict.fromkeys((one.of, f"{one.of} {one.name}", f"{one.name} of {one.of}")))
        return tuple(names)

    def _terms_of(self, draft: PartDraft, end: int) -> Decided:
        if self.terms.told:
            return self.terms
        own = decide(self.text[draft.start : end])
        return own if own.told else self.terms

    def _copies(self, draft: PartDraft) -> Sized[int]:
        several = _SEVERAL.search(draft.name)
        if several and int(several[1]) < int(several[2]) < 100:
            return Sized((int(several[2]) - int(several[1]) + 1,))
        match = _MAKE.search(draft.heading)
        if not match:
            return Sized((1,))
        word = next((group for group in match.groups() if group), "2").lower()
        return Sized((NUMBERS.get(word) or (min(int(word), 10_000) if word.isdigit() else 1),))

    def _old(self, draft: PartDraft) -> bool:
        """An old book's part: numbers and stitch names only, no "next" or "each"."""
        text = self.text[draft.start : draft.end or len(self.text)]
        starred = "*" in text and _in_so_many_words(text) and len(_BARE_REPEAT.findall(text)) <= text.count("*")
        return _numbered(text) and not _told_by_place(text) and not starred and not self._passes(draft)

    def _filet(self, draft: PartDraft) -> bool:
        text = self.text[draft.start : draft.end or len(self.text)]
        low = text.lower()
        if _IN_A_ROW.search(text):
            return True
        if low.count("mesh") + low.count("om") < 2 and (low.count("bl") < 2 or "sp" not in low):
            return False
        if _SQUARES.search(text):
            return True
        return len(_BLOCKS.findall(text)) >= 2 and len(_SPACES.findall(text)) >= 2

    def _main(self, draft: PartDraft, terms: Decided) -> str | None:
        """The stitch that the part is mainly made of; single crochet in the round of a toy, when nothing else stands there."""
        text = self.text[draft.start : draft.end or len(self.text)][:60_000]
        letters = any(entry[0] in ("inc", "dec") for _, entry in self.lexicon.words)  # "V = increase"
        if not letters and not _asks_main.any_of(pieces(text)):
            return None
        kinds: Counter[str] = Counter()
        for piece in pieces(text[:20_000]):
            for name, n in _stitches(piece, self.lexicon):
                kinds[us_id(name, terms.terms)] += n
        return kinds.most_common(1)[0][0] if kinds else "sc"

    def _unequal(self, parts: list[Part]) -> None:
        """Numbers given for another number of sizes than the pattern has."""
        if self.sizes < 2:
            return
        for part in parts:
            for row in part.rows:
                for sized, span in _sized_in(row):
                    if sized.many and len(sized.values) != self.sizes:
                        self.troubles.append(
                            Trouble(kind="sizes-unequal", span=span, message=f"{len(sized.values)} numbers are given for {self.sizes} sizes: {sized}",  # noqa: E501
                                    data={"given": len(sized.values), "sizes": self.sizes, "row": row.label})
                        )  # fmt: skip


@once
def _remarks(steps: tuple[Step, ...]) -> tuple[Span, ...]:
    return tuple(step.span for step in walk(steps) if isinstance(step, (Aside, Unread)))


def _unnamed(sizes: int) -> tuple[str, ...]:
    """What sizes are called that the pattern gives no names."""
    return tuple(f"size {k + 1}" for k in range(sizes))


_MAIN_ASKED = re.compile(
    r"(?i)(?<![a-z])(?:inc|dec|invdec|increas\w*|decreas\w*|widen\w*|pat|patt|pattern|lose|work(?:ing)?\s(?:even|straight|to|across|over))(?![a-z])"
    r"|(?<![\w.])[1-5]\sin\s(?:the\s)?(?:each|every|next)\b"
)
""" What needs a stitch that is named elsewhere: shapings, "work even", "2 in each". """


_HOLD_MAIN = ("inc", "dec", "widen", "pat", "lose", "work", " in each", " in next", " in the next", " in every")
"""What every one of them holds."""


@remembered
def _tunisian(text: str) -> bool:
    return holds(text, _OF_TUNISIAN) and _TUNISIAN.search(text) is not None


@remembered
def _asks_main(text: str) -> bool:
    return holds(text, _HOLD_MAIN) and _MAIN_ASKED.search(text) is not None


@lru_cache(maxsize=512)
def _stitches(text: str, lexicon: Lexicon) -> tuple[tuple[str, int], ...]:
    """The stitch names in a text and how often each stands there, slip stitches left out."""
    found = Counter(str(token.val) for token in tokens(text, 0, len(text), lexicon.trie) if token.kind == "st" and token.val != "sl st")
    return tuple(found.items())


_BLOCKS = re.compile(
    r"(?i)(?<![a-z])(?:\d+\s)?bl(?:k?s?|ocks?)(?![a-z])|\d\s(?:blocks?|(?:solid|filled|closed)\smesh(?:es)?|[SFC]Ms?)(?![a-z])"
)
_SQUARES = re.compile(
    r"(?i)\b(?:\d+|an?|one|two|three|four|five)\s(?:more\s)?(?:blocks?|spaces?)\s*[,;]\s*(?:and\s)?(?:\d+|an?|one|two|three|four|five)\s(?:more\s)?"
    r"(?:blocks?|spaces?)\b|\b(?P<one>bl|block|sp|space)s?\s(?:over|above)\s(?:each\s|the\s)?(?P=one)s?\b"
)
"""Squares told by their names."""
_IN_A_ROW = re.compile(
    r"(?i)\b\d{1,2}\s?sps?,\s(?:and\s)?(?:an?\s|\d{1,2}\s?)?bls?\b|\bbls?,\s(?:and\s)?\d{1,2}\s?sps?\b|[:=]\s?\d{1,2}\s?sps?,\s"
)
""" "2 sps, bl, 3 sps", "3rd row: 3 sps, …": squares told one after another, in their short forms. """
_SPACES = re.compile(
    r"(?i)open\smeshes\s(?:across\s)?to\b|\d\s(?:more\s)?(?:OMs?|open\smesh(?:es)?)(?![a-z])"
    r"|(?:(?<!ch)(?<!ch[ -])\d|another|more|over|\(|,)\s?sps?(?![a-z])"
)


def _sized_in(row: Row) -> Iterator[tuple[Sized[int], Span]]:
    for step in walk(row.steps):
        for name in ("number", "each", "places", "but", "change"):
            value = getattr(step, name, None)
            if isinstance(value, Sized):
                yield value, step.span
    for count in row.stated:
        yield count.number, count.span


__all__ = ["Assembly"]
