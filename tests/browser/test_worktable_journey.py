"""A newcomer's first half hour: the demo opened, a row broken and seen caught, mended, yarn and stripes asked, 5 cm wider, published.

With HOOKWRIGHT_PICTURES naming a folder, every step leaves its picture there (docs/worktable holds them).
"""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, expect


def shot(page: Page, name: str) -> None:
    folder = os.environ.get("HOOKWRIGHT_PICTURES")
    if folder:
        Path(folder).mkdir(parents=True, exist_ok=True)
        page.wait_for_timeout(400)
        page.screenshot(path=Path(folder) / f"{name}.png")


def break_row_4(page: Page) -> None:
    """Put the cursor behind the count of Row 4 and write another."""
    page.locator(".cm-line", has_text="Row 4:").click()
    page.keyboard.press("End")
    for _ in range(4):
        page.keyboard.press("ArrowLeft")
    page.keyboard.press("Backspace")
    page.keyboard.type("3")


def test_a_newcomer_goes_all_the_way(desk: Any, worktable: Any) -> None:
    page = desk.window()
    desk.proofed(page)
    expect(page.locator(".verdict")).to_contain_text("Nothing to mend")
    shot(page, "1-first-start")

    page.get_by_role("button", name="Go to the page").click()
    break_row_4(page)
    expect(page.locator(".mark-error")).to_contain_text("33")
    expect(page.locator(".finding").first).to_contain_text("Row 4")
    page.get_by_text("How this was worked out").first.click()
    shot(page, "2-a-slip-caught")

    page.locator(".finding").first.get_by_role("button", name=re.compile("^State 31")).click()
    expect(page.locator(".verdict")).to_contain_text("Nothing to mend")
    page.get_by_role("tab", name="Learn").click()
    expect(page.locator(".task.done")).to_have_count(1)
    page.get_by_role("button", name="Go to the fabric").click()
    page.locator(".cm-line", has_text="Row 3:").click()
    expect(page.locator(".sheet g.row.lit").first).to_be_attached()
    shot(page, "3-the-fabric")

    page.get_by_role("tab", name="Yarn").click()
    expect(page.locator(".figure", has_text="balls to buy")).to_be_visible()
    shot(page, "4-yarn")
    page.locator(".stripes").scroll_into_view_if_needed()
    expect(page.locator(".stripes rect").first).to_be_attached()
    expect(page.get_by_text(re.compile("Ball 2 begins in Row"))).to_be_visible()
    shot(page, "5-stripes")

    page.get_by_role("tab", name="Fit").click()
    page.get_by_label("Wider by, cm").fill("5")
    expect(page.locator(".figure", has_text="wide")).to_contain_text("+5 cm")
    shot(page, "6-five-cm-wider")
    page.get_by_role("button", name="Write it into the pattern").click()
    text = worktable.wait_for("Slipway scarf", lambda text: "Ch 41" in text)
    assert "39 dc" in text and "title: Slipway scarf" in text
    desk.proofed(page)
    expect(page.locator(".verdict")).to_contain_text("Nothing to mend")

    page.get_by_role("tab", name="Publish").click()
    page.locator("#side-publish").get_by_role("button", name="Publish", exact=True).click()
    expect(page.get_by_role("heading", name="Published")).to_be_visible(timeout=60_000)
    shot(page, "7-published")
    made = worktable.folder / "published" / "Slipway scarf"
    assert (made / "slipway-scarf.pdf").read_bytes().startswith(b"%PDF")
    assert "39" in (made / "slipway-scarf-us.txt").read_text(encoding="utf-8")

    with page.context.expect_page() as opened:
        page.get_by_role("link", name="slipway-scarf.html", exact=True).click()
    book = opened.value
    book.wait_for_load_state()
    expect(book.get_by_role("heading", name="Slipway scarf").first).to_be_visible()
    assert book.evaluate("window.origin") == "null", "a published page is nobody's page here"
    shot(book, "8-the-page")


def test_a_cancelled_publication_leaves_nothing(desk: Any, worktable: Any) -> None:
    page = desk.window()
    desk.proofed(page)
    page.get_by_role("tab", name="Publish").click()
    page.locator("#side-publish").get_by_role("button", name="Publish", exact=True).click()
    page.get_by_role("button", name="Cancel").click()
    expect(page.get_by_text("Cancelled. Nothing was written.")).to_be_visible()
    assert not (worktable.folder / "published" / "Slipway scarf").exists()
    expect(page.locator("#side-publish").get_by_role("button", name="Publish", exact=True)).to_be_enabled()
