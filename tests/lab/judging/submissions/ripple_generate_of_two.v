// against ripple-carry-adder n=4: wrong, carry-of-two
module ripple (input [3:0] a, b, input carry_in, output [3:0] sum, output carry);
  wire [4:0] c;
  assign c[0] = carry_in;
  genvar i;
  generate for (i = 0; i < 4; i = i + 1) begin : place
    assign sum[i] = a[i] ^ b[i] ^ c[i];
    assign c[i+1] = a[i] & b[i];
  end endgenerate
  assign carry = c[4];
endmodule
