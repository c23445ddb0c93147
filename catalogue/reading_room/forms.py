"""What is laid over what, one set of choices for each garment; and an archive that is sent.

The choices stand in the address and are never faulty: one that a piece does not have was replaced before the
form is shown.
"""

from django import forms

from catalogue.reading_room.loading import Overlay, OverlayPiece, name_of
from catalogue.tracing.calculation.overlay import LIES, UPRIGHT


class UprightForm(forms.Form):
    upright = forms.ChoiceField(label="What stands upright", choices=list(UPRIGHT.items()))

    def __init__(self, overlay: Overlay) -> None:
        super().__init__(initial={"upright": overlay.upright})


class LaidForm(forms.Form):
    # The edge without a name is chosen by an empty word, and a browser sends none where one is required.
    use_required_attribute = False

    piece = forms.ChoiceField(label="Piece")
    lie = forms.ChoiceField(label="It lies", choices=list(LIES.items()))
    point = forms.ChoiceField(label="Held by")
    edge = forms.ChoiceField(label="Edge to hold against the others")

    def __init__(self, chosen: OverlayPiece) -> None:
        stood = chosen.stood
        super().__init__(
            prefix=str(chosen.reference.pk),
            initial={
                "piece": chosen.piece.pk,
                "lie": stood.lie,
                "point": chosen.point,
                "edge": chosen.edge,
            },
        )
        self.chosen = chosen
        has_several_plates = len({one.piece.plate_id for one in stood.choices}) > 1
        self.fields["piece"].choices = [
            (one.piece.pk, f"{one.piece} ({one.piece.plate})" if has_several_plates else str(one.piece))
            for one in stood.choices
        ]
        self.fields["point"].choices = [(name, name) for name in stood.points]
        self.fields["edge"].choices = [(name, name or "the whole outline") for name in stood.edges]

    def add_prefix(self, field_name: str) -> str:
        return name_of(self.chosen.reference, field_name)


class TakeOutForm(forms.Form):
    personal = forms.BooleanField(
        label="With wearers and their measures",
        required=False,
        help_text="And all that is reckoned from them: comparisons, fittings, alterations, toiles, pattern "
        "work, lays, dossiers, photographs that show them. Give that archive to nobody who may not see "
        "them. Without the tick none of it goes with it; a name typed into a note does.",
    )


class ArchiveForm(forms.Form):
    archive = forms.FileField(
        label="Archive",
        help_text="A .zip that was taken out of a workroom, up to 1 GB.",
        allow_empty_file=True,
    )
    overwrite = forms.BooleanField(
        label="Where both have a row and they differ, the archive’s is right",
        required=False,
        help_text="Without the tick what is here stays as it is. Either way nothing that is here is deleted.",
    )

    def __init__(self, *args, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.fields["archive"].widget.attrs["accept"] = ".zip,application/zip"
