"""Floor 5: equations between two-valued unknowns, by union-find with parity.

Every equation says that two unknowns are equal, or that they differ. A set of equations can hold
together if and only if no cycle of them has an odd number of differences; that odd cycle is the
explanation where they cannot. Linear but for the inverse Ackermann factor; the spanning forest that is
kept for the explanation is walked only when one is asked for.
"""

from __future__ import annotations

from collections import deque


class Parity:
    """Equations over the unknowns 0 .. n-1, added one by one."""

    def __init__(self, n: int) -> None:
        self._parent = list(range(n))
        self._odd = [False] * n  # relation to the parent
        self._size = [1] * n
        self._tree: list[list[tuple[int, int]]] = [[] for _ in range(n)]  # (neighbour, label)

    def find(self, x: int) -> tuple[int, bool]:
        """(representative, whether x differs from it)."""
        path = []
        while self._parent[x] != x:
            path.append(x)
            x = self._parent[x]
        odd = False
        for node in reversed(path):
            odd ^= self._odd[node]
            self._parent[node], self._odd[node] = x, odd
        return x, odd

    def join(self, a: int, b: int, differ: bool, label: int = -1) -> bool:
        """Add an equation; False (and nothing is added) where it contradicts those before it."""
        (root_a, odd_a), (root_b, odd_b) = self.find(a), self.find(b)
        if root_a == root_b:
            return (odd_a ^ odd_b) == differ
        if self._size[root_a] < self._size[root_b]:
            root_a, root_b = root_b, root_a
        self._parent[root_b] = root_a
        self._odd[root_b] = odd_a ^ odd_b ^ differ
        self._size[root_a] += self._size[root_b]
        self._tree[a].append((b, label))
        self._tree[b].append((a, label))
        return True

    def path(self, a: int, b: int) -> tuple[list[int], list[int]]:
        """The unknowns from a to b along the equations that were kept, and those equations' labels.

        With the refused equation between a and b it is the odd cycle.
        """
        before: dict[int, tuple[int, int]] = {a: (a, -1)}
        queue = deque([a])
        while queue and b not in before:
            node = queue.popleft()
            for neighbour, label in self._tree[node]:
                if neighbour not in before:
                    before[neighbour] = (node, label)
                    queue.append(neighbour)
        nodes, labels = [b], []
        while nodes[-1] != a:
            node, label = before[nodes[-1]]
            nodes.append(node)
            labels.append(label)
        return nodes[::-1], labels[::-1]
