"""What a publication holds, and that its outputs cannot differ from one another."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from hashlib import sha256
from html import unescape
from html.parser import HTMLParser

import pypdfium2
import pytest

from hookwright.pattern import Facts, Pattern
from hookwright.publishing import MANIFEST, Publication, files_of, publish
from hookwright.publishing.care import rights_of
from hookwright.reading import read
from hookwright.teaching.cautions import cautions_of, subjects_of
from hookwright.working import work

from .conftest import published, worked

PIECES = ("ebbline-wrap", "bollard-seat-pad", "fogbell-hat")


def squeezed(text: str) -> str:
    """Letters, figures and signs without any space: how a PDF breaks its lines does not matter."""
    return re.sub(r"[\s\u00a0\u200b\ufffe\x02]+", "", text)


def pdf_pages(data: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(data)
    pages = []
    for page in document:
        text = page.get_textpage()
        pages.append(text.get_text_bounded())
        text.close()
        page.close()
    document.close()
    return pages


class Rows(HTMLParser):
    """The words of every row of the page, in one set of terms."""

    def __init__(self, terms: str) -> None:
        super().__init__()
        self.terms, self.rows, self.depth, self.inside = terms, [], 0, False
        self.here = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        classes = (dict(attrs).get("class") or "").split()
        if tag == "li" and "row" in classes:
            self.rows.append("")
        if tag == "span" and self.rows:
            if self.inside or (classes and classes[0] == self.terms):
                self.inside, self.depth = True, self.depth + 1
            if "sz" in classes:
                self.here = classes[1]

    def handle_endtag(self, tag: str) -> None:
        if tag == "span" and self.inside:
            self.depth -= 1
            self.inside = self.depth > 0
            if self.depth == 1:
                self.here = ""

    def handle_data(self, data: str) -> None:
        if self.inside and self.here in ("", "sz-all"):
            self.rows[-1] += data


@pytest.mark.parametrize("name", PIECES)
def test_the_folder_holds_everything(name: str) -> None:
    files = set(published(name).files)
    assert {f"{name}.pdf", f"{name}-large-print.pdf", f"{name}.html", f"{name}-us.txt", f"{name}-uk.txt", MANIFEST} <= files
    assert any(file.startswith("pictures/chart") and file.endswith(".svg") for file in files)
    assert any(file.startswith("pictures/schematic") and file.endswith(".png") for file in files)


@pytest.mark.parametrize("name", PIECES)
def test_the_same_pattern_gives_the_same_bytes(name: str) -> None:
    pattern = read(worked(name)[0].source)
    again = publish(pattern, [work(pattern, size=size) for size in range(pattern.sizes)])
    assert again.files == published(name).files


@pytest.mark.parametrize("name", PIECES)
def test_the_manifest_tells_the_digest_of_every_other_file(name: str) -> None:
    publication = published(name)
    others = {file: sha256(data).hexdigest() for file, data in publication.files.items() if file != MANIFEST}
    assert files_of(publication.files[MANIFEST]) == others


@pytest.mark.parametrize("name", PIECES)
def test_every_row_says_the_same_in_page_booklet_and_text(name: str) -> None:
    publication = published(name)
    for terms in ("US", "UK"):
        text = publication.files[f"{name}-{terms.lower()}.txt"].decode()
        page = Rows(terms)
        page.feed(publication.files[f"{name}.html"].decode())
        told = [row for part in publication.sheet.editions[terms].parts for row in part.rows]
        assert len(page.rows) == len(told)
        for row, shown in zip(told, page.rows, strict=True):
            label = f"{row.label}: " if row.label else ""
            count = f" — {row.count}" if row.count else ""
            assert f"{label}{row.words}{count}.".replace("\u00a0", " ") in text.splitlines()
            assert squeezed(unescape(shown)) == squeezed(f"{label}{row.words}.{count}")
    booklet = squeezed("".join(pdf_pages(publication.files[f"{name}.pdf"])))
    for part in publication.sheet.edition.parts:
        for row in part.rows:
            assert squeezed(f"{row.words}.") in booklet


@pytest.mark.parametrize("name", PIECES)
def test_the_manifest_links_every_row_to_its_page(name: str) -> None:
    publication = published(name)
    told = json.loads(publication.files[MANIFEST])
    page = publication.files[f"{name}.html"].decode()
    for file in (f"{name}.pdf", f"{name}-large-print.pdf"):
        pages = [squeezed(text) for text in pdf_pages(publication.files[file])]
        for row in told["rows"]:
            assert f'id="{row["page"].partition("#")[2]}"' in page
            if row["label"]:
                assert squeezed(row["label"] + ":") in pages[row["booklets"][file] - 1]


@pytest.mark.parametrize("name", PIECES)
def test_one_stamp_stands_on_everything(name: str) -> None:
    publication = published(name)
    stamp = publication.sheet.stamp
    assert re.fullmatch(r"Version \d\.\d · [0-9a-f]{8}", stamp)
    assert stamp in publication.files[f"{name}.html"].decode()
    assert stamp in publication.files[f"{name}-uk.txt"].decode()
    assert json.loads(publication.files[MANIFEST])["stamp"] == stamp
    for page in pdf_pages(publication.files[f"{name}.pdf"]):
        assert squeezed(stamp) in squeezed(page)


def test_a_changed_count_changes_the_stamp(pad: Publication) -> None:
    pattern, _ = worked("bollard-seat-pad")
    changed = read(pattern.source.replace("11 dc in ring", "10 dc in ring"))
    assert publish(changed, [work(changed)]).sheet.stamp != pad.sheet.stamp


@pytest.mark.parametrize("name", PIECES)
@pytest.mark.parametrize("large", ["", "-large-print"])
def test_the_booklet_passes_the_checks_of_pdfua(name: str, large: str) -> None:
    """ISO 14289-1 (PDF/UA-1), the machine-checkable rules that the pdfua package knows; no full validation."""
    import io

    import pdfua

    report = pdfua.validate(io.BytesIO(published(name).files[f"{name}{large}.pdf"]))
    assert [finding for finding in report.findings] == []


def test_text_of_the_pattern_is_never_read_as_markup(tmp_path: object) -> None:
    evil = '#read("/etc/passwd") *x* $y$ <script>alert(1)</script> @here {{ 7*7 }} \\ `z`'
    pattern = read(worked("bollard-seat-pad")[0].source)
    pattern = replace(pattern, facts=replace(pattern.facts, title=evil, designer=evil, notes={**pattern.facts.notes, "description": evil}))
    files = publish(pattern, [work(pattern)]).files
    booklet = squeezed("".join(pdf_pages(next(data for name, data in files.items() if name.endswith(".pdf")))))
    assert squeezed(evil) in booklet
    page = next(data for name, data in files.items() if name.endswith(".html")).decode()
    assert "<script>alert(1)" not in page and "&lt;script&gt;alert(1)" in page and "{{ 7*7 }}" in page


_ENGLISH = """
a across and around as at back count counts do does each end evenly fasten first foundation from front hook in it join
joined last loop magic make next not of off only or other over place remaining ring row rows same side size sizes skip
skipped marker star the then through times to together top turn twice unworked with work working yarn nd rd th
"""
ENGLISH = frozenset(_ENGLISH.split())
"""Whole words that the rows of the demo pieces use, besides names of sizes and yarns."""


@pytest.mark.parametrize("name", PIECES)
@pytest.mark.parametrize("terms", ["US", "UK"])
def test_every_abbreviation_used_is_explained_and_none_besides(name: str, terms: str) -> None:
    publication = published(name)
    edition = publication.sheet.editions[terms]  # type: ignore[index]
    pattern, _ = worked(name)
    rows = [f"{row.label} {row.words} {row.count}" for part in edition.parts for row in part.rows]
    said = {word[:1].lower() + word[1:] for row in rows for word in re.findall(r"[A-Za-z][A-Za-z0-9]*", row)}
    said -= {name.lower() for name in pattern.facts.size_names} | {name[0].lower() + name[1:] for name in pattern.facts.yarns}
    shorts = {word for short in edition.abbreviations for word in re.sub(r"\((s)\)", r" \1", short.short).split()}
    explained = {word[:1].lower() + word[1:] for word in shorts} | {f"{word}s" for word in ("st", "sp", "rnd")}
    miss = {"miss"} if terms == "UK" else set()
    unexplained = said - ENGLISH - explained - miss - {"s"}
    assert unexplained == set()
    idle = {
        short.short
        for short in edition.abbreviations
        if not any(re.search(rf"\b{re.escape(short.short.split('(')[0])}", row, re.I) for row in rows)
    }
    assert idle == set()


def test_no_us_word_stands_in_the_uk_text(pad: Publication) -> None:
    rows = " ".join(row.words for part in pad.sheet.editions["UK"].parts for row in part.rows)
    assert not re.search(r"\b(sc|hdc|skip)\b", rows)
    assert re.search(r"\btr\b", rows) and re.search(r"\bdc\b", rows)


def test_sizes_of_the_hat_stand_in_the_table_and_alone_on_the_page(hat: Publication) -> None:
    assert hat.sheet.measures is not None and hat.sheet.measures.head == ("Measure", "Child", "Adult", "Large")
    told = {row[0]: row[1:] for row in hat.sheet.measures.rows}
    assert told["To fit head"] == ("50 cm (19¾ in)", "55 cm (21¾ in)", "60 cm (23½ in)")
    adult = dict(hat.sheet.editions["US"].sizes)["Adult"]
    assert all("(" not in row.count for row in adult.values())
    assert len(adult) < sum(len(part.rows) for part in hat.sheet.edition.parts)


def test_cautions_follow_the_features_of_the_piece() -> None:
    def told(**facts: object) -> tuple[str, ...]:
        return subjects_of(Pattern(facts=Facts(**facts)))  # type: ignore[arg-type]

    assert told(title="Seat pad") == ()
    assert told(title="Fish", intended="toy") == ("toy",)
    assert "hat" in told(title="Hat", size_names=("Child", "Adult"))
    assert "hat" not in told(title="What a chair for a child")
    assert cautions_of(Pattern(facts=Facts(title="Seat pad"))) == ()
    toy = cautions_of(Pattern(facts=Facts(title="Fish", intended="toy")))
    assert any("EN 71" in text for text in toy) and "accredited laboratory" in toy[-1]


def test_the_rights_are_the_designers_to_word() -> None:
    assert len(rights_of(Pattern())) == 2
    assert rights_of(Pattern(facts=Facts(notes={"rights": "Ask me."}))) == ("Ask me.",)
    assert rights_of(Pattern(facts=Facts(notes={"rights": "none"}))) == ()


def test_plain_text_holds_ordinary_spaces_only(wrap: Publication) -> None:
    assert "\u00a0" not in wrap.files["ebbline-wrap-us.txt"].decode()


def test_the_text_to_be_heard_holds_no_abbreviation_and_no_sign(wrap: Publication) -> None:
    text = wrap.files["aloud/ebbline-wrap-us.txt"].decode()
    rows = [line for line in text.splitlines() if re.match(r"Rows? \d.*: ", line)]
    assert len(rows) == 10
    assert not any(re.search(r"[*\[\]]|\b(dc|sc|ch|st|sts|sp|rep|RS)\b", row) for row in rows)
    assert "repeat to the end of the row: chain 1, skip next stitch, double crochet in next stitch; end of repeat" in text


def test_the_text_to_be_heard_is_of_one_size(hat: Publication) -> None:
    text = hat.files["aloud/fogbell-hat-uk-adult.txt"].decode()
    assert "Size Adult" in text and "In all, 72 half treble." in text
    assert "64" not in text.replace("In all, 64 half treble", "") and "Rounds 10-22" in text


@pytest.mark.parametrize("title", ["海の帽子", "قبعة", "🧶 Hat", "Größe Ł ő ş Ж Ω ✓", "", "a" * 300, "x\x00y\u202ez"])
def test_any_title_can_be_published(title: str) -> None:
    pattern = read("Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: inc in each st around. (12 sc)\n")
    facts = replace(pattern.facts, title=title, designer=title, notes={"description": title, "notes": [title]})
    named = replace(pattern, facts=facts, parts=tuple(replace(part, name=title) for part in pattern.parts))
    files = publish(named, [work(named)]).files
    assert all(len(name) < 100 for name in files)
    assert any(name.endswith(".pdf") for name in files)
    if title == "🧶 Hat":
        booklet = squeezed("".join(pdf_pages(next(data for name, data in files.items() if name.endswith(".pdf")))))
        assert "�Hat" in booklet and "Themark�stands" in booklet
        assert "🧶 Hat" in next(data for name, data in files.items() if name.endswith(".html")).decode()


def test_the_table_of_choices_is_in_every_output() -> None:
    made = publish(*worked("ebbline-wrap"), choices=True)
    pages = squeezed("".join(pdf_pages(made.files["ebbline-wrap.pdf"])))
    html = unescape(made.files["ebbline-wrap.html"].decode())
    for terms, gauge in (("US", "15 dc"), ("UK", "15 tr")):
        table = made.sheet.editions[terms].choices
        text = made.files[f"ebbline-wrap-{terms.lower()}.txt"].decode()
        assert table is not None and any(gauge in row[0] for row in table.rows)
        for row in table.rows:
            assert all(cell in html for cell in row) and row[4].replace("\u00a0", " ") in text
            assert terms == "UK" or squeezed(row[4]) in pages
    assert published("ebbline-wrap").sheet.edition.choices is None
