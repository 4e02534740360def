"""For every maker: axe finds nothing in any screen, light or dark, wide, narrow or at 200 %; keyboard alone; a phone; reduced motion."""

from __future__ import annotations

from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

SIDES = ("Fabric", "Yarn", "Fit", "Draft", "Log", "Film", "Publish", "Learn")


def look(page: Page, where: str) -> None:
    found = Axe().run(page, options={"resultTypes": ["violations"]})
    told = [(one["id"], [node["html"][:160] for node in one["nodes"][:3]]) for one in found.response["violations"]]
    assert not told, f"{where}: {told}"


def settled(page: Page) -> None:
    page.wait_for_function("() => !document.querySelector('[aria-busy=true], .fabric.working')", timeout=60_000)
    page.wait_for_timeout(150)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(desk: Any, scheme: str) -> None:
    page = desk.window(color_scheme=scheme)
    desk.proofed(page)
    page.locator(".shelf-button").click()
    page.get_by_role("button", name="Bollard seat pad draft").first.click()
    expect(page.locator(".mark-error").first).to_be_visible()
    for side in SIDES:
        page.get_by_role("tab", name=side, exact=True).click()
        settled(page)
        if side == "Draft":
            page.get_by_role("button", name="Wing").click()
            expect(page.locator(".draft-rows")).to_be_visible()
        look(page, f"{side}, {scheme}")
    page.get_by_role("tab", name="Fabric", exact=True).click()
    for view in ("Outline", "Colours", "3-D", "Rows", "Words"):
        page.get_by_role("radio", name=view, exact=True).check()
        settled(page)
        look(page, f"{view}, {scheme}")
    page.locator(".mark-error").first.hover()
    expect(page.locator(".finding-card")).to_be_visible()
    look(page, f"a finding's card, {scheme}")
    page.mouse.move(5, 5)
    for name in ("Wishes", "Versions"):
        page.get_by_role("button", name=name).click()
        page.wait_for_timeout(300)
        look(page, f"{name}, {scheme}")
        page.keyboard.press("Escape")
    page.locator(".shelf-button").click()
    expect(page.locator(".shelf-open").first).to_be_visible()
    look(page, f"the shelf, {scheme}")


def test_on_a_phone(desk: Any, worktable: Any) -> None:
    page = desk.window(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True, device_scale_factor=2)
    desk.proofed(page)
    for side in ("Page", *SIDES):
        page.get_by_role("tab", name=side, exact=True).tap()
        settled(page)
        wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        assert wide <= 0, f"{side} is {wide} px too wide"
        look(page, f"{side} on a phone")
    page.get_by_role("tab", name="Page", exact=True).tap()
    page.locator(".cm-line", has_text="Rows 9-134").tap()
    page.keyboard.press("End")
    page.keyboard.insert_text(" (phone)")
    worktable.wait_for("Slipway scarf", lambda text: "(phone)" in text)
    page.get_by_role("tab", name="Log", exact=True).tap()
    page.get_by_role("button", name="Row 1 done").tap()
    expect(page.get_by_role("button", name="Row 2 done")).to_be_visible()
    box = page.get_by_role("button", name="Row 2 done").bounding_box()
    assert box and box["height"] >= 44 and box["width"] >= 300


def test_at_200_percent(desk: Any) -> None:
    page = desk.window(viewport={"width": 720, "height": 450}, device_scale_factor=2)
    for side in ("Page", *SIDES):
        page.get_by_role("tab", name=side, exact=True).click()
        settled(page)
        assert page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0, side
    page.get_by_role("tab", name="Page", exact=True).click()
    expect(page.locator(".cm-line", has_text="Row 1")).not_to_have_count(0)
    look(page, "200 %")


def test_nothing_moves_where_motion_is_unwelcome(desk: Any) -> None:
    page = desk.window(reduced_motion="reduce")
    longest = page.evaluate("""() => Math.max(...[...document.querySelectorAll('*')].map(element => {
        const style = getComputedStyle(element);
        return Math.max(parseFloat(style.animationDuration) || 0, parseFloat(style.transitionDuration) || 0);
    }))""")
    assert longest < 0.05


def test_by_keyboard_alone(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out(
        "Coaster",
        "# Coaster\n\nRow 1: Ch 13, sc in 2nd ch from hook and in each ch across. (12 sc)\n"
        "Row 2: Ch 1, turn, sc in each st across. (14 sc)\n",
    )
    page = desk.window("Coaster")
    desk.proofed(page)
    keys = page.keyboard
    keys.press("Tab")
    expect(page.locator(".skip")).to_be_focused()
    keys.press("Enter")
    expect(page.locator(".cm-content")).to_be_focused()
    keys.press("F8")
    # Out of the page again: Tab is no trap.
    keys.press("Tab")
    expect(page.locator(".cm-content")).not_to_be_focused()
    for _ in range(12):
        if page.evaluate("document.activeElement.closest('.finding-more') && document.activeElement.textContent.includes('12')"):
            break
        keys.press("Tab")
    keys.press("Enter")
    worktable.wait_for("Coaster", lambda text: "(12 sc)\n" in text.split("Row 2")[1])
    for number, side in enumerate(SIDES, start=1):
        keys.press(f"Alt+{number}")
        expect(page.get_by_role("tab", name=side, exact=True)).to_have_attribute("aria-selected", "true")
    keys.press("Alt+1")
    keys.press("ArrowRight")
    expect(page.get_by_role("tab", name="Yarn", exact=True)).to_be_focused()
    keys.press("Home")
    keys.press("Tab")
    keys.press("ArrowRight")
    expect(page.get_by_role("radio", name="Outline")).to_be_checked()
    keys.press("Alt+0")
    expect(page.locator(".cm-content")).to_be_focused()
    keys.press("Control+End")
    keys.type("Row 3: Ch 1, turn, sc in each st across. (12 sc)")
    worktable.wait_for("Coaster", lambda text: "Row 3" in text)
    page.locator(".shelf-button").focus()
    keys.press("Enter")
    expect(page.get_by_role("dialog")).to_be_visible()
    keys.press("Tab")
    keys.press("Tab")
    keys.press("Escape")
    expect(page.get_by_role("dialog")).to_have_count(0)
    expect(page.locator(".shelf-button")).to_be_focused()
