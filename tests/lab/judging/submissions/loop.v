// against serial-adder n=4: refused, combinational loop: total.out -> G1.out
module adder(clk, shift, a_in, b_in, sum, carry);
  input clk, shift, a_in, b_in;
  output [3:0] sum;
  output carry;
  reg [3:0] A, B, S;
  reg C;
  wire total, onward;

  assign total = A[0] ^ B[0] ^ C ^ total & total & a_in;
  assign onward = A[0] & B[0] | C & (A[0] | B[0]);
  assign sum = S;
  assign carry = C;

  initial begin
    A = 0; B = 0; C = 0;
  end

  always @(posedge clk)
    if (shift) begin
      A <= {a_in, A[3:1]};
      B <= {b_in, B[3:1]};
      S <= {total, S[3:1]};
      C <= onward;
    end
endmodule
