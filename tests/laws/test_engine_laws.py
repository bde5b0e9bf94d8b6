"""Laws of the conversation, over random walks and arbitrary lists of events."""

from __future__ import annotations

from functools import cache

import pytest
from casts import parlour_case, shipped_case
from event_strategies import events
from hazards import HazardWatch
from honest import session
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from walks import walk

from assistant.engine import MOVES, OPENING, Stage, open_state, step
from assistant.engine.effects import Ask, Tell
from assistant.engine.events import Asked, Began, Chose, Measured, Said

SEEDS = range(40)
TELLS_ONLY = ("why", "causes", "facts", "where", "what", "help")
calm = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def fold(case, told, state=OPENING):
    shown = []
    for event in told:
        state, more = step(case, state, event)
        shown.append(more)
    return state, tuple(shown)


OBLIGING = range(100, 130)  # walks of people who mostly do what they are asked, and so get to the end


@cache
def one_walk(seed):
    """Return (before, event, after, shown) of every step of a random walk."""
    seen = []
    steps, obliging = (80, 1.0) if seed in OBLIGING else (50, 0.8)
    walk(parlour_case(), seed, steps, obliging=obliging, watch=lambda *one: seen.append(one))
    return tuple(seen)


def every_step(seeds=SEEDS):
    return (one for seed in seeds for one in one_walk(seed))


@pytest.mark.parametrize("seed", range(30))
def test_nobody_is_shown_what_is_not_theirs_nor_before_its_cautions_and_gates(seed):
    watch = HazardWatch(parlour_case())

    walk(parlour_case(), 1000 + seed, 80, obliging=0.9, watch=watch)

    assert watch.asked > 0


def test_the_hazard_rule_holds_on_the_shipped_pack_and_every_stage_is_reached():
    watch, reached = HazardWatch(shipped_case()), set()

    def seen(before, event, after, shown):
        reached.add(after.stage)
        watch(before, event, after, shown)

    for seed in range(3):
        walk(shipped_case(), seed, 40, obliging=0.95, watch=seen)
    ended = session(shipped_case(), "gas_supply.cylinder_valve.shut", "operator", watch=seen)
    session(shipped_case(), "barrel.rear_seal.worn@1", "technician", watch=seen)

    assert ended.closed.outcome == "cured"
    assert reached == set(Stage)
    assert watch.asked > 100


@calm
@given(st.lists(events, max_size=25))
def test_any_list_of_events_ends_without_an_exception(told):
    state, shown = fold(parlour_case(), told)

    assert isinstance(state.stage, Stage)
    assert len(shown) == len(told)


@calm
@given(st.lists(events, max_size=12), st.integers(0, 10_000))
def test_any_list_of_events_may_follow_a_sensible_beginning(told, seed):
    state, _ = fold(parlour_case(), walk(parlour_case(), seed, 12, obliging=1.0))

    after, _ = fold(parlour_case(), told, state)

    assert isinstance(after.stage, Stage)


@pytest.mark.parametrize("stage", Stage)
@pytest.mark.parametrize(
    "event", [Began(role="operator"), Said("hello"), Chose("yes"), Measured(70.0, "psi"), Asked("why")]
)
def test_what_the_table_does_not_list_is_refused_and_changes_nothing(stage, event):
    if (stage, type(event)) in MOVES:
        return
    found = [state for _, _, state, _ in every_step((*range(12), *OBLIGING)) if state.stage is stage]
    assert found

    for state in found:
        after, shown = step(parlour_case(), state, event)

        assert after is state
        assert shown[0].topic == "refused"


def test_each_stage_and_each_kind_of_event_is_in_the_table_or_meant_to_be_refused():
    refused = {(stage, kind) for stage in Stage for kind in (Began, Said, Chose, Measured, Asked)} - set(
        MOVES
    )

    assert {stage for stage, kind in refused if kind is not Began} == {Stage.CLOSED}
    assert {stage for stage, kind in refused if kind is Began} == set(Stage) - {Stage.INTAKE}


def test_an_answer_taken_back_and_given_again_makes_the_same_state():
    case, tried = parlour_case(), 0
    for before, event, after, shown in every_step():
        if after.previous is not before or after.stage in {Stage.CLOSED, Stage.HALTED}:
            continue
        back, _ = step(case, after, Asked("back"))
        again, shown_again = step(case, back, event)

        assert back == before
        assert again == after
        assert shown_again == shown
        tried += 1
    assert tried > 300


def test_notes_outlive_what_is_taken_back():
    case = parlour_case()
    for before, _, after, _ in every_step(range(10)):
        if after.previous is not before or after.stage in {Stage.CLOSED, Stage.HALTED}:
            continue
        noted, _ = step(case, after, Asked("note", "the key is at the bar"))
        back, _ = step(case, noted, Asked("back"))

        assert back.notes[-1] == "the key is at the bar"
        assert back.answers == before.answers


def test_the_same_events_give_the_same_effects_with_another_case_of_the_same_pack():
    told = [walk(parlour_case(), seed, 40) for seed in range(5)]
    fresh = parlour_case.__wrapped__()

    for events_told in told:
        assert fold(fresh, events_told) == fold(parlour_case(), events_told)


def test_any_prefix_can_be_carried_on_by_another_case():
    told = walk(parlour_case(), 7, 60)
    whole, shown = fold(parlour_case(), told)
    fresh = parlour_case.__wrapped__()

    for cut in range(0, len(told), 7):
        state, _ = fold(parlour_case(), told[:cut])
        rest, rest_shown = fold(fresh, told[cut:], state)

        assert rest == whole
        assert rest_shown == shown[cut:]


def test_the_open_question_comes_last_and_only_a_closed_session_has_none():
    for _, _, after, shown in every_step():
        if after.stage is Stage.CLOSED:
            assert after.open is None
            assert not isinstance(shown[-1], Ask)
        else:
            assert isinstance(shown[-1], Ask)
            assert sum(isinstance(effect, Ask) for effect in shown) == 1


def test_a_question_has_words_and_options_that_can_be_told_apart():
    for _, _, _, shown in every_step():
        for ask in (effect for effect in shown if isinstance(effect, Ask)):
            ids = [option.id for option in ask.options]

            assert ask.text.strip()
            assert len(set(ids)) == len(ids)
            assert all(option.label.strip() for option in ask.options)


def test_every_text_is_whole_and_ends_like_a_sentence():
    listed = {"causes", "costs", "facts", "help"}
    for _, _, _, shown in every_step():
        for told in (effect for effect in shown if isinstance(effect, Ask | Tell)):
            assert told.text == told.text.strip()
            assert ".." not in told.text
            assert "None" not in told.text.split()
            assert told.text.endswith((".", "?", "!", '"', ":")) or getattr(told, "topic", "") in listed, (
                told.text
            )


def test_nothing_counts_twice():
    case = parlour_case()
    for _, _, state, _ in every_step():
        given = [(answer.finding.check, answer.finding.cured) for answer in state.answers]
        checks = [(case.check(name).reading, cured) for name, cured in given if case.has_check(name)]
        read = [pair for pair in checks if pair[0]]

        assert len(set(given)) == len(given)
        assert len(set(read)) == len(read)


def test_words_that_only_tell_change_nothing():
    for _, event, after, _ in every_step(range(6)):
        for word in TELLS_ONLY:
            same, _ = step(parlour_case(), after, Asked(word, getattr(event, "argument", "")))

            assert same == after


def test_a_danger_stops_everything_until_it_is_said_to_be_safe():
    left = 0
    for before, event, after, _ in every_step():
        if before.stage is not Stage.HALTED or after.stage is Stage.HALTED:
            continue
        left += 1

        if isinstance(event, Asked) and event.word == "stop":
            assert after.stage is Stage.CLOSED
            continue
        assert before.open.kind == "safe_by"
        assert isinstance(event, Chose | Said)
        assert {name for name, _ in after.cleared} >= set(before.halts)
        assert not after.halts
    assert left > 20


def test_two_faults_at_once_are_found_one_after_the_other():
    pair = ("gas.valve.shut", "gas.cylinder.empty")
    ended = session(parlour_case(), pair)

    assert {decision.remedy for decision in ended.decided} == {"gas.open_valve", "gas.change_cylinder"}
    assert set(ended.done) == {"gas.open_valve", "gas.change_cylinder"}
    assert ended.closed.outcome == "cured"


def test_the_order_of_checks_is_asked_for_when_the_session_opens():
    assert open_state(parlour_case(), by="bits").by == "bits"
