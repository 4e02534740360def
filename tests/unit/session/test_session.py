"""One open document: what an edit changes, what is told about words, what may come next, and tidying."""

from __future__ import annotations

import pytest

from hookwright.demo import DRAFT, PIECES, piece
from hookwright.pattern import Span
from hookwright.session import Session, complete, format_edits, formatting, hover, step_span, symbols, tallies, tidied_line, write_fact

SQUARE = """# Coaster

Gauge: 16 sc and 18 rows = 10 cm

Row 1: Ch 13, sc in 2nd ch from hook and in each ch across. (12 sc)
Row 2: Ch 1, turn, sc in each st across. (12 sc)
Rows 3-8: Rep Row 2. (12 sc)
Row 9: Ch 1, turn, 2 sc in first st, sc in each st across. (14 sc)
"""


@pytest.fixture
def session() -> Session:
    return Session(SQUARE)


def at(session: Session, words: str, nth: int = 0) -> int:
    point = -1
    for _ in range(nth + 1):
        point = session.text.index(words, point + 1)
    return point + 1


def test_findings_follow_the_text(session: Session) -> None:
    found = [(finding.rule, finding.row) for finding in session.findings if finding.severity == "error"]
    assert found == [("count-differs", "Row 9")]
    session.update(SQUARE.replace("(14 sc)", "(13 sc)"))
    assert not [finding for finding in session.findings if finding.severity == "error"]
    assert session.version == 2
    session.update(session.text)
    assert session.version == 2


def test_a_repair_mends(session: Session) -> None:
    finding = next(finding for finding in session.findings if finding.rule == "count-differs")
    mended = Session(session.repaired(finding))
    assert "(13 sc)" in mended.text
    assert not [finding for finding in mended.findings if finding.severity == "error"]


@pytest.mark.parametrize("name", [*PIECES, DRAFT])
def test_an_edit_gives_what_a_fresh_start_gives(name: str) -> None:
    text = piece(name)
    session = Session(text)
    places = [i for i, character in enumerate(text) if character.isdigit()][40::17]
    for place in places[:12]:
        edited = text[:place] + str((int(text[place]) + 1) % 10) + text[place + 1 :]
        session.update(edited)
        fresh = Session(edited)
        assert session.findings == fresh.findings
        assert tallies(session) == tallies(fresh)
    session.update(text)
    assert session.findings == Session(text).findings


def test_running_counts_stand_beside_the_rows(session: Session) -> None:
    told = {tally.label: (tally.text, tally.state) for tally in tallies(session)}
    assert told["Row 2"] == ("12", "agrees")
    assert told["Rows 3-8"] == ("12", "agrees")
    assert told["Row 9"] == ("13", "differs")


def test_hover_on_a_label_tells_the_row(session: Session) -> None:
    card = hover(session, at(session, "Row 9"))
    assert card is not None and "Row 9" in card.head
    assert any("13 sc" in line and "offered 12" in line for line in card.lines)


def test_hover_on_a_stitch_tells_what_it_means_and_makes(session: Session) -> None:
    card = hover(session, at(session, "sc in each st", 1))
    assert card is not None and card.head == "sc: single crochet"
    assert any("UK" in line and "double crochet" in line for line in card.lines)
    assert any("makes" in line and "sc" in line for line in card.lines)


def test_uk_words_mean_uk_stitches() -> None:
    session = Session(
        "UK terms\n\nRow 1: Ch 13, dc in 2nd ch from hook and in each ch across. (12 dc)\nRow 2: Ch 1, turn, htr in each st. (12 htr)\n"
    )
    card = hover(session, at(session, "htr in"))
    assert card is not None and card.head == "htr: half treble"


def test_words_of_the_craft_outside_rows(session: Session) -> None:
    card = hover(session, at(session, "Gauge"))
    assert card is not None and card.head == "gauge"
    assert hover(session, at(session, "# Coaster")) is None


def test_the_next_row_is_offered(session: Session) -> None:
    text = SQUARE.replace("Row 9: Ch 1, turn, 2 sc in first st, sc in each st across. (14 sc)\n", "")
    session.update(text)
    items = complete(session, len(text))
    assert items[0].insert == "Row 9: "
    assert any("Repeat Row 8" in item.insert for item in items)


def test_the_count_is_offered_in_its_brackets() -> None:
    text = SQUARE.replace("across. (14 sc)", "across. (")
    session = Session(text)
    assert complete(session, len(text.rstrip()))[0].insert == "13 sc)"


def test_stitches_are_offered_in_the_parts_terms(session: Session) -> None:
    text = SQUARE.rstrip("\n") + "\nRow 10: Ch 1, turn, hd"
    session.update(text)
    assert "hdc" in [item.label for item in complete(session, len(text))]
    uk = "UK terms\n\nRow 1: Ch 13, ht"
    labels = [item.label for item in complete(Session(uk), len(uk))]
    assert "htr" in labels and "hdc" not in labels


def test_outline(session: Session) -> None:
    parts = symbols(session)
    assert [row.name for row in parts[0].inside][-1] == "Row 9"
    for row in parts[0].inside:
        assert row.span.start <= row.name_span.start <= row.name_span.end <= row.span.end


def test_steps_have_their_words(session: Session) -> None:
    _, row = session.row_at(at(session, "2 sc in first")) or pytest.fail("no row there")
    done = session.worked(row)[0][1]
    span = step_span(row, done.stitches.step[2])
    assert span is not None and "sc" in span.of(session.text)


@pytest.mark.parametrize("name", [*PIECES, DRAFT])
def test_tidying_changes_no_count(name: str) -> None:
    session = Session(piece(name))
    tidied = Session(session.with_edits(format_edits(session)))
    assert [tally.full for tally in tallies(tidied)] == [tally.full for tally in tallies(session)]
    assert format_edits(tidied) == ()


def test_tidying_a_line() -> None:
    assert tidied_line("Rnd 2 :  2 sc in each st ( 12 sc )  ") == "Rnd 2: 2 sc in each st (12 sc)"
    assert tidied_line("    code stays  ") == "    code stays  "
    assert tidied_line("Gauge: 1,5 cm") == "Gauge: 1,5 cm"


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("before", ["", "\ufeff"])
def test_tidying_leaves_the_head_and_the_line_ends_alone(ends: str, before: str) -> None:
    head = ["---", "title: Mat ,of rope", "---", ""]
    text = before + ends.join(
        [*head, "Row 1: Ch 4,sc in 2nd ch from hook and in next 2 ch. (3 sc)", "Row 2: Ch 1,turn, sc in each st. (3 sc)", ""]
    )
    session = Session(text)
    tidied = session.with_edits(format_edits(session))
    assert tidied == text.replace("4,sc", "4, sc").replace("1,turn", "1, turn")


def test_one_line_that_must_stay_keeps_no_other_from_being_tidied(monkeypatch: pytest.MonkeyPatch) -> None:
    lines = [f"Row {n}: Ch 1,turn, sc in each st. (3 sc)" for n in range(2, 40)]
    session = Session("\n".join(["Row 1: Ch 4, sc in 2nd ch from hook and in next 2 ch. (3 sc)", *lines]))
    tidied = formatting.tidied_line
    monkeypatch.setattr(
        formatting, "tidied_line", lambda line: line.replace("turn, sc", "turn, 2 sc") if "Row 17" in line else tidied(line)
    )
    kept = format_edits(session)
    assert len(kept) == 37 and not any("Row 17" in edit.text for edit in kept)


def test_facts_are_written_into_the_head() -> None:
    text = '---\ntitle: "Hat"  # keep me\nyarns:\n  A: {name: Wrack, grams: 50}\n---\n\nRow 1: Ch 4.\n'
    (edit,) = write_fact(text, "yarns.A.balls", 3)
    assert "balls: 3" in edit.text
    changed = text[: edit.span.start] + edit.text + text[edit.span.end :]
    assert "# keep me" in changed and 'title: "Hat"' in changed
    assert write_fact(changed, "yarns.A.balls", 3) == ()
    assert write_fact("---\n: broken: [\n---\n", "a", 1) == ()
    (first,) = write_fact("Row 1: Ch 4.\n", "swatches.+", {"grams": 3})
    assert first.span == Span(0, 0) and "swatches:" in first.text


@pytest.mark.parametrize("text", ["", "\ufeff", "\r\n", "Row", "🧶", "---\n", "---\na: [", "(" * 500, "\0", "Row 1: " + "sc, " * 2000])
def test_odd_texts_are_answered(text: str) -> None:
    session = Session(text)
    assert isinstance(session.findings, tuple)
    tallies(session), symbols(session), format_edits(session)
    for point in range(0, len(text) + 1, max(1, len(text) // 7)):
        hover(session, point), complete(session, point)
