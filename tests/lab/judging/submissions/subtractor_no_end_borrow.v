// against serial-subtractor n=4: wrong, carry-of-two
module subtractor (input clk, input shift, input a_in, input b_in,
                   output reg [3:0] difference, output no_borrow);
  reg [3:0] a = 0, b = 0;
  reg c = 1;
  assign no_borrow = c;
  always @(posedge clk) if (shift) begin
    a <= {a_in, a[3:1]};
    b <= {b_in, b[3:1]};
    difference <= {a[0] ^ ~b[0] ^ c, difference[3:1]};
    c <= a[0] & ~b[0];
  end
endmodule
