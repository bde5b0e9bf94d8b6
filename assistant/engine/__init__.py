"""The pure conversation: `step(case, state, event) -> (state, effects)`.

Keyboard, screen, files and clock are nowhere in here; the shells carry events in and effects out.
"""

from assistant.engine.leading import Status, status
from assistant.engine.placing import Wanted, wanted
from assistant.engine.state import OPENING, Question, Stage, State
from assistant.engine.step import ASK_NEXT, MOVES, open_state, step
from assistant.engine.words import WORDS, Word

__all__ = [
    "ASK_NEXT",
    "MOVES",
    "OPENING",
    "WORDS",
    "Question",
    "Stage",
    "State",
    "Status",
    "Wanted",
    "Word",
    "open_state",
    "status",
    "step",
    "wanted",
]
