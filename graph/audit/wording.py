"""The sentences of an audit: one entry a rule, worst first. Nothing is decided here but level and order."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

ERROR: Literal["error"] = "error"
WARNING: Literal["warning"] = "warning"


@dataclass(frozen=True, slots=True)
class Rule:
    """How grave a rule is, the heading of its remarks, the sentence of one, and what to do about it."""

    level: Literal["error", "warning"]
    heading: str
    what: str
    remedy: str = ""


RULES: dict[str, Rule] = {
    "invalid": Rule(ERROR, "Does not fit the form of a pack", "{what}", "{remedy}"),
    "unknown_name": Rule(ERROR, "Leads nowhere", '"{name}" is no {kind}.', "{hint}"),
    "symptom_as_cause": Rule(
        ERROR,
        "Leads nowhere",
        '"{name}" is a symptom, and symptoms cause nothing.',
        "Name the faults or the event behind it.",
    ),
    "no_such_place": Rule(ERROR, "Leads nowhere", "{why}"),
    "part_of_itself": Rule(ERROR, "Goes round in a circle", "{ring}.", "Break the circle at one of them."),
    "tree_problem": Rule(ERROR, "Fault tree unsound", 'the event "{event}" {why}.', "{remedy}."),
    "vote_without_k": Rule(
        ERROR, "Fault tree unsound", "says at_least but not how many.", "Give k, the number of inputs."
    ),
    "repeated_differently": Rule(
        ERROR,
        "Repeated differently",
        'its component "{component}" stands once per {each}, the fault does not.',
        "Give both the same `each`.",
    ),
    "rates_without_channels": Rule(
        ERROR, "Repeated differently", "rates by channel need `each: channel`.", "Add it, or give one rate."
    ),
    "channel_reading_elsewhere": Rule(
        ERROR,
        "Repeated differently",
        'the reading "channel" means the channel where an element stands, and this one stands at none.',
        "Name the quantity.",
    ),
    "row_sum": Rule(ERROR, "Rows that do not sum to one", "the row sums to {total}.", "Make it sum to 1."),
    "otherwise_certain": Rule(
        ERROR,
        "Rows that rule everything else out",
        "otherwise is 1, so any other answer would be impossible.",
        "Give at most 0.999.",
    ),
    "bands_overlap": Rule(ERROR, "Bands that cannot be", "{why}"),
    "reading_without_bands": Rule(
        ERROR,
        "Bands that cannot be",
        "it is answered with a reading but no outcome has a band.",
        "Add bands.",
    ),
    "unit_unknown": Rule(ERROR, "Units", "{why}"),
    "not_expanded": Rule(ERROR, "Does not expand", 'the profile "{profile}" does not expand: {why}'),
    # Somebody could be hurt.
    "hazard_without_caution": Rule(
        WARNING,
        "Hazards without a caution before them",
        '"{word}" means {hazard}, and no caution before this step speaks of it: {reason}.',
        "Show its caution at this step, at the gate before it or at the remedy.",
    ),
    "opened_without_sanitising": Rule(
        WARNING,
        "Product path opened without the sanitising gate",
        "the product path is opened and no step passes a sanitising gate.",
        "Add it before the return to service.",
    ),
    "place_without_caution": Rule(
        WARNING,
        "Work at a place without the caution of that place",
        'it is done {place}, and "{caution}" is not shown before it.',
        "Show it at this check, at the head of the remedy or at its first step.",
    ),
    "isolates_without_gate": Rule(
        WARNING,
        "Isolates without a gate",
        "it isolates {isolates} and no step passes a gate.",
        "Put the gate before the step that opens anything.",
    ),
    "untrained_behind_gate": Rule(
        WARNING,
        "Hazardous checks open to untrained people",
        'the gate "{gate}" has steps that an operator may not do, yet {role} may do the check.',
        "Take the role away, or split the check.",
    ),
    "untrained_with_tool": Rule(
        WARNING,
        "Hazardous checks open to untrained people",
        "{role} may do it and it needs a tool ({tool}).",
        "Take the role away, or ask something that can be seen without a tool.",
    ),
    "condemned_without_proof": Rule(
        WARNING,
        "Parts condemned without proof",
        'it takes the part "{part}" and asks for no proof first.',
        "Name the checks that prove the part bad.",
    ),
    "no_proper_end": Rule(
        WARNING,
        "No return to service and nothing measured at the end",
        "no step passes a return-to-service gate, and nothing is read or checked at the end.",
        "Add the gate, a reading or a check.",
    ),
    "window_missing": Rule(
        WARNING,
        "Verification without limits",
        'the profile "{profile}" states no window "{window}" for "{quantity}".',
        "State it there, or give limits here.",
    ),
    "danger_without_hold": Rule(
        WARNING,
        "Dangers without a word on what holds meanwhile",
        "it stops everything, and does not say what nobody does until it is called over.",
        "Say it in one sentence under hold.",
    ),
    # The belief would be wrong.
    "faults_alike": Rule(
        WARNING,
        "Faults that nothing tells apart although their remedies differ",
        "{faults}: same rows in every check and symptom; remedies {remedies}.",
        "Add a check, or rows, that one of them changes.",
    ),
    "confusable": Rule(
        WARNING,
        "Taken for something with another remedy after a truthful interview",
        "{fault} leaves {believed:.0%} on {other} and {own:.0%} on itself ({instances} such).",
        "Strengthen a row that separates them.",
    ),
    "fault_without_symptom": Rule(
        WARNING,
        "Faults without a symptom",
        "no symptom has a row for it or for an event above it.",
        "List it under a symptom.",
    ),
    "fault_with_few_checks": Rule(
        WARNING,
        "Faults that fewer than two checks can raise",
        "{count} of at least {fewest} checks speak of it.",
        "Add a row to another check.",
    ),
    "row_unreachable": Rule(
        WARNING,
        "Rows that never apply",
        'the row of "{key}" never applies: nearer rows speak for every fault that leads to it.',
        "Take it out, or take out the nearer rows.",
    ),
    "tells_nothing": Rule(
        WARNING, "Checks that tell nothing", "no row of it ever applies.", "Add rows, or take it out."
    ),
    "outcome_unraised": Rule(
        WARNING,
        "Outcomes that nothing raises",
        "no row lifts it above its share without a cause, and it is not the usual one.",
        "List what causes it, or merge it with another outcome.",
    ),
    "weak_word": Rule(
        WARNING,
        "Weak words that speak loudly against the usual answer",
        '"{key}" shows this in {share:.0%} only, yet leaves "{usual}" {left:.0%} instead of {otherwise:.0%}.',
        "List it under the usual outcome too, or write its row.",
    ),
    # Somebody would not be understood.
    "wording_missing": Rule(
        WARNING, "Wording missing", "{role} may do it and has no words for it.", "Word it for that role."
    ),
    "phrase_of_two_outcomes": Rule(
        WARNING,
        "Phrases with two meanings",
        '"{phrase}" is also said for the outcome "{other}" of this check.',
        "Keep it at one of them.",
    ),
    "phrase_of_two_symptoms": Rule(
        WARNING,
        "Phrases with two meanings",
        '"{phrase}" is also said for the symptom "{other}".',
        "Keep it at one of them.",
    ),
    "few_symptom_phrases": Rule(
        WARNING, "Symptoms with few phrases", "{count} of at least {fewest} phrases.", "Add ways to say it."
    ),
    "few_outcome_phrases": Rule(
        WARNING, "Outcomes with few phrases", "{count} of at least {fewest} phrases.", "Add ways to say it."
    ),
    # Tidiness.
    "remedy_unused": Rule(WARNING, "Used by nothing", "no fault calls for this remedy."),
    "gate_unused": Rule(WARNING, "Used by nothing", "no check and no step passes this gate."),
    "caution_unused": Rule(WARNING, "Used by nothing", "nothing shows this caution."),
    "event_unused": Rule(WARNING, "Used by nothing", "no row names it, nor any event that it leads to."),
    "source_unused": Rule(WARNING, "Used by nothing", "nothing rests on this source."),
    "flavours_and_barrels": Rule(
        WARNING, "Numbers at odds", "{flavours} flavours for {barrels} barrels.", "Name one per barrel."
    ),
    "due_after_overdue": Rule(
        WARNING,
        "Numbers at odds",
        "due from {from_days:g} days on, but overdue after {days:g}.",
        "Give from_days at most days.",
    ),
    "ages_by_half": Rule(
        WARNING,
        "Numbers at odds",
        "a switch that ages needs both: since, and after with the days of a value.",
        "Write the other one, or take this one out.",
    ),
    "bands_without_reading": Rule(
        WARNING,
        "Numbers at odds",
        "outcomes have bands but the check reads no quantity.",
        "Name the quantity.",
    ),
    "k_without_vote": Rule(
        WARNING, "Numbers at odds", 'k means nothing with the gate "{gate}".', "Take it out."
    ),
    "otherwise_without_usual": Rule(
        WARNING,
        "Numbers at odds",
        "otherwise is the share of the usual outcome, and there is none.",
        "Name the usual outcome or take this out.",
    ),
    "unit_not_canonical": Rule(
        WARNING, "Numbers at odds", '"{unit}" is not the unit we keep; that is "{kept}".', "Use that."
    ),
    "source_not_named": Rule(
        WARNING,
        "Sources not named",
        "{count} {kind} of {chapter} name no source and rest on the default: {some}.",
        "Name where each comes from, or in rests_on at the head of the chapter.",
    ),
    "confusable_same_remedy": Rule(
        WARNING,
        "Taken for something with the same remedy after a truthful interview",
        "{fault} leaves {believed:.0%} on {other} and {own:.0%} on itself ({instances} such).",
    ),
}
