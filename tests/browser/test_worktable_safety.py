"""User text never becomes markup, whatever field it goes through; nothing is loaded from elsewhere; other pages get nothing."""

from __future__ import annotations

import json
from typing import Any

import pytest
from playwright.sync_api import Page, expect

EVIL = '<img src=x onerror="window.caught=1"><script>window.caught=2</script><svg onload="window.caught=3"></svg>'
PATTERN = f"""---
title: '{EVIL}'
terms: US
designer: '{EVIL}'
hook: 5 mm
gauge:
  - {{in: dc, stitches: 16, rows: 8, over: 10 cm}}
yarns:
  A: {{name: '{EVIL}', weight: light, metres: 100, grams: 50, colour: '{EVIL}', sequence: [
      {{colour: '{EVIL}', metres: 3}}, {{colour: sand, metres: 2}}]}}
sizes: {{names: ['{EVIL}', 'L']}}
---

## {EVIL}

Row 1: Ch 13, dc in 4th ch from hook (counts as dc) and in each ch across. (11 dc)
Row 2: Ch 3 (counts as dc), turn, {EVIL} dc in next st and in each st across. (14 dc)
Row 3 {EVIL}: With {EVIL}, ch 3 (counts as dc), turn, dc in next st and in each st across. (11 dc)
{EVIL}
"""


def unharmed(page: Page, where: str) -> None:
    assert page.evaluate("window.caught === undefined"), where
    planted = page.evaluate(
        """() => [...document.querySelectorAll('img[src=x], script:not([src]), [onerror], [onload], [onclick]')].length"""
    )
    assert planted == 0, f"{where}: {planted} elements came out of her words"


def test_words_stay_words_everywhere(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Evil", PATTERN)
    page = desk.window("Evil")
    desk.expected = ("422", "409")
    desk.proofed(page)
    unharmed(page, "the page")
    for side in ("Fabric", "Yarn", "Fit", "Draft", "Log", "Publish", "Learn"):
        page.get_by_role("tab", name=side, exact=True).click()
        page.wait_for_function("() => !document.querySelector('[aria-busy=true], .fabric.working')", timeout=60_000)
        unharmed(page, side)
    page.get_by_role("tab", name="Fabric", exact=True).click()
    for view in ("Outline", "Colours", "3-D", "Rows", "Words", "Chart"):
        page.get_by_role("radio", name=view, exact=True).check()
        page.wait_for_function("() => !document.querySelector('.fabric.working')", timeout=60_000)
        unharmed(page, view)
    for finding in page.locator(".finding-go").all()[:6]:
        finding.click()
        unharmed(page, "a finding")
    page.get_by_role("tab", name="Draft", exact=True).click()
    page.get_by_role("button", name="Rectangle").first.click()
    for field in page.locator("#side-draft .fields input").all():
        field.fill(EVIL)
    page.wait_for_timeout(900)
    unharmed(page, "the draft's fields")
    page.get_by_role("tab", name="Yarn", exact=True).click()
    for field in page.locator("#side-yarn .fields input[type=text]").all():
        field.fill(EVIL)
    page.wait_for_timeout(600)
    unharmed(page, "the yarn's fields")
    page.get_by_role("tab", name="Fit", exact=True).click()
    for way in ("In my gauge", "In several sizes", "For the yarn I have"):
        page.get_by_role("radio", name=way).check()
        page.locator("#side-fit .fields input[type=text]").first.fill(EVIL)
        page.wait_for_timeout(600)
        unharmed(page, way)
    page.get_by_role("tab", name="Log", exact=True).click()
    page.get_by_text("Worked otherwise?").click()
    page.get_by_label("How the row was worked").last.fill(EVIL)
    page.get_by_role("button", name="done").click()
    expect(page.locator(".log-past")).to_contain_text("onerror")
    unharmed(page, "the log")
    page.get_by_role("button", name="Versions").click()
    page.get_by_role("button", name="Keep this version").click()
    page.get_by_label("What for?").fill(EVIL)
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.locator(".why").first).to_contain_text("onerror")
    unharmed(page, "the versions")
    page.keyboard.press("Escape")
    page.locator(".shelf-button").click()
    page.get_by_label("Find a pattern").fill(EVIL)
    unharmed(page, "the shelf")
    page.get_by_role("button", name="New pattern").click()
    page.get_by_label("What is it called?").fill(EVIL)
    page.get_by_role("button", name="Begin").click()
    expect(page.locator(".notice").last).to_contain_text("cannot hold")
    unharmed(page, "a name")


def test_a_published_page_of_evil_words_is_nobody(desk: Any, worktable: Any, lay_out: Any) -> None:
    lay_out("Evil", PATTERN.replace("(14 dc)", "(11 dc)"))
    place = worktable.folder / "published" / "Evil"
    place.mkdir(parents=True)
    (place / "page.html").write_text(
        "<script>fetch('/api/patterns').then(r => r.text()).then(t => document.title = 'read ' + t)"
        ".catch(e => document.title = 'refused ' + e)</script>" + EVIL,
        encoding="utf-8",
    )
    page = desk.window("Evil")
    desk.expected = ("Content Security Policy", "Failed to load", "ERR_BLOCKED", "CORS", "Access to fetch", "404", "403")
    looked = page.context.new_page()
    looked.goto(f"{worktable.address}published/Evil/page.html")
    looked.wait_for_function("document.title !== ''")
    assert looked.title().startswith("refused")
    assert looked.evaluate("window.origin") == "null"


def test_a_drawing_with_a_script_in_it_is_stripped(desk: Any) -> None:
    page = desk.window()
    desk.proofed(page)
    hostile = (
        "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' viewBox='0 0 9 9' onload='window.caught=1'>"
        "<script>window.caught=2</script><style>*{background:url(http://evil.example/)}</style>"
        "<foreignObject><body onload='window.caught=3'/></foreignObject>"
        "<a xlink:href='javascript:window.caught=4'><text>x</text></a><image href='http://evil.example/x.png'/><use href='http://evil.example/x.svg#a'/>"
        "<rect width='9' height='9' fill='url(http://evil.example/#a)' onclick='window.caught=5'/>"
        "<g class='row' data-row='0'><path d='M0 0h9'/></g></svg>"
    )

    def answer(message: Any) -> Any:
        found = json.loads(message)
        if isinstance(found.get("answer"), dict) and "svg" in found["answer"]:
            found["answer"]["svg"] = hostile
            return json.dumps(found)
        return message

    def between(route: Any) -> None:
        server = route.connect_to_server()
        route.on_message(lambda message: server.send(message))
        server.on_message(lambda message: route.send(answer(message)))

    other = desk.browser.new_context(viewport={"width": 1200, "height": 800})
    desk.contexts.append(other)
    tampered = other.new_page()
    tampered.on("request", lambda request: desk._look(request.url))
    tampered.route_web_socket("**/live", between)
    page.close()
    tampered.goto(desk.worktable.address)
    tampered.get_by_role("tab", name="Fabric", exact=True).click()
    expect(tampered.locator(".sheet svg g.row")).to_be_attached()
    unharmed(tampered, "a drawing")
    kept = tampered.locator(".sheet svg").evaluate("element => element.outerHTML")
    for word in ("evil", "script", "style>", "foreignObject", "image", "onload", "onclick", "javascript"):
        assert word not in kept, word


@pytest.mark.parametrize("way", ["fetch", "form", "socket", "script", "frame", "image"])
def test_another_page_in_the_same_browser_gets_nothing(desk: Any, worktable: Any, way: str) -> None:
    """A page of another origin tries each way there is to reach the worktable."""
    before = sorted(path.name for path in worktable.folder.iterdir() if path.name.endswith(".md"))
    context = desk.browser.new_context()
    desk.contexts.append(context)
    page = context.new_page()
    page.route(
        "http://elsewhere.example/*",
        lambda route: route.fulfill(body="<!doctype html><title>elsewhere</title><body>", content_type="text/html"),
    )
    page.goto("http://elsewhere.example/")
    ours = worktable.address
    told = page.evaluate(
        """async ([way, ours]) => {
        const soon = (promise) => Promise.race([promise, new Promise(done => setTimeout(() => done('nothing'), 3000))]);
        if (way === 'fetch') return soon(fetch(ours + 'api/patterns').then(r => r.text()).catch(() => 'refused'));
        if (way === 'form') {
          return soon(fetch(ours + 'api/patterns', {method: 'POST', mode: 'no-cors',
            headers: {'content-type': 'text/plain'}, body: '{"name":"Planted","text":"x"}'})
            .then(r => r.type === 'opaque' ? 'refused' : r.text()).catch(() => 'refused'));
        }
        if (way === 'socket') {
          return soon(new Promise(done => {
            const socket = new WebSocket(ours.replace('http', 'ws') + 'live');
            socket.onopen = () => done('open');
            socket.onerror = () => done('refused');
          }));
        }
        return soon(new Promise(done => {
          const element = document.createElement(way === 'script' ? 'script' : way === 'frame' ? 'iframe' : 'img');
          element.onload = () => done(way === 'frame' ? (element.contentDocument ? 'refused' : 'refused') : 'loaded');
          element.onerror = () => done('refused');
          element.src = ours + (way === 'script' ? 'api/patterns' : way === 'frame' ? '' : 'mark.svg');
          document.body.append(element);
        }));
      }""",
        [way, ours],
    )
    assert told in ("refused", "nothing"), told
    assert sorted(path.name for path in worktable.folder.iterdir() if path.name.endswith(".md")) == before
    if way == "frame":
        assert page.frames[-1].evaluate("() => document.querySelector('.head') === null")
