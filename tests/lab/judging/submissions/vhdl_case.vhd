-- against serial-adder n=4: wrong, carry-of-two
library ieee;
use ieee.std_logic_1164.all;

entity adder is
  port (clk, shift, a_in, b_in : in std_logic;
        sum : out std_logic_vector(3 downto 0);
        carry : out std_logic);
end entity;

architecture rtl of adder is
  signal a, b, s : std_logic_vector(3 downto 0) := (others => '0');
  signal t : std_logic;
  signal c : std_logic := '0';
begin
  process (clk)
  begin
    if rising_edge(clk) then
      if shift = '1' then
        a <= a_in & a(3 downto 1);
        b <= b_in & b(3 downto 1);
        s <= t & s(3 downto 1);
        c <= a(0) and b(0);
      end if;
    end if;
  end process;
  process (a, b, c)
    variable three : std_logic_vector(2 downto 0);
  begin
    three := a(0) & b(0) & c;
    case three is
      when "001" | "010" | "100" | "111" => t <= '1';
      when others => t <= '0';
    end case;
  end process;
  sum <= s;
  carry <= c;
end architecture;
