"""The story's order: its chapters by date, whoever they are about."""

from fitlog.demo import amateur, customer, searches, tour
from fitlog.demo.replay import Teller


def tell(teller: Teller) -> None:
    """All of it."""
    teller.at("2025-03-11 08:30")
    by_hand = ("workspace.toml", "logo.svg", "importers", "parts")
    teller.write("the range, its bays and what stands on sheets; every head and shaft on the scale", *by_hand)
    amateur.comes_with_his_bag(teller)
    amateur.straightens_the_5_wood(teller)
    amateur.flattens_the_putter(teller)
    amateur.digs_out_of_deep_sand(teller)
    amateur.ends_his_season(teller)
    tour.joins_the_tour(teller)
    amateur.changes_the_ball(teller)
    searches.mends_the_4_hybrid(teller)
    tour.looks_up_the_courses(teller)
    tour.tries_high_lofted_woods(teller)
    tour.tries_drivers(teller)
    tour.goes_wrong_and_back(teller)
    tour.settles_the_7_wood(teller)
    tour.has_clubs_altered(teller)
    tour.leaves_the_driver_out(teller)
    amateur.hits_the_5_wood_again(teller)
    customer.wants_a_6_iron_that_stops(teller)
    searches.alters_the_3_hybrid(teller)
    customer.grows_out_of_his_clubs(teller)
    tour.trusts_the_new_shaft(teller)
    amateur.swaps_the_wedges(teller)
    tour.walks_through_her_wedges(teller)
    customer.trusts_the_new_iron(teller)
    searches.asks_about_the_3_hybrid(teller)
    searches.finds_what_ails_the_4_hybrid(teller)
    customer.hits_blind(teller)
