"""Captions of every common make, and bad ones: one sentence, nothing lost."""

import pytest

from hookwright.reading import read
from hookwright.teaching import CannotHear, compare, read_captions
from hookwright.teaching.hearing.words import spoken_words
from hookwright.working import Fabric, work

PIECE = """US terms

Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
Row 2: Ch 1, dc in each st across. (10 dc)
"""


@pytest.fixture(scope="module")
def fabric() -> Fabric:
    return work(read(PIECE))


def words(text: str) -> str:
    return " ".join(word.text for word in spoken_words(read_captions(text)))


@pytest.mark.parametrize(
    "text",
    (
        "WEBVTT\n\nNOTE hello\n\n1\n00:01.000 --> 00:04.000 align:start\n<v Ann>Row one, <i>single</i> crochet\n",
        "1\r\n00:00:01,000 --> 00:00:04,000\r\n{\\an8}Row one, single crochet\r\n",
        "0:00:01.000,0:00:04.000\nRow one, single crochet\n",
        "0:01 Row one, single crochet\n",
        "[00:01] Row one, single crochet\n",
        "0:01\nRow one, single crochet\n",
        "\ufeffWEBVTT\n\n00:00:01.000 --> 00:00:04.000\n>> Row one, [Music] single&nbsp;crochet\n",
    ),
)
def test_every_common_make_is_read(text: str) -> None:
    assert words(text) == "row one single crochet"
    assert read_captions(text).cues[0].start == 1.0 and not read_captions(text).remarks


def test_times_out_of_order_are_sorted_with_one_sentence_and_nothing_is_lost(fabric: Fabric) -> None:
    text = "0:10 Row two, double crochet, ten stitches.\n0:02 Row one, single crochet, ten stitches.\n"
    captions = read_captions(text)
    assert words(text).startswith("row one") and len(words(text).split()) == 12
    assert len(captions.remarks) == 1 and "run backward" in captions.remarks[0] and captions.remarks[0].endswith(".")
    assert compare(fabric, captions) == ()


def test_captions_that_overlap_keep_every_word(fabric: Fabric) -> None:
    text = (
        "WEBVTT\n\n00:01.000 --> 00:09.000\nRow one, single crochet, ten stitches.\n\n"
        "00:05.000 --> 00:12.000\nRow two, double crochet, ten stitches.\n"
    )
    captions = read_captions(text)
    assert len(words(text).split()) == 12 and len(captions.remarks) == 1
    assert compare(fabric, captions) == ()


@pytest.mark.parametrize(
    "text",
    (
        "",
        " \n\n",
        "no times at all",
        "0:01 Hallo und willkommen zu meinem Video\n0:05 wir machen heute eine Mütze aus Wolle und Baumwolle\n",
        "0:01 Bonjour à toutes et bienvenue dans mon atelier\n0:05 aujourd'hui nous allons faire une écharpe toute simple\n",
        "0:01 today we bake a cake with three eggs and a little sugar for the party\n",
    ),
)
def test_what_cannot_be_used_is_one_sentence(fabric: Fabric, text: str) -> None:
    with pytest.raises(CannotHear) as why:
        compare(fabric, read_captions(text))
    assert str(why.value).endswith((".", "?")) and "\n" not in str(why.value)


def test_rolling_lines_are_said_once() -> None:
    rolled = (
        "WEBVTT\n\n00:01.000 --> 00:03.000\n \nrow one<00:01.500><c> single</c><00:02.000><c> crochet</c>\n\n"
        "00:03.000 --> 00:03.010\nrow one single crochet\n \n\n"
        "00:03.010 --> 00:05.000\nrow one single crochet\nten<00:03.500><c> stitches</c>\n\n"
        "00:05.000 --> 00:05.010\nten stitches\n \n"
    )
    assert words(rolled) == "row one single crochet ten stitches"
