// against ripple-carry-adder n=4: wrong, reversed sum
module ripple (input [3:0] a, b, input carry_in, output [0:3] sum, output carry);
  wire [3:0] s;
  assign {carry, s} = a + b + carry_in;
  assign {sum[0], sum[1], sum[2], sum[3]} = {s[0], s[1], s[2], s[3]};
endmodule
