"""How long a phone waits for its desk: not for the whole answer, but for a sign of life."""

import pytest

from tests.engine.conftest import Phone

pytestmark = pytest.mark.browser

ASK = """(body) => {
    globalThis.ended = null;
    globalThis.fetch = (path, {signal}) => new Promise((answer, refuse) => {
        if (path !== '/api/sync') { refuse(new TypeError('only the call that is watched is answered')); return; }
        signal.addEventListener('abort', () => refuse(signal.reason));
        globalThis.begin = () => answer(new Response(new ReadableStream({start(out) {
            signal.addEventListener('abort', () => out.error(signal.reason));
            globalThis.send = (text) => out.enqueue(new TextEncoder().encode(text));
            globalThis.close = () => out.close();
        }}), {headers: {'Content-Type': 'application/json'}}));
    });
    return import('/web/engine/net.js').then(({call}) => {
        call('POST', '/api/sync', body).then((said) => { globalThis.ended = said }, (error) => { globalThis.ended = error.code });
    });
}"""

TURN = "await new Promise((done) => { const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(1) })"


@pytest.fixture
def page(stocked, phone):
    """A page with a clock of its own, and a desk whose answer comes as the test says."""
    phone.clock.install()
    return Phone(phone, stocked).open().page


def after(page, seconds, then=""):
    page.clock.run_for(seconds * 1000)
    page.evaluate(f"async () => {{ {then}; for (let i = 0; i < 5; i++) {TURN} }}")
    return page.evaluate("ended")


def test_an_answer_that_flows_is_waited_for_however_long_it_takes(page):
    page.evaluate(ASK, {})
    assert after(page, 25, "begin()") is None
    for part in ('{"more"', ":", "tr", "ue"):
        assert after(page, 25, f"send('{part}')") is None
    assert after(page, 25, "send('}'); close()") == {"more": True}


def test_a_letter_cut_in_two_between_pieces_comes_out_whole(page):
    page.evaluate(ASK, {})
    after(page, 1, "begin(); TextEncoder.prototype.encode = (bytes) => new Uint8Array(bytes)")
    after(page, 1, "send([0x22, 0xc3]); send([0xa9, 0x22]); close()")
    assert page.evaluate("ended") == "é"


def test_a_desk_that_falls_silent_is_out_of_reach(page):
    page.evaluate(ASK, {})
    assert after(page, 25, "begin(); send('{')") is None
    assert after(page, 31) == "offline"


def test_a_desk_that_never_begins_is_out_of_reach(page):
    page.evaluate(ASK, {})
    assert after(page, 29) is None
    assert after(page, 2) == "offline"


def test_much_that_is_sent_is_given_the_time_of_a_poor_network(page):
    """Two million characters at 10 kB/s take 200 seconds."""
    page.evaluate(ASK, {"text": "x" * 2_000_000})
    assert after(page, 200) is None
    assert after(page, 40) == "offline"


def test_an_answer_that_breaks_off_is_no_answer(page):
    page.evaluate(ASK, {})
    assert after(page, 1, "begin(); send('{\"more\"'); close()") == "offline"
