"""Documents from elsewhere: what they hold comes through as rows, and the hostile ones give one sentence."""

from __future__ import annotations

import io
import zipfile

import pytest

from hookwright.importing import CannotRead, read_document
from hookwright.importing.bounds import Bounds
from hookwright.importing.pdf import pdf_blocks

DOCUMENT = '<?xml version="1.0"?><w:document xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"><w:body>{}</w:body></w:document>'
TYPES = (
    '<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Override PartName="/word/document.xml" '
    'ContentType="application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"/></Types>'
)
RELS = (
    '<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" '
    'Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="word/document.xml"/></Relationships>'
)


def docx(body: str, **extra: bytes) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("[Content_Types].xml", TYPES)
        archive.writestr("_rels/.rels", RELS)
        archive.writestr("word/document.xml", DOCUMENT.format(body))
        for name, data in extra.items():
            archive.writestr(name, data)
    return out.getvalue()


def paragraph(text: str, style: str = "") -> str:
    look = f'<w:pPr><w:pStyle w:val="{style}"/></w:pPr>' if style else ""
    return f'<w:p>{look}<w:r><w:t xml:space="preserve">{text}</w:t></w:r></w:p>'


def test_docx_rows_keep_their_stars_and_tables_become_rows() -> None:
    cell = "<w:tc>{}</w:tc>"
    table = "<w:tbl><w:tr>" + "".join(cell.format(paragraph(t)) for t in ("Rnd 3", "*Sc, inc* x 6", "18")) + "</w:tr></w:tbl>"
    body = paragraph("Harbour cap", "Heading1") + paragraph("Rnd 1: 6 sc in ring. (6)") + paragraph("Rnd 2: *Inc* around. [12]") + table
    text = read_document(docx(body), "cap.docx")
    assert "Rnd 1: 6 sc in ring. (6)\nRnd 2: *Inc* around. [12]\nRnd 3: *Sc, inc* x 6 (18)\n" in text


HTML = """<!DOCTYPE html><html><head><title>x</title><style>p{}</style></head><body><nav>Home</nav><script>alert(1)</script>
<h1>Harbour&nbsp;cap</h1><p>You need: 50&nbsp;g wool.</p><h2>Crown</h2>
<p><strong>Rnd 1:</strong> 6 sc in ring. <em>(6)</em><br>Rnd 2: *2 sc in next st*; rep from * around. (12)</p>
<div>Rnd 3: <span>*Sc, inc</span>; rep from * around. (18)</div>
<ol><li>Weave in ends.</li><li>Row 4: sc across.</li></ol><ul><li>5 mm hook</li><li>needle</li></ul>
<p>Ros\u00e9 &amp; &lt;b&gt;</p><footer>Buy now</footer></body></html>"""


def test_html_keeps_the_pattern_and_leaves_the_page_out() -> None:
    text = read_document(HTML.encode(), "page.html")
    assert "# Harbour cap" in text and "## Crown" in text
    assert "Rnd 1: 6 sc in ring. (6)\nRnd 2: *2 sc in next st*; rep from * around. (12)\nRnd 3: *Sc, inc; rep from * around. (18)" in text
    assert "1. Weave in ends." in text and "\nRow 4: sc across." in text and "- 5 mm hook\n- needle" in text
    assert "Rosé & <b>" in text
    assert not any(word in text for word in ("Home", "alert", "Buy", "p{}"))


def test_html_in_windows_latin_is_read_by_its_charset() -> None:
    page = '<html><head><meta charset="windows-1252"></head><body><p>Größe</p></body></html>'.encode("cp1252")
    assert "Größe" in read_document(page, "a.html")


def pdf(source: str) -> bytes:
    import typst

    made = typst.compile(source.encode(), format="pdf")
    assert isinstance(made, bytes)
    return made


def test_pdf_lines_are_joined_into_rows() -> None:
    row = "Rnd 3: \\*Sc in next st, 2 sc in next st; rep from \\* around, placing a marker in the first stitch of the round. (18)"
    made = pdf(f"#set page(width: 9cm, height: 12cm)\n= Harbour cap\nRnd 1: 6 sc in ring. (6)\n\nRnd 2: 2 sc in each st. (12)\n\n{row}\n")
    text = read_document(made, "cap.pdf")
    assert row.replace("\\", "") in text.splitlines()
    assert text.splitlines()[0] == "# Harbour cap" and "Rnd 1: 6 sc in ring. (6)" in text.splitlines()


def test_running_heads_and_page_numbers_are_left_out() -> None:
    pages = [["Studio leaflet", f"Row {n}: Sc across.", f"{n}"] for n in range(1, 5)]
    texts = [block.text for block in pdf_blocks(pages)]
    assert texts == [f"Row {n}: Sc across." for n in range(1, 5)]


def test_a_row_broken_by_a_page_is_one_row() -> None:
    pages = [["Row 1: Sc in next 5 sts,"], ["ch 1, sc in last 5 sts. (10)"]]
    assert [block.text for block in pdf_blocks(pages)] == ["Row 1: Sc in next 5 sts, ch 1, sc in last 5 sts. (10)"]


def bomb() -> bytes:
    return docx(paragraph("x"), **{f"word/media/{n}.xml": b"\0" * 50_000_000 for n in range(5)})


def entity() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("[Content_Types].xml", TYPES)
        archive.writestr("_rels/.rels", RELS)
        archive.writestr("word/document.xml", '<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]>' + DOCUMENT.format(paragraph("&b;")))
    return out.getvalue()


@pytest.mark.parametrize(
    ("data", "name", "says"),
    [
        (b"", "a.txt", "is empty"),
        (b"%PDF-1.7 nothing follows", "a.pdf", "is a damaged PDF"),
        (docx(paragraph("x"))[:200], "a.docx", "is a damaged .docx"),
        (b"PK\x03\x04 and then nothing", "a.docx", "is a damaged .docx"),
        (b"just words", "a.docx", "is not a .docx document"),
        (b"\xd0\xcf\x11\xe0 old", "a.doc", "save it as .docx"),
        (b"\x00\x01\x02" * 50, "a.bin", "is no document that can be read"),
        (b"\xff\xfe\x00", "a.txt", "is broken UTF-16"),
        (bomb(), "a.docx", "unpacks to more"),
        (entity(), "a.docx", "declares entities"),
        (pdf("#rect()"), "scan.pdf", "holds no text (a scan?"),
    ],
    ids=["empty", "pdf", "cut", "zip", "renamed", "old", "binary", "utf16", "bomb", "entity", "scan"],
)
def test_hostile_documents_give_one_sentence(data: bytes, name: str, says: str) -> None:
    with pytest.raises(CannotRead) as refused:
        read_document(data, name)
    assert says in str(refused.value) and name in str(refused.value) and "\n" not in str(refused.value)


def test_a_zip_that_is_no_document() -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("readme", "x")
    with pytest.raises(CannotRead, match=r"no \.docx document"):
        read_document(out.getvalue(), "a.docx")


def test_deeply_nested_html_ends() -> None:
    deep = b"<html><body>" + b"<div>" * 20_000 + b"Row 1: sc" + b"</div>" * 20_000
    try:
        assert "Row 1: sc" in read_document(deep, "a.html")
    except CannotRead as refused:
        assert "a.html" in str(refused)


def test_time_is_bounded() -> None:
    with pytest.raises(CannotRead, match="took longer than"):
        read_document(HTML.encode(), "a.html", bounds=Bounds(seconds=0.001))


def test_a_long_pdf_is_refused() -> None:
    with pytest.raises(CannotRead, match="has 301 pages"):
        read_document(pdf("\n#pagebreak()\n".join(["x"] * 301)), "a.pdf")
