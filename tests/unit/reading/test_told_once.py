"""What a pattern tells once for all its rows: starting chains, names of sizes, rows kept for some; sentences that ask for no stitch."""

import pytest

from hookwright.pattern import Chain, Unread
from hookwright.pattern.walking import walk
from hookwright.reading import read
from hookwright.reading.size_lines import kept_for_sizes
from hookwright.reading.sizes_named import size_names_of
from hookwright.reading.starting_told import Rule, starting_rules
from hookwright.working import work


@pytest.mark.parametrize(
    ("words", "rules"),
    [
        ("Ch 2 at the start of each round does not count as a stitch.", {2: Rule(False)}),
        ("The beginning ch-3 counts as a dc throughout.", {3: Rule(True, ("dc",))}),
        ("ch-3 counts as a dc, ch-4 counts as dc and ch-1.", {3: Rule(True, ("dc",)), 4: Rule(True, ("dc", "ch 1"))}),
        ("Turning chains do not count as stitches.", {0: Rule(False)}),
        ("The ch in the middle is pretty.", {}),
    ],
)
def test_starting_chains_in_the_notes(words: str, rules: dict[int, Rule]) -> None:
    assert starting_rules([words], "US") == rules


def test_a_rule_of_the_notes_reaches_the_rows_and_yields_to_them() -> None:
    pattern = read(
        "Notes\nBeginning ch-2 does not count as a st.\n\nRnd 1: 12 dc in magic ring, join. (12)\n"
        "Rnd 2: Ch 2, 2 dc in each st around, join. (24)\nRnd 3: Ch 2 (counts as dc), dc in next 23 sts, join. (24)\n"
    )
    chains = [step for part in pattern.parts for row in part.rows for step in row.steps if isinstance(step, Chain)]
    assert [chain.counts for chain in chains] == [False, True]
    assert [row.state for part in work(pattern).parts for row in part.rows if not row.foundation] == ["agrees"] * 3


@pytest.mark.parametrize(
    ("words", "names"),
    [
        ("Sizes: Baby (Child, Adult)", ("Baby", "Child", "Adult")),
        ("Size: S/M/L", ("S", "M", "L")),
        ("Sizes: Women's S [M, L]", ("Women's S", "M", "L")),
        ("Sizes: Newborn (3-6 months, 6-12 months)", ("Newborn", "3-6 months", "6-12 months")),
        ("Finished size: 12 (14) inches", ()),
    ],
)
def test_names_of_sizes_in_prose(words: str, names: tuple[str, ...]) -> None:
    assert size_names_of(words) == names


def test_rows_kept_for_some_sizes_end_with_their_block() -> None:
    text = "For M and L only:\nRnd 8: sc around.\n\nSize L only: Rnd 9: sc around.\nRnd 10: sc around.\n"
    kept = kept_for_sizes(text, 0, ("S", "M", "L"))
    found = {
        name: next((sorted(one.only) for one in kept if one.start <= text.index(name) < one.end), None)
        for name in ("Rnd 8", "Rnd 9", "Rnd 10")
    }
    assert found == {"Rnd 8": [1, 2], "Rnd 9": [2], "Rnd 10": None}


@pytest.mark.parametrize(
    "sentence",
    [
        "Place the eyes between R6 and R7, about 5 sts apart.",
        "Sew the ears to the head between rounds 3 and 8.",
        "Sl st the short ends together to form a tube.",
        "Do not fasten off the second leg, but go on to the body.",
        "Cut yarn, thread the tail through the last 6 stitches and pull tight.",
    ],
)
def test_sentences_of_making_up_ask_for_no_stitch(sentence: str) -> None:
    pattern = read(f"Rnd 1: 6 sc in magic ring. (6)\nRnd 2: sc in each st around. {sentence}\nRnd 3: 2 sc in each st around. (12)\n")
    assert not any(isinstance(step, Unread) for part in pattern.parts for row in part.rows for step in walk(row.steps))
    assert [row.counted.total for row in work(pattern).parts[0].rows if not row.foundation] == [6, 6, 12]


@pytest.mark.parametrize(("slip", "word"), [("6 sx in magic ring", "sc"), ("6 sc in magic ring, plcae marker, trun", "turn")])
def test_slips_of_the_hand_are_read_and_reported(slip: str, word: str) -> None:
    pattern = read(f"Rnd 1: {slip} (6)\nRnd 2: 2 sc in each st around (12)\n")
    assert [row.counted.total for row in work(pattern).parts[0].rows if not row.foundation] == [6, 12]
    assert any(trouble.kind == "typo" and trouble.data.get("meant") == word for trouble in pattern.troubles)
