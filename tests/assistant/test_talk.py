"""The conversation at a terminal: plain, scripted, and a real prompt on a pipe."""

from __future__ import annotations

import io

import pytest
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput
from stand_in import ASKS, WORDS, FakeClock, ListBook, StandIn

from assistant.engine.effects import Ask, Cause, Decide, Option, Tell, Warn
from assistant.engine.events import Asked, Began, Chose, Measured, Said
from assistant.engine.leading import Status
from assistant.layout import laid_out, text_of
from assistant.session import Desk, opened
from assistant.shell_wording import toolbar
from assistant.talk.converse import LONGEST, converse
from assistant.talk.history import KindHistory
from assistant.talk.painting import LOOKS, painted
from assistant.talk.prompt import PromptTerminal
from assistant.talk.terminal import PlainTerminal, answers
from assistant.talk.view import View, view_of

LEAD = Cause("seal", "F01", "Worn drip seal", 0.625)


class ScriptedTerminal:
    """A terminal whose person types the given lines and then leaves in the given manner."""

    def __init__(self, *lines, leave=EOFError):
        self.lines = list(lines)
        self.leave = leave
        self.shown = []
        self.said = []
        self.views = []

    def listen(self, view):
        self.views.append(view)
        if not self.lines:
            raise self.leave
        return self.lines.pop(0)

    def show(self, effects):
        self.shown.append(effects)

    def say(self, text):
        self.said.append(text)


def talked(terminal, role="operator"):
    book = ListBook()
    desk = Desk(StandIn(), book, FakeClock())
    session = converse(desk, desk.move(opened(StandIn()), Began(role=role)), terminal)
    return session, [event for _, event, *_ in book.pages[1:]]


def test_a_conversation_goes_on_until_it_closes():
    terminal = ScriptedTerminal("4.8 bar", "", "/w", "n", "never typed")

    session, events = talked(terminal)

    assert events == [Measured(4.8, "bar", "", "4.8 bar"), Asked("why"), Chose("no", "n")]
    assert session.closed
    assert terminal.lines == ["never typed"]


@pytest.mark.parametrize("leave", [EOFError, KeyboardInterrupt])
def test_whoever_leaves_keeps_the_session(leave):
    session, events = talked(ScriptedTerminal("70", leave=leave))

    assert events == [Measured(70, "", "", "70")]
    assert not session.closed
    assert session.ask == ASKS[2]


def test_what_was_open_is_shown_first_and_each_step_after_it():
    terminal = ScriptedTerminal("70")

    talked(terminal)

    assert terminal.shown == [(ASKS[1],), (Tell("taken", "I take that as 70."), ASKS[2])]


def test_the_terminal_sees_the_open_question_the_words_and_the_status():
    terminal = ScriptedTerminal()

    talked(terminal)

    assert terminal.views == [View(ASKS[1], WORDS, Status("NARROWING", LEAD, 1.5))]


def test_a_very_long_line_is_cut_and_that_is_said():
    terminal = ScriptedTerminal("x" * (LONGEST + 1))

    _, events = talked(terminal)

    assert events == [Said("x" * LONGEST, (), "x" * LONGEST)]
    assert terminal.said == ["That is very long: only its first 4000 characters are taken."]


def test_the_plain_terminal_writes_what_a_reader_of_the_output_needs():
    out = io.StringIO()
    talked(PlainTerminal(["70 psi\x1b", "2"], out, echo=True))

    assert out.getvalue().splitlines() == [
        "",
        "What does the supply gauge show?",
        "  where  beside the cylinder",
        "  a  too low",
        "  b  as it should be",
        "  c  not sure",
        "  letter = that answer; number = the reading, in psi unless you name a unit",
        "> 70 psi\\x1b",
        'I made nothing of "70 psi\\x1b".',
        "",
        "What does the supply gauge show?",
        "  where  beside the cylinder",
        "  a  too low",
        "  b  as it should be",
        "  c  not sure",
        "  letter = that answer; number = the reading, in psi unless you name a unit",
        "> 2",
        "I take that as 2.",
        "",
        "Does the handle drip?",
        "  1  Yes",
        "  2  No",
        "> ",
    ]


def test_a_script_is_one_answer_a_line_with_comments():
    script = ["\ufeff# the call of Tuesday\r\n", "\n", "  70 psi \n", "   # indented\n", "no"]

    assert list(answers(script)) == ["70 psi", "no"]


@pytest.fixture
def keyboard():
    with create_pipe_input() as pipe:
        yield pipe


def test_the_prompt_takes_a_typed_line(keyboard):
    keyboard.send_text("70 psi\r")
    terminal = PromptTerminal(source=keyboard, output=DummyOutput())

    assert terminal.listen(View(ASKS[1], WORDS)) == "70 psi"


def test_the_prompt_completes_with_tab(keyboard):
    """Completion runs beside the prompt, so Return is typed when the completed word is there."""
    keyboard.send_text("too\t")
    terminal = PromptTerminal(source=keyboard, output=DummyOutput())
    buffer = terminal._session.default_buffer  # noqa: SLF001 -- nobody else needs to see its text
    buffer.on_text_changed += lambda _: keyboard.send_text("\r") if buffer.text == "too low" else None

    assert terminal.listen(View(ASKS[1], WORDS)) == "too low"


def test_a_paste_of_several_lines_is_one_answer(keyboard):
    keyboard.send_text("\x1b[200~it drips\r\nsince Tuesday\n\x1b[201~\r")
    terminal = PromptTerminal(source=keyboard, output=DummyOutput())

    assert terminal.listen(View(ASKS[1], WORDS)) == "it drips\nsince Tuesday\n"


@pytest.mark.parametrize(("key", "leave"), [("\x03", KeyboardInterrupt), ("\x04", EOFError)])
def test_the_prompt_is_left_with_ctrl_c_and_ctrl_d(keyboard, key, leave):
    keyboard.send_text(key)
    terminal = PromptTerminal(source=keyboard, output=DummyOutput())

    with pytest.raises(leave):
        terminal.listen(View())


def test_a_whole_conversation_at_the_prompt(keyboard):
    keyboard.send_text("70\ry\r")
    session, events = talked(PromptTerminal(source=keyboard, output=DummyOutput(), colour=False))

    assert events == [Measured(70, "", "", "70"), Chose("yes", "y")]
    assert session.closed


def test_lines_typed_before_come_back_from_the_file(tmp_path):
    first = KindHistory(tmp_path / "new" / "history")
    first.append_string("it drips")
    first.append_string("caf\u00e9 \ud800")

    assert list(KindHistory(tmp_path / "new" / "history").load_history_strings()) == [
        "caf\u00e9 \ufffd",
        "it drips",
    ]


def test_a_history_that_cannot_be_used_is_done_without(tmp_path):
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    history = KindHistory(tmp_path / "file" / "history")

    history.append_string("it drips")

    assert list(history.load_history_strings()) == []
    assert history.get_strings() == ["it drips"]
    assert list(KindHistory(tmp_path).load_history_strings()) == []  # a folder is no file


@pytest.mark.parametrize(
    ("status", "width", "line"),
    [
        (
            Status("NARROWING", LEAD, 1.5),
            80,
            "narrowing | Worn drip seal 62 % | about 3 causes left, 1.5 bits",
        ),
        (Status("NARROWING", LEAD, 1.5), 56, "narrowing | Worn... 62 % | about 3 causes left, 1.5 bits"),
        (Status("NARROWING", LEAD, 1.5), 49, "narrowing | 62 % | about 3 causes left, 1.5 bits"),
        (Status("NARROWING", LEAD, 1.5), 44, "narrowing | about 3 causes left, 1.5 bits"),
        (Status("INTAKE"), 80, "intake"),
        (Status("NARROWING", None, 0.04), 80, "narrowing | nearly sure, 0.0 bits"),
        (Status("NARROWING", None, 0.04, plain=True), 80, "narrowing | nearly sure"),
        (
            Status("NARROWING", LEAD, 1.5, plain=True),
            80,
            "narrowing | Worn drip seal 62 % | about 3 causes left",
        ),
        (Status("NARROWING", None, 9.0, plain=True), 80, "narrowing | many causes left"),
        (Status("NARROWING", LEAD, 1.5), 5, "narro"),
    ],
)
def test_the_toolbar_is_one_line_that_fits(status, width, line):
    assert toolbar(status, width) == line
    assert len(line) <= width


YES = (Option("yes", "Yes"),)


def asked(unit="", options=YES):
    return Ask("check", "x", "", "x?", options, unit=unit)


@pytest.mark.parametrize(
    ("ask", "hint"),
    [
        (asked(), " | number = answer"),
        (asked("psi"), " | letter = answer, number = psi"),
        (asked(options=()), ""),
        (None, ""),
    ],
)
def test_the_toolbar_says_whether_a_letter_or_a_number_picks_an_answer(ask, hint):
    assert toolbar(Status("NARROWING"), 80, ask) == f"narrowing{hint}"


def test_what_to_type_makes_room_for_the_name_of_the_cause():
    lead = Cause("x", "X", "syrup connector not home, barrel 3 (blue raspberry)", 0.34)
    line = toolbar(Status("NARROWING", lead, plain=True), 80, asked("psi"))

    assert line == "narrowing | syrup connector not home, barrel 3 (blue raspberry) 34 %"
    assert toolbar(Status("NARROWING", LEAD, plain=True), 80, asked()).endswith("| number = answer")


@pytest.mark.parametrize("width", [30, 40, 80])
def test_nothing_shown_is_wider_than_the_terminal(width):
    long = "the supply gauge beside the cylinder shows a pressure " * 4
    effects = (
        Ask("check", "k", "", long, (Option("a", long), Option("b", long)), unit="psi", place=long),
        Tell("why", f"{long}\n  {long}"),
        Warn("c", "", long, long, long, long, stop=True),
        Decide("visit", "r", "", long, 0.5, long, (long,), (long,), (long,), urgency=long, meanwhile=(long,)),
    )

    lines = laid_out(effects, width)

    assert max(len(line.text) for line in lines) <= width
    assert {line.style for line in lines} == {"plain", "question", "quiet", "option", "stop", "decision"}


def test_line_breaks_and_indents_of_a_text_are_kept():
    assert text_of((Tell("facts", "first\n  second\n\nthird"),)) == "first\n  second\n\nthird"


def test_every_style_of_line_has_a_look_and_ends_its_line():
    lines = laid_out((Warn("c", "", "Gas", "leave", "stay", "all", stop=True),))

    fragments = painted(lines)

    assert fragments[1] == (LOOKS["stop"], "STOP: Gas\n")
    assert len(fragments) == len(lines)


def test_more_options_than_letters_lose_their_key_only():
    ask = Ask("check", "k", "", "Which?", tuple(Option(str(n), f"number {n}") for n in range(30)), unit="psi")

    assert "number 29" in text_of((ask,))


def test_the_view_follows_the_session():
    conversation = StandIn()
    session = opened(conversation)
    first = session.after(*conversation.step(session.state, Began(role="operator")))

    assert view_of(conversation, session).ask is None
    assert view_of(conversation, first).ask == ASKS[1]
