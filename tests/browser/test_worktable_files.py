"""Point 1: patterns as plain files: open, create, duplicate, rename, delete with undo, bring in, autosave, versions, changes outside."""

from __future__ import annotations

import time
from typing import Any

import pytest
from playwright.sync_api import expect

ROWS = (
    "# Coaster\n\nRow 1: Ch 13, sc in 2nd ch from hook and in each ch across. (12 sc)\nRow 2: Ch 1, turn, sc in each st across. (12 sc)\n"
)


def test_the_first_start_opens_the_demo(desk: Any, worktable: Any) -> None:
    page = desk.window()
    expect(page.locator(".pattern-name")).to_have_text("Slipway scarf")
    expect(page.get_by_role("tab", name="Learn")).to_have_attribute("aria-selected", "true")
    assert (worktable.folder / "Slipway scarf.md").exists()


def test_create_duplicate_rename_delete_and_undo(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Coaster", ROWS)
    page = desk.window("Coaster")
    page.get_by_role("button", name="Coaster").click()
    page.get_by_role("button", name="New pattern").click()
    page.get_by_label("What is it called?").fill("Möwe & Co")
    page.get_by_role("button", name="Begin").click()
    expect(page.locator(".pattern-name")).to_have_text("Möwe & Co")
    desk.write(page, "Row 1: Ch 5.")
    worktable.wait_for("Möwe & Co", lambda text: "Row 1: Ch 5." in text)

    page.locator(".shelf-button").click()
    page.get_by_role("button", name="Duplicate “Möwe & Co”").click()
    expect(page.get_by_role("button", name="Rename “Möwe & Co copy”")).to_be_visible()
    page.get_by_role("button", name="Rename “Möwe & Co copy”").click()
    page.get_by_label("New name").fill("Tern")
    page.get_by_role("button", name="Rename", exact=True).click()
    expect(page.get_by_role("button", name="Delete “Tern”")).to_be_visible()
    page.get_by_role("button", name="Delete “Tern”").click()
    expect(page.get_by_role("button", name="Delete “Tern”")).to_have_count(0)
    assert not (worktable.folder / "Tern.md").exists()
    page.get_by_role("button", name="Close").click()
    page.get_by_role("button", name="Undo").click()
    worktable.wait_for("Tern", lambda text: "Row 1: Ch 5." in text)


def test_a_bad_name_is_told(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Coaster", ROWS)
    desk.expected = ("422", "409")
    page = desk.window("Coaster")
    page.locator(".shelf-button").click()
    page.get_by_role("button", name="New pattern").click()
    page.get_by_label("What is it called?").fill("../secret")
    page.get_by_role("button", name="Begin").click()
    expect(page.locator(".notice")).to_contain_text("cannot hold the character")
    assert not (worktable.folder.parent / "secret.md").exists()


def test_a_dropped_page_becomes_a_pattern(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Coaster", ROWS)
    page = desk.window("Coaster")
    page.evaluate("""() => {
        const data = new DataTransfer();
        const html = '<html><body><h1>Old mat</h1><p>Row 1: Ch 9, sc in 2nd ch from hook and in each ch across. (8 sc)</p>'
          + '<script>alert(1)</scr' + 'ipt></body></html>';
        data.items.add(new File([html], 'Old mat.html', {type: 'text/html'}));
        for (const kind of ['dragenter', 'dragover', 'drop'])
          document.body.dispatchEvent(new DragEvent(kind, {bubbles: true, cancelable: true, dataTransfer: data}));
    }""")
    expect(page.locator(".pattern-name")).to_have_text("Old mat", timeout=15_000)
    assert "Row 1: Ch 9" in worktable.text("Old mat")
    assert "alert" not in worktable.text("Old mat")


def test_a_file_that_is_no_document_is_told(desk: Any, lay_out: Any) -> None:
    lay_out("Coaster", ROWS)
    desk.expected = ("422",)
    page = desk.window("Coaster")
    page.locator(".shelf-button").click()
    with page.expect_file_chooser() as chooser:
        page.get_by_role("button", name="Bring in a file").click()
    chooser.value.set_files({"name": "photo.docx", "mimeType": "application/octet-stream", "buffer": b"\0\1\2" * 100})
    expect(page.locator(".notice").first).to_contain_text("docx", timeout=15_000)


def test_a_kill_costs_at_most_the_last_second(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Coaster", ROWS)
    desk.expected = ("WebSocket", "ERR_CONNECTION_REFUSED", "Failed to load")
    page = desk.window("Coaster")
    desk.write(page, "Row 3: Ch 1, turn, sc in each st across. (12 sc)\n")
    time.sleep(1.0)
    worktable.kill()
    assert "Row 3" in worktable.text("Coaster")
    expect(page.locator(".kept")).to_contain_text("does not answer", timeout=10_000)
    page.keyboard.insert_text("Row 4: Ch 1, turn, sc in each st across. (12 sc)\n")
    worktable.start()
    worktable.wait_for("Coaster", lambda text: "Row 4" in text, seconds=20)
    assert worktable.text("Coaster").count("Row 3") == 1


def test_a_change_from_outside_is_asked_about(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Coaster", ROWS)
    page = desk.window("Coaster")
    theirs = ROWS + "Row 3: from another program\n"
    (worktable.folder / "Coaster.md").write_text(theirs, encoding="utf-8")
    dialog = page.get_by_role("dialog", name="The file was changed elsewhere")
    expect(dialog).to_be_visible(timeout=8000)
    expect(dialog).to_contain_text("from another program")
    assert worktable.text("Coaster") == theirs
    dialog.get_by_role("button", name="Keep both").click()
    expect(page.locator(".cm-content")).to_contain_text("from another program")
    worktable.wait_for("Coaster (mine)", lambda text: text == ROWS)
    assert worktable.text("Coaster") == theirs


def test_mine_over_theirs_only_when_she_says_so(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Coaster", ROWS)
    page = desk.window("Coaster")
    desk.write(page, "Row 3: mine\n")
    (worktable.folder / "Coaster.md").write_text("theirs", encoding="utf-8")
    dialog = page.get_by_role("dialog", name="The file was changed elsewhere")
    expect(dialog).to_be_visible(timeout=8000)
    dialog.get_by_role("button", name="Keep my words").click()
    worktable.wait_for("Coaster", lambda text: "Row 3: mine" in text)


def test_a_pattern_open_twice_is_noticed(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Coaster", ROWS)
    first = desk.window("Coaster")
    desk.write(first, "Row 3: Ch 1, turn, sc in each st across. (12 sc)\n")
    desk.proofed(first)
    second = desk.browser.new_context(viewport={"width": 1200, "height": 800})
    desk.contexts.append(second)
    other = second.new_page()
    other.goto(worktable.address + "?pattern=Coaster")
    dialog = other.get_by_role("dialog", name="This pattern lies open in another window")
    expect(dialog).to_be_visible()
    dialog.get_by_role("button", name="Go on here").click()
    expect(other.locator(".cm-content")).to_contain_text("Row 3")
    expect(first.get_by_role("dialog", name="Open in another window now")).to_be_visible()
    first.get_by_role("button", name="Leave it there").click()
    expect(first.locator(".cm-content")).to_have_attribute("aria-readonly", "true")


def test_versions_tell_what_changed_and_come_back(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Coaster", ROWS)
    page = desk.window("Coaster")
    desk.proofed(page)
    for words in ("The first", "A row more"):
        page.get_by_role("button", name="Versions").click()
        page.get_by_role("button", name="Keep this version").click()
        page.get_by_label("What for?").fill(words)
        page.get_by_role("button", name="Keep", exact=True).click()
        expect(page.locator(".why", has_text=words)).to_be_visible()
        page.get_by_role("button", name="Close").click()
        if words == "The first":
            desk.write(page, "Row 3: Ch 1, turn, 2 sc in first st, sc in each st across. (13 sc)\n")
            desk.proofed(page)
    page.get_by_role("button", name="Versions").click()
    page.get_by_text("1 count changed").first.click()
    expect(page.get_by_text("Row 3: new, 13 sc").first).to_be_visible()
    page.locator("li", has_text="The first").last.get_by_role("button").click()
    expect(page.locator(".cm-content")).not_to_contain_text("Row 3")
    page.locator(".cm-content").click()
    page.keyboard.press("Control+z")
    expect(page.locator(".cm-content")).to_contain_text("Row 3")


@pytest.mark.parametrize("name", ["A very long name that goes on and on and on, as long as a file name may at all be"])
def test_a_long_name_fits(desk: Any, lay_out: Any, name: str) -> None:
    lay_out(name, ROWS)
    page = desk.window(name)
    width = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert width <= 0
