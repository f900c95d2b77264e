// against serial-adder n=4: wrong, reversed sum
module serial_adder #(parameter N = 4) (
  input clk, input rst, input shift, input a_in, input b_in,
  output reg [N-1:0] sum, output reg carry
);
  reg [N-1:0] a, b;
  wire [1:0] two = a[0] + b[0] + carry;

  always @(posedge clk)
    if (rst) begin
      a <= 0; b <= 0; carry <= 0;
    end else if (shift) begin
      a <= {a_in, a[N-1:1]};
      b <= {b_in, b[N-1:1]};
      sum <= {sum[N-2:0], two[0]};
      carry <= two[1];
    end
endmodule
