"""carries: what every club carries at a place, and what moves it."""

from argparse import ArgumentParser
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.calc_values import optional_number
from fitlog.cli.call import Call
from fitlog.cli.commands.calc.air import WIND_HELP, wind_or_calm

if TYPE_CHECKING:
    from fitlog.views.carries.card import CarryCard


def place_arguments(parser: ArgumentParser) -> None:
    """PLAYER, --at, --temperature, --wind, --makeup."""
    parsing.player(parser)
    made = parser.add_argument("--at", metavar="VENUE", default="", help="a venue; else the reference air")
    parsing.from_shell(made, "venues")
    optional_number(parser, "--temperature", unit="C", help="air temperature, in place of the usual one")
    parser.add_argument("--wind", metavar="MPH@DEG", help=WIND_HELP)
    parser.add_argument("--makeup", metavar="NAME", default="", help="the clubs of a make-up, at its venue")


carries_arguments = place_arguments


def build_card(call: Call) -> "CarryCard":
    """The card for the player and the place asked for."""
    from fitlog.views.carries.card import carry_card

    given = call.args
    return carry_card(call.desk(), given.player, given.at, given.temperature, wind_or_calm(given.wind), given.makeup)


def carries(call: Call) -> int:
    """Show the carries."""
    from fitlog.report.formats.rendering import render
    from fitlog.report.sheets.carries import document

    card = build_card(call)
    if call.json:
        output.print_json(_table(card))
    else:
        output.print_lines(render(document(card), "text", output.terminal_width() or 100))
    return 0


def _table(card: "CarryCard") -> dict[str, Any]:
    place = card.place
    return {
        "player": card.player_id,
        "makeup": card.makeup or None,
        "venue": place.venue_id or None,
        "air": place.air._asdict(),
        "wind": place.wind._asdict(),
        "model": card.model,
        "assumed": card.notes,
        "clubs": [
            {
                "club": line.club.address,
                "tested_yd": line.carry.mean_yd,
                "test": line.carry.ref,
                "shots": line.carry.n,
                "sd_yd": line.carry.sd_yd if line.carry.n > 1 else None,
                "stale": line.carry.stale,
                "carry_yd": line.yd,
                "to_next_yd": gap,
                "by": line.method,
                "moves": line.elsewhere,
            }
            for line, gap in card.gaps
        ],
        "untested": [club.address for club in card.untested],
        "swings": card.swings,
        "cells": list(card.cells.values()),
    }
