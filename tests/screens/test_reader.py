"""The reader of labels: beside the page in a worker, made anew when it is lost, in the page where it must be; and the early camera."""

import base64
import io

import pytest
from screens.conftest import DRAPED
from screens.film import coin_label, film, label_picture
from support import browser as browsers
from support.waiting import until

from exergue.labels import ids

pytestmark = pytest.mark.browser
# Remembers each worker that the page makes.
WORKERS = "globalThis.workers = []; globalThis.Worker = class extends Worker { constructor(...said) { super(...said); workers.push(this); } };"
STREAMS = """globalThis.streams = []; const ask = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
    navigator.mediaDevices.getUserMedia = async (want) => { const one = await ask(want); streams.push(one); return one; };"""
READ = """async (picture) => {
    const image = Object.assign(new Image(), { src: picture });
    await image.decode();
    const canvas = Object.assign(document.createElement('canvas'), { width: image.width, height: image.height });
    canvas.getContext('2d').drawImage(image, 0, 0);
    const { reader } = await import('/web/scan/reader.js');
    const { name, read } = await reader();
    return read(canvas).then((text) => [name, text], (error) => [name, error.message]);
}"""


@pytest.fixture(scope="module")
def picture():
    file = io.BytesIO()
    label_picture(coin_label(DRAPED)).save(file, "PNG")
    return "data:image/png;base64," + base64.b64encode(file.getvalue()).decode()


@pytest.fixture
def page(phone, table):
    """A page of the desk, without the app."""
    page = phone.new_page()
    page.add_init_script(WORKERS)
    yield page


def test_a_label_is_read_in_a_worker_and_a_lost_worker_is_made_anew(page, table, picture):
    page.clock.install()
    page.goto(table.desk.address + "/healthz")
    text = ids.address("https://desk.example", DRAPED)
    assert page.evaluate(READ, picture) == ["worker", text]
    page.evaluate("workers[0].terminate()")  # as a phone short of memory does it, telling nobody
    page.evaluate("(said) => { globalThis.lost = (" + READ + ")(said[0]) }", [picture])
    until(lambda: page.clock.fast_forward(6_000) or page.evaluate("Promise.race([lost, null])"), what="the lost worker to be given up")
    assert page.evaluate("lost") == ["worker", "the reading worker ended"]
    assert page.evaluate(READ, picture) == ["worker", text]
    assert page.evaluate("workers.length") == 2


@pytest.mark.parametrize("without", ["delete globalThis.OffscreenCanvas", "globalThis.Worker = class { constructor() { throw new Error('none'); } }"])
def test_where_no_worker_can_read_the_page_does(page, table, picture, without):
    page.add_init_script(without)
    page.goto(table.desk.address + "/healthz")
    assert page.evaluate(READ, picture) == ["page", ids.address("https://desk.example", DRAPED)]


def test_a_camera_that_opens_before_the_app_is_the_one_it_scans_with(playwright, tmp_path, table, open_screen):
    browser = browsers.launch(playwright, *browsers.camera(film(tmp_path / "camera.mjpeg", label_picture(coin_label(DRAPED)))))
    try:
        screen = open_screen(browser.new_context(**browsers.PHONE)).pair()
        screen.page.add_init_script(STREAMS)
        ended = "streams.length === 1 && streams[0].getTracks().every((track) => track.readyState === 'ended')"
        screen.go("/scan").at(f"/c/{DRAPED}").shows("Half cent, Draped Bust")
        until(lambda: screen.page.evaluate(ended), what="the one camera to be stopped")
        screen.go("/more/leave").button("Unpair this phone").click()
        screen.button("Pair this phone", exact=True).wait_for()
        screen.page.goto(table.desk.address + "/scan")  # the app is on this phone still, and has no book to scan for
        screen.button("Pair this phone", exact=True).wait_for()
        until(lambda: screen.page.evaluate(ended), what="the camera to be let go")
    finally:
        browser.close()
