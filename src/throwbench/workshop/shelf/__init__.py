"""Materials: suppliers, waxes, oils, wicks, vessels, fixings, their lots and papers."""
