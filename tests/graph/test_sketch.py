"""Drawings of the fault tree: read back by other programs, and never one thing on top of another."""

from __future__ import annotations

import io
import re
from itertools import combinations
from xml.etree import ElementTree as ET

import networkx as nx
import pytest
from casts import shipped_case
from sample_packs import GOOD

from graph.compile import tree_of
from graph.errors import PackMissing
from graph.expand import expand
from graph.load import load_texts, read_folder
from graph.sketch import dot, graphml, legend_svg, mermaid, sketch, svg, svg_document
from graph.sketch.layout import BOX_HEIGHT, BOX_WIDTH, LEAF_HEIGHT, lay_out
from graph.sketch.model import letter_codes
from graph.sketch.svg import AND_SHAPE, OR_SHAPE

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def machine():
    return expand(load_texts(read_folder(GOOD)), "two_barrel", "")


@pytest.fixture(scope="module")
def whole():
    return sketch(shipped_case().machine)


def test_what_repeats_is_drawn_once_with_its_number(machine):
    drawn = sketch(machine)

    sensor = drawn.nodes["sensors.sensor.dead_low"]

    assert sensor.instances == 3
    assert sensor.title == "Sensor dead, reads low"
    assert set(drawn.tops) == {"gas_supply.flat_drinks", "gas_supply.shut_and_empty"}


def test_instances_are_the_tree_itself():
    machine = shipped_case().machine
    tree = tree_of(machine)

    drawn = sketch(machine, instances=True)
    edges = {(link.cause, node.id) for node in drawn.nodes.values() for link in node.links}

    assert {n.id for n in drawn.nodes.values() if n.kind == "fault"} == set(tree.faults)
    for event in machine.events:
        assert {cause for cause, effect in edges if effect == event.id} == set(tree.inputs(event.id))


def test_a_root_keeps_what_leads_to_it_and_what_comes_of_it(machine):
    drawn = sketch(machine, "gas_supply.no_gas")

    assert set(drawn.nodes) == {
        "gas_supply.cylinder.empty",
        "gas_supply.cylinder_valve.shut",
        "gas_supply.no_gas",
        "gas_supply.flat_drinks",
    }
    assert drawn.tops == ("gas_supply.flat_drinks",)
    assert drawn.nodes["gas_supply.flat_drinks"].hidden == 1  # a dead sensor also feeds it


def test_inputs_that_a_root_leaves_out_are_counted(machine):
    drawn = sketch(machine, "gas_supply.cylinder.empty")

    assert drawn.nodes["gas_supply.no_gas"].hidden == 1
    assert "1 more inputs not drawn" in svg(drawn, "gas_supply.flat_drinks")


def test_a_root_may_be_named_with_its_place(machine):
    assert "sensors.sensor.dead_low" in sketch(machine, "sensors.sensor.dead_low@gas_supply").nodes


def test_an_unknown_root_is_refused_with_the_nearest_name(machine):
    with pytest.raises(PackMissing, match=r'Did you mean "gas_supply.no_gas"'):
        sketch(machine, "gas_supply.no_gass")


def test_graphml_is_read_back_by_networkx_as_the_same_graph(whole):
    graph = nx.read_graphml(io.BytesIO(graphml(whole).encode()))

    edges = {(link.cause, node.id) for node in whole.nodes.values() for link in node.links}

    assert set(graph.edges) == edges
    assert {name: graph.nodes[name]["gate"] for name in graph} == {n.id: n.gate for n in whole.nodes.values()}
    assert nx.is_directed_acyclic_graph(graph)


def test_dot_draws_every_fault_as_a_circle_in_one_graph(whole):
    text = dot(whole)

    assert text.count("{") == text.count("}") == 1
    assert len(re.findall(r"^  n\d+ \[shape=circle", text, re.MULTILINE)) == sum(
        node.kind == "fault" for node in whole.nodes.values()
    )


def test_mermaid_names_every_node_once_and_links_only_named_ones(whole):
    lines = mermaid(whole).splitlines()
    named = [match[1] for line in lines if (match := re.match(r"  (n\d+g?)[\[({]", line))]
    linked = {name for line in lines if " ---" in line for name in re.findall(r"\bn\d+g?\b", line)}

    assert lines[0] == "flowchart TD"
    assert len(named) == len(set(named))
    assert linked <= set(named)
    assert sum(not name.endswith("g") for name in named) == len(whole.nodes)


@pytest.mark.parametrize("draw", [mermaid, dot, graphml, svg_document])
def test_the_same_machine_is_drawn_to_the_same_byte(machine, draw):
    assert draw(sketch(machine)) == draw(sketch(machine))


def test_texts_with_marks_of_each_language_do_not_break_out():
    files = read_folder(GOOD)
    odd = "'<script>\\ & ]]> \"quoted\" `tick` #35; | }'"
    files["gas_supply.yaml"] = files["gas_supply.yaml"].replace("title: Cylinder empty", f"title: {odd}")
    drawn = sketch(expand(load_texts(files), "two_barrel", ""))

    page = svg_document(drawn)
    graph = nx.read_graphml(io.BytesIO(graphml(drawn).encode()))

    assert "<script" not in page
    assert graph.nodes["gas_supply.cylinder.empty"]["title"] == odd[1:-1]
    assert '\\"quoted\\"' in dot(drawn)
    assert "#lt;script#gt;" in mermaid(drawn)
    ET.fromstring(page)  # noqa: S314 - our own text


def test_svg_is_well_formed_and_draws_each_gate_in_its_own_shape(machine):
    drawn = sketch(machine)

    top = ET.fromstring(svg(drawn, "gas_supply.shut_and_empty"))  # noqa: S314 - our own text
    shapes = [path.get("d") for path in top.iter(f"{SVG}path")]

    assert AND_SHAPE in shapes
    assert OR_SHAPE not in shapes
    assert len(list(top.iter(f"{SVG}circle"))) == 2


def test_a_vote_says_how_many_of_how_many():
    files = read_folder(GOOD)
    files["gas_supply.yaml"] = files["gas_supply.yaml"].replace(
        "    gate: all\n", "    gate: at_least\n    k: 2\n"
    )

    drawing = svg(sketch(expand(load_texts(files), "two_barrel", "")), "gas_supply.shut_and_empty")

    assert ">2/2</text>" in drawing


def test_colours_repeat_only_what_letters_say(whole):
    codes = [part.code for part in whole.subsystems.values()]
    legend = legend_svg(whole)

    assert len(set(codes)) == len(codes)
    for part in whole.subsystems.values():
        assert f">{part.code}</text>" in legend
        assert f">{part.title}</text>" in legend


def test_letter_codes_are_short_and_differ():
    codes = letter_codes(["gas_supply", "gas_storage", "syrup", "system", "barrel", "b"])

    assert codes["gas_supply"] == "GS"
    assert codes["barrel"] == "BA"
    assert len(set(codes.values())) == 6
    assert all(code.isupper() for code in codes.values())


def boxes(drawing):
    """Return the rectangles that a drawing's boxes and leaves take up."""
    for block in drawing.top.all_blocks():
        yield (block.x - BOX_WIDTH / 2, block.y, block.x + BOX_WIDTH / 2, block.y + BOX_HEIGHT)
        for column in block.columns:
            for leaf in column.leaves:
                yield (leaf.x - 12, leaf.y - LEAF_HEIGHT / 2, leaf.x + 200, leaf.y + LEAF_HEIGHT / 2)


def overlap(one, other):
    return (
        one[0] < other[2] - 1e-6
        and other[0] < one[2] - 1e-6
        and one[1] < other[3] - 1e-6
        and other[1] < one[3] - 1e-6
    )


def test_nothing_lies_on_top_of_anything_else_nor_outside_the_sheet(whole):
    for top in whole.tops:
        drawing = lay_out(whole, top)
        taken = list(boxes(drawing))

        assert not [pair for pair in combinations(taken, 2) if overlap(*pair)], top
        assert all(
            box[0] >= 0 and box[2] <= drawing.width + 1e-6 and box[3] <= drawing.height + 1e-6
            for box in taken
        )


def test_every_cause_of_a_top_is_in_its_drawing(whole):
    graph = nx.DiGraph((link.cause, node.id) for node in whole.nodes.values() for link in node.links)
    for top in whole.tops:
        drawing = lay_out(whole, top)
        full = {block.node.id for block in drawing.top.all_blocks()}
        leaves = [
            leaf for block in drawing.top.all_blocks() for column in block.columns for leaf in column.leaves
        ]

        assert full | {leaf.node.id for leaf in leaves} == nx.ancestors(graph, top) | {top}
        assert {leaf.node.id for leaf in leaves if leaf.transfer} <= full


def test_an_event_that_feeds_two_gates_is_drawn_in_full_once():
    files = read_folder(GOOD)
    events = (
        "events:\n"
        "  gas_supply.one: {title: One, of: [gas_supply.no_gas]}\n"
        "  gas_supply.both: {title: Both, of: [gas_supply.one, gas_supply.no_gas]}\n"
    )
    files["gas_supply.yaml"] = files["gas_supply.yaml"].replace("events:\n", events)
    drawn = sketch(expand(load_texts(files), "two_barrel", ""))

    drawing = lay_out(drawn, "gas_supply.both")
    names = [block.node.id for block in drawing.top.all_blocks()]
    transfers = [
        leaf.node.id
        for b in drawing.top.all_blocks()
        for c in b.columns
        for leaf in c.leaves
        if leaf.transfer
    ]

    assert names == ["gas_supply.both", "gas_supply.one", "gas_supply.no_gas"]
    assert transfers == ["gas_supply.no_gas"]
