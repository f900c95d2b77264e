// against ripple-carry-adder n=4: right
module ripple (input [3:0] a, b, input carry_in, output [3:0] sum, output carry);
  assign {carry, sum} = a + b + carry_in;
endmodule
