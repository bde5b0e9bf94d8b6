"""The limits and sequences that the shipped pack tells people are those that were published.

Each check names its source; "from memory" where the text itself was not at hand.
"""

from __future__ import annotations

import re

import pytest
from casts import shipped_case

from graph.physics import WORKOUTS
from graph.units import convert

WORKING_LIMIT_PPM = 5000  # 8 hours: 29 CFR 1910.1000, Table Z-1; ACGIH TLV-TWA 1993-94
SHORT_LIMIT_PPM = 15000  # 15 minutes: HSE EH40/2005, from memory; NIOSH and ACGIH allow 30,000
DANGER_PPM = 40000  # immediately dangerous to life or health: NIOSH, May 1994
PHASES = (  # 29 CFR 1910.147(d)(1) to (d)(6): the order of lockout
    ("prepare", r"\bwarn\b|tell the operator"),
    ("shut down", r"barrels off|switch the barrels off"),
    ("isolate", r"\bshut the\b|isolator off|isolator locked"),
    ("lock", r"\blocked\b"),
    ("release", r"\bbleed\b|\bdischarge"),
    ("verify", r"\bprove\b|proved"),
)


@pytest.fixture(scope="module")
def machine():
    return shipped_case().machine


def caution(machine, name):
    return next(each for each in machine.cautions if each.id == f"caution.{name}")


def check(machine, name):
    return next(each for each in machine.checks if each.id == name)


def steps(machine, gate):
    return next(each for each in machine.gates if each.id == f"gate.{gate}").steps


def texts(machine):
    """Return every sentence of cautions, gates, checks and remedies that may state a limit."""
    for each in machine.cautions:
        yield from (each.do, each.do_not)
    for owner in (*machine.gates, *machine.remedies):
        for step in owner.steps:
            yield from (step.do, step.confirm, step.cannot)
    for each in machine.remedies:
        yield from (item.text for item in each.verify)
    for each in machine.checks:
        yield from each.ask.values()
        yield from (text for outcome in each.outcomes for text in (outcome.label, outcome.then))


def percent_to_ppm(text):
    return convert(float(text), "%", "ppm")


# -- carbon dioxide in the air -------------------------------------------------------------------


def test_the_caution_states_the_three_limits_of_carbon_dioxide(machine):
    stated = re.findall(r"([\d.]+) percent", caution(machine, "co2_build_up").do)

    assert [percent_to_ppm(text) for text in stated] == [WORKING_LIMIT_PPM, SHORT_LIMIT_PPM, DANGER_PPM]


def test_nobody_is_told_to_work_above_the_limit_of_eight_hours(machine):
    """29 CFR 1910.1000, Table Z-1."""
    allowed = [x for text in texts(machine) for x in re.findall(r"less than ([\d.]+) percent CO2", text)]

    assert len(allowed) >= 3
    assert {percent_to_ppm(text) for text in allowed} == {WORKING_LIMIT_PPM}


def test_a_detector_at_the_limit_of_eight_hours_is_danger(machine):
    """29 CFR 1910.1000, Table Z-1."""
    asked = check(machine, "safety.gas_place")
    high = next(outcome for outcome in asked.outcomes if outcome.danger)

    assert high.danger == "caution.co2_build_up"
    assert percent_to_ppm(high.band[0]) == WORKING_LIMIT_PPM


def test_the_bottle_of_the_caution_fills_the_room_as_it_says(machine):
    """0.5437 m3/kg at 20 C and 1 atm: Span and Wagner (1996), the equation evaluated."""
    text = caution(machine, "co2_in_closed_room").do
    kg, percent, room = map(float, re.search(r"a (\d+) kg .* (\d+) percent .* (\d+) cubic", text).groups())

    assert "half a cubic metre" in text
    assert percent == pytest.approx(100 * kg * 0.5437 / room, abs=0.5)


def test_an_oxygen_meter_does_not_clear_a_room(machine):
    """9.07 kg in 100 m3: 4.93 % CO2, above the NIOSH limit of 4 %, while oxygen still reads 19.96 %.

    Oxygen by the room formula 21 (1 - Vg/Vr) after BCGA GN11; 19.5 % is where oxygen meters alarm.
    """
    share = WORKOUTS["room_co2"].solve(released=9.07, length=8, width=5, height=2.5).value
    oxygen = 21 * (1 - share / 100)

    assert percent_to_ppm(share) > DANGER_PPM
    assert oxygen > 19.5
    assert "oxygen meter does not clear a room" in caution(machine, "co2_build_up").do_not


# -- cylinders -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("celsius", "psig"), [(10, 638.3), (15, 723.1), (20, 816.2), (25, 918.5), (30, 1031.6)]
)
def test_a_bottle_with_liquid_reads_normal_at_any_room_temperature(machine, celsius, psig):
    """Saturation of carbon dioxide: Span and Wagner (1996), the equation evaluated."""
    del celsius
    low, high = check(machine, "gas_supply.high_side_dial").outcomes[0].band

    assert low < psig < high


def test_a_bottle_in_the_cold_is_judged_at_its_temperature(machine):
    """490.8 psig at 0 C lies below the band; brought to 20 C it is 816 psig: Span and Wagner (1996)."""
    asked = check(machine, "gas_supply.high_side_dial")
    low, high = asked.outcomes[0].band
    value = WORKOUTS[asked.work_out].solve(dial=490.8, temperature=0).value

    assert not low < 490.8 < high
    assert low < value < high


def test_contents_are_known_by_weight_only(machine):
    """Gibbs phase rule: with liquid left the pressure says nothing of the contents."""
    normal = check(machine, "gas_supply.high_side_dial").outcomes[0]

    assert "does not show how full" in normal.then
    assert check(machine, "gas_supply.cylinder_weight").work_out == "gas_left"


def test_no_bottle_is_let_grow_hotter_than_the_rule(machine):
    """125 F, 52 C: CGA P-1, from memory."""
    stated = re.search(r"never above (\d+) degrees", caution(machine, "high_pressure_cylinder").do_not)

    assert float(stated[1]) <= convert(125, "F", "C")


# -- lockout -------------------------------------------------------------------------------------


def phases(step):
    return [number for number, (_, words) in enumerate(PHASES) if re.search(words, step.do.casefold())]


@pytest.mark.parametrize("gate", ["electrical", "fluids", "motion"])
def test_a_gate_isolates_before_it_releases_and_releases_before_it_verifies(machine, gate):
    """29 CFR 1910.147(d)(3) isolate, (d)(4) lock, (d)(5) release what is stored, (d)(6) verify."""
    order = [phases(step) for step in steps(machine, gate)]
    isolate, release, verify = (
        [at for at, seen in enumerate(order) if number in seen] for number in (2, 4, 5)
    )

    assert isolate
    assert min(isolate) <= min(release or verify)
    assert max(verify) >= max(release or verify)


def test_electricity_is_locked_and_the_tester_proved_before_and_after(machine):
    """29 CFR 1910.147(d)(4); 1910.333(b)(2)(iv)(B), from memory."""
    words = " ".join(step.do for step in steps(machine, "electrical"))

    assert re.search(r"locked and tagged", words)
    assert re.search(r"tester on a known source, prove dead at the work, prove the tester again", words)


def test_what_can_build_up_again_is_looked_at_again(machine):
    """29 CFR 1910.147(d)(5)(ii): verification goes on where energy can re-accumulate."""
    last = steps(machine, "fluids")[-1]

    assert last.wait >= 2
    assert "still 0" in last.confirm


def test_no_gate_can_be_waved_through(machine):
    """29 CFR 1910.147(d): each step is confirmed, and only a person who may do the work does it."""
    for gate in ("electrical", "fluids", "motion"):
        for step in steps(machine, gate):
            assert step.confirm
            assert "operator" not in step.roles
            assert step.roles


# -- backflow ------------------------------------------------------------------------------------


def test_the_backflow_device_is_the_one_the_food_code_names(machine):
    """FDA Food Code 5-203.15(A): dual check with an intermediate vent, behind a screen of 100 mesh."""
    remedy = next(each for each in machine.remedies if each.id == "site_water.replace_backflow_preventer")
    words = " ".join(step.do for step in remedy.steps)

    assert re.search(r"dual check with an intermediate vent, behind a screen of at least 100 mesh", words)
    assert "vent free" in words
    assert remedy.send == "plumber"


def test_no_copper_stands_behind_the_device(machine):
    """FDA Food Code 5-203.15; New York 10 NYCRR 14-1.140: carbonated water dissolves copper."""
    warned = caution(machine, "carbonated_water_and_copper")
    found = check(machine, "site_water.backflow_device").outcomes

    assert "No copper after the device" in warned.do_not
    assert "copper" in next(each for each in found if each.id == "missing").then


# -- sensors -------------------------------------------------------------------------------------


def test_the_sensors_of_every_machine_keep_the_common_line(machine):
    """10 to 90 % of the supply over the range: distributors' tutorials on ratiometric sensors."""
    assert (machine.sensor.low_fraction, machine.sensor.high_fraction) == (0.1, 0.9)


# -- sources -------------------------------------------------------------------------------------


def test_every_published_source_is_cited_by_what_rests_on_it(machine):
    kinds = (
        machine.faults,
        machine.checks,
        machine.remedies,
        machine.cautions,
        machine.repeats,
        machine.services,
    )
    cited = {each.source for kind in kinds for each in kind}
    cited |= {each.source for gate in machine.gates for step in gate.steps for each in step.either}
    gates = {"hse_eh40", "osha_1910_147", "food_code_4_501_114"}  # gates keep no source of their own
    published = {source.id for source in machine.sources if source.kind == "published"}

    assert published <= cited | gates


def test_every_published_source_can_be_found(machine):
    for source in machine.sources:
        if source.kind == "published":
            assert source.title
            assert source.place or source.edition or source.note or re.search(r"\d", source.title)
