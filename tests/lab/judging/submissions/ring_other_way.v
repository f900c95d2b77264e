// against ring-counter n=4: wrong, wrong-end
module ring (input clk, output reg [3:0] state);
  initial state = 4'b1000;
  always @(posedge clk) state <= {state[2:0], state[3]};
endmodule
