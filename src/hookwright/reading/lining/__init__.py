"""Lining out: a text → facts, parts, the lines of each row. Works on raw lines; no stitch is understood here."""
