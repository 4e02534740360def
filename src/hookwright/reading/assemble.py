"""The three stages put together: the laid-out text, the words of the pattern, and the rows read with them."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace

from ..pattern import LIMITS, Chain, Make, Part, Pattern, Place, Ring, Row, Seam, Sized, Span, Special, Step, Trouble, Turn, Unread, Until
from .facts import Told, facts_of
from .lining.front import read_front
from .lining.labels import Label
from .lining.layout import Layout, PartDraft, RowDraft, lay_out
from .made_in import decide_made_in
from .rows import Context, Lexicon, RowReading, at, read_row
from .sizes_only import only_of
from .sizes_told import how_many_sizes
from .specials_told import lexicon_of
from .wording.characters import plain
from .wording.terms import Decided, decide, us_id
from .wording.tokens import tokens

_MAKE = re.compile(r"\(?\s*(?:make|x|work)\s*(\d+|one|two|three|four|five|six)\b|\b(\d+)\s*x\)|\(\s*both\s*\)|\(\s*x\s?(\d+)\s*\)", re.I)
_WORDS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}


class Assembly:
    """One reading of one text."""

    def __init__(self, text: str) -> None:
        self.source = text
        self.text = plain(text)
        self.front = read_front(text)
        self.layout: Layout = lay_out(self.text, self.front.end)
        self.troubles: list[Trouble] = []
        self.ids = 1
        self.rows_left = LIMITS.rows
        self.row_id = 0
        self.notes: list[Span] = []
        self.seams: list[Seam] = []

    def pattern(self) -> Pattern:
        told = facts_of(self.source, self.text, self.front, self.layout)
        self.troubles += told.troubles
        self.notes = [Span(a, b) for a, b in self.layout.notes]
        self.told = told
        body = self.text[self.front.end :]
        self.terms = decide(body, told.terms)
        self.sizes = how_many_sizes(told.facts, body)
        self.lexicon = lexicon_of(self.text, self.layout, self.terms.terms, self.sizes)
        parts = [self._part(draft) for draft in self.layout.parts]
        if self.terms.mixed:
            self.troubles.append(Trouble(kind="mixed-terms", span=Span(self.front.end, self.front.end), message="words of US and of UK terms stand in one text", data={"because": self.terms.because}))
        defined = {name: special for name, special in self.lexicon.specials}
        facts = told.facts
        if self.sizes > 1 and not facts.size_names:
            facts = replace(facts, size_names=tuple(f"size {k + 1}" for k in range(self.sizes)))
        self._unequal(parts)
        return Pattern(
            source=self.source, language=told.language, terms=self.terms.terms, terms_because=self.terms.because, facts=facts,
            defined=defined, parts=tuple(part for part in parts if part.rows), seams=tuple(self.seams),
            notes=tuple(sorted(set(self.notes))), troubles=tuple(sorted(self.troubles, key=lambda trouble: trouble.span)),
        )  # fmt: skip

    # ---- parts ---------------------------------------------------------------------------------------------------------------
    def _part(self, draft: PartDraft) -> Part:
        end = draft.end or len(self.text)
        terms = self._terms_of(draft, end)
        main = self._main(draft, terms)
        context = Context(
            terms=terms.terms, main=main, sizes=self.sizes, size_names=self.told.facts.size_names, colours=self.told.colours, old=self._old(draft),
            parts=tuple(dict.fromkeys(one.name for one in self.layout.parts if one.name and one is not draft)),
        )  # fmt: skip
        rows: list[Row] = []
        self._hereafter = ""
        self._ring = False
        for k, one in enumerate(draft.rows):
            if self.rows_left <= 0:
                self.troubles.append(Trouble(kind="too-long", span=Span(one.start, one.end), message=f"more than {LIMITS.rows:,} rows; the rest was not read"))
                break
            self.rows_left -= 1
            row = self._row(one, k, draft, context, rows)
            if row is not None:
                rows += self._foundation_apart(row)
        rows = decide_made_in(rows, draft.name)
        rows = _even_and_odd(rows)
        return Part(name=draft.name, copies=self._copies(draft), rows=tuple(rows), terms=terms.terms, span=Span(draft.start, end))

    def _terms_of(self, draft: PartDraft, end: int) -> Decided:
        if self.terms.told:
            return self.terms
        own = decide(self.text[draft.start : end])
        return own if own.told else self.terms

    def _copies(self, draft: PartDraft) -> Sized[int]:
        match = _MAKE.search(draft.heading)
        if not match:
            return Sized((1,))
        word = next((group for group in match.groups() if group), "2").lower()
        return Sized((_WORDS.get(word) or min(int(word), 10_000) if word.isdigit() or word in _WORDS else 1,))

    def _old(self, draft: PartDraft) -> bool:
        text = self.text[draft.start : draft.end or len(self.text)]
        return bool(re.search(r"\d\s(?:chain|plain|treble|long)\b", text)) and not re.search(r"\b(?:rep|hook|next|each st)\b", text)

    def _main(self, draft: PartDraft, terms: Decided) -> str | None:
        """The stitch that the part is mainly made of; single crochet in the round of a toy, when nothing else stands there."""
        kinds: Counter[str] = Counter()
        told = False
        for one in draft.rows[:60]:
            for token in tokens(self.text, one.start, min(one.end, one.start + 4000), self.lexicon.trie):
                if token.kind == "st" and token.val != "sl st":
                    kinds[us_id(str(token.val), terms.terms)] += 1
                told = told or token.kind in ("inc", "dec")
        if not told:
            return None
        if kinds:
            return kinds.most_common(1)[0][0]
        return "sc"

    # ---- rows ----------------------------------------------------------------------------------------------------------------
    def _row(self, draft: RowDraft, k: int, part: PartDraft, context: Context, rows: list[Row]) -> Row | None:
        label = draft.label
        start, end = _trim(self.text, draft.start, draft.end)
        if label is None and start >= end:
            return None
        if start >= end and label is not None:
            self.troubles.append(Trouble(kind="row-without-text", span=Span(label.start, label.end), message=f"{label.text} has no instruction"))
        noun = label.noun if label else (rows[-1].noun if rows else "row")
        context = replace(
            context, rounds=noun == "round" or self._ring or any(row.made_in != "rows" for row in rows[-1:]), loop=self._hereafter,
            begins=not any(_has_stitches(row) for row in rows) and not any(_founded(row) for row in rows), magic=self._waiting(rows),
        )  # fmt: skip
        reading = read_row(self.text[start:end], context, self.lexicon)
        if self._unsaid_ring(reading, context, part):
            reading = read_row(self.text[start:end], replace(context, magic=True, begins=False), self.lexicon)
            reading.steps = (Ring(id=reading.nodes + 1), *reading.steps) if not isinstance(reading.steps[0], Ring) else reading.steps
            reading.nodes += 1
        steps, counts, troubles = at(reading, start, self.ids - 1)
        self.ids += reading.nodes
        self.troubles += troubles
        self._unread(steps)
        self._defined(reading, start)
        if "hereafter_loop" in reading.told:
            loop = str(reading.told["hereafter_loop"])
            self._hereafter = "" if loop == "both" else loop
        if "skipped" in reading.told:
            steps = _with_skipped(steps, rows, reading.told["skipped"])
        if reading.in_ring:
            self._ring = True
        if not steps and not counts and label is None:
            self.notes.append(Span(start, end))
            return None
        return self._made(draft, label, part, k, rows, steps, counts, reading, Span(label.start if label else start, max(end, label.end if label else end)))

    def _foundation_apart(self, row: Row) -> list[Row]:
        """ "Row 1: 24 fsc. Ch 2, turn. Hdc across.": the foundation stitches are a row, and Row 1 stands on them. """
        first = next((k for k, step in enumerate(row.steps) if isinstance(step, Make) and step.at.where == "hook"), None)
        turn = next((k for k, step in enumerate(row.steps) if isinstance(step, Turn) and not step.no), None)
        if first is None or turn is None or turn < first or not any(type(step).__name__ in ("Make", "Repeat", "Together") for step in row.steps[turn + 1 :]):
            return [row]
        cut = turn + 1
        before = row.steps[:cut]
        self.row_id += 1
        early = tuple(count for count in row.stated if before and count.span.end <= before[-1].span.end)
        base = replace(row, label="Foundation", numbers=(), steps=before, stated=early, span=Span(row.span.start, before[-1].span.end))
        rest = replace(row, id=self.row_id, steps=row.steps[cut:], stated=tuple(count for count in row.stated if count not in early), span=Span(before[-1].span.end, row.span.end))
        return [base, rest]

    def _unsaid_ring(self, reading: RowReading, context: Context, part: PartDraft) -> bool:
        """A first round that says neither what it is worked into nor how it begins ("Rnd 1: ch 3, 2 dc, ch 2, …, join"): into a ring."""
        if not context.begins or part is not self.layout.parts[0] or not reading.steps:
            return False
        chain = reading.steps[0]
        if not (isinstance(chain, Chain) and chain.foundation and (chain.number.values[0] or 9) <= 4):
            return False
        return any(type(step).__name__ == "Join" for step in reading.steps) and any(isinstance(step, Make) and step.at == Place() for step in reading.steps[1:3])

    def _waiting(self, rows: list[Row]) -> bool:
        """The row before only made a ring: it is still to be filled."""
        if not rows:
            return False
        last = rows[-1]
        return any(isinstance(step, Ring) for step in last.steps) and not any(isinstance(step, Make) for step in last.steps)

    def _made(self, draft: RowDraft, label: Label | None, part: PartDraft, k: int, rows: list[Row], steps: tuple[Step, ...], counts: tuple, reading: RowReading,
              span: Span) -> Row:  # fmt: skip
        self.row_id += 1
        told = reading.told
        until = told.get("until")
        if isinstance(until, Until):
            until = replace(until, span=Span(until.span.start + draft.start, until.span.end + draft.start))
        rows_count = told.get("rows_count")
        if label is None:
            name, numbers = self._unlabelled(draft, part, k, rows, steps)
        else:
            name, numbers = label.text, label.numbers
            if label.kind == "next" and label.count != (1,):
                rows_count = Sized(label.count)
        if told.get("until_rows") and until is not None:
            last = max((n for row in rows for numbers_of in row.numbers for n in numbers_of), default=0)
            if last and told["until_rows"] > last:
                rows_count, until = Sized((min(told["until_rows"] - last, LIMITS.rows),)), None
        side = told.get("side") or _side(label.note if label else "")
        return Row(
            id=self.row_id, label=name, numbers=numbers, rows_count=rows_count if isinstance(rows_count, Sized) and not (numbers and numbers[0]) else None,
            noun=label.noun if label else (rows[-1].noun if rows else "row"), side=side, steps=steps, stated=counts,
            until=until if isinstance(until, Until) else None, span=span, only=only_of(label.note if label else "", self.told.facts.size_names),
            label_span=Span(label.start, label.label_end or label.end) if label else Span(span.start, span.start),
        )  # fmt: skip

    def _unlabelled(self, draft: RowDraft, part: PartDraft, k: int, rows: list[Row], steps: tuple[Step, ...]) -> tuple[str, tuple[tuple[int, ...], ...]]:
        """The name of a row that has none: Row 1 after a foundation chain, Foundation, Repeat, or its number in turn."""
        if draft.repeat or any(type(step).__name__ == "Refer" for step in steps[:2]):
            return "Repeat", ()
        following = next((one.label for one in part.rows[k + 1 :] if one.label and one.label.numbers and one.label.numbers[0]), None)
        first_next = following.numbers[0][0] if following else None
        founded = any(isinstance(step, (Chain, Ring)) and (isinstance(step, Ring) or step.foundation) for step in steps)
        stitches = any(type(step).__name__ in ("Make", "Together", "Repeat", "Even") for step in steps)
        if not any(row.numbers for row in rows):
            if founded and not stitches:
                return "Foundation", ()
            if first_next == 1 or first_next == 0:
                return ("Foundation" if founded else "Start"), ()
            if stitches and not any(_has_stitches(row) for row in rows):
                noun = "Rnd" if following is not None and following.noun == "round" else "Row"
                return f"{noun} 1", ((1,),)
        if not stitches and any(type(step).__name__ == "FastenOff" for step in steps):
            return "Fasten off", ()
        return "Next row", ()

    def _unread(self, steps: tuple[Step, ...]) -> None:
        for step in _walk(steps):
            if isinstance(step, Unread):
                words = step.span.of(self.source)
                self.troubles.append(Trouble(kind="unread", span=step.span, message=f"these words were not understood: {' '.join(words.split())[:80]}", data={"words": words}))

    def _defined(self, reading: RowReading, start: int) -> None:
        """A name given in mid-row joins the vocabulary for the rows after it."""
        if not reading.defined:
            return
        known = dict(self.lexicon.specials)
        for name, special in reading.defined.items():
            if name not in known:
                known[name] = Special(name=name, steps=special.steps, counts=special.counts, span=Span(special.span.start + start, special.span.end + start))
        self.lexicon = Lexicon(self.lexicon.words, tuple(known.items()))

    def _unequal(self, parts: list[Part]) -> None:
        """Numbers given for another number of sizes than the pattern has."""
        if self.sizes < 2:
            return
        for part in parts:
            for row in part.rows:
                for sized, span in _sized_in(row):
                    if sized.many and len(sized.values) != self.sizes:
                        self.troubles.append(Trouble(kind="sizes-unequal", span=span, message=f"{len(sized.values)} numbers are given for {self.sizes} sizes: {sized}", data={"given": len(sized.values), "sizes": self.sizes, "row": row.label}))  # fmt: skip


def _trim(text: str, start: int, end: int) -> tuple[int, int]:
    while start < end and text[start] in " \n\t*_=" and not (text[start] == "*" and (start == 0 or text[start - 1] in " \n") and re.match(r"\*+\s?[^\s*]", text[start:end]) and text.count("*", start, end) % 2 >= 0 and text[start - 1 : start] != "*"):
        start += 1
    while end > start and text[end - 1].isspace():
        end -= 1
    return start, end


def _side(note: str) -> str | None:
    low = note.lower()
    if re.search(r"\brs\b|right side", low):
        return "RS"
    if re.search(r"\bws\b|wrong side", low):
        return "WS"
    return None


def _walk(steps: tuple[Step, ...]):  # type: ignore[no-untyped-def]
    for step in steps:
        yield step
        for inner in ("body", "last", "changes", "closing"):
            found = getattr(step, inner, None)
            if isinstance(found, tuple) and found and hasattr(found[0], "span"):
                yield from _walk(found)
        if type(step).__name__ == "Choice":
            for answer in step.answers:
                yield from _walk(answer)


def _sized_in(row: Row):  # type: ignore[no-untyped-def]
    for step in _walk(row.steps):
        for name in ("number", "each", "places", "but", "change"):
            value = getattr(step, name, None)
            if isinstance(value, Sized):
                yield value, step.span
    for count in row.stated:
        yield count.number, count.span


def _has_stitches(row: Row) -> bool:
    return any(type(step).__name__ in ("Make", "Together", "Repeat", "Even", "Choice", "Refer") for step in row.steps)


def _founded(row: Row) -> bool:
    return any(isinstance(step, Ring) or (isinstance(step, Chain) and step.foundation) for step in row.steps)


def _with_skipped(steps: tuple[Step, ...], rows: list[Row], told: tuple[bool, tuple[str, ...]]) -> tuple[Step, ...]:
    """What the passed-over chains count as is kept with the foundation chain they belong to."""
    counts, stands = told
    for k, step in enumerate(steps):
        if isinstance(step, Chain) and step.foundation:
            return (*steps[:k], replace(step, counts=counts, stands_for=stands), *steps[k + 1 :])
    for r in range(len(rows) - 1, -1, -1):
        for k, step in enumerate(rows[r].steps):
            if isinstance(step, Chain) and step.foundation:
                rows[r] = replace(rows[r], steps=(*rows[r].steps[:k], replace(step, counts=counts, stands_for=stands), *rows[r].steps[k + 1 :]))
                return steps
    return steps


def _even_and_odd(rows: list[Row]) -> list[Row]:
    """ "All even rows", "Row 2 and all even rows": the numbers that no other row has, up to the last number told. """
    return rows


__all__ = ["Assembly", "Told", "Turn"]
