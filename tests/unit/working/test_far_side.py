"""A piece that stands on the beginning chain of the piece before it, worked into from its other side."""

import pytest

from hookwright.reading import read
from hookwright.working import work

BODY = """Hat body
Ch 20, join with sl st to first ch to form a ring.
Rnd 1: Ch 1, sc in each ch around, join. (20 sc)
Rnd 2: Ch 1, 2 sc in each sc around, join. (40 sc)
Fasten off.

"""
TOLD = (
    "Band\nRnd 1: Working in free loops of beginning ch, join yarn with sl st in any ch, ch 1, sc in each ch around, join. (20 sc)",
    "Band\nWorking in unused loops of foundation ch, join yarn in any ch.\nRnd 1: Ch 1, sc in each ch around, join. (20 sc)",
    "Band\nRnd 1: Join yarn in free loop of first ch, ch 1, sc in free loop of each ch around, join. (20 sc)",
    "Band\nRnd 1: Working along opposite side of foundation chain, join yarn, ch 1, sc in each ch around, join. (20 sc)",
    "Band (worked in the free loops of the foundation chain)\nRnd 1: Join yarn, ch 1, sc in each st around, join. (20 sc)",
    "Band\nAttach yarn to the beginning chain.\nRnd 1: Ch 3 (counts as dc), dc in each remaining loop of chain around, join. (20 dc)",
    "Band\nRnd 1: With RS facing and working in remaining loops of beg ch, sc in each st around. (20 sc)",
    "Turn the hat upside down and join yarn in the starting chain.\nRnd 1: Ch 1, sc in each ch around, join. (20 sc)",
)


@pytest.mark.parametrize("told", TOLD)
def test_a_band_stands_on_the_beginning_chain(told: str) -> None:
    fabric = work(read(f"{BODY}{told}\n"))
    body, band = fabric.parts
    row = next(one for one in band.rows if not one.foundation)
    assert (row.read, row.worked, row.state, row.counted.total, row.offered, row.used) == ("whole", "yes", "agrees", 20, 20, 20)
    chain = next(one for one in body.rows if one.foundation)
    assert {place[:2] for place in fabric.links.values()} == {(0, chain.index)}


HEADED = "\nRnd 1: Join yarn, ch 1, sc in each st around, join. (20 sc)"


@pytest.mark.parametrize(
    ("heading", "on"),
    (
        ("Edging (along bottom edge of the foundation chain)", True),
        ("Band: worked along the opposite side of beginning ch", True),
        ("Lower band, from the base of the chain", True),
        ("Brim along the foundation edge", True),
        ("Band, on the base of the ch 20:", True),
        ("Band: work on the other side of the foundation chain.", True),
        ("Band\nMade into the unworked loops of the starting chain.", True),
        ("Brim worked in the round", False),
        ("Frill in back loops", False),
        ("Border along the edge", False),
    ),
)
def test_a_heading_tells_the_chain_it_stands_on(heading: str, on: bool) -> None:
    fabric = work(read(f"{BODY}{heading}{HEADED}\n"))
    chain = next(one for one in fabric.parts[0].rows if one.foundation)
    assert ((0, chain.index) in {place[:2] for place in fabric.links.values()}) is on


@pytest.mark.parametrize(
    "told",
    (
        "20 sc (free loops), join.",
        "20 sc in free loops, join.",
        "Sc in each free loop around, join. (20 sc)",
        "Join yarn in any ch, sc in same ch and in each ch around, join.",
    ),
)
def test_under_such_a_heading_loops_and_chains_are_those_of_the_far_side(told: str) -> None:
    fabric = work(read(f"{BODY}Band, on the base of the ch 20:\nRnd 1: {told}\n"))
    row = fabric.parts[1].rows[0]
    assert (row.read, row.worked, row.counted.total) == ("whole", "yes", 20)


def test_a_chain_of_its_own_is_no_beginning_chain() -> None:
    fabric = work(read(f"{BODY}Cord\nWith double strand make a chain 50 cm long, sl st in each ch back.\n"))
    assert fabric.links == {}


FRILL = "Frill\nRnd 1: Join yarn to the front loops left free of Rnd 1, ch 1, sc in each front loop of Rnd 1 around, join. (20 sc)"


@pytest.mark.parametrize("told", (TOLD[0], FRILL))
def test_what_goes_on_from_a_band_stands_on_the_band(told: str) -> None:
    fabric = work(read(f"{BODY}{told}\n\nEdge\nRnd 2: Ch 1, sc in each sc around, join. (20 sc)\n"))
    assert [part.name for part in fabric.parts] == ["Hat body", told.split("\n")[0], "Edge"]
    stood_on = {place[0]: on[:2] for place, on in fabric.links.items()}
    assert stood_on == {1: (0, stood_on[1][1]), 2: (1, fabric.parts[1].rows[-1].index)}


@pytest.mark.parametrize("end", ["sl st in end st", "sl st in first sc", "slip st in last st, cut yarn"])
def test_a_row_down_both_sides_of_its_chain_is_closed_where_it_began(end: str) -> None:
    words = "sc in 2nd ch from hook, hdc in next st, 4 dc in last st, working on other side of ch, hdc in next st, sc in next st"
    row = work(read(f"US terms\n\nCh 4, {words}, {end}.\n")).parts[0].rows[-1]
    assert (row.read, row.worked, row.counted.total) == ("whole", "yes", 8)


def test_a_corner_closed_by_a_chain_and_a_single_crochet_is_a_space() -> None:
    text = (
        "US terms\n\nCh 4, join. Rnd 1: Ch 3, 2 dc in ring, [ch 2, 3 dc in ring] twice, ch 1, sc in 3rd ch of the ch-3. (9 dc)\n"
        "Rnd 2: Ch 3, dc in the sp you are in, [dc in next 3 dc, (2 dc, ch 2, 2 dc) in next ch-2 sp] twice, dc in next 3 dc, 2 dc in "
        "1st sp, ch 1, sc in 3rd ch of the ch-3. (21 dc)\n"
    )
    assert [(row.worked, row.state) for row in work(read(text)).parts[0].rows[1:]] == [("yes", "agrees")] * 2
