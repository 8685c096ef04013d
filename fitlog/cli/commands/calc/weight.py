"""calc swing-weight, calc match: weights written MASS_g@POSITION_in."""

from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING, Any

from fitlog.cli import output
from fitlog.cli.calc_values import optional_number, print_values
from fitlog.cli.call import Call
from fitlog.records.errors import UsageError

if TYPE_CHECKING:
    from fitlog.bench.components.masses import Piece, Sums

_PARTS = ("head", "shaft", "grip", "at")
_ROUNDING_NOTE = "swing_weight to a tenth of a point, customary to the nearest whole point, halves up"
_SCALE = (
    "Each weight is GRAMS@INCHES from the butt end, cap included: a point, or with :ROD spread over that many inches,"
    " which the MOI sees and the swing weight does not. Each option takes several weights, and may be given"
    " again, in any order. A gram's sensitivity is at the place named: of a tip weight the head's centre, of a butt"
    " weight 0.5 in. An inch"
    " of length moves all but what --grip gives."
    " points counts from A0: A0 is 161.0 in·oz about a fulcrum 14 in from the butt end, a point is 1.75 in·oz, and D0"
    " is point 30 (213.5 in·oz): common practice. Counted from no moment at all A0 is 92, so that 125.535 there is"
    f" 33.535 here. Rounding: {_ROUNDING_NOTE}."
)


def _pieces_arguments(parser: ArgumentParser) -> None:
    for name in _PARTS:
        what = "any other weights" if name == "at" else f"the {name}"
        _masses(parser, f"--{name}", f"{what}, from the butt end")


def _masses(parser: ArgumentParser, name: str, text: str) -> None:
    """An option for weights at their places, several at once or again."""
    parser.add_argument(name, metavar="G@IN[:ROD]", nargs="+", action="extend", default=[], help=text)


def _pieces(args: Namespace) -> "list[Piece]":
    from fitlog.bench.components.masses import parse_piece

    return [
        _within_files(parse_piece(written, "weight" if name == "at" else name, stays=name == "grip"))
        for name in _PARTS
        for written in getattr(args, name)
    ]


def _within_files(piece: "Piece") -> "Piece":
    """A head, shaft or grip that is no heavier than a setup's file takes."""
    from fitlog.bench.bounds import bounds_of, validate

    if piece.name in ("head", "shaft", "grip"):
        validate(piece.mass_g, f"{piece.name}, weight", "g", (0.0, bounds_of(f"{piece.name}.mass_g")[1]))
    return piece


def swing_weight_arguments(parser: ArgumentParser) -> None:
    """Weights at their places, or a whole club."""
    _pieces_arguments(parser)
    optional_number(parser, "--weight", unit="G", help="a whole club's weight, with --balance")
    optional_number(parser, "--balance", unit="IN", help="its balance point from the butt end")
    parser.add_argument("--target", metavar="D2", help="also: what brings it to this swing weight")
    parser.epilog = _SCALE


def swing_weight(call: Call) -> int:
    """Swing weight and what goes with it."""
    args = call.args
    pieces = _pieces(args)
    whole = args.weight is not None or args.balance is not None
    if whole and (pieces or args.weight is None or args.balance is None):
        raise UsageError(
            "--weight and --balance go together, without other weights",
            do="give --weight and --balance, or a list of weights at their places",
        )
    if whole:
        if args.target:
            raise UsageError("a target needs the club's parts", do="give --head, --shaft and --grip at their places")
        return print_values(call, _whole_club_values(args.weight, args.balance))
    if not pieces:
        raise UsageError("there is nothing to weigh", do="give, for example, --head 200@44.5 --shaft 60@22.5")
    from fitlog.bench.building.sensitivity import sensitivities
    from fitlog.bench.components.masses import sums

    values = _sums_values(sums(pieces))
    rows = sensitivities(pieces)
    values["sensitivities"] = rows
    if args.target:
        values["to_target"] = _to_target(pieces, args.target)
    print_values(call, values)
    if not call.json:
        output.print_line()
        output.print_table(
            [
                (
                    each.what,
                    f"{each.points:+.3f} points a {each.unit}",
                    "" if each.at_in is None else f"at {each.at_in:g} in",
                    f"rule: {each.rule_words}" if each.rule else "",
                )
                for each in rows
            ]
        )
        _show_target(values, args.target)
    return 0


def _sums_values(sums: Any) -> dict[str, Any]:
    from fitlog.bench.measures.points import TOP, customary

    on_scale = 0 <= sums.points <= TOP
    return {**sums._asdict(), "customary": customary(sums.points) if on_scale else None, "rounding": _ROUNDING_NOTE}


def _whole_club_values(mass: float, balance: float) -> dict[str, Any]:
    from fitlog.bench.components.masses import of_whole

    # mass and balance point say nothing of the inertia
    return {**_sums_values(of_whole(mass, balance)), "moi_butt_kg_cm2": None, "moi_cg_kg_cm2": None}


def _to_target(pieces: "list[Piece]", target: str) -> dict[str, float | None]:
    from fitlog.bench.building.sensitivity import head_mass_for, length_for, weight_for
    from fitlog.bench.club import BUTT_WEIGHT_IN
    from fitlog.bench.measures.points import parse

    points = parse(target)
    head = next((piece for piece in pieces if piece.name == "head"), None)
    return {
        "target_points": points,
        "head_mass_g": head_mass_for(pieces, points) if head else None,
        "head_weight_g": weight_for(pieces, points, head.at_in) if head else None,
        "butt_weight_g": weight_for(pieces, points, BUTT_WEIGHT_IN),
        "butt_weight_at_in": BUTT_WEIGHT_IN,
        "length_by_in": length_for(pieces, points),
    }


def _show_target(values: dict[str, Any], target: str | None) -> None:
    if target:
        to = values["to_target"]
        butt = f"{to['butt_weight_g']:+.1f} g at the butt ({to['butt_weight_at_in']:g} in)"
        ways = [butt, f"{to['length_by_in']:+.3f} in of length"]
        if to["head_weight_g"] is not None:
            ways.insert(0, f"{to['head_weight_g']:+.1f} g at the head")
        output.print_line()
        output.print_line(f"to {target}: " + ", or ".join(ways))


def match_arguments(parser: ArgumentParser) -> None:
    """The club, the club to match, and where the weight goes."""
    _pieces_arguments(parser)
    _masses(parser, "--to", "the club to match, weight by weight")
    parser.add_argument("--to-swing-weight", metavar="D2", help="or its swing weight")
    optional_number(parser, "--to-moi", unit="KG_CM2", help="and its MOI about the butt end")
    parser.add_argument(
        "--by",
        choices=("swing-weight", "moi", "compromise", "both"),
        default="swing-weight",
        help="one weight for one of them or nearest to both, or two weights for both; swing-weight if left out",
    )
    optional_number(
        parser, "--weight-at", unit="IN", help="place of the weight from the butt end; the head's if left out"
    )
    optional_number(parser, "--second-at", unit="IN", help="place of the second weight; 0.5 if left out")
    parser.epilog = _SCALE


def match(call: Call) -> int:
    """The weight that matches a club to another."""
    from fitlog.bench.building.match import match_both, match_compromise, match_inertia, match_swing_weight

    args = call.args
    pieces = _pieces(args)
    if not pieces:
        raise UsageError("there is no club to match", do="give, for example, --head 198@44.5 --shaft 60@22.5")
    place = args.weight_at
    if place is None:
        place = next((piece.at_in for piece in pieces if piece.name == "head"), None)
    if place is None:
        raise UsageError("the place of the weight is not known", do="give --head, or --weight-at IN")
    goal, knows = _goal(args, pieces)
    needs = {"swing-weight": {"points"}, "moi": {"moi"}}.get(args.by, {"points", "moi"})
    if not needs <= knows:
        unknown = "swing weight" if "points" not in knows else "MOI"
        raise UsageError(f"the {unknown} to match is not known", do="give --to, --to-swing-weight or --to-moi")
    if args.by == "both":
        near = 0.5 if args.second_at is None else args.second_at
        found = match_both(pieces, goal, place, near)
    else:
        ways = {
            "swing-weight": match_swing_weight,
            "moi": match_inertia,
            "compromise": match_compromise,
        }
        found = ways[args.by](pieces, goal, place)
    return _report_match(call, found, knows)


def _goal(args: Namespace, pieces: "list[Piece]") -> "tuple[Sums, set[str]]":
    """The club to match as sums, and which of its two numbers are known."""
    from fitlog.bench.components.masses import parse_piece, sums
    from fitlog.bench.measures.points import parse

    given = args.to_swing_weight is not None or args.to_moi is not None
    if bool(args.to) == given:
        raise UsageError(
            "what to match is not clear", do="give the other club's weights with --to, or its numbers, not both"
        )
    if args.to:
        return sums([parse_piece(written, "weight to match") for written in args.to]), {"points", "moi"}
    goal, knows = sums(pieces), set()
    if args.to_swing_weight is not None:
        goal, knows = goal._replace(points=parse(args.to_swing_weight)), {"points"}
    if args.to_moi is not None:
        from fitlog.bench.bounds import validate

        inertia = validate(args.to_moi, "MOI to match", "kg·cm²", (0.0, 20000.0), above=True)
        goal, knows = goal._replace(moi_butt_kg_cm2=inertia), knows | {"moi"}
    return goal, knows


def _without_rounding(value: float) -> float:
    """What is left over; what is left of rounding is nothing."""
    return 0.0 if abs(value) < 1e-9 else value


def _report_match(call: Call, match: Any, knows: set[str]) -> int:
    values = {
        "weights": [{"name": each.name, "mass_g": each.mass_g, "at_in": each.at_in} for each in match.weights],
        **_sums_values(match.sums),
        "points_off": _without_rounding(match.points_off) if "points" in knows else None,
        "moi_off_kg_cm2": _without_rounding(match.moi_off_kg_cm2) if "moi" in knows else None,
        "removes": match.removes,
    }
    if not call.json:
        for each in match.weights:
            verb = "add" if each.mass_g >= 0 else "take off"
            output.print_line(f"{verb} {abs(each.mass_g):.2f} g at {each.at_in:g} in from the butt end")
    return print_values(call, values)
