"""One route for each sink becomes one tree for each net; pictures say which."""

from __future__ import annotations

import itertools

import pytest

from edgewise.views.layout.routing import Net, Path, dots, straight, trees

A = (0.0, 0.0)


def one(
    *paths: Path, boxes: tuple[tuple[float, float, float, float], ...] = ()
) -> tuple[Path, ...]:
    net = Net(paths[0][0], tuple(path[-1] for path in paths), paths)
    (tree,) = trees([net], {str(n): (rect, None) for n, rect in enumerate(boxes)})
    return tree


def _length(line: Path) -> float:
    return sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in itertools.pairwise(line))


def test_a_shared_trunk_is_drawn_once() -> None:
    #   A ---+--- B
    #        +--- C
    tree = one((A, (90, 0)), (A, (40, 0), (40, 30), (90, 30)))
    assert dots(tree) == ((40, 0),)
    assert tree == ((A, (90, 0)), ((40, 0), (40, 30), (90, 30)))


def test_a_loop_of_two_routes_to_one_place_is_opened() -> None:
    #   A ---+---+--+- B         A ----------+- B
    #        |   |                           |
    #        +---+--+- C   to                +- C
    #               |                        |
    #               D                        D
    tree = one(
        (A, (90, 0)),
        (A, (40, 0), (40, 30), (90, 30)),
        (A, (60, 0), (60, 30), (80, 30), (80, 60)),
    )
    assert dots(tree) == ((80, 0), (80, 30))
    assert sum(_length(line) for line in tree) == 90 + 60 + 10


def test_a_jog_of_a_hair_is_straightened() -> None:
    #   A                        A
    #   |                        |
    #   +---.                    +------ B
    #       '--- B
    assert one((A, (0, 50), (40, 50), (40, 50.5), (90, 50.5))) == ((A, (0, 50.5), (90, 50.5)),)


def test_two_tracks_side_by_side_become_one() -> None:
    #   A --+   B                A --+   B
    #       |   |                    |   |
    #       +---+          to        +---+
    #       +------- C                   +--- C
    tree = one((A, (20, 0), (20, 40), (60, 40), (60, 30)), (A, (20, 0), (20, 52), (90, 52)))
    assert tree == (
        (A, (20, 0), (20, 40), (60, 40), (60, 30)),
        ((60, 40), (60, 52), (90, 52)),
    )


def test_a_jog_stays_where_a_straight_line_would_come_too_close() -> None:
    jog: Path = (A, (0, 50), (40, 50), (40, 62), (90, 62))
    cut: Path = (A, (0, 62), (90, 62))
    assert one(jog) == (cut,)
    assert one(jog, boxes=((30, 75, 40, 90),)) == (cut,)
    assert one(jog, boxes=((30, 70, 40, 90),)) == (jog,)
    net = Net(A, ((90, 62),), (jog,))
    beside = Net((-20, 71), ((20, 71),), (((-20, 71), (20, 71)),))
    across = Net((20, 90), ((20, 20),), (((20, 90), (20, 20)),))
    ends_near = Net((20, 90), ((20, 65),), (((20, 90), (20, 65)),))
    assert trees([net, beside], {})[0] == (jog,)
    assert trees([net, ends_near], {})[0] == (jog,)
    assert trees([net, across], {})[0] == (cut,)


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        ([A], (A,)),
        ([A, A, (5, 0)], (A, (5, 0))),
        ([A, (5, 0), (9, 0), (9, 2), (9, 4)], (A, (9, 0), (9, 4))),
    ],
)
def test_a_straight_stretch_has_two_points(path: list[tuple[float, float]], expected: Path) -> None:
    assert straight(path) == expected
