"""The address book: what it may say, what is said of a wrong one, and which machine a call is about."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from stand_in import FakeClock, StandIn

from assistant.cli import run
from assistant.conversation import Setup
from assistant.errors import WrongUse
from assistant.place import find_place, setup_at
from assistant.record import read_record
from assistant.sites import BookInvalid, book_path, disagreements, own_path, read_book
from assistant.world import World
from graph.load import load_pack

DEMO = Path(__file__).parents[2] / "demo_sessions" / "sites.yaml"
SOUND = """\
sites:
  gull_point:
    name: Gull Point
    phone: "01632 960101"
    switches: {gas_source: bulk, booster: none}
    costs: {visit: 120, downtime_hour: 60}
    machines:
      foyer:
        name: Foyer bar
        profile: three_barrel
        flavours: [cola, cherry, lemon]
        switches: {booster: electric}
        costs: {visit: 150}
        installed: "2019-04-02"
  westhaven:
    name: Westhaven
    machines:
      left: {profile: two_barrel}
      right: {profile: three_barrel}
"""
UNCHANGED = Setup()


@pytest.fixture
def written(tmp_path):
    def write(text):
        path = tmp_path / "sites.yaml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


@pytest.fixture
def book(written):
    return read_book(written(SOUND))


def wrong(path):
    """Return what is wrong with the book at `path` as line, field and words."""
    with pytest.raises(BookInvalid) as caught:
        read_book(path)
    assert all(problem.file == str(path) for problem in caught.value.problems)
    return [
        (problem.line, problem.path, f"{problem.what} {problem.remedy}".strip())
        for problem in caught.value.problems
    ]


def test_a_book_says_what_stands_at_a_site(book):
    site = book.sites["gull_point"]
    foyer = site.machines["foyer"]

    assert (site.name, site.phone) == ("Gull Point", "01632 960101")
    assert (foyer.profile, foyer.flavours) == ("three_barrel", ("cola", "cherry", "lemon"))
    assert (foyer.switches, foyer.costs, foyer.installed) == (
        {"booster": "electric"},
        {"visit": 150.0},
        "2019-04-02",
    )


@pytest.mark.parametrize(
    ("was", "now", "line", "field", "words"),
    [
        ("    phone:", "    phon:", 4, "sites.gull_point.phon", 'no such field here. Did you mean "phone"?'),
        ("    name: Gull Point\n", "", 2, "sites.gull_point.name", "is missing; expected text."),
        ("visit: 120", "visit: dear", 6, "sites.gull_point.costs.visit", "expected a number of 0 or more"),
        ("visit: 120", "visit: -1", 6, "sites.gull_point.costs.visit", "found the number -1."),
        ("visit: 120", "vist: 120", 6, "sites.gull_point.costs.vist", 'no cost. Did you mean "visit"?'),
        (
            '"2019-04-02"',
            '"2019-02-30"',
            14,
            "sites.gull_point.machines.foyer.installed",
            '"2019-02-30" is no date. Write it as 2024-05-31.',
        ),
        ("profile: two_barrel", "profile: Two Barrels", 18, "sites.westhaven.machines.left.profile", "an id"),
        (
            "name: Westhaven",
            "name: gull  POINT",
            16,
            "sites.westhaven.name",
            '"gull  POINT" already means the site gull_point.',
        ),
        (
            "right: {",
            "right: {name: Left, ",
            19,
            "sites.westhaven.machines.right",
            '"Left" already means the machine left of this site.',
        ),
        ("  westhaven:", "  gull_point:", 15, "sites.gull_point", "is written twice, first on line 2."),
        (
            "    machines:\n      left: {profile: two_barrel}\n      right: {profile: three_barrel}\n",
            "    machines: {}\n",
            17,
            "sites.westhaven.machines",
            "expected a mapping of 1 or more entries",
        ),
    ],
)
def test_what_is_wrong_is_told_with_line_and_field(written, was, now, line, field, words):
    assert was in SOUND
    problems = wrong(written(SOUND.replace(was, now, 1)))

    ((at, path, said),) = problems

    assert (at, path) == (line, field)
    assert words in said


@pytest.mark.parametrize("text", ["", "sites: {}\n", "- a\n- b\n", "sites: [\n", "sites:\n\tx: 1\n", "42\n"])
def test_a_file_that_is_no_book_is_refused_in_words(written, text):
    assert wrong(written(text))


def test_bytes_that_are_not_utf_8_are_told_by_their_line(tmp_path):
    path = tmp_path / "sites.yaml"
    path.write_bytes(SOUND.replace("Gull Point", "G\xfcll Point").encode("latin-1"))

    ((line, _, said),) = wrong(path)

    assert (line, said) == (3, "byte 0xFC in column 12 is not UTF-8. Save the file as UTF-8.")


def test_several_problems_are_one_sentence_and_a_way_to_see_the_rest(written):
    text = SOUND.replace("visit: 120", "vist: 120").replace('"2019-04-02"', "yesterday")

    with pytest.raises(BookInvalid) as caught:
        read_book(written(text))

    assert str(caught.value).endswith('Did you mean "visit"? (1 more: see barrelside sites check)')
    assert caught.value.exit_code == 2


def test_the_book_that_is_named_goes_before_the_environment_s(written, tmp_path):
    path, other = written(SOUND), tmp_path / "other.yaml"
    other.write_text(SOUND, encoding="utf-8")

    assert book_path(path, {"BARRELSIDE_SITES": str(other)}) == path
    assert book_path(None, {"BARRELSIDE_SITES": str(other)}) == other


def test_a_named_book_that_is_not_there_is_wrong_use(tmp_path):
    with pytest.raises(WrongUse, match="which BARRELSIDE_SITES names"):
        book_path(None, {"BARRELSIDE_SITES": str(tmp_path / "none.yaml")})
    with pytest.raises(WrongUse, match="which --sites names"):
        book_path(tmp_path / "none.yaml", {})


def test_the_user_s_own_book_is_called_sites_yaml_in_the_config_folder():
    from platformdirs import user_config_path  # noqa: PLC0415 -- the oracle

    assert own_path() == user_config_path("barrelside", appauthor=False) / "sites.yaml"


@pytest.mark.parametrize("name", ["gull_point", "Gull Point", "GULL POINT", " gull  point "])
def test_a_site_goes_by_id_or_name_whatever_the_letter_case(book, name):
    place = find_place(book, name, "")

    assert (place.site, place.unit, place.remarks) == ("Gull Point", "Foyer bar", ())
    assert place.machine is book.sites["gull_point"].machines["foyer"]


def test_a_site_that_is_not_in_the_book_stays_as_written_with_a_remark(book):
    place = find_place(book, "Gull Pont", "left")

    assert (place.site, place.unit, place.machine) == ("Gull Pont", "left", None)
    assert place.remarks == (
        '"Gull Pont" is not in the address book; it is taken as you wrote it. Did you mean Gull Point?',
    )


def test_nothing_is_suggested_where_nothing_is_like_it(book):
    (remark,) = find_place(book, "Zzyzx", "").remarks

    assert "Did you mean" not in remark


def test_where_several_machines_stand_one_must_be_named(book):
    with pytest.raises(WrongUse) as caught:
        find_place(book, "westhaven", "")

    assert str(caught.value) == (
        "Westhaven has 2 machines; say which with --unit: left (two_barrel), right (three_barrel)."
    )
    assert find_place(book, "westhaven", "RIGHT").machine.profile == "three_barrel"


def test_a_machine_that_does_not_stand_there_is_wrong_use_with_a_suggestion(book):
    with pytest.raises(WrongUse, match=r'Westhaven has no machine "lefft"; did you mean left\?'):
        find_place(book, "westhaven", "lefft")


def test_a_new_machine_is_taken_when_the_person_says_what_it_is(book):
    place = find_place(book, "gull point", "balcony", profile="two_barrel")
    setup = setup_at(place, Setup(profile="two_barrel"))

    assert (place.site, place.unit) == ("Gull Point", "balcony")
    assert place.remarks
    assert (setup.profile, setup.flavours) == ("two_barrel", ())
    assert dict(setup.switches) == {"gas_source": "bulk", "booster": "none"}


def test_a_machine_s_switches_and_costs_go_before_its_site_s(book):
    setup = setup_at(find_place(book, "gull point", ""), UNCHANGED)

    assert setup.profile == "three_barrel"
    assert setup.flavours == ("cola", "cherry", "lemon")
    assert dict(setup.switches) == {"gas_source": "bulk", "booster": "electric"}
    assert dict(setup.costs) == {"visit": 150.0, "downtime_hour": 60.0}


def test_what_is_given_by_hand_goes_before_the_book(book):
    given = Setup(flavours=("a", "b", "c"), switches=(("booster", "gas"),))

    setup = setup_at(find_place(book, "gull point", ""), given)

    assert setup.flavours == ("a", "b", "c")
    assert dict(setup.switches) == {"gas_source": "bulk", "booster": "gas"}
    assert len(setup.switches) == 2


def test_flavours_of_the_book_are_left_when_another_profile_is_given(book):
    setup = setup_at(find_place(book, "gull point", ""), Setup(profile="four_barrel"))

    assert (setup.profile, setup.flavours) == ("four_barrel", ())


@pytest.mark.parametrize(
    ("was", "now", "line", "path", "words"),
    [
        ("profile: two_barrel", "profile: tow_barrel", 18, "left.profile", 'Did you mean "two_barrel"?'),
        (
            "[cola, cherry, lemon]",
            "[cola]",
            11,
            "foyer.flavours",
            "1 flavours, but three_barrel has 3 barrels.",
        ),
        ("gas_source: bulk", "gas_sauce: bulk", 5, "switches.gas_sauce", 'Did you mean "gas_source"?'),
        ("booster: electric", "booster: steam", 12, "switches.booster", '"steam" is no value of booster.'),
    ],
)
def test_what_does_not_agree_with_the_pack_is_told_with_its_line(written, was, now, line, path, words):
    assert was in SOUND
    (problem,) = disagreements(written(SOUND.replace(was, now, 1)), load_pack("frozen_drinks"))

    assert problem.line == line
    assert problem.path.endswith(path)
    assert words in f"{problem.what} {problem.remedy}"


def test_the_demonstration_book_has_five_cinemas_of_every_size_and_agrees_with_the_pack():
    book = read_book(DEMO)
    knowledge = load_pack("frozen_drinks")
    machines = [machine for site in book.sites.values() for machine in site.machines.values()]

    assert disagreements(DEMO, knowledge) == ()
    assert len(book.sites) == 5
    assert {knowledge.profiles[machine.profile].barrels for machine in machines} == {2, 3, 4}


class Asked:
    """Calls of the command that remember which setups were asked for."""

    def __init__(self, tmp_path, environ=None):
        self.records = tmp_path / "records"
        self.setups = []
        self.environ = environ or {}
        self.clock = FakeClock()

    def call(self, *arguments, typed=""):
        stdin = io.TextIOWrapper(io.BytesIO(typed.encode()), encoding="utf-8")
        out, err = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(2))
        world = World(self.environ, stdin, out, err, self.clock, self.load)
        code = run([*arguments], world)
        return code, out.buffer.getvalue().decode(), err.buffer.getvalue().decode()

    def load(self, setup):
        self.setups.append(setup)
        return StandIn()

    def began(self):
        (path,) = self.records.glob("*.jsonl")
        return read_record(path).entries[0].event


def test_talk_takes_the_machine_from_the_book(written, tmp_path):
    asked = Asked(tmp_path)

    code, _, err = asked.call(
        "talk", "--site", "gull point", "--sites", str(written(SOUND)), "--records", str(asked.records)
    )

    assert (code, err) == (0, "")
    assert asked.setups[0].profile == "three_barrel"
    assert (asked.began().site, asked.began().unit) == ("Gull Point", "Foyer bar")


def test_talk_reads_the_book_of_the_environment(written, tmp_path):
    asked = Asked(tmp_path, {"BARRELSIDE_SITES": str(written(SOUND))})

    code, _, _ = asked.call("talk", "--site", "westhaven", "--unit", "left", "--records", str(asked.records))

    assert code == 0
    assert asked.setups[0].profile == "two_barrel"


def test_talk_goes_on_with_an_unknown_site_and_says_so(written, tmp_path):
    asked = Asked(tmp_path)

    code, _, err = asked.call(
        "talk", "--site", "Gull Pint", "--sites", str(written(SOUND)), "--records", str(asked.records)
    )

    assert code == 0
    assert err.startswith('barrelside: "Gull Pint" is not in the address book')
    assert asked.began().site == "Gull Pint"


def test_a_wrong_book_ends_talk_with_two_and_one_sentence(written, tmp_path):
    asked = Asked(tmp_path)
    path = written(SOUND.replace("visit: 120", "vist: 120"))

    code, out, err = asked.call("talk", "--site", "gull point", "--sites", str(path))

    assert (code, out) == (2, "")
    assert (
        err
        == f'barrelside: {path}:6  sites.gull_point.costs.vist: "vist" is no cost. Did you mean "visit"?\n'
    )


def test_without_a_site_no_book_is_read(written, tmp_path):
    asked = Asked(tmp_path, {"BARRELSIDE_SITES": str(written("not: a book\n"))})

    code, _, err = asked.call("talk", "--records", str(asked.records))

    assert (code, err) == (0, "")


def test_a_profile_that_the_pack_does_not_have_is_told_where_it_stands_in_the_book(written):
    """With the real pack: the book is sound by itself, and disagrees with the pack."""
    path = written(SOUND.replace("profile: two_barrel", "profile: tow_barrel"))
    err = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
    streams = [io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(2)]
    world = World({}, *streams, err, FakeClock())

    code = run(["talk", "--site", "westhaven", "--unit", "left", "--sites", str(path)], world)

    assert code == 2
    assert err.buffer.getvalue().decode() == (
        f'barrelside: {path}:18  sites.westhaven.machines.left.profile: "tow_barrel" is no profile. '
        'Did you mean "two_barrel"?\n'
    )


def test_sites_lists_them_with_their_machines(written, tmp_path):
    code, out, _ = Asked(tmp_path).call(
        "sites", "--sites", str(written(SOUND)), "--records", str(tmp_path / "none")
    )

    assert code == 0
    assert out.splitlines()[:3] == [
        "Gull Point (gull_point), 01632 960101",
        "  Foyer bar (foyer): three_barrel, cola, cherry, lemon, installed 2019-04-02",
        "    no sessions yet",
    ]


def test_sites_lists_the_last_sessions_there(written, tmp_path):
    path, asked = written(SOUND), Asked(tmp_path)
    more = ("--sites", str(path), "--records", str(asked.records))
    asked.call("talk", "--site", "gull point", "--role", "operator", *more, typed="70\nyes\n")

    _, out, _ = asked.call("sites", *more)

    assert out.splitlines()[2] == "    2026-11-25  cured: Worn drip seal"


def test_sites_check_says_everything_that_is_wrong(written, tmp_path):
    text = SOUND.replace("vis", "vas").replace('"2019-04-02"', "soon")
    path = written(text)

    code, out, _ = Asked(tmp_path).call("sites", "check", "--sites", str(path))

    assert code == 1
    assert [line.partition("  ")[0] for line in out.splitlines()] == [f"{path}:{n}" for n in (6, 13, 14)]


def test_sites_check_of_a_sound_book_counts_what_is_in_it(tmp_path):
    code, out, _ = Asked(tmp_path).call("sites", "--sites", str(DEMO), "check")

    assert (code, out) == (0, f"{DEMO}: 5 sites, 7 machines, nothing wrong.\n")
