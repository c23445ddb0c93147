"""What a step does, in one sentence, as its maker would say it."""

from collections.abc import Callable, Mapping
from typing import Any

from catalogue.lengths.calculation.lengths import System, format_length
from fitting.comparing.calculation.next_step import listed
from fitting.pattern.calculation.working import (
    corners,
    darts,
    edges,
    girths,
    grading,
    joining,
    layers,
    marking,
    mirroring,
    parting,
    sleeves,
    taking_over,
    truing,
)


def said(asked: Any, system: System) -> str:
    def length(mm: float) -> str:
        return format_length(abs(mm), system=system)

    return _SENTENCES[type(asked)](asked, length)


Length = Callable[[float], str]


def _parted(what: str, asked: Any, length: Length) -> str:
    if asked.by_mm >= 0:
        return f"{what} is parted at a line by {length(asked.by_mm)}."
    return f"{what} is lapped at a line by {length(asked.by_mm)}."


def _lengthen(asked: parting.Lengthen, length: Length) -> str:
    way = "lengthened" if asked.by_mm >= 0 else "shortened"
    are = "is" if len(asked.pieces) == 1 else "are"
    return f"{listed(asked.pieces)} {are} {way} at a line by {length(asked.by_mm)}."


def _turn(asked: parting.Turn, length: Length) -> str:
    way = "opened" if asked.by_mm >= 0 else "lapped"
    return f"{asked.piece} is cut to a hinge and {way} by {length(asked.by_mm)}."


def _move_dart(asked: darts.MoveDart, length: Length) -> str:
    short = f", and stops {length(asked.short_mm)} short" if asked.short_mm else ""
    return f"Dart {asked.dart + 1} of {asked.piece} is moved to another place{short}."


def _add(asked: edges.Add, length: Length) -> str:
    way = "added at" if asked.by_mm >= 0 else "taken off at"
    return f"{length(asked.by_mm)} is {way} the {asked.edge} of {asked.piece}."


def _move_seam(asked: edges.MoveSeam, length: Length) -> str:
    gains, loses = asked.pieces if asked.by_mm >= 0 else asked.pieces[::-1]
    return f"The seam of {gains} and {loses} moves by {length(asked.by_mm)}: {gains} gains, {loses} loses."


def _take_over(asked: taking_over.TakeOverEdge, length: Length) -> str:
    taken = (
        f"the {edge} of {piece} from the {theirs} of {donor}"
        for piece, edge, donor, theirs in zip(
            asked.pieces, asked.edges, asked.donors, asked.donor_edges, strict=True
        )
    )
    return f"Taken over: {listed(list(taken))}; the neighbours run out over {length(asked.blend_mm)}."


def _allowance(asked: edges.SetAllowance, length: Length) -> str:
    parts = [] if asked.all_mm is None else [f"{length(asked.all_mm)} all round"]
    parts += [f"{length(mm)} at the {edge}" for edge, mm in asked.edges_mm.items()]
    return (
        f"The allowance of {asked.piece} is {listed(parts)}."
        if parts
        else f"The allowance of {asked.piece} stays."
    )


def _true(asked: truing.TrueEdges, length: Length) -> str:
    one, other = (f"{edge} of {piece}" for edge, piece in zip(asked.edges, asked.pieces, strict=True))
    gives = "both give way" if asked.gives_way == truing.BOTH else f"{asked.gives_way} gives way"
    return f"The {one} and the {other} are trued; {gives}."


def _alter(asked: girths.Alter, length: Length) -> str:
    parts = [
        f"{length(mm)} {'added' if mm >= 0 else 'taken off'} at the {level}"
        for level, mm in asked.changes_mm.items()
    ]
    return f"Altered: {listed(parts)}." if parts else "Altered by nothing."


def _grade(asked: grading.Grade, length: Length) -> str:
    wanted = (
        asked.girths_mm | dict(asked.lengths_mm) if isinstance(asked.girths_mm, dict) else asked.girths_mm
    )
    return f"Graded: {listed([f'{line} {length(mm)}' for line, mm in wanted.items()] or ['nothing asked'])}."


_SENTENCES: Mapping[type, Callable[[Any, Length], str]] = {
    parting.Lengthen: _lengthen,
    parting.Spread: lambda asked, length: _parted(asked.piece, asked, length),
    parting.Turn: _turn,
    darts.MoveDart: _move_dart,
    edges.Add: _add,
    edges.MoveSeam: _move_seam,
    joining.Cut: lambda asked, _: f"{asked.piece} is cut along a line into {listed(asked.names)}.",
    joining.Join: lambda asked, _: (
        f"{listed(asked.pieces)} are joined at {listed(dict.fromkeys(asked.edges))} and called {asked.name}."
    ),
    mirroring.Mirror: lambda asked, _: f"{asked.piece} is turned over.",
    mirroring.Unfold: lambda asked, _: f"{asked.piece} is unfolded at its {asked.edge}.",
    mirroring.Copy: lambda asked, _: f"{asked.piece} is copied as {asked.name}.",
    mirroring.Sides: lambda asked, _: (
        f"{asked.piece} becomes {asked.names[0]} (left) and {asked.names[1]} (right)."
    ),
    taking_over.TakeOverEdge: _take_over,
    edges.Facing: lambda asked, length: (
        f"{asked.name}: a facing {length(asked.width_mm)} wide at the {listed(asked.edges)} of {asked.piece}."
    ),
    edges.Band: lambda asked, length: (
        f"{asked.name}: a band {length(asked.height_mm)} high for the {listed(asked.edges)} of {asked.piece}."
    ),
    layers.OuterLayer: lambda asked, length: (
        f"{listed(asked.pieces)}: an outer layer that lies {length(asked.by_mm)} farther out."
    ),
    edges.SetAllowance: _allowance,
    truing.TrueEdges: _true,
    darts.PartDart: lambda asked, _: (
        f"Dart {asked.dart + 1} of {asked.piece} is parted: {asked.share:.0%} of it opens at another place."
    ),
    darts.GatherDart: lambda asked, _: (
        f"Dart {asked.dart + 1} of {asked.piece} is not sewn: it is eased or gathered into its edge."
    ),
    sleeves.TrueSleeve: lambda asked, _: f"The head of {asked.piece} is trued to its armhole, part by part.",
    parting.FullBust: lambda asked, length: (
        f"{length(asked.by_mm)} is given over the bust of {asked.piece}; below it opens a dart."
    ),
    corners.MoveCorner: lambda asked, length: (
        f"The point of {asked.piece} where {listed(asked.edges)} meet moves {length(asked.across_mm)}"
        f" {'out' if asked.across_mm >= 0 else 'in'} and {length(asked.down_mm)}"
        f" {'down' if asked.down_mm >= 0 else 'up'}."
    ),
    corners.SlopeShoulder: lambda asked, length: (
        f"The shoulder of {asked.piece} is {'squared' if asked.by_mm >= 0 else 'sloped'} by"
        f" {length(asked.by_mm)} at the armhole, which goes with it."
    ),
    corners.TrueCorner: lambda asked, _: (
        f"Across the closed seam of {listed(asked.pieces)} the line now runs on smoothly."
    ),
    marking.SetGrain: lambda asked, _: f"The grain of {asked.piece} is set.",
    marking.MatchNotches: lambda asked, _: f"Notches are placed to match on {listed(asked.pieces)}.",
    marking.TurnPitch: lambda asked, length: (
        f"The notches on the {asked.edge} of {asked.piece} move along it by {length(asked.by_mm)}."
    ),
    marking.LayPleat: lambda asked, length: (
        f"A pleat {length(asked.depth_mm)} deep is laid into {asked.piece}, and its folds marked."
    ),
    marking.LineWith: lambda asked, _: f"{asked.name}: {asked.piece} again, of {asked.cloth}.",
    marking.Wrap: lambda asked, length: (
        f"{asked.piece} has {length(asked.width_mm)} to wrap over beyond its {asked.edge}."
    ),
    girths.Alter: _alter,
    grading.Grade: _grade,
}
