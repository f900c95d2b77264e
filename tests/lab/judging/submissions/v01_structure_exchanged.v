// against serial-adder n=4: right
module full_adder (input a, b, c, output s, co);
  wire p, g, t;
  xor (p, a, b);
  xor (s, p, c);
  and (g, a, b);
  and (t, p, c);
  or  (co, g, t);
endmodule

module dff #(parameter START = 1'b0) (input clk, en, d, output reg q);
  initial q = START;
  always @(posedge clk) if (en) q <= d;
endmodule

module shift_register #(parameter N = 4) (input clk, en, d, output [N-1:0] q);
  genvar i;
  generate
    for (i = 0; i < N; i = i + 1) begin : bit_
      if (i == N - 1) dff cell_(clk, en, d, q[i]);
      else dff cell_(.clk(clk), .en(en), .d(q[i+1]), .q(q[i]));
    end
  endgenerate
endmodule

module adder (input clk, shift, a_in, b_in, output [3:0] sum, output carry);
  wire [3:0] a, b;
  wire s, co;
  shift_register A(clk, shift, b_in, a);
  shift_register B(clk, shift, a_in, b);
  shift_register S(clk, shift, s, sum);
  dff C(clk, shift, co, carry);
  full_adder FA(a[0], b[0], carry, s, co);
endmodule
