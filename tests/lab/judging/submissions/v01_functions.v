// against serial-adder n=4: right
module adder (input clk, input shift, input a_in, input b_in,
              output [3:0] sum, output carry);
  function [1:0] add3;
    input x, y, z;
    add3 = {1'b0, x} + {1'b0, y} + {1'b0, z};
  endfunction
  function [3:0] pushed;
    input [3:0] word;
    input bit_in;
    integer i;
    begin
      for (i = 0; i < 3; i = i + 1) pushed[i] = word[i+1];
      pushed[3] = bit_in;
    end
  endfunction
  reg [3:0] a = 0, b = 0, s;
  reg c = 0;
  wire [1:0] t = add3(a[0], b[0], c);
  always @(posedge clk) if (shift) begin
    a <= pushed(a, a_in);
    b <= pushed(b, b_in);
    s <= pushed(s, t[0]);
    c <= t[1];
  end
  assign sum = s;
  assign carry = c;
endmodule
