"""An open document, however it was edited and whatever was undone, says what a fresh reading of its text says."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.sound import spans_in, texts_of_ours

from hookwright.demo import DRAFT, PIECES, piece
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.session import Session, hover, symbols, tallies
from hookwright.working import work

LONGEST = 2_500
"""Longer texts of ours are left to the tests of the pieces: a session is opened afresh after every edit here."""
TEXTS = [text for path in texts_of_ours()[::9] if len(text := path.read_text(encoding="utf-8")) < LONGEST]
TEXTS += [piece(name)[:LONGEST] for name in (*PIECES, DRAFT)]
PUT = (
    "\n", "\r\n", "\n\n", "Row 3: ", "(12 sc)", ")", "(", "*", "ch 3, ", " sc in next st,", "UK terms\n", "# Cuff\n", "5 (6, 7) ",
    "\ufeff", "🧶", "e\u0301", "\u0301", "\U0001f468\u200d\U0001f469", "½", "9", "",
)  # fmt: skip
EDITS = st.lists(st.tuples(st.floats(0, 1), st.integers(0, 25), st.sampled_from(PUT)), min_size=1, max_size=5)
DRESSES = {
    "as written": lambda text: text,
    "CRLF": lambda text: text.replace("\n", "\r\n"),
    "CR": lambda text: text.replace("\n", "\r"),
    "BOM": lambda text: "\ufeff" + text,
    "emoji": lambda text: text.replace(": ", ": 🧶 "),
    "marks": lambda text: text.replace("e", "e\u0301", 40),
}


def afresh(text: str) -> Session:
    """A session that knows of no earlier text."""
    return Session(text)


def same(session: Session, text: str) -> None:
    fresh = afresh(text)
    assert session.findings == fresh.findings
    assert tallies(session) == tallies(fresh)
    assert symbols(session) == symbols(fresh)
    pattern = read(text)
    assert session.findings == tuple(sorted(proof(pattern, session.fabrics), key=lambda finding: (finding.span, finding.rule)))
    assert [row.counted for part in session.fabric().parts for row in part.rows] == [
        row.counted for part in work(pattern).parts for row in part.rows
    ]


@settings(max_examples=30, deadline=None)
@given(st.sampled_from(TEXTS), st.sampled_from(sorted(DRESSES)), EDITS, st.data())
def test_edits_and_undo_give_what_a_fresh_reading_gives(
    text: str, dress: str, edits: list[tuple[float, int, str]], data: st.DataObject
) -> None:
    text = DRESSES[dress](text)
    session = Session(text)
    states = [text]
    for where, gone, put in edits:
        at = int(where * len(text))
        text = text[:at] + put + text[at + gone :]
        session.update(text)
        if data.draw(st.booleans()):  # otherwise the next edit comes before anyone has asked
            same(session, text)
        states.append(text)
    for back in reversed(states):
        session.update(back)
        session.findings  # noqa: B018  (asked, so that the session works what it holds)
    same(session, states[0])


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(TEXTS), st.sampled_from(sorted(DRESSES)), EDITS)
def test_every_place_slices_the_very_text(text: str, dress: str, edits: list[tuple[float, int, str]]) -> None:
    text = DRESSES[dress](text)
    session = Session(text)
    for where, gone, put in edits:
        at = int(where * len(text))
        text = text[:at] + put + text[at + gone :]
        session.update(text)
        for span in spans_in((session.findings, session.read.parts, session.read.troubles, session.read.notes)):
            assert 0 <= span.start <= span.end <= len(text)
        card = hover(session, at)
        assert card is None or 0 <= card.span.start <= card.span.end <= len(text)


def test_the_words_of_a_place_are_the_words_read_whatever_the_text_is_dressed_in() -> None:
    """Line ends, a byte-order mark, emoji and combining marks move the places and nothing else."""
    for text in TEXTS[:12]:
        plain = read(text)
        words = [" ".join(step.span.of(text).split()) for part in plain.parts for row in part.rows for step in row.steps]
        for dress in ("CRLF", "CR", "BOM"):
            dressed = DRESSES[dress](text)
            pattern = read(dressed)
            assert [" ".join(step.span.of(dressed).split()) for part in pattern.parts for row in part.rows for step in row.steps] == words
