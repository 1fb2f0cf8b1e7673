"""Scanning a holder: a label from the real PDF before the camera, a typed ID, a photo."""

import io

import pytest
import segno
from PIL import Image
from playwright.sync_api import expect
from screens.conftest import BLANK, CLASSIC, DRAPED, EAGLE
from screens.film import coin_label, film, label_picture
from support import browser as browsers

from exergue.labels.label import Label

pytestmark = pytest.mark.browser


@pytest.fixture
def seeing(playwright, tmp_path, open_screen):
    """A phone whose camera sees a film of the picture."""
    opened = []

    def watch(picture):
        one = browsers.launch(playwright, *browsers.camera(film(tmp_path / "camera.mjpeg", picture)))
        opened.append(one)
        return open_screen(one.new_context(**browsers.PHONE))

    yield watch
    for one in opened:
        one.close()


def test_a_printed_label_before_the_camera_opens_its_card_with_no_network(seeing):
    screen = seeing(label_picture(coin_label(DRAPED))).pair()
    with browsers.offline(screen.context):
        screen.link("Scan").click()
        screen.at(f"/c/{DRAPED}").shows("Half cent, Draped Bust").shows("$120.00")


def test_the_camera_stops_when_its_card_is_open(seeing):
    screen = seeing(label_picture(coin_label(DRAPED))).pair()
    screen.page.add_init_script("""const ask = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
        navigator.mediaDevices.getUserMedia = async (want) => (globalThis.lastStream = await ask(want));""")
    screen.go("/scan").at(f"/c/{DRAPED}").shows("Half cent, Draped Bust")
    assert screen.page.evaluate("lastStream.getTracks().map((track) => track.readyState)") == ["ended"]


def test_a_blank_label_of_the_book_says_so_and_offers_a_purchase(seeing):
    screen = seeing(label_picture(Label.for_later(BLANK, "https://desk.example"))).pair()
    screen.link("Scan").click()
    screen.at(f"/c/{BLANK}").shows("A blank label of this book")
    screen.link("Record a purchase on it").click()
    screen.shows("5V5W5-X5Y5")


def test_a_label_before_the_camera_goes_into_a_deal_and_a_blank_one_comes_in(seeing):
    screen = seeing(label_picture(coin_label(DRAPED))).pair()
    screen.go("/deal").button("Scan a label").first.click()
    screen.shows("Half cent, Draped Bust 1806 goes out.")
    screen.button("Done, 1 coin").click()
    expect(screen.page.get_by_label("Price", exact=True)).to_have_value("120")
    other = seeing(label_picture(Label.for_later(BLANK, "https://desk.example"))).pair()
    other.go("/deal").button("Scan a label").last.click()
    other.shows("A coin that comes in").shows("5V5W5-X5Y5")


def test_the_pairing_code_on_the_desks_screen_is_read_inside_the_app(seeing, table):
    file = io.BytesIO()
    segno.make(f"{table.desk.address}/#pair={table.code()}", error="m").save(file, kind="png", scale=6, border=4)
    screen = seeing(Image.open(file).convert("L"))
    screen.page.goto(table.desk.address)
    screen.button("Scan the pairing code").click()
    screen.shows("Code from the desk").button("Pair this phone").click()
    screen.page.get_by_role("heading", name="Table nine").wait_for()


def test_a_slip_in_a_typed_id_is_told_before_anything_is_opened(anna):
    slip = DRAPED[:4] + ("A" if DRAPED[4] != "A" else "B") + DRAPED[5:]
    anna.go("/scan").button("Type the ID").click()
    anna.page.get_by_label("Coin ID").fill(slip)
    anna.shows("its check character does not fit")
    expect(anna.button("Open its card")).to_be_disabled()


def test_a_typed_id_forgives_case_hyphens_and_look_alikes(anna):
    anna.go("/scan").button("Type the ID").click()
    typed = f"{EAGLE[:5]}-{EAGLE[5:]}".lower().replace("0", "o").replace("1", "l")
    anna.page.get_by_label("Coin ID").fill(typed)
    anna.shows("The check character fits")
    anna.button("Open its card").click()
    anna.at(f"/c/{EAGLE}").shows("Ten dollars, Liberty")


def test_a_valid_id_that_no_coin_has_is_told_plainly(anna):
    anna.go("/c/0000000001").shows("Not in this phone’s copy")
    anna.go("/c/0000000000").shows("That is not an Exergue label")


def test_without_a_camera_the_scanner_says_so_and_a_photo_of_the_label_will_do(anna, tmp_path):
    label_picture(coin_label(DRAPED)).save(tmp_path / "label.png")
    anna.go("/scan").page.get_by_role("alert").get_by_role("heading").wait_for()
    anna.page.locator(".tools input[type=file]").set_input_files(tmp_path / "label.png")
    anna.at(f"/c/{DRAPED}").shows("Half cent, Draped Bust")


def test_a_photo_without_a_label_is_told(anna, tmp_path):
    label_picture(coin_label(DRAPED)).crop((0, 0, 30, 30)).save(tmp_path / "corner.png")
    anna.go("/scan").page.locator(".tools input[type=file]").set_input_files(tmp_path / "corner.png")
    anna.shows("No label could be read in that photo")


# A reader that acts as a keyboard: all characters and the return key before the page is drawn again.
READER = """(field, id) => {
    field.value = id;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.form.requestSubmit();
}"""


def test_a_reader_that_types_is_faster_than_the_drawing_and_each_label_is_its_own(anna):
    anna.go("/count").button("Type").click()
    for coin in (DRAPED, CLASSIC):
        anna.page.get_by_label("Coin ID").evaluate(READER, coin)
    expect(anna.page.locator("#seen")).to_have_text("2")
    expect(anna.page.get_by_label("Coin ID")).to_have_value("")
    anna.go("/scan").button("Type the ID").click()
    anna.page.get_by_label("Coin ID").evaluate(READER, EAGLE)
    anna.at(f"/c/{EAGLE}")
