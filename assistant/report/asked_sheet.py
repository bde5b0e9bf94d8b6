"""Which work sheet is asked for: a remedy by its name, or what a session decided."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from assistant.conversation import Setup
from assistant.errors import SessionNotFound, WrongUse
from assistant.live import Live
from assistant.report import wording as words
from assistant.report.gather import gather
from assistant.report.sheet import sheet
from assistant.report.told import tell
from assistant.sessions import find, records_folder

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.report.document import Document
    from graph.machine import Machine, Remedy


def asked_sheet(
    name: str, role: str, *, trained: bool, pack: str, profile: str, records: Path | None
) -> tuple[Document, tuple[str, ...]]:
    """Return the work sheet that a name asks for, and what must be said about its record.

    Raises WrongUse where the name is neither a remedy nor a session, AssistantError where the role may
    not do the work, and what reading a record or loading a pack raises.
    """
    try:
        find(name, records_folder(records))
    except SessionNotFound:
        live = Live.of(Setup(pack, profile))
        _check_role(live.machine, role)
        return sheet(live.case, named(live.machine, name), role, trained=trained), ()
    told = tell(name, records, pack)
    report = gather(told)
    _check_role(told.case.machine, role)
    wanted = report.work[-1].remedy if report.work else report.decided.remedy if report.decided else ""
    if wanted not in {each.id for each in told.case.machine.remedies}:
        raise WrongUse(words.nothing_decided(report.session))
    made = sheet(told.case, told.case.remedy(wanted), role, trained=trained, report=report)
    return made, told.remarks


def _check_role(machine: Machine, role: str) -> None:
    """Raise WrongUse for a role that this pack does not know."""
    if role not in machine.roles:
        raise WrongUse(words.no_such_role(role, tuple(machine.roles)))


def named(machine: Machine, name: str) -> Remedy:
    """Return the remedy called `name` by id, base id, ref or title; raise WrongUse for none or several."""
    wanted = " ".join(name.casefold().split())
    found = [each for each in machine.remedies if wanted == each.id] or [
        each for each in machine.remedies if wanted in {each.base, each.ref.casefold(), each.title.casefold()}
    ]
    if len(found) == 1:
        return found[0]
    if found:
        raise WrongUse(words.several_remedies(name, tuple(each.id for each in found)))
    ids = dict.fromkeys(each.base for each in machine.remedies)
    raise WrongUse(words.no_such_remedy(name, tuple(get_close_matches(wanted, ids, n=3, cutoff=0.5))))
