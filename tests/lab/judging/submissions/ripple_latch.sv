// against ripple-carry-adder n=4: refused, a latch is inferred
module ripple (input logic [3:0] a, b, input logic carry_in, output logic [3:0] sum, output logic carry);
  logic [4:0] total;
  always @* if (carry_in) total = a + b + 1; else if (a != 0) total = a + b;
  assign {carry, sum} = total;
endmodule
