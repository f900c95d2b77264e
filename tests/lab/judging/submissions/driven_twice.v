// against serial-adder n=4: refused, C is driven twice, here and in line 20
module adder(clk, shift, a_in, b_in, sum, carry);
  input clk, shift, a_in, b_in;
  output [3:0] sum;
  output carry;
  reg [3:0] A, B, S;
  reg C;
  wire total, onward;

  assign total = A[0] ^ B[0] ^ C;
  assign onward = A[0] & B[0] | C & (A[0] | B[0]);
  assign sum = S;
  assign carry = C;
  always @(posedge clk) C <= A[0];

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
