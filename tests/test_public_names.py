"""What the packages say is theirs to use: `__all__` is complete, sorted and true."""

import ast
from pathlib import Path

import pytest

import graph

TEXT = ast.parse(Path(graph.__file__).read_text(encoding="utf-8"))


def imported():
    """Return the names that the package takes from its modules."""
    return {
        alias.asname or alias.name
        for node in TEXT.body
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
    }


def test_public_names_are_sorted():
    assert list(graph.__all__) == sorted(graph.__all__)


def test_public_names_are_there_once_each():
    assert len(set(graph.__all__)) == len(graph.__all__)


def test_everything_the_package_takes_from_its_modules_is_public():
    assert imported() == set(graph.__all__)


@pytest.mark.parametrize("name", graph.__all__)
def test_a_public_name_is_there_and_says_what_it_is(name):
    assert getattr(graph, name).__doc__


def test_every_error_is_public():
    from graph import errors  # noqa: PLC0415 - only here

    ours = {
        name
        for name, value in vars(errors).items()
        if isinstance(value, type) and issubclass(value, Exception)
    }

    assert ours <= set(graph.__all__)


def test_the_legend_explains_the_words_of_the_public_names():
    for word in ("check", "finding", "belief", "case", "pack", "gain"):
        assert f"* {word} " in graph.__doc__
