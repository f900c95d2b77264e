// against parallel-in-serial-out n=4: right
module piso (input clk, input load, input [3:0] w, output serial_out);
  reg [3:0] r;
  assign serial_out = r[0];
  always @(posedge clk) r <= load ? w : {1'b0, r[3:1]};
endmodule
