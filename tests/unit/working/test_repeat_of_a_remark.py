"""A repeat whose words hold nothing to work: a slip of the star."""

from hookwright.reading import read
from hookwright.working import work


def test_a_star_set_behind_the_stitches_repeats_a_remark_and_nothing_breaks() -> None:
    text = (
        "US terms\n\nRnd 1: Make a magic ring, 8 hdc in ring, do not join. (8 hdc)\nRnd 2: 2 hdc in each* st around. (16 hdc)\n"
        "Rnd 3: Hdc in each st around.\n"
    )
    fabric = work(read(text))
    assert [row.label for row in fabric.parts[0].rows][-3:] == ["Rnd 1", "Rnd 2", "Rnd 3"]
