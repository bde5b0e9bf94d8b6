"""What is said back: short, once, in whole words, and in nobody else's name."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import Told, parlour_case, shipped_case
from repairing import at_display, doing, offered, proving

from assistant import wording
from assistant.engine import deciding, evidence, leading, open_state
from assistant.engine.candidates import candidates
from assistant.engine.effects import Decide
from assistant.engine.state import Question, Stage
from assistant.facts import Fact
from assistant.shell_wording import decision_text


def narrowing(role="operator"):
    told = Told(parlour_case()).began(role).chose("none", "dry").said("flat", Fact("symptom", "gas.flat"))
    while told.ask.about != "check":
        told = told.chose("unsure" if told.ask.about == "symptom" else "yes")
    return told


def shipped(role="technician", **more):
    state = open_state(shipped_case())
    return replace(state, stage=Stage.NARROWING, role=role, open=None, heard=True, **more)


def test_of_two_faults_that_are_there_each_is_as_likely_as_it_is_not_half_of_that():
    case = shipped_case()
    state = shipped(trained="yes")
    for barrel in (1, 2):
        state = evidence.answer(case, state, f"warning.syrup_low_one@{barrel}", "present")
        state = evidence.answer(case, state, f"syrup.bag_heft@{barrel}", "light")
        state = evidence.answer(case, state, f"product.pale@{barrel}", "present")
    now = case.believe(evidence.findings(state))
    remedy = case.remedy("syrup.change_bag@1")
    _, (decision,) = deciding.send(case, state, remedy, "sure_enough")

    assert dict(now.remedies)[remedy.id] < 0.6 < dict(now.causes)["syrup.bag.empty@1"]
    assert decision.probability == pytest.approx(dict(now.causes)["syrup.bag.empty@1"])


# -- what was heard ------------------------------------------------------------------------------


def test_marks_around_words_that_nothing_was_made_of_are_left_out():
    assert wording.rest_kept(", nobody touched anything,").text == (
        'I made nothing of "nobody touched anything"; I keep it as a note.'
    )


def test_what_is_said_to_be_fine_is_named():
    told = narrowing().said("cherry pours fine", Fact("fine", words="cherry pours fine"))

    assert "Noted as fine: cherry pours fine." in told.said_back()


@pytest.mark.parametrize(
    ("barrels", "text"),
    [
        ((1, 2, 3, 4), "Barrels 1 to 4, noted."),
        ((1, 3), "Barrels 1 and 3, noted."),
        ((2,), "Barrel 2, noted."),
    ],
)
def test_barrels_in_a_row_are_told_as_a_range(barrels, text):
    assert wording.barrels_noted(barrels).text == text


def test_barrels_are_not_noted_aloud_where_the_answer_said_them():
    fact = Fact("which", which=(1, 2), words="both")
    alone = narrowing().said("both", fact)
    within = narrowing().said("both are flat", fact, Fact("symptom", "gas.flat", words="flat"))

    assert "Barrels 1 and 2, noted." in alone.said_back()
    assert "noted" not in within.said_back()
    assert within.state.barrels == (1, 2)


def test_when_it_began_is_not_told_twice():
    began = Fact("began", value="delivery", words="started after a delivery")
    answer = Fact("answer", "gas.weight", value="heavy", words="started after a delivery")

    assert "It began: delivery." in narrowing().said("started after a delivery", began).said_back()
    both = narrowing().said("started after a delivery", began, answer)
    assert "It began" not in both.said_back()
    assert both.state.began == "delivery"


# -- read out ------------------------------------------------------------------------------------


def test_quotes_within_what_is_read_out_are_single():
    assert wording.read_out("helpdesk", wording.ask_gone("gone flat")) == (
        "Read out: \"You said: 'gone flat'. Is it good again now?\""
    )


def test_what_is_written_for_the_agent_is_not_read_out():
    check = shipped_case().check("scope.last_visit_change")

    assert wording.question(check, "helpdesk") == check.ask["helpdesk"]
    assert wording.question(shipped_case().check("scope.one_or_all"), "helpdesk").startswith("Read out: ")


# -- decisions -----------------------------------------------------------------------------------


def test_parts_are_called_as_people_ask_for_them():
    assert wording.spelled(("co2_cylinder", "sensor_o_ring", "pump_o_rings")) == (
        "CO2 cylinder",
        "sensor O-ring",
        "pump O-rings",
    )
    decision = Decide("visit", "", "", "x", 0.5, "", ("gas_tube", "sensor_o_ring"), (), ())
    assert "Parts: gas tube, sensor O-ring" in decision_text(decision)


def test_one_thing_to_do_has_one_figure():
    told = offered()
    decision = next(effect for effect in told.shown if isinstance(effect, Decide))

    assert [reason.count("%") for reason in decision.reasons] == [0, 1, 0]
    assert decision.causes[0].probability >= decision.probability


def urgency(fault, *symptoms):
    case, state = shipped_case(), shipped("helpdesk")
    for symptom in symptoms:
        state = evidence.answer(case, state, symptom, "present")
    remedy = case.fault(fault).remedy
    found = deciding.send(case, state, case.remedy(remedy), "certain")
    named, _ = leading.leading_fault(case, case.believe(evidence.findings(state)), remedy)
    return named, found[1][0].urgency


@pytest.mark.parametrize(
    ("fault", "symptoms", "expected"),
    [
        (
            "sensors.sensor.dead_low@gas_regulated",
            ["product.flat_all"],
            "today: every barrel is affected",
        ),
        (
            "sensors.sensor.dead_low@syrup2",
            ["product.pale@2"],
            "soon: barrel 2 (cherry) is affected, as far as is told",
        ),
        ("sensors.sensor.dead_low@syrup2", [], "soon: the cause is at one barrel"),
        (
            "gas_regulated.secondary_regulator.set_low",
            ["product.flat_one@1"],
            "today: barrel 1 (cola) is affected so far, but the cause is one for all barrels",
        ),
        ("gas_regulated.secondary_regulator.set_low", [], "today: the cause may touch every barrel"),
        (
            "sensors.sensor.dead_low@syrup2",
            ["reading.stuck_zero@syrup2"],
            "soon: a number is wrong, but the drinks are not",
        ),
    ],
)
def test_how_soon_goes_by_what_is_out_of_service(fault, symptoms, expected):
    named, told = urgency(fault, *symptoms)

    assert named.partition("@")[2] == fault.partition("@")[2]
    assert told == expected


# -- scope ---------------------------------------------------------------------------------------


def test_once_it_is_said_which_barrel_no_symptom_is_asked_of_the_others():
    case = shipped_case()
    asked = [case.check(name) for name in candidates(case, shipped("operator", barrels=(3,)))]
    everywhere = [case.check(name) for name in candidates(case, shipped("operator"))]

    assert {c.barrel for c in asked if c.kind == "symptom"} == {None, 3}
    assert {c.barrel for c in everywhere if c.kind == "symptom"} == {None, 1, 2, 3}


@pytest.mark.parametrize(
    ("check", "outcome", "closed"),
    [
        ("scope.one_or_all", "only_numbers", "product.nothing_comes_out"),
        ("scope.one_or_all", "only_numbers", "product.too_sweet"),
        ("scope.syrup_warning", "none", "warning.syrup_low_one"),
        ("scope.syrup_warning", "all", "warning.syrup_low_one"),
        ("scope.display_words", "no_warning", "warning.fill_time_out_one"),
        ("scope.display_words", "no_warning", "warning.gas_low"),
        ("scope.display_words", "no_warning", "warning.regulated_low"),
        ("scope.display_words", "no_warning", "warning.water_low"),
        ("scope.which_sides_pour", "all", "warning.gone_no_drink"),
    ],
)
def test_a_symptom_whose_answer_is_known_already_is_not_asked(check, outcome, closed):
    case = shipped_case()
    state = shipped("operator")
    after = evidence.answer(case, state, check, outcome)

    assert any(name.startswith(closed) for name in candidates(case, state))
    assert not any(name.startswith(closed) for name in candidates(case, after))


# -- handing over and the end --------------------------------------------------------------------


def test_the_handover_tells_the_answers_that_weigh_most_with_their_numbers():
    told = offered().word("handover", "technician")

    assert "What weighs most: " in told.said_back()
    told_back = told.said_back().partition("What weighs most: ")[2].partition(". ")[0]
    assert len(told_back.split("; ")) <= 3
    assert "cylinder valve open: it turns further (for it)" in told_back


def test_an_operator_alone_answers_at_the_machine_and_not_by_phone():
    assert "from counter staff:" in offered("operator").word("handover", "technician").said_back()
    assert "from helpdesk agent by phone:" in offered("helpdesk").word("handover", "technician").said_back()


@pytest.mark.parametrize(
    ("role", "words"),
    [
        ("operator", "call again and say"),
        ("helpdesk", "they should call again"),
        ("technician", "Tell the people here"),
    ],
)
def test_the_last_words_are_for_the_person_here(role, words):
    told = at_display(role).read(70, "psi").chose("in_window", "yes", "yes")
    while told.ask is not None:
        told = told.chose("no")

    assert words in told.shown[-1].text


def test_a_decision_for_the_person_here_names_nobody_to_send():
    decision = next(effect for effect in offered("technician").shown if isinstance(effect, Decide))

    assert (decision.kind, decision.send, decision.urgency) == ("do_it", "", "")


# -- what a line is taken for --------------------------------------------------------------------


@pytest.mark.parametrize("words", ["how long does that take?", "and how much time is that"])
def test_how_long_it_takes_is_answered_and_the_offer_stands(words):
    told = offered().said(words)

    assert "That takes about 5 minutes. It is done in 2 steps." in told.said_back()
    assert told.ask.id == "gas.open_valve"
    assert "how long does that take?" not in told.state.unheard


def test_how_long_at_a_step_is_about_the_step_and_what_is_left_of_the_work():
    step = doing().read(0.1, "%").chose("yes").said("how long will this take")
    assert "This step takes about 2 minutes. Behind it 1 step, about a minute in all." in step.said_back()
    assert step.ask.id == "gas.open_valve#1"

    gate = doing().said("how long is this going to take?")
    assert "This step needs no waiting: tell me when it is done. Behind it 3 steps" in gate.said_back()


def test_how_long_at_a_question_or_a_proof_is_about_that():
    question = narrowing().said("how long will this take")
    assert "This question takes" in question.said_back()

    proof = proving().said("how much time is that")
    assert "then we know whether it helped" in proof.said_back()


def test_how_long_said_beside_something_else_does_not_swallow_it():
    told = offered().said("yes, how long will it take", Fact("yes"))

    assert told.state.stage is Stage.DOING


def test_a_symptom_that_is_answered_is_said_back_yes_or_no():
    told = narrowing()
    while told.ask.about != "symptom":
        told = told.chose("unsure")
    symptom = told.case.check(told.ask.id)

    assert f"I take that as: {wording.lower(symptom.title)}? No." in told.chose("absent").said_back()
    assert f"I take that as: {wording.lower(symptom.title)}." in told.chose("present").said_back()


def test_within_a_sentence_only_short_forms_keep_their_capital():
    titles = ("A reading jumps about", "CO2 cylinder", "O-ring", "I don't know this one", "Flat")
    within = ("a reading jumps about", "CO2 cylinder", "O-ring", "I don't know this one", "flat")

    assert tuple(map(wording.lower, titles)) == within


def test_that_nothing_was_replaced_is_the_first_answer_to_which_parts_were_fitted():
    several = wording.which_parts(("o_ring", "gas_tube"))
    one = wording.which_parts(("o_ring",))

    assert [option.id for option in several] == ["none", "o_ring", "gas_tube", "all", "unsure"]
    assert several[0].label == "None: nothing was replaced"
    assert [option.id for option in one] == ["none", "all", "unsure"]
    assert wording.ask_parts(("o_ring",)) == "Was a new part fitted: O-ring?"


def asking_of_syrup_2():
    check = shipped_case().check("sensors.does_it_move@syrup2")
    state = shipped("operator", barrels=(1,), guarding="")
    return Told(shipped_case(), replace(state, open=Question("check", check.id)))


def test_a_reading_without_a_barrel_belongs_to_what_is_asked_and_not_to_a_barrel_named_before():
    told = asking_of_syrup_2().said("stuck at 0", Fact("reading", "syrup", value="0", words="stuck at 0"))

    assert [reading.quantity for reading in told.state.readings] == ["syrup@2"]


def test_a_reading_of_something_else_goes_by_the_barrel_named_before():
    told = asking_of_syrup_2().said(
        "barrel says 20", Fact("reading", "barrel", value="20", words="barrel says 20")
    )

    assert [reading.quantity for reading in told.state.readings] == ["barrel@1"]


def test_done_at_the_head_of_a_line_confirms_the_step_whatever_else_the_line_says():
    step = doing().read(0.1, "%").chose("yes")
    told = step.said("done, well the cola side", Fact("which", which=(1,), words="the cola side"))

    assert told.ask.id == "gas.open_valve#2"


def test_who_calls_a_danger_over_may_name_it_without_raising_it_again():
    fire = Fact("danger", "caution.gas", words="fire brigade")
    told = (
        Told(parlour_case())
        .began("operator")
        .chose("alarm", "yes")
        .said("the gas supplier says the alarm is off", fire)
    )

    assert told.state.stage is Stage.SAFETY
    assert told.state.cleared == (("caution.gas", "the gas supplier says the alarm is off"),)


DOUBT = Fact("answer", "gas.weight", value="heavy", certain=False, words="like lead")


def test_a_doubt_that_is_said_once_more_is_confirmed():
    doubted = narrowing().said("like lead", DOUBT)
    assert doubted.ask.about == "confirm"
    told = doubted.said("like lead, I said", DOUBT)

    assert told.state.answers[-1].finding.check == "gas.weight"
    assert told.ask.about != "confirm"


def test_of_several_doubts_that_are_all_said_again_none_is_taken():
    rivals = (DOUBT, replace(DOUBT, value="light"))
    doubted = narrowing().said("like lead", *rivals)
    told = doubted.said("like lead", *rivals)

    assert told.ask == doubted.ask
    assert told.state.answers == doubted.state.answers


def test_a_plain_answer_to_the_same_check_settles_a_doubt_about_it():
    doubted = narrowing().said("like lead", DOUBT)
    told = doubted.said("its light as anything", replace(DOUBT, value="light", certain=True))

    assert told.state.answers[-1].outcome == "light"
    assert told.state.doubts == ()
    assert told.ask.about != "confirm"


def test_an_answer_to_something_else_leaves_a_doubt_open():
    doubted = narrowing().said("like lead", DOUBT)
    told = doubted.said("the valve turned", Fact("answer", "gas.valve_open", value="turns"))

    assert told.state.answers[-1].finding.check == "gas.valve_open"
    assert told.state.doubts == doubted.state.doubts


def doubted(*rivals):
    return Told(parlour_case()).began("operator").chose("none", "dry").said("it is off", *rivals)


def test_an_answer_in_words_settles_the_doubt_about_a_symptom():
    told = doubted(Fact("symptom", "gas.flat", certain=False, words="it is off"))
    assert told.ask.about == "confirm"

    told = told.said("yeah flat, all of them", Fact("answer", "gas.flat", value="present", words="yeah flat"))

    assert ("gas.flat", "present") in {(a.finding.check, a.outcome) for a in told.state.answers}
    assert not told.state.doubts
    assert "fits nothing" not in told.said_back()


def test_a_denial_in_doubt_is_asked_without_two_noes():
    told = doubted(Fact("not_symptom", "gas.flat", certain=False, words="fizz is ok i think"))

    assert told.ask.text == "Do you mean that this is not so: drinks are flat?"
    assert ("gas.flat", "absent") in {(a.finding.check, a.outcome) for a in told.chose("yes").state.answers}


def test_marks_around_words_that_may_mean_several_things_are_left_out():
    assert wording.which_did_you_mean("all runny,") == 'You said "all runny". Which of these do you mean?'


def test_the_mark_of_a_title_that_asks_stands_behind_its_barrel_and_not_in_an_answer():
    check = shipped_case().check("syrup.bag_heft@2")
    asking = replace(check, title="Is the bag empty?, barrel 2 (cherry)")

    assert wording.said_of(asking, check.outcomes[0].id).startswith("is the bag empty, barrel 2 (cherry): ")
    assert wording.next_check(asking).text == "Next: Is the bag empty, barrel 2 (cherry)?"


def test_before_it_is_known_which_barrel_is_meant_none_is_named():
    pale = Fact("symptom", "product.pale", certain=False, words="a bit pale")
    told = Told(shipped_case()).began().chose("1", "1", "1", "1").said("a bit pale", pale)

    assert "barrel 1" not in told.ask.text
    assert "on one barrel" in told.ask.text


def test_asked_where_a_part_is_the_one_of_the_barrel_at_hand_is_told():
    state = replace(shipped(), open=Question("check", "syrup.bag_heft@2"))
    told = Told(shipped_case(), state).said(
        "where is it", Fact("ask", "syrup.bag@1", value="where", words="where is it")
    )

    assert "barrel 2 (cherry)" in told.said_back().split("Lift")[0]
    assert "barrel 1" not in told.said_back()
