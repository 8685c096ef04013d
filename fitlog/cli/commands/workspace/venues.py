"""venue add, venue change, venue list, venue show: places to play and test."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.errors import UsageError


def _venue(parser: ArgumentParser) -> None:
    parsing.from_shell(parser.add_argument("venue", metavar="VENUE", help="a venue's id, or its start"), "venues")


def _values(parser: ArgumentParser) -> None:
    parsing.settings(
        parser, "such as altitude_m=420 air.temperature_c=16 ground='firm, fast greens'", "venue_settings"
    )
    parsing.reason(parser)


def add_arguments(parser: ArgumentParser) -> None:
    """ID --name NAME --set KEY=VALUE …"""
    parser.add_argument("venue", metavar="ID", help="small letters, digits and hyphens, such as long-marrow")
    parser.add_argument("--name", metavar="NAME", required=True)
    _values(parser)


def add(call: Call) -> int:
    """Write a new venue down."""
    from fitlog.actions.values import parse_settings
    from fitlog.actions.venues import add_venue
    from fitlog.records.models.venue import Venue

    given = call.args
    values = parse_settings(given.set, Venue)
    done = add_venue(call.writing_desk(), given.venue, given.name, values, given.reason or "")
    return call.report(done, venue=given.venue)


def change_arguments(parser: ArgumentParser) -> None:
    """VENUE --set KEY=VALUE … --reason TEXT."""
    _venue(parser)
    _values(parser)


def change(call: Call) -> int:
    """Change values of a venue."""
    from fitlog.actions.values import parse_settings
    from fitlog.actions.venues import change_venue
    from fitlog.records.models.venue import Venue

    values = parse_settings(call.args.set, Venue)
    if not values:
        raise UsageError("no value was given", do="give at least one, such as --set altitude_m=420")
    return call.report(change_venue(call.writing_desk(), call.args.venue, values, call.reason()))


def show_arguments(parser: ArgumentParser) -> None:
    """VENUE."""
    _venue(parser)


def show(call: Call) -> int:
    """Show a venue: each value with since when and why."""
    from fitlog.records.wording.words import format_label, format_value
    from fitlog.views.details.venue import venue_overview

    found = venue_overview(call.desk(), call.args.venue)
    if call.json:
        values = [
            {
                "key": each.key,
                "value": each.value,
                "since": each.entry.when if each.entry else None,
                "reason": (each.entry.reason or None) if each.entry else None,
                "commit": each.entry.commit if each.entry else None,
            }
            for each in found.values
        ]
        makeups = [{"player": player, "makeup": name} for player, name in found.makeups]
        output.print_json({"venue": found.id, "values": values, "makeups": makeups})
        return 0
    output.print_line(f"{found.venue.name} ({found.id})")
    rows = [
        (
            format_label(each.key),
            format_value(each.key, each.value),
            str(each.entry.when.date()) if each.entry else "edited by hand",
            (each.entry.reason or each.entry.subject) if each.entry else "",
        )
        for each in found.values
        if each.key != "name"
    ]
    output.print_table(rows, ("", "VALUE", "SINCE", "WHY"))
    for player, name in found.makeups:
        output.print_line(f"make-up of {player}: {name}")
    return 0


def list_arguments(_: ArgumentParser) -> None:
    """No argument of its own."""


def list(call: Call) -> int:
    """A line for each venue."""
    from fitlog.records.wording.words import format_value
    from fitlog.views.details.venue import list_venues

    found = list_venues(call.desk())
    if call.json:
        output.print_json({"venues": [{"id": name, **venue._asdict()} for name, venue in found.items()]})
        return 0
    if not found:
        output.print_line("No venues yet. Write one down with: fitlog venue add ID --name NAME --set altitude_m=420")
    rows = [
        (
            name,
            venue.name,
            "" if venue.altitude_m is None else format_value("altitude_m", venue.altitude_m),
            "" if venue.air.temperature_c is None else format_value("temperature_c", venue.air.temperature_c),
            venue.ground or "",
        )
        for name, venue in found.items()
    ]
    output.print_table(rows, ("ID", "NAME", "ALTITUDE", "USUAL AIR", "GROUND"))
    return 0
