// against serial-adder n=4: right
module adder (input clk, input shift, input a_in, input b_in,
              output reg [3:0] sum, output reg carry);
  reg [3:0] a, b;
  reg [1:0] t;
  initial begin a = 4'b0000; b = 4'b0000; carry = 1'b0; end
  always @* 
    case ({a[0], b[0], carry})
      3'b000: t = 2'b00;
      3'b001: t = 2'b01;
      3'b010: t = 2'b01;
      3'b011: t = 2'b10;
      3'b100: t = 2'b01;
      3'b101: t = 2'b10;
      3'b110: t = 2'b10;
      3'b111: t = 2'b11;
      default: t = 2'bxx;
    endcase
  always @(posedge clk)
    if (shift) begin
      a <= a >> 1; a[3] <= a_in;
      b <= b >> 1; b[3] <= b_in;
      sum <= {t[0], sum[3:1]};
      carry <= t[1];
    end
endmodule
