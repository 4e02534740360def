"""Gauge → width, height and area of every stitch and row, the two edges, the outline, growth per round. Arithmetic only."""

from .elements import Laid
from .measures import Measures, PartMeasures, RowMeasure, measure
from .outline import Edge, Point, Stretch, polygon_area
from .placing import Placed
from .rounds import SLACK, Lies, RoundMeasure, RoundsMeasure
from .scale import Scale, scale_of

__all__ = [
    "SLACK", "Edge", "Laid", "Lies", "Measures", "PartMeasures", "Placed", "Point", "RoundMeasure", "RoundsMeasure", "RowMeasure", "Scale",
    "Stretch", "measure", "polygon_area", "scale_of",
]  # fmt: skip
