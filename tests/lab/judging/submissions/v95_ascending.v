// against serial-adder n=4: right
module adder(clk, shift, a_in, b_in, sum, carry);
input clk, shift, a_in, b_in;
output [0:3] sum;
output carry;
reg [0:3] a, b, s;
reg carry;
integer k;
initial begin a = 0; b = 0; carry = 0; end
always @(posedge clk) begin
  if (shift == 1'b1) begin
    for (k = 3; k > 0; k = k - 1) begin
      a[k] <= a[k-1]; b[k] <= b[k-1]; s[k] <= s[k-1];
    end
    a[0] <= a_in; b[0] <= b_in;
    s[0] <= a[3] ^ b[3] ^ carry;
    case (a[3] + b[3] + carry)
      2, 3: carry <= 1;
      default: carry <= 0;
    endcase
  end
end
assign sum = s;
endmodule
