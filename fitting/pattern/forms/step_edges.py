"""What steps ask at edges and seams: added, moved, trued, their allowance, a facing or a band."""

from collections.abc import Sequence
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField
from fitting.pattern.calculation.working.edges import Add, Band, Facing, MoveSeam, SetAllowance
from fitting.pattern.calculation.working.truing import BOTH, TrueEdges
from fitting.pattern.forms.sheet import BoxRow, BoxTable
from fitting.pattern.forms.step import EdgeField, NameField, PieceField, StepForm

OWN_ALLOWANCES = 4
THREE_EDGES = ("edge", "second", "third")


class AddForm(StepForm):
    step, title = "add", "Add or take off at an edge"
    says = "Moves an edge outwards, parallel to itself; with a minus inwards."
    boxes = {"piece": "edge"}

    edge = EdgeField(label="Edge")
    by = LengthFormField(label="Add so much", signed=True, help_text="With a minus it is taken off.")

    def asked(self) -> Add:
        piece, edge = self.cleaned_data["edge"]
        return Add(piece=piece, edge=edge, by_mm=self.mm("by") or 0.0)


class MoveSeamForm(StepForm):
    step, title = "move seam", "Move a seam"
    says = "What one piece gains at the seam, the other loses: no girth changes."
    boxes = {"pieces": "other", "edges": "other"}

    one = EdgeField(label="This edge gains")
    other = EdgeField(label="This one loses")
    by = LengthFormField(label="So much", signed=True, help_text="With a minus the other way round.")

    def asked(self) -> MoveSeam:
        (one, edge), (other, their_edge) = self.cleaned_data["one"], self.cleaned_data["other"]
        return MoveSeam(pieces=(one, other), edges=(edge, their_edge), by_mm=self.mm("by") or 0.0)


class TrueForm(StepForm):
    step, title = "true", "True two edges"
    says = "Makes two edges that are sewn together as long as each other, but for the seam’s ease."
    boxes = {"pieces": "other", "edges": "other"}

    one = EdgeField(label="This edge")
    other = EdgeField(label="and this one")
    gives_way = forms.ChoiceField(
        label="Which gives way",
        choices=[(BOTH, "both, by half each"), ("one", "the first"), ("other", "the second")],
    )

    def asked(self) -> TrueEdges:
        (one, edge), (other, their_edge) = self.cleaned_data["one"], self.cleaned_data["other"]
        gives_way = {"one": one, "other": other}.get(self.cleaned_data["gives_way"], BOTH)
        return TrueEdges(pieces=(one, other), edges=(edge, their_edge), gives_way=gives_way)


class AllowanceForm(StepForm):
    step, title = "allowance", "Set the allowance"
    says = "What is added round a piece for its seams when it is cut, and where it is another."

    piece = PieceField(label="Piece")
    all = LengthFormField(
        label="All round it", required=False, help_text="Left empty: the usual one stays as it is."
    )

    def add_rows(self) -> None:
        for at in range(1, OWN_ALLOWANCES + 1):
            self.fields[f"edge_{at}"] = EdgeField(label=f"edge {at}", required=False)
            self.fields[f"own_{at}"] = LengthFormField(label=f"allowance of edge {at}", required=False)
            for name in (f"edge_{at}", f"own_{at}"):
                self.fields[name].widget.attrs["aria-label"] = self.fields[name].label
            self.fields[f"own_{at}"].unit = self.reader.system

    def tables(self) -> Sequence[BoxTable]:
        rows = [
            BoxRow(label=str(at), boxes=[self[f"edge_{at}"], self[f"own_{at}"]])
            for at in range(1, OWN_ALLOWANCES + 1)
        ]
        says = "A hem wants more, a fold nothing. An empty row is left out."
        heads = ("", "edge", "its allowance")
        return (BoxTable(caption="Edges with another allowance", heads=heads, rows=rows, says=says),)

    def asked(self) -> SetAllowance:
        piece, own, faults = self.cleaned_data["piece"], {}, []
        for at in range(1, OWN_ALLOWANCES + 1):
            edge, mm = self.cleaned_data.get(f"edge_{at}"), self.mm(f"own_{at}")
            if edge and edge[0] != piece:
                faults.append(Fault(f"edge_{at}", f"This edge is of {edge[0]}: choose one of {piece}."))
            elif edge and mm is not None:
                own[edge[1]] = mm
            elif edge or mm is not None:
                where, sentence = (
                    (f"own_{at}", "Say how much.") if edge else (f"edge_{at}", "Say of which edge.")
                )
                faults.append(Fault(where, sentence))
        if self.mm("all") is None and not own and not faults:
            faults.append(Fault("all", "Say an allowance, all round or at an edge."))
        if faults:
            raise Faults(faults)
        return SetAllowance(piece=piece, all_mm=self.mm("all"), edges_mm=own)


class StripForm(StepForm):
    """A new piece along edges that adjoin: up to three of them."""

    boxes = {"piece": "edge", "edges": "edge"}

    edge = EdgeField(label="Along this edge")
    second = EdgeField(label="and this one beside it", required=False)
    third = EdgeField(label="and this one", required=False)

    def strip(self, kind: type, *, size: str, called: str) -> Any:
        mm = self.mm(size) or 0.0
        if not mm:
            raise Faults([Fault(size, "Nothing is not enough: say how much.")])
        piece, edges = self.of_one_piece(THREE_EDGES)
        name = self.free_name("name", f"{called} of {piece}")
        return kind(piece=piece, edges=edges, name=name, **{f"{size}_mm": mm})


class FacingForm(StripForm):
    step, title = "facing", "Cut a facing"
    says = "Makes a piece of what lies within so much of an edge; the piece itself stays."

    width = LengthFormField(label="Width")
    name = NameField(label="Name of the facing", help_text="Left empty: “facing of …”.")

    def asked(self) -> Facing:
        return self.strip(Facing, size="width", called="facing")


class BandForm(StripForm):
    step, title = "band", "Draw a band, collar or cuff"
    says = "Makes a strip that is sewn to an edge: straight where the edge is, curved where it is."

    height = LengthFormField(label="Height")
    name = NameField(label="Name of the band", help_text="Left empty: “band of …”.")

    def asked(self) -> Band:
        return self.strip(Band, size="height", called="band")
