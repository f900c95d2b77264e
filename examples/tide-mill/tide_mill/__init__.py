"""A tide mill: one of each kind of thing that a package can bring to edgewise."""
