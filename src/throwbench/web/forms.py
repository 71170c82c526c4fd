"""How fields look: the house's own template for one field, errors beside the box."""

from django.forms.renderers import DjangoTemplates


class HouseRenderer(DjangoTemplates):
    """Fields are drawn by `field.html`: label, box with its unit, last value, error."""

    field_template_name = "field.html"
    form_template_name = "form.html"
