// against serial-adder n=4: right
module adder(input clk, shift, a_in, b_in, output reg [3:0] sum, output reg carry);
reg [3:0] a=0,b=0; initial carry=0;
always @(posedge clk) if (shift) begin a<={a_in,a[3:1]}; b<={b_in,b[3:1]}; sum<={a[0]^b[0]^carry,sum[3:1]}; carry<=(a[0]&b[0])|(carry&(a[0]|b[0])); end
endmodule
`timescale 1ns/1ps
module tb;
  reg clk=0, shift=1, a=0, b=0; wire [3:0] s; wire c;
  adder dut(clk, shift, a, b, s, c);
  always #5 clk = ~clk;
  initial begin $dumpfile("x.vcd"); $dumpvars(0, tb); #100 $finish; end
endmodule
