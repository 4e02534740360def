"""Drawings from the worked fabric: symbol charts, schematics, colour plans; SVG, PNG and PDF.

`chart.chart` engraves a part (placed marks first, `marks.Chart`), `export.svg` and `pages.paged` put it on paper, `counting.count_back`
counts a drawing back against the fabric, `overlaps.overlaps` finds ink that overlaps, `squares.squares_svg` draws charts of squares,
`schematic.schematics` outlines to scale, `colours.colour_plans` where colours land, `specimen.specimen_svg` every symbol.
`svg` and `png` are what every picture goes through.
"""
