"""The box for the workshop's address."""

from django import forms


class AddressForm(forms.Form):
    address = forms.CharField(
        label="Workshop address",
        max_length=200,
        required=False,
        help_text="As in http://192.168.1.20:8650. Empty: none.",
    )
