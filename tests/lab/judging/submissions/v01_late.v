// against serial-adder n=4: wrong, late
module serial_adder #(parameter N = 4) (
  input clk, input rst, input shift, input a_in, input b_in,
  output reg [N-1:0] sum, output reg carry
);
  reg [N-1:0] a, b, s;
  reg c;
  always @(posedge clk) begin sum <= s; carry <= c; end
  wire [1:0] two = a[0] + b[0] + c;

  always @(posedge clk)
    if (rst) begin
      a <= 0; b <= 0; c <= 0;
    end else if (shift) begin
      a <= {a_in, a[N-1:1]};
      b <= {b_in, b[N-1:1]};
      s <= {two[0], s[N-1:1]};
      c <= two[1];
    end
endmodule
