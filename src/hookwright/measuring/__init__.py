"""Gauge → width, height and area of every stitch and row, the two edges, the outline, growth per round. Arithmetic only."""

from .along import Along, edgings_along, said_of, side_cm
from .bias import Bias
from .border import RoundBorder, goes_round_an_edge
from .edging import SLACK, Border
from .elements import Laid
from .measures import Measures, PartMeasures, RowMeasure, measure, yarn_of
from .outline import Edge, Point, Stretch, outer_run, polygon_area
from .placing import Placed
from .rounds import Lies, RoundMeasure, RoundsMeasure, first_cupped, first_ruffled
from .scale import Scale, scale_of
from .seam_edges import SeamEdge, UnequalEdges, unequal_edges
from .sewn_on import SewnOn
from .tiles import Tile, Tiles, tiles_of
from .together import Assembled, one_piece, put_together
from .told import LIES, size_told
from .worn import Ease, HangingEnd, OverShoulders, hang_strip, is_worn_on, over_shoulders

__all__ = [
    "LIES", "SLACK", "Along", "Assembled", "Bias", "Border", "Ease", "Edge", "HangingEnd", "Laid", "Lies", "Measures", "OverShoulders",
    "PartMeasures", "Placed", "Point", "RoundBorder", "RoundMeasure", "RoundsMeasure", "RowMeasure", "Scale", "SeamEdge", "SewnOn",
    "Stretch", "Tile", "Tiles", "UnequalEdges", "edgings_along", "first_cupped", "first_ruffled", "goes_round_an_edge", "hang_strip",
    "is_worn_on",
    "measure", "one_piece", "outer_run", "over_shoulders", "polygon_area", "put_together", "said_of", "scale_of", "side_cm", "size_told",
    "tiles_of", "unequal_edges", "yarn_of",
]  # fmt: skip
