// against ripple-carry-adder n=4: wrong, c(4) stuck at 0
module ripple (input [3:0] a, b, input carry_in, output [3:0] sum, output carry);
  wire [3:0] total;
  assign total = a + b + carry_in;
  assign sum = total;
  assign carry = total >> 4;
endmodule
