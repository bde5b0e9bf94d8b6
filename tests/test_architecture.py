"""Which module may import which: the arrows of the house, decided here first.

Imports for annotations only (`if TYPE_CHECKING:`) bind nobody at run time and are left aside, but for the
one rule that has no exception: `graph` knows nothing of `assistant`.
"""

import ast
import subprocess
import sys
from functools import cache
from pathlib import Path

import networkx as nx
import pytest

ROOT = Path(__file__).parents[1]

# What thinks, in its own order: a module imports only modules that stand here too.
THINKING = (
    "graph.errors",
    "graph.arrays",
    "graph.units",
    "graph.reading",
    "graph.machine",
    "graph.service",
    "graph.tables",
    "graph.likelihood",
    "graph.prior",
    "graph.weigh",
    "graph.evidence",
    "graph.belief",
    "graph.plan",
    "graph.pair_gain",
    "graph.sparse_gain",
    "graph.gain",
    "graph.search",
    "graph.repair",
    "graph.choose",
    "graph.candidates",
    "graph.elements",
    "graph.findings",
    "graph.case",
    "graph.measure",
    "graph.store",
    "graph",
)
HEAVY = frozenset({"pydantic", "pydantic_core", "networkx", "yaml", "rapidfuzz"})
RIM = frozenset({"click", "prompt_toolkit", "rich", "platformdirs", "jinja2"})  # keyboard, screen, files
CLOCK_AND_CHANCE = frozenset(
    {"time", "datetime", "random", "secrets", "os", "sys", "pathlib", "io", "tempfile"}
)


@cache
def modules():
    """Return the file of every module of both packages by its name."""
    files = [*(ROOT / "graph").rglob("*.py"), *(ROOT / "assistant").rglob("*.py")]
    named = {}
    for file in sorted(files):
        parts = file.relative_to(ROOT).with_suffix("").parts
        named[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = file
    return named


def physics():
    return tuple(name for name in modules() if name.startswith("graph.physics"))


def _for_types_only(node):
    return isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"


def _statements(node, *, types, inside):
    """Yield import statements below `node`; those within functions only if `inside`."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.Import | ast.ImportFrom):
            yield child
        elif _for_types_only(child) and not types:
            yield from _statements(ast.Module(child.orelse, []), types=types, inside=inside)
        elif inside or not isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef):
            yield from _statements(child, types=types, inside=inside)


@cache
def imports(name, *, types=False, inside=True):
    """Return the full names of what a module imports."""
    tree = ast.parse(modules()[name].read_text(encoding="utf-8"))
    found = set()
    for statement in _statements(tree, types=types, inside=inside):
        if isinstance(statement, ast.Import):
            found |= {alias.name for alias in statement.names}
            continue
        whole = {f"{statement.module}.{alias.name}" for alias in statement.names}
        found |= {full if full in modules() else str(statement.module) for full in whole}
    return frozenset(found)


def tops(names):
    return {name.partition(".")[0] for name in names}


def loaded_by(code):
    """Return the heavy modules that a fresh interpreter has loaded after `code`."""
    names = sorted(HEAVY | RIM)
    ask = f"{code}\nimport sys\nprint(*(name for name in {names} if name in sys.modules))"
    done = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True, cwd=ROOT)  # noqa: S603 - our own code
    return done.stdout.split()


def test_every_module_is_found():
    assert {"graph", "graph.belief", "assistant", "assistant.engine.step"} <= modules().keys()
    assert len(physics()) > 5


def test_imports_are_read_off_the_text():
    """The reader of imports itself: from, plain, within a function, and for types only."""
    assert "graph.arrays" in imports("graph.belief")
    assert "graph.tables" not in imports("graph.belief")
    assert "graph.tables" in imports("graph.belief", types=True)
    assert "rapidfuzz" in imports("graph.complaint")
    assert "rapidfuzz" not in imports("graph.complaint", inside=False)


@pytest.mark.parametrize("name", [name for name in modules() if tops([name]) == {"graph"}])
def test_graph_never_imports_assistant(name):
    assert "assistant" not in tops(imports(name, types=True))


@pytest.mark.parametrize("name", [*THINKING, *physics()])
def test_what_thinks_imports_neither_pydantic_nor_networkx_nor_yaml(name):
    assert not tops(imports(name)) & HEAVY


@pytest.mark.parametrize("name", [*THINKING, *physics()])
def test_what_thinks_imports_only_what_thinks(name):
    """So the chain is closed: nothing heavy comes in by a detour."""
    ours = {other for other in imports(name) if tops([other]) == {"graph"}}

    assert ours <= {*THINKING, *physics()}


@pytest.mark.parametrize("name", THINKING)
def test_what_thinks_points_to_what_stands_above_it(name):
    above = {*THINKING[: THINKING.index(name)], *physics()}

    assert {other for other in imports(name) if tops([other]) == {"graph"}} <= above


@pytest.mark.parametrize("name", [*THINKING, *physics()])
def test_what_thinks_touches_no_clock_no_chance_and_no_screen(name):
    allowed = {"graph.store": {"io"}}.get(name, set())

    assert not tops(imports(name)) & ((CLOCK_AND_CHANCE | RIM) - allowed)


@pytest.mark.parametrize("name", [name for name in modules() if name.startswith("assistant.engine")])
def test_the_engine_is_pure(name):
    assert not tops(imports(name)) & (CLOCK_AND_CHANCE | RIM | HEAVY)


@pytest.mark.parametrize("package", ["graph", "assistant"])
def test_no_two_modules_need_each_other(package):
    names = [name for name in modules() if tops([name]) == {package}]
    arrows = nx.DiGraph(
        (name, other) for name in names for other in imports(name, inside=False) if other in modules()
    )

    assert list(nx.simple_cycles(arrows)) == []


def test_importing_graph_loads_nothing_heavy():
    assert loaded_by("import graph") == []


def test_the_heavy_ones_would_be_noticed():
    """The probe itself: whoever loads the pack's own models loads pydantic."""
    assert "pydantic" in loaded_by("import graph.pack")
    assert "yaml" in loaded_by("import graph.yaml_text")
