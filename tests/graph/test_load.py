"""Loading a pack: a sound one becomes `Knowledge`, anything else every problem at once, with its place."""

import json
import shutil
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample_packs import BAD_STEMS, GOOD, bad_bytes, bad_problems

from graph.errors import PackInvalid, PackMissing
from graph.load import digest, find_pack, load_pack, load_texts, marks, read_folder, shipped
from graph.pack import Knowledge
from graph.yaml_text import dotted, read

FILES = read_folder(GOOD)


def problems_of(files):
    with pytest.raises(PackInvalid) as caught:
        load_texts(files)
    return [str(problem) for problem in caught.value.problems]


def test_the_good_pack_says_what_its_files_say():
    knowledge = load_pack(GOOD)

    assert knowledge.pack.version == "1.10"
    assert knowledge.pack.belief.multiple_share == 0.1
    assert knowledge.pack.lexicon["no"] == ("no", "nope")
    assert list(knowledge.pack.switches["season"].values) == ["off", "on"]
    assert knowledge.profiles["two_barrel"].switches == {"season": "off"}
    assert list(knowledge.checks["gas_supply.cylinder_valve"].outcomes) == ["yes", "no"]
    assert knowledge.checks["gas_supply.reading"].outcomes["high"].band == (72, None)
    assert knowledge.symptoms["gas_supply.flat_drinks"].say == ("flat", "no fizz", "no: bubbles")
    assert knowledge.faults["sensors.sensor.dead_low"].rate == {"gas_supply": 2, "barrel": 1.5}


def test_what_names_no_source_rests_on_its_chapters_and_what_names_one_on_its_own():
    name = next(name for name in FILES if "\nfaults:" in FILES[name])
    before = load_texts(FILES)
    text = FILES[name].replace(
        "title:", "rests_on: {faults: common_practice, checks: common_practice}\ntitle:", 1
    )
    after = load_texts(FILES | {name: text})
    chapter = name.removesuffix(".yaml")
    own = {fault for fault, one in before.faults.items() if "source" in one.model_fields_set}

    for fault, one in after.faults.items():
        chapters = before.chapter_of[fault] == chapter and fault not in own
        assert one.source == ("common_practice" if chapters else before.faults[fault].source)
    assert after.symptoms == before.symptoms


def test_chapters_are_merged_in_order_of_file_name():
    knowledge = load_pack(str(GOOD))

    assert list(knowledge.checks) == [
        "gas_supply.cylinder_valve",
        "gas_supply.reading",
        "safety.room",
        "sensors.swap",
    ]
    assert knowledge.chapter_of["safety.room"] == "safety"
    assert set(knowledge.chapter_of.values()) == {"gas_supply", "safety", "sensors"}
    assert load_texts(dict(reversed(FILES.items()))) == knowledge


@pytest.mark.parametrize("stem", BAD_STEMS)
def test_a_bad_file_is_told_as_its_expected_file_says(stem, tmp_path):
    for name, content in bad_bytes(stem).items():
        (tmp_path / name).write_bytes(content)

    with pytest.raises(PackInvalid) as caught:
        load_pack(tmp_path)

    assert f"{caught.value}\n" == bad_problems(stem)


def test_every_problem_of_every_file_is_told_at_once():
    files = dict(FILES)
    files["pack.yaml"] = files["pack.yaml"].replace("title: Sample", "titel: Sample")
    files["gas_supply.yaml"] = (
        files["gas_supply.yaml"].replace("rate: 57", "rate: lots").replace("minutes: 15", "minutes: 0")
    )
    files["sensors.yaml"] = files["sensors.yaml"].replace("title: Sensors", 'title: "Sensors')
    files["taps.yaml"] = "title: Taps\nfaults:\n  gas_supply.cylinder.empty: {rate: 012}\n"

    told = problems_of(files)
    places = [line.partition(":")[0] + ":" + line.split(":")[1].split()[0] for line in told]

    assert places == [
        "gas_supply.yaml:17",
        "gas_supply.yaml:87",
        "pack.yaml:3",
        "sensors.yaml:1",
        *["taps.yaml:3"] * 6,
    ]
    assert 'Did you mean "title"?' in told[2]
    assert "gas_supply.yaml:13, under faults" in told[4]


def test_a_field_that_is_misspelt_is_not_also_told_as_missing():
    chapter = "title: x\ncautions:\n  caution.x:\n    titel: x\n    do: x\n    whoo: x\n"

    told = problems_of({**FILES, "x.yaml": chapter})

    assert told == [
        'x.yaml:4  cautions.caution.x.titel: there is no such field here. Did you mean "title"?',
        'x.yaml:6  cautions.caution.x.whoo: there is no such field here. Did you mean "who"?',
    ]


def test_an_empty_folder_is_told_what_a_pack_needs(tmp_path):
    with pytest.raises(PackInvalid) as caught:
        load_pack(tmp_path)

    assert str(caught.value).splitlines() == [
        "*.yaml:1  whole file: the pack folder has no chapter. Add one, such as gas.yaml.",
        "pack.yaml:1  whole file: is missing from the pack folder. Add it; it holds what holds for all chapters.",
        "profiles.yaml:1  whole file: is missing from the pack folder. Add it; it holds the kinds of machine.",
    ]


def test_a_file_that_would_be_passed_over_by_its_name_is_told():
    told = problems_of({**FILES, "taps.yml": "title: Taps\n"})

    assert told == [
        "taps.yml:1  whole file: is not read: the names of a pack's files end in .yaml. Rename it."
    ]


def test_only_the_yaml_files_of_a_folder_are_read_and_editors_files_are_not(tmp_path):
    shutil.copytree(GOOD, tmp_path, dirs_exist_ok=True)
    for name in (".#pack.yaml", "._gas_supply.yaml", "notes.txt"):
        (tmp_path / name).write_bytes(b"\xff\x00")

    assert read_folder(tmp_path) == FILES


def test_something_that_cannot_be_read_as_a_file_is_told(tmp_path):
    (tmp_path / "pack.yaml").mkdir()

    with pytest.raises(PackInvalid, match=r"pack\.yaml:1  whole file: cannot be read \("):
        read_folder(tmp_path)


@pytest.mark.parametrize("name", ["frozen_drink", "no/such/folder", "", "\0", str(GOOD / "pack.yaml")])
def test_a_pack_that_is_not_there_is_told_in_one_sentence(name):
    with pytest.raises(PackMissing, match="There is no pack folder"):
        load_pack(name)


def test_a_folder_that_is_not_there_is_told_in_one_sentence(tmp_path):
    with pytest.raises(PackMissing, match=r"There is no folder .*Give the folder that holds pack\.yaml"):
        read_folder(tmp_path / "gone")


def test_a_shipped_pack_goes_by_its_name_and_a_folder_by_its_path(tmp_path, monkeypatch):
    (tmp_path / "frozen_drinks").mkdir()
    monkeypatch.chdir(tmp_path)

    assert str(find_pack("frozen_drinks")) == str(shipped())
    assert find_pack("./frozen_drinks") == Path("frozen_drinks")
    with pytest.raises(PackMissing, match='Did you mean "frozen_drinks"'):
        find_pack("frozen_drink")


def test_the_digest_is_the_same_on_every_system(tmp_path):
    for name, text in FILES.items():
        (tmp_path / name).write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    windows = read_folder(tmp_path)

    assert windows != FILES
    assert digest(windows) == digest(FILES) == digest(dict(reversed(FILES.items())))
    assert load_texts(windows) == load_texts(FILES)


def test_the_digest_is_sha_256_in_hexadecimal():
    """FIPS 180-4 (2015): the digest of the empty message."""
    assert digest({}) == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"


@given(st.dictionaries(st.text(), st.text(), max_size=3), st.dictionaries(st.text(), st.text(), max_size=3))
def test_two_packs_share_a_digest_only_if_they_say_the_same(one, other):
    def said(files):
        return {
            name: text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
            for name, text in files.items()
        }

    assert (digest(one) == digest(other)) == (said(one) == said(other))


def test_a_letter_moved_from_one_file_into_the_next_changes_the_digest():
    assert digest({"a": "xy", "b": "z"}) != digest({"a": "x", "b": "yz"})
    assert digest({"a": "xb"}) != digest({"ax": "b"})


def test_marks_give_a_later_problem_the_place_of_what_it_is_about():
    problem = marks(FILES).problem(
        ("events", "gas_supply.shut_and_empty", "of", 1), "is no fault.", "Write another."
    )
    absent = marks(FILES).problem(("checks", "safety.room", "rows"), "has none.")
    head = marks(FILES).problem(("safety", 0), "is no check.")

    assert (
        str(problem)
        == "gas_supply.yaml:34  events.gas_supply.shut_and_empty.of[1]: is no fault. Write another."
    )
    assert str(absent) == "safety.yaml:3  checks.safety.room.rows: has none."
    assert (head.file, head.line) == (
        "pack.yaml",
        FILES["pack.yaml"].split("\n").index("safety: [safety.room]") + 1,
    )


def found_in(files):
    """Return the problems of these files, none if they load; any other error fails the test that asks."""
    try:
        knowledge = load_texts(files)
    except PackInvalid as refused:
        assert refused.problems  # noqa: PT017 -- either way out is sound, and both are looked at
        return refused.problems
    assert isinstance(knowledge, Knowledge)
    return ()


def loads_or_is_refused(files):
    return all(str(problem).isprintable() and problem.line >= 1 for problem in found_in(files))


@given(st.sampled_from(sorted(FILES)), st.text())
def test_any_text_for_a_file_loads_or_is_refused(name, text):
    assert loads_or_is_refused({**FILES, name: text})


@given(st.binary())
def test_any_bytes_for_a_file_load_or_are_refused(content):
    text = content.decode("utf-8-sig", "surrogateescape")

    assert loads_or_is_refused({**FILES, "x.yaml": text})


@given(st.data())
def test_a_good_file_with_something_struck_out_or_put_in_loads_or_is_refused(data):
    name = data.draw(st.sampled_from(sorted(FILES)))
    text = FILES[name]
    start = data.draw(st.integers(0, len(text)))
    end = data.draw(st.integers(start, min(len(text), start + 40)))
    put_in = data.draw(
        st.sampled_from(["", " ", "\n", ": ", "- ", "[", "{a: 1}", "null", "12", '"', "\n  x: y\n", "*a"])
    )

    assert loads_or_is_refused({**FILES, name: text[:start] + put_in + text[end:]})


scraps = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-9, 9)
    | st.floats(-1, 2)
    | st.sampled_from(["", "text", "an.id", "operator"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["title", "a.b", "Bad Id", "operator", "of", "x"]), inner, max_size=3
        )
    ),
    max_leaves=6,
)


@given(st.data())
def test_a_good_file_with_any_value_in_any_place_loads_or_is_refused_there(data):
    """Replaces one value of one file by another and writes the file anew, as JSON, which YAML reads."""
    name = data.draw(st.sampled_from(sorted(FILES)))
    document = read(name, FILES[name])
    trail = data.draw(st.sampled_from(sorted(document.lines, key=str)))
    value = json.loads(json.dumps(document.value))
    holder = value
    for step in trail[:-1]:
        holder = holder[step]
    holder[trail[-1]] = data.draw(scraps)
    files = {**FILES, name: json.dumps(value, indent=1)}

    problems = found_in(files)
    elsewhere = [problem for problem in problems if not problem.path.startswith(dotted(trail))]

    assert all("stands already" in problem.what for problem in elsewhere)
