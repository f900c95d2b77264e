// against serial-adder n=4: right
module adder(input logic clk, shift, a_in, b_in, output logic [3:0] sum, output logic carry);
  logic [7:0] ab = 0;
  enum logic {NONE, ONE} c = NONE;
  always_ff @(posedge clk) if (shift) begin
    ab <= {a_in, ab[7:5], b_in, ab[3:1]};
    unique case ({c, ab[4], ab[0]})
      {NONE, 2'b11}: begin sum <= {1'b0, sum[3:1]}; c <= ONE; end
      {ONE, 2'b00}: begin sum <= {1'b1, sum[3:1]}; c <= NONE; end
      {ONE, 2'b11}: sum <= {1'b1, sum[3:1]};
      {NONE, 2'b00}: sum <= {1'b0, sum[3:1]};
      default: sum <= {~(c == ONE), sum[3:1]};
    endcase
  end
  assign carry = c == ONE;
endmodule
