"""The page listens to a plucked strand through the browser's own audio path, and says so where it cannot."""

import re
import wave

import numpy
import pytest

import chromium
from demonstration import KINDS

RATE = 48000
#: Tones of band saw strands [Hz], from long slack to short tight ones.
TONES = (60.0, 75.6, 110.0, 148.3, 220.0, 300.0)
PLUCK, PAUSE = 1.3, 0.8
#: Largest error of the tone, as a share.
CLOSE = 0.005


def plucked(tone, source):
    """Return one plucked strand: partials of a slightly stiff string that die away, the high ones sooner, and noise."""
    t = numpy.arange(int(PLUCK * RATE)) / RATE
    stiffness = 2e-5
    partials = [(n, source.uniform(0.4, 1.0) / n) for n in (1, 2, 3, 4, 5, 6)]
    start = partials[0][0] * numpy.sqrt(1 + stiffness)
    sound = sum(
        size
        * numpy.exp(-t * (1.5 + 1.2 * n))
        * numpy.sin(2 * numpy.pi * tone * n * numpy.sqrt(1 + stiffness * n * n) / start * t + source.uniform(0, 6))
        for n, size in partials
    )
    return numpy.concatenate([0.5 * sound, numpy.zeros(int(PAUSE * RATE))])


@pytest.fixture(scope="module")
def recording(tmp_path_factory):
    """A file with one pluck after the other, in noise."""
    source = numpy.random.default_rng(7)
    sound = numpy.concatenate([numpy.zeros(RATE // 2), *(plucked(tone, source) for tone in TONES)])
    sound = sound + source.normal(0, 0.004, len(sound))
    path = tmp_path_factory.mktemp("sound") / "plucks.wav"
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes((numpy.clip(sound, -1, 1) * 32000).astype("<i2").tobytes())
    return path


@pytest.fixture
def hearing(playwright, recording):
    """A browser whose microphone plays the recording once."""
    flags = (
        "--use-fake-device-for-media-stream",
        "--use-fake-ui-for-media-stream",
        f"--use-file-for-fake-audio-capture={recording}%noloop",
    )
    launched = playwright.chromium.launch(executable_path=chromium.path(), args=[*chromium.QUIET, *flags])
    yield launched
    launched.close()


NOTE_EVERYTHING = """() => { window.heard = [];
    new MutationObserver(() => window.heard.push(document.getElementById("tone-heard").textContent))
        .observe(document.getElementById("tone-heard"), { childList: true, characterData: true, subtree: true }); }"""


def test_hears_each_pluck(hearing, served):
    context = hearing.new_context(permissions=["microphone"])
    page = context.new_page()
    page.goto(f"{served}/{KINDS['worksheets']}")
    page.evaluate(NOTE_EVERYTHING)
    page.get_by_role("button", name="Listen").click()
    page.wait_for_timeout(1000 * (0.5 + len(TONES) * (PLUCK + PAUSE) + 1))
    words = page.evaluate("window.heard")
    assert page.locator("#tone-listen").inner_text() == "Stop listening"
    last = page.locator("#tone-tone").input_value()
    assert "Stress in the blade" in page.locator("#tone-answer").inner_text()
    page.get_by_role("button", name="Stop listening").click()
    assert page.locator("#tone-listen").get_attribute("aria-pressed") == "false"
    tones = [float(found[1]) for line in words if (found := re.match(r"heard ([\d.]+) Hz, (?:between )?[A-G]", line))]
    context.close()
    for tone in TONES:
        near = [one for one in tones if abs(one / tone - 1) < 0.2]
        assert near, f"{tone} Hz was not heard: {tones}"
        assert all(abs(one / tone - 1) < CLOSE for one in near), f"{tone} Hz: {near}"
    assert all(min(abs(one / tone - 1) for tone in TONES) < CLOSE for one in tones), tones
    assert float(last) == pytest.approx(TONES[-1], rel=CLOSE)


def test_the_tone_itself_is_close_over_the_whole_range(page, site):
    # Without the audio path, so many more tones: 60 to 300 Hz, two rates, noise a fifteenth of the sound.
    page.goto(f"{site.as_uri()}/{KINDS['worksheets']}")
    source = numpy.random.default_rng(3)
    for rate in (44100, 48000):
        for tone in numpy.geomspace(60, 300, 13):
            t = numpy.arange(8192) / rate
            sound = sum(
                numpy.exp(-t * (1.5 + n)) * numpy.sin(2 * numpy.pi * tone * n * t + source.uniform(0, 6)) / n for n in range(1, 6)
            )
            sound += source.normal(0, 0.05, len(t))
            got = page.evaluate("([samples, rate]) => sawside.heard(new Float32Array(samples), rate)", [sound.tolist(), rate])
            assert got == pytest.approx(tone, rel=CLOSE), tone


def test_noise_alone_is_no_tone(page, site):
    page.goto(f"{site.as_uri()}/{KINDS['worksheets']}")
    source = numpy.random.default_rng(4)
    for sound in (source.normal(0, 0.3, 8192), numpy.zeros(8192)):
        assert page.evaluate("(samples) => sawside.heard(new Float32Array(samples), 48000)", sound.tolist()) is None


def test_says_that_it_cannot_listen_from_a_file(page, site):
    page.goto(f"{site.as_uri()}/{KINDS['worksheets']}")
    assert "cannot listen" in page.locator("#tone-heard").inner_text()
    assert page.get_by_role("button", name="Listen").count() == 0


def test_says_so_when_the_microphone_is_refused(browser, served):
    context = browser.new_context(permissions=[])
    page = context.new_page()
    page.goto(f"{served}/{KINDS['worksheets']}")
    page.get_by_role("button", name="Listen").click()
    page.locator("#tone-heard", has_text="could not be used").wait_for()
    context.close()
