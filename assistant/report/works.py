"""The repairs of a session, step by step, read off its exchanges: gates ticked, results, verification.

A repair begins when its first step is shown and ends with its proof, when it is stopped, or when
somebody else goes on.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.engine.effects import Decide, Tell
from assistant.engine.events import Chose
from assistant.report.evidence import GONE
from assistant.report.exchanges import answers, worded
from assistant.report.model import Item, Proved, Work
from assistant.report.wording import gone_through, not_read_out

if TYPE_CHECKING:
    from collections.abc import Iterable

    from assistant.engine.effects import Ask, Effect
    from assistant.report.exchanges import Exchange, Reply

_ITEMS = ("step", "gate", "caution")
_RESULTS = {"yes": "helped", "no": "did_not_help"}


@dataclass(frozen=True, slots=True)
class Scene:
    """What goes on at one moment of the walk: a repair under way or none, the gate last named."""

    work: Work | None = None
    gate: str = ""
    decided: tuple[Decide, ...] = ()
    done: tuple[Work, ...] = ()
    apart: tuple[Item, ...] = ()  # what made checks safe, outside any repair


def works(kept: tuple[Exchange, ...], given: dict[int, Reply], roles: tuple[str, ...]) -> Scene:
    """Return the repairs in `done`, and in `apart` what was gone through before checks.

    `roles` says who answered each exchange.
    """
    scene = Scene()
    for index, exchange in enumerate(kept):
        reply = given.get(index)
        if reply is not None:
            scene = _replied(scene, reply, roles[index])
        elif exchange.ask is not None and exchange.ask.id == "instead" and answers(exchange.event):
            scene = _tried(scene, exchange, exchange.ask, roles[index])
        for effect in exchange.shown:
            scene = _shown(scene, effect, exchange, roles[index])
    return scene if scene.work is None else _ended(scene, "open", scene.work.ended)


def _replied(scene: Scene, reply: Reply, role: str) -> Scene:
    ask = reply.ask
    if ask.about in _ITEMS:
        gate = scene.gate if ask.about == "gate" else ""
        text = gone_through(ask.text)
        item = Item(reply.at, ask.about, ask.id, ask.ref, gate, text, reply.answer, reply.done, role)
        if scene.work is None or ask.why != scene.work.title:
            return replace(scene, apart=(*scene.apart, item))
        return replace(scene, work=replace(scene.work, items=(*scene.work.items, item), ended=reply.at))
    if ask.about == "verification" and scene.work is not None:
        return _verified(scene, scene.work, reply)
    return scene


def _tried(scene: Scene, exchange: Exchange, ask: Ask, role: str) -> Scene:
    """Return the scene with the other way that was gone where a step could not be done as it stood."""
    led_on = isinstance(exchange.event, Chose) and exchange.event.option == "yes"
    text = not_read_out(ask.text)
    item = Item(exchange.at, "instead", ask.id, ask.ref, "", text, worded(exchange), led_on, role)
    if scene.work is None:
        return replace(scene, apart=(*scene.apart, item))
    return replace(scene, work=replace(scene.work, items=(*scene.work.items, item)))


def _verified(scene: Scene, work: Work, reply: Reply) -> Scene:
    if reply.ask.id == GONE:
        result = _RESULTS.get(reply.choice, "for_now")
        if _left_over(reply):
            return _ended(scene, "helped", reply.at)
        result = "did_not_help" if _goes_on(reply) else result
        return _ended(scene, result, reply.at)
    failed = _goes_on(reply)
    unproved = any(isinstance(each, Tell) and each.topic == "proving" for each in reply.seen) and not failed
    passed = None if unproved else not failed
    proof = Proved(reply.at, not_read_out(reply.ask.text), reply.answer, reply.ask.id, passed)
    work = replace(work, verified=(*work.verified, proof), ended=reply.at)
    scene = replace(scene, work=work)
    return _ended(scene, "did_not_help", reply.at) if failed else scene


_ASIDES = ("safe", "safe_by", "secured", "early")  # asked for safety's sake, whatever came before


def _goes_on(reply: Reply) -> bool:
    """Return whether the session went on narrowing, which says that the work did not help."""
    if reply.then is None or (reply.then.about == "confirm" and reply.then.id in _ASIDES):
        return False
    return reply.then.about not in {"verification", "closing"}


def _left_over(reply: Reply) -> bool:
    """Return whether the complaint was gone and only what the work does not explain was looked at then."""
    asked = reply.then is not None and reply.then.id == "left"
    return asked or any(isinstance(each, Tell) and each.topic == "left" for each in reply.seen)


def _shown(scene: Scene, effect: Effect, exchange: Exchange, role: str) -> Scene:
    match effect:
        case Decide():
            return replace(scene, decided=(*scene.decided, effect))
        case Tell(topic="gate"):
            return replace(scene, gate=effect.id)
        case Tell(topic="doing"):
            before = _ended(scene, "open", exchange.at)
            return replace(before, work=_begun(effect, scene.decided, exchange.at, role))
        case Tell(topic="stopped"):
            return _ended(scene, "stopped", exchange.at)
        case Tell(topic="handover") if not _still_at_it(scene.work, exchange.then):
            return _ended(scene, "handed_over", exchange.at)
    return scene


def _still_at_it(work: Work | None, then: Ask | None) -> bool:
    """Return whether the question after a word about roles still belongs to the repair."""
    if work is None or then is None:
        return False
    return then.about in {"verification", "confirm"} or (then.about in _ITEMS and then.why == work.title)


def _begun(tell: Tell, decided: Iterable[Decide], at: str, role: str) -> Work:
    made = next((each for each in reversed(tuple(decided)) if each.remedy == tell.id), None)
    title = made.title if made is not None else tell.text
    parts, tools = (made.parts, made.tools) if made is not None else ((), ())
    return Work(tell.id, tell.ref, title, at, at, role, parts, tools, (), (), "open")


def _ended(scene: Scene, result: str, at: str) -> Scene:
    if scene.work is None:
        return scene
    done = replace(scene.work, result=result, ended=at)
    return replace(scene, work=None, done=(*scene.done, done), gate="")
