"""The story's order: its chapters by date, whoever they are about."""

from fitlog.demo import amateur, customer, tour
from fitlog.demo.replay import Teller


def tell(teller: Teller) -> None:
    """All of it."""
    teller.at("2025-03-03 17:20")
    teller.write("the range's height above the sea, and who writes", "workspace.toml")
    teller.at("2025-03-04 09:45")
    teller.write("stock counted and weighed on the new scale", "parts")
    amateur.comes_with_her_bag(teller)
    amateur.wants_height_from_the_turf(teller)
    amateur.puts_the_putter_right(teller)
    amateur.looks_at_sand(teller)
    amateur.ends_her_season(teller)
    tour.joins_the_van(teller)
    amateur.changes_the_ball(teller)
    tour.tries_fairway_woods(teller)
    tour.tries_drivers(teller)
    tour.has_irons_bent(teller)
    tour.goes_wrong_and_back(teller)
    tour.hears_about_the_wind(teller)
    amateur.proves_the_fairway_wood_again(teller)
    customer.asks_for_five_more_yards(teller)
    customer.carries_seven_clubs(teller)
    tour.trusts_the_fairway_wood(teller)
    customer.trusts_the_new_iron(teller)
    amateur.carries_the_other_wedge(teller)
