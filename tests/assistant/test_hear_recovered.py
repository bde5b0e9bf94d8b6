"""Whether the trouble is over, in people's own words: common practice of speech, no source."""

import pytest
from hearing import heard

from assistant.engine.effects import Ask
from assistant.hear.recovered import recovered
from assistant.reply import reply
from assistant.wording.options import GONE

ASK = Ask("verification", "gone", "", 'You said: "drinks are flat". Is it good again now?', GONE)


class Ears:
    """Hears with the shipped pack."""

    def hear(self, text, asked):
        return heard(text, asked if asked != ASK.id else None)

    def words(self):
        return ()


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("yes its gone", "yes"),
        ("all good now", "yes"),
        ("pouring lovely now", "yes"),
        ("back to normal", "yes"),
        ("yep fizzy again", "yes"),
        ("no still flat", "no"),
        ("its better but not right", "no"),
        ("no change", "no"),
        ("too early", "unsure"),
        ("not yet", "unsure"),
        ("yes but its still runny", None),
        ("what do you mean?", None),
        ("the lid is blue", None),
    ],
)
def test_what_people_say_of_a_trouble_at_the_end(line, kind):
    assert recovered(line) == kind


def test_it_is_the_reply_and_no_new_complaint():
    assert [fact.kind for fact in reply("no still flat", ASK, Ears()).facts] == ["no"]


def test_a_danger_is_heard_all_the_same():
    said = reply("still the same and now it smells of burning", ASK, Ears())

    assert "danger" in {fact.kind for fact in said.facts}
