"""An evening in rooms of the flat, from an empty log, with one wrong answer and one device that trips on the way."""

from functools import cache

from floorplan_circuits.find import find, plan_rounds
from floorplan_circuits.home.boxes import NotKnown
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.rounds.steps import GuideStep
from floorplan_circuits.supply.graph import supply_graph
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.supply.reach import closed_off
from sample_homes.write_samples import SAMPLES
from tests.rounds.evenings import BY_TESTER, carried_out

ROOMS = 2


@cache
def truth() -> Home:
    """Two rooms of the flat as the sample says that it is wired."""
    whole = SAMPLES["flat.json"]()
    rooms = find(whole).room_of
    some = [room for room in dict.fromkeys(rooms.values()) if room is not None][:ROOMS]
    boxes = [box for box in whole.boxes if rooms.get(box.id) in some]
    there = {device.id for box in boxes for device in box.devices}
    controls = [one for one in whole.controls if {*one.switches} <= there]
    return change(whole, boxes=Table(boxes), controls=Table(controls), log=())


def unknown() -> Home:
    """The same home as somebody finds it who knows nothing of what hangs on what."""
    nothing = NotKnown(how="not known")
    boxes = [
        change(
            box,
            devices=tuple(
                change(
                    device,
                    feeds=tuple(
                        change(feed, on=nothing, said_by="not said") if feed.on.how in ("any", "all") else feed
                        for feed in device.feeds
                    ),
                )
                for device in box.devices
            ),
        )
        for box in truth().boxes
    ]
    return change(truth(), boxes=Table(boxes))


class Evening:
    """Answers from the truth, but for one wrong 'dead' in a round and one feed that is dead from the third round on."""

    def __init__(self, wrong: int, trips: int) -> None:
        self.graph, self.together = supply_graph(truth()), moves_together(truth())
        self.resting = frozenset(one.id for one in truth().breakers if one.found.state in ("off", "tripped"))
        self.wrong, self.trips, self.told_wrong, self.has_tripped = wrong, trips, False, False

    def dead(self, off) -> frozenset[int]:
        moved = frozenset(other for handle in off for other in self.together.get(handle, {handle}))
        return closed_off(self.graph, moved | self.resting)

    def __call__(self, step: GuideStep, feed: int) -> str:
        self.has_tripped = self.has_tripped or (step.stage == "round" and step.nth >= 3)
        if feed == self.trips and self.has_tripped:
            return "dead"
        says = "dead" if feed in self.dead(step.off) else "live"
        if feed == self.wrong and says == "live" and step.stage == "round" and not self.told_wrong:
            self.told_wrong = True
            return "dead"
        return says


def test_each_is_proved_but_what_tripped_and_nothing_untrue_is() -> None:
    start = unknown()
    feeds = [feed.id for box in start.boxes for feed in box.feeds() if feed.on.how == "not known"]
    evening = Evening(wrong=feeds[0], trips=feeds[-1])
    handles = plan_rounds(find(start)).handles
    home, steps = carried_out(start, evening, BY_TESTER, anew=True)
    known = find(home).conclusions
    assert evening.told_wrong
    assert evening.has_tripped
    assert known[feeds[-1]].standing not in ("proved", "suggested")
    proved = [feed for feed in feeds if known[feed].standing == "proved"]
    on_one_handle = {feed for handle in handles for feed in evening.dead([handle])} & {*feeds}
    assert len(on_one_handle) > 10
    assert on_one_handle - {feeds[-1]} <= {*proved}
    assert all(feed in evening.dead(known[feed].breakers) for feed in proved)
    assert "feeder" in {step.stage for step in steps}  # and no main: on it is one that the owner is to be asked for
