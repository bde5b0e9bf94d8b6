"""Knowledge and mathematics of barrelside; nothing here knows of a terminal, a clock or a session.

Legend of words, used exactly so everywhere:

* symptom     what a person notices or the machine shows; a top event of the fault tree
* component   a thing that can fail
* fault       one failure mode of one component
* event       something that faults make true, by a gate
* hypothesis  a set of faults present at once
* check       a question or test
* outcome     one answer of a check
* finding     one answer as given, by whom
* belief      probabilities after the findings
* gain        bits a check is expected to tell
* remedy      what to do about a fault
* case        one machine in the hands of a conversation
* pack        the knowledge, as its authors wrote it

Array letters: N faults, C checks, K outcomes, J classes, R remedies.
"""

from graph.case import Case
from graph.errors import (
    GraphError,
    ImpossibleEvidence,
    OutOfRange,
    PackInvalid,
    PackMissing,
    Problem,
    TreeInvalid,
    UnitUnknown,
)
from graph.findings import Advice, Belief, Conflict, Finding, Ranked
from graph.machine import Machine

__all__ = [
    "Advice",
    "Belief",
    "Case",
    "Conflict",
    "Finding",
    "GraphError",
    "ImpossibleEvidence",
    "Machine",
    "OutOfRange",
    "PackInvalid",
    "PackMissing",
    "Problem",
    "Ranked",
    "TreeInvalid",
    "UnitUnknown",
]
