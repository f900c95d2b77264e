// against serial-adder n=4: right
package bits_pkg;
  typedef logic [3:0] word_t;
  function automatic logic maj(input logic x, y, z); return (x & y) | (x & z) | (y & z); endfunction
endpackage
module adder import bits_pkg::*; (input logic clk, shift, a_in, b_in, output word_t sum, output logic carry);
  word_t a = '0, b = '0;
  logic c = 0;
  always_ff @(posedge clk) begin
    if (shift) begin
      a <= word_t'({a_in, a} >> 1);
      b <= word_t'({b_in, b} >> 1);
      sum <= {^{a[0], b[0], c}, sum[3:1]};
      c <= maj(a[0], b[0], c);
    end
  end
  assign carry = c;
endmodule
