"""Slots: their order in a bag."""

from fitlog.records.naming.slots import order_of


def test_bag_order_is_driver_woods_hybrids_irons_wedges_putter() -> None:
    mixed = ["putter", "52", "pw", "9i", "4i", "5h", "7w", "3w", "driver", "60", "chipper"]
    assert sorted(mixed, key=order_of) == [
        "driver",
        "3w",
        "7w",
        "5h",
        "4i",
        "9i",
        "pw",
        "52",
        "60",
        "chipper",
        "putter",
    ]
