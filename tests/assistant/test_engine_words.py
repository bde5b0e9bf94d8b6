"""Slash words: why, causes, facts, back, change, where, what, handover, role, and the rest."""

from __future__ import annotations

import math

import pytest
from casts import Told, parlour_case, shipped_case

from assistant import wording
from assistant.engine import WORDS, Stage
from assistant.engine.effects import Tell
from assistant.facts import Fact

FLAT = Fact("symptom", "gas.flat", words="flat")


def narrowing(role="operator"):
    told = Told(parlour_case()).began(role).chose("none", "dry").said("flat", FLAT)
    while told.ask.id != "gas.pressure":
        told = told.chose("yes" if told.ask.about == "caution" else "unsure")
    return told


def tells(told, topic):
    return [effect for effect in told.shown if isinstance(effect, Tell) and effect.topic == topic]


def test_help_lists_every_word_with_a_line():
    told = Told(parlour_case()).began().word("help")

    assert [tell.id for tell in tells(told, "help")] == list(WORDS)
    assert all(tell.text.startswith(f"/{tell.id}: ") for tell in tells(told, "help"))


def test_an_unknown_word_is_refused_and_changes_nothing():
    told = narrowing()

    assert told.word("abracadabra").state == told.state
    assert "/help" in told.word("abracadabra").said_back()


def test_why_tells_gain_and_minutes_and_what_each_answer_would_change():
    told = narrowing("technician").word("why")
    why = tells(told, "why")

    assert f"{told.ask.bits:.2f} bits" in why[0].text
    assert "about a minute" in why[0].text
    assert [tell.id for tell in why[1:]] == [f"gas.pressure={option.id}" for option in told.ask.options[:3]]


@pytest.mark.parametrize("role", ["operator", "helpdesk"])
def test_who_has_no_use_for_bits_is_told_the_same_in_plain_words(role):
    text = tells(narrowing(role).word("why"), "why")[0].text

    assert "bits" not in text
    assert "It should tell a little about what to do." in text
    assert "Open at the moment: about 3 causes left." in text


def test_so_many_causes_are_left_as_equally_likely_ones_would_leave_as_much_open():
    assert [wording.causes_open(math.log2(count)) for count in (1, 2, 8, 50)] == [
        "nearly sure",
        "about 2 causes left",
        "about 8 causes left",
        "about 50 causes left",
    ]
    assert wording.causes_open(math.log2(400)) == "many causes left"


def test_what_an_answer_would_change_is_what_it_then_changes():
    told = narrowing()
    promised = next(tell.text for tell in tells(told.word("why"), "why") if tell.id == "gas.pressure=low")
    after = told.chose("low")
    first = after.case.believe(tuple(a.finding for a in after.state.answers)).causes[0]

    assert f"{first[1] * 100:.0f} % (now" in promised


@pytest.mark.parametrize(
    "asked", [Fact("ask", value="why"), Fact("ask", value="where"), Fact("ask", "gas.cylinder", value="what")]
)
def test_a_question_back_is_answered_and_the_question_stays(asked):
    told = narrowing()
    back = told.said("eh?", asked)

    assert back.topics()[0] == asked.value
    assert back.ask == told.ask


def test_causes_are_told_with_their_probability_and_what_is_left_for_none_of_them():
    told = narrowing().word("causes")
    causes, belief = tells(told, "causes"), told.case.believe(tuple(a.finding for a in told.state.answers))

    assert causes[0].id == belief.causes[0][0]
    assert causes[0].text.startswith(f"{belief.causes[0][1] * 100:.0f} %")
    assert "A cause that I don't know" in causes[-1].text


def test_facts_are_told_with_their_weight_for_the_leading_cause():
    told = narrowing("technician").chose("low").word("facts")
    listed = tells(told, "facts")
    findings = tuple(a.finding for a in told.state.answers)
    weights = told.case.explain(findings, listed[0].id)

    assert [tell.id for tell in listed[1:]] == [finding.check for finding in findings]
    assert [float(tell.text.split()[0]) for tell in listed[1:]] == pytest.approx(weights, abs=0.051)


def test_an_operator_is_told_in_words_what_speaks_for_and_against():
    told = narrowing().chose("low").word("facts")
    head, *listed = (tell.text for tell in tells(told, "facts"))
    weights = told.case.explain(tuple(a.finding for a in told.state.answers), tells(told, "facts")[0].id)

    assert head.startswith("What was answered, and what it says of ")
    assert "decibans" not in told.said_back()
    assert [text.endswith(" (for it)") for text in listed] == [weight >= 1 for weight in weights]
    assert [text.endswith(" (against it)") for text in listed] == [weight <= -1 for weight in weights]


def test_there_are_no_facts_before_the_first_answer():
    assert "No answers yet" in Told(parlour_case()).began().word("facts").said_back()


def test_back_takes_the_last_answer_back_step_by_step():
    first = narrowing()
    told = first.chose("low")

    assert told.word("back").state == first.state
    assert told.word("back").ask == first.ask
    assert Told(parlour_case()).began().word("back").topics()[0] == "refused"


def test_change_asks_an_earlier_check_again_by_ref_id_or_title():
    told = narrowing().chose("low")

    for name in ("S1", "gas.flat", "drinks flat"):
        again = told.word("change", name)
        assert again.ask.id == "gas.flat"
    changed = again.chose("absent")
    assert {a.finding.check: a.outcome for a in changed.state.answers}["gas.flat"] == "absent"
    assert told.word("change").ask.id == "gas.pressure"
    asked = told.word("change", "bicycle")
    assert asked.ask.text == "Which answer shall I ask for again?"
    assert asked.chose("gas.pressure").ask.id == "gas.pressure"
    assert asked.chose("no").ask == told.ask
    assert not any("@" in option.label or option.label.startswith("P0") for option in asked.ask.options)


def solid_told():
    """Return a conversation in which a barrel was told to be solid, at its first question."""
    told = Told(shipped_case()).began("technician")
    while told.state.stage is not Stage.LISTENING:
        told = told.chose(told.ask.options[0].id)
    return told.said("number 3 is solid", Fact("symptom", "product.solid@3", "S03", which=(3,)))


def outcomes(told):
    return {answer.finding.check: answer.outcome for answer in told.state.answers}


def test_a_symptom_that_is_only_ever_told_can_be_taken_back():
    again = solid_told().word("change", "S03")

    assert (again.ask.about, again.ask.id) == ("symptom", "product.solid@3")
    assert outcomes(again.chose("no"))["product.solid@3"] == "absent"
    assert solid_told().word("change", "S03@3").ask.id == "product.solid@3"


def test_of_several_answers_of_one_name_it_is_asked_which_in_plain_words():
    both = solid_told().said("and 2", Fact("symptom", "product.solid@2", "S03", which=(2,)))
    asked = both.word("change", "S03")

    assert [option.id for option in asked.ask.options] == ["product.solid@2", "product.solid@3", "no"]
    assert asked.ask.options[0].label == "Too hard to pour, a solid lump, barrel 2 (cherry)"
    assert asked.chose("product.solid@3").ask.id == "product.solid@3"


def test_what_was_told_of_the_wrong_barrel_is_moved_to_the_right_one():
    sorry, two = Fact("correct", words="sorry"), Fact("which", value="2", which=(2,))
    asked = solid_told().said("sorry, it is number 2", sorry, two)

    assert (
        asked.ask.text
        == "I have: too hard to pour, a solid lump, barrel 3 (blue raspberry). Which barrel is it?"
    )
    moved, both, neither = (asked.chose(choice) for choice in ("moved", "both", "no"))
    assert outcomes(moved).get("product.solid@2") == "present"
    assert "product.solid@3" not in outcomes(moved)
    assert (moved.state.barrels, moved.state.due) == ((2,), ())
    assert {name for name in outcomes(both) if name.startswith("product.solid")} == {
        "product.solid@2",
        "product.solid@3",
    }
    assert outcomes(neither) == outcomes(solid_told())


def test_a_barrel_named_again_moves_nothing():
    same = solid_told().said("number 3, yes", Fact("which", value="3", which=(3,)))

    assert same.ask.about != "confirm"


def test_a_safety_answer_may_be_changed_while_safety_is_asked():
    told = Told(parlour_case()).began().chose("hiss").word("change", "P01")

    assert told.ask.id == "safety.room"
    assert told.chose("none").ask.id == "safety.floor"


def test_where_and_what_come_from_the_pack():
    told = narrowing()

    assert "back room" in told.word("where", "cylinder valve").said_back().casefold()
    assert "The hand wheel on top of the cylinder." in told.word("what", "cylinder valve").said_back()
    assert "psi: Pounds per square inch" in told.word("what", "PSI").said_back()
    assert "tall steel bottle" in told.word("where").said_back()
    assert "flux" in told.word("where", "flux").said_back()


def test_notes_are_kept_and_cut_at_600_characters():
    told = narrowing().word("note", "key at the bar").word("note", "x" * 601)

    assert told.state.notes[0] == "key at the bar"
    assert len(told.state.notes[1]) == 600
    assert narrowing().word("note").state == narrowing().state


def test_a_handover_tells_what_is_known_and_screens_for_safety_again():
    told = narrowing().chose("low").word("handover", "technician Kim Larkin")

    assert told.state.role == "technician"
    assert told.state.person == "Kim Larkin"
    assert "Field technician (Kim Larkin) goes on from here." in told.said_back()
    assert 'Complaint: "flat".' in told.said_back()
    assert told.ask.id == "safety.room"
    assert told.ask.text == "Read the monitor at the door."
    on = told.chose("none", "dry")
    assert on.state.stage is Stage.NARROWING
    assert {a.finding.check for a in on.state.answers} >= {"gas.flat", "gas.pressure"}


def test_a_handover_to_another_agent_on_the_phone_goes_straight_on():
    told = narrowing("operator").word("handover", "helpdesk")

    assert told.state.stage is Stage.NARROWING


def test_there_is_no_way_back_across_a_handover():
    told = narrowing("technician").word("handover", "operator")

    assert told.word("back").topics()[0] == "refused"
    assert told.word("back").state.role == "operator"


def test_what_one_person_could_not_do_is_open_to_the_next():
    told = narrowing().chose("cannot")
    assert "gas.pressure" in told.state.settled

    assert "gas.pressure" not in told.word("handover", "technician").state.settled


def test_a_handover_to_nobody_known_asks_to_whom():
    told = narrowing()

    assert told.word("handover", "magician").state == told.state
    assert "field technician" in told.word("handover").said_back()


def test_a_change_of_role_is_confirmed_first():
    told = narrowing().word("role", "technician")
    assert (told.ask.about, told.ask.id) == ("confirm", "role")

    assert told.chose("no").state.role == "operator"
    assert told.chose("yes").state.role == "technician"
    assert "Counter staff" in narrowing().word("role").said_back()


def test_stop_closes_and_resume_goes_on_with_the_same_question():
    told = narrowing()
    stopped = told.word("stop")

    assert stopped.shown[-1].outcome == "stopped"
    assert stopped.word("resume").ask == told.ask


def test_a_gate_passed_before_a_stop_is_passed_again_after_it():
    told = (
        Told(parlour_case())
        .began("technician")
        .chose("none", "dry")
        .said("x", Fact("symptom", "barrel.runny@1"))
    )
    while told.ask.about != "gate":
        told = told.chose("yes" if told.ask.about == "caution" else "unsure")
    told = told.chose("yes")
    assert told.ask.id == "gate.power#2"

    resumed = told.word("stop").word("resume")
    while resumed.ask.about == "caution":
        resumed = resumed.chose("yes")
    assert resumed.ask.id == "gate.power#1"


@pytest.mark.parametrize(
    "words", ["whats the cause", "what's wrong with it", "any idea what it is", "what could it be"]
)
def test_what_is_wrong_is_answered_with_the_causes_once_something_is_known(words):
    facts = (Fact("ask", value="what", words=words),) if words.startswith("what'") else ()
    asked = narrowing().said(words, *facts)

    assert asked.shown[:-1] == narrowing().word("causes").shown[:-1]
    assert asked.ask == narrowing().ask
    early = Told(parlour_case()).began().said(words, *facts)
    assert "I don't know yet" in early.said_back()


def test_what_comes_next_is_the_question_that_is_open():
    asked = narrowing().said("whats next", Fact("ask", value="what", words="whats next"))

    assert "First the question that is open" in asked.said_back()
    assert asked.ask == narrowing().ask
