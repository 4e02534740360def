"""How a row is told: in short, as another again, with numbers taken back, amid talk, without its name."""

import pytest

from hookwright.reading import read
from hookwright.teaching import compare, read_captions
from hookwright.working import Fabric, work

PIECE = """US terms

Ch 22.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (21 sc)
Row 2: Ch 1, sc in each st across, turn. (21 sc)
Row 3: Ch 3 (counts as dc), dc in next st, [skip 2 sts, (dc, ch 2, dc) in next st, skip 2 sts, dc in next st] 3 times, dc in last st, turn. (12 dc, 3 ch-2 sps)
Row 4: Ch 3 (counts as dc), dc in next dc, [5 dc in ch-2 sp, skip next dc, dc in next dc] 3 times, dc in last st, turn. (21 dc)
Row 5: Ch 1, sc in each st across, turn. (21 sc)
Row 6: Rep Row 3. (12 dc, 3 ch-2 sps)
Row 7: Rep Row 4. (21 dc)
Row 8: Ch 1, sc in each st across. Fasten off. (21 sc)
"""  # noqa: E501
LINES = (
    "This is a strip for the shelf in my kitchen. Chain twenty-two.",
    "Row one. Single crochet in the second chain from the hook, and in each chain across. Turn. Twenty-one single crochet.",
    "Row two. Chain one, single crochet in each stitch across, turn. Twenty-one again.",
    "Row three. Chain three, one double crochet in the next stitch. Skip two stitches, a double crochet, chain two and a double crochet "
    "in the next stitch, skip two, one double crochet in the next.",
    "Do that three times, then one double crochet in the last stitch. Turn. Twelve double crochet and three spaces.",
    "Row four. Chain three, a double crochet in the next double crochet. Five double crochet in the chain two space, skip one, double "
    "crochet in the next.",
    "Three times in all, one double crochet in the last stitch, and turn. Twenty-one double crochet.",
    "Row five. Chain one, single crochet in each stitch across. Turn. Twenty-one.",
    "Row six is row three over again. Chain three and off you go, up and down. Twelve double crochet, three spaces.",
    "Row seven, row four once more. Chain three, and mind the first one. Twenty-one double crochet.",
    "Row eight. Chain one, single crochet in each stitch across. Twenty-one single crochet. Fasten off.",
)


@pytest.fixture(scope="module")
def fabric() -> Fabric:
    return work(read(PIECE))


def heard(fabric: Fabric, changes: dict[int, str]) -> list[tuple[str, str]]:
    timed = "\n".join(f"{k // 3}:{k % 3 * 20:02} {changes.get(k, line)}" for k, line in enumerate(LINES))
    return [(h.kind, h.row) for h in compare(fabric, read_captions(timed))]


@pytest.mark.parametrize(
    "changes",
    (
        {},
        {1: LINES[1].replace("Row one. ", "")},
        {3: LINES[3].replace("Skip two stitches", "Skip three, no, two stitches")},
        {5: LINES[5].replace("Five double crochet in", "In the next four, no, forgive me, five double crochet in")},
        {5: LINES[5] + " There's a man over the road who lived in one for six years, with a goat."},
        {8: "Row six, and that's row three again, I shan't read it out. Chain three, double crochets, spaces. Twelve, and three spaces."},
    ),
)
def test_what_is_said_rightly_raises_no_alarm(fabric: Fabric, changes: dict[int, str]) -> None:
    assert heard(fabric, changes) == []


@pytest.mark.parametrize(
    ("changes", "slip"),
    (
        ({1: LINES[1].replace("Row one. ", "").replace("second", "third")}, ("number", "Row 1")),
        ({1: LINES[1].replace("Row one. ", "").replace("Twenty-one", "Twenty-three")}, ("count", "Row 1")),
        (
            {
                3: LINES[3].replace("a double crochet, chain two and a double crochet", "a double crochet and a double crochet"),
                4: "Do that three times, it's the same each time, then one double crochet in the last stitch. Turn. Twelve double crochet "
                "and three spaces.",
            },
            ("left out", "Row 3"),
        ),
        ({5: LINES[5].replace("Five", "Six") + " There's a man over the road who kept five goats."}, ("number", "Row 4")),
        ({5: LINES[5].replace("Five double crochet in", "Seven, no, six double crochet in")}, ("number", "Row 4")),
    ),
)
def test_slips_are_heard_all_the_same(fabric: Fabric, changes: dict[int, str], slip: tuple[str, str]) -> None:
    assert heard(fabric, changes) == [slip]


LID = """US terms

Each round is joined.

Rnd 1: In a ring, ch 3 (counts as dc), 11 dc. (12 dc)
Rnd 2: Ch 1, [sc in next st, 2 sc in next st] 6 times. (18 sc)
Rnd 3: Ch 1, [sc in next 2 sts, 2 sc in next st] 6 times. (24 sc)
Rnd 4: Ch 1, [sc in next 3 sts, 2 sc in next st] 6 times. (30 sc)
"""
OF_LID = (
    "Round one. A ring, chain three, and then we do eleven double crochets in the ring. We close. It is twelve.",
    "Round two. Chain one. Single crochet, two in the next, six times. Eighteen.",
    "Round three. Chain one. Single crochet in the next two, then two in one, six times. Twenty-four.",
    "Round four: three single crochets, then two in one, six times. Thirty.",
)


@pytest.mark.parametrize(
    ("k", "wrong", "slips"),
    (
        (0, OF_LID[0], []),
        (0, OF_LID[0].replace("eleven", "thirteen"), [("number", "Rnd 1")]),
        (3, OF_LID[3].replace("three single", "four single"), [("number", "Rnd 4")]),
        (3, "Round four: one, two, three, three single crochets, then two in one, six times. Thirty.", []),
    ),
)
def test_a_number_near_a_count_or_behind_the_number_of_its_row_is_one_of_the_work(k: int, wrong: str, slips: list[tuple[str, str]]) -> None:
    timed = "\n".join(f"0:{15 * i:02} {wrong if i == k else line}" for i, line in enumerate(OF_LID))
    assert [(h.kind, h.row) for h in compare(work(read(LID)), read_captions(timed))] == slips
