"""The YAML reader: what an unquoted word means, where it stands, and what is refused."""

import json

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from graph.yaml_text import DEEPEST, dotted, read, visible

PARSERS = [yaml.SafeLoader, *([yaml.CSafeLoader] if yaml.__with_libyaml__ else [])]

# What YAML 1.1 makes of these words (yaml.org, "Language-Independent Types for YAML Version 1.1", bool, int,
# float, null and timestamp, working drafts of 2005): False, 10, 750, 1000, inf, a date and so on.
TRAPS = [
    "yes",
    "no",
    "on",
    "off",
    "Yes",
    "NO",
    "y",
    "n",
    "True",
    "FALSE",
    "Null",
    "012",
    "-07",
    "0x1F",
    "0o17",
    "0b11",
    "1_000",
    "12:30",
    "12:30:00",
    "190:20:30.15",
    "2024-01-01",
    "2001-12-14t21:59:43.10-05:00",
    ".inf",
    "-.INF",
    ".nan",
    "1e999",
    "<<",
    "=",
]


@pytest.mark.parametrize("parser", PARSERS)
@pytest.mark.parametrize("word", TRAPS)
def test_a_word_of_yaml_1_1_stays_the_text_it_is(word, parser):
    as_value = read("a.yaml", f"key: {word}\n", parser)
    as_key = read("a.yaml", f"{word}: 1\n", parser)

    assert as_value.value == {"key": word}
    assert as_key.value == {word: 1}
    assert as_value.problems == as_key.problems == ()


@pytest.mark.parametrize(
    "word", ["yes", "no", "on", "off", "012", "12:30", "1_000", "0x1F", "2024-01-01", ".nan"]
)
def test_the_traps_are_traps_for_the_plain_loader(word):
    assert yaml.safe_load(f"key: {word}") != {"key": word}


@pytest.mark.parametrize("parser", PARSERS)
@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("null", None),
        ("~", None),
        ("", None),
        ("true", True),
        ("false", False),
        ("0", 0),
        ("12", 12),
        ("-3", -3),
        ("+3", 3),
        ("1.10", 1.1),
        (".9", 0.9),
        ("5.", 5.0),
        ("-0.5", -0.5),
        ("1e-3", 0.001),
        ("2.5E+2", 250.0),
        ('"12"', "12"),
        ("'true'", "true"),
        ('""', ""),
        ("|-\n  12", "12"),
    ],
)
def test_a_plain_number_word_or_quoted_text_means_itself(written, meant, parser):
    value = read("a.yaml", f"key: {written}\n", parser).value

    assert value == {"key": meant}
    assert type(value["key"]) is type(meant)


@pytest.mark.parametrize("digits", [16, 400, 5000])
def test_a_number_that_a_double_cannot_hold_exactly_stays_text(digits):
    value = read("a.yaml", "9" * digits).value

    assert value == "9" * digits


printable = st.text(
    st.characters(min_codepoint=0x20, max_codepoint=0xD7FF, exclude_characters="\x7f\x80\ufeff"), max_size=20
).filter(lambda text: not any(0x7F <= ord(char) < 0xA0 for char in text))
whole = st.integers(-(10**15) + 1, 10**15 - 1)
scalars = st.none() | st.booleans() | whole | st.floats(allow_nan=False, allow_infinity=False) | printable
values = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(printable, inner, max_size=4),
    max_leaves=20,
)


def frozen(value):
    if isinstance(value, list):
        return tuple(frozen(entry) for entry in value)
    return {key: frozen(entry) for key, entry in value.items()} if isinstance(value, dict) else value


@given(values, st.sampled_from(PARSERS))
def test_json_text_means_what_json_says(value, parser):
    """YAML 1.2.2 (2021), section 1.2: every JSON file is a YAML file."""
    text = json.dumps(value, ensure_ascii=False)

    assert read("a.yaml", text, parser).value == frozen(json.loads(text))


def nodes(node, trail=()):
    """Yield the trail and line of every key and entry below a node that PyYAML composed."""
    if isinstance(node, yaml.MappingNode):
        for key, content in node.value:
            yield (*trail, key.value), key.start_mark.line + 1
            yield from nodes(content, (*trail, key.value))
    elif isinstance(node, yaml.SequenceNode):
        for position, entry in enumerate(node.value):
            yield (*trail, position), entry.start_mark.line + 1
            yield from nodes(entry, (*trail, position))


@given(values, st.booleans())
def test_lines_are_those_that_the_composer_of_pyyaml_finds(value, flow):
    text = yaml.safe_dump(value, default_flow_style=flow, allow_unicode=True, width=30)
    document = read("a.yaml", text)
    lines = dict(nodes(yaml.compose(text, Loader=yaml.SafeLoader)))

    assert document.lines == lines


def test_the_line_of_what_is_not_there_is_that_of_what_would_hold_it():
    document = read("a.yaml", "one: 1\ntwo:\n  three: [a,\n    b]\n")

    assert document.line(("two", "three", 1)) == 4
    assert document.line(("two", "three", 7)) == 3
    assert document.line(("two", "four", "five")) == 2
    assert document.line(("six",)) == 1


def test_every_duplicate_anchor_alias_and_tag_is_told_at_its_line():
    text = "a: &x 1\nb: *x\na: 2\nc: !!float 3\nd: {e: 1, e: 2}\nf: [!local {g: 1}, 2]\n"

    found = [(problem.line, problem.path) for problem in read("a.yaml", text).problems]

    assert found == [(1, "a"), (2, "b"), (3, "a"), (4, "c"), (5, "d.e"), (6, "f[0]")]


def test_an_alias_bomb_is_refused_without_being_built():
    levels = ["l0: &l0 [x, x]"] + [f"l{n}: &l{n} [*l{n - 1}, *l{n - 1}]" for n in range(1, 60)]

    document = read("a.yaml", "\n".join(levels))

    assert len(document.problems) == 60
    assert document.value == {f"l{n}": None for n in range(60)}


@pytest.mark.parametrize("parser", PARSERS)
def test_brackets_within_brackets_end_in_a_problem_not_in_a_crash(parser):
    deep = 900  # libyaml itself gives up at 1000

    document = read("a.yaml", "a: " + "[" * deep + "]" * deep + "\nb: 1\nb: 2", parser)

    assert [problem.line for problem in document.problems] == [1, 3]
    assert f"more than {DEEPEST} levels deep" in document.problems[0].what


@pytest.mark.parametrize("parser", PARSERS)
@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("a: 1\nb: 'x\nc: 2\n", 2),
        ("a: 1\nb: [x, y\nc: 2\n", 2),
        ("a: 1\nb: x: y\n", 2),
        ("a: 1\n  b: 2\n", 2),
        ("a: 1\n- b\n", 2),
        ("a: 1\nb: @x\n", 2),
        ("a: 1\nb: %x\n", 2),
        ("a:\n\tb: 1\n", 2),
        ("a: 1\nb: *\n", 2),
    ],
)
def test_broken_syntax_is_told_in_plain_words_at_its_line(text, line, parser):
    document = read("a.yaml", text, parser)

    assert [problem.line for problem in document.problems] == [line]
    assert "this is not YAML" not in document.problems[0].what  # the fallback, for what we have no words for
    assert not document.complete


def test_bytes_that_are_no_utf_8_and_stray_characters_are_told_with_line_and_column():
    latin = read("a.yaml", b"a: 1\nb: caf\xe9\n".decode("utf-8", "surrogateescape"))
    bell = read("a.yaml", "a: 1\r\nb: x\x07\r\n")

    assert (
        str(latin.problems[0])
        == "a.yaml:2  whole file: byte 0xE9 in column 7 is not UTF-8. Save the file as UTF-8."
    )
    assert (
        str(bell.problems[0])
        == "a.yaml:2  whole file: the character U+0007 in column 5 may not stand in YAML. Delete it."
    )


def test_a_byte_order_mark_and_any_line_ends_are_read_alike():
    plain = read("a.yaml", "a: 1\nb: |\n  x\n  y\n")

    for text in ("\ufeffa: 1\nb: |\n  x\n  y\n", "a: 1\r\nb: |\r\n  x\r\n  y\r\n", "a: 1\rb: |\r  x\r  y\r"):
        assert read("a.yaml", text) == plain


def test_a_trail_reads_like_a_path_with_nothing_unprintable_in_it():
    assert (
        dotted(("checks", "gas.reading", "rows", 2, "x\x1b[31m")) == "checks.gas.reading.rows[2].x\\x1b[31m"
    )
    assert dotted(()) == "whole file"
    assert visible("Säule \u202e\udc80") == "Säule \\u202e\\udc80"


@given(st.text(), st.sampled_from(PARSERS))
def test_any_text_is_read_or_has_a_problem(text, parser):
    document = read("a.yaml", text, parser)

    assert document.complete or document.problems
    assert all(problem.line >= 1 for problem in document.problems)


@given(
    st.text(alphabet="ab: -[]{}'\"&*!|>#%@`\n\t,?~01.\\uxU\ufeff\x07", max_size=60), st.sampled_from(PARSERS)
)
def test_any_text_of_yaml_marks_is_read_or_has_a_problem(text, parser):
    document = read("a.yaml", text, parser)

    assert document.complete or document.problems
