"""The film's pages: the same in HTML and PDF, harmless whatever the pattern says, in the publication and its manifest."""

import json
import re
from html import unescape
from html.parser import HTMLParser

import pypdfium2
import pytest

from hookwright.publishing import MANIFEST, film_files
from hookwright.reading import read
from hookwright.teaching import checklist_of, film_of
from hookwright.working import work

from .conftest import published

PIECES = ("ebbline-wrap", "fogbell-hat")
NASTY = """---
title: "Mat </script><b>#set page() *x* & --> \\u202e"
version: "1"
errata: "javascript:alert(1)"
---
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
Row 2: Ch 1, dc in each st across. (10 dc)
"""


def pdf_text(data: bytes) -> str:
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data)).split())


@pytest.mark.parametrize("piece", PIECES)
def test_the_folder_holds_the_film_and_the_manifest_knows_its_shots(piece: str) -> None:
    made = published(piece)
    names = {name for name in made.files if name.startswith("film/")}
    assert names == {
        f"film/{name}"
        for name in ("checklist.html", "checklist.pdf", "script.txt", "captions.vtt", "captions.srt", "chapters.txt", "description.txt")
    }
    told = json.loads(made.files[MANIFEST])["film"]
    assert len(told["shots"]) > 8 and told["chapters"][0]["start"] == 0
    assert (
        made.sheet.stamp in made.files["film/description.txt"].decode() or made.sheet.version in made.files["film/description.txt"].decode()
    )


@pytest.mark.parametrize("piece", PIECES)
def test_page_and_print_hold_every_shot_sample_and_caution(piece: str) -> None:
    made = published(piece)
    html = unescape(re.sub(r"<[^>]+>", " ", made.files["film/checklist.html"].decode()))
    print_ = pdf_text(made.files["film/checklist.pdf"])
    for caution in made.sheet.cautions:
        assert caution in html
    shots = json.loads(made.files[MANIFEST])["film"]["shots"]
    for number in (shot["number"] for shot in shots):
        assert re.search(rf"\b{number}\b", print_)
    assert "Ready" not in print_ and "Before the shoot" in print_ and "Script and cards" in print_


def test_words_of_a_pattern_are_text_and_never_markup() -> None:
    pattern = read(NASTY)
    film = film_of(pattern, [work(pattern)], stamp="Version 1")
    made = film_files(film, stamp="Version 1")
    tags: list[str] = []

    class Reader(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            tags.append(tag)

    Reader().feed(made["checklist.html"].decode())
    assert "script" not in tags and "b" not in tags and "a" in tags
    assert "#set page()" in pdf_text(made["checklist.pdf"])
    assert made == film_files(film, stamp="Version 1")


def test_a_shorter_cut_stands_on_the_list() -> None:
    pattern = read(NASTY)
    film = film_of(pattern, [work(pattern)])
    listed = checklist_of(film, minutes=2)
    page = unescape(film_files(film, minutes=2)["checklist.html"].decode())
    assert listed.shorter[0] in page
