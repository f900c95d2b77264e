// against universal-shift-register n=4: wrong, 
module usr (input logic clk, input logic [1:0] mode, input logic [3:0] w, input logic right_in, left_in,
            output logic [3:0] word);
  always_ff @(posedge clk)
    case (mode)
      2'd1: word <= {word[2:0], left_in};
      2'd2: word <= {right_in, word[3:1]};
      2'd3: word <= w;
      default: ;
    endcase
endmodule
