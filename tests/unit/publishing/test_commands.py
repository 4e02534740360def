"""`hookwright publish`, `write` and `try` as one calls them: what is written, what is refused, what is said."""

from __future__ import annotations

import json
import time
from pathlib import Path

import pytest

from hookwright.cli.run import run
from hookwright.demo import DRAFT, MENDED, PIECES, piece
from hookwright.publishing import MANIFEST


@pytest.fixture
def pad(tmp_path: Path) -> Path:
    file = tmp_path / "Sitz päd.md"
    file.write_text(piece(MENDED), encoding="utf-8")
    return file


def snapshot(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_pattern_is_published_and_published_again(pad: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "out put" / "päd"
    assert run(["publish", str(pad), "-o", str(out)]) == 0
    first = snapshot(out)
    assert MANIFEST in first and "bollard-seat-pad.pdf" in first
    assert "Bollard seat pad · Version 1.0" in capsys.readouterr().out
    assert run(["publish", str(pad), "-o", str(out)]) == 0
    assert snapshot(out) == first


def test_files_of_an_earlier_title_go_when_it_is_published_anew(pad: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert run(["publish", str(pad), "-o", str(out)]) == 0
    pad.write_text(pad.read_text("utf-8").replace("title: Bollard seat pad", "title: Quay pad"), encoding="utf-8")
    assert run(["publish", str(pad), "-o", str(out)]) == 0
    names = set(snapshot(out))
    assert "quay-pad.pdf" in names and not any(name.startswith("bollard") for name in names)
    assert {entry["name"] for entry in json.loads((out / MANIFEST).read_text("utf-8"))["files"]} == names - {MANIFEST}


def test_a_folder_with_anything_else_in_it_is_left_alone(pad: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "letter.txt").write_text("mine")
    assert run(["publish", str(pad), "-o", str(out)]) == 2
    assert snapshot(out) == {"letter.txt": b"mine"}
    said = capsys.readouterr().err
    assert "letter.txt" in said and said.count("\n") == 1


def test_a_published_file_that_somebody_changed_is_left_alone(pad: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert run(["publish", str(pad), "-o", str(out)]) == 0
    (out / "bollard-seat-pad-us.txt").write_text("with my own remarks")
    before = snapshot(out)
    assert run(["publish", str(pad), "-o", str(out)]) == 2
    assert snapshot(out) == before


def test_what_a_file_manager_leaves_does_no_harm(pad: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert run(["publish", str(pad), "-o", str(out)]) == 0
    (out / ".DS_Store").write_bytes(b"x")
    assert run(["publish", str(pad), "-o", str(out)]) == 0


def test_a_pattern_with_errors_is_published_only_when_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    draft, out = tmp_path / "draft.md", tmp_path / "out"
    draft.write_text(piece(DRAFT), encoding="utf-8")
    assert run(["publish", str(draft), "-o", str(out)]) == 1
    assert not out.exists()
    assert "is not published" in capsys.readouterr().err
    assert run(["publish", str(draft), "-o", str(out), "--anyway"]) == 0
    assert (out / MANIFEST).is_file()


def test_a_folder_that_may_not_be_written_is_one_sentence(pad: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    below_a_file = tmp_path / "file" / "out"
    below_a_file.parent.write_text("no folder")
    locked = tmp_path / "locked"
    locked.mkdir(mode=0o500)
    nowhere = Path("/proc/hookwright") if Path("/proc").is_dir() else locked / "out"
    for folder in (below_a_file, nowhere):
        assert run(["publish", str(pad), "-o", str(folder)]) == 2
        assert capsys.readouterr().err.count("\n") == 1


def test_a_file_in_place_of_the_folder_is_one_sentence(pad: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    taken = tmp_path / "taken"
    taken.write_text("a file")
    assert run(["publish", str(pad), "-o", str(taken)]) == 2
    assert taken.read_text() == "a file"
    assert "is a file, not a folder" in capsys.readouterr().err


def test_the_paper_can_be_chosen(pad: Path, tmp_path: Path) -> None:
    import pypdfium2

    sizes = {}
    for paper in ("a5", "a4", "letter"):
        assert run(["publish", str(pad), "-o", str(tmp_path / paper), "--paper", paper]) == 0
        document = pypdfium2.PdfDocument((tmp_path / paper / "bollard-seat-pad.pdf").read_bytes())
        sizes[paper] = tuple(round(side / 72 * 25.4) for side in document.get_page_size(0))
        document.close()
    assert sizes == {"a5": (148, 210), "a4": (210, 297), "letter": (216, 279)}


def test_write_gives_the_pattern_in_the_terms_asked_for(pad: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["write", str(pad), "--terms", "UK", "--plain"]) == 0
    text = capsys.readouterr().out
    assert "terms: UK" in text and "Rnd 2: Ch 3 (counts as tr), tr in same st" in text and "24 tr" in text
    assert run(["write", str(pad), "--plain"]) == 0
    assert "terms: US" in capsys.readouterr().out


def test_what_write_wrote_proofs_as_the_pattern_did(pad: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    there = tmp_path / "uk.md"
    assert run(["write", str(pad), "--terms", "UK", "-o", str(there)]) == 0
    assert run(["proof", str(there), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["terms"] == "UK" and told["summary"]["differs"] == 0 and told["summary"]["agrees"] == 10


def test_write_refuses_a_language_it_cannot_write(pad: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["write", str(pad), "--language", "xx"]) == 2
    assert "cannot be written" in capsys.readouterr().err


def test_the_tour_shows_both_slips_and_leaves_the_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    began = time.process_time()  # of this process alone: how busy the machine is otherwise is no fault of the tour
    assert run(["try", "-o", str(tmp_path / "tour")]) == 0
    assert time.process_time() - began < 20
    said = capsys.readouterr().out
    assert "make 52, and Rnd 4 offers 48" in said and "86 dc" in said
    assert "12 → 11" in said and "86" in said
    assert "nothing is left to look at" in " ".join(said.split())
    assert max(len(line) for line in said.splitlines() if "tour" not in line) <= 90
    for name in PIECES:
        assert (tmp_path / "tour" / name / MANIFEST).is_file()


def photograph(colour: str, size: tuple[int, int] = (2400, 1200), **how: object) -> bytes:
    from io import BytesIO

    from PIL import Image

    out = BytesIO()
    Image.new("RGB", size, colour).save(out, "JPEG", **how)
    return out.getvalue()


def with_pictures(pad: Path, *pictures: str) -> None:
    told = "pictures:\n" + "".join(f"  - {picture}\n" for picture in pictures)
    pad.write_text(pad.read_text("utf-8").replace("---\n", "---\n" + told, 1), encoding="utf-8")


def test_photographs_are_published_small_and_without_what_the_camera_wrote(pad: Path, tmp_path: Path) -> None:
    from PIL import Image

    exif = Image.Exif()
    exif[0x010F] = "a camera's maker"
    (pad.parent / "photos").mkdir()
    (pad.parent / "photos" / "whole.jpg").write_bytes(photograph("teal", exif=exif))
    (pad.parent / "detail.jpg").write_bytes(photograph("gold"))
    with_pictures(pad, "{file: photos/whole.jpg, alt: The pad on a chair}", "{file: detail.jpg, row: Rnd 4, alt: The yellow ring}")
    out = tmp_path / "out"
    assert run(["publish", str(pad), "-o", str(out)]) == 0
    with Image.open(out / "pictures" / "photo-1.jpg") as shown:
        assert shown.size == (1600, 800) and not shown.getexif()
    page = (out / "bollard-seat-pad.html").read_text("utf-8")
    assert 'alt="The pad on a chair"' in page and "Rnd 4: The yellow ring" in page
    assert b"a camera's maker" not in b"".join(snapshot(out).values())
    import io

    import pdfua

    assert pdfua.validate(io.BytesIO((out / "bollard-seat-pad.pdf").read_bytes())).findings == ()


@pytest.mark.parametrize(
    ("picture", "said"),
    [
        ("{file: missing.jpg}", "no file"),
        ("{file: words.jpg}", "is not one that can be read"),
    ],
)
def test_a_picture_that_cannot_be_used_is_one_sentence(
    pad: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], picture: str, said: str
) -> None:
    (pad.parent / "words.jpg").write_text("no picture at all")
    with_pictures(pad, picture)
    assert run(["publish", str(pad), "-o", str(tmp_path / "out")]) == 2
    err = capsys.readouterr().err
    assert said in err and err.count("\n") == 1
    assert not (tmp_path / "out").exists()


def test_no_picture_from_outside_the_patterns_folder_is_published(pad: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    home = tmp_path / "home"
    home.mkdir()
    (tmp_path / "secret.jpg").write_bytes(photograph("red"))
    (home / "link.jpg").symlink_to(tmp_path / "secret.jpg")
    for named in ("../secret.jpg", "link.jpg", "/etc/hostname"):
        file = home / "pad.md"
        file.write_text(piece(MENDED), encoding="utf-8")
        with_pictures(file, f"{{file: {named}}}")
        status = run(["publish", str(file), "-o", str(tmp_path / "out")])
        assert status == 2 or not any(name.startswith("pictures/photo") for name in snapshot(tmp_path / "out"))
    assert "outside the pattern's folder" in capsys.readouterr().err
