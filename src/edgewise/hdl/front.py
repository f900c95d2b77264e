"""The part that runs in a process of its own: from HDL text to a netlist of cells.

It is started by `edgewise.hdl.elaboration` as a script, in a folder that holds nothing but the
text, and imports nothing of edgewise. It reads ``job.json`` and leaves ``found.json``, ``log.txt``
(what the reader said) and ``cells.json``, the netlist.
"""

from __future__ import annotations

import ctypes
import json
import re
import resource
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

_END_WITH_PARENT = 1
"""PR_SET_PDEATHSIG of Linux, prctl(2)."""
_MADE = "made.v"
"""What a VHDL description becomes on its way."""
_WORDS = ("$add", "$sub", "$mux", "$and", "$or", "$xor", "$xnor", "$not", "$eq", "$ne")
_KEPT = (*_WORDS, "$reduce_*", "$logic_*", "$pos", "$buf", "$*ff*", "$*latch*", "$*sr", "$tribuf")
_PASSES = (
    "hierarchy -auto-top",
    "write_json before.json",
    "flatten",
    "opt -keepdc",
    "memory",
    "wreduce -keepdc",
    "opt -keepdc",
    "pmuxtree",
    f"techmap * {' '.join(f't:{kept} %d' for kept in _KEPT)}",
    f"techmap * {' '.join(f't:{kept} %d' for kept in _KEPT)}",
    "opt -keepdc",
    "write_json cells.json",
)


def limited(job: dict[str, Any]) -> None:
    """Set the limits of this process and of those that it starts."""
    for what, most in (
        (resource.RLIMIT_CPU, job["seconds"]),
        (resource.RLIMIT_AS, job["memory"]),
        (resource.RLIMIT_FSIZE, job["file"]),
        (resource.RLIMIT_CORE, 0),
    ):
        hard = resource.getrlimit(what)[1]
        least = most if hard == resource.RLIM_INFINITY else min(most, hard)
        resource.setrlimit(what, (least, least))
    if sys.platform == "linux":  # end with the process that waits for the answer
        ctypes.CDLL(None).prctl(_END_WITH_PARENT, signal.SIGKILL)


# ---------------------------------------------------------------- what the text says


class Text:
    """The syntax tree of a Verilog or SystemVerilog text."""

    def __init__(self, file: str) -> None:
        from pyslang import syntax

        self.tree = syntax.SyntaxTree.fromFile(file)

    def nodes(self, node: Any = None) -> Iterator[Any]:
        """All nodes from one on, in text order."""
        waiting = [self.tree.root if node is None else node]
        while waiting:
            one = waiting.pop()
            yield one
            if hasattr(one, "kind") and hasattr(one, "__iter__"):
                waiting += reversed([child for child in one if child is not None])

    def line(self, node: Any) -> int:
        """The line in which a node begins."""
        return int(self.tree.sourceManager.getLineNumber(node.sourceRange.start))

    def kinds(self, kind: str, node: Any = None) -> Iterator[Any]:
        """The nodes of a kind."""
        return (one for one in self.nodes(node) if _kind(one) == kind)

    def modules(self) -> dict[str, dict[str, Any]]:
        """Each module with its line, whether it has ports, and the modules that it uses."""
        found = {}
        for module in self.kinds("ModuleDeclaration"):
            header = module.header
            used = [str(one.type).strip() for one in self.kinds("HierarchyInstantiation", module)]
            ports = re.sub(r"[\s()]|//.*|/\*.*?\*/", "", str(header.ports or ""))
            found[header.name.valueText] = {
                "line": self.line(header.name) if hasattr(header.name, "sourceRange") else 0,
                "ports": bool(ports),
                "uses": used,
            }
        return found

    def broken(self) -> str:
        """What is wrong with its syntax, in the lines of the log."""
        from pyslang import DiagnosticEngine

        told = DiagnosticEngine.reportAll(self.tree.sourceManager, self.tree.diagnostics)
        found = re.findall(r"(?m)^([^\s:]+):(\d+):\d+: error: (.*)$", str(told))
        return "".join(f"{file}:{line}: ERROR: {text}\n" for file, line, text in found[:8])

    def remarks(self) -> Iterator[dict[str, Any]]:
        """What an examiner looks for and the text alone tells."""
        for block in self.nodes():
            if not _kind(block).startswith("Always"):
                continue
            event = next(self.kinds("EventControlWithExpression", block), None)
            listed = str(event) if event is not None else ""
            if re.search(r"\b(pos|neg)edge\b", listed):
                yield from self._blocking(block)
            elif event is not None:
                yield from self._sensitivity(block, event)

    def _blocking(self, block: Any) -> Iterator[dict[str, Any]]:
        own = {
            one.name.valueText
            for declared in self.kinds("DataDeclaration", block)
            for one in self.kinds("Declarator", declared)
        }
        for statement in self.kinds("ExpressionStatement", block):
            for one in self.kinds("AssignmentExpression", statement):
                name = re.match(r"\s*(\w+)", str(one.left))
                if name and name[1] not in own:
                    yield {"what": "blocking", "line": self.line(one), "name": name[1]}

    def _sensitivity(self, block: Any, event: Any) -> Iterator[dict[str, Any]]:
        listed = set(re.findall(r"[A-Za-z_]\w*", str(event)))
        body = block.statement.statement
        assigned = {
            found[1]
            for kind in ("AssignmentExpression", "NonblockingAssignmentExpression")
            for one in self.kinds(kind, body)
            if (found := re.match(r"\s*(\w+)", str(one.left)))
        }
        read = dict.fromkeys(one.identifier.valueText for one in self.kinds("IdentifierName", body))
        read |= dict.fromkeys(
            one.identifier.valueText for one in self.kinds("IdentifierSelectName", body)
        )
        signals = self._signals()
        missing = [n for n in read if n in signals and n not in listed and n not in assigned]
        if missing:
            yield {"what": "sensitivity", "line": self.line(event), "name": ", ".join(missing)}

    def _signals(self) -> set[str]:
        names = set()
        for kind in ("DataDeclaration", "NetDeclaration", "PortDeclaration"):
            for declared in self.kinds(kind):
                names |= {one.name.valueText for one in self.kinds("Declarator", declared)}
        for port in self.kinds("ImplicitAnsiPort"):
            names.add(port.declarator.name.valueText)
        return names


def _kind(node: Any) -> str:
    return str(getattr(node, "kind", "")).rpartition(".")[2]


# ---------------------------------------------------------------- VHDL


class Vhdl:
    """A VHDL text, as far as its own words tell something."""

    def __init__(self, file: str) -> None:
        text = Path(file).read_text("utf-8")
        self.text = re.sub(r"--[^\n]*", lambda found: " " * len(found[0]), text)

    def line(self, at: int) -> int:
        """The line of a position."""
        return self.text.count("\n", 0, at) + 1

    def modules(self) -> dict[str, dict[str, Any]]:
        """Each entity with its line, whether it has ports, and the entities that it uses."""
        found: dict[str, dict[str, Any]] = {}
        for one in re.finditer(r"(?is)\bentity\s+(\w+)\s+is\b(.*?)\bend\b", self.text):
            ports = re.search(r"(?i)\bport\s*\(", one[2]) is not None
            found[one[1].lower()] = {"line": self.line(one.start()), "ports": ports, "uses": []}
        whole = re.finditer(r"(?is)\barchitecture\s+\w+\s+of\s+(\w+)\s+is\b", self.text)
        starts = [(one[1].lower(), one.end()) for one in whole]
        ends = [at for _, at in starts[1:]] + [len(self.text)]
        for (name, at), end in zip(starts, ends, strict=False):
            used = re.findall(
                r"(?i):\s*(?:entity\s+)?(?:\w+\.)?(\w+)[\s(\w)]*?\b(?:port|generic)"
                r"\s+map\b",
                self.text[at:end],
            )
            if name in found:
                found[name]["uses"] += [one.lower() for one in used]
        return found

    def ports(self, top: str) -> dict[str, list[int]]:
        """Line and column of each port of an entity, by its name in small letters."""
        entity = re.search(rf"(?is)\bentity\s+{re.escape(top)}\s+is\b(.*?)\bend\b", self.text)
        opened = entity and re.search(r"(?i)\bport\s*\(", entity[1])
        if not entity or not opened:
            return {}
        start = entity.start(1) + opened.end()
        found: dict[str, list[int]] = {}
        for one in re.finditer(r"(\w+)(?=[\w\s,]*:)", self.text[start : entity.end()]):
            at = start + one.start()
            column = at - self.text.rfind("\n", 0, at)
            found.setdefault(one[1].lower(), [self.line(at), column])
        return found

    def names(self) -> dict[str, str]:
        """Names as they were first written, by their small letters, which is what comes back."""
        written: dict[str, str] = {}
        signals = re.findall(r"(?i)\bsignal\s+([\w\s,]+?):", self.text)
        for word in re.findall(r"[A-Za-z]\w*", f"{' '.join(signals)} {self.text}"):
            written.setdefault(word.lower(), word)
        return {low: word for low, word in written.items() if low != word}

    def remarks(self) -> Iterator[dict[str, Any]]:
        """Signals that a process reads and its sensitivity list leaves out."""
        names = r"(?i)\bsignal\s+([\w\s,]+?):|\b([\w\s,]+?):\s*(?:in|out|buffer|inout)\b"
        signals = {
            word.lower()
            for one in re.finditer(names, self.text)
            for word in re.findall(r"\w+", one[1] or one[2])
        }
        process = r"(?is)\bprocess\s*\(([^)]*)\)(.*?)\bend\s+process\b"
        for one in re.finditer(process, self.text):
            listed = {word.lower() for word in re.findall(r"\w+", one[1])}
            if "all" in listed:
                continue
            clocks = re.findall(
                r"(?i)\b(?:rising|falling)_edge\s*\(\s*(\w+)\s*\)|(\w+)'event", one[2]
            )
            if clocks:
                read = {(a or b).lower() for a, b in clocks}
            else:
                body = re.sub(r"(?i)(?:^|(?<=[;\s]))[\w()\s]+?<=(?=[^;]*;)", " ", one[2])
                read = {word.lower() for word in re.findall(r"\w+", body)}
            missing = sorted((read & signals) - listed)
            if missing:
                at = self.line(one.start())
                yield {"what": "sensitivity", "line": at, "name": ", ".join(missing)}


def made_of_vhdl(job: dict[str, Any], top: str) -> list[list[int]]:
    """Make Verilog of a VHDL entity; the line in the VHDL text for each line of it."""
    command = ["ghdl", "--synth", "--std=08", "--out=verilog", *job["files"], "-e", top]
    done = subprocess.run(command, capture_output=True, text=True, check=False)  # noqa: S603
    Path("log.txt").write_text(done.stderr, "utf-8")
    if done.returncode or not done.stdout.strip():
        raise SystemExit(1)
    lines: list[str] = []
    places: list[list[int]] = []
    place = [0, 0]
    for line in _mended(done.stdout).splitlines():
        if at := re.match(r"\s*/\* \S*?:(\d+):(\d+)\s+\*/", line):
            place = [int(at[1]), int(at[2])]
        lines.append(line)
        places.append(place)
    Path(_MADE).write_text("\n".join(lines) + "\n", "utf-8")
    return places


def undriven(places: list[list[int]]) -> Iterator[dict[str, Any]]:
    """Signals of a VHDL text that nothing drives, or that are kept where they are not assigned."""
    lines = Path(_MADE).read_text("utf-8").splitlines()
    for line, (at, _) in zip(lines, places, strict=True):
        if found := re.match(r"  assign (\w+) = \d+'b[XZ]+; // \(signal\)", line):
            yield {"what": "undriven", "line": at, "name": found[1]}


def _mended(text: str) -> str:
    """Without initial values of what is no register, and each net declared once in its module."""
    text = re.sub(r"(; // \(isignal\)\n)  initial\n    [^;\n]*;\n", r"\1\n\n", text)
    text = re.sub(r"(  initial\n    \S+) <= ", r"\1 = ", text)
    modules = [_with_constants(module) for module in re.split(r"(?m)^(?=module )", text)]
    for number, module in enumerate(modules):
        seen: set[str] = set()
        kept = []
        for line in module.splitlines(keepends=True):
            declared = re.match(r"  wire (?:\[[^\]]*\] )?(\S+);", line)
            if declared and declared[1] in seen:
                kept.append("\n")  # a line stays a line: places are told by their numbers
                same = f"  assign {declared[1]} = {declared[1]}; // (signal)\n"
                if same not in module:
                    Path("log.txt").write_text(f"ALIKE: {declared[1]}\n", "utf-8")
                    raise SystemExit(1)
                continue
            if declared:
                seen.add(declared[1])
            kept.append(line)
        whole = "".join(kept)
        modules[number] = re.sub(r"  assign (\S+) = \1; // \(signal\)\n", "\n", whole)
    return "".join(modules)


def _with_constants(module: str) -> str:
    """A module whose initial values are constants themselves, not nets that hold them."""
    constants = set(re.findall(r"(?m)^  localparam (?:\[[^\]]*\] )?(\w+) =", module))
    copies = re.findall(r"(?m)^  assign (\w+) = ((\w+)\[[\d:]+\]);$", module)
    values = {name: value for name, value, of in copies if of in constants}
    start = re.compile(r"(  initial\n    \S+ = )(\w+);")
    return start.sub(lambda found: f"{found[1]}{values.get(found[2], found[2])};", module)


# ---------------------------------------------------------------- from text to cells


def chosen(modules: dict[str, dict[str, Any]], wanted: str, near: str) -> tuple[str, list[str]]:
    """The outermost module, or "" and those that it may be."""
    if wanted:
        return (wanted, []) if wanted in modules else ("", list(modules))
    benches = {name for name, one in modules.items() if not one["ports"]}
    used = {u for name, one in modules.items() if name not in benches for u in one["uses"]}
    tops = [name for name in modules if name not in benches and name not in used]
    same = [name for name in tops if name.lower() == near.lower()]
    if same or len(tops) == 1:
        return (same or tops)[0], []
    return "", tops or list(modules)


def main() -> None:
    """Do the job in this folder."""
    job = json.loads(Path("job.json").read_text("utf-8"))
    limited(job)
    text: Text | Vhdl = Vhdl(job["files"][0]) if job["vhdl"] else Text(job["files"][0])
    modules = text.modules()
    top, among = chosen(modules, job["top"], job["near"])
    found: dict[str, Any] = {"top": top, "among": among, "places": [], "remarks": []}
    Path("found.json").write_text(json.dumps(found), "utf-8")
    if not top:
        if isinstance(text, Text):
            Path("log.txt").write_text(text.broken(), "utf-8")
        return
    found["remarks"] = list(text.remarks())
    Path("found.json").write_text(json.dumps(found), "utf-8")
    files = job["files"][:1]
    if job["vhdl"]:
        assert isinstance(text, Vhdl)
        found["names"], found["ports"] = text.names(), text.ports(top)
        found["places"], files = made_of_vhdl(job, top), [_MADE]
        found["remarks"] += undriven(found["places"])
        Path("found.json").write_text(json.dumps(found), "utf-8")
    from pyosys import libyosys

    design = libyosys.Design()
    options = "--std 1800-2017 -Wwidth-trunc -Wport-width-trunc --ignore-timing --ignore-assertions"
    first = f"read_slang {options} --top {top} {' '.join(files)}"
    for number, command in enumerate((first, *_PASSES)):
        log = "log.txt" if not number else "passes.txt"
        libyosys.run_pass(f"tee -q -a {log} {command}", design)


if __name__ == "__main__":
    sys.setrecursionlimit(5000)
    main()
