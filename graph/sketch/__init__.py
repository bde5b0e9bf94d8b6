"""Drawings of the fault tree: Mermaid, DOT, GraphML and SVG."""

from graph.sketch.model import Link, Node, Sketch, Subsystem, sketch
from graph.sketch.svg import legend_svg, svg, svg_document
from graph.sketch.text import dot, graphml, mermaid

__all__ = [
    "Link",
    "Node",
    "Sketch",
    "Subsystem",
    "dot",
    "graphml",
    "legend_svg",
    "mermaid",
    "sketch",
    "svg",
    "svg_document",
]
