"""Draws the pictures of the tutorial from the demo pieces: `python docs/pictures.py`. A test fails when a drawing is stale.

The page and the booklet are photographed too where a Chromium is found; those are looked at, not compared.
"""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from hookwright.demo import piece
from hookwright.publishing import Publication, publish
from hookwright.reading import read
from hookwright.working import work

PICTURES = Path(__file__).parent / "pictures"
DRAWINGS = {
    "chart-pad.svg": ("bollard-seat-pad", "pictures/chart-pad.svg"),
    "schematic-hat.svg": ("fogbell-hat", "pictures/schematic-hat.svg"),
}
"""File in docs/pictures → (demo piece, file of its publication)."""
DPI = 110


def publication(name: str) -> Publication:
    """A demo piece as it is published."""
    pattern = read(piece(name))
    return publish(pattern, [work(pattern, size=size) for size in range(pattern.sizes)])


def drawings() -> dict[str, bytes]:
    """Every drawing of the tutorial: file name → bytes."""
    return {file: publication(name).files[source] for file, (name, source) in DRAWINGS.items()}


def booklet_pages(name: str, pages: tuple[int, ...]) -> bytes:
    """Pages of the booklet (from 1) side by side, as PNG."""
    import io

    import pypdfium2
    from PIL import Image

    document = pypdfium2.PdfDocument(publication(name).files[f"{name}.pdf"])
    shots = [document[page - 1].render(scale=DPI / 72).to_pil() for page in pages]
    document.close()
    sheet = Image.new("RGB", (sum(shot.width for shot in shots) + 12 * (len(shots) + 1), shots[0].height + 24), "#8a949b")
    x = 12
    for shot in shots:
        sheet.paste(shot, (x, 12))
        x += shot.width + 12
    out = io.BytesIO()
    sheet.quantize(64).save(out, "PNG", optimize=True)
    return out.getvalue()


def page_shot(name: str) -> bytes | None:
    """The page on a phone, as PNG; None without a Chromium."""
    chromium = shutil.which("chromium") or shutil.which("google-chrome")
    if chromium is None:
        return None
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        file = Path(folder) / "page.html"
        file.write_bytes(publication(name).files[f"{name}.html"])
        browser = play.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 420, "height": 900})
        page.goto(file.as_uri())
        page.locator(".row .tick").nth(0).check()
        page.locator(".row .tick").nth(1).check()
        page.locator("#instructions").scroll_into_view_if_needed()
        page.evaluate("document.querySelector('#instructions').scrollIntoView()")
        shot = page.screenshot()
        browser.close()
    return shot


def main() -> None:
    PICTURES.mkdir(exist_ok=True)
    for file, data in drawings().items():
        (PICTURES / file).write_bytes(data)
    (PICTURES / "booklet-pad.png").write_bytes(booklet_pages("bollard-seat-pad", (1, 3)))
    shot = page_shot("bollard-seat-pad")
    if shot is not None:
        (PICTURES / "page-pad.png").write_bytes(shot)


if __name__ == "__main__":
    main()
