// against serial-adder n=4: right
`include "full.vh"
module adder (input clk, input shift, input a_in, input b_in,
              output reg [`WIDTH-1:0] sum, output reg carry);
  reg [`WIDTH-1:0] a = 0, b = 0;
  initial carry = 0;
  always @(posedge clk) if (shift) begin
    a <= {a_in, a[`WIDTH-1:1]};
    b <= {b_in, b[`WIDTH-1:1]};
    sum <= {`SUM(a[0], b[0], carry), sum[`WIDTH-1:1]};
    carry <= `MAJORITY(a[0], b[0], carry);
  end
endmodule
