// against serial-adder n=4: right
module serial_adder #(parameter N = 4) (
  input clk, input reset, input go, input x, input y,
  output reg [N-1:0] result, output reg co
);
  reg [N-1:0] a, b;
  wire [1:0] two = a[0] + b[0] + co;

  always @(posedge clk)
    if (reset) begin
      a <= 0; b <= 0; co <= 0;
    end else if (go) begin
      a <= {x, a[N-1:1]};
      b <= {y, b[N-1:1]};
      result <= {two[0], result[N-1:1]};
      co <= two[1];
    end
endmodule
