"""A round's first cluster, begun by its chain, is a cluster like the others (common practice, no source)."""

import pytest

from hookwright.reading import read
from hookwright.working import work

RING = "Mat. Ch 10, join with sl st.\nRnd 1: Ch 4, 19 tr in ring; join in 4th ch. (20 tr)\nRnd 2: "


@pytest.mark.parametrize(
    ("told", "clusters"),
    (
        (
            "Ch 4, holding back last loop of each tr make tr in next 4 tr, yarn over and draw through all loops on hook (cluster), * ch 5, "
            "cluster over next 5 tr; repeat from * around, ch 5, join.",
            4,
        ),
        ("Ch 3, 2-dc cluster in same st, * ch 3, skip next tr, 3-dc cluster in next tr; repeat from * around, ch 3, join.", 10),
        ("Beg cl in same st, * ch 3, skip next tr, cl in next tr; repeat from * around, ch 3, join.", 10),
    ),
)
def test_the_first_cluster_counts_as_one(told: str, clusters: int) -> None:
    row = work(read(RING + told)).parts[0].rows[-1]
    assert (row.worked, row.counted.total, row.counted.by_kind["cl"]) == ("yes", clusters, clusters)
