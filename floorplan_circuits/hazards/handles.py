"""Breakers that cannot be relied on: found off or tripped, in trouble since, or joined by what is no handle tie."""

from collections.abc import Iterator

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.phrases import listed
from floorplan_circuits.hazards.ranks import AT_TIMES, BY_A_FAULT, LIVE_WHATEVER_IS_OFF, OUT_OF_DATE
from floorplan_circuits.hazards.scene import LIVE, Scene
from floorplan_circuits.home.home import mains
from floorplan_circuits.supply.handles import may_move_along
from floorplan_circuits.survey.troubles import IN_WORDS

SOURCE = "Common practice, no source."
TROUBLE_WHY = "What gives trouble may not open, though its handle says off."
TROUBLE_DO = "Keep off it and call a licensed electrician."
FOUND_WHY = "Nobody here knows what comes alive when it is turned on, nor why it is not."
FUSE_WHY = "Nobody here knows what comes alive when it is put in, nor why it is not. Its holder stays live."
FUSE_STATES = {"off": "taken out", "tripped": "blown"}
JOINED_WHY = "A hand moves them together, so that no test tells which of them feeds a thing; and each can trip alone."
JOINED_DO = "Ask a licensed electrician for a tie that is made for them, or for none; then test again."
FOUND_DO = "Leave it as it was found until somebody knows what hangs on it."


def breakers_in_trouble(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each breaker or main with a trouble that nobody mended."""
    panel_of = {breaker.id: breaker.panel for breaker in scene.home.breakers}
    panel_of |= {main.id: panel.id for panel, main in mains(scene.home)}
    for handle, panel in panel_of.items():
        some = [trouble.what for _, trouble in scene.record.troubles.get(handle, ())]
        if some:
            is_breaker, never = handle in scene.home.breakers, "did not open" in some
            words = listed([IN_WORDS[what] for what in dict.fromkeys(some)])
            called = f"breaker {scene.mark(handle)}" if is_breaker else f"the {scene.mark(handle)}"
            yield scene.at_panel(
                "breaker in trouble",
                scene.mark(handle),
                f"{scene.panel_name(panel)}: {called} {words}.",
                TROUBLE_WHY,
                f"{LIVE} {TROUBLE_DO}" if never else TROUBLE_DO,
                SOURCE,
                LIVE_WHATEVER_IS_OFF if never else OUT_OF_DATE,
                breakers=[handle] if is_breaker else [],
                about=[panel],
            )


def handles_joined(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each group of handles that a nail or wire joins, or nobody is sure what."""
    told = set[int]()
    for breaker, moved in may_move_along(scene.home).items():
        if moved == scene.together[breaker] or breaker in told:
            continue
        told |= moved
        group = scene.in_order(moved)
        ties = [one.tie.made for one in scene.breakers(group) if one.tie is not None]
        by = "by a nail or a wire" if "makeshift" in ties else "and nobody is sure by what"
        called = listed([scene.mark(one) for one in group])
        yield scene.at_panel(
            "handles joined",
            scene.mark(group[0]),
            f"{scene.panel_name(scene.home.breakers[breaker].panel)}: the handles of {called} are joined, {by}.",
            JOINED_WHY,
            JOINED_DO,
            SOURCE,
            AT_TIMES,
            breakers=group,
        )


def breakers_found_off(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each breaker that was found off or tripped."""
    for breaker in scene.home.breakers:
        if breaker.found.is_off:
            mark, why = scene.mark(breaker.id), breaker.found.why.strip()
            is_fuse = breaker.device == "fuse"
            state = FUSE_STATES[breaker.found.state] if is_fuse else breaker.found.state
            says = f"{'fuse' if is_fuse else 'breaker'} {mark} was found {state}{f': {why}' if why else ''}."
            yield scene.at_panel(
                "breaker found off",
                mark,
                f"{scene.panel_name(breaker.panel)}: {says}",
                FUSE_WHY if is_fuse else FOUND_WHY,
                FOUND_DO,
                SOURCE,
                BY_A_FAULT,
                breakers=[breaker.id],
            )
