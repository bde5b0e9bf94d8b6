"""Replies, questions back, corrections, times, barrels and numbers: plain English, whatever the pack says."""

import pytest
from hearing import firsts, heard, shipped_machine, shorts

from assistant.hear.mention import named
from assistant.hear.numbers import numbers_in
from assistant.hear.spelling import Vocabulary
from assistant.hear.which import Barrels
from assistant.hear.words import stem, words_of


@pytest.mark.parametrize(
    "said",
    [
        "yes",
        "yeah",
        "yep done that",
        "ok done",
        "yes please",
        "sure thing",
        "that's correct",
        "aye",
        "go for it",
    ],
)
def test_yes(said):
    assert shorts(said) == ["yes"]


@pytest.mark.parametrize(
    "said",
    [
        "no",
        "nope",
        "no not at all",
        "nah mate",
        "not yet",
        "i dont think so",
        "not that i can see",
        "negative",
    ],
)
def test_no(said):
    assert shorts(said) == ["no"]


@pytest.mark.parametrize(
    "said",
    [
        "dunno",
        "no clue",
        "i'm not sure",
        "hard to tell",
        "haven't a clue",
        "no one here knows",
        "i think so",
        "maybe",
    ],
)
def test_unsure(said):
    assert shorts(said) == ["unsure"]


@pytest.mark.parametrize(
    "said",
    [
        "can't reach it",
        "i can't get behind it",
        "we don't have a ladder",
        "i'm not allowed to touch that",
        "no can do",
        "i can't do that",
        "i don't have a gauge",
    ],
)
def test_cannot(said):
    assert shorts(said) == ["cannot"]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("why", "ask why"),
        ("why does that matter", "ask why"),
        ("what's that got to do with it", "ask why"),
        ("where's that", "ask where"),
        ("where would i look for the drip tray", "ask C91 where"),
        ("which one is the condenser", "ask C66 where"),
        ("what's a dasher", "ask C56 what"),
        ("whats the backflow preventer", "ask C04 what"),
        ("what do you mean", "ask what"),
    ],
)
def test_questions_back_name_the_part_if_one_is_named(said, expected):
    assert shorts(said) == [expected]


@pytest.mark.parametrize(
    ("said", "asked", "expected"),
    [
        ("scratch that", None, ["correct"]),
        ("no sorry, it was the other barrel", None, ["correct"]),
        ("actually it's the left one", None, ["correct", "which 1 [1]"]),
        ("sorry, wrong one, it's barrel 3", None, ["correct", "which 3 [3]"]),
        ("wait no i meant the cherry", None, ["correct", "which 2 [2]"]),
        ("actually 47", "K097", ["correct", "reading gas_supply 47"]),
        ("make that 52 not 42", "K098", ["correct", "reading gas_regulated 52"]),
    ],
)
def test_corrections_stand_beside_the_new_fact(said, asked, expected):
    assert sorted(shorts(said, asked)) == sorted(expected)


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("it started on monday", "monday"),
        ("since last week", "last week"),
        ("ever since the storm", "storm"),
        ("for about three days now", "days"),
        ("only started today", "today"),
        ("began last night", "last night"),
        ("from about lunchtime", "lunchtime"),
        ("it started an hour ago", "hours"),
    ],
)
def test_when_it_began(said, value):
    assert f"began {value}" in shorts(said)


def test_an_event_beats_a_day_and_may_be_a_symptom_by_itself():
    assert shorts("since the engineer came on thursday") == ["began service", "symptom S59"]


def test_how_long_the_machine_ran_is_not_when_it_began():
    assert not any(fact.startswith("began") for fact in shorts("it has been switched on since nine"))


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("the gas is fine", ["fine gas"]),
        ("water pressure is normal", ["fine water"]),
        ("nothing wrong with the water", ["fine water"]),
        ("gas and water are both fine", ["fine gas", "fine water"]),
        ("cherry's ok", ["fine 2 [2]"]),
        ("the left one and the middle one are fine", ["fine 1,2 [1,2]"]),
    ],
)
def test_what_is_said_to_be_fine(said, expected):
    assert shorts(said) == expected


@pytest.mark.parametrize("said", ["the gas was fine yesterday", "the water isnt fine", "the rest are fine"])
def test_what_is_not_said_to_be_fine_now(said):
    assert not any(fact.startswith("fine") for fact in shorts(said))


@pytest.mark.parametrize(
    ("said", "barrels"),
    [
        ("left one", (1,)),
        ("the middle", (2,)),
        ("number two", (2,)),
        ("barrel 3", (3,)),
        ("the red one", (2,)),
        ("the brown one", (1,)),
        ("blue razz", (3,)),
        ("cherry and cola", (1, 2)),
        ("everything except cherry", (1, 3)),
        ("the outer two", (1, 3)),
        ("the two on the left", (1, 2)),
        ("second from the right", (2,)),
        ("fill failed on 2", (2,)),
    ],
)
def test_which_barrel_is_meant(said, barrels):
    words = words_of(said)

    assert named(Barrels.of(shipped_machine()).mentions(words), words) == barrels


@pytest.mark.parametrize(
    "said", ["no one knows", "all right", "right now", "it is brown", "that is all there is"]
)
def test_words_that_name_no_barrel(said):
    assert Barrels.of(shipped_machine()).mentions(words_of(said)) == ()


@pytest.mark.parametrize(
    ("said", "value", "high", "unit"),
    [
        ("seventy eight", 78, None, ""),
        ("four and a half bar", 4.5, None, "bar"),
        ("four and three quarters", 4.75, None, ""),
        ("three quarters", 0.75, None, ""),
        ("4,5 bar", 4.5, None, "bar"),
        ("1,200 psi", 1200, None, "psi"),
        ("4½", 4.5, None, ""),
        ("minus two and a half c", -2.5, None, "C"),
        ("-2.5c", -2.5, None, "C"),
        ("sixty odd", 60, 69, ""),
        ("between 55 and 60", 55, 60, ""),
        ("fifty to sixty psi", 50, 60, "psi"),
        ("55-60", 55, 60, ""),
        ("nine nine", 99, None, ""),
        ("one seven", 17, None, ""),
        ("7 0", 70, None, ""),
        ("a hundred and five", 105, None, ""),
        ("five point oh two volts", 5.02, None, "V"),
        ("nought", 0, None, ""),
        ("22.5 kilos", 22.5, None, "kg"),
    ],
)
def test_numbers_as_people_say_them(said, value, high, unit):
    found = numbers_in(words_of(said))

    assert [(number.value, number.high, number.unit) for number in found] == [(value, high, unit)]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("the water number is 71", ["reading water 71"]),
        ("gas supply 68, regulated 59", ["reading gas_supply 68", "reading gas_regulated 59"]),
        ("water fifty to sixty", ["reading water 50..60"]),
        ("cherry barrel is on 28", ["reading barrel 28 [2]"]),
        (
            "syrups are 65, 66 and 12",
            ["reading syrup 65 [1]", "reading syrup 66 [2]", "reading syrup 12 [3]"],
        ),
        ("it says 4.5 bar on the gas", ["reading gas_supply 4.5 bar"]),
        ("we have 3 kids and 2 taps here", []),
        ("call me on 07700 900123", []),
    ],
)
def test_a_number_is_a_reading_only_beside_the_name_of_a_quantity(said, expected):
    assert [fact for fact in shorts(said) if fact.startswith("reading")] == expected


@pytest.mark.parametrize(
    ("said", "asked", "expected"),
    [
        ("about 70", "K097", ["reading gas_supply 70"]),
        ("just under 70", "K097", ["reading gas_supply 70"]),
        ("seventy or so", "K097", ["reading gas_supply 70"]),
        ("off the scale", "K097", ["reading gas_supply 99"]),
        ("it's flat", "K097", ["reading gas_supply 0"]),
        ("it keeps changing between 60 and 70", "K097", ["reading gas_supply 60..70"]),
        ("four and three quarters bar", "K035", ["reading gas_low_dial 4.75 bar"]),
        ("the cherry one is 12", "K099", ["reading syrup 12 [2]"]),
    ],
)
def test_a_bare_number_is_the_reading_that_was_asked_for(said, asked, expected):
    assert shorts(said, asked) == expected


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("freezing", "freezes"),
        ("froze", "frozen"),
        ("leaking", "leaks"),
        ("fizzy", "fizz"),
        ("dripped", "drips"),
    ],
)
def test_forms_of_a_word_share_a_stem(one, other):
    assert stem(one) == stem(other)


def test_contractions_and_shorthand_are_written_out():
    said = [word.text for word in words_of("it isnt cold n wont set, cant u see")]

    assert said == ["it", "is", "not", "cold", "and", "will", "not", "set", ",", "can", "not", "you", "see"]


def test_slips_are_mended_towards_known_words_only():
    vocabulary = Vocabulary.of([words_of("the regulator is frozen solid")])
    mended = [word.text for word in vocabulary.mended(words_of("regluator frozensolid rubbish zzqx"))]

    assert mended == ["regulator", "frozen", "solid", "rubbish", "zzqx"]


@pytest.mark.parametrize(
    ("said", "topics"),
    [
        ("plenty of gas", ["gas"]),
        ("the gas is on", ["gas"]),
        ("gas seems fine to me", ["gas"]),
        ("gas readings are fine", ["gas"]),
        ("we have water", ["water"]),
        ("got power", ["power"]),
        ("boxes are all full", ["syrup"]),
        ("no problems with cherry", ["2"]),
        ("not enough gas", []),
        ("there is not enough water coming in", []),
    ],
)
def test_what_is_there_and_on_is_as_good_as_fine(said, topics):
    assert [fact.value for fact in heard(said)[0] if fact.kind == "fine"] == topics


@pytest.mark.parametrize(
    ("said", "outcome"),
    [
        ("puddle but nowhere near the sockets", "wet_away"),
        ("wet, but miles away at the far wall", "wet_away"),
        ("wet, and right by the plug", "wet_near_electrics"),
    ],
)
def test_a_part_that_says_little_does_not_make_a_danger_of_a_plain_reply(said, outcome):
    assert heard(said, "K005")[0][0].value == outcome


def test_no_at_the_beginning_outweighs_a_part_that_sounds_like_a_change():
    assert heard("nah nothing changed, the bottle's been on three weeks", "K014")[0][0].value == "no"


@pytest.mark.parametrize("said", ["i can smell gas", "funny smell of gas by the bottles"])
def test_a_smell_of_gas_is_treated_as_a_leak(said):
    assert {"S37", "K001"} <= {fact.ref for fact in heard(said)[0]}


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("where am i meant to look", "where"),
        ("is there a reason you're asking", "why"),
        ("what even is a backflow preventer", "what"),
    ],
)
def test_questions_back_in_other_words(said, kind):
    assert [(fact.kind, fact.value) for fact in heard(said, "K097")[0]] == [("ask", kind)]


def test_no_says_that_nobody_found_the_taste_strange():
    assert [(fact.kind, fact.value) for fact in heard("no", "K006")[0]] == [("answer", "normal")]


@pytest.mark.parametrize(
    ("said", "asked", "fact"),
    [
        ("gauge says 30 too so no", "S30", "answer S30 absent"),
        ("he says it comes out, so no", "S08", "answer S08 absent"),
        ("nothing at all comes out of it, so yes", "S08", "answer S08 present"),
    ],
)
def test_what_a_reply_comes_to_in_the_end_counts(said, asked, fact):
    assert fact in shorts(said, asked)


def test_a_hiss_that_stopped_was_one():
    assert "answer K001 none" not in shorts("it stopped hissing", "K001")


def test_who_came_is_no_danger():
    assert not [fact for fact in shorts("sparky's here") if fact.startswith("danger")]


@pytest.mark.parametrize(
    ("said", "danger"),
    [
        ("my little brother threw up after he had one", "danger K003 after_drinking?"),
        ("water is running down onto the mains cable", "danger K005 wet_near_electrics?"),
    ],
)
def test_what_may_be_a_danger_is_asked_about(said, danger):
    assert danger in shorts(said)


@pytest.mark.parametrize("asked", ["K010", "K037"])
def test_a_danger_told_beside_an_answer_to_something_else_is_heard(asked):
    told = shorts("no rush. but somebody got a shock off the front of it", asked)

    assert any(fact.startswith("danger K004 tingle") for fact in told)


@pytest.mark.parametrize(
    ("said", "asked"),
    [
        ("we dont have a pump on our water", "K035"),
        ("wont budge, i didnt want to force it", "K037"),
        ("the pump isnt doing a thing", "K060"),
    ],
)
def test_what_is_not_there_is_nothing_that_one_cannot_do(said, asked):
    assert "cannot" not in shorts(said, asked)


@pytest.mark.parametrize(("said", "asked"), [("dont have a gauge", "K035"), ("havent got one", "K109")])
def test_who_lacks_the_tool_cannot(said, asked):
    assert "cannot" in shorts(said, asked)


@pytest.mark.parametrize(
    "said",
    [
        "its sickly, had to bin 3 of them",
        "followed it, ends up on the wrong barrel",
        "had a good look, all fine",
    ],
)
def test_what_takes_nothing_back_is_no_correction(said):
    assert "correct" not in shorts(said, "K104")


@pytest.mark.parametrize(
    ("said", "began"),
    [
        ("been like it from june", "june"),
        ("blue won't freeze, been that way from saturday", "saturday"),
        ("we've put up with this for months", "months"),
        ("soft since the bank holiday", "bank holiday"),
    ],
)
def test_since_when(said, began):
    assert f"began {began}" in shorts(said)


def test_a_new_filter_is_no_delivery():
    told = shorts("ever since the filter got swapped the pipes judder")

    assert "began filter change" in told
    assert not [fact for fact in told if "S60" in fact]


@pytest.mark.parametrize(
    "said",
    ["opened up this morning and nothing would come out the blue", "fizz went out of everything last night"],
)
def test_a_trouble_told_in_small_words_is_guessed_and_no_mere_barrel(said):
    told = shorts(said)

    assert any(fact.startswith("symptom") for fact in told)
    assert not [fact for fact in told if fact.startswith("which")]


@pytest.mark.parametrize(
    ("said", "barrels"),
    [
        ("syrup low on 2 n 3", "[2,3]"),
        ("slush is like juice, left middle n right", "[1,2,3]"),
    ],
)
def test_barrels_in_a_row(said, barrels):
    assert any(fact.startswith("symptom") and (barrels in fact or "S01" in fact) for fact in firsts(said))


@pytest.mark.parametrize(
    "said",
    ["me and dan have both had a go at it", "the needle is way past the red", "none of the usual swell"],
)
def test_words_of_people_dials_and_drink_name_no_barrel(said):
    assert not [
        fact for fact in shorts(said) if fact.startswith("which") or "[2]" in fact or "[1,2,3]" in fact
    ]
