from django import forms


class ArchiveForm(forms.Form):
    archive = forms.FileField(
        label="Archive", help_text="A .zip that was taken out of a workroom.", allow_empty_file=True
    )
    overwrite = forms.BooleanField(
        label="Where both have a row and they differ, the archive’s is right",
        required=False,
        help_text="Without the tick what is here stays as it is. Either way nothing that is here is deleted.",
    )

    def __init__(self, *args, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.fields["archive"].widget.attrs["accept"] = ".zip,application/zip"
