-- against serial-adder n=4: right
library ieee;
use ieee.std_logic_1164.all;
use ieee.numeric_std.all;

entity serial_adder is
  generic (n : positive := 4);
  port (clk   : in  std_logic;
        shift : in  std_logic;
        a_in  : in  std_logic;
        b_in  : in  std_logic;
        sum   : out std_logic_vector(n - 1 downto 0);
        carry : out std_logic);
end entity serial_adder;

architecture two of serial_adder is
  signal a, b, s, a_next, b_next, s_next : unsigned(n - 1 downto 0) := (others => '0');
  signal c, c_next : std_logic := '0';
begin
  combinational : process (all)
    variable total : unsigned(1 downto 0);
  begin
    total := ('0' & a(0)) + ('0' & b(0)) + ('0' & c);
    a_next <= a; b_next <= b; s_next <= s; c_next <= c;
    if shift = '1' then
      a_next <= a_in & a(n - 1 downto 1);
      b_next <= b_in & b(n - 1 downto 1);
      s_next <= total(0) & s(n - 1 downto 1);
      c_next <= total(1);
    end if;
  end process;

  clocked : process (clk)
  begin
    if clk'event and clk = '1' then
      a <= a_next; b <= b_next; s <= s_next; c <= c_next;
    end if;
  end process;

  sum <= std_logic_vector(s);
  carry <= c;
end architecture two;
