"""What the audit says of packs: one small change to the good pack, one remark with its file and line."""

from __future__ import annotations

import numpy as np
import pytest
from casts import shipped_case
from sample_packs import GOOD

from graph.audit import RULES, audit_texts
from graph.audit.apart import alike
from graph.audit.confusable import NOTHING, UNKNOWN, confusions, truthful
from graph.audit.hazards import HAZARDS
from graph.audit.phrases import normalised
from graph.audit.view import view_machine, view_of
from graph.dossier.lookalikes import weights_against
from graph.errors import PackMissing
from graph.evidence import slipped
from graph.load import load_texts, read_folder, shipped

# file, what is replaced, by what, the rule that must speak, what its sentence must hold
CHANGES = (
    ("gas_supply.yaml", "usually: [gas_supply.no_gas]", "usually: [gas_supply.no_gass]", "unknown_name", 'Did you mean "gas_supply.no_gas"?'),
    ("gas_supply.yaml", "of: [gas_supply.cylinder.empty, ", "of: [gas_supply.flat_drinks, ", "symptom_as_cause", "symptoms cause nothing"),
    ("gas_supply.yaml", "rarely: [sensors.sensor.dead_low]", "rarely: [sensors.sensor.dead_low@watr]", "no_such_place", 'no instance at "watr"'),
    ("gas_supply.yaml", "component: gas_supply.cylinder_valve\n    rate", "component: gas_supply.cylinder_valv\n    rate", "unknown_name", "is no component"),
    ("gas_supply.yaml", "remedy: gas_supply.open_valve", "remedy: gas_supply.open_valves", "unknown_name", "is no remedy"),
    ("gas_supply.yaml", "    place: counter\n    reading", "    place: kitchen\n    reading", "unknown_name", "is no place"),
    ("gas_supply.yaml", "needs: {safety.room: [no]}", "needs: {safety.room: [maybe]}", "unknown_name", 'is no outcome of "safety.room"'),
    ("gas_supply.yaml", "usual: in_window", "usual: inside", "unknown_name", "is no outcome of this check"),
    ("gas_supply.yaml", "{low: 0.9, in_window: 0.1, high: 0}", "{low: 0.9, in_window: 0.1, hihg: 0}", "unknown_name", 'Did you mean "high"?'),
    ("gas_supply.yaml", "{low: 0.9, in_window: 0.1, high: 0}", "{low: 0.9, in_window: 0.2, high: 0}", "row_sum", "sums to 1.1"),
    ("gas_supply.yaml", "otherwise: 0.9", "otherwise: 1.0", "otherwise_certain", "impossible"),
    ("gas_supply.yaml", "band: [65, 72]", "band: [60, 72]", "bands_overlap", "overlap"),
    ("gas_supply.yaml", "gate: gate.gas_room", "gate: gate.gas_rom", "unknown_name", "is no gate"),
    ("gas_supply.yaml", "outcomes: [in_window]}", "outcomes: [normal]}", "unknown_name", "is no outcome of"),
    ("gas_supply.yaml", "part_of: gas_supply.cylinder\n", "part_of: gas_supply.cylinder_valve\n", "part_of_itself", "is part of"),
    ("gas_supply.yaml", "    gate: all\n", "    gate: at_least\n", "vote_without_k", "how many"),
    ("gas_supply.yaml", "    gate: all\n", "    gate: at_least\n    k: 3\n", "tree_problem", "wants at least 3 of 2"),
    ("gas_supply.yaml", "      - gas_supply.cylinder.empty\n", "      - gas_supply.shut_and_empty\n", "tree_problem", "goes round in a circle"),
    ("sensors.yaml", "    each: channel\n    rate", "    rate", "repeated_differently", "stands once per channel"),
    ("sensors.yaml", "rate: {gas_supply: 2", "rate: {gas_suply: 2", "unknown_name", "is no sensor channel"),
    ("sensors.yaml", "unless: {gas_supply.reading: [in_window]}", "unless: {gas_supply.readin: [in_window]}", "unknown_name", "is no check"),
    ("sensors.yaml", "    place: machine_inside\n    unless", "    place: machine_inside\n    work_out: cylinder_presure\n    unless", "unknown_name", 'Did you mean "cylinder_pressure"?'),
    ("gas_supply.yaml", "band: [65, 72]", "band: [65, 72], covers: {safety.room: [maybe]}", "unknown_name", 'is no outcome of "safety.room"'),
    ("pack.yaml", "safety: [safety.room]", "safety: [safety.rom]", "unknown_name", "is no check"),
    ("pack.yaml", "safety: [safety.room]", "van: [senzor]\nsafety: [safety.room]", "unknown_name", "is no part of any remedy"),
    ("pack.yaml", '"gas_supply.cylinder.empty": 1.5', '"gas_supply.cylinder.full": 1.5', "unknown_name", "is no fault"),
    ("pack.yaml", "unit: psi\n    sigma: 1\n", "unit: pounce\n    sigma: 1\n", "unit_unknown", "is no unit"),
    ("pack.yaml", "unit: psi\n    sigma: 1\n", "unit: psi\n    sigma: 1\n    mistaken_for: dial\n", "unknown_name", "is no quantity"),
    ("profiles.yaml", "switches: {season: off}", "switches: {season: summer}", "unknown_name", "is no value of this switch"),
    ("safety.yaml", "danger: caution.gas_room", "danger: caution.gas", "unknown_name", "is no caution"),
    ("gas_supply.yaml", "component: gas_supply.cylinder\n    days", "component: gas_supply.cylindr\n    days", "unknown_name", "is no component"),
    ("gas_supply.yaml", "remedies: [gas_supply.open_valve]", "remedies: [gas_supply.open_valv]", "unknown_name", "is no remedy"),
    ("gas_supply.yaml", "by: [technician]\n    remedies", "by: [technician]\n    source: hearsay\n    remedies", "unknown_name", "is no source"),
    ("pack.yaml", "title: time of year\n", "title: time of year\n    since: leak_tset\n    after: {on: 9}\n", "unknown_name", '"leak_test"'),
    ("pack.yaml", "title: time of year\n", "title: time of year\n    since: leak_test\n    after: {onn: 9}\n", "unknown_name", "is no value of this switch"),
    # from here on warnings
    ("pack.yaml", "title: time of year\n", "title: time of year\n    since: installed\n", "ages_by_half", "needs both"),
    ("gas_supply.yaml", "from_days: 150", "from_days: 184", "due_after_overdue", "due from 184 days on, but overdue after 183"),
    ("pack.yaml", "unit: psi\n    sigma: 1\n", "unit: bar\n    sigma: 1\n", "unit_not_canonical", '"psi"'),
    ("gas_supply.yaml", "open slowly", "open slowly", "no_proper_end", "return-to-service"),
    ("gas_supply.yaml", "do: Ventilate the room.", "do: Undo the nut.", "hazard_without_caution", "stored pressure"),
    ("gas_supply.yaml", "\n        gate: gate.gas_room", "", "isolates_without_gate", "it isolates gas"),
    ("gas_supply.yaml", "do: Open the valve slowly", "do: Open the water, then gas, slowly", "hazard_without_caution", "carbon dioxide"),
    ("pack.yaml", "title: in the back room, ", "title: in the back room, caution: caution.gas_room, ", "place_without_caution", "done in the back room"),
    ("pack.yaml", "title: in the back room, ", "title: in the back room, caution: caution.gas_rom, ", "unknown_name", "is no caution"),
    ("gas_supply.yaml", "isolates: [gas]", "isolates: [gas]\n    opens_product_path: true", "opened_without_sanitising", "sanitising gate"),
    ("gas_supply.yaml", "    place: counter\n    reading", "    place: counter\n    tools: [test gauge]\n    reading", "untrained_with_tool", "test gauge"),
    ("gas_supply.yaml", "reading: gas_supply\n    displayed", "displayed", "bands_without_reading", "bands"),
    ("profiles.yaml", "static: [65, 72], ", "", "window_missing", '"static" for "gas_supply"'),
    ("gas_supply.yaml", "    usual: in_window\n", "", "otherwise_without_usual", "none"),
    ("gas_supply.yaml", "say: [open, all the way]", "say: [open, It was OFF!]", "phrase_of_two_outcomes", '"it was off" is also said for the outcome "yes"'),
    ("gas_supply.yaml", "remedy: gas_supply.open_valve", "remedy: gas_supply.change_cylinder", "remedy_unused", "no fault calls"),
    ("gas_supply.yaml", "cautions: [caution.gas_room]\n    needs", "needs", "few_outcome_phrases", "2 of at least 4"),
    ("gas_supply.yaml", "gas_supply.no_gas: {low", "gas_supply.shut_and_empty: {low", "fault_with_few_checks", "1 of at least 2"),
    ("gas_supply.yaml", "      gas_supply.no_gas: {low: 0.9, in_window: 0.1, high: 0}", "      gas_supply.no_gas: {low: 0.9, in_window: 0.1, high: 0}\n      gas_supply.cylinder.empty: {low: 0.9, in_window: 0.1, high: 0}\n      gas_supply.cylinder_valve.shut: {low: 0.9, in_window: 0.1, high: 0}", "row_unreachable", '"gas_supply.no_gas" never applies'),
    ("gas_supply.yaml", "usually: [gas_supply.no_gas]", "usually: [gas_supply.cylinder.empty]", "fault_without_symptom", "no symptom"),
    ("gas_supply.yaml", "        almost_always: [gas_supply.cylinder_valve.shut]\n", "", "tells_nothing", "no row of it ever applies"),
    ("gas_supply.yaml", "        almost_always: [gas_supply.cylinder_valve.shut]\n", "", "faults_alike", "gas_supply.cylinder.empty, gas_supply.cylinder_valve.shut"),
    ("sensors.yaml", "parts: [sensor]", "parts: [sensor]", "condemned_without_proof", '"sensor"'),
    ("gas_supply.yaml", "events:\n", "events:\n  gas_supply.loose: {title: loose, of: [gas_supply.looser]}\n  gas_supply.looser: {title: looser, of: [gas_supply.cylinder.empty]}\n", "event_unused", "nor any event that it leads to"),
    ("profiles.yaml", "flavours: [lime, cherry]", "flavours: [lime]", "flavours_and_barrels", "1 flavours for 2 barrels"),
    ("safety.yaml", "title: Before work", "title: Before any work", "wording_missing", "technician"),
    ("safety.yaml", "title: Before work", "title: Before any work", "danger_without_hold", "until it is called over"),
)  # fmt: skip


def texts(**changed):
    return {file.name: file.read_text(encoding="utf-8") for file in GOOD.glob("*.yaml")} | changed


def changed_texts(file, old, new):
    files = texts()
    if old != new:  # otherwise the good pack shows the flaw as it is
        assert old in files[file]
        files[file] = files[file].replace(old, new, 1)
    return files


@pytest.fixture(scope="module")
def of_ours():
    """Return the audit of the shipped pack on all its profiles."""
    return audit_texts(read_folder(shipped()))


@pytest.fixture(scope="module")
def of_two_barrels():
    """Return the audit of the shipped pack on one profile."""
    return audit_texts(read_folder(shipped()), ("two_barrel",))


def changed_audit(file, old, new):
    return audit_texts(changed_texts(file, old, new))


@pytest.mark.parametrize(
    ("file", "old", "new", "rule", "words"), CHANGES, ids=[f"{c[3]}-{i}" for i, c in enumerate(CHANGES)]
)
def test_a_flaw_is_told_with_its_file_and_line(file, old, new, rule, words):
    audit = changed_audit(file, old, new)

    told = [one for one in audit.told if one.rule == rule and words in f"{one.what} {one.remedy}"]

    assert told, [one.what for one in audit.told]
    assert all(one.file.endswith(".yaml") and one.line >= 1 for one in told)
    assert RULES[rule].level == ("error" if told[0] in audit.errors else "warning")


def test_the_line_is_that_of_the_flaw():
    audit = changed_audit(
        "gas_supply.yaml", "{low: 0.9, in_window: 0.1, high: 0}", "{low: 0.9, in_window: 0.2, high: 0}"
    )
    lines = texts()["gas_supply.yaml"].splitlines()

    (told,) = audit.errors

    assert lines[told.line - 1].strip().startswith("gas_supply.no_gas: {low")
    assert told.where == "checks.gas_supply.reading.rows.gas_supply.no_gas"


HEARD = """\
symptoms:
  gas_supply.flat_drinks: [gone like squash]
answers:
  gas_supply.cylinder_valve:
    yes: [somebody closed it, open]
"""


def heard_audit(old="", new=""):
    assert old in HEARD
    return audit_texts(texts(**{"heard.yaml": HEARD.replace(old, new, 1)}))


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ("gas_supply.flat_drinks", "gas_supply.flat_drink", 2, 'Did you mean "gas_supply.flat_drinks"?'),
        ("gas_supply.cylinder_valve", "gas_supply.cylinder_valv", 4, "is no check"),
        ("    yes:", "    maybe:", 5, 'is no outcome of "gas_supply.cylinder_valve"'),
    ],
)
def test_lines_that_were_heard_for_nothing_there_is_are_told(old, new, line, words):
    told = [one for one in heard_audit(old, new).errors if one.rule == "unknown_name"]

    assert [(one.file, one.line) for one in told] == [("heard.yaml", line)]
    assert words in f"{told[0].what} {told[0].remedy}"


def test_a_line_that_was_heard_for_one_outcome_and_is_said_of_another_is_told_where_it_was_heard():
    (told,) = [one for one in heard_audit().told if one.rule == "phrase_of_two_outcomes"]

    assert (told.file, told.line) == ("heard.yaml", 5)
    assert '"open"' in told.what


def test_what_was_heard_counts_as_no_phrase_of_the_authors():
    few = [one for one in heard_audit().told if one.rule == "few_symptom_phrases"]

    assert few
    assert "3" in few[0].what


def test_the_good_pack_has_no_errors_and_is_counted_before_and_after_expansion():
    audit = audit_texts(texts())

    (machine,) = audit.machines

    assert not audit.errors
    assert audit.written["faults"] == 3
    assert machine.counts["faults"] == 2 + 1 + 2  # two of the gas, a sensor for gas and one for each barrel
    assert 0.0 < machine.tail_bound < 0.01


def test_a_pack_with_names_that_lead_nowhere_is_told_of_all_of_them():
    files = texts()
    files["gas_supply.yaml"] = files["gas_supply.yaml"].replace("usual: in_window", "usual: inside")
    files["safety.yaml"] = files["safety.yaml"].replace("danger: caution.gas_room", "danger: caution.gas")

    audit = audit_texts(files)

    assert [one.file for one in audit.errors] == ["gas_supply.yaml", "safety.yaml"]
    assert audit.machines == ()


def test_what_the_loader_refuses_is_told_as_errors():
    audit = audit_texts(texts(**{"zoo.yaml": "title: Zoo\nanimals: {}\n"}))

    assert [(one.rule, one.file, one.line) for one in audit.errors] == [("invalid", "zoo.yaml", 2)]
    assert not audit.warnings


def test_an_unknown_profile_is_refused_with_the_known_ones():
    with pytest.raises(PackMissing, match="two_barrel"):
        audit_texts(texts(), ("nine_barrel",))


def test_a_row_about_a_fault_of_another_profile_is_no_flaw_of_one_profile(of_ours, of_two_barrels):
    assert {told.where for told in of_two_barrels.told if told.rule == "row_unreachable"} <= {
        told.where for told in of_ours.told if told.rule == "row_unreachable"
    }


def test_a_weak_word_that_leaves_the_usual_outcome_little_is_told():
    old = "almost_always: [gas_supply.cylinder_valve.shut]"
    audit = changed_audit("gas_supply.yaml", old, old.replace("almost_always", "sometimes"))
    assert [
        t.what for t in audit.told if t.rule == "weak_word"
    ] == []  # of two outcomes the usual one takes all

    third = "      half:\n        label: half open\n      no:\n        label: it is fully open"
    files = changed_texts("gas_supply.yaml", old, old.replace("almost_always", "sometimes"))
    files["gas_supply.yaml"] = files["gas_supply.yaml"].replace(
        "      no:\n        label: it is fully open", third
    )

    (told,) = (t for t in audit_texts(files).told if t.rule == "weak_word")

    assert 'leaves "no" 30% instead of 90%' in told.what


def test_remarks_come_worst_first():
    order = list(RULES)

    places = [order.index(one.rule) for one in audit_texts(texts()).told]

    assert places == sorted(places)
    assert all(
        rule.level == "error"
        for rule in list(RULES.values())[: len([r for r in RULES.values() if r.level == "error"])]
    )


def test_the_bound_on_truncation_holds_against_the_whole_series():
    """The share of calls with more than three faults, by the product over faults of (1 + odds)."""
    case = shipped_case()
    odds = np.array(case.tables.odds)
    first, second, third = (power_sum(odds, k) for k in (1, 2, 3))
    sums = (first, (first**2 - second) / 2, (first**3 - 3 * first * second + 2 * third) / 6)
    everything = float(np.prod(1.0 + odds)) - 1.0

    beyond = everything - sum(sums)
    total = case.tables.nothing + case.tables.unknown + everything

    assert 0.0 < beyond / total <= case.tables.tail_bound


def power_sum(odds, k):
    return float(np.sum(odds**k))


def test_a_truthful_interview_is_weighed_by_bayes_rule():
    """Against the slow way: one hypothesis after the other, one check after the other."""
    view = view_of(load_texts(read_folder(GOOD)), "two_barrel")
    tables, machine = view.tables, view.machine

    belief = truthful(view)

    for fault in range(tables.faults):
        rows = [tables.rows[view.member[fault, c]] for c in range(tables.checks)]
        said = [int(row.argmax()) for row in rows]
        weights = [float(o) for o in tables.odds] + [tables.nothing, tables.unknown]
        for c, check in enumerate(machine.checks):
            if not asked(machine, said, check):
                continue
            count, slip = len(check.outcomes), float(view.slips[c])
            own = [tables.rows[view.member[g, c]] for g in range(tables.faults)]
            every = [*own, tables.rows[tables.class_start[c]], tables.unknown_rows[c]]
            for g, row in enumerate(every):
                weights[g] *= slipped(np.array(row), slip, count)[said[c]]
        np.testing.assert_allclose(belief[fault], np.array(weights) / sum(weights), rtol=1e-9)


def asked(machine, said, check):
    names = [c.id for c in machine.checks]
    for holds, conditions in ((True, check.needs), (False, check.unless)):
        for other, outcomes in conditions:
            at = names.index(other)
            answer = machine.checks[at].outcomes[said[at]].id
            if (answer in outcomes) != holds:
                return False
    return check.phase != "proving"


def test_every_belief_of_a_truthful_interview_sums_to_one():
    view = view_machine(shipped_case().machine)

    np.testing.assert_allclose(truthful(view).sum(axis=1), 1.0, atol=1e-9)


def test_a_confusion_names_something_that_exists():
    view = view_machine(shipped_case().machine)
    known = {fault.id for fault in view.machine.faults} | {NOTHING, UNKNOWN}

    for found in confusions(view):
        assert found.other in known - {found.fault}
        assert found.believed > 0.4
        assert found.believed + found.own <= 1.0 + 1e-9


def test_faults_that_are_alike_cannot_be_weighed_against_each_other():
    files = changed_texts("gas_supply.yaml", "        almost_always: [gas_supply.cylinder_valve.shut]\n", "")
    view = view_of(load_texts(files), "two_barrel")
    position = {fault.id: index for index, fault in enumerate(view.machine.faults)}

    groups = alike(view)

    assert [{fault.id for fault in group} for group in groups] == [
        {"gas_supply.cylinder.empty", "gas_supply.cylinder_valve.shut"}
    ]
    for group in groups:
        first, second = (position[fault.id] for fault in group)
        assert weights_against(view, first)[second].sum() == pytest.approx(0.0, abs=1e-12)


def test_the_shipped_pack_is_clean_and_every_profile_expands(of_ours):
    assert [one.what for one in (*of_ours.errors, *of_ours.warnings)] == []
    profiles = load_texts(read_folder(shipped())).profiles
    assert [machine.profile for machine in of_ours.machines] == list(profiles)


def test_the_shipped_pack_shows_a_caution_before_every_hazard(of_two_barrels):
    grave = {
        "hazard_without_caution",
        "place_without_caution",
        "opened_without_sanitising",
        "isolates_without_gate",
        "untrained_behind_gate",
        "untrained_with_tool",
        "condemned_without_proof",
        "no_proper_end",
    }

    assert [f"{one.file}:{one.line} {one.what}" for one in of_two_barrels.told if one.rule in grave] == []


@pytest.mark.parametrize("hazard", HAZARDS, ids=lambda hazard: hazard.name)
def test_every_hazard_is_met_by_some_caution_of_the_shipped_pack(hazard):
    cautions = load_texts(read_folder(shipped())).cautions.values()

    assert any(hazard.met(f"{c.title} {c.do} {c.do_not}") for c in cautions)
    assert hazard.reason


def test_hazard_words_are_found_as_words_of_their_own():
    found = {hazard.name for hazard in HAZARDS if hazard.found("Discharge the capacitor, then undo the nut.")}

    assert found == {"electricity", "stored pressure"}
    assert not any(hazard.found("Pour a cup and deliver it.") for hazard in HAZARDS)


def test_a_gate_that_leads_back_to_itself_ends_the_search_for_cautions():
    old = "      - do: Read the gas detector at the door.\n"
    audit = changed_audit("safety.yaml", old, old + "        gate: gate.gas_room\n")

    assert not audit.errors


@pytest.mark.parametrize(
    ("phrase", "plain"),
    [
        ("No fizz!", "no fizz"),
        ("it's  OFF", "it's off"),
        ("it\N{RIGHT SINGLE QUOTATION MARK}s off.", "it's off"),
        ("...", ""),
    ],
)
def test_phrases_are_compared_without_case_and_marks(phrase, plain):
    assert normalised(phrase) == plain


def test_an_event_that_leads_only_to_an_unused_one_is_unused_too():
    loose = "events:\n  gas_supply.loose: {title: loose, of: [gas_supply.looser]}\n"
    loose += "  gas_supply.looser: {title: looser, of: [gas_supply.cylinder.empty]}\n"
    before = {one.where for one in audit_texts(texts()).told if one.rule == "event_unused"}

    audit = changed_audit("gas_supply.yaml", "events:\n", loose)

    found = {one.where for one in audit.told if one.rule == "event_unused"} - before
    assert found == {"events.gas_supply.loose", "events.gas_supply.looser"}


def test_the_shipped_pack_has_a_caution_where_the_gas_stands_and_a_syrup_check_without_it_is_told():
    files = read_folder(shipped())
    assert load_texts(files).pack.places["back_room"].caution == "caution.gas_area"
    files["syrup.yaml"] = files["syrup.yaml"].replace(
        "cautions: [caution.gas_area, caution.lifting]", "cautions: [caution.lifting]", 1
    )

    (told,) = (one for one in audit_texts(files, ("two_barrel",)).told if one.rule == "place_without_caution")

    assert told.where == "checks.syrup.bag_heft"


def test_sensor_leads_are_uncrossed_only_after_pressure_is_bled_and_proved_at_zero():
    steps = load_texts(read_folder(shipped())).remedies["sensors.uncross_leads"].steps
    gates = [step.gate for step in steps]
    change = next(index for index, step in enumerate(steps) if step.do.startswith("Change one pair"))

    assert {"gate.electrical", "gate.fluids"} <= set(gates[:change])
