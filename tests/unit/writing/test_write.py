"""Whole patterns in words: labels, counts, front matter, the place of each step, collapsed rows."""

from __future__ import annotations

import pytest

from hookwright.pattern import Chain, Count, Facts, Gauge, Make, Part, Pattern, Place, Refer, Row, Sized, Step, Turn, Yarn
from hookwright.pattern.collapse import collapse
from hookwright.writing import PLAIN, count_words, label_words, one_size, stitches_used, write
from hookwright.writing.lexicon import Lexicon

S = Sized.of
ROW_1 = Row(
    id=2,
    label="Row 1",
    numbers=((1,),),
    side="RS",
    steps=(
        Make(id=3, stitch="dc", at=Place(where="from_hook", what="ch", nth=4)),
        Make(id=4, stitch="dc", places="rest", at=Place(what="ch")),
        Turn(id=5),
    ),
    stated=(Count(number=S(22, 28), kind="dc"),),
)
GAUGE = Gauge(stitch="dc", stitches=14, rows=7.5)
WRAP = Pattern(
    facts=Facts(title="Tide: a wrap", version="1.0", hook_mm=4.5, size_names=("S", "M"), gauge=(GAUGE,)),
    parts=(Part(name="Body", copies=S(2), rows=(Row(id=1, label="", steps=(Chain(id=9, number=S(24, 30)),)), ROW_1)),),
)


def test_a_pattern_is_written_with_its_facts_and_rows() -> None:
    assert write(WRAP, terms="UK", style=PLAIN).text == (
        "---\n"
        'title: "Tide: a wrap"\n'
        'version: "1.0"\n'
        "terms: UK\n"
        "language: en\n"
        'hook: "4.5 mm"\n'
        "sizes:\n"
        "  names: [S, M]\n"
        "gauge:\n"
        '  - {in: tr, stitches: 14, rows: 7.5, over: "10 cm"}\n'
        "---\n"
        "\n"
        "## Body (make 2)\n"
        "\n"
        "Ch 24 (30).\n"
        "Row 1 (RS): Tr in 4th ch from hook, tr in each ch across, turn — 22 (28) tr.\n"
    )


@pytest.mark.parametrize("front", [True, False])
def test_every_step_and_row_knows_its_words(front: bool) -> None:
    from dataclasses import replace

    written = write(WRAP, style=replace(PLAIN, front=front))
    words = {node: span.of(written.text) for node, span in written.where.items()}
    assert words[3] == "Dc in 4th ch from hook"
    assert words[4] == "dc in each ch across"
    assert words[2] == written.parts[0].rows[1].span.of(written.text)
    assert words[2].startswith("Row 1 (RS): ") and words[2].endswith("28) dc.")


def test_the_front_matter_is_yaml_that_means_the_same() -> None:
    from ruamel.yaml import YAML

    odd = Yarn(id="A", name='No: "7" #x', colour="- dash", fibre="100 % wool, [soft]", ball_m=212.5, ball_g=50)
    facts = Facts(title="yes", designer="Ø & co: {x}", yarns={"A": odd}, notes={"care": "1: cool\n2: flat", "tags": ["no", "on"]})
    text = write(Pattern(facts=facts)).text
    told = YAML(typ="safe", pure=True).load(text.split("---\n")[1])
    assert told["title"] == "yes" and told["designer"] == "Ø & co: {x}"
    assert told["yarns"]["A"] == {"name": 'No: "7" #x', "colour": "- dash", "fibre": "100 % wool, [soft]", "metres": 212.5, "grams": 50}
    assert told["care"] == "1: cool\n2: flat" and told["tags"] == ["no", "on"]


def test_a_language_that_cannot_be_written_is_refused() -> None:
    with pytest.raises(ValueError, match="'xx' cannot be written"):
        write(WRAP, language="xx")


@pytest.mark.parametrize(
    ("row", "label"),
    [
        (Row(id=1, label="Row 4", numbers=((4,),)), "Row 4"),
        (Row(id=1, label="Rows 4-26", numbers=(tuple(range(4, 27)),)), "Rows 4-26"),
        (Row(id=1, label="", numbers=((2, 4, 6),), noun="round"), "Rnds 2, 4 and 6"),
        (Row(id=1, label="", numbers=((8,), (10,), (12,))), "Row 8 (10, 12)"),
        (Row(id=1, label="", numbers=((5, 6, 7), (5, 6, 7, 8))), "Rows 5-7 (5-8)"),
        (Row(id=1, label="", rows_count=S(3)), "Next 3 rows"),
        (Row(id=1, label="", rows_count=S(1), noun="round"), "Next rnd"),
        (Row(id=1, label="Row 9", numbers=((9,),), side="WS", only=frozenset({1})), "Row 9 (WS, size M only)"),
        (Row(id=1, label=""), ""),
    ],
)
def test_labels(row: Row, label: str) -> None:
    assert label_words(row, Lexicon(style=PLAIN), ("S", "M")) == label


@pytest.mark.parametrize(
    ("counts", "words"),
    [
        ((Count(number=S(24), kind="dc"),), "24 tr"),
        ((Count(number=S(1)),), "1 st"),
        ((Count(number=S(38, 42, 46)),), "38 (42, 46) sts"),
        ((Count(number=S(12), kind="hdc"), Count(number=S(6), kind="ch-2 sp")), "12 htr, 6 ch-2 sps"),
        ((Count(number=S(8), change=True),), "8 sts increased"),
        ((Count(number=S(-2), change=True),), "2 sts decreased"),
        ((Count(number=S(57), approximate=True),), "about 57 sts"),
        ((Count(number=S(9), kind="sc", per="side"),), "9 dc on each side"),
        ((Count(number=S(33), running=True),), ""),
    ],
)
def test_counts(counts: tuple[Count, ...], words: str) -> None:
    assert count_words(counts, Lexicon(terms="UK", style=PLAIN)) == words


def plain_row(number: int, *steps: Step, side: str | None = None) -> Row:
    return Row(id=number, label=f"Row {number}", numbers=((number,),), steps=steps, side=side)  # type: ignore[arg-type]


EVEN, GROW = Make(stitch="dc", places="rest"), Make(stitch="dc", each=S(2))


def test_equal_rows_become_a_range() -> None:
    rows = collapse([plain_row(1, GROW), *(plain_row(n, EVEN) for n in range(2, 27))])
    assert [row.label for row in rows] == ["Row 1", "Rows 2-26"]
    assert rows[1].numbers == (tuple(range(2, 27)),)


def test_rows_that_alternate_are_told_once_and_then_repeated() -> None:
    rows = collapse([plain_row(n, EVEN if n % 2 else GROW) for n in range(1, 13)])
    assert [row.label for row in rows] == ["Row 1", "Row 2", "Rows 3-12"]
    assert isinstance(rows[2].steps[0], Refer) and rows[2].steps[0].rows == (1, 2)


def test_no_special_row_is_drawn_into_a_repeat_and_none_is_left_over() -> None:
    rows = collapse([*(plain_row(n, EVEN if n % 2 else GROW) for n in range(1, 8)), plain_row(8, Chain(number=S(3)))])
    assert [row.label for row in rows] == ["Row 1", "Row 2", "Rows 3-6", "Row 7", "Row 8"]


def test_a_missing_number_ends_a_range() -> None:
    rows = collapse([plain_row(2, EVEN), plain_row(3, EVEN), plain_row(5, EVEN)])
    assert [row.label for row in rows] == ["Rows 2 and 3", "Row 5"]


def test_the_stitches_used_are_found_in_order() -> None:
    assert stitches_used(WRAP) == ("ch", "dc")


def test_a_pattern_cut_down_to_one_size_says_that_size_only() -> None:
    grown = Row(
        id=20,
        label="Row 2",
        numbers=((2, 3), (2, 3, 4)),
        steps=(Make(id=21, stitch="dc", places=S(5, 9)),),
        stated=(Count(number=S(5, 9)),),
    )
    large = Row(id=30, label="Row 5", numbers=((5,),), only=frozenset({1}), steps=(Make(id=31, stitch="sc"),))
    mixed = Row(
        id=40,
        label="Row 6",
        numbers=((6,),),
        steps=(Make(id=41, stitch="hdc", only=frozenset({0})), Make(id=42, stitch="tr", places=S(None, 2))),
    )
    pattern = Pattern(facts=Facts(size_names=("S", "M")), parts=(Part(name="", rows=(grown, large, mixed)),))
    small, medium = (write(one_size(pattern, size), style=PLAIN).parts[0].rows for size in (0, 1))
    assert [(row.label, row.words, row.count) for row in small] == [
        ("Rows 2 and 3", "Dc in each of next 5 sts", "5 sts"),
        ("Row 6", "Hdc in next st", ""),
    ]
    assert [(row.label, row.words, row.count) for row in medium] == [
        ("Rows 2-4", "Dc in each of next 9 sts", "9 sts"),
        ("Row 5", "Sc in next st", ""),
        ("Row 6", "Tr in each of next 2 sts", ""),
    ]
