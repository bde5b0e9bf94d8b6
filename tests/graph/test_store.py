"""The compiled form: what comes out is what went in, and foreign bytes are refused."""

import dataclasses
import io
import json
import subprocess
import sys
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import sample_case, tables

from graph.case import Case
from graph.machine import Machine
from graph.store import FORMAT, decode, dump, encode, load
from graph.tables import Tables


@cache
def packed():
    case = sample_case()
    return dump(case.machine, case.tables)


def archive(**arrays):
    buffer = io.BytesIO()
    np.savez(buffer, **arrays)
    return buffer.getvalue()


def words(value):
    return np.frombuffer(json.dumps(value).encode(), dtype=np.uint8)


def same_numbers(first, second):
    return all(
        np.array_equal(a, b, equal_nan=True) and np.asarray(a).dtype == np.asarray(b).dtype
        for a, b in (
            (np.asarray(getattr(first, field.name)), np.asarray(getattr(second, field.name)))
            for field in dataclasses.fields(Tables)
        )
    )


def test_a_machine_and_its_tables_come_back_as_they_were():
    case = sample_case()

    machine, numbers = load(packed())

    assert machine == case.machine
    assert same_numbers(numbers, case.tables)


@given(tables())
@settings(max_examples=30, deadline=None)
def test_any_tables_come_back_as_they_were(of):
    assert same_numbers(load(dump(sample_case().machine, of))[1], of)


def test_a_case_from_the_store_believes_and_ranks_the_same():
    case = sample_case()
    again = Case(*load(packed()))
    findings = (case.answer("gas_supply.flat_drinks", "present", "operator"),)
    names = [check.id for check in case.machine.checks]

    assert again.believe(findings) == case.believe(findings)
    assert again.rank(findings, names, role="operator") == case.rank(findings, names, role="operator")


def test_arrays_from_the_store_are_read_only():
    _, numbers = load(packed())

    with pytest.raises(ValueError, match="read-only"):
        numbers.odds[0] = 1.0


def test_the_same_machine_is_the_same_words():
    machine = sample_case().machine

    assert json.dumps(encode(decode(Machine, json.loads(json.dumps(encode(machine)))))) == json.dumps(
        encode(machine)
    )


FOREIGN = {
    "nothing": b"",
    "no archive": b"this is no archive at all",
    "broken off": packed()[:-200],
    "broken in the middle": packed()[:500] + b"\0" * 64 + packed()[564:],
    "head of an archive only": b"PK\x03\x04" + bytes(60),
    "another archive": archive(x=np.zeros(3)),
    "another format": archive(words=words({"format": FORMAT + 1, "machine": []})),
    "words that are no mapping": archive(words=words([1, 2])),
    "words that are not UTF-8": archive(words=np.array([255, 254, 0], dtype=np.uint8)),
    "objects": archive(words=np.array([{"a": 1}], dtype=object)),
}


@pytest.mark.parametrize("data", FOREIGN.values(), ids=FOREIGN.keys())
def test_bytes_that_are_not_ours_are_refused(data):
    """A cache folder is not ours alone: whatever lies there must not end in a traceback."""
    with pytest.raises((ValueError, KeyError)):
        load(data)


@given(st.integers(0, 10_000), st.binary(min_size=1, max_size=8))
@settings(max_examples=60, deadline=None)
def test_a_damaged_archive_is_refused_or_read_whole(place, noise):
    data = packed()
    at = place % len(data)
    damaged = data[:at] + noise + data[at + len(noise) :]

    try:
        machine, _ = load(damaged)
    except (ValueError, KeyError):
        return

    assert machine == sample_case().machine


def test_objects_are_never_unpickled():
    class Trap:
        def __reduce__(self):
            return (sys.exit, (3,))

    trap = archive(words=np.array([Trap()], dtype=object))

    with pytest.raises(ValueError, match="allow_pickle"):
        load(trap)


def test_reading_the_store_needs_neither_pydantic_nor_yaml_nor_networkx(tmp_path):
    path = tmp_path / "machine.npz"
    path.write_bytes(packed())
    code = (
        "import pathlib, sys\n"
        "from graph.case import Case\n"
        "from graph.store import load\n"
        f"case = Case(*load(pathlib.Path({str(path)!r}).read_bytes()))\n"
        "case.decide((), [c.id for c in case.machine.checks], role='technician')\n"
        "print([name for name in ('pydantic', 'yaml', 'networkx') if name in sys.modules])"
    )

    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)  # noqa: S603 - our own code

    assert done.stdout.strip() == "[]"
