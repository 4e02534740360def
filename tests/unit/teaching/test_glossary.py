"""The glossary pass: terms mended, nothing else touched."""

from hookwright.teaching import mend, read_captions

MACHINE = """WEBVTT
Kind: captions

NOTE made by a machine, double crow shay stays in a note

1
00:00:01.000 --> 00:00:04.000 align:start position:0%
Row too, chain won and <00:00:02.000><c>sink</c><00:00:02.300><c> a</c><00:00:02.500><c> crochet</c>

2
00:00:05.000 --> 00:00:08.000
then have double croquet and churn, for my cat
"""


def test_terms_are_mended_and_everything_else_stays() -> None:
    text, changes = mend(MACHINE)
    assert "Row two, chain one and <00:00:02.000><c>single crochet</c>" in text
    assert "then half double crochet and turn, for my cat" in text
    assert "NOTE made by a machine, double crow shay stays in a note" in text
    assert [c.was for c in changes] == ["too", "won", "sink a crochet", "have double croquet", "churn"]
    before, after = MACHINE.split("\n"), text.split("\n")
    assert len(before) == len(after)
    assert [line for line in before if "-->" in line] == [line for line in after if "-->" in line]


def test_what_is_right_is_left_alone() -> None:
    right = "0:01 Row 3: 2 dc in each st, half treble, slip stitch to join, chains, rounds, V-stitch, DC2tog. I have two cats.\r\n"
    assert mend(right) == (right, ())


def test_mending_twice_is_mending_once() -> None:
    once, _ = mend(MACHINE)
    assert mend(once) == (once, ())
    assert len(read_captions(once).cues) == len(read_captions(MACHINE).cues)
