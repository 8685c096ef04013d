"""settings: what holds for the whole workspace."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call


def settings_arguments(parser: ArgumentParser) -> None:
    """--set KEY=VALUE … --reason TEXT."""
    parsing.settings(parser, "such as units.distance=m, shop.name='Marrow Fitting'; KEY= removes it", "workspace")
    parsing.reason(parser, only_with="--set")


def settings(call: Call) -> int:
    """Show units, reference air, who logs and the shop; with --set, change some."""
    if call.args.set:
        from fitlog.actions.values import parse_settings
        from fitlog.actions.workspace.settings import change_settings
        from fitlog.records.models.settings import Settings

        values = parse_settings(call.args.set, Settings)
        return call.report(change_settings(call.writing_desk(), values, call.reason()))
    from fitlog.views.workspace.settings import workspace_settings

    found = workspace_settings(call.desk())
    if call.json:
        output.print_json({"values": [{"key": each.key, "value": each.value} for each in found]})
        return 0
    output.print_table([(each.key, each.label, each.words) for each in found], ("KEY", "", "VALUE"))
    return 0
