// against serial-adder n=4: right
module adder(input clk, input shift, input a_in, input b_in, output reg [3:0] sum, output reg carry);
reg [3:0] a=0,b=0;
initial carry=0;
task push; inout [3:0] w; input d; begin w = {d, w[3:1]}; end endtask
reg s, c;
always @(posedge clk) if (shift) begin : step
  reg [3:0] t;
  s = a[0]^b[0]^carry;
  c = (a[0]&b[0])|(carry&(a[0]^b[0]));
  t = sum; push(t, s); sum <= t;
  t = a; push(t, a_in); a <= t;
  t = b; push(t, b_in); b <= t;
  carry <= c;
end
endmodule
