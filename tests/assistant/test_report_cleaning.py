"""The record of cleaning, the parts that were used, and what service comes next."""

from __future__ import annotations

import pytest
from casts import shipped_case
from reported import Held, at_work, cured, repairing

from assistant.engine import Stage
from assistant.facts import Fact
from assistant.reply import reply
from assistant.report.brief import brief
from assistant.report.exchanges import exchanges, standing
from assistant.report.markdown import markdown
from assistant.report.note import LONGEST, note
from assistant.report.paper import paper
from assistant.report.plain import plain
from assistant.report.readings import _from_record
from assistant.report.sheet import sheet
from assistant.report.wording import NO_SERVICE, NOT_CLEANED

SEAL, FILTER = "barrel.front_seal.leaking@1", "site_water.filter.blocked"
STRENGTH, CONTACT = "gate.sanitation#4", "gate.sanitation#5"


@pytest.fixture
def mixing():
    """Return a repair that opened the way of the drink, at the strength of the sanitiser."""
    return repairing(SEAL, STRENGTH)


# -- strength of the sanitiser ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("quantity", "within", "source"),
    [
        # FDA Food Code 4-501.114(A), least chlorine at 13 C and above; 40 CFR 180.940(a), strongest (memory).
        ("sanitiser_chlorine", (100, 200), "food_code_4_501_114"),
        # 200 ppm quaternary ammonium: a US state's food code; 40 CFR 180.940(a), strongest (from memory).
        ("sanitiser_quaternary", (200, 400), "cfr_40_180_940"),
        # FDA Food Code 4-501.114(B): iodine 12.5 to 25 mg/L (from memory).
        ("sanitiser_iodine", (12.5, 25), "food_code_4_501_114"),
        ("sanitiser_by_label", (90, 110), "common_practice"),  # common practice, no source
    ],
)
def test_the_limits_of_a_sanitiser_stand_in_the_pack_with_their_source(quantity, within, source):
    steps = shipped_case().gate("gate.sanitation").steps
    (found,) = (each for step in steps for each in step.either if each.quantity == quantity)

    assert (found.limits, found.source) == (within, source)


def test_the_question_names_the_limits_that_the_pack_judges_by():
    (step,) = (step for step in shipped_case().gate("gate.sanitation").steps if step.either)

    for each in step.either:
        low, high = each.limits
        assert f"{low:g} to {high:g}" in step.do


def test_contact_time_is_a_wait_of_the_longest_time_that_lines_need():
    """Two to five minutes in lines, 30 s and 1 min on surfaces; the trade's rule, common practice."""
    (wait,) = (step.wait for step in shipped_case().gate("gate.sanitation").steps if step.wait)

    assert wait == 5


@pytest.mark.parametrize(
    ("value", "quantity", "led_on"),
    [
        (100, "sanitiser_chlorine", True),
        (99, "sanitiser_chlorine", False),
        (201, "sanitiser_chlorine", False),
        (200, "sanitiser_quaternary", True),
        (199, "sanitiser_quaternary", False),
        (12.5, "sanitiser_iodine", True),
        (26, "sanitiser_iodine", False),
        (110, "sanitiser_by_label", True),
        (89, "sanitiser_by_label", False),
    ],
)
def test_a_strength_out_of_its_limits_does_not_lead_on(mixing, value, quantity, led_on):
    assert mixing.read(value, "", quantity).ask.id == (CONTACT if led_on else STRENGTH)


def test_a_number_alone_is_asked_of_which_sanitiser_it_is(mixing):
    mixing.read(150, "mg/L")
    assert [option.id for option in mixing.ask.options][:2] == ["sanitiser_chlorine", "sanitiser_quaternary"]

    assert mixing.chose("sanitiser_chlorine").ask.id == CONTACT


def test_a_yes_without_a_number_does_not_lead_on(mixing):
    assert mixing.chose("yes").ask.id == STRENGTH


def test_a_weak_mix_is_thrown_away_and_read_again_until_it_is_right(mixing):
    mixing.read(50, "", "sanitiser_chlorine").read(80, "", "sanitiser_chlorine")
    assert "mix it again" in " ".join(getattr(each, "text", "") for each in mixing.entries[-1].shown)
    assert mixing.state.stage is Stage.DOING

    assert mixing.read(120, "", "sanitiser_chlorine").ask.id == CONTACT


@pytest.mark.parametrize(
    ("typed", "led_to"),
    [
        ("chlorine 150 ppm", CONTACT),
        ("200 ppm quat", CONTACT),
        ("the strip shows 150 ppm chlorine", CONTACT),
        ("its chlorine, strip says 100", CONTACT),
        ("iodine 12.5", CONTACT),
        ("110 % of the label", CONTACT),
        ("chlorine 40 ppm", STRENGTH),
        ("quat 0.03 %", "sanitiser_chlorine"),  # no strip shows percent: asked back, too
        ("150 ppm", "sanitiser_chlorine"),  # of which one it is, is asked back
        ("the strip says 150", "sanitiser_chlorine"),
        ("the strip broke", STRENGTH),
    ],
)
def test_what_people_type_at_the_strip_is_the_reading_and_no_complaint(mixing, typed, led_to):
    """The pack knows "chlorine" as a taste, too: nothing of that is heard here."""
    mixing.event(reply(typed, mixing.ask, mixing.live))

    assert mixing.ask.id == led_to
    assert "product.chemical_taste" not in [answer.finding.check for answer in mixing.state.answers]


def test_danger_in_the_same_line_goes_before_the_strip(mixing):
    mixing.event(reply("someone feels dizzy, chlorine 100", mixing.ask, mixing.live))

    assert mixing.state.stage is Stage.HALTED


# -- the record of it ------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def whole():
    return repairing(SEAL, "").report()


def test_a_whole_repair_records_what_was_used_and_how_strong_it_was(whole):
    (row,) = whole.hygiene.readings

    assert whole.hygiene.complete
    assert (row.quantity, row.value, row.limits, row.within) == (
        "sanitiser_chlorine",
        100.0,
        "100 to 200 mg/L",
        True,
    )
    assert row.source == "FDA Food Code"


def test_the_report_and_the_note_say_with_what_it_was_sanitised(whole):
    words = "Chlorine of the sanitiser: 100 mg/L (100 to 200 mg/L; FDA Food Code): within limits"

    assert words in " ".join(plain(paper(whole)).split())
    assert "Cleaned and sanitised: chlorine of the sanitiser 100 mg/L." in note(whole)
    assert "Readings: chlorine" not in note(whole)


def test_work_that_stopped_before_the_cleaning_forbids_to_serve(mixing):
    report = mixing.chose("no").report()

    assert not report.hygiene.complete
    assert f"**STOP: {NOT_CLEANED}**" in markdown(paper(report))
    assert NOT_CLEANED in note(report)
    assert f"HAZARD    {NOT_CLEANED}" in brief(mixing.told(), report)
    assert len(note(report)) <= LONGEST


def test_work_that_left_the_way_of_the_drink_shut_says_nothing_of_cleaning():
    report = cured().report()

    assert report.hygiene is None
    assert "sanitis" not in plain(paper(report)).casefold()


def test_the_work_sheet_has_a_line_for_each_sanitiser_with_its_limits():
    case = shipped_case()
    text = plain(sheet(case, case.remedy("barrel.sanitise@1"), "technician"))

    assert "Chlorine of the sanitiser: ________ mg/L (100 mg/L to 200 mg/L)" in text
    assert "Out of limits: Throw it away and mix it again" in text


def test_what_a_number_was_said_to_be_of_stands_also_where_the_pack_asks_otherwise_now(mixing):
    """Read off the record alone: the number, then the question of which sanitiser it is."""
    held = mixing.read(150, "mg/L").chose("sanitiser_chlorine")
    rows = _from_record(held.live.case, standing(exchanges(held.record)), held.state.remedy)

    assert [(row.quantity, row.value) for row in rows][-1] == ("sanitiser_chlorine", 150.0)


# -- parts -----------------------------------------------------------------------------------------


@pytest.fixture
def counting():
    """Return a repair that was proved, at the question which parts were used."""
    return repairing(SEAL, "parts")


PARTS = ("front_o_ring", "scraper_blades", "tap_seals")


@pytest.mark.parametrize(
    ("answer", "used"),
    [
        ("all", PARTS),
        ("none", ()),
        ("tap_seals", ("tap_seals",)),
        ("unsure", None),
        ("yes", PARTS),
        ("no", ()),
    ],
)
def test_the_parts_that_were_used_are_those_that_are_named(counting, answer, used):
    report = counting.chose(answer).chose("no").report()

    assert report.parts_used == used
    assert report.work[0].parts == PARTS  # what was planned stays what it was


@pytest.mark.parametrize(
    ("words", "used"),
    [
        ("front o ring, tap seals", ("front_o_ring", "tap_seals")),
        ("the tap seals and a scraper blades", ("tap_seals", "scraper_blades")),
        ("tap seals + one M5 screw", ("tap_seals", "one m5 screw")),
        ("nothing", ()),
    ],
)
def test_parts_may_be_named_in_words_also_those_that_nobody_planned(counting, words, used):
    report = counting.said(words).chose("no").report()

    assert report.parts_used == used
    assert counting.entries[-1].shown[-1].parts == used


def test_the_papers_say_what_was_used_and_not_what_was_planned(counting):
    report = counting.chose("tap_seals").chose("no").report()

    assert "Parts used: tap seals." in note(report)
    assert "- **Parts used:** tap seals" in markdown(paper(report))
    assert "- **Parts planned:** front O-ring, scraper blades, tap seals" in markdown(paper(report))


def test_nobody_is_asked_for_parts_where_none_is_planned_or_nothing_was_done():
    asked = [entry.shown[-1].id for entry in cured().entries if hasattr(entry.shown[-1], "id")]

    assert "parts" not in asked
    assert cured().report().parts_used is None
    assert Held().word("stop").report().parts_used is None


# -- the end ----------------------------------------------------------------------------------------


def _not_found():
    """Return a session in which everything looked as it should."""
    well = {
        "barrel.volts": "good",
        "barrel.paddle_inside": "free",
        "gas.alarm": "absent",
        "barrel.turns": "yes",
    }
    held = Held("technician").chose("none", "dry")
    held.said(
        "all well",
        Fact("not_symptom", "gas.flat"),
        Fact("not_symptom", "barrel.runny"),
        Fact("answer", "gas.valve_open", value="open"),
        Fact("answer", "gas.weight", value="heavy"),
        Fact("reading", "gas_supply", value="69", unit="psi"),
    )
    while held.ask is not None:
        base = held.ask.id.partition("@")[0]
        held.chose(well.get(base, "no" if held.ask.about == "closing" else held.ask.options[0].id))
    return held


def _too_early():
    held = at_work().read(0.1, "%").chose("yes", "yes").read(70, "psi").read(69, "psi").chose("yes", "unsure")
    return held.chose("no") if held.ask is not None else held


@pytest.mark.parametrize(
    ("held", "outcome", "words"),
    [
        (cured, "cured", "Put right"),
        (_too_early, "cured_for_now", "Put right for now, not proved yet"),
        (lambda: Held().chose("alarm").word("stop"), "made_safe", "Made safe and waiting"),
        (_not_found, "not_found", "No cause found"),
    ],
    ids=["cured", "cured_for_now", "made_safe", "not_found"],
)
def test_every_end_is_said_first_in_report_and_note_with_who_was_there_and_for_how_long(held, outcome, words):
    report = held().report()

    assert report.outcome == outcome
    assert paper(report).first[0].title.startswith(words)
    assert note(report).startswith(words)
    assert [person.role for person in report.people]
    assert report.time.minutes == sum(each.minutes for each in report.time.roles) > 0


# -- service ---------------------------------------------------------------------------------------


def test_a_report_names_the_service_that_is_overdue_and_what_falls_due():
    """START is 25 November 2026: 197 days before it was 12 May, 183 days after that 11 November."""
    report = Held(serviced=(("water_filter", 197.0), ("brix", 10.0)), pack="").word("stop").report()

    assert [(row.id, row.last, row.due, row.state) for row in report.service] == [
        ("water_filter", "2026-05-12", "2026-11-11", "overdue"),
        ("brix", "2026-11-15", "2026-12-15", "ahead"),
    ]
    assert report.next_service == "Water filter cartridge, overdue since 2026-11-11"
    assert "| Brix of every flavour | 2026-11-15 | 2026-12-15 | ahead |" in markdown(paper(report))


def test_without_dates_no_service_is_set():
    report = Held(pack="").word("stop").report()

    assert (report.service, report.next_service) == ((), NO_SERVICE)


def test_a_repair_that_is_service_counts_from_the_end_of_its_session():
    """183 days after 25 November 2026 is 27 May 2027."""
    held = repairing(FILTER, "", serviced=(("water_filter", 400.0),))
    (row,) = held.report().service

    assert (row.id, row.last, row.due, row.here) == ("water_filter", "2026-11-25", "2027-05-27", True)
    assert (
        held.entries[-1].shown[-1].text.endswith("Next service: water filter cartridge is due in 183 days.")
    )


def test_a_session_that_went_on_days_later_counts_the_days():
    held = Held(serviced=(("brix", 10.0),), pack="").word("stop").wait(3 * 1440).word("resume").word("stop")
    (row,) = held.report().service

    assert (row.last, row.due) == ("2026-11-15", "2026-12-15")
