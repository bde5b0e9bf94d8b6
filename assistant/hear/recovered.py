"""Whether a line says that a trouble is over: "its gone now", "pouring lovely", "no still flat".

Rule of the file: whoever says "still", "same" or "but" of it does not say that it is over; a line that says
neither plainly is asked again.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.hear import replies
from assistant.hear.joined import Joined
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from assistant.facts import Kind

EARLY = re.compile(
    r"\b(too (early|soon)|not yet|(can|could) not (say|tell) yet|give it|wait(ing)? (for|and|a|until)"
    r"|needs? time|only just)\b"
)
LASTS = re.compile(
    r"\b(still|same|no (better|change|different|joy|good|luck|use)|worse|but|though|except|apart from|nearly"
    r"|almost|not (gone|fixed|right|good|better|cured|sorted|ok|fine|working|normal|really|quite|much)"
    r"|did not (help|work|change)|has not (helped|changed|gone|cleared|worked)|back again|came back|only)\b"
)
OVER = re.compile(
    r"\b(gone|cleared|fixed|sorted|cured|solved|good|great|perfect|lovely|grand|brilliant|fine|ok|normal"
    r"|right|working|works|as it should|all (is )?well|happy|back to (normal|how it was|what it was)"
    r"|as before|like new|spot on)\b"
)


def recovered(line: str) -> Kind | None:
    """Return yes where a line says that the trouble is over, no where it lasts, unsure where it is too early.

    None where it is to be asked again.
    """
    joined = Joined.of(words_of(line))
    if not joined.text or joined.text.endswith("?"):
        return None
    opening = replies.leading(joined)
    if EARLY.search(joined.text):
        return "unsure"
    if LASTS.search(joined.text):
        return None if opening is not None and opening.kind == "yes" else "no"
    over = OVER.search(joined.text) or (opening is not None and joined.text.endswith(" again"))
    return "yes" if over and (opening is None or opening.kind == "yes") else None
