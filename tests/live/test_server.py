"""Where the page is served."""

import pytest

from fitlog.live.server import address_of, qr_lines


def test_a_token_is_random_and_only_for_the_network() -> None:
    local, one, other = address_of(False), address_of(True), address_of(True)
    assert (local.listen, local.token) == ("127.0.0.1", "")
    assert one.listen == "0.0.0.0"
    assert len(one.token) >= 20
    assert one.token != other.token
    assert one.token in one.url
    pytest.importorskip("segno", reason="segno is not installed here")
    assert qr_lines(one.url).count("\n") > 10
