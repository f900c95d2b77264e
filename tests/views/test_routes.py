"""One route for each sink becomes one tree for each net; pictures say which."""

from __future__ import annotations

import pytest

from edgewise.views.routes import Net, Path, dots, straight, trees

A = (0.0, 0.0)


def one(*paths: Path, boxes: tuple[tuple[float, float, float, float], ...] = ()) -> tuple[Path, ...]:
    net = Net(paths[0][0], tuple(path[-1] for path in paths), paths)
    (tree,) = trees([net], {str(n): (rect, None) for n, rect in enumerate(boxes)})
    return tree


def test_a_shared_trunk_is_drawn_once() -> None:
    #   A ---+--- B
    #        +--- C
    tree = one((A, (90, 0)), (A, (40, 0), (40, 30), (90, 30)))
    assert tree == ((A, (90, 0)), ((40, 0), (40, 30), (90, 30)))
    assert dots(tree) == ((40, 0),)


def test_a_loop_of_two_routes_to_one_place_is_opened() -> None:
    #   A ---+---+--- B          both routes to C meet again at the right post
    #        |   |
    #        +---+--- C
    tree = one(
        (A, (90, 0)),
        (A, (40, 0), (40, 30), (90, 30)),
        (A, (60, 0), (60, 30), (80, 30), (80, 60)),
    )
    length = sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for line in tree for a, b in zip(line, line[1:], strict=False))
    assert length == 90 + 30 + 30 + 30
    assert dots(tree) == ((60, 0), (80, 30))


def test_a_jog_of_a_hair_is_straightened() -> None:
    #   A --+                    A --+
    #       |                        |
    #       +--.                     +------ B
    #          '--- B
    tree = one((A, (20, 0), (20, 50), (60, 50), (60, 50.5), (90, 50.5)))
    assert tree == ((A, (20, 0), (20, 50.5), (90, 50.5)),)


def test_two_tracks_side_by_side_become_one() -> None:
    #   A --+                    A --+
    #       |  B                     |  B
    #       +--+           to        |  |
    #       |                        +--+--- C
    #       +------- C
    tree = one((A, (20, 0), (20, 40), (60, 40), (60, 30)), (A, (20, 0), (20, 52), (90, 52)))
    assert tree == (
        (A, (20, 0), (20, 40), (60, 40), (60, 30)),
        ((20, 40), (20, 52), (90, 52)),
    ) or dots(tree) == ((60, 52),)


def test_a_longer_stretch_keeps_clear_of_boxes_and_other_nets() -> None:
    jog: Path = (A, (20, 0), (20, 50), (60, 50), (60, 62), (90, 62))
    assert one(jog) == ((A, (20, 0), (20, 62), (90, 62)),)
    assert one(jog, boxes=((30, 70, 40, 80),)) == (jog,)
    net = Net(A, ((90, 62),), (jog,))
    along = Net((0, 66), ((40, 66),), (((0, 66), (40, 66)),))
    across = Net((30, 80), ((30, 40),), (((30, 90), (30, 20)),))
    assert trees([net, along], {})[0] == (jog,)
    assert trees([net, Net((30, 90), ((30, 20),), across.paths)], {})[0] != (jog,)


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
