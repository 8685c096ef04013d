"""calc cut --set: the cuts of a set of irons, and head weights for a target."""

from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.cli import output
from fitlog.cli.calc_values import optional_number, print_assumed, reader, required_number
from fitlog.cli.call import Call
from fitlog.records.errors import Refusal, UsageError

if TYPE_CHECKING:
    from fitlog.bench.building.cut import CutPlan
    from fitlog.bench.clubset import SetRow


class _Club(NamedTuple):
    """One club as written: its name, playing length, raw blank and the blank's mass."""

    name: str
    length_in: float
    raw_in: float
    shaft_mass_g: float | None


def set_arguments(parser: ArgumentParser) -> None:
    """--set and what goes with it."""
    group = parser.add_argument_group("a whole set of irons, longest first, in place of --length")
    group.add_argument(
        "--set", metavar="CLUB@IN[:RAW[:G]]", nargs="+", default=[],
        help="each club with its playing length, and its own raw blank and the blank's weight where they differ,"
        " such as 4i@38.5 5i@38 pw@35.75",
    )  # fmt: skip
    required_number(parser, "--trim-step", unit="IN", help="more tip trim from number to number", default=0.5)
    required_number(parser, "--wedge-step", unit="IN", help="and from the 9i to the wedges", default=0.25)
    parser.add_argument(
        "--sheet-starts",
        metavar="CLUB",
        default="",
        help="the iron that --tip-trim is for on the blank's sheet; the first if left out",
    )
    parser.add_argument(
        "--wedges",
        choices=("alike", "as 9i", "stepped"),
        default="alike",
        help="tip trims of the wedges: alike, as the 9i, or stepped on; alike if left out",
    )
    parser.add_argument("--target", metavar="D2", help="also: the head weight that brings each to this swing weight")
    optional_number(parser, "--target-moi", unit="KG_CM2", help="or to this MOI about the butt")
    required_number(parser, "--moi-step", unit="KG_CM2", help="and this much more from club to club", default=0.0)
    optional_number(parser, "--shaft-weight", unit="G", help="weight of a raw blank, for a target")
    optional_number(parser, "--grip-weight", unit="G", help="weight of a grip; 50 if left out")


def cut_set(call: Call, assumed: list[str]) -> int:
    """The cuts of the set, and the head masses with a target.

    ``assumed`` is what was taken for all of them.
    """
    from fitlog.bench.building.cut import TAPER, cut_plan, set_trims

    given = call.args
    clubs = [_club(given, each) for each in given.set]
    names = [club.name for club in clubs]
    if twice := next((name for name in names if names.count(name) > 1), ""):
        raise UsageError(f"'{twice}' is named twice", do="name each club of the set once")
    trims = set_trims(
        names,
        given.tip_trim,
        given.trim_step,
        given.wedge_step,
        starts_at=given.sheet_starts,
        tip=given.tip,
        wedges=given.wedges,
    )
    plans = {}
    for club in clubs:
        try:
            plans[club.name] = cut_plan(
                club.raw_in,
                club.length_in,
                given.tip_trim if given.tip == TAPER else trims[club.name],  # a trim off a taper tip is refused
                given.bore_to_ground,
                given.cap,
                insertion_in=given.insertion,
                tip=given.tip,
                parallel_in=given.parallel,
            )
        except Refusal as refusal:
            raise Refusal(refusal.what, where=f"{club.name}, {refusal.where}", do=refusal.do) from refusal
    if given.target and given.target_moi is not None:
        raise UsageError("a swing weight or an MOI, not both", do="leave out --target or --target-moi")
    heads = _heads(given, clubs, plans) if given.target or given.target_moi is not None else {}
    if call.json:
        output.print_json(_document(given, plans, heads, assumed))
    else:
        _show(given, plans, heads, assumed)
    return 0


def _club(args: Namespace, words: str) -> _Club:
    name, _, rest = words.partition("@")
    numbers = rest.split(":")
    try:
        if not rest or len(numbers) > 3:
            raise ValueError
        in_inches, in_grams = reader("IN"), reader("G")
        read = (in_inches, in_inches, in_grams)
        length, raw, mass = (*(each(text) for each, text in zip(read, numbers, strict=False)), None, None)[:3]
    except ValueError:
        raise UsageError(
            f"'{words}' is not a club with its length",
            do="write, for example, 4i@38.5, or with its blank 4i@38.5:41",
        ) from None
    raw = args.raw if raw is None else raw
    if length is None or raw is None:
        raise UsageError(f"the raw blank of the {name} is not known", do="give --raw, or 4i@38.5:41")
    return _Club(name, length, raw, args.shaft_weight if mass is None else mass)


def _heads(args: Namespace, clubs: list[_Club], plans: "dict[str, CutPlan]") -> "dict[str, SetRow]":
    from fitlog.bench.club import ClubParts
    from fitlog.bench.clubset import head_masses, head_masses_for_moi
    from fitlog.bench.measures.points import parse
    from fitlog.records.naming.slots import head_kind

    if any(club.shaft_mass_g is None for club in clubs):
        raise UsageError(
            "a head's weight needs the blank's weight", do="give --shaft-weight, or 4i@38.5:41:120 for each"
        )
    parts = {
        club.name: ClubParts(
            club.length_in,
            head_kind(club.name),
            shaft_mass_g=club.shaft_mass_g,
            shaft_raw_length_in=club.raw_in,
            shaft_tip_trim_in=plans[club.name].tip_trim_in,
            grip_mass_g=args.grip_weight,
            grip_cap_in=args.cap,
            head_bore_to_ground_in=args.bore_to_ground,
            head_insertion_in=args.insertion,
        )
        for club in clubs
    }
    if args.target:
        return {row.club: row for row in head_masses(parts, parse(args.target))}
    return {row.club: row for row in head_masses_for_moi(parts, args.target_moi, args.moi_step)}


def _document(
    args: Namespace, plans: "dict[str, CutPlan]", heads: "dict[str, SetRow]", assumed: list[str]
) -> dict[str, Any]:
    clubs = []
    for name, plan in plans.items():
        row: dict[str, Any] = {"club": name, **plan._asdict()}
        if head := heads.get(name):
            row |= {"head_mass_g": head.head_mass_g, "sums": head.sums, "assumed": head.assumed}
        clubs.append(row)
    targets = {"target": args.target, "target_moi_kg_cm2": args.target_moi}
    return {"clubs": clubs, **targets, "assumed": assumed}


def _show(args: Namespace, plans: "dict[str, CutPlan]", heads: "dict[str, SetRow]", assumed: list[str]) -> None:
    rows = []
    for name, plan in plans.items():
        cuts = (plan.length_in, plan.tip_trim_in, plan.cut_in, plan.butt_trim_in)
        left = "–" if plan.parallel_left_in is None else f"{plan.parallel_left_in:.3f}"
        head = (f"{heads[name].head_mass_g:.1f} g", *_result_cells(heads, name)) if heads else ()
        rows.append((name, *(f"{each:.3f}" for each in cuts), left, *head))
    heading = ("CLUB", "LENGTH", "TIP TRIM", "CUT SHAFT", "BUTT TRIM", "PARALLEL LEFT")
    goal = args.target.upper() if args.target else f"{args.target_moi or 0:g} KG·CM²"
    output.print_table(rows, (*heading, f"HEAD FOR {goal}", "SW", "MOI", "STEP") if heads else heading)
    output.print_line("in inches; the blank's own sheet comes before these steps of tip trim")
    of_heads = (each for row in heads.values() for each in row.assumed if not each.startswith("balance"))
    print_assumed([*assumed, *of_heads])


def _result_cells(heads: "dict[str, SetRow]", name: str) -> tuple[str, str, str]:
    """Swing weight, MOI and the step of the MOI from the club before."""
    from fitlog.bench.clubset import moi_progression

    steps = {each.club: each.step for each in moi_progression({club: row.sums for club, row in heads.items()})}
    found, step = heads[name].sums, steps[name]
    return found.swing_weight, f"{found.moi_butt_kg_cm2:.0f}", "" if step is None else f"{step:+.0f}"
