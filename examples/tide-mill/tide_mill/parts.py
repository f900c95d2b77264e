"""The gate at the sluice of a tide mill."""

from edgewise.circuit.gates import gate

INHIBIT = gate("inhibit", "a, unless b is 1", ("a", "b"), ("and", "a", ("not", "b")), "&")
