"""Every kind of step in words, US and UK, and where its words stand."""

from __future__ import annotations

import pytest

from hookwright.pattern import (
    Aside,
    Chain,
    Colour,
    Even,
    FastenOff,
    Join,
    Leave,
    Make,
    Part,
    Pattern,
    Place,
    Refer,
    Repeat,
    Ring,
    Row,
    Shape,
    Sized,
    Skip,
    Span,
    Special,
    Step,
    Times,
    Together,
    Turn,
    Unread,
)
from hookwright.writing import PLAIN, write

S = Sized.of
NEXT_TWO = Make(stitch="dc", places=S(2))


def said(*steps: Step, terms: str = "US", noun: str = "row", **more: object) -> str:
    """The words of one row made of these steps, without its label and full stop."""
    row = Row(id=1, label="Row 2", numbers=((2,),), noun=noun, made_in="rows" if noun == "row" else "joined", steps=steps)  # type: ignore[arg-type]
    pattern = Pattern(parts=(Part(name="", rows=(row,)),), **more)  # type: ignore[arg-type]
    return write(pattern, terms=terms, style=PLAIN).parts[0].rows[0].words  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("step", "us", "uk"),
    [
        (Make(stitch="dc"), "Dc in next st", "Tr in next st"),
        (Make(stitch="dc", places=S(5)), "Dc in each of next 5 sts", "Tr in each of next 5 sts"),
        (Make(stitch="hdc", each=S(2)), "2 hdc in next st", "2 htr in next st"),
        (Make(stitch="sc", each=S(2), places=S(3)), "2 sc in each of next 3 sts", "2 dc in each of next 3 sts"),
        (Make(stitch="tr", places="rest"), "Tr in each st across", "Dtr in each st across"),
        (Make(stitch="dc", places="rest", but=S(1)), "Dc in each st across to last st", "Tr in each st across to last st"),
        (Make(stitch="dc", at=Place(what="dc"), places=S(3)), "Dc in each of next 3 dc", "Tr in each of next 3 tr"),
        (Make(stitch="dc", at=Place(where="first")), "Dc in first st", "Tr in first st"),
        (Make(stitch="dc", each=S(2), at=Place(where="last")), "2 dc in last st", "2 tr in last st"),
        (Make(stitch="dc", at=Place(where="from_hook", what="ch", nth=4)), "Dc in 4th ch from hook", "Tr in 4th ch from hook"),
        (Make(stitch="sc", each=S(6), at=Place(where="ring", what="ring")), "6 sc in ring", "6 dc in ring"),
        (Make(stitch="dc", at=Place(where="same")), "Dc in same st", "Tr in same st"),
        (Make(stitch="sc", at=Place(what="ch-2 sp")), "Sc in next ch-2 sp", "Dc in next ch-2 sp"),
        (Make(stitch="sc", places=S(4), at=Place(loop="back")), "Sc in BLO of each of next 4 sts", "Dc in BLO of each of next 4 sts"),
        (Make(stitch="FPdc", at=Place(post="front")), "FPdc around next st", "FPtr around next st"),
        (Make(stitch="BPdc", places=S(2), at=Place(what="dc")), "BPdc around each of next 2 dc", "BPtr around each of next 2 tr"),
        (Make(stitch="dc2tog", closes=2), "Dc2tog", "Tr2tog"),
        (Make(stitch="sc2tog", closes=2, places=S(6)), "[Sc2tog] 6 times", "[Dc2tog] 6 times"),
        (Make(stitch="inc", main="sc", places=S(6)), "2 sc in each of next 6 sts", "2 dc in each of next 6 sts"),
        (Make(stitch="dec", main="hdc", closes=2), "Hdc2tog", "Htr2tog"),
        (Make(stitch="fsc", each=S(20), at=Place(where="hook")), "20 fsc", "20 fdc"),
        (Make(stitch="esc"), "Esc in next st", "Edc in next st"),
        (Make(stitch="dc", at=Place(below=1)), "Dc in next st 2 rows below", "Tr in next st 2 rows below"),
        (Skip(number=S(2)), "Skip next 2 sts", "Miss next 2 sts"),
        (Skip(what="ch-2 sp"), "Skip next ch-2 sp", "Miss next ch-2 sp"),
        (Leave(number=S(3)), "Leave last 3 sts unworked", "Leave last 3 sts unworked"),
        (Chain(number=S(3), counts=True, stands_for=("dc",)), "Ch 3 (counts as dc)", "Ch 3 (counts as tr)"),
        (Chain(number=S(5), counts=True, stands_for=("dc", "ch 2")), "Ch 5 (counts as dc and ch 2)", "Ch 5 (counts as tr and ch 2)"),
        (Chain(number=S(1), counts=False), "Ch 1 (does not count as st)", "Ch 1 (does not count as st)"),
        (Chain(number=S(24, 30), foundation=True), "Ch 24 (30)", "Ch 24 (30)"),
        (Join(to=Place(where="first", what="sc")), "Join with sl st in first sc", "Join with sl st in first dc"),
        (Join(no=True), "Do not join", "Do not join"),
        (Turn(), "Turn", "Turn"),
        (Turn(no=True), "Do not turn", "Do not turn"),
        (Ring(), "Make a magic ring", "Make a magic ring"),
        (Colour(yarn="B"), "With B", "With B"),
        (FastenOff(), "Fasten off", "Fasten off"),
        (Shape(change=S(1), where="each_end"), "Inc 1 st each end", "Inc 1 st each end"),
        (Shape(change=S(-6), where="evenly"), "Dec 6 sts evenly across", "Dec 6 sts evenly across"),
        (Even(stitch="dc"), "Dc in each st across", "Tr in each st across"),
        (Refer(rows=(2, 3)), "Rep Rows 2 and 3", "Rep Rows 2 and 3"),
        (Refer(last=2), "Rep last 2 rows", "Rep last 2 rows"),
        (Aside(kind="marker"), "Place marker", "Place marker"),
        (
            Repeat(body=(NEXT_TWO, Make(stitch="sc", each=S(2))), times=Times(kind="n", number=S(6))),
            "[Dc in each of next 2 sts, 2 sc in next st] 6 times",
            "[Tr in each of next 2 sts, 2 dc in next st] 6 times",
        ),
        (
            Repeat(body=(Chain(number=S(1)), Skip(), Make(stitch="dc")), times=Times(kind="to_last", number=S(3))),
            "* Ch 1, skip next st, dc in next st; rep from * to last 3 sts",
            "* Ch 1, miss next st, tr in next st; rep from * to last 3 sts",
        ),
        (
            Together(body=(Make(stitch="dc"), Chain(number=S(1)), Make(stitch="dc", each=S(2))), at=Place(what="ch-1 sp")),
            "(Dc, ch 1, 2 dc) in next ch-1 sp",
            "(Tr, ch 1, 2 tr) in next ch-1 sp",
        ),
    ],
)
def test_a_step_is_said_in_both_terms(step: Step, us: str, uk: str) -> None:
    assert said(step, terms="US").lower() == us.lower()
    assert said(step, terms="UK").lower() == uk.lower()


def test_a_round_goes_around() -> None:
    assert said(Make(stitch="sc", places="rest"), noun="round") == "Sc in each st around"


def test_a_step_after_a_star_repeat_stands_behind_a_semicolon() -> None:
    words = said(Repeat(body=(NEXT_TWO,), times=Times(kind="to_last")), Make(stitch="dc", each=S(2)), Turn())
    assert words == "* dc in each of next 2 sts; rep from * to last st; 2 dc in next st, turn"


def test_sizes_are_written_smallest_first_and_plural_where_any_size_is() -> None:
    assert said(Make(stitch="dc", places=S(1, 2, 3))) == "Dc in each of next 1 (2, 3) sts"
    assert said(Skip(number=S(4, 4))) == "Skip next 4 sts"


def test_a_step_for_some_sizes_names_them() -> None:
    from hookwright.pattern import Facts

    words = said(Make(stitch="dc", only=frozenset({1, 2})), facts=Facts(size_names=("S", "M", "L")))
    assert words == "Sizes M and L only: dc in next st"


def test_a_defined_stitch_keeps_its_name_in_both_terms_and_its_making_is_translated() -> None:
    shell = Special(name="shell", steps=(Together(body=(Make(stitch="dc", each=S(5)),)),))
    row = Row(id=1, label="Row 2", numbers=((2,),), steps=(Together(body=shell.steps, name="shell"),))
    written = write(Pattern(parts=(Part(name="", rows=(row,)),), defined={"shell": shell}), terms="UK", style=PLAIN)
    assert written.parts[0].rows[0].words == "Shell in next st"
    assert written.specials == (("shell", "(5 tr) in next st"),)


def test_what_was_never_understood_is_quoted_and_told() -> None:
    source = "Row 2: dc in next st, wibble the fob, turn."
    unread = Unread(id=9, span=Span(22, 36))
    row = Row(id=1, label="Row 2", numbers=((2,),), steps=(Make(stitch="dc"), unread, Turn()))
    written = write(Pattern(source=source, parts=(Part(name="", rows=(row,)),)), style=PLAIN)
    assert written.parts[0].rows[0].words == "Dc in next st, wibble the fob, turn"
    assert written.quoted == (Span(22, 36),)


def test_numbers_are_bound_to_their_nouns_in_house_style_only() -> None:
    pattern = Pattern(parts=(Part(name="", rows=(Row(id=1, label="", steps=(Make(stitch="dc", places=S(5)),)),)),))
    assert "next 5\u00a0sts" in write(pattern).text
    assert "\u00a0" not in write(pattern, style=PLAIN).text
