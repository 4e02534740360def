"""Facts of the trade, as data with their sources. Each module reads its own data file when first asked: import the one you need.

`kinds` (stitch ids), `terms` (US and UK), `stitches`, `abbreviations`, `hooks`, `weights`, `symbols`, `units`, `cautions`,
`rules_of_thumb`, `bodies`, `languages`.
"""
