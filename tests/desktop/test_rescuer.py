"""Rescue copies: whatever ends the program, at most two seconds of work are missing."""

import os
import random
import signal
import subprocess
import sys
import time

import pytest

from floorplan_circuits.desktop.rescuer import Rescuer
from floorplan_circuits.edits.names import name_home
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.files.rescue import list_rescues, open_rescue

KILLS, AT_ONCE = 100, 20
MOST_MISSING_S = 2.0


@pytest.mark.skipif(not hasattr(os, "fork"), reason="children are forked")
def test_killed_a_hundred_times_while_editing_a_copy_opens_and_at_most_two_seconds_are_missing(tmp_path):
    dice = random.Random(7)
    missing = []
    for batch in range(KILLS // AT_ONCE):
        folder = tmp_path / str(batch)
        parent = subprocess.Popen(
            [sys.executable, "-m", "tests.desktop.edit_loop", str(folder), str(AT_ONCE)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        pids = [int(parent.stdout.readline()) for _ in range(AT_ONCE)]
        killed = {}
        for number, pid in enumerate(pids):
            wait_for_a_copy(folder / str(number))
            time.sleep(dice.uniform(0, 0.12))
            os.kill(pid, signal.SIGKILL)
            killed[number] = time.time()
        parent.kill()
        parent.communicate()
        for number, when in killed.items():
            (rescue,) = list_rescues(folder / str(number))
            missing.append(when - float(open_rescue(rescue).home.name))

    assert len(missing) == KILLS
    assert max(missing) <= MOST_MISSING_S


def wait_for_a_copy(folder):
    ends = time.time() + 20
    while time.time() < ends and not list_rescues(folder):
        time.sleep(0.005)


def test_a_copy_is_on_disk_within_two_seconds_of_an_edit(qtbot, tmp_path):
    rescuer = Rescuer(tmp_path)
    home = name_home(new_home(), "House by the ford").home
    rescuer.note(home, None)

    qtbot.waitUntil(lambda: bool(list_rescues(tmp_path)), timeout=2000)
    (rescue,) = list_rescues(tmp_path)
    assert open_rescue(rescue).home == home
    rescuer.drop()


def test_the_newest_of_many_edits_is_what_is_kept(qtbot, tmp_path):
    rescuer = Rescuer(tmp_path)
    for number in range(50):
        rescuer.note(name_home(new_home(), f"edit {number}").home, None)

    def newest_is_there():
        copies = list_rescues(tmp_path)
        return bool(copies) and open_rescue(copies[0]).home.name == "edit 49"

    qtbot.waitUntil(newest_is_there, timeout=2000)
    rescuer.drop()


def test_a_dropped_copy_leaves_nothing_behind(qtbot, tmp_path):
    rescuer = Rescuer(tmp_path)
    rescuer.note(new_home(), None)
    qtbot.waitUntil(lambda: bool(list_rescues(tmp_path)), timeout=2000)
    rescuer.drop()

    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_written_is_said_not_raised(qtbot, tmp_path):
    blocked = tmp_path / "a file"
    blocked.write_text("in the way")
    rescuer = Rescuer(blocked)
    rescuer.note(new_home(), None)

    qtbot.waitUntil(lambda: bool(rescuer.failed), timeout=3000)
    assert "a file" in rescuer.failed
