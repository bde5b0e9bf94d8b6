"""Laws of the conversation, over random walks and arbitrary lists of events."""

from __future__ import annotations

import pytest
from casts import parlour_case, shipped_case
from event_strategies import events
from hazards import HazardWatch
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from walks import walk

from assistant.engine import MOVES, OPENING, Stage, open_state, step
from assistant.engine.effects import Ask, Tell
from assistant.engine.events import Asked, Began, Chose, Measured, Said

SEEDS = range(60)
TELLS_ONLY = ("why", "causes", "facts", "where", "what", "help")
calm = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def fold(case, told, state=OPENING):
    shown = []
    for event in told:
        state, more = step(case, state, event)
        shown.append(more)
    return state, tuple(shown)


def every_step(case, seeds, steps=50):
    """Yield (before, event, after, shown) of random walks."""
    for seed in seeds:
        seen = []
        walk(case, seed, steps, watch=lambda *step_seen: seen.append(step_seen))  # noqa: B023
        yield from seen


@pytest.mark.parametrize("seed", range(40))
def test_nobody_is_shown_what_is_not_theirs_nor_before_its_cautions_and_gates(seed):
    watch = HazardWatch(parlour_case())

    walk(parlour_case(), 1000 + seed, 80, obliging=0.9, watch=watch)

    assert watch.asked > 0


def test_the_hazard_rule_holds_on_the_shipped_pack():
    watch = HazardWatch(shipped_case())

    for seed in range(6):
        walk(shipped_case(), seed, 60, obliging=0.95, watch=watch)

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
@pytest.mark.parametrize("event", [Began(role="operator"), Said("hello"), Chose("yes"), Measured(70.0, "psi"), Asked("why")])
def test_what_the_table_does_not_list_is_refused_and_changes_nothing(stage, event):
    if (stage, type(event)) in MOVES:
        return
    found = [state for _, _, state, _ in every_step(parlour_case(), range(12)) if state.stage is stage]
    assert found

    for state in found:
        after, shown = step(parlour_case(), state, event)

        assert after is state
        assert shown[0].topic == "refused"


def test_each_stage_and_each_kind_of_event_is_in_the_table_or_meant_to_be_refused():
    refused = {(stage, kind) for stage in Stage for kind in (Began, Said, Chose, Measured, Asked)} - set(MOVES)

    assert {stage for stage, kind in refused if kind is not Began} == {Stage.CLOSED}
    assert {stage for stage, kind in refused if kind is Began} == set(Stage) - {Stage.INTAKE}


def test_an_answer_taken_back_and_given_again_makes_the_same_state():
    case, tried = parlour_case(), 0
    for before, event, after, shown in every_step(case, SEEDS):
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
    for before, _, after, _ in every_step(case, range(10)):
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
    for _, _, after, shown in every_step(parlour_case(), SEEDS):
        if after.stage is Stage.CLOSED:
            assert after.open is None
            assert not isinstance(shown[-1], Ask)
        else:
            assert isinstance(shown[-1], Ask)
            assert sum(isinstance(effect, Ask) for effect in shown) == 1


def test_a_question_has_words_and_options_that_can_be_told_apart():
    for _, _, _, shown in every_step(parlour_case(), SEEDS):
        for ask in (effect for effect in shown if isinstance(effect, Ask)):
            ids = [option.id for option in ask.options]

            assert ask.text.strip()
            assert len(set(ids)) == len(ids)
            assert all(option.label.strip() for option in ask.options)


def test_every_text_is_a_plain_sentence():
    for _, _, _, shown in every_step(parlour_case(), SEEDS):
        for text in (effect.text for effect in shown if isinstance(effect, Ask | Tell)):
            assert "  " not in text.replace("%  ", "").replace("0.0  ", "").lstrip("+-0123456789. ") or "\n" in text
            assert ".." not in text
            assert "None" not in text


def test_nothing_counts_twice():
    case = parlour_case()
    for _, _, state, _ in every_step(case, SEEDS):
        given = [(answer.finding.check, answer.finding.cured) for answer in state.answers]
        checks = [(case.check(name).reading, cured) for name, cured in given if case.has_check(name)]
        read = [pair for pair in checks if pair[0]]

        assert len(set(given)) == len(given)
        assert len(set(read)) == len(read)


def test_words_that_only_tell_change_nothing():
    for _, event, after, _ in every_step(parlour_case(), range(10), 30):
        for word in TELLS_ONLY:
            same, _ = step(parlour_case(), after, Asked(word, getattr(event, "argument", "")))

            assert same == after


def test_a_danger_stops_everything_until_it_is_said_to_be_safe():
    case = parlour_case()
    for before, event, after, _ in every_step(case, SEEDS):
        if before.stage is not Stage.HALTED or after.stage is Stage.HALTED:
            continue
        said_safe = isinstance(event, Chose | Said | Asked)

        assert said_safe
        assert after.stage is Stage.CLOSED or not after.halts


def test_a_walk_on_the_shipped_pack_reaches_every_stage():
    reached = set()
    for seed in range(8):
        walk(shipped_case(), 100 + seed, 50, watch=lambda _b, _e, after, _s: reached.add(after.stage))

    assert reached >= set(Stage) - {Stage.PROVING}


def test_the_order_of_checks_is_asked_for_when_the_session_opens():
    assert open_state(parlour_case(), by="bits").by == "bits"
