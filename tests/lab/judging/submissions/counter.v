// against binary-counter n=4: right
module counter (input clk, output reg [3:0] count, output terminal_count);
  initial count = 0;
  always @(posedge clk) count <= count + 1;
  assign terminal_count = &count;
endmodule
