"""A maker's files: whole or not at all, never outside the folder, never over somebody else's change."""

from __future__ import annotations

import errno
import os
from pathlib import Path
from typing import Any

import pytest

from hookwright.worktable.folder import ChangedOutside, Folder, FolderTrouble
from hookwright.worktable.names import BadName, clean_name, tidy_name, unused_name

from .asgi import OURS, get, post

OUTSIDE = [
    "../secret",
    "..",
    ".",
    "/etc/passwd",
    "a/../../secret",
    "a\\..\\secret",
    "..%2fsecret",
    "%2e%2e/secret",
    "x\x00y",
    "",
    "x" * 300,
    ".hidden",
]


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    (tmp_path / "secret.md").write_text("not hers", encoding="utf-8")
    (tmp_path / "mine").mkdir()
    return Folder(tmp_path / "mine")


@pytest.mark.parametrize("name", OUTSIDE)
def test_no_name_leaves_the_folder(folder: Folder, name: str) -> None:
    for deed in (
        folder.read,
        folder.delete,
        folder.duplicate,
        lambda n: folder.create(n, "x"),
        lambda n: folder.save(n, "x", None),
        folder.restore,
    ):
        with pytest.raises((BadName, FolderTrouble)):
            deed(name)
    assert (folder.root.parent / "secret.md").read_text() == "not hers"
    assert sorted(path.name for path in folder.root.parent.iterdir()) == ["mine", "secret.md"]


@pytest.mark.parametrize("name", ["..%2fsecret", "%2e%2e%2fsecret", "..%5csecret", "%2fetc%2fpasswd", "a%00b"])
def test_no_address_leaves_the_folder(app: Any, table: Any, name: str) -> None:
    for path in (f"/api/patterns/{name}/duplicate", f"/api/patterns/{name}/delete", f"/api/patterns/{name}/rename"):
        assert post(app, path, {"to": "x"}).status in (404, 409, 422), path
    for path in (
        f"/published/{name}/x",
        f"/published/x/{name}",
        f"/published/{name}",
        "/published/x/../../../secret.md",
        "/published/../../secret.md",
        f"/assets/{name}",
    ):
        answer = get(app, path)
        assert answer.status in (400, 404), path
        assert b"not hers" not in answer.body
    assert post(app, "/api/patterns/x/rename", {"to": "../secret"}).status in (409, 422)
    assert post(app, "/api/restore", {"undo": "../../secret.md"}).status == 409
    assert (table.folder.root.parent / "secret.md").read_text() == "not hers"


def test_links_are_not_followed(folder: Folder, app: Any, table: Any) -> None:
    (folder.root / "Link.md").symlink_to(folder.root.parent / "secret.md")
    with pytest.raises(FolderTrouble, match="link"):
        folder.read("Link")
    assert folder.names() == set()
    (table.folder.root / "published").mkdir()
    (table.folder.root / "published" / "out.html").symlink_to(table.folder.root.parent / "secret.md")
    assert get(app, "/published/../out.html", OURS).status == 404
    (table.folder.root / "published" / "x").mkdir()
    (table.folder.root / "published" / "x" / "out.html").symlink_to(table.folder.root.parent / "secret.md")
    assert get(app, "/published/x/out.html", OURS).status == 404


@pytest.mark.parametrize("name", ["con", "a:b", "  ", "what?", "x" * 121, "end."])
def test_names_that_no_new_pattern_may_have(folder: Folder, name: str) -> None:
    with pytest.raises(BadName):
        folder.create(name, "x")
    folder.create("Hat", "x")
    with pytest.raises(BadName):
        folder.rename("Hat", name)
    assert folder.names() == {"Hat"}


def test_an_oddly_named_file_can_be_opened(folder: Folder) -> None:
    for name in ("Mo\u0308we", "what?", "y" * 150):
        (folder.root / f"{name}.md").write_text("x", encoding="utf-8")
        assert folder.read(name).text == "x"
        assert folder.duplicate(name)


def test_names() -> None:
    assert clean_name(" Möwe \u00a0 Nr. 2 ") == "Möwe Nr. 2"
    assert tidy_name("a/b: <c>") == "a b c"
    assert tidy_name("...") == "Pattern"
    assert unused_name("Hat", {"hat", "Hat 2"}) == "Hat 3"


def test_a_pattern_comes_back_as_it_was_saved(folder: Folder) -> None:
    kept = folder.save("Hat", "Row 1: 3 sc 🧶\n", None)
    assert folder.read("Hat") == kept
    again = folder.save("Hat", "Row 1: 4 sc\n", kept)
    assert folder.read("Hat").text == "Row 1: 4 sc\n"
    assert again.mark != kept.mark
    assert [path.name for path in folder.root.iterdir()] == ["Hat.md"]


def test_line_ends_and_byte_order_mark_stay(folder: Folder) -> None:
    (folder.root / "Old.md").write_bytes(b"\xef\xbb\xbfRow 1: 3 sc\r\nRow 2: 3 sc\r\n")
    kept = folder.read("Old")
    assert kept.text == "Row 1: 3 sc\nRow 2: 3 sc\n"
    folder.save("Old", kept.text + "Row 3: 3 sc\n", kept)
    assert (folder.root / "Old.md").read_bytes() == b"\xef\xbb\xbfRow 1: 3 sc\r\nRow 2: 3 sc\r\nRow 3: 3 sc\r\n"


def test_somebody_elses_change_is_never_covered(folder: Folder) -> None:
    kept = folder.save("Hat", "mine", None)
    (folder.root / "Hat.md").write_text("theirs", encoding="utf-8")
    with pytest.raises(ChangedOutside) as found:
        folder.save("Hat", "mine, longer", kept)
    assert found.value.theirs is not None and found.value.theirs.text == "theirs"
    assert folder.read("Hat").text == "theirs"
    (folder.root / "Hat.md").unlink()
    with pytest.raises(ChangedOutside) as found:
        folder.save("Hat", "mine, longer", kept)
    assert found.value.theirs is None


def test_a_new_pattern_never_covers_an_old_one(folder: Folder) -> None:
    folder.create("Hat", "one")
    assert folder.create("Hat", "two") == "Hat 2"
    assert folder.create("HAT", "three") == "HAT 3"
    with pytest.raises(FolderTrouble, match="already"):
        folder.rename("Hat 2", "hat")
    assert folder.duplicate("Hat") == "Hat copy"


def test_delete_comes_back(folder: Folder) -> None:
    folder.create("Hat", "one")
    key = folder.delete("Hat")
    assert folder.names() == set()
    folder.create("Hat", "another")
    assert folder.restore(key) == "Hat 2"
    assert folder.read("Hat 2").text == "one"
    with pytest.raises(FolderTrouble):
        folder.restore(key)


@pytest.mark.parametrize(
    ("number", "words"), [(errno.ENOSPC, "disk is full"), (errno.EROFS, "may not be written"), (errno.EACCES, "may not be written")]
)
def test_what_the_disk_refuses_is_told_and_harms_nothing(folder: Folder, monkeypatch: pytest.MonkeyPatch, number: int, words: str) -> None:
    kept = folder.save("Hat", "whole", None)

    def refuse(_file: int) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "fsync", refuse)
    with pytest.raises(FolderTrouble, match=words):
        folder.save("Hat", "half", kept)
    assert folder.read("Hat").text == "whole"
    assert [path.name for path in folder.root.iterdir()] == ["Hat.md"]


def test_a_file_that_is_no_text_is_told(folder: Folder) -> None:
    (folder.root / "Scan.md").write_bytes(b"Row 1\n\xff\xfe")
    with pytest.raises(FolderTrouble, match="line 2"):
        folder.read("Scan")
    (folder.root / "Big.md").write_bytes(b" " * 4_000_001)
    with pytest.raises(FolderTrouble, match="larger"):
        folder.read("Big")
    with pytest.raises(FolderTrouble, match="not in the folder"):
        folder.read("Nothing")
