"""Intake, the safety screen, danger, and listening."""

from __future__ import annotations

import pytest
from casts import Told, parlour_case, shipped_case

from assistant.engine import Stage, roles, status
from assistant.engine.effects import Decide, Warn
from assistant.facts import Fact


@pytest.fixture
def told():
    return Told(parlour_case())


def warned(conversation):
    return [effect.id for effect in conversation.shown if isinstance(effect, Warn)]


# -- intake --------------------------------------------------------------------------------------


def test_a_session_opened_with_role_and_site_begins_with_safety(told):
    told = told.began("operator")

    assert told.state.stage is Stage.SAFETY
    assert told.ask.id == "safety.room"


def test_only_what_is_missing_is_asked_at_intake(told):
    told = told.began("", site="")
    assert (told.ask.about, told.ask.id) == ("intake", "role")
    assert [option.id for option in told.ask.options] == [
        "operator",
        "helpdesk",
        "technician",
        "refrigeration",
    ]

    told = told.chose("technician")
    assert told.ask.id == "site"

    told = told.said("Pier Lantern Westhaven, foyer bar")
    assert told.state.site == "Pier Lantern Westhaven, foyer bar"
    assert told.state.stage is Stage.SAFETY


@pytest.mark.parametrize(
    ("words", "role"),
    [
        ("I am the engineer", "technician"),
        ("helpdesk agent", "helpdesk"),
        ("counter staff", "operator"),
        ("gas supplier", "gas_supplier"),
    ],
)
def test_a_role_may_be_said_in_everyday_words(told, words, role):
    assert told.began("").said(words).state.role == role


def test_a_line_may_tell_the_role_and_the_complaint_at_once(told):
    told = told.began("").said("technician here, drinks are flat", Fact("symptom", "gas.flat"))

    assert told.state.role == "technician"
    assert [answer.finding.check for answer in told.state.answers] == ["gas.flat"]


def test_nothing_goes_on_without_a_role(told):
    told = told.began("", site="").said("no idea").chose("yes").word("skip")

    assert told.ask.id == "role"


def test_an_unknown_role_is_asked_for_again(told):
    told = told.began("magician")

    assert "magician" in told.said_back()
    assert told.ask.id == "role"


def test_the_site_may_be_skipped(told):
    told = told.began("operator", site="").word("skip")

    assert told.state.stage is Stage.SAFETY


STORIES = (
    (
        "cola is running like water",
        Fact("symptom", "barrel.runny", which=(1,), certain=False, words="like water"),
    ),
    ("no fizz in anything", Fact("symptom", "gas.flat", words="no fizz in anything")),
    ("it's broken", None),
)


@pytest.mark.parametrize(("line", "fact"), STORIES, ids=[line for line, _ in STORIES])
def test_a_story_told_where_the_site_was_asked_for_is_the_story_and_no_site(told, line, fact):
    told = told.began("operator", site="").said(line, *((fact,) if fact else ()))

    assert told.state.site == ""
    assert told.state.complaint == line
    assert "what is wrong" in told.said_back()


def test_after_a_story_the_site_is_asked_again_and_the_story_is_not(told):
    told = told.began("operator", site="").said("all flat and no fizz", Fact("symptom", "gas.flat"))
    assert told.ask.id == "site"
    told = told.said("Westhaven").chose("none", "dry")

    assert told.state.site == "Westhaven"
    assert told.ask.id != "complaint"


def test_that_the_site_cannot_be_told_is_no_story(told):
    told = told.began("operator", site="").said("can't say, doesn't matter", Fact("cannot"))

    assert told.state.complaint == ""
    assert told.state.stage is Stage.SAFETY


NAMES = (
    ("frozen point foyer", Fact("symptom", "gas.flat", certain=False, words="frozen point foyer")),
    ("Flat Rock, Foyer Bar", Fact("symptom", "gas.flat", words="Flat Rock")),
    ("we're at the Gullsand one", None),
    ("it isn't on the list", None),
)


@pytest.mark.parametrize(("line", "fact"), NAMES, ids=[line for line, _ in NAMES])
def test_what_looks_like_a_name_is_the_site_whatever_it_reminds_of(told, line, fact):
    told = told.began("operator", site="").said(line, *((fact,) if fact else ()))

    assert told.state.site == line
    assert told.state.answers == ()


def test_a_symptom_told_at_intake_is_not_taken_for_the_site(told):
    told = told.began("", site="").said("the drinks are flat", Fact("symptom", "gas.flat")).chose("operator")

    assert told.ask.id == "site"
    assert told.state.site == ""
    assert [answer.finding.check for answer in told.state.answers] == ["gas.flat"]


# -- safety --------------------------------------------------------------------------------------


def test_the_safety_checks_come_in_order_and_in_the_words_for_the_role(told):
    assert told.began("operator").ask.text == "Does a gas alarm sound, or is anyone unwell?"
    assert told.began("technician").ask.text == "Read the monitor at the door."
    assert told.began("helpdesk").ask.text == 'Read out: "Does a gas alarm sound, or is anyone unwell?"'
    assert told.began("operator").chose("none").ask.id == "safety.floor"


def test_safety_cannot_be_skipped(told):
    told = told.began("operator").word("skip")

    assert told.topics()[0] == "refused"
    assert told.ask.id == "safety.room"


@pytest.mark.parametrize("reply", ["unsure", "cannot"])
def test_an_unclear_safety_answer_is_asked_once_more_and_then_noted_as_a_hazard(told, reply):
    once = told.began("operator").chose(reply)
    assert once.ask.id == "safety.room"
    assert warned(once) == []

    twice = once.chose(reply)
    assert warned(twice) == ["caution.gas"]
    assert twice.state.hazards == ("caution.gas",)
    assert twice.ask.id == "safety.floor"
    assert twice.state.answers == ()


def test_an_answer_that_is_not_danger_but_not_the_usual_one_brings_its_caution(told):
    told = told.began("operator").chose("hiss")

    assert warned(told) == ["caution.gas"]
    assert told.state.stage is Stage.SAFETY


# -- danger --------------------------------------------------------------------------------------


def test_a_dangerous_answer_stops_everything_and_counts(told):
    told = told.began("operator").chose("alarm")

    assert told.state.stage is Stage.HALTED
    assert [effect.stop for effect in told.shown if isinstance(effect, Warn)] == [True]
    assert (told.ask.about, told.ask.id) == ("confirm", "safe")
    assert told.state.answers[0].outcome == "alarm"


def test_nothing_but_safe_handover_note_and_stop_is_taken_in_danger(told):
    halted = told.began("operator").chose("alarm")

    for word in ("back", "why", "skip", "change", "causes", "role"):
        assert halted.word(word).state == halted.state
        assert halted.word(word).topics()[0] == "refused"
    assert halted.word("note", "everyone is outside").state.notes == ("everyone is outside",)
    assert halted.word("handover", "technician").state.stage is Stage.HALTED
    assert halted.word("stop").state.stage is Stage.CLOSED
    assert halted.chose("no").state.stage is Stage.HALTED


def test_it_goes_on_where_it_was_once_it_is_safe(told):
    told = told.began("operator").chose("alarm").called_over()

    assert told.state.stage is Stage.SAFETY
    assert told.ask.id == "safety.floor"
    assert told.state.hazards == ("caution.gas",)


def called_safe(told):
    return told.began("operator").chose("alarm", "yes")


def test_nobody_calls_a_danger_over_alone_who_says_so_is_asked_and_kept(told):
    asked = called_safe(told)
    assert (asked.state.stage, asked.ask.id) == (Stage.HALTED, "safe_by")
    assert [option.label for option in asked.ask.options] == ["Gas supplier", "Nobody yet"]

    picked = asked.chose("gas_supplier")
    assert picked.state.cleared == (("caution.gas", "Gas supplier"),)
    assert "I keep who says so: gas supplier" in picked.said_back()
    assert "called safe by: gas supplier" in picked.word("facts").said_back().casefold()
    assert "called safe by: gas supplier" in picked.word("handover", "technician").said_back().casefold()


def test_who_calls_it_safe_may_be_said_in_words_with_the_name(told):
    told = called_safe(told).said("Kim Larkin, the gas man, he says so", Fact("yes"))

    assert told.state.cleared == (("caution.gas", "Kim Larkin, the gas man, he says so"),)
    assert told.state.stage is Stage.SAFETY


@pytest.mark.parametrize("words", ["I do", "Odile from the bar", "yes", "the cleaner says it's fine now"])
def test_somebody_whom_the_caution_does_not_name_cannot_call_it_safe(told, words):
    told = called_safe(told).said(words)

    assert (told.state.stage, told.ask.id) == (Stage.HALTED, "safe_by")
    assert "One of these must: the gas supplier." in told.said_back()


@pytest.mark.parametrize(
    "words",
    [
        "the gas supplier has not come",
        "waiting for the gas man",
        "nobody",
        "the gas supplier is on his way",
        "we rang the gas supplier",
        "the gas man will look later",
        "can the gas supplier say that?",
        "the gas company hasnt called back",
    ],
)
def test_words_that_deny_it_leave_all_stopped(told, words):
    told = called_safe(told).said(words)

    assert (told.state.stage, told.ask.id) == (Stage.HALTED, "safe")
    assert "Do not go back in" in told.said_back()


def test_each_danger_is_called_over_by_those_whom_its_own_caution_names(told):
    halted = (
        told.began("operator")
        .chose("alarm")
        .said("and it is wet", Fact("danger", "safety.floor", value="wet"))
    )
    told = halted.chose("yes", "gas_supplier")

    assert told.state.stage is Stage.HALTED
    assert [option.label for option in told.ask.options] == ["Electrician", "Nobody yet"]
    assert told.chose("electrician").state.stage is Stage.LISTENING


def test_a_danger_that_comes_back_must_be_called_over_again(told):
    told = called_safe(told).chose("gas_supplier").said("it beeps again", Fact("danger", "caution.gas"))

    assert told.state.stage is Stage.HALTED
    assert told.state.cleared == ()


def test_any_words_while_halted_are_answered_with_what_must_not_be_done_and_are_no_complaint(told):
    halted = told.began("operator").chose("alarm")
    asked = halted.said("can I go down and shut the bottle?")

    assert "No. Do not go back in." in asked.said_back()
    assert "No." not in halted.said("whose fault is that").said_back()
    assert asked.ask == halted.ask
    assert asked.state.complaint == ""
    doubtful = Fact("symptom", "gas.flat", certain=False, words="dry")
    assert told.began("operator").said("dry", doubtful).state.complaint == ""
    assert halted.said("it is all flat", Fact("symptom", "gas.flat")).state.complaint == ""


def test_the_same_danger_told_twice_is_shown_once(told):
    twice = (Fact("danger", "caution.gas"), Fact("symptom", "gas.alarm"))
    told = told.began("operator").said("alarm, and a bang", *twice)

    assert warned(told) == ["caution.gas"]


def test_a_danger_told_out_of_turn_stops_everything_in_any_stage(told):
    listening = told.began("operator").chose("none", "dry")
    for here in (told.began("operator"), listening, listening.word("skip")):
        for fact in (
            Fact("danger", "safety.floor", value="wet"),
            Fact("symptom", "gas.alarm"),
            Fact("danger", "caution.gas"),
        ):
            halted = here.said("help", fact)

            assert halted.state.stage is Stage.HALTED
            assert halted.state.after is here.state.stage
            assert halted.called_over().state.stage is not Stage.HALTED


def test_a_dangerous_reading_stops_everything(told):
    told = told.began("operator").chose("none", "dry").word("skip").read(95, "psi", "gas_supply")

    assert told.state.stage is Stage.HALTED


def test_a_doubtful_danger_is_asked_first_and_not_being_sure_counts_as_danger(told):
    doubtful = Fact("danger", "safety.floor", value="wet", certain=False, words="bit damp")
    told = (
        told.began("operator")
        .chose("none", "dry")
        .said("x", Fact("symptom", "gas.flat", certain=False, words="meh"), doubtful)
    )

    assert told.ask.id == "safety.floor"
    assert told.chose("no").state.stage is not Stage.HALTED
    assert told.word("unsure").state.stage is Stage.HALTED


def test_stopping_in_danger_says_first_what_must_be_made_safe(told):
    told = told.began("operator").chose("alarm").word("stop")

    decision = next(effect for effect in told.shown if isinstance(effect, Decide))
    assert decision.kind == "make_safe"
    assert decision.meanwhile == ("Leave the room and keep others out.",)
    assert "not cleared" in told.shown[-1].text


def test_a_stopped_session_is_resumed_where_it_was_and_in_danger_if_it_was(told):
    told = told.began("operator").chose("none")

    assert told.word("stop").word("resume").ask == told.ask
    assert told.chose("wet").word("stop").word("resume").state.stage is Stage.HALTED
    assert told.word("resume").topics()[0] == "refused"


# -- listening -----------------------------------------------------------------------------------


def test_what_is_understood_is_shown_back_and_kept_in_the_persons_own_words(told):
    told = (
        told.began("operator")
        .chose("none", "dry")
        .said("pop's gone flat mate", Fact("symptom", "gas.flat"), rest="mate")
    )

    assert "I take that as: drinks are flat." in told.said_back()
    assert told.state.complaint == "pop's gone flat mate"
    assert told.state.stage is Stage.NARROWING


def test_two_lines_that_are_not_understood_lead_to_the_questions(told):
    told = told.began("operator").chose("none", "dry").said("it is haunted")
    assert told.ask.id == "complaint"

    told = told.said("by a ghost")
    assert told.state.stage is Stage.NARROWING
    assert told.state.complaint == "it is haunted / by a ghost"


def test_a_doubtful_fact_counts_only_after_a_yes(told):
    doubtful = Fact("symptom", "gas.flat", certain=False, score=0.6, words="a bit off")
    asked = told.began("operator").chose("none", "dry").said("a bit off", doubtful)

    assert asked.ask.about == "confirm"
    assert asked.ask.text == "Do you mean: drinks are flat?"
    assert [a.finding.check for a in asked.chose("yes").state.answers][-1] == "gas.flat"
    assert len(asked.chose("no").state.answers) == len(asked.state.answers)
    assert "a bit off" in asked.chose("no").state.unheard


def test_rivals_for_the_same_words_are_offered_side_by_side(told):
    rivals = [Fact("symptom", name, certain=False, words="off") for name in ("gas.flat", "barrel.runny@2")]
    asked = told.began("operator").chose("none", "dry").said("off", *rivals)

    assert [option.label for option in asked.ask.options] == [
        "drinks are flat",
        "drinks runny, barrel 2 (cherry)",
        "None of these",
    ]
    assert asked.chose("2").state.answers[-1].finding.check == "barrel.runny@2"


def test_a_symptom_of_an_unnamed_barrel_is_asked_for(told):
    asked = (
        told.began("operator")
        .chose("none", "dry")
        .said("runny", Fact("symptom", "barrel.runny", words="runny"))
    )

    assert [option.id for option in asked.ask.options] == ["barrel.runny@1", "barrel.runny@2", "no"]
    picked = asked.said("the left one", Fact("which", value="1"))
    assert picked.state.answers[-1].finding.check == "barrel.runny@1"


def test_a_barrel_named_before_decides_which_one_is_meant(told):
    told = told.began("operator").chose("none", "dry").said("it is the right one", Fact("which", value="2"))
    told = told.said("runny", Fact("symptom", "barrel.runny", words="runny"))

    assert told.state.answers[-1].finding.check == "barrel.runny@2"


def test_every_barrel_that_is_named_counts(told):
    told = (
        told.began("operator")
        .chose("none", "dry")
        .said("both runny", Fact("symptom", "barrel.runny", which=(1, 2)))
    )

    assert [a.finding.check for a in told.state.answers[-2:]] == ["barrel.runny@1", "barrel.runny@2"]


def test_a_complaint_told_already_is_not_asked_for(told):
    told = told.began("operator").said("flat", Fact("symptom", "gas.flat")).chose("none", "dry")

    assert told.state.stage is Stage.NARROWING


def test_a_complaint_told_early_is_kept_in_the_persons_own_words():
    told = Told(parlour_case()).began().said("fizz has gone", Fact("symptom", "gas.flat"))

    assert told.state.complaint == "fizz has gone"


def test_a_bare_yes_to_a_choice_of_several_is_asked_back():
    asked = (
        Told(parlour_case())
        .began()
        .chose("none", "dry")
        .said("runny", Fact("symptom", "barrel.runny", words="runny"))
    )

    assert asked.said("yes", Fact("yes")).ask == asked.ask


def test_the_status_names_stage_leading_cause_and_doubt(told):
    told = told.began("operator").chose("none", "dry").said("flat", Fact("symptom", "gas.flat"))
    now = status(told.case, told.state)

    assert now.stage == "narrowing"
    assert now.leading.id == "gas.cylinder.empty"
    assert now.bits_left == pytest.approx(
        told.case.believe(tuple(a.finding for a in told.state.answers)).bits
    )


def test_before_the_complaint_no_cause_is_named(told):
    told = told.began("operator").chose("none", "dry")

    assert (told.ask.id, status(told.case, told.state).leading) == ("complaint", None)


# -- questions back ------------------------------------------------------------------------------

WHY = Fact("ask", value="why", words="why")


def test_a_question_back_is_no_name_of_a_site_and_no_complaint():
    at_site = Told(parlour_case()).began("operator", site="")
    asked = at_site.said("why?", WHY)

    assert at_site.ask.id == "site"
    assert (asked.ask, asked.state.site) == (at_site.ask, "")
    assert asked.shown[0].text == "It goes into the record."
    listening = Told(parlour_case()).began().chose("none", "dry")
    assert listening.said("why", WHY).state.complaint == ""
    assert listening.said("why", WHY).ask == listening.ask


def test_a_name_with_a_question_word_in_it_is_still_a_name():
    told = Told(parlour_case()).began("operator", site="").said("Why Not Bar", WHY)

    assert told.state.site == "Why Not Bar"


@pytest.mark.parametrize(
    ("words", "role"),
    [
        ("tech, panel open", "technician"),
        ("i'm on the helpdesk, got a lad on the phone", "helpdesk"),
        ("just dave on the kiosk", "operator"),
        ("fridge engineer here", "refrigeration"),
        ("hello there", ""),
    ],
)
def test_a_role_is_known_in_a_sentence_and_the_longest_name_of_one_counts(words, role):
    assert roles.named(shipped_case().machine.roles, words) == role
