"""calc cut, lie, sleeve, frequency: building a club and bending it."""

from argparse import ArgumentParser, Namespace
from typing import Any

from fitlog.cli import output, parsing
from fitlog.cli.calc_values import optional_number, print_assumed, print_values, required_number, value_or_default
from fitlog.cli.call import Call
from fitlog.cli.commands.calc.cut_set import cut_set, set_arguments
from fitlog.records.errors import UsageError


def cut_arguments(parser: ArgumentParser) -> None:
    """The blank and the club."""
    optional_number(parser, "--raw", unit="IN", help="length of the raw blank")
    optional_number(parser, "--length", unit="IN", help="playing length by the 60° rule; a putter's along the shaft")
    optional_number(parser, "--tip-trim", unit="IN", help="off the tip, of a set off its first iron's; 0 if left out")
    required_number(parser, "--bore-to-ground", unit="IN", help="bottom of the bore (or sleeve) to the ground")
    optional_number(parser, "--cap", unit="IN", help="thickness of the grip's cap; 0.125 if left out")
    optional_number(parser, "--insertion", unit="IN", help="shaft inside the bore; 1.25 if left out")
    parser.add_argument("--tip", choices=("parallel", "taper"), help="parallel if left out")
    optional_number(parser, "--parallel", unit="IN", help="parallel section at the blank's tip")
    set_arguments(parser)


def cut(call: Call) -> int:
    """Where to cut."""
    from fitlog.bench.building.cut import PARALLEL, cut_plan, steps
    from fitlog.bench.club import CAP_IN, INSERTION_IN, insertion_notes

    given = call.args
    assumed: list[str] = []
    given.tip_trim = value_or_default(given.tip_trim, 0.0, "tip trim, in", assumed)
    given.cap = value_or_default(given.cap, CAP_IN, "cap, in", assumed)
    given.insertion = value_or_default(given.insertion, INSERTION_IN, "insertion depth, in", assumed)
    if given.tip is None:
        given.tip = PARALLEL
        assumed.append("a parallel tip")
    if given.set:
        if given.length is not None:
            raise UsageError("one club or a set, not both", do="leave out --length or --set")
        return cut_set(call, assumed)
    if lacking := [f"--{name}" for name in ("raw", "length") if getattr(given, name) is None]:
        raise UsageError(
            f"the following arguments are required: {', '.join(lacking)}", do="see: fitlog calc cut --help"
        )
    plan = cut_plan(
        given.raw,
        given.length,
        given.tip_trim,
        given.bore_to_ground,
        given.cap,
        insertion_in=given.insertion,
        tip=given.tip,
        parallel_in=given.parallel,
    )
    warnings = insertion_notes(plan.insertion_in)
    if call.json:
        return print_values(call, {**plan._asdict(), "steps": steps(plan), "assumed": assumed, "warnings": warnings})
    for place, each in enumerate(steps(plan), 1):
        output.print_line(f"{place}. {each}")
    for each in warnings:
        output.print_line(f"! {each}")
    print_assumed(assumed)
    return 0


def lie_arguments(parser: ArgumentParser) -> None:
    """Loft, error, carry, hand; or a lie board's mark, a length or a face."""
    optional_number(parser, "--loft", unit="DEG", help="loft of the club")
    optional_number(parser, "--error", unit="DEG", help="lie error, toe up (too upright) positive")
    optional_number(parser, "--carry", unit="YD", help="carry")
    optional_number(
        parser, "--face", unit="DEG", help="in place of --error: a direction of the face, for its lie error"
    )
    optional_number(
        parser, "--mark", unit="IN", help="mark of a lie board on the sole, from its middle towards the heel"
    )
    optional_number(parser, "--sole-radius", unit="IN", help="camber of the sole; 14.3 (¼ in a degree) if left out")
    optional_number(parser, "--length", unit="IN", help="with --length-by and --lie: length of the club")
    optional_number(parser, "--length-by", unit="IN", help="change of length, to see the lie as it plays then")
    optional_number(parser, "--lie", unit="DEG", help="lie of the club, with --length-by")
    parser.add_argument("--hand", choices=("right", "left"), default="right", help="right if left out")
    parser.epilog = (
        "Right of the target is positive for every player: a right-hander's club that lies toe up points left, so its"
        " face_deg and face_yd are negative; a left-hander's are positive. The face is turned exactly about the"
        " target line: tan a = tan(loft) · sin(error). face is where the face points, start where the ball starts:"
        " a printed share of 65 to 82 % of it, least and most. A longer club at the same height of the hands plays"
        " more upright: length_error_deg is the most that can be; the trade counts 1° for half an inch."
    )


def lie(call: Call) -> int:
    """What a lie error does, and what a board or a length says of it."""
    from fitlog.bench.measures.lie import (
        BOARD_RADIUS_IN,
        LIMITS,
        board_angle,
        lie_by_length,
        lie_effect,
        lie_error_for,
    )

    given = call.args
    values: dict[str, Any] = {}
    assumed: list[str] = []
    error = given.error
    if given.mark is not None:
        radius = value_or_default(given.sole_radius, BOARD_RADIUS_IN, "radius of the sole, in", assumed)
        values["board_error_deg"] = board_angle(given.mark, radius)
        error = values["board_error_deg"] if error is None else error
    if given.length_by is not None:
        if given.length is None or given.lie is None:
            raise UsageError("a change of length needs the club", do="give --length and --lie with --length-by")
        values["length_error_deg"] = lie_by_length(given.lie, given.length, given.length_by)
    if given.face is not None:
        if given.loft is None or error is not None:
            raise UsageError(
                "a lie error from --face needs the loft, and no --error or --mark", do="give --loft and --face"
            )
        values["error_deg"] = lie_error_for(given.loft, given.face, given.hand)
    elif given.loft is not None and given.carry is not None and error is not None:
        values |= lie_effect(given.loft, error, given.carry, given.hand)._asdict()
    if not values:
        raise UsageError("there is too little to work with", do="give --loft, --error and --carry, or --mark")
    if call.json:
        return print_values(call, {**values, "limits": LIMITS, "assumed": assumed})
    for key, name, unit in (("start_deg", "start", "°"), ("start_yd", "start", " yd")):
        if key in values:
            low, high = values.pop(key)
            values[f"{name} in {unit.strip()}"] = f"{low:+.2f} to {high:+.2f}{unit}"
    print_values(call, values)
    print_assumed(assumed)
    output.print_line(f"right of target is positive; {LIMITS}")
    return 0


def loft_arguments(parser: ArgumentParser) -> None:
    """The bend, and what is known of the club."""
    required_number(parser, "--by", unit="DEG", help="bend of the hosel: weaker positive, stronger negative")
    optional_number(parser, "--loft", unit="DEG", help="loft of the club, to see it after the bend")
    optional_number(parser, "--bounce", unit="DEG", help="bounce of the club, to see it after the bend")
    optional_number(parser, "--bend-at", unit="IN", help="the bend above the leading edge; 1.75 if left out")
    parser.epilog = (
        "The head turns about the bend and the shaft stays: a degree less loft takes a degree of bounce away and adds"
        " offset. The head maker's own limit of bending comes first."
    )


def loft(call: Call) -> int:
    """Bounce and offset after a bend for loft."""
    from fitlog.bench.measures.loft import BEND_AT_IN, loft_bend

    given = call.args
    assumed: list[str] = []
    found = loft_bend(
        given.by, value_or_default(given.bend_at, BEND_AT_IN, "bend above the leading edge, in", assumed)
    )
    values: dict[str, Any] = dict(found._asdict())
    if given.loft is not None:
        values["loft_deg"] = given.loft + given.by
    if given.bounce is not None:
        values["bounce_deg"] = given.bounce + found.bounce_by_deg
    print_values(call, {**values, "assumed": assumed})
    if not call.json:
        print_assumed(assumed)
    return 0


def sleeve_arguments(parser: ArgumentParser) -> None:
    """The head, the bend, and one turn or all positions."""
    required_number(parser, "--loft", unit="DEG", help="loft of the head on a straight sleeve")
    required_number(parser, "--lie", unit="DEG", help="its lie")
    required_number(parser, "--bend", unit="DEG", help="bend of the sleeve")
    optional_number(parser, "--turn", unit="DEG", help="one position: 0 is flat, 180 upright, 90 opens the face")
    parser.add_argument("--positions", metavar="N", type=parsing.whole_number, help="or N positions; 8 if left out")
    parser.add_argument("--hand", choices=("right", "left"), default="right", help="right if left out")
    parser.epilog = (
        "Changes against a straight sleeve: loft_deg more loft +, lie_deg more upright +, closed_deg closed +, for"
        " either hand (in files face_deg is the other way round: open +, closed −). Each is given three ways:"
        " held (the shaft as it was), squared (the grip turned until the face is square),"
        " soled (the head flat on its sole)."
    )


def sleeve(call: Call) -> int:
    """Loft, lie and face of sleeve positions, each seen held, squared and soled."""
    from fitlog.bench.components.sleeve import Position, advice, position, positions

    given = call.args
    if given.turn is not None and given.positions is not None:
        raise UsageError("one turn or all positions, not both", do="leave out --turn or --positions")
    if given.turn is not None:
        found: tuple[Position, ...] = (position(given.loft, given.lie, given.bend, given.turn),)
    else:
        found = positions(given.loft, given.lie, given.bend, 8 if given.positions is None else given.positions)
    if call.json:
        return print_values(call, {"positions": found, "hand": given.hand})
    closed_is = "left" if given.hand == "right" else "right"
    rows = [(f"{at.turned_deg:g}°", advice(change)) for at in found for change in (at.held, at.squared, at.soled)]
    output.print_table(rows, ("TURN", "AGAINST A STRAIGHT SLEEVE"))
    output.print_line(f"a face that closes points further {closed_is} for a {given.hand}-handed player")
    return 0


def frequency_arguments(parser: ArgumentParser) -> None:
    """EI or a reading, the free length, the weights, and a change."""
    optional_number(parser, "--ei", "--ei-nm2", unit="NM2", help="bending stiffness EI in N·m²")
    optional_number(parser, "--reading", unit="CPM", help="or one reading, which gives EI")
    required_number(parser, "--length", "--free-length", unit="IN", help="free length, clamp to tip")
    required_number(parser, "--shaft", "--shaft-weight", unit="G", help="weight of that free length")
    required_number(parser, "--head", "--head-weight", unit="G", help="weight at the tip")
    optional_number(parser, "--length-by", unit="IN", help="also: after this change of length, cut at the butt")
    optional_number(parser, "--head-by", unit="G", help="also: after this change of head weight")
    optional_number(parser, "--tip-by", unit="IN", help="also: after this much more tip trim at the same length")
    optional_number(parser, "--raw", unit="IN", help="length of the raw blank; just long enough if left out")
    optional_number(parser, "--tip-trim", unit="IN", help="tip trim as it is; 0 if left out")
    optional_number(parser, "--clamp", unit="IN", help="butt inside the clamp; 5 if left out")
    optional_number(
        parser, "--ratio", unit="N", help="stiffness at the blank's butt over its tip's (3 to 5); 4 if left out"
    )
    parser.epilog = (
        "EI is that of the uniform shaft that gives the frequency. Every change is worked out on one blank, whose"
        " stiffness falls evenly from butt to tip by --ratio (1: uniform) and is scaled to the frequency as it is."
        " Flex letters have no standard: none is worked out."
    )


def frequency(call: Call) -> int:
    """Frequency of a clamped shaft with a head."""
    from fitlog.bench.measures.frequency import cpm, stiffness

    given = call.args
    if (given.ei is None) == (given.reading is None):
        raise UsageError("the stiffness is not clear", do="give --ei in N·m², or one --reading in cpm, not both")
    shaft = (given.length, given.shaft, given.head)
    ei = stiffness(given.reading, *shaft) if given.ei is None else given.ei
    values: dict[str, Any] = {"cpm": cpm(ei, *shaft), "ei_nm2": ei}
    assumed: list[str] = []
    changes = {"length_by_in": given.length_by, "head_by_g": given.head_by, "tip_by_in": given.tip_by}
    if asked := {key: value for key, value in changes.items() if value is not None}:
        values["changed_cpm"] = _changed_cpm(given, values["cpm"], asked, assumed)
    print_values(call, {**values, "assumed": assumed})
    if not call.json:
        print_assumed(assumed)
    return 0


def _changed_cpm(args: Namespace, reading: float, changes: dict[str, float], assumed: list[str]) -> float:
    from fitlog.bench.measures.frequency import CLAMP_IN, STIFFNESS_RATIO, cpm_after

    trim = value_or_default(args.tip_trim, 0.0, "tip trim, in", assumed)
    clamp = value_or_default(args.clamp, CLAMP_IN, "clamped butt, in", assumed)
    longer = max(changes.get("length_by_in", 0.0) + changes.get("tip_by_in", 0.0), 0.0)
    raw = value_or_default(args.raw, args.length + clamp + trim + longer, "raw blank, in", assumed)
    return cpm_after(
        reading,
        args.length,
        args.shaft,
        args.head,
        raw_length_in=raw,
        tip_trim_in=trim,
        clamp_in=clamp,
        ratio=value_or_default(args.ratio, STIFFNESS_RATIO, "stiffness butt to tip, times", assumed),
        **changes,
    )
