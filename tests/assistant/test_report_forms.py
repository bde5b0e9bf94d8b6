"""Reports as Markdown, page, JSON and note, read back by parsers that are not ours."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from html.parser import HTMLParser

import jsonschema
import pytest
from casts import parlour_case
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from reported import Held, at_work, cured, offered
from rich.cells import cell_len
from walks import walk

from assistant.facts import Fact
from assistant.report.brief import HEIGHT, WIDTH, brief
from assistant.report.document import Document, Section, Table, Text, Tick, Ticks
from assistant.report.markdown import escaped, markdown
from assistant.report.note import LONGEST, fitted, note
from assistant.report.page import page
from assistant.report.paper import paper
from assistant.report.plain import plain
from assistant.report.schema import report_json, report_schema
from assistant.visible import STEERING, visible

HOSTILE = (
    "<script>alert(1)</script>",
    "</style><img src=x onerror=alert(1)>",
    '"><a href="https://example.org">x</a>',
    "*bold* _it_ `code` [a](http://example.org) ![i](x) | cell | # no ~~gone~~",
    "&lt;b&gt; &amp; &#60;",
    "\x1b[2Jcleared\x07 \u202edrawkcab",
    "1. first\n- second\n# third\n---\n> fourth",
    "{{ 7 * 7 }} {% raw %} ${x}",
)
VOID = {"meta", "rect", "br"}


class Read(HTMLParser):
    """A page as its tags, attributes and visible text; complains of tags that do not close."""

    def __init__(self, text):
        super().__init__()
        self.open, self.tags, self.attributes, self.texts = [], [], [], []
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += [(tag, *each) for each in attrs]
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        if tag not in VOID:
            assert self.open.pop() == tag

    def handle_data(self, data):
        if not {"style", "title"} & set(self.open):
            self.texts.append(data)

    @property
    def words(self):
        return " ".join(" ".join(self.texts).split())


def hostile(text):
    return offered().word("note", text).report()


# -- page ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("text", HOSTILE)
def test_what_people_type_is_text_on_the_page_and_nothing_else(text):
    plain_page, read = Read(page(paper(hostile("nothing odd")))), Read(page(paper(hostile(text))))

    assert read.tags == plain_page.tags
    assert " ".join(visible(text, keep="\n").split()) in read.words
    assert STEERING.search("".join(read.texts).replace("\n", "")) is None


def test_the_page_needs_nothing_from_outside():
    read = Read(page(paper(cured().report())))

    assert not {"script", "link", "img", "iframe", "object", "a", "form"} & set(read.tags)
    assert not [
        each for each in read.attributes if each[1] in {"src", "href", "style"} or each[1].startswith("on")
    ]
    assert "url(" not in page(paper(cured().report()))


def test_the_page_knows_dark_screens_paper_and_narrow_windows():
    text = page(paper(cured().report()))

    assert {"@media (prefers-color-scheme: dark)", "@media print", "@media (max-width: 44rem)"} <= set(
        re.findall(r"@media [^{]*[^{ ]", text)
    )
    assert 'name="viewport"' in text


def test_the_page_says_what_the_report_says():
    report = cured().report()
    words = Read(page(paper(report))).words

    for text in (
        report.site,
        report.complaint,
        report.closing.removeprefix("Put right. "),  # which stands above it
        "5 psi (0.3 bar)",
        "65 to 72 psi",
        "Rosa",
        "+01:00",
        "March 2027",
    ):
        assert text in words


# -- markdown --------------------------------------------------------------------------------------


@pytest.mark.parametrize("text", HOSTILE)
def test_what_people_type_is_text_in_markdown_and_nothing_else(text):
    """Read by a CommonMark parser of its own, with tables and strike-through on."""
    reader = MarkdownIt("commonmark").enable(["table", "strikethrough"])

    def kinds(report):
        tokens = [
            t for token in reader.parse(markdown(paper(report))) for t in (token, *(token.children or ()))
        ]
        return [token.type for token in tokens if token.type != "text"]

    assert kinds(hostile(text)) == kinds(hostile("nothing odd"))


@given(st.text(max_size=60))
def test_any_text_comes_back_from_markdown_as_it_was(text):
    """Escaped in a table's cell, in a list and as a paragraph."""
    reader = MarkdownIt("commonmark").enable(["table", "strikethrough"])
    shown = " ".join(visible(" ".join(text.split("\n"))).split())
    document = Document(
        "t",
        "a",
        (),
        (Section("s", (Table(("h",), ((text,),)), Ticks((Tick(text, done=True),)), Text(text))),),
    )
    got = [
        " ".join("".join(child.content for child in token.children).split())
        for token in reader.parse(markdown(document))
        if token.type == "inline"
    ]

    assert got[:4] == ["t", "a", "s", "h"]
    blank = not visible(" ".join(text.split("\n"))).strip(" \t")  # what Markdown takes for an empty line
    wanted = [shown, f"[x] {shown}".strip(), *([] if blank else [shown])]
    assert got[4:] == wanted


def test_a_table_in_markdown_has_as_many_cells_in_every_row():
    for block in markdown(paper(hostile("a | b"))).split("\n\n"):
        if block.startswith("|"):
            counts = {len(re.findall(r"(?<!\\)\|", line)) for line in block.split("\n")}
            assert len(counts) == 1


def test_escaping_leaves_plain_words_and_numbers_alone():
    for text in ("+11.1", "0.0", "frozen_drinks 1.0.0", "65 to 72 psi", "5 psi (0.3 bar)"):
        assert escaped(text) == text


# -- json ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "held",
    [Held(), offered(), at_work(), cured(), Held().chose("alarm").word("stop")],
    ids=["bare", "offered", "at work", "cured", "danger"],
)
def test_the_json_form_is_what_its_schema_says(held):
    schema = report_schema()
    jsonschema.Draft202012Validator.check_schema(schema)

    jsonschema.validate(json.loads(report_json(held.report())), schema)


def test_the_schema_refuses_what_is_no_report():
    schema, sound = report_schema(), json.loads(report_json(cured().report()))
    wrong = (
        sound | {"format": 2},
        sound | {"more": 1},
        {k: v for k, v in sound.items() if k != "site"},
        sound | {"findings": [{}]},
    )

    for each in wrong:
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(each, schema)


@pytest.mark.parametrize("text", HOSTILE)
def test_json_keeps_what_was_typed_and_steers_no_terminal(text):
    made = report_json(hostile(text))

    assert json.loads(made)["notes"] == [text.strip()]
    assert STEERING.search(made.replace("\n", "")) is None


# -- note ------------------------------------------------------------------------------------------


def test_a_note_says_the_outcome_first_and_names_cause_readings_and_work():
    lines = note(cured().report()).split("\n")

    assert lines[0] == "Put right."
    assert lines[1] == "Cause, as found: Cylinder valve shut."
    assert lines[2].startswith("Readings: Gas supply pressure 5 psi (0.3 bar), then 69 psi (4.8 bar)")
    assert lines[3] == "Done: Open the cylinder valve (it helped)."


@given(st.lists(st.text(min_size=1, max_size=700), min_size=1, max_size=3))
def test_a_note_never_has_more_than_600_characters(texts):
    held = offered()
    for text in texts:
        held.word("note", text)
    held.said(" ".join(texts))

    assert len(note(held.report())) <= LONGEST == 600


def test_a_hazard_has_its_room_in_a_note_however_much_was_said():
    held = Held(site="x " * 400).chose("alarm").word("note", "word " * 200)

    assert note(held.report()).endswith("HAZARD: Carbon dioxide can build up.")


@given(st.text(max_size=300), st.integers(0, 120))
def test_a_text_that_is_fitted_is_whole_words_from_its_beginning(text, room):
    whole = visible(" ".join(text.split()))
    got = fitted(text, room)

    assert len(got) <= room
    if got and got != whole:
        kept = got.removesuffix("...")
        assert whole.startswith(kept)
        rest = whole[len(kept) :]
        assert re.match(r"[ ,;:.(]*( |$)", rest)


# -- brief -----------------------------------------------------------------------------------------


def test_a_brief_says_what_is_known_ruled_out_and_left():
    held = offered()
    lines = brief(held.told(), held.report()).split("\n")

    assert lines[0] == "Pier Lantern Cinemas, Westhaven, foyer, left. Machine with two barrels."
    assert 'Said      "the drinks are flat"' in lines
    assert "Known     +7.7 Cylinder valve open: it turns further" in lines
    assert "Ruled out Sensor lead broken, barrel 1 (lime): drinks runny, barrel 1 (lime): No" in lines
    assert "Left      97 % Cylinder valve shut" in lines


LONG = "water from the vent behind the machine, green stains at the pipes, or water from the tap that fizzes"


def test_a_brief_shortens_a_question_before_its_answer_which_would_turn_round():
    held = offered()
    report = held.report()
    found = replace(report.findings[0], title=LONG, text="", answer="No", decibans=-9.0)
    out = replace(report.ruled_out[0], because=f"{LONG}? No", decibans=-8.0)
    short = replace(report, findings=(found,) * 9, ruled_out=(out,) * 9, notes=("x",) * 9)
    lines = brief(held.told(), short).split("\n")
    told = [line for line in lines if "water from the" in line]

    assert len(lines) <= HEIGHT
    assert len(told) > 2
    assert all(line.endswith((": No", ": No (-8.0)")) for line in told if "..." in line)
    assert any("..." in line for line in told)


def test_a_brief_says_what_was_noted_of_the_way_in_and_what_nothing_was_made_of():
    held = offered().word("note", "side door until 11, the dog is tied up")
    report = replace(held.report(), not_understood=("mind the loose tile",))
    lines = brief(held.told(), report).split("\n")

    assert "Notes     side door until 11, the dog is tied up" in lines
    assert '          "mind the loose tile"' in lines


def test_a_complaint_that_was_taken_back_is_no_headline_any_more():
    held = offered()
    held.said(
        "no, they are fizzy. one side is runny",
        Fact("not_symptom", "gas.flat"),
        Fact("symptom", "barrel.runny", which=(1,)),
    )
    said = next(line for line in brief(held.told(), held.report()).split("\n") if line.startswith("Said"))

    assert said.startswith("Said      drinks runny, barrel 1 (lime) (taken back:")
    assert '"the drinks are flat"' in said


def test_what_of_a_complaint_was_taken_back_is_said_beside_it_and_never_cut():
    held = Held().chose("none", "dry")
    held.said(
        f"flat on both and runny on the left, {'and that for hours ' * 12}",
        Fact("symptom", "gas.flat"),
        Fact("symptom", "barrel.runny", which=(1,)),
    )
    held.said("no, not flat", Fact("not_symptom", "gas.flat"))
    lines = brief(held.told(), held.report()).split("\n")
    flat = held.live.case.check("gas.flat").title

    assert lines[[line.startswith("Said") for line in lines].index(True)].startswith(
        'Said      "flat on both'
    )
    back = f"{flat[:1].lower()}{flat[1:]}"
    assert f"(taken back: {back})" in " ".join(" ".join(lines).split())
    assert f'Said (taken back: {back}): "flat on both' in note(held.report())
    assert f"Taken back: {back}" in plain(paper(held.report()))


def test_a_complaint_taken_back_with_nothing_in_its_place_says_so():
    held = offered().said("no, they are fizzy after all", Fact("not_symptom", "gas.flat"))
    said = next(line for line in brief(held.told(), held.report()).split("\n") if line.startswith("Said"))

    assert said.startswith("Said      nothing is complained of now (taken back:")


def test_a_brief_for_a_repair_that_is_not_for_the_person_here_names_who_does_it():
    held = Held("helpdesk").chose("none", "dry")
    held.said(
        "one side is runny", Fact("symptom", "barrel.runny", which=(1,)), Fact("not_symptom", "gas.flat")
    )
    text = brief(held.told(), held.report())

    assert "Next can  Field technician: Change the sensor lead, barrel 1 (lime) (bring lead)" in text
    assert "check Signal at the sensor plug, barrel 1 (lime)" in text


@pytest.mark.parametrize("seed", range(24))
def test_any_session_whatever_gives_every_paper_within_its_bounds(seed):
    """Random walks: people who answer, volunteer, correct, hand over, stop and talk nonsense."""
    held = Held()
    held.entries, held.state = [], held.live.open()
    for event in walk(parlour_case(), seed, 60, obliging=0.85):
        held.event(event)
    report = held.report()
    document = paper(report)
    lines = brief(held.told(), report).split("\n")

    assert len(lines) <= HEIGHT == 24
    assert all(cell_len(line) <= WIDTH == 80 for line in lines)
    assert len(note(report)) <= LONGEST
    Read(page(document))
    assert markdown(document)
    assert plain(document)
    jsonschema.validate(json.loads(report_json(report)), report_schema())


@given(st.text(min_size=1, max_size=400))
def test_a_brief_fits_its_screen_whatever_letters_people_use(text):
    held = Held(site=text, unit=text).chose("none", "dry").said(text, *offered().entries[3].event.facts)
    lines = brief(held.told(), held.report()).split("\n")

    assert len(lines) <= 24
    assert all(cell_len(line) <= 80 for line in lines)
