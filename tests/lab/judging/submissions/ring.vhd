-- against ring-counter n=4: right
library ieee;
use ieee.std_logic_1164.all;
entity ring is
  port (clk, rst : in std_logic; state : out std_logic_vector(3 downto 0));
end entity;
architecture rtl of ring is
  signal r : std_logic_vector(3 downto 0);
begin
  process (clk, rst) begin
    if rst = '1' then
      r <= "1000";
    elsif rising_edge(clk) then
      r <= r(0) & r(3 downto 1);
    end if;
  end process;
  state <= r;
end architecture;
