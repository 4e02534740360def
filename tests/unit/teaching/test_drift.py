"""Two versions side by side: what is touched, and the note."""

import json
from pathlib import Path

from hookwright.publishing import MANIFEST, publish
from hookwright.reading import read
from hookwright.teaching import Touched, drift, film_of
from hookwright.working import work

OLD = """---
title: Thrift mat
version: "1.0"
hook: 4 mm
terms: US
---

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)
Row 2: Ch 1 (does not count as st), sc in each st across, turn. (20 sc)
Row 3: Ch 1 (does not count as st), 2 sc in first st, sc in each st across, turn. (21 sc)
Rows 4-9: Rep Row 2. (21 sc)
Row 10: Ch 1 (does not count as st), sc in each st across. Fasten off. (21 sc)
"""


def changes(new: str, *, old: str = OLD, published: bool = False) -> tuple[Touched, ...]:
    a, b = read(old), read(new)
    before, after = [work(a, size=k) for k in range(a.sizes)], [work(b, size=k) for k in range(b.sizes)]
    manifest = json.loads(publish(a, before).files[MANIFEST]) if published else None
    return drift(a, before, b, after, film_of(a, before), manifest)


def test_the_same_version_touches_nothing() -> None:
    assert changes(OLD) == ()


def test_a_changed_row_names_its_shots_captions_chapters_and_pages() -> None:
    new = OLD.replace("2 sc in first st", "3 sc in first st").replace("21 sc", "22 sc").replace('"1.0"', '"1.1"')
    found = changes(new, published=True)
    row = next(t for t in found if t.change.label == "Row 3")
    assert row.note.startswith("Row 3: was “") and " / now “" in row.note and row.note.endswith("since version 1.1")
    assert "everyone working from version 1.0 who has reached Row 3" in row.note
    film = film_of(read(OLD), [work(read(OLD))])
    assert [film.plan.shots[n - 1].title for n in row.shots] == ["Row 3"]
    assert row.captions and row.chapters
    assert any(page.startswith("thrift-mat.html#") for page in row.pages) and any("page" in page for page in row.pages)
    assert any(picture.endswith(".svg") for picture in row.pictures)
    assert {t.change.label for t in found} >= {"Row 3", "Rows 4-9", "Row 10"}


def test_a_row_that_is_repeated_touches_the_card_that_says_so() -> None:
    new = OLD.replace("Row 2: Ch 1 (does not count as st), sc in each", "Row 2: Ch 1 (does not count as st), hdc in each")
    found = {t.change.label: t for t in changes(new)}
    film = film_of(read(OLD), [work(read(OLD))])
    titles = [film.plan.shots[n - 1].title for n in found["Row 2"].shots]
    assert "Row 2" in titles and any(title.startswith("Rows") for title in titles)


def test_words_alone_change_nobodys_stitches() -> None:
    new = OLD.replace("Sc in 2nd ch from hook and in each ch across", "Sc in 2nd ch from hook, sc in each ch across")
    for touched in changes(new):
        assert "nobody's stitches change" in touched.note


def test_only_the_makers_of_a_size_are_told() -> None:
    hat = (Path(__file__).parents[3] / "examples" / "fogbell-hat.md").read_text(encoding="utf-8")
    found = changes(hat.replace("2 hdc in next st] 8 times. (80 hdc)", "2 hdc in next st] 7 times. (79 hdc)"), old=hat)
    row = next(t for t in found if t.change.numbers == (10,) and t.change.kind == "words")
    assert row.change.sizes == ("Large",) and "makers of size Large" in row.note


def test_rows_that_come_and_go_and_facts() -> None:
    found = changes(OLD.replace("Row 10: Ch 1", "Row 11: Ch 1").replace("hook: 4 mm", "hook: 5 mm"))
    kinds = {(t.change.kind, t.change.label) for t in found}
    assert {("facts", "Hook"), ("new", "Row 11"), ("gone", "Row 10")} <= kinds
    hook = next(t for t in found if t.change.label == "Hook")
    assert hook.shots and "before beginning" in hook.note


TOY = """# Bun

Materials: DK yarn, 3 mm hook, two 8 mm safety eyes.

US terms. Work in a spiral.

## Body

R1: 6 sc in magic ring (6)
R2: inc x6 (12)
R3-5: sc around (12)
Place the eyes between R3 and R4.
R6: dec x6 (6)
"""


def test_eyes_that_move_are_a_change_though_no_stitch_is() -> None:
    (one,) = changes(TOY.replace("between R3 and R4", "between R4 and R5"), old=TOY)
    assert "round 3 and round 4" in one.note and "round 4 and round 5" in one.note
    assert "who has reached" in one.note and "nobody" not in one.note
    assert one.shots and one.captions and one.pictures


def test_materials_told_in_prose_are_compared() -> None:
    (one,) = changes(TOY.replace("8 mm safety", "9 mm safety"), old=TOY)
    assert one.change.label == "Materials" and "9 mm" in one.note
    assert one.shots == (2,)


RATTLE = """# Thimble rattle

US terms. DK cotton, 2.75 mm hook, 8 mm safety eyes, stuffing, 20 cm cord.

## Body
R1: 6 sc in magic ring (6)
R2: inc x 6 (12)
R3-5: sc around (12)
Place the eyes between R3 and R4.
R6: dec x 6 (6)
Stuff it firmly.
Fasten off.

## Handle
Row 1: ch 7, sc in 2nd ch from hook and in each ch across, turn. (6)
Rows 2-5: ch 1, sc across, turn. (6)
Fasten off.
"""


def test_what_is_told_behind_a_range_is_told_behind_its_last_row() -> None:
    longer = RATTLE.replace("R3-5:", "R3-6:").replace("R6: dec", "R7: dec")
    found = changes(longer, old=RATTLE, published=True)
    assert [(one.change.numbers, "eyes" in one.change.was, "eyes" in one.change.now) for one in found[:2]] == [
        ((5,), True, False),
        ((6,), False, True),
    ]
    drawings = {name for one in found for name in one.pictures if name.startswith("pictures/")}
    assert drawings and not any("handle" in name for name in drawings), "the handle is what it was"


def test_a_row_put_in_moves_the_others_on_and_is_told_once() -> None:
    new = OLD.replace(
        "Rows 4-9: Rep Row 2. (21 sc)\nRow 10:",
        "Row 4: Ch 1 (does not count as st), hdc in each st across, turn. (21 hdc)\nRows 5-10: Rep Row 2. (21 sc)\nRow 11:",
    )
    found = changes(new, published=True)
    assert [(one.change.kind, one.change.label, one.change.was) for one in found] == [
        ("new", "Row 4", ""),
        ("renumbered", "Rows 5-11", "Rows 4-10"),
    ]
    film = film_of(read(OLD), [work(read(OLD))])
    assert [film.plan.shots[n - 1].title for n in found[1].shots] == ["Rows 4 to 9", "Row 10"], "what the old film calls them"
    assert "the stitches stay" in found[1].note and found[1].pages


def test_a_row_taken_out_is_told_once() -> None:
    new = OLD.replace("Row 3: Ch 1 (does not count as st), 2 sc in first st, sc in each st across, turn. (21 sc)\n", "")
    found = changes(new.replace("Rows 4-9", "Rows 3-8").replace("Row 10", "Row 9").replace("(21 sc)", "(20 sc)"))
    assert [(one.change.kind, one.change.numbers) for one in found][-1] == ("gone", (3,))
    assert [one.change.kind for one in found].count("gone") == 1 and not any(one.change.kind == "new" for one in found)
