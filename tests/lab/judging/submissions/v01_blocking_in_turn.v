// against serial-adder n=4: wrong, one-after-another
module serial_adder (input clk, shift, a_in, b_in, output reg [3:0] sum, output reg carry);
  reg [3:0] a = 0, b = 0;
  initial carry = 0;
  always @(posedge clk)
    if (shift) begin
      a[3] = a_in; a[2] = a[3]; a[1] = a[2]; a[0] = a[1];
      b[3] = b_in; b[2] = b[3]; b[1] = b[2]; b[0] = b[1];
      carry = (a[0] & b[0]) | (carry & (a[0] | b[0]));
      sum[3] = a[0] ^ b[0] ^ carry; sum[2] = sum[3]; sum[1] = sum[2]; sum[0] = sum[1];
    end
endmodule
