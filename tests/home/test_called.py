import pytest

from floorplan_circuits.home.boxes import Box, Device, Feed
from floorplan_circuits.home.called import called_there, feed_called
from floorplan_circuits.home.home import FeedPlace

UPPER, LOWER, PLAIN, PASSING = Feed(id=1, part="upper"), Feed(id=2, part="lower"), Feed(id=3), Feed(id=4)
RECEPTACLE = Device(id=10, kind="duplex receptacle", feeds=(UPPER, LOWER))
LAMP = Device(id=11, kind="wall light", feeds=(PLAIN,))
NAMED = Device(id=12, kind="switch", name="hall light", feeds=(PLAIN,))


@pytest.mark.parametrize(
    ("devices", "passing", "device", "feed", "called"),
    [
        ((LAMP,), (), LAMP, PLAIN, "B14"),
        ((RECEPTACLE,), (), RECEPTACLE, UPPER, "B14 upper"),
        ((RECEPTACLE, LAMP), (), RECEPTACLE, LOWER, "B14 receptacle lower"),
        ((RECEPTACLE, NAMED), (), NAMED, PLAIN, "B14 hall light"),
        ((LAMP,), (PASSING,), LAMP, PLAIN, "B14 wall light"),
        ((LAMP,), (PASSING,), None, PASSING, "B14 cable that passes"),
        ((), (PASSING,), None, PASSING, "B14"),
    ],
)
def test_a_feed_is_called_by_no_more_words_than_tell_it_from_the_others(devices, passing, device, feed, called):
    place = FeedPlace(Box(id=20, mark="B14", gangs=2, devices=devices, passing=passing), device, feed)
    assert feed_called(place) == called
    assert f"B14 {called_there(place)}".strip() == called
