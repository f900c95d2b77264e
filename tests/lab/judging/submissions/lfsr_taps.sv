// against lfsr n=4: wrong, 
module lfsr (input logic clk, rst_n, output logic [3:0] state);
  always_ff @(posedge clk or negedge rst_n)
    if (!rst_n) state <= 4'd1;
    else state <= {state[2:0], state[3] ^ state[0]};
endmodule
