-- against serial-adder n=4: right
library ieee;
use ieee.std_logic_1164.all;

entity adder is
  port (clk, shift, a_in, b_in : in std_logic;
        sum : out std_logic_vector(3 downto 0);
        co : out std_logic);
end entity;

architecture rtl of adder is
  signal a, b, s : std_logic_vector(3 downto 0) := (others => '0');
  signal carry, sum_now : std_logic;
  signal c : std_logic := '0';
begin
  process (clk)
  begin
    if rising_edge(clk) then
      if shift = '1' then
        a <= a_in & a(3 downto 1);
        b <= b_in & b(3 downto 1);
        s <= (a(0) xor b(0) xor c) & s(3 downto 1);
        c <= (a(0) and b(0)) or (c and (a(0) or b(0)));
      end if;
    end if;
  end process;
  sum <= s;
  sum_now <= not c;
  carry <= not sum_now;
  co <= carry;
end architecture;
