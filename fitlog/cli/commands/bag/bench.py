"""bench: the arithmetic of one club, and what stock could make of it."""

from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.calc_values import optional_number
from fitlog.cli.call import Call
from fitlog.cli.commands.bag.bench_text import (
    show,
    show_bends,
    show_builds,
    show_frequency,
    show_lie,
    show_matches,
    show_sleeve,
    show_ways,
)
from fitlog.records.errors import UsageError

if TYPE_CHECKING:
    from collections.abc import Iterable

    from fitlog.bench.components.masses import Sums
    from fitlog.bench.components.stock import Target
    from fitlog.saving.desk import Desk
    from fitlog.views.bench.setup import Work
    from fitlog.views.bench.sheet import Sheet
    from fitlog.views.bench.stock_solver import SolverResult


def bench_arguments(parser: ArgumentParser) -> None:
    """PLAYER SLOT, --set, --target, --like, --solve."""
    parsing.player(parser)
    made = parser.add_argument("slot", metavar="SLOT", help="driver, 3w, 7i …, slot#id, or a test: SESSION#TEST")
    parsing.from_shell(made, "slots")
    parsing.settings(parser, "try other values first, such as length_in=45 or readings.mass_g=314; nothing is saved")
    parser.add_argument("--target", metavar="SW", help="target swing weight, such as D2; else the club's own target")
    parser.add_argument("--like", metavar="SLOT", help="the club to match; of a test, the bag's own if left out")
    parser.add_argument("--solve", action="store_true", help="search parts/ for the builds nearest to the target")
    optional_number(parser, "--target-weight", unit="G", help="of the search: weight in all")
    optional_number(parser, "--target-moi", unit="KG_CM2", help="MOI about the butt; else that of --like")
    optional_number(parser, "--target-balance", unit="IN", help="balance point from the butt end")
    parser.add_argument(
        "--vary", metavar="PARTS", help="what of the club may be changed, such as heads,trims,tip weights"
    )
    parser.add_argument("--lengths", metavar="IN", default="", help="playing lengths allowed, such as 44.75,45,45.25")
    parser.epilog = (
        "Swing weights are to a tenth of a point, the customary one to the nearest whole, halves up. In files"
        " face_deg is open + and closed −, whichever hand plays; offline and start line are right +."
    )


def bench(call: Call) -> int:
    """Show the sheet."""
    from fitlog.views.bench import setup
    from fitlog.views.bench.options import matchings, ways_to
    from fitlog.views.bench.sheet import work_out

    given, desk = call.args, call.desk()
    work = _change(desk, setup.lay_out(desk, given.player, given.slot), given.set)
    sheet = work_out(work)
    points = _target(desk, sheet, given.target)
    ways = () if points is None else ways_to(sheet, points)
    like = given.like or (work.slot if work.origin == setup.TEST else "")
    reference = work_out(setup.lay_out(desk, work.player, like)).sums if like else None
    matches = matchings(sheet, reference) if reference else ()
    found = _search_builds(desk, sheet, _search_target(given, points, reference), given) if given.solve else None
    carry = _lie_carry(desk, sheet)
    if call.json:
        output.print_json(
            {
                **_table(sheet),
                "target_points": points,
                "ways": ways,
                "match": {"like": like, "ways": matches} if matches else None,
                **_bending_values(sheet, carry),
                "solver": None if found is None else {**found.answer._asdict(), **_search_notes(found)},
            }
        )
        return 0
    show(sheet)
    if ways:
        show_ways(ways, points, sheet.work.units)
    if matches:
        show_matches(like, matches)
    show_sleeve(sheet)
    show_lie(sheet, carry)
    show_bends(sheet)
    show_frequency(sheet)
    if found is not None:
        show_builds(sheet, found)
    return 0


def _change(desk: "Desk", work: "Work", settings: "Iterable[str]") -> "Work":
    """The club on the bench with each KEY=VALUE changed."""
    from fitlog.actions.values import split_setting
    from fitlog.views.bench.setup import change

    for each in settings:
        work = change(desk, work, *split_setting(each))
    return work


def _bending_values(sheet: "Sheet", carry: float) -> dict[str, Any]:
    from fitlog.views.bench.effects import frequencies, lie_rows, sleeves
    from fitlog.views.bench.fitting_bends import length_rows, loft_rows

    rows = lie_rows(sheet, carry)
    bends = {"loft_bends": loft_rows(sheet), "lie_by_length": length_rows(sheet)}
    return {"sleeve": sleeves(sheet), "lie": rows, "lie_carry_yd": carry, **bends, "frequency": frequencies(sheet)}


def _search_notes(result: "SolverResult") -> dict[str, Any]:
    return {"notes": result.notes, "costs": result.costs}


def _lie_carry(desk: "Desk", sheet: "Sheet") -> float:
    """The carry that shows a lie error's size: the slot's target, or an example."""
    from fitlog.views.bench.effects import example_carry

    wanted = desk.workspace.player(sheet.work.player).target_for(sheet.work.slot)
    return wanted.carry_yd if wanted and wanted.carry_yd is not None else example_carry(sheet)


def _target(desk: "Desk", sheet: "Sheet", typed: str | None) -> float | None:
    from fitlog.bench.measures.points import parse
    from fitlog.views.bench.setup import target_swing_weight

    wanted = typed or target_swing_weight(sheet.work, desk.workspace.player(sheet.work.player))[0]
    return parse(wanted) if wanted else None


def _search_target(args: Namespace, points: float | None, reference: "Sums | None") -> "Target":
    from fitlog.bench.bounds import MASS_G, PLACE_IN, validate
    from fitlog.bench.components.stock import Target

    if args.target_weight is not None:
        validate(args.target_weight, "target weight", "g", MASS_G, above=True)
    if args.target_moi is not None:
        validate(args.target_moi, "target MOI", "kg·cm²", (0.0, 20000.0), above=True)
    if args.target_balance is not None:
        validate(args.target_balance, "target balance point", "in", PLACE_IN)
    inertia = args.target_moi
    if inertia is None and args.like and reference:
        inertia = reference.moi_butt_kg_cm2
    return Target(points, args.target_weight, inertia, args.target_balance)


def _search_builds(desk: "Desk", sheet: "Sheet", target: "Target", args: Namespace) -> "SolverResult":
    from fitlog.views.bench.listing import choices_of, lengths_of
    from fitlog.views.bench.stock_solver import USUAL_KINDS, solve_from_stock

    if all(goal is None for goal in target):
        raise UsageError("there is no target to search for", do="give one with --target, such as D2")
    vary = USUAL_KINDS if args.vary is None else choices_of(args.vary)
    return solve_from_stock(desk, sheet, target, vary, lengths_in=lengths_of(args.lengths))


def _table(sheet: "Sheet") -> dict[str, Any]:
    """The sheet as plain values."""
    from fitlog.bench.measures.readings import sentence

    work = sheet.work
    cut = sheet.cut
    return {
        "player": work.player,
        "place": work.place,
        "slot": work.slot,
        "kind": work.kind,
        "changed": work.changes,
        "values": sheet.values,
        "assumed": sheet.assumed,
        "notes": sheet.notes,
        "sums": sheet.sums,
        "missing": sheet.missing or None,
        "sensitivities": sheet.sensitivities,
        "measured": sheet.measured,
        "differences": [{**row._asdict(), "sentence": sentence(row)} for row in sheet.differences],
        "cut": {
            **(cut.plan._asdict() if cut.plan else {}),
            "steps": cut.steps,
            "assumed": cut.assumed,
            "missing": cut.missing or None,
            "warnings": cut.warnings,
        },
    }
