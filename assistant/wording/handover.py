"""Who goes on, and what a newcomer must know."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.wording.pieces import lower, percent, tell

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from assistant.engine.effects import Cause, Tell


def hand_to_whom(titles: Mapping[str, str]) -> Tell:
    return tell("ignored", f"To whom? Say one of: {', '.join(titles.values())}.")


def handed_over(title: str, person: str) -> Tell:
    name = f" ({person})" if person else ""
    return tell("handover", f"{title}{name} goes on from here.")


def your_role(title: str) -> Tell:
    return tell("handover", f"You are down as: {title}." if title else "I don't know your role yet.")


def ask_become(title: str) -> str:
    return f"{title}: are you trained and allowed to do that work, here and today?"


def role_kept() -> Tell:
    return tell("handover", "Then nothing changes.")


def so_far(
    role: str,
    complaint: str,
    answers: int,
    causes: Sequence[Cause],
    *,
    hazards: Sequence[str],
    done: Sequence[str],
    by_phone: bool,
    weighty: Sequence[tuple[str, float]],
) -> Tell:
    """Return what is known so far, in one paragraph; `weighty` are answers with their weights of evidence."""
    parts = []
    if complaint:
        parts.append(f'Complaint: "{complaint}".')
    if hazards:
        parts.append(f"Mind: {'; '.join(hazards)}.")
    how = " by phone" if by_phone else ""
    parts.append(f"Answers so far{f' from {lower(role)}{how}' if role else ''}: {answers}.")
    if done:
        parts.append(f"Done without effect: {'; '.join(done)}.")
    if answers and causes:
        listed = "; ".join(f"{lower(each.title)} {percent(each.probability)}" for each in causes)
        parts.append(f"Likely: {listed}.")
    if weighty:
        sides = (f"{text} ({'for' if weight > 0 else 'against'} it)" for text, weight in weighty)
        parts.append(f"What weighs most: {'; '.join(sides)}.")
    return tell("handover", " ".join(parts))
