"""The schematic: to scale, in size order, nothing covering anything."""

import xml.etree.ElementTree as ET
from itertools import combinations

import pytest
from PIL import ImageFont
from tests import fabrics

from hookwright.drawing.labels import measure_words, text_width
from hookwright.drawing.landmarks import colour_starts, key_rows
from hookwright.drawing.outlines import outlines
from hookwright.drawing.png import font_folders
from hookwright.drawing.schematic import compose, schematics
from hookwright.measuring import PartMeasures, measure
from hookwright.pattern import Facts, Gauge
from hookwright.working.fabric import Fabric

SIZES = ("XS", "S", "M", "L", "XL", "2X", "3X", "4X")


def hat(crown: int, even: int) -> Fabric:
    counts = [8 * i for i in range(1, crown + 1)] + [8 * crown] * even
    return fabrics.rounds(fabrics.rounds_of(counts, "hdc"), gauge={"hdc": (14, 9.5)})


def striped(every: int, rows: int = 30) -> Fabric:
    piece = fabrics.Piece().foundation(30)
    for i in range(rows):
        piece.row(fabrics.across(30, "dc"), colour="ABC"[(i // every) % 3])
    return fabrics.fabric(piece.part(), gauge={"dc": (14, 7)})


def waisted() -> Fabric:
    counts = [40] * 10 + list(range(39, 29, -1)) + [30] * 12 + list(range(31, 36))
    return fabrics.flat(fabrics.edge_shaped_rows(counts, "hdc"), chains=40, gauge={"hdc": (14, 10)})


PIECES: dict[str, list[Fabric]] = {
    "rectangle": [fabrics.rectangle(28, 126)],
    "one stitch": [fabrics.flat([[("sc", 0)]], chains=1)],
    "strip": [fabrics.bevelled_strip(gauge={"dc": (13, 6.5)})],
    "triangle": [fabrics.triangle(60)],
    "waisted": [waisted()],
    "hat in three sizes": [hat(7, 9), hat(8, 10), hat(9, 11)],
    "rectangle in eight sizes": [fabrics.rectangle(40 + 6 * i, 30 + 4 * i) for i in range(8)],
    "tiny in eight sizes": [fabrics.rectangle(3 + i, 2 + i) for i in range(8)],
    "disc": [fabrics.disc(12, 9, "dc", stacked=False)],
    "hexagon": [fabrics.disc(6, 14)],
    "ball": [fabrics.ball(36)],
    "tube": [fabrics.tube(60, 30)],
    "ruffle": [fabrics.disc(18, 9, "dc")],
    "wide stripes": [striped(5)],
    "stripes of one row": [striped(1)],
    "eleven colours in few rows": [striped(1, 11)],
}


def parts_of(name: str) -> list[PartMeasures]:
    return [measure(made).parts[0] for made in PIECES[name]]


@pytest.mark.parametrize("name", list(PIECES))
@pytest.mark.parametrize("left_handed", [False, True])
def test_no_label_covers_another_or_the_outline_of_one(name: str, left_handed: bool) -> None:
    parts = parts_of(name)
    _, sheet = compose(parts, names=SIZES[: len(parts)], left_handed=left_handed)
    for a, b in combinations(sheet.labels, 2):
        assert not a.box.meets(b.box), (a.lines, b.lines)


@pytest.mark.parametrize("name", list(PIECES))
def test_every_drawing_is_well_formed_named_and_the_same_each_time(name: str) -> None:
    parts = parts_of(name)
    drawing, _ = compose(parts, names=SIZES[: len(parts)])
    root = ET.fromstring(drawing)
    assert root.findtext("{http://www.w3.org/2000/svg}title")
    assert root.findtext("{http://www.w3.org/2000/svg}desc")
    assert drawing == compose(parts_of(name), names=SIZES[: len(parts)])[0]


def test_widths_of_letters_are_never_told_too_small() -> None:
    """Against the advance widths of the font itself."""
    regular = next(folder for folder in font_folders() if "atkinson" in folder.lower())
    font = ImageFont.truetype(f"{regular}/AtkinsonHyperlegible-Regular.ttf", 1000)
    for letter in map(chr, range(32, 127)):
        assert text_width(letter, 1.0) >= font.getlength(letter) / 1000 - 0.005, letter
    for words in ("Row 19", "Rnd 8 (9, 10)", "15.5 (17, 19) cm", "6¼ (6¾, 7½) in", "Right side shown. Worked upward from the foot."):
        assert text_width(words, 1.0) >= font.getlength(words) / 1000


def test_measures_stand_in_size_order() -> None:
    _, sheet = compose(parts_of("hat in three sizes"), names=("S", "M", "L"))
    words = [line for label in sheet.labels for line in label.lines]
    assert "girth 40 (45.5, 51.5) cm" in words
    assert "15¾ (18, 20¼) in" in words
    assert "Sizes S (M, L); drawn in size S." in words
    assert "Rnd 7 (8, 9)" in words


def test_rows_where_shaping_changes_are_named() -> None:
    strip = parts_of("strip")[0]
    assert [key.number for key in key_rows(strip)] == [1, 19, 83, 101]
    _, sheet = compose([strip])
    words = [line for label in sheet.labels for line in label.lines]
    assert {"Row 1", "Row 19", "Row 83", "Row 101"} <= set(words)
    assert "15.5 cm" in words and "155 cm" in words
    assert any(line.startswith("98.5 cm") for line in words)


def test_a_waist_is_measured_too() -> None:
    _, sheet = compose(parts_of("waisted"))
    assert any("21.5 cm" in line for label in sheet.labels for line in label.lines)


def test_colours_are_named_where_they_begin() -> None:
    part = parts_of("wide stripes")[0]
    assert [(start.yarn, start.number) for start in colour_starts(part)] == [("A", 1), ("B", 6), ("C", 11), ("A", 16), ("B", 21), ("C", 26)]
    _, sheet = compose([part])
    assert any("B from Row 6" in label.lines for label in sheet.labels)
    _, crowded = compose(parts_of("stripes of one row"))
    assert any("Colours change 29 times" in line for label in crowded.labels for line in label.lines)


def test_the_outline_is_to_scale() -> None:
    drawing, _ = compose(parts_of("rectangle"))
    polygon = ET.fromstring(drawing).find("{http://www.w3.org/2000/svg}polygon")
    assert polygon is not None
    points = [tuple(map(float, pair.split(","))) for pair in polygon.attrib["points"].split()]
    wide, high = max(x for x, _ in points) - min(x for x, _ in points), max(y for _, y in points) - min(y for _, y in points)
    part = parts_of("rectangle")[0]
    assert wide / high == pytest.approx(part.width_cm / part.length_cm, rel=1e-3)


def test_a_hexagon_is_measured_across_its_sides_and_its_corners() -> None:
    part = parts_of("hexagon")[0]
    assert part.rounds is not None
    _, sheet = compose([part])
    words = [line for label in sheet.labels for line in label.lines]
    assert measure_words([part.rounds.diameter_cm])[0] in words
    assert measure_words([part.rounds.diameter_cm * 2 / 3**0.5])[0] in words


def test_left_handers_see_it_mirrored() -> None:
    right, _ = compose(parts_of("triangle"))
    left, sheet = compose(parts_of("triangle"), left_handed=True)
    assert right != left
    told = " ".join(line for label in sheet.labels for line in label.lines)
    assert "shown for a left-hander" in told
    assert "Row 1 runs from left to right" in told


def test_one_for_all_sizes_or_one_each() -> None:
    gauge = (Gauge(stitch="dc", stitches=14, rows=7),)
    facts = Facts(gauge=gauge, size_names=("S", "M"))
    sizes = []
    for size, n in enumerate((20, 24)):
        made = fabrics.fabric(fabrics.flat_part(fabrics.rectangle_rows(n, 10), chains=n), facts=facts)
        sizes.append(measure(type(made)(pattern=made.pattern, size=size, parts=made.parts)))
    assert list(schematics(sizes)) == ["Body"]
    assert list(schematics(sizes, each_size=True)) == ["Body, size S", "Body, size M"]
    assert "14.5 (17) cm" in schematics(sizes)["Body"]


def test_outlines_in_true_size() -> None:
    drawing = outlines(measure(fabrics.rectangle(14, 7, gauge={"dc": (14, 7)})))
    polygon = ET.fromstring(drawing).find("{http://www.w3.org/2000/svg}polygon")
    assert polygon is not None
    xs = [float(pair.split(",")[0]) for pair in polygon.attrib["points"].split()]
    assert max(xs) - min(xs) == pytest.approx(100.0)
    assert outlines(measure(fabrics.fabric()))


def test_measure_words() -> None:
    assert measure_words([4.04, 4.2]) == ("4 (4.2) cm", "1½ (1¾) in")
    assert measure_words([50.0, 50.0]) == ("50 cm", "19¾ in")
