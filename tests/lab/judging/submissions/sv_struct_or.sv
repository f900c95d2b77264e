// against serial-adder n=4: wrong, or-for-sum
module serial_adder (
  input  logic clk, shift, a_in, b_in,
  output logic [3:0] sum,
  output logic carry
);
  typedef struct packed { logic [3:0] a, b, s; logic c; } state_t;
  state_t now, next;
  initial now = '0;

  always_comb begin
    next = now;
    if (shift) begin
      next.a = {a_in, now.a[3:1]};
      next.b = {b_in, now.b[3:1]};
      next.s = {now.a[0] | now.b[0] | now.c, now.s[3:1]};
      next.c = (now.a[0] & now.b[0]) | (now.c & (now.a[0] ^ now.b[0]));
    end
  end

  always_ff @(posedge clk) now <= next;

  assign {sum, carry} = {now.s, now.c};
endmodule
