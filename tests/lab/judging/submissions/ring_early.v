// against ring-counter n=4: wrong, early
module ring (input clk, output reg [3:0] state);
  initial state = 4'b0100;
  always @(posedge clk) state <= {state[0], state[3:1]};
endmodule
