`define WIDTH 4
`define SUM(x, y, z) ((x) ^ (y) ^ (z))
`define MAJORITY(x, y, z) ((x) & (y) | (x) & (z) | (y) & (z))
