"""Flat pieces as modern pages word them: sizes side by side, lengths in two units, shapings by rows that come again. All wordings are ours."""
# ruff: noqa: E501

import pytest

from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows

COWL = "Row 1: Hdc in 2nd ch from hook and in each ch across. 40 (50, 60) hdc\nRow 2: Ch 1, turn, hdc in each st. 40 (50, 60) hdc\n"


def totals(text: str, size: int = 0) -> list[int]:
    """What the rows of one size come to, each read whole, worked, and not other than stated."""
    rows = [row for part in work(read(text), size=size).parts for row in part.rows if row.counted.total]
    assert [(row.label, row.read, row.state) for row in rows if row.read != "whole" or row.worked != "yes" or row.state == "differs"] == []
    return [row.counted.total for row in rows]


@pytest.mark.parametrize(
    "chains",
    [
        "Small: Ch 41.\nMedium: Ch 51.\nLarge: Ch 61.\n",
        "Small: Ch 41. Medium: Ch 51. Large: Ch 61.\n",
        "For the small size: chain 41\nFor the medium size: chain 51\nFor the large size: chain 61\n",
        "Sizes: Small (Medium, Large)\nSmall only: ch 41. Medium only: ch 51. Large only: ch 61.\n",
        "Sizes: Baby, Child, Adult\nBaby size: Ch 41\nChild size: Ch 51\nAdult size: Ch 61\n",
        "Newborn - ch 41\n3-6 months - ch 51\n6-12 months - ch 61\n",
    ],
)
def test_each_size_begins_with_its_own_chain(chains: str) -> None:
    assert [totals(f"Cowl\n{chains}{COWL}", size) for size in range(3)] == [[40, 40], [50, 50], [60, 60]]


def test_each_size_goes_on_for_rows_of_its_own() -> None:
    text = (
        "Sizes: Small (Large)\nCh 11 (13).\nRow 1: Sc in 2nd ch from hook and in each ch across. 10 (12) sc\n"
        "Row 2: Ch 1, turn, sc in each sc. 10 (12) sc\n"
        "Small size: Repeat Row 2 until 5 rows have been completed.\nLarge size: Repeat Row 2 until 7 rows have been completed.\n"
        "Next row: Ch 1, turn, sc in first 4 (5) sc. Leave remaining sts unworked. 4 (5) sc\n"
    )
    assert totals(text, 0) == [10] * 5 + [4]
    assert totals(text, 1) == [12] * 7 + [5]


def test_pieces_of_a_set_by_size_stay_pieces() -> None:
    text = "Small: Ch 4, join. Rnd 1: Ch 1, 6 sc in ring, join. (6)\n\nLarge: Ch 4, join. Rnd 1: Ch 1, 8 sc in ring, join. (8)\n"
    assert [part.only for part in read(text).parts] == [None, None]
    assert len(work(read(text)).parts) == 2


@pytest.mark.parametrize(
    "length",
    [
        '14 (15, 16)"/36 (38, 41) cm from beg, ending with a WS row',
        "approx 14 (15, 16) ins [36 (38, 41) cm], ending with RS facing",
        "14 (15, 16) inches (36 (38, 41) cm) from beginning",
        '14" [15", 16"] from beg',
        "36 (38, 41) cm / 14 (15, 16) in",
        "36 (38:41) cm",
    ],
)
def test_a_length_of_each_size_in_two_units_is_no_count(length: str) -> None:
    text = (
        "Sizes: S (M, L)\nCh 31 (35, 39).\nRow 1: Sc in 2nd ch from hook and in each ch across. 30 (34, 38) sc\n"
        f"Row 2: Ch 1, turn, sc in each sc.\nRepeat Row 2 until back measures {length}.\n"
        "Next row: Ch 1, turn, sc2tog, sc across. 29 (33, 37) sc\n"
    )
    assert [totals(text, size)[-1] for size in range(3)] == [29, 33, 37]
    assert [row.stated for row in read(text).parts[0].rows if row.label == "Repeat"] == [()]
    assert read(text).parts[0].rows[3].until is not None


BAND = (
    "Band\nCh 31.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. 30 sts.\nRow 2: Ch 1, sc in each st across, turn. 30 sts.\n"
)


@pytest.mark.parametrize(
    ("words", "come_to"),
    [
        ("Dec 1 st at each end of next row and every following row 3 times more. 22 sts.", [28, 26, 24, 22]),
        ("Dec 1 st at each end of every row 4 times. 22 sts.", [28, 26, 24, 22]),
        ("Dec 1 st at each end of every row until 22 sts remain.", [28, 26, 24, 22]),
        ("Dec one st at each end of next and foll 3 rows. 22 sts.", [28, 26, 24, 22]),
        ("Dec 1 st at each end of the next row and the following 3 rows. 22 sts.", [28, 26, 24, 22]),
        ("Keeping to pattern, dec 1 st at each end of next 4 rows. 22 sts.", [28, 26, 24, 22]),
        ("Keeping in pattern, decrease 1 sc at beg and end of every row for 4 rows. 22 sc.", [28, 26, 24, 22]),
        ("Dec 1 st at each end of next row and every alt row 2 times more. 24 sts.", [28, 28, 26, 26, 24]),
        ("Dec 1 st at both ends of next row and following 2 alt rows. 24 sts.", [28, 28, 26, 26, 24]),
        ("Dec 1 st at each end of next 3 rows, then at each end of every other row twice. 20 sts.", [28, 26, 24, 24, 22, 22, 20]),
        ("Dec 1 st each side every row twice, then every other row 2 times. 22 sts.", [28, 26, 26, 24, 24, 22]),
        ("Inc 1 st at each end of the 3rd and every following 4th row until there are 34 sts.", [30, 30, 32, 32, 32, 32, 34]),
        ("Inc 1 st at both ends of the 2nd row and every 2nd row thereafter until there are 34 stitches.", [30, 32, 32, 34]),
    ],
)
def test_shapings_on_rows_that_come_again(words: str, come_to: list[int]) -> None:
    assert totals(f"{BAND}{words}\n")[2:] == come_to


def test_a_shaping_that_goes_on_for_fewer_rows_than_its_count_is_found() -> None:
    rows = work(read(f"{BAND}Dec 1 st at each end of every row 3 times. 22 sts.\n")).parts[0].rows
    assert (rows[-1].counted.total, rows[-1].state) == (24, "differs")


@pytest.mark.parametrize(
    "words", ["Pull ring closed, turn.", "Pull tail to close the ring and turn.", "Close ring, turn.", "Tighten ring; turn."]
)
def test_rows_that_begin_in_a_ring_go_to_and_fro(words: str) -> None:
    shawl = (
        f"Shawl\nMake a magic ring.\nRow 1: Ch 4 (counts as 1 dc and ch 1), 3 dc, ch 2, 3 dc, ch 1, 1 dc into the ring. {words} [8 dc]\n"
        "Row 2: Ch 4, 3 dc into ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) into ch-2 sp, ch 1, 3 dc into last sp, ch 1, 1 dc into 3rd ch of beg ch-4."
        " [14 dc]\n"
    )
    assert [row.counted.by_kind["dc"] for row in worked_rows(shawl)] == [8, 14]


@pytest.mark.parametrize(
    "words",
    ["Rep pattern row 3 more times.", "Repeat patt row three more times.", "Rep patt row 3 times."],
)
def test_the_pattern_row_again(words: str) -> None:
    text = (
        "Ch 21.\nFoundation row: Sc in 2nd ch from hook, sc in each ch across. 20 sc.\nPattern row: Ch 1, turn, sc in each sc across. 20 sc.\n"
        f"{words}\nNext row: Ch 1, turn, sc2tog, sc across. 19 sc.\n"
    )
    assert totals(text) == [20, 20, 20, 20, 20, 19]


@pytest.mark.parametrize(
    "founded",
    [
        "UK terms. With yarn A and 4mm hook, 31ch.",
        "UK terms. 31ch.",
        "Heart (each square = tr, 2 ch)\n31ch.",
    ],
)
def test_a_chain_told_behind_other_matter(founded: str) -> None:
    assert totals(f"Cushion\n{founded}\nRow 1: 1htr in 3rd ch from hook, 1htr in each ch to end. (29htr)\n") == [29]


def test_what_a_group_is_called_stands_behind_its_place() -> None:
    text = "Ch 12.\nRow 1: Dc in 4th ch from hook and next 2 ch (first block made), ch 2, skip 2 ch, dc in next 4 ch (block made). [8 dc]\n"
    assert totals(text) == [8]


@pytest.mark.parametrize(
    "chains",
    ["Ch an even number; sample uses 12.", "Chain any even number. Mine has 12.", "Chain an even number of stitches (I chained 12)."],
)
def test_a_chain_of_any_even_number(chains: str) -> None:
    assert totals(f"Scarf\n{chains}\nRow 1: Sc in 2nd ch from hook and in each ch across. (11)\n") == [11]


@pytest.mark.parametrize(
    "stripes",
    [
        "Continue to rep Row 2 in the following stripe pattern:\n2 rows CC1\n1 row MC\n3 rows CC2\n",
        "Rep Row 2, working in stripes as follows:\n2 rows Blue\n1 row White\n3 rows Dark Green\n",
        "Repeat Row 2 in the following colour sequence: 2 rows B, 1 row A, 3 rows C.\n",
    ],
)
def test_so_many_rows_as_the_stripes_have(stripes: str) -> None:
    text = f"Cloth\nCh 11 with A.\nRow 1: Hdc in 2nd ch from hook and in each ch across. (10)\nRow 2: Ch 1, turn, hdc in each hdc. (10)\n{stripes}"
    assert totals(text) == [10] * 8


def test_a_count_of_a_group_in_two_words_is_no_work() -> None:
    text = (
        "UK terms.\n16ch.\nRow 1: 1tr in 4th ch from hook and in each ch to end. 14tr\n"
        "Row 2: 3ch (counts as 1tr), miss first tr, *miss 1tr, (1tr, 1ch, 1tr) in next tr, miss 1tr; rep from * to last tr, 1tr in top of 3ch. 4 V sts\n"
    )
    assert totals(text) == [14, 10]


def test_a_side_headed_behind_a_length_is_a_row_of_its_own() -> None:
    text = (
        'Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. 20 sc.\nRow 2: Ch 1. Sc in each sc across. Turn. 20 sc.\nRep Row 2 for 10".\n'
        "1st Shoulder: Ch 1. Sc in first 6 sc. Turn. Leave rem sts unworked. 6 sc.\nNext row: Ch 1. Sc2tog. Sc in each sc across. Turn. 5 sc.\n"
    )
    assert totals(text) == [20, 20, 20, 6, 5]


@pytest.mark.parametrize("mark", ["{}. ", "Row {}: "])
def test_what_follows_rows_told_up_to_a_number_is_not_doubled(mark: str) -> None:
    lines = [
        "Hdc in 3rd chain from hook and in each chain across. Turn. (11)",
        "Ch 2 (does not count). Hdc in each stitch across. Turn. (11)",
        "Repeat row 2 until you have 6 rows.",
        "Ch 1, sc in each stitch across. (11)",
    ]
    text = "Make 13 chains.\n" + "".join(f"{mark.format(k)}{line}\n" for k, line in enumerate(lines, 1))
    assert totals(text) == [11] * 7
    rows = read(text).parts[0].rows
    assert [number for row in rows for numbers in row.numbers for number in numbers] == [1, 2, 3, 4, 5, 6, 7]
