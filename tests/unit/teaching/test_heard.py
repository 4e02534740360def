"""Spoken words held against the rows."""

import pytest

from hookwright.reading import read
from hookwright.teaching import CannotHear, compare, read_captions
from hookwright.working import Fabric, work

PIECE = """US terms

Ch 14.
Row 1: Dc in 4th ch from hook (skipped 3 ch count as dc), dc in each ch across. (12 dc)
Row 2: Ch 3 (counts as dc), turn, dc in each st across. (12 dc)
Row 3: Ch 3 (counts as dc), turn, 2 dc in next st, dc in each st across. (13 dc)
Rows 4-9: Rep Row 2. (13 dc)
Row 10: Ch 1 (does not count as st), turn, sc in each st across. Fasten off. (13 sc)
"""
RIGHT = (
    "0:00 Hello everybody and welcome to my little workshop by the harbour.",
    "0:05 Row one, double crochet in the fourth chain from the hook and across, you should have twelve stitches.",
    "0:40 Row two, chain three, turn and double crochet in each stitch across, that's twelve double crochet.",
    "1:10 Row three, double crochet, two in the next stitch, you now have thirteen double crochet.",
    "1:50 Rows four to nine are the same double crochet again, you have thirteen stitches.",
    "2:20 Row ten, single crochet in each stitch across, you have thirteen single crochet. Fasten off.",
)


@pytest.fixture(scope="module")
def fabric() -> Fabric:
    return work(read(PIECE))


def heard(fabric: Fabric, *lines: str) -> list[tuple[str, str]]:
    return [(h.kind, h.row) for h in compare(fabric, read_captions("\n".join(lines)))]


def changed(k: int, line: str) -> tuple[str, ...]:
    return (*RIGHT[:k], line, *RIGHT[k + 1 :])


def test_what_is_said_rightly_raises_no_alarm(fabric: Fabric) -> None:
    assert heard(fabric, *RIGHT) == []


@pytest.mark.parametrize(
    ("k", "line", "slip"),
    (
        (2, "0:40 Row two, chain three, turn and double crochet across, that's fourteen double crochet.", ("count", "Row 2")),
        (
            2,
            "0:40 roe to chain three turn and double crow shay across you have for teen stitches you have fifteen stitches",
            ("count", "Row 2"),
        ),
        (5, "2:20 Row twelve, single crochet in each stitch across, you have thirteen single crochet.", ("row", "Row 10")),
        (3, "1:10 Row three, treble crochet, two in the next stitch, you now have thirteen stitches.", ("dialect", "Row 3")),
        (5, "2:20 And that is the end of it, well done.", ("row never said", "Row 10")),
    ),
)
def test_planted_slips_are_heard(fabric: Fabric, k: int, line: str, slip: tuple[str, str]) -> None:
    found = compare(fabric, read_captions("\n".join(changed(k, line))))
    assert slip in [(h.kind, h.row) for h in found]
    said = next(h for h in found if (h.kind, h.row) == slip)
    minutes, seconds = line.split()[0].split(":")
    assert said.at is None or abs(said.at - int(minutes) * 60 - int(seconds)) <= 5


def test_rolling_captions_are_said_once(fabric: Fabric) -> None:
    doubled = [line for pair in zip(RIGHT, RIGHT, strict=True) for line in pair]
    assert heard(fabric, *doubled) == []


@pytest.mark.parametrize("text", ("", "no times here", "0:01 Guten Tag\n0:05 heute ist es schoen\n"))
def test_what_cannot_be_used_is_one_sentence(fabric: Fabric, text: str) -> None:
    with pytest.raises(CannotHear) as why:
        compare(fabric, read_captions(text))
    assert str(why.value).endswith((".", "?"))


SCALLOP = """US terms

## Panel

Ch 26.
Row 1: Sc in 2nd ch from hook, sc in each ch across, turn. (25 sc)
Row 2: Ch 1, sc in next 8 sts, ch 6, skip 4 sts, sc in next 5 sts, ch 6, skip 4 sts, sc in last 4 sts, turn. (17 sc, 2 ch-6 sps)
"""
ALL_OF_ROW_2 = "0:20 Row two, chain one, single crochet in the next eight, chain six, skip four, single crochet in the next five, "
ROW_1 = "0:02 Row one, single crochet in the second chain and in each chain across. Twenty-five."


def in_row_2(words: str) -> list[tuple[str, str, float]]:
    found = compare(work(read(SCALLOP)), read_captions(f"{ROW_1}\n{words}\n0:40 You have seventeen single crochet and two spaces."))
    return [(h.kind, h.row, h.sure) for h in found]


def test_a_row_told_in_full_raises_no_alarm() -> None:
    assert in_row_2(f"{ALL_OF_ROW_2}chain six, skip four, single crochet in the last four and turn.") == []


def test_a_thing_left_out_between_others_told_in_full_is_heard_though_another_like_it_is_said() -> None:
    ((kind, row, _),) = in_row_2(f"{ALL_OF_ROW_2}single crochet in the last four and turn.")
    assert (kind, row) == ("left out", "Row 2")


def test_a_wrong_number_inside_the_instruction_is_heard_and_less_sure_than_a_wrong_count() -> None:
    ((kind, row, sure),) = in_row_2(
        "0:20 Row two, chain one, single crochet in the next eight, chain seven, skip four, single crochet in the next five, "
        "chain six, skip four, single crochet in the last four and turn."
    )
    assert (kind, row) == ("number", "Row 2")
    assert 0.5 <= sure <= 0.9


def test_a_number_put_right_at_once_is_no_slip() -> None:
    assert not in_row_2(
        "0:20 Row two, chain one, single crochet in the next eight, chain seven, no, chain six, skip four, single crochet in the next "
        "five, chain six, skip four, single crochet in the last four and turn."
    )


BALL = """US terms. Work in a spiral.

## Ball

R1: 8 sc in magic ring (8)
R2: inc x8 (16)
R3: (sc, inc) x8 (24)
R4: (2 sc, inc) x8 (32)
"""


def in_ball(*lines: str) -> list[tuple[str, str]]:
    return [(h.kind, h.row) for h in compare(work(read(BALL)), read_captions("\n".join(lines)))]


def round_3(words: str) -> tuple[str, ...]:
    return (
        "0:02 Round one, eight single crochet in the ring. Eight.",
        "0:10 Round two, an increase in each stitch. That's sixteen.",
        f"0:20 {words}",
        "0:34 Round four, two single crochet and an increase, eight times. That's thirty-two.",
    )


@pytest.mark.parametrize(
    "words",
    (
        "and {} it is",
        "{} on the nose",
        "that leaves us {} around",
        "{} should be sitting on your edge",
        "up from sixteen to {}",
        "it results {}",
    ),
)
def test_a_count_in_words_never_heard_before_is_known_by_elimination(words: str) -> None:
    row = "Round three, one single crochet then an increase, eight times, "
    assert in_ball(*round_3(row + words.format("twenty-four") + ".")) == []
    assert in_ball(*round_3(row + words.format("twenty-six") + ".")) == [("count", "Row 3")]


def test_how_often_a_repeat_is_worked_is_compared() -> None:
    assert in_ball(*round_3("Round three, one single crochet then an increase, six times. Twenty-four.")) == [("number", "Row 3")]


def test_rows_named_by_their_number_alone_are_rows() -> None:
    told = (
        "0:02 One: eight in the ring. Eight.",
        "0:08 Two: increase, eight times. Sixteen.",
        "0:16 Three: one, increase, eight times. Twenty-two.",
        "0:24 Four: two, increase, eight times. Thirty-two.",
    )
    assert in_ball(*told) == [("count", "Row 3")]


def test_one_who_translates_and_quotes_the_page_is_not_told_of_dialect() -> None:
    piece = work(
        read(
            "UK terms\n\n12 ch.\nRow 1: 1 tr in 4th ch from hook (missed 3 ch count as 1 tr), 1 tr in each ch to end, turn. (10 tr)\n"
            "Row 2: 1 ch, 1 dc in each st to end. (10 dc)\n"
        )
    )
    told = (
        "0:02 I say everything in American. Row one, the page says one treble in the fourth chain, so for us a double crochet.",
        "0:12 And a double crochet in each chain to the end. Ten doubles.",
        "0:20 Row two, it says double crochet, and that is single crochet in each stitch to the end. Ten.",
    )
    assert not compare(piece, read_captions("\n".join(told)))


@pytest.mark.parametrize(
    "story",
    (
        "The other day I counted twenty-six and my sister laughed.",
        "I made twenty-two of these for Christmas.",
        "My daughter turned eighteen on Saturday.",
        "Give me one second.",
        "I dropped a double crochet there once and ripped it all back.",
    ),
)
def test_stories_are_no_instructions(story: str) -> None:
    words = f"Round three, one single crochet then an increase, eight times. {story}"
    assert in_ball(*round_3(f"{words} Twenty-four.")) == []
    machine = [line.lower().replace(",", "").replace(".", "").replace("-", " ") for line in round_3(f"{words} That's twenty-four.")]
    assert in_ball(*machine) == []


def test_rows_without_a_number_are_told_behind_the_one_before_them() -> None:
    source = f"{BALL}Next round: (3 sc, inc) x8 (40)\n"
    told = (
        *round_3("Round three, one single crochet then an increase, eight times. Twenty-four."),
        "0:44 Next round, and now you have forty.",
    )
    found = compare(work(read(source)), read_captions("\n".join(told)))
    assert [(h.kind, h.row) for h in found] == []


def test_inches_are_no_count() -> None:
    assert in_ball(*round_3('Round three, one single crochet then an increase, eight times. Twenty-four. Leave a 26" tail.')) == []


@pytest.mark.parametrize(
    "more",
    (
        "Twenty-four. If you have twenty-three, look near the marker.",
        "Twenty-four. I was on a bus forty minutes, and twenty-five of them I did nothing.",
        "Twenty-four. Mind the join, that's where people get twenty-five.",
        "Twenty-four. I did once make twenty-six.",
    ),
)
def test_what_is_only_supposed_or_counts_other_things_is_no_count(more: str) -> None:
    assert in_ball(*round_3(f"Round three, one single crochet then an increase, eight times. {more}")) == []


@pytest.mark.parametrize("wrong", ("Twelve and twelve is twenty-five.", "People like to know it is twenty-five.", "Only twenty-five left."))
def test_a_wrong_count_told_as_a_sum_to_people_or_as_what_is_left_is_heard(wrong: str) -> None:
    assert in_ball(*round_3(f"Round three, one single crochet then an increase, eight times. {wrong}")) == [("count", "Row 3")]


PAD = """US terms

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)
Row 2: Ch 1, hdc in each st across, turn. (20 hdc)
Row 3: Ch 1, sc in first st, 2 sc in next st, sc in each st across, turn. (21 sc)
Row 4: Ch 1, hdc in each st across, turn. (21 hdc)
Row 5: Ch 1, sc in each st across, turn. (21 sc)
Rows 6-20: Ch 1, hdc in each st across, turn. (21 hdc)
Row 21: Ch 1, sc in each st across. Fasten off. (21 sc)
"""
SAID = (
    "0:05 Row one. Single crochet in the second chain from the hook and in each chain across. Turn. Twenty.",
    "0:20 Row two. Chain one, half double crochet in each stitch across, turn. Twenty again.",
    "0:40 Row three. Chain one, single crochet in the first, two in the next, single crochet across, turn. Twenty-one.",
    "1:00 Row four. Chain one, half double crochet in each stitch across, turn. Still twenty-one.",
    "1:20 Row five. Chain one, single crochet in each stitch across, turn. Twenty-one.",
    "1:40 Rows six to twenty. Chain one, half double crochet across, turn, every time. Twenty-one.",
    "2:10 Row twenty-one. Chain one, single crochet in each stitch across. Twenty-one. Fasten off.",
)


@pytest.mark.parametrize(
    ("k", "line", "slips"),
    (
        (0, SAID[0], []),
        (3, "1:00 Row four. Chain one, turn. Still twenty-one.", [("left out", "Row 4")]),
        (3, "1:00 Row four is plain. Chain one, turn. Still twenty-one.", []),
        (3, "1:00 The fourth row's like this. Chain one, half double crochet in each stitch across, turn. Twenty-one.", []),
        (5, "1:40 Twenty-one again, I like that, it came from a little shop. On to", [("row never said", "Rows 6-20")]),
        (5, "1:40 Then you carry on like that until it is as long as your hand.", []),
        (2, SAID[2].replace("Row three", "Row two"), [("row", "Row 3")]),
    ),
)
def test_rows_whose_stitches_or_whose_name_go_unsaid(k: int, line: str, slips: list[tuple[str, str]]) -> None:
    told = (*SAID[:k], line, *SAID[k + 1 :])
    assert [(h.kind, h.row) for h in compare(work(read(PAD)), read_captions("\n".join(told)))] == slips


def test_where_nobody_set_marks_a_number_before_a_stitch_is_not_the_rows() -> None:
    bare = [line.lower().replace(",", "").replace(".", "").replace("-", " ") for line in SAID]
    bare[0] = "0:05 row one twenty single crochet starting in the second chain from the hook turn twenty"
    assert compare(work(read(PAD)), read_captions("\n".join(bare))) == ()
