"""Script, cards, captions, chapters, the text below the film, photographs."""

import itertools
import re
from pathlib import Path

import pytest

from hookwright.reading import read
from hookwright.teaching import Film, film_of, shorter_cut
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
    assert said[at - 1] == "At the end of Round 5 you have 12 single crochet."


SEAL = """# A seal

Materials: DK yarn in slate and cream, 3 mm hook, two 8 mm safety eyes, toy stuffing.

US terms. Work in a spiral.

## BODY

R1: 6 sc in magic ring (6)
R2: inc x6 (12)
R3-5: sc around (12)
Place the eyes between R3 and R4, 4 sts apart.
R6-7: sc around, change to cream (12)
Stuff the body. Weave in the ends.
R8: dec x6 (6)
FO, leaving a tail. Thread the tail through the front loops and pull tight.

## FLIPPERS (make 2)

R1: 5 sc in magic ring (5)
R2: inc x5 (10)
FO, leaving a tail for sewing.
"""


def seal() -> Film:
    pattern = read(SEAL)
    return film_of(pattern, [work(pattern)])


def test_what_stands_beside_the_stitches_reaches_the_script_in_whole_words() -> None:
    scenes = seal().scenes
    said = [s for scene in scenes for s in scene.sentences]
    for once in (
        "Place the eyes between round 3 and round 4, 4 stitches apart.",
        "Stuff the body.",
        "Thread the tail through the front loops and pull tight.",
        "Leave a tail for sewing.",
        "Make 2 of these, both alike.",
    ):
        assert said.count(once) == 1, (once, said)
    assert said.index("Place the eyes between round 3 and round 4, 4 stitches apart.") > said.index("Round 3.")
    assert not any("Weave in" in one for one in said)  # it has a shot of its own
    assert any("two 8 mm safety eyes" in one for one in said)
    assert "two eight millimetre safety eyes" in " ".join(scenes[1].spoken)


def test_a_change_of_yarn_comes_behind_the_last_of_its_rounds() -> None:
    said = [(scene.shot.rows, one) for scene in seal().scenes for one in scene.sentences]
    assert [rows for rows, one in said if "Change to cream" in one or "change to cream" in one] == [("Row 7", "Row 7")]


def test_rounds_and_parts_are_called_what_they_are() -> None:
    made = seal()
    titles = [scene.card.row for scene in made.scenes if scene.shot.row is not None]
    assert all("Round" in title and "Row " not in title for title in titles)
    assert titles[0].startswith("Body: ") and titles[-1].startswith("Flippers: ")
    assert not any(" Row " in chapter.title for chapter in made.chapters)
    assert any(chapter.title.startswith("Flippers: ") for chapter in made.chapters)


def test_a_thing_in_the_round_is_not_photographed_flat() -> None:
    shows = [photo.shows for photo in seal().photos]
    assert not any("flat" in one for one in shows[:2])
    assert any("place the eyes" in one for one in shows)
    assert any("flat" in photo.shows for photo in film("ebbline-wrap").photos)


def test_the_finishing_is_spoken_and_no_direction_for_the_camera() -> None:
    scenes = [scene for scene in film("ebbline-wrap").scenes if scene.shot.kind == "finishing"]
    assert scenes
    for scene in scenes:
        assert len(scene.sentences) > 1
        assert not any("close, then" in one or "in all)" in one for one in scene.sentences)


def test_no_piece_to_have_ready_takes_less_than_no_time() -> None:
    rows = "R1: 6 sc in magic ring (6)\nR2: inc x6 (12)\nR3: [sc, inc] x6 (18)\nR4: [2 sc, inc] x6 (24)\nR5: [2 sc, dec] x6 (18)\n"
    pattern = read(f"US terms. Work in a spiral.\n\n## A\n\n{rows}\n## B\n\n{rows}R6: [sc, dec] x6 (12)\nR7: 12 dc (12)\n")
    assert all(sample.minutes >= 0 for sample in film_of(pattern, [work(pattern)]).plan.samples)


def test_what_is_done_behind_a_row_is_on_camera_and_no_shorter_cut_drops_it() -> None:
    plan = seal().plan
    eyes = next(shot for shot in plan.shots if any("place the eyes" in one for one in shot.shows))
    assert eyes.does == ("place the eyes between round 3 and round 4, 4 stitches apart",)
    dropped = shorter_cut(plan, 0.5).drops
    assert dropped and not any(shot.does for shot in dropped)


FOB = """# Thimble rattle

US terms. DK cotton, 2.75 mm hook, 8 mm safety eyes, stuffing, 20 cm cord.

R1: 6 sc in magic ring (6)
R2: inc x 6 (12)
R3-6: sc around (12)
R7: dec x 6 (6)
Stuff it firmly. Fasten off.
"""


def test_a_piece_of_one_part_has_its_name_for_a_title_and_eyes_and_a_cord_on_a_toy_their_cautions() -> None:
    pattern = read(FOB)
    made = film_of(pattern, [work(pattern)])
    assert made.text.startswith("Thimble rattle\n")
    assert "embroider the features" in made.text and "keep it short" in made.text
    assert "comply" not in made.text and "complies" not in made.text
    assert any("like Round 3" in line.how for shot in made.plan.shots for line in shot.lines), "Rounds 4 to 6 are told with Round 3"
