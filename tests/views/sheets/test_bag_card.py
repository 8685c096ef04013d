"""What a bag card holds."""

import pytest

from fitlog.actions import player
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.views.sheets.bag_card import bag_card


def test_an_empty_bag_has_no_card(bare: Desk) -> None:
    player.add_player(bare, "ida", "Ida Holm", "right")
    with pytest.raises(Refusal, match="no club yet"):
        bag_card(bare, "ida")
