"""The writer and the two raster and print forms: well-formed for three renderers, the same to the byte, closed to what labels may hold."""

from __future__ import annotations

import io
import itertools
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageFilter

from hookwright.drawing import svg
from hookwright.drawing.chart import chart
from hookwright.drawing.export import svg as chart_svg
from hookwright.drawing.png import to_pdf, to_pdf_pages, to_png
from hookwright.working.fabric import Fabric

CHROMIUM = Path("/usr/bin/chromium")


def small(words: str = "Row 1") -> str:
    page = svg.Svg(width_mm=40, height_mm=20, title=f"{words} & more", desc=f"A test: {words}")
    page.define("dot", svg.circle(0, 0, 2))
    page.add(svg.use("dot", svg.at(10, 10)), svg.text(20, 10, words))
    return page.render()


@pytest.mark.parametrize("value, text", [(0.005, "0.01"), (-0.0001, "0"), (100.0, "100"), (1 / 3, "0.33"), (-2.5, "-2.5")])
def test_one_function_rounds_numbers(value: float, text: str) -> None:
    assert svg.num(value) == text


@pytest.mark.parametrize("words", ['<script>alert("x")</script>', "a & b", "\x00\x1f", "]]>", '#image("/etc/passwd")', "多 ß é", "\ud800"])
def test_whatever_a_label_holds_the_document_is_well_formed(words: str) -> None:
    drawing = small(words)
    root = ET.fromstring(drawing.encode("utf-8"))
    assert root.find("{http://www.w3.org/2000/svg}script") is None
    assert to_png(drawing, dpi=40).startswith(b"\x89PNG")


def test_two_symbols_cannot_share_a_name() -> None:
    page = svg.Svg(width_mm=1, height_mm=1, title="t", desc="d")
    page.define("a", "<g/>")
    page.define("a", "<g/>")
    with pytest.raises(ValueError, match="two different symbols"):
        page.define("a", "<path/>")


def test_a_png_has_the_size_it_prints_at() -> None:
    picture = Image.open(io.BytesIO(to_png(small(), dpi=254)))
    assert picture.size == (400, 200)


@pytest.mark.parametrize("dpi", [110, 130, 150])
def test_no_line_of_pixels_is_left_out_of_a_png(dpi: int) -> None:
    wide, high, px = 76.73, 80.01, 25.4 / dpi
    page = svg.Svg(width_mm=wide, height_mm=high, title="stripes", desc="every other pixel")
    down, across = (range(0, int(mm / px) - 1, 2) for mm in (high, wide))
    page.add(*(f'<rect width="3" height="{px:.5f}" y="{i * px:.5f}"/>' for i in down))
    page.add(*(f'<rect width="{px:.5f}" height="1" x="{i * px:.5f}"/>' for i in across))
    picture = Image.open(io.BytesIO(to_png(page.render(), dpi=dpi))).convert("L")
    left = picture.crop((4, 10, 5, int(high / px) - 2)).tobytes()
    top = picture.crop((20, 2, int(wide / px) - 2, 3)).tobytes()
    for line in (left, top):
        assert all(abs(one - after) > 200 for one, after in itertools.pairwise(line))


def test_png_and_pdf_are_the_same_to_the_byte_on_a_second_run() -> None:
    drawing = small()
    assert to_png(drawing) == to_png(drawing)
    assert to_pdf(drawing) == to_pdf(drawing)


def test_a_pdf_holds_the_page_and_its_words() -> None:
    pdfium = pytest.importorskip("pypdfium2")
    document = pdfium.PdfDocument(to_pdf_pages((small("First"), small("Second"))))
    assert len(document) == 2
    width, height = document[0].get_size()
    assert (round(width / 72 * 25.4), round(height / 72 * 25.4)) == (40, 20)
    assert "Second" in document[1].get_textpage().get_text_range()


def test_no_page_is_an_error_in_words() -> None:
    with pytest.raises(ValueError, match="no page"):
        to_pdf_pages(())


@pytest.mark.parametrize("name", ["shells", "granny"])
def test_three_renderers_draw_the_same_chart(pieces: dict[str, Fabric], name: str) -> None:
    """The typesetter's, a PDF reader's, and (where there is one) a browser's: ink falls in the same places."""
    pdfium = pytest.importorskip("pypdfium2")
    drawing = chart_svg(chart(pieces[name], key=False))
    first = Image.open(io.BytesIO(to_png(drawing, dpi=100))).convert("L")
    page = pdfium.PdfDocument(to_pdf(drawing))[0]
    pictures = [page.render(scale=100 / 72).to_pil().convert("L")]
    if CHROMIUM.exists():
        pictures.append(_in_browser(drawing, first.size))
    for other in pictures:
        assert _ink_apart(first, other.resize(first.size)) < 0.02


def _in_browser(drawing: str, size: tuple[int, int]) -> Image.Image:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as p:
        browser = p.chromium.launch(executable_path=str(CHROMIUM), args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": size[0], "height": size[1]})
        page.set_content(f"<style>body{{margin:0}}svg{{width:{size[0]}px;height:{size[1]}px;display:block}}</style>{drawing}")
        shot = page.screenshot()
        browser.close()
    return Image.open(io.BytesIO(shot)).convert("L")


def _ink_apart(a: Image.Image, b: Image.Image) -> float:
    """Share of the ink of one picture that has no ink of the other within two pixels, both ways."""
    dark_a, dark_b = (p.point(lambda v: 255 if v < 140 else 0) for p in (a, b))
    wide_a, wide_b = (p.filter(ImageFilter.MaxFilter(5)) for p in (dark_a, dark_b))
    total = dark_a.histogram()[255] or 1
    apart = ImageChops.subtract(dark_a, wide_b).histogram()[255] + ImageChops.subtract(dark_b, wide_a).histogram()[255]
    return apart / total
