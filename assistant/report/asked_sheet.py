"""Which work sheet is asked for: a remedy by its name, or what a session decided."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from assistant.conversation import Setup
from assistant.engine import roles
from assistant.errors import SessionNotFound, WrongUse
from assistant.live import Live
from assistant.report import wording as words
from assistant.report.gather import gather
from assistant.report.sheet import sheet
from assistant.report.told import tell
from assistant.sessions import find, records_folder
from graph.candidates import may_do

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.report.document import Document
    from assistant.report.model import Report
    from assistant.report.told import Told
    from graph.machine import Machine, Remedy

TECHNICIAN = "technician"
_HERE = ("phone_fix", "do_it")  # decisions that whoever is there carries out


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
        remedy, who = named(live.machine, name), role or TECHNICIAN
        _check_role(live.machine, who)
        return sheet(live.case, remedy, who, trained=trained), ()
    told = tell(name, records, pack)
    report = gather(told)
    _check_role(told.case.machine, role or TECHNICIAN)
    wanted = report.work[-1].remedy if report.work else report.decided.remedy if report.decided else ""
    if wanted not in {each.id for each in told.case.machine.remedies}:
        raise WrongUse(words.nothing_decided(report.session))
    remedy = told.case.remedy(wanted)
    trained = trained or told.end.trained == "yes"
    doer = role or _doer(told, report, remedy)
    doer = doer if role or trained or not roles.needs_training(doer, remedy) else TECHNICIAN
    made = sheet(told.case, remedy, doer, trained=trained, report=report)
    return made, told.remarks


def _doer(told: Told, report: Report, remedy: Remedy) -> str:
    """Return who does a session's repair: whoever did it or was to do it there, else a technician.

    What a helpdesk agent reads out is done by the operator at the machine.
    """
    here = report.decided is not None and report.decided.kind in _HERE
    did = report.work[-1].role if report.work else told.end.role if here else ""
    did = "operator" if did == "helpdesk" else did
    return did if did and may_do(did, remedy.by) else TECHNICIAN


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
