"""One part: its rows read in order, each knowing what the part has told before it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from ..pattern import (
    FLAT,
    LIMITS,
    Aside,
    Chain,
    Count,
    Join,
    Leave,
    Make,
    Place,
    Refer,
    Ring,
    Row,
    Sized,
    Span,
    Special,
    Step,
    Trouble,
    Turn,
    Unread,
    Until,
    once,
)
from ..pattern.walking import walk
from .ended_alike import ended_alike
from .ended_at_last import ended_at_last
from .foundation_told import foundation_told
from .lining.labels import Label
from .lining.layout import PartDraft, RowDraft
from .lining.lines import sentences_ended
from .made_in import decide_made_in
from .named_groups import named
from .no_instruction import not_understood
from .numbering import every_second, rows_more, rows_repeated, so_many, through, to_the_last
from .part_drafts import (
    WANTS_CHAIN,
    above_first,
    begun_anew,
    between_numbered,
    edges_on,
    first_by_reference,
    following,
    free_to_go_on,
    goes_on,
    labelled,
    only_numbered,
)
from .pattern_rows import of_pattern
from .phrases.far_loops import told_far
from .phrases.filet import first_space_held
from .phrases.passes import bound_off, in_passes, loops_as_stitches
from .phrases.references import stem_of
from .phrases.runs_between import BETWEEN_SHAPINGS, shaped_at_intervals
from .phrases.shaping_rows import Block
from .phrases.things import LAST
from .row_again import plain_row
from .rows import Context, Lexicon, RowReading, at, interned, interned_lexicon, read_row
from .rows_apart import moved, rows_apart
from .rows_begun import begun_before
from .shown import shown
from .sizes_only import only_of
from .start_again import start_again
from .starting_told import Rule, holding_on, with_rules
from .wording.tokens import tokens
from .yarn_joined import yarn_joined, yarn_of_heading

if TYPE_CHECKING:
    from .assemble import Assembly

ROOM = 32
"""A row's nodes are numbered from the next multiple of this on: an edit that leaves the room enough leaves the rows after it their ids."""
WORK = frozenset(("Make", "Together", "Repeat", "Even", "Choice", "Refer"))


class PartReader:
    """Reads the rows of one part. Kept between rows: what was founded, worked, told to hold."""

    def __init__(self, assembly: Assembly, draft: PartDraft, context: Context) -> None:
        self.all = assembly
        self.draft = draft
        self.context = context
        self.done: list[Row] = []
        self.hereafter = ""
        self.founded = False
        self.stitched = False
        self.numbered = False
        self.last_number = 0
        self.noun: Literal["row", "round"] = "row"
        self.blocks: list[Block] = []
        self.following = following(draft)
        self.continues = draft is not assembly.layout.parts[0] and goes_on(assembly.text, draft)
        self.around = self.continues and assembly.in_rounds and only_numbered(assembly.text, draft)
        self.ring = self.around or (assembly.in_rounds and edges_on(assembly.text, draft))
        self.listed = False
        """A line of a numbered list told many rows: the numbers after it are not theirs."""
        self.apart: tuple[bool, bool, bool, int] | None = None
        """What was founded, worked and numbered before rows that stand side by side for sizes apart."""
        self.left_free: Sized[int] | None = None
        """What the row before told to be left of the row to come."""
        self.far = any(told_far(tokens(told, 0, len(told), assembly.lexicon.trie)) for told in above_first(assembly.text, draft))
        self.looked_up = self.all.lexicon, interned_lexicon(self.all.lexicon)
        self.contexts: dict[tuple[bool, str, bool, bool, bool, bool], Context] = {}

    def rows(self) -> tuple[Row, ...]:
        """All rows, their `made_in` decided."""
        self._told_in_prose()
        for k, one in enumerate(self.draft.rows):
            if self.all.rows_left <= 0:
                self.all.troubles.append(
                    Trouble(
                        kind="too-long", span=Span(one.start, one.end), message=f"more than {LIMITS.rows:,} rows; the rest was not read"
                    )
                )
                break
            self.all.rows_left -= 1
            row = self._row(one, k)
            if row is not None:
                self.done += rows_apart(self.all, row, self.blocks)
                self._keep(row)
        also = any(one.label is not None and one.label.also for one in self.draft.rows)
        labels = {row.label_span: one.label for row, one in labelled(self.done, self.draft)} if also else {}
        self.all.ids += 1
        headed = max(self.draft.start, self.all.text.find(self.draft.heading, self.draft.start, self.draft.end or None))
        done = ended_at_last(begun_before(start_again(self.done)))
        done = yarn_of_heading(yarn_joined(done), self.draft.heading, self.all.ids - 1, headed)
        rows = tuple(decide_made_in(every_second(done, labels), around=self.around, turned=self.all.turned))
        self.all.in_rounds = bool(rows) and rows[-1].made_in not in FLAT
        return rows

    def _told_in_prose(self) -> None:
        """The foundation chain, where only the prose above the first row tells it."""
        rows = self.draft.rows
        first = rows[0].label if rows else None
        if first is None or first.numbers[:1] != ((1,),):
            return
        if not self.context.old and not WANTS_CHAIN.match(self.all.text, rows[0].start, rows[0].end):
            return
        told = foundation_told(self.all.text, self.draft.start, first.start)
        if told is None:
            return
        self.all.row_ids += 1
        self.all.ids += 1
        chain = Chain(id=self.all.ids - 1, span=told[1], number=Sized((told[0],)), foundation=True)
        row = Row(
            id=self.all.row_ids, label="Foundation", numbers=(), noun=first.noun, steps=(chain,), span=told[1],
            label_span=Span(told[1].start, told[1].start),
        )  # fmt: skip
        self.done.append(row)
        self._keep(row)

    def _keep(self, row: Row) -> None:
        self.noun = row.noun
        self.stitched = self.stitched or _stitches(row)
        self.founded = self.founded or _founds(row)
        lettered = self.all.text[row.label_span.start : row.label_span.end].strip(" *_=")[:1] in ("R", "r")
        if lettered and row.noun == "row" and row.numbers[:1] == ((1,),) and _ends_joined(row.steps):
            self.ring = True  # "R1: Ch 4, 11 dc in 4th ch from hook, join": the letter means rounds
        if any(isinstance(step, Ring) and step.chains is not None and (step.chains.values[0] or 0) >= TUBE for step in row.steps):
            self.ring = True  # "Ch 36, join. R1: 36 sc": no half circle has so long a ring
        if row.numbers and row.numbers[0]:
            self.numbered = True
            self.last_number = max(self.last_number, *row.numbers[0])

    # ---- one row -------------------------------------------------------------------------------------------------------------
    def _row(self, draft: RowDraft, k: int) -> Row | None:
        label = draft.label
        start, end = trim(self.all.text, draft.start, draft.end)
        if start >= end:
            if label is None:
                return None
            self.all.troubles.append(
                Trouble(kind="row-without-text", span=Span(label.start, label.end), message=f"{label.text} has no instruction")
            )
        noun = label.noun if label else self.noun
        if self.done and not self.founded and begun_anew(self.all.text, start):
            self.stitched, self.numbered, self.last_number = False, False, 0
        far = self.far and not self.stitched
        self._for_other_sizes(self._kept_for(start))
        begins = not self.stitched and not self.founded and not self.continues and not far
        on_chain = not self.stitched and self._on_chain()
        around = noun == "round" or (self.ring and not (label is not None and self._turned_back()))
        context = self._context(around, self.hereafter, begins, self._waiting(), on_chain, far)
        text = self.all.text[start:end]
        back = label is not None and label.kind == "pass" and (label.text == "Return" or bool(label.numbers))
        reading = self._read(text if self.all.layout.wrapped else sentences_ended(text), context, back)
        if label is not None and label.numbers and not back:
            reading = not_understood(reading)
        if label is not None and label.kind == "number" and not label.note and reading.plain and not self._kept_back(context):
            return self._plain(label, reading, text, start, end)
        told_apart = reading.told.get("blocks")
        self.blocks = [moved(one, start) for one in told_apart] if isinstance(told_apart, list) else []
        steps, counts, troubles = at(reading, start, self.all.ids - 1)
        self.all.ids += -(-reading.nodes // ROOM) * ROOM
        self.all.troubles += troubles
        if reading.unread:
            self._unread(steps)
        if context.filet:
            steps = first_space_held(steps, self.done[-1].steps if self.done else ())
        if label is None and reading.told.get("from_on"):
            steps = to_the_last(steps, self.last_number)
        steps = named(with_rules(self._told(reading, start, steps), self.all.starting), dict(self.all.lexicon.specials))
        self._holds_on(holding_on(text, steps))
        if not steps and not counts and label is None:
            self.all.notes.append(Span(start, end))
            return None
        span = Span(label.start if label else start, max(end, label.end if label else end))
        return self._made(draft, k, steps, counts, reading, span)

    def _for_other_sizes(self, only: frozenset[int] | None) -> None:
        """Rows side by side for sizes apart ("Small: Ch 61. Medium: Ch 71."): each begins where the first of them did."""
        before = self.done[-1].only if self.done else None
        if only is None or before is None or before & only:
            self.apart = None
            return
        if self.apart is None:
            k = next((k for k in range(len(self.done), 0, -1) if self.done[k - 1].only != before), 0)
            last = [row.numbers[0][-1] for row in self.done[:k] if row.numbers and row.numbers[0]]
            self.apart = (any(map(_founds, self.done[:k])), any(map(_stitches, self.done[:k])), bool(last), max(last, default=0))
        self.founded, self.stitched, self.numbered, self.last_number = self.apart

    def _kept_back(self, context: Context) -> bool:
        """Whether the rows or lines before keep anything for this row that its own words do not tell."""
        return self.listed or self.left_free is not None or context.filet or context.passes or bool(self.all.kept)

    def _plain(self, label: Label, reading: RowReading, text: str, start: int, end: int) -> Row:
        """A row that its words, its place and its label decide: the very row that was made of them before."""
        self.blocks = []
        first = self.all.ids - 1
        self.all.ids += -(-reading.nodes // ROOM) * ROOM
        self.all.row_ids += 1
        self.ring = self.ring or reading.in_ring
        row, holds = plain_row(
            reading, text, start, first, self.all.row_ids, label.text, label.numbers, label.noun, self._one_side(label),
            label.start, max(end, label.end), label.label_end or label.end, tuple(self.all.starting.items()), self._lexicon(),
        )  # fmt: skip
        self._holds_on(holds)
        return row

    def _lexicon(self) -> Lexicon:
        if self.looked_up[0] is not self.all.lexicon:
            self.looked_up = self.all.lexicon, interned_lexicon(self.all.lexicon)
        return self.looked_up[1]

    def _turned_back(self) -> bool:
        """Whether the row before, begun in a ring, was turned and closed nothing: the rows called by that name go to and fro."""
        steps = self.done[-1].steps if self.done else ()
        return any(isinstance(step, Turn) and not step.no for step in steps) and not any(isinstance(step, Join) for step in steps)

    def _holds_on(self, rules: Mapping[int, Rule]) -> None:
        if rules:
            self.all.starting = {**rules, **self.all.starting}

    def _context(self, rounds: bool, loop: str, begins: bool, magic: bool, on_chain: bool, far: bool) -> Context:
        key = (rounds, loop, begins, magic, on_chain, far)
        if key not in self.contexts:
            told = replace(self.context, rounds=rounds, loop=loop, begins=begins, magic=magic, on_chain=on_chain, far=far)
            self.contexts[key] = interned(told)
        return self.contexts[key]

    def _on_chain(self) -> bool:
        """The row before only made a chain: this one is worked on it."""
        if not self.done:
            return False
        last = self.done[-1].steps
        return any(isinstance(step, Chain) and step.foundation for step in last) and not any(isinstance(step, Ring) for step in last)

    def _read(self, text: str, context: Context, back: bool = False) -> RowReading:
        """`back`: the row is a return pass, which works off what the forward pass left on the hook: no stitch of its own."""
        reading = read_row(text, context, self._lexicon())
        if not context.passes and not context.begins:
            return reading
        if context.passes and back:
            return RowReading(steps=(Aside(id=1, span=Span(0, len(text))),), nodes=1)
        if context.passes:
            steps, nodes = in_passes(reading.steps, reading.nodes, bound_off(text))
            reading = replace(reading, steps=steps, nodes=nodes, counts=loops_as_stitches(reading.counts))
        if not self._unsaid_ring(reading, context):
            return reading
        again = read_row(text, replace(context, magic=True, begins=False), self._lexicon())
        ring = Ring(id=again.nodes + 1)
        return replace(again, steps=(ring, *again.steps), nodes=again.nodes + 1)

    def _unsaid_ring(self, reading: RowReading, context: Context) -> bool:
        """A first round that says neither what it is worked into nor how it begins ("Rnd 1: ch 3, 2 dc, ch 2, …, join"): into a ring."""
        if not context.begins or self.draft is not self.all.layout.parts[0] or not reading.steps:
            return False
        chain = reading.steps[0]
        if not (isinstance(chain, Chain) and chain.foundation and (chain.number.values[0] or 9) <= 4):
            return False
        joined = any(type(step).__name__ == "Join" for step in reading.steps)
        in_chain = any(isinstance(step, Make) and step.at.where == "from_hook" for step in reading.steps)
        return joined and not in_chain and any(isinstance(step, Make) and step.at == Place() for step in reading.steps[1:3])

    def _waiting(self) -> bool:
        """The row before only made a ring: it is still to be filled."""
        return bool(self.done) and _waits(self.done[-1].steps)

    def _told(self, reading: RowReading, start: int, steps: tuple[Step, ...]) -> tuple[Step, ...]:
        """Keep what the row tells of the rows after it; its steps with what it tells of the foundation."""
        self._defined(reading, start)
        steps = self._with_left_free(steps)
        self._left_for_these(reading.told.get("on_these"))
        left = reading.told.get("left_free")
        self.left_free = left if isinstance(left, Sized) else None
        if "hereafter_loop" in reading.told:
            loop = str(reading.told["hereafter_loop"])
            self.hereafter = "" if loop == "both" else loop
        self.ring = self.ring or reading.in_ring
        self.far = self.far or bool(reading.told.get("far"))
        if "ends_alike" in reading.told and self.done:
            steps = ended_alike(steps, self.done, reading.told["ends_alike"])
        if "row_named" in reading.told:
            steps = self._by_name(str(reading.told["row_named"]), steps)
        steps = of_pattern(steps, self.done) if "of_pattern" in reading.told else steps
        if "skipped" in reading.told:
            return _with_skipped(steps, self.done, reading.told["skipped"])
        return steps

    def _with_left_free(self, steps: tuple[Step, ...]) -> tuple[Step, ...]:
        """The row's steps, with what the row before told to be left of it ("work to and fro, leaving 12 sts free for the neck")."""
        if self.left_free is None:
            return steps
        at = next((k for k, step in enumerate(steps) if isinstance(step, Turn)), None)
        if at is None or any(isinstance(step, Leave) for step in steps):
            return steps
        self.all.ids += ROOM
        return (*steps[:at], Leave(id=self.all.ids - 1, span=steps[at].span, number=self.left_free), *steps[at:])

    def _left_for_these(self, number: object) -> None:
        """ "Sc in each of next 8 sc. Work to and fro on these 8": the row before leaves the others."""
        row = self.done[-1] if self.done and number is not None else None
        made = [step for step in row.steps if isinstance(step, (Make, Leave))] if row is not None else []
        if row is None or len(made) != 1 or not isinstance(made[0], Make) or made[0].places != number or made[0].at.where != "next":
            return
        at = next((k for k in range(len(row.steps), 0, -1) if row.steps[k - 1] is made[0]), len(row.steps))
        self.all.ids += ROOM
        leave = Leave(id=self.all.ids - 1, span=made[0].span)
        self.done[-1] = replace(row, steps=(*row.steps[:at], leave, *row.steps[at:]))

    def _by_name(self, name: str, steps: tuple[Step, ...]) -> tuple[Step, ...]:
        """The steps with "repeat dec row" pointed at the last row that is so named; unread where none is."""
        known = next((row for row in reversed(self.done) if self._is_named(row, name)), None)
        if known is not None and not (known.numbers and known.numbers[0]):
            if known is self.done[-1]:
                return steps  # the row just told, which has no number
            known = None
        out: list[Step] = []
        for step in steps:
            if isinstance(step, Refer) and step.last == 1 and not step.rows and known is not None:
                out.append(replace(step, last=0, rows=(known.numbers[0][0],)))
            elif isinstance(step, Refer) and step.last == 1 and not step.rows:
                out.append(Unread(id=step.id, span=step.span))
                self._unread(out[-1:])
            else:
                out.append(step)
        return tuple(out)

    def _is_named(self, row: Row, name: str) -> bool:
        if name == BETWEEN_SHAPINGS:
            return shaped_at_intervals(row.steps)
        words = re.findall(r"[a-z]+", row.label_span.of(self.all.text).lower())
        stems = list(map(stem_of, words))
        return all(word in stems for word in name.split())

    def _unread(self, steps: Iterable[Step]) -> None:
        for step in walk(steps):
            if isinstance(step, Unread):
                words = step.span.of(self.all.source)
                message = f"these words were not understood: {' '.join(words.split())[:80]}"
                self.all.troubles.append(Trouble(kind="unread", span=step.span, message=message, data={"words": words}))

    def _defined(self, reading: RowReading, start: int) -> None:
        """A name given in mid-row joins the vocabulary for the rows after it."""
        if not reading.defined:
            return
        known = dict(self.all.lexicon.specials)
        fresh = {
            name: special for name, special in reading.defined.items()
            if name not in known or (name == LAST and shown(known[LAST].steps) != shown(special.steps))
        }  # fmt: skip
        if not fresh:
            return
        for name, special in fresh.items():
            known[name] = Special(
                name=name, steps=special.steps, counts=special.counts, span=Span(special.span.start + start, special.span.end + start)
            )
        self.all.lexicon = Lexicon(self.all.lexicon.words, tuple(known.items()))

    def _made(self, draft: RowDraft, k: int, steps: tuple[Step, ...], counts: tuple[Count, ...], reading: RowReading, span: Span) -> Row:
        self.all.row_ids += 1
        label = draft.label
        name, numbers = (label.text, label.numbers) if label is not None else self._unlabelled(draft, k, steps)
        until, rows_count = self._how_long(reading, draft, label)
        if label is None and until is None and rows_count is None:
            rows_count = rows_repeated(steps)
        if rows_count is not None and (label is None or free_to_go_on(label, rows_count, self.following[k])):
            numbers = so_many(numbers, rows_count)
        if name == "Next row" and label is None and until is None and not numbers:
            numbers = between_numbered(self.draft, k, self.last_number, self.following[k], rows_count)
        after = self.following[k]
        if name == "Repeat" and not numbers and first_by_reference(steps) and not self.numbered and after and after.numbers[0][0] == 2:
            numbers = ((1,),)
        note = label.note if label else ""
        numbers = self._in_both(self._listed_on(label, through(numbers, reading.told.get("until_rows")), numbers), note)
        return Row(
            id=self.all.row_ids, label=name, numbers=numbers, rows_count=None if numbers and numbers[0] else rows_count,
            noun=label.noun if label else self.noun, side=reading.told.get("side") or _side(note) or self._one_side(label), steps=steps, stated=counts, until=until, span=span,  # noqa: E501
            only=(only_of(note, self.all.told.facts.size_names) if note else None) or self._kept_for(span.start),
            label_span=Span(label.start, label.label_end or label.end) if label else Span(span.start, span.start),
        )  # fmt: skip

    def _listed_on(
        self, label: Label | None, numbers: tuple[tuple[int, ...], ...], told: tuple[tuple[int, ...], ...]
    ) -> tuple[tuple[int, ...], ...]:
        """ "3. Repeat row 2 until you have 40 rows. 4. …": the numbers of such a list are no longer those of rows."""
        if label is None or label.kind != "number":
            return numbers
        self.listed = self.listed or numbers != told
        if not self.listed or numbers != told or len(numbers) != 1 or not 0 < numbers[0][0] <= self.last_number:
            return numbers
        return (tuple(n + self.last_number + 1 - numbers[0][0] for n in numbers[0]),)

    def _one_side(self, label: Label | None) -> Literal["RS", "WS"] | None:
        """The right side faces in every row of a piece whose rows all begin at the same end."""
        return "RS" if self.all.one_end and label is not None and label.noun == "row" else None

    def _in_both(self, numbers: tuple[tuple[int, ...], ...], note: str) -> tuple[tuple[int, ...], ...]:
        """ "Rnd 22 (35)" in two sizes: (35) is the second size's number where that size's rows have come as far as 34."""
        if not note or len(numbers) != 1 or len(numbers[0]) != 1 or len(self.all.told.facts.size_names) != 2:
            return numbers
        told = re.fullmatch(r"\(?\s*(\d{1,4})\s*\)?", note.strip())
        before = next((row.numbers for row in reversed(self.done) if row.numbers), ())
        if told is None or len(before) != 2:
            return numbers
        other = int(told[1])
        return (numbers[0], (other,)) if before[1] and before[1][-1] + 1 == other else numbers

    def _kept_for(self, at: int) -> frozenset[int] | None:
        """The sizes that the lines above keep this row for ("For Large only:", "Small skip to Brim")."""
        if not self.all.kept:
            return None
        told = [one.only for one in self.all.kept if one.start <= at < one.end]
        return frozenset.intersection(*told) or told[0] if told else None

    def _how_long(self, reading: RowReading, draft: RowDraft, label: Label | None) -> tuple[Until | None, Sized[int] | None]:
        told = reading.told
        until = told.get("until")
        rows_count = told.get("rows_count")
        if label is not None and label.kind == "next" and label.count != (1,):
            rows_count = Sized(label.count)
        if not told:
            return None, rows_count
        wanted = told.get("until_rows")
        if (more := rows_more(wanted, self.last_number)) is not None:
            return None, more
        if isinstance(wanted, int) and label is None and not self.done:
            return None, Sized((wanted,))  # "Ch 11 and work in afghan st until there are 15 rows": the chain is no part of what is repeated
        if isinstance(until, Until):
            until = replace(until, span=Span(until.span.start + draft.start, until.span.end + draft.start))
        return (until if isinstance(until, Until) else None), (rows_count if isinstance(rows_count, Sized) else None)

    def _unlabelled(self, draft: RowDraft, k: int, steps: tuple[Step, ...]) -> tuple[str, tuple[tuple[int, ...], ...]]:
        """The name of a row that has none: Row 1 after a foundation chain, Foundation, Repeat, or the next one."""
        if any(type(step).__name__ == "Refer" for step in steps[:3]):
            return "Repeat", ()
        after = self.following[k]
        founded = any(isinstance(step, Ring) or (isinstance(step, Chain) and step.foundation) for step in steps)
        if draft.repeat and not (founded and not self.stitched):
            return "Next row", ()
        stitches = any(type(step).__name__ in ("Make", "Together", "Repeat", "Even") for step in steps)
        if not self.numbered:
            if founded and not stitches:
                return "Foundation", ()
            if after is not None and after.numbers[0][0] in (0, 1):
                return ("Foundation" if founded else "Start"), ()
            if stitches and not self.stitched:
                return ("Rnd 1" if after is not None and after.noun == "round" else "Row 1"), ((1,),)
        if not stitches and any(type(step).__name__ == "FastenOff" for step in steps):
            return "Fasten off", ()
        return "Next row", ()


TUBE = 12
"""Chains of the shortest ring that is a tube (ours)."""


def trim(text: str, start: int, end: int) -> tuple[int, int]:
    """The row's text without blanks and emphasis marks around it; a star that opens a repeat stays."""
    while start < end and (
        text[start] in " \n\t_="
        or (text[start] == "*" and text[start : start + 2] == "**" and not re.match(r"\*\*+\s?\w", text[start : start + 6]))
    ):
        start += 1
    while end > start and text[end - 1].isspace():
        end -= 1
    if text[end - 1 : end] in ("*", "_"):
        bold = re.search(r"\n[ \t]*(?:\*\*|__)\Z", text[max(start, end - 8) : end])  # the mark that opens the next line's bold label
        if bold:
            end -= len(bold[0])
    while end > start and text[end - 1].isspace():
        end -= 1
    return start, end


def _founds(row: Row) -> bool:
    return any(isinstance(step, Ring) or (isinstance(step, Chain) and step.foundation) for step in row.steps)


def _stitches(row: Row) -> bool:
    return any(type(step).__name__ in WORK for step in row.steps)


@once
def _waits(steps: tuple[Step, ...]) -> bool:
    rings = [step for step in steps if isinstance(step, Ring)]
    tube = any(step.chains is not None and (step.chains.values[0] or 0) > WIDEST_RING for step in rings)
    return bool(rings) and not tube and not any(isinstance(step, Make) for step in steps)


def _side(note: str) -> Literal["RS", "WS"] | None:
    if not note:
        return None
    low = note.lower()
    if re.search(r"\brs\b|right side", low):
        return "RS"
    if re.search(r"\bws\b|wrong side", low):
        return "WS"
    return None


def _with_skipped(steps: tuple[Step, ...], rows: list[Row], told: tuple[bool, tuple[str, ...]]) -> tuple[Step, ...]:
    """What the passed-over chains count as is kept with the foundation chain they belong to."""
    counts, stands = told
    for k, step in enumerate(steps):
        if isinstance(step, Chain) and step.foundation:
            return (*steps[:k], replace(step, counts=counts, stands_for=stands), *steps[k + 1 :])
    for r in range(len(rows) - 1, max(-1, len(rows) - 4), -1):
        for k, step in enumerate(rows[r].steps):
            if isinstance(step, Chain) and step.foundation:
                rows[r] = replace(
                    rows[r], steps=(*rows[r].steps[:k], replace(step, counts=counts, stands_for=stands), *rows[r].steps[k + 1 :])
                )
                return steps
    return steps


WIDEST_RING = 24
"""Chains of a ring, at most, that a round is worked into as a whole; more of them are a tube, worked chain by chain (from memory)."""


def _ends_joined(steps: tuple[Step, ...]) -> bool:
    """Whether a row's last step joins it to its beginning."""
    last = next((step for step in reversed(steps) if not isinstance(step, Aside)), None)
    return isinstance(last, Join) and not last.no
