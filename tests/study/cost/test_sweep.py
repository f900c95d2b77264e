"""Sweeps give the same wherever the work is done, and lost workers cost no result."""

from __future__ import annotations

import os
import signal
import warnings
from collections.abc import Iterator
from concurrent.futures import BrokenExecutor, CancelledError
from pathlib import Path

import pytest

from edgewise import catalogue
from edgewise.errors import DesignError
from edgewise.study.compare import comparison
from edgewise.study.cost import sweep

NAMES = ("serial-adder", "brent-kung-adder", "digit-serial-adder")


def compared(place: sweep.Workplace) -> comparison.Comparison:
    designs = [catalogue.find(name) for name in NAMES]
    return comparison.compare(designs, {"n": (3, 20)}, "cmos", {"d": 2}, workplace=place)


def fragile(flag: str) -> int:
    """Kill the worker that this runs in, the first time."""
    try:
        Path(flag).touch(exist_ok=False)
    except FileExistsError:
        return os.getpid()
    if os.getpid() != int(Path(flag).name):
        os.kill(os.getpid(), signal.SIGKILL)
    return 0


def square(number: int) -> int:
    return number * number


def refused(number: int) -> int:
    raise DesignError(f"no {number}")


@pytest.fixture(scope="module")
def cluster() -> Iterator[str]:
    """A Dask scheduler with two workers, each a process of its own."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from distributed import LocalCluster

        with LocalCluster(  # type: ignore[no-untyped-call]
            n_workers=2, threads_per_worker=1, dashboard_address=None, processes=True
        ) as local:
            yield str(local.scheduler_address)


def test_results_keep_their_order() -> None:
    told: list[tuple[int, int]] = []
    found = sweep.hand_out(square, range(5), progress=lambda *now: told.append(now))
    assert found == [0, 1, 4, 9, 16]
    assert told == [(i, 5) for i in range(1, 6)]


def test_an_error_of_the_work_is_raised() -> None:
    with pytest.raises(DesignError, match="no 3"):
        sweep.hand_out(refused, [3])


def test_two_workers_give_what_one_gives() -> None:
    assert compared(sweep.workplace(2)) == compared(sweep.Here)


def test_a_lost_worker_of_a_pool_costs_no_result(tmp_path: Path) -> None:
    flags = [str(tmp_path / f"{i}" / str(os.getpid())) for i in range(3)]
    for flag in flags:
        Path(flag).parent.mkdir()
    for flag in flags[1:]:
        Path(flag).touch()
    found = sweep.hand_out(fragile, flags, sweep.workplace(2))
    assert len(found) == 3
    assert 0 not in found


def test_a_place_that_always_breaks() -> None:
    opened: list[int] = []

    class Broken(sweep.Here):
        def submit(self, *_: object, **__: object) -> object:  # type: ignore[override]
            opened.append(1)
            raise BrokenExecutor

    with pytest.raises(DesignError) as caught:
        sweep.hand_out(square, range(4), Broken)
    assert str(caught.value) == "workers were lost 3 times; 4 of 4 pieces of work are not done"
    assert len(opened) == sweep.TRIES


def test_cancelled_work_is_handed_out_again() -> None:
    tries: list[int] = []

    def sometimes(number: int) -> int:
        tries.append(number)
        if tries.count(number) == 1:
            raise CancelledError
        return number

    assert sweep.hand_out(sometimes, [7, 8]) == [7, 8]
    assert tries == [7, 8, 7, 8]


@pytest.mark.slow
def test_a_cluster_gives_what_one_process_gives(cluster: str) -> None:
    assert compared(sweep.workplace(cluster=cluster)) == compared(sweep.Here)


@pytest.mark.slow
def test_a_lost_worker_of_a_cluster_costs_no_result(cluster: str, tmp_path: Path) -> None:
    flags = [str(tmp_path / f"{i}" / str(os.getpid())) for i in range(4)]
    for flag in flags:
        Path(flag).parent.mkdir()
    for flag in flags[1:]:
        Path(flag).touch()
    found = sweep.hand_out(fragile, flags, sweep.workplace(cluster=cluster))
    assert len(found) == 4
    assert 0 not in found


def test_no_scheduler_there() -> None:
    with pytest.raises(DesignError) as caught:
        sweep.hand_out(square, [1], sweep.workplace(cluster="tcp://127.0.0.1:9"))
    assert str(caught.value).startswith("there is no Dask scheduler at tcp://127.0.0.1:9: ")


@pytest.mark.parametrize(
    ("workers", "address", "message"),
    [
        (0, "", "0 workers can't be had; expected 1..256"),
        (
            2,
            "tcp://127.0.0.1:8786",
            "a cluster has workers of its own; leave out one of workers and cluster",
        ),
    ],
)
def test_places_that_make_no_sense(workers: int, address: str, message: str) -> None:
    with pytest.raises(DesignError) as caught:
        sweep.workplace(workers, address)
    assert str(caught.value) == message
