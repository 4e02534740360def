"""The film plan: each action close once, once more at speed, the rest skipped; samples, lengths, shorter cuts."""

from pathlib import Path

import pytest

from hookwright.reading import read
from hookwright.teaching import checklist_of, film_of, film_plan, shorter_cut
from hookwright.teaching.shots import FilmPlan
from hookwright.working import work

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.md"))
PIECE = """US terms

Ch 14.
Row 1: Dc in 4th ch from hook (skipped 3 ch count as dc), dc in each ch across. (12 dc)
Row 2: Ch 3 (counts as dc), turn, dc in each st across. (12 dc)
Row 3: Ch 3 (counts as dc), turn, 2 dc in next st, dc in each st across. (13 dc)
Row 4: Ch 3 (counts as dc), turn, 2 dc in next st, dc in each st across. (14 dc)
Rows 5-9: Rep Row 2. (14 dc)
Row 10: Ch 1 (does not count as st), turn, sc in each st across. Fasten off. (14 sc)
"""


def plan_of(text: str) -> FilmPlan:
    pattern = read(text)
    return film_plan(pattern, work(pattern))


def rows_of(plan: FilmPlan) -> list[tuple[str, str]]:
    return [(shot.title, shot.kind) for shot in plan.shots if shot.row is not None]


def test_close_once_then_at_speed_then_skipped() -> None:
    assert rows_of(plan_of(PIECE)) == [
        ("Row 1", "close"), ("Row 2", "close"), ("Row 3", "close"), ("Row 4", "speed"), ("Rows 5 to 9", "skip"), ("Row 10", "close"),
    ]  # fmt: skip


def test_the_top_of_the_chain_is_found_though_no_word_says_it() -> None:
    shots = {shot.title: shot for shot in plan_of(PIECE).shots}
    assert "the stitch in the top of the starting chain" in shots["Row 2"].shows
    assert "the turn" in shots["Row 2"].shows


def test_a_skip_says_as_which_row_and_what_one_has() -> None:
    (skip,) = [shot for shot in plan_of(PIECE).shots if shot.kind == "skip"]
    assert [(line.rows, line.how, line.count) for line in skip.lines] == [("Rows 5 to 9", "as Row 2", "14 double crochet")]


def test_a_sample_is_asked_for_after_each_gap_with_its_work() -> None:
    plan = plan_of(PIECE)
    (sample,) = plan.samples
    assert sample.at == "Row 9"
    assert next(shot for shot in plan.shots if shot.number == sample.shot).title == "Row 10"
    assert sample.stitches == 12 + 12 + 13 + 14 * 6
    assert sample.minutes == sample.alone > 3


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_action_is_close_exactly_once_and_every_row_is_accounted_for(path: Path) -> None:
    pattern = read(path.read_text(encoding="utf-8"))
    fabric = work(pattern)
    plan = film_plan(pattern, fabric)
    close = [action.key for shot in plan.shots for action in shot.new]
    assert len(close) == len(set(close)) > 3
    again = [action.key for shot in plan.shots for action in shot.again]
    assert len(again) == len(set(again)) and set(again) <= set(close)
    told: set[tuple[str, str]] = set()
    for shot in plan.shots:
        if shot.row is None:
            continue
        (part,) = [p for p in fabric.parts if p.name == shot.part]
        labels = [row.label for row in part.rows if not row.foundation]
        first, last = labels.index(shot.rows[0]), labels.index(shot.rows[1])
        told |= {(shot.part, label) for label in labels[first : last + 1]}
    assert told == {(part.name, row.label) for part in fabric.parts for row in part.rows if not row.foundation}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_film_is_the_same_twice_and_its_lengths_add_up(path: Path) -> None:
    pattern = read(path.read_text(encoding="utf-8"))
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    film = film_of(pattern, fabrics)
    assert film == film_of(pattern, fabrics)
    assert film.minutes == pytest.approx(film.plan.minutes, abs=0.05)
    assert film.minutes * 60 == pytest.approx(film.scenes[-1].end)
    assert len(checklist_of(film).shots) == len(film.plan.shots)


def test_a_shorter_cut_keeps_every_action_and_says_what_is_lost() -> None:
    plan = plan_of(PIECE)
    cut = shorter_cut(plan, plan.minutes - 0.5)
    assert cut.reaches and cut.minutes <= plan.minutes - 0.5
    assert cut.drops and all(shot.kind not in ("close", "skip") for shot in cut.drops)
    assert len(cut.loses) == len(cut.drops) + len(cut.trims)
    assert not shorter_cut(plan, 0.1).reaches
    assert shorter_cut(plan, 999).drops == ()


def test_sizes_stand_on_the_card() -> None:
    pattern = read((EXAMPLES[0].parent / "fogbell-hat.md").read_text(encoding="utf-8"))
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    film = film_of(pattern, fabrics, size=1)
    assert film.plan.size == "Adult"
    assert any("64 half double crochet / 72 half double crochet / 80 half double crochet" in str(scene.card) for scene in film.scenes)


def test_uk_terms_name_the_stitches() -> None:
    pattern = read(PIECE)
    plan = film_plan(pattern, work(pattern), terms="UK")
    shown = " ".join(words for shot in plan.shots for words in shot.shows)
    assert "2 treble in one stitch" in shown and "single" not in shown


SEAL = """# Bollard seal

Materials: DK yarn in slate (40 g) and cream (10 g), 3 mm hook.

US terms. Worked in a spiral.

With slate.
R1: 6 sc in magic ring (6)
R2: inc x6 (12)
R3-6: sc around (12)
Change to cream.
R7: sc around (12)
R8: dec x6 (6)
Fasten off. Make two tassels and knot one to each end.
"""


def test_a_yarn_told_between_two_rows_stands_on_the_card_and_its_change_is_filmed_close() -> None:
    pattern = read(SEAL)
    film = film_of(pattern, [work(pattern)])
    cards = {scene.shot.title: str(scene.card) for scene in film.scenes}
    assert "slate" in cards["Round 2"] and "cream" in cards["Round 7"]
    (shot,) = [shot for shot in film.plan.shots if shot.title == "Round 7"]
    assert shot.kind == "close" and any(action.family == "colour" for action in shot.new)


def test_words_that_make_no_row_are_told_behind_the_last_one_and_bring_their_caution() -> None:
    pattern = read(SEAL)
    film = film_of(pattern, [work(pattern)])
    (last,) = [shot for shot in film.plan.shots if shot.title == "Round 8"]
    assert any("two tassels" in words for words in last.does)
    assert not any(shot.title.startswith("Next") for shot in film.plan.shots)
    assert any("tassel" in caution for caution in film.cautions)


def test_what_was_shown_close_before_is_shown_once_more_at_speed_beside_something_new() -> None:
    pattern = read(SEAL)
    (shot,) = [shot for shot in film_of(pattern, [work(pattern)]).plan.shots if shot.title == "Round 2"]
    assert any(words.startswith("once more at speed: ") and "single crochet" in words for words in shot.shows)


def test_cords_sewn_to_a_pad_in_one_piece_join_no_pieces_and_a_round_pad_has_no_corner() -> None:
    pattern = read((Path(__file__).parents[3] / "src" / "hookwright" / "demo" / "bollard-seat-pad.md").read_text(encoding="utf-8"))
    film = film_of(pattern, [work(pattern)])
    titles = [shot.title for shot in film.plan.shots]
    assert "Sewing on" in titles and "Joining the pieces" not in titles
    assert not any("corner" in photo.shows for photo in film.photos)
