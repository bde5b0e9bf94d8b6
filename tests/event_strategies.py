"""Hypothesis strategies for events and effects, of any content that the types allow."""

from __future__ import annotations

from typing import get_args

from hypothesis import strategies as st

from assistant.engine.effects import Ask, Cause, Closed, Decide, Option, Tell, Warn
from assistant.engine.events import Asked, Began, Chose, Measured, Said
from assistant.facts import Fact, Kind

texts = st.text(max_size=12)
numbers = st.floats(allow_nan=False)
finite = st.floats(allow_nan=False, allow_infinity=False)
several = st.lists(texts, max_size=3).map(tuple)
perhaps = st.none() | numbers

facts = st.builds(
    Fact,
    kind=st.sampled_from(get_args(Kind)),
    id=texts,
    ref=texts,
    value=texts,
    unit=texts,
    high=texts,
    which=st.lists(st.integers(), max_size=3).map(tuple),
    score=numbers,
    certain=st.booleans(),
    words=texts,
)
causes = st.builds(Cause, id=texts, ref=texts, title=texts, probability=numbers)
options = st.builds(Option, id=texts, label=texts, ref=texts)


def _tuples(parts):
    return st.lists(parts, max_size=3).map(tuple)


events = st.one_of(
    st.builds(
        Began,
        site=texts,
        unit=texts,
        person=texts,
        role=texts,
        others=texts,
        trained=st.booleans(),
        repeats=several,
        known=several,
    ),
    st.builds(Said, text=texts, facts=_tuples(facts), rest=texts),
    st.builds(Chose, option=texts, text=texts),
    st.builds(Measured, value=numbers, unit=texts, quantity=texts, text=texts),
    st.builds(Asked, word=texts, argument=texts),
)
effects = st.one_of(
    st.builds(
        Ask,
        about=texts,
        id=texts,
        ref=texts,
        text=texts,
        options=_tuples(options),
        unit=texts,
        bits=perhaps,
        minutes=perhaps,
        why=texts,
        causes=_tuples(causes),
        bits_left=perhaps,
        place=texts,
    ),
    st.builds(Tell, topic=texts, text=texts, id=texts, ref=texts),
    st.builds(Warn, id=texts, ref=texts, title=texts, do=texts, do_not=texts, who=texts, stop=st.booleans()),
    st.builds(
        Decide,
        kind=texts,
        remedy=texts,
        ref=texts,
        title=texts,
        probability=numbers,
        send=texts,
        parts=several,
        tools=several,
        reasons=several,
        causes=_tuples(causes),
        urgency=texts,
        meanwhile=several,
    ),
    st.builds(Closed, outcome=texts, cause=texts, ref=texts, text=texts),
)
