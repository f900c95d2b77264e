// against serial-subtractor n=4: wrong, exchanged a_in b_in
module subtractor (input clk, input shift, input a_in, input b_in,
                   output reg [3:0] difference, output no_borrow);
  reg [3:0] a = 0, b = 0;
  reg borrow = 0;
  assign no_borrow = ~borrow;
  always @(posedge clk) if (shift) begin
    a <= {b_in, a[3:1]};
    b <= {a_in, b[3:1]};
    difference <= {a[0] ^ b[0] ^ borrow, difference[3:1]};
    borrow <= ~a[0] & b[0] | borrow & ~(a[0] ^ b[0]);
  end
endmodule
