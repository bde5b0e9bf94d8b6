"""What a visit brings."""

from __future__ import annotations

from casts import shipped_case

from graph.visit import worth_carrying

NEEDS = ((0.6, ("pump", "seal")), (0.1, ("board",)), (0.002, ("fan", "seal")))


def test_a_part_is_brought_when_its_chance_times_a_second_visit_exceeds_carrying_it():
    assert worth_carrying(NEEDS, second_visit=150.0, carry=1.0) == ("seal", "pump", "board")
    assert worth_carrying(NEEDS, second_visit=150.0, carry=0.2) == ("seal", "pump", "board", "fan")


def test_what_the_van_has_aboard_is_not_picked():
    assert worth_carrying(NEEDS, 150.0, 1.0, stock=("seal",)) == ("pump", "board")


def test_only_the_work_that_somebody_may_do_is_thought_of_when_they_pack():
    case = shipped_case()
    belief = case.believe(())
    theirs = {remedy.id: p for p, remedy in case.work_of("gas_supplier", belief)}

    assert "gas_supply.change_cylinder" in theirs
    assert "electrics.replace_board_or_supply" not in theirs
    assert theirs.items() <= dict(belief.remedies).items()
