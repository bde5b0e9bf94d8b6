"""Every sentence about sites: the address book, its machines, and what happened there before."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.pack_wording import wrapped

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from assistant.history import Past
    from assistant.sites import Site, SiteMachine
    from assistant.sites_due import MachineDue
    from graph.service import Standing

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_OPEN = "open"


def unknown_site(site: str, near: str) -> str:
    """Return that a site is not in the address book."""
    hint = f" Did you mean {near}?" if near else ""
    return f'"{site}" is not in the address book; it is taken as you wrote it.{hint}'


def book_left_out(problem: str) -> str:
    """Return that the address book cannot be used in this session."""
    return f"The address book is left out: {problem}"


def machine_left_out(problem: str) -> str:
    """Return that a machine that was named could not be made ready."""
    return f"The session goes on without what is known of that machine: {problem}"


def unknown_machine(unit: str, site: str) -> str:
    """Return that a machine is not in the address book."""
    return f'The address book has no machine "{unit}" at {site}; it is taken as you wrote it.'


def which_machine(site: str, titles: Mapping[str, str]) -> str:
    """Return that a machine must be named, with those there are and their profiles."""
    return f"{site} has {len(titles)} machines; say which with --unit: {_machines(titles)}."


def no_machine(unit: str, site: str, near: str, titles: Mapping[str, str]) -> str:
    """Return that a site has no such machine, with those there are and their profiles."""
    hint = f"did you mean {near}? " if near else ""
    return (
        f'{site} has no machine "{unit}"; {hint}It has {_machines(titles)}; '
        "for another one, say which it is with --profile."
    )


def _machines(titles: Mapping[str, str]) -> str:
    return ", ".join(f"{title} ({profile})" for title, profile in titles.items())


def ordinal(number: int) -> str:
    """Return a place in a row as a word, beyond the tenth as a figure: "third", "21st"."""
    if number <= len(_ORDINALS):
        return _ORDINALS[number - 1]
    teen = number % 100 in {11, 12, 13}
    return f"{number}{'th' if teen else {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th')}"


def ago(age: float) -> str:
    """Return how many days ago something was."""
    whole = int(age)
    return "less than a day ago" if whole < 1 else f"{days(whole)} ago"


def days(value: float) -> str:
    """Return a number of days, whole, at least one."""
    whole = max(1, round(value))
    return "a day" if whole == 1 else f"{whole} days"


def repeated(say: str, count: int, days: float) -> str:
    """Return the pack's sentence about `count` earlier sessions of the last `days` days."""
    filled = say.replace("{count}", str(count)).replace("{days}", f"{days:g}")
    return filled.replace("{nth}", ordinal(count + 1))


def recurred(say: str, fault: str, days: float) -> str:
    """Return the pack's sentence about a fault that was found some days ago."""
    return say.replace("{fault}", fault).replace("{ago}", ago(days))


def no_service(names: Iterable[str]) -> str:
    """Return that the address book dates something that the pack does not know as service."""
    return f"The address book dates {', '.join(names)}, which is no service here; see barrelside sites check."


def no_book(path: str) -> str:
    """Return that there is no address book, and where one belongs."""
    return f"There is no address book yet; write one at {path}, or name one with --sites."


def site_head(key: str, site: Site) -> str:
    """Return the lines that head a site."""
    head = ", ".join(filter(None, (f"{site.name} ({key})", site.phone)))
    return "\n".join(filter(None, (head, f"  {site.note}" if site.note else "")))


def machine_line(key: str, machine: SiteMachine) -> str:
    """Return the lines that describe a machine."""
    title = machine.title(key) if machine.title(key) == key else f"{machine.title(key)} ({key})"
    installed = f"installed {machine.installed}" if machine.installed else ""
    what = ", ".join(filter(None, (machine.profile, *machine.flavours, installed)))
    return "\n".join(filter(None, (f"  {title}: {what}", f"    {machine.note}" if machine.note else "")))


def past_line(past: Past) -> str:
    """Return the line of one earlier session: when, how it ended, with which cause."""
    causes = ", ".join(past.titles)
    likely = "" if past.found or not causes else "probably "
    outcome = past.outcome.replace("_", " ") or _OPEN
    return f"    {past.started.date().isoformat()}  {outcome}{f': {likely}{causes}' if causes else ''}"


def no_past() -> str:
    """Return that no session is known about a machine."""
    return "    no sessions yet"


def due_text(due: MachineDue, within: float, *, everything: bool) -> str:
    """Return the lines of one machine: what is overdue or falls due in the days ahead, what has no date.

    With `everything` the days ahead have no end, and what has no date is named, as the book names it.
    """
    shown = [each for each in due.known if everything or each.left <= within]
    lines = [f"{due.site}, {due.machine}", *(_due_line(due, each) for each in shown or due.known[:1])]
    if due.undated:
        names = (
            ", ".join(item.id for item in due.undated) if everything else _counted(len(due.undated), "piece")
        )
        lines.append(wrapped(f"no date   {names}", 2, 10))
    return "\n".join(lines)


def _due_line(due: MachineDue, each: Standing) -> str:
    state = "OVERDUE" if each.over > 0 else "due" if each.left <= 0 else "ahead"
    by = f", by {days(each.over)}" if each.over > 0 else ""
    return f"  {state:<8}  {due.falls_due(each).isoformat()}  {each.item.title}{by}"


def due_counted(found: Iterable[MachineDue]) -> str:
    """Return how much is overdue in all."""
    late = [len(each.overdue) for each in found if each.overdue]
    if not late:
        return "Nothing dated is overdue."
    return f"{_counted(sum(late), 'piece')} of service overdue on {_counted(len(late), 'machine')}."


def book_is_sound(path: str, sites: int, machines: int) -> str:
    """Return that nothing is wrong with an address book."""
    return f"{path}: {_counted(sites, 'site')}, {_counted(machines, 'machine')}, nothing wrong."


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


def problems_text(problems: Iterable[object]) -> str:
    """Return every problem on a line of its own."""
    return "\n".join(map(str, problems))
