"""bench: the arithmetic of one club of a bag, or of a test's setup, with what stock could make of it."""

from argparse import ArgumentParser
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.errors import UsageError

if TYPE_CHECKING:
    from fitlog.actions.benchsheet import Sheet
    from fitlog.actions.benchstock import Found
    from fitlog.actions.desk import Desk


def bench_arguments(parser: ArgumentParser) -> None:
    """PLAYER SLOT, --set, --target, --like, --solve."""
    parsing.player(parser)
    made = parser.add_argument("slot", metavar="SLOT", help="driver, 3w, 7i …, slot#id, or a test: SESSION#TEST")
    parsing.from_shell(made, "slots")
    parsing.settings(parser, "try other values first, such as length_in=45 or readings.mass_g=314; nothing is saved")
    parser.add_argument("--target", metavar="SW", help="swing weight aimed at, such as D2; else the player's own")
    parser.add_argument("--like", metavar="SLOT", help="the club to match; of a test, the bag's own if left out")
    parser.add_argument("--solve", action="store_true", help="search parts/ for the builds nearest to the target")


def bench(call: Call) -> int:
    """Show the sheet."""
    from fitlog.actions import bench as laid
    from fitlog.actions.benchsheet import matchings, sleeves, ways_to, work_out

    given, desk = call.args, call.desk()
    work = laid.lay_out(desk, given.player, given.slot)
    for each in given.set:
        key, equals, text = each.partition("=")
        if not equals:
            raise UsageError(f"'{each}' is not of the form KEY=VALUE", do="write, for example, --set length_in=45")
        work = laid.change(desk, work, key.strip(), text.strip())
    sheet = work_out(work)
    points = _target(desk, sheet, given.target)
    ways = () if points is None else ways_to(sheet, points)
    like = given.like or (work.slot if work.origin == laid.TEST else "")
    reference = work_out(laid.lay_out(desk, work.player, like)).sums if like else None
    matches = matchings(sheet, reference) if reference else ()
    found = _solved(desk, sheet, points) if given.solve else None
    turned = sleeves(sheet)
    if call.json:
        output.print_json(
            {
                **_table(sheet),
                "target_points": points,
                "ways": ways,
                "match": {"like": like, "ways": matches} if matches else None,
                "sleeve": turned,
                "solver": None if found is None else {**found.answer._asdict(), "notes": found.notes},
            }
        )
        return 0
    _show(sheet)
    if ways:
        _show_ways(ways, points)
    if matches:
        _show_matches(like, matches)
    if turned.rows:
        output.say(f"sleeve, {turned.source}:")
        output.table([(f"{row.position}{' (now)' if row.now else ''}", row.said) for row in turned.rows])
    if found is not None:
        _show_builds(found)
    return 0


def _target(desk: "Desk", sheet: "Sheet", given: str | None) -> float | None:
    from fitlog.bench.points import parse

    if given:
        return parse(given)
    wanted = desk.workspace.player(sheet.work.player).target_for(sheet.work.slot)
    return parse(wanted.swing_weight) if wanted and wanted.swing_weight else None


def _solved(desk: "Desk", sheet: "Sheet", points: float | None) -> "Found":
    from fitlog.actions.benchstock import solve_from_stock
    from fitlog.bench.stock import Target

    if points is None:
        raise UsageError("there is no target to search for", do="give one with --target, such as D2")
    return solve_from_stock(desk, sheet, Target(points=points))


def _table(sheet: "Sheet") -> dict[str, Any]:
    """The sheet as plain values."""
    from fitlog.bench.readings import sentence

    work = sheet.work
    cut = sheet.cut
    return {
        "player": work.player,
        "place": work.place,
        "slot": work.slot,
        "kind": work.kind,
        "changed": work.changed,
        "values": sheet.values,
        "assumed": sheet.assumed,
        "notes": sheet.notes,
        "sums": sheet.sums,
        "lacking": sheet.lacking or None,
        "sensitivities": sheet.sensitivities,
        "read": sheet.read,
        "differences": [{**row._asdict(), "sentence": sentence(row)} for row in sheet.differences],
        "cut": {
            **(cut.plan._asdict() if cut.plan else {}),
            "steps": cut.steps,
            "assumed": cut.assumed,
            "lacking": cut.lacking or None,
        },
    }


def _show(sheet: "Sheet") -> None:
    from fitlog.bench.readings import sentence
    from fitlog.records.words import number, setup_text

    output.say(f"{sheet.work.player} {sheet.work.place}: {setup_text(sheet.work.table)}")
    if sheet.sums is None:
        output.say(f"no sums from components: {sheet.lacking}")
    else:
        _show_sums(sheet)
    if sheet.read is not None:
        output.say(f"swing weight {sheet.read.swing_weight} by mass and balance point as read")
    output.say("values:")
    rows = [
        (f"{each.name}", f"{number(each.value)} {each.unit}".strip(), each.mark, each.source) for each in sheet.values
    ]
    output.table(rows)
    for title, lines in (("assumed", sheet.assumed), ("to know", sheet.notes)):
        if lines:
            output.say(f"{title}:")
            for each in lines:
                output.indented(each, "  ")
    if sheet.differences:
        output.say("readings:")
        for row in sheet.differences:
            output.indented(("! " if row.disagrees else "  ") + sentence(row), "  ")
    _show_cut(sheet)


def _show_sums(sheet: "Sheet") -> None:
    sums = sheet.sums
    assert sums is not None
    output.say("from components:")
    rows = [
        ("swing weight", f"{sums.swing_weight} ({sums.moment_in_oz:.1f} in·oz)"),
        ("mass", f"{sums.mass_g:.1f} g"),
        ("balance point", f"{sums.balance_in:.2f} in"),
        ("inertia about the butt", f"{sums.moi_butt_kg_cm2:.0f} kg·cm²"),
        ("inertia about the centre", f"{sums.moi_cg_kg_cm2:.0f} kg·cm²"),
    ]
    output.table(rows)
    output.say("a gram or an inch more gives:")
    output.table(
        [
            (
                each.what,
                f"{each.points:+.2f} points per {each.unit}",
                f"rule: {each.rule_words}" if each.rule else "",
            )
            for each in sheet.sensitivities
        ]
    )


def _show_cut(sheet: "Sheet") -> None:
    cut = sheet.cut
    if cut.plan is None:
        output.say(f"no cut plan: {cut.lacking}")
        return
    output.say("cut plan:" + (f" (assumed: {', '.join(cut.assumed)})" if cut.assumed else ""))
    for place, each in enumerate(cut.steps, 1):
        output.indented(f"{place}. {each}", "  ")


def _show_ways(ways: Any, points: float | None) -> None:
    from fitlog.bench.points import shown

    output.say(f"to {shown(points or 0.0)}, by one change alone:")
    for way in ways:
        becomes = f", to {way.becomes:.2f} {way.unit}" if way.becomes is not None else ""
        said = way.refused or f"{way.change:+.2f} {way.unit}{becomes}"
        output.indented(f"{way.what}: {said}", "  ")


def _show_matches(like: str, matches: Any) -> None:
    from fitlog.actions.benchsheet import match_text

    output.say(f"to match the {like}:")
    for each in matches:
        output.indented(match_text(each), "  ")


def _show_builds(found: "Found") -> None:
    from fitlog.records.words import number

    answer = found.answer
    output.say(f"from stock: {answer.combinations} builds looked at, {answer.within} within tolerance")
    rows = []
    for place, build in enumerate(answer.builds, 1):
        chosen = build.chosen
        trim = f"tip {number(chosen.tip_trim_in)} in" if chosen.tip_trim_in else ""
        weights = (chosen.head_weight, chosen.tip_weight, chosen.butt_weight)
        parts = ", ".join(filter(None, (chosen.head, chosen.shaft, trim, chosen.grip, *weights)))
        rows.append((f"{place}.", build.sums.swing_weight, f"{build.sums.mass_g:.1f} g", parts))
    output.table(rows)
    for each in (*filter(None, [answer.advice]), *found.notes, *answer.left_out):
        output.indented(each, "  ")
