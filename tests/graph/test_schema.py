"""The JSON Schemas say of a file what the loader says of it."""

import json

import jsonschema
import pytest
from pydantic import TypeAdapter
from sample_packs import BAD_STEMS, GOOD, bad_bytes, slot

from graph.load import read_folder
from graph.pack import Amount, Id, Positive, Probability, Role, Text
from graph.schema import expected, pack_schema
from graph.yaml_text import read

# JSON Schema 2020-12 (Validation, section 6.1.1) counts 2.0 as an integer; ids are compared across files.
LOADER_ONLY = {
    "profiles-half-a-barrel",
    "id-in-two-chapters",
    "fault-and-event-share-an-id",
    "symptom-and-check-share-an-id",
}


def validator(file):
    schemas = pack_schema()
    return jsonschema.Draft202012Validator(schemas.get(file, schemas["*.yaml"]))


def plain(document):
    return json.loads(json.dumps(document.value))


@pytest.mark.parametrize("name", pack_schema())
def test_each_schema_is_a_sound_schema_that_json_can_carry(name):
    schema = pack_schema()[name]

    jsonschema.Draft202012Validator.check_schema(schema)
    assert json.loads(json.dumps(schema)) == schema


@pytest.mark.parametrize(("name", "text"), read_folder(GOOD).items())
def test_the_schema_accepts_every_file_of_the_good_pack(name, text):
    faults = list(validator(name).iter_errors(plain(read(name, text))))

    assert faults == []


@pytest.mark.parametrize("stem", sorted(set(BAD_STEMS) - LOADER_ONLY))
def test_the_schema_refuses_what_the_loader_refuses(stem):
    name = slot(stem)
    document = read(name, bad_bytes(stem)[name].decode("utf-8-sig", "surrogateescape"))

    assert document.problems or not validator(name).is_valid(plain(document))


@pytest.mark.parametrize(
    ("hint", "words"),
    [
        (Probability, "a number from 0 to 1"),
        (Positive, "a number above 0"),
        (Amount, "a number of 0 or more"),
        (Text, "text"),
        (bool, "true or false"),
        (tuple[Text, ...], "a list, each text"),
        (tuple[float, float], "a list of exactly 2 entries (a number, a number)"),
        (dict[Id, Probability], "a mapping, each name followed by a number from 0 to 1"),
        (
            Id | None,
            "an id (small letters, digits and _, starting with a letter; parts joined by dots) or null",
        ),
    ],
)
def test_what_was_expected_is_said_in_plain_words(hint, words):
    schema = TypeAdapter(hint).json_schema()

    assert expected(schema, schema) == words


def test_a_choice_lists_every_word():
    schema = TypeAdapter(Role).json_schema()

    assert expected(schema, schema).startswith("one of operator, helpdesk, technician, ")
