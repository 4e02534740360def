"""Point 7, the film half: the plan as a checklist whose ticks stay, texts to save, captions compared with what is written."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Any

from playwright.sync_api import expect

COASTER = """---
title: Coaster
terms: US
hook: 4 mm
---

Rnd 1: 6 sc in magic ring. (6 sc)
Rnd 2: 2 sc in each st around. (12 sc)
Rnd 3: [Sc in next st, 2 sc in next st] 6 times. (18 sc)
Rnd 4: [Sc in next 2 sts, 2 sc in next st] 6 times. (24 sc)
"""
CAPTIONS = """WEBVTT

00:00:05.000 --> 00:00:10.000
Round one, six single crochet into the magic ring.

00:00:30.000 --> 00:00:36.000
Round two, two single crochet in each stitch, twelve stitches.

00:01:00.000 --> 00:01:07.000
Round three, one single crochet then an increase, six times, that is twenty stitches.

00:01:40.000 --> 00:01:48.000
Round four, two single crochet then an increase, six times, twenty-four stitches.
"""


def picture(page: Any, name: str) -> None:
    folder = os.environ.get("HOOKWRIGHT_PICTURES")
    if folder:
        page.wait_for_timeout(400)
        page.screenshot(path=Path(folder) / f"{name}.png")


def test_the_checklist_keeps_its_ticks(desk: Any, lay_out: Any) -> None:
    lay_out("Coaster", COASTER)
    page = desk.window("Coaster")
    page.get_by_role("tab", name="Film", exact=True).click()
    boxes = page.locator("#side-film .tick input")
    expect(boxes.first).to_be_visible()
    expect(page.locator("#side-film")).to_contain_text(re.compile(r"0 of \d+ done"))
    boxes.nth(1).check()
    expect(page.locator("#side-film")).to_contain_text(re.compile(r"1 of \d+ done"))
    picture(page, "film")
    page.reload()
    page.get_by_role("tab", name="Film", exact=True).click()
    expect(page.locator("#side-film .tick input").nth(1)).to_be_checked()
    expect(page.locator("#side-film")).to_contain_text(re.compile(r"1 of \d+ done"))


def test_texts_are_saved(desk: Any, lay_out: Any, tmp_path: Path) -> None:
    lay_out("Coaster", COASTER)
    page = desk.window("Coaster")
    page.get_by_role("tab", name="Film", exact=True).click()
    with page.expect_download() as coming:
        page.get_by_role("button", name="Save captions.vtt").click()
    saved = tmp_path / "captions.vtt"
    coming.value.save_as(saved)
    assert saved.read_text(encoding="utf-8").startswith("WEBVTT")


def test_captions_are_compared(desk: Any, lay_out: Any) -> None:
    lay_out("Coaster", COASTER)
    page = desk.window("Coaster")
    page.get_by_role("tab", name="Film", exact=True).click()
    page.set_input_files("#film-captions", {"name": "take1.vtt", "mimeType": "text/vtt", "buffer": CAPTIONS.encode()})
    expect(page.locator(".film-heard .heard > li", has_text="Rnd 3")).to_contain_text(re.compile("20|twenty"))
    page.locator(".film-heard").scroll_into_view_if_needed()
    picture(page, "film-heard")
    page.set_input_files("#film-captions", {"name": "empty.vtt", "mimeType": "text/vtt", "buffer": b""})
    expect(page.locator(".notice, [role=alert]").first).to_be_visible()
