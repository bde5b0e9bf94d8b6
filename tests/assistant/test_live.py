"""The real conversation as the shells see it: its header, its words, and events told again."""

from __future__ import annotations

from functools import cache

import pytest

from assistant.conversation import Setup
from assistant.engine.events import Asked, Began, Chose, Measured, Said
from assistant.errors import WrongUse
from assistant.facts import Fact
from assistant.live import Live
from assistant.session import folded

SAFETY = (Began(role="technician", site="Pier Lantern"),)


@cache
def live():
    return Live.of(Setup())


def a_check(wanted):
    return next(check for check in live().machine.checks if wanted(check))


def test_the_header_names_pack_machine_and_ranking():
    header = Live(live().case, Setup(by="bits")).header("0.1.0", "2026-11-25T09:15:30+00:00")

    assert (header.program, header.pack, header.profile, header.by) == (
        "0.1.0",
        "frozen_drinks",
        "three_barrel",
        "bits",
    )
    assert header.digest == live().machine.digest


def test_the_ranking_reaches_the_engine():
    assert Live(live().case, Setup(by="bits")).open().by == "bits"


def test_the_words_and_roles_are_those_of_engine_and_pack():
    words = {each.word: each.help for each in live().words()}

    assert words["why"]
    assert {"back", "note", "handover", "help"} <= set(words)
    assert live().roles() == tuple(live().machine.roles)


def test_a_pack_that_is_not_there_is_wrong_use():
    with pytest.raises(
        WrongUse, match=r'There is no folder "/nowhere"; name the folder of a knowledge pack with --pack\.'
    ):
        Live.of(Setup(pack="/nowhere"))


def test_an_answer_told_again_names_check_outcome_and_barrel():
    check = a_check(lambda check: check.kind == "check" and check.barrel == 2)
    event = live().carried(Chose(check.outcomes[0].id, "1"), check.id)

    assert event == Said("1", (Fact("answer", check.id, check.ref, check.outcomes[0].id, which=(2,)),))


@pytest.mark.parametrize(("option", "kind"), [("present", "symptom"), ("absent", "not_symptom")])
def test_a_symptom_told_again_is_one(option, kind):
    symptom = a_check(lambda check: check.kind == "symptom" and check.barrel is None)
    event = live().carried(Chose(option, "1"), symptom.id)

    assert event == Said("1", (Fact(kind, symptom.id, symptom.ref),))


def test_a_reading_told_again_names_its_quantity():
    check = a_check(lambda check: check.reading)

    assert live().carried(Measured(70.0, "psi", "", "70"), check.id) == Measured(
        70.0, "psi", check.reading, "70"
    )
    assert live().carried(Measured(70.0, "psi", "no_such", "70"), check.id) is None
    assert live().carried(Measured(70.0, "psi"), "no_such") is None


def test_what_names_nothing_here_does_not_fit():
    check = a_check(lambda check: check.kind == "check")

    assert live().carried(Chose("no_such", "1"), check.id) is None
    assert live().carried(Chose("yes", "1"), "no_such") is None
    assert live().carried(Said("a", (Fact("symptom", "no_such"),)), "") is None
    assert live().carried(Said("a", (Fact("symptom", "no_such"), Fact("yes"))), "") == Said(
        "a", (Fact("yes"),)
    )
    assert live().carried(Asked("why"), "") == Asked("why")


def test_every_answer_told_again_out_of_turn_counts_as_evidence():
    """Each check of this role is answered before anything is asked, by its first harmless outcome."""
    for check in [check for check in live().machine.checks if check.kind == "check"][::9]:
        option = next(outcome for outcome in check.outcomes if not outcome.danger)
        event = live().carried(Chose(option.id, option.label), check.id)
        state = folded(live(), (*SAFETY, event)).state

        assert (check.id, option.id) in [(answer.finding.check, answer.outcome) for answer in state.answers]


def test_hearing_takes_the_phrases_of_the_pack():
    facts, rest = live().hear("no", "")

    assert [fact.kind for fact in facts] == ["no"]
    assert rest == ""
