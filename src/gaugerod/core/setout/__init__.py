"""Set-out: the datum, the set fields, and the lattices of modules over them."""
