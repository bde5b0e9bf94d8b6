"""The authors' commands: what they print, their JSON, their exit codes, and one sentence for each mistake."""

from __future__ import annotations

import io
import json
import re
from dataclasses import dataclass
from html.parser import HTMLParser

import numpy as np
import pytest
from casts import shipped_case
from sample_packs import GOOD
from scipy.stats import entropy

from assistant.cli import run
from assistant.pack_wording import dossier_text
from assistant.work_outs import value_of
from assistant.world import World
from graph.audit.view import view_machine
from graph.dossier import dossiers
from graph.dossier.find import find, names
from graph.dossier.lookalikes import look_alikes, weights_against
from graph.dossier.rows import speaking_row
from graph.load import load_pack
from graph.physics import WORKOUTS
from graph.provenance import sources


@dataclass(frozen=True)
class Called:
    code: int
    out: str
    err: str


class Keyboard(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self):
        return True


def call(*arguments, typed="", terminal=False):
    stream = Keyboard if terminal else io.StringIO
    out, err = stream(), io.StringIO()
    code = run(list(arguments), World({}, stream(typed), out, err))
    return Called(code, out.getvalue(), err.getvalue())


def fits(text, width=80):
    """Tell whether every line fits, single words that cannot be broken aside."""
    return all(len(line) <= width or " " not in line.strip() for line in text.splitlines())


@pytest.fixture
def broken(tmp_path):
    for file in GOOD.glob("*.yaml"):
        text = file.read_text(encoding="utf-8")
        (tmp_path / file.name).write_text(
            text.replace("remedy: sensors.change", "remedy: sensors.chance"), encoding="utf-8"
        )
    return str(tmp_path)


@pytest.fixture
def loose(tmp_path):
    """Return a pack with twelve events that nothing uses."""
    for file in GOOD.glob("*.yaml"):
        text = file.read_text(encoding="utf-8")
        if file.name == "gas_supply.yaml":
            unused = [
                f"  gas_supply.loose_{n}:\n    title: Loose {n}\n    of: [gas_supply.cylinder.empty]\n"
                for n in range(12)
            ]
            text = text.replace("events:\n", "".join(["events:\n", *unused]), 1)
        (tmp_path / file.name).write_text(text, encoding="utf-8")
    return str(tmp_path)


# -- pack check --------------------------------------------------------------------------------------


def test_check_of_a_sound_pack_prints_counts_and_ends_with_0():
    called = call("pack", "check", "--pack", str(GOOD))

    assert called.code == 0
    assert re.search(r"^faults +3 +5$", called.out, re.MULTILINE)
    assert "Calls with more faults at once than are ever looked at" in called.out
    assert "0 errors" in called.out
    assert fits(called.out)


def test_check_of_a_broken_pack_names_file_line_and_remedy_and_ends_with_1(broken):
    called = call("pack", "check", "--pack", broken)

    assert called.code == 1
    assert re.search(r"sensors\.yaml:\d+  faults\.sensors\.sensor\.dead_low\.remedy", called.out)
    assert 'Did you mean "sensors.change"?' in " ".join(called.out.split())


def test_check_in_json_has_counts_errors_and_warnings(broken):
    good = json.loads(call("pack", "check", "--pack", str(GOOD), "--json").out)
    bad = call("pack", "check", "--pack", broken, "--json")

    assert set(good["counts"]) == {"components", "faults", "symptoms", "checks", "remedies", "cautions"}
    assert good["counts"]["faults"] == {"written": 3, "expanded": 5}
    assert good["errors"] == []
    assert all({"what", "where", "file", "line"} <= set(one) for one in good["warnings"])
    assert bad.code == 1
    assert json.loads(bad.out)["errors"][0]["file"] == "sensors.yaml"


def test_check_shows_ten_of_a_kind_and_json_shows_all(loose):
    text = call("pack", "check", "--pack", str(GOOD)).out
    everything = json.loads(call("pack", "check", "--pack", loose, "--json").out)
    short, long = (call("pack", "check", "--pack", loose, *all_).out for all_ in ([], ["--all"]))
    heads = [int(n) for n in re.findall(r"\((\d+)\)$", short, re.MULTILINE)]

    assert "more" not in text.split("warnings")[1].split("\n\n")[1]
    assert sum(heads) == len(everything["warnings"])
    assert short.count("  and ") == sum(count > 10 for count in heads) > 0
    assert "  and " not in [line[:6] for line in long.splitlines()]
    assert len(long) > len(short)


def test_check_of_one_profile_expands_only_that():
    called = call("pack", "check", "--profile", "two_barrel", "--json")

    assert [one["profile"] for one in json.loads(called.out)["profiles"]] == ["two_barrel"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("check", "--pack", "no/such/folder"), "There is no pack folder"),
        (("check", "--profile", "ninety"), "no machine profile"),
        (("explain", "gas_supply.cylinder.emtpy"), 'Did you mean "gas_supply.cylinder.empty"?'),
        (("explain", ""), "Nothing in this pack"),
        (("draw", "--root", "nowhere.at.all"), "No fault, event or symptom"),
        (("draw", "--format", "painting"), "painting"),
        (("draw", "--format", "html", "--instances"), "--instances"),
    ],
)
def test_wrong_use_is_one_sentence_and_2(arguments, words):
    called = call("pack", *arguments)

    assert called.code == 2
    assert words in called.err
    assert called.err.count("\n") == 1
    assert called.out == ""


@pytest.mark.parametrize("command", [("explain", "gas_supply.cylinder.empty"), ("draw",), ("sources",)])
def test_a_pack_that_is_not_sound_ends_the_other_commands_with_1(command, tmp_path):
    for file in GOOD.glob("*.yaml"):
        text = file.read_text(encoding="utf-8").replace("rate: 57", "rate: many")
        (tmp_path / file.name).write_text(text, encoding="utf-8")

    called = call("pack", *command, "--pack", str(tmp_path))

    assert called.code == 1
    assert "gas_supply.yaml" in called.err
    assert "Traceback" not in called.err


# -- pack sources ------------------------------------------------------------------------------------


def test_sources_come_published_first_with_what_rests_on_each():
    listed = json.loads(call("pack", "sources", "--json").out)
    order = ["published", "common_practice", "estimate"]
    places = [order.index(one["kind"]) for one in listed]

    assert places == sorted(places)
    assert fits(call("pack", "sources").out)


def test_every_element_rests_on_exactly_one_source():
    knowledge = load_pack("frozen_drinks")
    resting = [name for one in sources(knowledge) for name in one.ids.get("faults", ())]

    assert sorted(resting) == sorted(knowledge.faults)


# -- pack explain ------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def view():
    return view_machine(shipped_case().machine)


def test_a_fault_is_explained_by_its_ref_with_everything_that_touches_it():
    called = call("pack", "explain", "GS01")

    assert called.code == 0
    for words in (
        "fault gas_supply.cylinder.empty",
        "rate: ",
        "source: ",
        "place: ",
        "remedy: ",
        "noticed as",
        "checks (",
        "look-alikes",
    ):
        assert words in called.out
    assert fits(called.out)


def test_a_component_and_its_check_that_share_an_id_are_both_explained():
    called = call("pack", "explain", "gas_supply.cylinder_valve", "--pack", str(GOOD), "--json")

    assert [one["kind"] for one in json.loads(called.out)] == ["check", "component"]


def test_an_id_without_its_place_explains_the_first_and_names_the_others():
    (told,) = json.loads(
        call("pack", "explain", "sensors.sensor.dead_low", "--pack", str(GOOD), "--json").out
    )

    assert told["id"] == "sensors.sensor.dead_low@gas_supply"
    assert told["facts"]["also at"] == "sensors.sensor.dead_low@barrel1, sensors.sensor.dead_low@barrel2"


def test_everything_that_has_a_name_can_be_explained_within_80_columns(view):
    machine = view.machine
    bases = dict.fromkeys(
        getattr(e, "base", e.id)
        for e in (
            *machine.events,
            *machine.checks,
            *machine.remedies,
            *machine.components,
            *machine.gates,
            *machine.cautions,
            *machine.sources,
        )
    )
    for name in bases:
        for told in dossiers(view, name):
            assert fits(dossier_text(told)), name


def test_names_are_what_find_answers_to(view):
    assert all(find(view.machine, name) for name in names(view.machine))
    assert not find(view.machine, "")


def test_rows_of_a_fault_are_those_that_inference_uses(view):
    """The tables are compiled another way; both must choose the same row."""
    tables = view.tables
    for f, fault in enumerate(view.machine.faults[::7]):
        for c, check in enumerate(view.machine.checks):
            count = len(check.outcomes)
            used = tables.rows[view.member[7 * f, c], :count]
            spoken = speaking_row(view, check, fault.id)
            np.testing.assert_allclose(used, check.otherwise if spoken is None else spoken[1], atol=1e-12)


def test_expected_weight_of_evidence_is_the_relative_entropy_of_scipy(view):
    """Kullback and Leibler 1951; decibans are nats times 10 / ln 10."""
    table = weights_against(view, 0)
    for other in (1, 5, 40):
        for c, check in enumerate(view.machine.checks):
            count = len(check.outcomes)
            p, q = (view.seen[view.member[f, c], :count] for f in (0, other))
            expected = 0.0 if check.phase == "proving" else entropy(p, q) * 10 / np.log(10)
            assert table[other, c] == pytest.approx(expected, abs=1e-9)


def test_look_alikes_come_nearest_first_and_never_are_the_fault_itself(view):
    found = look_alikes(view, view.machine.faults[0].id, 8)

    assert len(found) == 8
    assert [one.decibans for one in found] == sorted(one.decibans for one in found)
    assert view.machine.faults[0].id not in {one.fault for one in found}


# -- pack draw ---------------------------------------------------------------------------------------


class Page(HTMLParser):
    """Collects ids, links and unclosed elements of a page."""

    VOID = ("meta", "br", "link", "img")

    def __init__(self, text):
        super().__init__()
        self.ids, self.links, self.open, self.scripts = [], set(), [], 0
        self.outside = set()
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        if tag not in self.VOID:
            self.open.append(tag)
        if "id" in given:
            self.ids.append(given["id"])
        if tag == "a":
            self.links.add(given["href"])
        if "src" in given or tag in {"script", "link", "iframe"}:
            self.outside.add(tag)

    def handle_startendtag(self, tag, attrs):
        pass

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


@pytest.fixture(scope="module")
def whole_page():
    called = call("pack", "draw", "--format", "html")
    assert called.code == 0
    return called.out


def test_every_link_of_the_page_leads_to_one_place_in_it(whole_page):
    page = Page(whole_page)

    assert len(page.ids) == len(set(page.ids))
    assert {link.removeprefix("#") for link in page.links} <= set(page.ids)
    assert page.open == []


def test_the_page_needs_nothing_from_outside(whole_page):
    assert Page(whole_page).outside == set()
    assert "url(" not in whole_page
    assert set(re.findall(r"https?://[^\"' <]+", whole_page)) <= {"http://www.w3.org/2000/svg"}


def test_every_symptom_of_the_page_links_to_causes_and_remedies(whole_page):
    sections = re.findall(r'<section class="card".*?</section>', whole_page, re.DOTALL)
    symptoms = [text for text in sections if '<p class="id">symptom ' in text]

    assert len(symptoms) == len(load_pack("frozen_drinks").symptoms)
    for text in symptoms:
        assert re.search(r"Causes \([1-9]", text)
        assert re.search(r"Remedies \([1-9]", text)
        assert "Checks that tell most" in text


def test_texts_of_a_pack_cannot_become_elements_of_the_page(tmp_path):
    evil = "\"<script>alert(1)</script><b onload='x'>\""
    for file in GOOD.glob("*.yaml"):
        text = file.read_text(encoding="utf-8")
        for field in ("title", "plain", "ask"):
            text = re.sub(rf"^(    {field}): (?![{{]).*$", rf"\1: {evil}", text, flags=re.MULTILINE)
        text = text.replace("say: [flat, ", f"say: [{evil}, ")
        (tmp_path / file.name).write_text(text, encoding="utf-8")

    called = call("pack", "draw", "--pack", str(tmp_path), "--format", "html")

    assert called.code == 0
    assert "<script" not in called.out
    assert "<b " not in called.out
    assert "&lt;script&gt;" in called.out
    assert Page(called.out).open == []


@pytest.mark.parametrize("form", ["mermaid", "dot", "graphml", "svg", "html"])
def test_a_drawing_is_written_to_a_file_as_it_is_printed(form, tmp_path):
    file = tmp_path / "tree"

    printed = call("pack", "draw", "--pack", str(GOOD), "--format", form)
    written = call("pack", "draw", "--pack", str(GOOD), "--format", form, "--out", str(file))

    assert (printed.code, written.code, written.out) == (0, 0, "")
    assert file.read_bytes().decode("utf-8").removesuffix("\n") == printed.out.removesuffix("\n")
    assert str(file) in written.err


def test_a_file_that_cannot_be_written_is_one_sentence_and_1(tmp_path):
    called = call("pack", "draw", "--out", str(tmp_path / "no" / "such" / "folder.svg"))

    assert called.code == 1
    assert called.err.count("\n") == 1
    assert "--out" in called.err


# -- work-out ----------------------------------------------------------------------------------------


def test_a_calculation_shows_its_reasoning_and_its_verdict():
    """CO2 saturation at 20 C is 5.729 MPa: Span, R. and Wagner, W. (1996), J. Phys. Chem. Ref. Data 25(6), table 34."""
    called = call("work-out", "cylinder_pressure", "temperature=20 C", "--json")
    told = json.loads(called.out)
    absolute = (told["value"] + told["inputs"]["air_pressure"]["value"]) * 6894.757293168 / 1e6

    assert absolute == pytest.approx(5.729, abs=0.001)
    assert told["unit"] == "psi"
    assert told["verdict"]
    assert called.code == 0


def test_units_are_taken_as_written():
    celsius = json.loads(call("work-out", "cylinder_pressure", "temperature=20 C", "--json").out)
    fahrenheit = json.loads(call("work-out", "cylinder-pressure", "temperature=68 F", "--json").out)
    text = call("work-out", "cylinder_pressure", "temperature=68F")

    assert fahrenheit["value"] == pytest.approx(celsius["value"], rel=1e-9)
    assert text.out.splitlines()[-1].startswith("So: ")
    assert fits(text.out)


def test_an_atmosphere_is_absolute_whatever_is_written():
    told = json.loads(
        call("work-out", "cylinder_pressure", "temperature=20", "air_pressure=1013.25 mbar", "--json").out
    )

    assert told["inputs"]["air_pressure"]["value"] == pytest.approx(14.69595, abs=1e-4)  # NIST SP 811, B.8


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((), "--list"),
        (("cylinder_presure",), "Did you mean cylinder_pressure?"),
        (("nonsense",), "There are brix_off_card"),
        (("decay_temperature", "first=70"), "still needs first_temperature"),
        (("cylinder_pressure", "temperature=20 psi"), "measures gauge pressure"),
        (("cylinder_pressure", "temperature=warm"), "is no number"),
        (("cylinder_pressure", "temperature=900"), "give -40 to 60 C"),
        (("cylinder_pressure", "temperature=nan"), "is no number"),
        (("cylinder_pressure", "temperatur=20"), "did you mean temperature?"),
        (("cylinder_pressure", "temperature"), "is not NAME=VALUE"),
        (("cylinder_pressure", "temperature=1", "temperature=2"), "twice"),
        (("cylinder_pressure", "temperature=50"), "liquid"),
    ],
)
def test_a_wrong_calculation_is_one_sentence_and_2(arguments, words):
    called = call("work-out", *arguments)

    assert called.code == 2
    assert words in called.err
    assert called.err.count("\n") == 1
    assert called.out == ""


def test_what_is_missing_is_asked_at_a_terminal_until_it_can_be_used():
    called = call(
        "work-out",
        "decay_temperature",
        "first=70 psi",
        typed="20 C\nlots\n900\n4.5 bar\n60 F\n",
        terminal=True,
    )

    assert called.code == 0
    assert "lots" in called.out
    assert "0 to 250 psi" in called.out
    assert "So: " in called.out


def test_leaving_a_question_with_end_of_file_is_no_failure():
    called = call("work-out", "decay_temperature", typed="", terminal=True)

    assert (called.code, called.err) == (0, "")


def test_the_list_names_every_calculation_and_all_it_takes():
    listed = call("work-out", "--list").out
    data = json.loads(call("work-out", "--list", "--json").out)

    assert [one["name"] for one in data] == list(WORKOUTS)
    for work in WORKOUTS.values():
        assert f"{work.name}: {work.title}" in listed
        assert all(f"    {ask.name}: " in listed for ask in work.asks)


@pytest.mark.parametrize("name", WORKOUTS)
def test_every_calculation_works_with_values_in_the_middle_of_their_ranges(name):
    work = WORKOUTS[name]
    pairs = [f"{ask.name}={(ask.low + ask.high) / 2:g}" for ask in work.asks if ask.default is None]

    called = call("work-out", name, *pairs)

    assert called.code in {0, 2}
    assert ("So: " in called.out) == (called.code == 0)
    assert "Traceback" not in called.err


@pytest.mark.parametrize(
    ("text", "value"),
    [("12,500", 12500.0), ("12.5 kohm", 12500.0), ("1.25e4", 12500.0), (" 12500ohm ", 12500.0)],
)
def test_numbers_are_read_as_people_write_them(text, value):
    ohms = next(ask for ask in WORKOUTS["thermistor"].asks if ask.name == "ohms")

    assert value_of(ohms, text) == pytest.approx(value)
