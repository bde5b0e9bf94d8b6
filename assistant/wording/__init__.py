"""Every sentence of the conversation, apart from the pack's own; one module for each thing that is talked of.

The rules of tone: one question at a time, short plain sentences, why in a few words. Ask for a look or a
touch, not for an opinion. Repeat numbers back, tell waiting times, never blame, say what is not sure.
Numbers are rounded in `pieces` and nowhere else.

Who speaks imports this package and says `wording.ask_gone(...)`; a new sentence goes into its module and
needs no other line here, which is why the names are taken as they are.
"""

# ruff: noqa: F403

from assistant.wording.checks import *
from assistant.wording.dangers import *
from assistant.wording.decisions import *
from assistant.wording.ending import *
from assistant.wording.explaining import *
from assistant.wording.halted import *
from assistant.wording.handover import *
from assistant.wording.hearing import *
from assistant.wording.intake import *
from assistant.wording.options import *
from assistant.wording.pieces import *
from assistant.wording.repairs import *
from assistant.wording.service import *
from assistant.wording.sizes import *
from assistant.wording.slash import *
from assistant.wording.sums import *
