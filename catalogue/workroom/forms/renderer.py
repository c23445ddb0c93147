from django.forms.renderers import TemplatesSetting


class PageForms(TemplatesSetting):
    """Forms drawn by templates/forms/: every field with its label, its help and its faults, in one shape."""

    form_template_name = "forms/form.html"
    field_template_name = "forms/field.html"
    formset_template_name = "forms/formset.html"
