// against serial-adder n=4: right
module serial_adder (input clk, shift, a_in, b_in, output reg [3:0] sum, output reg carry);
  reg [3:0] a = 0, b = 0;
  initial carry = 0;
  always @(posedge clk)
    if (shift) begin
      {carry, sum} = {(a[0] & b[0]) | (carry & (a[0] | b[0])), a[0] ^ b[0] ^ carry, sum[3:1]};
      a = {a_in, a[3:1]};
      b = {b_in, b[3:1]};
    end
endmodule
