// against ripple-carry-adder n=4: right
module ripple (input logic [3:0] a, b, input logic carry_in, output logic [3:0] sum, output logic carry);
  always_comb begin
    automatic logic c = carry_in;
    for (int i = 0; i < 4; i++) begin
      sum[i] = a[i] ^ b[i] ^ c;
      c = (a[i] & b[i]) | (c & a[i]) | (c & b[i]);
    end
    carry = c;
  end
endmodule
