"""Sweeps: many designs measured, here, on all cores, or on a cluster.

Work is handed out through `concurrent.futures.Executor`, whatever stands behind it: this process, a
pool of processes, or the workers of a Dask scheduler. The results and their order are the same.
Work of a worker that is lost is handed out again.
"""

from __future__ import annotations

import gc
import logging
import os
import re
import signal
import socket
import threading
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import BrokenExecutor, CancelledError, Executor, Future, as_completed
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Final, TypeAlias, TypeVar

from edgewise.blueprint import Blueprint
from edgewise.errors import DesignError, EdgewiseError, Message
from edgewise.study.cost.measure import Cost, measure

Item = TypeVar("Item")
Result = TypeVar("Result")

TRIES: Final = 3
"""How often work is handed out before a lost worker counts as an error."""
CHUNK: Final = 8
"""Designs measured in one go."""
FEW: Final = 400
"""Up to so many designs one process is as quick."""
MOST_WORKERS: Final = 256
_SAFE: Final = "PYTHONSAFEPATH"
MOST_PORT: Final = 65_535
PATIENCE: Final = 5
"""Seconds to wait for a scheduler's answer."""

Progress: TypeAlias = Callable[[int, int], None]
"""Is told (work done, work in all)."""
Workplace: TypeAlias = Callable[[], Executor]
"""What opens the place where work is done; asked again when that place broke."""


class Here(Executor):
    """Work done at once, in this process.

    Examples
    --------
    >>> Here().submit(max, 3, 5).result()
    5
    """

    def submit(
        self, fn: Callable[..., Result], /, *args: object, **kwargs: object
    ) -> Future[Result]:
        """Do it now."""
        future: Future[Result] = Future()
        try:
            future.set_result(fn(*args, **kwargs))
        except Exception as wrong:  # noqa: BLE001  # it is raised where the result is asked for
            future.set_exception(wrong)
        return future


def workplace(workers: int = 1, cluster: str = "") -> Workplace:
    """The place for a number of workers, or at the address of a Dask scheduler.

    Raises
    ------
    DesignError
        If the number makes no sense, both are given, or the cluster can't be reached.

    Examples
    --------
    >>> type(workplace()()).__name__
    'Here'
    """
    if not 1 <= workers <= MOST_WORKERS:
        raise DesignError(Message("workers-range", count=workers, most=MOST_WORKERS))
    if cluster and workers > 1:
        raise DesignError(Message("workers-and-cluster"))
    if cluster:
        host, port = address(cluster)
        return lambda: _cluster(cluster, host, port)
    return Here if workers == 1 else lambda: _pool(workers)


def workers_for(designs: int) -> int:
    """How many workers pay for so many designs: starting one costs what hundreds of designs do.

    Examples
    --------
    >>> workers_for(100)
    1
    """
    return 1 if designs < FEW else min(os.cpu_count() or 1, MOST_WORKERS)


def _pool(workers: int) -> Executor:
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    # Forking a process that has threads may hang, so each worker starts afresh.
    with _deaf():
        executor = ProcessPoolExecutor(workers, mp_context=get_context("spawn"))
        for _ in range(workers):  # one is started for each piece of work until all are
            executor.submit(int)
    return executor


@contextmanager
def _deaf() -> Iterator[None]:
    """Processes started meanwhile hear no Ctrl-C and import nothing from the current folder."""
    path = os.environ.get(_SAFE)
    os.environ[_SAFE] = "1"
    here = threading.current_thread() is threading.main_thread()
    heard = signal.signal(signal.SIGINT, signal.SIG_IGN) if here else None
    try:
        yield
    finally:
        if here:
            signal.signal(signal.SIGINT, heard)
        if path is None:
            del os.environ[_SAFE]
        else:
            os.environ[_SAFE] = path


def address(text: str) -> tuple[str, int]:
    """The host and the port in a scheduler's address.

    Raises
    ------
    DesignError
        If it is none.

    Examples
    --------
    >>> address("tcp://lab7:8786"), address("127.0.0.1:8786"), address("tls://[::1]:8786")
    (('lab7', 8786), ('127.0.0.1', 8786), ('::1', 8786))
    """
    found = _ADDRESS.fullmatch(text)
    if not found or not 1 <= int(found["port"]) <= MOST_PORT:
        raise DesignError(Message("cluster-address", found=repr(text)))
    return found["host"] or found["long"], int(found["port"])


_ADDRESS: Final = re.compile(
    r"((tcp|tls)://)?((?P<host>[A-Za-z0-9._-]{1,253})|\[(?P<long>[0-9A-Fa-f:.]{2,45})\])"
    r":(?P<port>[0-9]{1,5})"
)


def _cluster(where: str, host: str, port: int) -> Executor:
    try:
        from distributed import Client
    except ImportError:
        raise DesignError(Message("cluster-package")) from None
    try:
        # The library tries for long, and complains at length: see first that someone is there.
        with socket.create_connection((host, port), timeout=PATIENCE) as talk:
            # A scheduler greets whoever calls, unless they are to agree on a cipher first.
            greeted = where.startswith("tls:") or bool(talk.recv(1))
    except TimeoutError:
        greeted = False
    except OSError as wrong:
        why = wrong.strerror or str(wrong)
        raise DesignError(Message("cluster-unreachable", where=where, why=why)) from None
    if not greeted:
        raise DesignError(Message("cluster-silent", where=where))
    logging.getLogger("distributed").setLevel(logging.CRITICAL)
    try:
        client = Client(where, timeout=PATIENCE, set_as_default=False)  # type: ignore[no-untyped-call]
    except Exception as wrong:  # noqa: BLE001  # the library raises whatever it meets there
        why = str(wrong).partition("\n")[0] or type(wrong).__name__
        raise DesignError(Message("cluster-strange", where=where, why=why)) from None
    return _ClusterExecutor(client)


class _ClusterExecutor(Executor):
    """The workers of a Dask scheduler; closes its connection when it is left."""

    def __init__(self, client: object) -> None:
        self._client = client
        # Equal calls must not be taken for one: pure is False.
        self._inner: Executor = client.get_executor(pure=False)  # type: ignore[attr-defined]

    def submit(
        self, fn: Callable[..., Result], /, *args: object, **kwargs: object
    ) -> Future[Result]:
        """Hand the work to the scheduler."""
        return self._inner.submit(fn, *args, **kwargs)

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:  # noqa: FBT001, FBT002
        """Finish and disconnect."""
        if not cancel_futures:  # closing the connection cancels what is left
            self._inner.shutdown(wait=wait)
        self._client.close()  # type: ignore[attr-defined]


def hand_out(
    work: Callable[[Item], Result],
    items: Iterable[Item],
    place: Workplace = Here,
    progress: Progress | None = None,
) -> list[Result]:
    """Do work on every item; the results in the items' order.

    Parameters
    ----------
    work : function
        Of one item; for other processes it must stand at the top of a module.
    items : iterable
    place : Workplace
    progress : function, optional

    Raises
    ------
    DesignError
        If workers are lost again and again.
    Exception
        Whatever the work raises.

    Examples
    --------
    >>> hand_out(abs, [-3, 2])
    [3, 2]
    """
    waiting = dict(enumerate(items))
    total, done = len(waiting), dict[int, Result]()
    for _ in range(TRIES):
        with place() as executor, _stopping():
            for index, result in _collected(executor, work, waiting):
                done[index] = result
                if progress:
                    progress(len(done), total)
        waiting = {index: item for index, item in waiting.items() if index not in done}
        if not waiting:
            return [done[index] for index in range(total)]
    raise DesignError(Message("workers-lost", tries=TRIES, count=len(waiting), total=total))


@contextmanager
def _stopping() -> Iterator[None]:
    """End the processes of a pool at once when the work is broken off, as by Ctrl-C."""
    from multiprocessing import active_children

    try:
        yield
    except Exception:
        raise
    except BaseException:
        for process in active_children():
            process.kill()
        raise


def _collected(
    executor: Executor, work: Callable[[Item], Result], waiting: Mapping[int, Item]
) -> Iterator[tuple[int, Result]]:
    """What comes back, as it comes; what is lost with its worker is left out."""
    futures: dict[Future[Result], int] = {}
    try:
        for index, item in waiting.items():
            futures[executor.submit(work, item)] = index
    except BrokenExecutor:
        pass
    for future in as_completed(futures):
        try:
            result = future.result()
        except (BrokenExecutor, CancelledError):
            continue
        except Exception as wrong:
            if _lost(wrong):
                continue
            raise
        yield futures[future], result


def _lost(wrong: Exception) -> bool:
    """Whether a Dask scheduler says by this that a worker is gone."""
    return type(wrong).__module__.partition(".")[0] == "distributed"


# ---------------------------------------------------------------------- costs


@dataclass(frozen=True, slots=True)
class Measuring:
    """One piece of work: a design of the catalogue at some parameters.

    Parameters
    ----------
    design : str
    points : tuple of tuple of (str, int)
        Parameters, point by point.
    model : str
    activity : bool
    """

    design: str
    points: tuple[tuple[tuple[str, int], ...], ...]
    model: str
    activity: bool = False


Measured: TypeAlias = Cost | str
"""A cost, or why there is no such design."""


def measure_points(piece: Measuring) -> list[Measured]:
    """The cost at each point, or why there is none.

    Examples
    --------
    >>> points = ((("n", 4), ("d", 2)), (("n", 5), ("d", 2)))
    >>> piece = Measuring("digit-serial-adder", points, "cmos")
    >>> cost, why = measure_points(piece)
    >>> cost.edges, why
    (3, "digits of 2 bits don't fill a word of 5; d can be 1, 5")
    """
    from edgewise import catalogue

    blueprint = catalogue.find(piece.design)
    return measured(blueprint, map(dict, piece.points), piece.model, activity=piece.activity)


def measured(
    blueprint: Blueprint, points: Iterable[Mapping[str, int]], model: str, *, activity: bool = False
) -> list[Measured]:
    """The cost of a blueprint's design at each point, or why there is none."""
    found: list[Measured] = []
    with _uncollected():
        for numbers in points:
            try:
                found.append(measure(blueprint, numbers, model, activity=activity))
            except EdgewiseError as wrong:
                found.append(wrong.parts()[0].message)
    return found


@contextmanager
def _uncollected() -> Iterator[None]:
    """Without looking for unreachable rings meanwhile; circuits are large, and trees."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def pieces(
    design: str, points: Sequence[Mapping[str, int]], model: str, *, activity: bool = False
) -> list[Measuring]:
    """A sweep over one design, cut into pieces of work."""
    listed = [tuple(point.items()) for point in points]
    return [
        Measuring(design, tuple(listed[i : i + CHUNK]), model, activity)
        for i in range(0, len(listed), CHUNK)
    ]
