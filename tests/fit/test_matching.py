"""A matching of greatest weight, held to networkx's."""

from random import Random

import networkx
import pytest

from matrixgen.fit.matching import greatest_matching


@pytest.mark.parametrize("seed", range(300))
def test_it_weighs_as_much_as_the_reference_s(seed):
    chance = Random(seed)
    first, second = chance.randrange(9), chance.randrange(9)
    density = chance.random()
    weights = {
        (one, other): chance.randint(1, 9)
        for one in range(first)
        for other in range(second)
        if chance.random() < density
    }
    graph = networkx.Graph()
    for (one, other), weight in weights.items():
        graph.add_edge(("first", one), ("second", other), weight=weight)
    reference = networkx.max_weight_matching(graph)
    best = sum(graph[one][other]["weight"] for one, other in reference)
    found = greatest_matching(weights)
    assert len(set(found.values())) == len(found)
    assert sum(weights[one, other] for other, one in found.items()) == best
