"""What the shipped pack promises as a whole: how much there is, and how people may put it."""

from __future__ import annotations

import re
from itertools import combinations

import pytest
from casts import shipped_case

from graph.load import load_texts, read_folder, shipped
from graph.physics import WORKOUTS

FEWEST_CHECKS = 220
FEWEST_PHRASES = 4
FEWEST_OF_A_SYMPTOM = 10


@pytest.fixture(scope="module")
def knowledge():
    return load_texts(read_folder(shipped()))


def test_there_are_enough_checks_as_written(knowledge):
    assert len(knowledge.checks) >= FEWEST_CHECKS


def test_every_outcome_can_be_said_in_four_ways(knowledge):
    short = [
        (name, outcome)
        for name, check in knowledge.checks.items()
        for outcome, written in check.outcomes.items()
        if len(set(written.say)) < FEWEST_PHRASES
    ]

    assert short == []


def test_every_symptom_can_be_said_in_ten_ways(knowledge):
    short = [name for name, each in knowledge.symptoms.items() if len(set(each.say)) < FEWEST_OF_A_SYMPTOM]

    assert short == []


def test_no_phrase_means_two_outcomes_of_one_check(knowledge):
    shared = [
        (name, set(one.say) & set(other.say))
        for name, check in knowledge.checks.items()
        for one, other in combinations(check.outcomes.values(), 2)
        if set(one.say) & set(other.say)
    ]

    assert shared == []


def test_a_check_that_is_worked_out_has_bands_for_what_it_comes_to(knowledge):
    worked = {name: check for name, check in knowledge.checks.items() if check.work_out}

    assert len(worked) >= 9
    for name, check in worked.items():
        assert check.work_out in WORKOUTS
        assert sum(outcome.band is not None for outcome in check.outcomes.values()) >= 2, name


ACTS = re.compile(r"\b(push|turn|press|warm|straighten|swap|open|shut) (it|its|the|a)\b", re.IGNORECASE)


def proofs():
    """Return every check that proves a repair an operator may do, with its repair and what passes."""
    case = shipped_case()
    return [
        (remedy, case.check(item.check), item.outcomes)
        for remedy in case.machine.remedies
        if "operator" in remedy.by
        for item in remedy.verify
        if item.check and case.has_check(item.check)
    ]


def test_no_proof_of_a_repair_asks_for_an_act_that_could_be_the_repair_itself():
    acting = [(remedy.id, check.id) for remedy, check, _ in proofs() if ACTS.search(check.ask["operator"])]

    assert acting == []


def test_what_a_sound_machine_shows_passes_every_proof():
    failing = [
        (remedy.id, check.id)
        for remedy, check, passing in proofs()
        if check.usual >= 0 and check.outcomes[check.usual].id not in passing
    ]

    assert failing == []


UNDER_PRESSURE = re.compile(
    r"(fill|purge|take three|sample|let it|leak-by|read|call a fill|run it)\b", re.IGNORECASE
)
OPENED = re.compile(r"\b(open|gas on)\b", re.IGNORECASE)
SHUTS = "gate.fluids"


def shut_too_long(remedy):
    """Return the steps that need pressure while water, gas and syrup still stand shut."""
    shut, late = False, []
    for step in remedy.steps:
        shut = step.gate == SHUTS or (shut and step.gate != "gate.return_to_service")
        if step.gate != SHUTS and OPENED.search(step.do):
            shut = False
        if shut and step.gate != SHUTS and UNDER_PRESSURE.match(step.do):
            late.append((remedy.id, step.do))
    return late


def test_what_was_shut_is_opened_again_before_a_step_that_needs_pressure():
    late = [found for remedy in shipped_case().machine.remedies for found in shut_too_long(remedy)]

    assert late == []


TWO_FACTS = re.compile(r", and (is|are|does|do|did|has|was|were)\b[^?]*\?")
DOUBLE_NEGATIVE = re.compile(
    r"\b(does|is|are|do|did|has|was) (nothing|nobody|no|never|not)\b[^.?]*\?|\bsay no\b", re.IGNORECASE
)
NUMBER_WITH_UNIT = "is that psi or bar"  # one reading, asked for with its unit


def questions():
    """Return every question of the shipped pack once: who asks it how."""
    return {
        (check.base, role, text)
        for check in shipped_case().machine.checks
        for role, text in check.ask.items()
    }


def test_no_question_asks_for_two_facts_that_one_yes_could_answer():
    double = [each for each in questions() if TWO_FACTS.search(each[2]) and NUMBER_WITH_UNIT not in each[2]]

    assert double == []


def test_no_question_is_answered_with_yes_where_something_is_not_so():
    assert [each for each in questions() if DOUBLE_NEGATIVE.search(each[2])] == []


HANDS_INSIDE = re.compile(r"\b(lock|isolate|bleed|prove|proved|tester|gauges?|licensed)\b", re.IGNORECASE)


def cautions_of_operators():
    """Return every caution that an untrained person may be shown, with what it stands before."""
    machine = shipped_case().machine
    gates = {gate.id: gate for gate in machine.gates}
    for check in machine.checks:
        if "operator" in check.roles:
            before = (*check.cautions, *(name for gate in check.gates for name in gates[gate].cautions))
            yield from ((check.id, name) for name in before)
    for remedy in machine.remedies:
        if "operator" not in remedy.by:
            continue
        yield from ((remedy.id, name) for name in remedy.cautions)
        steps = [step for step in remedy.steps if not step.roles or "operator" in step.roles]
        yield from ((remedy.id, name) for step in steps for name in step.cautions)


def test_nobody_swears_to_a_caution_that_is_written_for_hands_inside_the_machine():
    cautions = {caution.id: caution for caution in shipped_case().machine.cautions}
    wrong = [
        (where, name)
        for where, name in cautions_of_operators()
        if cautions[name].acknowledge and HANDS_INSIDE.search(f"{cautions[name].title} {cautions[name].do}")
    ]

    assert wrong == []


def test_whoever_put_a_lock_on_takes_it_off_before_power_comes_back():
    """29 CFR 1910.147(e)(3): the employee who applied the device removes it (OSHA, from memory)."""
    machine = shipped_case().machine
    locked = [gate for gate in machine.gates if any("lock" in step.do for step in gate.steps) and gate.undo]
    ends = [step.do for gate in machine.gates for step in gate.steps if "powers on" in step.do]
    asked = [
        text
        for check in machine.checks
        if "gate.electrical" in check.gates
        for text in check.ask.values()
        if "power on" in text.casefold()
    ]

    assert len(locked) >= 2
    assert all("whoever put the lock on takes it off, nobody else" in gate.undo for gate in locked)
    assert asked
    assert all("take your lock off" in text for text in asked)
    assert len(ends) >= 2
    assert all("takes it off, nobody else" in " ".join(text.split()) for text in ends)
