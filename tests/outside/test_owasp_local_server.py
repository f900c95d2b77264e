"""The preview's server held against OWASP's list, from the side of a stranger on this machine.

Names of checks are those of the OWASP Web Security Testing Guide 4.2 (WSTG-…), and for the floods
those of the OWASP Denial of Service Cheat Sheet. Every request is made by a client of our own on
loopback.
"""

from __future__ import annotations

import contextlib
import http.client
import re
import select
import socket
import time
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Final

import pytest

from edgewise.watching import connections
from edgewise.watching.opening import opened as opened_in_browser
from tests.web.watched import Running, end, started

LESSON: Final = """\
---
title: Two tide gauges
design: serial-adder
with: {n: 4}
operands: {a: 9, b: 6}
---
The first gauge told `? a`.
"""
ADDRESS: Final = "refused: the preview answers only to its own address on this machine\n"
STRANGER: Final = "refused: open the whole address that edgewise shows in its terminal\n"
SITE: Final = "refused: a request from another site\n"


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    path = tmp_path_factory.mktemp("hut") / "tide.md"
    path.write_text(LESSON, "utf-8")
    run = started(path)
    while not run.state()["parts"]:
        time.sleep(0.05)
    yield run
    end(run)


def raw(run: Running, request: bytes) -> bytes:
    """All that is answered to these bytes."""
    with socket.create_connection(("127.0.0.1", run.port), timeout=20) as link:
        link.sendall(request)
        answer = b""
        while piece := link.recv(65536):
            answer += piece
            if b"\r\n\r\n" in answer and b"refused" in answer:
                break
    return answer


def headers(run: Running, name: str = "") -> http.client.HTTPMessage:
    link = http.client.HTTPConnection("127.0.0.1", run.port, timeout=20)
    link.request("GET", f"{run.root}{name}")
    answer = link.getresponse()
    told = answer.headers
    link.close()
    return told


def test_wstg_athn_04_bypassing_authentication(running: Running) -> None:
    """Without the secret nothing is told, whatever the path; nor with a part of it."""
    key = running.root.strip("/")
    guesses = ["/", "/events", "/preview.js", f"/{key}", f"/{key[:-1]}/", f"/{key[:-1]}x/events"]
    guesses += [f"/{key}x/", f"//{key}/", f"/x/../{key}/", f"/{key.swapcase()}/", "/%00/", "/*"]
    for path in guesses:
        assert running.ask("GET", path) == (403, STRANGER), path
    assert running.get()[0] == 200


def test_wstg_sess_01_the_secret_is_one(tmp_path: Path, running: Running) -> None:
    """128 bits from the system's generator, another one for every run."""
    path = tmp_path / "tide.md"
    path.write_text(LESSON, "utf-8")
    other = started(path)
    end(other)
    assert other.root != running.root
    assert re.fullmatch(r"/[\w-]{22}/", running.root)  # 22 letters of base64: 132 bits at most


def test_wstg_sess_04_exposed_session_variables(running: Running) -> None:
    """The secret goes to no other site, into no cache and into no command line."""
    told = headers(running)
    assert told["Referrer-Policy"] == "no-referrer"
    assert told["Cache-Control"] == "no-store"
    assert told["Set-Cookie"] is None
    for name in ("", "notes", "preview.js", "notes.js"):
        assert running.root.strip("/") not in running.get(name)[1]
    with opened_in_browser(running.address) as file:
        assert running.root.strip("/") not in file.as_uri()
        assert file.parent.stat().st_mode & 0o077 == 0
        assert running.address in file.read_text("utf-8")
    assert not file.parent.exists()


def test_wstg_inpv_17_host_header_injection(running: Running) -> None:
    for host in ("evil.example", f"evil.example:{running.port}", f"127.0.0.1.evil:{running.port}"):
        assert running.get(Host=host) == (403, ADDRESS)
    forwarded = {"X-Forwarded-Host": "evil.example", "X-Forwarded-For": "10.0.0.1"}
    status, text = running.get(**forwarded)
    assert status == 200
    assert "evil" not in text


@pytest.mark.parametrize("name", ["Origin", "Sec-Fetch-Site"])
def test_wstg_inpv_15_a_header_given_twice(running: Running, name: str) -> None:
    """Which of two counts is read differently by different programs, so neither does."""
    good = {"Origin": f"http://127.0.0.1:{running.port}", "Sec-Fetch-Site": "same-origin"}[name]
    for pair in ((good, good), (good, "evil"), ("evil", good)):
        lines = "".join(f"{name}: {value}\r\n" for value in pair)
        request = f"GET {running.root} HTTP/1.1\r\nHost: 127.0.0.1:{running.port}\r\n{lines}\r\n"
        answer = raw(running, request.encode())
        assert answer.startswith(b"HTTP/1.1 403 ")
        assert answer.endswith(f"refused: a request that gives {name} twice\n".encode())


def test_wstg_inpv_15_splitting_and_smuggling(running: Running) -> None:
    here = f"Host: 127.0.0.1:{running.port}\r\n"
    wrong = [
        f"GET {running.root} HTTP/1.1\r\n{here}{here}\r\n",
        f"GET {running.root} HTTP/1.1\r\nHost: evil\r\n{here}\r\n",
        f"GET {running.root} HTTP/1.1\r\n\r\n",
        f"POST {running.root} HTTP/1.1\r\n{here}Content-Length: 3\r\nContent-Length: 4\r\n\r\nabcd",
        f"POST {running.root} HTTP/1.1\r\n{here}Content-Length: 3\r\nTransfer-Encoding: chunked\r\n"
        "\r\n0\r\n\r\nGET / HTTP/1.1\r\n\r\n",
        f"GET {running.root} HTTP/1.1\r\n{here}X : y\r\n\r\n",
        f"GET {running.root}\0 HTTP/1.1\r\n{here}\r\n",
        "\x16\x03\x01\x02\x00\x01\r\n\r\n",
    ]
    for request in wrong:
        answer = raw(running, request.encode())
        assert answer.split(b" ")[1] in (b"400", b"403"), request
        assert answer.count(b"HTTP/1.1 ") == 1, request
        assert b"Two tide gauges" not in answer
    for path in (f"{running.root}%0d%0aSet-Cookie:%20a=b", f"{running.root}events%0d%0aX:%20y"):
        status, _ = running.ask("GET", path)
        assert status == 404


def test_wstg_clnt_07_cross_origin_resource_sharing(running: Running) -> None:
    for origin in ("http://evil.example", "null", f"https://127.0.0.1:{running.port}"):
        for name in ("", "events", "preview.js"):
            assert running.get(name, Origin=origin) == (403, SITE)
    told = headers(running)
    assert not [name for name in told if name.lower().startswith("access-control-")]
    assert told["Cross-Origin-Resource-Policy"] == "same-origin"


def test_wstg_sess_05_cross_site_requests(running: Running) -> None:
    """Only somebody who knows the secret can lead here, and only to the page, in its own window."""
    for site in ("cross-site", "same-site"):
        assert running.get(Sec_Fetch_Site=site) == (403, SITE)
        followed = {"Sec_Fetch_Site": site, "Sec_Fetch_Mode": "navigate"}
        assert running.get(**followed, Sec_Fetch_Dest="iframe") == (403, SITE)
        assert running.get("events", **followed, Sec_Fetch_Dest="document") == (403, SITE)
        assert running.get(**followed, Sec_Fetch_Dest="document")[0] == 200


def test_wstg_clnt_09_clickjacking(running: Running) -> None:
    for name in ("", "notes"):
        told = headers(running, name)
        assert told["X-Frame-Options"] == "DENY"
        assert "frame-ancestors 'none'" in told["Content-Security-Policy"]
        assert told["Cross-Origin-Opener-Policy"] == "same-origin"


def test_wstg_conf_06_http_methods(running: Running) -> None:
    refused = (403, "refused: the preview is only to be looked at\n")
    for method in ("POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "TIDE"):
        assert running.ask(method, running.root) == refused
    assert running.ask("HEAD", running.root) == (200, "")
    status, text = running.get(X_HTTP_Method_Override="DELETE")
    assert (status, "Two tide gauges" in text) == (200, True)


def test_wstg_athz_01_directory_traversal(running: Running) -> None:
    for name in (
        "tide.md", "../tide.md", "..%2ftide.md", "%2e%2e/tide.md", "preview.js/../tide.md",
        "....//tide.md", "/etc/passwd", "preview.js%00.md", "..\\tide.md", "preview.py",
        "web/stage.js",
    ):  # fmt: skip
        status, text = running.get(name)
        assert (status, text) == (404, "Not Found"), name


def test_wstg_info_02_fingerprint_web_server(running: Running) -> None:
    assert headers(running)["Server"] is None


def test_wstg_errh_01_improper_error_handling(running: Running) -> None:
    for request in (
        b"GET / HTTP/9.9\r\n\r\n",
        b"\r\n\r\n\0",
        b"GET http://[ HTTP/1.1\r\nHost: x\r\n\r\n",
    ):
        answer = raw(running, request)
        assert b"Traceback" not in answer
        assert b"uvicorn" not in answer.lower()
    assert running.get()[0] == 200


def test_wstg_clnt_10_websockets(running: Running) -> None:
    told = {"Connection": "Upgrade", "Upgrade": "websocket", "Sec-WebSocket-Version": "13"}
    status, text = running.get("events2", **told, Sec_WebSocket_Key="dGlkZSBnYXVnZXMgdHdvLg==")
    assert (status, text) == (404, "Not Found")


# ---------------------------------------------------------------- denial of service


def closed_after(link: socket.socket, most: float) -> float:
    """Seconds until the other side closes."""
    began = time.monotonic()
    link.settimeout(most)
    try:
        while link.recv(4096):
            pass
    except ConnectionError:
        pass
    return time.monotonic() - began


def trickle(link: socket.socket, letter: bytes) -> None:
    """Send a letter each tenth of a second until the other side closes."""
    with contextlib.suppress(ConnectionError):
        for _ in range(600):
            link.sendall(letter)
            time.sleep(0.1)
            if select.select([link], [], [], 0)[0] and not link.recv(4096):
                return


def pour(link: socket.socket, letters: bytes, times: int) -> bool:
    """Whether the other side closes while so much is sent."""
    try:
        for _ in range(times):
            link.sendall(letters)
    except ConnectionError:
        return True
    return False


@pytest.mark.parametrize("sent", [b"", b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n"])
def test_an_idle_connection_is_closed(running: Running, sent: bytes) -> None:
    with socket.create_connection(("127.0.0.1", running.port)) as link:
        link.sendall(sent)
        taken = closed_after(link, 60)
    assert taken > connections.PATIENCE - 1


def test_slow_headers_are_cut_off(running: Running) -> None:
    """A letter each tenth of a second: never silent, never done ("slow HTTP attack")."""
    with socket.create_connection(("127.0.0.1", running.port)) as link:
        link.sendall(b"GET / HTTP/1.1\r\nX: ")
        began = time.monotonic()
        trickle(link, b"a")
    assert time.monotonic() - began < 40


def test_slow_headers_after_an_answer_are_cut_off(running: Running) -> None:
    with socket.create_connection(("127.0.0.1", running.port)) as link:
        request = f"GET {running.root}notes HTTP/1.1\r\nHost: 127.0.0.1:{running.port}\r\n\r\n"
        link.sendall(request.encode())
        assert b"200 OK" in link.recv(65536)
        began = time.monotonic()
        trickle(link, b"G")
    assert time.monotonic() - began < 40


def test_a_slow_body_is_cut_off(running: Running) -> None:
    with socket.create_connection(("127.0.0.1", running.port)) as link:
        head = f"GET {running.root}notes HTTP/1.1\r\nHost: 127.0.0.1:{running.port}\r\n"
        link.sendall(f"{head}Content-Length: 1000000\r\n\r\n".encode())
        assert b"200 OK" in link.recv(65536)
        assert closed_after(link, 60) < 40


def test_a_flood_of_connections_does_not_crowd_out_the_page(running: Running) -> None:
    """Three hundred idle strangers: the page that looks stays, and another one gets in."""
    events = http.client.HTTPConnection("127.0.0.1", running.port, timeout=20)
    events.request("GET", f"{running.root}events")
    stream = events.getresponse()
    assert stream.readline().startswith(b"data: ")
    with ExitStack() as stack:
        for _ in range(300):
            link = socket.create_connection(("127.0.0.1", running.port), timeout=20)
            stack.enter_context(link)
        assert running.get()[0] == 200
        held = Path(f"/proc/{running.process.pid}/fd")
        assert len(list(held.iterdir())) < connections.MOST + 60
        before = running.state()["version"]
        running.save("first gauge", "second gauge" if before % 2 else "only gauge")
        while True:  # what looked before the flood is still told
            line = stream.readline()
            assert line
            if b"second gauge" in line or b"only gauge" in line:
                break
    events.close()
    running.path.write_text(LESSON, "utf-8")


def test_a_long_header_is_refused(running: Running) -> None:
    assert running.ask("GET", running.root, X="a" * 30_000)[0] == 200
    with socket.create_connection(("127.0.0.1", running.port)) as link:
        link.sendall(b"GET / HTTP/1.1\r\nX: ")
        assert pour(link, b"a" * 65_536, 2000)
    assert running.get()[0] == 200
