"""Script, cards, captions, chapters, the text below the film, photographs."""

import itertools
import re
from pathlib import Path

import pytest

from hookwright.reading import read
from hookwright.teaching import Film, film_of
from hookwright.teaching.speech import aloud
from hookwright.working import work

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.md"))


def film(name: str, **more: object) -> Film:
    pattern = read((EXAMPLES[0].parent / f"{name}.md").read_text(encoding="utf-8"))
    return film_of(pattern, [work(pattern, size=size) for size in range(pattern.sizes)], **more)  # type: ignore[arg-type]


def words_of(made: Film) -> str:
    return " ".join(sentence for scene in made.scenes for sentence in scene.spoken)


def test_numbers_are_said_as_people_say_them() -> None:
    said = words_of(film("ebbline-wrap"))
    assert "Chain three, which counts as a double crochet." in said
    assert "you have one hundred and thirteen single crochet" in said
    assert "the fourth chain from the hook" in said
    assert not re.search(r"(?<![A-Z0-9-]) \d+ (?:chain|double|single|stitch)", said)


def test_both_names_at_first_mention_only() -> None:
    said = words_of(film("ebbline-wrap"))
    assert said.count("in UK terms that is treble.") == 1
    assert said.count("Single crochet: in UK terms that is double crochet.") == 1
    uk = words_of(film("samphire-cloth-uk"))
    assert "Double crochet: in US terms that is single crochet." in uk


def test_first_and_last_stitch_are_told_where_they_differ() -> None:
    scenes = {scene.shot.title: " ".join(scene.sentences) for scene in film("ebbline-wrap").scenes}
    assert "at its foot: that is an increase" in scenes["Row 2"]
    assert "the first double crochet goes in the second stitch" in scenes["Row 3"]
    assert "The first double crochet goes in the chain space" in scenes["Row 15"]
    assert "The starting chain does not count" in scenes["Row 112"]


def test_each_slip_is_named_once_with_its_look() -> None:
    said = [sentence for scene in film("ebbline-wrap").scenes for sentence in scene.sentences]
    slips = [sentence for sentence in said if sentence.startswith("The slip made most often here")]
    assert len(slips) == len(set(slips)) >= 5
    assert sum(sentence.startswith("How it looks") for sentence in said) == len(slips)


def test_left_handers_hear_what_changes_for_them_and_once() -> None:
    said = words_of(film("ebbline-wrap"))
    assert said.count("Left-handed?") == 1
    assert "your rounds go clockwise" in words_of(film("pilchard-toy"))
    assert "Left-handed?" not in words_of(film("pilchard-toy", left=True))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("terms", ("US", "UK"))
def test_captions_keep_their_limits(path: Path, terms: str) -> None:
    made = film(path.stem, terms=terms)
    assert made.cues
    for cue in made.cues:
        lines = cue.text.split("\n")
        assert len(lines) <= 2 and all(0 < len(line) <= 42 for line in lines), cue
        assert 1 <= round(cue.end - cue.start, 3) <= 7, cue
    assert all(a.end <= b.start for a, b in itertools.pairwise(made.cues))
    said = " ".join(" ".join(scene.sentences) for scene in made.scenes)
    assert " ".join(" ".join(cue.text.split()) for cue in made.cues).replace(" ", "") == said.replace(" ", "")


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_captions_lie_within_their_shots(path: Path) -> None:
    made = film(path.stem)
    assert made.cues[-1].end <= made.scenes[-1].end + 2
    late = [cue for cue in made.cues if cue.end > made.scenes[-1].end]
    assert len(late) <= 1


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_chapters(path: Path) -> None:
    made = film(path.stem)
    starts = [chapter.start for chapter in made.chapters]
    assert starts[0] == 0 and len(starts) >= 3
    assert all(b - a >= 10 for a, b in itertools.pairwise([*starts, made.scenes[-1].end]))
    assert [n for chapter in made.chapters for n in chapter.shots] == [shot.number for shot in made.plan.shots]
    assert made.chapters[0].at == "0:00"


def test_shots_may_begin_where_the_cut_says() -> None:
    made = film("ebbline-wrap", starts={4: 100.0, 5: 130.5})
    assert (made.scenes[3].start, made.scenes[3].end, made.scenes[4].start) == (100.0, 130.5, 130.5)
    assert all(a.end <= b.start for a, b in itertools.pairwise(made.cues))


def test_the_text_below_names_materials_version_and_where_corrections_stand() -> None:
    text = film("ebbline-wrap", errata="https://example.org/ebbline/corrections").text
    assert "Withywrack" in text and "4.5 mm" in text
    assert "version 1.2" in text and "https://example.org/ebbline/corrections" in text
    assert "0:00 The finished piece" in text
    assert "EN 71-1" in text and "complies" not in text


def test_photographs_name_row_face_and_alt() -> None:
    photos = film("ebbline-wrap").photos
    assert len({photo.file for photo in photos}) == len(photos) >= 8
    assert all(photo.alt and photo.face for photo in photos)
    assert any(photo.row == "Row 14" and photo.face == "wrong side" for photo in photos)


def test_numbers_of_standards_are_not_said_as_numbers() -> None:
    assert aloud("Usually looked at: EN 71-1, ASTM F963, 16 CFR 1501.") == "Usually looked at: EN 71-1, ASTM F963, 16 CFR 1501."


def test_what_the_pattern_tells_between_two_rows_is_said_once_after_the_row() -> None:
    rows = "R1: 6 sc in magic ring (6)\nR2: inc x6 (12)\nR3-5: sc around (12)\nStuff the ball firmly.\nR6: dec x6 (6)\n"
    source = f"US terms. Work in a spiral.\n\n## Ball\n\n{rows}"
    pattern = read(source)
    said = [s for scene in film_of(pattern, [work(pattern)]).scenes for s in scene.sentences]
    assert said.count("Stuff the ball firmly.") == 1
    at = said.index("Stuff the ball firmly.")
    assert said[at - 1] == "At the end of Row 5 you have 12 single crochet."
