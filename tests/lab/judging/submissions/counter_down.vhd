-- against binary-counter n=4: wrong, 
library ieee;
use ieee.std_logic_1164.all;
use ieee.numeric_std.all;
entity counter is
  port (clk : in std_logic; count : out unsigned(3 downto 0); terminal_count : out std_logic);
end entity;
architecture rtl of counter is
  signal c : unsigned(3 downto 0) := "0000";
begin
  process (clk) begin
    if rising_edge(clk) then
      c <= c - 1;
    end if;
  end process;
  count <= c;
  terminal_count <= '1' when c = 15 else '0';
end architecture;
