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


def in_row_2(words: str, count: str = "seventeen") -> list[tuple[str, str, float]]:
    found = compare(work(read(SCALLOP)), read_captions(f"{ROW_1}\n{words}\n0:40 You have {count} single crochet and two spaces."))
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
    all_told = f"{ALL_OF_ROW_2}chain six, skip four, single crochet in the last four and turn."
    ((kind, row, sure_of_count),) = in_row_2(all_told, count="nineteen")
    assert (kind, row) == ("count", "Row 2")
    assert 0.5 <= sure < sure_of_count


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
        "so we end this round on {}",
        "if all is well there are {}",
        "{} single crochet, and nearly home",
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


@pytest.mark.parametrize("naming", ("Now the {}.", "{},", "The {} time around it's", "We go into the {} one,"))
def test_rows_named_by_ordinals_alone_are_rows(naming: str) -> None:
    work_told = ("eight single crochet in the ring. Eight.", "increase, eight times. Sixteen.", "one, increase, eight times. Twenty-four.",
                 "two, increase, eight times. Thirty-two.")  # fmt: skip

    def told(*ordinals: str) -> list[str]:
        return [f"0:{2 + 8 * k:02} {naming.format(one)} {work_told[k]}" for k, one in enumerate(ordinals)]

    assert in_ball(*told("first", "second", "third", "fourth")) == []
    assert in_ball(*told("first", "second", "fourth", "fourth")) == [("row", "Row 3")]


@pytest.mark.parametrize("naming", ("{} {} That was round {}.", "{} {} Round {} done.", "{} And that's round {}. {}"))
def test_rows_named_behind_their_work_are_rows(naming: str) -> None:
    rows = (("Eight single crochet in the ring.", "Eight."), ("An increase in each stitch.", "Sixteen."),
            ("One single crochet then an increase, eight times.", "Twenty-four."),
            ("Two single crochet and an increase, eight times.", "Thirty-two."))  # fmt: skip

    def told(*numbers: str) -> list[str]:
        lines = []
        for k, (one, (words, count)) in enumerate(zip(numbers, rows, strict=True)):
            parts = (words, one, count) if naming.endswith("{}") else (words, count, one)
            lines.append(f"0:{2 + 8 * k:02} {naming.format(*parts)}")
        return lines

    assert in_ball(*told("one", "two", "three", "four")) == []
    assert in_ball(*told("one", "two", "four", "four")) == [("row", "Row 3")]


@pytest.mark.parametrize(
    ("words", "slips"),
    (
        ("Row five is all doubles, chain one, one in each stitch across, turn.", [("dialect", "Row 5")]),
        ("Row five, chain one, turn, and every stitch gets one double crochet.", [("dialect", "Row 5")]),
        ("Row five, chain one, single crochet in each stitch, which is our double crochet, turn.", []),
        ("Row five, chain one, single crochet in each stitch, turn. Don't do a double crochet by mistake.", []),
        ("Row five, chain one, double crochet? No. Single crochet in each stitch, turn.", []),
        ("Row five, chain one, single crochet in each stitch, and one in the middle double crochet, turn.", []),
        ("Row five, chain one, find the third double crochet. Single crochet in there, and in each stitch, turn.", []),
    ),
)
def test_a_name_of_the_other_terms_is_work_or_only_spoken_of(words: str, slips: list[tuple[str, str]]) -> None:
    told = (*SAID[:4], f"1:20 {words} Twenty-one.", *SAID[5:])
    assert [(h.kind, h.row) for h in compare(work(read(PAD)), read_captions("\n".join(told)))] == slips


def test_numbers_misheard_before_a_stitch_and_in_counting_aloud_are_numbers() -> None:
    bare = [line.lower().replace(",", "").replace(".", "").replace("-", " ") for line in round_3("Round three, as before. Twenty-four.")]
    bare[0] = "0:02 round one single crochet in the ring one two three for five six seven ate\n0:06 ate single crochet"
    assert in_ball(*bare) == []


def test_one_who_tells_no_count_though_stitches_are_made_in_one_place_is_told_so() -> None:
    told = (
        "0:02 Round one, in the ring we make single crochet.",
        "0:10 Round two, in each stitch we make two single crochet, all in the same place.",
        "0:20 Round three, one single crochet, then an increase, to the end.",
        "0:34 Round four, two single crochet, then an increase, to the end.",
    )
    assert ("count never said", "all rows") in in_ball(*told)


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
        "Twenty-four. Hands up who has twenty-five.",
        "I make that twenty-three. What? Twenty-four, thank you.",
        "That makes twenty-three, uh, no, round three makes twenty-four.",
        "I make that twenty-two. Did I miss some? Twenty-three, twenty-four.",
        "Twenty-four. I do a hundred stitches a minute.",
        "That's two dozen, eight a third, and nearly home.",
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


POT = """US terms

## Pot

Rnd 1: 6 sc in magic ring. (6 sc)
Rnd 2: 2 sc in each st around. (12 sc)
Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18 sc)
Rnd 4: Sc in back loop only of each st around. (18 sc)
Rnd 5: Ch 1, sc in first st, *ch 4, skip 2 sts, sc in next st; rep from * 4 more times, ch 4, skip 2 sts, join. (6 sc, 6 ch-4 loops)
Rnd 6: Sl st in first loop, ch 1, 5 sc in each ch-4 loop. (30 sc)
Rnd 7: (3 sc, sc2tog) x 6. (24 sc)
"""
POT_SAID = (
    "0:02 Round one, six singles in the ring. Six.",
    "0:12 Round two, two singles in each stitch around. That's twelve.",
    "0:24 Round three, one single, then two in the next, all the way around. Eighteen.",
    "0:44 Round four, a single in the back loop only of each stitch around. Eighteen again.",
    "1:04 Round five. Chain one, a single in the first stitch, chain four, skip two, single in the next, and that four more times. "
    "Then chain four, skip two, and join. Six singles and six loops.",
    "1:34 Round six. Slip stitch into the first loop. Chain one. Five singles in each loop. It brings us, if I have it right, to thirty.",
    "2:04 Round seven. Three singles, then decrease, and so on six times. You'll have twenty-four left.",
    "2:24 Fasten off. When you have all of them we sew four pots together. Good-bye.",
)


@pytest.mark.parametrize(
    ("k", "said", "instead", "slips"),
    (
        (0, "", "", []),
        (3, "the back loop only of ", "", [("left out", "Rnd 4")]),
        (3, "a single in the back loop only of each stitch", "one in each", [("left out", "Rnd 4")]),
        (3, "the back loop only of each stitch", "each stitch through the back", []),
        (5, "Five", "Six", [("number", "Rnd 6")]),
        (5, "thirty", "thirty-two", [("count", "Rnd 6")]),
        (6, "Three singles", "Two singles", [("number", "Rnd 7")]),
    ),
)
def test_loops_numbers_in_a_hole_and_counts_behind_a_doubt(k: int, said: str, instead: str, slips: list[tuple[str, str]]) -> None:
    lines = [*POT_SAID[:k], POT_SAID[k].replace(said, instead) if said else POT_SAID[k], *POT_SAID[k + 1 :]]
    assert [(h.kind, h.row) for h in compare(work(read(POT)), read_captions("\n".join(lines)))] == slips


@pytest.mark.parametrize(
    ("talk", "at"),
    (("Look how soft it has become, my cat would like it.", 75.0), ("I'll give you a moment to work it, it is soft yarn.", 86.0)),
)
def test_a_count_never_said_before_long_talk_is_due_where_the_row_ends_unless_time_is_given_to_work_it(talk: str, at: float) -> None:
    told = (*SAID[:3], SAID[3].replace(" Still twenty-one.", ""), f"1:15 {talk}", SAID[4].replace("1:20", "1:30"), *SAID[5:])
    found = compare(work(read(PAD)), read_captions("\n".join(told)))
    assert [(h.kind, h.row, h.at) for h in found] == [("count never said", "Row 4", at)]


STRIP = """US terms

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, hdc in each st across. (20 hdc)
Row 3: Ch 1, turn, sc in each st across. (20 sc)
Row 4: Rep Row 2. (20 hdc)
Row 5: Rep Row 3. (20 sc)
Row 6: Rep Row 2. (20 hdc)
Row 7: Rep Row 3. (20 sc)
"""


@pytest.mark.parametrize(("silent", "slips"), (((), []), ((6,), [("count never said", "Row 6")]), ((5, 6), [])))
def test_who_tells_the_counts_of_rows_told_as_others_is_held_to_it(silent: tuple[int, ...], slips: list[tuple[str, str]]) -> None:
    rows = (
        "Row one, single crochet in the second chain and in each chain across.",
        "Row two, chain one, turn, half double in each stitch.",
        "Row three, chain one, turn, single crochet in each stitch.",
        *(
            "Row four is the same as row two.",
            "Row five, same as row three.",
            "Row six is the same as row two.",
            "Row seven, same as row three.",
        ),
    )
    told = "\n".join(f"0:{2 + 8 * k:02} {row}{'' if k + 1 in silent else ' Twenty.'}" for k, row in enumerate(rows))
    assert [(h.kind, h.row) for h in compare(work(read(STRIP)), read_captions(told))] == slips
    # slip stitches along an edge are counted by nobody, whether a row repeats them or not
    slipped = STRIP.replace("hdc in", "sl st in").replace("20 hdc", "20 sts")
    edge = told.replace("half double in", "slip stitch in")
    assert [(h.kind, h.row) for h in compare(work(read(slipped)), read_captions(edge))] == []


SQUARE = """US terms

Ch 4, sl st in first ch to form a ring.
Round 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, (3 dc, ch 2) 3 times in ring, join. (12 dc)
Round 2: Sl st to corner sp, (ch 3, 2 dc, ch 2, 3 dc) in same sp, ch 1, *(3 dc, ch 2, 3 dc) in next corner sp, ch 1; rep from * twice, join.
"""
IN_SQUARE = (
    "0:02 Round one. Chain three, two double crochet in the ring, chain two, then three double crochet and chain two, three times.",
    "0:30 Round two. Slip stitch to the corner. Chain three, two double crochet, chain two, three double crochet there. Chain one.",
    "0:50 In the next corner it's the whole corner again. Three doubles, the chain, three doubles, then chain one.",
    "1:10 And do that in the other two corners, and join.",
)
POINT = """US terms

Row 1: Ch 4, 2 dc in 4th ch from hook (the skipped 3 ch count as 1 dc). (3 dc)
Row 2: Ch 3, turn, dc in each st. (3 dc)
"""
IN_POINT = (
    "0:02 We start at the point and chain four.",
    "0:08 Row one, into the fourth chain from the hook go two doubles.",
    "0:20 And those three chains you missed are standing in for a double, so that's three altogether.",
    "0:30 Row two, chain three, turn, a double in each stitch. Three.",
)


AND_IN_SQUARE = tuple(line.replace("the chain, three", "the chain, and then three") for line in IN_SQUARE)


@pytest.mark.parametrize(("piece", "told"), ((SQUARE, IN_SQUARE), (SQUARE, AND_IN_SQUARE), (POINT, IN_POINT)))
def test_the_chain_in_a_list_of_work_is_worked_and_chains_missed_before_are_not(piece: str, told: tuple[str, ...]) -> None:
    assert not compare(work(read(piece)), read_captions("\n".join(told)))
