"""The published page in a real browser: from the file system, offline, with and without its script, for every reader."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from hookwright.demo import piece
from hookwright.publishing import publish
from hookwright.reading import read
from hookwright.working import work


@cache
def html(name: str) -> bytes:
    pattern = read(piece(name))
    made = publish(pattern, [work(pattern, size=size) for size in range(pattern.sizes)])
    return made.files[f"{name}.html"]


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as play:
        own = os.environ.get("HOOKWRIGHT_CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
        started = play.chromium.launch(executable_path=own, args=["--no-sandbox"])
        yield started
        started.close()


@pytest.fixture
def open_page(browser: Browser, tmp_path: Path) -> Iterator[object]:
    contexts: list[BrowserContext] = []

    def opened(name: str, *, script: bool = True, width: int = 390, scheme: str = "light") -> Page:
        file = tmp_path / "with ümlaut and space" / f"{name}.html"
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(html(name))
        context = browser.new_context(
            java_script_enabled=script,
            viewport={"width": width, "height": 844},
            color_scheme=scheme,  # type: ignore[arg-type]
            offline=True,
        )
        contexts.append(context)
        page = context.new_page()
        page.on("request", lambda request: _refuse(request.url))
        page.on("console", lambda message: pytest.fail(message.text))
        page.on("pageerror", lambda error: pytest.fail(str(error)))
        page.goto(file.as_uri())
        return page

    yield opened
    for context in contexts:
        context.close()


def shown(page: Page, where: str) -> str:
    """The text one sees there, with ordinary spaces."""
    return page.locator(where).inner_text().replace("\u00a0", " ")


def _refuse(url: str) -> None:
    if not url.startswith(("file:", "data:")):
        pytest.fail(f"the page asked for {url}")


def test_ticks_are_kept_when_the_page_is_opened_again(open_page: object) -> None:
    page: Page = open_page("bollard-seat-pad")  # type: ignore[operator]
    page.get_by_role("checkbox", name="Rnd 3:").check()
    assert page.locator(".progress output").inner_text() == "1 of 10 rows ticked"
    page.reload()
    assert page.get_by_role("checkbox", name="Rnd 3:").is_checked()
    assert not page.get_by_role("checkbox", name="Rnd 4:").is_checked()
    page.get_by_role("button", name="Clear all ticks").click()
    page.reload()
    assert page.locator(".progress output").inner_text() == "0 of 10 rows ticked"


def test_rows_of_a_range_are_counted_off(open_page: object) -> None:
    page: Page = open_page("ebbline-wrap")  # type: ignore[operator]
    row = page.locator(".row", has_text="Rows 4-13")
    row.get_by_role("button", name="one row done").click(click_count=3)
    assert row.locator(".counter output").inner_text() == "3 of 10"
    page.reload()
    assert page.locator(".row", has_text="Rows 4-13").locator(".counter output").inner_text() == "3 of 10"
    page.locator(".row", has_text="Rows 4-13").get_by_role("checkbox").check()
    assert page.locator(".row", has_text="Rows 4-13").locator(".counter output").inner_text() == "10 of 10"


@pytest.mark.parametrize("script", [True, False])
def test_terms_are_chosen_also_without_the_script(open_page: object, script: bool) -> None:
    page: Page = open_page("bollard-seat-pad", script=script)  # type: ignore[operator]
    assert "2 dc in each st around" in shown(page, "#pad-2")
    page.get_by_label("UK", exact=True).check()
    assert "2 tr in each st around" in shown(page, "#pad-2") and "2 dc" not in shown(page, "#pad-2")
    assert page.get_by_text("Tension", exact=True).is_visible() and not page.get_by_text("Gauge", exact=True).is_visible()


def test_without_the_script_every_row_is_there_to_read_and_tick(open_page: object) -> None:
    page: Page = open_page("ebbline-wrap", script=False)  # type: ignore[operator]
    assert page.locator(".row:visible").count() == 11
    assert page.locator(".progress:visible").count() == 0
    page.locator(".row .tick").first.check()


def test_one_size_shows_its_own_numbers_and_rows_only(open_page: object) -> None:
    page: Page = open_page("fogbell-hat")  # type: ignore[operator]
    assert "64 (72, 80) hdc" in shown(page, ".rows")
    page.get_by_label("Child", exact=True).check()
    text = shown(page, ".rows")
    assert "Rnds 9-20:" in text and "64 hdc" in text and "72" not in text and "Large" not in text
    page.reload()
    assert page.get_by_label("Child", exact=True).is_checked()


def test_the_left_hander_gets_the_mirrored_drawing(open_page: object) -> None:
    page: Page = open_page("bollard-seat-pad")  # type: ignore[operator]
    assert page.locator(".right-hand").first.is_visible() and not page.locator(".left-hand").first.is_visible()
    page.get_by_label("Left", exact=True).check()
    assert page.locator(".left-hand").first.is_visible() and not page.locator(".right-hand").first.is_visible()


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_nothing_runs_off_the_side(open_page: object, width: int) -> None:
    for name in ("bollard-seat-pad", "fogbell-hat"):
        page: Page = open_page(name, width=width)  # type: ignore[operator]
        page.get_by_label("Large", exact=True).first.check()
        assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("name", ["ebbline-wrap", "bollard-seat-pad", "fogbell-hat"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(open_page: object, name: str, scheme: str) -> None:
    """WCAG rules as axe-core checks them; no trial with a reader of screens."""
    page: Page = open_page(name, scheme=scheme)  # type: ignore[operator]
    page.locator(".row .tick").first.check()
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
