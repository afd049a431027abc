"""Any hand at all: whatever is pressed, moved, typed, undone and done again, the home stays what it should be."""

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from floorplan_circuits.edits.pasting import copied
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.findings import Subject
from floorplan_circuits.geometry.snapping import edges
from floorplan_circuits.gestures.drawing_rooms import DrawRoom
from floorplan_circuits.gestures.events import Event, Key, Move, Press, Release
from floorplan_circuits.gestures.putting import PutDevice
from floorplan_circuits.gestures.putting_panels import PutPanel
from floorplan_circuits.gestures.selecting import ARROWS, Select
from floorplan_circuits.gestures.stamping import StampClip
from floorplan_circuits.gestures.step import BUILDING_KEYS, at_rest, says_of
from floorplan_circuits.gestures.switching import DrawSwitching
from floorplan_circuits.gestures.tracing import MarkLength, MarkWall, MovePicture
from floorplan_circuits.gestures.tying import TieDevices
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import ids, problems
from floorplan_circuits.view import Draft
from tests.edits.samples import house, read
from tests.edits.test_underlays import with_picture
from tests.gestures.hand import Hand
from tests.homes import homes

SPOTS = (-100, 0, 20, 1000, 2000, 3000, 3980, 4000, 5000, 7000)
spots = st.tuples(st.sampled_from(SPOTS), st.sampled_from(SPOTS))
places = st.one_of(
    spots,
    st.tuples(*[st.floats(-9000, 9000)] * 2),
    st.sampled_from(((1e7, -1e7), (3e7, 0.0))),
)
keys = st.sampled_from(("escape", "enter", "delete", "backspace", *ARROWS, "tab"))
letters = st.sampled_from(list("nrslckhboiyu2+- 0358.x'\"m%é"))
building = st.sampled_from(tuple(BUILDING_KEYS.values()))
openings = st.sampled_from(tuple(BUILDING_KEYS[key] for key in "oiy"))
pictures = st.sampled_from((MarkLength(), MarkWall(), MovePicture()))
tools = st.one_of(
    st.sampled_from((Select(), PutDevice("switch"), PutDevice("ceiling light"), TieDevices(), PutPanel(999_999))),
    st.just(DrawSwitching()),
    st.builds(lambda: StampClip(copied(house(), [*house().rooms.ids(), *house().boxes.ids()]))),
    st.builds(lambda: StampClip(copied(house(), house().boxes.ids()[:1]))),
    building,
    pictures,
)
starts = st.one_of(
    st.builds(new_home), st.builds(house), st.builds(with_picture), homes().filter(lambda home: len(home.levels) > 0)
)


class AnyHand(RuleBasedStateMachine):
    """A hand without a mind of its own, and what must hold after each of its events."""

    @initialize(home=starts)
    def begin(self, home: Home) -> None:
        self.hand = Hand(home, reach=60.0)
        self.floor = home
        self.born: dict[str | int, str] = {}

    # --- what it does -----------------------------------------------------------------------------------------------

    def do(self, event: Event) -> None:
        before, selected = self.hand.history, self.hand.selected
        outcome = self.hand.do(event)
        after = self.hand.history
        assert outcome.says.strip()
        assert outcome.draft is None or isinstance(outcome.draft, Draft)
        if outcome.edit is None:
            assert after is before
        else:
            assert outcome.edit.says.strip()
            assert outcome.edit.home is not before.ground
            assert after.undo_says == outcome.edit.says
            assert len(after.past) <= len(before.past) + 1
        if event == Key("escape"):
            assert after is before
            assert outcome.draft in (None, Draft())
            assert outcome.selected in (None, (), selected)

    def subject(self, data: st.DataObject) -> Subject | None:
        """Something that could be under the pointer, or something long gone."""
        home = self.hand.home
        known = [Subject(kind, number) for number, kind in ids(home).items() if kind not in ("feed", "main", "entry")]
        return data.draw(st.sampled_from((None, Subject("box", 999_999), *known[:40])))

    @rule(at=places, add=st.booleans(), data=st.data())
    def press(self, at, add, data) -> None:
        self.do(Press(at, self.subject(data), add))

    @rule(at=places, held=st.booleans())
    def move(self, at, held) -> None:
        self.do(Move(at, None, held))

    @rule(at=places, add=st.booleans())
    def release(self, at, add) -> None:
        self.do(Release(at, None, add))

    @rule(start=places, end=places, data=st.data())
    def drag(self, start, end, data) -> None:
        self.do(Press(start, self.subject(data)))
        self.do(Move(end, None, True))
        self.do(Release(end))

    @rule(at=places, data=st.data())
    def click(self, at, data) -> None:
        self.do(Press(at, self.subject(data)))
        self.do(Release(at))

    @rule(name=keys, add=st.booleans())
    def key(self, name, add) -> None:
        self.do(Key(name, "", add))

    @rule(words=st.lists(letters, min_size=1, max_size=4))
    def type(self, words) -> None:
        for letter in words:
            self.do(Key("", letter))

    @rule(start=spots, end=spots)
    def draw_a_room(self, start, end) -> None:
        self.take(DrawRoom())
        for event in (Press(start), Move(end, None, True), Release(end)):
            self.do(event)

    @rule(tool=building, start=spots, end=spots, add=st.booleans(), answer=st.sampled_from(("enter", "l", "escape")))
    def build(self, tool, start, end, add, answer) -> None:
        """Drag with a building tool, and answer what it may ask."""
        self.take(tool)
        for event in (Press(start, None, add), Move(end, None, True), Release(end, None, add)):
            self.do(event)
        if getattr(self.hand.tool, "offer", None) is not None:
            self.do(Key("", "l") if answer == "l" else Key(answer))

    @rule(tool=openings, at=spots, width=st.sampled_from(("", "0.5", "2.0")), data=st.data())
    def put_an_opening(self, tool, at, width, data) -> None:
        self.take(tool)
        for letter in width:
            self.do(Key("", letter))
        on = data.draw(st.sampled_from((None, *(Subject("opening", one) for one in self.hand.home.openings.ids()))))
        for event in (Press(at, on), Release(at, on)):
            self.do(event)

    @rule(kind=st.sampled_from(("switch", "duplex receptacle", "ceiling light", "outdoor light")), at=spots)
    def put_a_device(self, kind, at) -> None:
        self.take(PutDevice(kind))
        for event in (Press(at), Release(at)):
            self.do(event)

    @rule(
        kind=st.sampled_from(("switch", "recessed light")),
        start=spots,
        end=spots,
        words=st.sampled_from(("", "1", "6")),
    )
    def put_a_row(self, kind, start, end, words) -> None:
        self.take(PutDevice(kind))
        for event in (Press(start), Move(end, None, True), *(Key("", one) for one in words), Release(end)):
            self.do(event)

    @rule(add=st.booleans(), data=st.data())
    def draw_what_a_switch_works(self, add, data) -> None:
        self.take(DrawSwitching())
        for adds in (False, add, False):
            at = self.subject(data)
            self.do(Press((0, 0), at, adds))
            self.do(Release((0, 0), at, adds))

    @precondition(lambda self: len(self.hand.home.boxes) > 0)
    @rule(data=st.data())
    def carry_a_gang(self, data) -> None:
        self.take(Select())
        box = data.draw(st.sampled_from(self.hand.home.boxes.rows))
        self.hand.selected = (Subject("box", box.id),)
        gangs = [Subject("device", one.id) for one in box.devices]
        on = data.draw(st.sampled_from((Subject("box", box.id), *gangs)))
        over = self.subject(data)
        for event in (Press((0, 0), on), Move((300, 0), over, True), Release((300, 0), over)):
            self.do(event)

    @rule(end=spots, data=st.data())
    def drag_a_thing(self, end, data) -> None:
        self.take(Select())
        home = self.hand.home
        tables = {"room": home.rooms, "box": home.boxes, "opening": home.openings, "stair": home.stairs}
        known = [Subject(kind, one) for kind, table in tables.items() for one in table.ids()]
        on = data.draw(st.sampled_from((*known, None)))
        for event in (Press((2000, 60), on), Move(end, None, True), Release(end)):
            self.do(event)

    @precondition(lambda self: len(self.hand.home.rooms) > 0)
    @rule(end=spots, add=st.booleans(), data=st.data())
    def drag_a_corner_or_a_wall(self, end, add, data) -> None:
        self.take(Select())
        room = data.draw(st.sampled_from(self.hand.home.rooms.rows))
        a, b = data.draw(st.sampled_from(edges([room.outline])))
        start = data.draw(st.sampled_from((a, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2))))
        self.hand.selected = (Subject("room", room.id),)
        for event in (Press(start, None, add), Move(end, None, True), Release(end)):
            self.do(event)

    @precondition(lambda self: len(self.hand.home.breakers) > 0 and len(self.hand.home.boxes) > 0)
    @rule(data=st.data())
    def tie_a_box(self, data) -> None:
        self.take_a_breaker(data)
        box = Subject("box", data.draw(st.sampled_from(self.hand.home.boxes.ids())))
        for event in (Press((0, 0), box), Release((0, 0), box)):
            self.do(event)

    @rule(data=st.data(), name=st.sampled_from(("delete", "left", "down")))
    def press_a_key_over_some_things(self, data, name) -> None:
        self.take(Select())
        self.hand.selected = (self.subject(data) or Subject("box", 999_999), *self.hand.selected[:2])
        self.do(Key(name))

    @rule(tool=tools)
    def take(self, tool) -> None:
        self.hand.tool = tool
        self.hand.history = self.hand.history.settled()
        assert says_of(tool)

    @precondition(lambda self: len(self.hand.home.breakers) > 0)
    @rule(data=st.data())
    def take_a_breaker(self, data) -> None:
        self.hand.tool = TieDevices(data.draw(st.sampled_from(self.hand.home.breakers.ids())))

    @precondition(lambda self: len(self.hand.home.panels) > 0)
    @rule(at=spots, data=st.data())
    def put_a_panel(self, at, data) -> None:
        self.take(PutPanel(data.draw(st.sampled_from(self.hand.home.panels.ids()))))
        for event in (Press(at), Release(at)):
            self.do(event)

    @rule()
    def undo(self) -> None:
        self.hand.undo()

    @rule()
    def redo(self) -> None:
        self.hand.redo()

    @rule()
    def rest(self) -> None:
        self.hand.tool = at_rest(self.hand.tool)

    @precondition(lambda self: self.hand.home.levels)
    @rule(data=st.data())
    def look_at_another_level(self, data) -> None:
        self.hand.level = data.draw(st.sampled_from(self.hand.home.levels.ids()))

    @rule()
    def log_a_round(self) -> None:
        """A log entry is a floor: nothing before it is undone."""
        self.hand.history = self.hand.history.done(read(self.hand.history.ground, [1], 2), "Log a round")
        self.floor = self.hand.home
        assert self.hand.history.undone() is self.hand.history

    # --- what holds -------------------------------------------------------------------------------------------------

    @invariant()
    def the_home_is_sound(self) -> None:
        assert problems(self.hand.home) == ()

    @invariant()
    def undone_to_the_end_it_is_the_very_first_and_done_again_the_very_last(self) -> None:
        history = self.hand.history
        last = history.future[0].home if history.future else history.now
        while history.past:
            history = history.undone()
        assert history.now is self.floor
        while history.future:
            history = history.redone()
        assert history.now is last

    @invariant()
    def no_id_and_no_mark_ever_means_something_else(self) -> None:
        home = self.hand.home
        for number, kind in ids(home).items():
            assert self.born.setdefault(number, kind) == kind
        for box in home.boxes:
            assert self.born.setdefault(f"mark {box.mark}", str(box.id)) == str(box.id)
        assert max(ids(home), default=0) < home.next_id


AnyHand.TestCase.settings = settings(max_examples=70, stateful_step_count=40, deadline=None)
TestAnyHand = AnyHand.TestCase
