"""The page for a phone in a real browser: tapped through, closed in the middle, fed hostile names, cut off."""

import json
import shutil
import socket
import time
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from floorplan_circuits.edits.answering import take_answers
from floorplan_circuits.files.open import open_home
from floorplan_circuits.find import find, plan_rounds
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.resources import folder
from floorplan_circuits.rounds.answers import Answers, CannotRead, answers_text, read_answers
from floorplan_circuits.rounds.phone import phone_page
from floorplan_circuits.rounds.wording import in_words
from tests.rounds.test_phone import HOSTILE, hostile_home

webdriver = pytest.importorskip("selenium.webdriver", reason="selenium is not installed: pip install -e '.[dev]'")
BROWSERS, DRIVER = ("chromium", "chromium-browser", "google-chrome"), "chromedriver"
PAGES = count(1)
"""Pages that are opened from files share what they keep, each under its home's name: each gets a name of its own."""
KEPT = "return JSON.stringify(Object.entries(localStorage).sort())"
PHONE = {"width": 390, "height": 844, "deviceScaleFactor": 1, "mobile": True}


@pytest.fixture(scope="module")
def browser(tmp_path_factory) -> Iterator[Any]:
    """A browser without a window, as large as a phone's screen, that notes every request it makes."""
    found = next((path for name in BROWSERS if (path := shutil.which(name))), None)
    driver = shutil.which(DRIVER)
    if found is None or driver is None:
        pytest.skip("no chromium with its chromedriver here: apt-get install chromium chromium-driver")
    from selenium.webdriver.chrome.service import Service

    options = webdriver.ChromeOptions()
    options.binary_location = found
    profile = tmp_path_factory.mktemp("profile")
    for word in (
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        f"--user-data-dir={profile}",
    ):
        options.add_argument(word)
    options.set_capability("goog:loggingPrefs", {"performance": "ALL", "browser": "ALL"})
    opened = webdriver.Chrome(options=options, service=Service(driver))
    opened.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", PHONE)
    yield opened
    opened.quit()


class Phone:
    """A plan's page, open in a browser, and the hand that taps on it."""

    def __init__(self, browser: Any, some: Home, path: Path) -> None:
        self.findings = find(some.changed(name=f"{some.name} {next(PAGES)}"))
        self.plan = plan_rounds(self.findings)
        self.words = in_words(self.plan, self.findings)
        path.write_text(phone_page(self.words), encoding="utf-8")
        beside = path.with_name("beside.html")
        beside.write_text("<!doctype html><title>Beside</title>", encoding="utf-8")
        self.browser, self.address, self.beside = browser, path.as_uri(), beside.as_uri()
        browser.get(self.address)

    def reopen(self) -> None:
        """Close the page and open it again, as late as a person would.

        Chromium writes what a page keeps after the page is gone, and a page that is opened at once may see what stood
        there before. A page beside it is asked until it sees all of it; what is opened after that one sees it too.
        """
        kept, until = self.run(KEPT), time.monotonic() + 60
        self.browser.get(self.beside)
        while self.run(KEPT) != kept:
            assert time.monotonic() < until, "the browser never wrote what the page keeps"
            time.sleep(0.1)
            self.browser.get("about:blank")
            self.browser.get(self.beside)
        self.browser.get(self.address)

    def change_kept(self, change: str) -> None:
        """Change what the page keeps behind its back, by a script to which it is `kept`."""
        self.run(
            "const key = Object.keys(localStorage).find((one) => one.endsWith(arguments[0]));"
            "const kept = JSON.parse(localStorage.getItem(key));"
            f"{change};"
            "localStorage.setItem(key, JSON.stringify(kept));",
            self.findings.home.name,
        )

    def run(self, script: str, *values: Any) -> Any:
        return self.browser.execute_script(script, *values)

    def tap(self, selector: str) -> None:
        from selenium.webdriver.common.by import By

        one = self.browser.find_element(By.CSS_SELECTOR, selector)
        self.run("arguments[0].scrollIntoView({block: 'center'})", one)
        one.click()

    def answer(self, place: int, word: str) -> None:
        """Tap a word of one feed as a finger does: only what lies open on the screen can be hit."""
        from selenium.webdriver.common.by import By

        for one in self.browser.find_elements(By.CSS_SELECTOR, f'[data-place="{place}"] .answers button'):
            if one.text == word:
                self.run("arguments[0].scrollIntoView({block: 'center'})", one)
                one.click()
                return

    def answer_all(self, said: list[str]) -> None:
        """Answer every feed of the round at once, in the order of the plan."""
        self.run(
            "arguments[0].forEach((word, place) => "
            "[...document.querySelectorAll(`[data-place='${place}'] .answers button`)]"
            ".find((one) => one.textContent === word).click())",
            said,
        )

    def begin(self) -> None:
        self.tap("#understood")
        self.tap("#next")

    def given_back(self) -> str:
        return str(self.run("return document.getElementById('answers').value"))

    def read(self) -> Answers:
        return read_answers(self.given_back(), self.plan)

    def shown(self) -> str:
        return str(self.run("return document.body.innerText"))


@pytest.fixture
def phone(browser, tmp_path) -> Phone:
    return Phone(browser, open_home(folder("sample_homes") / "cottage.json").home, tmp_path / "page.html")


def complaints(browser: Any) -> list[str]:
    """What the browser says went wrong since it was asked last."""
    return [entry["message"] for entry in browser.get_log("browser") if entry["level"] == "SEVERE"]


def requested(browser: Any) -> list[str]:
    """Every address the browser asked for since it was asked last."""
    events = (json.loads(entry["message"])["message"] for entry in browser.get_log("performance"))
    urls = (one["params"]["request"]["url"] for one in events if one["method"] == "Network.requestWillBeSent")
    return [url for url in urls if not url.startswith("data:")]  # the browser's own picture beside a date


def test_a_plan_is_tapped_through_left_in_the_middle_and_its_answers_are_taken(phone) -> None:
    """A truth is read through the page: closed and opened half way, its answers suggest what each feed hangs on."""
    complaints(phone.browser)
    truth = {feed: phone.plan.handles[at % len(phone.plan.handles)] for at, feed in enumerate(phone.plan.feeds)}
    assert not phone.run("return document.getElementById('next').disabled === false")
    phone.tap("#understood")
    phone.run(
        "const way = document.getElementById('field-with'), who = document.getElementById('field-who');"
        "way.value = 'two-lead tester'; who.value = 'Kim\\u2028plan X';"
        "for (const one of [way, who]) one.dispatchEvent(new Event('input'));"
    )
    phone.tap("#next")
    offs = ((), *(one.off for one in phone.plan.rounds), ())
    for nth, off in enumerate(offs):
        if nth == 2:
            phone.reopen()
        phone.answer_all(["dead" if truth[feed] in off else "live" for feed in phone.plan.feeds])
        phone.tap("#next")
    phone.tap("#to-give")
    answers = phone.read()
    assert phone.given_back() == answers_text(phone.plan, answers)
    assert (answers.method, answers.who) == ("two-lead tester", "Kim plan X")
    assert answers.date == time.strftime("%Y-%m-%d")
    for one, off in zip(answers.rounds, offs, strict=True):
        assert dict(one.readings) == {feed: "dead" if truth[feed] in off else "live" for feed in phone.plan.feeds}
    known = find(take_answers(phone.findings.home, answers).home).conclusions
    assert {feed: known[feed].candidates for feed in truth} == {feed: (handle,) for feed, handle in truth.items()}
    assert complaints(phone.browser) == []


def tried_alone(phone: Phone, ticks: tuple[str, ...]) -> Answers:
    """Go past the rounds, then try every handle alone as the plan says, each look with these ticks."""
    phone.tap("#understood")
    phone.run(
        "const way = document.getElementById('field-with'); way.value = 'two-lead tester';"
        "way.dispatchEvent(new Event('input'));"
    )
    for _ in range(len(phone.plan.rounds) + 3):
        phone.tap("#next")
    steps = [None, *phone.plan.solo, None]
    wanted = {feed for one in phone.plan.solo for feed in one.feeds}
    for solo in steps:
        here = wanted if solo is None else {*solo.feeds}
        for tick in ticks:
            if solo is not None or tick == "#every-hot":
                phone.tap(tick)
        shown = {int(place) for place in phone.run(
            "return [...document.querySelectorAll('.look')].map((one) => one.dataset.place)")}  # fmt: skip
        assert shown == {phone.plan.feeds.index(feed) for feed in here}
        for place in sorted(shown):
            phone.answer(place, "live" if solo is None else "dead")
        phone.tap("#next")
    return phone.read()


@pytest.mark.parametrize("ticks", [("#proved-before", "#proved-after", "#every-hot"), ("#every-hot",)])
def test_each_handle_is_tried_alone_and_proved_only_by_a_tester_that_was_proved(phone, ticks) -> None:
    answers = tried_alone(phone, ticks)
    assert phone.given_back() == answers_text(phone.plan, answers)
    before = phone.findings.conclusions
    found = find(take_answers(phone.findings.home, answers).home).conclusions
    for one in phone.plan.solo:
        for feed in one.feeds:
            if before[feed].standing != "contradicted":  # that stays at odds until somebody strikes what was wrong
                assert (found[feed].standing == "proved") == (len(ticks) == 3), (one.handle, feed)
            assert found[feed].standing != "proved" or one.handle in found[feed].breakers


def test_what_was_seen_alone_on_another_day_is_begun_anew(phone) -> None:
    """Before, off and after of two days never make one test."""
    phone.begin()
    for _ in range(len(phone.plan.rounds) + 2):
        phone.tap("#next")
    places = phone.run("return [...document.querySelectorAll('.look')].map((one) => Number(one.dataset.place))")
    phone.tap("#every-hot")
    phone.answer(places[0], "live")
    phone.change_kept("kept.days = kept.days.map((day) => day && '2020-02-02')")
    phone.reopen()
    phone.tap("#to-give")
    (old,) = phone.read().tries
    assert (old.date, old.flags) == ("2020-02-02", "h")
    phone.tap("#back")
    phone.answer(places[1], "live")
    phone.tap("#to-give")
    (new,) = phone.read().tries
    assert (new.date, new.flags) == (time.strftime("%Y-%m-%d"), "")
    assert new.readings == ((phone.plan.feeds[places[1]], "live"),)


def test_what_was_seen_with_one_handle_alone_is_never_laid_to_another_and_the_rounds_stay(phone) -> None:
    """The same plan may come on a newer page that tries other handles alone: of what is kept only the rounds count."""
    phone.begin()
    phone.answer(0, "dead")
    for _ in range(len(phone.plan.rounds) + 3):
        phone.tap("#next")
    (place, *_) = phone.run("return [...document.querySelectorAll('.look')].map((one) => Number(one.dataset.place))")
    phone.answer(place, "dead")
    phone.tap("#to-give")
    assert len(phone.read().tries) == 1
    phone.change_kept("kept.alone[0] += 1")
    phone.reopen()
    answers = phone.read()
    assert answers.tries == ()
    assert dict(answers.rounds[0].readings) == {phone.plan.feeds[0]: "dead"}


def test_a_whole_room_is_answered_at_once_but_for_what_was_said_before(phone) -> None:
    phone.begin()
    looks = [look.place for look in phone.words.walk[0].looks]
    assert len(looks) > 3
    phone.answer(looks[0], "live")
    phone.answer(looks[1], "unclear")
    phone.answer(looks[2], "skip")
    phone.tap(".whole button:nth-child(1)")
    phone.tap("#to-give")
    said = dict(phone.read().rounds[0].readings)
    assert [said.get(phone.plan.feeds[place]) for place in looks] == [
        "live",
        "unclear",
        None,
        *["dead"] * (len(looks) - 3),
    ]
    phone.tap("#back")
    phone.tap(".whole button:nth-child(2)")
    phone.answer(looks[1], "unclear")  # a second tap takes an answer back
    phone.tap("#to-give")
    said = dict(phone.read().rounds[0].readings)
    assert [said.get(phone.plan.feeds[place]) for place in looks] == ["live", None, None, *["live"] * (len(looks) - 3)]


def test_each_round_says_what_to_turn_and_nothing_more(phone) -> None:
    phone.begin()
    for nth, turned in enumerate(phone.words.rounds):
        for name, marks in (("off", turned.turn_off), ("on", turned.turn_on)):
            shown = phone.run(f"return [...document.querySelectorAll('.turn.{name} li')].map((one) => one.textContent)")
            assert tuple(shown) == marks, nth
        phone.tap("#next")
    for one in phone.words.solo:
        phone.tap("#next")
        shown = phone.run("return [...document.querySelectorAll('.turn.off li')].map((one) => one.textContent)")
        assert shown == [one.handle]
    phone.tap("#next")
    assert [phone.run("return document.querySelector('h2').textContent")] == ["All on, after each alone"]
    phone.tap("#next")
    assert phone.run("return document.querySelector('h2').textContent") == "Give back"
    assert phone.given_back() == ""
    with pytest.raises(CannotRead, match="plan unknown"):
        phone.read()


def test_it_says_so_where_nothing_can_be_kept_and_works_all_the_same(phone) -> None:
    script = phone.browser.execute_cdp_cmd(
        "Page.addScriptToEvaluateOnNewDocument",
        {"source": "Object.defineProperty(window, 'localStorage', {get() { throw new Error('none here'); }});"},
    )
    try:
        phone.browser.get(phone.address)
        assert "this browser keeps nothing" in phone.shown()
        phone.begin()
        phone.answer(0, "dead")
        phone.tap("#to-give")
        assert dict(phone.read().rounds[0].readings) == {phone.plan.feeds[0]: "dead"}
    finally:
        phone.browser.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", script)


@pytest.mark.parametrize(
    "lost", ["no json {", "[]", "null", '{"at": 99, "answers": ["x"], "with": 5}', '{"minded": true}']
)
def test_what_is_kept_and_no_longer_fits_is_put_aside(lost, phone) -> None:
    phone.run("localStorage.setItem('test rounds ' + arguments[0], arguments[1])", phone.words.code, lost)
    phone.reopen()
    complaints(phone.browser)
    assert phone.run("return document.querySelector('h2').textContent") == "Before you begin"
    assert complaints(phone.browser) == []


def test_forgetting_takes_two_taps(phone) -> None:
    phone.begin()
    phone.answer(0, "live")
    phone.tap("#to-give")
    forget = "const all = [...document.querySelectorAll('main button')]; all[all.length - 1].click();"
    phone.run(forget)
    assert phone.given_back() != ""
    phone.run(forget)
    phone.reopen()
    phone.begin()
    phone.tap("#to-give")
    assert phone.given_back() == ""


def test_the_answers_are_saved_as_a_file(phone, tmp_path) -> None:
    phone.browser.execute_cdp_cmd("Browser.setDownloadBehavior", {"behavior": "allow", "downloadPath": str(tmp_path)})
    phone.begin()
    phone.answer(0, "live")
    phone.tap("#to-give")
    phone.run(
        "[...document.querySelectorAll('.give button')].find((one) => one.textContent === 'Save as a file').click()"
    )
    saved = tmp_path / f"answers-{phone.words.code}.txt"
    until = time.monotonic() + 30
    while not saved.exists() and time.monotonic() < until:
        time.sleep(0.05)
    assert saved.read_text(encoding="utf-8") == phone.given_back()


def test_hostile_names_are_shown_as_text_and_nothing_of_them_is_done(browser, tmp_path) -> None:
    complaints(browser)
    phone = Phone(browser, hostile_home(), tmp_path / "hostile.html")
    for step in range(4):
        shown = phone.run("return document.body.textContent")
        if step == 0:
            assert HOSTILE[1] in shown
            assert HOSTILE[0] in shown
            phone.begin()
        else:
            for name in HOSTILE:
                assert name in phone.run("return document.getElementById('page').textContent")
            phone.tap("#next")
        assert phone.run("return document.querySelectorAll('#page img, #page script, #page iframe').length") == 0
    assert phone.run("return window.harmed") is None
    names = phone.run("return [...document.querySelectorAll('bdi')].every((one) => one.dir === 'auto')")
    assert names
    assert phone.run("return document.querySelectorAll('script').length") == 2
    assert complaints(browser) == []


def asked_of(listening: socket.socket) -> list[bytes]:
    """What was asked over the connections to this port. The browser may connect ahead of what it then refuses."""
    asked = []
    while True:
        try:
            connection, _ = listening.accept()
        except TimeoutError:
            return asked
        with connection:
            connection.settimeout(0.2)
            try:
                words = connection.recv(1000)
            except TimeoutError:
                continue
            asked += [words] if words else []


def test_no_request_leaves_the_page_even_if_something_in_it_tried(browser, tmp_path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as listening:
        listening.settimeout(0.3)
        outside = f"http://127.0.0.1:{listening.getsockname()[1]}/"
        requested(browser)
        phone = Phone(browser, hostile_home(), tmp_path / "closed.html")
        phone.begin()
        phone.answer(0, "dead")
        phone.tap("#to-give")
        assert {*requested(browser)} == {phone.address}
        tried = phone.browser.execute_async_script(
            "const done = arguments[1], address = arguments[0], refused = [];"
            "document.addEventListener('securitypolicyviolation', (event) => refused.push(event.effectiveDirective));"
            "const image = document.createElement('img'); image.src = address; document.body.append(image);"
            "const frame = document.createElement('iframe'); frame.src = address; document.body.append(frame);"
            "const form = document.createElement('form'); form.action = address; document.body.append(form);"
            "form.submit();"
            "fetch(address).catch(() => 0).then(() => setTimeout(() => done(refused), 200));",
            outside,
        )
        assert {*tried} == {"img-src", "frame-src", "form-action", "connect-src"}
        assert asked_of(listening) == []


def test_it_fits_a_phones_screen_and_every_button_a_finger(phone) -> None:
    for step in range(3):
        wide = phone.run("return [document.documentElement.scrollWidth, window.innerWidth]")
        assert wide[0] <= wide[1] == PHONE["width"], step
        sizes = phone.run(
            "return [...document.querySelectorAll('button:not([hidden])')].map((one) => one.getBoundingClientRect())"
            ".map((box) => Math.min(box.width, box.height))"
        )
        assert min(sizes) >= 44
        phone.tap("#understood") if step == 0 else None
        phone.tap("#next")


def test_dark_follows_the_system(phone) -> None:
    grounds = {}
    for scheme in ("light", "dark"):
        feature = {"name": "prefers-color-scheme", "value": scheme}
        phone.browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [feature]})
        grounds[scheme] = phone.run("return getComputedStyle(document.body).backgroundColor")
    assert grounds == {"light": "rgb(251, 250, 247)", "dark": "rgb(20, 24, 29)"}
