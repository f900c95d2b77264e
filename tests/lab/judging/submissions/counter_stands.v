// against binary-counter n=4: wrong, CNT(0) stuck at 0
module counter (input clk, output [3:0] count, output terminal_count);
  assign count = 0;
  assign terminal_count = 0;
endmodule
