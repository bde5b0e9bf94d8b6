"""Taking back in all the ways people do it, and what only sounds like it: common practice of speech, no source."""

import pytest
from hearing import firsts, heard


def told(said, asked=None):
    """Return whether a line takes something back, the numbers and the barrels that it tells beside that."""
    facts, _ = heard(said, asked)
    numbers = [float(fact.value) for fact in facts if fact.kind == "reading"]
    barrels = {barrel for fact in facts if fact.kind in {"which", "symptom"} for barrel in fact.which}
    return any(fact.kind == "correct" for fact in facts), numbers, sorted(barrels)


@pytest.mark.parametrize(
    "said",
    [
        "68*",
        "nope 68",
        "er no 68",
        "or rather 68",
        "should be 68",
        "meant to type 68",
        "78, no, 68",
        "78... hang on, 68",
        "its 68, not 78",
        "i said 78 but its 68",
        "i put 78, should be 68",
        "gave you 78 before, thats wrong, its 68",
        "68, i said 78 before but thats wrong",
        "68, not what i said before",
        "forget the 78 its 68",
        "the 78 was wrong, 68",
        "was holding it, i had it upside down, 68",
        "fat fingered that, 68",
        "slip of the thumb, 68",
        "delete that, 68",
        "now i look again its 68",
        "on second look its 68",
        "i lie, 68",
        "i read the wrong number out, its 68",
    ],
)
def test_a_number_taken_back_leaves_only_the_right_one(said):
    assert told(said, "K035") == (True, [68], [])


def test_a_unit_or_quantity_taken_back_leaves_the_right_one():
    assert told("i said psi, i meant bar, 4.6", "K035") == (True, [4.6], [])
    assert firsts("i read you the regulated by mistake, supply is 66", "K097") == [
        "correct",
        "reading gas_supply 66",
    ]
    assert firsts("that was the water one, gas supply is 66", "K097") == ["correct", "reading gas_supply 66"]


def test_what_a_wrong_number_was_about_still_names_the_right_one():
    assert firsts("the water number i gave was nonsense, its 81") == ["correct", "reading water 81"]


@pytest.mark.parametrize(
    ("said", "barrel"),
    [
        ("i got left and right the wrong way round, its the cola", 1),
        ("mixed up my left and right, its the left one", 1),
        ("i mixed up the cola and the cherry, its the cherry", 2),
        ("counted from the wrong side, number 1", 1),
        ("when i said cola i meant cherry", 2),
        ("when i said right i meant left", 1),
        ("where i said blue it should be red", 2),
        ("for blue read red", 2),
        ("i meant 1 not 2", 1),
        ("not 3, i meant 2", 2),
        ("did i say the blue? meant the red", 2),
        ("sorry wrong one, cherry", 2),
        ("wrong colour, red", 2),
        ("i keep saying cola, its cherry", 2),
        ("not cola like i said, cherry", 2),
        ("cola sorry not cherry", 1),
        ("oh it isnt the cola its the blue", 3),
        ("ive had a proper look, its the cherry", 2),
    ],
)
def test_a_barrel_taken_back_leaves_only_the_right_one(said, barrel):
    assert told(said) == (True, [], [barrel])


@pytest.mark.parametrize(
    "said",
    [
        "forget everything i said",
        "take back what i said",
        "disregard my last message",
        "delete my last answer",
        "rub that out",
        "ignore me",
        "that was a mistake",
        "that wasnt meant for you",
        "wrong window",
        "sent that too soon",
        "i spoke too soon",
        "i chose the wrong letter",
        "i didnt mean to say that",
        "i need to correct something",
        "never mind what i said",
        "let me rephrase that",
    ],
)
def test_taking_back_alone_tells_nothing_else(said):
    assert firsts(said) == ["correct"]


@pytest.mark.parametrize(
    ("said", "asked", "fact"),
    [
        ("i said dry, its sticky", "K076", "answer K076 sticky"),
        ("had a proper look, its shut", "K037", "answer K037 shut"),
        ("on closer inspection its shut", "K037", "answer K037 shut"),
        ("come to think of it, it began on thursday", None, "began thursday"),
    ],
)
def test_other_facts_stand_beside_what_was_taken_back(said, asked, fact):
    facts = firsts(said, asked)

    assert "correct" in facts
    assert fact in facts


@pytest.mark.parametrize(
    ("said", "asked"),
    [
        ("it was fine then it stopped", None),
        ("no, its the cherry", "K025"),
        ("no more than 45", "K035"),
        ("not 60 yet, 45", "K035"),
        ("sorry took a while, 68", "K035"),
        ("it was 78 this morning, now 68", "K035"),
        ("64 or 65, flicks between", "K098"),
        ("four or five alerts came on", None),
        ("someone put the wrong box on the cola", None),
        ("i was wrong footed by the queue", None),
        ("someone mixed up left and right boxes", None),
        ("its still not freezing like i said", None),
        ("do i undo the nut", None),
        ("i looked again and still nothing", None),
        ("hang on a minute", None),
        ("after all that it still leaks", None),
    ],
)
def test_what_only_reports_takes_nothing_back(said, asked):
    assert not told(said, asked)[0]
