"""Points 4 to 6: ask the yarn, draft, fit; and the log at the hook, also from a phone."""

from __future__ import annotations

import re
from typing import Any

from playwright.sync_api import expect

STRIP = """---
title: Strip
terms: US
gauge:
  - {in: dc, stitches: 14, rows: 7, over: 10 cm}
yarns:
  A: {name: Wrack, weight: medium, metres: 200, grams: 100}
---

Row 1: Ch 25, dc in 4th ch from hook (counts as dc) and in each ch across. (23 dc)
Rows 2-40: Ch 3 (counts as dc), turn, dc in next st and in each st across. (23 dc)
"""


def test_yarn_is_answered_and_written_back(desk: Any, worktable: Any) -> None:
    page = desk.window()
    page.get_by_role("tab", name="Yarn").click()
    balls = page.locator(".figure", has_text="to buy").locator(".figure-value")
    expect(balls).to_have_text(re.compile(r"^\d+$"))
    page.get_by_role("button", name=re.compile("^Write .* into the pattern")).click()
    worktable.wait_for("Slipway scarf", lambda text: re.search(r"balls: \d", text) is not None)
    page.get_by_text("Row by row", exact=True).click()
    expect(page.get_by_role("table", name="Yarn row by row")).to_contain_text("Row 134")
    page.get_by_label("Left on the scale").fill("40")
    expect(page.locator(".figure", has_text="more rows")).to_be_visible()
    page.get_by_label("A ball costs").fill("8,50")
    page.get_by_label("Sold at").fill("90")
    expect(page.locator(".figure", has_text="in all")).to_be_visible()
    page.get_by_label("Pull off first").fill("5")
    expect(page.locator(".stripes rect").first).to_be_attached()
    changes = page.get_by_role("table", name="Every change of colour")
    page.locator("summary", has_text="Every change of colour").click()
    expect(changes).to_contain_text("samphire")
    page.get_by_label("Pull off first").fill("7")  # a new answer builds the list again: it stays as she left it
    page.wait_for_timeout(1500)
    expect(changes).to_be_visible()


def test_a_growing_piece_knows_where_to_turn(desk: Any, worktable: Any) -> None:
    page = desk.window()
    page.locator(".shelf-button").click()
    page.get_by_role("button", name=re.compile("^Ebbline wrap")).first.click()
    page.get_by_role("tab", name="Yarn").click()
    page.get_by_label("Yarn in hand").fill("150")
    expect(page.locator(".figure", has_text="on the scale: turn now")).to_contain_text("g")
    expect(page.locator(".figure", has_text="of the growing half")).to_contain_text("Row")


def test_units_are_hers(desk: Any) -> None:
    page = desk.window()
    page.get_by_role("tab", name="Yarn").click()
    expect(page.locator(".figure", has_text="likely length").first).to_contain_text(" m")
    page.get_by_role("button", name="Wishes").click()
    page.get_by_role("radio", name="in, yd, oz").check()
    expect(page.locator(".figure", has_text="likely length").first).to_contain_text(" yd")
    expect(page.locator(".figure", has_text="likely weight").first).to_contain_text(" oz")


def test_drafted_rows_go_into_the_pattern(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Empty", "# Empty\n\n")
    page = desk.window("Empty")
    page.get_by_role("tab", name="Draft").click()
    page.get_by_role("button", name=re.compile("^rectangle", re.IGNORECASE)).first.click()
    page.get_by_label("Width").fill("24 cm")
    page.get_by_label("Length").fill("40 cm")
    expect(page.locator(".draft-rows")).to_contain_text("34 dc")
    expect(page.locator("#side-draft img")).to_be_visible()
    page.get_by_role("button", name="Take the rows into the pattern").click()
    worktable.wait_for("Empty", lambda text: "34 dc" in text)
    desk.proofed(page)
    expect(page.locator(".mark-error")).to_have_count(0)
    page.get_by_label("Width").fill("24")
    expect(page.locator("#side-draft .trouble-line")).to_contain_text("no unit")


def test_fitted_in_my_gauge_and_back(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Strip", STRIP)
    page = desk.window("Strip")
    page.get_by_role("tab", name="Fit").click()
    page.get_by_role("radio", name="In my gauge").check()
    page.get_by_label("Your gauge").fill("18 dc and 9 rows = 10 cm")
    expect(page.locator("#side-fit .draft-rows")).to_contain_text("Row 1")
    page.get_by_role("button", name="Write it into the pattern").click()
    text = worktable.wait_for("Strip", lambda text: "stitches: 18" in text)
    assert "Wrack" in text
    desk.proofed(page)
    expect(page.locator(".mark-error")).to_have_count(0)


def test_five_sizes(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Strip", STRIP)
    page = desk.window("Strip")
    page.get_by_role("tab", name="Fit").click()
    page.get_by_role("radio", name="In several sizes").check()
    page.get_by_label("Widths or girths").fill("16 (20, 24, 28, 32) cm")
    expect(page.locator("#side-fit .obtained").first.locator("li")).to_have_count(5)
    page.get_by_role("button", name="Write it into the pattern").click()
    desk.proofed(page)
    expect(page.locator(".sizes select option")).to_have_count(5)
    page.locator(".sizes select").select_option("4")
    expect(page.locator(".count .number").first).to_have_text(re.compile("4[4-6]"))


def test_the_log_on_the_table_and_on_a_phone(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Strip", STRIP)
    page = desk.window("Strip")
    page.get_by_role("tab", name="Log").click()
    page.get_by_role("button", name="Row 1 done").click()
    expect(page.get_by_role("button", name="Row 2 done")).to_be_visible()
    for label, value in (("On the scale, in g", "100"), ("Minutes worked, in min", "3")):
        page.get_by_label(label).fill(value)
        page.get_by_label(label).press("Enter")
    page.get_by_role("button", name="Allow a phone").click()
    address = page.locator(".address").inner_text()
    code = page.locator(".code").inner_text()
    context = desk.browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    desk.contexts.append(context)
    phone = context.new_page()
    desk.expected = ("401", "403", "ERR_CONNECTION")
    phone.goto(address)
    phone.get_by_label("The code on the worktable").fill(code)
    phone.get_by_role("button", name="Open the log").click()
    phone.get_by_role("button", name="Row 2 done").tap()
    phone.get_by_role("button", name="Row 3 done").tap()
    expect(phone.get_by_role("button", name="Row 4 done")).to_be_visible()
    phone.get_by_role("button", name="Ripped back").tap()
    phone.get_by_label("The last row that still stands").fill("1")
    phone.get_by_role("button", name="Log it").tap()
    expect(phone.get_by_role("button", name="Row 2 done")).to_be_visible()
    phone.get_by_role("button", name="Undo the last tap").tap()
    expect(phone.get_by_role("button", name="Row 4 done")).to_be_visible()
    assert phone.evaluate("document.documentElement.scrollWidth <= innerWidth")
    expect(page.get_by_role("button", name="Row 4 done")).to_be_visible()
    page.get_by_label("On the scale, in g").fill("88")
    page.get_by_label("On the scale, in g").press("Enter")
    page.get_by_role("button", name="Take this pace").click()
    worktable.wait_for("Strip", lambda text: "pace:" in text)
    desk.proofed(page)
    page.get_by_role("button", name="Take this as a swatch").click()
    worktable.wait_for("Strip", lambda text: "grams: 12" in text)
    page.get_by_role("button", name="Stop", exact=True).click()
    expect(page.get_by_role("button", name="Allow a phone")).to_be_visible()
    phone.get_by_role("button", name="Row 4 done").tap()
    expect(phone.locator(".phone-news")).to_contain_text("does not answer")
