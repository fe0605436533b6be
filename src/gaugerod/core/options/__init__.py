"""Options: the short list weighed by pieces, cuts, modules, money and looks."""
