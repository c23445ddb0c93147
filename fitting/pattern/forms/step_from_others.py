"""What steps ask that take something from other pieces: an edge, or the shape of the layer beneath."""

from collections.abc import Sequence

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField
from fitting.pattern.calculation.working.layers import OuterLayer
from fitting.pattern.calculation.working.taking_over import END, START, TakeOverEdge
from fitting.pattern.forms.sheet import BoxRow, BoxTable
from fitting.pattern.forms.step import BoxGroup, EdgeField, EdgesField, PiecesField, StepForm

MOST_TAKEN_OVER = 4  # edges of one armhole


class TakeOverForm(StepForm):
    step, title = "take over edge", "Take over an edge"
    says = "Gives a piece the very edge of another one, as an armhole with the sleeve that belongs to it."
    boxes = {"pieces": "edge_1", "edges": "edge_1", "from": "from_1", "donor_edges": "from_1"}

    blend = LengthFormField(
        label="The neighbours run out to it over", required=False, help_text="Left empty: 2 in (5.1 cm)."
    )

    def add_rows(self) -> None:
        ends = [(END, "its end"), (START, "its start")]
        for at in range(1, MOST_TAKEN_OVER + 1):
            first = at == 1
            self.fields[f"edge_{at}"] = EdgeField(label=f"edge {at}", required=first)
            self.fields[f"from_{at}"] = EdgeField(label=f"edge {at} is taken from", required=first)
            self.fields[f"hold_{at}"] = forms.ChoiceField(
                label=f"held of edge {at}", choices=ends, required=False
            )
            for name in ("edge", "from", "hold"):
                field = self.fields[f"{name}_{at}"]
                field.widget.attrs["aria-label"] = field.label

    def tables(self) -> Sequence[BoxTable]:
        rows = [
            BoxRow(label=str(at), boxes=[self[f"{name}_{at}"] for name in ("edge", "from", "hold")])
            for at in range(1, MOST_TAKEN_OVER + 1)
        ]
        says = "An armhole is taken over whole: the front’s and the back’s part of it in one step."
        heads = ("", "this edge", "becomes this one", "and stays where it was at")
        return (BoxTable(caption="Edges", heads=heads, rows=rows, says=says),)

    def asked(self) -> TakeOverEdge:
        rows, faults = [], []
        for at in range(1, MOST_TAKEN_OVER + 1):
            edge, donor = (self.cleaned_data.get(f"{name}_{at}") for name in ("edge", "from"))
            if edge and donor:
                rows.append((*edge, *donor, self.cleaned_data.get(f"hold_{at}") or END))
            elif edge or donor:
                faults.append(Fault(f"from_{at}" if edge else f"edge_{at}", "Choose this edge too."))
        if faults:
            raise Faults(faults)
        pieces, edges, donors, donor_edges, hold = zip(*rows, strict=True)
        blend = {} if self.mm("blend") is None else {"blend_mm": self.mm("blend")}
        return TakeOverEdge(
            pieces=pieces, edges=edges, donors=donors, donor_edges=donor_edges, hold=hold, **blend
        )


class OuterLayerForm(StepForm):
    step, title = "outer layer", "Make an outer layer"
    says = "Makes of these pieces those of a layer that lies farther out: a lined jacket over its lining."
    boxes = {"keep": "keep"}

    pieces = PiecesField(label="Pieces")
    by = LengthFormField(
        label="It lies farther out by", help_text="The thickness between the two, measured once."
    )
    keep = EdgesField(label="Edges where both layers are sewn in one seam", required=False)

    def groups(self) -> Sequence[BoxGroup]:
        return (
            BoxGroup(boxes=[self["pieces"], self["by"]]),
            BoxGroup(boxes=[self["keep"]], css="many-ticks"),
        )

    def asked(self) -> OuterLayer:
        return OuterLayer(
            pieces=tuple(self.cleaned_data["pieces"]),
            by_mm=self.mm("by") or 0.0,
            keep_of=tuple(self.cleaned_data["keep"]),
        )
