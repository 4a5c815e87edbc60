"""Seams as lines between points: where a thread ends."""

from booklet.sewing.routes.trails import Edge, Trail, cut_at


def test_the_thread_is_cut_where_it_ends():
    edges = tuple(Edge(f"s{k}", k, k + 1, 5.0) for k in range(4))
    line = Trail(edges, tuple(range(5)))
    assert [len(part.edges) for part in cut_at(line, 18)] == [3, 1]  # 4 times 5 in on 18 in threads
    assert [part.nodes for part in cut_at(line, 18)] == [(0, 1, 2, 3), (3, 4)]
    assert [len(part.edges) for part in cut_at(line, 4)] == [1, 1, 1, 1]  # one seam is not cut
