"""A class diagnosed in shares: every size of share and every place gives the same, no name goes."""

from __future__ import annotations

import pickle
import warnings
from collections.abc import Iterator

import pytest

from edgewise.practice.marking import shares
from edgewise.practice.marking.batch import Batch
from edgewise.practice.marking.beliefs import pairs, singles, truth
from edgewise.practice.marking.evidence import Answered, Whole
from edgewise.practice.table_question import Cell
from edgewise.study.cost import sweep
from tests.practice.marking.classes import adder, asked, believed

CELLS = asked(range(6, 13), ["A", "C", "S"])
LATER = asked((12,), ["S"])
OPERANDS = ({"a": 0b011011, "b": 0b010111}, {"a": 0b011101, "b": 0b001111})
HELD = (truth(adder(6)), *singles(adder(6))[:9], *pairs(adder(6))[:12])
COUNT = 60


def batch(cells: tuple[Cell, ...], every: int) -> Answered:
    """Every so many-th learner, each with an idea of their own."""
    learners = tuple(range(0, COUNT, every))
    operands = tuple(OPERANDS[i % 2] for i in learners)
    answers = [believed(HELD[i % len(HELD)], cells, OPERANDS[i % 2]) for i in learners]
    columns = tuple(zip(*answers, strict=True))
    return Answered(Batch(adder(6), cells, operands, columns), learners)


TELLS = frozenset({"carry-dropped", "or-for-sum"})
ANSWERED = (batch(CELLS, 1), batch(LATER, 2))
WHOLES = tuple(
    Whole(i, right=i % 3 > 0, gives=TELLS if i % 3 == 0 else frozenset(), tells=TELLS)
    for i in range(0, COUNT, 2)
)


def diagnoses(place: sweep.Workplace = sweep.Here) -> object:
    return shares.of_class(ANSWERED, COUNT, WHOLES, place)


@pytest.mark.parametrize("size", [7, 59])
def test_every_size_gives_the_same(size: int, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = diagnoses()
    monkeypatch.setattr(shares, "ALONE", size)
    assert diagnoses() == whole


@pytest.fixture(scope="module")
def cluster() -> Iterator[str]:
    """A Dask scheduler with two workers."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from distributed import LocalCluster

        with LocalCluster(  # type: ignore[no-untyped-call]
            n_workers=2, threads_per_worker=1, dashboard_address=None, processes=True
        ) as local:
            yield str(local.scheduler_address)


@pytest.mark.slow
def test_a_cluster_gives_what_one_process_gives(
    cluster: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = diagnoses()
    monkeypatch.setattr(shares, "SIZE", 20)
    assert diagnoses(sweep.workplace(cluster=cluster)) == whole


def test_a_share_holds_no_more_than_its_learners_and_no_name() -> None:
    parts = shares.shares(ANSWERED, COUNT, WHOLES)
    assert [part.learners for part in parts] == [COUNT]
    small = shares._share(ANSWERED, 10, 15, WHOLES)
    assert [part.learners for part in small.answered] == [(0, 1, 2, 3, 4), (0, 2, 4)]
    assert [one.learner for one in small.wholes] == [0, 2, 4]
    assert pickle.loads(pickle.dumps(small)).learners == 5  # noqa: S301  # our own
