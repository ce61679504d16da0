"""A telling taken up into the work: what a sentence may become, the form filled in, the amendment that writes it."""
